//! How a gauge is listened to over a serial port.

use serde::{Deserialize, Serialize};

use crate::units::listed;

listed! {
    /// What ends a line of the gauge.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
    pub enum LineEnding {
        /// Carriage return, line feed, or both.
        #[default]
        Either = "crlf",
        /// Carriage return only.
        CarriageReturn = "cr",
        /// Line feed only.
        LineFeed = "lf",
        /// Nothing: a pause ends it.
        Pause = "pause",
    }
}

listed! {
    /// Data bits, parity (none, even, odd) and stop bits, as the manuals of gauges
    /// write them.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
    pub enum Framing {
        /// Eight bits, no parity, one stop bit.
        #[default]
        EightNone1 = "8N1",
        /// Eight, even, one.
        EightEven1 = "8E1",
        /// Eight, odd, one.
        EightOdd1 = "8O1",
        /// Seven, even, one.
        SevenEven1 = "7E1",
        /// Seven, odd, one.
        SevenOdd1 = "7O1",
        /// Seven, even, two.
        SevenEven2 = "7E2",
        /// Seven, none, two.
        SevenNone2 = "7N2",
    }
}

/// Slowest and fastest speed taken, in bits a second.
pub const PORT_SPEEDS: (u32, u32) = (50, 4_000_000);

/// How a gauge is listened to over a serial port.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(from = "Kept", into = "Kept")]
pub struct PortSettings {
    /// Name of the port, as the system has it.
    pub port: String,
    /// Speed in bits a second, within [`PORT_SPEEDS`].
    pub speed: u32,
    /// What ends a line.
    pub ending: LineEnding,
    /// Data bits, parity and stop bits.
    pub framing: Framing,
    /// Whether the port is opened whenever readings are taken arm by arm.
    pub in_use: bool,
}

impl Default for PortSettings {
    fn default() -> Self {
        Self {
            port: String::new(),
            speed: 9_600,
            ending: LineEnding::default(),
            framing: Framing::default(),
            in_use: false,
        }
    }
}

/// The settings as they stand in the preferences file: port, speed, names of
/// line end and framing, whether in use.
type Kept = (String, u32, [String; 2], bool);

impl From<PortSettings> for Kept {
    fn from(settings: PortSettings) -> Self {
        let texts = [settings.ending.key(), settings.framing.key()].map(str::to_owned);
        (settings.port, settings.speed, texts, settings.in_use)
    }
}

/// What is unknown in the file takes its default.
impl From<Kept> for PortSettings {
    fn from((port, speed, [ending, framing], in_use): Kept) -> Self {
        let (slowest, fastest) = PORT_SPEEDS;
        let usual = Self::default();
        Self {
            port,
            speed: if (slowest..=fastest).contains(&speed) {
                speed
            } else {
                usual.speed
            },
            ending: LineEnding::from_key(&ending).unwrap_or_default(),
            framing: Framing::from_key(&framing).unwrap_or_default(),
            in_use,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn they_come_back_as_they_were() {
        for ending in LineEnding::ALL {
            for framing in Framing::ALL {
                let settings = PortSettings {
                    port: "/dev/ttyUSB0".into(),
                    speed: 4_800,
                    ending,
                    framing,
                    in_use: true,
                };
                assert_eq!(PortSettings::from(Kept::from(settings.clone())), settings);
            }
        }
        let odd = ("p".to_owned(), 0, ["?", "9X9"].map(str::to_owned), false);
        let usual = PortSettings {
            port: "p".into(),
            ..PortSettings::default()
        };
        assert_eq!(PortSettings::from(odd), usual);
    }
}
