//! Letters, nuts and readings of the arms, to be read from afar.

use std::sync::Arc;

use eframe::egui::{
    Align2, Color32, CornerRadius, FontId, Galley, Painter, Pos2, Rect, Shape, Stroke, StrokeKind,
    Vec2,
};

use crate::window::theme;

use super::{Fit, Lying};

use super::parts::{Parts, Shown, Splice, in_one_row, pitch};

/// Letters and nuts, each nut that turns with its arrow and how far.
pub(super) fn nuts(
    painter: &Painter,
    splice: &Splice<'_>,
    area: Rect,
    parts: Parts,
    font: &FontId,
) {
    let palette = splice.palette;
    let beside = in_one_row(splice, font.size);
    let room = pitch(splice, 1) * 0.96;
    let middle = parts.nuts + font.size * 0.7;
    for arm in splice.arms {
        let x = splice.axis.x(arm.at_nm);
        let (ink, fill, width, text) = match arm.turn {
            Some(_) => (palette.preview, palette.preview_back, 3.0, palette.preview),
            None => (palette.steel_edge, palette.steel, 1.5, palette.ink),
        };
        let lay = |said: String| painter.layout_no_wrap(said, font.clone(), text);
        // Its letter stands on the nut where there is room for both.
        let on_it = |said: &str| match beside {
            true => format!("{} {said}", arm.name).trim_end().to_owned(),
            false => said.to_owned(),
        };
        let said = match &arm.turn {
            Some([long, short]) => {
                let long = lay(on_it(long));
                let half = (long.size().x + font.size * 0.3) / 2.0;
                // Pushed in from an end it would be too near to the next one.
                let fits = 2.0 * half <= room && area.x_range().shrink(half).contains(x);
                if fits { long } else { lay(on_it(short)) }
            }
            None => lay(on_it("")),
        };
        let content = said.size().x.max(font.size * 0.7);
        let size = Vec2::new(content + font.size * 0.3, font.size * 0.98);
        let mut centre = Pos2::new(x, middle);
        let least = area.left() + size.x / 2.0;
        let most = area.right() - size.x / 2.0;
        centre.x = centre.x.min(most).max(least);
        let plate = Rect::from_center_size(centre, size);
        let edge = theme::stroke(width, ink);
        crown(painter, plate, (fill, edge));
        painter.rect(plate, CornerRadius::same(5), fill, edge, StrokeKind::Inside);
        let at = Align2::CENTER_CENTER.anchor_size(plate.center(), said.size());
        painter.galley(at.min, said, text);
        if !beside {
            let letter = painter.layout_no_wrap(arm.name.clone(), font.clone(), palette.ink);
            let above = Pos2::new(x, parts.nuts - font.size * 0.02);
            let at = Align2::CENTER_BOTTOM.anchor_size(above, letter.size());
            painter.galley(at.min, letter, palette.ink);
        }
    }
}

/// The crown of a castle nut, with the slots that its pin goes through.
fn crown(painter: &Painter, plate: Rect, (fill, edge): (Color32, Stroke)) {
    let tooth = Vec2::new(plate.height() * 0.24, plate.height() * 0.24);
    let step = (plate.width() - tooth.x - 4.0) / 3.0;
    for place in 0..4 {
        let x = plate.left() + 2.0 + tooth.x / 2.0 + step * place as f32;
        let foot = Pos2::new(x, plate.top() - tooth.y * 0.2);
        let rect = Rect::from_center_size(foot, tooth);
        painter.rect(rect, CornerRadius::same(2), fill, edge, StrokeKind::Inside);
    }
}

/// What is written on the picture where the splice is crushed most, where it is
/// loose most, and at the band.
pub(super) fn patches(
    painter: &Painter,
    splice: &Splice<'_>,
    lying: &Lying<'_>,
    [crushed, loose, tolerance]: [&str; 3],
) {
    let palette = splice.palette;
    let [large, small] = &splice.fonts;
    let font = if splice.bitten { large } else { small };
    let write = |at: Pos2, align: Align2, text: &str, ink| {
        let galley = painter.layout_no_wrap(text.to_owned(), font.clone(), ink);
        let rect = align.anchor_size(at, galley.size());
        let rect = rect.translate(Vec2::new(
            (splice.axis.left + 3.0 - rect.left()).max(0.0),
            0.0,
        ));
        let rect = rect.translate(Vec2::new(
            (splice.axis.right - 3.0 - rect.right()).min(0.0),
            0.0,
        ));
        if rect.bottom() + 2.0 > lying.bottom {
            return;
        }
        painter.rect_filled(rect.expand2(Vec2::new(3.0, 0.0)), 3.0, palette.card);
        painter.galley(rect.min, galley, ink);
    };
    let of = |fit: Fit| lying.edge.iter().filter(move |at| lying.fit(**at) == fit);
    let lowest = of(Fit::Crushed).max_by(|one, other| one.y.total_cmp(&other.y));
    if let Some(at) = lowest {
        // Where what is too thin is filled, in the middle of that.
        let filled = lying.band.filter(|_| splice.bitten);
        let (place, align) = match filled {
            Some((_, low)) => (Pos2::new(at.x, (at.y + low) / 2.0), Align2::CENTER_CENTER),
            None => (*at + Vec2::new(0.0, font.size * 0.9), Align2::CENTER_TOP),
        };
        write(place, align, crushed, palette.outside);
    }
    let highest = of(Fit::Loose).min_by(|one, other| one.y.total_cmp(&other.y));
    if let Some((at, (top, _))) = highest.zip(lying.band) {
        let below = Pos2::new(at.x, at.y.max(top) + font.size);
        write(below, Align2::CENTER_TOP, loose, palette.outside);
    }
    // Where the band is not hidden by what is said of the splice.
    let ends = [(lying.edge.last(), 1.0), (lying.edge.first(), -1.0)];
    let free = ends.into_iter().find_map(|(end, side)| {
        let end = end.filter(|end| lying.fit(**end) == Fit::Good)?;
        let far = [lowest, highest].into_iter().flatten();
        let mut far = far.map(|at| (at.x - end.x).abs());
        far.all(|far| far > font.size * 12.0)
            .then_some((end.x, side))
    });
    if let Some(((x, side), (_, bottom))) = free.zip(lying.band) {
        let at = Pos2::new(x - side * 6.0, bottom + 4.0);
        let align = if side > 0.0 {
            Align2::RIGHT_TOP
        } else {
            Align2::LEFT_TOP
        };
        write(at, align, &format!("↑ {tolerance}"), palette.band_edge);
    }
}

