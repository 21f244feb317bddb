//! What every fixed step of the visit asks for, why, and what to watch for.

use crate::session::Step;

use super::Figures;

/// The words of one step.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StepWords {
    /// What it asks for.
    pub text: String,
    /// Why.
    pub why: &'static str,
    /// What to watch for.
    pub watch: &'static str,
}

impl Figures {
    /// The words of a fixed step.
    pub fn step(&self, step: Step) -> StepWords {
        let words = self.language;
        let gap = self.about_gap();
        StepWords {
            text: words.step_text(step).replace("{gap}", &gap),
            why: words.step_why(step),
            watch: words.step_watch(step),
        }
    }
}

names! {
    /// What a fixed step of the visit asks for; `{gap}` is the customary coarse gap.
    step_text(Step) {
        JawUnloaded { en: "Open the jaw by its controls; no belt, no hooks and no hands in it", es: "Abra la mordaza con sus controles; sin banda, ganchos ni manos adentro" }
        OthersTold { en: "Tell everyone affected that the press will be off", es: "Avise a todos los afectados que la prensa quedará sin corriente" }
        PowerOff { en: "Switch the press off at its disconnect", es: "Corte la corriente en el desconectador" }
        LockedOut { en: "Lock it out and hang your tag", es: "Ponga su candado y su etiqueta" }
        PressureReleased { en: "Release or block stored pressure; lower or block whatever could move", es: "Libere o bloquee la presión acumulada; baje o bloquee lo que pueda moverse" }
        Tried { en: "Try to start it: nothing moves. Then switch back to off", es: "Intente arrancarla: nada debe moverse. Luego regrese el control a apagado" }
        JawAtStroke { en: "Bring the empty jaw to full stroke the way the manual says; no belt, no hooks and no hands in it", es: "Lleve la mordaza vacía a carrera completa como dice el manual; sin banda, ganchos ni manos adentro" }
        HeldAtStroke { en: "Block the jaw there as the manual says, before a gauge goes in", es: "Bloquee ahí la mordaza como dice el manual, antes de meter el calibrador" }
        NutsMarked { en: "Block the jaw as the manual says; mark nut and rod with one line", es: "Bloquee la mordaza como dice el manual; marque tuerca y tirante con una raya" }
        PinsOut { en: "Pull the cotter pins and keep them together", es: "Saque las chavetas y guárdelas juntas" }
        NutsFree { en: "Clean and oil the threads until every nut turns smoothly, then back on its mark", es: "Limpie y aceite las roscas hasta que cada tuerca gire suave, y regrésela a su marca" }
        NutsFlush { en: "Bring every nut back flush with the end of the rod", es: "Lleve cada tuerca de vuelta al ras del extremo del tirante" }
        GapMeasured { en: "Measure the gap between the jaws at every arm, at full stroke, with a gauge: never put fingers in it", es: "Mida la abertura entre mordazas en cada brazo, a carrera completa, con un calibrador: nunca meta los dedos" }
        GapEven { en: "Set it even along the whole jaw, about {gap}; before any nut is turned, make safe for the nuts", es: "Déjela pareja en toda la mordaza, cerca de {gap}; antes de girar una tuerca, asegure la prensa" }
        ChainsTaut { en: "Check whatever moves the jaw along its length, such as chains or shafts, as the manual says", es: "Revise lo que mueve la mordaza a lo largo, como cadenas o flechas, según el manual" }
        SprocketNutsSnug { en: "Check that its nuts and bolts are as tight as the manual says", es: "Revise que sus tuercas y tornillos estén apretados como dice el manual" }
        DriveNoted { en: "Note which parts drive the jaw of this press, and compare with the last visit", es: "Anote qué partes mueven la mordaza de esta prensa y compare con la última visita" }
        PinsForTest { en: "Look up in the manual whether cotter pins go in for test lacings, and do so", es: "Busque en el manual si las chavetas van puestas para el engrape de prueba, y hágalo así" }
        ClearForTest { en: "Tools out, guards on, everyone clear; each person takes off their own lock; then power on", es: "Herramientas afuera, guardas puestas, todos lejos de la prensa; cada quien quita su candado; luego conecte la corriente" }
        ClearForRelace { en: "Pins in as the manual says for test lacings, tools out, guards on, everyone clear; each person takes off their own lock; then power on", es: "Chavetas como dice el manual para el engrape de prueba, herramientas afuera, guardas puestas, todos lejos de la prensa; cada quien quita su candado; luego conecte la corriente" }
        TestPieceLaced { en: "Lace a full-width test piece of the belt and hooks the press works with", es: "Engrape una pieza de prueba de todo el ancho, con la banda y los ganchos de trabajo" }
        TestPieceMarked | RelaceMarked { en: "Mark the piece at the center of each arm, and mark the operator's left", es: "Marque la pieza en el centro de cada brazo, y marque la izquierda del operador" }
        ReadTogether { en: "At each mark measure a short-leg knuckle and the long leg beside it in one reading", es: "En cada marca mida un ojal de pata corta y la pata larga de al lado en una sola lectura" }
        EveryArmRead { en: "Measure every arm, then each one once more", es: "Mida cada brazo, y cada uno una vez más" }
        OutsThenIns { en: "Turn the nuts that go OUT first, then those that go IN", es: "Gire primero las tuercas que van a ABRIR, luego las que van a CERRAR" }
        CountedFromMarks { en: "Count the notches from your marks; leave each nut where a pin fits through", es: "Cuente las ranuras desde sus marcas; deje cada tuerca donde pase la chaveta" }
        RelacePiece { en: "Lace another full-width piece of the same belt and hooks", es: "Engrape otra pieza de todo el ancho, con la misma banda y los mismos ganchos" }
        PinsIn { en: "Put a cotter pin back in every nut, and count them", es: "Ponga la chaveta en cada tuerca, y cuéntelas" }
        Cleaned { en: "Clean and oil the press", es: "Limpie y aceite la prensa" }
        ClearForWork { en: "Tools out, guards on, everyone clear; only then each person takes off their own lock", es: "Herramientas afuera, guardas puestas, todos lejos de la prensa; solo entonces cada quien quita su propio candado" }
        RecordFiled { en: "Save the session and file it with the press", es: "Guarde la sesión y archívela con la prensa" }
    }

    /// Why.
    step_why(Step) {
        OthersTold { en: "Someone who does not know may switch it back on.", es: "Quien no lo sabe puede volver a conectarla." }
        PowerOff { en: "Only the disconnect cuts the power; a stop button does not.", es: "Solo el desconectador corta la corriente; un botón de paro no." }
        LockedOut { en: "Nobody can switch it on while your hands are in it.", es: "Nadie puede conectarla mientras usted tiene las manos adentro." }
        PressureReleased { en: "With the power off, a line or a raised jaw can still have force in it.", es: "Sin corriente, una manguera o una mordaza levantada aún pueden tener fuerza." }
        Tried { en: "Only trying shows that the right switch is locked out.", es: "Solo la prueba muestra que se bloqueó el interruptor correcto." }
        JawAtStroke { en: "The gap that counts is the one where the jaw stops in work.", es: "La abertura que cuenta es la que hay donde la mordaza para al trabajar." }
        HeldAtStroke { en: "Your gauge and your hand go where the jaw could still travel.", es: "El calibrador y la mano van donde la mordaza todavía podría moverse." }
        NutsMarked { en: "The mark is your way back, and you count notches from it.", es: "La marca es el camino de regreso y desde ella se cuentan las ranuras." }
        PinsOut { en: "A pinned nut cannot turn.", es: "Una tuerca con chaveta no puede girar." }
        NutsFree { en: "A nut that binds and then jumps hides its real position.", es: "Una tuerca que se traba y salta esconde su posición real." }
        NutsFlush { en: "Flush is the starting point: position 0, from which every notch is counted.", es: "El ras es el punto de partida: posición 0, desde la que se cuenta cada ranura." }
        GapMeasured { en: "It shows which end is low before you use up any belt.", es: "Muestra qué extremo queda bajo antes de gastar banda." }
        GapEven { en: "From an even gap a few notches are enough; the fine work is done on the splice.", es: "Con la abertura pareja bastan pocas ranuras; lo fino se hace sobre el empalme." }
        ChainsTaut { en: "A slack drive lets one end of the jaw lag; no nut can cure that.", es: "Una transmisión floja deja atrás un lado de la mordaza; ninguna tuerca lo corrige." }
        SprocketNutsSnug { en: "Too loose and that end lags; too tight and it binds.", es: "Flojos, ese lado se atrasa; muy apretados, se frena." }
        DriveNoted { en: "A part that is missing or new can be why one end of the jaw lags.", es: "Una parte que falta o es nueva puede ser la razón de que un lado se atrase." }
        PinsForTest { en: "The manual decides that, not this program.", es: "Eso lo decide el manual, no este programa." }
        ClearForTest | ClearForRelace { en: "Lacing needs power.", es: "Para engrapar hace falta corriente." }
        TestPieceLaced { en: "Only the full width loads the whole jaw the way work does.", es: "Solo el ancho completo carga toda la mordaza como en el trabajo." }
        TestPieceMarked | RelaceMarked { en: "You measure it where each tie rod passes.", es: "Se mide donde pasa cada tirante." }
        ReadTogether { en: "One alone measures differently from the pair; mixed, they make a spread that is not there.", es: "Uno solo mide distinto que el par; mezclados hacen una diferencia que no existe." }
        EveryArmRead { en: "A second reading shows how much hand and gauge add.", es: "La segunda lectura muestra cuánto agregan la mano y el instrumento." }
        JawUnloaded { en: "A nut under load does not move the jaw as far as it should.", es: "Una tuerca con carga no mueve la mordaza lo que debe." }
        OutsThenIns { en: "OUT makes room before IN takes it; a nut run in too far keeps the jaws from opening.", es: "Abrir da espacio, cerrar lo quita; una tuerca muy enroscada no deja abrir las mordazas." }
        CountedFromMarks { en: "What you note must be where the nut really is.", es: "Lo anotado debe ser donde la tuerca está de verdad." }
        RelacePiece { en: "Another belt or hook changes every reading; then nobody knows what the turns did.", es: "Otra banda u otro gancho cambia todas las lecturas; entonces nadie sabe qué hicieron los giros." }
        PinsIn { en: "A nut without its pin works loose.", es: "Una tuerca sin chaveta se afloja sola." }
        Cleaned { en: "Dirt and dry threads are where the jaws start going out of true again.", es: "Con la mugre y las roscas secas empieza el próximo desajuste." }
        ClearForWork { en: "Only the person who hung a lock knows that their work is done.", es: "Solo quien puso el candado sabe que su trabajo terminó." }
        RecordFiled { en: "As found and as left show how the press changes over time.", es: "El estado inicial y el final muestran cómo cambia la prensa con el tiempo." }
    }

    /// What to watch for.
    step_watch(Step) {
        OthersTold { en: "Crew, next shift, anyone waiting for a splice.", es: "El grupo, el turno que sigue y quien espera un empalme." }
        PowerOff { en: "There may be more than one supply: electric, air, hydraulic.", es: "Puede haber otra energía: de aire o hidráulica." }
        LockedOut { en: "Everyone hangs their own, the key in their own pocket.", es: "Cada quien el suyo, con la llave en su propio bolsillo." }
        PressureReleased { en: "Gauge at zero. Tanks and springs keep pressure for long.", es: "Manómetro en cero. Tanques y resortes siguen cargados." }
        Tried { en: "Everyone clear first. After a break or a shift change, try to start it again.", es: "Primero todos lejos. Después de una pausa o un cambio de turno, intente arrancarla otra vez." }
        JawAtStroke { en: "The manual says whether that needs power. An open, blocked jaw is for turning nuts, not for this.", es: "El manual dice si hace falta corriente. La mordaza abierta y bloqueada es para girar tuercas, no para esto." }
        HeldAtStroke { en: "No way in the manual to block it there? Then no hand goes in: measure as the manual says.", es: "¿El manual no dice cómo bloquearla ahí? Entonces no meta la mano: mida como dice el manual." }
        NutsMarked { en: "Hands go in only once it is locked out and does not start. Paint or a scribed line; oil takes chalk off.", es: "Manos adentro solo con candado puesto y probado. Pintura o una raya grabada; el aceite borra el gis." }
        PinsOut { en: "Eye protection. Count them: just as many go back in. Replace bent ones.", es: "Use protección de ojos. Cuéntelas: las mismas deben volver. Cambie las dobladas." }
        NutsFree { en: "If one will not come free, note it here; under Press and visit give it limits that leave it where it is.", es: "Si una no se suelta, anótelo aquí; en Prensa y visita póngale límites que la dejen donde está." }
        NutsFlush { en: "Count the notches on the way and note them: that is where the nut was.", es: "Cuente las ranuras del recorrido y anótelas: ahí estaba la tuerca." }
        GapMeasured { en: "Blocked there; if the jaw creeps, stop and tell whoever looks after the press.", es: "Bloqueada ahí; si la mordaza se mueve, pare y avise al responsable de la prensa." }
        GapEven { en: "The handle moves all arms, a nut only its own. Move the handle only as the manual says; then measure again.", es: "La manija mueve todos los brazos; una tuerca, solo el suyo. Mueva la manija solo como dice el manual; luego mida otra vez." }
        ChainsTaut { en: "Keep fingers away from where a chain runs onto a sprocket. Leave out what this press does not have.", es: "Dedos lejos de donde una cadena entra al piñón. Omita lo que esta prensa no tiene." }
        SprocketNutsSnug { en: "Turn by hand only as the manual says: hand on the hub, never where a chain runs in.", es: "Gire a mano solo como dice el manual: la mano en la maza, nunca donde entra una cadena." }
        DriveNoted { en: "Count the parts and use the names your shop uses.", es: "Cuente las partes y use los nombres de su taller." }
        PinsForTest { en: "If it does not say, ask the maker of the press.", es: "Si no lo dice, pregunte al fabricante de la prensa." }
        ClearForTest | ClearForRelace { en: "From here on the press can move. You will be asked to make it safe again.", es: "Desde aquí la prensa puede moverse. Se le volverá a pedir que la asegure." }
        TestPieceLaced { en: "Hands clear of closing jaws, hook points and knives; eye protection. A fresh, square end.", es: "Manos lejos de mordazas, ganchos y cuchillas; protección de ojos. Un extremo recién cortado, a escuadra." }
        TestPieceMarked | RelaceMarked { en: "Mark it while it is in the jaw; afterwards the places are lost.", es: "Márquela mientras está en la mordaza; después se pierden los lugares." }
        ReadTogether { en: "Same gauge, same hand, same pressure everywhere.", es: "El mismo instrumento, la misma mano y la misma presión en todas partes." }
        EveryArmRead { en: "Type the second reading beside the first; both are kept.", es: "Escriba la segunda junto a la primera; las dos se guardan." }
        JawUnloaded { en: "Does that need power? Open it before you lock out.", es: "¿Hace falta corriente? Ábrala antes de poner el candado." }
        OutsThenIns { en: "Whole notches only.", es: "Solo ranuras enteras." }
        CountedFromMarks { en: "Enough thread must hold the nut.", es: "Debe quedar suficiente rosca para sujetar la tuerca." }
        RelacePiece { en: "Hands clear of closing jaws, hook points and knives; eye protection. Belt the same way round.", es: "Manos lejos de mordazas, ganchos y cuchillas; protección de ojos. La banda en el mismo sentido." }
        PinsIn { en: "Your hands are at the nuts: make it safe first. As many pins as came out.", es: "Sus manos están en las tuercas: primero asegure la prensa. Tantas chavetas como salieron." }
        Cleaned { en: "Compressed air never at skin or clothing, below 30 psi (2 bar), with chip guarding; eye protection. Local rules may be stricter.", es: "Aire comprimido nunca a la piel ni a la ropa, menos de 30 psi (2 bar), con protección contra partículas; protección de ojos. Las reglas locales pueden ser más estrictas." }
        ClearForWork { en: "Tell the crew that the press goes back to work.", es: "Avise al grupo que la prensa vuelve a trabajar." }
        RecordFiled { en: "Note what you would tell the next person.", es: "Anote lo que le diría a la persona que sigue." }
    }
}
