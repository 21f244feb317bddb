//! “How this was worked out”: every figure behind the verdicts, so that it can
//! be checked by hand.

use eframe::egui::{self, RichText, Ui};

use crate::session::{Session, Whose};
use crate::splice::Budget;
use crate::window::action::Action;
use crate::window::theme::{self, size};
use crate::words::Figures;

use crate::window::views::Scene;
use crate::window::views::dialog_room;
use crate::window::views::dialog_room::{Answer, Foot};
use crate::window::views::widgets::muted;

/// Draws the dialog.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>) {
    let words = scene.words();
    let Some(pass) = scene.outlook.pass else {
        scene.ask(Action::Close);
        return;
    };
    dialog_room::middle(ui, |ui| {
        for line in in_short(scene) {
            ui.label(line);
        }
        ui.add_space(6.0);
        ui.label(muted(scene.palette, words.worked_out_of(pass + 1)));
        stations(ui, scene, pass);
        for part in parts(scene, pass) {
            ui.add_space(6.0);
            ui.label(RichText::new(part.heading).font(theme::bold(size::BODY)));
            for line in part.lines {
                ui.label(line);
            }
        }
    });
    let foot = Foot {
        leave: Some(words.copy_as_text()),
        main: Some((words.close(), true)),
    };
    match foot.decide(ui, scene.palette, None) {
        Some(Answer::Leave) => {
            let text = as_text(scene, pass);
            scene.ask(Action::Copy(text));
        }
        Some(_) => scene.ask(Action::Close),
        None => {}
    }
}

/// A heading and the lines below it.
struct Part {
    heading: String,
    lines: Vec<String>,
}

/// Means and uncertainties, a row per station.
fn stations(ui: &mut Ui, scene: &Scene<'_>, pass: usize) {
    let rows = station_rows(scene.session, &scene.figures, pass);
    // Rows of words need less height than rows of buttons.
    let height = std::mem::replace(&mut ui.spacing_mut().interact_size.y, 20.0);
    egui::Grid::new("worked-out")
        .striped(true)
        .spacing([18.0, 4.0])
        .show(ui, |ui| {
            for (index, row) in rows.iter().enumerate() {
                for cell in row {
                    let text = RichText::new(cell);
                    ui.label(if index == 0 {
                        text.font(theme::bold(size::SMALL))
                    } else {
                        text
                    });
                }
                ui.end_row();
            }
        });
    ui.spacing_mut().interact_size.y = height;
}

/// The table of stations, its headings first.
fn station_rows(session: &Session, figures: &Figures, pass: usize) -> Vec<Vec<String>> {
    let words = figures.language;
    let mut rows = vec![vec![
        words.cli_station().to_owned(),
        words.column_mean().to_owned(),
        words.column_repeats().to_owned(),
        words.column_u_piece().to_owned(),
        words.column_u_press().to_owned(),
    ]];
    let Some(laced) = session.passes.get(pass) else {
        return rows;
    };
    let profile = laced.profile();
    let piece = session.budgets(pass, Whose::Piece);
    let press = session.budgets(pass, Whose::Press);
    let shown = |budget: Option<&Option<Budget>>| {
        let budget = budget.and_then(Option::as_ref);
        budget.map_or_else(String::new, |budget| figures.uncertainty(budget.u_nm))
    };
    let means = profile.means.iter().flatten();
    let texts = means.map(|mean| figures.exact_mean(mean.mean));
    let longest = texts.map(|text| text.chars().count()).max().unwrap_or(0);
    // As many figures in every row.
    let even = |text: String| {
        let unit = text.trim_start_matches(|letter: char| !letter.is_alphabetic() && letter != '″');
        let digits = text.trim_end_matches(unit).trim_end();
        let zeros = "0".repeat(longest - text.chars().count());
        match digits.contains('.') {
            true => figures.with_unit(&format!("{digits}{zeros}")),
            false => text,
        }
    };
    for station in 0..session.stations.len() {
        let mean = profile.means.get(station).copied().flatten();
        rows.push(vec![
            session.station_name(station),
            mean.map_or_else(
                || words.not_read_yet().to_owned(),
                |mean| even(figures.exact_mean(mean.mean)),
            ),
            mean.map_or_else(String::new, |mean| mean.repeats.to_string()),
            shown(piece.get(station)),
            shown(press.get(station)),
        ]);
    }
    rows
}

