//! Made safe before hands go in, then one nut at a time, then the next pass: the
//! order is driven with mouse, keyboard and accessibility actions, and nothing
//! goes round it.

use eframe::egui::{Key, Modifiers, Role};
use egui_kittest::kittest::{NodeT, Queryable};
use jawtrue::press::{ArmIndex, NutPosition, WrenchWay};
use jawtrue::session::{Caution, Edit, Field, Hands, Mark, MarkKind, Stage, Step};
use jawtrue::store::SampleSession;
use jawtrue::store::leftovers;
use jawtrue::units::Unit;
use jawtrue::words::{Figures, Language};

#[path = "support/hand.rs"]
mod hand;

use hand::{
    Opening, SIGNER, Window, click, enter_at, make_safe, open, press, push, says, settle, shows,
    tick, turn_all, type_at,
};

const WORDS: Language = Language::English;

fn window(folder: &std::path::Path) -> Window {
    open(folder, Opening::default())
}

/// A window where the press was made safe to make these turns.
fn at_the_card(folder: &std::path::Path, turns: [i32; 4]) -> Window {
    let mut harness = window(folder);
    settle(&mut harness, WORDS);
    show_turns(&mut harness, turns);
    go_and_turn(&mut harness);
    harness
}

/// Makes safe for what is on show, as far as the card.
fn go_and_turn(harness: &mut Window) {
    // Turns with hardly a chance are to be dropped: their own button makes them.
    match harness.query_by_role_and_label(Role::Button, WORDS.go_and_turn()) {
        Some(against) => against.click(),
        None => press(harness, Modifiers::COMMAND, Key::Enter),
    }
    harness.run_steps(3);
    make_safe(harness, WORDS, WORDS.confirm_and_turn());
}

/// Puts turns on show, one notch of a nut at a time.
fn show_turns(harness: &mut Window, turns: [i32; 4]) {
    let leave = harness.get_by_label_contains("leave as is: spread");
    leave.click();
    harness.run_steps(3);
    for (arm, turn) in (0..).map(ArmIndex).zip(turns) {
        let label = match turn {
            1.. => WORDS.turn_one_out(arm),
            _ => WORDS.turn_one_in(arm),
        };
        for _ in 0..turn.abs() {
            push(harness, &label);
        }
    }
}

fn passes(harness: &Window) -> usize {
    harness.state().session().passes.len()
}

fn last_turns(harness: &Window) -> Vec<i32> {
    let session = harness.state().session();
    let turns = session.turns_before(session.passes.len() - 1);
    turns.into_iter().map(|turn| turn.0).collect()
}

fn is_disabled(harness: &Window, label: &str) -> bool {
    let node = harness.get_by_role_and_label(Role::Button, label);
    node.accesskit_node().is_disabled()
}

fn is_asked(harness: &Window) -> bool {
    harness.query_by_label(WORDS.made_safe_title()).is_some()
}

fn card_is_on_show(harness: &Window) -> bool {
    let stop = harness.query_by_role_and_label(Role::Button, WORDS.card_stop());
    stop.is_some()
}

/// What the steps of making safe ask for.
fn steps() -> Vec<String> {
    let figures = Figures::exact(WORDS, Unit::Inch);
    Stage::MakeSafe
        .steps()
        .filter(|step| step.is_asked_of(Hands::TurnNuts))
        .map(|step| figures.step(step).text)
        .collect()
}

/// A way to press something.
type Way = fn(&mut Window, Role, &str);

fn by_mouse(harness: &mut Window, role: Role, label: &str) {
    click(harness, role, label);
}

fn by_screen_reader(harness: &mut Window, role: Role, label: &str) {
    let nodes = harness.query_all_by_role_and_label(role, label);
    nodes.last().expect("something to press").click_accesskit();
    harness.run_steps(3);
}

