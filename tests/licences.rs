//! Every package that the program is built of may be handed on: its licence
//! stands in a list. What it is built of in two versions has a reason.

use std::collections::{BTreeMap, BTreeSet};
use std::process::{Command, Output};

use serde_json::Value;

/// Licences whose terms a shop and a reseller can keep by keeping the notices
/// (SPDX names). MPL-2.0 asks that changed files of that package stay open;
/// none is changed.
const ACCEPTED: [&str; 14] = [
    "0BSD",
    "Apache-2.0",
    "BSD-2-Clause",
    "BSD-3-Clause",
    "BSL-1.0",
    "CC0-1.0",
    "ISC",
    "MIT",
    "MPL-2.0",
    "OFL-1.1",
    "Ubuntu-font-1.0",
    "Unicode-3.0",
    "Unlicense",
    "Zlib",
];

/// Packages that the program is built of in two versions on Linux, and who
/// holds the older one there. One that goes is taken out; a new one is first
/// asked whether it can be had in one version.
const DOUBLED: [(&str, &str); 17] = [
    (
        "calloop",
        "winit's older Wayland stack; its clipboard has the newer",
    ),
    ("calloop-wayland-source", "the same"),
    ("smithay-client-toolkit", "the same"),
    ("rustix", "the same"),
    ("linux-raw-sys", "the same"),
    ("thiserror", "the same"),
    ("thiserror-impl", "the same"),
    (
        "font-types",
        "krilla and epaint, each with its reader of fonts",
    ),
    ("read-fonts", "the same"),
    ("skrifa", "the same"),
    (
        "embedded-io",
        "named by postcard for streams, which are not asked for; not compiled",
    ),
    ("foldhash", "hashbrown"),
    (
        "hashbrown",
        "petgraph and gpu-allocator, below naga and wgpu-hal",
    ),
    ("miniz_oxide", "png 0.18"),
    ("pollster", "rfd; a hundred lines"),
    ("rustc-hash", "naga"),
    ("syn", "macros at build time only"),
];

/// Whether an SPDX expression leaves a choice that the list accepts. `WITH`
/// adds permissions only; `/` is an old form of `OR`.
fn is_accepted(expression: &str) -> bool {
    let expression = expression.replace('/', " OR ");
    accepted_or(&mut words(&expression).peekable())
}

type Words<'a> = std::iter::Peekable<Box<dyn Iterator<Item = String> + 'a>>;

fn words(expression: &str) -> Box<dyn Iterator<Item = String>> {
    let spaced = expression.replace('(', " ( ").replace(')', " ) ");
    let words: Vec<String> = spaced.split_whitespace().map(str::to_owned).collect();
    Box::new(words.into_iter())
}

fn accepted_or(words: &mut Words<'_>) -> bool {
    let mut accepted = accepted_and(words);
    while words.next_if(|word| word == "OR").is_some() {
        accepted |= accepted_and(words);
    }
    accepted
}

fn accepted_and(words: &mut Words<'_>) -> bool {
    let mut accepted = accepted_one(words);
    while words.next_if(|word| word == "AND").is_some() {
        accepted &= accepted_one(words);
    }
    accepted
}

fn accepted_one(words: &mut Words<'_>) -> bool {
    let Some(word) = words.next() else {
        return false;
    };
    if word == "(" {
        let accepted = accepted_or(words);
        return words.next().as_deref() == Some(")") && accepted;
    }
    if words.next_if(|word| word == "WITH").is_some() {
        words.next();
    }
    ACCEPTED.contains(&word.as_str())
}

#[test]
fn expressions_are_read_as_spdx_has_them() {
    for (expression, accepted) in [
        ("MIT", true),
        ("GPL-3.0-only", false),
        ("GPL-3.0-only OR MIT", true),
        ("GPL-3.0-only AND MIT", false),
        ("MIT/Apache-2.0", true),
        ("(MIT OR GPL-2.0-only) AND Unicode-3.0", true),
        ("(GPL-2.0-only) AND Unicode-3.0", false),
        ("Apache-2.0 WITH LLVM-exception OR GPL-2.0-only", true),
        ("", false),
    ] {
        assert_eq!(is_accepted(expression), accepted, "{expression}");
    }
}

/// What the program is built of on Linux, Windows and macOS, without what only
/// tests use: name and version to licence.
fn built_of() -> BTreeMap<String, String> {
    let out = metadata(&[]);
    // Without the packages of other systems at hand, those of this one.
    if out.status.success() {
        packages_of(&out)
    } else {
        built_of_here()
    }
}

fn metadata(more: &[&str]) -> Output {
    Command::new(env!("CARGO"))
        .args(["metadata", "--format-version", "1", "--locked", "--offline"])
        .args(more)
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .output()
        .unwrap()
}

/// The same on this system alone.
fn built_of_here() -> BTreeMap<String, String> {
    let host = Command::new(env!("CARGO")).arg("-vV").output().unwrap();
    let host = String::from_utf8(host.stdout).unwrap();
    let host = host.lines().find_map(|line| line.strip_prefix("host: "));
    packages_of(&metadata(&["--filter-platform", host.unwrap()]))
}

fn packages_of(out: &Output) -> BTreeMap<String, String> {
    assert!(
        out.status.success(),
        "{}",
        String::from_utf8_lossy(&out.stderr)
    );
    let metadata: Value = serde_json::from_slice(&out.stdout).unwrap();
    let nodes = metadata["resolve"]["nodes"].as_array().unwrap();
    let node = |id: &str| nodes.iter().find(|node| node["id"] == id).unwrap();
    let mut reached = BTreeSet::new();
    let mut open = vec![metadata["resolve"]["root"].as_str().unwrap().to_owned()];
    while let Some(id) = open.pop() {
        if !reached.insert(id.clone()) {
            continue;
        }
        for dependency in node(&id)["deps"].as_array().unwrap() {
            let kinds = dependency["dep_kinds"].as_array().unwrap();
            if kinds.iter().any(|kind| kind["kind"] != "dev") {
                open.push(dependency["pkg"].as_str().unwrap().to_owned());
            }
        }
    }
    let packages = metadata["packages"].as_array().unwrap();
    packages
        .iter()
        .filter(|package| reached.contains(package["id"].as_str().unwrap()))
        .map(|package| {
            let text = |key: &str| package[key].as_str().unwrap_or_default().to_owned();
            (
                format!("{} {}", text("name"), text("version")),
                text("license"),
            )
        })
        .collect()
}

#[test]
fn every_package_may_be_handed_on() {
    let built_of = built_of();
    assert!(built_of.len() > 100, "{}", built_of.len());
    let refused: Vec<_> = built_of
        .iter()
        .filter(|(_, licence)| !is_accepted(licence))
        .collect();
    assert!(refused.is_empty(), "{refused:#?}");
}

#[cfg(target_os = "linux")]
#[test]
fn nothing_stands_in_two_versions_without_a_reason() {
    let mut versions: BTreeMap<String, usize> = BTreeMap::new();
    for package in built_of_here().into_keys() {
        let name = package.split(' ').next().unwrap();
        *versions.entry(name.to_owned()).or_default() += 1;
    }
    versions.retain(|_, count| *count > 1);
    let doubled: BTreeSet<&str> = versions.keys().map(String::as_str).collect();
    let expected: BTreeSet<&str> = DOUBLED.iter().map(|(name, _)| *name).collect();
    assert_eq!(doubled, expected);
}
