//! How long an editor waits from a key to the findings, and what memory the service takes.
//!
//! `cargo bench --bench typing` types twenty thousand keys, an hour's worth, into a pattern of five sizes: digits after its
//! numbers, each taken out again. It prints the median, the 99th percentile, which should stay below 20 ms, and the longest:
//! of all keys, and of the best time of each, which says what the program takes where the machine is busy with something
//! else. Then how much memory was taken on the way.

#![allow(clippy::float_arithmetic, clippy::cast_precision_loss, clippy::print_stdout, missing_docs)] // A benchmark prints rates.

use std::time::{Duration, Instant};

use serde_json::{Value, json};
use sparestrip::editor_service::Service;

const TEXT: &str = include_str!("../../example-patterns/osprey-landing.pattern.yaml");
const URI: &str = "file:///nowhere/osprey-landing.pattern.yaml";
const KEYS: usize = 20_000;

fn main() {
    let mut service = Service::default();
    let encodings = json!({ "general": { "positionEncodings": ["utf-8"] } });
    let started = json!({ "jsonrpc": "2.0", "id": 1, "method": "initialize", "params": { "capabilities": encodings } });
    service.receive(&started.to_string());
    tell(
        &mut service,
        "textDocument/didOpen",
        &json!({ "textDocument":
        { "uri": URI, "languageId": "yaml", "version": 0, "text": TEXT } }),
    );
    let places = places();
    let before = memory();
    let mut times = Vec::with_capacity(KEYS);
    let mut best = vec![Duration::MAX; places.len() * 2];
    for key in 0..KEYS {
        let time = typed(&mut service, &places, key);
        times.push(time);
        let of_key = &mut best[key % (places.len() * 2)];
        *of_key = time.min(*of_key);
    }
    println!("{KEYS} keys: {}", percentiles(times));
    println!("best of each: {}", percentiles(best));
    if let (Some(before), Some(after)) = (before, memory()) {
        println!("memory: {before} KiB at the start, {after} KiB at the end");
    }
}

/// The median and the rest, in words.
fn percentiles(mut times: Vec<Duration>) -> String {
    times.sort();
    let last = times.len() - 1;
    let at = |part: usize| times[last * part / 100].as_secs_f64() * 1000.0;
    format!("median {:.2} ms, 99th percentile {:.2} ms, longest {:.2} ms", at(50), at(99), at(100))
}

/// The ends of the numbers, as lines and bytes.
fn places() -> Vec<(usize, usize)> {
    let ends = |(number, line): (usize, &str)| {
        let code = line.split('#').next().unwrap_or_default().to_string();
        let is_end = move |at: &usize| {
            let digit = |at: usize| code.as_bytes().get(at).is_some_and(u8::is_ascii_digit);
            *at > 0 && digit(*at - 1) && !digit(*at)
        };
        (0..=line.len()).filter(is_end).map(move |at| (number, at)).collect::<Vec<_>>()
    };
    TEXT.lines().enumerate().flat_map(ends).collect()
}

/// Types a digit, or takes the last one out, and waits for the findings.
fn typed(service: &mut Service, places: &[(usize, usize)], key: usize) -> Duration {
    let place = key / 2 % places.len();
    let (line, at) = places[place];
    let position = |character: usize| json!({ "line": line, "character": character });
    let change = if key.is_multiple_of(2) {
        json!({ "range": { "start": position(at), "end": position(at) }, "text": (place % 10).to_string() })
    } else {
        json!({ "range": { "start": position(at), "end": position(at + 1) }, "text": "" })
    };
    let start = Instant::now();
    let document = json!({ "uri": URI, "version": key + 1 });
    let told =
        tell(service, "textDocument/didChange", &json!({ "textDocument": document, "contentChanges": [change] }));
    let time = start.elapsed();
    assert_eq!(told.len(), 1, "the findings");
    time
}

fn tell(service: &mut Service, method: &str, params: &Value) -> Vec<String> {
    let message = json!({ "jsonrpc": "2.0", "method": method, "params": params });
    let mut told = service.receive(&message.to_string());
    told.extend(service.settle());
    told
}

/// The memory of this process in KiB, where the system tells.
#[allow(clippy::disallowed_methods)] // A file of the system's own.
fn memory() -> Option<u64> {
    let status = std::fs::read_to_string("/proc/self/status").ok()?;
    let line = status.lines().find(|line| line.starts_with("VmRSS:"))?;
    line.split_whitespace().nth(1)?.parse().ok()
}
