//! Where a chain draws fingers in: it runs onto its sprocket. Sizes are drawn, not
//! measured.

use std::f32::consts::{FRAC_PI_2, TAU};

use eframe::egui::{Align2, Pos2, Shape, Ui, Vec2};

use crate::window::theme::{self, size};

use crate::window::views::Scene;
use crate::window::views::picture::test_piece::place;

/// Least height of the picture.
const LEAST: f32 = 150.0;

/// Draws chain and sprocket, no hand where it runs in.
pub fn show(ui: &mut Ui, scene: &Scene<'_>, height: f32) {
    let (palette, words) = (scene.palette, scene.words());
    let (rect, painter) = place(ui, height.max(LEAST), words.nip_picture());
    let body = || theme::bold(size::BODY);
    let on_hub = format!("✓ {}", words.nip_on_hub());
    let on_hub = painter.layout_no_wrap(on_hub, body(), palette.good);
    // Above and below the chain there is a line of words, and one beside it.
    let beside = (0.55 * rect.width() - on_hub.size().x) / 1.3;
    let radius = ((0.5 * rect.height() - 20.0).min(0.32 * rect.width()) / 1.6).min(beside);
    let centre = Pos2::new(rect.left() + 0.45 * rect.width(), rect.center().y);
    let edge = theme::stroke(1.5, palette.steel_edge);
    for tooth in 0..16 {
        let out = Vec2::angled(tooth as f32 * TAU / 16.0);
        painter.circle(centre + radius * out, 0.11 * radius, palette.steel, edge);
    }
    painter.circle(centre, radius, palette.steel, edge);
    let hub = theme::stroke(3.0, palette.good);
    painter.circle(centre, 0.35 * radius, palette.good_back, hub);
    let reach = 1.12 * radius;
    let round = (0..=24).map(|step| Vec2::angled(step as f32 / 24.0 * TAU / 2.0 - FRAC_PI_2));
    let mut chain = vec![Pos2::new(rect.left() + 8.0, centre.y - reach)];
    chain.extend(round.map(|out| centre + reach * out));
    chain.push(Pos2::new(rect.left() + 8.0, centre.y + reach));
    let links = theme::stroke(0.14 * radius, palette.steel_edge);
    painter.add(Shape::line(chain, links));
    let onto = Pos2::new(rect.left() + 14.0, centre.y - 0.72 * reach);
    let way = Vec2::new(0.6 * radius, 0.0);
    painter.arrow(onto, way, theme::stroke(3.0, palette.preview));
    let nip = centre - Vec2::new(0.3 * radius, reach);
    // Turned the other way it runs in below.
    for nip in [nip, nip + Vec2::new(0.0, 2.0 * reach)] {
        painter.circle_stroke(nip, 0.4 * radius, theme::stroke(4.0, palette.outside));
    }
    let no_hand = format!("✕ {}", words.nip_no_hand());
    let beyond = Vec2::new(0.0, 0.45 * radius);
    for (at, align) in [
        (nip - beyond, Align2::CENTER_BOTTOM),
        (
            nip + Vec2::new(0.0, 2.0 * reach) + beyond,
            Align2::CENTER_TOP,
        ),
    ] {
        painter.text(at, align, &no_hand, body(), palette.outside);
    }
    let to_hub = [0.35, 1.27].map(|reach| centre + Vec2::new(reach * radius, 0.0));
    painter.line_segment(to_hub, hub);
    let beside = centre + Vec2::new(1.3 * radius, -0.5 * on_hub.size().y);
    painter.galley(beside, on_hub, palette.good);
}
