//! The dialogs that ask, tell or explain.

use eframe::egui::{self, Id, Modal, RichText, Ui, UiKind};

use crate::store::{self, Leftover};
use crate::window::action::Action;
use crate::window::messages::{Messages, Tone};
use crate::window::opening::path_title;
use crate::window::state::dialog::{PathFor, Then};
use crate::window::state::turn_card::TurnCard;
use crate::window::state::{Dialog, LastVisit};
use crate::window::theme::{self, size};

use super::Scene;
use super::dialog_room::{self, Answer, Foot};
use super::widgets::{button, muted, strong};
use crate::window::views::entry::{import, marks};
use crate::window::views::explaining::{help, worked_out};
use crate::window::views::forms::{
    changed, gauge, gauge_check, new_session, path, port_settings, properties,
};
use crate::window::views::practice::start;
use crate::window::views::turning::make_safe;
use crate::window::views::turning::turn_card::all_done;
use crate::window::views::visit::welcome;

/// Draws the dialog in front, if there is one.
pub fn show(
    ctx: &egui::Context,
    scene: &mut Scene<'_>,
    messages: &Messages,
    leftovers: &[Leftover],
) {
    let Some(mut dialog) = scene.view.dialog.take() else {
        scene.view.keyboard.give_back(ctx);
        return;
    };
    scene.view.keyboard.take(ctx, &dialog);
    let name = name_of(&dialog, scene);
    let only_tells = matches!(
        dialog,
        Dialog::WorkedOut | Dialog::Help | Dialog::About | Dialog::Messages
    );
    let modal = Modal::new(Id::unique("dialog"))
        .frame(theme::card(scene.palette))
        .show(ctx, |ui| {
            let mut around = ui.stack().iter();
            let whole = around.find(|it| it.kind() == Some(UiKind::Modal));
            let whole = whole.map(|whole| whole.unique_id);
            let width = width_of(&dialog, ui);
            ui.set_width(width);
            dialog_room::whole(ui, only_tells, |ui| {
                let large = matches!(dialog, Dialog::StopTurning).then_some(size::CARD);
                let font = theme::bold(large.unwrap_or(size::TITLE));
                // Where hands go in, a dialog covers what says so.
                let hands = matches!(dialog, Dialog::MakeSafe(_) | Dialog::StopTurning);
                let title = ui.horizontal_wrapped(|ui| {
                    ui.spacing_mut().interact_size.y = 0.0;
                    if hands && scene.is_example() {
                        let example = RichText::new(scene.words().example_title());
                        ui.label(example.font(font.clone()).color(scene.palette.caution));
                    }
                    ui.label(RichText::new(&name).font(font))
                });
                let title = title.inner;
                if let Some(whole) = whole {
                    ctx.accesskit_node_builder(whole, |node| {
                        node.set_modal();
                        node.push_labelled_by(title.id.accesskit_id());
                    });
                }
                contents(ui, scene, &mut dialog, messages, leftovers);
            });
        });
    // Work kept aside must be answered for, not waved away; and a click beside
    // a dialog throws nothing away that was typed into it.
    let must_answer = matches!(dialog, Dialog::Leftovers);
    let beside = modal.backdrop_response.clicked();
    let nothing_typed = only_tells || dialog == Dialog::Welcome;
    if modal.should_close() && !must_answer && (nothing_typed || !beside) {
        if dialog == Dialog::GaugeCheck {
            gauge_check::leave(scene);
        }
        scene.ask(Action::Close);
    }
    if scene.view.dialog.is_none() {
        scene.view.dialog = Some(dialog);
    }
}

/// How wide a dialog is.
fn width_of(dialog: &Dialog, ui: &Ui) -> f32 {
    let room = ui.ctx().content_rect().size();
    let width: f32 = match dialog {
        Dialog::Properties(_) => 940.0,
        Dialog::New(_) => 880.0,
        Dialog::Gauge(_)
        | Dialog::WorkedOut
        | Dialog::GaugeCheck
        | Dialog::ChangedOnDisk(_)
        | Dialog::Import(_)
        | Dialog::TypePath(..)
        | Dialog::Practice(_) => 760.0,
        Dialog::Help => 980.0,
        Dialog::Messages => 560.0,
        Dialog::MakeSafe(_) => 1240.0,
        Dialog::StopTurning => 700.0,
        _ => 470.0,
    };
    width.min(room.x - dialog_room::AROUND)
}

