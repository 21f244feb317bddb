//! What the window says.

use super::{Figures, Language};
use crate::press::LengthQuantity;
use crate::store::SampleSession;
use crate::units::{Length, TypedLength, Unit, decimals_for_step};

impl Figures {
    /// A reading as it was typed: with every digit it was given in its own
    /// unit, rounded in the other as the means beside it are.
    pub fn reading_as_typed(&self, typed: &TypedLength) -> String {
        if typed.unit() != self.unit {
            return self.mean(typed.length());
        }
        let enough = self.reading_decimals();
        let exact = decimals_for_step(
            Length::from_nm(lowest_digit(typed.length(), self)),
            self.unit,
        );
        self.number(typed.length(), enough.max(exact))
    }

    /// Why a reading was not taken: outside what a splice can be.
    pub fn reading_refused(&self, place: &str, found: Length) -> String {
        let bounds = LengthQuantity::Reading.bounds();
        self.language.out_of_bounds(
            place,
            self.plain(bounds.least),
            self.plain(bounds.most),
            self.plain(found),
        )
    }
}

/// The place value, in nanometres, of the last decimal a length needs.
fn lowest_digit(length: Length, figures: &Figures) -> i64 {
    let unit = figures.unit.nm();
    (0..=6)
        .map(|decimals| unit / 10_i64.pow(decimals))
        .find(|place| *place > 0 && length.nm() % place == 0)
        .unwrap_or(unit)
}

impl Language {
    /// First, second, third ... as a column's heading.
    pub fn ordinal(self, number: usize) -> String {
        match self {
            Self::English => match (number % 10, number % 100) {
                (1, tens) if tens != 11 => format!("{number}st"),
                (2, tens) if tens != 12 => format!("{number}nd"),
                (3, tens) if tens != 13 => format!("{number}rd"),
                _ => format!("{number}th"),
            },
            Self::Spanish => format!("{number}.ª"),
        }
    }

    /// The unit in a word or less.
    pub fn unit_short(self, unit: Unit) -> &'static str {
        match unit {
            Unit::Inch => self.inch_short(),
            Unit::Millimetre => "mm",
        }
    }

    /// The name of a look.
    pub fn look(self, key: &str) -> &'static str {
        match key {
            "light" => self.look_light(),
            "dark" => self.look_dark(),
            "high-contrast" => self.look_high_contrast(),
            _ => self.look_system(),
        }
    }
}

names! {
    /// What a built-in sample session shows.
    pub sample_name(SampleSession) {
        Pinched { en: "One arm pinches, 4 arms", es: "Un brazo aprieta de más, 4 brazos" }
        Taper { en: "Thick at one end, true after two more pieces, 4 arms", es: "Más gruesa en un extremo, pareja tras dos piezas más, 4 brazos" }
        NutTooFarIn { en: "A nut run in too far, 3 arms", es: "Una tuerca demasiado enroscada, 3 brazos" }
        Bow { en: "Thin in the middle, 6 arms", es: "Delgada en el centro, 6 brazos" }
        BetweenNotches { en: "Between the notches: close, but not inside, 5 arms", es: "Entre ranuras: cerca, pero no dentro, 5 brazos" }
        Inside { en: "True as found: leave it alone, 4 arms", es: "Pareja desde el inicio: no se toca, 4 brazos" }
        Metric { en: "Passes, but only just, in millimeters, 4 arms", es: "Pasa, pero apenas, en milímetros, 4 brazos" }
    }
}

