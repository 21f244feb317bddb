//! The one sentence on how things stand, the line below it, and the words on
//! the main button.

use crate::plan::Forecast;
use crate::press::{ArmIndex, Notches};
use crate::session::{Gate, NextAct, NextStep, Says, Session, Stands};
use crate::splice::{NamedPattern, Pattern, Shape, WhyDoubtful};

use super::Figures;

/// What a headline speaks of.
#[derive(Debug, Clone, Copy)]
pub struct Spoken<'a> {
    /// The session.
    pub session: &'a Session,
    /// The gate of the pass.
    pub gate: &'a Gate,
    /// The shape of the pass; with turns on show that somebody chose, the
    /// shape they would leave.
    pub shape: Option<&'a Shape>,
    /// The turns on show.
    pub turns: &'a [Notches],
    /// What is foretold of the next piece after them.
    pub forecast: Option<Forecast>,
    /// The chance that this piece is really inside, where it was reckoned.
    pub this_piece: Option<f64>,
    /// The chance of the next piece with the nuts as they are.
    pub next_piece: Option<f64>,
    /// Of a piece that passes: turns that would make the next one likelier to
    /// pass, and its chance then.
    pub better_next: Option<(&'a [Notches], f64)>,
}

impl Figures {
    /// The one sentence on how things stand.
    pub fn headline(&self, step: &NextStep, of: &Spoken<'_>) -> String {
        let words = self.language;
        match step.says {
            Says::NutsLost => self.nuts_lost(&of.session.lost),
            Says::NothingLaced => words.nothing_laced().to_owned(),
            Says::Unread { turned: false } => words.nothing_read().to_owned(),
            Says::Unread { turned: true } => words.lace_new_piece().to_owned(),
            Says::BeyondNuts => words.beyond_nuts().to_owned(),
            Says::Doubtful => self.doubtful_headline(of),
            Says::Missing { .. } => self.missing_sentence(of.session, of.gate),
            Says::NothingToCompare => words.nothing_to_compare().to_owned(),
            Says::TurnsCannotBe => {
                let pass = of.gate.pass.unwrap_or_default();
                let troubles = of.session.turn_troubles(pass, of.turns);
                let mut arms: Vec<String> = troubles
                    .iter()
                    .map(|trouble| trouble.arm().to_string())
                    .collect();
                arms.dedup();
                words.turns_cannot_be(arms.join(", "))
            }
            Says::TurnsWould => self.would(of),
            Says::Passes {
                next_is_poor: false,
            } => words.stands_inside(self.limit(of.session.tolerance.length())),
            Says::Passes { next_is_poor: true } => words.stands_inside_just().to_owned(),
            Says::NotSureEnough => {
                let confidence = of.session.acceptance.confidence;
                self.not_sure_enough_sentence(of.this_piece.unwrap_or(0.0), confidence)
            }
            Says::OutsideJust => {
                let pass = of.gate.pass.unwrap_or_default();
                let stations = of.session.repeat_before_outside(pass);
                let names = |station: usize| of.session.station_name(station);
                self.repeat_before_outside_sentence(&stations, &names)
            }
            Says::Outside => of.shape.map_or_else(
                || words.shape_unread().to_owned(),
                |shape| self.shape_sentence(shape),
            ),
        }
    }

