//! The deflected beam: curve, slope, shear, moment and spring forces.

use super::piece::BeamState;

/// A deflected beam.
#[derive(Debug, Clone, PartialEq)]
pub struct Deflection {
    /// Position, 1/EI on the right, and the state just right, of each node.
    nodes: Vec<(f64, f64, BeamState)>,
    foundation: f64,
    spring_forces: Vec<f64>,
}

impl Deflection {
    pub(super) fn new(
        nodes: Vec<(f64, f64, BeamState)>,
        foundation: f64,
        spring_forces: Vec<f64>,
    ) -> Self {
        Self {
            nodes,
            foundation,
            spring_forces,
        }
    }

    /// Deflection at position `x`, in the unit of the movements.
    ///
    /// Beyond the free ends the curve goes on straight, for at most 1e18; a
    /// position that is not a number is taken as the left end.
    pub fn at(&self, x: f64) -> f64 {
        self.state_at(x).deflection
    }

    /// Deflection, slope, shear and moment just right of position `x`, as in
    /// [`Deflection::at`].
    pub fn state_at(&self, x: f64) -> BeamState {
        let (Some(&(left_end, ..)), Some(&(right_end, ..))) =
            (self.nodes.first(), self.nodes.last())
        else {
            return BeamState::default();
        };
        let x = if x.is_nan() { left_end } else { x };
        let inside = x.clamp(left_end, right_end);
        let begun = self
            .nodes
            .partition_point(|&(position, ..)| position <= inside);
        let (position, flexibility, state) = self.nodes[begun.saturating_sub(1)];
        let mut state = state.carried(inside - position, flexibility, self.foundation);
        if x != inside {
            let beyond = x.clamp(-1.0e18, 1.0e18) - inside;
            state.deflection += beyond * state.slope;
            (state.shear, state.moment) = (0.0, 0.0);
        }
        state
    }

    /// Force of each spring on the beam, k (u - w): positive where it pushes
    /// the beam in the direction of w.
    pub fn spring_forces(&self) -> &[f64] {
        &self.spring_forces
    }
}
