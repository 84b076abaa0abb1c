//! Pipes, fittings, pumps and the division of flow against libraries and another code.

use super::{LITRE_PER_MINUTE, cases, length, plain_run};
use serde_json::Value;
use sunharp::handbook::tube;
use sunharp::physics::fittings::{Fitting, FittingCount, HoseBarb};
use sunharp::physics::panel_row::{ReturnMode, Row};
use sunharp::physics::pipe::{DRAWN_TUBE_ROUGHNESS, Run};
use sunharp::physics::pump::{Circuit, CurveCoefficients, Duty, PumpCurve, Suction, operating_point};
use sunharp::physics::{drainback, glycol};
use sunharp::units::si::{Dimension, VolumeRate, in_celsius};

/// Churchill 1977 and Colebrook from a general-purpose fluids library.
#[test]
fn pipe_friction_equals_the_library() {
    for case in cases("pipe_friction") {
        let run = Run {
            bore: case.given("d_m"),
            length: case.given("length_m"),
            roughness: case.given("roughness_m"),
            fittings: Vec::new(),
            plain_loss: case.number("given.sum_K"),
        };
        let drop = run.pressure_drop(&case.liquid(), case.flow()).unwrap();
        case.near("velocity", drop.velocity.si(), case.expect("v"), 1e-6);
        case.near("Reynolds", drop.reynolds, case.expect("Re"), 1e-6);
        case.near("friction factor", drop.friction_factor, case.expect("f"), 1e-9);
        case.near("friction", drop.friction.si(), case.expect("dp_friction"), 1e-6);
        case.near("fittings", drop.fittings.si(), case.expect("dp_fittings"), 1e-6);
        case.near("total", drop.total().si(), case.expect("dp"), 1e-6);
        if let Some(colebrook) = case.value["expect"]["f_colebrook"].as_f64() {
            case.near("Colebrook", drop.friction_factor, colebrook, 0.027);
        }
    }
}

/// ASTM B88 dimensions.
#[test]
fn tube_contents_and_mass_follow_from_the_standard() {
    for case in cases("copper_tube_astm_b88") {
        let name = format!("{} in type {}", case.text("size"), case.text("type"));
        let size = tube::tube(&name).unwrap_or_else(|| panic!("no tube {name}"));
        case.near("outer diameter", size.od.si(), case.number("d_out_m"), 1e-6);
        case.near("bore", size.bore().si(), case.number("d_in_m"), 1e-6);
        case.near("contents", size.content_per_metre() * 1e3, case.number("litres_per_m"), 1e-6);
        case.near("mass", size.mass_per_metre(), case.number("copper_kg_per_m"), 1e-6);
    }
}

/// Hooper 1981 from a general-purpose fluids library.
#[test]
fn fittings_lose_what_the_two_k_method_says() {
    let named = [
        ("elbow90_std", Fitting::Elbow90),
        ("elbow90_long", Fitting::Elbow90Long),
        ("elbow45_std", Fitting::Elbow45),
        ("return180", Fitting::Return180),
        ("tee_run", Fitting::TeeRun),
        ("tee_branch", Fitting::TeeBranch),
        ("valve_gate_ball_full", Fitting::FullBoreValve),
        ("valve_globe", Fitting::GlobeValve),
        ("check_swing", Fitting::SwingCheck),
        ("check_lift", Fitting::LiftCheck),
    ];
    for case in cases("fittings") {
        for (name, fitting) in named {
            let fittings = vec![FittingCount { fitting, count: 1 }];
            let run = Run { fittings, ..plain_run(&case, "d_m", 0.0) };
            let drop = run.pressure_drop(&case.liquid(), case.flow()).unwrap();
            let k = fitting.loss_coefficient(drop.reynolds, run.bore.si());
            case.near(name, k, case.expect(&format!("fittings.{name}.K")), 1e-6);
            case.near(name, drop.total().si(), case.expect(&format!("fittings.{name}.dp_pa")), 1e-6);
        }
    }
}

/// Contraction and Borda–Carnot widening.
#[test]
fn a_hose_barb_loses_its_contraction_and_widening() {
    for case in cases("hose_barb_K") {
        let barb = HoseBarb { line_bore: case.given("d_m"), barb_bore: case.given("bore_m") };
        case.near("K", barb.loss_coefficient().unwrap(), case.number("expect"), 1e-9);
    }
}

/// The two-K constants of a case, as fittings of the program.
fn fitting_of(first: &Value) -> Fitting {
    match first.as_u64() {
        Some(800) => Fitting::Elbow90,
        Some(150) => Fitting::TeeRun,
        Some(300) => Fitting::FullBoreValve,
        Some(1500) => Fitting::SwingCheck,
        other => panic!("no fitting with K1 {other:?}"),
    }
}

