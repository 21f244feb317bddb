//! “How sure is that?”: the chances of this piece, this press and the next piece,
//! what would settle them, and folded below them every figure behind them.

use eframe::egui::{self, Align2, Color32, Pos2, Rect, RichText, Sense, StrokeKind, Ui, Vec2};

use crate::session::{Judgement, Session, Whose};
use crate::splice::{Budget, Verdict};
use crate::window::action::Action;
use crate::window::theme::{self, size};
use crate::words::Figures;

use crate::window::views::Scene;
use crate::window::views::dialog_room;
use crate::window::views::dialog_room::{Answer, Foot, fold};
use crate::window::views::turning::safety;
use crate::window::views::widgets::muted;

/// Draws the dialog.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>) {
    let words = scene.words();
    let Some(pass) = scene.outlook.pass else {
        scene.ask(Action::Close);
        return;
    };
    dialog_room::middle(ui, |ui| {
        sure(ui, scene);
        fold(ui, words.worked_out_title(), |ui| {
            ui.label(muted(scene.palette, words.worked_out_of(pass + 1)));
            stations(ui, scene, pass);
            ui.label(spread(scene, pass));
            for part in parts(scene, pass) {
                ui.add_space(6.0);
                ui.label(RichText::new(part.heading).font(theme::bold(size::BODY)));
                for line in part.lines {
                    ui.label(line);
                }
            }
        });
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

/// What is likely of this piece, the press and the next piece, and what would
/// settle it.
fn in_short(scene: &Scene<'_>) -> Vec<String> {
    let (session, gate) = (scene.session, &scene.outlook.gate);
    let verdicts = scene.outlook.verdicts.as_deref();
    verdicts.map_or_else(Vec::new, |verdicts| {
        scene.figures.verdict_sentences(session, gate, verdicts)
    })
}

/// Height of the bar that a chance stands on.
const BAR: f32 = 12.0;

/// The same, each chance with its bar.
fn sure(ui: &mut Ui, scene: &Scene<'_>) {
    let Some(verdicts) = scene.outlook.verdicts.as_deref() else {
        return;
    };
    let palette = scene.palette;
    let ink = |verdict| match verdict {
        Verdict::Inside => palette.good,
        Verdict::Outside => palette.outside,
        Verdict::TooClose => palette.caution,
    };
    let asked = Some(verdicts.confidence.share());
    let scale = give_or_take(ui, scene, ink(verdicts.piece.verdict));
    let judged = |it: Judgement| Some((it.chance, ink(it.verdict), asked));
    let piece = judged(verdicts.piece).filter(|_| !scale);
    let next = Some((verdicts.next_piece, palette.present, None));
    let mut bars = [piece, judged(verdicts.press), next].into_iter();
    for sentence in in_short(scene) {
        ui.label(sentence);
        if let Some(standing) = bars.next().flatten() {
            bar(ui, scene, standing);
        }
    }
    if let Some(level) = &scene.outlook.trust.level {
        ui.label(muted(palette, scene.figures.level_sentence(level)));
    }
}

/// The spread of this piece, give or take what its readings leave open, in figures
/// and against the limit; whether that is known.
fn give_or_take(ui: &mut Ui, scene: &Scene<'_>, ink: Color32) -> bool {
    let (words, palette, figures) = (scene.words(), scene.palette, scene.figures);
    let session = scene.session;
    let known = || {
        let pass = scene.outlook.pass?;
        let spread = session.spread_of(pass)?;
        let budget = session.spread_budget(pass, Whose::Piece)?;
        let confidence = session.acceptance.confidence;
        Some((spread, budget.expanded_nm(confidence.share())?, confidence))
    };
    let Some((spread, off_nm, confidence)) = known() else {
        return false;
    };
    let tolerance = session.tolerance.length();
    let said = words.spread_give_or_take(
        figures.spread(&spread, tolerance),
        figures.with_unit(&figures.predicted(off_nm)),
        figures.limit(tolerance),
    );
    ui.label(RichText::new(said).font(theme::bold(size::SENTENCE)));
    ui.label(muted(
        palette,
        words.give_or_take_sure(figures.confidence(confidence)),
    ));
    if let Some(doubt) = session.gauge_doubt() {
        let [first, why] = figures.before_turns(session, &doubt);
        safety::caution(ui, palette, &format!("{why}. {first}."));
    }
    let font = theme::regular(size::SMALL);
    let names = font.size * 1.3;
    let wide = Vec2::new(ui.available_width(), 1.5 * BAR + names + 8.0);
    let (area, _) = ui.allocate_exact_size(wide, Sense::hover());
    let (at_nm, limit_nm) = (spread.value.nm_f64(), tolerance.nm_f64());
    let most = limit_nm.max(at_nm + off_nm) * 1.1;
    let x = |nm: f64| area.left() + area.width() * (nm / most) as f32;
    let painter = ui.painter();
    let whole = Rect::from_min_size(area.min, Vec2::new(area.width(), 1.5 * BAR));
    let (good, bad) = (palette.good, palette.outside);
    for (from, to, (fill, ink), verdict) in [
        (0.0, limit_nm, (palette.good_back, good), Verdict::Inside),
        (
            limit_nm,
            most,
            (palette.outside_back, bad),
            Verdict::Outside,
        ),
    ] {
        let zone = whole.with_min_x(x(from)).with_max_x(x(to));
        let edge = theme::stroke(1.0, ink);
        painter.rect(zone, 0.0, fill, edge, StrokeKind::Inside);
        let place = zone.left_bottom() + Vec2::new(0.0, names);
        let said = words.verdict(verdict);
        painter.text(
            place,
            Align2::LEFT_BOTTOM,
            said,
            font.clone(),
            palette.muted,
        );
    }
    let ends =
        [at_nm - off_nm, at_nm + off_nm].map(|nm| Pos2::new(x(nm.max(0.0)), whole.center().y));
    let stroke = theme::stroke(2.5, ink);
    painter.line_segment(ends, stroke);
    for end in ends {
        let tick = Vec2::new(0.0, BAR * 0.6);
        painter.line_segment([end - tick, end + tick], stroke);
    }
    let at = Pos2::new(x(at_nm), whole.center().y);
    painter.circle(at, BAR * 0.6, ink, theme::stroke(2.0, palette.card));
    true
}

/// A chance on a bar from none to certain; where it is judged, with how far on it
/// is outside, too close to call and inside.
fn bar(ui: &mut Ui, scene: &Scene<'_>, (chance, ink, asked): (f64, Color32, Option<f64>)) {
    let (words, palette) = (scene.words(), scene.palette);
    let font = theme::regular(size::SMALL);
    let names = asked.map_or(0.0, |_| font.size * 1.3);
    let wide = Vec2::new(ui.available_width(), BAR + names + 8.0);
    let (area, _) = ui.allocate_exact_size(wide, Sense::hover());
    let whole = Rect::from_min_size(area.min, Vec2::new(area.width(), BAR));
    let painter = ui.painter();
    let at = |share: f64| whole.left() + whole.width() * share as f32;
    let edge = theme::stroke(1.0, palette.edge);
    painter.rect(whole, 0.0, palette.grid, edge, StrokeKind::Inside);
    if let Some(asked) = asked {
        let zones = [
            (0.0, 1.0 - asked, palette.outside_back, palette.outside),
            (asked, 1.0, palette.good_back, palette.good),
        ];
        for (from, to, fill, ink) in zones {
            let zone = whole.with_min_x(at(from)).with_max_x(at(to));
            let edge = theme::stroke(1.0, ink);
            painter.rect(zone, 0.0, fill, edge, StrokeKind::Inside);
        }
        for (verdict, align) in [
            (Verdict::Outside, Align2::LEFT_BOTTOM),
            (Verdict::TooClose, Align2::CENTER_BOTTOM),
            (Verdict::Inside, Align2::RIGHT_BOTTOM),
        ] {
            let place = align.pos_in_rect(&area.with_max_y(whole.bottom() + names));
            let said = words.verdict(verdict);
            painter.text(place, align, said, font.clone(), palette.muted);
        }
    }
    let radius = BAR * 0.75;
    let x = at(chance).clamp(whole.left() + radius, whole.right() - radius);
    let centre = Pos2::new(x, whole.center().y);
    painter.circle(centre, radius, ink, theme::stroke(2.0, palette.card));
}

/// The spread as a difference of two averages, and its limit.
fn spread(scene: &Scene<'_>, pass: usize) -> String {
    let (words, figures) = (scene.words(), scene.figures);
    let limit = figures.limit(scene.session.tolerance.length());
    scene
        .session
        .spread_of(pass)
        .map_or_else(String::new, |it| {
            let name = |station: usize| scene.session.station_name(station);
            let exact = figures.exact_mean(it.value);
            words.spread_worked_out(name(it.thickest), name(it.thinnest), exact, limit)
        })
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
    if scene.outlook.verdicts.is_none() {
        return parts;
    }
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
    let mut lines = vec![words.how_sure().to_owned()];
    lines.extend(in_short(scene));
    lines.push(words.worked_out_of(pass + 1));
    let rows = station_rows(scene.session, &scene.figures, pass);
    lines.extend(rows.iter().map(|row| row.join("\t")));
    lines.push(spread(scene, pass));
    for part in parts(scene, pass) {
        lines.push(String::new());
        lines.push(part.heading);
        lines.extend(part.lines);
    }
    lines.join("\n")
}
