//! Tables on a page, a row at a time.

use super::sheet::{RISE, Sheet, Style};
use super::{Ink, Part, Pen};

/// How much room stands between columns.
const GAP: f32 = 6.0;

/// Room above and below the letters of a row.
const PAD: f32 = 1.6;

/// The columns of a table.
pub(super) struct Columns {
    pub x: f32,
    pub widths: Vec<f32>,
}

impl Columns {
    /// Columns of these shares of a width.
    pub fn shares(x: f32, width: f32, shares: &[f32]) -> Self {
        let whole: f32 = shares.iter().sum();
        let widths = shares.iter().map(|share| width * share / whole.max(1e-6));
        Self {
            x,
            widths: widths.collect(),
        }
    }

    fn width(&self) -> f32 {
        self.widths.iter().sum()
    }

    /// The height a row takes.
    pub fn height(&self, sheet: &Sheet<'_>, style: Style, cells: &[String]) -> f32 {
        let cells = cells.iter().zip(&self.widths);
        let heights = cells.map(|(cell, width)| sheet.height(width - GAP, style, cell));
        heights.fold(style.leading(), f32::max) + 2.0 * PAD
    }

    /// Draws a row with a rule below it. Answers its lower edge.
    pub fn row(
        &self,
        sheet: &mut Sheet<'_>,
        y: f32,
        style: Style,
        cells: &[String],
        head: bool,
    ) -> f32 {
        let below = y + self.height(sheet, style, cells);
        sheet.open(Part::Row);
        let mut x = self.x;
        for (index, (cell, width)) in cells.iter().zip(&self.widths).enumerate() {
            let part = match (head, index) {
                (true, _) => Part::ColumnHead,
                (false, 0) => Part::RowHead,
                (false, _) => Part::Cell,
            };
            sheet.part(part, |sheet| {
                sheet.lines(
                    x,
                    y + PAD + style.size * (1.0 - RISE),
                    width - GAP,
                    style,
                    cell,
                );
            });
            x += width;
        }
        sheet.close();
        let pen = match head {
            true => Pen::new(0.8, Ink::SteelEdge),
            false => Pen::new(0.3, Ink::Line),
        };
        sheet.rule(self.x, below, self.width(), pen);
        below
    }
}
