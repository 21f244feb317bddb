//! What single stages are about: where the nuts stand, what drives the jaw, which
//! turns are to be made.

use eframe::egui::{Align2, Label, RichText, Role, Sense, Ui, Vec2, WidgetInfo};

use crate::press::{ArmIndex, Notches, NutPosition};
use crate::report::{NUT_REACH, NutTurn};
use crate::session::{Edit, Field, NextAct, Stage, Stands, Step, StepId};
use crate::window::action::Action;
use crate::window::theme::{self, TARGET, size};

use crate::window::views::Scene;
use crate::window::views::forms::session_field::stepped;
use crate::window::views::picture::{nip_point, rods, test_piece};
use crate::window::views::turning::{thread, wrench};
use crate::window::views::visit::gap;
use crate::window::views::visit::noting::{draft_key, hands_may_go_in, set, typed_over};
use crate::window::views::widgets::{button, muted, strong};

/// Least width of a nut to turn, and height of what is written below it.
const NUT: (f32, f32) = (110.0, 34.0);

/// How high most pictures may be, as a share of their width; and one as long as
/// the jaw.
const HIGHEST: f32 = 0.7;
const BELT: f32 = 0.4;

/// Most width of the line for the parts of the jaw drive.
const PARTS: f32 = 420.0;

/// The steps of a stage that are to be done now. Nuts brought back flush or a gap
/// made even after a piece was laced would undo what its readings rest on; and
/// outs come before ins only where there are both. Locks come off, and the crew
/// goes back to work, at a press that is ready alone.
pub fn steps(scene: &Scene<'_>, stage: Stage) -> Vec<StepId> {
    let laced = !scene.session.passes.is_empty();
    let turns = scene.preview();
    let goes = |way: i32| turns.iter().any(|turn| turn.0.signum() == way);
    let both = goes(1) && goes(-1);
    let ready = scene.session.last_gate().stands == Stands::Inside;
    let mut steps = scene.session.steps_now(stage);
    steps.retain(|step| match step {
        StepId::Fixed(Step::NutsFlush | Step::GapEven) => !laced,
        StepId::Fixed(Step::OutsThenIns) => both || !laced,
        StepId::Fixed(Step::ClearForWork) => ready,
        _ => true,
    });
    steps
}

/// What is recorded at a stage.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, stage: Stage) {
    match stage {
        Stage::FreeNuts => nuts(ui, scene),
        Stage::CoarseGap => {
            readings_rest(ui, scene);
            gap::show(ui, scene);
        }
        Stage::JawDrive => drive(ui, scene),
        Stage::Turn => turns(ui, scene),
        _ => {}
    }
}

/// The picture of what a stage is about, up to a height.
pub fn picture(ui: &mut Ui, scene: &Scene<'_>, stage: Stage, height: f32) {
    let low = height.min(HIGHEST * ui.available_width());
    match stage {
        Stage::CoarseGap => gap::picture(ui, scene, low.min(BELT * ui.available_width())),
        Stage::TestLace | Stage::Relace => {
            test_piece::marked(ui, scene, low.min(BELT * ui.available_width()), 1.0);
        }
        Stage::Measure => test_piece::measured(ui, scene, 1.0),
        Stage::Turn if scene.session.lost.is_empty() => turns_drawn(ui, scene, height),
        Stage::Turn => nuts_drawn(ui, scene, None, height),
        Stage::FreeNuts | Stage::CloseOut => {
            let nuts = scene.session.nuts_now();
            let counted = scene.session.is_settled(Step::PinsIn.into());
            let pins = (stage == Stage::CloseOut).then_some(counted);
            nuts_drawn(ui, scene, pins, height);
            if pins == Some(false) {
                ui.label(strong(scene.words().pins_to_count(nuts.len())));
            }
        }
        Stage::JawDrive => nip_point::show(ui, scene, low),
        Stage::MakeSafe => {}
    }
}

/// The nuts on their rods, where they stand now as far as anybody knows.
pub fn nuts_drawn(ui: &mut Ui, scene: &Scene<'_>, pins: Option<bool>, height: f32) {
    let nuts = scene.session.nuts_now();
    let told = scene.words().nuts_on_rods(stand(scene, nuts));
    rods::show(ui, scene, (nuts, pins), height, &told);
}

