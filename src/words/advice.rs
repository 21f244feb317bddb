//! What advice says: promises, chances, doubts.

use super::{Figures, Language};
use crate::plan::{BestAct, Finding, Forecast};
use crate::press::customary::NOTCH_EFFECT;
use crate::press::{ArmIndex, Notches, NutPosition};
use crate::session::{Advice, Remark, ResponseSource, Session};
use crate::units::Length;

impl Figures {
    /// What a notch does, as long as no turn has shown it: before anything is
    /// made of it.
    pub fn assumed_notch(&self, session: &Session, advice: &Advice) -> Option<String> {
        let from = &advice.learnt_from;
        if from.source != ResponseSource::Posterior || from.visits > 0 || from.passes > 1 {
            return None;
        }
        let words = self.language;
        let mut effects = session
            .press
            .arms
            .iter()
            .map(|arm| arm.notch_effect.length());
        let first = effects.next()?;
        if effects.any(|effect| effect != first) {
            return Some(words.notches_as_entered().to_owned());
        }
        let effect = self.plain(first);
        Some(match first == NOTCH_EFFECT {
            true => words.notch_customary(effect, words.common_practice()),
            false => words.notch_as_entered(effect),
        })
    }

    /// The plan as plain text: what to turn, from where to where, what it
    /// promises, and the cautions.
    pub fn plan_as_text(
        &self,
        session: &Session,
        turns: &[Notches],
        nuts: &[NutPosition],
        forecast: Option<Forecast>,
    ) -> String {
        let words = self.language;
        let mut lines = vec![session.press.name.clone()];
        for ((arm, _), (turn, from)) in session.press.indexed_arms().zip(turns.iter().zip(nuts)) {
            let position = if turn.0 == 0 {
                words.stays_at(from)
            } else {
                words.from_to(from, *from + *turn)
            };
            lines.push(format!("{arm}: {}, {position}", self.turn(*turn)));
        }
        if let Some(forecast) = forecast {
            lines.push(self.promise(turns, forecast));
        }
        lines.push(format!(
            "{} {}",
            words.caution_heading(),
            words.caution_text()
        ));
        lines.join("\n")
    }

    /// What turns promise of the next piece.
    pub fn promise(&self, turns: &[Notches], forecast: Forecast) -> String {
        let spread = self.with_unit(&self.predicted(forecast.median_nm));
        let chance = self.percentage(forecast.chance);
        if turns.iter().all(|turn| turn.0 == 0) {
            self.language.leaving_promises(spread, chance)
        } else {
            self.language
                .turns_promise(self.turns(turns), spread, chance)
        }
    }

    /// What is worth saying about a plan; `limit` is the tolerance.
    pub fn plan_remark(&self, remark: &Remark, limit: Length) -> String {
        let words = self.language;
        let nm = |nm: f64| self.with_unit(&self.predicted(nm));
        let letters = |arms: &[ArmIndex]| -> String {
            let letters: Vec<String> = arms.iter().map(ArmIndex::to_string).collect();
            letters.join(", ")
        };
        match remark {
            Remark::Finding(finding) => self.finding(finding),
            Remark::LimitsUnknown => words.limits_unknown().to_owned(),
            Remark::LikelyMisses(chance) => {
                let misses = words.likely_misses(self.percentage(*chance));
                format!("{misses} {}", words.likely_misses_helps())
            }
            Remark::OutsideLimits(arms) => words.standing_outside_limits(letters(arms)),
            Remark::Held(arms) => words.held_unread(letters(arms)),
            Remark::Unproven => words.smallest_unproven().to_owned(),
            Remark::AsGoodAsItGets => words.as_good_as_whole_notches().to_owned(),
            Remark::OutOfReach(smallest) => {
                words.no_whole_notches_reach(nm(*smallest), self.limit(limit))
            }
            Remark::Left(remainder) => self.remainder_sentence(remainder),
            Remark::Slack(stop, held) => self.slack_stop_sentence(stop, *held),
            Remark::MissedMore => words.missed_more().to_owned(),
            Remark::Reach(reach) => {
                // Rounded up: what is promised must be kept.
                let always = Length::from_nm(reach.always.nm_f64().ceil() as i64);
                words.cli_reach(reach.arms, self.plain(always))
            }
            Remark::CommonTurn(common) => words.common_turn_offer(
                self.turn(common.turn),
                nm(common.handle_nm.abs()),
                match common.handle_nm > 0.0 {
                    true => words.handle_opens(),
                    false => words.handle_closes(),
                },
                letters(&common.low),
            ),
        }
    }

