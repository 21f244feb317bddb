//! What views ask for. One place ([`super::act`]) carries it out.

use std::path::PathBuf;

use crate::press::{ArmIndex, Notches};
use crate::report::Printed;
use crate::session::{Edit, NextAct, Session};
use crate::store::PortSettings;
use crate::units::Unit;
use crate::words::Language;

use super::practicing::PracticeWish;
use super::shop::ShopWish;
use super::state::dialog::{PathFor, Then};
use super::state::{Before, Dialog};
use super::theme::Look;

/// What a view asks for.
#[derive(Debug, Clone, PartialEq)]
pub enum Action {
    /// Change the document.
    Edit(Edit),
    /// Copy what a helper asks for.
    CopyDoctor,
    /// Take the last change back.
    Undo,
    /// Do the last undone change again.
    Redo,
    /// Leave the present document for something else; asks first when work is
    /// unsaved.
    Leave(Then),
    /// The same, work saved or given up.
    LeaveNow(Then),
    /// Save, and leave once it is saved.
    SaveThen(Then),
    /// Start this session.
    Start(Box<Session>),
    /// Save the document where it belongs; ask where if it has no file yet.
    Save,
    /// Save over a file that somebody else changed.
    SaveOver,
    /// Save beside a file that somebody else changed, so that both are kept.
    SaveBeside,
    /// Save the document under another name.
    SaveAs,
    /// Save the document under this name, whatever is there.
    Replace(PathBuf),
    /// Tell what keeping what this session taught means.
    Teach,
    /// Choose the press file that is taught.
    ChoosePressFile,
    /// Put the session on paper: written aside and shown by the system's
    /// viewer, which prints it.
    Print(Printed),
    /// Look what a folder holds, to choose a path from.
    LookInto(PathFor, PathBuf),
    /// Make a folder that is not there yet, and look into it.
    MakeFolder(PathFor, PathBuf),
    /// Use a path that was typed or picked.
    UsePath(PathFor, PathBuf),
    /// Show another pass; none for the last.
    ShowPass(Option<usize>),
    /// Show the passes side by side.
    SideBySide,
    /// Show the crew's view on the full screen.
    CrewView,
    /// Keep the turns on show to compare, under the name typed.
    KeepPreview,
    /// Throw kept turns away: their index.
    DropPreview(usize),
    /// Turn one nut of the preview by so many notches.
    TurnNut(ArmIndex, Notches),
    /// Set the preview.
    Preview(Vec<Notches>),
    /// Let the preview follow the recommendation.
    PreviewRecommended,
    /// Make the turns on show: asks whether the press is made safe, then shows
    /// the turn card. Without turns, opens a pass.
    GoAndTurn,
    /// The same for the turns that would even the coarse gap.
    GoAndTurnGap,
    /// Whether the press is made safe is answered.
    MadeSafe(Before),
    /// Every nut on the turn card is ticked: note what was turned.
    AllTurned,
    /// Note what was turned so far and leave the turn card.
    NoteTurnedSoFar,
    /// Leave the turn card without noting anything; asks first where a nut is
    /// ticked.
    StopTurning,
    /// The same, that question answered.
    LeaveTurnCard,
    /// Do the one next thing.
    Next(NextAct),
    /// Open a pass without turns.
    LaceAgain,
    /// Copy the plan as text.
    CopyPlan,
    /// Copy this text.
    Copy(String),
    /// Show lengths in this unit.
    ShowUnit(Unit),
    /// Speak this language.
    Speak(Language),
    /// Wear this look.
    Wear(Look),
    /// Make everything larger (1) or smaller (-1), or as large as the display
    /// has room for (0).
    Zoom(i8),
    /// Show the dialog that imports readings.
    AskImport,
    /// Choose a file of readings for it.
    ChooseReadings,
    /// Import readings: the change, and the pass they go into.
    Import(Box<Edit>, usize),
    /// Start taking readings arm by arm.
    Guide,
    /// Look for the serial ports there are.
    LookForPorts,
    /// Listen to a gauge over a serial port, or no longer.
    UsePort(PortSettings),
    /// Say that something typed cannot be used.
    Complain(String),
    /// Take what was said out of sight.
    DismissMessage,
    /// Show a dialog.
    Show(Box<Dialog>),
    /// Close what stands in front: the dialog, or else the view that has taken
    /// the place of the picture.
    Close,
    /// Take up work that was kept aside: its index.
    TakeLeftover(usize),
    /// Throw work that was kept aside away: its index.
    DropLeftover(usize),
    /// Something about practice.
    Practice(PracticeWish),
    /// Something about the shop's folder.
    Shop(ShopWish),
}
