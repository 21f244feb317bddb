//! Under the nuts: what is left of the opening and what each rod carries, as
//! the turns on show would have it.

use eframe::egui::{Align2, Color32, CornerRadius, Pos2, Rect, Role, Sense, Ui, Vec2, WidgetInfo};

use crate::press::ArmIndex;
use crate::units::Length;
use crate::window::theme::{self, Palette, size};

use crate::window::views::Scene;
use crate::window::views::hint::Hint;
use crate::window::views::picture::jaw_axis::JawAxis;

/// Height of one of the two lines.
const LINE: f32 = 16.0;

/// Height of both.
pub const HEIGHT: f32 = 2.0 * LINE + 3.0;

/// Share of an opening margin below which it matters what is left of it.
const LITTLE: f64 = 0.3;

/// Whether both lines are on show: asked for, or there is something in them to
/// heed, a rod that goes slack or an opening that runs out.
pub fn is_shown(scene: &Scene<'_>) -> bool {
    let slack = scene
        .outlook
        .rods()
        .is_some_and(|rods| !rods.slack.is_empty());
    let pass = scene.outlook.pass.unwrap_or(usize::MAX);
    let margins = scene.session.margins_left(pass, &scene.preview());
    let mut margins = margins.iter().zip(&scene.session.press.arms);
    let runs_out = margins.any(|(left, arm)| {
        let full = arm
            .opening_margin
            .as_ref()
            .map(|full| full.length().nm_f64());
        let left = left.map(|left| left.nm_f64());
        left.zip(full)
            .is_some_and(|(left, full)| left < LITTLE * full)
    });
    scene.view.care || slack || runs_out
}

/// Draws both lines.
pub fn show(ui: &mut Ui, scene: &Scene<'_>, axis: JawAxis) {
    let words = scene.words();
    let palette = scene.palette;
    let (area, _) = ui.allocate_exact_size(Vec2::new(ui.available_width(), HEIGHT), Sense::hover());
    let (upper, lower) = (area.top() + LINE / 2.0, area.top() + 1.5 * LINE);
    for (y, name, hint) in [
        (upper, words.care_opening(), words.care_opening_hint()),
        (lower, words.care_load(), words.care_load_hint()),
    ] {
        let place = Rect::from_x_y_ranges(area.left()..=axis.left, y - LINE / 2.0..=y + LINE / 2.0);
        let at = Pos2::new(area.left(), y);
        let font = theme::regular(size::LEAST);
        ui.painter()
            .text(at, Align2::LEFT_CENTER, name, font, palette.muted);
        let id = ui.scope_id().with(("care", name));
        ui.interact(place, id, Sense::hover()).hint(hint);
    }
    let turns = scene.preview();
    let pass = scene.outlook.pass.unwrap_or(usize::MAX);
    let margins = scene.session.margins_left(pass, &turns);
    let arms = scene.outlook.arms_nm.len();
    let width = cell_width(scene, axis);
    for (arm, &at) in scene.outlook.arms_nm.iter().enumerate() {
        let half = width / 2.0;
        let x = axis
            .x(at)
            .clamp(axis.left + half, (axis.right - half).max(axis.left + half));
        let cell = |y: f32| Rect::from_center_size(Pos2::new(x, y), Vec2::new(width, LINE - 2.0));
        let full = scene
            .session
            .press
            .arms
            .get(arm)
            .and_then(|arm| arm.opening_margin.as_ref());
        let full = full.map(crate::units::TypedLength::length);
        let left = margins.get(arm).copied().flatten();
        let opening = opening(ui, scene, cell(upper), left, full);
        let load = load(ui, scene, cell(lower), ArmIndex(arm), arms);
        let label = words.care_of(ArmIndex(arm), opening, load);
        let whole = cell(upper).union(cell(lower));
        let id = ui.scope_id().with(("care of", arm));
        let response = ui.interact(whole, id, Sense::hover());
        response.widget_info(|| WidgetInfo::labeled(Role::Label, true, &label));
        response.hint(label);
    }
}

