//! Measuring the bare belt and turning the belt end round.

texts! {
    belt_section { en: "Belt and belt end", es: "Banda y su extremo" }
    belt_hint {
        en: "Bare belt beside the hooks, one thickness per station; leave it empty where it was not measured.",
        es: "Banda sola junto a los ganchos, un espesor por estación; déjelo vacío donde no se midió."
    }
    belt_at(station) { en: "Bare belt at {station}", es: "Banda sola en {station}" }
    belt_flipped {
        en: "The belt end lies the other way round than in the pass before",
        es: "El extremo de la banda está volteado respecto de la pasada anterior"
    }
    flip_how {
        en: "Lace the same belt end twice, once turned round, without turning a nut between: what turns round with the end is the belt's, what stays is the jaw's.",
        es: "Engrape dos veces el mismo extremo, una vez volteado, sin girar tuercas entre medio: lo que voltea con el extremo es de la banda, lo que queda es de la mordaza."
    }
    flip_turned_between {
        en: "Nuts or the handle were moved between the two passes: what they did is mixed into these figures.",
        es: "Entre las dos pasadas se movieron tuercas o la manija: lo que hicieron está mezclado en estos valores."
    }
}
