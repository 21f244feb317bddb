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
        OthersTold { en: "Tell everyone affected that the press will be off", es: "Avise a todos los afectados que se apagará la prensa" }
        PowerOff { en: "Stop the press, then cut off every supply", es: "Pare la prensa; luego corte cada fuente de energía" }
        LockedOut { en: "Lock out every supply and hang your tag", es: "Ponga su candado y su etiqueta en cada fuente" }
        PressureReleased { en: "Release or block stored energy; lower or block whatever could move", es: "Libere o bloquee la energía acumulada; baje o bloquee lo que pueda moverse" }
        Tried { en: "Try to start it: nothing moves. Then switch back to off", es: "Intente arrancarla: nada debe moverse. Luego regrese el control a apagado" }
        JawAtStroke { en: "Bring the empty jaw to full stroke the way the manual says; no belt, no hooks and no hands in it", es: "Lleve la mordaza vacía a carrera completa como dice el manual; sin banda, ganchos ni manos adentro" }
        HeldAtStroke { en: "Block the jaw there as the manual says, before a gauge goes in", es: "Bloquee ahí la mordaza como dice el manual, antes de meter el calibrador" }
        JawBlocked { en: "Block the open jaw as the manual says", es: "Bloquee la mordaza abierta como dice el manual" }
        NutsMarked { en: "Mark nut and rod with one line", es: "Marque tuerca y tirante con una raya" }
        PinsOut { en: "Pull the cotter pins and keep them together", es: "Saque las chavetas y guárdelas juntas" }
        NutsFree { en: "One nut at a time: clean and oil its thread until it turns freely, then turn it back to its mark", es: "Una tuerca a la vez: limpie y aceite su rosca hasta que gire libre, luego regrésela a su marca" }
        NutsFlush { en: "Bring every nut back flush with the end of the rod", es: "Lleve cada tuerca de vuelta al ras del extremo del tirante" }
        GapMeasured { en: "Measure the gap between the jaws at every arm, at full stroke, with a gauge: never put fingers in it", es: "Mida la abertura entre mordazas en cada brazo, a carrera completa, con un calibrador: nunca meta los dedos" }
        GapEven { en: "Set it even along the whole jaw, about {gap}; before any nut is turned, make safe for the nuts", es: "Déjela pareja en toda la mordaza, cerca de {gap}; antes de girar una tuerca, asegure la prensa" }
        ChainsTaut { en: "Check whatever moves the jaw along its length, such as chains or shafts, as the manual says", es: "Revise lo que mueve la mordaza a lo largo, como cadenas o flechas, según el manual" }
        SprocketNutsSnug { en: "Check that its nuts and bolts are as tight as the manual says", es: "Revise que sus tuercas y tornillos estén apretados como dice el manual" }
        DriveNoted { en: "Note which parts drive the jaw of this press, and compare with the last visit", es: "Anote qué partes mueven la mordaza de esta prensa y compare con la última visita" }
        PinsForTest | PinsForRelace { en: "Cotter pins in or out, as the manual says for test lacings", es: "Chavetas puestas o no, como dice el manual para el engrape de prueba" }
        ClearForTest | ClearForRelace { en: "Blocks and tools out, guards on, everyone clear and told", es: "Calzas y herramientas afuera, guardas puestas, todos lejos y avisados" }
        LocksOffForTest | LocksOffForRelace { en: "Each person takes off their own lock; then power on", es: "Cada quien quita su propio candado; luego conecte la corriente" }
        TestPieceLaced { en: "Lace a full-width test piece of the belt and hooks the press works with", es: "Engrape una pieza de prueba de todo el ancho, con la banda y los ganchos de trabajo" }
        TestPieceMarked | RelaceMarked { en: "Mark the piece at the center of each arm, and mark the operator's left", es: "Marque la pieza en el centro de cada brazo, y marque la izquierda del operador" }
        ReadTogether { en: "At each mark measure a short-leg knuckle and the long leg beside it in one reading", es: "En cada marca mida un ojillo de pata corta y la pata larga de al lado en una sola lectura" }
        EveryArmRead { en: "Measure every arm, then each one once more", es: "Mida cada brazo, y cada uno una vez más" }
        OutsThenIns { en: "Turn the nuts that go OUT first, then those that go IN", es: "Gire primero las tuercas que van a ABRIR, luego las que van a CERRAR" }
        CountedFromMarks { en: "Count the notches from your marks; leave each nut where a pin fits through", es: "Cuente las ranuras desde sus marcas; deje cada tuerca donde pase la chaveta" }
        RelacePiece { en: "Lace another full-width piece of the same belt and hooks", es: "Engrape otra pieza de todo el ancho, con la misma banda y los mismos ganchos" }
        PinsIn { en: "Put a cotter pin back in every nut, and count them", es: "Ponga la chaveta en cada tuerca, y cuéntelas" }
        Cleaned { en: "Clean and oil the press", es: "Limpie y aceite la prensa" }
        ClearForWork { en: "Blocks and tools out, guards on, everyone clear and told; only then each person takes off their own lock", es: "Calzas y herramientas afuera, guardas puestas, todos lejos y avisados; solo entonces cada quien quita su propio candado" }
        RecordFiled { en: "Save the visit and file it with the press", es: "Guarde la visita y archívela con la prensa" }
    }

    /// Why.
    step_why(Step) {
        OthersTold { en: "Someone who does not know may switch it back on.", es: "Quien no lo sabe puede volver a conectarla." }
        PowerOff { en: "Only the disconnect cuts the power; a stop button does not. Stopped first, nothing is cut off in mid-movement.", es: "Solo el desconectador corta la corriente; un botón de paro no. Si primero la para, nada se corta a medio movimiento." }
        LockedOut { en: "Nobody can switch it on while your hands are in it.", es: "Nadie puede conectarla mientras usted tiene las manos adentro." }
        PressureReleased { en: "With the power off, a line, a spring, a taut chain or a raised jaw still has force in it.", es: "Sin corriente, una manguera, un resorte, una cadena tensa o una mordaza levantada aún tienen fuerza." }
        Tried { en: "Only trying shows that the right switch is locked out.", es: "Solo la prueba muestra que se bloqueó el interruptor correcto." }
        JawAtStroke { en: "The gap that counts is the one where the jaw stops in work. The manual says whether that needs power.", es: "La abertura que cuenta es la que hay donde la mordaza para al trabajar. El manual dice si hace falta corriente." }
        HeldAtStroke { en: "Your gauge and your hand go where the jaw could still travel.", es: "El calibrador y la mano van donde la mordaza todavía podría moverse." }
        JawBlocked { en: "A block holds the jaw where the lock alone would let it fall or close.", es: "La calza sostiene la mordaza donde el candado solo la dejaría caer o cerrarse." }
        NutsMarked { en: "The mark is your way back, and you count notches from it.", es: "La marca es el camino de regreso y desde ella se cuentan las ranuras." }
        PinsOut { en: "A pinned nut cannot turn.", es: "Una tuerca con chaveta no puede girar." }
        NutsFree { en: "A nut that binds and then jumps hides its real position.", es: "Una tuerca que se traba y salta esconde su posición real." }
        NutsFlush { en: "Flush is the starting point: position 0, from which every notch is counted.", es: "El ras es el punto de partida: posición 0, desde la que se cuenta cada ranura." }
        GapMeasured { en: "It shows which end is low before you use up any belt.", es: "Muestra qué extremo queda bajo antes de gastar banda." }
        GapEven { en: "From an even gap a few notches are enough; the fine work is done on the splice.", es: "Con la abertura pareja bastan pocas ranuras; lo fino se hace sobre el empalme." }
        ChainsTaut { en: "A slack drive lets one end of the jaw lag; no nut can cure that.", es: "Una transmisión floja deja atrás un lado de la mordaza; ninguna tuerca lo corrige." }
        SprocketNutsSnug { en: "Too loose and that end lags; too tight and it binds.", es: "Flojos, ese lado se atrasa; muy apretados, se frena." }
        DriveNoted { en: "A part that is missing or new can be why one end of the jaw lags.", es: "Una parte que falta o es nueva puede ser la razón de que un lado se atrase." }
        PinsForTest | PinsForRelace { en: "The manual decides that, not this program.", es: "Eso lo decide el manual, no este programa." }
        ClearForTest | ClearForRelace { en: "What is left in the press is thrown or crushed when the jaw moves.", es: "Lo que queda en la prensa sale disparado o se aplasta cuando la mordaza se mueve." }
        LocksOffForTest | LocksOffForRelace { en: "Lacing needs power. Only the person who hung a lock knows that their hands are out.", es: "Para engrapar hace falta corriente. Solo quien puso el candado sabe que sus manos están afuera." }
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
        OthersTold { en: "Crew, next shift, anyone waiting for a splice.", es: "La cuadrilla, el turno que sigue y quien espera un empalme." }
        PowerOff { en: "Electric, air, hydraulic: at its disconnect or valve.", es: "Eléctrica, aire, hidráulica: en su desconectador o válvula." }
        LockedOut { en: "Everyone hangs their own, the key in their own pocket.", es: "Cada quien el suyo, con la llave en su propio bolsillo." }
        PressureReleased { en: "Gauge at zero and staying there; springs, taut chains. A jaw held up by pressure is blocked first, as the manual says.", es: "Presión en cero, sin subir; resortes, cadenas. Una mordaza sostenida por presión se calza antes, como diga el manual." }
        Tried { en: "Everyone clear first. After a break or a shift change, try to start it again.", es: "Primero todos lejos. Después de una pausa o un cambio de turno, intente arrancarla otra vez." }
        JawAtStroke { en: "Everyone clear while it moves. An open, blocked jaw is for turning nuts, not for this.", es: "Todos lejos mientras se mueve. La mordaza abierta y bloqueada es para girar tuercas, no para esto." }
        HeldAtStroke { en: "No way in the manual to block it there? Then no hand goes in: measure as the manual says.", es: "¿El manual no dice cómo bloquearla ahí? Entonces no meta la mano: mida como dice el manual." }
        JawBlocked { en: "Before any hand goes in.", es: "Antes de meter las manos." }
        NutsMarked { en: "Paint or a scribed line; oil takes chalk off.", es: "Pintura o una raya grabada; el aceite borra el gis." }
        PinsOut { en: "Eye protection. Count them: just as many go back in. Replace bent ones.", es: "Use protección de ojos. Cuéntelas: las mismas deben volver. Cambie las dobladas." }
        NutsFree { en: "One is stuck? Do not force it: note it here, and under Press and visit set its limits to where it is.", es: "¿Una no se suelta? No la fuerce: anótelo aquí, y en Prensa y visita ponga sus límites donde está." }
        NutsFlush { en: "Count the notches on the way and note them: that is where the nut was.", es: "Cuente las ranuras del recorrido y anótelas: ahí estaba la tuerca." }
        GapMeasured { en: "Blocked there; if the jaw creeps, stop and tell whoever looks after the press.", es: "Bloqueada ahí; si la mordaza se mueve, pare y avise al responsable de la prensa." }
        GapEven { en: "The handle moves all arms, a nut only its own. Everyone's hands out before it moves, and only as the manual says; then measure again.", es: "La manija mueve todos los brazos; una tuerca, solo el suyo. Antes de moverla, las manos de todos afuera, y solo como dice el manual; luego mida otra vez." }
        ChainsTaut { en: "Keep fingers away from where a chain runs onto a sprocket. Leave out what this press does not have.", es: "Dedos lejos de donde una cadena entra al piñón. Omita lo que esta prensa no tiene." }
        SprocketNutsSnug { en: "Turn by hand only where the manual allows it, and as it says for the jaw's blocks: it moves the jaw, so everyone else clear; hand on the hub, never where a chain runs in, either way.", es: "Gire a mano solo si el manual lo permite y como diga sobre las calzas: eso mueve la mordaza, así que todos los demás lejos; la mano en la maza, nunca donde entra una cadena, de un lado u otro." }
        DriveNoted { en: "Count them, in your shop's words: 2 long chains, 3 sprockets.", es: "Cuéntelas con los nombres de su taller: 2 cadenas largas, 3 piñones." }
        PinsForTest | PinsForRelace { en: "Hands at the nuts: only locked out and tried. Not in the manual? Ask the maker.", es: "Manos en las tuercas: solo con candado y probado. ¿El manual no lo dice? Pregunte al fabricante." }
        ClearForTest | ClearForRelace { en: "Leave the locks on for this.", es: "Deje los candados puestos para esto." }
        LocksOffForTest | LocksOffForRelace { en: "From here on the press can move. You will be asked to make it safe again.", es: "Desde aquí la prensa puede moverse. Se le volverá a pedir que la asegure." }
        TestPieceLaced { en: "Whoever runs it sees everyone: hands clear of closing jaws, hook points and knives; eye protection. A fresh, square end.", es: "Quien la opera ve a todos: manos lejos de mordazas, ganchos y cuchillas; protección de ojos. Un extremo recién cortado, a escuadra." }
        TestPieceMarked | RelaceMarked { en: "Before you take it out: jaw stopped, mark the belt outside the jaws. Hands between them only once made safe.", es: "Antes de sacarla: mordaza parada, marque la banda fuera de las mordazas. Manos entre ellas solo si está asegurada." }
        ReadTogether { en: "Out of the press. Same gauge, same hand, same pressure everywhere.", es: "Fuera de la prensa. El mismo instrumento, la misma mano y la misma presión en todas partes." }
        EveryArmRead { en: "Type the second reading beside the first; both are kept.", es: "Escriba la segunda junto a la primera; las dos se guardan." }
        JawUnloaded { en: "Everyone clear while it moves.", es: "Todos lejos mientras se mueve." }
        OutsThenIns { en: "Whole notches only.", es: "Solo ranuras enteras." }
        CountedFromMarks { en: "Enough thread must hold the nut.", es: "Debe quedar suficiente rosca para sujetar la tuerca." }
        RelacePiece { en: "Whoever runs it sees everyone: hands clear of closing jaws, hook points and knives; eye protection. Belt the same way round.", es: "Quien la opera ve a todos: manos lejos de mordazas, ganchos y cuchillas; protección de ojos. La banda en el mismo sentido." }
        PinsIn { en: "Your hands are at the nuts: make it safe first. As many pins as came out.", es: "Sus manos están en las tuercas: primero asegure la prensa. Tantas chavetas como salieron." }
        Cleaned { en: "Compressed air never at skin or clothing, below 30 psi (2 bar), with chip guarding; eye protection. Local rules may be stricter.", es: "Aire comprimido nunca a la piel ni a la ropa, menos de 30 psi (2 bar), con protección contra partículas; protección de ojos. Las reglas locales pueden ser más estrictas." }
        ClearForWork { en: "Tell the crew that the press goes back to work.", es: "Avise a la cuadrilla que la prensa vuelve a trabajar." }
        RecordFiled { en: "Note what you would tell the next person.", es: "Anote lo que le diría a la persona que sigue." }
    }
}
