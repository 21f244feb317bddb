//! The headings of the sheet of keys, and the keys that work in one place only.
//! Those that work anywhere stand in the window's table of commands.

texts! {
    keys_work { en: "Work", es: "Trabajo" }
    keys_view { en: "View", es: "Vista" }
    keys_file { en: "File", es: "Archivo" }
    keys_places { en: "Depends on what is in front", es: "Depende de lo que esté al frente" }
    keys_of_places {
        en: "Enter or Down, Tab\tReadings: next arm, next repeat\n\
            Shift+Enter or Up, Shift+Tab\tReadings: arm before, repeat before\n\
            Left, Right\tReadings: next cell, before you type\n\
            Escape\tReadings: put back what was there, then leave\n\
            Up or +\tChosen nut: one notch OUT\n\
            Down or −\tChosen nut: one notch IN\n\
            Home\tChosen nut: back to where it is\n\
            Left, Right\tChosen nut: go to the next nut\n\
            Enter\tArm by arm: take the reading\n\
            Down, Up\tArm by arm: skip, go back\n\
            Left, Right\tCrew view: step back, next step\n\
            Space\tCrew view: show the motion again\n\
            Escape\tLeave a view or dialog\n\
            Tab, Shift+Tab\tNext control, control before",
        es: "Enter o Abajo, Tab\tLecturas: brazo siguiente, repetición siguiente\n\
            Shift+Enter o Arriba, Shift+Tab\tLecturas: brazo anterior, repetición anterior\n\
            Izquierda, Derecha\tLecturas: celda de al lado, antes de escribir\n\
            Escape\tLecturas: dejar lo que había, luego salir\n\
            Arriba o +\tTuerca elegida: ABRIR una ranura\n\
            Abajo o −\tTuerca elegida: CERRAR una ranura\n\
            Inicio\tTuerca elegida: volver a donde está\n\
            Izquierda, Derecha\tTuerca elegida: ir a la tuerca de al lado\n\
            Enter\tBrazo por brazo: tomar la lectura\n\
            Abajo, Arriba\tBrazo por brazo: saltar, volver\n\
            Izquierda, Derecha\tVista para el grupo: paso anterior, siguiente\n\
            Espacio\tVista para el grupo: repetir el movimiento\n\
            Escape\tSalir de una vista o un diálogo\n\
            Tab, Shift+Tab\tControl siguiente, control anterior"
    }
}
