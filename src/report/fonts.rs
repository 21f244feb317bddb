//! The letters of pages and pictures: their widths and their outlines.

use skrifa::instance::{LocationRef, Size};
use skrifa::metrics::GlyphMetrics;
use skrifa::outline::{DrawSettings, OutlinePen};
use skrifa::{FontRef, GlyphId, MetadataProvider};

/// DejaVu Sans Condensed, cut down to what the program writes.
pub const REGULAR: &[u8] = include_bytes!("../../assets/fonts/DejaVuSansCondensed.ttf");

/// The same, bold.
pub const BOLD: &[u8] = include_bytes!("../../assets/fonts/DejaVuSansCondensed-Bold.ttf");

/// A face.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Face {
    /// Regular.
    #[default]
    Regular,
    /// Bold.
    Bold,
}

/// What stands in for a letter that no font has.
const STAND_IN: char = '?';

/// One letter of a line as it is drawn.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Glyph {
    /// Place of its font in [`Fonts::data`].
    pub font: usize,
    /// Its number within the font.
    pub id: u32,
    /// How far the next letter is, in sizes of the letters.
    pub advance: f32,
    /// Where its bytes begin in the text.
    pub from: usize,
    /// Where they end.
    pub to: usize,
}

/// The fonts, read once for a document.
pub struct Fonts {
    fonts: Vec<Font>,
}

struct Font {
    data: &'static [u8],
    font: FontRef<'static>,
    metrics: GlyphMetrics<'static>,
}

impl Fonts {
    /// Reads the fonts that are built in; none that cannot be read is used.
    pub fn new() -> Self {
        let all = [REGULAR, BOLD, epaint_default_fonts::UBUNTU_LIGHT];
        let read = |data: &'static [u8]| {
            let font = FontRef::new(data).ok()?;
            // Widths of letters one point large.
            let metrics = font.glyph_metrics(Size::new(1.0), LocationRef::default());
            Some(Font {
                data,
                font,
                metrics,
            })
        };
        Self {
            fonts: all.into_iter().filter_map(read).collect(),
        }
    }

    /// The fonts' own bytes, in the order in which glyphs name them.
    pub fn data(&self) -> impl Iterator<Item = &'static [u8]> {
        self.fonts.iter().map(|font| font.data)
    }

    /// The letters of a text. One that no font has is a question mark.
    pub fn glyphs(&self, text: &str, face: Face) -> Vec<Glyph> {
        let letters = text.char_indices();
        letters
            .filter_map(|(from, letter)| {
                let shown = if letter.is_control() { ' ' } else { letter };
                let found = self.find(shown, face);
                let (font, id, advance) = found.or_else(|| self.find(STAND_IN, face))?;
                Some(Glyph {
                    font,
                    id: id.to_u32(),
                    advance,
                    from,
                    to: from + letter.len_utf8(),
                })
            })
            .collect()
    }

    fn find(&self, letter: char, face: Face) -> Option<(usize, GlyphId, f32)> {
        let order = match face {
            Face::Regular => [0, 2, 1],
            Face::Bold => [1, 0, 2],
        };
        order.into_iter().find_map(|index| {
            let font = self.fonts.get(index)?;
            let id = font.font.charmap().map(letter)?;
            Some((index, id, font.metrics.advance_width(id)?))
        })
    }

    /// Width of a line in points.
    pub fn width(&self, text: &str, size: f32, face: Face) -> f32 {
        let glyphs = self.glyphs(text, face);
        size * glyphs.iter().map(|glyph| glyph.advance).sum::<f32>()
    }

    /// A text in lines no wider than asked for, broken at blanks; a word that
    /// is wider than a line is broken where it has to be. What parts two lines
    /// stays at the end of the first.
    pub fn lines(&self, text: &str, size: f32, face: Face, width: f32) -> Vec<String> {
        let mut lines = Vec::new();
        for paragraph in text.split('\n') {
            let mut line = String::new();
            for word in paragraph.split_inclusive(' ') {
                let fits = |line: &str| self.width(line.trim_end(), size, face) <= width;
                if !line.is_empty() && !fits(&format!("{line}{word}")) {
                    lines.push(std::mem::take(&mut line));
                }
                if line.is_empty() && !fits(word) {
                    for letter in word.chars() {
                        let longer = format!("{line}{letter}");
                        if !line.is_empty() && !fits(&longer) {
                            lines.push(std::mem::take(&mut line));
                        }
                        line.push(letter);
                    }
                } else {
                    line.push_str(word);
                }
            }
            lines.push(line);
        }
        lines
    }

    /// Draws the outline of a glyph, one point large, upward positive.
    pub fn outline(&self, glyph: &Glyph, pen: &mut impl OutlinePen) {
        let Some(font) = self.fonts.get(glyph.font) else {
            return;
        };
        let outlines = font.font.outline_glyphs();
        if let Some(outline) = outlines.get(GlyphId::new(glyph.id)) {
            let settings = DrawSettings::unhinted(Size::new(1.0), LocationRef::default());
            // A glyph that cannot be drawn leaves its place empty.
            let _ = outline.draw(settings, pen);
        }
    }
}

impl Default for Fonts {
    fn default() -> Self {
        Self::new()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words::Language;

    #[test]
    fn lines_keep_every_letter_and_their_width() {
        let fonts = Fonts::new();
        let text = "Power off, locked out, tried: antesdemeterlasmanosentodocaso siempre\nand more";
        for width in [30.0, 80.0, 500.0] {
            let lines = fonts.lines(text, 10.0, Face::Regular, width);
            let all: String = lines.concat();
            assert_eq!(all, text.replace('\n', ""));
            for line in &lines {
                let wide = fonts.width(line.trim_end(), 10.0, Face::Regular);
                assert!(wide <= width, "{line:?} {wide}");
            }
        }
    }

    #[test]
    fn both_faces_have_the_letters_that_the_program_writes() {
        let fonts = Fonts::new();
        assert_eq!(fonts.fonts.len(), 3);
        let letters = "ABCabc0123456789áéíóúüñÑ¿¡º″–−±×°≤…“”«»·→←↻↺⚠✓✎☐☑";
        for face in [Face::Regular, Face::Bold] {
            for letter in letters.chars() {
                assert!(fonts.find(letter, face).is_some(), "{letter} {face:?}");
            }
        }
        let _ = Language::ALL;
    }
}
