//! Sentences about section and rod data.

use crate::press::section::{SectionError, SectionQuantity};

use super::Language;

impl Language {
    /// Why section data are refused.
    pub fn section_error(self, error: &SectionError) -> String {
        match error {
            SectionError::OutOfRange { quantity, value } => {
                let range = quantity.range();
                self.out_of_bounds(
                    self.section_quantity(*quantity),
                    self.scientific(*range.start()),
                    self.scientific(*range.end()),
                    self.scientific(*value),
                )
            }
            SectionError::RelativeSd {
                quantity,
                relative_sd,
            } => self.section_sd(self.section_quantity(*quantity), relative_sd * 100.0),
        }
    }

    /// The name of a quantity of the section data, with its unit.
    pub fn section_quantity(self, quantity: SectionQuantity) -> &'static str {
        match quantity {
            SectionQuantity::JawModulusGpa => self.quantity_jaw_modulus(),
            SectionQuantity::JawSecondMomentMm4 => self.quantity_jaw_second_moment(),
            SectionQuantity::JawWidthMm => self.quantity_jaw_width(),
            SectionQuantity::JawHeightMm => self.quantity_jaw_height(),
            SectionQuantity::RodModulusGpa => self.quantity_rod_modulus(),
            SectionQuantity::RodDiameterMm => self.quantity_rod_diameter(),
            SectionQuantity::RodLengthMm => self.quantity_rod_length(),
            SectionQuantity::ArmSpacingMm => self.quantity_arm_spacing(),
        }
    }

    /// A number as it stands, a very large one with a power of ten.
    fn scientific(self, value: f64) -> String {
        if value.abs() < 1e6 {
            value.to_string()
        } else {
            format!("{value:e}")
        }
    }
}

texts! {
    section_sd(what, percent) {
        en: "{what}: expected an uncertainty of 0 to 100 %, found {percent} %.",
        es: "{what}: se esperaba una incertidumbre de 0 a 100 % y se encontró {percent} %."
    }
    quantity_jaw_modulus { en: "Modulus of elasticity of the jaw, GPa", es: "Módulo de elasticidad de la mordaza, GPa" }
    quantity_jaw_second_moment { en: "Second moment of area of the jaw, mm⁴", es: "Momento de inercia de la mordaza, mm⁴" }
    quantity_jaw_width { en: "Width of the jaw across the rods, mm", es: "Ancho de la mordaza a través de los tirantes, mm" }
    quantity_jaw_height { en: "Height of the jaw along the rods, mm", es: "Altura de la mordaza a lo largo de los tirantes, mm" }
    quantity_rod_modulus { en: "Modulus of elasticity of the tie rods, GPa", es: "Módulo de elasticidad de los tirantes, GPa" }
    quantity_rod_diameter { en: "Diameter of the tie rods, mm", es: "Diámetro de los tirantes, mm" }
    quantity_rod_length { en: "Length of the tie rods from seat to seat, mm", es: "Largo de los tirantes de apoyo a apoyo, mm" }
    quantity_arm_spacing { en: "Mean distance of the arms, mm", es: "Distancia media de los brazos, mm" }
}
