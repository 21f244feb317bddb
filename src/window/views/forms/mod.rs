//! New session, press and visit, the gauge.

pub mod belt;
pub mod changed;
pub mod draft;
pub mod gauge;
pub mod gauge_check;
mod gauge_check_result;
pub mod new_session;
pub mod path;
pub mod port_settings;
pub mod press_data;
pub mod press_part;
pub mod properties;
pub mod session_field;
pub mod visit_part;
