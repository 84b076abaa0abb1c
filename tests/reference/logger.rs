//! Logger files as strangers' loggers write them, against sums by hand.
//!
//! The sentinels 85.0 and −127 of one-wire sensors were seen in public issue threads (verified); limits of jumps,
//! standing still and gaps are rules of this project.

#![allow(clippy::format_collect)] // rows of a table read best as the line that they are

use super::close;
use sunharp::logger::{Channel, Columns, Log, QUARTERS, digest};
use sunharp::physics::fluid::Fluid;
use sunharp::units::si::{Dimension, celsius};

fn read(text: &str) -> Log {
    digest(text.as_bytes(), &Columns::default()).unwrap()
}

/// Rows at a step from midnight on 2026-05-06, a Wednesday.
fn rows(step: u32, range: std::ops::Range<u32>, row: impl Fn(u32) -> String) -> String {
    let stamp = |i: u32| {
        let at = i * step;
        format!("2026-05-{:02}T{:02}:{:02}:{:02}", 6 + at / 86_400, at / 3600 % 24, at / 60 % 60, at % 60)
    };
    range.map(|i| format!("{},{}\n", stamp(i), row(i))).collect()
}

/// Inlet, outlet and flow that no sensor keeps to the last digit: 0.01 K up and down in step.
fn liquid(i: u32, inlet: f64, outlet: f64, flow: f64) -> String {
    let wobble = if i.is_multiple_of(2) { 0.01 } else { -0.01 };
    format!("{:.2},{:.2},{flow}", inlet + wobble, outlet + wobble)
}

/// 40 to 50 °C at 3.5 L/min.
fn usual(i: u32) -> String {
    liquid(i, 40.0, 50.0, 3.5)
}

/// 3.5 L/min with 10 K for one hour at 45 °C: 2.4145 kWh (computed with a reference library).
#[test]
fn an_hour_of_flow_has_its_heat() {
    let log = read(&format!("time,t_in,t_out,flow_lpm\n{}", rows(60, 600..661, usual)));
    let day = &log.days[0];
    let at = celsius(day.temperature.unwrap());
    close(day.temperature.unwrap(), 45.0, 1e-9);
    let heat = day.gained * Fluid::Water.density(at).si() * Fluid::Water.specific_heat(at).si();
    close(heat / 3.6e6, 2.4145, 0.002);
    close(day.volume, 0.21, 1e-9);
    close(day.lost, 0.0, 1e-12);
    assert_eq!((log.used, day.covered.iter().map(|seconds| u32::from(*seconds)).sum::<u32>()), (61, 3600));
}

#[test]
fn heat_sent_to_the_sky_stands_apart() {
    let text = rows(60, 0..121, |i| if i <= 60 { usual(i) } else { liquid(i, 40.0, 38.0, 1.0) });
    let day = read(&format!("time,t_in,t_out,flow_lpm\n{text}")).days[0].clone();
    close(day.gained / (3.5e-3 / 60.0 * 10.0 * 3600.0), 1.0, 0.01);
    close(day.lost / (1e-3 / 60.0 * 2.0 * 3600.0), 1.0, 0.02);
}

/// One reading of 85.0 and one of −127 among steady rows: both are named and left out, and cost no more than a bridged
/// step.
#[test]
fn sentinels_are_named_and_left_out() {
    let text = rows(60, 600..661, |i| match i {
        620 => "85.0,50,3.5".to_owned(),
        630 => "40,-127,3.5".to_owned(),
        _ => usual(i),
    });
    let log = read(&format!("time,t_in,t_out,flow_lpm\n{text}"));
    assert_eq!(log.faults.power_up[Channel::Inlet as usize].count, 1);
    assert_eq!(log.faults.lost[Channel::Outlet as usize].count, 1);
    close(log.days[0].gained, 3.5e-3 / 60.0 * 10.0 * 3600.0, 1e-9);
    let told = log.faults.sentences().join("\n");
    assert!(
        told.contains("inlet: 1 readings of exactly 85.0") && told.contains("outlet: 1 readings of -127"),
        "{told}"
    );
}

