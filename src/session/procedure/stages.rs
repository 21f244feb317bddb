//! The stages of a visit and the steps of each.

use crate::codec::as_text;
use crate::units::listed;

listed! {
    /// A stage of the visit, in the order in which they are usually gone through.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
    pub enum Stage {
        /// The press is cut off from everything that can move it, and ready for
        /// hands at its nuts.
        MakeSafe = "make safe",
        /// The castle nuts are freed and brought back to flush.
        FreeNuts = "free nuts",
        /// The gap between the jaws is set even along the whole jaw.
        CoarseGap = "coarse gap",
        /// The jaw drive is looked over.
        JawDrive = "jaw drive",
        /// A full-width test piece is laced and marked.
        TestLace = "test lace",
        /// The test piece is measured.
        Measure = "measure",
        /// Nuts are turned.
        Turn = "turn",
        /// Another test piece is laced.
        Relace = "re-lace",
        /// Pins go back in and the record is filed.
        CloseOut = "close out",
    }
}

as_text!(Stage, Step, key);

impl Stage {
    /// The fixed steps of this stage, in order.
    pub fn steps(self) -> impl Iterator<Item = Step> {
        Step::ALL
            .into_iter()
            .filter(move |step| step.stage() == self)
    }

    /// Whether the stage is gone through anew for every pass: its ticks lapse
    /// when the next one is opened.
    pub const fn recurs(self) -> bool {
        matches!(
            self,
            Self::MakeSafe | Self::Measure | Self::Turn | Self::Relace | Self::CloseOut
        )
    }

    /// Whether hands go into the press: it must be made safe first.
    pub fn hands_in_press(self) -> bool {
        self.steps().any(Step::hands_in_press)
    }
}

listed! {
    /// A fixed step of a stage. What it asks for, why, and what to watch for stand
    /// in the words room.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
    pub enum Step {
        /// Those whom it affects told that the press will be off: before its jaw is
        /// moved for it.
        OthersTold = "others told",
        /// The jaw open and unloaded, while there may still be power to open it.
        JawUnloaded = "jaw unloaded",
        /// The empty jaw at full stroke, while there may still be power to bring it
        /// there: for the gap check, which an open jaw does not allow.
        JawAtStroke = "jaw-at-stroke",
        /// Stopped, and every supply cut off.
        PowerOff = "power off",
        /// Every supply locked out and tagged.
        LockedOut = "locked out",
        /// Stored energy released or blocked.
        PressureReleased = "pressure released",
        /// Tried to start: nothing moves.
        Tried = "tried",
        /// Blocked there before a gauge goes into the gap.
        HeldAtStroke = "held-at-stroke",
        /// The open jaw blocked before a hand goes to its nuts.
        JawBlocked = "jaw-blocked",
        /// Nut and rod marked before anything is turned.
        NutsMarked = "nuts marked",
        /// Cotter pins out and kept.
        PinsOut = "pins out",
        /// Every nut turns freely.
        NutsFree = "nuts free",
        /// Every nut back to flush with the rod's end: the datum.
        NutsFlush = "nuts flush",
        /// The gap measured at every arm.
        GapMeasured = "gap measured",
        /// The gap even along the whole jaw.
        GapEven = "gap even",
        /// What moves the jaw looked over, as the manual says.
        ChainsTaut = "chains taut",
        /// Its nuts and bolts as tight as the manual says.
        SprocketNutsSnug = "sprocket-nuts-snug",
        /// The parts of the jaw drive noted and compared with the last visit.
        DriveNoted = "drive noted",
        /// What the manual says about pins for test lacings is known and done.
        PinsForTest = "pins-for-test",
        /// Everybody and everything clear before power comes back.
        ClearForTest = "clear-for-test",
        /// Each person's own lock off, and power on.
        LocksOffForTest = "locks-off-for-test",
        /// A full-width test piece laced.
        TestPieceLaced = "test-piece-laced",
        /// The test piece marked at the centre of every arm.
        TestPieceMarked = "test-piece-marked",
        /// Short-leg knuckle and the long leg beside it in one reading.
        ReadTogether = "read together",
        /// Every arm read.
        EveryArmRead = "every-arm-read",
        /// Outs turned first, then ins.
        OutsThenIns = "outs-then-ins",
        /// Notches counted from the marks; a pin passes where each nut stands.
        CountedFromMarks = "counted-from-marks",
        /// Pins as the manual says for test lacings.
        PinsForRelace = "pins-for-re-lace",
        /// Everybody and everything clear before power comes back.
        ClearForRelace = "clear for re-lace",
        /// Each person's own lock off, and power on.
        LocksOffForRelace = "locks-off-for-re-lace",
        /// Another full-width test piece laced.
        RelacePiece = "re-lace piece",
        /// That piece marked at the centre of every arm.
        RelaceMarked = "re-lace marked",
        /// Pins back in every nut.
        PinsIn = "pins in",
        /// Press cleaned and oiled.
        Cleaned = "cleaned",
        /// Tools out, guards on, locks off.
        ClearForWork = "clear-for-work",
        /// The record filed.
        RecordFiled = "record filed",
    }
}

