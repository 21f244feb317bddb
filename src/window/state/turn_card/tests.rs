//! A turn card is gone through: what differs from the plan, in which order.

use super::*;
use crate::session::Edit;
use crate::store::SampleSession;

fn card(turns: [i32; 4]) -> (Session, TurnCard) {
    let session = SampleSession::default().session().unwrap();
    let turning = Turning {
        purpose: Purpose::Splice,
        turns: turns.map(Notches).into(),
    };
    let card = TurnCard::of(&session, turning);
    (session, card)
}

fn arms(card: &TurnCard) -> Vec<usize> {
    card.nuts().iter().map(|nut| nut.arm.0).collect()
}

#[test]
fn outs_come_before_ins_and_those_that_stay_last() {
    let (_, card) = card([-1, 2, 0, 1]);
    assert_eq!(arms(&card), [1, 3, 0, 2]);
    assert_eq!(card.done(), (0, 3));
}

#[test]
fn ticks_go_on_to_the_next_open_nut() {
    let (_, mut card) = card([-1, 2, 0, 1]);
    card.go_to(1);
    card.tick();
    assert_eq!(card.at(), 2);
    card.tick();
    // The one that was passed over.
    assert_eq!(card.at(), 0);
    assert!(!card.is_complete());
    card.tick();
    assert!(card.is_complete());
    // A nut that stays has nothing to tick.
    card.go_to(3);
    card.tick();
    assert_eq!(card.done(), (3, 3));
    card.go_to(0);
    card.tick();
    // Taken away again.
    assert!(!card.is_complete());
    assert_eq!(card.turned(), [-1, 0, 0, 1].map(Notches));
}

#[test]
fn what_was_really_turned_is_what_counts() {
    let (_, mut card) = card([0, 2, 0, 0]);
    card.otherwise = true;
    card.tick();
    // Nothing was answered yet.
    assert!(!card.is_complete());
    card.turned_more(Notches(-1));
    card.tick();
    // A nut that was to stay was turned by mistake.
    card.go_to(1);
    card.turned_more(Notches(1));
    assert!(!card.is_complete());
    card.tick();
    assert_eq!(card.turned(), [1, 1, 0, 0].map(Notches));
    card.go_to(1);
    card.not_turned_yet();
    assert_eq!(card.turned(), [0, 1, 0, 0].map(Notches));
    assert_eq!(card.done(), (1, 1));
    // No further than a nut position can be.
    card.turned_more(Notches(1_000));
    assert_eq!(card.turned(), [0, 1, 0, 0].map(Notches));
}

#[test]
fn a_nut_is_brought_to_the_plan_before_it_is_done() {
    let (_, mut card) = card([-1, 3, 0, 1]);
    card.otherwise = true;
    assert_eq!(card.act(), CardAct::Wait);
    card.turned_more(Notches(-1));
    assert_eq!(card.act(), CardAct::TurnOn(Notches(1)));
    card.turn_on();
    assert_eq!(
        (card.act(), card.turned()),
        (CardAct::Tick, [0, 2, 0, 0].map(Notches).into())
    );
    // Back IN only once no other nut is left to turn OUT.
    card.otherwise = true;
    card.turned_more(Notches(1));
    assert_eq!(card.act(), CardAct::Tick);
    // Past flush it is never done.
    card.turned_more(Notches(1));
    assert_eq!(card.act(), CardAct::Next(1));
    card.tick();
    assert_eq!(card.done().0, 0);
    card.go_to(1);
    card.tick();
    card.go_to(0);
    assert_eq!(card.act(), CardAct::TurnOn(Notches(-2)));
}

#[test]
fn ticks_stand_until_readings_or_turns_change() {
    let (session, card) = card([0, 2, 0, 0]);
    let same = card.basis.turning.clone();
    assert!(card.fits(&session, &same));
    let other = Turning {
        turns: [0, 3, 0, 0].map(Notches).into(),
        ..same.clone()
    };
    assert!(!card.fits(&session, &other));
    let reading = Edit::enter((0, 1, 0), "0.2461", session.unit);
    assert!(!card.fits(&session.edited(&reading).unwrap(), &same));
}
