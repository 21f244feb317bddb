//! What the fields about press and visit measure, said under the picture that
//! shows it.

use crate::press::Material;
use crate::units::Unit;

use super::Language;

impl Language {
    /// Which hand a thread has.
    pub fn thread_hand(self, left: bool) -> &'static str {
        match left {
            true => self.thread_left(),
            false => self.thread_right(),
        }
    }

    /// The same with the way a wrench goes for OUT.
    pub fn thread_short(self, left: bool, way: &str) -> String {
        self.thread_short_of(self.thread_hand(left), way)
    }

    /// The six fields of section and rods with the units they are asked for
    /// in, in the order in which they are asked.
    pub fn jaw_and_rods_fields(self, unit: Unit) -> [String; 6] {
        let modulus = self.modulus_unit(unit);
        let length = self.unit_short(unit);
        [
            (self.jaw_stiffness(), modulus),
            (self.jaw_width(), length),
            (self.jaw_height(), length),
            (self.rod_stiffness(), modulus),
            (self.rod_diameter(), length),
            (self.rod_length(), length),
        ]
        .map(|(name, unit)| format!("{name}, {unit}"))
    }

    /// The unit that moduli are asked for in.
    pub fn modulus_unit(self, unit: Unit) -> &'static str {
        match unit {
            Unit::Inch => self.million_psi(),
            Unit::Millimetre => "GPa",
        }
    }

    /// What each of the six is, in a sentence.
    pub fn jaw_and_rods_meaning(self, which: usize) -> &'static str {
        match which {
            1 => self.means_jaw_width(),
            2 => self.means_jaw_height(),
            4 => self.means_rod_diameter(),
            5 => self.means_rod_length(),
            _ => self.means_stiffness(),
        }
    }
}

names! {
    /// What jaws and rods are made of.
    pub material(Material) {
        Steel { en: "Steel", es: "Acero" }
        Aluminium { en: "Aluminum", es: "Aluminio" }
        CastIron { en: "Cast iron", es: "Hierro fundido" }
    }
}

