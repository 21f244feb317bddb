//! Lines that gauges send, over a serial port or as a keyboard would.

/// Why a line is no reading. Texts are what was received, cut short.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum GaugeLineProblem {
    /// No number in it.
    NoNumber(String),
    /// Several numbers, none of which is plainly the reading.
    SeveralNumbers(String),
    /// A number, but no plain decimal: an exponent, two decimal signs,
    /// thousands set apart.
    NotPlain(String),
    /// A negative number.
    Negative(String),
    /// A unit no thickness is read in; carries it.
    UnknownUnit(String),
    /// No end of line within so many bytes; the rest is thrown away up to
    /// the next end.
    TooLong,
}

/// Longest line looked at, in bytes.
pub const MOST_LINE_BYTES: usize = 256;

/// Units a reading may be followed by, in small letters.
const UNITS: [&str; 11] = [
    "in", "inch", "inches", "\"", "″", "thou", "mm", "um", "µm", "μm", "pulg",
];

/// Units that must not be taken for junk, or a reading would be off tenfold
/// or more.
const OTHER_UNITS: [&str; 7] = ["cm", "dm", "m", "ft", "nm", "mil", "mils"];

/// The reading in one line, as a text for a cell: the number and, where the
/// line names one, its unit (`0.2475`, `6.29 mm`).
///
/// The line may hold any junk around one number. Of several numbers the only
/// one with a decimal sign is the reading (`01A+00.2475`: a channel and a
/// reading). A blank line is no problem: `None`.
///
/// # Errors
/// See [`GaugeLineProblem`].
pub fn parse_gauge_line(line: &[u8]) -> Result<Option<String>, GaugeLineProblem> {
    if line.len() > MOST_LINE_BYTES {
        return Err(GaugeLineProblem::TooLong);
    }
    let text = String::from_utf8_lossy(line);
    let text = text.trim_matches(|c: char| c.is_whitespace() || c.is_control());
    if text.is_empty() {
        return Ok(None);
    }
    let found = || {
        let plain = text.chars().filter(|c| !c.is_control());
        plain.take(40).collect::<String>()
    };
    let numbers = numbers(text);
    let with_sign = |number: &&Number<'_>| number.digits.contains(['.', ',']);
    let number = match (numbers.as_slice(), numbers.iter().filter(with_sign).count()) {
        ([], _) => return Err(GaugeLineProblem::NoNumber(found())),
        ([only], _) => only,
        (several, 1) => match several.iter().find(with_sign) {
            Some(number) => number,
            None => return Err(GaugeLineProblem::SeveralNumbers(found())),
        },
        _ => return Err(GaugeLineProblem::SeveralNumbers(found())),
    };
    if number.digits.matches(['.', ',']).count() > 1 || has_exponent(number.after) {
        return Err(GaugeLineProblem::NotPlain(found()));
    }
    if number.before.ends_with(['-', '−']) {
        return Err(GaugeLineProblem::Negative(found()));
    }
    let unit = unit_after(number.after);
    if OTHER_UNITS.contains(&unit.as_str()) {
        return Err(GaugeLineProblem::UnknownUnit(unit));
    }
    Ok(Some(if UNITS.contains(&unit.as_str()) {
        format!("{} {unit}", number.digits)
    } else {
        number.digits.to_owned()
    }))
}

/// A run of digits and decimal signs with what stands around it.
struct Number<'a> {
    before: &'a str,
    digits: &'a str,
    after: &'a str,
}

fn numbers(text: &str) -> Vec<Number<'_>> {
    let belongs = |c: char| c.is_ascii_digit() || c == '.' || c == ',';
    let mut found = Vec::new();
    let mut from = 0;
    while let Some(start) = text.get(from..).and_then(|rest| rest.find(belongs)) {
        let start = from + start;
        let rest = text.get(start..).unwrap_or_default();
        let length = rest.find(|c| !belongs(c)).unwrap_or(rest.len());
        let (digits, _) = rest.split_at(length);
        from = start + length;
        // A comma before or behind a number parts it from something else, and
        // a full stop behind it ends a sentence.
        let inner = digits.trim_start_matches(',');
        let cut = digits.len() - inner.len();
        let inner = inner.trim_end_matches([',', '.']);
        if inner.bytes().any(|byte| byte.is_ascii_digit()) {
            let start = start + cut;
            found.push(Number {
                before: text.get(..start).unwrap_or_default(),
                digits: inner,
                after: text.get(start + inner.len()..).unwrap_or_default(),
            });
        }
    }
    found
}

fn has_exponent(after: &str) -> bool {
    let Some(rest) = after.strip_prefix(['e', 'E']) else {
        return false;
    };
    rest.trim_start_matches(['+', '-'])
        .starts_with(|c: char| c.is_ascii_digit())
}

/// The word right behind a number, in small letters.
fn unit_after(after: &str) -> String {
    let after = after.trim_start_matches([',', '.', ' ', '\t', '\u{a0}']);
    let word = |c: char| c.is_alphabetic() || matches!(c, '"' | '″');
    let end = after.find(|c| !word(c)).unwrap_or(after.len());
    after.get(..end).unwrap_or_default().to_lowercase()
}