fn cell_width(scene: &Scene<'_>, axis: JawAxis) -> f32 {
    let arms = &scene.outlook.arms_nm;
    let closest = arms
        .iter()
        .zip(arms.iter().skip(1))
        .map(|(left, right)| axis.x(*right) - axis.x(*left))
        .fold(f32::INFINITY, f32::min);
    (closest - 6.0).clamp(24.0, 150.0)
}

/// A bar with words on it.
fn bar(
    ui: &Ui,
    palette: &Palette,
    rect: Rect,
    share: f32,
    (fill, ink): (Color32, Color32),
    text: &str,
) {
    let painter = ui.painter();
    painter.rect_filled(rect, CornerRadius::same(2), palette.button);
    let filled = Rect::from_min_size(rect.min, Vec2::new(rect.width() * share, rect.height()));
    painter.rect_filled(filled, CornerRadius::same(2), fill);
    let font = theme::regular(size::LEAST);
    let lay = |text: &str| painter.layout_no_wrap(text.to_owned(), font.clone(), ink);
    let mut galley = lay(text);
    if galley.size().x > rect.width() {
        // Twelve arms leave room for the digits alone; the unit is the chart's.
        let digits = text.trim_end_matches(['″', 'm', ' ', '%']);
        galley = lay(digits);
    }
    painter.galley(rect.center() - galley.size() / 2.0, galley, ink);
}

/// What is left of the opening at an arm, drawn and in words.
fn opening(
    ui: &Ui,
    scene: &Scene<'_>,
    rect: Rect,
    left: Option<Length>,
    full: Option<Length>,
) -> String {
    let palette = scene.palette;
    let words = scene.words();
    let (Some(left), Some(full)) = (left, full) else {
        let unknown = words.care_not_measured().to_owned();
        let font = theme::regular(size::LEAST);
        let galley = ui
            .painter()
            .layout_no_wrap(unknown.clone(), font, palette.muted);
        let fits = galley.size().x <= rect.width();
        let shown = if fits { &unknown } else { "?" };
        bar(
            ui,
            palette,
            rect,
            0.0,
            (palette.button, palette.muted),
            shown,
        );
        return unknown;
    };
    let digits = scene.figures.plain(left);
    if left < Length::ZERO {
        // Past its end: the whole bar in the colour of cautions, with its mark.
        let colours = (palette.caution_back, palette.caution);
        let text = format!("⚠ {digits}");
        bar(ui, palette, rect, 1.0, colours, &text);
        let edge = theme::stroke(1.5, palette.caution);
        let corners = CornerRadius::same(2);
        let kind = eframe::egui::StrokeKind::Inside;
        ui.painter().rect_stroke(rect, corners, edge, kind);
        return text;
    }
    let share = left.nm_f64() / full.nm_f64().max(1.0);
    bar(
        ui,
        palette,
        rect,
        share as f32,
        (palette.band, palette.ink),
        &digits,
    );
    digits
}

/// What a rod carries, drawn and in words.
fn load(ui: &Ui, scene: &Scene<'_>, rect: Rect, arm: ArmIndex, arms: usize) -> String {
    let palette = scene.palette;
    let words = scene.words();
    let Some(rods) = scene.outlook.rods() else {
        bar(ui, palette, rect, 0.0, (palette.button, palette.muted), "–");
        return words.care_none().to_owned();
    };
    if rods.slack.contains(&arm) {
        let text = format!("⚠ {}", words.care_slack());
        bar(
            ui,
            palette,
            rect,
            0.0,
            (palette.button, palette.caution),
            &text,
        );
        return text;
    }
    let share = rods.shares.get(arm.0).copied().unwrap_or(0.0);
    let text = scene.figures.share(share);
    // Twice an even share fills the bar.
    let filled = (share * arms as f64 / 2.0).clamp(0.0, 1.0) as f32;
    bar(
        ui,
        palette,
        rect,
        filled,
        (palette.steel, palette.ink),
        &text,
    );
    text
}
