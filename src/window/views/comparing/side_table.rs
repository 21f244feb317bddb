//! Pass by arm, on the chart's own axis: what each piece measured, what was turned
//! before the next one, and the spread that came of it against the limit.

use eframe::egui::{
    Align2, Color32, Pos2, Rect, Role, ScrollArea, Sense, Shape, Ui, Vec2, WidgetInfo,
};

use crate::press::Notches;
use crate::window::theme::{self, size};
use crate::window::views::Scene;
use crate::window::views::comparing::profiles::means_nm;
use crate::window::views::comparing::side_chart::{ahead, foretold_pen, pen};
use crate::window::views::hint::Hint;
use crate::window::views::picture::jaw_axis::JawAxis;
use crate::window::views::picture::legend::Sign;

/// Room left of the chart's figures for the strokes of a pass, and right of it for
/// its spread.
pub const GUTTER: f32 = 40.0;
pub const SPREAD: f32 = 150.0;

/// Height of the names of columns, which stand beside the chart's legend; of a
/// pass, and of what was turned after it.
const HEAD: f32 = 20.0;
const PASS: f32 = 30.0;
const TURNS: f32 = 12.0;

/// Distance of columns below which a figure goes without the zero before its
/// point.
const WIDE: f32 = 50.0;

/// A row of the table.
enum Row {
    Pass(usize),
    /// Turned after a pass, or to be turned after the last one.
    Turned(Vec<Notches>),
    /// What the turns on show would make of the next piece.
    Ahead(Vec<Notches>, Vec<Option<f64>>),
}

fn rows(scene: &Scene<'_>) -> Vec<Row> {
    let passes = scene.session.passes.len();
    let mut rows = Vec::new();
    for pass in 0..passes {
        rows.push(Row::Turned(scene.session.turns_before(pass)));
        rows.push(Row::Pass(pass));
    }
    if let Some((turns, means)) = ahead(scene) {
        rows.push(Row::Turned(turns.clone()));
        rows.push(Row::Ahead(turns, means));
    }
    rows
}

/// Height of the whole table.
pub fn height(scene: &Scene<'_>) -> f32 {
    let rows = rows(scene);
    let high = rows.iter().map(|row| match row {
        Row::Turned(_) => TURNS,
        Row::Pass(_) | Row::Ahead(..) => PASS,
    });
    high.sum()
}

/// Draws it, no higher than given, its columns under the arms of the chart.
pub fn show(ui: &mut Ui, scene: &Scene<'_>, axis: JawAxis, most: f32) {
    let words = scene.words();
    let palette = scene.palette;
    let mut head = ui.available_rect_before_wrap();
    head.max.y = head.min.y;
    head.min.y -= HEAD;
    let limit = scene.figures.limit(scene.session.tolerance.length());
    for (at, align, text) in [
        (
            head.left_center(),
            Align2::LEFT_CENTER,
            words.side_pass_column().to_owned(),
        ),
        (
            Pos2::new(axis.right + 12.0, head.center().y),
            Align2::LEFT_CENTER,
            words.side_limit(limit),
        ),
    ] {
        let font = theme::regular(size::SMALL);
        ui.painter().text(at, align, text, font, palette.muted);
    }
    let all = (0..scene.session.passes.len()).filter_map(|pass| {
        let spread = scene.session.spread_of(pass)?.value.nm_f64();
        let foretold = scene.history.of(pass).map_or(0.0, |it| it.forecast.p90_nm);
        Some(spread.max(foretold))
    });
    let limit_nm = scene.session.tolerance.length().nm_f64();
    let widest = all.fold(limit_nm * 1.2, f64::max);
    let table = Table {
        axis,
        widest,
        limit_nm,
    };
    ScrollArea::vertical()
        .id_salt("side table")
        .max_height(most)
        .show(ui, |ui| {
            ui.spacing_mut().item_spacing.y = 0.0;
            for row in rows(scene) {
                match row {
                    Row::Pass(pass) => table.pass(ui, scene, pass),
                    Row::Turned(turns) => table.turned(ui, scene, &turns),
                    Row::Ahead(turns, means) => table.ahead(ui, scene, (&turns, &means)),
                }
            }
        });
}

/// Where its columns stand.
struct Table {
    axis: JawAxis,
    /// The spread that a whole bar stands for, and the limit, in nanometres.
    widest: f64,
    limit_nm: f64,
}

