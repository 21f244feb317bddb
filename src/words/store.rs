//! Sentences about files: why one cannot be opened or saved, and where it is
//! damaged.

use std::path::Path;

use crate::store::{Damage, DiskProblem, MOST_BYTES, OpenProblem, OtherKind, SaveProblem, Unsound};
use crate::units::Unit;

use super::lengths::shortened;
use super::{Figures, Language};

const BYTES_PER_MB: u64 = 1024 * 1024;

impl Figures {
    /// Why a file cannot be opened, its path last.
    pub fn open_problem(&self, problem: &OpenProblem, path: &Path) -> String {
        self.language
            .with_path(self.why_not_opened(problem), path.display())
    }

    /// Why a file was not saved, its path last.
    pub fn save_problem(&self, problem: &SaveProblem, path: &Path) -> String {
        self.language
            .with_path(self.why_not_saved(problem), path.display())
    }

    /// What a disk refused to do, the path last.
    pub fn disk_problem(&self, problem: DiskProblem, path: &Path) -> String {
        self.language
            .with_path(self.language.disk_refusal(problem), path.display())
    }

    /// Why a file cannot be opened, without its path.
    pub fn why_not_opened(&self, problem: &OpenProblem) -> String {
        let words = self.language;
        match problem {
            OpenProblem::Disk(problem) => words.disk_refusal(*problem),
            OpenProblem::Folder => words.open_folder().to_owned(),
            OpenProblem::NotAFile => words.open_device().to_owned(),
            OpenProblem::TooLarge(bytes) => {
                words.open_too_large(bytes.div_ceil(BYTES_PER_MB), MOST_BYTES / BYTES_PER_MB)
            }
            OpenProblem::Empty => words.open_empty().to_owned(),
            OpenProblem::NoPress(instead) => words.open_no_press(words.instead(*instead)),
            OpenProblem::NoPractice(instead) => words.open_no_practice(words.instead(*instead)),
            OpenProblem::UnsoundPractice(problem) => {
                words.open_unsound(words.unsound_practice(*problem))
            }
            OpenProblem::OtherKind(kind) => words.open_other_kind(words.other_kind(*kind)),
            OpenProblem::NotText(place) => words.open_not_text(place.line, place.column),
            OpenProblem::NewerFormat(found) => words.open_newer(found),
            OpenProblem::Damaged(place, damage) => {
                words.open_damaged(place.line, place.column, words.damage(damage))
            }
            OpenProblem::Unsound(problem) => words.open_unsound(self.unsound(problem)),
        }
    }

    fn unsound(&self, problem: &Unsound) -> String {
        let words = self.language;
        match problem {
            Unsound::Session(problem) => self.session_problem(problem),
            Unsound::RowOfOtherStation {
                pass,
                expected,
                found,
            } => words.unsound_row(pass + 1, expected, shortened(found)),
            Unsound::NoSuchReading {
                pass,
                station,
                reading,
            } => words.unsound_remark(pass + 1, shortened(station), reading),
            Unsound::TraceOfNothing { pass } => words.trace_of_nothing(pass + 1),
            Unsound::NoSuchBareReading { pass, reading } => {
                words.unsound_bare_remark(pass + 1, reading)
            }
        }
    }

    /// Why a file was not saved, without its path.
    pub fn why_not_saved(&self, problem: &SaveProblem) -> String {
        let words = self.language;
        match problem {
            SaveProblem::Disk(problem) => words.save_refused(words.disk_refusal(*problem)),
            SaveProblem::Exists => words.save_exists().to_owned(),
            SaveProblem::ChangedOnDisk => words.save_changed().to_owned(),
            SaveProblem::NotAFile => words.save_not_a_file().to_owned(),
            SaveProblem::OtherFileTooLarge => words.save_other_too_large().to_owned(),
            SaveProblem::TooLarge(bytes) => {
                words.save_too_large(bytes.div_ceil(BYTES_PER_MB), MOST_BYTES / BYTES_PER_MB)
            }
            SaveProblem::Unsound(problem) => words.save_unsound(self.session_problem(problem)),
            SaveProblem::NoText => words.save_no_text().to_owned(),
        }
    }
}

