//! The dialog that imports readings from a CSV file or from pasted text.

use eframe::egui::{self, Button, Grid, RichText, ScrollArea, TextEdit, Ui, Vec2, WidgetInfo};

use crate::splice::{Cell, Doubtful, WhyDoubtful};
use crate::store::{CsvProblem, MOST_PROBLEMS};
use crate::units::{Sign, TypedLength, Unit};
use crate::window::action::Action;
use crate::window::state::import_form::{ColumnRole, ImportForm, Into};
use crate::window::theme::{self, TARGET, size};

use crate::window::views::Scene;
use crate::window::views::dialog_room::{self, Answer, Foot};
use crate::window::views::widgets::{button, choice, muted, strong};

/// Height of what is wrong, before it scrolls.
const WRONG_HEIGHT: f32 = 100.0;

/// Height of what is pasted, before it scrolls.
const PASTED: f32 = 112.0;

/// Height of a line of the preview.
const LINE_HEIGHT: f32 = 22.0;

/// Draws the dialog's contents.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, form: &mut ImportForm) {
    let words = scene.words();
    dialog_room::middle(ui, |ui| {
        first(ui, scene, form);
        source(ui, scene, form);
        // Nobody is asked where nothing goes.
        if form.lines.is_empty() {
            return;
        }
        outcome(ui, scene, form);
        let by_hand = matches!(form.found, Err(CsvProblem::Header(_)));
        if by_hand {
            ui.label(scene.words().import_by_hand());
        }
        if by_hand || form.has_columns() {
            columns(ui, scene, form);
        }
        // Where they go is nobody's question before their unit is settled.
        if form.found.is_ok() && in_other_unit(form, scene).is_none() {
            goes_into(ui, scene, form);
        }
    });
    let import = form.edit(scene.session);
    let other = in_other_unit(form, scene);
    let reread = other.map(|unit| words.import_read_as(words.unit_plural(unit)));
    let take = take(scene, form);
    let foot = Foot {
        leave: Some(words.cancel()),
        main: Some(match &reread {
            Some(reread) => (reread.as_str(), true),
            None => (take.as_str(), import.is_some()),
        }),
    };
    let answer = foot.show(ui, scene.palette, |ui| {
        if form.lines.is_empty() {
            ui.label(muted(scene.palette, words.import_paste_first()));
        } else if form.into.is_none() && other.is_none() {
            ui.label(strong(words.import_say_where()));
        }
    });
    match (answer, other, import) {
        (Some(Answer::Main), Some(unit), _) => {
            form.bare = unit;
            form.read(scene.session);
        }
        (Some(Answer::Main), None, Some((edit, pass))) => {
            scene.ask(Action::Import(Box::new(edit), pass));
        }
        (Some(Answer::Leave), ..) => scene.ask(Action::Close),
        _ => {}
    }
}

/// What will happen to readings, before anything else: those that come, those
/// that go for them, and who is left without.
fn first(ui: &mut Ui, scene: &Scene<'_>, form: &ImportForm) {
    let words = scene.words();
    let caution = |text: String| {
        let text = RichText::new(format!("⚠ {text}")).color(scene.palette.caution);
        text.font(theme::bold(size::BODY))
    };
    if form.lines.is_empty() {
        ui.label(words.import_text());
        return;
    }
    let Some((count, _)) = form.count() else {
        ui.label(strong(words.import_nothing()));
        return;
    };
    if count == 0 {
        ui.label(words.csv_no_reading());
        return;
    }
    let doubts = form.doubts(scene.session);
    if let Some(wrong) = wrong_unit(scene, form, &doubts) {
        ui.label(caution(wrong));
    }
    let mark = if doubts.is_empty() { "✓" } else { "⚠" };
    ui.horizontal_wrapped(|ui| {
        ui.label(strong(format!("{mark} {}", words.readings_found(count))));
        // Before the unit is settled nothing comes or goes.
        if in_other_unit(form, scene).is_some() {
            return;
        }
        if let Some(Into::InPlaceOf(pass)) = form.into {
            let goes = words.import_goes(pass + 1, there(scene, pass));
            ui.label(caution(goes));
        }
        let unread = unread(scene, form);
        if !unread.is_empty() {
            ui.label(caution(words.csv_not_read(unread.join(", "))));
        }
    });
}

