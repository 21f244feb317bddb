//! What jaws and rods are made of, so that nobody has to know a modulus.

use crate::units::listed;

use super::section::Estimate;

listed! {
    /// A material with a modulus from handbooks.
    #[derive(Debug, Clone, Copy, PartialEq, Eq)]
    pub enum Material {
        /// Carbon steel.
        Steel,
        /// Aluminium.
        Aluminium,
        /// Gray cast iron.
        CastIron,
    }
}

/// A million pounds-force per square inch in GPa: 1 lbf = 0.453 592 37 kg times
/// 9.806 65 m/s2, 1 in = 25.4 mm, all exact (NIST SP 811, appendix B).
pub const MILLION_PSI: f64 = 0.453_592_37 * 9.806_65 / (0.025_4 * 0.025_4) / 1_000.0;

impl Material {
    /// Young's modulus at room temperature, GPa, with the relative standard
    /// deviation that the kinds of the material leave.
    ///
    /// Steel: 29.5 million psi, carbon steel with up to 0.3 % of carbon at
    /// 70 °F, and gray cast iron: 13.4 (ASME B31.1-1995, read in a secondary
    /// copy). Aluminium: 10.0, alloy 6061-T6 (material tables of textbooks on
    /// mechanics of materials). Steels are within 3 %, wrought aluminium within
    /// 6 %; gray iron goes from 11.6 in class 20 to 19.9 in class 60. One
    /// standard deviation is taken as half of that.
    pub fn modulus_gpa(self) -> Estimate {
        let (million_psi, relative_sd) = match self {
            Self::Steel => (29.5, 0.015),
            Self::Aluminium => (10.0, 0.03),
            Self::CastIron => (13.4, 0.2),
        };
        Estimate {
            value: million_psi * MILLION_PSI,
            relative_sd,
        }
    }

    /// The material with this modulus, GPa, as a field shows it.
    pub fn with_modulus(gpa: f64) -> Option<Self> {
        let same = |it: &Self| (it.modulus_gpa().value - gpa).abs() < 0.05;
        Self::ALL.into_iter().find(same)
    }
}

#[cfg(test)]
mod tests {
    use super::Material;

    #[test]
    fn moduli_are_those_of_the_tables() {
        // ASME B31.1-1995 (secondary copy) and textbooks, in million psi;
        // 1 psi = 6.894 757 kPa (NIST SP 811, B.8).
        for (material, million_psi) in [
            (Material::Steel, 29.5),
            (Material::Aluminium, 10.0),
            (Material::CastIron, 13.4),
        ] {
            let gpa = material.modulus_gpa().value;
            assert!((gpa / 6.894_757 - million_psi).abs() < 0.01, "{material:?}");
            assert_eq!(Material::with_modulus(gpa), Some(material));
        }
        assert_eq!(Material::with_modulus(150.0), None);
    }
}
