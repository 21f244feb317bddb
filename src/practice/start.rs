//! What a trainee knows of the press when an exercise begins.

use crate::press::{Arm, ArmIndex, Press, customary};
use crate::session::Session;
use crate::splice::{Station, StationPlace};
use crate::units::{Length, TypedLength};

use super::exercise::{Exercise, ExerciseProblem};
use super::fault::Fault;
use super::hidden::Hidden;

impl Exercise {
    /// The session that the work begins with: everything a trainee knows of the
    /// press, and nothing read.
    ///
    /// # Errors
    /// See [`ExerciseProblem`].
    pub fn session(&self) -> Result<Session, ExerciseProblem> {
        self.check()?;
        let typed = |length: Length| TypedLength::from_length(length, self.unit);
        let (jaw, places) = self.places();
        let arms = places.iter().map(|place| Arm {
            position: typed(*place),
            notch_effect: typed(customary::NOTCH_EFFECT),
            limits: self.nuts.limits(),
            opening_margin: None,
        });
        // Whatever is shown or printed of it names it as what it is, in both
        // languages.
        let mut press = Press::new(
            format!("PRACTICE / PRÁCTICA {}", self.number),
            typed(jaw),
            arms,
        );
        press.left_hand_thread = Some(false);
        let mut session = Session::new(format!("practice-{}", self.number), self.unit, press);
        session.invented = true;
        session.start_nuts = vec![self.nuts.position(); self.arms];
        if self.fault == Fault::WornStretch {
            let between = places.windows(2).filter_map(|pair| match pair {
                [left, right] => Some(Length::from_nm(left.nm() + right.minus(*left).nm() / 2)),
                _ => None,
            });
            let between: Vec<Station> = between
                .map(|at| Station {
                    place: StationPlace::Between(typed(at)),
                    counts: true,
                })
                .collect();
            let at_arms = std::mem::take(&mut session.stations);
            for (index, at_arm) in at_arms.into_iter().enumerate() {
                session.stations.push(at_arm);
                session.stations.extend(between.get(index).cloned());
            }
        }
        let hidden = Hidden::of(self, &[])?;
        let step = Length::from_nm(hidden.scatter.step_nm as i64);
        session.gauge.step = typed(step);
        // Only a margin that is short is known: whoever handed the exercise out
        // measured it.
        for (arm, index) in session.press.arms.iter_mut().zip((0..).map(ArmIndex)) {
            if hidden.faulty(Fault::SmallOpening, index) {
                let margin = hidden.margins_nm.get(index.0).copied().unwrap_or_default();
                arm.opening_margin = Some(typed(Length::from_nm(margin as i64)));
                let travel = hidden.press.notch_nm().get(index.0).copied();
                // Measured to whole ten-thousandths of an inch, rounded up.
                let travel = (travel.unwrap_or_default() / 2_540.0).ceil() * 2_540.0;
                session.press.nut_travel = Some(typed(Length::from_nm(travel as i64)));
            }
        }
        Ok(session)
    }
}
