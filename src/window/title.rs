//! What the desktop calls the window: the document first, with a star before
//! it while something is unsaved, then the program.

use eframe::egui::{self, ViewportCommand};

use super::App;

impl App {
    /// What the window is called now.
    pub(super) fn title(&self) -> String {
        let words = self.words();
        let name = if self.practicing.is_some() || self.view.lesson.is_some() {
            words.practice_mark().to_owned()
        } else {
            let star = if self.document.has_unsaved_changes() {
                "*"
            } else {
                ""
            };
            let name = self
                .files
                .name()
                .unwrap_or_else(|| match self.session().invented {
                    true => words.title_example().to_owned(),
                    false => words.command_new().to_owned(),
                });
            format!("{star}{name}")
        };
        format!("{name} - Jawtrue")
    }

    /// Tells the desktop, where it has changed.
    pub(super) fn follow_title(&mut self, ctx: &egui::Context) {
        let title = self.title();
        if self.titled != title {
            ctx.send_viewport_cmd(ViewportCommand::Title(title.clone()));
            self.titled = title;
        }
    }
}