    /// What a doubt holds up.
    pub fn doubt_first(&self, gate: &Gate) -> &'static str {
        match gate.stands {
            Stands::Outside => self.language.doubt_next_outside(),
            _ => self.language.doubt_next(),
        }
    }

    fn doubtful_headline(&self, of: &Spoken<'_>) -> String {
        let words = self.language;
        if let Some(unit) = of.gate.whole_piece_unit() {
            return words.whole_piece_looks(words.unit_plural(unit));
        }
        let Some(doubt) = of.gate.doubtful.first() else {
            return String::new();
        };
        let station = of.session.station_name(doubt.station);
        match doubt.why {
            WhyDoubtful::Repeats => words.says_repeats(station),
            WhyDoubtful::Unreadable => words.says_unreadable(station),
            _ => words.says_doubtful(station),
        }
    }

    /// The line below the sentence.
    pub fn below_headline(&self, step: &NextStep, of: &Spoken<'_>) -> String {
        let words = self.language;
        match step.says {
            Says::NutsLost => return words.find_nut_how().to_owned(),
            Says::NothingLaced => return words.nothing_laced_next().to_owned(),
            Says::Unread { .. } => return words.nothing_read_next().to_owned(),
            Says::Doubtful => return self.doubt_first(of.gate).to_owned(),
            Says::Passes {
                next_is_poor: false,
            } => return words.action_accept().to_owned(),
            _ => {}
        }
        if let (Says::Passes { next_is_poor: true }, Some(chance)) = (step.says, of.next_piece) {
            let next = words.next_piece_as_it_is(self.percentage(chance));
            return match of.better_next {
                Some((turns, better)) => {
                    let offer = words.may_be_turned(self.turns(turns), self.percentage(better));
                    format!("{next} {offer}")
                }
                None => next,
            };
        }
        let tolerance = of.session.tolerance.length();
        let limit = self.limit(tolerance);
        let spread = of.gate.spread.as_ref();
        let shown = spread.map(|spread| self.with_unit(&self.spread(spread, tolerance)));
        let spread = shown.map_or_else(String::new, |shown| words.spread_and_limit(shown, limit));
        let turned = of.turns.iter().any(|turn| turn.0 != 0);
        let promises = matches!(
            step.says,
            Says::TurnsWould | Says::Outside | Says::NotSureEnough
        );
        match of.forecast.filter(|_| turned && promises) {
            // The spread as it is stands in large figures beside it.
            Some(forecast) if step.says == Says::TurnsWould => {
                let spread = self.with_unit(&self.predicted(forecast.median_nm));
                let chance = self.percentage(forecast.chance);
                words.turns_would_bring(self.turns(of.turns), spread, chance)
            }
            Some(forecast) => self.promise(of.turns, forecast),
            None => spread,
        }
    }

    /// What the turns on show would do.
    fn would(&self, of: &Spoken<'_>) -> String {
        let words = self.language;
        let chance = of.forecast.map(|forecast| forecast.chance);
        if let Some(chance) = chance.filter(|chance| *chance >= EVEN) {
            return words.would_even(self.percentage(chance));
        }
        let Some(shape) = of.shape else {
            return words.would_unknown().to_owned();
        };
        match (shape.headline(), shape.outermost) {
            (Some(named), _) if !shape.is_irregular() => self.would_leave(shape, named),
            (_, Some(ends)) => words.would_uneven(ends.thickest, ends.thinnest),
            _ => words.would_unknown().to_owned(),
        }
    }

    /// That nobody knows where these nuts stand.
    pub fn nuts_lost(&self, arms: &[ArmIndex]) -> String {
        let names: Vec<String> = arms.iter().map(ArmIndex::to_string).collect();
        self.language.nuts_lost_at(names.join(", "))
    }

    fn would_leave(&self, shape: &Shape, named: &NamedPattern) -> String {
        let words = self.language;
        let by = self.with_unit(&self.rough(named.size));
        let more = named.size.value_nm > 0.0;
        let ends = shape.read.first().zip(shape.read.last());
        match (named.pattern, more, ends) {
            (Pattern::Arm(arm), true, _) => words.would_open(arm, by),
            (Pattern::Arm(arm), false, _) => words.would_pinch(arm, by),
            (Pattern::Taper, true, Some((left, right))) => words.would_taper(right, left, by),
            (Pattern::Taper, false, Some((left, right))) => words.would_taper(left, right, by),
            (Pattern::Bow, true, _) => words.would_thick_middle(by),
            (Pattern::Bow, false, _) => words.would_thin_middle(by),
            (Pattern::Step { left, right }, true, _) => words.would_step(left, right, right, by),
            (Pattern::Step { left, right }, false, _) => words.would_step(left, right, left, by),
            (Pattern::Taper, _, None) => words.would_unknown().to_owned(),
        }
    }

    /// The words on the main button.
    pub fn act_label(&self, session: &Session, gate: &Gate, act: &NextAct) -> String {
        let words = self.language;
        let name = |station: usize| session.station_name(station);
        match act {
            NextAct::LaceFirst(station) => words.act_lace_first(name(*station)),
            NextAct::Measure(station) => words.act_measure(name(*station)),
            NextAct::Mend { station, repeat } => {
                let doubt = gate.doubt_at(*station, *repeat);
                if let Some(unit) = gate.whole_piece_unit() {
                    return words.whole_piece_cure(words.unit_plural(unit));
                }
                if let Some(likely) = doubt.and_then(|doubt| doubt.likely.as_ref()) {
                    return words.act_make_it(name(*station), self.typed(likely));
                }
                match doubt.map(|doubt| doubt.why) {
                    Some(WhyDoubtful::Repeats | WhyDoubtful::Before) => {
                        words.act_measure_again(name(*station))
                    }
                    Some(WhyDoubtful::Unreadable) => words.act_type_again(name(*station)),
                    _ => words.act_mend(name(*station)),
                }
            }
            NextAct::MeasureAgain(stations) => {
                let names: Vec<String> = stations.iter().copied().map(name).collect();
                words.act_measure_again(names.join(", "))
            }
            NextAct::FindNut(arm) => words.find_nut(arm),
            NextAct::GoAndTurn => words.go_and_turn().to_owned(),
            NextAct::PutBack => words.act_put_back().to_owned(),
            NextAct::LaceAgain => words.act_lace_again().to_owned(),
            NextAct::CheckPress => words.act_check_press().to_owned(),
            NextAct::CloseOut => words.act_close_out().to_owned(),
            NextAct::KeepWithPress => words.keep_with_press().to_owned(),
            NextAct::ShowLast => words.act_show_last().to_owned(),
            NextAct::Wait => words.thinking().to_owned(),
        }
    }
}

