//! A beam, or several cut alike, factored once and solved for many movements.

use super::deflection::Deflection;
use super::error::{BeamError, check_beam, in_range};
use super::lanes::Real;
use super::piece::{BeamState, MAX_FOUNDATION_RATIO, Piece, deflection_weights};
use super::restraint::{Carry, Restraint};
use super::{Beam, BeamSection};

/// Most pieces a beam is cut into.
const MAX_PIECES: f64 = 100_000.0;

/// A node, and what holds it from either side.
#[derive(Debug, Clone, Copy, Default)]
struct Node<T> {
    position: f64,
    /// Stiffness of the node's own spring; 0 without one.
    spring: T,
    /// 1/EI of the piece on the right.
    flexibility: T,
    /// Everything left of the node, without its own spring.
    left: Restraint<T>,
    /// Everything right of the node, without its own spring.
    right: Restraint<T>,
    /// The node's motion as the next one moves and nothing loads the left.
    from_right: Carry<T>,
    /// The next node's motion as this one moves and nothing loads the right.
    to_right: Carry<T>,
}

/// Motion of a node: deflection and slope.
type Motion<T> = [T; 2];

/// How the deflection at a place follows the motion of the node on its left.
#[derive(Debug, Clone, Copy)]
struct PlaceWeights<T> {
    node: usize,
    /// When the force acts right of that node.
    force_right: Motion<T>,
    /// When the force acts there or left of it.
    force_left: Motion<T>,
}

