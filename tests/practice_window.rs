//! Practice in the window, driven by label in both languages: a whole lesson, a
//! whole exercise with its debrief, and what ends one.

use eframe::egui::{Key, Modifiers, Role};
use egui_kittest::kittest::{NodeT, Queryable};
use jawtrue::practice::{Ending, Fault, Finish, Help, Lesson, LessonTopic};
use jawtrue::press::ArmIndex;
use jawtrue::session::Stands;
use jawtrue::units::Unit;
use jawtrue::words::{Figures, Language};

#[path = "support/hand.rs"]
mod hand;

use hand::{
    Opening, Window, click, click_on, focus, make_safe, open, press, push, says, settle, turn_all,
    type_at, until,
};

fn window(folder: &std::path::Path, language: Language) -> Window {
    let code = language.code();
    let preferences = format!("(look: \"light\", language: \"{code}\", unit: Some(\"in\"))");
    open(
        folder,
        Opening {
            preferences: &preferences,
            ..Opening::default()
        },
    )
}

fn ask(harness: &mut Window) {
    press(harness, Modifiers::NONE, Key::F9);
}

/// The same, at the page of an exercise.
fn ask_exercise(harness: &mut Window, words: Language) {
    ask(harness);
    click(harness, Role::Tab, words.practice_exercise());
}

#[test]
fn a_whole_lesson() {
    for words in Language::ALL {
        for topic in LessonTopic::ALL {
            let folder = tempfile::tempdir().unwrap();
            let mut harness = window(folder.path(), words);
            let session = harness.state().session().clone();
            let figures = Figures {
                language: words,
                unit: Unit::Inch,
                step: session.gauge.step.length(),
                limit: Some(session.tolerance.length()),
            };
            let lesson = Lesson::new(topic, &session, Unit::Inch).unwrap();
            ask(&mut harness);
            push(&mut harness, words.lesson_title(topic));
            wait_for(&mut harness, words.lesson_end());
            let steps = lesson.steps.len();
            for (step, number) in lesson.steps.iter().zip(1..) {
                let said = figures.lesson_says(&step.says);
                assert!(harness.query_all_by_label(&said).next().is_some(), "{said}");
                let count = words.lesson_step_of(number, steps);
                assert!(harness.query_by_label(&count).is_some());
                if let Some(points) = figures.lesson_points(&step.says) {
                    assert!(
                        points
                            .iter()
                            .all(|point| harness.query_by_label(point).is_some())
                    );
                }
                if number == 2 && topic != LessonTopic::ReadingTheGauge {
                    // Stop, turn a nut, and go on.
                    // IN left and OUT right, as in the main window.
                    let places = [
                        words.turn_one_in(ArmIndex(0)),
                        words.turn_one_out(ArmIndex(0)),
                    ]
                    .map(|name| harness.get_by_role_and_label(Role::Button, &name).rect());
                    assert!(places[0].center().x < places[1].center().x);
                    let name = words.turn_one_out(ArmIndex(0));
                    push(&mut harness, &name);
                    assert!(harness.query_by_label(words.lesson_own_turns()).is_some());
                    // The same by an arrow key on either of its buttons.
                    let spread = |harness: &Window| -> String {
                        use egui_kittest::kittest::NodeT;
                        let tolerance = words.lesson_spread("", "");
                        let begins = tolerance.split_whitespace().next().unwrap();
                        let all = harness.query_all_by_label_contains(begins);
                        let mut said = all.filter_map(|node| {
                            let node = node.accesskit_node();
                            node.label().or_else(|| node.value())
                        });
                        said.rfind(|said| said.starts_with(begins)).unwrap()
                    };
                    let by_button = spread(&harness);
                    push(&mut harness, words.lesson_as_step());
                    let untouched = spread(&harness);
                    assert_ne!(by_button, untouched);
                    let name = words.turn_one_in(ArmIndex(0));
                    focus(&mut harness, Role::Button, &name);
                    press(&mut harness, Modifiers::NONE, Key::ArrowUp);
                    assert_eq!(spread(&harness), by_button);
                    press(&mut harness, Modifiers::NONE, Key::ArrowDown);
                    assert_eq!(spread(&harness), untouched);
                }
                if number < steps {
                    if number % 2 == 0 {
                        push(&mut harness, words.lesson_next());
                    } else {
                        press(&mut harness, Modifiers::NONE, Key::ArrowRight);
                    }
                }
            }
            press(&mut harness, Modifiers::NONE, Key::ArrowLeft);
            let count = words.lesson_step_of(steps - 1, steps);
            assert!(harness.query_by_label(&count).is_some());
            press(&mut harness, Modifiers::NONE, Key::Escape);
            assert!(harness.query_by_label(words.lesson_end()).is_none());
            // Nothing of it is left in the session, and whoever comes back
            // finds it where it was left.
            assert_eq!(*harness.state().session(), session);
            ask(&mut harness);
            push(&mut harness, words.lesson_title(topic));
            wait_for(&mut harness, &count);
            press(&mut harness, Modifiers::NONE, Key::Home);
            let count = words.lesson_step_of(1, steps);
            assert!(harness.query_by_label(&count).is_some());
        }
    }
}

