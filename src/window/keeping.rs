//! Unsaved work kept aside a little after the last change.

use std::sync::Arc;

use eframe::egui;

use crate::press::Notches;
use crate::session::{Edit, Session};
use crate::store;

use super::App;
use super::messages::Tone;
use super::state::turn_card::{Purpose, TurnCard};

/// How often work is kept aside at most, in seconds: the first change at once,
/// the last of many this much later at most, for that much is lost when the
/// program is killed.
const KEEP_EVERY: f64 = 0.5;
/// How long until keeping aside is tried again after the disk refused it, in
/// seconds.
const KEEP_AGAIN: f64 = 10.0;

impl App {
    /// Keeps unsaved work aside, and says so when that fails.
    pub(super) fn keep_aside(&mut self, ctx: &egui::Context, now: f64) {
        let Some(recovery) = &self.recovery else {
            return;
        };
        let problem = recovery.problem();
        self.say_of_keeping(problem, now);
        let state = (self.document.revision(), self.turned_so_far());
        if state == self.kept && problem.is_none() {
            return;
        }
        let every = match problem {
            Some(_) => KEEP_AGAIN,
            None => KEEP_EVERY,
        };
        let wait = self.kept_at.map_or(0.0, |kept| kept + every - now);
        if wait > 0.0 {
            ctx.request_repaint_after_secs(wait as f32 + 0.01);
            return;
        }
        self.kept_at = Some(now);
        self.kept = state;
        if self.practicing.is_some() {
            // Its own file is written instead: it never comes back as a session.
            self.keep_practice();
            return;
        }
        let Some(recovery) = &self.recovery else {
            return;
        };
        let turned = self.noted_so_far();
        if turned.is_some() || self.document.has_unsaved_changes() {
            let origin = store::Origin {
                path: self.files.path.clone(),
                opened: self.files.fingerprint,
            };
            let work = turned.map_or_else(|| self.document.shared(), Arc::new);
            recovery.keep(work, origin);
        } else {
            recovery.forget();
        }
    }

    /// What is ticked as turned on the turn card and not noted yet, while the
    /// card is still about this session.
    pub(super) fn turned_so_far(&self) -> Vec<Notches> {
        let card = self.view.turn_card.as_ref();
        let ticked =
            card.filter(|card| card.any_turned() && card.fits(self.session(), card.turning()));
        ticked.map(TurnCard::turned).unwrap_or_default()
    }

    /// The session as if that were noted: whoever comes back after a crash
    /// finds the nuts where they really stand.
    fn noted_so_far(&self) -> Option<Session> {
        let turns = self.turned_so_far();
        let turning = self.view.turn_card.as_ref()?.turning();
        let edit = match turning.purpose {
            _ if turns.is_empty() => return None,
            Purpose::Splice => Edit::add_pass(turns, ""),
            Purpose::CoarseGap => self.session().coarse_gap_turned(&turns),
        };
        self.session().edited(&edit).ok()
    }

    /// Says that work cannot be kept aside, and that it can again.
    fn say_of_keeping(&mut self, problem: Option<store::DiskProblem>, now: f64) {
        if problem == self.kept_problem {
            return;
        }
        self.kept_problem = problem;
        let words = self.words();
        match problem {
            Some(problem) => {
                if let Some(log) = &self.log {
                    log.note_kind("keeping aside", &problem);
                }
                let why = words.disk_refusal(problem);
                self.messages
                    .say(Tone::Problem, words.said_not_kept_aside(why), now);
            }
            None => {
                let again = words.said_kept_aside_again().to_owned();
                self.messages.say(Tone::Done, again, now);
            }
        }
    }
}
