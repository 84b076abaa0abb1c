//! Ohms and degrees of the project's sensors.

use super::entries::{self as e, SensorType};
use crate::model::{Fig, Inputs, Why};
use crate::physics::sensor::{Platinum, thermistor_resistance, thermistor_temperature};
use crate::units::si::{Dimension, ElectricalResistance, Temperature, celsius};

/// The temperatures of the table that hangs at the bench, °C.
pub const TABLE: [u8; 7] = [0, 20, 40, 60, 80, 100, 120];

fn pt1000() -> Platinum {
    Platinum { at_zero: ElectricalResistance::from_si(1000.0) }
}

/// What the sensor says.
pub fn temperature(sensor: SensorType, resistance: ElectricalResistance) -> Fig<Temperature> {
    match sensor {
        SensorType::Pt1000 => pt1000().temperature(resistance),
        SensorType::Thermistor => thermistor_temperature(resistance),
    }
    .map_err(Why::out_of_range)
}

/// What a meter shows at a temperature.
pub fn resistance(sensor: SensorType, temperature: Temperature) -> Fig<ElectricalResistance> {
    match sensor {
        SensorType::Pt1000 => pt1000().resistance(temperature),
        SensorType::Thermistor => thermistor_resistance(temperature),
    }
    .map_err(Why::out_of_range)
}

/// The panel's sensor as read.
pub fn panel(inputs: &Inputs) -> Fig<Temperature> {
    temperature(inputs.get(&e::SENSOR)?, inputs.get(&e::SENSOR_OHMS)?)
}

/// One row of the table, by its key in degrees Celsius.
pub fn row(inputs: &Inputs, key: &str) -> Fig<ElectricalResistance> {
    let degrees: f64 = key.parse().map_err(|_| Why::missing(format!("commissioning.sensor_table.{key}")))?;
    resistance(inputs.get(&e::SENSOR)?, celsius(degrees))
}
