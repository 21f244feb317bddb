//! Advice: given responses against proven optima, what was not read, limits
//! and wishes, earlier visits, and the same figures every time.

mod sessions;

use jawtrue::plan::{BestAct, Finding, TurnBounds};
use jawtrue::press::section::{Estimate, JawShape};
use jawtrue::press::{ArmIndex, Notches, NutPosition};
use jawtrue::session::{
    AdviceWorkspace, Edit, EditProblem, Field, JawAndRods, PlanningProblem, PressRecord,
    PriorShelf, ResponseSource, Session, SessionProblem, Wishes,
};
use jawtrue::units::{TypedLength, Unit};
use sessions::{
    INCH, advice, advised, bits, found, given, laced, limits, press_at, sample_visit, set, with,
};

fn diagonal(arms: usize, effect: f64) -> Vec<Vec<f64>> {
    let at = |s: usize, arm: usize| if s == arm { effect } else { 0.0 };
    (0..arms)
        .map(|s| (0..arms).map(|arm| at(s, arm)).collect())
        .collect()
}

/// For equal independent nuts of one notch p the smallest reachable spread is
/// p - G, G the largest gap of the readings modulo p on a circle of length p:
/// turns leave the residues alone, and cutting the circle at its largest gap
/// gives turns that reach it. The figures follow by hand.
#[test]
fn given_independent_nuts_reach_what_can_be_proven() {
    for (readings, expected) in [
        (&[".250", ".257", ".261"][..], 0.0010),
        (&[".2500", ".2515", ".2542", ".2591"], 0.0015),
        (&[".2500", ".2520", ".2540", ".2560", ".2580"], 0.0020),
        (&[".2500", ".2508", ".2516", ".2524", ".2532"], 0.0032),
        (
            &[".2510", ".2475", ".2550", ".2488", ".2523", ".2561"],
            0.0018,
        ),
    ] {
        let arms = readings.len();
        let session = with(&found(readings), &[given(&diagonal(arms, 0.004))]);
        let advice = advised(&session);
        let spread = advice.smallest.spread_nm / INCH;
        assert!((spread - expected).abs() < 1e-9, "{readings:?}: {spread}");
        assert_eq!(advice.learnt_from.source, ResponseSource::Given);
        assert_eq!(advice.response_sd_nm(1, 1), 0.0);
        // 0.004 in x (1 - 1/N), in nanometres.
        let reach = advice.reach.unwrap().always.nm_f64();
        assert!((reach - 101_600.0 * (1.0 - 1.0 / arms as f64)).abs() < 1e-9);
    }
}

/// B = 4 [[.8,.2,0,0],[.2,.6,.2,0],[0,.2,.6,.2],[0,0,.2,.8]] thousandths; the
/// optima of a mixed-integer program (scipy 1.17, milp), equal to brute force.
#[test]
fn given_coupled_nuts_reach_the_optimum_of_an_integer_program() {
    let rows = vec![
        vec![0.0032, 0.0008, 0.0, 0.0],
        vec![0.0008, 0.0024, 0.0008, 0.0],
        vec![0.0, 0.0008, 0.0024, 0.0008],
        vec![0.0, 0.0, 0.0008, 0.0032],
    ];
    for (readings, expected) in [
        ([".250", ".255", ".259", ".253"], 0.0012),
        ([".2525", ".250", ".257", ".251"], 0.0012),
        ([".250", ".252", ".254", ".256"], 0.0004),
    ] {
        let advice = advised(&with(&found(&readings), &[given(&rows)]));
        let spread = advice.smallest.spread_nm / INCH;
        assert!((spread - expected).abs() < 1e-9, "{readings:?}: {spread}");
        assert_eq!(advice.reach, None);
        // The given response is planned with as it is, however it is read off.
        assert_eq!(advice.response.at(1, 0), 20_320.0);
    }
}

