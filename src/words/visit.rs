//! The visit as a path: stages, how they stand, warnings, the coarse gap.

use crate::press::customary;
use crate::session::{
    Checklist, ChecklistProblem, CoarseGap, GapLevel, NutWould, OrderWarning, PathState, Rule,
    Session, Stage, StageState, StepId,
};
use crate::units::{ExactLength, Unit};

use super::{Figures, Language};

impl Language {
    /// The name of a stage.
    pub fn stage(self, stage: Stage) -> &'static str {
        match stage {
            Stage::FreeNuts => self.stage_free_nuts_long(),
            Stage::CoarseGap => self.stage_coarse_gap_long(),
            Stage::JawDrive => self.stage_jaw_drive_long(),
            Stage::TestLace => self.stage_test_lace_long(),
            stage => self.stage_short(stage),
        }
    }

    /// A stage and how it stands, for a screen reader.
    pub fn stage_label(self, at: &StageState) -> String {
        self.stage_and_state(self.stage(at.stage), self.path_state(at.state))
    }

    /// What of a stage is checked off. Where what is recorded shows that it is
    /// done, no open box speaks against that.
    pub fn checked_off(self, at: &StageState) -> String {
        match (at.state, at.steps.saturating_sub(at.marked)) {
            (PathState::NotNeeded, _) => String::new(),
            (PathState::Recorded, open) => self.done_by_record(open),
            (PathState::Passed, _) => self.passed_by().to_owned(),
            _ => self.steps_marked(at.marked, at.steps),
        }
    }

    /// Why it may be too early for a stage.
    pub fn order_warning(self, warning: &OrderWarning) -> String {
        match warning {
            OrderWarning::NotMadeSafe { lapsed: false } => self.not_made_safe().to_owned(),
            OrderWarning::NotMadeSafe { lapsed: true } => self.no_longer_made_safe().to_owned(),
            OrderWarning::EarlierOpen(stages) => self.earlier_open(self.stages(stages)),
        }
    }

    /// Some stages by their names.
    pub fn stages(self, stages: &[Stage]) -> String {
        let names: Vec<&str> = stages.iter().map(|stage| self.stage(*stage)).collect();
        names.join(", ")
    }
}

impl Figures {
    /// What a step asks for.
    pub fn step_text(&self, list: &Checklist, step: StepId) -> String {
        match step {
            StepId::Fixed(step) => self.step(step).text,
            StepId::Own(index) => list
                .own
                .get(index)
                .map_or_else(String::new, |own| own.text.clone()),
        }
    }

    /// Why a checklist, or a change of it, cannot be.
    pub fn checklist_problem(&self, problem: &ChecklistProblem) -> String {
        let words = self.language;
        match problem {
            ChecklistProblem::NeverLeftOut(step) => words.never_left_out(self.step(*step).text),
            ChecklistProblem::StaysInSight(step) => words.stays_in_sight(self.step(*step).text),
            ChecklistProblem::NoReason => words.skip_needs_reason().to_owned(),
            ChecklistProblem::NoText => words.step_needs_text().to_owned(),
            ChecklistProblem::NoSuchStep => words.no_such_step().to_owned(),
            ChecklistProblem::MarkedTwice(step) => match step {
                StepId::Fixed(step) => words.marked_twice(self.step(*step).text),
                StepId::Own(index) => words.own_marked_twice(index + 1),
            },
            ChecklistProblem::GapAtNoArm(arm) => words.gap_at_no_arm(arm),
        }
    }

