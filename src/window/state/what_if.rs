//! Turns kept by hand to be compared.

use crate::press::Notches;

/// Most previews that are kept; each has a number of its own.
pub const MOST_KEPT: usize = 12;

/// Turns kept to be compared.
#[derive(Debug, Clone, PartialEq)]
pub struct KeptTurns {
    /// Its number and name: `1: plan`; a letter would be taken for an arm.
    pub name: String,
    /// The pass they start from.
    pub pass: usize,
    /// The turns, one per arm.
    pub turns: Vec<Notches>,
}

/// What is kept, and the name being typed.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct WhatIf {
    /// What is kept, in the order in which it was.
    pub kept: Vec<KeptTurns>,
    /// The name typed for what is kept next.
    pub name: String,
}

impl WhatIf {
    /// What is kept for a pass of a press with so many arms.
    pub fn of(
        &self,
        pass: Option<usize>,
        arms: usize,
    ) -> impl Iterator<Item = (usize, &KeptTurns)> {
        self.kept
            .iter()
            .enumerate()
            .filter(move |(_, kept)| Some(kept.pass) == pass && kept.turns.len() == arms)
    }

    /// A number that no other kept preview has.
    pub fn free_number(&self) -> usize {
        let taken = |number: usize| {
            let head = format!("{number}:");
            self.kept.iter().any(|kept| kept.name.starts_with(&head))
        };
        (1..).find(|number| !taken(*number)).unwrap_or(0)
    }
}
