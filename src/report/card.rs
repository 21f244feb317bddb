//! The turn card: one page to take to the press, in letters for arm's length.
//!
//! Outs stand before ins, and what is missing or doubtful before either: where
//! turning is not the next act there is no turn on the card, and it says what
//! to do instead.

use crate::press::{ArmIndex, Notches, NutPosition};
use crate::session::{Caution, PlanningProblem, Remark, Session, Stage};
use crate::units::Length;

use super::sheet::{Align, Area, LEADING, RISE, Sheet, Style};
use super::{Face, Facts, Fonts, Ink, NUT_REACH, Page, Part, Pen, Point, Setting, castle_nut};

/// Room around the page.
const MARGIN: f32 = 34.0;

/// Height of a row of the card, with one nut and with many.
const ROW: (f32, f32) = (118.0, 36.0);

/// Columns of the strip for the next readings in one row.
const STRIP_COLUMNS: usize = 8;

/// Repeats that there is room for.
const STRIP_ROWS: usize = 3;

/// Height of one place for a reading.
const STRIP_CELL: f32 = 19.0;

/// Most doubts that stand on the card in full.
const MOST_DOUBTS: usize = 4;

/// The card; a second page only where there is no room on the first for the
/// next readings.
pub fn turn_card(session: &Session, facts: &Facts, setting: &Setting, fonts: &Fonts) -> Vec<Page> {
    let mut card = Card {
        sheet: Sheet::new(fonts, setting.paper.size()),
        session,
        facts,
        setting,
        y: MARGIN,
    };
    card.head();
    let strip = card.strip_height();
    let foot = card.foot_height();
    let room = card.sheet.page.height - MARGIN - foot;
    if facts.may_turn() {
        card.doubts();
        card.make_safe();
        card.nuts(room, strip);
    } else {
        card.instead();
    }
    let mut pages = Vec::new();
    card.foot(room);
    if card.y + strip > room {
        pages.push(card.next_page());
        card.head();
        card.foot(room);
    }
    card.strip();
    pages.push(card.sheet.page);
    pages
}

struct Card<'a> {
    sheet: Sheet<'a>,
    session: &'a Session,
    facts: &'a Facts,
    setting: &'a Setting,
    /// The lower edge of what is drawn.
    y: f32,
}

