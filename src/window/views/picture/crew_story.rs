//! What the crew's view tells of a pass, step by step, in few words.

use eframe::egui::Color32;

use crate::plan::POOR;
use crate::press::Notches;
use crate::session::{NextAct, Says, Stage, Stands};
use crate::splice::Band;
use crate::window::state::{CrewStep, Preview};

use crate::window::views::Scene;
use crate::window::views::picture::chart;
use crate::words::in_ten;

/// What the view tells of a pass.
pub struct Story {
    /// Station means, in nanometres.
    pub before: Vec<Option<f64>>,
    /// Those of the first piece, where this one passes after turns.
    pub found: Vec<Option<f64>>,
    /// The same as they are to be expected after the turns.
    pub after: Vec<Option<f64>>,
    /// Between what thicknesses nine in ten pieces then come out.
    pub likely: Option<[Vec<Option<f64>>; 2]>,
    /// The turns after this pass.
    pub turns: Vec<Notches>,
    /// The tolerance band over what was measured, and over what is expected.
    pub band: Option<Band>,
    pub band_after: Option<Band>,
    /// Whether the turns are already made.
    pub made: bool,
    /// Whether it is not known yet what to turn.
    pub unknown: bool,
}

impl Story {
    pub fn of(scene: &Scene<'_>) -> Self {
        let pass = scene.outlook.pass;
        let passes = scene.session.passes.len();
        let next = pass.map(|pass| pass + 1).filter(|next| *next < passes);
        let turns = next.map_or_else(|| scene.foreseen(), |next| scene.session.turns_before(next));
        let before = scene.outlook.means_nm.clone();
        let after = scene.outlook.means_after(&turns);
        let [band, band_after] = scene.session.bands_over(&before, &after);
        let likely = scene.outlook.predicted_sd_nm(&turns).map(|sd_nm| {
            [-chart::NINE_IN_TEN, chart::NINE_IN_TEN].map(|side| {
                let moved = after.iter().zip(&sd_nm);
                moved
                    .map(|(mean, sd)| mean.map(|mean| mean + side * sd))
                    .collect()
            })
        });
        Self {
            band,
            band_after,
            likely,
            found: chart::found(scene),
            before,
            after,
            made: next.is_some(),
            unknown: next.is_none()
                && scene.view.preview == Preview::Recommended
                && scene.outlook.recommended_turns().is_none(),
            turns,
        }
    }

    /// How far apart the pieces are that its pictures draw, in nanometres; below
    /// nothing where there are none.
    pub fn range_nm(&self) -> f64 {
        let all = self.before.iter().chain(&self.after).flatten().copied();
        let (low, high) = all.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), nm| {
            (low.min(nm), high.max(nm))
        });
        high - low
    }

    pub fn turns_any(&self) -> bool {
        self.turns.iter().any(|turn| turn.0 != 0)
    }

    /// The steps there are to tell.
    pub fn steps(&self, scene: &Scene<'_>) -> Vec<CrewStep> {
        let gate = &scene.outlook.gate;
        let outside = matches!(gate.stands, Stands::Outside);
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

/// What is said at a step, from the fullest to the tersest.
pub fn tellings(scene: &Scene<'_>, story: &Story, step: CrewStep) -> Vec<Vec<(String, Color32)>> {
    match step {
        CrewStep::Stands => stands(scene, story),
        CrewStep::Wrong => vec![wrong(scene, story)],
        CrewStep::Turns => turning(scene, story),
        CrewStep::Expected => vec![expected(scene, story)],
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
        // As the main button has it.
        Says::NothingLaced if scene.session.current_stage() == Some(Stage::MakeSafe) => {
            (words.crew_safe_then_lace().to_owned(), palette.caution)
        }
        Says::NothingLaced => (words.crew_nothing_laced().to_owned(), ink),
        Says::Unread { turned: false } => (words.crew_unread().to_owned(), ink),
        Says::Unread { turned: true } | Says::BeyondNuts => (headline(), ink),
        Says::NutsLost | Says::Doubtful | Says::TurnsCannotBe | Says::OutsideJust => {
            (headline(), palette.caution)
        }
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
        } => (headline(), palette.good),
        Says::Passes { next_is_poor: true } => (words.crew_true_just().to_owned(), ink),
        Says::NotSureEnough => (words.crew_not_sure().to_owned(), ink),
        Says::Missing { outside: true } | Says::Outside => {
            let (thin, thick) = story
                .band
                .map_or_else(Default::default, |band| beyond(scene, story, band));
            let said = match (thin.is_empty(), thick.is_empty()) {
                (false, false) => words.crew_uneven(thin, thick),
                (false, true) => words.crew_pinched(thin),
                (true, _) => words.crew_too_open(thick),
            };
            (said, palette.outside)
        }
    };
    let first = (sentence, colour);
    let Some(spread) = spread else {
        return vec![vec![first]];
    };
    let tolerance = scene.session.tolerance.length();
    let digits = figures.spread(spread, tolerance);
    let limit = figures.limit(tolerance);
    if let Says::Passes {
        next_is_poor: false,
    } = next.says
    {
        let pins_in =
            (!story.made && !story.turns_any()).then(|| (words.crew_pins_in().to_owned(), ink));
        let found = scene
            .session
            .spread_of(0)
            .filter(|_| !story.found.is_empty());
        let from = found.map(|found| {
            let found = figures.spread(&found, tolerance);
            words.crew_true_from(found, &digits, &limit)
        });
        let first = from.into_iter().chain([words.crew_true(&digits, &limit)]);
        let line = |said| [(said, palette.good)].into_iter().chain(pins_in.clone());
        return first.map(|said| line(said).collect()).collect();
    }
    let spread = (words.crew_spread(digits, limit), ink);
    let leave = (gate.is_clear() && !story.made && !story.unknown && !story.turns_any()).then(
        || match next.says {
            Says::Passes { .. } => (words.crew_pins_in().to_owned(), ink),
            _ => (words.crew_leave().to_owned(), ink),
        },
    );
    match leave {
        Some(leave) => vec![
            vec![first.clone(), spread, leave.clone()],
            vec![first, leave],
        ],
        None => vec![vec![first.clone(), spread], vec![first]],
    }
}

