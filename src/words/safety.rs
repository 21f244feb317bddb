//! The cautions, and how the press is made safe before hands go in.

use crate::session::{Caution, Mark, SafeGroup, Stage};

use super::Language;

impl Language {
    /// Where a caution comes from: published rules by their numbers.
    pub fn caution_source(self, caution: Caution) -> String {
        self.caution_sources(&[caution])
    }

    /// Where cautions come from, each rule once.
    pub fn caution_sources(self, cautions: &[Caution]) -> String {
        let mut rules: Vec<&str> = Vec::new();
        for rule in cautions.iter().flat_map(|caution| caution.rules()) {
            let number = self.rule(*rule).split(" (").next().unwrap_or_default();
            if !rules.contains(&number) {
                rules.push(number);
            }
        }
        if rules.is_empty() {
            self.common_practice().to_owned()
        } else {
            rules.join("; ")
        }
    }

    /// What to beware of at the work of a stage, in few words, and what comes
    /// before that.
    pub fn cautions_of(self, stage: Stage) -> String {
        let cautions = Caution::ALL.into_iter().filter(|it| it.is_for(stage));
        let said = cautions.map(|it| match (it, stage) {
            (Caution::Pins, Stage::TestLace | Stage::Relace) => self.pins_for_test(),
            (Caution::Pins, Stage::CloseOut) => self.pins_for_work(),
            _ => self.caution_short(it),
        });
        let said: Vec<&str> = said.collect();
        let manual = self.cautions_manual_first();
        // Where the press is made safe the steps say it all.
        match said.is_empty() || stage == Stage::MakeSafe {
            true => manual.to_owned(),
            false => format!("{}. {manual}", said.join("; ")),
        }
    }

    /// Who answered that the press is made safe, and when.
    pub fn made_safe_line(self, mark: &Mark) -> String {
        let who = if mark.who.is_empty() {
            self.marked_by_nobody()
        } else {
            &mark.who
        };
        self.made_safe_by(who, &mark.when)
    }
}

names! {
    /// A caution.
    pub caution(Caution) {
        TellOthers { en: "Tell everyone affected before you cut the power. Before it comes back: blocks and tools out, guards on, everyone clear and told; each person takes off their own lock.", es: "Avise a todos los afectados antes de cortar la corriente. Antes de reconectar: calzas y herramientas afuera, guardas puestas, todos lejos y avisados; cada quien quita su propio candado." }
        MadeSafe { en: "Before hands go in, every time: power off, locked out, stored energy (pressure, springs, taut chains, a raised jaw) released or blocked; start button tried: it does not start. Lacing needs power, so do it all again after every piece.", es: "Antes de meter las manos, siempre: sin corriente, con candado, energía acumulada (presión, resortes, cadenas tensas, mordaza levantada) liberada o bloqueada; probado que no arranca. Para engrapar se conecta la corriente: repita todo después de cada pieza." }
        TryAgain { en: "After a break or a shift change, check your lock and try the start button again: it must not start.", es: "Después de una pausa o un cambio de turno, revise su candado y pruebe otra vez que no arranca." }
        JawBlocked { en: "Jaw open, empty and blocked as the manual says, before you reach in.", es: "Mordaza abierta, vacía y bloqueada como dice el manual, antes de meter las manos." }
        OutsThenIns { en: "Mark nut and rod. Turn OUT first, then IN. Leave each nut where a pin fits through and enough thread holds it.", es: "Marque tuerca y tirante. Primero ABRIR, luego CERRAR. Deje cada tuerca donde pase la chaveta y agarre suficiente rosca." }
        Pins { en: "Pull the cotter pins before you turn a nut. Before production: a pin in every nut. For test lacings: as the manual says.", es: "Saque las chavetas antes de girar una tuerca. Antes de producir: una chaveta en cada tuerca. Para engrapes de prueba: como diga el manual." }
        HandsClear { en: "When lacing and cutting, whoever runs the press sees everyone; keep hands clear of closing jaws, hook points and knives.", es: "Al engrapar y cortar, quien opera la prensa ve a todos; mantenga las manos lejos de las mordazas que cierran, de las puntas de los ganchos y de las cuchillas." }
        Eyes { en: "Wear eye protection for pins, lacing, cutting and cleaning.", es: "Use protección de ojos con chavetas, engrape, corte y limpieza." }
        NipPoints { en: "A chain pulls fingers in where it runs onto a sprocket: no hand there while anything can move, even when you turn it by hand. That moves the jaw too: everyone else clear.", es: "Una cadena atrapa los dedos donde entra al piñón: no ponga la mano ahí mientras algo pueda moverse, ni siquiera al girarlo a mano. Eso mueve también la mordaza: todos los demás lejos." }
        CompressedAir { en: "Never point compressed air at skin or clothing. Stay below 30 psi (2 bar), with chip guarding and protective equipment. Local rules may be stricter.", es: "Nunca dirija aire comprimido a la piel ni a la ropa. Menos de 30 psi (2 bar), con protección contra partículas y equipo de protección. Las reglas locales pueden ser más estrictas." }
        Handle { en: "Move the common handle only where and how the manual says, with everyone's hands out of the jaws.", es: "Mueva la manija común solo donde y como dice el manual, con las manos de todos fuera de las mordazas." }
    }
}

