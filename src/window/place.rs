//! Where the window stood when it was last closed, and where it opens.

use eframe::egui::{self, Pos2, Rect, Vec2, ViewportBuilder, ViewportCommand};

/// Size of the window at its first start, and the least it can be given.
const SIZE: [f32; 2] = [1400.0, 900.0];
const LEAST: [f32; 2] = [800.0, 560.0];

/// What the desktop keeps of the screen for its own bar, and what the window's
/// frame adds to the window, in points (no desktop says before the window is
/// there; these are on the safe side of the usual ones).
const DESKTOP_BAR: f32 = 48.0;
const FRAME: Vec2 = Vec2::new(16.0, 40.0);

/// How much of the window, at least, has to be on the screen.
const IN_SIGHT: f32 = 120.0;

/// Where the window stands, in the desktop's own points, whatever the zoom.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct WindowPlace {
    /// Width and height, without the desktop's frame.
    pub size: Option<[f32; 2]>,
    /// Left upper corner of the desktop's frame.
    pub position: Option<[f32; 2]>,
    /// Whether it fills the screen.
    pub maximized: bool,
}

impl WindowPlace {
    /// A window that opens there. One too large for the screen is made smaller
    /// once the screen is known.
    pub fn builder(self) -> ViewportBuilder {
        let builder = ViewportBuilder::default()
            .with_inner_size(self.size.unwrap_or(SIZE))
            .with_min_inner_size(LEAST)
            .with_maximized(self.maximized);
        match self.position {
            Some(position) => builder.with_position(position),
            None => builder,
        }
    }

    /// Notes where the window stands now. A window that fills the screen goes
    /// back to where it stood before.
    pub fn note(&mut self, ctx: &egui::Context) {
        let zoom = ctx.zoom_factor();
        let size = ctx.content_rect().size() * zoom;
        let (maximized, hidden, corner, screen) = ctx.input(|input| {
            let viewport = input.viewport();
            (
                viewport.maximized.unwrap_or(false) || viewport.fullscreen.unwrap_or(false),
                viewport.minimized.unwrap_or(false),
                viewport.outer_rect.map(|rect| rect.min * zoom),
                viewport.monitor_size.map(|size| size * zoom),
            )
        });
        if hidden {
            return;
        }
        self.maximized = maximized;
        if !maximized {
            self.size = Some([size.x, size.y]);
            self.position = corner
                .filter(|&corner| in_sight(corner, screen))
                .map(|corner| [corner.x, corner.y]);
        }
    }

    /// Brings a window into sight that does not fit on the screen where it is:
    /// the screen may be smaller than the usual one, or have become so.
    /// Answers whether the screen was known.
    pub fn bring_into_sight(self, ctx: &egui::Context) -> bool {
        let zoom = ctx.zoom_factor();
        let screen = ctx.input(|input| input.viewport().monitor_size);
        let Some(screen) = screen.map(|screen| screen * zoom) else {
            return false;
        };
        // At its first start it takes a large screen whole.
        let size = self.size.map_or(screen.max(SIZE.into()), Vec2::from);
        let fitting = fitting(size, screen);
        if fitting != size && !self.maximized {
            ctx.send_viewport_cmd(ViewportCommand::InnerSize(fitting / zoom));
        }
        let corner = self.position.map(Pos2::from);
        if fitting != size
            || corner.is_some_and(|corner| {
                !in_sight(corner, Some(screen)) || beyond(corner, fitting, screen)
            })
        {
            ctx.send_viewport_cmd(ViewportCommand::OuterPosition(Pos2::ZERO));
        }
        true
    }
}

/// The size of a window, cut to what a screen has room for beside the
/// desktop's own bar.
fn fitting(size: Vec2, screen: Vec2) -> Vec2 {
    let room = screen - FRAME - Vec2::new(0.0, DESKTOP_BAR);
    size.min(room.max(Vec2::splat(1.0)))
}

/// Whether a window with this corner reaches beyond the screen.
fn beyond(corner: Pos2, size: Vec2, screen: Vec2) -> bool {
    let far = corner.to_vec2() + size + FRAME;
    far.x > screen.x || far.y > screen.y
}

/// Whether a window with this corner shows enough of itself to be grasped. A
/// place on a second screen counts as out of sight: that screen may be gone
/// at the next start.
fn in_sight(corner: Pos2, screen: Option<Vec2>) -> bool {
    screen.is_none_or(|screen| {
        let room = (screen - Vec2::splat(IN_SIGHT)).max(Vec2::ZERO);
        let least = Pos2::new(-IN_SIGHT, -IN_SIGHT / 4.0);
        Rect::from_min_max(least, room.to_pos2()).contains(corner)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_window_is_never_larger_than_the_screen_has_room_for() {
        let shop = Vec2::new(1366.0, 768.0);
        let first = fitting(Vec2::from(SIZE), shop);
        assert_eq!(first, Vec2::new(1350.0, 680.0));
        assert!(!beyond(Pos2::ZERO, first, shop));
        assert!(beyond(Pos2::new(40.0, 200.0), first, shop));
        // What fits stays as it is.
        let small = Vec2::new(900.0, 600.0);
        assert_eq!(fitting(small, shop), small);
    }

    #[test]
    fn a_window_off_the_screen_is_out_of_sight() {
        let screen = Some(Vec2::new(1280.0, 720.0));
        for (x, y, seen) in [
            (0.0, 0.0, true),
            (600.0, 300.0, true),
            (1920.0, 40.0, false),
            (40.0, 700.0, false),
            (-900.0, 40.0, false),
            (40.0, -400.0, false),
            (f32::NAN, 0.0, false),
        ] {
            assert_eq!(in_sight(Pos2::new(x, y), screen), seen, "{x} {y}");
        }
        assert!(in_sight(Pos2::new(1920.0, 40.0), None));
    }
}
