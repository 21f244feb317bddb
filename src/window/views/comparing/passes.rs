//! The passes of the visit, and the nut positions each was laced at.

use crate::window::views::forms::draft::draft;
use eframe::egui::{
    self, Align2, CornerRadius, Pos2, Role, Sense, StrokeKind, Ui, Vec2, WidgetInfo,
};

use crate::press::{ArmIndex, Notches};
use crate::session::{Edit, Stands};
use crate::window::action::Action;
use crate::window::theme::{self, TARGET, size};

use crate::window::views::Scene;
use crate::window::views::hint::Hint;
use crate::window::views::widgets::{button, muted, title};
use crate::words::Word;

/// Draws the list.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>) {
    let words = scene.words();
    ui.horizontal(|ui| {
        title(ui, words.passes()).hint(words.explain(Word::Pass));
        if scene.session.passes.is_empty() {
            return;
        }
        ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
            let side = button(ui, words.side_button());
            if side.hint(words.command_side_by_side()).clicked() {
                scene.ask(Action::SideBySide);
            }
        });
    });
    // The newest first: it is the one at work.
    for index in (0..scene.session.passes.len()).rev() {
        row(ui, scene, index);
    }
    if let Some(pass) = scene.outlook.pass {
        tools(ui, scene, pass);
    }
}

fn row(ui: &mut Ui, scene: &mut Scene<'_>, index: usize) {
    let words = scene.words();
    let palette = scene.palette;
    let shown = scene.outlook.pass == Some(index);
    let open = shown && scene.outlook.gate.stands == Stands::Open;
    let spread = match scene.session.spread_of(index) {
        // What is missing or doubtful may change it.
        Some(_) if open => words.spread_open().to_owned(),
        Some(spread) => {
            let tolerance = scene.session.tolerance.length();
            words.spread_is(scene.figures.spread(&spread, tolerance))
        }
        None => words.not_read_yet().to_owned(),
    };
    let mut name = pass_name(scene, index);
    let corrected = scene.session.passes.get(index);
    if corrected.is_some_and(|pass| !pass.corrections.is_empty()) {
        name = words.pass_corrected(name);
    }
    let turns = scene.session.turns_before(index);
    let turned = turns.iter().any(|turn| turn.0 != 0);
    let (rect, response) =
        ui.allocate_exact_size(Vec2::new(ui.available_width(), TARGET), Sense::click());
    let label = format!("{name}, {spread}");
    let response = match scene.session.spread_of(index) {
        Some(spread) => {
            let exact = scene.figures.exact_mean(spread.value);
            response.hint(words.exactly(exact))
        }
        None => response,
    };
    response.widget_info(|| WidgetInfo::selected(Role::RadioButton, true, shown, &label));
    let painter = ui.painter();
    let (fill, edge) = match (shown, response.hovered()) {
        (true, _) => (palette.button, theme::stroke(2.0, palette.present)),
        (false, true) => (palette.button_hover, theme::stroke(1.0, palette.present)),
        (false, false) => (palette.card, theme::stroke(1.0, palette.line)),
    };
    painter.rect(rect, CornerRadius::same(5), fill, edge, StrokeKind::Inside);
    let font = if shown {
        theme::bold(size::BODY)
    } else {
        theme::regular(size::BODY)
    };

    let offset = if turned { -8.0 } else { 0.0 };
    painter.text(
        Pos2::new(rect.left() + 9.0, rect.center().y + offset),
        Align2::LEFT_CENTER,
        name,
        font,
        palette.ink,
    );
    painter.text(
        Pos2::new(rect.right() - 9.0, rect.center().y + offset),
        Align2::RIGHT_CENTER,
        spread,
        theme::regular(size::SMALL),
        palette.ink,
    );
    if turned {
        painter.text(
            Pos2::new(rect.left() + 9.0, rect.center().y + 10.0),
            Align2::LEFT_CENTER,
            scene.figures.turns(&turns),
            theme::regular(size::SMALL),
            palette.preview,
        );
    }
    if response.clicked() {
        scene.ask(Action::ShowPass(Some(index)));
    }
}

/// `1 as found`, `2`, `3 as left`.
fn pass_name(scene: &Scene<'_>, index: usize) -> String {
    let words = scene.words();
    let last = scene.session.passes.len() - 1;
    let number = index + 1;
    if index == 0 {
        words.pass_as_found(number)
    } else if index == last {
        words.pass_as_left(number)
    } else {
        words.pass_number(number)
    }
}

/// Correcting the pass on show.
fn tools(ui: &mut Ui, scene: &mut Scene<'_>, pass: usize) {
    let words = scene.words();
    egui::CollapsingHeader::new(words.correct_this_pass())
        .id_salt("correct pass")
        .show(ui, |ui| {
            if button(ui, words.insert_pass_before()).clicked() {
                scene.ask(Action::Edit(Edit::InsertPass { at: pass }));
            }
            if button(ui, words.delete_pass()).clicked() {
                scene.ask(Action::Edit(Edit::DeletePass { pass }));
            }
            ui.label(muted(scene.palette, words.nut_positions_hint()));
            for arm in 0..scene.session.press.arms.len() {
                stepper(ui, scene, pass, ArmIndex(arm));
            }
            handle(ui, scene, pass);
        });
}

/// The move of the common handle before the pass on show.
fn handle(ui: &mut Ui, scene: &mut Scene<'_>, pass: usize) {
    let words = scene.words();
    ui.label(muted(scene.palette, words.handle_hint()));
    let moved = scene
        .session
        .passes
        .get(pass)
        .and_then(|pass| pass.handle.as_ref());
    let text = moved.map_or_else(String::new, |moved| scene.figures.in_field(moved));
    let key = format!("handle {pass}");
    let mut drafts = std::mem::take(&mut scene.view.pass_drafts);
    let name = words.quantity_handle_move();
    let typed = draft(ui, &mut drafts, &key, name, text, 120.0);
    scene.view.pass_drafts = drafts;
    if let Some(text) = typed {
        let bare = scene.figures.unit;
        scene.ask(Action::Edit(Edit::SetHandle { pass, text, bare }));
    }
}

fn stepper(ui: &mut Ui, scene: &mut Scene<'_>, pass: usize, arm: ArmIndex) {
    let words = scene.words();
    let position = scene
        .session
        .nuts_at(pass)
        .get(arm.0)
        .copied()
        .unwrap_or_default();
    ui.horizontal(|ui| {
        ui.add_sized([24.0, TARGET], egui::Label::new(arm.to_string()));
        let mut by = 0;
        for (text, step) in [("−", -1), ("+", 1)] {
            let name = words.correct_nut(arm, text);
            let pressed = ui.add(egui::Button::new(text).min_size(Vec2::splat(TARGET)));
            pressed.widget_info(|| WidgetInfo::labeled(Role::Button, true, &name));
            if pressed.clicked() {
                by = step;
            }
            if step < 0 {
                ui.add_sized([44.0, TARGET], egui::Label::new(position.to_string()));
            }
        }
        if by != 0 {
            scene.ask(Action::Edit(Edit::SetNut {
                pass: Some(pass),
                arm,
                position: position + Notches(by),
            }));
        }
    });
}
