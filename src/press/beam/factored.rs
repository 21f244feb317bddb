//! A beam factored once and solved for many movements.

use super::deflection::Deflection;
use super::error::{BeamError, check_beam, in_range};
use super::piece::{BeamState, MAX_FOUNDATION_RATIO, Piece, deflection_weights};
use super::restraint::{Carry, Restraint, over};
use super::{Beam, BeamSection};

/// Most pieces a beam is cut into.
const MAX_PIECES: f64 = 100_000.0;

/// A node, and what holds it from either side.
#[derive(Debug, Clone, Copy, Default)]
struct Node {
    position: f64,
    /// Stiffness of the node's own spring; 0 without one.
    spring: f64,
    /// 1/EI of the piece on the right.
    flexibility: f64,
    /// Everything left of the node, without its own spring.
    left: Restraint,
    /// Everything right of the node, without its own spring.
    right: Restraint,
    /// The node's motion as the next one moves and nothing loads the left.
    from_right: Carry,
    /// The next node's motion as this one moves and nothing loads the right.
    to_right: Carry,
}

/// Motion of a node: deflection and slope.
type Motion = [f64; 2];

/// How the deflection at a place follows the motion of the node on its left.
#[derive(Debug, Clone, Copy)]
struct PlaceWeights {
    node: usize,
    /// When the force acts right of that node.
    force_right: Motion,
    /// When the force acts there or left of it.
    force_left: Motion,
}

/// A beam ready to be solved for any movements of its springs' seats.
///
/// Factoring takes time proportional to the number of nodes, and each
/// movement or load again. The beam owns the room it works in: factoring
/// another one of the same size in it allocates nothing.
#[derive(Debug, Clone, Default)]
pub struct FactoredBeam {
    nodes: Vec<Node>,
    pieces: Vec<Piece>,
    spring_nodes: Vec<usize>,
    loads: Vec<(usize, f64)>,
    foundation: f64,
    // Room for work.
    marks: Vec<f64>,
    cuts: Vec<f64>,
    column: Vec<Motion>,
    places: Vec<PlaceWeights>,
}

impl FactoredBeam {
    /// Factors a beam.
    ///
    /// # Errors
    /// Any [`BeamError`] of the description.
    pub fn new(beam: &Beam) -> Result<Self, BeamError> {
        let mut factored = Self::default();
        factored.refactor(beam)?;
        Ok(factored)
    }

    /// Factors another beam in the same room.
    ///
    /// # Errors
    /// Any [`BeamError`] of the description; what was factored before is then
    /// still there.
    pub fn refactor(&mut self, beam: &Beam) -> Result<(), BeamError> {
        check_beam(beam)?;
        self.mark(beam)?;
        self.place_nodes(beam);
        self.sweep();
        Ok(())
    }

    /// Solves for movements of the springs' seats, one per spring, together
    /// with the beam's point loads.
    ///
    /// # Errors
    /// [`BeamError::MovementCount`] or [`BeamError::Movement`].
    pub fn solve(&self, movements: &[f64]) -> Result<Deflection, BeamError> {
        self.check_movements(movements)?;
        let mut states = vec![BeamState::default(); self.nodes.len()];
        let mut spring_forces = vec![0.0; self.springs()];
        let mut column = Vec::with_capacity(self.nodes.len());
        for (moved, (&source, &movement)) in self.spring_nodes.iter().zip(movements).enumerate() {
            let (held, motion) = self.unit_movement(source);
            self.spread(source, motion, &mut column);
            self.add_states(source, &column, movement, &mut states);
            for (spring, (force, &node)) in
                spring_forces.iter_mut().zip(&self.spring_nodes).enumerate()
            {
                // k (1 - w) of the moved spring itself, without cancelling.
                let share = if spring == moved {
                    held
                } else {
                    -self.nodes[node].spring * column[node][0]
                };
                *force += movement * share;
            }
        }
        for &(source, load) in &self.loads {
            self.spread(source, self.unit_load(source), &mut column);
            self.add_states(source, &column, load, &mut states);
            for (force, &node) in spring_forces.iter_mut().zip(&self.spring_nodes) {
                *force -= load * self.nodes[node].spring * column[node][0];
            }
        }
        let nodes = self.nodes.iter().zip(states);
        Ok(Deflection::new(
            nodes
                .map(|(node, state)| (node.position, node.flexibility, state))
                .collect(),
            self.foundation,
            spring_forces,
        ))
    }

    /// Checks movements as [`FactoredBeam::solve`] does.
    ///
    /// # Errors
    /// [`BeamError::MovementCount`] or [`BeamError::Movement`].
    pub fn check_movements(&self, movements: &[f64]) -> Result<(), BeamError> {
        if movements.len() != self.springs() {
            return Err(BeamError::MovementCount);
        }
        let outside = movements.iter().position(|u| !in_range(*u));
        outside.map_or(Ok(()), |spring| Err(BeamError::Movement(spring)))
    }