/// What a dialog is called, on show and by a screen reader.
fn name_of(dialog: &Dialog, scene: &Scene<'_>) -> String {
    let words = scene.words();
    let card = scene.view.turn_card.as_ref();
    let all_turned = card.is_some_and(all_done);
    let differs = card.is_some_and(TurnCard::differs);
    let name = match dialog {
        Dialog::New(_) => words.command_new(),
        Dialog::Properties(_) => words.command_properties(),
        Dialog::Gauge(_) => words.gauge_title(),
        Dialog::GaugeCheck => words.gauge_check_title(),
        Dialog::Import(_) => words.import_title(),
        Dialog::GaugePort(_) => words.port_title(),
        Dialog::Strike(_) => words.strike_title(),
        Dialog::WorkedOut => words.how_sure(),
        Dialog::UnsavedWork(Then::Quit) => words.unsaved_quit_title(),
        Dialog::UnsavedWork(_) => words.unsaved_title(),
        Dialog::ChangedOnDisk(_) => words.changed_on_disk_title(),
        Dialog::FileExists(_) => words.file_exists_title(),
        Dialog::TypePath(PathFor::SaveAs, _) if scene.file_name.is_none() => {
            words.save_this_visit()
        }
        Dialog::TypePath(what, _) => path_title(words, *what),
        Dialog::Leftovers => words.leftovers_title(),
        Dialog::Welcome => words.welcome_title(),
        Dialog::Teach => words.keep_with_press(),
        Dialog::Practice(_) => words.command_practice(),
        Dialog::HandedOut(..) => words.practice_handed(),
        Dialog::MakeSafe(_) => words.made_safe_title(),
        Dialog::StopTurning if all_turned && differs => words.card_not_as_planned_title(),
        Dialog::StopTurning if all_turned => words.card_not_noted_title(),
        Dialog::StopTurning => words.card_stop_title(),
        Dialog::Help => words.command_help(),
        Dialog::About => return words.about_title(env!("CARGO_PKG_VERSION")),
        Dialog::Messages => words.command_messages(),
    };
    name.to_owned()
}

fn contents(
    ui: &mut Ui,
    scene: &mut Scene<'_>,
    dialog: &mut Dialog,
    messages: &Messages,
    leftovers: &[Leftover],
) {
    match dialog {
        Dialog::New(form) => new_session::show(ui, scene, form),
        Dialog::Properties(form) => properties::show(ui, scene, form),
        Dialog::Gauge(form) => gauge::show(ui, scene, form),
        Dialog::GaugeCheck => gauge_check::show(ui, scene),
        Dialog::Import(form) => import::show(ui, scene, form),
        Dialog::GaugePort(form) => port_settings::show(ui, scene, form),
        Dialog::Strike(form) => marks::show(ui, scene, form),
        Dialog::WorkedOut => worked_out::show(ui, scene),
        Dialog::UnsavedWork(then) => unsaved(ui, scene, then),
        Dialog::ChangedOnDisk(form) => changed::show(ui, scene, form),
        Dialog::FileExists(path) => exists(ui, scene, path),
        Dialog::TypePath(what, path) => path::show(ui, scene, *what, path),
        Dialog::Leftovers => show_leftovers(ui, scene, leftovers),
        Dialog::Welcome => welcome::show(ui, scene),
        Dialog::Teach => teach(ui, scene),
        Dialog::Practice(form) => start::show(ui, scene, form),
        Dialog::HandedOut(exercise, who) => start::handed_out(ui, scene, exercise, who),
        Dialog::MakeSafe(form) => make_safe::show(ui, scene, form),
        Dialog::StopTurning => stop_turning(ui, scene),
        Dialog::Help => help(ui, scene),
        Dialog::About => about(ui, scene),
        Dialog::Messages => all_messages(ui, scene, messages),
    }
}

