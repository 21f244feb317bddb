//! The continuous problem below a node of the search: a vertex of its
//! feasible set, moved by dual simplex steps.
//!
//! Over the free steps `z`, the lower edge `m` of the band and its height `r`:
//!
//! ```text
//!     minimise r   with   m <= (t + B z)_s <= m + r    at every station s
//!                         low <= (U z)_i <= high       for every nut i
//! ```
//!
//! A vertex is where as many constraints hold with equality ("active") as
//! there are unknowns. It is kept with the columns of the inverse of the
//! active rows: `column[j]` is how the unknowns move when active constraint
//! `j` gains one unit of slack, all others staying tight, and its last entry
//! is what that costs in `r`: the multiplier. Multipliers never negative:
//! `r` is a lower bound of the optimum, and rises with every dual simplex
//! step until all constraints are met (Lemke, Naval Res. Log. Q. 1, 1954).
//!
//! Ties in the ratio test are frequent (a spread of zero, whole figures). They
//! are broken by a second cost that is looked at only when the first leaves
//! the choice open, and whose multipliers start positive: the lexicographic
//! rule of Dantzig, Orden and Wolfe (Pacific J. Math. 5, 1955), under which
//! the steps cannot cycle.

use super::MOST_ARMS;
use super::model::{Model, PerArm, WholePerArm};

/// Unknowns: a step per arm, the lower edge and the height of the band, and
/// the second cost carried along as if it were one.
const UNKNOWNS: usize = MOST_ARMS + 3;
/// Where the lower edge stands among the unknowns.
pub(super) const EDGE: usize = MOST_ARMS;
/// Where the height stands among the unknowns.
pub(super) const HEIGHT: usize = MOST_ARMS + 1;
/// Where the second cost stands.
const SECOND: usize = MOST_ARMS + 2;

/// A violation below this (scaled) is none.
const FEASIBLE: f64 = 1e-10;
/// Smallest pivot.
const PIVOT: f64 = 1e-9;
/// Multipliers may come out negative by this much, so that among nearly tied
/// constraints one with a good pivot can be chosen (Harris, Math. Program. 5,
/// 1973).
const TIED: f64 = 1e-11;
/// A good pivot is at least this share of the largest.
const STEEP: f64 = 0.1;
/// Steps after which the vertex is left as it is.
const MOST_STEPS: usize = 400;

/// One constraint.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Row {
    /// A station lies below the band's upper edge.
    Upper(u16),
    /// A station lies above the band's lower edge.
    Lower(u16),
    /// A nut turns no further in.
    TurnLow(u16),
    /// A nut turns no further out.
    TurnHigh(u16),
}

impl Default for Row {
    /// Stands where no constraint is active yet.
    fn default() -> Self {
        Self::Upper(0)
    }
}

/// What remains of the constraints once some steps are fixed.
#[derive(Debug, Clone, Default)]
pub(super) struct Fixed {
    /// Steps fixed, from the first.
    pub depth: usize,
    /// Their values.
    pub steps: PerArm,
    /// Thickness at the stations after the fixed steps.
    pub profile: Vec<f64>,
    /// Turns of the nuts by the fixed steps.
    pub turns: PerArm,
}

impl Fixed {
    /// Nothing fixed yet.
    pub fn nothing(&mut self, model: &Model) {
        self.depth = 0;
        self.steps = [0.0; MOST_ARMS];
        self.turns = [0.0; MOST_ARMS];
        self.profile.clear();
        self.profile.extend_from_slice(&model.thickness);
    }

    /// As `parent`, with one more step fixed at `value`.
    pub fn after(&mut self, parent: &Fixed, model: &Model, value: f64) {
        let j = parent.depth;
        self.depth = j + 1;
        self.steps = parent.steps;
        self.steps[j] = value;
        self.turns = parent.turns;
        for (turn, row) in self.turns.iter_mut().zip(&model.turn_by_step) {
            *turn += row[j] * value;
        }
        self.profile.clear();
        self.profile.extend(
            parent
                .profile
                .iter()
                .zip(&model.by_step)
                .map(|(t, slopes)| t + slopes[j] * value),
        );
    }
}

/// How a run of simplex steps ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Outcome {
    /// All constraints are met: the optimum.
    Optimal,
    /// The lower bound has passed the threshold.
    Above,
    /// No point meets all constraints; the ray that proves it is kept.
    Empty,
    /// Too many steps: the bound is valid, the point is not the optimum.
    Unfinished,
}