    /// How the coarse gap stands, a sentence each: evenness, level, what nuts
    /// and handle would do.
    pub fn coarse_gap_sentences(&self, gap: &CoarseGap) -> Vec<String> {
        let words = self.language;
        let spread = self.gap(gap.spread.into());
        let mut sentences = vec![if gap.even {
            words.gap_is_even(spread)
        } else {
            words.gap_is_uneven(gap.widest, gap.narrowest, spread)
        }];
        let (mean, usual) = (self.gap(gap.mean), self.about_gap());
        sentences.push(match gap.level {
            GapLevel::About => words.gap_about(mean, usual),
            GapLevel::Wide => words.gap_wide(mean, usual),
            GapLevel::Narrow => words.gap_narrow(mean, usual),
        });
        let turns = |allowed: bool| -> Option<String> {
            let turns: Vec<String> = gap
                .nuts
                .iter()
                .filter(|nut| nut.allowed == allowed)
                .map(|nut| self.nut_would(nut))
                .collect();
            (!turns.is_empty()).then(|| turns.join(", "))
        };
        sentences.extend(turns(true).map(|turns| words.gap_nuts_would(turns)));
        sentences.extend(turns(false).map(|turns| words.gap_nuts_may_not(turns)));
        if let Some(by) = gap.handle {
            let size = crate::units::Length::from_nm(by.nm().abs());
            let size = self.gap(size.into());
            sentences.push(if by.nm() > 0 {
                words.gap_handle_opens(size)
            } else {
                words.gap_handle_closes(size)
            });
        }
        if !gap.unread.is_empty() {
            let arms: Vec<String> = gap.unread.iter().map(ToString::to_string).collect();
            sentences.push(words.gap_unread(arms.join(", ")));
        }
        sentences
    }

    fn nut_would(&self, nut: &NutWould) -> String {
        let notches = nut.turn.0.unsigned_abs();
        if nut.turn.0 > 0 {
            self.language.arm_out(nut.arm, notches)
        } else {
            self.language.arm_in(nut.arm, notches)
        }
    }

    /// About how wide the coarse gap is: no finer than it is meant.
    pub fn about_gap(&self) -> String {
        match self.unit {
            Unit::Inch => self.plain(customary::COARSE_GAP),
            Unit::Millimetre => self.with_unit(&self.number(customary::COARSE_GAP, 1)),
        }
    }

    /// A coarse gap with its unit, to the thousandth of an inch or the
    /// hundredth of a millimetre.
    pub fn gap(&self, gap: ExactLength) -> String {
        let decimals = match self.unit {
            Unit::Inch => 3,
            Unit::Millimetre => 2,
        };
        self.with_unit(&self.number(gap, decimals))
    }

    /// Where "about" and "even" come from.
    pub fn coarse_gap_source(&self) -> String {
        self.language.gap_source(
            self.about_gap(),
            self.gap(customary::COARSE_GAP_EVEN.into()),
            self.gap(customary::COARSE_GAP_LEEWAY.into()),
        )
    }

    /// The coarse gap of every arm, for a screen reader.
    pub fn coarse_gap_described(&self, session: &Session) -> String {
        let arms = session.press.indexed_arms();
        let gaps: Vec<String> = arms
            .map(|(arm, _)| match session.coarse_gap_at(arm) {
                Some(gap) => format!("{arm} {}", self.gap(gap.length().into())),
                None => format!("{arm} –"),
            })
            .collect();
        self.language.gap_described(gaps.join("; "))
    }
}