#[test]
fn a_tank_that_passes_85_degrees_is_believed() {
    let text = rows(60, 0..60, |i| format!("{:.2}", 84.5 + f64::from(i) * 0.05));
    let log = read(&format!("time,t_tank_hi\n{text}"));
    assert!(!log.faults.power_up[Channel::TankHigh as usize].any());
}

#[test]
fn doubled_rows_count_once_and_the_later_one_stands() {
    let wrong = rows(60, 600..661, |i| liquid(i, 40.0, 49.0, 3.5));
    let right = rows(60, 600..661, usual);
    let doubled: String =
        wrong.lines().zip(right.lines()).map(|(wrong, right)| format!("{wrong}\n{right}\n")).collect();
    let log = read(&format!("time,t_in,t_out,flow_lpm\n{doubled}"));
    assert_eq!((log.rows, log.used, log.faults.doubled.count), (122, 61, 61));
    close(log.days[0].gained, 3.5e-3 / 60.0 * 10.0 * 3600.0, 1e-9);
}

#[test]
fn rows_that_go_back_in_time_are_left_out_and_counted() {
    let text = rows(60, 600..660, usual) + &rows(60, 610..670, usual);
    let log = read(&format!("time,t_in,t_out,flow_lpm\n{text}"));
    assert_eq!(log.faults.backward.count, 49);
    assert_eq!(log.faults.doubled.count, 1);
    assert_eq!(log.faults.backward.first_line, 62);
}

/// Clocks went forward by an hour on Sunday 2026-03-29 at 2 o'clock in much of Europe, and back on 2026-10-25 at 3.
#[test]
fn summer_time_is_seen_where_no_offset_is_written() {
    let line = |day: &str, minute: u32| format!("{day}T{:02}:{:02}:00,20\n", minute / 60, minute % 60);
    let spring: String = (0..120).chain(180..300).map(|minute| line("2026-03-29", minute)).collect();
    let log = read(&format!("time,t_amb\n{spring}"));
    assert_eq!((log.faults.summer_time.len(), log.faults.gap_count), (1, 0));
    close(log.span.1 - log.span.0, 239.0 * 60.0, 1e-9);
    let autumn: String = (0..180).chain(120..300).map(|minute| line("2026-10-25", minute)).collect();
    let log = read(&format!("time,t_amb\n{autumn}"));
    assert_eq!((log.faults.summer_time.len(), log.faults.backward.count), (1, 0));
    let offsets = "time,t_amb\n2026-03-29T01:59:00+01:00,20\n2026-03-29T03:00:00+02:00,20\n";
    let log = read(offsets);
    close(log.span.1 - log.span.0, 60.0, 1e-9);
    assert_eq!(log.offset, Some(3600.0));
}

#[test]
fn a_gap_is_not_integrated_over() {
    let with_sun = |i: u32| format!("{},{}", usual(i), 899 + i % 2 * 2);
    let text = rows(60, 600..630, with_sun) + &rows(60, 690..721, with_sun);
    let log = read(&format!("time,t_in,t_out,flow_lpm,g_poa\n{text}"));
    assert_eq!(log.faults.gap_count, 1);
    close(log.faults.gap_seconds, 61.0 * 60.0, 1e-9);
    close(log.days[0].irradiation, 900.0 * 59.0 * 60.0, 1e-6);
    close(log.days[0].gained, 3.5e-3 / 60.0 * 10.0 * 59.0 * 60.0, 1e-9);
}

#[test]
fn a_sensor_that_stands_still_while_the_pump_runs_is_stuck() {
    let text = rows(60, 600..700, |i| format!("{:.1},48.0,3.5,1", 40.0 + f64::from(i) * 0.01));
    let log = read(&format!("time,t_in,t_out,flow_lpm,pump\n{text}"));
    assert_eq!(log.faults.stuck_count, 1);
    assert_eq!(log.faults.stuck[0].channel, Channel::Outlet);
    close(log.days[0].gained, 0.0, 1e-12);
    let resting = text.replace(",3.5,1\n", ",0,0\n");
    assert_eq!(read(&format!("time,t_in,t_out,flow_lpm,pump\n{resting}")).faults.stuck_count, 0);
}

