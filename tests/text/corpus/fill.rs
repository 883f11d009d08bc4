//! Filling in the numbers of a text from its manuscript.

use serde_yaml::Value;

use super::value::Exact;

/// Stand round each number that was filled in, and are taken out once the text is read.
pub(crate) const OPEN: char = '\u{e010}';
pub(crate) const CLOSE: char = '\u{e011}';

/// What a number is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Truth {
    /// This entry of the manuscript, of this size where it is of one.
    Direct { path: String, size: Option<String>, styles: Vec<String> },
    /// It follows from entries.
    Derived,
}

/// A text with its numbers filled in, and what each is.
pub(crate) struct Filled {
    pub(crate) text: String,
    pub(crate) truths: Vec<Truth>,
}

/// Fills in a text.
pub(crate) fn fill(template: &str, manuscript: &str, name: &str) -> Filled {
    let manuscript: Value = serde_yaml::from_str(manuscript).unwrap();
    let mut text = String::new();
    let mut truths = Vec::new();
    let mut rest = template;
    while let Some((before, after)) = rest.split_once('⟦') {
        let (inner, after) = after.split_once('⟧').unwrap_or_else(|| panic!("{name}: ⟦ without ⟧"));
        text += before;
        let (what, style) = inner.split_once('|').unwrap_or((inner, ""));
        let styles: Vec<String> = style.split(',').filter(|style| !style.is_empty()).map(str::to_owned).collect();
        let (says, unit, truth) = match what.strip_prefix('=') {
            Some(sum) => (written(sum_of(&manuscript, sum, name), &styles), String::new(), Truth::Derived),
            None => {
                let (says, unit) = said(&manuscript, what, &styles, name);
                (says, unit, Truth::Direct { path: what.to_owned(), size: size_of(&manuscript, what), styles })
            }
        };
        text += &format!("{OPEN}{says}{CLOSE}{unit}");
        truths.push(truth);
        rest = after;
    }
    text += rest;
    Filled { text, truths }
}

/// What an entry of a manuscript is in a text that is written so: its number, and its unit.
pub(crate) fn said(manuscript: &Value, path: &str, styles: &[String], name: &str) -> (String, String) {
    let entry = entry(manuscript, path).unwrap_or_else(|| panic!("{name}: {path} is not in the manuscript"));
    let whole = match entry {
        Value::String(text) => text.clone(),
        Value::Number(number) => number.to_string(),
        other => panic!("{name}: {path} is no number: {other:?}"),
    };
    let whole = whole.split(" (").next().unwrap().to_owned();
    let has = |style: &str| styles.iter().any(|own| own == style);
    let part = match whole.split_once(" x ") {
        Some((first, _)) if has("1") => first.to_owned(),
        Some((_, second)) if has("2") => second.to_owned(),
        Some(_) => panic!("{name}: {path} is two numbers"),
        None => whole,
    };
    let cut = part.find(|ch: char| ch.is_alphabetic()).unwrap_or(part.len());
    let (number, unit) = part.split_at(cut);
    let value = Exact::parse(number.trim()).unwrap_or_else(|| panic!("{name}: {path} is no number: {part}"));
    let unit = if unit.is_empty() || has("n") { String::new() } else { format!(" {unit}") };
    let kept = styles.iter().any(|style| !["1", "2", "n"].contains(&style.as_str()));
    let says = if kept { written(value, styles) } else { number.trim().to_owned() };
    (says, unit)
}

/// The entry at a path, in which a size may stand at once after what it is required of, and a piece after its fabric.
pub(crate) fn entry<'m>(manuscript: &'m Value, path: &str) -> Option<&'m Value> {
    let steps: Vec<&str> = path.split('.').collect();
    follow(manuscript, &steps).or_else(|| follow(manuscript.get("fabrics")?, &steps))
}

