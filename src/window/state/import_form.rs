//! What stands in the dialog that imports readings, and what comes of it.

use crate::press::LengthQuantity;
use crate::session::{Edit, Session};
use crate::splice::{Cell, Doubtful, PieceCheck, doubtful};
use crate::stats::median;
use crate::store::{
    self, CsvColumns, CsvFound, CsvLine, CsvProblem, CsvReading, csv_columns, csv_lines,
    readings_from_csv,
};
use crate::units::Unit;

/// Lines shown before anything is imported.
const SHOWN_LINES: usize = 6;

/// What a column holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ColumnRole {
    /// Nothing that is wanted.
    Out,
    /// The name of an arm or station.
    Arm,
    /// The reading.
    Reading,
    /// The unit of the reading.
    Unit,
    /// The readings of one station, by its index.
    Station(usize),
}

/// Where the readings go.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Into {
    /// Into a new pass, nothing turned before it.
    NewPass,
    /// Into a pass, after the readings that are there.
    After(usize),
    /// Into a pass, in place of the readings that are there.
    InPlaceOf(usize),
}

/// What stands in the dialog.
#[derive(Debug, Clone, PartialEq)]
pub struct ImportForm {
    /// Name of the file; none for pasted text.
    pub file: Option<String>,
    /// Why the file could not be read.
    pub refused: Option<String>,
    /// The text.
    pub text: String,
    /// What each column holds.
    pub roles: Vec<ColumnRole>,
    /// Whether the first line names the columns.
    pub has_header: bool,
    /// Unit of readings that name none.
    pub bare: Unit,
    /// Where the readings go; none until it is chosen.
    pub into: Option<Into>,
    /// The first lines.
    pub lines: Vec<CsvLine>,
    /// What is read of it by these columns.
    pub found: Result<CsvFound, CsvProblem>,
}

impl ImportForm {
    /// An empty form; a pass on show that has no readings is what it is for.
    /// Where there are readings already, nobody but the user knows whether nuts
    /// were turned before these.
    pub fn new(session: &Session, shown: Option<usize>, bare: Unit) -> Self {
        let empty = |pass: &usize| {
            let pass = session.passes.get(*pass);
            pass.is_some_and(|pass| !pass.has_readings())
        };
        Self {
            file: None,
            refused: None,
            text: String::new(),
            roles: Vec::new(),
            has_header: true,
            bare,
            into: match shown.filter(empty) {
                Some(pass) => Some(Into::After(pass)),
                None => session.passes.is_empty().then_some(Into::NewPass),
            },
            lines: Vec::new(),
            found: Err(CsvProblem::Empty),
        }
    }

    /// Takes another text and looks what its header says; where it says
    /// nothing, the columns are to be named by hand.
    pub fn take_text(&mut self, session: &Session, text: String) {
        self.text = text;
        let stations = stations(session);
        let by_header = reading(&stations, self.bare, None, true);
        let (lines, width) = csv_lines(&self.text, SHOWN_LINES, &by_header);
        self.lines = lines;
        let columns = csv_columns(&self.text, &by_header);
        self.has_header = columns.is_ok();
        self.roles = columns.map_or_else(|_| Vec::new(), |columns| roles(&columns));
        self.roles.resize(width, ColumnRole::Out);
        self.read(session);
        if let Err(CsvProblem::Header(_)) = self.found {
            // Whether a first line without a number is a header, or a wrong one.
            let number = |field: &String| field.starts_with(|c: char| c.is_ascii_digit());
            let first = self.lines.first();
            self.has_header = !first.is_some_and(|line| line.fields.iter().any(number));
        }
    }

    /// Reads the text by the columns as they are named now.
    pub fn read(&mut self, session: &Session) {
        let stations = stations(session);
        let by_hand = self.columns();
        let named = by_hand.is_some();
        let reading = reading(&stations, self.bare, by_hand, self.has_header || !named);
        self.found = readings_from_csv(&self.text, &reading);
    }

    /// The columns as they are named; none while nothing is.
    fn columns(&self) -> Option<CsvColumns> {
        let of = |role: ColumnRole| self.roles.iter().position(|one| *one == role);
        let roles = self.roles.iter().enumerate();
        let readings: Vec<usize> = roles
            .filter(|(_, role)| **role == ColumnRole::Reading)
            .map(|(column, _)| column)
            .collect();
        if let (Some(station), false) = (of(ColumnRole::Arm), readings.is_empty()) {
            let unit = of(ColumnRole::Unit);
            return Some(CsvColumns::ByRow {
                station,
                readings,
                unit,
            });
        }
        let station = |role: &ColumnRole| match role {
            ColumnRole::Station(station) => Some(*station),
            _ => None,
        };
        let stations: Vec<Option<usize>> = self.roles.iter().map(station).collect();
        let any = stations.iter().any(Option::is_some);
        any.then_some(CsvColumns::ByColumn(stations))
    }

