//! How long a page takes, in milliseconds of work on the processor where the
//! system tells that: facts, pages and bytes of the report and of the turn card.
//! Aim: one report under 100 ms.
//!
//! `cargo bench --bench report`

use std::hint::black_box;
use std::time::Instant;

use jawtrue::report::{
    About, Facts, Fonts, Paper, Printed, Setting, pdf, png, profile_picture, session_report, svg,
};
use jawtrue::session::PriorShelf;
use jawtrue::store::SampleSession;
use jawtrue::words::{Figures, Language};

const TIMES: u32 = 20;

fn timed<T>(name: &str, mut work: impl FnMut() -> T) {
    black_box(work());
    let begun = Instant::now();
    for _ in 0..TIMES {
        black_box(work());
    }
    let mean = begun.elapsed().as_secs_f64() * 1e3 / f64::from(TIMES);
    println!("  {name:<44} {mean:8.2} ms");
}

fn main() {
    for sample in [SampleSession::default(), SampleSession::Bow] {
        let session = sample.session().expect("a sample");
        println!("{}", session.press.name);
        let setting = Setting {
            figures: Figures {
                language: Language::Spanish,
                unit: session.unit,
                step: session.gauge.step.length(),
                limit: Some(session.tolerance.length()),
            },
            paper: Paper::Letter,
            today: None,
            practice: false,
            printed: "2026-11-26 10:00".into(),
        };
        let shelf = PriorShelf::default();
        timed("advice and verdicts, the prior on the shelf", || {
            Facts::of(&session, None, &shelf)
        });
        let facts = Facts::of(&session, None, &shelf);
        let fonts = Fonts::new();
        timed("pages of the report", || {
            session_report(&session, &facts, &setting, &fonts)
        });
        let pages = session_report(&session, &facts, &setting, &fonts);
        let about = About {
            title: "report".into(),
            language: "es",
            author: String::new(),
        };
        timed("those pages as PDF", || pdf(&pages, &fonts, &about));
        timed("the whole report, the prior on the shelf", || {
            Printed::Report.document(&session, None, &setting, &shelf)
        });
        timed("the whole report, without a prior", || {
            Printed::Report.document(&session, None, &setting, &PriorShelf::default())
        });
        timed("the whole turn card", || {
            Printed::TurnCard.document(&session, None, &setting, &shelf)
        });
        let picture = profile_picture(&session, &setting, &fonts);
        timed("the profile as SVG", || svg(&picture, &fonts, "profile"));
        timed("the profile as PNG, 1920 pixels wide", || {
            png(&picture, &fonts, 192.0 / 72.0)
        });
    }
}
