//! The profile over the jaw's length, with the tolerance band.

use eframe::egui::{self, Color32, Pos2, Rect, Role, Sense, Ui, Vec2, WidgetInfo};
use egui_plot::{
    FilledArea, GridMark, Line, LineStyle, MarkerShape, Plot, PlotBounds, PlotPoint, PlotPoints,
    PlotTransform, Points, Polygon, VLine,
};

use crate::press::{ArmIndex, Notches};
use crate::splice::Band;
use crate::window::action::Action;
use crate::window::theme::{self, TARGET, size};

use crate::report::{curve, grid_step};
use crate::window::views::Scene;
use crate::window::views::comparing::profiles::band;
use crate::window::views::picture::jaw_axis::JawAxis;
use crate::window::views::picture::labels::Labels;
use crate::window::views::turning::nut_input;

/// Width of the labels beside the chart.
pub const AXIS_WIDTH: f32 = 46.0;

/// Draws the chart and answers where along the screen the jaw lies.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, height: f32) -> JawAxis {
    let drawing = Drawing::of(scene, height);
    let palette = scene.palette;
    let figures = scene.figures;
    let jaw_nm = scene.session.press.jaw_length.length().nm_f64();
    let (low, high) = drawing.y_range;
    let (step_nm, decimals) = grid_step(high - low, height, figures.unit);
    let arms_nm = scene.outlook.arms_nm.clone();
    let response = Plot::new("profile")
        .height(height)
        .show_x(false)
        .show_y(false)
        .allow_zoom(false)
        .allow_drag(false)
        .allow_scroll(false)
        .allow_boxed_zoom(false)
        .allow_double_click_reset(false)
        .auto_bounds(false)
        .set_margin_fraction(Vec2::ZERO)
        .show_background(false)
        .show_axes([false, true])
        .show_grid([false, true])
        .grid_color(palette.grid)
        .grid_fade(0.0)
        .y_axis_min_width(AXIS_WIDTH)
        .y_grid_spacer(move |input| {
            let (from, to) = input.bounds;
            let first = (from / step_nm).ceil() as i64;
            let last = (to / step_nm).floor() as i64;
            (first..=last.min(first + 60))
                .map(|index| GridMark {
                    value: index as f64 * step_nm,
                    step_size: step_nm,
                })
                .collect()
        })
        .y_axis_formatter(move |mark, _| figures.nm(mark.value, decimals))
        .label_formatter(|_| None)
        .show(ui, |plot| {
            plot.set_plot_bounds(PlotBounds::from_min_max([0.0, low], [jaw_nm, high]));
            if let Some(band) = drawing.band {
                let corners = vec![
                    [0.0, band.low_nm],
                    [jaw_nm, band.low_nm],
                    [jaw_nm, band.high_nm],
                    [0.0, band.high_nm],
                ];
                plot.polygon(
                    Polygon::new("band", PlotPoints::from(corners))
                        .fill_color(palette.band)
                        .stroke(theme::stroke(0.0, palette.band)),
                );
                for edge in [band.low_nm, band.high_nm] {
                    plot.line(
                        Line::new("band edge", vec![[0.0, edge], [jaw_nm, edge]])
                            .color(palette.band_edge)
                            .width(1.0)
                            .style(LineStyle::Dashed { length: 5.0 }),
                    );
                }
            }
            for &arm in &arms_nm {
                plot.vline(
                    VLine::new("arm", arm)
                        .color(palette.line)
                        .width(1.0)
                        .style(LineStyle::Dotted { spacing: 5.0 }),
                );
            }
            if let Some(strip) = &drawing.strip {
                plot.add(
                    FilledArea::new("strip", &strip.x, &strip.low, &strip.high)
                        .fill_color(palette.preview.gamma_multiply(0.16)),
                );
            }
            for piece in &drawing.present {
                plot.line(
                    Line::new("now", piece.clone())
                        .color(palette.present)
                        .width(2.6),
                );
            }
            for piece in &drawing.beyond {
                plot.line(
                    Line::new("beyond", piece.clone())
                        .color(palette.present.gamma_multiply(0.55))
                        .width(1.6)
                        .style(LineStyle::Dotted { spacing: 6.0 }),
                );
            }
            for piece in &drawing.preview {
                plot.line(
                    Line::new("preview", piece.clone())
                        .color(palette.preview)
                        .width(2.4)
                        .style(LineStyle::Dashed { length: 9.0 }),
                );
            }
            plot.points(
                Points::new("readings", drawing.readings.clone())
                    .shape(MarkerShape::Plus)
                    .color(palette.muted)
                    .radius(3.5),
            );
        });
    let transform = response.transform;
    let frame = *transform.frame();
    let axis = JawAxis {
        left: frame.left(),
        right: frame.right(),
        length_nm: jaw_nm,
    };
    response
        .response
        .widget_info(|| WidgetInfo::labeled(Role::Image, true, drawing.description.clone()));
    draw_marks(ui, scene, &drawing, &transform);
    handles(ui, scene, &drawing, &transform, response.response.id);
    legend(ui, scene, axis, &drawing);
    axis
}

