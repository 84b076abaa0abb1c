//! The 1249 reference rows of the site stage, each through the library.
//!
//! Source of the rows: `data/site_public.csv`, made with pvlib 0.16.1 (sun, transposition, clear sky, row shade) and an
//! independent script (textbook relations, file sums); the source column names which. A row passes when
//! |x − v| ≤ max(tol_abs, tol_rel |v|).

#![allow(clippy::expect_used, clippy::unwrap_used, clippy::panic, reason = "helpers of tests fail by panicking")]

mod glazed;

use std::collections::BTreeMap;
use std::sync::OnceLock;

use sunharp::climate::{Albedo, Climate, Plane};
use sunharp::physics::clear_sky::{ClearAir, haurwitz, ineichen};
use sunharp::physics::horizon::{Horizon, HorizonPoint, Rows};
use sunharp::physics::mains::{self, Mains};
use sunharp::physics::monthly::{MeanDay, MonthOnLevel, diffuse_share, global_share};
use sunharp::physics::sky::{self, MoistAir};
use sunharp::physics::sun::{self, Air, Direction, Observer, Place};
use sunharp::physics::transposition::{SkyModel, Sunlight, Surface, on_plane};
use sunharp::physics::{atmosphere, cover, decomposition, extraterrestrial};
use sunharp::units::si::{
    Angle, Dimension, HeatFluxDensity, Length, Pressure, RadiantExposure, TemperatureInterval, Velocity, celsius,
    in_celsius,
};

const ROWS: &str = include_str!("data/site_public.csv");
const MEGAJOULE: f64 = 1e6;
const KILOWATT_HOUR: f64 = 3.6e6;

/// One row of the table.
struct Row {
    id: String,
    group: String,
    quantity: String,
    inputs: BTreeMap<String, String>,
    value: f64,
    allowed: f64,
}

impl Row {
    fn text(&self, key: &str) -> &str {
        self.inputs.get(key).unwrap_or_else(|| panic!("{} has no {key}", self.id))
    }

    fn number(&self, key: &str) -> f64 {
        self.text(key).parse().unwrap_or_else(|_| panic!("{}: {key} is no number", self.id))
    }

    fn angle(&self, key: &str) -> Angle {
        degrees(self.number(key))
    }

    fn length(&self, key: &str) -> Length {
        Length::from_si(self.number(key))
    }

    fn model(&self) -> SkyModel {
        match self.text("model") {
            "iso" => SkyModel::Isotropic,
            "hd" => SkyModel::HayDavies,
            "perez" => SkyModel::Perez,
            other => panic!("{}: no model {other}", self.id),
        }
    }

    fn plane(&self) -> Plane {
        Plane { tilt: self.angle("tilt"), azimuth: self.angle("azimuth"), albedo: Albedo::from(self.number("albedo")) }
    }

    fn climate(&self) -> &'static Climate {
        climate(self.text("file"))
    }

    fn unknown(&self) -> ! {
        panic!("{}: no {} in {}", self.id, self.quantity, self.group)
    }
}

fn degrees(value: f64) -> Angle {
    Angle::from_si(value.to_radians())
}

fn in_degrees(angle: Angle) -> f64 {
    angle.si().to_degrees()
}

/// Bytes of the weather files, trimmed to the columns that the reader uses (Miami as published).
pub fn weather(name: &str) -> &'static [u8] {
    match name {
        "greensboro" => include_bytes!("../../sample-projects/weather/greensboro-tmy3-reduced.csv"),
        "sandpoint" => include_bytes!("../../sample-projects/weather/sand-point-tmy3-reduced.csv"),
        "miami" => include_bytes!("../../sample-projects/weather/miami-tmy2.tm2"),
        other => panic!("no weather of {other}"),
    }
}

/// A climate, read once for all tests.
pub fn climate(name: &str) -> &'static Climate {
    static ALL: OnceLock<BTreeMap<&str, Climate>> = OnceLock::new();
    let all = ALL.get_or_init(|| {
        let read = |name| (name, Climate::from_bytes(name, weather(name)).expect("the file is whole"));
        ["greensboro", "sandpoint", "miami"].map(read).into()
    });
    &all[name]
}

fn rows() -> Vec<Row> {
    let mut reader = csv::Reader::from_reader(ROWS.as_bytes());
    let record = |record: csv::StringRecord| {
        let number = |index: usize| record[index].parse::<f64>().expect("a number");
        let pair = |pair: &str| pair.split_once('=').map(|(key, value)| (key.to_owned(), value.to_owned()));
        let value = number(4);
        Row {
            id: record[0].to_owned(),
            group: record[1].to_owned(),
            quantity: record[3].to_owned(),
            inputs: record[2].split(';').filter_map(pair).collect(),
            value,
            allowed: number(6).max(number(7) * value.abs()),
        }
    };
    reader.records().map(|row| record(row.expect("a row"))).collect()
}