/// Churchill, two-K and bisection with another code.
#[test]
fn pump_and_loop_meet_where_another_code_says() {
    for case in cases("pump") {
        let curve = CurveCoefficients {
            shutoff: case.number("given.pump_h0_m"),
            linear: case.number("given.pump_h1") / LITRE_PER_MINUTE,
            quadratic: case.number("given.pump_h2") / LITRE_PER_MINUTE.powi(2),
        };
        let pump = PumpCurve::from_coefficients(curve).unwrap();
        let runs = case.value["given"]["segments"].as_array().unwrap().iter().map(|segment| Run {
            bore: length(segment["d_m"].as_f64().unwrap()),
            length: length(segment["length_m"].as_f64().unwrap()),
            roughness: length(DRAWN_TUBE_ROUGHNESS),
            fittings: segment["fittings"].as_array().unwrap().iter().map(fitting_count).collect(),
            plain_loss: segment["K_plain"].as_f64().unwrap(),
        });
        let circuit = Circuit {
            runs: runs.collect(),
            linear_resistance: 0.0,
            quadratic_resistance: case.number("given.extra_kpa_per_lpm2") * 1e3 / LITRE_PER_MINUTE.powi(2),
            lift: case.given("static_lift_m"),
        };
        match operating_point(&pump, &circuit, &case.liquid()).unwrap() {
            Duty::Runs(duty) => {
                case.near("flow", duty.flow.si() / LITRE_PER_MINUTE, case.expect("flow_lpm"), 1e-6);
                case.near("head", duty.head.si(), case.expect("head_m"), 1e-6);
                case.near("power", duty.hydraulic_power.si(), case.expect("hydraulic_w"), 1e-6);
            }
            Duty::CannotLift { shutoff_head, .. } => {
                case.within("flow", 0.0, case.expect("flow_lpm"), 1e-12);
                case.near("shut-off head", shutoff_head.si(), case.expect("shutoff_head_m"), 1e-12);
            }
        }
    }
}

fn fitting_count(fitting: &Value) -> FittingCount {
    let count = u32::try_from(fitting["count"].as_u64().unwrap()).unwrap();
    FittingCount { fitting: fitting_of(&fitting["K1"]), count }
}

/// Hydrostatics, Churchill and IAPWS-95.
#[test]
fn drainback_loops_fill_and_siphon_as_computed() {
    for case in cases("drainback") {
        let loop_ = drainback::Drainback {
            top_above_level: case.given("z_top_above_reservoir_level_m"),
            lift: case.given("lift_to_top_m"),
            up: vec![plain_run(&case, "d_m", case.number("given.L_up_m"))],
            down: vec![plain_run(&case, "d_m", case.number("given.L_down_m"))],
            panels: sunharp::units::si::Pressure::from_si(0.0),
            flow: case.flow(),
            water: case.temperature("t_c"),
            atmosphere: Dimension::from_si(case.expect("p_atm_pa")),
        };
        let state = loop_.state().unwrap();
        let boiling = state.top_boiling.unwrap();
        case.near("fill head", state.fill_head.si(), case.expect("fill_head_m"), 1e-3);
        case.near("siphon head", state.siphon_head.si(), case.expect("running_head_siphon_m"), 2e-3);
        case.near("top pressure", state.top_pressure.si(), case.expect("p_top_siphon_pa_abs"), 1e-3);
        case.within("boiling at the top", in_celsius(boiling.temperature), case.expect("tsat_top_c"), 0.1);
        case.within("margin", boiling.margin.si(), case.expect("boil_margin_k"), 0.1);
        case.near("velocity", state.return_velocity.si(), case.expect("velocity_m_s"), 1e-6);
        case.near("Froude", state.froude, case.expect("froude"), 1e-6);
        let siphons = state.return_state == drainback::Return::Siphon;
        assert_eq!(Some(siphons), case.value["expect"]["siphon_ok"].as_bool());
        let fills = drainback::can_fill(case.given("pump_shutoff_head_m"), state.fill_head);
        assert_eq!(Some(fills), case.value["expect"]["pump_can_fill"].as_bool());
    }
}

/// Hydrostatics with IAPWS-95 and Raoult.
#[test]
fn suction_head_is_what_air_and_vapour_leave() {
    for case in cases("npsh") {
        let liquid = glycol::mixture(case.number("given.x_mass")).unwrap();
        let temperature = case.temperature("t_c");
        let vapour_pressure = glycol::vapour_pressure(liquid, temperature).unwrap();
        case.near("vapour pressure", vapour_pressure.si(), case.expect("p_vap_pa"), 1e-3);
        let suction = Suction {
            surface_pressure: Dimension::from_si(case.expect("p_atm_pa") + case.number("given.surface_gauge_pa")),
            loss: Dimension::from_si(case.number("given.suction_loss_kpa") * 1e3),
            vapour_pressure,
            flooded_height: case.given("flooded_m"),
            density: liquid.density(temperature).si(),
        };
        case.near("head", suction.net_positive_head().unwrap().si(), case.expect("npsh_available_m"), 1e-3);
    }
}

/// Newton's method on the loop equations with another code.
#[test]
fn flow_divides_over_panels_as_another_code_says() {
    for case in cases("array_flow") {
        let row = Row {
            panels: case.count("panels") as usize,
            panel_linear: 0.0,
            panel_quadratic: case.number("given.R_panel_pa_per_lpm2") / LITRE_PER_MINUTE.powi(2),
            segment_quadratic: case.number("given.R_segment_pa_per_lpm2") / LITRE_PER_MINUTE.powi(2),
            return_mode: if case.text("given.return_mode") == "direct" {
                ReturnMode::Direct
            } else {
                ReturnMode::Reverse
            },
        };
        let total = VolumeRate::from_si(case.number("given.total_lpm") * LITRE_PER_MINUTE);
        let division = row.divide(total).unwrap();
        for (i, flow) in division.flows.iter().enumerate() {
            let want = case.expect(&format!("flow_lpm.{i}"));
            case.near("panel flow", flow.si() / LITRE_PER_MINUTE, want, 1e-6);
        }
        case.near("evenness", division.least_over_mean, case.expect("min_over_mean"), 1e-6);
        case.near("row drop", division.pressure_drop.si(), case.expect("dp_array_pa"), 1e-6);
    }
}
