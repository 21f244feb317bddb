//! What the crew's view says: few words, to be read across a shop.

texts! {
    command_crew_view { en: "Crew view, full screen", es: "Vista para el equipo, pantalla completa" }
    crew_leave_view { en: "Leave the crew view", es: "Salir de la vista para el equipo" }
    crew_again { en: "Show before and after again", es: "Mostrar otra vez antes y después" }
    crew_pass(number, of) { en: "Pass {number} of {of}", es: "Pasada {number} de {of}" }
    crew_true { en: "True: every arm is inside the tolerance.", es: "Parejas: cada brazo dentro de la tolerancia." }
    crew_only_tried(turns) { en: "Do not turn. Only tried on the screen: {turns}.", es: "No gire. Solo una prueba en pantalla: {turns}." }
    crew_true_just { en: "This piece passes, but only just.", es: "Esta pieza pasa, pero apenas." }
    crew_not_sure { en: "Inside, but not sure enough yet.", es: "Dentro, pero aún no es seguro." }
    crew_missing(stations) { en: "Still to measure: {stations}.", es: "Falta medir: {stations}." }
    crew_not_true(thick, thin) { en: "Not true: thick at {thick}, thin at {thin}.", es: "Disparejas: grueso en {thick}, delgado en {thin}." }
    crew_unread { en: "Measure the test piece at every arm.", es: "Mida la pieza de prueba en cada brazo." }
    crew_nothing_laced { en: "Lace a test piece first.", es: "Primero engrape una pieza de prueba." }
    crew_spread(spread, limit) { en: "Spread {spread}, limit {limit}.", es: "Diferencia {spread}, límite {limit}." }
    crew_turn(turns) { en: "Power off, locked out, no pressure, tried. Then turn: {turns}.", es: "Sin corriente, con candado, sin presión, probado. Luego gire: {turns}." }
    crew_turn_drawn(nuts) { en: "Power off, locked out, no pressure, tried. Then turn {nuts} nuts as drawn.", es: "Sin corriente, con candado, sin presión, probado. Luego gire {nuts} tuercas como en el dibujo." }
    crew_turned(turns) { en: "Then these were turned: {turns}.", es: "Después se giró: {turns}." }
    crew_turned_drawn(nuts) { en: "Then {nuts} nuts were turned as drawn.", es: "Después se giraron {nuts} tuercas como en el dibujo." }
    crew_leave { en: "Leave the nuts alone.", es: "No toque las tuercas." }
    crew_left { en: "Then no nut was turned.", es: "Después no se giró ninguna tuerca." }
    crew_why_out { en: "Why: OUT opens the jaw there, and the splice gets thicker.", es: "Motivo: ABRIR abre la mordaza ahí y el empalme engruesa." }
    crew_why_in { en: "Why: IN closes the jaw there, and the splice gets thinner.", es: "Motivo: CERRAR cierra la mordaza ahí y el empalme adelgaza." }
    crew_why_both { en: "Why: OUT makes thin places thicker, IN makes thick ones thinner.", es: "Motivo: ABRIR engruesa lo delgado, CERRAR adelgaza lo grueso." }
    crew_should_come(spread) { en: "Should come to about {spread}.", es: "Debería quedar cerca de {spread}." }
    crew_came(spread) { en: "It came to {spread}.", es: "Quedó en {spread}." }
    crew_caution { en: "Make it safe before any hand goes in; manual and local codes first.", es: "Asegúrela antes de meter las manos; primero el manual y las normas locales." }
    crew_gap(factor) { en: "gap drawn ×{factor}", es: "abertura ×{factor}" }
    crew_gap_before(factor) { en: "gap drawn ×{factor}, dashed: before", es: "abertura ×{factor}, a rayas: antes" }
    crew_description(sentence) { en: "The jaws before and after: {sentence}", es: "Las mordazas antes y después: {sentence}" }
}
