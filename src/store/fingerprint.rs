//! Tells whether a file is still what it was.

/// The length and the 64-bit FNV-1a hash (Fowler, Noll, Vo) of a file's bytes.
///
/// Two different states of a file share it by accident once in 2^64; it is no
/// guard against somebody who wants to deceive.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Fingerprint {
    pub(super) bytes: u64,
    pub(super) hash: u64,
}

impl Fingerprint {
    /// The fingerprint of some bytes; the same on every machine and in every
    /// version.
    pub fn of(bytes: &[u8]) -> Self {
        const OFFSET: u64 = 0xcbf2_9ce4_8422_2325;
        const PRIME: u64 = 0x0000_0100_0000_01b3;
        let hash = bytes.iter().fold(OFFSET, |hash, byte| {
            (hash ^ u64::from(*byte)).wrapping_mul(PRIME)
        });
        Self {
            bytes: bytes.len() as u64,
            hash,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::Fingerprint;

    #[test]
    fn it_is_the_published_hash() {
        // FNV-1a 64 of "", "a" and "foobar": test vectors of the authors'
        // page (isthe.com/chongo/tech/comp/fnv), from memory.
        for (text, hash) in [
            ("", 0xcbf2_9ce4_8422_2325),
            ("a", 0xaf63_dc4c_8601_ec8c),
            ("foobar", 0x8594_4171_f739_67e8),
        ] {
            assert_eq!(Fingerprint::of(text.as_bytes()).hash, hash, "{text:?}");
        }
    }
}
