//! `card` and `report`: pages and pictures of a session.

use std::path::Path;

use crate::report::{
    About, COLUMNS, Facts, Field, Fonts, Page, Paper, PdfProblem, PngProblem, Setting, csv_line,
    pdf, png, profile_picture, reading_rows, session_report, svg, turn_card,
};
use crate::session::{IsoDate, PriorShelf, Session};
use crate::store;
use crate::units::Unit;
use crate::words::{Figures, Language};

use super::Console;
use super::figures::figures_of;
use super::options::{OptionProblem, PaperOptions};
use super::sentences::option_problem;

/// Pixels to a point of a picture: 192 to the inch.
const PIXELS_PER_POINT: f32 = 192.0 / 72.0;

/// Writes the turn card. Answers whether it was done.
pub(super) fn card(options: &PaperOptions, console: &mut Console<'_>) -> bool {
    run(options, console, &["pdf"], |work, _| {
        let facts = Facts::of(work.session, None, &PriorShelf::default());
        let pages = turn_card(work.session, &facts, &work.setting, &work.fonts);
        work.pdf(&pages, work.words.card_heading())
    })
}

/// Writes the report of a visit. Answers whether it was done.
pub(super) fn report(options: &PaperOptions, console: &mut Console<'_>) -> bool {
    let endings = ["pdf", "png", "svg", "csv"];
    run(options, console, &endings, |work, ending| {
        let picture = || profile_picture(work.session, &work.setting, &work.fonts);
        match ending {
            "png" => png(&picture(), &work.fonts, PIXELS_PER_POINT)
                .map_err(|problem| not_made(work.words, &problem)),
            "svg" => {
                let title = work.words.report_profile();
                Ok(svg(&picture(), &work.fonts, title).into_bytes())
            }
            "csv" => Ok(readings(work.session).into_bytes()),
            _ => {
                let facts = Facts::of(work.session, None, &PriorShelf::default());
                let pages = session_report(work.session, &facts, &work.setting, &work.fonts);
                work.pdf(&pages, work.words.report_heading())
            }
        }
    })
}

/// Every reading as CSV, with a line of heads.
fn readings(session: &Session) -> String {
    let heads = COLUMNS.map(|column| Field::Text(column.to_owned()));
    let mut lines = vec![csv_line(&heads)];
    lines.extend(reading_rows(session).iter().map(|row| csv_line(row)));
    lines.push(String::new());
    lines.join("\r\n")
}

/// A session at work.
struct Work<'a> {
    session: &'a Session,
    setting: Setting,
    fonts: Fonts,
    words: Language,
}

impl Work<'_> {
    fn pdf(&self, pages: &[Page], heading: &str) -> Result<Vec<u8>, String> {
        let name = &self.session.press.name;
        let about = About {
            title: format!("{heading}, {name}"),
            language: self.words.code(),
            author: self.session.notes.who.clone(),
        };
        pdf(pages, &self.fonts, &about).map_err(|problem| pdf_not_made(self.words, &problem))
    }
}

fn run(
    options: &PaperOptions,
    console: &mut Console<'_>,
    endings: &[&str],
    make: impl FnOnce(&Work<'_>, &str) -> Result<Vec<u8>, String>,
) -> bool {
    match written(options, console.language, endings, make) {
        Ok(path) => {
            let said = console.language.paper_written(path.display());
            console.say(&said);
            true
        }
        Err(sentence) => {
            console.complain(&sentence);
            false
        }
    }
}

fn written<'a>(
    options: &'a PaperOptions,
    words: Language,
    endings: &[&str],
    make: impl FnOnce(&Work<'_>, &str) -> Result<Vec<u8>, String>,
) -> Result<&'a Path, String> {
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
        setting: Setting {
            figures: Figures { unit, ..figures },
            paper: options.paper.unwrap_or(usual_paper(unit)),
            today: IsoDate::parse(&today).ok(),
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
    Ok(out)
}

/// The paper of the place where a unit is used.
const fn usual_paper(unit: Unit) -> Paper {
    match unit {
        Unit::Inch => Paper::Letter,
        Unit::Millimetre => Paper::A4,
    }
}

fn pdf_not_made(words: Language, problem: &PdfProblem) -> String {
    let why = match problem {
        PdfProblem::NoSize => words.paper_no_size(),
        PdfProblem::Fonts => words.paper_no_fonts(),
        PdfProblem::NotWritten(why) => why,
    };
    words.paper_not_made(why)
}

fn not_made(words: Language, problem: &PngProblem) -> String {
    let why = match problem {
        PngProblem::Size => words.paper_no_size(),
        PngProblem::NotWritten(why) => why,
    };
    words.paper_not_made(why)
}
