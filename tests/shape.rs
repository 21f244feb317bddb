//! The shape of a profile, in facts and in words.

use jawtrue::press::ArmIndex;
use jawtrue::splice::{Measured, Pattern, Shape};
use jawtrue::units::{Length, Unit};
use jawtrue::words::{Figures, Language};

/// A thousandth of an inch in nanometres.
const THOU: f64 = 25_400.0;

fn shape(thou: &[f64], u_thou: f64) -> Shape {
    let positions: Vec<f64> = (0..thou.len()).map(|arm| arm as f64 * 300e6).collect();
    let means: Vec<Option<f64>> = thou.iter().map(|y| Some((250.0 + y) * THOU)).collect();
    Shape::of(&positions, &means, &vec![u_thou * THOU; thou.len()])
}

fn figures(language: Language) -> Figures {
    Figures {
        language,
        unit: Unit::Inch,
        step: Length::from_nm(12_700),
        limit: None,
    }
}

fn check(thou: &[f64], u_thou: f64, english: &str) {
    let shape = shape(thou, u_thou);
    let sentence = figures(Language::English).shape_sentence(&shape);
    assert_eq!(sentence, english, "{thou:?} {:?}", shape.patterns);
}

#[test]
fn a_new_hand_reads_what_he_sees() {
    // Means of .2500 .2505, .2445 .2440, .2510 .2505, .2525 .2525.
    check(
        &[0.25, -5.75, 0.75, 2.5],
        0.3,
        "Arm B is pinched: the splice is 0.006″ thinner there than beside it.",
    );
    check(
        &[0.0, 0.0, 4.0, 0.0, 0.0],
        0.3,
        "Arm C is too open: the splice is 0.004″ thicker there than beside it.",
    );
    check(
        &[-4.0, 0.0, 0.2, -0.1],
        0.3,
        "Arm A is pinched: the splice is 0.004″ thinner there than beside it.",
    );
    check(
        &[0.0, 2.0, 4.0, 6.0],
        0.3,
        "The splice is tapered: 0.006″ thicker at arm D than at arm A.",
    );
    check(
        &[6.0, 0.0],
        0.3,
        "The splice is tapered: 0.006″ thicker at arm A than at arm B.",
    );
    check(
        &[0.0, 3.0, 4.0, 3.0, 0.0],
        0.3,
        "The splice is bowed: 0.004″ thicker in the middle than at the ends.",
    );
    check(
        &[4.0, 1.0, 0.0, 1.0, 4.0],
        0.3,
        "The splice is bowed: 0.004″ thinner in the middle than at the ends.",
    );
    check(
        &[0.0, 0.1, 4.0, 3.9],
        0.3,
        "The splice steps between arms B and C: 0.004″ thicker on the C side. The jaw drive can do that.",
    );
    check(
        &[0.3, 0.0, 0.4, 0.1],
        0.3,
        "No arm stands out: the gauge alone can make such differences.",
    );
    check(
        &[1.0],
        0.3,
        "Measure two arms or more to see how the jaw is.",
    );
    check(
        &[0.0, 6.0, 1.0, 7.0, 5.0, -2.0, 8.0, 0.0, 3.0, -3.0, 6.0, 0.0],
        0.1,
        "The splice is uneven without a clear pattern: thickest at arm G, thinnest at arm J.",
    );
}

#[test]
fn sentences_exist_in_spanish() {
    let sentence =
        figures(Language::Spanish).shape_sentence(&shape(&[0.25, -5.75, 0.75, 2.5], 0.3));
    assert_eq!(
        sentence,
        "El brazo B aprieta de más: ahí el empalme es 0.006″ más delgado que a su lado."
    );
}

#[test]
fn a_second_pattern_is_named_where_it_is_needed() {
    let shape = shape(&[0.0, 2.0, 4.0, -6.0, 8.0, 10.0], 0.2);
    let found: Vec<Pattern> = shape.patterns.iter().map(|named| named.pattern).collect();
    assert!(found.contains(&Pattern::Arm(ArmIndex(3))), "{found:?}");
    assert!(found.contains(&Pattern::Taper), "{found:?}");
    assert!(shape.described > 0.999);
    // The arm against the line between its neighbours: -6 - (4 + 8) / 2.
    let arm = shape
        .patterns
        .iter()
        .find(|named| named.pattern == Pattern::Arm(ArmIndex(3)));
    assert!((arm.unwrap().size.value_nm / THOU + 12.0).abs() < 1e-9);
}

#[test]
fn the_level_is_the_weighted_mean() {
    // numpy 2.4 on y = 0, 3, 5, 4, 1 with u = 1, 2, 1, 1, 3:
    // numpy.polyfit(x, y, 0, w=1/u, cov='unscaled').
    let positions = [0.0, 1e9, 2.5e9, 3e9, 4e9];
    let means = [0.0, 3e3, 5e3, 4e3, 1e3].map(Some);
    let shape = Shape::of(&positions, &means, &[1e3, 2e3, 1e3, 1e3, 3e3]);
    let level = shape.level.unwrap();
    assert!(
        (level.value_nm / 1e3 - 2.9338842975206605).abs() < 1e-12,
        "{level:?}"
    );
    assert!(
        (level.u_nm / 1e3 - 0.5454545454545454).abs() < 1e-12,
        "{level:?}"
    );
}

