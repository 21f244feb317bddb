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

    /// What is to be remembered, point by point, at a step that says that.
    pub fn lesson_points(&self, says: &Says) -> Option<Vec<&'static str>> {
        let points = match says {
            Says::Tight(TightStep::Rule) => self.language.tight_rule(),
            Says::Notch(NotchStep::Rule) => self.language.notch_rule(),
            Says::Gauge(GaugeStep::Rule) => self.language.gauge_rule(),
            _ => return None,
        };
        Some(points.lines().collect())
    }

    /// A change of the splice with its sign and unit.
    pub fn lesson_change(&self, nm: f64) -> String {
        let sign = if nm < 0.0 { "−" } else { "+" };
        match nm.abs() < 1.0 {
            true => "0".to_owned(),
            false => format!("{sign}{}", self.lesson_length(nm.abs())),
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
                let own = nm(&(thinner_nm / share));
                words.tight_neighbours(arm, notches, own, neighbour, nm(thinner_nm))
            }
            TightStep::FarEnd {
                arm: far,
                thicker_nm,
                ..
            } => {
                if *thicker_nm > 0.0 {
                    words.tight_far_end(far, nm(thicker_nm))
                } else {
                    words.tight_no_far_end(far, nm(&-thicker_nm))
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
                Some(from) => words.tight_too_far_out(arm, from),
                None => words.tight_far_out(arm, notches, nm(thicker_nm)),
            },
            TightStep::Rule => words.lesson_remember().to_owned(),
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
            NotchStep::Thickest { turns: up, notch } => {
                words.notch_thickest(turns(up), self.plain(*notch))
            }
            NotchStep::Left { spread_nm, inside } => {
                words.notch_left(nm(spread_nm), stands(inside))
            }
            NotchStep::Why { arm, own_nm, notch } => {
                words.notch_why(arm, nm(own_nm), self.plain(*notch))
            }
            NotchStep::Better {
                turns: other,
                spread_nm,
                inside,
                even,
            } => {
                let (turns, spread, stands) = (turns(other), nm(spread_nm), stands(inside));
                match even {
                    true => words.notch_better(turns, spread, stands),
                    false => words.notch_better_uneven(turns, spread, stands),
                }
            }
            NotchStep::Rule => words.lesson_remember().to_owned(),
        }
    }

    fn gauge_step(&self, step: &GaugeStep) -> String {
        let words = self.language;
        let nm = |nm: &f64| self.lesson_length(*nm);
        let length = |length: &Length| self.with_unit(&self.reading(*length));
        match step {
            GaugeStep::Where => words.gauge_where().to_owned(),
            GaugeStep::Once { shown } => words.gauge_once(length(shown)),
            GaugeStep::Repeats { shown, range } => words.gauge_repeats(shown.len(), length(range)),
            GaugeStep::Step { step, share, .. } => {
                words.gauge_lesson_step(self.plain(*step), self.share(*share))
            }
            GaugeStep::Mean {
                one_nm,
                mean_nm,
                of,
            } => words.gauge_mean(of, nm(one_nm), nm(mean_nm)),
            GaugeStep::Seating {
                mean_nm, square_nm, ..
            } => words.gauge_seating(nm(mean_nm), nm(square_nm)),
            GaugeStep::ZeroOff { off_nm, .. } => words.gauge_zero_off(nm(off_nm)),
            GaugeStep::ZeroHalfway { range, .. } => words.gauge_zero_halfway(length(range)),
            GaugeStep::ZeroCreeps { range, .. } => words.gauge_zero_creeps(length(range)),
            GaugeStep::ThereAndBack { off_nm, .. } => words.gauge_there_and_back(nm(off_nm)),
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
            GaugeStep::Rule => words.lesson_remember().to_owned(),
        }
    }
}

