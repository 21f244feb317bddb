//! The shop in the window: its presses, finding visits, the book of a press.

use crate::session::{IsoDate, Stands};
use crate::shop::{
    ChangedAnswer, FEWEST_COMPARED, FEWEST_FOUND, Gain, NINETY_FIVE, Need, Outcome, Pair,
    PressBook, Taught, Trend, VisitSummary,
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

    /// How a visit ended, in a word or three, with a sign.
    pub fn ended_short(self, outcome: Outcome) -> String {
        let (sign, word) = match outcome {
            Outcome::InsideAsFound | Outcome::LeftInside => ("✓", self.shop_inside()),
            Outcome::LeftOutside => ("⚠", self.shop_outside()),
            Outcome::MeasuredOnce => ("⚠", self.press_not_finished()),
            Outcome::NotMeasuredSince => ("⚠", self.press_not_since()),
            Outcome::Missing => ("?", self.shop_open()),
            Outcome::NotMeasured => ("–", self.shop_not_read()),
        };
        format!("{sign} {word}")
    }

    /// The page of the folder, with how many files of it could not be read.
    pub fn shop_page_folder(self, unread: usize) -> String {
        match unread {
            0 => self.shop_page_folder_read().to_owned(),
            unread => self.shop_page_folder_unread(unread),
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

/// What is said first of the presses of a shop.
pub struct ShopHeadline {
    /// What is to be done.
    pub sentence: String,
    /// The press to begin with, and why; none where nothing is known of any.
    pub first: Option<String>,
}

impl Figures {
    /// What is said first of presses in the order of their needs: the worst
    /// thing that is true of any.
    pub fn shop_headline(
        &self,
        books: &[PressBook],
        presses: &[(usize, Vec<Need>)],
        today: Option<IsoDate>,
    ) -> ShopHeadline {
        let words = self.language;
        let of = presses.len();
        let with = |wanted: &dyn Fn(Need) -> bool| {
            let with = presses.iter();
            with.filter(|(_, needs)| needs.iter().any(|need| wanted(*need)))
                .count()
        };
        let checks = with(&Need::asks_check);
        let late = with(&|need| matches!(need, Need::UpkeepLate(_)));
        let unknown = with(&|need| matches!(need, Need::UpkeepUnknown(_)));
        let every_visit = with(&|need| need == Need::EveryVisit);
        let first = presses.first();
        let first = first.and_then(|(at, needs)| Some((books.get(*at)?, needs)));
        let sentence = match first {
            Some((book, _)) if checks == 1 => words.head_check_one(words.press_name(&book.press)),
            _ if checks > 0 && checks == of => words.head_check_all(of),
            _ if checks > 0 => words.head_check_some(checks, of),
            _ if late > 0 => words.head_upkeep_late(late, of),
            _ if unknown > 0 => words.head_upkeep_unknown(unknown, of),
            _ if every_visit > 0 => words.head_every_visit(every_visit, of),
            _ => words.head_calm().to_owned(),
        };
        let first = first.map(|(book, needs)| {
            let name = words.press_name(&book.press);
            let (pressing, _) = Need::pressing(needs);
            words.press_first(name, self.press_when(book, pressing, today))
        });
        ShopHeadline { sentence, first }
    }

    /// When to look at a press and why, in a line.
    pub fn press_when(&self, book: &PressBook, needs: &[Need], today: Option<IsoDate>) -> String {
        let words = self.language;
        match (needs.is_empty(), &book.drift) {
            (false, _) => self.press_whys(book, needs, today).join("; "),
            (true, Err(_)) => words.press_when_unknown().to_owned(),
            (true, Ok(_)) => words.press_no_check().to_owned(),
        }
    }

    /// Why a press wants looking at, reason by reason.
    pub fn press_whys(
        &self,
        book: &PressBook,
        needs: &[Need],
        today: Option<IsoDate>,
    ) -> Vec<String> {
        let needs = needs.iter();
        needs.map(|need| self.need(book, *need, today)).collect()
    }

    /// What is to be done at a press before it works, in a few words; none where
    /// nothing is.
    pub fn press_act(&self, book: &PressBook, needs: &[Need]) -> Option<String> {
        let words = self.language;
        let mut checks = needs.iter().filter(|need| need.asks_check()).peekable();
        checks.peek()?;
        let nut = book.changed.as_ref();
        let nut = nut.filter(|_| checks.any(|need| *need == Need::AnswerChanged));
        Some(match nut {
            Some(changed) => words.press_act_nut(changed.arm),
            None => words.press_act_piece().to_owned(),
        })
    }

    /// Why a press wants looking at.
    fn need(&self, book: &PressBook, need: Need, today: Option<IsoDate>) -> String {
        let words = self.language;
        let of_last = book.visits.last().map_or(*self, |last| self.of_visit(last));
        let ago = |day: IsoDate| today.map_or(0, |today| today.day_number() - day.day_number());
        match need {
            Need::AnswerChanged => {
                let changed = book.changed.as_ref();
                changed.map_or_else(String::new, |changed| of_last.changed(changed))
            }
            Need::LeftOutside => words.press_outside().to_owned(),
            Need::FoundOutside => words.press_not_finished().to_owned(),
            Need::NotMeasuredSince => words.press_not_since().to_owned(),
            Need::Drifted(parted) => {
                let pair = book.drift.as_ref().map(|drift| drift.fastest);
                let pair = pair.unwrap_or_default();
                // It is a guess; a mean's last decimal says too much.
                let decimals = of_last.mean_decimals().saturating_sub(1);
                let parted = parted.0 as f64;
                let half = parted * pair.half_nm / pair.rate_nm;
                words.press_drifted(
                    book.station_name(pair.growing),
                    book.station_name(pair.shrinking),
                    of_last.nm(parted - half, decimals),
                    of_last.with_unit(&of_last.nm(parted + half, decimals)),
                )
            }
            Need::CheckDue(due) => words.press_due(due),
            Need::Unchecked(Some(last)) => words.press_unchecked(ago(last), last),
            Need::Unchecked(None) => words.press_never_checked().to_owned(),
            Need::Worse => words.press_worse().to_owned(),
            Need::NotMeasured => words.press_not_measured().to_owned(),
            Need::UpkeepLate(tasks) => words.press_upkeep_late(tasks.0),
            Need::UpkeepUnknown(tasks) => words.press_upkeep_unknown(tasks.0),
            Need::EveryVisit => words.press_every_visit().to_owned(),
            Need::CheckBy(day) => words.press_check_by(day),
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
        if let Some(changed) = &taught.changed {
            let [was, is, half] =
                [changed.was_nm, changed.is_nm, changed.half_nm].map(|nm| self.fine(nm));
            let since = &changed.since;
            all.push(as_sentence(&self.changed(changed)));
            all.push(words.taught_answers_changed(changed.arm, was, is, half, since));
        }
        if taught.changed.is_none() && taught.answers.len() > 1 {
            all.push(words.taught_unchanged().to_owned());
        }
        all.push(self.gain(taught.gain));
        all
    }

    /// What a notch does and half its interval of 95 %.
    pub fn answer(&self, nm: f64, half_nm: f64) -> String {
        let of = |nm| self.nm(nm, self.mean_decimals());
        self.language
            .book_answer(of(nm), self.with_unit(&of(half_nm)))
    }

    fn fine(&self, nm: f64) -> String {
        self.with_unit(&self.nm(nm, self.mean_decimals() + FINER))
    }

    /// A nut that answers otherwise than it did.
    pub fn changed(&self, changed: &ChangedAnswer) -> String {
        let words = self.language;
        let since = &changed.since;
        let by = changed.is_nm.abs() / changed.was_nm.abs() - 1.0;
        let share = self.share(by.abs());
        let of = |nm: f64| self.nm(nm, self.mean_decimals());
        let (was, is) = (of(changed.was_nm), self.with_unit(&of(changed.is_nm)));
        match by < 0.0 {
            true => words.taught_answers_less(changed.arm, share, since, was, is),
            false => words.taught_answers_more(changed.arm, share, since, was, is),
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
        let limit = self.limit(last.tolerance);
        words.book_jaw_says(&last.when, thick, thin, apart, limit)
    }
}

texts! {
    command_shop { en: "The shop: presses and visits", es: "El taller: prensas y visitas" }
    shop_title { en: "The shop", es: "El taller" }
    shop_folder { en: "The shop's folder", es: "La carpeta del taller" }
    shop_folder_read(files, time) { en: "Files found: {files}, last looked through on {time}", es: "Archivos encontrados: {files}, revisados por última vez el {time}" }
    shop_open_folder { en: "Open the folder", es: "Abrir la carpeta" }
    shop_show_in_folder { en: "Show in its folder", es: "Mostrar en su carpeta" }
    shop_no_folder_window(path) { en: "No program here shows folders. It is {path}.", es: "Aquí ningún programa muestra carpetas. Es {path}." }
    shop_choose { en: "Choose the shop's folder…", es: "Elegir la carpeta del taller…" }
    shop_choose_other { en: "Choose another folder…", es: "Elegir otra carpeta…" }
    shop_choose_title { en: "Where does the shop save its visits?", es: "¿Dónde guarda el taller sus visitas?" }
    shop_presses_show { en: "Which press to check first, and why. Each press has its book: what it drifted, what one notch does, how much thread is left.", es: "Qué prensa revisar primero y por qué. Cada prensa tiene su libro: cuánto se ha movido, qué hace una ranura, cuánta rosca queda." }
    shop_find_shows { en: "Any visit, by press, belt, day or name.", es: "Cualquier visita, por prensa, banda, día o nombre." }
    shop_upkeep_shows { en: "What is due on which press, and who did it when.", es: "Qué toca en qué prensa, y quién lo hizo y cuándo." }
    shop_choose_text {
        en: "Choose the folder, on this computer or shared. Visits are only read; upkeep you note is kept there in a file of its own, upkeep.ron.",
        es: "Elija la carpeta, en esta computadora o compartida. Las visitas solo se leen; el mantenimiento que anote se guarda ahí en un archivo aparte, upkeep.ron."
    }
    shop_back { en: "Back to the visit", es: "Volver a la visita" }
    shop_to_presses { en: "All presses", es: "Todas las prensas" }
    shop_look_now { en: "Read it again", es: "Leerla otra vez" }
    shop_reading(read, of) { en: "Reading {read} of {of} files …", es: "Leyendo {read} de {of} archivos …" }
    shop_reading_begins { en: "Reading the folder …", es: "Leyendo la carpeta …" }
    shop_closed(why) { en: "{why} What is shown is from before; it is tried again.", es: "{why} Lo que se ve es de antes; se intenta otra vez." }
    shop_page_presses { en: "Presses", es: "Prensas" }
    shop_page_find { en: "Find", es: "Buscar" }
    shop_page_folder_read { en: "Folder", es: "Carpeta" }
    shop_page_folder_unread(number) { en: "Folder: {number} not read", es: "Carpeta: {number} sin leer" }
    shop_empty { en: "No visit is saved in this folder yet. Save one there and it shows here.", es: "Todavía no hay visitas guardadas en esta carpeta. Guarde una ahí y aparece aquí." }
    shop_holds { en: "What it holds", es: "Lo que contiene" }
    shop_holds_visits { en: "Visits, counted", es: "Visitas, cuentan" }
    shop_holds_copies { en: "Copies of visits, counted once", es: "Copias de visitas, cuentan una vez" }
    shop_holds_practice { en: "Practice files, not counted in the shop's figures", es: "Archivos de práctica, no cuentan en las cifras del taller" }
    shop_holds_unread { en: "Files not read, so not counted", es: "Archivos sin leer, así que no cuentan" }
    shop_holds_upkeep { en: "Lines of the upkeep log, in upkeep.ron", es: "Líneas del registro de mantenimiento, en upkeep.ron" }
    shop_name_practice { en: "Practice files", es: "Archivos de práctica" }
    shop_name_copies { en: "Copies", es: "Copias" }
    shop_copy_path { en: "Copy its path", es: "Copiar su ruta" }
    shop_path_copied { en: "The path is copied. Paste it where you look for files.", es: "La ruta está copiada. Péguela donde busca archivos." }
    shop_do_newer { en: "Made by a newer version of this program. What to do: open it where that version is, or update this one.", es: "Hecho con una versión más nueva de este programa. Qué hacer: ábralo donde está esa versión o actualice esta." }
    shop_do_closed { en: "What to do: ask whoever looks after the folder to let you read it, or try again once it is connected.", es: "Qué hacer: pida permiso de lectura a quien cuida la carpeta o pruebe de nuevo cuando esté conectada." }
    shop_do_damaged { en: "What to do: put back a copy from before, if there is one. Do not delete this file: it is left as it is, and much of it may still be read by eye.", es: "Qué hacer: reponga una copia de antes, si hay. No borre este archivo: queda como está y quizá mucho se pueda leer todavía a ojo." }
    shop_more(number) { en: "{number} more. Look for something narrower.", es: "Hay {number} más. Busque algo más preciso." }

    // A press in the list.
    press_drifted(grows, against, least, most) { en: "perhaps outside by now: {grows} may have gotten {least} to {most} thicker against {against}; measure first", es: "quizá ya fuera: {grows} puede haber engrosado de {least} a {most} frente a {against}; mida primero" }
    press_unchecked(days, day) { en: "no piece measured for {days} days, since {day}", es: "sin pieza medida en {days} días, desde el {day}" }
    press_never_checked { en: "no measured piece on record", es: "sin ninguna pieza medida en los registros" }
    press_upkeep_late(tasks) { en: "other upkeep late: {tasks}", es: "otro mantenimiento atrasado: {tasks}" }
    press_upkeep_unknown(tasks) { en: "upkeep never noted: {tasks}", es: "mantenimiento nunca anotado: {tasks}" }
    press_due(day) { en: "check was due by {day}", es: "la revisión tocaba a más tardar el {day}" }
    press_check_by(day) { en: "next check by {day}", es: "próxima revisión a más tardar el {day}" }
    press_act_nut(arm) { en: "Check nut {arm} first", es: "Primero revise la tuerca {arm}" }
    press_act_piece { en: "Measure a piece first", es: "Primero mida una pieza" }
    press_worse { en: "getting worse", es: "va empeorando" }
    press_outside { en: "left outside", es: "quedó fuera" }
    press_not_finished { en: "found outside, not finished", es: "estaba fuera, sin terminar" }
    press_not_since { en: "last piece not measured", es: "última pieza sin medir" }
    press_not_measured { en: "last visit not measured through", es: "última visita sin terminar de medir" }
    press_every_visit { en: "a piece may be outside at any time: check at every visit", es: "una pieza puede quedar fuera en cualquier momento: revise en cada visita" }
    press_when_unknown { en: "too little known to say when to check", es: "se sabe muy poco para decir cuándo revisar" }
    press_no_check { en: "no check due", es: "no toca revisar" }
    trend_drifts(grows, against, rate) { en: "{grows} gets thicker against {against}: {rate} in 30 days", es: "{grows} engruesa frente a {against}: {rate} cada 30 días" }
    trend_unknown { en: "trend: too few visits", es: "tendencia: muy pocas visitas" }
    trend_steady { en: "no clear trend; that is no all-clear", es: "sin tendencia clara; eso no es un visto bueno" }
    press_visits(day, visits) { en: "last {day}; visits {visits}", es: "última {day}; visitas {visits}" }
    press_no_day { en: "without a date", es: "sin fecha" }
    press_a_year(pieces, hours) { en: "a year: about {pieces} test pieces, {hours} hours", es: "al año: unas {pieces} piezas de prueba, {hours} horas" }
    head_check_one(press) { en: "Check {press} before it works.", es: "Revise {press} antes de que trabaje." }
    head_check_all(of) { en: "Check all {of} presses before they work.", es: "Revise las {of} prensas antes de que trabajen." }
    head_check_some(presses, of) { en: "Check {presses} of {of} presses before they work.", es: "Revise {presses} de {of} prensas antes de que trabajen." }
    months_none_since(month) { en: "No visit since {month}.", es: "Ninguna visita desde {month}." }
    head_upkeep_late(presses, of) { en: "Upkeep is late at {presses} of {of} presses.", es: "El mantenimiento está atrasado en {presses} de {of} prensas." }
    head_upkeep_unknown(presses, of) { en: "At {presses} of {of} presses nobody noted when upkeep was last done, so it is due.", es: "En {presses} de {of} prensas nadie anotó cuándo se hizo el mantenimiento, así que toca." }
    head_every_visit(presses, of) { en: "Nothing is overdue. At {presses} of {of} presses measure a piece at every visit.", es: "Nada está atrasado. En {presses} de {of} prensas mida una pieza en cada visita." }
    head_calm { en: "Nothing is due.", es: "No toca nada." }
    press_first(press, why) { en: "First {press}: {why}.", es: "Primero {press}: {why}." }
    press_open_book(press) { en: "Open {press}", es: "Abrir {press}" }
    press_sort { en: "Sort by", es: "Ordenar por" }
    press_sort_need { en: "what is due", es: "lo que toca" }
    press_sort_name { en: "name", es: "nombre" }
    press_sort_last { en: "last visit", es: "última visita" }
    column_press { en: "Press", es: "Prensa" }
    column_jaw { en: "Jaw as left (dashed: as found)", es: "Mordaza final (a rayas: inicial)" }
    column_spreads { en: "Spreads: ○ found ● left", es: "Diferencias: ○ inicial ● final" }
    column_ended { en: "How the last visit ended", es: "Cómo terminó la última visita" }
    column_when { en: "When to look, and why", es: "Cuándo revisar y por qué" }
    shop_upkeep_now(counts) { en: "Upkeep, {counts}", es: "Mantenimiento, {counts}" }
    shop_upkeep_none { en: "No upkeep is due.", es: "No toca mantenimiento." }
    shop_upkeep_open { en: "Open the upkeep", es: "Abrir el mantenimiento" }
    shop_upkeep_of { en: "Upkeep of this press", es: "Mantenimiento de esta prensa" }
    book_spreads_say(when, ended, limit) { en: "{when}: {ended}; tolerance {limit}.", es: "{when}: {ended}; tolerancia {limit}." }
    book_jaw_says(when, thick, thin, apart, limit) { en: "Last piece, {when}: {thick} thickest, {thin} thinnest, {apart} apart; tolerance {limit}.", es: "Última pieza, {when}: {thick} el más grueso, {thin} el más delgado, con {apart} entre ellos; tolerancia {limit}." }
    book_jaw_unknown { en: "The last visit measured too little to draw its jaw.", es: "La última visita midió muy poco para dibujar la mordaza." }
    book_answer(nm, half) { en: "{nm} ± {half}", es: "{nm} ± {half}" }
    nut_columns { en: "Arm|Is at|Limits|Room OUT|Room IN|Turned in all|One notch does", es: "Brazo|Está en|Límites|Puede ABRIR|Puede CERRAR|Girado en total|Una ranura hace" }
    nut_from_to(from, to) { en: "from {from} to {to}", es: "de {from} a {to}" }
    nut_room_to_flush(room) { en: "{room} to flush", es: "{room} al ras" }
    nut_no_limits { en: "No limits of the nuts are entered: nobody knows here how far a pin still fits. Enter them in the press before turning far.", es: "No hay límites de tuercas: aquí nadie sabe hasta dónde entra la chaveta. Escríbalos en la prensa antes de girar mucho." }
    nut_answer_is(visits) { en: "In notches, OUT positive, 0 flush with the rod end. One notch does: learned at its own arm, visits {visits}; ± holds 95 times in 100.", es: "En ranuras, ABRIR positivo, 0 al ras del tirante. Una ranura hace: aprendido en su propio brazo, visitas {visits}; ± vale 95 veces de 100." }
    press_and(name, what) { en: "{name}: {what}", es: "{name}: {what}" }

    // Months.
    shop_months { en: "Pieces and hours by month", es: "Piezas y horas por mes" }
    shop_month(month, pieces, hours, visits) { en: "{month}: test pieces {pieces}, hours {hours}, visits {visits}", es: "{month}: piezas de prueba {pieces}, horas {hours}, visitas {visits}" }
    shop_month_heads { en: "Month|Pieces|Hours|Visits", es: "Mes|Piezas|Horas|Visitas" }
    shop_hours_are { en: "Test pieces; hours as calculated for pieces and turns.", es: "Piezas de prueba; horas calculadas por piezas y giros." }

    // Finding.
    find_words { en: "Search words", es: "Palabras a buscar" }
    find_columns { en: "Date|Press|Belt|Found|Left|Result as left|Pieces|Who", es: "Fecha|Prensa|Banda|Inicial|Final|Resultado final|Piezas|Quién" }
    find_press { en: "Press", es: "Prensa" }
    find_who { en: "Who", es: "Quién" }
    find_when { en: "When", es: "Cuándo" }
    find_belt { en: "Belt", es: "Banda" }
    find_result { en: "Result", es: "Resultado" }
    find_any { en: "any", es: "cualquiera" }
    find_clear { en: "Clear", es: "Borrar" }
    find_found(number) { en: "Visits found: {number}", es: "Visitas encontradas: {number}" }
    find_found_outside(number, outside) { en: "Visits found: {number}; left outside: {outside}", es: "Visitas encontradas: {number}; quedaron fuera: {outside}" }
    shop_inside { en: "inside", es: "dentro" }
    shop_outside { en: "outside", es: "fuera" }
    shop_open { en: "something missing", es: "falta algo" }
    shop_not_read { en: "not measured", es: "sin medir" }

    // The book of a press.
    book_next_visit { en: "Start the next visit", es: "Comenzar la próxima visita" }
    book_visits { en: "Visits: click one to open it", es: "Visitas: oprima una para abrirla" }
    book_jaw { en: "The jaw as left; dashed: as last found", es: "La mordaza como quedó; a rayas: como se encontró la última vez" }
    book_jaw_before(first, last) { en: "Grey: the visits before, {first} to {last}.", es: "En gris: las visitas de antes, del {first} al {last}." }
    book_jaw_drifts(grows, against) { en: "▲▼: {grows} gets thicker against {against}.", es: "▲▼: {grows} engruesa frente a {against}." }
    book_spreads { en: "Spread as found (○) and as left (●) over time", es: "Diferencia inicial (○) y final (●) en el tiempo" }
    book_answers { en: "What one notch does at its own arm, visit by visit; shaded: where it lies in 95 of 100 cases", es: "Lo que hace una ranura en su propio brazo, visita por visita; sombreado: donde queda en 95 de 100 casos" }
    book_jaw_picture(press, visits) { en: "The jaw of {press} over {visits} visits", es: "La mordaza de {press} en {visits} visitas" }
    book_spreads_picture(found, left, limit) { en: "Spreads over time. As found: {found}. As left: {left}. Tolerance {limit}.", es: "Diferencias en el tiempo. Inicial: {found}. Final: {left}. Tolerancia {limit}." }
    book_drift { en: "Drift", es: "Desajuste" }
    book_taught { en: "What the visits taught", es: "Lo que enseñaron las visitas" }
    book_nuts { en: "Nuts and travel left", es: "Tuercas y recorrido que queda" }
    book_of_press(visits, pieces, minutes, people) { en: "Visits {visits}, test pieces {pieces}, about {minutes} minutes. Worked on by {people}.", es: "Visitas {visits}, piezas de prueba {pieces}, unos {minutes} minutos. Trabajaron {people}." }
    book_gone { en: "This press is no longer in the folder.", es: "Esta prensa ya no está en la carpeta." }
    book_repaired(when, what) { en: "{when}: repaired before this visit: {what}", es: "{when}: reparado antes de esta visita: {what}" }
    shop_nothing_taught { en: "No visit of this press can be learned from, so none was started. Open a visit of it, or start with New.", es: "De ninguna visita de esta prensa se puede aprender, así que no se comenzó ninguna. Abra una visita de ella o comience con Nueva." }

    trend_too_few(fewest) { en: "Whether it gets worse: too little to say before {fewest} visits with dates.", es: "Si va empeorando: muy poco para decirlo antes de {fewest} visitas con fecha." }
    trend_worse(a_year, half) { en: "It gets worse: the spread as found grows by {a_year} a year, ± {half} (95 %).", es: "Va empeorando: la diferencia inicial crece {a_year} al año, ± {half} (95 %)." }
    trend_not_worse(a_year, half) { en: "Not getting worse for sure: the spread as found changes by {a_year} a year, ± {half} (95 %).", es: "Sin certeza de que empeore: la diferencia inicial cambia {a_year} al año, ± {half} (95 %)." }

    taught_repaired(what, before) { en: "Repaired: {what}. Learning began anew there; visits from before: {before}.", es: "Reparado: {what}. Desde ahí se aprende de nuevo; visitas de antes: {before}." }
    taught_nothing_yet { en: "How the press answers is not learned yet. It takes a visit with two measured pieces; invented examples teach nothing.", es: "Todavía no se ha aprendido cómo responde la prensa. Hace falta una visita con dos piezas medidas; los ejemplos inventados no enseñan nada." }
    taught_answer(arm, nm, half) { en: "{arm} {nm} ± {half}", es: "{arm} {nm} ± {half}" }
    taught_answers(visits, answers) { en: "One notch OUT thickens the splice at its own arm by (95 %, visits {visits}): {answers}.", es: "Una ranura al ABRIR engruesa el empalme en su propio brazo en (95 %, visitas {visits}): {answers}." }
    taught_answers_less(arm, share, since, was, is) { en: "{arm} answers {share} less since {since}, {is} a notch, before {was}: check its rod, nut and pin before turning on it", es: "{arm} responde {share} menos desde {since}, {is} por ranura, antes {was}: revise su tirante, tuerca y chaveta antes de girarla" }
    taught_answers_more(arm, share, since, was, is) { en: "{arm} answers {share} more since {since}, {is} a notch, before {was}: check the rods and nuts beside it before turning on it", es: "{arm} responde {share} más desde {since}, {is} por ranura, antes {was}: revise los tirantes y tuercas vecinos antes de girarla" }
    taught_answers_changed(arm, was, is, half, since) { en: "One notch of {arm} did {was} before {since} and does {is} since; the change is ± {half} (95 %).", es: "Una ranura de {arm} hacía {was} antes de {since} y hace {is} desde entonces; el cambio es ± {half} (95 %)." }
    taught_unchanged { en: "No nut answers otherwise than it did, beyond what is uncertain.", es: "Ninguna tuerca responde distinto que antes, más allá de lo incierto." }
    gain_too_few(fewest) { en: "Gain: too little to say before {fewest} visits with two measured pieces and turns between.", es: "Ganancia: muy poco para decirla antes de {fewest} visitas con dos piezas medidas y giros entre ellas." }
    gain_is(visits, nm, half) { en: "Gain: over {visits} visits the piece after the first turns had a spread smaller by {nm} than turning every arm up to the thickest would be expected to leave, ± {half} (95 %, with what is unknown of the press).", es: "Ganancia: en {visits} visitas la pieza después de los primeros giros tuvo una diferencia menor en {nm} que la esperada al llevar cada brazo hasta el más grueso, ± {half} (95 %, con lo que no se sabe de la prensa)." }
    gain_is_loss(visits, nm, half) { en: "Over {visits} visits the piece after the first turns had a spread larger by {nm} than turning every arm up to the thickest would be expected to leave, ± {half} (95 %, with what is unknown of the press).", es: "En {visits} visitas la pieza después de los primeros giros tuvo una diferencia mayor en {nm} que la esperada al llevar cada brazo hasta el más grueso, ± {half} (95 %, con lo que no se sabe de la prensa)." }
    gain_unsure(visits, nm, half) { en: "Gain: none for sure. Over {visits} visits the piece after the first turns differed by {nm} from what turning every arm up to the thickest would be expected to leave, ± {half} (95 %, with what is unknown of the press).", es: "Ganancia: ninguna cierta. En {visits} visitas la pieza después de los primeros giros se apartó {nm} de la esperada al llevar cada brazo hasta el más grueso, ± {half} (95 %, con lo que no se sabe de la prensa)." }
}
