//! What the window says about practice.

texts! {
    command_practice { en: "Practice and lessons", es: "Práctica y lecciones" }
    practice_lessons { en: "Lessons", es: "Lecciones" }
    practice_lessons_on { en: "On a simulated press shaped like yours. New here? In this order.", es: "En una prensa simulada, de la forma de la suya. ¿Es nuevo? En este orden." }
    practice_exercise { en: "Exercise", es: "Ejercicio" }
    practice_number { en: "Exercise number", es: "Número de ejercicio" }
    practice_trainee { en: "Trainee", es: "Quién practica" }
    practice_fault { en: "Fault", es: "Falla" }
    practice_level { en: "Level", es: "Nivel" }
    practice_arms { en: "Arms", es: "Brazos" }
    practice_any { en: "any", es: "cualquiera" }
    practice_number_hint { en: "A number stands for one simulated press with its fault: with the same unit, the same for everyone.", es: "Un número es una prensa simulada con su falla: con la misma unidad, la misma para todos." }
    practice_judged(limit) { en: "Judged by a tolerance of {limit}.", es: "Se juzga con una tolerancia de {limit}." }
    practice_whose_advice { en: "When may the program's advice be seen?", es: "¿Cuándo se puede ver el consejo del programa?" }
    practice_trainers { en: "For trainers", es: "Para instructores" }
    practice_show_fault { en: "Show the fault", es: "Mostrar la falla" }
    practice_begin { en: "Begin the exercise", es: "Empezar el ejercicio" }
    practice_hand_out_hint { en: "Save this exercise as a small file that trainees open:", es: "Guarde este ejercicio en un archivo pequeño que abre quien practica:" }
    practice_hand_out_seen { en: "Trainees see number, title and note, the fault only in the debrief; but the file is plain text, and whoever opens it in an editor can read it. It holds no names.", es: "Quien practica ve número, título y nota; la falla, solo en el repaso. Pero el archivo es texto, y quien lo abra en un editor puede leerla. No lleva nombres." }
    practice_press(arms, level) { en: "{arms} arms, {level}", es: "{arms} brazos, {level}" }
    practice_no_other { en: "none but that", es: "ninguna más" }
    practice_title { en: "Title", es: "Título" }
    practice_note { en: "Note for trainees", es: "Nota para quien practica" }
    practice_hand_out { en: "Save to hand out", es: "Guardar para repartir" }
    practice_open { en: "Open a practice file…", es: "Abrir un archivo de práctica…" }
    practice_which(number, help) { en: "Exercise {number}, {help}", es: "Ejercicio {number}, {help}" }
    practice_clock(minutes, ends) { en: "Used: {minutes} min, belt ends: {ends}", es: "Usado: {minutes} min, extremos de banda: {ends}" }
    practice_clock_short(minutes) { en: "{minutes} min", es: "{minutes} min" }
    practice_do { en: "More you can do…", es: "Más acciones…" }
    practice_zero { en: "Zero the gauge", es: "Poner en cero" }
    practice_read(station) { en: "Read {station}", es: "Leer {station}" }
    practice_next(station) { en: "Next: read {station}", es: "Sigue: leer {station}" }
    practice_take { en: "Read", es: "Leer" }
    practice_turn_now { en: "Turn the nuts now", es: "Girar ya las tuercas" }
    practice_by_acts {
        en: "Practice: a test piece is laced already. Press “Read” at an arm, or the main button. What is done stays done.",
        es: "Práctica: ya hay una pieza engrapada. Presione «Leer» en un brazo, o el botón principal. Lo hecho queda hecho."
    }
    practice_own { en: "Your own press: readings arm by arm, or how far each arm is off", es: "Su propia prensa: lecturas por brazo, o cuánto está fuera cada uno" }
    practice_own_place { en: "Your own press", es: "Su propia prensa" }
    practice_own_hint(readings, off) { en: "For example {readings} or {off}; empty: the press of the number.", es: "Por ejemplo {readings} o {off}; vacío: la prensa del número." }
    practice_handed { en: "An exercise that was handed out", es: "Un ejercicio repartido" }
    practice_no_plan { en: "No advice is on show. Set the nuts as you would turn them and turn, or lace again as it is.", es: "No hay consejo a la vista. Ponga las tuercas como las giraría y gire, o engrape otra vez así." }
    practice_who_first { en: "Who does it? The record is kept by name.", es: "¿Quién lo hace? El registro va por nombre." }
    practice_assumed {
        en: "Simulated press: sizes of faults, variation and minutes are assumed (common practice, no source).",
        es: "Prensa simulada: tamaño de fallas, variación y minutos son supuestos (práctica común, sin referencia)."
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
    practice_kept { en: "Kept in the practice folder.", es: "Guardado en la carpeta de práctica." }
    practice_picture { en: "The jaws as they were found and left, and the last piece as read", es: "Las mordazas al llegar y al terminar, y la última pieza leída" }
    debrief_found { en: "as found", es: "al llegar" }
    debrief_left { en: "as left", es: "al terminar" }
    debrief_read { en: "as read", es: "leída" }
    debrief_cured { en: "cured", es: "corregida" }
    debrief_who { en: "Way of working", es: "Manera de trabajar" }
    debrief_pieces { en: "Test pieces", es: "Piezas" }
    debrief_minutes { en: "Minutes", es: "Minutos" }
    debrief_inside_by(piece) { en: "Inside by {piece}", es: "Dentro en {piece}" }
    debrief_you { en: "You, this time", es: "Usted, esta vez" }
    debrief_again { en: "Your choices, laced again", es: "Sus decisiones, engrapando otra vez" }
    debrief_best { en: "Knowing the press", es: "Conociendo la prensa" }
    debrief_best_away { en: "Knowing it: to the shop", es: "Conociéndola: al taller" }
    debrief_arm_by_arm { en: "Every arm up to the thickest", es: "Cada brazo hasta el más grueso" }
    debrief_advised { en: "The program's advice", es: "El consejo del programa" }
    debrief_runs(runs) { en: "What it took you, and other ways of working on average over {runs} simulated runs", es: "Lo que le costó a usted, y otras maneras de trabajar en promedio en {runs} simulaciones" }
    debrief_yes { en: "yes", es: "sí" }
    debrief_no { en: "no", es: "no" }
    debrief_nothing { en: "You turned nothing, so there is nothing of yours to compare.", es: "No giró nada, así que no hay nada suyo que comparar." }
    debrief_chart(unit) { en: "Thickness the jaws give, against its own average, {unit}", es: "Espesor que dan las mordazas, contra su propio promedio, {unit}" }
    practice_again { en: "Same press again", es: "La misma prensa otra vez" }
    practice_next_exercise { en: "Next exercise", es: "Siguiente ejercicio" }
    practice_look_back { en: "Look at my passes", es: "Ver mis pasadas" }
    practice_to_debrief { en: "Back to the debrief", es: "Volver al repaso" }
    practice_short(number) { en: "Exercise {number}", es: "Ejercicio {number}" }
    lesson_minutes(minutes) { en: "about {minutes} min", es: "unos {minutes} min" }
    lesson_seen { en: "✓ seen", es: "✓ vista" }
    practice_number_open { en: "What is set below counts. The number draws only the rest.", es: "Vale lo que se ponga abajo. El número solo sortea lo demás." }
    practice_own_echo(arms, spread) { en: "{arms} arms, spread {spread}", es: "{arms} brazos, diferencia {spread}" }
}
