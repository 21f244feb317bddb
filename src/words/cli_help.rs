//! Help on the text commands.

texts! {
    help_program {
        en: "\
Jawtrue brings a powered lacing press true: readings of a laced test piece in,
whole-notch turns of the castle nuts out.

  jawtrue [FILE]               the window, on FILE or on the built-in sample;
                               without a display the same as text
  jawtrue new FILE ...         starts a visit file
  jawtrue record FILE ...      adds a pass to it
  jawtrue import FILE ...      adds a pass from a CSV file of readings
  jawtrue judge FILE...        how the last pass is
  jawtrue plan FILE...         the turns to make
  jawtrue learn FILE ...       keeps what a visit taught with the press
  jawtrue practice ...         exercises on a simulated press
  jawtrue card FILE -o OUT     the turn card to take to the press, as PDF
  jawtrue report FILE -o OUT   the report of a visit, as PDF, PNG, SVG or CSV
  jawtrue shop FOLDER          what the visits of a folder say, press by press
  jawtrue upkeep FOLDER        what upkeep is due at its presses; notes it as done
  jawtrue export FOLDER -o OUT every reading of a folder's visits, CSV or JSON
  jawtrue doctor               what a helper asks when something does not work

  jawtrue COMMAND --help       help on a command
  --renderer wgpu|glow         how the window is drawn; otherwise what works
  --language en|es             language; otherwise that of the system
  --version                    the version

Lengths: 0.2475, 1/4, 1-1/8, 6.29mm, 247.5thou; bare numbers are in the
visit's unit. Out is positive, in is negative. Exit status: 0, or 2 when
something failed; a pass outside the tolerance is no failure.

The machine's manual, local codes and qualified people come first.",
        es: "\
Jawtrue empareja una prensa de engrape para bandas: entran las lecturas de una
pieza de prueba, salen los giros de las tuercas castillo en ranuras enteras.

  jawtrue [ARCHIVO]            la ventana, con ARCHIVO o con el ejemplo incluido;
                               sin pantalla, lo mismo como texto
  jawtrue new ARCHIVO ...      inicia un archivo de visita
  jawtrue record ARCHIVO ...   le agrega una pasada
  jawtrue import ARCHIVO ...   le agrega una pasada de un archivo CSV
  jawtrue judge ARCHIVO...     cómo está la última pasada
  jawtrue plan ARCHIVO...      los giros por hacer
  jawtrue learn ARCHIVO ...    guarda con la prensa lo que enseñó una visita
  jawtrue practice ...         ejercicios en una prensa simulada
  jawtrue card ARCHIVO -o SALE la hoja de giros para llevar a la prensa, en PDF
  jawtrue report ARCHIVO -o SALE  el informe de la visita, en PDF, PNG, SVG o CSV
  jawtrue shop CARPETA         lo que dicen las visitas de una carpeta
  jawtrue upkeep CARPETA       qué mantenimiento toca en sus prensas; lo anota
  jawtrue export CARPETA -o SALE  cada lectura de una carpeta, en CSV o JSON
  jawtrue doctor               lo que pregunta quien ayuda cuando algo no funciona

  jawtrue COMANDO --help       ayuda de un comando
  --renderer wgpu|glow         cómo se dibuja la ventana; si no, lo que funcione
  --language en|es             idioma; si no, el del sistema
  --version                    la versión

Medidas: 0.2475, 1/4, 1-1/8, 6.29mm, 247.5thou; un número solo va en la unidad
de la visita. ABRIR es positivo, CERRAR negativo. Estado de salida: 0, o 2 si
algo falló; una pasada fuera de la tolerancia no es una falla.

Primero van el manual de la máquina, las normas locales y el personal calificado."
    }
    help_shop {
        en: "\
jawtrue shop FOLDER [--json]

Tells what the visits of a folder, and of the folders within it, say together,
press by press: every visit with its spread as found and as left, test pieces,
who, how far each nut was turned and what is left of its travel, and how the
press drifts from one visit to the next, with its uncertainty and by when to
check again. Files that cannot be read are told and left as they are; the exit
status is then 2. Visits belong to one press where its name and arms agree.

  --json               one object a press, then one a file that was not read
  --language en|es     language of the answer",
        es: "\
jawtrue shop CARPETA [--json]

Dice lo que las visitas de una carpeta, y de las carpetas dentro de ella, dicen
en conjunto, prensa por prensa: cada visita con su diferencia inicial y final, piezas
de prueba, quién, cuánto se giró cada tuerca y cuánto recorrido le queda, y cómo
se desajusta la prensa de una visita a la siguiente, con su incertidumbre y para cuándo
revisarla. Los archivos que no se pueden leer se dicen y quedan como están; el
estado de salida es entonces 2. Las visitas son de una misma prensa si su nombre
y sus brazos coinciden.

  --json               un objeto por prensa, luego uno por archivo no leído
  --language en|es     idioma de la respuesta"
    }
    help_upkeep {
        en: "\
jawtrue upkeep FOLDER [--press NAME | --gauge NAME] [--done TASK --who WHO]
               [--laced N --who WHO] [--on DATE] [--json]

Tells what upkeep is due at the presses and gauges of a folder, what is due
longest first, then what was never recorded; and notes what is done, in the
folder's upkeep.ron, with who and the day. Tasks come round after days or laced pieces: test pieces
count by themselves, pieces laced in production where they are noted. Intervals
marked “usual” are common practice, no source: the machine's manual comes
first. Tasks are changed in the window, or in the file. If the file is damaged
it is told and left as it is, and nothing is noted.

  --press NAME         only this press; needed to note something
  --gauge NAME         only this gauge, by its name in the visits; needed to note
                       its calibration
  --done TASK          note that this task is done; its name is in brackets in
                       the list
  --on DATE            the day it was done, such as 2026-11-25; today without it
  --laced N            note that N pieces were laced in production since this
                       was noted last
  --who WHO            who did it
  --json               one object a task and press or gauge, the same order:
                       press, gauge, task, words, to_do, recorded, says,
                       every_days, every_pieces, default, last_done, who,
                       cautions; then one a file that was not read
  --language en|es     language of the answer",
        es: "\
jawtrue upkeep CARPETA [--press NOMBRE | --gauge NOMBRE]
               [--done TAREA --who QUIÉN] [--laced N --who QUIÉN]
               [--on FECHA] [--json]

Dice qué mantenimiento toca en las prensas e instrumentos de una carpeta, primero
lo más atrasado, luego lo que no tiene registro; y anota lo hecho en el
archivo upkeep.ron de la carpeta, con quién y qué día. Las tareas tocan cada tantos días o piezas
engrapadas: las piezas de prueba se cuentan solas; las de producción, si se
anotan. Los intervalos con «usual» son práctica común, sin referencia:
primero va el manual de la máquina. Las tareas se cambian en la ventana o en el
archivo. Un archivo dañado se dice y queda como está, y no se anota nada.

  --press NOMBRE       solo esta prensa; necesario para anotar
  --gauge NOMBRE       solo este instrumento, por su nombre en las visitas;
                       necesario para anotar su calibración
  --done TAREA         anotar que esta tarea está hecha; su nombre va entre
                       corchetes en la lista
  --on FECHA           el día en que se hizo, como 2026-11-25; sin ella, hoy
  --laced N            anotar que se engraparon N piezas en producción desde la
                       última nota
  --who QUIÉN          quién lo hizo
  --json               un objeto por tarea y prensa o instrumento, en el mismo
                       orden: press, gauge, task, words, to_do, recorded, says,
                       every_days, every_pieces, default, last_done, who,
                       cautions; luego uno por archivo no leído
  --language en|es     idioma de la respuesta"
    }
    help_export {
        en: "\
jawtrue export FOLDER -o OUT.csv|.jsonl

Writes every reading of every visit in a folder, and in the folders within it,
as a table: one row a reading, units in the names of the columns, which the
README explains. A spreadsheet opens it, and so does a query engine. A text that
would run as a formula gets a ' before it (CSV). A file that cannot be read is
told, the others are written, and the exit status is 2.

  -o OUT               what is written, by its ending; a file of that name is
                       replaced (needed)
  --language en|es     language of the answer; the columns stay as they are",
        es: "\
jawtrue export CARPETA -o SALE.csv|.jsonl

Escribe cada lectura de cada visita de una carpeta, y de las carpetas dentro de
ella, en una tabla: una fila por lectura, con la unidad en el nombre de la
columna, como explica el README. La abre una hoja de cálculo o un motor de
consultas. Un texto que correría como fórmula lleva un ' delante (CSV). Si un
archivo no se puede leer, se dice, se escriben los demás y el estado es 2.

  -o SALE              lo que se escribe, según su terminación; un archivo con
                       ese nombre se reemplaza (obligatorio)
  --language en|es     idioma de la respuesta; las columnas quedan igual"
    }
    help_card {
        en: "\
jawtrue card FILE -o OUT.pdf [options]

Writes the turn card of the last pass: one page to take to the press. Where
something is missing or doubtful, or where turning is not the next thing to do,
there are no turns on it, and it says what to do instead.

  -o OUT.pdf           what is written; a file of that name is replaced (needed)
  --unit in|mm         unit of every figure; otherwise the visit's
  --paper letter|A4    the paper; otherwise letter with inches, A4 with mm
  --language en|es     language of the page",
        es: "\
jawtrue card ARCHIVO -o SALE.pdf [opciones]

Escribe la hoja de giros de la última pasada: una página para llevar a la
prensa. Donde algo falta o es dudoso, o donde no toca girar, la hoja no lleva
giros y dice qué hacer en su lugar.

  -o SALE.pdf          lo que se escribe; un archivo con ese nombre se reemplaza
                       (obligatorio)
  --unit in|mm         unidad de las cifras; si no, la de la visita
  --paper letter|A4    el papel; si no, carta con pulgadas, A4 con mm
  --language en|es     idioma de la página"
    }
    help_report {
        en: "\
jawtrue report FILE -o OUT.pdf|.png|.svg|.csv [options]

Writes the report of a visit: as PDF in one or two pages, as a picture of the
profile (PNG, SVG), or every reading as a table (CSV, one row a reading; the
columns are those of the README).

  -o OUT               what is written, by its ending; a file of that name is
                       replaced (needed)
  --unit in|mm         unit of every figure; otherwise the visit's
  --paper letter|A4    the paper; otherwise letter with inches, A4 with mm
  --language en|es     language of the pages",
        es: "\
jawtrue report ARCHIVO -o SALE.pdf|.png|.svg|.csv [opciones]

Escribe el informe de la visita: en PDF de una o dos páginas, como dibujo del
perfil (PNG, SVG), o cada lectura en una tabla (CSV, una fila por lectura; las
columnas son las del README).

  -o SALE              lo que se escribe, según su terminación; un archivo con
                       ese nombre se reemplaza (obligatorio)
  --unit in|mm         unidad de las cifras; si no, la de la visita
  --paper letter|A4    el papel; si no, carta con pulgadas, A4 con mm
  --language en|es     idioma de las páginas"
    }
    help_new {
        en: "\
jawtrue new FILE --arms 6,18,30,42 --length 48 --unit in [options]

Starts a visit file. A file that exists is never written over.

  --arms LIST          positions of the arms from the jaw's left end, from the
                       operator's left, separated by commas (needed)
  --length LENGTH      length of the jaw (needed)
  --unit in|mm         the visit's unit, also of bare numbers here (needed)
  --stations LIST      further measuring points between the arms
  --response CSV       a fixed response table: a row per measuring point, a
                       column per arm, rise per notch out in the visit's
                       unit; nothing is learned then
  --press PRESSFILE    start from a press file, in place of --arms and the rest
  --notch LIST         rise of the splice per notch, one for all arms or one
                       per arm (0.004 in, 0.1016 mm)
  --tolerance LENGTH   tolerance on the spread (0.003 in; 0.1 mm, which is 31%
                       looser)
  --gauge-step LENGTH  resolution of the gauge (0.0005 in, 0.01 mm)
  --nuts LIST          nut positions now, in notches from flush, out positive,
                       one per arm (0)
  --nut-limits LIST    positions a nut may have, both included, such as -12..6,
                       one for all arms or one per arm
  --target LENGTH      thickness the splice should have
  --name, --gauge, --who, --when, --belt, --hooks, --notes TEXT
                       what else to remember; --when is today if left out
  --invented           marks the visit as made up
  --language en|es     language of the answer",
        es: "\
jawtrue new ARCHIVO --arms 6,18,30,42 --length 48 --unit in [opciones]

Inicia un archivo de visita. Un archivo que ya existe nunca se sobrescribe.

  --arms LISTA         posición de los brazos desde el extremo izquierdo de la
                       mordaza, desde la izquierda del operador, separadas por
                       comas (necesario)
  --length MEDIDA      largo de la mordaza (necesario)
  --unit in|mm         unidad de la visita, también de los números solos aquí
                       (necesario)
  --stations LISTA     más puntos de medición entre los brazos
  --response CSV       tabla de respuesta fija: una fila por punto de medición,
                       una columna por brazo, subida por ranura de ABRIR en la
                       unidad de la visita; entonces no se aprende nada
  --press PRENSA       partir de un archivo de prensa, en vez de --arms y lo
                       demás
  --notch LISTA        cuánto sube el empalme por ranura, una para todos los
                       brazos o una por brazo (0.004 in, 0.1016 mm)
  --tolerance MEDIDA   tolerancia de la diferencia (0.003 in; 0.1 mm, que es
                       31 % más amplia)
  --gauge-step MEDIDA  resolución del instrumento (0.0005 in, 0.01 mm)
  --nuts LISTA         posición de las tuercas ahora, en ranuras desde el ras,
                       ABRIR positivo, una por brazo (0)
  --nut-limits LISTA   posiciones permitidas de la tuerca, ambas incluidas,
                       como -12..6, una para todos los brazos o una por brazo
  --target MEDIDA      espesor que debería tener el empalme
  --name, --gauge, --who, --when, --belt, --hooks, --notes TEXTO
                       lo demás que convenga recordar; --when es hoy si falta
  --invented           marca la visita como inventada
  --language en|es     idioma de la respuesta"
    }
    help_record {
        en: "\
jawtrue record FILE --readings \"0.2500 0.2505, 0.2480, , 0.2510\" [options]

Adds a pass to a visit file.

  --readings LIST      readings of the test piece (needed). Commas separate the
                       measuring points, from the left; spaces separate
                       repeats. A value has no spaces and a decimal point
                       (1-1/8, 6.29mm); an empty place is a point not measured
  --turned LIST        notches each nut was turned since the pass before (for
                       the first pass: since --nuts), out positive, one per arm
                       (0,+1,-2,0). Left out: none
  --laced TEXT         when the piece was laced; today if left out
  --note TEXT          whatever should be remembered about the pass
  --language en|es     language of the answer",
        es: "\
jawtrue record ARCHIVO --readings \"0.2500 0.2505, 0.2480, , 0.2510\" [opciones]

Agrega una pasada a un archivo de visita.

  --readings LISTA     lecturas de la pieza de prueba (necesario). Las comas
                       separan los puntos de medición, desde la izquierda; los
                       espacios separan las repeticiones. Un valor va sin
                       espacios y con punto decimal (1-1/8, 6.29mm); un lugar
                       vacío es un punto sin medir
  --turned LISTA       ranuras que se giró cada tuerca desde la pasada anterior
                       (en la primera: desde --nuts), ABRIR positivo, una por
                       brazo (0,+1,-2,0). Si falta: ninguna
  --laced TEXTO        cuándo se engrapó la pieza; hoy si falta
  --note TEXTO         lo que convenga recordar de la pasada
  --language en|es     idioma de la respuesta"
    }
    help_import {
        en: "\
jawtrue import FILE --csv READINGS [options]

Adds a pass to a visit file from a CSV file of readings: one file, one pass.
Either all of it is taken or nothing, and then every place that is wrong is
listed by line and column.

  --csv READINGS       the file of readings (needed). Its first line says what
                       the columns are: arm,reading or arm,reading,unit with a
                       row per reading, or the arms' letters (A,B,C,D) with a
                       row per round, where an empty place is an arm not
                       measured. A further measuring point is named B+6.
                       Without such a line: an arm and its readings a line
                       (A 0.2500 0.2505), or one reading for every point.
                       Columns are separated by commas, semicolons or tabs;
                       with decimal commas not by commas. A reading without a
                       unit is in the visit's
  --turned LIST        notches each nut was turned since the pass before (for
                       the first pass: since --nuts), out positive, one per arm
                       (0,+1,-2,0). Left out: none
  --laced TEXT         when the piece was laced; today if left out
  --note TEXT          whatever should be remembered about the pass
  --language en|es     language of the answer",
        es: "\
jawtrue import ARCHIVO --csv LECTURAS [opciones]

Agrega una pasada a un archivo de visita desde un archivo CSV de lecturas: un
archivo, una pasada. O se toma todo o no se toma nada, y entonces se dice cada
lugar que está mal por línea y columna.

  --csv LECTURAS       el archivo de lecturas (necesario). Su primera línea
                       dice qué son las columnas: brazo,lectura o
                       brazo,lectura,unidad con una fila por lectura, o las
                       letras de los brazos (A,B,C,D) con una fila por ronda,
                       donde un lugar vacío es un brazo sin medir. Otro punto
                       se llama B+6. Sin esa línea: un brazo y sus lecturas por
                       línea (A 0.2500 0.2505), o una lectura por punto. Las
                       columnas se separan con comas, punto y coma o
                       tabuladores; con comas decimales, no con comas.
                       Una lectura sin unidad va en la de la visita
  --turned LISTA       ranuras que se giró cada tuerca desde la pasada anterior
                       (en la primera: desde --nuts), ABRIR positivo, una por
                       brazo (0,+1,-2,0). Si falta: ninguna
  --laced TEXTO        cuándo se engrapó la pieza; hoy si falta
  --note TEXTO         lo que convenga recordar de la pasada
  --language en|es     idioma de la respuesta"
    }
    help_judge {
        en: "\
jawtrue judge FILE... [--confidence C] [--json]

How the last pass of each visit is: spread, tolerance, inside or not (spread
against limit), thickest and thinnest measuring point (an arm's letter; between
arms B+6; the leftmost among equals). Beside it the chances that this piece, the
jaws as they are now (on average over many pieces) and the next piece are
inside, and what would decide it where that is too close to call.

  --confidence C       how sure before calling it, above 0.5 to 0.999 (the
                       visit's own, 0.95 at first)
  --json               one object a line, in the order of the files: file,
                       unit, spread, tolerance, inside, thickest, thinnest,
                       accepted (by the shop's rule), chance and verdict
                       (inside, outside, too close) of this piece, confidence,
                       u (standard uncertainty of every average), measure_again
                       [{station, times}] where it would decide the piece,
                       piece and press {chance, verdict}, next_piece (its
                       chance); lengths are numbers in the visit's unit. A
                       file that fails gives file and error, and the rest go on
  --language en|es     language of the answer",
        es: "\
jawtrue judge ARCHIVO... [--confidence C] [--json]

Cómo está la última pasada de cada visita: diferencia, tolerancia, dentro o no
(la diferencia contra el límite), punto más grueso y más delgado (letra del brazo;
entre brazos B+6; el de más a la izquierda entre iguales). Al lado, las
probabilidades de que esta pieza, las mordazas como están (en promedio de muchas
piezas) y la próxima pieza estén dentro, y qué lo decidiría cuando está muy
cerca del límite.

  --confidence C       certeza exigida, más de 0.5 a 0.999 (la de la visita,
                       al principio 0.95)
  --json               un objeto por línea, en el orden de los archivos: file,
                       unit, spread, tolerance, inside, thickest, thinnest,
                       accepted (según la regla del taller), chance y verdict
                       (inside, outside, too close) de esta pieza, confidence,
                       u (incertidumbre estándar de cada promedio), measure_again
                       [{station, times}] donde decidiría la pieza, piece y
                       press {chance, verdict}, next_piece (su probabilidad);
                       las medidas son números en la unidad de la visita. Un
                       archivo que falla da file y error, y los demás siguen
  --language en|es     idioma de la respuesta"
    }
    help_learn {
        en: "\
jawtrue learn FILE --press PRESSFILE

Writes what the passes of a visit taught into a press file (*.jawpress),
which is made if it is missing. Learning from the same visit again replaces
what was kept of it. `jawtrue new FILE --press PRESSFILE` starts the next visit.

  --press PRESSFILE    the press file (needed)
  --language en|es     language of the answer",
        es: "\
jawtrue learn ARCHIVO --press PRENSA

Guarda lo que enseñaron las pasadas de una visita en un archivo de prensa
(*.jawpress), que se crea si falta. Aprender otra vez de la misma visita
reemplaza lo guardado. `jawtrue new ARCHIVO --press PRENSA` inicia la visita
siguiente.

  --press PRENSA       el archivo de la prensa (necesario)
  --language en|es     idioma de la respuesta"
    }
    help_plan_command {
        en: "\
jawtrue plan FILE... [--most-nuts N] [--outward-only] [--confidence C] [--json]

The whole-notch turns most likely to bring the next test piece inside, arm by
arm, from what this visit and earlier visits taught. A pass that is inside is
left alone.

  --most-nuts N        turn at most N nuts
  --outward-only       turn nuts outward only
  --confidence C       chance from which a plan is called sure, above 0.5
                       to 0.999 (the visit's own, 0.95 at first)
  --json               one object a line, in the order of the files: file,
                       unit, action, missing, doubtful, outside_limits (arms,
                       if any), visits_left_out (visit ids of earlier visits
                       not learned from, if any), turns (out positive, one
                       per arm), spread (median of the next piece), chance (of
                       turns, 0 to 1), options [{kind, turns, nuts, spread,
                       spread90, chance, pieces, minutes}] (both until a piece
                       passes),
                       smallest_spread {turns, spread}, the proven optimum of
                       this piece, seconds (choice and search); lengths are in
                       the visit's unit. A file that fails: file and error
  --language en|es     language of the answer

Before every turn: tell those affected; power off, locked out, stored energy
released or blocked; start button tried: it does not
start.",
        es: "\
jawtrue plan ARCHIVO... [--most-nuts N] [--outward-only] [--confidence C]
             [--json]

Los giros en ranuras enteras con más probabilidad de dejar la próxima pieza
dentro, brazo por brazo, según lo que enseñaron esta visita y las visitas
anteriores. Una pasada dentro de la tolerancia se deja como está.

  --most-nuts N        girar a lo más N tuercas
  --outward-only       solo ABRIR
  --confidence C       probabilidad desde la que un plan se da por cierto, más de
                       0.5 a 0.999 (la de la visita, al principio 0.95)
  --json               un objeto por línea, en el orden de los archivos: file,
                       unit, action, missing, doubtful, outside_limits (brazos,
                       si hay), visits_left_out (ids de visitas anteriores de
                       las que no se aprende, si hay), turns (ABRIR positivo,
                       uno por brazo), spread (mediana de la próxima pieza),
                       chance (de turns, 0 a 1),
                       options [{kind, turns, nuts, spread, spread90, chance,
                       pieces, minutes}] (ambos hasta que una pieza pase),
                       smallest_spread {turns, spread}, el óptimo demostrado de
                       esta pieza, seconds (elección y búsqueda); medidas en la
                       unidad de la visita. Un archivo que falla: file y error
  --language en|es     idioma de la respuesta

Antes de cada giro: avise a los afectados; sin corriente, con candado, energía
acumulada liberada o bloqueada; probado que no arranca."
    }
}
