//! The commands that change a session: all of them, as data.

use crate::plan::Chore;
use crate::press::{ArmIndex, Notches, NutLimits, NutPosition};
use crate::splice::{GaugeKind, GaugePreset, Struck, Walk};
use crate::units::{LengthProblem, TypedLength, Unit, holds};

use super::{
    AcceptedBy, By, JawAndRods, KnownResponse, KnownScatter, NoDate, SessionProblem, Stage, StepId,
};

/// One change of a session. Every change of the document is one of these and
/// goes through [`super::Document::apply`].
///
/// Texts of lengths are as typed; a bare number takes the unit that stands
/// beside it.
#[derive(Debug, Clone, PartialEq)]
pub enum Edit {
    /// Another change, with who makes it and when, for the trace that it leaves
    /// in a pass that another follows.
    Noted {
        /// The change.
        change: Box<Edit>,
        /// Who makes it, and when.
        by: By,
    },
    /// Types into one cell of the readings grid. An empty text clears the
    /// cell; a text that is no thickness is kept as it is, unreadable.
    Enter {
        /// Pass index.
        pass: usize,
        /// Station index.
        station: usize,
        /// Repeat index.
        repeat: usize,
        /// What was typed.
        text: String,
        /// Unit of a bare number.
        bare: Unit,
    },
    /// Fills cells from a table, its first cell at the given station and
    /// repeat, as when pasting from a spreadsheet. Cells beyond the last
    /// station are refused as a whole.
    Fill {
        /// Pass index.
        pass: usize,
        /// Station of the table's first row.
        station: usize,
        /// Repeat of the table's first column.
        repeat: usize,
        /// The table.
        rows: Vec<Vec<String>>,
        /// Unit of bare numbers.
        bare: Unit,
    },
    /// Replaces doubtful readings by what they likely were meant to be.
    TakeLikely {
        /// Pass index.
        pass: usize,
        /// The readings: station and repeat of each.
        readings: Vec<(usize, usize)>,
    },
    /// Keeps doubtful readings as right; the doubt stays with them in the
    /// file.
    KeepDoubtful {
        /// Pass index.
        pass: usize,
        /// The readings: station and repeat of each.
        readings: Vec<(usize, usize)>,
        /// Who says that they are right.
        by: String,
    },
    /// Takes a reading out of the reckoning; it stays in the file, struck.
    Strike {
        /// Pass index.
        pass: usize,
        /// Station index.
        station: usize,
        /// Repeat index.
        repeat: usize,
        /// Who strikes it and why.
        struck: Struck,
    },
    /// Puts a struck reading back into the reckoning.
    Unstrike {
        /// Pass index.
        pass: usize,
        /// Station index.
        station: usize,
        /// Repeat index.
        repeat: usize,
    },
    /// Types the thickness of the bare belt at one station, as
    /// [`Enter`](Self::Enter) does a reading.
    EnterBelt {
        /// Pass index.
        pass: usize,
        /// Station index.
        station: usize,
        /// What was typed.
        text: String,
        /// Unit of a bare number.
        bare: Unit,
    },
    /// Says which way along the jaw a pass is read.
    SetWalk {
        /// Pass index.
        pass: usize,
        /// The way.
        walk: Walk,
    },
    /// Says whether the belt end of a pass lies the other way round than in
    /// the pass before.
    SetFlipped {
        /// Pass index.
        pass: usize,
        /// Whether it does.
        flipped: bool,
    },
    /// Says by what a piece is accepted.
    SetAcceptedBy(AcceptedBy),
    /// Says which kind of gauge it is.
    SetGaugeKind(GaugeKind),
    /// Takes kind, step and limit of error of the gauge from the library and
    /// forgets its repeatability.
    StartFromPreset(GaugePreset),
    /// Sets the repeatability of the gauge, as a gauge check found it; none
    /// forgets it.
    SetRepeatability(Option<KnownScatter>),
    /// Sets the scatter from lacing to lacing, as a gauge check found it; none
    /// forgets it.
    SetLacingScatter(Option<KnownScatter>),
    /// Several changes in their order as one, so that one step back takes them
    /// all back.
    Together(Vec<Edit>),
    /// Opens a pass after the last one, its nuts turned since then.
    AddPass {
        /// Turns, one per arm.
        turns: Vec<Notches>,
        /// When it is laced.
        laced: String,
    },
    /// Puts a pass without readings before another, its nuts as they were
    /// before that one.
    InsertPass {
        /// Index the new pass will have.
        at: usize,
    },
    /// Takes a pass out.
    DeletePass {
        /// Pass index.
        pass: usize,
    },
    /// Corrects the recorded nut position of one arm at a pass; at the start
    /// of the session where `pass` is none.
    SetNut {
        /// Pass index, or none for the start.
        pass: Option<usize>,
        /// Arm.
        arm: ArmIndex,
        /// Position from flush.
        position: NutPosition,
    },
    /// Says that the count was lost at these nuts: nobody knows where they stand.
    LoseNuts(Vec<ArmIndex>),
    /// Says where a nut stands that was lost and is found.
    FindNut {
        /// Arm.
        arm: ArmIndex,
        /// Position from flush.
        position: NutPosition,
    },
    /// Records how far the common handle was moved since the pass before, as
    /// thickness at the splice, outward positive; an empty text takes it back.
    SetHandle {
        /// Pass index.
        pass: usize,
        /// What was typed, with or without a sign.
        text: String,
        /// Unit of a bare number.
        bare: Unit,
    },
    /// Sets section of the jaw and size of the rods; none forgets them.
    SetJawAndRods(Option<JawAndRods>),
    /// Gives the response outright, a row per station and a column per arm;
    /// none takes it away.
    ///
    /// While one is given, no arm can be added or taken away and no station
    /// added: nothing would be known of the new row or column, and the press
    /// with another number of arms is another press. It is refused rather
    /// than dropped, since a response cannot be read off the screen again.
    /// Taking a station away takes its row away; the rest stays true.
    SetKnownResponse(Option<KnownResponse>),
    /// Forgets what earlier visits measured, as after a repair.
    ForgetEarlier,
    /// Corrects when a pass was laced, or its note.
    SetPassText {
        /// Pass index.
        pass: usize,
        /// `true` for the note, `false` for the time.
        note: bool,
        /// The text.
        text: String,
    },
    /// Sets one field of the session, press or gauge from text.
    Set {
        /// The field.
        field: Field,
        /// What was typed; empty clears an optional field.
        text: String,
        /// Unit of a bare number.
        bare: Unit,
    },
    /// Sets the session's own unit.
    SetUnit(Unit),
    /// Sets where a nut may stand; none lifts the limit.
    SetLimits {
        /// Arm; none for all arms.
        arm: Option<ArmIndex>,
        /// The limits.
        limits: Option<NutLimits>,
    },
    /// Adds an arm at a position; later arms move up a letter. Its nut stands
    /// flush in every pass and its station is unread.
    AddArm {
        /// Position from the jaw's left end, as typed.
        text: String,
        /// Unit of a bare number.
        bare: Unit,
    },
    /// Takes an arm away, with its station and readings.
    RemoveArm(ArmIndex),
    /// Adds a station between the arms.
    AddStation {
        /// Position from the jaw's left end, as typed.
        text: String,
        /// Unit of a bare number.
        bare: Unit,
    },
    /// Takes a station that is at no arm away, with its readings.
    RemoveStation(usize),
    /// Says whether a station counts towards the spread.
    SetCounts {
        /// Station index.
        station: usize,
        /// Whether it counts.
        counts: bool,
    },
    /// Ticks steps of the visit off, over whatever mark they carry now.
    Tick {
        /// The steps.
        steps: Vec<StepId>,
        /// Who says so.
        who: String,
        /// When.
        when: String,
        /// Whatever should be remembered.
        note: String,
    },
    /// Takes the mark of a step away.
    Untick(StepId),
    /// Leaves steps out for a reason.
    Skip {
        /// The steps.
        steps: Vec<StepId>,
        /// The reason; never empty.
        reason: String,
        /// Who says so.
        who: String,
        /// When.
        when: String,
    },
    /// Adds a step of the shop's own to a stage.
    AddStep {
        /// The stage.
        stage: Stage,
        /// What it asks for.
        text: String,
    },
    /// Hides a step; never one that isolates energy.
    HideStep(StepId),
    /// Brings a hidden step back.
    ShowStep(StepId),
    /// Says whether rods and nuts have left-hand threads.
    SetLeftHandThread(bool),
}

