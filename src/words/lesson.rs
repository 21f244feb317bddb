//! What the lessons say, step by step. The figures come with the steps.

use crate::practice::{GaugeStep, LessonTopic, NotchStep, Retainer, Says, TURNED, TightStep};
use crate::press::{ArmIndex, Notches};
use crate::units::Length;

use super::Figures;

impl Figures {
    /// What a step of a lesson says.
    pub fn lesson_says(&self, says: &Says) -> String {
        match says {
            Says::Tight(step) => self.tight_step(step),
            Says::Notch(step) => self.notch_step(step),
            Says::Gauge(step) => self.gauge_step(step),
        }
    }

    /// A length of a lesson with its unit.
    pub fn lesson_length(&self, nm: f64) -> String {
        self.with_unit(&self.nm(nm, self.mean_decimals()))
    }

    fn tight_step(&self, step: &TightStep) -> String {
        let words = self.language;
        let nm = |nm: &f64| self.lesson_length(*nm);
        let arm = TURNED;
        match step {
            TightStep::True => words.tight_true().to_owned(),
            TightStep::Crushed { thinner_nm } => words.tight_crushed(arm, nm(thinner_nm)),
            TightStep::Neighbours {
                notches,
                neighbour,
                thinner_nm,
                share,
            } => {
                words.tight_neighbours(arm, notches, neighbour, nm(thinner_nm), self.share(*share))
            }
            TightStep::FarEnd {
                notches,
                arm: far,
                thicker_nm,
            } => {
                if *thicker_nm > 0.0 {
                    words.tight_far_end(arm, notches, far, nm(thicker_nm))
                } else {
                    words.tight_no_far_end(arm, notches, far, nm(&-thicker_nm))
                }
            }
            TightStep::OutOfTolerance { notches, spread_nm } => {
                let limit = self.limit.unwrap_or(Length::ZERO);
                words.tight_out(arm, notches, nm(spread_nm), self.limit(limit))
            }
            TightStep::RodLoads {
                notches,
                before,
                after,
                slack,
            } => {
                let shares = (self.share(*before), self.share(*after));
                if slack.is_empty() {
                    words.tight_rods_tight(arm, notches, shares.0, shares.1)
                } else {
                    let slack: Vec<String> = slack.iter().map(ArmIndex::to_string).collect();
                    words.tight_rods(arm, notches, shares.0, shares.1, slack.join(", "))
                }
            }
            TightStep::Drags { notches, left_nm } => words.tight_drags(arm, notches, nm(left_nm)),
            TightStep::Sticks {
                notches,
                thinner_nm,
            } => words.tight_sticks(arm, notches, nm(thinner_nm)),
            TightStep::NotMended {
                spread_nm,
                sticks,
                inside,
            } => {
                let mut said = if *inside {
                    words.tight_mended_profile(nm(spread_nm))
                } else {
                    words.tight_not_mended(arm, nm(spread_nm))
                };
                if *sticks {
                    said.push(' ');
                    said.push_str(&words.tight_still_sticks(arm));
                }
                said
            }
            TightStep::WayBack {
                notches,
                scatter_nm,
            } => words.tight_way_back(arm, notches, nm(scatter_nm)),
            TightStep::TooFarOut {
                notches,
                thicker_nm,
                slack_from,
            } => match slack_from {
                Some(from) => words.tight_too_far_out(arm, notches, nm(thicker_nm), from),
                None => words.tight_far_out(arm, notches, nm(thicker_nm)),
            },
            TightStep::Rule => words.tight_rule().to_owned(),
        }
    }

    fn notch_step(&self, step: &NotchStep) -> String {
        let words = self.language;
        let nm = |nm: &f64| self.lesson_length(*nm);
        let limit = self.limit(self.limit.unwrap_or(Length::ZERO));
        let turns = |turns: &[i32]| {
            let turns: Vec<Notches> = turns.iter().copied().map(Notches).collect();
            self.turns(&turns)
        };
        let stands = |inside: &bool| {
            if *inside {
                words.practice_inside()
            } else {
                words.practice_outside()
            }
        };
        match step {
            NotchStep::Found { spread_nm } => words.notch_found(nm(spread_nm), limit),
            NotchStep::Thickest { turns: up } => words.notch_thickest(turns(up)),
            NotchStep::Left { spread_nm, inside } => {
                words.notch_left(nm(spread_nm), stands(inside))
            }
            NotchStep::Why { notch_nm } => words.notch_why(nm(notch_nm)),
            NotchStep::Better {
                turns: other,
                spread_nm,
                inside,
            } => words.notch_better(turns(other), nm(spread_nm), stands(inside)),
            NotchStep::Always {
                notch,
                spread_nm,
                arms,
                inside,
            } => words.notch_always(arms, self.plain(*notch), nm(spread_nm), stands(inside)),
            NotchStep::Rule => words.notch_rule().to_owned(),
        }
    }

