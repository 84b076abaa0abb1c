//! The figures of the absorber stage.

use super::{BOND, BORE, CUT, HARP, HEAT, PLATE, SOLDER, STAGNATION};
use crate::model::{Fig, TradeUnits, Value, Why};
use crate::stage::{Axis, Figure, Group, Solution, general};
use crate::units::Kind::{
    Area, Count, HeatCapacity, Length, LossCoefficient, LossSlope, Number, Percent, Power, Temperature,
    TemperatureDifference, Volume,
};
use crate::units::si::{self, Dimension, difference};
use crate::units::{Kind, Quantity, tape};

fn harp(s: &Solution) -> Fig<&super::Harp> {
    s.absorber.harp.as_ref().map_err(Clone::clone)
}

fn heat(s: &Solution) -> Fig<&super::Heat> {
    s.absorber.heat.as_ref().map_err(Clone::clone)
}

fn stagnation(s: &Solution) -> Fig<&super::stagnation::Stagnation> {
    s.absorber.stagnation.as_ref().map_err(Clone::clone)
}

/// The hole of a key.
fn at(holes: &[si::Length], key: &str) -> Fig<si::Length> {
    let hole: usize = key.parse().map_err(|_| Why::missing("absorber.hole"))?;
    let position = hole.checked_sub(1).and_then(|index| holes.get(index));
    position.copied().ok_or_else(|| Why::out_of_range(format_args!("there is no hole {key}")))
}

/// Marks of the holes on the tape.
static MARKS: Group = Group { name: "marks on the headers", entries: &["project.tape"], groups: &[&HARP] };

fn plain(kind: Kind, si: f64) -> Value {
    Quantity::new(kind, si).into()
}

/// Symbols of the collector equations that several figures share.
const W: (&str, &str) = ("W", "absorber.pitch");
const U_L: (&str, &str) = ("U_L", "absorber.loss_coefficient");
const F: (&str, &str) = ("F", "absorber.fin_efficiency");
const F_PRIME: (&str, &str) = ("F'", "absorber.efficiency_factor");
const F_R: (&str, &str) = ("F_R", "absorber.heat_removal_factor");

