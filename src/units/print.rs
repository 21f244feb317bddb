//! Prints lengths as decimals, with as many digits as they deserve.

use super::{ExactLength, Length, Unit};

/// How a printed figure is rounded.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Rounding {
    /// To the nearest, halves away from zero.
    Nearest,
    /// Towards zero: for a limit that may not be exceeded, as ANSI/IEEE 268, to
    /// which ASME Y14.5M refers, asks of converted limits (0.003 in is shown as
    /// 0.076 mm, never 0.08).
    Inward,
}

/// Most decimals ever printed: the nanometre needs 6 in millimetres and 8 in
/// inches, and a mean one more.
const MOST_DECIMALS: u32 = 9;

/// The figure in `unit` with exactly `decimals` decimals and a decimal point,
/// rounded from the exact fraction. Never prints a minus sign before zeros.
pub fn decimal_text(
    value: impl Into<ExactLength>,
    unit: Unit,
    decimals: u32,
    rounding: Rounding,
) -> String {
    let decimals = decimals.min(MOST_DECIMALS);
    let scale = 10_i128.pow(decimals);
    digits(scaled(value.into(), unit, scale, rounding), decimals)
}

/// So many units of the last of so many decimals.
fn digits(scaled: i128, decimals: u32) -> String {
    let magnitude = scaled.unsigned_abs();
    let scale = 10_u128.pow(decimals);
    let sign = if scaled < 0 { "-" } else { "" };
    if decimals == 0 {
        return format!("{sign}{magnitude}");
    }
    format!(
        "{sign}{}.{:0width$}",
        magnitude / scale,
        magnitude % scale,
        width = decimals as usize
    )
}

/// The value in units of 1/scale of `unit`, rounded to a whole number.
fn scaled(value: ExactLength, unit: Unit, scale: i128, rounding: Rounding) -> i128 {
    let (numerator, denominator) = value.parts();
    let numerator = numerator * scale;
    let denominator = denominator * i128::from(unit.nm());
    match rounding {
        Rounding::Inward => numerator / denominator,
        Rounding::Nearest => {
            let half = denominator / 2;
            (numerator + numerator.signum() * half) / denominator
        }
    }
}

/// Decimals that show a gauge's step in `unit`: enough that the last decimal
/// is no coarser than the step, and up to two more when only they print the
/// step exactly (0.0005 in: 4; 0.00025 in: 5; 0.01 mm read in inches: 4).
pub fn decimals_for_step(step: Length, unit: Unit) -> u32 {
    let step_nm = i128::from(step.nm().max(1));
    let unit_nm = i128::from(unit.nm());
    let enough = (0..MOST_DECIMALS)
        .find(|&decimals| unit_nm <= step_nm * 10_i128.pow(decimals))
        .unwrap_or(MOST_DECIMALS);
    (enough..=enough + 2)
        .find(|&decimals| (step_nm * 10_i128.pow(decimals)) % unit_nm == 0)
        .unwrap_or(enough)
        .min(MOST_DECIMALS)
}

/// Decimals that the mean of readings with such a step supports in `unit`: the
/// last one is at most half the step (0.0005 in: 4; 0.001 in: 4; 0.01 mm: 3;
/// 0.0005 in shown in millimetres: 3).
///
/// The step alone leaves a standard uncertainty of step/√12, about a third of
/// it (JCGM 100:2008, F.2.2.1), so a finer place would say nothing.
pub fn decimals_of_means(step: Length, unit: Unit) -> u32 {
    let step_nm = i128::from(step.nm().max(1));
    (0..MOST_DECIMALS)
        .find(|&decimals| 2 * i128::from(unit.nm()) <= step_nm * 10_i128.pow(decimals))
        .unwrap_or(MOST_DECIMALS)
}

/// How far `least` plus `value` lies above `least`, with `decimals` decimals:
/// the difference of the two as they are shown, so that who subtracts what
/// stands there finds it again. Where that is on another side of `limit` than
/// the exact figure, it is the exact figure with a decimal more, or as many as tell
/// its side ([`decimals_keeping_side`]).
pub fn difference_text(
    value: ExactLength,
    least: ExactLength,
    limit: Length,
    unit: Unit,
    decimals: u32,
) -> String {
    let limit = ExactLength::from(limit);
    if value == limit {
        let decimals = decimals_keeping_side(value, limit, unit, decimals);
        return decimal_text(value, unit, decimals, Rounding::Nearest);
    }
    let scale = 10_i128.pow(decimals.min(MOST_DECIMALS));
    let shown = |length| scaled(length, unit, scale, Rounding::Nearest);
    let apart = shown(least.plus(value)) - shown(least);
    match apart.cmp(&shown(limit)) == value.cmp(&limit) {
        true => digits(apart, decimals),
        false => {
            let decimals = decimals_keeping_side(value, limit, unit, decimals + 1);
            decimal_text(value, unit, decimals, Rounding::Nearest)
        }
    }
}

/// As many decimals as are needed, from `decimals` up, for the printed figure
/// to stand on the same side of `limit` (printed alike) as the exact one. What is
/// the limit itself is printed with a decimal more where that is all of it, as the
/// limit is.
pub fn decimals_keeping_side(
    value: impl Into<ExactLength>,
    limit: impl Into<ExactLength>,
    unit: Unit,
    decimals: u32,
) -> u32 {
    let (value, limit) = (value.into(), limit.into());
    let side = value.cmp(&limit);
    if side.is_eq() {
        let (numerator, denominator) = value.parts();
        let whole = |decimals: &u32| {
            let scaled = numerator * 10_i128.pow(*decimals);
            scaled % (denominator * i128::from(unit.nm())) == 0
        };
        let shown = decimals..=(decimals + 1).min(MOST_DECIMALS);
        return shown.into_iter().find(whole).unwrap_or(decimals);
    }
    (decimals..MOST_DECIMALS)
        .find(|&decimals| {
            let scale = 10_i128.pow(decimals);
            let shown = |length| scaled(length, unit, scale, Rounding::Nearest);
            shown(value).cmp(&shown(limit)) == side
        })
        .unwrap_or(MOST_DECIMALS)
}

