//! What printed pages say: the turn card and the report of a visit.

use super::Language;
use crate::session::Mark;

impl Language {
    /// Who marked a step and when, in a line.
    pub fn mark_line(self, mark: &Mark) -> String {
        let who = match mark.who.as_str() {
            "" => self.marked_by_nobody(),
            who => who,
        };
        match mark.when.as_str() {
            "" => who.to_owned(),
            when => self.marked_by(who, when),
        }
    }
}

texts! {
    // Every page.
    report_printed(when) { en: "printed {when}", es: "impreso {when}" }
    report_page(page, of) { en: "page {page} of {of}", es: "página {page} de {of}" }
    report_session(id) { en: "visit {id}", es: "visita {id}" }
    report_invented { en: "INVENTED EXAMPLE: not a real press", es: "EJEMPLO INVENTADO: no es una prensa real" }
    report_pass(pass) { en: "pass {pass}", es: "pasada {pass}" }
    report_after_pass(pass, laced) { en: "after pass {pass}, laced {laced}", es: "después de la pasada {pass}, engrapada {laced}" }
    report_after_pass_only(pass) { en: "after pass {pass}", es: "después de la pasada {pass}" }

    // The turn card.
    card_heading { en: "Turn card", es: "Hoja de giros" }
    card_no_turns { en: "No turns on this card.", es: "En esta hoja no hay giros." }
    card_instead(act) { en: "Do this first: {act}.", es: "Haga esto primero: {act}." }
    card_leave_nuts { en: "Leave every nut where it is.", es: "Deje cada tuerca donde está." }
    card_ask_first { en: "Ask this before any turn:", es: "Aclare esto antes de cualquier giro:" }
    card_and_more(count) { en: "And {count} more: see the report.", es: "Y {count} más: vea el informe." }
    card_safe_by { en: "Made safe by", es: "Asegurada por" }
    card_at_time { en: "at (time)", es: "a las (hora)" }
    card_column_done { en: "done", es: "listo" }
    card_column_arm { en: "arm", es: "brazo" }
    card_column_wrench { en: "facing the rod's end", es: "de frente al tirante" }
    card_column_turn { en: "turn, count the notches", es: "giro, cuente las ranuras" }
    card_column_stands { en: "nut position", es: "posición de la tuerca" }
    card_column_opening { en: "opening left", es: "apertura que queda" }
    card_column_really { en: "really turned", es: "girado en realidad" }
    card_now_to(from, to) { en: "{from} → {to}", es: "{from} → {to}" }
    card_others_stay(arms) { en: "These stay: {arms}.", es: "Estas se quedan: {arms}." }
    card_arm_at(arm, at) { en: "{arm} at {at}", es: "{arm} en {at}" }
    card_position_counts { en: "Positions count in notches from flush with the rod's end; minus is in.", es: "Posiciones: ranuras desde el ras del tirante; menos es adentro." }
    card_thread_unseen { en: "Nobody has noted which way the thread runs: look at it on the press before the first nut is turned.", es: "Nadie ha anotado hacia dónde va la rosca: véala en la prensa antes de girar la primera tuerca." }
    card_left_hand { en: "This press has a left-hand thread: OUT is clockwise.", es: "Esta prensa tiene rosca izquierda: ABRIR es a la derecha, como el reloj." }
    card_not_measured { en: "not measured", es: "sin medir" }
    card_next_readings(unit) { en: "Next test piece, readings in {unit}", es: "Próxima pieza de prueba, lecturas en {unit}" }
    card_laced_at { en: "laced at", es: "engrapada a las" }
    card_old { en: "Good for this pass only: once a piece is laced or a nut is turned, print it anew.", es: "Vale solo para esta pasada: en cuanto se engrape una pieza o se gire una tuerca, imprímala de nuevo." }

    // The report.
    report_heading { en: "Visit report", es: "Informe de la visita" }
    report_press { en: "Press", es: "Prensa" }
    report_visit { en: "Visit", es: "Visita" }
    report_jaw(length, arms) { en: "jaw {length}, {arms} arms", es: "mordaza {length}, {arms} brazos" }
    report_notch(effects) { en: "one notch at the splice: {effects}", es: "una ranura en el empalme: {effects}" }
    report_belt(belt) { en: "Belt: {belt}", es: "Banda: {belt}" }
    report_hooks(hooks) { en: "Hooks: {hooks}", es: "Ganchos: {hooks}" }
    report_who(who) { en: "By: {who}", es: "Por: {who}" }
    report_when(when) { en: "When: {when}", es: "Cuándo: {when}" }
    report_gauge { en: "Gauge", es: "Instrumento" }
    report_gauge_step(step) { en: "resolution {step}", es: "resolución {step}" }
    report_gauge_limit(limit) { en: "accuracy {limit}", es: "exactitud {limit}" }
    report_gauge_repeats(sd) { en: "repeats within a standard deviation of {sd}", es: "repite con una desviación estándar de {sd}" }
    report_gauge_repeats_unknown { en: "repeatability not checked", es: "repetibilidad sin comprobar" }
    report_calibrated_until(day) { en: "calibration holds until {day}", es: "calibración válida hasta {day}" }
    report_calibration_unknown { en: "no calibration date entered", es: "sin fecha de calibración" }
    report_limits { en: "Limits", es: "Límites" }
    report_tolerance(limit) { en: "tolerance on the spread {limit}", es: "tolerancia de la diferencia {limit}" }
    report_target(target) { en: "target thickness {target}", es: "espesor deseado {target}" }
    report_no_target { en: "no target thickness: the level is not judged", es: "sin espesor deseado: el nivel no se juzga" }
    report_found { en: "as found", es: "inicial" }
    report_left { en: "as left", es: "final" }
    report_found_left { en: "As found and as left", es: "Inicial y final" }
    report_station { en: "measuring point", es: "punto de medición" }
    report_nut_found { en: "nut found", es: "tuerca inicial" }
    report_nut_left { en: "nut left", es: "tuerca final" }
    report_turned { en: "turned in all", es: "girado en total" }
    report_spread { en: "spread", es: "diferencia" }
    report_profile { en: "Profile", es: "Perfil" }
    report_verdict { en: "Verdict and what it rests on", es: "Veredicto y en qué se basa" }
    report_readings { en: "Readings and turns", es: "Lecturas y giros" }
    report_turned_before { en: "turned before", es: "girado antes" }
    report_struck_note { en: "In brackets: crossed out, not counted.", es: "Entre paréntesis: tachada, no cuenta." }
    report_checklist { en: "Checklist", es: "Lista de pasos" }
    report_step { en: "step", es: "paso" }
    report_done_by { en: "done by, when", es: "hecho por, cuándo" }
    report_not_ticked(steps) { en: "Not checked off: {steps}.", es: "Sin marcar: {steps}." }
    report_nothing_ticked { en: "Nothing was checked off in this visit.", es: "En esta visita no se marcó nada." }
    report_corrected { en: "Corrected afterwards", es: "Corregido después" }
    report_repaired { en: "Repaired before this visit", es: "Reparado antes de esta visita" }
    report_notes { en: "Notes", es: "Notas" }
    report_signatures { en: "Signatures", es: "Firmas" }
    report_signed_worker { en: "Work done by, date", es: "Trabajo hecho por, fecha" }
    report_signed_checker { en: "Checked by, date", es: "Revisado por, fecha" }

    // In the window.
    command_print_card { en: "Print the turn card", es: "Imprimir la hoja de giros" }
    command_print_report { en: "Print the report", es: "Imprimir el informe" }
    said_printing { en: "The page is being made.", es: "Se está haciendo la página." }
    said_shown(path) { en: "Opened in the viewer, print it from there: {path}", es: "Abierto en el visor, imprímalo desde ahí: {path}" }
    said_no_viewer(path) { en: "No program here shows PDF. The page is written; open and print it elsewhere: {path}", es: "Aquí ningún programa muestra PDF. La página está escrita; ábrala e imprímala en otra parte: {path}" }
    said_no_folder { en: "This user has no folder for pages. Use jawtrue card or jawtrue report with -o.", es: "Este usuario no tiene carpeta para páginas. Use jawtrue card o jawtrue report con -o." }

    // Commands about paper.
    paper_written(path) { en: "Written: {path}", es: "Escrito: {path}" }
    paper_not_made(why) { en: "The page could not be made: {why}. Please tell whoever keeps this program.", es: "No se pudo hacer la página: {why}. Avise a quien mantiene este programa." }
    paper_no_size { en: "a page without a size", es: "una página sin tamaño" }
    paper_no_fonts { en: "the built-in fonts cannot be read", es: "no se pueden leer las letras incluidas" }
    paper_ending(path, endings) { en: "{path}: the name must end in {endings}.", es: "{path}: el nombre debe terminar en {endings}." }
    option_paper(found) { en: "--paper: must be letter or A4; this is “{found}”.", es: "--paper: debe ser letter o A4; aquí es «{found}»." }
}
