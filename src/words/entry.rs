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
    guided_read_of(read, all) { en: "{read} of {all}", es: "{read} de {all}" }
    command_guided { en: "Take readings arm by arm", es: "Tomar lecturas brazo por brazo" }
    guided_title(pass) { en: "Arm by arm: pass {pass}", es: "Brazo por brazo: pasada {pass}" }
    guided_button { en: "Arm by arm", es: "Brazo por brazo" }
    guided_straight { en: "Straight through", es: "De corrido" }
    guided_there_and_back { en: "There and back", es: "De ida y vuelta" }
    guided_way_hint {
        en: "There and back shows when gauge or hand drifts, and cancels it.",
        es: "De ida y vuelta se ve si las lecturas se van recorriendo, y se cancela."
    }
    guided_one_round { en: "1 round", es: "1 ronda" }
    guided_rounds(rounds) { en: "{rounds} rounds", es: "{rounds} rondas" }
    guided_once_there_and_back { en: "once there and back", es: "una ida y vuelta" }
    guided_times_there_and_back(times) { en: "{times} times there and back", es: "{times} idas y vueltas" }
    guided_fewer_rounds { en: "Fewer rounds", es: "Menos rondas" }
    guided_more_rounds { en: "More rounds", es: "Más rondas" }
    guided_repeat(repeat) { en: "reading {repeat}", es: "lectura {repeat}" }
    guided_one_left { en: "the last one", es: "la última" }
    guided_left(left) { en: "{left} left", es: "faltan {left}" }
    guided_then(stations) { en: "then {stations}", es: "luego {stations}" }
    guided_field(station, repeat) {
        en: "Reading {repeat} at {station}, arm by arm",
        es: "Lectura {repeat} en {station}, brazo por brazo"
    }
    guided_stands_here(reading) {
        en: "Already here: {reading}. A new reading replaces it; Enter alone keeps it.",
        es: "Ya está {reading}. Una lectura nueva la reemplaza; solo Enter la conserva."
    }
    guided_last(reading, station, repeat) {
        en: "Last: {reading} at {station}, reading {repeat}",
        es: "Última: {reading} en {station}, lectura {repeat}"
    }
    guided_before(pass, there) { en: "Pass {pass} here: {there}", es: "Pasada {pass} aquí: {there}" }
    guided_against(pass, there, by) { en: "Pass {pass} here: {there}, now {by}", es: "Pasada {pass} aquí: {there}, ahora {by}" }
    guided_type_or_skip(station) {
        en: "Type the reading at {station}, or skip it.",
        es: "Escriba la lectura en {station}, u omítala."
    }
    guided_place(station, repeat) { en: "Reading {repeat} at {station}", es: "Lectura {repeat} en {station}" }
    guided_skip { en: "Skip", es: "Omitir" }
    guided_back { en: "Back one", es: "Anterior" }
    guided_stop { en: "Leave", es: "Salir" }
    guided_so_far(station, readings) { en: "{station}: {readings}", es: "{station}: {readings}" }
    guided_apart(readings, apart) { en: "{readings}, {apart} apart", es: "{readings}, difieren {apart}" }
    from_operators_left { en: "from the operator's left", es: "desde la izquierda del operador" }
    guided_bare_number(unit) { en: "a number alone is in {unit}", es: "un número solo va en {unit}" }
    guided_done { en: "All arms are read.", es: "Ya se midieron todos los brazos." }
    guided_done_but(stations) {
        en: "The round is over. Not measured: {stations}.",
        es: "Terminó la ronda. Sin medir: {stations}."
    }
    guided_read_left_out { en: "Measure what was skipped", es: "Medir lo que falta" }
    guided_one_more { en: "One more round", es: "Otra ronda" }
    guided_see_turns { en: "See the turns", es: "Ver los giros" }
    guided_finish { en: "Done", es: "Listo" }
    guided_no_place(reading) {
        en: "{reading} was not noted: no arm is next. Add a round or go back.",
        es: "{reading} no se anotó: no sigue ningún brazo. Agregue una ronda o vuelva atrás."
    }
    port_title { en: "Gauge over a serial port", es: "Instrumento por puerto serial" }
    port_button { en: "Serial port", es: "Puerto serial" }
    port_text {
        en: "Every line with one number, with or without a unit, becomes a reading. A gauge that types like a keyboard and ends with Enter needs none of this.",
        es: "Cada línea con un número, con o sin unidad, se vuelve una lectura. Un instrumento que escribe como teclado y termina con Enter no necesita nada de esto."
    }
    port_name { en: "Port", es: "Puerto" }
    port_choose { en: "Ports found", es: "Puertos encontrados" }
    port_none_found { en: "No port found. Plug the gauge in, or type the port's name.", es: "No se encontró ningún puerto. Conecte el instrumento o escriba el nombre del puerto." }
    port_look_again { en: "Look again", es: "Buscar otra vez" }
    port_speed { en: "Speed (bits a second)", es: "Velocidad (bits por segundo)" }
    port_speed_wrong(slowest, fastest, found) {
        en: "Enter a speed from {slowest} to {fastest}; “{found}” is not one.",
        es: "Escriba una velocidad de {slowest} a {fastest}; «{found}» no lo es."
    }
    port_ending { en: "A line ends with", es: "La línea termina con" }
    ending_either { en: "CR or LF", es: "CR o LF" }
    ending_pause { en: "a pause", es: "una pausa" }
    port_framing { en: "Bits, parity, stop", es: "Bits, paridad, paro" }
    port_listen { en: "Connect", es: "Conectar" }
    port_leave { en: "Disconnect", es: "Desconectar" }
    port_opening(port) { en: "Opening {port}.", es: "Abriendo {port}." }
    port_listening(port) { en: "✓ Receiving from {port}.", es: "✓ Recibiendo de {port}." }
    port_gone(port) {
        en: "{port} is gone: unplugged, or the gauge is off. Everything it sent is kept. Plug it in and connect again.",
        es: "{port} se perdió: desconectado o apagado. Todo lo que envió se conserva. Enchúfelo y conéctelo otra vez."
    }
    port_gone_in_a_line(port) {
        en: "{port} was lost in the middle of a reading: that one was dropped, take it again. Everything before is kept. Plug it in and connect again.",
        es: "{port} se perdió en medio de una lectura: esa se descartó, tómela otra vez. Todo lo anterior se conserva. Enchúfelo y conéctelo otra vez."
    }
    port_missing(port) {
        en: "There is no port {port}. Plug the gauge in, or choose another.",
        es: "No hay puerto {port}. Conecte el instrumento o elija otro."
    }
    port_denied(port) {
        en: "You may not use the port {port}. On Linux your user must be in the group for serial ports (often dialout).",
        es: "Usted no puede usar el puerto {port}. En Linux su usuario debe estar en el grupo de puertos seriales (a menudo dialout)."
    }
    port_busy(port) {
        en: "Another program is using the port {port}. Close that program and connect again.",
        es: "Otro programa está usando el puerto {port}. Salga de ese programa y conecte otra vez."
    }
    port_refused(port, why) { en: "The port {port} cannot be opened. {why}", es: "El puerto {port} no se puede abrir. {why}" }
}
