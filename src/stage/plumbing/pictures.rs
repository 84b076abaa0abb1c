//! Pictures of the loop: pump and loop in one plot, and the loop by its heights with flows and pressures.

use super::hydraulics::working_liquid;
use super::pipework::Line;
use crate::model::scene::{Part, Scene, Shape};
use crate::model::{Chart, ChartAxis, Fig, TradeUnits, Why};
use crate::physics::pump::Duty;
use crate::stage::{Solution, general};
use crate::units::si::{Dimension, VolumeRate};
use crate::units::{Kind, Quantity, System};

/// Points of a curve.
const POINTS: usize = 40;

fn known<T>(fig: &Fig<T>) -> Fig<&T> {
    fig.as_ref().map_err(Clone::clone)
}

/// The pump's curve as far as its label, how it goes on beyond it, the loop's curve, and where they meet.
pub fn pump_curve(s: &Solution) -> Fig<Chart> {
    let pump = known(&s.plumbing.working.pump)?;
    let cost = known(&s.plumbing.working.cost)?;
    let liquid = working_liquid(s.plumbing.fluid.clone()?);
    let greatest = pump.curve.greatest_flow().si();
    let flows = (0..=POINTS).map(|at| VolumeRate::from_si(greatest * at as f64 / POINTS as f64));
    let top = pump.curve.shutoff_head().si() * 1.1;
    let end = pump.label_end;
    let of = |flow: VolumeRate| (flow.si(), pump.curve.head(flow).si().max(0.0));
    let (mut of_pump, mut drawn_on, mut of_loop) = (Vec::new(), vec![of(end)], Vec::new());
    for flow in flows {
        if flow < end { &mut of_pump } else { &mut drawn_on }.push(of(flow));
        let head = cost.circuit.head(&liquid, flow).map_err(Why::out_of_range)?.si();
        if head <= top {
            of_loop.push((flow.si(), head));
        }
    }
    of_pump.push(of(end));
    let design = known(&s.plumbing.row)?.flow.si();
    let chart = Chart::new(
        "pump and loop",
        ChartAxis::of("flow", Kind::Flow, (0.0, greatest)),
        ChartAxis::of("head", Kind::Length, (0.0, top)),
    )
    .line("pump", of_pump)
    .line("pump, beyond its label", drawn_on)
    .line("loop", of_loop)
    .mark("design flow", (design, design))
    .mark("label ends", (end.si(), end.si()));
    Ok(match pump.duty {
        Duty::Runs(point) => chart.mark("runs here", (point.flow.si(), point.flow.si())),
        Duty::CannotLift { .. } => chart,
    })
}

/// The loop unrolled: along the way from the panels' outlet, up by its height. Flows and pressures stand beside it.
pub fn unrolled(s: &Solution) -> Fig<Scene> {
    let network = known(&s.plumbing.layout.network)?;
    let profile = known(&s.plumbing.layout.profile)?;
    let lines: &Vec<Line> = known(&s.plumbing.lines)?;
    let cost = known(&s.plumbing.pipe)?;
    let system = s.inputs.get(&general::UNITS).unwrap_or(System::Si);
    let millimetres = |metres: f64| metres * 1e3;
    let gap = lines.iter().map(|line| line.run.length.si()).sum::<f64>() * 0.02;
    let mut shapes = Vec::new();
    let mut labels = Vec::new();
    let mut x = gap;
    for (index, (line, run)) in lines.iter().zip(&cost.runs).enumerate() {
        let (from, to) = profile.ends(index);
        let end = x + line.run.length.si();
        let at = |x: f64, height: f64| (millimetres(x), millimetres(height));
        shapes.push(Shape::Line { part: Part::Tube, from: at(x, from.si()), to: at(end, to.si()) });
        let stretch = &network.circuit[index];
        for (place, name) in stretch.along.iter().enumerate() {
            let share = if stretch.along.len() > 1 { place as f64 / (stretch.along.len() - 1) as f64 } else { 0.5 };
            let share = 0.1 + 0.8 * share;
            let centre = at(x + (end - x) * share, (from + (to - from) * share).si());
            shapes.push(Shape::Circle { part: Part::Hole, centre, radius: millimetres(gap * 0.2) });
            labels.push(Shape::Label { at: centre, text: name.clone() });
        }
        let speed = TradeUnits::WATER_SPEED.text(run.drop.velocity.into(), system);
        let drop = Quantity::from(run.drop.total()).text(system);
        labels.push(Shape::Label {
            at: at(f64::midpoint(x, end), f64::midpoint(from.si(), to.si()) - gap),
            text: format!("{}: {speed}, −{drop}", line.name),
        });
        labels.push(Shape::Label { at: at(x, from.si() + gap), text: stretch.from.clone() });
        // A part's own rise stands upright between its two ports.
        let next = &network.circuit[(index + 1) % network.circuit.len()];
        let (leaves, _) = profile.ends((index + 1) % network.circuit.len());
        if (leaves - to).abs().si() > 1e-6 && next.from == stretch.to {
            let part = Part::Sheet;
            shapes.push(Shape::Line { part, from: at(end, to.si()), to: at(end, leaves.si()) });
        }
        x = end;
    }
    let size = (millimetres(x + gap), millimetres(profile.top().si() + 2.0 * gap));
    shapes.extend(labels);
    Ok(Scene { shapes, size })
}
