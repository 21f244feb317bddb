//! The turns on show, before any nut is touched.

use crate::press::{ArmIndex, Notches, NutPosition};

use super::App;
use super::state::Preview;

impl App {
    pub(super) fn turn_nut(&mut self, arm: ArmIndex, by: Notches) {
        // What is doubtful is cleared up first.
        if !self.outlook().gate.doubtful.is_empty() {
            return;
        }
        let mut turns = self.turns_on_show();
        let nuts = match self.shown_pass() {
            Some(pass) => self.session().nuts_at(pass),
            None => self.session().nuts_now(),
        };
        if let (Some(turn), Some(from)) = (turns.get_mut(arm.0), nuts.get(arm.0)) {
            let anywhere = crate::press::CountQuantity::NutPosition.bounds();
            let stands = i64::from((*from + *turn + by).0);
            let stands = stands.clamp(anywhere.least, anywhere.most) as i32;
            *turn = NutPosition(stands) - *from;
        }
        self.view.preview = Preview::Chosen(turns);
    }

    /// The turns on show, one per arm.
    pub(super) fn turns_on_show(&self) -> Vec<Notches> {
        let shown = match &self.view.preview {
            Preview::Chosen(turns) => turns.clone(),
            Preview::Recommended => self.outlook().recommended_turns().unwrap_or_default(),
        };
        let arms = self.session().press.arms.len();
        shown
            .into_iter()
            .chain(std::iter::repeat(Notches(0)))
            .take(arms)
            .collect()
    }

    pub(super) fn plan_text(&self) -> String {
        let turns = self.turns_on_show();
        let pass = self.shown_pass();
        let nuts = pass.map_or_else(
            || self.session().nuts_now().to_vec(),
            |pass| self.session().nuts_at(pass).to_vec(),
        );
        let forecast = self.outlook().forecast(&turns);
        self.figures()
            .plan_as_text(self.session(), &turns, &nuts, forecast)
    }
}
