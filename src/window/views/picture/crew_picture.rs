//! The jaws of the crew's view, moving from before to after.

use eframe::egui::{
    Align2, CornerRadius, Painter, Pos2, Rect, Role, Sense, Shape, StrokeKind, Ui, Vec2, WidgetInfo,
};

use crate::press::{ArmIndex, Notches};
use crate::window::theme;

use crate::window::state::Preview;
use crate::window::views::Scene;
use crate::window::views::comparing::profiles::means_nm;
use crate::window::views::picture::jaw_axis::JawAxis;
use crate::window::views::picture::jaws::{belt, grouped, jaw_from_above, outline, round_down_125};

/// What the view tells of a pass.
pub struct Story {
    /// Station means, in nanometres.
    pub before: Vec<Option<f64>>,
    /// The same after the turns: as measured where they were made, else as
    /// predicted.
    pub after: Vec<Option<f64>>,
    /// The turns after this pass.
    pub turns: Vec<Notches>,
    /// Whether the turns are already made.
    pub made: bool,
    /// Whether it is not known yet what to turn.
    pub unknown: bool,
}

impl Story {
    pub fn of(scene: &Scene<'_>) -> Self {
        let before = scene.outlook.means_nm.clone();
        let pass = scene.outlook.pass;
        let passes = scene.session.passes.len();
        if let Some(next) = pass.map(|pass| pass + 1).filter(|next| *next < passes) {
            return Self {
                before,
                after: means_nm(scene, next),
                turns: scene.session.turns_before(next),
                made: true,
                unknown: false,
            };
        }
        let turns = scene.preview();
        Self {
            before,
            after: scene.outlook.means_after(&turns),
            unknown: scene.view.preview == Preview::Recommended
                && scene.outlook.recommended_turns().is_none(),
            turns,
            made: false,
        }
    }

    /// Whether any nut is turned.
    pub fn turns_any(&self) -> bool {
        self.turns.iter().any(|turn| turn.0 != 0)
    }
}

/// Draws the picture, `height` points high, its letters of size `font`, the
/// jaws moved so far from before (0) to after (1).
pub fn show(ui: &mut Ui, scene: &Scene<'_>, story: &Story, moved: f64, (height, font): (f32, f32)) {
    let (area, response) =
        ui.allocate_exact_size(Vec2::new(ui.available_width(), height), Sense::hover());
    let words = scene.words();
    let step = scene.next_step();
    let sentence = scene.spoken(&step, |of| scene.figures.headline(&step, of));
    let description = words.crew_description(sentence);
    response.widget_info(|| WidgetInfo::labeled(Role::Image, true, &description));
    let painter = ui.painter_at(area);
    let axis = JawAxis {
        left: area.left() + font * 0.3,
        right: area.right() - font * 0.3,
        length_nm: scene.session.press.jaw_length.length().nm_f64(),
    };
    let line = font * 1.2;
    let marks_bottom = marks(&painter, scene, story, axis, (area.top(), font));
    let lower = Rect::from_min_max(
        Pos2::new(axis.left, area.bottom() - line),
        Pos2::new(axis.right, area.bottom()),
    );
    jaws(
        &painter,
        scene,
        story,
        moved,
        axis,
        (marks_bottom, lower, font),
    );
}

/// Letters of the arms and what their nuts are turned by; answers where they
/// end.
fn marks(
    painter: &Painter,
    scene: &Scene<'_>,
    story: &Story,
    axis: JawAxis,
    (top, font): (f32, f32),
) -> f32 {
    let palette = scene.palette;
    let line = font * 1.2;
    // A letter and its turn side by side where there is room, else the turn
    // below its letter.
    let laid: Vec<_> = scene
        .outlook
        .arms_nm
        .iter()
        .enumerate()
        .map(|(arm, &at)| {
            let turn = story.turns.get(arm).copied().unwrap_or_default();
            let lay = |text: String, ink| painter.layout_no_wrap(text, theme::bold(font), ink);
            let letter = lay(ArmIndex(arm).to_string(), palette.ink);
            let turn = (turn.0 != 0).then(|| lay(mark(turn), palette.preview));
            (axis.x(at), letter, turn)
        })
        .collect();
    let widest = laid
        .iter()
        .map(|(_, letter, turn)| {
            letter.size().x + turn.as_ref().map_or(0.0, |turn| turn.size().x + font * 0.2)
        })
        .fold(0.0, f32::max);
    let closest = laid
        .iter()
        .zip(laid.iter().skip(1))
        .map(|((left, ..), (right, ..))| right - left)
        .fold(f32::INFINITY, f32::min);
    let beside = widest + font * 0.25 <= closest;
    let below = !beside && laid.iter().any(|(_, _, turn)| turn.is_some());
    for (x, letter, turn) in laid {
        let both = match &turn {
            Some(turn) if beside => letter.size().x + font * 0.2 + turn.size().x,
            _ => letter.size().x,
        };
        let left = (x - both / 2.0).clamp(axis.left, (axis.right - both).max(axis.left));
        let after = left + letter.size().x + font * 0.2;
        painter.galley(Pos2::new(left, top), letter, palette.ink);
        if let Some(turn) = turn {
            let at = if beside {
                Pos2::new(after, top)
            } else {
                Pos2::new(x - turn.size().x / 2.0, top + line)
            };
            painter.galley(at, turn, palette.preview);
        }
    }
    top + if below { 2.0 * line } else { line }
}

