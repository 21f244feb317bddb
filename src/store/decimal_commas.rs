//! Decimal commas between columns that are parted by commas too: `A,6,29`.
//!
//! Such a row has a field more than its header for every reading. Where all
//! rows have, and both halves are digits, it can only be that; anything less
//! plain is refused, never read as 6.

use csv::StringRecord;

/// Joins the halves of readings cut in two by their decimal commas, where the
/// shape of every row after the header proves it. Answers whether it did.
///
/// `header` is the number of columns that the header names, `readings` those
/// that hold readings.
pub(super) fn join(
    mut rows: Vec<&mut StringRecord>,
    header: usize,
    mut readings: Vec<usize>,
) -> bool {
    readings.sort_unstable();
    let proven = !rows.is_empty()
        && !readings.is_empty()
        && rows.iter().all(|row| is_cut(row, header, &readings));
    if proven {
        for row in &mut rows {
            **row = joined(row, &readings);
        }
    }
    proven
}

/// Whether a row has one field more for every reading, and digits in both.
fn is_cut(fields: &StringRecord, header: usize, readings: &[usize]) -> bool {
    let full = fields.iter().enumerate();
    let full = full.filter(|(_, field)| !field.is_empty());
    let filled = full.last().map_or(0, |(column, _)| column + 1);
    let least = readings.last().map_or(0, |last| last + readings.len() + 1);
    let most = header + readings.len();
    fields.len() > header
        && (least..=most).contains(&filled)
        && readings.iter().enumerate().all(|(before, reading)| {
            let whole = fields.get(reading + before).unwrap_or_default();
            let part = fields.get(reading + before + 1).unwrap_or_default();
            are_halves(whole, part)
        })
}

/// The row with its readings, which are in order, in one piece again.
fn joined(fields: &StringRecord, readings: &[usize]) -> StringRecord {
    let mut whole = StringRecord::new();
    let mut column = 0;
    let mut fields = fields.iter();
    while let Some(field) = fields.next() {
        let is_cut = readings.binary_search(&column).is_ok();
        match is_cut.then(|| fields.next()).flatten() {
            Some(part) => whole.push_field(&format!("{field},{part}")),
            None => whole.push_field(field),
        }
        column += 1;
    }
    whole
}

/// Whether two fields beside each other may be one number cut at its decimal
/// comma: `6` and `29`, or `0` and `2475 in`.
pub(super) fn are_halves(whole: &str, part: &str) -> bool {
    let digits = |text: &str| !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit());
    let unit = part.trim_start_matches(|c: char| c.is_ascii_digit());
    let part = part.get(..part.len() - unit.len()).unwrap_or_default();
    let is_unit = |c: char| c.is_alphabetic() || c.is_whitespace() || "\"″”".contains(c);
    digits(whole) && digits(part) && unit.chars().all(is_unit)
}
