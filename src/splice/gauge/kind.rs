//! Kinds of gauges and what published limits say about them.

use crate::codec::as_text;
use crate::units::{Length, Unit, listed};

listed! {
    /// A kind of gauge.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
    pub enum GaugeKind {
        /// Outside micrometer.
        Micrometer = "micrometer",
        /// Digital caliper.
        DigitalCaliper = "digital caliper",
        /// Dial caliper.
        DialCaliper = "dial caliper",
        /// Anything else, or not said.
        #[default]
        Other = "other",
    }
}

as_text!(GaugeKind, Name, key);

impl GaugeKind {
    /// The kind that a gauge's name says in either language; other where it
    /// says none, or is a caliper's with a vernier scale.
    pub fn called(name: &str) -> Self {
        let name = name.to_lowercase();
        let says = |words: &[&str]| words.iter().any(|word| name.contains(word));
        if says(&["micrometer", "micrómetro", "micrometro"]) {
            Self::Micrometer
        } else if says(&["vernier"]) || !says(&["caliper", "calibrador"]) {
            Self::Other
        } else if says(&["dial", "carátula", "caratula"]) {
            Self::DialCaliper
        } else {
            Self::DigitalCaliper
        }
    }
}

/// Where a limit or a step is published.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PublishedIn {
    /// DIN 863-1, micrometers: 4 µm up to 50 mm (read in secondary copies).
    Din863Part1,
    /// DIN 862, calipers: 20 µm up to 100 mm at a step of 0.01 mm (read in
    /// secondary copies).
    Din862,
    /// ASME B89.1.14-2018, calipers: least counts of 0.001 and 0.0005 in (read
    /// in secondary copies). Its limits of error are not repeated here.
    AsmeB89_1_14,
}

/// A gauge to start from: every figure can be edited afterwards.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct GaugePreset {
    /// The kind.
    pub kind: GaugeKind,
    /// The unit it reads in.
    pub unit: Unit,
    /// Its step.
    pub step: Length,
    /// The limit of error of one reading of a thickness up to 50 mm, either
    /// way, where one is published.
    pub limit_of_error: Option<Length>,
    /// Where.
    pub published_in: Option<PublishedIn>,
}

/// The library, the finest step first within a unit.
pub const GAUGE_PRESETS: [GaugePreset; 6] = [
    preset(
        GaugeKind::Micrometer,
        Unit::Inch,
        2_540,
        Some(4_000),
        Some(PublishedIn::Din863Part1),
    ),
    preset(
        GaugeKind::DigitalCaliper,
        Unit::Inch,
        12_700,
        None,
        Some(PublishedIn::AsmeB89_1_14),
    ),
    preset(
        GaugeKind::DigitalCaliper,
        Unit::Inch,
        25_400,
        None,
        Some(PublishedIn::AsmeB89_1_14),
    ),
    preset(GaugeKind::DialCaliper, Unit::Inch, 25_400, None, None),
    preset(
        GaugeKind::Micrometer,
        Unit::Millimetre,
        1_000,
        Some(4_000),
        Some(PublishedIn::Din863Part1),
    ),
    preset(
        GaugeKind::DigitalCaliper,
        Unit::Millimetre,
        10_000,
        Some(20_000),
        Some(PublishedIn::Din862),
    ),
];

const fn preset(
    kind: GaugeKind,
    unit: Unit,
    step_nm: i64,
    limit_nm: Option<i64>,
    published_in: Option<PublishedIn>,
) -> GaugePreset {
    GaugePreset {
        kind,
        unit,
        step: Length::from_nm(step_nm),
        limit_of_error: match limit_nm {
            Some(nm) => Some(Length::from_nm(nm)),
            None => None,
        },
        published_in,
    }
}

#[cfg(test)]
mod tests {
    use super::GaugeKind::{self, DialCaliper, DigitalCaliper, Micrometer, Other};

    #[test]
    fn a_name_says_the_kind() {
        for (name, kind) in [
            ("Caliper 4", DigitalCaliper),
            ("Calibrador digital del taller", DigitalCaliper),
            ("dial caliper", DialCaliper),
            ("Calibrador de carátula", DialCaliper),
            ("Vernier caliper", Other),
            ("0-1 in Micrometer", Micrometer),
            ("Micrómetro", Micrometer),
            ("thickness gauge", Other),
            ("", Other),
        ] {
            assert_eq!(GaugeKind::called(name), kind, "{name}");
        }
    }
}
