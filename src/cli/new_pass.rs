//! Adds a pass to a session file, wherever its readings come from.

use std::path::Path;

use crate::press::Notches;
use crate::session::{Edit, Session};
use crate::store::{self, Expected, Fingerprint};

use super::Console;
use super::figures::figures_of;

use super::options::notches_per_arm;
use super::sentences::option_problem;
use super::table::outside_limits;

/// A pass to be added.
pub(super) struct NewPass<'a> {
    /// Texts for the cells, a row per station.
    pub rows: Vec<Vec<String>>,
    /// The value of `--turned`; none where nothing was turned.
    pub turned: Option<&'a str>,
    /// When it was laced; today where it is not said.
    pub laced: Option<&'a str>,
    /// A note on it.
    pub note: Option<&'a str>,
}

/// Adds the pass, saves the session where it came from and says how the pass
/// stands. Answers with a sentence when nothing was added.
pub(super) fn add_pass(
    path: &Path,
    session: Session,
    opened: Fingerprint,
    new: NewPass<'_>,
    console: &mut Console<'_>,
) -> Result<(), String> {
    let words = console.language;
    let figures = figures_of(&session, words);
    let turns = match new.turned {
        Some(found) => notches_per_arm("--turned", found, session.press.arms.len(), Notches)
            .map_err(|problem| option_problem(words, &problem))?,
        None => Vec::new(),
    };
    let pass = session.passes.len();
    let note = new.note.map(|note| Edit::SetPassText {
        pass,
        note: true,
        text: note.to_owned(),
    });
    let edits = [
        Edit::AddPass {
            turns,
            laced: new.laced.map_or_else(store::today, str::to_owned),
        },
        Edit::Fill {
            pass,
            station: 0,
            repeat: 0,
            rows: new.rows,
            bare: session.unit,
        },
    ];
    let recorded = edits
        .iter()
        .chain(&note)
        .try_fold(session, |session, edit| session.edited(edit))
        .map_err(|problem| figures.edit_problem(&problem))?;
    store::save(path, &recorded, Expected::Unchanged(opened))
        .map_err(|problem| figures.save_problem(&problem, path))?;
    console.say(&words.cli_recorded(pass + 1, path.display()));
    let gate = recorded.gate(pass);
    if gate.doubtful.is_empty() {
        console.say(&figures.judged(&recorded, &gate));
    } else {
        for sentence in figures.gate_sentences(&recorded, &gate) {
            console.complain(&sentence);
        }
    }
    outside_limits(&recorded, recorded.nuts_now(), console);
    Ok(())
}
