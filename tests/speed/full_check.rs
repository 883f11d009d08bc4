//! How long a full check takes beside the parser alone, on generated manuscripts.
//!
//! `cargo bench` prints the ratio of a full check (text in memory to findings, on one core) to walking the same
//! bytes into parser events, the rate, and the peak memory of the process.

#![allow(clippy::float_arithmetic, clippy::cast_precision_loss, clippy::print_stdout, missing_docs)] // A benchmark prints rates.

use std::hint::black_box;
use std::time::{Duration, Instant};

use granit_parser::Parser;
use sparestrip::check::check;
use sparestrip::manuscript::Source;
use sparestrip::rule_book::Settings;

const MANUSCRIPTS: usize = 2_000;
const ROUNDS: usize = 15;

fn main() {
    let texts: Vec<String> = (0..MANUSCRIPTS).map(manuscript).collect();
    let bytes: usize = texts.iter().map(String::len).sum();
    let settings = Settings::default();
    let found: usize = texts.iter().map(|text| full_check(text, &settings)).sum();
    let (mut parse, mut full) = (Duration::MAX, Duration::MAX);
    // Turn about, so that a slow spell of the machine falls on both.
    for _ in 0..ROUNDS {
        parse = parse.min(timed(|| texts.iter().map(|text| events(text)).sum()));
        full = full.min(timed(|| texts.iter().map(|text| full_check(text, &settings)).sum()));
    }
    let megabytes = bytes as f64 / 1e6;
    println!("{MANUSCRIPTS} manuscripts, {megabytes:.2} MB, {found} findings");
    println!("parser events alone: {:>7.2} ms, {:.0} MB/s", milliseconds(parse), megabytes / parse.as_secs_f64());
    println!(
        "full check:          {:>7.2} ms, {:.0} MB/s, {:.0} manuscripts/s on one core",
        milliseconds(full),
        megabytes / full.as_secs_f64(),
        MANUSCRIPTS as f64 / full.as_secs_f64()
    );
    println!("ratio: {:.2} (at most 1.50)", full.as_secs_f64() / parse.as_secs_f64());
    if let Some(peak) = peak_memory() {
        println!("peak memory: {peak}");
    }
}

fn timed(work: impl FnOnce() -> usize) -> Duration {
    let start = Instant::now();
    black_box(work());
    start.elapsed()
}

fn milliseconds(duration: Duration) -> f64 {
    duration.as_secs_f64() * 1e3
}

fn events(text: &str) -> usize {
    // The same options as the reader's: comments are skipped.
    let options = granit_parser::options! { emit_comments: false };
    Parser::new_from_str_with_options(text, options).filter(|event| black_box(event).is_ok()).count()
}

fn full_check(text: &str, settings: &Settings) -> usize {
    let source = Source::from_text("bench.pattern.yaml", text);
    check(&source, settings).findings.len()
}

fn peak_memory() -> Option<String> {
    let status = std::fs::read("/proc/self/status").ok()?;
    let status = String::from_utf8_lossy(&status).into_owned();
    status.lines().find_map(|line| line.strip_prefix("VmHWM:")).map(|peak| peak.trim().to_string())
}

/// A manuscript as a writer keeps it: comments, five sizes, one in ten with a strip too few.
fn manuscript(number: usize) -> String {
    let sizes = [("crib", 36, 48), ("throw", 54, 72), ("twin", 66, 90), ("full", 80, 92), ("queen", 92, 98)];
    let mut text = format!(
        "# Pattern {number}, requirements page\npattern: Harbour Lights {number}\nedition: {}\nmeasure: inch   # bare numbers are inches\nassumes:\n  usable_width: 40\n  seam: 1/4\n  sold_by: 1/8 yd\nsizes:\n",
        1 + number % 3
    );
    for (name, width, length) in sizes {
        text.push_str(&format!("  {name}: {{ finished: {} x {length} }}\n", width + number % 4));
    }
    text.push_str("binding:\n  strip_width: 2 1/2\n  fold: double\n  seam: 1/4\n  loft: low\n  join: diagonal\n  grain: crosswise\n  finish: machine\n  sewn_first_to: back\n  tails: { start: 10, end: 10 }\n  opening: 12\n  requires:\n");
    for (index, (name, width, length)) in sizes.into_iter().enumerate() {
        // Laid out by hand for this: 2 (w + l) + 10, strips of 40 that lose 2 1/2 at each join.
        let around = 2 * (width + number % 4 + length) + 10;
        let needed = (2 * around - 5).div_ceil(75) + 1;
        let strips = if number % 10 == 3 && index == number % 5 { needed - 1 } else { needed };
        let eighths = (needed * 5 + 1).div_ceil(9);
        text.push_str(&format!("    {name}: {{ strips: {strips}, fabric: {} }}\n", yards(eighths)));
    }
    text
}

fn yards(eighths: usize) -> String {
    match (eighths / 8, eighths % 8) {
        (whole, 0) => format!("{whole} yd"),
        (0, part) => format!("{part}/8 yd"),
        (whole, part) => format!("{whole} {part}/8 yd"),
    }
}