fn by_keyboard(harness: &mut Window, role: Role, label: &str) {
    // What is out of use is not reached; that is checked by what follows.
    for _ in 0..90 {
        let node = harness.query_all_by_role_and_label(role, label).last();
        if node.is_some_and(|node| node.is_focused()) {
            press(harness, Modifiers::NONE, Key::Enter);
            return;
        }
        press(harness, Modifiers::NONE, Key::Tab);
    }
}

#[test]
fn there_is_no_way_round_the_question() {
    for (name, way) in [
        ("mouse", by_mouse as Way),
        ("screen reader", by_screen_reader),
        ("keyboard", by_keyboard),
    ] {
        let folder = tempfile::tempdir().unwrap();
        let mut harness = window(folder.path());
        settle(&mut harness, WORDS);
        show_turns(&mut harness, [-1, 2, 0, 1]);
        // The keyboard is at the plan, where it starts from.
        press(&mut harness, Modifiers::COMMAND, Key::L);
        way(&mut harness, Role::Button, WORDS.go_and_turn());
        assert!(is_asked(&harness));
        // Waved away: no card, no pass.
        press(&mut harness, Modifiers::NONE, Key::Escape);
        assert!(!is_asked(&harness) && !card_is_on_show(&harness));
        press(&mut harness, Modifiers::COMMAND, Key::Enter);
        harness.get_by_label_contains(WORDS.would_do_harm());
        assert!(
            !is_asked(&harness),
            "the shortcut is for turns with a chance"
        );
        click(&mut harness, Role::Button, WORDS.go_and_turn());
        press(&mut harness, Modifiers::COMMAND, Key::Enter);
        assert!(is_asked(&harness));
        // Not before somebody signs, here and now.
        let steps = steps();
        harness.get_by_label(WORDS.sign_first());
        assert!(is_disabled(&harness, WORDS.confirm_and_turn()));
        way(&mut harness, Role::Button, WORDS.confirm_and_turn());
        tick(&mut harness, &steps[0]);
        assert!(harness.state().session().checklist.marks.is_empty());
        hand::sign(&mut harness, WORDS);
        // Nor what hands go in for, before it is locked out and tried.
        let figures = Figures::exact(WORDS, Unit::Inch);
        for early in [
            Step::Tried,
            Step::JawBlocked,
            Step::NutsMarked,
            Step::PinsOut,
        ] {
            tick(&mut harness, &figures.step(early).text);
            let marks = &harness.state().session().checklist.marks;
            assert!(marks.is_empty(), "{early:?}");
        }
        // Nor before every step is ticked.
        for (done, step) in steps.iter().enumerate() {
            let still_open = WORDS.still_open(steps.len() - done, steps.len());
            harness.get_by_label(&still_open);
            assert!(is_disabled(&harness, WORDS.confirm_and_turn()), "{step}");
            way(&mut harness, Role::Button, WORDS.confirm_and_turn());
            assert!(is_asked(&harness) && !card_is_on_show(&harness));
            tick(&mut harness, step);
        }
        way(&mut harness, Role::Button, WORDS.confirm_and_turn());
        assert!(harness.state().session().made_safe_now(), "{name}");
        assert!(card_is_on_show(&harness));

        // The pass waits for every nut, whatever else is tried.
        for (modifiers, key) in [
            (Modifiers::COMMAND, Key::Enter),
            (Modifiers::COMMAND, Key::N),
            (Modifiers::COMMAND, Key::Z),
            (Modifiers::NONE, Key::F2),
            (Modifiers::NONE, Key::F11),
        ] {
            press(&mut harness, modifiers, key);
            assert!(card_is_on_show(&harness), "{key:?}");
        }
        for label in [
            WORDS.is_turned_next(ArmIndex(1), ArmIndex(3)),
            WORDS.is_turned_next(ArmIndex(3), ArmIndex(0)),
            WORDS.is_turned(ArmIndex(0)),
        ] {
            let all = harness.query_by_role_and_label(Role::Button, WORDS.all_turned());
            assert!(all.is_none());
            assert_eq!(passes(&harness), 1);
            way(&mut harness, Role::Button, &label);
        }
        way(&mut harness, Role::Button, WORDS.all_turned());
        assert!(!card_is_on_show(&harness));
        assert_eq!(passes(&harness), 2);
        assert_eq!(last_turns(&harness), [-1, 2, 0, 1]);
        // The locks hang until they come off; before nuts are turned again it is
        // asked anew.
        let session = harness.state().session();
        assert!(session.made_safe_now() && !session.is_made_safe_for(Hands::TurnNuts));
    }
}

