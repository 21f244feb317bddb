//! Figures as people read them: lengths in the unit on show.

use crate::press::{ArmIndex, Notches};
use crate::splice::Spread;
use crate::units::{
    ExactLength, Length, Rounding, TypedLength, Unit, decimal_text, decimals_for_step,
    decimals_keeping_side, decimals_of_means, difference_text,
};

use super::Language;

/// Decimals beyond those shown that the exact figure may have.
const EXACT_DECIMALS: u32 = 3;

/// How figures are shown: language, unit and the gauge's step.
///
/// The decimal sign is the point in both languages, as on gauges, in files and
/// in the shops of Mexico and the United States; a comma is understood when
/// it is typed.
///
/// Means, spreads and predictions are shown to the digit that the step
/// supports ([`decimals_of_means`]), and rounding never moves a figure across
/// the limit it is compared with.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Figures {
    /// The language.
    pub language: Language,
    /// The unit on show.
    pub unit: Unit,
    /// The gauge's step.
    pub step: Length,
    /// The tolerance that predicted spreads are compared with, where there is
    /// one.
    pub limit: Option<Length>,
}

impl Figures {
    /// Decimals of one reading.
    pub fn reading_decimals(&self) -> u32 {
        decimals_for_step(self.step, self.unit)
    }

    /// Decimals of a mean of readings or a difference of means.
    pub fn mean_decimals(&self) -> u32 {
        decimals_of_means(self.step, self.unit)
    }

    /// A reading's thickness, without its unit.
    pub fn reading(&self, length: Length) -> String {
        self.number(length, self.reading_decimals())
    }

    /// A mean or a spread, without its unit.
    pub fn mean(&self, length: impl Into<ExactLength>) -> String {
        self.number(length, self.mean_decimals())
    }

    /// A spread that is compared with a tolerance, without its unit: the largest
    /// mean as it is shown less the smallest ([`difference_text`]).
    pub fn spread(&self, spread: &Spread, tolerance: Length) -> String {
        let decimals = self.mean_decimals();
        difference_text(spread.value, spread.least, tolerance, self.unit, decimals)
    }

    /// A predicted spread or other length, in nanometres, without its unit, on
    /// its own side of the limit; a dash where it is no number.
    pub fn predicted(&self, nm: f64) -> String {
        let fewest = self.mean_decimals();
        let decimals = self.limit.zip(whole_nm(nm)).map_or(fewest, |(limit, nm)| {
            decimals_keeping_side(nm, limit, self.unit, fewest)
        });
        self.nm(nm, decimals)
    }

    /// A mean or a spread with its unit and every digit that a mean of a few
    /// readings has: what is told on demand where it is shown rounded.
    pub fn exact_mean(&self, length: impl Into<ExactLength>) -> String {
        let most = self.number(length, self.mean_decimals() + EXACT_DECIMALS);
        let fewest = most.len().saturating_sub(EXACT_DECIMALS as usize);
        let digits = most.trim_end_matches('0').len().max(fewest);
        self.with_unit(most.get(..digits).unwrap_or(&most))
    }

    /// The same of a predicted length.
    pub fn exact_predicted(&self, nm: f64) -> String {
        whole_nm(nm).map_or_else(|| "–".to_owned(), |nm| self.exact_mean(nm))
    }

    /// A float of nanometres with so many decimals; a dash where it is no
    /// number.
    pub fn nm(&self, nm: f64, decimals: u32) -> String {
        whole_nm(nm).map_or_else(|| "–".to_owned(), |nm| self.number(nm, decimals))
    }

    /// A length with its unit, as short as it can be without losing a digit
    /// of the nanometre: a tolerance, a position, a step.
    pub fn plain(&self, length: Length) -> String {
        let digits = self.short(length, Rounding::Nearest);
        self.with_unit(&digits)
    }

    /// A limit with its unit. In its own unit it is exact; converted into the
    /// other it is rounded inward to the micrometre or the thousandth part of
    /// a thousandth ([`Rounding::Inward`]).
    pub fn limit(&self, limit: Length) -> String {
        self.with_unit(&self.short(limit, Rounding::Inward))
    }

    /// A typed length as a field shows it: as typed in its own unit, in the
    /// other as short as [`Self::plain`]. A limit is shown as typed in either:
    /// what judges is never converted.
    pub fn in_field(&self, typed: &TypedLength) -> String {
        match typed.unit() == self.unit {
            true => self.typed(typed),
            false => self.plain(typed.length()),
        }
    }

    fn short(&self, length: Length, rounding: Rounding) -> String {
        let decimals = match self.unit {
            Unit::Inch => 5,
            Unit::Millimetre => 3,
        };
        let exact = (0..=8)
            .find(|&decimals| {
                (i128::from(length.nm()) * 10_i128.pow(decimals)) % i128::from(self.unit.nm()) == 0
            })
            .filter(|&exact| exact <= decimals + 1);
        let rounding = if exact.is_some() {
            Rounding::Nearest
        } else {
            rounding
        };
        decimal_text(length, self.unit, exact.unwrap_or(decimals), rounding)
    }

