//! The stages of a visit and the steps of each.

use crate::codec::as_text;

/// A stage of the visit, in the order in which they are usually gone through.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Stage {
    /// The press is cut off from everything that can move it.
    MakeSafe,
    /// The castle nuts are freed and brought back to flush.
    FreeNuts,
    /// The gap between the jaws is set even along the whole jaw.
    CoarseGap,
    /// The jaw drive is looked over.
    JawDrive,
    /// A full-width test piece is laced and marked.
    TestLace,
    /// The test piece is measured.
    Measure,
    /// Nuts are turned.
    Turn,
    /// Another test piece is laced.
    Relace,
    /// Pins go back in and the record is filed.
    CloseOut,
}

as_text!(Stage, Step, key);

impl Stage {
    /// All stages in their usual order.
    pub const ALL: [Self; 9] = [
        Self::MakeSafe,
        Self::FreeNuts,
        Self::CoarseGap,
        Self::JawDrive,
        Self::TestLace,
        Self::Measure,
        Self::Turn,
        Self::Relace,
        Self::CloseOut,
    ];

    /// The name under which files keep it.
    pub const fn key(self) -> &'static str {
        match self {
            Self::MakeSafe => "make safe",
            Self::FreeNuts => "free nuts",
            Self::CoarseGap => "coarse gap",
            Self::JawDrive => "jaw drive",
            Self::TestLace => "test lace",
            Self::Measure => "measure",
            Self::Turn => "turn",
            Self::Relace => "re-lace",
            Self::CloseOut => "close out",
        }
    }

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

/// A fixed step of a stage. What it asks for, why, and what to watch for stand
/// in the words room.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Step {
    /// Those whom it affects told that the press will be off.
    OthersTold,
    /// Power switched off at the disconnect.
    PowerOff,
    /// Locked out and tagged.
    LockedOut,
    /// Stored pressure released.
    PressureReleased,
    /// Tried to start: nothing moves.
    Tried,
    /// Nut and rod marked before anything is turned.
    NutsMarked,
    /// Cotter pins out and kept.
    PinsOut,
    /// Every nut turns freely.
    NutsFree,
    /// Every nut back to flush with the rod's end: the datum.
    NutsFlush,
    /// The gap measured at every arm.
    GapMeasured,
    /// The gap even along the whole jaw.
    GapEven,
    /// What moves the jaw looked over, as the manual says.
    ChainsTaut,
    /// Its nuts and bolts as tight as the manual says.
    SprocketNutsSnug,
    /// The parts of the jaw drive noted and compared with the last visit.
    DriveNoted,
    /// What the manual says about pins for test lacings is known and done.
    PinsForTest,
    /// Everybody and everything clear before power comes back.
    ClearForTest,
    /// A full-width test piece laced.
    TestPieceLaced,
    /// The test piece marked at the centre of every arm.
    TestPieceMarked,
    /// Short-leg knuckle and the long leg beside it in one reading.
    ReadTogether,
    /// Every arm read.
    EveryArmRead,
    /// The jaw open and unloaded.
    JawUnloaded,
    /// Outs turned first, then ins.
    OutsThenIns,
    /// Notches counted from the marks; a pin passes where each nut stands.
    CountedFromMarks,
    /// Everybody and everything clear before power comes back.
    ClearForRelace,
    /// Another full-width test piece laced.
    RelacePiece,
    /// That piece marked at the centre of every arm.
    RelaceMarked,
    /// Pins back in every nut.
    PinsIn,
    /// Press cleaned and oiled.
    Cleaned,
    /// Tools out, guards on, locks off.
    ClearForWork,
    /// The record filed.
    RecordFiled,
}

as_text!(Step, Step, key);

impl Step {
    /// All fixed steps, stage by stage, in order.
    pub const ALL: [Self; 30] = [
        Self::OthersTold,
        Self::PowerOff,
        Self::LockedOut,
        Self::PressureReleased,
        Self::Tried,
        Self::NutsMarked,
        Self::PinsOut,
        Self::NutsFree,
        Self::NutsFlush,
        Self::GapMeasured,
        Self::GapEven,
        Self::ChainsTaut,
        Self::SprocketNutsSnug,
        Self::DriveNoted,
        Self::PinsForTest,
        Self::ClearForTest,
        Self::TestPieceLaced,
        Self::TestPieceMarked,
        Self::ReadTogether,
        Self::EveryArmRead,
        Self::JawUnloaded,
        Self::OutsThenIns,
        Self::CountedFromMarks,
        Self::ClearForRelace,
        Self::RelacePiece,
        Self::RelaceMarked,
        Self::PinsIn,
        Self::Cleaned,
        Self::ClearForWork,
        Self::RecordFiled,
    ];

