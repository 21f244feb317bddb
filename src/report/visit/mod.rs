//! The report of a visit, in one or two pages: what was found, what was done,
//! what was left, and what that rests on.

mod checklist;
mod readings;

use crate::session::{IsoDate, Remark, Session};
use crate::units::TypedLength;

use super::sheet::{Align, Area, RISE, Sheet, Style};
use super::table::Columns;
use super::{Facts, Fonts, Ink, Page, Part, Pen, Setting, card, profile};

/// Room around a page, and for the line at its foot.
const MARGIN: f32 = 40.0;
const FOOT: f32 = 20.0;

/// Height of the profile.
const PICTURE: f32 = 190.0;

const TEXT: Style = Style::regular(9.5);
const SMALL: Style = Style::regular(8.5);
const TITLE: Style = Style::bold(11.5);

/// The report's pages.
pub fn session_report(
    session: &Session,
    facts: &Facts,
    setting: &Setting,
    fonts: &Fonts,
) -> Vec<Page> {
    let mut report = Report {
        sheet: Sheet::new(fonts, setting.paper.size()),
        done: Vec::new(),
        session,
        facts,
        setting,
        y: MARGIN,
    };
    report.head();
    report.about();
    report.profile();
    report.found_and_left();
    report.verdict();
    report.readings();
    report.checklist();
    report.corrected();
    report.signatures();
    report.finished()
}

struct Report<'a> {
    sheet: Sheet<'a>,
    done: Vec<Page>,
    session: &'a Session,
    facts: &'a Facts,
    setting: &'a Setting,
    /// The lower edge of what is drawn.
    y: f32,
}

