//! Taking readings arm by arm: in large letters, which arm comes next.

use eframe::egui::{
    self, Align, Event, EventFilter, Id, Key, Label, Layout, Modifiers, RichText, ScrollArea,
    TextEdit, Ui, Vec2, WidgetInfo,
};

use crate::session::Edit;
use crate::splice::{Walk, WalkPlace};
use crate::units::{Sign, TypedLength};
use crate::window::action::Action;
use crate::window::commands::Command;
use crate::window::state::guided::{Guided, NotTaken};
use crate::window::theme::{self, TARGET, size};

use crate::window::views::Scene;
use crate::window::views::entry::doubts;
use crate::window::views::entry::grid::{place_cursor, select_all};
use crate::window::views::entry::guided_port::{port, take_gauge_lines};
use crate::window::views::entry::guided_said::{
    before, compared, drift_sentence, finish, news, reading_text,
};
use crate::window::views::entry::guided_strip;
use crate::window::views::entry::keypad;
use crate::window::views::explaining::before_turns::first_in_a_line;
use crate::window::views::explaining::standing;
use crate::window::views::hint::Hint;
use crate::window::views::widgets::{
    button, button_width, centred, choice, hint_of, main_of_width, muted, title, toggle,
};

/// Sizes of the letter, of what is typed and of the keys in a view that is so high
/// at least, from the highest down.
const SIZES: [(f32, [f32; 3]); 3] = [
    (560.0, [168.0, 46.0, 80.0]),
    (400.0, [104.0, size::FIGURE, 60.0]),
    (0.0, [76.0, size::FIGURE * 0.8, TARGET]),
];

/// Most of the width that the whole takes, and that the title leaves to the way.
const BLOCK: f32 = 940.0;
const TITLED: f32 = 860.0;

/// Stations named ahead.
const AHEAD: usize = 3;

/// The button at the readings that opens and leaves this view.
pub fn opener(ui: &mut Ui, scene: &mut Scene<'_>) {
    let words = scene.words();
    let chosen = scene.view.guided.is_some();
    let open = toggle(ui, scene.palette, chosen, words.guided_button());
    let hint = hint_of(ui, words, Command::Guided);
    if open.hint(hint).clicked() {
        scene.ask(if chosen { Action::Close } else { Action::Guide });
    }
}

/// Draws the view, and takes what a gauge sent since the last frame.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>) {
    let Some(mut guided) = scene.view.guided.take() else {
        return;
    };
    // Before the first pass the walk stands there already: the first reading
    // opens it.
    let first = scene.session.passes.is_empty().then_some(0);
    guided.follow(scene.session, scene.outlook.pass.or(first));
    take_gauge_lines(scene, &mut guided);
    theme::card(scene.palette).show(ui, |ui| {
        ui.set_min_size(ui.available_size());
        let height = ui.available_height();
        ScrollArea::vertical()
            .id_salt("guided")
            .auto_shrink(false)
            .show(ui, |ui| contents(ui, scene, &mut guided, height));
    });
    scene.view.guided = Some(guided);
}

