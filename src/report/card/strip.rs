//! The strip of the turn card: places for the next readings.

use super::{Align, Area, Card, Ink, MARGIN, Part, Pen, RISE, Style};

/// Columns of the strip for the next readings in one row.
const STRIP_COLUMNS: usize = 8;

/// Repeats that there is room for.
const STRIP_ROWS: usize = 3;

/// Height of one place for a reading.
const STRIP_CELL: f32 = 19.0;

impl Card<'_> {
    /// Rows of the strip, a few stations each.
    fn strip_rows(&self) -> Vec<Vec<String>> {
        let names: Vec<String> = (0..self.session.stations.len())
            .map(|station| self.session.station_name(station))
            .collect();
        names
            .chunks(STRIP_COLUMNS)
            .map(<[String]>::to_vec)
            .collect()
    }

    pub(super) fn strip_height(&self) -> f32 {
        let one = 13.0 + STRIP_ROWS as f32 * STRIP_CELL + 5.0;
        22.0 + self.strip_rows().len() as f32 * one
    }

    /// Places for the next readings.
    pub(super) fn strip(&mut self) {
        let figures = &self.setting.figures;
        let words = figures.language;
        let heading = Style::bold(11.5);
        let title = words.card_next_readings(words.unit_plural(figures.unit));
        let base = self.y + heading.size * RISE;
        let laced = Style::regular(10.0);
        let right = self.sheet.page.width - MARGIN;
        self.y = self.sheet.heading(2, MARGIN, self.y, heading, &title) + 2.0;
        self.sheet.part(Part::Paragraph, |sheet| {
            sheet.text(
                right - 76.0,
                base,
                Align::Right,
                laced,
                words.card_laced_at(),
            );
        });
        let pen = Pen::new(0.8, Ink::Text);
        self.sheet.rule(right - 72.0, base + 2.0, 72.0, pen);
        for names in self.strip_rows() {
            let cell = self.width() / names.len().max(STRIP_COLUMNS / 2) as f32;
            self.sheet.open(Part::Table);
            self.sheet.open(Part::Row);
            for (index, name) in names.iter().enumerate() {
                let x = MARGIN + (index as f32 + 0.5) * cell;
                let base = self.y + 10.0;
                self.sheet.part(Part::ColumnHead, |sheet| {
                    sheet.text(x, base, Align::Centre, Style::bold(11.0), name);
                });
            }
            self.sheet.close();
            self.y += 13.0;
            self.sheet.close();
            for _ in 0..STRIP_ROWS {
                for index in 0..names.len() {
                    let x = MARGIN + index as f32 * cell;
                    let area = Area::new(x, self.y, cell, STRIP_CELL);
                    self.sheet
                        .frame(area, None, Some(Pen::new(0.7, Ink::SteelEdge)));
                }
                self.y += STRIP_CELL;
            }
            self.y += 5.0;
        }
    }
}
