//! Presses unlike those that the prior is made of, visited again and again, and
//! what the program says of its plans against what came.
//!
//! Everything goes through sessions and the press's record, as in the shop: the
//! program knows the gauge's step and its own readings, nothing else.

use super::{INCH, Law, NOTCH, OVERHANG, Press, Scatter, TOLERANCE, even_layout, spread, start};
use jawtrue::practice::SimulatedPress;
use jawtrue::press::{Arm, JawSection, JawStiffness, Notches};
use jawtrue::session::{AdviceWorkspace, Edit, PressRecord, PriorShelf, Session, Stands, Wishes};
use jawtrue::stats::{Draws, Purpose};
use jawtrue::units::{Length, Sign, TypedLength, Unit};

/// How a press differs from the prior's family; all else is of that family.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Family {
    /// The nuts' effects differ by up to 20 % either way, where 12 % is
    /// believed.
    UnevenNuts,
    /// The jaw is three to eight times as stiff in its middle.
    StiffMiddle,
    /// In every other press a rod with little tension goes slack when its nut is
    /// turned out by one to four notches more than its neighbours.
    SlackRod,
}

/// What happens to a press between two visits.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Between {
    /// It drifts by this at every station.
    Drift(f64),
    /// It is found this far off level at every station, wherever it was left.
    Change(f64),
}

/// A plan's chance, and what came.
#[derive(Debug, Clone, Copy)]
pub struct Said {
    /// The visit, from zero.
    pub visit: usize,
    /// The plan's chance.
    pub chance: f64,
    /// Whether the next piece was truly inside.
    pub inside: bool,
    /// Expected further pieces until one passes.
    pub pieces: f64,
    /// How many came; `None` when the visit was given up before.
    pub came: Option<usize>,
}

/// How one visit went.
#[derive(Debug, Clone, Copy)]
pub struct Went {
    /// The visit, from zero.
    pub visit: usize,
    /// Pieces laced again.
    pub relaces: usize,
    /// Whether a piece passed.
    pub passed: bool,
}

/// What was said and what came, of many presses.
#[derive(Debug, Clone, Default)]
pub struct Book {
    pub said: Vec<Said>,
    pub went: Vec<Went>,
}

/// Memory that saves time from press to press.
#[derive(Default)]
pub struct Desk {
    shelf: PriorShelf,
    workspace: AdviceWorkspace,
}

/// Most pieces laced again on a visit.
const MOST_RELACES: usize = 5;

impl Press {
    /// A press of a family, evenly spaced, with deviations of the given scatter
    /// as found.
    pub fn of_family(family: Family, draws: &mut Draws, arms: usize, deviation_nm: f64) -> Self {
        let layout = even_layout(arms);
        let positions = layout.arms_nm().to_vec();
        let (left, right) = (-OVERHANG, positions[arms - 1] + OVERHANG);
        let kappa = libm::exp(draws.between(libm::log(3.0), libm::log(70.0)));
        let rho = draws.between(0.0, 0.3);
        let thick = draws.between(3.0, 8.0);
        let sections = [(0.0, 1.0 / thick), (0.25, 1.0), (0.75, 1.0 / thick)];
        let sections = sections.map(|(share, rigidity_ratio)| JawSection {
            from_nm: left + share * (right - left),
            rigidity_ratio,
        });
        let rods: Vec<f64> = (0..arms).map(|_| libm::exp(0.2 * draws.normal())).collect();
        let stiffness = JawStiffness {
            kappa,
            rho,
            rod_factors: &rods,
            sections: match family {
                Family::StiffMiddle => &sections,
                Family::UnevenNuts | Family::SlackRod => &[],
            },
        };
        let simulated = SimulatedPress::new(layout, &stiffness).unwrap();
        let row_sum = simulated.row_sum();
        let effect = NOTCH * libm::exp(-0.08 + 0.15 * draws.normal()) / row_sum;
        let uneven = match family {
            Family::UnevenNuts => 0.2,
            Family::StiffMiddle | Family::SlackRod => 0.12,
        };
        let notch_nm: Vec<f64> = (0..arms)
            .map(|_| effect * draws.between(1.0 - uneven, 1.0 + uneven))
            .collect();
        let mut simulated = simulated.with_notches(&notch_nm);
        let weak = draws.below(arms);
        let little = draws.between(0.004, 0.015) * INCH;
        if family == Family::SlackRod && draws.below(2) == 0 {
            let mut tensions_nm = vec![0.05 * INCH; arms];
            tensions_nm[weak] = little;
            simulated = simulated.with_tensions(tensions_nm);
        }
        simulated.start_nm = start(draws, arms, deviation_nm);
        Self {
            simulated,
            kappa,
            law: Law::Normal,
        }
    }

