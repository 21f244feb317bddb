//! Adds a pass to a session file, wherever its readings come from.

use std::path::{Path, PathBuf};

use crate::press::Notches;
use crate::session::{Edit, Session};
use crate::store::{self, Expected, Fingerprint, Opened};
use crate::units::Unit;
use crate::words::Figures;

use super::figures::figures_of;
use super::options::{OptionProblem, notches_per_arm, options};
use super::sentences::option_problem;
use super::table::outside_limits;
use super::{Console, Done};

options! {
    /// What every command that adds a pass is told.
    PassOptions(file: Option<PathBuf>) {
        /// Turns since the pass before; none where nothing was turned.
        turned: Text = "--turned",
        /// When it was laced; today where it is not said.
        laced: Text = "--laced",
        /// A note on it.
        note: Text = "--note",
    }
}

impl PassOptions {
    /// Opens the session, or says why not; says beforehand what saving will
    /// not keep.
    pub(super) fn open(&self, console: &mut Console<'_>) -> Result<(&Path, Opened), String> {
        let words = console.language;
        let path = self.file.as_deref();
        let path = path.ok_or_else(|| option_problem(words, &OptionProblem::NoFile))?;
        let opened = store::open(path)
            .map_err(|problem| Figures::exact(words, Unit::Inch).open_problem(&problem, path))?;
        if opened.comments {
            let sentence = words.comments_not_kept().to_owned();
            console.complain(&words.with_path(sentence, path.display()));
        }
        Ok((path, opened))
    }

    /// Adds a pass with these texts for its cells, a row per station, saves the
    /// session where it came from and says how the pass stands. Answers with a
    /// sentence when nothing was added.
    pub(super) fn add_pass(
        &self,
        path: &Path,
        session: Session,
        opened: Fingerprint,
        rows: Vec<Vec<String>>,
        console: &mut Console<'_>,
    ) -> Done {
        let words = console.language;
        let figures = figures_of(&session, words);
        let turns = match &self.turned {
            Some(found) => notches_per_arm("--turned", found, session.press.arms.len(), Notches)
                .map_err(|problem| option_problem(words, &problem))?,
            None => Vec::new(),
        };
        let pass = session.passes.len();
        let note = self.note.as_ref().map(|note| Edit::SetPassText {
            pass,
            note: true,
            text: note.clone(),
        });
        let edits = [
            Edit::add_pass(turns, self.laced.clone().unwrap_or_else(store::today)),
            Edit::fill((pass, 0, 0), rows, session.unit),
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
        Ok(true)
    }
}
