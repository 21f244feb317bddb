//! What is told while readings are taken arm by arm: what stands there, what the
//! pass before measured, what is wrong.

use eframe::egui::{RichText, Ui};

use crate::session::Stands;
use crate::splice::WalkPlace;
use crate::units::{ExactLength, Length};
use crate::window::state::guided::Guided;

use crate::window::views::Scene;
use crate::window::views::widgets::{muted, strong};

/// What is to be said of the way the readings were taken.
pub fn drift(ui: &mut Ui, scene: &Scene<'_>) {
    let pass = scene.outlook.pass.filter(|_| scene.view.guided.is_none());
    if let Some(drift) = pass.and_then(|pass| drift_sentence(scene, pass)) {
        ui.label(muted(scene.palette, drift));
    }
}

/// The drift over a pass read there and back, in words.
pub(super) fn drift_sentence(scene: &Scene<'_>, pass: usize) -> Option<String> {
    let drift = scene.session.drift(pass)?;
    let repeatability = scene.session.repeatability();
    Some(scene.figures.drift_sentence(&drift, repeatability))
}

/// What was last read, what is wrong, and how the gauge's port stands.
pub(super) fn news(ui: &mut Ui, scene: &Scene<'_>, guided: &Guided) {
    let words = scene.words();
    let palette = scene.palette;
    let settings = scene.preferences.port.clone().unwrap_or_default();
    match (&guided.port, guided.port_open) {
        _ if guided.port_says.is_some() => {}
        (Some(_), true) => {
            ui.label(muted(palette, words.port_listening(&settings.port)));
        }
        (Some(_), false) => {
            ui.label(muted(palette, words.port_opening(&settings.port)));
        }
        (None, _) => {}
    }
    for sentence in guided.port_says.iter().chain(&guided.complaint) {
        ui.label(RichText::new(format!("⚠ {sentence}")).color(palette.caution));
    }
    if let Some(&last) = guided.taken.last()
        && let Some(reading) = reading_text(scene, last)
    {
        let name = scene.session.station_name(last.station);
        let mut said = words.guided_last(reading, name, last.repeat + 1);
        let cell = scene
            .outlook
            .pass
            .and_then(|pass| scene.session.passes.get(pass));
        let cell = cell.map(|pass| pass.cell(last.station, last.repeat));
        let length = cell.and_then(|cell| Some(cell.reading()?.typed.length()));
        if let Some((before, length)) = before(scene, last.station).zip(length) {
            said = format!("{said}. {}", compared(scene, before, Some(length)));
        }
        ui.label(strong(said));
        if let Some(read) = so_far(scene, last.station) {
            ui.label(read);
        }
    }
}

/// What leaves it: where the piece is outside, to the turns.
pub(super) fn finish(scene: &Scene<'_>, pass: usize) -> &'static str {
    let gate = scene.session.gate(pass);
    let outside = gate.stands == Stands::Outside && gate.is_clear();
    match outside && !scene.advises_nothing() {
        true => scene.words().guided_see_turns(),
        false => scene.words().guided_finish(),
    }
}

/// What was read at a station so far, and how far that is apart.
fn so_far(scene: &Scene<'_>, station: usize) -> Option<String> {
    let pass = scene.session.passes.get(scene.outlook.pass?)?;
    let read = scene.figures.readings_of(pass, station);
    let words = scene.words();
    let line = words.guided_so_far(scene.session.station_name(station), &read);
    let cells = pass.rows.get(station)?.iter();
    let lengths = cells.filter_map(|cell| Some(cell.counting()?.typed.length().nm_f64()));
    let (low, high) = lengths.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), nm| {
        (low.min(nm), high.max(nm))
    });
    let several = pass.rows.get(station)?.len() > 1 && high >= low;
    let figures = scene.figures;
    let apart = figures.with_unit(&figures.nm(high - low, figures.reading_decimals()));
    let line = if several {
        words.guided_apart(line, apart)
    } else {
        line
    };
    Some(line).filter(|_| !read.is_empty())
}

/// What the pass before measured at a station: its number, and the mean.
pub(super) fn before(scene: &Scene<'_>, station: usize) -> Option<(usize, ExactLength)> {
    let pass = scene.outlook.pass?.checked_sub(1)?;
    let mean = scene.session.passes.get(pass)?.profile().mean(station)?;
    Some((pass + 1, mean))
}

/// What the pass before measured, and how far a reading is from that.
pub(super) fn compared(
    scene: &Scene<'_>,
    (pass, mean): (usize, ExactLength),
    reading: Option<Length>,
) -> String {
    let words = scene.words();
    let figures = scene.figures;
    let there = figures.with_unit(&figures.mean(mean));
    let Some(reading) = reading else {
        return words.guided_before(pass, there);
    };
    let by = reading.nm_f64() - mean.nm_f64();
    let sign = if by > 0.0 { "+" } else { "" };
    let by = format!("{sign}{}", figures.nm(by, figures.mean_decimals()));
    words.guided_against(pass, there, figures.with_unit(&by))
}

/// The reading in a place with its unit; the text as it stands where it is no
/// reading.
pub(super) fn reading_text(scene: &Scene<'_>, place: WalkPlace) -> Option<String> {
    let pass = scene.session.passes.get(scene.outlook.pass?)?;
    let cell = pass.cell(place.station, place.repeat);
    match cell.reading() {
        Some(reading) => {
            let digits = scene.figures.reading_as_typed(&reading.typed);
            Some(scene.figures.with_unit(&digits))
        }
        None => Some(cell.text().to_owned()).filter(|text| !text.is_empty()),
    }
}
