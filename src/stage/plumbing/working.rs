//! The loop at work, put together: flow, pump, steam, vessel, draining, heat. The laws are in the files beside it.

use super::circuit::Row;
use super::closed::{self, Closed, Filling};
use super::emptying::{self, Emptying};
use super::entries::part::PartKind;
use super::entries::run;
use super::entries::{self as e, LoopType, service};
use super::exchange::{self, PipeHeat};
use super::heights::Profile;
use super::hydraulics::{self, LoopCost, PanelCost, PumpDuty, working_liquid};
use super::layout::Layout;
use super::pipework::{Line, given_at};
use super::steam::{self, Steam};
use super::{Results, circuit::Contents};
use crate::model::{Fig, Inputs, Why};
use crate::physics::drainback::Return;
use crate::physics::fluid::Fluid;
use crate::physics::glycol::{self, Warming};
use crate::physics::hydrostatics::column_pressure;
use crate::physics::pump::{Duty, Suction};
use crate::physics::thermosiphon::{NaturalFlow, Thermosiphon};
use crate::stage::absorber;
use crate::stage::site;
use crate::units::si::{Dimension, Length, MassDensity, Pressure, Temperature, VolumeRate};

/// The loop at work.
#[derive(Clone, Debug)]
pub struct Working {
    /// The panels' own drop and how they share the flow.
    pub panels: Fig<PanelCost>,
    /// All that the pump has to overcome.
    pub cost: Fig<LoopCost>,
    /// The pump's point.
    pub pump: Fig<PumpDuty>,
    /// Steam when the pump stands still.
    pub steam: Fig<Steam>,
    /// Vessel and its pressures.
    pub closed: Fig<Closed>,
    /// Draining.
    pub emptying: Fig<Emptying>,
    /// Suction head at the pump.
    pub suction: Fig<Length>,
    /// Flow by its own weight; none when the sun does not carry it.
    pub natural: Fig<Option<NaturalFlow>>,
    /// Heat that the pipe loses.
    pub pipe_heat: Fig<PipeHeat>,
    /// The hottest panel at which the pump may start.
    pub lockout_limit: Fig<Temperature>,
}

/// What the parts of the sum are made from.
pub struct Given<'a> {
    /// Entries.
    pub inputs: &'a Inputs,
    /// The site.
    pub site: &'a site::Results,
    /// The harp.
    pub absorber: &'a absorber::Results,
    /// The loop as laid out.
    pub layout: &'a Layout,
    /// Its runs.
    pub lines: &'a Fig<Vec<Line>>,
    /// Its liquid.
    pub fluid: &'a Fig<Fluid>,
    /// All panels and their flow.
    pub row: &'a Fig<Row>,
    /// What it holds.
    pub contents: &'a Fig<Contents>,
}

fn known<T>(fig: &Fig<T>) -> Fig<&T> {
    fig.as_ref().map_err(Clone::clone)
}

