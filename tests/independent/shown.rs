//! What is shown as stated and as needed compares as the exact numbers do: a reader who compares the two comes to the same
//! verdict, and the text that mends a finding does. The numbers are read back by a small parser of its own.

use serde_json::Value as Json;
use sparestrip::audit::{Line, Status, account};
use sparestrip::check::check;
use sparestrip::finding::Finding;
use sparestrip::manuscript::Source;
use sparestrip::report::worksheet_json;
use sparestrip::rule_book::{Settings, book};
use sparestrip::worksheet::Worksheet;

use super::sums::{self, Value, number};
use super::whole_quilt::Units;
use super::{LONG_RUN, checked, generate, rng, whole};

/// The numbers of a shown text, lengths in inches; `None` where it is no number or pair of numbers.
fn shown(text: &str, bare: Option<Value>) -> Option<Vec<Value>> {
    let mut text = text.replace('″', "\"").replace('"', " in ").replace(['×', 'X'], " x ").replace(['(', ')'], " ");
    for (sign, fraction) in
        [("½", "1/2"), ("¾", "3/4"), ("⅝", "5/8"), ("⅛", "1/8"), ("¼", "1/4"), ("⅜", "3/8"), ("⅞", "7/8")]
    {
        text = text.replace(sign, &format!(" {fraction}"));
    }
    let mut numbers: Vec<(Value, Option<Value>)> = Vec::new();
    let mut words = text.split_whitespace().flat_map(apart).peekable();
    while let Some(word) = words.next() {
        if matches!(word.as_str(), "x" | "/") {
            continue;
        }
        if let Some(value) = number(&word) {
            let part = words.next_if(|next| next.contains('/') && next.len() > 1).and_then(|next| number(&next));
            numbers.push((part.map_or(value, |part| value.plus(part)), None));
            continue;
        }
        let unit = unit(&word)?;
        numbers.last_mut()?.1 = Some(unit);
    }
    // One unit at the end of a size is both sides'.
    let last = if text.contains(" x ") { numbers.last()?.1 } else { None };
    let in_inches =
        |(value, unit): (Value, Option<Value>)| unit.or(last).or(bare).map_or(value, |unit| value.times(unit));
    Some(numbers.into_iter().map(in_inches).collect())
}

/// `2-1/2` and `60cm` as two words each.
fn apart(word: &str) -> Vec<String> {
    let word = word.trim_end_matches([',', ';']);
    if let Some((whole, part)) = word.split_once('-').filter(|(whole, _)| !whole.is_empty()) {
        return [apart(whole), apart(part)].concat();
    }
    let end = word.find(|c: char| c.is_alphabetic()).filter(|end| *end > 0);
    end.map_or(vec![word.to_string()], |end| vec![word[..end].to_string(), word[end..].to_string()])
}

fn unit(word: &str) -> Option<Value> {
    Some(match word {
        "in" | "inches" => Value::new(1, 1),
        "yd" | "yard" | "yards" => Value::new(36, 1),
        "mm" => Value::new(10, 254),
        "cm" => Value::new(100, 254),
        "m" => Value::new(10_000, 254),
        _ => return None,
    })
}

fn has_unit(text: &str) -> bool {
    text.split_whitespace().flat_map(apart).any(|word| unit(word.trim_matches(['(', ')'])).is_some())
}

/// How stated numbers compare with needed ones.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Compared {
    short: bool,
    extra: bool,
}

fn compared(stated: &str, needed: &str, metric: bool) -> Option<Compared> {
    let bare = has_unit(needed).then(|| if metric { Value::new(100, 254) } else { Value::new(1, 1) });
    let (stated, needed) = (shown(stated, bare)?, shown(needed, bare)?);
    if stated.len() != needed.len() {
        return None;
    }
    let any = |is: fn(i128, i128) -> bool| {
        stated.iter().zip(&needed).any(|(stated, needed)| is(stated.top * needed.over, needed.top * stated.over))
    };
    Some(Compared { short: any(|stated, needed| stated < needed), extra: any(|stated, needed| stated > needed) })
}

