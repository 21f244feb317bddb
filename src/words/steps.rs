//! What every fixed step of the visit asks for, why, and what to watch for.

use crate::press::customary;
use crate::session::Step;

use super::Figures;

/// The words of one step.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StepWords {
    /// What it asks for.
    pub text: String,
    /// Why.
    pub why: String,
    /// What to watch for.
    pub watch: String,
}

impl Figures {
    /// The words of a fixed step.
    pub fn step(&self, step: Step) -> StepWords {
        let words = self.language;
        let [text, why, watch] = match step {
            Step::OthersTold => [
                words.others_told(),
                words.others_told_why(),
                words.others_told_watch(),
            ],
            Step::PowerOff => [
                words.power_off(),
                words.power_off_why(),
                words.power_off_watch(),
            ],
            Step::LockedOut => [
                words.locked_out(),
                words.locked_out_why(),
                words.locked_out_watch(),
            ],
            Step::PressureReleased => [
                words.pressure_released(),
                words.pressure_released_why(),
                words.pressure_released_watch(),
            ],
            Step::Tried => [words.tried(), words.tried_why(), words.tried_watch()],
            Step::NutsMarked => [
                words.nuts_marked(),
                words.nuts_marked_why(),
                words.nuts_marked_watch(),
            ],
            Step::PinsOut => [
                words.pins_out(),
                words.pins_out_why(),
                words.pins_out_watch(),
            ],
            Step::NutsFree => [
                words.nuts_free(),
                words.nuts_free_why(),
                words.nuts_free_watch(),
            ],
            Step::NutsFlush => [
                words.nuts_flush(),
                words.nuts_flush_why(),
                words.nuts_flush_watch(),
            ],
            Step::GapMeasured => [
                words.gap_measured(),
                words.gap_measured_why(),
                words.gap_measured_watch(),
            ],
            Step::GapEven => {
                let text = words.gap_even(self.plain(customary::COARSE_GAP));
                return StepWords {
                    text,
                    why: words.gap_even_why().to_owned(),
                    watch: words.gap_even_watch().to_owned(),
                };
            }
            Step::ChainsTaut => [
                words.chains_taut(),
                words.chains_taut_why(),
                words.chains_taut_watch(),
            ],
            Step::SprocketNutsSnug => [
                words.sprocket_nuts_snug(),
                words.sprocket_nuts_snug_why(),
                words.sprocket_nuts_snug_watch(),
            ],
            Step::DriveNoted => [
                words.drive_noted(),
                words.drive_noted_why(),
                words.drive_noted_watch(),
            ],
            Step::PinsForTest => [
                words.pins_for_test(),
                words.pins_for_test_why(),
                words.pins_for_test_watch(),
            ],
            Step::ClearForTest | Step::ClearForRelace => [
                words.clear_for_power(),
                words.clear_for_power_why(),
                words.clear_for_power_watch(),
            ],
            Step::TestPieceLaced => [
                words.test_piece_laced(),
                words.test_piece_laced_why(),
                words.test_piece_laced_watch(),
            ],
            Step::TestPieceMarked | Step::RelaceMarked => [
                words.test_piece_marked(),
                words.test_piece_marked_why(),
                words.test_piece_marked_watch(),
            ],
            Step::ReadTogether => [
                words.read_together(),
                words.read_together_why(),
                words.read_together_watch(),
            ],
            Step::EveryArmRead => [
                words.every_arm_read(),
                words.every_arm_read_why(),
                words.every_arm_read_watch(),
            ],
            Step::JawUnloaded => [
                words.jaw_unloaded(),
                words.jaw_unloaded_why(),
                words.jaw_unloaded_watch(),
            ],
            Step::OutsThenIns => [
                words.outs_then_ins(),
                words.outs_then_ins_why(),
                words.outs_then_ins_watch(),
            ],
            Step::CountedFromMarks => [
                words.counted_from_marks(),
                words.counted_from_marks_why(),
                words.counted_from_marks_watch(),
            ],
            Step::RelacePiece => [
                words.relace_piece(),
                words.relace_piece_why(),
                words.relace_piece_watch(),
            ],
            Step::PinsIn => [words.pins_in(), words.pins_in_why(), words.pins_in_watch()],
            Step::Cleaned => [words.cleaned(), words.cleaned_why(), words.cleaned_watch()],
            Step::ClearForWork => [
                words.clear_for_work(),
                words.clear_for_work_why(),
                words.clear_for_work_watch(),
            ],
            Step::RecordFiled => [
                words.record_filed(),
                words.record_filed_why(),
                words.record_filed_watch(),
            ],
        };
        StepWords {
            text: text.to_owned(),
            why: why.to_owned(),
            watch: watch.to_owned(),
        }
    }
}

