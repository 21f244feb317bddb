//! What the window says about practice.

texts! {
    command_practice { en: "Practice and lessons", es: "Práctica y lecciones" }
    practice_lessons { en: "Lessons: a simulated press with your press's measures", es: "Lecciones: una prensa simulada con las medidas de la suya" }
    practice_exercise { en: "An exercise on a simulated press", es: "Un ejercicio en una prensa simulada" }
    practice_number { en: "Exercise number", es: "Número de ejercicio" }
    practice_trainee { en: "Trainee", es: "Quién practica" }
    practice_fault { en: "Fault", es: "Falla" }
    practice_level { en: "Level", es: "Nivel" }
    practice_arms { en: "Arms", es: "Brazos" }
    practice_any { en: "any", es: "cualquiera" }
    practice_number_hint { en: "A number stands for one simulated press with its fault: the same for everyone who types it in the same unit.", es: "Un número es una prensa simulada con su falla: la misma para todos los que lo escriban en la misma unidad." }
    practice_whose_advice { en: "Program's advice:", es: "Consejo del programa:" }
    practice_choose { en: "Choose fault, level and arms, or type your own press", es: "Elegir falla, nivel y brazos, o escribir su propia prensa" }
    practice_trainers { en: "For trainers: hand this exercise out", es: "Para instructores: repartir este ejercicio" }
    practice_begin { en: "Begin the exercise", es: "Empezar el ejercicio" }
    practice_hand_out_hint { en: "Saves the exercise, as chosen above, in a small file that trainees open.", es: "Guarda el ejercicio, como se eligió arriba, en un archivo pequeño que abre quien practica." }
    practice_title { en: "Title", es: "Título" }
    practice_note { en: "Note for trainees", es: "Nota para quien practica" }
    practice_hand_out { en: "Save to hand out", es: "Guardar para repartir" }
    practice_open { en: "Open a practice file…", es: "Abrir un archivo de práctica…" }
    practice_which(number, help) { en: "Exercise {number}, {help}", es: "Ejercicio {number}, {help}" }
    practice_clock(minutes) { en: "{minutes} min", es: "{minutes} min" }
    practice_do { en: "More you can do…", es: "Más que puede hacer…" }
    practice_zero { en: "Zero the gauge", es: "Instrumento a cero" }
    practice_read(station) { en: "Read {station}", es: "Leer {station}" }
    practice_next(station) { en: "Next: read {station}", es: "Sigue: leer {station}" }
    practice_take { en: "Read", es: "Leer" }
    practice_turn_now { en: "Turn the nuts now", es: "Girar ya las tuercas" }
    practice_by_acts {
        en: "Practice: press “Read” at an arm, or the main button, to take a reading. Nothing is typed here, and what is done stays done.",
        es: "Práctica: presione «Leer» en un brazo, o el botón principal, para tomar una lectura. Aquí nada se escribe, y lo hecho queda hecho."
    }
    practice_own { en: "Your own press: readings arm by arm, or how far each arm is off", es: "Su propia prensa: lecturas por brazo, o cuánto está fuera cada uno" }
    practice_own_place { en: "Your own press", es: "Su propia prensa" }
    practice_own_hint(readings, off) { en: "For example {readings} or {off}; empty: the press of the number. What is set here wins over the number.", es: "Por ejemplo {readings} o {off}; vacío: la prensa del número. Lo que se ponga aquí vale más que el número." }
    practice_handed { en: "An exercise that was handed out", es: "Un ejercicio repartido" }
    practice_no_plan { en: "No advice is on show. Set the nuts as you would turn them and turn, or lace again as it is.", es: "No hay consejo a la vista. Ponga las tuercas como las giraría y gire, o engrape otra vez así." }
    practice_who_first { en: "Who does it? The record is kept by name.", es: "¿Quién lo hace? El registro va por nombre." }
    practice_assumed {
        en: "Simulated press: sizes of faults, variation and minutes are assumed (common practice, no source).",
        es: "Prensa simulada: tamaño de fallas, variación y minutos son supuestos (práctica común, sin fuente)."
    }
    practice_beside { en: "beside the marks", es: "fuera de las marcas" }
    practice_flip { en: "next piece the other way round", es: "siguiente pieza al revés" }
    practice_see_to { en: "See to…", es: "Atender…" }
    practice_guess { en: "These turns are my guess", es: "Estos giros son mi respuesta" }
    practice_see_advice { en: "Show the advice", es: "Ver el consejo" }
    practice_accept { en: "Accept the piece", es: "Aceptar la pieza" }
    practice_stop { en: "Stop here", es: "Detener aquí" }
    practice_debrief { en: "Debrief", es: "Repaso" }
    practice_working_out { en: "Working out what luck did…", es: "Calculando qué hizo la suerte…" }
    practice_leave { en: "Leave practice", es: "Salir de la práctica" }
    practice_decisions { en: "Each decision, with what could be known then", es: "Cada decisión, con lo que se podía saber entonces" }
    practice_kept(path) { en: "Kept in {path}", es: "Guardado en {path}" }
    practice_picture { en: "The jaws as they were found and left, and the last piece as read", es: "Las mordazas al llegar y al terminar, y la última pieza leída" }
    debrief_found { en: "as found", es: "al llegar" }
    debrief_left { en: "as left", es: "al terminar" }
    debrief_read { en: "as read", es: "leída" }
    debrief_cured { en: "cured", es: "corregida" }
    debrief_who { en: "Who", es: "Quién" }
    debrief_pieces { en: "Test pieces", es: "Piezas" }
    debrief_minutes { en: "Minutes", es: "Minutos" }
    debrief_passes { en: "Passes in", es: "Dentro en" }
    debrief_you { en: "You, this time", es: "Usted, esta vez" }
    debrief_again { en: "Your choices, 200 lacings alike", es: "Sus decisiones, 200 engrapes iguales" }
    debrief_best { en: "Knowing the press", es: "Conociendo la prensa" }
    debrief_arm_by_arm { en: "Every arm up to the thickest", es: "Cada brazo hasta el más grueso" }
}
