//! “How sure is that?”: the figures behind it, their headings and explanations.

texts! {
    worked_out_title { en: "How this was worked out", es: "Cómo se calculó esto" }
    worked_out_of(pass) {
        en: "Pass {pass}. Nobody needs this to turn a nut. u says how far a figure may well be off: two times in three it is closer than that.",
        es: "Pasada {pass}. Nadie necesita esto para girar una tuerca. u dice cuánto puede fallar una cifra: dos de cada tres veces falla menos."
    }
    spread_worked_out(thick, thin, spread, limit) { en: "Spread: {thick} less {thin} = {spread}, limit {limit}", es: "Diferencia máxima: {thick} menos {thin} = {spread}, límite {limit}" }
    copy_as_text { en: "Copy as text", es: "Copiar como texto" }
    said_copied_text { en: "Copied.", es: "Copiado." }
    column_repeats { en: "readings", es: "lecturas" }
    column_u_piece { en: "off by (u), this piece", es: "error (u), esta pieza" }
    column_u_press { en: "off by (u), press", es: "error (u), prensa" }
    budget_of_piece {
        en: "Uncertainty of the spread, this piece (thickest less thinnest)",
        es: "Incertidumbre de la diferencia, esta pieza (más gruesa menos más delgada)"
    }
    budget_of_press {
        en: "Uncertainty of the spread, this press",
        es: "Incertidumbre de la diferencia, esta prensa"
    }
    misfits_heading { en: "What does not fit", es: "Lo que no concuerda" }
    chances_heading { en: "The chances", es: "Las probabilidades" }
    chance_of_piece_how {
        en: "Before it is measured, the piece is expected to be as the press is known so far, with variation and tilt from lacing to lacing. Its readings, each with its u, are combined with that (both normal, weighted by variance); then the chance that largest minus smallest of all counting measuring points is inside the tolerance is integrated over every thickness that fits.",
        es: "Antes de medirla se espera la pieza según lo aprendido de la prensa, con variación e inclinación entre engrapes. Sus lecturas, cada una con su u, se unen a eso (ambas normales, con pesos por varianza); luego se integra, sobre todos los espesores posibles, la probabilidad de que la mayor menos la menor de los puntos de medición que cuentan quede dentro de la tolerancia."
    }
    chance_of_press_how {
        en: "The press is its average over many pieces: what the passes teach about its shape, with all that gauge, lacing and belt ends leave open.",
        es: "La prensa es su promedio en muchas piezas: lo que las pasadas enseñan de su forma, con todo lo que dejan abierto instrumento, engrape y extremos de banda."
    }
    chance_expected(deviation, lacing, tilt, shift) {
        en: "Assumed beforehand, as standard deviations: deviations from level {deviation}, lacing {lacing}, tilt of a piece end to end {tilt}, shift of a piece {shift}.",
        es: "Se supone de antemano, como desviaciones estándar: desviaciones del nivel {deviation}, engrape {lacing}, inclinación de una pieza de punta a punta {tilt}, desplazamiento de una pieza {shift}."
    }
    chance_changed(percent, deviation) {
        en: "It was level before and may have changed since, with a chance of {percent} before this visit's readings; deviations from level are then {deviation}. The readings tell which.",
        es: "Estaba a nivel y puede haber cambiado desde entonces, con probabilidad de {percent} antes de las lecturas de esta visita; las desviaciones del nivel son entonces {deviation}. Las lecturas dicen cuál."
    }
    chance_verdicts(percent) {
        en: "Inside is said from a chance of {percent}, outside when the chance of being outside is that high, too close to call in between.",
        es: "Se dice dentro desde una probabilidad de {percent}, fuera cuando la de estar fuera es igual de alta, y entre las dos, muy cerca del límite para decidir."
    }
    sources_heading { en: "Sources", es: "Fuentes" }
    sources_of_chances {
        en: "Uncertainty: JCGM 100:2008 (GUM). Decisions: JCGM 106:2012, ISO 14253-1:2017.
Range of normal values: David and Nagaraja, Order Statistics, 3rd ed., 2003, section 2.3.",
        es: "Incertidumbre: JCGM 100:2008 (GUM). Decisiones: JCGM 106:2012, ISO 14253-1:2017.
Rango de valores normales: David y Nagaraja, Order Statistics, 3.ª ed., 2003, sección 2.3."
    }
}
