//! The strip under the nuts: the jaws edge-on on the chart's own axis.

use eframe::egui::{Sense, Ui, Vec2};

use crate::window::theme::{self, size};

use crate::window::views::Scene;
use crate::window::views::picture::jaw_axis::JawAxis;
use crate::window::views::picture::splice::{self, ArmMark, Shown, Splice};
use crate::words::Language;

/// Draws rods, stationary jaw, belt with its hooks, and moving jaw.
pub fn show(ui: &mut Ui, scene: &Scene<'_>, axis: JawAxis, height: f32) {
    let (area, _) = ui.allocate_exact_size(Vec2::new(ui.available_width(), height), Sense::hover());
    let words = scene.words();
    let outlook = scene.outlook;
    let turns = scene.foreseen();
    let turned = turns.iter().any(|turn| turn.0 != 0);
    let after = match turned {
        true => outlook.means_after(&turns),
        false => vec![None; outlook.means_nm.len()],
    };
    // Nothing is drawn of a piece that something is to be cleared up about.
    let none = vec![None; outlook.means_nm.len()];
    let means = match scene.nuts_wait() {
        true => &none,
        false => &outlook.means_nm,
    };
    let known = means.iter().any(Option::is_some);
    let low = height < 120.0;
    let font = if low { size::LEAST } else { size::SMALL };
    let lower = if low {
        16.0
    } else {
        (height * 0.17).clamp(20.0, 30.0)
    };
    splice::paint(
        ui.painter(),
        area,
        lower,
        &Splice {
            palette: scene.palette,
            axis,
            stations_nm: &outlook.stations_nm,
            means_nm: means,
            beside_nm: turned.then_some((&after[..], Shown::Expected)),
            likely_nm: None,
            // Of the piece that was measured: its hooks are drawn.
            band: scene.session.bands_over(means, &after)[0],
            range_nm: outlook.widest_nm,
            shown: Shown::Measured,
            bitten: false,
            arms: &arms(scene),
            marks: None,
            texts: [
                &|factor| match known {
                    true => words.stationary_jaw(factor),
                    false => words.jaw_above().to_owned(),
                },
                &|_| words.moving_jaw().to_owned(),
            ],
            fonts: [theme::regular(font), theme::regular(font)],
            ends: [""; 2],
            patches: Some(patches(words)),
        },
    );
}

/// The arms, without nuts and readings.
pub fn arms(scene: &Scene<'_>) -> Vec<ArmMark> {
    let arms = scene.outlook.arms_nm.iter().enumerate();
    arms.map(|(index, at_nm)| ArmMark {
        name: crate::press::ArmIndex(index).to_string(),
        at_nm: *at_nm,
        reading: None,
        turn: None,
        tag: None,
    })
    .collect()
}

/// What is written where the splice is crushed, where it is loose, and at the
/// band.
pub fn patches(words: Language) -> [&'static str; 3] {
    [
        words.patch_crushed(),
        words.patch_loose(),
        words.patch_tolerance(),
    ]
}
