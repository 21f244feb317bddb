//! The profile over the jaw's length, with the tolerance band.

use eframe::egui::{self, Painter, Pos2, Rect, Sense, Ui, Vec2};
use egui_plot::{MarkerShape, PlotPoint, PlotTransform};

use crate::press::{ArmIndex, Notches};
use crate::report::curve;
use crate::session::Stands;
use crate::splice::{Band, Doubtful};
use crate::window::action::Action;
use crate::window::theme::{self, Palette, size};
use crate::window::views::Scene;
use crate::window::views::picture::jaw_axis::JawAxis;
use crate::window::views::picture::labels::Labels;
use crate::window::views::picture::legend::{Key, Legend, Sign};
use crate::window::views::picture::plot::{AXIS_WIDTH, Chart, Pen, range};
use crate::window::views::turning::nut_input;

/// Standard deviations either side that nine in ten values of a normal
/// distribution lie within.
pub(crate) const NINE_IN_TEN: f64 = 1.644_853_6;

/// Draws the chart with its legend, and answers where along the screen the jaw
/// lies.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, height: f32) -> JawAxis {
    let drawing = Drawing::of(scene);
    let left = ui.cursor().left() + AXIS_WIDTH;
    let room = ui.available_width() - AXIS_WIDTH;
    let legend = Legend::of(ui, scene.palette, room, keys(scene, &drawing));
    let arms = scene.outlook.arms_nm.iter().enumerate();
    let names: Vec<_> = arms
        .map(|(arm, at)| (*at, ArmIndex(arm).to_string()))
        .collect();
    let jaw_nm = scene.session.press.jaw_length.length().nm_f64();
    let chart = Chart {
        id: "profile",
        description: description(scene),
        palette: scene.palette,
        figures: scene.figures,
        height: height - legend.height(),
        x: (0.0, jaw_nm),
        names: &names,
        names_above: true,
        y: drawing.y_range,
        wall: None,
        right: 0.0,
    };
    let palette = scene.palette;
    let transform = chart.show(ui, |sheet| {
        if let Some(band) = drawing.band {
            sheet.band(band);
        }
        if let Some([xs, low, high]) = &drawing.strip {
            let (fill, pen) = strip_inks(scene);
            sheet.area(xs, low, high, fill);
            for edge in [low, high] {
                let edge = xs.iter().zip(edge).map(|(x, y)| [*x, *y]);
                sheet.line(&edge.collect::<Vec<_>>(), pen);
            }
        }
        for (pieces, pen) in [
            (&drawing.found, found_pen(palette)),
            (&drawing.present, Pen::solid(palette.present, 2.6)),
            (&drawing.preview, Pen::dashed(palette.preview, 2.4, 9.0)),
        ] {
            pieces.iter().for_each(|piece| sheet.line(piece, pen));
        }
        let (thin, grey) = (Pen::solid(palette.muted, 1.0), palette.muted);
        sheet.marks(&drawing.readings, (MarkerShape::Plus, 3.5), (grey, thin));
        for station in &drawing.stations {
            let Some(mean) = station.mean else { continue };
            // Twice the standard uncertainty, as gauges are usually stated.
            if let Some(half) = station.u_nm.map(|u| 2.0 * u) {
                let pen = Pen::solid(palette.present, 1.4);
                sheet.whisker(station.x, (mean - half, mean + half), pen);
            }
            let fill = if station.counts {
                palette.card
            } else {
                palette.grid
            };
            let edge = Pen::solid(palette.present, 2.4);
            let mark = (MarkerShape::Circle, MEAN);
            sheet.marks(&[[station.x, mean]], mark, (fill, edge));
        }
        let edge = Pen::solid(palette.muted, 1.6);
        let mark = (MarkerShape::Circle, MEAN);
        sheet.marks(&drawing.waiting, mark, (palette.card, edge));
        for station in &drawing.stations {
            let Some(after) = station.after else { continue };
            let reach = if station.arm.is_some() {
                AFTER.0
            } else {
                AFTER.1
            };
            let edge = Pen::solid(palette.preview, 2.2);
            let mark = (MarkerShape::Diamond, reach);
            sheet.marks(&[[station.x, after]], mark, (palette.card, edge));
        }
    });
    let frame = *transform.frame();
    let axis = JawAxis {
        left: frame.left(),
        right: frame.right(),
        length_nm: jaw_nm,
    };
    name_extremes(ui.painter(), scene, &drawing, &transform);
    handles(ui, scene, &drawing, &transform);
    legend.show(ui, left);
    axis
}

/// A station as it is drawn.
struct Station {
    x: f64,
    mean: Option<f64>,
    after: Option<f64>,
    counts: bool,
    u_nm: Option<f64>,
    arm: Option<ArmIndex>,
}

