//! The stream: rows in the order of the file, put in order of time and handed on day by day.

use std::io::{Cursor, Read};

use csv::{ByteRecord, ReaderBuilder};
use jiff::civil::{DateTime, Weekday};

use super::channel::{CHANNELS, Cells, Channel};
use super::day::{self, Row};
use super::faults::Faults;
use super::layout::{self, Columns, Layout};
use super::time::{self, Moment};
use super::{Log, LogError, number};

/// Bytes that the layout is found from.
pub(super) const HEAD: usize = 64 * 1024;
const DAY: f64 = 86_400.0;
const HOUR: f64 = 3600.0;
/// How near to an hour a jump must be to count as summer time, s.
const NEARLY: f64 = 120.0;
/// Most jumps to summer time that are kept.
const MOST_JUMPS: usize = 20;
/// Most rows of one day that are held at once: one each half second.
const MOST_ROWS: usize = 172_800;

/// Reads a logger file into its digest.
///
/// Memory: the rows of one day, 365 days of sums for each year, the steady windows and hours.
pub fn digest(mut source: impl Read, columns: &Columns) -> Result<Log, LogError> {
    let mut head = Vec::new();
    source
        .by_ref()
        .take(HEAD as u64)
        .read_to_end(&mut head)
        .map_err(|error| LogError::Unreadable(error.to_string()))?;
    let mark = usize::from(head.starts_with(b"\xEF\xBB\xBF")) * 3;
    let layout = layout::find(&head[mark..], columns)?;
    let mut reader = ReaderBuilder::new();
    reader.delimiter(layout.delimiter).quoting(layout.quoting).flexible(true).has_headers(false);
    let mut reader = reader.from_reader(Cursor::new(&head[mark..]).chain(source));
    let mut stream = Stream::new(layout);
    let mut record = ByteRecord::new();
    let mut above = stream.layout.above;
    loop {
        match reader.read_byte_record(&mut record) {
            Ok(false) => break,
            Ok(true) if above > 0 => above -= 1,
            Ok(true) => stream.take(&record),
            Err(error) => return Err(LogError::Unreadable(error.to_string())),
        }
    }
    stream.finish()
}

struct Stream {
    layout: Layout,
    rows: u64,
    used: u64,
    offset: Option<f64>,
    started: bool,
    /// The last row, which a doubled one may still replace.
    pending: Option<Row>,
    /// The latest time so far, and how far it was moved for summer time.
    latest: f64,
    moved: f64,
    span: (f64, f64),
    today: Vec<Row>,
    steps: Vec<f64>,
    joined: String,
    last_before: Option<f64>,
    log: Log,
}

impl Stream {
    fn new(layout: Layout) -> Self {
        let faults = Faults {
            unknown_units: layout.unknown_units.clone(),
            date_order_guessed: layout.order_is_guessed,
            ..Faults::default()
        };
        let log = Log {
            rows: 0,
            used: 0,
            span: (0.0, 0.0),
            offset: None,
            step: 0.0,
            channels: layout.fields.iter().map(|field| field.channel).collect(),
            days: Vec::new(),
            windows: Vec::new(),
            hours: Vec::new(),
            faults,
        };
        Self {
            layout,
            rows: 0,
            used: 0,
            offset: None,
            started: false,
            pending: None,
            latest: f64::NEG_INFINITY,
            moved: 0.0,
            span: (0.0, 0.0),
            today: Vec::new(),
            steps: Vec::new(),
            joined: String::new(),
            last_before: None,
            log,
        }
    }

    fn take(&mut self, record: &ByteRecord) {
        self.rows += 1;
        let line = record.position().map_or(0, csv::Position::line);
        let Some(moment) = self.moment(record) else {
            self.log.faults.unreadable_times.add(line);
            return;
        };
        let Some(at) = self.in_order(moment, line) else { return };
        if self.layout.fields.iter().any(|field| field.column >= record.len()) {
            self.log.faults.short_rows.add(line);
        }
        let cells = self.cells(record, line);
        if let Some(before) = self.pending.replace(Row { at, line, cells }) {
            self.keep(before);
        }
    }

    fn moment(&mut self, record: &ByteRecord) -> Option<Moment> {
        let (date, clock) = self.layout.time;
        let Some(clock) = clock else { return time::read(record.get(date)?, self.layout.order) };
        self.joined.clear();
        self.joined.push_str(std::str::from_utf8(record.get(date)?).ok()?.trim());
        self.joined.push(' ');
        self.joined.push_str(std::str::from_utf8(record.get(clock)?).ok()?.trim());
        time::read(self.joined.as_bytes(), self.layout.order)
    }

