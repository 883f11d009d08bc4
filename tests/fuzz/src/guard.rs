//! Giving one input to one target: a panic is caught, wherever it is, and told with its place.

use std::fmt;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::{Mutex, PoisonError};
use std::time::Duration;

use crate::pool::Seen;
use crate::targets::{Fault, Target};

/// How much of the processor's time one input may take. The slowest that is known takes a twentieth of it.
pub const MAX_CPU_TIME: Duration = Duration::from_secs(20);

/// How many inputs were begun, for whoever watches that one does not take without end.
pub static BEGUN: AtomicU64 = AtomicU64::new(0);

/// The first panic since somebody looked: its place, and its words. The editor service catches its own.
static PANIC: Mutex<Option<(String, String)>> = Mutex::new(None);

/// What is wrong with an input.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Failure {
    /// What two failures have in common that have the same cause.
    pub kind: String,
    /// The rest.
    pub detail: String,
}

impl fmt::Display for Failure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}\n{}", self.kind, self.detail)
    }
}

/// Makes panics be noted instead of printed.
pub fn note_panics() {
    std::panic::set_hook(Box::new(|info| {
        let place = info.location().map(|at| format!("{}:{}", at.file(), at.line())).unwrap_or_default();
        let words = info.payload_as_str().unwrap_or("a panic without words").to_string();
        PANIC.lock().unwrap_or_else(PoisonError::into_inner).get_or_insert((place, words));
    }));
}

/// The first panic since somebody looked.
pub fn noted() -> Option<(String, String)> {
    PANIC.lock().unwrap_or_else(PoisonError::into_inner).take()
}

/// What comes of an input.
///
/// # Errors
/// Where the target panics, or says what does not hold.
pub fn attempt(target: &Target, input: &[u8], seen: &mut Seen) -> Result<(), Failure> {
    BEGUN.fetch_add(1, Ordering::Relaxed);
    let result = catch_unwind(AssertUnwindSafe(|| (target.run)(input, seen)));
    if let Some((place, words)) = noted() {
        // What the project's own tests assert is no panic of the program.
        let what = if place.contains("/support/") || place.contains("tests/") { "asserted" } else { "panic" };
        let short = place.rsplit_once("../").map_or(place.as_str(), |(_, path)| path);
        return Err(Failure { kind: format!("{what} at {short}"), detail: words });
    }
    match result {
        Ok(Ok(())) => Ok(()),
        Ok(Err(Fault { kind, detail })) => Err(Failure { kind: kind.to_string(), detail }),
        Err(_) => Err(Failure { kind: "panic at an unknown place".to_string(), detail: String::new() }),
    }
}