names! {
    /// The name of a stage, short enough for a row of nine in a narrow
    /// window.
    pub stage_short(Stage) {
        MakeSafe { en: "Make safe", es: "Asegurar" }
        FreeNuts { en: "Free nuts", es: "Tuercas" }
        CoarseGap { en: "Rough gap", es: "Abertura" }
        JawDrive { en: "Jaw drive", es: "Transmisión" }
        TestLace { en: "Test lace", es: "Engrape" }
        Measure { en: "Measure", es: "Medir" }
        Turn { en: "Turn", es: "Girar" }
        Relace { en: "Re-lace", es: "Reengrape" }
        CloseOut { en: "Close out", es: "Terminar" }
    }

    /// What a stage is for.
    pub stage_purpose(Stage) {
        MakeSafe { en: "Cut the press off from everything that can move it. Lacing needs power, so you are asked again before every turn and every gap check by hand.", es: "Separe la prensa de todo lo que pueda moverla. Para engrapar se conecta la corriente, por eso se pregunta de nuevo antes de cada giro y cada vez que mida a mano la abertura." }
        FreeNuts { en: "Every nut must turn freely and start from the same point, or the press moves late or not at all.", es: "Cada tuerca debe girar libre y partir del mismo punto; si no, la prensa se mueve tarde o no se mueve." }
        CoarseGap { en: "Bring the jaws roughly parallel before you use up any belt.", es: "Deje las mordazas más o menos paralelas antes de gastar banda." }
        JawDrive { en: "Check what moves the jaw before you turn nuts: no nut can cure a drive that lags. The manual says in which order.", es: "Revise lo que mueve la mordaza antes de girar tuercas: ninguna tuerca corrige una transmisión atrasada. El manual dice en qué orden." }
        TestLace { en: "One full-width test piece shows what the whole jaw does.", es: "Una pieza de prueba de todo el ancho muestra lo que hace toda la mordaza." }
        Measure { en: "Measure the test piece at every arm and type the readings on the left.", es: "Mida la pieza de prueba en cada brazo y escriba las lecturas a la izquierda." }
        Turn { en: "Turn the nuts as the plan says, with the press made safe.", es: "Gire las tuercas como dice el plan, con la prensa asegurada." }
        Relace { en: "Only another test piece shows what the turns did. Do it as often as needed.", es: "Solo otra pieza de prueba muestra lo que hicieron los giros. Cuantas veces haga falta." }
        CloseOut { en: "Leave the press ready for work, and the record ready for the next visit.", es: "Deje la prensa lista para trabajar y el registro listo para la próxima visita." }
    }

    /// How a stage stands, in a word or two.
    pub path_state(PathState) {
        Done { en: "done", es: "hecho" }
        Recorded { en: "recorded", es: "registrado" }
        Passed { en: "not now", es: "ahora no" }
        Current { en: "now", es: "ahora" }
        Next { en: "next", es: "sigue" }
        Todo { en: "to do", es: "por hacer" }
        Again { en: "again", es: "otra vez" }
        Skipped { en: "left out", es: "omitido" }
        NotNeeded { en: "not needed", es: "no hace falta" }
    }

    /// A published rule by its number and subject.
    pub rule(Rule) {
        HazardousEnergy { en: "29 CFR 1910.147 (control of hazardous energy, lockout/tagout)", es: "29 CFR 1910.147 (control de energía peligrosa, bloqueo y etiquetado)" }
        MachineGuards { en: "29 CFR 1910.212 (general requirements for all machines)", es: "29 CFR 1910.212 (requisitos generales para toda máquina)" }
        CompressedAir { en: "29 CFR 1910.242(b) (compressed air for cleaning)", es: "29 CFR 1910.242(b) (aire comprimido para limpiar)" }
        EyesAndFace { en: "29 CFR 1910.133 (eye and face protection)", es: "29 CFR 1910.133 (protección de ojos y cara)" }
        UseOfWorkEquipment { en: "Directive 2009/104/EC (use of work equipment)", es: "Directiva 2009/104/CE (uso de equipos de trabajo)" }
        UnexpectedStartUp { en: "ISO 14118:2017 (prevention of unexpected start-up)", es: "ISO 14118:2017 (prevención de arranque inesperado)" }
    }
}

