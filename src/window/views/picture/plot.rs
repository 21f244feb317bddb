//! The one chart: thickness over named places, passes or dates. It sets up
//! egui's plot the same way everywhere (no panning, no zooming, round figures
//! beside the rules, names along x) and has a word for each thing drawn in it.
//!
//! Most callers want [`lines`]: named lines over a named band.

use eframe::egui::{Align2, Color32, Painter, Pos2, Role, Sense, Stroke, Ui, WidgetInfo};
use egui_plot::{
    AxisHints, FilledArea, GridMark, Line, LineStyle, MarkerShape, Plot, PlotBounds, PlotPoint,
    PlotTransform, PlotUi, Points, VLine, VPlacement,
};

use crate::report::grid_step;
use crate::splice::Band;
use crate::window::theme::{self, Palette, size};
use crate::words::Figures;

/// Width of the figures beside a chart.
pub const AXIS_WIDTH: f32 = 46.0;

/// Letters of a name along x beyond which it is written small.
const LETTERS: usize = 6;

/// Half the width of a whisker's ends, as a share of the chart's.
const WHISKER: f64 = 0.006;

/// A chart before anything is drawn in it.
pub struct Chart<'a> {
    /// Tells charts of one window apart.
    pub id: &'a str,
    /// What it shows, in words, for those who cannot see it.
    pub description: String,
    /// Colours.
    pub palette: &'static Palette,
    /// How lengths are written.
    pub figures: Figures,
    /// Height on the screen, names along x included.
    pub height: f32,
    /// Values at the left and right edge.
    pub x: (f64, f64),
    /// Names along x, and whether they stand above the chart; a dotted line
    /// hangs from each.
    pub names: &'a [(f64, String)],
    /// See [`Chart::names`].
    pub names_above: bool,
    /// Thickness in nanometres at the lower and upper edge.
    pub y: (f64, f64),
    /// Letters of a wall, which go without figures beside the rules.
    pub wall: Option<f32>,
    /// Room in points kept free on the right, for names of lines.
    pub right: f32,
}

/// How a line is drawn, so that colour is not all that tells lines apart.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pen {
    /// Colour.
    pub ink: Color32,
    /// Width in points.
    pub width: f32,
    /// Dashes or dots.
    pub style: LineStyle,
}

impl Pen {
    /// A line without gaps.
    pub const fn solid(ink: Color32, width: f32) -> Self {
        let style = LineStyle::Solid;
        Self { ink, width, style }
    }

    /// Dashes of a length.
    pub const fn dashed(ink: Color32, width: f32, length: f32) -> Self {
        let style = LineStyle::Dashed { length };
        Self { ink, width, style }
    }

    /// Dots.
    pub const fn dotted(ink: Color32, width: f32) -> Self {
        let style = LineStyle::Dotted { spacing: 6.0 };
        Self { ink, width, style }
    }

    /// The same for what is painted by hand.
    pub fn stroke(self) -> Stroke {
        theme::stroke(self.width, self.ink)
    }
}

/// A line with its name.
pub struct NamedLine {
    /// The name written at its end; empty for none.
    pub name: String,
    /// Its points, in pieces where it is broken.
    pub pieces: Vec<Vec<[f64; 2]>>,
    /// Points marked on it, in the line's colour or open.
    pub marks: Vec<[f64; 2]>,
    /// The shape of the marks.
    pub shape: MarkerShape,
    /// Whether marks are filled.
    pub filled: bool,
    /// How it is drawn.
    pub pen: Pen,
    /// Named even where other names must give way.
    pub needed: bool,
}

/// Draws named lines, told apart by more than colour, over a named band and
/// whatever else `below` draws. The names stand right of the chart and keep
/// apart from each other.
pub fn lines(
    ui: &mut Ui,
    chart: Chart<'_>,
    band: Option<(Band, String)>,
    lines: &[NamedLine],
    below: impl FnOnce(&mut Sheet<'_, '_>),
) -> PlotTransform {
    let font = chart.wall.unwrap_or(size::SMALL);
    let (palette, right) = (chart.palette, chart.x.1);
    let transform = chart.show(ui, |sheet| {
        if let Some((band, _)) = &band {
            sheet.band(*band);
        }
        below(sheet);
        for line in lines {
            for piece in &line.pieces {
                sheet.line(piece, line.pen);
            }
        }
        for line in lines {
            let mark = (line.shape, line.pen.width + 2.5);
            let ink = line.pen.ink;
            let fill = if line.filled { ink } else { palette.card };
            let edge = Pen::solid(ink, line.pen.width * 0.7);
            sheet.marks(&line.marks, mark, (fill, edge));
        }
    });
    let named = lines.iter().filter_map(|line| {
        let end = *line.pieces.last()?.last()?;
        Some(EndName {
            text: &line.name,
            end,
            ink: line.pen.ink,
            needed: line.needed,
        })
    });
    let band = band.iter().map(|(band, name)| EndName {
        text: name,
        end: [right, band.high_nm],
        ink: palette.band_edge,
        needed: false,
    });
    end_names(ui.painter(), &transform, font, named.chain(band).collect());
    transform
}

