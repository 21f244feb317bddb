//! What is drawn of a splice, as plain data, and where its parts stand on the
//! screen.

use eframe::egui::{FontId, Rect};

use crate::splice::Band;
use crate::window::theme::Palette;

use crate::window::views::picture::jaw_axis::JawAxis;

/// What the drawing shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shown {
    /// What was measured: whole lines.
    Measured,
    /// What is expected and nobody has measured: dashes, and a pale belt.
    Expected,
}

/// An arm with its rod and nut.
#[derive(Debug, Clone)]
pub struct ArmMark {
    /// Its letter.
    pub name: String,
    /// Where it stands, in nanometres from the left end of the jaw.
    pub at_nm: f64,
    /// The mean of its readings in nanometres, and as it is written.
    pub reading: Option<(f64, String)>,
    /// How its nut is turned, as it is written where there is room, and where
    /// there is not.
    pub turn: Option<[String; 2]>,
    /// What its reading is said to be.
    pub tag: Option<&'static str>,
}

/// All that is drawn.
pub struct Splice<'a> {
    /// Colours.
    pub palette: &'static Palette,
    /// Where the jaw lies along the screen.
    pub axis: JawAxis,
    /// Stations in nanometres from the left end of the jaw.
    pub stations_nm: &'a [f64],
    /// Thickness at each of them in nanometres.
    pub means_nm: &'a [Option<f64>],
    /// Another profile, a line over it, and whether that was measured.
    pub beside_nm: Option<(&'a [Option<f64>], Shown)>,
    /// Between what thicknesses nine in ten pieces come out, at each station.
    pub likely_nm: Option<&'a [Vec<Option<f64>>; 2]>,
    /// The tolerance band.
    pub band: Option<Band>,
    /// The least range of thickness in nanometres that the drawing leaves room
    /// for.
    pub range_nm: f64,
    /// Whether it was measured.
    pub shown: Shown,
    /// Whether what lies outside the band is filled.
    pub bitten: bool,
    /// The arms from left to right.
    pub arms: &'a [ArmMark],
    /// Letters, nuts and readings in this font; without, rods only.
    pub marks: Option<FontId>,
    /// What is written on the stationary and on the moving jaw, told by what
    /// factor differences are drawn too large.
    pub texts: [&'a dyn Fn(&str) -> String; 2],
    /// In these fonts.
    pub fonts: [FontId; 2],
    /// What is written at their right ends, where there is room.
    pub ends: [&'a str; 2],
    /// What is written where the splice is crushed, where it is loose, and beside
    /// the band.
    pub patches: Option<[&'a str; 3]>,
}

/// The thinnest and the thickest of some means, and the room between them.
pub(super) fn range(splice: &Splice<'_>) -> (f64, f64) {
    let beside = splice.beside_nm.map(|(beside, _)| beside);
    let means = splice
        .means_nm
        .iter()
        .chain(beside.unwrap_or_default())
        .chain(splice.likely_nm.into_iter().flatten().flatten())
        .flatten()
        .copied();
    let edges = splice
        .band
        .iter()
        .flat_map(|band| [band.low_nm, band.high_nm]);
    let (low, high) = means
        .chain(edges)
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), nm| {
            (low.min(nm), high.max(nm))
        });
    let (low, high) = if low > high { (0.0, 0.0) } else { (low, high) };
    let more = (splice.range_nm - (high - low)).max(0.0) / 2.0;
    (low - more, high + more)
}

/// Heights of the parts on the screen, from top to bottom.
#[derive(Debug, Clone, Copy)]
pub(super) struct Parts {
    pub(super) nuts: f32,
    pub(super) jaw_top: f32,
    pub(super) thickest: f32,
    pub(super) thinnest: f32,
    pub(super) readings: f32,
    pub(super) lower_top: f32,
    pub(super) bottom: f32,
}

impl Parts {
    pub(super) fn of(splice: &Splice<'_>, area: Rect, lower: f32, rows: usize) -> Self {
        let body = splice.fonts[0].size * 1.24;
        let (letters, nuts, row) = match &splice.marks {
            Some(font) if in_one_row(splice, font.size) => (0.0, font.size * 1.2, font.size * 1.22),
            Some(font) => (font.size * 1.2, font.size * 1.2, font.size * 1.22),
            None => (0.0, (area.height() * 0.1).clamp(4.0, 22.0), 0.0),
        };
        let jaw_top = area.top() + letters + nuts + row * 0.16;
        let lower_top = area.bottom() - lower;
        let readings = lower_top - row * rows as f32 - row * 0.1;
        // Where it is thinnest something of the belt is left.
        let thickest = (jaw_top + body).min(lower_top - 8.0);
        let left = (readings - thickest).max(6.0);
        Self {
            nuts: area.top() + letters,
            jaw_top,
            thickest,
            thinnest: match rows {
                0 => thickest + left * 0.72,
                _ => thickest + left * 0.94,
            },
            readings,
            lower_top,
            bottom: area.bottom(),
        }
    }
}

/// The least distance on the screen between an arm and the one so many further.
pub(super) fn pitch(splice: &Splice<'_>, further: usize) -> f32 {
    let places = splice.arms.iter().map(|arm| splice.axis.x(arm.at_nm));
    let places: Vec<f32> = places.collect();
    let pairs = places.iter().zip(places.iter().skip(further));
    pairs
        .map(|(one, other)| other - one)
        .fold(splice.axis.right - splice.axis.left, f32::min)
}

/// Whether letter and nut of every arm stand side by side.
pub(super) fn in_one_row(splice: &Splice<'_>, font: f32) -> bool {
    pitch(splice, 1) >= font * 2.7
}

/// Figures a factor begins with, so that it can be said, and so far apart that
/// pictures of one press have the same wherever their sizes allow.
const ROUND: [f64; 3] = [1.0, 2.0, 5.0];

/// The largest round number that is not above `factor`; at least 1.
pub fn round_down(factor: f64) -> f64 {
    if !factor.is_finite() || factor < 1.0 {
        return 1.0;
    }
    if factor < 10.0 {
        return factor.floor();
    }
    let power = 10_f64.powf(factor.log10().floor());
    let fitting = ROUND.iter().rfind(|digit| **digit * power <= factor);
    fitting.map_or(power, |digit| digit * power)
}

/// A round number with thin spaces between its thousands.
pub fn grouped(number: f64) -> String {
    let digits = format!("{number:.0}");
    let mut text = String::new();
    for (index, digit) in digits.chars().enumerate() {
        if index > 0 && (digits.len() - index).is_multiple_of(3) {
            text.push('\u{a0}');
        }
        text.push(digit);
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn factors_are_round_and_never_larger() {
        let cases = [
            (0.4, 1.0),
            (7.9, 7.0),
            (10.0, 10.0),
            (19.9, 10.0),
            (1_000.0, 1_000.0),
            (799.0, 500.0),
            (f64::NAN, 1.0),
            (f64::INFINITY, 1.0),
        ];
        for (factor, round) in cases {
            assert_eq!(round_down(factor), round, "{factor}");
        }
        assert_eq!(grouped(12_500.0), "12\u{a0}500");
    }
}