#[test]
fn it_is_asked_anew_and_what_stands_is_shown() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = at_the_card(folder.path(), [0, 2, 0, 0]);
    let session = harness.state().session();
    let mark = session.checklist.mark(Step::Tried.into()).unwrap().clone();
    assert_eq!((mark.who.as_str(), mark.kind), (SIGNER, MarkKind::Done));
    // The visit stays that of whoever began it.
    assert_eq!(session.notes.who, "R. Alder (invented)");
    harness.get_by_label_contains(&WORDS.made_safe_line(&mark));
    harness.get_by_label(WORDS.example_strip());
    // Left with nothing turned, it asks nothing; coming back it asks again,
    // with what was ticked in this same break.
    press(&mut harness, Modifiers::NONE, Key::Escape);
    assert!(!card_is_on_show(&harness));
    press(&mut harness, Modifiers::COMMAND, Key::Enter);
    assert!(is_asked(&harness) && !card_is_on_show(&harness));
    harness.get_by_label(WORDS.example_title());
    harness.get_by_label(WORDS.made_safe_still());
    for step in steps() {
        let boxes = harness.query_all_by_role_and_label(Role::CheckBox, &step);
        let ticked = boxes.last().unwrap().accesskit_node().toggled();
        assert_eq!(
            ticked,
            Some(eframe::egui::accesskit::Toggled::True),
            "{step}"
        );
    }
    push(&mut harness, WORDS.confirm_and_turn());
    turn_all(&mut harness, WORDS);
    assert_eq!(passes(&harness), 2);
    // After the next piece all of it is open again.
    for (arm, text) in ["A", "B", "C", "D"]
        .into_iter()
        .zip(["0.2500", "0.2450", "0.2505", "0.2525"])
    {
        enter_at(&mut harness, &WORDS.reading_label(1, arm), text);
    }
    settle(&mut harness, WORDS);
    show_turns(&mut harness, [0, 1, 0, 0]);
    press(&mut harness, Modifiers::COMMAND, Key::Enter);
    let all = steps().len();
    harness.get_by_label(&WORDS.still_open(all, all));
    assert!(is_asked(&harness) && is_disabled(&harness, WORDS.confirm_and_turn()));
}

#[test]
fn a_name_in_the_file_signs_for_nobody() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window(folder.path());
    settle(&mut harness, WORDS);
    show_turns(&mut harness, [0, 2, 0, 0]);
    press(&mut harness, Modifiers::COMMAND, Key::Enter);
    let signed = |harness: &Window| {
        let field = harness.get_by_role_and_label(Role::TextInput, WORDS.field_who());
        field.value().unwrap_or_default()
    };
    assert_eq!(signed(&harness), "");
    for step in steps() {
        tick(&mut harness, &step);
    }
    // What this press does not have takes a name as well.
    let figures = Figures::exact(WORDS, Unit::Inch);
    let absent = figures.step(Step::PressureReleased).text;
    push(&mut harness, &WORDS.more_about(&absent));
    push(&mut harness, &WORDS.step_not_here(&absent));
    assert!(harness.state().session().checklist.marks.is_empty());
    harness.get_by_label(WORDS.sign_first());
    assert!(is_disabled(&harness, WORDS.confirm_and_turn()));
    // It is offered, to be chosen by whoever it is.
    let known = "R. Alder (invented)";
    push(&mut harness, &WORDS.sign_as(known));
    assert_eq!(signed(&harness), known);
    push(&mut harness, &WORDS.step_not_here(&absent));
    for step in steps().iter().filter(|step| **step != absent) {
        tick(&mut harness, step);
    }
    let left_out = |mark: &&Mark| mark.kind == MarkKind::Skipped;
    let marks = &harness.state().session().checklist.marks;
    let left_out: Vec<_> = marks
        .iter()
        .filter(left_out)
        .map(|mark| &*mark.note)
        .collect();
    assert_eq!(left_out, [WORDS.not_on_this_press()]);
    push(&mut harness, WORDS.confirm_and_turn());
    assert!(card_is_on_show(&harness));
    let marks = &harness.state().session().checklist.marks;
    assert!(marks.iter().all(|mark| mark.who == known), "{marks:?}");
    // Whoever signed in this visit need not type it again.
    press(&mut harness, Modifiers::NONE, Key::Escape);
    press(&mut harness, Modifiers::COMMAND, Key::Enter);
    assert_eq!(signed(&harness), known);
}