/// What is drawn, in plot coordinates (nanometres both ways).
struct Drawing {
    present: Vec<Vec<[f64; 2]>>,
    beyond: Vec<Vec<[f64; 2]>>,
    preview: Vec<Vec<[f64; 2]>>,
    readings: Vec<[f64; 2]>,
    means: Vec<Option<f64>>,
    after: Vec<Option<f64>>,
    turned: bool,
    strip: Option<Strip>,
    band: Option<Band>,
    y_range: (f64, f64),
    description: String,
}

impl Drawing {
    fn of(scene: &Scene<'_>, height: f32) -> Self {
        let outlook = scene.outlook;
        let turns = scene.preview();
        let turned = turns.iter().any(|turn| turn.0 != 0);
        let means = outlook.means_nm.clone();
        let after = if turned {
            outlook.means_after(&turns)
        } else {
            vec![None; means.len()]
        };
        let jaw_nm = scene.session.press.jaw_length.length().nm_f64();
        let (present, beyond) = curve(&outlook.stations_nm, &means, jaw_nm);
        let (preview, _) = curve(&outlook.stations_nm, &after, jaw_nm);
        let readings = readings(scene);
        let strip = scene
            .outlook
            .predicted_sd_nm(&turns)
            .filter(|_| turned)
            .and_then(|sd_nm| Strip::around(&outlook.stations_nm, &after, &sd_nm, jaw_nm));
        let tolerance_nm = scene.session.tolerance.length().nm_f64();
        // The band floats: it is laid over the profile that is about to be,
        // so that one sees at a glance whether it will fit.
        let band = band(scene, if turned { &after } else { &means });
        let shown = means
            .iter()
            .chain(&after)
            .filter_map(|mean| *mean)
            .chain(band.iter().flat_map(|band| [band.low_nm, band.high_nm]));
        let y_range = padded_range(shown, scene, tolerance_nm, height);
        let description = description(scene);
        Self {
            present,
            beyond,
            preview,
            readings,
            means,
            after,
            turned,
            strip,
            band,
            y_range,
            description,
        }
    }
}

/// Where nine in ten next pieces will lie, as far as their shape goes.
struct Strip {
    x: Vec<f64>,
    low: Vec<f64>,
    high: Vec<f64>,
}

/// Standard deviations either side that nine in ten values of a normal
/// distribution lie within.
pub(crate) const NINE_IN_TEN: f64 = 1.644_853_6;

