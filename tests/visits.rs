//! What earlier visits teach the next.

mod presses;
mod sessions;

use jawtrue::press::{Arm, ArmIndex, NutPosition};
use jawtrue::session::{Advice, Edit, PressRecord, Session, WhyLeftOut};
use jawtrue::stats::{Draws, Purpose};
use jawtrue::units::{Length, TypedLength, Unit};
use presses::{CALIPER, INCH, Press};
use sessions::{advised, bits, even_press, laced, sample_visit, with};

/// A session's press like a simulated one: the same arms, read with steps of
/// 0.0005 in.
fn session_on(press: &Press, id: &str) -> Session {
    let length = |nm: f64| TypedLength::from_length(Length::from_nm(nm as i64), Unit::Millimetre);
    let arms = press.layout.arms_nm();
    // The simulated jaw is 120 mm longer than its arms at either end.
    let arm = |position: &f64| Arm {
        position: length(position + 120e6),
        ..even_press(2).arms[0].clone()
    };
    let mut session = Session::new(id.into(), Unit::Inch, even_press(2));
    session.press.arms = arms.iter().map(arm).collect();
    session.press.jaw_length = length(arms[arms.len() - 1] + 240e6);
    session.start_nuts = vec![NutPosition(0); arms.len()];
    session.stations = (0..arms.len())
        .map(|arm| jawtrue::splice::Station::at_arm(ArmIndex(arm)))
        .collect();
    assert_eq!(session.check(), Ok(()));
    session
}

/// Laces with the given turns on a simulated press.
fn lace_on(press: &Press, session: &Session, draws: &mut Draws, turns: &[i32]) -> Session {
    let nuts: Vec<i32> = session
        .nuts_now()
        .iter()
        .zip(turns)
        .map(|(nut, turn)| nut.0 + turn)
        .collect();
    let piece = press.lace_and_read(draws, &nuts, &CALIPER);
    let texts: Vec<String> = piece
        .read_nm
        .iter()
        .map(|nm| format!("{0:.5} {0:.5}", nm / INCH))
        .collect();
    let texts: Vec<&str> = texts.iter().map(String::as_str).collect();
    laced(session, turns, &texts)
}

/// Sum of squared errors of the response's means against the simulated press.
fn error_of(advice: &Advice, press: &Press) -> f64 {
    let pairs = advice.response.values().iter().zip(&press.response);
    pairs
        .map(|(believed, real)| (believed - real) * (believed - real))
        .sum()
}

/// What a first visit measured makes the second know the press better, on
/// presses of another family than the prior's.
#[test]
fn a_second_visit_knows_the_press_better() {
    let (mut fresh_error, mut taught_error) = (0.0, 0.0);
    for number in 0..12 {
        let mut draws = Draws::new(Purpose::Simulation(1_000 + number));
        let press = Press::of_another_kind(&mut draws, 4, 0.004 * INCH);
        let mut first = session_on(&press, "first");
        for turns in [[0; 4], [2, 0, -1, 1], [-1, 2, 0, -2]] {
            first = lace_on(&press, &first, &mut draws, &turns);
        }
        let record = PressRecord::of(&first);
        let second = record.start_session("second".into(), "later".into());
        let second = lace_on(&press, &second, &mut draws, &[0; 4]);
        let taught = advised(&second);
        let fresh = advised(&with(&second, &[Edit::ForgetEarlier]));
        let from = (taught.learnt_from.visits, taught.learnt_from.visit_passes);
        assert_eq!(from, (1, 3));
        for station in 0..4 {
            for arm in 0..4 {
                let sds = [&taught, &fresh].map(|advice| advice.response_sd_nm(station, arm));
                assert!(sds[0] < sds[1], "{sds:?}");
            }
        }
        fresh_error += error_of(&fresh, &press);
        taught_error += error_of(&taught, &press);
    }
    assert!(
        taught_error < 0.7 * fresh_error,
        "{taught_error} {fresh_error}"
    );
}

#[test]
fn learning_twice_does_not_double() {
    let visit = sample_visit("first");
    let mut record = PressRecord::of(&visit);
    let next = |record: &PressRecord| {
        let next = record.start_session("second".into(), String::new());
        laced(&next, &[], &["0.2520", "0.2570", "0.2555", "0.2580"])
    };
    let once = advised(&next(&record));
    record.learn(&visit).unwrap();
    record.learn(&visit).unwrap();
    let again = advised(&next(&record));
    assert_eq!(bits(&once), bits(&again));
    // A session does not learn from itself when its evidence comes back.
    let own = next(&record);
    record.learn(&own).unwrap();
    let back = Session {
        earlier: record.next_visit.earlier.clone(),
        ..own.clone()
    };
    assert_eq!(bits(&advised(&own)), bits(&advised(&back)));
}

#[test]
fn visits_that_do_not_fit_are_left_out_and_named() {
    let mut session = sample_visit("now");
    let fitting = sample_visit("fitting").as_past_visit().unwrap();
    let mut other = fitting.clone();
    other.session = "other".into();
    other.arms[2] = sessions::inches("27");
    let mut short = fitting.clone();
    short.session = "short".into();
    short.passes.truncate(1);
    session.earlier = vec![other, short, fitting.clone()];
    assert_eq!(session.check(), Ok(()));
    let advice = advised(&session);
    assert_eq!(advice.learnt_from.visits, 1);
    let [left_out] = &advice.learnt_from.left_out[..] else {
        panic!("{:?}", advice.learnt_from);
    };
    assert_eq!(left_out.session, "other");
    assert_eq!(left_out.why, WhyLeftOut::OtherArms);
    // The one with other arms changes nothing; the short one teaches nothing of
    // how the press answers, only how it was found.
    session.earlier.retain(|visit| visit.session != "other");
    assert_eq!(bits(&advised(&session)), bits(&advice));
    let with_short = session.noise().deviation_nm;
    session.earlier = vec![fitting];
    assert_ne!(session.noise().deviation_nm, with_short);
    assert_eq!(advised(&session).learnt_from.visits, 1);
}
