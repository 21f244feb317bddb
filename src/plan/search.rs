//! The whole-notch turns with the smallest spread, proven.
//!
//! For thicknesses `t` (one per counting station), a response `B` and whole
//! turns `k` (one per nut, out positive) the search minimises
//!
//! ```text
//!     range(t + B k) = max_s (t + B k)_s - min_s (t + B k)_s
//! ```
//!
//! within the limits of each nut, optionally touching only so many nuts
//! or turning outward only. It is a
//! closest-vector problem in the norm of the range, cut by a box.
//!
//! **Method.** As in Lenstra's algorithm (Math. Oper. Res. 8, 1983): the set of
//! continuous turns that do better than the best whole ones is measured by an
//! ellipsoid (`shape`), single notches are exchanged for steps that are short
//! in that measure (`reduce`), rounding from the centre along them gives whole
//! turns to beat, and a depth-first search over the steps (`lattice`) proves
//! that nothing better is left. At each node the continuous problem bounds the
//! spread from below (`vertex`); every bound is kept and tried first at later
//! nodes (`cut`). A cap on the nuts touched is a tree over sets of nuts above
//! that (`few`). Where very many turns are equally good, a search nut by nut
//! finds the preferred ones (`prefer`).
//!
//! **Guarantee.** Nothing is left out but on the word of a bound evaluated from
//! the problem's own figures with room for rounding, so that no error in the
//! steps that led to it can lose a solution. See [`smallest_spread`].

mod best;
mod cut;
mod few;
mod fractional;
mod lattice;
mod model;
mod part;
mod prefer;
mod reduce;
mod shape;
mod vertex;
mod watch;

use super::turns::{LEAVE, MOST_ARMS, touched};
use crate::press::Response;

use best::{Best, Judge};
use few::Few;
pub use fractional::{FractionalTurns, fractional_turns};
use part::{Part, Quest};
use watch::{End, Watch};

/// Largest change of one nut that a limit may allow, in notches either way.
pub const FARTHEST_TURN: i32 = 1000;

/// Largest thickness or response taken, in nanometres (one
/// kilometre): beyond it `f64` no longer resolves the ties.
pub const LARGEST_NM: f64 = 1e12;

/// Spreads closer than this count as equal, in nanometres: far below any
/// length that matters, far above rounding.
pub const EQUAL_SPREAD_NM: f64 = 1e-6;

/// Nodes after which the search gives up unless told otherwise: about a second.
/// Presses as they come need some hundreds; a dozen nuts free to level two or
/// three stations can bring the spread below any figure, and no search ends.
pub const MOST_NODES: u64 = 1_000_000;

/// The turns one nut may make, in notches, both ends included. Zero need not
/// be among them: a nut that stands outside its limits has to move.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TurnBounds {
    /// Smallest change of the nut (most inward; negative is in).
    pub least: i32,
    /// Largest change of the nut (most outward; positive is out).
    pub most: i32,
}

/// What is to be planned.
#[derive(Debug, Clone, Copy)]
pub struct SearchProblem<'a> {
    /// Thickness at each counting station, in nanometres.
    pub thickness_nm: &'a [f64],
    /// Response of the counting stations (rows) to every nut (columns).
    pub response: &'a Response,
    /// Turns allowed to each nut.
    pub bounds: &'a [TurnBounds],
    /// At most so many nuts may turn.
    pub most_nuts: Option<usize>,
    /// Only outward (positive) turns.
    pub outward_only: bool,
    /// Give up (with the best turns so far) after so many nodes; the same on
    /// every machine, unlike a clock.
    pub most_nodes: u64,
}

impl<'a> SearchProblem<'a> {
    /// A problem with nothing but the limits of the nuts, given up after
    /// [`MOST_NODES`].
    pub fn new(thickness_nm: &'a [f64], response: &'a Response, bounds: &'a [TurnBounds]) -> Self {
        Self {
            thickness_nm,
            response,
            bounds,
            most_nuts: None,
            outward_only: false,
            most_nodes: MOST_NODES,
        }
    }
}

