//! Carries out what the views ask for that bring readings in: arm by arm, and
//! over a serial port.

use eframe::egui;

use crate::store::PortSettings;

use super::App;
use super::gauge_port::GaugePort;
use super::guided::Guided;

impl App {
    /// Starts taking readings arm by arm, or ends it.
    pub(super) fn guide(&mut self, ctx: &egui::Context) {
        if self.view.guided.take().is_some() {
            return;
        }
        let mut guided = Guided::start();
        self.view.editing = None;
        self.view.side = None;
        self.view.crew = None;
        if let Some(settings) = self.preferences.port.clone().filter(|port| port.in_use) {
            guided.port = Some(self.listen(ctx, settings));
        }
        self.view.guided = Some(guided);
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
        GaugePort::open(settings, self.port_turn.clone(), move || {
            ctx.request_repaint()
        })
    }
}
