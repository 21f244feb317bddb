//! `new`: starts a session file.

use std::path::{Path, PathBuf};

use crate::press::{Arm, NutPosition, Press, customary};
use crate::session::{Edit, EditProblem, KnownResponse, Session, SessionProblem};
use crate::store::{self, Expected, OpenProblem, ReadingsFileProblem};
use crate::units::{TypedLength, Unit};
use crate::words::Figures;

use super::options::{
    OptionProblem, Options, for_all, length, lengths, limits_per_arm, notches_per_arm, options,
};
use super::sentences::option_problem;
use super::table::outside_limits;
use super::{Console, Done};

options! {
    /// Options of `new`.
    NewOptions(file: Option<PathBuf>) {
        arms: Text = "--arms",
        length: Text = "--length",
        unit: Text = "--unit",
        stations: Text = "--stations",
        notch: Text = "--notch",
        tolerance: Text = "--tolerance",
        gauge_step: Text = "--gauge-step",
        nuts: Text = "--nuts",
        nut_limits: Text = "--nut-limits",
        target: Text = "--target",
        name: Text = "--name",
        gauge: Text = "--gauge",
        who: Text = "--who",
        when: Text = "--when",
        belt: Text = "--belt",
        hooks: Text = "--hooks",
        notes: Text = "--notes",
        invented: Flag = "--invented",
        /// A CSV file with a response that is given outright.
        response: Text = "--response",
        /// A press file to start from.
        press: Text = "--press",
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

/// What a press file has itself.
const PRESS_HAS: [&str; 13] = [
    "--arms",
    "--length",
    "--unit",
    "--stations",
    "--notch",
    "--nuts",
    "--nut-limits",
    "--response",
    "--tolerance",
    "--gauge-step",
    "--target",
    "--gauge",
    "--name",
];

/// The next visit to the press of a press file.
fn next_visit(options: &NewOptions, press: &Path) -> Result<Session, Refusal> {
    if let Some(option) = options.given(&PRESS_HAS) {
        return Err(OptionProblem::NotWithPress(option).into());
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
