//! What the sample sessions say, in the reader's language.

use crate::session::Session;
use crate::store::{OpenProblem, SampleSession};

use super::Language;

/// What the files of the samples say, and the same in Spanish.
const TEXTS: [(&str, &str); 28] = [
    // The sentence each opens on.
    (
        "Arm B is pinched: the splice is thin there and nowhere else, so the hooks cut into the belt there.",
        "El brazo B aprieta de más: el empalme queda delgado ahí y en ningún otro lado, así que ahí los ganchos cortan la banda.",
    ),
    (
        "Thick at the right end. Opening the left end a little at a time brought it true in two more pieces.",
        "Gruesa en el extremo derecho. Abriendo poco a poco el izquierdo quedó pareja con dos piezas más.",
    ),
    (
        "Somebody ran the nut at B in too far: the splice is crushed there, and the jaw hardly opens enough to take the hook retainer out. Opening margins were measured at every arm.",
        "Alguien enroscó demasiado la tuerca de B: ahí el empalme queda aplastado y la mordaza apenas abre para sacar el retén de ganchos. Se midió el margen de apertura en cada brazo.",
    ),
    (
        "A wide press that is thin in the middle; measured between the arms as well. Opening the middle arms is better than closing the ends.",
        "Prensa ancha, empalme delgado en el centro; se midió también entre los brazos. Es mejor abrir los brazos del centro que cerrar los extremos.",
    ),
    (
        "Every arm is off by part of a notch, so no whole notches reach the tolerance. Get as near as they go, then look at belt, hooks and wear.",
        "Cada brazo está fuera por una fracción de ranura, así que con ranuras enteras no se llega a la tolerancia. Acérquese lo que se pueda y luego revise banda, ganchos y desgaste.",
    ),
    (
        "True as found. The best turn is no turn: leave the nuts, put the pins back, file the record.",
        "Pareja desde el inicio. El mejor giro es ninguno: deje las tuercas, ponga las chavetas y archive el registro.",
    ),
    (
        "Measured in millimeters, judged by 0.1 mm. Exactly at the limit passes, but only just: the next piece may not.",
        "Medida en milímetros, juzgada con 0.1 mm. Justo en el límite pasa, pero apenas: la siguiente pieza puede no pasar.",
    ),
    ("As left; pins back in.", "Estado final; chavetas puestas."),
    // Who, which press, with what.
    ("R. Alder (invented)", "R. Alder (inventado)"),
    (
        "Press 1, Elm Row shop (invented)",
        "Prensa 1, taller Elm Row (inventado)",
    ),
    (
        "Press 2, Elm Row shop (invented)",
        "Prensa 2, taller Elm Row (inventado)",
    ),
    (
        "Press 3, Elm Row shop (invented)",
        "Prensa 3, taller Elm Row (inventado)",
    ),
    (
        "Press 4, Elm Row shop (invented)",
        "Prensa 4, taller Elm Row (inventado)",
    ),
    (
        "Press 5, Elm Row shop (invented)",
        "Prensa 5, taller Elm Row (inventado)",
    ),
    (
        "Press 6, Elm Row shop (invented)",
        "Prensa 6, taller Elm Row (inventado)",
    ),
    (
        "Press 7, Elm Row shop (invented)",
        "Prensa 7, taller Elm Row (inventado)",
    ),
    ("Digital caliper", "Calibrador digital"),
    ("Micrometer", "Micrómetro"),
    ("two-ply, 42″ wide", "dos capas, 42″ de ancho"),
    ("two-ply, 48″ wide", "dos capas, 48″ de ancho"),
    ("two-ply, 54″ wide", "dos capas, 54″ de ancho"),
    ("two-ply, 36″ wide", "dos capas, 36″ de ancho"),
    ("three-ply, 60″ wide", "tres capas, 60″ de ancho"),
    ("three-ply, 1200 mm wide", "tres capas, 1200 mm de ancho"),
    ("light belt, 30″ wide", "banda ligera, 30″ de ancho"),
    ("small wire", "alambre chico"),
    ("medium wire", "alambre mediano"),
    ("heavy wire", "alambre grueso"),
];

impl Language {
    /// A sample session, its texts in this language.
    ///
    /// # Errors
    /// Never for a program that was built whole: a test opens them all.
    pub fn sample_session(self, sample: SampleSession) -> Result<Session, OpenProblem> {
        let mut session = sample.session()?;
        if self == Self::Spanish {
            texts_of(&mut session).for_each(translate);
        }
        Ok(session)
    }
}

/// Everything a sample says in words.
fn texts_of(session: &mut Session) -> impl Iterator<Item = &mut String> {
    let notes = &mut session.notes;
    let visit = [
        &mut notes.who,
        &mut notes.belt,
        &mut notes.hooks,
        &mut notes.notes,
        &mut session.press.name,
        &mut session.gauge.name,
    ];
    visit
        .into_iter()
        .chain(session.passes.iter_mut().map(|pass| &mut pass.note))
}

fn translate(text: &mut String) {
    if let Some((_, spanish)) = TEXTS.iter().find(|(english, _)| english == text) {
        *text = (*spanish).to_owned();
    }
}

#[cfg(test)]
mod tests {
    use std::collections::HashSet;

    use super::*;

    #[test]
    fn whatever_a_sample_says_is_said_in_spanish() {
        let mut said = HashSet::new();
        for sample in SampleSession::ALL {
            let mut session = sample.session().unwrap();
            said.extend(texts_of(&mut session).map(|text| text.clone()));
        }
        said.remove("");
        let known: HashSet<_> = TEXTS
            .iter()
            .map(|(english, _)| (*english).to_owned())
            .collect();
        assert_eq!(said, known);
    }
}
