//! Calendar dates as people file them.

use std::fmt;

use crate::codec::as_text;

/// A day of the Gregorian calendar, written `2026-11-25` (ISO 8601).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct IsoDate {
    year: u16,
    month: u8,
    day: u8,
}

impl IsoDate {
    /// The day's number, 1970-01-01 being 0, in the Gregorian calendar.
    ///
    /// Years are counted from March, so that the leap day comes last: 365 days
    /// a year, a day more every 4th, less every 100th, more every 400th (the
    /// calendar's own rule, ISO 8601), and (153 m + 2) / 5 days before the
    /// m-th month after March, rounded down.
    pub fn day_number(self) -> i64 {
        let (year, month, day) = (
            i64::from(self.year),
            i64::from(self.month),
            i64::from(self.day),
        );
        let (year, month) = match month {
            1 | 2 => (year - 1, month + 9),
            later => (year, later - 3),
        };
        let days = 365 * year + year.div_euclid(4) - year.div_euclid(100) + year.div_euclid(400);
        // 719 468 days lie between 0000-03-01 and 1970-01-01.
        days + (153 * month + 2) / 5 + day - 1 - 719_468
    }

    /// The day so many days later; none outside the years 1 to 9999.
    pub fn later(self, days: i64) -> Option<Self> {
        let goal = self.day_number().checked_add(days)?;
        let (mut low, mut high) = (1_u16, 9_999_u16);
        let first = |year: u16| Self {
            year,
            month: 1,
            day: 1,
        };
        if goal < first(low).day_number() || goal > first(high).day_number() + 364 {
            return None;
        }
        while low < high {
            let middle = low + (high - low).div_ceil(2);
            if first(middle).day_number() <= goal {
                low = middle;
            } else {
                high = middle - 1;
            }
        }
        (1..=12)
            .flat_map(|month| (1..=31).map(move |day| format!("{low:04}-{month:02}-{day:02}")))
            .filter_map(|text| Self::read(&text))
            .find(|date| date.day_number() == goal)
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