texts! {
    limit_past_flush(arms) { en: "{arms}: limits reach past flush (0). Does the pin pass there, and does enough thread hold?", es: "{arms}: los límites pasan del ras (0). ¿Ahí pasa la chaveta y agarra suficiente rosca?" }
    part_press { en: "Press", es: "Prensa" }
    part_stations { en: "Measuring points", es: "Puntos de medición" }
    part_visit { en: "Visit", es: "Visita" }
    part_jaw_and_rods { en: "Jaw and rods", es: "Mordaza y tirantes" }
    means_nothing_yet { en: "Go to a field: the picture shows what it measures.", es: "Vaya a un campo: el dibujo muestra qué mide." }
    arms_from_left { en: "Arms are named from the operator's left.", es: "Los brazos se nombran desde la izquierda del operador." }
    means_jaw_length { en: "Jaw length: from end to end.", es: "Largo de la mordaza: de extremo a extremo." }
    means_position(arm) { en: "Position of {arm}: from the jaw's left end, seen by the operator, to the center of the arm.", es: "Posición de {arm}: desde el extremo izquierdo de la mordaza, visto por el operador, hasta el centro del brazo." }
    means_notch_effect { en: "Thickness per notch: how much the splice there changes when its nut is turned one notch; 0.004″ is common practice, no source.", es: "Espesor por ranura: cuánto cambia ahí el empalme al girar su tuerca una ranura; 0.004″ (0.1016 mm) es práctica común, sin referencia." }
    means_nut_travel { en: "Nut travel: how far a nut moves along its rod in one notch.", es: "Avance: cuánto se mueve la tuerca por el tirante en una ranura." }
    means_limit(arm) { en: "Where nut {arm} may stand, in notches: 0 is flush with the rod's end, IN is minus, OUT is plus. Only where the pin passes and enough thread holds. Empty: no limit.", es: "Dónde puede quedar la tuerca {arm}, en ranuras: 0 es al ras de la punta del tirante, CERRAR es menos, ABRIR es más. Solo donde pasa la chaveta y agarra suficiente rosca. Vacío: sin límite." }
    means_limits { en: "Furthest IN and OUT: where each nut may stand, in notches. 0 is flush with the rod's end, IN is minus, OUT is plus; only where the pin passes and enough thread holds. Opening margin: how much further the jaw opens than the hook retainer needs to come out.", es: "Más CERRADA y más ABIERTA: dónde puede quedar cada tuerca, en ranuras. 0 es al ras de la punta del tirante, CERRAR es menos, ABRIR es más; solo donde pasa la chaveta y agarra suficiente rosca. Margen de apertura: cuánto más abre la mordaza de lo que pide el retén de ganchos para salir." }
    accepted_when_sure { en: "it is inside, and at least", es: "está dentro, con certeza de al menos" }
    tolerance_in_force(typed, shown) { en: "{typed} is in force and judges. Converted, for information only: {shown}.", es: "Se juzga con {typed}. Convertida, solo como información: {shown}." }
    percent_sure { en: "% sure", es: "%" }
    not_measured { en: "not known", es: "sin medir" }
    accuracy_unknown { en: "not known", es: "no se sabe" }
    usual_value(value) { en: "usual: {value}", es: "usual: {value}" }
    if_different { en: "Per notch, this arm", es: "Por ranura, este brazo" }
    thread { en: "Thread; arrows facing the rod end", es: "Rosca; flechas de frente al tirante" }
    thread_right { en: "Right-hand thread", es: "Rosca derecha" }
    thread_left { en: "Left-hand thread", es: "Rosca izquierda" }
    thread_out(way) { en: "OUT {way}", es: "ABRIR {way}" }
    thread_short_of(hand, way) { en: "{hand}: OUT {way}", es: "{hand}: ABRIR {way}" }
    thread_first { en: "Before the first nut: look at the thread", es: "Antes de la primera tuerca: vea la rosca" }
    thread_how { en: "End of the rod up: which way do the threads climb? Every arrow goes by it.", es: "Punta del tirante arriba: ¿hacia dónde suben los hilos? De eso dependen las flechas." }
    thread_unlike { en: "⚠ Not the same at every nut, or not to be seen? Turn nothing; ask whoever knows the press.", es: "⚠ ¿No es igual en todas, o no se ve? No gire nada; pregunte a quien conoce la prensa." }
    thread_unseen { en: "which way: look at the thread first", es: "hacia dónde: vea primero la rosca" }
    thread_flips(way) { en: "Every arrow of this press goes by it: OUT is then {way}. Look at the thread on the press first.", es: "De esto dependen todas las flechas de esta prensa: ABRIR es entonces {way}. Vea primero la rosca en la prensa." }
    thread_keep { en: "Leave it", es: "Dejarla" }
    thread_seen(hand) { en: "Seen on the press: {hand}", es: "Vista en la prensa: {hand}" }
    thread_hint { en: "Right-hand or left-hand thread: every arrow of a wrench goes by it.", es: "Rosca derecha o izquierda: de ella dependen todas las flechas de la llave." }
    remove_an_arm { en: "Remove an arm…", es: "Quitar un brazo…" }
    remove_which { en: "Which arm? Those to its right move up a letter: without B, C becomes B.", es: "¿Qué brazo? Los de su derecha cambian de letra: sin B, C pasa a ser B." }
    keep_arms { en: "Keep them all", es: "Dejarlos todos" }
    applies_at_once { en: "Changes apply at once; Undo takes them back.", es: "Los cambios se aplican ya; Deshacer los revierte." }
    section_known(known) { en: "Optional. Known so far: {known} of 6, used once all six are.", es: "Opcional. Conocidos hasta ahora: {known} de 6, se usan cuando están los seis." }
    section_belt { en: "belt", es: "banda" }
    section_closes { en: "closes", es: "cierra" }
    material_other { en: "Other", es: "Otro" }
    field_arm { en: "Arm", es: "Brazo" }
    arm_has_readings(arm) { en: "Arm {arm} has readings. They go with it; Undo brings both back.", es: "El brazo {arm} tiene lecturas. Se van con él; Deshacer devuelve ambos." }
    keep_arm { en: "Keep it", es: "Dejarlo" }
    means_margin(arm) { en: "Opening margin at {arm}: how much further the jaw opens than the hook retainer needs to come out.", es: "Margen de apertura en {arm}: cuánto más abre la mordaza de lo que pide el retén de ganchos para salir." }
    means_start_nut(arm) { en: "Nut {arm} as found: notches from flush with the end of the rod, OUT is plus.", es: "Tuerca {arm} al inicio: ranuras desde el ras del tirante, ABRIR es más." }
    million_psi { en: "million psi", es: "millones de psi" }
    jaw_stiffness { en: "Elastic modulus of the jaw", es: "Módulo de elasticidad de la mordaza" }
    jaw_width { en: "Jaw width", es: "Ancho de la mordaza" }
    jaw_height { en: "Jaw height", es: "Altura de la mordaza" }
    rod_stiffness { en: "Elastic modulus of the rods", es: "Módulo de elasticidad de los tirantes" }
    rod_diameter { en: "Rod diameter", es: "Diámetro del tirante" }
    rod_length { en: "Rod length", es: "Largo del tirante" }
    means_stiffness { en: "Elastic modulus: how stiff the material is. Choose the material, or type the figure of its data sheet.", es: "Módulo de elasticidad: qué tan rígido es el material. Elija el material o escriba el valor de su hoja técnica." }
    means_jaw_width { en: "Jaw width: across the rods.", es: "Ancho de la mordaza: perpendicular a los tirantes." }
    means_jaw_height { en: "Jaw height: along the rods, the way the jaw closes.", es: "Altura de la mordaza: a lo largo de los tirantes, hacia donde cierra." }
    means_rod_diameter { en: "Rod diameter: of the plain rod, not over the thread.", es: "Diámetro del tirante: de la parte lisa, no de la rosca." }
    means_rod_length { en: "Rod length: from seat to seat.", es: "Largo del tirante: de apoyo a apoyo." }
    jaw { en: "Jaw", es: "Mordaza" }
    rods { en: "Rods", es: "Tirantes" }
    made_of { en: "Made of", es: "Material" }
    handbook_modulus(value, unit) { en: "{value} {unit}, a handbook value", es: "{value} {unit}, valor de manual técnico" }
    means_tolerance { en: "How much thicker the thickest arm may be than the thinnest.", es: "Cuánto más grueso puede ser el brazo más grueso que el más delgado." }
    target_not_set { en: "not set: not judged", es: "sin fijar: no se juzga" }
    typed_as(text) { en: "typed as {text}", es: "se escribió {text}" }
    section_who_and_when { en: "Who and when", es: "Quién y cuándo" }
    section_belt_and_hooks { en: "Belt and hooks", es: "Banda y ganchos" }
    section_job { en: "The job", es: "El trabajo" }
    section_minutes { en: "What the work takes, in minutes", es: "Cuánto tarda el trabajo, en minutos" }
    gauge_more { en: "More about the gauge", es: "Más sobre el instrumento" }
    repaired_hint { en: "date, what was done", es: "fecha, qué se hizo" }
    tolerance_usual { en: "Usual tolerances", es: "Tolerancias usuales" }
    sketch_of_press(what) { en: "The press: {what}", es: "La prensa: {what}" }
}
