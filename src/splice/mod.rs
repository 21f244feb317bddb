//! The laced test piece: stations, readings, spread and verdict. Knows the
//! units and the press.

mod band;
mod belt;
mod budget;
mod doubtful;
mod drift;
mod flip;
mod gauge;
mod laced_again;
mod lacing_study;
mod level;
mod measure_again;
mod measured;
mod misfit;
mod pattern;
mod pooled;
mod profile;
mod reading;
mod sample;
mod scatter;
mod shape;
mod spread;
mod station;
mod walk;

pub use band::Band;
pub use belt::BeltVariation;
pub use budget::{
    Budget, Cause, Contribution, Distribution, MeanVariance, Source, combined, station_budgets,
    step_u_nm,
};
pub use doubtful::{Doubtful, PieceCheck, WhyDoubtful, doubtful};
pub use drift::{Drift, DriftProblem, TimedReading};
pub use flip::{FlipProblem, FlipStation, FlipTest, OddPart};
pub use gauge::{
    GAUGE_PRESETS, GaugeFitness, GaugeKind, GaugePreset, GaugeShare, GaugeStudy, Interaction,
    PublishedIn, SPREAD_OF_READINGS, StudyTable, gauge_that_would_do,
};
pub use laced_again::{LacedAgain, LacedAlike};
pub use lacing_study::{LacingStudy, StudiedOn};
pub use level::LevelStanding;
pub use measure_again::{
    Again, ENOUGH, Judging, ReadStation, Settling, Unsettled, Verdict, settling,
};
pub use measured::{Measured, STANDS_OUT};
pub use misfit::{Misfit, WhyMisfit, misfits};
pub use pattern::{NamedPattern, Pattern};
pub use pooled::Pooled;
pub use profile::{Profile, StationMean};
pub use reading::{Cell, Kept, Reading, Struck};
pub use sample::Sample;
pub use scatter::{ASSUMED_LACING, Scatter, ScatterSource, assumed_repeatability_nm};
pub use shape::{Outermost, Shape};
pub use spread::Spread;
pub use station::{Station, StationName, StationPlace};
pub use walk::{Walk, WalkPlace};
