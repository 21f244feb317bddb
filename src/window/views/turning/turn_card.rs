//! The turn card fills the window: the nuts in the order in which they are
//! turned, and the one at hand in letters that can be read from two metres.

use eframe::egui::{
    self, Align2, Button, CentralPanel, CornerRadius, Direction, EventFilter, Frame, Key, Layout,
    Margin, Modifiers, Panel, Pos2, Rect, Response, RichText, Role, ScrollArea, Sense, StrokeKind,
    Ui, Vec2, WidgetInfo,
};

use crate::session::MarkKind;
use crate::window::action::Action;
use crate::window::state::turn_card::{AtHand, CardAct, CardNut, Purpose, TurnCard};
use crate::window::theme::{self, GAP, TARGET};

use crate::window::views::Scene;
use crate::window::views::hint::{Hint, keep_clear};
use crate::window::views::tick_box::box_of;
use crate::window::views::turning::lettering::{fitting, large, lesser};
use crate::window::views::turning::{nut_at_hand, safety, thread};
use crate::window::views::widgets::offered;

/// The window at which letters have their full size, in points.
const FULL: Vec2 = Vec2::new(1400.0, 900.0);

/// Height of the window from which the short cautions have a strip.
const CAUTION_STRIP: f32 = 560.0;

/// Draws the card in all the room there is.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>) {
    let Some(mut card) = scene.view.turn_card.take() else {
        return;
    };
    let room = ui.available_size();
    let scale = (room.x / FULL.x).min(room.y / FULL.y).clamp(0.3, 2.0);
    let seen = scene.session.press.left_hand_thread.is_some();
    keys(ui, scene, &mut card, seen);
    let paper = Frame::new().fill(scene.palette.paper);
    let around = paper.inner_margin(Margin::same(GAP as i8));
    Panel::top("card top")
        .frame(around)
        .show_separator_line(false)
        .show(ui, |ui| top(ui, scene, &card, scale));
    let strip = Frame::new()
        .fill(scene.palette.caution_back)
        .inner_margin(Margin::symmetric(12, 5));
    Panel::bottom("card cautions")
        .frame(strip)
        .show(ui, |ui| beware(ui, scene, &card, room, scale));
    if !seen {
        let around = CentralPanel::default().frame(around);
        around.show(ui, |ui| thread::ask(ui, scene, scale));
        scene.view.turn_card = Some(card);
        return;
    }
    Panel::bottom("card act")
        .frame(around)
        .resizable(false)
        .show_separator_line(false)
        .show(ui, |ui| act(ui, scene, &mut card, scale));
    let side = paper.inner_margin(Margin {
        left: GAP as i8,
        ..Margin::ZERO
    });
    Panel::left("card nuts")
        .exact_size((430.0 * scale).max(190.0))
        .resizable(false)
        .show_separator_line(false)
        .frame(side)
        .show(ui, |ui| nuts(ui, scene, &mut card, scale));
    let middle = paper.inner_margin(Margin::symmetric(GAP as i8, 0));
    CentralPanel::default()
        .frame(middle)
        .show(ui, |ui| nut_at_hand::show(ui, scene, &mut card, scale));
    if scene.view.turn_card.is_none() {
        scene.view.turn_card = Some(card);
    }
}

/// Escape leaves; Enter and Space tick, once the thread was seen.
fn keys(ui: &Ui, scene: &mut Scene<'_>, card: &mut TurnCard, seen: bool) {
    if scene.view.dialog.is_some() {
        return;
    }
    if ui.input_mut(|input| input.consume_key(Modifiers::NONE, Key::Escape)) {
        scene.ask(Action::StopTurning);
    }
    // The keys of the card work where no widget has the keyboard, too.
    if !seen || ui.memory(|memory| memory.focused().is_some()) {
        return;
    }
    let pressed = |key| ui.input_mut(|input| input.consume_key(Modifiers::NONE, key));
    if pressed(Key::Enter) || pressed(Key::Space) {
        match card.at_hand() {
            AtHand::Nut if card.is_told() => {}
            AtHand::Nut => tick(ui, card),
            AtHand::AllTurned => scene.ask(Action::AllTurned),
        }
    }
    step(ui, card);
}

/// Seconds after a tick in which no other is taken: a finger that taps twice
/// ticks one nut.
const DEAD: f64 = 0.5;

/// Ticks the nut at hand, unless one was ticked a moment ago.
fn tick(ui: &Ui, card: &mut TurnCard) {
    let now = ui.input(|input| input.time);
    let open = card.current().is_some_and(|nut| !nut.ticked);
    if open && card.ticked_at.is_none_or(|at| now - at >= DEAD) {
        card.ticked_at = Some(now);
        card.tick();
    }
}

