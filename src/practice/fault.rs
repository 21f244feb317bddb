//! What can be wrong with the press of an exercise, and how hard it is.

/// What is wrong with the press of an exercise.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum Fault {
    /// Out of true at every arm, as presses are found.
    #[default]
    Everyday,
    /// One arm pinched.
    PinchedArm,
    /// Thicker from one end to the other.
    Taper,
    /// Bent up or down in its middle.
    Bow,
    /// The belt end is twisted: every piece is tilted otherwise.
    BeltTwist,
    /// A worn stretch of jaw between two arms that no nut can cure.
    WornStretch,
    /// A rod with little pull, which goes slack when its nut is turned out.
    SlackNut,
    /// A nut whose turning does nothing.
    DeadNut,
    /// A coarse gauge in a shaky hand.
    PoorGauge,
    /// A belt that is thicker on one side.
    ThickBeltSide,
    /// Uneven chains: a step between two neighbouring arms.
    UnevenChains,
    /// Hardly any opening left at the arm that is proud.
    SmallOpening,
    /// Two of these at once.
    Mixed,
}

impl Fault {
    /// All of them.
    pub const ALL: [Self; 13] = [
        Self::Everyday,
        Self::PinchedArm,
        Self::Taper,
        Self::Bow,
        Self::BeltTwist,
        Self::WornStretch,
        Self::SlackNut,
        Self::DeadNut,
        Self::PoorGauge,
        Self::ThickBeltSide,
        Self::UnevenChains,
        Self::SmallOpening,
        Self::Mixed,
    ];

    /// The name under which files and text commands know it.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Everyday => "everyday",
            Self::PinchedArm => "pinched-arm",
            Self::Taper => "taper",
            Self::Bow => "bow",
            Self::BeltTwist => "belt-twist",
            Self::WornStretch => "worn-stretch",
            Self::SlackNut => "slack-nut",
            Self::DeadNut => "dead-nut",
            Self::PoorGauge => "poor-gauge",
            Self::ThickBeltSide => "thick-belt-side",
            Self::UnevenChains => "uneven-chains",
            Self::SmallOpening => "small-opening",
            Self::Mixed => "mixed",
        }
    }

    /// The fault of that name.
    pub fn from_key(key: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|fault| fault.key() == key)
    }

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

/// What one can see to besides the nuts' positions.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Cure {
    /// Take another belt end.
    Belt,
    /// Chains and sprockets of the jaw drive are evened.
    Drive,
    /// Nuts are freed and their rods drawn tight.
    Nut,
    /// A finer gauge, held steadily.
    Gauge,
    /// The jaw goes to the shop: nothing that can be done here.
    Jaw,
}

impl Cure {
    /// All of them.
    pub const ALL: [Self; 5] = [Self::Belt, Self::Drive, Self::Nut, Self::Gauge, Self::Jaw];

    /// The name under which files and text commands know it.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Belt => "belt",
            Self::Drive => "drive",
            Self::Nut => "nut",
            Self::Gauge => "gauge",
            Self::Jaw => "jaw",
        }
    }

    /// The cure of that name.
    pub fn from_key(key: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|cure| cure.key() == key)
    }

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

/// How hard an exercise is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum Level {
    /// Little but the fault.
    #[default]
    Easy,
    /// Some of everything else too.
    Middling,
    /// The fault hides among the rest.
    Hard,
}

impl Level {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Easy, Self::Middling, Self::Hard];

    /// The name under which files and text commands know it.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Easy => "easy",
            Self::Middling => "middling",
            Self::Hard => "hard",
        }
    }

    /// The level of that name.
    pub fn from_key(key: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|level| level.key() == key)
    }

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

/// When the program's advice may be seen.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum Help {
    /// Never.
    None,
    /// Once one has made an own guess for the piece.
    #[default]
    AfterGuess,
    /// Always.
    Full,
}

impl Help {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::None, Self::AfterGuess, Self::Full];

    /// The name under which files and text commands know it.
    pub const fn key(self) -> &'static str {
        match self {
            Self::None => "none",
            Self::AfterGuess => "after-guess",
            Self::Full => "full",
        }
    }

    /// The grade of that name.
    pub fn from_key(key: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|help| help.key() == key)
    }
}