/// What comes of it for this piece, the press and the next piece.
fn in_short(scene: &Scene<'_>) -> Vec<String> {
    let Some(verdicts) = scene.outlook.verdicts.as_deref() else {
        return Vec::new();
    };
    let confidence = scene.session.acceptance.confidence;
    let figures = scene.figures;
    vec![
        figures.piece_verdict_sentence(verdicts.piece, confidence),
        figures.press_verdict_sentence(verdicts.press, confidence),
        figures.next_piece_sentence(verdicts, scene.accepted()),
    ]
}

/// Budgets of the spread, how the chances come about and what they rest on.
fn parts(scene: &Scene<'_>, pass: usize) -> Vec<Part> {
    let words = scene.words();
    let figures = scene.figures;
    let session = scene.session;
    let confidence = session.acceptance.confidence;
    let mut parts = Vec::new();
    for (whose, heading) in [
        (Whose::Piece, words.budget_of_piece()),
        (Whose::Press, words.budget_of_press()),
    ] {
        if let Some(budget) = session.spread_budget(pass, whose) {
            let lines = figures.budget_lines(&budget, confidence.share());
            parts.push(Part {
                heading: heading.to_owned(),
                lines: with_stations(lines, session, pass, whose),
            });
        }
    }
    let names = |station: usize| session.station_name(station);
    let misfits = scene.outlook.trust.misfits.iter();
    let tests: Vec<String> = misfits
        .filter_map(|misfit| figures.misfit_test(misfit, &names))
        .collect();
    if !tests.is_empty() {
        parts.push(Part {
            heading: words.misfits_heading().to_owned(),
            lines: tests,
        });
    }
    let Some(verdicts) = scene.outlook.verdicts.as_deref() else {
        return parts;
    };
    let noise = session.noise();
    let of = |nm: f64| figures.uncertainty(nm);
    let mut lines = vec![
        words.chance_of_piece_how().to_owned(),
        words.chance_of_press_how().to_owned(),
        words.chance_expected(
            of(noise.deviation_nm),
            of(noise.lacing_nm),
            of(noise.tilt_nm),
            of(noise.shift_nm),
        ),
    ];
    if noise.changed_chance > 0.0 {
        let chance = figures.percentage(noise.changed_chance);
        lines.push(words.chance_changed(chance, of(noise.changed_nm)));
    }
    lines.push(words.chance_verdicts(figures.confidence(confidence)));
    parts.push(Part {
        heading: words.chances_heading().to_owned(),
        lines,
    });
    let settling = figures.settling_sentences(session, verdicts);
    if !settling.is_empty() {
        parts.push(Part {
            heading: words.settling_heading().to_owned(),
            lines: settling,
        });
    }
    parts.push(Part {
        heading: words.sources_heading().to_owned(),
        lines: words
            .sources_of_chances()
            .lines()
            .map(str::to_owned)
            .collect(),
    });
    parts
}

/// The lines of a budget of a spread, the contributions of the thickest and
/// then of the thinnest station with its name before them.
fn with_stations(lines: Vec<String>, session: &Session, pass: usize, whose: Whose) -> Vec<String> {
    let Some(spread) = session.spread_of(pass) else {
        return lines;
    };
    let budgets = session.budgets(pass, whose);
    let names = [spread.thickest, spread.thinnest]
        .into_iter()
        .flat_map(|station| {
            let budget = budgets.get(station).and_then(Option::as_ref);
            let count = budget.map_or(0, |budget| budget.contributions.len());
            std::iter::repeat_n(session.station_name(station), count)
        });
    let names: Vec<String> = names.collect();
    let own = names.len().min(lines.len());
    let (of_stations, of_both) = lines.split_at(own);
    // What holds for both is said once.
    let mut said: Vec<(String, &String)> = Vec::new();
    for (name, line) in names.into_iter().zip(of_stations) {
        match said.iter_mut().find(|(_, before)| *before == line) {
            Some((names, _)) => *names = format!("{names}, {name}"),
            None => said.push((name, line)),
        }
    }
    let said = said
        .into_iter()
        .map(|(names, line)| format!("{names}: {line}"));
    said.chain(of_both.iter().cloned()).collect()
}

fn as_text(scene: &Scene<'_>, pass: usize) -> String {
    let words = scene.words();
    let mut lines = vec![words.worked_out_title().to_owned()];
    lines.extend(in_short(scene));
    lines.push(words.worked_out_of(pass + 1));
    let rows = station_rows(scene.session, &scene.figures, pass);
    lines.extend(rows.iter().map(|row| row.join("\t")));
    for part in parts(scene, pass) {
        lines.push(String::new());
        lines.push(part.heading);
        lines.extend(part.lines);
    }
    lines.join("\n")
}
