//! `new`: starts a session file.

use std::path::{Path, PathBuf};

use crate::press::{Arm, NutPosition, Press, customary};
use crate::session::{Edit, EditProblem, KnownResponse, Session, SessionProblem};
use crate::store::{self, Expected, OpenProblem, ReadingsFileProblem};
use crate::units::{TypedLength, Unit};
use crate::words::Figures;

use super::options::{
    Files, OptionProblem, Options, Slot, for_all, length, lengths, limits_per_arm, notches_per_arm,
};
use super::sentences::option_problem;
use super::table::outside_limits;
use super::{Console, Done};

/// Options of `new`.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct NewOptions {
    file: Option<PathBuf>,
    arms: Option<String>,
    length: Option<String>,
    unit: Option<String>,
    stations: Option<String>,
    notch: Option<String>,
    tolerance: Option<String>,
    gauge_step: Option<String>,
    nuts: Option<String>,
    nut_limits: Option<String>,
    target: Option<String>,
    name: Option<String>,
    gauge: Option<String>,
    who: Option<String>,
    when: Option<String>,
    belt: Option<String>,
    hooks: Option<String>,
    notes: Option<String>,
    invented: bool,
    /// A CSV file with a response that is given outright.
    response: Option<String>,
    /// A press file to start from.
    press: Option<String>,
}

impl Options for NewOptions {
    fn files(&mut self) -> Files<'_> {
        Files::One(&mut self.file)
    }

    fn slot(&mut self, option: &str) -> Option<Slot<'_>> {
        Some(match option {
            "--arms" => Slot::Text(&mut self.arms),
            "--length" => Slot::Text(&mut self.length),
            "--unit" => Slot::Text(&mut self.unit),
            "--stations" => Slot::Text(&mut self.stations),
            "--notch" => Slot::Text(&mut self.notch),
            "--tolerance" => Slot::Text(&mut self.tolerance),
            "--gauge-step" => Slot::Text(&mut self.gauge_step),
            "--nuts" => Slot::Text(&mut self.nuts),
            "--nut-limits" => Slot::Text(&mut self.nut_limits),
            "--target" => Slot::Text(&mut self.target),
            "--response" => Slot::Text(&mut self.response),
            "--press" => Slot::Text(&mut self.press),
            "--name" => Slot::Text(&mut self.name),
            "--gauge" => Slot::Text(&mut self.gauge),
            "--who" => Slot::Text(&mut self.who),
            "--when" => Slot::Text(&mut self.when),
            "--belt" => Slot::Text(&mut self.belt),
            "--hooks" => Slot::Text(&mut self.hooks),
            "--notes" => Slot::Text(&mut self.notes),
            "--invented" => Slot::Flag(&mut self.invented),
            _ => return None,
        })
    }
}

/// Why no session can be made of the options.
enum Refusal {
    Option(OptionProblem),
    Session(SessionProblem),
    Station(EditProblem),
    /// A press file that cannot be read, and why.
    Press(PathBuf, OpenProblem),
    /// A table that cannot be read, and why.
    Table(PathBuf, ReadingsFileProblem),
}

impl From<OptionProblem> for Refusal {
    fn from(problem: OptionProblem) -> Self {
        Self::Option(problem)
    }
}

/// Makes the session and its file.
pub(super) fn run(options: &NewOptions, console: &mut Console<'_>) -> Done {
    let words = console.language;
    let path = options.file.as_deref();
    let path = path.ok_or_else(|| option_problem(words, &OptionProblem::NoFile))?;
    let unit = options.unit.as_deref().and_then(Unit::from_mark);
    let figures = Figures::exact(words, unit.unwrap_or(Unit::Inch));
    let session = session(options).map_err(|refusal| match refusal {
        Refusal::Option(problem) => option_problem(words, &problem),
        Refusal::Session(problem) => figures.session_problem(&problem),
        Refusal::Station(problem) => figures.edit_problem(&problem),
        Refusal::Press(path, problem) => figures.open_problem(&problem, &path),
        Refusal::Table(path, problem) => {
            words.with_path(words.readings_file_problem(problem), path.display())
        }
    })?;
    store::save(path, &session, Expected::Nothing)
        .map_err(|problem| figures.save_problem(&problem, path))?;
    console.say(&words.cli_made(path.display()));
    outside_limits(&session, session.nuts_now(), console);
    Ok(true)
}

fn needed<'a>(value: Option<&'a String>, option: &'static str) -> Result<&'a str, OptionProblem> {
    value
        .map(String::as_str)
        .ok_or(OptionProblem::Needed(option))
}

