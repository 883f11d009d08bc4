//! How long a full check takes beside the parser alone, on generated manuscripts.
//!
//! `cargo bench` prints the ratio (at most 1.5 for binding alone) of a full check (text in memory to findings, on one core) to walking the same
//! bytes into parser events, the rate, and the peak memory of the process.

#![allow(clippy::float_arithmetic, clippy::cast_precision_loss, clippy::print_stdout, missing_docs)] // A benchmark prints rates.

use std::hint::black_box;
use std::time::{Duration, Instant};

use granit_parser::Parser;
use sparestrip::check::{Corrections, check_with};
use sparestrip::manuscript::Source;
use sparestrip::rule_book::Settings;

const MANUSCRIPTS: usize = 2_000;
const ROUNDS: usize = 15;

fn main() {
    let settings = Settings::default();
    measure(
        "binding alone",
        &settings,
        &(0..MANUSCRIPTS).map(|number| manuscript(number, number % 4)).collect::<Vec<_>>(),
    );
    let whole = |number| manuscript(number, 0) + SHOPPING_LIST;
    measure("binding, backing, batting and fabrics", &settings, &(0..MANUSCRIPTS).map(whole).collect::<Vec<_>>());
    if let Some(peak) = peak_memory() {
        println!("peak memory: {peak}");
    }
}

fn measure(what: &str, settings: &Settings, texts: &[String]) {
    let bytes: usize = texts.iter().map(String::len).sum();
    let check_all = |corrections| texts.iter().map(|text| full_check(text, settings, corrections)).sum();
    let found: usize = check_all(Corrections::Tried);
    let (mut parse, mut full, mut untried) = (Duration::MAX, Duration::MAX, Duration::MAX);
    // Turn about, so that a slow spell of the machine falls on both.
    for _ in 0..ROUNDS {
        parse = parse.min(timed(|| texts.iter().map(|text| events(text)).sum()));
        full = full.min(timed(|| check_all(Corrections::Tried)));
        untried = untried.min(timed(|| check_all(Corrections::LeftOut)));
    }
    let megabytes = bytes as f64 / 1e6;
    let rate = |time: Duration| megabytes / time.as_secs_f64();
    println!("{what}: {} manuscripts, {megabytes:.2} MB, {found} findings", texts.len());
    println!("  parser events alone: {:>7.2} ms, {:.0} MB/s", milliseconds(parse), rate(parse));
    let per_second = texts.len() as f64 / full.as_secs_f64();
    println!(
        "  full check:          {:>7.2} ms, {:.0} MB/s, {per_second:.0} a second on one core",
        milliseconds(full),
        rate(full)
    );
    let ratio = |time: Duration| time.as_secs_f64() / parse.as_secs_f64();
    println!("  ratio: {:.2}, and {:.2} where no corrections are tried", ratio(full), ratio(untried));
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

fn full_check(text: &str, settings: &Settings, corrections: Corrections) -> usize {
    let source = Source::from_text("bench.pattern.yaml", text);
    check_with(&source, settings, corrections).findings.len()
}

fn peak_memory() -> Option<String> {
    let status = std::fs::read("/proc/self/status").ok()?;
    let status = String::from_utf8_lossy(&status).into_owned();
    status.lines().find_map(|line| line.strip_prefix("VmHWM:")).map(|peak| peak.trim().to_string())
}

/// A manuscript as a writer keeps it: comments, five sizes, one in ten with a strip too few.
fn manuscript(number: usize, wider: usize) -> String {
    let sizes = [("crib", 36, 48), ("throw", 54, 72), ("twin", 66, 90), ("full", 80, 92), ("queen", 92, 98)];
    let mut text = format!(
        "# Pattern {number}, requirements page\npattern: Harbour Lights {number}\nedition: {}\nmeasure: inch   # bare numbers are inches\nassumes:\n  usable_width: 40\n  seam: 1/4\n  sold_by: 1/8 yd\nsizes:\n",
        1 + number % 3
    );
    for (name, width, length) in sizes {
        text.push_str(&format!("  {name}: {{ finished: {} x {length} }}\n", width + wider));
    }
    text.push_str("binding:\n  strip_width: 2 1/2\n  fold: double\n  seam: 1/4\n  loft: low\n  join: diagonal\n  grain: crosswise\n  finish: machine\n  sewn_first_to: back\n  tails: { start: 10, end: 10 }\n  opening: 12\n  requires:\n");
    for (index, (name, width, length)) in sizes.into_iter().enumerate() {
        // Laid out by hand for this: 2 (w + l) + 10, strips of 40 that lose 2 1/2 at each join.
        let around = 2 * (width + wider + length) + 10;
        let needed = (2 * around - 5).div_ceil(75) + 1;
        let strips = if number % 10 == 3 && index == number % 5 { needed - 1 } else { needed };
        let eighths = (needed * 5 + 1).div_ceil(9);
        text.push_str(&format!("    {name}: {{ strips: {strips}, fabric: {} }}\n", yards(eighths)));
    }
    text
}

/// The rest of the shopping list, for the sizes that every manuscript here has.
const SHOPPING_LIST: &str = "\
backing:
  overhang: 4
  requires:
    crib: { fabric: 2 1/2 yd, panels: 2 }
    throw: { fabric: 4 1/2 yd, panels: 2 }
    twin: { fabric: 5 1/2 yd, panels: 2 }
    full: { fabric: 7 3/8 yd, panels: 3 }
    queen: { fabric: 8 3/8 yd, panels: 3 }
batting:
  overhang: 4
  requires: { crib: 44 x 56, throw: 62 x 80, twin: 74 x 98, full: 88 x 100, queen: 100 x 106 }
fabrics:
  ink:
    role: background
    requires: { crib: 3/4 yd, throw: 1 1/4 yd, twin: 1 1/2 yd, full: 1 7/8 yd, queen: 2 3/8 yd }
    cut:
      - piece: A
        size: 3 1/2 x 3 1/2
        strips: { crib: 5, throw: 9, twin: 11, full: 14, queen: 18 }
        pieces: { crib: 48, throw: 96, twin: 120, full: 144, queen: 192 }
      - piece: B
        size: 2 1/2 x 4 1/2
        pieces: { crib: 32, throw: 32, twin: 48, full: 64, queen: 64 }
  gold:
    role: stars
    requires: { crib: 1/2 yd, throw: 3/4 yd, twin: 7/8 yd, full: 1 1/8 yd, queen: 1 3/8 yd }
    cut:
      - { piece: C, size: 4 1/2 x 4 1/2, pieces: { crib: 24, throw: 40, twin: 48, full: 64, queen: 80 } }
";

fn yards(eighths: usize) -> String {
    match (eighths / 8, eighths % 8) {
        (whole, 0) => format!("{whole} yd"),
        (0, part) => format!("{part}/8 yd"),
        (whole, part) => format!("{whole} {part}/8 yd"),
    }
}
