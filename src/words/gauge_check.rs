//! What the window says about the gauge check.

use crate::splice::{GaugeStudy, SPREAD_OF_READINGS};
use crate::units::Length;

use super::Figures;

impl Figures {
    /// A standard deviation, and what six of it are of the tolerance.
    pub fn scatter_and_share(&self, sd_nm: f64, tolerance: Length) -> (String, String) {
        let share = SPREAD_OF_READINGS * sd_nm / tolerance.nm_f64();
        (self.uncertainty(sd_nm), self.share(share))
    }

    /// The parts of a check by several people, a row each: what it is, and
    /// standard deviation and share by either reckoning. One person says
    /// nothing about people.
    pub fn study_rows(
        &self,
        both: &[GaugeStudy; 2],
        people: usize,
        tolerance: Length,
    ) -> Vec<[String; 5]> {
        let words = self.language;
        let [range, variance] = both;
        let rows = [
            (
                words.check_row_readings(),
                [range.repeatability_nm, variance.repeatability_nm],
                true,
            ),
            (
                words.check_row_people(),
                [range.people_nm, variance.people_nm],
                people > 1,
            ),
            (
                words.check_row_both(),
                [range.gauge_nm, variance.gauge_nm],
                people > 1,
            ),
            (
                words.check_row_knuckles(),
                [range.knuckles_nm, variance.knuckles_nm],
                true,
            ),
        ];
        rows.into_iter()
            .filter(|(_, _, told)| *told)
            .map(|(name, [left, right], _)| {
                let (left, left_share) = self.scatter_and_share(left, tolerance);
                let (right, right_share) = self.scatter_and_share(right, tolerance);
                [name.to_owned(), left, left_share, right, right_share]
            })
            .collect()
    }

    /// What else the analysis of variance says, a sentence each.
    pub fn study_notes(&self, study: &GaugeStudy, people: usize) -> Vec<String> {
        let words = self.language;
        let mut notes = Vec::new();
        if let Some(categories) = study.categories() {
            notes.push(words.study_categories(categories));
        }
        match study.interaction.filter(|_| people > 1) {
            Some(interaction) if interaction.pooled => {
                notes.push(words.study_interaction_pooled().to_owned());
            }
            Some(_) => notes.push(words.study_interaction_kept().to_owned()),
            None => {}
        }
        if study.came_out_negative {
            notes.push(words.study_negative().to_owned());
        }
        notes
    }
}

