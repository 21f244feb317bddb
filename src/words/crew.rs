//! What the crew's view says: few words, to be read across a shop.

texts! {
    crew_short { en: "Crew", es: "Cuadrilla" }
    command_crew_view { en: "Crew view, full screen", es: "Vista para la cuadrilla, pantalla completa" }
    crew_leave_view { en: "Leave the crew view", es: "Salir de la vista para la cuadrilla" }
    crew_again { en: "Show before and after again", es: "Mostrar otra vez antes y después" }
    crew_pass(number, step) { en: "Pass {number}: {step}", es: "Pasada {number}: {step}" }
    crew_back { en: "Step back", es: "Paso anterior" }
    crew_on { en: "Next step", es: "Paso siguiente" }
    crew_as_found { en: "as found", es: "como estaba" }
    crew_as_it_came { en: "as it came out", es: "como quedó" }
    crew_what_is_wrong { en: "what is wrong", es: "qué está mal" }
    crew_what_we_turn { en: "what we turn", es: "qué se gira" }
    crew_what_was_turned { en: "what was turned", es: "qué se giró" }
    crew_as_expected { en: "as expected", es: "como se espera" }
    crew_thin_and_thick(thin, thick) { en: "Thin at {thin}, thick at {thick}.", es: "Delgado en {thin}, grueso en {thick}." }
    crew_thin(thin) { en: "Thin at {thin}.", es: "Delgado en {thin}." }
    crew_thick(thick) { en: "Thick at {thick}.", es: "Grueso en {thick}." }
    crew_harm_both { en: "Hooks can cut or pull out; belt crooked.", es: "Ganchos pueden cortar o zafar; se desvía." }
    crew_harm_crushed { en: "Hooks can cut the belt; it runs crooked.", es: "Ganchos pueden cortar; banda desviada." }
    crew_harm_loose { en: "Hooks can pull out; belt runs crooked.", es: "Ganchos pueden zafarse; banda desviada." }
    crew_neighbors { en: "The jaw is stiff: neighbors move too.", es: "Mordaza rígida: mueve a los vecinos." }
    crew_true(spread, limit) { en: "True: spread {spread}, limit {limit}.", es: "Parejas: dif. {spread}, límite {limit}." }
    crew_true_from(found, spread, limit) { en: "True: {found} → {spread}, limit {limit}.", es: "Parejas: {found} → {spread}, límite {limit}." }
    crew_only_tried(turns) { en: "Do not turn. Only tried on the screen: {turns}.", es: "No gire. Solo una prueba en pantalla: {turns}." }
    crew_true_just { en: "This piece passes, but only just.", es: "Esta pieza pasa, pero apenas." }
    crew_not_sure { en: "Inside, but not sure enough yet.", es: "Dentro, pero aún sin certeza." }
    crew_missing(stations) { en: "Still to measure: {stations}.", es: "Falta medir: {stations}." }
    crew_uneven(thin, thick) { en: "Uneven: pinched at {thin}, too open at {thick}.", es: "Disparejo: aprieta en {thin}, abre en {thick}." }
    crew_pinched(thin) { en: "Uneven: pinched at {thin}.", es: "La mordaza aprieta de más en {thin}." }
    crew_too_open(thick) { en: "Uneven: too open at {thick}.", es: "Disparejo: muy abierto en {thick}." }
    crew_unread { en: "Measure the test piece at every arm.", es: "Mida la pieza de prueba en cada brazo." }
    crew_safe_then_lace { en: "Make safe first, then lace a test piece.", es: "Primero asegure; luego engrape." }
    crew_nothing_laced { en: "Lace a test piece first.", es: "Primero engrape una pieza de prueba." }
    crew_spread(spread, limit) { en: "Spread {spread}, limit {limit}.", es: "Diferencia {spread}, límite {limit}." }
    crew_manual_first { en: "Manual first.", es: "Primero el manual." }
    crew_safe_first { en: "First: power off, locked out, stored energy out, does not start, jaw open and blocked, pins out.", es: "Primero: sin corriente, candado, sin energía acumulada, no arranca, mordaza abierta y bloqueada, sin chavetas." }
    crew_safe_hands { en: "Before hands go in: power off, locked out, stored energy out, does not start, jaw open and blocked.", es: "Antes de meter las manos: sin corriente, candado, sin energía acumulada, no arranca, mordaza abierta y bloqueada." }
    crew_turn(turns) { en: "Then turn, in notches: {turns}.", es: "Luego gire, en ranuras: {turns}." }
    crew_facing(ways) { en: "Facing the rod end: {ways}.", es: "De frente a la punta del tirante: {ways}." }
    crew_first_then(first, turns) { en: "{first}; then {turns}.", es: "{first}; luego {turns}." }
    crew_first(first) { en: "{first}.", es: "{first}." }
    crew_turn_drawn { en: "Then turn the notches drawn.", es: "Luego gire las ranuras del dibujo." }
    crew_turned(turns) { en: "Then turned, in notches: {turns}.", es: "Se giró, en ranuras: {turns}." }
    crew_turned_drawn { en: "Then the nuts were turned as drawn.", es: "Después se giraron las tuercas como en el dibujo." }
    crew_pins_in { en: "Leave the nuts; pins back in.", es: "Deje las tuercas; ponga las chavetas." }
    crew_leave { en: "Leave the nuts alone.", es: "No toque las tuercas." }
    side_from_to(found, left, verdict, limit) { en: "From {found} to {left}: {verdict} {limit}.", es: "De {found} a {left}: {verdict} de {limit}." }
    side_turned(turns) { en: "Notches turned before {turns}.", es: "Ranuras giradas antes de {turns}." }
    side_turned_before(pass, turns) { en: "pass {pass}: {turns}", es: "pasada {pass}: {turns}" }
    crew_expected { en: "Expected, not measured.", es: "Se espera, sin medir." }
    crew_chance(ten) { en: "Expected: {ten} of 10 pieces pass.", es: "Se espera: pasan {ten} de 10 piezas." }
    crew_another { en: "Expected: probably another piece.", es: "Se espera: quizá otra pieza." }
    crew_one_piece(spread, limit) { en: "Spread about {spread}, limit {limit}.", es: "Dif. cerca de {spread}, límite {limit}." }
    crew_gap(factor) { en: "differences drawn ×{factor}; dots: not measured", es: "diferencias ×{factor}; puntos: sin medir" }
    crew_gap_before(factor) { en: "not measured, ×{factor}; 9 of 10 pieces lie in the shaded part, dashes: their average; line: before", es: "sin medir, ×{factor}; 9 de 10 piezas caen en lo sombreado, guiones: su promedio; línea: antes" }
    crew_gap_found(factor) { en: "differences drawn ×{factor}; line: as found; dots: not measured", es: "diferencias ×{factor}; línea: como estaba; puntos: sin medir" }
    crew_description(sentence) { en: "The jaws before and after: {sentence}", es: "Las mordazas antes y después: {sentence}" }
}
