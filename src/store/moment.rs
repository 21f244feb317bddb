//! The moment something happens, as texts for files.

use std::time::{SystemTime, UNIX_EPOCH};

use super::replace::random_bits;

/// A calendar date and time of day, UTC.
struct Moment {
    year: i64,
    month: i64,
    day: i64,
    second_of_day: i64,
}

impl Moment {
    fn now() -> Self {
        let seconds = SystemTime::now()
            .duration_since(UNIX_EPOCH)
            .map_or(0, |since| since.as_secs());
        Self::of(i64::try_from(seconds).unwrap_or(0))
    }

    /// The moment so many seconds after 1970 began.
    ///
    /// Days become a date of the Gregorian calendar by counting from 1 March
    /// of the year 0, so that the leap day comes last in its year, in eras of
    /// 400 years (H. Hinnant, "chrono-Compatible Low-Level Date Algorithms").
    fn of(seconds: i64) -> Self {
        let days = seconds.div_euclid(86_400) + 719_468;
        let era = days.div_euclid(146_097);
        let day_of_era = days.rem_euclid(146_097);
        let year_of_era =
            (day_of_era - day_of_era / 1_460 + day_of_era / 36_524 - day_of_era / 146_096) / 365;
        let day_of_year = day_of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
        let month_from_march = (5 * day_of_year + 2) / 153;
        let month = (month_from_march + 2) % 12 + 1;
        Self {
            year: year_of_era + era * 400 + i64::from(month <= 2),
            month,
            day: day_of_year - (153 * month_from_march + 2) / 5 + 1,
            second_of_day: seconds.rem_euclid(86_400),
        }
    }
}

/// Today's date, such as `2026-11-25`, in UTC: the standard library does not
/// know the time zone.
pub fn today() -> String {
    let Moment {
        year, month, day, ..
    } = Moment::now();
    format!("{year:04}-{month:02}-{day:02}")
}

/// A moment such as `2026-11-25 09:12 UTC`.
pub fn moment_of(time: SystemTime) -> String {
    let seconds = time
        .duration_since(UNIX_EPOCH)
        .map_or(0, |since| since.as_secs());
    let Moment {
        year,
        month,
        day,
        second_of_day: second,
    } = Moment::of(i64::try_from(seconds).unwrap_or(0));
    let (hour, minute) = (second / 3600, second / 60 % 60);
    format!("{year:04}-{month:02}-{day:02} {hour:02}:{minute:02} UTC")
}

/// A name for a new session that no other session has: the moment, so that
/// names sort by age, and chance.
pub fn new_session_id() -> String {
    let Moment {
        year,
        month,
        day,
        second_of_day: second,
    } = Moment::now();
    format!(
        "{year:04}{month:02}{day:02}-{:02}{:02}{:02}-{:08x}",
        second / 3600,
        second / 60 % 60,
        second % 60,
        random_bits() & 0xffff_ffff
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn days_become_dates() {
        // GNU date: `date -u -d @SECONDS +%F`.
        for (seconds, date) in [
            (0, (1970, 1, 1)),
            (951_782_399, (2000, 2, 28)),
            (951_782_400, (2000, 2, 29)),
            (951_868_800, (2000, 3, 1)),
            (1_735_689_599, (2024, 12, 31)),
            (4_107_542_400, (2100, 3, 1)),
            (-1, (1969, 12, 31)),
        ] {
            let moment = Moment::of(seconds);
            assert_eq!((moment.year, moment.month, moment.day), date, "{seconds}");
        }
    }

    #[test]
    fn session_ids_differ() {
        let [first, second] = [new_session_id(), new_session_id()];
        assert_ne!(first, second);
        assert_eq!(first.len(), "20261125-093501-5f3a9c21".len());
    }
}
