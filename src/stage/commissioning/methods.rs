//! The methods of the commissioning stage, with their sources.

use crate::stage::method::Method;

/// The methods of this stage.
pub static METHODS: &[Method] = &[
    Method {
        id: "test-pressure",
        title: "Pressure to prove at",
        what: "1.5 times the relief setting where the relief valve sits, never above the weakest part's rating; a gauge \
               that hangs elsewhere is corrected for the water between. Settle 15 to 30 minutes, hold 60.",
        source: "project rule; water rules of the United Kingdom ask 1.5 × the working pressure (verified), model \
                 plumbing code of the United States the working pressure for 15 minutes (verified)",
        code: "physics::pressure_test::test_pressure, pressure_at_point",
    },
    Method {
        id: "test-energy",
        title: "Energy stored under test",
        what: "Air: what it gives off falling to the atmosphere without heat, E = p₁V/(k − 1) (1 − (p_a/p₁)^((k−1)/k)). \
               Water without air: half of compliance times pressure squared.",
        source: "textbook thermodynamics; values computed with an independent script",
        code: "physics::pressure_test::CompressedAir::energy, liquid_energy",
    },
    Method {
        id: "pressure-hold",
        title: "What a pressure hold shows",
        what: "The change of the gauge less what the temperature explains. Shut air follows the absolute temperature; \
               shut water in copper gains about 2.5 bar per kelvin at 20 °C, less if air is left in it: what was pumped \
               in tells. A leak that is seen is a leak. Beyond the allowance it is a leak; within it no leak was seen; \
               where the temperature is too doubtful the test cannot tell. The smallest leak is for a loop as soft as \
               measured, or free of air.",
        source: "gas law; density of water and its compressibility after Kell 1975; allowance: project rule",
        code: "physics::pressure_test::judge, physics::trapped::shut_water",
    },
    Method {
        id: "sensor-curve",
        title: "Ohms and degrees",
        what: "Pt1000: R = R₀(1 + A t + B t²) of the 3.85e-3 curve. 10k: three-term fit to the commonest thermistor \
               curve, within 0.12 K of its table from 0 to 150 °C. own: the same three terms through the three points \
               that were entered, believed up to 30 K beyond them. Other sensors are sold under the same names.",
        source: "IEC 60751 (verified page); thermistor table printed alike in two instrument manuals (verified); \
                 Steinhart & Hart 1968",
        code: "physics::sensor",
    },
    Method {
        id: "bucket-flow",
        title: "Flow by bucket and watch",
        what: "Volume over mean time. The bucket's limit counts as a rectangular distribution, the watch by the scatter \
               of its timings; twice the combined standard uncertainty holds about 95 %.",
        source: "guide to the expression of uncertainty in measurement, from memory",
        code: "physics::flow_measurement::Bucket",
    },
    Method {
        id: "log-file",
        title: "The logger file",
        what: "A table of times and readings with any separator, decimal point or comma, units in the header or below it. \
               Times with offsets are brought to the first row's; without one a jump of an hour early on a Sunday of \
               spring or autumn counts as summer time. A doubled time counts once, the later row.",
        source: "project rule; ISO 8601 for times",
        code: "logger",
    },
    Method {
        id: "log-faults",
        title: "What is no reading",
        what: "Exactly 85.0 °C away from its neighbours and -127 °C are a digital sensor's power-up and loss; faster than \
               5 K in 10 s, except after the pump has switched; the same value for half an hour with the pump running \
               (two hours for tank and air). All are left out, none is held over.",
        source: "sentinels: public reports (verified); limits: project rules",
        code: "logger::clean",
    },
    Method {
        id: "log-clock",
        title: "The logger's clock",
        what: "On each day with a smooth sun the middle of its sunlight is compared with that of a clear sky on the same \
               plane behind the same skyline; the median counts.",
        source: "sun: Duffie & Beckman ch. 1; clear sky: Ineichen & Perez 2002; method: project rule; a crystal of 20 \
                 millionths drifts 1.7 s a day",
        code: "stage::commissioning::log::clock_error, physics::night::clock_drift",
    },
    Method {
        id: "log-heat",
        title: "Heat of a day",
        what: "Trapezoids of flow times difference from row to row, never over more than three steps, times density and \
               specific heat at the mean temperature. What goes out again stands apart. A day counts when 95 % of its \
               daylight is there.",
        source: "first law; 95 % and three steps: project rules",
        code: "logger::day, stage::commissioning::log::days",
    },
    Method {
        id: "log-expected",
        title: "Heat expected of a day",
        what: "The computed line in each quarter hour of the log in which liquid was moved, with that quarter's own sun, \
               slant and temperatures. What the panels take up while the pump rests and give off at its next start is left \
               out: on a day of many starts a little more comes than is expected.",
        source: "efficiency curve of the collector conventions; slant: as for the efficiency points",
        code: "stage::commissioning::expected, logger::spell",
    },
    Method {
        id: "efficiency-points",
        title: "Efficiency points",
        what: "Ten minutes after ten of settling: sun ± 50 W/m² and 700 at least, air ± 1.5 K, inlet ± 0.5 K, flow ± 2 %, \
               rise 1.5 K, sun within 30° of straight on. What the panel takes up while it warms is added; beam is \
               counted by 1 − 0.1 (1/cos θ − 1), diffuse light by 0.9, parted by the plane's clearness. On absorber area.",
        source: "ISO 9806-1:1994 as reported (verified), relaxed for a home: project rule; 30° and b₀ = 0.1: \
                 from memory; diffuse share: Erbs, Klein & Duffie 1982, taken for the plane",
        code: "logger::window, stage::commissioning::performance::points",
    },
    Method {
        id: "efficiency-line",
        title: "The measured line",
        what: "Weighted least squares of η over (T_m − T_air)/G. A scatter above what the points' own doubts explain \
               widens it. Errors that all points share (sun, flow, area, pair, slanting light) are added afterwards: no \
               number of points shrinks them. The sun sensor moves η₀ and not U. A bend is told only where it is twice \
               its doubt.",
        source: "least squares; guide to the expression of uncertainty in measurement, from memory; from mean to inlet: \
                 Duffie & Beckman 6.19, from memory",
        code: "stage::commissioning::performance::fit",
    },
    Method {
        id: "performance-agreement",
        title: "Measured against computed",
        what: "z = (measured − computed)/√(u² + u²); up to 2 they agree at about 95 %. The computed η₀ is taken ± 0.03, U \
               ± 0.5 W/(m²·K). The measured line may raise the stagnation that materials are judged by, never lower it. \
               Whoever reads a standing plate reads it where it is hottest: two thirds up, half across, the sensor shaded from \
               the sun.",
        source: "statistics of two numbers; doubts of the computed ones: project rule; place of the sensor: excerpt of a \
                 collector test standard (verified)",
        code: "stage::commissioning::performance::compare",
    },
    Method {
        id: "power-check",
        title: "Power check in the field",
        what: "Sum of measured over sum of promised power in the hours that count; the promise is the computed line times \
               an agreed factor.",
        source: "in the manner of ISO 24194, limits from memory",
        code: "stage::commissioning::performance::power",
    },
    Method {
        id: "squeeze",
        title: "Air found by squeezing",
        what: "Water pumped in and the absolute pressures before and after: V = ΔV/(1 − p₁/p₂). All of the yield is put \
               down to air, so it reads a little high. The vessel must be shut off.",
        source: "Boyle's law",
        code: "physics::pressure_test::Squeeze::trapped_air",
    },
    Method {
        id: "flush",
        title: "Flush",
        what: "0.6 m/s carry air downward; ten contents and a white cloth.",
        source: "facility criteria (verified) for the speed; ten contents: project rule",
        code: "stage::commissioning::filling",
    },
    Method {
        id: "fill",
        title: "Cold pressure, filling and precharge",
        what: "1.0 bar at the top of the cold loop and 0.1 bar for each metre below it, more where the air is thinner; \
               filled 0.1 bar higher; precharge 0.3 bar lower, at 20 °C, turned to the vessel's own temperature as a gas.",
        source: "a collector maker's pressure sheet (verified: 10 m give 2.0, 2.1 and 1.7 bar); altitude: project rule",
        code: "stage::commissioning::filling",
    },
    Method {
        id: "float-meter",
        title: "Float meter in another liquid",
        what: "Buoyancy and density of the float; a viscous liquid lifts it further, which is not seen.",
        source: "balance of forces on a float, textbook",
        code: "physics::flow_measurement::FloatMeter",
    },
    Method {
        id: "control-stability",
        title: "Differences that keep a pump running",
        what: "The still plate is the start difference above the tank; running, that sun pays for A F_R U_L ΔT/C. A stop \
               below it never cycles. Common settings do on some mornings.",
        source: "Duffie & Beckman 10.4, from memory, derived anew",
        code: "physics::differential_control",
    },
    Method {
        id: "reverse-circulation",
        title: "What drives backwards at night",
        what: "Water of 55 °C in one pipe and of 5 °C in the other over the height.",
        source: "hydrostatics; density of water after Kell 1975",
        code: "stage::commissioning::night",
    },
    Method {
        id: "night",
        title: "What a night takes",
        what: "A flow of 0.3 L/min that leaves the tank at 55 °C and comes back at 30; a mixed tank at its limit that loses \
               heat at its first rate for ten hours, a little more than it really does.",
        source: "first law; density and specific heat of the liquid",
        code: "physics::night, stage::commissioning::night",
    },
    Method {
        id: "test-rules",
        title: "Pressure tests that others ask for",
        what: "The relief setting is taken for the highest working pressure. Model plumbing code of the United States: water \
               at the working pressure or air at 50 psi, 15 minutes. Water rules of the United Kingdom: 1.5 times the working \
               pressure, after 30 minutes of settling. EN 806-4: 1.1 times a design pressure of 1.5 times the working \
               pressure. Navy manual: air at 75 psi, 2 to 3 hours, overnight if in doubt; 5 to 10 psi may be temperature. \
               Which binds is for the authority to say.",
        source: "city plumbing codes, a water body's sheet on BS EN 806 and a navy manual (verified pages)",
        code: "stage::commissioning::rules",
    },
    Method {
        id: "yardstick",
        title: "What two homes brought",
        what: "Two monitored systems of 5.9 m² brought 25 to 30 kBtu a day once their faults were found; the middle is the \
               yardstick, for each square metre. Both had faults that only the logging showed.",
        source: "report on solar hot water in cold-climate homes (verified)",
        code: "stage::commissioning::log_rows",
    },
    Method {
        id: "functional-proof",
        title: "Pressure in a proof",
        what: "Without flow or power the pressure stays half a bar below the relief setting.",
        source: "project rule",
        code: "stage::commissioning::functional",
    },
    Method {
        id: "boiling-point",
        title: "Boiling water by altitude",
        what: "Saturation at the pressure of the standard air; the weather moves it by some tenths of a kelvin.",
        source: "steam: physics::steam; standard atmosphere",
        code: "physics::steam::saturation",
    },
    Method {
        id: "sensor-beta",
        title: "The beta equation",
        what: "Two points of a thermistor: 0.7 K high at 0 °C, 0.3 low at 60, 0.8 high at 120, 2 high at 150.",
        source: "thermistor table printed alike in two instrument manuals (verified); errors computed apart",
        code: "physics::sensor::Beta",
    },
    Method {
        id: "sensor-pair",
        title: "Offset of a pair",
        what: "Mean of panel less tank sensor in one stirred bath at several temperatures.",
        source: "common practice, no source",
        code: "stage::commissioning::comparison",
    },
    Method {
        id: "calendar",
        title: "Calendar of upkeep",
        what: "From the day of commissioning or from when a task was last done; seasons begin on 1 April and 1 October.",
        source: "navy manual for glass, weep holes and yearly inspection (verified); anode and glycol from memory; the \
                 rest project rules",
        code: "stage::commissioning::upkeep",
    },
];
