//! Every pass as a line over the jaw.

use eframe::egui::{self, Align2, Color32, Pos2, Rect, Role, Sense, Ui, Vec2, WidgetInfo};

use crate::press::ArmIndex;
use crate::window::theme::{self, size};

use crate::report::curve;
use crate::window::views::Scene;
use crate::window::views::comparing::profiles::{
    self, foretold_nm, level_nm, means_nm, short_name,
};
use crate::window::views::picture::canvas;
use crate::window::views::picture::canvas::{Canvas, EndLabel, LineKind};
use crate::window::views::picture::chart::NINE_IN_TEN;

/// Room for figures left of the chart and for names right of it.
const SIDES: (f32, f32) = (52.0, 96.0);

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
    let words = scene.words();
    let (area, response) =
        ui.allocate_exact_size(Vec2::new(ui.available_width(), height), Sense::hover());
    let drawn = drawn(scene, side.level);
    response.widget_info(|| WidgetInfo::labeled(Role::Image, true, description(scene)));
    let (sides, head) = match wall {
        Some(font) => ((font * 0.4, font * 2.4), font * 1.2),
        None => (SIDES, 18.0),
    };
    let frame = Rect::from_min_max(
        area.min + Vec2::new(sides.0, head),
        area.max - Vec2::new(sides.1, 4.0),
    );
    let heavier = if wall.is_some() { 2.2 } else { 1.0 };
    let [plain, bold] =
        [theme::regular as fn(f32) -> _, theme::bold].map(|of| of(wall.unwrap_or(size::SMALL)));
    let (earlier, later) = side.earlier_and_later(scene.session);
    let foretold = foretold_nm(scene, later).filter(|_| earlier + 1 == later);
    let shift = if side.level {
        level_nm(scene, &means_nm(scene, later)).unwrap_or(0.0)
    } else {
        0.0
    };
    let foretold = foretold.map(|(means, sd)| {
        let means = means.into_iter().map(|mean| Some(mean? - shift)).collect();
        (means, sd)
    });
    let canvas = Canvas {
        frame,
        x: (0.0, scene.session.press.jaw_length.length().nm_f64()),
        y: range(scene, &drawn, foretold.as_ref().map(|(means, _)| means)),
    };
    let painter = ui.painter_at(area);
    let numbers = wall.is_none().then_some((&plain, palette.muted));
    canvas.rules(&painter, scene.figures, palette.grid, numbers);
    band(&painter, scene, &canvas, drawn.last(), wall.is_none());
    for (index, &arm) in scene.outlook.arms_nm.iter().enumerate() {
        let x = canvas.x_at(arm);
        let ends = vec![Pos2::new(x, frame.top()), Pos2::new(x, frame.bottom())];
        canvas::line(
            &painter,
            ends,
            theme::stroke(1.0, palette.line),
            LineKind::Dotted,
        );
        painter.text(
            Pos2::new(x, area.top() + head * 0.45),
            Align2::CENTER_CENTER,
            ArmIndex(index),
            theme::bold(wall.unwrap_or(size::BODY)),
            palette.muted,
        );
    }
    if let Some((means, sd)) = &foretold {
        whiskers(&painter, scene, &canvas, means, sd);
    }
    let last = scene.session.passes.len() - 1;
    let mut labels = Vec::new();
    for one in &drawn {
        let chosen = one.pass == earlier || one.pass == later;
        let (mut stroke, kind) = style(scene, one.pass, last);
        stroke.width *= heavier;
        let (pieces, _) = curve(&scene.outlook.stations_nm, &one.means, canvas.x.1);
        for piece in &pieces {
            canvas.curve(&painter, piece, stroke, kind);
        }
        let Some(end) = pieces.last().and_then(|piece| piece.last()) else {
            continue;
        };
        let needed = one.pass == 0 || one.pass == last || chosen;
        labels.push(EndLabel {
            end: canvas.at(end[0], end[1]),
            text: match wall {
                Some(_) => (one.pass + 1).to_string(),
                None => short_name(scene, one.pass),
            },
            font: if needed { bold.clone() } else { plain.clone() },
            ink: stroke.color,
            needed,
        });
        if chosen {
            for (mean, &x) in one.means.iter().zip(&scene.outlook.stations_nm) {
                let Some(mean) = *mean else { continue };
                let fill = if one.pass == later {
                    stroke.color
                } else {
                    palette.card
                };
                painter.circle(
                    canvas.at(x, mean),
                    5.0 * heavier,
                    fill,
                    theme::stroke(2.0, stroke.color),
                );
            }
        }
    }
    if let Some((means, _)) = &foretold {
        let (pieces, _) = curve(&scene.outlook.stations_nm, means, canvas.x.1);
        for piece in &pieces {
            let stroke = theme::stroke(2.2 * heavier, palette.preview);
            canvas.curve(&painter, piece, stroke, LineKind::ShortDashed);
        }
        let end = pieces.last().and_then(|piece| piece.last());
        if let Some(end) = end.filter(|_| wall.is_none()) {
            labels.push(EndLabel {
                end: canvas.at(end[0], end[1]),
                text: words.side_foretold(later + 1),
                font: plain.clone(),
                ink: palette.preview,
                needed: true,
            });
        }
    }
    let x = frame.right() - 2.0;
    canvas::end_labels(&painter, x, (area.top(), area.bottom()), labels);
}

