//! Passes side by side, the crew's view and what-ifs by hand, driven by label
//! and by keyboard.

use std::path::Path;

use eframe::egui::{self, Key, Modifiers, Role};
use egui_kittest::kittest::{NodeT, Queryable};
use jawtrue::session::Session;
use jawtrue::store::{SampleSession, session_from_text, session_text};
use jawtrue::words::Language;

#[path = "support/hand.rs"]
mod hand;

use hand::{
    Opening, Window, click_on, enter_at, file_of, focus, hides, open, press, push, says, wait,
};

fn window_of(folder: &Path, session: &Session, size: [f32; 2]) -> Window {
    let file = Some(file_of(folder, session));
    let mut harness = open(
        folder,
        Opening {
            size,
            file,
            ..Opening::default()
        },
    );
    settle(&mut harness);
    harness
}

fn window(folder: &Path, sample: SampleSession) -> Window {
    window_of(folder, &sample.session().unwrap(), [1400.0, 900.0])
}

/// Lets threads finish and what they found arrive.
fn settle(harness: &mut Window) {
    wait(harness, 40);
    for words in Language::ALL {
        hand::settle(harness, words);
    }
}

fn session(harness: &Window) -> Session {
    harness.state().session().clone()
}

#[test]
fn passes_stand_side_by_side_and_any_two_compare() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window(folder.path(), SampleSession::Taper);
    press(&mut harness, Modifiers::COMMAND, Key::B);
    settle(&mut harness);
    harness.get_by_label("Passes side by side");
    harness.get_by_label("Test pieces laced: 3, measured: 3");
    // Every pass is in the picture, and in its words.
    let picture = harness.get_by_label_contains("Every pass over the jaw: ");
    let words = picture.accesskit_node().label().unwrap_or_default();
    for part in ["1 as found: A 0.2478", "2: A 0.2530", "3 as left: A 0.2563"] {
        assert!(words.contains(part), "{words}");
    }
    // The last two, with what was foretold from the one before.
    harness.get_by_label("Turned between them: A OUT 1.");
    harness.get_by_label("Spread 0.0048″, then 0.0022″.");
    harness.get_by_label_contains("3 predicted");
    harness.get_by_label_contains("Pass 3, spread 0.00225″, predicted ");
    harness.get_by_label_contains("✓ predicted 0.00");
    // As found with as left, chosen by keyboard.
    focus(&mut harness, Role::ComboBox, "First pass compared");
    press(&mut harness, Modifiers::NONE, Key::Enter);
    focus(&mut harness, Role::Button, "1 as found");
    press(&mut harness, Modifiers::NONE, Key::Enter);
    harness.get_by_label("Turned between them: A OUT 3, B OUT 1.");
    harness.get_by_label("Spread 0.0100″, then 0.0022″.");
    harness.get_by_label("+0.0085");
    press(&mut harness, Modifiers::NONE, Key::Escape);
    if harness.query_by_label("Two passes compared").is_some() {
        press(&mut harness, Modifiers::NONE, Key::Escape);
    }
    harness.get_by_label("How it stands");
    push(&mut harness, "Side by side");
    harness.get_by_label("Two passes compared");
    push(&mut harness, "Back to the picture");
    harness.get_by_label("How it stands");
}

#[test]
fn a_correction_is_traced_shown_saved_and_undone() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window(folder.path(), SampleSession::Taper);
    press(&mut harness, Modifiers::ALT, Key::PageUp);
    press(&mut harness, Modifiers::ALT, Key::PageUp);
    enter_at(&mut harness, "Reading 1 at B", "0.2515");
    harness.get_by_label_contains("Pass 1, as found ✎");
    press(&mut harness, Modifiers::COMMAND, Key::B);
    settle(&mut harness);
    let trace = harness.get_by_label_contains("Pass 1, B, reading 1: was 0.2510 in; changed 20");
    let text = trace
        .accesskit_node()
        .value()
        .or(trace.accesskit_node().label());
    assert!(text.unwrap().ends_with("by R. Alder (invented)."));
    let kept = session(&harness);
    assert_eq!(kept.passes[0].corrections.len(), 1);
    let text = session_text(&kept).unwrap();
    assert!(text.contains("corrected_readings: ["), "{text}");
    assert_eq!(session_from_text(&text).unwrap(), kept);
    press(&mut harness, Modifiers::COMMAND, Key::Z);
    assert!(session(&harness).passes[0].corrections.is_empty());
    let gone = harness.query_by_label_contains("Pass 1, B, reading 1");
    assert!(gone.is_none());
}