/// How many readings a pass has.
fn there(scene: &Scene<'_>, pass: usize) -> usize {
    let read = scene.session.passes.get(pass);
    let cells = read.iter().flat_map(|read| read.rows.iter().flatten());
    cells.filter(|cell| !cell.text().is_empty()).count()
}

/// The stations that are left without a reading: where these go after others,
/// only those that have none there either.
fn unread(scene: &Scene<'_>, form: &ImportForm) -> Vec<String> {
    let after = match form.into {
        Some(Into::After(pass)) => scene.session.passes.get(pass),
        _ => None,
    };
    let has = |station: usize| {
        let row = after.and_then(|pass| pass.rows.get(station));
        row.is_some_and(|row| row.iter().any(|cell| !cell.text().is_empty()))
    };
    let (_, unread) = form.count().unwrap_or_default();
    let unread = unread.into_iter().filter(|station| !has(*station));
    unread.map(|at| scene.session.station_name(at)).collect()
}

/// What the main button does: whoever presses it reads there what is lost.
fn take(scene: &Scene<'_>, form: &ImportForm) -> String {
    /// Stations that are named.
    const MOST: usize = 3;
    let words = scene.words();
    let mut unread = unread(scene, form);
    if unread.len() > MOST {
        unread.truncate(MOST);
        unread.push("…".to_owned());
    }
    let names = unread.join(", ");
    match form.into {
        _ if form.count().is_none_or(|(count, _)| count == 0) => words.import_take().to_owned(),
        Some(Into::InPlaceOf(pass)) if names.is_empty() => words.import_replace(there(scene, pass)),
        Some(Into::InPlaceOf(pass)) => words.import_replace_without(there(scene, pass), names),
        _ if names.is_empty() => words.import_take().to_owned(),
        _ => words.import_without(names),
    }
}

/// The file, or the field to paste into.
fn source(ui: &mut Ui, scene: &mut Scene<'_>, form: &mut ImportForm) {
    let words = scene.words();
    ui.horizontal_wrapped(|ui| {
        if button(ui, words.import_choose()).clicked() {
            scene.ask(Action::ChooseReadings);
        }
        if let Some(file) = &form.file {
            ui.label(strong(file));
        }
        ui.add_space(12.0);
        units(ui, scene, form);
    });
    if let Some(why) = &form.refused {
        ui.label(RichText::new(format!("⚠ {why}")).color(scene.palette.caution));
    }
    if form.file.is_some() && form.refused.is_none() {
        return;
    }
    let label = ui.label(words.import_paste());
    let any = match scene.figures.unit {
        Unit::Inch => "0.1111 0.1112",
        Unit::Millimetre => "2.82 2.83",
    };
    let stations = 0..scene.session.stations.len();
    let example: Vec<String> = stations
        .map(|station| format!("{} {any}", scene.session.station_name(station)))
        .collect();
    let mut text = form.text.clone();
    let field = TextEdit::multiline(&mut text)
        .desired_rows(4)
        .hint_text(example.join("\n"))
        .desired_width(ui.available_width() - 12.0)
        .font(egui::TextStyle::Monospace);
    let pasted = ScrollArea::vertical()
        .id_salt("pasted")
        .max_height(PASTED)
        .show(ui, |ui| ui.add(field))
        .inner;
    let pasted = pasted.labelled_by(label.id);
    if pasted.changed() {
        form.refused = None;
        form.file = None;
        form.take_text(scene.session, text);
    }
    if form.text.is_empty() && ui.memory(|memory| memory.focused().is_none()) {
        pasted.request_focus();
    }
}

/// What each column holds, over the first lines.
fn columns(ui: &mut Ui, scene: &mut Scene<'_>, form: &mut ImportForm) {
    let words = scene.words();
    let mut header = form.has_header;
    if ui
        .checkbox(&mut header, words.import_has_header())
        .changed()
    {
        form.has_header = header;
        form.read(scene.session);
    }
    ScrollArea::horizontal().id_salt("columns").show(ui, |ui| {
        Grid::new("import columns")
            .striped(true)
            .min_row_height(LINE_HEIGHT)
            .spacing(Vec2::new(10.0, 4.0))
            .show(ui, |ui| {
                ui.label(muted(scene.palette, words.import_line()));
                for column in 0..form.roles.len() {
                    role(ui, scene, form, column);
                }
                ui.end_row();
                let rows = form.lines.iter().enumerate();
                for (index, line) in rows {
                    ui.label(muted(scene.palette, line.line.to_string()));
                    for field in &line.fields {
                        let heading = index == 0 && form.has_header;
                        let text = RichText::new(short(field));
                        ui.label(if heading {
                            text.font(theme::bold(size::BODY))
                        } else {
                            text
                        });
                    }
                    ui.end_row();
                }
            });
    });
}

