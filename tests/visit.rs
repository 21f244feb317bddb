//! The visit as a path: its record in files, and the window driven along it by
//! label in both languages, and by keyboard.

use std::path::Path;

use eframe::egui::{self, Key, Modifiers, Role};
use egui_kittest::kittest::{NodeT, Queryable};
use jawtrue::press::ArmIndex;
use jawtrue::session::{Checklist, Edit, Field, Hands, PathState, Session, Stage, Step, StepId};
use jawtrue::store::{OpenProblem, SampleSession, session_from_text, session_text};
use jawtrue::units::Unit;
use jawtrue::words::{Figures, Language};

#[path = "support/hand.rs"]
mod hand;

fn window(folder: &Path) -> hand::Window {
    hand::open(folder, hand::Opening::default())
}

/// The window and the language it is driven in.
struct Walk {
    harness: hand::Window,
    words: Language,
}

impl Walk {
    fn figures(&self) -> Figures {
        Figures::exact(self.words, Unit::Inch)
    }

    fn session(&self) -> &Session {
        self.harness.state().session()
    }

    fn press(&mut self, modifiers: Modifiers, key: Key) {
        hand::press(&mut self.harness, modifiers, key);
    }

    fn click(&mut self, role: Role, label: &str) {
        hand::click(&mut self.harness, role, label);
    }

    fn type_at(&mut self, label: &str, text: &str) {
        hand::type_at(&mut self.harness, label, text);
    }

    /// The row of stages shows a stage in a state.
    fn shows(&self, stage: Stage, state: PathState) {
        let words = self.words;
        let label = words.stage_and_state(words.stage(stage), words.path_state(state));
        self.harness.get_by_role_and_label(Role::Tab, &label);
    }

    fn go_to(&mut self, stage: Stage) {
        let name = self.words.stage_and_state(self.words.stage(stage), "");
        let tabs = self.harness.get_all_by_role(Role::Tab);
        let named = |tab: &egui_kittest::Node<'_>| {
            let label = tab.accesskit_node().label();
            label.is_some_and(|label| label.starts_with(&name))
        };
        tabs.into_iter().find(named).expect("its chip").click();
        self.harness.run_steps(3);
    }

    fn tick(&mut self, stage: Stage) {
        let asked = |step: &Step| stage != Stage::MakeSafe || step.is_asked_of(Hands::TurnNuts);
        for step in stage.steps().filter(asked) {
            let text = self.figures().step(step).text;
            self.click(Role::CheckBox, &text);
            let mark = self.session().checklist.mark(step.into());
            assert_eq!(mark.unwrap().who, "R. Alder", "{step:?}");
        }
    }

    /// Answers at the stage on show that the press is made safe.
    fn make_safe(&mut self) {
        let words = self.words;
        self.click(Role::Button, words.make_safe_now());
        hand::make_safe(&mut self.harness, words, words.confirm_made_safe());
    }

    fn next(&mut self, stage: Stage) {
        let label = self.words.next_stage(self.words.stage(stage));
        self.click(Role::Button, &label);
    }

    fn read(&mut self, readings: [&str; 4]) {
        for (arm, reading) in ["A", "B", "C", "D"].into_iter().zip(readings) {
            let label = self.words.reading_label(1, arm);
            hand::enter_at(&mut self.harness, &label, reading);
        }
    }
}

