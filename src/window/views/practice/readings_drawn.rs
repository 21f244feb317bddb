//! Readings drawn as points, row beside row, from plain data.

use eframe::egui::{
    Align2, Color32, Painter, Pos2, Rect, Role, Sense, Shape, Ui, Vec2, WidgetInfo,
};

use crate::window::theme::{self, Palette};

/// How a row of readings is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Dots {
    /// What was read.
    Filled,
    /// The same on the way back.
    Open,
    /// What it truly is.
    Ghost,
}

/// Readings from left to right.
pub struct Row {
    /// Values, in any unit.
    pub values: Vec<f64>,
    /// What is written at each: away from the line across, where there is one,
    /// else above; none where it would say nothing.
    pub said: Vec<String>,
    /// How they are drawn.
    pub dots: Dots,
    /// Whether a line joins them.
    pub joined: bool,
}

/// What readings are drawn against.
pub enum Scale<'a> {
    /// The tolerance, about the middle of readings that it judges; with its
    /// words.
    Band(&'a str),
    /// The steps of the gauge: readings of one place, which are not judged.
    Steps(f64, &'a str),
}

/// A line across that stands for a value.
pub struct Level {
    /// The value.
    pub value: f64,
    /// How far it may be off, either way.
    pub give_or_take: f64,
    /// What is written at its end.
    pub said: String,
}

/// All that is drawn.
pub struct Drawn<'a> {
    /// The rows.
    pub rows: &'a [Row],
    /// What stands below each place.
    pub places: &'a [String],
    /// What they are drawn against.
    pub scale: Scale<'a>,
    /// A line across.
    pub level: Option<Level>,
    /// Least height of the picture, as a value: the tolerance.
    pub least: f64,
}

