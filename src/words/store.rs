//! Sentences about files: why one cannot be opened or saved, and where it is
//! damaged.

use std::path::Path;

use crate::session::Unsound;
use crate::store::{Damage, DiskProblem, MOST_BYTES, OpenProblem, OtherKind, SaveProblem};
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
            } => match found.is_empty() {
                true => words.unsound_row_unnamed(pass + 1, expected),
                false => words.unsound_row(pass + 1, expected, shortened(found)),
            },
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
            SaveProblem::NotConfirmed(problem) => {
                words.save_not_confirmed(words.disk_refusal(*problem))
            }
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

names! {
    other_kind(OtherKind) {
        Picture { en: "a picture", es: "una imagen" }
        Pdf { en: "a PDF document", es: "un documento PDF" }
        Packed { en: "a packed file, such as a spreadsheet", es: "un archivo comprimido, como una hoja de cálculo" }
        Utf16 {
            en: "text in UTF-16; save it as UTF-8 in the editor it comes from",
            es: "texto en UTF-16; guárdelo como UTF-8 en el editor del que viene"
        }
        Table { en: "a table, such as CSV", es: "una tabla, como CSV" }
        Text { en: "other text", es: "otro texto" }
        Press { en: "a press file; start the next visit from it instead", es: "un archivo de prensa; inicie con él la visita siguiente" }
        Practice { en: "a practice file; what was practiced never counts as work in the shop", es: "un archivo de práctica; lo practicado nunca cuenta como trabajo del taller" }
        Binary { en: "something other than text", es: "algo que no es texto" }
    }
}

