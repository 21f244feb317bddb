//! Sentences about everything a press, a session or a change can be refused
//! for: what was expected, what was found, what to do.

use crate::press::{
    CountOutOfBounds, CountQuantity, LengthOutOfBounds, LengthQuantity, PressProblem,
};
use crate::session::{Counted, EditProblem, Field, NoDate, SessionProblem};
use crate::units::{Length, Unit};

use super::lengths::shortened;
use super::{Figures, Language};

impl Figures {
    /// Figures for sentences that no gauge's step applies to.
    pub fn exact(language: Language, unit: Unit) -> Self {
        Self {
            language,
            unit,
            step: Length::from_nm(1_000),
            limit: None,
        }
    }

    /// Why a length is outside its limits.
    pub fn length_out_of_bounds(&self, problem: &LengthOutOfBounds) -> String {
        let bounds = problem.quantity.bounds();
        self.language.out_of_bounds(
            self.language.length_quantity(problem.quantity),
            self.bound(bounds.least),
            self.bound(bounds.most),
            self.plain(problem.found),
        )
    }

    /// A limit of what may be entered, with as many digits as it takes not to
    /// read as 0.
    fn bound(&self, bound: Length) -> String {
        let usual = self.plain(bound);
        if bound.nm() == 0 || usual.contains(|c: char| ('1'..='9').contains(&c)) {
            return usual;
        }
        let digits = (0..=8).map(|decimals| self.number(bound, decimals));
        let enough = digits
            .into_iter()
            .find(|text| text.contains(|c: char| ('1'..='9').contains(&c)));
        enough.map_or(usual, |digits| self.with_unit(&digits))
    }

    /// Why a count is outside its limits.
    pub fn count_out_of_bounds(&self, problem: &CountOutOfBounds) -> String {
        let bounds = problem.quantity.bounds();
        self.language.out_of_bounds(
            self.language.count_quantity(problem.quantity),
            bounds.least,
            bounds.most,
            problem.found,
        )
    }

    /// Why a press cannot be as described.
    pub fn press_problem(&self, problem: &PressProblem) -> String {
        let words = self.language;
        match problem {
            PressProblem::Length(problem) => self.length_out_of_bounds(problem),
            PressProblem::Count(problem) => self.count_out_of_bounds(problem),
            PressProblem::ArmLength(arm, problem) => {
                words.at_arm(arm, self.length_out_of_bounds(problem))
            }
            PressProblem::ArmOutsideJaw(arm, found, jaw) => {
                words.arm_outside_jaw(arm, self.plain(*jaw), self.plain(*found))
            }
            PressProblem::ArmsOutOfOrder(arm, found, left) => words.arms_out_of_order(
                arm,
                self.plain(LengthQuantity::ArmGap.bounds().least),
                self.plain(*left),
                self.plain(*found),
            ),
            PressProblem::LimitsCrossed(arm, most_in, most_out) => {
                words.limits_crossed(arm, most_in, most_out)
            }
        }
    }

    /// Why a session cannot be as described.
    pub fn session_problem(&self, problem: &SessionProblem) -> String {
        let words = self.language;
        match problem {
            SessionProblem::Press(problem) => self.press_problem(problem),
            SessionProblem::Length(problem) => self.length_out_of_bounds(problem),
            SessionProblem::Count(problem) => self.count_out_of_bounds(problem),
            SessionProblem::Reading {
                pass,
                station,
                repeat,
                found,
            } => {
                let bounds = LengthQuantity::Reading.bounds();
                words.reading_out_of_bounds(
                    pass + 1,
                    station + 1,
                    repeat + 1,
                    self.plain(bounds.least),
                    self.plain(bounds.most),
                    self.plain(*found),
                )
            }
            SessionProblem::StationOutsideJaw(found, jaw) => {
                words.station_outside_jaw(self.plain(*jaw), self.plain(*found))
            }
            SessionProblem::StationsTooClose(left, right) => words.stations_too_close(
                self.plain(LengthQuantity::ArmGap.bounds().least),
                self.plain(*left),
                self.plain(*right),
            ),
            SessionProblem::ArmWithoutStation(arm) => words.arm_without_station(arm),
            SessionProblem::StationAtNoArm(arm) => words.station_at_no_arm(arm),
            SessionProblem::WrongCount {
                pass,
                of,
                expected,
                found,
            } => {
                let place = match pass {
                    Some(pass) => words.place_pass(pass + 1),
                    None => words.place_start().to_owned(),
                };
                words.wrong_count(place, *of, *expected, *found)
            }
            SessionProblem::Checklist(problem) => self.checklist_problem(problem),
            SessionProblem::TraceOfNothing(pass) => words.trace_of_nothing(pass + 1),
            SessionProblem::EarlierVisit { visit, problem } => {
                words.earlier_visit(visit + 1, self.past_visit_problem(problem))
            }
            SessionProblem::Section(error) => words.section_error(error),
            SessionProblem::KnownResponse(problem) => self.known_response_problem(problem),
        }
    }

