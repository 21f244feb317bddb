//! The shop in all the window: its presses, finding visits, its folder, its
//! upkeep, and the book of a press.

pub mod book;
pub mod charts;
pub mod find;
pub mod folder;
pub mod nut_table;
pub mod press_row;
pub mod presses;
pub mod row;
pub mod upkeep;
pub mod upkeep_group;
pub mod upkeep_log;
pub mod upkeep_note;
pub mod upkeep_tasks;

use eframe::egui::{
    self, Align, CentralPanel, Frame, Key, Layout, Margin, Modifiers, Panel, RichText, ScrollArea,
    Ui, Vec2,
};

use crate::window::action::Action;
use crate::window::shop::ShopWish;
use crate::window::state::shop::ShopPage;
use crate::window::theme::{self, GAP, TARGET, size};

use super::Scene;
use super::widgets::{button, main_button, strong, tab, title};

/// Width of the bar below which it wraps.
const NARROW: f32 = 900.0;

/// Width of the card shown before a folder is chosen.
const NO_FOLDER: f32 = 640.0;

/// Most rows of a list that are shown.
pub const MOST_ROWS: usize = 200;

/// Draws the shop in all the room there is: a bar as above a visit, the page,
/// and the cautions where what is listed asks for hands in a press.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>) {
    let free = scene.view.dialog.is_none() && !egui::Popup::is_any_open(ui.ctx());
    if free && ui.input_mut(|input| input.consume_key(Modifiers::NONE, Key::Escape)) {
        scene.ask(Action::Close);
    }
    let palette = scene.palette;
    let bar = Frame::new()
        .fill(palette.card)
        .inner_margin(Margin::symmetric(10, 3));
    ui.spacing_mut().scroll = theme::lasting_scroll();
    Panel::top("shop bar")
        .frame(bar)
        .show(ui, |ui| heading(ui, scene));
    let page = scene.view.shop.page.clone();
    if page == ShopPage::Upkeep {
        upkeep::below(ui, scene);
    }
    let paper = Frame::new().fill(palette.paper).inner_margin(Margin {
        left: GAP as i8,
        right: 0,
        top: GAP as i8,
        bottom: 0,
    });
    CentralPanel::default().frame(paper).show(ui, |ui| {
        state(ui, scene);
        if page == ShopPage::Upkeep && scene.shop.read {
            upkeep::above(ui, scene);
        }
        ScrollArea::vertical()
            .id_salt(("shop", format!("{page:?}")))
            .auto_shrink(false)
            .show(ui, |ui| {
                // Room for the scroll bar.
                ui.set_max_width(ui.available_width() - 14.0);
                if scene.shop.folder.is_none() {
                    no_folder(ui, scene);
                    return;
                }
                match &page {
                    ShopPage::Presses => presses::show(ui, scene),
                    ShopPage::Find => find::show(ui, scene),
                    ShopPage::Folder => folder::show(ui, scene),
                    ShopPage::Upkeep => upkeep::show(ui, scene),
                    ShopPage::Press(press) => book::show(ui, scene, press),
                }
                ui.add_space(GAP);
            });
    });
}

/// Asks for something about the shop.
fn ask(scene: &mut Scene<'_>, wish: ShopWish) {
    scene.ask(Action::Shop(wish));
}

/// What a folder would show, and the way to one.
fn no_folder(ui: &mut Ui, scene: &mut Scene<'_>) {
    let words = scene.words();
    let width = ui.available_width().min(NO_FOLDER);
    let mut middle = ui.available_rect_before_wrap();
    middle.min.x += (middle.width() - width) / 2.0;
    middle.min.y += GAP;
    middle.set_width(width);
    ui.scope_builder(egui::UiBuilder::new().max_rect(middle), |ui| {
        theme::card(scene.palette).show(ui, |ui| {
            ui.spacing_mut().item_spacing.y = 8.0;
            title(ui, words.shop_choose_title());
            ui.label(words.shop_choose_text());
            if main_button(ui, scene.palette, words.shop_choose(), true).clicked() {
                ask(scene, ShopWish::Choose);
            }
            ui.separator();
            for (page, shows) in [
                (words.shop_page_presses(), words.shop_presses_show()),
                (words.shop_page_find(), words.shop_find_shows()),
                (words.upkeep_page(), words.shop_upkeep_shows()),
            ] {
                ui.label(strong(page));
                ui.label(shows);
            }
        });
    });
}

/// The bar: pages as tabs on the left and the way back on the right; one after
/// the other where the window is narrow.
fn heading(ui: &mut Ui, scene: &mut Scene<'_>) {
    let narrow = ui.available_width() < NARROW;
    let row = Layout::left_to_right(Align::Center).with_main_wrap(narrow);
    let room = Vec2::new(ui.available_width(), TARGET + 4.0);
    ui.allocate_ui_with_layout(room, row, |ui| {
        let words = scene.words();
        ui.label(RichText::new(words.shop_title()).font(theme::bold(size::TITLE)));
        ui.add_space(6.0);
        if scene.shop.folder.is_some() {
            tabs(ui, scene);
        }
        if narrow {
            back(ui, scene);
            return;
        }
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            back(ui, scene);
        });
    });
}

fn back(ui: &mut Ui, scene: &mut Scene<'_>) {
    if button(ui, scene.words().shop_back()).clicked() {
        scene.view.shop.page = ShopPage::Presses;
        scene.ask(Action::Close);
    }
}

fn tabs(ui: &mut Ui, scene: &mut Scene<'_>) {
    let words = scene.words();
    let uncounted = scene.shop.shop.unread.len() + scene.shop.shop.closed.len();
    for (page, text) in [
        (ShopPage::Presses, words.shop_page_presses().to_owned()),
        (ShopPage::Find, words.shop_page_find().to_owned()),
        (ShopPage::Upkeep, words.upkeep_page().to_owned()),
        (ShopPage::Folder, words.shop_page_folder(uncounted)),
    ] {
        let now = &scene.view.shop.page;
        let of_presses = matches!(now, ShopPage::Press(_)) && page == ShopPage::Presses;
        if tab(ui, scene.palette, of_presses || *now == page, &text).clicked() {
            ask(scene, ShopWish::Show(page));
        }
    }
}

/// How the reading of the folder stands, where it is not simply read.
fn state(ui: &mut Ui, scene: &Scene<'_>) {
    let words = scene.words();
    let shop = scene.shop;
    if let Some(problem) = shop.closed {
        let why = words.shop_closed(words.disk_refusal(problem));
        ui.label(RichText::new(format!("⚠ {why}")).color(scene.palette.caution));
    }
    match shop.progress {
        // Of a shop on show nothing moves under a pointer when it is read again.
        Some(progress) if !shop.read => {
            ui.label(words.shop_reading(progress.read, progress.of));
            let share = progress.read as f32 / progress.of.max(1) as f32;
            let bar = egui::ProgressBar::new(share).fill(scene.palette.present);
            ui.add(bar.desired_height(8.0));
        }
        None if shop.folder.is_some() && !shop.read && shop.closed.is_none() => {
            ui.label(words.shop_reading_begins());
        }
        _ => {}
    }
}
