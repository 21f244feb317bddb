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
    check_one_knuckle { en: "One knuckle, ten times", es: "Un nudillo, diez veces" }
    check_two_lacings { en: "Two lacings, nothing turned", es: "Dos engrapados sin girar" }
    check_people { en: "Several knuckles, by one or more people", es: "Varios nudillos, una o más personas" }
    check_one_knuckle_how {
        en: "Mark one knuckle and measure it ten times. Take the gauge off and put it on again each time, without looking at the reading before.",
        es: "Marque un nudillo y mídalo diez veces. Quite y vuelva a poner el instrumento cada vez, sin mirar la lectura anterior."
    }
    check_two_lacings_how {
        en: "Measure three neighbouring knuckles at every arm, lace once more without turning a nut, and measure again. This tells gauge, knuckle and lacing apart.",
        es: "Mida tres nudillos vecinos en cada brazo, engrape otra vez sin girar ninguna tuerca y vuelva a medir. Así se separan instrumento, nudillo y engrapado."
    }
    check_people_how {
        en: "Mark the knuckles. Everybody measures all of them once, then all of them again, without seeing the other figures.",
        es: "Marque los nudillos. Cada persona los mide todos una vez y luego todos otra vez, sin ver los otros valores."
    }
    count_people { en: "People", es: "Personas" }
    count_rounds { en: "Rounds", es: "Rondas" }
    count_knuckles { en: "Knuckles", es: "Nudillos" }
    count_each { en: "Readings of each knuckle", es: "Lecturas de cada nudillo" }
    count_is(what, count) { en: "{what}: {count}", es: "{what}: {count}" }
    one_fewer(what) { en: "{what}: one fewer", es: "{what}: uno menos" }
    one_more(what) { en: "{what}: one more", es: "{what}: uno más" }
    check_reading(number) { en: "Reading {number}", es: "Lectura {number}" }
    check_lacing_heading(number) { en: "Lacing {number}", es: "Engrapado {number}" }
    check_knuckle_short(number) { en: "knuckle {number}", es: "nudillo {number}" }
    check_again { en: "again", es: "otra vez" }
    check_person_round(person, round) { en: "person {person}, round {round}", es: "persona {person}, ronda {round}" }
    check_at_lacing(arm, lacing, knuckle, reading) {
        en: "Arm {arm}, lacing {lacing}, knuckle {knuckle}, reading {reading}",
        es: "Brazo {arm}, engrapado {lacing}, nudillo {knuckle}, lectura {reading}"
    }
    check_at_person(person, round, knuckle) {
        en: "Person {person}, round {round}, knuckle {knuckle}",
        es: "Persona {person}, ronda {round}, nudillo {knuckle}"
    }
    check_empty(empty, all) {
        en: "{empty} of {all} readings are still missing.",
        es: "Faltan {empty} de {all} lecturas."
    }
    check_other_unit(place, unit) {
        en: "{place} looks typed in {unit}. Write the unit after the number.",
        es: "{place} parece escrita en {unit}. Escriba la unidad después del número."
    }
    check_slip(place) {
        en: "{place} is about ten times off the others. Is the decimal point in its place?",
        es: "{place} es unas diez veces distinta de las demás. ¿Está el punto decimal en su lugar?"
    }
    check_stray(place) {
        en: "{place} does not fit the others of that knuckle. If something went wrong, measure it again; if not, leave it.",
        es: "{place} no concuerda con las otras de ese nudillo. Si algo salió mal, mídala otra vez; si no, déjela."
    }
    check_all_equal {
        en: "All readings of a knuckle are equal: the gauge scatters less than its step can show. Its step is still reckoned with.",
        es: "Todas las lecturas de un nudillo son iguales: el instrumento se dispersa menos de lo que muestra su paso. El paso se sigue contando."
    }
    check_pasted_beyond {
        en: "What was pasted has more cells than there are from here on. Nothing was filled in.",
        es: "Lo pegado tiene más celdas de las que hay desde aquí. No se llenó nada."
    }
    check_result { en: "What comes out", es: "Qué resulta" }
    check_so_far(count) { en: "So far, from {count} readings:", es: "Hasta ahora, con {count} lecturas:" }
    check_repeatability(sd, share, dof) {
        en: "Repeatability: standard deviation {sd}, six of them {share} of the tolerance ({dof} degrees of freedom).",
        es: "Repetibilidad: desviación estándar {sd}, seis de ellas {share} de la tolerancia ({dof} grados de libertad)."
    }
    check_part(name, sd, share) { en: "{name}: {sd}, six of them {share} of the tolerance", es: "{name}: {sd}, seis de ellas {share} de la tolerancia" }
    check_part_lacing_next { en: "One knuckle of the next lacing", es: "Un nudillo del próximo engrapado" }
    check_row_readings { en: "One reading to the next", es: "De una lectura a otra" }
    check_row_people { en: "One person to the next", es: "De una persona a otra" }
    check_row_both { en: "Gauge and people together", es: "Instrumento y personas juntos" }
    check_row_knuckles { en: "One knuckle to the next", es: "De un nudillo a otro" }
    check_row_knuckle_here { en: "One knuckle to its neighbour", es: "De un nudillo a su vecino" }
    check_row_lacing { en: "One lacing to the next", es: "De un engrapado a otro" }
    check_shares {
        en: "Standard deviations, and six of them against the tolerance.",
        es: "Desviaciones estándar, y seis de ellas frente a la tolerancia."
    }
    check_use { en: "Use this", es: "Usar esto" }
    check_use_repeatability {
        en: "Sets the repeatability of the gauge.",
        es: "Fija la repetibilidad del instrumento."
    }
    check_use_lacing {
        en: "Sets repeatability and scatter from lacing to lacing.",
        es: "Fija la repetibilidad y la dispersión entre engrapados."
    }
    check_use_lacing_only {
        en: "Sets the scatter from lacing to lacing; every knuckle was read once, so nothing is said of the gauge alone.",
        es: "Fija la dispersión entre engrapados; cada nudillo se leyó una vez, así que nada se sabe del instrumento solo."
    }
    check_use_people {
        en: "Sets the repeatability of the gauge to what differs within one person's readings, by analysis of variance. That one person reads higher than another cancels in a spread: let one person measure a whole piece.",
        es: "Fija como repetibilidad lo que varía en las lecturas de una misma persona, por análisis de varianza. Que una persona lea más que otra se cancela en la diferencia: que una sola persona mida toda la pieza."
    }
    check_clear { en: "Clear what was typed", es: "Borrar lo escrito" }
    check_bring_back { en: "Bring back what was cleared", es: "Recuperar lo borrado" }
    check_back { en: "Back to the gauge", es: "Volver al instrumento" }
    check_kept {
        en: "What was typed is kept until it is used or cleared.",
        es: "Lo escrito se guarda hasta que se use o se borre."
    }
}
