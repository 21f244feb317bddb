//! From the start of the program to the first reading.

texts! {
    // An example is never taken for somebody's press.
    example_title { en: "Example:", es: "Ejemplo:" }
    example_strip { en: "Example, invented shop: nothing here is your press", es: "Ejemplo, taller inventado: nada de esto es su prensa" }
    start_own { en: "Start with your own press", es: "Comenzar con su propia prensa" }

    own_press { en: "Your own press", es: "Usar su prensa" }

    // The card of later starts.
    welcome_title { en: "What would you like to do?", es: "¿Qué quiere hacer?" }
    go_on_with(file) { en: "▶ Go on with {file}", es: "▶ Seguir con {file}" }
    last_visit(when, pass, stands) { en: "Visit of {when}, pass {pass}: {stands}", es: "Visita del {when}, pasada {pass}: {stands}" }
    last_locked_out { en: "Noted as locked out, and nothing laced since: see whether the lock is still on.", es: "La prensa quedó anotada con candado y desde entonces no se engrapó nada: revise si el candado sigue puesto." }
    last_not_locked_out { en: "Not noted as locked out: make it safe before hands go in.", es: "La prensa no está anotada con candado: asegúrela antes de meter las manos." }
    look_at_example { en: "Look at the example (Esc)", es: "Ver el ejemplo (Esc)" }

    // A new session.
    arms_evenly { en: "First arm and spacing", es: "Primer brazo y separación" }
    arms_one_by_one { en: "One by one", es: "Uno por uno" }
    count_of_arms { en: "How many arms", es: "Cuántos brazos" }
    first_arm_at { en: "First arm at", es: "Primer brazo en" }
    arm_spacing { en: "then one every", es: "luego uno cada" }
    count_of_arms_expected(least, most, found) {
        en: "How many arms: must be a whole number from {least} to {most}; this is “{found}”.",
        es: "Cuántos brazos: debe ser un número entero de {least} a {most}; aquí es «{found}»."
    }
    arms_stand { en: "How they are given", es: "Cómo se indican" }
    arms_from_left_end { en: "To the center of each arm, from the jaw's left end, as the operator sees it.", es: "Hasta el centro de cada brazo, desde la izquierda de la mordaza, como la ve el operador." }
    arms_even_hint { en: "From the jaw's left end, as the operator sees it. Leave both empty if the arms share the jaw evenly.", es: "Desde la izquierda de la mordaza, como la ve el operador. Deje vacíos los dos si los brazos se reparten parejo." }
    sketch_of_jaw(arms) { en: "The jaw with {arms} arms", es: "La mordaza con {arms} brazos" }
}
