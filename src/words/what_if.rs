//! What previews kept by hand say, and what would go wrong with them.

use super::{Figures, Language};
use crate::press::{ArmIndex, Notches};
use crate::session::TurnTrouble;

impl Figures {
    /// What would go wrong after turns.
    pub fn turn_trouble(&self, trouble: &TurnTrouble) -> String {
        let words = self.language;
        match *trouble {
            TurnTrouble::PastLimit { arm, stands, limit } => {
                words.trouble_past_limit(arm, stands, limit)
            }
            TurnTrouble::OpeningShort { arm, short } => {
                words.trouble_opening(arm, self.plain(short))
            }
        }
    }
}

impl Language {
    /// A name for turns that somebody wants to keep, in two or three words.
    pub fn suggested_name(self, turns: &[Notches], planned: bool) -> String {
        let mut turned = (0..)
            .map(ArmIndex)
            .zip(turns)
            .filter(|(_, turn)| turn.0 != 0);
        match (turned.next(), turned.next()) {
            (None, _) => self.what_if_leave().to_owned(),
            _ if planned => self.what_if_plan().to_owned(),
            (Some((arm, _)), None) => self.what_if_only(arm),
            _ if turns.iter().all(|turn| turn.0 >= 0) => self.kind_outward().to_owned(),
            _ => self.your_own_turns().to_owned(),
        }
    }
}

texts! {
    command_keep_preview { en: "Keep the turns on show to compare", es: "Fijar los giros mostrados para comparar" }
    what_if_name { en: "Name of the turns to keep", es: "Nombre de los giros a guardar" }
    what_if_keep { en: "Keep", es: "Fijar" }
    what_if_title { en: "Kept to compare", es: "Guardado para comparar" }
    what_if_plan { en: "plan", es: "plan" }
    what_if_the_plan { en: "The plan", es: "El plan" }
    what_if_only(arm) { en: "only nut {arm}", es: "solo la tuerca {arm}" }
    what_if_leave { en: "no turn", es: "sin giro" }
    what_if_turns(name, turns) { en: "{name}: {turns}", es: "{name}: {turns}" }
    what_if_figures(median, ninety, chance) { en: "spread {median}, 9 in 10 within {ninety}, {chance}", es: "diferencia {median}, 9 de 10 hasta {ninety}, {chance}" }
    what_if_working { en: "being worked out", es: "en cálculo" }
    what_if_drop(name) { en: "Throw {name} away", es: "Descartar {name}" }
    said_kept(name) { en: "Kept to compare: {name}", es: "Guardado para comparar: {name}" }
    said_kept_already(name) { en: "These turns are kept already: {name}", es: "Estos giros ya están guardados: {name}" }
    said_no_more_kept { en: "No more turns can be kept to compare: throw some away first.", es: "No se pueden guardar más giros para comparar: descarte alguno primero." }

    trouble_title { en: "These turns cannot be made:", es: "Estos giros no se pueden hacer:" }
    trouble_past_limit(arm, stands, limit) { en: "Nut {arm} would stand at {stands}, past its last safe notch {limit}: no pin passes there, or too little thread holds.", es: "La tuerca {arm} quedaría en {stands}, más allá de su última ranura segura {limit}: ahí no pasa la chaveta o agarra muy poca rosca." }
    trouble_opening(arm, short) { en: "At {arm} the opening would be {short} short: the jaw would not open far enough to take the hook retainer out.", es: "En {arm} faltarían {short} de apertura: la mordaza no abriría lo bastante para sacar el retén de ganchos." }
    trouble_slack(arms) { en: "Reckoned slack: rod {arms}. It carries nothing then, and its nut further out does nothing more.", es: "Floja según el cálculo: varilla {arms}. Ya no carga nada, y abrir más su tuerca no hace nada más." }

    care_opening { en: "opening", es: "apertura" }
    care_opening_hint { en: "Opening margin left at each arm: what the jaw opens more than the hook retainer needs", es: "Margen de apertura que queda en cada brazo: lo que abre la mordaza además de lo que pide el retén de ganchos" }
    care_load { en: "rod load", es: "carga" }
    care_load_hint { en: "Share of the lacing force on each rod. Reckoned, not measured: an even pressing now, the rods stretched by two notches in the mean.", es: "Parte de la fuerza de engrape en cada varilla. Calculada, no medida: presión pareja ahora y varillas estiradas dos ranuras en promedio." }
    care_not_measured { en: "not measured", es: "sin medir" }
    care_slack { en: "slack", es: "floja" }
    care_of(arm, opening, load) { en: "Arm {arm}: opening margin left {opening}, rod load {load}", es: "Brazo {arm}: margen de apertura {opening}, carga de varilla {load}" }
    care_none { en: "none", es: "ninguna" }
}
