//! Ways of working played over many scatters: the trainee's own choices again,
//! arm by arm, and with the press known.

use crate::plan::{Effort, SearchWorkspace, TurnBounds};
use crate::press::MOST_NOTCHES_PER_RELACE;

use super::exercise::{Exercise, ExerciseProblem};
use super::fault::Cure;
use super::hidden::{Hidden, Luck};
use super::reading::Manner;
use super::simulated::spread_nm;
use super::work::{Piece, READINGS_IN_A_PIECE, STUCK_MINUTES};

/// Over how many scatters choices are replayed.
pub const SCATTERS: u64 = 100;
/// Most pieces of a way that does not get there.
pub const MOST_PIECES_PLAYED: usize = 6;
/// What floating point may add to whole gauge steps, in nanometres.
const ROUNDING_NM: f64 = 0.5;

/// What a way of working takes, on average over [`SCATTERS`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Way {
    /// Pieces, the one as found included.
    pub pieces: f64,
    /// Minutes.
    pub minutes: f64,
    /// Share that needed two pieces at most: inside after one re-lace.
    pub by_second: f64,
    /// Share that got a piece inside within [`MOST_PIECES_PLAYED`].
    pub passed: f64,
    /// Whether the jaw is sent away at once, which counts as passed.
    pub sent_away: bool,
}

/// Sums up games.
#[derive(Debug, Default)]
pub(super) struct Games {
    pieces: usize,
    minutes: f64,
    by_second: usize,
    passed: usize,
    played: usize,
}

impl Games {
    pub fn add(&mut self, pieces: usize, minutes: f64, passed: bool) {
        self.pieces += pieces;
        self.minutes += minutes;
        self.by_second += usize::from(passed && pieces <= 2);
        self.passed += usize::from(passed);
        self.played += 1;
    }

    pub fn way(&self) -> Way {
        let played = self.played.max(1) as f64;
        Way {
            pieces: self.pieces as f64 / played,
            minutes: self.minutes / played,
            by_second: self.by_second as f64 / played,
            passed: self.passed as f64 / played,
            sent_away: false,
        }
    }
}

/// What is played for.
#[derive(Debug, Clone, Copy)]
pub(super) struct Goal {
    /// Largest spread allowed, in nanometres.
    pub tolerance_nm: f64,
    /// What the work costs.
    pub effort: Effort,
}

impl Goal {
    pub fn is_met(&self, means_nm: &[f64]) -> bool {
        spread_nm(means_nm) <= self.tolerance_nm + ROUNDING_NM
    }
}

fn lucks(exercise: &Exercise) -> impl Iterator<Item = Luck> + use<> {
    let exercise = exercise.number;
    (1..=SCATTERS).map(move |number| Luck { exercise, number })
}

/// Station means of a piece read carefully.
fn read_nm(hidden: &Hidden, true_nm: &[f64], luck: Luck, piece: usize) -> Vec<f64> {
    let manner = Manner {
        on_mark: true,
        zeroed: true,
        before: 0,
    };
    let mean = |station: usize| {
        let shown = (0..READINGS_IN_A_PIECE)
            .map(|reading| hidden.shown_nm(true_nm, luck, [piece, station, reading], manner));
        shown.sum::<f64>() / READINGS_IN_A_PIECE as f64
    };
    (0..true_nm.len()).map(mean).collect()
}

/// Station means of a piece read as the trainee read one: as often, as
/// carefully, station by station; `None` where a station was not read.
fn read_alike(
    hidden: &Hidden,
    like: &Piece,
    true_nm: &[f64],
    luck: Luck,
    piece: usize,
) -> Option<Vec<f64>> {
    let stations = like.readings.len();
    let rows = like.readings.iter().enumerate();
    rows.map(|(station, row)| {
        let shown = row.iter().enumerate().map(|(reading, taken)| {
            let manner = Manner {
                on_mark: taken.on_mark,
                zeroed: taken.zeroed,
                before: reading * stations + station,
            };
            hidden.shown_nm(true_nm, luck, [piece, station, reading], manner)
        });
        (!row.is_empty()).then(|| shown.sum::<f64>() / row.len() as f64)
    })
    .collect()
}

