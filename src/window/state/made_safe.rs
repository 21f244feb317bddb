//! Before what the press is made safe.

use crate::session::{Hands, Stage};

use super::turn_card::Turning;

/// Before what the press is made safe.
#[derive(Debug, Clone, PartialEq)]
pub enum Before {
    /// Before nuts are turned.
    Turning(Turning),
    /// Before hands go in at a stage.
    Hands(Stage),
}

impl Before {
    /// What hands are about to do.
    pub fn hands(&self) -> Hands {
        self.stage().hands()
    }

    /// The stage whose work it is.
    pub fn stage(&self) -> Stage {
        match self {
            Self::Turning(_) => Stage::Turn,
            Self::Hands(stage) => *stage,
        }
    }
}