/// Where nuts stand, arm by arm, none parted from its letter at a line's end.
fn stand(scene: &Scene<'_>, nuts: &[NutPosition]) -> String {
    let arms = scene.session.press.indexed_arms();
    let each: Vec<String> = arms
        .zip(nuts)
        .map(|((arm, _), nut)| match scene.session.lost.contains(&arm) {
            true => format!("{arm}\u{a0}?"),
            false => format!("{arm}\u{a0}{nut}"),
        })
        .collect();
    each.join(", ")
}

/// Says once a piece is laced that the nuts stay where they are.
fn readings_rest(ui: &mut Ui, scene: &Scene<'_>) {
    if let Some(last) = scene.session.passes.len().checked_sub(1) {
        let at = stand(scene, scene.session.nuts_at(last));
        let not_now = scene.words().flush_not_now(last + 1, at);
        ui.label(strong(not_now));
    }
}

/// Where the nuts stand before the first pass.
fn nuts(ui: &mut Ui, scene: &mut Scene<'_>) {
    let words = scene.words();
    let open = hands_may_go_in(scene);
    let session = scene.session;
    // Here a nut is turned first: which way it opens is looked at before.
    if session.passes.is_empty() || session.press.left_hand_thread.is_none() {
        let seen = ui.add_enabled_ui(open, |ui| thread::choose(ui, scene));
        let mut asked = seen.inner.or(scene.view.visit.thread);
        thread::confirm(ui, scene, &mut asked);
        scene.view.visit.thread = asked;
    }
    if !session.passes.is_empty() {
        return readings_rest(ui, scene);
    }
    ui.label(strong(
        words.nuts_noted_at(stand(scene, &session.start_nuts)),
    ));
    if session.lost.is_empty() && session.start_nuts.iter().all(|nut| nut.0 == 0) {
        return;
    }
    let flush = ui.add_enabled_ui(open, |ui| button(ui, words.note_all_flush()));
    if flush.inner.clicked() {
        for ((arm, _), nut) in session.press.indexed_arms().zip(&session.start_nuts) {
            let position = NutPosition(0);
            if session.lost.contains(&arm) {
                scene.ask(Action::Edit(Edit::FindNut { arm, position }));
            } else if *nut != position {
                scene.ask(Action::Edit(Edit::set_nut(None, arm, position)));
            }
        }
    }
}

/// Parts of the jaw drive, beside those of the last visit.
fn drive(ui: &mut Ui, scene: &mut Scene<'_>) {
    let open = hands_may_go_in(scene);
    let words = scene.words();
    let palette = scene.palette;
    let session = scene.session;
    let drive = &session.press.drive;
    let field = Field::DriveParts;
    let field_key = draft_key(field);
    let typed = ui.horizontal(|ui| {
        let label = ui.label(words.field(field));
        let width = ui.available_width().min(PARTS);
        let typed = ui.add_enabled_ui(open, |ui| {
            typed_over(ui, scene, &field_key, &drive.parts, width, Some(label.id))
        });
        typed.inner.1
    });
    let typed = typed.inner;
    if let Some(typed) = typed {
        set(scene, field, typed);
    }
    if drive.parts_before.is_empty() {
        return;
    }
    ui.label(muted(palette, words.drive_last_visit(&drive.parts_before)));
    if drive.differs() {
        ui.label(RichText::new(words.drive_differs()).color(palette.caution));
    } else if drive.parts.is_empty() {
        let same = ui.add_enabled_ui(open, |ui| button(ui, words.drive_same()));
        if same.inner.clicked() {
            set(scene, field, drive.parts_before.clone());
        }
    }
}

