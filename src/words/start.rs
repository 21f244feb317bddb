//! From the start of the program to the first reading.

texts! {
    // An example is never taken for somebody's press.
    example_strip { en: "Example, invented shop: nothing here is your press", es: "Ejemplo, taller inventado: nada de esto es su prensa" }
    start_own { en: "Start with your own press", es: "Comenzar con su propia prensa" }

    // The card of later starts.
    welcome_title { en: "What would you like to do?", es: "¿Qué quiere hacer?" }
    go_on_with(file) { en: "Go on with {file}", es: "Seguir con {file}" }
    look_at_example { en: "Look at an example", es: "Ver un ejemplo" }

    // A new session.
    arms_evenly { en: "First arm and spacing", es: "Primer brazo y separación" }
    arms_one_by_one { en: "One by one", es: "Uno por uno" }
    count_of_arms { en: "How many arms", es: "Cuántos brazos" }
    first_arm_at { en: "first at", es: "el primero en" }
    arm_spacing { en: "then every", es: "luego cada" }
    count_of_arms_expected(least, most, found) {
        en: "Enter {least} to {most} arms; “{found}” is not that.",
        es: "Escriba de {least} a {most} brazos; «{found}» no lo es."
    }
    sketch_of_jaw(arms) { en: "The jaw with {arms} arms", es: "La mordaza con {arms} brazos" }
}
