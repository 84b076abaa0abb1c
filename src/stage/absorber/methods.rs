//! The methods of the absorber stage, with their sources.

use crate::stage::method::Method;

/// The methods of this stage.
pub static METHODS: &[Method] = &[
    Method {
        id: "running-dimensions",
        title: "Running dimensions from one datum",
        what: "Every hole and edge is measured from the same end and rounded to the tape by itself, so that rounding \
               never adds up. Stepping a rounded pitch does add up; the drift is shown.",
        source: "common practice, no source",
        code: "stage::absorber::geometry",
    },
    Method {
        id: "riser-cut",
        title: "Cut length of a riser",
        what: "Fittings: centre distance less twice the way from the tee's centre to its shoulder. Collar or hole: \
               centre distance less one header diameter plus twice the insertion; the least insertion bites all round.",
        source: "geometry, derived here; cases made with an independent script",
        code: "physics::harp_shop",
    },
    Method {
        id: "joint-by-kind",
        title: "Hole, lap and pieces by the kind of joint",
        what: "A tee takes the tube to its shoulder and laps by the depth of its cup; a drawn collar laps by three walls \
               of the header; a drilled hole by one. Three to six walls of the tube are wanted. The gap on each side of a \
               joint follows from measured diameters.",
        source: "cups: copper handbook (verified); collar and overlap: guide specification and brazing notes (verified); \
                 gap 0.05 to 0.13 mm: from memory",
        code: "stage::absorber::joints",
    },
    Method {
        id: "joint-rating",
        title: "Pressure rating of the joints",
        what: "Published tables read linearly between their temperatures, the lowest that any of them gives; above 121 °C \
               soldered and 177 °C brazed no rating exists and none is extrapolated.",
        source: "copper handbook, table of pressure-temperature ratings; ASME B31.9 in a handbook of fundamentals (both \
                 verified)",
        code: "physics::solder_joint, stage::absorber::suits",
    },
    Method {
        id: "joint-log",
        title: "Joint log",
        what: "One row for each riser end, by the number stamped beside it, with day, hand, filler and flux, so that a \
               leak leads to whoever knows how it was made and to its sisters of the same day.",
        source: "common practice, no source",
        code: "stage::absorber::joint_log",
    },
    Method {
        id: "joint-filler",
        title: "Filler of the pressure joints",
        what: "The gap all round over the lap at every place, doubled: half of what is bought goes into fillets, drips and \
               stubs of rods.",
        source: "cup joints: copper handbook, table of solder requirements (verified); doubling: common practice, no source",
        code: "stage::absorber::supplies",
    },
    Method {
        id: "sheet-layout",
        title: "Strips from stock sheets",
        what: "Straight rows of equal pieces on each stock, laid both ways because rolled copper has no grain to mind; the \
               stock that takes the least area counts. A strip longer than the stock is laid in equal lengths with a gap.",
        source: "geometry, derived here; 1 oz/ft² = 0.3052 kg/m² by definition",
        code: "physics::strips, stage::absorber::sheets",
    },
    Method {
        id: "jigs",
        title: "Jigs from the design",
        what: "Marker, cradles, stops, shims and clamp bars follow from tube diameters, hole positions and header spacing.",
        source: "geometry, derived here; play and spacing: common practice, no source",
        code: "stage::absorber::jigs",
    },
    Method {
        id: "hours",
        title: "Hours of a harp",
        what: "Times for a hole, a cut, a joint and a metre of line, each by its number, and a rest. They are from memory \
               and give way to the builder's own: task by task to what the log has of it, and altogether to harps whose \
               hours were written down or whose log holds every task. What a harp under way has in the log is taken off \
               what it still needs.",
        source: "times by the piece: from memory; the rest is arithmetic over the log",
        code: "stage::absorber::hours",
    },
    Method {
        id: "used-so-far",
        title: "What the remaining panels need",
        what: "The mean of what the panels with a reading took, else what was reckoned, times the panels without one, less \
               what lies in the shop.",
        source: "arithmetic",
        code: "stage::absorber::supplies",
    },
    Method {
        id: "as-built",
        title: "As built against the drawing",
        what: "The same balance twice: once with the readings of what was drawn, once without. Tolerances are judged \
               apart.",
        source: "this project's own way",
        code: "stage::absorber::as_built",
    },
    Method {
        id: "ageing",
        title: "Ageing of the coating",
        what: "Absorptance falls and emittance rises by points; the criterion −Δα + 0.5 Δε is the share of heat lost, \
               roughly. Age never lowers the stagnation temperature that judges materials.",
        source: "IEA SHC task and ISO 22975-3, from memory; points assumed, from memory",
        code: "stage::absorber::options",
    },
    Method {
        id: "square-check",
        title: "Square by diagonals",
        what: "Both diagonals of a rectangle are equal and follow from its sides.",
        source: "Pythagoras",
        code: "stage::absorber::geometry::Harp::diagonal",
    },
    Method {
        id: "bond",
        title: "Conductance of the solder line",
        what: "Film: conductivity times width times the soldered share of the length, over the mean thickness. Fillet: \
               parallel paths straight across the solder between a round tube and a flat sheet, the integral exact.",
        source: "Duffie & Beckman 6.5, from memory; fillet: own derivation",
        code: "physics::fin::BondLine, physics::fillet",
    },
    Method {
        id: "fin",
        title: "Fin efficiency of the sheet",
        what: "The sheet between two risers as a straight fin; edge strips by their own width.",
        source: "Hottel & Whillier 1958, Bliss 1959; Duffie & Beckman 6.5, from memory",
        code: "physics::fin",
    },
    Method {
        id: "efficiency-factor",
        title: "Collector efficiency factor",
        what: "How much of the heat reaches the liquid: sheet, bond and tube side in series, per pitch.",
        source: "Hottel & Whillier 1958, Bliss 1959; Duffie & Beckman 6.5, from memory",
        code: "physics::collector::Collector::operate",
    },
    Method {
        id: "heat-removal",
        title: "Heat removal factor and useful heat",
        what: "The liquid warms on its way, so the panel loses more than at its inlet temperature; steady state, mean \
               plate and liquid temperatures iterated.",
        source: "Duffie & Beckman 6.7, from memory",
        code: "physics::collector::Collector::operate",
    },
    Method {
        id: "losses",
        title: "Heat losses of back and edge",
        what: "Insulation whose conductivity grows with temperature, board and outer air in series, per absorber area.",
        source: "Duffie & Beckman 6.4, from memory; growth of k: ISO 10456, from memory",
        code: "physics::loss",
    },
    Method {
        id: "cover-network",
        title: "Heat loss through the glass",
        what: "One cover node: convection in the gap, radiation plate to cover, wind and radiation outside. A cold sky \
               is kept apart as an offset.",
        source: "Hollands et al. 1976 for the gap, Watmuff et al. 1977 for the wind; Duffie & Beckman 6.4, from memory",
        code: "physics::loss::glazed",
    },
    Method {
        id: "klein",
        title: "Loss through the glass, explicit formula",
        what: "An explicit fit of the cover's balance, for a cross-check only: it departs from the network by up to 20 % \
               on hot, steep panes in wind.",
        source: "Klein 1979; Duffie & Beckman 6.4.9, from memory",
        code: "physics::loss::klein",
    },
    Method {
        id: "cover-optics",
        title: "Light through the glass and into the plate",
        what: "Refraction and reflection of both polarisations, absorption along the path, reflections between plate and \
               glass; the plate's absorptance falls with the angle.",
        source: "Duffie & Beckman 5.1 to 5.5, 4.11.1, from memory; Brandemuehl & Beckman 1980 for diffuse angles",
        code: "physics::optics, physics::cover",
    },
    Method {
        id: "growth",
        title: "Growth of copper with heat",
        what: "Linear, from the bench at 20 °C to the stagnation temperature, with the coefficient to 200 °C.",
        source: "9.6e-6/°F to 392 °F: copper handbook (verified)",
        code: "physics::expansion",
    },
    Method {
        id: "tube-side",
        title: "Heat transfer inside a riser",
        what: "Mean Nusselt number of laminar flow with a developing profile, Gnielinski above 4000, linear between.",
        source: "VDI Heat Atlas G1, from memory; Gnielinski 1976, 2013",
        code: "physics::tube",
    },
    Method {
        id: "efficiency-curve",
        title: "Efficiency curve",
        what: "η = η₀ − a₁x − a₂G x² fitted at 1000 W/m², 20 °C air and sky, 3 m/s, 0.02 kg/s per gross m², \
               differences of 0 to 60 K. It reads 6 to 12 K low at stagnation, which is computed apart.",
        source: "form of ISO 9806; conditions are this project's convention",
        code: "physics::collector::Collector::curve",
    },
    Method {
        id: "harp-network",
        title: "Flow among the risers",
        what: "Friction in risers and headers, momentum at each junction, buoyancy in each riser, solved by damped \
               Newton. The momentum factors are the theory's limits and not verified: shares are good to perhaps a \
               factor of 1.5. Without sun the same network is solved without buoyancy.",
        source: "after Dunkle & Davey 1970, Bajura & Jones 1976, Wang & Wu 1990; constants from memory; Churchill 1977 \
                 for friction",
        code: "physics::collector::Collector::harp_flows",
    },
    Method {
        id: "cut-plan",
        title: "Cutting plan",
        what: "First-fit decreasing at once; then branch and bound over filled patterns, with the linear relaxation as \
               bound, until the plan is proved or the limit of the search is met. A coil loses its straightening, every \
               bar its end trim, every cut its width.",
        source: "Gilmore & Gomory 1961; published instances as tests",
        code: "physics::cutting, stage::absorber::cutting",
    },
    Method {
        id: "copper-mass",
        title: "Mass of copper",
        what: "Tube by its wall and outer diameter, sheet by area and thickness.",
        source: "ASTM B88 dimensions (verified); densities of the handbook tables",
        code: "handbook::tube, stage::absorber::quantities",
    },
    Method {
        id: "fillet",
        title: "Solder of a riser line",
        what: "The section between a round tube and a flat sheet up to half the line's width on each side, plus the \
               film; times length, share and waste. Flux is an eighth of the solder's mass.",
        source: "geometry, derived here; flux 2 oz a pound: copper handbook (verified)",
        code: "physics::fillet, stage::absorber::quantities",
    },
    Method {
        id: "paint",
        title: "Paint",
        what: "Plate and header fronts, times coats, over the coverage that the can states.",
        source: "common practice, no source",
        code: "stage::absorber::quantities",
    },
    Method {
        id: "heat-capacity",
        title: "Effective heat capacity",
        what: "Sheet, tubes and liquid whole, half of the insulation, a share of the glass that grows with a₁.",
        source: "weights of ISO 9806:2013, from memory",
        code: "physics::collector::Collector::capacity",
    },
    Method {
        id: "stagnation",
        title: "Stagnation temperature",
        what: "The plate, without flow, where it loses all that it absorbs. The largest of three cases judges every \
               material: 1000 W/m² and 30 °C, 1100 W/m² and 35 °C, and the hottest hours of the site's own weather, all \
               at 1 m/s.",
        source: "standard point: ISO 9806, from memory; the other two: project rule",
        code: "physics::collector::Collector::stagnation",
    },
    Method {
        id: "solder-table",
        title: "Melting of solder",
        what: "Solidus and liquidus of the alloy.",
        source: "handbook table of solder alloys; rows marked there as recalled are from memory",
        code: "handbook::solder",
    },
];
