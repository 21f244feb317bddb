//! Upkeep: tasks, how they stand, and what is noted.

use std::path::Path;

use crate::session::{Caution, IsoDate};
use crate::shop::{Due, DueCounts, Entry, Interval, Noted, Task, TaskDue, UpkeepRefusal, Whose};
use crate::store::{UPKEEP_FILE, UpkeepProblem};

use super::{Figures, Language, as_sentence};

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

    /// What to beware of at a task, in a line; nothing where hands stay out of
    /// the press.
    pub fn upkeep_beware(self, task: &Task) -> String {
        /// Cautions beyond which they are not said one by one.
        const MOST: usize = 4;
        let cautions = task.cautions();
        let all: Vec<&str> = cautions.iter().map(|it| self.caution_short(*it)).collect();
        match all.len() {
            0 => String::new(),
            1..=MOST => as_sentence(&all.join("; ")),
            _ => self.beware_of_all().to_owned(),
        }
    }

    /// How a task stands. Of what comes round within a week, days of delay say
    /// nothing.
    pub fn upkeep_due(self, task: &TaskDue, today: IsoDate) -> String {
        /// Days of an interval up to which that is so.
        const OFTEN: u32 = 7;
        match task.due {
            Due::NeverDone => self.due_never().to_owned(),
            Due::Since(_) if matches!(task.task.every, Interval::Days(days) if days.get() <= OFTEN) =>
            {
                let last = task.last.as_ref().map(|last| last.day);
                last.map_or_else(
                    || self.due_never().to_owned(),
                    |day| self.due_not_since(day),
                )
            }
            Due::MeasureFirst => self.due_measure_first().to_owned(),
            Due::Since(day) => self.due_since(today.day_number() - day.day_number(), day),
            Due::On(day) => self.due_on(day),
            Due::PiecesOver(laced) => self.due_pieces_over(laced),
            Due::PiecesLeft(left, counted) => self.due_pieces_left(left, counted),
            Due::Uncounted(laced) => self.due_uncounted(laced),
        }
    }

    /// How often a task comes round, and whether that is a default.
    pub fn upkeep_every(self, task: &Task) -> String {
        let every = self.upkeep_comes_round(task.every);
        match task.own {
            true => every,
            false => self.every_default(every),
        }
    }

    /// How often a task comes round.
    pub fn upkeep_comes_round(self, every: Interval) -> String {
        match every {
            Interval::Days(days) if days.get() == 1 => self.every_day().to_owned(),
            Interval::Days(days) => self.every_days(days),
            Interval::Pieces(pieces) => self.every_pieces(pieces),
        }
    }

    /// How many tasks want doing, of each kind that there are any of.
    pub fn upkeep_counts(self, counts: DueCounts) -> String {
        let DueCounts {
            checks,
            late,
            unknown,
            gauges,
            soon,
        } = counts;
        let all = [
            (checks, self.count_checks(checks)),
            (late, self.count_late(late)),
            (unknown, self.count_unknown(unknown)),
            (gauges, self.count_gauges(gauges)),
            (soon, self.count_soon(soon)),
        ];
        let some = all.into_iter().filter(|(count, _)| *count > 0);
        let some: Vec<String> = some.map(|(_, said)| said).collect();
        some.join(" · ")
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
            (None, Some(day)) => self.last_said(day),
            (Some(last), Some(day)) => self.last_measured(every, day, self.upkeep_who(last)),
            (Some(last), None) => self.last_done(every, last.day, self.upkeep_who(last)),
            (None, None) => every,
        }
    }

    /// Who a line of the log says it was.
    pub fn upkeep_who(self, entry: &Entry) -> &str {
        match entry.who.as_str() {
            "" => self.marked_by_nobody(),
            who => who,
        }
    }

    /// What a line of the log notes; `tasks` are the shop's.
    pub fn noted(self, entry: &Entry, tasks: &[Task]) -> String {
        let named = |key: &'_ str| -> String {
            let task = tasks.iter().find(|task| task.key == key);
            let named = task.map(|task| self.upkeep_task(task).to_owned());
            named.unwrap_or_else(|| key.to_owned())
        };
        match &entry.noted {
            Noted::Laced(pieces) => self.noted_laced(pieces),
            Noted::Done(key) => named(key),
            Noted::Begun(key) => self.noted_begun(named(key)),
        }
    }

    /// A line of the log; `tasks` are the shop's.
    pub fn upkeep_line(self, entry: &Entry, tasks: &[Task]) -> String {
        let what = self.noted(entry, tasks);
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
                UpkeepRefusal::Measured => words.upkeep_is_measured(),
                UpkeepRefusal::NoWords => words.upkeep_no_words(),
            }
            .to_owned(),
        }
    }
}

