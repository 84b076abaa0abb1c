//! How a file is laid out: delimiter, decimal sign, header, units row, which column tells what.

use csv::{ByteRecord, ReaderBuilder};

use super::LogError;
use super::channel::{CHANNELS, Channel, Unit};
use super::time::{self, Order};
use super::{number, stream::HEAD};

/// Most column names that a complaint lists.
pub(super) const SHOWN: usize = 24;
/// Most rows that are searched for the header.
const SEARCHED: usize = 60;
/// Lengths of a row that a delimiter is judged by.
const MOST_FIELDS: usize = 200;

/// The names that are looked for where the project gives none.
pub const NAMES: [&str; CHANNELS.len()] =
    ["t_coll", "t_in", "t_out", "t_tank_lo", "t_tank_hi", "t_amb", "g_poa", "flow_lpm", "pump", "p_bar", "wind"];

/// The names of the columns as the project remembers them: as in the header, or `#3` for the third.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Columns {
    /// Of the time; `date + time` for two columns.
    pub time: String,
    /// Of each channel.
    pub channels: [String; CHANNELS.len()],
}

impl Default for Columns {
    fn default() -> Self {
        Self { time: "time".to_owned(), channels: NAMES.map(str::to_owned) }
    }
}

/// Where a channel stands and how it becomes SI (°C).
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Field {
    pub channel: Channel,
    pub column: usize,
    pub unit: Unit,
}

/// What was found out from the head of a file.
#[derive(Clone, Debug)]
pub(super) struct Layout {
    pub delimiter: u8,
    pub quoting: bool,
    pub comma: bool,
    /// Records before the first row of readings.
    pub above: usize,
    pub time: (usize, Option<usize>),
    pub order: Order,
    pub order_is_guessed: bool,
    pub fields: Vec<Field>,
    pub unknown_units: Vec<(Channel, String)>,
}

/// Finds out how a file is laid out from its first bytes.
pub(super) fn find(head: &[u8], wanted: &Columns) -> Result<Layout, LogError> {
    if head.starts_with(&[0xFF, 0xFE]) || head.starts_with(&[0xFE, 0xFF]) || head.contains(&0) {
        return Err(LogError::NotText);
    }
    let quoting = head.contains(&b'"');
    let (delimiter, records) = delimiter(head, quoting);
    let first = records.iter().position(has_time).unwrap_or(records.len());
    let names = header(&records[..first]);
    let time = time_column(&wanted.time, &names, records.get(first))?;
    let comma = delimiter != b',' && decimal_comma(&records[first.min(records.len())..], time.0);
    let units = units_row(&records[..first], &names);
    let mut fields = Vec::new();
    let mut unknown_units = Vec::new();
    for (channel, name) in CHANNELS.into_iter().zip(&wanted.channels) {
        let Some(column) = column(name, &names) else { continue };
        let symbol = units.get(column).cloned().filter(|symbol| !symbol.is_empty());
        let symbol = symbol.or_else(|| names.get(column).and_then(|name| bracket(name)));
        let unit = match symbol {
            None => channel.usual(),
            Some(symbol) => channel.unit(&symbol).unwrap_or_else(|| {
                unknown_units.push((channel, symbol));
                channel.usual()
            }),
        };
        fields.push(Field { channel, column, unit });
    }
    let order = records[first.min(records.len())..].iter().find_map(|record| time::order_of(record.get(time.0)?));
    let strokes = records.get(first).and_then(|record| record.get(time.0)).is_some_and(ambiguous);
    Ok(Layout {
        delimiter,
        quoting,
        comma,
        above: first,
        time,
        order: order.unwrap_or(Order::MonthFirst),
        order_is_guessed: strokes && order.is_none(),
        fields,
        unknown_units,
    })
}

