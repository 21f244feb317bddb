//! The headings of the sheet of keys, and the keys that work in one place only.
//! Those that work anywhere stand in the window's table of commands.

texts! {
    key_page_up { en: "PageUp", es: "RePág" }
    key_page_down { en: "PageDown", es: "AvPág" }
    keys_work { en: "Work", es: "Trabajo" }
    keys_view { en: "View", es: "Vista" }
    keys_file { en: "File", es: "Archivo" }
    // Where they work, then each with what it does.
    keys_of_places {
        en: "In the readings\n\
            Enter or Down, Tab\tNext arm, next repeat\n\
            Shift+Enter or Up, Shift+Tab\tArm before, repeat before\n\
            Left, Right\tNext cell, before you type\n\
            Escape\tPut back what was there, then leave\n\
            At the nut you chose\n\
            Up or +\tOne notch OUT\n\
            Down or −\tOne notch IN\n\
            Home\tBack to where it is\n\
            Left, Right\tGo to the next nut\n\
            Arm by arm\n\
            Enter\tTake the reading\n\
            Down, Up\tSkip, go back\n\
            In the crew view\n\
            Left, Right\tStep back, next step\n\
            Space\tShow the motion again\n\
            Anywhere\n\
            Escape\tLeave a view or dialog\n\
            Tab, Shift+Tab\tNext control, control before",
        es: "En las lecturas\n\
            Enter o Abajo, Tab\tBrazo siguiente, repetición siguiente\n\
            Shift+Enter o Arriba, Shift+Tab\tBrazo anterior, repetición anterior\n\
            Izquierda, Derecha\tCelda de al lado, antes de escribir\n\
            Escape\tDejar lo que había, luego salir\n\
            En la tuerca elegida\n\
            Arriba o +\tABRIR una ranura\n\
            Abajo o −\tCERRAR una ranura\n\
            Inicio\tVolver a donde está\n\
            Izquierda, Derecha\tIr a la tuerca de al lado\n\
            Brazo por brazo\n\
            Enter\tTomar la lectura\n\
            Abajo, Arriba\tSaltar, volver\n\
            En la vista para la cuadrilla\n\
            Izquierda, Derecha\tPaso anterior, siguiente\n\
            Espacio\tRepetir el movimiento\n\
            En todas partes\n\
            Escape\tSalir de una vista o un diálogo\n\
            Tab, Shift+Tab\tControl siguiente, control anterior"
    }
}
