//! The program needs no network and asks for none: no source of ours names a
//! socket, and nothing it is built of looks up names or speaks to servers. What
//! is left are the sockets of the display and the desktop on this machine
//! (`strace -f -e trace=connect` shows them).

use std::fs;
use std::path::{Path, PathBuf};

fn sources(folder: &Path, found: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            sources(&path, found);
        } else if path.extension().is_some_and(|ending| ending == "rs") {
            found.push(path);
        }
    }
}

#[test]
fn no_source_opens_a_socket() {
    let mut found = Vec::new();
    sources(
        &Path::new(env!("CARGO_MANIFEST_DIR")).join("src"),
        &mut found,
    );
    assert!(found.len() > 100);
    for path in found {
        let text = fs::read_to_string(&path).unwrap();
        for word in ["std::net", "TcpStream", "UdpSocket", "UnixStream"] {
            assert!(!text.contains(word), "{path:?} names {word}");
        }
    }
}

#[test]
fn nothing_it_is_built_of_speaks_to_servers() {
    let lock = Path::new(env!("CARGO_MANIFEST_DIR")).join("Cargo.lock");
    let lock = fs::read_to_string(lock).unwrap();
    assert!(lock.contains("name = \"eframe\""));
    for name in [
        "curl",
        "h2",
        "hickory-resolver",
        "hyper",
        "native-tls",
        "openssl",
        "quinn",
        "reqwest",
        "rustls",
        "tungstenite",
        "ureq",
        "url",
        "webbrowser",
    ] {
        assert!(!lock.contains(&format!("name = \"{name}\"\n")), "{name}");
    }
}
