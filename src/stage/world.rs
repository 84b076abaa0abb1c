//! What comes from outside a project: the sky over it and today's date.

use std::sync::Arc;

use jiff::civil::Date;

use crate::climate::Climate;
use crate::model::{Fig, Why};

/// The world around a project. No clock, file or environment is read below it.
#[derive(Clone, Debug)]
pub struct World {
    /// The hourly climate, or why there is none.
    pub sky: Fig<Arc<Climate>>,
    /// Today.
    pub today: Date,
}

impl World {
    /// A world without weather.
    pub fn without_weather(today: Date) -> Self {
        Self { sky: Err(Why::missing("site.weather_file")), today }
    }
}