/// The exact decimal of a whole-nanometre length in `unit`, every digit and no
/// more; `None` when it is no finite decimal of that unit (6.29 mm in inches).
pub(super) fn all_digits(length: Length, unit: Unit) -> Option<String> {
    (0..=MOST_DECIMALS)
        .find(|&decimals| {
            (i128::from(length.nm()) * 10_i128.pow(decimals)) % i128::from(unit.nm()) == 0
        })
        .map(|decimals| decimal_text(length, unit, decimals, Rounding::Nearest))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{Sign, TypedLength};

    fn inches(nm: i64, decimals: u32, rounding: Rounding) -> String {
        decimal_text(Length::from_nm(nm), Unit::Inch, decimals, rounding)
    }

    #[test]
    fn prints_with_the_steps_decimals() {
        assert_eq!(inches(6_286_500, 4, Rounding::Nearest), "0.2475");
        assert_eq!(inches(-6_286_500, 4, Rounding::Nearest), "-0.2475");
        assert_eq!(inches(-1, 4, Rounding::Nearest), "0.0000");
        assert_eq!(inches(25_400_000, 0, Rounding::Nearest), "1");
        for (step_nm, unit, decimals) in [
            (12_700, Unit::Inch, 4),
            (25_400, Unit::Inch, 3),
            (2_540, Unit::Inch, 4),
            (6_350, Unit::Inch, 5),
            (10_000, Unit::Millimetre, 2),
            (10_000, Unit::Inch, 4),
            (12_700, Unit::Millimetre, 4),
            (1_000, Unit::Millimetre, 3),
        ] {
            let found = decimals_for_step(Length::from_nm(step_nm), unit);
            assert_eq!(found, decimals, "{step_nm} nm in {unit:?}");
        }
        for (step_nm, unit, decimals) in [
            (12_700, Unit::Inch, 4),
            (25_400, Unit::Inch, 4),
            (6_350, Unit::Inch, 4),
            (2_540, Unit::Inch, 5),
            (12_700, Unit::Millimetre, 3),
            (10_000, Unit::Millimetre, 3),
            (20_000, Unit::Millimetre, 2),
            (10_000, Unit::Inch, 4),
        ] {
            let found = decimals_of_means(Length::from_nm(step_nm), unit);
            assert_eq!(found, decimals, "means of {step_nm} nm in {unit:?}");
        }
    }

    #[test]
    fn a_limit_is_rounded_inward() {
        // 0.003 in = 0.0762 mm; converted limits are rounded inward (ANSI/IEEE
        // 268, as referred to by ASME Y14.5M-1994, which was read in a secondary
        // copy): 0.076 mm, never 0.08.
        let limit = Length::from_nm(76_200);
        let shown = |decimals| decimal_text(limit, Unit::Millimetre, decimals, Rounding::Inward);
        assert_eq!(shown(3), "0.076");
        assert_eq!(shown(2), "0.07");
    }

    #[test]
    fn rounding_never_moves_a_figure_across_the_limit() {
        let limit = Length::from_nm(76_200);
        let just_above = Length::from_nm(76_201);
        let decimals = decimals_keeping_side(just_above, limit, Unit::Inch, 5);
        assert_eq!(inches(76_201, decimals, Rounding::Nearest), "0.00300004");
        assert_eq!(decimals_keeping_side(limit, limit, Unit::Inch, 5), 5);
    }

    #[test]
    fn a_spread_is_the_difference_of_what_stands_there() {
        let shown = |most: &str, least: &str| {
            let length = |text| TypedLength::parse(text, Unit::Inch, Sign::None).unwrap();
            let most = ExactLength::from(length(most).length());
            let least = ExactLength::from(length(least).length());
            let limit = Length::from_nm(76_200);
            difference_text(most.minus(least), least, limit, Unit::Inch, 4)
        };
        // By hand: 0.2525 less 0.2443 and 0.2526 less 0.2443, of 0.00825 both.
        assert_eq!(shown("0.25250", "0.24425"), "0.0082");
        assert_eq!(shown("0.25255", "0.24430"), "0.0083");
        // 0.2530 less 0.2500 would be 0.003, and it is beyond.
        assert_eq!(shown("0.25300", "0.24995"), "0.00305");
        assert_eq!(shown("0.25304", "0.25000"), "0.00304");
        assert_eq!(shown("0.25300", "0.25000"), "0.0030");
        // Likewise inside, which is not the same as at the limit.
        assert_eq!(shown("0.25295", "0.24996"), "0.00299");
        assert_eq!(shown("0.25295", "0.24994"), "0.0031");
    }

    #[test]
    fn a_typed_length_made_here_reads_back() {
        for nm in [101_600, 6_290_000, 396_875, 25_400_000] {
            for unit in [Unit::Inch, Unit::Millimetre] {
                let made = TypedLength::from_length(Length::from_nm(nm), unit);
                let read = TypedLength::parse(made.text(), unit.other(), Sign::None).unwrap();
                assert_eq!(read.length(), Length::from_nm(nm), "{made:?}");
            }
        }
    }
}
