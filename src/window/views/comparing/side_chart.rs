//! Every pass as a line over the jaw.

use eframe::egui::{FontId, Painter, Rect, Sense, Ui, UiBuilder};
use egui_plot::{MarkerShape, PlotPoint, PlotTransform};

use crate::press::{ArmIndex, Notches};
use crate::report::curve;
use crate::session::Whose;
use crate::window::theme::{self, size};
use crate::window::views::Scene;
use crate::window::views::comparing::profiles::{foretold_nm, level_nm, means_nm, short_name};
use crate::window::views::comparing::side_table;
use crate::window::views::picture::chart::NINE_IN_TEN;
use crate::window::views::picture::jaw_axis::JawAxis;
use crate::window::views::picture::labels::Labels;
use crate::window::views::picture::legend::{Key, Legend, Sign};
use crate::window::views::picture::plot::{self, AXIS_WIDTH, Chart, NamedLine, Pen, range};

/// Room right of the chart on a wall.
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
/// lines are heavy, and only the arms are named. Answers where the jaw lies along
/// the screen.
pub fn show(ui: &mut Ui, scene: &Scene<'_>, height: f32, wall: Option<f32>) -> Option<JawAxis> {
    let side = scene.view.side.as_ref()?;
    let palette = scene.palette;
    let (gutter, right) = match wall {
        Some(_) => (0.0, RIGHT),
        None => (side_table::GUTTER, side_table::SPREAD),
    };
    let left = ui.cursor().left() + gutter + AXIS_WIDTH;
    let room = ui.available_width() - gutter - AXIS_WIDTH - right;
    let legend = wall
        .is_none()
        .then(|| Legend::of(ui, palette, room, keys(scene, false)));
    let drawn = drawn(scene, side.level);
    let (earlier, later) = side.earlier_and_later(scene.session);
    let foretold = foretold(scene).filter(|_| wall.is_none());
    let heavier = if wall.is_some() { HEAVIER } else { 1.0 };
    let jaw_nm = scene.session.press.jaw_length.length().nm_f64();
    let line = |name: String, means: &[Option<f64>], (mut pen, shape): (Pen, MarkerShape)| {
        pen.width *= heavier;
        NamedLine {
            name: if wall.is_some() { String::new() } else { name },
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
                let last = one.means.iter().rev().find_map(|mean| *mean);
                let last = last.map(|mean| scene.figures.nm(mean, scene.figures.mean_decimals()));
                let name = short_name(scene, one.pass);
                let name = match last.filter(|_| chosen && !side.level) {
                    Some(mean) => format!("{name} {mean}"),
                    None => name,
                };
                let mut line = line(name, &one.means, pen(scene, one.pass));
                line.needed = chosen;
                lines.push(line);
            }
        }
    }
    if let Some((means, _)) = &foretold {
        let name = scene.words().side_foretold(later + 1);
        lines.push(line(name, means, foretold_pen(scene)));
    }
    let ahead = ahead(scene).filter(|_| !side.level && wall.is_none());
    if let Some((_, means)) = &ahead {
        let name = scene.words().side_foretold(scene.session.passes.len() + 1);
        lines.push(line(name, means, foretold_pen(scene)));
    }
    let foretold_means = foretold.iter().flat_map(|(means, _)| means);
    let foretold_means = foretold_means.chain(ahead.iter().flat_map(|(_, means)| means));
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
        right,
    };
    // As in the main picture, over the next piece as well where one is drawn.
    let last = drawn.last().map(|last| &last.means);
    let band = last.and_then(|means| {
        let after = ahead.as_ref().map_or(means, |(_, means)| means);
        let [_, ahead] = scene.session.bands_over(means, after);
        ahead
    });
    let band = band.map(|band| (band, String::new()));
    let mut area = ui.available_rect_before_wrap();
    area.set_height(chart.height);
    area.min.x += gutter;
    let mut place = ui.new_child(UiBuilder::new().max_rect(area));
    let transform = plot::lines(&mut place, chart, band, &lines, |sheet| {
        for one in &drawn {
            let (mut pen, _) = pen(scene, one.pass);
            pen.width = 1.4 * heavier;
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
    ui.allocate_rect(area, Sense::hover());
    let font = theme::bold(wall.map_or(size::SMALL, |wall| wall * 0.5));
    let chosen = drawn
        .iter()
        .filter(|one| one.pass == later || one.pass == earlier);
    let shown: Vec<&Drawn> = chosen.collect();
    write_means(ui.painter(), scene, (&shown, &lines), &transform, font);
    if let Some(legend) = legend {
        legend.show(ui, left);
    }
    let frame = transform.frame();
    Some(JawAxis {
        left: frame.left(),
        right: frame.right(),
        length_nm: jaw_nm,
    })
}

/// The means of the passes compared in figures beside their marks, the latest
/// first, where they lie on nothing else.
fn write_means(
    painter: &Painter,
    scene: &Scene<'_>,
    (shown, lines): (&[&Drawn], &[NamedLine]),
    transform: &PlotTransform,
    font: FontId,
) {
    let on_screen = |[x, y]: [f64; 2]| transform.position_from_point(&PlotPoint::new(x, y));
    let mut labels = Labels::within(transform.frame().shrink(2.0));
    for line in lines {
        for piece in &line.pieces {
            let points: Vec<_> = piece.iter().copied().map(on_screen).collect();
            labels.take_line(&points);
        }
        for at in &line.marks {
            labels.take_mark(on_screen(*at), MARK);
        }
    }
    for one in shown.iter().rev() {
        let ink = pen(scene, one.pass).0.ink;
        let middle = level_nm(scene, &one.means).unwrap_or_default();
        for at in at_stations(scene, &one.means) {
            let text = scene.figures.nm(at[1], scene.figures.mean_decimals());
            let galley = painter.layout_no_wrap(text, font.clone(), ink);
            let above = at[1] >= middle;
            let own = on_screen(at);
            let rect = labels.beside(own, MARK, galley.size(), above);
            // A figure that stands nearer to another mark would be read as its own.
            let misread = |rect: &Rect| {
                let middle = rect.center();
                let marks = lines.iter().flat_map(|line| &line.marks);
                let nearest = marks.map(|mark| on_screen(*mark).distance(middle));
                nearest.fold(f32::INFINITY, f32::min) + MARK < own.distance(middle)
            };
            if let Some(rect) = rect.filter(|rect| !misread(rect)) {
                let ground = scene.palette.card.gamma_multiply(0.8);
                painter.rect_filled(rect, 3.0, ground);
                painter.galley(rect.min, galley, ink);
            }
        }
    }
}

/// Reach of a mark with its whisker's ends.
const MARK: f32 = 8.0;

/// What the lines are. On a wall in few words.
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
    // Elsewhere than on a wall lines are named at their ends and in the table.
    let mut keys: Vec<Key> = passes
        .filter(|pass| wall && read(pass))
        .map(|pass| {
            let (pen, shape) = pen(scene, pass);
            Key {
                text: match pass {
                    0 => words.pass_number(1),
                    _ => (pass + 1).to_string(),
                },
                sign: Sign::Marked(pen, shape, scene.palette.card),
            }
        })
        .collect();
    if !wall && foretold(scene).is_some() {
        let (pen, shape) = foretold_pen(scene);
        keys.push(Key {
            text: words.side_foretold_bars(later + 1),
            sign: Sign::Marked(pen, shape, scene.palette.card),
        });
    }
    if !wall {
        let unit = words.unit_name(scene.figures.unit);
        keys.insert(
            0,
            Key {
                text: words.legend_thickness(unit),
                sign: Sign::Caption,
            },
        );
    }
    let limit = scene.figures.limit(scene.session.tolerance.length());
    let edge = Pen::dashed(scene.palette.band_edge, 1.0, 5.0);
    keys.push(Key {
        text: match wall {
            true => limit,
            false => words.band_label(limit),
        },
        sign: Sign::Patch(scene.palette.band, edge),
    });
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

/// Turns that are on show after the last pass, and what they would make of the
/// next piece.
pub fn ahead(scene: &Scene<'_>) -> Option<(Vec<Notches>, Vec<Option<f64>>)> {
    let turns = scene.foreseen();
    let last = scene.outlook.pass? + 1 == scene.session.passes.len();
    let turned = last && turns.iter().any(|turn| turn.0 != 0);
    turned.then(|| {
        let means = scene.outlook.means_after(&turns);
        (turns, means)
    })
}

/// The means that there are, each at its station.
fn at_stations(scene: &Scene<'_>, means: &[Option<f64>]) -> impl Iterator<Item = [f64; 2]> {
    let stations = scene.outlook.stations_nm.iter().zip(means);
    stations.filter_map(|(x, mean)| Some([*x, (*mean)?]))
}

/// As found and as left bold, those between faint, each with strokes and marks
/// of its own.
pub fn pen(scene: &Scene<'_>, pass: usize) -> (Pen, MarkerShape) {
    let palette = scene.palette;
    let last = scene.session.passes.len().saturating_sub(1);
    match pass {
        pass if pass == last => (Pen::solid(palette.present, 3.2), MarkerShape::Circle),
        0 => (Pen::dashed(palette.ink, 2.4, 13.0), MarkerShape::Square),
        pass if pass % 2 == 0 => (Pen::dotted(palette.muted, 1.9), MarkerShape::Down),
        _ => (Pen::dashed(palette.muted, 1.9, 5.0), MarkerShape::Up),
    }
}

/// What was foretold and nobody has measured.
pub fn foretold_pen(scene: &Scene<'_>) -> (Pen, MarkerShape) {
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
