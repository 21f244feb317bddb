//! The gauge check: what was typed into it so far, and what comes out of it.

use crate::press::LengthQuantity;
use crate::session::Session;
use crate::splice::{
    Cell, GaugeStudy, LacingStudy, Misfit, PieceCheck, Sample, Scatter, ScatterSource, StudyTable,
    WhyDoubtful, doubtful, misfits,
};
use crate::units::{Length, Unit};

use super::grid::{GridCell, Order, Shape, Typed, Typing};

/// Readings of the short check.
const SHORT_READINGS: usize = 10;

/// Lacings and neighbouring knuckles of the long check.
pub const LACINGS: usize = 2;
/// Neighbouring knuckles at an arm.
pub const NEIGHBOURS: usize = 3;

/// Most readings of each knuckle in the check over two lacings.
pub const MOST_EACH: usize = 2;
/// Most rounds of the check by several people.
pub const MOST_ROUNDS: usize = 3;

/// The three ways to check a gauge.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum CheckKind {
    /// One knuckle measured ten times.
    #[default]
    OneKnuckle,
    /// Three neighbouring knuckles at every arm, laced again without turns.
    TwoLacings,
    /// Several knuckles, by one or more people, in two or three rounds.
    People,
}

impl CheckKind {
    /// The shortest first.
    pub const ALL: [Self; 3] = [Self::OneKnuckle, Self::TwoLacings, Self::People];
}

/// How large the check by several people is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Counts {
    /// People, 1 to 3.
    pub people: usize,
    /// Rounds, 2 or 3.
    pub rounds: usize,
    /// Knuckles, 2 to 10.
    pub knuckles: usize,
    /// Readings of each knuckle in the check over two lacings, 1 or 2.
    pub each: usize,
}

impl Default for Counts {
    fn default() -> Self {
        Self {
            people: 2,
            rounds: 2,
            knuckles: 5,
            each: 2,
        }
    }
}

/// What was typed into the checks; kept until it is used or cleared.
#[derive(Debug, Default)]
pub struct GaugeCheck {
    /// The check in front.
    pub kind: CheckKind,
    /// How large the checks are.
    pub counts: Counts,
    /// The cell being typed in.
    pub typing: Typing,
    /// Whether what was read of one knuckle is on show before all is read.
    pub shown: bool,
    /// What is wrong with what was pasted last: cells offered that do not fit.
    pub pasted_beyond: bool,
    /// The cells of every check, by row and column of the largest sheet it
    /// can have (see [`Self::kept_at`]).
    cells: [Vec<Vec<Cell>>; 3],
    /// What was cleared last, and of which check.
    cleared: Option<(CheckKind, Vec<Vec<Cell>>)>,
}

/// What stands in the way of a result, the first thing found.
#[derive(Debug, Clone, PartialEq)]
pub enum Obstacle {
    /// Something that is no thickness.
    Unreadable(GridCell),
    /// A reading that looks typed in the other unit.
    OtherUnit(GridCell, Unit),
    /// A reading about ten times off the others.
    DecimalSlip(GridCell),
    /// Cells still empty, of so many.
    Empty {
        /// Empty cells.
        empty: usize,
        /// All cells.
        all: usize,
    },
}

/// What comes out of a check.
#[derive(Debug, Clone, PartialEq)]
pub enum Found {
    /// The scatter of one knuckle's readings, and how many there are.
    OneKnuckle(Scatter, usize),
    /// The scatters of the check over two lacings.
    TwoLacings(LacingStudy),
    /// The check by several people: average and range, analysis of variance.
    People(Box<[GaugeStudy; 2]>),
}

/// A check as far as it goes.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Outcome {
    /// What stands in its way; what is found can be used only without.
    pub obstacle: Option<Obstacle>,
    /// What comes out of it.
    pub found: Option<Found>,
    /// Readings that do not fit the others of the same knuckle.
    pub strays: Vec<GridCell>,
    /// Whether no reading of any knuckle differs from another.
    pub all_equal: bool,
}

impl GaugeCheck {
    /// Whether readings are hidden: each of one knuckle is to be taken without
    /// looking at those before, until all are.
    pub fn hides(&self, session: &Session) -> bool {
        let all = self.cell_count(session);
        let read = (0..all).map(|column| self.cell(GridCell { row: 0, column }));
        let read = read.filter(|cell| !cell.text().is_empty()).count();
        self.kind == CheckKind::OneKnuckle && !self.shown && (1..all).contains(&read)
    }

    /// Rows and columns of the check in front.
    pub fn shape(&self, session: &Session) -> Shape {
        let counts = self.counts;
        let (rows, columns, order) = match self.kind {
            CheckKind::OneKnuckle => (1, SHORT_READINGS, Order::Along),
            CheckKind::TwoLacings => {
                let arms = session.press.arms.len();
                (LACINGS * arms, NEIGHBOURS * counts.each, Order::Down)
            }
            CheckKind::People => (counts.knuckles, counts.people * counts.rounds, Order::Down),
        };
        Shape {
            rows,
            columns,
            most_columns: columns,
            order,
        }
    }