fn session(options: &NewOptions) -> Result<Session, Refusal> {
    if let Some(press) = &options.press {
        return next_visit(options, Path::new(press));
    }
    let unit = needed(options.unit.as_ref(), "--unit")?;
    let unit = Unit::from_mark(unit.trim()).ok_or_else(|| OptionProblem::Unit(unit.to_owned()))?;
    let arms = needed(options.arms.as_ref(), "--arms")?;
    let positions = lengths("--arms", arms, unit)?;
    let jaw_length = needed(options.length.as_ref(), "--length")?;
    let jaw_length = length("--length", jaw_length, unit)?;
    let press = Press::new(
        options.name.clone().unwrap_or_default(),
        jaw_length,
        arms_at(positions, options, unit)?,
    );
    let arms = press.arms.len();
    let mut session = Session::new(store::new_session_id(), unit, press);
    if let Some(nuts) = &options.nuts {
        session.start_nuts = notches_per_arm("--nuts", nuts, arms, NutPosition)?;
    }
    if let Some(tolerance) = &options.tolerance {
        session.tolerance = length("--tolerance", tolerance, unit)?;
    }
    if let Some(step) = &options.gauge_step {
        session.gauge.step = length("--gauge-step", step, unit)?;
    }
    if let Some(target) = &options.target {
        session.target = Some(length("--target", target, unit)?);
    }
    let text = |option: &Option<String>| option.clone().unwrap_or_default();
    session.gauge.call(&text(&options.gauge));
    session.notes.who = text(&options.who);
    session.notes.when = options.when.clone().unwrap_or_else(store::today);
    session.notes.belt = text(&options.belt);
    session.notes.hooks = text(&options.hooks);
    session.notes.notes = text(&options.notes);
    session.invented = options.invented;
    session.check().map_err(Refusal::Session)?;
    let stations = options.stations.as_deref();
    for position in stations.map_or(Ok(Vec::new()), |found| lengths("--stations", found, unit))? {
        let add = Edit::add_station(position.text().to_owned(), unit);
        session = session.edited(&add).map_err(Refusal::Station)?;
    }
    if let Some(file) = &options.response {
        let known = response(Path::new(file), unit)?;
        let set = Edit::SetKnownResponse(Some(known));
        session = session.edited(&set).map_err(Refusal::Station)?;
    }
    Ok(session)
}

/// The next visit to the press of a press file.
fn next_visit(options: &NewOptions, press: &Path) -> Result<Session, Refusal> {
    for (given, option) in [
        (&options.arms, "--arms"),
        (&options.length, "--length"),
        (&options.unit, "--unit"),
        (&options.stations, "--stations"),
        (&options.notch, "--notch"),
        (&options.nuts, "--nuts"),
        (&options.nut_limits, "--nut-limits"),
        (&options.response, "--response"),
        (&options.tolerance, "--tolerance"),
        (&options.gauge_step, "--gauge-step"),
        (&options.target, "--target"),
        (&options.gauge, "--gauge"),
        (&options.name, "--name"),
    ] {
        if given.is_some() {
            return Err(OptionProblem::NotWithPress(option).into());
        }
    }
    let opened =
        store::open_press(press).map_err(|problem| Refusal::Press(press.to_owned(), problem))?;
    let when = options.when.clone().unwrap_or_else(store::today);
    let mut session = opened.record.start_session(store::new_session_id(), when);
    let text = |option: &Option<String>| option.clone().unwrap_or_default();
    session.notes.who = text(&options.who);
    session.notes.belt = text(&options.belt);
    session.notes.hooks = text(&options.hooks);
    session.notes.notes = text(&options.notes);
    session.invented = options.invented;
    session.check().map_err(Refusal::Session)?;
    Ok(session)
}

/// A response from a CSV file: a row per station, a column per arm.
fn response(file: &Path, unit: Unit) -> Result<KnownResponse, Refusal> {
    let text = store::read_readings_file(file)
        .map_err(|problem| Refusal::Table(file.to_owned(), problem))?;
    let table: Vec<Vec<String>> = text
        .trim_start_matches('\u{feff}')
        .lines()
        .filter(|line| !line.trim().is_empty())
        .map(|line| {
            line.split([',', ';', '\t'])
                .map(|cell| cell.trim().to_owned())
                .collect()
        })
        .collect();
    KnownResponse::from_table(&table, unit).map_err(|problem| Refusal::Session(problem.into()))
}

fn arms_at(
    positions: Vec<TypedLength>,
    options: &NewOptions,
    unit: Unit,
) -> Result<Vec<Arm>, OptionProblem> {
    let arms = positions.len();
    let notches = match &options.notch {
        Some(found) => lengths("--notch", found, unit)?,
        None => vec![TypedLength::from_length(customary::NOTCH_EFFECT, unit)],
    };
    let notches = for_all("--notch", notches, arms)?;
    let limits = match &options.nut_limits {
        Some(found) => limits_per_arm(found, arms)?.into_iter().map(Some).collect(),
        None => vec![None; arms],
    };
    Ok(positions
        .into_iter()
        .zip(notches)
        .zip(limits)
        .map(|((position, notch_effect), limits)| Arm {
            position,
            notch_effect,
            limits,
            opening_margin: None,
        })
        .collect())
}
