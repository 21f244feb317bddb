//! The readings grid, made for speed.
//!
//! Enter goes down to the next station, Tab to the next repeat, arrows go
//! where they point; a table pasted from a spreadsheet fills the cells from
//! the chosen one on; a gauge that types like a keyboard needs nothing else.

use crate::window::views::entry::columns::Columns;
use crate::window::views::entry::columns::LEAST_COLUMNS;
use eframe::egui::{self, RichText, Ui, Vec2};

use crate::session::{Pass, TurnDoubt};
use crate::window::theme::{self, TARGET, size};

use crate::window::action::Action;
use crate::window::commands::Command;
use crate::window::state::Dialog;
use crate::window::state::MarkedCell as At;
use crate::window::views::Scene;
use crate::window::views::entry::cells::{cell, keypad_button, keys, turn_to, typed_so_far};
use crate::window::views::entry::grid::shown_text;
use crate::window::views::entry::{guided, guided_said, keypad};
use crate::window::views::forms::gauge;
use crate::window::views::hint::Hint;
use crate::window::views::turning::lettering::first_fitting;
use crate::window::views::widgets::{button, hint_of, muted, title};

/// Width of a cell, least and most; of an arm's name and of a mean.
const CELL_WIDTH: (f32, f32) = (62.0, 92.0);
const NAME_WIDTH: f32 = 32.0;
const MEAN_WIDTH: f32 = 64.0;

/// Distance between the columns of the grid.
const COLUMN_GAP: f32 = 5.0;

/// Width of the card from which the keypad stands beside the grid, and what it
/// takes of it there.
const KEYPAD_BESIDE: f32 = 560.0;
const KEYPAD_ROOM: f32 = keypad::WIDTH + 24.0;

/// Height of the window below which the readings come first.
const LOW: f32 = 660.0;

/// How many repeat columns fit; the rest is a step away.
fn most_columns(width: f32) -> usize {
    let room = width - NAME_WIDTH - MEAN_WIDTH - COLUMN_GAP;
    ((room / (CELL_WIDTH.0 + COLUMN_GAP)) as usize).max(LEAST_COLUMNS)
}

/// Room that the grid keeps above the keypad at the foot of the card: a row of
/// it with its heading.
const GRID_LEFT: f32 = 80.0;

/// Height of what stands above the keys there.
const ABOVE_KEYS: f32 = TARGET + 8.0;

/// Height of the keypad at the foot of the card, while it stands there: all of
/// its keys are in sight whatever is scrolled above. None where the room is too
/// low for that, and where it stands beside the grid.
pub fn foot(ui: &Ui, scene: &Scene<'_>) -> Option<f32> {
    let open = scene.view.keypad.open && scene.view.guided.is_none() && by_hand(scene);
    // In a high window the keys take what the grid leaves.
    let whole = GRID_ABOVE + ROW * scene.session.stations.len() as f32;
    let key = match is_low(ui) {
        true => TARGET,
        false => key_height(ui.available_height() - whole),
    };
    let height = ABOVE_KEYS + keypad::height(key);
    let room = ui.available_height() >= height + GRID_LEFT;
    (open && room && ui.available_width() < KEYPAD_BESIDE).then_some(height)
}

/// Draws the keypad at the foot.
pub fn show_foot(ui: &mut Ui, scene: &mut Scene<'_>) {
    let room = ui.available_height();
    with_pass(scene, |scene, of| {
        ui.spacing_mut().item_spacing.y = 4.0;
        ui.horizontal(|ui| {
            keypad_button(ui, scene, of.1);
            typed_so_far(ui, scene);
        });
        let high = if is_low(ui) { TARGET } else { key_height(room) };
        keys(ui, scene, of, high);
    });
}

/// Height of a key of so much room for all of them.
fn key_height(room: f32) -> f32 {
    let (least, most) = keypad::KEY;
    let key = keypad::height(1.0) - keypad::height(0.0);
    ((room - ABOVE_KEYS - keypad::height(0.0)) / key).clamp(least, most)
}

