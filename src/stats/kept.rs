//! Draws and tables that come out the same every time, kept from call to call.

use std::sync::Arc;

use super::draws::{KeptCube, Purpose};
use super::even_range::EvenRange;

/// What was drawn and tabulated so far. It saves time and changes nothing.
#[derive(Debug, Clone, Default)]
pub struct Kept {
    cubes: Vec<KeptCube>,
    range: Option<Arc<EvenRange>>,
}

impl Kept {
    /// The hypercube of so many joint draws for a purpose.
    pub fn cube(&mut self, count: usize, purpose: Purpose) -> &mut KeptCube {
        let found = self
            .cubes
            .iter()
            .position(|cube| cube.is_for(count, purpose));
        let place = found.unwrap_or_else(|| {
            self.cubes.push(KeptCube::new(count, purpose));
            self.cubes.len() - 1
        });
        &mut self.cubes[place]
    }

    /// The table of ranges.
    pub fn range(&mut self) -> Arc<EvenRange> {
        Arc::clone(self.range.get_or_insert_with(Arc::default))
    }
}
