//! Reads the lengths people type.

use super::{Length, Unit};

/// Whether a length may carry a sign.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sign {
    /// A thickness, a position, a step: a sign makes no sense.
    None,
    /// A move: out or up is positive, in or down negative.
    Either,
}

/// What is wrong with a typed length. The words room makes sentences of it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum LengthProblem {
    /// Nothing but blanks.
    Empty,
    /// No number can be read; carries what was found.
    NotANumber(String),
    /// A number followed by something that is no known unit; carries it.
    UnknownUnit(String),
    /// A sign where none makes sense.
    SignNotAllowed,
    /// More digits than a nanometre holds, or a fraction that is no whole
    /// number of nanometres.
    FinerThanNanometre,
    /// A fraction with nothing below the line.
    ZeroDenominator,
    /// Too large to be a length here.
    TooLarge,
}

/// Unit marks as people write them, with nanometres per unit. The longest
/// marks stand first so that none hides inside another.
const MARKS: [(&str, i64); 13] = [
    ("inches", Unit::Inch.nm()),
    ("pulgadas", Unit::Inch.nm()),
    ("pulg", Unit::Inch.nm()),
    ("inch", Unit::Inch.nm()),
    ("thou", 25_400),
    ("in", Unit::Inch.nm()),
    ("mm", Unit::Millimetre.nm()),
    ("µm", 1_000),
    ("μm", 1_000),
    ("um", 1_000),
    ("\"", Unit::Inch.nm()),
    ("″", Unit::Inch.nm()),
    ("”", Unit::Inch.nm()),
];

/// Longest run of digits looked at; a longer one is finer or larger than any
/// length here and would only overflow.
const MOST_DIGITS: usize = 24;

/// Bytes of the longest text that is looked at: no length takes as many, and a
/// pasted page is refused at once.
const MOST_BYTES: usize = 1_024;
/// Letters of a longer one that are said.
const SHOWN_OF_LONG: usize = 60;

/// Reads a typed length: a decimal (`0.2475`, `.2475`, `6,29`), a fraction
/// (`1/4`) or a mixed number (`1 1/8`, `1-1/8`), with or without a unit (`in`,
/// `inch`, `"`, `thou`, `mm`, `µm`); a bare number takes `bare`. Says whether
/// the text named a unit itself.
///
/// The value is exact: a text that is no whole number of nanometres is
/// refused rather than rounded.
///
/// # Errors
/// See [`LengthProblem`].
pub fn parse_length(text: &str, bare: Unit, sign: Sign) -> Result<(Length, bool), LengthProblem> {
    let text = text.trim();
    if text.is_empty() {
        return Err(LengthProblem::Empty);
    }
    if text.len() > MOST_BYTES {
        let begins = text.chars().take(SHOWN_OF_LONG).collect();
        return Err(LengthProblem::NotANumber(begins));
    }
    let (number, nm_per_unit, marked) = split_unit(text, bare);
    let (number, negative, signed) = split_sign(number);
    if signed && sign == Sign::None {
        return Err(LengthProblem::SignNotAllowed);
    }
    let (numerator, denominator) = read_number(number, text)?;
    let nm = whole_nanometres(numerator, denominator, nm_per_unit)?;
    Ok((Length::from_nm(if negative { -nm } else { nm }), marked))
}

fn split_unit(text: &str, bare: Unit) -> (&str, i64, bool) {
    let lower = text.to_lowercase();
    for (mark, nm) in MARKS {
        // Lower-casing keeps the byte length of every mark here, so the same
        // cut fits the text as typed; `get` guards against the exceptions.
        if lower.ends_with(mark)
            && let Some(number) = text
                .len()
                .checked_sub(mark.len())
                .and_then(|end| text.get(..end))
        {
            return (number.trim_end(), nm, true);
        }
    }
    (text, bare.nm(), false)
}

fn split_sign(number: &str) -> (&str, bool, bool) {
    for (mark, negative) in [("+", false), ("-", true), ("−", true)] {
        if let Some(rest) = number.strip_prefix(mark) {
            return (rest.trim_start(), negative, true);
        }
    }
    (number, false, false)
}

/// The number as an exact fraction.
fn read_number(number: &str, whole_text: &str) -> Result<(i128, i128), LengthProblem> {
    let unreadable = || unreadable(number, whole_text);
    if let Some((above, below)) = number.split_once('/') {
        let below = digits(below.trim()).ok_or_else(unreadable)??;
        if below == 0 {
            return Err(LengthProblem::ZeroDenominator);
        }
        let above = above.trim();
        let (whole, above) = match above.rsplit_once([' ', '-', '\u{a0}']) {
            Some((whole, above)) => (
                digits(whole.trim()).ok_or_else(unreadable)??,
                digits(above.trim()).ok_or_else(unreadable)??,
            ),
            None => (0, digits(above).ok_or_else(unreadable)??),
        };
        let numerator = whole
            .checked_mul(below)
            .and_then(|scaled| scaled.checked_add(above))
            .ok_or(LengthProblem::TooLarge)?;
        return Ok((numerator, below));
    }
    let (whole, part) = number.split_once(['.', ',']).unwrap_or((number, ""));
    if whole.is_empty() && part.is_empty() {
        return Err(unreadable());
    }
    // Zeros at the end say nothing finer.
    let part = part.trim_end_matches('0');
    let all = format!("{whole}{part}");
    let numerator = if all.is_empty() {
        0
    } else {
        match digits(&all) {
            None => return Err(unreadable()),
            Some(Err(_)) if whole.trim_start_matches('0').len() < MOST_DIGITS / 2 => {
                return Err(LengthProblem::FinerThanNanometre);
            }
            Some(value) => value?,
        }
    };
    let exponent = u32::try_from(part.len()).map_err(|_| LengthProblem::FinerThanNanometre)?;
    let denominator = 10_i128
        .checked_pow(exponent)
        .ok_or(LengthProblem::FinerThanNanometre)?;
    Ok((numerator, denominator))
}

