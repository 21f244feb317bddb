//! The bar along the top: what is open, and what can always be done.

use std::path::Path;

use eframe::egui::{self, Button, RichText, Ui, Vec2};

use crate::report::Printed;
use crate::store::SampleSession;
use crate::units::Unit;
use crate::window::action::Action;
use crate::window::commands::{Command, written};
use crate::window::shop::ShopWish;
use crate::window::state::dialog::Then;
use crate::window::state::{Dialog, Pane};
use crate::window::theme::{self, Look, TARGET, size};
use crate::words::Language;

use super::Scene;
use super::turning::safety;
use super::widgets::{hint_of, muted, toggle as pressed_in};
use crate::window::views::hint::Hint;

/// Width of the bar below which buttons show their marks alone.
const NARROW: f32 = 1150.0;

/// Least width for the name of the press.
const HEADING: f32 = 150.0;

/// Draws the bar.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>) {
    let narrow = ui.available_width() < NARROW;
    ui.horizontal(|ui| {
        ui.set_min_height(TARGET + 4.0);
        file_menu(ui, scene);
        let words = scene.words();
        let (can_undo, can_redo) = scene.undo_redo;
        if command_button(
            ui,
            words,
            Command::Undo,
            ("↩", words.undo()),
            can_undo,
            narrow,
        ) {
            scene.ask(Action::Undo);
        }
        if command_button(
            ui,
            words,
            Command::Redo,
            ("↪", words.redo()),
            can_redo,
            narrow,
        ) {
            scene.ask(Action::Redo);
        }
        if scene.view.one_column {
            panes(ui, scene);
        } else {
            ui.add_space(6.0);
        }
        ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
            if scene.view.one_column {
                settings_menu(ui, scene);
            } else {
                settings(ui, scene, narrow);
            }
            scene.view.headed = ui.available_width() >= HEADING;
            scene.view.heading = Some(ui.available_rect_before_wrap());
            if scene.view.headed {
                ui.with_layout(egui::Layout::left_to_right(egui::Align::Center), |ui| {
                    heading(ui, scene);
                });
            }
        });
    });
}

/// The switch between the columns where only one fits.
fn panes(ui: &mut Ui, scene: &mut Scene<'_>) {
    let words = scene.words();
    let middle = if scene.view.visit.in_front(scene.session).is_some() {
        words.pane_steps()
    } else {
        words.show_picture()
    };
    for (pane, text) in [
        (Pane::Readings, words.readings()),
        (Pane::Middle, middle),
        (Pane::Plan, words.pane_plan()),
    ] {
        let chosen = scene.view.pane == pane;
        let mut button = Button::selectable(chosen, text).min_size(Vec2::splat(TARGET));
        if chosen {
            button = button.stroke(theme::stroke(2.0, scene.palette.present));
        }
        let response = ui.add(button);
        response.widget_info(|| egui::WidgetInfo::selected(egui::Role::Tab, true, chosen, text));
        if response.clicked() {
            scene.view.pane = pane;
        }
    }
}

/// What is open, and how it is saved.
pub fn heading(ui: &mut Ui, scene: &Scene<'_>) {
    let words = scene.words();
    let session = scene.session;
    let mut name = session.press.name.clone();
    if let Some(practicing) = scene.practicing {
        // The press of an exercise is named in both languages; one will do here.
        let number = practicing.practice.exercise().number;
        name = format!("{} {number}", words.practice_mark());
    } else if name.is_empty() {
        words.unnamed_press().clone_into(&mut name);
    }
    ui.vertical(|ui| {
        ui.spacing_mut().item_spacing.y = 1.0;
        ui.add_space(5.0);
        ui.add(egui::Label::new(RichText::new(name).font(theme::bold(size::TITLE))).truncate());
        let pass = scene.outlook.pass.map_or(0, |pass| pass + 1);
        let mut line = words.visit_line(&session.notes.when, pass, session.passes.len());
        // An exercise is kept after every act; its strip says what it is.
        if scene.practicing.is_none() {
            let state = match (&scene.file_name, scene.unsaved) {
                (Some(file), true) => words.file_unsaved(file),
                (Some(file), false) => words.file_saved(file),
                (None, _) => words.never_saved().to_owned(),
            };
            line.push_str(", ");
            line.push_str(&state);
        }
        ui.add(egui::Label::new(muted(scene.palette, line)).truncate());
    });
}

/// A button for a command; its mark alone where room is short.
fn command_button(
    ui: &mut Ui,
    words: Language,
    command: Command,
    (mark, text): (&str, &str),
    enabled: bool,
    narrow: bool,
) -> bool {
    let label = if narrow {
        mark.to_owned()
    } else {
        format!("{mark} {text}")
    };
    let hint = hint_of(ui, words, command);
    let response = ui.add_enabled(enabled, Button::new(label).min_size(Vec2::splat(TARGET)));
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Button, enabled, text));
    response.hint(hint).clicked()
}

