//! Starts the window or a text command; nothing else.
fn main() {
    let file = std::env::args_os().nth(1).map(Into::into);
    if let Err(error) = jawtrue::window::run(file) {
        eprintln!("{error}");
    }
}