impl Language {
    /// What a disk refused to do.
    pub fn disk_refusal(self, problem: DiskProblem) -> String {
        let sentence = match problem {
            DiskProblem::Missing => self.disk_missing(),
            DiskProblem::Denied => self.disk_denied(),
            DiskProblem::Full => self.disk_full(),
            DiskProblem::ReadOnly => self.disk_read_only(),
            DiskProblem::Folder => self.disk_folder(),
            DiskProblem::Name => self.disk_name(),
            DiskProblem::Busy => self.disk_busy(),
            DiskProblem::Other(Some(number)) => return self.disk_error(number),
            DiskProblem::Other(None) => self.disk_unknown(),
        };
        sentence.to_owned()
    }

    fn other_kind(self, kind: OtherKind) -> &'static str {
        match kind {
            OtherKind::Picture => self.kind_picture(),
            OtherKind::Pdf => self.kind_pdf(),
            OtherKind::Packed => self.kind_packed(),
            OtherKind::Utf16 => self.kind_utf16(),
            OtherKind::Table => self.kind_table(),
            OtherKind::Text => self.kind_text(),
            OtherKind::Press => self.kind_press(),
            OtherKind::Practice => self.kind_practice(),
            OtherKind::Binary => self.kind_binary(),
        }
    }

    fn damage(self, damage: &Damage) -> String {
        let sentence = match damage {
            Damage::NoFormat => self.damage_no_format(),
            Damage::CutShort => self.damage_cut_short(),
            Damage::TextAfterEnd => self.damage_text_after_end(),
            Damage::UnknownField(name) => return self.damage_unknown_field(shortened(name)),
            Damage::MissingField(name) => return self.damage_missing_field(name),
            Damage::RepeatedField(name) => return self.damage_repeated_field(name),
            Damage::Length(found, problem) => {
                let place = self.damage_length_place(shortened(found));
                return self.length_problem(&place, problem, Unit::Inch);
            }
            Damage::LengthWithoutUnit(found) => return self.damage_no_unit(shortened(found)),
            Damage::Unit(found) => return self.damage_unit(shortened(found)),
            Damage::Date(found) => return self.damage_date(shortened(found)),
            Damage::Name(found) => return self.damage_name(shortened(found)),
            Damage::Step(found) => return self.damage_step(shortened(found)),
            Damage::Number => self.damage_number(),
            Damage::Text => self.damage_text(),
            Damage::Escape => self.damage_escape(),
            Damage::TrueOrFalse => self.damage_true_or_false(),
            Damage::Comma => self.damage_comma(),
            Damage::List => self.damage_list(),
            Damage::Fields => self.damage_fields(),
            Damage::TooDeep => self.damage_too_deep(),
            Damage::Syntax => self.damage_syntax(),
        };
        sentence.to_owned()
    }
}