#[test]
fn side_by_side_speaks_spanish_and_takes_one_pass_or_none() {
    let folder = tempfile::tempdir().unwrap();
    let mut one = SampleSession::Pinched.session().unwrap();
    one.passes.truncate(1);
    let mut none = one.clone();
    none.passes.clear();
    for (session, sentence) in [
        (one, Language::Spanish.side_alone()),
        (none, Language::Spanish.nothing_laced()),
    ] {
        let mut harness = window_of(folder.path(), &session, [1024.0, 640.0]);
        push(&mut harness, "Español");
        press(&mut harness, Modifiers::COMMAND, Key::B);
        settle(&mut harness);
        harness.get_by_label("Pasadas lado a lado");
        harness.get_by_label(sentence);
        std::fs::remove_file(folder.path().join("preferences.ron")).ok();
    }
}

/// What is written on the screen: each text with where it stands.
fn written(harness: &Window) -> Vec<(String, egui::Rect, f32)> {
    fn gather(shape: &egui::Shape, clip: egui::Rect, into: &mut Vec<(String, egui::Rect, f32)>) {
        match shape {
            egui::Shape::Vec(shapes) => {
                for shape in shapes {
                    gather(shape, clip, into);
                }
            }
            egui::Shape::Text(text) => {
                // The height of the lowest capital letter or figure as drawn.
                let lowest = text
                    .galley
                    .rows
                    .iter()
                    .flat_map(|row| &row.glyphs)
                    .filter(|glyph| glyph.chr.is_ascii_uppercase() || glyph.chr.is_ascii_digit())
                    .map(|glyph| glyph.uv_rect.size.y)
                    .fold(f32::INFINITY, f32::min);
                let rect = text.galley.rect.translate(text.pos.to_vec2());
                assert!(
                    clip.expand(1.0).contains_rect(rect),
                    "cut off: {:?} {rect:?} {clip:?}",
                    text.galley.text()
                );
                into.push((text.galley.text().to_owned(), rect, lowest));
            }
            _ => {}
        }
    }
    let mut found = Vec::new();
    for shape in &harness.output().shapes {
        gather(&shape.shape, shape.clip_rect, &mut found);
    }
    found
}

/// Every text is large, whole, on the screen and clear of every other. What the
/// crew acts on is as large as said; which press and step it is, and the scale,
/// a good third of that at least.
///
/// A capital or figure is at least a twentieth of the screen high. Lettering of
/// an inch is reckoned legible at 30 feet (the rule for road signs in the US,
/// Manual on Uniform Traffic Control Devices, section 2A; from memory): ten
/// metres ask for 28 mm, which a screen 560 mm high has, one of 45 inches.
fn can_be_read_across_the_shop(harness: &Window) {
    let texts = written(harness);
    // In points: a large display draws everything larger.
    let screen = harness.ctx.content_rect();
    for (index, (text, rect, letters)) in texts.iter().enumerate() {
        let least = if text.contains('×') || lesser(text) {
            0.3
        } else if text.starts_with('⚠') || text.contains("(invented)") || text.contains("ejemplo")
        {
            0.37
        } else {
            1.0
        };
        assert!(
            *letters >= screen.height() / 20.0 * least,
            "{text:?}: letters {letters} high of {}",
            screen.height()
        );
        assert!(
            screen.contains_rect(*rect),
            "{text:?} beyond the screen: {rect:?}"
        );
        for (other, place, _) in &texts[..index] {
            let over = rect.shrink(1.0).intersect(place.shrink(1.0));
            assert!(
                !over.is_positive(),
                "{text:?} over {other:?}: {rect:?} {place:?}"
            );
        }
    }
}

