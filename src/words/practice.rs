//! What practice says: faults, refusals, how an exercise came out, and advice
//! from what happened.

use crate::practice::{
    Act, Cure, CureKnown, Decision, Did, Ending, ExerciseProblem, Fault, Finish, Help, Level,
    PRACTICE_ARMS, Refusal, Remark, SCATTERS, Way, spread_nm,
};
use crate::press::{ArmIndex, Notches};
use crate::store::{Instead, UnsoundPractice};

use super::{Figures, Language};

impl Language {
    /// That, with the arm it is at.
    pub fn fault_at(self, fault: Fault, arm: Option<ArmIndex>) -> String {
        let name = self.fault(fault);
        match (fault, arm) {
            (_, None) => name.to_owned(),
            (Fault::WornStretch | Fault::UnevenChains, Some(arm)) => {
                self.fault_between(name, arm, ArmIndex(arm.0 + 1))
            }
            // Of an everyday press only the slack rod is at an arm.
            (Fault::Everyday, Some(arm)) => {
                let slack = self.fault_at_arm(self.fault(Fault::SlackNut), arm);
                format!("{name}; {slack}")
            }
            (_, Some(arm)) => self.fault_at_arm(name, arm),
        }
    }

    /// How it came out, for the debrief.
    pub fn finish(self, finish: Finish) -> &'static str {
        match finish {
            Finish::JawTrue => self.finish_true(),
            Finish::InsideByLuck => self.finish_by_luck(),
            Finish::AcceptedOutside => self.finish_outside(),
            Finish::RightlySentAway => self.finish_rightly_sent(),
            Finish::WronglySentAway => self.finish_wrongly_sent(),
            Finish::Unsafe => self.ending(Ending::Unsafe),
            Finish::GivenUp => self.ending(Ending::GivenUp),
        }
    }

    /// Why an act cannot be done.
    pub fn refusal(self, refusal: Refusal) -> String {
        match refusal {
            Refusal::Over(ending) => self.refused_over(self.ending(ending)),
            Refusal::NoPiece => self.refused_no_piece().to_owned(),
            Refusal::NoStation(station) => self.refused_no_station(station.saturating_add(1)),
            Refusal::PerArm(arms, found) => self.refused_per_arm(arms, found),
            Refusal::TooFar(notches) => self.refused_too_far(notches),
            Refusal::TooMany(most) => self.refused_too_many(most),
            Refusal::NoHelp => self.refused_no_help().to_owned(),
            Refusal::GuessFirst => self.refused_guess_first().to_owned(),
        }
    }

    /// Why an exercise cannot be.
    pub fn exercise_problem(self, problem: ExerciseProblem) -> String {
        match problem {
            ExerciseProblem::Arms(found) => {
                self.exercise_arms(PRACTICE_ARMS.start(), PRACTICE_ARMS.end(), found)
            }
            ExerciseProblem::Profile(arms, found) => self.exercise_profile(arms, found),
            ExerciseProblem::Length(_) => self.exercise_thickness().to_owned(),
            ExerciseProblem::Number => self.exercise_number().to_owned(),
            ExerciseProblem::Jaw => self.exercise_jaw().to_owned(),
        }
    }

    pub(super) fn unsound_practice(self, problem: UnsoundPractice) -> String {
        match problem {
            UnsoundPractice::Exercise(problem) => self.exercise_problem(problem),
            UnsoundPractice::Act(number, refusal) => {
                self.unsound_act(number, self.refusal(refusal))
            }
            UnsoundPractice::TooManyActs(found) => self.too_many_acts(found),
        }
    }

    /// Short name of an act, for a list of what was done.
    pub fn act_name(self, act: &Act) -> String {
        let turns = |turns: &[i32]| {
            let signed: Vec<String> = turns.iter().map(|turn| format!("{turn:+}")).collect();
            signed.join(" ")
        };
        match act {
            Act::MakeSafe => self.act_make_safe().to_owned(),
            Act::Lace { flipped: false } => self.act_lace().to_owned(),
            Act::Lace { flipped: true } => self.act_lace_flipped().to_owned(),
            Act::ZeroGauge => self.act_zero().to_owned(),
            Act::Read { .. } => self.act_read().to_owned(),
            Act::Guess(guess) => self.act_guess(turns(guess)),
            Act::SeeAdvice => self.act_advice().to_owned(),
            Act::Turn(made) => self.act_turn(turns(made)),
            Act::SeeTo(cure) => self.cure(*cure).to_owned(),
            Act::Accept => self.act_accept().to_owned(),
            Act::GiveUp => self.act_give_up().to_owned(),
        }
    }
}