fn stop_turning(ui: &mut Ui, scene: &mut Scene<'_>) {
    let words = scene.words();
    let Some(card) = &scene.view.turn_card else {
        return;
    };
    // As large as the card itself.
    let text = |text: String| RichText::new(text).font(theme::bold(size::CARD));
    ui.spacing_mut().item_spacing.y = 12.0;
    let lock = text(format!("⚠ {}", words.card_lock_stays()));
    ui.label(lock.color(scene.palette.caution));
    let stand = card.stand().into_iter();
    let unknown = |arm| {
        card.lost()
            .any(|nut| nut.arm == arm && nut.known().is_none())
    };
    let stand: Vec<String> = stand
        .map(|(arm, nut)| match unknown(arm) {
            true => format!("{arm}\u{a0}?"),
            false => format!("{arm}\u{a0}{nut}"),
        })
        .collect();
    let turned = card.turned();
    // Of a nut nobody knows it is not said that it was left.
    if turned.iter().any(|turn| turn.0 != 0) {
        let turned = scene.figures.turns(&turned);
        ui.label(text(words.card_stop_so_far(turned)));
    }
    let planned = scene.figures.turns(&card.turning().turns);
    ui.label(text(words.card_stop_planned(planned)));
    ui.label(text(words.card_nuts_stand(stand.join(", "))));
    for nut in card.lost() {
        let lost = text(format!(
            "⚠ {}",
            scene.figures.count_lost(nut.arm, nut.known())
        ));
        ui.label(lost.color(scene.palette.caution));
    }
    let foot = Foot {
        leave: Some(words.card_back()),
        main: Some((words.card_note_so_far(), true)),
    };
    // A nut nobody knows is not left unsaid.
    let leave = (!card.lost().any(|nut| nut.known().is_none())).then(|| words.card_leave());
    if leave.is_some() {
        let hint = RichText::new(words.card_leave_hint());
        ui.label(hint.font(theme::regular(size::SENTENCE)));
    }
    match foot.decide(ui, scene.palette, leave) {
        Some(Answer::Main) => scene.ask(Action::NoteTurnedSoFar),
        Some(Answer::Leave) => scene.ask(Action::Close),
        Some(Answer::Lose) => scene.ask(Action::LeaveTurnCard),
        None => {}
    }
}

fn unsaved(ui: &mut Ui, scene: &mut Scene<'_>, then: &Then) {
    let words = scene.words();
    let last = LastVisit::of(scene.session);
    ui.label(strong(words.press_name(&last.press)));
    welcome::stands(ui, scene, &last);
    let file = scene.file_name.as_deref();
    ui.label(muted(scene.palette, file.unwrap_or(words.never_saved())));
    // What is in no file at all is lost as a whole.
    let (lost, lose) = match file {
        Some(_) => (words.give_up_means(), words.give_up_changes()),
        None => (words.give_up_visit_means(), words.give_up_visit()),
    };
    ui.label(lost);
    ui.add_space(6.0);
    let foot = Foot {
        leave: Some(words.keep_working()),
        main: Some((words.save_first(), true)),
    };
    match foot.decide(ui, scene.palette, Some(lose)) {
        Some(Answer::Leave) => scene.ask(Action::Close),
        Some(Answer::Main) => scene.ask(Action::SaveThen(then.clone())),
        Some(Answer::Lose) => scene.ask(Action::LeaveNow(then.clone())),
        None => {}
    }
}

fn exists(ui: &mut Ui, scene: &mut Scene<'_>, path: &std::path::Path) {
    let words = scene.words();
    ui.label(words.file_exists_text(path.display()));
    let foot = Foot {
        leave: Some(words.cancel()),
        main: Some((words.another_name(), true)),
    };
    match foot.decide(ui, scene.palette, Some(words.replace_file())) {
        Some(Answer::Leave) => scene.ask(Action::Close),
        Some(Answer::Main) => {
            scene.ask(Action::Close);
            scene.ask(Action::SaveAs);
        }
        Some(Answer::Lose) => scene.ask(Action::Replace(path.to_owned())),
        None => {}
    }
}

