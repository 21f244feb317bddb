//! Carries out a change on a copy of the session.

use crate::press::{Arm, ArmIndex, Notches};
use crate::units::{Sign, TypedLength, Unit};

use super::edit::{Edit, EditProblem};
use super::{By, MarkKind, Pass, Session};

mod arms;
mod cells;
mod fields;

impl Session {
    /// The session after a change; this one stays as it is.
    ///
    /// # Errors
    /// Why the change was refused.
    pub fn edited(&self, edit: &Edit) -> Result<Self, EditProblem> {
        let mut session = self.clone();
        let nobody = By::default();
        let (change, by) = match edit {
            Edit::Noted { change, by } => (&**change, by),
            change => (change, &nobody),
        };
        session.carry_out(change)?;
        session.lapse_since(self);
        session.trace_since(self, by);
        session.check()?;
        Ok(session)
    }

    fn carry_out(&mut self, edit: &Edit) -> Result<(), EditProblem> {
        match edit {
            // Who and when are the business of the trace.
            Edit::Noted { change, .. } => self.carry_out(change)?,
            Edit::Enter {
                pass,
                station,
                repeat,
                text,
                bare,
            } => self.enter((*pass, *station, *repeat), text, *bare)?,
            Edit::Fill {
                pass,
                station,
                repeat,
                rows,
                bare,
            } => self.fill(*pass, *station, *repeat, rows, *bare)?,
            Edit::TakeLikely { pass, readings } => self.take_likely(*pass, readings)?,
            Edit::KeepDoubtful { pass, readings, by } => self.keep_doubtful(*pass, readings, by)?,
            Edit::Strike {
                pass,
                station,
                repeat,
                struck,
            } => self.strike((*pass, *station, *repeat), Some(struck.clone()))?,
            Edit::Unstrike {
                pass,
                station,
                repeat,
            } => self.strike((*pass, *station, *repeat), None)?,
            Edit::EnterBelt {
                pass,
                station,
                text,
                bare,
            } => self.enter_belt(*pass, *station, text, *bare)?,
            Edit::SetWalk { pass, walk } => self.pass_mut(*pass)?.walk = *walk,
            Edit::SetFlipped { pass, flipped } => self.pass_mut(*pass)?.flipped = *flipped,
            Edit::SetAcceptedBy(by) => self.acceptance.by = *by,
            Edit::SetGaugeKind(kind) => self.gauge.kind = *kind,
            Edit::StartFromPreset(preset) => self.gauge.start_from(preset),
            Edit::SetRepeatability(scatter) => self.gauge.repeatability.clone_from(scatter),
            Edit::SetLacingScatter(scatter) => self.lacing_scatter.clone_from(scatter),
            Edit::Together(edits) => edits.iter().try_for_each(|edit| self.carry_out(edit))?,
            Edit::AddPass { turns, laced } => self.add_pass(turns, laced),
            Edit::InsertPass { at } => self.insert_pass(*at)?,
            Edit::DeletePass { pass } => self.delete_pass(*pass)?,
            Edit::SetNut {
                pass,
                arm,
                position,
            } => {
                let nuts = match pass {
                    Some(pass) => &mut self.pass_mut(*pass)?.nuts,
                    None => &mut self.start_nuts,
                };
                *nuts.get_mut(arm.0).ok_or(EditProblem::NothingThere)? = *position;
            }
            Edit::LoseNuts(arms) => self.lose_nuts(arms)?,
            Edit::FindNut { arm, position } => self.find_nut(*arm, *position)?,
            Edit::SetHandle { pass, text, bare } => self.set_handle(*pass, text, *bare)?,
            Edit::SetJawAndRods(known) => self.jaw_and_rods = *known,
            Edit::SetKnownResponse(response) => self.known_response.clone_from(response),
            Edit::ForgetEarlier => self.earlier.clear(),
            Edit::SetPassText { pass, note, text } => {
                let pass = self.pass_mut(*pass)?;
                let place = if *note {
                    &mut pass.note
                } else {
                    &mut pass.laced
                };
                place.clone_from(text);
            }
            Edit::Set { field, text, bare } => self.set(*field, text, *bare)?,
            Edit::SetUnit(unit) => self.unit = *unit,
            Edit::SetLimits { arm, limits } => match arm {
                Some(arm) => self.arm_mut(*arm)?.limits = *limits,
                None => (self.press.arms.iter_mut()).for_each(|arm| arm.limits = *limits),
            },
            Edit::AddArm { text, bare } => self.add_arm(text, *bare)?,
            Edit::RemoveArm(arm) => self.remove_arm(*arm)?,
            Edit::AddStation { text, bare } => self.add_station(text, *bare)?,
            Edit::RemoveStation(station) => self.remove_station(*station)?,
            Edit::SetCounts { station, counts } => {
                let station = self.stations.get_mut(*station);
                station.ok_or(EditProblem::NothingThere)?.counts = *counts;
            }
            Edit::Tick {
                steps,
                who,
                when,
                note,
            } => self.mark_steps(steps, MarkKind::Done, [who, when, note])?,
            Edit::Untick(step) => self.unmark_step(*step)?,
            Edit::Skip {
                steps,
                reason,
                who,
                when,
            } => self.mark_steps(steps, MarkKind::Skipped, [who, when, reason])?,
            Edit::AddStep { stage, text } => self.add_own_step(*stage, text)?,
            Edit::HideStep(step) => self.set_hidden(*step, true)?,
            Edit::ShowStep(step) => self.set_hidden(*step, false)?,
            Edit::SetLeftHandThread(left) => self.press.left_hand_thread = Some(*left),
        }
        Ok(())
    }

