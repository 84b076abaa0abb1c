//! The methods of the plumbing stage, with their sources.

use crate::stage::method::Method;

/// The methods of this stage.
pub static METHODS: &[Method] = &[
    Method {
        id: "tank-water",
        title: "Weight of the full tank",
        what: "Water alone, cold. The tank, its insulation and what stands on it come on top: a page on tanks reckons 1000 lb, \
               454 kg, for 100 gal altogether.",
        source: "density of water: IAPWS-95; 1000 lb: university library page (verified)",
        code: "stage::plumbing::rows",
    },
    Method {
        id: "panel-row",
        title: "All panels together",
        what: "Equal panels side by side; each gets an equal share of the flow. Areas are those of the boxes' outside.",
        source: "geometry; even division is an assumption that the outlets must prove",
        code: "stage::plumbing::circuit::row",
    },
    Method {
        id: "pipe-friction",
        title: "Friction in pipe and elbows",
        what: "Darcy and Weisbach with one friction factor for all regimes, fittings and valves by the two-K method, \
               drawn copper (1.5 µm) or hose (10 µm), liquid at 45 °C. Parts by their test point. Cold thick glycol \
               comes on top.",
        source: "Churchill 1977 and Hooper 1981, as carried by a general-purpose fluids library (verified)",
        code: "physics::pipe::Run::pressure_drop",
    },
    Method {
        id: "loop-content",
        title: "Content of the loop",
        what: "Bores of risers, headers, pipe and coil, and what parts hold; glycol by its share of volume.",
        source: "bores: handbook table of copper tube",
        code: "stage::plumbing::circuit::contents",
    },
    Method {
        id: "load",
        title: "Heat for hot water",
        what: "Water drawn, from the mains' temperature to the tap's, every day of the year alike but for those on which nobody draws. Losses of tank and \
               pipes and a circulation line are not counted.",
        source: "heat balance; density and specific heat of water after IAPWS",
        code: "physics::draw::HotDraw::heat",
    },
    Method {
        id: "collector-line",
        title: "The panels as a straight line",
        what: "Q/A = F_R(τα) G − F_R U_L (T_i − T_a), fitted to a measured log where plumbing.year_panel says so, else both \
               figures taken at the working point of the absorber page \
               (900 W/m², 20 °C air, 45 °C in, design flow), on absorber area. U_L grows with temperature; one value \
               stands for the year.",
        source: "Duffie & Beckman 6.16, from memory",
        code: "physics::collector::OperatingPoint::optical_gain",
    },
    Method {
        id: "collector-exchanger",
        title: "What an exchanger costs the collector",
        what: "The collector must run hotter by the exchanger's difference. The tank's side counts as the larger one, \
               as with a coil. Drainback without an exchanger, direct loop and thermosiphon: 1.",
        source: "de Winter 1975; two public cases verified",
        code: "physics::exchanger::CollectorExchanger::factor",
    },
    Method {
        id: "monthly-correlation",
        title: "The year by a monthly correlation, as an outside check",
        what: "Solar share of each month from the month's sun, air, mains and load: the correlation of many simulated \
               systems with a pumped collector and a separate heater behind the tank, in its form for hot water only. \
               Incidence: 0.96 of straight-on light, one pane. It stands beside the hour-by-hour year: it agrees with \
               one to about 0.03 for two-tank systems, reads up to 0.07 high for a mixed drainback tank, some 0.2 high \
               for a heater at mid-height of a single tank, and does not know thermosiphon flow. It was made for taps \
               of 50 to 70 °C and mains of 5 to 20 °C (from memory). Ranges: 0 < X < 18, 0 < Y < 3 (from memory), \
               Y > X/12, 37.5 to 300 L of tank per m²; months outside are named.",
        source: "Klein, Beckman & Duffie 1976 (polynomial and corrections verified in public code); Y > X/12: Handbook \
                 of Energy Engineering Calculations (verified); 0.96: Duffie & Beckman ch. 20, from memory",
        code: "physics::monthly_fraction, stage::plumbing::year",
    },
    Method {
        id: "loop-walk",
        title: "The walk along the loop",
        what: "Runs and parts are read as a graph. Every valve with a handle is taken as closed, a check valve as open \
               in its own direction only; what then reaches neither a relief valve nor an open reservoir is shut in. \
               Closing fewer valves only opens ways, so no other choice of valves is worse.",
        source: "a relief valve in every branch that can be valved off: UFC 3-440-01, 4-2.2.7 (verified)",
        code: "stage::plumbing::walk::shut_in",
    },
    Method {
        id: "loop-heights",
        title: "Heights around the loop",
        what: "The rises of runs and parts, added from the panels' outlet on. A high point lies above both neighbours, a \
               low point below; within one run nothing is known. A part along a run counts as standing at its start if \
               it is the first, at its end if it is the last. Falls are taken between the ends of a run.",
        source: "vents and drains: UFC 3-440-01, appendix E (verified); 2 cm for each metre: rating criterion (verified)",
        code: "stage::plumbing::heights::profile",
    },
    Method {
        id: "night-flow",
        title: "The loop at night",
        what: "Weight of a column at 0 °C against one at the tank's limit, over the height between the tank's bottom and \
               the panels' top; nothing where the tank stands higher.",
        source: "hydrostatics; densities as for the liquid",
        code: "physics::thermosiphon::night_drive",
    },
    Method {
        id: "panel-division",
        title: "The flow over the panels",
        what: "Groups of panels between two headers, each group one or more panels in a row. One harp is a q + b q² through its own network at the design flow and half of it; one header length lies between two groups. Solved for all loops of two neighbours at once.",
        source: "Kirchhoff's laws; a reference case computed elsewhere",
        code: "physics::panel_row::Row::divide",
    },
    Method {
        id: "hazen-williams",
        title: "The handbook's rule of thumb",
        what: "Straight pipe with cold water, C = 150 for copper. It knows neither heat nor glycol and reads 28 % low to 18 % high: a cross-check only, the figures by Darcy and Weisbach decide.",
        source: "engineering reference page (verified)",
        code: "physics::pipe::HazenWilliams::gradient",
    },
    Method {
        id: "pump-point",
        title: "Where the pump runs",
        what: "Quadratic through the label's points, against lift and friction of the loop at 45 °C. A check valve takes its opening pressure; a return that does not fill leaves the full lift standing.",
        source: "pump label; balance of heads",
        code: "physics::pump::operating_point",
    },
    Method {
        id: "drainback",
        title: "A loop that drains back",
        what: "Filling head: lift and friction of the up leg and the panels. The return fills from 0.3 m/s and Fr 0.6 on. Pressure at the top under a siphon from the air's pressure at the site; water at the tank's limit. Both counted from the reservoir's lower port, so that a falling level is on the cautious side.",
        source: "hydrostatics; thresholds of siphon and self-venting from memory; 10 % and 5 L: project rules",
        code: "physics::drainback::Drainback::state",
    },
    Method {
        id: "suction-head",
        title: "Suction head",
        what: "Pressure where it is held (reservoir, tank or vessel with its precharge), less the runs from there to the pump, less the vapour pressure at the tank's limit, plus the height above the pump.",
        source: "net positive suction head, any pump text",
        code: "physics::pump::Suction::net_positive_head",
    },
    Method {
        id: "thermosiphon",
        title: "Flow by weight alone",
        what: "Weight of the cold column against the warm one, over panels and pipes, equal to the friction; steady sun of the working point.",
        source: "Close 1962, from memory; a reference case computed elsewhere",
        code: "physics::thermosiphon::Thermosiphon::natural_flow",
    },
    Method {
        id: "relief-chain",
        title: "The order of pressures",
        what: "Precharge, fill, final pressure, relief, weakest part: each below the next. The final pressure stays 0.5 bar or 10 % below the relief setting.",
        source: "planning manuals (verified)",
        code: "stage::plumbing::closed",
    },
    Method {
        id: "steam-reach",
        title: "Steam and its reach",
        what: "Power at saturation in the worst sun by the efficiency curve, stretched to end at the plate balance's stagnation; all condensed by the loss of the pipe, run by run, air 20 °C indoors. An upper bound each way: all steam is taken to go that way, and the liquid ahead of it is not counted.",
        source: "heat balance; saturation as for the liquid",
        code: "physics::collector_curve::CollectorCurve::power, stage::plumbing::steam",
    },
    Method {
        id: "vessel",
        title: "The expansion vessel",
        what: "Growth from the coldest air to saturation, the panels' liquid and that of the pipe which steam reaches, and a reserve of 2 % or 3 L, taken by gas between precharge and final pressure. The fill pressure leaves the reserve when the loop is coldest.",
        source: "practice of central-European planning manuals; one manual's worked example is a test (verified)",
        code: "physics::expansion_vessel::ClosedLoop::vessel",
    },
    Method {
        id: "exchanger",
        title: "Coil and plate",
        what: "Coil: flow inside, the tank's own rise outside, wall between, at 55 °C in the loop and 45 °C in the tank; no gain for its curvature. Plate: counterflow by effectiveness and NTU.",
        source: "Gnielinski, Churchill & Chu 1975, Kays & London (verified in a general-purpose library)",
        code: "physics::coil::Coil::conductance, physics::exchanger::Counterflow",
    },
    Method {
        id: "pipe-heat",
        title: "Heat of the pipe",
        what: "Conduction through the insulation and a film of 9 W/m²K indoors, 22 outdoors (from memory); conductivity at 24 °C. Each night liquid and copper cool to the air.",
        source: "any heat transfer text",
        code: "physics::pipe_loss",
    },
    Method {
        id: "potable-growth",
        title: "Heated drinking water",
        what: "Growth of the tank's water from 10 °C to its limit; a vessel precharged to the mains takes it up to 0.5 bar or 10 % below the relief setting.",
        source: "density of water after IAPWS; gas law",
        code: "physics::expansion_vessel::PressureRange::least_volume",
    },
    Method {
        id: "lockout",
        title: "When the pump must stand",
        what: "The least of 120 °C, boiling at the top of the loop less 10 K, and the weakest wet part less 10 K; a drainback loop at most 85 °C.",
        source: "project rule",
        code: "stage::plumbing::exchange::lockout_limit",
    },
];
