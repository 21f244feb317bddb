//! A press in one row of the list: its name, its jaw and its spreads drawn small,
//! how the last visit ended, when to look at it and why.

use std::sync::Arc;

use eframe::egui::{Align2, Painter, Pos2, Rect, Response, Shape, Ui, Vec2};

use crate::shop::{PressBook, VisitSummary};
use crate::units::Length;
use crate::window::theme::{self, Palette, size};
use crate::words::Language;

use super::charts::level;
use super::row::{self, Text};

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
    /// What is to be done before it works; none where nothing is.
    pub act: Option<String>,
    /// When to look at it, and the first reasons why.
    pub when: String,
    /// Further reasons.
    pub further: String,
    /// Whether it gets worse.
    pub trend: String,
    /// The tolerance of its last visit.
    pub limit: String,
}

/// Width from which the pictures are drawn, and the shares of the columns with
/// them and without: press, jaw, spreads, how it ended, when.
const PICTURES: f32 = 640.0;
const WITH: [f32; 5] = [0.18, 0.12, 0.17, 0.21, 0.32];
const WITHOUT: [f32; 5] = [0.30, 0.0, 0.0, 0.35, 0.35];

/// Visits whose spreads are drawn, the newest ones.
const VISITS: usize = 10;

/// Height of a row's pictures from which letters and limit are written in them,
/// and the height of letters.
const LETTERED: f32 = 60.0;
const LETTERS: f32 = 15.0;

fn shares(ui: &Ui) -> [f32; 5] {
    if ui.available_width() >= PICTURES {
        WITH
    } else {
        WITHOUT
    }
}

/// Names the columns.
pub fn headings(ui: &mut Ui, palette: &Palette, words: Language) {
    let names = [
        words.column_press(),
        words.column_jaw(),
        words.column_spreads(),
        words.column_ended(),
        words.column_when(),
    ];
    row::headings(ui, palette, &shares(ui), &names.join("|"));
}

/// Draws the row, at least so tall; it is pressed as a whole.
pub fn show(
    ui: &mut Ui,
    palette: &'static Palette,
    book: &PressBook,
    line: &PressLine,
    tall: f32,
) -> Response {
    let shares = shares(ui);
    let (ink, muted) = (palette.ink, palette.muted);
    let act = line.act.as_ref().map(|act| format!("⚠ {act}"));
    let act = act.unwrap_or_default();
    let cells = [
        vec![Text::bold(&line.name, ink), Text::small(&line.visits, ink)],
        Vec::new(),
        Vec::new(),
        vec![
            Text::small(&line.ended, ink),
            Text::small(&line.month, muted),
        ],
        vec![
            Text::bold(&act, palette.caution),
            Text::small(&line.when, ink),
            Text::small(&line.further, ink),
            Text::small(&line.trend, muted),
        ],
    ];
    let told = [
        &line.visits,
        &line.ended,
        &act,
        &line.when,
        &line.further,
        &line.trend,
        &line.month,
    ];
    let told = told.into_iter().filter(|text| !text.is_empty());
    let told: Vec<&str> = told.map(String::as_str).collect();
    let name = format!("{}. {}", line.name, told.join(". "));
    let (response, rooms) = row::row(
        ui,
        palette,
        &shares,
        &cells,
        (&name, tall, line.act.is_some()),
    );
    if let [_, jaw, spreads, ..] = *rooms.as_slice()
        && jaw.width() > 0.0
    {
        draw_jaw(ui.painter(), palette, book, jaw);
        draw_spreads(ui.painter(), palette, book, spreads, &line.limit);
    }
    response
}

