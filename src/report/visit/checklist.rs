//! What was ticked in the visit, by whom and when, and what was not.

use crate::session::{MarkKind, Stage, StepId};

use super::{Columns, Ink, MARGIN, Part, Report, SMALL};

impl Report<'_> {
    /// What was ticked, by whom and when, and what was not.
    pub(super) fn checklist(&mut self) {
        let figures = self.setting.figures;
        let words = figures.language;
        let list = &self.session.checklist;
        self.title(words.report_checklist(), 40.0);
        let columns = Columns::shares(MARGIN, self.width(), &[3.0, 4.0]);
        let mut open: Vec<String> = Vec::new();
        let mut begun = false;
        for stage in Stage::ALL {
            for step in list.steps(stage) {
                let marks = self.marks(step);
                let text = figures.step_text(list, step);
                if marks.is_empty() {
                    open.push(text);
                    continue;
                }
                if !begun {
                    begun = true;
                    self.sheet.open(Part::Table);
                    let heads = [words.report_step(), words.report_done_by()].map(str::to_owned);
                    let head = SMALL.ink(Ink::Muted);
                    self.y = columns.row(&mut self.sheet, self.y, head, &heads, true);
                }
                self.row(&columns, SMALL, &[text, marks.join("; ")]);
            }
        }
        if begun {
            self.sheet.close();
            let text = open.join(" · ");
            if !text.is_empty() {
                self.paragraph(SMALL.ink(Ink::Muted), &words.report_not_ticked(text));
            }
        } else {
            self.paragraph(SMALL, words.report_nothing_ticked());
        }
        self.y += 2.0;
    }

    /// Every mark of a step, oldest first.
    fn marks(&self, step: StepId) -> Vec<String> {
        let words = self.setting.figures.language;
        let marks = self.session.checklist.marks.iter();
        marks
            .filter(|mark| mark.step == step)
            .map(|mark| {
                let line = words.mark_line(mark);
                match (mark.kind, mark.note.as_str()) {
                    (MarkKind::Skipped, note) => {
                        format!("{} ({line})", words.left_out_because(note))
                    }
                    (MarkKind::Done, "") => line,
                    (MarkKind::Done, note) => format!("{line}: {note}"),
                }
            })
            .collect()
    }
}