/// As found and as left bold, those between faint, each with its own strokes.
fn style(scene: &Scene<'_>, pass: usize, last: usize) -> (egui::Stroke, LineKind) {
    let palette = scene.palette;
    let between = [LineKind::Dotted, LineKind::ShortDashed];
    match pass {
        pass if pass == last => (theme::stroke(3.2, palette.present), LineKind::Solid),
        0 => (theme::stroke(2.8, palette.ink), LineKind::Dashed),
        pass => (
            theme::stroke(1.5, palette.muted),
            between[pass % between.len()],
        ),
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

fn range(scene: &Scene<'_>, drawn: &[Drawn], foretold: Option<&Vec<Option<f64>>>) -> (f64, f64) {
    let tolerance = scene.session.tolerance.length().nm_f64();
    let all = drawn.iter().flat_map(|one| &one.means);
    let all = all.chain(foretold.into_iter().flatten()).flatten().copied();
    let (low, high) = all.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| {
        (low.min(value), high.max(value))
    });
    if low > high {
        return (-tolerance, tolerance);
    }
    let room = ((high - low) * 0.12).max(tolerance * 0.4);
    (low - room, high + room)
}

/// The tolerance as a band over the last pass that was read.
fn band(
    painter: &egui::Painter,
    scene: &Scene<'_>,
    canvas: &Canvas,
    last: Option<&Drawn>,
    named: bool,
) {
    let palette = scene.palette;
    let tolerance = scene.session.tolerance.length();
    let Some(last) = last else { return };
    let Some(band) = profiles::band(scene, &last.means) else {
        return;
    };
    let rect = Rect::from_x_y_ranges(
        canvas.frame.x_range(),
        canvas.y_at(band.high_nm)..=canvas.y_at(band.low_nm),
    );
    painter.rect_filled(rect, 0.0, palette.band);
    for y in [rect.top(), rect.bottom()] {
        let ends = vec![Pos2::new(rect.left(), y), Pos2::new(rect.right(), y)];
        let stroke = theme::stroke(1.0, palette.band_edge);
        canvas::line(painter, ends, stroke, LineKind::ShortDashed);
    }
    if !named {
        return;
    }
    painter.text(
        rect.left_bottom() + Vec2::new(5.0, 2.0),
        Align2::LEFT_TOP,
        scene.words().band_label(scene.figures.limit(tolerance)),
        theme::regular(size::SMALL),
        palette.band_edge,
    );
}

/// Where nine in ten such pieces were to lie, at each station.
fn whiskers(
    painter: &egui::Painter,
    scene: &Scene<'_>,
    canvas: &Canvas,
    means: &[Option<f64>],
    sd: &[f64],
) {
    let ink: Color32 = scene.palette.preview;
    let stations = means.iter().zip(sd).zip(&scene.outlook.stations_nm);
    for ((mean, sd), &x) in stations {
        let Some(mean) = *mean else { continue };
        let ends = [-1.0, 1.0].map(|side| canvas.at(x, mean + side * NINE_IN_TEN * sd));
        painter.line_segment(ends, theme::stroke(1.6, ink));
        for end in ends {
            let cap = Vec2::new(6.0, 0.0);
            painter.line_segment([end - cap, end + cap], theme::stroke(1.6, ink));
        }
    }
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