/// The separator whose rows agree best in length, and the records that it makes.
fn delimiter(head: &[u8], quoting: bool) -> (u8, Vec<ByteRecord>) {
    let mut best = (0, b',', Vec::new());
    for candidate in *b";\t|, " {
        let records = records(head, candidate, quoting);
        let mut lengths = [0_usize; MOST_FIELDS];
        for record in &records {
            lengths[record.len().min(MOST_FIELDS - 1)] += 1;
        }
        let agreeing = lengths[2..].iter().max().copied().unwrap_or(0);
        if agreeing > best.0 {
            best = (agreeing, candidate, records);
        }
    }
    (best.1, best.2)
}

/// The whole records of a file's head.
fn records(head: &[u8], delimiter: u8, quoting: bool) -> Vec<ByteRecord> {
    let cut = if head.len() < HEAD { head.len() } else { head.iter().rposition(|byte| *byte == b'\n').unwrap_or(0) };
    let mut reader = ReaderBuilder::new();
    reader.delimiter(delimiter).quoting(quoting).flexible(true).has_headers(false);
    reader.from_reader(&head[..cut]).into_byte_records().take(SEARCHED * 4).filter_map(Result::ok).collect()
}

/// A row of readings has a time in one of its cells, or a date.
fn has_time(record: &ByteRecord) -> bool {
    record.iter().any(|cell| {
        let counted = cell.iter().all(u8::is_ascii_digit);
        time::read(cell, Order::DayFirst).or_else(|| time::read(cell, Order::MonthFirst)).is_some()
            && (!counted || cell.len() >= 9)
    })
}

/// The names of the columns: the longest of the records above the readings, the first of equals. Without one they
/// are `#1`, `#2` and so on.
fn header(above: &[ByteRecord]) -> Vec<String> {
    let longest = above.iter().map(ByteRecord::len).max().unwrap_or(0);
    let record = above.iter().find(|record| record.len() == longest && longest > 1);
    record.into_iter().flatten().map(|cell| String::from_utf8_lossy(cell.trim_ascii()).into_owned()).collect()
}

/// The record below the header, if it stands above the readings: units.
fn units_row(above: &[ByteRecord], names: &[String]) -> Vec<String> {
    match above.last() {
        Some(last) if above.len() > 1 && last.len() == names.len() && names_of(last) != names => names_of(last),
        _ => Vec::new(),
    }
}

fn names_of(record: &ByteRecord) -> Vec<String> {
    record
        .iter()
        .map(|cell| String::from_utf8_lossy(cell.trim_ascii()).trim_matches(['(', ')', '[', ']']).to_owned())
        .collect()
}

/// A name without its unit in brackets, in small letters.
fn plain(name: &str) -> String {
    let end = name.find(['(', '[']).unwrap_or(name.len());
    name[..end].trim().to_lowercase()
}

/// The unit in brackets behind a name.
fn bracket(name: &str) -> Option<String> {
    let (_, rest) = name.split_once(['(', '['])?;
    let symbol = rest.trim_end().trim_end_matches([')', ']']).trim();
    (!symbol.is_empty()).then(|| symbol.to_owned())
}

/// The column of a name: the same name, else the same but for case and unit; `#3` is the third.
fn column(wanted: &str, names: &[String]) -> Option<usize> {
    let wanted = wanted.trim();
    if let Some(number) = wanted.strip_prefix('#') {
        return number.parse::<usize>().ok()?.checked_sub(1);
    }
    let same = names.iter().position(|name| name == wanted);
    same.or_else(|| names.iter().position(|name| plain(name) == plain(wanted)))
}

fn time_column(wanted: &str, names: &[String], first: Option<&ByteRecord>) -> Result<(usize, Option<usize>), LogError> {
    let missing = || LogError::NoTime { wanted: wanted.to_owned(), found: names.to_vec() };
    if let Some((date, time)) = wanted.split_once('+') {
        let date = column(date, names).ok_or_else(missing)?;
        return Ok((date, Some(column(time, names).ok_or_else(missing)?)));
    }
    if let Some(found) = column(wanted, names) {
        return Ok((found, None));
    }
    // Without a header the only thing that looks like a time is the time.
    let bare = first.filter(|_| names.is_empty());
    let found = bare.and_then(|record| record.iter().position(|cell| time::read(cell, Order::DayFirst).is_some()));
    found.map(|index| (index, None)).ok_or_else(missing)
}