/// The jaw as the last visit left it, and dashed as it found it, over the
/// tolerance, which floats about either.
fn draw_jaw(painter: &Painter, palette: &Palette, book: &PressBook, room: Rect) {
    let Some(last) = book.visits.last() else {
        return;
    };
    let lettered = room.height() >= LETTERED;
    let below = if lettered { LETTERS } else { 0.0 };
    let inner = room.with_max_y(room.bottom() - below);
    if last.band().is_none() {
        return;
    }
    let limit = last.tolerance.nm_f64();
    let (found, left) = (level(&last.found_nm, limit), level(&last.left_nm, limit));
    let half = limit / 2.0;
    let all = found.iter().chain(&left).flatten();
    let most = all.map(|nm| nm.abs()).fold(half * 1.4, f64::max);
    let y = |nm: f64| inner.center().y - (nm / most) as f32 * (inner.height() / 2.0 - 2.0);
    let drawn = Rect::from_x_y_ranges(inner.x_range(), y(half)..=y(-half));
    painter.rect_filled(drawn, 2.0, palette.band);
    let places: Vec<f64> = last.stations.iter().copied().map(Length::nm_f64).collect();
    let ends = places.first().zip(places.last());
    let (first, long) = ends.map_or((0.0, 1.0), |(first, end)| (*first, (end - first).max(1.0)));
    let within = inner.shrink2(Vec2::new(6.0, 0.0));
    let x = |place: f64| within.left() + ((place - first) / long) as f32 * within.width();
    let line = |nm: &[Option<f64>]| -> Vec<Pos2> {
        let points = places.iter().zip(nm);
        let points = points.filter_map(|(place, nm)| Some(Pos2::new(x(*place), y((*nm)?))));
        points.collect()
    };
    if last.read > 1 || !last.was_left() {
        let pen = theme::stroke(1.5, palette.preview);
        painter.extend(Shape::dashed_line(&line(&found), pen, 4.0, 3.0));
    }
    if last.was_left() {
        painter.line(line(&left), theme::stroke(2.0, palette.present));
    }
    if lettered {
        // As many as have room.
        let every = (places.len() as f32 * 14.0 / within.width())
            .ceil()
            .max(1.0) as usize;
        for (station, place) in places.iter().enumerate().step_by(every) {
            let at = Pos2::new(x(*place), room.bottom());
            let name = book.station_name(station);
            let font = theme::regular(size::LEAST);
            painter.text(at, Align2::CENTER_BOTTOM, name, font, palette.muted);
        }
    }
}

/// The spreads of the newest visits as found and as left, over the tolerance.
fn draw_spreads(painter: &Painter, palette: &Palette, book: &PressBook, room: Rect, limit: &str) {
    let newest = book.visits.len().saturating_sub(VISITS);
    let shown = book.visits.get(newest..).unwrap_or_default();
    let Some(last) = shown.last() else { return };
    let lettered = room.height() >= LETTERED;
    let tolerance = last.tolerance.nm_f64();
    let spreads = |left: bool| -> Vec<(usize, f64)> {
        let visits = shown.iter().rev().enumerate();
        let spreads = visits.filter_map(|(ago, visit)| match left {
            true => Some((ago, visit.left.filter(|_| visit.was_left())?.value.nm_f64())),
            false => Some((ago, visit.found?.value.nm_f64())),
        });
        spreads.collect()
    };
    let (found, left) = (spreads(false), spreads(true));
    let all = found.iter().chain(&left).map(|(_, nm)| *nm);
    let most = all.fold(tolerance * 1.4, f64::max);
    let font = theme::regular(size::LEAST);
    let limit = painter.layout_no_wrap(limit.to_owned(), font, palette.band_edge);
    let beside = if lettered { limit.size().x + 4.0 } else { 0.0 };
    let below = if lettered { LETTERS } else { 0.0 };
    let drawn = Rect::from_min_max(room.min, room.max - Vec2::new(beside, below));
    let inner = drawn.shrink(3.0);
    let y = |nm: f64| inner.bottom() - (nm / most) as f32 * inner.height();
    let band = Rect::from_x_y_ranges(drawn.x_range(), y(tolerance)..=drawn.bottom());
    painter.rect_filled(band, 2.0, palette.band);
    if lettered {
        let at = Pos2::new(drawn.right() + 4.0, y(tolerance));
        let at = Align2::LEFT_CENTER.anchor_size(at, limit.size()).min;
        painter.galley(at, limit, palette.band_edge);
    }
    let step = inner.width() / (VISITS - 1) as f32;
    if lettered {
        // From which month to which.
        let month = |visit: Option<&Arc<VisitSummary>>| {
            let day = visit.and_then(|visit| visit.day)?.to_string();
            day.get(.."2026-11".len()).map(str::to_owned)
        };
        let last = month(shown.last()).unwrap_or_default();
        let months = match month(shown.first()) {
            Some(first) if first != last => format!("{first}–{last}"),
            _ => last,
        };
        let at = Pos2::new(drawn.left(), room.bottom());
        let font = theme::regular(size::LEAST);
        painter.text(at, Align2::LEFT_BOTTOM, months, font, palette.muted);
    }
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