fn short(field: &str) -> String {
    const MOST: usize = 24;
    if field.chars().count() <= MOST {
        return field.to_owned();
    }
    let start: String = field.chars().take(MOST - 1).collect();
    format!("{start}…")
}

fn role(ui: &mut Ui, scene: &Scene<'_>, form: &mut ImportForm, column: usize) {
    let words = scene.words();
    let name = |role: ColumnRole| match role {
        ColumnRole::Out => words.import_out().to_owned(),
        ColumnRole::Arm => words.import_arm().to_owned(),
        ColumnRole::Reading => words.import_reading().to_owned(),
        ColumnRole::Unit => words.import_unit().to_owned(),
        ColumnRole::Station(station) => scene.session.station_name(station),
    };
    let Some(&now) = form.roles.get(column) else {
        return;
    };
    let shown = Button::new(format!("{} ▼", name(now))).min_size(Vec2::splat(TARGET));
    let (menu, _) = egui::containers::menu::MenuButton::from_button(shown).ui(ui, |ui| {
        let stations = 0..scene.session.stations.len();
        let roles = [
            ColumnRole::Out,
            ColumnRole::Arm,
            ColumnRole::Reading,
            ColumnRole::Unit,
        ]
        .into_iter()
        .chain(stations.map(ColumnRole::Station));
        for role in roles {
            if choice(ui, scene.palette, role == now, &name(role)).clicked() {
                form.name(scene.session, column, role);
                ui.close();
            }
        }
    });
    let label = words.import_column(column + 1, name(now));
    menu.widget_info(|| WidgetInfo::labeled(egui::Role::Button, true, &label));
}

/// The unit of what names none.
fn units(ui: &mut Ui, scene: &mut Scene<'_>, form: &mut ImportForm) {
    let words = scene.words();
    ui.label(words.import_bare());
    for unit in [Unit::Inch, Unit::Millimetre] {
        let chosen = form.bare == unit;
        if choice(ui, scene.palette, chosen, words.unit_name(unit)).clicked() {
            form.bare = unit;
            form.read(scene.session);
        }
    }
}

fn goes_into(ui: &mut Ui, scene: &mut Scene<'_>, form: &mut ImportForm) {
    let words = scene.words();
    let turns = scene.preview();
    let new_pass = match turns.iter().any(|turn| turn.0 != 0) {
        true => words.import_new_pass_planned(scene.figures.turns(&turns)),
        false => words.import_new_pass().to_owned(),
    };
    let mut choices = vec![(Into::NewPass, new_pass)];
    if let Some(pass) = scene.outlook.pass {
        let count = there(scene, pass);
        if count > 0 {
            choices.push((Into::After(pass), words.import_after(pass + 1)));
            let in_place = words.import_in_place(pass + 1, count);
            choices.push((Into::InPlaceOf(pass), in_place));
        } else {
            choices.push((Into::After(pass), words.import_into(pass + 1)));
        }
    }
    ui.label(words.import_goes_into());
    ui.horizontal_wrapped(|ui| {
        for (into, text) in choices {
            if choice(ui, scene.palette, form.into == Some(into), &text).clicked() {
                form.into = Some(into);
            }
        }
    });
}

