//! What drives the moving jaw, as far as it is noted.

/// Sprockets and chains that drive the jaw along its length.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct JawDrive {
    /// How many idler sprockets there are; unknown until counted.
    pub idler_sprockets: Option<u32>,
    /// Whether short chains are fitted; unknown until looked at.
    pub short_chains: Option<bool>,
}
