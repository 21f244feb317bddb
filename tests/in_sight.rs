//! At every size the headline, the recommended row, the main button, the
//! picture and the cautions are in sight without scrolling.

use eframe::egui::{Key, Modifiers, Rect, Role};
use egui_kittest::kittest::{NodeT, Queryable};
use jawtrue::press::ArmIndex;
use jawtrue::session::Session;
use jawtrue::store::SampleSession;
use jawtrue::units::{Sign, TypedLength, Unit};
use jawtrue::words::Language;

#[path = "support/hand.rs"]
mod hand;

use hand::{Opening, Window, open, press, push};

/// Sizes in points: the least window, a display of that size with its desktop's
/// bars, the usual ones, the shop screen of
/// 1366x768 with what its desktop leaves of it, the same at 150 %, and
/// 1920x1080 and 1400x900 at 200 %.
const SIZES: [[f32; 2]; 8] = [
    [1024.0, 640.0],
    [1008.0, 552.0],
    [1400.0, 900.0],
    [1920.0, 1080.0],
    [1350.0, 680.0],
    [900.0, 453.0],
    [960.0, 540.0],
    [700.0, 450.0],
];

fn window(folder: &tempfile::TempDir, words: Language, size: [f32; 2], own: bool) -> Window {
    let mut session = SampleSession::default().session().unwrap();
    session.invented = !own;
    window_of(folder, words, size, &session)
}

fn window_of(
    folder: &tempfile::TempDir,
    words: Language,
    size: [f32; 2],
    session: &Session,
) -> Window {
    let mut harness = open(
        folder.path(),
        Opening {
            size,
            preferences: &hand::speaking(words),
            file: Some(hand::file_of(folder.path(), session)),
        },
    );
    // The file and the advice come from other threads.
    hand::until(&mut harness, "the advice", |harness| {
        let mut rows = harness.query_all_by_role(Role::RadioButton);
        let mut thinking = harness.query_all_by_label(words.thinking());
        rows.next().is_some() && thinking.next().is_none()
    });
    // What was said goes.
    if let Some(dismiss) = harness.query_by_role_and_label(Role::Button, words.dismiss()) {
        dismiss.click();
    }
    harness.run_steps(4);
    harness
}

/// Where something of a role is, of those whose label says this.
fn places(harness: &Window, role: Role, says: &str) -> Vec<Rect> {
    harness
        .query_all_by_role(role)
        .filter(|node| {
            let node = node.accesskit_node();
            let text = node.label().or_else(|| node.value()).unwrap_or_default();
            text.contains(says)
        })
        .map(|node| node.rect())
        .collect()
}

/// Texts and what is painted of them: whole, or cut off.
fn painted(harness: &Window, says: impl Fn(&str) -> bool) -> Vec<(Rect, Rect)> {
    use eframe::egui::Shape;
    fn walk(shape: &Shape, says: &impl Fn(&str) -> bool, found: &mut Vec<Rect>) {
        match shape {
            Shape::Vec(shapes) => shapes.iter().for_each(|shape| walk(shape, says, found)),
            Shape::Text(text) if says(text.galley.text()) => {
                found.push(text.galley.rect.translate(text.pos.to_vec2()));
            }
            _ => {}
        }
    }
    let mut all = Vec::new();
    for clipped in &harness.output().shapes {
        let mut found = Vec::new();
        walk(&clipped.shape, &says, &mut found);
        all.extend(found.into_iter().map(|rect| (rect, clipped.clip_rect)));
    }
    all
}

