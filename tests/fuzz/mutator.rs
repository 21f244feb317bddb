//! Spoils good input, the same way for the same seed on every machine.

/// Longest input that is made, in bytes, but for the rare one that repeats
/// itself without end.
const MOST_BYTES: usize = 128 * 1024;
const MOST_REPEATED_BYTES: usize = 4 * 1024 * 1024;

/// What a reader may stumble over, put in anywhere.
const WORDS: &[&str] = &[
    "NaN",
    "nan",
    "inf",
    "-inf",
    "infinity",
    "1e999",
    "-1e-999",
    "1e-400",
    "0x7fffffff",
    "-0",
    "0",
    "-1",
    "1",
    "2147483647",
    "2147483648",
    "-2147483649",
    "9223372036854775807",
    "9223372036854775808",
    "18446744073709551616",
    "99999999999999999999999999999999999999999",
    "0.0000000000000000000000000000000000001",
    "1/0",
    "0/0",
    "1 1/0",
    "5/64",
    "1,234.5",
    "1.234,5",
    "0.2475 in",
    "6.29 mm",
    "247.5 thou",
    "\"",
    "''",
    "\\",
    "\\u{0}",
    "\\x00",
    "\0",
    "\u{1b}[2J",
    "\u{9b}31m",
    "\u{202e}",
    "\u{2066}",
    "\u{200f}",
    "\u{feff}",
    "\u{fffd}",
    "\u{1f9ea}",
    "e\u{301}",
    "\u{fb}",
    "\u{660}\u{661}",
    "\u{2212}1",
    "\r",
    "\n",
    "\r\n",
    "\t",
    " ",
    "\u{a0}",
    ",",
    ";",
    ",,",
    "(",
    ")",
    "[",
    "]",
    "{",
    "}",
    "((((",
    "))))",
    "[[[[",
    "]]]]",
    "/*",
    "*/",
    "//",
    "r#\"",
    "\"#",
    "Some(",
    "None",
    "()",
    "true",
    "false",
    "format: 1",
    "format: 2",
    "press_format: 1",
    "lesson_format: 1",
    "=1+1",
    "@SUM(A1)",
    "arm,reading",
    "A,B,C",
    "#!",
    "%PDF",
    "PK\u{3}\u{4}",
];

/// What stands for a number.
const NUMBERS: &[&str] = &[
    "0",
    "-0",
    "1",
    "-1",
    "2",
    "7",
    "12",
    "13",
    "30",
    "31",
    "200",
    "201",
    "-200",
    "1000",
    "1001",
    "2147483647",
    "-2147483648",
    "4294967296",
    "9223372036854775807",
    "-9223372036854775808",
    "18446744073709551615",
    "18446744073709551616",
    "1e308",
    "1e-308",
    "1e999",
    "NaN",
    "inf",
    "0.0001",
    "0.00000001",
    "393.7",
    "0.04",
    "0.2",
    "0.25",
    "0.2475",
    "6.35",
    "500",
    "99999",
];

/// A source of chance: splitmix64, by Sebastiano Vigna, in the public domain
/// (the constants from memory).
pub struct Chance(u64);

impl Chance {
    pub fn new(seed: u64) -> Self {
        Self(seed)
    }

    pub fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// A number from 0 to `most`, itself left out; 0 where that is 0.
    pub fn below(&mut self, most: usize) -> usize {
        (self.next() % most.max(1) as u64) as usize
    }

    pub fn of<'a, T: ?Sized>(&mut self, all: &[&'a T]) -> &'a T {
        all[self.below(all.len())]
    }
}

/// One of the good inputs, spoiled in a place or several.
pub fn spoiled(seeds: &[Vec<u8>], chance: &mut Chance) -> Vec<u8> {
    let mut bytes = seeds[chance.below(seeds.len())].clone();
    // One spoiled number in an otherwise good file gets furthest in.
    let places = [1, 1, 1, 1, 2, 3, 8][chance.below(7)];
    for _ in 0..places {
        spoil(&mut bytes, seeds, chance);
        bytes.truncate(MOST_BYTES);
    }
    if chance.below(500) == 0 {
        repeat_without_end(&mut bytes, chance);
    }
    bytes
}

