//! The words of the trade as this program uses them: one word for one thing,
//! in both languages, each explained in one plain sentence.

use super::Language;

/// How a language says a word.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Said {
    /// The word.
    pub name: &'static str,
    /// What it means, in one plain sentence.
    pub meaning: &'static str,
    /// Other words for the same thing, which no other text uses.
    pub also: &'static [&'static str],
}

/// A row of the table.
struct Row {
    word: Word,
    en: Said,
    es: Said,
}

const fn said(name: &'static str, meaning: &'static str, also: &'static [&'static str]) -> Said {
    Said {
        name,
        meaning,
        also,
    }
}

macro_rules! glossary {
    ($($word:ident { en: ($($en:expr),+), es: ($($es:expr),+) })*) => {
        /// A word that is explained.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
        #[allow(missing_docs, reason = "each is explained in the table below")]
        pub enum Word { $($word),* }

        /// The table, what belongs together beside each other.
        const GLOSSARY: &[Row] = &[
            $(Row { word: Word::$word, en: said($($en),+), es: said($($es),+) }),*
        ];
    };
}

glossary! {
    OutAndIn {
        en: ("OUT, IN", "OUT backs the nut off: the jaw opens there and the splice gets thicker. IN runs it in: thinner.", &[]),
        es: ("ABRIR, CERRAR", "ABRIR afloja la tuerca: la mordaza abre ahí y el empalme engruesa. CERRAR la enrosca: adelgaza.", &[])
    }
    Belt {
        en: ("belt", "The conveyor belt. Its ends are laced and joined.", &[]),
        es: ("banda", "La banda transportadora. Sus extremos se engrapan y se unen.", &["correa", "cinta"])
    }
    Splice {
        en: ("splice", "Where two belt ends are joined with hooks and a pin.", &["joint"]),
        es: ("empalme", "Donde se unen dos extremos de banda con ganchos y un pasador.", &["junta"])
    }
    Lace {
        en: ("lace", "Press hooks into a belt end. One pressing is one lacing.", &[]),
        es: ("engrapar, engrape", "Meter a presión los ganchos en el extremo de la banda.", &["engrapado", "grapado"])
    }
    TestPiece {
        en: ("test piece", "A full-width piece of belt, laced only to be measured.", &["coupon"]),
        es: ("pieza de prueba", "Un pedazo de banda de todo el ancho que se engrapa solo para medirlo.", &["probeta"])
    }
    Pass {
        en: ("pass", "One test piece with its readings and the nut positions it was laced with.", &[]),
        es: ("pasada", "Una pieza de prueba con sus lecturas y la posición de las tuercas al engraparla.", &[])
    }
    Visit {
        en: ("visit", "The work on one press from as found to as left, kept in one file (*.jawtrue).", &[]),
        es: ("visita", "El trabajo en una prensa, del estado inicial al final, en un solo archivo (*.jawtrue).", &[])
    }
    MeasuringPoint {
        en: ("measuring point", "A place along the jaw where the splice is measured: the center of every arm, and others you add.", &["station"]),
        es: ("punto de medición", "Un lugar de la mordaza donde se mide el empalme: el centro de cada brazo y otros que usted agregue.", &["estación"])
    }
    Knuckle {
        en: ("knuckle", "The round part of a hook, where the pin goes through.", &["loop"]),
        es: ("ojillo del gancho", "La parte redonda del gancho, por donde pasa el pasador.", &["nudillo"])
    }
    Spread {
        en: ("spread", "The thickest average minus the thinnest, high minus low. This is what the tolerance limits.", &[]),
        es: ("diferencia máxima", "El promedio más grueso menos el más delgado. Es lo que limita la tolerancia. En corto: diferencia.", &[])
    }
    ToleranceBand {
        en: ("tolerance band", "A band as tall as the tolerance. It slides up and down: if every arm fits into it, the piece is inside.", &[]),
        es: ("franja de tolerancia", "Una franja tan alta como la tolerancia. Sube y baja: si todos los brazos caben, la pieza está dentro.", &["banda de tolerancia"])
    }
    JawsTrue {
        en: ("true", "Jaws are true when they press the splice to the same thickness at every arm, within the tolerance.", &[]),
        es: ("parejas", "Las mordazas están parejas cuando dejan el mismo espesor en todos los brazos, dentro de la tolerancia.", &[])
    }
    Taper {
        en: ("taper", "The splice gets steadily thicker from one end to the other.", &[]),
        es: ("cuña", "El empalme engruesa de un extremo al otro.", &[])
    }
    Bow {
        en: ("bow", "The middle is thicker or thinner than both ends.", &[]),
        es: ("mordaza arqueada", "El centro queda más grueso o más delgado que los dos extremos.", &["comba"])
    }
    Arm {
        en: ("arm", "A frame arm with its tie rod and castle nut. Arms are lettered A, B, C from the operator's left.", &[]),
        es: ("brazo", "Un brazo del bastidor con su tirante y su tuerca castillo. Se nombran A, B, C desde la izquierda del operador.", &[])
    }
    TieRod {
        en: ("tie rod", "The rod that holds the stationary jaw at an arm.", &[]),
        es: ("tirante", "La barra que sostiene la mordaza fija en un brazo.", &["varilla", "tensor"])
    }
    CastleNut {
        en: ("castle nut", "The slotted nut on a tie rod. It sets the jaw at its arm and can stop only where a pin fits through.", &["castellated nut"]),
        es: ("tuerca castillo", "La tuerca con ranuras del tirante. Ajusta la mordaza en su brazo y solo puede quedar donde pase la chaveta.", &["tuerca almenada", "tuerca de corona"])
    }
    CotterPin {
        en: ("cotter pin", "The split pin that keeps a castle nut from turning.", &[]),
        es: ("chaveta", "El pasador de aletas que no deja girar la tuerca castillo.", &["pasador de aletas"])
    }
    Notch {
        en: ("notch", "One slot of a castle nut: the smallest turn that lets a pin in again.", &["slot"]),
        es: ("ranura", "Una ranura de la tuerca castillo: el giro más pequeño que deja entrar otra vez la chaveta.", &["muesca", "almena"])
    }
    Flush {
        en: ("flush", "The nut ends level with the end of its rod: position 0. Further in is minus.", &[]),
        es: ("al ras", "La tuerca queda pareja con el extremo del tirante: posición 0. Más adentro es menos.", &[])
    }
    ThicknessPerNotch {
        en: ("thickness per notch", "How much thicker the splice gets when every nut goes OUT one notch.", &["notch effect"]),
        es: ("espesor por ranura", "Cuánto engruesa el empalme cuando todas las tuercas van una ranura a ABRIR.", &["efecto por ranura"])
    }
    RoughGap {
        en: ("rough gap", "The gap between the jaws at full stroke, set even before any belt is laced.", &["coarse gap"]),
        es: ("abertura inicial", "La abertura entre mordazas a carrera completa, que se empareja antes de engrapar.", &["abertura gruesa"])
    }
    OpeningMargin {
        en: ("opening margin", "How much further the jaw opens at an arm than the hook retainer needs to come out.", &[]),
        es: ("margen de apertura", "Cuánto más abre la mordaza en un brazo de lo que pide el retén de ganchos para salir.", &[])
    }
    HookRetainer {
        en: ("hook retainer", "The holder that keeps the hooks in place while they are pressed in; it comes out after lacing.", &[]),
        es: ("retén de ganchos", "La pieza que sujeta los ganchos mientras se engrapan; se saca después.", &["portaganchos"])
    }
    CommonHandle {
        en: ("common handle", "The handle that moves the jaw at all arms at once. Use it only as the manual says.", &[]),
        es: ("manija común", "La manija que mueve la mordaza en todos los brazos a la vez. Úsela solo como dice el manual.", &["manivela"])
    }
    JawDrive {
        en: ("jaw drive", "What moves the jaw along its whole length, such as chains and sprockets.", &[]),
        es: ("transmisión", "Lo que mueve la mordaza en todo su largo, como cadenas y piñones.", &["mando de cadenas"])
    }
    Sprocket {
        en: ("sprocket", "A toothed wheel that a chain runs on. An idler sprocket only guides the chain.", &[]),
        es: ("piñón", "Una rueda dentada por la que corre una cadena. Un piñón loco solo guía la cadena.", &["catarina"])
    }
    Chance {
        en: ("chance", "How likely a piece is to be inside the tolerance: of 100 such pieces, so many would pass.", &["probability"]),
        es: ("probabilidad", "Qué tan probable es que una pieza quede dentro de la tolerancia: de 100 piezas así, tantas pasarían.", &[])
    }
    Predicted {
        en: ("9 of 10 under", "Of ten such pieces, nine should have a spread under this figure.", &[]),
        es: ("9 de 10, máximo", "De diez piezas así, nueve deberían quedar con una diferencia menor que esta cifra.", &[])
    }
    Target {
        en: ("target thickness", "The thickness the splice should have overall. Turning nuts does not set it; the common handle does.", &[]),
        es: ("espesor deseado", "El espesor general que debe tener el empalme. No se ajusta con las tuercas, sino con la manija común.", &[])
    }
    AsFoundAsLeft {
        en: ("as found, as left", "The first and the last pass of a visit.", &[]),
        es: ("inicial, final", "La primera y la última pasada de una visita.", &[])
    }
    Gauge {
        en: ("gauge", "The micrometer or caliper the splice is measured with.", &[]),
        es: ("instrumento", "El micrómetro o calibrador con el que se mide el empalme.", &["vernier"])
    }
    Resolution {
        en: ("resolution", "The smallest difference the gauge shows.", &["gauge step"]),
        es: ("resolución", "La diferencia más pequeña que muestra el instrumento.", &["división"])
    }
    Accuracy {
        en: ("accuracy", "How far off the gauge may be. An error that all readings share does not change the spread.", &["limit of error"]),
        es: ("exactitud", "Cuánto puede equivocarse el instrumento. Un error igual en todas las lecturas no cambia la diferencia.", &["límite de error"])
    }
    Repeatability {
        en: ("repeatability", "How far readings vary when the same knuckle is measured again and again.", &[]),
        es: ("repetibilidad", "Cuánto varían las lecturas al medir una y otra vez el mismo ojillo.", &[])
    }
    Variation {
        en: ("variation from lacing to lacing", "How far two lacings differ although no nut was turned.", &["scatter"]),
        es: ("variación entre engrapes", "Cuánto difieren dos engrapes aunque no se gire ninguna tuerca.", &["dispersión"])
    }
    Drift {
        en: ("drift", "Readings that slowly creep up or down while you measure. Of a press: jaws that slowly get out of true from visit to visit.", &[]),
        es: ("irse recorriendo", "Lecturas que suben o bajan poco a poco mientras se mide.", &["deriva"])
    }
    LockOut {
        en: ("locked out, tried: does not start", "Your own lock and tag on every supply, stored energy released or blocked, and the start button tried: nothing moves.", &[]),
        es: ("con candado y probado", "Su propio candado y etiqueta en cada fuente, sin energía acumulada, y una prueba de que nada se mueve.", &[])
    }
}

