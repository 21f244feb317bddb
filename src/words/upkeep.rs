//! Upkeep: tasks, how they stand, and what is noted.

use std::path::Path;

use crate::session::Caution;
use crate::shop::{Due, Entry, Interval, Noted, Task, TaskDue, UpkeepRefusal, Whose};
use crate::store::{UPKEEP_FILE, UpkeepProblem};

use super::{Figures, Language};

impl Language {
    /// What a task asks for.
    pub fn upkeep_task(self, task: &Task) -> &str {
        match task.key.as_str() {
            _ if !task.words.is_empty() => &task.words,
            "dust" => self.task_dust(),
            "cover" => self.task_cover(),
            "oil-chains" => self.task_oil_chains(),
            "oil-slides" => self.task_oil_slides(),
            "oil-rods" => self.task_oil_rods(),
            "fluid-level" => self.task_fluid(),
            "clean-jaws" => self.task_clean_jaws(),
            "jaw-check" => self.task_jaw_check(),
            "gauge-calibration" => self.task_gauge(),
            key => key,
        }
    }

    /// How a task stands.
    pub fn upkeep_due(self, due: Due) -> String {
        match due {
            Due::NeverDone => self.due_never().to_owned(),
            Due::Since(day) => self.due_since(day),
            Due::On(day) => self.due_on(day),
            Due::PiecesOver(laced) => self.due_pieces_over(laced),
            Due::PiecesLeft(left, counted) => self.due_pieces_left(left, counted),
            Due::Uncounted(laced) => self.due_uncounted(laced),
        }
    }

    /// How often a task comes round, and whether that is a default.
    pub fn upkeep_every(self, task: &Task) -> String {
        let every = match task.every {
            Interval::Days(days) if days.get() == 1 => self.every_day().to_owned(),
            Interval::Days(days) => self.every_days(days),
            Interval::Pieces(pieces) => self.every_pieces(pieces),
        };
        match task.own {
            true => every,
            false => self.every_default(every),
        }
    }

    /// A press or a gauge by its name.
    pub fn whose_name(self, whose: &Whose) -> String {
        match whose {
            Whose::Press(press) => self.press_name(press),
            Whose::Gauge(gauge) => self.gauge_named(gauge),
        }
    }

    /// How often it comes round, when it was last done, and by whom.
    pub fn upkeep_last(self, task: &TaskDue) -> String {
        let every = self.upkeep_every(&task.task);
        match (&task.last, task.said_on) {
            (_, Some(day)) => self.last_said(day),
            (Some(last), _) => {
                let who = self.upkeep_who(last);
                match last.noted {
                    Noted::Begun(_) => self.last_begun(every, last.day, who),
                    Noted::Done(_) | Noted::Laced(_) => self.last_done(every, last.day, who),
                }
            }
            (None, None) => every,
        }
    }

    fn upkeep_who(self, entry: &Entry) -> &str {
        match entry.who.as_str() {
            "" => self.marked_by_nobody(),
            who => who,
        }
    }

    /// A line of the log; `tasks` are the shop's.
    pub fn upkeep_line(self, entry: &Entry, tasks: &[Task]) -> String {
        let named = |key: &'_ str| -> String {
            let task = tasks.iter().find(|task| task.key == key);
            let named = task.map(|task| self.upkeep_task(task).to_owned());
            named.unwrap_or_else(|| key.to_owned())
        };
        let what = match &entry.noted {
            Noted::Laced(pieces) => self.noted_laced(pieces),
            Noted::Done(key) => named(key),
            Noted::Begun(key) => self.noted_begun(named(key)),
        };
        let whose = self.whose_name(&entry.whose());
        let line = self.log_line(entry.day, whose, what, self.upkeep_who(entry));
        match entry.taken_back.as_str() {
            "" => line,
            by => self.log_taken_back(line, by),
        }
    }

    /// A caution with its source.
    pub fn caution_with_source(self, caution: Caution) -> String {
        format!(
            "{} ({})",
            self.caution(caution),
            self.caution_source(caution)
        )
    }
}

impl Figures {
    /// Why the upkeep of a folder was not changed.
    pub fn upkeep_problem(&self, problem: &UpkeepProblem, folder: &Path) -> String {
        let words = self.language;
        let path = folder.join(UPKEEP_FILE);
        match problem {
            UpkeepProblem::Open(problem) => {
                words.upkeep_unreadable(self.open_problem(problem, &path))
            }
            UpkeepProblem::Save(problem) => self.save_problem(problem, &path),
            UpkeepProblem::Refused(refusal) => match refusal {
                UpkeepRefusal::ChangedMeanwhile => words.upkeep_changed(),
                UpkeepRefusal::NoSuchTask => words.upkeep_no_such_task(),
                UpkeepRefusal::Nobody => words.upkeep_nobody(),
                UpkeepRefusal::NoWords => words.upkeep_no_words(),
            }
            .to_owned(),
        }
    }
}