    /// Lets time pass with the nuts as they stand.
    fn wait(&mut self, between: Between, draws: &mut Draws, nuts: &[i32]) {
        let profile = self.profile(nuts);
        for (start, now) in self.start_nm.iter_mut().zip(profile) {
            *start += match between {
                Between::Drift(nm) => nm * draws.normal(),
                Between::Change(nm) => 0.25 * INCH + nm * draws.normal() - now,
            };
        }
    }

    /// A session's press with the same arms, read with this step.
    fn session(&self, step_nm: f64) -> Session {
        let length =
            |nm: f64| TypedLength::from_length(Length::from_nm(nm as i64), Unit::Millimetre);
        let arms = self.layout.arms_nm();
        let press = jawtrue::press::Press::new(
            "",
            length(arms[arms.len() - 1] + 2.0 * OVERHANG),
            arms.iter()
                .map(|at| Arm::new(length(at + OVERHANG), length(NOTCH))),
        );
        let mut session = Session::new("0".into(), Unit::Inch, press);
        let step = format!("{:.4}", step_nm / INCH);
        session.gauge.step = TypedLength::parse(&step, Unit::Inch, Sign::None).unwrap();
        session
    }
}

impl Book {
    /// Visits to one press: at each, pieces are laced and turned as recommended
    /// until one passes by plain comparison.
    pub fn visits(
        &mut self,
        press: &mut Press,
        between: Between,
        scatter: &Scatter,
        visits: usize,
        draws: &mut Draws,
        desk: &mut Desk,
    ) {
        let arms = press.arms();
        let mut nuts = vec![0; arms];
        let mut session = press.session(scatter.step_nm);
        for visit in 0..visits {
            if visit > 0 {
                press.wait(between, draws, &nuts);
                let record = PressRecord::of(&session);
                session = record.start_session(visit.to_string(), String::new());
            }
            let first = self.said.len();
            let mut turns = vec![0; arms];
            let mut relaces = 0;
            let passed = loop {
                nuts.iter_mut()
                    .zip(&turns)
                    .for_each(|(nut, turn)| *nut += turn);
                let true_nm = press.lace(draws, &nuts, scatter);
                session = read_into(&session, &turns, &true_nm, scatter, draws);
                if relaces > 0 {
                    let last = self.said.len() - 1;
                    self.said[last].inside = spread(&true_nm) <= TOLERANCE;
                }
                let pass = session.passes.len() - 1;
                let doubtful = session.gate(pass).doubtful;
                if !doubtful.is_empty() {
                    // Nobody here mistypes: whoever looks again keeps them.
                    let keep = Edit::KeepDoubtful {
                        pass,
                        readings: doubtful.iter().map(|at| (at.station, at.repeat)).collect(),
                        by: String::new(),
                    };
                    session = session.edited(&keep).unwrap();
                }
                let passed = session.gate(pass).stands == Stands::Inside;
                if passed || relaces == MOST_RELACES {
                    break passed;
                }
                let advice = session
                    .advise(pass, Wishes::default(), &desk.shelf, &mut desk.workspace)
                    .unwrap();
                let plan = advice.recommended();
                turns.clone_from(&plan.turns);
                self.said.push(Said {
                    visit,
                    chance: plan.forecast.chance,
                    inside: false,
                    pieces: plan.pieces,
                    came: None,
                });
                relaces += 1;
            };
            for (done, said) in self.said[first..].iter_mut().enumerate() {
                said.came = passed.then_some(relaces - done);
            }
            self.went.push(Went {
                visit,
                relaces,
                passed,
            });
        }
    }