fn compute(row: &Row) -> f64 {
    match row.group.as_str() {
        "sunpos" => sun_position(row),
        "declination" => in_degrees(sun::declination_cooper(row.number("n"))),
        "eot" => sun::equation_of_time_spencer(row.number("n")).si() / 60.0,
        "e0" => extraterrestrial::normal(row.number("n")).si(),
        "h0" => extraterrestrial::daily(row.angle("lat"), row.number("n")).si() / MEGAJOULE,
        "i0" => {
            let span = extraterrestrial::HourSpan { from: row.angle("w1"), to: row.angle("w2") };
            extraterrestrial::within(row.angle("lat"), row.number("n"), span).si() / MEGAJOULE
        }
        "daylength" => sun::day_length(row.angle("lat"), sun::declination_cooper(row.number("n"))).si() / 3600.0,
        "incidence" => incidence(row),
        "erbs_hour" => decomposition::hourly_fraction(row.number("kt")),
        "erbs_day" => decomposition::daily_fraction(row.number("KT"), row.angle("ws_deg")),
        "erbs_month" => decomposition::monthly_fraction(row.number("KT"), row.angle("ws_deg")).fraction,
        "profile" if row.quantity == "rt" => global_share(row.angle("w_deg"), row.angle("ws_deg")),
        "profile" => diffuse_share(row.angle("w_deg"), row.angle("ws_deg")),
        "monthly_tilt" => monthly_tilt(row),
        "cover" => glazed::cover_optics(row),
        "diffuse_angle" if row.quantity == "theta_sky" => in_degrees(cover::sky_equivalent_angle(row.angle("slope"))),
        "diffuse_angle" => in_degrees(cover::ground_equivalent_angle(row.angle("slope"))),
        "haurwitz" => haurwitz(row.angle("apparent_zenith_deg")).si(),
        "clear_ineichen" => clear_sky(row),
        "sky" => sky_law(row),
        "mains" => mains_water(row),
        "pressure" => atmosphere::pressure(row.length("alt_m")).si(),
        "wind" => wind(row),
        "horizon" => in_degrees(horizon(row).elevation(row.angle("azimuth"))),
        "sky_view" => horizon(row).sky_view(row.angle("tilt"), row.angle("azimuth")),
        "rows" => collector_rows(row),
        "weather" => weather_sums(row),
        "poa_hour" => hour_on_plane(row),
        "poa_total" => year_on_plane(row),
        "poa_obstructed" => {
            let year = row.climate().plane_behind(&row.plane(), row.model(), &horizon(row));
            year.year_total().si() / KILOWATT_HOUR
        }
        "absorbed" => glazed::absorbed_hour(row),
        "absorbed_total" => glazed::absorbed_year(row),
        "audit" => row.climate().audit().clock.expect("a year has light").shift_minutes,
        "optimum" => optimum(row),
        _ => row.unknown(),
    }
}

fn utc(text: &str) -> f64 {
    let part = |from: usize, to: usize| text[from..to].parse::<i32>().expect("a time");
    let small = |from, to| u8::try_from(part(from, to)).expect("a date");
    let seconds = part(11, 13) * 3600 + part(14, 16) * 60 + part(17, 19);
    sun::julian_day(part(0, 4), small(5, 7), small(8, 10)) + f64::from(seconds) / 86400.0
}

fn place(row: &Row) -> Place {
    Place { latitude: row.angle("lat"), longitude: row.angle("lon"), altitude: row.length("alt_m") }
}

fn sun_position(row: &Row) -> f64 {
    let air =
        Air { pressure: Pressure::from_si(row.number("pressure_pa")), temperature: celsius(row.number("temp_c")) };
    let time = utc(row.text("utc"));
    let position = Observer::new(place(row), air).and_then(|observer| observer.position(time)).expect("a position");
    match row.quantity.as_str() {
        "zenith_deg" => in_degrees(position.zenith),
        "apparent_zenith_deg" => in_degrees(position.apparent_zenith),
        "azimuth_deg" => in_degrees(position.azimuth),
        "equation_of_time_min" => sun::equation_of_time(time).expect("a year in range").si() / 60.0,
        _ => row.unknown(),
    }
}

