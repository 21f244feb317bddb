//! Chances, shares and confidences as people read them: the one place that
//! writes a percentage.

use crate::plan::{POOR, VERY_POOR};
use crate::session::Confidence;

use super::{Figures, Language};

/// A chance below this, or above its complement, is said as "less than" or
/// "more than" that many per cent: a model's tails are not known closer.
const LEAST_CHANCE: f64 = 0.01;

/// Most decimals of a percentage.
const MOST_DECIMALS: usize = 3;

impl Figures {
    /// A chance in a word and in figures.
    pub fn chance(&self, chance: f64) -> String {
        let words = self.language;
        let word = match chance {
            very_good if very_good >= 0.9 => words.chance_very_good(),
            good if good >= 0.75 => words.chance_good(),
            fair if fair >= POOR => words.chance_fair(),
            poor if poor >= VERY_POOR => words.chance_poor(),
            _ => words.chance_hardly(),
        };
        words.chance_in_figures(word, self.percentage(chance))
    }

    /// A chance in figures alone: whole per cent, never 0 or 100, which no
    /// chance here is; a dash where it is no number.
    pub fn percentage(&self, chance: f64) -> String {
        self.chance_to(chance, 0)
    }

    /// A chance beside the confidence it is compared with: with as many
    /// decimals as show which side of it the chance is on.
    pub fn percentage_against(&self, chance: f64, confidence: Confidence) -> String {
        let limit = confidence.share();
        let fewest = usize::from(limit > 1.0 - LEAST_CHANCE);
        let decimals = (fewest..MOST_DECIMALS).find(|&decimals| {
            let place = 10_f64.powi(decimals as i32 + 2);
            let shown = |share: f64| (share * place).round();
            (shown(chance) >= shown(limit)) == (chance >= limit)
        });
        self.chance_to(chance, decimals.unwrap_or(MOST_DECIMALS))
    }

    fn chance_to(&self, chance: f64, decimals: usize) -> String {
        let words = self.language;
        let least = || words.percent(self.decimal(100.0 * LEAST_CHANCE, 0));
        let most = || words.percent(self.decimal(100.0 * (1.0 - LEAST_CHANCE), 0));
        match chance {
            small if small < LEAST_CHANCE => words.chance_less_than(least()),
            // More decimals were asked for to tell it from a limit up there.
            large if large > 1.0 - LEAST_CHANCE && decimals == 0 => words.chance_more_than(most()),
            chance => self.share_to(chance, decimals),
        }
    }

    /// A part of a whole, in whole per cent; a dash where it is none.
    pub fn share(&self, share: f64) -> String {
        self.share_to(share, 0)
    }

    fn share_to(&self, share: f64, decimals: usize) -> String {
        let percent = share * 100.0;
        if (0.0..1e6).contains(&percent) {
            self.language.percent(self.decimal(percent, decimals))
        } else {
            "–".to_owned()
        }
    }

    /// A confidence as the language writes it.
    pub fn confidence(&self, confidence: Confidence) -> String {
        self.language.confidence(confidence)
    }
}

impl Language {
    /// A confidence as the language writes it.
    pub fn confidence(self, confidence: Confidence) -> String {
        self.percent(confidence)
    }
}

texts! {
    percent(digits) { en: "{digits}%", es: "{digits} %" }
    chance_less_than(least) { en: "less than {least}", es: "menos de {least}" }
    chance_more_than(most) { en: "more than {most}", es: "más de {most}" }
    chance_in_figures(word, percent) { en: "{word}, {percent}", es: "{word}, {percent}" }
    chance_very_good { en: "very good", es: "muy buena" }
    chance_good { en: "good", es: "buena" }
    chance_fair { en: "fair", es: "regular" }
    chance_poor { en: "poor", es: "poca" }
    chance_hardly { en: "very poor", es: "muy poca" }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Unit;

    #[test]
    fn chances_are_said_as_far_as_they_are_known() {
        let said = |language, chance| Figures::exact(language, Unit::Inch).percentage(chance);
        for (chance, english, spanish) in [
            (0.0, "less than 1%", "menos de 1 %"),
            (0.0099, "less than 1%", "menos de 1 %"),
            (0.01, "1%", "1 %"),
            (0.495, "50%", "50 %"),
            (0.99, "99%", "99 %"),
            (0.9901, "more than 99%", "más de 99 %"),
            (1.0, "more than 99%", "más de 99 %"),
            (f64::NAN, "–", "–"),
        ] {
            assert_eq!(said(Language::English, chance), english);
            assert_eq!(said(Language::Spanish, chance), spanish);
        }
    }

    #[test]
    fn a_chance_stays_on_its_side_of_the_confidence() {
        let figures = Figures::exact(Language::Spanish, Unit::Inch);
        for (chance, confidence, said) in [
            (0.949_6, 0.95, "94.96 %"),
            (0.95, 0.95, "95 %"),
            (0.94, 0.95, "94 %"),
            (0.998_8, 0.999, "99.88 %"),
            (0.999_2, 0.999, "99.9 %"),
            (0.998, 0.95, "más de 99 %"),
        ] {
            let confidence = Confidence::from_share(confidence).unwrap();
            assert_eq!(figures.percentage_against(chance, confidence), said);
        }
    }
}