/// Begins exercise 14 with a name, help at any time.
fn begin(harness: &mut Window, words: Language) {
    ask_exercise(harness, words);
    let number = words.practice_number();
    type_at(harness, number, "4");
    type_at(harness, words.practice_trainee(), "Ana");
    click(harness, Role::RadioButton, words.help_grade(Help::Full));
    push(harness, words.practice_begin());
    harness.run_steps(3);
    assert!(harness.query_by_label(words.practice_mark_long()).is_some());
}

/// Does what is not the next act: it unfolds along the top.
fn at_the_press(harness: &mut Window, words: Language, label: &str) {
    push(harness, words.practice_do());
    push(harness, label);
}

/// Zeroes the gauge and reads every station twice, one act a reading.
fn measure(harness: &mut Window, words: Language) {
    at_the_press(harness, words, words.practice_zero());
    for _ in 0..2 {
        for station in 0..harness.state().session().stations.len() {
            let name = harness.state().session().station_name(station);
            push(harness, &words.practice_read(name));
        }
    }
}

fn wait_for(harness: &mut Window, label: &str) {
    until(harness, label, |harness| says(harness, label));
}

#[test]
fn a_whole_exercise() {
    for words in Language::ALL {
        let folder = tempfile::tempdir().unwrap();
        let mut harness = window(folder.path(), words);
        begin(&mut harness, words);
        for piece in 0..8 {
            measure(&mut harness, words);
            let session = harness.state().session();
            assert_eq!(session.passes.len(), piece + 1);
            let rows = &session.passes[piece].rows;
            assert!(rows.iter().all(|row| row.len() == 2), "{rows:?}");
            if session.gate(piece).stands == Stands::Inside {
                break;
            }
            push(&mut harness, words.practice_see_advice());
            settle(&mut harness, words);
            press(&mut harness, Modifiers::COMMAND, Key::Enter);
            if piece == 0 {
                push(&mut harness, &words.sign_as("Ana"));
            }
            make_safe(&mut harness, words, words.confirm_and_turn());
            // Marked on the turn card too.
            assert!(harness.query_by_label(words.practice_mark_long()).is_some());
            turn_all(&mut harness, words);
        }
        at_the_press(&mut harness, words, words.practice_accept());
        let over = words.practice_over(words.ending(Ending::Accepted));
        wait_for(&mut harness, &over);
        wait_for(&mut harness, words.finish(Finish::JawTrue));
        wait_for(&mut harness, words.practice_decisions());
        // Kept in the practice folder, as a practice file and in the record.
        let kept: Vec<String> = std::fs::read_dir(folder.path().join("practice"))
            .unwrap()
            .map(|entry| entry.unwrap().file_name().to_string_lossy().into_owned())
            .collect();
        assert!(
            kept.iter().any(|name| name.ends_with(".jawlesson")),
            "{kept:?}"
        );
        assert!(
            !kept.iter().any(|name| name.ends_with(".jawtrue")),
            "{kept:?}"
        );
        let record = folder.path().join("practice/practice-record.csv");
        let record = std::fs::read_to_string(record).unwrap();
        assert!(
            record.contains(",Ana,") && record.contains(",true,"),
            "{record}"
        );
        // From the debrief to one's passes and back, to the next exercise, and
        // to the same again.
        let number = |harness: &Window| -> u64 {
            let name = &harness.state().session().press.name;
            name.split(' ').next_back().unwrap().parse().unwrap()
        };
        let (begun, passes) = (number(&harness), harness.state().session().passes.len());
        push(&mut harness, words.practice_look_back());
        assert!(harness.query_by_label(words.practice_decisions()).is_none());
        assert_eq!(harness.state().session().passes.len(), passes);
        push(&mut harness, words.practice_to_debrief());
        wait_for(&mut harness, words.practice_decisions());
        push(&mut harness, words.practice_next_exercise());
        harness.run_steps(3);
        let session = harness.state().session();
        assert_eq!(
            (session.passes.len(), session.notes.who.as_str()),
            (1, "Ana")
        );
        assert_eq!(number(&harness), begun + 1);
        at_the_press(&mut harness, words, words.practice_stop());
        // Nothing was turned: there is nothing of one's own to compare.
        wait_for(&mut harness, words.debrief_nothing());
        assert!(harness.query_by_label(words.debrief_again()).is_none());
        assert!(harness.query_by_label(words.debrief_advised()).is_some());
        push(&mut harness, words.practice_again());
        harness.run_steps(3);
        assert_eq!(number(&harness), begun + 1);
        at_the_press(&mut harness, words, words.practice_stop());
        push(&mut harness, words.practice_leave());
        assert!(harness.query_by_label(words.practice_mark_long()).is_none());
    }
}