impl Strip {
    fn around(
        stations_nm: &[f64],
        means: &[Option<f64>],
        sd_nm: &[f64],
        jaw_nm: f64,
    ) -> Option<Self> {
        let edge = |side: f64| {
            let moved: Vec<Option<f64>> = means
                .iter()
                .zip(sd_nm)
                .map(|(mean, sd)| mean.map(|mean| mean + side * NINE_IN_TEN * sd))
                .collect();
            let (between, _) = curve(stations_nm, &moved, jaw_nm);
            between.into_iter().next()
        };
        let (low, high) = (edge(-1.0)?, edge(1.0)?);
        Some(Self {
            x: low.iter().map(|point| point[0]).collect(),
            low: low.iter().map(|point| point[1]).collect(),
            high: high.iter().map(|point| point[1]).collect(),
        })
    }
}

/// Every reading that counts, drawn at its station.
fn readings(scene: &Scene<'_>) -> Vec<[f64; 2]> {
    let Some(pass) = scene
        .outlook
        .pass
        .and_then(|pass| scene.session.passes.get(pass))
    else {
        return Vec::new();
    };
    pass.rows
        .iter()
        .zip(&scene.outlook.stations_nm)
        .flat_map(|(row, &x)| {
            row.iter()
                .filter_map(|cell| cell.counting())
                .map(move |reading| [x, reading.typed.length().nm_f64()])
        })
        .collect()
}

/// Room above and below what is drawn, in points: letters and words stand
/// there.
const ROOM_FOR_WORDS: (f32, f32) = (46.0, 28.0);

/// The thicknesses from the chart's lower edge to its upper.
fn padded_range(
    shown: impl Iterator<Item = f64>,
    scene: &Scene<'_>,
    tolerance_nm: f64,
    height: f32,
) -> (f64, f64) {
    let (low, high) = shown.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), y| {
        (low.min(y), high.max(y))
    });
    if low > high {
        let middle = scene
            .session
            .target
            .as_ref()
            .map_or(6_350_000.0, |target| target.length().nm_f64());
        return (middle - 2.0 * tolerance_nm, middle + 2.0 * tolerance_nm);
    }
    let share = |points: f32| f64::from((points / height).min(0.3));
    let (above, below) = (share(ROOM_FOR_WORDS.0), share(ROOM_FOR_WORDS.1));
    let range = (high - low).max(tolerance_nm) / (1.0 - above - below);
    (low - range * below, low - range * below + range)
}

/// Radius of the marks at means, and at what the turns would make of them.
const MEAN: f32 = 6.5;
const AFTER: (f32, f32) = (8.5, 6.0);

/// Letters, means, names of thickest and thinnest, the band's words.
fn draw_marks(ui: &Ui, scene: &Scene<'_>, drawing: &Drawing, transform: &PlotTransform) {
    let palette = scene.palette;
    let painter = ui.painter();
    let frame = *transform.frame();
    let mut labels = Labels::within(frame.shrink(2.0));
    for (index, &arm) in scene.outlook.arms_nm.iter().enumerate() {
        let x = transform.position_from_point_x(arm);
        let letter = ArmIndex(index).to_string();
        let galley = painter.layout_no_wrap(letter, theme::bold(size::TITLE), palette.muted);
        let at = Pos2::new(x - galley.size().x / 2.0, frame.top() + 2.0);
        let back = Rect::from_min_size(at, galley.size()).expand2(Vec2::new(4.0, 0.0));
        painter.rect_filled(back, 3.0, palette.card);
        painter.galley(at, galley, palette.muted);
        labels.take(back);
    }
    let position = |station: usize, mean: f64| {
        let x = scene
            .outlook
            .stations_nm
            .get(station)
            .copied()
            .unwrap_or(0.0);
        transform.position_from_point(&PlotPoint::new(x, mean))
    };
    for (station, mean) in drawing.means.iter().enumerate() {
        let Some(mean) = *mean else { continue };
        let at = position(station, mean);
        let counts = scene
            .session
            .stations
            .get(station)
            .is_some_and(|at| at.counts);
        if let Some(u) = scene.outlook.u_nm.get(station).copied().flatten() {
            // Twice the standard uncertainty, as gauges are usually stated.
            let half = (2.0 * u * transform.dpos_dvalue_y().abs()) as f32;
            let ends = [at - Vec2::new(0.0, half), at + Vec2::new(0.0, half)];
            let painter = painter.with_clip_rect(*transform.frame());
            painter.line_segment(ends, theme::stroke(1.4, palette.present));
            for end in ends {
                let cap = Vec2::new(4.0, 0.0);
                painter.line_segment([end - cap, end + cap], theme::stroke(1.4, palette.present));
            }
        }
        let fill = if counts { palette.card } else { palette.grid };
        painter.circle(at, MEAN, fill, theme::stroke(2.4, palette.present));
        labels.take_mark(at, MEAN);
    }
    for (station, mean) in drawing.after.iter().enumerate() {
        let Some(mean) = *mean else { continue };
        let at_arm = scene
            .session
            .stations
            .get(station)
            .is_some_and(|at| at.arm().is_some());
        let (at, radius) = (
            position(station, mean),
            if at_arm { AFTER.0 } else { AFTER.1 },
        );
        diamond(painter, at, radius, palette.card, palette.preview);
        labels.take_mark(at, radius);
    }
    name_extremes(painter, scene, drawing, &position, &mut labels);
    name_band(painter, scene, drawing, transform, &mut labels);
}