/// Chance from which turns are said to even the jaw.
const EVEN: f64 = 0.5;

texts! {
    lace_new_piece {
        en: "Pins as the manual says, blocks and tools out, guards on, everyone clear, own locks off: then lace a new test piece.",
        es: "Chavetas según el manual, calzas y herramientas afuera, guardas puestas, todos lejos, cada quien quita su candado: luego engrape otra pieza."
    }
    beyond_nuts {
        en: "Turning nuts will hardly change this: check the readings again.",
        es: "Girar tuercas casi no lo cambia: revise las lecturas."
    }
    act_make_it(station, likely) { en: "Change {station} to {likely}", es: "Cambiar {station} a {likely}" }
    says_repeats(station) {
        en: "Measure {station} again: its readings are too far apart.",
        es: "Mida {station} otra vez: sus lecturas difieren demasiado."
    }
    says_unreadable(station) {
        en: "Type the reading at {station} again: it is not a thickness.",
        es: "Escriba otra vez la lectura en {station}: no es un espesor."
    }
    says_doubtful(station) {
        en: "Check the reading at {station}: it can't be right.",
        es: "Revise la lectura en {station}: no puede ser correcta."
    }
    turns_cannot_be(arms) {
        en: "These turns can't be made: {arms} would go past the limit.",
        es: "Estos giros no se pueden hacer: pasan el límite en {arms}."
    }
    doubt_next_outside {
        en: "Already outside by the other arms. Clear this up first: no turns before that.",
        es: "Ya está fuera por los otros brazos. Aclare esto primero: antes no hay giros."
    }
    doubt_next {
        en: "Clear this up first: no verdict and no turns before that.",
        es: "Aclare esto primero: antes no hay veredicto ni giros."
    }
    stands_inside_just {
        en: "This piece passes, but the next one may not: the jaws are close to the limit.",
        es: "Esta pieza pasa, pero la próxima quizá no: las mordazas están cerca del límite."
    }
    next_piece_as_it_is(chance) {
        en: "If no nut is turned, the next piece has a {chance} chance of passing.",
        es: "Sin mover tuercas, la próxima pieza pasa con una probabilidad de {chance}."
    }
    may_be_turned(turns, chance) {
        en: "{turns} would make it {chance}, if you choose to turn.",
        es: "Con {turns} sería {chance}, si decide girar."
    }
    would_even(chance) {
        en: "These turns should bring every arm inside: chance {chance}.",
        es: "Estos giros deberían dejar todos los brazos dentro: probabilidad {chance}."
    }
    turns_would_bring(turns, spread, chance) {
        en: "{turns} would bring the next piece to about {spread}; chance of being inside: {chance}.",
        es: "Con {turns} la próxima pieza tendría unos {spread} de diferencia; probabilidad de quedar dentro: {chance}."
    }
    would_unknown {
        en: "It is too early to say what these turns would do.",
        es: "Aún no se puede decir qué harían estos giros."
    }
    would_pinch(arm, by) {
        en: "These turns would leave {arm} pinched: {by} thinner than beside it.",
        es: "Estos giros dejarían {arm} demasiado apretado: {by} más delgado que a su lado."
    }
    would_open(arm, by) {
        en: "These turns would leave {arm} too open: {by} thicker than beside it.",
        es: "Estos giros dejarían {arm} demasiado abierto: {by} más grueso que a su lado."
    }
    would_taper(thick, thin, by) {
        en: "These turns would leave a taper: {by} thicker at {thick} than at {thin}.",
        es: "Estos giros dejarían una cuña: {by} más grueso en {thick} que en {thin}."
    }
    would_thick_middle(by) {
        en: "These turns would leave a bow: {by} thicker in the middle than at the ends.",
        es: "Estos giros dejarían la mordaza arqueada: {by} más grueso en el centro que en los extremos."
    }
    would_thin_middle(by) {
        en: "These turns would leave a bow: {by} thinner in the middle than at the ends.",
        es: "Estos giros dejarían la mordaza arqueada: {by} más delgado en el centro que en los extremos."
    }
    would_step(left, right, thick, by) {
        en: "These turns would leave a step between {left} and {right}: {by} thicker on the {thick} side.",
        es: "Estos giros dejarían un escalón entre {left} y {right}: {by} más grueso del lado de {thick}."
    }
    would_uneven(thickest, thinnest) {
        en: "These turns would leave it uneven: thickest at {thickest}, thinnest at {thinnest}.",
        es: "Estos giros lo dejarían disparejo: más grueso en {thickest}, más delgado en {thinnest}."
    }
    nuts_lost_at(arms) {
        en: "Count lost at {arms}: nobody knows where that nut stands. Find it before you lace or turn.",
        es: "Cuenta perdida en {arms}: nadie sabe dónde está esa tuerca. Encuéntrela antes de engrapar o girar."
    }
    find_nut(arm) { en: "Find {arm}", es: "Encontrar {arm}" }
    find_nut_how {
        en: "From flush, as the manual says; no turns and nothing learned until then.",
        es: "Desde el ras, según el manual; hasta entonces no hay giros ni se aprende nada."
    }
    find_nut_count {
        en: "As the manual says: bring it flush with the end of the rod, that is 0. Count from there, one direction only, to where you leave it.",
        es: "Según el manual: llévela al ras de la punta del tirante, eso es 0. Cuente desde ahí, en un solo sentido, hasta donde la deje."
    }
    find_nut_leave(arm) { en: "Where you leave {arm}, in notches: 0 is flush, IN is minus", es: "Dónde deja {arm}, en ranuras: 0 es al ras, CERRAR es menos" }
    find_nut_first { en: "Count first, then set it with − and +", es: "Primero cuente, luego póngalo con − y +" }
    nut_found(arm, at) { en: "{arm} counted: it is at {at}", es: "{arm} contada: está en {at}" }
    nut_not_known { en: "place not known", es: "lugar desconocido" }
    act_safe_first { en: "Make safe first", es: "Primero asegurar" }
    act_lace_first(station) { en: "Lace it, then measure {station}", es: "Engrapar y medir {station}" }
    closes_out { en: "close out now", es: "terminar la visita" }
    limits_unknown { en: "No nut limits entered: check that a pin fits and enough thread holds.", es: "Sin límites de tuercas: revise que pase la chaveta y agarre suficiente rosca." }
    act_measure(station) { en: "Measure {station}", es: "Medir {station}" }
    act_measure_again(stations) { en: "Measure {stations} again", es: "Medir {stations} otra vez" }
    act_mend(station) { en: "Check the reading at {station}", es: "Revisar la lectura en {station}" }
    act_type_again(station) { en: "Type {station} again", es: "Escribir {station} otra vez" }
    act_put_back { en: "Drop this trial", es: "Descartar estos giros" }
    act_lace_again { en: "Lace the next piece", es: "Engrapar la próxima pieza" }
    act_check_press { en: "Check the press", es: "Revisar la prensa" }
    act_close_out { en: "Make safe, close out", es: "Asegurar y terminar" }
    act_show_last { en: "Go to the last pass", es: "Ir a la última pasada" }
}