/// A turn as an arrow and a number: up is out.
fn mark(turn: Notches) -> String {
    let arrow = if turn.0 > 0 { '▲' } else { '▼' };
    format!("{arrow}{}", turn.0.unsigned_abs())
}

/// Height of the widest gap, as a share of the picture's height.
const DEPTH: f32 = 0.08;

fn jaws(
    painter: &Painter,
    scene: &Scene<'_>,
    story: &Story,
    moved: f64,
    axis: JawAxis,
    (top, lower, font): (f32, Rect, f32),
) {
    let palette = scene.palette;
    let room = lower.top() - top;
    let rod = (room * 0.12).clamp(4.0, 30.0);
    let belt_height = (room * 0.1).clamp(4.0, 24.0);
    let jaw_top = top + rod;
    let belt_bottom = lower.top() - 5.0;
    let belt_top = belt_bottom - belt_height;
    let least = jaw_top + (room * 0.12).clamp(4.0, 30.0);
    let most = (belt_top - 4.0).max(least + 1.0);
    let known = story.before.iter().chain(&story.after).flatten().copied();
    let (thinnest, thickest) = known
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), mean| {
            (low.min(mean), high.max(mean))
        });
    let tolerance_nm = scene.session.tolerance.length().nm_f64();
    let range = if thinnest > thickest {
        tolerance_nm
    } else {
        (thickest - thinnest).max(tolerance_nm)
    };
    let range = range.max(scene.outlook.widest_nm);
    // However much room the words of this pass leave, the scale stays.
    let depth = (most - least).min(painter.ctx().content_rect().height() * DEPTH);
    let factor = round_down_125(f64::from(depth) / range / axis.points_per_nm());
    let points_per_nm = factor * axis.points_per_nm();
    let edge = |mean: f64| {
        let y = least + ((thickest - mean) * points_per_nm) as f32;
        y.clamp(least - 4.0, most + 4.0)
    };
    for &arm in &scene.outlook.arms_nm {
        let x = axis.x(arm);
        let width = (font * 0.12).max(4.0);
        painter.rect(
            Rect::from_x_y_ranges(x - width..=x + width, top..=jaw_top),
            CornerRadius::ZERO,
            palette.steel,
            theme::stroke(1.0, palette.steel_edge),
            StrokeKind::Inside,
        );
    }
    let between: Vec<Option<f64>> = story
        .before
        .iter()
        .zip(&story.after)
        .map(|(before, after)| match (before, after) {
            (Some(before), Some(after)) => Some(before + moved * (after - before)),
            (before, _) => *before,
        })
        .collect();
    let now = outline(scene, axis, &between, &edge, least);
    jaw_from_above(painter, scene, axis, jaw_top, &now);
    if story.turns_any() {
        let then = outline(scene, axis, &story.before, &edge, least);
        let stroke = theme::stroke(3.0, palette.preview);
        painter.extend(Shape::dashed_line(&then, stroke, 12.0, 8.0));
    }
    belt(painter, scene, axis, (belt_top, belt_bottom));
    painter.rect(
        lower,
        CornerRadius::same(2),
        palette.steel,
        theme::stroke(1.0, palette.steel_edge),
        StrokeKind::Inside,
    );
    let words = scene.words();
    let note = if story.turns_any() {
        words.crew_gap_before(grouped(factor))
    } else {
        words.crew_gap(grouped(factor))
    };
    painter.text(
        lower.center(),
        Align2::CENTER_CENTER,
        note,
        theme::bold(font),
        palette.ink,
    );
}
