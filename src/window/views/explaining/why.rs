//! Why: how this press answers, how its past turns were answered, and what is worth
//! saying beside a plan.

use eframe::egui::{
    self, Align2, Color32, CornerRadius, Pos2, Rect, Role, Sense, Ui, Vec2, WidgetInfo,
};

use crate::press::ArmIndex;
use crate::session::{Advice, Remark, ResponseSource};
use crate::units::Unit;
use crate::window::theme::{self, Palette, size};

use crate::window::views::Scene;
use crate::window::views::hint::Hint;
use crate::window::views::turning::safety;
use crate::window::views::widgets::{muted, strong};

/// Draws it.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>) {
    let Some(advice) = scene.outlook.advice() else {
        return;
    };
    let palette = scene.palette;
    let words = scene.words();
    ui.label(strong(words.why_title()));
    ui.label(muted(palette, source(scene, advice)));
    for visit in &advice.learnt_from.left_out {
        ui.label(muted(palette, words.left_out(visit)));
    }
    matrix(ui, scene, advice);
    let caption = match scene.figures.unit {
        Unit::Inch => words.why_matrix_caption(words.unit_name(Unit::Inch)),
        Unit::Millimetre => words.why_micrometres_caption().to_owned(),
    };
    ui.label(muted(palette, caption));
    changes(ui, scene, advice);
    ui.label(muted(palette, scatter(scene)));
}

fn source(scene: &Scene<'_>, advice: &Advice) -> String {
    let words = scene.words();
    let from = &advice.learnt_from;
    match from.source {
        ResponseSource::Given => words.why_given().to_owned(),
        ResponseSource::Posterior if from.visits == 0 && from.passes < 2 => {
            words.why_assumed().to_owned()
        }
        ResponseSource::Posterior => words.why_learnt(from.passes, from.visits),
    }
}

/// The response as a small picture: a cell per station and nut, its figure
/// in it, the stronger the darker.
fn matrix(ui: &mut Ui, scene: &Scene<'_>, advice: &Advice) {
    let palette = scene.palette;
    let figures = scene.figures;
    let words = scene.words();
    let response = &advice.response;
    let (per_figure, decimals) = match figures.unit {
        Unit::Inch => (25_400.0, 1),
        Unit::Millimetre => (1_000.0, 0),
    };
    let name_width = 34.0;
    let width = ui.available_width();
    let cell = Vec2::new((width - name_width) / response.arms().max(1) as f32, 24.0);
    let rows = response.stations();
    let size_of_all = Vec2::new(width, cell.y * rows as f32 + 18.0);
    let (area, _) = ui.allocate_exact_size(size_of_all, Sense::hover());
    let strongest = response
        .values()
        .iter()
        .fold(1.0_f64, |most, value| most.max(value.abs()));
    let font = if cell.x < 34.0 {
        theme::regular(size::LEAST)
    } else {
        theme::regular(size::SMALL)
    };
    for arm in 0..response.arms() {
        let x = area.left() + name_width + cell.x * (arm as f32 + 0.5);
        let at = Pos2::new(x, area.top() + 8.0);
        ui.painter().text(
            at,
            Align2::CENTER_CENTER,
            ArmIndex(arm),
            theme::bold(size::SMALL),
            palette.muted,
        );
    }
    for station in 0..rows {
        let y = area.top() + 18.0 + cell.y * station as f32;
        let name = scene.session.station_name(station);
        ui.painter().text(
            Pos2::new(area.left(), y + cell.y / 2.0),
            Align2::LEFT_CENTER,
            &name,
            theme::bold(size::SMALL),
            palette.muted,
        );
        for arm in 0..response.arms() {
            let value = response.at(station, arm);
            let corner = Pos2::new(area.left() + name_width + cell.x * arm as f32, y);
            let rect = Rect::from_min_size(corner, cell).shrink(1.0);
            let share = (value.abs() / strongest) as f32;
            let (fill, ink) = shade(palette, value, share);
            ui.painter().rect_filled(rect, CornerRadius::same(3), fill);
            let text = figures.decimal(value / per_figure, decimals);
            ui.painter().text(
                rect.center(),
                Align2::CENTER_CENTER,
                text,
                font.clone(),
                ink,
            );
            let id = ui.scope_id().with(("response", station, arm));
            let hover = ui.interact(rect, id, Sense::hover());
            let of = |nm: f64| figures.with_unit(&figures.nm(nm, figures.mean_decimals()));
            let label = words.why_matrix_label(
                &name,
                ArmIndex(arm),
                of(value),
                figures.uncertainty(advice.response_sd_nm(station, arm)),
            );
            hover.widget_info(|| WidgetInfo::labeled(Role::Label, true, &label));
            hover.hint(label);
        }
    }
}

