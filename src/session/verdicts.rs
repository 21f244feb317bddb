//! How likely this piece and this press are inside the tolerance, what that
//! makes of them at the shop's confidence, and what would settle it.

use crate::plan::{
    FurtherReadings, MOST_REPEATS, Noise, POOR, Piece, PlanError, Posterior, PredictiveScratch,
    Settled, press_chances, settled_by_lacings,
};
use crate::splice::{ENOUGH, GAUGE_PRESETS, Judging, ReadStation, Settling, Verdict, settling};
use crate::units::Length;

use super::belief::{BeliefMemo, Known};
use super::{Acceptance, AcceptedBy, Confidence, PlanningProblem, PriorShelf, Session};

/// Most further lacings that are asked for to settle a verdict on the press.
const MOST_LACINGS: usize = 5;

/// Chance of being inside the tolerance, and what it is called.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Judgement {
    /// Chance of being inside, 0 to 1.
    pub chance: f64,
    /// What that is called at the confidence.
    pub verdict: Verdict,
}

impl Judgement {
    /// A chance, judged at a confidence.
    pub fn at(chance: f64, confidence: Confidence) -> Self {
        Self {
            chance,
            verdict: Verdict::at(chance, confidence.share()),
        }
    }
}

/// What may settle a verdict, as far as it is worked out: it takes longer than
/// all else that is said of a pass.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SettledBy {
    /// Further readings of the piece with the present gauge. What else would
    /// settle a verdict is then unknown.
    Readings,
    /// Those, a finer gauge, further lacings.
    Anything,
}

/// The verdicts on a pass.
#[derive(Debug, Clone, PartialEq)]
pub struct Verdicts {
    /// At what confidence they are given.
    pub confidence: Confidence,
    /// This piece, over its counting stations that were read: only the error
    /// of its readings is in doubt. It is never called inside before all of
    /// them are read.
    pub piece: Judgement,
    /// The jaws as they stand: the press's mean profile over many pieces, with
    /// what gauge, lacing and belt ends leave open.
    pub press: Judgement,
    /// The next piece with the nuts as they stand: its chance of being inside,
    /// which is what a crew feels. The mean profile may well be inside where
    /// many a piece is not, for pieces scatter about it.
    pub next_piece: f64,
    /// What would settle the verdict on this piece.
    pub settles_piece: Settling,
    /// What would settle the verdict on this press.
    pub settles_press: Settling,
}

impl Verdicts {
    /// The chance of the next piece where it is more likely outside than
    /// inside: to be said of a piece that passes all the same.
    pub fn poor_next_piece(&self) -> Option<f64> {
        (self.next_piece < POOR).then_some(self.next_piece)
    }
}

/// Memory for judging, kept from call to call.
#[derive(Debug, Default)]
pub struct VerdictWorkspace {
    memo: BeliefMemo,
    scratch: PredictiveScratch,
}

impl Session {
    /// The verdicts on a pass, from its readings and from what the passes
    /// before it and earlier visits taught. Deterministic; the shelf and the
    /// workspace save time and change nothing.
    ///
    /// # Errors
    /// See [`PlanningProblem`].
    pub fn verdicts(
        &self,
        pass: usize,
        confidence: Confidence,
        settled_by: SettledBy,
        shelf: &PriorShelf,
        workspace: &mut VerdictWorkspace,
    ) -> Result<Verdicts, PlanningProblem> {
        // Without sound readings at two stations there is nothing to judge.
        let gate = self.gate(pass);
        if gate.spread.is_none() || !gate.doubtful.is_empty() {
            return Err(PlanningProblem::NotClear(Box::new(gate)));
        }
        let Known {
            passes, posterior, ..
        } = self.known_after(pass, shelf, &mut workspace.memo)?;
        let counting = self.counting_stations(&passes);
        let piece = Piece::last(&posterior, &counting, &mut workspace.scratch.kept);
        let piece = piece.ok_or(PlanError::NothingCounts)?;
        Ok(self.verdicts_from(
            pass,
            confidence,
            settled_by,
            &piece,
            &posterior,
            &counting,
            &mut workspace.scratch,
            &|| true,
        )?)
    }