fn contents(ui: &mut Ui, scene: &mut Scene<'_>, guided: &mut Guided, height: f32) {
    let words = scene.words();
    let pass = guided.pass.unwrap_or(0);
    ui.horizontal_wrapped(|ui| {
        if ui.available_width() >= TITLED {
            title(ui, &words.guided_title(pass + 1));
            ui.add_space(12.0);
        }
        way(ui, scene, guided, pass);
        port(ui, scene, guided);
    });
    ui.separator();
    // One block in the middle of what is left, as high as it was last time.
    let kept = ui.scope_id().with("block");
    let last: f32 = ui.data(|data| data.get_temp(kept)).unwrap_or_default();
    let free = height - (ui.cursor().top() - ui.min_rect().top()) - last;
    if last > 0.0 {
        ui.add_space((free * 0.42).max(0.0));
    }
    let top = ui.cursor().top();
    let width = ui.available_width().min(BLOCK);
    let before = (ui.available_width() - width) / 2.0;
    ui.horizontal_top(|ui| {
        let gap = std::mem::take(&mut ui.spacing_mut().item_spacing.x);
        ui.add_space(before);
        ui.vertical(|ui| {
            ui.set_width(width);
            ui.spacing_mut().item_spacing.x = gap;
            guided_strip::show(ui, scene, guided);
            ui.add_space(8.0);
            let fitting = SIZES.iter().find(|(least, _)| height >= *least);
            let [.., (_, least)] = SIZES;
            let sizes = fitting.map_or(least, |(_, sizes)| *sizes);
            block(ui, scene, guided, (pass, sizes));
        });
    });
    let now = ui.cursor().top() - top;
    if (now - last).abs() > 0.5 {
        ui.data_mut(|data| data.insert_temp(kept, now));
        ui.ctx().request_repaint();
    }
}

/// What is due, with the keys beside it or below.
fn block(
    ui: &mut Ui,
    scene: &mut Scene<'_>,
    guided: &mut Guided,
    (pass, [letter, typed, key]): (usize, [f32; 3]),
) {
    let reading = |ui: &mut Ui, scene: &mut Scene<'_>, guided: &mut Guided| {
        match guided.due(scene.session) {
            Some(place) => due(ui, scene, guided, place, (letter, typed)),
            None => over(ui, scene, guided, pass),
        }
        doubts::show_of_walk(ui, scene, guided, pass);
    };
    // Once all is read no key has a place to type into.
    if guided.due(scene.session).is_none() {
        ui.vertical_centered(|ui| reading(ui, scene, guided));
        return;
    }
    let keys_wide = (4.0 * key).max(keypad::WIDTH) + 24.0;
    let room = ui.available_width() - keys_wide - BETWEEN;
    if room < READING {
        reading(ui, scene, guided);
        keys(ui, scene, guided, key);
        return;
    }
    ui.horizontal_top(|ui| {
        let gap = std::mem::take(&mut ui.spacing_mut().item_spacing.x);
        ui.allocate_ui_with_layout(
            Vec2::new(room, 0.0),
            Layout::top_down(Align::Center),
            |ui| {
                ui.set_width(room);
                ui.spacing_mut().item_spacing.x = gap;
                reading(ui, scene, guided);
            },
        );
        ui.add_space(BETWEEN);
        ui.vertical(|ui| {
            ui.set_width(keys_wide);
            keys(ui, scene, guided, key);
        });
    });
}

/// What is left between the keys and the reading, and the least that the reading
/// takes beside them.
const BETWEEN: f32 = 28.0;
const READING: f32 = 300.0;

/// The keypad, which types into the field.
fn keys(ui: &mut Ui, scene: &mut Scene<'_>, guided: &mut Guided, high: f32) {
    let next = guided.left(scene.session).get(1).map(|at| at.station);
    let Some(key) = keypad::show(ui, scene, high, next) else {
        return;
    };
    guided.wants_keyboard = true;
    if key == keypad::Key::Next {
        enter(ui, scene, guided);
    } else {
        // What was refused gives way to what is typed next.
        let fresh = guided.complaint.take().is_some();
        guided.typed = keypad::after(&guided.typed, key, fresh);
        place_cursor(ui, field_id(), guided.typed.chars().count());
    }
    ui.ctx().request_repaint();
}

