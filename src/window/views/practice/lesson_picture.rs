//! What a lesson's step shows: a press, or readings and a gauge.

use eframe::egui::{Align2, Id, Pos2, Rect, Ui, Vec2};
use egui_plot::MarkerShape;

use crate::practice::{
    ASSUMED_MARGIN, Carries, GaugeStep, LessonTopic, NotchStep, Says, TightStep,
};
use crate::press::{ArmIndex, Notches};
use crate::splice::Band;
use crate::units::Length;
use crate::window::state::LessonView;
use crate::window::theme::{self, size};

use crate::window::views::Scene;
use crate::window::views::picture::gauge_drawn::{self, Seat};
use crate::window::views::picture::legend::{Key, Legend, Sign};
use crate::window::views::picture::plot::Pen;
use crate::window::views::picture::splice::{Fit, grouped};
use crate::window::views::picture::test_piece;
use crate::window::views::practice::press_compared::Mark;
use crate::window::views::practice::press_drawn::{self, PressDrawn, PressLabels};
use crate::window::views::practice::readings_drawn::{self, Dots, Drawn, Level, Row, Scale};
use crate::words::Figures;

/// A ten thousandth of an inch, in nanometres.
const GRID_NM: f64 = 2_540.0;

/// Widest that the place of a reading is drawn, in points.
const WHERE: f32 = 1_100.0;

/// Seconds in which the press moves from step to step.
const MOVES: f32 = 0.4;

/// How figures of a lesson are shown: those of its own gauge.
pub fn figures(scene: &Scene<'_>, view: &LessonView) -> Figures {
    let steps = view.lesson.steps.iter();
    let step = steps.into_iter().find_map(|step| match step.says {
        Says::Gauge(GaugeStep::Step { step, .. }) => Some(step),
        _ => None,
    });
    Figures {
        step: step.unwrap_or(scene.figures.step),
        ..scene.figures
    }
}