/// The figures of this file.
pub static FIGURES: &[Figure] = &[
    Figure::new("absorber.header_length", "header length", Length, &HARP, |s, _| Ok(harp(s)?.header_length.into()))
        .tape()
        .by(
            "running-dimensions",
            "{left} + {sheet} + {right}",
            &[("left", "absorber.stub_left"), ("sheet", "absorber.sheet_across"), ("right", "absorber.stub_right")],
        ),
    Figure::new("absorber.sheet_across", "sheet across the risers", Length, &HARP, |s, _| {
        Ok(harp(s)?.sheet_width.into())
    })
    .tape()
    .by("running-dimensions", "{n} × {W}, unless a sheet width is entered", &[("n", "absorber.riser_count"), W]),
    Figure::new("absorber.hole", "hole from the left end", Length, &HARP, |s, key| {
        at(&harp(s)?.holes, key).map(Value::from)
    })
    .axis(Axis::Hole)
    .tape()
    .by(
        "running-dimensions",
        "hole i = {left} + (sheet − (n − 1){W})/2 + (i − 1){W}, each from the same end",
        &[("left", "absorber.stub_left"), W],
    ),
    Figure::new("absorber.hole_upper", "hole in the upper header", Length, &HARP, |s, key| {
        at(&harp(s)?.upper_holes, key).map(Value::from)
    })
    .axis(Axis::Hole)
    .tape()
    .by("running-dimensions", "as in the lower header; a mirrored one begins with the right stub", &[]),
    Figure::word("absorber.hole_mark", "hole as it is marked", &MARKS, |s, key| {
        let position = at(&harp(s)?.holes, key)?;
        let mark = tape::mark(position, general::division(&s.inputs)).map_err(Why::out_of_range)?;
        let (found, residual) = (position.si() * 1e3, mark.residual.si() * 1e3);
        let left = if residual.abs() < 0.05 { String::new() } else { format!(" {residual:+.1} mm") };
        Ok(Value::Text(format!("{found:.1} mm = {mark}{left}")))
    })
    .axis(Axis::Hole)
    .by("running-dimensions", "the hole in millimetres, the nearest mark of the tape, and what is left", &[]),
    Figure::new("absorber.stepping_error", "error if the pitch is stepped", Length, &MARKS, |s, _| {
        Ok(harp(s)?.stepping_error(general::division(&s.inputs))?.into())
    })
    .by("running-dimensions", "({n} − 1)(pitch rounded to the tape − {W})", &[("n", "absorber.riser_count"), W]),
    Figure::new("absorber.pitch", "riser pitch as laid out", Length, &HARP, |s, _| Ok(harp(s)?.riser_pitch.into())).by(
        "running-dimensions",
        "the pitch entered, or sheet width / {n} where none is",
        &[("n", "absorber.riser_count")],
    ),
    Figure::new("absorber.edge_strip", "sheet beyond the outermost riser", Length, &HARP, |s, _| {
        Ok(harp(s)?.edge_width.into())
    })
    .by(
        "running-dimensions",
        "({sheet} − ({n} − 1){W})/2; half a pitch unless a sheet width is entered",
        &[("sheet", "absorber.sheet_across"), ("n", "absorber.riser_count"), W],
    ),
    Figure::new("absorber.riser_cut", "riser cut length", Length, &CUT, |s, _| Ok(harp(s)?.riser_cut.clone()?.into()))
        .tape()
        .by(
            "riser-cut",
            "tee: {c} − 2 × {t}; collar or hole: {c} − header diameter + 2 × insertion",
            &[("c", "absorber.header_spacing"), ("t", "absorber.tee_shoulder")],
        ),
    Figure::new("absorber.riser_length_total", "riser tube in one panel", Length, &CUT, |s, _| {
        let harp = harp(s)?;
        Ok((harp.riser_cut.clone()? * harp.riser_count as f64).into())
    })
    .shown_in(TradeUnits::SITE)
    .by(
        "riser-cut",
        "{n} × {cut}, without saw cuts and waste",
        &[("n", "absorber.riser_count"), ("cut", "absorber.riser_cut")],
    ),
    Figure::new("absorber.diagonal", "diagonal of the harp", Length, &HARP, |s, _| Ok(harp(s)?.diagonal().into()))
        .tape()
        .by("square-check", "√(((n − 1){W})² + {c}²)", &[W, ("c", "absorber.header_spacing")]),
    Figure::new("absorber.area", "absorber area", Area, &PLATE, |s, _| {
        let harp = harp(s)?;
        Ok((harp.sheet_width * harp.plate_length).into())
    })
    .by(
        "running-dimensions",
        "{across} × {along}",
        &[("across", "absorber.sheet_across"), ("along", "absorber.sheet_along")],
    ),
    Figure::new("absorber.bond_conductance", "bond conductance", Kind::LineConductance, &BOND, |s, _| {
        Ok(plain(Kind::LineConductance, s.absorber.bond.clone()?.conductance().si()))
    })
    .by(
        "bond",
        "film: C_b = k {b} × {share} / {γ}; fillet: {share} × 2∫ k dx/({γ} + R − √(R² − x²))",
        &[("b", "absorber.bond_width"), ("share", "absorber.bond_length"), ("γ", "absorber.bond_film")],
    ),
    Figure::new("absorber.fin_efficiency", "fin efficiency F", Percent, &HEAT, |s, _| {
        Ok(plain(Percent, heat(s)?.point.fin_efficiency))
    })
    .by(
        "fin",
        "F = tanh(x)/x, x = m({W} − B)/2, m = √({U_L}/(k {δ}))",
        &[W, U_L, ("δ", "absorber.sheet_thickness")],
    ),
    Figure::new("absorber.efficiency_factor", "collector efficiency factor F'", Percent, &HEAT, |s, _| {
        Ok(plain(Percent, heat(s)?.point.efficiency_factor))
    })
    .by(
        "efficiency-factor",
        "F' = (1/{U_L}) / ({W} [1/({U_L}(B + ({W} − B){F})) + 1/{C_b} + 1/(π D_i {h})])",
        &[W, U_L, F, ("C_b", "absorber.bond_conductance"), ("h", "absorber.tube_coefficient")],
    ),
    Figure::new("absorber.heat_removal_factor", "heat removal factor F_R", Percent, &HEAT, |s, _| {
        Ok(plain(Percent, heat(s)?.point.heat_removal_factor))
    })
    .by("heat-removal", "F_R = {F'} × κ(1 − e^(−1/κ)), κ = ṁ c_p/(A {U_L} {F'})", &[F_PRIME, U_L]),
    Figure::new("absorber.loss_coefficient", "heat loss coefficient U_L", LossCoefficient, &HEAT, |s, _| {
        Ok(heat(s)?.point.total_loss.into())
    })
    .by(
        "losses",
        "U_L = {U_t} + {U_b} + {U_e}",
        &[("U_t", "absorber.top_loss"), ("U_b", "absorber.back_loss"), ("U_e", "absorber.edge_loss")],
    ),
    Figure::new("absorber.top_loss", "loss through the glass U_t", LossCoefficient, &HEAT, |s, _| {
        Ok(heat(s)?.point.top_loss.into())
    })
    .by("cover-network", "U_t = 1/(1/(h_c + h_r,pc) + 1/(h_w + h_o)) at the working point", &[]),
    Figure::new("absorber.back_loss", "loss through the back U_b", LossCoefficient, &HEAT, |s, _| {
        Ok(heat(s)?.point.back_loss.into())
    })
    .by("losses", "U_b = 1/({t}/k(T) + board + outside)", &[("t", "enclosure.back_thickness")]),
    Figure::new("absorber.edge_loss", "loss through the edge U_e", LossCoefficient, &HEAT, |s, _| {
        Ok(heat(s)?.point.edge_loss.into())
    })
    .by("losses", "U_e = 2(width + length) height / (A R_e)", &[]),
    Figure::new("absorber.tube_coefficient", "tube to liquid h", LossCoefficient, &HEAT, |s, _| {
        Ok(heat(s)?.point.tube_coefficient.into())
    })
    .by("tube-side", "h = Nu k/D_i in a riser at the working point", &[]),
    Figure::new("absorber.reynolds", "Reynolds number in a riser", Number, &HEAT, |s, _| {
        Ok(plain(Number, heat(s)?.point.reynolds))
    })
    .by("tube-side", "Re = 4 ṁ/(n π D_i μ)", &[]),
    Figure::new("absorber.useful_power", "useful heat, one panel", Power, &HEAT, |s, _| {
        Ok(heat(s)?.point.useful_power.into())
    })
    .by("heat-removal", "Q = A {F_R} (S − {U_L}(T_i − T_a)) at 900 W/m², 20 °C air, 45 °C in", &[F_R, U_L]),
    Figure::new("absorber.outlet_rise", "rise through the panel", TemperatureDifference, &HEAT, |s, _| {
        let point = &heat(s)?.point;
        Ok(difference(point.outlet, point.conditions.inlet).into())
    })
    .by("heat-removal", "Q/(ṁ c_p) at the working point", &[]),
    Figure::new("absorber.eta0", "efficiency at no difference η₀", Percent, &HEAT, |s, _| {
        Ok(plain(Percent, heat(s)?.curve.eta0))
    })
    .by("efficiency-curve", "η = η₀ − a₁x − a₂G x², fitted on absorber area", &[]),
    Figure::new("absorber.a1", "loss of the curve a₁", LossCoefficient, &HEAT, |s, _| Ok(heat(s)?.curve.a1.into())).by(
        "efficiency-curve",
        "η = η₀ − a₁x − a₂G x², fitted on absorber area",
        &[],
    ),
    Figure::new("absorber.a2", "bend of the curve a₂", LossSlope, &HEAT, |s, _| {
        Ok(plain(LossSlope, heat(s)?.curve.a2))
    })
    .by("efficiency-curve", "η = η₀ − a₁x − a₂G x², fitted on absorber area", &[]),
    Figure::new("absorber.eta0_gross", "η₀ on the box's outside area", Percent, &HEAT, |s, _| {
        let collector = s.absorber.collector.as_ref().map_err(Clone::clone)?;
        Ok(plain(Percent, heat(s)?.curve.on_area(collector.gross_ratio()).eta0))
    })
    .by("efficiency-curve", "{η₀} × absorber area / outside area", &[("η₀", "absorber.eta0")]),
    Figure::new("absorber.heat_capacity", "heat capacity, one panel", HeatCapacity, &HEAT, |s, _| {
        Ok(heat(s)?.capacity.total.into())
    })
    .by("heat-capacity", "sheet + tubes + liquid + half the insulation + 0.01 a₁ of the glass", &[]),
    Figure::new("absorber.content", "content of the harp", Volume, &BORE, |s, _| Ok(harp(s)?.content().into())).by(
        "heat-capacity",
        "bores of risers and headers",
        &[],
    ),
    Figure::new("absorber.stagnation_standard", "empty in the sun, standard", Temperature, &STAGNATION, |s, _| {
        Ok(stagnation(s)?.standard.into())
    })
    .by("stagnation", "S(T) = U_L(T)(T − T_a) at 1000 W/m², 30 °C, 1 m/s", &[]),
    Figure::new("absorber.stagnation_severe", "empty on a hot day", Temperature, &STAGNATION, |s, _| {
        Ok(stagnation(s)?.severe.into())
    })
    .by("stagnation", "S(T) = U_L(T)(T − T_a) at 1100 W/m², 35 °C, 1 m/s", &[]),
    Figure::new("absorber.stagnation_site", "empty in the site's worst hour", Temperature, &STAGNATION, |s, _| {
        stagnation(s)?.site.map(Value::from).ok_or_else(|| Why::missing("site.weather_file"))
    })
    .by("stagnation", "S(T) = U_L(T)(T − T_a) in the hottest hours of the weather file, 1 m/s", &[]),
    Figure::new("absorber.stagnation_worst", "stagnation temperature", Temperature, &STAGNATION, |s, _| {
        Ok(stagnation(s)?.worst.into())
    })
    .by(
        "stagnation",
        "the largest of {standard}, {severe} and {site}",
        &[
            ("standard", "absorber.stagnation_standard"),
            ("severe", "absorber.stagnation_severe"),
            ("site", "absorber.stagnation_site"),
        ],
    ),
    Figure::new("absorber.solder_solidus", "solder begins to melt", Temperature, &SOLDER, |s, _| {
        Ok(s.absorber.solder.clone()?.solidus.into())
    })
    .by("solder-table", "solidus of the alloy in the handbook table", &[]),
    Figure::new("absorber.joint_count", "pressure joints, one panel", Count, &HARP, |s, _| {
        Ok(Quantity::count(harp(s)?.riser_count * 2).into())
    })
    .by("riser-cut", "two for each of {n} risers", &[("n", "absorber.riser_count")]),
];
