//! Arms and stations that come and go, with everything kept for each of them.

use crate::press::{Arm, ArmIndex, LengthQuantity, NutPosition};
use crate::session::{EditProblem, Session};
use crate::splice::{Cell, Station, StationPlace};
use crate::units::{Length, Sign, TypedLength, Unit};

impl Session {
    pub(super) fn add_arm(&mut self, text: &str, bare: Unit) -> Result<(), EditProblem> {
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
        let after = self.lost.iter_mut().filter(|lost| lost.0 >= at);
        after.for_each(|lost| lost.0 += 1);
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

    pub(super) fn remove_arm(&mut self, arm: ArmIndex) -> Result<(), EditProblem> {
        self.arm_mut(arm)?;
        self.no_response_given()?;
        let station = self.stations.iter().position(|at| at.arm() == Some(arm));
        self.press.arms.remove(arm.0);
        self.start_nuts.remove(arm.0);
        self.lost.retain(|lost| *lost != arm);
        let after = self.lost.iter_mut().filter(|lost| **lost > arm);
        after.for_each(|lost| lost.0 -= 1);
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

    pub(super) fn add_station(&mut self, text: &str, bare: Unit) -> Result<(), EditProblem> {
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
    pub(super) fn push_unread_station(&mut self) {
        for pass in &mut self.passes {
            pass.rows.push(Vec::new());
            if !pass.bare_belt.is_empty() {
                pass.bare_belt.push(Cell::Empty);
            }
        }
    }

    pub(super) fn remove_station(&mut self, station: usize) -> Result<(), EditProblem> {
        match self.stations.get(station) {
            Some(at) if at.arm().is_none() => {
                self.drop_station(station);
                Ok(())
            }
            _ => Err(EditProblem::NothingThere),
        }
    }

    pub(super) fn drop_station(&mut self, station: usize) {
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
    pub(super) fn sort_stations(&mut self) {
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

    /// Refuses to change arms or stations that a response is given for.
    pub(super) fn no_response_given(&self) -> Result<(), EditProblem> {
        match self.known_response {
            Some(_) => Err(EditProblem::ResponseIsGiven),
            None => Ok(()),
        }
    }
}

fn reordered<T: Clone>(items: &[T], order: &[usize]) -> Vec<T> {
    order
        .iter()
        .filter_map(|&index| items.get(index).cloned())
        .collect()
}
