//! The window for a screen reader, for keys alone and for a desktop's habits:
//! dialogs, sliders, cells, what is announced, and the ring around what has the
//! keyboard.

use std::path::Path;
use std::sync::{Arc, Mutex};

use eframe::egui::accesskit::{Action, ActionData, ActionRequest, Invalid, Live, TreeId};
use eframe::egui::{
    self, Event, Key, Modifiers, OutputCommand, Rect, Role, Shape, ViewportCommand, ViewportId,
};
use egui_kittest::kittest::{AccessKitNode, NodeT, Queryable};
use jawtrue::session::{Hands, Stage};
use jawtrue::splice::Cell;
use jawtrue::splice::Verdict;
use jawtrue::words::Language;

#[path = "support/contrast.rs"]
mod contrast;
#[path = "support/hand.rs"]
mod hand;

use hand::{Opening, Window, click, open, press, settle};

const WORDS: Language = Language::English;
const NONE: Modifiers = Modifiers::NONE;

fn window(folder: &Path, size: [f32; 2]) -> Window {
    let mut harness = open(
        folder,
        Opening {
            size,
            ..Opening::default()
        },
    );
    settle(&mut harness, WORDS);
    harness
}

/// What has the keyboard, by name.
fn focused(harness: &Window) -> Option<String> {
    let all = harness.root();
    let found = all.children_recursive().find(|node| node.is_focused())?;
    found.accesskit_node().label()
}

/// What a screen reader asks of something.
fn ask(harness: &mut Window, id: u64, action: Action, data: Option<ActionData>) {
    harness.event(Event::AccessKitActionRequest(ActionRequest {
        action,
        target_tree: TreeId::ROOT,
        target_node: id.into(),
        data,
    }));
    harness.run_steps(4);
}

/// The number by which a screen reader knows something.
fn id_of(node: AccessKitNode<'_>) -> u64 {
    let (id, _) = node.locate();
    id.0
}

fn cell(harness: &Window) -> AccessKitNode<'_> {
    // The first reading at the second arm.
    harness
        .get_by_role_and_label(Role::TextInput, "Reading 1 at B")
        .accesskit_node()
}

#[test]
fn a_dialog_is_named_has_the_keyboard_and_gives_it_back() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window(folder.path(), [1400.0, 900.0]);
    let ctrl = Modifiers::COMMAND;
    press(&mut harness, ctrl, Key::R);
    let reading = focused(&harness).unwrap();
    assert_eq!(reading, WORDS.reading_label(1, "A"));
    // What each is called, and what has the keyboard in it first.
    for (modifiers, key, name, first) in [
        (
            ctrl,
            Key::Comma,
            WORDS.command_properties(),
            "Name of the press",
        ),
        (ctrl, Key::G, WORDS.gauge_title(), "Kind: Digital caliper"),
        (NONE, Key::F1, WORDS.command_help(), WORDS.help_way()),
        (ctrl, Key::M, WORDS.command_messages(), WORDS.close()),
        (ctrl, Key::N, WORDS.command_new(), "Name of the press"),
        (ctrl, Key::Enter, WORDS.made_safe_title(), "Who"),
    ] {
        press(&mut harness, modifiers, key);
        harness.run_steps(4);
        let dialog = harness.get_by_role_and_label(Role::Dialog, name);
        assert!(dialog.accesskit_node().is_modal(), "{name}");
        let inside = dialog
            .children_recursive()
            .find(|node| node.is_focused())
            .unwrap_or_else(|| panic!("{name}: nothing in it has the keyboard"));
        let node = inside.accesskit_node();
        let label = node.label().unwrap_or_default();
        assert_eq!(label, first, "{name}");
        press(&mut harness, NONE, Key::Escape);
        harness.run_steps(6);
        assert!(harness.query_by_role(Role::Dialog).is_none(), "{name}");
        assert_eq!(focused(&harness).as_deref(), Some(&*reading), "{name}");
    }
}

#[test]
fn behind_a_dialog_nothing_can_be_pressed() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window(folder.path(), [1400.0, 900.0]);
    let millimetres = |harness: &Window| {
        id_of(
            harness
                .get_by_role_and_label(Role::Button, "mm")
                .accesskit_node(),
        )
    };
    let id = millimetres(&harness);
    let shown = |harness: &Window| cell(harness).value().unwrap();
    let before = shown(&harness);
    press(&mut harness, NONE, Key::F1);
    ask(&mut harness, id, Action::Click, None);
    press(&mut harness, NONE, Key::Escape);
    harness.run_steps(4);
    assert_eq!(shown(&harness), before);
    // With nothing in front it can.
    ask(&mut harness, id, Action::Click, None);
    assert_ne!(shown(&harness), before);
}

