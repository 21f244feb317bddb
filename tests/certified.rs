//! Certified standard deviations: NIST Statistical Reference
//! Datasets (public domain), as whole numbers of the last digit.

use jawtrue::splice::Sample;
use jawtrue::units::Length;

fn sample(values: impl IntoIterator<Item = i64>) -> Sample {
    let lengths: Vec<Length> = values.into_iter().map(Length::from_nm).collect();
    Sample::of(lengths).unwrap()
}

/// Certified values are given to 15 digits; so many are asked for.
fn check(found: f64, certified: f64) {
    assert!(
        (found / certified - 1.0).abs() < 1e-15,
        "{found} instead of {certified}"
    );
}

#[test]
fn michelso() {
    // 100 measurements of the speed of light in air, thousands of km/s;
    // certified sd 0.0790105478190518. The values are
    // from memory; that they give the certified figures proves them.
    let thousandths = "
        850 740 900 1070 930 850 950 980 980 880 1000 980 930 650 760 810 1000 1000 960 960
        960 940 960 940 880 800 850 880 900 840 830 790 810 880 880 830 800 790 760 800
        880 880 880 860 720 720 620 860 970 950 880 910 850 870 840 840 850 840 840 840
        890 810 810 820 800 770 760 740 750 760 910 920 890 860 880 720 840 850 850 780
        890 840 780 810 760 810 790 810 820 850 870 870 810 740 810 940 950 800 810 870";
    let found = sample(
        thousandths
            .split_whitespace()
            .map(|text| 299_000 + text.parse::<i64>().unwrap()),
    );
    assert_eq!(found.count(), 100);
    check(found.sd_nm().unwrap(), 79.010_547_819_051_8);
}

#[test]
fn numacc1_and_numacc4() {
    let found = sample([10_000_001, 10_000_003, 10_000_002]);
    check(found.sd_nm().unwrap(), 1.0);
    // 10000000.2, then 10000000.1 and 10000000.3 in turns, 1 001 values, in
    // tenths; certified sd 0.1. Sums of squares in floats
    // keep no digit of the sd.
    let turns = (0..1_000).map(|turn| 100_000_001 + 2 * (turn % 2));
    let found = sample(std::iter::once(100_000_002).chain(turns));
    assert_eq!(found.count(), 1_001);
    check(found.sd_nm().unwrap(), 1.0);
}

#[test]
fn samples_that_are_none() {
    assert_eq!(Sample::of([]), None);
    let far = [Length::from_nm(i64::MIN), Length::from_nm(i64::MAX)];
    assert_eq!(Sample::of(far), None);
    assert_eq!(sample([5]).sd_nm(), None);
    assert_eq!(sample([5, 5, 5]).sd_nm(), Some(0.0));
}