texts! {
    upkeep_page { en: "Upkeep", es: "Mantenimiento" }
    upkeep_heading(today, now, soon) { en: "Upkeep, as of {today}. Due now: {now}, soon: {soon}", es: "Mantenimiento, al {today}. Toca ahora: {now}, pronto: {soon}" }
    upkeep_not_recorded(number) { en: "Tasks not yet recorded: {number}", es: "Tareas sin registro todavía: {number}" }
    upkeep_quiet { en: "Nothing recorded is past its interval.", es: "Nada de lo registrado pasó su intervalo." }
    gauge_named(name) { en: "Gauge {name}", es: "Instrumento {name}" }
    upkeep_gauges_unnamed(visits) { en: "Visits whose gauge has no name: {visits}. Name the gauge in the visit, and its calibration is followed here.", es: "Visitas cuyo instrumento no tiene nombre: {visits}. Póngale nombre en la visita y aquí se sigue su calibración." }
    upkeep_defaults { en: "Intervals marked “default” are ours (common practice, no source), not your machine's. Set those of its manual.", es: "Los intervalos con «valor inicial» son nuestros (práctica común, sin fuente), no de su máquina. Ponga los de su manual." }
    upkeep_unreadable(why) { en: "The upkeep cannot be read, so nothing is known to be done and nothing can be noted. The file is left as it is. {why}", es: "El mantenimiento no se puede leer: no se sabe qué está hecho y no se puede anotar nada. El archivo queda como está. {why}" }
    upkeep_no_press(name, presses) { en: "No press is called “{name}” in this folder. There are: {presses}.", es: "En esta carpeta ninguna prensa se llama «{name}». Hay: {presses}." }
    upkeep_no_gauge(name, gauges) { en: "No gauge is called “{name}” in the visits of this folder. There are: {gauges}.", es: "En las visitas de esta carpeta ningún instrumento se llama «{name}». Hay: {gauges}." }
    upkeep_no_task(name, tasks) { en: "No task is called “{name}”. There are: {tasks}; gauge-calibration goes with --gauge, the others with --press.", es: "Ninguna tarea se llama «{name}». Hay: {tasks}; gauge-calibration va con --gauge, las demás con --press." }
    upkeep_no_such_task { en: "Not noted: this task is no longer in the shop's list.", es: "No se anotó: esta tarea ya no está en la lista del taller." }
    upkeep_changed { en: "Not changed: someone else changed the same thing meanwhile. Look at it again, then change it.", es: "No se cambió: alguien más cambió lo mismo entretanto. Revíselo y cámbielo otra vez." }
    upkeep_nobody { en: "Not noted: say who.", es: "No se anotó: diga quién." }
    upkeep_no_words { en: "Not added: say what the task is.", es: "No se agregó: diga cuál es la tarea." }
    upkeep_no_day { en: "This computer's clock gives no date; set it, then try again.", es: "El reloj de esta computadora no da una fecha; póngalo en hora y vuelva a intentar." }
    upkeep_no_number { en: "The interval or number of pieces must be a whole number of 1 or more.", es: "El intervalo o número de piezas debe ser un número entero de 1 o más." }
    upkeep_noted(what) { en: "Noted: {what}", es: "Anotado: {what}" }
    upkeep_saved { en: "The shop's tasks are changed.", es: "Se cambiaron las tareas del taller." }

    // The usual tasks, in the program's words.
    task_dust { en: "Clean off dust, hook scrap and belt crumbs", es: "Limpiar polvo, restos de ganchos y de banda" }
    task_cover { en: "Cover the press when work is done", es: "Tapar la prensa al terminar" }
    task_oil_chains { en: "Oil the chains and sprockets", es: "Lubricar cadenas y piñones" }
    task_oil_slides { en: "Oil the slides and pivots", es: "Lubricar guías y pernos" }
    task_oil_rods { en: "Oil the threads of rods and nuts", es: "Lubricar roscas de tirantes y tuercas" }
    task_fluid { en: "Check the fluid level", es: "Revisar el nivel de fluido" }
    task_clean_jaws { en: "Clean the jaws", es: "Limpiar las mordazas" }
    task_jaw_check { en: "Check the jaws with a test piece", es: "Revisar las mordazas con una pieza de prueba" }
    task_gauge { en: "Have the gauge calibrated", es: "Mandar calibrar el instrumento" }

    // How they are.
    due_never { en: "not yet recorded", es: "sin registro todavía" }
    due_since(day) { en: "due since {day}", es: "toca desde el {day}" }
    due_on(day) { en: "due on {day}", es: "toca el {day}" }
    due_pieces_over(laced) { en: "due: pieces laced since, {laced}", es: "ya toca: piezas engrapadas desde entonces, {laced}" }
    due_pieces_left(left, counted) { en: "due in {left} pieces; pieces noted through {counted}", es: "toca en {left} piezas; piezas anotadas hasta el {counted}" }
    due_uncounted(laced) { en: "cannot be told: test pieces since, {laced}; pieces laced in production are not noted", es: "no se puede saber: piezas de prueba desde entonces, {laced}; las de producción no se anotan" }
    every_day { en: "every day", es: "cada día" }
    every_days(days) { en: "every {days} days", es: "cada {days} días" }
    every_pieces(pieces) { en: "every {pieces} laced pieces", es: "cada {pieces} piezas engrapadas" }
    every_default(every) { en: "{every} (default)", es: "{every} (valor inicial)" }
    last_done(every, day, who) { en: "{every}; last done {day}, {who}", es: "{every}; hecho el {day}, {who}" }
    last_begun(every, day, who) { en: "{every}; counted from {day}, {who}", es: "{every}; se cuenta desde el {day}, {who}" }
    last_said(day) { en: "holds until then by the visit of {day}", es: "vale hasta entonces según la visita del {day}" }
    noted_begun(task) { en: "counted from here: {task}", es: "se cuenta desde aquí: {task}" }
    noted_laced(pieces) { en: "pieces laced: {pieces}", es: "piezas engrapadas: {pieces}" }
    log_line(day, press, what, who) { en: "{day}, {press}: {what}, {who}", es: "{day}, {press}: {what}, {who}" }
    log_taken_back(line, by) { en: "{line} (taken back: {by})", es: "{line} (retirado: {by})" }

    // In the window.
    upkeep_done { en: "Done…", es: "Hecho…" }
    upkeep_done_of(task, press) { en: "Done: {task}, {press}", es: "Hecho: {task}, {press}" }
    upkeep_start { en: "Start here…", es: "Comenzar aquí…" }
    upkeep_start_of(whose) { en: "Start here: {whose}", es: "Comenzar aquí: {whose}" }
    upkeep_start_how { en: "When was each last done? Leave a date empty to start counting today.", es: "¿Cuándo se hizo por última vez? Deje vacía la fecha para contar desde hoy." }
    upkeep_last_on(task) { en: "Last done, {task}", es: "Última vez, {task}" }
    upkeep_date_hint { en: "2026-11-25, or empty", es: "2026-11-25, o vacío" }
    upkeep_no_date(typed) { en: "“{typed}” is no date up to today. Type it like 2026-11-25, or leave it empty.", es: "«{typed}» no es una fecha hasta hoy. Escríbala como 2026-11-25 o déjela vacía." }
    upkeep_begin { en: "Start", es: "Comenzar" }
    upkeep_began(number) { en: "Started: tasks now counted, {number}", es: "Comenzado: tareas que ahora se cuentan, {number}" }
    upkeep_now { en: "Due now", es: "Toca ahora" }
    upkeep_soon { en: "Soon", es: "Pronto" }
    upkeep_later(number) { en: "Later: {number}", es: "Más adelante: {number}" }
    upkeep_note { en: "Note it", es: "Anotar" }
    upkeep_note_pieces { en: "Note the pieces", es: "Anotar las piezas" }
    upkeep_laced_heading { en: "Pieces laced in production, since last noted", es: "Piezas engrapadas en producción, desde la última nota" }
    upkeep_pieces { en: "Number of pieces", es: "Número de piezas" }
    upkeep_choose_press { en: "Choose one press above to note them.", es: "Elija arriba una prensa para anotarlas." }
    upkeep_due_part { en: "What is due", es: "Qué toca" }
    upkeep_log { en: "Log", es: "Registro" }
    upkeep_log_empty { en: "Nothing is noted yet.", es: "Todavía no hay nada anotado." }
    upkeep_take_back { en: "Take back", es: "Retirar" }
    upkeep_take_back_of(line) { en: "Take back: {line}", es: "Retirar: {line}" }
    upkeep_tasks { en: "The shop's tasks", es: "Las tareas del taller" }
    upkeep_change { en: "Change…", es: "Cambiar…" }
    upkeep_up { en: "Up", es: "Subir" }
    upkeep_down { en: "Down", es: "Bajar" }
    upkeep_hide { en: "Hide", es: "Ocultar" }
    upkeep_show { en: "Show", es: "Mostrar" }
    upkeep_button_of(button, task) { en: "{button} {task}", es: "{button} {task}" }
    upkeep_add { en: "Add a task…", es: "Agregar una tarea…" }
    upkeep_words { en: "What is to be done", es: "Qué hay que hacer" }
    upkeep_interval { en: "Interval", es: "Intervalo" }
    upkeep_days { en: "days", es: "días" }
    upkeep_by_pieces { en: "laced pieces", es: "piezas engrapadas" }
    upkeep_own { en: "This interval is from the manual or set by the shop: no longer marked as a default", es: "Este intervalo es del manual o lo fijó el taller: ya no se marca como valor inicial" }
    upkeep_keep { en: "Keep", es: "Guardar" }
}
