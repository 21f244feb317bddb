//! The whole program in one crate, so that the compiler finds what only tests
//! use: in a library every public item counts as used. Never run; checked by
//! `cargo clippy --example whole --features whole`.

#![deny(dead_code)]
#![allow(missing_docs, unused_imports, clippy::wrong_self_convention)]

#[path = "../../src/cli/mod.rs"]
mod cli;
#[path = "../../src/codec/mod.rs"]
mod codec;
#[path = "../../src/plan/mod.rs"]
mod plan;
#[path = "../../src/practice/mod.rs"]
mod practice;
#[path = "../../src/press/mod.rs"]
mod press;
#[path = "../../src/report/mod.rs"]
mod report;
#[path = "../../src/session/mod.rs"]
mod session;
#[path = "../../src/shop/mod.rs"]
mod shop;
#[path = "../../src/splice/mod.rs"]
mod splice;
#[path = "../../src/stats/mod.rs"]
mod stats;
#[path = "../../src/store/mod.rs"]
mod store;
#[path = "../../src/units/mod.rs"]
mod units;
#[path = "../../src/window/mod.rs"]
mod window;
#[path = "../../src/words/mod.rs"]
mod words;

/// Everything that the program reaches.
fn main() {
    let language = words::Language::of_system(|name| std::env::var(name).ok());
    let (mut out, mut err) = (std::io::stdout(), std::io::stderr());
    let mut console = cli::Console::new(language, &mut out, &mut err);
    match cli::run(std::env::args_os().skip(1), &mut console) {
        cli::Outcome::Done(_) => {}
        cli::Outcome::Doctor => {
            cli::doctor(window::graphics, &mut console);
        }
        cli::Outcome::Window(request) => {
            if let Err(error) = window::run(request.file.clone(), request.renderer) {
                window::tell_desktop(request.language, &error);
                cli::without_window(&request, &error.to_string(), &mut console);
            }
        }
    }
}
