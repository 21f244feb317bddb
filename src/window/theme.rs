//! The only place with colours, type sizes and distances.

use eframe::egui::{
    self, Color32, CornerRadius, FontData, FontDefinitions, FontFamily, FontId, Margin, Stroke,
    TextStyle, Theme,
};

use crate::units::listed;

/// Smallest height of anything that is pressed, for a finger in a glove.
pub const TARGET: f32 = 44.0;

/// Distance between cards.
pub const GAP: f32 = 10.0;

listed! {
    /// The looks a user can choose.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
    pub enum Look {
        /// Follow the desktop.
        #[default]
        System = "system",
        /// For bright rooms and sunlight.
        Light = "light",
        /// For a dim shop.
        Dark = "dark",
        /// Black, white and as little else as can be.
        HighContrast = "high-contrast",
    }
}

impl Look {
    /// Tells egui which theme to draw.
    pub fn choose(self, ctx: &egui::Context) {
        ctx.set_theme(match self {
            Self::System => egui::ThemePreference::System,
            Self::Light => egui::ThemePreference::Light,
            Self::Dark | Self::HighContrast => egui::ThemePreference::Dark,
        });
        let dark = if self == Self::HighContrast {
            &HIGH_CONTRAST
        } else {
            &DARK
        };
        apply_theme(ctx, Theme::Dark, dark);
        apply_theme(ctx, Theme::Light, &LIGHT);
    }

    /// The colours in force.
    pub fn palette(self, ctx: &egui::Context) -> &'static Palette {
        match (self, ctx.theme()) {
            (Self::HighContrast, _) => &HIGH_CONTRAST,
            (_, Theme::Dark) => &DARK,
            (_, Theme::Light) => &LIGHT,
        }
    }
}

/// Colours by what they are for. None carries meaning alone: shape, pattern
/// or word always says it too.
#[derive(Debug)]
pub struct Palette {
    /// Behind the cards.
    pub paper: Color32,
    /// A card.
    pub card: Color32,
    /// A field to type in.
    pub field: Color32,
    /// A button or a nut's plate.
    pub button: Color32,
    /// The same under the pointer.
    pub button_hover: Color32,
    /// Borders of cards, and rules.
    pub line: Color32,
    /// Borders of what is typed into, ticked or pressed.
    pub edge: Color32,
    /// Grid lines of the chart.
    pub grid: Color32,
    /// Text.
    pub ink: Color32,
    /// Text of lesser weight; still readable.
    pub muted: Color32,
    /// How things are now; the main button.
    pub present: Color32,
    /// Text on `present`.
    pub on_present: Color32,
    /// What is about to be changed: turns, and what they would make of it.
    pub preview: Color32,
    /// Behind something about to be changed.
    pub preview_back: Color32,
    /// Outside the tolerance: a bad verdict, a place too thick or too thin.
    pub outside: Color32,
    /// Behind something outside the tolerance.
    pub outside_back: Color32,
    /// The tolerance band.
    pub band: Color32,
    /// The band's edge and words.
    pub band_edge: Color32,
    /// Cautions.
    pub caution: Color32,
    /// Behind cautions.
    pub caution_back: Color32,
    /// A good verdict.
    pub good: Color32,
    /// Behind a good verdict.
    pub good_back: Color32,
    /// Steel of jaws and rods.
    pub steel: Color32,
    /// Edges of steel.
    pub steel_edge: Color32,
    /// The belt.
    pub belt: Color32,
    /// Edge of the belt and the hooks in it.
    pub belt_edge: Color32,
}

const fn rgb(hex: u32) -> Color32 {
    Color32::from_rgb((hex >> 16) as u8, (hex >> 8) as u8, hex as u8)
}

static LIGHT: Palette = Palette {
    paper: rgb(0xf3efe6),
    card: rgb(0xfffdf8),
    field: rgb(0xffffff),
    button: rgb(0xf1ece0),
    button_hover: rgb(0xe6dfcd),
    line: rgb(0xcfc7b5),
    edge: rgb(0x857c68),
    grid: rgb(0xeae4d6),
    ink: rgb(0x1d2a34),
    muted: rgb(0x55626d),
    present: rgb(0x1d3557),
    on_present: rgb(0xffffff),
    preview: rgb(0x6a2fa3),
    preview_back: rgb(0xf0e6fa),
    outside: rgb(0xa84a05),
    outside_back: rgb(0xfbe9dc),
    band: rgb(0xdcebe5),
    band_edge: rgb(0x35665a),
    caution: rgb(0x86191c),
    caution_back: rgb(0xfaeae6),
    good: rgb(0x1f5c46),
    good_back: rgb(0xdcefe4),
    steel: rgb(0xc5ced6),
    steel_edge: rgb(0x7d8a97),
    belt: rgb(0xe3d4b3),
    belt_edge: rgb(0xa08c5b),
};