    /// How many cells the check in front has.
    pub fn cell_count(&self, session: &Session) -> usize {
        let shape = self.shape(session);
        shape.rows * shape.columns
    }

    fn sheet(&self) -> &[Vec<Cell>] {
        let [one, two, people] = &self.cells;
        match self.kind {
            CheckKind::OneKnuckle => one,
            CheckKind::TwoLacings => two,
            CheckKind::People => people,
        }
    }

    fn sheet_mut(&mut self) -> &mut Vec<Vec<Cell>> {
        let [one, two, people] = &mut self.cells;
        match self.kind {
            CheckKind::OneKnuckle => one,
            CheckKind::TwoLacings => two,
            CheckKind::People => people,
        }
    }

    /// Where a cell of the check in front is kept: its place does not depend
    /// on how large the check is just now, so that a reading stays with its
    /// knuckle when the counts change.
    fn kept_at(&self, at: GridCell) -> GridCell {
        let counts = self.counts;
        let widened = |now: usize, most: usize| at.column / now * most + at.column % now;
        let column = match self.kind {
            CheckKind::OneKnuckle => at.column,
            CheckKind::TwoLacings => widened(counts.each.max(1), MOST_EACH),
            CheckKind::People => widened(counts.rounds.max(1), MOST_ROUNDS),
        };
        GridCell { column, ..at }
    }

    /// What a cell of the check in front holds.
    pub fn cell(&self, at: GridCell) -> &Cell {
        const EMPTY: &Cell = &Cell::Empty;
        let at = self.kept_at(at);
        let row = self.sheet().get(at.row);
        row.and_then(|row| row.get(at.column)).unwrap_or(EMPTY)
    }

    /// Whether anything was typed into the check in front.
    pub fn is_empty(&self) -> bool {
        let mut cells = self.sheet().iter().flatten();
        cells.all(|cell| *cell == Cell::Empty)
    }

    /// Forgets what was typed into the check in front; it can be brought back
    /// until the next is cleared.
    pub fn clear(&mut self) {
        let cells = std::mem::take(self.sheet_mut());
        self.cleared = Some((self.kind, cells));
        self.typing = Typing::default();
        self.pasted_beyond = false;
        self.shown = false;
    }

    /// Whether what was cleared can be brought back.
    pub fn can_bring_back(&self) -> bool {
        let cleared = self.cleared.as_ref();
        self.is_empty() && cleared.is_some_and(|(kind, _)| *kind == self.kind)
    }

    /// Brings back what was cleared last.
    pub fn bring_back(&mut self) {
        if self.can_bring_back()
            && let Some((_, cells)) = self.cleared.take()
        {
            *self.sheet_mut() = cells;
        }
    }

    /// Takes what was typed and not yet left.
    pub fn finish(&mut self, session: &Session, bare: Unit) {
        if let Some(typed) = self.typing.finish() {
            let shape = self.shape(session);
            self.take(typed, shape, bare);
        }
    }

    /// Takes what was typed or pasted. A table that does not fit is refused
    /// as a whole.
    pub fn take(&mut self, typed: Typed, shape: Shape, bare: Unit) {
        self.pasted_beyond = false;
        match typed {
            Typed::One(at, text) => self.set(at, Cell::typed(LengthQuantity::Reading, &text, bare)),
            Typed::Table(from, rows) => {
                let placed: Option<Vec<(GridCell, String)>> = shape.placed(from, rows);
                self.pasted_beyond = placed.is_none();
                for (at, text) in placed.unwrap_or_default() {
                    self.set(at, Cell::typed(LengthQuantity::Reading, &text, bare));
                }
            }
        }
    }

    fn set(&mut self, at: GridCell, cell: Cell) {
        let at = self.kept_at(at);
        let sheet = self.sheet_mut();
        if sheet.len() <= at.row {
            sheet.resize(at.row + 1, Vec::new());
        }
        if let Some(row) = sheet.get_mut(at.row) {
            if row.len() <= at.column {
                row.resize(at.column + 1, Cell::Empty);
            }
            if let Some(place) = row.get_mut(at.column) {
                *place = cell;
            }
        }
    }

    /// Cells of one knuckle each, and where they stand.
    fn knuckles(&self, shape: Shape) -> Vec<Vec<GridCell>> {
        let each = match self.kind {
            CheckKind::OneKnuckle | CheckKind::People => shape.columns,
            CheckKind::TwoLacings => self.counts.each,
        };
        let places = (0..shape.rows).map(|row| {
            let row = (0..shape.columns).map(move |column| GridCell { row, column });
            row.collect::<Vec<_>>()
        });
        places
            .flat_map(|row| {
                row.chunks(each.max(1))
                    .map(<[_]>::to_vec)
                    .collect::<Vec<_>>()
            })
            .collect()
    }