/// What is drawn at a point: its shape, and its reach from there.
pub type Mark = (MarkerShape, f32);

/// The sheet that a chart is drawn on.
pub struct Sheet<'a, 'p> {
    plot: &'a mut PlotUi<'p>,
    palette: &'static Palette,
    x: (f64, f64),
}

impl Sheet<'_, '_> {
    /// A band across the chart.
    pub fn band(&mut self, band: Band) {
        let xs = [self.x.0, self.x.1];
        let [low, high] = [band.low_nm, band.high_nm].map(|nm| [nm; 2]);
        self.area(&xs, &low, &high, self.palette.band);
        for edge in [band.low_nm, band.high_nm] {
            let pen = Pen::dashed(self.palette.band_edge, 1.0, 5.0);
            self.line(&[[xs[0], edge], [xs[1], edge]], pen);
        }
    }

    /// What lies between two lines.
    pub fn area(&mut self, xs: &[f64], low: &[f64], high: &[f64], fill: Color32) {
        if xs.len() > 1 {
            let area = FilledArea::new("", xs, low, high);
            self.plot.add(area.fill_color(fill));
        }
    }

    /// A line through points.
    pub fn line(&mut self, points: &[[f64; 2]], pen: Pen) {
        let line = Line::new("", points.to_vec()).stroke(pen.stroke());
        self.plot.line(line.style(pen.style));
    }

    /// Marks at points, filled with a colour within an edge.
    pub fn marks(
        &mut self,
        points: &[[f64; 2]],
        (shape, reach): Mark,
        (fill, edge): (Color32, Pen),
    ) {
        let half = edge.width / 2.0;
        for (radius, ink) in [(reach + half, edge.ink), (reach - half, fill)] {
            let marks = Points::new("", points.to_vec()).color(ink);
            self.plot.points(marks.shape(shape).radius(radius));
        }
    }

    /// A line from `low` to `high` at `x`, with an end at each; the chart cuts
    /// off what is beyond it.
    pub fn whisker(&mut self, x: f64, (low, high): (f64, f64), pen: Pen) {
        let half = (self.x.1 - self.x.0) * WHISKER;
        self.line(&[[x, low], [x, high]], pen);
        for y in [low, high] {
            self.line(&[[x - half, y], [x + half, y]], pen);
        }
    }
}

impl Chart<'_> {
    /// Draws it, and answers how values lie on the screen.
    pub fn show(self, ui: &mut Ui, draw: impl FnOnce(&mut Sheet<'_, '_>)) -> PlotTransform {
        let Self {
            palette, figures, ..
        } = self;
        let (low, high) = self.y;
        let (step_nm, decimals) = grid_step(high - low, self.height, figures.unit);
        // Letters of arms are looked for; a date is only read.
        let is_long = |(_, name): &(f64, String)| name.chars().count() > LETTERS;
        let (letters, name_font) = match self.wall {
            None if self.names.iter().any(is_long) => (size::SMALL, theme::regular(size::SMALL)),
            wall => {
                let letters = wall.unwrap_or(size::TITLE);
                (letters, theme::bold(letters))
            }
        };
        let named = apart(ui, self.names, self.x, (ui.available_width(), letters));
        let placement = if self.names_above {
            VPlacement::Top
        } else {
            VPlacement::Bottom
        };
        let names = AxisHints::new_x()
            .placement(placement)
            .min_thickness(letters * 1.3)
            .tick_label_font(name_font)
            .tick_label_color(palette.muted)
            .formatter(|mark, _| {
                let name = self.names.iter().find(|(x, _)| *x == mark.value);
                name.map(|(_, name)| name.clone()).unwrap_or_default()
            });
        let numbers = AxisHints::new_y()
            .min_thickness(AXIS_WIDTH)
            .tick_label_font(theme::regular(size::SMALL))
            .tick_label_color(palette.muted)
            .formatter(move |mark, _| figures.nm(mark.value, decimals));
        let numbers = if self.wall.is_some() {
            Vec::new()
        } else {
            vec![numbers]
        };
        let mark = |value, step_size| GridMark { value, step_size };
        let plot = Plot::new(self.id)
            .width((ui.available_width() - self.right).max(1.0))
            .height(self.height)
            .sense(Sense::hover())
            .show_x(false)
            .show_y(false)
            .auto_bounds(false)
            .show_background(false)
            .show_grid([false, true])
            .grid_color(palette.grid)
            .grid_fade(0.0)
            .custom_x_axes(vec![names])
            .custom_y_axes(numbers)
            // As wide as the chart, so that none is taken to be too close.
            .x_grid_spacer(|input| {
                let wide = input.bounds.1 - input.bounds.0;
                named.iter().map(|x| mark(*x, wide)).collect()
            })
            .y_grid_spacer(move |input| {
                let (from, to) = input.bounds;
                let first = (from / step_nm).ceil() as i64;
                let last = (to / step_nm).floor() as i64;
                (first..=last.min(first + 60))
                    .map(|index| mark(index as f64 * step_nm, step_nm))
                    .collect()
            })
            .label_formatter(|_| None);
        let shown = plot.show(ui, |plot| {
            plot.set_plot_bounds(PlotBounds::from_min_max([self.x.0, low], [self.x.1, high]));
            for (x, _) in self.names {
                let style = LineStyle::Dotted { spacing: 5.0 };
                plot.vline(
                    VLine::new("", *x)
                        .stroke(theme::stroke(1.0, palette.line))
                        .style(style),
                );
            }
            draw(&mut Sheet {
                plot,
                palette,
                x: self.x,
            });
        });
        let description = self.description;
        shown
            .response
            .widget_info(|| WidgetInfo::labeled(Role::Image, true, &description));
        shown.transform
    }
}