/// From a new session to a closed one.
fn whole_visit(words: Language) {
    let folder = tempfile::tempdir().unwrap();
    let mut walk = Walk {
        harness: window(folder.path()),
        words,
    };
    if words != Language::English {
        walk.click(Role::Button, words.own_name());
    }
    // A new session opens on the first stage.
    walk.press(Modifiers::COMMAND, Key::N);
    walk.type_at(words.field_jaw_length(), "48");
    walk.click(Role::RadioButton, words.arms_one_by_one());
    for (arm, at) in ["6", "18", "30", "42"].into_iter().enumerate() {
        walk.type_at(&words.field(Field::ArmPosition(ArmIndex(arm))), at);
    }
    walk.click(Role::Button, words.start_session());
    walk.harness.run_steps(4);
    walk.shows(Stage::MakeSafe, PathState::Current);
    walk.type_at(&words.field(Field::Who), "R. Alder");

    walk.tick(Stage::MakeSafe);
    assert!(walk.session().made_safe_now());
    // It is done with the answer, not with the last box.
    walk.shows(Stage::MakeSafe, PathState::Current);
    walk.shows(Stage::FreeNuts, PathState::Next);
    walk.click(
        Role::Button,
        &words.confirm_next(words.stage(Stage::FreeNuts)),
    );
    walk.shows(Stage::MakeSafe, PathState::Done);
    walk.shows(Stage::FreeNuts, PathState::Current);
    walk.tick(Stage::FreeNuts);
    // Wherever hands go in it is asked anew.
    walk.next(Stage::CoarseGap);
    walk.make_safe();
    walk.tick(Stage::CoarseGap);
    for (arm, gap) in ["1/8", "0.093", "0.125", "0.121"].into_iter().enumerate() {
        walk.type_at(&words.field(Field::CoarseGap(ArmIndex(arm))), gap);
        walk.press(Modifiers::NONE, Key::Enter);
    }
    let gap = walk.session().coarse_gap().unwrap();
    assert!(!gap.even);
    for sentence in walk.figures().coarse_gap_sentences(&gap) {
        walk.harness.get_by_label_contains(&sentence);
    }
    let outward = words.arm_out(ArmIndex(1), 8);
    walk.harness.get_by_label_contains(&outward);
    walk.next(Stage::JawDrive);
    walk.make_safe();
    walk.tick(Stage::JawDrive);
    walk.type_at(&words.field(Field::DriveParts), "1 long chain");
    walk.press(Modifiers::NONE, Key::Enter);
    assert_eq!(walk.session().press.drive.parts, "1 long chain");
    walk.next(Stage::TestLace);
    // Pins go in behind the lock.
    let pins = walk.figures().step(Step::PinsForTest).text;
    walk.click(Role::CheckBox, &pins);
    let ticked = walk.session().mark_now(Step::PinsForTest.into());
    assert!(ticked.is_none());
    walk.make_safe();
    walk.tick(Stage::TestLace);
    // The locks are off, so it is no longer made safe.
    assert!(!walk.session().made_safe_now());
    walk.shows(Stage::MakeSafe, PathState::Again);
    walk.click(Role::Button, words.next_first_pass());
    assert!(!walk.session().made_safe_now());

    // The picture has the middle again.
    walk.shows(Stage::Measure, PathState::Current);
    walk.read(["0.2500", "0.2450", "0.2505", "0.2525"]);
    // One next act: hands wait until it is made safe.
    walk.shows(Stage::Turn, PathState::Next);
    walk.shows(Stage::Measure, PathState::Current);
    walk.shows(Stage::MakeSafe, PathState::Again);
    walk.go_to(Stage::Turn);
    // Read once only, the piece is to be measured again; the nuts are turned all
    // the same.
    hand::settle(&mut walk.harness, words);
    walk.press(Modifiers::COMMAND, Key::Enter);
    hand::make_safe(&mut walk.harness, words, words.confirm_and_turn());
    assert_eq!(walk.session().passes.len(), 1);
    hand::turn_all(&mut walk.harness, words);
    assert_eq!(walk.session().passes.len(), 2);
    assert!(walk.session().made_safe_now(), "its locks still hang");
    walk.shows(Stage::MakeSafe, PathState::Done);
    walk.shows(Stage::Relace, PathState::Current);
    walk.go_to(Stage::Relace);
    walk.make_safe();
    walk.tick(Stage::Relace);
    assert!(!walk.session().made_safe_now());
    // For the nuts, for the gap with the jaw at full stroke, and to turn.
    let times = walk.session().checklist.marks.iter();
    let times = times.filter(|mark| mark.step == Step::Tried.into() && mark.lapsed);
    assert_eq!(
        times.map(|mark| mark.passes).collect::<Vec<_>>(),
        [0, 0, 1],
        "every time is on record"
    );

    walk.click(Role::Button, &words.piece_is_laced(2));
    walk.read(["0.2500", "0.2505", "0.2510", "0.2515"]);
    walk.shows(Stage::Turn, PathState::Recorded);
    walk.shows(Stage::CloseOut, PathState::Next);
    walk.shows(Stage::MakeSafe, PathState::Current);
    walk.go_to(Stage::CloseOut);
    // Hands go to the nuts once more: it can be made safe from here.
    walk.make_safe();
    assert!(walk.session().made_safe_now());
    walk.tick(Stage::CloseOut);
    walk.shows(Stage::CloseOut, PathState::Done);
    assert_eq!(walk.session().current_stage(), None);

    // The record keeps all of it.
    let text = session_text(walk.session()).unwrap();
    assert_eq!(&session_from_text(&text).unwrap(), walk.session());
    walk.click(Role::Button, words.command_save());
    // The dialog comes from another thread.
    for _ in 0..300 {
        if walk
            .harness
            .query_by_label(words.folder_of_file())
            .is_some()
        {
            break;
        }
        std::thread::sleep(std::time::Duration::from_millis(10));
        walk.harness.step();
    }
    walk.harness.get_by_label(words.folder_of_file());
}

