//! What to beware of at the press, wherever turns are shown or hands go in.

use crate::units::listed;

use super::{Rule, Stage};

listed! {
    /// A caution. The machine's manual and local codes come before all of them.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
    pub enum Caution {
        /// Those whom it affects are told first.
        TellOthers,
        /// Off, locked out, pressure let go or blocked, tried: before hands go in.
        MadeSafe,
        /// Tried again after a break or a change of shift.
        TryAgain,
        /// The jaw open and blocked before anybody reaches in.
        JawBlocked,
        /// Nut and rod marked; outs first, then ins; where a pin passes.
        OutsThenIns,
        /// Pins out before turning, back in before work.
        Pins,
        /// Hands clear of closing jaws, hook points and knives.
        HandsClear,
        /// Eye protection for pins, lacing, cutting and cleaning.
        Eyes,
        /// Where chains run onto sprockets.
        NipPoints,
        /// Compressed air never at skin or clothing.
        CompressedAir,
        /// The common handle is moved where and how the manual says.
        Handle,
    }
}

impl Caution {
    /// Whether it is about the work of a stage, so that it stands there before
    /// all others.
    pub const fn is_for(self, stage: Stage) -> bool {
        match stage {
            Stage::MakeSafe => matches!(self, Self::TellOthers | Self::MadeSafe | Self::TryAgain),
            Stage::FreeNuts | Stage::Turn => matches!(
                self,
                Self::MadeSafe
                    | Self::TryAgain
                    | Self::JawBlocked
                    | Self::OutsThenIns
                    | Self::Pins
                    | Self::Eyes
            ),
            Stage::CoarseGap => matches!(self, Self::MadeSafe | Self::TryAgain | Self::Handle),
            Stage::JawDrive => matches!(
                self,
                Self::MadeSafe | Self::TryAgain | Self::NipPoints | Self::Handle
            ),
            Stage::TestLace | Stage::Relace => matches!(
                self,
                Self::TellOthers | Self::Pins | Self::HandsClear | Self::Eyes
            ),
            Stage::Measure => false,
            Stage::CloseOut => matches!(
                self,
                Self::MadeSafe | Self::TryAgain | Self::Pins | Self::Eyes | Self::CompressedAir
            ),
        }
    }

    /// The published rules that stand behind it; none where it is common
    /// practice without a source.
    pub const fn rules(self) -> &'static [Rule] {
        match self {
            Self::TellOthers => &[Rule::HazardousEnergy],
            Self::MadeSafe | Self::TryAgain => &[Rule::HazardousEnergy, Rule::UnexpectedStartUp],
            Self::JawBlocked => &[Rule::HazardousEnergy, Rule::UseOfWorkEquipment],
            Self::HandsClear | Self::NipPoints => &[Rule::MachineGuards, Rule::UseOfWorkEquipment],
            Self::Eyes => &[Rule::EyesAndFace],
            Self::CompressedAir => &[Rule::CompressedAir],
            Self::OutsThenIns | Self::Pins | Self::Handle => &[],
        }
    }
}