impl Language {
    /// Every word of the table, to be looked up by its first letter.
    pub fn glossary(self) -> Vec<Said> {
        let mut words: Vec<Said> = GLOSSARY.iter().map(|row| row.in_language(self)).collect();
        words.sort_by_key(|word| word.name.to_lowercase());
        words
    }

    /// A word and its meaning, for whoever points at it.
    pub fn explain(self, word: Word) -> String {
        let row = GLOSSARY.iter().find(|row| row.word == word);
        row.map_or_else(String::new, |row| {
            let said = row.in_language(self);
            self.word_means(said.name, said.meaning)
        })
    }
}

impl Row {
    fn in_language(&self, language: Language) -> Said {
        match language {
            Language::English => self.en,
            Language::Spanish => self.es,
        }
    }
}

texts! {
    glossary_title { en: "What the words mean", es: "Qué significan las palabras" }
    word_means(name, meaning) { en: "{name}: {meaning}", es: "{name}: {meaning}" }
    word_also(line, others) { en: "{line} Also called: {others}.", es: "{line} También se dice: {others}." }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_word_stands_once_and_is_explained_in_a_sentence() {
        for language in Language::ALL {
            let mut names: Vec<&str> = language.glossary().iter().map(|word| word.name).collect();
            names.sort_unstable();
            let all = names.len();
            names.dedup();
            assert_eq!(names.len(), all);
            for word in language.glossary() {
                assert!(word.meaning.ends_with('.'), "{}", word.name);
                assert!(word.meaning.chars().count() <= 120, "{}", word.name);
            }
        }
        for row in GLOSSARY {
            assert!(Language::English.explain(row.word).starts_with(row.en.name));
        }
    }
}