/// Which press, made safe by whom, how far; and the way out.
fn top(ui: &mut Ui, scene: &mut Scene<'_>, card: &TurnCard, scale: f32) {
    let words = scene.words();
    let palette = scene.palette;
    let name = match scene.session.press.name.as_str() {
        "" => words.unnamed_press(),
        name => name,
    };
    let title = match card.purpose() {
        Purpose::Splice => words.card_title(name),
        Purpose::CoarseGap => words.card_title_gap(name),
    };
    let (done, of) = card.done();
    let done = words.card_done(done, of);
    let safe = scene.session.made_safe_mark();
    let below = match safe {
        Some(mark) => format!("{} · {done}", words.made_safe_line(mark)),
        None => done,
    };
    ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
        let text = RichText::new(words.card_stop()).font(large(28.0, scale));
        let stop = Button::new(text.color(palette.caution));
        let least = Vec2::new(150.0 * scale, (80.0 * scale).max(TARGET));
        if ui.add(stop.min_size(least)).clicked() {
            scene.ask(Action::StopTurning);
        }
        ui.vertical(|ui| {
            let width = ui.available_width();
            ui.spacing_mut().item_spacing.y = 2.0;
            let title = fitting(ui, title, large(40.0, scale), palette.ink, width);
            ui.label(title);
            let below = fitting(ui, below, lesser(26.0, scale), palette.muted, width);
            ui.label(below);
        });
    });
}

/// The nuts to turn, in order; those that stay; all cautions, folded.
fn nuts(ui: &mut Ui, scene: &mut Scene<'_>, card: &mut TurnCard, scale: f32) {
    let words = scene.words();
    ScrollArea::vertical()
        .id_salt("card nuts")
        .auto_shrink(false)
        .show(ui, |ui| {
            // Room for the scroll bar.
            ui.set_max_width(ui.available_width() - 10.0);
            ui.spacing_mut().item_spacing.y = (18.0 * scale).max(6.0);
            let all = card.nuts().to_vec();
            let mut clicked = None;
            let mut row = |ui: &mut Ui, place: usize, nut: &CardNut| {
                let response = nut_row(ui, scene, card, (place, nut), scale);
                if response.clicked() {
                    clicked = Some(place);
                }
            };
            for (place, nut) in all.iter().enumerate().filter(|(_, nut)| nut.is_turned()) {
                row(ui, place, nut);
            }
            for (place, nut) in all.iter().enumerate().filter(|(_, nut)| !nut.is_turned()) {
                row(ui, place, nut);
            }
            if let Some(place) = clicked {
                card.go_to(place);
                // What was said of it is answered for at the foot.
                if !card.is_told() {
                    tick(ui, card);
                }
            }
            ui.spacing_mut().item_spacing.y = 4.0;
            let counts = RichText::new(words.card_position_counts());
            let counts = counts.font(lesser(22.0, scale));
            ui.label(counts.color(scene.palette.muted));
            ui.style_mut().override_font_id = Some(lesser(24.0, scale));
            safety::all_folded(ui, scene);
        });
}

