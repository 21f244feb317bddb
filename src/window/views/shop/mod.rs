//! The shop in all the window: its presses, finding visits, files that are not
//! counted, and the book of a press.

pub mod book;
pub mod charts;
pub mod files;
pub mod find;
pub mod press_row;
pub mod presses;
pub mod row;
pub mod upkeep;
pub mod upkeep_group;
pub mod upkeep_note;
pub mod upkeep_tasks;

use eframe::egui::{self, Key, Modifiers, RichText, ScrollArea, Ui};

use crate::window::action::Action;
use crate::window::shop::ShopWish;
use crate::window::state::shop::ShopPage;
use crate::window::theme::{self, size};

use super::Scene;
use super::widgets::{button, choice, main_button, muted};

/// Most rows of a list that are shown.
pub const MOST_ROWS: usize = 200;

/// Draws the shop in all the room there is.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>) {
    let free = scene.view.dialog.is_none() && !egui::Popup::is_any_open(ui.ctx());
    if free && ui.input_mut(|input| input.consume_key(Modifiers::NONE, Key::Escape)) {
        scene.ask(Action::Close);
    }
    heading(ui, scene);
    let page = scene.view.shop.page.clone();
    ScrollArea::vertical()
        .id_salt(("shop", format!("{page:?}")))
        .auto_shrink(false)
        .show(ui, |ui| {
            // Room for the scroll bar.
            ui.set_max_width(ui.available_width() - 12.0);
            if scene.shop.folder.is_none() {
                no_folder(ui, scene);
                return;
            }
            match &page {
                ShopPage::Presses => presses::show(ui, scene),
                ShopPage::Find => find::show(ui, scene),
                ShopPage::Files => files::show(ui, scene),
                ShopPage::Upkeep => upkeep::show(ui, scene),
                ShopPage::Press(press) => book::show(ui, scene, press),
            }
        });
}

/// Asks for something about the shop.
fn ask(scene: &mut Scene<'_>, wish: ShopWish) {
    scene.ask(Action::Shop(wish));
}

fn no_folder(ui: &mut Ui, scene: &mut Scene<'_>) {
    let words = scene.words();
    ui.label(words.shop_choose_text());
    if main_button(ui, scene.palette, words.shop_choose(), true).clicked() {
        ask(scene, ShopWish::Choose);
    }
}

fn heading(ui: &mut Ui, scene: &mut Scene<'_>) {
    let words = scene.words();
    let shop = scene.shop;
    let uncounted = shop.shop.unread.len() + shop.shop.practice.len() + shop.shop.closed.len();
    ui.horizontal_wrapped(|ui| {
        ui.label(RichText::new(words.shop_title()).font(theme::bold(size::SENTENCE)));
        if button(ui, words.shop_back()).clicked() {
            scene.view.shop.page = ShopPage::Presses;
            scene.ask(Action::Close);
        }
        if shop.folder.is_none() {
            return;
        }
        for (page, text) in [
            (ShopPage::Presses, words.shop_page_presses().to_owned()),
            (ShopPage::Find, words.shop_page_find().to_owned()),
            (ShopPage::Upkeep, words.upkeep_page().to_owned()),
            (ShopPage::Files, words.shop_page_files(uncounted)),
        ] {
            let chosen = scene.view.shop.page == page;
            if choice(ui, scene.palette, chosen, &text).clicked() {
                ask(scene, ShopWish::Show(page));
            }
        }
        ui.menu_button(words.shop_folder(), |ui| {
            if let Some(folder) = &shop.folder {
                ui.label(muted(scene.palette, folder.display().to_string()));
            }
            if button(ui, words.shop_choose()).clicked() {
                ask(scene, ShopWish::Choose);
                ui.close();
            }
            if button(ui, words.shop_look_now()).clicked() {
                ask(scene, ShopWish::LookNow);
                ui.close();
            }
        });
    });
    if let Some(problem) = shop.closed {
        let why = words.shop_closed(words.disk_refusal(problem));
        ui.label(RichText::new(format!("⚠ {why}")).color(scene.palette.caution));
    }
    match shop.progress {
        Some(progress) => {
            ui.label(words.shop_reading(progress.read, progress.of));
            let share = progress.read as f32 / progress.of.max(1) as f32;
            let bar = egui::ProgressBar::new(share).fill(scene.palette.present);
            ui.add(bar.desired_height(8.0));
        }
        None if shop.folder.is_some() && !shop.read && shop.closed.is_none() => {
            ui.label(words.shop_reading_begins());
        }
        None => {}
    }
    ui.separator();
}
