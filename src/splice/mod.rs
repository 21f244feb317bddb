//! The laced test piece: stations, readings, spread and verdict. Knows the
//! units and the press.

mod band;
mod belt;
mod budget;
mod chi_square;
mod doubtful;
mod drift;
mod flip;
mod gauge_fitness;
mod gauge_kind;
mod gauge_line;
mod gauge_study;
mod grubbs;
mod laced_again;
mod lacing_study;
mod least_squares;
mod level;
mod measure_again;
mod median;
mod misfit;
mod normal;
mod pattern;
mod pooled;
mod profile;
mod reading;
mod sample;
mod scatter;
mod shape;
mod spread;
mod station;
mod student;
mod unit_slip;
mod variance;
mod walk;

pub use band::Band;
pub use belt::BeltVariation;
pub use budget::{
    Budget, Cause, Contribution, Distribution, MeanVariance, Source, combined, station_budgets,
    step_u_nm,
};
pub use chi_square::{chi_square_above, chi_square_quantile};
pub use doubtful::{Doubtful, PieceCheck, WhyDoubtful, doubtful};
pub use drift::{Drift, DriftProblem, TimedReading};
pub use flip::{EvenPart, FlipProblem, FlipStation, FlipTest, OddPart};
pub use gauge_fitness::{GaugeFitness, GaugeShare, SPREAD_OF_READINGS, gauge_that_would_do};
pub use gauge_kind::{GAUGE_PRESETS, GaugeKind, GaugePreset, PublishedIn};
pub use gauge_line::{GaugeLineProblem, GaugeLines, LineEnd, MOST_LINE_BYTES, parse_gauge_line};
pub use gauge_study::{GaugeStudy, Interaction, StudyMethod, StudyProblem, StudyTable};
pub use grubbs::{Furthest, generalised_esd, grubbs, grubbs_critical};
pub use laced_again::{LacedAgain, LacedAlike};
pub use lacing_study::{LacingStudy, LacingStudyProblem, StudiedOn};
pub use level::LevelStanding;
pub use measure_again::{
    Again, ENOUGH, Judging, ReadStation, Settling, Unsettled, Verdict, settling,
};
pub use median::median;
pub use misfit::{Misfit, WhyMisfit, misfits};
pub use normal::{density, probability_below, quantile};
pub use pattern::{NamedPattern, Pattern};
pub use pooled::Pooled;
pub use profile::{Profile, StationMean};
pub use reading::{Cell, Kept, Reading, Struck};
pub use sample::Sample;
pub use scatter::{ASSUMED_LACING, Scatter, ScatterSource, assumed_repeatability_nm};
pub use shape::{Beside, Measured, Outermost, STANDS_OUT, Shape};
pub use spread::Spread;
pub use station::{Station, StationName, StationPlace};
pub use student::{f_above, student_critical};
pub use unit_slip::looks_typed_in_other_unit;
pub use variance::{Component, OneWay, Squares, TwoWay};
pub use walk::{Walk, WalkPlace};