    /// A number with its unit: `0.003″` for inches, so that "in" never
    /// stands for both the unit and the way a nut is turned; `0.08 mm`.
    pub fn with_unit(&self, digits: &str) -> String {
        match self.unit {
            Unit::Inch => format!("{digits}″"),
            Unit::Millimetre => format!("{digits} mm"),
        }
    }

    /// A length with so many decimals, without its unit.
    pub fn number(&self, length: impl Into<ExactLength>, decimals: u32) -> String {
        decimal_text(length, self.unit, decimals, Rounding::Nearest)
    }

    /// A plain number with so many decimals.
    pub fn decimal(&self, number: f64, decimals: usize) -> String {
        format!("{number:.decimals$}")
    }

    /// A turn in words: `OUT 3 notches`, `IN 1 notch`, `leave`.
    pub fn turn(&self, turn: Notches) -> String {
        let words = self.language;
        match turn.0 {
            0 => words.turn_leave().to_owned(),
            1 => words.turn_out_one().to_owned(),
            -1 => words.turn_in_one().to_owned(),
            out if out > 1 => words.turn_out_many(out),
            inward => words.turn_in_many(inward.unsigned_abs()),
        }
    }

    /// A turn in as few letters as can be: `OUT 3`, `IN 1`, `leave`.
    pub fn turn_short(&self, turn: Notches) -> String {
        let words = self.language;
        match turn.0 {
            0 => words.turn_leave().to_owned(),
            out if out > 0 => words.turn_out_short(out),
            inward => words.turn_in_short(inward.unsigned_abs()),
        }
    }

    /// Turns of several nuts: `B OUT 3, C IN 1`; for none: `leave as is`.
    pub fn turns(&self, turns: &[Notches]) -> String {
        let words = self.language;
        let parts: Vec<String> = turns
            .iter()
            .enumerate()
            .filter(|(_, turn)| turn.0 != 0)
            .map(|(arm, turn)| {
                let arm = ArmIndex(arm);
                let notches = turn.0.unsigned_abs();
                if turn.0 > 0 {
                    words.arm_out(arm, notches)
                } else {
                    words.arm_in(arm, notches)
                }
            })
            .collect();
        if parts.is_empty() {
            words.leave_as_is().to_owned()
        } else {
            parts.join(", ")
        }
    }
}

/// A float to the nearest nanometre; `None` where it is no length.
fn whole_nm(nm: f64) -> Option<Length> {
    (nm.is_finite() && nm.abs() < 1e15).then(|| Length::from_nm(nm.round() as i64))
}

texts! {
    turn_leave { en: "leave", es: "dejar" }
    turn_out_one { en: "OUT 1 notch", es: "ABRIR 1 ranura" }
    turn_in_one { en: "IN 1 notch", es: "CERRAR 1 ranura" }
    turn_out_many(n) { en: "OUT {n} notches", es: "ABRIR {n} ranuras" }
    turn_in_many(n) { en: "IN {n} notches", es: "CERRAR {n} ranuras" }
    turn_out_short(n) { en: "OUT {n}", es: "ABRIR {n}" }
    turn_in_short(n) { en: "IN {n}", es: "CERRAR {n}" }
    arm_out(arm, n) { en: "{arm} OUT {n}", es: "{arm} ABRIR {n}" }
    arm_in(arm, n) { en: "{arm} IN {n}", es: "{arm} CERRAR {n}" }
    exactly(figure) { en: "exactly {figure}", es: "exactamente {figure}" }
    leave_as_is { en: "leave as is", es: "dejar como está" }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn figures(unit: Unit) -> Figures {
        Figures {
            language: Language::English,
            unit,
            step: Length::from_nm(12_700),
            limit: Some(Length::from_nm(76_200)),
        }
    }

    #[test]
    fn a_mean_is_shown_as_the_gauge_supports_it_and_exact_on_demand() {
        // Half of 0.0005 in is 0.00025 in: the fourth decimal counts, the fifth
        // does not.
        let spread = Length::from_nm(209_550);
        let inch = figures(Unit::Inch);
        assert_eq!(inch.mean(spread), "0.0083");
        assert_eq!(inch.predicted(209_550.2), "0.0083");
        assert_eq!(inch.exact_mean(spread), "0.00825″");
        assert_eq!(inch.exact_mean(Length::from_nm(76_200)), "0.0030″");
        // 209 550 nm are 0.20955 mm.
        let metric = figures(Unit::Millimetre);
        assert_eq!(metric.mean(spread), "0.210");
        assert_eq!(metric.exact_mean(spread), "0.20955 mm");
        // 0.2500, 0.2505 and 0.2505 in.
        let thirds = ExactLength::mean([6_350_000, 6_362_700, 6_362_700].map(Length::from_nm));
        assert_eq!(inch.exact_mean(thirds.unwrap()), "0.2503333″");
        assert_eq!(inch.exact_predicted(f64::NAN), "–");
    }

    #[test]
    fn a_prediction_stays_on_its_side_of_the_limit() {
        let inch = figures(Unit::Inch);
        for (nm, shown) in [
            (76_200.0, "0.0030"),
            (77_000.0, "0.00303"),
            (76_301.6, "0.003004"),
            (75_400.0, "0.00297"),
            (78_000.0, "0.0031"),
        ] {
            assert_eq!(inch.predicted(nm), shown, "{nm}");
        }
    }
}
