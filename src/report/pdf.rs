//! Writes pages as PDF: fonts embedded, text searchable, parts tagged for
//! whoever has them read aloud (PDF/UA-1, ISO 14289-1:2014).

use std::num::NonZeroU16;

use krilla::color::rgb;
use krilla::configure::{Accessibility, Configuration, ConfigurationBuilder};
use krilla::destination::XyzDestination;
use krilla::geom::{Path, PathBuilder, Point as PdfPoint};
use krilla::metadata::Metadata;
use krilla::outline::{Outline, OutlineNode};
use krilla::page::PageSettings;
use krilla::paint::{Fill, Stroke, StrokeDash};
use krilla::surface::Surface;
use krilla::tagging::{
    Artifact, ArtifactType, ContentTag, SpanTag, TableHeaderScope, Tag, TagGroup, TagKind, TagTree,
};
use krilla::text::{Font, GlyphId, KrillaGlyph};
use krilla::{Document, SerializeSettings};

use super::{Fonts, Ink, Mark, Page, Part, Pen, Point};

/// What a document says of itself.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct About {
    /// Its title.
    pub title: String,
    /// Its language by the code of ISO 639-1.
    pub language: &'static str,
    /// Who made it; empty where nobody is named.
    pub author: String,
}

/// Why pages could not be written as PDF.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum PdfProblem {
    /// A page without a size.
    NoSize,
    /// The fonts that are built in could not be read.
    Fonts,
    /// What was written keeps to no standard; carries the writer's own words.
    NotWritten(String),
}

/// Writes pages as a PDF document.
///
/// # Errors
/// See [`PdfProblem`]; none is to be expected of pages that this room made.
pub fn pdf(pages: &[Page], fonts: &Fonts, about: &About) -> Result<Vec<u8>, PdfProblem> {
    let read = |data: &'static [u8]| Font::new(data.into(), 0).ok_or(PdfProblem::Fonts);
    let faces: Vec<Font> = fonts.data().map(read).collect::<Result<_, _>>()?;
    let mut document = Document::new_with(SerializeSettings {
        configuration: configuration(),
        ..SerializeSettings::default()
    });
    let mut metadata = Metadata::new()
        .title(about.title.clone())
        .language(about.language.to_owned())
        .creator(concat!(env!("CARGO_PKG_NAME"), " ", env!("CARGO_PKG_VERSION")).to_owned());
    if !about.author.is_empty() {
        metadata = metadata.authors(vec![about.author.clone()]);
    }
    document.set_metadata(metadata);
    let mut tags = vec![TagGroup::new(Tag::Part)];
    let mut outline = Outline::new();
    for (number, page) in pages.iter().enumerate() {
        let settings = PageSettings::from_wh(page.width, page.height).ok_or(PdfProblem::NoSize)?;
        let mut started = document.start_page_with(settings);
        let headings = {
            let mut writer = Writer {
                surface: started.surface(),
                fonts,
                faces: &faces,
                tags: &mut tags,
                tagged: false,
                heading: None,
                headings: Vec::new(),
            };
            for mark in &page.marks {
                writer.mark(mark);
            }
            writer.end_tagged();
            writer.headings
        };
        started.finish();
        for (at, text) in headings {
            let place = XyzDestination::new(number, PdfPoint::from_xy(at.x, at.y));
            outline.push_child(OutlineNode::new(text, place));
        }
    }
    let root = tags.into_iter().next().ok_or(PdfProblem::NoSize)?;
    let mut tree = TagTree::new();
    tree.push(root);
    document.set_tag_tree(tree);
    document.set_outline(outline);
    document
        .finish()
        .map_err(|problem| PdfProblem::NotWritten(format!("{problem:?}")))
}

/// PDF/UA-1; plain PDF should that ever be refused.
fn configuration() -> Configuration {
    ConfigurationBuilder::new()
        .with_accessibility_validator(Accessibility::UA1)
        .finish()
        .unwrap_or_default()
}

/// Writes one page.
struct Writer<'a, 'b> {
    surface: Surface<'a>,
    fonts: &'b Fonts,
    faces: &'b [Font],
    /// The parts that have begun, the outermost first.
    tags: &'b mut Vec<TagGroup>,
    /// Whether what is drawn belongs to a part or adorns the page.
    tagged: bool,
    /// Where the heading that is being written stands, and its words.
    heading: Option<(Point, String)>,
    /// The headings of the page.
    headings: Vec<(Point, String)>,
}

impl Writer<'_, '_> {
    fn mark(&mut self, mark: &Mark) {
        match mark {
            Mark::Open(part) => self.open(part),
            Mark::Close => self.close(),
            Mark::Text {
                at,
                size,
                face,
                ink,
                text,
            } => {
                if let Some((place, words)) = &mut self.heading {
                    if words.is_empty() {
                        *place = Point::new(at.x, at.y - size);
                    }
                    words.push_str(text);
                }
                self.adorn();
                self.surface.set_fill(Some(fill(*ink)));
                self.surface.set_stroke(None);
                self.text(*at, *size, text, self.fonts.glyphs(text, *face));
            }
            Mark::Path {
                points,
                closed,
                fill,
                pen,
            } => {
                if let Some(path) = path(points, *closed) {
                    self.draw(&path, *fill, *pen);
                }
            }
            Mark::Circle {
                at,
                radius,
                fill,
                pen,
            } => {
                if let Some(path) = circle(*at, *radius) {
                    self.draw(&path, *fill, *pen);
                }
            }
        }
    }