#[test]
fn nobody_works_behind_the_lock_of_another() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window(folder.path());
    settle(&mut harness, WORDS);
    show_turns(&mut harness, [0, 2, 0, 0]);
    press(&mut harness, Modifiers::COMMAND, Key::Enter);
    hand::tick_safe(&mut harness, WORDS, usize::MAX);
    assert!(!is_disabled(&harness, WORDS.confirm_and_turn()));
    let other = "R. Alder (invented)";
    push(&mut harness, &WORDS.sign_as(other));
    harness.get_by_label(&WORDS.own_lock_too(hand::SIGNER));
    assert!(is_disabled(&harness, WORDS.confirm_and_turn()));
    // With a second lock on, what was tried behind the first is asked anew.
    let figures = Figures::exact(WORDS, Unit::Inch);
    tick(&mut harness, &figures.step(Step::LockedOut).text);
    harness.get_by_label(&WORDS.still_open(5, 9));
    hand::tick_safe(&mut harness, WORDS, usize::MAX);
    assert!(!is_disabled(&harness, WORDS.confirm_and_turn()));
    // Both names stay.
    assert_eq!(harness.state().session().locks(), [hand::SIGNER, other]);
}

#[test]
fn outs_stand_before_ins_with_the_way_the_wrench_goes() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = at_the_card(folder.path(), [-1, 2, 0, 1]);
    let row = |harness: &Window, label: &str| {
        harness
            .get_by_role_and_label(Role::CheckBox, label)
            .rect()
            .top()
    };
    let tops = [
        "B: OUT 2 notches, from -4 to -2",
        "D: OUT 1 notch, from -4 to -3",
        "A: IN 1 notch, from -4 to -5",
    ]
    .map(|label| row(&harness, label));
    assert!(tops.is_sorted(), "{tops:?}");
    harness.get_by_role_and_label(Role::Button, "C stays at -4");
    harness.get_by_label_contains(
        "B, 2nd from the operator's left. OUT 2 notches, now at -4, then at -2",
    );
    harness.get_by_label_contains("the wrench goes counterclockwise");
    // The arrows look ahead; an in before an out is cautioned.
    press(&mut harness, Modifiers::NONE, Key::ArrowDown);
    press(&mut harness, Modifiers::NONE, Key::ArrowDown);
    harness.get_by_label_contains("A, 1st from the operator's left. IN 1 notch");
    harness.get_by_label_contains("the wrench goes clockwise");
    assert_eq!(passes(&harness), 1);
}

#[test]
fn a_left_hand_thread_turns_the_other_way() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("left.jawtrue");
    let edit = Edit::SetLeftHandThread(true);
    let session = SampleSession::default()
        .session()
        .unwrap()
        .edited(&edit)
        .unwrap();
    std::fs::write(&file, jawtrue::store::session_text(&session).unwrap()).unwrap();
    let opening = Opening {
        file: Some(file),
        ..Opening::default()
    };
    let mut harness = open(folder.path(), opening);
    for _ in 0..200 {
        if harness.state().session() == &session {
            break;
        }
        std::thread::sleep(std::time::Duration::from_millis(5));
        harness.step();
    }
    settle(&mut harness, WORDS);
    assert_eq!(harness.state().session().press.left_hand_thread, Some(true));
    show_turns(&mut harness, [0, 2, 0, 0]);
    press(&mut harness, Modifiers::COMMAND, Key::Enter);
    make_safe(&mut harness, WORDS, WORDS.confirm_and_turn());
    harness.get_by_label_contains("OUT 2 notches, now at -4, then at -2");
    harness.get_by_label_contains("the wrench goes clockwise");
}

