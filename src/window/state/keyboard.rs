//! Where the keyboard is while a dialog stands in front, and where it was
//! before.

use std::mem::{Discriminant, discriminant};

use eframe::egui::{Context, FocusDirection, Id, Order};

use super::Dialog;

/// Frames for which the keyboard is looked after: what is behind a dialog
/// takes it only once the dialog has been gone for one.
const PATIENCE: u8 = 4;

/// Gives a dialog the keyboard, and gives it back.
#[derive(Debug, Default)]
pub struct Keyboard {
    /// What had it before the dialog came up.
    before: Option<Id>,
    /// The button of the menu that was open last: a dialog that a menu brought
    /// up gives the keyboard back to it.
    menu: Option<Id>,
    /// The dialog in front.
    of: Option<Discriminant<Dialog>>,
    /// Frames for which it is still to be looked after.
    waits: u8,
}

impl Keyboard {
    /// Notes the button of a menu that is open.
    pub fn menu_is_open(&mut self, button: Id) {
        self.menu = Some(button);
    }

    /// Gives a dialog that has come up its first field, where it takes none
    /// itself. Call it before the dialog is drawn.
    pub fn take(&mut self, ctx: &Context, dialog: &Dialog) {
        let of = Some(discriminant(dialog));
        if self.of != of {
            let focused = ctx.memory(|memory| memory.focused());
            if self.of.is_none() {
                let in_menu = focused.is_none_or(|id| {
                    let seen = ctx.read_response(id);
                    seen.is_none_or(|seen| seen.layer_id.order == Order::Foreground)
                });
                self.before = if in_menu { self.menu.take() } else { focused };
            }
            self.of = of;
            self.waits = PATIENCE;
            if let Some(focused) = focused {
                ctx.memory_mut(|memory| memory.surrender_focus(focused));
            }
            ctx.request_repaint();
            return;
        }
        if self.waits == 0 {
            return;
        }
        self.waits -= 1;
        if ctx.memory(|memory| memory.focused().is_none()) {
            ctx.memory_mut(|memory| memory.move_focus(FocusDirection::Next));
            ctx.request_repaint();
        } else {
            self.waits = 0;
        }
    }

    /// Gives the keyboard back once no dialog is in front, unless something
    /// else has taken it.
    pub fn give_back(&mut self, ctx: &Context) {
        if self.of.take().is_some() {
            self.waits = PATIENCE;
        }
        let Some(before) = self.before else { return };
        let taken = ctx.memory(|memory| memory.focused().is_some());
        if taken || self.waits == 0 || ctx.read_response(before).is_none() {
            self.before = None;
            return;
        }
        self.waits -= 1;
        ctx.memory_mut(|memory| memory.request_focus(before));
        ctx.request_repaint();
    }
}
