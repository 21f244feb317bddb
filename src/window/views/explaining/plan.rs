//! What to do: the ways to go on.

use eframe::egui::{self, Align2, RichText, Role, Sense, Ui, Vec2, WidgetInfo};

use crate::plan::{BestAct, PlanOption};
use crate::press::Notches;
use crate::session::{Advice, MarkKind, NextAct, PlanningProblem, Remark, Says, Stage};
use crate::window::action::Action;
use crate::window::practicing::PracticeWish;
use crate::window::state::Preview;
use crate::window::state::dialog::Then;
use crate::window::theme::{self, TARGET, size};

use crate::window::views::Scene;
use crate::window::views::comparing::{side_wall, what_if};
use crate::window::views::dialog_room::unfolding;
use crate::window::views::explaining::before_turns::{first_in_a_line, first_of_all};
use crate::window::views::explaining::close_by::close_by;
use crate::window::views::explaining::plan_row::{Line, plan_row};
use crate::window::views::explaining::why;
use crate::window::views::hint::{Hint, keep_clear};
use crate::window::views::practice::strip;
use crate::window::views::tick_box::tick_box;
use crate::window::views::turning::safety;
use crate::window::views::widgets::{button_width, main_button, muted, strong, title};
use crate::words::Word;

/// Draws the card; none while something is to be cleared up first, which is said
/// where it is and on the button.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, low: bool) {
    if scene.outlook.rows().is_empty() && !scene.outlook.gate.doubtful.is_empty() {
        return;
    }
    let words = scene.words();
    let palette = scene.palette;
    let says = scene.next_step().says;
    let done = scene.asks_for_no_turns();
    theme::card(palette).show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.spacing_mut().item_spacing.y = 5.0;
        // In a low column the rows are known by their heading.
        if !(low || done) || scene.outlook.rows().is_empty() {
            title(ui, words.what_to_do());
        }
        if scene.outlook.rows().is_empty() {
            let text = match &scene.outlook.problem {
                Some(PlanningProblem::NotClear(_)) => words.plan_needs_readings().to_owned(),
                Some(PlanningProblem::NutsLost(_)) => words.find_nut_count().to_owned(),
                Some(problem) => scene.figures.planning_problem(scene.session, problem),
                None if scene.thinking => words.thinking().to_owned(),
                None if scene.advises_nothing() && scene.outlook.gate.is_clear() => {
                    words.practice_no_plan().to_owned()
                }
                None => words.plan_needs_readings().to_owned(),
            };
            ui.label(text);
            if scene.advises_nothing() && scene.outlook.gate.is_clear() {
                strip::advice(ui, scene);
            }
            return;
        }
        let (cautions, notes): (Vec<_>, Vec<_>) = why::notes(scene)
            .into_iter()
            .partition(|(remark, _)| remark.is_caution());
        for (remark, text) in &cautions {
            match remark {
                // Of limits it is said above the act.
                Remark::LimitsUnknown => {}
                // It waits, with the reasons.
                Remark::CommonTurn(_) => {}
                // Below stands the whole of it.
                _ if low => safety::caution_line(ui, palette, text),
                _ => safety::caution(ui, palette, text),
            }
        }
        // What was noted of a pass, a lost count above all, comes before advice.
        let passes = scene.session.passes.iter().zip(1..);
        let noted = passes.filter(|(pass, _)| !done && !pass.note.is_empty());
        for (pass, number) in noted {
            let text = format!("{}: {}", words.pass_number(number), pass.note);
            safety::caution(ui, palette, &text);
        }
        let chosen = matches!(
            says,
            Says::TurnsWould
                | Says::TurnsCannotBe
                | Says::BeyondNuts
                | Says::OutsideJust
                | Says::Passes { .. }
        );
        let turns = |advice: &&Advice| advice.choice.action == BestAct::Turn;
        let advice = scene.outlook.advice().filter(|advice| !turns(advice));
        if let Some(advice) = advice.filter(|_| !chosen && !low) {
            ui.label(words.first_action(advice));
        }
        let last = scene.session.passes.len().checked_sub(1);
        if done && scene.outlook.pass > Some(0) && scene.outlook.pass == last {
            let (won, ink) = side_wall::caption(scene);
            ui.label(strong(won).color(ink));
            ui.label(side_wall::turned(scene));
        }
        // In a low column it gives way to a doubt that is cleared up first.
        let advice = scene.outlook.advice().filter(|_| !done);
        let assumed = advice.and_then(|it| scene.figures.assumed_notch(scene.session, it));
        let (below, above): (Vec<_>, Vec<_>) = assumed
            .into_iter()
            .partition(|_| low && scene.turn_doubt().is_some());
        for text in above {
            ui.label(muted(palette, text));
        }
        first_of_all(ui, scene);
        what_if::kept(ui, scene);
        let rest = match done {
            true => (0..scene.outlook.rows().len()).collect(),
            false => rows(ui, scene, low),
        };
        if scene.view.preview != Preview::Recommended {
            let width = ui.available_width();
            ui.horizontal(|ui| act_lesser(ui, scene, width));
        }
        if scene.thinking {
            ui.label(muted(palette, words.thinking()));
        }
        let heading = RichText::new(words.plan_more()).font(theme::regular(size::SMALL));
        let header = egui::CollapsingHeader::new(heading)
            .id_salt("more ways")
            .open(Some(scene.view.more));
        let clicked = unfolding(ui, header, |ui| {
            if done {
                ui.label(muted(palette, words.about_another_piece()));
            }
            for text in below {
                ui.label(muted(palette, text));
            }
            plan_rows(ui, scene, &rest);
            close_by(ui, scene);
            for (remark, text) in &cautions {
                if low || matches!(remark, Remark::CommonTurn(_)) {
                    safety::caution(ui, palette, text);
                }
            }
            for (_, text) in notes {
                ui.label(muted(palette, text));
            }
            why::show(ui, scene);
            what_if::keep(ui, scene);
            let wide = Vec2::new(ui.available_width(), TARGET);
            let copy = ui.add_sized(wide, egui::Button::new(words.copy_plan()));
            if copy.hint(words.command_copy_plan()).clicked() {
                scene.ask(Action::CopyPlan);
            }
            let kind = scene.view.care.then_some(MarkKind::Done);
            let width = ui.available_width();
            if tick_box(ui, palette, words.care_show(), kind, width).clicked() {
                scene.view.care = !scene.view.care;
            }
        });
        if clicked {
            scene.view.more = !scene.view.more;
        }
    });
}

