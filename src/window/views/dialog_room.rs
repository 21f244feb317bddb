//! The room of a dialog: what is too tall for it scrolls, by keys too, and
//! what stands below keeps its place.

use eframe::egui::style::ScrollAnimation;
use eframe::egui::{
    self, Align, CollapsingHeader, Id, Key, Modifiers, Response, RichText, ScrollArea, Ui, Vec2,
};

use crate::window::theme::{self, Palette, size};
use crate::window::views::widgets::{button, button_width, losing, main_of_width};

/// Room around a dialog's contents, its frame included.
pub const AROUND: f32 = 44.0;

/// Least height of a middle that scrolls by itself; with less the whole dialog
/// does.
const LEAST: f32 = 150.0;

/// Height of what stands below the middle, until it has been seen: a row of
/// buttons.
const BELOW: f32 = 60.0;

/// Least width of what a dialog is for.
const MAIN: f32 = 120.0;

/// What is kept of a dialog from frame to frame.
#[derive(Debug, Clone, Copy, Default)]
struct Room {
    /// The lower end of the middle, in this frame.
    middle: Option<f32>,
    /// Height of what stood below it in the last.
    below: Option<f32>,
    /// How far keys ask to scroll, until somebody does.
    asked: f32,
}

fn kept() -> Id {
    Id::unique("dialog room")
}

fn room(ui: &Ui) -> Room {
    ui.data(|data| data.get_temp(kept())).unwrap_or_default()
}

fn keep(ui: &Ui, room: Room) {
    ui.data_mut(|data| data.insert_temp(kept(), room));
}

/// Height that a dialog's contents may have.
pub fn height(ctx: &egui::Context) -> f32 {
    ctx.content_rect().height() - AROUND
}

/// Draws a dialog's contents within the window's height. Page keys scroll
/// them; where a dialog `only_tells`, arrows, Home and End do too.
pub fn whole(ui: &mut Ui, only_tells: bool, contents: impl FnOnce(&mut Ui)) {
    let height = height(ui.ctx());
    let before = room(ui);
    keep(
        ui,
        Room {
            middle: None,
            asked: asked(ui, only_tells, height),
            ..before
        },
    );
    ui.set_max_height(height);
    ui.spacing_mut().scroll = theme::lasting_scroll();
    ScrollArea::vertical()
        .id_salt("dialog")
        .max_height(height)
        .show(ui, |ui| {
            contents(ui);
            let after = room(ui);
            let below = after
                .middle
                .map(|middle| ui.min_rect().bottom() - middle)
                .or(before.below.filter(|_| after.middle.is_some()));
            let moved = |below: f32| (below - before.below.unwrap_or(BELOW)).abs() > 0.5;
            if below.is_some_and(moved) {
                ui.ctx().request_repaint();
            }
            keep(ui, Room { below, ..after });
            scroll(ui);
        });
}

/// Draws what stands between a dialog's title and its answers: it scrolls
/// where there is too much of it, so that the answers stay in sight.
pub fn middle<R>(ui: &mut Ui, contents: impl FnOnce(&mut Ui) -> R) -> R {
    middle_of(ui, None, contents)
}

/// The same as high as given, or as the window allows: a dialog of several
/// parts keeps its height whichever is on show.
pub fn middle_of_height<R>(ui: &mut Ui, height: f32, contents: impl FnOnce(&mut Ui) -> R) -> R {
    middle_of(ui, Some(height), contents)
}

fn middle_of<R>(ui: &mut Ui, fixed: Option<f32>, contents: impl FnOnce(&mut Ui) -> R) -> R {
    let used = ui.cursor().top() - ui.min_rect().top();
    let below = room(ui).below.unwrap_or(BELOW);
    let left = height(ui.ctx()) - used - below - 2.0;
    let inner = if left < LEAST {
        contents(ui)
    } else {
        ScrollArea::vertical()
            .id_salt("middle")
            .max_height(fixed.map_or(left, |fixed| left.min(fixed)))
            .auto_shrink([false, fixed.is_none()])
            .show(ui, |ui| {
                // Room for the scroll bar.
                ui.set_max_width(ui.available_width() - 12.0);
                let inner = contents(ui);
                scroll(ui);
                inner
            })
            .inner
    };
    let middle = Some(ui.min_rect().bottom());
    let room = room(ui);
    keep(ui, Room { middle, ..room });
    inner
}

/// What a dialog is left by, at its foot.
#[derive(Debug, Clone, Copy)]
pub struct Foot<'a> {
    /// What leaves it and does nothing.
    pub leave: Option<&'a str>,
    /// What it is for, and whether that can be done now.
    pub main: Option<(&'a str, bool)>,
}

/// What was pressed at the foot.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Answer {
    /// What leaves the dialog.
    Leave,
    /// What it is for.
    Main,
    /// What loses something.
    Lose,
}

/// The foot of a dialog that has nothing to decide: what closes it.
pub fn closed(ui: &mut Ui, palette: &Palette, close: &str) -> bool {
    let foot = Foot {
        leave: None,
        main: Some((close, true)),
    };
    foot.show(ui, palette, |_| {}).is_some()
}