/// In which share of the scatters a piece laced like this one, and read like
/// it, would have come out inside; none where it was not read everywhere.
pub(super) fn share_inside(
    exercise: &Exercise,
    piece: &Piece,
    number: usize,
    goal: Goal,
) -> Result<Option<f64>, ExerciseProblem> {
    let hidden = Hidden::of(exercise, &piece.cured)?;
    let mut inside = 0_usize;
    for luck in lucks(exercise) {
        let true_nm = hidden.lace(&piece.mean_nm, luck, number);
        let Some(means) = read_alike(&hidden, piece, &true_nm, luck, number) else {
            return Ok(None);
        };
        inside += usize::from(goal.is_met(&means));
    }
    Ok(Some(inside as f64 / SCATTERS as f64))
}

/// In which share of the scatters the next piece would be inside after turns,
/// read carefully.
pub(super) fn share_after(
    exercise: &Exercise,
    hidden: &Hidden,
    nuts: &[i32],
    flipped: bool,
    number: usize,
    goal: Goal,
) -> f64 {
    let mean_nm = hidden.piece_nm(nuts, flipped);
    let inside = lucks(exercise).filter(|luck| {
        let true_nm = hidden.lace(&mean_nm, *luck, number);
        goal.is_met(&read_nm(hidden, &true_nm, *luck, number))
    });
    inside.count() as f64 / SCATTERS as f64
}

/// The trainee's own pieces again: the same nuts, the same readings, until one
/// is inside or they are all laced.
pub(super) fn again(
    exercise: &Exercise,
    pieces: &[Piece],
    goal: Goal,
) -> Result<Way, ExerciseProblem> {
    let presses: Result<Vec<Hidden>, _> = pieces
        .iter()
        .map(|piece| Hidden::of(exercise, &piece.cured))
        .collect();
    let presses = presses?;
    let mut games = Games::default();
    for luck in lucks(exercise) {
        let mut minutes = 0.0;
        let mut laced = 0;
        let mut passed = false;
        let mut before: Option<&Piece> = None;
        for (number, (piece, hidden)) in pieces.iter().zip(&presses).enumerate() {
            laced += 1;
            minutes += goal.effort.piece.value();
            minutes += if piece.stuck { STUCK_MINUTES } else { 0.0 };
            if let Some(before) = before {
                let turns = piece.nuts.iter().zip(&before.nuts);
                let turns: Vec<i32> = turns.map(|(now, then)| now - then).collect();
                minutes += goal.effort.of_turns(&turns);
                let new = piece
                    .cured
                    .iter()
                    .filter(|cure| !before.cured.contains(cure));
                minutes += new.map(|cure| cure.minutes()).sum::<f64>();
            }
            let true_nm = hidden.lace(&piece.mean_nm, luck, number);
            let read = read_alike(hidden, piece, &true_nm, luck, number);
            passed = read.is_some_and(|means| goal.is_met(&means));
            if passed {
                break;
            }
            before = Some(piece);
        }
        games.add(laced, minutes, passed);
    }
    Ok(games.way())
}

/// Turns that bring every arm up to the thickest, in whole notches of the
/// notch effect, by readings at the arms.
pub fn arm_by_arm(at_arms_nm: &[f64], notch_nm: f64) -> Vec<i32> {
    let top = at_arms_nm.iter().copied().fold(f64::MIN, f64::max);
    let up = at_arms_nm.iter().map(|thick| (top - thick) / notch_nm);
    up.map(|notches| notches.round() as i32).collect()
}

/// Plays a way of turning over all scatters: `turns` sees nuts and station
/// means of a piece that is not inside.
fn play(
    exercise: &Exercise,
    hidden: &Hidden,
    before_nm: Option<&Hidden>,
    seeing_to: f64,
    goal: Goal,
    mut turns: impl FnMut(&[i32], &[f64]) -> Vec<i32>,
) -> Way {
    let mut known: Vec<(Vec<i32>, Vec<f64>)> = Vec::new();
    let mut games = Games::default();
    for luck in lucks(exercise) {
        let mut nuts = vec![0; exercise.arms];
        let mut minutes = 0.0;
        for number in 0..MOST_PIECES_PLAYED {
            // As found, nothing has been seen to.
            let here = before_nm.filter(|_| number == 0).unwrap_or(hidden);
            let mean_nm = match known.iter().find(|(at, _)| *at == nuts && number > 0) {
                Some((_, mean)) => mean.clone(),
                None => {
                    let mean = here.piece_nm(&nuts, false);
                    if number > 0 {
                        known.push((nuts.clone(), mean.clone()));
                    }
                    mean
                }
            };
            minutes += goal.effort.piece.value();
            if here.opening_left_nm(&nuts).iter().any(|left| *left < 0.0) {
                minutes += STUCK_MINUTES;
            }
            let true_nm = here.lace(&mean_nm, luck, number);
            let means = read_nm(here, &true_nm, luck, number);
            let passed = goal.is_met(&means);
            if passed || number + 1 == MOST_PIECES_PLAYED {
                games.add(number + 1, minutes, passed);
                break;
            }
            minutes += if number == 0 { seeing_to } else { 0.0 };
            let chosen = turns(&nuts, &means);
            minutes += goal.effort.of_turns(&chosen);
            nuts.iter_mut().zip(&chosen).for_each(|(nut, k)| *nut += k);
            nuts = here.within(&nuts);
        }
    }
    games.way()
}