    fn draw(&mut self, path: &Path, area: Option<Ink>, pen: Option<Pen>) {
        self.adorn();
        self.surface.set_fill(area.map(fill));
        self.surface.set_stroke(pen.map(stroke));
        if area.is_some() || pen.is_some() {
            self.surface.draw_path(path);
        }
    }

    fn text(&mut self, at: Point, size: f32, text: &str, glyphs: Vec<super::fonts::Glyph>) {
        let mut x = at.x;
        // A run of letters from one font at a time.
        for run in glyphs.chunk_by(|left, right| left.font == right.font) {
            let Some(face) = run.first().and_then(|glyph| self.faces.get(glyph.font)) else {
                continue;
            };
            let set: Vec<KrillaGlyph> = run
                .iter()
                .map(|glyph| KrillaGlyph {
                    glyph_id: GlyphId::new(glyph.id),
                    text_range: glyph.from..glyph.to,
                    x_advance: glyph.advance,
                    x_offset: 0.0,
                    y_offset: 0.0,
                    y_advance: 0.0,
                    location: None,
                })
                .collect();
            let start = PdfPoint::from_xy(x, at.y);
            self.surface
                .draw_glyphs(start, &set, face.clone(), text, size, false);
            x += size * run.iter().map(|glyph| glyph.advance).sum::<f32>();
        }
    }

    /// What is drawn outside any part adorns the page.
    fn adorn(&mut self) {
        if !self.tagged {
            let adornment = Artifact::with_kind(ArtifactType::Layout);
            self.surface.start_tagged(ContentTag::Artifact(adornment));
            self.tagged = true;
        }
    }

    fn end_tagged(&mut self) {
        if self.tagged {
            self.surface.end_tagged();
            self.tagged = false;
        }
    }

    fn open(&mut self, part: &Part) {
        self.end_tagged();
        let kind: TagKind = match part {
            Part::Heading(level) => {
                self.heading = Some((Point::default(), String::new()));
                Tag::Hn(NonZeroU16::new(*level).unwrap_or(NonZeroU16::MIN), None).into()
            }
            Part::Paragraph => Tag::P.into(),
            Part::Figure(words) => Tag::Figure(Some(words.clone())).into(),
            Part::Table => Tag::Table.into(),
            Part::Row => Tag::TR.into(),
            Part::ColumnHead => Tag::TH(TableHeaderScope::Column).into(),
            Part::RowHead => Tag::TH(TableHeaderScope::Row).into(),
            Part::Cell => Tag::TD.into(),
            Part::Foot => Tag::NonStruct.into(),
        };
        let mut group = TagGroup::new(kind);
        match part {
            Part::Table | Part::Row => {}
            Part::Foot => {
                let foot = Artifact::with_kind(ArtifactType::Footer);
                self.surface.start_tagged(ContentTag::Artifact(foot));
                self.tagged = true;
            }
            Part::Figure(_) => {
                group.push(self.surface.start_tagged(ContentTag::Other));
                self.tagged = true;
            }
            _ => {
                let span = ContentTag::Span(SpanTag::empty());
                group.push(self.surface.start_tagged(span));
                self.tagged = true;
            }
        }
        self.tags.push(group);
    }

    fn close(&mut self) {
        self.end_tagged();
        let Some(mut ended) = self.tags.pop() else {
            return;
        };
        if let (TagKind::Hn(tag), Some((at, words))) = (&ended.tag, self.heading.take()) {
            ended.tag = Tag::Hn(tag.level(), Some(words.clone())).into();
            self.headings.push((at, words));
        }
        match self.tags.last_mut() {
            // A part without content, such as the foot, is left out.
            Some(around) if !ended.children.is_empty() => around.push(ended),
            Some(_) => {}
            None => self.tags.push(ended),
        }
    }
}

fn fill(ink: Ink) -> Fill {
    Fill {
        paint: colour(ink).into(),
        ..Fill::default()
    }
}

fn stroke(pen: Pen) -> Stroke {
    Stroke {
        paint: colour(pen.ink).into(),
        width: pen.width,
        dash: pen.dash.map(|(dash, gap)| StrokeDash {
            array: vec![dash, gap],
            offset: 0.0,
        }),
        ..Stroke::default()
    }
}

fn colour(ink: Ink) -> rgb::Color {
    let [red, green, blue] = ink.rgb();
    rgb::Color::new(red, green, blue)
}

fn path(points: &[Point], closed: bool) -> Option<Path> {
    let (first, rest) = points.split_first()?;
    let mut builder = PathBuilder::new();
    builder.move_to(first.x, first.y);
    for point in rest {
        builder.line_to(point.x, point.y);
    }
    if closed {
        builder.close();
    }
    builder.finish()
}

/// A circle of four cubic curves: handles of 4/3 tan(pi/8) radii touch it in
/// eight places and stray from it by less than 0.03 per cent.
fn circle(at: Point, radius: f32) -> Option<Path> {
    const HANDLE: f32 = 0.552_284_8;
    let (r, h) = (radius, radius * HANDLE);
    let mut builder = PathBuilder::new();
    builder.move_to(at.x + r, at.y);
    for (x, y) in [(1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0)] {
        // From (x, y) a quarter round to (-y, x).
        builder.cubic_to(
            at.x + r * x - h * y,
            at.y + r * y + h * x,
            at.x - r * y + h * x,
            at.y + r * x + h * y,
            at.x - r * y,
            at.y + r * x,
        );
    }
    builder.close();
    builder.finish()
}
