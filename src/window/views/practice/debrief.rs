//! The debrief: what was hidden, what was decided, what luck did.

use eframe::egui::{Align2, Pos2, RichText, Role, ScrollArea, Sense, Shape, Ui, Vec2, WidgetInfo};

use crate::practice::{Debrief, Finish, spread_nm};
use crate::window::action::Action;
use crate::window::practicing::{PracticeWish, Practicing};
use crate::window::theme::{self, size};

use crate::window::views::Scene;
use crate::window::views::widgets::{main_button, muted, strong, title};

/// Height of the picture.
const PICTURE: f32 = 200.0;

/// Draws it in all the room there is.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>) {
    let Some(practicing) = scene.practicing else {
        return;
    };
    let words = scene.words();
    ScrollArea::vertical().auto_shrink(false).show(ui, |ui| {
        title(ui, words.practice_debrief());
        if let Some(ending) = practicing.practice.ending() {
            ui.label(words.practice_over(words.ending(ending)));
        }
        match &practicing.debrief {
            Some(debrief) => contents(ui, scene, practicing, debrief),
            None => {
                ui.label(words.practice_working_out());
            }
        }
        if main_button(ui, scene.palette, words.practice_leave(), true).clicked() {
            scene.ask(Action::Practice(PracticeWish::Leave));
        }
    });
}

fn contents(ui: &mut Ui, scene: &Scene<'_>, practicing: &Practicing, debrief: &Debrief) {
    let words = scene.words();
    let figures = &scene.figures;
    let faults = debrief.faults.iter();
    let faults: Vec<String> = faults
        .map(|(fault, arm)| words.fault_at(*fault, *arm))
        .collect();
    ui.label(
        RichText::new(words.practice_was(faults.join("; "))).font(theme::bold(size::SENTENCE)),
    );
    // Said above already.
    if !matches!(debrief.result, Finish::Unsafe | Finish::GivenUp) {
        ui.label(strong(words.finish(debrief.result)));
    }
    for remark in &debrief.remarks {
        ui.label(RichText::new(figures.remark(*remark)).font(theme::bold(size::BODY)));
    }
    profile(ui, scene, debrief);
    let spread = |profile: &[f64]| figures.with_unit(&figures.predicted(spread_nm(profile)));
    ui.label(words.practice_jaws(spread(&debrief.found_nm), spread(&debrief.left_nm)));
    ui.label(muted(scene.palette, words.practice_assumed()));
    ui.separator();
    ui.label(strong(words.practice_decisions()));
    for decision in &debrief.decisions {
        ui.label(figures.decision(decision));
    }
    ui.separator();
    ui.label(strong(words.practice_took(
        debrief.pieces,
        figures.decimal(debrief.minutes, 0),
    )));
    for (name, way) in [
        (words.way_again(), &debrief.again),
        (words.way_best(), &debrief.best),
        (words.way_arm_by_arm(), &debrief.arm_by_arm),
    ] {
        ui.label(figures.way(name, way));
    }
    if let Some(path) = &practicing.path {
        ui.label(muted(scene.palette, words.practice_kept(path.display())));
    }
}

/// The jaws as found and as left, and the last piece as it was read.
fn profile(ui: &mut Ui, scene: &Scene<'_>, debrief: &Debrief) {
    let words = scene.words();
    let palette = scene.palette;
    let size = Vec2::new(ui.available_width(), PICTURE);
    let (area, response) = ui.allocate_exact_size(size, Sense::hover());
    response.widget_info(|| WidgetInfo::labeled(Role::Image, true, words.practice_picture()));
    let painter = ui.painter_at(area);
    // Each about its own mean: the level of a piece says nothing.
    let about = |values: Vec<Option<f64>>| -> Vec<Option<f64>> {
        let known: Vec<f64> = values.iter().flatten().copied().collect();
        let mean = known.iter().sum::<f64>() / known.len().max(1) as f64;
        values
            .into_iter()
            .map(|value| Some(value? - mean))
            .collect()
    };
    let all = |values: &[f64]| about(values.iter().copied().map(Some).collect());
    let (found, left) = (all(&debrief.found_nm), all(&debrief.left_nm));
    let read = about(debrief.read_nm.clone());
    let tolerance = scene.session.tolerance.length().nm_f64();
    let known = found.iter().chain(&left).chain(&read).flatten();
    let most = known.fold(0.5 * tolerance, |most, value| most.max(value.abs()));
    let mut plot = area.shrink2(Vec2::new(30.0, 14.0));
    plot.max.y -= 22.0;
    let places = scene.session.station_positions_nm();
    let jaw = scene.session.press.jaw_length.length().nm_f64().max(1.0);
    let at = |(place, value): (&f64, &Option<f64>)| -> Option<Pos2> {
        let x = plot.left() + plot.width() * (place / jaw) as f32;
        let y = plot.center().y - ((*value)? / most) as f32 * 0.5 * plot.height();
        Some(Pos2::new(x, y))
    };
    let line = |values: &[Option<f64>]| -> Vec<Pos2> {
        places.iter().zip(values).filter_map(at).collect()
    };
    let band = 0.5 * tolerance / most * f64::from(0.5 * plot.height());
    let middle = plot.center().y;
    let band = eframe::egui::Rect::from_x_y_ranges(
        plot.x_range(),
        middle - band as f32..=middle + band as f32,
    );
    painter.rect_filled(band, 2.0, palette.band);
    let was = theme::stroke(2.0, palette.muted);
    painter.extend(Shape::dashed_line(&line(&found), was, 8.0, 6.0));
    painter.line(line(&left), theme::stroke(3.0, palette.present));
    for point in line(&read) {
        painter.circle_stroke(point, 6.0, theme::stroke(2.5, palette.present));
    }
    for (station, place) in places.iter().enumerate() {
        let x = plot.left() + plot.width() * (place / jaw) as f32;
        let name = scene.session.station_name(station);
        let below = Pos2::new(x, area.bottom());
        let font = theme::bold(theme::size::BODY);
        painter.text(below, Align2::CENTER_BOTTOM, name, font, palette.ink);
    }
    ui.label(muted(palette, words.practice_legend()));
}
