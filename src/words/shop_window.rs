//! The shop in the window: its presses, finding visits, the book of a press.

use crate::press::ArmIndex;
use crate::session::{Answers, Stands};
use crate::shop::{
    ChangedAnswer, FEWEST_COMPARED, FEWEST_FOUND, Gain, NINETY_FIVE, Need, Pair, PressBook, Taught,
    Trend, VisitSummary,
};

use super::shop::MONTH;
use super::{Figures, Language};

/// Decimals of a notch's answer beyond those of a mean: it is the slope of many.
const FINER: u32 = 1;

impl Language {
    /// How the last piece of a visit stood.
    pub fn shop_stands(self, stands: Stands) -> &'static str {
        match stands {
            Stands::Inside => self.shop_inside(),
            Stands::Outside => self.shop_outside(),
            Stands::Open => self.shop_open(),
            Stands::Unread | Stands::NotLaced => self.shop_not_read(),
        }
    }

    /// A press by its name.
    pub fn press_name(self, name: &str) -> String {
        match name {
            "" => self.unnamed_press().to_owned(),
            name => name.to_owned(),
        }
    }
}

impl Language {
    /// Why a press wants looking at.
    pub fn need(self, need: Need) -> String {
        match need {
            Need::LeftOutside => self.press_outside().to_owned(),
            Need::FoundOutside => self.press_not_finished().to_owned(),
            Need::NotMeasuredSince => self.press_not_since().to_owned(),
            Need::CheckDue(day) => self.press_due(day),
            Need::Worse => self.press_worse().to_owned(),
            Need::NotMeasured => self.press_not_measured().to_owned(),
            Need::EveryVisit => self.press_every_visit().to_owned(),
            Need::CheckBy(day) => self.press_check_by(day),
        }
    }

    /// When to look at a press, in a line.
    pub fn press_when(self, book: &PressBook, needs: &[Need]) -> String {
        match (needs.is_empty(), &book.drift) {
            (false, _) => {
                let needs = needs.iter().map(|need| self.need(*need));
                needs.collect::<Vec<_>>().join("; ")
            }
            (true, Err(_)) => self.press_when_unknown().to_owned(),
            (true, Ok(_)) => self.press_no_check().to_owned(),
        }
    }
}

/// A few words as a sentence of their own.
pub fn as_sentence(words: &str) -> String {
    let mut letters = words.chars();
    let first = letters.next().map(char::to_uppercase);
    let mut sentence: String = first.into_iter().flatten().collect();
    sentence.push_str(letters.as_str());
    sentence.push('.');
    sentence
}

impl Figures {
    /// Whether a press gets worse or drifts, in a few words.
    pub fn trend_short(&self, book: &PressBook) -> String {
        let words = self.language;
        let trend = Trend::of(&book.visits);
        let drift = book.drift.as_ref().ok().map(|drift| drift.fastest);
        match (trend, drift.filter(Pair::is_sure)) {
            (Some(trend), _) if trend.is_worse() => words.press_worse().to_owned(),
            (_, Some(pair)) => words.trend_drifts(
                book.station_name(pair.growing),
                book.station_name(pair.shrinking),
                self.with_unit(&self.nm(pair.rate_nm * MONTH, self.mean_decimals())),
            ),
            (None, None) => words.trend_unknown().to_owned(),
            (Some(_), None) => words.trend_steady().to_owned(),
        }
    }
}

impl Figures {
    /// The figures as a visit has them.
    pub fn of_visit(&self, visit: &VisitSummary) -> Self {
        Self {
            step: visit.step,
            limit: Some(visit.tolerance),
            ..*self
        }
    }

    /// How the spread as found changes over time.
    pub fn trend_sentence(&self, trend: Option<Trend>) -> String {
        let words = self.language;
        let Some(trend) = trend else {
            return words.trend_too_few(FEWEST_FOUND);
        };
        let of = |nm: f64| self.with_unit(&self.nm(nm, self.mean_decimals()));
        let (a_year, half) = (of(trend.a_year_nm), of(trend.half_nm));
        match trend.is_worse() {
            true => words.trend_worse(a_year, half),
            false => words.trend_not_worse(a_year, half),
        }
    }