    /// Why a change was refused.
    pub fn edit_problem(&self, problem: &EditProblem) -> String {
        let words = self.language;
        match problem {
            EditProblem::Length(field, problem) => {
                let example = example(*field, self.unit);
                words.length_problem_like(&words.field(*field), problem, example)
            }
            EditProblem::Position(problem) => {
                let example = example(Field::JawLength, self.unit);
                words.length_problem_like(words.field_position(), problem, example)
            }
            EditProblem::Session(problem) => self.session_problem(problem),
            EditProblem::StationAlreadyThere(position) => {
                words.station_already_there(self.plain(position.length()))
            }
            EditProblem::TooManyRows { offered, fit } => words.too_many_rows(offered, fit),
            EditProblem::Confidence(found) => words.no_confidence(shortened(found)),
            EditProblem::Minutes(chore, found) => words.no_minutes(*chore, &shortened(found)),
            EditProblem::Date(NoDate(found)) => words.no_date(shortened(found)),
            EditProblem::Handle(problem) => {
                words.length_problem(words.quantity_handle_move(), problem, self.unit)
            }
            EditProblem::ResponseIsGiven => words.response_is_given().to_owned(),
            EditProblem::NothingThere => words.nothing_there().to_owned(),
        }
    }
}

/// What may stand in a field that takes a length.
pub(crate) fn example(field: Field, unit: Unit) -> &'static str {
    let (inches, millimetres) = match field {
        Field::JawLength | Field::ArmPosition(_) => ("48", "1200"),
        Field::NotchEffect(_) | Field::NotchEffectOfAll => ("0.004", "0.1"),
        Field::NutTravel | Field::OpeningMargin(_) => ("0.024", "0.6"),
        Field::Tolerance => ("0.003", "0.1"),
        Field::GaugeStep | Field::GaugeLimit => ("0.0005", "0.01"),
        Field::GaugeRepeatability | Field::LacingScatter => ("0.0003", "0.008"),
        _ => ("0.2475", "6.29"),
    };
    match unit {
        Unit::Inch => inches,
        Unit::Millimetre => millimetres,
    }
}

impl Language {
    /// The name of a field.
    pub fn field(self, field: Field) -> String {
        match field {
            Field::PressName => self.field_press_name().to_owned(),
            Field::JawLength => self.field_jaw_length().to_owned(),
            Field::ArmPosition(arm) => self.field_arm_position(arm),
            Field::NotchEffect(arm) => self.field_notch_effect(arm),
            Field::NotchEffectOfAll => self.field_notch_effect_of_all().to_owned(),
            Field::OpeningMargin(arm) => self.field_opening_margin(arm),
            Field::NutTravel => self.field_nut_travel().to_owned(),
            Field::Tolerance => self.field_tolerance().to_owned(),
            Field::GaugeName => self.field_gauge_name().to_owned(),
            Field::GaugeStep => self.field_gauge_step().to_owned(),
            Field::GaugeLimit => self.field_gauge_limit().to_owned(),
            Field::GaugeRepeatability => self.field_gauge_repeatability().to_owned(),
            Field::CalibrationDue => self.field_calibration_due().to_owned(),
            Field::LacingScatter => self.field_lacing_scatter().to_owned(),
            Field::Confidence => self.field_confidence().to_owned(),
            Field::Effort(chore) => self.field_effort(chore).to_owned(),
            Field::Target => self.field_target().to_owned(),
            Field::CoarseGap(arm) => self.field_coarse_gap(arm),
            Field::DriveParts => self.field_drive_parts().to_owned(),
            Field::Who => self.field_who().to_owned(),
            Field::When => self.field_when().to_owned(),
            Field::Belt => self.field_belt().to_owned(),
            Field::Hooks => self.field_hooks().to_owned(),
            Field::Notes => self.field_notes().to_owned(),
            Field::Repaired => self.field_repaired().to_owned(),
        }
    }