    /// Something to be asked about rather than averaged in.
    fn finding(&self, finding: &Finding) -> String {
        let words = self.language;
        let per_notch = |nm: f64| self.with_unit(&self.nm(nm, self.mean_decimals()));
        match *finding {
            Finding::WrongSign { arm, answer_nm } => {
                words.finding_wrong_sign(ArmIndex(arm), per_notch(answer_nm))
            }
            Finding::NoAnswer {
                arm,
                answer_nm,
                expected_nm,
            } => {
                words.finding_no_answer(ArmIndex(arm), per_notch(answer_nm), per_notch(expected_nm))
            }
            Finding::Contradiction { pass, .. } => words.finding_contradiction(pass + 1),
            Finding::TurnDoubt {
                pass,
                arm,
                recorded,
                likelier,
                ratio,
            } => words.finding_turn_doubt(
                pass + 1,
                ArmIndex(arm),
                self.turn(Notches(recorded)),
                self.turn(Notches(likelier)),
                format!("{:.0}", ratio.min(9_999.0)),
            ),
            Finding::TwoMissed { pass } => words.finding_two_missed(pass, pass + 1),
        }
    }
}

/// Chance from which a piece is said to be inside perhaps.
const MAY_BE_INSIDE: f64 = 0.1;

impl Language {
    /// What to do first.
    pub fn first_action(self, advice: &Advice) -> &'static str {
        let chance = advice.this_piece.unwrap_or(0.0);
        match advice.choice.action {
            // Read again for the sake of the plan, not of this piece.
            BestAct::MeasureAgain if chance < MAY_BE_INSIDE => self.action_measure_for_plan(),
            BestAct::Accept => self.action_accept(),
            BestAct::MeasureAgain => self.action_measure_again(),
            BestAct::LaceAgain => self.action_lace_again(),
            BestAct::Turn => self.action_turn(),
        }
    }
}

