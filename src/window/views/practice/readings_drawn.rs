//! Readings drawn as points over their mean, from plain data.

use eframe::egui::{Align2, Painter, Pos2, Rect, Role, Sense, Shape, Ui, Vec2, WidgetInfo};

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

/// What readings are drawn against.
pub enum Scale<'a> {
    /// The tolerance, about the middle of readings that it judges; with its
    /// words.
    Band(&'a str),
    /// The steps of the gauge: readings of one place, which are not judged.
    Steps(f64, &'a str),
}

/// Draws readings from left to right, `height` points high, at a scale of the
/// tolerance, and says what they are drawn against.
pub fn show(
    ui: &mut Ui,
    palette: &Palette,
    (readings, scale): (&[ReadingDrawn], &Scale<'_>),
    tolerance: f64,
    (name, font, height): (&str, f32, f32),
) {
    let (area, painter) = place(ui, (name, height));
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
    // What they are drawn against stands above every reading: on none of them,
    // wherever they lie.
    plot.min.y += font * 1.2;
    let y = |value: f64| plot.center().y - ((value - middle) / range) as f32 * plot.height();
    let text = match scale {
        Scale::Band(text) => {
            let (top, bottom) = (y(middle + 0.5 * tolerance), y(middle - 0.5 * tolerance));
            let across = plot.x_range();
            band(
                &painter,
                palette,
                Rect::from_x_y_ranges(across, top..=bottom),
            );
            text
        }
        Scale::Steps(step, text) => {
            let first = ((middle - 0.5 * range) / step).ceil();
            let lines = (0..).map(|line| (first + f64::from(line)) * step);
            for value in lines.take_while(|value| *value <= middle + 0.5 * range) {
                let line = theme::stroke(1.0, palette.line);
                painter.hline(plot.x_range(), y(value), line);
            }
            text
        }
    };
    painter.text(
        area.left_top(),
        Align2::LEFT_TOP,
        text,
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

/// Bands beside each other at one scale, each with its words: what is not the
/// same is seen.
pub fn bands(
    ui: &mut Ui,
    palette: &Palette,
    bands: &[(f64, String)],
    (name, font, height): (&str, f32, f32),
) {
    let (area, painter) = place(ui, (name, height));
    let most = bands
        .iter()
        .fold(1.0, |most: f64, (wide, _)| most.max(*wide));
    let plot = area.shrink2(Vec2::new(font, font * 2.0));
    let share = plot.width() / bands.len().max(1) as f32;
    for (index, (wide, text)) in bands.iter().enumerate() {
        let centre = Pos2::new(
            plot.left() + share * (index as f32 + 0.5),
            plot.center().y - font,
        );
        let high = (wide / most) as f32 * (plot.height() - 2.0 * font);
        let rect = Rect::from_center_size(centre, Vec2::new(share * 0.7, high));
        band(&painter, palette, rect);
        let below = Pos2::new(centre.x, area.bottom());
        let ink = palette.ink;
        painter.text(below, Align2::CENTER_BOTTOM, text, theme::bold(font), ink);
    }
}

fn place(ui: &mut Ui, (name, height): (&str, f32)) -> (Rect, Painter) {
    let size = Vec2::new(ui.available_width(), height);
    let (area, response) = ui.allocate_exact_size(size, Sense::hover());
    response.widget_info(|| WidgetInfo::labeled(Role::Image, true, name));
    (area, ui.painter_at(area))
}

fn band(painter: &Painter, palette: &Palette, rect: Rect) {
    painter.rect_filled(rect, 2.0, palette.band);
    for edge in [rect.top(), rect.bottom()] {
        let ends = [Pos2::new(rect.left(), edge), Pos2::new(rect.right(), edge)];
        let stroke = theme::stroke(1.5, palette.band_edge);
        painter.extend(Shape::dashed_line(&ends, stroke, 10.0, 7.0));
    }
}