fn follow<'m>(value: &'m Value, steps: &[&str]) -> Option<&'m Value> {
    let Some((step, rest)) = steps.split_first() else { return Some(value) };
    if let Some(list) = value.as_sequence() {
        if let Some(at) = step.strip_prefix('#') {
            return follow(list.get(at.parse::<usize>().ok()?)?, rest);
        }
        return list.iter().find_map(|item| {
            let named = item.get("piece").and_then(Value::as_str) == Some(step);
            if named { follow(item, rest) } else { follow(item.get("subcut")?, steps) }
        });
    }
    if let Some(inner) = value.get(*step) {
        return follow(inner, rest);
    }
    ["requires", "cut"].iter().find_map(|through| follow(value.get(*through)?, steps))
}

fn size_of(manuscript: &Value, path: &str) -> Option<String> {
    let sizes = manuscript.get("sizes")?.as_mapping()?;
    let names: Vec<&str> = sizes.iter().filter_map(|(name, _)| name.as_str()).collect();
    path.split('.').find(|step| names.contains(step)).map(str::to_owned)
}

fn sum_of(manuscript: &Value, sum: &str, name: &str) -> Exact {
    let mut result: Option<Exact> = None;
    let mut operator = "+";
    for word in sum.split(" * ").flat_map(|part| ["*", part]).skip(1).flat_map(|part| {
        let mut words: Vec<&str> = Vec::new();
        for (at, divided) in part.split(" / ").enumerate() {
            if at > 0 {
                words.push("/");
            }
            words.push(divided);
        }
        words
    }) {
        if ["*", "/"].contains(&word) {
            operator = word;
            continue;
        }
        let (says, _) = match word.trim() {
            whole if whole.bytes().all(|byte| byte.is_ascii_digit()) => (whole.to_owned(), String::new()),
            path => said(manuscript, path, &[], name),
        };
        let value = Exact::parse(&says).unwrap();
        result = Some(match (result, operator) {
            (None, _) => value,
            (Some(before), "*") => before.times(value),
            (Some(before), _) => before.over(value),
        });
    }
    result.unwrap()
}

/// A number as styles say: `u` ½ joined, `h` 2-1/2, `d` 2.5, `f` with a fraction slash, `w` and `W` a word.
pub(crate) fn written(value: Exact, styles: &[String]) -> String {
    let has = |style: &str| styles.iter().any(|own| own == style);
    if has("w") || has("W") {
        let word = word(value);
        return if has("W") { word[..1].to_uppercase() + &word[1..] } else { word };
    }
    if has("d") {
        return value.decimal();
    }
    let (whole, over, under) = value.mixed();
    let fraction = match (over, under) {
        (0, _) => String::new(),
        _ if has("u") => vulgar(over, under),
        _ if has("f") => format!("{over}\u{2044}{under}"),
        _ => format!("{over}/{under}"),
    };
    match (whole, fraction.is_empty()) {
        (_, true) => whole.to_string(),
        (0, false) => fraction,
        _ if has("u") => format!("{whole}{fraction}"),
        _ if has("h") => format!("{whole}-{fraction}"),
        _ => format!("{whole} {fraction}"),
    }
}

fn vulgar(over: i64, under: i64) -> String {
    let known = [
        (1, 2, '½'),
        (1, 4, '¼'),
        (3, 4, '¾'),
        (1, 8, '⅛'),
        (3, 8, '⅜'),
        (5, 8, '⅝'),
        (7, 8, '⅞'),
        (1, 3, '⅓'),
        (2, 3, '⅔'),
    ];
    let found = known.iter().find(|(own_over, own_under, _)| (*own_over, *own_under) == (over, under));
    found.map_or_else(|| format!("{over}/{under}"), |(.., sign)| sign.to_string())
}

fn word(value: Exact) -> String {
    let ones = "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen";
    let ones: Vec<&str> = ones.split(' ').collect();
    let tens = ["", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"];
    let (whole, over, _) = value.mixed();
    let at = usize::try_from(whole).unwrap();
    if over > 0 || at >= 100 {
        return written(value, &[]);
    }
    match (at / 10, at % 10) {
        (0 | 1, _) => ones[at].to_owned(),
        (ten, 0) => tens[ten].to_owned(),
        (ten, one) => format!("{}-{}", tens[ten], ones[one]),
    }
}
