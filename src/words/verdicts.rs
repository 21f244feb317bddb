//! Sentences about chances and verdicts: this piece and this press.

use crate::session::{AcceptedBy, Confidence, Gate, Judgement, Session, Stands, Verdicts};
use crate::splice::{Settling, Verdict};

use super::trust::in_ten;
use super::{Figures, Language};

impl Figures {
    /// How likely this piece is inside, and what that is called.
    pub fn piece_verdict_sentence(&self, judgement: Judgement, confidence: Confidence) -> String {
        let words = self.language;
        let chance = self.percentage_against(judgement.chance, confidence);
        let called = words.called(judgement.verdict, confidence);
        words.verdict_of_piece(chance, called)
    }

    /// The same for this press.
    pub fn press_verdict_sentence(&self, judgement: Judgement, confidence: Confidence) -> String {
        let words = self.language;
        let chance = self.percentage_against(judgement.chance, confidence);
        let called = words.called(judgement.verdict, confidence);
        words.verdict_of_press(chance, called)
    }

    /// How likely the next piece is inside; where it is more likely outside,
    /// what to do about a piece that passes all the same.
    pub fn next_piece_sentence(&self, verdicts: &Verdicts, accepted: bool) -> String {
        let chance = self.percentage(verdicts.next_piece);
        if accepted && verdicts.poor_next_piece().is_some() {
            return self.language.poor_next_piece(chance);
        }
        self.language.chance_of_next_piece(chance)
    }

    /// What would settle the verdicts that are too close to call, a sentence
    /// each; none where both are settled.
    pub fn settling_sentences(&self, session: &Session, verdicts: &Verdicts) -> Vec<String> {
        let words = self.language;
        let names = |station: usize| session.station_name(station);
        let mut sentences = Vec::new();
        if !matches!(verdicts.settles_piece, Settling::Settled(_)) {
            sentences.push(self.settling_sentence(&verdicts.settles_piece, &names));
        }
        match verdicts.settles_press {
            Settling::FurtherLacings { lacings: 1, cases } => {
                sentences.push(words.press_one_lacing(in_ten(cases)));
            }
            Settling::FurtherLacings { lacings, cases } => {
                sentences.push(words.press_lacings(lacings, in_ten(cases)));
            }
            Settling::AtTheLimit => sentences.push(words.press_at_limit().to_owned()),
            _ => {}
        }
        sentences
    }

    /// Spread, tolerance and plain comparison of a pass, or what is missing or
    /// doubtful before them.
    pub fn judged(&self, session: &Session, gate: &Gate) -> String {
        let words = self.language;
        let tolerance = session.tolerance.length();
        let name = |station: usize| session.station_name(station);
        let mut sentences = self.gate_sentences(session, gate);
        if let Some(spread) = &gate.spread {
            let shown = self.with_unit(&self.spread(spread, tolerance));
            sentences.push(words.spread_and_limit(shown, self.limit(tolerance)));
            match gate.stands {
                Stands::Inside => sentences.push(words.stands_inside(self.limit(tolerance))),
                Stands::Outside => {
                    let ends = (name(spread.thickest), name(spread.thinnest));
                    sentences.push(words.stands_outside(ends.0, ends.1));
                    let again = gate.pass.map(|pass| session.repeat_before_outside(pass));
                    if let Some(again) = again.filter(|again| !again.is_empty()) {
                        sentences.push(self.repeat_before_outside_sentence(&again, &name));
                    }
                }
                Stands::NotLaced | Stands::Unread | Stands::Open => {}
            }
        }
        sentences.join(" ")
    }

    /// What is likely of this piece, this press and the next piece, and what
    /// would settle it.
    pub fn verdict_sentences(
        &self,
        session: &Session,
        gate: &Gate,
        verdicts: &Verdicts,
    ) -> Vec<String> {
        let inside = gate.stands == Stands::Inside;
        let chance = verdicts.piece.chance;
        let accepted = session.acceptance.accepts(inside, Some(chance));
        let mut sentences = vec![
            self.piece_verdict_sentence(verdicts.piece, verdicts.confidence),
            self.press_verdict_sentence(verdicts.press, verdicts.confidence),
            self.next_piece_sentence(verdicts, accepted),
        ];
        if inside && !accepted {
            let asked = session.acceptance.confidence;
            sentences.push(self.not_sure_enough_sentence(chance, asked));
        }
        sentences.extend(self.settling_sentences(session, verdicts));
        if session.acceptance.by == AcceptedBy::PlainComparison
            && verdicts.piece.verdict == Verdict::TooClose
            && verdicts.settles_piece != Settling::AtTheLimit
        {
            sentences.push(self.language.verdict_plain_is_the_rule().to_owned());
        }
        sentences
    }

    /// That a piece is inside by the plain comparison, but not as surely as the
    /// shop asks.
    pub fn not_sure_enough_sentence(&self, chance: f64, confidence: Confidence) -> String {
        let shown = self.percentage_against(chance, confidence);
        self.language
            .not_sure_enough(shown, self.confidence(confidence))
    }
}

impl Language {
    /// A verdict with its confidence, in capitals.
    fn called(self, verdict: Verdict, confidence: Confidence) -> String {
        let percent = self.confidence(confidence);
        match verdict {
            Verdict::Inside => self.called_inside(percent),
            Verdict::Outside => self.called_outside(percent),
            Verdict::TooClose => self.called_too_close(percent),
        }
    }

