//! The picture of a visit's profile: as found and as left over the jaw's
//! length, with the tolerance band.

use crate::press::ArmIndex;
use crate::session::{Session, Whose};
use crate::splice::Band;
use crate::units::Unit;

use super::curve::curve;
use super::sheet::{Align, Area, Sheet, Style};
use super::{Fonts, Ink, Mark, Page, Part, Pen, Point, Setting};

/// Size of the picture where it stands alone, in points.
const ALONE: (f32, f32) = (720.0, 400.0);

/// Room for the labels of thicknesses, for letters above and below.
const BESIDE: f32 = 46.0;
const ABOVE: f32 = 20.0;
const BELOW: f32 = 18.0;

/// A pass in the picture.
struct Trace {
    pass: usize,
    means_nm: Vec<Option<f64>>,
}

/// The picture by itself, for other documents.
pub fn profile_picture(session: &Session, setting: &Setting, fonts: &Fonts) -> Page {
    let mut sheet = Sheet::new(fonts, ALONE);
    let words = setting.figures.language;
    let (width, height) = ALONE;
    sheet.frame(Area::new(0.0, 0.0, width, height), Some(Ink::Paper), None);
    let name = match session.press.name.as_str() {
        "" => words.unnamed_press(),
        name => name,
    };
    let title = [name, &session.notes.when]
        .iter()
        .filter(|part| !part.is_empty())
        .copied()
        .collect::<Vec<_>>()
        .join(", ");
    let style = Style::bold(14.0);
    sheet.fitting(16.0, 26.0, (Align::Left, width - 180.0), style, &title);
    if session.invented || setting.practice {
        let style = Style::bold(11.0).ink(Ink::Caution);
        let mark = match setting.practice {
            true => words.practice_mark(),
            false => words.invented(),
        };
        sheet.text(width - 16.0, 26.0, Align::Right, style, mark);
    }
    let area = Area::new(16.0, 38.0, width - 32.0, height - 50.0);
    draw(&mut sheet, area, session, setting);
    sheet.page
}

/// Draws the picture into an area of a page.
pub(super) fn draw(sheet: &mut Sheet<'_>, area: Area, session: &Session, setting: &Setting) {
    let figures = &setting.figures;
    let words = figures.language;
    let traces = traces(session);
    let Some(last) = traces.last() else {
        let style = Style::regular(11.0).ink(Ink::Muted);
        sheet.open(Part::Paragraph);
        let centre = area.centre();
        let text = words.shape_unread();
        sheet.text(centre.x, centre.y, Align::Centre, style, text);
        sheet.close();
        return;
    };
    let means: Vec<String> = last
        .means_nm
        .iter()
        .enumerate()
        .filter_map(|(station, mean)| {
            let mean = figures.nm((*mean)?, figures.mean_decimals());
            Some(format!("{} {mean}", session.station_name(station)))
        })
        .collect();
    sheet.open(Part::Figure(words.chart_description(means.join(", "))));
    let chart = Chart::of(area, session, &traces);
    chart.ground(sheet, session, setting);
    for trace in &traces {
        chart.trace(sheet, session, trace, trace.pass == last.pass);
    }
    chart.name(sheet, last, setting, session);
    chart.legend(sheet, area, &traces, setting);
    sheet.close();
}

/// As found and as left; one where there is but one, none before anything is
/// read.
fn traces(session: &Session) -> Vec<Trace> {
    let means = |pass: usize| -> Vec<Option<f64>> {
        let profile = session.sound_profile(pass);
        let means = (0..session.stations.len()).map(|station| profile.mean(station));
        means.map(|mean| mean.map(|mean| mean.nm_f64())).collect()
    };
    let mut all: Vec<Trace> = (0..session.passes.len())
        .map(|pass| Trace {
            pass,
            means_nm: means(pass),
        })
        .filter(|trace| trace.means_nm.iter().any(Option::is_some))
        .collect();
    if all.len() > 2 {
        all.drain(1..all.len() - 1);
    }
    all
}

/// Where lengths lie on the page.
struct Chart {
    frame: Area,
    jaw_nm: f64,
    low_nm: f64,
    high_nm: f64,
    stations_nm: Vec<f64>,
    band: Option<Band>,
}