fn spoil(bytes: &mut Vec<u8>, seeds: &[Vec<u8>], chance: &mut Chance) {
    let at = chance.below(bytes.len() + 1);
    match chance.below(20) {
        0 => {
            if let Some(byte) = bytes.get_mut(at) {
                *byte ^= 1 << chance.below(8);
            }
        }
        1 => {
            let random = chance.next().to_le_bytes();
            let some = chance.below(8) + 1;
            bytes.splice(at..at, random[..some].iter().copied());
        }
        2 => {
            let end = (at + chance.below(40)).min(bytes.len());
            bytes.drain(at..end);
        }
        3 => {
            let end = (at + chance.below(200)).min(bytes.len());
            let piece = bytes[at..end].repeat(chance.below(64));
            bytes.splice(at..at, piece);
        }
        4..=6 => put_in(bytes, at, chance.of(WORDS)),
        7..=11 => {
            if let Some((begin, end)) = run_around(bytes, at, |byte| {
                byte.is_ascii_digit() || matches!(byte, b'.' | b'-')
            }) {
                bytes.splice(begin..end, chance.of(NUMBERS).bytes());
            }
        }
        12 => {
            let other = &seeds[chance.below(seeds.len())];
            let from = chance.below(other.len() + 1);
            bytes.truncate(at);
            bytes.extend_from_slice(&other[from..]);
        }
        13 => bytes.truncate(at),
        14..=16 => with_lines(bytes, chance),
        17 => {
            if let Some((begin, end)) = run_around(bytes, at, |byte| byte != b'"' && byte != b'\n')
            {
                bytes.splice(begin..end, chance.of(WORDS).bytes());
            }
        }
        18 => {
            let opening = chance.of(&["(", "[", "Some(", "/*", "{", "\""]);
            put_in(bytes, at, &opening.repeat(chance.below(300)));
        }
        _ => {
            if let Some((begin, end)) = run_around(bytes, at, |byte| byte.is_ascii_lowercase()) {
                let word = bytes[begin..end].to_vec();
                let to = chance.below(bytes.len() + 1);
                bytes.splice(to..to, word);
            }
        }
    }
}

fn put_in(bytes: &mut Vec<u8>, at: usize, text: &str) {
    bytes.splice(at..at, text.bytes());
}

/// Swaps two lines, or puts one in twice, or takes one away.
fn with_lines(bytes: &mut Vec<u8>, chance: &mut Chance) {
    let mut lines: Vec<Vec<u8>> = bytes
        .split(|byte| *byte == b'\n')
        .map(<[u8]>::to_vec)
        .collect();
    let (one, other) = (chance.below(lines.len()), chance.below(lines.len()));
    match chance.below(3) {
        0 => lines.swap(one, other),
        1 => {
            let line = lines[one].clone();
            for _ in 0..=chance.below(12) {
                lines.insert(other, line.clone());
            }
        }
        _ => {
            lines.remove(one);
        }
    }
    *bytes = lines.join(&b'\n');
}

/// The bytes around a place, or after it, that are all of one kind.
fn run_around(bytes: &[u8], at: usize, kind: impl Fn(u8) -> bool) -> Option<(usize, usize)> {
    let start = at + bytes.get(at..)?.iter().position(|byte| kind(*byte))?;
    let begin = bytes[..start]
        .iter()
        .rposition(|byte| !kind(*byte))
        .map_or(0, |at| at + 1);
    let length = bytes[start..].iter().position(|byte| !kind(*byte));
    Some((begin, length.map_or(bytes.len(), |length| start + length)))
}

/// What is packed small and unpacks without end: a piece over and over.
fn repeat_without_end(bytes: &mut Vec<u8>, chance: &mut Chance) {
    let at = chance.below(bytes.len() + 1);
    let end = (at + 1 + chance.below(30)).min(bytes.len());
    let piece = bytes[at..end].to_vec();
    let times = MOST_REPEATED_BYTES / piece.len().max(1);
    bytes.splice(at..at, piece.repeat(times));
}