texts! {
    with_path(sentence, path) { en: "{sentence} File: {path}", es: "{sentence} Archivo: {path}" }
    open_folder {
        en: "This is a folder. Choose a visit file (*.jawtrue).",
        es: "Esto es una carpeta. Elija un archivo de visita (*.jawtrue)."
    }
    open_device {
        en: "This cannot be read as a file. Choose a visit file (*.jawtrue).",
        es: "Esto no se puede leer como archivo. Elija un archivo de visita (*.jawtrue)."
    }
    open_too_large(found, most) {
        en: "This file is too large to be a visit: it has {found} MB, a visit has {most} MB at most. Choose a visit file (*.jawtrue).",
        es: "Este archivo es demasiado grande para ser una visita: tiene {found} MB y una visita tiene a lo más {most} MB. Elija un archivo de visita (*.jawtrue)."
    }
    open_empty {
        en: "This file is empty. Look beside it for a file whose name ends in .backup.",
        es: "Este archivo está vacío. Busque a su lado un archivo cuyo nombre termine en .backup."
    }
    open_other_kind(kind) {
        en: "This is not a visit file but {kind}. Choose a file whose name ends in .jawtrue.",
        es: "Esto no es un archivo de visita, sino {kind}. Elija un archivo cuyo nombre termine en .jawtrue."
    }
    open_no_press(found) {
        en: "This is not a press file (*.jawpress) but {found}. Choose a file whose name ends in .jawpress.",
        es: "Esto no es un archivo de prensa (*.jawpress) sino {found}. Elija un archivo cuyo nombre termine en .jawpress."
    }
    open_not_text(line, column) {
        en: "The file is damaged at line {line}, column {column}: there is something other than text. Look beside it for a file whose name ends in .backup.",
        es: "El archivo está dañado en la línea {line}, columna {column}: hay algo que no es texto. Busque a su lado un archivo cuyo nombre termine en .backup."
    }
    open_newer(found) {
        en: "This file has format {found}; this version of the program reads format 1. Open it with a newer version. The file is not changed.",
        es: "Este archivo tiene el formato {found}; esta versión del programa lee el formato 1. Ábralo con una versión más nueva. El archivo no cambia."
    }
    open_damaged(line, column, what) {
        en: "The file is damaged at line {line}, column {column}: {what}",
        es: "El archivo está dañado en la línea {line}, columna {column}: {what}"
    }
    open_unsound(what) {
        en: "The file can be read, but something in it can't be right: {what}",
        es: "El archivo se puede leer, pero algo en él no puede ser correcto: {what}"
    }
    unsound_row(pass, expected, found) {
        en: "Pass {pass}: the readings of measuring point “{expected}” should be here; these are for “{found}”.",
        es: "Pasada {pass}: aquí van las lecturas del punto de medición «{expected}»; estas son de «{found}»."
    }
    unsound_row_unnamed(pass, station) {
        en: "Pass {pass}: the readings of measuring point “{station}” should be here; these don't say of which point they are.",
        es: "Pasada {pass}: aquí van las lecturas del punto de medición «{station}»; estas no dicen de qué punto son."
    }
    unsound_remark(pass, station, reading) {
        en: "Pass {pass}, measuring point “{station}”: a remark is about reading {reading}, which is not there or already has a remark.",
        es: "Pasada {pass}, punto de medición «{station}»: una nota habla de la lectura {reading}, que no está o ya tiene una nota."
    }
    unsound_bare_remark(pass, reading) {
        en: "Pass {pass}: a remark is about reading {reading} of the bare belt, which is not there or already has a remark.",
        es: "Pasada {pass}: una nota habla de la lectura {reading} de la banda sin ganchos, que no está o ya tiene una nota."
    }
    damage_no_format {
        en: "“format: 1” must come first.",
        es: "«format: 1» debe ir primero."
    }
    damage_cut_short {
        en: "the file ends in the middle. Look beside it for a file whose name ends in .backup.",
        es: "el archivo termina a la mitad. Busque a su lado un archivo cuyo nombre termine en .backup."
    }
    damage_text_after_end {
        en: "there is more text after the last bracket.",
        es: "hay más texto después del último paréntesis."
    }
    damage_unknown_field(name) {
        en: "“{name}” is not known to this version; a newer one may have written it. The file is not changed.",
        es: "esta versión no conoce «{name}»; puede ser de una más nueva. El archivo no cambia."
    }
    damage_missing_field(name) {
        en: "“{name}” is missing before this bracket.",
        es: "falta «{name}» antes de este paréntesis."
    }
    damage_repeated_field(name) {
        en: "“{name}” is there twice.",
        es: "«{name}» está dos veces."
    }
    damage_length_place(found) { en: "length “{found}”", es: "medida «{found}»" }
    damage_no_unit(found) {
        en: "a length must have its unit, such as “0.2475 in” or “6.29 mm”; “{found}” has none that is known.",
        es: "una medida debe llevar su unidad, como «0.2475 in» o «6.29 mm»; «{found}» no lleva una conocida."
    }
    damage_unit(found) {
        en: "the unit must be “in” or “mm”; this is “{found}”.",
        es: "la unidad debe ser «in» o «mm»; aquí es «{found}»."
    }
    damage_date(found) {
        en: "must be a date such as 2026-11-25; “{found}” is not.",
        es: "debe ser una fecha como 2026-11-25; «{found}» no lo es."
    }
    damage_name(found) {
        en: "“{found}” is not known here to this version; a newer one may have written it. The file is not changed.",
        es: "esta versión no conoce aquí «{found}»; puede ser de una más nueva. El archivo no cambia."
    }
    damage_step(found) {
        en: "“{found}” is not a step or stage of the visit; a newer version may have written it.",
        es: "«{found}» no es un paso ni una etapa de la visita; puede ser de una versión más nueva."
    }
    damage_number {
        en: "must be a whole number.",
        es: "debe ser un número entero."
    }
    damage_text {
        en: "must be text between quotation marks.",
        es: "debe ser un texto entre comillas."
    }
    damage_escape {
        en: "a backslash here means nothing; write a backslash itself as \\\\.",
        es: "aquí una barra invertida no significa nada; la barra misma se escribe \\\\."
    }
    damage_true_or_false { en: "must be true or false.", es: "debe ser true o false." }
    damage_comma {
        en: "a comma or a closing bracket is missing.",
        es: "falta una coma o el paréntesis final."
    }
    damage_list { en: "must be a list in [ ].", es: "debe ser una lista entre [ ]." }
    damage_fields { en: "must be fields in ( ).", es: "deben ser campos entre ( )." }
    damage_too_deep {
        en: "too many brackets inside one another.",
        es: "demasiados paréntesis unos dentro de otros."
    }
    damage_syntax {
        en: "this does not follow the rules of the format.",
        es: "esto no sigue las reglas del formato."
    }
    comments_not_kept {
        en: "Somebody typed comments into this file. Saving cannot keep them; they stay in the file beside it whose name ends in .backup, until the save after.",
        es: "Alguien escribió comentarios en este archivo. Al guardar no se conservan; quedan en el archivo a su lado cuyo nombre termina en .backup, hasta el siguiente guardado."
    }
    save_refused(why) { en: "Not saved. {why}", es: "No se guardó. {why}" }
    save_not_confirmed(why) {
        en: "It was written, but the disk did not confirm it: {why} Do not enter it again; check the file after the next start.",
        es: "Se escribió, pero el disco no lo confirmó: {why} No lo capture de nuevo; revise el archivo en el próximo inicio."
    }
    save_exists {
        en: "Not saved: there is already a file of this name, and it is never overwritten. Choose another name.",
        es: "No se guardó: ya hay un archivo con este nombre y nunca se sobrescribe. Elija otro nombre."
    }
    save_changed {
        en: "Not saved: somebody else changed the file since it was opened. Save under another name, and compare the two.",
        es: "No se guardó: alguien más cambió el archivo desde que se abrió. Guarde con otro nombre y compare los dos."
    }
    save_not_a_file {
        en: "Not saved: this name is taken by a folder or a device. Choose another name.",
        es: "No se guardó: ese nombre ya es de una carpeta o un dispositivo. Elija otro nombre."
    }
    save_other_too_large {
        en: "Not saved: the file of this name is too large to be a visit and is not overwritten. Choose another name.",
        es: "No se guardó: el archivo con este nombre es demasiado grande para ser una visita y no se sobrescribe. Elija otro nombre."
    }
    save_too_large(found, most) {
        en: "Not saved: the visit would take {found} MB; {most} MB is the most. Take passes out that are not needed.",
        es: "No se guardó: la visita ocuparía {found} MB; lo más son {most} MB. Quite pasadas que no hagan falta."
    }
    save_unsound(why) {
        en: "Not saved, because it could not be opened again. {why}",
        es: "No se guardó, porque no se podría volver a abrir. {why}"
    }
    save_no_text {
        en: "Not saved: the visit cannot be written as text. Undo the last change and save again.",
        es: "No se guardó: la visita no se puede escribir como texto. Deshaga el último cambio y guarde otra vez."
    }
    disk_missing {
        en: "There is no such file or folder.",
        es: "No existe ese archivo o carpeta."
    }
    disk_denied {
        en: "The system does not allow it: the file or its folder is protected. Choose a folder of your own.",
        es: "El sistema no lo permite: el archivo o su carpeta está protegido. Elija una carpeta suya."
    }
    disk_full {
        en: "The disk is full. Make room and try again.",
        es: "El disco está lleno. Haga espacio e inténtelo otra vez."
    }
    disk_read_only {
        en: "This disk is read-only. Save somewhere else.",
        es: "Este disco es de solo lectura. Guarde en otro lugar."
    }
    disk_folder {
        en: "There is a folder of this name where a file should be. Choose another name.",
        es: "Hay una carpeta con este nombre donde debería haber un archivo. Elija otro nombre."
    }
    disk_name {
        en: "The system does not accept this name: it is too long or has a character that is not allowed. Choose a shorter one of letters and digits.",
        es: "El sistema no acepta este nombre: es muy largo o tiene un carácter no permitido. Elija uno más corto, de letras y números."
    }
    disk_busy {
        en: "Another program is using the file. Try again in a moment.",
        es: "Otro programa está usando el archivo. Inténtelo otra vez en un momento."
    }
    disk_error(number) {
        en: "The disk does not work as it should (error {number}). Save somewhere else and have the disk looked at.",
        es: "El disco no funciona bien (error {number}). Guarde en otro lugar y haga revisar el disco."
    }
    disk_unknown {
        en: "The disk does not work as it should. Save somewhere else and have the disk looked at.",
        es: "El disco no funciona bien. Guarde en otro lugar y haga revisar el disco."
    }
}