impl Card<'_> {
    fn width(&self) -> f32 {
        self.sheet.page.width - 2.0 * MARGIN
    }

    fn next_page(&mut self) -> Page {
        self.y = MARGIN;
        let fresh = Sheet::new(self.sheet.fonts, self.setting.paper.size());
        std::mem::replace(&mut self.sheet, fresh).page
    }

    fn paragraph(&mut self, style: Style, text: &str) {
        let width = self.width();
        self.y = self.sheet.paragraph(MARGIN, self.y, width, style, text);
    }

    /// Which press, when, who, after which pass; how it stands.
    fn head(&mut self) {
        let figures = &self.setting.figures;
        let words = figures.language;
        let (width, right) = (self.width(), self.sheet.page.width - MARGIN);
        let name = match self.session.press.name.as_str() {
            "" => words.unnamed_press(),
            name => name,
        };
        let heading = Style::bold(24.0);
        let base = self.y + heading.size * RISE;
        let small = Style::regular(9.5).ink(Ink::Muted);
        if !self.setting.printed.is_empty() {
            let printed = words.report_printed(&self.setting.printed);
            self.sheet.part(Part::Paragraph, |sheet| {
                sheet.text(right, base, Align::Right, small, &printed);
            });
        }
        let below = self
            .sheet
            .heading(1, MARGIN, self.y, heading, words.card_heading());
        self.y = below;
        let press = Style::bold(17.0);
        self.sheet.open(Part::Paragraph);
        let base = self.y + press.size * RISE;
        self.sheet
            .fitting(MARGIN, base, (Align::Left, width), press, name);
        self.sheet.close();
        self.y += press.leading();
        let notes = &self.session.notes;
        let pass = self.facts.gate.pass.map(|pass| {
            let laced = self.session.passes.get(pass).map(|pass| &pass.laced);
            match laced.filter(|laced| !laced.is_empty()) {
                Some(laced) => words.report_after_pass(pass + 1, laced),
                None => words.report_after_pass_only(pass + 1),
            }
        });
        let parts = [
            notes.when.clone(),
            notes.who.clone(),
            pass.unwrap_or_default(),
            words.report_session(&self.session.id),
        ];
        let parts: Vec<String> = parts.into_iter().filter(|part| !part.is_empty()).collect();
        self.paragraph(Style::regular(10.5).ink(Ink::Muted), &parts.join(" · "));
        invented(
            &mut self.sheet,
            self.session,
            self.setting,
            &mut self.y,
            MARGIN,
        );
        self.y += 4.0;
        let (headline, below) = self.facts.headline(self.session, figures);
        self.paragraph(Style::bold(14.0), &headline);
        if !below.is_empty() {
            self.paragraph(Style::regular(11.5), &below);
        }
        self.y += 5.0;
    }

    /// What should be asked about before anything is turned, and what the
    /// press does not allow.
    fn doubts(&mut self) {
        let figures = &self.setting.figures;
        let words = figures.language;
        let facts = self.facts;
        let limit = self.session.tolerance.length();
        let remarks = facts.remarks(self.session);
        let mut said: Vec<String> = remarks
            .iter()
            .filter(|remark| remark.is_caution() || matches!(remark, Remark::Held(_)))
            .map(|remark| figures.plan_remark(remark, limit))
            .collect();
        let pass = facts.gate.pass.unwrap_or(usize::MAX);
        let troubles = self.session.turn_troubles(pass, &facts.turns);
        said.extend(troubles.iter().map(|trouble| figures.turn_trouble(trouble)));
        if said.is_empty() {
            return;
        }
        let more = said.len().saturating_sub(MOST_DOUBTS);
        said.truncate(MOST_DOUBTS);
        if more > 0 {
            said.push(words.card_and_more(more));
        }
        let style = Style::regular(11.0);
        self.boxed(Ink::Caution, words.card_ask_first(), &said, style);
    }

    /// A heading and some sentences in a box.
    fn boxed(&mut self, edge: Ink, heading: &str, said: &[String], style: Style) {
        let inner = self.width() - 20.0;
        let head = Style::bold(style.size + 1.0).ink(edge);
        let heights = said
            .iter()
            .map(|text| self.sheet.height(inner, style, text));
        let height = heights.sum::<f32>() + head.leading() + 12.0;
        let area = Area::new(MARGIN, self.y, self.width(), height);
        let pen = Pen::new(1.2, edge);
        self.sheet.frame(area, Some(Ink::CautionBack), Some(pen));
        let x = MARGIN + 10.0;
        let mut y = self.sheet.heading(2, x, self.y + 6.0, head, heading);
        for text in said {
            y = self.sheet.paragraph(x, y, inner, style, text);
        }
        self.y = area.bottom() + 7.0;
    }

    /// The steps of making safe, to tick anew.
    fn make_safe(&mut self) {
        let figures = &self.setting.figures;
        let words = figures.language;
        let heading = Style::bold(13.0).ink(Ink::Caution);
        let text = words.caution_heading();
        self.y = self.sheet.heading(2, MARGIN, self.y, heading, text) + 1.0;
        let style = Style::regular(11.5);
        let list = &self.session.checklist;
        let steps: Vec<String> = list
            .steps(Stage::MakeSafe)
            .into_iter()
            .chain(list.steps(Stage::Turn).into_iter().take(1))
            .map(|step| figures.step_text(list, step))
            .collect();
        let column = self.width() / 2.0;
        let room = column - 26.0;
        for pair in steps.chunks(2) {
            let heights = pair.iter().map(|text| self.sheet.height(room, style, text));
            let height = heights.fold(14.0, f32::max);
            for (index, text) in pair.iter().enumerate() {
                let x = MARGIN + index as f32 * column;
                self.sheet.tick_box(x, self.y + 1.0, 12.0);
                self.sheet.paragraph(x + 18.0, self.y, room, style, text);
            }
            self.y += height + 3.0;
        }
        let base = self.y + 14.0;
        let (by, at) = (words.card_safe_by(), words.card_at_time());
        self.sheet.open(Part::Paragraph);
        let mut x = MARGIN;
        for (label, room) in [(by, 190.0), (at, 80.0)] {
            self.sheet.text(x, base, Align::Left, style, label);
            x += self.sheet.width(label, style) + 6.0;
            self.sheet
                .rule(x, base + 2.0, room, Pen::new(0.8, Ink::Text));
            x += room + 14.0;
        }
        self.sheet.close();
        self.y = base + 9.0;
    }

    /// The nuts, outs first, as high as there is room for.
    fn nuts(&mut self, room: f32, strip: f32) {
        let words = self.setting.figures.language;
        let nuts = self.facts.nuts_to_turn();
        let below = self.below_nuts();
        let style = Style::regular(10.0);
        let heads = 3.0 * 8.5 * LEADING + 4.0;
        let below_height = self.sheet.height(self.width(), style, &below) + 8.0;
        let left = room - self.y - strip - heads - below_height - 2.0;
        let height = (left / nuts.len().max(1) as f32).clamp(ROW.1, ROW.0);
        let columns = Places::of(self.width(), height);
        let small = Style::regular(8.5).ink(Ink::Muted);
        self.sheet.open(Part::Table);
        self.sheet.open(Part::Row);
        let heads = [
            (columns.tick, words.card_column_done()),
            (columns.letter, words.card_column_arm()),
            (columns.picture, words.card_column_wrench()),
            (columns.turn, words.card_column_turn()),
            (columns.stands, words.card_column_stands()),
            (columns.opening, words.card_column_opening()),
            (columns.really, words.card_column_really()),
        ];
        let tall = heads
            .iter()
            .map(|((_, width), text)| self.sheet.height(width - 4.0, small, text));
        let tall = tall.fold(0.0, f32::max);
        for ((x, width), text) in heads {
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
        let mut said = Vec::new();
        if !stay.is_empty() {
            said.push(words.card_others_stay(stay.join(", ")));
        }
        if self.session.press.left_hand_thread {
            said.push(words.card_left_hand().to_owned());
        }
        said.push(words.card_position_counts().to_owned());
        said.join(" ")
    }

    fn stands(&self, arm: ArmIndex) -> NutPosition {
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
            let nth = words.from_the_left(arm.0);
            let small = Style::regular(8.0).ink(Ink::Muted);
            let room = (Align::Centre, columns.letter.1 - 6.0);
            sheet.fitting(x, area.bottom() - 4.0, room, small, &nth);
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
            sheet.extend(castle_nut(centre, radius, way));
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

    /// What to do where turning is not the next act.
    fn instead(&mut self) {
        let figures = &self.setting.figures;
        let words = figures.language;
        let facts = self.facts;
        let act = figures.act_label(self.session, &facts.gate, &facts.step.act);
        let mut said = vec![words.card_instead(act), words.card_leave_nuts().to_owned()];
        match &facts.problem {
            Some(PlanningProblem::NotClear(_)) => {
                said.extend(figures.gate_sentences(self.session, &facts.gate));
            }
            Some(problem) => said.push(figures.planning_problem(self.session, problem)),
            None => {}
        }
        self.boxed(
            Ink::Caution,
            words.card_no_turns(),
            &said,
            Style::regular(14.0),
        );
    }

    /// Rows of the strip, a few stations each.
    fn strip_rows(&self) -> Vec<Vec<String>> {
        let names: Vec<String> = (0..self.session.stations.len())
            .map(|station| self.session.station_name(station))
            .collect();
        names
            .chunks(STRIP_COLUMNS)
            .map(<[String]>::to_vec)
            .collect()
    }

    fn strip_height(&self) -> f32 {
        let one = 13.0 + STRIP_ROWS as f32 * STRIP_CELL + 5.0;
        22.0 + self.strip_rows().len() as f32 * one
    }

    /// Places for the next readings.
    fn strip(&mut self) {
        let figures = &self.setting.figures;
        let words = figures.language;
        let heading = Style::bold(11.5);
        let title = words.card_next_readings(words.unit_plural(figures.unit));
        let base = self.y + heading.size * RISE;
        let laced = Style::regular(10.0);
        let right = self.sheet.page.width - MARGIN;
        self.y = self.sheet.heading(2, MARGIN, self.y, heading, &title) + 2.0;
        self.sheet.part(Part::Paragraph, |sheet| {
            sheet.text(
                right - 76.0,
                base,
                Align::Right,
                laced,
                words.card_laced_at(),
            );
        });
        let pen = Pen::new(0.8, Ink::Text);
        self.sheet.rule(right - 72.0, base + 2.0, 72.0, pen);
        for names in self.strip_rows() {
            let cell = self.width() / names.len().max(STRIP_COLUMNS / 2) as f32;
            self.sheet.open(Part::Table);
            self.sheet.open(Part::Row);
            for (index, name) in names.iter().enumerate() {
                let x = MARGIN + (index as f32 + 0.5) * cell;
                let base = self.y + 10.0;
                self.sheet.part(Part::ColumnHead, |sheet| {
                    sheet.text(x, base, Align::Centre, Style::bold(11.0), name);
                });
            }
            self.sheet.close();
            self.y += 13.0;
            self.sheet.close();
            for _ in 0..STRIP_ROWS {
                for index in 0..names.len() {
                    let x = MARGIN + index as f32 * cell;
                    let area = Area::new(x, self.y, cell, STRIP_CELL);
                    self.sheet
                        .frame(area, None, Some(Pen::new(0.7, Ink::SteelEdge)));
                }
                self.y += STRIP_CELL;
            }
            self.y += 5.0;
        }
    }

    /// The cautions at the foot of the page.
    fn cautions(&self) -> Vec<String> {
        let words = self.setting.figures.language;
        let first = format!("{} {}", words.caution_heading(), words.caution_text());
        let mut said = vec![first];
        said.extend(
            [Caution::OutsThenIns, Caution::HandsClear, Caution::Eyes]
                .map(|caution| words.caution(caution).to_owned()),
        );
        if let Some(seen) = self.seen() {
            said.push(seen.to_owned());
        }
        said.push(words.card_old().to_owned());
        said
    }

    /// From where the arrows are seen; none where nothing is turned.
    fn seen(&self) -> Option<&'static str> {
        let words = self.setting.figures.language;
        let nuts = self.facts.nuts_to_turn();
        let first = nuts.first().filter(|_| self.facts.may_turn())?;
        Some(match first.1.0 {
            1.. => words.out_backs_off(),
            _ => words.in_runs_in(),
        })
    }

    fn caution_style() -> Style {
        Style::regular(9.5)
    }

    fn foot_height(&self) -> f32 {
        let inner = self.width() - 16.0;
        let text = self.cautions().join(" ");
        self.sheet.height(inner, Self::caution_style(), &text) + 12.0
    }

    fn foot(&mut self, top: f32) {
        let width = self.width();
        let height = self.sheet.page.height - MARGIN - top;
        let area = Area::new(MARGIN, top + 4.0, width, height - 4.0);
        let pen = Pen::new(1.0, Ink::Caution);
        self.sheet.frame(area, Some(Ink::CautionBack), Some(pen));
        let text = self.cautions().join(" ");
        let style = Self::caution_style().ink(Ink::Caution);
        let inner = width - 16.0;
        self.sheet
            .paragraph(MARGIN + 8.0, top + 8.0, inner, style, &text);
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

/// Says on a page that a session is practice, or made up.
pub(super) fn invented(
    sheet: &mut Sheet<'_>,
    session: &Session,
    setting: &Setting,
    y: &mut f32,
    margin: f32,
) {
    let words = setting.figures.language;
    let text = match (setting.practice, session.invented) {
        (true, _) => words.practice_mark_long(),
        (false, true) => words.report_invented(),
        (false, false) => return,
    };
    let style = Style::bold(10.5).ink(Ink::Caution);
    let width = sheet.width(text, style) + 14.0;
    let area = Area::new(margin, *y + 2.0, width, 16.0);
    sheet.frame(area, None, Some(Pen::new(1.2, Ink::Caution)));
    sheet.part(Part::Paragraph, |sheet| {
        sheet.text(area.x + 7.0, area.y + 12.0, Align::Left, style, text);
    });
    *y = area.bottom() + 2.0;
}