/// A vertex; see the head of this file. Free unknowns are the steps from the
/// depth of the node on, then edge and height.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Vertex {
    /// Active constraints, as many as there are free unknowns.
    pub active: [Row; UNKNOWNS],
    /// How the unknowns move per unit of slack of each.
    column: [[f64; UNKNOWNS]; UNKNOWNS],
    /// The unknowns.
    pub at: [f64; UNKNOWNS],
    /// Number of free unknowns.
    pub free: usize,
    /// After [`Outcome::Empty`]: the constraint that cannot be met, and the
    /// weights of the active ones against it.
    pub unmet: Option<Row>,
    pub ray: [f64; UNKNOWNS],
}

impl Vertex {
    /// Multiplier of active constraint `j`: never negative.
    pub fn multiplier(&self, j: usize) -> f64 {
        self.column[j][HEIGHT].max(0.0)
    }

    /// A corner of the box that is optimal for the thickest and the thinnest
    /// station alone, with single notches as steps.
    pub fn corner(&mut self, model: &Model) {
        let n = model.arms;
        let middle: PerArm = std::array::from_fn(|i| 0.0_f64.clamp(model.low[i], model.high[i]));
        let after = |s: usize| model.thickness[s] + dot(&model.by_turn[s], &middle, 0, n);
        let (mut p, mut q) = (0, 0);
        for s in 1..model.thickness.len() {
            if after(s) > after(p) {
                p = s;
            }
            if after(s) < after(q) {
                q = s;
            }
        }
        let (high, low) = (&model.by_turn[p], &model.by_turn[q]);
        self.free = n + 2;
        self.column = [[0.0; UNKNOWNS]; UNKNOWNS];
        self.at = [0.0; UNKNOWNS];
        for i in 0..n {
            let slope = high[i] - low[i];
            let sign = if slope >= 0.0 { 1.0 } else { -1.0 };
            (self.active[i], self.at[i]) = if slope >= 0.0 {
                (Row::TurnLow(i as u16), model.low[i])
            } else {
                (Row::TurnHigh(i as u16), model.high[i])
            };
            self.column[i][i] = sign;
            self.column[i][EDGE] = sign * low[i];
            self.column[i][HEIGHT] = sign * slope;
        }
        let turns: PerArm = std::array::from_fn(|i| self.at[i]);
        let bottom = model.thickness[q] + dot(low, &turns, 0, n);
        let top = model.thickness[p] + dot(high, &turns, 0, n);
        self.at[EDGE] = bottom;
        self.at[HEIGHT] = top - bottom;
        self.active[n] = Row::Upper(p as u16);
        self.column[n][HEIGHT] = 1.0;
        self.active[n + 1] = Row::Lower(q as u16);
        self.column[n + 1][EDGE] = -1.0;
        self.column[n + 1][HEIGHT] = 1.0;
        // Any positive figures do, as long as no two combine into a tie: the
        // fractions of the golden section.
        let mut fraction = 0.5;
        for column in self.column.iter_mut().take(self.free) {
            fraction = (fraction + 0.618_033_988_749_894_9) % 1.0;
            column[SECOND] = 0.5 + fraction;
        }
    }

    /// The same vertex, a turn vertex, with turns counted from `by` further on.
    pub fn move_origin(&mut self, by: &WholePerArm) {
        for (turn, k) in self.at.iter_mut().zip(by) {
            *turn -= *k as f64;
        }
    }

    /// The same vertex with the steps of the model's basis as unknowns.
    pub fn use_steps(&mut self, model: &Model) {
        let n = model.arms;
        let convert = |point: &mut [f64; UNKNOWNS]| {
            let turns = *point;
            for (value, row) in point.iter_mut().zip(&model.step_by_turn).take(n) {
                *value = row.iter().zip(&turns).take(n).map(|(v, k)| v * k).sum();
            }
        };
        convert(&mut self.at);
        for column in self.column.iter_mut().take(self.free) {
            convert(column);
        }
    }

    /// Dual simplex steps until optimal, or the bound passes `threshold`.
    pub fn descend(&mut self, model: &Model, fixed: &Fixed, threshold: f64) -> Outcome {
        for _ in 0..MOST_STEPS {
            if self.at[HEIGHT] > threshold {
                return Outcome::Above;
            }
            let Some((row, violation)) = self.violated(model, fixed) else {
                return Outcome::Optimal;
            };
            let mut slope = [0.0; UNKNOWNS];
            self.slopes(model, fixed.depth, row, &mut slope);
            let Some(leaving) = self.leaving(&slope) else {
                self.unmet = Some(row);
                self.ray = slope;
                return Outcome::Empty;
            };
            self.exchange(fixed.depth, row, violation, leaving, &slope);
        }
        Outcome::Unfinished
    }

