//! Whatever a session holds that passes its check, advising ends with an answer
//! or with a typed problem.

mod sessions;

use jawtrue::press::{Notches, NutLimits, NutPosition};
use jawtrue::session::{
    Advice, AdviceWorkspace, KnownResponse, KnownScatter, Pass, PastVisit, PriorShelf, Session,
    Wishes,
};
use jawtrue::splice::{Cell, Kept, Reading, Station, StationPlace, WhyDoubtful};
use jawtrue::units::{Length, TypedLength, Unit};
use proptest::collection::vec;
use proptest::option;
use proptest::prelude::*;
use sessions::{bits, press_at};

fn typed(nm: i64) -> TypedLength {
    TypedLength::from_length(Length::from_nm(nm), Unit::Millimetre)
}

/// Mostly like a splice, sometimes anything a reading may be.
fn reading() -> impl Strategy<Value = i64> {
    prop_oneof![
        6 => 6_250_000_i64..6_450_000,
        2 => Just(6_350_000_i64),
        1 => 100_000_i64..500_000_000,
    ]
}

fn pass(arms: usize, stations: usize) -> impl Strategy<Value = Pass> {
    let nut = prop_oneof![4 => -5..5_i32, 1 => -200..200_i32];
    let row = prop_oneof![1 => Just(Vec::new()), 30 => vec(reading(), 1..3)];
    // Whoever keeps odd readings gets an answer for them.
    let kept = proptest::bool::weighted(0.9);
    let handle = option::weighted(0.2, -50_000_000_i64..50_000_000);
    (vec(nut, arms), vec(row, stations), handle, kept).prop_map(|(nuts, rows, handle, kept)| {
        let cell = |nm| {
            let kept = kept.then(|| Kept {
                by: String::new(),
                doubt: WhyDoubtful::Piece,
            });
            Cell::Reading(Reading {
                kept,
                ..Reading::new(typed(nm))
            })
        };
        Pass {
            nuts: nuts.into_iter().map(NutPosition).collect(),
            rows: rows
                .into_iter()
                .map(|row| row.into_iter().map(cell).collect())
                .collect(),
            handle: handle.map(typed),
            ..Pass::default()
        }
    })
}

/// Arms, some as close as they may be, and stations between them.
fn geometry() -> impl Strategy<Value = Session> {
    let gap = prop_oneof![5 => 3.0..20.0_f64, 1 => Just(0.04)];
    let effect = prop_oneof![5 => 50_000_i64..200_000, 1 => Just(1_000_i64), 1 => Just(5_000_000)];
    let limits = option::weighted(0.4, (-12..0_i32, 0..12_i32));
    let margin = option::weighted(0.2, 0_i64..2_000_000);
    let arm = (gap, effect, limits, margin);
    let scatter = || option::weighted(0.2, 0_i64..1_000_000);
    let step = prop_oneof![4 => 1_000_i64..30_000, 1 => 100_i64..1_000_000];
    let tolerance = prop_oneof![4 => Just(76_200_i64), 1 => 1_000_i64..10_000_000];
    (
        vec(arm, 2..6),
        vec(0.0..1.0_f64, 0..3),
        step,
        tolerance,
        scatter(),
        scatter(),
    )
        .prop_map(|(arms, between, step, tolerance, repeatability, lacing)| {
            let mut at = 0.0;
            let positions: Vec<f64> = arms
                .iter()
                .map(|(gap, ..)| {
                    at += gap;
                    at
                })
                .collect();
            let mut press = press_at(&positions);
            for (arm, (_, effect, limits, margin)) in press.arms.iter_mut().zip(&arms) {
                arm.notch_effect = typed(*effect);
                arm.limits = limits.map(|(most_in, most_out)| NutLimits {
                    most_in: NutPosition(most_in),
                    most_out: NutPosition(most_out),
                });
                arm.opening_margin = margin.map(typed);
            }
            let jaw_nm = press.jaw_length.length().nm();
            let mut session = Session::new("a".into(), Unit::Inch, press);
            for share in between {
                let position = typed((share * jaw_nm as f64) as i64);
                session.stations.push(Station {
                    place: StationPlace::Between(position),
                    counts: share < 0.7,
                });
            }
            let press = &session.press;
            session.stations.sort_by_key(|at| at.position(press));
            let known = |sd| KnownScatter {
                sd: typed(sd),
                dof: None,
            };
            session.gauge.step = typed(step);
            session.gauge.repeatability = repeatability.map(known);
            session.lacing_scatter = lacing.map(known);
            session.tolerance = typed(tolerance);
            session
        })
}