    /// Motion of the node for a unit force on it.
    fn unit_load(&self, node: usize) -> Motion {
        let (rest, slope) = self.rest_at(node);
        let deflection = 1.0 / (rest + self.nodes[node].spring);
        [deflection, deflection * slope]
    }

    /// Adds `amount` times the states just right of each node to `states`.
    fn add_states(&self, source: usize, column: &[Motion], amount: f64, states: &mut [BeamState]) {
        for (index, ((node, &[deflection, slope]), state)) in
            self.nodes.iter().zip(column).zip(states).enumerate()
        {
            let (shear, moment) = if index < source {
                let held = node.left.with_spring(node.spring);
                held.reaction(deflection, slope)
            } else {
                let (force, moment) = node.right.reaction(deflection, slope);
                (-force, -moment)
            };
            state.deflection += amount * deflection;
            state.slope += amount * slope;
            state.shear += amount * shear;
            state.moment += amount * moment;
        }
    }
}

impl FactoredBeam {
    /// Number of springs.
    pub fn springs(&self) -> usize {
        self.spring_nodes.len()
    }

    /// Writes the deflection at each place for a unit movement of each
    /// spring's seat, point loads aside: a row per place, a column per spring.
    ///
    /// # Errors
    /// [`BeamError::PlaceOutside`] or [`BeamError::MatrixSize`].
    pub fn influence_into(&mut self, places: &[f64], out: &mut [f64]) -> Result<(), BeamError> {
        let springs = self.springs();
        if out.len() != places.len() * springs {
            return Err(BeamError::MatrixSize);
        }
        let mut weights = std::mem::take(&mut self.places);
        let located = self.locate_all(places, &mut weights);
        self.places = weights;
        located?;

        let mut column = std::mem::take(&mut self.column);
        for (spring, &source) in self.spring_nodes.iter().enumerate() {
            let (_, motion) = self.unit_movement(source);
            self.spread(source, motion, &mut column);
            for (place, row) in self.places.iter().zip(out.chunks_exact_mut(springs)) {
                let weights = if source > place.node {
                    place.force_right
                } else {
                    place.force_left
                };
                row[spring] = dot(weights, column[place.node]);
            }
        }
        self.column = column;
        Ok(())
    }

    /// Collects where nodes must stand, and makes sure that the pieces
    /// between them are not too many.
    fn mark(&mut self, beam: &Beam) -> Result<(), BeamError> {
        let marks = &mut self.marks;
        marks.clear();
        marks.extend([beam.left_end, beam.right_end]);
        marks.extend(beam.springs.iter().map(|spring| spring.position));
        marks.extend(beam.loads.iter().map(|load| load.position));
        marks.extend(beam.sections.iter().skip(1).map(|section| section.from));
        marks.sort_unstable_by(f64::total_cmp);
        marks.dedup();
        self.cuts.clear();
        self.cuts.extend(
            marks
                .windows(2)
                .map(|span| softness(span, beam).ceil().max(1.0)),
        );
        if self.cuts.iter().sum::<f64>() > MAX_PIECES {
            return Err(BeamError::TooSoft);
        }
        Ok(())
    }

    /// Lays the nodes and solves the pieces between them.
    fn place_nodes(&mut self, beam: &Beam) {
        self.foundation = beam.foundation;
        self.nodes.clear();
        self.pieces.clear();
        for (span, &count) in self.marks.windows(2).zip(&self.cuts) {
            let flexibility = flexibility_at(beam, span[0]);
            let length = span[1] - span[0];
            let piece = Piece::new(length / count, flexibility, self.foundation);
            // `count` is a whole number, at most MAX_PIECES.
            for step in 0..count as usize {
                self.nodes.push(Node {
                    position: span[0] + length * (step as f64 / count),
                    flexibility,
                    ..Node::default()
                });
                self.pieces.push(piece);
            }
        }
        self.nodes.push(Node {
            position: beam.right_end,
            ..Node::default()
        });

        self.spring_nodes.clear();
        for spring in &beam.springs {
            let node = node_at(&self.nodes, spring.position);
            self.nodes[node].spring = spring.stiffness;
            self.spring_nodes.push(node);
        }
        self.loads.clear();
        for load in &beam.loads {
            let node = node_at(&self.nodes, load.position);
            self.loads.push((node, load.force));
        }
    }

