//! Sentences for taking readings arm by arm and over a serial port.

use crate::splice::Walk;
use crate::store::{DiskProblem, LineEnding};

use super::Language;

impl Language {
    /// So many rounds, in the terms of the walk.
    pub fn rounds_of_walk(self, walk: Walk, rounds: usize) -> String {
        match (walk, rounds) {
            (Walk::Straight, 1) => self.guided_one_round().to_owned(),
            (Walk::Straight, rounds) => self.guided_rounds(rounds),
            (Walk::ThereAndBack, 0..=2) => self.guided_once_there_and_back().to_owned(),
            (Walk::ThereAndBack, rounds) => self.guided_times_there_and_back(rounds / 2),
        }
    }

    /// How many readings are left.
    pub fn readings_left(self, left: usize) -> String {
        match left {
            1 => self.guided_one_left().to_owned(),
            left => self.guided_left(left),
        }
    }

    /// What ends a line of the gauge.
    pub fn line_ending(self, ending: LineEnding) -> &'static str {
        match ending {
            LineEnding::Either => self.ending_either(),
            LineEnding::CarriageReturn => "CR",
            LineEnding::LineFeed => "LF",
            LineEnding::Pause => self.ending_pause(),
        }
    }

    /// Why a port cannot be opened.
    pub fn port_not_opened(self, port: &str, problem: DiskProblem) -> String {
        match problem {
            DiskProblem::Missing => self.port_missing(port),
            DiskProblem::Denied => self.port_denied(port),
            DiskProblem::Busy => self.port_busy(port),
            other => self.port_refused(port, self.disk_refusal(other)),
        }
    }
}

