//! What drawings or a rule say of the jaw's section and the rods: it narrows
//! how the press is believed to answer.

use crate::plan::{KAPPA_BOUNDS, Stiffness};
use crate::press::Press;
pub use crate::press::section::JawAndRods;
use crate::press::section::{Estimate, KappaEstimate, SectionError, kappa_from_data};

impl JawAndRods {
    /// kappa, the stiffness of a rod against the jaw's, on this press.
    ///
    /// # Errors
    /// [`SectionError`] when a value makes no sense.
    pub fn kappa(&self, press: &Press) -> Result<KappaEstimate, SectionError> {
        let spacing_nm = press.arm_spacing_nm().unwrap_or(0.0);
        kappa_from_data(self, Estimate::exact(spacing_nm / 1e6))
    }

    /// What is known of the stiffness. Data less certain than what is believed
    /// of any press say nothing.
    pub(super) fn stiffness(&self, press: &Press) -> Result<Stiffness, SectionError> {
        let KappaEstimate { kappa, log_sd } = self.kappa(press)?;
        // Standard deviation of a uniform distribution: its width over root 12.
        let (low, high) = KAPPA_BOUNDS;
        let believed = (libm::log(high) - libm::log(low)) / 12_f64.sqrt();
        Ok(if log_sd < believed {
            Stiffness::About {
                kappa,
                log_deviation: log_sd,
            }
        } else {
            Stiffness::Unknown
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::press::Arm;
    use crate::press::section::JawShape;
    use crate::units::{Length, TypedLength, Unit};

    #[test]
    fn the_distance_of_the_arms_is_the_press_own() {
        let typed =
            |mm: i64| TypedLength::from_length(Length::from_nm(mm * 1_000_000), Unit::Millimetre);
        let arm = |mm| Arm::new(typed(mm), typed(1));
        let press = Press::new("", typed(800), [100, 350, 700].map(arm));
        let mut steel = JawAndRods {
            jaw_modulus_gpa: Estimate::exact(200.0),
            jaw_shape: JawShape::Rectangle {
                width_mm: Estimate::exact(60.0),
                height_mm: Estimate::exact(120.0),
            },
            rod_modulus_gpa: Estimate::exact(200.0),
            rod_diameter_mm: Estimate::exact(24.0),
            rod_length_mm: Estimate::exact(400.0),
        };
        // k a^3 / E I by hand, as beside `kappa_from_data`, with a = 300 mm.
        let kappa = steel.kappa(&press).unwrap().kappa;
        assert!((kappa - 3.534_291_735_288_5).abs() < 1e-12, "{kappa}");
        assert!(matches!(
            steel.stiffness(&press),
            Ok(Stiffness::About { .. })
        ));
        // Two arms have one distance: these stand as far apart.
        let two = Press {
            arms: [100, 400].map(arm).to_vec(),
            ..press.clone()
        };
        assert_eq!(steel.kappa(&two).unwrap().kappa, kappa);
        steel.rod_diameter_mm.relative_sd = 0.5;
        assert_eq!(steel.stiffness(&press), Ok(Stiffness::Unknown));
        steel.rod_diameter_mm.value = f64::NAN;
        assert!(steel.stiffness(&press).is_err());
    }
}
