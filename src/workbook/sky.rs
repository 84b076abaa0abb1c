//! The weather of the open project: loaded once, from beside the project file or from what the program carries.
//!
//! Where there is no usable file, the sky is made from what the project keeps, and says so.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use super::SharedDisk;
use crate::climate::Climate;
use crate::model::{Entries, Fig, Inputs, Why, text::clean};
use crate::project::store;
use crate::stage;
use crate::stage::site::entries::weather::CLOCK_SHIFT;
use crate::stage::site::entries::{WEATHER_FILE, WEATHER_SHA256};
use crate::stage::site::{WEATHER, basis};
use crate::units::si::Dimension;

/// The weather that the program carries, by the name that a project file uses for it.
const CARRIED: [(&str, &[u8]); 1] =
    [("carried:greensboro-tmy3", include_bytes!("../../sample-projects/weather/greensboro-tmy3-reduced.csv"))];

/// A weather file as it is asked for.
#[derive(Clone, Debug, PartialEq)]
struct Wanted {
    name: String,
    checksum: Option<String>,
    /// Minutes.
    clock_shift: f64,
}

/// A climate with what it was asked or made from.
type Kept<K> = Option<(K, Fig<Arc<Climate>>)>;

/// The loaded weather. A clone shares what is loaded.
#[derive(Clone)]
pub struct Sky {
    disk: SharedDisk,
    folder: PathBuf,
    loaded: Kept<Wanted>,
    made: Kept<String>,
}

/// Whether the sky hangs on an entry.
pub fn reads(id: &str) -> bool {
    stage::entry(id).is_some_and(|spec| WEATHER.depends().contains(spec.id))
}

impl Sky {
    /// Weather for a project file; names of weather files are relative to its folder.
    pub fn new(disk: SharedDisk, project: &Path) -> Self {
        let folder = project.parent().map(Path::to_owned).unwrap_or_default();
        Self { disk, folder, loaded: None, made: None }
    }

    /// The climate that the entries ask for: the weather file, else the monthly means, else a clear sky.
    ///
    /// A file is read again only when another one is asked for or the last reading found none.
    pub fn over(&mut self, entries: &Entries) -> Fig<Arc<Climate>> {
        let inputs = Inputs::resolve(stage::entries(), entries, &Entries::new(), &[]);
        let from_file = wanted(&inputs).and_then(|wanted| self.file(wanted));
        let reason = match from_file {
            Ok(climate) => return Ok(climate),
            Err(Why::Missing(_)) => None,
            Err(why @ Why::Invalid(_)) => return Err(why),
            Err(why) => Some(why),
        };
        let made = self.made_from(&inputs, reason.as_ref());
        // The reason why the named file cannot be used tells more than what a made year would need.
        made.map_err(|missing| reason.unwrap_or_else(|| nothing(&inputs, missing)))
    }

    /// Forgets the loaded weather, so that the file is read again.
    pub fn forget(&mut self) {
        self.loaded = None;
    }

    fn file(&mut self, wanted: Wanted) -> Fig<Arc<Climate>> {
        if let Some((loaded, climate)) = &self.loaded
            && *loaded == wanted
        {
            return climate.clone();
        }
        let bytes = self.bytes(&wanted)?;
        let climate = climate(&wanted, &bytes);
        self.loaded = Some((wanted, climate.clone()));
        climate
    }

    fn bytes(&self, wanted: &Wanted) -> Fig<Vec<u8>> {
        if let Some((_, bytes)) = CARRIED.iter().find(|(carried, _)| *carried == wanted.name) {
            return Ok(bytes.to_vec());
        }
        let shown = clean(&wanted.name);
        self.disk
            .read(&self.folder.join(&wanted.name))
            .map_err(|error| Why::out_of_range(format_args!("weather file {shown}: {error}")))
    }

    fn made_from(&mut self, inputs: &Inputs, reason: Option<&Why>) -> Fig<Arc<Climate>> {
        let mut key = reason.map_or_else(String::new, ToString::to_string);
        for id in WEATHER.depends() {
            key.extend(inputs.typed_like(id).flat_map(|(id, typed)| ["\n", id, "=", typed]));
        }
        if let Some((from, climate)) = &self.made
            && *from == key
        {
            return climate.clone();
        }
        let climate = basis::made(inputs, reason.iter().map(ToString::to_string).collect());
        self.made = Some((key, climate.clone()));
        climate
    }
}

fn wanted(inputs: &Inputs) -> Fig<Wanted> {
    Ok(Wanted {
        name: inputs.get(&WEATHER_FILE)?.trim().to_owned(),
        checksum: inputs.given(&WEATHER_SHA256)?.map(|checksum| checksum.trim().to_owned()),
        clock_shift: inputs.given(&CLOCK_SHIFT)?.map_or(0.0, |shift| shift.si() / 60.0),
    })
}

/// What is missing where there is neither file nor a made year: the file, unless monthly means were begun.
fn nothing(inputs: &Inputs, missing: Why) -> Why {
    let begun = inputs.typed_like("site.monthly.*.sun").next().is_some();
    if begun { missing } else { Why::missing(WEATHER_FILE.spec.id) }
}

fn climate(wanted: &Wanted, bytes: &[u8]) -> Fig<Arc<Climate>> {
    let shown = clean(&wanted.name);
    let is_carried = CARRIED.iter().any(|(carried, _)| *carried == wanted.name);
    if let Some(expected) = wanted.checksum.as_ref().filter(|_| !is_carried) {
        let found = store::hash(bytes);
        if !found.eq_ignore_ascii_case(expected) {
            let found = &found[..12];
            return Err(Why::out_of_range(format_args!(
                "weather file {shown} is not the one this project was made with: its checksum begins {found}"
            )));
        }
    }
    Climate::with_clock_shift(&shown, bytes, wanted.clock_shift)
        .map(Arc::new)
        .map_err(|error| Why::out_of_range(format_args!("weather file {shown}: {}", clean(&error.to_string()))))
}