/// Whether it names a step, a jaw or an end of the spread.
fn lesser(text: &str) -> bool {
    Language::ALL.iter().any(|words| {
        [
            words.crew_as_found(),
            words.crew_as_it_came(),
            words.crew_what_is_wrong(),
            words.crew_what_we_turn(),
            words.crew_what_was_turned(),
            words.crew_as_expected(),
            words.jaw_above(),
            words.moving_jaw(),
            words.thickest(),
            words.thinnest(),
        ]
        .contains(&text)
    }) || text.parse::<usize>().is_ok_and(|number| number < 6)
}

/// A session of twelve arms, far from true.
fn twelve_arms() -> Session {
    let mut text = session_text(&SampleSession::Pinched.session().unwrap()).unwrap();
    let mut session = session_from_text(&text).unwrap();
    text.clear();
    let arm = session.press.arms[0].clone();
    let typed = |inches: f64| {
        let nm = (inches * 25_400_000.0) as i64;
        let length = jawtrue::units::Length::from_nm(nm);
        jawtrue::units::TypedLength::from_length(length, jawtrue::units::Unit::Inch)
    };
    session.press.jaw_length = typed(98.0);
    session.press.arms = (0..12)
        .map(|index| {
            let mut arm = arm.clone();
            arm.position = typed(5.0 + 8.0 * f64::from(index));
            arm
        })
        .collect();
    session.stations = (0..12)
        .map(|index| jawtrue::splice::Station::at_arm(jawtrue::press::ArmIndex(index)))
        .collect();
    session.start_nuts = vec![jawtrue::press::NutPosition(-3); 12];
    let mut pass = jawtrue::session::Pass::unread(session.start_nuts.clone(), 12);
    for (index, row) in pass.rows.iter_mut().enumerate() {
        let reading = typed(0.25 + 0.0015 * ((index * 7) % 12) as f64);
        row.push(jawtrue::splice::Cell::Reading(
            jawtrue::splice::Reading::new(reading),
        ));
    }
    session.passes = vec![pass];
    session.check().unwrap();
    session
}

/// What the step on show is called: which pass, which step.
fn title(harness: &Window, words: Language) -> String {
    let start = words.crew_pass(1, "").replace("1: ", "");
    let tabs = harness.query_all_by_role(Role::Tab);
    let labels = tabs.filter_map(|tab| tab.accesskit_node().label());
    let title = labels.into_iter().find(|label| label.starts_with(&start));
    title.expect("a step on show")
}

/// Share of the screen's height that the picture has.
fn picture_share(harness: &Window, words: Language, size: [f32; 2]) -> f32 {
    let start = words.crew_description("");
    let picture = harness.get_by_label_contains(&start);
    picture.rect().height() / size[1]
}

#[test]
fn the_crew_can_read_it_across_the_shop() {
    // The last is the first at a zoom of 200 %.
    let sizes = [
        [1024.0, 640.0],
        [1400.0, 900.0],
        [3840.0, 2160.0],
        [512.0, 320.0],
    ];
    for session in [
        SampleSession::Taper.session().unwrap(),
        SampleSession::Pinched.session().unwrap(),
        SampleSession::Metric.session().unwrap(),
        twelve_arms(),
    ] {
        for words in Language::ALL {
            let folder = tempfile::tempdir().unwrap();
            let mut harness = open(
                folder.path(),
                Opening {
                    size: sizes[0],
                    preferences: &hand::speaking(words),
                    file: Some(file_of(folder.path(), &session)),
                },
            );
            hand::settle(&mut harness, words);
            press(&mut harness, Modifiers::NONE, Key::F11);
            let mut told = Vec::new();
            // From the last pass back to the first step of the first one.
            loop {
                hand::settle(&mut harness, words);
                can_be_read_across_the_shop(&harness);
                let here = title(&harness, words);
                if told.contains(&here) {
                    break;
                }
                told.push(here.clone());
                for size in &sizes[1..] {
                    harness.set_size((*size).into());
                    harness.run_steps(4);
                    can_be_read_across_the_shop(&harness);
                }
                harness.set_size(sizes[0].into());
                harness.run_steps(4);
                let share = picture_share(&harness, words, sizes[0]);
                let least = if here.ends_with(words.crew_what_is_wrong())
                    || here.ends_with(words.crew_as_expected())
                {
                    2.0 / 3.0
                } else {
                    0.5
                };
                assert!(share >= least, "{here}: {share}");
                press(&mut harness, Modifiers::NONE, Key::ArrowLeft);
            }
            let first = words.crew_pass(1, words.crew_as_found());
            assert_eq!(told.last(), Some(&first), "{told:?}");
            press(&mut harness, Modifiers::NONE, Key::Escape);
            assert!(harness.query_by_label(&first).is_none());
        }
    }
}