/// Straight or there and back, and how often.
fn way(ui: &mut Ui, scene: &mut Scene<'_>, guided: &mut Guided, pass: usize) {
    let words = scene.words();
    let walk = guided.walk(scene.session);
    for (way, text) in [
        (Walk::Straight, words.guided_straight()),
        (Walk::ThereAndBack, words.guided_there_and_back()),
    ] {
        let choose = choice(ui, scene.palette, walk == way, text);
        if choose.hint(words.guided_way_hint()).clicked() && walk != way {
            scene.ask(Action::Edit(Edit::SetWalk { pass, walk: way }));
            guided.wants_keyboard = true;
        }
    }
    for (mark, name, by) in [
        ("−", words.guided_fewer_rounds(), -1),
        ("+", words.guided_more_rounds(), 1),
    ] {
        let step = ui.add(egui::Button::new(mark).min_size(Vec2::splat(TARGET)));
        step.widget_info(|| WidgetInfo::labeled(egui::Role::Button, true, name));
        if step.hint(name).clicked() {
            guided.change_rounds(scene.session, by);
            guided.wants_keyboard = true;
        }
        if by < 0 {
            ui.label(words.rounds_of_walk(walk, guided.rounds));
        }
    }
}

/// The arm that is due, and beside it the field that takes its reading.
fn due(
    ui: &mut Ui,
    scene: &mut Scene<'_>,
    guided: &mut Guided,
    place: WalkPlace,
    (letter, typed): (f32, f32),
) {
    let words = scene.words();
    let palette = scene.palette;
    let name = scene.session.station_name(place.station);
    let left = guided.left(scene.session);
    let mut line = vec![
        words.guided_repeat(place.repeat + 1),
        words.readings_left(left.len().max(1)),
    ];
    let places = guided.places(scene.session);
    let ahead = places.iter().skip(guided.at + 1).take(AHEAD);
    let ahead: Vec<String> = ahead
        .map(|next| scene.session.station_name(next.station))
        .collect();
    if !ahead.is_empty() {
        line.push(words.guided_then(ahead.join(", ")));
    }
    ui.label(RichText::new(line.join("  ·  ")).font(theme::regular(size::TITLE)));
    let label = words.guided_field(&name, place.repeat + 1);
    ui.horizontal(|ui| {
        // A station between arms has a longer name.
        let room = ui.available_width() * 0.36;
        let letter = letter.min(room / (name.chars().count() as f32 * 0.75));
        let large = RichText::new(&name)
            .font(theme::bold(letter))
            .color(palette.present);
        ui.add_sized([room, letter * 1.1], Label::new(large).selectable(false));
        ui.vertical(|ui| {
            ui.add_space(((letter * 1.1 - field_height(typed)) / 2.0 - 8.0).max(0.0));
            field(ui, scene, guided, (&label, typed));
        });
    });
    if let Some(before) = before(scene, place.station) {
        let bare = scene.figures.unit;
        let typed = TypedLength::parse(&guided.typed, bare, Sign::None).ok();
        let said = compared(scene, before, typed.map(|typed| typed.length()));
        ui.label(RichText::new(said).font(theme::bold(size::BODY)));
    }
    if let Some(reading) = reading_text(scene, place) {
        ui.label(words.guided_stands_here(reading));
    }
    news(ui, scene, guided);
    let buttons = [
        (format!("{} ↓", words.guided_skip()), true),
        (format!("{} ↑", words.guided_back()), guided.at > 0),
        (format!("{} (Esc)", words.guided_stop()), true),
    ];
    match centred(ui, &buttons) {
        Some(0) => guided.skip(scene.session),
        Some(1) => guided.back(),
        Some(_) => scene.ask(Action::Close),
        None => return,
    }
    guided.wants_keyboard = true;
}

fn field_id() -> Id {
    Id::unique("guided reading")
}

/// Whether the field that takes readings has the keyboard.
pub fn has_keyboard(ctx: &egui::Context) -> bool {
    ctx.memory(|memory| memory.has_focus(field_id()))
}

fn field_height(typed: f32) -> f32 {
    typed * 1.3 + 20.0
}