/// The press with its nuts as they are; answers what its signs mean.
pub fn press(
    ui: &mut Ui,
    scene: &Scene<'_>,
    view: &LessonView,
    (font, height): (f32, f32),
) -> Vec<Key> {
    let words = scene.words();
    let (Some(state), Some(step)) = (&view.state, view.step()) else {
        ui.label(words.lesson_not_computed());
        return Vec::new();
    };
    let figures = &scene.figures;
    let tolerance = view.lesson.shown.tolerance_nm();
    let strip = view.lesson.topic == LessonTopic::OverTightening;
    let tallest = f64::from(press_drawn::tallest(height, font, strip));
    let per_nm = f64::from(ui.available_width() - font * 0.8) / state.jaw_nm;
    let drawn_by = |widest_nm: f64| one_digit(tallest / widest_nm / per_nm);
    let (exaggeration, was) = (drawn_by(view.widest_nm), drawn_by(view.was_widest_nm));
    let factor = match was == exaggeration {
        true => grouped(exaggeration),
        false => words.lesson_scale_now(grouped(exaggeration), grouped(was)),
    };
    let opening: Vec<f64> = state
        .opening_nm
        .iter()
        .zip(&view.lesson.shown.travel_nm())
        .map(|(left, travel)| left / (ASSUMED_MARGIN * travel))
        .collect();
    let retainer: Vec<String> = state
        .retainer
        .iter()
        .map(|retainer| words.retainer(*retainer).to_owned())
        .collect();
    let carries = state.carries();
    let loads = |said: &dyn Fn(String) -> String| -> Vec<String> {
        let shares = state.rod_shares.iter().zip(&carries);
        let loads = shares.map(|(share, carries)| match carries {
            Carries::Load => said(figures.share(*share)),
            Carries::Hardly => words.lesson_nearly_slack(figures.share(*share)),
            Carries::Nothing => words.lesson_slack().to_owned(),
        });
        loads.collect()
    };
    let (in_words, short) = (
        loads(&|share| words.lesson_load(share)),
        loads(&|share| words.lesson_load_short(share)),
    );
    let nuts = state.nuts.iter().enumerate().map(|(arm, turned)| {
        let arm = ArmIndex(arm);
        match turned {
            0 => arm.to_string(),
            _ => format!("{arm} {}", figures.turn_short(Notches(*turned))),
        }
    });
    let nuts: Vec<String> = nuts.collect();
    // What is spoken of is what the step shows, not what hands made of it.
    let target = view.changes as f32;
    let reached = (ui.ctx()).animate_value_with_time(Id::unique("lesson"), target, MOVES);
    let part = f64::from((1.0 + reached - target).clamp(0.0, 1.0));
    let from = view.last.as_ref().filter(|_| part < 1.0).unwrap_or(state);
    let between = |from: &[f64], to: &[f64]| -> Vec<f64> {
        let pairs = from.iter().zip(to);
        pairs.map(|(from, to)| from + part * (to - from)).collect()
    };
    let along_nm = between(&from.along_nm, &state.along_nm);
    let rod_shares = between(&from.rod_shares, &state.rod_shares);
    let counted = |nuts: &[i32]| -> Vec<f64> { nuts.iter().copied().map(f64::from).collect() };
    let stand = between(&counted(&from.nuts), &counted(&state.nuts));
    // Not before it is there.
    let own = view.by_hand.is_none() && part == 1.0;
    let marks = step.marks_nm.iter().filter(|_| own);
    let marks: Vec<Mark> = marks
        .filter_map(|(arm, change)| {
            let spread = matches!(step.says, Says::Tight(TightStep::OutOfTolerance { .. }));
            Some(Mark {
                at_nm: *state.arms_nm.get(arm.0)?,
                now_nm: *state.splice_nm.get(arm.0)?,
                change_nm: *change,
                text: match spread {
                    true => figures.lesson_length(change.abs()),
                    false => figures.lesson_change(*change),
                },
            })
        })
        .collect();
    let arms = step.arms.iter().filter(|_| own);
    let arms: Vec<usize> = arms.map(|arm| arm.0).collect();
    let judged = match &step.says {
        Says::Tight(says) => matches!(says, TightStep::OutOfTolerance { .. }),
        Says::Notch(says) => !matches!(says, NotchStep::Why { .. } | NotchStep::Thickest { .. }),
        Says::Gauge(_) => false,
    };
    let band = Band::over(&state.splice_nm, tolerance);
    let band = band.map_or([0.0; 2], |band| [band.low_nm, band.high_nm]);
    let band_nm = judged.then_some(band);
    // Where the press was true, hooks sit as they sat there; else as all others.
    let sit_nm = if strip { [-tolerance, tolerance] } else { band };
    let drawn = PressDrawn {
        arms_nm: &state.arms_nm,
        jaw_nm: state.jaw_nm,
        along_nm: &along_nm,
        nuts: &stand,
        rod_shares: &rod_shares,
        retainer: if strip { &state.retainer } else { &[] },
        opening_left: &opening,
        sit_nm,
        exaggeration,
        before_nm: &view.before_nm,
        band_nm,
        arms: &arms,
        marks: &marks,
    };
    let name = figures.lesson_says(&step.says);
    let labels = PressLabels {
        font,
        name: &name,
        nuts: &nuts,
        retainer: &retainer,
        rods: [&in_words, &short],
        parts: [
            &words.stationary_jaw(factor),
            words.moving_jaw(),
            words.lesson_opened(),
        ],
    };
    press_drawn::show(ui, scene.palette, &drawn, &labels, height);
    let palette = scene.palette;
    let hooks = |fit: Fit, text: &str, there: bool| {
        there.then(|| Key {
            text: text.to_owned(),
            sign: Sign::Hook(fit, palette),
        })
    };
    let (lowest, highest) = ends(&state.along_nm);
    let line = |pen: Pen, text: &str, there: bool| {
        there.then(|| Key {
            text: text.to_owned(),
            sign: Sign::Line(pen),
        })
    };
    let is_true = step.before.iter().flatten().all(|nut| *nut == 0) && strip;
    let before = match is_true {
        true => words.lesson_key_true(),
        false => words.lesson_key_before(),
    };
    let band = words.lesson_key_band();
    let keys = [
        hooks(Fit::Crushed, words.lesson_key_cuts(), lowest <= sit_nm[0]),
        hooks(Fit::Loose, words.lesson_key_loose(), highest >= sit_nm[1]),
        line(
            Pen::dotted(palette.ink, 2.0),
            before,
            !view.before_nm.is_empty(),
        ),
        line(Pen::dashed(palette.good, 2.0, 7.0), band, band_nm.is_some()),
    ];
    keys.into_iter().flatten().collect()
}