names! {
    /// The name of a lesson.
    pub lesson_title(LessonTopic) {
        OverTightening { en: "Over-tightening a nut", es: "Apretar una tuerca de más" }
        WholeNotches { en: "Whole notches", es: "Ranuras enteras" }
        ReadingTheGauge { en: "Reading the gauge", es: "Leer el instrumento" }
    }

    /// What a lesson shows, in a line.
    pub lesson_shows(LessonTopic) {
        OverTightening { en: "What one nut does to its neighbors, the rods and the opening", es: "Lo que una tuerca hace a las vecinas, los tirantes y la apertura" }
        WholeNotches { en: "Why every arm to the thickest can fail, and what passes", es: "Por qué puede fallar llevar cada brazo al más grueso, y qué sirve" }
        ReadingTheGauge { en: "Why one reading is not the thickness", es: "Por qué una lectura no es el espesor" }
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
    lesson_as_step { en: "Back to this step's turns", es: "Volver a los giros de este paso" }
    lesson_assumed { en: "Simulated press. The jaw as a beam on rods; stiffness, rod stretch and opening assumed where not measured.", es: "Prensa simulada. Mordaza como viga sobre tirantes; rigidez, estiramiento y apertura supuestos donde no se midieron." }
    lesson_other_press { en: "Shown on an invented press with four arms: on yours the usual way does not fail like this.", es: "Se muestra en una prensa inventada de cuatro brazos: en la suya lo usual no falla así." }
    lesson_assumed_readings { en: "Simulated readings: nobody took them at your press.", es: "Lecturas simuladas: nadie las tomó en su prensa." }
    lesson_not_computed { en: "This press cannot be worked out with these nuts.", es: "Esta prensa no se puede calcular con estas tuercas." }
    lesson_load(share) { en: "{share} of the load", es: "{share} de la carga" }
    lesson_load_short(share) { en: "{share}\nof load", es: "{share}\nde carga" }
    lesson_keys { en: "Arrows: facing the rod end. Turn any nut at any step. Keys: left and right change the step; up and down turn the nut whose button has the keyboard.", es: "Flechas: de frente al tirante. Gire cualquier tuerca en cualquier paso. Teclas: izquierda y derecha cambian de paso; arriba y abajo giran la tuerca cuyo botón está elegido." }
    lesson_scale_now(now, was) { en: "{now} now, not ×{was} as before", es: "{now} ahora, ya no ×{was}" }
    lesson_opened { en: "the same jaws opened; hook retainer drawn out to the right", es: "las mismas mordazas abiertas; el retén de ganchos sale a la derecha" }
    lesson_band(limit) { en: "band: tolerance {limit}", es: "franja: tolerancia {limit}" }
    lesson_steps(step) { en: "one place again and again; lines: steps of the gauge, {step}", es: "un mismo lugar varias veces; líneas: pasos del instrumento, {step}" }
    lesson_steps_badly(step) { en: "one place, tilted or on dirt; lines: steps of the gauge, {step}", es: "un lugar, inclinado o con suciedad; líneas: pasos del instrumento, {step}" }
    lesson_steps_between(step) { en: "lines: steps of the gauge, {step}", es: "líneas: pasos del instrumento, {step}" }
    lesson_unit_piece(spread, other) { en: "one piece, its spread {spread} = {other}", es: "una misma pieza, con diferencia de {spread} = {other}" }
    lesson_nearly_slack(share) { en: "{share}:\nnearly slack", es: "{share}:\ncasi flojo" }
    lesson_slack { en: "slack", es: "flojo" }
    lesson_spread(spread, limit) { en: "Spread {spread}, tolerance {limit}", es: "Diferencia {spread}, tolerancia {limit}" }

    tight_true { en: "A true press: the splice is equally thick at every arm, the rods share the load, and the hook retainer slides out.", es: "Una prensa pareja: el empalme es igual de grueso en cada brazo, los tirantes se reparten la carga y el retén de ganchos sale." }
    tight_crushed(arm, thinner) { en: "Nut {arm} goes IN one notch: the jaw closes there and the splice comes out {thinner} thinner.", es: "Se CIERRA una ranura la tuerca {arm}: la mordaza cierra ahí y el empalme sale {thinner} más delgado." }
    tight_neighbours(arm, notches, own, neighbour, thinner) { en: "{arm} IN {notches}: the splice loses {own} there, and {thinner} at {neighbour}, where nobody touched the nut: the stiff jaw takes it along.", es: "{arm} CERRADA {notches}: ahí el empalme pierde {own}, y {thinner} en {neighbour}, donde nadie tocó la tuerca: la mordaza rígida lo arrastra." }
    tight_far_end(far, thicker) { en: "The far end rises like a see-saw: at {far} the splice is {thicker} thicker.", es: "El otro extremo sube como un balancín: en {far} el empalme engruesa {thicker}." }
    tight_no_far_end(far, thinner) { en: "On this press no end rises: even at {far}, where least is lost, the splice is {thinner} thinner.", es: "En esta prensa ningún extremo sube: hasta en {far}, donde menos se pierde, el empalme adelgaza {thinner}." }
    tight_out(arm, notches, spread, limit) { en: "From {arm} IN {notches} on the piece fails: thickest less thinnest is {spread}, and the tolerance {limit}.", es: "Desde {arm} CERRADA {notches} la pieza falla: lo más grueso menos lo más delgado son {spread}, y la tolerancia {limit}." }
    tight_rods(arm, notches, before, after, slack) { en: "{arm} IN {notches}: rod {arm} carries {after} of the load, {before} on the true press. Rod {slack} carries nothing: it is slack.", es: "{arm} CERRADA {notches}: el tirante {arm} lleva {after} de la carga; en la prensa pareja, {before}. El tirante {slack} no lleva nada: está flojo." }
    tight_rods_tight(arm, notches, before, after) { en: "{arm} IN {notches}: rod {arm} carries {after} of the load, {before} on the true press.", es: "{arm} CERRADA {notches}: el tirante {arm} lleva {after} de la carga; en la prensa pareja, {before}." }
    tight_drags(arm, notches, left) { en: "Every notch IN takes its whole travel off the opening. With {arm} IN {notches} only {left} of it is left there: the hook retainer drags.", es: "Cada ranura CERRADA quita todo su recorrido a la apertura. Con {arm} CERRADA {notches} solo quedan {left} de ella ahí: el retén de ganchos roza." }
    tight_sticks(arm, notches, thinner) { en: "{arm} IN {notches}: the retainer sticks, and the hooks cut {thinner} too deep into the belt. Never pry it out: make safe first, then as the manual says.", es: "{arm} CERRADA {notches}: el retén se atora y los ganchos cortan la banda {thinner} de más. No lo saque a la fuerza: asegure primero y siga el manual." }
    tight_not_mended(arm, spread) { en: "The neighbors turned OUT do not mend {arm}: {spread} at best, still outside.", es: "ABRIR las vecinas no corrige {arm}: {spread} en el mejor de los casos, todavía fuera." }
    tight_mended_profile(spread) { en: "Turning the neighbors OUT evens the profile to {spread}, but hides the cause: the press pulls against itself.", es: "ABRIR las vecinas empareja el perfil a {spread}, pero tapa la causa: la prensa jala contra sí misma." }
    tight_still_sticks(arm) { en: "And the retainer still sticks: the opening at {arm} comes back only with its own nut.", es: "Y el retén sigue atorado: la apertura en {arm} solo vuelve con su propia tuerca." }
    tight_way_back(arm, notches, scatter) { en: "The way back: make safe, then {arm} OUT {notches} from the mark, a few notches at a time. Lace and measure: even pieces of a true press differ by {scatter} or so.", es: "El regreso: asegure, luego {arm} ABRIR {notches} desde la marca, pocas ranuras a la vez. Engrape y mida: hasta las piezas de una prensa pareja difieren unos {scatter}." }
    tight_too_far_out(arm, from) { en: "Too far OUT is no better: from {arm} OUT {from} on the rod is slack and turning does nothing more. Hooks are not clinched, and too little thread may hold.", es: "Demasiado ABIERTA tampoco sirve: desde {arm} ABIERTA {from} el tirante está flojo y girar ya no hace nada. Los ganchos no quedan bien cerrados y puede quedar poca rosca." }
    tight_far_out(arm, notches, thicker) { en: "Too far OUT is no better: {arm} OUT {notches}, {thicker} thicker. Hooks are not clinched, and too little thread may hold.", es: "Demasiado ABIERTA tampoco sirve: {arm} ABIERTA {notches}, {thicker} más grueso. Los ganchos no quedan bien cerrados y puede quedar poca rosca." }
    tight_rule { en: "Make safe before every turn.\nMark nut and rod, and count every notch.\nA few notches at a time, OUT before IN.\nRather OUT at the thin arms than IN at the thick one.\nEvery nut where its pin passes and enough thread holds; a pin in every nut before the press goes to work.\nA retainer that sticks is never pried out.\nLace, measure, then decide.", es: "Asegure antes de cada giro.\nMarque tuerca y tirante, y cuente cada ranura.\nPocas ranuras a la vez, primero ABRIR y luego CERRAR.\nMejor ABRIR en los brazos delgados que CERRAR en el grueso.\nCada tuerca donde pase la chaveta y agarre suficiente rosca; una chaveta en cada tuerca antes de que la prensa trabaje.\nUn retén atorado nunca se saca haciendo palanca.\nEngrape, mida y luego decida." }

    notch_found(spread, limit) { en: "A piece outside: spread {spread}, tolerance {limit}. Marked: what each arm lacks of the thickest. Which nuts would you turn? Try it below.", es: "Una pieza fuera: diferencia {spread}, tolerancia {limit}. Marcado: lo que le falta a cada brazo para llegar al más grueso. ¿Qué tuercas giraría usted? Pruebe abajo." }
    notch_thickest(turns, notch) { en: "The usual way: turn each arm up by what it lacks, {notch} a notch, to the nearest whole notch: {turns}.", es: "Lo usual: subir cada brazo lo que le falta, {notch} por ranura, a la ranura entera más cercana: {turns}." }
    notch_left(spread, stands) { en: "The next piece: spread {spread}, {stands}.", es: "La siguiente pieza: diferencia {spread}, {stands}." }
    notch_why(arm, own, notch) { en: "Why: the usual way counts {notch} a notch. Alone, one notch at {arm} lifts {arm} by only {own}: the stiff jaw holds it back, and takes the other arms along.", es: "Por qué: lo usual cuenta {notch} por ranura. Sola, una ranura en {arm} levanta {arm} apenas {own}: la mordaza rígida la frena y arrastra a los otros brazos." }
    notch_better(turns, spread, stands) { en: "The same piece, counting what a turn does to every arm (marked): {turns}. Spread {spread}, {stands}, and the rods share the load.", es: "La misma pieza, contando lo que un giro hace a cada brazo (marcado): {turns}. Diferencia {spread}, {stands}, y los tirantes se reparten la carga." }
    notch_rule { en: "Make safe before every turn: power off, locked out, does not start; jaw blocked, pins out.\nDo not aim at the thickest arm: what counts is that all arms agree, at a thickness at which the hooks clinch and do not cut.\nChoose the whole notches that leave the smallest spread.\nCount what each turn does to the neighbors.\nTouch as few nuts as you can.\nA retainer that sticks is never pried out.\nLace, measure, then decide.", es: "Asegure antes de cada giro: sin corriente, con candado, probado; mordaza bloqueada, chavetas fuera.\nNo apunte al brazo más grueso: cuenta que todos coincidan, en un espesor en que los ganchos cierren sin cortar.\nElija las ranuras enteras que dejan la menor diferencia.\nCuente lo que cada giro hace a los vecinos.\nToque las menos tuercas posibles.\nUn retén atorado nunca se saca haciendo palanca.\nEngrape, mida y luego decida." }

    gauge_where { en: "Where to read: at the mark of every arm, with the anvils where it is green: on a short leg and the long leg beside it, in one reading.", es: "Dónde leer: en la marca de cada brazo, con los topes donde está verde: sobre una pata corta y la pata larga de al lado, en una sola lectura." }
    gauge_once(shown) { en: "One reading: {shown}. Is that the thickness?", es: "Una lectura: {shown}. ¿Es ese el espesor?" }
    gauge_repeats(count, range) { en: "The same place {count} times, the gauge lifted in between: the readings lie {range} apart.", es: "El mismo lugar {count} veces, levantando el instrumento entre una y otra: las lecturas se separan {range}." }
    gauge_lesson_step(step, share) { en: "The gauge shows whole steps of {step}, {share} of the tolerance. The true thickness may lie between two of them.", es: "El instrumento muestra pasos enteros de {step}, {share} de la tolerancia. El espesor verdadero puede quedar entre dos." }
    gauge_mean(count, one, mean) { en: "The average is steadier: one reading varies by {one}, the average of {count} by {mean}. Read every arm at least twice.", es: "El promedio es más firme: una lectura varía {one}, el promedio de {count} varía {mean}. Lea cada brazo al menos dos veces." }
    gauge_seating(average, square) { en: "Dirt under an anvil or a tilted gauge reads thicker and varies more: on average {average}, not {square}. Wipe, and seat it square.", es: "Con suciedad en un tope o inclinado, el instrumento lee más grueso y varía más: en promedio {average}, no {square}. Limpie y asiéntelo a escuadra." }
    gauge_zero_off(off) { en: "Zero not set: every arm reads {off} too thick. The spread stays the same, so nobody notices. Set zero before each piece.", es: "Sin poner en cero: cada brazo lee {off} de más. La diferencia es la misma y nadie lo nota. Ponga en cero antes de cada pieza." }
    gauge_zero_creeps(range) { en: "A zero that creeps while you measure along the piece looks like a taper: this level piece reads {range} thicker at its end.", es: "Un cero que se corre mientras mide a lo largo de la pieza parece una cuña: esta pieza pareja se lee {range} más gruesa al final." }
    gauge_there_and_back(off) { en: "Measure there and back, average at each arm: a steady creep cancels and the piece is level again. But it reads {off} too thick: only a good zero mends that.", es: "Mida de ida y de regreso y promedie en cada brazo: un corrimiento parejo se cancela y la pieza vuelve a ser pareja. Pero lee {off} de más: eso solo lo corrige un buen cero." }
    gauge_unit(tolerance, converted, other) { en: "A tolerance of {tolerance} is {converted}, not the {other} that is also in use. Choose one unit, write it down, judge in it.", es: "Una tolerancia de {tolerance} son {converted}, no los {other} que también se usan. Elija una unidad, anótela y juzgue en ella." }
    gauge_rule { en: "Zero before each piece, and look at the zero after it.\nWipe the anvils and seat the gauge square.\nPiece out of the press, at the marks: short-leg knuckle and long leg in one reading.\nEvery arm at least twice; there and back where the zero creeps.\nOne unit.", es: "Cero antes de cada pieza, y revise el cero al final.\nLimpie los topes y asiente el instrumento a escuadra.\nPieza fuera de la prensa, en las marcas: ojillo de pata corta y pata larga en una lectura.\nCada brazo al menos dos veces; de ida y de regreso si el cero se corre.\nUna sola unidad." }
    notch_better_uneven(turns, spread, stands) { en: "The same piece, counting what a turn does to every arm (marked): {turns}. Spread {spread}, {stands}.", es: "La misma pieza, contando lo que un giro hace a cada brazo (marcado): {turns}. Diferencia {spread}, {stands}." }
    gauge_zero_halfway(range) { en: "Then somebody sets zero halfway through the piece: a level piece now shows a step of {range}.", es: "Luego alguien pone en cero a media pieza: una pieza pareja muestra ahora un escalón de {range}." }
    lesson_remember { en: "Remember at the press:", es: "Para recordar en la prensa:" }
    lesson_key_cuts { en: "hooks cut in", es: "ganchos que cortan" }
    lesson_key_loose { en: "hooks not clinched", es: "ganchos mal cerrados" }
    lesson_key_before { en: "before the turns", es: "antes de los giros" }
    lesson_key_true { en: "a true press", es: "una prensa pareja" }
    lesson_true_value(value) { en: "truly {value}", es: "en verdad {value}" }
    lesson_average(value) { en: "average {value}", es: "promedio {value}" }
    lesson_there { en: "there", es: "ida" }
    lesson_and_back { en: "and back", es: "regreso" }
    lesson_square { en: "square", es: "a escuadra" }
    lesson_tilted { en: "tilted", es: "inclinado" }
    lesson_dirt { en: "dirt under it", es: "suciedad debajo" }
    lesson_hook { en: "hook", es: "gancho" }
    lesson_belt { en: "belt", es: "banda" }
    lesson_anvil { en: "anvil of the gauge", es: "tope del instrumento" }
    lesson_key_band { en: "tolerance", es: "tolerancia" }
    lesson_key_read { en: "what the gauge shows", es: "lo que muestra el instrumento" }
    lesson_key_truly { en: "what it truly is", es: "lo que es en verdad" }
    lesson_unit_band(own, other) { en: "{own} = {other}", es: "{own} = {other}" }
}
