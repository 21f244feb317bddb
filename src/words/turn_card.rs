//! What the turn card says: few words, legible from two metres.

use crate::press::{ArmIndex, Notches, Press, WrenchWay};

use super::{Figures, Language};

impl Figures {
    /// A turn and which way the wrench goes: `OUT 3 notches, counterclockwise`.
    pub fn turn_and_way(&self, press: &Press, turn: Notches) -> String {
        let said = self.turn(turn);
        match press.wrench_way(turn) {
            Some(way) => format!("{said}, {}", self.language.wrench(way)),
            None => said,
        }
    }

    /// How a nut was really turned: `turned OUT 2`.
    pub fn turned(&self, really: Notches) -> String {
        match really.0 {
            0 => self.language.card_not_turned().to_owned(),
            _ => self.language.card_turned(self.turn_short(really)),
        }
    }

    /// The same beside the plan: `turned OUT 2, plan OUT 3`.
    pub fn turned_and_plan(&self, really: Notches, planned: Notches) -> String {
        let planned = self.turn_short(planned);
        self.language.turned_plan(self.turned(really), planned)
    }

    /// That the count was lost at a nut, and what is known of it all the same.
    pub fn count_lost(&self, arm: ArmIndex, known: Option<Notches>) -> String {
        match known {
            Some(turn) => self.language.count_lost_then(arm, self.turn_short(turn)),
            None => self.language.count_lost_unknown(arm),
        }
    }

    /// What a button does that turns a nut by one notch.
    pub fn one_notch(&self, press: &Press, arm: ArmIndex, by: i32) -> String {
        let said = format!("{arm}: {}", self.turn_and_way(press, Notches(by)));
        match press.left_hand_thread {
            Some(_) => self.language.facing_the_rod(said),
            None => format!("{said}, {}", self.language.thread_unseen()),
        }
    }

    /// Which way the wrench goes for OUT and for IN, as far as these turns
    /// have both: `OUT ↺ counterclockwise, facing the end of the rod`.
    pub fn ways(&self, press: &Press, turns: &[Notches]) -> String {
        let words = self.language;
        let ways = self.ways_as(press, turns, |way| words.wrench_short(way));
        match ways.is_empty() {
            true => words.thread_unseen().to_owned(),
            false => words.facing_the_rod(ways),
        }
    }

    /// The same as arrows: `OUT ↺, IN ↻`.
    pub fn ways_short(&self, press: &Press, turns: &[Notches]) -> String {
        self.ways_as(press, turns, |way| self.language.wrench_arrow(way))
    }

    fn ways_as(
        &self,
        press: &Press,
        turns: &[Notches],
        say: impl Fn(WrenchWay) -> &'static str,
    ) -> String {
        let words = self.language;
        let ways = [(1, words.word_out()), (-1, words.word_in())];
        let said = ways.into_iter().filter_map(|(by, word)| {
            turns.iter().find(|turn| turn.0.signum() == by)?;
            let way = press.wrench_way(Notches(by))?;
            Some(format!("{word} {}", say(way)))
        });
        said.collect::<Vec<_>>().join(", ")
    }
}

impl Language {
    /// Which of the arms it is, counted from the operator's left.
    pub fn from_the_left(self, index: usize) -> String {
        self.nth_from_left(self.ordinal_masculine(index + 1))
    }

    /// Which of the arms it is for whoever stands behind the press.
    pub fn from_behind(self, index: usize) -> String {
        self.nth_behind(self.ordinal_masculine(index + 1))
    }

    fn ordinal_masculine(self, number: usize) -> String {
        match self {
            Self::English => self.ordinal(number),
            Self::Spanish => format!("{number}.º"),
        }
    }
}

names! {
    /// Which way the wrench goes.
    pub wrench(WrenchWay) {
        Clockwise { en: "clockwise", es: "a la derecha, como el reloj" }
        Counterclockwise { en: "counterclockwise", es: "a la izquierda, contra el reloj" }
    }
}

names! {
    /// The same as an arrow.
    pub wrench_arrow(WrenchWay) {
        Clockwise { en: "↻", es: "↻" }
        Counterclockwise { en: "↺", es: "↺" }
    }
}

names! {
    /// The same in short.
    pub wrench_short(WrenchWay) {
        Clockwise { en: "↻ clockwise", es: "↻ a la derecha" }
        Counterclockwise { en: "↺ counterclockwise", es: "↺ a la izquierda" }
    }
}

