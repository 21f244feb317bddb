//! What was changed in a pass afterwards, in format 1 of session files.

use serde::{Deserialize, Serialize};

use crate::press::{ArmIndex, NutPosition};
use crate::session::{By, CorrectedNut, CorrectedReading, Corrections};
use crate::splice::{Station, StationPlace};

use crate::store::inline::Inline;
use crate::store::v1::{PlaceV1, Unsound, is_false};

/// A reading that was changed; `reading` counts from 1.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(in crate::store) struct CorrectedReadingV1 {
    station: PlaceV1,
    reading: usize,
    was: String,
    #[serde(default, skip_serializing_if = "is_false")]
    struck: bool,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    who: String,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    when: String,
}

/// A recorded nut position that was changed.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(in crate::store) struct CorrectedNutV1 {
    nut: PlaceV1,
    was: i32,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    who: String,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    when: String,
}

/// The two lists of a pass.
pub(in crate::store) type CorrectionsV1 =
    (Vec<Inline<CorrectedReadingV1>>, Vec<Inline<CorrectedNutV1>>);

/// What the file says of the corrections of a pass.
pub(in crate::store) fn corrections_v1(
    corrections: &Corrections,
    stations: &[Station],
) -> CorrectionsV1 {
    let reading = |at: &CorrectedReading| {
        // A sound session has no trace of a station that is not there.
        let station = stations.get(at.station)?;
        Some(Inline(CorrectedReadingV1 {
            station: PlaceV1(station.place.clone()),
            reading: at.repeat + 1,
            was: at.was.clone(),
            struck: at.struck,
            who: at.by.who.clone(),
            when: at.by.when.clone(),
        }))
    };
    let nut = |at: &CorrectedNut| {
        Inline(CorrectedNutV1 {
            nut: PlaceV1(StationPlace::Arm(at.arm)),
            was: at.was.0,
            who: at.by.who.clone(),
            when: at.by.when.clone(),
        })
    };
    (
        corrections.readings.iter().filter_map(reading).collect(),
        corrections.nuts.iter().map(nut).collect(),
    )
}

/// The corrections of a pass, read from the file.
///
/// # Errors
/// A trace at a station or arm that is not there.
pub(in crate::store) fn read_corrections(
    (readings, nuts): CorrectionsV1,
    pass: usize,
    stations: &[Station],
) -> Result<Corrections, Unsound> {
    let nowhere = Unsound::TraceOfNothing { pass };
    let reading = |Inline(at): Inline<CorrectedReadingV1>| {
        let station = stations
            .iter()
            .position(|station| station.place == at.station.0);
        Some(CorrectedReading {
            station: station?,
            repeat: at.reading.checked_sub(1)?,
            was: at.was,
            struck: at.struck,
            by: By {
                who: at.who,
                when: at.when,
            },
        })
    };
    let nut = |Inline(at): Inline<CorrectedNutV1>| {
        let StationPlace::Arm(arm @ ArmIndex(_)) = at.nut.0 else {
            return None;
        };
        Some(CorrectedNut {
            arm,
            was: NutPosition(at.was),
            by: By {
                who: at.who,
                when: at.when,
            },
        })
    };
    let readings = readings.into_iter().map(reading).collect::<Option<_>>();
    let nuts = nuts.into_iter().map(nut).collect::<Option<_>>();
    let (Some(readings), Some(nuts)) = (readings, nuts) else {
        return Err(nowhere);
    };
    Ok(Corrections { readings, nuts })
}
