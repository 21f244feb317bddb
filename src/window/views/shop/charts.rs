//! The pictures in the book of a press: its jaw, its spreads and its answers
//! over the visits.

use std::sync::Arc;

use eframe::egui::{Align2, Pos2, Rect, Response, Role, Sense, Ui, Vec2, WidgetInfo};
use egui_plot::MarkerShape;

use crate::press::ArmIndex;
use crate::report::grid_step;
use crate::session::Answers;
use crate::shop::{NINETY_FIVE, Pair, PressBook, VisitSummary};
use crate::splice::{Band, Spread};
use crate::units::Length;
use crate::window::theme::{self, Palette, size};
use crate::window::views::Scene;
use crate::window::views::picture::plot::{self, Chart, NamedLine, Pen};
use crate::window::views::widgets::{muted, strong};
use crate::words::Figures;

/// Height of a picture.
const HEIGHT: f32 = 190.0;

/// Room right of a picture for names.
const NAMES: f32 = 84.0;

/// Size of the picture of one arm, and most rules in it.
const SMALL: Vec2 = Vec2::new(150.0, 96.0);
const MOST_LINES: usize = 12;

/// Visits whose jaw is drawn, the newest ones.
const JAWS: usize = 5;

/// A line without marks.
fn line(name: String, points: Vec<[f64; 2]>, pen: Pen) -> NamedLine {
    NamedLine {
        needed: !name.is_empty(),
        name,
        pieces: vec![points],
        marks: Vec::new(),
        shape: MarkerShape::Circle,
        filled: true,
        pen,
    }
}

/// A picture before anything is drawn in it.
fn picture<'a>(
    scene: &Scene<'_>,
    figures: Figures,
    (id, description): (&'a str, String),
    names: &'a [(f64, String)],
    (x, y): ((f64, f64), (f64, f64)),
) -> Chart<'a> {
    Chart {
        id,
        description,
        palette: scene.palette,
        figures,
        height: HEIGHT,
        x,
        names,
        names_above: false,
        y,
        wall: None,
        right: NAMES,
    }
}

/// A piece about the middle of the band that floats over it: so one band is true
/// of every piece drawn on it.
pub fn level(deviations: &[Option<f64>], tolerance_nm: f64) -> Vec<Option<f64>> {
    let means: Vec<f64> = deviations.iter().flatten().copied().collect();
    let band = Band::over(&means, tolerance_nm);
    let middle = band.map_or(0.0, |band| 0.5 * (band.low_nm + band.high_nm));
    let lifted = deviations.iter().map(|nm| nm.map(|nm| nm - middle));
    lifted.collect()
}

