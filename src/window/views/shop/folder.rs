//! The shop's folder: where it is and what is done with it; files that could not
//! be read, each with why and what to do; and what it holds in all.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use eframe::egui::{RichText, Ui};

use crate::shop::PressBook;
use crate::store::{OpenProblem, Shop};
use crate::window::shop::ShopWish;
use crate::window::theme::{self, size};
use crate::window::views::Scene;
use crate::window::views::dialog_room::fold;
use crate::window::views::widgets::{button, muted, named_button, strong, title};

use super::{MOST_ROWS, ask};

/// Draws the page.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>) {
    let shop = Arc::clone(&scene.shop.shop);
    let Some(folder) = scene.shop.folder.clone() else {
        return;
    };
    place(ui, scene, &shop, &folder);
    if scene.shop.read {
        not_read(ui, scene, &shop);
        holds(ui, scene, &shop);
    }
}

/// Where it is, when it was read, and what can be done with it.
fn place(ui: &mut Ui, scene: &mut Scene<'_>, shop: &Shop, folder: &Path) {
    let words = scene.words();
    theme::card(scene.palette).show(ui, |ui| {
        ui.set_width(ui.available_width());
        title(ui, words.shop_folder());
        ui.label(strong(folder.display().to_string()));
        let files = shop.sessions + shop.unread.len() + shop.practice.len();
        let read = words.shop_folder_read(files, &scene.shop.read_at);
        ui.label(muted(scene.palette, read));
        ui.horizontal_wrapped(|ui| {
            for (text, wish) in [
                (
                    words.shop_open_folder(),
                    ShopWish::ShowFolder(folder.to_owned()),
                ),
                (
                    words.shop_copy_path(),
                    ShopWish::CopyPath(folder.to_owned()),
                ),
                (words.shop_look_now(), ShopWish::LookNow),
                (words.shop_choose_other(), ShopWish::Choose),
            ] {
                if button(ui, text).clicked() {
                    ask(scene, wish);
                }
            }
        });
    });
}

/// Files that could not be read, each with why, what to do, and where it is.
fn not_read(ui: &mut Ui, scene: &mut Scene<'_>, shop: &Shop) {
    let words = scene.words();
    let figures = scene.figures;
    let closed = shop.closed.iter().map(|(name, why)| {
        let why = words.disk_refusal(*why);
        (name, why, words.shop_do_closed())
    });
    let unread = shop.unread.iter().map(|(name, why)| {
        let said = figures.why_not_opened(why);
        match why {
            OpenProblem::NewerFormat(_) => (name, String::new(), words.shop_do_newer()),
            OpenProblem::Disk(_) => (name, said, words.shop_do_closed()),
            _ => (name, said, words.shop_do_damaged()),
        }
    });
    if shop.closed.len() + shop.unread.len() > 0 {
        ui.label(strong(words.shop_unreadable()));
    }
    for (name, why, act) in closed.chain(unread).take(MOST_ROWS) {
        let path = scene.shop.path(name);
        theme::card(scene.palette).show(ui, |ui| {
            ui.set_width(ui.available_width());
            ui.label(RichText::new(format!("⚠ {name}")).font(theme::bold(size::BODY)));
            if !why.is_empty() {
                ui.label(why);
            }
            ui.label(act);
            ui.horizontal_wrapped(|ui| {
                let within = path.parent().map_or_else(PathBuf::new, Path::to_owned);
                for (text, wish) in [
                    (words.shop_show_in_folder(), ShopWish::ShowFolder(within)),
                    (words.shop_copy_path(), ShopWish::CopyPath(path.clone())),
                ] {
                    if named_button(ui, text, &words.upkeep_tick_of(text, name, act)) {
                        ask(scene, wish);
                    }
                }
            });
        });
    }
}

/// How many files of each kind it holds, and which of them count.
fn holds(ui: &mut Ui, scene: &Scene<'_>, shop: &Shop) {
    let words = scene.words();
    let copies: Vec<&String> = shop.books.iter().flat_map(|book| &book.copies).collect();
    let visits = |book: &PressBook| book.visits.len();
    let not_read = shop.unread.len() + shop.closed.len();
    let noted = shop.upkeep.as_ref().map_or(0, |upkeep| upkeep.log.len());
    theme::card(scene.palette).show(ui, |ui| {
        ui.set_width(ui.available_width());
        title(ui, words.shop_holds());
        for (number, what) in [
            (
                shop.books.iter().map(visits).sum(),
                words.shop_holds_visits(),
            ),
            (copies.len(), words.shop_holds_copies()),
            (shop.practice.len(), words.shop_holds_practice()),
            (not_read, words.shop_holds_unread()),
            (noted, words.shop_holds_upkeep()),
        ] {
            if number > 0 {
                ui.label(words.press_and(what, number));
            }
        }
        for (names, heading) in [
            (shop.practice.iter().collect(), words.shop_name_practice()),
            (copies, words.shop_name_copies()),
        ] {
            let names: Vec<&String> = names;
            if !names.is_empty() {
                fold(ui, heading, |ui| {
                    for name in names.into_iter().take(MOST_ROWS) {
                        ui.label(muted(scene.palette, name));
                    }
                });
            }
        }
    });
}