#[test]
fn a_piece_that_passes_is_left_alone() {
    let advice = advised(&found(&["0.2500", "0.2470", "0.2490", "0.2485"]));
    assert!(advice.accepted);
    assert_eq!(advice.turns(), [0; 4].map(Notches));
    assert_eq!(advice.choice.action, BestAct::Accept);
    assert_eq!(advice.common_turn, None);
    // Half the chance at the very limit: the gauge may have read it high or low.
    let this_piece = advice.this_piece.unwrap();
    assert!((0.4..0.6).contains(&this_piece), "{this_piece}");
}

#[test]
fn options_keep_wishes() {
    let session = found(&["0.2500", "0.2590", "0.2540", "0.2610", "0.2475"]);
    let outward = Wishes {
        outward_only: true,
        ..Wishes::default()
    };
    let chosen = advice(&session, outward).unwrap();
    assert!(chosen.turns().iter().any(|turn| turn.0 > 0));
    for option in &chosen.choice.options {
        assert!(option.turns.iter().all(|turn| *turn >= 0), "{option:?}");
    }
    assert!(chosen.smallest.turns.iter().all(|turn| turn.0 >= 0));
    for most in 0..=5 {
        let few = Wishes {
            most_nuts: Some(most),
            ..Wishes::default()
        };
        let chosen = advice(&session, few).unwrap();
        for option in &chosen.choice.options {
            assert!(option.nuts <= most, "{option:?}");
        }
        let touched = chosen.smallest.turns.iter().filter(|turn| turn.0 != 0);
        assert!(touched.count() <= most);
        assert_eq!(chosen.choice.options.len() > 1, most > 0);
    }
}

#[test]
fn what_was_not_read_is_left_out() {
    let uncounted = |station| Edit::SetCounts {
        station,
        counts: false,
    };
    let session = found(&["0.2500", "", "0.2560", "0.2450"]);
    assert!(matches!(
        advice(&session, Wishes::default()),
        Err(PlanningProblem::NotClear(_))
    ));
    // Nobody asks for the reading of a station that does not count.
    let session = with(&session, &[uncounted(1)]);
    let first = advised(&session);
    assert_eq!(first.counting, [0, 2, 3]);
    assert_eq!(first.held, [ArmIndex(1)]);
    assert_eq!(first.bounds[1], TurnBounds { least: 0, most: 0 });
    assert_eq!(first.turns()[1], Notches(0));
    // Read before, but not now.
    let session = laced(&session, &[1, 0, 0, 0], &["0.2530", "0.2550", "", "0.2460"]);
    assert!(advice(&session, Wishes::default()).is_err());
    let second = advised(&with(&session, &[uncounted(2)]));
    assert_eq!(second.counting, [0, 3]);
    assert_eq!(second.held, [ArmIndex(2)]);
    assert_eq!(second.learnt_from.passes, 2);
    // A station that does not count is predicted all the same.
    let session = with(
        &found(&["0.2500", "0.2510", "0.2560", "0.2450"]),
        &[uncounted(3)],
    );
    let third = advised(&session);
    assert_eq!(third.counting, [0, 1, 2]);
    assert_eq!(third.predicted(&third.turns()).len(), 4);
    let nothing = found(&["", "", "0.25"]);
    assert!(matches!(
        advice(&nothing, Wishes::default()),
        Err(PlanningProblem::NotClear(_))
    ));
}