texts! {
    power_off { en: "Switch the press off at its disconnect", es: "Corte la corriente en el desconectador" }
    power_off_why { en: "Only the disconnect cuts the power; a stop button does not.", es: "Solo el desconectador corta la corriente; un botón de paro no." }
    power_off_watch { en: "There may be more than one supply: electric, air, hydraulic.", es: "Puede haber más de una alimentación: eléctrica, aire, hidráulica." }
    locked_out { en: "Lock it out and hang your tag", es: "Ponga su candado y su etiqueta" }
    locked_out_why { en: "Nobody can switch it on while your hands are in it.", es: "Nadie puede conectarla mientras usted tiene las manos adentro." }
    locked_out_watch { en: "Your own lock, the key in your own pocket; everyone who works on it hangs their own.", es: "Su propio candado y la llave en su bolsillo; cada persona que trabaja en la prensa pone el suyo." }
    pressure_released { en: "Release or block stored pressure; lower or block whatever could move", es: "Libere o bloquee la presión acumulada; baje o bloquee lo que pueda moverse" }
    pressure_released_why { en: "With the power off, a line or a raised jaw can still have force in it.", es: "Sin corriente, una línea o una mordaza levantada todavía pueden tener fuerza." }
    pressure_released_watch { en: "The pressure gauge must read zero. Air tanks, hydraulics and springs keep pressure for a long time.", es: "El manómetro debe marcar cero. Tanques de aire, hidráulica y resortes guardan presión mucho tiempo." }
    tried { en: "Try to start it: nothing moves. Then switch back to off", es: "Intente arrancarla: nada se mueve. Luego regrese el mando a apagado" }
    tried_why { en: "Only trying shows that the right switch is locked out.", es: "Solo la prueba muestra que se bloqueó el interruptor correcto." }
    tried_watch { en: "Everyone clear before you try. After a break or a shift change, try again.", es: "Todos lejos de la prensa antes de probar. Después de una pausa o un cambio de turno, pruebe otra vez." }

    nuts_marked { en: "Mark nut and rod with one line before you turn anything", es: "Marque tuerca y tirante con una raya antes de girar nada" }
    nuts_marked_why { en: "The mark is your way back, and you count notches from it.", es: "La marca es el camino de regreso y desde ella se cuentan las ranuras." }
    nuts_marked_watch { en: "Paint or a scribed line; oil takes chalk off.", es: "Pintura o una raya grabada; el aceite borra el gis." }
    pins_out { en: "Pull the cotter pins and keep them together", es: "Saque las chavetas y guárdelas juntas" }
    pins_out_why { en: "A pinned nut cannot turn.", es: "Una tuerca con chaveta no puede girar." }
    pins_out_watch { en: "Eye protection. Count them: just as many go back in. Replace bent ones.", es: "Use protección de ojos. Cuéntelas: las mismas deben volver. Cambie las dobladas." }
    nuts_free { en: "Clean and oil the threads until every nut turns smoothly", es: "Limpie y aceite las roscas hasta que cada tuerca gire sin tirones" }
    nuts_free_why { en: "A nut that binds and then jumps hides its real position.", es: "Una tuerca que se traba y salta esconde su posición real." }
    nuts_free_watch { en: "If one will not come free, note it here and leave it out of the plan.", es: "Si una no se suelta: anótelo aquí y déjela fuera del plan." }
    nuts_flush { en: "Bring every nut back flush with the end of the rod", es: "Lleve cada tuerca de vuelta al ras del extremo del tirante" }
    nuts_flush_why { en: "Flush is the starting point: position 0, from which every notch is counted.", es: "El ras es el punto de partida: posición 0, desde la que se cuenta cada ranura." }
    nuts_flush_watch { en: "Count the notches on the way and note them: that is where the nut was.", es: "Cuente las ranuras del recorrido y anótelas: ahí estaba la tuerca." }

    gap_measured { en: "Measure the gap between the jaws at every arm, at full stroke", es: "Mida la abertura entre mordazas en cada brazo, a carrera completa" }
    gap_measured_why { en: "It shows which end is low before you use up any belt.", es: "Muestra qué extremo queda bajo antes de gastar banda." }
    gap_measured_watch { en: "The manual says how the jaw gets to full stroke without power. Put a gauge in the gap; never your fingers.", es: "El manual dice cómo llega la mordaza a carrera completa sin corriente. Meta el calibrador en la abertura; nunca meta los dedos." }
    gap_even(gap) { en: "Set it even along the whole jaw, about {gap}", es: "Déjela pareja en toda la mordaza, cerca de {gap}" }
    gap_even_why { en: "From an even gap a few notches are enough; the fine work is done on the splice.", es: "Con la abertura pareja bastan pocas ranuras; lo fino se hace sobre el empalme." }
    gap_even_watch { en: "The common handle moves all arms at once, a nut only its own arm. Move the handle only as the manual says. Measure again afterwards.", es: "La manija común mueve todos los brazos; una tuerca, solo el suyo. Mueva la manija solo como dice el manual. Mida otra vez después." }

    chains_taut { en: "Check whatever moves the jaw along its length, such as chains or shafts, as the manual says", es: "Revise lo que mueve la mordaza a lo largo, como cadenas o ejes, según el manual" }
    chains_taut_why { en: "A slack drive lets one end of the jaw lag; no nut can cure that.", es: "Una transmisión floja deja atrás un lado de la mordaza; ninguna tuerca lo corrige." }
    chains_taut_watch { en: "Keep fingers away from where a chain runs onto a sprocket. Leave out what this press does not have.", es: "Dedos lejos de donde una cadena entra al piñón. Omita lo que esta prensa no tiene." }
    sprocket_nuts_snug { en: "Check that its nuts and bolts are as tight as the manual says", es: "Revise que sus tuercas y tornillos estén apretados como dice el manual" }
    sprocket_nuts_snug_why { en: "Too loose and that end lags; too tight and it binds.", es: "Flojos, ese lado se atrasa; muy apretados, se frena." }
    sprocket_nuts_snug_watch { en: "Turn by hand only as the manual says: hand on the hub, never where a chain runs in.", es: "Gire a mano solo como dice el manual: la mano en el cubo, nunca donde entra una cadena." }
    drive_noted { en: "Note below which parts drive the jaw of this press, and compare with the last visit", es: "Anote abajo qué partes mueven la mordaza de esta prensa y compare con la última visita" }
    drive_noted_why { en: "A part that is missing or new can be why one end of the jaw lags.", es: "Una parte que falta o es nueva puede ser la razón de que un lado se atrase." }
    drive_noted_watch { en: "Count the parts and use the names your shop uses.", es: "Cuente las partes y use los nombres de su taller." }

    pins_for_test { en: "Look up in the manual whether cotter pins go in for test lacings, and do so", es: "Busque en el manual si las chavetas van puestas para el engrape de prueba, y hágalo así" }
    pins_for_test_why { en: "The manual decides that, not this program.", es: "Eso lo decide el manual, no este programa." }
    pins_for_test_watch { en: "If it does not say, ask the maker of the press.", es: "Si no lo dice, pregunte al fabricante de la prensa." }
    clear_for_power { en: "Tools out, guards on, everyone clear; each person takes off their own lock; then power on", es: "Herramientas afuera, guardas puestas, todos lejos de la prensa; cada quien quita su candado; luego conecte" }
    clear_for_power_why { en: "From here on the press can move.", es: "Desde aquí la prensa puede moverse." }
    clear_for_power_watch { en: "The press is no longer made safe. You will be asked again.", es: "La prensa ya no está asegurada. Se le volverá a preguntar." }
    test_piece_laced { en: "Lace a full-width test piece of the belt and hooks the press works with", es: "Engrape una pieza de prueba de todo el ancho, con la banda y los ganchos de trabajo" }
    test_piece_laced_why { en: "Only the full width loads the whole jaw the way work does.", es: "Solo el ancho completo carga toda la mordaza como en el trabajo." }
    test_piece_laced_watch { en: "Hands clear of closing jaws, hook points and knives; eye protection. A fresh, square end without old holes.", es: "Manos lejos de mordazas, puntas de ganchos y cuchillas; use protección de ojos. Un extremo recién cortado, a escuadra y sin agujeros viejos." }
    test_piece_marked { en: "Mark the piece at the center of each arm, and mark the operator's left", es: "Marque la pieza en el centro de cada brazo, y marque la izquierda del operador" }
    test_piece_marked_why { en: "You measure it where each tie rod passes.", es: "Se mide donde pasa cada tirante." }
    test_piece_marked_watch { en: "Mark it while it is in the jaw; afterwards the places are lost.", es: "Márquela mientras está en la mordaza; después se pierden los lugares." }

    read_together { en: "At each mark measure a short-leg knuckle and the long leg beside it in one reading", es: "En cada marca mida un ojal de pata corta y la pata larga de al lado en una sola lectura" }
    read_together_why { en: "One alone measures differently from the pair; mixed, they make a spread that is not there.", es: "Uno solo mide distinto que el par; mezclados hacen una diferencia que no existe." }
    read_together_watch { en: "Same gauge, same hand, same pressure everywhere.", es: "El mismo instrumento, la misma mano y la misma presión en todas partes." }
    every_arm_read { en: "Measure every arm, then each one once more", es: "Mida cada brazo, y cada uno una vez más" }
    every_arm_read_why { en: "A second reading shows how much hand and gauge add.", es: "La segunda lectura muestra cuánto agregan la mano y el instrumento." }
    every_arm_read_watch { en: "Type the second reading beside the first; both are kept.", es: "Escriba la segunda junto a la primera; las dos se guardan." }

    jaw_unloaded { en: "Open the jaw and block it as the manual says; no belt and no hooks in it", es: "Abra la mordaza y bloquéela como dice el manual; sin banda ni ganchos adentro" }
    jaw_unloaded_why { en: "A nut under load does not move the jaw as far as it should.", es: "Una tuerca con carga no mueve la mordaza lo que debe." }
    jaw_unloaded_watch { en: "Open it first, then make it safe; the manual says how it is held open.", es: "Primero ábrala, luego asegúrela; el manual dice cómo se mantiene abierta." }
    outs_then_ins { en: "Turn the nuts that go OUT first, then those that go IN", es: "Gire primero las tuercas que van a ABRIR, luego las que van a CERRAR" }
    outs_then_ins_why { en: "OUT makes room before IN takes it; a nut run in too far keeps the jaws from opening.", es: "Abrir da espacio, cerrar lo quita; una tuerca muy enroscada no deja abrir las mordazas." }
    outs_then_ins_watch { en: "Whole notches only.", es: "Solo ranuras enteras." }
    counted_from_marks { en: "Count the notches from your marks; leave each nut where a pin fits through", es: "Cuente las ranuras desde sus marcas; deje cada tuerca donde pase la chaveta" }
    counted_from_marks_why { en: "What you note must be where the nut really is.", es: "Lo anotado debe ser donde la tuerca está de verdad." }
    counted_from_marks_watch { en: "Enough thread must hold the nut.", es: "Debe quedar suficiente rosca para sujetar la tuerca." }

    relace_piece { en: "Lace another full-width piece of the same belt and hooks", es: "Engrape otra pieza de todo el ancho, con la misma banda y los mismos ganchos" }
    relace_piece_why { en: "Another belt or hook changes every reading; then nobody knows what the turns did.", es: "Otra banda u otro gancho cambia todas las lecturas; entonces nadie sabe qué hicieron los giros." }
    relace_piece_watch { en: "Hands clear of closing jaws, hook points and knives; eye protection. Belt the same way round as before.", es: "Manos lejos de mordazas, puntas de ganchos y cuchillas; use protección de ojos. La banda en el mismo sentido que antes." }

    pins_in { en: "Put a cotter pin back in every nut before the press goes to work", es: "Ponga la chaveta en cada tuerca antes de que la prensa trabaje" }
    pins_in_why { en: "A nut without its pin works loose.", es: "Una tuerca sin chaveta se afloja sola." }
    pins_in_watch { en: "Your hands are at the nuts: make it safe first. As many pins as came out.", es: "Sus manos están en las tuercas: primero asegure la prensa. Tantas chavetas como salieron." }
    cleaned { en: "Clean and oil the press", es: "Limpie y aceite la prensa" }
    cleaned_why { en: "Dirt and dry threads are where the jaws start going out of true again.", es: "Con la mugre y las roscas secas empieza el próximo desajuste." }
    cleaned_watch { en: "Never point compressed air at skin or clothing; stay below 30 psi (2 bar), with chip guarding and protective equipment. Local rules may be stricter. Eye protection.", es: "Nunca dirija aire comprimido a la piel ni a la ropa; menos de 30 psi (2 bar), con protección contra partículas y equipo de protección. Las reglas locales pueden ser más estrictas. Use protección de ojos." }
    clear_for_work { en: "Tools out, guards on, everyone clear; each person takes off their own lock", es: "Herramientas afuera, guardas puestas, todos lejos de la prensa; cada quien quita su propio candado" }
    clear_for_work_why { en: "Only the person who hung a lock knows that their work is done.", es: "Solo quien puso el candado sabe que su trabajo terminó." }
    clear_for_work_watch { en: "Tell the crew that the press goes back to work.", es: "Avise al equipo que la prensa vuelve a trabajar." }
    record_filed { en: "Save the session and file it with the press", es: "Guarde la sesión y archívela con la prensa" }
    record_filed_why { en: "As found and as left show how the press changes over time.", es: "El estado inicial y el final muestran cómo cambia la prensa con el tiempo." }
    record_filed_watch { en: "Note what you would tell the next person.", es: "Anote lo que le diría a la persona que sigue." }
}
