//! What to do: the ways to go on, and the cautions.

use eframe::egui::{
    self, Align2, CornerRadius, Pos2, RichText, Role, Sense, StrokeKind, Ui, Vec2, WidgetInfo,
    text::{LayoutJob, TextFormat},
};

use crate::splice::Standing;
use crate::window::action::Action;
use crate::window::outlook::{PlanRow, RowKind};
use crate::window::state::Preview;
use crate::window::theme::{self, TARGET, size};

use super::Scene;
use super::widgets::{main_button, muted, title};

/// Draws the card.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>) {
    let words = scene.words();
    let palette = scene.palette;
    theme::card(palette).show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.spacing_mut().item_spacing.y = 5.0;
        title(ui, words.what_to_do());
        ui.label(muted(palette, words.out_opens_in_closes()));
        if scene.outlook.rows.is_empty() {
            ui.label(words.plan_needs_readings());
            return;
        }
        rows(ui, scene);
        if let Some(note) = note(scene) {
            ui.label(muted(palette, note));
        }
    });
}

/// The buttons that act on the plan, with the cautions above them.
pub fn act(ui: &mut Ui, scene: &mut Scene<'_>) {
    let palette = scene.palette;
    theme::card(palette).show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.spacing_mut().item_spacing.y = 6.0;
        let turned = scene.preview().iter().any(|turn| turn.0 != 0);
        let words = scene.words();
        let last = scene.session.passes.len().checked_sub(1);
        let on_last = scene.outlook.pass == last && last.is_some();
        let label = if turned {
            words.these_were_turned()
        } else {
            words.lace_again()
        };
        let main = main_button(ui, palette, label, on_last || last.is_none());
        if main.on_hover_text(words.these_were_turned_hint()).clicked() {
            scene.ask(if turned {
                Action::TheseWereTurned
            } else {
                Action::LaceAgain
            });
        }
        ui.horizontal(|ui| {
            ui.spacing_mut().item_spacing.x = 6.0;
            ui.spacing_mut().button_padding.x = 3.0;
            let half = Vec2::new((ui.available_width() - 6.0) / 2.0, TARGET);
            let small = |text: &str| RichText::new(text).font(theme::regular(size::SMALL));
            let copy = ui.add(egui::Button::new(small(words.copy_plan())).min_size(half));
            if copy.on_hover_text(words.command_copy_plan()).clicked() {
                scene.ask(Action::CopyPlan);
            }
            let chosen = scene.view.preview != Preview::Recommended;
            let label = small(words.show_recommended());
            let back = ui.add_enabled(chosen, egui::Button::new(label).min_size(half));
            if back
                .on_hover_text(words.command_show_recommended())
                .clicked()
            {
                scene.ask(Action::PreviewRecommended);
            }
        });
    });
}

/// The cautions that stand wherever turns are shown.
pub fn cautions(ui: &mut Ui, scene: &Scene<'_>) {
    let words = scene.words();
    let ink = scene.palette.caution;
    let mut text = LayoutJob::default();
    let part = |font| TextFormat::simple(font, ink);
    let heading = format!("⚠ {} ", words.caution_heading());
    text.append(&heading, 0.0, part(theme::bold(size::SMALL)));
    text.append(words.caution_text(), 0.0, part(theme::regular(size::SMALL)));
    ui.add(egui::Label::new(text).wrap());
}

fn rows(ui: &mut Ui, scene: &mut Scene<'_>) {
    let palette = scene.palette;
    let words = scene.words();
    let preview = scene.preview();
    let width = ui.available_width();
    let (heading, _) = ui.allocate_exact_size(Vec2::new(width, 16.0), Sense::hover());
    for (at, align, text) in [
        (
            heading.left_center(),
            Align2::LEFT_CENTER,
            words.column_turns(),
        ),
        (
            heading.right_center(),
            Align2::RIGHT_CENTER,
            words.column_spread(),
        ),
    ] {
        ui.painter()
            .text(at, align, text, theme::regular(size::SMALL), palette.muted);
    }
    for index in 0..scene.outlook.rows.len() {
        let Some(row) = scene.outlook.rows.get(index) else {
            continue;
        };
        let shown = row.turns == preview;
        let recommended = index == scene.outlook.recommended;
        if plan_row(ui, scene, row, shown, recommended) {
            let turns = row.turns.clone();
            scene.ask(Action::Preview(turns));
        }
    }
    let preview_is_a_row = scene.outlook.rows.iter().any(|row| row.turns == preview);
    if !preview_is_a_row
        && let Some(spread_nm) = scene.outlook.spread_after(scene.session, &preview)
    {
        let own = PlanRow {
            kind: RowKind::Leave,
            turns: preview,
            spread_nm,
        };
        ui.label(muted(palette, words.your_own_turns()));
        plan_row(ui, scene, &own, true, false);
    }
}