/// The same by Legendre polynomials over the arms: numpy 2.4, with z from -1 to 1,
/// numpy.polynomial.Legendre.fit(x, y, d, w=1/u) and the inverse of V'V for V =
/// legvander(z, d) / u. Level is the coefficient of degree 0, taper twice that of
/// degree 1, bow -3/2 of that of degree 2, each of the fit that ends with it. Drawn
/// by numpy.random.default_rng(11); x in mm, y and u in micrometres.
#[test]
fn level_taper_bow_of_uneven_arms_agree_with_legendre_fits() {
    type Case<'a> = (&'a [f64], &'a [f64], &'a [f64], [(f64, f64); 3]);
    let cases: [Case; 4] = [
        (
            &[0.0, 806.0, 6500.0],
            &[4.08, 3.67, -1.53],
            &[0.47, 1.87, 0.33],
            [
                (0.390822454, 0.267302875),
                (-5.624017268, 0.566539133),
                (0.657405362, 4.407923806),
            ],
        ),
        (
            &[0.0, 848.0, 3347.0, 4531.0, 6500.0],
            &[4.7, -0.29, 2.04, -0.41, -1.14],
            &[1.62, 1.41, 1.12, 1.67, 1.19],
            [
                (0.844607296, 0.603466643),
                (-3.676039115, 1.682360984),
                (0.316513028, 1.402413211),
            ],
        ),
        (
            &[0.0, 824.0, 1349.0, 1917.0, 5827.0, 5841.0, 6500.0],
            &[-2.44, -1.4, -3.58, -4.48, 0.11, 2.69, -0.7],
            &[0.35, 1.81, 0.97, 0.47, 1.41, 0.56, 1.82],
            [
                (-1.994770541, 0.235363072),
                (5.008024159, 0.67110774),
                (-4.369792055, 0.721754804),
            ],
        ),
        (
            &[
                0.0, 234.0, 1137.0, 1216.0, 1345.0, 2100.0, 2744.0, 2807.0, 3731.0, 4315.0, 5916.0,
                6500.0,
            ],
            &[
                -2.22, 4.16, 2.47, 1.88, 1.21, 2.87, -4.0, 1.84, 1.81, -5.3, 1.04, -0.75,
            ],
            &[
                1.71, 1.04, 0.43, 1.53, 0.55, 0.31, 1.28, 1.81, 0.25, 1.65, 0.54, 0.37,
            ],
            [
                (1.522304385, 0.143104829),
                (-3.297773545, 0.500288039),
                (1.165546434, 0.459545814),
            ],
        ),
    ];
    for (x, y, u, expected) in cases {
        let positions: Vec<f64> = x.iter().map(|mm| 1e6 * mm).collect();
        let means: Vec<Option<f64>> = y.iter().map(|um| Some(6e6 + 1e3 * um)).collect();
        let u: Vec<f64> = u.iter().map(|um| 1e3 * um).collect();
        let shape = Shape::of(&positions, &means, &u);
        let level = shape.level.map(|level| Measured {
            value_nm: level.value_nm - 6e6,
            ..level
        });
        let (part, (value, u)) = (level.unwrap(), expected[0]);
        assert!(
            (part.value_nm / 1e3 - value).abs() < 2e-9,
            "{part:?} {value}"
        );
        assert!((part.u_nm / 1e3 - u).abs() < 2e-9, "{part:?} {u}");
    }
}

#[test]
fn scatter_alone_is_rarely_given_a_name() {
    // Normal scatter of exactly the stated uncertainty: in 4 000 profiles of
    // six arms at most 5 % may be named; 6 % is three standard errors above.
    let mut named = 0;
    let mut state = 1_u64;
    let mut uniform = || {
        // Knuth's MMIX generator; the top 53 bits.
        state = state
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (state >> 11) as f64 / (1_u64 << 53) as f64
    };
    for _ in 0..4_000 {
        let scatter: Vec<f64> = (0..6)
            .map(|_| (0..12).map(|_| uniform()).sum::<f64>() - 6.0)
            .collect();
        named += usize::from(!shape(&scatter, 1.0).patterns.is_empty());
    }
    assert!(named <= 240, "{named}");
    assert!(named > 20, "the gate must not be shut either: {named}");
}

#[test]
fn unread_arms_and_nonsense_are_passed_over() {
    let positions = [0.0, 3e8, 6e8, 9e8];
    let means = [Some(6e6), None, Some(f64::NAN), Some(6.1e6)];
    let found = Shape::of(&positions, &means, &[0.0; 4]);
    assert_eq!(found.read, [ArmIndex(0), ArmIndex(3)]);
    assert_eq!(found.headline().unwrap().pattern, Pattern::Taper);
    assert!(found.level.unwrap().u_nm > 0.0);
    let nowhere = Shape::of(&[5.0; 4], &[Some(1.0); 4], &[f64::INFINITY; 4]);
    assert!(nowhere.read.is_empty() && nowhere.level.is_none());
    let means = [1.0, 2.0, 3.0, 4.0].map(Some);
    let stacked = Shape::of(&[5.0; 4], &means, &[1.0; 4]);
    assert_eq!(stacked.read.len(), 1);
    assert!(Shape::of(&[], &[], &[]).patterns.is_empty());
}
