//! Any two passes compared: what was promised beside what came of it.

use eframe::egui::{self, ComboBox, Grid, RichText, Ui};

use crate::press::Notches;
use crate::window::theme::{self, Palette, size};

use crate::window::views::Scene;
use crate::window::views::comparing::profiles::{foretold_nm, means_nm, short_name};
use crate::window::views::hint::Hint;
use crate::window::views::picture::chart::NINE_IN_TEN;
use crate::window::views::widgets::{muted, title};

/// Draws the comparison.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>) {
    let words = scene.words();
    title(ui, words.compare_title());
    choose(ui, scene);
    let Some(side) = &scene.view.side else { return };
    let (earlier, later) = side.earlier_and_later(scene.session);
    if earlier == later {
        ui.label(muted(scene.palette, words.compare_same()));
        return;
    }
    let turns: Vec<Notches> = scene
        .session
        .nuts_at(later)
        .iter()
        .zip(scene.session.nuts_at(earlier))
        .map(|(now, then)| *now - *then)
        .collect();
    ui.label(words.compare_turned(scene.figures.turns(&turns)));
    ui.label(spreads(scene, earlier, later));
    if earlier + 1 == later {
        promised(ui, scene, later);
    }
    table(ui, scene, (earlier, later), &turns);
    if earlier + 1 == later {
        let note = if scene.history.of(later).is_some() {
            words.compare_foretold_note()
        } else if scene.history.is_thinking() {
            words.thinking()
        } else {
            words.compare_nothing_foretold()
        };
        ui.label(muted(scene.palette, note));
    }
}

/// The two lists of passes.
fn choose(ui: &mut Ui, scene: &mut Scene<'_>) {
    let words = scene.words();
    let passes = scene.session.passes.len();
    let names: Vec<String> = (0..passes).map(|pass| short_name(scene, pass)).collect();
    let Some(side) = &mut scene.view.side else {
        return;
    };
    let last = passes.saturating_sub(1);
    ui.horizontal(|ui| {
        let width = ((ui.available_width() - 40.0) / 2.0).clamp(90.0, 150.0);
        let pair = [&mut side.pair.0, &mut side.pair.1];
        let labels = [words.compare_one(), words.compare_other()];
        for (which, (chosen, label)) in pair.into_iter().zip(labels).enumerate() {
            *chosen = (*chosen).min(last);
            if which == 1 {
                ui.label(words.compare_with());
            }
            let shown = names.get(*chosen).cloned().unwrap_or_default();
            let list = ComboBox::from_id_salt(("compared pass", which))
                .width(width)
                .selected_text(&shown)
                .show_ui(ui, |ui| {
                    for (pass, name) in names.iter().enumerate() {
                        ui.selectable_value(chosen, pass, name);
                    }
                });
            list.response.widget_info(|| {
                let mut info = egui::WidgetInfo::labeled(egui::Role::ComboBox, true, label);
                info.current_text_value = Some(shown.clone());
                info
            });
        }
    });
}

fn spreads(scene: &Scene<'_>, earlier: usize, later: usize) -> String {
    let words = scene.words();
    let tolerance = scene.session.tolerance.length();
    let of = |pass: usize| {
        scene.session.spread_of(pass).map_or_else(
            || words.not_read_yet().to_owned(),
            |spread| {
                let digits = scene.figures.spread(&spread, tolerance);
                scene.figures.with_unit(&digits)
            },
        )
    };
    words.compare_spreads(of(earlier), of(later))
}

/// What spread was promised of a pass, and whether it was kept.
fn promised(ui: &mut Ui, scene: &Scene<'_>, pass: usize) {
    let Some(foresight) = scene.history.of(pass) else {
        return;
    };
    let (words, figures, forecast) = (scene.words(), scene.figures, foresight.forecast);
    let of = |nm: f64| figures.with_unit(&figures.predicted(nm));
    let mut line = words.side_foretold_spread(of(forecast.median_nm), of(forecast.p90_nm));
    let spread = scene.session.spread_of(pass);
    let kept = spread.map(|spread| spread.value.nm_f64() <= forecast.p90_nm);
    if kept == Some(false) {
        line = format!("{line}; {}", words.foretold_missed());
    }
    ui.label(marked(scene.palette, kept, &line));
}