    /// The name of a length quantity.
    pub fn length_quantity(self, quantity: LengthQuantity) -> &'static str {
        match quantity {
            LengthQuantity::JawLength => self.field_jaw_length(),
            LengthQuantity::ArmGap => self.quantity_arm_gap(),
            LengthQuantity::NotchEffect => self.field_notch_effect_of_all(),
            LengthQuantity::NutTravel => self.field_nut_travel(),
            LengthQuantity::Reading => self.quantity_reading(),
            LengthQuantity::Tolerance => self.field_tolerance(),
            LengthQuantity::GaugeStep => self.field_gauge_step(),
            LengthQuantity::LimitOfError => self.field_gauge_limit(),
            LengthQuantity::Scatter => self.quantity_scatter(),
            LengthQuantity::BareBelt => self.quantity_bare_belt(),
            LengthQuantity::OpeningMargin => self.quantity_opening_margin(),
            LengthQuantity::Target => self.field_target(),
            LengthQuantity::HandleMove => self.quantity_handle_move(),
            LengthQuantity::CoarseGap => self.quantity_coarse_gap(),
        }
    }

    /// Why a list has the wrong number of entries.
    pub fn wrong_count(self, place: String, of: Counted, expected: usize, found: usize) -> String {
        match of {
            Counted::Nuts => self.wrong_nut_count(place, expected, found),
            Counted::Stations => self.wrong_row_count(place, expected, found),
            Counted::BareBelt => self.wrong_belt_count(place, expected, found),
        }
    }
}

names! {
    /// The name of a counted quantity.
    pub count_quantity(CountQuantity) {
        Arms { en: "Number of arms", es: "Número de brazos" }
        StationsBetween { en: "Measuring points between the arms", es: "Puntos de medición entre brazos" }
        NutPosition { en: "Nut position in notches from flush", es: "Posición de la tuerca en ranuras desde el ras" }
        Repeats { en: "Readings at one measuring point", es: "Lecturas en un punto de medición" }
        Passes { en: "Passes of one visit", es: "Pasadas de una visita" }
        OwnSteps { en: "The shop's own steps", es: "Pasos propios del taller" }
        EarlierVisits { en: "Earlier visits", es: "Visitas anteriores" }
        Corrections { en: "Corrections of a pass", es: "Correcciones de una pasada" }
    }
}