/// A cell of the readings grid: pass, station and repeat, as indices.
pub type Place = (usize, usize, usize);

impl Edit {
    /// [`Enter`](Self::Enter).
    pub fn enter((pass, station, repeat): Place, text: impl Into<String>, bare: Unit) -> Self {
        Self::Enter {
            pass,
            station,
            repeat,
            text: text.into(),
            bare,
        }
    }

    /// [`Fill`](Self::Fill), from its first cell on.
    pub fn fill(
        (pass, station, repeat): Place,
        rows: impl IntoIterator<Item = Vec<String>>,
        bare: Unit,
    ) -> Self {
        Self::Fill {
            pass,
            station,
            repeat,
            rows: rows.into_iter().collect(),
            bare,
        }
    }

    /// [`Strike`](Self::Strike).
    pub fn strike((pass, station, repeat): Place, struck: Struck) -> Self {
        Self::Strike {
            pass,
            station,
            repeat,
            struck,
        }
    }

    /// [`Unstrike`](Self::Unstrike).
    pub fn unstrike((pass, station, repeat): Place) -> Self {
        Self::Unstrike {
            pass,
            station,
            repeat,
        }
    }

    /// [`AddPass`](Self::AddPass).
    pub fn add_pass(turns: impl IntoIterator<Item = Notches>, laced: impl Into<String>) -> Self {
        Self::AddPass {
            turns: turns.into_iter().collect(),
            laced: laced.into(),
        }
    }