    /// The stage it belongs to.
    pub const fn stage(self) -> Stage {
        match self {
            Self::OthersTold
            | Self::PowerOff
            | Self::LockedOut
            | Self::PressureReleased
            | Self::Tried => Stage::MakeSafe,
            Self::NutsMarked | Self::PinsOut | Self::NutsFree | Self::NutsFlush => Stage::FreeNuts,
            Self::GapMeasured | Self::GapEven => Stage::CoarseGap,
            Self::ChainsTaut | Self::SprocketNutsSnug | Self::DriveNoted => Stage::JawDrive,
            Self::PinsForTest
            | Self::ClearForTest
            | Self::TestPieceLaced
            | Self::TestPieceMarked => Stage::TestLace,
            Self::ReadTogether | Self::EveryArmRead => Stage::Measure,
            Self::JawUnloaded | Self::OutsThenIns | Self::CountedFromMarks => Stage::Turn,
            Self::ClearForRelace | Self::RelacePiece | Self::RelaceMarked => Stage::Relace,
            Self::PinsIn | Self::Cleaned | Self::ClearForWork | Self::RecordFiled => {
                Stage::CloseOut
            }
        }
    }

    /// The name under which files keep it.
    pub const fn key(self) -> &'static str {
        match self {
            Self::OthersTold => "others told",
            Self::PowerOff => "power off",
            Self::LockedOut => "locked out",
            Self::PressureReleased => "pressure released",
            Self::Tried => "tried",
            Self::NutsMarked => "nuts marked",
            Self::PinsOut => "pins out",
            Self::NutsFree => "nuts free",
            Self::NutsFlush => "nuts flush",
            Self::GapMeasured => "gap measured",
            Self::GapEven => "gap even",
            Self::ChainsTaut => "chains taut",
            Self::SprocketNutsSnug => "sprocket-nuts-snug",
            Self::DriveNoted => "drive noted",
            Self::PinsForTest => "pins-for-test",
            Self::ClearForTest => "clear-for-test",
            Self::TestPieceLaced => "test-piece-laced",
            Self::TestPieceMarked => "test-piece-marked",
            Self::ReadTogether => "read together",
            Self::EveryArmRead => "every-arm-read",
            Self::JawUnloaded => "jaw unloaded",
            Self::OutsThenIns => "outs-then-ins",
            Self::CountedFromMarks => "counted-from-marks",
            Self::ClearForRelace => "clear for re-lace",
            Self::RelacePiece => "re-lace piece",
            Self::RelaceMarked => "re-lace marked",
            Self::PinsIn => "pins in",
            Self::Cleaned => "cleaned",
            Self::ClearForWork => "clear-for-work",
            Self::RecordFiled => "record filed",
        }
    }

    /// Whether it belongs to cutting the press off from energy. Such a step
    /// always stays in sight.
    pub const fn isolates_energy(self) -> bool {
        matches!(self.stage(), Stage::MakeSafe)
    }

    /// Whether hands go into the press for it: it must be made safe first.
    pub const fn hands_in_press(self) -> bool {
        matches!(
            self.stage(),
            Stage::FreeNuts | Stage::CoarseGap | Stage::JawDrive | Stage::Turn
        ) || matches!(self, Self::PinsIn | Self::Cleaned)
    }

    /// The published rules that stand behind it. The machine's manual and
    /// local rules come before them.
    pub const fn rules(self) -> &'static [Rule] {
        match self {
            Self::PowerOff | Self::LockedOut | Self::PressureReleased => &[
                Rule::HazardousEnergy,
                Rule::UseOfWorkEquipment,
                Rule::UnexpectedStartUp,
            ],
            Self::OthersTold => &[Rule::HazardousEnergy],
            Self::Tried | Self::JawUnloaded => &[Rule::HazardousEnergy, Rule::UnexpectedStartUp],
            Self::PinsOut | Self::PinsIn => &[Rule::EyesAndFace],
            Self::GapMeasured => &[Rule::HazardousEnergy],
            Self::ChainsTaut | Self::SprocketNutsSnug => &[Rule::MachineGuards],
            Self::TestPieceLaced | Self::RelacePiece => &[Rule::MachineGuards, Rule::EyesAndFace],
            Self::ClearForTest | Self::ClearForRelace | Self::ClearForWork => {
                &[Rule::MachineGuards, Rule::UseOfWorkEquipment]
            }
            Self::Cleaned => &[Rule::CompressedAir, Rule::EyesAndFace],
            _ => &[],
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
    use crate::session::StepId;

    #[test]
    fn every_name_finds_its_own() {
        let read = |key: &str| ron::from_str::<StepId>(&format!("{key:?}")).ok();
        for stage in Stage::ALL {
            let named = Stage::ALL
                .into_iter()
                .filter(|one| one.key() == stage.key());
            assert_eq!(named.count(), 1, "{stage:?}");
            assert!(stage.steps().count() > 0, "{stage:?}");
        }
        for step in Step::ALL {
            assert_eq!(read(step.key()), Some(step.into()));
        }
        for own in [StepId::Own(0), StepId::Own(41)] {
            assert_eq!(
                read(ron::to_string(&own).unwrap().trim_matches('"')),
                Some(own)
            );
        }
        for key in ["measured", "own 0", "own", "own x"] {
            assert_eq!(read(key), None, "{key}");
        }
    }

    #[test]
    fn energy_isolation_names_its_rules() {
        for step in Stage::MakeSafe.steps() {
            assert!(step.rules().contains(&Rule::HazardousEnergy), "{step:?}");
        }
    }
}