impl Report<'_> {
    fn width(&self) -> f32 {
        self.sheet.page.width - 2.0 * MARGIN
    }

    fn bottom(&self) -> f32 {
        self.sheet.page.height - MARGIN - FOOT
    }

    /// Goes on to another page where this one has not so much room.
    fn need(&mut self, height: f32) {
        if self.y + height > self.bottom() && self.y > MARGIN + 1.0 {
            let fresh = Sheet::new(self.sheet.fonts, self.setting.paper.size());
            self.done
                .push(std::mem::replace(&mut self.sheet, fresh).page);
            self.y = MARGIN;
        }
    }

    /// A heading with room for what follows it.
    fn title(&mut self, text: &str, follows: f32) {
        self.need(TITLE.leading() + 6.0 + follows);
        self.y = self.sheet.heading(2, MARGIN, self.y + 5.0, TITLE, text) + 1.0;
    }

    fn paragraph(&mut self, style: Style, text: &str) {
        let width = self.width();
        self.need(self.sheet.height(width, style, text));
        self.y = self.sheet.paragraph(MARGIN, self.y, width, style, text);
    }

    fn head(&mut self) {
        let figures = &self.setting.figures;
        let words = figures.language;
        let heading = Style::bold(20.0);
        let base = self.y + heading.size * RISE;
        if !self.setting.printed.is_empty() {
            let printed = words.report_printed(&self.setting.printed);
            let right = self.sheet.page.width - MARGIN;
            self.sheet.part(Part::Paragraph, |sheet| {
                sheet.text(right, base, Align::Right, SMALL.ink(Ink::Muted), &printed);
            });
        }
        let text = words.report_heading();
        self.y = self.sheet.heading(1, MARGIN, self.y, heading, text);
        let name = match self.session.press.name.as_str() {
            "" => words.unnamed_press(),
            name => name,
        };
        let width = self.width();
        let press = Style::bold(14.0);
        let base = self.y + press.size * RISE;
        self.sheet.part(Part::Paragraph, |sheet| {
            sheet.fitting(MARGIN, base, (Align::Left, width), press, name);
        });
        self.y += press.leading();
        card::invented(
            &mut self.sheet,
            self.session,
            self.setting,
            &mut self.y,
            MARGIN,
        );
        let (headline, below) = self.facts.headline(self.session, figures);
        self.y += 2.0;
        self.paragraph(Style::bold(11.5), &headline);
        if !below.is_empty() {
            self.paragraph(TEXT, &below);
        }
        self.y += 3.0;
    }

    /// Press, visit, gauge and limits, two abreast.
    fn about(&mut self) {
        let figures = &self.setting.figures;
        let words = figures.language;
        let session = self.session;
        let notes = &session.notes;
        let length = |typed: &TypedLength| figures.plain(typed.length());
        let mut effects: Vec<String> = Vec::new();
        for arm in &session.press.arms {
            let effect = length(&arm.notch_effect);
            if !effects.contains(&effect) {
                effects.push(effect);
            }
        }
        let arms = session.press.arms.len();
        let mut press = vec![
            words.report_jaw(length(&session.press.jaw_length), arms),
            words.report_notch(effects.join(", ")),
        ];
        match session.press.left_hand_thread {
            Some(false) => {}
            Some(true) => press.push(words.card_left_hand().to_owned()),
            None => press.push(words.card_thread_unseen().to_owned()),
        }
        let said = |text: &str, say: &dyn Fn(&str) -> String| (!text.is_empty()).then(|| say(text));
        let visit: Vec<String> = [
            said(&notes.when, &|when| words.report_when(when)),
            said(&notes.who, &|who| words.report_who(who)),
            said(&notes.belt, &|belt| words.report_belt(belt)),
            said(&notes.hooks, &|hooks| words.report_hooks(hooks)),
            Some(words.report_session(&session.id)),
        ]
        .into_iter()
        .flatten()
        .collect();
        let gauge = self.gauge();
        let mut limits = vec![
            words.report_tolerance(figures.limit(session.tolerance.length())),
            format!(
                "{} {}",
                words.accepted_by_label(),
                words.accepted_by(session.acceptance.by)
            ),
        ];
        limits.push(session.target.as_ref().map_or_else(
            || words.report_no_target().to_owned(),
            |target| words.report_target(length(target)),
        ));
        let column = self.width() / 2.0;
        for pair in [
            [(words.report_press(), press), (words.report_visit(), visit)],
            [
                (words.report_gauge(), gauge),
                (words.report_limits(), limits),
            ],
        ] {
            let top = self.y;
            let mut below = top;
            for (index, (title, said)) in pair.iter().enumerate() {
                let x = MARGIN + index as f32 * column;
                let style = Style::bold(9.5).ink(Ink::Muted);
                let mut y = self.sheet.heading(2, x, top, style, title);
                for text in said {
                    y = self.sheet.paragraph(x, y, column - 10.0, TEXT, text);
                }
                below = below.max(y);
            }
            self.y = below + 4.0;
        }
    }

    /// The gauge, what is known of it, and its calibration.
    fn gauge(&self) -> Vec<String> {
        let figures = &self.setting.figures;
        let words = figures.language;
        let gauge = &self.session.gauge;
        let named = match gauge.name.as_str() {
            "" => words.gauge_kind(gauge.kind).to_owned(),
            name => name.to_owned(),
        };
        let mut first = vec![
            named,
            words.report_gauge_step(figures.plain(gauge.step.length())),
        ];
        if let Some(limit) = &gauge.limit_of_error {
            first.push(words.report_gauge_limit(figures.plain(limit.length())));
        }
        let repeats = gauge.repeatability.as_ref().map_or_else(
            || words.report_gauge_repeats_unknown().to_owned(),
            |known| words.report_gauge_repeats(figures.plain(known.sd.length())),
        );
        let calibrated = gauge.calibration_due.map_or_else(
            || words.report_calibration_unknown().to_owned(),
            |due: IsoDate| words.report_calibrated_until(due),
        );
        let mut said = vec![first.join(", "), repeats, calibrated];
        let today = self.setting.today;
        said.extend(today.and_then(|today| figures.calibration_sentence(gauge, today)));
        said
    }

    fn profile(&mut self) {
        let words = self.setting.figures.language;
        self.title(words.report_profile(), PICTURE);
        let area = Area::new(MARGIN, self.y, self.width(), PICTURE);
        profile::draw(&mut self.sheet, area, self.session, self.setting);
        self.y = area.bottom() + 4.0;
    }

    fn verdict(&mut self) {
        let figures = self.setting.figures;
        let words = figures.language;
        let facts = self.facts;
        let mut said = vec![figures.judged(self.session, &facts.gate)];
        if let Some(verdicts) = &facts.verdicts {
            said.extend(figures.verdict_sentences(self.session, &facts.gate, verdicts));
        }
        let limit = self.session.tolerance.length();
        let accepted = facts.advice.as_ref().is_none_or(|advice| advice.accepted);
        let remarks = facts.remarks(self.session);
        let remarks = remarks
            .iter()
            .filter(|remark| !accepted || matches!(remark, Remark::Finding(_)));
        said.extend(remarks.map(|remark| figures.plan_remark(remark, limit)));
        said.retain(|text| !text.is_empty());
        self.title(words.report_verdict(), 40.0);
        for text in &said {
            self.paragraph(TEXT, text);
        }
        self.y += 2.0;
    }

    fn corrected(&mut self) {
        let figures = self.setting.figures;
        let lines = figures.corrections(self.session);
        if lines.is_empty() {
            return;
        }
        self.title(figures.language.report_corrected(), 30.0);
        for line in &lines {
            self.paragraph(SMALL, line);
        }
    }

    fn signatures(&mut self) {
        let words = self.setting.figures.language;
        self.title(words.report_signatures(), 46.0);
        let column = self.width() / 2.0;
        let y = self.y + 26.0;
        for (index, label) in [words.report_signed_worker(), words.report_signed_checker()]
            .into_iter()
            .enumerate()
        {
            let x = MARGIN + index as f32 * column;
            self.sheet
                .rule(x, y, column - 20.0, Pen::new(0.8, Ink::Text));
            let style = SMALL.ink(Ink::Muted);
            self.sheet
                .paragraph(x, y + 2.0, column - 20.0, style, label);
        }
        self.y = y + 2.0 + SMALL.leading();
    }

    /// The pages with their numbers.
    fn finished(self) -> Vec<Page> {
        let words = self.setting.figures.language;
        let (fonts, session) = (self.sheet.fonts, self.session);
        let mut pages = self.done;
        pages.push(self.sheet.page);
        let all = pages.len();
        let numbered = pages.into_iter().zip(1..).map(|(page, number)| {
            let mut sheet = Sheet { fonts, page };
            let style = Style::regular(8.0).ink(Ink::Muted);
            let y = sheet.page.height - MARGIN;
            let right = sheet.page.width - MARGIN;
            let name = &session.press.name;
            let line = format!("{name} · {}", words.report_session(&session.id));
            sheet.part(Part::Foot, |sheet| {
                sheet.fitting(
                    MARGIN,
                    y,
                    (Align::Left, right - MARGIN - 90.0),
                    style,
                    &line,
                );
                let page = words.report_page(number, all);
                sheet.text(right, y, Align::Right, style, &page);
            });
            sheet.page
        });
        numbered.collect()
    }
}
