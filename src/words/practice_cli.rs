//! What the text command for practice says, and its help.

texts! {
    practice_began(number, arms, path) { en: "Exercise {number}, {arms} arms. State: {path}", es: "Ejercicio {number}, {arms} brazos. Estado: {path}" }
    practice_handed_out(number, path) { en: "Exercise {number} saved to be handed out: {path}", es: "Ejercicio {number} guardado para repartir: {path}" }
    practice_piece(piece, nuts) { en: "Piece {piece}, nuts at {nuts}:", es: "Pieza {piece}, tuercas en {nuts}:" }
    practice_spread(spread, limit, stands) { en: "Spread {spread}, tolerance {limit}: {stands}.", es: "Diferencia {spread}, tolerancia {limit}: {stands}." }
    practice_inside { en: "inside", es: "dentro" }
    practice_outside { en: "outside", es: "fuera" }
    practice_not_read { en: "not every arm is measured", es: "no están medidos todos los brazos" }
    practice_used(minutes, ends, hooks) { en: "So far: {minutes} min; belt ends: {ends}; hooks: {hooks}.", es: "Hasta ahora: {minutes} min; extremos de banda: {ends}; ganchos: {hooks}." }
    practice_stuck { en: "The hook retainer stuck: a nut is too far in for its opening.", es: "El retén de ganchos se atoró: una tuerca está demasiado cerrada." }
    practice_advice(turns, chance, minutes) { en: "Advice: {turns} (chance {chance}, {minutes} min expected).", es: "Consejo: {turns} (probabilidad {chance}, {minutes} min esperados)." }
    practice_no_advice { en: "No advice can be given on this piece.", es: "Sobre esta pieza no hay consejo posible." }
    practice_over(why) { en: "The exercise is over: {why}.", es: "El ejercicio terminó: {why}." }
    practice_was(faults) { en: "What was wrong: {faults}.", es: "Lo que estaba mal: {faults}." }
    practice_jaws(found, left) { en: "Spread that the jaws themselves give: {found} as found, {left} as left.", es: "Diferencia que dan las mordazas mismas: {found} al llegar, {left} al terminar." }
    practice_took(pieces, minutes) { en: "you: {minutes} min, test pieces: {pieces}", es: "usted: {minutes} min, piezas: {pieces}" }
    option_name(option, names, found) { en: "{option}: expected one of {names}, found “{found}”.", es: "{option}: se esperaba uno de {names} y se encontró «{found}»." }
    option_only_begins(option) { en: "{option} goes with the beginning of an exercise only (--exercise or --from).", es: "{option} solo va al iniciar un ejercicio (--exercise o --from)." }
    help_practice {
        en: "\
jawtrue practice --exercise N [FILE] [--arms N] [--fault KIND] [options]
jawtrue practice --from HANDOUT FILE     begins an exercise that was handed out
jawtrue practice FILE --turned 0,+1,...  the next piece and its readings
jawtrue practice FILE --reveal           the debrief

A simulated press to practice on. FILE (practice-N.jawlesson where none is
named) holds the exercise and what was done; it is never a visit, and nothing
of it gets into a press file. The same exercise gives the same press and the
same pieces on every machine.

At the beginning:
  --exercise N         the exercise's number, from 1
  --arms N             2 to 8 arms; otherwise as the number says
  --fault KIND         everyday, pinched-arm, taper, bow, belt-twist,
                       worn-stretch, slack-nut, dead-nut, poor-gauge,
                       thick-belt-side, uneven-chains, small-opening, mixed
  --level L            easy, middling, hard
  --unit in|mm         unit of gauge and tolerance (in)
  --assist A           none, after-guess, full: when advice may be seen
  --profile LIST       your own press: readings arm by arm, or how far each
                       arm is off; then nothing else is wrong with it
  --title, --note      what a trainer calls it and says about it
  --who, --when        the trainee, and the date
  --hand-out           only saves the exercise, to be handed out

Then, in this order where several are given:
  --guess LIST         the turns one would make, before advice is seen
  --advice             what the program advises, where the exercise allows it
  --see-to WHAT        belt, drive, nut, gauge; jaw sends it to the shop
  --turned LIST        turns, out positive, one per arm; laces and measures
  --flip               that piece with the belt end the other way round
  --repeats N          readings at every measuring point (2)
  --careless LIST      safe: turns before the press is made safe; zero: does not
                       zero the gauge; place: reads beside the marks
  --accept             accepts the last piece
  --reveal             the debrief; an exercise not ended is given up
  --record CSV         adds a line about it to a record
  --json               one object: [file, exercise, arms, unit, piece, nuts,
                       stations, readings, means, spread, tolerance, inside,
                       minutes, belt_ends, hooks, stuck, ended, advice], and with
                       --reveal [debrief]
  --language en|es     language of the answer

On a real press: made safe before every turn, as the manual says.",
        es: "\
jawtrue practice --exercise N [ARCHIVO] [--arms N] [--fault FALLA] [opciones]
jawtrue practice --from EJERCICIO ARCHIVO   inicia un ejercicio repartido
jawtrue practice ARCHIVO --turned 0,+1,...  la siguiente pieza y sus lecturas
jawtrue practice ARCHIVO --reveal           el repaso

Una prensa simulada para practicar. ARCHIVO (practice-N.jawlesson si no se
nombra) guarda el ejercicio y lo hecho; nunca es una visita y nada de él llega a
un archivo de prensa. El mismo ejercicio da la misma prensa y las mismas piezas
en cualquier máquina.

Al iniciar:
  --exercise N         número del ejercicio, desde 1
  --arms N             de 2 a 8 brazos; si no, según el número
  --fault FALLA        everyday, pinched-arm, taper, bow, belt-twist,
                       worn-stretch, slack-nut, dead-nut, poor-gauge,
                       thick-belt-side, uneven-chains, small-opening, mixed
  --level L            easy, middling, hard
  --unit in|mm         unidad del instrumento y la tolerancia (in)
  --assist A           none, after-guess, full: cuándo se ve el consejo
  --profile LISTA      su propia prensa: lecturas por brazo, o cuánto está
                       fuera cada uno; entonces no tiene otra falla
  --title, --note      cómo lo llama el instructor y qué dice de él
  --who, --when        quién practica, y la fecha
  --hand-out           solo guarda el ejercicio, para repartirlo

Después, en este orden si van varias:
  --guess LISTA        los giros que uno haría, antes de ver el consejo
  --advice             lo que aconseja el programa, si el ejercicio lo permite
  --see-to QUÉ         belt, drive, nut, gauge; jaw la manda al taller
  --turned LISTA       giros, ABRIR positivo, uno por brazo; engrapa y mide
  --flip               esa pieza con el extremo de banda al revés
  --repeats N          lecturas en cada punto de medición (2)
  --careless LISTA     safe: gira sin asegurar la prensa; zero: no pone el
                       instrumento en cero; place: lee fuera de las marcas
  --accept             acepta la última pieza
  --reveal             el repaso; un ejercicio sin terminar se da por dejado
  --record CSV         agrega una línea a un registro
  --json               un objeto: [file, exercise, arms, unit, piece, nuts,
                       stations, readings, means, spread, tolerance, inside,
                       minutes, belt_ends, hooks, stuck, ended, advice], y con
                       --reveal [debrief]
  --language en|es     idioma de la respuesta

En una prensa real: asegurada antes de cada giro, como dice el manual."
    }
}