#[test]
fn limits_hold_and_contradictions_are_said() {
    let readings = ["0.2500", "0.2590", "0.2540"];
    let tight = with(&found(&readings), &[limits(None, -1, 1)]);
    for option in &advised(&tight).choice.options {
        assert!(option.turns.iter().all(|turn| (-1..=1).contains(turn)));
    }
    // No freedom left: what remains is leaving the nuts alone.
    let stuck = with(&found(&readings), &[limits(None, 0, 0)]);
    let stuck = advised(&stuck);
    assert_eq!(stuck.turns(), [0; 3].map(Notches));
    assert!(stuck.choice.options.iter().all(|option| option.nuts == 0));
    // A nut outside its limits has to come back; with a margin that forbids it,
    // nothing is left.
    let outside = with(&found(&readings), &[limits(Some(0), -12, -3)]);
    let back = advised(&outside);
    assert_eq!(back.outside_limits, [ArmIndex(0)]);
    assert!(back.turns()[0].0 <= -3, "{:?}", back.turns());
    let outward = Wishes {
        outward_only: true,
        ..Wishes::default()
    };
    assert!(matches!(
        advice(&outside, outward),
        Err(PlanningProblem::NothingAllowed)
    ));
    let none = Wishes {
        most_nuts: Some(0),
        ..Wishes::default()
    };
    assert!(matches!(
        advice(&outside, none),
        Err(PlanningProblem::NothingAllowed)
    ));
    let margin = set(Field::OpeningMargin(ArmIndex(0)), "0.001");
    assert!(matches!(
        advice(&with(&outside, &[margin]), Wishes::default()),
        Err(PlanningProblem::NoTurnAllowed(ArmIndex(0)))
    ));
}

#[test]
fn travel_that_runs_low_is_given_back_by_all_nuts_and_the_handle() {
    let mut session = found(&["0.2500", "0.2590", "0.2540"]);
    session.start_nuts = vec![NutPosition(-11); 3];
    session.passes[0].nuts = session.start_nuts.clone();
    let session = with(&session, &[limits(None, -12, 0)]);
    let advice = advised(&session);
    let common = advice.common_turn.clone().unwrap();
    assert!(common.turn.0 > 0, "{common:?}");
    // Named are the nuts with one notch left, or none, to either end.
    let turns = advice.turns();
    let low = turns.iter().map(|turn| turn.0 <= 0 || turn.0 >= 10);
    let low = low.zip(0..).filter(|(low, _)| *low);
    let low: Vec<ArmIndex> = low.map(|(_, arm)| ArmIndex(arm)).collect();
    assert!(!low.is_empty() && low.len() < 3, "{turns:?}");
    assert_eq!(common.low, low);
    // The handle goes in by what the nuts let out.
    let stations = advice.response.stations();
    let mean_rise: f64 = (0..stations)
        .map(|s| advice.response.change_at(s, [1.0; 3]))
        .sum::<f64>()
        / stations as f64;
    assert!((common.handle_nm + f64::from(common.turn.0) * mean_rise).abs() < 1e-6);
    let after = advice
        .turns()
        .iter()
        .map(|turn| -11 + turn.0 + common.turn.0)
        .collect::<Vec<_>>();
    assert!(after.iter().all(|nut| (-12..=0).contains(nut)), "{after:?}");
}

/// A move of the handle that is recorded is expected; one that is not, is not.
#[test]
fn moves_of_the_handle_are_reckoned_with() {
    let first = found(&["0.2500", "0.2540", "0.2600"]);
    let second = laced(&first, &[0, 0, 0], &["0.2600", "0.2640", "0.2700"]);
    let handle = Edit::SetHandle {
        pass: 1,
        text: "0.010".into(),
        bare: Unit::Inch,
    };
    let expected = |session: &Session| -> Vec<f64> {
        let changes = advised(session);
        changes
            .changes()
            .iter()
            .map(|check| check.expected_nm / INCH)
            .collect()
    };
    assert_eq!(expected(&second), [0.0; 3]);
    let moved = expected(&with(&second, std::slice::from_ref(&handle)));
    let mean = moved.iter().sum::<f64>() / 3.0;
    assert!((mean - 0.010).abs() < 1e-12, "{moved:?}");
    assert!(
        moved.iter().all(|change| (change - 0.010).abs() < 0.002),
        "{moved:?}"
    );
    // Moves add up over the passes, whichever was read.
    let unread = Edit::InsertPass { at: 1 };
    let split = with(&with(&second, &[handle]), &[unread]);
    assert_eq!(
        split.passes[2].handle.as_ref().map(TypedLength::text),
        Some("0.010 in")
    );
    let again = expected(&split);
    for (one, other) in moved.iter().zip(&again) {
        assert!((one - other).abs() < 1e-15);
    }
}

