//! Files of readings as text, whatever program wrote them.

use std::path::Path;

use super::disk::{Content, Disk, DiskProblem};
use super::real_disk::RealDisk;

/// Largest file of readings that is read, in bytes: several times what a
/// pass with a thousand repeats everywhere needs.
pub const MOST_READINGS_BYTES: u64 = 4 * 1024 * 1024;

/// Why a file of readings cannot be read as text.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ReadingsFileProblem {
    /// The disk refused.
    Disk(DiskProblem),
    /// The name is that of a folder.
    Folder,
    /// The name is that of a device or a pipe.
    NotAFile,
    /// The file is larger than [`MOST_READINGS_BYTES`]: its size.
    TooLarge(u64),
    /// The file is no text: a picture, a workbook, a program.
    NotText,
}

/// Reads a file of readings as text: UTF-8 with or without its mark, UTF-16
/// with its mark, and otherwise, where no byte says it is no text at all, the
/// Latin alphabet of one byte a letter that older spreadsheets write.
///
/// # Errors
/// See [`ReadingsFileProblem`].
pub fn read_readings_file(path: &Path) -> Result<String, ReadingsFileProblem> {
    let content = RealDisk.read(path, MOST_READINGS_BYTES);
    match content.map_err(|error| ReadingsFileProblem::Disk(error.into()))? {
        Content::Missing => Err(ReadingsFileProblem::Disk(DiskProblem::Missing)),
        Content::Folder => Err(ReadingsFileProblem::Folder),
        Content::NotAFile => Err(ReadingsFileProblem::NotAFile),
        Content::TooLarge(bytes) => Err(ReadingsFileProblem::TooLarge(bytes)),
        Content::Bytes(bytes) => as_text(bytes).ok_or(ReadingsFileProblem::NotText),
    }
}

fn as_text(bytes: Vec<u8>) -> Option<String> {
    match bytes.as_slice() {
        [0xff, 0xfe, rest @ ..] => return utf16(rest, u16::from_le_bytes),
        [0xfe, 0xff, rest @ ..] => return utf16(rest, u16::from_be_bytes),
        _ => {}
    }
    // No text of any kind holds these; every picture and workbook does.
    let no_text = |byte: &u8| matches!(byte, 0x00..=0x08 | 0x0e..=0x1f);
    if bytes.iter().any(no_text) {
        return None;
    }
    match String::from_utf8(bytes) {
        Ok(text) => Some(text),
        Err(error) => Some(error.into_bytes().into_iter().map(char::from).collect()),
    }
}

fn utf16(bytes: &[u8], unit: fn([u8; 2]) -> u16) -> Option<String> {
    let (pairs, rest) = bytes.as_chunks::<2>();
    let units: Vec<u16> = pairs.iter().map(|pair| unit(*pair)).collect();
    let text = String::from_utf16(&units).ok()?;
    (rest.is_empty() && !text.contains('\0')).then_some(text)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_largest_file_that_is_read() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("readings.csv");
        // 4 MiB, and a byte more.
        for (bytes, found) in [
            (4_194_304, Ok(4_194_304)),
            (4_194_305, Err(ReadingsFileProblem::TooLarge(4_194_305))),
        ] {
            std::fs::write(&path, vec![b' '; bytes]).unwrap();
            assert_eq!(read_readings_file(&path).map(|text| text.len()), found);
        }
    }

    #[test]
    fn text_of_any_program() {
        let text = |bytes: &[u8]| as_text(bytes.to_vec());
        assert_eq!(text(b"A;B\r\n"), Some("A;B\r\n".to_owned()));
        assert_eq!(text(b"estaci\xf3n"), Some("estación".to_owned()));
        assert_eq!(text("estación".as_bytes()), Some("estación".to_owned()));
        assert_eq!(text(b"\xff\xfeA\0\n\0"), Some("A\n".to_owned()));
        assert_eq!(text(b"\xfe\xff\0A\0\n"), Some("A\n".to_owned()));
        assert_eq!(text(b"\xff\xfeA\0\n"), None);
        assert_eq!(text(b"PK\x03\x04"), None);
        assert_eq!(text(b""), Some(String::new()));
    }
}