    /// Many presses of a family.
    pub fn presses(
        &mut self,
        family: Family,
        between: Between,
        scatter: &Scatter,
        arms: usize,
        numbers: core::ops::Range<u64>,
        desk: &mut Desk,
    ) {
        for number in numbers {
            let mut draws = Draws::new(Purpose::Simulation(50_000 + number));
            let mut press = Press::of_family(family, &mut draws, arms, 0.004 * INCH);
            self.visits(&mut press, between, scatter, 3, &mut draws, desk);
        }
    }
}

/// One more pass, every station read as often as the scatter says.
fn read_into(
    session: &Session,
    turns: &[i32],
    true_nm: &[f64],
    scatter: &Scatter,
    draws: &mut Draws,
) -> Session {
    let rows: Vec<Vec<String>> = true_nm
        .iter()
        .map(|t| {
            let reading = |_| {
                let shown = scatter.of_pieces().reading_nm(draws, *t);
                format!("{:.4}", shown / INCH)
            };
            (0..scatter.repeats).map(reading).collect()
        })
        .collect();
    let pass = Edit::add_pass(turns.iter().copied().map(Notches), "");
    let readings = Edit::fill((session.passes.len(), 0, 0), rows, Unit::Inch);
    [pass, readings]
        .iter()
        .fold(session.clone(), |session, edit| {
            session.edited(edit).unwrap()
        })
}

/// The ends of the bands of chance.
pub const BANDS: [f64; 5] = [0.2, 0.4, 0.6, 0.8, 1.0];

/// One band of chance: how many plans, what was said of them in the mean, and
/// what came.
#[derive(Debug, Clone, Copy)]
pub struct Band {
    pub low: f64,
    pub high: f64,
    pub plans: usize,
    pub said: f64,
    pub came: f64,
}

impl Band {
    /// Standard deviation of what came, by counting.
    pub fn counting(&self) -> f64 {
        (self.said * (1.0 - self.said) / self.plans.max(1) as f64).sqrt()
    }

    /// How far what came is from what was said, beyond a number of standard
    /// deviations of the counts.
    pub fn off(&self, deviations: f64) -> f64 {
        ((self.came - self.said).abs() - deviations * self.counting()).max(0.0)
    }
}

/// The bands of what was said.
pub fn bands(said: &[Said]) -> Vec<Band> {
    let pairs = BANDS.windows(2);
    let band = |ends: &[f64]| {
        let here = said
            .iter()
            .filter(|s| ends[0] <= s.chance && (s.chance < ends[1] || ends[1] == 1.0));
        let here: Vec<&Said> = here.collect();
        let n = here.len().max(1) as f64;
        Band {
            low: ends[0],
            high: ends[1],
            plans: here.len(),
            said: here.iter().map(|s| s.chance).sum::<f64>() / n,
            came: here.iter().filter(|s| s.inside).count() as f64 / n,
        }
    };
    pairs.map(band).collect()
}

/// The gauge of a caliper of half a thousandth, of which the program assumes a
/// repeatability of 0.000 25 in, in steadier and in less steady hands.
pub fn gauges() -> [(&'static str, Scatter); 2] {
    let gauge = |repeatability_inch: f64| Scatter {
        lacing_nm: 0.0003 * INCH,
        repeatability_nm: repeatability_inch * INCH,
        step_nm: 0.0005 * INCH,
        repeats: 2,
        shift_nm: 0.002 * INCH,
        tilt_nm: 0.0005 * INCH,
    };
    [
        ("steady hand", gauge(0.0001)),
        ("shaky hand", gauge(0.0004)),
    ]
}

pub const FAMILIES: [(Family, &str); 3] = [
    (Family::UnevenNuts, "uneven nuts"),
    (Family::StiffMiddle, "stiff middle"),
    (Family::SlackRod, "slack rod"),
];

pub fn betweens() -> [(Between, &'static str); 2] {
    [
        (Between::Drift(0.001 * INCH), "small changes"),
        (Between::Change(0.008 * INCH), "large changes"),
    ]
}

/// Prints the bands and answers them.
pub fn print_bands(name: &str, said: &[Said]) -> Vec<Band> {
    let bands = bands(said);
    for band in &bands {
        println!(
            "{name}, {:.1} to {:.1}: {:5} plans, said {:.3}, came {:.3} ± {:.3}",
            band.low,
            band.high,
            band.plans,
            band.said,
            band.came,
            band.counting()
        );
    }
    bands
}
