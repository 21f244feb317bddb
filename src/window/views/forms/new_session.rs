//! Starting a session: only what cannot be guessed is asked for.

use eframe::egui::{self, Key, Response, RichText, ScrollArea, Ui};

use crate::press::{
    Arm, ArmIndex, CountQuantity, JawDrive, Notches, Press, PressProblem, customary,
};
use crate::session::Session;
use crate::units::{Length, Sign, TypedLength, Unit};
use crate::window::action::Action;
use crate::words::{Figures, Language};

use crate::window::views::Scene;
use crate::window::views::entry::cells::select_all;
use crate::window::views::picture::jaw_sketch;
use crate::window::views::widgets::{
    button, choice, field, line, main_button, muted, name_text, title,
};

/// What was typed so far.
#[derive(Debug, Clone, PartialEq)]
pub struct NewSessionForm {
    /// Unit of the session.
    pub unit: Unit,
    /// Name of the press.
    pub name: String,
    /// Length of the jaw.
    pub length: String,
    /// Whether the arms are told one by one.
    pub one_by_one: bool,
    /// Positions of the arms, parted by blanks or semicolons.
    pub arms: String,
    /// How many arms, where they stand evenly.
    pub count: String,
    /// Where the first of them stands.
    pub first: String,
    /// From each of them to the next.
    pub spacing: String,
    /// Tolerance on the spread.
    pub tolerance: String,
    /// Notch effect.
    pub notch: String,
    /// Step of the gauge.
    pub step: String,
    /// Nut positions, where they do not stand flush: one for all, or one an
    /// arm.
    pub nuts: String,
    /// Why it cannot be started like this.
    pub problem: Option<String>,
    /// Whether the first field had the keyboard.
    asked: bool,
}

impl NewSessionForm {
    /// A form to begin with.
    pub fn new(unit: Unit) -> Self {
        let mut form = Self {
            unit,
            name: String::new(),
            length: String::new(),
            one_by_one: false,
            arms: String::new(),
            count: "4".to_owned(),
            first: String::new(),
            spacing: String::new(),
            tolerance: String::new(),
            notch: String::new(),
            step: String::new(),
            nuts: String::new(),
            problem: None,
            asked: false,
        };
        form.take_customary();
        form
    }

    /// Fills in what is customary in the unit.
    fn take_customary(&mut self) {
        let text = |length| {
            TypedLength::from_length(length, self.unit)
                .text()
                .to_owned()
        };
        self.tolerance = text(customary::tolerance(self.unit));
        self.notch = text(customary::NOTCH_EFFECT);
        self.step = text(customary::gauge_step(self.unit));
    }

    fn typed(&self, place: &str, text: &str, words: Language) -> Result<TypedLength, String> {
        TypedLength::parse(text, self.unit, Sign::None)
            .map_err(|problem| words.length_problem(place, &problem, self.unit))
    }

    /// The length of the jaw.
    fn jaw(&self, words: Language) -> Result<TypedLength, String> {
        self.typed(words.field_jaw_length(), &self.length, words)
    }

    /// Where the arms are.
    fn positions(&self, words: Language) -> Result<Vec<TypedLength>, String> {
        if self.one_by_one {
            parts(&self.arms, &[' ', ';', '\t'])
                .enumerate()
                .map(|(index, text)| {
                    let place = words.field_arm_position(ArmIndex(index));
                    self.typed(&place, text, words)
                })
                .collect()
        } else {
            self.evenly(words)
        }
    }

    /// Arms evenly from the first on. Without a spacing the last stands as far
    /// from the right end as the first from the left; without a first place
    /// the row of them stands in the middle; without both each has as much
    /// of the jaw as any other.
    fn evenly(&self, words: Language) -> Result<Vec<TypedLength>, String> {
        let jaw = i128::from(self.jaw(words)?.length().nm());
        let bounds = CountQuantity::Arms.bounds();
        let count = self.count.trim().parse::<i64>();
        let count = count
            .ok()
            .filter(|count| (bounds.least..=bounds.most).contains(count))
            .ok_or_else(|| words.count_of_arms_expected(bounds.least, bounds.most, &self.count))?;
        let given = |place: &str, text: &str| match text.trim() {
            "" => Ok(None),
            text => self
                .typed(place, text, words)
                .map(|typed| Some(i128::from(typed.length().nm()))),
        };
        let first = given(words.first_arm_at(), &self.first)?;
        let spacing = given(words.arm_spacing(), &self.spacing)?;
        let arms = i128::from(count);
        let gaps = (arms - 1).max(1);
        // Positions as (start + arm * step) / of, so that none is rounded
        // twice.
        let (start, step, of) = match (first, spacing) {
            (Some(first), Some(spacing)) => (first, spacing, 1),
            (Some(first), None) => (first * gaps, jaw - 2 * first, gaps),
            (None, Some(spacing)) => (jaw - gaps * spacing, 2 * spacing, 2),
            (None, None) => (jaw, 2 * jaw, 2 * arms),
        };
        Ok((0..arms)
            .map(|arm| self.rounded((start + arm * step) / of))
            .collect())
    }