    /// What comes out, as far as it goes.
    pub fn outcome(&self, session: &Session) -> Outcome {
        let shape = self.shape(session);
        let knuckles = self.knuckles(shape);
        let step = session.gauge.step.length();
        let rows: Vec<Vec<Cell>> = knuckles
            .iter()
            .map(|places| places.iter().map(|at| self.cell(*at).clone()).collect())
            .collect();
        let counts = vec![false; rows.len()];
        let place = |misfit: &Misfit| {
            let row = knuckles.get(misfit.station)?;
            row.get(misfit.repeat?).copied()
        };
        let doubts = doubtful(&PieceCheck {
            rows: &rows,
            bare: session.unit,
            usual_nm: None,
            belt_nm: None,
            before_nm: &[],
            moved_nm: f64::INFINITY,
            stated: None,
            step,
            tolerance: session.tolerance.length(),
        });
        let obstacle = doubts.iter().find_map(|doubt| {
            let at = *knuckles.get(doubt.station)?.get(doubt.repeat)?;
            match doubt.why {
                WhyDoubtful::Unreadable => Some(Obstacle::Unreadable(at)),
                WhyDoubtful::OtherUnit => {
                    let likely = doubt.likely.as_ref()?;
                    Some(Obstacle::OtherUnit(at, likely.unit()))
                }
                WhyDoubtful::DecimalPlace => Some(Obstacle::DecimalSlip(at)),
                _ => None,
            }
        });
        if obstacle.is_some() {
            return Outcome {
                obstacle,
                ..Outcome::default()
            };
        }
        let strays = misfits(&rows, &counts, None, step);
        let strays = strays.iter().filter_map(place).collect();
        let all: Vec<GridCell> = knuckles.iter().flatten().copied().collect();
        let empty = all.iter().filter(|at| *self.cell(**at) == Cell::Empty);
        let empty = empty.count();
        Outcome {
            obstacle: (empty > 0).then_some(Obstacle::Empty {
                empty,
                all: all.len(),
            }),
            found: self.found(session, &all, empty),
            strays,
            all_equal: self.all_equal(&knuckles),
        }
    }

    fn length(&self, at: GridCell) -> Option<Length> {
        Some(self.cell(at).reading()?.typed.length())
    }

    fn nm(&self, row: usize, column: usize) -> f64 {
        let length = self.length(GridCell { row, column });
        length.map_or(f64::NAN, Length::nm_f64)
    }

    fn all_equal(&self, knuckles: &[Vec<GridCell>]) -> bool {
        let mut compared = false;
        let equal = knuckles.iter().all(|places| {
            let mut lengths = places.iter().filter_map(|at| self.length(*at));
            let first = lengths.next();
            lengths.all(|length| {
                compared = true;
                Some(length) == first
            })
        });
        equal && compared
    }

    fn found(&self, session: &Session, all: &[GridCell], empty: usize) -> Option<Found> {
        let counts = self.counts;
        match self.kind {
            CheckKind::OneKnuckle => {
                let lengths: Vec<Length> = all.iter().filter_map(|at| self.length(*at)).collect();
                let sample = Sample::of(lengths)?;
                let scatter = Scatter {
                    sd_nm: sample.sd_nm()?,
                    dof: sample.dof(),
                    source: ScatterSource::GaugeCheck,
                };
                Some(Found::OneKnuckle(scatter, sample.count()))
            }
            CheckKind::TwoLacings if empty == 0 => {
                let arms = session.press.arms.len();
                let knuckle = |row: usize, knuckle: usize| -> Vec<f64> {
                    let first = knuckle * counts.each;
                    let columns = first..first + counts.each;
                    columns.map(|column| self.nm(row, column)).collect()
                };
                let lacing = |row: usize| -> Vec<Vec<f64>> {
                    (0..NEIGHBOURS).map(|at| knuckle(row, at)).collect()
                };
                let readings: Vec<Vec<Vec<Vec<f64>>>> = (0..arms)
                    .map(|arm| (0..LACINGS).map(|at| lacing(at * arms + arm)).collect())
                    .collect();
                session.study_lacings(&readings).map(Found::TwoLacings)
            }
            CheckKind::People if empty == 0 => {
                let round = |column: usize| -> Vec<f64> {
                    let rows = 0..counts.knuckles;
                    rows.map(|row| self.nm(row, column)).collect()
                };
                let readings = (0..counts.people).map(|person| {
                    let first = person * counts.rounds;
                    (first..first + counts.rounds).map(round).collect()
                });
                let table = StudyTable::new(readings.collect())?;
                let both = [table.average_and_range(), table.analysis_of_variance()];
                Some(Found::People(Box::new(both)))
            }
            CheckKind::TwoLacings | CheckKind::People => None,
        }
    }
}
