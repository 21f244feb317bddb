//! What stands in front of everything, and what waits behind it.

use std::path::PathBuf;

use crate::practice::Exercise;
use crate::store::{Listed, SampleSession, UsualFolder};

use super::changed::ChangedForm;
use super::gauge_form::GaugeForm;
use super::import_form::ImportForm;
use super::made_safe::Before;
use super::new_session::NewSessionForm;
use super::port_form::PortForm;
use super::practice_form::PracticeForm;
use super::properties::PropertiesForm;
use super::shop::PressKey;
use super::strike::StrikeForm;

/// A dialog in front of everything.
#[derive(Debug, Clone, PartialEq)]
pub enum Dialog {
    /// Starting a session.
    New(Box<NewSessionForm>),
    /// Properties of press, stations, gauge and visit.
    Properties(Box<PropertiesForm>),
    /// The gauge.
    Gauge(Box<GaugeForm>),
    /// The gauge check.
    GaugeCheck,
    /// Striking a reading.
    Strike(Box<StrikeForm>),
    /// Unsaved work would be lost by what comes next.
    UnsavedWork(Then),
    /// The file was changed by somebody else since it was opened.
    ChangedOnDisk(Box<ChangedForm>),
    /// A file of that name exists.
    FileExists(PathBuf),
    /// A path typed by hand, where the desktop has no file dialog.
    TypePath(PathFor, TypedPath),
    /// Work kept aside before a crash.
    Leftovers,
    /// What a later start of the program offers.
    Welcome,
    /// What keeping what was learnt means, before its file is chosen.
    Teach,
    /// What there is to practice.
    Practice(Box<PracticeForm>),
    /// An exercise that was handed out: who does it.
    HandedOut(Box<Exercise>, String),
    /// Whether the press is made safe, before hands go in.
    MakeSafe(Box<Before>),
    /// Leaving the turn card, and what was turned so far.
    StopTurning,
    /// Readings from a CSV file or pasted text.
    Import(Box<ImportForm>),
    /// A gauge over a serial port.
    GaugePort(Box<PortForm>),
    /// Every figure behind the verdicts.
    WorkedOut,
    /// How to work with the program.
    Help,
    /// What the program is.
    About,
    /// Everything the program said since it was started.
    Messages,
}

/// What to do once unsaved work is safe or given up.
#[derive(Debug, Clone, PartialEq)]
pub enum Then {
    /// Show the dialog that starts a session.
    New,
    /// Choose a file to open.
    Open,
    /// Choose a press file and start the next visit from it.
    OpenPress,
    /// Open this file.
    OpenPath(PathBuf),
    /// Start the next visit from this press file.
    NextVisitOf(PathBuf),
    /// Start the next visit of a press of the shop's folder.
    NextVisitInShop(PressKey),
    /// Open a built-in sample.
    OpenSample(SampleSession),
    /// Begin an exercise: who does it.
    Practice(Box<Exercise>, String),
    /// Close the window.
    Quit,
}

/// A path as it is typed or picked.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct TypedPath {
    /// The folder that the name is meant from.
    pub folder: String,
    /// The name, or a whole path.
    pub name: String,
    /// Folders that people look in first, as far as there are any.
    pub usual: Vec<(UsualFolder, PathBuf)>,
    /// The folder that was looked into last.
    pub looked_into: PathBuf,
    /// What it holds, once that is known; none where it cannot be read.
    pub holds: Option<Option<Vec<Listed>>>,
}

impl TypedPath {
    /// The folder the name is meant from.
    pub fn place(&self) -> PathBuf {
        let folder = from_home(&self.folder);
        std::path::absolute(&folder).unwrap_or(folder)
    }

    /// Where it leads.
    pub fn whole(&self) -> PathBuf {
        self.place().join(from_home(&self.name))
    }
}

/// What is typed as a path. What starts with `~/` is meant from the user's home.
fn from_home(typed: &str) -> PathBuf {
    let typed = typed.trim();
    let in_home = typed.strip_prefix("~/").zip(std::env::home_dir());
    in_home.map_or_else(|| PathBuf::from(typed), |(rest, home)| home.join(rest))
}

/// What a typed path is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PathFor {
    /// To open a session.
    Open,
    /// To save the session under a name.
    SaveAs,
    /// To start the next visit from a press file.
    OpenPress,
    /// To write what the session taught into a press file.
    Teach,
    /// To import readings from a CSV file.
    Readings,
    /// To read the sessions of a shop's folder.
    Shop,
}

impl PathFor {
    /// Whether something is written there.
    pub fn saves(self) -> bool {
        matches!(self, Self::SaveAs | Self::Teach)
    }
}