/// The jaw as left at the newest visits, and as last found.
pub fn jaw(ui: &mut Ui, scene: &Scene<'_>, book: &PressBook, figures: Figures) {
    let words = scene.words();
    let palette = scene.palette;
    let Some(last) = book.visits.last() else {
        return;
    };
    let from = book.visits.len().saturating_sub(JAWS);
    let shown = book.visits.get(from..).unwrap_or_default().iter();
    let shown: Vec<&VisitSummary> = shown
        .map(Arc::as_ref)
        .filter(|visit| visit.stations == last.stations)
        .collect();
    let limit = last.tolerance.nm_f64();
    let half = 0.5 * limit;
    let left: Vec<Vec<Option<f64>>> = shown.iter().map(|it| level(&it.left_nm, limit)).collect();
    let found = level(&last.found_nm, limit);
    if last.band().is_none() {
        ui.label(words.book_jaw_unknown());
        return;
    }
    let band = Band {
        low_nm: -half,
        high_nm: half,
    };
    let all = left.iter().chain([&found]).flatten().flatten().copied();
    let all = all.chain([band.low_nm, band.high_nm]);
    let Some(range) = plot::range(all, 0.08, 1_000.0) else {
        return;
    };
    let places: Vec<f64> = last.stations.iter().copied().map(Length::nm_f64).collect();
    let (Some(first), Some(end)) = (places.first(), places.last()) else {
        return;
    };
    let beside = 0.06 * (end - first).max(1.0);
    let names = places.iter().enumerate();
    let drift = book.drift.as_ref().ok().map(|drift| drift.fastest);
    let drift = drift.filter(Pair::is_sure);
    let names: Vec<(f64, String)> = names
        .map(|(station, place)| {
            let way = match drift {
                Some(pair) if pair.growing == station => " ▲",
                Some(pair) if pair.shrinking == station => " ▼",
                _ => "",
            };
            (*place, format!("{}{way}", book.station_name(station)))
        })
        .collect();
    let points = |deviations: &[Option<f64>]| -> Vec<[f64; 2]> {
        let places = places.iter().zip(deviations);
        let points = places.filter_map(|(place, nm)| Some([*place, (*nm)?]));
        points.collect()
    };
    let newest = shown.len().saturating_sub(1);
    let mut lines = Vec::new();
    for (index, (visit, left)) in shown.iter().zip(&left).enumerate() {
        let age = (newest - index) as f32;
        let (name, pen) = match index == newest {
            true => (visit.when.clone(), Pen::solid(palette.present, 3.0)),
            false => {
                let ink = palette.muted.gamma_multiply(1.0 - age * 0.15);
                (String::new(), Pen::solid(ink, 1.4))
            }
        };
        lines.push(line(name, points(left), pen));
    }
    let dashed = Pen::dashed(palette.preview, 2.0, 9.0);
    lines.push(line(String::new(), points(&found), dashed));
    let name = words.book_jaw_picture(words.press_name(&book.press), shown.len());
    let frame = ((first - beside, end + beside), range);
    ui.label(strong(words.book_jaw()));
    let before = shown.split_last().map(|(_, before)| before);
    let before = before.and_then(|before| Some((before.first()?, before.last()?)));
    let before = before.map(|(first, last)| words.book_jaw_before(&first.when, &last.when));
    let drifts = drift.map(|pair| {
        let name = |station| book.station_name(station);
        words.book_jaw_drifts(name(pair.growing), name(pair.shrinking))
    });
    let said: Vec<String> = before.into_iter().chain(drifts).collect();
    ui.label(muted(palette, said.join(" ")));
    let chart = picture(scene, figures, ("book jaw", name), &names, frame);
    plot::lines(
        ui,
        chart,
        Some((band, figures.limit(last.tolerance))),
        &lines,
        |_| {},
    );
}

/// Spreads as found and as left over the days.
pub fn spreads(ui: &mut Ui, scene: &Scene<'_>, book: &PressBook, figures: Figures) {
    let words = scene.words();
    let palette = scene.palette;
    let dated = book.visits.iter().map(Arc::as_ref);
    let dated: Vec<(f64, &VisitSummary)> = dated
        .filter_map(|visit| Some((visit.day?.day_number() as f64, visit)))
        .collect();
    let (Some((first, early)), Some((last, late))) = (dated.first(), dated.last()) else {
        return;
    };
    let limit = late.tolerance;
    let nm = |spread: Option<Spread>| spread.map(|spread| spread.value.nm_f64());
    let found = |visit: &VisitSummary| nm(visit.found);
    let left = |visit: &VisitSummary| nm(visit.left.filter(|_| visit.was_left()));
    let points = |of: &dyn Fn(&VisitSummary) -> Option<f64>| -> Vec<[f64; 2]> {
        let points = dated
            .iter()
            .filter_map(|(day, visit)| Some([*day, of(visit)?]));
        points.collect()
    };
    let (found, left) = (points(&found), points(&left));
    let said = |points: &[[f64; 2]]| -> String {
        let all: Vec<String> = points
            .iter()
            .map(|[_, nm]| figures.predicted(*nm))
            .collect();
        all.join(", ")
    };
    let description = words.book_spreads_picture(said(&found), said(&left), figures.limit(limit));
    let most = found.iter().chain(&left).map(|[_, nm]| *nm);
    let most = most.fold(limit.nm_f64() * 1.3, f64::max) * 1.06;
    let beside = ((last - first) * 0.05).max(1.0);
    let day = |at: f64, visit: &VisitSummary| {
        let day = visit.day.map(|day| day.to_string()).unwrap_or_default();
        (at, day)
    };
    let middle = dated
        .get(dated.len() / 2)
        .filter(|(at, _)| at > first && at < last);
    let mut names = vec![day(*first, early)];
    names.extend(middle.map(|(at, visit)| day(*at, visit)));
    names.extend((last > first).then(|| day(*last, late)));
    let marked = |points: Vec<[f64; 2]>, filled, pen| NamedLine {
        marks: points.clone(),
        filled,
        ..line(String::new(), points, pen)
    };
    let lines = [
        marked(found, false, Pen::dashed(palette.preview, 1.8, 7.0)),
        marked(left, true, Pen::solid(palette.present, 1.8)),
    ];
    ui.label(strong(words.book_spreads()));
    ui.label(muted(palette, figures.spreads_sentence(book)));
    // Dates at the ends have to stand within the chart.
    let wide = (first - 2.0 * beside, last + 2.0 * beside);
    let chart = picture(
        scene,
        figures,
        ("book spreads", description),
        &names,
        (wide, (0.0, most)),
    );
    let band = Band {
        low_nm: 0.0,
        high_nm: limit.nm_f64(),
    };
    plot::lines(
        ui,
        chart,
        Some((band, figures.limit(limit))),
        &lines,
        |sheet| {
            for (day, visit) in &dated {
                if !visit.repaired.is_empty() {
                    let pen = Pen::dotted(palette.band_edge, 2.0);
                    sheet.line(&[[*day, 0.0], [*day, most]], pen);
                }
            }
        },
    );
}