fn file_menu(ui: &mut Ui, scene: &mut Scene<'_>) {
    let words = scene.words();
    let button = egui::containers::menu::MenuButton::from_button(
        Button::new(RichText::new(format!("☰ {}", words.menu_file())))
            .min_size(Vec2::splat(TARGET)),
    );
    let (button, open) = button.ui(ui, |ui| {
        // The cautions below stay whole.
        let below = match scene.view.one_column {
            true => 0.0,
            false => safety::cautions_height(ui, scene),
        };
        scrolled(ui, below, |ui| file_items(ui, scene));
    });
    if open.is_some() {
        scene.view.keyboard.menu_is_open(button.id);
    }
}

/// A menu's entries, scrolled where the window is too low for all of them and
/// what is to stay free below.
fn scrolled(ui: &mut Ui, free: f32, entries: impl FnOnce(&mut Ui)) {
    let bottom = ui.ctx().content_rect().bottom() - free;
    let below = bottom - ui.cursor().top() - theme::GAP;
    // Where not all of them fit, that can be seen.
    ui.spacing_mut().scroll = egui::style::ScrollStyle::solid();
    egui::ScrollArea::vertical()
        .max_height(below.max(2.0 * TARGET))
        .min_scrolled_height(below.max(2.0 * TARGET))
        .show(ui, |ui| {
            ui.spacing_mut().item_spacing.y = 1.0;
            ui.set_min_width(270.0);
            entries(ui);
        });
}

/// What is used every day stands in the menu itself, so that it fits a low
/// window; the rest unfolds by its kind.
fn file_items(ui: &mut Ui, scene: &mut Scene<'_>) {
    let words = scene.words();
    recent(ui, scene);
    item(ui, scene, Command::New, Action::Leave(Then::New));
    item(ui, scene, Command::Open, Action::Leave(Then::Open));
    let state = match scene.file_name {
        Some(_) => "",
        None => words.never_saved(),
    };
    item_of(ui, scene, Command::Save, Action::Save, state);
    item(ui, scene, Command::SaveAs, Action::SaveAs);
    ui.separator();
    ui.menu_button(words.menu_press_file(), |ui| {
        plain_item(ui, scene, words.keep_with_press(), Action::Teach);
        let next = Action::Leave(Then::OpenPress);
        plain_item(ui, scene, words.next_visit(), next);
    });
    ui.menu_button(words.menu_paper(), |ui| {
        let card = Action::Print(Printed::TurnCard);
        item(ui, scene, Command::PrintCard, card);
        let report = Action::Print(Printed::Report);
        item(ui, scene, Command::PrintReport, report);
    });
    item(ui, scene, Command::Import, Action::AskImport);
    ui.separator();
    let show = |dialog| Action::Show(Box::new(dialog));
    item(ui, scene, Command::Shop, Action::Shop(ShopWish::Open));
    let practice = show(Dialog::Practice(Box::default()));
    item(ui, scene, Command::Practice, practice);
    ui.menu_button(words.menu_help(), |ui| {
        item(ui, scene, Command::Help, show(Dialog::Help));
        item(ui, scene, Command::Messages, show(Dialog::Messages));
        plain_item(ui, scene, words.about(), show(Dialog::About));
        ui.separator();
        for sample in SampleSession::ALL {
            let open = Action::Leave(Then::OpenSample(sample));
            plain_item(ui, scene, words.sample_name(sample), open);
        }
    });
    ui.separator();
    item(ui, scene, Command::Quit, Action::Leave(Then::Quit));
}

/// An entry of the menu without a shortcut.
fn plain_item(ui: &mut Ui, scene: &mut Scene<'_>, text: &str, action: Action) {
    if ui.button(text).clicked() {
        scene.ask(action);
        ui.close();
    }
}

/// A command as an entry of the menu, its shortcut beside it.
fn item(ui: &mut Ui, scene: &mut Scene<'_>, command: Command, action: Action) {
    item_of(ui, scene, command, action, "");
}

/// The same with how it stands before the shortcut.
fn item_of(ui: &mut Ui, scene: &mut Scene<'_>, command: Command, action: Action, state: &str) {
    let shortcut = command
        .shortcut()
        .map(|shortcut| written(ui.ctx(), scene.words(), &shortcut))
        .unwrap_or_default();
    let shortcut = format!("{state}  {shortcut}").trim().to_owned();
    let button = Button::new(command.words(scene.words())).shortcut_text(shortcut);
    if ui.add(button).clicked() {
        scene.ask(action);
        ui.close();
    }
}

/// Files opened last that stand in the menu itself; the others unfold.
const AT_HAND: usize = 2;

fn recent(ui: &mut Ui, scene: &mut Scene<'_>) {
    let words = scene.words();
    let recent = scene.preferences.recent.clone();
    if recent.is_empty() {
        return;
    }
    let (at_hand, others) = recent.split_at(recent.len().min(AT_HAND));
    for path in at_hand {
        recent_file(ui, scene, path);
    }
    if !others.is_empty() {
        ui.menu_button(words.menu_earlier(), |ui| {
            for path in others {
                recent_file(ui, scene, path);
            }
        });
    }
    ui.separator();
}

