//! Opens the window, with whichever renderer the machine can serve.

use std::path::PathBuf;

use crate::press::{Arm, JawDrive, Press, customary};
use crate::session::Session;
use crate::store::{Folders, SampleSession};
use crate::units::{Length, TypedLength, Unit};

use super::App;
use super::place::WindowPlace;
use super::preferences::Preferences;

/// Why no window could be opened.
#[derive(Debug)]
pub enum StartError {
    /// There is no display to open it on.
    NoDisplay(String),
    /// Neither renderer could be started: what each said.
    NoRenderer(String),
}

impl std::fmt::Display for StartError {
    /// The technical cause, for the end of a sentence.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::NoDisplay(cause) | Self::NoRenderer(cause) => f.write_str(cause),
        }
    }
}

/// The name under which the desktop knows the program.
const APP_ID: &str = "jawtrue";

/// Opens the window on a file, or on the built-in sample, and stays until it
/// is closed.
///
/// OpenGL is tried first, since it starts fastest; where it fails (remote
/// desktops, virtual machines), the other renderer is tried.
///
/// # Errors
/// Why no window could be opened.
pub fn run(file: Option<PathBuf>) -> Result<(), StartError> {
    if cfg!(target_os = "linux") && !has_linux_display() {
        return Err(StartError::NoDisplay("DISPLAY, WAYLAND_DISPLAY".into()));
    }
    let place = Folders::of_user().map_or_else(WindowPlace::default, |folders| {
        Preferences::peek(&folders.preferences).place()
    });
    let mut causes = Vec::new();
    for renderer in [eframe::Renderer::Glow, eframe::Renderer::Wgpu] {
        let file = file.clone();
        let result = eframe::run_native(
            APP_ID,
            options(renderer, place),
            Box::new(move |cc| Ok(Box::new(App::new(&cc.egui_ctx, file)))),
        );
        match result {
            Ok(()) => return Ok(()),
            Err(error @ (eframe::Error::Winit(_) | eframe::Error::WinitEventLoop(_))) => {
                return Err(StartError::NoDisplay(error.to_string()));
            }
            Err(error) => causes.push(error.to_string()),
        }
    }
    Err(StartError::NoRenderer(causes.join("; ")))
}

fn has_linux_display() -> bool {
    ["DISPLAY", "WAYLAND_DISPLAY", "WAYLAND_SOCKET"]
        .iter()
        .any(|name| std::env::var_os(name).is_some_and(|value| !value.is_empty()))
}

fn options(renderer: eframe::Renderer, place: WindowPlace) -> eframe::NativeOptions {
    let icon = eframe::icon_data::from_png_bytes(include_bytes!("../../assets/icon.png"));
    eframe::NativeOptions {
        renderer,
        viewport: place
            .builder()
            .with_icon(icon.unwrap_or_default())
            .with_app_id(APP_ID)
            .with_title("Jawtrue"),
        ..Default::default()
    }
}

/// A built-in sample session.
pub(super) fn sample_session(sample: SampleSession) -> Session {
    // A test opens every sample; should one fail all the same, the window
    // opens on a plain press instead of not at all.
    sample.session().unwrap_or_else(|_| {
        let mm =
            |mm: i64| TypedLength::from_length(Length::from_nm(mm * 1_000_000), Unit::Millimetre);
        let arm = |position| Arm {
            position: mm(position),
            notch_effect: TypedLength::from_length(customary::NOTCH_EFFECT, Unit::Millimetre),
            limits: None,
            opening_margin: None,
        };
        let press = Press {
            name: String::new(),
            jaw_length: mm(1_200),
            arms: vec![arm(300), arm(900)],
            nut_travel: None,
            drive: JawDrive::default(),
            left_hand_thread: false,
        };
        Session::new(String::new(), Unit::Millimetre, press)
    })
}