as_text!(Step, Step, key);

impl Step {
    /// The stage it belongs to.
    pub const fn stage(self) -> Stage {
        match self {
            Self::JawUnloaded
            | Self::OthersTold
            | Self::PowerOff
            | Self::LockedOut
            | Self::PressureReleased
            | Self::Tried
            | Self::JawAtStroke
            | Self::HeldAtStroke
            | Self::JawBlocked
            | Self::NutsMarked
            | Self::PinsOut => Stage::MakeSafe,
            Self::NutsFree | Self::NutsFlush => Stage::FreeNuts,
            Self::GapMeasured | Self::GapEven => Stage::CoarseGap,
            Self::ChainsTaut | Self::SprocketNutsSnug | Self::DriveNoted => Stage::JawDrive,
            Self::PinsForTest
            | Self::ClearForTest
            | Self::LocksOffForTest
            | Self::TestPieceLaced
            | Self::TestPieceMarked => Stage::TestLace,
            Self::ReadTogether | Self::EveryArmRead => Stage::Measure,
            Self::OutsThenIns | Self::CountedFromMarks => Stage::Turn,
            Self::PinsForRelace
            | Self::ClearForRelace
            | Self::LocksOffForRelace
            | Self::RelacePiece
            | Self::RelaceMarked => Stage::Relace,
            Self::PinsIn | Self::Cleaned | Self::ClearForWork | Self::RecordFiled => {
                Stage::CloseOut
            }
        }
    }

    /// What it is for in making the press safe; none where it belongs to
    /// another stage.
    pub const fn safe_group(self) -> Option<SafeGroup> {
        match self {
            Self::OthersTold | Self::JawUnloaded | Self::JawAtStroke => Some(SafeGroup::Before),
            Self::Tried => Some(SafeGroup::Proof),
            Self::JawBlocked | Self::NutsMarked | Self::PinsOut => Some(SafeGroup::AtNuts),
            Self::HeldAtStroke => Some(SafeGroup::AtGap),
            _ if matches!(self.stage(), Stage::MakeSafe) => Some(SafeGroup::CutOff),
            _ => None,
        }
    }

    /// Whether it belongs to cutting the press off from energy.
    pub const fn isolates_energy(self) -> bool {
        matches!(self, Self::OthersTold)
            || matches!(
                self.safe_group(),
                Some(SafeGroup::CutOff | SafeGroup::Proof)
            )
    }

    /// Whether power comes back by it: from then on the press is no longer made
    /// safe.
    pub const fn brings_power(self) -> bool {
        matches!(
            self,
            Self::LocksOffForTest | Self::LocksOffForRelace | Self::ClearForWork
        )
    }

    /// Whether it is asked of such hands: all are asked to cut the press off, and
    /// where the jaw must stand is another for nuts than for the gap.
    pub const fn is_asked_of(self, hands: Hands) -> bool {
        match self {
            Self::JawUnloaded | Self::JawBlocked | Self::NutsMarked | Self::PinsOut => {
                matches!(hands, Hands::TurnNuts)
            }
            Self::JawAtStroke | Self::HeldAtStroke => matches!(hands, Hands::CheckGap),
            _ => true,
        }
    }

    /// Where it says that the jaw stands: what says that it stands elsewhere.
    pub const fn other_jaw_place(self) -> Option<Self> {
        match self {
            Self::JawUnloaded => Some(Self::JawAtStroke),
            Self::JawAtStroke => Some(Self::JawUnloaded),
            _ => None,
        }
    }

    /// Whether it stands on a press that does not have what it is about. Of
    /// what makes a press safe nothing else may be left out.
    pub const fn may_be_absent(self) -> bool {
        !matches!(self.stage(), Stage::MakeSafe)
            || matches!(self, Self::PressureReleased | Self::PinsOut)
    }

