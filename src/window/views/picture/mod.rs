//! The jaw drawn: profile, band, jaws edge-on, and the crew's picture.

pub mod chart;
pub mod crew;
pub mod crew_story;
pub mod gauge_drawn;
pub mod jaw_axis;
pub mod jaw_picture;
pub mod jaw_sketch;
pub mod jaws;
pub mod labels;
pub mod legend;
pub mod nip_point;
pub mod plot;
pub mod press_sketch;
pub mod rods;
pub mod splice;
pub mod test_piece;