/// The readings that were understood, station by station, and those whose place
/// they take: whoever replaces readings sees which.
fn understood(ui: &mut Ui, scene: &Scene<'_>, form: &ImportForm, rows: &[Vec<String>]) {
    /// Readings shown of a station.
    const MOST: usize = 8;
    let words = scene.words();
    let unit = scene.figures.unit;
    let replaced = match form.into {
        Some(Into::InPlaceOf(pass)) if in_other_unit(form, scene).is_none() => {
            scene.session.passes.get(pass)
        }
        _ => None,
    };
    // What is new as it was typed, what is there in the unit on show.
    let shown = |text: &str, new: bool| match TypedLength::parse(text, unit, Sign::None) {
        Ok(typed) if new || typed.unit() == unit => scene.figures.typed(&typed),
        Ok(typed) => {
            let reading = scene.figures.reading(typed.length());
            scene.figures.with_unit(&reading)
        }
        Err(_) => text.to_owned(),
    };
    let line = |texts: &mut dyn Iterator<Item = &str>, new: bool| {
        let texts: Vec<&str> = texts.collect();
        let mut line: Vec<String> = (texts.iter().take(MOST))
            .map(|text| match *text {
                "" => "–".to_owned(),
                text => shown(text, new),
            })
            .collect();
        if texts.len() > MOST {
            line.push(format!("… {}", texts.len()));
        }
        if line.is_empty() {
            line.push("–".to_owned());
        }
        line.join("   ")
    };
    Grid::new("understood")
        .striped(true)
        .min_row_height(LINE_HEIGHT)
        .spacing(Vec2::new(28.0, 2.0))
        .show(ui, |ui| {
            if replaced.is_some() {
                ui.label("");
                ui.label(muted(scene.palette, words.import_new_ones()));
                ui.label(muted(scene.palette, words.import_go()));
                ui.end_row();
            }
            for (station, row) in rows.iter().enumerate() {
                ui.label(strong(scene.session.station_name(station)));
                ui.label(line(&mut row.iter().map(String::as_str), true));
                if let Some(cells) = replaced.and_then(|pass| pass.rows.get(station)) {
                    let gone = line(&mut cells.iter().map(Cell::text), false);
                    ui.colored_label(scene.palette.caution, gone);
                }
                ui.end_row();
            }
        });
}

/// The unit that every reading looks to be in, where that is not the one they are
/// taken in: nothing is imported until it is settled.
fn in_other_unit(form: &ImportForm, scene: &Scene<'_>) -> Option<Unit> {
    let doubts = form.doubts(scene.session);
    let count = form.count().map_or(0, |(count, _)| count);
    let all = count > 0
        && doubts.len() == count
        && (doubts.iter()).all(|(_, doubt)| doubt.why == WhyDoubtful::OtherUnit);
    let (_, first) = doubts.first().filter(|_| all)?;
    first.likely.as_ref().map(TypedLength::unit)
}

/// Slips of unit and point: all of them in the other unit, or the first.
fn wrong_unit(scene: &Scene<'_>, form: &ImportForm, doubts: &[(Cell, Doubtful)]) -> Option<String> {
    let words = scene.words();
    let (cell, doubt) = doubts.first()?;
    let (reading, likely) = (cell.reading()?, doubt.likely.as_ref()?);
    let other = in_other_unit(form, scene);
    let (station, repeat) = (scene.session.station_name(doubt.station), doubt.repeat + 1);
    Some(match other {
        Some(unit) => {
            words.import_other_unit(words.unit_plural(unit), words.unit_plural(form.bare))
        }
        None => words.doubt_likely(
            words.cli_reading_place(station, repeat),
            scene.figures.typed(&reading.typed),
            scene.figures.typed(likely),
        ),
    })
}

/// What would be imported, or everything that is wrong.
fn outcome(ui: &mut Ui, scene: &Scene<'_>, form: &ImportForm) {
    let words = scene.words();
    let problem = match &form.found {
        Ok(found) => {
            if form.count().is_none_or(|(count, _)| count == 0) {
                return;
            }
            understood(ui, scene, form, &found.rows);
            for note in words.csv_notes(found) {
                ui.label(note);
            }
            return;
        }
        Err(problem) => problem,
    };
    let mut sentences = scene.figures.csv_sentences(problem, form.bare);
    if matches!(problem, CsvProblem::Cells(places) if places.len() == MOST_PROBLEMS) {
        sentences.push(words.csv_and_more().to_owned());
    }
    ScrollArea::vertical()
        .id_salt("wrong")
        .max_height(WRONG_HEIGHT)
        .show(ui, |ui| {
            for sentence in sentences {
                ui.label(RichText::new(format!("⚠ {sentence}")).color(scene.palette.caution));
            }
        });
}
