//! A press in one row of the list: its name, its jaw and its spreads drawn small,
//! how the last visit ended, when to look at it and why.

use std::sync::Arc;

use eframe::egui::{
    Color32, CornerRadius, Galley, Painter, Pos2, Rect, Response, Role, Sense, Shape, StrokeKind,
    Ui, Vec2, WidgetInfo,
};

use crate::shop::PressBook;
use crate::units::Length;
use crate::window::theme::{self, Palette, size};
use crate::words::Language;

/// What a row says.
pub struct PressLine {
    /// The press.
    pub name: String,
    /// Its last visit, and how many.
    pub visits: String,
    /// How the last visit ended.
    pub ended: String,
    /// Pieces and hours a month.
    pub month: String,
    /// When to look at it, and why.
    pub when: String,
    /// Whether it gets worse.
    pub trend: String,
    /// Upkeep that is past its interval.
    pub upkeep: Option<String>,
    /// Whether it wants looking at now.
    pub presses: bool,
}

/// Room around what stands in a row.
const AROUND: Vec2 = Vec2::new(10.0, 5.0);

/// Width from which the pictures are drawn, and the shares of the columns with
/// them and without: press, pictures, how it ended, when.
const PICTURES: f32 = 640.0;
const WITH: [f32; 4] = [0.20, 0.22, 0.29, 0.29];
const WITHOUT: [f32; 4] = [0.30, 0.0, 0.35, 0.35];

/// Visits whose spreads are drawn, the newest ones.
const VISITS: usize = 10;

/// Left edge and width of the columns.
fn columns(left: f32, width: f32) -> [(f32, f32); 4] {
    let shares = if width >= PICTURES { WITH } else { WITHOUT };
    let mut at = left + AROUND.x;
    shares.map(|share| {
        let column = share * (width - 2.0 * AROUND.x);
        at += column;
        (at - column, (column - 12.0).max(0.0))
    })
}

/// The names of the columns.
pub fn headings(ui: &mut Ui, palette: &Palette, words: Language) {
    let width = ui.available_width();
    let texts = [
        words.column_press(),
        words.column_pictures(),
        words.column_ended(),
        words.column_when(),
    ];
    let (left, top) = (ui.cursor().left(), ui.cursor().top());
    let laid = texts.into_iter().zip(columns(left, width));
    let laid = laid.filter(|(_, (_, wide))| *wide > 0.0);
    let laid: Vec<(Arc<Galley>, f32)> = laid
        .map(|(text, (at, wide))| {
            let font = theme::regular(size::SMALL);
            let painter = ui.painter();
            let text = painter.layout(text.to_owned(), font, palette.muted, wide);
            (text, at)
        })
        .collect();
    let height = laid.iter().map(|(text, _)| text.size().y);
    let height = height.fold(0.0, f32::max);
    ui.allocate_exact_size(Vec2::new(width, height), Sense::hover());
    for (text, at) in laid {
        ui.painter().galley(Pos2::new(at, top), text, palette.muted);
    }
}

/// Texts below each other.
struct Stack(Vec<Arc<Galley>>);

impl Stack {
    fn of(painter: &Painter, wide: f32, texts: &[(&str, bool, Color32)]) -> Self {
        let texts = texts.iter().filter(|(text, ..)| !text.is_empty());
        let laid = texts.map(|(text, bold, ink)| {
            let font = match bold {
                true => theme::bold(size::BODY),
                false => theme::regular(size::SMALL),
            };
            painter.layout((*text).to_owned(), font, *ink, wide)
        });
        Self(laid.collect())
    }

    fn height(&self) -> f32 {
        self.0.iter().map(|text| text.size().y).sum()
    }
}

