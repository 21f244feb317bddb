//! The jaw of a new session with its arms, as they are typed.

use eframe::egui::{
    Align2, CornerRadius, Pos2, Rect, Role, Sense, Shape, StrokeKind, Ui, Vec2, WidgetInfo,
};

use crate::press::{ArmIndex, CountQuantity};
use crate::units::TypedLength;
use crate::window::theme::{self, size};

use crate::window::views::Scene;
use crate::window::views::picture::jaw_axis::JawAxis;

/// Height of the sketch, and of the jaw in it.
const HEIGHT: f32 = 68.0;
const JAW: f32 = 18.0;

/// Draws it; without a length the arms stand somewhere along it, faintly.
pub fn show(
    ui: &mut Ui,
    scene: &Scene<'_>,
    jaw: Option<&TypedLength>,
    (arms, ghosts): (&[TypedLength], usize),
) {
    let palette = scene.palette;
    let words = scene.words();
    let width = ui.available_width();
    let (rect, response) = ui.allocate_exact_size(Vec2::new(width, HEIGHT), Sense::hover());
    let label = words.sketch_of_jaw(arms.len());
    response.widget_info(|| WidgetInfo::labeled(Role::Image, true, &label));
    let bar = Rect::from_min_max(
        Pos2::new(rect.left() + 12.0, rect.center().y - JAW / 2.0),
        Pos2::new(rect.right() - 12.0, rect.center().y + JAW / 2.0),
    );
    let painter = ui.painter();
    painter.rect(
        bar,
        CornerRadius::same(3),
        palette.steel,
        theme::stroke(1.5, palette.steel_edge),
        StrokeKind::Inside,
    );
    let Some(jaw) = jaw else {
        let most = CountQuantity::Arms.bounds().most;
        let ghosts = ghosts.min(usize::try_from(most).unwrap_or(0));
        for arm in 0..ghosts {
            let share = (arm as f32 + 0.5) / ghosts as f32;
            let x = bar.left() + share * bar.width();
            let ends = [bar.top() - 6.0, bar.bottom() + 4.0].map(|y| Pos2::new(x, y));
            let line = theme::stroke(1.5, palette.steel_edge);
            painter.extend(Shape::dashed_line(&ends, line, 4.0, 4.0));
            painter.text(
                Pos2::new(x, bar.top() - 7.0),
                Align2::CENTER_BOTTOM,
                ArmIndex(arm),
                theme::regular(size::BODY),
                palette.muted,
            );
        }
        return;
    };
    let axis = JawAxis {
        left: bar.left(),
        right: bar.right(),
        length_nm: jaw.length().nm_f64(),
    };
    let mut free_from = f32::NEG_INFINITY;
    let (mut named_left, mut named_right) = (false, false);
    for (index, arm) in arms.iter().enumerate() {
        let x = axis.x(arm.length().nm_f64());
        // An arm beside its jaw shows at the end it is beyond; of several the
        // first is named.
        let outside = !(bar.left()..=bar.right()).contains(&x);
        let named = if x > bar.right() {
            &mut named_right
        } else {
            &mut named_left
        };
        if outside && std::mem::replace(named, true) {
            continue;
        }
        let x = x.clamp(rect.left() + 4.0, rect.right() - 4.0);
        let ink = if outside {
            palette.caution
        } else {
            palette.present
        };
        painter.vline(
            x,
            bar.top() - 6.0..=bar.bottom() + 4.0,
            theme::stroke(2.5, ink),
        );
        painter.text(
            Pos2::new(x, bar.top() - 7.0),
            Align2::CENTER_BOTTOM,
            if outside {
                format!("⚠ {}", ArmIndex(index))
            } else {
                ArmIndex(index).to_string()
            },
            theme::bold(size::BODY),
            ink,
        );
        let place = painter.layout_no_wrap(
            scene.figures.plain(arm.length()),
            theme::regular(size::SMALL),
            palette.muted,
        );
        // Places that would run into each other are left out.
        let half = place.size().x / 2.0;
        let left = (x - half).clamp(rect.left(), (rect.right() - 2.0 * half).max(rect.left()));
        if left > free_from {
            free_from = left + 2.0 * half + 6.0;
            painter.galley(Pos2::new(left, bar.bottom() + 6.0), place, palette.muted);
        }
    }
}
