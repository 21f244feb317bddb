//! The shop while it is on show.

use crate::shop::{PressBook, PressOrder, Taught, Wanted};
use crate::units::Length;

use super::upkeep::UpkeepView;

/// Which press of the shop: its name and the places of its arms.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PressKey {
    /// Its name.
    pub name: String,
    /// Positions of its arms.
    pub arms: Vec<Length>,
}

impl PressKey {
    /// The press of a book.
    pub fn of(book: &PressBook) -> Self {
        Self {
            name: book.press.clone(),
            arms: book.arms.clone(),
        }
    }

    /// Whether a book is this press's.
    pub fn is_of(&self, book: &PressBook) -> bool {
        self.name == book.press && self.arms == book.arms
    }
}

/// What of the shop is on show.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub enum ShopPage {
    /// Every press, the one that is due first on top.
    #[default]
    Presses,
    /// Finding visits.
    Find,
    /// The folder, and files of it that could not be read.
    Folder,
    /// What is due at every press, and the shop's tasks.
    Upkeep,
    /// The book of a press.
    Press(PressKey),
}

/// The passing state of the shop's views.
#[derive(Debug, Default)]
pub struct ShopView {
    /// Whether it fills the window.
    pub open: bool,
    /// What is on show.
    pub page: ShopPage,
    /// In what order presses are shown.
    pub order: PressOrder,
    /// What is looked for.
    pub wanted: Wanted,
    /// Set when the search box is to have the keyboard.
    pub wants_focus: bool,
    /// What the sessions of a press taught, once it is worked out.
    pub taught: Option<(PressKey, Option<Box<Taught>>)>,
    /// The press that is being worked out.
    pub asked: Option<PressKey>,
    /// The upkeep page.
    pub upkeep: UpkeepView,
}

impl ShopView {
    /// Leaves the page for the one before it, the first for the session.
    pub fn leave(&mut self) {
        match self.page {
            ShopPage::Presses => self.open = false,
            _ => self.page = ShopPage::Presses,
        }
    }
}