#[test]
fn what_was_really_turned_is_noted() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = at_the_card(folder.path(), [-1, 2, 0, 0]);
    // B was turned three notches rather than two.
    push(&mut harness, WORDS.turned_otherwise());
    push(&mut harness, &WORDS.really_out(ArmIndex(1)));
    harness.get_by_label_contains(
        "B, 2nd from the operator's left. OUT 3 notches, is at -1. IN 1 brings it back",
    );
    push(&mut harness, &WORDS.leave_it_so("OUT 3"));
    // D was turned by mistake, and is one of them now.
    push(&mut harness, "D stays at -4");
    push(&mut harness, WORDS.turned_otherwise());
    push(&mut harness, &WORDS.really_in(ArmIndex(3)));
    click(&mut harness, Role::CheckBox, "A: IN 1 notch, from -4 to -5");
    let all = harness.query_by_role_and_label(Role::Button, WORDS.card_note_so_far());
    assert!(all.is_none());
    push(&mut harness, &WORDS.leave_it_so("IN 1"));
    // Broken off now, nobody reads that all of it went as planned.
    press(&mut harness, Modifiers::NONE, Key::Escape);
    harness.get_by_label(WORDS.card_not_as_planned_title());
    harness.get_by_label(&WORDS.card_stop_planned("A IN 1, B OUT 2"));
    press(&mut harness, Modifiers::NONE, Key::Escape);
    push(&mut harness, WORDS.card_note_so_far());
    assert_eq!(last_turns(&harness), [-1, 3, 0, -1]);
}

#[test]
fn a_short_turn_is_gone_on_with_to_the_plan() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = at_the_card(folder.path(), [0, 3, 0, 0]);
    push(&mut harness, WORDS.turned_otherwise());
    let less = WORDS.really_in(ArmIndex(1));
    push(&mut harness, &less);
    push(&mut harness, &less);
    // The keyboard ticks nothing that the foot asks about.
    press(&mut harness, Modifiers::NONE, Key::Enter);
    assert!(harness.query_by_label(WORDS.all_turned()).is_none());
    push(&mut harness, &WORDS.turn_rest("OUT 2"));
    harness.get_by_label_contains("OUT 2 notches more, now at -3, then at -1");
    // Stopped now, it is known where the nut stands.
    press(&mut harness, Modifiers::NONE, Key::Escape);
    harness.get_by_label(&WORDS.card_stop_so_far("B OUT 1"));
    press(&mut harness, Modifiers::NONE, Key::Escape);
    push(&mut harness, &WORDS.is_turned(ArmIndex(1)));
    push(&mut harness, WORDS.all_turned());
    assert_eq!(last_turns(&harness), [0, 3, 0, 0]);
}

#[test]
fn a_nut_past_its_limit_is_not_done() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = at_the_card(folder.path(), [0, 4, 0, 0]);
    push(&mut harness, WORDS.turned_otherwise());
    push(&mut harness, &WORDS.really_out(ArmIndex(1)));
    let so = WORDS.leave_it_so("OUT 5");
    assert!(harness.query_by_label(&so).is_none());
    push(&mut harness, &WORDS.turn_rest("IN 1"));
    harness.get_by_label_contains("now at 1, then at 0");
}