impl Foot<'_> {
    /// Draws it, the same in every dialog: what it is for at the right and
    /// filled, what leaves it beside that, and the `rest` from the left.
    pub fn show(
        self,
        ui: &mut Ui,
        palette: &Palette,
        rest: impl FnOnce(&mut Ui),
    ) -> Option<Answer> {
        self.draw(ui, palette, rest).0
    }

    /// The same where nothing is typed, so that what the dialog is for has the
    /// keyboard first; what would `lose` something stands furthest from it.
    pub fn decide(self, ui: &mut Ui, palette: &Palette, lose: Option<&str>) -> Option<Answer> {
        let mut lost = false;
        let (answer, main) = self.draw(ui, palette, |ui| {
            lost = lose.is_some_and(|lose| losing(ui, palette, lose).clicked());
        });
        if let Some(main) = main
            && ui.memory(|memory| memory.focused().is_none())
        {
            main.request_focus();
        }
        answer.or(lost.then_some(Answer::Lose))
    }

    /// The same, and the button of what it is for, or else of what leaves it.
    pub fn draw(
        self,
        ui: &mut Ui,
        palette: &Palette,
        rest: impl FnOnce(&mut Ui),
    ) -> (Option<Answer>, Option<Response>) {
        let (mut answer, mut main_button) = (None, None);
        ui.horizontal_wrapped(|ui| {
            rest(ui);
            let gap = ui.spacing().item_spacing.x;
            let width = |text: Option<&str>, font| {
                text.map_or(0.0, |text| button_width(ui, text, font) + gap)
            };
            let leave = width(self.leave, theme::regular(size::BODY));
            let main = self.main.map(|(text, _)| text);
            let main = width(main, theme::bold(size::BODY)).max(MAIN + gap);
            let taken = leave + self.main.map_or(0.0, |_| main) - gap;
            if ui.available_rect_before_wrap().width() < taken {
                ui.end_row();
            }
            let before = ui.available_rect_before_wrap().width() - taken;
            if before > 0.0 {
                ui.add_space(before);
            }
            if let Some(text) = self.leave {
                let left = button(ui, text);
                if left.clicked() {
                    answer = Some(Answer::Leave);
                }
                main_button = Some(left);
            }
            if let Some(main) = self.main {
                let pressed = main_of_width(ui, palette, main, MAIN);
                if pressed.clicked() {
                    answer = Some(Answer::Main);
                }
                main_button = Some(pressed);
            }
        });
        (answer, main_button)
    }
}

/// A part of a dialog that unfolds.
pub fn fold(ui: &mut Ui, name: &str, contents: impl FnOnce(&mut Ui)) {
    let heading = RichText::new(name).font(theme::bold(size::BODY));
    unfolding(ui, CollapsingHeader::new(heading), contents);
}

/// Draws what unfolds, and brings into sight what has been unfolded; whether
/// its heading was pressed.
pub fn unfolding(ui: &mut Ui, header: CollapsingHeader, contents: impl FnOnce(&mut Ui)) -> bool {
    let before = ui.cursor().top();
    let folded = header.show_unindented(ui, contents);
    let unfolding = folded.header_response.id.with("unfolding");
    let clicked = folded.header_response.clicked();
    if clicked {
        ui.data_mut(|data| data.insert_temp(unfolding, true));
    }
    if ui.data(|data| data.get_temp(unfolding)) == Some(true) {
        let mut whole = ui.min_rect();
        whole.min.y = before;
        // What is longer than the room is read from its heading on.
        let long = whole.height() > ui.clip_rect().height();
        let align = long.then_some(Align::TOP);
        ui.scroll_to_rect_animation(whole, align, ScrollAnimation::none());
        if !clicked && matches!(folded.openness, 0.0 | 1.0) {
            ui.data_mut(|data| data.remove::<bool>(unfolding));
        }
    }
    clicked
}

/// Scrolls as far as keys ask, unless it has been done.
fn scroll(ui: &Ui) {
    let mut room = room(ui);
    let asked = std::mem::take(&mut room.asked);
    if asked != 0.0 {
        keep(ui, room);
        ui.scroll_with_delta_animation(Vec2::new(0.0, -asked), ScrollAnimation::none());
    }
}

/// How far the keys of this frame ask to scroll down, in points.
fn asked(ui: &Ui, only_tells: bool, height: f32) -> f32 {
    /// Further than any dialog is long.
    const END: f32 = 1e6;
    let page = height * 0.6;
    let line = 40.0;
    let pages = [(Key::PageDown, page), (Key::PageUp, -page)];
    let others = [
        (Key::ArrowDown, line),
        (Key::ArrowUp, -line),
        (Key::Home, -END),
        (Key::End, END),
    ];
    let others = others.into_iter().filter(|_| only_tells);
    ui.input_mut(|input| {
        pages
            .into_iter()
            .chain(others)
            .map(|(key, far)| input.count_and_consume_key(Modifiers::NONE, key) as f32 * far)
            .sum()
    })
}