texts! {
    with_path(sentence, path) { en: "{sentence} File: {path}", es: "{sentence} Archivo: {path}" }
    open_folder {
        en: "This is a folder; expected a session file (*.jawtrue).",
        es: "Esto es una carpeta; se esperaba un archivo de sesión (*.jawtrue)."
    }
    open_device {
        en: "This is a device or a pipe; expected a session file (*.jawtrue).",
        es: "Esto es un dispositivo o una tubería; se esperaba un archivo de sesión (*.jawtrue)."
    }
    open_too_large(found, most) {
        en: "This file is too large to be a session: expected {most} MB at most, found {found} MB.",
        es: "Este archivo es demasiado grande para ser una sesión: se esperaban a lo más {most} MB y tiene {found} MB."
    }
    open_empty {
        en: "This file is empty; expected a session. An earlier state may stand beside it, its name ending in .backup.",
        es: "Este archivo está vacío; se esperaba una sesión. Puede haber un estado anterior a su lado, con nombre terminado en .backup."
    }
    open_other_kind(kind) {
        en: "Expected a session file, which begins with “(format: 1”; found {kind}.",
        es: "Se esperaba un archivo de sesión, que empieza con «(format: 1»; se encontró {kind}."
    }
    kind_picture { en: "a picture", es: "una imagen" }
    kind_pdf { en: "a PDF document", es: "un documento PDF" }
    kind_packed { en: "a packed file, such as a spreadsheet", es: "un archivo comprimido, como una hoja de cálculo" }
    kind_utf16 {
        en: "text in UTF-16; save it as UTF-8 in the editor it comes from",
        es: "texto en UTF-16; guárdelo como UTF-8 en el editor del que viene"
    }
    kind_table { en: "a table, such as CSV", es: "una tabla, como CSV" }
    kind_text { en: "other text", es: "otro texto" }
    kind_press { en: "a press file; start the next visit from it instead", es: "un archivo de prensa; inicie con él la visita siguiente" }
    open_no_press(found) {
        en: "Expected a press file (*.jawpress), which begins with “(press_format: 1”; found {found}.",
        es: "Se esperaba un archivo de prensa (*.jawpress), que empieza con «(press_format: 1»; se encontró {found}."
    }
    kind_binary { en: "something that is no text", es: "algo que no es texto" }
    open_not_text(line, column) {
        en: "The file is damaged at line {line}, column {column}: expected text in UTF-8, found other bytes. An earlier state may stand beside it, its name ending in .backup.",
        es: "El archivo está dañado en la línea {line}, columna {column}: se esperaba texto en UTF-8 y hay otros bytes. Puede haber un estado anterior a su lado, con nombre terminado en .backup."
    }
    open_newer(found) {
        en: "This file has format {found}; this version of the program reads format 1. Open it with a newer version. The file stays as it is.",
        es: "Este archivo tiene el formato {found}; esta versión del programa lee el formato 1. Ábralo con una versión más nueva. El archivo queda como está."
    }
    open_damaged(line, column, what) {
        en: "The file is damaged at line {line}, column {column}: {what}",
        es: "El archivo está dañado en la línea {line}, columna {column}: {what}"
    }
    open_unsound(what) {
        en: "The file can be read, but not everything in it can be so: {what}",
        es: "El archivo se puede leer, pero no todo lo que dice puede ser: {what}"
    }
    unsound_row(pass, expected, found) {
        en: "Pass {pass}: expected the readings of station “{expected}” in this place, found those of “{found}”.",
        es: "Pasada {pass}: se esperaban aquí las lecturas de la estación «{expected}» y están las de «{found}»."
    }
    unsound_remark(pass, station, reading) {
        en: "Pass {pass}, station “{station}”: a remark is about reading {reading}, which is not there or is remarked on already.",
        es: "Pasada {pass}, estación «{station}»: una nota habla de la lectura {reading}, que no está o ya tiene una nota."
    }
    unsound_bare_remark(pass, reading) {
        en: "Pass {pass}: a remark is about reading {reading} of the bare belt, which is not there or is remarked on already.",
        es: "Pasada {pass}: una nota habla de la lectura {reading} de la banda sola, que no está o ya tiene una nota."
    }
    damage_no_format {
        en: "expected “format: 1” first.",
        es: "se esperaba primero «format: 1»."
    }
    damage_cut_short {
        en: "the file ends in the middle. An earlier state may stand beside it, its name ending in .backup.",
        es: "el archivo termina a la mitad. Puede haber un estado anterior a su lado, con nombre terminado en .backup."
    }
    damage_text_after_end {
        en: "expected nothing more after the last bracket, found more text.",
        es: "no se esperaba nada después del último paréntesis y hay más texto."
    }
    damage_unknown_field(name) {
        en: "found “{name}”, which this version does not know. A newer version may have written it. The file stays as it is.",
        es: "se encontró «{name}», que esta versión no conoce. Puede ser de una versión más nueva. El archivo queda como está."
    }
    damage_missing_field(name) {
        en: "expected “{name}” before this bracket, but it is missing.",
        es: "se esperaba «{name}» antes de este paréntesis y falta."
    }
    damage_repeated_field(name) {
        en: "expected “{name}” once, found it twice.",
        es: "se esperaba «{name}» una vez y está dos veces."
    }
    damage_length_place(found) { en: "length “{found}”", es: "medida «{found}»" }
    damage_no_unit(found) {
        en: "expected a length with its unit, such as “0.2475 in” or “6.29 mm”, found “{found}”.",
        es: "se esperaba una medida con su unidad, como «0.2475 in» o «6.29 mm», y se encontró «{found}»."
    }
    damage_unit(found) {
        en: "expected “in” or “mm”, found “{found}”.",
        es: "se esperaba «in» o «mm» y se encontró «{found}»."
    }
    damage_date(found) {
        en: "expected a date such as 2026-11-25, found “{found}”.",
        es: "se esperaba una fecha como 2026-11-25 y se encontró «{found}»."
    }
    damage_name(found) {
        en: "found “{found}”, which this version does not know here. A newer version may have written it. The file stays as it is.",
        es: "se encontró «{found}», que esta versión no conoce aquí. Puede ser de una versión más nueva. El archivo queda como está."
    }
    damage_step(found) {
        en: "expected a step or stage of the visit, found “{found}”. A newer version of the program may have written it.",
        es: "se esperaba un paso o una etapa de la visita y se encontró «{found}». Tal vez lo escribió una versión más nueva del programa."
    }
    damage_number {
        en: "expected a whole number.",
        es: "se esperaba un número entero."
    }
    damage_text {
        en: "expected text between quotation marks.",
        es: "se esperaba un texto entre comillas."
    }
    damage_escape {
        en: "this text holds a backslash that means nothing; a backslash itself is written \\\\.",
        es: "este texto tiene una barra invertida que no significa nada; la barra misma se escribe \\\\."
    }
    damage_true_or_false { en: "expected true or false.", es: "se esperaba true o false." }
    damage_comma {
        en: "expected a comma or a closing bracket.",
        es: "se esperaba una coma o el cierre del paréntesis."
    }
    damage_list { en: "expected a list in [ ].", es: "se esperaba una lista entre [ ]." }
    damage_fields { en: "expected fields in ( ).", es: "se esperaban campos entre ( )." }
    damage_too_deep {
        en: "expected fewer brackets inside one another.",
        es: "se esperaban menos paréntesis unos dentro de otros."
    }
    damage_syntax {
        en: "this does not follow the rules of the format.",
        es: "esto no sigue las reglas del formato."
    }
    save_refused(why) { en: "Not saved. {why}", es: "No se guardó. {why}" }
    save_exists {
        en: "Not saved: a file of this name exists already and is never written over. Choose another name.",
        es: "No se guardó: ya hay un archivo con este nombre y nunca se sobrescribe. Elija otro nombre."
    }
    save_changed {
        en: "Not saved: somebody else changed the file since it was opened.",
        es: "No se guardó: alguien más cambió el archivo desde que se abrió."
    }
    save_not_a_file {
        en: "Not saved: a folder or a device has this name.",
        es: "No se guardó: una carpeta o un dispositivo tiene este nombre."
    }
    save_other_too_large {
        en: "Not saved: the file of this name is too large to be a session and is not written over.",
        es: "No se guardó: el archivo con este nombre es demasiado grande para ser una sesión y no se sobrescribe."
    }
    save_too_large(found, most) {
        en: "Not saved: the session would take {found} MB; expected {most} MB at most.",
        es: "No se guardó: la sesión ocuparía {found} MB; se esperaban a lo más {most} MB."
    }
    save_unsound(why) {
        en: "Not saved, since it could not be opened again. {why}",
        es: "No se guardó, porque no se podría volver a abrir. {why}"
    }
    save_no_text {
        en: "Not saved: the session cannot be written as text.",
        es: "No se guardó: la sesión no se puede escribir como texto."
    }
    disk_missing {
        en: "There is no such file or folder.",
        es: "No hay tal archivo o carpeta."
    }
    disk_denied {
        en: "The system does not permit it: the file or its folder is protected.",
        es: "El sistema no lo permite: el archivo o su carpeta está protegido."
    }
    disk_full {
        en: "The disk is full. Make room and try again.",
        es: "El disco está lleno. Haga espacio e inténtelo otra vez."
    }
    disk_read_only {
        en: "This disk can only be read.",
        es: "En este disco solo se puede leer."
    }
    disk_folder {
        en: "A folder stands where a file is expected.",
        es: "Hay una carpeta donde se esperaba un archivo."
    }
    disk_name {
        en: "The system does not take this name: it is too long or holds a character that is not allowed.",
        es: "El sistema no acepta este nombre: es muy largo o tiene un carácter no permitido."
    }
    disk_busy {
        en: "Another program is busy with the file. Try again in a moment.",
        es: "Otro programa está usando el archivo. Inténtelo otra vez en un momento."
    }
    disk_error(number) {
        en: "The disk reports error {number}.",
        es: "El disco informa del error {number}."
    }
    disk_unknown {
        en: "The disk reports an error without a number.",
        es: "El disco informa de un error sin número."
    }
}