    /// Whether hands go into the press for it: it must be made safe first.
    pub const fn hands_in_press(self) -> bool {
        matches!(
            self.stage(),
            Stage::FreeNuts | Stage::CoarseGap | Stage::JawDrive | Stage::Turn
        ) || matches!(
            self,
            Self::PinsForTest | Self::PinsForRelace | Self::PinsIn | Self::Cleaned
        )
    }

    /// Whether everybody does it for themselves, and is kept by name: a lock is
    /// hung and taken off by the one whose it is.
    pub const fn is_everybodys_own(self) -> bool {
        matches!(self, Self::LockedOut) || self.brings_power()
    }

    /// What must be settled before it, as far as it is asked: it is told, cut off,
    /// locked out, let go of what it stores and tried, in this order; hands go in
    /// where the jaw then stands, locks come off once hands and tools are out, and
    /// only then it laces.
    pub const fn waits_for(self) -> &'static [Self] {
        match self {
            Self::JawUnloaded | Self::JawAtStroke | Self::PowerOff => &[Self::OthersTold],
            Self::LockedOut => &[Self::PowerOff],
            Self::PressureReleased => &[Self::LockedOut],
            Self::Tried => &[Self::PressureReleased],
            Self::HeldAtStroke => &[Self::JawAtStroke, Self::Tried],
            Self::JawBlocked => &[Self::JawUnloaded, Self::Tried],
            Self::NutsMarked => &[Self::JawBlocked],
            Self::PinsOut => &[Self::NutsMarked],
            Self::ClearForTest => &[Self::PinsForTest],
            Self::LocksOffForTest => &[Self::ClearForTest],
            Self::TestPieceLaced => &[Self::LocksOffForTest],
            Self::TestPieceMarked => &[Self::TestPieceLaced],
            Self::ClearForRelace => &[Self::PinsForRelace],
            Self::LocksOffForRelace => &[Self::ClearForRelace],
            Self::RelacePiece => &[Self::LocksOffForRelace],
            Self::RelaceMarked => &[Self::RelacePiece],
            Self::ClearForWork => &[Self::PinsIn, Self::Cleaned],
            _ => &[],
        }
    }
}

/// What of making safe comes before what.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SafeGroup {
    /// Those whom it affects, and the jaw while there may still be power to move it.
    Before,
    /// Cutting the press off from energy.
    CutOff,
    /// That it is cut off: what proves all before it.
    Proof,
    /// At the nuts, once it is proved.
    AtNuts,
    /// At the gap, once it is proved.
    AtGap,
}

/// What hands are about to do in the press.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Hands {
    /// They turn nuts: the jaw is open.
    TurnNuts,
    /// They measure the gap between the jaws: the jaw is at full stroke.
    CheckGap,
    /// Anything else.
    DoOther,
}

impl Stage {
    /// What hands do at a stage.
    pub const fn hands(self) -> Hands {
        match self {
            Self::FreeNuts | Self::Turn => Hands::TurnNuts,
            Self::CoarseGap => Hands::CheckGap,
            _ => Hands::DoOther,
        }
    }
}

/// A published rule for safe work.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Rule {
    /// 29 CFR 1910.147, "The control of hazardous energy (lockout/tagout)".
    HazardousEnergy,
    /// 29 CFR 1910.212, "General requirements for all machines".
    MachineGuards,
    /// 29 CFR 1910.242(b): compressed air for cleaning only below 30 psi and
    /// then only with effective chip guarding and personal protective
    /// equipment.
    CompressedAir,
    /// 29 CFR 1910.133, "Eye and face protection".
    EyesAndFace,
    /// Directive 2009/104/EC, use of work equipment.
    UseOfWorkEquipment,
    /// ISO 14118:2017, "Prevention of unexpected start-up".
    UnexpectedStartUp,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_name_finds_its_own() {
        for stage in Stage::ALL {
            assert_eq!(Stage::from_key(stage.key()), Some(stage));
            assert!(stage.steps().count() > 0, "{stage:?}");
        }
        for (place, step) in Step::ALL.into_iter().enumerate() {
            assert_eq!(Step::from_key(step.key()), Some(step));
            // It waits for what stands before it at the same stage.
            for first in step.waits_for() {
                assert_eq!(first.stage(), step.stage(), "{step:?}");
                assert!(Step::ALL[..place].contains(first), "{step:?}");
            }
        }
        assert_eq!(Stage::from_key("measured"), None);
    }
}
