//! The moment something happens, as texts for files and people, in the time
//! of the place.

use std::time::SystemTime;

use jiff::Timestamp;
use jiff::tz::TimeZone;

use super::replace::random_bits;

/// Today's date where this machine stands, such as `2026-11-25`; empty where
/// its clock is outside the calendar.
pub fn today() -> String {
    moment_of(SystemTime::now())
        .split_once(' ')
        .map_or_else(String::new, |(date, _)| date.to_owned())
}

/// A moment where this machine stands, such as `2026-11-25 09:12`; empty for
/// one outside the calendar.
pub fn moment_of(time: SystemTime) -> String {
    in_zone(time, TimeZone::system())
}

fn in_zone(time: SystemTime, zone: TimeZone) -> String {
    Timestamp::try_from(time).map_or_else(
        |_| String::new(),
        |moment| {
            let there = moment.to_zoned_datetime(zone);
            there.strftime("%Y-%m-%d %H:%M").to_string()
        },
    )
}

/// A name for a new session that no other session has: the moment in UTC, so
/// that names sort by age wherever they were made, and chance.
pub fn new_session_id() -> String {
    let moment = name_of(SystemTime::now());
    format!("{moment}-{:08x}", random_bits() & 0xffff_ffff)
}

/// The moment in UTC as a part of a name; zeros for one outside the calendar.
fn name_of(time: SystemTime) -> String {
    Timestamp::try_from(time).map_or_else(
        |_| "00000000-000000".to_owned(),
        |moment| {
            let there = moment.to_zoned_datetime(TimeZone::UTC);
            there.strftime("%Y%m%d-%H%M%S").to_string()
        },
    )
}

#[cfg(test)]
mod tests {
    use std::time::{Duration, UNIX_EPOCH};

    use super::*;

    #[test]
    fn an_evening_in_the_americas_is_not_tomorrow() {
        // GNU date: `TZ=America/Chicago date -d @1764122400 '+%F %H:%M'` and
        // the same with TZ=UTC; the zone is six hours behind in winter.
        let time = UNIX_EPOCH + Duration::from_secs(1_764_122_400);
        assert_eq!(in_zone(time, TimeZone::UTC), "2025-11-26 02:00");
        let chicago = TimeZone::fixed(jiff::tz::offset(-6));
        assert_eq!(in_zone(time, chicago), "2025-11-25 20:00");
    }

    #[test]
    fn a_clock_outside_the_calendar_is_no_panic() {
        let far = UNIX_EPOCH + Duration::from_secs(1 << 40);
        assert_eq!(in_zone(far, TimeZone::UTC), "");
        assert_eq!(name_of(far), "00000000-000000");
        assert_eq!(name_of(UNIX_EPOCH), "19700101-000000");
    }

    #[test]
    fn session_ids_differ() {
        assert_ne!(new_session_id(), new_session_id());
    }
}