impl Given<'_> {
    fn fluid(&self) -> Fig<Fluid> {
        self.fluid.clone()
    }

    fn flow(&self) -> Fig<VolumeRate> {
        Ok(known(self.row)?.flow)
    }

    fn panels(&self) -> Fig<PanelCost> {
        hydraulics::panels(self.inputs, self.fluid()?, known(self.row)?, self.absorber)
    }

    fn cost(&self, panels: &Fig<PanelCost>) -> Fig<LoopCost> {
        let (fluid, flow) = (self.fluid()?, self.flow()?);
        let pipe = hydraulics::pipe(self.lines, fluid, flow)?;
        hydraulics::whole_loop(self.inputs, fluid, flow, &self.layout.network, &pipe, known(panels)?)
    }

    fn emptying(&self, panels: &Fig<PanelCost>) -> Fig<Emptying> {
        let network = known(&self.layout.network)?;
        let contents = known(self.contents)?.panels;
        let profile = known(&self.layout.profile)?;
        let lines = known(self.lines)?;
        emptying::emptying(self.inputs, network, profile, lines, known(panels)?, self.flow()?, contents)
    }

    /// The lift that stays while the loop runs: nothing in a full loop and under a siphon.
    fn standing_lift(&self, emptying: &Fig<Emptying>) -> Fig<Length> {
        if self.inputs.get(&e::LOOP)? != LoopType::Drainback || self.layout.network.is_err() {
            return Ok(Length::default());
        }
        let emptying = known(emptying)?;
        let fills = emptying.state.return_state == Return::Siphon;
        Ok(if fills { Length::default() } else { emptying.lift })
    }

    fn pump(&self, cost: &Fig<LoopCost>, emptying: &Fig<Emptying>) -> Fig<PumpDuty> {
        hydraulics::duty(self.inputs, known(cost)?, self.fluid()?, self.standing_lift(emptying)?)
    }

    fn steam(&self) -> Fig<Steam> {
        let network = known(&self.layout.network)?;
        steam::steam(self.inputs, self.fluid()?, network, known(self.lines)?, self.absorber)
    }

    fn closed(&self, steam: &Fig<Steam>) -> Fig<Closed> {
        let network = known(&self.layout.network)?;
        let contents = known(self.contents)?;
        let filling = Filling { contents: contents.total(), panels: contents.panels };
        let cold = self.site.coldest.clone()?;
        let profile = known(&self.layout.profile)?;
        closed::closed(self.inputs, self.fluid()?, filling, cold, network, profile, known(steam)?)
    }

    fn suction(&self, pump: &Fig<PumpDuty>, closed: &Fig<Closed>) -> Fig<Length> {
        let network = known(&self.layout.network)?;
        let profile = known(&self.layout.profile)?;
        let fluid = self.fluid()?;
        let fill = match network.part_of(PartKind::Vessel) {
            Some(_) => Some(known(closed)?.fitted.clone()?.precharge),
            None => None,
        };
        let mains = match network.part_of(PartKind::Tank) {
            Some(_) => Some(self.inputs.get(&service::MAINS_PRESSURE)?),
            None => None,
        };
        let lines = known(self.lines)?;
        let holding = emptying::holding(self.inputs, network, profile, lines, fill, mains)?;
        let hot = self.inputs.get(&e::TANK_LIMIT)?;
        let liquid = fluid.properties_at(hot.si());
        let flow = match known(pump)?.duty {
            Duty::Runs(point) => point.flow,
            Duty::CannotLift { .. } => self.flow()?,
        };
        let mut loss = Pressure::default();
        for run in &holding.way {
            loss += run.pressure_drop(&liquid, flow).map_err(Why::out_of_range)?.total();
        }
        let suction = Suction {
            surface_pressure: holding.pressure,
            loss,
            vapour_pressure: glycol::vapour_pressure(fluid, hot).map_err(Why::out_of_range)?,
            flooded_height: holding.over_pump,
            density: liquid.density,
        };
        suction.net_positive_head().map_err(Why::out_of_range)
    }

    fn natural(&self) -> Fig<Option<NaturalFlow>> {
        if self.inputs.get(&e::LOOP)? != LoopType::Thermosiphon {
            return Ok(None);
        }
        let network = known(&self.layout.network)?;
        let profile = known(&self.layout.profile)?;
        let heat = known(&self.absorber.heat)?;
        let harp = known(&self.absorber.harp)?;
        let count = super::panel_count(self.inputs)?;
        let tank = network
            .circuit
            .iter()
            .find(|stretch| matches!(network.kind(&stretch.to), Some(PartKind::Tank | PartKind::Coil)));
        let tank = &tank.ok_or_else(|| Why::out_of_range("no tank is the end of a run"))?.to;
        let port = profile.vertices.iter().filter(|vertex| vertex.place == *tank).map(|vertex| vertex.height);
        let port = port.reduce(Length::max).unwrap_or_default();
        let area = known(&self.absorber.collector)?.absorber_area() * count as f64;
        let risers = u32::try_from(harp.riser_count * count).map_err(Why::out_of_range)?;
        let siphon = Thermosiphon {
            area,
            efficiency_factor: heat.point.efficiency_factor,
            loss: heat.point.total_loss,
            absorbed: heat.point.absorbed,
            air: heat.point.conditions.ambient,
            inlet: heat.point.conditions.inlet,
            collector_height: profile.panels_top - profile.panels_bottom,
            return_height: port - profile.panels_bottom,
            pipes: known(self.lines)?.iter().map(|line| line.run.clone()).collect(),
            risers,
            riser_bore: harp.riser_bore,
            riser_length: harp.sheet_length,
            liquid: self.fluid()?,
        };
        siphon.natural_flow().map_err(Why::out_of_range)
    }

    fn lockout_limit(&self) -> Fig<Temperature> {
        let loop_type = self.inputs.get(&e::LOOP)?;
        let fluid = self.fluid()?;
        let network = known(&self.layout.network)?;
        let column = working_column(fluid, known(&self.layout.profile)?);
        let absolute = exchange::top_pressure(self.inputs, loop_type, column)?;
        let top = glycol::boiling_point(fluid, absolute).map_err(Why::out_of_range)?;
        let mut weakest: Option<Temperature> = None;
        let mut note = |limit: Temperature| {
            weakest = Some(weakest.map_or(limit, |known| if limit < known { limit } else { known }));
        };
        for name in network.parts.keys() {
            given_at(self.inputs, &super::entries::part::LIMIT, name)?.into_iter().for_each(&mut note);
        }
        for line in known(self.lines)? {
            line.hose().map(|hose| hose.hottest_wet).into_iter().for_each(&mut note);
            line.plastic().map(|pipe| pipe.hottest).into_iter().for_each(&mut note);
            if self.layout.network.is_ok() {
                given_at(self.inputs, &run::RATED_AT, &line.name)?.into_iter().for_each(&mut note);
            }
        }
        Ok(exchange::lockout_limit(top, weakest, loop_type))
    }

    /// Works everything out.
    pub fn work(&self) -> Working {
        let panels = self.panels();
        let cost = self.cost(&panels);
        let emptying = self.emptying(&panels);
        let pump = self.pump(&cost, &emptying);
        let steam = self.steam();
        let closed = self.closed(&steam);
        let pipe_heat = self.fluid().and_then(|fluid| exchange::pipe_heat(self.inputs, known(self.lines)?, fluid));
        Working {
            suction: self.suction(&pump, &closed),
            natural: self.natural(),
            lockout_limit: self.lockout_limit(),
            panels,
            cost,
            pump,
            steam,
            closed,
            emptying,
            pipe_heat,
        }
    }
}

/// Pressure of the warm liquid's column from the lowest point to the top.
pub fn working_column(fluid: Fluid, profile: &Profile) -> Pressure {
    column_pressure(MassDensity::from_si(working_liquid(fluid).density), profile.top())
}

/// Pressure to fill a closed loop to at a temperature.
pub fn fill_at(results: &Results, inputs: &Inputs, cold: Temperature, today: Temperature) -> Fig<Pressure> {
    let closed = known(&results.working.closed)?;
    let contents = results.contents.clone()?.total();
    let hot = if today < cold { cold } else { today };
    let warming = Warming { cold, hot };
    closed::fill_pressure(closed, results.fluid.clone()?, contents, warming, closed::air(inputs)?)
}