/// A factor no larger than this, of one digit.
fn one_digit(factor: f64) -> f64 {
    let mut unit = 1.0;
    while unit * 10.0 <= factor && unit < 1e6 {
        unit *= 10.0;
    }
    (factor / unit).floor().max(1.0) * unit
}

fn ends(values: &[f64]) -> (f64, f64) {
    let start = (f64::INFINITY, f64::NEG_INFINITY);
    let both = |(low, high): (f64, f64), value: &f64| (low.min(*value), high.max(*value));
    values.iter().fold(start, both)
}

/// Readings, with the gauge where it is about that.
pub fn readings(ui: &mut Ui, scene: &Scene<'_>, view: &LessonView, (font, height): (f32, f32)) {
    let Some(says) = view.step().map(|step| step.says.clone()) else {
        return;
    };
    let (palette, words) = (scene.palette, scene.words());
    let figures = figures(scene, view);
    let limit = view.session().tolerance.length();
    let tolerance = view.lesson.shown.tolerance_nm();
    let band = words.lesson_band(figures.limit(limit));
    let letters =
        |count: usize| -> Vec<String> { (0..count).map(|arm| ArmIndex(arm).to_string()).collect() };
    let numbers = |count: usize| -> Vec<String> { (1..=count).map(|n| n.to_string()).collect() };
    let row = |shown: &[Length], dots: Dots| Row {
        values: shown.iter().map(|shown| shown.nm_f64()).collect(),
        said: shown.iter().map(|shown| figures.reading(*shown)).collect(),
        dots,
        joined: false,
    };
    let mut keys = Vec::new();
    let mut key = |dots: Dots, text: &str| {
        let (pen, fill) = match dots {
            Dots::Filled => (Pen::solid(palette.present, 2.0), palette.present),
            Dots::Open => (Pen::dashed(palette.present, 2.0, 7.0), palette.card),
            Dots::Ghost => (Pen::dashed(palette.muted, 2.0, 7.0), palette.card),
        };
        keys.push(Key {
            text: text.to_owned(),
            sign: Sign::Marked(pen, MarkerShape::Circle, fill),
        });
    };
    // The mark of the true value of a level piece.
    let level_piece = |shown: &[Length], true_nm: f64| Row {
        values: vec![true_nm; shown.len()],
        said: Vec::new(),
        dots: Dots::Ghost,
        joined: true,
    };
    let steps = view.lesson.steps.iter().map(|step| &step.says);
    let found = |of: &dyn Fn(&GaugeStep) -> Option<(f64, Length)>| {
        steps.clone().find_map(|says| match says {
            Says::Gauge(step) => of(step),
            _ => None,
        })
    };
    let step_of = found(&|step| match step {
        GaugeStep::Step { step, true_nm, .. } => Some((*true_nm, *step)),
        _ => None,
    });
    let (true_nm, step_nm) = step_of.unwrap_or((0.0, Length::from_nm(1)));
    let of_step = words.lesson_steps(figures.plain(step_nm));
    let badly = words.lesson_steps_badly(figures.plain(step_nm));
    let between = words.lesson_steps_between(figures.plain(step_nm));
    let steps_of = |said| Scale::Steps(step_nm.nm_f64().max(1.0), said);
    let scale = || steps_of(&of_step);
    let judged = || Scale::Band(&band);
    let repeats: Vec<Length> = view
        .lesson
        .steps
        .iter()
        .find_map(|step| match &step.says {
            Says::Gauge(GaugeStep::Repeats { shown, .. }) => Some(shown.clone()),
            _ => None,
        })
        .unwrap_or_default();
    let average = |values: &[f64], give_or_take: f64| {
        let value = values.iter().sum::<f64>() / values.len().max(1) as f64;
        let said = figures.with_unit(&figures.nm(value, figures.mean_decimals()));
        Level {
            value,
            give_or_take,
            said: words.lesson_average(said),
        }
    };
    let mut level = None;
    let (rows, places, scale) = match &says {
        Says::Gauge(step) => match step {
            GaugeStep::Where => {
                let wide = ui.available_width();
                let room = wide.min(WHERE);
                let over = 0.25 * (height - 0.3 * room).max(0.0);
                ui.add_space(over);
                ui.horizontal(|ui| {
                    ui.add_space(0.5 * (wide - room));
                    ui.vertical(|ui| {
                        ui.set_max_size(Vec2::new(room, height - over));
                        test_piece::measured(ui, scene, font / size::SMALL);
                    });
                });
                return;
            }
            GaugeStep::Once { shown } => {
                let (area, painter) =
                    readings_drawn::place(ui, (&figures.lesson_says(&says), height));
                let parts = [
                    words.lesson_belt(),
                    words.lesson_hook(),
                    words.lesson_anvil(),
                ];
                let shows = figures.reading(*shown);
                let at = (area.shrink(font), font);
                let shown = (shows.as_str(), Some(parts));
                let _ = gauge_drawn::paint(&painter, palette, at, Seat::Square, shown);
                return;
            }
            GaugeStep::Repeats { shown, .. } => (
                vec![row(shown, Dots::Filled)],
                numbers(shown.len()),
                scale(),
            ),
            GaugeStep::Step { .. } => {
                let said = figures.with_unit(&figures.nm(true_nm, figures.mean_decimals()));
                level = Some(Level {
                    value: true_nm,
                    give_or_take: 0.0,
                    said: words.lesson_true_value(said),
                });
                (
                    vec![row(&repeats, Dots::Filled)],
                    numbers(repeats.len()),
                    scale(),
                )
            }
            GaugeStep::Mean { mean_nm, .. } => {
                let row = row(&repeats, Dots::Filled);
                level = Some(average(&row.values, *mean_nm));
                (vec![row], numbers(repeats.len()), scale())
            }
            GaugeStep::Seating { shown, .. } => {
                let row = row(shown, Dots::Filled);
                level = Some(average(&row.values, 0.0));
                (vec![row], numbers(shown.len()), steps_of(&badly))
            }
            GaugeStep::ZeroOff { shown, .. }
            | GaugeStep::ZeroHalfway { shown, .. }
            | GaugeStep::ZeroCreeps { shown, .. } => {
                let least = shown.iter().min().map_or(0.0, |shown| shown.nm_f64());
                let true_nm = match step {
                    GaugeStep::ZeroOff { off_nm, .. } => least - off_nm,
                    _ => least,
                };
                key(Dots::Filled, words.lesson_key_read());
                key(Dots::Ghost, words.lesson_key_truly());
                let read = Row {
                    joined: matches!(step, GaugeStep::ZeroCreeps { .. }),
                    ..row(shown, Dots::Filled)
                };
                let rows = vec![level_piece(shown, true_nm), read];
                (rows, letters(shown.len()), judged())
            }
            GaugeStep::ThereAndBack {
                there,
                back,
                mean_nm,
                ..
            } => {
                key(Dots::Filled, words.lesson_there());
                key(Dots::Open, words.lesson_and_back());
                level = Some(average(mean_nm, 0.0));
                let joined = |shown: &[Length], dots: Dots| Row {
                    joined: true,
                    ..row(shown, dots)
                };
                let rows = vec![joined(there, Dots::Filled), joined(back, Dots::Open)];
                (rows, letters(there.len()), steps_of(&between))
            }
            GaugeStep::Unit { other, unit, .. } => {
                let foreign = Figures {
                    unit: unit.other(),
                    ..figures
                };
                let own = Figures {
                    unit: *unit,
                    ..figures
                };
                let in_both =
                    |limit: Length| words.lesson_unit_band(own.plain(limit), foreign.limit(limit));
                let bands = [
                    (tolerance, in_both(limit)),
                    (other.nm_f64(), foreign.plain(*other)),
                ];
                // The same piece, inside the wider of the two alone, on a whole figure:
                // a rounded one would not convert to the other that stands beside it.
                let between = 0.5 * (tolerance + other.nm_f64());
                let spread = (between / GRID_NM).round() * GRID_NM;
                let bands = bands.map(|(wide, text)| match spread <= wide {
                    true => (wide, format!("{text}: ✓ {}", words.practice_inside())),
                    false => (wide, format!("{text}: ✗ {}", words.practice_outside())),
                });
                let (area, painter) =
                    readings_drawn::place(ui, (&figures.lesson_says(&says), height));
                let piece = words.lesson_unit_piece(
                    own.with_unit(&own.nm(spread, own.mean_decimals())),
                    foreign.with_unit(&foreign.nm(spread, foreign.mean_decimals())),
                );
                let piece = (spread, piece.as_str());
                readings_drawn::bands(&painter, palette, area, font, &bands, piece);
                return;
            }
            GaugeStep::Rule => return,
        },
        Says::Notch(_) | Says::Tight(_) => return,
    };
    let legend = (!keys.is_empty()).then(|| {
        let width = ui.available_width();
        Legend::of_wall(ui, palette, font * 0.85, width, keys)
    });
    let gap = ui.spacing().item_spacing.y;
    let legend_height = legend.as_ref().map_or(0.0, |legend| legend.height() + gap);
    if let Some(legend) = legend {
        let left = ui.cursor().left();
        legend.show(ui, left);
    }
    let room = (height - legend_height).max(font * 8.0);
    let (area, painter) = readings_drawn::place(ui, (&figures.lesson_says(&says), room));
    let drawn = Drawn {
        rows: &rows,
        places: &places,
        scale,
        level,
        least: tolerance,
    };
    let mut below = area;
    if let Says::Gauge(GaugeStep::Seating { shown, .. }) = &says {
        let high = area.height() * 0.48;
        below.min.y += high;
        let shows = |shown: Option<&Length>| {
            shown
                .map(|shown| figures.reading(*shown))
                .unwrap_or_default()
        };
        let (most, first) = (shown.iter().max(), shown.first());
        let (good, bad) = (palette.good, palette.outside);
        let seats = [
            (
                Seat::Square,
                words.lesson_square(),
                "✓",
                repeats.first(),
                good,
            ),
            (Seat::Tilted, words.lesson_tilted(), "✗", most, bad),
            (Seat::OnDirt, words.lesson_dirt(), "✗", first, bad),
        ];
        let share = area.width() / seats.len() as f32;
        for ((seat, text, mark, reading, ink), at) in seats.into_iter().zip(0_u8..) {
            let left = area.left() + share * f32::from(at);
            let size = Vec2::new(share, high - font * 1.4);
            let place = Rect::from_min_size(Pos2::new(left, area.top()), size);
            let said = shows(reading);
            // A tilted one reaches further.
            let at = (place.shrink(font * 0.6), font);
            let _ = gauge_drawn::paint(&painter, palette, at, seat, (&said, None));
            let caption = format!("{mark} {text}");
            let under = place.center_bottom();
            painter.text(under, Align2::CENTER_TOP, caption, theme::bold(font), ink);
        }
    }
    readings_drawn::paint(&painter, palette, below, font, &drawn);
}
