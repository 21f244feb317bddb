//! Every pass as a line over the jaw.

use eframe::egui::Ui;
use egui_plot::MarkerShape;

use crate::press::ArmIndex;
use crate::report::curve;
use crate::session::Whose;
use crate::window::views::Scene;
use crate::window::views::comparing::profiles::{foretold_nm, level_nm, means_nm, short_name};
use crate::window::views::picture::chart::NINE_IN_TEN;
use crate::window::views::picture::legend::{Key, Legend, Sign};
use crate::window::views::picture::plot::{self, AXIS_WIDTH, Chart, NamedLine, Pen, range};

/// Room right of the chart.
const RIGHT: f32 = 12.0;

/// Lines heavier on a wall by this factor.
const HEAVIER: f32 = 2.2;

/// One pass as it is drawn.
struct Drawn {
    pass: usize,
    means: Vec<Option<f64>>,
}

/// A profile at each station, and its standard deviation.
type Foretold = (Vec<Option<f64>>, Vec<f64>);

/// Draws the chart with its legend below. On a wall the legend stands elsewhere,
/// lines are heavy, and only the arms are named.
pub fn show(ui: &mut Ui, scene: &Scene<'_>, height: f32, wall: Option<f32>) {
    let Some(side) = &scene.view.side else { return };
    let palette = scene.palette;
    let left = ui.cursor().left() + AXIS_WIDTH;
    let room = ui.available_width() - AXIS_WIDTH - RIGHT;
    let legend = wall
        .is_none()
        .then(|| Legend::of(ui, palette, room, keys(scene, false)));
    let drawn = drawn(scene, side.level);
    let (earlier, later) = side.earlier_and_later(scene.session);
    let foretold = foretold(scene);
    let heavier = if wall.is_some() { HEAVIER } else { 1.0 };
    let jaw_nm = scene.session.press.jaw_length.length().nm_f64();
    let line = |means: &[Option<f64>], (mut pen, shape): (Pen, MarkerShape)| {
        pen.width *= heavier;
        NamedLine {
            name: String::new(),
            pieces: curve(&scene.outlook.stations_nm, means, jaw_nm).0,
            marks: at_stations(scene, means).collect(),
            shape,
            // Rings, as in the main chart.
            filled: false,
            pen,
            needed: false,
        }
    };
    let mut lines: Vec<NamedLine> = Vec::new();
    // Those compared over the others.
    for chosen in [false, true] {
        for one in &drawn {
            if (one.pass == earlier || one.pass == later) == chosen {
                lines.push(line(&one.means, pen(scene, one.pass)));
            }
        }
    }
    if let Some((means, _)) = &foretold {
        lines.push(line(means, foretold_pen(scene)));
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
        height: height - legend.as_ref().map_or(0.0, Legend::height),
        x: (0.0, jaw_nm),
        names: &names,
        names_above: true,
        y: range(all.flatten().copied(), 0.12, tolerance * 0.4).unwrap_or((-tolerance, tolerance)),
        wall,
        right: RIGHT,
    };
    let last = drawn.last();
    let band = last.and_then(|last| scene.session.band_over(&last.means));
    let band = band.map(|band| (band, String::new()));
    plot::lines(ui, chart, band, &lines, |sheet| {
        for one in &drawn {
            let (mut pen, _) = pen(scene, one.pass);
            pen.width = 1.4 * heavier;
            let dotted = Pen::dotted(pen.ink.gamma_multiply(0.55), pen.width);
            let beyond = curve(&scene.outlook.stations_nm, &one.means, jaw_nm).1;
            beyond.iter().for_each(|piece| sheet.line(piece, dotted));
            // Twice the standard uncertainty, as gauges are usually stated.
            if one.pass != earlier && one.pass != later {
                continue;
            }
            let budgets = scene.session.budgets(one.pass, Whose::Piece);
            let stations = scene.outlook.stations_nm.iter().zip(&one.means);
            for ((x, mean), budget) in stations.zip(budgets) {
                if let (Some(mean), Some(budget)) = (mean, budget) {
                    let half = 2.0 * budget.u_nm;
                    let solid = Pen::solid(pen.ink, pen.width);
                    sheet.whisker(*x, (mean - half, mean + half), solid);
                }
            }
        }
        // Where nine in ten such pieces were to lie, at each station.
        let pen = Pen::solid(palette.preview, 1.6 * heavier);
        if let Some((means, sd)) = &foretold {
            for ((x, mean), sd) in scene.outlook.stations_nm.iter().zip(means).zip(sd) {
                let half = NINE_IN_TEN * sd;
                if let Some(mean) = mean {
                    sheet.whisker(*x, (mean - half, mean + half), pen);
                }
            }
        }
    });
    if let Some(legend) = legend {
        legend.show(ui, left);
    }
}