/// How many numbers were compared.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Count {
    pub(crate) short: usize,
    pub(crate) other: usize,
}

fn line_holds(line: &Line, metric: bool, text: &str, count: &mut Count) {
    // One segment fewer than a set gives is for squaring up its ends.
    if line.number.ends_with(" yields") {
        return;
    }
    let Some(is) = compared(&line.stated, &line.needed, metric) else { return };
    match line.status {
        Status::Short => {
            assert!(is.short, "short, and not as shown: {line:?} in\n{text}");
            count.short += 1;
        }
        Status::Ok => {
            assert!(!is.short, "enough, and short as shown: {line:?} in\n{text}");
            count.other += 1;
        }
        Status::Wrong => {
            assert!(is.short || is.extra, "wrong, and the same as shown: {line:?} in\n{text}");
            count.other += 1;
        }
        _ => {}
    }
}

fn finding_holds(finding: &Finding, metric: bool, text: &str, count: &mut Count) {
    let (Some(stated), Some(needed)) = (&finding.stated, &finding.needed) else { return };
    let Some(is) = compared(stated, needed, metric) else { return };
    let Finding { rule, message, .. } = finding;
    // What is out of order is so beside another size.
    if *rule == "sizes-out-of-order" {
        return;
    }
    if rule.ends_with("-short") {
        assert!(is.short, "{rule}: short, and not as shown: {stated} and {needed}: {message}\n{text}");
        count.short += 1;
    } else if rule.ends_with("-generous") {
        assert!(is.extra, "{rule}: more, and not as shown: {stated} and {needed}: {message}\n{text}");
        count.other += 1;
    } else {
        assert!(is.short || is.extra, "{rule}: the same as shown: {stated} and {needed}: {message}\n{text}");
        count.other += 1;
    }
}

/// Asserts that all numbers that are shown about a text compare as the verdicts do.
#[track_caller]
pub(crate) fn hold(text: &str) -> Count {
    let (source, settings) = (Source::from_text("shown.pattern.yaml", text), Settings::default());
    let metric = text.contains("measure: cm");
    let mut count = Count::default();
    for line in &account(&source, &settings).lines {
        line_holds(line, metric, text, &mut count);
    }
    for finding in &check(&source, &settings).findings {
        finding_holds(finding, metric, text, &mut count);
    }
    let json = worksheet_json(&source, &Worksheet::new(&source, &settings));
    let json: Json = serde_json::from_str(&json).unwrap();
    drawing_holds(&json["drawings"], text);
    count
}

/// Every length of the drawings is shown as it is, or less than a quarter of an inch beside it, and differences are those of
/// what is shown.
fn drawing_holds(json: &Json, text: &str) {
    if let Json::Array(all) = json {
        for one in all {
            drawing_holds(one, text);
        }
    }
    let Json::Object(words) = json else { return };
    if let Some((_, exact)) = shown_and_exact(json) {
        let all = shown(words["shown"].as_str().unwrap().trim_start_matches('-'), None).unwrap();
        let exact = Value::new(exact.top.abs(), exact.over);
        for value in all {
            let apart = value.plus(exact.negative());
            assert!(apart.top.abs() * 4 < apart.over, "{json} in\n{text}");
        }
    }
    let of = |name: &str| words.get(name).and_then(shown_and_exact).map(|(shown, _)| shown);
    for (whole, one, other) in [("stated", "used", "left"), ("had", "needed", "over"), ("gives", "needed", "left")] {
        if let (Some(whole), Some(one), Some(other)) = (of(whole), of(one), of(other)) {
            assert_eq!(one.plus(other), whole, "{whole:?} {one:?} {other:?}: {json} in\n{text}");
        }
    }
    for one in words.values() {
        drawing_holds(one, text);
    }
}