#[test]
fn a_whole_visit_in_english() {
    whole_visit(Language::English);
}

#[test]
fn a_whole_visit_in_spanish() {
    whole_visit(Language::Spanish);
}

#[test]
fn the_window_opens_on_the_main_job_where_there_are_readings() {
    let folder = tempfile::tempdir().unwrap();
    let harness = window(folder.path());
    harness.get_by_label("What to do");
    assert!(
        harness
            .query_by_role_and_label(Role::CheckBox, "Lock out every supply and hang your tag")
            .is_none()
    );
}

#[test]
fn a_stage_by_keyboard_alone() {
    let folder = tempfile::tempdir().unwrap();
    let mut walk = Walk {
        harness: window(folder.path()),
        words: Language::English,
    };
    let tab_to = |walk: &mut Walk, role, label: &str| {
        for _ in 0..60 {
            let node = walk.harness.get_by_role_and_label(role, label);
            if node.is_focused() {
                return;
            }
            walk.press(Modifiers::NONE, Key::Tab);
        }
        panic!("the keyboard does not reach {label}");
    };
    hand::settle(&mut walk.harness, walk.words);
    tab_to(&mut walk, Role::Tab, "Make safe: again");
    walk.press(Modifiers::NONE, Key::Enter);
    // Whoever makes it safe signs first.
    tab_to(&mut walk, Role::TextInput, "Who");
    walk.harness
        .get_by_role_and_label(Role::TextInput, "Who")
        .type_text("Ann");
    walk.harness.run_steps(2);
    // Tab goes on to each step, its note and the next.
    let of_nuts = |step: &Step| step.is_asked_of(Hands::TurnNuts);
    for step in Stage::MakeSafe.steps().filter(of_nuts) {
        let text = walk.figures().step(step).text;
        tab_to(&mut walk, Role::CheckBox, &text);
        walk.press(Modifiers::NONE, Key::Space);
        assert!(walk.session().checklist.mark(step.into()).is_some());
    }
    assert!(walk.session().made_safe_now());
    walk.harness
        .get_by_role_and_label(Role::Tab, "Make safe: now");
    // On to where the work is; the stage between is a key away.
    let confirm = walk.words.confirm_and_turn();
    tab_to(&mut walk, Role::Button, confirm);
    walk.press(Modifiers::COMMAND, Key::PageDown);
    // Left out with a reason.
    walk.press(Modifiers::COMMAND, Key::PageDown);
    let text = walk.figures().step(Step::GapMeasured).text;
    let more = walk.words.more_about(&text);
    tab_to(&mut walk, Role::Button, &more);
    walk.press(Modifiers::NONE, Key::Space);
    walk.type_at(walk.words.note_text(), "set last week");
    let leave_out = walk.words.leave_out();
    tab_to(&mut walk, Role::Button, leave_out);
    walk.press(Modifiers::NONE, Key::Enter);
    let mark = walk.session().checklist.mark(Step::GapMeasured.into());
    assert_eq!(mark.unwrap().note, "set last week");
    // With the shortcuts from stage to stage, and back to the picture.
    walk.press(Modifiers::COMMAND, Key::PageUp);
    walk.press(Modifiers::COMMAND, Key::PageUp);
    walk.harness.get_by_label("1. Make safe");
    walk.press(Modifiers::COMMAND, Key::K);
    assert!(walk.harness.query_by_label("1. Make safe").is_none());
}