impl Chart {
    fn of(area: Area, session: &Session, traces: &[Trace]) -> Self {
        let tolerance_nm = session.tolerance.length().nm_f64();
        let last = traces.last();
        let band = last.and_then(|trace| session.band_over(&trace.means_nm));
        let edges = band.iter().flat_map(|band| [band.low_nm, band.high_nm]);
        let means = traces
            .iter()
            .flat_map(|trace| trace.means_nm.iter().flatten());
        let (low, high) = edges
            .chain(means.copied())
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), nm| {
                (low.min(nm), high.max(nm))
            });
        let room = 0.16 * (high - low).max(tolerance_nm);
        let (width, height) = (area.width - BESIDE, area.height - ABOVE - BELOW);
        Self {
            frame: Area::new(area.x + BESIDE, area.y + ABOVE, width, height),
            jaw_nm: session.press.jaw_length.length().nm_f64().max(1.0),
            low_nm: low - room,
            high_nm: high + room,
            stations_nm: session.station_positions_nm(),
            band,
        }
    }

    fn x(&self, nm: f64) -> f32 {
        self.frame.x + (nm / self.jaw_nm) as f32 * self.frame.width
    }

    fn y(&self, nm: f64) -> f32 {
        let share = (self.high_nm - nm) / (self.high_nm - self.low_nm).max(1.0);
        self.frame.y + share as f32 * self.frame.height
    }

    /// Band, grid, arms.
    fn ground(&self, sheet: &mut Sheet<'_>, session: &Session, setting: &Setting) {
        let frame = self.frame;
        let figures = &setting.figures;
        if let Some(band) = self.band {
            let (top, bottom) = (self.y(band.high_nm), self.y(band.low_nm));
            let area = Area::new(frame.x, top, frame.width, bottom - top);
            sheet.frame(area, Some(Ink::Band), None);
            for y in [top, bottom] {
                let pen = Pen {
                    dash: Some((5.0, 3.0)),
                    ..Pen::new(0.8, Ink::BandEdge)
                };
                sheet.rule(frame.x, y, frame.width, pen);
            }
            let limit = figures.limit(session.tolerance.length());
            let style = Style::regular(8.5).ink(Ink::BandEdge);
            let text = figures.language.band_label(limit);
            sheet.text(
                frame.right() - 4.0,
                bottom - 3.0,
                Align::Right,
                style,
                &text,
            );
        }
        let range = self.high_nm - self.low_nm;
        let (step_nm, decimals) = grid_step(range, frame.height, figures.unit);
        let first = (self.low_nm / step_nm).ceil() as i64;
        let last = (self.high_nm / step_nm).floor() as i64;
        for index in first..=last.min(first + 60) {
            let nm = index as f64 * step_nm;
            let y = self.y(nm);
            sheet.rule(frame.x, y, frame.width, Pen::new(0.3, Ink::Line));
            let style = Style::regular(8.5).ink(Ink::Muted);
            let label = figures.nm(nm, decimals);
            sheet.text(frame.x - 4.0, y + 3.0, Align::Right, style, &label);
        }
        for (arm, nm) in session.press.arm_positions_nm().into_iter().enumerate() {
            let x = self.x(nm);
            let pen = Pen {
                dash: Some((1.0, 2.5)),
                ..Pen::new(0.7, Ink::SteelEdge)
            };
            let (top, bottom) = (Point::new(x, frame.y), Point::new(x, frame.bottom()));
            sheet.line(top, bottom, pen);
            let letter = ArmIndex(arm).to_string();
            sheet.text(x, frame.y - 6.0, Align::Centre, Style::bold(11.0), &letter);
        }
        sheet.frame(frame, None, Some(Pen::new(0.7, Ink::SteelEdge)));
    }

    /// The curve and the means of a pass.
    fn trace(&self, sheet: &mut Sheet<'_>, session: &Session, trace: &Trace, present: bool) {
        let (ink, width, dash) = match present {
            true => (Ink::Present, 1.8, None),
            false => (Ink::Muted, 1.2, Some((4.0, 3.0))),
        };
        let (between, beyond) = curve(&self.stations_nm, &trace.means_nm, self.jaw_nm);
        let sides = [(between, dash), (beyond, Some((1.5, 3.0)))];
        for (piece, dash) in sides
            .iter()
            .flat_map(|(pieces, dash)| pieces.iter().map(move |piece| (piece, *dash)))
        {
            let points = piece
                .iter()
                .map(|[x, y]| Point::new(self.x(*x), self.y(*y)));
            sheet.extend([Mark::Path {
                points: points.map(|point| self.within(point)).collect(),
                closed: false,
                fill: None,
                pen: Some(Pen { width, ink, dash }),
            }]);
        }
        let budgets = session.budgets(trace.pass, Whose::Piece);
        for (station, mean) in trace.means_nm.iter().enumerate() {
            let (Some(mean), Some(x)) = (*mean, self.stations_nm.get(station)) else {
                continue;
            };
            let at = Point::new(self.x(*x), self.y(mean));
            let pen = Pen::new(0.9, ink);
            if let Some(budget) = budgets.get(station).into_iter().flatten().next() {
                // Twice the standard uncertainty, as gauges are usually stated.
                for side in [-1.0, 1.0] {
                    let end = Point::new(at.x, self.y(mean + side * 2.0 * budget.u_nm));
                    let end = self.within(end);
                    sheet.line(at, end, pen);
                    sheet.rule(end.x - 3.0, end.y, 6.0, pen);
                }
            }
            let counts = session.stations.get(station).is_some_and(|at| at.counts);
            sheet.extend([Mark::Circle {
                at,
                radius: if present { 3.4 } else { 2.4 },
                fill: Some(if counts { Ink::Paper } else { Ink::Line }),
                pen: Some(Pen::new(1.4, ink)),
            }]);
        }
    }

    /// Curves end at the frame.
    fn within(&self, point: Point) -> Point {
        let y = point.y.clamp(self.frame.y, self.frame.bottom());
        Point::new(point.x, y)
    }

    /// The figures of the last pass beside its means, where there is room.
    fn name(&self, sheet: &mut Sheet<'_>, trace: &Trace, setting: &Setting, session: &Session) {
        let figures = &setting.figures;
        let style = Style::bold(9.0).ink(Ink::Present);
        let budgets = session.budgets(trace.pass, Whose::Piece);
        let mut free_from = self.frame.x;
        let spread = session.spread_of(trace.pass);
        let ends = spread.map(|spread| [spread.thickest, spread.thinnest]);
        for (station, mean) in trace.means_nm.iter().enumerate() {
            let (Some(mean), Some(x)) = (*mean, self.stations_nm.get(station)) else {
                continue;
            };
            let text = figures.nm(mean, figures.mean_decimals());
            let wide = sheet.width(&text, style);
            let half = wide / 2.0;
            let x = self
                .x(*x)
                .clamp(self.frame.x + half + 2.0, self.frame.right() - half - 2.0);
            let is_end = ends.is_some_and(|ends| ends.contains(&station));
            if x - half < free_from && !is_end {
                continue;
            }
            free_from = x + half + 4.0;
            let u_nm = budgets.get(station).into_iter().flatten().next();
            let reach = u_nm.map_or(0.0, |budget| {
                self.y(mean) - self.y(mean + 2.0 * budget.u_nm)
            });
            let away = reach.max(4.0) + 4.0;
            let above = self.y(mean) - away;
            let y = if above - style.size > self.frame.y {
                above
            } else {
                self.y(mean) + away + style.size * 0.7
            };
            sheet.text(x, y, Align::Centre, style, &text);
        }
    }

    fn legend(&self, sheet: &mut Sheet<'_>, area: Area, traces: &[Trace], setting: &Setting) {
        let words = setting.figures.language;
        let y = area.bottom() - 5.0;
        let style = Style::regular(8.5).ink(Ink::Muted);
        let mut right = self.frame.right();
        for (index, trace) in traces.iter().enumerate().rev() {
            let number = trace.pass + 1;
            let only = traces.len() == 1;
            let text = match index {
                0 if only => words.report_pass(number),
                0 => words.side_found(words.report_pass(number)),
                _ => words.side_left(words.report_pass(number)),
            };
            let present = index + 1 == traces.len();
            sheet.text(right, y, Align::Right, style, &text);
            right -= sheet.width(&text, style) + 5.0;
            let pen = Pen {
                width: if present { 1.8 } else { 1.2 },
                ink: if present { Ink::Present } else { Ink::Muted },
                dash: (!present).then_some((4.0, 3.0)),
            };
            sheet.rule(right - 22.0, y - 3.0, 22.0, pen);
            right -= 34.0;
        }
        let caption = words.chart_caption(words.unit_name(setting.figures.unit));
        let room = (Align::Left, right - self.frame.x);
        sheet.fitting(self.frame.x, y, room, style, &caption);
    }
}

/// Most lines of the grid, about: on a large screen more would be a fog.
const MOST_LINES: f64 = 12.0;

/// A grid step of 1, 2 or 5 in the unit on show, about one line per 34
/// points; and the decimals that its labels need.
pub fn grid_step(range_nm: f64, height: f32, unit: Unit) -> (f64, u32) {
    let lines = f64::from(height / 38.0).clamp(2.0, MOST_LINES);
    let wanted = (range_nm / lines / unit.nm() as f64).max(1e-7);
    for decimals in (0..9).rev() {
        for digit in [1.0, 2.0, 5.0] {
            let step = digit / 10_f64.powi(decimals);
            if step >= wanted * 0.7 {
                return (step * unit.nm() as f64, decimals as u32);
            }
        }
    }
    (wanted * unit.nm() as f64, 6)
}
