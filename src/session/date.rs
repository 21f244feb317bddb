//! Calendar dates as people file them.

use std::fmt;

use jiff::Span;
use jiff::civil::{Date, date};

use crate::codec::as_text;

/// A day of the Gregorian calendar, written `2026-11-25` (ISO 8601).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct IsoDate(Date);

impl IsoDate {
    /// The day's number, 1970-01-01 being 0.
    pub fn day_number(self) -> i64 {
        self.0.duration_since(date(1970, 1, 1)).as_hours() / 24
    }

    /// The day so many days later; none outside the years 1 to 9999.
    pub fn later(self, days: i64) -> Option<Self> {
        let there = self.0.checked_add(Span::new().try_days(days).ok()?).ok()?;
        (there.year() >= 1).then_some(Self(there))
    }
}

as_text!(IsoDate, Date, |date| date, |text| Self::parse(text).ok());

/// A text that is no date; carries it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NoDate(pub String);

impl IsoDate {
    /// Reads `2026-11-25`.
    ///
    /// # Errors
    /// The text, when it is anything else or no day of the calendar.
    pub fn parse(text: &str) -> Result<Self, NoDate> {
        let text = text.trim();
        Self::read(text).ok_or_else(|| NoDate(text.to_owned()))
    }

    fn read(text: &str) -> Option<Self> {
        let mut parts = text.split('-');
        let mut number = |digits: usize| {
            let part = parts.next()?;
            let plain = part.len() == digits && part.bytes().all(|byte| byte.is_ascii_digit());
            plain.then(|| part.parse::<i16>().ok())?
        };
        let (year, month, day) = (number(4)?, number(2)?, number(2)?);
        let found = Date::new(year, month as i8, day as i8).ok()?;
        parts.next().is_none().then_some(Self(found))
    }
}

impl fmt::Display for IsoDate {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn days_are_numbered() {
        // GNU date: `echo $(($(date -u -d 2026-11-26 +%s) / 86400))` and alike.
        for (text, number) in [
            ("1970-01-01", 0),
            ("2000-02-29", 11_016),
            ("2000-03-01", 11_017),
            ("2026-11-26", 20_783),
            ("1900-03-01", -25_508),
        ] {
            let date = IsoDate::parse(text).unwrap();
            assert_eq!(date.day_number(), number, "{text}");
            assert_eq!(date.later(0), Some(date));
        }
        let date = IsoDate::parse("2023-12-31").unwrap();
        assert_eq!(date.later(60).unwrap().to_string(), "2024-02-29");
        assert_eq!(date.later(-365).unwrap().to_string(), "2022-12-31");
        assert_eq!(date.later(i64::MAX), None);
        assert_eq!(date.later(10_000_000), None);
    }

    #[test]
    fn days_of_the_calendar_only() {
        for text in ["2026-11-25", "2024-02-29", "2000-02-29", "0001-01-01"] {
            assert_eq!(IsoDate::parse(text).unwrap().to_string(), text);
        }
        for text in [
            "",
            "2026-11",
            "2026-11-31",
            "2023-02-29",
            "1900-02-29",
            "2026-13-01",
            "2026-00-01",
            "26-11-25",
            "2026-11-25-1",
            "2026/11/25",
            "+026-11-25",
            "２026-11-25",
        ] {
            assert_eq!(IsoDate::parse(text), Err(NoDate(text.to_owned())), "{text}");
        }
        assert!(IsoDate::parse("2026-09-30").unwrap() < IsoDate::parse("2026-10-01").unwrap());
    }
}