/// The turns to make, or what comes before any.
fn turns(ui: &mut Ui, scene: &mut Scene<'_>) {
    let palette = scene.palette;
    let turns = scene.preview();
    let step = scene.next_step();
    if let NextAct::FindNut(arm) = step.act {
        return find(ui, scene, arm);
    }
    if step.act != NextAct::GoAndTurn || turns.iter().all(|turn| turn.0 == 0) {
        let said = scene.spoken(&step, |of| scene.figures.headline(&step, of));
        ui.label(strong(said));
        return;
    }
    for (arm, turn) in Notches::outs_first(&turns) {
        let Some(from) = scene.nuts().get(arm.0).filter(|_| turn.0 != 0) else {
            continue;
        };
        let way = scene.session.press.wrench_way(turn);
        let arrow = way.map_or("", |way| scene.words().wrench_arrow(way));
        let turned = scene.figures.turn(turn);
        let to = scene.words().from_to(*from, *from + turn);
        let text = format!("{arm} {turned} {arrow}, {to}");
        let text = RichText::new(text).font(theme::bold(size::SENTENCE));
        ui.label(text.color(palette.preview));
    }
}

/// How a nut is found that nobody knows the place of, and where it then stands.
fn find(ui: &mut Ui, scene: &mut Scene<'_>, arm: ArmIndex) {
    let words = scene.words();
    let lost = strong(scene.figures.nuts_lost(&scene.session.lost));
    ui.label(lost.color(scene.palette.caution));
    ui.label(words.find_nut_count());
    ui.label(words.find_nut_leave(arm));
    let found = scene.view.visit.found_at(arm);
    let at = found.map_or_else(|| "?".to_owned(), |at| at.to_string());
    let open = hands_may_go_in(scene);
    let (by, _) = ui
        .add_enabled_ui(open, |ui| {
            let name = |mark: &str| words.start_nut_step(arm, mark);
            stepped(ui, name, |ui| {
                let at = RichText::new(at).font(theme::bold(size::SENTENCE));
                ui.add_sized([52.0, TARGET], Label::new(at));
            })
        })
        .inner;
    if by != 0 {
        // The first press says that it is counted.
        let at = found.map_or(NutPosition(0), |at| at + Notches(by));
        scene.view.visit.found = Some((arm, at));
    }
}

/// The nuts to turn as whoever turns them sees them, with the way and how far.
fn turns_drawn(ui: &mut Ui, scene: &Scene<'_>, height: f32) {
    let palette = scene.palette;
    let turns = scene.preview();
    let turned = turns.iter().any(|turn| turn.0 != 0);
    if scene.next_step().act != NextAct::GoAndTurn || !turned {
        return;
    }
    // As large as leaves all of them in a row.
    let count = turns.iter().filter(|turn| turn.0 != 0).count();
    let each = ui.available_width() / count.max(1) as f32 - 8.0;
    let width = each.min(height - NUT.1).max(NUT.0);
    let room = Vec2::new(width, width + NUT.1);
    ui.horizontal_wrapped(|ui| {
        for (arm, turn) in Notches::outs_first(&turns) {
            let Some(way) = scene.session.press.wrench_way(turn) else {
                continue;
            };
            let (rect, response) = ui.allocate_exact_size(room, Sense::hover());
            let told = scene.figures.turn_and_way(&scene.session.press, turn);
            let told = scene.words().turns_drawn(format!("{arm} {told}"));
            response.widget_info(|| WidgetInfo::labeled(Role::Image, true, &told));
            let centre = rect.center_top() + Vec2::new(0.0, width / 2.0 + 10.0);
            let turn_drawn = NutTurn {
                way,
                notches: turn.0.unsigned_abs(),
                from: 0,
                done: false,
            };
            let radius = width / 2.0 / NUT_REACH;
            let painter = ui.painter();
            wrench::show(painter, palette, centre, radius, Some(turn_drawn));
            let text = format!("{arm} {}", scene.figures.turn_short(turn));
            let font = theme::bold(size::TITLE);
            let below = rect.center_bottom();
            painter.text(below, Align2::CENTER_BOTTOM, text, font, palette.preview);
        }
    });
    let facing = scene.figures.ways(&scene.session.press, &turns);
    ui.label(muted(palette, facing));
}

/// What is said where the press would be left outside its tolerance.
pub fn left_outside(scene: &Scene<'_>) -> Option<&'static str> {
    match scene.session.last_gate().stands {
        Stands::Inside => None,
        Stands::Outside => Some(scene.words().left_outside()),
        _ => Some(scene.words().left_unmeasured()),
    }
}