fn nut_row(
    ui: &mut Ui,
    scene: &Scene<'_>,
    card: &mut TurnCard,
    (place, nut): (usize, &CardNut),
    scale: f32,
) -> Response {
    let words = scene.words();
    let palette = scene.palette;
    let turned = nut.is_turned();
    let at_hand = place == card.at();
    let height = if turned { 150.0 } else { 52.0 };
    let height = (height * scale).max(TARGET + if turned { 10.0 } else { 0.0 });
    let width = ui.available_width();
    let (rect, _) = ui.allocate_exact_size(Vec2::new(width, height), Sense::hover());
    let id = ui.scope_id().with(("card nut", nut.arm.0));
    let response = ui.interact(rect, id, Sense::click());
    let short = |turn| scene.figures.turn_short(turn);
    let label = if nut.differs() {
        let turns = scene.figures.turned_and_plan(nut.really, nut.planned);
        format!("{}: {turns}, {}", nut.arm, words.card_stands_at(nut.to()))
    } else if turned {
        let turn = scene.figures.turn(nut.really);
        words.card_nut(nut.arm, turn, nut.from, nut.to())
    } else {
        words.card_nut_stays(nut.arm, nut.from)
    };
    let role = if turned { Role::CheckBox } else { Role::Button };
    response.widget_info(|| WidgetInfo::selected(role, true, nut.ticked, &label));
    keyboard(ui, scene, card, place, &response);
    let (fill, edge) = match (at_hand, response.hovered()) {
        (true, _) if nut.ticked && nut.differs() => {
            (palette.outside_back, theme::stroke(2.5, palette.outside))
        }
        (true, _) if nut.ticked => (palette.good_back, theme::stroke(2.5, palette.good)),
        (true, _) => (palette.preview_back, theme::stroke(2.5, palette.preview)),
        (false, true) => (palette.button_hover, theme::stroke(2.0, palette.present)),
        (false, false) => (palette.button, theme::stroke(1.5, palette.line)),
    };
    let painter = ui.painter();
    painter.rect(rect, CornerRadius::same(10), fill, edge, StrokeKind::Inside);
    if !turned {
        let text = fitting(ui, label, lesser(26.0, scale), palette.muted, width - 24.0);
        let corner = Align2::LEFT_CENTER.align_size_within_rect(text.size(), rect.shrink(12.0));
        ui.painter().galley(corner.min, text, palette.muted);
        return response;
    }
    let side = (54.0 * scale).max(26.0);
    let box_centre = Pos2::new(
        rect.right() - 16.0 * scale - side / 2.0 - 4.0,
        rect.center().y,
    );
    let square = Rect::from_center_size(box_centre, Vec2::splat(side));
    let as_planned = nut.ticked && !nut.differs();
    let kind = as_planned.then_some(MarkKind::Done);
    box_of(ui.painter(), palette, square, kind, false);
    if nut.ticked && !as_planned {
        let font = theme::bold(0.73 * side);
        let centre = square.center();
        painter.text(centre, Align2::CENTER_CENTER, "≠", font, palette.outside);
    }
    let letter = rect.left() + 0.14 * width;
    painter.text(
        Pos2::new(letter, rect.center().y),
        Align2::CENTER_CENTER,
        nut.arm,
        large(76.0, scale),
        palette.ink,
    );
    let left = rect.left() + 0.29 * width;
    let room = box_centre.x - side / 2.0 - 6.0 - left;
    // What is done is no order any more.
    let (turn, from, ink) = match (nut.ticked, at_hand && card.otherwise) {
        _ if nut.differs() => (
            scene.figures.turned(nut.really),
            words.card_plan_stands(short(nut.planned), nut.to()),
            palette.ink,
        ),
        (true, _) => (
            words.card_nut_done().to_owned(),
            words.card_stands_at(nut.to()),
            palette.good,
        ),
        (false, true) if nut.lost && card.waits_for_answer() => (
            words.card_count_lost().to_owned(),
            words.card_planned(nut.from, nut.to()),
            palette.caution,
        ),
        _ if nut.made.0 != 0 && !nut.ticked => (
            words.turn_more(short(nut.rest())),
            words.from_to(nut.now(), nut.to()),
            palette.ink,
        ),
        // Until it is answered how it was turned, the plan is none to follow.
        (false, true) => (
            short(nut.planned),
            words.card_planned(nut.from, nut.to()),
            palette.muted,
        ),
        (false, false) => (
            short(nut.planned),
            words.from_to(nut.from, nut.to()),
            palette.ink,
        ),
    };
    let turn = fitting(ui, turn, large(42.0, scale), ink, room);
    let from = fitting(ui, from, lesser(28.0, scale), palette.muted, room);
    let top = rect.center().y - (turn.size().y + from.size().y) / 2.0;
    let below = Pos2::new(left, top + turn.size().y);
    ui.painter().galley(Pos2::new(left, top), turn, ink);
    ui.painter().galley(below, from, palette.muted);
    response
}

/// Gives the nut at hand the keyboard, and steps with the arrows.
fn keyboard(ui: &Ui, scene: &Scene<'_>, card: &mut TurnCard, place: usize, row: &Response) {
    if scene.view.dialog.is_some() {
        return;
    }
    if card.wants_focus == Some(AtHand::Nut) && place == card.at() {
        card.wants_focus = None;
        row.request_focus();
        row.scroll_to_me(None);
    }
    if !row.has_focus() {
        return;
    }
    ui.memory_mut(|memory| {
        let arrows = EventFilter {
            vertical_arrows: true,
            horizontal_arrows: true,
            ..EventFilter::default()
        };
        memory.set_focus_lock_filter(row.id, arrows);
    });
    step(ui, card);
}

/// Arrows step from nut to nut.
fn step(ui: &Ui, card: &mut TurnCard) {
    for (key, by) in [
        (Key::ArrowUp, -1),
        (Key::ArrowLeft, -1),
        (Key::ArrowDown, 1),
        (Key::ArrowRight, 1),
    ] {
        if ui.input_mut(|input| input.consume_key(Modifiers::NONE, key)) {
            card.step(by);
        }
    }
}

