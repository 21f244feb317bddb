//! What is said of a thing under the pointer: never over a caution, and never
//! over the act. Where there is no clear place it is not said.

use eframe::egui::{
    self, Context, Event, FontSelection, Id, Rect, RectAlign, Response, Tooltip, Vec2,
};

/// Distance of a hint from what it is about.
const GAP: f32 = 4.0;

/// Widths of a hint that are tried, in points.
const WIDTHS: [f32; 3] = [420.0, 280.0, 190.0];

/// Where a hint may stand beside its thing, the likeliest first.
const PLACES: [RectAlign; 12] = [
    RectAlign::BOTTOM_START,
    RectAlign::BOTTOM,
    RectAlign::BOTTOM_END,
    RectAlign::TOP_START,
    RectAlign::TOP,
    RectAlign::TOP_END,
    RectAlign::RIGHT_START,
    RectAlign::RIGHT,
    RectAlign::RIGHT_END,
    RectAlign::LEFT_START,
    RectAlign::LEFT,
    RectAlign::LEFT_END,
];

/// The places that hints keep clear of, of this pass and of the last.
#[derive(Debug, Clone, Default)]
struct Clear {
    pass: u64,
    now: Vec<Rect>,
    last: Vec<Rect>,
}

fn kept() -> Id {
    Id::unique("kept clear")
}

/// Keeps hints off this place: a caution, or the act.
pub fn keep_clear(ctx: &Context, place: Rect) {
    let pass = ctx.cumulative_pass_nr();
    ctx.data_mut(|data| {
        let clear = data.get_temp_mut_or_default::<Clear>(kept());
        if clear.pass != pass {
            clear.pass = pass;
            clear.last = std::mem::take(&mut clear.now);
        }
        clear.now.push(place);
    });
}

/// Says something of a thing while the pointer rests on it.
pub trait Hint {
    /// The same response; an empty text says nothing.
    fn hint(self, text: impl Into<String>) -> Self;
}

impl Hint for Response {
    fn hint(self, text: impl Into<String>) -> Self {
        let text = text.into();
        let pointed_at = pointed_at(&self);
        if !text.is_empty() && pointed_at && Tooltip::should_show_tooltip(&self, true) {
            show(&self, &text);
        }
        self
    }
}

/// Whether the pointer came to a thing where it stands. What came under a resting
/// pointer by scrolling, or otherwise, was not pointed at: its hint would lie over
/// what somebody is about to tick.
fn pointed_at(response: &Response) -> bool {
    let here = (response.id, response.rect.min);
    let kept = Id::unique("pointed at");
    let moves = |event: &Event| matches!(event, Event::PointerMoved(_));
    if response.hovered() && response.ctx.input(|input| input.events.iter().any(moves)) {
        response.ctx.data_mut(|data| data.insert_temp(kept, here));
    }
    response.ctx.data(|data| data.get_temp(kept)) == Some(here)
}

fn show(response: &Response, text: &str) {
    let ctx = &response.ctx;
    let style = ctx.global_style();
    let around = egui::Frame::popup(&style).total_margin().sum();
    let font = FontSelection::Default.resolve(&style);
    let screen = ctx.content_rect();
    let clear = ctx.data(|data| data.get_temp::<Clear>(kept()));
    let clear = clear.unwrap_or_default();
    let blocked = |place: Rect| {
        let mut kept = clear.now.iter().chain(&clear.last);
        !screen.contains_rect(place) || kept.any(|kept| kept.intersects(place))
    };
    for width in WIDTHS {
        let ink = style.visuals.text_color();
        let galley = ctx.fonts_mut(|fonts| fonts.layout(text.to_owned(), font.clone(), ink, width));
        let size = galley.size() + around + Vec2::splat(1.0);
        let free = |place: &&RectAlign| !blocked(place.align_rect(&response.rect, size, GAP));
        if let Some(place) = PLACES.iter().find(free) {
            let mut tooltip = Tooltip::for_enabled(response).gap(GAP).width(width);
            let own = std::slice::from_ref(place);
            tooltip.popup = tooltip.popup.align(*place).align_alternatives(own);
            tooltip.show(|ui| ui.label(text));
            return;
        }
    }
}
