//! Taking readings arm by arm: in large letters, which arm comes next.

use eframe::egui::{
    self, Align, EventFilter, Id, Key, Label, Layout, Modifiers, RichText, ScrollArea, TextEdit,
    Ui, Vec2, WidgetInfo,
};

use crate::session::Edit;
use crate::splice::{Walk, WalkPlace};
use crate::units::{Sign, TypedLength};
use crate::window::action::Action;
use crate::window::commands::Command;
use crate::window::gauge_port::PortEvent;
use crate::window::state::guided::{Guided, NotTaken};
use crate::window::state::{Dialog, PortForm};
use crate::window::theme::{self, TARGET, size};

use crate::window::views::Scene;
use crate::window::views::entry::doubts;
use crate::window::views::entry::grid::{place_cursor, select_all};
use crate::window::views::entry::guided_said::{
    before, compared, drift_sentence, news, reading_text,
};
use crate::window::views::entry::keypad;
use crate::window::views::hint::Hint;
use crate::window::views::widgets::{
    button, centred, choice, hint_of, main_button, muted, title, toggle,
};

/// Size of the arm's letter, least and most.
const LETTER: (f32, f32) = (46.0, 220.0);

/// Height of everything else, and how much of the rest a letter's size takes.
const BESIDES: f32 = 385.0;
const OF_THE_REST: f32 = 0.72;

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
    ui.horizontal(|ui| {
        title(ui, &words.guided_title(pass + 1));
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            port(ui, scene, guided);
        });
    });
    way(ui, scene, guided, pass);
    ui.separator();
    let beside = ui.available_width() >= KEYPAD_BESIDE;
    let room = ui.available_width() - if beside { KEYPAD_ROOM } else { 0.0 };
    let reading = |ui: &mut Ui, scene: &mut Scene<'_>, guided: &mut Guided| {
        match guided.due(scene.session) {
            Some(place) => due(ui, scene, guided, place, height),
            None => over(ui, scene, guided, pass),
        }
        doubts::show_of_walk(ui, scene, guided, pass);
    };
    if beside {
        ui.horizontal_top(|ui| {
            let centred = Layout::top_down(Align::Center);
            let around = (room - READING).max(0.0) / 2.0;
            let room = room.min(READING);
            ui.add_space(around);
            ui.allocate_ui_with_layout(Vec2::new(room, 0.0), centred, |ui| {
                ui.set_width(room);
                reading(ui, scene, guided);
            });
            ui.vertical(|ui| keys(ui, scene, guided));
        });
    } else {
        ui.with_layout(Layout::top_down(Align::Center), |ui| {
            reading(ui, scene, guided);
        });
        keys(ui, scene, guided);
    }
}

/// Width from which the keypad stands beside the reading, and what it takes
/// of it there.
const KEYPAD_BESIDE: f32 = 520.0;
const KEYPAD_ROOM: f32 = keypad::WIDTH + 56.0;
const KEY_HEIGHT: f32 = 64.0;

/// Most of the width that the reading takes: the keys stand close to it.
const READING: f32 = 460.0;

