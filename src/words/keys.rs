//! The keys that work in one place only, for the sheet of shortcuts. Those
//! that work anywhere stand in the window's table of commands.

use super::language::Language;

impl Language {
    /// What a key does and its name on the keyboard, place by place.
    pub fn keys_of_places(self) -> [(&'static str, &'static str); 14] {
        [
            (self.key_next_cell(), self.key_next_cell_names()),
            (self.key_cell_before(), self.key_cell_before_names()),
            (self.key_cell_beside(), self.key_cell_beside_names()),
            (self.key_leave_cell(), self.key_escape()),
            (self.key_nut_out(), self.key_nut_out_names()),
            (self.key_nut_in(), self.key_nut_in_names()),
            (self.key_nut_back(), self.key_home()),
            (self.key_nut_beside(), self.key_nut_beside_names()),
            (self.key_guided_enter(), self.key_enter()),
            (self.key_guided_move(), self.key_guided_move_names()),
            (self.key_crew_passes(), self.key_crew_passes_names()),
            (self.key_crew_again(), self.key_space()),
            (self.key_leave_view(), self.key_escape()),
            (self.key_next_control(), self.key_next_control_names()),
        ]
    }
}

texts! {
    key_next_cell { en: "Readings: next arm, next repeat", es: "Lecturas: brazo siguiente, repetición siguiente" }
    key_next_cell_names { en: "Enter or Down, Tab", es: "Enter o Abajo, Tab" }
    key_cell_before { en: "Readings: arm before, repeat before", es: "Lecturas: brazo anterior, repetición anterior" }
    key_cell_before_names { en: "Shift+Enter or Up, Shift+Tab", es: "Shift+Enter o Arriba, Shift+Tab" }
    key_cell_beside { en: "Readings: next cell, before you type", es: "Lecturas: celda de al lado, antes de escribir" }
    key_cell_beside_names { en: "Left, Right", es: "Izquierda, Derecha" }
    key_leave_cell { en: "Readings: put back what was there, then leave", es: "Lecturas: dejar lo que había, luego salir" }
    key_nut_out { en: "Chosen nut: one notch OUT", es: "Tuerca elegida: ABRIR una ranura" }
    key_nut_out_names { en: "Up or +", es: "Arriba o +" }
    key_nut_in { en: "Chosen nut: one notch IN", es: "Tuerca elegida: CERRAR una ranura" }
    key_nut_in_names { en: "Down or −", es: "Abajo o −" }
    key_nut_back { en: "Chosen nut: back to where it is", es: "Tuerca elegida: volver a donde está" }
    key_nut_beside { en: "Chosen nut: go to the next nut", es: "Tuerca elegida: ir a la tuerca de al lado" }
    key_nut_beside_names { en: "Left, Right", es: "Izquierda, Derecha" }
    key_home { en: "Home", es: "Inicio" }
    key_guided_enter { en: "Arm by arm: take the reading", es: "Brazo por brazo: tomar la lectura" }
    key_enter { en: "Enter", es: "Enter" }
    key_guided_move { en: "Arm by arm: skip, go back", es: "Brazo por brazo: saltar, volver" }
    key_guided_move_names { en: "Down, Up", es: "Abajo, Arriba" }
    key_crew_passes { en: "Crew view: step back, next step", es: "Vista para el equipo: paso anterior, siguiente" }
    key_crew_passes_names { en: "Left, Right", es: "Izquierda, Derecha" }
    key_crew_again { en: "Crew view: show the motion again", es: "Vista para el equipo: repetir el movimiento" }
    key_space { en: "Space", es: "Espacio" }
    key_leave_view { en: "Leave a view or dialog", es: "Salir de una vista o un diálogo" }
    key_escape { en: "Escape", es: "Escape" }
    key_next_control { en: "Next control, control before", es: "Control siguiente, control anterior" }
    key_next_control_names { en: "Tab, Shift+Tab", es: "Tab, Shift+Tab" }
}