/// The turns found.
#[derive(Debug, Clone, PartialEq)]
pub struct SearchResult {
    /// Change of each nut in whole notches, out positive.
    pub turns: Vec<i32>,
    /// Spread after these turns, in nanometres.
    pub spread_nm: f64,
    /// No permitted turns have a spread smaller by more than what counts as
    /// equal. False when the search was stopped before it could tell.
    pub proven: bool,
    /// Nodes of the search tree looked at.
    pub nodes: u64,
}

/// Why there are no turns.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum SearchError {
    /// The search plans for 1 to [`MOST_ARMS`] arms.
    ArmCount,
    /// No station counts.
    NoStations,
    /// Thicknesses, bounds and response do not belong together.
    Shape,
    /// A thickness or response is not a number, or larger than
    /// [`LARGEST_NM`].
    NotALength,
    /// The bounds of this nut are crossed or beyond [`FARTHEST_TURN`].
    Bounds(usize),
    /// No whole turns satisfy all limits together.
    NothingAllowed,
    /// Stopped before any permitted turns were found.
    Stopped,
}

/// Memory of the search, kept from call to call so that the search itself
/// allocates nothing.
#[derive(Debug, Clone, Default)]
pub struct SearchWorkspace {
    part: Part,
    few: Few,
    /// The last search went over sets of nuts.
    by_sets: bool,
}

impl SearchWorkspace {
    /// Searches over the given set of nuts, of which `spare_nuts` may turn
    /// besides those that have to.
    fn search(&mut self, quest: &mut Quest, searched: u16, spare_nuts: usize) -> End {
        let arms = (0..MOST_ARMS).filter(|arm| searched & (1 << arm) != 0);
        let may_stand = arms.clone().filter(|arm| quest.standing[*arm] == 0).count();
        self.by_sets = spare_nuts < may_stand;
        if self.by_sets {
            self.few.search(&mut self.part, quest, arms, spare_nuts)
        } else {
            self.part.search(quest, arms)
        }
    }

    /// Searches again, for the preferred turns among equals.
    fn settle(&mut self, quest: &mut Quest, searched: u16, spare_nuts: usize) -> End {
        if self.by_sets {
            self.search(quest, searched, spare_nuts)
        } else {
            let arms = (0..MOST_ARMS).filter(|arm| searched & (1 << arm) != 0);
            self.part.settle(quest, arms)
        }
    }
}

/// Spread after `turns`, in nanometres. Exact for whole nanometres. Zero without stations; nuts without a turn stand still.
pub fn spread_after(thickness_nm: &[f64], response: &Response, turns: &[i32]) -> f64 {
    spread_moved(thickness_nm, response, turns.iter().map(|k| f64::from(*k)))
}

/// Spread after turns that need not be whole.
fn spread_moved(
    thickness_nm: &[f64],
    response: &Response,
    turns: impl Iterator<Item = f64> + Clone,
) -> f64 {
    let base = thickness_nm.iter().copied().fold(f64::INFINITY, f64::min);
    let mut low = f64::INFINITY;
    let mut high = f64::NEG_INFINITY;
    for (station, t) in thickness_nm.iter().enumerate() {
        let change = response.change_at(station, turns.clone());
        let after = (t - base) + change;
        low = low.min(after);
        high = high.max(after);
    }
    if high >= low { high - low } else { 0.0 }
}

