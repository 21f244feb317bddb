//! Opens the window, with whichever renderer the machine can serve.

use std::path::PathBuf;

use eframe::egui;

use super::App;

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
    let mut causes = Vec::new();
    for renderer in [eframe::Renderer::Glow, eframe::Renderer::Wgpu] {
        let file = file.clone();
        let result = eframe::run_native(
            APP_ID,
            options(renderer),
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

fn options(renderer: eframe::Renderer) -> eframe::NativeOptions {
    eframe::NativeOptions {
        renderer,
        viewport: egui::ViewportBuilder::default()
            .with_app_id(APP_ID)
            .with_title("Jawtrue")
            .with_inner_size([1400.0, 900.0])
            .with_min_inner_size([800.0, 560.0]),
        ..Default::default()
    }
}

/// A built-in sample session.
pub(super) fn sample_session(_index: usize) -> crate::session::Session {
    use crate::press::{Arm, Notches, Press, customary};
    use crate::session::{Edit, Session};
    use crate::units::{Sign, TypedLength, Unit};
    let inch = |text: &str| TypedLength::parse(text, Unit::Inch, Sign::None).unwrap();
    let press = Press {
        name: "Press 2, Elm Row shop (invented)".into(),
        jaw_length: inch("48"),
        arms: ["6", "18", "30", "42"]
            .iter()
            .map(|at| Arm {
                position: inch(at),
                notch_effect: TypedLength::from_length(customary::NOTCH_EFFECT, Unit::Inch),
                limits: None,
                opening_margin: None,
            })
            .collect(),
        nut_travel: None,
    };
    let mut session = Session::new("sample".into(), Unit::Inch, press);
    session.invented = true;
    session.start_nuts = vec![Notches(-4); 4];
    let session = session
        .edited(&Edit::AddPass {
            turns: vec![],
            laced: String::new(),
        })
        .unwrap();
    session
        .edited(&Edit::Fill {
            pass: 0,
            station: 0,
            repeat: 0,
            rows: [
                ["0.2500", "0.2505"],
                ["0.2445", "0.2440"],
                ["0.2510", "0.2505"],
                ["0.2525", "0.2525"],
            ]
            .iter()
            .map(|row| row.iter().map(|text| (*text).to_owned()).collect())
            .collect(),
            bare: Unit::Inch,
        })
        .unwrap()
}