static DARK: Palette = Palette {
    paper: rgb(0x14191e),
    card: rgb(0x1d242b),
    field: rgb(0x12171b),
    button: rgb(0x2a333c),
    button_hover: rgb(0x37424d),
    line: rgb(0x43505c),
    edge: rgb(0x7f90a0),
    grid: rgb(0x2b343d),
    ink: rgb(0xeef2f4),
    muted: rgb(0xa9b6c1),
    present: rgb(0x8fbcf0),
    on_present: rgb(0x0e1c2c),
    preview: rgb(0xd3abff),
    preview_back: rgb(0x352850),
    outside: rgb(0xf2a65e),
    outside_back: rgb(0x3d2c1c),
    band: rgb(0x24413a),
    band_edge: rgb(0x84c7b3),
    caution: rgb(0xffb0a6),
    caution_back: rgb(0x44211f),
    good: rgb(0x96dcb8),
    good_back: rgb(0x1e3f30),
    steel: rgb(0x4a5764),
    steel_edge: rgb(0x93a1ae),
    belt: rgb(0x5b4f35),
    belt_edge: rgb(0xbfa871),
};

static HIGH_CONTRAST: Palette = Palette {
    paper: rgb(0x000000),
    card: rgb(0x000000),
    field: rgb(0x000000),
    button: rgb(0x101010),
    button_hover: rgb(0x303030),
    line: rgb(0xffffff),
    edge: rgb(0xffffff),
    grid: rgb(0x4a4a4a),
    ink: rgb(0xffffff),
    muted: rgb(0xe6e6e6),
    present: rgb(0xffffff),
    on_present: rgb(0x000000),
    preview: rgb(0xe0a6ff),
    preview_back: rgb(0x280a3a),
    outside: rgb(0xffd23f),
    outside_back: rgb(0x2a2200),
    band: rgb(0x0b3a2a),
    band_edge: rgb(0x7dffce),
    caution: rgb(0xffb3a8),
    caution_back: rgb(0x3a0b06),
    good: rgb(0x8cffc0),
    good_back: rgb(0x06301b),
    steel: rgb(0x3a3a3a),
    steel_edge: rgb(0xffffff),
    belt: rgb(0x4a3d1c),
    belt_edge: rgb(0xffe08a),
};

/// A line for a curve or border.
pub fn stroke(width: f32, color: Color32) -> Stroke {
    Stroke::new(width, color)
}

/// Bold text of a size.
pub fn bold(size: f32) -> FontId {
    FontId::new(size, FontFamily::Name("bold".into()))
}

/// Regular text of a size.
pub fn regular(size: f32) -> FontId {
    FontId::new(size, FontFamily::Proportional)
}

/// Type sizes, in points at 100 %.
pub mod size {
    /// What there is no room for otherwise; nothing is smaller.
    pub const LEAST: f32 = 12.0;
    /// Notes.
    pub const SMALL: f32 = 12.5;
    /// Everything else.
    pub const BODY: f32 = 14.5;
    /// Titles of cards.
    pub const TITLE: f32 = 16.5;
    /// The one sentence.
    pub const SENTENCE: f32 = 19.0;
    /// Questions put at the turn card, read at arm's length.
    pub const CARD: f32 = 22.0;
    /// The one number.
    pub const FIGURE: f32 = 34.0;
}

/// A card's frame.
pub fn card(palette: &Palette) -> egui::Frame {
    egui::Frame::new()
        .fill(palette.card)
        .stroke(stroke(1.0, palette.line))
        .corner_radius(CornerRadius::same(7))
        .inner_margin(Margin::same(12))
}

/// How what scrolls within a dialog shows that there is more of it: a bar that
/// stays, in the room left for it, and an edge that fades.
pub fn lasting_scroll() -> egui::style::ScrollStyle {
    egui::style::ScrollStyle {
        floating_width: 7.0,
        dormant_background_opacity: 0.2,
        dormant_handle_opacity: 0.6,
        active_handle_opacity: 0.8,
        fade: egui::style::ScrollFadeStyle {
            strength: 1.0,
            size: 30.0,
        },
        ..egui::style::ScrollStyle::floating()
    }
}

