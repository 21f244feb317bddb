//! The level of a splice against its target thickness.

use super::measured::Measured;
use super::shape::Shape;

/// How the level stands against the target thickness, and what the right
/// remedy is. The offset is level minus target; positive is too thick.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum LevelStanding {
    /// There is no target, or nothing was read: the level is not judged.
    Unjudged,
    /// The offset is within what is close enough, or does not stand out of
    /// its uncertainty.
    AtTarget(Measured),
    /// Every arm read lies on the same side of the target: one move of the
    /// common handle helps them all, and turning nuts would only use up
    /// travel.
    Handle(Measured),
    /// The level is off, but there are arms at either side of the target: a
    /// move of the handle would help some and harm others. The nuts come
    /// first, then the level is judged again.
    NutsFirst(Measured),
}

impl Shape {
    /// Judges the level against a target thickness.
    ///
    /// `close_enough_nm` is the offset below which a move is not worth making;
    /// `scale_u_nm` the standard uncertainty of the gauge's own scale, which
    /// cancels in a spread but not here (limit of error over sqrt 3 when only
    /// a limit is stated, JCGM 100:2008, 4.3.7).
    pub fn level_against(
        &self,
        target_nm: Option<f64>,
        close_enough_nm: f64,
        scale_u_nm: f64,
    ) -> LevelStanding {
        let target = target_nm.filter(|target| target.is_finite());
        let (Some(target), Some(level), Some(ends)) = (target, self.level, self.outermost) else {
            return LevelStanding::Unjudged;
        };
        let scale = if scale_u_nm.is_finite() {
            scale_u_nm
        } else {
            0.0
        };
        let offset = Measured {
            value_nm: level.value_nm - target,
            u_nm: (level.u_nm * level.u_nm + scale * scale).sqrt(),
        };
        if !offset.stands_out() || offset.value_nm.abs() <= close_enough_nm {
            LevelStanding::AtTarget(offset)
        } else if ends.least_nm > target || ends.most_nm < target {
            LevelStanding::Handle(offset)
        } else {
            LevelStanding::NutsFirst(offset)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn standing(means: &[f64], target: Option<f64>, scale_u: f64) -> LevelStanding {
        let positions: Vec<f64> = (0..means.len()).map(|arm| arm as f64 * 1e8).collect();
        let means: Vec<Option<f64>> = means.iter().copied().map(Some).collect();
        let shape = Shape::of(&positions, &means, &vec![1_000.0; means.len()]);
        shape.level_against(target, 5_000.0, scale_u)
    }

    #[test]
    fn the_handle_moves_all_arms_one_way() {
        use LevelStanding::{AtTarget, Handle, NutsFirst, Unjudged};
        let means = [6_350_000.0, 6_360_000.0, 6_340_000.0];
        assert_eq!(standing(&means, None, 0.0), Unjudged);
        assert_eq!(standing(&[], Some(1.0), 0.0), Unjudged);
        assert_eq!(standing(&means, Some(f64::NAN), 0.0), Unjudged);
        assert!(matches!(
            standing(&means, Some(6_349_000.0), 0.0),
            AtTarget(_)
        ));
        assert!(
            matches!(standing(&means, Some(6_300_000.0), 0.0), Handle(by) if by.value_nm > 0.0)
        );
        assert!(matches!(
            standing(&means, Some(6_342_000.0), 0.0),
            NutsFirst(_)
        ));
        // The mean stands 5 000 nm off: just what is not worth a move, and
        // one more.
        for (target, worth_it) in [(6_345_000.0, false), (6_344_999.0, true)] {
            let found = standing(&[6_350_000.0; 3], Some(target), 0.0);
            assert_eq!(matches!(found, Handle(_)), worth_it, "{found:?}");
        }
        // A gauge whose scale is not known that well cannot say.
        assert!(matches!(
            standing(&means, Some(6_300_000.0), 30_000.0),
            AtTarget(_)
        ));
    }
}
