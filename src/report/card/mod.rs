//! The turn card: one page to take to the press, in letters for arm's length.
//!
//! Outs stand before ins, and what is missing or doubtful before either: where
//! turning is not the next act there is no turn on the card, and it says what
//! to do instead.

mod nuts;
mod strip;

use crate::session::{Caution, Hands, PlanningProblem, Remark, Session, Whose};

use super::sheet::{Align, Area, RISE, Sheet, Style};
use super::{Facts, Fonts, Ink, Page, Part, Pen, Point, Setting};

/// Room around the page.
const MARGIN: f32 = 34.0;

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
        let mut aside = vec![words.report_session(&self.session.id)];
        if !self.setting.printed.is_empty() {
            aside.insert(0, words.report_printed(&self.setting.printed));
        }
        self.sheet.part(Part::Paragraph, |sheet| {
            sheet.text(right, base, Align::Right, small, &aside.join(" · "));
        });
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
        let doubt = facts.gate.pass.filter(|_| !self.setting.practice);
        let doubt = doubt.and_then(|pass| {
            let shape = self.session.shape_of(pass, Whose::Press);
            self.session.turn_doubt(pass, &shape)
        });
        let doubt = doubt.map(|doubt| figures.before_turns_sentence(self.session, &doubt));
        let remarks = facts.remarks(self.session);
        let remarks = remarks
            .iter()
            .filter(|remark| remark.is_caution() || matches!(remark, Remark::Held(_)))
            .map(|remark| figures.plan_remark(remark, limit));
        let mut said: Vec<String> = doubt.into_iter().chain(remarks).collect();
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
        let style = Style::regular(10.0);
        let list = &self.session.checklist;
        let steps: Vec<String> = list
            .safe_steps(Hands::TurnNuts)
            .into_iter()
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
            self.y += height + 1.0;
        }
        let base = self.y + 13.0;
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
        self.y = base + 7.0;
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
