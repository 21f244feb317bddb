//! What the passes say side by side, and what was corrected in them.

use crate::session::{By, Pass, Session};
use crate::splice::Cell;

use super::{Figures, Language};

impl Figures {
    /// The readings of a station as they were typed; struck ones in brackets.
    pub fn readings_of(&self, pass: &Pass, station: usize) -> String {
        let cells = pass.rows.get(station).map_or(&[][..], Vec::as_slice);
        let texts: Vec<String> = cells
            .iter()
            .filter_map(|cell| match cell {
                Cell::Empty => None,
                Cell::Unreadable(text) => Some(self.language.quoted(text)),
                Cell::Reading(reading) => {
                    let text = self.reading_as_typed(&reading.typed);
                    Some(match reading.struck {
                        Some(_) => format!("({text})"),
                        None => text,
                    })
                }
            })
            .collect();
        texts.join(" ")
    }

    /// What was corrected in passes after the next one was laced, a line each,
    /// pass by pass, oldest first.
    pub fn corrections(&self, session: &Session) -> Vec<String> {
        let words = self.language;
        let mut lines = Vec::new();
        for (pass, number) in session.passes.iter().zip(1..) {
            for at in &pass.corrections.readings {
                let station = session.station_name(at.station);
                let was = match (at.was.as_str(), at.struck) {
                    ("", _) => words.trace_was_empty().to_owned(),
                    (was, true) => words.trace_was_struck(was),
                    (was, false) => was.to_owned(),
                };
                let line = words.trace_reading(number, at.repeat + 1, station, was);
                lines.push(words.signed(line, &at.by));
            }
            for at in &pass.corrections.nuts {
                let line = words.trace_nut(number, at.arm, at.was);
                lines.push(words.signed(line, &at.by));
            }
        }
        lines
    }
}

impl Language {
    /// A line with who changed it and when, as far as that is noted.
    fn signed(self, line: String, by: &By) -> String {
        match (by.who.as_str(), by.when.as_str()) {
            ("", "") => self.trace_unsigned(line),
            (who, "") => self.trace_by(line, who),
            ("", when) => self.trace_when(line, when),
            (who, when) => self.trace_by_when(line, who, when),
        }
    }
}

texts! {
    command_side_by_side { en: "Passes side by side", es: "Pasadas lado a lado" }
    side_button { en: "Side by side", es: "Lado a lado" }
    side_title { en: "Passes side by side", es: "Pasadas lado a lado" }
    side_back { en: "Back to the picture", es: "Volver al dibujo" }
    side_alone { en: "One piece so far. With the next one it is compared here: what was predicted, what came out.", es: "Una sola pieza. Con la siguiente se compara aquí lo previsto con lo medido." }
    side_level { en: "Same average for all", es: "Mismo promedio para todas" }
    side_level_hint { en: "Puts every pass at the same average, so that you can compare shapes; off, the thickness is as measured", es: "Pone todas las pasadas en el mismo promedio para comparar su forma; sin marcar, el espesor es el medido" }
    test_pieces(laced, read) { en: "Test pieces laced: {laced}, measured: {read}", es: "Piezas de prueba engrapadas: {laced}, medidas: {read}" }
    side_found(number) { en: "{number} as found", es: "{number} inicial" }
    side_left(number) { en: "{number} as left", es: "{number} final" }
    side_predicted { en: "predicted", es: "previsto" }
    with_variation { en: "with variation", es: "con variación" }
    side_foretold(number) { en: "{number} predicted", es: "{number} previsto" }
    side_foretold_bars(number) { en: "{number} predicted, bars: 9 of 10 pieces", es: "{number} previsto, barras: 9 de 10 piezas" }
    side_description(passes) { en: "Every pass over the jaw: {passes}", es: "Cada pasada sobre la mordaza: {passes}" }
    side_pass_column { en: "pass", es: "pasada" }
    side_limit(limit) { en: "spread, limit {limit}", es: "dif., límite {limit}" }
    side_foretold_spread(median, ninety) { en: "predicted {median}, 9 of 10 under {ninety}", es: "previsto {median}, 9 de 10, máximo {ninety}" }

    compare_title { en: "Two passes compared", es: "Comparar dos pasadas" }
    compare_one { en: "First pass compared", es: "Primera pasada comparada" }
    compare_other { en: "Second pass compared", es: "Segunda pasada comparada" }
    compare_with { en: "with", es: "con" }
    compare_same { en: "Choose two different passes.", es: "Elija dos pasadas distintas." }
    compare_turned(turns) { en: "Turned between them: {turns}.", es: "Girado entre ellas: {turns}." }
    compare_spreads(earlier, later) { en: "Spread {earlier}, then {later}.", es: "Diferencia {earlier}, luego {later}." }
    compare_turn_column { en: "turned", es: "giro" }
    compare_change_column { en: "change", es: "cambio" }
    compare_foretold_note { en: "Predicted from the passes before it, ± for 9 of 10, drawn at the average of the piece that was measured: no turn tells how thick a piece comes out overall.", es: "Previsto con las pasadas anteriores, ± para 9 de 10, puesto al promedio de la pieza medida: ningún giro dice qué espesor general tendrá una pieza." }
    compare_nothing_foretold { en: "Nothing was measured before it, so nothing was predicted.", es: "Antes no se midió nada, así que nada se previó." }
    foretold_missed { en: "it came out above that", es: "salió por encima" }

    trace_title { en: "Corrected later", es: "Corregido después" }
    trace_why { en: "Turns were chosen with what was there before.", es: "Los giros se eligieron con lo que había antes." }
    trace_reading(pass, reading, station, was) { en: "Pass {pass}, {station}, reading {reading}: was {was}", es: "Pasada {pass}, {station}, lectura {reading}: era {was}" }
    trace_nut(pass, arm, was) { en: "Pass {pass}, nut {arm}: was at {was}", es: "Pasada {pass}, tuerca {arm}: estaba en {was}" }
    trace_was_empty { en: "empty", es: "vacía" }
    trace_was_struck(was) { en: "{was}, crossed out", es: "{was}, tachada" }
    trace_unsigned(line) { en: "{line}.", es: "{line}." }
    trace_by(line, who) { en: "{line}; changed by {who}.", es: "{line}; lo cambió {who}." }
    trace_when(line, when) { en: "{line}; changed {when}.", es: "{line}; cambiado el {when}." }
    trace_by_when(line, who, when) { en: "{line}; changed {when} by {who}.", es: "{line}; lo cambió {who} el {when}." }
    pass_corrected(name) { en: "{name} ✎", es: "{name} ✎" }
    trace_of_nothing(pass) { en: "Pass {pass}: a correction is about a measuring point, a reading or an arm that is not there.", es: "Pasada {pass}: una corrección habla de un punto de medición, una lectura o un brazo que no existe." }
}
