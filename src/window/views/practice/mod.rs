//! Practice in the window: lessons, the start of an exercise, its bar and frame,
//! and the debrief.

pub mod debrief;
pub mod lesson;
pub mod lesson_picture;
pub mod press_compared;
pub mod press_drawn;
pub mod readings_drawn;
pub mod start;
pub mod strip;
