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
    command_keep_preview { en: "Keep the turns shown to compare", es: "Apartar los giros mostrados para comparar" }
    what_if_name { en: "Name of the turns to keep", es: "Nombre de los giros a apartar" }
    what_if_keep { en: "Set aside", es: "Apartar" }
    what_if_title { en: "Kept to compare", es: "Guardado para comparar" }
    what_if_plan { en: "plan", es: "plan" }
    what_if_the_plan { en: "The plan", es: "El plan" }
    what_if_only(arm) { en: "only nut {arm}", es: "solo la tuerca {arm}" }
    what_if_leave { en: "no turn", es: "sin giro" }
    about_another_piece { en: "This piece passes. These are about another one.", es: "Esta pieza pasa. Esto es sobre otra." }
    close_by { en: "One notch more or less", es: "Una ranura más o menos" }
    one_notch_more(arm) { en: "{arm} one notch further", es: "{arm} una ranura más" }
    one_notch_less(arm) { en: "{arm} one notch less", es: "{arm} una ranura menos" }
    what_if_drop(name) { en: "Discard {name}", es: "Descartar {name}" }
    said_kept(name) { en: "Kept to compare: {name}", es: "Guardado para comparar: {name}" }
    said_kept_already(name) { en: "These turns are already kept: {name}", es: "Estos giros ya están guardados: {name}" }
    said_no_more_kept { en: "No more turns can be kept to compare: discard some first.", es: "No se pueden guardar más giros para comparar: descarte alguno primero." }

    trouble_title { en: "These turns can't be made:", es: "Estos giros no se pueden hacer:" }
    trouble_past_limit(arm, stands, limit) { en: "Nut {arm} would be at {stands}, past its last safe notch {limit}: no pin fits through there, or too little thread holds.", es: "La tuerca {arm} quedaría en {stands}, más allá de su última ranura segura {limit}: ahí no pasa la chaveta o agarra muy poca rosca." }
    trouble_opening(arm, short) { en: "At {arm} the opening would be {short} short: the jaw would not open far enough to take the hook retainer out.", es: "En {arm} faltarían {short} de apertura: la mordaza no abriría lo suficiente para sacar el retén de ganchos." }
    trouble_slack(arms) { en: "Calculated slack: rod {arms}. It carries nothing then, and turning its nut further OUT does nothing.", es: "Flojo según el cálculo: tirante {arms}. Ya no carga nada, y abrir más su tuerca no hace nada." }

    plan_more { en: "More ways, and why", es: "Más opciones y por qué" }
    care_show { en: "Show opening and rod load under the nuts", es: "Mostrar apertura y carga bajo las tuercas" }
    care_opening { en: "opening", es: "apertura" }
    care_opening_hint { en: "Opening margin left at each arm: how much further the jaw opens than the hook retainer needs", es: "Margen de apertura que queda en cada brazo: cuánto más abre la mordaza de lo que pide el retén de ganchos" }
    care_load { en: "rod load", es: "carga" }
    care_load_hint { en: "Estimated share of the lacing force on each rod, not measured.", es: "Parte estimada de la fuerza de engrape en cada tirante, no medida." }
    care_not_measured { en: "not measured", es: "sin medir" }
    care_slack { en: "slack", es: "flojo" }
    care_of(arm, opening, load) { en: "Arm {arm}: opening margin left {opening}, rod load {load}", es: "Brazo {arm}: margen de apertura {opening}, carga del tirante {load}" }
    care_none { en: "none", es: "ninguna" }
}
