//! How sure the plain comparison is: a plain line, and folded below it the
//! chances of this piece and this press and what would settle them.

use eframe::egui::style::ScrollAnimation;
use eframe::egui::{CollapsingHeader, Color32, RichText, Role, Sense, Ui, Vec2, WidgetInfo};

use crate::session::{Stands, Verdicts};
use crate::splice::Verdict;
use crate::window::action::Action;
use crate::window::state::Dialog;
use crate::window::theme::{self, TARGET, size};

use crate::window::views::Scene;
use crate::window::views::dialog_room::unfolding;
use crate::window::views::explaining::standing::level;
use crate::window::views::hint::Hint;
use crate::window::views::widgets::{button_width, muted};

/// Draws the line and what is folded below it; nothing before the chances are
/// worked out. In a low column its heading stands beside the verdict, and what is
/// told of the level is folded too.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, low: bool) {
    let Some(verdicts) = scene.outlook.verdicts.as_deref() else {
        return;
    };
    if low {
        if scene.view.how_sure {
            let before = ui.cursor().top();
            close(ui, scene, verdicts);
            chances(ui, scene, verdicts);
            worked_out_button(ui, scene);
            level(ui, scene);
            let mut whole = ui.min_rect();
            whole.min.y = before;
            if std::mem::take(&mut scene.view.unfolded) {
                ui.scroll_to_rect_animation(whole, None, ScrollAnimation::none());
            }
        }
        return;
    }
    close(ui, scene, verdicts);
    let heading = RichText::new(scene.words().how_sure()).font(theme::regular(size::SMALL));
    let header = CollapsingHeader::new(heading)
        .id_salt("how sure")
        .open(Some(scene.view.how_sure));
    let clicked = unfolding(ui, header, |ui| {
        chances(ui, scene, verdicts);
        worked_out_button(ui, scene);
    });
    if clicked {
        scene.view.how_sure = !scene.view.how_sure;
    }
}

/// What unfolds it in a low column, at the right of the verdict.
pub fn opener(ui: &mut Ui, scene: &mut Scene<'_>) {
    if scene.outlook.verdicts.is_none() {
        return;
    }
    let words = scene.words();
    let open = scene.view.how_sure;
    let text = RichText::new(opener_text(scene)).font(theme::regular(size::SMALL));
    let button = eframe::egui::Button::new(text).min_size(Vec2::splat(TARGET));
    let button = ui.add(button);
    let name = words.how_sure();
    button.widget_info(|| WidgetInfo::selected(Role::Button, true, open, name));
    if button.clicked() {
        scene.view.how_sure = !open;
        scene.view.unfolded = !open;
    }
}

fn opener_text(scene: &Scene<'_>) -> String {
    let mark = if scene.view.how_sure { "▼" } else { "▶" };
    format!("{mark} {}", scene.words().how_sure_short())
}

/// How wide that is.
pub fn opener_width(ui: &Ui, scene: &Scene<'_>) -> f32 {
    button_width(ui, &opener_text(scene), theme::regular(size::SMALL))
}

/// How close a call the comparison is.
fn close(ui: &mut Ui, scene: &Scene<'_>, verdicts: &Verdicts) {
    let gate = &scene.outlook.gate;
    if gate.is_clear() {
        let inside = gate.stands == Stands::Inside;
        let close = scene.words().how_close(inside, verdicts.piece.verdict);
        ui.label(close);
    }
}

/// Whose chance is how large, and what would settle it.
fn chances(ui: &mut Ui, scene: &Scene<'_>, verdicts: &Verdicts) {
    let words = scene.words();
    let figures = scene.figures;
    let confidence = verdicts.confidence;
    let limit = figures.limit(scene.session.tolerance.length());
    ui.label(muted(scene.palette, words.chance_inside(limit)));
    let (piece, press) = (verdicts.piece, verdicts.press);
    let rows = [
        (
            words.short_piece(),
            (piece.chance, Some(piece.verdict)),
            figures.piece_verdict_sentence(piece, confidence),
        ),
        (
            words.short_press(),
            (press.chance, Some(press.verdict)),
            figures.press_verdict_sentence(press, confidence),
        ),
        (
            words.short_next_piece(),
            (verdicts.next_piece, None),
            figures.next_piece_sentence(verdicts, scene.accepted()),
        ),
    ];
    for (whose, chance, sentence) in rows {
        line(ui, scene, whose, chance, &sentence);
    }
    let mut marks: Vec<String> = Vec::new();
    for verdict in [piece.verdict, press.verdict] {
        let mark = format!("{} {}", mark(scene, verdict).0, words.verdict(verdict));
        if !marks.contains(&mark) {
            marks.push(mark);
        }
    }
    let asked = figures.confidence(confidence);
    ui.label(muted(
        scene.palette,
        words.marks_mean(marks.join(", "), asked),
    ));
    for sentence in figures.settling_sentences(scene.session, verdicts) {
        ui.label(RichText::new(sentence).font(theme::regular(size::SMALL)));
    }
}

/// The mark and colour of a verdict.
fn mark(scene: &Scene<'_>, verdict: Verdict) -> (&'static str, Color32) {
    match verdict {
        Verdict::Inside => ("✓", scene.palette.good),
        Verdict::Outside => ("✕", scene.palette.outside),
        Verdict::TooClose => ("≈", scene.palette.caution),
    }
}

/// The button that opens every figure behind the verdicts.
fn worked_out_button(ui: &mut Ui, scene: &mut Scene<'_>) {
    if scene.outlook.pass.is_none() {
        return;
    }
    let text = RichText::new(scene.words().worked_out_title()).font(theme::regular(size::SMALL));
    let wide = Vec2::new(ui.available_width(), TARGET);
    let button = eframe::egui::Button::new(text).wrap();
    if ui.add_sized(wide, button).clicked() {
        scene.ask(Action::Show(Box::new(Dialog::WorkedOut)));
    }
}

/// Height of the bar that a chance is drawn as.
const BAR: f32 = 6.0;

/// Whose chance, the chance in figures with the mark of its verdict, and as a
/// bar; the whole sentence is its name.
fn line(
    ui: &mut Ui,
    scene: &Scene<'_>,
    whose: &str,
    (chance, verdict): (f64, Option<Verdict>),
    sentence: &str,
) {
    let palette = scene.palette;
    let (mark, ink) = verdict.map_or(("", palette.present), |verdict| mark(scene, verdict));
    let figure = scene.figures.percentage(chance);
    let figure = format!("{mark} {figure}").trim().to_owned();
    let lay = |text: String, font, ink| ui.painter().layout_no_wrap(text, font, ink);
    let name = lay(whose.to_owned(), theme::regular(size::SMALL), palette.ink);
    let figure = lay(figure, theme::bold(size::SMALL), ink);
    let text = name.size().y.max(figure.size().y);
    let wide = Vec2::new(ui.available_width(), text + BAR + 4.0);
    let (area, row) = ui.allocate_exact_size(wide, Sense::hover());
    let right = area.right_top() - Vec2::new(figure.size().x, 0.0);
    ui.painter().galley(area.min, name, palette.ink);
    ui.painter().galley(right, figure, ink);
    let mut bar = area;
    bar.min.y = area.bottom() - BAR;
    ui.painter().rect_filled(bar, BAR / 2.0, palette.grid);
    bar.set_width((bar.width() * chance as f32).max(BAR));
    ui.painter().rect_filled(bar, BAR / 2.0, ink);
    row.widget_info(|| WidgetInfo::labeled(Role::Label, true, sentence));
    row.hint(sentence);
}
