//! What the text commands say, apart from their help.

texts! {
    cli_see_help {
        en: "See: jawtrue --help",
        es: "Vea: jawtrue --help"
    }
    cli_not_written(why) {
        en: "The answer could not be written. {why}",
        es: "No se pudo escribir la respuesta. {why}"
    }
    cli_no_window(cause) {
        en: "No window can be opened here ({cause}). The same as text:",
        es: "Aquí no se puede abrir una ventana ({cause}). Lo mismo como texto:"
    }
    cli_made(path) { en: "Session started: {path}", es: "Sesión iniciada: {path}" }
    cli_recorded(pass, path) {
        en: "Pass {pass} recorded: {path}",
        es: "Pasada {pass} registrada: {path}"
    }
    cli_pass_of(pass, of) { en: "pass {pass} of {of}", es: "pasada {pass} de {of}" }
    cli_station { en: "station", es: "estación" }
    cli_readings { en: "readings", es: "lecturas" }
    cli_does_not_count { en: "does not count", es: "no cuenta" }
    cli_reading_place(station, repeat) {
        en: "Station {station}, reading {repeat}",
        es: "Estación {station}, lectura {repeat}"
    }
    cli_wrong_stations(expected, names, found) {
        en: "--readings: expected {expected} stations parted by commas, from the left ({names}), found {found}. An empty place is a station not read.",
        es: "--readings: se esperaban {expected} estaciones separadas por comas, desde la izquierda ({names}), y hay {found}. Un lugar vacío es una estación sin leer."
    }
    cli_turns(meaning) { en: "Turns ({meaning}):", es: "Giros ({meaning}):" }
    cli_reach(arms, spread) {
        en: "With {arms} equal, independent nuts read at the arms and no limit in the way, whole notches can always reach {spread}.",
        es: "Con {arms} tuercas iguales e independientes, leídas en los brazos y sin límites que estorben, las ranuras enteras siempre pueden llegar a {spread}."
    }
    cli_nut_outside_limits(arm, position, most_in, most_out) {
        en: "The nut of arm {arm} stands at {position}, outside its limits {most_in} to {most_out}. Check the position.",
        es: "La tuerca del brazo {arm} está en {position}, fuera de sus límites {most_in} a {most_out}. Revise la posición."
    }
    option_unknown(option) {
        en: "Expected an option of this command, found “{option}”.",
        es: "Se esperaba una opción de este comando y se encontró «{option}»."
    }
    option_no_value(option) {
        en: "{option}: expected a value after it, found nothing.",
        es: "{option}: se esperaba un valor después y no hay nada."
    }
    option_value_not_taken(option, value) {
        en: "{option}: expected no value, found “{value}”.",
        es: "{option}: no se esperaba un valor y se encontró «{value}»."
    }
    option_needed(option) {
        en: "Expected {option}, which this command needs; it is missing.",
        es: "Se esperaba {option}, que este comando necesita, y falta."
    }
    option_no_file {
        en: "Expected the name of a session file; it is missing.",
        es: "Se esperaba el nombre de un archivo de sesión y falta."
    }
    option_one_file_only(found) {
        en: "Expected one file, found another: “{found}”. A value with blanks goes between quotation marks.",
        es: "Se esperaba un solo archivo y hay otro: «{found}». Un valor con espacios va entre comillas."
    }
    option_extra(found) {
        en: "Expected nothing more, found “{found}”.",
        es: "No se esperaba nada más y se encontró «{found}»."
    }
    option_not_text(option) {
        en: "{option}: expected text in UTF-8, found other bytes.",
        es: "{option}: se esperaba texto en UTF-8 y hay otros bytes."
    }
    option_value(option, number) { en: "{option}, value {number}", es: "{option}, valor {number}" }
    option_whole(option, found) {
        en: "{option}: expected a whole number such as -4 or +2, found “{found}”.",
        es: "{option}: se esperaba un número entero como -4 o +2 y se encontró «{found}»."
    }
    option_negative(option, found) {
        en: "{option}: expected 0 or more, found “{found}”.",
        es: "{option}: se esperaba 0 o más y se encontró «{found}»."
    }
    option_limits(found) {
        en: "--nut-limits: expected two positions such as -12..6, found “{found}”.",
        es: "--nut-limits: se esperaban dos posiciones como -12..6 y se encontró «{found}»."
    }
    option_per_arm(option, arms, found) {
        en: "{option}: expected {arms} values parted by commas, one per arm, found {found}.",
        es: "{option}: se esperaban {arms} valores separados por comas, uno por brazo, y hay {found}."
    }
    option_confidence(found) {
        en: "--confidence: expected a share above 0.5 to 0.999, found “{found}”.",
        es: "--confidence: se esperaba una proporción de más de 0.5 a 0.999 y se encontró «{found}»."
    }
    option_not_with_press(option) {
        en: "{option} does not go with --press: the press file brings it. Change it in the session afterwards.",
        es: "{option} no va con --press: lo trae el archivo de la prensa. Cámbielo después en la sesión."
    }
    option_unit(found) {
        en: "--unit: expected in or mm, found “{found}”.",
        es: "--unit: se esperaba in o mm y se encontró «{found}»."
    }
    option_language(found) {
        en: "--language: expected en or es, found “{found}”.",
        es: "--language: se esperaba en o es y se encontró «{found}»."
    }
}
