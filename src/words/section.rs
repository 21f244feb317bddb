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
            } => self.section_sd(
                self.section_quantity(*quantity),
                self.percent(relative_sd * 100.0),
            ),
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
    jaw_and_rods_hint { en: "How stiff the jaw is against its rods makes the first plan better. From the drawing, the papers or a rule.", es: "Saber qué tan rígida es la mordaza frente a sus tirantes mejora el primer plan. Del plano, de los papeles o con regla." }
    forget_jaw_and_rods { en: "Forget jaw and rods", es: "Olvidar mordaza y tirantes" }
    section_earlier_visits { en: "Earlier visits the plan learns from", es: "Visitas anteriores de las que aprende el plan" }
    earlier_visit_line(when, passes) { en: "{when}: {passes} passes", es: "{when}: {passes} pasadas" }
    forget_earlier { en: "Forget them (after a repair)", es: "Olvidarlas (después de una reparación)" }
    not_a_number(found) { en: "Type a number such as 30, or a length such as 60 mm; “{found}” is neither.", es: "Escriba un número como 30, o una medida como 60 mm; «{found}» no es ni lo uno ni lo otro." }
    handle_hint { en: "Common handle moved since the pass before, as thickness; opening is plus:", es: "Manija común movida desde la pasada anterior, como espesor; abrir es más:" }

    section_sd(what, percent) {
        en: "{what}: the uncertainty must be 0 to 100%; this is {percent}.",
        es: "{what}: la incertidumbre debe ser de 0 a 100 %; aquí es {percent}."
    }
    quantity_jaw_modulus { en: "Elastic modulus of the jaw, GPa", es: "Módulo de elasticidad de la mordaza, GPa" }
    quantity_jaw_second_moment { en: "Second moment of area of the jaw, mm⁴", es: "Momento de inercia de la mordaza, mm⁴" }
    quantity_jaw_width { en: "Width of the jaw across the rods, mm", es: "Ancho de la mordaza perpendicular a los tirantes, mm" }
    quantity_jaw_height { en: "Height of the jaw along the rods, mm", es: "Altura de la mordaza a lo largo de los tirantes, mm" }
    quantity_rod_modulus { en: "Elastic modulus of the tie rods, GPa", es: "Módulo de elasticidad de los tirantes, GPa" }
    quantity_rod_diameter { en: "Diameter of the tie rods, mm", es: "Diámetro de los tirantes, mm" }
    quantity_rod_length { en: "Length of the tie rods from seat to seat, mm", es: "Largo de los tirantes de apoyo a apoyo, mm" }
    quantity_arm_spacing { en: "Average distance between arms, mm", es: "Distancia promedio entre brazos, mm" }
}
