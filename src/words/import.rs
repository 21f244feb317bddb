//! Sentences about readings that come from files and gauges.

use crate::store::{
    CsvCellProblem, CsvCellWrong, CsvFound, CsvProblem, MOST_READINGS_BYTES, ReadingsFileProblem,
};
use crate::store::{GaugeLineProblem, MOST_LINE_BYTES};
use crate::units::Unit;

use super::lengths::shortened;
use super::{Figures, Language};

impl Figures {
    /// Why nothing was read from a CSV file, a sentence for every place;
    /// `bare` is the unit of numbers without one.
    pub fn csv_sentences(&self, problem: &CsvProblem, bare: Unit) -> Vec<String> {
        let words = self.language;
        match problem {
            CsvProblem::Empty => vec![words.csv_empty().to_owned()],
            CsvProblem::Header(fields) => {
                let found = shortened(&fields.join(", "));
                vec![words.csv_header(found)]
            }
            &CsvProblem::Unnamed { found, stations } => vec![words.csv_unnamed(found, stations)],
            CsvProblem::NoSuchColumn(column) => vec![words.csv_no_such_column(column + 1)],
            CsvProblem::Cells(places) => places
                .iter()
                .map(|place| self.csv_place(place, bare))
                .collect(),
        }
    }

    fn csv_place(&self, place: &CsvCellProblem, bare: Unit) -> String {
        let words = self.language;
        let at = if place.header.is_empty() {
            words.csv_place_number(place.line, place.column)
        } else {
            words.csv_place_named(place.line, place.column, shortened(&place.header))
        };
        match &place.why {
            CsvCellWrong::Length(problem) => words.length_problem(&at, problem, bare),
            CsvCellWrong::TwoUnits(own, beside) => {
                words.csv_two_units(at, shortened(own), shortened(beside))
            }
            CsvCellWrong::OutOfBounds(problem) => self.reading_refused(&at, problem.found),
            CsvCellWrong::UnknownStation(name) => words.csv_unknown_station(at, shortened(name)),
            CsvCellWrong::SecondColumn(name) => words.csv_second_column(at, shortened(name)),
            CsvCellWrong::Missing => words.csv_missing(at),
            CsvCellWrong::BeyondLastColumn(text) => words.csv_beyond(at, shortened(text)),
            CsvCellWrong::TooManyReadings => words.csv_too_many(at),
            CsvCellWrong::DecimalComma(cut) => words.csv_cut(at, shortened(cut)),
        }
    }
}

/// A megabyte as files are measured.
const BYTES_PER_MB: u64 = 1024 * 1024;

impl Language {
    /// Why a file of readings cannot be read as text.
    pub fn readings_file_problem(self, problem: ReadingsFileProblem) -> String {
        match problem {
            ReadingsFileProblem::Disk(problem) => self.disk_refusal(problem),
            ReadingsFileProblem::Folder => self.csv_folder().to_owned(),
            ReadingsFileProblem::NotAFile => self.csv_device().to_owned(),
            ReadingsFileProblem::TooLarge(bytes) => self.csv_too_large(
                bytes.div_ceil(BYTES_PER_MB),
                MOST_READINGS_BYTES / BYTES_PER_MB,
            ),
            ReadingsFileProblem::NotText => self.csv_not_text().to_owned(),
        }
    }

    /// What is worth knowing of how a file was read, a sentence each.
    pub fn csv_notes(self, found: &CsvFound) -> Vec<String> {
        let mut notes = Vec::new();
        if let Some(first) = &found.decimal_comma {
            notes.push(self.csv_decimal_commas(first));
        }
        if !found.left_out.is_empty() {
            notes.push(self.csv_left_out(shortened(&found.left_out.join(", "))));
        }
        notes
    }

    /// How many readings were found.
    pub fn readings_found(self, count: usize) -> String {
        match count {
            1 => self.import_one_reading().to_owned(),
            count => self.import_readings(count),
        }
    }

    /// Why a line from a gauge is no reading.
    pub fn gauge_line_problem(self, problem: &GaugeLineProblem) -> String {
        match problem {
            GaugeLineProblem::NoNumber(found) => self.line_no_number(found),
            GaugeLineProblem::SeveralNumbers(found) => self.line_several_numbers(found),
            GaugeLineProblem::NotPlain(found) => self.line_not_plain(found),
            GaugeLineProblem::Negative(found) => self.line_negative(found),
            GaugeLineProblem::UnknownUnit(unit) => self.line_unknown_unit(unit),
            GaugeLineProblem::TooLong => self.line_too_long(MOST_LINE_BYTES),
        }
    }
}

