//! `sparestrip watch`

use std::io::{self, ErrorKind};
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::process::ExitCode;
use std::sync::mpsc::{self, RecvTimeoutError, Sender};
use std::thread;
use std::time::Duration;

use sparestrip::safe_output::SafeOutput;
use sparestrip::watch::{Failure, Options, Stop, watch as watch_paths};

use super::manuscript::in_place_of_texts;
use super::output::{print_error, print_problem, show, wants_links};
use super::{EXIT_FAILURE, WatchArgs, WatchFormat};

/// How long an output that takes nothing more is waited for once the watch is to end.
const GRACE: Duration = Duration::from_secs(1);

/// What the main thread waits for.
enum PathEvent {
    Interrupted,
    Ended(Result<(), Failure>),
    Broke,
}

pub(super) fn watch(args: &WatchArgs) -> ExitCode {
    let (sender, news) = mpsc::channel();
    let stop = Stop::default();
    if let Err(error) = on_interrupt(stop.clone(), sender.clone()) {
        print_error(&format!("Ctrl-C cannot be listened to: {error}"));
        return ExitCode::from(EXIT_FAILURE);
    }
    let options = Options {
        text: args.list.text(args.look.look()),
        poll: args.poll,
        lines: args.format == WatchFormat::Lines,
        signed: args.signed,
        most: args.lines.map(usize::from),
    };
    let paths = match in_place_of_texts(&args.paths) {
        Ok(paths) => paths,
        Err(problem) => {
            print_problem(&problem);
            return ExitCode::from(EXIT_FAILURE);
        }
    };
    // On a thread of its own: a terminal that is paused holds up whoever writes to it, and Ctrl-C works all the same.
    let watching = thread::Builder::new().spawn(move || {
        let colours = options.text.look.colour;
        let out = SafeOutput::new(io::BufWriter::new(io::stdout()));
        let mut out = out.colours(colours).links(wants_links(colours));
        // A panic has said on standard error what it was.
        let result = catch_unwind(AssertUnwindSafe(|| watch_paths(&paths, &options, &mut out, &stop)));
        // Where nobody listens any more the process is at its end.
        let _ = sender.send(result.map_or(PathEvent::Broke, PathEvent::Ended));
    });
    if let Err(error) = watching {
        print_error(&format!("the watch cannot be started: {error}"));
        return ExitCode::from(EXIT_FAILURE);
    }
    let mut patience = Duration::MAX;
    loop {
        match news.recv_timeout(patience) {
            Ok(PathEvent::Interrupted) => patience = GRACE,
            Ok(PathEvent::Ended(result)) => return status(args, result),
            Err(RecvTimeoutError::Timeout) => return ExitCode::SUCCESS,
            Ok(PathEvent::Broke) | Err(RecvTimeoutError::Disconnected) => return ExitCode::from(EXIT_FAILURE),
        }
    }
}

fn on_interrupt(stop: Stop, sender: Sender<PathEvent>) -> Result<(), ctrlc::Error> {
    ctrlc::set_handler(move || {
        stop.stop();
        let _ = sender.send(PathEvent::Interrupted);
    })
}

fn status(args: &WatchArgs, result: Result<(), Failure>) -> ExitCode {
    match result {
        Ok(()) => ExitCode::SUCCESS,
        // Nobody reads on, as with `head`: no fault.
        Err(Failure::Output(error)) if error.kind() == ErrorKind::BrokenPipe => ExitCode::SUCCESS,
        Err(Failure::Output(error)) => {
            print_error(&format!("the report cannot be written: {error}"));
            ExitCode::from(EXIT_FAILURE)
        }
        Err(Failure::NothingThere) => {
            let places: Vec<String> = args.paths.iter().map(|path| show(path)).collect();
            print_error(&format!("nothing to watch: there is no file or folder {}", places.join(", ")));
            ExitCode::from(EXIT_FAILURE)
        }
    }
}