    fn gauge_step(&self, step: &GaugeStep) -> String {
        let words = self.language;
        let nm = |nm: &f64| self.lesson_length(*nm);
        let length = |length: &Length| self.with_unit(&self.reading(*length));
        match step {
            GaugeStep::Once { shown } => words.gauge_once(length(shown)),
            GaugeStep::Repeats { shown, range } => words.gauge_repeats(shown.len(), length(range)),
            GaugeStep::Step { step, share } => {
                words.gauge_lesson_step(self.plain(*step), self.share(*share))
            }
            GaugeStep::Mean {
                one_nm,
                mean_nm,
                of,
            } => words.gauge_mean(of, nm(one_nm), nm(mean_nm)),
            GaugeStep::Seating { thicker_nm, .. } => words.gauge_seating(nm(thicker_nm)),
            GaugeStep::ZeroOff { off_nm, .. } => words.gauge_zero_off(nm(off_nm)),
            GaugeStep::ZeroCreeps { range, .. } => words.gauge_zero_creeps(length(range)),
            GaugeStep::ThereAndBack { range_nm, .. } => words.gauge_there_and_back(nm(range_nm)),
            GaugeStep::Unit {
                tolerance,
                other,
                unit,
            } => {
                let own = Self {
                    unit: *unit,
                    ..*self
                };
                let foreign = Self {
                    unit: unit.other(),
                    ..*self
                };
                words.gauge_unit(
                    own.plain(*tolerance),
                    foreign.limit(*tolerance),
                    foreign.plain(*other),
                )
            }
            GaugeStep::Rule => words.gauge_rule().to_owned(),
        }
    }
}

names! {
    /// The name of a lesson.
    pub lesson_title(LessonTopic) {
        OverTightening { en: "Over-tightening a nut", es: "Apretar una tuerca de más" }
        WholeNotches { en: "Whole notches: not every arm to the thickest", es: "Ranuras enteras: no cada brazo hasta el más grueso" }
        ReadingTheGauge { en: "Reading the gauge", es: "Leer el instrumento" }
    }

    /// How the hook retainer comes out.
    pub retainer(Retainer) {
        Slides { en: "slides", es: "sale" }
        Drags { en: "drags", es: "roza" }
        Sticks { en: "sticks", es: "se atora" }
    }
}