/// What is drawn, in plot coordinates (nanometres both ways).
struct Drawing {
    stations: Vec<Station>,
    /// The first piece, beside one that passes.
    found: Vec<Vec<[f64; 2]>>,
    present: Vec<Vec<[f64; 2]>>,
    preview: Vec<Vec<[f64; 2]>>,
    readings: Vec<[f64; 2]>,
    /// What was read well where another reading is no thickness.
    waiting: Vec<[f64; 2]>,
    turned: bool,
    /// Where nine in ten next pieces will lie, as far as their shape goes:
    /// places, lower and upper edge.
    strip: Option<[Vec<f64>; 3]>,
    band: Option<Band>,
    /// Whether it lies over the next piece alone.
    ahead: bool,
    y_range: (f64, f64),
}

impl Drawing {
    fn of(scene: &Scene<'_>) -> Self {
        let outlook = scene.outlook;
        let turns = scene.foreseen();
        let turned = turns.iter().any(|turn| turn.0 != 0);
        let means = &outlook.means_nm;
        let after = if turned {
            outlook.means_after(&turns)
        } else {
            vec![None; means.len()]
        };
        let jaw_nm = scene.session.press.jaw_length.length().nm_f64();
        let (present, _) = curve(&outlook.stations_nm, means, jaw_nm);
        let found = found(scene);
        let was = found.iter().filter_map(|mean| *mean);
        let unclear = scene.nuts_wait();
        let (preview, _) = curve(&outlook.stations_nm, &after, jaw_nm);
        let strip = outlook
            .predicted_sd_nm(&turns)
            .filter(|_| turned)
            .and_then(|sd_nm| strip(&outlook.stations_nm, &after, &sd_nm, jaw_nm));
        let tolerance_nm = scene.session.tolerance.length().nm_f64();
        // The band floats. With turns on show it is laid over the piece that
        // is about to be, so that one sees at a glance whether it will fit; where
        // that cannot be the band of the piece that was measured, the legend says so.
        let judged = !unclear || outlook.gate.stands == Stands::Outside;
        let [over, ahead] = scene.session.bands_over(means, &after);
        let band = if turned { ahead } else { over }.filter(|_| judged);
        let ahead = turned && ahead != over;
        let waiting = waiting(scene);
        let waits = waiting.iter().map(|at| at[1]);
        let means_shown = means.iter().chain(&after).filter_map(|mean| *mean);
        let means_shown = means_shown.chain(waits);
        let edges = band.iter().flat_map(|band| [band.low_nm, band.high_nm]);
        let target = scene.session.target.as_ref();
        let middle = target.map_or(6_350_000.0, |target| target.length().nm_f64());
        let nothing = (middle - 2.0 * tolerance_nm, middle + 2.0 * tolerance_nm);
        // Words stand above the highest and below the lowest mark.
        let likely = strip
            .iter()
            .flat_map(|[_, low, high]| low.iter().chain(high));
        let y_range = range(
            means_shown.chain(edges).chain(was).chain(likely.copied()),
            0.16,
            tolerance_nm * 0.3,
        );
        let stations = outlook.stations_nm.iter().zip(&scene.session.stations);
        let values = means.iter().zip(&after).zip(&outlook.u_nm);
        let stations = stations
            .zip(values)
            .map(|((x, station), ((mean, after), u_nm))| Station {
                x: *x,
                mean: *mean,
                after: *after,
                counts: station.counts,
                u_nm: *u_nm,
                arm: station.arm(),
            });
        Self {
            stations: stations.collect(),
            found: curve(&outlook.stations_nm, &found, jaw_nm).0,
            present,
            preview,
            readings: readings(scene),
            waiting,
            turned,
            strip,
            band,
            ahead,
            y_range: y_range.unwrap_or(nothing),
        }
    }
}

/// The first piece's means, where the one on show passes after turns.
pub fn found(scene: &Scene<'_>) -> Vec<Option<f64>> {
    let first = scene.session.passes.first();
    let first = first.filter(|_| scene.outlook.pass > Some(0) && scene.asks_for_no_turns());
    let means = first.map_or_else(Vec::new, |first| first.profile().means);
    let means = means.into_iter();
    means.map(|it| Some(it?.mean.nm_f64())).collect()
}

fn found_pen(palette: &Palette) -> Pen {
    Pen::dashed(palette.ink, 1.8, 5.0)
}

fn strip(
    stations_nm: &[f64],
    means: &[Option<f64>],
    sd_nm: &[f64],
    jaw_nm: f64,
) -> Option<[Vec<f64>; 3]> {
    let edge = |side: f64| {
        let moved = means.iter().zip(sd_nm);
        let moved = moved.map(|(mean, sd)| mean.map(|mean| mean + side * NINE_IN_TEN * sd));
        let moved: Vec<Option<f64>> = moved.collect();
        curve(stations_nm, &moved, jaw_nm).0.into_iter().next()
    };
    let (low, high) = (edge(-1.0)?, edge(1.0)?);
    let of = |points: &[[f64; 2]], at: usize| points.iter().map(|point| point[at]).collect();
    Some([of(&low, 0), of(&low, 1), of(&high, 1)])
}