texts! {
    upkeep_page { en: "Upkeep", es: "Mantenimiento" }
    upkeep_heading(today, late, unknown, soon) { en: "Upkeep on {today}. Late: {late}; never noted, so due: {unknown}; soon: {soon}", es: "Mantenimiento al {today}. Atrasadas: {late}; nunca anotadas, así que tocan: {unknown}; pronto: {soon}" }
    count_checks(count) { en: "to measure: {count}", es: "por medir: {count}" }
    count_late(count) { en: "late: {count}", es: "atrasadas: {count}" }
    count_unknown(count) { en: "never noted, so due: {count}", es: "sin anotar (tocan): {count}" }
    count_gauges(count) { en: "gauges to calibrate: {count}", es: "instrumentos: {count}" }
    count_soon(count) { en: "soon: {count}", es: "pronto: {count}" }
    beware_of_all { en: "As the manual says; all safety points hold.", es: "Como dice el manual; valen todos los puntos de seguridad." }
    gauge_named(name) { en: "Gauge {name}", es: "Instrumento {name}" }
    upkeep_gauges_unnamed(visits) { en: "Visits whose gauge has no name: {visits}. Name the gauge in the visit, and its calibration is followed here.", es: "Visitas cuyo instrumento no tiene nombre: {visits}. Póngale nombre en la visita y aquí se sigue su calibración." }
    upkeep_defaults { en: "Intervals marked “usual” are ours (common practice, no source), not your machines'. Under “The shop's tasks” click a task and set the manual's.", es: "Los intervalos con «usual» son nuestros (práctica común, sin referencia), no de sus máquinas. En «Las tareas del taller» oprima una y ponga el del manual." }
    upkeep_unreadable(why) { en: "The upkeep cannot be read, so nothing is known to be done and nothing can be noted. The file is left as it is. {why}", es: "El mantenimiento no se puede leer: no se sabe qué está hecho y no se puede anotar nada. El archivo queda como está. {why}" }
    upkeep_no_press(name, presses) { en: "No press is called “{name}” in this folder. There are: {presses}.", es: "En esta carpeta ninguna prensa se llama «{name}». Hay: {presses}." }
    upkeep_no_gauge(name, gauges) { en: "No gauge is called “{name}” in the visits of this folder. There are: {gauges}.", es: "En las visitas de esta carpeta ningún instrumento se llama «{name}». Hay: {gauges}." }
    upkeep_no_task(name, tasks) { en: "No task is called “{name}”. There are: {tasks}; gauge-calibration goes with --gauge, the others with --press.", es: "Ninguna tarea se llama «{name}». Hay: {tasks}; gauge-calibration va con --gauge, las demás con --press." }
    upkeep_no_such_task { en: "Not noted: this task is no longer in the shop's list.", es: "No se anotó: esta tarea ya no está en la lista del taller." }
    upkeep_changed { en: "Not changed: someone else changed the same thing meanwhile. Look at it again, then change it.", es: "No se cambió: alguien más cambió lo mismo entretanto. Revíselo y cámbielo otra vez." }
    upkeep_nobody { en: "Not noted: say who.", es: "No se anotó: diga quién." }
    upkeep_is_measured { en: "Not noted: the jaw check is measured, not checked off. Save a visit with a measured piece in this folder, and it counts as the check.", es: "No se anotó: la revisión de mordazas no se marca, se mide. Guarde en esta carpeta una visita con una pieza medida y vale como revisión." }
    upkeep_no_words { en: "Not added: say what the task is.", es: "No se agregó: diga cuál es la tarea." }
    upkeep_no_day { en: "This computer's clock gives no date; set it, then try again.", es: "El reloj de esta computadora no da una fecha; póngalo en hora y vuelva a intentar." }
    upkeep_no_number { en: "The interval or number of pieces must be a whole number of 1 or more.", es: "El intervalo o número de piezas debe ser un número entero de 1 o más." }
    upkeep_noted(what) { en: "Noted: {what}", es: "Anotado: {what}" }
    upkeep_saved { en: "The shop's tasks are changed.", es: "Se cambiaron las tareas del taller." }

    // The usual tasks, in the program's words.
    task_dust { en: "Clean off dust, hook scrap and belt crumbs", es: "Limpiar polvo, restos de ganchos y de banda" }
    task_cover { en: "Cover the press when work is done", es: "Tapar la prensa al terminar" }
    task_oil_chains { en: "Oil the chains and sprockets", es: "Lubricar cadenas y piñones" }
    task_oil_slides { en: "Oil the slides and pivots", es: "Lubricar guías y pivotes" }
    task_oil_rods { en: "Oil the threads of rods and nuts", es: "Lubricar roscas de tirantes y tuercas" }
    task_fluid { en: "Check the fluid level", es: "Revisar el nivel de fluido" }
    task_clean_jaws { en: "Clean the jaws", es: "Limpiar las mordazas" }
    task_jaw_check { en: "Check the jaws with a test piece", es: "Revisar las mordazas con una pieza de prueba" }
    task_gauge { en: "Have the gauge calibrated", es: "Mandar calibrar el instrumento" }

    // How they are.
    due_never { en: "due now: never noted", es: "toca ahora: nunca anotada" }
    due_not_since(day) { en: "not noted since {day}", es: "sin anotar desde el {day}" }
    due_since(days, day) { en: "{days} days late, was due {day}", es: "{days} días de atraso, tocaba el {day}" }
    due_measure_first { en: "due today: measure a piece before the press works", es: "toca hoy: mida una pieza antes de que la prensa trabaje" }
    due_on(day) { en: "due on {day}", es: "toca el {day}" }
    due_pieces_over(laced) { en: "due: pieces laced since, {laced}", es: "ya toca: piezas engrapadas desde entonces, {laced}" }
    due_pieces_left(left, counted) { en: "due in {left} pieces; pieces noted through {counted}", es: "toca en {left} piezas; piezas anotadas hasta el {counted}" }
    due_uncounted(laced) { en: "cannot be told: test pieces since, {laced}; pieces laced in production are not noted", es: "no se puede saber: piezas de prueba desde entonces, {laced}; las de producción no se anotan" }
    every_day { en: "every day", es: "cada día" }
    every_days(days) { en: "every {days} days", es: "cada {days} días" }
    every_pieces(pieces) { en: "every {pieces} laced pieces", es: "cada {pieces} piezas engrapadas" }
    every_default(every) { en: "{every} (usual)", es: "{every} (usual)" }
    last_done(every, day, who) { en: "{every}; last done {day}, {who}", es: "{every}; hecha el {day}, {who}" }
    last_measured(every, day, who) { en: "{every}; piece measured at the visit of {day}, {who}", es: "{every}; pieza medida en la visita del {day}, {who}" }
    last_said(day) { en: "holds until then by the visit of {day}", es: "vale hasta entonces según la visita del {day}" }
    noted_begun(task) { en: "nobody knew when: {task}", es: "nadie sabía cuándo: {task}" }
    noted_laced(pieces) { en: "pieces laced: {pieces}", es: "piezas engrapadas: {pieces}" }
    log_line(day, press, what, who) { en: "{day}, {press}: {what}, {who}", es: "{day}, {press}: {what}, {who}" }
    log_taken_back(line, by) { en: "{line} (taken back: {by})", es: "{line} (retirado: {by})" }

    // In the window.
    upkeep_day_hint { en: "The day it was done; an earlier one is fine.", es: "El día en que se hizo; puede ser uno pasado." }
    upkeep_foot { en: "Before hands go in: tell those affected, lock out, release what is stored, try that it does not start; jaw open and blocked. The machine's manual comes first.", es: "Antes de meter las manos: avise, ponga candado, libere la energía acumulada y pruebe que no arranca; mordaza abierta y bloqueada. Primero va el manual." }
    upkeep_all_points { en: "All safety points", es: "Todos los puntos de seguridad" }
    upkeep_fewer_points { en: "← Back to the list", es: "← Volver a la lista" }
    upkeep_measure { en: "Measure…", es: "Medir…" }
    upkeep_measure_of(press) { en: "Measure a piece: start the next visit of {press}", es: "Medir una pieza: comenzar la próxima visita de {press}" }
    upkeep_measured_only { en: "Measured, not checked off: a visit's measured piece is the check.", es: "No se marca, se mide: la pieza medida de una visita es la revisión." }
    upkeep_day { en: "Done on", es: "Se hizo el" }
    upkeep_note(number) { en: "Note as done: {number}", es: "Anotar como hechas: {number}" }
    upkeep_to_note { en: "✓ checked off; not noted yet", es: "✓ marcada; aún sin anotar" }
    upkeep_note_none { en: "Check off what was done", es: "Marque lo que se hizo" }
    upkeep_note_who(number) { en: "Note {number}: say who", es: "Anotar {number}: diga quién" }
    upkeep_undo(number) { en: "Take back what was just noted: {number}", es: "Retirar lo recién anotado: {number}" }
    upkeep_taken_back_many(number) { en: "Taken back: {number}", es: "Retiradas: {number}" }
    upkeep_note_needs { en: "Check off at least one task and say who.", es: "Marque al menos una tarea y diga quién." }
    upkeep_tick_of(task, whose, due) { en: "{task}, {whose}: {due}", es: "{task}, {whose}: {due}" }
    upkeep_tick_daily(number) { en: "All daily tasks: {number}", es: "Todas las tareas diarias: {number}" }
    upkeep_tick_all(number) { en: "All of these: {number}", es: "Todas estas: {number}" }
    upkeep_no_date(typed) { en: "“{typed}” is no date up to today. Type it like 2026-11-25.", es: "«{typed}» no es una fecha de hoy o antes. Escríbala como 2026-11-25." }
    upkeep_noted_many(number) { en: "Noted as done: {number}", es: "Anotadas como hechas: {number}" }
    upkeep_find_task { en: "Task", es: "Tarea" }
    upkeep_unknown(number) { en: "Never noted, so due: {number}", es: "Nunca anotadas, así que tocan: {number}" }
    upkeep_choose { en: "choose", es: "elegir" }
    upkeep_laced_press { en: "Laced on", es: "Engrapadas en" }
    upkeep_choose_press { en: "Choose the press they were laced on.", es: "Elija la prensa en que se engraparon." }
    upkeep_take_back_now { en: "Take it back", es: "Retirarla" }
    upkeep_later(number) { en: "Later: {number}", es: "Más adelante: {number}" }
    upkeep_note_pieces { en: "Note the pieces", es: "Anotar las piezas" }
    upkeep_laced_heading { en: "Pieces laced in production, since last noted", es: "Piezas engrapadas en producción, desde la última nota" }
    upkeep_pieces { en: "Number of pieces", es: "Número de piezas" }
    upkeep_due_part { en: "What is due", es: "Qué toca" }
    upkeep_log { en: "Log", es: "Registro" }
    upkeep_log_empty { en: "Nothing is noted yet.", es: "Todavía no hay nada anotado." }
    upkeep_take_back { en: "Take back…", es: "Retirar…" }
    upkeep_taken_back_by { en: "Taken back by", es: "La retira" }
    log_everything { en: "everything", es: "todo" }
    log_upkeep { en: "upkeep only", es: "solo mantenimiento" }
    log_pieces { en: "measured pieces only", es: "solo piezas medidas" }
    log_measured(outcome) { en: "piece measured: {outcome}", es: "pieza medida: {outcome}" }
    log_open { en: "Open visit", es: "Abrir visita" }
    log_open_of(line) { en: "Open the visit: {line}", es: "Abrir la visita: {line}" }
    upkeep_take_back_ask { en: "Take this line back? It stays in the log, crossed out, with your name.", es: "¿Retirar esta línea? Queda en el registro, retirada, con su nombre." }
    upkeep_who_first { en: "Say who it is first.", es: "Primero diga quién." }
    log_columns { en: "Date|Press or gauge|What|Who|", es: "Fecha|Prensa o instrumento|Qué|Quién|" }
    log_by(by) { en: "taken back: {by}", es: "retirado: {by}" }
    task_columns { en: "Task: click one to change it|How often|Taken from", es: "Tarea: oprima una para cambiarla|Cada cuánto|Tomado de" }
    task_from_shop { en: "the shop or the manual", es: "el taller o el manual" }
    task_from_default { en: "usual", es: "usual" }
    task_from_press { en: "this press", es: "esta prensa" }
    task_as_all(every) { en: "as on all presses: {every}", es: "como en todas las prensas: {every}" }
    task_own_interval { en: "an interval of its own", es: "un intervalo propio" }
    task_for_all { en: "For the whole shop", es: "Para todo el taller" }
    task_new { en: "A new task for all presses", es: "Tarea nueva para todas las prensas" }
    upkeep_all_presses { en: "all presses", es: "todas las prensas" }
    task_shown_with(line) { en: "Shown with it: {line}", es: "Se muestra con ella: {line}" }
    task_hidden { en: "hidden", es: "oculta" }
    upkeep_take_back_of(line) { en: "Take back: {line}", es: "Retirar: {line}" }
    upkeep_tasks { en: "The shop's tasks", es: "Las tareas del taller" }
    upkeep_change { en: "Change", es: "Cambiar" }
    upkeep_up { en: "Up", es: "Subir" }
    upkeep_down { en: "Down", es: "Bajar" }
    upkeep_hide { en: "Hide from what is due", es: "Quitar de lo que toca" }
    upkeep_show { en: "Show in what is due", es: "Mostrar en lo que toca" }
    upkeep_button_of(button, task) { en: "{button} {task}", es: "{button} {task}" }
    upkeep_add { en: "Add a task…", es: "Agregar una tarea…" }
    upkeep_words { en: "What is to be done", es: "Qué hay que hacer" }
    upkeep_interval { en: "Interval", es: "Intervalo" }
    upkeep_days { en: "days", es: "días" }
    upkeep_by_pieces { en: "laced pieces", es: "piezas engrapadas" }
    upkeep_interval_from { en: "Taken from", es: "Tomado de" }
    upkeep_keep { en: "Keep", es: "Guardar" }
    upkeep_add_it { en: "Add the task", es: "Agregar la tarea" }
    upkeep_keep_for_one { en: "Keep for this press only", es: "Guardar solo para esta prensa" }
    upkeep_keep_as_all { en: "Keep as on all presses", es: "Guardar como en todas" }
}
