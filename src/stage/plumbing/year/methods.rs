//! The methods of the year, with their sources.

use crate::stage::method::Method;

/// The methods of the year.
pub static METHODS: &[Method] = &[
    Method {
        id: "hourly-year",
        title: "The year hour by hour",
        what: "One heat capacity at the panels' outlet (panels, and the filled pipe of a loop that stays full), the \
               panels' curve turned to the inlet with its loss at 30 K over the air, glass by the angle of each part of \
               the light, skyline and rows; pipes that lose heat while the pump runs; a tank of equal mixed layers in \
               which what is warmer below mixes upward at once; coil in the lowest layer, outside exchanger with 1.25 \
               times the panels' flow on the tank's side, or the tank's own water; a controller that switches at the \
               moment its difference is crossed; a mixing valve; a heater behind the tank or an element in it. \
               Explicit midpoint with located switching; whatever moves heat is what is booked, so energy closes to \
               rounding. The water's load is counted by mass. Cold water lies between the middles of two months as the \
               day does. A thermosiphon runs at the flow of its working point (at the entered flow while no \
               runs are written), from 3 K over the tank until 0.5 K; flow backward at night is not computed. What a \
               drainback loop leaves in the panel is not reckoned. Wind, snow, dirt and shade not entered are not in it. Peaks, hours at a temperature and the \
               worst week need real hours of a weather file: mean days have none.",
        source: "Duffie & Beckman 6, 8 and 10 (from memory); one-node panel, Hottel & Whillier 1958; checked against \
                 three years by steps of 5 s in another code and, outside, against the monthly correlation",
        code: "year::simulate, stage::plumbing::year",
    },
    Method {
        id: "pipe-loss",
        title: "Losses of the loop's pipe",
        what: "Conduction through the insulation and a film outside (9 W/(m²·K) indoors, 22 outdoors), run by run as \
               the loop is written: up to what takes the heat, else to the reservoir, the way is hot, after it cold. A \
               run without insulation is bare; a hose counts as the loop's pipe. Where no run is written, half of the \
               loop's length counts each way, insulated alike. In the year all of it loses to the outside air, which \
               errs to the cautious side for runs indoors.",
        source: "heat transfer texts; film coefficients from memory",
        code: "physics::pipe_loss::InsulatedPipe::conductance, stage::plumbing::year::pipes",
    },
    Method {
        id: "worst-pressures",
        title: "Pressure of the loop through the worst days",
        what: "From the temperatures of the worst days. A loop with a vessel: gas law over the reserve and the growth of \
               panels and rest, each at its own temperature; where the plate is hotter than the boiling point at the \
               top, vapour pressure there, but no more than the vessel shows once steam fills the panels and its reach \
               of pipe; the relief setting is the ceiling. By day the rest counts as warm as the top of the tank, at \
               night as cold as the air. A loop that the mains fill: the larger of their pressure at the top and \
               steam at the plate. A loop that drains has none. The gas of the vessel is taken not to warm, and what \
               the relief valve lets out is not missed afterwards.",
        source: "Boyle's law; vapour pressure IAPWS SR1-86 with Raoult's law; densities IAPWS SR6-08 and Melinder 2010",
        code: "stage::plumbing::year::worst_pressures, physics::loop_pressure",
    },
    Method {
        id: "worst-days",
        title: "The worst days, minute by minute",
        what: "An empty house for fourteen clear midsummer days (16 July, south of the equator 16 January); one such day \
               with the usual draw and no electricity from noon; noon to noon around the coldest still plate of the \
               weather file. The clear days have the sun of a cloudless sky and the air of the warmest day within a \
               fortnight of that date. The simulated plant says when the pump runs and how warm the tank is; a panel \
               without flow goes towards the plate of its full heat balance (1 m/s, sky as warm as the air; at night \
               the balance under the file's own sky), with its own heat capacity. The hour in which a drainback \
               loop empties is not reckoned. absorber.stagnation_worst judges materials.",
        source: "plate balance as for stagnation and frost; clear sky: Ineichen & Perez 2002; the days are this \
                 project's own choice",
        code: "stage::plumbing::year::worst_days",
    },
    Method {
        id: "one-step",
        title: "One step up and one step down",
        what: "The whole project is solved again with one thing changed (a panel more or fewer, tank and flow by a \
               quarter, the next tube of the same standard, ten points of exchanger effectiveness, ten degrees of \
               tilt) and its year is simulated. Its cost is what the bill of materials costs more, over the \
               lines that change and have a price; tank, exchanger and labour do not stand on it.",
        source: "this project's own choice of steps",
        code: "stage::plumbing::year::choices",
    },
];
