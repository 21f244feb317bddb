//! The coarse gap: a field for every arm, its profile against the usual 1/8
//! in, and what would mend it.

use eframe::egui::{
    Align2, Key, Painter, Pos2, Rect, Role, Sense, Shape, StrokeKind, Ui, Vec2, WidgetInfo,
};

use crate::press::{ArmIndex, customary};
use crate::session::{Field, GapLevel};
use crate::window::action::Action;
use crate::window::theme::{self, size};

use crate::window::views::Scene;
use crate::window::views::forms::session_field::per_arm;
use crate::window::views::picture::jaw_axis::JawAxis;
use crate::window::views::visit::noting::{draft_key, hands_may_go_in, set, typed_over};
use crate::window::views::widgets::{button, muted, name_text, strong};

/// Width of a field and of its name, and least height of the picture.
const FIELD: f32 = 84.0;
const NAME: f32 = 22.0;
const PICTURE: f32 = 150.0;

/// Least height of a jaw in the picture.
const JAW: f32 = 22.0;

/// Draws fields, picture and sentences.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>) {
    let words = scene.words();
    let palette = scene.palette;
    ui.label(strong(words.gap_title()));
    fields(ui, scene);
    if let Some(gap) = scene.session.coarse_gap() {
        let sentences = scene.figures.coarse_gap_sentences(&gap);
        let good = gap.even && gap.level == GapLevel::About;
        let (mark, ink) = if good {
            ("✓", palette.good)
        } else {
            ("✕", palette.outside)
        };
        let mut sentences = sentences.into_iter();
        if let Some(first) = sentences.next() {
            ui.label(strong(format!("{mark} {first}")).color(ink));
        }
        for sentence in sentences {
            ui.label(sentence);
        }
        if gap.nuts.iter().any(|nut| nut.allowed) && button(ui, words.go_and_turn_gap()).clicked() {
            scene.ask(Action::GoAndTurnGap);
        }
    }
    ui.label(muted(palette, scene.figures.coarse_gap_source()));
}

fn fields(ui: &mut Ui, scene: &mut Scene<'_>) {
    let words = scene.words();
    let arms = scene.session.press.arms.len();
    let open = hands_may_go_in(scene);
    let (mut go_to, mut ids) = (None, Vec::new());
    per_arm(ui, arms, FIELD + NAME, |ui, arm| {
        let field = Field::CoarseGap(arm);
        let gap = scene.session.coarse_gap_at(arm);
        let text = gap.map_or_else(String::new, |gap| scene.figures.in_field(gap));
        let key = draft_key(field);
        let typed = ui.add_enabled_ui(open, |ui| typed_over(ui, scene, &key, &text, FIELD, None));
        let (response, typed) = typed.inner;
        let value = scene.view.visit.drafts.get(&key).unwrap_or(&text).clone();
        name_text(&response, &words.field(field), &value);
        ids.push(response.id);
        if response.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter)) {
            go_to = Some(arm.0 + 1);
        }
        if let Some(typed) = typed {
            set(scene, field, typed);
        }
    });
    // Enter goes on to the next arm.
    if let Some(id) = go_to.and_then(|arm| ids.get(arm)) {
        ui.memory_mut(|memory| memory.request_focus(*id));
    }
}

