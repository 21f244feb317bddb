//! Help: what to do, with pictures; the cautions in full; what the words mean;
//! keys last. What stands before every turn stays above all of it.

use eframe::egui::style::ScrollAnimation;
use eframe::egui::text::{LayoutJob, TextFormat};
use eframe::egui::{
    Align, EventFilter, Id, KeyboardShortcut, Label, Rect, RichText, Role, Sense, Ui, Vec2,
    WidgetInfo,
};

use crate::press::{ArmIndex, Notches, WrenchWay};
use crate::report::NutTurn;
use crate::session::{Caution, Rule};
use crate::splice::Band;
use crate::window::commands::{COMMANDS, written};
use crate::window::theme::{self, TARGET, size};
use crate::window::views::picture::jaw_axis::JawAxis;
use crate::window::views::picture::splice::{self, ArmMark, Shown, Splice};
use crate::window::views::turning::{safety, wrench};
use crate::window::views::widgets::{muted, strong, tab, tabs, title};
use crate::window::views::{Scene, dialog_room};

/// Height of a page, where the window has it.
const PAGE: f32 = 640.0;
/// Widest column of words and of keys, and width from which keys stand beside
/// each other.
const NAMES: f32 = 210.0;
const BESIDE: f32 = 700.0;
/// Height of the pictures, and width of the one of the splice and of a nut.
const PICTURES: Vec2 = Vec2::new(400.0, 170.0);
const NUT: f32 = 240.0;
/// Thickness at four arms evenly along the jaw, in nanometres, and the
/// tolerance: an example that stands for no press.
const PINCHED_NM: [f64; 4] = [6_380_000.0, 6_210_000.0, 6_370_000.0, 6_400_000.0];
const TOLERANCE_NM: f64 = 76_200.0;
const JAW_NM: f64 = 1_200_000_000.0;