/// A length of the drawings as it is shown, and exactly; of an amount in yards with its inches, the inches.
fn shown_and_exact(json: &Json) -> Option<(Value, Value)> {
    let (text, exact) = (json.get("shown")?.as_str()?, json.get("inches")?.as_str()?);
    let (negative, text) = text.strip_prefix('-').map_or((false, text), |text| (true, text));
    let last = *shown(text, None)?.last()?;
    let last = if negative { last.negative() } else { last };
    let (top, over) = exact.split_once('/').unwrap_or((exact, "1"));
    Some((last, Value::new(top.parse().ok()?, over.parse().ok()?)))
}

#[test]
fn the_parser_reads_what_is_written() {
    let same = |one: &str, other: &str| {
        let is = compared(one, other, false).unwrap();
        !is.short && !is.extra
    };
    for (one, other) in [("2-1/2", "2 1/2 in"), ("6½″", "6 1/2 in"), ("3 x 4 in", "7.62 cm x 101.6 mm"), ("7", "7")]
    {
        assert!(same(one, other), "{one} {other}");
    }
    assert!(same("5/8 yd (60cm)", "22 1/2 in (0.6 m)") && !same("5/8 yd", "5/8 in"));
    assert_eq!(compared("4 1/2", "4.5001 in", false), Some(Compared { short: true, extra: false }));
    assert_eq!(compared("114.4 mm", "4 1/2 in", false), Some(Compared { short: false, extra: true }));
    assert_eq!(compared("4 1/2", "114.3 mm", false), Some(Compared { short: false, extra: false }));
}

#[test]
fn the_numbers_of_the_examples_and_of_the_rule_pages_compare_as_they_are_judged() {
    let mut count = Count::default();
    let mut add = |text: &str| {
        let Count { short, other } = hold(text);
        count = Count { short: count.short + short, other: count.other + other };
    };
    for file in crate::support::examples() {
        add(&Source::open(&file).unwrap().text);
    }
    for page in book() {
        for text in [&page.fails, &page.passes] {
            let text = text.text();
            add(&text);
            add(&text.replace("measure: inch", "measure: cm"));
            add(&text.replace("measure: cm", "measure: inch"));
        }
    }
    assert!(count.short > 100 && count.other > 300, "{count:?}");
}

#[test]
fn the_numbers_of_random_bindings_compare_as_they_are_judged() {
    let mut short = 0;
    for index in 0..if LONG_RUN { 3000 } else { 80 } {
        let (low, ..) = generate::one_too_low(&mut rng(11, index));
        short += hold(&low.text().0).short + hold(&generate::anything(&mut rng(12, index)).text().0).short;
    }
    assert!(short > 80, "only {short} short numbers");
}

/// Inch manuscripts in centimeters and millimeters, and metric ones in inches: what is no 64th of an inch, or no whole
/// millimeter.
#[test]
fn values_in_the_other_measure_are_shown_as_they_are_judged_and_mended() {
    let (mut short, mut mended) = (0, 0);
    for index in 0..if LONG_RUN { 600 } else { 15 } {
        for units in [Units::Other, Units::Mixed] {
            let right = whole::in_units(index, units, None);
            assert!(whole::blamed(&right.text).is_empty(), "{:?}\n{}", whole::blamed(&right.text), right.text);
            hold(&right.text);
            sums::hold(&right.text);
            let lowered = usize::try_from(index).unwrap() * 7 % right.numbers.len();
            let low = whole::in_units(index, units, Some(lowered)).text;
            short += hold(&low).short;
            sums::hold(&low);
            for finding in &checked(&low).findings {
                let Some(correction) = &finding.correction else { continue };
                let after = checked(&correction.apply(&low)).findings;
                let is_it = |other: &&Finding| {
                    (other.rule, &other.size, &other.subject) == (finding.rule, &finding.size, &finding.subject)
                };
                assert_eq!(after.iter().filter(is_it).count(), 0, "{finding:?} stays in\n{}", correction.apply(&low));
                mended += 1;
            }
        }
    }
    assert!(short > 10 && mended > 10, "only {short} short numbers and {mended} corrections");
}