/// Ways to go on that are on show unasked.
const SHOWN: usize = 4;

/// What stands between the plan and the act, and the act.
pub fn act(ui: &mut Ui, scene: &mut Scene<'_>) {
    let palette = scene.palette;
    theme::card(palette).show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.spacing_mut().item_spacing = Vec2::splat(6.0);
        what_if::troubles(ui, scene);
        why::limits(ui, scene);
        next_act(ui, scene);
    });
}

/// The next act, and beside it in an example nobody has touched the way to one's
/// own press.
fn next_act(ui: &mut Ui, scene: &mut Scene<'_>) {
    if !scene.untouched_example() {
        act_main(ui, scene);
        return;
    }
    let words = scene.words();
    let next = scene.next_step().act;
    let gate = &scene.outlook.gate;
    let label = match scene.turn_doubt() {
        Some(_) => words.go_and_turn_all_the_same().to_owned(),
        None => scene.figures.act_label(scene.session, gate, &next),
    };
    ui.scope(|ui| {
        ui.spacing_mut().button_padding.x = 4.0;
        // Rather two lines than two rows: the plan above needs the room.
        ui.style_mut().wrap_mode = Some(egui::TextWrapMode::Wrap);
        let room = ui.available_width() - ui.spacing().item_spacing.x;
        let main = button_width(ui, &label, theme::bold(size::BODY));
        let own = |ui: &mut Ui, scene: &mut Scene<'_>, wide| {
            let own = RichText::new(words.own_press()).font(theme::regular(size::SMALL));
            let button = egui::Button::new(own);
            let start = ui.add_sized(Vec2::new(wide, TARGET), button);
            let name = words.start_own();
            start.widget_info(|| WidgetInfo::labeled(Role::Button, true, name));
            if start.hint(name).clicked() {
                scene.ask(Action::Leave(Then::New));
            }
        };
        // Of a piece that passes little stands above.
        if scene.asks_for_no_turns() && main > room * 0.72 {
            ui.vertical(|ui| {
                act_main(ui, scene);
                let wide = ui.available_width();
                own(ui, scene, wide);
            });
            return;
        }
        let beside = (room - main).clamp(room * 0.28, room / 2.0);
        ui.horizontal(|ui| {
            own(ui, scene, beside);
            act_main(ui, scene);
        });
    });
}