#[test]
fn nuts_are_not_brought_back_flush_under_a_measured_piece() {
    let folder = tempfile::tempdir().unwrap();
    let mut walk = Walk {
        harness: window(folder.path()),
        words: Language::English,
    };
    walk.shows(Stage::FreeNuts, PathState::Passed);
    walk.go_to(Stage::FreeNuts);
    let flush = walk.figures().step(Step::NutsFlush).text;
    let asked = walk.harness.query_by_role_and_label(Role::CheckBox, &flush);
    assert!(asked.is_none());
    let not_now = walk
        .words
        .flush_not_now(1, "A\u{a0}-4, B\u{a0}-4, C\u{a0}-4, D\u{a0}-4");
    walk.harness.get_by_label(&not_now);
    // Nor is the gap made even; the way on is where the work is.
    walk.go_to(Stage::CoarseGap);
    walk.harness.get_by_label(&not_now);
    let next = walk.words.next_stage(walk.words.stage(Stage::Turn));
    let safe = walk.words.make_safe_now();
    let right = |label: &str| {
        let button = walk.harness.get_by_role_and_label(Role::Button, label);
        button.rect().right()
    };
    assert!(right(safe) < right(&next), "what leads on stands right");
    // Nor do later stages nag about it.
    walk.go_to(Stage::Turn);
    walk.press(Modifiers::COMMAND, Key::K);
    let nagged = walk.harness.query_by_label_contains("Still to do");
    assert!(nagged.is_none());
}

#[test]
fn a_shop_changes_its_steps() {
    let folder = tempfile::tempdir().unwrap();
    let mut walk = Walk {
        harness: window(folder.path()),
        words: Language::English,
    };
    walk.go_to(Stage::CloseOut);
    let record = walk.figures().step(Step::RecordFiled).text;
    walk.click(Role::Button, &walk.words.more_about(&record));
    walk.click(Role::Button, "Hide this step");
    assert_eq!(
        walk.session().checklist.hidden,
        [StepId::Fixed(Step::RecordFiled)]
    );
    let opener = walk.harness.get_by_label("Change the steps");
    opener.click();
    walk.harness.run_steps(20);
    walk.click(Role::Button, &walk.words.bring_back(&record));
    assert_eq!(walk.session().checklist.hidden, []);
    walk.type_at("A step of your own", "Call the foreman");
    walk.click(Role::Button, "Add it");
    walk.click(Role::CheckBox, "Call the foreman");
    assert!(walk.session().checklist.mark(StepId::Own(0)).is_some());
    // No hiding of what isolates energy.
    walk.go_to(Stage::MakeSafe);
    let tried = walk.figures().step(Step::Tried).text;
    walk.click(Role::Button, &walk.words.more_about(&tried));
    assert!(walk.harness.query_by_label("Hide this step").is_none());
}

