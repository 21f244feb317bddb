//! The pictures in the book of a press: its jaw, its spreads and its answers
//! over the visits.

use eframe::egui::Ui;
use egui_plot::MarkerShape;

use crate::press::ArmIndex;
use crate::session::Answers;
use crate::shop::{NINETY_FIVE, PressBook, VisitSummary};
use crate::splice::Band;
use crate::units::{ExactLength, Length};
use crate::window::views::Scene;
use crate::window::views::picture::plot::{self, Chart, NamedLine, Pen};
use crate::window::views::widgets::{muted, strong};
use crate::words::Figures;

/// Height of a picture.
const HEIGHT: f32 = 190.0;

/// Room right of a picture for names.
const NAMES: f32 = 84.0;

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
        .filter(|visit| visit.stations == last.stations)
        .collect();
    let half = last.tolerance.nm_f64() / 2.0;
    let all = shown.iter().flat_map(|visit| &visit.left_nm);
    let all = all.chain(&last.found_nm).flatten().map(|nm| nm.abs());
    let most = all.fold(half, f64::max) * 1.15;
    let places: Vec<f64> = last.stations.iter().copied().map(Length::nm_f64).collect();
    let (Some(first), Some(end)) = (places.first(), places.last()) else {
        return;
    };
    let beside = 0.06 * (end - first).max(1.0);
    let names = places.iter().enumerate();
    let names: Vec<(f64, String)> = names
        .map(|(station, place)| (*place, book.station_name(station)))
        .collect();
    let points = |deviations: &[Option<f64>]| -> Vec<[f64; 2]> {
        let places = places.iter().zip(deviations);
        let points = places.filter_map(|(place, nm)| Some([*place, (*nm)?]));
        points.collect()
    };
    let newest = shown.len().saturating_sub(1);
    let mut lines = Vec::new();
    for (index, visit) in shown.iter().enumerate() {
        let age = (newest - index) as f32;
        let (name, pen) = match index == newest {
            true => (visit.when.clone(), Pen::solid(palette.present, 3.0)),
            false => {
                let ink = palette.muted.gamma_multiply(1.0 - age * 0.15);
                (String::new(), Pen::solid(ink, 1.4))
            }
        };
        lines.push(line(name, points(&visit.left_nm), pen));
    }
    let found = Pen::dashed(palette.preview, 2.0, 9.0);
    lines.push(line(String::new(), points(&last.found_nm), found));
    let name = words.book_jaw_picture(words.press_name(&book.press), shown.len());
    let frame = ((first - beside, end + beside), (-most, most));
    ui.label(strong(figures.jaw_sentence(book)));
    ui.label(muted(palette, words.book_jaw()));
    let chart = picture(scene, figures, ("book jaw", name), &names, frame);
    let band = Band {
        low_nm: -half,
        high_nm: half,
    };
    plot::lines(ui, chart, Some((band, String::new())), &lines, |_| {});
}

/// Spreads as found and as left over the days.
pub fn spreads(ui: &mut Ui, scene: &Scene<'_>, book: &PressBook, figures: Figures) {
    let words = scene.words();
    let palette = scene.palette;
    let dated = book.visits.iter();
    let dated: Vec<(f64, &VisitSummary)> = dated
        .filter_map(|visit| Some((visit.day?.day_number() as f64, visit)))
        .collect();
    let (Some((first, early)), Some((last, late))) = (dated.first(), dated.last()) else {
        return;
    };
    let limit = late.tolerance;
    let nm = |spread: Option<ExactLength>| spread.map(ExactLength::nm_f64);
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
    let marked = |points: Vec<[f64; 2]>, name: &str, filled, pen| NamedLine {
        marks: points.clone(),
        filled,
        ..line(name.to_owned(), points, pen)
    };
    let lines = [
        marked(
            found,
            words.book_as_found(),
            false,
            Pen::dashed(palette.preview, 1.8, 7.0),
        ),
        marked(
            left,
            words.book_as_left(),
            true,
            Pen::solid(palette.present, 1.8),
        ),
    ];
    ui.label(strong(figures.spreads_sentence(book)));
    ui.label(muted(palette, words.book_spreads()));
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
    plot::lines(ui, chart, Some((band, String::new())), &lines, |sheet| {
        for (day, visit) in &dated {
            if !visit.repaired.is_empty() {
                let pen = Pen::dotted(palette.band_edge, 2.0);
                sheet.line(&[[*day, 0.0], [*day, most]], pen);
            }
        }
    });
}

/// What one notch of each nut does at its own arm, visit by visit, each with
/// the interval that holds 95 %.
pub fn answers(ui: &mut Ui, scene: &Scene<'_>, answers: &[Answers], figures: Figures) {
    let words = scene.words();
    let palette = scene.palette;
    let Some(last) = answers.last() else { return };
    let reach = |(nm, sd): &(f64, f64)| [nm - NINETY_FIVE * sd, nm + NINETY_FIVE * sd];
    let all = answers.iter().flat_map(|at| at.per_notch_nm.iter());
    let Some(range) = plot::range(all.flat_map(reach), 0.05, 1_000.0) else {
        return;
    };
    let pens = [
        Pen::solid(palette.present, 2.0),
        Pen::dashed(palette.preview, 2.0, 9.0),
        Pen::dashed(palette.band_edge, 2.0, 4.0),
        Pen::dotted(palette.muted, 2.0),
    ];
    let arms = last.per_notch_nm.len();
    let mut lines = Vec::new();
    let mut whiskers = Vec::new();
    for (arm, pen) in (0..arms).zip(pens.into_iter().cycle()) {
        // Side by side, so that no interval hides another.
        let aside = (arm as f64 - (arms as f64 - 1.0) / 2.0) * 0.5 / arms as f64;
        let mut points = Vec::new();
        for (visit, at) in answers.iter().enumerate() {
            if let Some(answer) = at.per_notch_nm.get(arm) {
                let x = visit as f64 + aside;
                points.push([x, answer.0]);
                let [low, high] = reach(answer);
                whiskers.push((x, (low, high), Pen::solid(pen.ink, 1.2)));
            }
        }
        lines.push(line(ArmIndex(arm).to_string(), points, pen));
    }
    let names: Vec<(f64, String)> = (0..answers.len())
        .map(|visit| (visit as f64, (visit + 1).to_string()))
        .collect();
    ui.label(strong(figures.answers_sentence(last)));
    ui.label(muted(palette, words.book_answers()));
    let frame = ((-0.5, answers.len() as f64 - 0.5), range);
    let description = words.book_answers().to_owned();
    let chart = picture(scene, figures, ("book answers", description), &names, frame);
    plot::lines(ui, chart, None, &lines, |sheet| {
        for (x, reach, pen) in whiskers {
            sheet.whisker(x, reach, pen);
        }
    });
}
