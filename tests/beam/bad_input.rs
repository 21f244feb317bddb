//! Descriptions that make no sense are named, and nothing is ever NaN.

use super::deflect;
use jawtrue::press::beam::{Beam, BeamError, BeamSection};

#[test]
fn what_makes_no_sense_is_named() {
    use BeamError as E;
    let good = Beam::uniform(0.0, 10.0, 1.0).on_springs([(1.0, 1.0), (9.0, 1.0)]);
    let cases: Vec<(Beam, E)> = vec![
        (
            Beam {
                right_end: 0.0,
                ..good.clone()
            },
            E::Ends,
        ),
        (
            Beam {
                sections: [0.0, 6.0, 4.0]
                    .map(|from| BeamSection {
                        from,
                        rigidity: 1.0,
                    })
                    .to_vec(),
                ..good.clone()
            },
            E::SectionStart(2),
        ),
        (
            Beam {
                sections: Vec::new(),
                ..good.clone()
            },
            E::NoSection,
        ),
        (
            Beam::uniform(0.0, 10.0, 0.0).on_springs([(1.0, 1.0), (9.0, 1.0)]),
            E::Rigidity(0),
        ),
        (good.clone().on_springs([(11.0, 1.0)]), E::SpringOutside(2)),
        (good.clone().on_springs([(9.0, 1.0)]), E::SpringOrder(2)),
        (good.clone().on_springs([(5.0, 1.0)]), E::SpringOrder(2)),
        (good.clone().on_springs([(9.5, -1.0)]), E::Stiffness(2)),
        (
            good.clone().on_springs([(9.5, f64::INFINITY)]),
            E::Stiffness(2),
        ),
        (good.clone().on_foundation(-1.0), E::Foundation),
        (good.clone().loaded(-1.0, 1.0), E::Load(0)),
        (
            Beam::uniform(0.0, 10.0, 1.0).on_springs([(1.0, 0.0), (9.0, 1.0)]),
            E::Loose,
        ),
        (good.clone().on_foundation(1.0e18), E::TooSoft),
    ];
    let mut kept = good.factor().expect("a good beam");
    for (beam, expected) in cases {
        assert_eq!(kept.refactor(&beam), Err(expected));
    }
    // After a refusal the beam factored before is still there.
    assert_eq!(
        kept.solve(&[1.0, 1.0]),
        good.factor().and_then(|f| f.solve(&[1.0, 1.0]))
    );
    for bad in [f64::NAN, f64::INFINITY, -f64::MAX] {
        assert!(Beam::uniform(0.0, 10.0, bad).factor().is_err());
        assert!(Beam::uniform(bad, 10.0, 1.0).factor().is_err());
        assert!(good.clone().on_foundation(bad).factor().is_err());
        assert!(good.clone().loaded(1.0, bad).factor().is_err());
        assert!(good.clone().loaded(bad, 1.0).factor().is_err());
        assert!(good.clone().on_springs([(bad, 1.0)]).factor().is_err());
        assert_eq!(kept.solve(&[0.0, bad]), Err(E::Movement(1)));
        let mut room = [0.0; 2];
        let refused = kept.influence_into(&[bad], &mut room);
        assert_eq!(refused, Err(E::PlaceOutside(0)));
    }
    assert_eq!(kept.solve(&[1.0]), Err(E::MovementCount));
    assert_eq!(
        kept.influence_into(&[1.0], &mut [0.0; 3]),
        Err(E::MatrixSize)
    );
    let deflection = deflect(&good, &[1.0, 2.0]);
    for x in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, f64::MAX] {
        let state = deflection.state_at(x);
        assert!(state.deflection.is_finite() && state.slope.is_finite());
    }
}