texts! {
    turns_promise(turns, spread, chance) { en: "{turns} should bring the next piece to about {spread}; chance of being inside: {chance}.", es: "Con {turns} la próxima pieza tendría unos {spread} de diferencia; probabilidad de quedar dentro: {chance}." }
    leaving_promises(spread, chance) { en: "If no nut is turned, the next piece should have about {spread}; chance of being inside: {chance}.", es: "Sin mover tuercas, la próxima pieza tendría unos {spread} de diferencia; probabilidad de quedar dentro: {chance}." }
    plan_is_sure(confidence) { en: "That is as sure as you asked for ({confidence} or more).", es: "Tiene la certeza que se pidió ({confidence} o más)." }
    smallest_unproven { en: "Search stopped early: the limits or readings are unlike any press. The best plan so far is shown.", es: "La búsqueda se detuvo antes: los límites o las lecturas no parecen de una prensa. Se muestra el mejor plan hasta ahora." }
    likely_misses(chance) { en: "Will probably take another piece: chance {chance}.", es: "Es probable que haga falta otra pieza: probabilidad {chance}." }
    likely_misses_helps { en: "Measure the next one at every arm, twice: the plan after it is surer.", es: "Mida la próxima en cada brazo, dos veces: el plan siguiente es más confiable." }
    why_several(nuts) { en: "a nut moves its neighbors too, so {nuts} turn", es: "cada tuerca mueve también a sus vecinas: giran {nuts}" }
    leaving_differs { en: "The next piece may differ from this one though nothing is turned: readings and lacings vary.", es: "La próxima pieza puede salir distinta de esta aunque no se gire nada: las lecturas y los engrapes varían." }
    recommended_as_read { en: "recommended so far", es: "recomendado por ahora" }
    column_ninety { en: "9 of 10 under", es: "9 de 10, máximo" }
    column_chance { en: "chance", es: "probabilidad" }
    column_next_piece { en: "next piece, expected", es: "próxima pieza, esperada" }
    action_accept { en: "Leave the nuts. Make safe, put the pins back, close out.", es: "Deje las tuercas. Asegure la prensa, ponga las chavetas y termine la visita." }
    action_measure_for_plan { en: "First measure this piece again: the readings vary too much to turn nuts by.", es: "Primero mida otra vez esta pieza: las lecturas varían demasiado para girar tuercas." }
    action_measure_again { en: "First measure this piece again: it may already be inside.", es: "Primero mida otra vez esta pieza: quizá ya está dentro." }
    action_lace_again { en: "Lace another piece, turn no nuts yet.", es: "Engrape otra pieza, todavía sin mover tuercas." }
    action_turn { en: "Turn, then lace again.", es: "Gire y engrape otra vez." }
    row_ninety(spread) { en: "9 of 10 under {spread}", es: "9 de 10, máximo {spread}" }
    thinking { en: "working it out …", es: "calculando …" }
    as_good_as_whole_notches { en: "This is as good as whole notches can make it.", es: "Esto es lo mejor que dan las ranuras enteras." }
    held_unread(arms) { en: "Not measured, so left alone: {arms}.", es: "Sin medir, por eso se dejan: {arms}." }
    standing_outside_limits(arms) { en: "Already past their limits: {arms}.", es: "Ya fuera de sus límites: {arms}." }
    common_turn_offer(turn, handle, way, low) { en: "These turns leave {low} near the end of its travel. To give it travel back, after them: all nuts {turn} more, and the common handle {handle} {way}, moved as the manual says before the next piece is laced; the splice keeps its shape.", es: "Con estos giros, {low} queda cerca del fin de su recorrido. Para devolvérselo, después de ellos: todas las tuercas {turn} más, y la manija común {handle} {way}, movida como dice el manual antes de engrapar la próxima pieza; el empalme conserva su forma." }
    handle_opens { en: "toward open", es: "hacia ABRIR" }
    handle_closes { en: "toward closed", es: "hacia CERRAR" }
    finding_wrong_sign(arm, answer) { en: "Arm {arm} moves the wrong way ({answer} per notch OUT). Was IN noted for OUT? Check the nut before you trust this plan.", es: "El brazo {arm} se mueve al revés ({answer} por ranura al ABRIR). ¿Se anotó CERRAR por ABRIR? Revise la tuerca antes de confiar en el plan." }
    finding_no_answer(arm, answer, expected) { en: "Arm {arm} hardly moves: {answer} per notch instead of {expected}. Rod slack, thread stripped, or pin still in?", es: "El brazo {arm} casi no se mueve: {answer} por ranura en vez de {expected}. ¿Tirante flojo, rosca barrida o chaveta puesta?" }
    finding_contradiction(pass) { en: "Pass {pass} disagrees with the others by more than readings vary. Was the piece marked and measured at the arms?", es: "La pasada {pass} no concuerda con las otras, por más de lo que varían las lecturas. ¿Se marcó y midió en los brazos?" }
    finding_turn_doubt(pass, arm, recorded, likelier, ratio) { en: "Before pass {pass}: was it really {recorded} at {arm}? {likelier} fits {ratio} times better. Check the nut, then correct the pass.", es: "Antes de la pasada {pass}: ¿de verdad fue {recorded} en {arm}? {likelier} encaja {ratio} veces mejor. Revise la tuerca y corrija la pasada." }
    finding_two_missed(first, second) { en: "Passes {first} and {second} both came out other than predicted: suspect the belt, the hooks or the jaw drive, not the nuts.", es: "Las pasadas {first} y {second} no dieron lo esperado: sospeche de la banda, los ganchos o la transmisión, no de las tuercas." }
    why_title { en: "Why: how much each nut moves", es: "Por qué: cuánto mueve cada tuerca" }
    why_given { en: "The response table is fixed; the program learns nothing from the passes.", es: "La tabla de respuesta es fija; el programa no aprende de las pasadas." }
    notch_customary(effect, practice) { en: "{effect} a notch (all nuts): {practice}, not measured.", es: "{effect} por ranura (todas): {practice}, sin medir." }
    notch_as_entered(effect) { en: "{effect} a notch (all nuts): as entered, not measured.", es: "{effect} por ranura (todas): dato escrito, sin medir." }
    notches_as_entered { en: "Thickness per notch: as entered, not measured on this press.", es: "Espesor por ranura: dato escrito, sin medir." }
    why_assumed { en: "Assumed from the shape of the jaw, with a notch giving a little less than was entered, until turns of this press are measured.", es: "Supuesto por la forma de la mordaza, con una ranura que rinde un poco menos de lo escrito, hasta que se midan giros de esta prensa." }
    why_learnt(passes, visits) { en: "Learned from {passes} passes of this visit and {visits} earlier visits.", es: "Aprendido de {passes} pasadas de esta visita y {visits} visitas anteriores." }
    why_matrix_caption(unit) { en: "thousandths of {unit} at each measuring point (rows) for one notch OUT at each nut (columns)", es: "milésimas ({unit}) en cada punto de medición (filas) por una ranura de ABRIR en cada tuerca (columnas)" }
    why_micrometres_caption { en: "micrometers at each measuring point (rows) for one notch OUT at each nut (columns)", es: "micrómetros en cada punto de medición (filas) por una ranura de ABRIR en cada tuerca (columnas)" }
    why_matrix_label(station, arm, value, sd) { en: "{station} for one notch OUT at {arm}: {value}, give or take {sd}", es: "{station} por una ranura de ABRIR en {arm}: {value}, más o menos {sd}" }
    why_expected_measured { en: "Past turns, predicted and measured", es: "Giros hechos, previsto y medido" }
    why_change_row(pass, station, expected, measured) { en: "pass {pass}, {station}: {expected} predicted, {measured} measured", es: "pasada {pass}, {station}: {expected} previsto, {measured} medido" }
    why_noise(lacing, repeatability, step) { en: "Assumed variation (one standard deviation): lacing to lacing {lacing}, repeated readings {repeatability}; gauge resolution {step}.", es: "Variación supuesta (una desviación estándar): entre engrapes {lacing}, lecturas repetidas {repeatability}; resolución del instrumento {step}." }
    next_visit { en: "Start the next visit from it", es: "Empezar de ahí la próxima visita" }
    keep_with_press { en: "Save what this press taught", es: "Guardar lo que enseñó la prensa" }
    teach_what { en: "How the splice answered to each nut, and where the nuts stand now, go into the press's file (.jawpress), a small file of its own for each press.", es: "Cómo respondió el empalme a cada tuerca, y dónde quedan las tuercas, se guarda en el archivo de la prensa (.jawpress), un archivo pequeño por prensa." }
    teach_where { en: "You choose where: best beside the press's visits, and the same file at every visit. It adds to what is there; doing it twice changes nothing.", es: "Usted elige dónde: mejor junto a las visitas de la prensa, y el mismo archivo en cada visita. Se agrega a lo que hay; hacerlo dos veces no cambia nada." }
    teach_why { en: "Start the next visit from it (File, The press's file): the nuts are where they were left, and the first plan is surer, so fewer test pieces are laced.", es: "Empiece de ahí la próxima visita (Archivo, Archivo de la prensa): las tuercas están donde quedaron y el primer plan es más confiable, con menos piezas de prueba." }
    teach_choose { en: "Choose the press's file", es: "Elegir el archivo de la prensa" }
    said_next_visit { en: "The next visit is open. The nuts are where they were last left, and what earlier visits taught is used.", es: "La visita siguiente está abierta. Las tuercas están como quedaron y se usa lo que enseñaron las visitas anteriores." }
}