#[test]
fn the_crew_is_told_step_by_step_and_then_nothing_moves() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window(folder.path(), SampleSession::Taper);
    harness
        .ctx
        .all_styles_mut(|style| style.animation_time = 0.1);
    press(&mut harness, Modifiers::NONE, Key::F11);
    let exactly = |harness: &Window, text: &str| {
        assert!(harness.query_by_label(text).is_some(), "{text}");
    };
    exactly(&harness, "Pass 3: as it came out");
    harness.get_by_label_contains("True: 0.0100 → 0.002");
    exactly(&harness, "Leave the nuts; pins back in.");
    press(&mut harness, Modifiers::NONE, Key::ArrowLeft);
    settle(&mut harness);
    exactly(&harness, "Pass 2: as expected");
    harness.get_by_label_contains("Expected: ");
    let moving = |harness: &Window| {
        let soon = std::time::Duration::from_millis(100);
        harness
            .output()
            .viewport_output
            .values()
            .any(|view| view.repaint_delay < soon)
    };
    let still_after = |harness: &mut Window, seconds: f32| {
        for _ in 0..(seconds * 4.0) as usize {
            harness.step();
        }
        !moving(harness)
    };
    assert!(still_after(&mut harness, 5.0));
    // Once more, on request.
    press(&mut harness, Modifiers::NONE, Key::Space);
    assert!(moving(&harness));
    assert!(still_after(&mut harness, 5.0));
    push(&mut harness, "Show before and after again");
    assert!(moving(&harness));
    assert!(still_after(&mut harness, 5.0));
    // Where the desktop wants no motion there is none.
    harness
        .ctx
        .all_styles_mut(|style| style.animation_time = 0.0);
    press(&mut harness, Modifiers::NONE, Key::Space);
    assert!(still_after(&mut harness, 0.1));
    push(&mut harness, "Step back");
    exactly(&harness, "Pass 2: what was turned");
    exactly(&harness, "Then turned, in notches: A OUT 1.");
    exactly(&harness, "The jaw is stiff: neighbors move too.");
    press(&mut harness, Modifiers::NONE, Key::ArrowLeft);
    exactly(&harness, "Pass 2: what is wrong");
    // What is wrong is what the turn cures: A is opened because it is thin.
    exactly(&harness, "Thin at A, B.");
    exactly(&harness, "Hooks can cut the belt; it runs crooked.");
    press(&mut harness, Modifiers::NONE, Key::ArrowLeft);
    exactly(&harness, "Pass 2: as it came out");
    exactly(&harness, "Uneven: pinched at A, B.");
    // A click on the picture goes on.
    click_on(&mut harness, "The jaws before and after: ");
    exactly(&harness, "Pass 2: what is wrong");
    push(&mut harness, "Leave the crew view");
    harness.get_by_label("How it stands");
}

/// Turns a nut by its button so many times.
fn turn(harness: &mut Window, label: &str, times: usize) {
    for _ in 0..times {
        click_on(harness, label);
    }
}

/// Unfolds or folds what stands below the first ways to go on.
const MORE: &str = "More ways, and why";

