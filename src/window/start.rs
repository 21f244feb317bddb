//! Opens the window, with whichever renderer the machine can serve.

use std::path::PathBuf;
use std::sync::{Arc, Mutex, PoisonError};

use eframe::egui_wgpu::{WgpuConfiguration, WgpuSetup};

use crate::press::{Arm, Press, customary};
use crate::session::Session;
use crate::store::{self, Folders, Renderer, RendererMemory, SampleSession};
use crate::units::{Length, TypedLength, Unit};
use crate::words::Language;

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

/// What the window may use of the machine it runs on.
#[derive(Debug, Clone)]
pub struct Surroundings {
    /// Where preferences and work kept aside go; without, neither is kept.
    pub folders: Option<Folders>,
    /// Whether the desktop's file dialogs may be used; without, paths are
    /// typed.
    pub dialogs: bool,
}

impl Surroundings {
    /// The user's own folders and desktop.
    pub fn of_user() -> Self {
        Self {
            folders: Folders::of_user(),
            dialogs: true,
        }
    }
}

/// The name under which the desktop knows the program.
const APP_ID: &str = "jawtrue";

/// Opens the window on a file, or on the built-in sample, and stays until it
/// is closed.
///
/// wgpu is tried first, then OpenGL through glow (old machines, remote desktops,
/// virtual machines), or only the one that is asked for. One that failed here
/// before is tried last.
///
/// # Errors
/// Why no window could be opened.
pub fn run(file: Option<PathBuf>, asked_for: Option<Renderer>) -> Result<(), StartError> {
    if cfg!(target_os = "linux") && !has_linux_display() {
        return Err(StartError::NoDisplay("DISPLAY, WAYLAND_DISPLAY".into()));
    }
    let folders = Folders::of_user();
    let kept = folders.as_ref().map(|folders| &folders.preferences);
    if let Some(folder) = kept {
        log_panics(folder.clone());
    }
    let place = kept.map_or_else(WindowPlace::default, |folder| {
        Preferences::peek(folder).place()
    });
    let memory = kept.map(|folder| Arc::new(Mutex::new(RendererMemory::of(folder))));
    let with_memory = |act: fn(&mut RendererMemory)| {
        if let Some(memory) = &memory {
            act(&mut memory.lock().unwrap_or_else(PoisonError::into_inner));
        }
    };
    let order = match (asked_for, &memory) {
        (Some(renderer), _) => vec![renderer],
        (None, Some(memory)) => memory
            .lock()
            .unwrap_or_else(PoisonError::into_inner)
            .order(),
        (None, None) => Renderer::ALL.to_vec(),
    };
    let mut causes = Vec::new();
    for renderer in order {
        with_memory(match renderer {
            Renderer::Wgpu => |memory| memory.trying(Renderer::Wgpu),
            Renderer::Glow => |memory| memory.trying(Renderer::Glow),
        });
        let (file, memory) = (file.clone(), memory.clone());
        // A graphics card that is only imagined draws slower through wgpu than
        // OpenGL does; it is taken where it is asked for.
        let cards_only = asked_for.is_none() && !memory_failed(memory.as_ref(), Renderer::Glow);
        let result = eframe::run_native(
            APP_ID,
            options(renderer, place, cards_only),
            Box::new(move |cc| {
                let mut app = App::new(&cc.egui_ctx, file);
                app.draws_with(renderer, memory);
                Ok(Box::new(app))
            }),
        );
        match result {
            Ok(()) => return Ok(()),
            Err(error @ (eframe::Error::Winit(_) | eframe::Error::WinitEventLoop(_))) => {
                return Err(StartError::NoDisplay(error.to_string()));
            }
            Err(error) => {
                if let Some(folder) = kept {
                    let line = format!("{} not started", renderer.name());
                    store::log_line(folder, &line);
                }
                causes.push(format!("{}: {error}", renderer.name()));
                with_memory(RendererMemory::it_failed);
            }
        }
    }
    Err(StartError::NoRenderer(causes.join("; ")))
}