/// What draws a part of the page.
type Part = fn(&mut Ui, &Scene<'_>);

/// Draws it, but for its title and the button that closes it: one page that
/// scrolls, below what stands before every turn and names that lead to its parts.
pub fn show(ui: &mut Ui, scene: &Scene<'_>) {
    let words = scene.words();
    let parts: [(&str, Part); 4] = [
        (words.help_way(), way),
        (words.help_safety(), cautions),
        (words.glossary_title(), glossary),
        (words.shortcuts(), keys),
    ];
    safety::cautions(ui, scene, None);
    let kept = Id::unique("help");
    let mut on_show: usize = ui.data(|data| data.get_temp(kept)).unwrap_or_default();
    let mut wanted = None;
    tabs(ui, scene.palette, |ui| {
        for (index, (name, _)) in parts.iter().enumerate() {
            let response = tab(ui, scene.palette, on_show == index, name);
            if response.has_focus() {
                // Up and down scroll the page.
                let own = EventFilter {
                    vertical_arrows: true,
                    ..EventFilter::default()
                };
                ui.memory_mut(|memory| memory.set_focus_lock_filter(response.id, own));
            }
            if response.clicked() {
                wanted = Some(index);
            }
        }
    });
    on_show = 0;
    dialog_room::middle_of_height(ui, PAGE, |ui| {
        for (index, (name, part)) in parts.into_iter().enumerate() {
            let heading = title(ui, name);
            if wanted == Some(index) {
                // Below where the page fades.
                let place = heading.rect.expand(TARGET / 2.0);
                ui.scroll_to_rect_animation(place, Some(Align::TOP), ScrollAnimation::none());
            }
            if heading.rect.top() < ui.clip_rect().top() + 2.0 * TARGET {
                on_show = index;
            }
            part(ui, scene);
            ui.add_space(TARGET / 2.0);
        }
    });
    ui.data_mut(|data| data.insert_temp(kept, on_show));
}

/// What to do, with pictures.
fn way(ui: &mut Ui, scene: &Scene<'_>) {
    pictures(ui, scene);
    for paragraph in scene.words().help_paragraphs().lines() {
        ui.label(paragraph);
    }
}

/// The words of the trade.
fn glossary(ui: &mut Ui, scene: &Scene<'_>) {
    let words = scene.words();
    for word in words.glossary() {
        let mut meaning = word.meaning.to_owned();
        if !word.also.is_empty() {
            meaning = words.word_also(meaning, word.also.join(", "));
        }
        row(ui, word.name, &meaning);
    }
}

/// Keys by what they are for, beside each other where there is room.
fn keys(ui: &mut Ui, scene: &Scene<'_>) {
    let words = scene.words();
    let mut groups: Vec<(&str, Vec<(String, &str)>)> = Vec::new();
    let names = [words.keys_work(), words.keys_view(), words.keys_file()];
    for (name, commands) in names.into_iter().zip(COMMANDS) {
        let same = commands.chunk_by(|one, next| one.0 == next.0);
        let rows = same.filter_map(|same| {
            let (command, _, _) = same.first()?;
            let written = same.iter().map(|(_, modifiers, key)| {
                let shortcut = KeyboardShortcut::new(*modifiers, *key);
                written(ui.ctx(), words, &shortcut)
            });
            let written = written.collect::<Vec<_>>().join(", ");
            Some((written, command.words(words)))
        });
        groups.push((name, rows.collect()));
    }
    for line in words.keys_of_places().lines() {
        match (line.split_once('\t'), groups.last_mut()) {
            (Some((keys, what)), Some((_, rows))) => rows.push((keys.to_owned(), what)),
            _ => groups.push((line, Vec::new())),
        }
    }
    let count = if ui.available_width() < BESIDE { 1 } else { 2 };
    ui.columns(count, |columns| {
        for (name, rows) in groups {
            // Where there is most room left.
            let height = |ui: &&mut Ui| ui.min_rect().height();
            let shortest = columns
                .iter_mut()
                .min_by(|a, b| height(a).total_cmp(&height(b)));
            let Some(ui) = shortest else { return };
            ui.label(strong(name));
            for (keys, what) in rows {
                row(ui, &keys, what);
            }
            ui.add_space(8.0);
        }
    });
}

/// A name before what it stands for, so that long words wrap within the width.
fn row(ui: &mut Ui, name: &str, meaning: &str) {
    ui.horizontal_top(|ui| {
        // What is only read needs no room for a finger.
        ui.spacing_mut().interact_size.y = 22.0;
        let wide = NAMES.min(ui.available_width() * 0.4);
        // Beside each other labels would not wrap.
        ui.vertical(|ui| {
            ui.set_width(wide);
            ui.label(strong(name));
        });
        ui.vertical(|ui| ui.label(meaning));
    });
}

/// Cautions in the order in which they are needed.
const CAUTIONS: [&[Caution]; 3] = [
    &[
        Caution::TellOthers,
        Caution::MadeSafe,
        Caution::TryAgain,
        Caution::JawBlocked,
    ],
    &[Caution::OutsThenIns, Caution::Pins, Caution::Handle],
    &[
        Caution::HandsClear,
        Caution::Eyes,
        Caution::NipPoints,
        Caution::CompressedAir,
    ],
];

/// What overrules everything first, then the cautions by when they are needed,
/// their sources once at the end.
fn cautions(ui: &mut Ui, scene: &Scene<'_>) {
    let words = scene.words();
    let palette = scene.palette;
    let mut rules: Vec<Rule> = Vec::new();
    let names = [
        words.help_before_hands(),
        words.help_at_the_nuts(),
        words.help_at_the_jaws(),
    ];
    for (name, group) in names.into_iter().zip(CAUTIONS) {
        ui.label(strong(name));
        for caution in group {
            let part = |font, ink| TextFormat::simple(font, ink);
            let mut text = LayoutJob::default();
            let body = theme::regular(size::BODY);
            let said = format!("• {}", words.caution(*caution));
            text.append(&said, 0.0, part(body, palette.ink));
            for rule in caution.rules() {
                let known = rules.iter().position(|known| known == rule);
                let number = known.unwrap_or_else(|| {
                    rules.push(*rule);
                    rules.len() - 1
                });
                let mark = format!(" [{}]", number + 1);
                let small = theme::regular(size::LEAST);
                text.append(&mark, 0.0, part(small, palette.muted));
            }
            ui.add(Label::new(text).wrap());
        }
    }
    let sources = rules.iter().zip(1..).map(|(rule, number)| {
        let name = words.rule(*rule).split(" (").next().unwrap_or_default();
        format!("[{number}] {name}")
    });
    let sources = sources.collect::<Vec<_>>().join(", ");
    ui.label(muted(palette, words.help_sources(sources)));
}

/// A pinched splice, and the two ways of a nut.
fn pictures(ui: &mut Ui, scene: &Scene<'_>) {
    let words = scene.words();
    let room = ui.available_width();
    let drawn = |ui: &mut Ui| {
        let width = PICTURES.x.min(room);
        captioned(ui, width, words.help_drawn_pinched(), |ui, area| {
            pinched(ui, scene, area, true);
        });
        let press = &scene.session.press;
        // The caption names the thread it is drawn for.
        let left = press.left_hand_thread.unwrap_or_default();
        let thread = match left {
            true => words.left_hand_thread_short(),
            false => words.right_hand_thread(),
        };
        for turn in [Notches(-1), Notches(1)] {
            let way = WrenchWay::of(turn, left);
            let said = way.map_or("", |way| words.wrench(way));
            let caption = match turn.0 {
                1.. => words.help_drawn_out(said, thread),
                _ => words.help_drawn_in(said, thread),
            };
            captioned(ui, NUT.min(room), &caption, |ui, area| {
                let radius = PICTURES.y * 0.27;
                let turned = way.map(|way| NutTurn {
                    way,
                    notches: 1,
                    from: 0,
                    done: false,
                });
                wrench::show(ui.painter(), scene.palette, area.center(), radius, turned);
            });
        }
    };
    // In a narrow window they stand below each other.
    let side_by_side = PICTURES.x + 2.0 * (NUT + ui.spacing().item_spacing.x);
    if room >= side_by_side {
        ui.horizontal_top(drawn);
    } else {
        ui.vertical(drawn);
    }
}

/// A picture with its caption below, which is also its name.
fn captioned(ui: &mut Ui, width: f32, caption: &str, paint: impl FnOnce(&Ui, Rect)) {
    ui.vertical(|ui| {
        ui.set_width(width);
        let (area, response) = ui.allocate_exact_size(Vec2::new(width, PICTURES.y), Sense::hover());
        response.widget_info(|| WidgetInfo::labeled(Role::Image, true, caption));
        paint(ui, area);
        ui.label(RichText::new(caption).font(theme::bold(size::SMALL)));
    });
}

/// A pinched splice, its parts `told` or not.
pub fn pinched(ui: &Ui, scene: &Scene<'_>, area: Rect, told: bool) {
    let words = scene.words();
    let stations = [1.0, 3.0, 5.0, 7.0].map(|eighths| JAW_NM * eighths / 8.0);
    let arms: Vec<ArmMark> = stations
        .iter()
        .enumerate()
        .map(|(index, at_nm)| ArmMark {
            name: ArmIndex(index).to_string(),
            at_nm: *at_nm,
            reading: None,
            turn: None,
            tag: None,
        })
        .collect();
    let named = |text: String| if told { text } else { String::new() };
    let inset = 4.0;
    splice::paint(
        &ui.painter_at(area),
        area,
        24.0,
        &Splice {
            palette: scene.palette,
            axis: JawAxis {
                left: area.left() + inset,
                right: area.right() - inset,
                length_nm: JAW_NM,
            },
            stations_nm: &stations,
            means_nm: &PINCHED_NM.map(Some),
            beside_nm: None,
            likely_nm: None,
            band: Band::over(&PINCHED_NM, TOLERANCE_NM),
            range_nm: 0.0,
            shown: Shown::Measured,
            bitten: false,
            arms: &arms,
            // Thin enough for the nut to be seen around its letter.
            marks: Some(theme::regular(size::TITLE)),
            texts: [&|factor| named(words.stationary_jaw(factor)), &|_| {
                named(words.moving_jaw().to_owned())
            }],
            fonts: [(); 2].map(|()| theme::regular(size::SMALL)),
            ends: [""; 2],
            patches: None,
        },
    );
}
