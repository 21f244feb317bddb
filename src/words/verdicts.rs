//! Sentences about chances and verdicts: this piece and this press.

use crate::session::{AcceptedBy, Confidence, Judgement, Session, Verdicts};
use crate::splice::{Settling, Verdict};

use super::trust::in_ten;
use super::{Figures, Language};

impl Figures {
    /// How likely this piece is inside, and what that is called.
    pub fn piece_verdict_sentence(&self, judgement: Judgement, confidence: Confidence) -> String {
        let words = self.language;
        let chance = self.percentage(judgement.chance);
        let called = words.called(judgement.verdict, confidence);
        words.verdict_of_piece(chance, called)
    }

    /// The same for this press.
    pub fn press_verdict_sentence(&self, judgement: Judgement, confidence: Confidence) -> String {
        let words = self.language;
        let chance = self.percentage(judgement.chance);
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

    /// A percentage as the language writes it.
    pub fn confidence(&self, confidence: Confidence) -> String {
        let per_mille = f64::from(confidence.per_mille());
        let decimals = usize::from(!confidence.per_mille().is_multiple_of(10));
        self.decimal(per_mille / 10.0, decimals)
    }
}

impl Language {
    /// A verdict with its confidence, in capitals.
    fn called(self, verdict: Verdict, confidence: Confidence) -> String {
        let percent = confidence.to_string();
        let percent = match self {
            Self::English => percent,
            Self::Spanish => percent.replace('.', ","),
        };
        match verdict {
            Verdict::Inside => self.called_inside(percent),
            Verdict::Outside => self.called_outside(percent),
            Verdict::TooClose => self.called_too_close(percent),
        }
    }

    /// What accepts a piece.
    pub fn accepted_by(self, by: AcceptedBy) -> &'static str {
        match by {
            AcceptedBy::PlainComparison => self.accepted_by_plain(),
            AcceptedBy::Confidence => self.accepted_by_confidence(),
        }
    }
}

texts! {
    called_inside(percent) {
        en: "inside, at {percent} % confidence",
        es: "dentro, con {percent} % de confianza"
    }
    called_outside(percent) {
        en: "outside, at {percent} % confidence",
        es: "fuera, con {percent} % de confianza"
    }
    called_too_close(percent) {
        en: "too close to call at {percent} % confidence",
        es: "demasiado justo para decidir con {percent} % de confianza"
    }
    verdict_of_piece(chance, called) {
        en: "This piece: chance of being really inside {chance}: {called}.",
        es: "Esta pieza: probabilidad de estar realmente dentro {chance}: {called}."
    }
    verdict_of_press(chance, called) {
        en: "The jaws as they stand, over many pieces: chance that their mean profile is inside {chance}: {called}.",
        es: "Las mordazas como están, en muchas piezas: probabilidad de que su perfil medio esté dentro {chance}: {called}."
    }
    chance_of_next_piece(chance) {
        en: "The next piece, with the nuts as they stand: chance of being inside {chance}.",
        es: "La próxima pieza, con las tuercas como están: probabilidad de estar dentro {chance}."
    }
    poor_next_piece(chance) {
        en: "This piece passes, but the next one with the nuts as they stand is more likely outside than inside: chance of being inside {chance}. Lace another before the press goes to work, or even the jaws further.",
        es: "Esta pieza pasa, pero lo más probable es que la próxima, con las tuercas como están, quede fuera: probabilidad de estar dentro {chance}. Engrape otra antes de poner la prensa a trabajar, o empareje más las mordazas."
    }
    press_one_lacing(ten) {
        en: "Whether the jaws are true over many pieces is too close to call; one more lacing without turning a nut settles it in {ten} of 10 cases.",
        es: "Si las mordazas están parejas en muchas piezas es demasiado justo para decidir; un engrapado más sin girar ninguna tuerca lo decide en {ten} de 10 casos."
    }
    press_lacings(lacings, ten) {
        en: "Whether the jaws are true over many pieces is too close to call; {lacings} more lacings without turning a nut settle it in {ten} of 10 cases.",
        es: "Si las mordazas están parejas en muchas piezas es demasiado justo para decidir; {lacings} engrapados más sin girar ninguna tuerca lo deciden en {ten} de 10 casos."
    }
    press_at_limit {
        en: "The jaws as they stand are so near the limit that a handful of further lacings will hardly settle it.",
        es: "Las mordazas como están quedan tan cerca del límite que unos pocos engrapados más difícilmente lo deciden."
    }
    verdict_plain_is_the_rule {
        en: "The plain comparison decides here; the chance only advises.",
        es: "Aquí decide la comparación simple; la probabilidad solo aconseja."
    }
    not_sure_enough(chance, percent) {
        en: "Inside by the plain comparison, but with a chance of only {chance} of being really inside; the shop asks for {percent} %.",
        es: "Dentro según la comparación simple, pero con una probabilidad de solo {chance} de estar realmente dentro; el taller pide {percent} %."
    }
    accepted_by_label { en: "A piece is accepted by", es: "Una pieza se acepta por" }
    accepted_by_plain {
        en: "the plain comparison (usual in the trade)",
        es: "la comparación simple (lo usual en el oficio)"
    }
    accepted_by_confidence {
        en: "the comparison and the confidence",
        es: "la comparación y la confianza"
    }
    field_confidence { en: "Confidence of verdicts, %", es: "Confianza de los veredictos, %" }
    no_confidence(found) {
        en: "Confidence of verdicts: expected a percentage from 50.1 to 99.9, found “{found}”.",
        es: "Confianza de los veredictos: se esperaba un porcentaje de 50,1 a 99,9 y se encontró «{found}»."
    }
}
