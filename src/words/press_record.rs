//! Sentences about what is known of a press: earlier visits, a response given
//! outright, learning into a press file.

use std::path::Path;

use crate::press::LengthQuantity;
use crate::session::{
    KnownResponseProblem, LearnProblem, LeftOut, Lesson, PastVisitProblem, WhyLeftOut,
};
use crate::store::TeachProblem;

use super::{Figures, Language};

impl Figures {
    /// Why what stands for an earlier visit cannot be one.
    pub fn past_visit_problem(&self, problem: &PastVisitProblem) -> String {
        let words = self.language;
        match problem {
            PastVisitProblem::Length(problem) => self.length_out_of_bounds(problem),
            PastVisitProblem::Count(problem) => self.count_out_of_bounds(problem),
            PastVisitProblem::Positions => {
                words.past_positions(self.plain(LengthQuantity::ArmGap.bounds().least))
            }
            PastVisitProblem::WrongCount {
                pass,
                of,
                expected,
                found,
            } => words.wrong_count(words.place_pass(pass + 1), *of, *expected, *found),
        }
    }

    /// Why a table is no response for this press.
    pub fn known_response_problem(&self, problem: &KnownResponseProblem) -> String {
        let words = self.language;
        match problem {
            KnownResponseProblem::Rows { expected, found } => words.response_rows(expected, found),
            KnownResponseProblem::Columns {
                row,
                expected,
                found,
            } => words.response_columns(row + 1, expected, found),
            KnownResponseProblem::Hole { row, column } => words.response_hole(row + 1, column + 1),
            KnownResponseProblem::NotANumber { row, column, text } => {
                words.response_no_number(row + 1, column + 1, text)
            }
            KnownResponseProblem::TooLarge { row, column, text } => {
                let most = LengthQuantity::NotchEffect.bounds().most;
                words.response_too_large(row + 1, column + 1, self.plain(most), text)
            }
        }
    }
}

impl Figures {
    /// Why what a session taught was not written into a press file.
    pub fn teach_problem(&self, problem: &TeachProblem, press: &Path) -> String {
        let words = self.language;
        match problem {
            TeachProblem::Open(problem) => self.open_problem(problem, press),
            TeachProblem::Learn(problem) => words.learn_problem(*problem).to_owned(),
            TeachProblem::Save(problem) => self.save_problem(problem, press),
        }
    }
}

impl Language {
    /// Why nothing was learnt from a session.
    pub fn learn_problem(self, problem: LearnProblem) -> &'static str {
        match problem {
            LearnProblem::OtherArms => self.learn_other_arms(),
            LearnProblem::BeforeRepair => self.learn_before_repair(),
            LearnProblem::Invented => self.learn_invented(),
        }
    }

    /// That an earlier visit is not learnt from, and why.
    pub fn left_out(self, visit: &LeftOut) -> String {
        // A visit without a date still has its session's id.
        let name = match visit.when.trim() {
            "" => &visit.session,
            when => when,
        };
        match visit.why {
            WhyLeftOut::OtherArms => self.visit_of_other_arms(name),
            WhyLeftOut::OtherStations => self.visit_of_other_stations(name),
            WhyLeftOut::Beyond(_) => self.visit_beyond_any_press(name),
        }
    }

    /// What became of a session that was learnt from.
    pub fn lesson(self, lesson: Lesson) -> &'static str {
        match lesson {
            Lesson::Added => self.lesson_added(),
            Lesson::Replaced => self.lesson_replaced(),
            Lesson::NothingRead => self.lesson_nothing_read(),
        }
    }
}

texts! {
    earlier_visit(visit, sentence) { en: "Earlier visit {visit}: {sentence}", es: "Visita anterior {visit}: {sentence}" }
    past_positions(gap) {
        en: "expected arms and stations on the jaw from the operator's left, {gap} or more apart.",
        es: "se esperaban brazos y estaciones sobre la mordaza desde la izquierda del operador, a {gap} o más entre sí."
    }
    response_rows(expected, found) {
        en: "Response: expected {expected} rows, one per station, found {found}.",
        es: "Respuesta: se esperaban {expected} filas, una por estación, y hay {found}."
    }
    response_columns(row, expected, found) {
        en: "Response, row {row}: expected {expected} values, one per arm, found {found}.",
        es: "Respuesta, fila {row}: se esperaban {expected} valores, uno por brazo, y hay {found}."
    }
    response_hole(row, column) {
        en: "Response, row {row}, column {column}: expected a number, found nothing.",
        es: "Respuesta, fila {row}, columna {column}: se esperaba un número y no hay nada."
    }
    response_no_number(row, column, found) {
        en: "Response, row {row}, column {column}: expected a number with a decimal point, found “{found}”.",
        es: "Respuesta, fila {row}, columna {column}: se esperaba un número con punto decimal y se encontró «{found}»."
    }
    response_too_large(row, column, most, found) {
        en: "Response, row {row}, column {column}: expected at most {most} per notch, either way, found {found}.",
        es: "Respuesta, fila {row}, columna {column}: se esperaba a lo más {most} por ranura, en cualquier sentido, y se encontró {found}."
    }
    response_is_given {
        en: "A response is given for the arms and stations as they are. Take it away before you add an arm or a station or take an arm away.",
        es: "Hay una respuesta dada para los brazos y estaciones como están. Quítela antes de agregar un brazo o una estación, o de quitar un brazo."
    }
    visit_of_other_arms(visit) {
        en: "Not learnt from the visit “{visit}”: the arms stood elsewhere then.",
        es: "No se aprende de la visita «{visit}»: los brazos estaban en otro lugar."
    }
    visit_of_other_stations(visit) {
        en: "Not learnt from the visit “{visit}”: fewer than two of its passes were read at stations that there are now.",
        es: "No se aprende de la visita «{visit}»: menos de dos de sus pasadas se leyeron en estaciones que hay ahora."
    }
    visit_beyond_any_press(visit) {
        en: "Not learnt from the visit “{visit}”: its figures are beyond any press.",
        es: "No se aprende de la visita «{visit}»: sus cifras no son de ninguna prensa."
    }
    learn_other_arms {
        en: "The arms of this session stand elsewhere than those of the press file: it is another press, or a length was corrected. Nothing was learnt.",
        es: "Los brazos de esta sesión no están donde los del archivo de la prensa: es otra prensa, o se corrigió una medida. No se aprendió nada."
    }
    learn_before_repair {
        en: "This session was before the repair; what it measured no longer holds. Nothing was learnt.",
        es: "Esta sesión fue antes de la reparación; lo que midió ya no vale. No se aprendió nada."
    }
    learn_invented {
        en: "This session is invented: a sample or an exercise. Nothing was learnt.",
        es: "Esta sesión es inventada: un ejemplo o un ejercicio. No se aprendió nada."
    }
    lesson_added {
        en: "What this session measured was added to the press file.",
        es: "Lo que midió esta sesión se agregó al archivo de la prensa."
    }
    lesson_replaced {
        en: "What the press file held of this session was replaced.",
        es: "Se reemplazó lo que el archivo de la prensa tenía de esta sesión."
    }
    lesson_nothing_read {
        en: "Nothing was read in this session; the press file stays as it was.",
        es: "En esta sesión no se leyó nada; el archivo de la prensa queda como estaba."
    }
}
