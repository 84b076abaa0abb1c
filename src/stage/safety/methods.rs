//! The methods of the safety stage, with their sources.

use crate::stage::method::Method;

/// The methods of this stage.
pub static METHODS: &[Method] = &[
    Method {
        id: "burn-table",
        title: "Burns by hot water",
        what: "Times to a second- and a third-degree burn of an adult, read between 45 and 60 °C along straight lines in the \
               logarithm of time. Above 60 °C the table ends: under 3 s. A child burns sooner; no time is given for that.",
        source: "exposure times after Moritz & Henriques 1947 (page verified)",
        code: "physics::scald::burn_time",
    },
    Method {
        id: "mixing-valve",
        title: "Water at the tap and at the mixing valve",
        what: "Behind the valve its setting and 2 K of drift. Before it the tank limit; where no pump limits the tank, the \
               opening temperature of a temperature relief valve, 99 °C. An element in the tank or a final stage that is set \
               hotter counts instead; how far a heater overshoots its setting is not known here.",
        source: "2 K: test instructions of thermostatic valve schemes (verified); 99 °C: 210 °F relief valves (verified)",
        code: "stage::safety",
    },
    Method {
        id: "freezing-air",
        title: "Air in which the plate freezes",
        what: "Balance of one glass and a still plate under a clear sky: glass 0.88, gap 4 and back 0.8 W/(m²·K) (project \
               values), wind 2.8 + 3 v, sky 0.0552 T^1.5. Higher under a very dry sky; stored heat is not counted.",
        source: "plate balance of solar engineering texts; sky: Swinbank 1963, wind law as quoted by Watmuff 1977, both from \
                 memory",
        code: "physics::freezing::freezing_air",
    },
    Method {
        id: "glycol-frost",
        title: "Freezing point of the loop",
        what: "Where the first ice forms in propylene glycol and water, by volume share; 0 °C for water. Slush stops the pump \
               well before pipes burst, from which about 35 % keeps them: bursting is not the limit here.",
        source: "Melinder 2010 (verified against a property library); 35 %: article on glycol (verified)",
        code: "physics::fluid::Fluid::freezing_point",
    },
    Method {
        id: "potable-loop",
        title: "Whether the water of the panel is drunk",
        what: "Direct and thermosiphon loops carry the water of the tap; drainback and glycol loops are taken as closed, with \
               an exchanger.",
        source: "definition",
        code: "stage::safety::is_potable",
    },
    Method {
        id: "boiling",
        title: "Boiling at the relief pressure",
        what: "The pressure of the air by altitude and the relief setting together. It is the hottest the liquid can be: at \
               the top of the loop the pressure is lower by 0.1 bar a metre, and steam comes sooner.",
        source: "IAPWS SR1-86 for water (coefficients from memory, within 1e-4 of IAPWS-95 computed with a library); \
                 ideal mixture for glycol; standard atmosphere",
        code: "physics::glycol::boiling_point, physics::atmosphere::pressure",
    },
    Method {
        id: "trapped-water",
        title: "Pressure of shut-in water",
        what: "Water without gas in a shut copper tube at 40 °C. It gains more when hotter, and glycol gains more than water.",
        source: "compressibility: Kell 1975, modulus and expansion of copper: from memory",
        code: "physics::trapped::shut_water",
    },
    Method {
        id: "legionella",
        title: "Kill of legionella by heat",
        what: "Time for a tenfold reduction in free water, 50 to 70 °C. Not for slime, dead legs and the cool foot of a tank.",
        source: "2 min at 60 °C and 80 to 124 min at 50 °C: secondary source",
        code: "physics::legionella::decimal_reduction",
    },
    Method {
        id: "lead-average",
        title: "Lead of wetted parts",
        what: "Mean of the lead shares of the parts that drinking water touches, weighted by their wetted areas. The law \
               counts each pipe, fitting and fixture by itself; this mean shows where the lead is.",
        source: "federal drinking water act, section 1417 (verified)",
        code: "stage::safety::metals",
    },
    Method {
        id: "ladder",
        title: "Slope of a ladder",
        what: "Angle whose tangent is the height over the distance of the foot. 4 to 1 is 75.96°.",
        source: "geometry; 4 to 1: ladder guide of a work safety authority (verified)",
        code: "stage::safety::outdoors",
    },
    Method {
        id: "handling-wind",
        title: "Wind on a carried panel",
        what: "Dynamic pressure of standard air on the outside area of one panel that stands broadside, drag coefficient 1.2, \
               the same as in the wind at a lift; gusts add to it.",
        source: "0.613 v²: any wind code; drag coefficient of a plate broadside, 1.1 to 1.3: from memory",
        code: "physics::wind::force_on_panel",
    },
    Method {
        id: "steam-power",
        title: "Steam of the panels",
        what: "Power that goes into steam at the pressure at which the relief valve opens, in 1200 W/m² and 40 °C. The \
               efficiency curve reads low so hot; the bound without any loss sizes the relief valve. Rate by water's heat of \
               evaporation.",
        source: "energy balance; heat of evaporation: IAPWS SR1-86, coefficients from memory, held to steam tables by a test",
        code: "physics::steam::BoilingPanel",
    },
    Method {
        id: "steam-joint-rating",
        title: "Pressure rating of soldered and brazed joints",
        what: "Read linearly between the printed temperatures; of two published sets the lower counts. No rating above \
               121 °C soldered and 177 °C brazed, and none is extrapolated.",
        source: "copper trade handbook and a pressure piping code (verified)",
        code: "physics::solder_joint::rated_pressure",
    },
    Method {
        id: "legionella-days",
        title: "Kill of legionella day by day",
        what: "Sum of time over decimal reduction time in the top of the simulated tank, hour by hour, 50 to 70 °C; time below \
               50 °C counts nothing. For free water, not for slime and dead legs.",
        source: "2 min at 60 °C and 80 to 124 min at 50 °C: secondary source; the year: this program's simulation",
        code: "physics::legionella::log_reduction, stage::safety::season",
    },
];
