//! Readings that do not fit and readings that were struck: marked in the
//! grid, explained under it. Nothing is struck but by the user.

use crate::window::state::MarkedCell;
use crate::window::state::StrikeForm;
use crate::window::state::ViewState;
use eframe::egui::{Key, Response, RichText, Shape, Stroke, Ui, Vec2};

use crate::session::{Edit, Field, Session};
use crate::splice::{Cell, Struck};
use crate::window::action::Action;
use crate::window::state::Dialog;
use crate::window::theme;
use crate::words::Language;

use crate::window::views::Scene;
use crate::window::views::hint::Hint;
use crate::window::views::widgets::{button, field, line, main_button, muted, name_text};

/// Marks explained under the grid; the others say why when pointed at.
const MOST_LINES: usize = 3;

/// Side of the mark in a corner of a cell.
const MARK: f32 = 13.0;

/// What the shortcut does to the reading that has the keyboard: strikes it,
/// once who and why are said, or puts it back.
pub fn asked_for(session: &Session, view: &ViewState, words: Language) -> Action {
    let typing = &view.readings;
    let Some(now) = &typing.cells.now else {
        return Action::Complain(words.strike_no_cell().to_owned());
    };
    let place = MarkedCell {
        pass: typing.pass,
        station: now.at.row,
        repeat: now.at.column,
    };
    let reading = session
        .passes
        .get(place.pass)
        .and_then(|pass| pass.cell(place.station, place.repeat).reading());
    if reading.is_some_and(|reading| reading.struck.is_some()) && !now.touched {
        return put_back(place);
    }
    ask(place, view)
}

/// Asks who strikes a reading and why.
pub fn ask(place: MarkedCell, view: &ViewState) -> Action {
    let form = StrikeForm {
        place,
        who: view.signer.trim().to_owned(),
        why: String::new(),
        asked: false,
    };
    Action::Show(Box::new(Dialog::Strike(Box::new(form))))
}

fn put_back(place: MarkedCell) -> Action {
    let MarkedCell {
        pass,
        station,
        repeat,
    } = place;
    Action::Edit(Edit::unstrike((pass, station, repeat)))
}

/// Marks a cell of the grid: a struck one by a line through it, one that does
/// not fit by a corner; either says why when pointed at.
pub fn cell(ui: &Ui, scene: &Scene<'_>, place: MarkedCell, held: &Cell, response: &Response) {
    let palette = scene.palette;
    let struck = held.reading().and_then(|reading| reading.struck.as_ref());
    if let Some(struck) = struck {
        let rect = response.rect;
        let (left, right) = (rect.left() + 9.0, rect.right() - 9.0);
        let stroke = theme::stroke(2.0, palette.ink);
        ui.painter().hline(left..=right, rect.center().y, stroke);
        let text = struck_text(scene, place, held, struck);
        response.clone().hint(text);
    } else if let Some(doubt) = scene.outlook.gate.doubt_at(place.station, place.repeat) {
        corner(ui, scene, response);
        let text = scene
            .figures
            .doubt_sentence(scene.session, place.pass, doubt);
        response.clone().hint(text);
    } else if let Some(kept) = held.reading().and_then(|reading| reading.kept.as_ref()) {
        let name = place_name(scene, place);
        let text = match kept.by.trim() {
            "" => scene.words().kept_by_nobody(name, as_held(scene, held)),
            by => scene.words().kept_as_right(name, as_held(scene, held), by),
        };
        response.clone().hint(text);
    } else if let Some(misfit) = scene.outlook.trust.misfit(place.station, place.repeat) {
        corner(ui, scene, response);
        let text = scene.figures.misfit_sentence(misfit, &names(scene));
        response.clone().hint(text);
    } else if let Some(reading) = held.reading()
        && reading.typed.unit() != scene.figures.unit
    {
        let typed = scene.figures.typed(&reading.typed);
        response.clone().hint(scene.words().typed_as(typed));
    }
}

/// Marks the mean of a station that does not fit the other stations.
pub fn station(ui: &Ui, scene: &Scene<'_>, station: usize, response: &Response) {
    if let Some(misfit) = scene.outlook.trust.misfit_station(station) {
        corner(ui, scene, response);
        let text = scene.figures.misfit_sentence(misfit, &names(scene));
        response.clone().hint(text);
    }
}

/// A filled corner with an exclamation mark's stroke in it.
fn corner(ui: &Ui, scene: &Scene<'_>, response: &Response) {
    let at = response.rect.right_top();
    let points = vec![at, at - Vec2::new(MARK, 0.0), at + Vec2::new(0.0, MARK)];
    let fill = scene.palette.caution;
    let painter = ui.painter();
    painter.add(Shape::convex_polygon(points, fill, Stroke::NONE));
}

