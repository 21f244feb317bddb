//! The crew's view: the whole screen, a picture and a few words that can be
//! read across a shop, told step by step.

use eframe::egui::WidgetInfo;
use eframe::egui::{self, Color32, Key, Modifiers, RichText, Role, Sense, Ui, Vec2};

use crate::press::{ArmIndex, Notches};
use crate::session::{NextAct, Says};
use crate::window::action::Action;
use crate::window::state::{CrewStep, Preview};
use crate::window::theme;

use crate::window::views::Scene;
use crate::window::views::comparing::profiles::band;
use crate::window::views::picture::jaw_axis::JawAxis;
use crate::window::views::picture::jaws;
use crate::window::views::picture::splice::{self, ArmMark, Shown, Splice};
use crate::window::views::wall;

/// Share of the height that the picture is to have, and the least it keeps
/// where a sentence needs more than its line.
const PICTURE: (f32, f32) = (0.64, 0.5);

/// Room beside the jaw for what stands at its outer arms, in sizes of the font.
const EDGE: f32 = 0.6;

/// Space at the edges and between the parts.
const SPACE: f32 = 10.0;

/// How long the jaws rest as they are before they move, and how long they
/// take, in seconds.
const REST_AND_MOVE: (f64, f64) = (1.0, 3.0);

/// What the view tells of a pass.
struct Story {
    /// Station means, in nanometres.
    before: Vec<Option<f64>>,
    /// The same as they are to be expected after the turns.
    after: Vec<Option<f64>>,
    /// The turns after this pass.
    turns: Vec<Notches>,
    /// Whether the turns are already made.
    made: bool,
    /// Whether it is not known yet what to turn.
    unknown: bool,
}

impl Story {
    fn of(scene: &Scene<'_>) -> Self {
        let pass = scene.outlook.pass;
        let passes = scene.session.passes.len();
        let next = pass.map(|pass| pass + 1).filter(|next| *next < passes);
        let turns = next.map_or_else(|| scene.preview(), |next| scene.session.turns_before(next));
        Self {
            before: scene.outlook.means_nm.clone(),
            after: scene.outlook.means_after(&turns),
            made: next.is_some(),
            unknown: next.is_none()
                && scene.view.preview == Preview::Recommended
                && scene.outlook.recommended_turns().is_none(),
            turns,
        }
    }

    fn turns_any(&self) -> bool {
        self.turns.iter().any(|turn| turn.0 != 0)
    }

    /// The steps there are to tell.
    fn steps(&self, scene: &Scene<'_>) -> Vec<CrewStep> {
        let gate = &scene.outlook.gate;
        let outside = matches!(gate.stands, crate::session::Stands::Outside);
        let clear = gate.is_clear() && scene.next_step().says != Says::TurnsCannotBe;
        let turned = self.turns_any() && !self.unknown && (clear || self.made);
        let foretold = turned && self.after.iter().any(Option::is_some);
        [
            (CrewStep::Stands, true),
            (CrewStep::Wrong, outside),
            (CrewStep::Turns, turned),
            (CrewStep::Expected, foretold),
        ]
        .into_iter()
        .filter_map(|(step, there)| there.then_some(step))
        .collect()
    }
}

/// Draws the view in all the room there is.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>) {
    let story = Story::of(scene);
    let steps = story.steps(scene);
    let asked = scene
        .view
        .crew
        .as_ref()
        .map(|crew| crew.step)
        .unwrap_or_default();
    let step = steps
        .iter()
        .copied()
        .rfind(|step| *step <= asked)
        .unwrap_or_default();
    keys(ui, scene, &steps, step);
    let whole = ui.ctx().content_rect().height();
    let font = wall::font(ui);
    let moved = progress(ui, scene, &story, step);
    ui.spacing_mut().item_spacing = Vec2::new(SPACE, SPACE * 0.4);
    bar(ui, scene, (&steps, step), &story, font);
    let width = ui.available_width();
    let free = ui.available_height() - SPACE;
    let height = |lines: &[(String, Color32)]| -> f32 {
        let laid = lines.iter().map(|(text, ink)| {
            let font = theme::bold(font);
            let galley = ui.painter().layout(text.clone(), font, *ink, width);
            galley.size().y + ui.spacing().item_spacing.y
        });
        laid.sum()
    };
    let tellings = tellings(scene, &story, step);
    let fits = |share: f32| {
        tellings
            .iter()
            .find(|lines| height(lines) <= free - whole * share)
    };
    let Some(lines) = fits(PICTURE.0).or(fits(PICTURE.1)).or(tellings.last()) else {
        return;
    };
    let room = (free - height(lines)).max(0.0);
    if picture(ui, scene, &story, step, moved, (room, font)) {
        go(scene, &steps, step, 1);
    }
    for (text, ink) in lines {
        ui.label(RichText::new(text).font(theme::bold(font)).color(*ink));
    }
}

