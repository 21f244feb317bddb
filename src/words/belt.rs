//! Measuring the bare belt and turning the belt end round.

texts! {
    belt_section { en: "Belt and belt end", es: "Banda y su extremo" }
    belt_hint {
        en: "Bare belt beside the hooks, one thickness per measuring point; leave empty what was not measured.",
        es: "Banda sin ganchos, junto a los ganchos: un espesor por punto de medición; deje vacío lo que no se midió."
    }
    belt_at(station) { en: "Bare belt at {station}", es: "Banda sin ganchos en {station}" }
    belt_flipped {
        en: "Belt turned end for end since the pass before",
        es: "Banda volteada de lado a lado desde la pasada anterior"
    }
    flip_how {
        en: "Lace the same belt end twice, once turned end for end, without turning a nut in between. What changes sides comes from the belt; what stays comes from the jaws.",
        es: "Engrape dos veces el mismo extremo, una vez volteado de lado a lado, sin girar tuercas entre una y otra. Lo que cambia de lado con el extremo viene de la banda; lo que se queda viene de las mordazas."
    }
    flip_turned_between {
        en: "Nuts or the common handle were moved between the two passes: their effect is mixed into these figures.",
        es: "Entre las dos pasadas se movieron tuercas o la manija común: su efecto está mezclado en estos valores."
    }
}