/// A run of digits and nothing else; `None` when it is something else.
fn digits(text: &str) -> Option<Result<i128, LengthProblem>> {
    if text.is_empty() || !text.bytes().all(|byte| byte.is_ascii_digit()) {
        return None;
    }
    let text = text.trim_start_matches('0');
    if text.len() > MOST_DIGITS {
        return Some(Err(LengthProblem::TooLarge));
    }
    Some(Ok(text.parse().unwrap_or(0)))
}

/// Tells a number with an unknown unit from no number at all.
fn unreadable(number: &str, whole_text: &str) -> LengthProblem {
    let letters = number.find(|c: char| c.is_alphabetic());
    match letters {
        Some(at)
            if number[..at]
                .trim()
                .bytes()
                .all(|b| b.is_ascii_digit() || matches!(b, b'.' | b',' | b'/' | b' '))
                && number[..at].bytes().any(|b| b.is_ascii_digit())
                && !number[at..].bytes().any(|b| b.is_ascii_digit()) =>
        {
            LengthProblem::UnknownUnit(number[at..].to_owned())
        }
        _ => LengthProblem::NotANumber(whole_text.to_owned()),
    }
}

fn whole_nanometres(
    numerator: i128,
    denominator: i128,
    nm_per_unit: i64,
) -> Result<i64, LengthProblem> {
    let scaled = numerator
        .checked_mul(i128::from(nm_per_unit))
        .ok_or(LengthProblem::TooLarge)?;
    if scaled % denominator != 0 {
        return Err(LengthProblem::FinerThanNanometre);
    }
    i64::try_from(scaled / denominator).map_err(|_| LengthProblem::TooLarge)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(text: &str, bare: Unit, expected: Result<i64, LengthProblem>) {
        let found = parse_length(text, bare, Sign::None).map(|(length, _)| length.nm());
        assert_eq!(found, expected, "{text:?}");
    }

    #[test]
    fn reads_what_people_type() {
        // 1 in = 25 400 000 nm exactly (Federal Register, 1 July 1959).
        for (text, nm) in [
            ("0.2475", 6_286_500),
            (".2475", 6_286_500),
            ("0.2475 in", 6_286_500),
            ("0.2475\"", 6_286_500),
            ("0.2475″", 6_286_500),
            (" 0,2475 IN ", 6_286_500),
            ("247.5 thou", 6_286_500),
            ("6.29 mm", 6_290_000),
            ("6.29mm", 6_290_000),
            ("1/4", 6_350_000),
            ("1/64 in", 396_875),
            ("1 / 4", 6_350_000),
            ("1 1 / 8 in", 28_575_000),
            ("1 1/8 in", 28_575_000),
            ("1-1/8", 28_575_000),
            ("3", 76_200_000),
            ("3.", 76_200_000),
            ("0", 0),
            // Micro sign, Greek mu and the letter u: 1 µm = 1 000 nm each.
            ("6290 \u{b5}m", 6_290_000),
            ("6290 \u{3bc}m", 6_290_000),
            ("6290 um", 6_290_000),
        ] {
            check(text, Unit::Inch, Ok(nm));
        }
        // A tenth of a millionth of an inch is 2.54 nm.
        check(
            "0.0000001",
            Unit::Inch,
            Err(LengthProblem::FinerThanNanometre),
        );
        check("6,29", Unit::Millimetre, Ok(6_290_000));
    }

    #[test]
    fn refuses_what_is_no_length() {
        use LengthProblem as P;
        for (text, problem) in [
            ("", P::Empty),
            ("   ", P::Empty),
            ("NaN", P::NotANumber("NaN".into())),
            ("inf", P::NotANumber("inf".into())),
            ("abc", P::NotANumber("abc".into())),
            ("1e400", P::NotANumber("1e400".into())),
            (".", P::NotANumber(".".into())),
            ("1.2.3", P::NotANumber("1.2.3".into())),
            ("1,234.5", P::NotANumber("1,234.5".into())),
            ("-0.25", P::SignNotAllowed),
            ("+0.25", P::SignNotAllowed),
            ("1/0", P::ZeroDenominator),
            ("1/3", P::FinerThanNanometre),
            ("0.123456789123", P::FinerThanNanometre),
            (
                "0.000000000000000000000000000000000000001",
                P::FinerThanNanometre,
            ),
            ("99999999999999999999999999999999999999999", P::TooLarge),
            ("3 cubits", P::UnknownUnit("cubits".into())),
            ("in", P::NotANumber("in".into())),
            ("½", P::NotANumber("½".into())),
        ] {
            check(text, Unit::Inch, Err(problem));
        }
    }

    #[test]
    fn a_move_may_be_signed() {
        let (length, marked) = parse_length("-0.002 in", Unit::Inch, Sign::Either).unwrap();
        assert_eq!((length.nm(), marked), (-50_800, true));
    }
}
