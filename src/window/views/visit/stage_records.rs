//! What single stages record: where the nuts stand, what drives the jaw.

use eframe::egui::{Button, RichText, Ui, Vec2};

use crate::press::{Notches, customary};
use crate::session::{Edit, Field};
use crate::window::action::Action;
use crate::window::theme::{self, TARGET};

use crate::window::views::Scene;
use crate::window::views::visit::stage::{draft_key, hands_may_go_in, set, typed_over};
use crate::window::views::widgets::{button, muted};

/// Where the nuts stand before the first pass.
pub fn nuts(ui: &mut Ui, scene: &mut Scene<'_>) {
    let words = scene.words();
    let session = scene.session;
    let nuts: Vec<String> = session
        .press
        .indexed_arms()
        .zip(&session.start_nuts)
        .map(|((arm, _), nut)| format!("{arm} {nut}"))
        .collect();
    ui.label(words.nuts_noted_at(nuts.join(", ")));
    let away = session.start_nuts.iter().any(|nut| nut.0 != 0);
    // Once a pass is laced, its turns count from where the nuts started.
    if !away || !session.passes.is_empty() {
        return;
    }
    let open = hands_may_go_in(scene);
    let flush = ui.add_enabled_ui(open, |ui| button(ui, words.note_all_flush()));
    if flush.inner.clicked() {
        for ((arm, _), nut) in session.press.indexed_arms().zip(&session.start_nuts) {
            if nut.0 != 0 {
                scene.ask(Action::Edit(Edit::SetNut {
                    pass: None,
                    arm,
                    position: Notches(0),
                }));
            }
        }
    }
}

/// Idler sprockets and short chains, properties of the press.
pub fn drive(ui: &mut Ui, scene: &mut Scene<'_>) {
    let open = hands_may_go_in(scene);
    ui.add_enabled_ui(open, |ui| drive_as_found(ui, scene));
}

fn drive_as_found(ui: &mut Ui, scene: &mut Scene<'_>) {
    let words = scene.words();
    let palette = scene.palette;
    let drive = scene.session.press.drive;
    ui.horizontal_wrapped(|ui| {
        let label = ui.label(words.field(Field::IdlerSprockets));
        let field = Field::IdlerSprockets;
        let text = drive
            .idler_sprockets
            .map_or_else(String::new, |idlers| idlers.to_string());
        let key = draft_key(field);
        let (_, typed) = typed_over(ui, scene, &key, &text, 64.0, Some(label.id));
        if let Some(typed) = typed {
            set(scene, field, typed);
        }
    });
    let usual = customary::idler_sprockets(scene.session.press.arms.len());
    if drive
        .idler_sprockets
        .is_some_and(|idlers| idlers as usize != usual)
    {
        ui.label(muted(palette, words.idlers_unusual(usual)));
    }
    ui.horizontal_wrapped(|ui| {
        ui.label(words.short_chains());
        for (choice, text) in [
            (Some(true), words.short_chains_fitted()),
            (Some(false), words.short_chains_none()),
            (None, words.short_chains_unknown()),
        ] {
            let chosen = drive.short_chains == choice;
            let mark = if chosen { "● " } else { "○ " };
            let mut choose = Button::new(RichText::new(format!("{mark}{text}")))
                .selected(chosen)
                .min_size(Vec2::splat(TARGET));
            if chosen {
                choose = choose.stroke(theme::stroke(2.0, palette.present));
            }
            if ui.add(choose).clicked() {
                scene.ask(Action::Edit(Edit::SetShortChains(choice)));
            }
        }
    });
}
