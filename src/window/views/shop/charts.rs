//! The pictures in the book of a press: its jaw, its spreads and its answers
//! over the visits.

use eframe::egui::{Align2, Painter, Pos2, Rect, Role, Sense, Ui, Vec2, WidgetInfo};

use crate::press::ArmIndex;
use crate::session::Answers;
use crate::shop::{NINETY_FIVE, PressBook, VisitSummary};
use crate::units::{ExactLength, Length};
use crate::window::theme::{self, size};
use crate::window::views::Scene;
use crate::window::views::picture::canvas::{self, Canvas, EndLabel, LineKind};
use crate::window::views::widgets::strong;
use crate::words::Figures;

/// Height of a picture.
const HEIGHT: f32 = 190.0;

/// Room left of a picture for figures, right of it for names, above and below.
const ROOM: [f32; 4] = [56.0, 40.0, 8.0, 22.0];

/// Visits whose jaw is drawn, the newest ones.
const JAWS: usize = 5;

/// A titled picture's painter and frame, and the area it stands in.
fn framed(ui: &mut Ui, title: &str, name: String) -> (Painter, Rect, Rect) {
    ui.label(strong(title));
    let size = Vec2::new(ui.available_width(), HEIGHT);
    let (area, response) = ui.allocate_exact_size(size, Sense::hover());
    response.widget_info(|| WidgetInfo::labeled(Role::Image, true, &name));
    let [left, right, above, below] = ROOM;
    let frame = Rect::from_min_max(
        area.min + Vec2::new(left, above),
        area.max - Vec2::new(right, below),
    );
    (ui.painter_at(area), frame, area)
}

/// The jaw as left at the newest visits, and as last found.
pub fn jaw(ui: &mut Ui, scene: &Scene<'_>, book: &PressBook, figures: Figures) {
    let words = scene.words();
    let palette = scene.palette;
    let Some(last) = book.visits.last() else {
        return;
    };
    let from = book.visits.len().saturating_sub(JAWS);
    let shown = book.visits.get(from..).unwrap_or_default();
    let shown: Vec<&VisitSummary> = shown
        .iter()
        .filter(|visit| visit.stations == last.stations)
        .collect();
    let name = words.book_jaw_picture(words.press_name(&book.press), shown.len());
    let (painter, frame, area) = framed(ui, words.book_jaw(), name);
    let all = shown.iter().flat_map(|visit| &visit.left_nm);
    let all = all.chain(&last.found_nm).flatten();
    let half = last.tolerance.nm_f64() / 2.0;
    let most = all.fold(half * 1.3, |most: f64, nm| most.max(nm.abs() * 1.05));
    let place = |at: Option<&Length>| at.map_or(0.0, |at| at.nm_f64());
    let ends = (place(last.stations.first()), place(last.stations.last()));
    let beside = 0.06 * (ends.1 - ends.0).max(1.0);
    let canvas = Canvas {
        frame,
        x: (ends.0 - beside, ends.1 + beside),
        y: (-most, most),
    };
    let small = theme::regular(size::SMALL);
    let band = across(frame, canvas.y_at(half), canvas.y_at(-half));
    painter.rect_filled(band, 0.0, palette.band);
    canvas.rules(
        &painter,
        figures,
        palette.grid,
        Some((&small, palette.muted)),
    );
    let points = |deviations: &[Option<f64>]| -> Vec<[f64; 2]> {
        let places = last.stations.iter().zip(deviations);
        places
            .filter_map(|(at, nm)| Some([at.nm_f64(), (*nm)?]))
            .collect()
    };
    let found = theme::stroke(2.0, palette.preview);
    canvas.curve(&painter, &points(&last.found_nm), found, LineKind::Dashed);
    let newest = shown.len().saturating_sub(1);
    for (index, visit) in shown.iter().enumerate() {
        let age = (newest - index) as f32;
        let (width, ink) = match index == newest {
            true => (3.0, palette.present),
            false => (1.4, palette.muted.gamma_multiply(1.0 - age * 0.15)),
        };
        let line = points(&visit.left_nm);
        canvas.curve(&painter, &line, theme::stroke(width, ink), LineKind::Solid);
    }
    for (station, place) in last.stations.iter().enumerate() {
        painter.text(
            Pos2::new(canvas.x_at(place.nm_f64()), area.bottom()),
            Align2::CENTER_BOTTOM,
            book.station_name(station),
            theme::bold(size::SMALL),
            palette.ink,
        );
    }
}

