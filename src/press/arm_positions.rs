//! Where the arms stand along the jaw, and what positions make sense.

/// Fewest arms a press can have: with one arm there is nothing to true.
pub const MIN_ARMS: usize = 2;

/// Most arms a press may have.
pub const MAX_ARMS: usize = 12;

/// Smallest distance between neighbouring arms: 1 mm, in nanometres.
pub const MIN_ARM_SPACING_NM: f64 = 1.0e6;

/// Largest position along the jaw, to either side of the origin: 100 m, in
/// nanometres.
pub const MAX_POSITION_NM: f64 = 1.0e11;

/// Why a set of arm positions is refused. Arms are counted from 0 at the
/// operator's left.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum ArmPositionsError {
    /// Fewer than [`MIN_ARMS`] or more than [`MAX_ARMS`] arms: so many.
    Count(usize),
    /// The position of this arm is not a number or beyond [`MAX_POSITION_NM`].
    OutOfRange(usize),
    /// This arm stands left of its left neighbour.
    OutOfOrder(usize),
    /// This arm is closer than [`MIN_ARM_SPACING_NM`] to its left neighbour.
    TooClose(usize),
}

/// Checks positions along the jaw in nanometres, from the operator's left.
///
/// # Errors
/// The first [`ArmPositionsError`] met, counting from the left.
pub fn check_arm_positions(positions_nm: &[f64]) -> Result<(), ArmPositionsError> {
    if positions_nm.len() > MAX_ARMS {
        return Err(ArmPositionsError::Count(positions_nm.len()));
    }
    check_knots(positions_nm)
}

/// As [`check_arm_positions`], of places that need not be arms and may be any
/// number.
pub(super) fn check_knots(positions_nm: &[f64]) -> Result<(), ArmPositionsError> {
    if positions_nm.len() < MIN_ARMS {
        return Err(ArmPositionsError::Count(positions_nm.len()));
    }
    let mut left = None;
    for (arm, &position_nm) in positions_nm.iter().enumerate() {
        // A comparison with NaN is false, so NaN is caught here too.
        let in_range = position_nm.abs() <= MAX_POSITION_NM;
        if !in_range {
            return Err(ArmPositionsError::OutOfRange(arm));
        }
        if let Some(left) = left.replace(position_nm) {
            let spacing_nm: f64 = position_nm - left;
            if spacing_nm < 0.0 {
                return Err(ArmPositionsError::OutOfOrder(arm));
            }
            if spacing_nm < MIN_ARM_SPACING_NM {
                return Err(ArmPositionsError::TooClose(arm));
            }
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn positions_that_make_no_sense_are_named() {
        use ArmPositionsError as E;
        let many = [0.0; MAX_ARMS + 1];
        for (positions_nm, expected) in [
            (&[][..], Err(E::Count(0))),
            (&[5.0e8], Err(E::Count(1))),
            (&many, Err(E::Count(13))),
            (&[0.0, 1.0e6], Ok(())),
            (&[-1.0e11, 1.0e11], Ok(())),
            (&[0.0, 999_999.0], Err(E::TooClose(1))),
            (&[0.0, 2.0e8, 2.0e8], Err(E::TooClose(2))),
            (&[0.0, 2.0e8, 1.0e8], Err(E::OutOfOrder(2))),
            (&[0.0, f64::INFINITY], Err(E::OutOfRange(1))),
        ] {
            assert_eq!(check_arm_positions(positions_nm), expected);
        }
        assert_eq!(check_arm_positions(&[f64::NAN, 0.0]), Err(E::OutOfRange(0)));
    }
}
