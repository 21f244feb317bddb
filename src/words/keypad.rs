//! What stands on the keypad and at the button that shows it.

texts! {
    readings_otherwise { en: "More ways to take readings", es: "Más formas de tomar lecturas" }
    keypad { en: "Keypad", es: "Teclado" }
    keypad_hint { en: "Large keys for readings, by finger or mouse", es: "Teclas grandes para las lecturas, con el dedo o el mouse" }
    keypad_next { en: "Next", es: "Siguiente" }
    keypad_next_to(station) { en: "Next: {station}", es: "Sigue: {station}" }
    keypad_back { en: "Delete the last figure", es: "Borrar la última cifra" }
    keypad_point { en: "Point", es: "Punto" }
    keypad_as { en: "as", es: "en" }
    keypad_unit(unit) { en: "in {unit}", es: "en {unit}" }
}