texts! {
    lesson_step_of(step, of) { en: "Step {step} of {of}", es: "Paso {step} de {of}" }
    lesson_next { en: "Next", es: "Siguiente" }
    lesson_back { en: "Back", es: "Atrás" }
    lesson_end { en: "End the lesson", es: "Terminar la lección" }
    lesson_own_turns { en: "Nuts turned by hand: the sentence is about the step, the picture and figures about the nuts as they are.", es: "Tuercas giradas a mano: la frase habla del paso; el dibujo y las cifras, de las tuercas como están." }
    lesson_as_step { en: "Nuts as in this step", es: "Tuercas como en este paso" }
    lesson_assumed { en: "Simulated press. The jaw as a beam on rods; stiffness, rod stretch and opening assumed where not measured.", es: "Prensa simulada. Mordaza como viga sobre tirantes; rigidez, estiramiento y apertura supuestos donde no se midieron." }
    lesson_assumed_readings { en: "Simulated readings: nobody took them at your press.", es: "Lecturas simuladas: nadie las tomó en su prensa." }
    lesson_not_computed { en: "This press cannot be worked out with these nuts.", es: "Esta prensa no se puede calcular con estas tuercas." }
    lesson_load(share) { en: "{share} of the load", es: "{share} de la carga" }
    lesson_load_short(share) { en: "{share}\nof load", es: "{share}\nde carga" }
    lesson_keys { en: "Turn any nut at any step. Keys: left and right change the step; up and down turn the nut whose button has the keyboard.", es: "Gire cualquier tuerca en cualquier paso. Teclas: izquierda y derecha cambian de paso; arriba y abajo giran la tuerca cuyo botón tiene el teclado." }
    lesson_opened { en: "the same jaws opened; hook retainer drawn out to the right", es: "las mismas mordazas abiertas; el retén de ganchos sale a la derecha" }
    lesson_band(limit) { en: "band: tolerance {limit}", es: "franja: tolerancia {limit}" }
    lesson_steps(step) { en: "one place again and again; lines: steps of the gauge, {step}", es: "un mismo lugar varias veces; líneas: pasos del instrumento, {step}" }
    lesson_nearly_slack(share) { en: "{share}:\nnearly slack", es: "{share}:\ncasi flojo" }
    lesson_slack { en: "slack", es: "flojo" }
    lesson_spread(spread, limit) { en: "Spread {spread}, tolerance {limit}", es: "Diferencia {spread}, tolerancia {limit}" }

    tight_true { en: "A true press: the splice is equally thick at every arm, the rods share the load, and the hook retainer slides out everywhere.", es: "Una prensa pareja: el empalme es igual de grueso en cada brazo, los tirantes se reparten la carga y el retén de ganchos sale en todas partes." }
    tight_crushed(arm, thinner) { en: "Nut {arm} is run IN one notch. The jaw closes there and the splice comes out {thinner} thinner at {arm}.", es: "Se CIERRA una ranura la tuerca {arm}. La mordaza cierra ahí y el empalme sale {thinner} más delgado en {arm}." }
    tight_neighbours(arm, notches, neighbour, thinner, share) { en: "The jaw is stiff: it draws the neighbors along. With {arm} IN {notches}, the splice at {neighbour} is {thinner} thinner too, {share} of what {arm} lost, and nobody touched that nut.", es: "La mordaza es rígida y arrastra a los vecinos. Con {arm} CERRADA {notches}, el empalme en {neighbour} también adelgaza {thinner}, {share} de lo que perdió {arm}, y nadie tocó esa tuerca." }
    tight_far_end(arm, notches, far, thicker) { en: "The far end rises like a see-saw: with {arm} IN {notches}, the splice at {far} is {thicker} thicker.", es: "El otro extremo sube como un balancín: con {arm} CERRADA {notches}, el empalme en {far} engruesa {thicker}." }
    tight_no_far_end(arm, notches, far, thinner) { en: "On this press no end rises: with {arm} IN {notches}, even at {far}, where least is lost, the splice is {thinner} thinner.", es: "En esta prensa ningún extremo sube: con {arm} CERRADA {notches}, hasta en {far}, donde menos se pierde, el empalme adelgaza {thinner}." }
    tight_out(arm, notches, spread, limit) { en: "From {arm} IN {notches} the piece fails: spread {spread}, tolerance {limit}.", es: "Desde {arm} CERRADA {notches} la pieza falla: diferencia {spread}, tolerancia {limit}." }
    tight_rods(arm, notches, before, after, slack) { en: "Rod {arm} takes more and more of the load: {before} on the true press, {after} with {arm} IN {notches}. Rod {slack} carries nothing any more: it is slack.", es: "El tirante {arm} toma cada vez más carga: {before} en la prensa pareja, {after} con {arm} CERRADA {notches}. El tirante {slack} ya no carga nada: está flojo." }
    tight_rods_tight(arm, notches, before, after) { en: "Rod {arm} takes more and more of the load: {before} on the true press, {after} with {arm} IN {notches}.", es: "El tirante {arm} toma cada vez más carga: {before} en la prensa pareja, {after} con {arm} CERRADA {notches}." }
    tight_drags(arm, notches, left) { en: "Every notch IN takes its whole travel off the jaw opening. With {arm} IN {notches} only {left} is left there: the hook retainer drags.", es: "Cada ranura CERRADA quita todo su recorrido a la apertura. Con {arm} CERRADA {notches} solo quedan {left} ahí: el retén de ganchos roza." }
    tight_sticks(arm, notches, thinner) { en: "{arm} IN {notches}: the retainer sticks, and the hooks have cut into the belt, {thinner} deeper than they should. Never pry it out with hands in the press: make safe first, then as the manual says.", es: "{arm} CERRADA {notches}: el retén se atora y los ganchos cortaron la banda, {thinner} más hondo de lo debido. No lo saque a la fuerza con las manos en la prensa: asegure primero y siga el manual." }
    tight_not_mended(arm, spread) { en: "Turning the neighbors of {arm} OUT does not mend it: the best that does is a spread of {spread}, still outside. The cut hooks stay cut.", es: "ABRIR las vecinas de {arm} no lo corrige: lo mejor que se logra es una diferencia de {spread}, todavía fuera. Los ganchos que cortaron, cortaron." }
    tight_mended_profile(spread) { en: "Turning the neighbors OUT evens the profile to {spread}, but it only hides the cause: the next turns start from a press that pulls against itself.", es: "ABRIR las vecinas empareja el perfil a {spread}, pero solo tapa la causa: los próximos giros parten de una prensa que jala contra sí misma." }
    tight_still_sticks(arm) { en: "And the retainer still sticks at {arm}: its opening comes back only with its own nut.", es: "Y el retén sigue atorado en {arm}: su apertura solo vuelve con su propia tuerca." }
    tight_way_back(arm, notches, scatter) { en: "The way back: {arm} OUT {notches}, counted notch by notch from the mark. The profile does not quite return in one step: no two lacings are alike, so the pieces of a true press still differ by {scatter} on average, and a belt that was crushed and a nut that was forced do not seat as before. Lace again and measure.", es: "El regreso: {arm} ABRIR {notches}, contadas una a una desde la marca. El perfil no vuelve del todo de una vez: cada engrape varía, y las piezas de una prensa pareja aún difieren {scatter} en promedio; además, una banda aplastada y una tuerca forzada no asientan como antes. Engrape otra vez y mida." }
    tight_too_far_out(arm, notches, thicker, from) { en: "The other side: {arm} OUT {notches}. The splice is {thicker} thicker there, from notch {from} on the rod is slack and turning does nothing more. Less thread holds, the pin may miss its hole, the hooks are not clinched, and the splice pulls out.", es: "El otro lado: {arm} ABRIR {notches}. El empalme es {thicker} más grueso ahí; desde la ranura {from} el tirante está flojo y girar ya no hace nada. Sujeta menos rosca, la chaveta puede no pasar, los ganchos no quedan remachados y el empalme se zafa." }
    tight_far_out(arm, notches, thicker) { en: "The other side: {arm} OUT {notches}. The splice is {thicker} thicker there. Less thread holds, the pin may miss its hole, the hooks are not clinched, and the splice pulls out.", es: "El otro lado: {arm} ABRIR {notches}. El empalme es {thicker} más grueso ahí. Sujeta menos rosca, la chaveta puede no pasar, los ganchos no quedan remachados y el empalme se zafa." }
    tight_rule { en: "Take home: made safe before every turn. Mark nut and rod, count every notch, a few at a time, OUT before IN. Rather OUT at the thin arms than IN at the thick one. Every nut where its pin passes and enough thread holds; a pin in every nut before the press goes to work. Lace, measure, then decide.", es: "Para llevar: asegurada antes de cada giro. Marque tuerca y tirante, cuente cada ranura, pocas a la vez, primero ABRIR y luego CERRAR. Mejor ABRIR en los brazos delgados que CERRAR en el grueso. Cada tuerca donde pase la chaveta y sujete bastante rosca; una chaveta en cada tuerca antes de que la prensa trabaje. Engrape, mida y luego decida." }

    notch_found(spread, limit) { en: "A piece outside: spread {spread}, tolerance {limit}. What now?", es: "Una pieza fuera: diferencia {spread}, tolerancia {limit}. ¿Y ahora?" }
    notch_thickest(turns) { en: "The usual way: bring every arm up to the thickest, each by its own whole notches: {turns}.", es: "Lo usual: llevar cada brazo hasta el más grueso, cada uno con sus ranuras enteras: {turns}." }
    notch_left(spread, stands) { en: "The next piece: spread {spread}, {stands}.", es: "La siguiente pieza: diferencia {spread}, {stands}." }
    notch_why(notch) { en: "Why: a nut stops only on whole notches, here {notch} at its own arm, so each arm lands up to half a notch off, and two of them up to a whole one apart. And each turn moves the neighbors, which nobody counted.", es: "Por qué: una tuerca solo se detiene en ranuras enteras, aquí {notch} en su brazo, así que cada brazo queda hasta media ranura fuera, y dos de ellos hasta una entera entre sí. Además cada giro mueve a los vecinos, y nadie lo contó." }
    notch_better(turns, spread, stands) { en: "Other whole notches do better, from the same piece: {turns}. Spread {spread}, {stands}.", es: "Otras ranuras enteras lo hacen mejor, con la misma pieza: {turns}. Diferencia {spread}, {stands}." }
    notch_always(arms, notch, spread, stands) { en: "How far whole notches always reach, with {arms} equal nuts that do not move their neighbors, and {notch} a notch: {spread}, one notch less a notch shared by all {arms}; that is {stands}. Any variation from piece to piece comes on top. On a real press it is worked out for that press.", es: "Hasta dónde llegan siempre las ranuras enteras, con {arms} tuercas iguales que no mueven a sus vecinas y {notch} por ranura: {spread}, una ranura menos una ranura repartida entre las {arms}; eso está {stands}. Lo que varía cada pieza se suma. En una prensa real se calcula para esa prensa." }
    notch_rule { en: "Take home: do not aim at the thickest arm. Any thickness will do as long as all arms agree: choose the whole notches that leave the smallest spread, count what each turn does to the neighbors, and touch as few nuts as you can.", es: "Para llevar: no apunte al brazo más grueso. Cualquier grueso sirve si todos coinciden: elija las ranuras enteras que dejan la menor diferencia, cuente lo que cada giro hace a los vecinos y toque las menos tuercas posibles." }

    gauge_once(shown) { en: "One reading: {shown}. Is that the thickness?", es: "Una lectura: {shown}. ¿Es ese el grueso?" }
    gauge_repeats(count, range) { en: "The same place {count} times: the readings lie {range} apart. One reading alone does not tell you that.", es: "El mismo lugar {count} veces: las lecturas se separan {range}. Una sola lectura no lo dice." }
    gauge_lesson_step(step, share) { en: "The gauge shows whole steps of {step}, {share} of the tolerance. Whatever lies between is rounded.", es: "El instrumento muestra pasos enteros de {step}, {share} de la tolerancia. Lo que hay en medio se redondea." }
    gauge_mean(count, one, mean) { en: "The mean of several is steadier: one reading varies by {one}, the mean of {count} by {mean}. Read every arm at least twice, and lift the gauge in between.", es: "El promedio de varias es más firme: una lectura varía {one}, el promedio de {count} varía {mean}. Lea cada brazo al menos dos veces, y levante el instrumento entre una y otra." }
    gauge_seating(thicker) { en: "Not seated square: dirt under an anvil or a tilted gauge reads thicker, here by {thicker} on average, and varies more. Wipe, seat square, short-leg knuckle and long leg in one reading.", es: "Mal asentado: suciedad en el tope o un instrumento inclinado lee más grueso, aquí {thicker} en promedio, y varía más. Limpie, asiente a escuadra, ojal de pata corta y pata larga en una lectura." }
    gauge_zero_off(off) { en: "Zero not set: every arm reads {off} too thick. The spread is the same, so nobody notices, until the zero is set in the middle of a piece.", es: "Sin poner en cero: cada brazo lee {off} de más. La diferencia es la misma y nadie lo nota, hasta que se pone en cero a media pieza." }
    gauge_zero_creeps(range) { en: "A zero that creeps while you walk along the jaw looks like a taper: this level piece reads {range} from end to end.", es: "Un cero que se corre mientras avanza por la mordaza parece una inclinación: esta pieza pareja lee {range} de extremo a extremo." }
    gauge_there_and_back(range) { en: "There and back: measure from A to the last arm and back, and average at each arm. A steady drift cancels: {range} is left.", es: "Ida y vuelta: lea de A al último brazo y regrese, promedie en cada brazo. Un corrimiento parejo se cancela: quedan {range}." }
    gauge_unit(tolerance, converted, other) { en: "The unit: a tolerance of {tolerance} is {converted}, not the {other} that is also in use. Set the gauge to one unit, write the unit down, judge in that one.", es: "La unidad: una tolerancia de {tolerance} son {converted}, no los {other} que también se usan. Ponga el instrumento en una unidad, anótela y juzgue en esa." }
    gauge_rule { en: "Take home: zero before each piece and look at the zero after it, at the marks, seated square, every arm at least twice, one unit.", es: "Para llevar: cero antes de cada pieza y revise el cero al final, en las marcas, bien asentado, cada brazo al menos dos veces, una sola unidad." }
}