/// Spreads as found and as left over the days.
pub fn spreads(ui: &mut Ui, scene: &Scene<'_>, book: &PressBook, figures: Figures) {
    let words = scene.words();
    let palette = scene.palette;
    let dated: Vec<(f64, &VisitSummary)> = book
        .visits
        .iter()
        .filter_map(|visit| Some((visit.day?.day_number() as f64, visit)))
        .collect();
    let (Some((first, early)), Some((last, late))) = (dated.first(), dated.last()) else {
        return;
    };
    let limit = late.tolerance;
    let of = |spread: Option<ExactLength>| spread.map(|spread| spread.nm_f64());
    let said = |of: &dyn Fn(&VisitSummary) -> Option<f64>| -> String {
        let all = dated.iter().filter_map(|(_, visit)| of(visit));
        let all: Vec<String> = all.map(|nm| figures.predicted(nm)).collect();
        all.join(", ")
    };
    let name = words.book_spreads_picture(
        said(&|visit| of(visit.found)),
        said(&|visit| of(visit.left)),
        figures.limit(limit),
    );
    let (painter, frame, area) = framed(ui, words.book_spreads(), name);
    let all = dated
        .iter()
        .flat_map(|(_, visit)| [of(visit.found), of(visit.left)]);
    let most = all.flatten().fold(limit.nm_f64() * 1.3, f64::max);
    let beside = ((last - first) * 0.04).max(1.0);
    let canvas = Canvas {
        frame,
        x: (first - beside, last + beside),
        y: (0.0, most * 1.06),
    };
    let small = theme::regular(size::SMALL);
    let inside = across(frame, canvas.y_at(limit.nm_f64()), canvas.y_at(0.0));
    painter.rect_filled(inside, 0.0, palette.band);
    canvas.rules(
        &painter,
        figures,
        palette.grid,
        Some((&small, palette.muted)),
    );
    let edge = theme::stroke(1.8, palette.band_edge);
    let y = canvas.y_at(limit.nm_f64());
    let line = vec![Pos2::new(frame.left(), y), Pos2::new(frame.right(), y)];
    canvas::line(&painter, line, edge, LineKind::Dashed);
    for (day, visit) in &dated {
        let x = canvas.x_at(*day);
        let ends = (of(visit.found), of(visit.left));
        if let (Some(found), Some(left)) = ends {
            let ends = [canvas.at_height(x, found), canvas.at_height(x, left)];
            painter.line_segment(ends, theme::stroke(1.2, palette.muted));
        }
        if let Some(found) = ends.0 {
            let at = canvas.at_height(x, found);
            painter.circle(at, 4.5, palette.card, theme::stroke(2.0, palette.preview));
        }
        if let Some(left) = ends.1 {
            painter.circle_filled(canvas.at_height(x, left), 4.0, palette.present);
        }
        if !visit.repaired.is_empty() {
            let ends = [Pos2::new(x, frame.top()), Pos2::new(x, frame.bottom())];
            canvas::line(&painter, ends.to_vec(), edge, LineKind::Dotted);
        }
    }
    for (place, align, visit) in [
        (frame.left(), Align2::LEFT_BOTTOM, early),
        (frame.right(), Align2::RIGHT_BOTTOM, late),
    ] {
        let day = visit.day.map(|day| day.to_string()).unwrap_or_default();
        let at = Pos2::new(place, area.bottom());
        painter.text(at, align, day, small.clone(), palette.ink);
    }
}

/// The part of a frame between two heights.
fn across(frame: Rect, top: f32, bottom: f32) -> Rect {
    let ends = (
        Pos2::new(frame.left(), top),
        Pos2::new(frame.right(), bottom),
    );
    Rect::from_min_max(ends.0, ends.1).intersect(frame)
}

/// What one notch of each nut does at its own arm, visit by visit, each with
/// the interval that holds 95 %.
pub fn answers(ui: &mut Ui, scene: &Scene<'_>, answers: &[Answers], figures: Figures) {
    let words = scene.words();
    let palette = scene.palette;
    let Some(last) = answers.last() else { return };
    let (painter, frame, _) = framed(ui, words.book_answers(), words.book_answers().to_owned());
    let reach = |(nm, sd): &(f64, f64)| [nm - NINETY_FIVE * sd, nm + NINETY_FIVE * sd];
    let all = answers.iter().flat_map(|at| at.per_notch_nm.iter());
    let (low, high) = all
        .flat_map(reach)
        .fold((0.0_f64, 1.0_f64), |(low, high), nm| {
            (low.min(nm), high.max(nm))
        });
    let canvas = Canvas {
        frame,
        x: (-0.4, answers.len() as f64 - 0.6),
        y: (low, high * 1.04),
    };
    let small = theme::regular(size::SMALL);
    canvas.rules(
        &painter,
        figures,
        palette.grid,
        Some((&small, palette.muted)),
    );
    let kinds = [
        (LineKind::Solid, palette.present),
        (LineKind::Dashed, palette.preview),
        (LineKind::ShortDashed, palette.band_edge),
        (LineKind::Dotted, palette.muted),
    ];
    let arms = last.per_notch_nm.len();
    let mut labels = Vec::new();
    for arm in 0..arms {
        let Some((kind, ink)) = kinds.get(arm % kinds.len()).copied() else {
            continue;
        };
        // Side by side, so that no interval hides another.
        let aside = (arm as f64 - (arms as f64 - 1.0) / 2.0) * 0.5 / arms.max(1) as f64;
        let of_arm = answers.iter().enumerate().filter_map(|(visit, at)| {
            let (nm, sd) = *at.per_notch_nm.get(arm)?;
            Some((visit as f64 + aside, nm, sd))
        });
        let of_arm: Vec<(f64, f64, f64)> = of_arm.collect();
        for (x, nm, sd) in &of_arm {
            let ends = [
                canvas.at(*x, nm - NINETY_FIVE * sd),
                canvas.at(*x, nm + NINETY_FIVE * sd),
            ];
            painter.line_segment(ends, theme::stroke(1.2, ink.gamma_multiply(0.6)));
        }
        let line: Vec<[f64; 2]> = of_arm.iter().map(|(x, nm, _)| [*x, *nm]).collect();
        canvas.curve(&painter, &line, theme::stroke(2.0, ink), kind);
        if let Some([x, nm]) = line.last() {
            labels.push(EndLabel {
                end: canvas.at(*x, *nm),
                text: ArmIndex(arm).to_string(),
                font: theme::bold(size::SMALL),
                ink,
                needed: true,
            });
        }
    }
    canvas::end_labels(
        &painter,
        frame.right(),
        (frame.top(), frame.bottom()),
        labels,
    );
}
