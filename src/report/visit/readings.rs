//! The tables of readings: as found and as left, and every reading pass by pass.

use crate::press::Notches;

use super::{Columns, Ink, MARGIN, Part, Report, SMALL, Style};

/// Passes in one table of readings.
const PASSES_ABREAST: usize = 5;

impl Report<'_> {
    /// Station by station: first piece, last piece, and the nuts.
    pub(super) fn found_and_left(&mut self) {
        let figures = self.setting.figures;
        let words = figures.language;
        let session = self.session;
        let read: Vec<usize> = (0..session.passes.len())
            .filter(|pass| {
                session
                    .passes
                    .get(*pass)
                    .is_some_and(|pass| pass.has_readings())
            })
            .collect();
        let (Some(first), Some(last)) = (read.first(), read.last()) else {
            return;
        };
        self.title(words.report_found_left(), 60.0);
        let columns = Columns::shares(MARGIN, self.width(), &[1.3, 1.2, 1.2, 1.1, 1.1, 1.8]);
        let unit = |head: &str| format!("{head} ({})", words.unit_short(figures.unit));
        let heads = [
            words.report_station().to_owned(),
            unit(words.report_found()),
            unit(words.report_left()),
            words.report_nut_found().to_owned(),
            words.report_nut_left().to_owned(),
            words.report_turned().to_owned(),
        ];
        let profiles = [*first, *last].map(|pass| session.sound_profile(pass));
        let (start, now) = (&session.start_nuts, session.nuts_now());
        self.sheet.open(Part::Table);
        self.y = columns.row(&mut self.sheet, self.y, SMALL.ink(Ink::Muted), &heads, true);
        for (station, at) in session.stations.iter().enumerate() {
            let mut cells = vec![session.station_name(station)];
            for profile in &profiles {
                let mean = profile.mean(station);
                cells.push(mean.map_or_else(|| "–".to_owned(), |mean| figures.mean(mean)));
            }
            let nuts = at
                .arm()
                .and_then(|arm| start.get(arm.0).zip(now.get(arm.0)));
            cells.extend(match nuts {
                Some((from, to)) => [
                    from.to_string(),
                    to.to_string(),
                    match *to - *from {
                        Notches(0) => "–".to_owned(),
                        turn => figures.turn(turn),
                    },
                ],
                None => [const { String::new() }; 3],
            });
            if !at.counts {
                cells[0] = format!("{} ({})", cells[0], words.cli_does_not_count());
            }
            self.row(&columns, SMALL, &cells);
        }
        let spread = |pass: usize| {
            let spread = session.spread_of(pass);
            spread.map_or_else(
                || "–".to_owned(),
                |spread| figures.spread(&spread, session.tolerance.length()),
            )
        };
        let cells = [
            words.report_spread().to_owned(),
            spread(*first),
            spread(*last),
            String::new(),
            String::new(),
            String::new(),
        ];
        self.row(&columns, Style::bold(8.5), &cells);
        self.sheet.close();
        self.y += 3.0;
    }

    /// A row of a table, on another page where it needs one.
    pub(super) fn row(&mut self, columns: &Columns, style: Style, cells: &[String]) {
        let height = columns.height(&self.sheet, style, cells);
        if self.y + height > self.bottom() {
            // A table ends with its page and goes on as another.
            self.sheet.close();
            self.need(height);
            self.sheet.open(Part::Table);
        }
        self.y = columns.row(&mut self.sheet, self.y, style, cells, false);
    }

    /// Every reading, a column a pass, and what was turned before it.
    pub(super) fn readings(&mut self) {
        let figures = self.setting.figures;
        let words = figures.language;
        let session = self.session;
        if session.passes.is_empty() {
            return;
        }
        self.title(words.report_readings(), 70.0);
        let numbers: Vec<usize> = (0..session.passes.len()).collect();
        for passes in numbers.chunks(PASSES_ABREAST) {
            let mut shares = vec![1.0];
            shares.extend(passes.iter().map(|_| 2.2));
            let columns = Columns::shares(MARGIN, self.width(), &shares);
            let of = |say: &dyn Fn(usize) -> String, head: &str| {
                let mut cells = vec![head.to_owned()];
                cells.extend(passes.iter().map(|pass| say(*pass)));
                cells
            };
            let laced = |pass: usize| {
                let laced = session.passes.get(pass).map_or("", |pass| &pass.laced);
                format!("{} {laced}", words.report_pass(pass + 1))
            };
            let heads = of(&laced, words.report_station());
            self.need(columns.height(&self.sheet, SMALL, &heads) * 3.0);
            self.sheet.open(Part::Table);
            let head = SMALL.ink(Ink::Muted);
            self.y = columns.row(&mut self.sheet, self.y, head, &heads, true);
            let turned = |pass: usize| {
                let turns = session.turns_before(pass);
                let none = turns.iter().all(|turn| turn.0 == 0);
                if none {
                    "–".to_owned()
                } else {
                    figures.turns(&turns)
                }
            };
            let cells = of(&turned, words.report_turned_before());
            self.row(&columns, SMALL, &cells);
            for station in 0..session.stations.len() {
                let readings = |pass: usize| {
                    let pass = session.passes.get(pass);
                    pass.map_or_else(String::new, |pass| figures.readings_of(pass, station))
                };
                let cells = of(&readings, &session.station_name(station));
                self.row(&columns, SMALL, &cells);
            }
            let spread = |pass: usize| {
                let spread = session.spread_of(pass);
                let limit = session.tolerance.length();
                spread.map_or_else(
                    || "–".to_owned(),
                    |spread| figures.with_unit(&figures.spread(&spread, limit)),
                )
            };
            let cells = of(&spread, words.report_spread());
            self.row(&columns, Style::bold(8.5), &cells);
            self.sheet.close();
            self.y += 4.0;
        }
        let struck = session
            .passes
            .iter()
            .flat_map(|pass| pass.rows.iter().flatten());
        let mut struck = struck.filter_map(|cell| cell.reading());
        if struck.any(|reading| reading.struck.is_some()) {
            self.paragraph(SMALL.ink(Ink::Muted), words.report_struck_note());
        }
        for (pass, number) in session.passes.iter().zip(1..) {
            if !pass.note.is_empty() {
                let text = format!("{}: {}", words.report_pass(number), pass.note);
                self.paragraph(SMALL, &text);
            }
        }
        if session.follows_repair() {
            let text = format!("{}: {}", words.report_repaired(), session.notes.repaired);
            self.paragraph(SMALL, &text);
        }
        if !session.notes.notes.is_empty() {
            let text = format!("{}: {}", words.report_notes(), session.notes.notes);
            self.paragraph(SMALL, &text);
        }
    }
}