/// Draws readings in an area.
pub fn paint(painter: &Painter, palette: &Palette, area: Rect, font: f32, drawn: &Drawn<'_>) {
    let values = drawn.rows.iter().flat_map(|row| row.values.iter().copied());
    let (low, high) = values.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| {
        (low.min(value), high.max(value))
    });
    if low > high {
        return;
    }
    let middle = 0.5 * (low + high);
    let range = (high - low).max(drawn.least) * 1.15;
    let mut plot = area.shrink2(Vec2::new(font * 0.4, font * 1.6));
    // What they are drawn against stands above every reading: on none of them,
    // wherever they lie.
    plot.min.y += font * 1.6;
    plot.max.y -= font;
    let y = |value: f64| plot.center().y - ((value - middle) / range) as f32 * plot.height();
    let small = theme::regular(font * 0.85);
    let text = match drawn.scale {
        Scale::Band(text) => {
            let (top, bottom) = (y(middle + 0.5 * drawn.least), y(middle - 0.5 * drawn.least));
            let rect = Rect::from_x_y_ranges(plot.x_range(), top..=bottom);
            band(painter, palette, rect);
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
    let ink = palette.ink;
    painter.text(area.left_top(), Align2::LEFT_TOP, text, small.clone(), ink);
    if let Some(level) = &drawn.level {
        let [top, bottom] = [1.0, -1.0].map(|sign| y(level.value + sign * level.give_or_take));
        let spread = Rect::from_x_y_ranges(plot.x_range(), top..=bottom);
        painter.rect_filled(spread, 0.0, palette.preview_back);
        let ends = [plot.left(), plot.right()].map(|x| Pos2::new(x, y(level.value)));
        let stroke = theme::stroke(2.0, palette.preview);
        painter.extend(Shape::dashed_line(&ends, stroke, 10.0, 6.0));
        let bold = theme::bold(font * 0.9);
        // Above the line, where no reading stands.
        let first = drawn.rows.first().and_then(|row| row.values.first());
        let left = first.is_some_and(|first| *first < level.value);
        let (end, align) = match left {
            true => (ends[0], Align2::LEFT_BOTTOM),
            false => (ends[1], Align2::RIGHT_BOTTOM),
        };
        let at = end - Vec2::new(0.0, font * 0.2);
        painter.text(at, align, &level.said, bold, palette.preview);
    }
    let count = drawn.places.len();
    let across = plot.width() - font * 8.0;
    let last = count.saturating_sub(1).max(1) as f32;
    let x = |index: usize| match count {
        1 => plot.center().x,
        _ => plot.center().x + across * (index as f32 / last - 0.5),
    };
    for row in drawn.rows {
        let at = |(index, value): (usize, &f64)| Pos2::new(x(index), y(*value));
        let places: Vec<Pos2> = row.values.iter().enumerate().map(at).collect();
        let low = |value: &f64| {
            drawn
                .level
                .as_ref()
                .is_some_and(|level| *value < level.value)
        };
        let low: Vec<bool> = row.values.iter().map(low).collect();
        points(painter, palette, font, row, (places, low));
    }
    for (index, place) in drawn.places.iter().enumerate() {
        let below = Pos2::new(x(index), area.bottom());
        let font = theme::regular(font);
        painter.text(below, Align2::CENTER_BOTTOM, place, font, ink);
    }
}

fn points(
    painter: &Painter,
    palette: &Palette,
    font: f32,
    row: &Row,
    (places, low): (Vec<Pos2>, Vec<bool>),
) {
    let stroke = |ink: Color32| theme::stroke(2.0, ink);
    let ink = match row.dots {
        Dots::Filled | Dots::Open => palette.present,
        Dots::Ghost => palette.muted,
    };
    if row.joined {
        match row.dots {
            Dots::Filled => painter.add(Shape::line(places.clone(), stroke(ink))),
            _ => {
                painter.extend(Shape::dashed_line(&places, stroke(ink), 8.0, 6.0));
                painter.add(Shape::Noop)
            }
        };
    }
    let radius = font * 0.4;
    for (index, (at, low)) in places.into_iter().zip(low).enumerate() {
        let (side, align) = match low {
            true => (1.0, Align2::CENTER_TOP),
            false => (-1.0, Align2::CENTER_BOTTOM),
        };
        match row.dots {
            Dots::Filled => painter.circle_filled(at, radius, ink),
            _ => painter.circle(at, radius, palette.card, stroke(ink)),
        };
        if let Some(said) = row.said.get(index) {
            let beside = at + Vec2::new(0.0, side * font * 0.5);
            painter.text(beside, align, said, theme::bold(font), palette.ink);
        }
    }
}

/// Bands beside each other at one scale, each with its words and over the same
/// piece, of a spread that is said above: what is not the same is seen.
pub fn bands(
    painter: &Painter,
    palette: &Palette,
    area: Rect,
    font: f32,
    bands: &[(f64, String)],
    (spread, said): (f64, &str),
) {
    let most = bands
        .iter()
        .fold(1.0, |most: f64, (wide, _)| most.max(*wide));
    let plot = area.shrink2(Vec2::new(font, font * 2.0));
    let share = plot.width() / bands.len().max(1) as f32;
    let regular = theme::regular(font);
    let above = area.center_top();
    painter.text(above, Align2::CENTER_TOP, said, regular, palette.ink);
    for (index, (wide, text)) in bands.iter().enumerate() {
        let centre = Pos2::new(plot.left() + share * (index as f32 + 0.5), plot.center().y);
        let high = (wide / most) as f32 * (plot.height() - 2.0 * font);
        let rect = Rect::from_center_size(centre, Vec2::new(share * 0.7, high));
        band(painter, palette, rect);
        let high = (spread / most) as f32 * (plot.height() - 2.0 * font);
        let piece = [(-0.24, 0.5), (-0.08, -0.2), (0.08, -0.5), (0.24, 0.1)];
        let piece = piece.map(|(x, y)| centre + Vec2::new(x * share, y * high));
        let line = theme::stroke(2.0, palette.present);
        painter.add(Shape::line(piece.to_vec(), line));
        for at in piece {
            painter.circle_filled(at, font * 0.4, palette.present);
        }
        let below = Pos2::new(centre.x, area.bottom());
        let font = theme::bold(font);
        painter.text(below, Align2::CENTER_BOTTOM, text, font, palette.ink);
    }
}

/// Room for a picture, with its name.
pub fn place(ui: &mut Ui, (name, height): (&str, f32)) -> (Rect, Painter) {
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