fn session() -> impl Strategy<Value = Session> {
    geometry().prop_flat_map(|session| {
        let (arms, stations) = (session.press.arms.len(), session.stations.len());
        let passes = vec(pass(arms, stations), 1..4);
        let visits = vec(vec(pass(arms, stations), 1..4), 0..3);
        let known = option::weighted(0.2, vec(-200_000..200_000_i64, arms * stations));
        (Just(session), passes, visits, known).prop_map(|(session, passes, visits, known)| {
            let earlier: Vec<PastVisit> = visits
                .into_iter()
                .zip(0..)
                .filter_map(|(passes, number)| {
                    let visit = Session {
                        id: number.to_string(),
                        passes,
                        ..session.clone()
                    };
                    visit.as_past_visit()
                })
                .collect();
            let arms = session.press.arms.len();
            let table = known.map(|values| {
                let text = |nm: &i64| format!("{}", *nm as f64 / 1e6);
                let rows = values
                    .chunks(arms)
                    .map(|row| row.iter().map(text).collect());
                let rows: Vec<Vec<String>> = rows.collect();
                KnownResponse::from_table(&rows, Unit::Millimetre).expect("numbers")
            });
            Session {
                passes,
                earlier,
                known_response: table,
                ..session
            }
        })
    })
}

fn wishes() -> impl Strategy<Value = Wishes> {
    let most_nuts = option::weighted(0.4, 0..4_usize);
    (most_nuts, any::<bool>()).prop_map(|(most_nuts, outward_only)| Wishes {
        most_nuts,
        outward_only,
    })
}

fn check_sound(advice: &Advice, wishes: Wishes) {
    for figure in bits(advice) {
        let figure = f64::from_bits(figure);
        // Nobody measures again a piece that is accepted.
        let never = advice.accepted && figure == f64::INFINITY;
        assert!(figure.is_finite() || never, "{figure}");
    }
    for row in &advice.choice.options {
        let forecast = row.forecast;
        assert!((0.0..=1.0).contains(&forecast.chance), "{forecast:?}");
        assert!(0.0 <= forecast.median_nm && forecast.median_nm <= forecast.p90_nm);
        let stays = row.turns.iter().all(|turn| *turn == 0);
        for (turn, bound) in row.turns.iter().zip(&advice.bounds) {
            assert!(
                stays || (bound.least..=bound.most).contains(turn),
                "{row:?}"
            );
            assert!(stays || !wishes.outward_only || *turn >= 0);
        }
        assert!(wishes.most_nuts.is_none_or(|most| row.nuts <= most));
    }
    for arm in &advice.held {
        assert_eq!(advice.turns()[arm.0], Notches(0));
    }
    let mut forecaster = advice.forecaster().expect("a forecaster");
    let turns: Vec<i32> = advice.bounds.iter().map(|bound| bound.most).collect();
    assert!((0.0..=1.0).contains(&forecaster.forecast(&turns).chance));
    let findings = advice.findings().expect("findings");
    assert!(findings.len() < 1_000);
    if let Some(common) = &advice.common_turn {
        assert!(common.handle_nm.is_finite() && !common.low.is_empty());
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn every_session_gets_an_answer_or_a_problem(session in session(), wishes in wishes()) {
        prop_assume!(session.check().is_ok());
        let (shelf, mut workspace) = (PriorShelf::default(), AdviceWorkspace::default());
        let last = session.passes.len() - 1;
        // A pass that is not there is no plan, and no panic.
        prop_assert!(session.advise(last + 1, wishes, &shelf, &mut workspace).is_err());
        if let Ok(advice) = session.advise(last, wishes, &shelf, &mut workspace) {
            check_sound(&advice, wishes);
        }
    }
}

/// The cases above are not all problems: most get an answer.
#[test]
fn most_sessions_get_an_answer() {
    use proptest::strategy::ValueTree;
    use proptest::test_runner::TestRunner;
    let mut runner = TestRunner::deterministic();
    let (mut answers, mut sound) = (0, 0);
    for _ in 0..100 {
        let session = session()
            .new_tree(&mut runner)
            .expect("a session")
            .current();
        let last = session.passes.len() - 1;
        let (shelf, mut workspace) = (PriorShelf::default(), AdviceWorkspace::default());
        let advice = session.advise(last, Wishes::default(), &shelf, &mut workspace);
        sound += i32::from(session.check().is_ok());
        answers += i32::from(session.check().is_ok() && advice.is_ok());
    }
    assert!(answers > 40, "{answers} of {sound}");
}