/// A breath of colour within thin edges: the band under it stays what it is.
fn strip_inks(scene: &Scene<'_>) -> (egui::Color32, Pen) {
    let ink = scene.palette.preview;
    let edge = Pen::solid(ink.gamma_multiply(0.7), 1.0);
    (ink.gamma_multiply(0.07), edge)
}

/// Every reading that counts, drawn at its station.
fn readings(scene: &Scene<'_>) -> Vec<[f64; 2]> {
    let pass = scene
        .outlook
        .pass
        .and_then(|pass| scene.session.passes.get(pass));
    let Some(pass) = pass else {
        return Vec::new();
    };
    let rows = pass.rows.iter().zip(&scene.outlook.stations_nm);
    rows.flat_map(|(row, &x)| {
        let counting = row.iter().filter_map(|cell| cell.counting());
        counting.map(move |reading| [x, reading.typed.length().nm_f64()])
    })
    .collect()
}

/// The mean of what was read well at stations where another reading is no
/// thickness: it is shown, and nothing is made of it.
fn waiting(scene: &Scene<'_>) -> Vec<[f64; 2]> {
    let gate = &scene.outlook.gate;
    let pass = gate.pass.and_then(|pass| scene.session.passes.get(pass));
    let Some(pass) = pass else {
        return Vec::new();
    };
    let unreadable = |doubt: &&Doubtful| pass.cell(doubt.station, doubt.repeat).is_unreadable();
    let doubts = gate.doubtful.iter().filter(unreadable);
    let marks = doubts.filter_map(|doubt| {
        let mean = pass.profile().mean(doubt.station)?;
        Some([
            *scene.outlook.stations_nm.get(doubt.station)?,
            mean.nm_f64(),
        ])
    });
    marks.collect()
}

/// Radius of the marks at means, and at what the turns would make of them.
const MEAN: f32 = 6.5;
const AFTER: (f32, f32) = (8.5, 6.0);

/// The words at the thickest and the thinnest station, clear of lines and
/// marks.
fn name_extremes(
    painter: &Painter,
    scene: &Scene<'_>,
    drawing: &Drawing,
    transform: &PlotTransform,
) {
    let palette = scene.palette;
    let words = scene.words();
    // While arms are missing or doubtful nobody knows which is the thinnest.
    let gate = &scene.outlook.gate;
    let Some(spread) = gate.spread.as_ref().filter(|_| gate.is_clear()) else {
        return;
    };
    let on_screen = |[x, y]: [f64; 2]| transform.position_from_point(&PlotPoint::new(x, y));
    let mut marks = Labels::within(transform.frame().shrink(2.0));
    for station in &drawing.stations {
        for (nm, radius) in [(station.mean, MEAN), (station.after, AFTER.0)] {
            if let Some(nm) = nm {
                marks.take_mark(on_screen([station.x, nm]), radius);
            }
        }
    }
    let mut lines = marks.clone();
    for piece in drawing.present.iter().chain(&drawing.preview) {
        let points: Vec<Pos2> = piece.iter().copied().map(on_screen).collect();
        lines.take_line(&points);
    }
    let mut labels = lines.clone();
    for edge in drawing
        .band
        .iter()
        .flat_map(|band| [band.low_nm, band.high_nm])
    {
        labels.take_line(
            &[0.0, scene.session.press.jaw_length.length().nm_f64()].map(|x| on_screen([x, edge])),
        );
    }
    for (at, word) in [
        (spread.thickest, words.thickest()),
        (spread.thinnest, words.thinnest()),
    ] {
        let station = drawing.stations.get(at);
        let Some((station, mean)) = station.and_then(|at| Some((at, at.mean?))) else {
            continue;
        };
        let figure = scene.figures.nm(mean, scene.figures.mean_decimals());
        let text = format!("{word} {figure}");
        let galley = painter.layout_no_wrap(text, theme::bold(size::SMALL), palette.present);
        let room = galley.size() + Vec2::new(6.0, 0.0);
        let above = at == spread.thickest;
        let at = on_screen([station.x, mean]);
        // Both ends of the spread are named, over a line where there is no more
        // room.
        let places = [&mut labels, &mut lines, &mut marks];
        let mut places = places.map(|taken| taken.beside(at, MEAN, room, above));
        let Some(rect) = places.iter_mut().find_map(|place| place.take()) else {
            continue;
        };
        for taken in [&mut labels, &mut lines, &mut marks] {
            taken.take(rect);
        }
        painter.rect_filled(rect, 3.0, palette.card.gamma_multiply(0.85));
        painter.galley(rect.min + Vec2::new(3.0, 0.0), galley, palette.present);
    }
}

