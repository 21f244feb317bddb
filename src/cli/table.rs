//! Small aligned tables of a session.

use crate::press::NutPosition;
use crate::session::{Gate, Session};
use crate::words::Figures;

use super::Console;

/// Lines of cells, each column as wide as its widest cell; no blanks at the
/// ends of lines.
pub(super) fn aligned(rows: &[Vec<String>]) -> String {
    let columns = rows.iter().map(Vec::len).max().unwrap_or(0);
    let width = |column: usize| {
        rows.iter()
            .filter_map(|row| row.get(column))
            .map(|cell| cell.chars().count())
            .max()
            .unwrap_or(0)
    };
    let widths: Vec<usize> = (0..columns).map(width).collect();
    let lines: Vec<String> = rows
        .iter()
        .map(|row| {
            let line: String = row
                .iter()
                .zip(&widths)
                .map(|(cell, width)| format!("  {cell:<width$}"))
                .collect();
            line.trim_end().to_owned()
        })
        .collect();
    lines.join("\n")
}

/// The stations of a pass with their readings, means, and what stands out.
pub(super) fn stations(session: &Session, gate: &Gate, figures: &Figures) -> String {
    let words = figures.language;
    let mut rows = vec![vec![
        words.cli_station().to_owned(),
        words.cli_readings().to_owned(),
        words.column_mean().to_owned(),
    ]];
    let Some(pass) = gate.pass.and_then(|pass| session.passes.get(pass)) else {
        return String::new();
    };
    let profile = pass.profile();
    for (station, at) in session.stations.iter().enumerate() {
        let mut remarks = Vec::new();
        let spread = gate.spread.as_ref();
        if spread.is_some_and(|spread| spread.thickest == station) {
            remarks.push(words.thickest());
        }
        if spread.is_some_and(|spread| spread.thinnest == station) {
            remarks.push(words.thinnest());
        }
        let mean = profile.mean(station);
        if mean.is_none() {
            remarks.push(words.not_read_yet());
        }
        if !at.counts {
            remarks.push(words.cli_does_not_count());
        }
        rows.push(vec![
            session.station_name(station),
            figures.readings_of(pass, station),
            mean.map_or_else(String::new, |mean| figures.mean(mean)),
            remarks.join(", "),
        ]);
    }
    aligned(&rows)
}

/// Remarks on nuts that stand outside their limits.
pub(super) fn outside_limits(session: &Session, nuts: &[NutPosition], console: &mut Console<'_>) {
    for ((arm, at), nut) in session.press.indexed_arms().zip(nuts) {
        if let Some(limits) = at.limits.filter(|limits| !limits.allow(*nut)) {
            let sentence =
                console
                    .language
                    .cli_nut_outside_limits(arm, nut, limits.most_in, limits.most_out);
            console.complain(&sentence);
        }
    }
}
