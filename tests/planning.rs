//! Plans made from sessions: the proven whole-notch optimum, and what must
//! hold for any session.

mod common;

use common::{any_session, session};
use jawtrue::session::{PlanningProblem, Session, Wishes};
use jawtrue::splice::{Cell, Kept, Reading, WhyDoubtful};
use jawtrue::units::{Sign, TypedLength, Unit};
use proptest::prelude::*;

#[test]
fn whole_notches_reach_the_circular_gap_optimum() {
    // Equal independent nuts, notch p: smallest spread p - G, with G the
    // largest gap between the readings modulo p on a circle of length p; these
    // rows agree with brute force (numpy 2.4).
    for (readings, spread_in) in [
        (&["0.250", "0.257", "0.261"][..], 0.0010),
        (&["0.2500", "0.2515", "0.2542", "0.2591"], 0.0015),
        (&["0.2500", "0.2520", "0.2540", "0.2560", "0.2580"], 0.0020),
        (&["0.2500", "0.2508", "0.2516", "0.2524", "0.2532"], 0.0032),
        (
            &["0.2510", "0.2475", "0.2550", "0.2488", "0.2523", "0.2561"],
            0.0018,
        ),
    ] {
        let planning = session(readings).plan(0, Wishes::default()).unwrap();
        let found = planning.smallest.spread_nm / 25.4e6;
        assert!((found - spread_in).abs() < 1e-12, "{readings:?}: {found}");
        let arms = readings.len() as f64;
        let always = planning.reach.unwrap().always.nm_f64() / 25.4e6;
        assert!((always - 0.004 * (1.0 - 1.0 / arms)).abs() < 1e-12);
        assert!(found <= always + 1e-12);
    }
}

/// What whole notches always reach holds for notches that are all alike: one
/// that differs, wherever it is, and nothing is promised.
#[test]
fn nothing_is_promised_of_unequal_notches() {
    for odd in 0..3 {
        let mut session = session(&["0.250", "0.257", "0.261"]);
        let notch = TypedLength::parse("0.0041", Unit::Inch, Sign::None).unwrap();
        session.press.arms[odd].notch_effect = notch;
        let planning = session.plan(0, Wishes::default()).unwrap();
        assert_eq!(planning.reach, None, "arm {odd}");
    }
}

/// A pass is planned for once every counting station is read and nothing is
/// doubtful: gaps are filled, and odd readings are said to be right.
fn made_clear(mut session: Session) -> Session {
    let counts: Vec<bool> = session.stations.iter().map(|at| at.counts).collect();
    for pass in &mut session.passes {
        for (row, counts) in pass.rows.iter_mut().zip(&counts) {
            row.retain(|cell| cell.counting().is_some());
            if row.is_empty() && *counts {
                let typed = TypedLength::parse("0.25", Unit::Inch, Sign::None).unwrap();
                row.push(Cell::Reading(Reading::new(typed)));
            }
            for cell in row {
                if let Cell::Reading(reading) = cell {
                    reading.kept = Some(Kept {
                        by: String::new(),
                        doubt: WhyDoubtful::Piece,
                    });
                }
            }
        }
    }
    session
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn a_plan_breaks_no_limit_and_is_never_worse_than_nothing(
        session in any_session().prop_map(made_clear),
        most_nuts in proptest::option::of(0..5_usize),
        outward_only in any::<bool>(),
    ) {
        let wishes = Wishes { most_nuts, outward_only };
        for pass in 0..session.passes.len() {
            let planning = match session.plan(pass, wishes) {
                Ok(planning) => planning,
                Err(
                    PlanningProblem::NotClear(_)
                    | PlanningProblem::NoTurnAllowed(_)
                    | PlanningProblem::NothingAllowed,
                ) => continue,
                Err(problem) => panic!("{problem:?}"),
            };
            let present_nm = planning.gate.spread.as_ref().unwrap().value.nm_f64();
            let recommended = &planning.recommended;
            prop_assert!(recommended.spread_nm <= present_nm + 1e-3);
            prop_assert!(recommended.spread_nm.is_finite() && recommended.spread_nm >= 0.0);
            for plan in [recommended, &planning.smallest] {
                let touched = plan.turns.iter().filter(|turn| turn.0 != 0).count();
                prop_assert!(most_nuts.is_none_or(|most| touched <= most));
                prop_assert!(!outward_only || plan.turns.iter().all(|turn| turn.0 >= 0));
                let nuts = session.nuts_at(pass);
                for ((arm, at), (turn, nut)) in
                    session.press.indexed_arms().zip(plan.turns.iter().zip(nuts))
                {
                    let after = nut.turned(*turn);
                    let allowed = at.limits.is_none_or(|limits| limits.allow(after));
                    let left = turn.0 == 0;
                    // A nut that is left, because nothing was read there or
                    // nothing is recommended, breaks no limit by being left.
                    prop_assert!(allowed || left, "{arm}: {nut} turned {turn}");
                    prop_assert!(at.limits.is_some() || turn.0.abs() <= 6);
                    if let Some(margin) = at.opening_margin.as_ref().filter(|_| turn.0 < 0) {
                        let used = session.press.travel_per_notch(at).nm() * i64::from(-turn.0);
                        prop_assert!(used <= margin.length().nm());
                    }
                }
            }
            for arm in &planning.held {
                prop_assert_eq!(planning.smallest.turns[arm.0].0, 0);
            }
        }
    }
}
