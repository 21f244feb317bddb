//! Keeps what is believed of a geometry's response, which costs some thousand
//! beam solutions to find, for every session of the same geometry.

use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use crate::plan::{Layout, PlanError, PriorDraws, ResponsePrior, Stiffness};

/// Most geometries kept; of more, the one asked for longest ago goes.
const MOST_KEPT: usize = 32;

/// Geometries with what is believed of their response. One shelf serves any
/// number of threads; the answer does not depend on which of them asks first.
#[derive(Debug, Default)]
pub struct PriorShelf {
    /// The one asked for last stands last.
    places: Mutex<Vec<Place>>,
    draws: PriorDraws,
}

/// A geometry; empty while a first thread works the prior out.
type Slot = Arc<Mutex<Option<Arc<ResponsePrior>>>>;

#[derive(Debug)]
struct Place {
    geometry: Geometry,
    slot: Slot,
}

/// What a prior depends on.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Geometry {
    pub layout: Layout,
    pub effects_nm: Vec<f64>,
    pub stiffness: Stiffness,
}

impl PriorShelf {
    /// The prior of a geometry, from the shelf or worked out and put there.
    /// Threads that ask for other geometries meanwhile are not held up.
    pub(super) fn prior(&self, geometry: &Geometry) -> Result<Arc<ResponsePrior>, PlanError> {
        let slot = self.slot(geometry);
        let mut kept = lock(&slot);
        if let Some(prior) = &*kept {
            return Ok(Arc::clone(prior));
        }
        let Geometry {
            layout,
            effects_nm,
            stiffness,
        } = geometry;
        let draws = &self.draws;
        let prior = ResponsePrior::from_layout(layout, effects_nm, *stiffness, draws)?;
        let prior = Arc::new(prior);
        *kept = Some(Arc::clone(&prior));
        Ok(prior)
    }

    fn slot(&self, geometry: &Geometry) -> Slot {
        let mut places = lock(&self.places);
        let place = match places.iter().position(|place| place.geometry == *geometry) {
            Some(index) => places.remove(index),
            None => Place {
                geometry: geometry.clone(),
                slot: Slot::default(),
            },
        };
        let slot = Arc::clone(&place.slot);
        if places.len() >= MOST_KEPT {
            places.remove(0);
        }
        places.push(place);
        slot
    }
}

/// Whoever panicked while holding the lock left nothing half done: a slot is
/// filled in one step.
fn lock<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn geometry(effect_nm: f64) -> Geometry {
        let arms = [1e8, 4e8];
        Geometry {
            layout: Layout::new((0.0, 5e8), &arms, &arms).unwrap(),
            effects_nm: vec![effect_nm; 2],
            stiffness: Stiffness::Unknown,
        }
    }

    #[test]
    fn keeps_the_ones_asked_for_last() {
        let shelf = PriorShelf::default();
        let first = shelf.prior(&geometry(1e5)).unwrap();
        for number in 1..MOST_KEPT + 5 {
            shelf.prior(&geometry(1e5 + number as f64)).unwrap();
            // Asked for again and again, it stays the same one.
            assert!(Arc::ptr_eq(&first, &shelf.prior(&geometry(1e5)).unwrap()));
        }
        assert_eq!(lock(&shelf.places).len(), MOST_KEPT);
        assert!(shelf.prior(&geometry(0.0)).is_err());
    }

    #[test]
    fn two_threads_share_one() {
        let shelf = PriorShelf::default();
        let ask = || shelf.prior(&geometry(1e5)).unwrap();
        let (one, other) = std::thread::scope(|scope| {
            let one = scope.spawn(ask);
            let other = scope.spawn(ask);
            (one.join().unwrap(), other.join().unwrap())
        });
        assert!(Arc::ptr_eq(&one, &other));
    }
}