    /// [`SetNut`](Self::SetNut).
    pub fn set_nut(pass: Option<usize>, arm: ArmIndex, position: NutPosition) -> Self {
        Self::SetNut {
            pass,
            arm,
            position,
        }
    }

    /// [`Set`](Self::Set).
    pub fn set(field: Field, text: impl Into<String>, bare: Unit) -> Self {
        Self::Set {
            field,
            text: text.into(),
            bare,
        }
    }

    /// [`AddArm`](Self::AddArm).
    pub fn add_arm(text: impl Into<String>, bare: Unit) -> Self {
        Self::AddArm {
            text: text.into(),
            bare,
        }
    }

    /// [`AddStation`](Self::AddStation).
    pub fn add_station(text: impl Into<String>, bare: Unit) -> Self {
        Self::AddStation {
            text: text.into(),
            bare,
        }
    }
}

/// A field set from text.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Field {
    /// Name of the press.
    PressName,
    /// Length of the jaw.
    JawLength,
    /// Position of an arm.
    ArmPosition(ArmIndex),
    /// Notch effect of one arm.
    NotchEffect(ArmIndex),
    /// Notch effect of every arm.
    NotchEffectOfAll,
    /// Opening margin at an arm; optional.
    OpeningMargin(ArmIndex),
    /// Movement of the nuts per notch; optional.
    NutTravel,
    /// Tolerance on the spread.
    Tolerance,
    /// Name of the gauge.
    GaugeName,
    /// Step of the gauge.
    GaugeStep,
    /// Stated limit of error of the gauge; optional.
    GaugeLimit,
    /// Repeatability of the gauge, a standard deviation; optional.
    GaugeRepeatability,
    /// Last day of the gauge's calibration; optional.
    CalibrationDue,
    /// Scatter from lacing to lacing, a standard deviation; optional.
    LacingScatter,
    /// Target thickness; optional.
    Target,
    /// Confidence of verdicts, in per cent; empty for the usual one.
    Confidence,
    /// What one of the shop's chores is reckoned at, in minutes; empty for the
    /// usual time.
    Effort(Chore),
    /// Coarse gap at an arm; optional.
    CoarseGap(ArmIndex),
    /// Parts of the jaw drive, in the shop's own words.
    DriveParts,
    /// Who does the work.
    Who,
    /// When.
    When,
    /// The belt.
    Belt,
    /// The hooks.
    Hooks,
    /// Notes.
    Notes,
    /// What was repaired on the press since the visit before.
    Repaired,
}

/// Why a change was refused. The session stays as it was.
#[derive(Debug, Clone, PartialEq)]
pub enum EditProblem {
    /// A text that is no length for this field.
    Length(Field, LengthProblem),
    /// A text that is no move of the handle.
    Handle(LengthProblem),
    /// A response is given for the arms and stations as they are.
    ResponseIsGiven,
    /// A text that is no confidence.
    Confidence(String),
    /// A text that is no time for this chore.
    Minutes(Chore, String),
    /// A text that is no date.
    Date(NoDate),
    /// A text that is no position for a new arm or station.
    Position(LengthProblem),
    /// The session would not be sound any more.
    Session(SessionProblem),
    /// A station already stands there.
    StationAlreadyThere(TypedLength),
    /// Readings were pasted beyond the last station: rows offered and rows
    /// that fit.
    TooManyRows {
        /// Rows of the table.
        offered: usize,
        /// Rows from the chosen station to the last.
        fit: usize,
    },
    /// There is no such pass, arm, station or cell any more.
    NothingThere,
}

holds! { EditProblem { Session(SessionProblem) } }
