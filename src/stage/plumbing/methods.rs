//! The methods of the plumbing stage, with their sources.

use crate::stage::method::Method;

/// The methods of this stage.
pub static METHODS: &[Method] = &[
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
        what: "Darcy and Weisbach with one friction factor for all regimes, elbows by the two-K method, drawn copper \
               (1.5 µm), liquid at 45 °C. Valves, hoses, exchanger and cold thick glycol come on top.",
        source: "Churchill 1977 and Hooper 1981, as carried by a general-purpose fluids library (verified)",
        code: "physics::pipe::Run::pressure_drop",
    },
    Method {
        id: "loop-content",
        title: "Content of the loop",
        what: "Bores of risers, headers and pipe.",
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
];
