//! Collectors with their pipes and exchangers, against libraries and another code.

use super::{cases, plain_run};
use sunharp::physics::fluid::Fluid;
use sunharp::physics::panel_row::Series;
use sunharp::physics::pipe::Run;
use sunharp::physics::pipe_loss::{CoolingRun, InsulatedPipe, PipeAndAir};
use sunharp::physics::thermosiphon::Thermosiphon;
use sunharp::physics::{coil, exchanger, glycol};
use sunharp::units::si::{Dimension, LineConductance, in_celsius};

/// Area under the loop's temperature diagram with another code.
#[test]
fn natural_flow_balances_weight_and_friction() {
    for case in cases("thermosiphon") {
        let sun = case.number("given.G") * case.number("given.tau_alpha");
        let plant = Thermosiphon {
            area: case.given("area_m2"),
            efficiency_factor: case.number("given.F_prime"),
            loss: case.given("UL"),
            absorbed: Dimension::from_si(sun),
            air: case.temperature("Ta_c"),
            inlet: case.temperature("Tin_c"),
            collector_height: case.given("collector_height_m"),
            return_height: case.given("tank_return_height_m"),
            pipes: vec![Run {
                plain_loss: case.number("given.pipe_K"),
                ..plain_run(&case, "pipe_d_m", case.number("given.pipe_length_m"))
            }],
            risers: case.count("risers"),
            riser_bore: case.given("riser_d_m"),
            riser_length: case.given("riser_length_m"),
            liquid: Fluid::Water,
        };
        let got = plant.natural_flow().unwrap().unwrap();
        case.near("flow", got.flow.si(), case.expect("m_kg_s"), 2e-3);
        case.near("flow per area", got.flow.si() / plant.area.si(), case.expect("m_per_area"), 2e-3);
        case.near("heat", got.heat.si(), case.expect("Qu_w"), 2e-3);
        case.near("outlet", in_celsius(got.outlet), case.expect("Tout_c"), 2e-3);
        case.near("drive", got.drive.si(), case.expect("drive_pa"), 2e-3);
        case.near("Reynolds", got.reynolds, case.expect("Re_pipe"), 2e-3);
    }
}

/// Panel by panel with another code.
#[test]
fn a_series_of_panels_is_one_collector() {
    for case in cases("series_panels") {
        let series = Series {
            panels: case.count("panels"),
            area_each: case.given("area_each"),
            optical_gain: case.number("given.FRta"),
            loss: case.given("FRUL"),
            capacity_rate: case.number("given.C"),
        };
        let whole = series.equivalent().unwrap();
        case.near("factor", whole.factor, case.expect("factor"), 1e-9);
        case.near("optical gain", whole.optical_gain, case.expect("FRta_series"), 1e-9);
        case.near("loss", whole.loss.si(), case.expect("FRUL_series"), 1e-9);
        let spread = case.number("given.Ti") - case.number("given.Ta");
        let heat = whole.area.si() * (whole.optical_gain * case.number("given.G") - whole.loss.si() * spread);
        case.near("heat", heat, case.expect("Qu_w"), 1e-9);
        let outlet = case.number("given.Ti") + heat / case.number("given.C");
        case.near("outlet", outlet, case.expect("T_out"), 1e-9);
    }
}

/// Effectiveness–NTU from a general-purpose heat transfer library.
#[test]
fn exchangers_transfer_what_the_library_says() {
    for case in cases("exchanger") {
        let plate = exchanger::Counterflow {
            conductance: case.given("UA"),
            hot_rate: case.number("given.C_hot"),
            cold_rate: case.number("given.C_cold"),
        };
        let inlets = exchanger::Inlets { hot: case.temperature("T_hot_in"), cold: case.temperature("T_cold_in") };
        let got = plate.transfer(inlets).unwrap();
        case.near("NTU", got.transfer_units, case.expect("NTU"), 1e-9);
        case.near("effectiveness", got.effectiveness, case.expect("effectiveness"), 1e-9);
        case.near("heat", got.heat.si(), case.expect("Q_w"), 1e-9);
        case.near("hot out", in_celsius(got.hot_out), case.expect("T_hot_out"), 1e-9);
        case.near("cold out", in_celsius(got.cold_out), case.expect("T_cold_out"), 1e-9);
    }
}