impl Figures {
    /// One piece of advice from what happened.
    pub fn remark(&self, remark: Remark) -> String {
        let words = self.language;
        let minutes = |minutes: f64| self.decimal(minutes, 0);
        match remark {
            Remark::Unsafe => words.remark_unsafe().to_owned(),
            Remark::PastLimit { piece, arm, stands } => {
                words.remark_past_limit(piece + 1, arm, stands)
            }
            Remark::RetainerStuck { piece, arm } => words.remark_stuck(piece + 1, arm),
            Remark::AcceptedOutside => words.remark_outside().to_owned(),
            Remark::SentAwayTooSoon => words.remark_sent_away().to_owned(),
            Remark::ZeroSkipped { pieces } => words.remark_zero(pieces),
            Remark::BesideMarks { readings } => words.remark_beside(readings),
            Remark::ReadOnce { pieces } => words.remark_once(pieces),
            Remark::NotSeenTo(fault, cure) => {
                words.remark_not_seen(words.fault(fault), words.cure(cure))
            }
            Remark::ArmByArm { piece, minutes: m } => words.remark_thickest(piece + 1, minutes(m)),
            Remark::TurnedForNothing { piece, minutes: m } => {
                words.remark_turned(piece + 1, minutes(m))
            }
            Remark::LeftForNothing { piece, minutes: m } => {
                words.remark_left(piece + 1, minutes(m))
            }
            Remark::OtherTurns { piece, minutes: m } => words.remark_other(piece + 1, minutes(m)),
            Remark::PassedAlready { piece } => words.remark_passed(piece + 1),
        }
    }

    /// A way of working in figures.
    pub fn way(&self, name: &str, way: &Way) -> String {
        self.language.way_line(
            name,
            self.decimal(way.pieces, 1),
            self.decimal(way.minutes, 0),
            self.share(way.by_second),
            self.share(way.passed),
        )
    }

    /// What would have cured the press, and what that leaves.
    pub fn cure_known(&self, cure: &CureKnown) -> String {
        let words = self.language;
        let seen = cure.see_to.iter().map(|cure| words.cure(*cure).to_owned());
        let turns: Vec<Notches> = cure.turns.iter().copied().map(Notches).collect();
        let all: Vec<String> = seen.chain([self.turns(&turns)]).collect();
        let left = self.with_unit(&self.predicted(spread_nm(&cure.left_nm)));
        match cure.inside {
            true => words.practice_cure(all.join("; "), left),
            false => words.practice_no_cure(all.join("; "), left),
        }
    }

    /// A decision with what could be known then and what luck did.
    pub fn decision(&self, decision: &Decision) -> String {
        let words = self.language;
        let turns = |turns: &[i32]| {
            let turns: Vec<Notches> = turns.iter().copied().map(Notches).collect();
            self.turns(&turns)
        };
        let choice = |choice: &crate::practice::Choice| {
            words.choice_line(
                turns(&choice.turns),
                self.percentage(choice.chance),
                self.decimal(choice.minutes, 0),
            )
        };
        let did = match &decision.did {
            Did::Laced { saw_to, .. } => {
                let mut parts: Vec<String> = saw_to
                    .iter()
                    .map(|cure| words.cure(*cure).to_owned())
                    .collect();
                parts.push(match &decision.chosen {
                    Some(chosen) => choice(chosen),
                    None => turns(decision.turns()),
                });
                parts.join("; ")
            }
            Did::Ended(ending) => words.ending(*ending).to_owned(),
        };
        let mut lines = vec![words.decision_line(decision.piece + 1, did)];
        let laced = matches!(decision.did, Did::Laced { .. });
        if let Some(best) = decision.best.as_ref().filter(|_| laced) {
            lines.push(words.best_then_line(choice(best)));
        }
        if let Some(came) = decision.came_inside {
            let best = decision.best_inside.map(|best| self.share(best));
            let best = best.unwrap_or_else(|| "–".to_owned());
            lines.push(words.luck_line(SCATTERS, self.share(came), best));
        }
        lines.join("\n")
    }
}

