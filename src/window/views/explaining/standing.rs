//! The card with the one number: the spread and its verdict.

use eframe::egui::{
    self, Align2, CornerRadius, Rect, RichText, Role, Sense, StrokeKind, Ui, Vec2, WidgetInfo,
};

use crate::press::customary;
use crate::session::{Stands, Whose};
use crate::splice::{LevelStanding, Verdict};
use crate::units::Unit;
use crate::window::action::Action;
use crate::window::state::Dialog;
use crate::window::theme::{self, TARGET, size};

use crate::window::views::Scene;
use crate::window::views::hint::Hint;
use crate::window::views::widgets::{button_width, muted, say_changes, title};
use crate::words::{Figures, Word};

/// Draws the card; in a low column the figure and the verdict alone.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, low: bool) {
    let words = scene.words();
    let palette = scene.palette;
    let figures = scene.figures;
    theme::card(palette).show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.spacing_mut().item_spacing.y = 5.0;
        if !low {
            title(ui, words.how_it_stands());
        }
        let tolerance = scene.session.tolerance.length();
        let gate = &scene.outlook.gate;
        // Without every arm a figure says something only where it is too large.
        let outside = gate.stands == Stands::Outside;
        let without = without(scene).filter(|_| outside);
        let spread = gate.spread.as_ref();
        let spread = spread.filter(|_| gate.is_clear() || outside);
        let shown = spread.map_or_else(
            || "–".to_owned(),
            |spread| figures.spread(spread, tolerance),
        );
        ui.horizontal(|ui| {
            ui.spacing_mut().item_spacing = Vec2::new(8.0, 0.0);
            let unit = words.spread_in(words.unit_short(figures.unit));
            let unit = match &without {
                Some(stations) => words.figure_without(unit, stations),
                None => unit,
            };
            let mut beside = format!("{unit}\n{}", words.limit_is(figures.limit(tolerance)));
            // Another limit than most shops go by is said where it judges.
            if scene.practicing.is_some() && scene.session.tolerance.unit() == Unit::Millimetre {
                let usual = customary::tolerance(Unit::Inch);
                let usual = Figures {
                    unit: Unit::Inch,
                    ..figures
                }
                .plain(usual);
                beside = format!("{beside},\n{}", words.limit_is_not(usual));
            }
            // As large as there is room for beside what it is.
            let wide = |text: &str, font| {
                let laid = ui
                    .painter()
                    .layout_no_wrap(text.to_owned(), font, palette.ink);
                laid.size().x
            };
            let room = ui.available_width() - wide(&beside, theme::regular(size::SMALL)) - 8.0;
            let most = match (low, is_roomy(ui)) {
                (true, _) => size::FIGURE * 0.8,
                (false, true) => size::FIGURE * 1.3,
                (false, false) => size::FIGURE,
            };
            let fitting = room / wide(&shown, theme::bold(most)) * most;
            let large = most.min(fitting.floor()).max(size::SENTENCE);
            let figure = RichText::new(&shown).font(theme::bold(large));
            // Without every arm it is no verdict, and does not look like one.
            let ink = match gate.is_clear() {
                true => palette.present,
                false => palette.muted,
            };
            let figure = ui.label(figure.color(ink));
            if let Some(spread) = spread {
                figure.hint(words.exactly(figures.exact_mean(spread.value)));
            }
            ui.label(muted(palette, beside))
                .hint(words.explain(Word::Spread));
        });
        if !low {
            let mut other = figures;
            other.unit = figures.unit.other();
            // Averages beside it are rounded each by itself: who subtracts them
            // with a pencil finds the same here.
            let exact = spread.map(|spread| figures.exact_mean(spread.value));
            let exact = exact.filter(|exact| *exact != figures.with_unit(&shown));
            let other = words.limit_is(other.limit(tolerance));
            let line = match exact {
                Some(exact) => format!("{}; {other}", words.exactly(exact)),
                None => other,
            };
            ui.label(muted(palette, line));
        }
        ui.horizontal(|ui| {
            ui.spacing_mut().item_spacing.x = 6.0;
            ui.spacing_mut().button_padding.x = 6.0;
            let font = theme::regular(size::SMALL);
            let short = words.how_sure_short();
            let known = scene.outlook.verdicts.is_some();
            let beside = match known {
                true => button_width(ui, short, font.clone()) + 6.0,
                false => 0.0,
            };
            let room = Vec2::new(ui.available_width() - beside, TARGET);
            verdict(ui, scene, room);
            if known {
                let text = RichText::new(short).font(font);
                let sure = ui.add(egui::Button::new(text).min_size(Vec2::splat(TARGET)));
                let name = words.how_sure();
                sure.widget_info(|| WidgetInfo::labeled(Role::Button, true, name));
                if sure.clicked() {
                    scene.ask(Action::Show(Box::new(Dialog::WorkedOut)));
                }
            }
        });
        let verdicts = scene.outlook.verdicts.as_deref();
        if let Some(verdicts) = verdicts.filter(|_| !low && gate.is_clear()) {
            let inside = gate.stands == Stands::Inside;
            let close = words.how_close(inside, verdicts.piece.verdict);
            let pass = gate.pass.unwrap_or_default();
            ui.label(match scene.session.repeats_apart(pass) {
                Some((station, by)) => {
                    let by = figures.plain(by);
                    words.repeats_apart(scene.session.station_name(station), by)
                }
                None => though_coarse(scene).unwrap_or_else(|| close.to_owned()),
            });
        }
        // A piece that passes is not all that counts: that stands in a low column too.
        let inside = gate.stands == Stands::Inside;
        if let Some(coarse) = though_coarse(scene).filter(|_| low && inside) {
            ui.label(muted(palette, coarse));
        }
        if gate.is_clear() && (!low || inside) {
            level(ui, scene);
        }
    });
}