texts! {
    // The row of stages.
    stage_free_nuts_long { en: "Free up the nuts", es: "Liberar tuercas" }
    stage_coarse_gap_long { en: "Rough gap", es: "Abertura inicial" }
    stage_jaw_drive_long { en: "Jaw drive", es: "Transmisión de la mordaza" }
    stage_test_lace_long { en: "Test lace", es: "Engrape de prueba" }
    stage_and_state(stage, state) { en: "{stage}: {state}", es: "{stage}: {state}" }
    steps_marked(marked, steps) { en: "checked off: {marked} of {steps}", es: "marcado: {marked} de {steps}" }
    done_by_record(open) { en: "checks not noted: {open}", es: "pasos sin anotar: {open}" }
    passed_by { en: "a piece was laced and measured since", es: "desde entonces se engrapó y midió una pieza" }
    show_steps { en: "☑ Steps", es: "☑ Pasos" }
    show_steps_hint { en: "Show the steps of this stage", es: "Mostrar los pasos de esta etapa" }
    show_picture { en: "Picture", es: "Dibujo" }
    show_picture_hint { en: "Back to readings, picture and plan", es: "Volver a lecturas, dibujo y plan" }
    command_earlier_stage { en: "Show the stage before", es: "Mostrar la etapa anterior" }
    command_later_stage { en: "Show the stage after", es: "Mostrar la etapa siguiente" }
    command_steps_or_picture { en: "Change between steps and picture", es: "Cambiar entre pasos y dibujo" }

    // Another order.
    not_made_safe { en: "Your hands go into the press here, and it is not made safe yet.", es: "Aquí mete usted las manos en la prensa, y todavía no está asegurada." }
    no_longer_made_safe { en: "Power was on for lacing: make the press safe again before hands go in.", es: "Para engrapar hubo corriente: asegure la prensa otra vez antes de meter las manos." }
    earlier_open(stages) { en: "Still to do before this: {stages}. You choose the order; the manual decides.", es: "Falta antes de esto: {stages}. Usted elige el orden; el manual decide." }

    power_comes_back { en: "Power comes back on here. All hands out first.", es: "Aquí vuelve la corriente. Primero, todas las manos afuera." }
    power_too_early(stages) { en: "Power comes back on here. Not done yet: {stages}. All hands out first.", es: "Aquí vuelve la corriente. Todavía falta: {stages}. Primero, todas las manos afuera." }

    // Steps.
    why(text) { en: "Why: {text}", es: "Por qué: {text}" }
    own_step { en: "your shop's own step", es: "paso propio del taller" }
    marked_by(who, when) { en: "{who}, {when}", es: "{who}, {when}" }
    marked_by_nobody { en: "no name given", es: "sin nombre" }
    left_out_because(reason) { en: "left out: {reason}", es: "omitido: {reason}" }
    more_about(step) { en: "Note or leave out: {step}", es: "Anotar u omitir: {step}" }
    mark_note { en: "Note", es: "Nota" }
    fold_step { en: "Fold", es: "Plegar" }
    note_text { en: "Text of the note", es: "Texto de la nota" }
    keep_note { en: "Check off with this note", es: "Marcar con esta nota" }
    leave_out { en: "Leave out; the note is the reason", es: "Omitir, la nota es la razón" }
    hide_step { en: "Hide this step", es: "Ocultar este paso" }
    bring_back(step) { en: "Show again: {step}", es: "Mostrar otra vez: {step}" }
    edit_steps { en: "Change the steps", es: "Cambiar los pasos" }
    new_step { en: "A step of your own", es: "Un paso propio" }
    add_step { en: "Add it", es: "Agregarlo" }
    make_safe_then_card { en: "Make safe, then the turn card", es: "Asegurar, luego la hoja de giros" }
    piece_is_laced(pass) { en: "Piece {pass} is laced: enter its readings", es: "La pieza {pass} está engrapada: anotar sus lecturas" }
    save_close_out_later { en: "Save, close out later", es: "Guardar, terminar después" }
    left_outside { en: "The last piece is outside the tolerance. The press is not ready for work.", es: "La última pieza está fuera de tolerancia. La prensa no está lista para trabajar." }
    left_unmeasured { en: "No piece is measured and inside the tolerance yet. The press is not ready for work.", es: "Aún no hay una pieza medida y dentro de tolerancia. La prensa no está lista para trabajar." }
    flush_not_now(pass, nuts) { en: "Pass {pass} was laced with the nuts at {nuts}: each nut ends there again. Do not set them flush, do not even the gap.", es: "La pasada {pass} se engrapó con las tuercas en {nuts}: cada tuerca termina ahí otra vez. No las lleve al ras ni empareje la abertura." }
    next_first_pass { en: "Next: open the first pass", es: "Sigue: abrir la primera pasada" }
    next_stage(stage) { en: "Next: {stage}", es: "Sigue: {stage}" }
    nuts_noted_at(nuts) { en: "Noted at the start, in notches; 0 is flush, unless the notes say that this was not known: {nuts}", es: "Anotado al inicio, en ranuras; 0 es el ras, salvo que las notas digan que no se sabía: {nuts}" }
    note_all_flush { en: "All flush: 0", es: "Todas al ras: 0" }

    // The test piece, as it is drawn.
    piece_marked { en: "Test piece from above, its hooks between the jaws: outside them a mark at every arm, and one at the operator's left", es: "Pieza de prueba desde arriba, con los ganchos entre las mordazas: fuera de ellas una marca en cada brazo y otra a la izquierda del operador" }
    no_hands_between { en: "no hands between the jaws", es: "sin manos entre las mordazas" }
    mark_outside { en: "then mark here, outside the jaws", es: "luego marque aquí, fuera de las mordazas" }
    left_mark { en: "L", es: "IZQ" }
    operators_left { en: "operator's left", es: "izquierda del operador" }
    gauge_on_legs { en: "Gauge on the splice: across a short leg and the long leg beside it in one reading, never on one leg alone", es: "Instrumento sobre el empalme: abarca una pata corta y la pata larga de al lado en una sola lectura, nunca una sola pata" }
    both_in_one { en: "both, one reading", es: "las dos, una lectura" }
    one_alone { en: "not one alone", es: "nunca una sola" }
    mark_of_arm { en: "mark of the arm", es: "marca del brazo" }
    short_leg { en: "short leg", es: "pata corta" }
    long_leg { en: "long leg", es: "pata larga" }
    seen_from_side { en: "seen from the side", es: "vista de lado" }
    flush_line { en: "Notches from flush; 0 is flush, unless noted as not known", es: "Ranuras desde el ras; 0 es el ras, salvo que no se sepa" }
    nuts_on_rods(nuts) { en: "Nuts on their rods, in notches from flush: {nuts}", es: "Tuercas en sus tirantes, en ranuras desde el ras: {nuts}" }
    pins_to_count(pins) { en: "Pins to count: {pins}, one through each nut", es: "Chavetas por contar: {pins}, una por tuerca" }
    turns_drawn(turns) { en: "Castle nuts, seen facing the end of the rod: {turns}", es: "Tuercas castillo, de frente a la punta del tirante: {turns}" }

    // Ending a visit that did not come inside.
    end_not_ready { en: "End visit: press not ready", es: "Terminar visita: prensa no lista" }
    ended_not_ready { en: "visit ended, press not ready for work", es: "visita terminada, prensa no lista para trabajar" }
    lock_stays { en: "Put lock and tag on, or leave them on, as local rules say; tell the crew.", es: "Ponga candado y etiqueta, o déjelos puestos, como dicen las reglas locales; avise a la cuadrilla." }

    // Jaw drive.
    nip_picture { en: "Chain and sprocket: no hand where the chain runs onto the sprocket", es: "Cadena y piñón: no meta la mano donde la cadena entra al piñón" }
    nip_no_hand { en: "no hand here", es: "mano lejos de aquí" }
    nip_on_hub { en: "hand on the hub", es: "la mano en la maza" }
    field_drive_parts { en: "Parts of the jaw drive", es: "Partes de la transmisión" }
    drive_last_visit(parts) { en: "Last visit: {parts}", es: "La última visita: {parts}" }
    drive_same { en: "Same as last visit", es: "Igual que la última visita" }
    drive_differs { en: "Not the same as on the last visit. Find out why before you turn a nut.", es: "No es igual que en la última visita. Averigüe por qué antes de girar una tuerca." }

    // The coarse gap.
    field_coarse_gap(arm) { en: "Rough gap at {arm}", es: "Abertura inicial en {arm}" }
    quantity_coarse_gap { en: "Rough gap", es: "Abertura inicial" }
    gap_title { en: "Gap at every arm, at full stroke", es: "Abertura en cada brazo, a carrera completa" }
    gap_needs_two { en: "Type the gap at two arms or more: it is drawn here.", es: "Escriba la abertura en dos brazos o más: aquí se dibuja." }
    gap_is_even(spread) { en: "Even: the arms differ by {spread}.", es: "Pareja: los brazos difieren en {spread}." }
    gap_is_uneven(wide, narrow, spread) { en: "Not even: {wide} is {spread} wider than {narrow}.", es: "Dispareja: en {wide} hay {spread} más que en {narrow}." }
    gap_about(mean, usual) { en: "On average {mean}, about the usual {usual}.", es: "En promedio {mean}, cerca de lo usual, {usual}." }
    gap_wide(mean, usual) { en: "On average {mean}, wider than the usual {usual}.", es: "En promedio {mean}, más de lo usual, {usual}." }
    gap_narrow(mean, usual) { en: "On average {mean}, narrower than the usual {usual}.", es: "En promedio {mean}, menos de lo usual, {usual}." }
    gap_nuts_would(turns) { en: "To even it: {turns}.", es: "Para emparejarla: {turns}." }
    gap_nuts_may_not(turns) { en: "Past the nut's limit: {turns}. Look at rod and seat; do not force it.", es: "Pasa el límite de la tuerca: {turns}. Revise tirante y asiento; no la fuerce." }
    gap_handle_opens(by) { en: "Common handle: open the whole jaw by {by}, as the manual says.", es: "Manija común: abra toda la mordaza {by}, como dice el manual." }
    gap_handle_closes(by) { en: "Common handle: close the whole jaw by {by}, as the manual says.", es: "Manija común: cierre toda la mordaza {by}, como dice el manual." }
    gap_unread(arms) { en: "Not measured: {arms}.", es: "Falta medir: {arms}." }
    gap_source(usual, even, about) { en: "{usual} is common practice, no source. Calling it even within {even} and about right within {about} is this program's choice.", es: "{usual} es práctica común, sin referencia. Que valga como pareja dentro de {even} y como cercana dentro de {about} lo decide este programa." }
    gap_described(gaps) { en: "Rough gap: {gaps}", es: "Abertura inicial: {gaps}" }
    gap_usual_line(usual) { en: "usual {usual}", es: "usual {usual}" }

    // What is refused.
    stays_in_sight(step) { en: "“{step}” makes the press safe and stays on show.", es: "«{step}» asegura la prensa y queda a la vista." }
    never_left_out(step) { en: "“{step}” makes the press safe and is never left out. Do it, then check it off.", es: "«{step}» asegura la prensa y nunca se omite. Hágalo y luego márquelo." }
    skip_needs_reason { en: "Type in the note why the step is left out.", es: "Escriba en la nota por qué se omite el paso." }
    step_needs_text { en: "Type what the step asks for.", es: "Escriba qué pide el paso." }
    no_such_step { en: "There is no such step on the list of the visit.", es: "Ese paso no está en la lista de la visita." }
    marked_twice(step) { en: "The step “{step}” is checked off twice.", es: "El paso «{step}» está marcado dos veces." }
    own_marked_twice(number) { en: "The shop's own step {number} is checked off twice.", es: "El paso propio {number} está marcado dos veces." }
    gap_at_no_arm(arm) { en: "A rough gap is noted at arm {arm}, but the press has no such arm.", es: "Hay una abertura inicial anotada en el brazo {arm}, pero la prensa no tiene ese brazo." }
}