fn incidence(row: &Row) -> f64 {
    let declination = sun::declination_cooper(row.number("n"));
    let sun = Direction::of_sun(row.angle("lat"), declination, row.angle("hour_angle_deg"));
    let plane = Direction::normal(row.angle("slope"), degrees(row.number("gamma_south0_west_pos") + 180.0));
    if row.quantity == "Rb" { sun.dot(plane) / sun.up } else { in_degrees(sun.angle_to(plane)) }
}

fn monthly_tilt(row: &Row) -> f64 {
    let day = MeanDay::new(row.angle("lat"), row.number("n")).expect("not polar");
    let albedo = row.number("albedo");
    let tilt = row.angle("slope");
    if row.quantity == "HT_iso_klein" {
        let daily = RadiantExposure::from_si(row.number("H") * MEGAJOULE);
        return day.on_equator_facing_plane(MonthOnLevel { daily, albedo }, tilt).daily.si() / MEGAJOULE;
    }
    let daily = day.extraterrestrial() * row.number("KT");
    day.on_plane(MonthOnLevel { daily, albedo }, tilt, degrees(row.number("gamma") + 180.0)).ratio
}

fn clear_sky(row: &Row) -> f64 {
    let sky = ineichen(ClearAir {
        apparent_zenith: row.angle("apparent_zenith_deg"),
        altitude: row.length("alt_m"),
        linke_turbidity: row.number("linke"),
        extraterrestrial_normal: HeatFluxDensity::from_si(row.number("e0")),
    });
    match row.quantity.as_str() {
        "ghi" => sky.global,
        "dni" => sky.split.beam_normal,
        "dhi" => sky.split.diffuse,
        _ => row.unknown(),
    }
}

fn sky_law(row: &Row) -> f64 {
    let air = || celsius(row.number("ta_c"));
    let moist = || MoistAir { air: air(), dew_point: celsius(row.number("tdp_c")) };
    match row.quantity.as_str() {
        "swinbank_c" => in_celsius(sky::swinbank(air())),
        "berdahl_martin_c" => in_celsius(sky::berdahl_martin(moist(), row.number("hour"))),
        "infrared_w_m2" => sky::clark_allen(moist(), row.number("opaque_tenths")).si(),
        "from_infrared_c" => {
            in_celsius(sky::from_infrared(HeatFluxDensity::from_si(row.number("ir_w_m2"))).expect("above zero"))
        }
        _ => row.unknown(),
    }
}

fn mains_water(row: &Row) -> f64 {
    let mains = Mains {
        annual_mean: celsius(row.number("t_annual_c")),
        monthly_spread: TemperatureInterval::from_si(row.number("dt_month_c")),
        southern: row.number("southern") > 0.5,
    };
    in_celsius(mains::temperature(mains, row.number("day")).temperature)
}

fn wind(row: &Row) -> f64 {
    let measured = atmosphere::MeasuredWind {
        speed: Velocity::from_si(row.number("u_ref")),
        height: row.length("z_ref"),
        exponent: row.number("exponent"),
    };
    atmosphere::wind_at(measured, row.length("z")).si()
}

fn horizon(row: &Row) -> Horizon {
    let point = |pair: &str| {
        let (azimuth, elevation) = pair.split_once(':').expect("azimuth:elevation");
        let angle = |text: &str| degrees(text.parse().expect("degrees"));
        HorizonPoint { azimuth: angle(azimuth), elevation: angle(elevation) }
    };
    let points: Vec<HorizonPoint> = row.text("table").split('|').filter(|text| *text != "none").map(point).collect();
    Horizon::new(&points).expect("a table")
}

fn collector_rows(row: &Row) -> f64 {
    let rows =
        Rows { tilt: row.angle("tilt"), azimuth: row.angle("azimuth"), slope_length: row.length("slope_length_m") };
    let sun = Direction::of_sky(row.angle("zenith"), row.angle("sun_azimuth"));
    match row.quantity.as_str() {
        "shaded_fraction" => rows.shaded_fraction(row.length("pitch_m"), sun),
        _ => rows.pitch_without_shade(sun).expect("the sun is up").si(),
    }
}

fn weather_sums(row: &Row) -> f64 {
    let climate = row.climate();
    let month = || row.inputs.get("month").map(|month| month.parse::<usize>().expect("a month") - 1);
    match row.quantity.as_str() {
        "ghi_kwh_m2" => climate.monthly_global()[month().expect("by month")].si() / KILOWATT_HOUR,
        "tdb_mean_c" => in_celsius(climate.monthly_temperature()[month().expect("by month")]),
        "days_min_le" => climate.days_at_or_below(celsius(row.number("threshold_c"))) as f64,
        "tdb_min_c" => in_celsius(climate.lowest_temperature()),
        "tdb_max_c" => in_celsius(climate.highest_temperature()),
        "ws_mean" => climate.mean_wind().si(),
        "t_annual_c" => in_celsius(climate.mean_temperature()),
        "dt_month_c" => climate.mains().monthly_spread.si(),
        "tsky_bm_mean_c" => clear_sky_mean(climate, month().expect("by month")),
        _ => row.unknown(),
    }
}

