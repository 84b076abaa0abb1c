//! Ohms and degrees of the project's sensors: platinum, the commonest thermistor, or a thermistor by three points.

use super::entries::{self as e, SensorType};
use crate::model::{Entry, EntrySpec, Fig, Inputs, Why};
use crate::physics::sensor::{Beta, Platinum, ThreeTerm, thermistor_resistance, thermistor_temperature};
use crate::units::si::{
    Dimension, ElectricalResistance, Temperature, TemperatureInterval, ZERO_CELSIUS, celsius, difference, in_celsius,
};

/// The temperatures of the table that hangs at the bench, °C.
pub const TABLE: [u8; 7] = [0, 20, 40, 60, 80, 100, 120];

/// Temperature of a point of the sensor's own curve.
pub static POINT_TEMPERATURE: Entry<Temperature> =
    Entry::quantity("commissioning.curve_point.*.temperature", "curve point: temperature")
        .why("from the sensor's sheet, or ice, a warm bath and boiling water; three points, far apart")
        .hard(ZERO_CELSIUS - 40.0, ZERO_CELSIUS + 250.0);

/// Resistance at it.
pub static POINT_RESISTANCE: Entry<ElectricalResistance> =
    Entry::quantity("commissioning.curve_point.*.resistance", "curve point: resistance")
        .why("at that temperature, the leads taken off")
        .hard(1.0, 1e7);

/// The entries of this file.
pub static ENTRIES: &[&EntrySpec] = &[&POINT_TEMPERATURE.spec, &POINT_RESISTANCE.spec];

/// How far a curve is believed beyond its points, K (project rule: three terms interpolate well and extrapolate badly).
const BEYOND: f64 = 30.0;
/// Where a thermistor's leads are judged: a hot panel, °C.
const HOT: f64 = 90.0;

/// The sensors of a project.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Sensor {
    /// Platinum, 1000 Ω at 0 °C.
    Platinum,
    /// Thermistor of the commonest curve.
    Common,
    /// Thermistor by three points of its own, and the temperatures that the curve is believed at.
    Own(ThreeTerm, (Temperature, Temperature)),
}

fn pt1000() -> Platinum {
    Platinum { at_zero: ElectricalResistance::from_si(1000.0) }
}

/// The curve through the three points that were entered.
fn own(inputs: &Inputs) -> Fig<Sensor> {
    let rows = inputs.rows("commissioning.curve_point");
    if rows.is_empty() {
        return Err(Why::missing("commissioning.curve_point.1.temperature"));
    }
    let point = |key: &String| Ok((inputs.at(&POINT_TEMPERATURE, key)?, inputs.at(&POINT_RESISTANCE, key)?));
    let points = rows.iter().map(point).collect::<Fig<Vec<_>>>()?;
    let three = <[(Temperature, ElectricalResistance); 3]>::try_from(points);
    let three = three.map_err(|found| {
        Why::out_of_range(format_args!(
            "a curve wants three points of commissioning.curve_point; {} are there",
            found.len()
        ))
    })?;
    let degrees = || three.iter().map(|point| point.0.si());
    let low = degrees().fold(f64::INFINITY, f64::min) - BEYOND;
    let high = degrees().fold(f64::NEG_INFINITY, f64::max) + BEYOND;
    let curve = ThreeTerm::through(three).map_err(|_| {
        Why::out_of_range(
            "the three curve points are no thermistor's: resistance falls with temperature, the steeper the colder",
        )
    })?;
    Ok(Sensor::Own(curve, (Temperature::from_si(low), Temperature::from_si(high))))
}

impl Sensor {
    /// The project's sensors.
    pub fn of(inputs: &Inputs) -> Fig<Self> {
        match inputs.get(&e::SENSOR)? {
            SensorType::Pt1000 => Ok(Self::Platinum),
            SensorType::Thermistor => Ok(Self::Common),
            SensorType::Own => own(inputs),
        }
    }

    /// What the sensor says.
    pub fn temperature(self, resistance: ElectricalResistance) -> Fig<Temperature> {
        match self {
            Self::Platinum => pt1000().temperature(resistance).map_err(Why::out_of_range),
            Self::Common => thermistor_temperature(resistance).map_err(Why::out_of_range),
            Self::Own(curve, believed) => within(curve.temperature(resistance).map_err(Why::out_of_range)?, believed),
        }
    }

    /// What a meter shows at a temperature.
    pub fn resistance(self, temperature: Temperature) -> Fig<ElectricalResistance> {
        match self {
            Self::Platinum => pt1000().resistance(temperature),
            Self::Common => thermistor_resistance(temperature),
            Self::Own(curve, believed) => curve.resistance(within(temperature, believed)?),
        }
        .map_err(Why::out_of_range)
    }

    /// The rougher equation of two numbers on a thermistor's sheet: those of the commonest curve, else those of the
    /// sensor's own curve at 25 and 85 °C.
    pub fn by_beta(self, resistance: ElectricalResistance) -> Fig<Temperature> {
        let beta = match self {
            Self::Platinum => return Err(Why::out_of_range("the beta equation is for thermistors")),
            Self::Common => Beta { at_25_celsius: ElectricalResistance::from_si(10_000.0), beta: 3977.5 },
            Self::Own(..) => {
                let [cold, warm] = [25.0, 85.0].map(|degrees| self.resistance(celsius(degrees)));
                Beta::between_25_and_85(cold?, warm?).map_err(Why::out_of_range)?
            }
        };
        beta.temperature(resistance).map_err(Why::out_of_range)
    }

    /// By how much leads in the circuit move the reading: platinum reads high, a thermistor on a hot panel low.
    pub fn lead_error(self, leads: ElectricalResistance) -> Fig<TemperatureInterval> {
        if self == Self::Platinum {
            return pt1000().lead_error(leads).map_err(Why::out_of_range);
        }
        let hot = celsius(HOT);
        Ok(difference(self.temperature(self.resistance(hot)? + leads)?, hot))
    }
}

fn within(temperature: Temperature, (low, high): (Temperature, Temperature)) -> Fig<Temperature> {
    if (low..=high).contains(&temperature) {
        return Ok(temperature);
    }
    let [found, low, high] = [temperature, low, high].map(in_celsius);
    Err(Why::out_of_range(format_args!(
        "{found:.0} °C is too far from the curve's points, which tell {low:.0} to {high:.0} °C"
    )))
}

/// The panel's sensor as read.
pub fn panel(inputs: &Inputs) -> Fig<Temperature> {
    Sensor::of(inputs)?.temperature(inputs.get(&e::SENSOR_OHMS)?)
}

/// One row of the table, by its key in degrees Celsius.
pub fn row(inputs: &Inputs, key: &str) -> Fig<ElectricalResistance> {
    let degrees: f64 = key.parse().map_err(|_| Why::missing(format!("commissioning.sensor_table.{key}")))?;
    Sensor::of(inputs)?.resistance(celsius(degrees))
}
