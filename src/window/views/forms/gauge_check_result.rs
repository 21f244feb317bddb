//! What comes out of a gauge check.

use eframe::egui::{Grid, RichText, Ui};

use crate::splice::{GaugeShare, GaugeStudy, LacingStudy, Scatter, gauge_that_would_do};
use crate::window::state::gauge_check::{Found, GaugeCheck};
use crate::window::theme::{self, size};

use crate::window::views::Scene;
use crate::window::views::widgets::{muted, strong};

/// Draws it.
pub(super) fn result(ui: &mut Ui, scene: &Scene<'_>, check: &GaugeCheck, found: &Found) {
    let words = scene.words();
    match found {
        Found::OneKnuckle(scatter, count) => {
            if check.cell_count(scene.session) > *count {
                ui.label(muted(scene.palette, words.check_so_far(*count)));
            }
            let tolerance = scene.session.tolerance.length();
            let (sd, share) = scene.figures.scatter_and_share(scatter.sd_nm, tolerance);
            ui.label(words.check_repeatability(sd, share));
            sentence(ui, scene, *scatter);
        }
        Found::TwoLacings(study) => {
            lacing_parts(ui, scene, study);
            if let Some(gauge) = study.gauge {
                sentence(ui, scene, gauge);
            }
        }
        Found::People(both) => {
            study_table(ui, scene, check, both);
            let [_, variance] = &**both;
            sentence(ui, scene, variance.in_differences);
        }
    }
}

fn lacing_parts(ui: &mut Ui, scene: &Scene<'_>, study: &LacingStudy) {
    let words = scene.words();
    let gauge = study.gauge.map(|gauge| gauge.sd_nm);
    let parts = [
        (words.check_row_readings(), gauge),
        (words.check_row_knuckle_here(), Some(study.knuckle.sd())),
        (words.check_row_lacing(), Some(study.lacing.sd())),
        (
            words.check_part_lacing_next(),
            Some(study.next_lacing.sd_nm),
        ),
    ];
    let tolerance = scene.session.tolerance.length();
    for (name, sd) in parts {
        match sd {
            Some(sd) => {
                let (sd, share) = scene.figures.scatter_and_share(sd, tolerance);
                ui.label(words.check_part(name, sd, share));
            }
            None => {
                ui.label(words.lacing_study_read_once());
            }
        }
    }
    let negative = study.knuckle.came_out_negative() || study.lacing.came_out_negative();
    if negative {
        ui.label(muted(scene.palette, words.study_negative()));
    }
}

/// Both reckonings side by side.
fn study_table(ui: &mut Ui, scene: &Scene<'_>, check: &GaugeCheck, both: &[GaugeStudy; 2]) {
    let words = scene.words();
    let figures = scene.figures;
    let people = check.counts.people;
    let rows = figures.study_rows(both, people, scene.session.tolerance.length());
    ui.scope(|ui| {
        ui.spacing_mut().interact_size.y = 22.0;
        Grid::new("study")
            .num_columns(5)
            .spacing([18.0, 4.0])
            .show(ui, |ui| {
                ui.label("");
                ui.label(strong(words.study_average_and_range()));
                ui.label("");
                ui.label(strong(words.study_analysis_of_variance()));
                ui.end_row();
                for row in rows {
                    for text in row {
                        ui.label(text);
                    }
                    ui.end_row();
                }
            });
    });
    ui.label(muted(scene.palette, words.check_shares()));
    let [_, variance] = both;
    for note in figures.study_notes(variance, people) {
        ui.label(muted(scene.palette, note));
    }
}

/// What a gauge that scatters so much uses up of the tolerance.
fn sentence(ui: &mut Ui, scene: &Scene<'_>, scatter: Scatter) {
    let session = scene.session;
    let tolerance = session.tolerance.length();
    let share = GaugeShare::of(scatter.sd_nm, session.gauge.step.length(), tolerance);
    if let Some(share) = share {
        let instead = gauge_that_would_do(tolerance, scene.figures.unit);
        let figures = scene.figures;
        let text = figures.gauge_share_sentence(session.gauge.kind, &share, instead.as_ref());
        ui.label(RichText::new(text).font(theme::bold(size::BODY)));
    }
}
