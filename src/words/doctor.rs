//! What `doctor` says.

texts! {
    help_doctor {
        en: "\
jawtrue doctor

Prints what whoever helps will ask: version and formats, system, display,
graphics, folders with what is free there, the clock, and the program's log.
Nothing of any visit is in it. Send it with: jawtrue doctor > doctor.txt",
        es: "\
jawtrue doctor

Imprime lo que preguntará quien ayude: versión y formatos, sistema, pantalla,
gráficos, carpetas con lo que queda libre, el reloj y el registro del programa.
No contiene nada de ninguna visita. Para enviarlo: jawtrue doctor > doctor.txt"
    }
    doctor_display(found) { en: "Display: {found}", es: "Pantalla: {found}" }
    doctor_no_display { en: "none; everything is said as text", es: "ninguna; todo se dice como texto" }
    doctor_remote { en: "reached by remote login", es: "por acceso remoto" }
    doctor_clock(now) { en: "Clock: {now}", es: "Reloj: {now}" }
    doctor_clock_wrong(now) { en: "Clock: {now}. That can't be right: set the clock, or files get wrong dates.", es: "Reloj: {now}. No puede ser: ponga el reloj a la hora, o los archivos llevarán fechas falsas." }
    doctor_no_folders { en: "Folders: this user has none; settings and unsaved work are not kept.", es: "Carpetas: este usuario no tiene; no se guardan ajustes ni trabajo sin guardar." }
    doctor_settings { en: "Settings", es: "Ajustes" }
    doctor_kept_aside { en: "Unsaved work", es: "Trabajo sin guardar" }
    doctor_here { en: "This folder", es: "Esta carpeta" }
    doctor_folder(name, path, state) { en: "{name}: {path} — {state}", es: "{name}: {path} — {state}" }
    doctor_writable { en: "can be written.", es: "se puede escribir." }
    doctor_free(state, mb) { en: "{state} Free: {mb} MB", es: "{state} Libre: {mb} MB" }
    doctor_failed(names) { en: "Failed on this computer, and tried last: {names}", es: "Falló en esta computadora y se prueba al final: {names}" }
    doctor_graphics(found) { en: "Graphics for wgpu: {found}", es: "Gráficos para wgpu: {found}" }
    doctor_no_graphics { en: "none; the window is drawn through OpenGL (glow)", es: "ninguno; la ventana se dibuja con OpenGL (glow)" }
    doctor_log { en: "Log:", es: "Registro:" }
}
