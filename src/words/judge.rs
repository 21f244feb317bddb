//! Sentences about why a pass cannot be judged or planned for.

use crate::session::{NotJudged, PlanningProblem, Session};

use super::Figures;
use super::lengths::shortened;

impl Figures {
    /// Why it cannot be said how a pass of a session stands.
    pub fn not_judged(&self, session: &Session, problem: NotJudged) -> String {
        let words = self.language;
        match problem {
            NotJudged::NoPass => words.no_pass_yet().to_owned(),
            NotJudged::Unreadable {
                pass,
                station,
                repeat,
            } => {
                let found = session
                    .passes
                    .get(pass)
                    .map_or("", |pass| pass.cell(station, repeat).text());
                words.cell_unreadable(
                    pass + 1,
                    session.station_name(station),
                    repeat + 1,
                    shortened(found),
                )
            }
            NotJudged::TooFewRead { pass, read } => words.too_few_read(pass + 1, read),
        }
    }

    /// Why there is no plan for a session.
    pub fn planning_problem(&self, session: &Session, problem: &PlanningProblem) -> String {
        let words = self.language;
        match problem {
            PlanningProblem::NotJudged(problem) => self.not_judged(session, *problem),
            PlanningProblem::NoTurnAllowed(arm) => words.no_turn_allowed(arm),
            PlanningProblem::NothingAllowed => words.nothing_allowed().to_owned(),
            PlanningProblem::OtherShape => {
                words.response_other_shape(session.stations.len(), session.press.arms.len())
            }
            PlanningProblem::Spline(_)
            | PlanningProblem::Search(_)
            | PlanningProblem::Learning(_) => words.figures_refused().to_owned(),
        }
    }
}

texts! {
    no_pass_yet {
        en: "There is no pass yet: expected readings of a test piece.",
        es: "Aún no hay ninguna pasada: se esperaban lecturas de una pieza de prueba."
    }
    cell_unreadable(pass, station, repeat, found) {
        en: "Pass {pass}, station {station}, reading {repeat}: expected a thickness, found “{found}”. Mend it first: it may be the thickest or the thinnest.",
        es: "Pasada {pass}, estación {station}, lectura {repeat}: se esperaba un espesor y se encontró «{found}». Corríjala antes: puede ser la más gruesa o la más delgada."
    }
    too_few_read(pass, read) {
        en: "Pass {pass}: expected readings at two stations or more, found them at {read}. One thickness has no spread.",
        es: "Pasada {pass}: se esperaban lecturas en dos estaciones o más y las hay en {read}. Un solo espesor no tiene diferencia."
    }
    no_turn_allowed(arm) {
        en: "Arm {arm}: the limits of its nut and the opening margin leave it no position at all. Check both.",
        es: "Brazo {arm}: los límites de su tuerca y el margen de apertura no le dejan ninguna posición. Revise ambos."
    }
    nothing_allowed {
        en: "No turns keep within all limits together. Allow more nuts, or check the limits.",
        es: "Ningún giro respeta todos los límites a la vez. Permita más tuercas o revise los límites."
    }
    response_other_shape(stations, arms) {
        en: "The response does not fit this press: expected {stations} stations and {arms} arms.",
        es: "La respuesta no corresponde a esta prensa: se esperaban {stations} estaciones y {arms} brazos."
    }
    figures_refused {
        en: "These figures are too large to plan with. Check the readings and the press.",
        es: "Estas cifras son demasiado grandes para planear. Revise las lecturas y la prensa."
    }
}
