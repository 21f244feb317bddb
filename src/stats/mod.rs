//! Statistics: distributions, least squares, variance, ranges, random numbers.
//!
//! Knows nothing of presses, belts or lengths; a figure's unit is its caller's.

mod chi_square;
mod draws;
mod even_range;
mod gaussian;
mod grubbs;
mod least_squares;
mod median;
mod normal;
mod range;
mod student;
mod variance;

pub use chi_square::{chi_square_above, chi_square_quantile};
pub use draws::{Draws, LatinHypercube, Purpose};
pub use even_range::EvenRange;
pub(crate) use gaussian::{Foreseen, add_scaled, cholesky_semidefinite};
pub use gaussian::{Gaussian, GaussianError, Innovation, Observations, SparseRow};
pub use grubbs::{Furthest, generalised_esd, grubbs, grubbs_critical};
pub(crate) use least_squares::{Foretold, LeastSquares};
pub use median::median;
pub use normal::{normal_cdf, normal_pdf, normal_quantile};
pub use range::{NormalValue, range_mean, range_probability};
pub use student::{f_above, student_critical};
pub(crate) use variance::mean;
pub use variance::{Component, OneWay, Squares, TwoWay};
