//! What the passes say side by side, and what was corrected in them.

texts! {
    trace_of_nothing(pass) { en: "Pass {pass}: the trace of a correction is about a station, a reading or an arm that is not there.", es: "Pasada {pass}: el rastro de una corrección habla de una estación, una lectura o un brazo que no existe." }
    quantity_corrections { en: "corrections of a pass", es: "correcciones de una pasada" }
}
