//! Where the views stand: three columns side by side where there is room, one
//! of them at a time, with a switch, where there is not.

use eframe::egui::{
    CentralPanel, Frame, Margin, Panel, Rect, RichText, ScrollArea, Ui, UiBuilder, Vec2,
};

use crate::session::Stage;

use super::state::grid::GridCell;
use super::state::{Pane, ViewState};
use super::theme::{self, GAP};
use super::views::{self, Scene};

/// Room for the whole window, in points, from which the columns stand side by
/// side.
const SIDE_BY_SIDE: Vec2 = Vec2::new(900.0, 520.0);

/// Share of the window's height up to which the cautions have a strip of their
/// own beside a single column; where they need more they stand in the column.
const CAUTION_STRIP: f32 = 1.0 / 6.0;

/// Width of the side columns: their share of the window, least and most.
const LEFT: (f32, f32, f32) = (0.215, 276.0, 400.0);
const RIGHT: (f32, f32, f32) = (0.25, 256.0, 440.0);

/// Height of a single column from which the sentence stands above the picture;
/// in a lower one it stands below.
const SENTENCE_FIRST: f32 = 170.0;

/// Height of a column from which how it stands is told whole before what to
/// do, and of a single one from which the sentence does not stand above the plan too.
const STANDING_FIRST: f32 = 620.0;

/// Width of a single column of text beyond which lines are hard to follow.
const TEXT_COLUMN: f32 = 760.0;

/// Lays the views out; the turn card has all the room.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>) {
    if scene.view.is_turning() {
        example(ui, scene);
        views::turning::turn_card::show(ui, scene);
        return;
    }
    let window = ui.available_size();
    let one_column = window.x < SIDE_BY_SIDE.x || window.y < SIDE_BY_SIDE.y;
    scene.view.one_column = one_column;
    follow(scene.view);
    let wishes = wishes(scene.view);
    let palette = scene.palette;
    let bar = Frame::new()
        .fill(palette.card)
        .inner_margin(Margin::symmetric(10, 3));
    Panel::top("top bar")
        .frame(bar)
        .show(ui, |ui| views::top_bar::show(ui, scene));
    let path = Frame::new().fill(palette.paper).inner_margin(Margin {
        left: GAP as i8,
        right: GAP as i8,
        top: 6,
        bottom: 2,
    });
    Panel::top("path")
        .frame(path)
        .show_separator_line(false)
        .show(ui, |ui| views::visit::path_bar::show(ui, scene));
    example(ui, scene);
    views::toast::strip(ui, scene);
    let strip = !one_column
        || views::turning::safety::cautions_height(ui, scene) <= window.y * CAUTION_STRIP;
    // The cautions stand below everything else, for a screen reader too.
    let mut body = ui.available_rect_before_wrap();
    if strip {
        body.max.y -= views::turning::safety::cautions_height(ui, scene);
    }
    let mut above = ui.new_child(UiBuilder::new().max_rect(body));
    if scene.view.side.is_some() {
        CentralPanel::default()
            .frame(around(scene, GAP, GAP))
            .show(&mut above, |ui| {
                views::comparing::side_by_side::show(ui, scene);
            });
    } else if one_column {
        pane(&mut above, scene, strip);
    } else {
        columns(&mut above, scene);
    }
    if strip {
        cautions(ui, scene);
    }
    lapse(ui, scene.view, wishes);
}

/// What is to have the keyboard: a cell, a nut, the plan.
type Wishes = (Option<GridCell>, bool, bool);

fn wishes(view: &ViewState) -> Wishes {
    (
        view.readings.cells.next,
        view.nut_wants_focus,
        view.plan_wants_focus,
    )
}

/// Frames for which a wish may wait: what has just come on show does not take
/// the keyboard in its first one.
const PATIENCE: u8 = 3;

/// Lets wishes for the keyboard go that are not granted though they could be:
/// what they are for is not on show. Otherwise [`follow`] would hold the
/// window to it for good. Behind a dialog they wait.
fn lapse(ui: &Ui, view: &mut ViewState, before: Wishes) {
    let free = ui.memory(|memory| memory.is_above_modal_layer(ui.layer_id()));
    let waiting = before != Wishes::default() && before == wishes(view);
    if !waiting || !free || view.dialog.is_some() {
        view.waited = 0;
        return;
    }
    view.waited += 1;
    ui.ctx().request_repaint();
    if view.waited >= PATIENCE {
        view.waited = 0;
        view.readings.cells.next = None;
        view.nut_wants_focus = false;
        view.plan_wants_focus = false;
    }
}

