//! Spread from pass to pass, against the tolerance.

use eframe::egui::{Align2, Pos2, Rect, Role, Sense, Ui, Vec2, WidgetInfo};
use egui_plot::{MarkerShape, PlotPoint};

use crate::splice::Band;
use crate::window::theme::{self, size};
use crate::window::views::Scene;
use crate::window::views::hint::Hint;
use crate::window::views::picture::legend::{Key, Legend, Sign};
use crate::window::views::picture::plot::{self, Chart, Mark, Pen};

/// Width a bar needs to carry its figure.
const FIGURE_WIDTH: f32 = 62.0;

/// Passes that there is room for at least.
const LEAST: usize = 6;

/// Room right of the chart for the limit's name.
const NAMES: f32 = 118.0;

/// Draws the chart.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, height: f32) {
    let palette = scene.palette;
    let words = scene.words();
    let figures = scene.figures;
    let tolerance = scene.session.tolerance.length();
    let passes = scene.session.passes.len();
    let spreads: Vec<_> = (0..passes)
        .map(|pass| scene.session.spread_of(pass))
        .collect();
    let foretold = |pass: usize| scene.history.of(pass).map(|foresight| foresight.forecast);
    let most = (0..passes)
        .filter_map(foretold)
        .map(|forecast| forecast.p90_nm)
        .chain(spreads.iter().flatten().map(|spread| spread.value.nm_f64()))
        .fold(tolerance.nm_f64() * 1.2, f64::max);
    let key = |text: &str, sign| Key {
        text: text.to_owned(),
        sign,
    };
    let mut keys = vec![key(
        &words.side_spreads(words.unit_name(figures.unit)),
        Sign::Caption,
    )];
    if (0..passes).any(|pass| foretold(pass).is_some()) {
        let line = Sign::Line(Pen::solid(palette.preview, 1.8));
        keys.push(key(words.side_foretold_key(), line));
    }
    let legend = Legend::of(ui, palette, ui.available_width(), keys);
    let above = legend.height();
    let left = ui.cursor().left();
    legend.show(ui, left);
    // A few bars stand at the left, none wider than it needs.
    let room_for = passes.max(LEAST) as f64;
    let names: Vec<_> = (0..passes)
        .map(|pass| (pass as f64, (pass + 1).to_string()))
        .collect();
    let chart = Chart {
        id: "spreads",
        description: words.side_spreads(words.unit_name(figures.unit)),
        palette,
        figures,
        height: height - above,
        x: (-0.5, room_for - 0.5),
        names: &names,
        names_above: false,
        // Figures stand over the bars.
        y: (0.0, most * 1.2),
        wall: None,
        right: NAMES,
    };
    let limit = Band {
        low_nm: 0.0,
        high_nm: tolerance.nm_f64(),
    };
    let limit_name = words.side_limit(figures.limit(tolerance));
    let inside = |pass: usize| {
        let spread = spreads.get(pass).and_then(Option::as_ref);
        spread.map(|spread| (spread, spread.value <= tolerance.into()))
    };
    let transform = plot::lines(ui, chart, Some((limit, limit_name)), &[], |sheet| {
        for pass in 0..passes {
            let x = pass as f64;
            if let Some((spread, inside)) = inside(pass) {
                let inks = match inside {
                    true => (palette.good_back, palette.good),
                    false => (palette.outside_back, palette.outside),
                };
                sheet.bar(x, spread.value.nm_f64(), 0.6, inks);
            }
            // Beside the bar, so that neither hides the other.
            if let Some(forecast) = foretold(pass) {
                let (x, pen) = (x + 0.36, Pen::solid(palette.preview, 1.8));
                sheet.whisker(x, (forecast.median_nm, forecast.p90_nm), pen);
                let (shape, radius, fill) = (MarkerShape::Circle, 3.0, palette.preview);
                sheet.marks(
                    &[[x, forecast.median_nm]],
                    Mark {
                        shape,
                        radius,
                        fill,
                        pen,
                    },
                );
            }
        }
    });
    let step = transform.dpos_dvalue_x() as f32;
    for pass in 0..passes {
        let at = |y: f64| transform.position_from_point(&PlotPoint::new(pass as f64, y));
        // On a ground that keeps lines off it.
        if let Some((spread, inside)) = inside(pass).filter(|_| step > FIGURE_WIDTH) {
            let mark = if inside { "✓" } else { "✕" };
            let text = format!("{mark} {}", figures.spread(spread.value, tolerance));
            let font = theme::bold(size::SMALL);
            let galley = ui.painter().layout_no_wrap(text, font, palette.ink);
            let above = at(spread.value.nm_f64()) - Vec2::new(0.0, 2.0);
            let rect = Align2::CENTER_BOTTOM.anchor_size(above, galley.size());
            ui.painter().rect_filled(rect, 2.0, palette.card);
            ui.painter().galley(rect.min, galley, palette.ink);
        }
        let name = bar_name(scene, pass);
        let frame = transform.frame();
        let middle = Pos2::new(at(0.0).x, frame.center().y);
        let place = Rect::from_center_size(middle, Vec2::new(step, frame.height()));
        let id = ui.scope_id().with(("spread", pass));
        let bar = ui.interact(place, id, Sense::hover());
        bar.widget_info(|| WidgetInfo::labeled(Role::Label, true, &name));
        bar.hint(name);
    }
}

/// A bar in words.
fn bar_name(scene: &Scene<'_>, pass: usize) -> String {
    let words = scene.words();
    let figures = scene.figures;
    let mut name = words.pass_number(pass + 1);
    let spread = scene.session.spread_of(pass).map_or_else(
        || words.not_read_yet().to_owned(),
        |spread| words.spread_is(figures.exact_mean(spread.value)),
    );
    name.push_str(", ");
    name.push_str(&spread);
    if let Some(foresight) = scene.history.of(pass) {
        let of = |nm| figures.with_unit(&figures.predicted(nm));
        let forecast = foresight.forecast;
        name.push_str(", ");
        name.push_str(&words.side_foretold_spread(of(forecast.median_nm), of(forecast.p90_nm)));
    }
    name
}