/// The field that takes readings.
fn field(ui: &mut Ui, scene: &mut Scene<'_>, guided: &mut Guided, (label, typed): (&str, f32)) {
    let words = scene.words();
    let id = field_id();
    let nobody = ui.memory(|memory| memory.focused().is_none());
    if scene.view.dialog.is_none() && (guided.wants_keyboard || nobody) {
        ui.memory_mut(|memory| memory.request_focus(id));
    }
    guided.wants_keyboard = false;
    let focused = ui.memory(|memory| memory.has_focus(id));
    let key = focused.then(|| pressed(ui)).flatten();
    let edge = if focused {
        theme::stroke(2.2, scene.palette.present)
    } else {
        theme::stroke(1.0, scene.palette.line)
    };
    let frame = egui::Frame::new()
        .fill(scene.palette.field)
        .stroke(edge)
        .corner_radius(6)
        .inner_margin(egui::Margin::symmetric(10, 6));
    let width = (ui.available_width() - 20.0).min(typed * 8.5);
    let response = TextEdit::singleline(&mut guided.typed)
        .id(id)
        .frame(frame)
        .font(theme::bold(typed))
        .align(egui::Align2::CENTER_CENTER)
        .desired_width(width)
        .min_size(Vec2::new(width, field_height(typed)))
        .event_filter(EventFilter {
            vertical_arrows: true,
            escape: true,
            horizontal_arrows: true,
            tab: false,
        })
        .show(ui)
        .response
        .response;
    let unit = words.unit_plural(scene.figures.unit);
    ui.label(muted(scene.palette, words.guided_bare_number(unit)));
    let label = label.to_owned();
    let value = guided.typed.clone();
    response.widget_info(|| {
        let mut info = WidgetInfo::text_edit(true, &value, &value, "");
        info.label = Some(label.clone());
        info
    });
    obey(ui, scene, guided, key);
}

fn obey(ui: &Ui, scene: &mut Scene<'_>, guided: &mut Guided, key: Option<Key>) {
    match key {
        Some(Key::Enter) => enter(ui, scene, guided),
        Some(Key::ArrowDown) => guided.skip(scene.session),
        Some(Key::ArrowUp) => guided.back(),
        Some(Key::Escape) => scene.ask(Action::Close),
        _ => return,
    }
    ui.ctx().request_repaint();
}

/// Where no arm is due there is no field: what a gauge types all the same is
/// told to have no place.
fn without_field(ui: &Ui, scene: &mut Scene<'_>, guided: &mut Guided) {
    if scene.view.dialog.is_some() || ui.memory(|memory| memory.focused().is_some()) {
        return;
    }
    ui.input(|input| {
        for event in &input.events {
            if let Event::Text(text) = event {
                // What was refused gives way to what is typed next.
                if guided.complaint.take().is_some() {
                    guided.typed.clear();
                }
                guided.typed.push_str(text);
            }
        }
    });
    let key = pressed(ui);
    obey(ui, scene, guided, key);
}

/// The key of this view that was pressed, taken before the field sees it.
fn pressed(ui: &Ui) -> Option<Key> {
    let keys = [Key::Enter, Key::ArrowDown, Key::ArrowUp, Key::Escape];
    ui.input_mut(|input| {
        keys.into_iter()
            .find(|key| input.consume_key(Modifiers::NONE, *key))
    })
}

/// Takes what stands in the field.
fn enter(ui: &Ui, scene: &mut Scene<'_>, guided: &mut Guided) {
    let words = scene.words();
    if guided.typed.trim().is_empty() {
        let Some(place) = guided.due(scene.session) else {
            scene.ask(Action::Close);
            return;
        };
        if reading_text(scene, place).is_some() {
            guided.skip(scene.session);
        } else {
            let name = scene.session.station_name(place.station);
            guided.complaint = Some(words.guided_type_or_skip(name));
        }
        return;
    }
    let text = std::mem::take(&mut guided.typed);
    if !take(scene, guided, &text) {
        // It stays in the field, and what is typed next takes its place.
        select_all(ui, field_id(), &text);
        guided.typed = text;
    }
}