    /// Names a column. Each name but "nothing" and "reading" is given once, and
    /// a column of one station goes with no column of names.
    pub fn name(&mut self, session: &Session, column: usize, role: ColumnRole) {
        let by_station = matches!(role, ColumnRole::Station(_));
        for other in &mut self.roles {
            let clashes = match other {
                ColumnRole::Out => false,
                ColumnRole::Station(_) => !by_station && role != ColumnRole::Out,
                _ => by_station,
            };
            if clashes || (*other == role && role != ColumnRole::Reading) {
                *other = ColumnRole::Out;
            }
        }
        if let Some(place) = self.roles.get_mut(column) {
            *place = role;
        }
        self.read(session);
    }

    /// Whether a heading or the user says what columns hold; else the text is
    /// read line by line.
    pub fn has_columns(&self) -> bool {
        self.roles.iter().any(|role| *role != ColumnRole::Out)
    }

    /// How many readings would be imported, and which stations would get
    /// none.
    pub fn count(&self) -> Option<(usize, Vec<usize>)> {
        let rows = &self.found.as_ref().ok()?.rows;
        let count = rows.iter().map(Vec::len).sum();
        let unread = rows.iter().enumerate().filter(|(_, row)| row.is_empty());
        Some((count, unread.map(|(station, _)| station).collect()))
    }

    /// Readings that look typed in the other unit or with the point elsewhere,
    /// against the session's own readings, else its target; none without either.
    pub fn doubts(&self, session: &Session) -> Vec<(Cell, Doubtful)> {
        let there = session.passes.iter().flat_map(|pass| &pass.rows).flatten();
        let there = there.filter_map(Cell::counting);
        let target = session
            .target
            .as_ref()
            .map(|target| target.length().nm_f64());
        let usual = median(there.map(|it| it.typed.length().nm_f64())).or(target);
        let (Some(usual_nm), Ok(found)) = (usual, &self.found) else {
            return Vec::new();
        };
        let cell = |text: &String| Cell::typed(LengthQuantity::Reading, text, self.bare);
        let rows = found.rows.iter().map(|row| row.iter().map(cell).collect());
        let rows: Vec<Vec<Cell>> = rows.collect();
        let doubts = doubtful(&PieceCheck {
            rows: &rows,
            bare: self.bare,
            usual_nm: Some(usual_nm),
            belt_nm: None,
            before_nm: &[],
            moved_nm: f64::INFINITY,
            stated: None,
            step: session.gauge.step.length(),
            tolerance: session.tolerance.length(),
        });
        let slips = doubts.into_iter().filter(|doubt| doubt.likely.is_some());
        let of =
            |doubt: Doubtful| Some((rows.get(doubt.station)?.get(doubt.repeat)?.clone(), doubt));
        slips.filter_map(of).collect()
    }

    /// The one change that imports the readings, and the pass they go into;
    /// none where there is nothing to import, or nobody said where to.
    pub fn edit(&self, session: &Session) -> Option<(Edit, usize)> {
        let rows = &self.found.as_ref().ok()?.rows;
        if rows.iter().all(Vec::is_empty) {
            return None;
        }
        let fill = |pass: usize, repeat: usize, rows: Vec<Vec<String>>| {
            Edit::fill((pass, 0, repeat), rows, self.bare)
        };
        let there = |pass: usize| session.passes.get(pass).map_or(&[][..], |pass| &pass.rows);
        Some(match self.into? {
            Into::NewPass => {
                let pass = session.passes.len();
                let add = Edit::add_pass([], store::today());
                (Edit::Together(vec![add, fill(pass, 0, rows.clone())]), pass)
            }
            Into::After(pass) => {
                // Rounds stay rounds: every station goes on at the same one.
                let rounds = there(pass).iter().map(Vec::len).max().unwrap_or(0);
                (fill(pass, rounds, rows.clone()), pass)
            }
            Into::InPlaceOf(pass) => {
                let mut rows = rows.clone();
                for (row, there) in rows.iter_mut().zip(there(pass)) {
                    let all = row.len().max(there.len());
                    row.resize(all, String::new());
                }
                (fill(pass, 0, rows), pass)
            }
        })
    }
}

fn stations(session: &Session) -> Vec<String> {
    let stations = 0..session.stations.len();
    stations.map(|at| session.station_name(at)).collect()
}

fn reading(
    stations: &[String],
    bare: Unit,
    columns: Option<CsvColumns>,
    has_header: bool,
) -> CsvReading<'_> {
    CsvReading {
        stations,
        bare,
        columns,
        has_header,
    }
}

fn roles(columns: &CsvColumns) -> Vec<ColumnRole> {
    match columns {
        CsvColumns::ByRow {
            station,
            readings,
            unit,
        } => {
            let last = readings.iter().copied().max().unwrap_or(0);
            let last = last.max(*station).max(unit.unwrap_or(0));
            let role = |column: usize| match column {
                column if column == *station => ColumnRole::Arm,
                column if readings.contains(&column) => ColumnRole::Reading,
                column if Some(column) == *unit => ColumnRole::Unit,
                _ => ColumnRole::Out,
            };
            (0..=last).map(role).collect()
        }
        CsvColumns::ByColumn(stations) => stations
            .iter()
            .map(|station| station.map_or(ColumnRole::Out, ColumnRole::Station))
            .collect(),
    }
}
