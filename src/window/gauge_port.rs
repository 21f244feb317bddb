//! A gauge that sends its readings over a serial port, listened to on a thread
//! of its own, so that no port can block the window.

use std::io::ErrorKind;
use std::path::Path;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{Receiver, SyncSender, sync_channel};
use std::sync::{Arc, Mutex, PoisonError};
use std::time::{Duration, Instant};

use serial2::{CharSize, FlowControl, Parity, SerialPort, Settings, StopBits};

use crate::store::{DiskProblem, Framing, LineEnding, PortSettings};
use crate::store::{GaugeLineProblem, GaugeLines, LineEnd};

/// How long a read waits before it looks whether it is still wanted.
const PATIENCE: Duration = Duration::from_millis(200);

/// How long a gauge that ends no lines is silent between two readings: many
/// characters long at the slowest speeds, and shorter than a hand.
const PAUSE: Duration = Duration::from_millis(300);

/// Most events that wait for the window. Behind them the thread waits, and
/// what the gauge sends meanwhile waits in the system's own store.
const MOST_WAITING: usize = 256;

/// What came from the port.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum PortEvent {
    /// It is open.
    Opened,
    /// A reading, as text for a cell.
    Reading(String),
    /// A line that is no reading.
    Wrong(GaugeLineProblem),
    /// It cannot be opened.
    NotOpened(DiskProblem),
    /// The far end is gone; whether in the middle of a line, which is then
    /// dropped: half a number is no reading.
    Gone {
        /// Whether half a line had come.
        in_a_line: bool,
    },
}

/// Held by the thread that listens: one at a time, or the one before would take
/// what the gauge sends to the next.
pub type Listening = Arc<Mutex<()>>;

/// A port being listened to. Dropping it ends the listening.
#[derive(Debug)]
pub struct GaugePort {
    events: Receiver<PortEvent>,
    unwanted: Arc<AtomicBool>,
}

impl GaugePort {
    /// Starts listening as soon as no other thread does; answers at once. `wake`
    /// is called from the other thread after every event.
    pub fn open(
        settings: PortSettings,
        listening: Listening,
        wake: impl Fn() + Send + 'static,
    ) -> Self {
        let (sender, events) = sync_channel(MOST_WAITING);
        let unwanted = Arc::new(AtomicBool::new(false));
        let listener = Listener {
            sender,
            unwanted: unwanted.clone(),
            wake,
        };
        std::thread::spawn(move || {
            let _held = listening.lock().unwrap_or_else(PoisonError::into_inner);
            listener.listen(&settings);
        });
        Self { events, unwanted }
    }

    /// What came since the last look, as much as could wait.
    pub fn take(&self) -> Vec<PortEvent> {
        self.events.try_iter().take(MOST_WAITING).collect()
    }
}

impl Drop for GaugePort {
    fn drop(&mut self) {
        self.unwanted.store(true, Ordering::Relaxed);
    }
}

/// Names of the serial ports there are.
pub fn ports() -> Vec<String> {
    let found = SerialPort::available_ports().unwrap_or_default();
    let mut names: Vec<String> = found
        .iter()
        .map(|path| path.display().to_string())
        .collect();
    names.sort();
    names
}

struct Listener<W> {
    sender: SyncSender<PortEvent>,
    unwanted: Arc<AtomicBool>,
    wake: W,
}

/// The window no longer listens.
struct Unwanted;

impl<W: Fn()> Listener<W> {
    fn send(&self, event: PortEvent) -> Result<(), Unwanted> {
        self.sender.send(event).map_err(|_| Unwanted)?;
        (self.wake)();
        Ok(())
    }

    fn listen(self, settings: &PortSettings) {
        // Nobody is left to be told when the window has gone.
        let _ = match open(settings) {
            Ok(port) => self.read(&port, settings.ending),
            Err(error) => self.send(PortEvent::NotOpened(error.into())),
        };
    }

    fn read(&self, port: &SerialPort, ending: LineEnding) -> Result<(), Unwanted> {
        self.send(PortEvent::Opened)?;
        let (end, ends): (LineEnd, &[u8]) = match ending {
            LineEnding::Either | LineEnding::Pause => (LineEnd::Either, b"\r\n"),
            LineEnding::CarriageReturn => (LineEnd::CarriageReturn, b"\r"),
            LineEnding::LineFeed => (LineEnd::LineFeed, b"\n"),
        };
        let mut lines = GaugeLines::ending(end);
        let mut in_a_line = false;
        let mut last_byte = Instant::now();
        let mut buffer = [0; 256];
        while !self.unwanted.load(Ordering::Relaxed) {
            let found = match port.read(&mut buffer) {
                Ok(0) => return self.send(PortEvent::Gone { in_a_line }),
                Ok(length) => {
                    let bytes = buffer.get(..length).unwrap_or_default();
                    in_a_line = bytes.last().is_some_and(|byte| !ends.contains(byte));
                    last_byte = Instant::now();
                    lines.push(bytes)
                }
                Err(error) => match error.kind() {
                    ErrorKind::TimedOut | ErrorKind::WouldBlock => {
                        let over = ending == LineEnding::Pause && last_byte.elapsed() >= PAUSE;
                        if over && std::mem::take(&mut in_a_line) {
                            lines.flush().into_iter().collect()
                        } else {
                            Vec::new()
                        }
                    }
                    ErrorKind::Interrupted => Vec::new(),
                    _ => return self.send(PortEvent::Gone { in_a_line }),
                },
            };
            for line in found {
                self.send(match line {
                    Ok(reading) => PortEvent::Reading(reading),
                    Err(problem) => PortEvent::Wrong(problem),
                })?;
            }
        }
        Ok(())
    }
}

fn open(settings: &PortSettings) -> std::io::Result<SerialPort> {
    let (size, parity, stop) = match settings.framing {
        Framing::EightNone1 => (CharSize::Bits8, Parity::None, StopBits::One),
        Framing::EightEven1 => (CharSize::Bits8, Parity::Even, StopBits::One),
        Framing::EightOdd1 => (CharSize::Bits8, Parity::Odd, StopBits::One),
        Framing::SevenEven1 => (CharSize::Bits7, Parity::Even, StopBits::One),
        Framing::SevenOdd1 => (CharSize::Bits7, Parity::Odd, StopBits::One),
        Framing::SevenEven2 => (CharSize::Bits7, Parity::Even, StopBits::Two),
        Framing::SevenNone2 => (CharSize::Bits7, Parity::None, StopBits::Two),
    };
    let configured = |mut port: Settings| {
        port.set_raw();
        port.set_baud_rate(settings.speed)?;
        port.set_char_size(size);
        port.set_parity(parity);
        port.set_stop_bits(stop);
        port.set_flow_control(FlowControl::None);
        Ok(port)
    };
    let mut port = SerialPort::open(Path::new(&settings.port), configured)?;
    port.set_read_timeout(PATIENCE)?;
    // Many a gauge draws its current from these lines; a port without them
    // needs neither.
    let _ = port.set_dtr(true);
    let _ = port.set_rts(true);
    Ok(port)
}