/// Finds the permitted whole turns with the smallest spread.
///
/// With `e` for what counts as equal ([`EQUAL_SPREAD_NM`], or 1e-13 of the
/// largest thickness the turns can make where that is more): the search first finds turns of a spread `r` such that no permitted turns are
/// better than `r - e/2` (`proven`), then takes, among **all** permitted turns
/// up to `r + e/2`, the preferred ones: those that touch the
/// fewest nuts; of these the ones with the fewest notches in all; of these the
/// most outward (largest sum); and if several are left, the one that at the
/// first differing nut from the left turns less, outward before inward. Where
/// more turns are equal than can be looked through, the best of those seen
/// stand. Both hold for any finite response, singular or of the wrong sign; a nut that
/// changes no spread stays where it is, or as near to it as it may.
///
/// Once the nodes are used up, the best turns so far are returned, with `proven`
/// false if they are not known to be so. The same problem gives the same answer
/// on every machine.
///
/// # Errors
/// See [`SearchError`]. Turns of zero need not be permitted; wherever they are,
/// the answer is no worse.
pub fn smallest_spread(
    problem: &SearchProblem,
    workspace: &mut SearchWorkspace,
) -> Result<SearchResult, SearchError> {
    let limits = check(problem)?;
    let bounds = &limits[..problem.bounds.len()];
    let judge = Judge::new(problem, bounds);
    let mut quest = Quest {
        judge: &judge,
        standing: LEAVE,
        best: Best::default(),
        watch: Watch::new(problem.most_nodes),
    };
    for (standing, b) in quest.standing.iter_mut().zip(bounds) {
        *standing = 0.clamp(b.least, b.most);
    }
    let has_to_turn = touched(&quest.standing);
    let spare_nuts = match problem.most_nuts {
        Some(most) => most
            .checked_sub(has_to_turn)
            .ok_or(SearchError::NothingAllowed)?,
        None => MOST_ARMS,
    };
    quest.best.consider(&quest.standing, &judge);
    let searched =
        |arm: usize| bounds[arm].least < bounds[arm].most && moves_spread(problem.response, arm);
    let searched: u16 = (0..bounds.len())
        .filter(|arm| searched(*arm))
        .fold(0, |set, arm| set | 1 << arm);
    let end = workspace.search(&mut quest, searched, spare_nuts);
    let proven = end == End::Complete && !quest.watch.doubtful;
    if let (End::Complete, Some((turns, least))) = (end, quest.best.turns) {
        quest.best.equal_up_to_nm = Some(least + judge.equal_nm / 2.0);
        let spare_nuts = spare_nuts.min(touched(&turns).saturating_sub(has_to_turn));
        workspace.settle(&mut quest, searched, spare_nuts);
    }
    match quest.best.turns {
        Some((turns, spread_nm)) => Ok(SearchResult {
            turns: turns[..bounds.len()].to_vec(),
            spread_nm,
            proven,
            nodes: quest.watch.nodes,
        }),
        None if proven => Err(SearchError::NothingAllowed),
        None => Err(SearchError::Stopped),
    }
}

/// Whether a nut changes the spread at all: a column that is the same at all
/// stations only lifts the profile.
fn moves_spread(response: &Response, arm: usize) -> bool {
    let first = response.at(0, arm);
    (1..response.stations()).any(|station| response.at(station, arm) != first)
}

/// The limits of each nut with all wishes taken in; zero beyond the arms.
fn check(problem: &SearchProblem) -> Result<[TurnBounds; MOST_ARMS], SearchError> {
    let response = problem.response;
    let (stations, arms) = (response.stations(), response.arms());
    if !(1..=MOST_ARMS).contains(&arms) {
        return Err(SearchError::ArmCount);
    }
    if stations == 0 {
        return Err(SearchError::NoStations);
    }
    if problem.thickness_nm.len() != stations || problem.bounds.len() != arms {
        return Err(SearchError::Shape);
    }
    let is_length = |value: &f64| value.abs() <= LARGEST_NM;
    if !problem.thickness_nm.iter().all(is_length) || !response.values().iter().all(is_length) {
        return Err(SearchError::NotALength);
    }
    for (arm, b) in problem.bounds.iter().enumerate() {
        if b.least > b.most || b.least < -FARTHEST_TURN || b.most > FARTHEST_TURN {
            return Err(SearchError::Bounds(arm));
        }
    }
    let mut bounds = [TurnBounds { least: 0, most: 0 }; MOST_ARMS];
    for (bound, given) in bounds.iter_mut().zip(problem.bounds) {
        *bound = *given;
        if problem.outward_only {
            bound.least = bound.least.max(0);
        }
    }
    if bounds.iter().any(|b| b.least > b.most) {
        return Err(SearchError::NothingAllowed);
    }
    Ok(bounds)
}