    /// What the sessions of a press taught.
    pub fn taught_sentences(&self, taught: &Taught) -> Vec<String> {
        let words = self.language;
        let mut all = Vec::new();
        if let Some(repaired) = &taught.record.repaired {
            all.push(words.taught_repaired(repaired, taught.before_repair));
        }
        match taught.answers.last() {
            None => all.push(words.taught_nothing_yet().to_owned()),
            Some(last) => {
                let answers = last.per_notch_nm.iter().enumerate().map(|(arm, (nm, sd))| {
                    let arm = crate::press::ArmIndex(arm);
                    words.taught_answer(arm, self.fine(*nm), self.fine(NINETY_FIVE * sd))
                });
                let answers: Vec<String> = answers.collect();
                all.push(words.taught_answers(taught.answers.len(), answers.join(", ")));
            }
        }
        all.extend(taught.changed.iter().map(|changed| self.changed(changed)));
        if taught.changed.is_none() && taught.answers.len() > 1 {
            all.push(words.taught_unchanged().to_owned());
        }
        all.push(self.gain(taught.gain));
        all
    }

    fn fine(&self, nm: f64) -> String {
        self.with_unit(&self.nm(nm, self.mean_decimals() + FINER))
    }

    fn changed(&self, changed: &ChangedAnswer) -> String {
        let words = self.language;
        let (was, is) = (self.fine(changed.was_nm), self.fine(changed.is_nm));
        let half = self.fine(changed.half_nm);
        let since = &changed.since;
        match changed.is_nm.abs() < changed.was_nm.abs() {
            true => words.taught_answers_less(changed.arm, was, is, half, since),
            false => words.taught_answers_more(changed.arm, was, is, half, since),
        }
    }

    fn gain(&self, gain: Option<Gain>) -> String {
        let words = self.language;
        let Some(gain) = gain else {
            return words.gain_too_few(FEWEST_COMPARED);
        };
        let of = |nm: f64| self.with_unit(&self.nm(nm, self.mean_decimals()));
        let half = of(gain.half_nm);
        if gain.is_sure() {
            words.gain_is(gain.visits, of(gain.nm), half)
        } else if gain.nm < -gain.half_nm {
            words.gain_is_loss(gain.visits, of(-gain.nm), half)
        } else {
            words.gain_unsure(gain.visits, of(gain.nm), half)
        }
    }

    /// What a chart of spreads over time shows, in a sentence.
    pub fn spreads_sentence(&self, book: &PressBook) -> String {
        let words = self.language;
        let Some(last) = book.visits.last() else {
            return String::new();
        };
        words.book_spreads_say(&last.when, self.outcome(last), self.limit(last.tolerance))
    }

    /// What the picture of the jaw shows, in a sentence: how the last visit left
    /// it, else how it found it.
    pub fn jaw_sentence(&self, book: &PressBook) -> String {
        let words = self.language;
        let Some(last) = book.visits.last() else {
            return String::new();
        };
        let known = last.left_nm.iter().enumerate();
        let known = known.filter_map(|(station, nm)| Some((station, (*nm)?)));
        let known: Vec<(usize, f64)> = known.collect();
        let by_nm = |a: &&(usize, f64), b: &&(usize, f64)| a.1.total_cmp(&b.1);
        let (Some(thick), Some(thin)) = (known.iter().max_by(by_nm), known.iter().min_by(by_nm))
        else {
            return words.book_jaw_unknown().to_owned();
        };
        let apart = self.with_unit(&self.predicted(thick.1 - thin.1));
        let (thick, thin) = (book.station_name(thick.0), book.station_name(thin.0));
        words.book_jaw_says(thick, thin, apart)
    }

    /// What the picture of the nuts' answers shows, in a sentence.
    pub fn answers_sentence(&self, last: &Answers) -> String {
        let words = self.language;
        let arms = || (0..).map(ArmIndex).zip(&last.per_notch_nm);
        let by_nm =
            |a: &(ArmIndex, &(f64, f64)), b: &(ArmIndex, &(f64, f64))| a.1.0.total_cmp(&b.1.0);
        match (arms().max_by(by_nm), arms().min_by(by_nm)) {
            (Some((most, (strong, _))), Some((least, (weak, _)))) => {
                words.book_answers_say(most, self.fine(*strong), least, self.fine(*weak))
            }
            _ => String::new(),
        }
    }
}

