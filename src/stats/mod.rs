//! Statistics: distributions, least squares, variance, ranges, random numbers.
//!
//! Knows nothing of presses, belts or lengths; a figure's unit is its caller's.

mod chi_square;
mod draws;
mod even_range;
mod factor;
mod gaussian;
mod grubbs;
mod kept;
mod least_squares;
mod median;
mod normal;
mod student;
mod variance;

pub use chi_square::{chi_square_above, chi_square_quantile};
pub use draws::{Draws, LatinHypercube, Purpose};
pub use even_range::{EvenRange, mean_even_range};
pub use factor::GaussianError;
pub(crate) use factor::{add_scaled, cholesky_semidefinite};
pub(crate) use gaussian::Foreseen;
pub use gaussian::{Gaussian, Innovation, Observations, SparseRow};
pub use grubbs::{Furthest, generalised_esd, grubbs, grubbs_critical};
pub use kept::Kept;
pub(crate) use least_squares::{Foretold, LeastSquares};
pub use median::median;
pub use normal::{NormalValue, normal_cdf, normal_pdf, normal_quantile};
pub use student::{f_above, student_critical};
pub(crate) use variance::mean;
pub use variance::{Component, Squares, TwoWay};
