//! Spread from pass to pass, against the tolerance.

use eframe::egui::{
    Align2, CornerRadius, Pos2, Rect, Role, Sense, StrokeKind, Ui, Vec2, WidgetInfo,
};

use crate::window::theme::{self, size};

use crate::window::views::Scene;
use crate::window::views::picture::canvas;
use crate::window::views::picture::canvas::{Canvas, LineKind};

/// Width a bar needs to carry its figure.
const FIGURE_WIDTH: f32 = 62.0;

/// Draws the chart; a bar can be pressed to show its pass.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, height: f32) {
    let palette = scene.palette;
    let words = scene.words();
    let figures = scene.figures;
    let width = ui.available_width();
    let (area, _) = ui.allocate_exact_size(Vec2::new(width, height), Sense::hover());
    let painter = ui.painter_at(area);
    let tolerance = scene.session.tolerance.length();
    let passes = scene.session.passes.len();
    let spreads: Vec<_> = (0..passes)
        .map(|pass| scene.session.spread_of(pass))
        .collect();
    let foretold = |pass: usize| scene.history.of(pass).map(|foresight| foresight.forecast);
    let most = (0..passes)
        .filter_map(foretold)
        .map(|forecast| forecast.p90_nm)
        .chain(spreads.iter().flatten().map(|spread| spread.value.nm_f64()))
        .fold(tolerance.nm_f64() * 1.2, f64::max);
    painter.text(
        area.left_top(),
        Align2::LEFT_TOP,
        words.side_spreads(words.unit_name(figures.unit)),
        theme::regular(size::SMALL),
        palette.muted,
    );
    let frame = Rect::from_min_max(
        area.min + Vec2::new(52.0, 34.0),
        area.max - Vec2::new(96.0, 20.0),
    );
    let canvas = Canvas {
        frame,
        x: (-0.5, passes as f64 - 0.5),
        y: (0.0, most * 1.02),
    };
    let small = theme::regular(size::SMALL);
    canvas.rules(
        &painter,
        figures,
        palette.grid,
        Some((&small, palette.muted)),
    );
    let limit = canvas.y_at(tolerance.nm_f64());
    let across = vec![
        Pos2::new(frame.left(), limit),
        Pos2::new(frame.right(), limit),
    ];
    // Figures are written last, on a ground that keeps lines off them.
    let mut written = Vec::new();
    let step = frame.width() / passes.max(1) as f32;
    for (pass, spread) in spreads.iter().enumerate() {
        let x = canvas.x_at(pass as f64);
        let half = (step * 0.34).clamp(1.5, 26.0);
        if step > 15.0 || pass == 0 || pass + 1 == passes {
            painter.text(
                Pos2::new(x, frame.bottom() + 2.0),
                Align2::CENTER_TOP,
                pass + 1,
                theme::bold(size::SMALL),
                palette.ink,
            );
        }
        if let Some(spread) = spread {
            let inside = spread.value <= tolerance.into();
            let top = canvas.y_at(spread.value.nm_f64());
            let bar = Rect::from_min_max(
                Pos2::new(x - half, top),
                Pos2::new(x + half, frame.bottom()),
            );
            let (fill, edge) = if inside {
                (palette.good_back, palette.good)
            } else {
                (palette.preview_back, palette.preview)
            };
            let corners = CornerRadius::same(2);
            painter.rect(
                bar,
                corners,
                fill,
                theme::stroke(1.6, edge),
                StrokeKind::Inside,
            );
            if step > FIGURE_WIDTH {
                let mark = if inside { "✓" } else { "✕" };
                let text = format!("{mark} {}", figures.spread(spread.value, tolerance));
                let at = Pos2::new(x, (top - 2.0).max(area.top() + 32.0));
                let font = theme::bold(size::SMALL);
                written.push((at, painter.layout_no_wrap(text, font, palette.ink)));
            }
        }
        if let Some(forecast) = foretold(pass) {
            // Beside the bar, so that neither hides the other.
            let x = x + half + (step * 0.08).min(10.0);
            let ends = [forecast.median_nm, forecast.p90_nm].map(|nm| canvas.at_height(x, nm));
            painter.line_segment(ends, theme::stroke(1.8, palette.preview));
            let cap = Vec2::new(4.0, 0.0);
            painter.line_segment(
                [ends[1] - cap, ends[1] + cap],
                theme::stroke(1.8, palette.preview),
            );
            painter.circle_filled(ends[0], 3.5, palette.preview);
        }
        let name = bar_name(scene, pass);
        let place = Rect::from_x_y_ranges(x - step / 2.0..=x + step / 2.0, area.y_range());
        let id = ui.scope_id().with(("spread", pass));
        let bar = ui.interact(place, id, Sense::hover());
        bar.widget_info(|| WidgetInfo::labeled(Role::Label, true, &name));
        bar.on_hover_text(name);
    }
    let stroke = theme::stroke(1.8, palette.band_edge);
    canvas::line(&painter, across, stroke, LineKind::Dashed);
    let ink = palette.band_edge;
    let text = words.side_limit(figures.limit(tolerance));
    let galley = painter.layout(text, theme::bold(size::SMALL), ink, 88.0);
    let at = Pos2::new(frame.right() + 6.0, limit - galley.size().y / 2.0);
    painter.galley(at, galley, ink);
    for (at, galley) in written {
        let rect = Align2::CENTER_BOTTOM.anchor_size(at, galley.size());
        painter.rect_filled(rect, 2.0, palette.card);
        painter.galley(rect.min, galley, palette.ink);
    }
    let key = words.side_foretold_key();
    let galley = painter.layout_no_wrap(key.to_owned(), small, palette.preview);
    let at = Pos2::new(area.right() - galley.size().x, area.top());
    if at.x > area.left() + 190.0 {
        painter.galley(at, galley, palette.preview);
    }
}

/// A bar in words.
fn bar_name(scene: &Scene<'_>, pass: usize) -> String {
    let words = scene.words();
    let figures = scene.figures;
    let mut name = words.pass_number(pass + 1);
    let spread = scene.session.spread_of(pass).map_or_else(
        || words.not_read_yet().to_owned(),
        |spread| words.spread_is(figures.exact_mean(spread.value)),
    );
    name.push_str(", ");
    name.push_str(&spread);
    if let Some(foresight) = scene.history.of(pass) {
        let of = |nm| figures.with_unit(&figures.predicted(nm));
        let forecast = foresight.forecast;
        name.push_str(", ");
        name.push_str(&words.side_foretold_spread(of(forecast.median_nm), of(forecast.p90_nm)));
    }
    name
}
