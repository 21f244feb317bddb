//! Sentences about the shape of a profile.

use crate::press::ArmIndex;
use crate::splice::{LevelStanding, Measured, NamedPattern, Pattern, Shape};
use crate::units::Unit;

use super::Figures;

impl Figures {
    /// The one sentence that says how the profile looks, for a new hand.
    pub fn shape_sentence(&self, shape: &Shape) -> String {
        let words = self.language;
        if shape.read.len() < 2 {
            return words.shape_unread().to_owned();
        }
        match shape.headline() {
            None => words.shape_nothing_stands_out().to_owned(),
            Some(_) if shape.is_irregular() => match shape.outermost {
                Some(ends) => words.shape_irregular(ends.thickest, ends.thinnest),
                None => words.shape_nothing_stands_out().to_owned(),
            },
            Some(named) => self.pattern_sentence(shape, named),
        }
    }

    /// How the level stands against the target, and which remedy is right.
    pub fn level_sentence(&self, standing: &LevelStanding) -> String {
        let words = self.language;
        let by = |offset: &Measured| self.with_unit(&self.rough(*offset));
        match standing {
            LevelStanding::Unjudged => words.level_unjudged().to_owned(),
            LevelStanding::AtTarget(_) => words.level_at_target().to_owned(),
            LevelStanding::Handle(offset) if offset.value_nm > 0.0 => {
                words.level_all_thick(by(offset))
            }
            LevelStanding::Handle(offset) => words.level_all_thin(by(offset)),
            LevelStanding::NutsFirst(offset) if offset.value_nm > 0.0 => {
                words.level_thick_nuts_first(by(offset))
            }
            LevelStanding::NutsFirst(offset) => words.level_thin_nuts_first(by(offset)),
        }
    }

    fn pattern_sentence(&self, shape: &Shape, named: &NamedPattern) -> String {
        let words = self.language;
        let by = self.with_unit(&self.rough(named.size));
        let more = named.size.value_nm > 0.0;
        let ends = shape.read.first().zip(shape.read.last());
        let (&left, &right) = ends.unwrap_or((&ArmIndex(0), &ArmIndex(0)));
        match (named.pattern, more) {
            (Pattern::Arm(arm), true) => words.shape_proud(arm, by),
            (Pattern::Arm(arm), false) => words.shape_pinched(arm, by),
            (Pattern::Taper, true) => words.shape_tapered(right, left, by),
            (Pattern::Taper, false) => words.shape_tapered(left, right, by),
            (Pattern::Bow, true) => words.shape_thick_middle(by),
            (Pattern::Bow, false) => words.shape_thin_middle(by),
            (Pattern::Step { left, right }, true) => words.shape_step(left, right, right, by),
            (Pattern::Step { left, right }, false) => words.shape_step(left, right, left, by),
        }
    }

    /// The size of a figure with no more decimals than its uncertainty
    /// deserves: the last one no finer than the standard uncertainty, as long
    /// as it still says more than one of itself.
    pub(super) fn rough(&self, measured: Measured) -> String {
        let size = measured.value_nm.abs();
        let mut place = match self.unit {
            Unit::Inch => Unit::Inch.nm(),
            Unit::Millimetre => Unit::Millimetre.nm(),
        } as f64;
        let mut decimals = 0;
        while decimals < self.mean_decimals()
            && (place / 10.0 >= measured.u_nm || size < 2.0 * place)
        {
            place /= 10.0;
            decimals += 1;
        }
        self.nm(size, decimals)
    }
}

texts! {
    shape_unread {
        en: "Measure two arms or more to see how the jaw is.",
        es: "Mida dos brazos o más para ver cómo está la mordaza."
    }
    shape_nothing_stands_out {
        en: "No arm stands out: the gauge alone can make such differences.",
        es: "Ningún brazo sobresale: el instrumento por sí solo puede dar esas diferencias."
    }
    shape_irregular(thickest, thinnest) {
        en: "The splice is uneven without a clear pattern: thickest at arm {thickest}, thinnest at arm {thinnest}.",
        es: "El empalme está disparejo sin un patrón claro: más grueso en el brazo {thickest}, más delgado en el brazo {thinnest}."
    }
    shape_pinched(arm, by) {
        en: "Arm {arm} is pinched: the splice is {by} thinner there than beside it.",
        es: "El brazo {arm} aprieta de más: ahí el empalme es {by} más delgado que a su lado."
    }
    shape_proud(arm, by) {
        en: "Arm {arm} is too open: the splice is {by} thicker there than beside it.",
        es: "El brazo {arm} queda demasiado abierto: ahí el empalme es {by} más grueso que a su lado."
    }
    shape_tapered(thick, thin, by) {
        en: "The splice is tapered: {by} thicker at arm {thick} than at arm {thin}.",
        es: "El empalme está en cuña: {by} más grueso en el brazo {thick} que en el brazo {thin}."
    }
    shape_thick_middle(by) {
        en: "The splice is bowed: {by} thicker in the middle than at the ends.",
        es: "La mordaza está arqueada: el empalme es {by} más grueso en el centro que en los extremos."
    }
    shape_thin_middle(by) {
        en: "The splice is bowed: {by} thinner in the middle than at the ends.",
        es: "La mordaza está arqueada: el empalme es {by} más delgado en el centro que en los extremos."
    }
    shape_step(left, right, thick, by) {
        en: "The splice steps between arms {left} and {right}: {by} thicker on the {thick} side. The jaw drive can do that.",
        es: "El empalme tiene un escalón entre los brazos {left} y {right}: {by} más grueso del lado de {thick}. Puede ser la transmisión."
    }
    level_unjudged {
        en: "Overall thickness not checked: no target thickness is set. Check that the hooks are clinched.",
        es: "Espesor general sin revisar: no hay espesor deseado. Revise que los ganchos estén bien cerrados."
    }
    level_at_target {
        en: "The overall thickness is on target, as far as the gauge can tell.",
        es: "El espesor general es el deseado, hasta donde el instrumento alcanza."
    }
    level_all_thick(by) {
        en: "Every arm is thicker than the target, {by} on average: move the common handle as the manual says, not the nuts.",
        es: "Todos los brazos pasan del espesor deseado, {by} en promedio: mueva la manija común como dice el manual, no las tuercas."
    }
    level_all_thin(by) {
        en: "Every arm is thinner than the target, {by} on average: move the common handle as the manual says, not the nuts.",
        es: "Todos los brazos quedan por debajo del espesor deseado, {by} en promedio: mueva la manija común como dice el manual, no las tuercas."
    }
    level_thick_nuts_first(by) {
        en: "On average the splice is {by} thicker than the target, but not at every arm: bring the jaws true with the nuts first, then check again.",
        es: "En promedio el empalme es {by} más grueso que lo deseado, pero no en todos los brazos: primero empareje las mordazas con las tuercas y luego revise otra vez."
    }
    level_thin_nuts_first(by) {
        en: "On average the splice is {by} thinner than the target, but not at every arm: bring the jaws true with the nuts first, then check again.",
        es: "En promedio el empalme es {by} más delgado que lo deseado, pero no en todos los brazos: primero empareje las mordazas con las tuercas y luego revise otra vez."
    }
}
