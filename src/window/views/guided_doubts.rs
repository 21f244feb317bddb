//! Questions about readings just taken that look mistyped.

use eframe::egui::{RichText, Ui};

use crate::session::{Doubt, Edit};
use crate::splice::WalkPlace;
use crate::window::action::Action;
use crate::window::guided::Guided;

use super::Scene;
use super::widgets::centred;

/// Asks about readings of this walk that look mistyped.
pub fn show(ui: &mut Ui, scene: &mut Scene<'_>, guided: &mut Guided, pass: usize) {
    let odd: Vec<(WalkPlace, Doubt)> = scene
        .outlook
        .doubts
        .iter()
        .map(|(station, repeat, doubt)| {
            let (station, repeat) = (*station, *repeat);
            (WalkPlace { station, repeat }, doubt.clone())
        })
        .filter(|(place, _)| guided.taken.contains(place) && !guided.kept.contains(place))
        .collect();
    for (place, doubt) in odd.into_iter().take(2) {
        question(ui, scene, guided, pass, (place, doubt));
    }
}

/// Asks about one odd reading. It is kept as it is until somebody answers.
fn question(
    ui: &mut Ui,
    scene: &mut Scene<'_>,
    guided: &mut Guided,
    pass: usize,
    (place, doubt): (WalkPlace, Doubt),
) {
    let words = scene.words();
    let name = scene.session.station_name(place.station);
    let at = words.guided_place(&name, place.repeat + 1);
    let reading = scene.session.reading_at(pass, place.station, place.repeat);
    let sentence = scene.figures.doubt_sentence(&at, reading, &doubt);
    ui.label(RichText::new(format!("⚠ {sentence}")).color(scene.palette.caution));
    let mut buttons = vec![
        (words.guided_keep().to_owned(), true),
        (words.guided_again(&name), true),
    ];
    if let Doubt::OtherUnit(other) = &doubt {
        let text = words.read_as_unit(words.unit_name(other.unit()));
        buttons.push((text, true));
    }
    match centred(ui, &buttons) {
        Some(0) => guided.kept.push(place),
        Some(1) => guided.go_to(scene.session, place),
        Some(_) => scene.ask(Action::Edit(Edit::ReadInOtherUnit {
            pass,
            station: place.station,
            repeat: place.repeat,
        })),
        None => return,
    }
    guided.wants_keyboard = true;
}
