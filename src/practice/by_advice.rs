//! How whoever follows the program's advice on the nuts would have done.

use crate::session::{Stands, Wishes};

use super::acts::Act;
use super::debrief::DebriefDesk;
use super::exercise::{Exercise, ExerciseProblem};
use super::ways::{Games, MOST_PIECES_PLAYED, SCATTERS, Way};
use super::work::{Practice, READINGS_IN_A_PIECE};

/// Plays the advice until a piece is inside, measured with care, nothing but
/// nuts seen to.
pub(super) fn by_advice(
    exercise: &Exercise,
    desk: &mut DebriefDesk,
) -> Result<Way, ExerciseProblem> {
    let begun = Practice::begin(exercise.clone(), String::new(), String::new())?;
    let mut games = Games::default();
    for luck in 1..=SCATTERS {
        let mut practice = begun.clone().with_luck(luck);
        let passed = (0..MOST_PIECES_PLAYED).any(|piece| {
            // Nothing of this is refused to an exercise that was begun.
            let _ = practice.act(Act::Lace { flipped: false });
            let _ = practice.measure(READINGS_IN_A_PIECE);
            let session = practice.clear_notebook(piece);
            if session.gate(piece).stands == Stands::Inside {
                return true;
            }
            let (shelf, workspace) = (&desk.shelf, &mut desk.workspace);
            let advice = session.advise(piece, Wishes::default(), shelf, workspace);
            if let Some(advice) = advice.ok().filter(|_| piece + 1 < MOST_PIECES_PLAYED) {
                let _ = practice.act(Act::MakeSafe);
                let _ = practice.act(Act::Turn(advice.recommended().turns.clone()));
            }
            false
        });
        games.add(practice.pieces().len(), practice.minutes(), passed);
    }
    Ok(games.way())
}