impl Table {
    fn pass(&self, ui: &mut Ui, scene: &Scene<'_>, pass: usize) {
        let figures = scene.figures;
        let palette = scene.palette;
        let name = row_name(scene, pass);
        let (line, shape) = pen(scene, pass);
        let sign = Sign::Marked(line, shape, palette.card);
        let area = row(ui, (sign, &(pass + 1).to_string(), palette.ink), &name, "");
        let spread = scene.session.spread_of(pass);
        let ends = spread
            .as_ref()
            .map(|spread| [spread.thickest, spread.thinnest]);
        let means = means_nm(scene, pass);
        self.means(ui, scene, area, &means, (palette.ink, ends));
        let Some(spread) = spread else { return };
        let tolerance = scene.session.tolerance.length();
        let inside = spread.value <= tolerance.into();
        let (mark, ink) = match inside {
            true => ("✓", palette.good),
            false => ("✕", palette.outside),
        };
        let text = format!("{mark} {}", figures.spread(&spread, tolerance));
        let forecast = scene.history.of(pass).map(|foresight| foresight.forecast);
        let note = forecast.map_or_else(String::new, |forecast| {
            let missed = spread.value.nm_f64() > forecast.p90_nm;
            let mark = if missed { "⚠ " } else { "" };
            format!("{mark}◇ {}", figures.predicted(forecast.median_nm))
        });
        let nm = spread.value.nm_f64();
        let bar = self.spread(ui, scene, area, (&text, ink, &note), Some(nm));
        if let Some(forecast) = forecast {
            self.foretold(ui, scene, bar, (forecast.median_nm, forecast.p90_nm));
        }
    }

    /// What nuts were turned, each under its arm, on the rule between two passes.
    fn turned(&self, ui: &mut Ui, scene: &Scene<'_>, turns: &[Notches]) {
        let palette = scene.palette;
        let said = scene.figures.turns(turns);
        let wide = Vec2::new(ui.available_width(), TURNS);
        let (area, response) = ui.allocate_exact_size(wide, Sense::hover());
        response.widget_info(|| WidgetInfo::labeled(Role::Label, true, &said));
        let rule = theme::stroke(1.0, palette.line);
        ui.painter().hline(area.x_range(), area.center().y, rule);
        for (turn, at) in turns.iter().zip(&scene.outlook.arms_nm) {
            if turn.0 == 0 {
                continue;
            }
            let way = scene.session.press.wrench_way(*turn);
            let way = way.map_or("", |way| scene.words().wrench_arrow(way));
            let text = format!("{way} {}", scene.figures.turn_short(*turn));
            let font = theme::bold(size::SMALL);
            let galley = ui.painter().layout_no_wrap(text, font, palette.preview);
            let centre = Pos2::new(self.axis.x(*at), area.center().y);
            let plate = Rect::from_center_size(centre, galley.size() + Vec2::new(12.0, 2.0));
            ui.painter().rect_filled(plate, 4.0, palette.preview_back);
            let at = centre - galley.size() / 2.0;
            ui.painter().galley(at, galley, palette.preview);
        }
    }

    /// The next piece as the turns on show would make it.
    fn ahead(&self, ui: &mut Ui, scene: &Scene<'_>, (turns, means): (&[Notches], &[Option<f64>])) {
        let palette = scene.palette;
        let next = scene.session.passes.len() + 1;
        let name = scene.words().side_foretold(next);
        let (line, shape) = foretold_pen(scene);
        let sign = Sign::Marked(line, shape, palette.card);
        let below = scene.words().side_predicted();
        let number = (sign, &*next.to_string(), palette.preview);
        let area = row(ui, number, &name, below);
        self.means(ui, scene, area, means, (palette.preview, None));
        if let Some(forecast) = scene.outlook.forecast(turns) {
            let text = format!("≈ {}", scene.figures.predicted(forecast.median_nm));
            let note = scene.words().with_variation();
            let bar = self.spread(ui, scene, area, (&text, palette.preview, note), None);
            self.foretold(ui, scene, bar, (forecast.median_nm, forecast.p90_nm));
        }
    }

    /// Means under their stations, the thickest and the thinnest bold.
    fn means(
        &self,
        ui: &Ui,
        scene: &Scene<'_>,
        area: Rect,
        means: &[Option<f64>],
        (ink, ends): (Color32, Option<[usize; 2]>),
    ) {
        let places: Vec<f32> = scene
            .outlook
            .stations_nm
            .iter()
            .map(|at| self.axis.x(*at))
            .collect();
        let pairs = places.iter().zip(places.iter().skip(1));
        let step = pairs
            .map(|(one, other)| other - one)
            .fold(f32::INFINITY, f32::min);
        let decimals = scene.figures.mean_decimals();
        for (station, (mean, x)) in means.iter().zip(&places).enumerate() {
            let mut text = mean.map_or("–".to_owned(), |mean| scene.figures.nm(mean, decimals));
            if step < WIDE && text.starts_with("0.") {
                text.remove(0);
            }
            let end = ends.is_some_and(|ends| ends.contains(&station));
            let of = if end { theme::bold } else { theme::regular };
            let at = Pos2::new(*x, area.center().y);
            ui.painter()
                .text(at, Align2::CENTER_CENTER, text, of(size::BODY), ink);
        }
    }

