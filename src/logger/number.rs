//! Numbers as loggers write them: with a decimal point or comma, read without a copy.

/// Powers of ten that are exact.
const POWERS: [f64; 16] = [1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15];

/// The number in a cell; `comma` says which decimal sign the file has. Up to fifteen digits are read exactly.
pub(super) fn read(cell: &[u8], comma: bool) -> Option<f64> {
    let cell = cell.trim_ascii();
    let (negative, digits) = match cell.split_first()? {
        (b'-', rest) => (true, rest),
        (b'+', rest) => (false, rest),
        _ => (false, cell),
    };
    let point = if comma { b',' } else { b'.' };
    let mut whole: u64 = 0;
    let mut count = 0_usize;
    let mut decimals = None;
    for byte in digits {
        match byte {
            b'0'..=b'9' if count < 15 => {
                whole = whole * 10 + u64::from(byte - b'0');
                count += 1;
                decimals = decimals.map(|places| places + 1);
            }
            byte if *byte == point && decimals.is_none() => decimals = Some(0_usize),
            _ => return slowly(cell, comma),
        }
    }
    if count == 0 {
        return None;
    }
    let magnitude = whole as f64 / POWERS[decimals.unwrap_or(0)];
    Some(if negative { -magnitude } else { magnitude })
}

/// Exponents and long numbers; words such as `nan` are no numbers.
fn slowly(cell: &[u8], comma: bool) -> Option<f64> {
    let allowed: &[u8] = if comma { b"+-,eE" } else { b"+-.eE" };
    if !cell.iter().all(|byte| byte.is_ascii_digit() || allowed.contains(byte)) {
        return None;
    }
    let text = std::str::from_utf8(cell).ok()?;
    let number = if comma { text.replace(',', ".").parse() } else { text.parse::<f64>() };
    number.ok().filter(|value| value.is_finite())
}

/// Whether a pump runs, from a number or a word.
pub(super) fn switch(cell: &[u8], comma: bool) -> Option<f64> {
    let word = cell.trim_ascii();
    if [b"on".as_slice(), b"true", b"yes"].iter().any(|on| word.eq_ignore_ascii_case(on)) {
        Some(1.0)
    } else if [b"off".as_slice(), b"false", b"no"].iter().any(|off| word.eq_ignore_ascii_case(off)) {
        Some(0.0)
    } else {
        read(word, comma)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_read_as_the_standard_library_reads_them() {
        for text in ["0", "21.5", "-127", "+3.25", "0.0625", "123456789.123456", "1e3", "-2.5E-2", ".5", "7."] {
            assert_eq!(read(text.as_bytes(), false), text.parse().ok(), "{text}");
        }
        assert_eq!(read(b" 21,5 ", true), Some(21.5));
        assert_eq!(read(b"1,5e2", true), Some(150.0));
    }

    #[test]
    fn words_and_odd_signs_are_no_numbers() {
        for text in ["", "-", "nan", "inf", "1.2.3", "12:30", "21,5", "--1"] {
            assert_eq!(read(text.as_bytes(), false), None, "{text}");
        }
        assert_eq!(read(b"21.5", true), None);
    }

    #[test]
    fn a_pump_can_be_on_in_words() {
        assert_eq!(
            [switch(b"ON", false), switch(b"off", false), switch(b"1", false)],
            [Some(1.0), Some(0.0), Some(1.0)]
        );
    }
}