    /// The same from what was already learnt from the passes up to this one.
    // Each is a step of its own before.
    #[allow(clippy::too_many_arguments)]
    pub(super) fn verdicts_from(
        &self,
        pass: usize,
        confidence: Confidence,
        settled_by: SettledBy,
        piece: &Piece,
        posterior: &Posterior,
        counting: &[usize],
        scratch: &mut PredictiveScratch,
        go_on: &dyn Fn() -> bool,
    ) -> Result<Verdicts, PlanError> {
        let tolerance_nm = self.tolerance.length().nm_f64();
        let chance = piece.chance_as_read(tolerance_nm);
        let chance = chance.ok_or(PlanError::NothingCounts)?;
        let (this_press, next_piece) = press_chances(posterior, counting, tolerance_nm, scratch)?;
        let all = self.counting().count();
        let (piece_judged, settles_piece) = if piece.stations().len() < all {
            so_far(chance, confidence)
        } else {
            let judged = Judgement::at(chance, confidence);
            let settles = self.settles_piece(pass, judged, confidence, settled_by, piece, go_on);
            (judged, settles)
        };
        let (press_judged, settles_press) = if counting.len() < all {
            so_far(this_press, confidence)
        } else {
            let judged = Judgement::at(this_press, confidence);
            let settles = match (judged.verdict, settled_by) {
                (Verdict::TooClose, SettledBy::Readings) => Settling::Unknown,
                (Verdict::TooClose, SettledBy::Anything) => {
                    self.settles_press(confidence, posterior, counting, scratch)?
                }
                (settled, _) => Settling::Settled(settled),
            };
            (judged, settles)
        };
        Ok(Verdicts {
            confidence,
            piece: piece_judged,
            press: press_judged,
            next_piece,
            settles_piece,
            settles_press,
        })
    }

    /// What would settle the verdict on a piece, with the gauges of the
    /// library in the session's unit at hand.
    fn settles_piece(
        &self,
        pass: usize,
        judged: Judgement,
        confidence: Confidence,
        settled_by: SettledBy,
        piece: &Piece,
        go_on: &dyn Fn() -> bool,
    ) -> Settling {
        let at_hand = GAUGE_PRESETS
            .iter()
            .filter(|preset| preset.unit == self.unit && settled_by == SettledBy::Anything);
        let steps: Vec<Length> = at_hand.map(|preset| preset.step).collect();
        let Some(laced) = self.passes.get(pass) else {
            return Settling::Unknown;
        };
        let profile = laced.profile();
        let stations: Vec<ReadStation> = piece
            .stations()
            .iter()
            .filter_map(|&station| {
                let mean = profile.at(station)?;
                Some(ReadStation {
                    station,
                    mean_nm: mean.mean.nm_f64(),
                    repeats: mean.repeats,
                })
            })
            .collect();
        let judging = Judging {
            stations: &stations,
            step: self.gauge.step.length(),
            verdict: judged.verdict,
        };
        let noise = self.noise();
        let variance = |finer: Option<Length>, repeats: usize| {
            let repeats = u32::try_from(repeats)
                .unwrap_or(MOST_REPEATS)
                .min(MOST_REPEATS);
            finer
                .map_or(noise, |step| Noise::assumed(step.nm_f64()))
                .reading_variance(repeats)
        };
        let settled = Settled {
            tolerance_nm: self.tolerance.length().nm_f64(),
            confidence: confidence.share(),
            enough: ENOUGH,
        };
        let further = FurtherReadings::of(piece);
        let settling = settling(&judging, &steps, variance, |deviations| {
            go_on().then(|| further.settle(deviations, &settled))?
        });
        match (settling, settled_by) {
            (Settling::AtTheLimit, SettledBy::Readings) => Settling::Unknown,
            (settling, _) => settling,
        }
    }

    /// The fewest further lacings, read alike, that settle the verdict on the
    /// press.
    fn settles_press(
        &self,
        confidence: Confidence,
        posterior: &Posterior,
        counting: &[usize],
        scratch: &mut PredictiveScratch,
    ) -> Result<Settling, PlanError> {
        let settled = Settled {
            tolerance_nm: self.tolerance.length().nm_f64(),
            confidence: confidence.share(),
            enough: ENOUGH,
        };
        for lacings in 1..=MOST_LACINGS {
            let cases = settled_by_lacings(posterior, counting, lacings, &settled, scratch)?;
            if cases >= ENOUGH {
                return Ok(Settling::FurtherLacings { lacings, cases });
            }
        }
        Ok(Settling::AtTheLimit)
    }
}

/// The verdict while stations that count are not read: they may be outside, so
/// nothing is inside yet.
fn so_far(chance: f64, confidence: Confidence) -> (Judgement, Settling) {
    let judged = Judgement::at(chance, confidence);
    match judged.verdict {
        Verdict::Outside => (judged, Settling::Settled(Verdict::Outside)),
        Verdict::Inside | Verdict::TooClose => (
            Judgement {
                verdict: Verdict::TooClose,
                ..judged
            },
            Settling::Unknown,
        ),
    }
}

impl Acceptance {
    /// Whether a piece passes: inside by plain comparison, and, where the shop
    /// asks for it, inside with its confidence. A chance that could not be
    /// reckoned is no confidence.
    pub fn accepts(self, inside_plainly: bool, chance: Option<f64>) -> bool {
        inside_plainly
            && match self.by {
                AcceptedBy::PlainComparison => true,
                AcceptedBy::Confidence => chance.is_some_and(|chance| {
                    Judgement::at(chance, self.confidence).verdict == Verdict::Inside
                }),
            }
    }
}