#[test]
fn help_scrolls_by_keys() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window(folder.path(), [1024.0, 640.0]);
    press(&mut harness, NONE, Key::F1);
    harness.run_steps(4);
    // The parts have the keyboard, and lead on.
    assert_eq!(focused(&harness).as_deref(), Some(WORDS.help_way()));
    for _ in 0..2 {
        press(&mut harness, NONE, Key::Tab);
    }
    assert_eq!(focused(&harness).as_deref(), Some(WORDS.glossary_title()));
    press(&mut harness, NONE, Key::Enter);
    harness.run_steps(4);
    let first = WORDS.glossary()[0].meaning;
    let top = |harness: &Window| {
        let texts = harness.query_all_by_role(Role::Label);
        let mut found =
            texts.filter(|node| node.accesskit_node().value().as_deref() == Some(first));
        found.next().unwrap().rect().top()
    };
    let start = top(&harness);
    let mut last = start;
    for (key, down) in [
        (Key::ArrowDown, true),
        (Key::PageDown, true),
        (Key::PageUp, false),
        (Key::End, true),
        (Key::ArrowUp, false),
    ] {
        press(&mut harness, NONE, key);
        let now = top(&harness);
        assert_eq!(now < last, down, "{key:?}: {last} to {now}");
        last = now;
    }
    // From the very beginning to the words again.
    press(&mut harness, NONE, Key::Home);
    assert!(top(&harness) > last);
    press(&mut harness, NONE, Key::Enter);
    harness.run_steps(4);
    assert!((top(&harness) - start).abs() < 0.5);
    // Whatever the keys do, the parts keep the keyboard.
    assert_eq!(focused(&harness).as_deref(), Some(WORDS.glossary_title()));
    press(&mut harness, NONE, Key::Tab);
    press(&mut harness, NONE, Key::Enter);
    harness.run_steps(4);
    assert_eq!(focused(&harness).as_deref(), Some(WORDS.shortcuts()));
    // One page: the words stand above what was leapt to.
    assert!(top(&harness) < start);
}

#[test]
fn the_question_before_hands_go_in_shows_every_step_in_a_low_window() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window(folder.path(), [1024.0, 640.0]);
    press(&mut harness, Modifiers::COMMAND, Key::Enter);
    harness.run_steps(6);
    let steps = |harness: &Window| -> Vec<Rect> {
        let dialog = harness.get_by_role_and_label(Role::Dialog, WORDS.made_safe_title());
        let steps = dialog
            .children_recursive()
            .filter(|node| node.accesskit_node().role() == Role::CheckBox);
        steps.map(|node| node.rect()).collect()
    };
    let asked = steps(&harness).len();
    let of_nuts = Stage::MakeSafe.steps();
    let of_nuts = of_nuts.filter(|step| step.is_asked_of(Hands::TurnNuts));
    assert_eq!(asked, of_nuts.count());
    for step in 0..asked {
        harness
            .get_by_role_and_label(Role::Dialog, WORDS.made_safe_title())
            .children_recursive()
            .filter(|node| node.accesskit_node().role() == Role::CheckBox)
            .nth(step)
            .unwrap()
            .scroll_to_me();
        harness.run_steps(4);
        // Nothing of what stands below covers it, and that is always there.
        let cautions = WORDS.cautions_of(Stage::Turn);
        let manual = harness.get_by_label_contains(&cautions).rect();
        let act = harness.get_by_role_and_label(Role::Button, WORDS.confirm_and_turn());
        let seen = steps(&harness)[step];
        assert!(
            0.0 <= seen.top() && seen.bottom() <= manual.top(),
            "{seen:?}"
        );
        assert!(manual.bottom() <= act.rect().top() && act.rect().bottom() <= 640.0);
    }
}

#[test]
fn a_nut_is_a_slider_that_can_be_set() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window(folder.path(), [1400.0, 900.0]);
    let nut = |harness: &Window| {
        let nuts = harness.query_all_by_role(Role::Slider);
        let nuts: Vec<AccessKitNode<'_>> = nuts.map(|node| node.accesskit_node()).collect();
        let nut = nuts[1];
        let data = nut.data();
        let ends = [data.min_numeric_value(), data.max_numeric_value()];
        let step = data.numeric_value_step();
        let said = nut.value().unwrap_or_default();
        (id_of(nut), nut.numeric_value(), ends, step, said)
    };
    let (id, now, ends, step, said) = nut(&harness);
    // The sample's limits are -12 from flush and flush; its nuts stand at -4, and
    // three notches out are advised at B.
    assert_eq!(ends, [Some(-12.0), Some(0.0)]);
    assert_eq!((now, step), (Some(-1.0), Some(1.0)));
    assert!(said.contains("OUT 3"), "{said}");
    ask(
        &mut harness,
        id,
        Action::SetValue,
        Some(ActionData::NumericValue(-6.2)),
    );
    let (_, now, _, _, said) = nut(&harness);
    assert_eq!(now, Some(-6.0));
    assert!(said.contains("IN 2"), "{said}");
    // Beyond its end it stops there; a screen reader may write the number.
    ask(
        &mut harness,
        id,
        Action::SetValue,
        Some(ActionData::Value("40".into())),
    );
    assert_eq!(nut(&harness).1, Some(0.0));
    ask(&mut harness, id, Action::Decrement, None);
    assert_eq!(nut(&harness).1, Some(-1.0));
}

