//! Readings as people write them down, without columns: an arm and its
//! readings a line, or readings alone in the order of the stations.

use crate::press::{CountQuantity, LengthQuantity};
use crate::units::{Sign, TypedLength};

use super::csv_columns::{READING, ROUND, STATION, means};
use super::decimal_commas;
use super::{CsvCellProblem, CsvCellWrong, CsvFound, CsvProblem, CsvReading, MOST_PROBLEMS};

/// Most lines of heading above the readings.
const MOST_HEADINGS: usize = 3;

/// What a heading tells.
#[derive(Default)]
struct Heading<'a> {
    lines: Vec<&'a str>,
    /// The stations that it names, in its order; none where it is prose.
    order: Vec<usize>,
    /// The unit that it names.
    unit: Option<&'a str>,
}

/// A line of readings.
struct Line<'a> {
    /// Line of the text, from 1.
    number: u64,
    /// Its station; `Err` holds a name that no station has.
    station: Option<Result<usize, &'a str>>,
    readings: Vec<String>,
}

/// Reads lines such as `A 0.2500 0.2505`, `Arm B: 0.2475, 0.2480`, a line of
/// one reading per station, or as many lines as there are stations. Up to
/// three lines of heading may stand above; one that names the stations orders
/// the readings, one that names a unit gives it to readings without one.
///
/// # Errors
/// [`CsvProblem::Header`] where this is no such text,
/// [`CsvProblem::Unnamed`] where readings alone fit no order of the stations,
/// [`CsvProblem::Cells`] for what is wrong in it.
pub(super) fn read(
    text: &str,
    reading: &CsvReading<'_>,
    header: CsvProblem,
) -> Result<CsvFound, CsvProblem> {
    let decimal = are_decimal(text);
    let mut heading = Heading::default();
    let mut lines: Vec<Line<'_>> = Vec::new();
    let mut problems = Vec::new();
    for (number, whole) in (1..).zip(text.lines()) {
        let whole = whole.trim_matches(|c: char| c.is_whitespace() || c == '\u{feff}');
        if whole.is_empty() {
            continue;
        }
        let (station, rest) = station_of(whole, reading.stations);
        if lines.is_empty() && heading.takes(whole, station.is_some(), reading.stations) {
            if heading.lines.len() > MOST_HEADINGS {
                return Err(header);
            }
            continue;
        }
        let line = Line {
            number,
            station,
            readings: readings_of(rest, decimal),
        };
        if problems.len() >= MOST_PROBLEMS {
            break;
        }
        if let Some(cut) = cut_in_two(rest, decimal) {
            problems.push(line.wrong(0, CsvCellWrong::DecimalComma(cut)));
        }
        lines.push(line);
    }
    let first = lines.first();
    let numbers = |line: &Line<'_>| line.readings.iter().any(|text| has_digit(text));
    if !first.is_some_and(numbers) || heading.names_other_columns(first) {
        return Err(header);
    }
    let places = if lines.iter().any(|line| line.station.is_some()) {
        named(&lines, &mut problems)
    } else {
        in_order(&lines, &heading, reading.stations.len(), header)?
    };
    let mut rows = vec![Vec::new(); reading.stations.len()];
    for (line, places) in lines.iter().zip(places) {
        // Of a line without a station that is said already.
        let lost = places.is_empty();
        for (index, text) in line.readings.iter().enumerate() {
            if problems.len() >= MOST_PROBLEMS {
                break;
            }
            let place = places
                .get(index)
                .or(places.last().filter(|_| line.station.is_some()));
            let kept = length(text, heading.unit, reading).and_then(|text| {
                let row = place.and_then(|place| rows.get_mut(*place));
                let Some(row) = row else {
                    let beyond = CsvCellWrong::BeyondLastColumn(text);
                    return if lost { Ok(()) } else { Err(beyond) };
                };
                if row.len() as i64 >= CountQuantity::Repeats.bounds().most {
                    return Err(CsvCellWrong::TooManyReadings);
                }
                row.push(text);
                Ok(())
            });
            problems.extend(kept.err().map(|why| line.wrong(index, why)));
        }
    }
    if !problems.is_empty() {
        problems.sort_by_key(|problem| (problem.line, problem.column));
        return Err(CsvProblem::Cells(problems));
    }
    Ok(CsvFound {
        rows,
        ..CsvFound::default()
    })
}