texts! {
    gauge_check { en: "Check the gauge…", es: "Revisar el instrumento…" }
    gauge_check_title { en: "Gauge check", es: "Revisión del instrumento" }
    check_one_knuckle { en: "One knuckle, ten times", es: "Un ojillo, diez veces" }
    check_two_lacings { en: "Two lacings, nothing turned", es: "Dos engrapes sin girar" }
    check_people { en: "Several knuckles, by one or more people", es: "Varios ojillos, una o más personas" }
    check_one_knuckle_how {
        en: "On a laced piece out of the press mark one knuckle and measure it ten times. Take the gauge off and put it back each time, without looking at the reading before.",
        es: "En una pieza engrapada, fuera de la prensa, marque un ojillo y mídalo diez veces. Quite y vuelva a poner el instrumento cada vez, sin mirar la lectura anterior."
    }
    check_two_lacings_how {
        en: "Measure three neighboring knuckles at every arm, lace once more without turning a nut, and measure again. This separates gauge, knuckle and lacing.",
        es: "Mida tres ojillos vecinos en cada brazo, engrape otra vez sin girar ninguna tuerca y vuelva a medir. Así se separan instrumento, ojillo y engrape."
    }
    check_people_how {
        en: "Mark the knuckles. Each person measures all of them once, then all of them again, without seeing the other figures.",
        es: "Marque los ojillos. Cada persona los mide todos una vez y luego todos otra vez, sin ver los otros valores."
    }
    check_readings_in(unit) { en: "Readings, {unit}", es: "Lecturas, {unit}" }
    count_people { en: "People", es: "Personas" }
    count_rounds { en: "Rounds", es: "Rondas" }
    count_knuckles { en: "Knuckles", es: "Ojillos" }
    count_each { en: "Readings of each knuckle", es: "Lecturas de cada ojillo" }
    count_is(what, count) { en: "{what}: {count}", es: "{what}: {count}" }
    one_fewer(what) { en: "{what}: one fewer", es: "{what}: quitar 1" }
    one_more(what) { en: "{what}: one more", es: "{what}: agregar 1" }
    check_reading(number) { en: "Reading {number}", es: "Lectura {number}" }
    check_lacing_heading(number) { en: "Lacing {number}", es: "Engrape {number}" }
    check_knuckle_short(number) { en: "knuckle {number}", es: "ojillo {number}" }
    check_again { en: "again", es: "otra vez" }
    check_person_round(person, round) { en: "person {person}, round {round}", es: "persona {person}, ronda {round}" }
    check_at_lacing(arm, lacing, knuckle, reading) {
        en: "Arm {arm}, lacing {lacing}, knuckle {knuckle}, reading {reading}",
        es: "Brazo {arm}, engrape {lacing}, ojillo {knuckle}, lectura {reading}"
    }
    check_at_person(person, round, knuckle) {
        en: "Person {person}, round {round}, knuckle {knuckle}",
        es: "Persona {person}, ronda {round}, ojillo {knuckle}"
    }
    check_empty(empty, all) {
        en: "{empty} of {all} readings are still missing.",
        es: "Faltan {empty} de {all} lecturas."
    }
    check_other_unit(place, unit) {
        en: "{place} looks as if it was typed in {unit}. Type the unit after the number.",
        es: "{place} parece escrita en {unit}. Escriba la unidad después del número."
    }
    check_slip(place) {
        en: "{place} is about ten times the others, or a tenth. Is the decimal point in its place?",
        es: "{place} es unas diez veces mayor o menor que las demás. ¿Está el punto decimal en su lugar?"
    }
    check_stray(place) {
        en: "{place} does not fit the others of that knuckle. If something went wrong, measure it again; if not, leave it.",
        es: "{place} no concuerda con las otras de ese ojillo. Si algo salió mal, mídala otra vez; si no, déjela."
    }
    check_all_equal {
        en: "All readings of a knuckle are equal: the gauge varies less than its resolution can show. The resolution still counts.",
        es: "Todas las lecturas de un ojillo son iguales: el instrumento varía menos de lo que muestra su resolución. La resolución sigue contando."
    }
    check_pasted_beyond {
        en: "What you pasted has more cells than there is room for from here on. Nothing was filled in.",
        es: "Lo pegado tiene más celdas de las que caben desde aquí. No se llenó nada."
    }
    check_result { en: "What it shows", es: "Qué resulta" }
    check_so_far(count) { en: "So far, from {count} readings:", es: "Hasta ahora, con {count} lecturas:" }
    check_repeatability(sd, share) {
        en: "Repeatability {sd}: it uses up {share} of the tolerance.",
        es: "Repetibilidad {sd}: consume {share} de la tolerancia."
    }
    check_part(name, sd, share) { en: "{name}: {sd}, uses up {share} of the tolerance", es: "{name}: {sd}, consume {share} de la tolerancia" }
    check_part_lacing_next { en: "One knuckle of the next lacing", es: "Un ojillo del próximo engrape" }
    check_row_readings { en: "One reading to the next", es: "De una lectura a otra" }
    check_row_people { en: "One person to the next", es: "De una persona a otra" }
    check_row_both { en: "Gauge and people together", es: "Instrumento y personas juntos" }
    check_row_knuckles { en: "One knuckle to the next", es: "De un ojillo a otro" }
    check_row_knuckle_here { en: "One knuckle to its neighbor", es: "De un ojillo a su vecino" }
    check_row_lacing { en: "One lacing to the next", es: "De un engrape a otro" }
    check_shares {
        en: "How far readings vary, and how much of the tolerance that uses up.",
        es: "Cuánto varían las lecturas, y cuánto de la tolerancia consume eso."
    }
    check_use { en: "Use this repeatability", es: "Usar esta repetibilidad" }
    check_use_both { en: "Use both variations", es: "Usar ambas variaciones" }
    check_gives(now) { en: "After ten: the gauge's repeatability, and how much of the tolerance it uses up. Repeatability used now: {now}. Enter goes to the next.", es: "Con diez: la repetibilidad del instrumento y cuánto consume de la tolerancia. Repetibilidad en uso: {now}. Enter pasa a la siguiente." }
    check_show { en: "Show what was read", es: "Mostrar lo leído" }
    check_use_repeatability {
        en: "Sets the repeatability of the gauge.",
        es: "Fija la repetibilidad del instrumento."
    }
    check_use_lacing {
        en: "Sets repeatability and the variation from lacing to lacing.",
        es: "Fija la repetibilidad y la variación entre engrapes."
    }
    check_use_lacing_only {
        en: "Sets the variation from lacing to lacing. Every knuckle was measured once, so this tells nothing about the gauge alone.",
        es: "Fija la variación entre engrapes. Cada ojillo se midió una vez, así que nada se sabe del instrumento solo."
    }
    check_use_people {
        en: "Sets the repeatability from how far one person's readings vary. If one person reads higher than another, that cancels in the spread: let one person measure a whole piece.",
        es: "Fija la repetibilidad según cuánto varían las lecturas de una misma persona. Que una persona lea más alto que otra se cancela en la diferencia: que una sola persona mida toda la pieza."
    }
    check_clear { en: "Clear what was typed", es: "Borrar lo escrito" }
    check_bring_back { en: "Bring back what was cleared", es: "Recuperar lo borrado" }
    check_back { en: "Back to the gauge", es: "Volver al instrumento" }
}