/// Whether the cells beside the time have decimal commas.
fn decimal_comma(rows: &[ByteRecord], time: usize) -> bool {
    let cells =
        || rows.iter().flat_map(|row| row.iter().enumerate()).filter(|(at, _)| *at != time).map(|(_, cell)| cell);
    let commas = cells().filter(|cell| cell.contains(&b',') && number::read(cell, true).is_some()).count();
    commas > cells().filter(|cell| cell.contains(&b'.') && number::read(cell, false).is_some()).count()
}

/// Whether a date is written with strokes and the year last.
fn ambiguous(cell: &[u8]) -> bool {
    let cell = cell.trim_ascii();
    matches!(cell.iter().position(|byte| b"/-".contains(byte)), Some(1 | 2))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn found(text: &str) -> Layout {
        find(text.as_bytes(), &Columns::default()).unwrap()
    }

    #[test]
    fn a_plain_table_is_found() {
        let layout = found("time,t_in,t_out\n2026-05-06T12:30:00,40.1,48.2\n2026-05-06T12:31:00,40.2,48.1\n");
        assert_eq!((layout.delimiter, layout.comma, layout.above), (b',', false, 1));
        let columns: Vec<_> = layout.fields.iter().map(|field| (field.channel, field.column)).collect();
        assert_eq!(columns, [(Channel::Inlet, 1), (Channel::Outlet, 2)]);
    }

    #[test]
    fn semicolons_decimal_commas_and_a_units_row_are_found() {
        let layout = found("Logger 7\nserial 12\ntime;T_in;Flow_lpm\n;°F;gpm\n06.05.2026 12:30;104,1;0,5\n");
        assert_eq!((layout.delimiter, layout.comma, layout.above), (b';', true, 4));
        assert!((layout.fields[0].unit.scale - 1.0 / 1.8).abs() < 1e-12);
        assert!((layout.fields[1].unit.scale * 60e3 - 3.785).abs() < 1e-3);
    }

    #[test]
    fn units_behind_the_name_are_read_and_unknown_ones_told() {
        let layout = found("Time\tt_in (°C)\tt_out [ohm]\n2026-05-06 12:30\t40\t41\n2026-05-06 12:31\t40\t41\n");
        assert_eq!(layout.delimiter, b'\t');
        assert_eq!(layout.unknown_units, [(Channel::Outlet, "ohm".to_owned())]);
    }

    #[test]
    fn a_file_without_header_goes_by_numbers() {
        let mut columns = Columns::default();
        columns.channels[Channel::Inlet.index()] = "#2".to_owned();
        let layout = find(b"2026-05-06 12:30|40.0|41.0\n2026-05-06 12:31|40.0|41.0\n", &columns).unwrap();
        assert_eq!((layout.above, layout.time.0, layout.fields[0].column), (0, 0, 1));
    }

    #[test]
    fn date_and_time_can_stand_in_two_columns() {
        let columns = Columns { time: "date + clock".to_owned(), ..Columns::default() };
        let layout = find(b"date,clock,t_in\n2026-05-06,12:30,40\n2026-05-06,12:31,40\n", &columns).unwrap();
        assert_eq!(layout.time, (0, Some(1)));
    }

    #[test]
    fn a_missing_time_names_what_is_there() {
        let error = find(b"when,t_in\n2026-05-06 12:30,40\n", &Columns::default()).unwrap_err();
        assert!(error.to_string().contains("'when', 't_in'"), "{error}");
        assert_eq!(find(&[0xFF, 0xFE, b't', 0], &Columns::default()).unwrap_err(), LogError::NotText);
    }

    #[test]
    fn a_date_that_reads_both_ways_is_told() {
        assert!(found("time,t_in\n5/6/2026 12:30,40\n").order_is_guessed);
        assert!(!found("time,t_in\n5/6/2026 12:30,40\n5/13/2026 12:30,40\n").order_is_guessed);
    }
}
