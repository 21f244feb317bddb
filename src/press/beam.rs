//! A free-ended beam on springs and a foundation.
//!
//! The deflection w minimises
//!
//! ```text
//! 1/2 int EI w''^2 dx + 1/2 sum_i k_i (w(x_i) - u_i)^2 + 1/2 int k_f w^2 dx - sum_j P_j w(x_j)
//! ```
//!
//! over the beam's length, both ends free: Euler-Bernoulli bending of rigidity
//! EI (even, or changing in steps), springs k_i whose seats are moved by u_i,
//! a Winkler foundation k_f, and point loads P_j. All quantities are in any
//! consistent set of units; w, u and P are positive in the same direction.
//!
//! **Method.** Nodes stand at the ends, springs, loads and steps, with
//! deflection and slope as unknowns. The elements between them are Hermite's
//! cubics, completed by the terms that make them exact on a foundation
//! (`piece.rs`): nothing depends on a mesh. The stiffness matrix is symmetric
//! with half bandwidth 3. It is factored once, in 2 x 2 blocks and from both
//! ends, each pivot block being kept as its own L D L^T factors
//! (`restraint.rs`). Any number of movements and loads then follow by
//! substitution, in time proportional to the number of nodes.
//!
//! **Guarantee.** Sums of positive terms replace the cancelling differences of
//! ordinary elimination, so deflections keep 13 digits of the largest
//! movement from a rigid to a thin beam, from weak springs to nearly fixed
//! supports, and with nodes very close together (`tests/beam/digits.rs`
//! compares with 400-digit arithmetic). What the beam itself amplifies is
//! amplified: two close supports turned apart throw a long overhang far.
//!
//! **Degenerate cases.** An infinite rigidity is a rigid bar. A spring of
//! stiffness 0 is a slack rod: it does nothing. Without a foundation at
//! least two springs must hold.

mod deflection;
mod error;
mod factored;
mod piece;
mod restraint;
mod slack;

pub use deflection::Deflection;
pub use error::BeamError;
pub use factored::FactoredBeam;
pub use slack::SlackSolution;

/// Bending rigidity from a position to the next section, or the right end.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BeamSection {
    /// Where the section begins. The first one begins at the left end,
    /// whatever stands here.
    pub from: f64,
    /// EI; infinity for a rigid section.
    pub rigidity: f64,
}

/// A rod or support.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BeamSpring {
    /// Where it holds the beam.
    pub position: f64,
    /// Force per deflection; 0 when it is slack.
    pub stiffness: f64,
}

/// A force at a place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PointLoad {
    /// Where it acts.
    pub position: f64,
    /// The force, positive in the direction of w.
    pub force: f64,
}

/// A beam as it is given; it is checked when it is factored.
#[derive(Debug, Clone, PartialEq)]
pub struct Beam {
    /// Position of the left end.
    pub left_end: f64,
    /// Position of the right end.
    pub right_end: f64,
    /// Rigidity: at least one section, from the left.
    pub sections: Vec<BeamSection>,
    /// Springs, from the left, no two in one place.
    pub springs: Vec<BeamSpring>,
    /// Foundation stiffness k_f: force per length and deflection.
    pub foundation: f64,
    /// Point loads, in any order.
    pub loads: Vec<PointLoad>,
}

impl Beam {
    /// A beam of even rigidity without springs, foundation or loads.
    pub fn uniform(left_end: f64, right_end: f64, rigidity: f64) -> Self {
        Self {
            left_end,
            right_end,
            sections: vec![BeamSection {
                from: left_end,
                rigidity,
            }],
            springs: Vec::new(),
            foundation: 0.0,
            loads: Vec::new(),
        }
    }

    /// The same beam with more springs on the right: (position, stiffness).
    pub fn on_springs(mut self, springs: impl IntoIterator<Item = (f64, f64)>) -> Self {
        let springs = springs.into_iter().map(|(position, stiffness)| BeamSpring {
            position,
            stiffness,
        });
        self.springs.extend(springs);
        self
    }

    /// The same beam on a foundation.
    pub fn on_foundation(mut self, foundation: f64) -> Self {
        self.foundation = foundation;
        self
    }

    /// The same beam with one more point load.
    pub fn loaded(mut self, position: f64, force: f64) -> Self {
        self.loads.push(PointLoad { position, force });
        self
    }

    /// Factors the beam.
    ///
    /// # Errors
    /// Any [`BeamError`] of the description.
    pub fn factor(&self) -> Result<FactoredBeam, BeamError> {
        FactoredBeam::new(self)
    }
}