/// Where the splice is too thin and where too thick, and what that does to a
/// joint: common practice, no source.
fn wrong(scene: &Scene<'_>, story: &Story) -> Vec<(String, Color32)> {
    let words = scene.words();
    let palette = scene.palette;
    let Some(band) = story.band else {
        return Vec::new();
    };
    let (thin, thick) = beyond(scene, story, band);
    let (place, harm) = match (thin.is_empty(), thick.is_empty()) {
        (false, false) => (
            words.crew_thin_and_thick(thin, thick),
            words.crew_harm_both(),
        ),
        (false, true) => (words.crew_thin(thin), words.crew_harm_crushed()),
        (true, _) => (words.crew_thick(thick), words.crew_harm_loose()),
    };
    vec![(place, palette.outside), (harm.to_owned(), palette.ink)]
}

/// The arms that are thinner and those that are thicker than the band, as they
/// are drawn outside it.
fn beyond(scene: &Scene<'_>, story: &Story, band: Band) -> (String, String) {
    let names = |side: &dyn Fn(f64) -> bool| -> String {
        let means = story.before.iter().enumerate();
        let outside = |nm: f64| !band.holds(nm) && side(nm);
        let there = means.filter(|(_, mean)| mean.is_some_and(outside));
        let names = there.map(|(station, _)| scene.session.station_name(station));
        names.collect::<Vec<_>>().join(", ")
    };
    (
        names(&|nm| nm < band.low_nm),
        names(&|nm| nm > band.high_nm),
    )
}

/// What is turned; made safe is told before it.
fn turning(scene: &Scene<'_>, story: &Story) -> Vec<Vec<(String, Color32)>> {
    let words = scene.words();
    let ink = scene.palette.ink;
    let turns = scene.figures.turns(&story.turns);
    let why = (words.crew_neighbors().to_owned(), ink);
    if scene.next_step().act == NextAct::PutBack && !story.made {
        // Turns that would do harm are shown, never told to be made.
        let only_tried = (words.crew_only_tried(turns), scene.palette.caution);
        return vec![vec![only_tried]];
    }
    if story.made {
        let full = (words.crew_turned(turns), ink);
        let drawn = (words.crew_turned_drawn().to_owned(), ink);
        return vec![
            vec![full, why.clone()],
            vec![drawn.clone(), why],
            vec![drawn],
        ];
    }
    let ways = scene.figures.ways_short(&scene.session.press, &story.turns);
    let facing = match ways.is_empty() {
        true => words.thread_unseen().to_owned(),
        false => words.crew_facing(ways),
    };
    let facing = (facing, ink);
    // What is doubtful comes before any turn, on a wall too.
    let tellings = match scene.turn_doubt() {
        Some(doubt) => {
            let [first, _] = scene.figures.before_turns(scene.session, &doubt);
            let full = words.crew_first_then(&first, turns);
            [full, words.crew_first(first)]
        }
        None => [words.crew_turn(turns), words.crew_turn_drawn().to_owned()],
    };
    let told = |said| vec![(said, ink), facing.clone()];
    tellings.map(told).into()
}

/// The spread of the piece that is expected, with what pieces vary, and how likely
/// it will do.
fn expected(scene: &Scene<'_>, story: &Story) -> Vec<(String, Color32)> {
    let words = scene.words();
    let palette = scene.palette;
    let Some(forecast) = scene.outlook.forecast(&story.turns) else {
        return vec![
            (words.crew_expected().to_owned(), palette.preview),
            (words.crew_neighbors().to_owned(), palette.ink),
        ];
    };
    let figures = scene.figures;
    let spread = figures.predicted(forecast.median_nm);
    let limit = figures.limit(scene.session.tolerance.length());
    let first = match forecast.chance < POOR {
        true => (words.crew_another().to_owned(), palette.caution),
        false => {
            let said = words.crew_chance(in_ten(forecast.chance));
            (said, palette.preview)
        }
    };
    vec![first, (words.crew_one_piece(spread, limit), palette.ink)]
}