#[test]
fn a_hint_does_not_lie_over_what_scrolls_under_a_still_pointer() {
    let folder = tempfile::tempdir().unwrap();
    let size = [1024.0, 480.0];
    let opening = hand::Opening {
        size,
        ..hand::Opening::default()
    };
    let mut walk = Walk {
        harness: hand::open(folder.path(), opening),
        words: Language::English,
    };
    walk.harness.ctx.all_styles_mut(|style| {
        style.interaction.tooltip_delay = 0.0;
        style.interaction.show_tooltips_only_when_still = false;
    });
    walk.go_to(Stage::MakeSafe);
    let more = |step| walk.words.more_about(&walk.figures().step(step).text);
    let notes = [Step::OthersTold, Step::JawUnloaded].map(more);
    let place = |walk: &Walk, note: &str| {
        let note = walk.harness.get_by_role_and_label(Role::Button, note);
        note.rect().center()
    };
    let [first, second] = notes.each_ref().map(|note| place(&walk, note));
    let said = |walk: &Walk| {
        notes.each_ref().map(|note| {
            let told = walk.harness.query_by_role_and_label(Role::Label, note);
            told.is_some()
        })
    };
    walk.harness.hover_at(first);
    walk.harness.run_steps(6);
    assert_eq!(said(&walk), [true, false]);
    walk.harness.event(egui::Event::MouseWheel {
        unit: egui::MouseWheelUnit::Point,
        delta: first - second,
        phase: egui::TouchPhase::Move,
        source: egui::MouseWheelSource::Wheel,
        modifiers: Modifiers::NONE,
    });
    walk.harness.run_steps(40);
    let under = place(&walk, &notes[1]);
    assert!(
        under.distance(first) < 12.0,
        "it came under the pointer: {under}"
    );
    assert_eq!(said(&walk), [false, false]);
    walk.harness.hover_at(under + egui::vec2(1.0, 0.0));
    walk.harness.run_steps(6);
    assert_eq!(said(&walk), [false, true]);
}

/// A session with something in every part of the list.
fn with_a_full_list() -> Session {
    let mut session = SampleSession::default().session().unwrap();
    let typed = |field, text: &str| Edit::set(field, text, Unit::Inch);
    for edit in [
        Edit::AddStep {
            stage: Stage::CloseOut,
            text: "Call the \"foreman\"".into(),
        },
        Edit::Tick {
            steps: vec![Step::PowerOff.into(), StepId::Own(0)],
            who: "R. Alder".into(),
            when: "2026-11-25 09:40 UTC".into(),
            note: "second feed too".into(),
        },
        Edit::InsertPass { at: 1 },
        Edit::Skip {
            steps: vec![Step::PressureReleased.into()],
            reason: "none on this press".into(),
            who: String::new(),
            when: String::new(),
        },
        Edit::HideStep(Step::Cleaned.into()),
        Edit::HideStep(StepId::Own(0)),
        typed(Field::DriveParts, "2 long chains, “idlers” 3"),
        typed(Field::CoarseGap(ArmIndex(1)), "3.2 mm"),
        typed(Field::CoarseGap(ArmIndex(3)), "1/8"),
    ] {
        session = session.edited(&edit).unwrap();
    }
    session
}

#[test]
fn files_keep_the_list() {
    let session = with_a_full_list();
    let text = session_text(&session).unwrap();
    assert_eq!(session_from_text(&text).unwrap(), session);
    assert!(text.contains("\"own 1\"") && text.contains("\"power off\""));
    assert!(session.checklist.marks.iter().any(|mark| mark.lapsed));
    // A session without any of it says nothing of it.
    let plain = SampleSession::default().session().unwrap();
    assert_eq!(plain.checklist, Checklist::default());
    assert!(!session_text(&plain).unwrap().contains("checklist"));
}

#[test]
fn a_step_of_a_newer_version_is_said_and_not_dropped() {
    let text = session_text(&with_a_full_list()).unwrap();
    let newer = text.replace("\"power off\"", "\"jaw blocked\"");
    let Err(problem) = session_from_text(&newer) else {
        panic!("an unknown step was taken");
    };
    let figures = Figures::exact(Language::English, Unit::Inch);
    let sentence = figures.why_not_opened(&problem);
    assert!(
        sentence.contains("“jaw blocked” is not a step"),
        "{sentence}"
    );
    // A file can no more hide a step that isolates energy than a user can.
    let hidden = text.replace("hidden: [\"cleaned\"", "hidden: [\"tried\"");
    assert_ne!(hidden, text);
    assert!(matches!(
        session_from_text(&hidden),
        Err(OpenProblem::Unsound(_))
    ));
}

#[test]
fn every_step_speaks_both_languages() {
    for step in Step::ALL {
        let [english, spanish] =
            Language::ALL.map(|language| Figures::exact(language, Unit::Inch).step(step));
        for (en, es) in [
            (&*english.text, &*spanish.text),
            (english.why, spanish.why),
            (english.watch, spanish.watch),
        ] {
            assert!(!en.is_empty() && !es.is_empty() && en != es, "{step:?}");
        }
    }
}
