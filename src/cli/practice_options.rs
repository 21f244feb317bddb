//! The options of `practice`, as typed.

use std::path::PathBuf;

use lexopt::Arg;

use super::options::{OptionProblem, Topic, text};
use super::request::{Command, set_file, skip_language};

/// Options of `practice`.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct PracticeOptions {
    pub file: Option<PathBuf>,
    pub begin: Begin,
    pub exercise: Option<String>,
    /// A practice file with an exercise that was handed out.
    pub from: Option<String>,
    pub guess: Option<String>,
    pub advice: bool,
    pub see_to: Option<String>,
    pub turned: Option<String>,
    pub flip: bool,
    pub repeats: Option<String>,
    pub careless: Option<String>,
    pub accept: bool,
    pub reveal: bool,
    pub record: Option<String>,
    pub json: bool,
}

/// What goes with the beginning of an exercise only.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct Begin {
    pub arms: Option<String>,
    pub fault: Option<String>,
    pub level: Option<String>,
    pub unit: Option<String>,
    pub assist: Option<String>,
    pub profile: Option<String>,
    pub title: Option<String>,
    pub note: Option<String>,
    pub who: Option<String>,
    pub when: Option<String>,
    pub hand_out: bool,
}

impl Begin {
    /// An option that was given, if any was.
    pub fn given(&self) -> Option<&'static str> {
        let options = [
            ("--arms", self.arms.is_some()),
            ("--fault", self.fault.is_some()),
            ("--level", self.level.is_some()),
            ("--unit", self.unit.is_some()),
            ("--assist", self.assist.is_some()),
            ("--profile", self.profile.is_some()),
            ("--title", self.title.is_some()),
            ("--note", self.note.is_some()),
            ("--who", self.who.is_some()),
            ("--when", self.when.is_some()),
            ("--hand-out", self.hand_out),
        ];
        options
            .into_iter()
            .find_map(|(name, given)| given.then_some(name))
    }
}

/// Reads the options of `practice`.
pub(super) fn read_practice(parser: &mut lexopt::Parser) -> Result<Command, OptionProblem> {
    let mut options = PracticeOptions::default();
    let mut begin = Begin::default();
    while let Some(argument) = parser.next()? {
        let flag = match &argument {
            Arg::Long("help") | Arg::Short('h') => return Ok(Command::Help(Topic::Practice)),
            Arg::Long("advice") => Some(&mut options.advice),
            Arg::Long("flip") => Some(&mut options.flip),
            Arg::Long("accept") => Some(&mut options.accept),
            Arg::Long("reveal") => Some(&mut options.reveal),
            Arg::Long("json") => Some(&mut options.json),
            Arg::Long("hand-out") => Some(&mut begin.hand_out),
            _ => None,
        };
        if let Some(flag) = flag {
            *flag = true;
            continue;
        }
        let (option, place) = match argument {
            Arg::Long("language") => {
                skip_language(parser)?;
                continue;
            }
            Arg::Long("exercise") => ("--exercise", &mut options.exercise),
            Arg::Long("from") => ("--from", &mut options.from),
            Arg::Long("guess") => ("--guess", &mut options.guess),
            Arg::Long("see-to") => ("--see-to", &mut options.see_to),
            Arg::Long("turned") => ("--turned", &mut options.turned),
            Arg::Long("repeats") => ("--repeats", &mut options.repeats),
            Arg::Long("careless") => ("--careless", &mut options.careless),
            Arg::Long("record") => ("--record", &mut options.record),
            Arg::Long("arms") => ("--arms", &mut begin.arms),
            Arg::Long("fault") => ("--fault", &mut begin.fault),
            Arg::Long("level") => ("--level", &mut begin.level),
            Arg::Long("unit") => ("--unit", &mut begin.unit),
            Arg::Long("assist") => ("--assist", &mut begin.assist),
            Arg::Long("profile") => ("--profile", &mut begin.profile),
            Arg::Long("title") => ("--title", &mut begin.title),
            Arg::Long("note") => ("--note", &mut begin.note),
            Arg::Long("who") => ("--who", &mut begin.who),
            Arg::Long("when") => ("--when", &mut begin.when),
            Arg::Value(value) => {
                set_file(&mut options.file, value)?;
                continue;
            }
            other => return Err(other.unexpected().into()),
        };
        *place = Some(text(parser, option)?);
    }
    options.begin = begin;
    Ok(Command::Practice(Box::new(options)))
}