impl<'a> Heading<'a> {
    /// Takes a line for one of the heading, where it is one.
    fn takes(&mut self, line: &'a str, begins_with_arm: bool, stations: &[String]) -> bool {
        let tokens: Vec<&str> = line.split(is_between).filter(|it| !it.is_empty()).collect();
        let names: Vec<Option<usize>> = tokens.iter().map(|it| known(it, stations)).collect();
        let order: Option<Vec<usize>> = names.into_iter().collect();
        if let Some(order) = order.filter(|order| order.len() > 1) {
            self.order = order;
        } else if begins_with_arm || line.starts_with(begins_number) {
            return false;
        }
        self.unit = self.unit.or(tokens.into_iter().find_map(unit_of_heading));
        self.lines.push(line);
        true
    }

    /// Whether it names columns that may be no readings: as many as the first
    /// line has, and neither counted nor called readings.
    fn names_other_columns(&self, first: Option<&Line<'_>>) -> bool {
        let (Some(last), Some(first)) = (self.lines.last(), first) else {
            return false;
        };
        let width = first.readings.len() + usize::from(first.station.is_some());
        let by: &[char] = if last.contains([',', ';', '\t']) {
            &[',', ';', '\t']
        } else {
            &[' ']
        };
        let names: Vec<&str> = last.split(by).filter(|it| !it.trim().is_empty()).collect();
        let is_reading = |name: &&str| {
            let name = name.trim();
            let counted = name.chars().any(|c| c.is_ascii_digit());
            counted
                || [&STATION[..], &READING, &ROUND]
                    .iter()
                    .any(|of| means(of, name))
        };
        let several = first.readings.len() > 1 && self.order.is_empty();
        several && names.len() == width && !names.iter().all(is_reading)
    }
}

impl Line<'_> {
    fn wrong(&self, reading: usize, why: CsvCellWrong) -> CsvCellProblem {
        CsvCellProblem {
            line: self.number,
            column: reading + 1 + usize::from(self.station.is_some()),
            header: String::new(),
            why,
        }
    }
}