/// Shows the pane that something was just asked of, in place of the passes side
/// by side.
fn follow(view: &mut ViewState) {
    let visit = &view.visit;
    let other_stage = visit.seen.is_some() && visit.stage != visit.seen;
    let asked = view.nut_wants_focus || view.plan_wants_focus || view.readings.cells.next.is_some();
    if other_stage || asked {
        view.side = None;
    }
    if other_stage {
        view.pane = Pane::Middle;
    }
    // Side by side a stage's steps leave no room for what is asked of.
    let readings_only = !view.nut_wants_focus && !view.plan_wants_focus;
    if asked && !view.one_column && !(readings_only && visit.stage == Some(Stage::Measure)) {
        view.visit.show_picture();
    }
    if view.nut_wants_focus {
        view.visit.steps = false;
        view.pane = Pane::Middle;
    }
    if view.plan_wants_focus {
        view.pane = Pane::Plan;
    }
    if view.readings.cells.next.is_some() {
        view.pane = Pane::Readings;
    }
}

/// Says that an example is none of the user's presses.
fn example(ui: &mut Ui, scene: &Scene<'_>) {
    if !scene.is_example() {
        return;
    }
    let words = scene.words();
    let strip = Frame::new()
        .fill(scene.palette.button)
        .inner_margin(Margin::symmetric(12, 3));
    Panel::top("example").frame(strip).show(ui, |ui| {
        let text = RichText::new(words.example_strip())
            .font(theme::bold(theme::size::BODY))
            .color(scene.palette.ink);
        ui.label(text);
    });
}

fn cautions(ui: &mut Ui, scene: &Scene<'_>) {
    let strip = Frame::new()
        .fill(scene.palette.caution_back)
        .inner_margin(Margin::symmetric(12, 5));
    Panel::bottom("cautions").frame(strip).show(ui, |ui| {
        views::turning::safety::cautions(ui, scene, scene.view.visit.steps_on_show());
    });
}

/// The space around a column.
fn around(scene: &Scene<'_>, left: f32, right: f32) -> Frame {
    Frame::new().fill(scene.palette.paper).inner_margin(Margin {
        left: left as i8,
        right: right as i8,
        top: GAP as i8,
        bottom: GAP as i8,
    })
}

/// Readings left, picture in the middle, verdict and plan right: for keys and
/// for a screen reader in the order of the way, after the headline.
fn columns(ui: &mut Ui, scene: &mut Scene<'_>) {
    let area = ui.available_rect_before_wrap();
    ui.painter().rect_filled(area, 0.0, scene.palette.paper);
    let width = area.width();
    let area = area.shrink(GAP);
    let share = |(share, least, most): (f32, f32, f32)| (width * share).clamp(least, most) - GAP;
    let in_front = scene.view.visit.in_front(scene.session);
    // The steps of a stage have the room to themselves; readings stand beside
    // them where they are taken.
    if let Some(stage) = in_front.filter(|stage| *stage != Stage::Measure)
        && scene.view.guided.is_none()
    {
        views::entry::cells::keep_typed(scene);
        let mut whole = ui.new_child(UiBuilder::new().id_salt("stage").max_rect(area));
        views::visit::stage::show(&mut whole, scene, stage);
        return;
    }
    let (left, rest) = area.split_left_right_at_x(area.left() + share(LEFT));
    // There is no plan beside steps, nor while readings are taken arm by arm.
    let (rest, right) = if in_front.is_none() && scene.view.guided.is_none() {
        let (rest, right) = rest.split_left_right_at_x(rest.right() - share(RIGHT));
        let beside = Rect::from_min_max(rest.min, rest.max - Vec2::new(GAP, 0.0));
        (beside, Some(right))
    } else {
        (rest, None)
    };
    let mut middle = Rect::from_min_max(rest.min + Vec2::new(GAP, 0.0), rest.max);
    let column = |ui: &mut Ui, name: &str, place: Rect| {
        let mut column = ui.new_child(UiBuilder::new().id_salt(name).max_rect(place));
        column.set_clip_rect(place.expand(GAP / 2.0).intersect(ui.clip_rect()));
        column
    };
    let picture = scene.view.guided.is_none() && in_front.is_none();
    if picture {
        let mut headline = column(ui, "headline", middle);
        views::explaining::headline::show(&mut headline, scene);
        middle.min.y = headline.min_rect().bottom() + GAP;
    }
    readings(&mut column(ui, "readings", left), scene);
    let mut ui_of_middle = column(ui, "middle", middle);
    ui_of_middle.spacing_mut().item_spacing.y = GAP;
    if scene.view.guided.is_some() {
        views::entry::guided::show(&mut ui_of_middle, scene);
    } else if let Some(stage) = in_front {
        views::visit::stage::show(&mut ui_of_middle, scene, stage);
    } else {
        views::picture::jaw_picture::show(&mut ui_of_middle, scene, middle.height());
    }
    if let Some(right) = right {
        plan(&mut column(ui, "plan", right), scene);
    }
}