names! {
    /// What is wrong with a press.
    pub fault(Fault) {
        Everyday { en: "out of true at every arm", es: "dispareja en todos los brazos" }
        PinchedArm { en: "one arm pinched", es: "un brazo apretado de más" }
        Taper { en: "thicker from one end to the other", es: "más gruesa de un extremo al otro" }
        Bow { en: "bowed in the middle", es: "arqueada en medio" }
        BeltTwist { en: "twisted belt end: every piece is tilted another way", es: "extremo de banda torcido: cada pieza se inclina distinto" }
        WornStretch { en: "worn stretch of jaw that no nut can cure", es: "tramo gastado de mordaza que ninguna tuerca corrige" }
        SlackNut { en: "a rod with little pull: its nut goes slack when turned out", es: "un tirante con poca tensión: queda flojo al abrir su tuerca" }
        DeadNut { en: "a nut that does not answer", es: "una tuerca que no responde" }
        PoorGauge { en: "a coarse gauge in a shaky hand", es: "un instrumento de poca resolución en mano poco firme" }
        ThickBeltSide { en: "belt thicker on one side", es: "banda más gruesa de un lado" }
        UnevenChains { en: "uneven chains: a step between two arms", es: "cadenas disparejas: un escalón entre dos brazos" }
        SmallOpening { en: "hardly any opening left where the arm is too open", es: "casi sin apertura donde el brazo está demasiado abierto" }
        Mixed { en: "two faults at once", es: "dos fallas a la vez" }
    }

    /// How hard an exercise is.
    pub level(Level) {
        Easy { en: "easy", es: "fácil" }
        Middling { en: "medium", es: "medio" }
        Hard { en: "hard", es: "difícil" }
    }

    /// When advice may be seen.
    pub help_grade(Help) {
        None { en: "no advice", es: "sin consejo" }
        AfterGuess { en: "advice after your own guess", es: "consejo después de su propia respuesta" }
        Full { en: "advice at any time", es: "consejo en todo momento" }
    }

    /// What one can see to, as something to do.
    pub cure(Cure) {
        Belt { en: "take another belt end", es: "tomar otro extremo de banda" }
        Drive { en: "even chains and sprockets", es: "emparejar cadenas y piñones" }
        Nut { en: "free the nuts and draw the rods tight", es: "liberar las tuercas y tensar los tirantes" }
        Gauge { en: "take a finer gauge", es: "tomar un instrumento más fino" }
        Jaw { en: "send the jaw to the shop", es: "mandar la mordaza al taller" }
    }

    /// How an exercise ended.
    pub ending(Ending) {
        Accepted { en: "the piece was accepted and the press went to work", es: "se aceptó la pieza y la prensa volvió al trabajo" }
        SentAway { en: "the jaw was sent to the shop", es: "la mordaza se mandó al taller" }
        Unsafe { en: "hands went into the press before it was made safe", es: "se metieron las manos antes de asegurar la prensa" }
        GivenUp { en: "it was stopped before a piece was accepted", es: "se detuvo antes de aceptar una pieza" }
    }

    pub(super) instead(Instead) {
        Session { en: "a visit", es: "una visita" }
        Press { en: "a press file", es: "un archivo de prensa" }
        Practice { en: "a practice file", es: "un archivo de práctica" }
        Other { en: "something else", es: "otra cosa" }
    }
}

