//! One way to go on, as a row: turns, what is to be expected, and its chance.

use eframe::egui::{Align2, CornerRadius, Pos2, Role, Sense, StrokeKind, Ui, Vec2, WidgetInfo};

use crate::plan::Forecast;
use crate::press::Notches;
use crate::window::theme::{self, TARGET, size};

use crate::window::views::Scene;
use crate::window::views::hint::Hint;
use crate::window::views::widgets::say_changes;

/// Largest share of a row's width that its chance takes in one line.
const CHANCE_SHARE: f32 = 0.4;

/// Height of a row's spread.
const SPREAD_HEIGHT: f32 = 18.0;

/// What a row shows.
pub struct Line<'a> {
    pub turns: &'a [Notches],
    pub forecast: Forecast,
    pub note: String,
    pub shown: bool,
    /// Whether a screen reader says it when it changes.
    pub said: bool,
}

/// One row; answers whether it was pressed.
pub fn plan_row(ui: &mut Ui, scene: &Scene<'_>, line: &Line<'_>) -> bool {
    let palette = scene.palette;
    let figures = scene.figures;
    let words = scene.words();
    let turns = figures.turns(line.turns);
    let spread = figures.predicted(line.forecast.median_nm);
    let chance = figures.chance(line.forecast.chance);
    let width = ui.available_width();
    let small = theme::regular(size::LEAST);
    let painter = ui.painter();
    // The chance gives way before the turns do.
    let least = width * CHANCE_SHARE;
    let chance_galley = painter.layout(chance.clone(), small.clone(), palette.ink, least);
    let right_width = chance_galley.size().x.max(64.0);
    let font = if line.shown {
        theme::bold(size::BODY)
    } else {
        theme::regular(size::BODY)
    };
    let room = width - right_width - 26.0;
    let mut galley = painter.layout_no_wrap(turns.clone(), font.clone(), palette.ink);
    // Turns of many nuts have the whole width, and figures stand below them.
    let above = galley.size().x > room;
    if above {
        let kept = turns.replace(' ', "\u{a0}").replace(",\u{a0}", ", ");
        galley = painter.layout(kept, font, palette.ink, width - 18.0);
    }
    let note = painter.layout(line.note.clone(), small.clone(), palette.muted, room);
    let note_height = if line.note.is_empty() {
        0.0
    } else {
        note.size().y
    };
    let right_height = SPREAD_HEIGHT + chance_galley.size().y;
    let turns_height = galley.size().y;
    let text_height = match above {
        true => turns_height + note_height.max(right_height),
        false => (turns_height + note_height).max(right_height),
    };
    let height = TARGET.max(text_height + 12.0);
    let (rect, response) = ui.allocate_exact_size(Vec2::new(width, height), Sense::click());
    let label = words.plan_row_label(&turns, &spread, &chance);
    let label = format!("{label}; {}", line.note);
    response.widget_info(|| WidgetInfo::selected(Role::RadioButton, true, line.shown, &label));
    if line.said {
        say_changes(&response);
    }
    let (fill, edge) = match (line.shown, response.hovered()) {
        (true, _) => (palette.preview_back, theme::stroke(2.0, palette.preview)),
        (false, true) => (palette.button_hover, theme::stroke(1.5, palette.present)),
        (false, false) => (palette.card, theme::stroke(1.0, palette.line)),
    };
    let painter = ui.painter();
    painter.rect(rect, CornerRadius::same(5), fill, edge, StrokeKind::Inside);
    let top = match above {
        true => rect.center().y - text_height / 2.0,
        false => rect.center().y - (turns_height + note_height) / 2.0,
    };
    let right_top = match above {
        true => top + turns_height,
        false => rect.center().y - right_height / 2.0,
    };
    let left = rect.left() + 9.0;
    painter.galley(Pos2::new(left, top), galley, palette.ink);
    painter.galley(Pos2::new(left, top + turns_height), note, palette.muted);
    let right = rect.right() - 9.0;
    painter.text(
        Pos2::new(right, right_top),
        Align2::RIGHT_TOP,
        spread,
        theme::bold(size::BODY),
        palette.ink,
    );
    let below = right_top + SPREAD_HEIGHT;
    let at = Pos2::new(right - chance_galley.size().x, below);
    painter.galley(at, chance_galley, palette.ink);
    let ninety = figures.with_unit(&figures.predicted(line.forecast.p90_nm));
    let mut hint = format!("{}\n{}", words.show_it(), words.row_ninety(ninety));
    if line.turns.iter().all(|turn| turn.0 == 0) {
        hint = format!("{hint}\n{}", words.leaving_differs());
    }
    response.hint(hint).clicked()
}