/// What ends a line.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum LineEnd {
    /// Carriage return, line feed, or both.
    #[default]
    Either,
    /// Carriage return only.
    CarriageReturn,
    /// Line feed only.
    LineFeed,
}

impl LineEnd {
    fn ends(self, byte: u8) -> bool {
        match self {
            Self::Either => byte == b'\r' || byte == b'\n',
            Self::CarriageReturn => byte == b'\r',
            Self::LineFeed => byte == b'\n',
        }
    }
}

/// Puts the bytes a gauge sends together to lines. Keeps no more than
/// [`MOST_LINE_BYTES`], whatever is sent.
#[derive(Debug, Clone, Default)]
pub struct GaugeLines {
    end: LineEnd,
    line: Vec<u8>,
    /// Set while the rest of a line that is too long is thrown away.
    skipping: bool,
}

impl GaugeLines {
    /// A collector for lines with this end.
    pub fn ending(end: LineEnd) -> Self {
        Self {
            end,
            ..Self::default()
        }
    }

    /// Takes bytes as they come; answers what the lines they complete hold.
    /// Blank lines are passed over.
    pub fn push(&mut self, bytes: &[u8]) -> Vec<Result<String, GaugeLineProblem>> {
        let mut found = Vec::new();
        for &byte in bytes {
            if self.end.ends(byte) {
                found.extend(self.flush());
            } else if self.skipping {
            } else if self.line.len() == MOST_LINE_BYTES {
                self.line.clear();
                self.skipping = true;
                found.push(Err(GaugeLineProblem::TooLong));
            } else {
                self.line.push(byte);
            }
        }
        found
    }

    /// Ends the present line, for a gauge that sends no line end and has been
    /// silent for a while; answers what it holds. Not to be called when the
    /// connection breaks: half a number is no reading.
    pub fn flush(&mut self) -> Option<Result<String, GaugeLineProblem>> {
        self.skipping = false;
        let line = std::mem::take(&mut self.line);
        parse_gauge_line(&line).transpose()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(line: &str, expected: Result<Option<&str>, fn(String) -> GaugeLineProblem>) {
        let found = parse_gauge_line(line.as_bytes());
        match expected {
            Ok(expected) => assert_eq!(found, Ok(expected.map(str::to_owned)), "{line:?}"),
            Err(problem) => {
                let found = found.expect_err(line);
                let same = std::mem::discriminant(&found)
                    == std::mem::discriminant(&problem(String::new()));
                assert!(same, "{line:?}: {found:?}");
            }
        }
    }

    #[test]
    fn one_number_in_any_junk() {
        use GaugeLineProblem::{Negative, NoNumber, NotPlain, SeveralNumbers, UnknownUnit};
        for (line, text) in [
            ("0.2475", "0.2475"),
            ("  +0.2475  in\r", "0.2475 in"),
            ("6,29mm", "6,29 mm"),
            ("01A+00006.290", "00006.290"),
            ("ch 3: .2475\" ok", ".2475 \""),
            ("\u{2}6.29 MM;", "6.29 mm"),
            ("6290 µm", "6290 µm"),
            ("2026-03-02 10:15 6.29", "6.29"),
            ("A,0.2475,in", "0.2475 in"),
            ("0.2475 INVALID", "0.2475"),
            ("the reading is 6.29.", "6.29"),
            ("7", "7"),
        ] {
            check(line, Ok(Some(text)));
        }
        check("  \r\n\0", Ok(None));
        check("Err", Err(NoNumber));
        check("...", Err(NoNumber));
        check("0.2475 0.2480", Err(SeveralNumbers));
        check("12 13", Err(SeveralNumbers));
        check("2.475E-1", Err(NotPlain));
        check("1,234.5", Err(NotPlain));
        check("1.2.3", Err(NotPlain));
        check("-0.0005 mm", Err(Negative));
        check("0.629 cm", Err(UnknownUnit));
    }

    #[test]
    fn bytes_that_are_no_text_do_no_harm() {
        let mut lines = GaugeLines::ending(LineEnd::Either);
        let garbage: Vec<u8> = (0..=255).cycle().take(5_000).collect();
        for result in lines.push(&garbage) {
            assert!(result.is_err() || result.is_ok_and(|text| text.len() < 300));
        }
        // A line that never ends is reported once and then thrown away.
        let mut lines = GaugeLines::ending(LineEnd::LineFeed);
        assert_eq!(
            lines.push(&[b'9'; 10_000]),
            [Err(GaugeLineProblem::TooLong)]
        );
        assert_eq!(lines.push(&[b'9'; 10_000]), []);
        assert_eq!(lines.push(b"\n6.29\r\n6.2"), [Ok("6.29".to_owned())]);
        // Silence ends a line too.
        assert_eq!(lines.flush(), Some(Ok("6.2".to_owned())));
        assert_eq!(lines.flush(), None);
        let mut lines = GaugeLines::ending(LineEnd::CarriageReturn);
        assert_eq!(lines.push(b"6.29\r\r6.30\r").len(), 2);
        // The longest line that is read, and one byte more.
        for (blanks, found) in [
            (252, Ok("6.29".to_owned())),
            (253, Err(GaugeLineProblem::TooLong)),
        ] {
            let line = format!("{}6.29\r", " ".repeat(blanks));
            assert_eq!(lines.push(line.as_bytes()), [found]);
        }
    }
}