#[test]
fn hands_in_before_it_is_made_safe_end_it() {
    let words = Language::English;
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window(folder.path(), words);
    begin(&mut harness, words);
    push(&mut harness, words.practice_do());
    click_on(&mut harness, words.practice_see_to());
    let drive = words.cure(jawtrue::practice::Cure::Drive);
    push(&mut harness, drive);
    let over = words.practice_over(words.ending(Ending::Unsafe));
    wait_for(&mut harness, &over);
    wait_for(&mut harness, words.remark_unsafe());
}

#[test]
fn turning_at_once_before_it_is_made_safe_ends_it() {
    let words = Language::English;
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window(folder.path(), words);
    begin(&mut harness, words);
    // Nothing is turned yet, so there is nothing to turn at once.
    push(&mut harness, words.practice_do());
    assert!(harness.query_by_label(words.practice_turn_now()).is_none());
    press(&mut harness, Modifiers::NONE, Key::Escape);
    // Nor before anything is read.
    let nut_out = words.turn_one_out(jawtrue::press::ArmIndex(0));
    let out = harness.get_by_role_and_label(Role::Button, &nut_out);
    assert!(out.accesskit_node().is_disabled());
    measure(&mut harness, words);
    press(&mut harness, Modifiers::COMMAND, Key::T);
    press(&mut harness, Modifiers::NONE, Key::ArrowUp);
    at_the_press(&mut harness, words, words.practice_turn_now());
    wait_for(
        &mut harness,
        &words.practice_over(words.ending(Ending::Unsafe)),
    );
    wait_for(&mut harness, words.remark_unsafe());
}

#[test]
fn readings_are_acts_and_nothing_is_taken_back() {
    for words in Language::ALL {
        let folder = tempfile::tempdir().unwrap();
        let mut harness = window(folder.path(), words);
        begin(&mut harness, words);
        // No cell is typed into.
        let first = words.reading_label(1, "A");
        assert!(
            harness
                .query_by_role_and_label(Role::TextInput, &first)
                .is_none()
        );
        let reads = |harness: &Window| -> usize {
            let session = harness.state().session();
            session
                .passes
                .last()
                .unwrap()
                .rows
                .iter()
                .map(Vec::len)
                .sum()
        };
        // In any order, and as often as one likes.
        for name in ["B", "B", "A"] {
            push(&mut harness, &words.practice_read(name));
        }
        assert_eq!(reads(&harness), 3);
        for (modifiers, key) in [
            (Modifiers::COMMAND, Key::Z),
            (Modifiers::COMMAND, Key::G),
            (Modifiers::COMMAND, Key::I),
        ] {
            press(&mut harness, modifiers, key);
            assert_eq!(reads(&harness), 3, "{key:?}");
        }
        let said = harness.query_all_by_label_contains(words.practice_by_acts());
        assert!(said.count() > 1, "once in the card and once said");
    }
}