fn names<'a>(scene: &'a Scene<'_>) -> impl Fn(usize) -> String + use<'a> {
    let session = scene.session;
    move |station| session.station_name(station)
}

/// The name of a reading's place.
pub fn place_name(scene: &Scene<'_>, place: MarkedCell) -> String {
    let station = scene.session.station_name(place.station);
    scene.words().reading_label(place.repeat + 1, station)
}

/// What stands in a cell, as it was typed.
fn as_held(scene: &Scene<'_>, held: &Cell) -> String {
    let reading = held.reading();
    reading.map_or_else(
        || held.text().to_owned(),
        |reading| scene.figures.typed(&reading.typed),
    )
}

fn struck_text(scene: &Scene<'_>, place: MarkedCell, held: &Cell, struck: &Struck) -> String {
    let name = place_name(scene, place);
    let Struck { by, why } = struck;
    scene
        .words()
        .struck_because(&name, &as_held(scene, held), by, why)
}

/// What does not fit and what was struck, a line each, with what can be done.
pub fn lines(ui: &mut Ui, scene: &mut Scene<'_>, pass: usize) {
    let words = scene.words();
    let outlook = scene.outlook;
    let trust = &outlook.trust;
    for misfit in trust.misfits.iter().take(MOST_LINES) {
        let sentence = scene.figures.misfit_sentence(misfit, &names(scene));
        let text = RichText::new(format!("⚠ {sentence}"));
        ui.label(text.color(scene.palette.caution));
        if let Some(repeat) = misfit.repeat {
            let place = MarkedCell {
                pass,
                station: misfit.station,
                repeat,
            };
            let name = place_name(scene, place);
            if button(ui, words.strike_place(name)).clicked() {
                scene.ask(ask(place, scene.view));
            }
        }
    }
    let more = trust.misfits.len().saturating_sub(MOST_LINES);
    if more > 0 {
        ui.label(muted(scene.palette, words.marks_more(more)));
    }
    let read = scene.session.passes.get(pass);
    for (station, repeat, struck) in &trust.struck {
        let place = MarkedCell {
            pass,
            station: *station,
            repeat: *repeat,
        };
        if let Some(read) = read {
            let held = read.cell(*station, *repeat);
            ui.label(muted(
                scene.palette,
                struck_text(scene, place, held, struck),
            ));
        }
        let name = place_name(scene, place);
        if button(ui, words.struck_put_back(name)).clicked() {
            scene.ask(put_back(place));
        }
    }
}

/// Draws the dialog that asks who strikes a reading and why.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, form: &mut StrikeForm) {
    let words = scene.words();
    let place = form.place;
    let name = place_name(scene, place);
    let read = scene.session.passes.get(place.pass);
    let cell = read.map(|read| read.cell(place.station, place.repeat));
    let counts = cell.is_some_and(|cell| cell.counting().is_some());
    match cell.filter(|_| counts) {
        Some(cell) => ui.label(words.strike_text(name, as_held(scene, cell))),
        None => ui.label(words.strike_nothing(name)),
    };
    let width = ui.available_width() - 20.0;
    field(ui, words.field_who(), &mut form.who, width);
    ui.label(words.strike_why());
    let typed = ui.add(line(&mut form.why, width).hint_text(words.strike_why_hint()));
    name_text(&typed, words.strike_why(), &form.why);
    if !form.asked {
        // A dialog that has just come up keeps the keyboard only once it has
        // been in front for a frame.
        form.asked = typed.has_focus();
        typed.request_focus();
    }
    let entered = typed.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter));
    let ready = counts && !form.why.trim().is_empty();
    let pressed = main_button(ui, scene.palette, words.strike_it(), ready).clicked();
    if ready && (pressed || entered) {
        strike(scene, form);
    }
    if button(ui, words.cancel()).clicked() {
        scene.ask(Action::Close);
    }
}

fn strike(scene: &mut Scene<'_>, form: &StrikeForm) {
    let by = form.who.trim().to_owned();
    if by != scene.session.notes.who && scene.session.notes.who.is_empty() {
        scene.ask(Action::Edit(Edit::set(
            Field::Who,
            by.clone(),
            scene.figures.unit,
        )));
    }
    let MarkedCell {
        pass,
        station,
        repeat,
    } = form.place;
    scene.ask(Action::Edit(Edit::strike(
        (pass, station, repeat),
        Struck {
            by,
            why: form.why.trim().to_owned(),
        },
    )));
    scene.ask(Action::Close);
}