/// Names along x that stand clear of each other; the first stays.
fn apart(
    ui: &Ui,
    names: &[(f64, String)],
    (from, to): (f64, f64),
    (width, letters): (f32, f32),
) -> Vec<f64> {
    let scale = f64::from(width) / (to - from).max(f64::MIN_POSITIVE);
    let mut free_from = f64::NEG_INFINITY;
    let mut kept = Vec::new();
    for (x, name) in names {
        let ink = Color32::PLACEHOLDER;
        let galley = ui
            .painter()
            .layout_no_wrap(name.clone(), theme::bold(letters), ink);
        let half = f64::from(galley.size().x) / 2.0;
        let middle = (x - from) * scale;
        if middle - half >= free_from {
            free_from = middle + half + 4.0;
            kept.push(*x);
        }
    }
    kept
}

/// The thicknesses from a chart's lower edge to its upper: what is shown, with
/// `room` (a share of it) on either side; at least `least` in all.
pub fn range(shown: impl Iterator<Item = f64>, room: f64, least: f64) -> Option<(f64, f64)> {
    let (low, high) = shown.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| {
        (low.min(value), high.max(value))
    });
    let room = ((high - low) * room).max(least);
    (low <= high).then_some((low - room, high + room))
}

/// A name written right of a chart, beside where something ends.
struct EndName<'a> {
    text: &'a str,
    end: [f64; 2],
    ink: Color32,
    needed: bool,
}

/// Writes names moved apart so that none covers another; those that are not
/// needed give way where room is short.
fn end_names(painter: &Painter, at: &PlotTransform, font: f32, mut names: Vec<EndName<'_>>) {
    let frame = *at.frame();
    let height = font * 1.15;
    names.retain(|name| !name.text.is_empty());
    names.sort_by(|a, b| b.end[1].total_cmp(&a.end[1]));
    while height * names.len() as f32 > frame.height() {
        let Some(index) = names.iter().position(|name| !name.needed) else {
            break;
        };
        names.remove(index);
    }
    let ends = names
        .iter()
        .map(|name| at.position_from_point(&PlotPoint::from(name.end)));
    let ends: Vec<Pos2> = ends.collect();
    // Down from the top each below the one before, then up from the bottom.
    let mut next = frame.top() + height / 2.0;
    let mut places: Vec<f32> = Vec::new();
    for end in &ends {
        places.push(end.y.max(next));
        next = end.y.max(next) + height;
    }
    let mut limit = frame.bottom() - height / 2.0;
    for y in places.iter_mut().rev() {
        *y = y.min(limit);
        limit = *y - height;
    }
    let x = frame.right() + 8.0;
    for ((name, end), y) in names.into_iter().zip(ends).zip(places) {
        let to = [Pos2::new(end.x.min(x - 12.0) + 8.0, end.y), Pos2::new(x, y)];
        painter.line_segment(to, theme::stroke(1.0, name.ink.gamma_multiply(0.6)));
        let of = if name.needed {
            theme::bold
        } else {
            theme::regular
        };
        let at = Pos2::new(x + 3.0, y);
        painter.text(at, Align2::LEFT_CENTER, name.text, of(font), name.ink);
    }
}