#[test]
fn what_counts_is_in_sight_at_every_size() {
    let mut faults = Vec::new();
    for words in Language::ALL {
        for (size, own) in SIZES
            .into_iter()
            .flat_map(|size| [(size, true), (size, false)])
        {
            let folder = tempfile::tempdir().unwrap();
            let harness = window(&folder, words, size, own);
            // In points: a large display draws everything larger.
            let screen = harness.ctx.content_rect();
            let mut in_sight = |what: &str, places: &[(Rect, Rect)]| {
                let whole = |(rect, clip): &(Rect, Rect)| {
                    clip.intersect(screen).expand(1.5).contains_rect(*rect)
                };
                if !places.iter().any(whole) {
                    faults.push(format!("{words:?} {size:?} own {own}: {what}: {places:?}"));
                }
            };
            // The headline names the arm that is pinched.
            let headline = match words {
                Language::English => "Arm B",
                Language::Spanish => "El brazo B",
            };
            in_sight(
                "headline",
                &painted(&harness, |text| text.contains(headline)),
            );
            // What is recommended for this sample: three notches out at B.
            let row = words.arm_out(ArmIndex(1), 3);
            in_sight("recommended row", &painted(&harness, |text| text == row));
            in_sight(
                "main button",
                &painted(&harness, |text| text.contains(words.go_and_turn())),
            );
            // From the least window of three columns up, the way to the reasons too.
            if size[0] >= 1024.0 && size[1] >= 640.0 {
                in_sight(
                    "more ways",
                    &painted(&harness, |text| text == words.plan_more()),
                );
            }
            if !own {
                in_sight(
                    "own press",
                    &painted(&harness, |text| text.contains(words.own_press())),
                );
            }
            in_sight(
                "cautions",
                &painted(&harness, |text| text.contains(words.caution_text())),
            );
            if !own {
                in_sight(
                    "example",
                    &painted(&harness, |text| text.contains(words.example_strip())),
                );
            }
            // The chart, of which a screen reader hears the means.
            let says = words.chart_description("A ");
            let says: String = says.split("A ").next().unwrap_or_default().to_owned();
            let chart = places(&harness, Role::Image, says.trim_end());
            if !chart.iter().any(|rect| screen.contains_rect(*rect)) {
                faults.push(format!("{words:?} {size:?} own {own}: chart: {chart:?}"));
            }
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

/// Whether one of the places is painted whole and on the screen.
fn whole(harness: &Window, places: &[(Rect, Rect)]) -> bool {
    let screen = harness.ctx.content_rect();
    let whole =
        |(rect, clip): &(Rect, Rect)| clip.intersect(screen).expand(1.5).contains_rect(*rect);
    places.iter().any(whole)
}

#[test]
fn two_warnings_leave_the_plan_and_the_act_in_sight() {
    for words in Language::ALL {
        let folder = tempfile::tempdir().unwrap();
        let mut session = SampleSession::default().session().unwrap();
        session.invented = false;
        // No limits are known, and a limit this tight is likely to be missed.
        for arm in &mut session.press.arms {
            arm.limits = None;
        }
        session.tolerance = TypedLength::parse("0.0015", Unit::Inch, Sign::None).unwrap();
        let mut harness = window_of(&folder, words, [1008.0, 552.0], &session);
        harness.run_steps(4);
        let warnings = painted(&harness, |text| text.starts_with("⚠ "));
        // With the cautions that stand there always.
        assert!(warnings.len() >= 3, "{words:?}: {warnings:?}");
        for (warning, clip) in &warnings {
            assert!(
                clip.expand(1.5).contains_rect(*warning),
                "{words:?}: {warning:?}"
            );
        }
        let rows: Vec<String> = (1..=6).map(|by| words.arm_out(ArmIndex(1), by)).collect();
        let row = painted(&harness, |text| {
            rows.iter().any(|row| text.starts_with(row))
        });
        assert!(whole(&harness, &row), "{words:?}: {row:?}");
        let act = painted(&harness, |text| text.contains(words.go_and_turn()));
        assert!(whole(&harness, &act), "{words:?}: {act:?}");
    }
}

#[test]
fn every_key_of_the_keypad_is_in_sight_while_a_reading_is_typed() {
    for words in Language::ALL {
        for size in [[1400.0, 900.0], [1024.0, 640.0], [1008.0, 552.0]] {
            let folder = tempfile::tempdir().unwrap();
            let mut harness = window(&folder, words, size, true);
            press(&mut harness, Modifiers::COMMAND, Key::R);
            push(&mut harness, words.keypad());
            press(&mut harness, Modifiers::NONE, Key::Enter);
            let digits = (0..10).map(|digit: u8| digit.to_string());
            let others = [
                words.keypad_back(),
                words.keypad_point(),
                words.keypad_next(),
            ];
            let units = [Unit::Inch, Unit::Millimetre];
            let units = units.map(|unit| words.keypad_unit(words.unit_name(unit)));
            let names = digits.chain(others.map(str::to_owned)).chain(units);
            for name in names {
                let key = harness.get_by_role_and_label(Role::Button, &name);
                let (rect, column) = (key.rect(), harness.get_by_label(words.keypad()).rect());
                let screen = harness.ctx.content_rect();
                assert!(
                    screen.contains_rect(rect),
                    "{size:?} {words:?} {name}: {rect:?}"
                );
                // Nothing lies over it and nothing cuts it off: it is pressed there.
                assert!(rect.top() >= column.bottom(), "{name}: {rect:?} {column:?}");
                let at = rect.shrink(2.0);
                for place in [at.left_top(), at.right_bottom()] {
                    harness.hover_at(place);
                    harness.run_steps(2);
                    let top = harness.ctx.layer_id_at(place);
                    assert_eq!(
                        top.map(|layer| layer.order),
                        Some(eframe::egui::Order::Background)
                    );
                }
            }
            // The cell that is typed into is in sight too.
            let id = harness.ctx.memory(|memory| memory.focused()).unwrap();
            let seen = harness.ctx.read_response(id).unwrap();
            assert!(
                seen.interact_rect.contains_rect(seen.rect.shrink(1.5)),
                "{size:?}"
            );
        }
    }
}

#[test]
fn going_back_by_keyboard_stays_in_sight() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window(&folder, Language::English, [1024.0, 640.0], true);
    press(&mut harness, Modifiers::COMMAND, Key::L);
    for step in 0..30 {
        press(&mut harness, Modifiers::SHIFT, Key::Tab);
        let Some(id) = harness.ctx.memory(|memory| memory.focused()) else {
            panic!("nothing has the keyboard at step {step}");
        };
        let seen = harness.ctx.read_response(id).unwrap();
        let whole = seen.interact_rect.contains_rect(seen.rect.shrink(1.5));
        assert!(whole, "{step}: {:?} of {:?}", seen.interact_rect, seen.rect);
    }
}

/// Where hints are on show, or anything else that lies over the window.
fn hints(harness: &Window) -> Vec<Rect> {
    use eframe::egui::{AreaState, Order};
    let ctx = &harness.ctx;
    let layers: Vec<_> =
        ctx.memory(|memory| memory.areas().visible_layer_ids().into_iter().collect());
    let over = layers
        .into_iter()
        .filter(|layer| layer.order == Order::Tooltip);
    over.filter_map(|layer| AreaState::load(ctx, layer.id))
        .map(|area| area.rect())
        .collect()
}

#[test]
fn no_hint_covers_a_caution_or_the_act() {
    let mut shown = 0;
    for (words, size) in [
        (Language::Spanish, [1024.0, 640.0]),
        (Language::English, [1400.0, 900.0]),
    ] {
        let folder = tempfile::tempdir().unwrap();
        let mut harness = window(&folder, words, size, true);
        // At once, so that each place takes a few frames.
        harness.ctx.all_styles_mut(|style| {
            style.interaction.tooltip_delay = 0.0;
            style.interaction.show_tooltips_only_when_still = false;
        });
        let screen = harness.ctx.content_rect();
        let nodes = harness.root().children_recursive();
        let placed = nodes.filter(|node| node.accesskit_node().raw_bounds().is_some());
        let places: Vec<Rect> = placed.map(|node| node.rect()).collect();
        let kept: Vec<Rect> = painted(&harness, |text| {
            text.contains(words.caution_text()) || text.contains(words.go_and_turn())
        })
        .into_iter()
        .map(|(rect, clip)| rect.intersect(clip))
        .collect();
        assert!(kept.len() >= 2, "{kept:?}");
        for place in places {
            let at = place.intersect(screen).center();
            if !place.is_positive() || !screen.contains(at) {
                continue;
            }
            harness.hover_at(at);
            harness.run_steps(3);
            for hint in hints(&harness) {
                shown += 1;
                let covered = kept.iter().find(|kept| kept.intersects(hint));
                assert_eq!(covered, None, "{words:?} {size:?}: {hint:?} from {place:?}");
            }
        }
    }
    assert!(shown > 20, "{shown} hints");
}