fn table(ui: &mut Ui, scene: &Scene<'_>, (earlier, later): (usize, usize), turns: &[Notches]) {
    let words = scene.words();
    let palette = scene.palette;
    let figures = scene.figures;
    let decimals = figures.mean_decimals();
    let (then, now) = (means_nm(scene, earlier), means_nm(scene, later));
    let foretold = foretold_nm(scene, later).filter(|_| earlier + 1 == later);
    let small = |text: String| RichText::new(text).font(theme::regular(size::SMALL));
    let shown =
        |mean: Option<f64>| mean.map_or("–".to_owned(), |mean| figures.nm(mean, decimals));
    let tall = std::mem::replace(&mut ui.spacing_mut().interact_size.y, 20.0);
    Grid::new("compared passes")
        .striped(true)
        .spacing([9.0, 4.0])
        .show(ui, |ui| {
            let mut heads = vec![
                words.column_arm().to_owned(),
                words.compare_turn_column().to_owned(),
                (earlier + 1).to_string(),
                (later + 1).to_string(),
                words.compare_change_column().to_owned(),
            ];
            heads.extend(foretold.as_ref().map(|_| words.side_foretold(later + 1)));
            for head in heads {
                ui.label(muted(palette, head));
            }
            ui.end_row();
            for station in 0..scene.session.stations.len() {
                let name = scene.session.station_name(station);
                ui.label(RichText::new(name).font(theme::bold(size::SMALL)));
                let arm = scene.session.stations.get(station).and_then(|at| at.arm());
                let turn = arm.and_then(|arm| turns.get(arm.0)).copied();
                let turn = turn.filter(|turn| turn.0 != 0);
                ui.label(small(
                    turn.map_or_else(String::new, |turn| figures.turn_short(turn)),
                ));
                let at = |means: &[Option<f64>]| means.get(station).copied().flatten();
                let (before, after) = (at(&then), at(&now));
                for mean in [before, after] {
                    let label = ui.label(small(shown(mean)));
                    if let Some(mean) = mean {
                        label.hint(words.exactly(figures.exact_predicted(mean)));
                    }
                }
                let change = before.zip(after).map(|(before, after)| after - before);
                let signed = change.map_or("–".to_owned(), |change| {
                    let digits = figures.nm(change, decimals);
                    if change > 0.0 {
                        format!("+{digits}")
                    } else {
                        digits
                    }
                });
                ui.label(small(signed));
                if let Some((means, sd)) = &foretold {
                    let sd = sd.get(station).copied().unwrap_or(0.0);
                    ui.label(promise(scene, at(means), after, NINE_IN_TEN * sd));
                }
                ui.end_row();
            }
        });
    ui.spacing_mut().interact_size.y = tall;
}

/// What was foretold at a station, with a mark of how it came out.
fn promise(scene: &Scene<'_>, foretold: Option<f64>, measured: Option<f64>, half: f64) -> RichText {
    let figures = scene.figures;
    let decimals = figures.mean_decimals();
    let Some(foretold) = foretold else {
        return RichText::new("–").font(theme::regular(size::SMALL));
    };
    let figure = format!(
        "{} ± {}",
        figures.nm(foretold, decimals),
        figures.nm(half, decimals)
    );
    let kept = measured.map(|measured| (measured - foretold).abs() <= half);
    marked(scene.palette, kept, &figure)
}

/// A figure with a mark of whether it was kept.
fn marked(palette: &Palette, kept: Option<bool>, figure: &str) -> RichText {
    let (mark, ink) = match kept {
        Some(true) => ("✓ ", palette.ink),
        Some(false) => ("⚠ ", palette.caution),
        None => ("", palette.muted),
    };
    RichText::new(format!("{mark}{figure}"))
        .font(theme::regular(size::SMALL))
        .color(ink)
}