texts! {
    arrows_seen { en: "↻ ↺\nfacing the rod end\nnotches\n0: flush", es: "↻ ↺\nde frente al tirante\nranuras\n0: ras" }
    facing_the_rod(said) { en: "{said}, facing the end of the rod", es: "{said}, de frente a la punta del tirante" }
    column_notches { en: "notches", es: "ranuras" }

    // The way to it.
    would_do_harm { en: "These turns would not bring it inside. Drop the trial, or use “Make safe and turn” beside it.", es: "Estos giros no lo dejarían dentro. Descártelos, o use «Asegurar y girar» al lado." }
    not_advised { en: "Not advised.", es: "No se aconseja." }
    go_and_turn { en: "Make safe and turn", es: "Asegurar y girar" }
    go_and_turn_all_the_same { en: "Make safe and turn anyway", es: "Asegurar y girar aun así" }
    go_and_turn_hint { en: "First make it safe, then a card with one nut at a time", es: "Primero asegurar, luego una hoja con una tuerca a la vez" }
    command_go_and_turn { en: "Make safe, then the turn card", es: "Asegurar, luego la hoja de giros" }
    go_and_turn_gap { en: "Make safe and turn these nuts", es: "Asegurar y girar estas tuercas" }
    turn_from_last_pass { en: "Turns start from the last pass. Show it first.", es: "Los giros parten de la última pasada. Muéstrela primero." }

    // The card.
    card_title(press) { en: "Turn card, {press}", es: "Hoja de giros, {press}" }
    card_title_gap(press) { en: "Turn card, rough gap, {press}", es: "Hoja de giros, abertura inicial, {press}" }
    card_done(done, of) { en: "nuts done: {done} of {of}", es: "tuercas hechas: {done} de {of}" }
    card_beware { en: "Power off, locked out, stored energy released or blocked, tried: it does not start; after a break, check the lock and try the start button again. Jaw open, empty and blocked; pins out; nut and rod marked. OUT first, then IN. The machine's manual comes first.", es: "Sin corriente, con candado, energía liberada o bloqueada, probado que no arranca; tras una pausa, revise el candado y pruebe otra vez. Mordaza abierta, vacía y bloqueada; chavetas fuera; tuerca y tirante marcados. Primero ABRIR, luego CERRAR. Primero va el manual." }
    card_before_power { en: "Locks stay on until pins are as the manual says for test lacings, blocks and tools are out, guards are on and everyone is clear and told. The machine's manual comes first.", es: "Los candados quedan puestos hasta que las chavetas estén como dice el manual para el engrape de prueba, las calzas y las herramientas afuera, las guardas puestas y todos lejos y avisados. El manual de la máquina va primero." }
    card_after { en: "Note it. Locks off last of all; then lace again.", es: "Anótelo. Los candados, al final; luego engrape otra vez." }
    card_after_gap { en: "Note it. Then make safe for the gap and measure it again.", es: "Anótelo. Luego asegure la prensa y mida otra vez la abertura." }
    next_nut(arm) { en: "Next: {arm}", es: "Sigue: {arm}" }
    stands_in_front { en: "Operator's side. Change", es: "Lado del operador. Cambiar" }
    stands_behind { en: "Behind the press. Change", es: "Atrás de la prensa. Cambiar" }
    nth_behind(nth) { en: "{nth} from your left, behind the press", es: "{nth} desde su izquierda, atrás de la prensa" }
    card_planned(from, to) { en: "planned: {from} to {to}", es: "plan: de {from} a {to}" }
    card_not_as_planned_title { en: "Not all turned as planned, and not noted yet", es: "No todo se giró según el plan, y falta anotar" }
    card_not_noted_title { en: "All nuts are turned, but not noted yet", es: "Todas las tuercas están giradas, pero sin anotar" }
    card_nut(arm, turn, from, to) { en: "{arm}: {turn}, from {from} to {to}", es: "{arm}: {turn}, de {from} a {to}" }
    card_nut_stays(arm, at) { en: "{arm} stays at {at}", es: "{arm} queda en {at}" }
    nth_from_left(nth) { en: "{nth} from the operator's left", es: "{nth} desde la izquierda del operador" }
    card_now_then(from, to) { en: "now at {from}, then at {to}", es: "ahora en {from}, luego en {to}" }
    card_now_stays(at) { en: "stays at {at}", es: "queda en {at}" }
    out_backs_off { en: "OUT backs the nut off. On a nut of six slots the mark ends at the ring.", es: "ABRIR afloja la tuerca. Si tiene seis ranuras, la marca termina en el anillo." }
    in_runs_in { en: "IN runs the nut in. On a nut of six slots the mark ends at the ring.", es: "CERRAR enrosca la tuerca. Si tiene seis ranuras, la marca termina en el anillo." }
    wrench_picture(way) { en: "Castle nut, seen facing the end of the rod: the wrench goes {way}", es: "Tuerca castillo, de frente a la punta del tirante: la llave va {way}" }
    nut_left_picture { en: "Castle nut, left as it is", es: "Tuerca castillo, se deja como está" }
    turned_otherwise { en: "I turned it differently…", es: "La giré distinto…" }
    nut_done_picture { en: "Castle nut, turned", es: "Tuerca castillo, ya girada" }
    card_nut_done { en: "✓ done", es: "✓ hecha" }
    card_stands_at(at) { en: "is at {at}", es: "está en {at}" }
    what_really(arm) { en: "What did you really turn at {arm}?", es: "¿Qué giró de verdad en {arm}?" }
    note_really(arm, turn) { en: "{arm}: note {turn}", es: "{arm}: anotar {turn}" }
    count_in { en: "−  IN", es: "−  CERRAR" }
    count_out { en: "OUT  +", es: "ABRIR  +" }
    rest_to_plan(turn, planned) { en: "{turn} to go: plan {planned}", es: "Falta {turn}: plan {planned}" }
    back_to_plan(turn, planned) { en: "{turn} brings it back: plan {planned}", es: "Con {turn} vuelve al plan: {planned}" }
    turn_rest(turn) { en: "Turn {turn} now", es: "Girar ahora {turn}" }
    leave_it_so(turn) { en: "Leave it: note {turn}", es: "Dejarla así: anotar {turn}" }
    turn_more(turn) { en: "{turn} more", es: "{turn} más" }
    card_count_lost { en: "count lost", es: "sin cuenta" }
    lost_count { en: "I lost count", es: "Perdí la cuenta" }
    count_lost_title(arm) { en: "Count lost at {arm}: do not guess", es: "Cuenta perdida en {arm}: no adivine" }
    count_by_mark { en: "By your mark: − or + until the nut above looks like yours (six notches round).", es: "Por su marca: − o + hasta que la tuerca de arriba quede como la suya (seis ranuras)." }
    count_from_flush(turn, at) { en: "From flush, if 0 was flush here: back it OUT to 0, as the manual says, then {turn}: at {at}.", es: "Desde el ras, si aquí 0 era el ras: ábrala a 0 según el manual y {turn}: en {at}." }
    count_at_flush { en: "From flush, if 0 was flush here: back it OUT to 0, as the manual says.", es: "Desde el ras, si aquí 0 era el ras: ábrala a 0 según el manual." }
    count_neither { en: "Neither? Stop here: nobody knows where it is until it is found.", es: "¿Ninguna? Pare aquí: nadie sabe dónde está hasta encontrarla." }
    count_stop(arm) { en: "Neither: stop, {arm} is not known", es: "Ninguna: parar, no se sabe de {arm}" }
    count_found(arm, at) { en: "{arm} checked: it is at {at}", es: "{arm} revisada: está en {at}" }
    count_lost_then(arm, turn) { en: "{arm}: count lost while turning; {turn} by its mark or from flush.", es: "{arm}: se perdió la cuenta al girar; {turn} por su marca o desde el ras." }
    count_lost_unknown(arm) { en: "{arm}: count lost while turning; where it is is not known.", es: "{arm}: se perdió la cuenta al girar; no se sabe dónde está." }
    really_out(arm) { en: "{arm} was turned one notch more OUT", es: "{arm} se giró una ranura más a ABRIR" }
    really_in(arm) { en: "{arm} was turned one notch more IN", es: "{arm} se giró una ranura más a CERRAR" }
    turned_plan(turned, planned) { en: "{turned}, plan {planned}", es: "{turned}, plan {planned}" }
    card_turned(turn) { en: "turned {turn}", es: "girada: {turn}" }
    card_not_turned { en: "not turned", es: "no se giró" }
    card_plan_stands(planned, at) { en: "plan {planned}, at {at}", es: "plan {planned}, en {at}" }
    is_turned(arm) { en: "{arm} is turned", es: "Ya giré {arm}" }
    is_turned_next(arm, next) { en: "{arm} is turned: next, {next}", es: "Ya giré {arm}: sigue {next}" }
    is_not_turned(arm) { en: "Erase what I said of {arm}", es: "Borrar lo dicho de {arm}" }
    all_turned { en: "All turned: note it", es: "Todas giradas: anotarlo" }
    all_turned_hint { en: "Notes what was turned, once every nut is checked off", es: "Anota lo que se giró, cuando cada tuerca está marcada" }

    // Leaving it.
    card_stop { en: "Stop here…", es: "Parar aquí…" }
    card_stop_title { en: "Stop before all nuts are turned?", es: "¿Parar antes de girar todas las tuercas?" }
    card_lock_stays { en: "The lock stays on. This press is not ready for work.", es: "El candado se queda puesto. Esta prensa no está lista para trabajar." }
    card_nuts_stand(nuts) { en: "Nuts now, in notches from flush: {nuts}.", es: "Tuercas ahora, en ranuras desde el ras: {nuts}." }
    card_stop_so_far(turns) { en: "Turned so far: {turns}.", es: "Girado hasta ahora: {turns}." }
    card_stop_planned(turns) { en: "Planned: {turns}.", es: "Plan: {turns}." }
    card_back { en: "Back to the card", es: "Volver a la hoja" }
    card_note_so_far { en: "Note what was turned", es: "Anotar lo girado" }
    card_leave { en: "Leave, note nothing yet", es: "Salir sin anotar todavía" }
    card_leave_hint { en: "If you leave without noting, your checks are kept until readings or turns change.", es: "Si sale sin anotar, sus marcas se conservan hasta que cambien lecturas o giros." }
    card_changed(turns) { en: "Readings or turns changed since the last turn card. Checked off on it: {turns}. Look where each nut is before you turn.", es: "Las lecturas o los giros cambiaron desde la última hoja. Estaba marcado en ella: {turns}. Revise dónde está cada tuerca antes de girar." }
    said_gap_turned(turns) { en: "Noted: {turns}. Measure the gap there again.", es: "Anotado: {turns}. Mida otra vez la abertura ahí." }

    // The thread.
}
