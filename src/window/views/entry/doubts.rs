//! Readings that need a second look, each with its cures, under the grid and
//! in the arm-by-arm entry. Nothing is changed but by the user.

use eframe::egui::{RichText, Ui};

use crate::session::{Edit, NextAct};
use crate::splice::{Cell, Doubtful, WalkPlace, WhyDoubtful};
use crate::window::action::Action;
use crate::window::state::guided::Guided;

use crate::window::state::MarkedCell;
use crate::window::views::Scene;
use crate::window::views::entry::marks;
use crate::window::views::widgets::{button, centred};

/// Doubts explained under the grid; the others say why when pointed at.
const MOST_LINES: usize = 3;

/// What can be done about a doubtful reading.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Cure {
    /// Make it what it likely was meant to be.
    Likely,
    /// Keep it as right.
    Keep,
    /// Measure there again.
    Again,
    /// Strike it, saying why.
    Strike,
}

/// The cures of a doubt with their words, the likeliest first.
fn cures(scene: &Scene<'_>, pass: usize, doubt: &Doubtful) -> Vec<(Cure, String)> {
    let words = scene.words();
    let likely = doubt.likely.as_ref();
    let mut cures: Vec<(Cure, String)> = likely
        .map(|likely| (Cure::Likely, scene.figures.likely_cure(likely)))
        .into_iter()
        .collect();
    let laced = scene.session.passes.get(pass);
    let cell = laced.map(|laced| laced.cell(doubt.station, doubt.repeat));
    let unreadable = cell.is_some_and(Cell::is_unreadable);
    // It has the keyboard, and its act is the next one.
    if likely.is_none() && !unreadable {
        let station = scene.session.station_name(doubt.station);
        cures.push((Cure::Again, words.act_measure_again(station)));
    }
    if !unreadable {
        cures.push((Cure::Keep, words.keep_as_right().to_owned()));
    }
    if doubt.why == WhyDoubtful::Repeats {
        let name = marks::place_name(scene, place(0, doubt));
        cures.push((Cure::Strike, words.strike_place(name)));
    }
    cures
}

fn place(pass: usize, doubt: &Doubtful) -> MarkedCell {
    MarkedCell {
        pass,
        station: doubt.station,
        repeat: doubt.repeat,
    }
}

/// The change that a cure is, where it is one of the readings as they stand.
fn edit(scene: &Scene<'_>, cure: Cure, pass: usize, readings: Vec<(usize, usize)>) -> Option<Edit> {
    match cure {
        Cure::Likely => Some(Edit::TakeLikely { pass, readings }),
        Cure::Keep => Some(Edit::KeepDoubtful {
            pass,
            readings,
            by: scene.session.notes.who.clone(),
        }),
        Cure::Again | Cure::Strike => None,
    }
}

/// Draws what is doubtful in the pass on show.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, pass: usize) {
    let doubts = scene.outlook.gate.doubtful.clone();
    let words = scene.words();
    let ink = scene.palette.caution;
    if let Some(unit) = scene.outlook.gate.whole_piece_unit() {
        let unit = words.unit_plural(unit);
        let sentence = words.whole_piece_looks(unit);
        ui.label(RichText::new(format!("⚠ {sentence}")).color(ink));
        let all: Vec<(usize, usize)> = doubts.iter().map(|at| (at.station, at.repeat)).collect();
        let whole = [
            (Cure::Likely, words.whole_piece_cure(unit)),
            (Cure::Keep, words.keep_all_as_right().to_owned()),
        ];
        for (cure, text) in whole {
            if button(ui, text).clicked()
                && let Some(edit) = edit(scene, cure, pass, all.clone())
            {
                scene.ask(Action::Edit(edit));
            }
        }
        return;
    }
    let mut said = Vec::new();
    for doubt in doubts.iter().take(MOST_LINES) {
        let sentence = scene.figures.doubt_sentence(scene.session, pass, doubt);
        // Readings of one place that differ are one question.
        if !said.contains(&sentence) {
            ui.label(RichText::new(format!("⚠ {sentence}")).color(ink));
            said.push(sentence);
        }
        for (cure, text) in cures(scene, pass, doubt) {
            if button(ui, text).clicked() {
                carry_out(scene, cure, pass, doubt);
            }
        }
    }
    let more = doubts.len().saturating_sub(MOST_LINES);
    if more > 0 {
        ui.label(RichText::new(words.marks_more(more)).color(ink));
    }
}

fn carry_out(scene: &mut Scene<'_>, cure: Cure, pass: usize, doubt: &Doubtful) {
    let at = vec![(doubt.station, doubt.repeat)];
    match (cure, edit(scene, cure, pass, at)) {
        (_, Some(edit)) => scene.ask(Action::Edit(edit)),
        (Cure::Strike, None) => {
            let ask = marks::ask(place(pass, doubt), scene.view);
            scene.ask(ask);
        }
        (_, None) => scene.ask(Action::Next(NextAct::Mend {
            station: doubt.station,
            repeat: doubt.repeat,
        })),
    }
}

/// Asks about readings of this walk that are doubtful.
pub fn show_of_walk(ui: &mut Ui, scene: &mut Scene<'_>, guided: &mut Guided, pass: usize) {
    let doubts = scene.outlook.gate.doubtful.clone();
    let of_walk = doubts.iter().filter(|doubt| {
        let (station, repeat) = (doubt.station, doubt.repeat);
        guided.taken.contains(&WalkPlace { station, repeat })
    });
    let of_walk: Vec<&Doubtful> = of_walk.take(2).collect();
    for doubt in of_walk {
        let sentence = scene.figures.doubt_sentence(scene.session, pass, doubt);
        ui.label(RichText::new(format!("⚠ {sentence}")).color(scene.palette.caution));
        let cures = cures(scene, pass, doubt);
        let buttons: Vec<(String, bool)> =
            cures.iter().map(|(_, text)| (text.clone(), true)).collect();
        let Some((cure, _)) = centred(ui, &buttons).and_then(|pressed| cures.get(pressed)) else {
            continue;
        };
        if *cure == Cure::Again {
            let (station, repeat) = (doubt.station, doubt.repeat);
            guided.go_to(scene.session, WalkPlace { station, repeat });
        } else {
            carry_out(scene, *cure, pass, doubt);
        }
        guided.wants_keyboard = true;
    }
}