/// The stronger an answer, the more colour; negative ones carry their minus
/// sign and a colour of their own.
fn shade(palette: &Palette, value: f64, share: f32) -> (Color32, Color32) {
    let base = if value < 0.0 {
        palette.outside
    } else {
        palette.present
    };
    let fill = palette
        .card
        .lerp_to_gamma(base, share.clamp(0.06, 1.0) * 0.85);
    let ink = if share > 0.5 {
        palette.on_present
    } else {
        palette.ink
    };
    (fill, ink)
}

/// Expected against measured change of past turns, the latest first.
fn changes(ui: &mut Ui, scene: &Scene<'_>, advice: &Advice) {
    const MOST_ROWS: usize = 24;
    let palette = scene.palette;
    let figures = scene.figures;
    let words = scene.words();
    if advice.changes().is_empty() {
        return;
    }
    ui.label(words.why_expected_measured());
    let signed = |nm: f64| {
        let text = figures.nm(nm, figures.mean_decimals());
        if nm > 0.0 { format!("+{text}") } else { text }
    };
    for change in advice.changes().iter().rev().take(MOST_ROWS) {
        let row = words.why_change_row(
            change.pass + 1,
            scene.session.station_name(change.station),
            signed(change.expected_nm),
            signed(change.measured_nm),
        );
        let missed = (change.measured_nm - change.expected_nm).abs() > 2.0 * change.deviation_nm;
        let text = if missed { format!("⚠ {row}") } else { row };
        let ink = if missed { palette.caution } else { palette.ink };
        ui.label(
            egui::RichText::new(text)
                .font(theme::regular(size::SMALL))
                .color(ink),
        );
    }
}

fn scatter(scene: &Scene<'_>) -> String {
    let figures = scene.figures;
    let noise = scene.session.noise();
    let of = |nm: f64| figures.uncertainty(nm);
    scene.words().why_noise(
        of(noise.lacing_nm),
        of(noise.repeatability_nm),
        figures.plain(scene.session.gauge.step.length()),
    )
}

/// What else is worth saying about the plan, and how.
pub(super) fn notes(scene: &Scene<'_>) -> Vec<(Remark, String)> {
    let Some(advised) = &scene.outlook.advised else {
        return Vec::new();
    };
    let limit = scene.session.tolerance.length();
    let remarks = advised
        .advice
        .remarks(scene.session, &scene.preview(), &advised.findings);
    let said = remarks.into_iter().map(|remark| {
        let text = scene.figures.plan_remark(&remark, limit);
        (remark, text)
    });
    said.collect()
}

/// That no limits of nuts are known, where nuts would be turned: in sight
/// wherever the act is.
pub(super) fn limits(ui: &mut Ui, scene: &Scene<'_>) {
    let unknown = |(remark, _): &(Remark, String)| *remark == Remark::LimitsUnknown;
    if let Some((_, text)) = notes(scene).into_iter().find(unknown) {
        match ui.ctx().content_rect().height() < LOW {
            true => safety::caution_line(ui, scene.palette, &text),
            false => safety::caution(ui, scene.palette, &text),
        }
    }
}

/// Height of the window below which a caution has one line here, and is told whole
/// with the reasons.
const LOW: f32 = 600.0;
