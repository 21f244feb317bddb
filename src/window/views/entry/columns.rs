//! Which repeats of the readings are on show, where they do not all fit.

use eframe::egui::{self, Role, Ui, Vec2, WidgetInfo};

use crate::press::CountQuantity;
use crate::session::Pass;
use crate::window::theme::TARGET;

use crate::window::views::Scene;

/// Which repeats are on show.
pub struct Columns {
    /// The first on show.
    pub first: usize,
    /// How many are on show.
    pub count: usize,
    /// How many there are.
    pub all: usize,
}

impl Columns {
    pub fn of(pass: &Pass, scene: &Scene<'_>, most: usize) -> Self {
        let used = used(pass);
        let full = used > 0 && pass.rows.iter().all(|row| row.len() >= used);
        let cells = &scene.view.readings.cells;
        let editing = cells.now.as_ref().map(|now| now.at.column);
        let guided = scene.view.guided.as_ref();
        let due = guided.and_then(|guided| guided.due(scene.session));
        let wanted = cells.next.map(|next| next.column);
        let wanted = wanted.or(due.map(|due| due.repeat));
        let asked_for = editing.max(wanted).map_or(0, |repeat| repeat + 1);
        let all = (used + usize::from(full && used < most))
            .max(LEAST_COLUMNS)
            .max(asked_for.min(most_repeats()));
        let count = all.min(most);
        let mut first = scene.view.first_repeat.min(all - count);
        if let Some(wanted) = wanted {
            // A cell that is asked for comes on show.
            first = first.clamp((wanted + 1).saturating_sub(count), wanted.min(all - count));
        }
        Self { first, count, all }
    }

    pub fn shown(&self) -> std::ops::Range<usize> {
        self.first..self.first + self.count
    }

    /// Steps through the repeats where they do not all fit.
    pub fn pager(&self, ui: &mut Ui, scene: &mut Scene<'_>) {
        if self.all <= self.count {
            return;
        }
        let words = scene.words();
        ui.horizontal(|ui| {
            let back = ui.add_enabled(
                self.first > 0,
                egui::Button::new("◀").min_size(Vec2::splat(TARGET)),
            );
            back.widget_info(|| WidgetInfo::labeled(Role::Button, true, words.earlier_repeats()));
            if back.clicked() {
                scene.view.first_repeat = self.first.saturating_sub(1);
            }
            ui.label(words.repeats_shown(self.first + 1, self.first + self.count, self.all));
            let more = self.first + self.count < self.all;
            let on = ui.add_enabled(more, egui::Button::new("▶").min_size(Vec2::splat(TARGET)));
            on.widget_info(|| WidgetInfo::labeled(Role::Button, more, words.later_repeats()));
            if on.clicked() {
                scene.view.first_repeat = self.first + 1;
            }
        });
    }
}

/// How many readings of each station a pass has room for.
fn used(pass: &Pass) -> usize {
    pass.rows.iter().map(Vec::len).max().unwrap_or(0)
}

/// How many are asked for: as many as one station has.
pub fn asked_of(pass: &Pass) -> usize {
    used(pass).max(LEAST_COLUMNS)
}

/// Fewest repeat columns on show.
pub const LEAST_COLUMNS: usize = 2;

/// Most repeats there can be.
pub fn most_repeats() -> usize {
    usize::try_from(CountQuantity::Repeats.bounds().most).unwrap_or(usize::MAX)
}