texts! {
    // Sample sessions.

    // The top bar and its menu.
    menu_file { en: "File", es: "Archivo" }
    menu_earlier { en: "Opened before", es: "Abiertas antes" }
    menu_press_file { en: "Press file", es: "Archivo de la prensa" }
    menu_paper { en: "Print", es: "Imprimir" }
    menu_help { en: "Help and sample visits", es: "Ayuda y visitas de ejemplo" }
    undo { en: "Undo", es: "Deshacer" }
    redo { en: "Redo", es: "Rehacer" }
    about { en: "About Jawtrue", es: "Acerca de Jawtrue" }
    press_short { en: "Press", es: "Prensa" }
    unnamed_press { en: "Press without a name", es: "Prensa sin nombre" }
    visit_line(when, pass, of) { en: "{when} pass {pass} of {of}", es: "{when} pasada {pass} de {of}" }
    file_unsaved(file) { en: "{file}, not saved yet", es: "{file}, sin guardar" }
    file_saved(file) { en: "{file}, saved", es: "{file}, guardada" }
    title_example { en: "Example", es: "Ejemplo" }
    never_saved { en: "never saved", es: "nunca guardada" }
    invented { en: "invented example", es: "ejemplo inventado" }
    speak_hint { en: "Switch to English", es: "Cambiar a español" }
    unit_hint { en: "Show lengths in this unit; a number typed without a unit is taken in it", es: "Mostrar medidas en esta unidad; un número sin unidad se toma en ella" }
    look_system { en: "Match computer", es: "Como la computadora" }
    look_light { en: "Light", es: "Claro" }
    look_dark { en: "Dark", es: "Oscuro" }
    look_high_contrast { en: "High contrast", es: "Alto contraste" }

    // Commands.
    command_new { en: "New visit", es: "Visita nueva" }
    command_open { en: "Open visit…", es: "Abrir visita…" }
    command_save { en: "Save", es: "Guardar" }
    command_save_as { en: "Save under another name", es: "Guardar con otro nombre" }
    command_undo { en: "Undo the last change", es: "Deshacer el último cambio" }
    command_redo { en: "Do the undone change again", es: "Rehacer el cambio deshecho" }
    command_other_unit { en: "Change between inch and millimeter", es: "Cambiar entre pulgadas y milímetros" }
    command_properties { en: "Press and visit", es: "Prensa y visita" }
    command_go_to_plan { en: "Go to the plan", es: "Ir al plan" }
    command_go_to_readings { en: "Go to the readings", es: "Ir a las lecturas" }
    command_go_to_nuts { en: "Go to the castle nuts", es: "Ir a las tuercas castillo" }
    command_show_recommended { en: "Show the recommended turns", es: "Mostrar los giros recomendados" }
    command_copy_plan { en: "Copy the plan as text", es: "Copiar el plan como texto" }
    command_earlier_pass { en: "Show the pass before", es: "Mostrar la pasada anterior" }
    command_later_pass { en: "Show the pass after", es: "Mostrar la pasada siguiente" }
    command_zoom_in { en: "Larger", es: "Más grande" }
    command_zoom_out { en: "Smaller", es: "Más pequeño" }
    command_zoom_normal { en: "Normal size", es: "Tamaño normal" }
    command_help { en: "Help", es: "Ayuda" }
    command_messages { en: "Messages", es: "Mensajes" }
    command_quit { en: "Quit", es: "Salir" }

    // Files dropped on the window.
    drop_session(name) { en: "Release to open {name}.", es: "Suelte para abrir {name}." }
    drop_press(name) { en: "Release to start the next visit from {name}.", es: "Suelte para iniciar la próxima visita desde {name}." }
    drop_something { en: "Release to open it.", es: "Suelte para abrirlo." }
    drop_unsaved { en: "You will be asked about unsaved work first.", es: "Antes se pregunta por el trabajo sin guardar." }
    drop_after_dialog { en: "Close what is in front first, then drop the file again.", es: "Salga primero de lo que está delante y suelte el archivo otra vez." }
    drop_first_only { en: "Several files were dropped; the first is opened.", es: "Se soltaron varios archivos; se abre el primero." }

    // Readings.
    pane_plan { en: "Plan", es: "Plan" }
    pane_steps { en: "Steps", es: "Pasos" }
    settings { en: "Settings", es: "Ajustes" }
    readings { en: "Readings", es: "Lecturas" }
    readings_of_pass(pass) { en: "Readings, pass {pass}", es: "Lecturas, pasada {pass}" }
    gauge { en: "gauge", es: "instrumento" }
    gauge_reads(gauge, step) { en: "{gauge}, reads to {step}", es: "{gauge}, resolución {step}" }
    gauge_uses_much(gauge, percent) { en: "⚠ {gauge}: uses up {percent} of the tolerance", es: "⚠ {gauge}: consume el {percent} de la tolerancia" }
    gauge_coarse { en: "⚠ coarse gauge", es: "⚠ poco fino" }
    gauge_none { en: "⚠ no gauge", es: "⚠ ¿con qué?" }
    gauge_line(gauge, step) { en: "{gauge}, reads to {step}; Enter = next arm", es: "{gauge}, resolución {step}; Enter = brazo siguiente" }
    column_arm { en: "arm", es: "brazo" }
    column_mean { en: "average", es: "promedio" }
    reading_label(repeat, station) { en: "Reading {repeat} at {station}", es: "Lectura {repeat} en {station}" }
    earlier_repeats { en: "Earlier repeats", es: "Repeticiones anteriores" }
    later_repeats { en: "Later repeats", es: "Repeticiones siguientes" }
    repeats_shown(first, last, all) { en: "readings {first}–{last} of {all}", es: "lecturas {first}–{last} de {all}" }

    // Passes.
    passes { en: "Passes", es: "Pasadas" }
    pass_number(number) { en: "Pass {number}", es: "Pasada {number}" }
    pass_as_found(number) { en: "Pass {number}, as found", es: "Pasada {number}, inicial" }
    pass_as_left(number) { en: "Pass {number}, latest", es: "Pasada {number}, última" }
    not_read_yet { en: "not read yet", es: "sin lecturas" }
    spread_is(spread) { en: "spread {spread}", es: "dif. {spread}" }
    spread_open { en: "not clear yet", es: "aún no está claro" }
    insert_pass_before { en: "Insert a pass before", es: "Insertar pasada antes" }
    delete_pass { en: "Delete this pass", es: "Borrar esta pasada" }
    correct_this_pass { en: "Correct this pass", es: "Corregir esta pasada" }
    nut_positions_hint { en: "Where the nuts were, in notches from flush:", es: "Dónde estaban las tuercas, en ranuras desde el ras:" }
    correct_nut(arm, mark) { en: "Nut {arm}: {mark} 1", es: "Tuerca {arm}: {mark} 1" }

    // The one sentence.
    nothing_laced { en: "No test piece has been laced yet.", es: "Aún no hay ninguna pieza de prueba engrapada." }
    nothing_laced_next { en: "Lace a full-width test piece, mark it at the center of every arm, and type its readings.", es: "Engrape una pieza de prueba de todo el ancho, márquela en el centro de cada brazo y escriba sus lecturas." }
    nothing_read { en: "Measure the test piece at every arm.", es: "Mida la pieza de prueba en cada brazo." }
    nothing_read_next { en: "Measure a short-leg knuckle and the long leg beside it in one reading; note each one.", es: "Mida un ojillo de pata corta y la pata larga de al lado en una sola lectura; anote cada una." }
    stands_inside(limit) { en: "The jaws are true: all arms within {limit}.", es: "Mordazas parejas: todo dentro de {limit}." }
    stands_outside(thick, thin) { en: "The splice is thickest at {thick} and thinnest at {thin}: the jaws are not true.", es: "El empalme es más grueso en {thick} y más delgado en {thin}: las mordazas no están parejas." }
    spread_and_limit(spread, limit) { en: "Spread {spread}, limit {limit}.", es: "Diferencia máxima {spread}, límite {limit}." }

    // How it stands.
    how_it_stands { en: "How it stands", es: "Cómo está" }
    spread_in(unit) { en: "{unit} spread", es: "{unit} de diferencia" }
    limit_is_not(usual) { en: "not {usual}", es: "no {usual}" }
    limit_is(limit) { en: "limit {limit}", es: "límite {limit}" }
    figure_without(unit, stations) { en: "{unit}, without {stations}", es: "{unit}, sin {stations}" }
    inch_short { en: "inch", es: "pulg." }
    limit_in_force(limit) { en: "The limit that counts is {limit}; it is never converted to judge.", es: "El límite que vale es {limit}; nunca se convierte para juzgar." }
    verdict_none { en: "not read yet", es: "sin lecturas" }
    verdict_open { en: "not judged yet", es: "aún sin juzgar" }

    // What to do.
    what_to_do { en: "What to do", es: "Qué hacer" }
    out_opens_in_closes { en: "OUT opens the jaw there, IN closes it", es: "ABRIR abre la mordaza ahí, CERRAR la cierra" }
    plan_needs_readings { en: "The turns appear here once every arm is measured.", es: "Los giros aparecen aquí cuando estén medidos todos los brazos." }
    column_turns { en: "turns", es: "giros" }
    kind_recommended { en: "recommended", es: "recomendado" }
    kind_outward { en: "outward only", es: "solo ABRIR" }
    your_own_turns { en: "your own turns", es: "sus propios giros" }
    show_it { en: "Show it in the picture", es: "Mostrarlo en el dibujo" }
    plan_row_label(turns, spread, verdict) { en: "{turns}: spread {spread}, {verdict}", es: "{turns}: diferencia {spread}, {verdict}" }
    inside_leave_alone { en: "It is inside the tolerance: leave the nuts alone.", es: "Está dentro de la tolerancia: no toque las tuercas." }
    no_whole_notches_reach(spread, limit) { en: "Whole notches can't reach {limit}; the best they can do is {spread}.", es: "Las ranuras enteras no llegan a {limit}; lo mejor que dan es {spread}." }
    copy_plan { en: "Copy the plan", es: "Copiar el plan" }
    show_recommended { en: "Show advice", es: "Ver consejo" }

    // The picture.
    band_label_ahead(limit) { en: "tolerance {limit}, laid over the next piece", es: "franja {limit}, próxima pieza" }
    band_label(limit) { en: "tolerance band {limit}", es: "franja de tolerancia {limit}" }
    legend_thickness(unit) { en: "thickness in {unit}", es: "espesor en {unit}" }
    legend_likely { en: "9 in 10 pieces lie here", es: "9 de cada 10 caen aquí" }
    thickest { en: "thickest", es: "más grueso" }
    thinnest { en: "thinnest", es: "más delgado" }
    chart_caption(unit) { en: "thickness in {unit}, along the jaw from the operator's left", es: "espesor en {unit}, a lo largo de la mordaza desde la izquierda del operador" }
    legend_now { en: "now", es: "ahora" }
    legend_with_turns { en: "with these turns, on average", es: "con estos giros, en promedio" }
    chart_description(stations) { en: "Profile of the splice: {stations}", es: "Perfil del empalme: {stations}" }
    nut_label(arm, words) { en: "Castle nut {arm}: {words}", es: "Tuerca castillo {arm}: {words}" }
    turn_one_out(arm) { en: "Turn {arm} out one notch", es: "Girar {arm} una ranura a ABRIR" }
    turn_one_in(arm) { en: "Turn {arm} in one notch", es: "Girar {arm} una ranura a CERRAR" }
    word_out { en: "OUT", es: "ABRIR" }
    word_in { en: "IN", es: "CERRAR" }
    nut_before { en: "Nut to the left", es: "Tuerca a la izquierda" }
    nut_after { en: "Nut to the right", es: "Tuerca a la derecha" }
    nut_limits(where_it_is, least, most) { en: "{where_it_is}, limits {least} to {most}", es: "{where_it_is}, límites {least} a {most}" }
    nut_no_limits_entered(where_it_is) { en: "{where_it_is}, no limits entered", es: "{where_it_is}, sin límites" }
    stays_at(position) { en: "stays at {position}", es: "queda en {position}" }
    from_to(from, to) { en: "from {from} to {to}", es: "de {from} a {to}" }
    stationary_jaw(factor) { en: "stationary jaw; gap drawn ×{factor}", es: "mordaza fija; abertura ×{factor}" }
    jaw_above { en: "stationary jaw", es: "mordaza fija" }
    patch_crushed { en: "crushed", es: "aplastado" }
    patch_loose { en: "loose", es: "flojo" }
    patch_tolerance { en: "tolerance", es: "tolerancia" }
    moving_jaw { en: "moving jaw", es: "mordaza móvil" }

    // Dialogs.
    close { en: "Done", es: "Listo" }
    cancel { en: "Cancel", es: "Cancelar" }
    dismiss { en: "OK", es: "OK" }
    unsaved_title { en: "Save this visit before it closes?", es: "¿Guardar esta visita antes de cerrarla?" }
    unsaved_quit_title { en: "Save this visit before quitting?", es: "¿Guardar esta visita antes de salir?" }
    give_up_means { en: "Changes that are not saved are lost for good if you discard them.", es: "Los cambios sin guardar se pierden para siempre si los descarta." }
    give_up_visit_means { en: "It is in no file: discarding it loses all its readings and turns for good.", es: "No está en ningún archivo: si la descarta, se pierden para siempre todas sus lecturas y giros." }
    give_up_visit { en: "Discard the visit", es: "Descartar la visita" }
    save_first { en: "Save first", es: "Guardar primero" }
    keep_working { en: "Keep working", es: "Seguir trabajando" }
    give_up_changes { en: "Discard changes", es: "Descartar los cambios" }
    changed_on_disk_title { en: "Somebody else changed this file", es: "Alguien más cambió este archivo" }
    changed_on_disk_text { en: "The file changed since it was opened. Saving over it puts mine in its place; theirs is kept as a backup beside it.", es: "El archivo cambió desde que se abrió. Guardar encima pone lo mío en su lugar; lo de la otra persona queda al lado como respaldo." }
    file_exists_title { en: "A file of this name exists", es: "Ya existe un archivo con ese nombre" }
    file_exists_text(path) { en: "Replacing it puts this visit in its place; what is there now is kept as a backup beside it. {path}", es: "Al reemplazarlo, esta visita toma su lugar; lo que hay ahora queda al lado como respaldo. {path}" }
    another_name { en: "Another name", es: "Otro nombre" }
    replace_file { en: "Replace it", es: "Reemplazarlo" }
    save_over { en: "Save over it", es: "Guardar encima" }
    save_this_visit { en: "Save this visit", es: "Guardar esta visita" }
    name_of_file { en: "Name", es: "Nombre" }
    folder_of_file { en: "Folder", es: "Carpeta" }
    asked_before_replacing { en: "Where a file of this name exists, you are asked before anything is replaced.", es: "Si ya existe un archivo con ese nombre, se pregunta antes de reemplazar algo." }
    folder_above { en: "Folder above", es: "Carpeta de arriba" }
    folder_unread { en: "This folder is not there or cannot be read. Check how it is written.", es: "Esta carpeta no existe o no se puede leer. Revise cómo está escrita." }
    folder_make { en: "Make this folder", es: "Crear esta carpeta" }
    folder_home { en: "Home folder", es: "Carpeta personal" }
    folder_desktop { en: "Desktop", es: "Escritorio" }
    folder_documents { en: "Documents", es: "Documentos" }
    folder_empty { en: "No folders here, and no files of this kind.", es: "Aquí no hay carpetas ni archivos de este tipo." }
    open_it { en: "Open it", es: "Abrirlo" }
    save_it { en: "Save it", es: "Guardarlo" }
    leftovers_title { en: "Unsaved work from last time", es: "Trabajo sin guardar de la vez pasada" }
    leftovers_text { en: "The program closed before it was saved. Go on with it and save it; discarding deletes it for good.", es: "El programa se cerró antes de guardarlo. Siga con él y guárdelo; si lo descarta, se borra para siempre." }
    kept_aside_at(when, passes, readings) { en: "kept {when}; passes: {passes}, readings: {readings}", es: "del {when}; pasadas: {passes}, lecturas: {readings}" }
    take_up { en: "Go on with it", es: "Seguir con él" }
    throw_away { en: "Discard it", es: "Descartarlo" }
    decide_later { en: "Decide later", es: "Decidir después" }
    minutes_ago(minutes) { en: "{minutes} min ago", es: "hace {minutes} min" }
    no_messages { en: "No messages yet. What the program says (saved, refused, changed) stays here to be read again.", es: "Aún no hay mensajes. Lo que dice el programa (guardado, rechazado, cambiado) queda aquí para leerlo otra vez." }
    about_title(version) { en: "Jawtrue {version}", es: "Jawtrue {version}" }
    about_text { en: "Helps to bring a powered lacing press true. You type the readings of a test piece; it says which castle nuts to turn, how many whole notches, and which way.", es: "Ayuda a emparejar una prensa de engrape para bandas. Usted escribe las lecturas de una pieza de prueba; el programa dice qué tuercas castillo girar, cuántas ranuras enteras y hacia dónde." }
    about_fault { en: "If something goes wrong: copy a report and send it to whoever helps. It tells version, folders and the log, never readings or names.", es: "Si algo falla: copie un informe y mándelo a quien ayude. Dice versión, carpetas y registro; nunca lecturas ni nombres." }
    about_safety { en: "The machine's manual, local codes and qualified people come first. The program's advice does not replace them.", es: "Primero van el manual de la máquina, las normas locales y el personal calificado. Los consejos del programa no los reemplazan." }
    about_licence { en: "MIT license. Fonts: DejaVu, under their own free license.", es: "Licencia MIT. Tipografía: DejaVu, con su propia licencia libre." }
    shortcuts { en: "Keys", es: "Teclas" }
    help_safety { en: "Working safely", es: "Trabajo seguro" }
    help_way { en: "From readings to turns", es: "De las lecturas a los giros" }
    help_drawn_pinched { en: "The nut at B is in too far. Below the green band the hooks cut into the belt; OUT opens the jaw there, and a little beside it.", es: "La tuerca de B está demasiado enroscada. Bajo la franja verde los ganchos cortan la banda; ABRIR abre la mordaza ahí, y un poco a los lados." }
    help_drawn_out(way, thread) { en: "OUT, {way} as you face the end of the rod ({thread}): thicker there. The ring shows where the mark ends up.", es: "ABRIR, {way}, de frente a la punta del tirante ({thread}): ahí más grueso. El anillo muestra dónde queda la marca." }
    right_hand_thread { en: "right-hand thread", es: "rosca derecha" }
    left_hand_thread_short { en: "left-hand thread", es: "rosca izquierda" }
    help_drawn_in(way, thread) { en: "IN, {way} as you face the end of the rod ({thread}): thinner there. The ring shows where the mark ends up.", es: "CERRAR, {way}, de frente a la punta del tirante ({thread}): ahí más delgado. El anillo muestra dónde queda la marca." }
    help_before_hands { en: "Before hands go in", es: "Antes de meter las manos" }
    help_at_the_nuts { en: "At the nuts", es: "En las tuercas" }
    help_at_the_jaws { en: "Lacing, chains and cleaning", es: "Engrape, cadenas y limpieza" }
    help_sources(sources) { en: "Sources: {sources}. Without a number: common practice, no source.", es: "Fuentes: {sources}. Sin número: práctica común, sin referencia." }
    help_paragraphs {
        en: "1. Type the readings of the test piece, or paste them from a spreadsheet. A length may carry its unit: 0.2475, 6.29 mm, 1/4″, 247.5 thou.\n\
            2. The curve is the thickness of the splice along the jaw. The green band is the tolerance. It slides up and down, because only the spread counts: when all arms fit into it, the jaws are true.\n\
            3. Choose a row of turns, or move a castle nut notch by notch: drag or scroll it, use its buttons or the arrow keys. A second, dashed curve shows what that would do. Nothing is noted yet.\n\
            4. “Make safe and turn” asks whether the press is made safe, then shows one nut at a time. Check off each one as you turn it; if you miscounted, correct it there. OUT backs the nut off, IN runs it in.\n\
            5. Power back on as the manual says, lace, measure; before every further turn make safe all over again.\n\
            6. Once it is inside, “Close out”: make safe, a pin in every nut, tools out, guards on. Then save; a copy of unsaved work is kept every few seconds and offered after a crash.",
        es: "1. Escriba las lecturas de la pieza de prueba, o péguelas de una hoja de cálculo. Una medida puede llevar unidad: 0.2475, 6.29 mm, 1/4″, 247.5 thou.\n\
            2. La curva es el espesor del empalme a lo largo de la mordaza. La franja verde es la tolerancia. Sube y baja, porque solo cuenta la diferencia máxima: cuando todos los brazos caben en ella, las mordazas están parejas.\n\
            3. Elija una fila de giros, o mueva una tuerca castillo ranura por ranura: arrástrela, use la rueda, sus botones o las flechas. Una segunda curva, de rayas, muestra lo que eso haría. Todavía no se anota nada.\n\
            4. «Asegurar y girar» pregunta si la prensa está asegurada y luego muestra una tuerca a la vez. Marque cada una al girarla; si contó mal, corríjalo ahí. ABRIR afloja la tuerca, CERRAR la enrosca.\n\
            5. Conecte la corriente como dice el manual, engrape y mida; antes de cada nuevo giro asegure todo otra vez.\n\
            6. Cuando quede dentro, «Terminar»: asegure, una chaveta en cada tuerca, herramientas afuera, guardas puestas. Luego guarde; el trabajo sin guardar se copia aparte cada pocos segundos y se ofrece si el programa se cerró."
    }

    // Starting a session and properties.
    session_unit { en: "Unit of the visit", es: "Unidad de la visita" }
    other_unit_on_show { en: "The unit shown is not that of the visit; a number typed here without a unit is taken in the unit shown.", es: "La unidad mostrada no es la de la visita; un número sin unidad se toma en la unidad mostrada." }
    metric_tolerance_is_looser { en: "0.003″ is 0.0762 mm. The usual metric figure, 0.1 mm, is 31% looser.", es: "0.003″ son 0.0762 mm. El valor métrico usual, 0.1 mm, es 31 % más amplio." }
    start_is_usual { en: "Filled in: common practice, no source.", es: "Lo ya escrito: práctica común, sin referencia." }
    not_measured_usual(usual) { en: "not measured: {usual}", es: "sin medir: {usual}" }
    nuts_at_start { en: "Where the nuts are now, in notches", es: "Dónde están las tuercas, en ranuras" }
    nuts_at_start_hint { en: "0 is flush with the end of the rod; OUT is plus, IN is minus. Empty: not known. Then 0 is where each nut stands now, and its limits cannot be judged.", es: "0 es al ras de la punta del tirante; ABRIR es más, CERRAR es menos. Vacío: no se sabe. Entonces 0 es donde está ahora cada tuerca, y no se pueden juzgar sus límites." }
    nuts_of_arms(found, arms) { en: "Where the nuts are: typed for {found} of {arms}. Type all of them, or none.", es: "Dónde están las tuercas: {found} de {arms} escritas. Escríbalas todas o ninguna." }
    nuts_not_known { en: "Nut positions were not known at the start: 0 is where each nut stood then, not flush.", es: "Al inicio no se sabía la posición de las tuercas: 0 es donde estaba cada una entonces, no el ras." }
    start_needs_length { en: "To start, type the jaw length", es: "Para comenzar, escriba el largo de la mordaza" }
    not_whole_notches(found) { en: "Enter whole notches such as -4; “{found}” is not.", es: "Escriba ranuras enteras como -4; «{found}» no lo es." }
    start_session { en: "Start the visit", es: "Comenzar la visita" }
    section_judging { en: "Judging", es: "Cómo se juzga" }
    limit_in { en: "Furthest IN", es: "Más CERRADA" }
    limit_out { en: "Furthest OUT", es: "Más ABIERTA" }
    limit_in_of(arm) { en: "IN limit at {arm}", es: "Límite CERRAR en {arm}" }
    limit_out_of(arm) { en: "OUT limit at {arm}", es: "Límite ABRIR en {arm}" }
    nut_at_start { en: "Nut at start", es: "Tuerca al inicio" }
    start_nut_step(arm, mark) { en: "Start of nut {arm}: {mark} 1", es: "Inicio de la tuerca {arm}: {mark} 1" }
    remove_arm(arm) { en: "Remove arm {arm}", es: "Quitar el brazo {arm}" }
    add_arm { en: "Add an arm", es: "Agregar un brazo" }
    add_station { en: "Add a measuring point", es: "Agregar un punto" }
    stations_hint { en: "The center of every arm is one; add others where you measure. Only those checked count toward the spread.", es: "El centro de cada brazo es uno; agregue otros donde mida. Solo los marcados cuentan para la diferencia." }
    station_counts(name, position) { en: "{name} at {position} counts", es: "{name} en {position} cuenta" }
    remove_station(name) { en: "Remove {name}", es: "Quitar {name}" }

    // Messages.
    said_saved_in_doubt(file, count) { en: "Saved: {file}. Readings in doubt: {count}.", es: "Guardada: {file}. Lecturas dudosas: {count}." }
    readings_in_doubt(count) { en: "Readings in doubt: {count}", es: "Lecturas dudosas: {count}" }
    said_saved(file) { en: "Saved: {file}", es: "Guardada: {file}" }
    said_opened(file) { en: "Opened: {file}", es: "Abierta: {file}" }
    said_copied { en: "The plan is on the clipboard.", es: "El plan está en el portapapeles." }
    said_next_pass(pass) { en: "Pass {pass} is open. Lace a test piece and type its readings.", es: "La pasada {pass} está abierta. Engrape una pieza de prueba y escriba sus lecturas." }
    said_taken_up(when) { en: "The work as it was kept at {when} is open again. Save it.", es: "El trabajo, como quedó guardado aparte el {when}, está abierto otra vez. Guárdelo." }
    said_preferences_damaged(path) { en: "Your settings could not be read; a copy was kept and the usual ones are used. {path}", es: "No se pudieron leer los ajustes; quedó una copia y se usan los habituales. {path}" }
    said_recovery_off { en: "Unsaved work can't be kept safe on this computer: save often.", es: "En esta computadora no se puede guardar aparte el trabajo sin guardar: guarde seguido." }
    said_not_kept_aside(why) { en: "What you enter is not being kept safe in case of a crash: {why} Save often; it is tried again.", es: "Lo que captura no se está guardando aparte por si falla el programa: {why} Guarde seguido; se vuelve a intentar." }
    said_kept_aside_again { en: "Unsaved work is being kept safe again.", es: "El trabajo sin guardar se guarda aparte otra vez." }
    said_save_stalls(path) { en: "Still saving: the disk or network does not answer. You can go on, or save somewhere else (Save as). {path}", es: "Todavía se está guardando: el disco o la red no responde. Puede seguir, o guardar en otro lugar (Guardar como). {path}" }
    said_saved_late(path) { en: "The slow save is done too; that file is a copy now. {path}", es: "También terminó el guardado lento; ese archivo es ahora una copia. {path}" }
    about_copy { en: "Copy a report", es: "Copiar un informe" }
    about_not_copied { en: "The report could not be written. In a terminal: jawtrue doctor.", es: "No se pudo escribir el informe. En una terminal: jawtrue doctor." }
    about_copied { en: "The report is copied. Paste it into a message.", es: "El informe está copiado. Péguelo en un mensaje." }
    about_licence_text { en: "The license in full", es: "La licencia completa" }
}