/// The gap along the jaw, as far as it is measured, over what is usual.
pub fn picture(ui: &mut Ui, scene: &Scene<'_>, height: f32) {
    let gap = scene.session.coarse_gap();
    let empty = gap.is_none();
    let uneven = gap.filter(|gap| !gap.even);
    let palette = scene.palette;
    let figures = scene.figures;
    let size = Vec2::new(ui.available_width(), height.max(PICTURE));
    let (area, response) = ui.allocate_exact_size(size, Sense::hover());
    let described = figures.coarse_gap_described(scene.session);
    response.widget_info(|| WidgetInfo::labeled(Role::Image, true, &described));
    let painter = ui.painter();
    let axis = JawAxis {
        left: area.left() + 8.0,
        right: area.right() - 8.0,
        length_nm: scene.session.press.jaw_length.length().nm_f64(),
    };
    let (usual, leeway) = (
        customary::COARSE_GAP.nm_f64(),
        customary::COARSE_GAP_LEEWAY.nm_f64(),
    );
    let mut gaps: Vec<(ArmIndex, f32, f64)> = Vec::new();
    for (arm, at) in scene.session.press.indexed_arms() {
        let x = axis.x(at.position.length().nm_f64());
        painter.text(
            Pos2::new(x, area.top()),
            Align2::CENTER_TOP,
            arm,
            theme::bold(size::TITLE),
            palette.muted,
        );
        if let Some(gap) = scene.session.coarse_gap_at(arm) {
            gaps.push((arm, x, gap.length().nm_f64()));
        }
    }
    let high = gaps.iter().fold(usual + leeway, |high, at| high.max(at.2));
    let plot = Rect::from_min_max(
        Pos2::new(axis.left, area.top() + 28.0 + JAW),
        Pos2::new(axis.right, area.bottom() - 4.0 - JAW),
    );
    let y = |gap: f64| plot.bottom() - plot.height() * (gap / high.max(1.0)) as f32;
    let points: Vec<Pos2> = gaps
        .iter()
        .map(|&(_, x, gap)| Pos2::new(x, y(gap)))
        .collect();
    jaws(painter, scene, plot, &points, y(usual));
    let band = Rect::from_min_max(
        Pos2::new(plot.left(), y(usual + leeway)),
        Pos2::new(plot.right(), y(usual - leeway)),
    );
    painter.rect(
        band,
        0,
        palette.band.gamma_multiply(0.7),
        theme::stroke(1.0, palette.band_edge.gamma_multiply(0.4)),
        StrokeKind::Inside,
    );
    let line = [
        Pos2::new(plot.left(), y(usual)),
        Pos2::new(plot.right(), y(usual)),
    ];
    let dashes = Shape::dashed_line(&line, theme::stroke(1.5, palette.band_edge), 6.0, 4.0);
    painter.extend(dashes);
    painter.text(
        Pos2::new(plot.right() - 5.0, y(usual) + 2.0),
        Align2::RIGHT_TOP,
        scene.words().gap_usual_line(figures.about_gap()),
        theme::regular(size::SMALL),
        palette.band_edge,
    );
    if empty {
        let said = scene.words().gap_needs_two().to_owned();
        let body = theme::regular(size::BODY);
        let said = painter.layout(said, body, palette.ink, plot.width() - 40.0);
        let between = Pos2::new(plot.center().x, (band.bottom() + plot.bottom()) / 2.0);
        painter.galley(between - said.size() / 2.0, said, palette.ink);
    }
    painter.add(Shape::line(
        points.clone(),
        theme::stroke(2.4, palette.present),
    ));
    for (&(arm, x, value), point) in gaps.iter().zip(points) {
        let widest = uneven.as_ref().is_some_and(|gap| arm == gap.widest);
        let odd = widest || uneven.as_ref().is_some_and(|gap| arm == gap.narrowest);
        let ink = if odd {
            palette.outside
        } else {
            palette.present
        };
        painter.circle(point, 6.0, palette.card, theme::stroke(2.4, ink));
        let mark = match (odd, widest) {
            (true, true) => "▲",
            (true, false) => "▼",
            _ => "",
        };
        let digits = figures.gap(crate::units::Length::from_nm(value as i64).into());
        painter.text(
            Pos2::new(x, point.y + 9.0),
            Align2::CENTER_TOP,
            format!("{mark}{digits}"),
            theme::regular(size::SMALL),
            ink,
        );
    }
}

/// The jaws with the gap between them to scale: the upper one as it was measured,
/// and level on to its ends; where nothing was, as it usually stands.
fn jaws(painter: &Painter, scene: &Scene<'_>, plot: Rect, points: &[Pos2], usual: f32) {
    let (palette, words) = (scene.palette, scene.words());
    let edge = |point: Option<&Pos2>| point.map_or(usual, |point| point.y);
    let mut under = vec![Pos2::new(plot.left(), edge(points.first()))];
    under.extend(points);
    under.push(Pos2::new(plot.right(), edge(points.last())));
    let steel = palette.steel;
    for (from, to) in under.iter().zip(under.iter().skip(1)) {
        let above = |at: &Pos2| Pos2::new(at.x, plot.top() - JAW);
        let part = vec![above(from), above(to), *to, *from];
        painter.add(Shape::convex_polygon(
            part,
            steel,
            theme::stroke(0.0, steel),
        ));
    }
    painter.add(Shape::line(under, theme::stroke(1.5, palette.steel_edge)));
    let lower = Rect::from_min_max(
        plot.left_bottom(),
        plot.right_bottom() + Vec2::new(0.0, JAW),
    );
    let edge = theme::stroke(1.5, palette.steel_edge);
    painter.rect(lower, 0, steel, edge, StrokeKind::Inside);
    let inset = Vec2::new(5.0, JAW / 2.0);
    for (jaw, name) in [
        (plot.left_top() - Vec2::new(0.0, JAW), words.jaw_above()),
        (lower.min, words.moving_jaw()),
    ] {
        let small = theme::regular(size::SMALL);
        painter.text(jaw + inset, Align2::LEFT_CENTER, name, small, palette.ink);
    }
}
