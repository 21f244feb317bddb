//! What the text commands say, apart from their help.

texts! {
    cli_no_reading {
        en: "--readings: no reading was found; nothing was recorded. Commas separate the arms, spaces repeats at one arm.",
        es: "--readings: no se encontró ninguna lectura; no se registró nada. Las comas separan los brazos, los espacios las repeticiones en un brazo."
    }
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
    cli_made(path) { en: "Visit started: {path}", es: "Visita iniciada: {path}" }
    cli_recorded(pass, path) {
        en: "Pass {pass} recorded: {path}",
        es: "Pasada {pass} registrada: {path}"
    }
    cli_pass_of(pass, of) { en: "pass {pass} of {of}", es: "pasada {pass} de {of}" }
    cli_station { en: "measuring point", es: "punto de medición" }
    cli_readings { en: "readings", es: "lecturas" }
    cli_does_not_count { en: "does not count", es: "no cuenta" }
    cli_reading_place(station, repeat) {
        en: "{station}, reading {repeat}",
        es: "{station}, lectura {repeat}"
    }
    cli_wrong_stations(expected, names, found) {
        en: "--readings: {expected} measuring points are needed, separated by commas, from the left ({names}); there are {found}. Leave the place of a point empty if it was not measured.",
        es: "--readings: hacen falta {expected} puntos de medición separados por comas, desde la izquierda ({names}); hay {found}. Deje vacío el lugar de un punto sin medir."
    }
    cli_turns(meaning, seen) { en: "Turns ({meaning}; {seen}):", es: "Giros ({meaning}; {seen}):" }
    cli_reach(arms, spread) {
        en: "With {arms} equal, independent nuts measured at the arms and no limit in the way, whole notches can always reach {spread}.",
        es: "Con {arms} tuercas iguales e independientes, medidas en los brazos y sin límites que estorben, las ranuras enteras siempre pueden llegar a {spread}."
    }
    cli_nut_outside_limits(arm, position, most_in, most_out) {
        en: "The nut of arm {arm} is at {position}, outside its limits {most_in} to {most_out}. Check the position.",
        es: "La tuerca del brazo {arm} está en {position}, fuera de sus límites {most_in} a {most_out}. Revise la posición."
    }
    option_unknown(option) {
        en: "“{option}” is not an option of this command.",
        es: "«{option}» no es una opción de este comando."
    }
    option_no_value(option) {
        en: "{option}: a value is missing after it.",
        es: "{option}: falta un valor después."
    }
    option_value_not_taken(option, value) {
        en: "{option} takes no value; remove “{value}”.",
        es: "{option} no lleva valor; quite «{value}»."
    }
    option_needed(option) {
        en: "{option} is missing; this command needs it.",
        es: "Falta {option}; este comando lo necesita."
    }
    option_no_file {
        en: "The name of a visit file is missing.",
        es: "Falta el nombre de un archivo de visita."
    }
    option_no_folder {
        en: "The name of a folder with visit files is missing.",
        es: "Falta el nombre de una carpeta con archivos de visita."
    }
    folder_without_sessions(folder) {
        en: "{folder}: no visit files (*.jawtrue) in it.",
        es: "{folder}: no tiene archivos de visita (*.jawtrue)."
    }
    exported(rows, sessions, path) {
        en: "Written: {path} (visits: {sessions}, readings: {rows})",
        es: "Escrito: {path} (visitas: {sessions}, lecturas: {rows})"
    }
    option_one_file_only(found) {
        en: "Only one file here; “{found}” is another. Put a value with spaces between quotation marks.",
        es: "Aquí va un solo archivo; «{found}» es otro. Un valor con espacios va entre comillas."
    }
    option_extra(found) {
        en: "“{found}” is too much here.",
        es: "«{found}» sobra aquí."
    }
    option_not_text(option) {
        en: "{option}: the value is not UTF-8 text.",
        es: "{option}: el valor no es texto UTF-8."
    }
    option_value(option, number) { en: "{option}, value {number}", es: "{option}, valor {number}" }
    option_too_large(option, found) {
        en: "{option}: {found} is too large a number here.",
        es: "{option}: {found} es un número demasiado grande aquí."
    }
    option_whole(option, found) {
        en: "{option}: must be a whole number such as -4 or +2; “{found}” is not.",
        es: "{option}: debe ser un número entero como -4 o +2; «{found}» no lo es."
    }
    option_negative(option, found) {
        en: "{option}: must be 0 or more; this is “{found}”.",
        es: "{option}: debe ser 0 o más; aquí es «{found}»."
    }
    option_limits(found) {
        en: "--nut-limits: must be two positions such as -12..6; “{found}” is not.",
        es: "--nut-limits: deben ser dos posiciones como -12..6; «{found}» no lo es."
    }
    option_per_arm(option, arms, found) {
        en: "{option}: {arms} values are needed, separated by commas, one per arm; there are {found}.",
        es: "{option}: hacen falta {arms} valores separados por comas, uno por brazo; hay {found}."
    }
    option_confidence(found) {
        en: "--confidence: must be above 0.5 to 0.999; “{found}” is not.",
        es: "--confidence: debe ser de más de 0.5 a 0.999; «{found}» no lo es."
    }
    option_not_with_press(option) {
        en: "{option} does not go with --press: the press file has it. Change it in the visit afterwards.",
        es: "{option} no va con --press: lo trae el archivo de la prensa. Cámbielo después en la visita."
    }
    option_unit(found) {
        en: "--unit: must be in or mm; this is “{found}”.",
        es: "--unit: debe ser in o mm; aquí es «{found}»."
    }
    option_renderer(found) {
        en: "--renderer: must be wgpu or glow; this is “{found}”.",
        es: "--renderer: debe ser wgpu o glow; aquí es «{found}»."
    }
    option_language(found) {
        en: "--language: must be en or es; this is “{found}”.",
        es: "--language: debe ser en o es; aquí es «{found}»."
    }
}
