//! Readings drawn as points over their mean, from plain data.

use eframe::egui::{Align2, Pos2, Role, Sense, Shape, Ui, Vec2, WidgetInfo};

use crate::window::theme::{self, Palette};

/// A point with its words: where it stands, and what is written under it.
pub struct ReadingDrawn {
    /// Value, in any unit.
    pub value: f64,
    /// What is written below.
    pub below: String,
    /// What is written above.
    pub above: String,
}

/// Draws readings from left to right, `height` points high; the band is as wide
/// as the tolerance, about their middle, and says so.
pub fn show(
    ui: &mut Ui,
    palette: &Palette,
    (readings, band_text): (&[ReadingDrawn], &str),
    tolerance: f64,
    (name, font, height): (&str, f32, f32),
) {
    let size = Vec2::new(ui.available_width(), height);
    let (area, response) = ui.allocate_exact_size(size, Sense::hover());
    response.widget_info(|| WidgetInfo::labeled(Role::Image, true, name));
    let painter = ui.painter_at(area);
    let values = readings.iter().map(|reading| reading.value);
    let (low, high) = values.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| {
        (low.min(value), high.max(value))
    });
    if low > high {
        return;
    }
    let middle = 0.5 * (low + high);
    let range = (high - low).max(tolerance) * 1.15;
    let mut plot = area.shrink2(Vec2::new(font * 0.4, font * 1.6));
    // What the band is stands above every reading: on none of them, wherever
    // they lie.
    plot.min.y += font * 1.2;
    let y = |value: f64| plot.center().y - ((value - middle) / range) as f32 * plot.height();
    let band = eframe::egui::Rect::from_x_y_ranges(
        plot.x_range(),
        y(middle + 0.5 * tolerance)..=y(middle - 0.5 * tolerance),
    );
    painter.rect_filled(band, 2.0, palette.band);
    for edge in [band.top(), band.bottom()] {
        let ends = [Pos2::new(plot.left(), edge), Pos2::new(plot.right(), edge)];
        let stroke = theme::stroke(1.5, palette.band_edge);
        painter.extend(Shape::dashed_line(&ends, stroke, 10.0, 7.0));
    }
    painter.text(
        area.left_top(),
        Align2::LEFT_TOP,
        band_text,
        theme::regular(font * 0.85),
        palette.ink,
    );
    let across = plot.width() - font * 6.0;
    let last = readings.len().saturating_sub(1).max(1) as f32;
    for (index, reading) in readings.iter().enumerate() {
        let x = if readings.len() == 1 {
            plot.center().x
        } else {
            plot.center().x + across * (index as f32 / last - 0.5)
        };
        let at = Pos2::new(x, y(reading.value));
        painter.circle_filled(at, font * 0.4, palette.present);
        let above = Pos2::new(x, at.y - font * 0.5);
        let ink = palette.ink;
        painter.text(
            above,
            Align2::CENTER_BOTTOM,
            &reading.above,
            theme::bold(font),
            ink,
        );
        let below = Pos2::new(x, area.bottom());
        painter.text(
            below,
            Align2::CENTER_BOTTOM,
            &reading.below,
            theme::regular(font),
            ink,
        );
    }
}
