//! The methods of the enclosure stage, with their sources.

use crate::stage::method::Method;

/// The methods of this stage.
pub static METHODS: &[Method] = &[
    Method {
        id: "box-sizes",
        title: "Sizes of the box",
        what: "Plan: plate, free space and edge insulation on each side, then the rails. Depth from the back board up: \
               insulation, header, air gap. Sizes are at the bench, dry; timber moves across the grain with its moisture.",
        source: "geometry; common practice, no source",
        code: "stage::enclosure::timber",
    },
    Method {
        id: "cut-list",
        title: "Parts of the box",
        what: "Two long rails over the whole outside. Short rails: butt between the long ones; rabbet into them by the \
               rabbet's depth on each side; half-lap and mitre over the whole outside. The back board stands between the \
               rails, or reaches into them by its rebate or groove less 1.5 mm on each side, or covers them. Kerf and \
               trimming are not in the lengths.",
        source: "geometry; common practice, no source",
        code: "stage::enclosure::timber",
    },
    Method {
        id: "glass-size",
        title: "Size of the pane",
        what: "The opening and a bite on each side. Tempered glass is ordered to size and never cut or drilled: measure \
               the seat before you order.",
        source: "bite of 10 to 13 mm: glazing practice, from memory",
        code: "stage::enclosure::glass::pane",
    },
    Method {
        id: "glass-clearance",
        title: "Clearance of the pane",
        what: "Half the pane's growth from 20 °C to its temperature at stagnation, and 3 mm of play (project rule). The \
               box is taken not to grow.",
        source: "8.3e-6 /K: technical bulletin on float glass (verified); play: project rule",
        code: "physics::expansion::GLASS, stage::enclosure::glass::least_clearance",
    },
    Method {
        id: "glass-pressure",
        title: "Pane under uniform pressure",
        what: "A pane held on four sides whose edges may slide, by the least thickness that may be delivered, for a load of \
               one minute. Large deflection reads a table computed from the plate equations; small deflection is an upper \
               bound, often two to three times too high. Screening only: local code and a licensed engineer decide.",
        source: "Timoshenko & Woinowsky-Krieger (from memory); design stresses 19 and 77 MPa: technical bulletin on float \
                 glass (verified); least thicknesses: ASTM E1300, from memory",
        code: "physics::glass",
    },
    Method {
        id: "copper-growth",
        title: "Growth of the copper",
        what: "From 20 °C to the stagnation temperature with the mean coefficient of 20 to 200 °C, above 200 °C with that of \
               20 to 300 °C; hotter is refused.",
        source: "9.6e-6 /°F to 392 °F: copper handbook; 9.8e-6 /°F to 572 °F: page on copper's expansion (verified)",
        code: "physics::expansion::copper_growth",
    },
    Method {
        id: "stub-hole",
        title: "Hole for a stub",
        what: "A slot with 3 mm of play on each side, longer along the rail by the larger of two growths: that of the \
               risers, which push a header along the rail, and the header's own, which slides through the hole and turns it \
               there if it sticks in the other. Its middle is shifted outward by half of \
               what this header moves. The wood is cut wider by the wall of the mineral sleeve all round.",
        source: "project rule",
        code: "physics::expansion::Stub::hole, stage::enclosure::openings",
    },
    Method {
        id: "weep-holes",
        title: "Weep holes",
        what: "Through the lower rail just above the back board, 30 mm from each inside corner and evenly between. Rain must \
               not drive in and insulation must not block them.",
        source: "holes low and at the back: federal maintenance manual MO-405 (verified); number and diameter from memory",
        code: "stage::enclosure::openings",
    },
    Method {
        id: "breathing",
        title: "Breath and dew of the box",
        what: "A box warmed by day drives air out and draws night air in: V (1 − T_cold/T_hot), from a night of 10 °C to the \
               mean of plate and air at the worst stagnation, an upper bound. Dew: saturated air of 10 °C under glass that a \
               clear sky has cooled to 5 °C. Damp timber and wool give off far more in their first weeks.",
        source: "gas law; night values: project rule",
        code: "physics::breathing, stage::enclosure::breathing",
    },
    Method {
        id: "supports",
        title: "Supports and clips of the absorber",
        what: "Strips across the risers, 100 mm inside each header and evenly between. One clip holds, all others slide by \
               the growth of header and riser together.",
        source: "growth: copper handbook (verified); distances: project rule",
        code: "stage::enclosure::openings",
    },
    Method {
        id: "screw-layout",
        title: "Layout of screws",
        what: "Each line runs from one datum. Spans in which a screw would meet a stub hole with its sleeve, a weep hole, a \
               seat or the screws of a strip are kept clear, grown by half a screw and two diameters. The set of all places \
               that the next screw can take is carried along the line, so a layout is found whenever there is one; of all \
               with the fewest screws one near equal spacing is marked. Screws from behind count as far as they reach up.",
        source: "own geometry; spacing and end distance: common practice, no source",
        code: "physics::screw_layout, stage::enclosure::screws",
    },
    Method {
        id: "timber-cuts",
        title: "Cutting the timber",
        what: "Rails of all panels from the boards that lie there and that are to be bought; support strips and metal \
               trims from stock of their own, trims without a kerf: snips take nothing. Ends are trimmed, defects cut out, every usable stretch is a bar of its own; every cut takes the kerf. First fit shows at once with its \
               bound; the search replaces it. What lies there is used first (bought length counts ten times).",
        source: "cutting stock: Gilmore and Gomory 1961 (from memory); held to published instances in the tests",
        code: "physics::cutting, stage::enclosure::cutting",
    },
    Method {
        id: "sheet-cuts",
        title: "Cutting the sheets",
        what: "Every cut runs from edge to edge of the part in hand. Back boards lie along the grain unless you say \
               otherwise; insulation and absorber sheet may be turned. The inside is laid with whole insulation boards and \
               what is left at two sides; absorber sheet is joined midway between risers. Pieces on shelves show at once; \
               the search fills each sheet best and replaces them where it needs fewer. The bound is the larger of area and \
               of the pieces of which no two fit one sheet.",
        source: "Gilmore and Gomory 1966, Wang 1983 (from memory); held to published instances in the tests",
        code: "physics::guillotine, stage::enclosure::sheets",
    },
    Method {
        id: "timber-table",
        title: "Boards of the trade",
        what: "Dressed sizes against the names they are sold under: measure the board, names promise nothing.",
        source: "dressed sizes: trade page (verified); metric sections from memory",
        code: "handbook::timber",
    },
    Method {
        id: "timber-movement",
        title: "Movement of timber with moisture",
        what: "ΔD = D C ΔM across the grain, along the rings, for 6 to 14 % of moisture. Softwood without a row of its own \
               moves by 0.215 % a percent. Along the grain it is neglected.",
        source: "Wood Handbook FPL-GTR-190 table 13-5 (hardwoods verified, softwoods from memory); FPL-RP-489 (verified)",
        code: "physics::timber::movement",
    },
    Method {
        id: "layers",
        title: "Faces behind insulation",
        what: "Plane layers in series between the plate and the air of the worst hour, outside 0.10 m²·K/W. One law of \
               conductivity: linear in temperature, as in the handbook, taken at each layer's mean. The collector's heat \
               balance keeps the exponential form of its convention, made to meet this law at 10 and 90 °C (2 % apart at \
               most). Aged polyiso counts 15 % more. Heat that runs along stubs, clips and screws, and gaps in the \
               insulation, are not computed.",
        source: "Fourier's law; conductivities: handbook table of insulation, from memory",
        code: "physics::layers",
    },
    Method {
        id: "rail-balance",
        title: "Rail beside and above the plate",
        what: "Balance of the rail's inner face: air of the gap at the mean of plate and glass (3 W/(m²·K), project \
               value), radiation of plate and glass half each; then lining, rail and outside. An estimate of this program, \
               good to perhaps 12 K.",
        source: "no outside source",
        code: "physics::rail::rail_faces",
    },
    Method {
        id: "insulation-table",
        title: "What insulation stands",
        what: "The lowest of the published limits, or the product's own sheet if that is lower. Stone wool goes by its \
               sheet alone.",
        source: "specification guide of insulation materials (verified: polyiso, phenolic, polystyrene, elastomeric, \
                 cellular glass); fibreglass and building board from memory",
        code: "handbook::insulation",
    },
    Method {
        id: "panel-mass",
        title: "Mass of one panel",
        what: "Tubes, sheet, glass, timber and insulation by volume and density; full with the liquid at 20 °C. Screws, \
               caps, sealant, paint and mounts are not counted: weigh the finished panel.",
        source: "glass 2500 kg/m³: technical bulletin (verified); copper 8940 kg/m³ reproduces the printed masses of the \
                 tube standard; timber and insulation from memory",
        code: "stage::enclosure::mass",
    },
    Method {
        id: "lifting",
        title: "People for a lift",
        what: "Recommended weight of one person with the hands 50 cm out at 75 cm height, no handles, no twist. A team \
               lifts less than the sum of its people (two thirds, from memory), and the equation does not hold on \
               ladders, on slippery ground or in wind.",
        source: "revised NIOSH lifting equation (formula verified, coupling from memory)",
        code: "physics::lift, stage::enclosure::mass::people",
    },
];
