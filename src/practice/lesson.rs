//! Lessons: steps worked out on a press, for whoever trains others. What each
//! step says stands in the words room; here are its figures.

use crate::plan::Noise;
use crate::press::ArmIndex;
use crate::press::beam::BeamError;
use crate::session::Session;
use crate::stats::mean_even_range;
use crate::units::Unit;

use super::gauge_lesson::{GaugeStep, gauge_steps};
use super::notch_lesson::{NotchStep, notch_steps};
use super::shown_press::{FARTHEST, PressState, Retainer, ShownPress};

/// Which lesson.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum LessonTopic {
    /// What a nut does that is run in too far, or out.
    #[default]
    OverTightening,
    /// Why bringing every arm up to the thickest can fail.
    WholeNotches,
    /// Reading the gauge.
    ReadingTheGauge,
}

impl LessonTopic {
    /// All lessons, in the order in which they are given.
    pub const ALL: [Self; 3] = [
        Self::ReadingTheGauge,
        Self::OverTightening,
        Self::WholeNotches,
    ];

    /// About how long it takes, in minutes: half of one a step (assumed, no
    /// source).
    pub const fn minutes(self) -> u32 {
        match self {
            Self::OverTightening | Self::ReadingTheGauge => 6,
            Self::WholeNotches => 3,
        }
    }
}

/// A lesson on a press.
#[derive(Debug, Clone)]
pub struct Lesson {
    /// What it is about.
    pub topic: LessonTopic,
    /// The press it is shown on.
    pub shown: ShownPress,
    /// Whether that is another than the one that is open, which shows nothing of
    /// it.
    pub other_press: bool,
    /// Its steps.
    pub steps: Vec<LessonStep>,
}

/// One step.
#[derive(Debug, Clone, PartialEq)]
pub struct LessonStep {
    /// Where the nuts stand.
    pub nuts: Vec<i32>,
    /// What is said, with its figures.
    pub says: Says,
    /// Nuts of the profile that is drawn beside it, to compare.
    pub before: Option<Vec<i32>>,
    /// Arms that are spoken of; all where none is.
    pub arms: Vec<ArmIndex>,
    /// What is marked at arms: how much thicker the splice is there than what
    /// it is compared with, in nanometres.
    pub marks_nm: Vec<(ArmIndex, f64)>,
}

impl LessonStep {
    pub(super) fn new(nuts: Vec<i32>, says: Says) -> Self {
        Self {
            nuts,
            says,
            before: None,
            arms: Vec::new(),
            marks_nm: Vec::new(),
        }
    }
}

/// What a step says.
#[derive(Debug, Clone, PartialEq)]
pub enum Says {
    /// Of the lesson on over-tightening.
    Tight(TightStep),
    /// Of the lesson on whole notches.
    Notch(NotchStep),
    /// Of the lesson on the gauge.
    Gauge(GaugeStep),
}

/// A step of the lesson on over-tightening. Lengths in nanometres, notches as
/// counts; `arm` is the one whose nut is turned.
#[derive(Debug, Clone, PartialEq)]
pub enum TightStep {
    /// A true press.
    True,
    /// One notch in: the splice is crushed there.
    Crushed {
        /// How much thinner it is at the arm.
        thinner_nm: f64,
    },
    /// The neighbours are drawn along.
    Neighbours {
        /// Notches in.
        notches: i32,
        /// The neighbour drawn along most.
        neighbour: ArmIndex,
        /// How much thinner the splice is there.
        thinner_nm: f64,
        /// That as a share of what the turned arm lost.
        share: f64,
    },
    /// The far end rises, where it does.
    FarEnd {
        /// Notches in.
        notches: i32,
        /// The arm that rises most, or falls least.
        arm: ArmIndex,
        /// How much thicker the splice is there; negative where it is not.
        thicker_nm: f64,
    },
    /// The piece leaves the tolerance.
    OutOfTolerance {
        /// Notches in.
        notches: i32,
        /// The spread.
        spread_nm: f64,
    },
    /// The rod takes more and more of the load, others go slack.
    RodLoads {
        /// Notches in.
        notches: i32,
        /// Share of the squeeze on the true press.
        before: f64,
        /// And now.
        after: f64,
        /// Rods that carry nothing now.
        slack: Vec<ArmIndex>,
    },
    /// The opening shrinks and the retainer drags.
    Drags {
        /// Notches in.
        notches: i32,
        /// Opening left at the arm.
        left_nm: f64,
    },
    /// The retainer sticks, the hooks have cut into the belt.
    Sticks {
        /// Notches in.
        notches: i32,
        /// How much thinner the splice is there.
        thinner_nm: f64,
    },
    /// Turning the neighbours out does not mend it.
    NotMended {
        /// The best that turning only the others reaches.
        spread_nm: f64,
        /// Whether the retainer still sticks at the arm.
        sticks: bool,
        /// Whether that spread is inside the tolerance.
        inside: bool,
    },
    /// The way back, counted in notches.
    WayBack {
        /// Notches to go out again.
        notches: i32,
        /// How far pieces of a true press scatter in their spread, on average.
        scatter_nm: f64,
    },
    /// The other side: backed out until its rod is slack.
    TooFarOut {
        /// Notches out.
        notches: i32,
        /// How much thicker the splice is there.
        thicker_nm: f64,
        /// From how many notches its rod is slack; none where it is not by
        /// then.
        slack_from: Option<i32>,
    },
    /// The rule to take home.
    Rule,
}