/// The page for trainers tells the fault only to whoever asks for it.
#[test]
fn the_fault_is_told_only_when_asked() {
    let words = Language::English;
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window(folder.path(), words);
    ask_exercise(&mut harness, words);
    let told = |harness: &Window| {
        let says = |fault| {
            harness
                .query_all_by_label_contains(words.fault(fault))
                .count()
                > 0
        };
        Fault::ALL.into_iter().any(says)
    };
    click(&mut harness, Role::Tab, words.practice_trainers());
    assert!(!told(&harness));
    click(&mut harness, Role::Button, words.practice_show_fault());
    assert!(told(&harness));
    click(&mut harness, Role::Tab, words.practice_exercise());
    assert!(!told(&harness));
}

/// A press of the trainer's own is built, handed out by window, and its trainee
/// is asked for a name before it begins.
#[test]
fn a_trainer_hands_out_an_own_press() {
    for words in Language::ALL {
        let folder = tempfile::tempdir().unwrap();
        let mut harness = window(folder.path(), words);
        ask_exercise(&mut harness, words);
        let own = words.practice_own_place();
        type_at(&mut harness, own, "0.2480 0.25l0 0.2490");
        assert!(
            harness.query_all_by_label_contains("0.25l0").count() > 0,
            "told what is wrong"
        );
        press(&mut harness, Modifiers::NONE, Key::Escape);
        ask_exercise(&mut harness, words);
        type_at(&mut harness, own, "0.2480 0.2510 0.2490");
        click(&mut harness, Role::Tab, words.practice_trainers());
        type_at(&mut harness, words.practice_title(), "Monday");
        push(&mut harness, words.practice_hand_out());
        wait_for(&mut harness, "hand-out-");
        let practice = folder.path().join("practice");
        let mut path = None;
        for _ in 0..1_000 {
            let handed = std::fs::read_dir(&practice).into_iter().flatten();
            path = handed
                .map(|entry| entry.unwrap().path())
                .find(|path| path.extension().is_some_and(|ext| ext == "jawlesson"));
            if path.is_some() {
                break;
            }
            std::thread::sleep(std::time::Duration::from_millis(5));
        }
        let mut harness = open(
            folder.path(),
            Opening {
                file: path,
                ..Opening::default()
            },
        );
        wait_for(&mut harness, "Monday");
        assert!(harness.query_by_label(words.practice_mark_long()).is_some());
        // Without a name it does not begin.
        press(&mut harness, Modifiers::NONE, Key::Enter);
        assert!(harness.query_by_label(words.practice_handed()).is_some());
        type_at(&mut harness, words.practice_trainee(), "Ana");
        push(&mut harness, words.practice_begin());
        harness.run_steps(3);
        let session = harness.state().session();
        assert_eq!(session.notes.who, "Ana");
        assert_eq!(session.press.arms.len(), 3);
    }
}

#[test]
fn no_advice_before_it_may_be_seen() {
    let words = Language::English;
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window(folder.path(), words);
    ask_exercise(&mut harness, words);
    click(
        &mut harness,
        Role::RadioButton,
        words.help_grade(Help::AfterGuess),
    );
    push(&mut harness, words.practice_begin());
    measure(&mut harness, words);
    harness.run_steps(10);
    let advised = |harness: &Window| {
        let rows = harness.query_all_by_label_contains("leave as is: spread");
        rows.count() > 0
    };
    std::thread::sleep(std::time::Duration::from_millis(500));
    harness.run_steps(10);
    assert!(!advised(&harness));
    // What turns would do is advice too: not drawn and not said.
    press(&mut harness, Modifiers::COMMAND, Key::T);
    press(&mut harness, Modifiers::NONE, Key::ArrowUp);
    for told in ["These turns would", "too early to say"] {
        let said = harness.query_all_by_label_contains(told);
        assert_eq!(said.count(), 0, "{told}");
    }
    let main = harness.query_all_by_role_and_label(Role::Button, words.go_and_turn());
    assert_eq!(main.count(), 1);
    assert!(
        harness
            .query_by_label(words.practice_see_advice())
            .is_none()
    );
    push(&mut harness, words.practice_guess());
    push(&mut harness, words.practice_see_advice());
    settle(&mut harness, words);
    assert!(advised(&harness));
}