fn clear_sky_mean(climate: &Climate, month: usize) -> f64 {
    let of_month = |at: &sunharp::climate::HourOfYear| usize::from(at.date().0) == month + 1;
    let skies: Vec<f64> = sunharp::climate::HourOfYear::all()
        .filter(of_month)
        .map(|at| {
            let hour = &climate.hours()[at.index()];
            let kelvin = sunharp::units::si::Temperature::from_si;
            let moist = MoistAir { air: kelvin(hour.dry_bulb), dew_point: kelvin(hour.dew_point.expect("given")) };
            in_celsius(sky::berdahl_martin(moist, at.clock_hours()))
        })
        .collect();
    skies.iter().sum::<f64>() / skies.len() as f64
}

/// Greensboro's standard time, h.
const GREENSBORO_ZONE: f64 = -5.0;

fn hour_on_plane(row: &Row) -> f64 {
    let time = utc(row.text("mid_utc"));
    let year: i32 = row.text("mid_utc")[..4].parse().expect("a year");
    let day_of_year = (time + GREENSBORO_ZONE / 24.0 - sun::julian_day(year, 1, 1)).floor() + 1.0;
    let place = place(row);
    let observer = Observer::new(place, Air::standard(place.altitude)).expect("a place");
    let light = Sunlight {
        global: row.number("ghi"),
        beam_normal: row.number("dni"),
        diffuse: row.number("dhi"),
        extraterrestrial_normal: extraterrestrial::normal(day_of_year).si(),
        sun: observer.track().apparent(time).expect("a time"),
    };
    let surface = Surface::new(row.angle("tilt"), row.angle("azimuth"));
    let on = |model| on_plane(model, &light, &surface, row.number("albedo"));
    match row.quantity.as_str() {
        "aoi_deg" => in_degrees(on(SkyModel::Isotropic).incidence()),
        "beam" => on(SkyModel::Isotropic).beam,
        "ground" => on(SkyModel::Isotropic).ground,
        "total_iso" => on(SkyModel::Isotropic).total(),
        "total_hd" => on(SkyModel::HayDavies).total(),
        "total_perez" => on(SkyModel::Perez).total(),
        _ => row.unknown(),
    }
}

fn year_on_plane(row: &Row) -> f64 {
    let year = row.climate().plane(&row.plane(), row.model());
    match row.quantity.as_str() {
        "annual" => year.year_total().si() / KILOWATT_HOUR,
        "monthly" => year.month_total(row.text("month").parse().expect("a month")).si() / KILOWATT_HOUR,
        _ => row.unknown(),
    }
}

fn optimum(row: &Row) -> f64 {
    let mut months = [true; 12];
    if row.text("period") == "winter" {
        months[2..10].fill(false);
    }
    let plane = Plane { tilt: degrees(0.0), azimuth: row.angle("azimuth"), albedo: row.number("albedo").into() };
    let best = row.climate().best_tilt(&plane, row.model(), months);
    if row.quantity == "tilt_deg" { in_degrees(best.tilt) } else { best.total.si() / KILOWATT_HOUR }
}

/// Difference over what is allowed; a zero tolerance allows rounding alone.
fn miss(row: &Row, got: f64) -> f64 {
    (got - row.value).abs() / row.allowed.max(1e-12 * row.value.abs().max(1.0))
}

#[test]
fn every_reference_row_of_the_site_stage_is_met() {
    let rows = rows();
    assert_eq!(rows.len(), 1249);
    let mut worst: BTreeMap<&str, (f64, String, usize)> = BTreeMap::new();
    for row in &rows {
        let got = compute(row);
        let miss = miss(row, got);
        let entry = worst.entry(row.group.as_str()).or_default();
        entry.2 += usize::from(miss.is_nan() || miss > 1.0);
        if entry.1.is_empty() || miss.is_nan() || miss > entry.0 {
            let text = format!("{} {}: got {got}, table {}, allowed {}", row.id, row.quantity, row.value, row.allowed);
            (entry.0, entry.1) = (miss, text);
        }
    }
    for (group, (miss, text, failed)) in &worst {
        println!("{group:16} {failed:4} failed; worst {miss:.3} of the tolerance: {text}");
    }
    let failed: usize = worst.values().map(|entry| entry.2).sum();
    assert_eq!(failed, 0, "the worst row of each group is printed above");
}