/// How far a coarse gauge leaves the spread open, where the verdict is sure all the
/// same.
fn though_coarse(scene: &Scene<'_>) -> Option<String> {
    let (session, figures, words) = (scene.session, scene.figures, scene.words());
    let verdict = scene.outlook.verdicts.as_deref()?.piece.verdict;
    session.gauge_doubt()?;
    let budget = session.spread_budget(scene.outlook.pass?, Whose::Piece)?;
    let off_nm = budget.expanded_nm(session.acceptance.confidence.share())?;
    let inside = scene.outlook.gate.stands == Stands::Inside;
    let agrees = verdict
        == if inside {
            Verdict::Inside
        } else {
            Verdict::Outside
        };
    let off = figures.with_unit(&figures.predicted(off_nm));
    agrees.then(|| words.sure_though_coarse(off, words.verdict(verdict)))
}

/// The stations that the figure stands without, where readings are missing or
/// doubtful.
fn without(scene: &Scene<'_>) -> Option<String> {
    let gate = &scene.outlook.gate;
    let doubtful = gate.doubtful.iter().map(|doubt| doubt.station);
    let mut stations: Vec<usize> = gate.missing.iter().copied().chain(doubtful).collect();
    stations.sort_unstable();
    stations.dedup();
    let names = stations.into_iter();
    let names: Vec<String> = names.map(|at| scene.session.station_name(at)).collect();
    (gate.spread.is_some() && !names.is_empty()).then(|| names.join(", "))
}

/// Whether the window has the height for a larger figure, and for a level that is
/// not judged.
fn is_roomy(ui: &Ui) -> bool {
    ui.ctx().content_rect().height() >= 860.0
}

/// How the level stands against the target, whether the common handle is the
/// remedy, and the limit in its own unit. That the level is not judged is told in a low window by the
/// dialog alone.
fn level(ui: &mut Ui, scene: &Scene<'_>) {
    let (words, palette) = (scene.words(), scene.palette);
    let limit = &scene.session.tolerance;
    if limit.unit() != scene.figures.unit && scene.figures.unit == Unit::Inch {
        ui.label(muted(palette, words.limit_in_force(limit.text())));
    }
    if let Some(level) = &scene.outlook.trust.level {
        let inside = scene.outlook.gate.stands == Stands::Inside;
        if *level == LevelStanding::Unjudged && !is_roomy(ui) && !inside {
            return;
        }
        let sentence = scene.figures.level_sentence(level);
        ui.label(muted(palette, sentence));
    }
}

/// Height of the verdict.
const VERDICT: f32 = 30.0;

/// The verdict in so much room.
pub fn verdict(ui: &mut Ui, scene: &Scene<'_>, room: Vec2) {
    let words = scene.words();
    let palette = scene.palette;
    let (mark, text, ink, back) = match scene.outlook.gate.stands {
        Stands::NotLaced | Stands::Unread => {
            ("–", words.verdict_none(), palette.muted, palette.button)
        }
        Stands::Inside => {
            let said = words.verdict(Verdict::Inside);
            ("✓", said, palette.good, palette.good_back)
        }
        Stands::Open => ("…", words.verdict_open(), palette.muted, palette.button),
        Stands::Outside => {
            let said = words.verdict(Verdict::Outside);
            ("✕", said, palette.outside, palette.outside_back)
        }
    };
    let (place, response) = ui.allocate_exact_size(room, Sense::hover());
    let pill = Rect::from_center_size(place.center(), Vec2::new(place.width(), VERDICT));
    let edge = theme::stroke(1.5, ink);
    let said = format!("{mark}  {text}");
    let painter = ui.painter();
    painter.rect(pill, CornerRadius::same(15), back, edge, StrokeKind::Inside);
    let font = theme::bold(size::BODY);
    painter.text(pill.center(), Align2::CENTER_CENTER, &said, font, ink);
    response.widget_info(|| WidgetInfo::labeled(Role::Label, true, &said));
    say_changes(&response);
    response.hint(words.explain(Word::ToleranceBand));
}