#[test]
fn a_lost_count_is_noted_with_the_pass() {
    for (found, note) in [(true, "OUT 2 by its mark"), (false, "is not known")] {
        let folder = tempfile::tempdir().unwrap();
        let mut harness = at_the_card(folder.path(), [0, 2, 0, 0]);
        push(&mut harness, WORDS.turned_otherwise());
        push(&mut harness, WORDS.lost_count());
        harness.get_by_label_contains("then IN 2: at -2");
        if found {
            push(
                &mut harness,
                &WORDS.count_found(ArmIndex(1), NutPosition(-2)),
            );
            push(&mut harness, WORDS.all_turned());
        } else {
            press(&mut harness, Modifiers::NONE, Key::Escape);
            push(&mut harness, WORDS.card_note_so_far());
        }
        let last = harness.state().session().passes.last().unwrap();
        assert!(last.note.contains(note), "{}", last.note);
    }
}

#[test]
fn turning_can_be_broken_off_and_gone_on_with() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window(folder.path());
    settle(&mut harness, WORDS);
    show_turns(&mut harness, [0, 2, 0, 1]);
    go_and_turn(&mut harness);
    // The keyboard is at the first nut.
    press(&mut harness, Modifiers::NONE, Key::Space);
    press(&mut harness, Modifiers::NONE, Key::Escape);
    harness.get_by_label(&WORDS.card_stop_so_far("B OUT 2"));
    press(&mut harness, Modifiers::NONE, Key::Escape);
    assert!(card_is_on_show(&harness), "back to the card");
    press(&mut harness, Modifiers::NONE, Key::Escape);
    push(&mut harness, WORDS.card_leave());
    assert_eq!((card_is_on_show(&harness), passes(&harness)), (false, 1));
    // The tick is still there.
    go_and_turn(&mut harness);
    harness.get_by_label_contains(&WORDS.card_done(1, 2));
    harness.get_by_label_contains("D, 4th from the operator's left. OUT 1 notch");
    press(&mut harness, Modifiers::NONE, Key::Escape);
    push(&mut harness, WORDS.card_leave());
    // Other turns are another card, and what was ticked is said.
    push(&mut harness, &WORDS.turn_one_out(ArmIndex(2)));
    go_and_turn(&mut harness);
    harness.get_by_label_contains(&WORDS.card_done(0, 3));
    press(&mut harness, Modifiers::NONE, Key::Space);
    press(&mut harness, Modifiers::NONE, Key::Escape);
    push(&mut harness, WORDS.card_note_so_far());
    assert_eq!((card_is_on_show(&harness), passes(&harness)), (false, 2));
    assert_eq!(last_turns(&harness), [0, 2, 0, 0]);
}

