//! Files: session files and their format, safe writing, recovery after a
//! crash, preferences, and the moment they are written at. Knows every room
//! below it; speaks no sentences, only typed problems.

mod comments;
mod csv;
mod csv_columns;
mod csv_found;
mod csv_preview;
mod csv_problem;
mod damage;
mod decimal_commas;
mod disk;
mod fields;
mod fingerprint;
mod folder_health;
mod folder_list;
mod folders;
mod gauge_line;
mod head;
mod in_order;
mod log;
mod moment;
mod open;
mod plain_lines;
mod port_settings;
mod practice_file;
mod practice_record;
mod press_file;
mod readings_file;
mod real_disk;
mod recovery;
mod renderer;
mod replace;
mod samples;
mod save;
mod shop_folder;
mod shop_index;
mod shop_reader;
mod shop_taught;
mod shop_watch;
mod teaching;
mod upkeep_file;
mod write_out;

pub use csv::readings_from_csv;
pub use csv_columns::CsvColumns;
pub use csv_found::{CsvFound, CsvReading};
pub use csv_preview::{CsvLine, csv_columns, csv_lines};
pub use csv_problem::{CsvCellProblem, CsvCellWrong, CsvProblem, MOST_PROBLEMS};
pub use damage::{Damage, TextPlace};
pub use disk::{Content, Disk, DiskFile, DiskProblem, Hold, MOST_BYTES};
pub use fields::{Found, load_fields, peek_fields, save_fields};
pub use fingerprint::Fingerprint;
pub use folder_health::FolderHealth;
pub use folder_list::{Listed, folder_list};
pub use folders::{Folders, UsualFolder};
pub use head::Instead;
pub use in_order::in_order;
pub use log::{Log, log_line, log_lines};
pub use moment::{moment_of, new_session_id, today};
pub use open::{
    OpenProblem, Opened, OtherKind, UnsoundPractice, holds_comments, open, open_on,
    session_from_text,
};
pub use port_settings::{Framing, LineEnding, PORT_SPEEDS, PortSettings};
pub use practice_file::{
    OpenedPractice, PRACTICE_ENDING, PracticeFile, open_practice, practice_text, save_practice,
};
pub use practice_record::{PRACTICE_RECORD, add_to_record, finish_key};
pub use press_file::{OpenedPress, open_press, save_press};
pub use readings_file::{MOST_READINGS_BYTES, ReadingsFileProblem, read_readings_file};
pub use real_disk::RealDisk;
pub use recovery::{Leftover, Origin, Recovery, leftovers};
pub use renderer::{Renderer, RendererMemory};
pub use replace::backup_path;
pub use samples::SampleSession;
pub use save::{Expected, SaveProblem, save, save_on, session_text};
pub use shop_folder::{SessionFiles, Stamp, session_files};
pub use shop_index::shop_index_path;
pub use shop_reader::{Look, Progress, Shop, ShopReader};
pub use shop_taught::press_taught;
pub use shop_watch::{ShopNews, ShopWatch};
pub use teaching::{TeachProblem, teach};
pub use upkeep_file::{UPKEEP_FILE, UpkeepProblem, keep_upkeep, open_upkeep};
pub use write_out::write_out;

pub use gauge_line::{GaugeLineProblem, GaugeLines, LineEnd, MOST_LINE_BYTES, parse_gauge_line};

/// The ending of session files, without the dot.
pub const SESSION_ENDING: &str = "jawtrue";

/// The numbers of the formats that this version writes and reads up to:
/// session, press and practice files, and a shop's upkeep.
pub const FORMATS: [u32; 4] = [
    crate::session::FORMAT,
    press_file::PRESS_FORMAT,
    practice_file::PRACTICE_FORMAT,
    upkeep_file::UPKEEP_FORMAT,
];