/// The keypad, which types into the field.
fn keys(ui: &mut Ui, scene: &mut Scene<'_>, guided: &mut Guided) {
    let Some(key) = keypad::show(ui, scene, KEY_HEIGHT) else {
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
    ui.horizontal_wrapped(|ui| {
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
    });
}

/// The arm that is due, and the field that takes its reading.
fn due(ui: &mut Ui, scene: &mut Scene<'_>, guided: &mut Guided, place: WalkPlace, height: f32) {
    let words = scene.words();
    let palette = scene.palette;
    let name = scene.session.station_name(place.station);
    let (least, most) = LETTER;
    let letter = ((height - BESIDES) * OF_THE_REST).clamp(least, most);
    // A station between arms has a longer name.
    let fitting = ui.available_width() / (name.chars().count() as f32 * 0.75);
    let mut heading = words.guided_measure_at().to_owned();
    if let Some(arm) = scene
        .session
        .stations
        .get(place.station)
        .and_then(|at| at.arm())
    {
        heading = format!("{heading}: {}", words.from_the_left(arm.0));
    }
    ui.label(muted(palette, heading).size(size::BODY));
    let large = RichText::new(&name)
        .font(theme::bold(letter.min(fitting)))
        .color(palette.present);
    ui.add(Label::new(large).selectable(false));
    let left = guided.left(scene.session);
    let mut line = vec![words.guided_repeat(place.repeat + 1)];
    line.push(words.readings_left(left.len().max(1)));
    let ahead: Vec<String> = guided
        .places(scene.session)
        .iter()
        .skip(guided.at + 1)
        .take(AHEAD)
        .map(|next| scene.session.station_name(next.station))
        .collect();
    if !ahead.is_empty() {
        line.push(words.guided_then(ahead.join(", ")));
    }
    ui.label(RichText::new(line.join("  ·  ")).font(theme::regular(size::SENTENCE)));
    let read = scene
        .outlook
        .pass
        .and_then(|pass| scene.session.passes.get(pass));
    let read = read.map(|pass| scene.figures.readings_of(pass, place.station));
    if let Some(read) = read.filter(|read| !read.is_empty()) {
        ui.label(words.guided_so_far(name.clone(), read));
    }
    let label = words.guided_field(&name, place.repeat + 1);
    field(ui, scene, guided, &label);
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

/// The field that takes readings. It stands there even when no arm is due, so
/// that a gauge which types like a keyboard does not press buttons.
fn field(ui: &mut Ui, scene: &mut Scene<'_>, guided: &mut Guided, label: &str) {
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
    let width = (ui.available_width() - 20.0).min(320.0);
    let response = TextEdit::singleline(&mut guided.typed)
        .id(id)
        .frame(frame)
        .font(theme::bold(size::FIGURE))
        .align(egui::Align2::CENTER_CENTER)
        .desired_width(width)
        .min_size(Vec2::new(width, TARGET + 16.0))
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
    match key {
        Some(Key::Enter) => enter(ui, scene, guided),
        Some(Key::ArrowDown) => guided.skip(scene.session),
        Some(Key::ArrowUp) => guided.back(),
        Some(Key::Escape) => scene.ask(Action::Close),
        _ => return,
    }
    ui.ctx().request_repaint();
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
fn take(scene: &mut Scene<'_>, guided: &mut Guided, text: &str) -> bool {
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

/// Takes what the gauge sent since the last frame.
fn take_gauge_lines(scene: &mut Scene<'_>, guided: &mut Guided) {
    let words = scene.words();
    let Some(port) = &guided.port else { return };
    let name = scene
        .preferences
        .port
        .as_ref()
        .map(|settings| &settings.port);
    let name = name.cloned().unwrap_or_default();
    for event in port.take() {
        match event {
            PortEvent::Opened => {
                guided.port_open = true;
                guided.port_says = None;
            }
            PortEvent::Reading(text) => {
                take(scene, guided, &text);
            }
            PortEvent::Wrong(problem) => {
                guided.complaint = Some(words.gauge_line_problem(&problem));
            }
            PortEvent::NotOpened(problem) => {
                guided.port_says = Some(words.port_not_opened(&name, problem));
            }
            PortEvent::Gone { in_a_line } => {
                guided.port_open = false;
                guided.port_says = Some(if in_a_line {
                    words.port_gone_in_a_line(&name)
                } else {
                    words.port_gone(&name)
                });
            }
        }
    }
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
    ui.add_space(12.0);
    ui.label(RichText::new(sentence).font(theme::bold(size::SENTENCE)));
    if let Some(drift) = drift_sentence(scene, pass) {
        ui.label(RichText::new(drift).font(theme::regular(size::SENTENCE)));
    }
    ui.add_space(6.0);
    let buttons = [
        (words.guided_read_left_out().to_owned(), !names.is_empty()),
        (words.guided_one_more().to_owned(), true),
        (format!("{} ↑", words.guided_back()), true),
    ];
    match centred(ui, &buttons) {
        Some(0) => guided.go_to_left_out(scene.session),
        Some(1) => guided.change_rounds(scene.session, 1),
        Some(_) => guided.back(),
        None => {}
    }
    field(ui, scene, guided, words.guided_field_over());
    news(ui, scene, guided);
    if main_button(ui, scene.palette, words.guided_finish(), true).clicked() {
        scene.ask(Action::Close);
    }
    if guided.at < guided.places(scene.session).len() {
        guided.wants_keyboard = true;
        ui.ctx().request_repaint();
    }
}

/// The way to the settings of the gauge's port.
fn port(ui: &mut Ui, scene: &mut Scene<'_>, guided: &Guided) {
    let words = scene.words();
    let settings = scene.preferences.port.clone().unwrap_or_default();
    if toggle(ui, scene.palette, guided.port_open, words.port_button()).clicked() {
        let form = PortForm::new(settings.clone());
        scene.ask(Action::Show(Box::new(Dialog::GaugePort(Box::new(form)))));
    }
    if guided.port_says.is_some() && button(ui, words.port_listen()).clicked() {
        scene.ask(Action::UsePort(settings));
    }
}