/// What is remembered of the renderers, shared with the window that proves one.
pub(super) type SharedMemory = Arc<Mutex<RendererMemory>>;

fn memory_failed(memory: Option<&SharedMemory>, renderer: Renderer) -> bool {
    memory.is_some_and(|memory| {
        let memory = memory.lock().unwrap_or_else(PoisonError::into_inner);
        memory.failed().contains(&renderer)
    })
}

/// Has the log say where the program fell, without what it said: that may hold
/// what was typed.
fn log_panics(folder: PathBuf) {
    let before = std::panic::take_hook();
    std::panic::set_hook(Box::new(move |info| {
        let place = info.location().map(ToString::to_string);
        store::log_line(&folder, &format!("fell at {}", place.unwrap_or_default()));
        before(info);
    }));
}

/// The graphics cards that wgpu would draw with, and their drivers.
pub fn graphics() -> Vec<String> {
    let instance = wgpu::Instance::new(wgpu::InstanceDescriptor::new_without_display_handle());
    let cards = pollster::block_on(instance.enumerate_adapters(wgpu::Backends::PRIMARY));
    cards
        .iter()
        .map(|card| {
            let info = card.get_info();
            format!("{} ({}, {:?})", info.name, info.backend, info.device_type)
        })
        .collect()
}

fn has_linux_display() -> bool {
    ["DISPLAY", "WAYLAND_DISPLAY", "WAYLAND_SOCKET"]
        .iter()
        .any(|name| std::env::var_os(name).is_some_and(|value| !value.is_empty()))
}

fn options(renderer: Renderer, place: WindowPlace, cards_only: bool) -> eframe::NativeOptions {
    let icon = eframe::icon_data::from_png_bytes(include_bytes!("../../assets/icon.png"));
    let mut drawing = WgpuConfiguration::default();
    if let (true, WgpuSetup::CreateNew(setup)) = (cards_only, &mut drawing.wgpu_setup) {
        setup.native_adapter_selector = Some(Arc::new(real_card));
    }
    eframe::NativeOptions {
        wgpu_options: drawing,
        renderer: match renderer {
            Renderer::Wgpu => eframe::Renderer::Wgpu,
            Renderer::Glow => eframe::Renderer::Glow,
        },
        viewport: place
            .builder()
            .with_icon(icon.unwrap_or_default())
            .with_app_id(APP_ID)
            .with_title("Jawtrue"),
        ..Default::default()
    }
}

/// The first graphics card that is none in name only and can show the window.
fn real_card(
    cards: &[wgpu::Adapter],
    surface: Option<&wgpu::Surface<'_>>,
) -> Result<wgpu::Adapter, String> {
    let rank = |kind: wgpu::DeviceType| match kind {
        wgpu::DeviceType::DiscreteGpu => 0,
        wgpu::DeviceType::IntegratedGpu => 1,
        _ => 2,
    };
    cards
        .iter()
        .filter(|card| card.get_info().device_type != wgpu::DeviceType::Cpu)
        .filter(|card| surface.is_none_or(|surface| card.is_surface_supported(surface)))
        .min_by_key(|card| rank(card.get_info().device_type))
        .cloned()
        .ok_or_else(|| "no card".to_owned())
}

/// A built-in sample session, told in a language.
pub(super) fn sample_session(sample: SampleSession, words: Language) -> Session {
    // A test opens every sample; should one fail all the same, the window
    // opens on a plain press instead of not at all.
    words.sample_session(sample).unwrap_or_else(|_| {
        let mm =
            |mm: i64| TypedLength::from_length(Length::from_nm(mm * 1_000_000), Unit::Millimetre);
        let arm = |position| {
            Arm::new(
                mm(position),
                TypedLength::from_length(customary::NOTCH_EFFECT, Unit::Millimetre),
            )
        };
        let press = Press::new("", mm(1_200), vec![arm(300), arm(900)]);
        Session::new(String::new(), Unit::Millimetre, press)
    })
}