/// Height of the title, of what readings are taken with and of the names of columns
/// above the grid in a high window.
const GRID_ABOVE: f32 = 130.0;

fn is_low(ui: &Ui) -> bool {
    ui.ctx().content_rect().height() < LOW
}

fn by_hand(scene: &Scene<'_>) -> bool {
    scene.practicing.is_none()
}

/// Does something with the pass on show and its number. Before the first pass
/// its cells stand there already: the first reading opens it.
fn with_pass(scene: &mut Scene<'_>, then: impl FnOnce(&mut Scene<'_>, (usize, &Pass))) {
    let session = scene.session;
    let unread = Pass::unread(session.start_nuts.clone(), session.stations.len());
    let index = scene.outlook.pass.unwrap_or(0);
    then(scene, (index, session.passes.get(index).unwrap_or(&unread)));
}

/// Draws the card's contents; the keypad stands at its foot or here.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, at_foot: bool) {
    with_pass(scene, |scene, (index, pass)| {
        contents(ui, scene, (index, pass), at_foot);
    });
}

fn contents(ui: &mut Ui, scene: &mut Scene<'_>, (index, pass): (usize, &Pass), at_foot: bool) {
    let words = scene.words();
    // In a low window the readings come before everything about them, and what
    // they are taken with stands beside the title.
    let low = is_low(ui);
    if low && by_hand(scene) {
        // A row of words needs less height than one of buttons.
        let tall = std::mem::replace(&mut ui.spacing_mut().interact_size.y, size::TITLE);
        ui.horizontal(|ui| {
            title(ui, &words.readings_of_pass(index + 1));
            let (text, ink) = match doubt(scene) {
                Some((short, _)) => (short.to_owned(), scene.palette.caution),
                None => (gauge_name(scene), scene.palette.muted),
            };
            let ways = vec![(text, theme::regular(size::SMALL))];
            let room = ui.available_width();
            if let Some(laid) = first_fitting(ui, ways, ink, room)
                && laid.size().x <= room
            {
                ui.label(laid).hint(gauge_said(scene));
            }
        });
        ui.spacing_mut().interact_size.y = tall;
    } else {
        title(ui, &words.readings_of_pass(index + 1));
    }
    if scene.session.passes.is_empty() {
        ui.label(words.nothing_laced_next());
    }
    if !low {
        about(ui, scene);
    }
    let by_hand = by_hand(scene);
    let beside = by_hand && ui.available_width() >= KEYPAD_BESIDE;
    let room = if beside {
        ui.available_width() - KEYPAD_ROOM
    } else {
        ui.available_width()
    };
    turn_to(scene, index);
    let columns = Columns::of(pass, scene, most_columns(room));
    scene.view.first_repeat = columns.first;
    columns.pager(ui, scene);
    // Arm by arm has a keypad of its own.
    let keypad_here = by_hand && !at_foot && scene.view.guided.is_none();
    if beside {
        ui.horizontal_top(|ui| {
            ui.vertical(|ui| {
                ui.set_width(room);
                grid(ui, scene, (index, pass), (&columns, None));
                tools(ui, scene, pass, false);
            });
            ui.vertical(|ui| {
                if keypad_here {
                    keypad_button(ui, scene, pass);
                    keys_here(ui, scene, (index, pass));
                }
            });
        });
    } else {
        // Above the keys the row that is typed into stays in sight.
        let whole = GRID_HEAD + ROW * scene.session.stations.len() as f32;
        let tight = at_foot && ui.clip_rect().height() < whole;
        let typed = &scene.view.readings.cells;
        let row = typed.next.or(typed.now.as_ref().map(|now| now.at));
        let only = tight.then(|| row.map_or(0, |at| at.row));
        grid(ui, scene, (index, pass), (&columns, only));
        if by_hand && !at_foot {
            tools(ui, scene, pass, keypad_here);
        }
        if keypad_here {
            keys_here(ui, scene, (index, pass));
        }
    }
    if low {
        about(ui, scene);
    }
    crate::window::views::entry::doubts::show(ui, scene, index);
    crate::window::views::entry::marks::lines(ui, scene, index);
}

