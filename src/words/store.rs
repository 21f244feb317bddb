//! TEMPORARY
use super::Figures;
use crate::store::{DiskProblem, OpenProblem, SaveProblem};
use std::path::Path;
impl Figures {
    /// x
    pub fn open_problem(&self, p: &OpenProblem, path: &Path) -> String {
        format!("{p:?} {}", path.display())
    }
    /// x
    pub fn save_problem(&self, p: &SaveProblem, path: &Path) -> String {
        format!("{p:?} {}", path.display())
    }
    /// x
    pub fn disk_problem(&self, p: DiskProblem, path: &Path) -> String {
        format!("{p:?} {}", path.display())
    }
}
