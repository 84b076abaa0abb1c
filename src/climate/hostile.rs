//! Files that are no weather, or weather with something wrong in it, are refused or read: never a panic, never
//! nonsense.

use super::{Climate, HourOfYear};
use proptest::prelude::*;
use std::fmt::Write;

/// A field of a row of the file, its index in the row, and what stands there instead.
type Damage = (usize, usize, &'static str);

const ODD: [&str; 18] = [
    "",
    " ",
    "-9900",
    "0",
    "-0",
    "1e308",
    "-1e308",
    "NaN",
    "inf",
    "99999999999999999999",
    "1e-320",
    "24:00",
    "02/29/2000",
    "13/01/2001",
    "\"",
    "\u{1F600}",
    "12.5.1",
    "-",
];

/// A year of TMY3 rows: eight columns, some fields damaged.
fn file(damages: &[Damage], without: Option<usize>) -> String {
    let mut text = String::from("1,\"PLACE\",ST,-5,36.1,-79.95,273\n");
    text.push_str(
        "Date (MM/DD/YYYY),Time (HH:MM),GHI (W/m^2),DNI (W/m^2),DHI (W/m^2),Dry-bulb (C),RHum (%),Wspd (m/s)\n",
    );
    for hour in HourOfYear::all().filter(|hour| Some(hour.index()) != without) {
        let (month, day) = hour.date();
        let ending = hour.index() % 24 + 1;
        let light = if (8..=17).contains(&ending) { 300 } else { 0 };
        let fields = [
            format!("{month:02}/{day:02}/2001"),
            format!("{ending:02}:00"),
            light.to_string(),
            light.to_string(),
            (light / 3).to_string(),
            "12.5".to_owned(),
            "60".to_owned(),
            "2.1".to_owned(),
        ];
        let damaged = |(index, field): (usize, &String)| {
            let hit = damages.iter().find(|damage| damage.0 == hour.index() && damage.1 == index);
            hit.map_or(field.clone(), |damage| damage.2.to_owned())
        };
        let row: Vec<String> = fields.iter().enumerate().map(damaged).collect();
        let _ = writeln!(text, "{}", row.join(","));
    }
    text
}

fn is_sensible(climate: &Climate) -> bool {
    HourOfYear::all().zip(climate.hours()).all(|(at, hour)| {
        let light = &hour.sunlight;
        let numbers = [light.global, light.beam_normal, light.diffuse, hour.dry_bulb, hour.wind, hour.pressure];
        let sky = climate.sky_temperature(at).0;
        numbers.iter().all(|number| number.is_finite()) && sky.value.is_finite() && sky.value > 0.0
    })
}

#[test]
fn the_undamaged_file_is_read_and_an_hour_short_it_is_not() {
    assert!(is_sensible(&Climate::from_bytes("whole", file(&[], None).as_bytes()).unwrap()));
    assert!(Climate::from_bytes("short", file(&[], Some(4000)).as_bytes()).is_err());
}

#[test]
fn a_clock_shift_beyond_all_time_is_an_error() {
    let text = file(&[], None);
    for minutes in [f64::NAN, f64::INFINITY, 1e300, -1e300] {
        assert!(Climate::with_clock_shift("shifted", text.as_bytes(), minutes).is_err(), "{minutes}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(8))]

    #[test]
    fn a_damaged_file_is_refused_or_read(
        damages in prop::collection::vec((0..8760_usize, 0..8_usize, prop::sample::select(&ODD[..])), 1..4),
        shift in -200.0..200.0,
    ) {
        if let Ok(climate) = Climate::with_clock_shift("damaged", file(&damages, None).as_bytes(), shift) {
            prop_assert!(is_sensible(&climate));
        }
    }

    #[test]
    fn bytes_that_are_no_weather_are_refused(
        head in prop::sample::select(vec!["", "LOCATION,", "1,A,B,-5,36,-80,1\nDate (MM/DD/YYYY),Time", " 1234 CITY"]),
        bytes in prop::collection::vec(any::<u8>(), 0..400),
    ) {
        let whole = [head.as_bytes(), &bytes].concat();
        prop_assert!(Climate::from_bytes("noise", &whole).is_err());
    }
}
