//! Carries out what the views ask for that bring readings in: arm by arm, and
//! over a serial port.

use std::path::Path;

use eframe::egui;

use crate::session::Edit;
use crate::store::{PortSettings, ReadingsFileProblem};

use super::App;
use super::editing::noted;
use super::gauge_port::GaugePort;
use super::messages::Tone;
use super::state::guided::Guided;
use super::state::import_form::ImportForm;
use super::state::{Dialog, Pane, Preview};

impl App {
    /// Starts taking readings arm by arm.
    pub(super) fn guide(&mut self, ctx: &egui::Context) {
        let mut guided = Guided::start();
        self.view.readings.cells.now = None;
        self.view.side = None;
        self.view.crew = None;
        self.view.pane = Pane::Middle;
        if let Some(settings) = self.preferences.port.clone().filter(|port| port.in_use) {
            guided.port = Some(self.listen(ctx, settings));
        }
        self.view.guided = Some(guided);
    }

    fn import_form(&self) -> ImportForm {
        let unit = self.figures().unit;
        ImportForm::new(self.session(), self.shown_pass(), unit)
    }

    /// Shows the dialog that imports readings.
    pub(super) fn ask_import(&mut self) {
        let form = self.import_form();
        self.view.dialog = Some(Dialog::Import(Box::new(form)));
    }

    /// Shows what a file of readings holds.
    pub(super) fn readings_read(&mut self, path: &Path, read: Result<String, ReadingsFileProblem>) {
        let mut form = self.import_form();
        let name = path.file_name().unwrap_or(path.as_os_str());
        form.file = Some(name.to_string_lossy().into_owned());
        match read {
            Ok(text) => form.take_text(self.session(), text),
            Err(problem) => {
                let words = self.words();
                let why = words.readings_file_problem(problem);
                form.refused = Some(words.with_path(why, path.display()));
            }
        }
        self.view.dialog = Some(Dialog::Import(Box::new(form)));
    }

    /// Imports readings as one step; where that is refused, the dialog stays.
    pub(super) fn import(&mut self, edit: &Edit, pass: usize, now: f64) {
        match self.document.apply(&noted(edit)) {
            Ok(_) => {
                self.view.dialog = None;
                self.view.readings.cells.now = None;
                self.act_show_pass(pass);
                let sentence = self.words().said_imported(pass + 1);
                self.say(Tone::Done, sentence, now);
            }
            Err(problem) => {
                let sentence = self.figures().edit_problem(&problem);
                self.say(Tone::Problem, sentence, now);
            }
        }
    }

    fn act_show_pass(&mut self, pass: usize) {
        self.view.pass = (pass + 1 < self.session().passes.len()).then_some(pass);
        self.view.preview = Preview::Recommended;
    }

    /// Listens to the gauge at a port from now on, or no longer.
    pub(super) fn use_port(&mut self, ctx: &egui::Context, settings: PortSettings) {
        self.view.dialog = None;
        let port = settings.in_use.then(|| self.listen(ctx, settings.clone()));
        if let Some(guided) = &mut self.view.guided {
            guided.port = port;
            guided.port_open = false;
            guided.port_says = None;
            guided.wants_keyboard = true;
        }
        self.preferences.port = Some(settings);
        self.save_preferences();
    }

    fn listen(&self, ctx: &egui::Context, settings: PortSettings) -> GaugePort {
        let ctx = ctx.clone();
        GaugePort::open(settings, self.listening.clone(), move || {
            ctx.request_repaint()
        })
    }
}