#[test]
fn a_piece_that_passes_offers_no_nut_until_somebody_asks() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window(folder.path(), SampleSession::Taper);
    let nut = |harness: &Window| harness.query_by_label_contains("Castle nut A").is_some();
    assert!(!nut(&harness));
    harness.get_by_label("From 0.0100 to 0.0022: inside 0.003″.");
    harness.get_by_label("Notches turned before pass 2: A OUT 2, B OUT 1; pass 3: A OUT 1.");
    click_on(&mut harness, MORE);
    assert!(nut(&harness));
    click_on(&mut harness, MORE);
    assert!(!nut(&harness));
    // Whoever goes to the nuts asks as well.
    press(&mut harness, Modifiers::COMMAND, Key::T);
    settle(&mut harness);
    assert!(nut(&harness));
}

#[test]
fn what_a_notch_does_is_said_to_be_assumed_until_a_turn_shows_it() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window(folder.path(), SampleSession::Pinched);
    settle(&mut harness);
    assert!(says(
        &harness,
        "0.004″ a notch (all nuts): common practice, no source"
    ));
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window(folder.path(), SampleSession::Taper);
    press(&mut harness, Modifiers::ALT, Key::PageUp);
    settle(&mut harness);
    assert!(!says(&harness, "a notch (all nuts): common practice"));
}

/// Asks for opening and rod load, or no longer.
fn ask_for_care(harness: &mut Window) {
    for label in [MORE, "Show opening and rod load under the nuts", MORE] {
        click_on(harness, label);
    }
}

#[test]
fn turns_are_kept_named_compared_shown_and_thrown_away() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window(folder.path(), SampleSession::Pinched);
    // The plan, by keyboard.
    press(&mut harness, Modifiers::COMMAND, Key::E);
    assert!(says(&harness, "; 1: plan"));
    // The same once more is not kept twice.
    press(&mut harness, Modifiers::COMMAND, Key::E);
    assert!(says(&harness, "These turns are already kept: 1: plan"));
    // One nut only, under the name suggested, by the button.
    turn(&mut harness, "Turn B in one notch", 1);
    settle(&mut harness);
    // It stands below the ways to go on.
    let keep = "Keep the turns shown to compare";
    push(&mut harness, keep);
    assert!(says(&harness, "; 2: only nut B"));
    // And under a name that is typed.
    turn(&mut harness, "Turn D in one notch", 1);
    click_on(&mut harness, MORE);
    enter_at(&mut harness, "Name of the turns to keep", "what Ana said");
    let row = "; 3: what Ana said";
    assert!(says(&harness, row));
    // Each with its spread and chance, beside the plan's own.
    for name in ["; The plan", "; 1: plan", "; 2: only nut B", row] {
        let row = harness
            .get_all_by_role(Role::RadioButton)
            .find_map(|node| {
                let label = node.accesskit_node().label()?;
                label.ends_with(name).then_some(label)
            })
            .unwrap();
        assert!(row.contains(": spread 0.00") && row.contains('%'), "{row}");
    }
    // Shown again, without a change of the session.
    let kept = "; 2: only nut B";
    click_on(&mut harness, kept);
    harness.get_by_label_contains("Castle nut B: OUT 2 notches");
    harness.get_by_label_contains("Castle nut D: leave");
    push(&mut harness, "Discard 3: what Ana said");
    assert!(!says(&harness, row));
    push(&mut harness, "Discard 2: only nut B");
    push(&mut harness, "Discard 1: plan");
    assert!(!says(&harness, "Kept to compare"));
    assert_eq!(session(&harness), SampleSession::Pinched.session().unwrap());
}

/// The pinched sample with an opening margin measured at B.
fn with_margin() -> Session {
    let mut session = SampleSession::Pinched.session().unwrap();
    let typed = |text: &str| {
        let sign = jawtrue::units::Sign::None;
        jawtrue::units::TypedLength::parse(text, jawtrue::units::Unit::Inch, sign).unwrap()
    };
    session.press.arms[1].opening_margin = Some(typed("0.010"));
    session
}

