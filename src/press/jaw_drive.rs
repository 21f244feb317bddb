//! What drives the moving jaw, as far as it is noted.

/// The parts that drive the jaw along its length, in the shop's own words:
/// presses differ in them.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct JawDrive {
    /// The parts as found on this visit; empty until noted.
    pub parts: String,
    /// The parts as found on the visit before; empty where none were noted.
    pub parts_before: String,
}

impl JawDrive {
    /// The drive at the start of the next visit: what was noted last is there
    /// to be compared with.
    pub fn for_next_visit(&self) -> Self {
        let noted = if self.parts.is_empty() {
            &self.parts_before
        } else {
            &self.parts
        };
        Self {
            parts: String::new(),
            parts_before: noted.clone(),
        }
    }

    /// Whether what is noted now is not what was noted on the visit before.
    pub fn differs(&self) -> bool {
        !self.parts.is_empty() && !self.parts_before.is_empty() && self.parts != self.parts_before
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_next_visit_is_compared_with_what_was_noted_last() {
        let as_noted = |parts: &str, parts_before: &str| JawDrive {
            parts: parts.to_owned(),
            parts_before: parts_before.to_owned(),
        };
        let first = as_noted("2 chains", "");
        assert!(!first.differs());
        let second = first.for_next_visit();
        assert_eq!(second, as_noted("", "2 chains"));
        assert!(!second.differs());
        // A visit on which nobody looked loses nothing.
        assert_eq!(second.for_next_visit(), second);
        assert!(!as_noted("2 chains", "2 chains").differs());
        assert!(as_noted("1 chain", "2 chains").differs());
    }
}