/// Escape leaves, arrows step through the story, the space bar shows the motion
/// again.
fn keys(ui: &Ui, scene: &mut Scene<'_>, steps: &[CrewStep], step: CrewStep) {
    if scene.view.dialog.is_some() {
        return;
    }
    let pressed = |key| ui.input_mut(|input| input.consume_key(Modifiers::NONE, key));
    if pressed(Key::Escape) {
        scene.ask(Action::Close);
    }
    if pressed(Key::ArrowLeft) || pressed(Key::ArrowUp) || pressed(Key::PageUp) {
        go(scene, steps, step, -1);
    }
    if pressed(Key::ArrowRight) || pressed(Key::ArrowDown) || pressed(Key::PageDown) {
        go(scene, steps, step, 1);
    }
    if pressed(Key::Space) {
        again(scene);
    }
}

/// The step after or before one, in the next pass or the one before where this
/// one has no more.
fn beyond(
    scene: &Scene<'_>,
    steps: &[CrewStep],
    step: CrewStep,
    by: isize,
) -> Option<(usize, CrewStep)> {
    let pass = scene.outlook.pass?;
    let here = steps.iter().position(|at| *at == step)?;
    let next = here.checked_add_signed(by).and_then(|at| steps.get(at));
    if let Some(next) = next {
        return Some((pass, *next));
    }
    let other = pass.checked_add_signed(by)?;
    let there = other < scene.session.passes.len();
    let enters = if by > 0 {
        CrewStep::Stands
    } else {
        CrewStep::Expected
    };
    there.then_some((other, enters))
}

fn go(scene: &mut Scene<'_>, steps: &[CrewStep], step: CrewStep, by: isize) {
    let Some((pass, step)) = beyond(scene, steps, step, by) else {
        return;
    };
    if scene.outlook.pass != Some(pass) {
        scene.ask(Action::ShowPass(Some(pass)));
    }
    if let Some(crew) = &mut scene.view.crew {
        crew.step = step;
    }
}

fn again(scene: &mut Scene<'_>) {
    if let Some(crew) = &mut scene.view.crew {
        crew.shown = None;
    }
}

/// How far the jaws have moved from before to what is expected, 0 to 1. They
/// move once after every arrival and then rest; at once where the desktop wants
/// no motion.
fn progress(ui: &Ui, scene: &mut Scene<'_>, story: &Story, step: CrewStep) -> f64 {
    let still = ui.style().animation_time <= 0.0;
    let now = ui.input(|input| input.time);
    let key = (scene.outlook.pass, story.turns.clone(), step);
    let Some(crew) = &mut scene.view.crew else {
        return 1.0;
    };
    if crew.shown.as_ref() != Some(&key) {
        crew.shown = Some(key);
        crew.since = (step == CrewStep::Expected).then_some(now);
    }
    let Some(since) = crew.since.filter(|_| !still) else {
        return 1.0;
    };
    let (rest, moving) = REST_AND_MOVE;
    let share = ((now - since - rest) / moving).clamp(0.0, 1.0);
    if share >= 1.0 {
        crew.since = None;
    } else {
        ui.ctx().request_repaint();
    }
    // Gently off and gently to rest.
    share * share * (3.0 - 2.0 * share)
}

/// Which pass and step, and the buttons.
fn bar(
    ui: &mut Ui,
    scene: &mut Scene<'_>,
    (steps, step): (&[CrewStep], CrewStep),
    story: &Story,
    font: f32,
) {
    let words = scene.words();
    ui.horizontal(|ui| {
        let there = |scene: &Scene<'_>, by| beyond(scene, steps, step, by).is_some();
        let (back, on) = (there(scene, -1), there(scene, 1));
        if wall::button(ui, font, "◀", words.crew_back(), back) {
            go(scene, steps, step, -1);
        }
        if wall::button(ui, font, "▶", words.crew_on(), on) {
            go(scene, steps, step, 1);
        }
        if let Some(pass) = scene.outlook.pass {
            let said = match (step, story.made) {
                (CrewStep::Stands, _) if pass == 0 => words.crew_as_found(),
                (CrewStep::Stands, _) => words.crew_as_it_came(),
                (CrewStep::Wrong, _) => words.crew_what_is_wrong(),
                (CrewStep::Turns, false) => words.crew_what_we_turn(),
                (CrewStep::Turns, true) => words.crew_what_was_turned(),
                (CrewStep::Expected, _) => words.crew_as_expected(),
            };
            let text = words.crew_pass(pass + 1, said);
            ui.label(RichText::new(text).font(theme::bold(font)));
        }
        ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
            if wall::button(ui, font, "✕", words.crew_leave_view(), true) {
                scene.ask(Action::Close);
            }
            let moves = step == CrewStep::Expected;
            if moves && wall::button(ui, font, "↻", words.crew_again(), true) {
                again(scene);
            }
        });
    });
}