/// One row; answers whether it was pressed.
fn plan_row(ui: &mut Ui, scene: &Scene<'_>, row: &PlanRow, shown: bool, recommended: bool) -> bool {
    let palette = scene.palette;
    let figures = scene.figures;
    let words = scene.words();
    let turns = figures.turns(&row.turns);
    let spread = figures.predicted(row.spread_nm);
    let kind = match row.kind {
        RowKind::Outward => Some(words.kind_outward()),
        _ if recommended => Some(words.kind_recommended()),
        _ => None,
    };
    let inside = row.spread_nm <= scene.session.tolerance.length().nm_f64() + 1e-3;
    let width = ui.available_width();
    let font = if recommended {
        theme::bold(size::BODY)
    } else {
        theme::regular(size::BODY)
    };
    let spread_width = 74.0;
    let galley = ui.painter().layout(
        turns.clone(),
        font,
        palette.ink,
        width - spread_width - 20.0,
    );
    let text_height = galley.size().y + if kind.is_some() { 15.0 } else { 0.0 };
    let height = TARGET.max(text_height + 12.0);
    let (rect, response) = ui.allocate_exact_size(Vec2::new(width, height), Sense::click());
    let label = words.plan_row_label(
        &turns,
        &spread,
        if inside {
            words.verdict_inside()
        } else {
            words.verdict_outside()
        },
    );
    response.widget_info(|| WidgetInfo::selected(Role::RadioButton, true, shown, &label));
    let (fill, edge) = match (shown, response.hovered() || response.has_focus()) {
        (true, _) => (palette.preview_back, theme::stroke(2.0, palette.preview)),
        (false, true) => (palette.button_hover, theme::stroke(1.5, palette.present)),
        (false, false) => (palette.card, theme::stroke(1.0, palette.line)),
    };
    let painter = ui.painter();
    painter.rect(rect, CornerRadius::same(5), fill, edge, StrokeKind::Inside);
    let top = rect.center().y - text_height / 2.0;
    painter.galley(
        Pos2::new(rect.left() + 10.0, top),
        galley.clone(),
        palette.ink,
    );
    if let Some(kind) = kind {
        painter.text(
            Pos2::new(rect.left() + 10.0, top + galley.size().y + 1.0),
            Align2::LEFT_TOP,
            kind,
            theme::regular(size::SMALL - 1.0),
            palette.muted,
        );
    }
    painter.text(
        Pos2::new(rect.right() - 10.0, rect.center().y - 7.0),
        Align2::RIGHT_CENTER,
        spread,
        theme::bold(size::BODY),
        palette.ink,
    );
    let (mark, ink) = if inside {
        ("✓", palette.good)
    } else {
        ("✕", palette.preview)
    };
    let word = if inside {
        words.row_inside()
    } else {
        words.row_outside()
    };
    painter.text(
        Pos2::new(rect.right() - 10.0, rect.center().y + 9.0),
        Align2::RIGHT_CENTER,
        format!("{mark} {word}"),
        theme::regular(size::SMALL - 1.0),
        ink,
    );
    response.on_hover_text(words.show_it()).clicked()
}

/// What else is worth saying about the plan.
fn note(scene: &Scene<'_>) -> Option<String> {
    let words = scene.words();
    if scene.outlook.standing == Some(Standing::Inside) {
        return Some(words.inside_leave_alone().to_owned());
    }
    let smallest = scene
        .outlook
        .rows
        .iter()
        .map(|row| row.spread_nm)
        .fold(f64::INFINITY, f64::min);
    let tolerance = scene.session.tolerance.length().nm_f64();
    (smallest > tolerance + 1e-3).then(|| {
        words.no_whole_notches_reach(
            scene.figures.with_unit(&scene.figures.predicted(smallest)),
            scene.figures.limit(scene.session.tolerance.length()),
        )
    })
}
