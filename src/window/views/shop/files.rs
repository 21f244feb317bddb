//! Files of the folder that are not counted: those that cannot be read, each
//! with why and what to do; and practice, which is in order.

use eframe::egui::{CollapsingHeader, RichText, Ui};

use crate::store::OpenProblem;
use crate::window::shop::ShopWish;
use crate::window::theme::{self, size};
use crate::window::views::Scene;
use crate::window::views::widgets::{muted, named_button, strong};

use super::ask;

/// Draws the page.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>) {
    let words = scene.words();
    let figures = scene.figures;
    let shop = std::sync::Arc::clone(&scene.shop.shop);
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
    let all: Vec<(&String, String, &str)> = closed.chain(unread).collect();
    if all.is_empty() {
        ui.label(strong(format!("✓ {}", words.shop_all_counted())));
    } else {
        ui.label(strong(words.shop_unreadable()));
    }
    for (name, why, act) in all {
        theme::card(scene.palette).show(ui, |ui| {
            ui.set_width(ui.available_width());
            ui.label(RichText::new(format!("⚠ {name}")).font(theme::bold(size::BODY)));
            if !why.is_empty() {
                ui.label(why);
            }
            ui.label(act);
            let said = words.shop_copy_path_of(name);
            if named_button(ui, words.shop_copy_path(), &said) {
                ask(scene, ShopWish::CopyPath(name.clone()));
            }
        });
    }
    if !shop.practice.is_empty() {
        let heading = words.shop_practice_files(shop.practice.len());
        CollapsingHeader::new(muted(scene.palette, heading))
            .id_salt("practice")
            .show(ui, |ui| {
                for name in &shop.practice {
                    ui.label(muted(scene.palette, name));
                }
            });
    }
}
