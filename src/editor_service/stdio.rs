//! The service on standard input and output: one thread reads messages, the other answers them.

use std::io::{self, BufReader};
use std::sync::mpsc::{Receiver, RecvTimeoutError, Sender, channel};
use std::thread;
use std::time::Duration;

use super::Service;
use super::framing::{Frame, read_frame, write_frame};

/// How often files on disk are looked at where the editor does not tell of their changes.
const LOOK: Duration = Duration::from_secs(2);

/// Serves the editor on standard input and output until it ends. The exit status.
///
/// # Errors
/// Where standard output cannot be written.
pub fn serve() -> io::Result<u8> {
    let (sender, receiver) = channel();
    // It is not waited for: at the end it may be reading still.
    thread::spawn(move || read_all(&sender));
    let mut service = Service::default();
    let mut out = io::stdout().lock();
    let mut write = |messages: Vec<String>| messages.iter().try_for_each(|message| write_frame(&mut out, message));
    while let Some(waiting) = waiting(&receiver, service.looks_at_files()) {
        write(service.receive_all(waiting))?;
        if let Some(status) = service.exit_status() {
            return Ok(status);
        }
        // Once for all that came together: findings of a text that has changed again are of no use.
        write(service.settle())?;
    }
    Ok(service.status_at_end())
}

fn read_all(to: &Sender<Frame>) {
    let mut input = BufReader::new(io::stdin());
    while let Ok(Some(frame)) = read_frame(&mut input) {
        if to.send(frame).is_err() {
            return;
        }
    }
}

/// What has come, at least one message unless files are to be looked at; `None` at the end.
fn waiting(from: &Receiver<Frame>, looks: bool) -> Option<Vec<Frame>> {
    let first = if looks { from.recv_timeout(LOOK) } else { from.recv().map_err(RecvTimeoutError::from) };
    match first {
        Ok(first) => Some(std::iter::once(first).chain(from.try_iter()).collect()),
        Err(RecvTimeoutError::Timeout) => Some(Vec::new()),
        Err(RecvTimeoutError::Disconnected) => None,
    }
}
