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
        what: "Water drawn, from the mains' temperature to the tap's, every day of the year alike. Losses of tank and \
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
        title: "The year by a monthly correlation",
        what: "Solar share of each month from the month's sun, air, mains and load: the correlation of many simulated \
               systems with a pumped collector and a separate heater behind the tank, in its form for hot water only. \
               Incidence: 0.96 of straight-on light, one pane. It is not an hour-by-hour simulation, which comes \
               later: it agrees with one to about 0.03 for two-tank systems, reads up to 0.07 high for a mixed \
               drainback tank, and does not know thermosiphon flow or a heater inside the tank. It was made for taps \
               of 50 to 70 °C and mains of 5 to 20 °C (from memory). Ranges: 0 < X < 18, 0 < Y < 3 (from memory), \
               Y > X/12, 37.5 to 300 L of tank per m²; months outside are named.",
        source: "Klein, Beckman & Duffie 1976 (polynomial and corrections verified in public code); Y > X/12: Handbook \
                 of Energy Engineering Calculations (verified); 0.96: Duffie & Beckman ch. 20, from memory",
        code: "physics::monthly_fraction, stage::plumbing::year",
    },
];