/// A reading laid out, and its row.
pub(super) type Laid = (Arc<Galley>, usize);

/// The readings laid out in as few rows as keep them apart.
pub(super) fn boxes(
    painter: &Painter,
    splice: &Splice<'_>,
    font: &FontId,
) -> (usize, Vec<Option<Laid>>) {
    let laid: Vec<_> = splice
        .arms
        .iter()
        .map(|arm| {
            let (nm, text) = arm.reading.as_ref()?;
            let outside = splice.band.is_some_and(|band| !band.holds(*nm));
            let ink = match (splice.shown, outside) {
                (Shown::Expected, _) => splice.palette.preview,
                (Shown::Measured, true) => splice.palette.outside,
                (Shown::Measured, false) => splice.palette.ink,
            };
            Some(painter.layout_no_wrap(text.clone(), font.clone(), ink))
        })
        .collect();
    let widest = laid
        .iter()
        .flatten()
        .map(|galley| galley.size().x)
        .fold(0.0, f32::max);
    if laid.iter().all(Option::is_none) {
        return (0, Vec::new());
    }
    let room = widest + font.size * 0.3;
    let rows = (1..4)
        .find(|rows| pitch(splice, *rows) >= room)
        .unwrap_or(4);
    let laid = laid.into_iter().enumerate();
    let placed = laid.map(|(index, galley)| Some((galley?, index % rows)));
    (rows, placed.collect())
}

/// Size of what a reading is said to be, in sizes of the font.
const TAG: f32 = 0.4;

/// The reading of every arm on the belt, those outside the band in a heavier
/// frame.
pub(super) fn readings(
    painter: &Painter,
    splice: &Splice<'_>,
    (area, parts): (Rect, Parts),
    font: &FontId,
    boxes: Vec<Option<Laid>>,
) {
    let palette = splice.palette;
    let row = font.size * 1.22;
    let rows = boxes.iter().flatten().map(|(_, row)| *row).max();
    for (arm, laid) in splice.arms.iter().zip(boxes) {
        let (Some((galley, at)), Some((nm, _))) = (laid, &arm.reading) else {
            continue;
        };
        let outside = splice.band.is_some_and(|band| !band.holds(*nm));
        let size = Vec2::new(galley.size().x + font.size * 0.24, font.size * 1.12);
        let half = size.x / 2.0;
        let x = splice.axis.x(arm.at_nm);
        let x = x.min(area.right() - half).max(area.left() + half);
        let y = parts.readings + row * (at as f32 + 0.5);
        let plate = Rect::from_center_size(Pos2::new(x, y), size);
        let fill = if outside {
            palette.outside_back
        } else {
            palette.card
        };
        painter.rect_filled(plate, 6.0, fill);
        let (ink, width) = match (outside, arm.tag) {
            (true, _) => (palette.outside, 3.0),
            (false, Some(_)) => (palette.ink, 3.0),
            (false, None) => (palette.line, 1.5),
        };
        if let Some(tag) = arm.tag.filter(|_| rows == Some(0)) {
            let small = theme::bold(font.size * TAG);
            let text = painter.layout_no_wrap(tag.to_owned(), small, ink);
            let size = text.size() + Vec2::new(12.0, font.size * 0.08);
            let foot = plate.center_top() + Vec2::new(0.0, 2.0);
            let rect = Align2::CENTER_BOTTOM.anchor_size(foot, size);
            painter.rect_filled(rect, 5.0, fill);
            let at = Align2::CENTER_TOP.anchor_size(rect.center_top(), text.size());
            painter.galley(at.min, text, ink);
        }
        let stroke = theme::stroke(width, ink);
        match splice.shown {
            Shown::Measured => {
                let round = CornerRadius::same(6);
                painter.rect_stroke(plate, round, stroke, StrokeKind::Inside);
            }
            Shown::Expected => {
                let corners = [
                    plate.left_top(),
                    plate.right_top(),
                    plate.right_bottom(),
                    plate.left_bottom(),
                    plate.left_top(),
                ];
                let stroke = theme::stroke(2.5, palette.preview);
                painter.extend(Shape::dashed_line(&corners, stroke, 8.0, 6.0));
            }
        }
        let text = Align2::CENTER_CENTER.anchor_size(plate.center(), galley.size());
        painter.galley(text.min, galley, palette.ink);
    }
}