#[test]
fn turns_for_the_coarse_gap_are_recorded() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window(folder.path());
    press(&mut harness, Modifiers::COMMAND, Key::N);
    type_at(&mut harness, WORDS.field_jaw_length(), "48");
    push(&mut harness, WORDS.start_session());
    let stage = Stage::CoarseGap;
    for _ in 0..2 {
        press(&mut harness, Modifiers::COMMAND, Key::PageDown);
    }
    // Hands go in: neither steps nor fields are open before it is answered.
    let figures = Figures::exact(WORDS, Unit::Inch);
    let step = figures.step(Step::GapMeasured).text;
    let field = WORDS.field(Field::CoarseGap(ArmIndex(0)));
    for (role, label) in [(Role::CheckBox, &step), (Role::TextInput, &field)] {
        let node = harness.get_by_role_and_label(role, label);
        assert!(node.accesskit_node().is_disabled(), "{label}");
    }
    click(&mut harness, Role::CheckBox, &step);
    assert!(harness.state().session().checklist.marks.is_empty());
    push(&mut harness, WORDS.make_safe_now());
    make_safe(&mut harness, WORDS, WORDS.confirm_made_safe());
    click(&mut harness, Role::CheckBox, &step);
    assert!(
        harness
            .state()
            .session()
            .checklist
            .mark(Step::GapMeasured.into())
            .is_some()
    );
    for (arm, gap) in (0..)
        .map(ArmIndex)
        .zip(["0.125", "0.093", "0.125", "0.125"])
    {
        enter_at(&mut harness, &WORDS.field(Field::CoarseGap(arm)), gap);
    }
    // B is narrow by eight notches of 0.004 inch. It is asked once more.
    push(&mut harness, WORDS.go_and_turn_gap());
    assert!(is_asked(&harness) && !card_is_on_show(&harness));
    // Hands that measured needed no open jaw and no pins out; these do.
    let (open, all) = (4, steps().len());
    harness.get_by_label(&WORDS.still_open(open, all));
    assert!(is_disabled(&harness, WORDS.confirm_and_turn()));
    make_safe(&mut harness, WORDS, WORDS.confirm_and_turn());
    // Nobody looked at the thread of a new press: before that there is no arrow.
    let arrow = "the wrench goes counterclockwise";
    assert!(!says(&harness, arrow));
    press(&mut harness, Modifiers::NONE, Key::Enter);
    assert!(!says(&harness, arrow), "Enter answers nothing");
    let out = WORDS.thread_out(WORDS.wrench_short(WrenchWay::Counterclockwise));
    push(&mut harness, &format!("{}. {out}", WORDS.thread_right()));
    shows(&harness, arrow);
    harness.get_by_label_contains(
        "B, 2nd from the operator's left. OUT 8 notches, now at 0, then at 8",
    );
    turn_all(&mut harness, WORDS);
    let session = harness.state().session();
    assert_eq!(session.start_nuts, [0, 8, 0, 0].map(NutPosition));
    assert_eq!(
        session.coarse_gap_at(ArmIndex(1)),
        None,
        "to be measured again"
    );
    assert!(session.made_safe_now(), "nothing was laced");
    assert_eq!(
        harness.state().session().current_stage(),
        Some(Stage::FreeNuts)
    );
    let heading = format!("3. {}", WORDS.stage(stage));
    harness.get_by_label(&heading);
    press(&mut harness, Modifiers::COMMAND, Key::Z);
    let session = harness.state().session();
    assert_eq!(session.start_nuts, [0; 4].map(NutPosition), "one step back");
    assert!(session.coarse_gap_at(ArmIndex(1)).is_some());
}

#[test]
fn every_stage_where_hands_go_in_asks_first() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window(folder.path());
    press(&mut harness, Modifiers::COMMAND, Key::N);
    type_at(&mut harness, WORDS.field_jaw_length(), "48");
    push(&mut harness, WORDS.start_session());
    let figures = Figures::exact(WORDS, Unit::Inch);
    for stage in Stage::ALL {
        if matches!(stage, Stage::Measure | Stage::Turn) {
            press(&mut harness, Modifiers::COMMAND, Key::K);
        }
        let of_nuts = |step: &Step| step.is_asked_of(Hands::TurnNuts);
        for step in stage.steps().filter(of_nuts) {
            let text = figures.step(step).text;
            // Nothing is measured, so nobody is sent back to work.
            if step == Step::ClearForWork {
                let node = harness.query_by_role_and_label(Role::CheckBox, &text);
                assert!(node.is_none());
                continue;
            }
            let node = harness.get_by_role_and_label(Role::CheckBox, &text);
            let waits = node.accesskit_node().is_disabled();
            // Nobody has signed at the first stage.
            let safe_first = step.hands_in_press() || step.stage() == Stage::MakeSafe;
            let expected = safe_first || !step.waits_for().is_empty();
            assert_eq!(waits, expected, "{step:?}");
        }
        // Nothing was turned, so no pins go in before another lacing.
        if stage.hands_in_press() && stage != Stage::Relace {
            push(&mut harness, WORDS.make_safe_now());
            make_safe(&mut harness, WORDS, WORDS.confirm_made_safe());
            let at_once = |step: &Step| step.waits_for().is_empty();
            for step in stage.steps().filter(at_once) {
                let text = figures.step(step).text;
                let node = harness.get_by_role_and_label(Role::CheckBox, &text);
                let waits = node.accesskit_node().is_disabled();
                assert!(!waits, "{step:?}");
            }
        }
        press(&mut harness, Modifiers::COMMAND, Key::PageDown);
    }
}