texts! {
    command_shop { en: "The shop: presses and sessions", es: "El taller: prensas y sesiones" }
    shop_title { en: "The shop", es: "El taller" }
    shop_folder { en: "Folder…", es: "Carpeta…" }
    shop_choose { en: "Choose the shop's folder", es: "Elegir la carpeta del taller" }
    shop_choose_text {
        en: "Choose the folder that holds the shop's sessions, on this computer or shared. Its sessions are only read; upkeep you note is kept there in a file of its own, upkeep.ron.",
        es: "Elija la carpeta con las sesiones del taller, en esta computadora o compartida. Sus sesiones solo se leen; el mantenimiento que anote se guarda ahí en un archivo aparte, upkeep.ron."
    }
    shop_back { en: "Back to the visit", es: "Volver a la visita" }
    shop_to_presses { en: "All presses", es: "Todas las prensas" }
    shop_look_now { en: "Look again now", es: "Revisar ahora" }
    shop_reading(read, of) { en: "Reading {read} of {of} files …", es: "Leyendo {read} de {of} archivos …" }
    shop_reading_begins { en: "Reading the folder …", es: "Leyendo la carpeta …" }
    shop_closed(why) { en: "{why} What is shown is from before; it is tried again.", es: "{why} Lo que se ve es de antes; se intenta otra vez." }
    shop_page_presses { en: "Presses", es: "Prensas" }
    shop_page_find { en: "Find", es: "Buscar" }
    shop_page_files(number) { en: "Files not counted: {number}", es: "Archivos sin contar: {number}" }
    shop_empty { en: "No session stands in this folder yet. Save one there and it shows here.", es: "Todavía no hay sesiones en esta carpeta. Guarde una ahí y aparece aquí." }
    shop_all_counted { en: "Every session file could be read, and there is no practice in the folder.", es: "Todos los archivos de sesiones se pudieron leer y no hay práctica en la carpeta." }
    shop_more(number) { en: "{number} more. Look for something narrower.", es: "Hay {number} más. Busque algo más preciso." }

    // A press in the list.
    press_due(day) { en: "check was due by {day}", es: "la revisión tocaba a más tardar el {day}" }
    press_check_by(day) { en: "next check by {day}", es: "próxima revisión a más tardar el {day}" }
    press_worse { en: "getting worse", es: "va empeorando" }
    press_outside { en: "left outside", es: "quedó fuera" }
    press_not_finished { en: "found outside, not finished", es: "estaba fuera, sin terminar" }
    press_not_since { en: "last piece not measured", es: "última pieza sin medir" }
    press_not_measured { en: "last visit not measured through", es: "última visita sin medir completa" }
    press_every_visit { en: "a piece may be outside at any time: check at every visit", es: "una pieza puede quedar fuera en cualquier momento: revise en cada visita" }
    press_when_unknown { en: "too little known to say when to check", es: "se sabe muy poco para decir cuándo revisar" }
    press_no_check { en: "no check due", es: "no toca revisar" }
    trend_drifts(grows, against, rate) { en: "drifts: {grows} against {against}, {rate} in 30 days", es: "se desajusta: {grows} frente a {against}, {rate} cada 30 días" }
    trend_unknown { en: "trend: too few visits", es: "tendencia: muy pocas visitas" }
    trend_steady { en: "not getting worse for sure", es: "no es seguro que empeore" }
    press_visits(day, visits) { en: "last {day}; visits {visits}", es: "última {day}; visitas {visits}" }
    press_no_day { en: "without a date", es: "sin fecha" }
    press_a_month(pieces, hours) { en: "a month: pieces {pieces}, hours {hours}", es: "al mes: piezas {pieces}, horas {hours}" }
    press_upkeep_due(number) { en: "upkeep due: {number}", es: "mantenimiento que toca: {number}" }
    press_look_next(press) { en: "Look at {press} next", es: "Revise ahora: {press}" }
    press_look_why(why) { en: "Why: {why}.", es: "Por qué: {why}." }
    press_look_calm(press, day) { en: "By what the visits say nothing is due. Longest without a visit: {press}, {day}.", es: "Según las visitas no toca nada. Más tiempo sin visita: {press}, {day}." }
    press_open_book { en: "Open its book", es: "Abrir su libro" }
    press_sort { en: "Sort by", es: "Ordenar por" }
    press_sort_need { en: "what is due", es: "lo que toca" }
    press_sort_name { en: "name", es: "nombre" }
    press_sort_last { en: "last visit", es: "última visita" }
    column_press { en: "Press", es: "Prensa" }
    column_pictures { en: "Jaw; spreads ○ found ● left", es: "Mordaza; diferencias ○ inicial ● final" }
    column_ended { en: "How the last visit ended", es: "Cómo terminó la última visita" }
    column_when { en: "When to look, and why", es: "Cuándo revisar y por qué" }
    shop_upkeep_now(number) { en: "Upkeep past its interval: {number}", es: "Mantenimiento atrasado: {number}" }
    shop_upkeep_none { en: "No recorded upkeep is past its interval.", es: "Nada del mantenimiento registrado está atrasado." }
    shop_upkeep_open { en: "Open the upkeep", es: "Abrir el mantenimiento" }
    shop_upkeep_of { en: "Upkeep of this press", es: "Mantenimiento de esta prensa" }
    book_spreads_say(when, ended, limit) { en: "{when}: {ended}; tolerance {limit}.", es: "{when}: {ended}; tolerancia {limit}." }
    book_jaw_says(thick, thin, apart) { en: "At the last piece {thick} was thickest and {thin} thinnest, {apart} apart.", es: "En la última pieza {thick} fue el más grueso y {thin} el más delgado, con {apart} entre ellos." }
    book_jaw_unknown { en: "The last visit measured too little to draw its jaw.", es: "La última visita midió muy poco para dibujar la mordaza." }
    book_answers_say(most, strong, least, weak) { en: "A notch does most at {most}, {strong}, and least at {least}, {weak}.", es: "Una ranura hace más en {most}, {strong}, y menos en {least}, {weak}." }
    press_and(name, what) { en: "{name}: {what}", es: "{name}: {what}" }

    // Months.
    shop_months { en: "Pieces and hours by month", es: "Piezas y horas por mes" }
    shop_month(month, pieces, hours, visits) { en: "{month}: test pieces {pieces}, hours {hours}, visits {visits}", es: "{month}: piezas de prueba {pieces}, horas {hours}, visitas {visits}" }
    shop_hours_are { en: "Hours are those that the sessions calculate for pieces and turns.", es: "Las horas son las que calculan las sesiones para piezas y giros." }

    // Finding.
    find_words { en: "Words", es: "Palabras" }
    find_press { en: "Press", es: "Prensa" }
    find_who { en: "Who", es: "Quién" }
    find_when { en: "When", es: "Cuándo" }
    find_belt { en: "Belt", es: "Banda" }
    find_result { en: "Result", es: "Resultado" }
    find_any { en: "any", es: "cualquiera" }
    find_clear { en: "Clear", es: "Borrar" }
    find_found(number) { en: "Visits found: {number}", es: "Visitas encontradas: {number}" }
    shop_inside { en: "inside", es: "dentro" }
    shop_outside { en: "outside", es: "fuera" }
    shop_open { en: "something missing", es: "falta algo" }
    shop_not_read { en: "not measured", es: "sin medir" }

    // The book of a press.
    book_next_visit { en: "Start the next visit", es: "Comenzar la próxima visita" }
    book_visits { en: "Visits: press one to open it", es: "Visitas: oprima una para abrirla" }
    book_jaw { en: "The jaw as left, visit by visit; dashed: as last found", es: "La mordaza como quedó, visita por visita; a rayas: como se encontró la última vez" }
    book_spreads { en: "Spread as found (○) and as left (●) over time", es: "Diferencia inicial (○) y final (●) en el tiempo" }
    book_answers { en: "What one notch does at its own arm, visit by visit", es: "Lo que hace una ranura en su propio brazo, visita por visita" }
    book_jaw_picture(press, visits) { en: "The jaw of {press} over {visits} visits", es: "La mordaza de {press} en {visits} visitas" }
    book_spreads_picture(found, left, limit) { en: "Spreads over time. As found: {found}. As left: {left}. Tolerance {limit}.", es: "Diferencias en el tiempo. Inicial: {found}. Final: {left}. Tolerancia {limit}." }
    book_as_found { en: "as found", es: "inicial" }
    book_as_left { en: "as left", es: "final" }
    book_drift { en: "Drift", es: "Desajuste" }
    book_taught { en: "What the visits taught", es: "Lo que enseñaron las visitas" }
    book_nuts { en: "Nuts and travel left", es: "Tuercas y recorrido que queda" }
    book_of_press(visits, pieces, minutes, people) { en: "Visits {visits}, test pieces {pieces}, about {minutes} minutes. Worked on by {people}.", es: "Visitas {visits}, piezas de prueba {pieces}, unos {minutes} minutos. Trabajaron {people}." }
    book_gone { en: "This press is no longer in the folder.", es: "Esta prensa ya no está en la carpeta." }
    book_repaired(when, what) { en: "{when}: repaired before this visit: {what}", es: "{when}: reparado antes de esta visita: {what}" }
    shop_nothing_taught { en: "No visit of this press can be learned from, so none was started. Open a session of it, or start with New.", es: "De ninguna visita de esta prensa se puede aprender, así que no se comenzó ninguna. Abra una sesión de ella o comience con Nueva." }

    trend_too_few(fewest) { en: "Whether it gets worse: too little to say before {fewest} visits with dates.", es: "Si va empeorando: muy poco para decirlo antes de {fewest} visitas con fecha." }
    trend_worse(a_year, half) { en: "It gets worse: the spread as found grows by {a_year} a year, ± {half} (95 %).", es: "Va empeorando: la diferencia inicial crece {a_year} al año, ± {half} (95 %)." }
    trend_not_worse(a_year, half) { en: "Not getting worse for sure: the spread as found changes by {a_year} a year, ± {half} (95 %).", es: "No es seguro que empeore: la diferencia inicial cambia {a_year} al año, ± {half} (95 %)." }

    taught_repaired(what, before) { en: "Repaired: {what}. Learning began anew there; visits from before: {before}.", es: "Reparado: {what}. Desde ahí se aprende de nuevo; visitas de antes: {before}." }
    taught_nothing_yet { en: "How the press answers is not learned yet. It takes a visit with two measured pieces; invented examples teach nothing.", es: "Todavía no se ha aprendido cómo responde la prensa. Hace falta una visita con dos piezas medidas; los ejemplos inventados no enseñan nada." }
    taught_answer(arm, nm, half) { en: "{arm} {nm} ± {half}", es: "{arm} {nm} ± {half}" }
    taught_answers(visits, answers) { en: "One notch OUT thickens the splice at its own arm by (95 %, visits {visits}): {answers}.", es: "Una ranura al ABRIR engruesa el empalme en su propio brazo en (95 %, visitas {visits}): {answers}." }
    taught_answers_less(arm, was, is, half, since) { en: "{arm} answers less since {since}: {was} a notch before, {is} now, ± {half} (95 %). Check its rod, nut and pin before turning on it.", es: "{arm} responde menos desde {since}: {was} por ranura antes, {is} ahora, ± {half} (95 %). Revise su tirante, tuerca y pasador antes de girarla." }
    taught_answers_more(arm, was, is, half, since) { en: "{arm} answers more since {since}: {was} a notch before, {is} now, ± {half} (95 %). Check the rods and nuts beside it before turning on it.", es: "{arm} responde más desde {since}: {was} por ranura antes, {is} ahora, ± {half} (95 %). Revise los tirantes y tuercas de al lado antes de girarla." }
    taught_unchanged { en: "No nut answers otherwise than it did, beyond what is uncertain.", es: "Ninguna tuerca responde distinto que antes, más allá de lo incierto." }
    gain_too_few(fewest) { en: "Gain: too little to say before {fewest} visits with two measured pieces and turns between.", es: "Ganancia: muy poco para decirla antes de {fewest} visitas con dos piezas medidas y giros entre ellas." }
    gain_is(visits, nm, half) { en: "Gain: over {visits} visits the piece after the first turns had a spread smaller by {nm} than turning every arm up to the thickest would be expected to leave, ± {half} (95 %, with what is unknown of the press).", es: "Ganancia: en {visits} visitas la pieza después de los primeros giros tuvo una diferencia menor en {nm} que la esperada al llevar cada brazo hasta el más grueso, ± {half} (95 %, con lo que no se sabe de la prensa)." }
    gain_is_loss(visits, nm, half) { en: "Over {visits} visits the piece after the first turns had a spread larger by {nm} than turning every arm up to the thickest would be expected to leave, ± {half} (95 %, with what is unknown of the press).", es: "En {visits} visitas la pieza después de los primeros giros tuvo una diferencia mayor en {nm} que la esperada al llevar cada brazo hasta el más grueso, ± {half} (95 %, con lo que no se sabe de la prensa)." }
    gain_unsure(visits, nm, half) { en: "Gain: none for sure. Over {visits} visits the piece after the first turns differed by {nm} from what turning every arm up to the thickest would be expected to leave, ± {half} (95 %, with what is unknown of the press).", es: "Ganancia: ninguna segura. En {visits} visitas la pieza después de los primeros giros se apartó {nm} de la esperada al llevar cada brazo hasta el más grueso, ± {half} (95 %, con lo que no se sabe de la prensa)." }
}