/// The words at the thickest and the thinnest station.
fn name_extremes(
    painter: &egui::Painter,
    scene: &Scene<'_>,
    drawing: &Drawing,
    position: &dyn Fn(usize, f64) -> Pos2,
    labels: &mut Labels,
) {
    let palette = scene.palette;
    let words = scene.words();
    let Some(spread) = &scene.outlook.gate.spread else {
        return;
    };
    for (station, word) in [
        (spread.thickest, words.thickest()),
        (spread.thinnest, words.thinnest()),
    ] {
        let Some(mean) = drawing.means.get(station).copied().flatten() else {
            continue;
        };
        let figure = scene.figures.nm(mean, scene.figures.mean_decimals());
        let text = format!("{word} {figure}");
        let galley = painter.layout_no_wrap(text, theme::bold(size::SMALL), palette.present);
        let room = galley.size() + Vec2::new(6.0, 0.0);
        let above = station == spread.thickest;
        let rect = labels.beside(position(station, mean), MEAN, room, above);
        painter.rect_filled(rect, 3.0, palette.card.gamma_multiply(0.85));
        painter.galley(rect.min + Vec2::new(3.0, 0.0), galley, palette.present);
    }
}

/// The words that say what the band is, at one of its corners.
fn name_band(
    painter: &egui::Painter,
    scene: &Scene<'_>,
    drawing: &Drawing,
    transform: &PlotTransform,
    labels: &mut Labels,
) {
    let Some(band) = drawing.band else { return };
    let ink = scene.palette.band_edge;
    let limit = scene.figures.limit(scene.session.tolerance.length());
    let text = scene.words().band_label(limit);
    let galley = painter.layout_no_wrap(text, theme::regular(size::SMALL), ink);
    let frame = *transform.frame();
    let edge = |nm: f64| transform.position_from_point(&PlotPoint::new(0.0, nm)).y;
    let (left, right) = (frame.left() + 6.0, frame.right() - 6.0 - galley.size().x);
    let (under, over) = (
        edge(band.low_nm) + 2.0,
        edge(band.high_nm) - 2.0 - galley.size().y,
    );
    let wished = [(left, under), (right, under), (left, over), (right, over)];
    let wished = wished.map(|(x, y)| Rect::from_min_size(Pos2::new(x, y), galley.size()));
    let rect = labels.place(&wished);
    painter.galley(rect.min, galley, ink);
}

fn diamond(painter: &egui::Painter, at: Pos2, radius: f32, fill: Color32, edge: Color32) {
    let corners = [
        Vec2::new(0.0, -radius),
        Vec2::new(radius, 0.0),
        Vec2::new(0.0, radius),
        Vec2::new(-radius, 0.0),
    ];
    painter.add(egui::Shape::convex_polygon(
        corners.iter().map(|&corner| at + corner).collect(),
        fill,
        theme::stroke(2.2, edge),
    ));
}

