//! The bare belt of the pass on show and the flip test: what part of the
//! profile is the belt's.

use eframe::egui::{CollapsingHeader, Grid, Label, RichText, Ui};

use crate::press::LengthQuantity;
use crate::session::{Edit, MarkKind};
use crate::splice::Cell;
use crate::units::{Sign, TypedLength};
use crate::window::action::Action;
use crate::window::theme::{self, TARGET, size};

use crate::window::state::grid::{GridCell, Order, Shape, Typed};
use crate::window::views::Scene;
use crate::window::views::entry::grid;
use crate::window::views::entry::grid::Look;
use crate::window::views::tick_box::tick_box;
use crate::window::views::widgets::muted;

/// Width of a cell and of a station's name.
const CELL_WIDTH: f32 = 96.0;
const NAME_WIDTH: f32 = 32.0;

/// Draws the section, folded at first; a belt that varies as much as the
/// tolerance is warned of even so.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, pass: usize) {
    let words = scene.words();
    let outlook = scene.outlook;
    let names = |station| scene.session.station_name(station);
    let belt = outlook.trust.belt.as_ref();
    let sentence = belt.map(|belt| (belt, scene.figures.belt_sentence(belt, &names)));
    if let Some((belt, sentence)) = &sentence
        && belt.as_large_as_tolerance
    {
        let text = RichText::new(format!("⚠ {sentence}"));
        ui.label(text.color(scene.palette.caution));
    }
    let heading = RichText::new(words.belt_section());
    CollapsingHeader::new(heading)
        .id_salt("belt")
        .show_unindented(ui, |ui| {
            ui.label(muted(scene.palette, words.belt_hint()));
            cells(ui, scene, pass);
            match &sentence {
                Some((belt, sentence)) if !belt.as_large_as_tolerance => {
                    ui.label(sentence);
                }
                _ => {}
            }
            if pass > 0 {
                flipped(ui, scene, pass);
            }
        });
}

fn cells(ui: &mut Ui, scene: &mut Scene<'_>, pass: usize) {
    let words = scene.words();
    let session = scene.session;
    let mut typing = std::mem::take(&mut scene.view.belt);
    if let Some((before, typed)) = typing.turn_to(pass) {
        enter(scene, before, typed);
    }
    let belt = session.passes.get(pass).map(|read| &read.bare_belt);
    let shape = Shape {
        rows: session.stations.len(),
        columns: 1,
        most_columns: 1,
        order: Order::Down,
    };
    let mut entered = None;
    let mut problems = Vec::new();
    Grid::new("belt").min_col_width(0.0).show(ui, |ui| {
        for row in 0..shape.rows {
            let station = session.station_name(row);
            let large = if station.len() > 2 {
                size::SMALL
            } else {
                size::BODY
            };
            let text = RichText::new(&station).font(theme::bold(large));
            ui.add_sized([NAME_WIDTH, TARGET], Label::new(text));
            let held = belt.and_then(|belt| belt.get(row)).cloned();
            let held = held.unwrap_or_default();
            let at = GridCell { row, column: 0 };
            let name = words.belt_at(&station);
            let look = Look {
                salt: "belt",
                name: &name,
                width: CELL_WIDTH,
                odd: false,
                hidden: false,
                keeps: false,
            };
            let cell = grid::cell(ui, scene, &mut typing.cells, (shape, at), &held, &look);
            entered = cell.typed.or(entered.take());
            ui.end_row();
            problems.extend(problem(scene, &name, &held));
        }
    });
    for sentence in problems {
        let text = RichText::new(format!("⚠ {sentence}"));
        ui.label(text.color(scene.palette.caution));
    }
    scene.view.belt = typing;
    if let Some(typed) = entered {
        enter(scene, pass, typed);
    }
}

/// Enters what was typed or pasted; of a pasted table, what there are
/// stations for.
fn enter(scene: &mut Scene<'_>, pass: usize, typed: Typed) {
    let bare = scene.figures.unit;
    let texts = match typed {
        Typed::One(at, text) => vec![(at.row, text)],
        Typed::Table(from, rows) => {
            let texts = rows.into_iter().flatten();
            (from.row..scene.session.stations.len())
                .zip(texts)
                .collect()
        }
    };
    for (station, text) in texts {
        scene.ask(Action::Edit(Edit::EnterBelt {
            pass,
            station,
            text,
            bare,
        }));
    }
}

/// What is wrong with a cell that holds no thickness of a belt.
fn problem(scene: &Scene<'_>, name: &str, held: &Cell) -> Option<String> {
    let Cell::Unreadable(text) = held else {
        return None;
    };
    let unit = scene.figures.unit;
    match TypedLength::parse(text, unit, Sign::None) {
        Err(problem) => Some(scene.words().length_problem(name, &problem, unit)),
        Ok(typed) => {
            let refused = LengthQuantity::BareBelt.check(typed.length()).err()?;
            Some(scene.figures.length_out_of_bounds(&refused))
        }
    }
}

/// The tick that makes two passes a flip test, and what the test tells.
fn flipped(ui: &mut Ui, scene: &mut Scene<'_>, pass: usize) {
    let words = scene.words();
    let outlook = scene.outlook;
    let session = scene.session;
    let ticked = session.passes.get(pass).is_some_and(|read| read.flipped);
    let kind = ticked.then_some(MarkKind::Done);
    let width = ui.available_width();
    if tick_box(ui, scene.palette, words.belt_flipped(), kind, width).clicked() {
        scene.ask(Action::Edit(Edit::SetFlipped {
            pass,
            flipped: !ticked,
        }));
    }
    ui.label(muted(scene.palette, words.flip_how()));
    match &outlook.trust.flip {
        None => {}
        Some(Err(problem)) => {
            ui.label(words.flip_problem(*problem));
        }
        Some(Ok(test)) => {
            let moved = session.turns_before(pass).iter().any(|turn| turn.0 != 0)
                || session
                    .passes
                    .get(pass)
                    .is_some_and(|read| read.handle.is_some());
            if moved {
                let text = RichText::new(format!("⚠ {}", words.flip_turned_between()));
                ui.label(text.color(scene.palette.caution));
            }
            let names = |station| session.station_name(station);
            for sentence in scene.figures.flip_sentences(test, &names) {
                ui.label(sentence);
            }
        }
    }
}
