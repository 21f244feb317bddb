//! The sample sessions: invented, marked so, and as their stories say.

mod sessions;

use std::fs;
use std::path::Path;

use jawtrue::session::{Advice, KnownResponse, Remark, Session, Stands, Wishes};
use jawtrue::store::{self, SampleSession};
use jawtrue::units::Unit;
use sessions::advice;

/// The advice on a sample whose nuts are taken to move their own arm alone.
fn planned(sample: SampleSession) -> (Session, Advice) {
    let mut session = sample.session().unwrap();
    let response = session.independent_response().unwrap();
    let rows: Vec<Vec<String>> = (0..response.stations())
        .map(|s| {
            response
                .row(s)
                .iter()
                .map(|nm| (nm / 1e6).to_string())
                .collect()
        })
        .collect();
    session.known_response = Some(KnownResponse::from_table(&rows, Unit::Millimetre).unwrap());
    let advice = advice(&session, Wishes::default()).unwrap();
    (session, advice)
}

/// The turns of the proven smallest spread.
fn turns(advice: &Advice) -> Vec<i32> {
    advice.smallest.turns.iter().map(|turn| turn.0).collect()
}

#[test]
fn every_sample_opens_is_invented_and_stands_as_it_was_saved() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-sessions");
    let mut files = 0;
    for entry in fs::read_dir(&folder).unwrap() {
        let path = entry.unwrap().path();
        let opened = store::open(&path).unwrap();
        assert!(opened.session.invented, "{path:?}");
        assert!(
            opened.session.press.name.ends_with("(invented)"),
            "{path:?}"
        );
        assert!(!opened.session.notes.notes.is_empty(), "{path:?}");
        let built_in = SampleSession::ALL
            .into_iter()
            .find(|sample| sample.session().as_ref() == Ok(&opened.session));
        assert!(built_in.is_some(), "{path:?} is not built in");
        let text = store::session_text(&opened.session).unwrap();
        assert_eq!(fs::read_to_string(&path).unwrap(), text, "{path:?}");
        files += 1;
    }
    assert_eq!(files, SampleSession::ALL.len());
    let several_passes = SampleSession::ALL
        .iter()
        .filter(|sample| sample.session().unwrap().passes.len() > 1)
        .count();
    assert!(several_passes >= 2);
    let mut ids: Vec<String> = SampleSession::ALL
        .iter()
        .map(|sample| sample.session().unwrap().id)
        .collect();
    ids.sort();
    ids.dedup();
    assert_eq!(ids.len(), SampleSession::ALL.len());
}

#[test]
fn a_plan_that_will_likely_miss_says_so() {
    let mut said = Vec::new();
    for sample in SampleSession::ALL {
        let session = sample.session().unwrap();
        let Ok(advice) = advice(&session, Wishes::default()) else {
            continue;
        };
        let remarks = advice.remarks(&session, &advice.turns(), &[]);
        let misses = remarks.iter().find_map(|remark| match remark {
            Remark::LikelyMisses(chance) => Some(*chance),
            _ => None,
        });
        let chance = advice.recommended().forecast.chance;
        let turned = advice.turns().iter().any(|turn| turn.0 != 0);
        let likely = turned && !advice.accepted && chance < 0.5;
        assert_eq!(misses, likely.then_some(chance), "{sample:?}");
        said.extend(misses.map(|_| sample));
    }
    assert_eq!(said, [SampleSession::BetweenNotches]);
}

#[test]
fn the_pinched_arm_is_opened() {
    let (session, planning) = planned(SampleSession::Pinched);
    assert_eq!(session.press.arms.len(), 4);
    assert_eq!(planning.gate.stands, Stands::Outside);
    assert_eq!(
        session.station_name(planning.gate.spread.as_ref().unwrap().thinnest),
        "B"
    );
    assert_eq!(turns(&planning), [0, 2, 0, 0]);
}

#[test]
fn the_nut_that_was_run_in_too_far_is_backed_off() {
    let (session, planning) = planned(SampleSession::NutTooFarIn);
    assert_eq!(session.press.arms.len(), 3);
    let margins = session.press.arms.iter().map(|arm| &arm.opening_margin);
    let margins: Vec<i64> = margins
        .map(|margin| margin.as_ref().unwrap().length().nm() / 25_400)
        .collect();
    assert_eq!(margins, [24, 6, 22]);
    assert_eq!(planning.gate.stands, Stands::Outside);
    let start: Vec<i32> = session.start_nuts.iter().map(|nut| nut.0).collect();
    assert_eq!(start, [-5, -9, -5]);
    assert_eq!(turns(&planning), [0, 2, 0]);
}

#[test]
fn the_taper_comes_true_in_two_re_laces() {
    let (session, planning) = planned(SampleSession::Taper);
    assert_eq!((session.press.arms.len(), session.passes.len()), (4, 3));
    let spreads: Vec<f64> = (0..3)
        .map(|pass| session.spread_of(pass).unwrap().value.in_unit(Unit::Inch))
        .collect();
    assert_eq!(spreads, [0.01, 0.00475, 0.00225]);
    // As found: thicker from each arm to the next.
    let profile = session.passes[0].profile();
    for station in 1..4 {
        assert!(profile.mean(station) > profile.mean(station - 1));
    }
    assert_eq!(planning.gate.stands, Stands::Inside);
    assert!(planning.accepted && planning.turns().iter().all(|turn| turn.0 == 0));
}

#[test]
fn the_bow_is_straightened_at_both_ends_and_the_middle() {
    let (session, planning) = planned(SampleSession::Bow);
    assert_eq!((session.press.arms.len(), session.stations.len()), (6, 8));
    assert_eq!(planning.gate.stands, Stands::Outside);
    assert_eq!(turns(&planning), [-1, 0, 1, 1, 0, -1]);
    // Stations between the arms count: no plain statement of the reach.
    assert_eq!(planning.reach, None);
}

#[test]
fn between_the_notches_no_whole_notches_reach_the_tolerance() {
    let (session, planning) = planned(SampleSession::BetweenNotches);
    assert_eq!(session.press.arms.len(), 5);
    assert_eq!(planning.gate.stands, Stands::Outside);
    // Residues spread evenly: 0.004 in x (1 - 1/5) = 0.0032 in, above
    // 0.003 in, and no whole notches do better (circular-gap argument).
    let reached = planning.smallest.spread_nm / 25.4e6;
    assert!((reached - 0.0032).abs() < 1e-9, "{reached}");
    let reach = planning.reach.unwrap();
    assert_eq!(reach.always.in_unit(Unit::Inch), 0.0032);
    assert!(planning.turns().iter().any(|turn| turn.0 != 0));
}

#[test]
fn one_is_inside_as_found_and_one_in_millimetres() {
    let (session, planning) = planned(SampleSession::Inside);
    assert_eq!(session.passes.len(), 1);
    assert_eq!(planning.gate.stands, Stands::Inside);
    assert!(planning.accepted && planning.turns().iter().all(|turn| turn.0 == 0));
    let (session, planning) = planned(SampleSession::Metric);
    assert_eq!(session.unit, Unit::Millimetre);
    assert_eq!(session.tolerance.text(), "0.1 mm");
    // Exactly the tolerance is inside.
    assert_eq!(
        planning
            .gate
            .spread
            .as_ref()
            .unwrap()
            .value
            .in_unit(Unit::Millimetre),
        0.1
    );
    assert_eq!(planning.gate.stands, Stands::Inside);
}
