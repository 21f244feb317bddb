//! Which file or folder, where the desktop has no dialog for that: picked from
//! what a folder holds, or typed.

use eframe::egui::{Button, Key, Role, TextWrapMode, Ui, WidgetInfo};

use crate::store::{Listed, UsualFolder};
use crate::window::action::Action;
use crate::window::state::dialog::{PathFor, TypedPath};
use crate::window::theme::TARGET;
use crate::window::views::Scene;
use crate::window::views::dialog_room::{self, Answer, Foot};
use crate::window::views::entry::grid::{select_all, select_name};
use crate::window::views::hint::Hint;
use crate::window::views::widgets::{button, choice_text, field, muted, offered, strong};

/// Height of what a folder holds, where the window has it.
const LIST: f32 = 260.0;

/// Most of it that is shown; what is typed narrows it.
const MOST: usize = 300;

/// Folders offered beside the one above.
const FOLDERS: usize = 5;

/// Draws it, but for its title.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, what: PathFor, path: &mut TypedPath) {
    let words = scene.words();
    let a_folder = what == PathFor::Shop;
    let width = ui.available_width() - 12.0;
    let mut left = false;
    if !a_folder {
        let name = ui.vertical(|ui| field(ui, words.name_of_file(), &mut path.name, width));
        if what.saves() && name.inner.gained_focus() {
            // What is typed takes the name's place; its ending stays.
            select_name(ui, name.inner.id, &path.name);
        }
        left |= name.inner.lost_focus();
    }
    left |= folder(ui, scene, path, width);
    let place = path.place();
    if path.looked_into != place {
        path.looked_into.clone_from(&place);
        path.holds = None;
        scene.ask(Action::LookInto(what, place));
    }
    let mut used = dialog_room::middle_of_height(ui, LIST, |ui| holds(ui, scene, what, path));
    if what.saves() {
        ui.label(muted(scene.palette, words.asked_before_replacing()));
    }
    let ready = a_folder || !path.name.trim().is_empty();
    let foot = Foot {
        leave: Some(words.cancel()),
        main: Some(match what.saves() {
            true => (words.save_it(), ready),
            false => (words.open_it(), ready),
        }),
    };
    let answer = foot.show(ui, scene.palette, |_| {});
    used |= left && ui.input(|input| input.key_pressed(Key::Enter));
    if ready && (used || answer == Some(Answer::Main)) {
        let whole = if a_folder { path.place() } else { path.whole() };
        scene.ask(Action::UsePath(what, whole));
    }
    if answer == Some(Answer::Leave) {
        scene.ask(Action::Close);
    }
}

/// The folder, the one above it, and others that people look in; whether the
/// keyboard left it.
fn folder(ui: &mut Ui, scene: &Scene<'_>, path: &mut TypedPath, width: f32) -> bool {
    let words = scene.words();
    let typed = ui.vertical(|ui| field(ui, words.folder_of_file(), &mut path.folder, width));
    if typed.inner.gained_focus() {
        select_all(ui, typed.inner.id, &path.folder);
    }
    ui.horizontal_wrapped(|ui| {
        let above = path.place().parent().map(|it| it.display().to_string());
        let up = format!("↑ {}", words.folder_above());
        let pressed = offered(ui, Button::new(&up), &up, above.is_some()).clicked();
        if let Some(above) = above.filter(|_| pressed) {
            path.folder = above;
        }
        // By their names where people know them, else by their paths.
        let usual = path.usual.iter();
        let usual = usual.map(|(which, folder)| {
            let name = match which {
                UsualFolder::Home => words.folder_home(),
                UsualFolder::Desktop => words.folder_desktop(),
                UsualFolder::Documents => words.folder_documents(),
            };
            (name.to_owned(), folder.display().to_string())
        });
        let shop = scene.preferences.shop.as_deref();
        let shop = shop.map(|shop| (words.shop_folder().to_owned(), shop.display().to_string()));
        let recent = scene.preferences.recent.iter().filter_map(|it| it.parent());
        let recent = recent.map(|folder| folder.display().to_string());
        let recent = recent.map(|folder| (folder.clone(), folder));
        let mut others: Vec<(String, String)> = Vec::new();
        for (name, folder) in shop.into_iter().chain(usual).chain(recent) {
            let new = !folder.is_empty() && others.iter().all(|(_, other)| *other != folder);
            if new && others.len() < FOLDERS {
                others.push((name, folder));
            }
        }
        for (name, folder) in others {
            if button(ui, &name).hint(&folder).clicked() {
                path.folder = folder;
            }
        }
    });
    typed.inner.lost_focus()
}

/// What the folder holds, as far as it fits what is typed; whether a file was
/// pressed that had been picked already.
fn holds(ui: &mut Ui, scene: &mut Scene<'_>, what: PathFor, path: &mut TypedPath) -> bool {
    let words = scene.words();
    let Some(holds) = &path.holds else {
        return false;
    };
    let Some(holds) = holds else {
        ui.label(strong(words.folder_unread()));
        if what.saves() && button(ui, words.folder_make()).clicked() {
            scene.ask(Action::MakeFolder(what, path.place()));
        }
        return false;
    };
    let typed = path.name.trim().to_lowercase();
    let picked = holds.iter().any(|one| one.name == path.name);
    let whole = what.saves() || picked || typed.contains(['/', '\\']);
    let fits = |one: &&Listed| {
        let narrowed = whole || one.name.to_lowercase().contains(&typed);
        narrowed && !(one.file && what == PathFor::Shop)
    };
    let fitting: Vec<&Listed> = holds.iter().filter(fits).collect();
    if fitting.is_empty() {
        ui.label(muted(scene.palette, words.folder_empty()));
    }
    let mut pressed: Option<Listed> = None;
    for one in fitting.iter().take(MOST) {
        let picked = one.file && one.name == path.name;
        let (said, about) = match one.file {
            true => (choice_text(picked, &one.name), one.changed.as_str()),
            false => (format!("▸ {}", one.name), words.folder_of_file()),
        };
        let row = Button::new(said)
            .right_text(muted(scene.palette, about))
            .selected(picked)
            .wrap_mode(TextWrapMode::Truncate)
            .min_size(eframe::egui::vec2(ui.available_width(), TARGET));
        let row = ui.add(row);
        let role = if one.file {
            Role::RadioButton
        } else {
            Role::Button
        };
        row.widget_info(|| WidgetInfo::selected(role, true, picked, &one.name));
        if row.clicked() {
            pressed = Some((*one).clone());
        }
    }
    if let Some(more) = fitting.len().checked_sub(MOST).filter(|more| *more > 0) {
        ui.label(muted(scene.palette, words.shop_more(more)));
    }
    match pressed {
        Some(Listed {
            file: false, name, ..
        }) => {
            path.folder = path.place().join(name).display().to_string();
            false
        }
        Some(file) => std::mem::replace(&mut path.name, file.name.clone()) == file.name,
        None => false,
    }
}