/// What to beware of, in letters of the card; once all is turned, before power
/// comes back.
fn beware(ui: &mut Ui, scene: &Scene<'_>, card: &TurnCard, room: Vec2, scale: f32) {
    if room.y < CAUTION_STRIP {
        safety::shortest(ui, scene);
        return;
    }
    let words = scene.words();
    let said = match all_done(card) {
        true => words.card_before_power(),
        false => words.card_beware(),
    };
    let text = RichText::new(format!("⚠ {said}")).font(large(20.0, scale));
    let text = text.color(scene.palette.caution);
    let said = ui.add(egui::Label::new(text).wrap());
    keep_clear(ui.ctx(), said.rect);
}

/// Whether every nut to turn is ticked, and there is one.
pub fn all_done(card: &TurnCard) -> bool {
    card.act() == CardAct::Note
}

/// The buttons at the foot: the one act at the right, and what was otherwise
/// beside it.
fn act(ui: &mut Ui, scene: &mut Scene<'_>, card: &mut TurnCard, scale: f32) {
    let words = scene.words();
    let Some(nut) = card.current().cloned() else {
        return;
    };
    let palette = scene.palette;
    let main = card.act();
    let complete = main == CardAct::Note;
    let arm_at = |place: usize| card.nuts().get(place).map_or(nut.arm, |nut| nut.arm);
    let text = match (main, card.next_open().map(arm_at)) {
        (CardAct::Note, _) if card.differs() => words.card_note_so_far().to_owned(),
        (CardAct::Note, _) => words.all_turned().to_owned(),
        (CardAct::TurnOn(turn), _) => words.turn_rest(scene.figures.turn_short(turn)),
        (CardAct::Next(place), _) => words.next_nut(arm_at(place)),
        _ if nut.lost && card.waits_for_answer() => {
            words.count_found(nut.arm, nut.from + nut.planned)
        }
        _ if card.is_told() => words.note_really(nut.arm, scene.figures.turn_short(nut.really)),
        (_, Some(next)) => words.is_turned_next(nut.arm, next),
        (_, None) => words.is_turned(nut.arm),
    };
    let found = main == CardAct::Wait && nut.lost && card.otherwise;
    let enabled = main != CardAct::Wait || found;
    // A tick is taken back elsewhere than where it was made.
    let told = card.is_told();
    let unknown = nut.lost && card.waits_for_answer();
    let other = match nut.ticked || told {
        _ if unknown => words.count_stop(nut.arm),
        true => words.is_not_turned(nut.arm),
        false => words.turned_otherwise().to_owned(),
    };
    // A nut is brought to the plan first; leaving it so is second.
    let leaves = matches!(main, CardAct::TurnOn(_)) && !nut.is_past_limit();
    let height = (70.0 * scale).max(TARGET);
    let width = ((ui.available_width() - GAP) / 3.0).floor();
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = GAP;
        let plain = RichText::new(other).font(lesser(30.0, scale));
        let size = Vec2::new(width, height);
        if ui.add_sized(size, Button::new(plain).wrap()).clicked() {
            if unknown {
                scene.ask(Action::StopTurning);
            } else if nut.ticked {
                card.tick();
            } else if told {
                card.not_turned_yet();
            } else {
                card.otherwise = true;
            }
        }
        if leaves {
            let so = words.leave_it_so(scene.figures.turn_short(nut.really));
            let so = RichText::new(so).font(lesser(30.0, scale));
            if ui.add_sized(size, Button::new(so).wrap()).clicked() {
                tick(ui, card);
            }
        }
        let shown = RichText::new(&text).font(large(32.0, scale));
        // What somebody has to look for first is not the act that leads on.
        let button = match (enabled, found) {
            (_, true) => Button::new(shown),
            (true, _) => Button::new(shown.color(palette.on_present)).fill(palette.present),
            (false, _) => Button::new(shown.color(palette.muted)),
        };
        let size = Vec2::new(ui.available_width(), height);
        let layout = Layout::centered_and_justified(Direction::TopDown);
        let button = ui.allocate_ui_with_layout(size, layout, |ui| {
            offered(ui, button.wrap().min_size(size), &text, enabled)
        });
        let button = button.inner;
        if complete && card.wants_focus == Some(AtHand::AllTurned) {
            card.wants_focus = None;
            button.request_focus();
        }
        if complete {
            if button.hint(words.all_turned_hint()).clicked() {
                scene.ask(Action::AllTurned);
            }
        } else if button.clicked() {
            match main {
                _ if found => card.found_in_place(),
                CardAct::Tick => tick(ui, card),
                CardAct::TurnOn(_) => card.turn_on(),
                CardAct::Next(place) => card.go_to(place),
                CardAct::Note | CardAct::Wait => {}
            }
        }
    });
}