    /// The constraint violated most, and by how much.
    fn violated(&self, model: &Model, fixed: &Fixed) -> Option<(Row, f64)> {
        let (n, d) = (model.arms, fixed.depth);
        let mut worst = None;
        let mut most = FEASIBLE;
        let mut see = |row: Row, violation: f64| {
            if violation > most {
                most = violation;
                worst = Some((row, violation));
            }
        };
        let bottom = self.at[EDGE];
        let top = bottom + self.at[HEIGHT];
        for (s, (t, slopes)) in fixed.profile.iter().zip(&model.by_step).enumerate() {
            let after = t + dot(slopes, &self.at, d, n);
            see(Row::Upper(s as u16), after - top);
            see(Row::Lower(s as u16), bottom - after);
        }
        for i in 0..n {
            let turn = fixed.turns[i] + dot(&model.turn_by_step[i], &self.at, d, n);
            see(Row::TurnLow(i as u16), model.low[i] - turn);
            see(Row::TurnHigh(i as u16), turn - model.high[i]);
        }
        worst
    }

    /// What each active constraint's slack adds to the slack of `row`.
    fn slopes(&self, model: &Model, depth: usize, row: Row, out: &mut [f64; UNKNOWNS]) {
        let n = model.arms;
        let (steps, sign, edge, height) = coefficients(model, row);
        for (value, column) in out.iter_mut().zip(&self.column).take(self.free) {
            *value =
                sign * dot(steps, column, depth, n) + edge * column[EDGE] + height * column[HEIGHT];
        }
    }

    /// Ratio test: the active constraint that may become slack.
    fn leaving(&self, slope: &[f64; UNKNOWNS]) -> Option<usize> {
        let candidates = || {
            let both = slope.iter().zip(&self.column).take(self.free).enumerate();
            both.filter(|(_, (slope, _))| **slope > PIVOT)
        };
        let mut farthest = f64::INFINITY;
        for (_, (slope, column)) in candidates() {
            farthest = farthest.min((column[HEIGHT].max(0.0) + TIED) / slope);
        }
        let tied = || candidates().filter(|(_, (s, c))| c[HEIGHT].max(0.0) <= farthest * **s);
        let mut largest: f64 = 0.0;
        for (_, (slope, _)) in tied() {
            largest = largest.max(*slope);
        }
        let mut best = None;
        let mut least = f64::INFINITY;
        for (j, (slope, column)) in tied() {
            let second = column[SECOND] / slope;
            if *slope >= STEEP * largest && second < least {
                least = second;
                best = Some(j);
            }
        }
        best
    }

    /// `row` becomes active in place of active constraint `leaving`.
    fn exchange(
        &mut self,
        depth: usize,
        row: Row,
        violation: f64,
        leaving: usize,
        slope: &[f64; UNKNOWNS],
    ) {
        let mut direction = self.column[leaving];
        for value in &mut direction[depth..] {
            *value /= slope[leaving];
        }
        for (x, v) in self.at[depth..].iter_mut().zip(&direction[depth..]) {
            *x += violation * v;
        }
        for j in 0..self.free {
            if j != leaving && slope[j] != 0.0 {
                let factor = slope[j];
                for (x, v) in self.column[j][depth..].iter_mut().zip(&direction[depth..]) {
                    *x -= factor * v;
                }
            }
        }
        self.column[leaving] = direction;
        self.active[leaving] = row;
    }

