//! The gauge: its kinds, whether it will do, and what a study says of it.

mod fitness;
mod kind;
mod study;

pub use fitness::{GaugeFitness, GaugeShare, SPREAD_OF_READINGS, gauge_that_would_do};
pub use kind::{GAUGE_PRESETS, GaugeKind, GaugePreset, PublishedIn};
pub use study::{GaugeStudy, Interaction, StudyTable};