    /// A position; to the hundredth of a millimetre where it would take many
    /// digits otherwise.
    fn rounded(&self, nm: i128) -> TypedLength {
        let nm = i64::try_from(nm).unwrap_or(i64::MAX);
        let exact = TypedLength::from_length(Length::from_nm(nm), self.unit);
        if exact.text().len() <= 9 {
            exact
        } else {
            TypedLength::from_length(Length::from_nm(nm / 10_000 * 10_000), self.unit)
        }
    }

    /// The session this form describes.
    fn session(&self, id: String, figures: Figures) -> Result<Session, String> {
        let words = figures.language;
        let notch_effect = self.typed(words.field_notch_effect_of_all(), &self.notch, words)?;
        let arm = |position| Arm {
            position,
            notch_effect: notch_effect.clone(),
            limits: None,
            opening_margin: None,
        };
        let press = Press {
            name: self.name.trim().to_owned(),
            jaw_length: self.jaw(words)?,
            arms: self.positions(words)?.into_iter().map(arm).collect(),
            nut_travel: None,
            drive: JawDrive::default(),
            left_hand_thread: false,
        };
        let mut own = figures;
        own.unit = self.unit;
        press
            .check()
            .map_err(|problem: PressProblem| own.press_problem(&problem))?;
        let mut session = Session::new(id, self.unit, press);
        session.tolerance = self.typed(words.field_tolerance(), &self.tolerance, words)?;
        session.gauge.step = self.typed(words.field_gauge_step(), &self.step, words)?;
        let nuts = parts(&self.nuts, &[' ', ',', ';'])
            .map(|text| {
                text.replace('−', "-")
                    .parse()
                    .map(Notches)
                    .map_err(|_| words.not_whole_notches(text))
            })
            .collect::<Result<Vec<_>, _>>()?;
        match nuts[..] {
            [] => {}
            [all] => session.start_nuts.fill(all),
            _ => session.start_nuts = nuts,
        }
        session
            .check()
            .map_err(|problem| own.session_problem(&problem))?;
        Ok(session)
    }
}

fn parts<'a>(text: &'a str, between: &'a [char]) -> impl Iterator<Item = &'a str> {
    text.split(between).filter(|part| !part.is_empty())
}

/// Draws the form. Enter in any of its fields starts the session.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, form: &mut NewSessionForm) {
    let words = scene.words();
    let palette = scene.palette;
    title(ui, words.command_new());
    let height = ui.ctx().content_rect().height() - 190.0;
    let fields = ScrollArea::vertical().max_height(height).show(ui, |ui| {
        ui.horizontal(|ui| {
            ui.label(words.session_unit());
            for unit in [Unit::Inch, Unit::Millimetre] {
                if ui.radio(form.unit == unit, words.unit_name(unit)).clicked() && form.unit != unit
                {
                    form.unit = unit;
                    form.take_customary();
                }
            }
        });
        let mut entered = false;
        let mut enter = |response: &Response| {
            entered |=
                response.lost_focus() && response.ctx.input(|input| input.key_pressed(Key::Enter));
        };
        egui::Grid::new("new session")
            .num_columns(2)
            .spacing([12.0, 8.0])
            .show(ui, |ui| {
                let name = field(ui, words.field_press_name(), &mut form.name, 340.0);
                if !form.asked {
                    // A dialog that has just come up keeps the keyboard only
                    // once it has been in front for a frame.
                    form.asked = name.has_focus();
                    name.request_focus();
                    ui.ctx().request_repaint();
                }
                enter(&name);
                ui.end_row();
                enter(&field(
                    ui,
                    words.field_jaw_length(),
                    &mut form.length,
                    160.0,
                ));
                ui.end_row();
            });
        ui.separator();
        arms(ui, scene, form, &mut enter);
        let arms = form.positions(words).unwrap_or_default();
        jaw_sketch::show(ui, scene, form.jaw(words).ok().as_ref(), &arms);
        ui.separator();
        ui.horizontal(|ui| enter(&field(ui, words.nuts_at_start(), &mut form.nuts, 160.0)));
        ui.label(muted(palette, words.nuts_at_start_hint()));
        egui::Grid::new("customary")
            .num_columns(2)
            .spacing([12.0, 8.0])
            .show(ui, |ui| {
                enter(&field(
                    ui,
                    words.field_tolerance(),
                    &mut form.tolerance,
                    160.0,
                ));
                ui.end_row();
                ui.label("");
                ui.vertical(|ui| tolerances(ui, scene, &mut form.tolerance));
                ui.end_row();
                enter(&field(
                    ui,
                    words.field_notch_effect_of_all(),
                    &mut form.notch,
                    160.0,
                ));
                ui.end_row();
                enter(&field(ui, words.field_gauge_step(), &mut form.step, 160.0));
                ui.end_row();
            });
        entered
    });
    if let Some(problem) = &form.problem {
        ui.label(RichText::new(format!("⚠ {problem}")).color(palette.caution));
    }
    ui.horizontal(|ui| {
        if button(ui, words.cancel()).clicked() {
            scene.ask(Action::CloseDialog);
        }
        let start = main_button(ui, palette, words.start_session(), true).clicked();
        if start || fields.inner {
            match form.session(String::new(), scene.figures) {
                Ok(session) => scene.ask(Action::Start(Box::new(session))),
                Err(problem) => form.problem = Some(problem),
            }
        }
    });
}