/// The preview's points at the arms can be taken and dragged, as the nuts
/// below can.
fn handles(
    ui: &mut Ui,
    scene: &mut Scene<'_>,
    drawing: &Drawing,
    transform: &PlotTransform,
    plot_id: egui::Id,
) {
    for station in 0..drawing.means.len() {
        let Some(arm) = scene.session.stations.get(station).and_then(|at| at.arm()) else {
            continue;
        };
        let after = drawing.after.get(station).copied().flatten();
        let Some(mean) = after.or(drawing.means.get(station).copied().flatten()) else {
            continue;
        };
        let x = scene
            .outlook
            .stations_nm
            .get(station)
            .copied()
            .unwrap_or(0.0);
        let at = transform.position_from_point(&PlotPoint::new(x, mean));
        let id = plot_id.with(("handle", arm.0));
        let handle = ui.interact(
            Rect::from_center_size(at, Vec2::splat(TARGET)),
            id,
            // For the pointer alone: keys and screen readers have the nuts.
            Sense::DRAG,
        );
        if handle.hovered() || handle.dragged() {
            ui.ctx().set_cursor_icon(egui::CursorIcon::ResizeVertical);
            ui.painter()
                .circle_stroke(at, 14.0, theme::stroke(1.5, scene.palette.preview));
        }
        let effect = scene
            .outlook
            .response()
            .map_or(0.0, |response| response.at(station, arm.0));
        let points_per_notch = (effect * transform.dpos_dvalue_y()).abs() as f32;
        if let Some(by) = nut_input::dragged_notches(ui, &handle, points_per_notch) {
            scene.ask(Action::TurnNut(arm, Notches(by)));
        }
    }
}

fn legend(ui: &mut Ui, scene: &Scene<'_>, axis: JawAxis, drawing: &Drawing) {
    let palette = scene.palette;
    let words = scene.words();
    let font = theme::regular(size::SMALL);
    let (row, _) = ui.allocate_exact_size(Vec2::new(ui.available_width(), 19.0), Sense::hover());
    let painter = ui.painter();
    let middle = row.center().y;
    let caption = painter.layout_no_wrap(
        words.chart_caption(words.unit_name(scene.figures.unit)),
        font.clone(),
        palette.muted,
    );
    let mut right = axis.right;
    let mut entry = |text: &str, color: Color32, dashed: bool| {
        let galley = painter.layout_no_wrap(text.to_owned(), font.clone(), color);
        right -= galley.size().x;
        painter.galley(
            Pos2::new(right, middle - galley.size().y / 2.0),
            galley,
            color,
        );
        let line = [
            Pos2::new(right - 34.0, middle),
            Pos2::new(right - 6.0, middle),
        ];
        if dashed {
            painter.extend(egui::Shape::dashed_line(
                &line,
                theme::stroke(2.4, color),
                7.0,
                4.0,
            ));
        } else {
            painter.line_segment(line, theme::stroke(2.6, color));
        }
        right -= 48.0;
    };
    if drawing.turned {
        entry(words.legend_with_turns(), palette.preview, true);
    }
    entry(words.legend_now(), palette.present, false);
    if axis.left + caption.size().x < right {
        painter.galley(
            Pos2::new(axis.left, middle - caption.size().y / 2.0),
            caption,
            palette.muted,
        );
    }
}

/// The chart in words, for those who cannot see it.
fn description(scene: &Scene<'_>) -> String {
    let words = scene.words();
    let stations: Vec<String> = scene
        .outlook
        .means_nm
        .iter()
        .enumerate()
        .filter_map(|(station, mean)| {
            let mean = scene.figures.nm((*mean)?, scene.figures.mean_decimals());
            Some(format!("{} {mean}", scene.session.station_name(station)))
        })
        .collect();
    words.chart_description(stations.join(", "))
}