/// The button that does the one next thing.
fn act_main(ui: &mut Ui, scene: &mut Scene<'_>) {
    let act = scene.next_step().act;
    let gate = &scene.outlook.gate;
    let read = scene.read_next(&act);
    // A visit to a press begins with making safe; who has a piece already types
    // its readings.
    let safe_first = matches!(act, NextAct::LaceFirst(_))
        && read.is_none()
        && scene.session.current_stage() == Some(Stage::MakeSafe);
    let doubted = scene.turn_doubt().is_some();
    let label = match read {
        _ if safe_first => scene.words().act_safe_first().to_owned(),
        Some(station) => scene
            .words()
            .practice_next(scene.session.station_name(station)),
        None if doubted => scene.words().go_and_turn_all_the_same().to_owned(),
        None => scene.figures.act_label(scene.session, gate, &act),
    };
    let main = match doubted {
        true => {
            let size = Vec2::new(ui.available_width(), TARGET);
            let anyway = ui.add_sized(size, egui::Button::new(label).wrap());
            keep_clear(ui.ctx(), anyway.rect);
            anyway
        }
        false => main_button(ui, scene.palette, &label, act != NextAct::Wait),
    };
    // What gives the first cell the keyboard at a real press gives it here.
    let reads = read.is_some() && scene.view.dialog.is_none();
    let reads = reads && scene.view.readings.cells.next.take().is_some();
    if std::mem::take(&mut scene.view.plan_wants_focus) || reads {
        main.request_focus();
    }
    if let Some(station) = read {
        if main.clicked() {
            scene.ask(Action::Practice(PracticeWish::Read(station)));
        }
        return;
    }
    let hint = match act {
        NextAct::GoAndTurn => scene.words().go_and_turn_hint(),
        _ => "",
    };
    if main.hint(hint).clicked() {
        match safe_first {
            true => scene.view.visit.go_to(Stage::MakeSafe),
            false => scene.ask(Action::Next(act)),
        }
    }
}

/// What can be done with turns that somebody chose: making them though it is
/// not advised, going back to what is, keeping them to compare.
fn act_lesser(ui: &mut Ui, scene: &mut Scene<'_>, room: f32) {
    let words = scene.words();
    ui.spacing_mut().button_padding.x = 3.0;
    let act = scene.next_step().act;
    let turned = scene.preview().iter().any(|turn| turn.0 != 0);
    // Whoever would turn all the same is asked whether it is made safe as ever.
    let against = turned && matches!(act, NextAct::MeasureAgain(_) | NextAct::PutBack);
    let count = if against { 3.0 } else { 2.0 };
    let size = Vec2::new(((room - 6.0 * (count - 1.0)) / count).floor(), TARGET);
    let small = |text: &str| {
        let text = RichText::new(text).font(theme::regular(size::SMALL));
        egui::Button::new(text).wrap()
    };
    if against {
        let turn = ui.add_sized(size, small(words.go_and_turn()));
        if turn.hint(words.go_and_turn_hint()).clicked() {
            scene.ask(Action::GoAndTurn);
        }
    }
    let shows = !scene.advises_nothing();
    let back = ui.add_enabled_ui(shows, |ui| {
        ui.add_sized(size, small(words.show_recommended()))
    });
    if back.inner.hint(words.command_show_recommended()).clicked() {
        scene.ask(Action::PreviewRecommended);
    }
    let keep = ui.add_sized(size, small(words.what_if_keep()));
    let hint = words.command_keep_preview();
    keep.widget_info(|| WidgetInfo::labeled(Role::Button, true, hint));
    if keep.hint(hint).clicked() {
        scene.ask(Action::KeepPreview);
    }
}

/// Share of a single column's width that the main button below a picture takes,
/// least and most.
const MAIN_BELOW: (f32, f32, f32) = (0.42, 180.0, 320.0);

/// What stands below the picture where it has the window to itself: the row
/// that is recommended and the next act.
pub fn act_below(ui: &mut Ui, scene: &mut Scene<'_>) {
    why::limits(ui, scene);
    first_in_a_line(ui, scene);
    let (share, least, most) = MAIN_BELOW;
    let width = ui.available_width();
    let main = (width * share).clamp(least, most);
    let row = scene.outlook.advice().and_then(|advice| {
        let row = scene.outlook.rows().get(advice.choice.recommended)?;
        let turns: Vec<Notches> = row.turns.iter().copied().map(Notches).collect();
        Some((turns, row.forecast))
    });
    ui.horizontal(|ui| {
        if let Some((turns, forecast)) = row {
            let line = Line {
                turns: &turns,
                forecast,
                note: String::new(),
                shown: turns == scene.preview(),
                said: true,
            };
            let room = Vec2::new(width - main - ui.spacing().item_spacing.x, TARGET);
            let row = ui.allocate_ui(room, |ui| plan_row(ui, scene, &line));
            if row.inner {
                scene.ask(Action::Preview(turns));
            }
        }
        next_act(ui, scene);
    });
}