/// One column at a time.
fn pane(ui: &mut Ui, scene: &mut Scene<'_>, strip: bool) {
    if scene.view.pane != Pane::Readings {
        // A reading being typed counts when its grid goes out of sight.
        views::entry::cells::keep_typed(scene);
    }
    let in_front = scene.view.visit.in_front(scene.session);
    let frame = around(scene, GAP, GAP);
    let picture_alone = scene.view.pane == Pane::Middle && in_front.is_none();
    if picture_alone && scene.view.guided.is_none() {
        let below = Frame::new()
            .fill(scene.palette.paper)
            .inner_margin(Margin::symmetric(GAP as i8, 4));
        Panel::bottom("act below")
            .frame(below)
            .resizable(false)
            .show_separator_line(false)
            .show(ui, |ui| views::explaining::plan::act_below(ui, scene));
    }
    CentralPanel::default().frame(frame).show(ui, |ui| {
        ui.spacing_mut().item_spacing.y = GAP;
        if scene.view.guided.is_some() {
            views::entry::guided::show(ui, scene);
            return;
        }
        match (scene.view.pane, in_front) {
            (Pane::Readings, _) => readings(ui, scene),
            (Pane::Middle, Some(stage)) => views::visit::stage::show(ui, scene, stage),
            (Pane::Middle, None) => picture(ui, scene, strip),
            (Pane::Plan, _) => plan(ui, scene),
        }
    });
}

/// The picture in a window too low for all of it: it keeps a useful height,
/// and what does not fit is scrolled to.
fn picture(ui: &mut Ui, scene: &mut Scene<'_>, strip: bool) {
    let room = ui.available_height();
    let sentence_first = room >= SENTENCE_FIRST;
    ScrollArea::vertical()
        .id_salt("picture")
        .auto_shrink(false)
        .show(ui, |ui| {
            // Room for the scroll bar.
            ui.set_max_width(ui.available_width() - 12.0);
            let before = ui.cursor().top();
            if sentence_first {
                views::explaining::headline::show(ui, scene);
            }
            let used = ui.cursor().top() - before;
            views::picture::jaw_picture::show(ui, scene, room - used);
            if !sentence_first {
                views::explaining::headline::show(ui, scene);
            }
            if !strip {
                views::turning::safety::cautions_card(ui, scene);
            }
        });
}

/// A column that goes on fades where it is cut off.
fn fades(ui: &mut Ui) {
    ui.spacing_mut().scroll.fade = theme::lasting_scroll().fade;
}

fn readings(ui: &mut Ui, scene: &mut Scene<'_>) {
    theme::card(scene.palette).show(ui, |ui| {
        ui.set_min_size(ui.available_size());
        let foot = views::entry::readings::foot(ui, scene);
        fades(ui);
        ScrollArea::vertical()
            .id_salt("left")
            .auto_shrink(false)
            .max_height(ui.available_height() - foot.unwrap_or_default())
            .show(ui, |ui| {
                ui.set_max_width(ui.available_width().min(TEXT_COLUMN));
                if !scene.view.headed {
                    views::top_bar::heading(ui, scene);
                    ui.separator();
                }
                views::entry::readings::show(ui, scene, foot.is_some());
                // Over the keys there is room for the readings alone.
                if foot.is_none() {
                    ui.separator();
                    views::comparing::passes::show(ui, scene);
                    if let Some(pass) = scene.outlook.pass {
                        views::forms::belt::show(ui, scene, pass);
                    }
                }
            });
        if foot.is_some() {
            views::entry::readings::show_foot(ui, scene);
        }
    });
}

fn plan(ui: &mut Ui, scene: &mut Scene<'_>) {
    let none = Frame::new();
    let apart = none.inner_margin(Margin {
        top: GAP as i8,
        ..Margin::ZERO
    });
    let low = ui.available_height() < STANDING_FIRST;
    let sentence_too = scene.view.one_column && low && ui.available_height() >= SENTENCE_FIRST;
    Panel::bottom("act")
        .frame(apart)
        .resizable(false)
        .show_separator_line(false)
        .show(ui, |ui| views::explaining::plan::act(ui, scene));
    CentralPanel::default().frame(none).show(ui, |ui| {
        fades(ui);
        ScrollArea::vertical()
            .id_salt("right")
            .auto_shrink(false)
            .show(ui, |ui| {
                ui.spacing_mut().item_spacing.y = GAP;
                ui.set_max_width(ui.available_width().min(TEXT_COLUMN));
                if sentence_too {
                    views::explaining::headline::show(ui, scene);
                }
                // In a low window the figure and its verdict stand alone first.
                views::explaining::standing::show(ui, scene, low);
                views::explaining::plan::show(ui, scene, low);
                if scene.view.one_column {
                    views::turning::safety::cautions_card(ui, scene);
                }
            });
    });
}