/// The window's figures are those of the rows.
#[test]
fn forecasts_and_predictions_agree_with_the_rows() {
    let session = found(&["0.2500", "0.2590 0.2595", "0.2540", "0.2610"]);
    let session = laced(
        &session,
        &[2, 0, 1, -1],
        &["0.256", "0.259", "0.2575", "0.259"],
    );
    let advice = advised(&session);
    let mut forecaster = advice.forecaster().unwrap();
    for option in &advice.choice.options {
        assert_eq!(forecaster.forecast(&option.turns), option.forecast);
    }
    let still = advice.predicted(&[]);
    assert_eq!(still, advice.predicted(&[Notches(0); 4]));
    let turned = advice.predicted(&[0, 3, 0, 0].map(Notches));
    for ((still, turned), station) in still.iter().zip(&turned).zip(0..) {
        let rise = 3.0 * advice.response.at(station, 1);
        assert!((turned.mean_nm - still.mean_nm - rise).abs() < 1e-6);
    }
    // Turning B far is uncertain at B itself most.
    assert!(turned[1].sd_nm > still[1].sd_nm);
    assert_eq!(advice.findings().unwrap(), []);
}

/// A nut turned the wrong way round is asked about.
#[test]
fn a_reversed_turn_is_asked_about() {
    let session = found(&["0.2500", "0.2500", "0.2560", "0.2500"]);
    let session = laced(
        &session,
        &[0, 0, 3, 0],
        &["0.2485", "0.2470", "0.2470", "0.2475"],
    );
    let findings = advised(&session).findings().unwrap();
    let asked = findings.iter().any(|finding| {
        matches!(
            finding,
            Finding::TurnDoubt {
                pass: 1,
                arm: 2,
                recorded: 3,
                likelier: -3,
                ..
            }
        )
    });
    assert!(asked, "{findings:?}");
}

#[test]
fn the_same_on_every_run_and_thread() {
    let mut session = sample_visit("now");
    session.earlier = vec![sample_visit("before").as_past_visit().unwrap()];
    let expected = bits(&advised(&session));
    let shelf = PriorShelf::default();
    let on_a_thread = || {
        let mut workspace = AdviceWorkspace::default();
        // Other work before and between leaves nothing behind.
        let other = found(&["0.26", "0.25", "0.255", "0.2515", "0.25"]);
        let mut figures = Vec::new();
        for _ in 0..2 {
            other
                .advise(0, Wishes::default(), &shelf, &mut workspace)
                .unwrap();
            let advice = session
                .advise(2, Wishes::default(), &shelf, &mut workspace)
                .unwrap();
            figures.push(bits(&advice));
        }
        figures
    };
    let both = std::thread::scope(|scope| {
        let threads = [scope.spawn(on_a_thread), scope.spawn(on_a_thread)];
        threads.map(|thread| thread.join().unwrap())
    });
    for figures in both.iter().flatten() {
        assert_eq!(*figures, expected);
    }
}

/// Fixed output, the same in debug and release and on every machine.
#[test]
fn one_advice_is_fixed() {
    let advice = advised(&sample_visit("now"));
    let turns: Vec<i32> = advice.turns().iter().map(|turn| turn.0).collect();
    let forecast = advice.recommended().forecast;
    assert_eq!(turns, FIXED_TURNS);
    for (found, fixed) in [
        (forecast.chance, FIXED_CHANCE),
        (forecast.median_nm, FIXED_MEDIAN_NM),
        (forecast.p90_nm, FIXED_NINETY_NM),
    ] {
        assert!((found / fixed - 1.0).abs() < 1e-12, "{found} {fixed}");
    }
}

const FIXED_TURNS: [i32; 4] = [1, 0, 1, 0];
// 2.3e-8 less than in double precision: `stats/even_range.rs`.
const FIXED_CHANCE: f64 = 0.940_056_043_148_502_8;
const FIXED_MEDIAN_NM: f64 = 40_854.640_060_764_74;
const FIXED_NINETY_NM: f64 = 69_980.754_928_021_69;

