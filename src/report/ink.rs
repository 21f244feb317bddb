//! The colours of printed pages and pictures.

/// What something is drawn in. Meaning never rests on it alone: pages are
/// printed in black and white as well.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Ink {
    /// Letters and firm lines.
    Text,
    /// What matters less.
    Muted,
    /// Rules and frames.
    Line,
    /// The page itself.
    Paper,
    /// What was measured.
    Present,
    /// What is to be turned, and what it would bring.
    Preview,
    /// The tolerance band.
    Band,
    /// Its edges.
    BandEdge,
    /// Cautions and doubts.
    Caution,
    /// The field they stand on.
    CautionBack,
    /// Steel.
    Steel,
    /// Its edges.
    SteelEdge,
}

impl Ink {
    /// Red, green and blue, 0 to 255 each (sRGB).
    pub const fn rgb(self) -> [u8; 3] {
        match self {
            Self::Text => [0x1a, 0x22, 0x2b],
            Self::Muted => [0x4c, 0x55, 0x60],
            Self::Line => [0x9a, 0xa2, 0xad],
            Self::Paper => [0xff, 0xff, 0xff],
            Self::Present => [0x1f, 0x3a, 0x63],
            Self::Preview => [0x6a, 0x2f, 0xa3],
            Self::Band => [0xdd, 0xec, 0xe1],
            Self::BandEdge => [0x2c, 0x6e, 0x4f],
            Self::Caution => [0x8a, 0x1c, 0x10],
            Self::CautionBack => [0xfb, 0xec, 0xe6],
            Self::Steel => [0xc6, 0xcc, 0xd6],
            Self::SteelEdge => [0x5b, 0x65, 0x73],
        }
    }
}