fn keys_here(ui: &mut Ui, scene: &mut Scene<'_>, of: (usize, &Pass)) {
    if scene.view.keypad.open {
        typed_so_far(ui, scene);
        keys(ui, scene, of, keypad::KEY.0);
    }
}

/// What the readings are taken with.
fn about(ui: &mut Ui, scene: &mut Scene<'_>) {
    if by_hand(scene) {
        if is_low(ui) {
            // Its button stands with the other ways of taking readings.
            gauge::overdue(ui, scene);
        } else {
            let said = muted(scene.palette, gauge_said(scene));
            let said = match doubt(scene) {
                Some(_) => said.color(scene.palette.caution),
                None => said,
            };
            gauge::strip(ui, scene, said);
        }
        guided_said::drift(ui, scene);
    } else {
        let step = scene.figures.plain(scene.session.gauge.step.length());
        let line = scene.words().gauge_reads(gauge_name(scene), step);
        let line = muted(scene.palette, line);
        gauge::strip(ui, scene, line);
        ui.label(muted(scene.palette, scene.words().practice_by_acts()));
    }
}

/// Other ways of taking readings, in one row; what has no room there stands in
/// a menu at its end.
fn tools(ui: &mut Ui, scene: &mut Scene<'_>, pass: &Pass, with_keypad: bool) {
    ui.scope(|ui| in_a_row(ui, scene, pass, with_keypad));
}

fn in_a_row(ui: &mut Ui, scene: &mut Scene<'_>, pass: &Pass, with_keypad: bool) {
    let words = scene.words();
    let mut rest = vec![(words.import_button(), Command::Import, Action::AskImport)];
    if is_low(ui) {
        let gauge = Action::Show(Box::new(Dialog::Gauge(Box::default())));
        rest.push((words.gauge_button(), Command::Gauge, gauge));
    }
    let first = [words.keypad(), words.guided_button()];
    let first = first.into_iter().skip(usize::from(!with_keypad));
    // As many as go into one row stand there.
    ui.spacing_mut().button_padding.x = ui.spacing().button_padding.x.min(TOOL_PADDING);
    let wide = |text: &str| {
        let font = theme::regular(size::BODY);
        let laid = ui
            .painter()
            .layout_no_wrap(text.to_owned(), font, scene.palette.ink);
        (laid.size().x + 2.0 * ui.spacing().button_padding.x).max(TARGET) + TOOL_GAP
    };
    let texts = first.chain(rest.iter().map(|(text, ..)| *text));
    let fits = texts.map(wide).sum::<f32>() - TOOL_GAP <= ui.available_width();
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = TOOL_GAP;
        if with_keypad {
            keypad_button(ui, scene, pass);
        }
        guided::opener(ui, scene);
        let entries = |ui: &mut Ui, scene: &mut Scene<'_>| {
            for (text, command, action) in rest {
                let tool = button(ui, text);
                if tool.hint(hint_of(ui, scene.words(), command)).clicked() {
                    scene.ask(action);
                    ui.close();
                }
            }
        };
        if fits {
            entries(ui, scene);
            return;
        }
        let more = egui::Button::new("…").min_size(Vec2::splat(TARGET));
        let menu = egui::containers::menu::MenuButton::from_button(more);
        let (more, open) = menu.ui(ui, |ui| entries(ui, scene));
        if open.is_some() {
            scene.view.keyboard.menu_is_open(more.id);
        }
        let name = words.readings_otherwise();
        more.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Button, true, name));
        more.hint(name);
    });
}

/// Distance between buttons of a row, and between edge and words.
const TOOL_GAP: f32 = 5.0;
const TOOL_PADDING: f32 = 7.0;

/// What the readings are taken with, or what is doubtful about it.
fn gauge_said(scene: &Scene<'_>) -> String {
    doubt(scene).map_or_else(
        || {
            let step = scene.figures.plain(scene.session.gauge.step.length());
            scene.words().gauge_line(gauge_name(scene), step)
        },
        |(_, said)| said,
    )
}