    /// Factors from both ends.
    fn sweep(&mut self) {
        let mut side = Restraint::default();
        for (node, piece) in self.nodes.iter_mut().zip(&self.pieces) {
            node.left = side;
            (side, node.from_right) = side.with_spring(node.spring).through(piece);
        }
        if let Some(last) = self.nodes.last_mut() {
            last.left = side;
        }

        // The same walk in a mirror: slopes and offsets change sign.
        let mut side = Restraint::default();
        let mut spring = 0.0;
        for (back, node) in self.nodes.iter_mut().rev().enumerate() {
            if back > 0 {
                let piece = &self.pieces[self.pieces.len() - back];
                let ([[ww, ws], [sw, ss]], carried);
                (carried, [[ww, ws], [sw, ss]]) = side.with_spring(spring).through(piece);
                node.to_right = [[ww, -ws], [-sw, ss]];
                side = carried;
            }
            node.right = side.mirrored();
            spring = node.spring;
        }
    }

    /// How the rest of the beam holds a node with a free slope: its
    /// stiffness there, and the slope per deflection.
    fn rest_at(&self, node: usize) -> (f64, f64) {
        let Node { left, right, .. } = self.nodes[node];
        // The rest of a beam that is not loose holds the slope.
        left.with(right).with_free_slope()
    }

    /// Force of the spring at `node` for a unit movement of its seat, and the
    /// motion of the node.
    fn unit_movement(&self, node: usize) -> (f64, Motion) {
        let (rest, slope) = self.rest_at(node);
        let spring = self.nodes[node].spring;
        let share = over(spring, spring + rest);
        (rest * share, [share, share * slope])
    }

    /// Follows the motion of a loaded node to all others.
    fn spread(&self, source: usize, motion: Motion, column: &mut Vec<Motion>) {
        column.clear();
        column.resize(self.nodes.len(), motion);
        let mut here = motion;
        for (node, there) in self.nodes[..source].iter().zip(&mut column[..source]).rev() {
            here = node.from_right.map(|row| dot(row, here));
            *there = here;
        }
        here = motion;
        for (node, there) in self.nodes[source..].iter().zip(&mut column[source + 1..]) {
            here = node.to_right.map(|row| dot(row, here));
            *there = here;
        }
    }

    fn locate_all(&self, places: &[f64], out: &mut Vec<PlaceWeights>) -> Result<(), BeamError> {
        let (Some(first), Some(last)) = (self.nodes.first(), self.nodes.last()) else {
            return Ok(());
        };
        out.clear();
        for (place, &position) in places.iter().enumerate() {
            if !(first.position..=last.position).contains(&position) {
                return Err(BeamError::PlaceOutside(place));
            }
            out.push(self.locate(position));
        }
        Ok(())
    }

    fn locate(&self, position: f64) -> PlaceWeights {
        let (none, one) = (0.0, 1.0);
        let index = node_at(&self.nodes, position);
        let node = &self.nodes[index];
        let offset = position - node.position;
        if offset == 0.0 {
            return PlaceWeights {
                node: index,
                force_right: [one, none],
                force_left: [one, none],
            };
        }
        let [w, slope, shear, moment] =
            deflection_weights(offset, node.flexibility, self.foundation);
        let through = |side: Restraint, sign: f64| {
            let (shear_w, moment_w) = side.reaction(one, none);
            let (shear_slope, moment_slope) = side.reaction(none, one);
            [
                w + (shear * shear_w + moment * moment_w) * sign,
                slope + (shear * shear_slope + moment * moment_slope) * sign,
            ]
        };
        PlaceWeights {
            node: index,
            force_right: through(node.left.with_spring(node.spring), 1.0),
            force_left: through(node.right, -1.0),
        }
    }
}

fn dot(a: Motion, b: Motion) -> f64 {
    a[0] * b[0] + a[1] * b[1]
}

/// The last node at or left of a position; positions are inside the beam.
fn node_at(nodes: &[Node], position: f64) -> usize {
    nodes
        .partition_point(|node| node.position <= position)
        .saturating_sub(1)
}

/// The section right of a position.
fn section_at(sections: &[BeamSection], position: f64) -> BeamSection {
    let begun = 1 + sections
        .iter()
        .skip(1)
        .take_while(|section| section.from <= position)
        .count();
    // The sections have been checked not to be empty.
    sections[begun - 1]
}

/// 1/EI right of a position.
fn flexibility_at(beam: &Beam, position: f64) -> f64 {
    section_at(&beam.sections, position).rigidity.recip()
}

/// Into so many pieces a span is cut, made whole upwards, so that none is soft
/// on the foundation.
fn softness(span: &[f64], beam: &Beam) -> f64 {
    let square = (span[1] - span[0]) * (span[1] - span[0]);
    let ground = beam.foundation * flexibility_at(beam, span[0]);
    (ground * square * square / MAX_FOUNDATION_RATIO)
        .sqrt()
        .sqrt()
}