#[test]
fn opening_and_rod_load_follow_the_nuts() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window_of(folder.path(), &with_margin(), [1400.0, 900.0]);
    click_on(&mut harness, "leave as is: spread");
    let care = |harness: &Window, arm: &str| {
        let label = format!("Arm {arm}: opening margin left ");
        let node = harness.get_by_label_contains(&label);
        let node = node.accesskit_node();
        node.value().or(node.label()).unwrap()
    };
    let shown = |harness: &Window| {
        let care = harness.query_by_label_contains("Arm A: opening margin left ");
        care.is_some()
    };
    // Nothing to heed, and nobody asked.
    assert!(!shown(&harness));
    ask_for_care(&mut harness);
    assert!(care(&harness, "A").contains("not measured, rod load 2"));
    assert!(care(&harness, "B").contains("left 0.01″"));
    let before = care(&harness, "A");
    turn(&mut harness, "Turn B in one notch", 1);
    assert!(care(&harness, "B").contains("left 0.006″"));
    assert_ne!(before, care(&harness, "A"));
    turn(&mut harness, "Turn B in one notch", 2);
    // The opening has run out: it is shown unasked.
    ask_for_care(&mut harness);
    assert!(shown(&harness));
    assert!(care(&harness, "B").contains("left ⚠ -0.002″"));
    // A rod that goes slack is named.
    turn(&mut harness, "Turn B out one notch", 9);
    assert!(care(&harness, "B").ends_with("rod load ⚠ slack"));
    harness.get_by_label_contains("Calculated slack: rod B.");
}

#[test]
fn turns_that_cannot_be_made_are_shown_and_refused() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window_of(folder.path(), &with_margin(), [1400.0, 900.0]);
    click_on(&mut harness, "leave as is: spread");
    turn(&mut harness, "Turn B in one notch", 3);
    turn(&mut harness, "Turn C out one notch", 5);
    harness.get_by_label_contains("Castle nut C: OUT 5 notches, from -4 to 1");
    harness.get_by_label("⚠ These turns can't be made:");
    let limit = "Nut C would be at 1, past its last safe notch 0: no pin fits through there";
    press(&mut harness, Modifiers::NONE, Key::F11);
    harness.get_by_label("These turns can't be made: B, C would go past the limit.");
    can_be_read_across_the_shop(&harness);
    press(&mut harness, Modifiers::NONE, Key::Escape);
    let opening = "At B the opening would be 0.002″ short: the jaw would not open far enough";
    harness.get_by_label_contains(limit);
    harness.get_by_label_contains(opening);
    for refused in [true, false] {
        press(&mut harness, Modifiers::COMMAND, Key::Enter);
        assert_eq!(session(&harness).passes.len(), 1);
        let parts = ["Nut ", "At B"].map(|part| format!("These turns can't be made: {part}"));
        assert_eq!(parts.iter().any(|part| says(&harness, part)), refused);
        if refused {
            // Within the limits again.
            turn(&mut harness, "Turn B out one notch", 1);
            turn(&mut harness, "Turn C in one notch", 1);
            hides(&harness, "⚠ These turns can't be made:");
            push(&mut harness, "OK");
        }
    }
    // They can be made now, and would do harm: nobody is led to them.
    harness.get_by_label_contains("These turns would not bring it inside.");
}

#[test]
fn side_by_side_fits_a_small_window_and_gives_way_to_what_is_asked() {
    let folder = tempfile::tempdir().unwrap();
    let taper = SampleSession::Taper.session().unwrap();
    let mut harness = window_of(folder.path(), &taper, [640.0, 400.0]);
    press(&mut harness, Modifiers::COMMAND, Key::B);
    settle(&mut harness);
    harness.get_by_label("Test pieces laced: 3, measured: 3");
    let screen = egui::Rect::from_min_size(egui::Pos2::ZERO, egui::vec2(640.0, 400.0));
    for label in ["Back to the picture", "Same average for all"] {
        let place = harness.get_by_label(label).rect();
        assert!(screen.contains_rect(place), "{label}: {place:?}");
        assert!(
            place.height() >= 44.0 || label.starts_with("Same"),
            "{place:?}"
        );
    }
    harness.get_by_label_contains("Every pass over the jaw: ");
    harness.get_by_label("Turned between them: A OUT 1.");
    // Asked for the readings, it makes room.
    press(&mut harness, Modifiers::COMMAND, Key::R);
    assert!(harness.query_by_label("Back to the picture").is_none());
    harness.get_by_label("Reading 1 at A");
}
