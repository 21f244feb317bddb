//! The debrief: what was hidden, what would have cured it, what was decided, what
//! luck did.

use eframe::egui::{Align, Frame, Grid, Layout, Margin, Panel, RichText, ScrollArea, Ui, Vec2};
use egui_plot::MarkerShape;

use crate::practice::{
    Debrief, Did, Ending, Exercise, Finish, MOST_PIECES_PLAYED, SCATTERS, Way, spread_nm,
};
use crate::report::curve;
use crate::splice::Band;
use crate::window::action::Action;
use crate::window::practicing::{PracticeWish, Practicing};
use crate::window::theme::{self, size};

use crate::window::views::Scene;
use crate::window::views::dialog_room::{Answer, Foot};
use crate::window::views::hint::Hint;
use crate::window::views::picture::plot::{self, Chart, NamedLine, Pen, range};
use crate::window::views::widgets::{button, muted, strong, title};

/// Height of the picture, least and most; what all else takes beside twice of it,
/// and beside it where what it took stands at its right; room right of it for
/// the names of its lines.
const PICTURE: (f32, f32) = (140.0, 460.0);
const ELSE: (f32, f32) = (320.0, 420.0);
const NAMES: f32 = 110.0;

/// Width from which what it took stands beside the picture, and its own.
const BESIDE: f32 = 1000.0;
const WAYS: f32 = 480.0;

/// Draws it in all the room there is, what leaves it always in sight.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>) {
    let Some(practicing) = scene.practicing else {
        return;
    };
    let words = scene.words();
    let foot = Frame::new().inner_margin(Margin::symmetric(0, 4));
    let foot = Panel::bottom("debrief foot")
        .frame(foot)
        .resizable(false)
        .show_separator_line(false);
    let exercise = practicing.practice.exercise();
    let begin = |exercise: Exercise| Action::Practice(PracticeWish::Again(Box::new(exercise)));
    foot.show(ui, |ui| {
        // On a press that was set down there is no next one.
        let has_next = exercise.profile.is_empty();
        // Whoever broke off has learnt nothing yet.
        let next = has_next && practicing.practice.ending() != Some(Ending::GivenUp);
        let (other, main) = match next {
            true => (words.practice_again(), words.practice_next_exercise()),
            false => (words.practice_next_exercise(), words.practice_again()),
        };
        let foot = Foot {
            leave: Some(words.practice_leave()),
            main: Some((main, true)),
        };
        let answer = foot.show(ui, scene.palette, |ui| {
            if has_next && button(ui, other).clicked() {
                scene.ask(begin(match next {
                    true => exercise.clone(),
                    false => exercise.next(),
                }));
            }
            if button(ui, words.practice_look_back()).clicked() {
                scene.ask(Action::Practice(PracticeWish::LookBack(true)));
            }
        });
        match answer {
            Some(Answer::Leave) => scene.ask(Action::Practice(PracticeWish::Leave)),
            Some(_) if next => scene.ask(begin(exercise.next())),
            Some(_) => scene.ask(begin(exercise.clone())),
            None => {}
        }
    });
    ui.spacing_mut().scroll = theme::lasting_scroll();
    ScrollArea::vertical().auto_shrink(false).show(ui, |ui| {
        // What is only read needs no room for a finger.
        ui.spacing_mut().interact_size.y = 22.0;
        // Room for the scroll bar.
        ui.set_max_width(ui.available_width() - 12.0);
        ui.horizontal_wrapped(|ui| {
            title(ui, words.practice_debrief());
            if let Some(ending) = practicing.practice.ending() {
                ui.label(words.practice_over(words.ending(ending)));
            }
        });
        match &practicing.debrief {
            Some(debrief) => contents(ui, scene, practicing, debrief),
            None => {
                ui.label(words.practice_working_out());
            }
        }
    });
}