fn show_leftovers(ui: &mut Ui, scene: &mut Scene<'_>, leftovers: &[Leftover]) {
    let words = scene.words();
    ui.label(words.leftovers_text());
    for (index, leftover) in leftovers.iter().enumerate() {
        match index {
            0 => ui.add_space(6.0),
            _ => {
                ui.separator();
            }
        }
        let name = leftover.session.as_ref().map_or_else(
            |_| leftover.path.display().to_string(),
            |session| session.press.name.clone(),
        );
        ui.label(RichText::new(name).font(theme::bold(size::TITLE)));
        if let Some(origin) = &leftover.origin.path {
            ui.label(muted(scene.palette, origin.display().to_string()));
        }
        if let Ok(session) = &leftover.session {
            welcome::where_it_stands(ui, scene, &LastVisit::of(session));
        }
        let when = leftover.kept_at.map(store::moment_of).unwrap_or_default();
        let passes = leftover.session.iter().flat_map(|session| &session.passes);
        let (mut count, mut readings) = (0_usize, 0_usize);
        for pass in passes {
            count += 1;
            readings += pass.rows.iter().map(Vec::len).sum::<usize>();
        }
        let what = words.kept_aside_at(when, count, readings);
        ui.label(muted(scene.palette, what));
        // Below the last of them stands what leaves them all.
        let last = index + 1 == leftovers.len();
        let foot = Foot {
            leave: last.then_some(words.decide_later()),
            main: Some((words.take_up(), true)),
        };
        match foot.decide(ui, scene.palette, Some(words.throw_away())) {
            Some(Answer::Main) => scene.ask(Action::TakeLeftover(index)),
            Some(Answer::Lose) => scene.ask(Action::DropLeftover(index)),
            Some(Answer::Leave) => scene.ask(Action::Close),
            None => {}
        }
    }
}

fn teach(ui: &mut Ui, scene: &mut Scene<'_>) {
    let words = scene.words();
    for line in [words.teach_what(), words.teach_where(), words.teach_why()] {
        ui.label(line);
    }
    let foot = Foot {
        leave: Some(words.cancel()),
        main: Some((words.teach_choose(), true)),
    };
    match foot.decide(ui, scene.palette, None) {
        Some(Answer::Leave) => scene.ask(Action::Close),
        Some(_) => scene.ask(Action::ChoosePressFile),
        None => {}
    }
}

fn help(ui: &mut Ui, scene: &mut Scene<'_>) {
    help::show(ui, scene);
    close_button(ui, scene);
}

fn about(ui: &mut Ui, scene: &mut Scene<'_>) {
    let words = scene.words();
    dialog_room::middle(ui, |ui| {
        for text in [
            words.about_text(),
            words.about_safety(),
            words.about_fault(),
        ] {
            ui.label(text);
        }
        ui.label(muted(scene.palette, words.about_licence()));
        dialog_room::fold(ui, words.about_licence_text(), |ui| {
            ui.label(include_str!("../../../LICENSE"));
        });
    });
    let foot = Foot {
        leave: None,
        main: Some((words.close(), true)),
    };
    let mut copy = false;
    let answer = foot.show(ui, scene.palette, |ui| {
        copy = button(ui, words.about_copy()).clicked();
    });
    if copy {
        scene.ask(Action::CopyDoctor);
    }
    if answer.is_some() {
        scene.ask(Action::Close);
    }
}

fn all_messages(ui: &mut Ui, scene: &mut Scene<'_>, messages: &Messages) {
    let words = scene.words();
    if messages.all().is_empty() {
        ui.label(words.no_messages());
    }
    let now = ui.input(|input| input.time);
    dialog_room::middle(ui, |ui| {
        for message in messages.all().iter().rev() {
            let (mark, ink) = match message.tone {
                Tone::Done => ("✓", scene.palette.good),
                Tone::Problem => ("⚠", scene.palette.caution),
            };
            ui.label(RichText::new(format!("{mark}  {}", message.text)).color(ink));
            let minutes = ((now - message.said_at) / 60.0).max(0.0).floor();
            ui.label(muted(scene.palette, words.minutes_ago(minutes)));
        }
    });
    close_button(ui, scene);
}

fn close_button(ui: &mut Ui, scene: &mut Scene<'_>) {
    if dialog_room::closed(ui, scene.palette, scene.words().close()) {
        scene.ask(Action::Close);
    }
}