/// What one notch of each nut does at its own arm, visit by visit: a small
/// picture an arm, all to one scale, each over the interval that holds 95 %.
pub fn answers(ui: &mut Ui, palette: &'static Palette, answers: &[Answers], figures: Figures) {
    let words = figures.language;
    let Some(last) = answers.last() else {
        ui.label(words.taught_nothing_yet());
        return;
    };
    let reach = |(nm, sd): &(f64, f64)| [nm - NINETY_FIVE * sd, nm + NINETY_FIVE * sd];
    let all = answers.iter().flat_map(|at| at.per_notch_nm.iter());
    let Some(range) = plot::range(all.flat_map(reach), 0.05, 1_000.0) else {
        return;
    };
    ui.label(strong(words.book_answers()));
    ui.horizontal_wrapped(|ui| {
        for (arm, (nm, sd)) in last.per_notch_nm.iter().enumerate() {
            let answer = figures.answer(*nm, NINETY_FIVE * sd);
            let arm_name = ArmIndex(arm).to_string();
            let at = |at: &Answers| at.per_notch_nm.get(arm).copied();
            let shown: Vec<(f64, [f64; 2])> = answers
                .iter()
                .filter_map(at)
                .map(|answer| (answer.0, reach(&answer)))
                .collect();
            let response = small(ui, palette, figures, (&arm_name, range), &shown);
            let said = words.press_and(&arm_name, answer);
            response.widget_info(|| WidgetInfo::labeled(Role::Image, true, &said));
        }
    });
}

/// A small picture of values in their intervals, its name above it.
fn small(
    ui: &mut Ui,
    palette: &Palette,
    figures: Figures,
    (name, (low, high)): (&str, (f64, f64)),
    shown: &[(f64, [f64; 2])],
) -> Response {
    let (rect, response) = ui.allocate_exact_size(SMALL, Sense::hover());
    let painter = ui.painter();
    let ink = palette.ink;
    let font = theme::bold(size::SMALL);
    painter.text(rect.left_top(), Align2::LEFT_TOP, name, font, ink);
    let room = Rect::from_min_max(rect.min + Vec2::new(plot::AXIS_WIDTH, 20.0), rect.max);
    let y = |nm: f64| room.bottom() - ((nm - low) / (high - low)) as f32 * room.height();
    let (step, decimals) = grid_step(high - low, room.height(), figures.unit);
    let first = (low / step).ceil() as i64;
    let lines = (first..=(high / step).floor() as i64).take(MOST_LINES);
    for nm in lines.map(|index| index as f64 * step) {
        painter.hline(room.x_range(), y(nm), theme::stroke(1.0, palette.grid));
        let at = Pos2::new(room.left() - 5.0, y(nm));
        let (text, font) = (figures.nm(nm, decimals), theme::regular(size::LEAST));
        painter.text(at, Align2::RIGHT_CENTER, text, font, palette.muted);
    }
    let wide = room.width() / shown.len().max(1) as f32;
    let x = |visit: usize| room.left() + (visit as f32 + 0.5) * wide;
    for (visit, (_, [from, to])) in shown.iter().enumerate() {
        let across = x(visit) - wide / 2.0..=x(visit) + wide / 2.0;
        let reach = Rect::from_x_y_ranges(across, y(*to)..=y(*from));
        painter.rect_filled(reach, 0.0, palette.button_hover);
    }
    let means = shown.iter().enumerate();
    let means: Vec<Pos2> = means
        .map(|(visit, (nm, _))| Pos2::new(x(visit), y(*nm)))
        .collect();
    for at in &means {
        painter.circle_filled(*at, 2.5, palette.present);
    }
    painter.line(means, theme::stroke(2.0, palette.present));
    response
}