texts! {
    csv_two_units(place, own, beside) {
        en: "{place}: the reading is in {own}, but the unit column says {beside}. Keep the right one of the two.",
        es: "{place}: la lectura está en {own}, pero la columna de unidad dice {beside}. Deje la correcta de las dos."
    }
    csv_empty {
        en: "The file is empty. Choose one with readings, such as a line “A 0.2500” for each arm.",
        es: "El archivo está vacío. Elija uno con lecturas, por ejemplo una línea «A 0.2500» por brazo."
    }
    import_title { en: "Import readings", es: "Importar lecturas" }
    command_import { en: "Import readings…", es: "Importar lecturas…" }
    import_button { en: "Import", es: "Importar" }
    import_text {
        en: "One pass at a time: paste the readings, or take them from a file. If one of them can't be read, none is taken.",
        es: "Una pasada a la vez: pegue las lecturas o tómelas de un archivo. Si una no se entiende, no se toma ninguna."
    }
    import_choose { en: "Use a file (CSV)…", es: "Usar un archivo (CSV)…" }
    import_paste_first { en: "Paste readings first, or choose a file.", es: "Primero pegue lecturas o elija un archivo." }
    import_paste { en: "Paste or type here: a line for each arm, one line with a reading for each arm, or a table from a spreadsheet", es: "Pegue o escriba aquí: una línea por brazo, una línea con una lectura por brazo, o una tabla de una hoja de cálculo" }
    import_has_header { en: "The first line names the columns", es: "La primera línea nombra las columnas" }
    import_by_hand { en: "Or say what each column holds:", es: "O diga qué tiene cada columna:" }
    import_line { en: "line", es: "línea" }
    import_column(number, role) { en: "Column {number}: {role}", es: "Columna {number}: {role}" }
    import_out { en: "left out", es: "se omite" }
    import_arm { en: "arm", es: "brazo" }
    import_reading { en: "reading", es: "lectura" }
    import_unit { en: "unit", es: "unidad" }
    import_bare { en: "Readings without a unit are in", es: "Las lecturas sin unidad están en" }
    import_goes_into { en: "They go into", es: "Van a" }
    import_new_pass { en: "a new pass, nothing turned before it", es: "una pasada nueva, sin giros antes" }
    import_new_pass_planned(turns) { en: "a new pass, nothing turned before it: {turns} was not done", es: "una pasada nueva, sin giros antes: no se hizo {turns}" }
    import_say_where { en: "Say where they go.", es: "Diga a dónde van." }
    import_into(pass) { en: "pass {pass}", es: "la pasada {pass}" }
    import_after(pass) { en: "pass {pass}, after its readings", es: "la pasada {pass}, tras sus lecturas" }
    import_in_place(pass, count) { en: "pass {pass}, in place of its {count} readings; Undo brings them back", es: "la pasada {pass}, en lugar de sus {count} lecturas; Deshacer las devuelve" }
    import_one_reading { en: "Understood: 1 reading", es: "Se entendió 1 lectura" }
    import_readings(count) { en: "Understood: {count} readings", es: "Se entendieron {count} lecturas" }
    import_other_unit(unit, taken) {
        en: "These look like {unit}, not {taken}.",
        es: "Estas parecen estar en {unit}, no en {taken}."
    }
    import_read_as(unit) { en: "Read them as {unit}", es: "Leerlas en {unit}" }
    import_new_ones { en: "new", es: "nuevas" }
    import_go { en: "taken out", es: "se quitan" }
    import_nothing { en: "Nothing can be imported yet:", es: "Todavía no se puede importar nada:" }
    import_take { en: "Import them", es: "Importarlas" }
    import_without(stations) { en: "Import without {stations}", es: "Importar sin {stations}" }
    import_replace(count) { en: "Replace {count} readings", es: "Reemplazar {count} lecturas" }
    import_replace_without(count, stations) { en: "Replace {count}, none for {stations}", es: "Reemplazar {count}, sin {stations}" }
    import_goes(pass, count) { en: "Pass {pass}: its {count} readings are taken out.", es: "Pasada {pass}: se quitan sus {count} lecturas." }
    said_imported(pass) {
        en: "Readings imported into pass {pass}. One undo takes them all back.",
        es: "Lecturas importadas en la pasada {pass}. Un solo deshacer las quita todas."
    }
    csv_nothing_imported(path) {
        en: "Nothing was imported from {path}:",
        es: "No se importó nada de {path}:"
    }
    csv_no_reading {
        en: "There is a heading, but no reading below it. Add lines such as “A 0.2500”.",
        es: "Hay encabezado, pero ninguna lectura debajo. Agregue líneas como «A 0.2500»."
    }
    csv_and_more {
        en: "There may be more; only the first are listed.",
        es: "Puede haber más; solo se muestran los primeros."
    }
    csv_not_read(stations) {
        en: "No reading for {stations}.",
        es: "Sin lectura en {stations}."
    }
    csv_decimal_commas(first) {
        en: "The file has decimal commas, and commas between its columns as well; the first reading was taken as {first}. Check it.",
        es: "El archivo tiene comas decimales y también comas entre columnas; la primera lectura se tomó como {first}. Revísela."
    }
    csv_left_out(columns) {
        en: "Columns not used: {columns}.",
        es: "Columnas sin usar: {columns}."
    }
    csv_cut(place, found) {
        en: "{place}: “{found}” may be cut at a decimal comma, because commas also separate the columns. Separate the columns with semicolons, or write whole numbers with a point (6.0).",
        es: "{place}: «{found}» puede estar cortado en una coma decimal, porque también hay comas entre las columnas. Separe las columnas con punto y coma, o escriba los números enteros con punto (6.0)."
    }
    csv_too_large(found, most) {
        en: "The file has {found} MB; a file of readings may have {most} MB at most. Choose the right file.",
        es: "El archivo tiene {found} MB; uno de lecturas puede tener a lo más {most} MB. Elija el archivo correcto."
    }
    csv_folder {
        en: "This is a folder. Choose a CSV file of readings.",
        es: "Esto es una carpeta. Elija un archivo CSV de lecturas."
    }
    csv_device {
        en: "This is not a file. Choose a CSV file of readings.",
        es: "Esto no es un archivo. Elija un archivo CSV de lecturas."
    }
    csv_not_text {
        en: "This file is not text. Save it as CSV in the spreadsheet first.",
        es: "El archivo no es texto. Guárdelo primero como CSV en la hoja de cálculo."
    }
    csv_header(found) {
        en: "The readings could not be told apart. Put the arm first on each line, “A 0.2500 0.2505”, or name the columns in the first line, “arm,reading” or “A,B,C,D”; it is “{found}”.",
        es: "No se pudo saber qué lectura es de qué brazo. Ponga el brazo al inicio de cada línea, «A 0.2500 0.2505», o nombre las columnas en la primera línea, «brazo,lectura» o «A,B,C,D»; dice «{found}»."
    }
    csv_unnamed(found, stations) {
        en: "There are {stations} measuring points; found {found} readings without the name of an arm. Give one reading for each point from the left, or put the arm first on each line: “A 0.2500 0.2505”.",
        es: "Hay {stations} puntos de medición; se encontraron {found} lecturas sin el nombre de un brazo. Dé una lectura por punto desde la izquierda, o ponga el brazo al inicio de cada línea: «A 0.2500 0.2505»."
    }
    csv_no_such_column(column) {
        en: "No line has a column {column}. Choose another column.",
        es: "Ninguna línea tiene columna {column}. Elija otra columna."
    }
    csv_place_number(line, column) { en: "Line {line}, column {column}", es: "Línea {line}, columna {column}" }
    csv_place_named(line, column, header) {
        en: "Line {line}, column {column} ({header})",
        es: "Línea {line}, columna {column} ({header})"
    }
    csv_unknown_station(place, name) {
        en: "{place}: this press has no arm or measuring point “{name}”. Type its letter, A for the first arm from the operator's left.",
        es: "{place}: esta prensa no tiene brazo ni punto de medición «{name}». Escriba su letra, A para el primer brazo desde la izquierda del operador."
    }
    csv_second_column(place, name) {
        en: "{place}: {name} has a column already. Keep one of the two.",
        es: "{place}: {name} ya tiene columna. Deje una de las dos."
    }
    csv_missing(place) {
        en: "{place}: the arm or its reading is missing. Fill it in, or take the line out.",
        es: "{place}: falta el brazo o su lectura. Llénelo o quite la línea."
    }
    csv_beyond(place, text) {
        en: "{place}: “{text}” is past the last column that the heading names. Take it out, or name its column; with decimal commas, separate the columns with semicolons.",
        es: "{place}: «{text}» está después de la última columna del encabezado. Quítelo o nombre su columna; si hay comas decimales, separe las columnas con punto y coma."
    }
    csv_too_many(place) {
        en: "{place}: too many readings at one measuring point. Import one pass at a time.",
        es: "{place}: demasiadas lecturas en un punto de medición. Importe una pasada a la vez."
    }
    line_no_number(found) {
        en: "The gauge sent “{found}”: there is no number in it. Send the reading again; if it keeps on, check speed and parity.",
        es: "El instrumento envió «{found}»: no hay ningún número. Envíe la lectura otra vez; si sigue igual, revise velocidad y paridad."
    }
    line_several_numbers(found) {
        en: "The gauge sent “{found}”: more than one number, and it is not clear which is the reading. Set it to send one number a line.",
        es: "El instrumento envió «{found}»: más de un número, y no está claro cuál es la lectura. Póngalo para que envíe un número por línea."
    }
    line_not_plain(found) {
        en: "The gauge sent “{found}”, not a plain number such as 0.2475. Set it to send plain numbers.",
        es: "El instrumento envió «{found}», que no es un número simple como 0.2475. Póngalo para que envíe números simples."
    }
    line_negative(found) {
        en: "The gauge sent “{found}”: a thickness below zero. Set the gauge to zero on closed jaws.",
        es: "El instrumento envió «{found}»: un espesor menor que cero. Ponga el instrumento en cero con las puntas cerradas."
    }
    line_unknown_unit(unit) {
        en: "The gauge sends “{unit}”. Set it to inches or millimeters.",
        es: "El instrumento envía «{unit}». Póngalo en pulgadas o milímetros."
    }
    line_too_long(bytes) {
        en: "The gauge sent more than {bytes} characters without an end of line. Check port, speed and line ending.",
        es: "El instrumento envió más de {bytes} caracteres sin fin de línea. Revise puerto, velocidad y fin de línea."
    }
}
