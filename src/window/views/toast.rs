//! What the program just said, where it covers nothing that can be pressed:
//! over the name of the press; where that has no room for it, in a strip of its
//! own; and above a dialog, where nothing else can be pressed.

use eframe::egui::{
    self, Align, Align2, Area, Button, Frame, Label, Layout, Margin, Order, Panel, RichText, Ui,
    Vec2,
};

use crate::window::action::Action;
use crate::window::messages::{Message, Tone};
use crate::window::theme::{self, TARGET, size};
use crate::window::views::Scene;
use crate::window::views::widgets::say_changes;

/// Most lines over the name of the press.
const LINES: usize = 2;

/// Where it stands.
enum Place {
    Heading(egui::Rect),
    Strip,
    Above,
}

fn place(ctx: &egui::Context, scene: &Scene<'_>, message: &Message) -> Place {
    if scene.view.dialog.is_some() {
        return Place::Above;
    }
    // The shop fills the window, and has no such heading.
    if scene.view.shop.open {
        return Place::Strip;
    }
    let Some(heading) = scene.view.heading.filter(|_| scene.view.headed) else {
        return Place::Strip;
    };
    let width = heading.width() - TARGET - 44.0;
    let font = theme::regular(size::SMALL);
    let ink = scene.palette.ink;
    let text = format!("✓  {}", message.text);
    let galley = ctx.fonts_mut(|fonts| fonts.layout(text, font, ink, width));
    if galley.rows.len() <= LINES {
        Place::Heading(heading)
    } else {
        Place::Strip
    }
}

/// Draws the strip, where that is the place for it.
pub fn strip(ui: &mut Ui, scene: &mut Scene<'_>) {
    let strip = |message: &&Message| matches!(place(ui.ctx(), scene, message), Place::Strip);
    let Some(message) = scene.said.filter(strip) else {
        // The strip takes one of the names that egui counts out. Without it what
        // follows would be another widget: the keyboard would leave it, and a
        // press would not meet its release, whenever a message comes or goes.
        ui.skip_ahead_auto_ids(1);
        return;
    };
    let frame = frame(scene, message);
    // Below the shop, so that nothing there moves when it comes and goes.
    let panel = match scene.view.shop.open {
        true => Panel::bottom("said below"),
        false => Panel::top("said"),
    };
    panel
        .frame(frame)
        .show(ui, |ui| said(ui, scene, message, size::BODY));
}

/// Draws it over the name of the press or above a dialog, where that is the
/// place for it.
pub fn over(ctx: &egui::Context, scene: &mut Scene<'_>) {
    let Some(message) = scene.said else { return };
    let (size, width, font) = match place(ctx, scene, message) {
        Place::Strip => return,
        Place::Heading(heading) => (heading, heading.width(), size::SMALL),
        Place::Above => {
            let screen = ctx.content_rect();
            let width = (screen.width() * 0.8).min(700.0);
            let top = egui::Rect::from_center_size(screen.center_top(), Vec2::new(width, 8.0));
            (top, width, size::BODY)
        }
    };
    Area::new(egui::Id::unique("toast"))
        .order(Order::Foreground)
        .pivot(Align2::LEFT_TOP)
        .fixed_pos(size.left_top().max(egui::Pos2::ZERO))
        .show(ctx, |ui| {
            let frame = frame(scene, message)
                .stroke(theme::stroke(1.5, inks(scene, message).1))
                .corner_radius(8);
            frame.show(ui, |ui| {
                ui.set_width(width - 16.0);
                said(ui, scene, message, font);
            });
        });
}

fn inks(scene: &Scene<'_>, message: &Message) -> (&'static str, egui::Color32, egui::Color32) {
    let palette = scene.palette;
    match message.tone {
        Tone::Done => ("✓", palette.good, palette.good_back),
        Tone::Problem => ("⚠", palette.caution, palette.caution_back),
    }
}

fn frame(scene: &Scene<'_>, message: &Message) -> Frame {
    let (_, _, back) = inks(scene, message);
    Frame::new()
        .fill(back)
        .inner_margin(Margin::symmetric(8, 1))
}

/// The sentence, and the button that takes it out of sight.
fn said(ui: &mut Ui, scene: &mut Scene<'_>, message: &Message, font: f32) {
    let (mark, ink, _) = inks(scene, message);
    let words = scene.words();
    let text = RichText::new(format!("{mark}  {}", message.text)).font(theme::regular(font));
    ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
        ui.set_height(TARGET);
        let close = ui.add(Button::new(words.dismiss()).min_size(Vec2::splat(TARGET)));
        if close.clicked() {
            scene.ask(Action::DismissMessage);
        }
        ui.with_layout(Layout::left_to_right(Align::Center), |ui| {
            say_changes(&ui.add(Label::new(text.color(ink)).wrap()));
        });
    });
}