names! {
    /// A caution in the fewest words, where it stands beside the work.
    pub caution_short(Caution) {
        TellOthers { en: "tell those affected", es: "avise a los afectados" }
        MadeSafe { en: "lock out, release what is stored, try it: it must not start", es: "ponga candado, libere la energía y pruebe: no debe arrancar" }
        TryAgain { en: "after a break, try the start button again", es: "tras una pausa, pruebe otra vez que no arranca" }
        JawBlocked { en: "jaw open and blocked", es: "mordaza abierta y bloqueada" }
        OutsThenIns { en: "OUT first, then IN", es: "primero ABRIR, luego CERRAR" }
        Pins { en: "pins out", es: "chavetas fuera" }
        HandsClear { en: "hands clear of jaws, hooks and knives", es: "manos lejos de mordazas, ganchos y cuchillas" }
        Eyes { en: "eye protection", es: "protección de ojos" }
        NipPoints { en: "no hand at the sprocket, everyone else clear", es: "manos lejos del piñón, los demás lejos" }
        CompressedAir { en: "air below 30 psi (2 bar), never at skin", es: "aire a menos de 30 psi (2 bar), nunca a la piel" }
        Handle { en: "hands out before the handle moves", es: "manos afuera antes de mover la manija" }
    }
}

names! {
    /// What of making safe comes before what.
    pub safe_group(SafeGroup) {
        Before { en: "Before you lock out", es: "Antes de poner el candado" }
        CutOff { en: "Cut it off", es: "Cortar la energía" }
        Proof { en: "Prove it", es: "Comprobarlo" }
        AtNuts { en: "At the nuts, once it is locked out and does not start", es: "En las tuercas, ya con candado y probado" }
        AtGap { en: "At the gap, once it is locked out and does not start", es: "En la abertura, ya con candado y probado" }
    }
}