/// Draws the splice as the step has it; answers whether it was clicked.
fn picture(
    ui: &mut Ui,
    scene: &Scene<'_>,
    story: &Story,
    step: CrewStep,
    moved: f64,
    (height, font): (f32, f32),
) -> bool {
    let room = Vec2::new(ui.available_width(), height);
    let (area, response) = ui.allocate_exact_size(room, Sense::click());
    let words = scene.words();
    let figures = scene.figures;
    let next = scene.next_step();
    let sentence = scene.spoken(&next, |of| figures.headline(&next, of));
    let description = words.crew_description(sentence);
    response.widget_info(|| WidgetInfo::labeled(Role::Image, true, &description));
    let expected = step == CrewStep::Expected;
    let (means, shown) = if expected && moved >= 1.0 {
        (story.after.clone(), Shown::Expected)
    } else if expected {
        let pairs = story.before.iter().zip(&story.after);
        let between = pairs.map(|(before, after)| match (before, after) {
            (Some(before), Some(after)) => Some(before + moved * (after - before)),
            (before, _) => *before,
        });
        (between.collect(), Shown::Expected)
    } else {
        (story.before.clone(), Shown::Measured)
    };
    let nuts_turn = matches!(step, CrewStep::Turns | CrewStep::Expected);
    let readings = if expected {
        &story.after
    } else {
        &story.before
    };
    let arms: Vec<ArmMark> = jaws::arms(scene)
        .into_iter()
        .enumerate()
        .map(|(index, arm)| {
            let station = scene
                .session
                .stations
                .iter()
                .position(|station| station.arm() == Some(ArmIndex(index)));
            let mean = station.and_then(|station| *readings.get(station)?);
            let turn = story.turns.get(index).filter(|turn| turn.0 != 0);
            ArmMark {
                reading: mean.map(|nm| (nm, crew_reading(scene, nm))),
                turn: turn
                    .filter(|_| nuts_turn)
                    .map(|turn| (turn.0, figures.turn_short(*turn))),
                ..arm
            }
        })
        .collect();
    let all = story.before.iter().chain(&story.after).flatten().copied();
    let (low, high) = all.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), nm| {
        (low.min(nm), high.max(nm))
    });
    let name = &scene.session.press.name;
    splice::paint(
        &ui.painter_at(area),
        area,
        font * 1.16,
        &Splice {
            palette: scene.palette,
            axis: JawAxis {
                left: area.left() + font * EDGE,
                right: area.right() - font * EDGE,
                length_nm: scene.session.press.jaw_length.length().nm_f64(),
            },
            stations_nm: &scene.outlook.stations_nm,
            means_nm: &means,
            beside_nm: expected.then_some(&story.before[..]),
            band: band(scene, &means),
            // The scale stays from step to step.
            range_nm: (high - low).max(scene.outlook.widest_nm),
            shown,
            arms: &arms,
            marks: Some(theme::bold(font)),
            texts: [&|_| name.clone(), &|factor| {
                if expected {
                    words.crew_gap_before(factor)
                } else {
                    words.crew_gap(factor)
                }
            }],
            font: theme::bold(font),
        },
    );
    response.clicked()
}

/// A mean as it is called out: inches without the zero before the point.
fn crew_reading(scene: &Scene<'_>, nm: f64) -> String {
    let decimals = scene.figures.reading_decimals();
    let text = scene.figures.nm(nm, decimals);
    let bare = text
        .strip_prefix('0')
        .filter(|rest| rest.starts_with(['.', ',']));
    bare.map_or(text.clone(), str::to_owned)
}

/// What is said at a step, from the fullest to the tersest.
fn tellings(scene: &Scene<'_>, story: &Story, step: CrewStep) -> Vec<Vec<(String, Color32)>> {
    let words = scene.words();
    let palette = scene.palette;
    let ink = palette.ink;
    match step {
        CrewStep::Stands => stands(scene, story),
        CrewStep::Wrong => vec![wrong(scene, story)],
        CrewStep::Turns => turning(scene, story),
        CrewStep::Expected => {
            let lines = [
                Some((words.crew_expected().to_owned(), palette.preview)),
                outcome(scene, story).map(|said| (said, ink)),
            ];
            vec![lines.into_iter().flatten().collect()]
        }
    }
}