/// Every caution stands there, with its source.
fn all_cautions(harness: &Window, place: &str) {
    for caution in Caution::ALL {
        let source = WORDS.caution_source(caution);
        let said = format!("{} ({source})", WORDS.caution(caution));
        let found = harness.query_all_by_label_contains(&said).count();
        assert!(found > 0, "{place}: {said}");
    }
}

#[test]
fn every_caution_stands_where_hands_go_in_and_where_it_is_laced() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window(folder.path());
    settle(&mut harness, WORDS);
    let unfold = |harness: &mut Window| {
        let folded = |harness: &Window, act: fn(&egui_kittest::Node<'_>)| {
            let headings = harness.query_all_by_label(WORDS.all_cautions());
            act(&headings.last().expect("all cautions"));
        };
        folded(harness, |node| node.scroll_to_me());
        harness.run_steps(3);
        folded(harness, |node| node.click());
        harness.run_steps(20);
    };
    press(&mut harness, Modifiers::COMMAND, Key::Enter);
    // Those for the nuts stand there at once, and what comes before all.
    for caution in Caution::ALL.into_iter().filter(|it| it.is_for(Stage::Turn)) {
        let said = harness.query_all_by_label_contains(WORDS.caution_short(caution));
        assert!(said.count() > 0, "{caution:?}");
    }
    harness.get_by_label_contains(&WORDS.cautions_of(Stage::Turn));
    unfold(&mut harness);
    all_cautions(&harness, "made safe");
    make_safe(&mut harness, WORDS, WORDS.confirm_and_turn());
    harness.get_by_label_contains(WORDS.card_beware());
    unfold(&mut harness);
    all_cautions(&harness, "turn card");
    turn_all(&mut harness, WORDS);
    press(&mut harness, Modifiers::NONE, Key::F1);
    for caution in Caution::ALL {
        let said = harness.query_all_by_label_contains(WORDS.caution(caution));
        assert!(said.count() > 0, "help: {caution:?}");
    }
    press(&mut harness, Modifiers::NONE, Key::Escape);
    press(&mut harness, Modifiers::COMMAND, Key::PageUp);
    unfold(&mut harness);
    all_cautions(&harness, "test lace");
    for _ in 0..3 {
        press(&mut harness, Modifiers::COMMAND, Key::PageDown);
    }
    // What is unfolded stays so from stage to stage.
    all_cautions(&harness, "re-lace");
}

#[test]
fn what_is_ticked_as_turned_outlives_a_crash() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window(folder.path());
    settle(&mut harness, WORDS);
    press(&mut harness, Modifiers::COMMAND, Key::Enter);
    make_safe(&mut harness, WORDS, WORDS.confirm_and_turn());
    let before = harness.state().session().nuts_now().to_vec();
    press(&mut harness, Modifiers::NONE, Key::Enter);
    for _ in 0..20 {
        std::thread::sleep(std::time::Duration::from_millis(50));
        harness.step();
    }
    assert_eq!(passes(&harness), 1, "nothing is noted yet");
    // The program ends without a word, as at a power cut.
    drop(harness);
    let left = leftovers(&folder.path().join("recovery")).pop();
    let kept = left.expect("what was ticked").session.unwrap();
    let turned: Vec<i32> = before
        .iter()
        .zip(kept.nuts_now())
        .map(|(a, b)| (*b - *a).0)
        .collect();
    assert_eq!(turned, [0, 3, 0, 0]);
    assert_eq!(kept.passes.len(), 2);
}

#[test]
fn out_and_in_cannot_be_taken_for_each_other_in_spanish() {
    // In the words as they are written, since no figure shows all of them.
    let words = concat!(env!("CARGO_MANIFEST_DIR"), "/src/words");
    for file in std::fs::read_dir(words).unwrap() {
        let path = file.unwrap().path();
        let text = std::fs::read_to_string(&path).unwrap();
        for short in ["AFUERA", "ADENTRO", "AF. ", "AD. "] {
            assert!(!text.contains(short), "{short} in {}", path.display());
        }
    }
}