/// The first ways to go on; answers the others.
fn rows(ui: &mut Ui, scene: &mut Scene<'_>, low: bool) -> Vec<usize> {
    let palette = scene.palette;
    let words = scene.words();
    let preview = scene.preview();
    let width = ui.available_width();
    let both = [Notches(1), Notches(-1)];
    let both = scene.figures.ways(&scene.session.press, &both);
    let explained = [Word::OutAndIn, Word::Notch, Word::Predicted, Word::Chance];
    let explained = explained.map(|word| words.explain(word)).join("\n");
    let font = || theme::regular(size::SMALL);
    let left = words.column_notches().to_owned();
    let left = ui.painter().layout_no_wrap(left, font(), palette.muted);
    let room = width - left.size().x - 6.0;
    let title = words.column_next_piece().to_owned();
    let right = ui.painter().layout(title, font(), palette.muted, room);
    let height = left.size().y.max(right.size().y);
    let (heading, whole) = ui.allocate_exact_size(Vec2::new(width, height), Sense::hover());
    whole.hint(format!("{both}.\n{explained}"));
    for (galley, align) in [(left, Align2::LEFT_TOP), (right, Align2::RIGHT_TOP)] {
        let at = align.align_size_within_rect(galley.size(), heading);
        ui.painter().galley(at.min, galley, palette.muted);
    }
    let own = usize::from(own_turns(ui, scene, &preview));
    let rows = scene.outlook.rows().iter().enumerate();
    let mut in_order: Vec<(usize, &PlanOption)> = rows.collect();
    let recommended = scene
        .outlook
        .advice()
        .map(|advice| advice.choice.recommended);
    let leaves = |row: &PlanOption| row.turns.iter().all(|turn| *turn == 0);
    let shown = |row: &PlanOption| {
        let turns = row.turns.iter().copied();
        turns.eq(preview.iter().map(|turn| turn.0))
    };
    in_order.sort_by_key(|(index, row)| (Some(*index) != recommended, !shown(row), !leaves(row)));
    let mut in_order: Vec<usize> = in_order.into_iter().map(|(index, _)| index).collect();
    // In a low column what is doubtful takes the room of the others.
    let most = match low && scene.turn_doubt().is_some() {
        true => 1,
        false => SHOWN - own,
    };
    let rest = in_order.split_off(in_order.len().min(most));
    plan_rows(ui, scene, &in_order);
    rest
}

/// Rows by their index, each as it stands.
fn plan_rows(ui: &mut Ui, scene: &mut Scene<'_>, in_order: &[usize]) {
    let words = scene.words();
    let preview = scene.preview();
    let recommended = scene
        .outlook
        .advice()
        .map(|advice| advice.choice.recommended);
    // Before another reading no turn is recommended.
    let step = scene.next_step();
    let poor = step.says == Says::Passes { next_is_poor: true };
    let advised = !matches!(step.act, NextAct::MeasureAgain(_)) && !poor;
    let accepted = scene.outlook.advice().is_some_and(|advice| advice.accepted);
    let doubted = scene.turn_doubt().is_some();
    let mut pressed = None;
    for &index in in_order {
        let Some(row) = scene.outlook.rows().get(index) else {
            continue;
        };
        let kind = match doubted {
            true => words.recommended_as_read(),
            false => words.kind_recommended(),
        };
        let recommended = (advised && recommended == Some(index)).then_some(kind);
        let leaves = row.turns.iter().all(|turn| *turn == 0);
        let until = if accepted && leaves {
            words.closes_out().to_owned()
        } else {
            scene.figures.until_a_piece_passes(row)
        };
        let turns: Vec<Notches> = row.turns.iter().copied().map(Notches).collect();
        let several = (recommended.is_some() && row.nuts > 1).then(|| words.why_several(row.nuts));
        let notes = recommended.into_iter().chain(several.as_deref());
        let notes: Vec<&str> = notes.chain([until.as_str()]).collect();
        let shown = turns == preview;
        let line = Line {
            turns: &turns,
            forecast: row.forecast,
            note: notes.join("\n"),
            shown,
            said: recommended.is_some(),
        };
        if plan_row(ui, scene, &line) {
            pressed = Some(turns);
        }
    }
    if let Some(turns) = pressed {
        scene.ask(Action::Preview(turns));
    }
}

/// The turns on show, where they are none of the rows; whether that is so.
fn own_turns(ui: &mut Ui, scene: &Scene<'_>, preview: &[Notches]) -> bool {
    let is_a_row = |row: &PlanOption| {
        row.turns
            .iter()
            .copied()
            .eq(preview.iter().map(|turn| turn.0))
    };
    if !scene.outlook.rows().iter().any(is_a_row)
        && let Some(forecast) = scene.outlook.forecast(preview)
    {
        let line = Line {
            turns: preview,
            forecast,
            note: scene.words().your_own_turns().to_owned(),
            shown: true,
            said: false,
        };
        plan_row(ui, scene, &line);
        return true;
    }
    false
}