/// Hands egui the fonts, once at the start.
///
/// Both are cut-down DejaVu Sans Condensed: tabular digits, the arrows, check
/// marks and prime marks that egui's own font lacks.
pub fn install_fonts(ctx: &egui::Context) {
    let mut fonts = FontDefinitions::default();
    let regular = FontData::from_static(crate::report::REGULAR);
    let bold = FontData::from_static(crate::report::BOLD);
    fonts.font_data.insert("regular".into(), regular.into());
    fonts.font_data.insert("bold".into(), bold.into());
    let fallbacks = fonts
        .families
        .get(&FontFamily::Proportional)
        .cloned()
        .unwrap_or_default();
    let family = |first: &str| {
        let mut names = vec![first.to_owned()];
        names.extend(fallbacks.iter().cloned());
        names
    };
    fonts
        .families
        .insert(FontFamily::Proportional, family("regular"));
    fonts
        .families
        .insert(FontFamily::Name("bold".into()), family("bold"));
    ctx.set_fonts(fonts);
}

fn apply_theme(ctx: &egui::Context, theme: Theme, palette: &'static Palette) {
    ctx.style_mut_of(theme, |style| {
        style.text_styles = [
            (TextStyle::Small, regular(size::SMALL)),
            (TextStyle::Body, regular(size::BODY)),
            (TextStyle::Button, regular(size::BODY)),
            (TextStyle::Heading, bold(size::TITLE)),
            (TextStyle::Monospace, FontId::monospace(size::BODY)),
        ]
        .into();
        let spacing = &mut style.spacing;
        spacing.item_spacing = egui::vec2(8.0, 7.0);
        spacing.button_padding = egui::vec2(11.0, 6.0);
        spacing.interact_size = egui::vec2(TARGET, TARGET);
        spacing.menu_margin = Margin::same(6);
        spacing.icon_width = 20.0;
        spacing.icon_width_inner = 12.0;
        spacing.scroll.bar_width = 10.0;
        // What is asked for is there at once.
        style.scroll_animation = egui::style::ScrollAnimation::none();
        let visuals = &mut style.visuals;
        *visuals = match theme {
            Theme::Dark => egui::Visuals::dark(),
            Theme::Light => egui::Visuals::light(),
        };
        // A caret that blinks draws the whole window again and again.
        visuals.text_cursor.blink = false;
        visuals.override_text_color = None;
        visuals.weak_text_color = Some(palette.muted);
        visuals.panel_fill = palette.paper;
        visuals.window_fill = palette.card;
        visuals.window_stroke = stroke(1.0, palette.line);
        visuals.window_corner_radius = CornerRadius::same(9);
        visuals.menu_corner_radius = CornerRadius::same(7);
        visuals.extreme_bg_color = palette.field;
        visuals.text_edit_bg_color = Some(palette.field);
        visuals.faint_bg_color = palette.button;
        visuals.hyperlink_color = palette.present;
        visuals.warn_fg_color = palette.outside;
        visuals.error_fg_color = palette.caution;
        visuals.selection.bg_fill = palette.present.gamma_multiply(0.35);
        visuals.selection.stroke = stroke(1.5, palette.ink);
        let widgets = &mut visuals.widgets;
        let dress_widget = |widget: &mut egui::style::WidgetVisuals, fill, border, ink| {
            widget.bg_fill = fill;
            widget.weak_bg_fill = fill;
            widget.bg_stroke = border;
            widget.fg_stroke = stroke(1.4, ink);
            widget.corner_radius = CornerRadius::same(6);
            widget.expansion = 0.0;
        };
        let border = stroke(1.0, palette.line);
        dress_widget(
            &mut widgets.noninteractive,
            palette.card,
            border,
            palette.ink,
        );
        let edge = stroke(1.0, palette.edge);
        dress_widget(&mut widgets.inactive, palette.button, edge, palette.ink);
        let strong = stroke(1.5, palette.present);
        dress_widget(
            &mut widgets.hovered,
            palette.button_hover,
            strong,
            palette.ink,
        );
        let pressed = stroke(2.0, palette.present);
        dress_widget(
            &mut widgets.active,
            palette.button_hover,
            pressed,
            palette.ink,
        );
        dress_widget(&mut widgets.open, palette.button_hover, edge, palette.ink);
    });
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Contrast ratio of WCAG 2.2 ("contrast ratio", "relative luminance").
    fn ratio(one: Color32, other: Color32) -> f64 {
        let luminance = |colour: Color32| {
            let linear = |value: u8| match f64::from(value) / 255.0 {
                value if value <= 0.040_45 => value / 12.92,
                value => ((value + 0.055) / 1.055).powf(2.4),
            };
            0.2126 * linear(colour.r()) + 0.7152 * linear(colour.g()) + 0.0722 * linear(colour.b())
        };
        let (one, other) = (luminance(one), luminance(other));
        (one.max(other) + 0.05) / (one.min(other) + 0.05)
    }

    #[test]
    fn the_formula_is_that_of_the_guideline() {
        // Black on white 21, and #767676 on white 4.54 (WCAG 2.2, Understanding
        // success criterion 1.4.3; from memory).
        assert!((ratio(Color32::BLACK, Color32::WHITE) - 21.0).abs() < 1e-9);
        assert!((ratio(rgb(0x76_76_76), Color32::WHITE) - 4.54).abs() < 0.005);
    }

    #[test]
    fn texts_and_edges_stand_out_in_every_look() {
        for (name, look) in [("light", &LIGHT), ("dark", &DARK), ("high", &HIGH_CONTRAST)] {
            // WCAG 2.2, 1.4.3: text 4.5 to 1.
            for (what, ink, ground) in [
                ("ink on paper", look.ink, look.paper),
                ("ink on a card", look.ink, look.card),
                ("ink in a field", look.ink, look.field),
                ("ink on a button", look.ink, look.button),
                ("ink under the pointer", look.ink, look.button_hover),
                ("muted on paper", look.muted, look.paper),
                ("muted on a card", look.muted, look.card),
                ("muted on a button", look.muted, look.button),
                ("muted in a row shown", look.muted, look.preview_back),
                ("the main button", look.on_present, look.present),
                ("what would change", look.preview, look.card),
                ("on its ground", look.preview, look.preview_back),
                ("a caution", look.caution, look.caution_back),
                ("a caution on a card", look.caution, look.card),
                ("good", look.good, look.good_back),
                ("good on a card", look.good, look.card),
                ("the band's words", look.band_edge, look.band),
                ("outside", look.outside, look.outside_back),
                ("outside on a card", look.outside, look.card),
                ("ink on outside", look.ink, look.outside_back),
                ("ink in a row shown", look.ink, look.preview_back),
                ("ink on steel", look.ink, look.steel),
                ("present on a card", look.present, look.card),
            ] {
                let found = ratio(ink, ground);
                assert!(found >= 4.5, "{name}, {what}: {found:.2}");
            }
            // 1.4.11 and 2.4.13: edges of what is typed into or pressed, and
            // the ring around what has the keyboard, 3 to 1.
            for (what, edge, ground) in [
                ("a field's edge outside", look.edge, look.card),
                ("a field's edge inside", look.edge, look.field),
                ("an edge on paper", look.edge, look.paper),
                ("a button's edge", look.edge, look.button),
                ("an edge on a row shown", look.edge, look.preview_back),
                ("the ring's two lines", look.present, look.card),
                ("the ring on paper", look.present, look.paper),
            ] {
                let found = ratio(edge, ground);
                assert!(found >= 3.0, "{name}, {what}: {found:.2}");
            }
        }
    }

    /// The angle of a colour on the wheel, in degrees.
    fn hue(colour: Color32) -> f64 {
        let [red, green, blue, _] = colour.to_array().map(f64::from);
        let (x, y) = (
            red - (green + blue) / 2.0,
            3_f64.sqrt() / 2.0 * (green - blue),
        );
        y.atan2(x).to_degrees()
    }

    #[test]
    fn what_is_to_be_turned_never_looks_like_what_is_outside() {
        for look in [&LIGHT, &DARK, &HIGH_CONTRAST] {
            for other in [look.outside, look.caution] {
                let apart = (hue(look.preview) - hue(other)).rem_euclid(360.0);
                let apart = apart.min(360.0 - apart);
                assert!(apart >= 60.0, "{:?} {other:?}: {apart}", look.preview);
            }
        }
    }
}