    /// Computes columns and point anew from the active constraints, free of
    /// the rounding that many exchanges gather. False, with nothing changed,
    /// when the constraints do not determine a point.
    pub fn refresh(&mut self, model: &Model, fixed: &Fixed) -> bool {
        let (n, depth, size) = (model.arms, fixed.depth, self.free);
        if size != n - depth + 2 {
            return false;
        }
        // Rows of the active constraints, their limits, and beside them the
        // identity, which elimination turns into the inverse.
        let unknown = |c: usize| {
            if c < n - depth {
                depth + c
            } else {
                EDGE + c - (n - depth)
            }
        };
        let mut rows = [[0.0; 2 * UNKNOWNS]; UNKNOWNS];
        let mut limits = [0.0; UNKNOWNS];
        for j in 0..size {
            let (steps, sign, edge, height) = coefficients(model, self.active[j]);
            for c in 0..n - depth {
                rows[j][c] = sign * steps[depth + c];
            }
            rows[j][n - depth] = edge;
            rows[j][n - depth + 1] = height;
            rows[j][UNKNOWNS + j] = 1.0;
            limits[j] = match self.active[j] {
                Row::Upper(s) => fixed.profile[usize::from(s)],
                Row::Lower(s) => -fixed.profile[usize::from(s)],
                Row::TurnLow(i) => model.low[usize::from(i)] - fixed.turns[usize::from(i)],
                Row::TurnHigh(i) => fixed.turns[usize::from(i)] - model.high[usize::from(i)],
            };
        }
        for c in 0..size {
            let Some(pivot) = (c..size)
                .max_by(|a, b| rows[*a][c].abs().total_cmp(&rows[*b][c].abs()))
                .filter(|p| rows[*p][c].abs() > PIVOT)
            else {
                return false;
            };
            rows.swap(c, pivot);
            let scale = 1.0 / rows[c][c];
            for value in &mut rows[c] {
                *value *= scale;
            }
            let top = rows[c];
            for (r, row) in rows.iter_mut().enumerate().take(size) {
                let factor = row[c];
                if r != c && factor != 0.0 {
                    for (x, t) in row.iter_mut().zip(&top) {
                        *x -= factor * t;
                    }
                }
            }
        }
        for c in 0..size {
            let u = unknown(c);
            self.at[u] = 0.0;
            for j in 0..size {
                self.column[j][u] = rows[c][UNKNOWNS + j];
                self.at[u] += rows[c][UNKNOWNS + j] * limits[j];
            }
        }
        true
    }

    /// Fixes step `j` at `value`; steps before `depth` are fixed already.
    /// False, with the ray kept and nothing else changed, when no point has
    /// that value.
    pub fn fix(&mut self, depth: usize, j: usize, value: f64) -> bool {
        let distance = value - self.at[j];
        let upward = distance >= 0.0;
        if self.fix_from(depth, j, value, Some(upward)) {
            return true;
        }
        // A vertex already there may be left either way.
        distance.abs() <= FEASIBLE && self.fix_from(depth, j, value, Some(!upward))
    }

    /// As [`Vertex::fix`] where rounding leaves in doubt whether any point has
    /// that value: multipliers may come out negative.
    pub fn fix_anyway(&mut self, depth: usize, j: usize, value: f64) -> bool {
        self.fix_from(depth, j, value, None)
    }

    fn fix_from(&mut self, depth: usize, j: usize, value: f64, upward: Option<bool>) -> bool {
        let sign = if upward == Some(false) { -1.0 } else { 1.0 };
        let mut slope = [0.0; UNKNOWNS];
        for (s, column) in slope.iter_mut().zip(&self.column).take(self.free) {
            *s = sign * column[j];
        }
        let leaving = if upward.is_some() {
            self.leaving(&slope)
        } else {
            (0..self.free).max_by(|a, b| slope[*a].abs().total_cmp(&slope[*b].abs()))
        };
        let Some(leaving) = leaving.filter(|l| slope[*l] != 0.0) else {
            self.unmet = None;
            self.ray = slope;
            return false;
        };
        let distance = sign * (value - self.at[j]);
        self.exchange(depth, Row::default(), distance, leaving, &slope);
        self.at[j] = value;
        let last = self.free - 1;
        self.active[leaving] = self.active[last];
        self.column[leaving] = self.column[last];
        for column in self.column.iter_mut().take(last) {
            column[j] = 0.0;
        }
        self.free = last;
        true
    }
}

/// A constraint as `sign steps z + edge m + height r >= limit`.
fn coefficients(model: &Model, row: Row) -> (&PerArm, f64, f64, f64) {
    match row {
        Row::Upper(s) => (&model.by_step[usize::from(s)], -1.0, 1.0, 1.0),
        Row::Lower(s) => (&model.by_step[usize::from(s)], 1.0, -1.0, 0.0),
        Row::TurnLow(i) => (&model.turn_by_step[usize::from(i)], 1.0, 0.0, 0.0),
        Row::TurnHigh(i) => (&model.turn_by_step[usize::from(i)], -1.0, 0.0, 0.0),
    }
}

/// Sum of `a[j] b[j]` over the free steps.
fn dot(a: &PerArm, b: &[f64], from: usize, to: usize) -> f64 {
    a[from..to]
        .iter()
        .zip(&b[from..to])
        .map(|(a, b)| a * b)
        .sum()
}