/// de Winter 1975, against collector and exchanger solved as two linear equations.
#[test]
fn the_collector_exchanger_factor_equals_solving_both_together() {
    for case in cases("de_winter") {
        let given = exchanger::CollectorExchanger {
            area: case.given("area"),
            loss: case.given("FRUL"),
            collector_rate: case.number("given.C_collector"),
            storage_rate: case.number("given.C_storage"),
            effectiveness: case.number("given.effectiveness"),
        };
        let factor = given.factor().unwrap();
        case.near("factor", factor, case.expect("FRprime_over_FR"), 1e-9);
        let (storage, air) = (case.number("given.T_storage"), case.number("given.Ta"));
        let absorbed = case.number("given.FRta") * case.number("given.G");
        let loss = given.loss.si();
        let heat = given.area.si() * factor * (absorbed - loss * (storage - air));
        case.near("heat", heat, case.expect("Qu_w"), 1e-9);
        // Collector: Q = A (absorbed − loss (T_in − T_a)). Exchanger: Q = ε C_min (T_in + Q/C_c − T_s).
        let least = given.effectiveness * given.collector_rate.min(given.storage_rate);
        let rise = 1.0 - least / given.collector_rate;
        let gain = given.area.si() * (absorbed + loss * air);
        let inlet = (gain * rise + least * storage) / (least + given.area.si() * loss * rise);
        case.near("collector inlet", inlet, case.expect("T_collector_in"), 1e-9);
        case.near("heat of both", gain - given.area.si() * loss * inlet, heat, 1e-9);
    }
}

/// Gnielinski and Churchill–Chu with another code.
#[test]
fn coils_conduct_as_another_code_says() {
    for case in cases("coil") {
        let given = coil::Coil {
            od: case.given("d_out"),
            bore: case.given("d_in"),
            length: case.given("length"),
            wall: case.given("k_wall"),
        };
        let service = coil::CoilService {
            liquid: glycol::mixture(case.number("given.x_mass")).unwrap(),
            flow: case.given("mdot"),
            liquid_mean: case.temperature("T_fluid_mean"),
            tank: case.temperature("T_tank"),
        };
        let got = given.conductance(&service).unwrap();
        case.near("Reynolds", got.reynolds, case.expect("Re"), 1e-6);
        case.near("inside", got.inside, case.expect("h_in"), 1e-3);
        case.near("outside", got.outside, case.expect("h_out"), 1e-3);
        case.within("wall", in_celsius(got.wall), case.expect("T_wall_out"), 0.02);
        case.near("conductance", got.conductance.si(), case.expect("UA"), 1e-3);
        case.near("NTU", got.transfer_units, case.expect("NTU"), 1e-3);
        let effectiveness = exchanger::coil_effectiveness(got.transfer_units);
        case.near("effectiveness", effectiveness, case.expect("effectiveness"), 1e-3);
    }
}

/// Conduction through a cylinder with another code.
#[test]
fn insulated_pipes_lose_what_a_cylinder_does() {
    for case in cases("pipe_insulation") {
        let pipe = InsulatedPipe {
            od: case.given("d_out"),
            thickness: case.given("thickness"),
            conductivity: case.given("k"),
            surface: case.number("given.h_out"),
        };
        let ends = PipeAndAir { pipe: case.temperature("T_pipe"), air: case.temperature("Ta") };
        let LineConductance(loss) = pipe.conductance().unwrap();
        let scale = case.number("given.length") * (ends.pipe.si() - ends.air.si());
        case.near("loss per metre", loss, case.expect("U_per_m"), 1e-9);
        case.near("UA", loss * case.number("given.length"), case.expect("UA"), 1e-9);
        case.near("loss", loss * scale, case.expect("loss_w"), 1e-9);
        case.near("bare loss", pipe.bare().conductance().unwrap().0 * scale, case.expect("bare_loss_w"), 1e-9);
        case.near("surface", in_celsius(pipe.surface_temperature(ends).unwrap()), case.expect("T_surface"), 1e-9);
        case.near("critical radius", pipe.critical_radius().unwrap().si(), case.expect("critical_radius_m"), 1e-9);
    }
}

/// Exponential decay with another code.
#[test]
fn liquid_cools_along_a_pipe() {
    for case in cases("pipe_temperature_drop") {
        let run = CoolingRun {
            conductance: case.given("UA"),
            capacity_rate: case.number("given.C"),
            ends: PipeAndAir { pipe: case.temperature("Tin"), air: case.temperature("Ta") },
        };
        let cooled = run.cooled().unwrap();
        case.near("outlet", in_celsius(cooled.outlet), case.expect("Tout"), 1e-9);
        case.near("loss", cooled.loss.si(), case.expect("loss_w"), 1e-9);
    }
}
