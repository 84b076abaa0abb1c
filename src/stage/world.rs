//! What comes from outside a project: the sky over it, what its logger wrote, and today's date.

use std::sync::Arc;

use jiff::civil::Date;

use crate::climate::Climate;
use crate::logger::Log;
use crate::model::{Fig, Why};

/// The world around a project. No clock, file or environment is read below it.
#[derive(Clone, Debug)]
pub struct World {
    /// The hourly climate, or why there is none.
    pub sky: Fig<Arc<Climate>>,
    /// The digest of its logger file, or why there is none.
    pub log: Fig<Arc<Log>>,
    /// Today.
    pub today: Date,
}

impl World {
    /// A world without weather and without a log.
    pub fn without_weather(today: Date) -> Self {
        Self { sky: Err(Why::missing("site.weather_file")), log: Err(Why::missing("commissioning.log_file")), today }
    }
}