texts! {
    pins_for_test { en: "pins as the manual says", es: "chavetas como dice el manual" }
    pins_for_work { en: "a pin in every nut", es: "una chaveta en cada tuerca" }
    caution_shortest { en: "Locked out, nothing stored, does not start? Jaw open and blocked, pins out.", es: "¿Con candado, sin energía, no arranca? Mordaza abierta y bloqueada, chavetas fuera." }
    // In one or two lines, wherever turns are shown.
    caution_heading { en: "Before hands go in, every time:", es: "Antes de meter las manos, siempre:" }
    caution_text {
        en: "tell those affected; power off, locked out, stored energy released or blocked; start button tried: it does not start. Jaw open and blocked, pins out; OUT first, then IN. The machine's manual, local codes and qualified people come first.",
        es: "avise a los afectados; sin corriente, con candado, energía acumulada liberada o bloqueada; probado que no arranca. Mordaza abierta y bloqueada, chavetas fuera; primero ABRIR, luego CERRAR. Primero van el manual, las normas locales y el personal calificado."
    }

    // In full.
    cautions_title { en: "Cautions", es: "Precauciones" }
    cautions_manual_first { en: "The machine's manual, local codes and qualified people come first.", es: "Primero van el manual, las normas locales y el personal calificado." }
    common_practice { en: "common practice, no source", es: "práctica común, sin referencia" }

    // Who signs.
    sign_as(name) { en: "I am {name}", es: "Soy {name}" }
    sign_first { en: "Type your name under “Who”: whoever puts the lock on signs for it.", es: "Escriba su nombre en «Quién»: firma quien pone el candado." }
    own_lock_too(who) { en: "Locked out by {who}. Hang your own lock too and check it off.", es: "Puso el candado {who}. Ponga también el suyo y márquelo." }
    locks_on(who) { en: "Locks on: {who}.", es: "Candados puestos: {who}." }
    still_open(open, all) { en: "Still open: {open} of {all}", es: "Falta marcar: {open} de {all}" }

    // Made safe, before hands go in.
    made_safe_title { en: "Before hands go in: is the press made safe?", es: "Antes de meter las manos: ¿está asegurada la prensa?" }
    made_safe_then(turns, ways) { en: "Then turn: {turns} ({ways})", es: "Luego gire: {turns} ({ways})" }
    made_safe_why { en: "Asked every time before hands go in: lacing needs power. Check off each item only when it is done.", es: "Se pregunta cada vez antes de meter las manos: para engrapar se conecta la corriente. Marque cada cosa solo cuando esté hecha." }
    locks_of_turning { en: "The locks of the stop in which nuts were turned still hang, as noted: what is checked holds until one comes off. Do the rest anew.", es: "Los candados del paro en que se giraron tuercas siguen puestos, según lo anotado: lo marcado vale hasta quitar uno. Lo demás se hace de nuevo." }
    power_was_on_since { en: "It was laced since: ask all of it anew", es: "Se engrapó desde entonces: preguntar todo otra vez" }
    made_safe_still { en: "What is checked was done during this stop. After a break or a shift change, make sure of each again.", es: "Lo marcado se hizo en este mismo paro. Después de una pausa o un cambio de turno, revise cada cosa otra vez." }
    not_on_this_press { en: "Not on this press", es: "Esta prensa no lo tiene" }
    absent_means { en: "Only where the press has nothing of the kind. It is recorded with your name.", es: "Solo si la prensa no tiene nada parecido. Queda registrado con su nombre." }
    step_not_here(step) { en: "Not on this press: {step}", es: "Esta prensa no lo tiene: {step}" }
    all_cautions { en: "All cautions", es: "Todas las precauciones" }
    confirm_and_turn { en: "Yes, made safe: show the turn card", es: "Sí, asegurada: ver la hoja de giros" }
    confirm_next(stage) { en: "Yes, made safe. Next: {stage}", es: "Sí, asegurada. Sigue: {stage}" }
    confirm_made_safe { en: "Yes, made safe: go on", es: "Sí, asegurada: seguir" }
    make_safe_now { en: "Make safe…", es: "Asegurar…" }
    made_safe_by(who, when) { en: "made safe {when} by {who}", es: "asegurada {when} por {who}" }
    still_made_safe { en: "Your hands go into the press here. Confirm that it is still made safe.", es: "Aquí mete usted las manos en la prensa. Confirme que sigue asegurada." }
    not_answered_anew { en: "The press is no longer noted as made safe. Make it safe before you turn any nut.", es: "La prensa ya no figura como asegurada. Asegúrela antes de girar cualquier tuerca." }
}