/// The preview's points at the arms can be taken and dragged. With the
/// keyboard, the nuts below do the same.
fn handles(ui: &mut Ui, scene: &mut Scene<'_>, drawing: &Drawing, transform: &PlotTransform) {
    if scene.nuts_wait() {
        return;
    }
    let mut named = None;
    for (index, station) in drawing.stations.iter().enumerate() {
        let (Some(arm), Some(mean)) = (station.arm, station.after.or(station.mean)) else {
            continue;
        };
        let at = transform.position_from_point(&PlotPoint::new(station.x, mean));
        let grip = Rect::from_center_size(at, Vec2::splat(theme::TARGET));
        let grip = grip.intersect(*transform.frame());
        let handle = ui.interact(grip, ui.scope_id().with(("handle", arm.0)), Sense::DRAG);
        if handle.hovered() || handle.dragged() {
            ui.ctx().set_cursor_icon(egui::CursorIcon::ResizeVertical);
            let ring = theme::stroke(1.5, scene.palette.preview);
            ui.painter().circle_stroke(at, 14.0, ring);
            named = Some((at, arm));
        }
        let response = scene.outlook.response();
        let effect = response.map_or(0.0, |response| response.at(index, arm.0));
        let points_per_notch = (effect * transform.dpos_dvalue_y()).abs() as f32;
        if let Some(by) = nut_input::dragged_notches(ui, &handle, points_per_notch) {
            scene.view.nut = Some(arm.0);
            scene.ask(Action::TurnNut(arm, Notches(by)));
        }
    }
    if let Some((at, arm)) = named {
        name_turn(ui, scene, at, arm, *transform.frame());
    }
}

/// What the nut of a point under the pointer is turned by, beside the point.
fn name_turn(ui: &Ui, scene: &Scene<'_>, at: Pos2, arm: ArmIndex, frame: Rect) {
    let turn = scene.preview().get(arm.0).copied().unwrap_or_default();
    let said = scene.figures.turn_and_way(&scene.session.press, turn);
    let (font, ink) = (theme::bold(size::SMALL), scene.palette.preview);
    let galley = ui
        .painter()
        .layout_no_wrap(format!("{arm}: {said}"), font, ink);
    let size = galley.size() + Vec2::new(10.0, 4.0);
    let room = frame.size() - size;
    let middle = at - Vec2::new(size.x / 2.0, size.y + 18.0);
    let corner = (middle - frame.min).clamp(Vec2::ZERO, room.max(Vec2::ZERO));
    let rect = Rect::from_min_size(frame.min + corner, size);
    ui.painter().rect_filled(rect, 4.0, scene.palette.card);
    ui.painter()
        .galley(rect.min + Vec2::new(5.0, 2.0), galley, ink);
}

fn keys(scene: &Scene<'_>, drawing: &Drawing) -> Vec<Key> {
    let words = scene.words();
    let palette = scene.palette;
    let key = |text: &str, sign| Key {
        text: text.to_owned(),
        sign,
    };
    let line = |pen| Sign::Line(pen);
    let mut keys = vec![key(
        words.legend_now(),
        line(Pen::solid(palette.present, 2.6)),
    )];
    if !drawing.found.is_empty() {
        keys.push(key(words.crew_as_found(), line(found_pen(palette))));
    }
    if drawing.turned {
        let pen = Pen::dashed(palette.preview, 2.4, 9.0);
        keys.push(key(words.legend_with_turns(), line(pen)));
    }
    if drawing.strip.is_some() {
        let (fill, edge) = strip_inks(scene);
        keys.push(key(words.legend_likely(), Sign::Patch(fill, edge)));
    }
    if drawing.band.is_some() {
        let limit = scene.figures.limit(scene.session.tolerance.length());
        let edge = Pen::dashed(palette.band_edge, 1.0, 5.0);
        let label = match drawing.ahead {
            true => words.band_label_ahead(limit),
            false => words.band_label(limit),
        };
        keys.push(key(&label, Sign::Patch(palette.band, edge)));
    }
    let caption = words.legend_thickness(words.unit_name(scene.figures.unit));
    keys.push(key(&caption, Sign::Caption));
    keys
}

/// The chart in words, for those who cannot see it.
fn description(scene: &Scene<'_>) -> String {
    let stations = scene.outlook.means_nm.iter().enumerate();
    let stations = stations.filter_map(|(station, mean)| {
        let mean = scene.figures.nm((*mean)?, scene.figures.mean_decimals());
        Some(format!("{} {mean}", scene.session.station_name(station)))
    });
    let stations: Vec<String> = stations.collect();
    scene.words().chart_description(stations.join(", "))
}