/// Takes a text as the reading that is due; says why not, otherwise.
pub(super) fn take(scene: &mut Scene<'_>, guided: &mut Guided, text: &str) -> bool {
    let words = scene.words();
    let bare = scene.figures.unit;
    let place = guided.due(scene.session).map_or_else(String::new, |place| {
        let name = scene.session.station_name(place.station);
        words.guided_place(name, place.repeat + 1)
    });
    let complaint = match guided.take(scene.session, text, bare) {
        Ok(edit) => {
            // The grid keeps the reading in sight.
            if let Some(place) = guided.taken.last() {
                scene.view.first_repeat = place.repeat.saturating_sub(1);
            }
            scene.ask(Action::Edit(edit));
            return true;
        }
        Err(NotTaken::Length(problem)) => words.length_problem(&place, &problem, bare),
        Err(NotTaken::OutOfBounds(found)) => scene.figures.reading_refused(&place, found),
        Err(NotTaken::NoPlace) => words.guided_no_place(text.trim()),
    };
    guided.complaint = Some(complaint);
    false
}

/// Every place was read or left out.
fn over(ui: &mut Ui, scene: &mut Scene<'_>, guided: &mut Guided, pass: usize) {
    let words = scene.words();
    let left_out = guided.left_out(scene.session);
    let mut names: Vec<String> = left_out
        .iter()
        .map(|place| scene.session.station_name(place.station))
        .collect();
    names.dedup();
    let sentence = if names.is_empty() {
        words.guided_done().to_owned()
    } else {
        words.guided_done_but(names.join(", "))
    };
    ui.label(RichText::new(sentence).font(theme::bold(size::SENTENCE)));
    if let Some(spread) = scene.session.spread_of(pass).filter(|_| names.is_empty()) {
        let tolerance = scene.session.tolerance.length();
        let figures = scene.figures;
        let shown = figures.with_unit(&figures.spread(&spread, tolerance));
        let said = words.spread_and_limit(shown, figures.limit(tolerance));
        ui.label(RichText::new(said).font(theme::bold(size::FIGURE * 0.8)));
        standing::verdict(ui, scene, Vec2::new(PILL, TARGET));
    }
    if let Some(drift) = drift_sentence(scene, pass) {
        ui.label(RichText::new(drift).font(theme::regular(size::SENTENCE)));
    }
    without_field(ui, scene, guided);
    news(ui, scene, guided);
    first_in_a_line(ui, scene);
    ui.add_space(4.0);
    let left_out = (!names.is_empty()).then(|| words.guided_read_left_out().to_owned());
    let one_more = words.guided_one_more().to_owned();
    let back = format!("{} ↑", words.guided_back());
    let others: Vec<String> = [one_more, back].into_iter().chain(left_out).collect();
    let gap = ui.spacing().item_spacing.x;
    let wide = |text: &String| button_width(ui, text, theme::regular(size::BODY)) + gap;
    let all = others.iter().map(wide).sum::<f32>() + FINISH;
    ui.horizontal_wrapped(|ui| {
        ui.add_space(((ui.available_width() - all) / 2.0 - gap).max(0.0));
        for (index, text) in others.into_iter().enumerate() {
            if !button(ui, text).clicked() {
                continue;
            }
            match index {
                0 => guided.change_rounds(scene.session, 1),
                1 => guided.back(),
                _ => guided.go_to_left_out(scene.session),
            }
        }
        let finish = (finish(scene, pass), true);
        if main_of_width(ui, scene.palette, finish, FINISH).clicked() {
            scene.ask(Action::Close);
        }
    });
    if guided.at < guided.places(scene.session).len() {
        guided.wants_keyboard = true;
        ui.ctx().request_repaint();
    }
}

/// Width of the button that ends it, and of the verdict.
const FINISH: f32 = 120.0;
const PILL: f32 = 240.0;
