//! Fields being typed in that are not taken yet.

use std::collections::BTreeMap;

/// Fields being typed in, by name; what is not among them shows the document.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Drafts {
    pub texts: BTreeMap<String, String>,
    /// The field that has the keyboard, or had it last.
    pub at_hand: Option<String>,
}

impl Drafts {
    /// Keeps a text that waits for other fields.
    pub(crate) fn keep(&mut self, key: &str, text: &str) {
        self.texts.insert(key.to_owned(), text.to_owned());
    }

    /// A text that waits for other fields.
    pub(crate) fn kept(&self, key: &str) -> Option<String> {
        self.texts.get(key).cloned()
    }

    /// Forgets every text whose key begins like this.
    pub(crate) fn forget(&mut self, beginning: &str) {
        self.texts.retain(|key, _| !key.starts_with(beginning));
    }
}