fn contents(ui: &mut Ui, scene: &Scene<'_>, practicing: &Practicing, debrief: &Debrief) {
    let words = scene.words();
    let figures = &scene.figures;
    let faults = debrief.faults.iter();
    let faults: Vec<String> = faults
        .map(|(fault, arm)| words.fault_at(*fault, *arm))
        .collect();
    ui.label(
        RichText::new(words.practice_was(faults.join("; "))).font(theme::bold(size::SENTENCE)),
    );
    ui.label(strong(figures.cure_known(&debrief.cure)));
    // Said above already.
    if !matches!(debrief.result, Finish::Unsafe | Finish::GivenUp) {
        ui.label(strong(words.finish(debrief.result)));
    }
    for remark in &debrief.remarks {
        ui.label(RichText::new(figures.remark(*remark)).font(theme::bold(size::BODY)));
    }
    ui.add_space(6.0);
    let width = ui.available_width();
    if ui.ctx().content_rect().width() < BESIDE {
        jaws(ui, scene, debrief);
        ui.separator();
        ways(ui, scene, debrief);
    } else {
        let down = Layout::top_down(Align::Min);
        ui.horizontal_top(|ui| {
            ui.spacing_mut().item_spacing.x = 2.0 * theme::GAP;
            let aside = width - WAYS - 2.0 * theme::GAP;
            ui.allocate_ui_with_layout(Vec2::new(aside, 0.0), down, |ui| {
                ui.set_width(aside);
                jaws(ui, scene, debrief);
            });
            ui.allocate_ui_with_layout(Vec2::new(WAYS, 0.0), down, |ui| {
                ui.set_width(WAYS);
                ways(ui, scene, debrief);
            });
        });
    }
    // How it ended stands above.
    let laced = |did: &Did| matches!(did, Did::Laced { .. });
    let mut decisions = debrief.decisions.iter().filter(|it| laced(&it.did));
    if let Some(first) = decisions.next() {
        ui.separator();
        ui.label(strong(words.practice_decisions()));
        for decision in std::iter::once(first).chain(decisions) {
            ui.label(figures.decision(decision));
        }
    }
    ui.separator();
    ui.label(muted(scene.palette, words.practice_assumed()));
    if let Some(path) = &practicing.path {
        ui.label(muted(scene.palette, words.practice_kept()))
            .hint(path.display().to_string());
    }
}

/// The jaws as found, as left and cured, and what they alone give.
fn jaws(ui: &mut Ui, scene: &Scene<'_>, debrief: &Debrief) {
    let words = scene.words();
    let figures = &scene.figures;
    let unit = words.unit_name(figures.unit);
    ui.label(muted(scene.palette, words.debrief_chart(unit)));
    profile(ui, scene, debrief);
    let spread = |profile: &[f64]| figures.with_unit(&figures.predicted(spread_nm(profile)));
    let (found, left) = (spread(&debrief.found_nm), spread(&debrief.left_nm));
    ui.label(words.practice_jaws(found, left));
}

/// What it took, beside what others would have needed.
fn ways(ui: &mut Ui, scene: &Scene<'_>, debrief: &Debrief) {
    let words = scene.words();
    let figures = &scene.figures;
    let minutes = |minutes: f64| figures.decimal(minutes, 0);
    let passed = matches!(
        debrief.result,
        Finish::JawTrue | Finish::InsideByLuck | Finish::RightlySentAway
    );
    // Whoever ended before such a piece did not fail at it.
    let inside_by = |piece: usize| match passed && debrief.pieces <= piece {
        true => words.debrief_yes().to_owned(),
        false if debrief.pieces < piece => "–".to_owned(),
        false => words.debrief_no().to_owned(),
    };
    let you = [
        words.debrief_you().to_owned(),
        debrief.pieces.to_string(),
        minutes(debrief.minutes),
        inside_by(2),
        inside_by(MOST_PIECES_PLAYED),
    ];
    let chose = debrief.has_choices();
    let again = chose.then_some((words.debrief_again(), debrief.again));
    let best = match debrief.best.sent_away {
        true => words.debrief_best_away(),
        false => words.debrief_best(),
    };
    let others = [
        (best, debrief.best),
        (words.debrief_advised(), debrief.advised),
        (words.debrief_arm_by_arm(), debrief.arm_by_arm),
    ];
    let others = again.into_iter().chain(others);
    let others = others.map(|(name, way): (&str, Way)| {
        let inside = |share| match way.sent_away {
            true => "–".to_owned(),
            false => figures.share(share),
        };
        [
            name.to_owned(),
            figures.decimal(way.pieces, 1),
            minutes(way.minutes),
            inside(way.by_second),
            inside(way.passed),
        ]
    });
    let heads = [
        words.debrief_who().to_owned(),
        words.debrief_pieces().to_owned(),
        words.debrief_minutes().to_owned(),
        words.debrief_inside_by(2),
        words.debrief_inside_by(MOST_PIECES_PLAYED),
    ];
    ui.label(strong(words.debrief_runs(SCATTERS)));
    Grid::new("ways")
        .spacing([12.0, 3.0])
        .min_row_height(22.0)
        .show(ui, |ui| {
            for head in heads {
                ui.label(muted(scene.palette, head));
            }
            ui.end_row();
            for text in you {
                ui.label(strong(text));
            }
            ui.end_row();
            for row in others {
                for text in row {
                    ui.label(text);
                }
                ui.end_row();
            }
        });
    if !chose {
        ui.label(words.debrief_nothing());
    }
}