texts! {
    out_of_bounds(what, least, most, found) {
        en: "{what}: must be {least} to {most}; this is {found}.",
        es: "{what}: debe ser de {least} a {most}; aquí es {found}."
    }
    at_arm(arm, sentence) { en: "Arm {arm}: {sentence}", es: "Brazo {arm}: {sentence}" }
    arm_outside_jaw(arm, jaw, found) {
        en: "Arm {arm}: must be on the jaw, 0 to {jaw}; this is {found}.",
        es: "Brazo {arm}: debe estar en la mordaza, de 0 a {jaw}; aquí es {found}."
    }
    arms_out_of_order(arm, gap, left, found) {
        en: "Arm {arm}: must be {gap} or more to the right of its neighbor at {left}; this is {found}. Give the arms from the operator's left.",
        es: "Brazo {arm}: debe estar a {gap} o más a la derecha de su vecino en {left}; aquí es {found}. Dé los brazos desde la izquierda del operador."
    }
    limits_crossed(arm, most_in, most_out) {
        en: "Arm {arm}: the IN limit ({most_in}) can't be further out than the OUT limit ({most_out}). The smaller number is the IN limit.",
        es: "Brazo {arm}: el límite CERRAR ({most_in}) no puede pasar del límite ABRIR ({most_out}). El número menor es el de CERRAR."
    }
    reading_out_of_bounds(pass, station, repeat, least, most, found) {
        en: "Pass {pass}, measuring point {station}, reading {repeat}: must be {least} to {most}; this is {found}.",
        es: "Pasada {pass}, punto de medición {station}, lectura {repeat}: debe ser de {least} a {most}; aquí es {found}."
    }
    station_outside_jaw(jaw, found) {
        en: "Measuring point: must be on the jaw, 0 to {jaw}; this is {found}.",
        es: "Punto de medición: debe estar en la mordaza, de 0 a {jaw}; aquí es {found}."
    }
    stations_too_close(gap, left, right) {
        en: "Measuring points must be {gap} or more apart, from the left; these are at {left} and {right}.",
        es: "Los puntos de medición van a {gap} o más entre sí, desde la izquierda; estos están en {left} y {right}."
    }
    arm_without_station(arm) {
        en: "Arm {arm} has no measuring point at its center; every arm needs one. Add it.",
        es: "El brazo {arm} no tiene punto de medición en su centro; cada brazo necesita uno. Agréguelo."
    }
    station_at_no_arm(arm) {
        en: "A measuring point is at arm {arm}, but the press has no such arm. Remove the point, or add the arm.",
        es: "Hay un punto de medición en el brazo {arm}, pero la prensa no tiene ese brazo. Quite el punto o agregue el brazo."
    }
    place_pass(pass) { en: "Pass {pass}", es: "Pasada {pass}" }
    place_start { en: "Start of the visit", es: "Inicio de la visita" }
    wrong_nut_count(place, expected, found) {
        en: "{place}: {expected} nut positions are needed, one per arm; there are {found}.",
        es: "{place}: hacen falta {expected} posiciones de tuerca, una por brazo; hay {found}."
    }
    wrong_row_count(place, expected, found) {
        en: "{place}: readings at {expected} measuring points are needed; there are {found}.",
        es: "{place}: hacen falta lecturas en {expected} puntos de medición; hay {found}."
    }
    wrong_belt_count(place, expected, found) {
        en: "{place}: the bare belt is needed at {expected} measuring points; it is at {found}.",
        es: "{place}: hace falta la banda sin ganchos en {expected} puntos de medición; está en {found}."
    }
    no_date(found) {
        en: "Calibration due: must be a date such as 2026-11-25; “{found}” is not.",
        es: "Calibración vigente hasta: debe ser una fecha como 2026-11-25; «{found}» no lo es."
    }
    station_already_there(position) {
        en: "There is already a measuring point at {position} or less than 1 mm from it. Type another place.",
        es: "Ya hay un punto de medición en {position} o a menos de 1 mm. Escriba otro lugar."
    }
    too_many_rows(offered, fit) {
        en: "{offered} rows do not fit: from the chosen cell down there are {fit}, one per measuring point. Nothing was filled in. Paste from the first cell, or fewer rows.",
        es: "{offered} filas no caben: desde la celda elegida hay {fit}, una por punto de medición. No se llenó nada. Pegue desde la primera celda, o menos filas."
    }
    nothing_there {
        en: "What you wanted to change is no longer there. Undo brings it back.",
        es: "Lo que quería cambiar ya no está. Deshacer lo devuelve."
    }
    field_position { en: "Position", es: "Posición" }
    field_press_name { en: "Name of the press", es: "Nombre de la prensa" }
    field_jaw_length { en: "Jaw length", es: "Largo de la mordaza" }
    field_arm_position(arm) { en: "Position of arm {arm}", es: "Posición del brazo {arm}" }
    field_notch_effect(arm) { en: "Thickness per notch at {arm}", es: "Espesor por ranura en {arm}" }
    field_notch_effect_of_all { en: "Thickness per notch", es: "Espesor por ranura" }
    field_opening_margin(arm) { en: "Opening margin at {arm}", es: "Margen de apertura en {arm}" }
    field_nut_travel { en: "Nut travel per notch", es: "Avance por ranura" }
    field_tolerance { en: "Tolerance on the spread", es: "Tolerancia de la diferencia máxima" }
    field_gauge_name { en: "Gauge", es: "Instrumento" }
    field_gauge_step { en: "Gauge resolution", es: "Resolución del instrumento" }
    field_gauge_limit { en: "Accuracy of the gauge", es: "Exactitud del instrumento" }
    field_gauge_repeatability { en: "Repeatability of the gauge", es: "Repetibilidad del instrumento" }
    field_calibration_due { en: "Calibration due", es: "Calibración vigente hasta" }
    field_lacing_scatter { en: "Variation from lacing to lacing", es: "Variación entre engrapes" }
    quantity_scatter { en: "How far repeats vary", es: "Cuánto varían las repeticiones" }
    quantity_bare_belt { en: "Bare belt", es: "Banda sin ganchos" }
    field_target { en: "Target thickness", es: "Espesor deseado" }
    field_who { en: "Who", es: "Quién" }
    field_when { en: "When", es: "Cuándo" }
    field_belt { en: "Belt", es: "Banda" }
    field_hooks { en: "Hooks", es: "Ganchos" }
    field_notes { en: "Notes", es: "Notas" }
    field_repaired { en: "Repair since the last visit", es: "Reparación desde la última visita" }
    quantity_arm_gap { en: "Distance between arms", es: "Distancia entre brazos" }
    quantity_reading { en: "Reading", es: "Lectura" }
    quantity_opening_margin { en: "Opening margin", es: "Margen de apertura" }
    quantity_handle_move { en: "Move of the common handle", es: "Movimiento de la manija común" }
}
