//! The nuts on the turn card: outs first, each with the wrench's way and where
//! it then stands.

use crate::press::{ArmIndex, Notches, NutPosition};
use crate::report::{Face, NUT_REACH, NutTurn, castle_nut};
use crate::units::Length;

use super::{Align, Area, Card, Ink, MARGIN, Part, Pen, Point, Sheet, Style};

/// Height of a row of the card, with one nut and with many.
const ROW: (f32, f32) = (118.0, 33.0);

impl Card<'_> {
    /// The nuts, outs first, as high as there is room for.
    pub(super) fn nuts(&mut self, room: f32, strip: f32) {
        let words = self.setting.figures.language;
        let nuts = self.facts.nuts_to_turn();
        let below = self.below_nuts();
        let style = Style::regular(10.0);
        let small = Style::regular(8.5).ink(Ink::Muted);
        let heads = |columns: &Places| {
            [
                (columns.tick, words.card_column_done()),
                (columns.letter, words.card_column_arm()),
                (columns.picture, words.card_column_wrench()),
                (columns.turn, words.card_column_turn()),
                (columns.stands, words.card_column_stands()),
                (columns.opening, words.card_column_opening()),
                (columns.really, words.card_column_really()),
            ]
        };
        let tall = |sheet: &Sheet<'_>, columns: &Places| {
            let heads = heads(columns).into_iter();
            let heights = heads.map(|((_, width), text)| sheet.height(width - 4.0, small, text));
            heights.fold(0.0, f32::max)
        };
        // The heads are tallest where the rows, and so their pictures, are small.
        let most_tall = tall(&self.sheet, &Places::of(self.width(), ROW.1));
        let below_height = self.sheet.height(self.width(), style, &below) + 8.0;
        let left = room - self.y - strip - most_tall - below_height - 4.0;
        let height = (left / nuts.len().max(1) as f32).clamp(ROW.1, ROW.0);
        let columns = Places::of(self.width(), height);
        let tall = tall(&self.sheet, &columns);
        self.sheet.open(Part::Table);
        self.sheet.open(Part::Row);
        for ((x, width), text) in heads(&columns) {
            let top = self.y + tall - self.sheet.height(width - 4.0, small, text);
            self.sheet.part(Part::ColumnHead, |sheet| {
                sheet.lines(MARGIN + x, top, width - 4.0, small, text);
            });
        }
        self.sheet.close();
        self.y += tall + 2.0;
        let pass = self.facts.gate.pass.unwrap_or(usize::MAX);
        let margins = self.session.margins_left(pass, &self.facts.turns);
        for (arm, turn) in &nuts {
            let margin = margins.get(arm.0).copied().flatten();
            self.nut(&columns, height, (*arm, *turn), margin);
        }
        self.sheet.close();
        self.y += 4.0;
        self.paragraph(style, &below);
        self.y += 4.0;
    }

    /// Which nuts stay, and what the figures on the card mean.
    fn below_nuts(&self) -> String {
        let words = self.setting.figures.language;
        let stay: Vec<String> = Notches::outs_first(&self.facts.turns)
            .into_iter()
            .filter(|(_, turn)| turn.0 == 0)
            .map(|(arm, _)| words.card_arm_at(arm, self.stands(arm)))
            .collect();
        let mut said = vec![words.arms_from_left().to_owned()];
        if !stay.is_empty() {
            said.push(words.card_others_stay(stay.join(", ")));
        }
        match self.session.press.left_hand_thread {
            Some(false) => {}
            Some(true) => said.push(words.card_left_hand().to_owned()),
            None => said.push(words.card_thread_unseen().to_owned()),
        }
        said.push(words.card_position_counts().to_owned());
        said.join(" ")
    }

    pub(super) fn stands(&self, arm: ArmIndex) -> NutPosition {
        let nuts = self.session.nuts_now();
        nuts.get(arm.0).copied().unwrap_or_default()
    }

    /// One nut: a tick, its letter, the wrench's way, how far, from where to
    /// where, what is left of the opening, what was really turned.
    fn nut(
        &mut self,
        columns: &Places,
        height: f32,
        (arm, turn): (ArmIndex, Notches),
        margin: Option<Length>,
    ) {
        let figures = &self.setting.figures;
        let words = figures.language;
        let area = Area::new(MARGIN, self.y, self.width(), height);
        let middle = area.centre().y;
        let scale = (height / 84.0).clamp(0.45, 1.3);
        let way = self.session.press.wrench_way(turn);
        let sheet = &mut self.sheet;
        sheet.frame(area, None, Some(Pen::new(0.8, Ink::SteelEdge)));
        sheet.open(Part::Row);
        sheet.part(Part::Cell, |sheet| {
            let side = 24.0 * scale.max(0.7);
            sheet.tick_box(area.x + columns.tick.0 + 5.0, middle - side / 2.0, side);
        });
        sheet.part(Part::RowHead, |sheet| {
            let x = area.x + columns.letter.0 + columns.letter.1 / 2.0 - 3.0;
            let letter = Style::bold(44.0 * scale).ink(Ink::Present);
            let base = middle + letter.size * 0.28;
            sheet.text(x, base, Align::Centre, letter, &arm.to_string());
            // Low rows have no room for it; it is said below of all arms.
            let nth = words.from_the_left(arm.0);
            let small = Style::regular(8.5).ink(Ink::Muted);
            let room = columns.letter.1 - 4.0;
            let top = area.bottom() - sheet.height(room, small, &nth) - 3.0;
            if top > base + 4.0 {
                sheet.lines(area.x + columns.letter.0, top, room, small, &nth);
            }
        });
        let (seen, spoken) = match way {
            Some(way) => (words.wrench(way), words.wrench_picture(words.wrench(way))),
            None => ("", words.nut_left_picture().to_owned()),
        };
        sheet.open(Part::Cell);
        sheet.part(Part::Figure(spoken), |sheet| {
            let width = columns.picture.1;
            let centre = Point::new(area.x + columns.picture.0 + width / 2.0 - 3.0, middle);
            let radius = (height / 2.0 - 3.0).min(width / 2.0 - 3.0) / NUT_REACH;
            let turned = way.map(|way| NutTurn {
                way,
                notches: turn.0.unsigned_abs(),
                from: 0,
                done: false,
            });
            sheet.extend(castle_nut(centre, radius, turned));
        });
        sheet.close();
        sheet.part(Part::Cell, |sheet| {
            let x = area.x + columns.turn.0;
            let room = (Align::Left, columns.turn.1 - 6.0);
            let large = Style::bold(26.0 * scale.max(0.66)).ink(Ink::Preview);
            let lesser = Style::regular(12.0 * scale.max(0.75));
            let base = middle + large.size * 0.1;
            sheet.fitting(x, base, room, large, &figures.turn(turn));
            sheet.fitting(x, base + lesser.size * 1.35, room, lesser, seen);
        });
        let from = self.stands(arm);
        let sheet = &mut self.sheet;
        sheet.part(Part::Cell, |sheet| {
            let x = area.x + columns.stands.0;
            let room = (Align::Left, columns.stands.1 - 6.0);
            let style = Style {
                face: Face::Bold,
                ..Style::regular(19.0 * scale.max(0.7))
            };
            let text = words.card_now_to(from, from + turn);
            sheet.fitting(x, middle + style.size * 0.36, room, style, &text);
        });
        sheet.part(Part::Cell, |sheet| {
            let x = area.x + columns.opening.0;
            let room = (Align::Left, columns.opening.1 - 6.0);
            let text = margin.map_or_else(
                || words.card_not_measured().to_owned(),
                |margin| figures.plain(margin),
            );
            let size = if margin.is_some() { 13.0 } else { 10.0 };
            sheet.fitting(x, middle + 4.0, room, Style::regular(size), &text);
        });
        sheet.part(Part::Cell, |sheet| {
            let (x, width) = columns.really;
            let blank = Area::new(area.x + x, area.y + 5.0, width - 6.0, height - 10.0);
            sheet.frame(blank, Some(Ink::Paper), Some(Pen::new(0.8, Ink::Text)));
        });
        sheet.close();
        self.y = area.bottom();
    }
}

/// Where the columns of the card begin, and how wide they are.
struct Places {
    tick: (f32, f32),
    letter: (f32, f32),
    picture: (f32, f32),
    turn: (f32, f32),
    stands: (f32, f32),
    opening: (f32, f32),
    really: (f32, f32),
}

impl Places {
    fn of(width: f32, height: f32) -> Self {
        let picture = height.clamp(58.0, 104.0);
        let fixed = 38.0 + 66.0 + picture + 74.0 + 62.0 + 80.0;
        let mut x = 0.0;
        let mut take = |width: f32| {
            let place = (x, width);
            x += width;
            place
        };
        Self {
            tick: take(38.0),
            letter: take(66.0),
            picture: take(picture),
            turn: take(width - fixed),
            stands: take(74.0),
            opening: take(62.0),
            really: take(80.0),
        }
    }
}
