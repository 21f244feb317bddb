//! Carries out a change on a copy of the session.

use crate::plan::Minutes;
use crate::press::{Arm, ArmIndex, CountQuantity, LengthQuantity, Notches, NutPosition};
use crate::splice::{Cell, Reading, Station, StationPlace};
use crate::units::{Length, Sign, TypedLength, Unit};

use super::edit::{Edit, EditProblem, Field};
use super::{By, Confidence, IsoDate, KnownScatter, MarkKind, Pass, Session, SessionProblem};

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
            Edit::Noted { change, .. } => self.carry_out(change),
            Edit::Enter {
                pass,
                station,
                repeat,
                text,
                bare,
            } => {
                let cell = read_cell(text, *bare);
                *self.cell_mut(*pass, *station, *repeat)? = cell;
                self.trim_row(*pass, *station);
                Ok(())
            }
            Edit::Fill {
                pass,
                station,
                repeat,
                rows,
                bare,
            } => self.fill(*pass, *station, *repeat, rows, *bare),
            Edit::TakeLikely { pass, readings } => self.take_likely(*pass, readings),
            Edit::KeepDoubtful { pass, readings, by } => self.keep_doubtful(*pass, readings, by),
            Edit::Strike {
                pass,
                station,
                repeat,
                struck,
            } => self.strike((*pass, *station, *repeat), Some(struck.clone())),
            Edit::Unstrike {
                pass,
                station,
                repeat,
            } => self.strike((*pass, *station, *repeat), None),
            Edit::EnterBelt {
                pass,
                station,
                text,
                bare,
            } => self.enter_belt(*pass, *station, text, *bare),
            Edit::SetWalk { pass, walk } => {
                self.pass_mut(*pass)?.walk = *walk;
                Ok(())
            }
            Edit::SetFlipped { pass, flipped } => {
                self.pass_mut(*pass)?.flipped = *flipped;
                Ok(())
            }
            Edit::SetAcceptedBy(by) => {
                self.acceptance.by = *by;
                Ok(())
            }
            Edit::SetGaugeKind(kind) => {
                self.gauge.kind = *kind;
                Ok(())
            }
            Edit::StartFromPreset(preset) => {
                self.gauge.start_from(preset);
                Ok(())
            }
            Edit::SetRepeatability(scatter) => {
                self.gauge.repeatability.clone_from(scatter);
                Ok(())
            }
            Edit::SetLacingScatter(scatter) => {
                self.lacing_scatter.clone_from(scatter);
                Ok(())
            }
            Edit::Together(edits) => edits.iter().try_for_each(|edit| self.carry_out(edit)),
            Edit::AddPass { turns, laced } => self.add_pass(turns, laced),
            Edit::InsertPass { at } => self.insert_pass(*at),
            Edit::DeletePass { pass } => self.delete_pass(*pass),
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
                Ok(())
            }
            Edit::SetHandle { pass, text, bare } => self.set_handle(*pass, text, *bare),
            Edit::SetJawAndRods(known) => {
                self.jaw_and_rods = *known;
                Ok(())
            }
            Edit::SetKnownResponse(response) => {
                self.known_response.clone_from(response);
                Ok(())
            }
            Edit::ForgetEarlier => {
                self.earlier.clear();
                Ok(())
            }
            Edit::SetPassText { pass, note, text } => {
                let pass = self.pass_mut(*pass)?;
                let place = if *note {
                    &mut pass.note
                } else {
                    &mut pass.laced
                };
                place.clone_from(text);
                Ok(())
            }
            Edit::Set { field, text, bare } => self.set(*field, text, *bare),
            Edit::SetUnit(unit) => {
                self.unit = *unit;
                Ok(())
            }
            Edit::SetLimits { arm, limits } => {
                match arm {
                    Some(arm) => self.arm_mut(*arm)?.limits = *limits,
                    None => self
                        .press
                        .arms
                        .iter_mut()
                        .for_each(|arm| arm.limits = *limits),
                }
                Ok(())
            }
            Edit::AddArm { text, bare } => self.add_arm(text, *bare),
            Edit::RemoveArm(arm) => self.remove_arm(*arm),
            Edit::AddStation { text, bare } => self.add_station(text, *bare),
            Edit::RemoveStation(station) => self.remove_station(*station),
            Edit::SetCounts { station, counts } => {
                self.stations
                    .get_mut(*station)
                    .ok_or(EditProblem::NothingThere)?
                    .counts = *counts;
                Ok(())
            }
            Edit::Tick {
                steps,
                who,
                when,
                note,
            } => self.mark_steps(steps, MarkKind::Done, [who, when, note]),
            Edit::Untick(step) => self.unmark_step(*step),
            Edit::Skip {
                steps,
                reason,
                who,
                when,
            } => self.mark_steps(steps, MarkKind::Skipped, [who, when, reason]),
            Edit::AddStep { stage, text } => self.add_own_step(*stage, text),
            Edit::HideStep(step) => self.set_hidden(*step, true),
            Edit::ShowStep(step) => self.set_hidden(*step, false),
            Edit::SetLeftHandThread(left) => {
                self.press.left_hand_thread = *left;
                Ok(())
            }
        }
    }

    pub(super) fn pass_mut(&mut self, pass: usize) -> Result<&mut Pass, EditProblem> {
        self.passes.get_mut(pass).ok_or(EditProblem::NothingThere)
    }

    fn arm_mut(&mut self, arm: ArmIndex) -> Result<&mut Arm, EditProblem> {
        self.press
            .arms
            .get_mut(arm.0)
            .ok_or(EditProblem::NothingThere)
    }

    pub(super) fn cell_mut(
        &mut self,
        pass: usize,
        station: usize,
        repeat: usize,
    ) -> Result<&mut Cell, EditProblem> {
        // The check of the whole session comes too late for a repeat number
        // that would first have to be filled up to.
        CountQuantity::Repeats
            .check((repeat + 1) as i64)
            .map_err(SessionProblem::Count)?;
        let row = self
            .pass_mut(pass)?
            .rows
            .get_mut(station)
            .ok_or(EditProblem::NothingThere)?;
        if row.len() <= repeat {
            row.resize(repeat + 1, Cell::Empty);
        }
        row.get_mut(repeat).ok_or(EditProblem::NothingThere)
    }

    fn trim_row(&mut self, pass: usize, station: usize) {
        if let Some(row) = self
            .passes
            .get_mut(pass)
            .and_then(|pass| pass.rows.get_mut(station))
        {
            while row.last() == Some(&Cell::Empty) {
                row.pop();
            }
        }
    }

    fn fill(
        &mut self,
        pass: usize,
        station: usize,
        repeat: usize,
        rows: &[Vec<String>],
        bare: Unit,
    ) -> Result<(), EditProblem> {
        let fit = self.stations.len().saturating_sub(station);
        if rows.len() > fit {
            return Err(EditProblem::TooManyRows {
                offered: rows.len(),
                fit,
            });
        }
        for (row, station) in rows.iter().zip(station..) {
            for (text, repeat) in row.iter().zip(repeat..) {
                *self.cell_mut(pass, station, repeat)? = read_cell(text, bare);
            }
            self.trim_row(pass, station);
        }
        Ok(())
    }

    fn add_pass(&mut self, turns: &[Notches], laced: &str) -> Result<(), EditProblem> {
        let nuts = self
            .nuts_now()
            .iter()
            .zip(turns.iter().chain(std::iter::repeat(&Notches(0))))
            .map(|(nut, turn)| *nut + *turn)
            .collect();
        let mut pass = Pass::unread(nuts, self.stations.len());
        laced.clone_into(&mut pass.laced);
        self.passes.push(pass);
        Ok(())
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

    fn set(&mut self, field: Field, text: &str, bare: Unit) -> Result<(), EditProblem> {
        let text = text.trim();
        let length = || {
            TypedLength::parse(text, bare, Sign::None)
                .map_err(|problem| EditProblem::Length(field, problem))
        };
        let optional = || {
            if text.is_empty() {
                Ok(None)
            } else {
                length().map(Some)
            }
        };
        let known = |sd| KnownScatter { sd, dof: None };
        match field {
            Field::PressName => text.clone_into(&mut self.press.name),
            Field::JawLength => self.press.jaw_length = length()?,
            Field::ArmPosition(arm) => {
                let position = length()?;
                self.arm_mut(arm)?.position = position;
                self.sort_stations();
            }
            Field::NotchEffect(arm) => self.arm_mut(arm)?.notch_effect = length()?,
            Field::NotchEffectOfAll => {
                let effect = length()?;
                for arm in &mut self.press.arms {
                    arm.notch_effect = effect.clone();
                }
            }
            Field::OpeningMargin(arm) => self.arm_mut(arm)?.opening_margin = optional()?,
            Field::NutTravel => self.press.nut_travel = optional()?,
            Field::Tolerance => self.tolerance = length()?,
            Field::GaugeName => text.clone_into(&mut self.gauge.name),
            Field::GaugeStep => self.gauge.step = length()?,
            Field::GaugeLimit => self.gauge.limit_of_error = optional()?,
            Field::GaugeRepeatability => self.gauge.repeatability = optional()?.map(known),
            Field::LacingScatter => self.lacing_scatter = optional()?.map(known),
            Field::CalibrationDue => {
                self.gauge.calibration_due = if text.is_empty() {
                    None
                } else {
                    Some(IsoDate::parse(text).map_err(EditProblem::Date)?)
                };
            }
            Field::Target => self.target = optional()?,
            Field::Confidence => {
                self.acceptance.confidence = if text.is_empty() {
                    Confidence::default()
                } else {
                    Confidence::parse(text)
                        .ok_or_else(|| EditProblem::Confidence(text.to_owned()))?
                };
            }
            Field::Effort(chore) => {
                let minutes = if text.is_empty() {
                    Some(chore.customary())
                } else {
                    Minutes::parse(text)
                };
                if !minutes.is_some_and(|minutes| self.effort.set(chore, minutes)) {
                    return Err(EditProblem::Minutes(chore, text.to_owned()));
                }
            }
            Field::CoarseGap(arm) => {
                let gap = optional()?;
                self.arm_mut(arm)?;
                self.set_coarse_gap(arm, gap);
            }
            Field::DriveParts => text.clone_into(&mut self.press.drive.parts),
            Field::Who => text.clone_into(&mut self.notes.who),
            Field::When => text.clone_into(&mut self.notes.when),
            Field::Belt => text.clone_into(&mut self.notes.belt),
            Field::Hooks => text.clone_into(&mut self.notes.hooks),
            Field::Notes => text.clone_into(&mut self.notes.notes),
            Field::Repaired => text.clone_into(&mut self.notes.repaired),
        }
        Ok(())
    }

    fn add_arm(&mut self, text: &str, bare: Unit) -> Result<(), EditProblem> {
        self.no_response_given()?;
        let position = TypedLength::parse(text, bare, Sign::None).map_err(EditProblem::Position)?;
        let at = self
            .press
            .arms
            .iter()
            .take_while(|arm| arm.position.length() < position.length())
            .count();
        let Some(like) = self.press.arms.first().cloned() else {
            return Err(EditProblem::NothingThere);
        };
        let station_there = self.stations.iter().position(|station| {
            station.arm().is_none() && station.position(&self.press) == position.length()
        });
        for station in &mut self.stations {
            if let StationPlace::Arm(arm) = &mut station.place
                && arm.0 >= at
            {
                arm.0 += 1;
            }
        }
        self.press.arms.insert(
            at,
            Arm {
                position,
                notch_effect: like.notch_effect,
                limits: like.limits,
                opening_margin: None,
            },
        );
        self.start_nuts.insert(at, NutPosition(0));
        self.make_room_for_gap(ArmIndex(at));
        for pass in &mut self.passes {
            pass.nuts.insert(at, NutPosition(0));
            pass.corrections.make_room_for_arm(at);
        }
        // Readings taken at this very place become the arm's own.
        match station_there.and_then(|index| self.stations.get_mut(index)) {
            Some(station) => station.place = StationPlace::Arm(ArmIndex(at)),
            None => {
                self.stations.push(Station::at_arm(ArmIndex(at)));
                self.push_unread_station();
            }
        }
        self.sort_stations();
        Ok(())
    }

    fn remove_arm(&mut self, arm: ArmIndex) -> Result<(), EditProblem> {
        self.arm_mut(arm)?;
        self.no_response_given()?;
        let station = self.stations.iter().position(|at| at.arm() == Some(arm));
        self.press.arms.remove(arm.0);
        self.start_nuts.remove(arm.0);
        self.drop_gap(arm);
        for pass in &mut self.passes {
            pass.nuts.remove(arm.0);
            pass.corrections.drop_arm(arm);
        }
        if let Some(station) = station {
            self.drop_station(station);
        }
        for station in &mut self.stations {
            if let StationPlace::Arm(index) = &mut station.place
                && index.0 > arm.0
            {
                index.0 -= 1;
            }
        }
        Ok(())
    }

    fn add_station(&mut self, text: &str, bare: Unit) -> Result<(), EditProblem> {
        self.no_response_given()?;
        let position = TypedLength::parse(text, bare, Sign::None).map_err(EditProblem::Position)?;
        let least_gap = LengthQuantity::ArmGap.bounds().least;
        let taken = self.stations.iter().any(|station| {
            let distance = station.position(&self.press).minus(position.length());
            Length::from_nm(distance.nm().abs()) < least_gap
        });
        if taken {
            return Err(EditProblem::StationAlreadyThere(position));
        }
        self.stations.push(Station {
            place: StationPlace::Between(position),
            counts: true,
        });
        self.push_unread_station();
        self.sort_stations();
        Ok(())
    }

    /// Gives every pass an unread row for a station that was just added.
    fn push_unread_station(&mut self) {
        for pass in &mut self.passes {
            pass.rows.push(Vec::new());
            if !pass.bare_belt.is_empty() {
                pass.bare_belt.push(Cell::Empty);
            }
        }
    }

    fn remove_station(&mut self, station: usize) -> Result<(), EditProblem> {
        match self.stations.get(station) {
            Some(at) if at.arm().is_none() => {
                self.drop_station(station);
                Ok(())
            }
            _ => Err(EditProblem::NothingThere),
        }
    }

    fn drop_station(&mut self, station: usize) {
        self.stations.remove(station);
        for pass in &mut self.passes {
            if station < pass.rows.len() {
                pass.rows.remove(station);
            }
            if station < pass.bare_belt.len() {
                pass.bare_belt.remove(station);
            }
            pass.corrections.drop_station(station);
        }
        if let Some(known) = &self.known_response {
            let left: Vec<usize> = (0..=self.stations.len())
                .filter(|row| *row != station)
                .collect();
            self.known_response = Some(known.with_rows(&left));
        }
    }

    /// Puts stations, and with them the rows of every pass, back in order
    /// from the operator's left.
    fn sort_stations(&mut self) {
        let press = &self.press;
        let mut order: Vec<usize> = (0..self.stations.len()).collect();
        order.sort_by_key(|&index| self.stations.get(index).map(|at| at.position(press)));
        self.stations = reordered(&self.stations, &order);
        for pass in &mut self.passes {
            pass.rows = reordered(&pass.rows, &order);
            pass.bare_belt = reordered(&pass.bare_belt, &order);
            pass.corrections.reorder_stations(&order);
        }
        if let Some(known) = &self.known_response {
            self.known_response = Some(known.with_rows(&order));
        }
    }
}

fn reordered<T: Clone>(items: &[T], order: &[usize]) -> Vec<T> {
    order
        .iter()
        .filter_map(|&index| items.get(index).cloned())
        .collect()
}

/// What a cell of readings holds after this text was typed into it.
fn read_cell(text: &str, bare: Unit) -> Cell {
    read_cell_of(LengthQuantity::Reading, text, bare)
}

/// What a cell for a thickness within the limits of `quantity` holds after
/// this text was typed into it.
pub(super) fn read_cell_of(quantity: LengthQuantity, text: &str, bare: Unit) -> Cell {
    let text = text.trim();
    if text.is_empty() {
        return Cell::Empty;
    }
    match TypedLength::parse(text, bare, Sign::None) {
        Ok(typed) if quantity.check(typed.length()).is_ok() => Cell::Reading(Reading::new(typed)),
        _ => Cell::Unreadable(text.to_owned()),
    }
}