/// How arm by arm would have done.
pub(super) fn by_arms(exercise: &Exercise, goal: Goal) -> Result<Way, ExerciseProblem> {
    let hidden = Hidden::of(exercise, &[])?;
    let own = hidden.press.layout.own_stations();
    let notch = crate::press::customary::NOTCH_EFFECT.nm_f64();
    Ok(play(exercise, &hidden, None, 0.0, goal, |_, means| {
        let at_arms = own.iter().filter_map(|station| means.get(*station));
        arm_by_arm(&at_arms.copied().collect::<Vec<_>>(), notch)
    }))
}

/// How far each nut may be turned: never beyond the opening or where it may
/// stand.
pub fn true_bounds(hidden: &Hidden, nuts: &[i32]) -> Vec<TurnBounds> {
    let most = MOST_NOTCHES_PER_RELACE;
    let left = hidden.opening_left_nm(nuts);
    let travels = hidden.press.notch_nm().iter();
    let [farthest_in, farthest_out] = hidden.window.unwrap_or([i32::MIN, i32::MAX]);
    left.iter()
        .zip(travels)
        .zip(nuts)
        .map(|((left, travel), nut)| {
            let whole = if *travel > 0.0 {
                (left / travel).floor().clamp(0.0, most.into()) as i32
            } else {
                most
            };
            TurnBounds {
                least: (-whole).max(farthest_in.saturating_sub(*nut)).min(0),
                most: most.min(farthest_out.saturating_sub(*nut)).max(0),
            }
        })
        .collect()
}

/// How one would have done who knows the press, but not what a piece will
/// scatter: the quickest of turning to the smallest spread of the mean profile
/// or fewer nuts, with and without seeing to what is wrong; sends the jaw away
/// where nothing brings it inside.
pub(super) fn best(exercise: &Exercise, goal: Goal) -> Result<Way, ExerciseProblem> {
    let found = Hidden::of(exercise, &[])?;
    let cures = cures(&found);
    let cured = Hidden::of(exercise, &cures)?;
    let mut search = SearchWorkspace::default();
    let mut with = |hidden: &Hidden, seeing_to: f64, fewer: bool| {
        let mut planned: Vec<(Vec<i32>, Vec<i32>)> = Vec::new();
        play(
            exercise,
            hidden,
            Some(&found),
            seeing_to,
            goal,
            |nuts, _| {
                if let Some((_, turns)) = planned.iter().find(|(at, _)| at == nuts) {
                    return turns.clone();
                }
                let mut turns = best_turns(hidden, nuts, &mut search);
                if fewer {
                    turns = with_fewer_nuts(hidden, nuts, turns, goal);
                }
                planned.push((nuts.to_vec(), turns.clone()));
                turns
            },
        )
    };
    let seeing_to: f64 = cures.iter().map(|cure| cure.minutes()).sum();
    let mut quickest = with(&cured, seeing_to, false);
    let mut ways = vec![with(&cured, seeing_to, true)];
    if !cures.is_empty() {
        ways.extend([false, true].map(|fewer| with(&found, 0.0, fewer)));
    }
    if !can_be_cured(&cured, goal, &mut SearchWorkspace::default()) {
        let mut sent_away = Games::default();
        sent_away.add(1, goal.effort.piece.value(), true);
        ways.push(Way {
            sent_away: true,
            ..sent_away.way()
        });
    }
    for way in ways {
        let better = (way.passed, -way.minutes) > (quickest.passed, -quickest.minutes);
        let as_sure = way.passed >= quickest.passed - 0.05;
        if better || (as_sure && way.minutes < quickest.minutes) {
            quickest = way;
        }
    }
    Ok(quickest)
}