/// The jaws as found, as left and as they might have been, and the last piece as
/// it was read.
fn profile(ui: &mut Ui, scene: &Scene<'_>, debrief: &Debrief) {
    let words = scene.words();
    let palette = scene.palette;
    // Each about its own mean: the level of a piece says nothing.
    let about = |values: Vec<Option<f64>>| -> Vec<Option<f64>> {
        let known: Vec<f64> = values.iter().flatten().copied().collect();
        let mean = known.iter().sum::<f64>() / known.len().max(1) as f64;
        values
            .into_iter()
            .map(|value| Some(value? - mean))
            .collect()
    };
    let all = |values: &[f64]| about(values.iter().copied().map(Some).collect());
    let places = scene.session.station_positions_nm();
    let jaw_nm = scene.session.press.jaw_length.length().nm_f64();
    let line = |name: &str, means: &[Option<f64>], pen: Pen, shape: MarkerShape| NamedLine {
        name: name.to_owned(),
        pieces: curve(&places, means, jaw_nm).0,
        marks: places
            .iter()
            .zip(means)
            .filter_map(|(x, mean)| Some([*x, (*mean)?]))
            .collect(),
        shape,
        filled: true,
        pen,
        needed: true,
    };
    let found = all(&debrief.found_nm);
    let left = all(&debrief.left_nm);
    let cured = all(&debrief.cure.left_nm);
    let read = about(debrief.read_nm.clone());
    let mut lines = vec![line(
        words.debrief_found(),
        &found,
        Pen::dotted(palette.muted, 2.0),
        MarkerShape::Square,
    )];
    if left != found {
        let pen = Pen::solid(palette.present, 2.6);
        lines.push(line(words.debrief_left(), &left, pen, MarkerShape::Circle));
    }
    if read.iter().any(Option::is_some) {
        let pen = Pen::solid(palette.ink, 1.4);
        lines.push(NamedLine {
            filled: false,
            ..line(words.debrief_read(), &read, pen, MarkerShape::Circle)
        });
    }
    let pen = Pen::dashed(palette.preview, 2.4, 9.0);
    lines.push(line(
        words.debrief_cured(),
        &cured,
        pen,
        MarkerShape::Diamond,
    ));
    let tolerance = scene.session.tolerance.length().nm_f64();
    let shown = [&found, &left, &cured, &read].into_iter().flatten();
    let shown = shown.flatten().copied();
    let half = 0.5 * tolerance;
    let y = range(shown.chain([-half, half]), 0.12, 0.2 * tolerance);
    let arms = scene.session.stations.iter().enumerate();
    let names: Vec<_> = arms
        .zip(&places)
        .map(|((station, _), x)| (*x, scene.session.station_name(station)))
        .collect();
    let (least, most) = PICTURE;
    let high = ui.ctx().content_rect().height();
    let high = match ui.ctx().content_rect().width() < BESIDE {
        true => (high - ELSE.0) / 2.0,
        false => high - ELSE.1,
    };
    let chart = Chart {
        id: "debrief",
        description: words.practice_picture().to_owned(),
        palette,
        figures: scene.figures,
        height: high.clamp(least, most),
        x: (0.0, jaw_nm),
        names: &names,
        names_above: true,
        y: y.unwrap_or((-tolerance, tolerance)),
        wall: None,
        right: NAMES,
    };
    let band = Band::over(&[-half, half], tolerance);
    let limit = scene.figures.limit(scene.session.tolerance.length());
    let band = band.map(|band| (band, limit));
    plot::lines(ui, chart, band, &lines, |_| {});
}
