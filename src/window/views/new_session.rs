//! Starting a session: only what cannot be guessed is asked for.

use eframe::egui::{self, RichText, ScrollArea, Ui};

use crate::press::{Arm, CountQuantity, JawDrive, Press, PressProblem, customary};
use crate::session::Session;
use crate::units::{Length, Sign, TypedLength, Unit};
use crate::window::action::Action;
use crate::words::{Figures, Language};

use super::Scene;
use super::widgets::{button, field, line, main_button, muted, title};

/// What was typed so far.
#[derive(Debug, Clone, PartialEq)]
pub struct Form {
    /// Unit of the session.
    pub unit: Unit,
    /// Name of the press.
    pub name: String,
    /// Length of the jaw.
    pub length: String,
    /// Positions of the arms, parted by blanks or semicolons.
    pub arms: String,
    /// How many arms, for spacing them evenly.
    pub count: usize,
    /// Tolerance on the spread.
    pub tolerance: String,
    /// Notch effect.
    pub notch: String,
    /// Step of the gauge.
    pub step: String,
    /// Nut positions, where they do not stand flush.
    pub nuts: String,
    /// Why it cannot be started like this.
    pub problem: Option<String>,
}

impl Form {
    /// A form to begin with.
    pub fn new(unit: Unit) -> Self {
        let mut form = Self {
            unit,
            name: String::new(),
            length: String::new(),
            arms: String::new(),
            count: 4,
            tolerance: String::new(),
            notch: String::new(),
            step: String::new(),
            nuts: String::new(),
            problem: None,
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

    /// Spaces the arms evenly over the jaw, half a space from its ends.
    fn space_evenly(&mut self, words: Language) -> Result<(), String> {
        let jaw = self.typed(words.field_jaw_length(), &self.length, words)?;
        let count = self.count as i64;
        let positions: Vec<String> = (0..count)
            .map(|arm| {
                let nm = jaw.length().nm() * (2 * arm + 1) / (2 * count);
                let tenth = Length::from_nm(nm / 10_000 * 10_000);
                let even = TypedLength::from_length(Length::from_nm(nm), self.unit);
                let rounded = TypedLength::from_length(tenth, self.unit);
                let chosen = if even.text().len() <= 9 {
                    even
                } else {
                    rounded
                };
                chosen
                    .text()
                    .trim_end_matches(self.unit.mark())
                    .trim_end()
                    .to_owned()
            })
            .collect();
        self.arms = positions.join("  ");
        Ok(())
    }

    fn typed(&self, place: &str, text: &str, words: Language) -> Result<TypedLength, String> {
        TypedLength::parse(text, self.unit, Sign::None)
            .map_err(|problem| words.length_problem(place, &problem, self.unit))
    }

    /// The session this form describes.
    fn session(&self, id: String, figures: Figures) -> Result<Session, String> {
        let words = figures.language;
        let notch_effect = self.typed(words.field_notch_effect_of_all(), &self.notch, words)?;
        let mut arms = Vec::new();
        for (index, text) in self
            .arms
            .split([' ', ';', '\t'])
            .filter(|part| !part.is_empty())
            .enumerate()
        {
            let place = words.field_arm_position(crate::press::ArmIndex(index));
            arms.push(Arm {
                position: self.typed(&place, text, words)?,
                notch_effect: notch_effect.clone(),
                limits: None,
                opening_margin: None,
            });
        }
        let press = Press {
            name: self.name.trim().to_owned(),
            jaw_length: self.typed(words.field_jaw_length(), &self.length, words)?,
            arms,
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
        let nuts: Vec<&str> = self
            .nuts
            .split([' ', ',', ';'])
            .filter(|part| !part.is_empty())
            .collect();
        if !nuts.is_empty() {
            session.start_nuts = nuts
                .iter()
                .map(|text| {
                    text.replace('−', "-")
                        .parse()
                        .map(crate::press::Notches)
                        .map_err(|_| words.not_whole_notches(text))
                })
                .collect::<Result<_, _>>()?;
        }
        session
            .check()
            .map_err(|problem| own.session_problem(&problem))?;
        Ok(session)
    }
}

/// Draws the form.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, form: &mut Form) {
    let words = scene.words();
    let palette = scene.palette;
    title(ui, words.command_new());
    let height = ui.ctx().content_rect().height() - 190.0;
    ScrollArea::vertical().max_height(height).show(ui, |ui| {
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
        egui::Grid::new("new session")
            .num_columns(2)
            .spacing([12.0, 8.0])
            .show(ui, |ui| {
                field(ui, words.field_press_name(), &mut form.name, 340.0);
                ui.end_row();
                field(ui, words.field_jaw_length(), &mut form.length, 160.0);
                ui.end_row();
                let label = ui.label(words.arm_positions());
                ui.horizontal(|ui| {
                    ui.add(line(&mut form.arms, 340.0).hint_text(words.arm_positions_hint()))
                        .labelled_by(label.id);
                });
                ui.end_row();
                ui.label("");
                ui.horizontal(|ui| evenly(ui, scene, form));
                ui.end_row();
                field(ui, words.field_tolerance(), &mut form.tolerance, 160.0);
                ui.end_row();
                ui.label("");
                ui.vertical(|ui| tolerances(ui, scene, &mut form.tolerance));
                ui.end_row();
                field(
                    ui,
                    words.field_notch_effect_of_all(),
                    &mut form.notch,
                    160.0,
                );
                ui.end_row();
                field(ui, words.field_gauge_step(), &mut form.step, 160.0);
                ui.end_row();
                field(ui, words.nuts_at_start(), &mut form.nuts, 160.0);
                ui.end_row();
            });
        ui.label(muted(palette, words.nuts_at_start_hint()));
    });
    if let Some(problem) = &form.problem {
        ui.label(RichText::new(format!("⚠ {problem}")).color(palette.caution));
    }
    ui.horizontal(|ui| {
        if button(ui, words.cancel()).clicked() {
            scene.ask(Action::CloseDialog);
        }
        if main_button(ui, palette, words.start_session(), true).clicked() {
            match form.session(String::new(), scene.figures) {
                Ok(session) => scene.ask(Action::Start(Box::new(session))),
                Err(problem) => form.problem = Some(problem),
            }
        }
    });
}

fn evenly(ui: &mut Ui, scene: &Scene<'_>, form: &mut Form) {
    let words = scene.words();
    let bounds = CountQuantity::Arms.bounds();
    let fewer = button(ui, "−").on_hover_text(words.fewer_arms());
    if fewer.clicked() && form.count as i64 > bounds.least {
        form.count -= 1;
    }
    ui.label(words.arms_count(form.count));
    let more = button(ui, "+").on_hover_text(words.more_arms());
    if more.clicked() && (form.count as i64) < bounds.most {
        form.count += 1;
    }
    if button(ui, words.space_evenly()).clicked() {
        form.problem = form.space_evenly(words).err();
    }
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