/// Draws the row, at least so tall; it is pressed as a whole.
pub fn show(
    ui: &mut Ui,
    palette: &Palette,
    book: &PressBook,
    line: &PressLine,
    tall: f32,
) -> Response {
    let width = ui.available_width();
    let [name, pictures, ended, when] = columns(ui.cursor().left(), width);
    let mark = if line.presses { "⚠ " } else { "" };
    let marked = format!("{mark}{}", line.when);
    let (ink, muted) = (palette.ink, palette.muted);
    let upkeep = line.upkeep.as_deref().unwrap_or_default();
    let painter = ui.painter();
    let stacks = [
        (
            name.0,
            Stack::of(
                painter,
                name.1,
                &[(&line.name, true, ink), (&line.visits, false, ink)],
            ),
        ),
        (
            ended.0,
            Stack::of(
                painter,
                ended.1,
                &[(&line.ended, false, ink), (&line.month, false, muted)],
            ),
        ),
        (
            when.0,
            Stack::of(
                painter,
                when.1,
                &[
                    (&marked, false, ink),
                    (&line.trend, false, muted),
                    (upkeep, false, palette.caution),
                ],
            ),
        ),
    ];
    let tallest = stacks.iter().map(|(_, stack)| stack.height());
    let height = tallest.fold(tall, f32::max) + 2.0 * AROUND.y;
    let (rect, response) = ui.allocate_exact_size(Vec2::new(width, height), Sense::click());
    response.widget_info(|| {
        let told = [
            &*line.visits,
            &line.ended,
            &line.when,
            &line.trend,
            upkeep,
            &line.month,
        ];
        let told = told.into_iter().filter(|text| !text.is_empty());
        let told: Vec<&str> = told.collect();
        let name = format!("{}. {}", line.name, told.join(". "));
        WidgetInfo::labeled(Role::Button, true, name)
    });
    let (fill, edge) = match (response.hovered() || response.has_focus(), line.presses) {
        (true, _) => (palette.button_hover, theme::stroke(2.0, palette.present)),
        (false, true) => (palette.card, theme::stroke(1.5, palette.caution)),
        (false, false) => (palette.card, theme::stroke(1.0, palette.line)),
    };
    let painter = ui.painter();
    painter.rect(rect, CornerRadius::same(5), fill, edge, StrokeKind::Inside);
    for (at, stack) in stacks {
        let mut y = rect.center().y - stack.height() / 2.0;
        for text in stack.0 {
            let high = text.size().y;
            painter.galley(Pos2::new(at, y), text, ink);
            y += high;
        }
    }
    if pictures.1 > 0.0 {
        let y = rect.shrink2(AROUND + Vec2::splat(1.0)).y_range();
        let room = Rect::from_x_y_ranges(pictures.0..=pictures.0 + pictures.1, y);
        let (jaw, spreads) = room.split_left_right_at_fraction(0.5);
        let apart = Vec2::new(6.0, 0.0);
        draw_jaw(painter, palette, book, jaw.shrink2(apart));
        draw_spreads(painter, palette, book, spreads.shrink2(apart));
    }
    response
}

/// The jaw as the last visit left it, and dashed as it found it, over the
/// tolerance.
fn draw_jaw(painter: &Painter, palette: &Palette, book: &PressBook, room: Rect) {
    let Some(last) = book.visits.last() else {
        return;
    };
    let half = last.tolerance.nm_f64() / 2.0;
    let all = last.found_nm.iter().chain(&last.left_nm).flatten();
    let most = all.map(|nm| nm.abs()).fold(half * 1.4, f64::max);
    let y = |nm: f64| room.center().y - (nm / most) as f32 * room.height() / 2.0;
    let band = Rect::from_x_y_ranges(room.x_range(), y(half)..=y(-half));
    painter.rect_filled(band, 2.0, palette.band);
    let places: Vec<f64> = last.stations.iter().copied().map(Length::nm_f64).collect();
    let ends = places.first().zip(places.last());
    let (first, long) = ends.map_or((0.0, 1.0), |(first, end)| (*first, (end - first).max(1.0)));
    let line = |nm: &[Option<f64>]| -> Vec<Pos2> {
        let points = places.iter().zip(nm);
        let points = points.filter_map(|(place, nm)| {
            let x = room.left() + ((place - first) / long) as f32 * room.width();
            Some(Pos2::new(x, y((*nm)?)))
        });
        points.collect()
    };
    if last.read > 1 || !last.was_left() {
        let found = theme::stroke(1.5, palette.preview);
        painter.extend(Shape::dashed_line(&line(&last.found_nm), found, 4.0, 3.0));
    }
    if last.was_left() {
        painter.line(line(&last.left_nm), theme::stroke(2.0, palette.present));
    }
}

/// The spreads of the newest visits as found and as left, over the tolerance.
fn draw_spreads(painter: &Painter, palette: &Palette, book: &PressBook, room: Rect) {
    let newest = book.visits.len().saturating_sub(VISITS);
    let shown = book.visits.get(newest..).unwrap_or_default();
    let Some(last) = shown.last() else { return };
    let limit = last.tolerance.nm_f64();
    let spreads = |left: bool| -> Vec<(usize, f64)> {
        let visits = shown.iter().rev().enumerate();
        let spreads = visits.filter_map(|(ago, visit)| match left {
            true => Some((ago, visit.left.filter(|_| visit.was_left())?.nm_f64())),
            false => Some((ago, visit.found?.nm_f64())),
        });
        spreads.collect()
    };
    let (found, left) = (spreads(false), spreads(true));
    let all = found.iter().chain(&left).map(|(_, nm)| *nm);
    let most = all.fold(limit * 1.4, f64::max);
    let inner = room.shrink(3.0);
    let y = |nm: f64| inner.bottom() - (nm / most) as f32 * inner.height();
    let band = Rect::from_x_y_ranges(room.x_range(), y(limit)..=room.bottom());
    painter.rect_filled(band, 2.0, palette.band);
    let step = inner.width() / (VISITS - 1) as f32;
    for (spreads, ink, is_left) in [
        (found, palette.preview, false),
        (left, palette.present, true),
    ] {
        let points = spreads.into_iter();
        let points = points.map(|(ago, nm)| Pos2::new(inner.right() - step * ago as f32, y(nm)));
        let points: Vec<Pos2> = points.collect();
        painter.line(points.clone(), theme::stroke(1.0, ink));
        for at in points {
            let fill = if is_left { ink } else { palette.card };
            painter.circle(at, 2.5, fill, theme::stroke(1.3, ink));
        }
    }
}