    /// The time on the clock of the first row; none for a row that is left out.
    fn in_order(&mut self, moment: Moment, line: u64) -> Option<f64> {
        if !self.started {
            self.started = true;
            self.offset = moment.offset;
        }
        let carried = match (moment.offset, self.offset) {
            (Some(own), Some(first)) => moment.clock - own + first,
            _ => moment.clock,
        };
        let mut at = carried + self.moved;
        let step = at - self.latest;
        if self.latest.is_finite() && self.is_summer_time(moment, at, step) {
            self.log.faults.summer_time.push(at);
            let back = if step > 0.0 { -HOUR } else { HOUR };
            self.moved += back;
            at += back;
        }
        if at < self.latest {
            self.log.faults.backward.add(line);
            return None;
        }
        if at <= self.latest {
            self.log.faults.doubled.add(line);
            self.pending = None;
            self.used -= 1;
        }
        self.latest = at;
        self.used += 1;
        if self.used == 1 {
            self.span.0 = at;
        }
        self.span.1 = at;
        Some(at)
    }

    /// A jump of one hour early on a Sunday of spring or autumn counts as summer time where the file writes no offsets.
    fn is_summer_time(&self, moment: Moment, at: f64, step: f64) -> bool {
        let own = self.own_step();
        let jump = step - own;
        let nearly = (jump.abs() - HOUR).abs() <= NEARLY.min(own.max(1.0) * 2.0);
        let season = [3, 4, 9, 10, 11];
        let sunday = |at: DateTime| at.weekday() == Weekday::Sunday && at.hour() <= 4 && season.contains(&at.month());
        let plain = moment.offset.is_none() && (1.0..=900.0).contains(&own);
        plain && nearly && self.log.faults.summer_time.len() < MOST_JUMPS && time::civil(at).is_some_and(sunday)
    }

    /// The usual step of today so far, or of the day before.
    fn own_step(&self) -> f64 {
        match self.today.as_slice() {
            [.., a, b] => b.at - a.at,
            _ => self.steps.last().copied().unwrap_or(0.0),
        }
    }

    fn cells(&mut self, record: &ByteRecord, line: u64) -> Cells {
        let mut cells = [None; CHANNELS.len()];
        let comma = self.layout.comma;
        for field in &self.layout.fields {
            let Some(cell) = record.get(field.column) else { continue };
            let number = match field.channel {
                Channel::Pump => number::switch(cell, comma),
                _ => number::read(cell, comma),
            };
            let index = field.channel.index();
            match number {
                Some(number) => cells[index] = Some(field.unit.scale * number + field.unit.shift),
                None if cell.trim_ascii().is_empty() => {}
                None => self.log.faults.unreadable_cells[index].add(line),
            }
        }
        cells
    }

    /// Puts a row to its day; a new day closes the one before.
    fn keep(&mut self, row: Row) {
        let new_day = self.today.first().is_some_and(|first| (first.at / DAY).floor() < (row.at / DAY).floor());
        if new_day || self.today.len() == MOST_ROWS {
            self.close_day();
        }
        self.today.push(row);
    }

    fn close_day(&mut self) {
        if let Some(closed) = day::close(&mut self.today, self.last_before, &mut self.log.faults) {
            self.last_before = self.today.last().map(|row| row.at);
            self.steps.push(closed.step);
            self.log.windows.extend(closed.windows);
            self.log.hours.extend(closed.hours);
            match self.log.days.last_mut().filter(|last| (last.start - closed.day.start).abs() < 1.0) {
                Some(last) => last.join(&closed.day),
                None => self.log.days.push(closed.day),
            }
        }
        self.today.clear();
    }

    fn finish(mut self) -> Result<Log, LogError> {
        if let Some(last) = self.pending.take() {
            self.keep(last);
        }
        self.close_day();
        if self.used == 0 {
            return Err(LogError::NoRows { rows: self.rows });
        }
        self.steps.sort_by(f64::total_cmp);
        let step = self.steps[self.steps.len() / 2];
        Ok(Log { rows: self.rows, used: self.used, span: self.span, offset: self.offset, step, ..self.log })
    }
}
