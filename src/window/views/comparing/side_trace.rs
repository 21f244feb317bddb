//! What was corrected in passes after the next one was laced.

use eframe::egui::Ui;

use crate::session::By;

use crate::window::views::Scene;
use crate::window::views::widgets::{muted, title};

/// Draws the list, where there is anything to tell.
pub fn show(ui: &mut Ui, scene: &Scene<'_>) {
    let words = scene.words();
    if scene
        .session
        .passes
        .iter()
        .all(|pass| pass.corrections.is_empty())
    {
        return;
    }
    ui.separator();
    title(ui, words.trace_title());
    ui.label(muted(scene.palette, words.trace_why()));
    for line in lines(scene) {
        ui.label(line);
    }
}

/// A line per correction, pass by pass, oldest first.
pub fn lines(scene: &Scene<'_>) -> Vec<String> {
    let words = scene.words();
    let mut lines = Vec::new();
    for (pass, number) in scene.session.passes.iter().zip(1..) {
        for at in &pass.corrections.readings {
            let station = scene.session.station_name(at.station);
            let was = match (at.was.as_str(), at.struck) {
                ("", _) => words.trace_was_empty().to_owned(),
                (was, true) => words.trace_was_struck(was),
                (was, false) => was.to_owned(),
            };
            let line = words.trace_reading(number, at.repeat + 1, station, was);
            lines.push(signed(scene, line, &at.by));
        }
        for at in &pass.corrections.nuts {
            let line = words.trace_nut(number, at.arm, at.was);
            lines.push(signed(scene, line, &at.by));
        }
    }
    lines
}

/// A line with who changed it and when, as far as that is noted.
fn signed(scene: &Scene<'_>, line: String, by: &By) -> String {
    let words = scene.words();
    match (by.who.as_str(), by.when.as_str()) {
        ("", "") => words.trace_unsigned(line),
        (who, "") => words.trace_by(line, who),
        ("", when) => words.trace_when(line, when),
        (who, when) => words.trace_by_when(line, who, when),
    }
}