texts! {
    command_guided { en: "Take readings arm by arm", es: "Tomar lecturas brazo por brazo" }
    guided_title(pass) { en: "Arm by arm: pass {pass}", es: "Brazo por brazo: pasada {pass}" }
    guided_button { en: "Arm by arm", es: "Brazo por brazo" }
    guided_straight { en: "Straight through", es: "De corrido" }
    guided_there_and_back { en: "There and back", es: "De ida y vuelta" }
    guided_way_hint {
        en: "There and back shows a drift of gauge or hand and cancels it.",
        es: "De ida y vuelta se ve la deriva del instrumento o de la mano, y se cancela."
    }
    guided_one_round { en: "1 round", es: "1 vuelta" }
    guided_rounds(rounds) { en: "{rounds} rounds", es: "{rounds} vueltas" }
    guided_once_there_and_back { en: "once there and back", es: "una ida y vuelta" }
    guided_times_there_and_back(times) { en: "{times} times there and back", es: "{times} idas y vueltas" }
    guided_fewer_rounds { en: "Fewer rounds", es: "Menos vueltas" }
    guided_more_rounds { en: "More rounds", es: "Más vueltas" }
    guided_measure_at { en: "Measure now at", es: "Mida ahora en" }
    guided_repeat(repeat) { en: "reading {repeat}", es: "lectura {repeat}" }
    guided_one_left { en: "the last one", es: "la última" }
    guided_left(left) { en: "{left} left", es: "faltan {left}" }
    guided_then(stations) { en: "then {stations}", es: "luego {stations}" }
    guided_field(station, repeat) {
        en: "Reading {repeat} at {station}, arm by arm",
        es: "Lectura {repeat} en {station}, brazo por brazo"
    }
    guided_field_over { en: "Reading without an arm", es: "Lectura sin brazo" }
    guided_stands_here(reading) {
        en: "Here stands {reading}. A new reading takes its place; Enter alone keeps it.",
        es: "Aquí está {reading}. Una lectura nueva toma su lugar; solo Enter la conserva."
    }
    guided_last(reading, station, repeat) {
        en: "Last: {reading} at {station}, reading {repeat}",
        es: "Última: {reading} en {station}, lectura {repeat}"
    }
    guided_type_or_skip(station) {
        en: "Type the reading at {station}, or skip it.",
        es: "Escriba la lectura en {station}, u omítala."
    }
    guided_place(station, repeat) { en: "Reading {repeat} at {station}", es: "Lectura {repeat} en {station}" }
    guided_skip { en: "Skip", es: "Omitir" }
    guided_back { en: "Back one", es: "Una atrás" }
    guided_stop { en: "Stop", es: "Terminar" }
    guided_done { en: "Every arm is read.", es: "Todos los brazos están leídos." }
    guided_done_but(stations) {
        en: "The round is over. Left out: {stations}.",
        es: "Terminó la vuelta. Sin leer: {stations}."
    }
    guided_read_left_out { en: "Read what was left out", es: "Leer lo que falta" }
    guided_one_more { en: "One more round", es: "Una vuelta más" }
    guided_finish { en: "Done", es: "Listo" }
    guided_no_place(reading) {
        en: "{reading} was not noted: no arm is due. Add a round or go back.",
        es: "{reading} no se anotó: no toca ningún brazo. Agregue una vuelta o vuelva atrás."
    }
    port_title { en: "Gauge over a serial port", es: "Instrumento por puerto serie" }
    port_button { en: "Serial port", es: "Puerto serie" }
    port_text {
        en: "Every line that holds one number, with or without a unit, becomes a reading. A gauge that types like a keyboard and ends with Enter needs nothing of this.",
        es: "Cada línea con un número, con o sin unidad, se vuelve una lectura. Un instrumento que escribe como teclado y termina con Enter no necesita nada de esto."
    }
    port_name { en: "Port", es: "Puerto" }
    port_choose { en: "Ports found", es: "Puertos hallados" }
    port_none_found { en: "No port was found. Plug the gauge in, or type its name.", es: "No se halló ningún puerto. Conecte el instrumento o escriba su nombre." }
    port_look_again { en: "Look again", es: "Buscar otra vez" }
    port_speed { en: "Speed (bits a second)", es: "Velocidad (bits por segundo)" }
    port_speed_wrong(slowest, fastest, found) {
        en: "Expected a speed from {slowest} to {fastest}, found “{found}”.",
        es: "Se esperaba una velocidad de {slowest} a {fastest} y se encontró «{found}»."
    }
    port_ending { en: "A line ends with", es: "La línea termina con" }
    ending_either { en: "CR or LF", es: "CR o LF" }
    ending_pause { en: "a pause", es: "una pausa" }
    port_framing { en: "Bits, parity, stop", es: "Bits, paridad, parada" }
    port_listen { en: "Listen to it", es: "Escucharlo" }
    port_leave { en: "Listen no longer", es: "Ya no escucharlo" }
    port_opening(port) { en: "Opening {port}.", es: "Abriendo {port}." }
    port_listening(port) { en: "✓ Listening to {port}.", es: "✓ Se escucha {port}." }
    port_gone(port) {
        en: "{port} is gone: plug pulled or gauge switched off. Everything it sent is kept. Plug it in and listen again.",
        es: "{port} se perdió: desconectado o apagado. Todo lo que envió se conserva. Conéctelo y escúchelo otra vez."
    }
    port_gone_in_a_line(port) {
        en: "{port} is gone in the middle of a reading: that one was dropped, take it again. Everything before is kept. Plug it in and listen again.",
        es: "{port} se perdió en medio de una lectura: esa se descartó, tómela otra vez. Todo lo anterior se conserva. Conéctelo y escúchelo otra vez."
    }
    port_missing(port) {
        en: "There is no port {port}. Plug the gauge in, or choose another.",
        es: "No hay puerto {port}. Conecte el instrumento o elija otro."
    }
    port_denied(port) {
        en: "The port {port} may not be used by you. On Linux your user must belong to the group of serial ports (often dialout).",
        es: "Usted no puede usar el puerto {port}. En Linux su usuario debe estar en el grupo de puertos serie (a menudo dialout)."
    }
    port_busy(port) {
        en: "Another program is using the port {port}.",
        es: "Otro programa está usando el puerto {port}."
    }
    port_refused(port, why) { en: "The port {port} cannot be opened. {why}", es: "El puerto {port} no se puede abrir. {why}" }
}