/// What can be seen to at the press.
fn cures(found: &Hidden) -> Vec<Cure> {
    let mut cures: Vec<Cure> = found
        .faults
        .iter()
        .filter_map(|(fault, _)| fault.cure())
        .filter(|cure| *cure != Cure::Jaw)
        .collect();
    cures.dedup();
    cures
}

/// What would have cured a press, planned by whoever knows it.
#[derive(Debug, Clone, PartialEq)]
pub struct CureKnown {
    /// What is to be seen to first.
    pub see_to: Vec<Cure>,
    /// Then the turns from where the nuts stood as found, one per arm.
    pub turns: Vec<i32>,
    /// What the jaws give after it at each station, in nanometres.
    pub left_nm: Vec<f64>,
    /// Whether that is inside the tolerance.
    pub inside: bool,
}

/// What would have cured the press of an exercise.
pub(super) fn cure_known(exercise: &Exercise, goal: Goal) -> Result<CureKnown, ExerciseProblem> {
    let see_to = cures(&Hidden::of(exercise, &[])?);
    let cured = Hidden::of(exercise, &see_to)?;
    let nuts = vec![0; exercise.arms];
    let best = best_turns(&cured, &nuts, &mut SearchWorkspace::default());
    let turns = with_fewer_nuts(&cured, &nuts, best, goal);
    let left_nm = cured.jaw_nm(&turns);
    Ok(CureKnown {
        inside: goal.is_met(&left_nm),
        see_to,
        turns,
        left_nm,
    })
}

/// Turns as a technician would make them: fewer nuts, and none further in, where
/// that leaves the jaws half as far inside as the most even turns do. Turns that
/// do not get inside stay as they are.
fn with_fewer_nuts(hidden: &Hidden, nuts: &[i32], best: Vec<i32>, goal: Goal) -> Vec<i32> {
    let bounds = true_bounds(hidden, nuts);
    let left_nm = |turns: &[i32]| {
        let nuts: Vec<i32> = nuts.iter().zip(turns).map(|(nut, k)| nut + k).collect();
        spread_nm(&hidden.jaw_nm(&nuts))
    };
    let most_even = left_nm(&best);
    let enough = 0.5 * (most_even + goal.tolerance_nm);
    let will_do = |turns: &[i32]| {
        let mut turned = turns.iter().zip(&bounds);
        turned.all(|(turn, bound)| (bound.least..=bound.most).contains(turn))
            && left_nm(turns) <= enough
    };
    let work = |turns: &[i32]| -> usize {
        let of = |turn: &i32| usize::from(*turn != 0) + usize::from(*turn < 0);
        turns.iter().map(of).sum()
    };
    let mut fewest = best.clone();
    let shifted = best.iter().map(|common| {
        let turns = best.iter().map(|turn| turn - common);
        turns.collect::<Vec<i32>>()
    });
    for turns in shifted {
        if will_do(&turns) && work(&turns) < work(&fewest) {
            fewest = turns;
        }
    }
    for arm in 0..fewest.len() {
        let mut turns = fewest.clone();
        if let Some(turn) = turns.get_mut(arm) {
            *turn = 0;
        }
        if will_do(&turns) {
            fewest = turns;
        }
    }
    fewest
}

/// The turns after which the mean profile is as even as it can be.
pub fn best_turns(hidden: &Hidden, nuts: &[i32], search: &mut SearchWorkspace) -> Vec<i32> {
    let bounds = true_bounds(hidden, nuts);
    // The chains' step stands in the profile that is searched.
    let mut press = hidden.press.clone();
    let flat = press.profile(&vec![0; nuts.len()]);
    let with_chains = hidden.jaw_nm(&vec![0; nuts.len()]);
    let steps = with_chains
        .iter()
        .zip(&flat)
        .map(|(with, without)| with - without);
    for (start, step) in press.start_nm.iter_mut().zip(steps) {
        *start += step;
    }
    press
        .best_turns(nuts, &bounds, search)
        .unwrap_or_else(|| vec![0; nuts.len()])
}

/// Whether any turns bring the jaws' own mean profile inside.
pub(super) fn can_be_cured(hidden: &Hidden, goal: Goal, search: &mut SearchWorkspace) -> bool {
    let nuts = vec![0; hidden.press.arms()];
    let turns = best_turns(hidden, &nuts, search);
    goal.is_met(&hidden.jaw_nm(&turns))
}