/// Where the arms are: evenly from the first on, or one by one.
fn arms(
    ui: &mut Ui,
    scene: &Scene<'_>,
    form: &mut NewSessionForm,
    enter: &mut impl FnMut(&Response),
) {
    let words = scene.words();
    ui.horizontal_wrapped(|ui| {
        if form.one_by_one {
            let typed = ui.add(line(&mut form.arms, 340.0).hint_text(words.arm_positions_hint()));
            name_text(&typed, words.arm_positions(), &form.arms);
            if typed.gained_focus() {
                select_all(ui, typed.id, &form.arms);
            }
            enter(&typed);
        } else {
            for (label, text) in [
                (words.count_of_arms(), &mut form.count),
                (words.first_arm_at(), &mut form.first),
                (words.arm_spacing(), &mut form.spacing),
            ] {
                let typed = field(ui, label, text, 84.0);
                if typed.gained_focus() {
                    select_all(ui, typed.id, text);
                }
                enter(&typed);
            }
        }
    });
    ui.horizontal_wrapped(|ui| {
        for (one_by_one, text) in [
            (false, words.arms_evenly()),
            (true, words.arms_one_by_one()),
        ] {
            let chosen = form.one_by_one == one_by_one;
            if choice(ui, scene.palette, chosen, text).clicked() && !chosen {
                if let Ok(even) = form.positions(words)
                    && one_by_one
                {
                    form.arms = numbers(&even);
                }
                form.one_by_one = one_by_one;
            }
        }
    });
}

/// Positions as numbers alone, in their unit.
fn numbers(positions: &[TypedLength]) -> String {
    let numbers: Vec<&str> = positions
        .iter()
        .map(|position| {
            let text = position.text();
            text.strip_suffix(position.unit().mark())
                .map_or(text, str::trim_end)
        })
        .collect();
    numbers.join("  ")
}

/// The two customary tolerances side by side, with what sets them apart.
pub fn tolerances(ui: &mut Ui, scene: &Scene<'_>, tolerance: &mut String) {
    let words = scene.words();
    ui.horizontal(|ui| {
        for unit in [Unit::Inch, Unit::Millimetre] {
            let text = TypedLength::from_length(customary::tolerance(unit), unit);
            if button(ui, text.text()).clicked() {
                text.text().clone_into(tolerance);
            }
        }
    });
    ui.label(muted(scene.palette, words.metric_tolerance_is_looser()));
}

#[cfg(test)]
mod tests {
    use super::*;

    fn even(count: &str, first: &str, spacing: &str) -> String {
        let mut form = NewSessionForm::new(Unit::Inch);
        form.length = "60".into();
        (form.count, form.first, form.spacing) = (count.into(), first.into(), spacing.into());
        form.positions(Language::English)
            .map_or_else(|problem| problem, |arms| numbers(&arms))
    }

    #[test]
    fn arms_stand_evenly_from_what_is_given() {
        assert_eq!(even("5", "6", "12"), "6  18  30  42  54");
        assert_eq!(even("5", "6", ""), "6  18  30  42  54");
        assert_eq!(even("5", "", "12"), "6  18  30  42  54");
        assert_eq!(even("5", "", ""), "6  18  30  42  54");
        assert_eq!(even("2", "10", ""), "10  50");
        assert!(even("five", "", "").contains("five"));
    }

    #[test]
    fn one_nut_position_stands_for_all() {
        let mut form = NewSessionForm::new(Unit::Inch);
        form.length = "60".into();
        form.nuts = "−4".into();
        let figures = Figures {
            language: Language::English,
            unit: Unit::Inch,
            step: Length::from_nm(12_700),
            limit: None,
        };
        let nuts = |form: &NewSessionForm| {
            form.session(String::new(), figures)
                .map(|new| new.start_nuts)
        };
        assert_eq!(nuts(&form), Ok(vec![Notches(-4); 4]));
        form.nuts = "-4 -3 -2 -1".into();
        assert_eq!(nuts(&form), Ok([-4, -3, -2, -1].map(Notches).to_vec()));
        form.nuts = "-4 -3".into();
        assert!(nuts(&form).is_err());
    }
}
