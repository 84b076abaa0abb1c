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
               curve, within 0.12 K of its table from 0 to 150 °C. Other sensors are sold under the same names.",
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
];
