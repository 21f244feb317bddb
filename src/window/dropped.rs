//! Files dropped on the window: one more way to open them.

use std::path::{Path, PathBuf};

use eframe::egui::{self, Align2, Area, Frame, Margin, Order, RichText, Vec2};

use crate::words::Language;

use super::App;
use super::action::Action;
use super::messages::Tone;
use super::state::dialog::{PathFor, Then};
use super::theme::{self, Palette, size};

/// What a file that is dropped would do.
fn opening(path: PathBuf) -> Then {
    if is_press_file(&path) {
        Then::NextVisitOf(path)
    } else {
        // What is no session is said when it is opened.
        Then::OpenPath(path)
    }
}

fn is_press_file(path: &Path) -> bool {
    path.extension()
        .is_some_and(|ending| ending.eq_ignore_ascii_case(PathFor::OpenPress.ending()))
}

impl App {
    /// Opens what was dropped on the window.
    pub(super) fn take_dropped(&mut self, ctx: &egui::Context, now: f64) {
        let dropped = ctx.input_mut(|input| std::mem::take(&mut input.raw.dropped_files));
        let Some(first) = dropped.first() else {
            return;
        };
        if self.view.dialog.is_some() || self.view.is_turning() {
            self.say(
                Tone::Problem,
                self.words().drop_after_dialog().to_owned(),
                now,
            );
            return;
        }
        if dropped.len() > 1 {
            self.say(
                Tone::Problem,
                self.words().drop_first_only().to_owned(),
                now,
            );
        }
        let then = opening(first.path().to_owned());
        self.act(ctx, Action::Leave(then), now);
    }
}

/// Says what will happen while a file is held over the window.
pub fn show_hovered(ctx: &egui::Context, words: Language, palette: &Palette, unsaved: bool) {
    let hovered = ctx.input(|input| input.raw.hovered_files.clone());
    let Some(first) = hovered.first() else {
        return;
    };
    // Some desktops do not tell the path before the file is let go.
    let name = first
        .path
        .as_deref()
        .and_then(Path::file_name)
        .map(|name| name.to_string_lossy().into_owned());
    let sentence = match (&first.path, name) {
        (Some(path), Some(name)) if is_press_file(path) => words.drop_press(name),
        (Some(_), Some(name)) => words.drop_session(name),
        _ => words.drop_something().to_owned(),
    };
    let screen = ctx.content_rect();
    Area::new(egui::Id::unique("dropped"))
        .order(Order::Foreground)
        .anchor(Align2::CENTER_CENTER, Vec2::ZERO)
        .show(ctx, |ui| {
            let shade = palette.paper.gamma_multiply(0.75);
            ui.painter().rect_filled(screen, 0, shade);
            Frame::new()
                .fill(palette.card)
                .stroke(theme::stroke(3.0, palette.present))
                .corner_radius(12)
                .inner_margin(Margin::same(28))
                .show(ui, |ui| {
                    ui.set_max_width(520.0_f32.min(screen.width() - 100.0));
                    ui.label(RichText::new(sentence).font(theme::bold(size::SENTENCE)));
                    if unsaved {
                        ui.label(words.drop_unsaved());
                    }
                });
        });
}
