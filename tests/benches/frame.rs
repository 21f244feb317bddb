//! The work of a frame: layout and tessellation of the main view while a nut
//! is turned notch by notch, against an empty window with one plot; and the
//! time to the first frame against an empty window.
//!
//! `cargo bench --bench frame -- [frames]`. Without a screen: what the graphics
//! driver adds is the same for every window.

use std::path::Path;
use std::time::{Duration, Instant};

use eframe::egui::{self, Key, Modifiers};
use egui_kittest::Harness;
use egui_plot::{Line, Plot, PlotPoints};
use jawtrue::press::{Arm, Press};
use jawtrue::session::{Document, Edit, Session};
use jawtrue::store::{self, Expected};
use jawtrue::units::{Sign, TypedLength, Unit};
use jawtrue::window::{App, Surroundings};

const SIZE: [f32; 2] = [1400.0, 900.0];

fn main() {
    let mut numbers = std::env::args().filter_map(|word| word.parse().ok());
    let frames = numbers.next_back().unwrap_or(300_usize);
    let folder = std::env::temp_dir().join(format!("jawtrue-frame-bench-{}", std::process::id()));
    std::fs::create_dir_all(&folder).expect("a folder for the sessions");

    let empty = plot_alone(frames);
    println!("a window with one plot: {}", shown(empty));
    for arms in [4, 12] {
        let path = folder.join(format!("{arms}.jawtrue"));
        store::save(&path, &session(arms), Expected::Anything).expect("a session file");
        let (idle, dragging) = main_view(&path, frames);
        println!(
            "{arms:2} arms: drawn again {} ({:.1} plots), a nut turned every frame {} ({:.1} plots)",
            shown(idle),
            ratio(idle, empty),
            shown(dragging),
            ratio(dragging, empty)
        );
    }
    first_frame(&folder.join("4.jawtrue"));
    let _ = std::fs::remove_dir_all(&folder);
}

fn ratio(a: Duration, b: Duration) -> f64 {
    a.as_secs_f64() / b.as_secs_f64()
}

fn shown(time: Duration) -> String {
    format!("{:.3} ms", time.as_secs_f64() * 1e3)
}

fn median(mut times: Vec<Duration>) -> Duration {
    times.sort_unstable();
    times.get(times.len() / 2).copied().unwrap_or_default()
}

/// One frame: layout, then the triangles it is drawn with.
fn frame<S>(harness: &mut Harness<'_, S>) -> Duration {
    let begun = Instant::now();
    harness.step();
    let shapes = harness.output().shapes.clone();
    let triangles = harness.ctx.tessellate(shapes, 1.0);
    std::hint::black_box(triangles);
    begun.elapsed()
}

fn plot_alone(frames: usize) -> Duration {
    let points: Vec<[f64; 2]> = (0..200)
        .map(|i| f64::from(i) / 20.0)
        .map(|x| [x, libm::sin(x)])
        .collect();
    let mut harness = Harness::builder().with_size(SIZE).build_ui(move |ui| {
        Plot::new("plot").show(ui, |plot| {
            plot.line(Line::new("line", PlotPoints::from(points.clone())));
        });
    });
    harness.run_steps(5);
    median((0..frames).map(|_| frame(&mut harness)).collect())
}

/// The main view: drawn again as it is, and with a nut turned every frame.
fn main_view(path: &Path, frames: usize) -> (Duration, Duration) {
    let mut harness = window(path);
    // The advice comes from another thread.
    for _ in 0..400 {
        std::thread::sleep(Duration::from_millis(5));
        harness.step();
    }
    let idle = median((0..frames).map(|_| frame(&mut harness)).collect());
    harness.key_press_modifiers(Modifiers::COMMAND, Key::T);
    harness.run_steps(3);
    let turned = (0..frames).map(|index| {
        harness.key_press(if index % 2 == 0 {
            Key::ArrowUp
        } else {
            Key::ArrowDown
        });
        frame(&mut harness)
    });
    (idle, median(turned.collect()))
}

fn window(path: &Path) -> Harness<'static, App> {
    let surroundings = Surroundings {
        folders: None,
        dialogs: false,
    };
    let path = path.to_owned();
    Harness::builder()
        .with_size(SIZE)
        .build_eframe(move |cc| App::within(&cc.egui_ctx, Some(path), surroundings))
}

struct Empty;

impl eframe::App for Empty {
    fn ui(&mut self, _ui: &mut egui::Ui, _frame: &mut eframe::Frame) {}
}

/// From nothing to the first frame.
fn first_frame(path: &Path) {
    let of = |begin: &dyn Fn() -> Duration| median((0..15).map(|_| begin()).collect());
    let empty = of(&|| {
        let begun = Instant::now();
        let mut harness = Harness::builder().with_size(SIZE).build_eframe(|_| Empty);
        frame(&mut harness);
        begun.elapsed()
    });
    let whole = of(&|| {
        let begun = Instant::now();
        let mut harness = window(path);
        frame(&mut harness);
        begun.elapsed()
    });
    println!(
        "first frame without a screen: {} against {} of an empty window; the difference of {} comes on top of what opening a window takes",
        shown(whole),
        shown(empty),
        shown(whole.saturating_sub(empty))
    );
}

/// A press with its first pass read.
fn session(arms: usize) -> Session {
    let inch = |text: &str| TypedLength::parse(text, Unit::Inch, Sign::None).expect("a length");
    let press = Press::new(
        "bench",
        inch(&format!("{}", 12 * arms)),
        (0..arms)
            .map(|arm| Arm::new(inch(&format!("{}", 6 + 12 * arm)), inch("0.004")))
            .collect::<Vec<_>>(),
    );
    let mut document = Document::unsaved(Session::new("bench".to_owned(), Unit::Inch, press));
    let rows = (0..arms).map(|arm| vec![format!("0.25{:02}", (arm * 37) % 90)]);
    for edit in [
        Edit::add_pass([], ""),
        Edit::fill((0, 0, 0), rows, Unit::Inch),
    ] {
        document.apply(&edit).expect("a pass");
    }
    document.session().clone()
}
