//! Sentences about what is known of a press: earlier visits, a response given
//! outright, learning into a press file.

use std::path::Path;

use crate::press::LengthQuantity;
use crate::session::{
    KnownResponseProblem, LearnProblem, LeftOut, Lesson, PastVisitProblem, WhyLeftOut,
};
use crate::store::TeachProblem;

use super::lengths::shortened;
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
                words.response_no_number(row + 1, column + 1, shortened(text))
            }
            KnownResponseProblem::TooLarge { row, column, text } => {
                let most = LengthQuantity::NotchEffect.bounds().most;
                words.response_too_large(row + 1, column + 1, self.plain(most), shortened(text))
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
            WhyLeftOut::TooMuch => self.visit_too_much(name),
        }
    }
}

names! {
    /// Why nothing was learnt from a session.
    pub learn_problem(LearnProblem) {
        OtherArms {
            en: "The arms of this visit are at other places than those of the press file: it is another press, or a length was corrected. Nothing was learned.",
            es: "Los brazos de esta visita no están donde los del archivo de la prensa: es otra prensa, o se corrigió una medida. No se aprendió nada."
        }
        BeforeRepair {
            en: "This visit was before the repair; what it measured is no longer true. Nothing was learned.",
            es: "Esta visita fue antes de la reparación; lo que midió ya no vale. No se aprendió nada."
        }
        Invented {
            en: "This visit is invented: a sample or an exercise. Nothing was learned.",
            es: "Esta visita es inventada: un ejemplo o un ejercicio. No se aprendió nada."
        }
    }

    /// What became of a session that was learnt from.
    pub lesson(Lesson) {
        AddedForOldest {
            en: "What this visit measured was added to the press file. It keeps 30 visits: the oldest one was let go, and stands only in the backup beside the file until the next time.",
            es: "Lo que midió esta visita se agregó al archivo de la prensa. Guarda 30 visitas: la más antigua se quitó y queda solo en el respaldo junto al archivo hasta la próxima vez."
        }
        Added {
            en: "What this visit measured was added to the press file.",
            es: "Lo que midió esta visita se agregó al archivo de la prensa."
        }
        Replaced {
            en: "What the press file had of this visit was replaced.",
            es: "Se reemplazó lo que el archivo de la prensa tenía de esta visita."
        }
        NothingRead {
            en: "Nothing was measured in this visit; the press file stays as it was.",
            es: "En esta visita no se midió nada; el archivo de la prensa queda como estaba."
        }
    }
}

texts! {
    earlier_visit(visit, sentence) { en: "Earlier visit {visit}: {sentence}", es: "Visita anterior {visit}: {sentence}" }
    past_positions(gap) {
        en: "arms and measuring points must be given from the operator's left, {gap} or more apart.",
        es: "los brazos y puntos de medición van desde la izquierda del operador, a {gap} o más entre sí."
    }
    response_rows(expected, found) {
        en: "Response table: it needs {expected} rows, one per measuring point; it has {found}.",
        es: "Tabla de respuesta: necesita {expected} filas, una por punto de medición; tiene {found}."
    }
    response_columns(row, expected, found) {
        en: "Response table, row {row}: it needs {expected} values, one per arm; it has {found}.",
        es: "Tabla de respuesta, fila {row}: necesita {expected} valores, uno por brazo; tiene {found}."
    }
    response_hole(row, column) {
        en: "Response table, row {row}, column {column}: a number is missing.",
        es: "Tabla de respuesta, fila {row}, columna {column}: falta un número."
    }
    response_no_number(row, column, found) {
        en: "Response table, row {row}, column {column}: must be a number with a decimal point; “{found}” is not.",
        es: "Tabla de respuesta, fila {row}, columna {column}: debe ser un número con punto decimal; «{found}» no lo es."
    }
    response_too_large(row, column, most, found) {
        en: "Response table, row {row}, column {column}: at most {most} per notch, either way; this is {found}.",
        es: "Tabla de respuesta, fila {row}, columna {column}: a lo más {most} por ranura, en cualquier sentido; aquí es {found}."
    }
    response_is_given {
        en: "Remove the fixed response table first: it fits the arms and measuring points as they are now.",
        es: "Quite primero la tabla de respuesta fija: corresponde a los brazos y puntos de medición como están ahora."
    }
    visit_of_other_arms(visit) {
        en: "Nothing learned from the visit “{visit}”: the arms were at other places then.",
        es: "No se aprende de la visita «{visit}»: los brazos estaban en otro lugar."
    }
    visit_of_other_stations(visit) {
        en: "Nothing learned from the visit “{visit}”: fewer than two of its passes were measured at the points used now.",
        es: "No se aprende de la visita «{visit}»: menos de dos de sus pasadas se midieron en los puntos de ahora."
    }
    visit_beyond_any_press(visit) {
        en: "Nothing learned from the visit “{visit}”: its figures can't be from a press.",
        es: "No se aprende de la visita «{visit}»: sus cifras no son de ninguna prensa."
    }
    visit_too_much(visit) {
        en: "Nothing learned from the visit “{visit}”: the visits after it have so many passes and points that working with all of them would take too long.",
        es: "No se aprende de la visita «{visit}»: las visitas posteriores tienen tantas pasadas y puntos que calcular con todas tardaría demasiado."
    }
}