fn jaw_and_rods(rod_diameter_mm: Estimate) -> JawAndRods {
    let exact = Estimate::exact;
    JawAndRods {
        jaw_modulus_gpa: exact(205.0),
        jaw_shape: JawShape::Rectangle {
            width_mm: exact(60.0),
            height_mm: exact(100.0),
        },
        rod_modulus_gpa: exact(205.0),
        rod_diameter_mm,
        rod_length_mm: exact(300.0),
    }
}

/// B is six notches thin and its rod goes slack before that. Where section and
/// rods are known, no plan lets its nut out further; where they are not, none is
/// forbidden and it is only said.
#[test]
fn an_assumed_rod_forbids_no_plan() {
    let session = found(&["0.2500", "0.2330", "0.2500", "0.2500"]);
    let only_said = advised(&session);
    assert!(!only_said.held_by_slack);
    let stops = only_said.slack_stops(&session);
    let [stop] = stops[..] else {
        panic!("{stops:?}")
    };
    assert_eq!(stop.arm, ArmIndex(1));
    assert!(only_said.recommended().turns[1] > stop.most.0, "{stop:?}");
    assert_eq!(only_said.bounds[1].most, 6);
    let data = Edit::SetJawAndRods(Some(jaw_and_rods(Estimate::exact(24.0))));
    let session = with(&session, &[data]);
    let held = advised(&session);
    assert!(held.held_by_slack);
    let stops = held.slack_stops(&session);
    let stop = stops.iter().find(|stop| stop.arm == ArmIndex(1));
    let most = stop.unwrap().most.0;
    assert!(most < 6, "{most}");
    assert!(held.choice.options.iter().all(|row| row.turns[1] <= most));
}

/// Section and rod data narrow what is believed; data that make no sense are
/// refused, and data less certain than the belief change nothing.
#[test]
fn section_and_rod_data_narrow_the_belief() {
    let exact = Estimate::exact;
    let known = jaw_and_rods;
    let session = found(&["0.2500", "0.2590", "0.2540", "0.2610"]);
    let data = |estimate| Edit::SetJawAndRods(Some(known(estimate)));
    let narrow = advised(&with(&session, &[data(exact(24.0))]));
    let wide = advised(&session);
    // How much of a nut's effect its neighbour gets is what stiffness tells.
    let [narrow_sd, wide_sd] = [&narrow, &wide].map(|advice| advice.response_sd_nm(1, 2));
    assert!(narrow_sd < 0.8 * wide_sd, "{narrow_sd} {wide_sd}");
    let vague = Estimate {
        value: 24.0,
        relative_sd: 0.9,
    };
    assert_eq!(bits(&advised(&with(&session, &[data(vague)]))), bits(&wide));
    assert!(matches!(
        session.edited(&data(exact(0.0))),
        Err(EditProblem::Session(SessionProblem::Section(_)))
    ));
    let record = PressRecord::of(&with(&session, &[data(exact(24.0))]));
    let next = record.start_session("next".into(), String::new());
    assert_eq!(next.jaw_and_rods, Some(known(exact(24.0))));
}

/// Arms as close as they may stand, and notch effects as small and as large as
/// they may be.
#[test]
fn extreme_presses_get_an_answer() {
    let close = Session::new("a".into(), Unit::Inch, press_at(&[6.0, 6.04, 6.08, 60.0]));
    let close = laced(&close, &[], &["0.25", "0.26", "0.251", "0.249"]);
    for effect in ["0.004", "0.00004", "0.19"] {
        let session = with(&close, &[set(Field::NotchEffectOfAll, effect)]);
        let session = laced(
            &session,
            &[1, -1, 0, 2],
            &["0.25", "0.26", "0.251", "0.249"],
        );
        let advice = advised(&session);
        assert!(
            bits(&advice)
                .iter()
                .all(|bits| f64::from_bits(*bits).is_finite())
        );
        assert!(advice.findings().is_ok());
    }
}
