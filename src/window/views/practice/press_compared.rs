//! What a press that is drawn is compared with: the profile before, the band,
//! and what is marked of the splice.

use eframe::egui::{CornerRadius, Mesh, Painter, Pos2, Rangef, Rect, Shape, StrokeKind, Vec2};

use crate::window::theme::{self, Palette};
use crate::window::views::picture::splice::strip;
use crate::window::views::practice::press_drawn::{Places, PressDrawn};

/// A change of the splice that is marked at a place, with what is written.
pub struct Mark {
    /// Where along the jaw.
    pub at_nm: f64,
    /// The change of the splice there.
    pub now_nm: f64,
    /// How much of it is marked.
    pub change_nm: f64,
    /// What is written.
    pub text: String,
}

/// Dims the splice but for the arms that are spoken of.
pub fn dim(
    painter: &Painter,
    palette: &Palette,
    drawn: &PressDrawn<'_>,
    places: &Places,
    edge: &[Pos2],
) {
    // Where nothing is marked the rods are spoken of, not the splice.
    if drawn.arms.is_empty() || drawn.marks.is_empty() {
        return;
    }
    let half = 0.3 * places.width / drawn.arms_nm.len().max(1) as f32;
    let spoken = drawn.arms.iter().filter_map(|arm| drawn.arms_nm.get(*arm));
    let spoken: Vec<f32> = spoken.map(|at| places.x(*at)).collect();
    let bright = |at: &Pos2| spoken.iter().any(|x| (at.x - x).abs() < half);
    let veil = palette.card.gamma_multiply(0.55);
    for dimmed in edge.split(bright).filter(|dimmed| dimmed.len() > 1) {
        let mut mesh = Mesh::default();
        strip(&mut mesh, dimmed, |_| places.bottom, veil);
        painter.add(Shape::mesh(mesh));
    }
}

/// The profile before, the band, and what is marked.
pub fn show(
    painter: &Painter,
    palette: &Palette,
    drawn: &PressDrawn<'_>,
    places: &Places,
    font: f32,
) {
    let last = drawn.before_nm.len().saturating_sub(1).max(1) as f32;
    let before = (0_u16..).zip(drawn.before_nm).map(|(index, change)| {
        let x = places.left + places.width * f32::from(index) / last;
        Pos2::new(x, places.y(*change))
    });
    let before: Vec<Pos2> = before.collect();
    let dots = Shape::dotted_line(&before, palette.ink, 6.0, 1.4);
    painter.extend(dots);
    for edge in drawn.band_nm.into_iter().flatten() {
        let y = places.y(edge);
        let ends = [places.left, places.left + places.width].map(|x| Pos2::new(x, y));
        let stroke = theme::stroke(2.0, palette.good);
        painter.extend(Shape::dashed_line(&ends, stroke, 10.0, 7.0));
    }
    for mark in drawn.marks {
        let x = places.x(mark.at_nm);
        let [now, from] = [mark.now_nm, mark.now_nm - mark.change_nm].map(|nm| places.y(nm));
        let stroke = theme::stroke(2.5, palette.ink);
        painter.vline(x, Rangef::new(now.min(from), now.max(from)), stroke);
        for y in [now, from] {
            painter.hline(x - font * 0.3..=x + font * 0.3, y, stroke);
        }
        let font_id = theme::bold(font * 0.85);
        let said = painter.layout_no_wrap(mark.text.clone(), font_id, palette.ink);
        let size = said.size();
        // Neither over the jaw's name nor under the belt.
        let y = (now.max(from) + font * 0.3)
            .max(places.jaw_top + font * 1.3)
            .min(places.bottom - size.y - 4.0);
        let left = (x - size.x / 2.0).max(places.left + 4.0);
        let plate = Rect::from_min_size(Pos2::new(left, y), size).expand2(Vec2::new(4.0, 1.0));
        let edge = theme::stroke(1.0, palette.edge);
        let round = CornerRadius::same(3);
        painter.rect(plate, round, palette.card, edge, StrokeKind::Outside);
        painter.galley(Pos2::new(left, y), said, palette.ink);
    }
}
