//! How a pass stands, where that can be said.

use crate::splice::{Spread, Standing};

use super::Session;

/// How a pass stands by the plain comparison.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Judged {
    /// The pass.
    pub pass: usize,
    /// Its spread over the counting stations.
    pub spread: Spread,
    /// Inside or outside.
    pub standing: Standing,
}

/// Why nothing can be said of how a pass stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NotJudged {
    /// There is no pass yet.
    NoPass,
    /// Something is written in a cell that is no thickness: the spread may be
    /// any. Pass, station and repeat.
    Unreadable {
        /// Pass index.
        pass: usize,
        /// Station index.
        station: usize,
        /// Repeat index.
        repeat: usize,
    },
    /// Fewer than two counting stations are read, and one thickness has no
    /// spread. The pass and the stations that are read.
    TooFewRead {
        /// Pass index.
        pass: usize,
        /// How many counting stations are read.
        read: usize,
    },
}

impl Session {
    /// How a pass stands.
    ///
    /// # Errors
    /// Why that cannot be said.
    pub fn judged(&self, pass: usize) -> Result<Judged, NotJudged> {
        let Some(laced) = self.passes.get(pass) else {
            return Err(NotJudged::NoPass);
        };
        if let Some((station, repeat)) = laced.unreadable().next() {
            return Err(NotJudged::Unreadable {
                pass,
                station,
                repeat,
            });
        }
        let profile = laced.profile();
        let spread = Spread::of(&self.stations, &profile).ok_or_else(|| NotJudged::TooFewRead {
            pass,
            read: self
                .stations
                .iter()
                .enumerate()
                .filter(|(station, at)| at.counts && profile.mean(*station).is_some())
                .count(),
        })?;
        let standing = spread.standing(self.tolerance.length());
        Ok(Judged {
            pass,
            spread,
            standing,
        })
    }

    /// How the last pass stands.
    ///
    /// # Errors
    /// Why that cannot be said.
    pub fn last_judged(&self) -> Result<Judged, NotJudged> {
        match self.passes.len().checked_sub(1) {
            Some(last) => self.judged(last),
            None => Err(NotJudged::NoPass),
        }
    }
}