fn recent_file(ui: &mut Ui, scene: &mut Scene<'_>, path: &Path) {
    let name = path.file_name().unwrap_or(path.as_os_str());
    let entry = ui.button(name.to_string_lossy());
    if entry.hint(path.display().to_string()).clicked() {
        scene.ask(Action::Leave(Then::OpenPath(path.to_owned())));
        ui.close();
    }
}

/// The settings as a menu, where they do not fit beside each other.
fn settings_menu(ui: &mut Ui, scene: &mut Scene<'_>) {
    let words = scene.words();
    let button = egui::containers::menu::MenuButton::from_button(
        Button::new("⚙").min_size(Vec2::splat(TARGET)),
    );
    let (response, open) = button.ui(ui, |ui| {
        scrolled(ui, 0.0, |ui| {
            let open = Action::Show(Box::new(Dialog::Properties(Box::default())));
            item(ui, scene, Command::Properties, open);
            for unit in [Unit::Inch, Unit::Millimetre] {
                let chosen = scene.figures.unit == unit;
                choice(
                    ui,
                    scene,
                    chosen,
                    words.unit_name(unit),
                    Action::ShowUnit(unit),
                );
            }
            ui.separator();
            for look in Look::ALL {
                let chosen = scene.preferences.look == look;
                choice(
                    ui,
                    scene,
                    chosen,
                    words.look(look.key()),
                    Action::Wear(look),
                );
            }
            ui.separator();
            for language in Language::ALL {
                let chosen = language == words;
                choice(
                    ui,
                    scene,
                    chosen,
                    language.own_name(),
                    Action::Speak(language),
                );
            }
            ui.separator();
            let help = Action::Show(Box::new(Dialog::Help));
            item(ui, scene, Command::Help, help);
        });
    });
    if open.is_some() {
        scene.view.keyboard.menu_is_open(response.id);
    }
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Button, true, words.settings()));
    response.hint(words.settings());
}

/// One of several choices in a menu.
fn choice(ui: &mut Ui, scene: &mut Scene<'_>, chosen: bool, text: &str, action: Action) {
    let mark = if chosen { "● " } else { "○ " };
    let button = Button::selectable(chosen, format!("{mark}{text}"));
    if ui.add(button).clicked() {
        scene.ask(action);
        ui.close();
    }
}

/// Unit, look, language and properties, from the right.
fn settings(ui: &mut Ui, scene: &mut Scene<'_>, narrow: bool) {
    let words = scene.words();
    let palette = scene.palette;
    let help = ui.add(Button::new("?").min_size(Vec2::splat(TARGET)));
    help.widget_info(|| {
        egui::WidgetInfo::labeled(egui::Role::Button, true, Command::Help.words(words))
    });
    if help.hint(hint_of(ui, words, Command::Help)).clicked() {
        scene.ask(Action::Show(Box::new(Dialog::Help)));
    }
    // All three say what is: the one that is pressed in, or written.
    for language in [Language::Spanish, Language::English] {
        let chosen = words == language;
        let speak = pressed_in(ui, palette, chosen, &language.code().to_uppercase());
        let name = language.own_name();
        speak.widget_info(|| egui::WidgetInfo::selected(egui::Role::Button, true, chosen, name));
        if speak.hint(language.speak_hint()).clicked() {
            scene.ask(Action::Speak(language));
        }
    }
    look_button(ui, scene);
    let unit = scene.figures.unit;
    for choice in [Unit::Millimetre, Unit::Inch] {
        let button = pressed_in(ui, palette, unit == choice, words.unit_short(choice));
        if button.hint(words.unit_hint()).clicked() {
            scene.ask(Action::ShowUnit(choice));
        }
    }
    let crew = if narrow {
        words.crew_short().to_owned()
    } else {
        format!("▣ {}", words.crew_short())
    };
    let crew = ui.add(Button::new(crew).min_size(Vec2::splat(TARGET)));
    let name = Command::CrewView.words(words);
    crew.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Button, true, name));
    if crew.hint(hint_of(ui, words, Command::CrewView)).clicked() {
        scene.ask(Action::CrewView);
    }
    let text = if narrow {
        words.press_short()
    } else {
        words.command_properties()
    };
    let properties_button = ui.add(Button::new(format!("⚙ {text}")).min_size(Vec2::splat(TARGET)));
    if properties_button
        .hint(hint_of(ui, words, Command::Properties))
        .clicked()
    {
        scene.ask(Action::Show(Box::new(Dialog::Properties(Box::default()))));
    }
}

fn look_button(ui: &mut Ui, scene: &mut Scene<'_>) {
    let words = scene.words();
    let look = scene.preferences.look;
    let button = egui::containers::menu::MenuButton::from_button(
        Button::new(format!("{} ▾", words.look(look.key()))).min_size(Vec2::splat(TARGET)),
    );
    button.ui(ui, |ui| {
        for choice in Look::ALL {
            if ui
                .add(Button::selectable(choice == look, words.look(choice.key())))
                .clicked()
            {
                scene.ask(Action::Wear(choice));
                ui.close();
            }
        }
    });
}
