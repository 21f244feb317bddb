//! How large everything is drawn: as the display has room for, so that it is
//! read from a metre without setting anything, unless the user has a zoom of
//! their own.

use eframe::egui::{self, Vec2};

use super::App;
use super::preferences::ZOOM;

/// Step of the zoom, the user's own and the display's.
const STEP: f32 = 0.125;

/// Room in points that everything is laid out for; a larger window draws it
/// larger. In a full window on a common display of 0.28 mm a pixel and 1920 by
/// 1080 of them a capital of the text is then 4.4 mm high, which a metre away
/// fills 15 minutes of arc; ISO 9241-303 asks for 16 at the least where text is
/// read at length (from memory), and titles and figures are larger.
const ROOM: Vec2 = Vec2::new(1280.0, 720.0);

/// The zoom of a window of a size in the desktop's points.
pub fn by_display(window: Vec2) -> f32 {
    let fits = (window.x / ROOM.x).min(window.y / ROOM.y);
    ((fits / STEP).floor() * STEP).clamp(1.0, ZOOM.1)
}

impl App {
    /// Brings the zoom into force.
    pub(super) fn follow_zoom(&self, ctx: &egui::Context) {
        let window = ctx.content_rect().size() * ctx.zoom_factor();
        let zoom = self.preferences.zoom.unwrap_or_else(|| by_display(window));
        if zoom != ctx.zoom_factor() {
            ctx.set_zoom_factor(zoom);
        }
    }

    /// Makes everything larger (1) or smaller (-1), or lets it follow the
    /// display again (0).
    pub(super) fn zoom(&mut self, ctx: &egui::Context, by: i8) {
        let stepped = ctx.zoom_factor() + f32::from(by) * STEP;
        self.preferences.zoom = (by != 0).then(|| stepped.clamp(ZOOM.0, ZOOM.1));
        self.follow_zoom(ctx);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn larger_displays_draw_larger() {
        for (width, height, zoom) in [
            (1024.0, 640.0, 1.0),
            (1366.0, 768.0, 1.0),
            (1400.0, 900.0, 1.0),
            (1904.0, 992.0, 1.375),
            (1920.0, 1080.0, 1.5),
            (2560.0, 1440.0, 2.0),
            (3840.0, 2160.0, 3.0),
            // Neither a wide window nor a tall one gives more room to both.
            (3840.0, 720.0, 1.0),
            (560.0, 4200.0, 1.0),
        ] {
            assert_eq!(
                by_display(Vec2::new(width, height)),
                zoom,
                "{width} {height}"
            );
        }
    }
}