/// What is doubtful about the gauge, in short and in whole, unless that stands at the
/// advice.
fn doubt(scene: &Scene<'_>) -> Option<(&'static str, String)> {
    let (words, figures) = (scene.words(), scene.figures);
    let doubt = scene.session.gauge_doubt()?;
    if scene.turn_doubt() == Some(doubt) {
        return None;
    }
    match doubt {
        TurnDoubt::Coarse(share) => {
            let percent = figures.share(share.share);
            let said = words.gauge_uses_much(gauge_name(scene), percent);
            Some((words.gauge_coarse(), said))
        }
        TurnDoubt::NoGauge => {
            let [_, said] = figures.before_turns(scene.session, &doubt);
            Some((words.gauge_none(), format!("⚠ {said}")))
        }
        TurnDoubt::Repeats { .. } | TurnDoubt::Drive { .. } => None,
    }
}

fn gauge_name(scene: &Scene<'_>) -> String {
    let name = &scene.session.gauge.name;
    if name.is_empty() {
        scene.words().gauge().to_owned()
    } else {
        name.clone()
    }
}

/// Height of a row with what is below it, of the title and the names of columns
/// above the first, and of a row that is only read.
const ROW: f32 = TARGET + 4.0;
const GRID_HEAD: f32 = 60.0;
const ONLY_READ: f32 = 21.0;

/// The grid, or its `only` row that is typed into among others that are read.
fn grid(
    ui: &mut Ui,
    scene: &mut Scene<'_>,
    (index, pass): (usize, &Pass),
    (columns, only): (&Columns, Option<usize>),
) {
    let palette = scene.palette;
    let words = scene.words();
    let (name_width, mean_width) = (NAME_WIDTH, MEAN_WIDTH);
    let room = ui.available_width() - name_width - mean_width - COLUMN_GAP;
    let cell_width = (room / columns.count as f32 - COLUMN_GAP).clamp(CELL_WIDTH.0, CELL_WIDTH.1);
    let profile = scene.session.sound_profile(index);
    egui::Grid::new("readings grid")
        .num_columns(columns.count + 2)
        .spacing(Vec2::new(COLUMN_GAP, 4.0))
        .min_col_width(0.0)
        .min_row_height(ONLY_READ)
        .show(ui, |ui| {
            ui.add_sized(
                [name_width, 20.0],
                egui::Label::new(muted(palette, words.column_arm())),
            );
            for repeat in columns.shown() {
                ui.add_sized(
                    [cell_width, 20.0],
                    egui::Label::new(muted(palette, words.ordinal(repeat + 1))),
                );
            }
            ui.add_sized(
                [mean_width, 20.0],
                egui::Label::new(muted(palette, words.column_mean())),
            );
            ui.end_row();
            for station in 0..scene.session.stations.len() {
                let typed = only.is_none_or(|only| only == station);
                let high = if typed { TARGET } else { ONLY_READ };
                let name = scene.session.station_name(station);
                let large = if name.len() > 2 || !typed {
                    size::SMALL
                } else {
                    size::SENTENCE
                };
                let text = |text: String, font| egui::Label::new(RichText::new(text).font(font));
                ui.add_sized([name_width, high], text(name, theme::bold(large)));
                for repeat in columns.shown() {
                    let at = At {
                        pass: index,
                        station,
                        repeat,
                    };
                    if typed {
                        cell(ui, scene, pass, at, (cell_width, columns));
                    } else {
                        let held = shown_text(scene, pass.cell(station, repeat));
                        let held = text(held, theme::regular(size::BODY));
                        ui.add_sized([cell_width, high], held);
                    }
                }
                let exact = profile.mean(station);
                let mean = exact.map_or_else(|| "–".to_owned(), |mean| scene.figures.mean(mean));
                let mean = text(mean, theme::bold(size::BODY));
                let mut mean = ui.add_sized([mean_width, high], mean);
                if let Some(exact) = exact {
                    let exact = scene.figures.exact_mean(exact);
                    mean = mean.hint(words.exactly(exact));
                }
                crate::window::views::entry::marks::station(ui, scene, station, &mean);
                ui.end_row();
            }
        });
}