impl Lesson {
    /// A lesson on the press of a session, taken as true as it stands, told in a
    /// unit.
    ///
    /// # Errors
    /// What the beam refused.
    pub fn new(topic: LessonTopic, session: &Session, unit: Unit) -> Result<Self, BeamError> {
        let shown = ShownPress::new(session);
        let (shown, steps, other_press) = match topic {
            LessonTopic::OverTightening => {
                let steps = tight_steps(&shown)?;
                (shown, steps, false)
            }
            LessonTopic::WholeNotches => notch_steps(shown)?,
            LessonTopic::ReadingTheGauge => {
                let step = |says| LessonStep::new(vec![0; shown.arms()], Says::Gauge(says));
                let steps = gauge_steps(&shown, unit).into_iter().map(step).collect();
                (shown, steps, false)
            }
        };
        Ok(Self {
            topic,
            shown,
            other_press,
            steps,
        })
    }
}

/// The arm that is turned: B.
pub const TURNED: ArmIndex = ArmIndex(1);

fn tight_steps(shown: &ShownPress) -> Result<Vec<LessonStep>, BeamError> {
    let arm = TURNED;
    let at = |state: &PressState, arm: ArmIndex| state.splice_nm.get(arm.0).copied();
    let found = shown.stands(&[])?;
    let inward = |notches: i32| shown.stands(&shown.only(arm, -notches));
    let own = |state: &PressState| -at(state, arm).unwrap_or_default();

    let first = |holds: &dyn Fn(&PressState) -> bool| -> Result<i32, BeamError> {
        Ok(shown.first(arm, -1, holds)?.unwrap_or(FARTHEST))
    };
    let tolerance = shown.tolerance_nm();
    let leaves = first(&|state| state.spread_nm() > tolerance)?;
    let goes_slack = first(&|state| !state.slack.is_empty())?;
    let drags = first(&|state| state.retainer.get(arm.0) >= Some(&Retainer::Drags))?;
    let sticks = first(&|state| state.retainer.get(arm.0) == Some(&Retainer::Sticks))?;

    let mut steps = Vec::new();
    let mut step = |nuts: Vec<i32>, says: TightStep, arms: &[ArmIndex]| {
        let before = match &says {
            TightStep::True | TightStep::Rule => None,
            TightStep::NotMended { .. } => nuts.get(arm.0).map(|nut| shown.only(arm, *nut)),
            TightStep::WayBack { notches, .. } => Some(shown.only(arm, -notches)),
            _ => Some(shown.only(arm, 0)),
        };
        let splice = |nuts: &Vec<i32>| Some(shown.stands(nuts).ok()?.splice_nm);
        let change = |arm: ArmIndex| {
            let [now, before] = [splice(&nuts)?, splice(before.as_ref()?)?];
            Some((arm, now.get(arm.0)? - before.get(arm.0)?))
        };
        let arms_marked = match &says {
            // What is marked there is the spread; of rods it is the load.
            TightStep::OutOfTolerance { .. } | TightStep::RodLoads { .. } => &[],
            _ => arms,
        };
        let mut marks_nm: Vec<_> = arms_marked.iter().filter_map(|arm| change(*arm)).collect();
        if let (TightStep::OutOfTolerance { spread_nm, .. }, Some(thinnest)) = (&says, arms.first())
        {
            marks_nm.push((*thinnest, -spread_nm));
        }
        steps.push(LessonStep {
            marks_nm,
            arms: arms.to_vec(),
            before,
            ..LessonStep::new(nuts, Says::Tight(says))
        });
    };
    step(shown.only(arm, 0), TightStep::True, &[]);
    let thinner_nm = own(&inward(1)?);
    let crushed = TightStep::Crushed { thinner_nm };
    step(shown.only(arm, -1), crushed, &[arm]);
    let two = inward(2)?;
    let neighbours = [arm.0.checked_sub(1), Some(arm.0 + 1)]
        .into_iter()
        .flatten();
    let drawn = neighbours
        .filter_map(|index| Some((ArmIndex(index), -at(&two, ArmIndex(index))?)))
        .reduce(|most, next| if next.1 > most.1 { next } else { most });
    if let Some((neighbour, thinner_nm)) = drawn {
        step(
            shown.only(arm, -2),
            TightStep::Neighbours {
                notches: 2,
                neighbour,
                thinner_nm,
                share: thinner_nm / own(&two),
            },
            &[neighbour],
        );
    }
    let rises = (0..)
        .map(ArmIndex)
        .zip(two.splice_nm.iter().copied())
        .reduce(|most, next| if next.1 > most.1 { next } else { most });
    if let Some((far, thicker_nm)) = rises {
        step(
            shown.only(arm, -2),
            TightStep::FarEnd {
                notches: 2,
                arm: far,
                thicker_nm,
            },
            &[far],
        );
    }
    let outside = inward(leaves)?;
    let spread_nm = outside.spread_nm();
    let lowest = (0..).map(ArmIndex).zip(&outside.splice_nm);
    let lowest = lowest.reduce(|least, next| if next.1 < least.1 { next } else { least });
    let thinnest = lowest.map_or(arm, |(thinnest, _)| thinnest);
    step(
        shown.only(arm, -leaves),
        TightStep::OutOfTolerance {
            notches: leaves,
            spread_nm,
        },
        &[thinnest],
    );
    // What comes first is shown first.
    let loaded = inward(goes_slack)?;
    let share = |state: &PressState| state.rod_shares.get(arm.0).copied().unwrap_or_default();
    let rods = (
        goes_slack,
        TightStep::RodLoads {
            notches: goes_slack,
            before: share(&found),
            after: share(&loaded),
            slack: loaded.slack.clone(),
        },
    );
    let left_nm = inward(drags)?.opening_nm.get(arm.0).copied();
    let dragging = (
        drags,
        TightStep::Drags {
            notches: drags,
            left_nm: left_nm.unwrap_or_default(),
        },
    );
    let sticking = (
        sticks,
        TightStep::Sticks {
            notches: sticks,
            thinner_nm: own(&inward(sticks)?),
        },
    );
    let mut later = [rods, dragging, sticking];
    later.sort_by_key(|(notches, _)| *notches);
    for (notches, says) in later {
        let mut arms = vec![arm];
        if let TightStep::RodLoads { slack, .. } = &says {
            arms.extend(slack);
        }
        step(shown.only(arm, -notches), says, &arms);
    }
    let worst = goes_slack.max(sticks);
    let (nuts, mended) = by_the_others(shown, arm, worst)?;
    step(
        nuts,
        TightStep::NotMended {
            spread_nm: mended.spread_nm(),
            sticks: mended.retainer.get(arm.0) == Some(&Retainer::Sticks),
            inside: mended.spread_nm() <= tolerance,
        },
        &[],
    );
    // Pieces of a true press scatter all the same: the mean range of so many
    // lacings.
    let arms = u16::try_from(shown.arms()).unwrap_or(u16::MAX);
    let scatter_nm = Noise::assumed(0.0).lacing_nm * mean_even_range(arms);
    step(
        shown.only(arm, 0),
        TightStep::WayBack {
            notches: worst,
            scatter_nm,
        },
        &[arm],
    );
    let slack_from = shown.first(arm, 1, |state| state.slack.contains(&arm))?;
    let out = slack_from.map_or(FARTHEST, |from| (from + 2).min(FARTHEST));
    let thicker_nm = at(&shown.stands(&shown.only(arm, out))?, arm).unwrap_or_default();
    step(
        shown.only(arm, out),
        TightStep::TooFarOut {
            notches: out,
            thicker_nm,
            slack_from,
        },
        &[arm],
    );
    step(shown.only(arm, 0), TightStep::Rule, &[]);
    Ok(steps)
}

/// The best that turning only the other nuts out does, with one so many notches
/// in: all alike, or the neighbours alone.
fn by_the_others(
    shown: &ShownPress,
    arm: ArmIndex,
    notches: i32,
) -> Result<(Vec<i32>, PressState), BeamError> {
    let mut best: Option<(Vec<i32>, PressState)> = None;
    for out in 1..=FARTHEST {
        let mut nuts = shown.only(arm, -notches);
        for (index, nut) in nuts.iter_mut().enumerate() {
            if index.abs_diff(arm.0) == 1 {
                *nut = out;
            }
        }
        let state = shown.stands(&nuts)?;
        let better = best
            .as_ref()
            .is_none_or(|(_, best)| state.spread_nm() < best.spread_nm());
        if better {
            best = Some((nuts, state));
        }
    }
    match best {
        Some(best) => Ok(best),
        None => Ok((shown.only(arm, -notches), shown.stands(&[])?)),
    }
}