/// What the lines are. On a wall without the band, and few words.
pub fn keys(scene: &Scene<'_>, wall: bool) -> Vec<Key> {
    let Some(side) = &scene.view.side else {
        return Vec::new();
    };
    let words = scene.words();
    let (_, later) = side.earlier_and_later(scene.session);
    let passes = 0..scene.session.passes.len();
    let read = |pass: &usize| {
        scene
            .session
            .passes
            .get(*pass)
            .is_some_and(|it| it.has_readings())
    };
    let mut keys: Vec<Key> = passes
        .filter(read)
        .map(|pass| {
            let (pen, shape) = pen(scene, pass);
            Key {
                text: match wall {
                    true => (pass + 1).to_string(),
                    false => short_name(scene, pass),
                },
                sign: Sign::Marked(pen, shape, scene.palette.card),
            }
        })
        .collect();
    if foretold(scene).is_some() {
        let (pen, shape) = foretold_pen(scene);
        keys.push(Key {
            text: match wall {
                true => words.side_foretold(later + 1),
                false => words.side_foretold_bars(later + 1),
            },
            sign: Sign::Marked(pen, shape, scene.palette.card),
        });
    }
    if !wall {
        let limit = scene.figures.limit(scene.session.tolerance.length());
        let edge = Pen::dashed(scene.palette.band_edge, 1.0, 5.0);
        keys.push(Key {
            text: words.band_label(limit),
            sign: Sign::Patch(scene.palette.band, edge),
        });
    }
    keys
}

/// What was foretold for the later of the two passes compared, where it comes
/// right after the other; at the level on show.
fn foretold(scene: &Scene<'_>) -> Option<Foretold> {
    let side = scene.view.side.as_ref()?;
    let (earlier, later) = side.earlier_and_later(scene.session);
    let (means, sd) = foretold_nm(scene, later).filter(|_| earlier + 1 == later)?;
    let shift = level_nm(scene, &means_nm(scene, later)).filter(|_| side.level);
    let shift = shift.unwrap_or(0.0);
    let means = means.into_iter().map(|mean| Some(mean? - shift));
    Some((means.collect(), sd))
}

/// The means that there are, each at its station.
fn at_stations(scene: &Scene<'_>, means: &[Option<f64>]) -> impl Iterator<Item = [f64; 2]> {
    let stations = scene.outlook.stations_nm.iter().zip(means);
    stations.filter_map(|(x, mean)| Some([*x, (*mean)?]))
}

/// As found and as left bold, those between faint, each with strokes and marks
/// of its own.
fn pen(scene: &Scene<'_>, pass: usize) -> (Pen, MarkerShape) {
    let palette = scene.palette;
    let last = scene.session.passes.len().saturating_sub(1);
    match pass {
        pass if pass == last => (Pen::solid(palette.present, 3.2), MarkerShape::Circle),
        0 => (Pen::dashed(palette.ink, 2.4, 13.0), MarkerShape::Square),
        pass if pass % 2 == 0 => (Pen::dotted(palette.muted, 1.5), MarkerShape::Down),
        _ => (Pen::dashed(palette.muted, 1.5, 5.0), MarkerShape::Up),
    }
}

/// What was foretold and nobody has measured.
fn foretold_pen(scene: &Scene<'_>) -> (Pen, MarkerShape) {
    let pen = Pen::dashed(scene.palette.preview, 2.2, 5.0);
    (pen, MarkerShape::Diamond)
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