texts! {
    practice_mark { en: "PRACTICE", es: "PRÁCTICA" }
    practice_mark_long { en: "PRACTICE: simulated press, nothing here is real work", es: "PRÁCTICA: prensa simulada, nada de esto es trabajo real" }

    fault_at_arm(fault, arm) { en: "{fault} (arm {arm})", es: "{fault} (brazo {arm})" }
    fault_between(fault, left, right) { en: "{fault} (between {left} and {right})", es: "{fault} (entre {left} y {right})" }

    finish_true { en: "Accepted, and the jaws are true.", es: "Aceptada, y las mordazas están parejas." }
    finish_by_luck { en: "The accepted piece was inside, but the jaws are not true: the next pieces will not all be.", es: "La pieza aceptada quedó dentro, pero las mordazas no están parejas: no todas las próximas lo estarán." }
    finish_outside { en: "A piece was accepted that its readings do not show to be inside.", es: "Se aceptó una pieza cuyas lecturas no muestran que esté dentro." }
    finish_rightly_sent { en: "Rightly sent to the shop: no turn of any nut would have cured it.", es: "Bien mandada al taller: ningún giro la habría corregido." }
    finish_wrongly_sent { en: "Sent to the shop, though it could have been cured at the press.", es: "Mandada al taller, aunque se podía corregir en la prensa." }

    refused_over(why) { en: "This exercise is over: {why}.", es: "Este ejercicio terminó: {why}." }
    refused_no_piece { en: "Lace a test piece first.", es: "Primero engrape una pieza de prueba." }
    refused_no_station(number) { en: "This press has no measuring point {number}.", es: "Esta prensa no tiene el punto de medición {number}." }
    refused_per_arm(arms, found) { en: "Expected turns for {arms} arms, found {found}.", es: "Se esperaban giros para {arms} brazos y hay {found}." }
    refused_too_far(notches) { en: "{notches} notches in one go is more than anybody turns. Look at the number again.", es: "{notches} ranuras de una vez es más de lo que se gira. Revise el número." }
    refused_too_many(most) { en: "An exercise holds {most} of these at most. Begin it again.", es: "Un ejercicio admite a lo más {most}. Empiécelo de nuevo." }
    refused_no_help { en: "This exercise is done without advice.", es: "Este ejercicio se hace sin consejo." }
    refused_guess_first { en: "Say first which turns you would make; then the advice is shown.", es: "Diga primero qué giros haría; luego se muestra el consejo." }
    exercise_arms(least, most, found) { en: "Expected {least} to {most} arms, found {found}.", es: "Se esperaban de {least} a {most} brazos y hay {found}." }
    exercise_profile(arms, found) { en: "Expected one length per arm ({arms}), found {found}.", es: "Se esperaba una medida por brazo ({arms}) y hay {found}." }
    exercise_thickness { en: "With this profile the splice has no thickness a splice can have.", es: "Con este perfil el empalme no tiene un espesor posible." }
    exercise_number { en: "Exercises count from 1.", es: "Los ejercicios se cuentan desde 1." }
    exercise_jaw { en: "These arms make no jaw.", es: "Con estos brazos no hay mordaza." }
    unsound_act(number, why) { en: "What was done as number {number} cannot have been done: {why}", es: "Lo hecho en el paso {number} no pudo hacerse: {why}" }
    too_many_acts(found) { en: "{found} steps are more than an exercise can have.", es: "{found} pasos son más de los que puede tener un ejercicio." }
    open_no_practice(found) {
        en: "Expected a practice file (*.jawlesson), which begins with “(lesson_format: 2”; found {found}.",
        es: "Se esperaba un archivo de práctica (*.jawlesson), que empieza con «(lesson_format: 2»; se encontró {found}."
    }

    act_make_safe { en: "made safe", es: "asegurada" }
    act_lace { en: "laced a test piece", es: "se engrapó una pieza" }
    act_lace_flipped { en: "laced a test piece, belt end the other way round", es: "se engrapó una pieza con la banda al revés" }
    act_zero { en: "zeroed the gauge", es: "instrumento en cero" }
    act_read { en: "read", es: "lectura" }
    act_guess(turns) { en: "guess {turns}", es: "respuesta {turns}" }
    act_advice { en: "looked at the advice", es: "vio el consejo" }
    act_turn(turns) { en: "turned {turns}", es: "giró {turns}" }
    act_accept { en: "accepted", es: "aceptó" }
    act_give_up { en: "stopped", es: "se detuvo" }

    decision_line(piece, did) { en: "After piece {piece}: {did}", es: "Después de la pieza {piece}: {did}" }
    best_then_line(choice) { en: "  best then: {choice}", es: "  lo mejor entonces: {choice}" }
    choice_line(turns, chance, minutes) { en: "{turns} (chance {chance}, {minutes} min expected)", es: "{turns} (probabilidad {chance}, {minutes} min esperados)" }
    luck_line(runs, came, best) { en: "  in {runs} lacings alike, the next piece is inside in {came}; after the best choice then, in {best}", es: "  en {runs} engrapes iguales, la siguiente pieza queda dentro en {came}; con lo mejor entonces, en {best}" }
    practice_cure(what, left) { en: "What would have cured it: {what}. That leaves the jaws a spread of {left}.", es: "Lo que la habría corregido: {what}. Con eso las mordazas quedan con una diferencia de {left}." }
    practice_no_cure(what, left) { en: "Nothing at the press would have cured it. The best is: {what}; that leaves the jaws a spread of {left}.", es: "Nada en la prensa la habría corregido. Lo mejor es: {what}; con eso las mordazas quedan con una diferencia de {left}." }
    way_line(name, pieces, minutes, second, passed) { en: "{name}, on average: {pieces} pieces, {minutes} min; {second} inside by piece 2, {passed} in the end", es: "{name}, en promedio: {pieces} piezas, {minutes} min; {second} dentro con 2 piezas, {passed} al final" }

    remark_unsafe { en: "Make the press safe before every turn: power off, locked out, stored energy released or blocked, tried: it does not start. Lacing restores power.", es: "Asegure la prensa antes de cada giro: sin corriente, con candado, energía liberada o bloqueada, probado que no arranca. Al engrapar vuelve la corriente." }
    remark_past_limit(piece, arm, stands) { en: "At piece {piece} nut {arm} stood at {stands}, past its last safe notch: no pin fits through there, or too little thread holds.", es: "En la pieza {piece} la tuerca {arm} quedó en {stands}, más allá de su última ranura segura: ahí no pasa la chaveta o agarra muy poca rosca." }
    remark_stuck(piece, arm) { en: "At piece {piece} the hook retainer stuck: the nut of arm {arm} is farther in than its opening allows. Turn the others OUT instead.", es: "En la pieza {piece} se atoró el retén de ganchos: la tuerca del brazo {arm} está más cerrada de lo que permite su apertura. Mejor ABRIR las otras." }
    remark_outside { en: "Accept a piece only once every arm is measured and the spread is inside the tolerance.", es: "Acepte una pieza solo con todos los brazos medidos y la diferencia dentro de la tolerancia." }
    remark_sent_away { en: "This one could be cured at the press: try what turns can do before sending a jaw away.", es: "Esta se podía corregir en la prensa: vea qué logran los giros antes de mandar la mordaza." }
    remark_zero(pieces) { en: "Zero the gauge before each piece; pieces where it was skipped: {pieces}. A zero that creeps looks like a taper.", es: "Ponga el instrumento en cero antes de cada pieza; piezas en que se omitió: {pieces}. Un cero que se corre parece una cuña." }
    remark_beside(readings) { en: "{readings} readings were taken beside the marks. Read at the marks, short-leg knuckle and long leg together.", es: "{readings} lecturas se tomaron fuera de las marcas. Lea en las marcas, ojillo de pata corta y pata larga juntos." }
    remark_once(pieces) { en: "Measure every arm twice before deciding; pieces where some were measured once or not at all: {pieces}.", es: "Mida cada brazo dos veces antes de decidir; piezas en que alguno se midió una vez o ninguna: {pieces}." }
    remark_not_seen(fault, cure) { en: "The cause was not the nuts' positions: {fault}. What helps: {cure}.", es: "La causa no era la posición de las tuercas, sino: {fault}. Lo que ayuda: {cure}." }
    remark_thickest(piece, minutes) { en: "After piece {piece} every arm was brought up to the thickest; turns that count on the neighbors moving too were expected to save {minutes} min.", es: "Después de la pieza {piece} cada brazo se llevó al más grueso; contando con que los vecinos también se mueven se habrían ahorrado unos {minutes} min." }
    remark_turned(piece, minutes) { en: "After piece {piece} the nuts were best left alone: turning for what one piece happens to vary was expected to cost {minutes} min.", es: "Después de la pieza {piece} convenía no tocar las tuercas: girar por lo que varía una pieza costaba unos {minutes} min." }
    remark_left(piece, minutes) { en: "After piece {piece} lacing again without a turn was expected to cost {minutes} min more than turning.", es: "Después de la pieza {piece}, engrapar otra vez sin girar costaba unos {minutes} min más que girar." }
    remark_other(piece, minutes) { en: "After piece {piece} other turns were expected to save {minutes} min.", es: "Después de la pieza {piece}, otros giros ahorraban unos {minutes} min." }
    remark_passed(piece) { en: "Piece {piece} was inside already: stop there.", es: "La pieza {piece} ya estaba dentro: ahí se termina." }
}
