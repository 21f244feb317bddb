//! Calendar dates as people file them.

use std::fmt;

/// A day of the Gregorian calendar, written `2026-11-25` (ISO 8601).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct IsoDate {
    year: u16,
    month: u8,
    day: u8,
}

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
            if plain {
                part.parse::<u16>().ok()
            } else {
                None
            }
        };
        let (year, month, day) = (number(4)?, number(2)?, number(2)?);
        if parts.next().is_some() || !(1..=12).contains(&month) {
            return None;
        }
        let leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
        let days = match month {
            2 => 28 + u16::from(leap),
            4 | 6 | 9 | 11 => 30,
            _ => 31,
        };
        (1..=days).contains(&day).then_some(Self {
            year,
            month: month as u8,
            day: day as u8,
        })
    }
}

impl fmt::Display for IsoDate {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:04}-{:02}-{:02}", self.year, self.month, self.day)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

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
