//! Every pass as a line over the jaw.

use eframe::egui::Ui;

use crate::press::ArmIndex;
use crate::report::curve;
use crate::window::views::Scene;
use crate::window::views::comparing::profiles::{
    self, foretold_nm, level_nm, means_nm, short_name,
};
use crate::window::views::picture::chart::NINE_IN_TEN;
use crate::window::views::picture::plot::{self, Chart, NamedLine, Pen, range};

/// Room for names right of the chart.
const NAMES: f32 = 96.0;

/// One pass as it is drawn.
struct Drawn {
    pass: usize,
    means: Vec<Option<f64>>,
}

/// Draws the chart. On a wall its letters are as large as said, and only what
/// can be read there is written: the arms and the numbers of the passes.
pub fn show(ui: &mut Ui, scene: &Scene<'_>, height: f32, wall: Option<f32>) {
    let Some(side) = &scene.view.side else { return };
    let palette = scene.palette;
    let drawn = drawn(scene, side.level);
    let (earlier, later) = side.earlier_and_later(scene.session);
    let shift = level_nm(scene, &means_nm(scene, later)).filter(|_| side.level);
    let foretold = foretold_nm(scene, later).filter(|_| earlier + 1 == later);
    let foretold = foretold.map(|(means, sd)| {
        let shift = shift.unwrap_or(0.0);
        let means: Vec<_> = means.into_iter().map(|mean| Some(mean? - shift)).collect();
        (means, sd)
    });
    let heavier = if wall.is_some() { 2.2 } else { 1.0 };
    let jaw_nm = scene.session.press.jaw_length.length().nm_f64();
    let last = scene.session.passes.len().saturating_sub(1);
    let line = |means: &[Option<f64>], name: String, pen: Pen, needed: bool| NamedLine {
        name,
        pieces: curve(&scene.outlook.stations_nm, means, jaw_nm).0,
        marks: Vec::new(),
        filled: false,
        pen,
        needed,
    };
    let mut lines: Vec<NamedLine> = Vec::new();
    for one in &drawn {
        let chosen = one.pass == earlier || one.pass == later;
        let name = match wall {
            Some(_) => (one.pass + 1).to_string(),
            None => short_name(scene, one.pass),
        };
        let mut pen = pen(scene, one.pass, last);
        pen.width *= heavier;
        let needed = one.pass == 0 || one.pass == last || chosen;
        let mut line = line(&one.means, name, pen, needed);
        line.filled = one.pass == later;
        if chosen {
            line.marks = at_stations(scene, &one.means).collect();
        }
        lines.push(line);
    }
    if let Some((means, _)) = &foretold {
        let name = scene.words().side_foretold(later + 1);
        let name = if wall.is_some() { String::new() } else { name };
        let pen = Pen::dashed(palette.preview, 2.2 * heavier, 5.0);
        lines.push(line(means, name, pen, wall.is_none()));
    }
    let foretold_means = foretold.iter().flat_map(|(means, _)| means);
    let all = drawn
        .iter()
        .flat_map(|one| &one.means)
        .chain(foretold_means);
    let tolerance = scene.session.tolerance.length().nm_f64();
    let arms = scene.outlook.arms_nm.iter().enumerate();
    let names: Vec<_> = arms
        .map(|(index, at)| (*at, ArmIndex(index).to_string()))
        .collect();
    let chart = Chart {
        id: "passes",
        description: description(scene),
        palette,
        figures: scene.figures,
        height,
        x: (0.0, jaw_nm),
        names: &names,
        names_above: true,
        y: range(all.flatten().copied(), 0.12, tolerance * 0.4).unwrap_or((-tolerance, tolerance)),
        wall,
        right: wall.map_or(NAMES, |font| font * 2.4),
    };
    let band = drawn
        .last()
        .and_then(|last| profiles::band(scene, &last.means));
    let limit = scene.figures.limit(scene.session.tolerance.length());
    let limit = if wall.is_some() {
        String::new()
    } else {
        scene.words().side_limit(limit)
    };
    plot::lines(ui, chart, band.map(|band| (band, limit)), &lines, |sheet| {
        // Where nine in ten such pieces were to lie, at each station.
        let pen = Pen::solid(palette.preview, 1.6);
        if let Some((means, sd)) = &foretold {
            for ((x, mean), sd) in scene.outlook.stations_nm.iter().zip(means).zip(sd) {
                let half = NINE_IN_TEN * sd;
                if let Some(mean) = mean {
                    sheet.whisker(*x, (mean - half, mean + half), pen);
                }
            }
        }
    });
}

/// The means that there are, each at its station.
fn at_stations(scene: &Scene<'_>, means: &[Option<f64>]) -> impl Iterator<Item = [f64; 2]> {
    let stations = scene.outlook.stations_nm.iter().zip(means);
    stations.filter_map(|(x, mean)| Some([*x, (*mean)?]))
}

/// As found and as left bold, those between faint, each with its own strokes.
fn pen(scene: &Scene<'_>, pass: usize, last: usize) -> Pen {
    let palette = scene.palette;
    match pass {
        pass if pass == last => Pen::solid(palette.present, 3.2),
        0 => Pen::dashed(palette.ink, 2.8, 13.0),
        pass if pass % 2 == 0 => Pen::dotted(palette.muted, 1.5),
        _ => Pen::dashed(palette.muted, 1.5, 5.0),
    }
}

fn drawn(scene: &Scene<'_>, level: bool) -> Vec<Drawn> {
    (0..scene.session.passes.len())
        .map(|pass| {
            let mut means = means_nm(scene, pass);
            if let Some(own) = level_nm(scene, &means).filter(|_| level) {
                means = means.into_iter().map(|mean| Some(mean? - own)).collect();
            }
            Drawn { pass, means }
        })
        .filter(|one| one.means.iter().any(Option::is_some))
        .collect()
}

/// The chart in words.
fn description(scene: &Scene<'_>) -> String {
    let words = scene.words();
    let decimals = scene.figures.mean_decimals();
    let passes: Vec<String> = (0..scene.session.passes.len())
        .map(|pass| {
            let means = means_nm(scene, pass).into_iter().enumerate();
            let stations: Vec<String> = means
                .filter_map(|(station, mean)| {
                    let mean = scene.figures.nm(mean?, decimals);
                    Some(format!("{} {mean}", scene.session.station_name(station)))
                })
                .collect();
            format!("{}: {}", short_name(scene, pass), stations.join(", "))
        })
        .collect();
    words.side_description(passes.join("; "))
}
