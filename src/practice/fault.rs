//! What can be wrong with the press of an exercise, and how hard it is.

use crate::codec::as_text;
use crate::press::{MOST_NOTCHES_PER_RELACE, NutLimits, NutPosition};
use crate::units::listed;

listed! {
    /// What is wrong with the press of an exercise.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
    pub enum Fault {
        /// Out of true at every arm, as presses are found.
        #[default]
        Everyday = "everyday",
        /// One arm pinched.
        PinchedArm = "pinched-arm",
        /// Thicker from one end to the other.
        Taper = "taper",
        /// Bent up or down in its middle.
        Bow = "bow",
        /// The belt end is twisted: every piece is tilted otherwise.
        BeltTwist = "belt-twist",
        /// A worn stretch of jaw between two arms that no nut can cure.
        WornStretch = "worn-stretch",
        /// A rod with little pull, which goes slack when its nut is turned out.
        SlackNut = "slack-nut",
        /// A nut whose turning does nothing.
        DeadNut = "dead-nut",
        /// A coarse gauge in a shaky hand.
        PoorGauge = "poor-gauge",
        /// A belt that is thicker on one side.
        ThickBeltSide = "thick-belt-side",
        /// Uneven chains: a step between two neighbouring arms.
        UnevenChains = "uneven-chains",
        /// Hardly any opening left at the arm that is proud.
        SmallOpening = "small-opening",
        /// Two of these at once.
        Mixed = "mixed",
    }
}

impl Fault {
    /// What has to be seen to before turning nuts helps for good.
    pub const fn cure(self) -> Option<Cure> {
        match self {
            Self::BeltTwist | Self::ThickBeltSide => Some(Cure::Belt),
            Self::WornStretch => Some(Cure::Jaw),
            Self::SlackNut | Self::DeadNut => Some(Cure::Nut),
            Self::PoorGauge => Some(Cure::Gauge),
            Self::UnevenChains => Some(Cure::Drive),
            Self::Everyday
            | Self::PinchedArm
            | Self::Taper
            | Self::Bow
            | Self::SmallOpening
            | Self::Mixed => None,
        }
    }
}

listed! {
    /// What one can see to besides the nuts' positions.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
    pub enum Cure {
        /// Take another belt end.
        Belt = "belt",
        /// Chains and sprockets of the jaw drive are evened.
        Drive = "drive",
        /// Nuts are freed and their rods drawn tight.
        Nut = "nut",
        /// A finer gauge, held steadily.
        Gauge = "gauge",
        /// The jaw goes to the shop: nothing that can be done here.
        Jaw = "jaw",
    }
}

impl Cure {
    /// Whether hands go into the press for it: it must be made safe first.
    pub const fn hands_in_press(self) -> bool {
        matches!(self, Self::Drive | Self::Nut)
    }

    /// What it takes, in minutes. Assumed (common practice, no source); sending the jaw away ends
    /// the exercise.
    pub const fn minutes(self) -> f64 {
        match self {
            Self::Belt | Self::Gauge => 5.0,
            Self::Drive | Self::Nut => 10.0,
            Self::Jaw => 0.0,
        }
    }
}

listed! {
    /// How hard an exercise is.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
    pub enum Level {
        /// Little but the fault.
        #[default]
        Easy = "easy",
        /// Some of everything else too.
        Middling = "middling",
        /// The fault hides among the rest.
        Hard = "hard",
    }
}

impl Level {
    /// How far the press is out of true besides its fault, as a standard
    /// deviation in nanometres.
    pub(super) const fn background_nm(self) -> f64 {
        match self {
            Self::Easy => 10_000.0,
            Self::Middling => 25_000.0,
            Self::Hard => 45_000.0,
        }
    }
}

listed! {
    /// When the program's advice may be seen.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
    pub enum Help {
        /// Never.
        None = "none",
        /// Once one has made an own guess for the piece.
        #[default]
        AfterGuess = "after-guess",
        /// Always.
        Full = "full",
    }
}

listed! {
    /// Where the nuts stand as an exercise begins.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
    pub enum NutStart {
        /// Well inside the rod's end, with the limits that the machine's manual
        /// would give them.
        #[default]
        Inside = "inside",
        /// Flush with the rod's end and without limits: as exercises began whose
        /// work was saved in the first format.
        Flush = "flush",
    }
}

impl NutStart {
    /// Where every nut stands.
    pub const fn position(self) -> NutPosition {
        match self {
            Self::Inside => NutPosition(-1 - MOST_NOTCHES_PER_RELACE),
            Self::Flush => NutPosition(0),
        }
    }

    /// Where every nut may stand: as far out as one turns in a go, which is a
    /// notch short of flush, and as far in (common practice, no source).
    pub const fn limits(self) -> Option<NutLimits> {
        let start = self.position().0;
        match self {
            Self::Inside => Some(NutLimits {
                most_in: NutPosition(start - MOST_NOTCHES_PER_RELACE),
                most_out: NutPosition(start + MOST_NOTCHES_PER_RELACE),
            }),
            Self::Flush => None,
        }
    }

    /// The same as turns from where the nuts stand.
    pub fn window(self) -> Option<[i32; 2]> {
        let from_here = |position: NutPosition| (position - self.position()).0;
        let limits = self.limits()?;
        Some([limits.most_in, limits.most_out].map(from_here))
    }
}

as_text!(NutStart, Name, key);
as_text!(Fault, Name, key);
as_text!(Level, Name, key);
as_text!(Help, Name, key);