    /// How close a call the plain comparison is, in a plain sentence.
    pub fn how_close(self, inside: bool, verdict: Verdict) -> &'static str {
        match (inside, verdict) {
            (true, Verdict::Inside) | (false, Verdict::Outside) => self.sure_enough(),
            (true, Verdict::TooClose) => self.close_may_be_outside(),
            (false, Verdict::TooClose) => self.close_may_be_inside(),
            (true, Verdict::Outside) => self.rather_outside(),
            (false, Verdict::Inside) => self.rather_inside(),
        }
    }
}

names! {
    /// What accepts a piece.
    pub accepted_by(AcceptedBy) {
        PlainComparison {
            en: "its spread is inside the tolerance (usual in the trade)",
            es: "su diferencia está dentro de la tolerancia (lo usual en el oficio)"
        }
        Confidence {
            en: "its spread is inside the tolerance, and that is sure",
            es: "su diferencia está dentro de la tolerancia, y hay certeza"
        }
    }
}

texts! {
    how_sure { en: "How sure is that?", es: "¿Qué tan cierto es?" }
    how_sure_short { en: "How sure?", es: "¿Qué tan cierto?" }
    sure_though_coarse(u, verdict) { en: "± {u} with this coarse gauge: still {verdict}.", es: "± {u} con este instrumento de poca resolución: aun así, {verdict}." }
    sure_enough { en: "The readings leave little doubt.", es: "Las lecturas dejan poca duda." }
    repeats_apart(station, by) { en: "Readings at {station} are {by} apart: read it again.", es: "Las lecturas en {station} difieren {by}: mida ahí otra vez." }
    spread_give_or_take(spread, u, limit) { en: "Spread {spread} ± {u}, limit {limit}", es: "Diferencia {spread} ± {u}, límite {limit}" }
    give_or_take_sure(percent) { en: "±: how far off these readings may be, {percent} sure", es: "±: cuánto pueden fallar estas lecturas, con {percent} de certeza" }
    close_may_be_outside { en: "A close call: it may really be outside.", es: "Muy cerca del límite: puede que esté fuera." }
    close_may_be_inside { en: "A close call: it may really be inside.", es: "Muy cerca del límite: puede que esté dentro." }
    rather_outside { en: "Taken together, the readings say it is more likely outside.", es: "En conjunto, las lecturas dicen que más bien está fuera." }
    rather_inside { en: "Taken together, the readings say it is more likely inside.", es: "En conjunto, las lecturas dicen que más bien está dentro." }
    called_inside(percent) {
        en: "inside, at least {percent} sure",
        es: "dentro, con certeza de {percent} o más"
    }
    called_outside(percent) {
        en: "outside, at least {percent} sure",
        es: "fuera, con certeza de {percent} o más"
    }
    called_too_close(percent) {
        en: "too close to call, as {percent} sure is asked for",
        es: "muy cerca del límite, pues se pide certeza de {percent}"
    }
    verdict_of_piece(chance, called) {
        en: "This piece: {called}. Chance that it is really inside: {chance}.",
        es: "Esta pieza: {called}. Probabilidad de que de verdad esté dentro: {chance}."
    }
    verdict_of_press(chance, called) {
        en: "The jaws as they are now, over many pieces: {called}. Chance that they are inside on average: {chance}.",
        es: "Las mordazas como están, pieza tras pieza: {called}. Probabilidad de que en promedio queden dentro: {chance}."
    }
    chance_of_next_piece(chance) {
        en: "The next piece, if no nut is turned: {chance} chance of being inside.",
        es: "La próxima pieza, sin girar tuercas: probabilidad de quedar dentro: {chance}."
    }
    poor_next_piece(chance) {
        en: "This piece passes, but if no nut is turned the next one is more likely outside than inside ({chance} chance of being inside). Lace another before the press goes to work, or even out the jaws further.",
        es: "Esta pieza pasa, pero sin girar tuercas lo más probable es que la próxima quede fuera (probabilidad de quedar dentro: {chance}). Engrape otra antes de poner la prensa a trabajar, o empareje más las mordazas."
    }
    press_one_lacing(ten) {
        en: "Whether the jaws are true over many pieces is too close to call; one more lacing without turning a nut decides it in {ten} of 10 cases.",
        es: "Si las mordazas están parejas en muchas piezas está muy cerca del límite para decidir; un engrape más sin girar ninguna tuerca lo decide en {ten} de 10 casos."
    }
    press_lacings(lacings, ten) {
        en: "Whether the jaws are true over many pieces is too close to call; {lacings} more lacings without turning a nut decide it in {ten} of 10 cases.",
        es: "Si las mordazas están parejas en muchas piezas está muy cerca del límite para decidir; {lacings} engrapes más sin girar ninguna tuerca lo deciden en {ten} de 10 casos."
    }
    press_at_limit {
        en: "The jaws are so close to the limit that a few more lacings will hardly decide it.",
        es: "Las mordazas están tan cerca del límite que unos pocos engrapes más difícilmente lo deciden."
    }
    verdict_plain_is_the_rule {
        en: "Spread against limit decides here; the chance only advises.",
        es: "Aquí decide la diferencia contra el límite; la probabilidad solo aconseja."
    }
    not_sure_enough(chance, percent) {
        en: "The spread is inside the limit, but the chance that this piece is really inside is {chance}; your shop asks for {percent}.",
        es: "La diferencia está dentro del límite, pero la probabilidad de que esta pieza realmente esté dentro es {chance}; su taller pide {percent}."
    }
    accepted_by_label { en: "A piece is accepted when", es: "Una pieza se acepta cuando" }
    field_confidence { en: "How sure before calling it, %", es: "Certeza exigida, %" }
    no_confidence(found) {
        en: "How sure before calling it: enter a percentage from 50.1 to 99.9; “{found}” is not one.",
        es: "Certeza exigida: escriba un porcentaje de 50.1 a 99.9; «{found}» no lo es."
    }
}
