//! Help: cautions first; what to do, with pictures; what the words mean; keys
//! last.

use eframe::egui::text::{LayoutJob, TextFormat};
use eframe::egui::{
    EventFilter, Id, KeyboardShortcut, Label, Rect, RichText, Role, Sense, Ui, Vec2, WidgetInfo,
};

use crate::press::{ArmIndex, Notches};
use crate::report::NutTurn;
use crate::session::{Caution, Rule};
use crate::splice::Band;
use crate::window::commands::{COMMANDS, written};
use crate::window::theme::{self, size};
use crate::window::views::hint::keep_clear;
use crate::window::views::picture::jaw_axis::JawAxis;
use crate::window::views::picture::splice::{self, ArmMark, Shown, Splice};
use crate::window::views::turning::wrench;
use crate::window::views::widgets::{muted, strong, tab, tabs};
use crate::window::views::{Scene, dialog_room};
use crate::words::Language;

/// Height of a page, where the window has it.
const PAGE: f32 = 640.0;
/// Widest column of words and of keys, and width from which keys stand beside
/// each other.
const NAMES: f32 = 210.0;
const BESIDE: f32 = 700.0;
/// Height of the pictures, and width of the one of the splice.
const PICTURES: Vec2 = Vec2::new(400.0, 170.0);
/// Thickness at four arms evenly along the jaw, in nanometres, and the
/// tolerance: an example that stands for no press.
const PINCHED_NM: [f64; 4] = [6_380_000.0, 6_210_000.0, 6_370_000.0, 6_400_000.0];
const TOLERANCE_NM: f64 = 76_200.0;
const JAW_NM: f64 = 1_200_000_000.0;

/// A part of Help.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
enum Part {
    #[default]
    Safety,
    Way,
    Words,
    Keys,
}

/// Draws it, but for its title and the button that closes it: the parts, each
/// on its own page, cautions first.
pub fn show(ui: &mut Ui, scene: &Scene<'_>) {
    let words = scene.words();
    let kept = Id::unique("help");
    let mut part: Part = ui.data(|data| data.get_temp(kept)).unwrap_or_default();
    tabs(ui, scene.palette, |ui| {
        for (one, name) in [
            (Part::Safety, words.help_safety()),
            (Part::Way, words.help_way()),
            (Part::Words, words.glossary_title()),
            (Part::Keys, words.shortcuts()),
        ] {
            let response = tab(ui, scene.palette, part == one, name);
            if response.has_focus() {
                // Up and down scroll the page.
                let own = EventFilter {
                    vertical_arrows: true,
                    ..EventFilter::default()
                };
                ui.memory_mut(|memory| memory.set_focus_lock_filter(response.id, own));
            }
            if response.clicked() {
                part = one;
            }
        }
    });
    ui.data_mut(|data| data.insert_temp(kept, part));
    dialog_room::middle_of_height(ui, PAGE, |ui| match part {
        Part::Safety => cautions(ui, scene),
        Part::Way => {
            pictures(ui, scene);
            for paragraph in words.help_paragraphs().lines() {
                ui.label(paragraph);
            }
        }
        Part::Words => {
            for word in words.glossary() {
                let mut meaning = word.meaning.to_owned();
                if !word.also.is_empty() {
                    meaning = words.word_also(meaning, word.also.join(", "));
                }
                row(ui, word.name, &meaning);
            }
        }
        Part::Keys => keys(ui, words),
    });
}

/// Keys by what they are for, beside each other where there is room.
fn keys(ui: &mut Ui, words: Language) {
    ui.spacing_mut().interact_size.y = 22.0;
    let names = [words.keys_work(), words.keys_view(), words.keys_file()];
    let commands = |ui: &mut Ui, group: usize| {
        ui.label(strong(names.get(group).copied().unwrap_or_default()));
        let commands = COMMANDS.get(group).copied().unwrap_or_default();
        for same in commands.chunk_by(|one, next| one.0 == next.0) {
            let written = same.iter().map(|(_, modifiers, key)| {
                let shortcut = KeyboardShortcut::new(*modifiers, *key);
                written(ui.ctx(), &shortcut)
            });
            let written = written.collect::<Vec<_>>().join(", ");
            let what = same
                .first()
                .map_or("", |(command, _, _)| command.words(words));
            row(ui, &written, what);
        }
    };
    let columns = if ui.available_width() < BESIDE { 1 } else { 2 };
    ui.columns(columns, |columns| {
        if let [first, rest @ ..] = columns {
            commands(first, 0);
            first.label(strong(words.keys_places()));
            let lines = words.keys_of_places().lines();
            for (keys, what) in lines.filter_map(|line| line.split_once('\t')) {
                row(first, keys, what);
            }
            let beside = rest.first_mut().unwrap_or(first);
            (1..COMMANDS.len()).for_each(|group| commands(beside, group));
        }
    });
}

/// A name before what it stands for, so that long words wrap within the width.
fn row(ui: &mut Ui, name: &str, meaning: &str) {
    ui.horizontal_top(|ui| {
        ui.scope(|ui| {
            ui.set_width(NAMES.min(ui.available_width() * 0.4));
            ui.label(RichText::new(name).font(theme::bold(size::BODY)));
        });
        // Beside each other labels would not wrap.
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
    let manual = RichText::new(format!("⚠ {}", words.cautions_manual_first()));
    ui.label(manual.font(theme::bold(size::BODY)).color(palette.caution));
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
    keep_clear(ui.ctx(), ui.min_rect());
}

/// A pinched splice, and the two ways of a nut.
fn pictures(ui: &mut Ui, scene: &Scene<'_>) {
    let words = scene.words();
    let room = ui.available_width();
    let drawn = |ui: &mut Ui| {
        let width = PICTURES.x.min(room);
        captioned(ui, width, words.help_drawn_pinched(), |ui, area| {
            pinched(ui, scene, area);
        });
        let press = &scene.session.press;
        let thread = match press.left_hand_thread {
            true => words.left_hand_thread_short(),
            false => words.right_hand_thread(),
        };
        for turn in [Notches(-1), Notches(1)] {
            let way = press.wrench_way(turn);
            let said = way.map_or("", |way| words.wrench(way));
            let caption = match turn.0 {
                1.. => words.help_drawn_out(said, thread),
                _ => words.help_drawn_in(said, thread),
            };
            captioned(ui, PICTURES.y, &caption, |ui, area| {
                let radius = PICTURES.y * 0.27;
                let turned = way.map(|way| NutTurn {
                    way,
                    notches: 1,
                    done: false,
                });
                wrench::show(ui.painter(), scene.palette, area.center(), radius, turned);
            });
        }
    };
    // In a narrow window they stand below each other.
    let side_by_side = PICTURES.x + 2.0 * (PICTURES.y + ui.spacing().item_spacing.x);
    if room >= side_by_side - 40.0 {
        ui.horizontal_wrapped(drawn);
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

fn pinched(ui: &Ui, scene: &Scene<'_>, area: Rect) {
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
            band: Band::over(&PINCHED_NM, TOLERANCE_NM),
            range_nm: 0.0,
            shown: Shown::Measured,
            bitten: false,
            arms: &arms,
            marks: Some(theme::bold(size::BODY)),
            texts: [&|factor| words.stationary_jaw(factor), &|_| {
                words.moving_jaw().to_owned()
            }],
            fonts: [(); 2].map(|()| theme::regular(size::SMALL)),
            ends: [""; 2],
            patches: None,
        },
    );
}
