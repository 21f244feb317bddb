//! What the program said: shown for a while, and found again later.

use std::time::Duration;

/// Whether a message is good news, bad news or neither.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Tone {
    /// Something was done.
    Done,
    /// Something was refused or failed.
    Problem,
}

/// One message.
#[derive(Debug, Clone, PartialEq)]
pub struct Message {
    /// The sentence.
    pub text: String,
    /// Its tone.
    pub tone: Tone,
    /// When it was said, in seconds since the window opened.
    pub said_at: f64,
}

/// Everything the program said since the window opened.
#[derive(Debug, Default)]
pub struct Messages {
    all: Vec<Message>,
    dismissed: usize,
}

/// How long a message of good news stays in sight. Bad news stays until it is
/// dismissed.
const SHOWN_FOR: f64 = 6.0;

/// Most messages kept; older ones are let go.
const MOST_KEPT: usize = 200;

impl Messages {
    /// Says something at a time.
    pub fn say(&mut self, tone: Tone, text: String, now: f64) {
        if self.all.len() >= MOST_KEPT {
            self.all.remove(0);
            self.dismissed = self.dismissed.saturating_sub(1);
        }
        self.all.push(Message {
            text,
            tone,
            said_at: now,
        });
    }

    /// All messages, oldest first.
    pub fn all(&self) -> &[Message] {
        &self.all
    }

    /// The newest message still to be in sight.
    pub fn in_sight(&self, now: f64) -> Option<&Message> {
        self.all
            .iter()
            .skip(self.dismissed)
            .next_back()
            .filter(|message| message.tone == Tone::Problem || now - message.said_at < SHOWN_FOR)
    }

    /// How long until what is in sight changes by itself.
    pub fn changes_in(&self, now: f64) -> Option<Duration> {
        let message = self.in_sight(now)?;
        (message.tone == Tone::Done)
            .then(|| Duration::from_secs_f64((message.said_at + SHOWN_FOR - now).max(0.05)))
    }

    /// Takes everything out of sight; it can still be found again.
    pub fn dismiss(&mut self) {
        self.dismissed = self.all.len();
    }
}
