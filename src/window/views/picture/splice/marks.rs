//! Letters, nuts and readings of the arms, to be read from afar.

use std::sync::Arc;

use eframe::egui::{
    Align2, CornerRadius, FontId, Galley, Painter, Pos2, Rect, Shape, StrokeKind, Vec2,
};

use crate::window::theme;

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
    let middle = parts.nuts + font.size * 0.6;
    for arm in splice.arms {
        let x = splice.axis.x(arm.at_nm);
        let letter = painter.layout_no_wrap(arm.name.clone(), font.clone(), palette.ink);
        let letter_room = if beside {
            letter.size().x + font.size * 0.2
        } else {
            0.0
        };
        let (ink, fill, width) = match arm.turn {
            Some(_) => (palette.preview, palette.preview_back, 3.0),
            None => (palette.steel_edge, palette.steel, 1.5),
        };
        let said = arm.turn.as_ref().map(|[long, short]| {
            let lay =
                |text: &str| painter.layout_no_wrap(text.to_owned(), font.clone(), palette.preview);
            let long = lay(long);
            let fits = long.size().x + font.size * 0.2 + letter_room <= room;
            if fits { long } else { lay(short) }
        });
        let content = said.as_ref().map_or(font.size * 0.7, |said| said.size().x);
        let size = Vec2::new(content + font.size * 0.16, font.size * 1.06);
        let mut centre = Pos2::new(x, middle);
        let least = area.left() + letter_room + size.x / 2.0;
        let most = area.right() - size.x / 2.0;
        centre.x = centre.x.min(most).max(least);
        let plate = Rect::from_center_size(centre, size);
        painter.rect(
            plate,
            CornerRadius::same(5),
            fill,
            theme::stroke(width, ink),
            StrokeKind::Inside,
        );
        if let Some(said) = said {
            let text = Align2::CENTER_CENTER.anchor_size(plate.center(), said.size());
            painter.galley(text.min, said, palette.preview);
        }
        let anchor = if beside {
            Align2::RIGHT_CENTER.anchor_size(
                Pos2::new(plate.left() - font.size * 0.16, middle),
                letter.size(),
            )
        } else {
            let above = Pos2::new(x, parts.nuts - font.size * 0.02);
            Align2::CENTER_BOTTOM.anchor_size(above, letter.size())
        };
        painter.galley(anchor.min, letter, palette.ink);
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
        let (ink, width) = if outside {
            (palette.outside, 3.0)
        } else {
            (palette.line, 1.5)
        };
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
