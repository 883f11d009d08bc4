//! How much CPU a full check takes beside the parser alone, on generated manuscripts: right ones, faulty ones, and each
//! file by itself.
//!
//! `cargo bench --bench full_check` prints ratios of a full check (text in memory to findings, on one core) to walking the
//! same bytes into parser events. CPU time of this thread is measured, turn about, so that what else the machine does
//! falls on neither; the spread over the rounds is printed beside each ratio.

#![allow(clippy::float_arithmetic, clippy::cast_precision_loss, clippy::print_stdout, missing_docs)] // A benchmark prints rates.

use std::fmt;
use std::hint::black_box;
use std::time::Duration;

use granit_parser::Parser;
use rustix::time::{ClockId, clock_gettime};
use sparestrip::check::{Corrections, check_with};
use sparestrip::manuscript::Source;
use sparestrip::rule_book::Settings;

const MANUSCRIPTS: usize = 1_000;
const ROUNDS: usize = 21;

fn main() {
    // One thread does all of the work, so that its CPU time is all of it.
    let pool = rayon::ThreadPoolBuilder::new().num_threads(1).use_current_thread().build();
    let settings = Settings::default();
    let all = |make: &dyn Fn(usize) -> String| (0..MANUSCRIPTS).map(make).collect::<Vec<_>>();
    let measured = || {
        let right = |number| manuscript(number, CLEAR, 0, 0);
        measure("right, binding alone", &settings, &all(&right));
        measure("right, with a note", &settings, &all(&|number| manuscript(number, NEAR, 0, 0)));
        measure("right, binding, backing, batting and fabrics", &settings, &all(&|number| whole(number, CLEAR, 0)));
        measure("faulty, binding alone", &settings, &all(&|number| manuscript(number, NEAR, number % 4, 2)));
        measure("faulty, binding, backing, batting and fabrics", &settings, &all(&|number| whole(number, NEAR, 2)));
    };
    match pool {
        Ok(pool) => pool.install(measured),
        Err(error) => println!("no pool of one thread: {error}"),
    }
    if let Some(peak) = peak_memory() {
        println!("peak memory: {peak}");
    }
}

/// The rest of the shopping list as well; faulty ones are a step of fabric short in two places.
fn whole(number: usize, start: usize, faults: usize) -> String {
    let list = if faults == 0 {
        SHOPPING_LIST.to_string()
    } else {
        SHOPPING_LIST.replace("5 1/2 yd", "4 1/2 yd").replace("1 1/4 yd", "3/4 yd")
    };
    manuscript(number, start, 0, faults) + &list
}

fn measure(what: &str, settings: &Settings, texts: &[String]) {
    let bytes: usize = texts.iter().map(String::len).sum();
    let check_all = |corrections| texts.iter().map(|text| full_check(text, settings, corrections)).sum();
    let found: usize = check_all(Corrections::Tried);
    let (mut asked, mut unasked, mut walks) = (Spread::default(), Spread::default(), Spread::default());
    for _ in 0..ROUNDS {
        let walk = cpu_time(|| texts.iter().map(|text| events(text)).sum());
        walks.add(walk.as_secs_f64() * 1e6 / texts.len() as f64);
        asked.add(cpu_time(|| check_all(Corrections::Tried)).as_secs_f64() / walk.as_secs_f64());
        unasked.add(cpu_time(|| check_all(Corrections::LeftOut)).as_secs_f64() / walk.as_secs_f64());
    }
    let each = found as f64 / texts.len() as f64;
    println!("{what}: {} manuscripts of {} bytes, {each:.1} findings each", texts.len(), bytes / texts.len());
    println!("  parser events alone:  {walks} microseconds a manuscript");
    println!("  ratio, as text:       {unasked}");
    println!("  ratio, as JSON:       {asked}, with the corrections");
}

/// The values of some rounds.
#[derive(Default)]
struct Spread(Vec<f64>);

impl Spread {
    fn add(&mut self, value: f64) {
        self.0.push(value);
    }
}

impl fmt::Display for Spread {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mut values = self.0.clone();
        values.sort_by(f64::total_cmp);
        let at = |part: usize| values.get((values.len().max(1) - 1) * part / 4).copied().unwrap_or_default();
        write!(f, "{:.2} ({:.2} to {:.2})", at(2), at(0), at(4))
    }
}

fn cpu_time(work: impl FnOnce() -> usize) -> Duration {
    let now = || {
        let now = clock_gettime(ClockId::ThreadCPUTime);
        Duration::new(now.tv_sec.try_into().unwrap_or_default(), now.tv_nsec.try_into().unwrap_or_default())
    };
    let start = now();
    black_box(work());
    now().saturating_sub(start)
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

/// A tail at the start with which every join is clear of the corners, so that there is nothing to tell.
const CLEAR: usize = 12;

/// A tail at the start with which a join of the queen size lands near a corner, which is a note.
const NEAR: usize = 10;

/// A manuscript as a writer keeps it: comments, five sizes, so many of them with two strips too few.
fn manuscript(number: usize, start: usize, wider: usize, faults: usize) -> String {
    let end = 20 - start;
    let sizes = [("crib", 36, 48), ("throw", 54, 72), ("twin", 66, 90), ("full", 80, 92), ("queen", 92, 98)];
    let mut text = format!(
        "# Pattern {number}, requirements page\npattern: Harbour Lights {number}\nedition: {}\nmeasure: inch   # bare numbers are inches\nassumes:\n  usable_width: 40\n  seam: 1/4\n  sold_by: 1/8 yd\nsizes:\n",
        1 + number % 3
    );
    for (name, width, length) in sizes {
        text.push_str(&format!("  {name}: {{ finished: {} x {length} }}\n", width + wider));
    }
    text.push_str("binding:\n  strip_width: 2 1/2\n  fold: double\n  seam: 1/4\n  loft: low\n  join: diagonal\n  grain: crosswise\n  finish: machine\n  sewn_first_to: back\n");
    text.push_str(&format!("  tails: {{ start: {start}, end: {end} }}\n  opening: 12\n  requires:\n"));
    for (index, (name, width, length)) in sizes.into_iter().enumerate() {
        // Laid out by hand for this: 2 (w + l) + 10, strips of 40 that lose 2 1/2 at each join.
        let around = 2 * (width + wider + length) + 10;
        let needed = (2 * around - 5).div_ceil(75) + 1;
        let strips = if (index + number) % 5 < faults { needed - 2 } else { needed };
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