/// How the piece stands.
fn stands(scene: &Scene<'_>, story: &Story) -> Vec<Vec<(String, Color32)>> {
    let words = scene.words();
    let palette = scene.palette;
    let figures = scene.figures;
    let ink = palette.ink;
    let next = scene.next_step();
    let gate = &scene.outlook.gate;
    let name = |station: usize| scene.session.station_name(station);
    let spread = gate.spread.as_ref();
    let headline = || scene.spoken(&next, |of| figures.headline(&next, of));
    let (sentence, colour) = match next.says {
        Says::NothingLaced => (words.crew_nothing_laced().to_owned(), ink),
        Says::Unread { turned: false } => (words.crew_unread().to_owned(), ink),
        Says::Unread { turned: true } | Says::BeyondNuts => (headline(), ink),
        Says::Doubtful | Says::TurnsCannotBe | Says::OutsideJust => (headline(), palette.caution),
        Says::Missing { outside: false } => {
            let names: Vec<String> = gate.missing.iter().copied().map(name).collect();
            (words.crew_missing(names.join(", ")), ink)
        }
        Says::NothingToCompare => (words.nothing_to_compare().to_owned(), ink),
        Says::TurnsWould => {
            let good = next.act == NextAct::GoAndTurn;
            (headline(), if good { ink } else { palette.caution })
        }
        Says::Passes {
            next_is_poor: false,
        } => (words.crew_true().to_owned(), palette.good),
        Says::Passes { next_is_poor: true } => (words.crew_true_just().to_owned(), ink),
        Says::NotSureEnough => (words.crew_not_sure().to_owned(), ink),
        Says::Missing { outside: true } | Says::Outside => {
            let not_true = spread
                .map(|spread| words.crew_not_true(name(spread.thickest), name(spread.thinnest)));
            (not_true.unwrap_or_default(), palette.preview)
        }
    };
    let first = (sentence, colour);
    let Some(spread) = spread else {
        return vec![vec![first]];
    };
    let tolerance = scene.session.tolerance.length();
    let digits = figures.spread(spread.value, tolerance);
    let spread = (words.crew_spread(digits, figures.limit(tolerance)), ink);
    let leave = (gate.is_clear() && !story.made && !story.unknown && !story.turns_any())
        .then(|| (words.crew_leave().to_owned(), ink));
    match leave {
        Some(leave) => vec![
            vec![first.clone(), spread, leave.clone()],
            vec![first, leave],
        ],
        None => vec![vec![first.clone(), spread], vec![first]],
    }
}

/// Where the splice is crushed and where it is loose, and what that does to a
/// joint: common practice, no source.
fn wrong(scene: &Scene<'_>, story: &Story) -> Vec<(String, Color32)> {
    let words = scene.words();
    let palette = scene.palette;
    let band = band(scene, &story.before);
    let names = |beyond: &dyn Fn(f64) -> bool| -> String {
        let means = story.before.iter().enumerate();
        let there = means.filter(|(_, mean)| mean.is_some_and(beyond));
        let names = there.map(|(station, _)| scene.session.station_name(station));
        names.collect::<Vec<_>>().join(", ")
    };
    let Some(band) = band else {
        return Vec::new();
    };
    let thin = names(&|nm| !band.holds(nm) && nm < band.low_nm);
    let thick = names(&|nm| !band.holds(nm) && nm > band.high_nm);
    let (place, harm) = match (thin.is_empty(), thick.is_empty()) {
        (false, false) => (
            words.crew_crushed_and_loose(thin, thick),
            words.crew_harm_both(),
        ),
        (false, true) => (words.crew_crushed(thin), words.crew_harm_crushed()),
        (true, _) => (words.crew_loose(thick), words.crew_harm_loose()),
    };
    vec![(place, palette.preview), (harm.to_owned(), palette.ink)]
}

/// What is turned; made safe comes before.
fn turning(scene: &Scene<'_>, story: &Story) -> Vec<Vec<(String, Color32)>> {
    let words = scene.words();
    let ink = scene.palette.ink;
    let turns = scene.figures.turns(&story.turns);
    let nuts = story.turns.iter().filter(|turn| turn.0 != 0).count();
    let why = (words.crew_neighbors().to_owned(), ink);
    if scene.next_step().act == NextAct::PutBack && !story.made {
        // Turns that would do harm are shown, never told to be made.
        let only_tried = (words.crew_only_tried(turns), scene.palette.caution);
        return vec![vec![only_tried]];
    }
    let said = if story.made {
        [words.crew_turned(turns), words.crew_turned_drawn(nuts)]
    } else {
        [words.crew_turn(turns), words.crew_turn_drawn(nuts)]
    };
    let [full, drawn] = said.map(|said| (said, ink));
    vec![
        vec![full, why.clone()],
        vec![drawn.clone(), why],
        vec![drawn],
    ]
}

/// What the turns should bring.
fn outcome(scene: &Scene<'_>, story: &Story) -> Option<String> {
    let forecast = scene.outlook.forecast(&story.turns);
    let spread_nm = forecast.map(|forecast| forecast.median_nm)?;
    let digits = scene.figures.predicted(spread_nm);
    Some(
        scene
            .words()
            .crew_should_come(scene.figures.with_unit(&digits)),
    )
}
