//! A gauge over a serial port: what stands in its dialog.

use crate::store::{PORT_SPEEDS, PortSettings};

/// What stands in the dialog.
#[derive(Debug, Clone, PartialEq)]
pub struct PortForm {
    /// The settings.
    pub settings: PortSettings,
    /// The speed as typed.
    pub speed: String,
    /// Whether it was asked for the ports there are.
    pub asked: bool,
}

impl PortForm {
    /// The settings as they are.
    pub fn new(settings: PortSettings) -> Self {
        Self {
            speed: settings.speed.to_string(),
            settings,
            asked: false,
        }
    }

    /// The speed as typed, where it is one.
    pub fn speed(&self) -> Option<u32> {
        let (slowest, fastest) = PORT_SPEEDS;
        let speed = self.speed.trim().parse().ok();
        speed.filter(|speed| (slowest..=fastest).contains(speed))
    }
}
