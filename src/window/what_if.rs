//! Keeping previews to compare, and refusing those that cannot be made.

use super::App;
use super::messages::Tone;
use super::state::{KeptTurns, MOST_KEPT};

impl App {
    /// Keeps the turns on show under the name typed, or the one suggested.
    pub(super) fn keep_preview(&mut self, now: f64) {
        let words = self.words();
        let Some(pass) = self.shown_pass() else {
            return;
        };
        let turns = self.turns_on_show();
        let known = self.view.what_if.of(Some(pass), turns.len());
        let same = known.map(|(_, kept)| kept).find(|kept| kept.turns == turns);
        if let Some(same) = same {
            let sentence = words.said_kept_already(&same.name);
            self.say(Tone::Done, sentence, now);
            return;
        }
        if self.view.what_if.kept.len() >= MOST_KEPT {
            self.say(Tone::Problem, words.said_no_more_kept().to_owned(), now);
            return;
        }
        let planned = self.outlook().recommended_turns().as_ref() == Some(&turns);
        let typed = std::mem::take(&mut self.view.what_if.name);
        let name = match typed.trim() {
            "" => words.suggested_name(&turns, planned),
            typed => typed.to_owned(),
        };
        let name = format!("{}: {name}", self.view.what_if.free_number());
        self.say(Tone::Done, words.said_kept(&name), now);
        self.view.what_if.kept.push(KeptTurns { name, pass, turns });
    }

    /// Throws kept turns away.
    pub(super) fn drop_preview(&mut self, index: usize) {
        if index < self.view.what_if.kept.len() {
            self.view.what_if.kept.remove(index);
        }
    }

    /// Says why the turns on show cannot have been made, where that is so.
    pub(super) fn refuses_turns(&mut self, now: f64) -> bool {
        let pass = self.shown_pass().unwrap_or(usize::MAX);
        let turns = self.turns_on_show();
        let troubles = self.session().turn_troubles(pass, &turns);
        let figures = self.figures();
        let mut sentence = self.words().trouble_title().to_owned();
        for trouble in &troubles {
            sentence.push(' ');
            sentence.push_str(&figures.turn_trouble(trouble));
        }
        if !troubles.is_empty() {
            self.say(Tone::Problem, sentence, now);
        }
        !troubles.is_empty()
    }
}