#[test]
fn a_cell_can_be_set_and_says_what_it_cannot_read() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window(folder.path(), [1400.0, 900.0]);
    let id = id_of(cell(&harness));
    let held = |harness: &Window| harness.state().session().passes[0].cell(1, 0).clone();
    ask(
        &mut harness,
        id,
        Action::SetValue,
        Some(ActionData::Value("0.2465".into())),
    );
    let Cell::Reading(reading) = held(&harness) else {
        panic!("no reading")
    };
    assert_eq!(reading.typed.text(), "0.2465 in");
    assert_ne!(cell(&harness).data().invalid(), Some(Invalid::True));
    ask(
        &mut harness,
        id,
        Action::SetValue,
        Some(ActionData::Value("abc".into())),
    );
    assert!(matches!(held(&harness), Cell::Unreadable(_)));
    assert_eq!(cell(&harness).data().invalid(), Some(Invalid::True));
    // Fields of a form are taken when they are set.
    press(&mut harness, Modifiers::COMMAND, Key::Comma);
    click(&mut harness, Role::Tab, WORDS.part_visit());
    let who = harness.get_by_role_and_label(Role::TextInput, WORDS.field_who());
    let who = id_of(who.accesskit_node());
    ask(
        &mut harness,
        who,
        Action::SetValue,
        Some(ActionData::Value("N. N.".into())),
    );
    assert_eq!(harness.state().session().notes.who, "N. N.");
}

#[test]
fn verdict_plan_and_messages_are_announced() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window(folder.path(), [1400.0, 900.0]);
    let said = |harness: &Window| -> Vec<String> {
        let all = harness.root();
        let live = all
            .children_recursive()
            .map(|node| node.accesskit_node())
            .filter(|node| node.data().live() == Some(Live::Polite));
        live.filter_map(|node| node.label().or_else(|| node.value()))
            .collect()
    };
    let at_first = said(&harness);
    for part in [
        "Arm B is pinched",
        WORDS.verdict(Verdict::Outside),
        "B OUT 3",
    ] {
        let found = at_first.iter().any(|text| text.contains(part));
        assert!(found, "{part}: {at_first:?}");
    }
    harness.get_by_label(WORDS.plan_more()).click();
    harness.run_steps(4);
    click(&mut harness, Role::Button, WORDS.copy_plan());
    let now = said(&harness);
    let copied = now.iter().any(|text| text.contains(WORDS.said_copied()));
    assert!(copied, "{now:?}");
    assert_eq!(
        harness.root().accesskit_node().label().as_deref(),
        Some("Jawtrue")
    );
}

/// What the program told the desktop, frame by frame.
#[derive(Clone, Default)]
struct Told(Arc<Mutex<(bool, bool)>>);

impl egui::Plugin for Told {
    fn debug_name(&self) -> &'static str {
        "told"
    }

    fn output_hook(&mut self, _ctx: &egui::Context, output: &mut egui::FullOutput) {
        let mut told = self.0.lock().unwrap();
        let settled =
            |command: &OutputCommand| matches!(command, OutputCommand::TextSelectionSettled(_));
        told.0 |= output.platform_output.commands.iter().any(settled);
        let root = output.viewport_output.get(&ViewportId::ROOT);
        told.1 |= root.is_some_and(|root| root.commands.contains(&ViewportCommand::RequestPaste));
    }
}

impl Told {
    /// Whether a marked text, and a wish to paste, was told since last asked.
    fn since(&self) -> (bool, bool) {
        std::mem::take(&mut *self.0.lock().unwrap())
    }
}