    /// A spread in figures, with a note beside it, and as a bar against the limit;
    /// answers where the bar stands.
    fn spread(
        &self,
        ui: &Ui,
        scene: &Scene<'_>,
        area: Rect,
        (text, ink, note): (&str, Color32, &str),
        spread_nm: Option<f64>,
    ) -> Rect {
        let painter = ui.painter();
        let left = self.axis.right + 12.0;
        let at = Pos2::new(left, area.top() + 2.0);
        let said = painter.text(at, Align2::LEFT_TOP, text, theme::bold(size::BODY), ink);
        let beside = said.right_center() + Vec2::new(6.0, 0.0);
        let (small, ink_of_note) = (theme::regular(size::LEAST), scene.palette.preview);
        painter.text(beside, Align2::LEFT_CENTER, note, small, ink_of_note);
        let bar = Rect::from_min_max(
            Pos2::new(left, area.bottom() - 9.0),
            Pos2::new(area.right() - 8.0, area.bottom() - 4.0),
        );
        painter.rect_filled(bar, 2.0, scene.palette.grid);
        if let Some(nm) = spread_nm {
            let mut filled = bar;
            filled.max.x = self.along(bar, nm);
            painter.rect_filled(filled, 2.0, ink);
        }
        let limit = theme::stroke(2.0, scene.palette.band_edge);
        painter.vline(
            self.along(bar, self.limit_nm),
            bar.y_range().expand(3.0),
            limit,
        );
        bar
    }

    /// What was foretold of a spread: its middle, and what nine in ten are under.
    fn foretold(&self, ui: &Ui, scene: &Scene<'_>, bar: Rect, (median, ninety): (f64, f64)) {
        let ink = scene.palette.preview;
        let y = bar.center().y;
        let ends = [median, ninety].map(|nm| Pos2::new(self.along(bar, nm), y));
        ui.painter().line_segment(ends, theme::stroke(2.0, ink));
        let [middle, _] = ends;
        let corners = [(0.0, -5.0), (5.0, 0.0), (0.0, 5.0), (-5.0, 0.0)];
        let corners = corners.map(|(x, y)| middle + Vec2::new(x, y));
        let edge = theme::stroke(2.0, ink);
        let diamond = Shape::convex_polygon(corners.to_vec(), scene.palette.card, edge);
        ui.painter().add(diamond);
    }

    fn along(&self, bar: Rect, nm: f64) -> f32 {
        let share = (nm / self.widest).clamp(0.0, 1.0);
        bar.left() + bar.width() * share as f32
    }
}

/// Room for a row with its strokes and its number at the left, and a word `below`
/// them; `said` is its name.
fn row(ui: &mut Ui, (sign, number, ink): (Sign, &str, Color32), said: &str, below: &str) -> Rect {
    let wide = Vec2::new(ui.available_width(), PASS);
    let (area, response) = ui.allocate_exact_size(wide, Sense::hover());
    let font = theme::bold(size::TITLE);
    let up = if below.is_empty() { 0.0 } else { 6.0 };
    let at = area.left_center() + Vec2::new(4.0, -up);
    let (under, small) = (at + Vec2::new(0.0, 15.0), theme::regular(size::LEAST));
    ui.painter()
        .text(under, Align2::LEFT_CENTER, below, small, ink);
    ui.painter()
        .text(at, Align2::LEFT_CENTER, number, font, ink);
    sign.paint(ui.painter(), at + Vec2::new(24.0, 0.0), size::BODY * 1.3);
    response.widget_info(|| WidgetInfo::labeled(Role::Label, true, said));
    response.hint(said);
    area
}

/// A pass in words.
fn row_name(scene: &Scene<'_>, pass: usize) -> String {
    let words = scene.words();
    let figures = scene.figures;
    let spread = scene.session.spread_of(pass).map_or_else(
        || words.not_read_yet().to_owned(),
        |spread| words.spread_is(figures.exact_mean(spread.value)),
    );
    let mut name = format!("{}, {spread}", words.pass_number(pass + 1));
    if let Some(foresight) = scene.history.of(pass) {
        let of = |nm| figures.with_unit(&figures.predicted(nm));
        let forecast = foresight.forecast;
        name.push_str(", ");
        name.push_str(&words.side_foretold_spread(of(forecast.median_nm), of(forecast.p90_nm)));
    }
    name
}
