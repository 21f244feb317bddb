//! Says what is wrong with the command line.

use crate::words::{Language, shortened};

use super::options::OptionProblem;

/// The sentence for a problem with the command line.
pub(super) fn option_problem(words: Language, problem: &OptionProblem) -> String {
    match problem {
        OptionProblem::Unknown(option) => words.option_unknown(shortened(option)),
        OptionProblem::NoValue(option) => words.option_no_value(option),
        OptionProblem::ValueNotTaken(option, value) => {
            words.option_value_not_taken(option, shortened(value))
        }
        OptionProblem::Needed(option) => words.option_needed(option),
        OptionProblem::NoFile => words.option_no_file().to_owned(),
        OptionProblem::NoFolder => words.option_no_folder().to_owned(),
        OptionProblem::OneFileOnly(found) => words.option_one_file_only(shortened(found)),
        OptionProblem::Extra(found) => words.option_extra(shortened(found)),
        OptionProblem::NotText(option) => words.option_not_text(option),
        OptionProblem::Length(option, number, problem, unit) => {
            words.length_problem(&words.option_value(option, number), problem, *unit)
        }
        OptionProblem::Whole(option, found) if is_whole(found) => {
            words.option_too_large(option, shortened(found.trim()))
        }
        OptionProblem::Whole(option, found) => words.option_whole(option, shortened(found)),
        OptionProblem::Negative(option, found) => words.option_negative(option, shortened(found)),
        OptionProblem::Limits(found) => words.option_limits(shortened(found)),
        OptionProblem::PerArm(option, arms, found) => words.option_per_arm(option, arms, found),
        OptionProblem::Confidence(found) => words.option_confidence(shortened(found)),
        OptionProblem::NotWithPress(option) => words.option_not_with_press(option),
        OptionProblem::Unit(found) => words.option_unit(shortened(found)),
        OptionProblem::Paper(found) => words.option_paper(shortened(found)),
        OptionProblem::Language(found) => words.option_language(shortened(found)),
        OptionProblem::Renderer(found) => words.option_renderer(shortened(found)),
    }
}

/// Whether a text is a whole number after all, then one beyond all counting.
fn is_whole(found: &str) -> bool {
    let found = found.trim();
    let digits = found.strip_prefix(['+', '-', '−']).unwrap_or(found);
    !digits.is_empty() && digits.bytes().all(|byte| byte.is_ascii_digit())
}