#[test]
fn shift_insert_pastes_and_going_to_a_cell_leaves_the_middle_button_alone() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window(folder.path(), [1400.0, 900.0]);
    let told = Told::default();
    harness.ctx.add_plugin(told.clone());
    press(&mut harness, Modifiers::COMMAND, Key::R);
    press(&mut harness, NONE, Key::ArrowDown);
    harness
        .get_by_role_and_label(Role::TextInput, "Reading 1 at B")
        .click();
    harness.run_steps(4);
    assert_eq!(told.since(), (false, false));
    // What a hand marks goes there.
    press(&mut harness, NONE, Key::End);
    press(&mut harness, Modifiers::SHIFT, Key::Home);
    assert_eq!(told.since(), (true, false));
    press(&mut harness, Modifiers::SHIFT, Key::Insert);
    assert_eq!(told.since(), (false, true));
    // What the desktop answers goes into the cell.
    harness.event(Event::Paste("0.2490".into()));
    harness.run_steps(2);
    press(&mut harness, NONE, Key::Enter);
    let pass = &harness.state().session().passes[0];
    assert_eq!(pass.cell(1, 0).text(), "0.2490 in");
}

/// Strokes of rectangles around a place, by colour: whole rings only.
fn rings(harness: &Window, around: Rect) -> Vec<egui::Color32> {
    fn walk(shape: &Shape, around: Rect, found: &mut Vec<egui::Color32>) {
        match shape {
            Shape::Vec(shapes) => shapes.iter().for_each(|shape| walk(shape, around, found)),
            Shape::Rect(rect) if rect.stroke.width >= 2.0 && rect.fill.a() == 0 => {
                let outside = rect.rect.contains_rect(around) && rect.rect != around;
                if outside && around.expand(5.0).contains_rect(rect.rect) {
                    found.push(rect.stroke.color);
                }
            }
            _ => {}
        }
    }
    let mut found = Vec::new();
    for clipped in &harness.output().shapes {
        walk(&clipped.shape, around, &mut found);
    }
    found
}

#[test]
fn a_ring_of_two_colours_is_around_whatever_has_the_keyboard() {
    for look in ["light", "dark", "high-contrast"] {
        let folder = tempfile::tempdir().unwrap();
        let preferences = format!("(look: \"{look}\", language: \"en\")");
        let mut harness = open(
            folder.path(),
            Opening {
                preferences: &preferences,
                ..Opening::default()
            },
        );
        settle(&mut harness, WORDS);
        let mut seen = Vec::new();
        for step in 0..60 {
            press(&mut harness, NONE, Key::Tab);
            harness.run_steps(2);
            let Some(id) = harness.ctx.memory(|memory| memory.focused()) else {
                continue;
            };
            let place = harness.ctx.read_response(id).unwrap();
            let inside = place.rect.intersect(place.interact_rect);
            let rings = rings(&harness, inside);
            let name = focused(&harness).unwrap_or_default();
            // A screen reader and a ring find the same things.
            assert!(!name.is_empty(), "{look} {step}: no name");
            let [inner, outer] = rings[..] else {
                panic!("{look} {step} {name}: {rings:?}")
            };
            // WCAG 2.2, 2.4.13: 3 to 1. Whatever it lies on, the one line or the
            // other stands out: they stand out from each other.
            let ratio = contrast::ratio(inner, outer);
            assert!(ratio >= 3.0, "{look} {name}: {ratio}");
            seen.push(name);
        }
        for needed in [
            WORDS.reading_label(1, "A"),
            WORDS.correct_this_pass().to_owned(),
            "B OUT 3".to_owned(),
            "Pass 1".to_owned(),
        ] {
            let found = seen.iter().any(|name| name.contains(&needed));
            assert!(found, "{needed}: {seen:?}");
        }
    }
}

#[test]
fn every_text_stands_out_from_its_ground() {
    if !contrast::has_adapter() {
        assert!(std::env::var_os("CI").is_none(), "no graphics adapter");
        return;
    }
    let mut faults = Vec::new();
    for look in ["light", "dark", "high-contrast"] {
        let folder = tempfile::tempdir().unwrap();
        let preferences = format!("(look: \"{look}\", language: \"en\")");
        let mut harness = open(
            folder.path(),
            Opening {
                preferences: &preferences,
                ..Opening::default()
            },
        );
        settle(&mut harness, WORDS);
        let mut look_at = |harness: &mut Window, what: &str| {
            harness.remove_cursor();
            harness.run_steps(4);
            let found = contrast::faint(harness);
            faults.extend(
                found
                    .into_iter()
                    .map(|fault| format!("{look} {what}: {fault}")),
            );
        };
        look_at(&mut harness, "main");
        for (modifiers, key) in [
            (Modifiers::COMMAND, Key::Comma),
            (Modifiers::COMMAND, Key::G),
            (NONE, Key::F1),
            (Modifiers::COMMAND, Key::Enter),
            (Modifiers::COMMAND, Key::B),
            (Modifiers::COMMAND, Key::K),
            (NONE, Key::F11),
        ] {
            press(&mut harness, modifiers, key);
            look_at(&mut harness, &format!("{key:?}"));
            press(&mut harness, NONE, Key::Escape);
        }
    }
    faults.sort();
    faults.dedup();
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}