    pub(super) fn pass_mut(&mut self, pass: usize) -> Result<&mut Pass, EditProblem> {
        self.passes.get_mut(pass).ok_or(EditProblem::NothingThere)
    }

    pub(super) fn arm_mut(&mut self, arm: ArmIndex) -> Result<&mut Arm, EditProblem> {
        self.press
            .arms
            .get_mut(arm.0)
            .ok_or(EditProblem::NothingThere)
    }

    pub(super) fn add_pass(&mut self, turns: &[Notches], laced: &str) {
        let nuts = self
            .nuts_now()
            .iter()
            .zip(turns.iter().chain(std::iter::repeat(&Notches(0))))
            .map(|(nut, turn)| *nut + *turn)
            .collect();
        let mut pass = Pass::unread(nuts, self.stations.len());
        pass.nut_lost = !self.lost.is_empty();
        laced.clone_into(&mut pass.laced);
        self.passes.push(pass);
    }

    fn insert_pass(&mut self, at: usize) -> Result<(), EditProblem> {
        if at > self.passes.len() {
            return Err(EditProblem::NothingThere);
        }
        let nuts = match at.checked_sub(1) {
            Some(before) => self.nuts_at(before).to_vec(),
            None => self.start_nuts.clone(),
        };
        self.passes
            .insert(at, Pass::unread(nuts, self.stations.len()));
        Ok(())
    }

    /// Records a move of the handle; an empty text takes it back.
    pub(super) fn set_handle(
        &mut self,
        pass: usize,
        text: &str,
        bare: Unit,
    ) -> Result<(), EditProblem> {
        let handle = match text.trim() {
            "" => None,
            text => {
                Some(TypedLength::parse(text, bare, Sign::Either).map_err(EditProblem::Handle)?)
            }
        };
        self.pass_mut(pass)?.handle = handle;
        Ok(())
    }

    /// What the handle moved before a pass that goes is moved before the next.
    pub(super) fn delete_pass(&mut self, pass: usize) -> Result<(), EditProblem> {
        let gone = self.pass_mut(pass)?.handle.clone();
        self.passes.remove(pass);
        if let (Some(gone), Some(next)) = (gone, self.passes.get_mut(pass)) {
            next.handle = Some(match &next.handle {
                Some(own) => TypedLength::from_length(own.length().plus(gone.length()), own.unit()),
                None => gone,
            });
        }
        Ok(())
    }
}