#[test]
fn a_jump_is_left_out_unless_the_pump_has_just_started() {
    let text = rows(10, 0..100, |i| if i == 50 { "60,4,1" } else { "40,4,1" }.to_owned());
    let log = read(&format!("time,t_out,flow_lpm,pump\n{text}"));
    assert_eq!(log.faults.jumps[Channel::Outlet as usize].count, 1);
    let start = rows(10, 0..100, |i| if i < 50 { "20,0,0" } else { "60,4,1" }.to_owned());
    assert_eq!(read(&format!("time,t_out,flow_lpm,pump\n{start}")).faults.jumps[Channel::Outlet as usize].count, 0);
}

/// The same rows in the dialect of a logger with semicolons, decimal commas, days first, °F and gpm.
#[test]
fn every_dialect_gives_the_same_sums() {
    let plain = read(&format!("time,t_in,t_out,flow_lpm\n{}", rows(60, 600..661, usual)));
    let flow = 3.5 / 3.785_411_784;
    let fahrenheit = |i: u32| if i.is_multiple_of(2) { "104,018;122,018" } else { "103,982;121,982" };
    let other = rows(60, 600..661, |i| format!("{};{}", fahrenheit(i), format!("{flow:.9}").replace('.', ",")));
    let other = other.replace("2026-05-06T", "06.05.2026 ").replace(":00,10", ":00;10");
    let columns = Columns {
        time: "Zeit".to_owned(),
        channels: Columns::default().channels.map(|name| match name.as_str() {
            "t_in" => "Vor lauf".to_owned(),
            "t_out" => "#3".to_owned(),
            "flow_lpm" => "Q".to_owned(),
            _ => name,
        }),
    };
    let text = format!("\u{feff}Log of hut 4\nZeit;Vor lauf (°F);x;Q\n;°F;°F;gpm\n{other}");
    let log = digest(text.as_bytes(), &columns).unwrap();
    close(log.days[0].gained / plain.days[0].gained, 1.0, 1e-6);
    assert_eq!((log.rows, log.used, log.faults.sentences().len()), (61, 61, 0));
}

#[test]
fn a_million_bad_rows_are_one_line() {
    let mut text = String::from("time,t_in\n2026-05-06T00:00:00,20\n");
    for _ in 0..1_000_000 {
        text.push_str("yesterday,hot\n");
    }
    let log = read(&text);
    assert_eq!(log.faults.unreadable_times.count, 1_000_000);
    assert_eq!(log.faults.sentences().len(), 1);
    let bad_cells: String = rows(1, 0..86_399, |_| "hot".to_owned());
    let log = read(&format!("time,t_in\n{bad_cells}"));
    assert_eq!(log.faults.sentences(), ["inlet: 86399 cells that are no number, first at line 2: left out"]);
}

#[test]
fn files_that_are_no_table_are_refused_in_words() {
    for (text, words) in [("", "no column 'time'"), ("a,b\n1,2\n", "'a', 'b'"), ("time,t_in\n", "none of its 0 rows")] {
        let error = digest(text.as_bytes(), &Columns::default()).unwrap_err().to_string();
        assert!(error.contains(words), "{error}");
    }
}

/// Any bytes give a log or an error, never a panic.
#[test]
fn torn_and_odd_files_do_no_harm() {
    let whole = rows(60, 0..40, |_| "40;50;900".to_owned()).replace(",40;", ";40;");
    let whole = format!("time;t_in;t_out;g_poa\n{whole}");
    for cut in (0..whole.len()).step_by(7) {
        let _ = digest(&whole.as_bytes()[..cut], &Columns::default());
        let mut torn = whole.clone().into_bytes();
        torn[cut] = b'"';
        let _ = digest(torn.as_slice(), &Columns::default());
        torn[cut] = 0xFF;
        let _ = digest(torn.as_slice(), &Columns::default());
    }
    for text in ["time\n9999999999999\n", "time,t_in\n2200-12-31,1e308\n1900-01-01,-1e308\n", ";;;;\n;;;\n", "\u{feff}"]
    {
        let _ = digest(text.as_bytes(), &Columns::default());
    }
    assert_eq!(QUARTERS, 96);
}
