//! Sentences about what nuts cannot do: what is left at the best turns and why,
//! rods that would go slack, and predictions that missed.

use crate::plan::Remainder;
use crate::press::{ArmIndex, MOST_NOTCHES_PER_RELACE};
use crate::session::SlackStop;

use super::Figures;

impl Figures {
    /// What is left at the best turns if nuts could stand anywhere, not only on
    /// whole notches, and why.
    pub(super) fn remainder_sentence(&self, remainder: &Remainder) -> String {
        let words = self.language;
        let left = |nm: f64| self.with_unit(&self.predicted(nm));
        match remainder {
            Remainder::NoNutCures { spread_nm } => words.incurable(left(*spread_nm)),
            Remainder::NotInThisRelace { spread_nm } => {
                words.not_in_this_relace(left(*spread_nm), MOST_NOTCHES_PER_RELACE)
            }
            Remainder::LimitsStop { spread_nm, arms } => {
                let arms: Vec<String> = arms.iter().map(ArmIndex::to_string).collect();
                words.limits_stop(arms.join(", "), left(*spread_nm))
            }
        }
    }

    /// How far a nut may go before its rod would be slack, and whether plans
    /// are held to it.
    pub(super) fn slack_stop_sentence(&self, stop: &SlackStop, held: bool) -> String {
        let (words, arm) = (self.language, stop.arm);
        match (stop.most.0, held) {
            (0, true) => words.slack_already(arm),
            (0, false) => words.slack_perhaps_already(arm),
            (_, true) => words.slack_beyond(arm, self.turn(stop.most)),
            (_, false) => words.slack_perhaps_beyond(arm, self.turn(stop.most)),
        }
    }
}

texts! {
    incurable(left) {
        en: "Turning nuts can't remove {left} of the spread: that is wear, belt or hooks.",
        es: "Girar tuercas no puede quitar {left} de la diferencia: eso es desgaste, banda o ganchos."
    }
    not_in_this_relace(left, most) {
        en: "Not with the next piece yet: even the best turns leave {left} of the spread, because no nut is turned more than {most} notches at once. The piece after it goes on from there.",
        es: "Todavía no con la próxima pieza: aun con los mejores giros quedan {left} de la diferencia, porque ninguna tuerca se gira más de {most} ranuras de una vez. La siguiente sigue desde ahí."
    }
    limits_stop(arms, left) {
        en: "The limits at {arms} stop it: with those nuts as far as they may go, {left} of the spread is left.",
        es: "Los límites en {arms} lo impiden: quedan {left} de la diferencia con las tuercas de ahí hasta donde pueden llegar."
    }
    slack_beyond(arm, turn) {
        en: "{arm} would go slack beyond {turn}: further out does nothing, so no plan goes further there. Calculated, not measured.",
        es: "El tirante de {arm} quedaría flojo más allá de {turn}: abrir más no hace nada, así que ningún plan va más lejos ahí. Calculado, no medido."
    }
    slack_already(arm) {
        en: "{arm} would go slack if turned OUT: that does nothing, so no plan opens it. Calculated, not measured.",
        es: "El tirante de {arm} quedaría flojo al ABRIR: eso no hace nada, así que ningún plan lo abre. Calculado, no medido."
    }
    slack_perhaps_beyond(arm, turn) {
        en: "{arm} may go slack beyond {turn}: further out would then do nothing. Calculated for ordinary rods, not measured; enter jaw and rods to make it surer.",
        es: "El tirante de {arm} puede quedar flojo más allá de {turn}: abrir más no haría nada entonces. Calculado para tirantes comunes, no medido; anote mordaza y tirantes para más certeza."
    }
    slack_perhaps_already(arm) {
        en: "{arm} may go slack if turned OUT: that would then do nothing. Calculated for ordinary rods, not measured; enter jaw and rods to make it surer.",
        es: "El tirante de {arm} puede quedar flojo al ABRIR: eso no haría nada entonces. Calculado para tirantes comunes, no medido; anote mordaza y tirantes para más certeza."
    }
    missed_more {
        en: "This press moved differently than predicted, by more than pieces vary: every chance shown is lowered for it. Check for a slack rod, a nut turned differently than noted, or play in the press.",
        es: "Esta prensa se movió distinto de lo previsto, más de lo que varían las piezas: por eso bajan las probabilidades que se muestran. Revise si hay un tirante flojo, una tuerca girada distinto de lo anotado o juego en la prensa."
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::press::Notches;
    use crate::words::Language;

    #[test]
    fn each_says_what_stops_the_nuts() {
        let figures = |language| Figures {
            language,
            unit: crate::units::Unit::Inch,
            step: crate::units::Length::from_nm(12_700),
            limit: None,
        };
        let say = |language, remainder: &Remainder| figures(language).remainder_sentence(remainder);
        let limits = Remainder::LimitsStop {
            spread_nm: 127_000.0,
            arms: vec![ArmIndex(2)],
        };
        let said = say(Language::English, &limits);
        assert!(said.starts_with("The limits at C stop it:"), "{said}");
        assert!(said.contains("0.005"), "{said}");
        let said = say(
            Language::Spanish,
            &Remainder::NotInThisRelace {
                spread_nm: 127_000.0,
            },
        );
        assert!(said.contains("6 ranuras de una vez"), "{said}");
        let stop = SlackStop {
            arm: ArmIndex(2),
            most: Notches(5),
        };
        for (held, begins) in [
            (true, "C would go slack beyond OUT 5 notches:"),
            (false, "C may go slack beyond OUT 5 notches:"),
        ] {
            let said = figures(Language::English).slack_stop_sentence(&stop, held);
            assert!(said.starts_with(begins), "{said}");
        }
    }
}
