//! Which ways of drawing failed on this machine, so that the next start does
//! not wait for them, or crash in them, again.

use std::path::{Path, PathBuf};

use super::disk::{Content, Disk};
use super::real_disk::RealDisk;
use super::replace::replace;

/// A way of drawing the window.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Renderer {
    /// Through wgpu: Vulkan, Metal or Direct3D.
    Wgpu,
    /// Through glow: OpenGL.
    Glow,
}

impl Renderer {
    /// Both, the first to be tried first.
    pub const ALL: [Self; 2] = [Self::Wgpu, Self::Glow];

    /// Its name in options and files.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Wgpu => "wgpu",
            Self::Glow => "glow",
        }
    }

    /// The renderer of this name.
    pub fn named(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|one| one.name() == name)
    }
}

/// Name of the file in the preferences folder.
const FILE_NAME: &str = "renderer.txt";
const MOST_BYTES: u64 = 4 * 1024;

/// What is remembered of the renderers. Kept with the program's version: a new
/// one may get along with what the old one could not.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RendererMemory {
    file: PathBuf,
    failed: Vec<Renderer>,
    trying: Option<Renderer>,
}

impl RendererMemory {
    /// What the preferences folder holds. One that was being tried when the
    /// program ended without showing a frame has failed, too.
    pub fn of(folder: &Path) -> Self {
        let mut memory = Self {
            file: folder.join(FILE_NAME),
            failed: Vec::new(),
            trying: None,
        };
        let Ok(Content::Bytes(bytes)) = RealDisk.read(&memory.file, MOST_BYTES) else {
            return memory;
        };
        let text = String::from_utf8_lossy(&bytes);
        let mut lines = text.lines();
        if lines.next() != Some(env!("CARGO_PKG_VERSION")) {
            return memory;
        }
        for line in lines {
            let name = line.split_whitespace().nth(1).unwrap_or_default();
            if let Some(renderer) = Renderer::named(name) {
                memory.add(renderer);
            }
        }
        memory
    }

    /// Those that failed.
    pub fn failed(&self) -> &[Renderer] {
        &self.failed
    }

    /// All of them in the order to try: those that failed last.
    pub fn order(&self) -> Vec<Renderer> {
        let mut order = Renderer::ALL.to_vec();
        order.sort_by_key(|renderer| self.failed.contains(renderer));
        order
    }

    /// One is being tried: should the program end now, it was its fault.
    pub fn trying(&mut self, renderer: Renderer) {
        self.trying = Some(renderer);
        self.write();
    }

    /// The one being tried could not be started.
    pub fn it_failed(&mut self) {
        if let Some(renderer) = self.trying.take() {
            self.add(renderer);
        }
        self.write();
    }

    /// The one being tried showed a frame.
    pub fn it_works(&mut self) {
        if let Some(renderer) = self.trying.take() {
            self.failed.retain(|failed| *failed != renderer);
        }
        self.write();
    }

    fn add(&mut self, renderer: Renderer) {
        if !self.failed.contains(&renderer) {
            self.failed.push(renderer);
        }
    }

    fn write(&self) {
        let mut text = format!("{}\n", env!("CARGO_PKG_VERSION"));
        for renderer in &self.failed {
            text.push_str(&format!("failed {}\n", renderer.name()));
        }
        if let Some(renderer) = self.trying {
            text.push_str(&format!("trying {}\n", renderer.name()));
        }
        // Without it the next start takes longer; nothing is lost.
        if let Some(folder) = self.file.parent() {
            let _ = std::fs::create_dir_all(folder);
        }
        let _ = replace(&RealDisk, &self.file, text.as_bytes(), None);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_failed_is_tried_last() {
        let folder = tempfile::tempdir().unwrap();
        let at_start = || RendererMemory::of(folder.path());
        assert_eq!(at_start().order(), [Renderer::Wgpu, Renderer::Glow]);
        let mut first = at_start();
        first.trying(Renderer::Wgpu);
        first.it_failed();
        first.trying(Renderer::Glow);
        first.it_works();
        assert_eq!(at_start().order(), [Renderer::Glow, Renderer::Wgpu]);
        // The driver brings the whole program down: nothing more is written.
        at_start().trying(Renderer::Glow);
        assert_eq!(at_start().failed(), Renderer::ALL);
        // It works after all.
        let mut later = at_start();
        later.trying(Renderer::Wgpu);
        later.it_works();
        assert_eq!(at_start().order(), [Renderer::Wgpu, Renderer::Glow]);
        // Another version asks anew; rubbish is no memory.
        std::fs::write(folder.path().join(FILE_NAME), "0.0.0\nfailed wgpu\n").unwrap();
        assert!(at_start().failed().is_empty());
        std::fs::write(folder.path().join(FILE_NAME), b"\xff\n\nfailed").unwrap();
        assert!(at_start().failed().is_empty());
    }
}