/// Where the readings of each line go, by the names before them.
fn named(lines: &[Line<'_>], problems: &mut Vec<CsvCellProblem>) -> Vec<Vec<usize>> {
    let mut places = Vec::with_capacity(lines.len());
    for line in lines {
        let why = match line.station {
            Some(Ok(station)) => {
                places.push(vec![station]);
                continue;
            }
            Some(Err(name)) => CsvCellWrong::UnknownStation(name.to_owned()),
            None => CsvCellWrong::Missing,
        };
        places.push(Vec::new());
        if problems.len() < MOST_PROBLEMS {
            let mut problem = line.wrong(0, why);
            problem.column = 1;
            problems.push(problem);
        }
    }
    places
}

/// Where the readings of each line go, by their order.
fn in_order(
    lines: &[Line<'_>],
    heading: &Heading<'_>,
    stations: usize,
    header: CsvProblem,
) -> Result<Vec<Vec<usize>>, CsvProblem> {
    if !heading.order.is_empty() {
        return Ok(vec![heading.order.clone(); lines.len()]);
    }
    let numbers = |line: &Line<'_>| line.readings.iter().all(|it| it.starts_with(begins_number));
    if !lines.iter().all(numbers) {
        return Err(header);
    }
    let round = |line: &Line<'_>| line.readings.len() == stations;
    let rounds = lines.iter().all(round);
    let a_line_each = lines.len() == stations && !lines.iter().any(round);
    if rounds && lines.len() != stations {
        return Ok(vec![(0..stations).collect(); lines.len()]);
    }
    if a_line_each {
        let all = |(station, line): (usize, &Line<'_>)| vec![station; line.readings.len()];
        return Ok(lines.iter().enumerate().map(all).collect());
    }
    if heading.lines.is_empty() {
        let found = lines.iter().map(|line| line.readings.len()).sum();
        return Err(CsvProblem::Unnamed { found, stations });
    }
    Err(header)
}

/// The text of a cell.
fn length(
    text: &str,
    unit: Option<&str>,
    reading: &CsvReading<'_>,
) -> Result<String, CsvCellWrong> {
    let bare = text.ends_with(|c: char| c.is_ascii_digit() || c == '.');
    let text = match unit.filter(|_| bare) {
        Some(unit) => format!("{text} {unit}"),
        None => text.to_owned(),
    };
    let typed = TypedLength::parse(&text, reading.bare, Sign::None);
    let typed = typed.map_err(CsvCellWrong::Length)?;
    let checked = LengthQuantity::Reading.check(typed.length());
    checked.map_err(CsvCellWrong::OutOfBounds)?;
    Ok(typed.text().to_owned())
}

/// The station before a line's readings, and those readings. One letter before
/// a number names an arm, even one the press does not have.
fn station_of<'a>(line: &'a str, stations: &[String]) -> (Option<Result<usize, &'a str>>, &'a str) {
    let quoted = line.trim_start_matches(['"', '\'']);
    let word = quoted.split(is_between).next().unwrap_or_default();
    let after = quoted.get(word.len()..).unwrap_or_default();
    let called = STATION.contains(&word.to_lowercase().as_str());
    let after = after.trim_start_matches(is_between);
    let line = if called && !after.is_empty() {
        after
    } else {
        quoted
    };
    let mut names: Vec<(usize, &String)> = stations.iter().enumerate().collect();
    names.sort_by_key(|(_, name)| std::cmp::Reverse(name.len()));
    for (station, name) in names {
        let begins = line.get(..name.len()).filter(|begins| same(begins, name));
        let rest = begins.and_then(|_| line.get(name.len()..));
        let ends = |rest: &&str| !rest.starts_with(|c: char| c.is_alphanumeric() || c == '+');
        if let Some(rest) = rest.filter(ends) {
            // `A) 0.25`, `A. 0.25`, `A - 0.25`.
            let mark = rest.trim_start_matches(is_between);
            let mark = mark.strip_prefix([')', '.', '-', '–']);
            let rest = mark.filter(|it| it.starts_with(is_between)).unwrap_or(rest);
            return (Some(Ok(station)), rest);
        }
    }
    let mut letters = line.chars();
    let first = letters.next().filter(char::is_ascii_alphabetic);
    let rest = letters.as_str();
    match (first, line.get(..1)) {
        (Some(_), Some(name))
            if rest
                .trim_start_matches(is_between)
                .starts_with(begins_number) =>
        {
            (Some(Err(name)), rest)
        }
        _ => (None, line),
    }
}

fn known(token: &str, stations: &[String]) -> Option<usize> {
    stations.iter().position(|name| same(token, name))
}

fn same(one: &str, other: &str) -> bool {
    one.to_lowercase() == other.to_lowercase()
}

/// The readings of a line, each with the unit behind it.
fn readings_of(rest: &str, decimal: bool) -> Vec<String> {
    let between = |c: char| is_between(c) && !(decimal && c == ',');
    let mut readings: Vec<String> = Vec::new();
    for token in rest.split(between) {
        let token = token.trim_matches(|c: char| is_between(c) || c == '\'');
        match readings.last_mut() {
            _ if token.is_empty() => {}
            Some(last) if is_unit(token) && has_digit(last) && !is_unit_behind(last) => {
                last.push(' ');
                last.push_str(token);
            }
            _ => readings.push(token.to_owned()),
        }
    }
    readings
}

/// What looks like the two halves of a number cut at its decimal comma.
fn cut_in_two(rest: &str, decimal: bool) -> Option<String> {
    let pieces = rest.split(|c: char| is_between(c) && c != ',');
    pieces.filter(|_| !decimal).find_map(|piece| {
        let parts: Vec<&str> = piece.split(',').collect();
        let pairs = parts.windows(2);
        let mut cut = pairs.filter(|pair| match pair {
            [whole, part] => decimal_commas::are_halves(whole, part),
            _ => false,
        });
        cut.next().map(|pair| pair.join(","))
    })
}

/// Whether every comma in a text is a decimal one: no number has a point, and
/// every comma that does not end a number stands between its digits.
fn are_decimal(text: &str) -> bool {
    let tokens = text.split(|c: char| is_between(c) && c != ',');
    let numbers = tokens
        .map(|token| token.trim_matches(','))
        .filter(|token| token.starts_with(begins_number));
    let mut any = false;
    for number in numbers {
        if number.contains('.') {
            return false;
        }
        let mut parts = number.split(',');
        let (whole, part, more) = (parts.next(), parts.next(), parts.next());
        if let (Some(whole), Some(part)) = (whole, part) {
            any = true;
            if more.is_some() || !decimal_commas::are_halves(whole, part) {
                return false;
            }
        }
    }
    any
}

/// A unit named in a heading: `(in)`, `[mm]`, `mm`; the word “in” alone is no
/// unit there.
fn unit_of_heading(token: &str) -> Option<&str> {
    let bare = token.trim_matches(['(', ')', '[', ']']);
    let enclosed = bare.len() < token.len();
    (is_unit(bare) && (enclosed || bare != "in")).then_some(bare)
}

fn is_unit(token: &str) -> bool {
    let typed = TypedLength::parse(&format!("1 {token}"), crate::units::Unit::Inch, Sign::None);
    !token.is_empty() && !has_digit(token) && typed.is_ok()
}

fn is_unit_behind(text: &str) -> bool {
    text.contains(' ')
}

fn has_digit(text: &str) -> bool {
    text.contains(|c: char| c.is_ascii_digit())
}

fn begins_number(c: char) -> bool {
    c.is_ascii_digit() || c == '.'
}

/// Whether a character parts names and readings.
fn is_between(c: char) -> bool {
    c.is_whitespace() || [',', ';', ':', '='].contains(&c)
}
