//! `card` and `report`: pages and pictures of a session.

use std::path::PathBuf;

use crate::report::{
    Fonts, Paper, Printed, Setting, csv_heads, csv_line, png, profile_picture, reading_rows, svg,
};
use crate::session::{IsoDate, PriorShelf, Session};
use crate::store;
use crate::units::Unit;
use crate::words::{Figures, Language};

use super::figures::figures_of;
use super::options::{OptionProblem, options};
use super::sentences::option_problem;
use super::{Console, Done};

options! {
    /// Options of `card` and `report`.
    PaperOptions(file: Option<PathBuf>) {
        /// What is written.
        out: Path = "-o" | "--output",
        /// The unit of every figure; none for the session's own.
        unit: Unit = "--unit",
        /// The paper; none for what goes with the unit.
        paper: Paper = "--paper",
    }
}

/// Pixels to a point of a picture: 192 to the inch.
const PIXELS_PER_POINT: f32 = 192.0 / 72.0;

/// Writes the turn card.
pub(super) fn card(options: &PaperOptions, console: &mut Console<'_>) -> Done {
    run(options, console, &["pdf"], |work, _| {
        work.printed(Printed::TurnCard)
    })
}

/// Writes the report of a visit.
pub(super) fn report(options: &PaperOptions, console: &mut Console<'_>) -> Done {
    let endings = ["pdf", "png", "svg", "csv"];
    run(options, console, &endings, |work, ending| {
        let picture = || profile_picture(work.session, &work.setting, &work.fonts);
        match ending {
            "png" => png(&picture(), &work.fonts, PIXELS_PER_POINT)
                .map_err(|problem| problem.sentence(work.words)),
            "svg" => {
                let title = work.words.report_profile();
                Ok(svg(&picture(), &work.fonts, title).into_bytes())
            }
            "csv" => Ok(readings(work).into_bytes()),
            _ => work.printed(Printed::Report),
        }
    })
}

/// Every reading as CSV, with a line of heads.
fn readings(work: &Work<'_>) -> String {
    let mut lines = vec![csv_heads()];
    let rows = reading_rows(work.session, &work.file);
    lines.extend(rows.iter().map(|row| csv_line(row)));
    lines.push(String::new());
    lines.join("\r\n")
}

/// A session at work.
struct Work<'a> {
    session: &'a Session,
    /// The name of its file.
    file: String,
    setting: Setting,
    fonts: Fonts,
    words: Language,
}

impl Work<'_> {
    fn printed(&self, what: Printed) -> Result<Vec<u8>, String> {
        let shelf = PriorShelf::default();
        let written = what.document(self.session, None, &self.setting, &shelf);
        written.map_err(|problem| problem.sentence(self.words))
    }
}

fn run(
    options: &PaperOptions,
    console: &mut Console<'_>,
    endings: &[&str],
    make: impl FnOnce(&Work<'_>, &str) -> Result<Vec<u8>, String>,
) -> Done {
    let words = console.language;
    let needed = |problem: OptionProblem| option_problem(words, &problem);
    let file = options.file.as_deref();
    let file = file.ok_or_else(|| needed(OptionProblem::NoFile))?;
    let out = options.out.as_deref();
    let out = out.ok_or_else(|| needed(OptionProblem::Needed("-o")))?;
    let ending = out.extension().and_then(|ending| ending.to_str());
    let ending = ending.map(str::to_ascii_lowercase).unwrap_or_default();
    if !endings.contains(&ending.as_str()) {
        let endings: Vec<String> = endings.iter().map(|ending| format!(".{ending}")).collect();
        return Err(words.paper_ending(out.display(), endings.join(", ")));
    }
    let opened = store::open(file)
        .map_err(|problem| Figures::exact(words, Unit::Inch).open_problem(&problem, file))?;
    let session = &opened.session;
    let today = store::today();
    let figures = figures_of(session, words);
    let unit = options.unit.unwrap_or(session.unit);
    let work = Work {
        session,
        file: file.display().to_string(),
        setting: Setting {
            figures: Figures { unit, ..figures },
            paper: options.paper.unwrap_or(Paper::usual(unit)),
            today: IsoDate::parse(&today).ok(),
            practice: false,
            printed: store::moment_of(std::time::SystemTime::now()),
        },
        fonts: Fonts::new(),
        words,
    };
    let bytes = make(&work, &ending)?;
    store::write_out(out, &bytes).map_err(|problem| {
        let why = words.disk_refusal(problem);
        words.with_path(why, out.display())
    })?;
    console.say(&words.paper_written(out.display()));
    Ok(true)
}
