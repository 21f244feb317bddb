//! Files that are handed over as addresses.

use std::ffi::OsString;
use std::path::PathBuf;

/// The path that an argument names. Desktops and file managers hand files over
/// as `file:` addresses (RFC 8089), their bytes percent-encoded (RFC 3986, 2.1).
pub(super) fn path_of(value: OsString) -> PathBuf {
    let address = value.to_str().and_then(|text| {
        let rest = text.strip_prefix("file://")?;
        // Of this machine only; a name of another is no path here.
        let path = rest.strip_prefix("localhost").unwrap_or(rest);
        decoded(path.starts_with('/').then_some(path)?)
    });
    address.unwrap_or_else(|| PathBuf::from(value))
}

/// A path whose percent-encoded bytes are as they are.
#[cfg(unix)]
fn decoded(path: &str) -> Option<PathBuf> {
    use std::os::unix::ffi::OsStringExt;
    decoded_bytes(path).map(|bytes| PathBuf::from(OsString::from_vec(bytes)))
}

/// A path whose percent-encoded bytes are as they are.
#[cfg(not(unix))]
fn decoded(path: &str) -> Option<PathBuf> {
    let text = String::from_utf8(decoded_bytes(path)?).ok()?;
    // `file:///C:/...`
    let drive = text
        .strip_prefix('/')
        .filter(|rest| rest.get(1..2) == Some(":"));
    Some(PathBuf::from(drive.unwrap_or(&text)))
}

/// The bytes, or nothing where one is encoded badly.
fn decoded_bytes(path: &str) -> Option<Vec<u8>> {
    let mut parts = path.split('%');
    let mut bytes = parts.next()?.as_bytes().to_vec();
    for part in parts {
        let digits = part.get(..2)?;
        let byte = digits.bytes().all(|digit| digit.is_ascii_hexdigit());
        bytes.push(u8::from_str_radix(digits, 16).ok().filter(|_| byte)?);
        bytes.extend(part.get(2..)?.bytes());
    }
    Some(bytes)
}

#[cfg(test)]
mod tests {
    use super::path_of;
    use std::path::Path;

    #[test]
    fn a_file_address_is_a_path() {
        // RFC 8089, appendix B: with an empty host, and with `localhost`.
        for (given, path) in [
            ("file:///path/to/file", "/path/to/file"),
            ("file://localhost/path/to/file", "/path/to/file"),
            ("file:///a%20press%C3%A9.jawtrue", "/a pressé.jawtrue"),
            ("/a%20plain path", "/a%20plain path"),
            ("plain.jawtrue", "plain.jawtrue"),
            // Neither of this machine nor well encoded: as it stands.
            ("file://other/path", "file://other/path"),
            ("file:///a%2", "file:///a%2"),
            ("file:///a%+1", "file:///a%+1"),
        ] {
            assert_eq!(path_of(given.into()), Path::new(path), "{given}");
        }
    }
}
