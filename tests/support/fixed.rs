//! What must hold of every text whose corrections were made.

use std::collections::BTreeMap;

use sparestrip::check::{Outcome, check};
use sparestrip::finding::{Finding, Level, Subject};
use sparestrip::fix::{Fixed, fix};
use sparestrip::manuscript::Source;
use sparestrip::rule_book::Settings;
use sparestrip::rules::TEXT_RULES;

type Key = (&'static str, Option<String>, Subject);

/// How often each thing is found. That a printed text is not there says nothing of a correction that names it.
fn counted(findings: &[Finding]) -> BTreeMap<Key, usize> {
    let mut counted = BTreeMap::new();
    for finding in findings.iter().filter(|finding| !TEXT_RULES.contains(&finding.rule)) {
        *counted.entry((finding.rule, finding.size.clone(), finding.subject.clone())).or_default() += 1;
    }
    counted
}

/// How often each rule finds something about each thing, by the words of the report.
fn by_words(outcome: &Outcome) -> BTreeMap<(&'static str, Option<String>), usize> {
    let mut counted = BTreeMap::new();
    for finding in &outcome.findings {
        *counted.entry((finding.rule, finding.about_words())).or_default() += 1;
    }
    counted
}

/// Makes the corrections of a text and fails where anything is not as it is promised: what is said to be fixed is not,
/// something else in the text is another, a number is lower, a finding is new, an acceptance is used otherwise, or a
/// second run changes something. What came of it.
pub fn holds(text: &str) -> Fixed {
    let settings = Settings::default();
    let before = check(&Source::from_text("fixed.pattern.yaml", text), &settings);
    let fixed = fix(&Source::from_text("fixed.pattern.yaml", text), &settings);
    let now = &fixed.source.text;
    let after = check(&Source::from_text("fixed.pattern.yaml", now), &settings);
    let told = || format!("{:#?}\nfrom:\n{text}\nto:\n{now}", fixed.changes);
    assert!(!fixed.is_unfinished, "{}", told());
    nothing_else_changed(text, &fixed);
    let (known, left) = (counted(&before.findings), counted(&after.findings));
    for (key, count) in &left {
        assert!(count <= known.get(key).unwrap_or(&0), "new: {key:?} in {}", told());
    }
    let (known, left) = (by_words(&before), by_words(&after));
    let mut said: BTreeMap<_, usize> = BTreeMap::new();
    for change in &fixed.changes {
        not_lower(&change.old, &change.new);
        // What comes with another was not found before.
        if change.beside {
            continue;
        }
        *said.entry((change.rule, change.about.clone())).or_default() += 1;
    }
    for (key, count) in said {
        let still: usize = left.get(&key).copied().unwrap_or_default();
        assert!(still + count <= known[&key], "{key:?} is said to be fixed {count} times in {}", told());
    }
    let accepted = |outcome: &Outcome| -> Vec<(&'static str, Option<String>, String)> {
        let accepted = outcome.accepted.iter();
        accepted.map(|one| (one.finding.rule, one.finding.size.clone(), one.because.clone())).collect()
    };
    assert_eq!(accepted(&before), accepted(&after), "{}", told());
    let open = after.findings.iter().filter(|finding| finding.level > Level::Note).count();
    assert_eq!(fixed.left.len(), open, "each finding above note is left to somebody: {}", told());
    let again = fix(&Source::from_text("fixed.pattern.yaml", now), &settings);
    assert!(
        again.changes.is_empty() && again.source.text == *now,
        "a second run changes {:#?}\n{}",
        again.changes,
        told()
    );
    fixed
}

/// The text is what it was with each old text in the place of its new one. Of two changes at one place only the lines
/// are compared.
fn nothing_else_changed(text: &str, fixed: &Fixed) {
    let apart = fixed.changes.windows(2).all(|pair| pair[0].at.end <= pair[1].at.start);
    if apart {
        let mut back = fixed.source.text.clone();
        for change in fixed.changes.iter().rev() {
            assert_eq!(&back[change.at.start..change.at.end], change.new);
            back.replace_range(change.at.start..change.at.end, &change.old);
        }
        assert_eq!(back, text);
    } else {
        let (before, after): (Vec<&str>, Vec<&str>) = (text.lines().collect(), fixed.source.text.lines().collect());
        assert_eq!(before.len(), after.len(), "{:#?}", fixed.changes);
        let lines: Vec<usize> = fixed.changes.iter().map(|change| fixed.source.place(change.at.start).line).collect();
        for (line, _) in (1..).zip(before.iter().zip(&after)).filter(|(_, (before, after))| before != after) {
            assert!(lines.contains(&line), "line {line} changed, and {:#?}", fixed.changes);
        }
    }
}

/// Whole numbers alone are compared here: they are what most corrections raise.
fn not_lower(old: &str, new: &str) {
    if let (Ok(old), Ok(new)) = (old.parse::<u64>(), new.parse::<u64>()) {
        assert!(new > old, "{old} -> {new}");
    }
}
