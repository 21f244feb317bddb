//! What can be wrong with a beam, and the checks.

use super::Beam;
/// Smallest stiffness and rigidity that make sense, in the caller's units.
const SMALLEST: f64 = 1.0e-18;

/// Largest magnitude of any quantity, in the caller's units.
const LARGEST: f64 = 1.0e18;

/// Smallest distance between springs, as a share of the beam's length.
const CLOSEST: f64 = 1.0e-12;

/// Why a beam cannot be solved. Springs, sections, loads and places are
/// counted from 0.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BeamError {
    /// The ends are not numbers within 1e18, or not 1e-18 or more apart.
    Ends,
    /// No section is given.
    NoSection,
    /// A section begins outside the beam or not right of the one before.
    SectionStart(usize),
    /// The rigidity of a section is neither infinite nor between 1e-18 and 1e18.
    Rigidity(usize),
    /// A spring stands outside the beam or nowhere.
    SpringOutside(usize),
    /// A spring stands left of the one before, or closer to it than 1e-12 of
    /// the beam's length.
    SpringOrder(usize),
    /// The stiffness of a spring is neither 0 (slack) nor between 1e-18 and 1e18.
    Stiffness(usize),
    /// The foundation is neither 0 nor between 1e-18 and 1e18.
    Foundation,
    /// A load stands outside the beam, or is not a number within 1e18.
    Load(usize),
    /// Fewer than two springs hold, and no foundation: the beam is loose.
    Loose,
    /// The beam is so soft on its foundation that it would take more than
    /// 100 000 pieces.
    TooSoft,
    /// There is not exactly one movement or preload per spring.
    MovementCount,
    /// The movement of a spring is not a number within 1e18.
    Movement(usize),
    /// The preload of a spring is not a number from 0 to 1e18, or not 0 where
    /// its stiffness is.
    Preload(usize),
    /// No end was found to rods going slack and tight again.
    Unsettled,
    /// A place to look at is outside the beam or nowhere.
    PlaceOutside(usize),
    /// The room for a matrix does not have places x springs values.
    MatrixSize,
}

/// Whether a value is a number of a magnitude the arithmetic can bear.
pub(super) fn in_range(value: f64) -> bool {
    // A comparison with NaN is false.
    value.abs() <= LARGEST
}

fn is_stiffness(value: f64) -> bool {
    (SMALLEST..=LARGEST).contains(&value)
}

/// Checks everything about a beam but its softness.
pub(super) fn check_beam(beam: &Beam) -> Result<(), BeamError> {
    let (left, right) = (beam.left_end, beam.right_end);
    let ends_make_sense = in_range(left) && in_range(right) && right - left >= SMALLEST;
    if !ends_make_sense {
        return Err(BeamError::Ends);
    }
    check_sections(beam)?;
    check_springs(beam)?;
    let foundation = beam.foundation;
    if foundation != 0.0 && !is_stiffness(foundation) {
        return Err(BeamError::Foundation);
    }
    let inside = left..=right;
    for (load, point) in beam.loads.iter().enumerate() {
        if !inside.contains(&point.position) || !in_range(point.force) {
            return Err(BeamError::Load(load));
        }
    }
    let holding = beam.springs.iter().filter(|s| s.stiffness > 0.0).count();
    if foundation == 0.0 && holding < 2 {
        return Err(BeamError::Loose);
    }
    Ok(())
}

fn check_sections(beam: &Beam) -> Result<(), BeamError> {
    if beam.sections.is_empty() {
        return Err(BeamError::NoSection);
    }
    let mut before = beam.left_end;
    for (section, given) in beam.sections.iter().enumerate() {
        let (from, rigidity) = (given.from, given.rigidity);
        if section > 0 {
            let begins_in_order = from > before && from < beam.right_end;
            if !begins_in_order {
                return Err(BeamError::SectionStart(section));
            }
            before = from;
        }
        if rigidity != f64::INFINITY && !is_stiffness(rigidity) {
            return Err(BeamError::Rigidity(section));
        }
    }
    Ok(())
}

fn check_springs(beam: &Beam) -> Result<(), BeamError> {
    let inside = beam.left_end..=beam.right_end;
    let closest = CLOSEST * (beam.right_end - beam.left_end);
    let mut before = None;
    for (spring, given) in beam.springs.iter().enumerate() {
        let (position, stiffness) = (given.position, given.stiffness);
        if !inside.contains(&position) {
            return Err(BeamError::SpringOutside(spring));
        }
        if let Some(before) = before.replace(position)
            && position - before < closest
        {
            return Err(BeamError::SpringOrder(spring));
        }
        if stiffness != 0.0 && !is_stiffness(stiffness) {
            return Err(BeamError::Stiffness(spring));
        }
    }
    Ok(())
}