/// A beam ready to be solved for any movements of its springs' seats.
///
/// Factoring takes time proportional to the number of nodes, and each
/// movement or load again. The beam owns the room it works in: factoring
/// another one of the same size in it allocates nothing.
///
/// With [`Lanes`](super::Lanes) for `T` it is several beams side by side, all
/// with springs and steps in the same places and cut into the same pieces.
#[derive(Debug, Clone, Default)]
pub struct FactoredBeam<T = f64> {
    nodes: Vec<Node<T>>,
    pieces: Vec<Piece<T>>,
    spring_nodes: Vec<usize>,
    loads: Vec<(usize, f64)>,
    foundation: T,
    // Room for work.
    marks: Vec<f64>,
    cuts: Vec<f64>,
    column: Vec<Motion<T>>,
    places: Vec<PlaceWeights<T>>,
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
        self.refactor_alike(std::slice::from_ref(beam))?;
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
            return Err(BeamError::MovementCount {
                expected: self.springs(),
                found: movements.len(),
            });
        }
        if let Some((spring, &movement)) =
            movements.iter().enumerate().find(|(_, u)| !in_range(**u))
        {
            return Err(BeamError::Movement { spring, movement });
        }
        Ok(())
    }

    /// Motion of the node for a unit force on it.
    fn unit_load(&self, node: usize) -> Motion<f64> {
        let (rest, slope) = self.rest_at(node);
        let deflection = 1.0 / (rest + self.nodes[node].spring);
        [deflection, deflection * slope]
    }

    /// Adds `amount` times the states just right of each node to `states`.
    fn add_states(
        &self,
        source: usize,
        column: &[Motion<f64>],
        amount: f64,
        states: &mut [BeamState],
    ) {
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

impl<T: Real> FactoredBeam<T> {
    /// Factors the first of these beams and those after it that are cut as it
    /// is, as far as there is room; answers how many. All have springs, steps
    /// and loads in the same places.
    ///
    /// # Errors
    /// Any [`BeamError`] of the description; what was factored before is then
    /// still there.
    pub(in crate::press) fn refactor_alike(&mut self, beams: &[Beam]) -> Result<usize, BeamError> {
        let Some(first) = beams.first() else {
            return Ok(0);
        };
        let beams = &beams[..beams.len().min(T::WIDTH)];
        beams.iter().try_for_each(check_beam)?;
        self.mark(first)?;
        let unlike = beams.iter().position(|beam| !self.is_cut_alike(beam));
        let taken = unlike.unwrap_or(beams.len());
        self.place_nodes(&beams[..taken]);
        self.sweep();
        Ok(taken)
    }

    /// Number of springs.
    pub fn springs(&self) -> usize {
        self.spring_nodes.len()
    }

    /// Writes the deflection at each place for a unit movement of each
    /// spring's seat, point loads aside: a row per place, a column per spring.
    ///
    /// # Errors
    /// [`BeamError::PlaceOutside`] or [`BeamError::MatrixSize`].
    pub fn influence_into(&mut self, places: &[f64], out: &mut [T]) -> Result<(), BeamError> {
        let springs = self.springs();
        if out.len() != places.len() * springs {
            return Err(BeamError::MatrixSize {
                expected: places.len() * springs,
                found: out.len(),
            });
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
        self.cuts.extend(marks.windows(2).map(|span| {
            let root = softness(span, beam);
            root.ceil().max(1.0)
        }));
        if self.cuts.iter().sum::<f64>() > MAX_PIECES {
            return Err(BeamError::TooSoft);
        }
        Ok(())
    }

    /// Whether a beam is cut as the marked one is.
    fn is_cut_alike(&self, beam: &Beam) -> bool {
        let mut spans = self.marks.windows(2).zip(&self.cuts);
        spans.all(|(span, cut)| {
            let root = softness(span, beam);
            root <= *cut && (*cut == 1.0 || root > cut - 1.0)
        })
    }

    /// Lays the nodes and solves the pieces between them.
    fn place_nodes(&mut self, beams: &[Beam]) {
        // Beyond the last beam it stands once more.
        let last = beams.len() - 1;
        let each = |of: &dyn Fn(&Beam) -> f64| T::from_places(|place| of(&beams[place.min(last)]));
        let beam = &beams[0];
        self.foundation = each(&|beam| beam.foundation);
        self.nodes.clear();
        self.pieces.clear();
        for (span, &count) in self.marks.windows(2).zip(&self.cuts) {
            let flexibility = each(&|beam| flexibility_at(beam, span[0]));
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
        for (index, spring) in beam.springs.iter().enumerate() {
            let node = node_at(&self.nodes, spring.position);
            self.nodes[node].spring = each(&|beam| beam.springs[index].stiffness);
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
        let mut spring = T::of(0.0);
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
    fn rest_at(&self, node: usize) -> (T, T) {
        let Node { left, right, .. } = self.nodes[node];
        // The rest of a beam that is not loose holds the slope.
        left.with(right).with_free_slope()
    }

    /// Force of the spring at `node` for a unit movement of its seat, and the
    /// motion of the node.
    fn unit_movement(&self, node: usize) -> (T, Motion<T>) {
        let (rest, slope) = self.rest_at(node);
        let spring = self.nodes[node].spring;
        let share = spring.over(spring + rest);
        (rest * share, [share, share * slope])
    }

    /// Follows the motion of a loaded node to all others.
    fn spread(&self, source: usize, motion: Motion<T>, column: &mut Vec<Motion<T>>) {
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

    fn locate_all(&self, places: &[f64], out: &mut Vec<PlaceWeights<T>>) -> Result<(), BeamError> {
        let (Some(first), Some(last)) = (self.nodes.first(), self.nodes.last()) else {
            return Ok(());
        };
        out.clear();
        for (place, &position) in places.iter().enumerate() {
            if !(first.position..=last.position).contains(&position) {
                return Err(BeamError::PlaceOutside { place, position });
            }
            out.push(self.locate(position));
        }
        Ok(())
    }

    fn locate(&self, position: f64) -> PlaceWeights<T> {
        let (none, one) = (T::of(0.0), T::of(1.0));
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
        let through = |side: Restraint<T>, sign: f64| {
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

fn dot<T: Real>(a: Motion<T>, b: Motion<T>) -> T {
    a[0] * b[0] + a[1] * b[1]
}

/// The last node at or left of a position; positions are inside the beam.
fn node_at<T>(nodes: &[Node<T>], position: f64) -> usize {
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
