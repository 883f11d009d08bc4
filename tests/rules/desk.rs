//! What the tests of the rules share: checking a text, and telling what came of it as a user would see it.

use std::sync::Arc;

use jiff::Timestamp;
use sparestrip::check::{Outcome, add_sign_off, check, check_with_texts};
use sparestrip::finding::Finding;
use sparestrip::manuscript::Source;
use sparestrip::quantity::{Count, Measure, read_length};
use sparestrip::rule_book::{Settings, Value};
use sparestrip::sign_off::{Record, Recorded, SignOff, Signer};
use sparestrip::text::TextFile;

/// What is found in a text by the rule book as it is printed.
pub(crate) fn outcome(text: &str) -> Outcome {
    outcome_by(text, &Settings::default())
}

/// What is found in a text by a house's own settings.
pub(crate) fn outcome_by(text: &str, settings: &Settings) -> Outcome {
    check(&Source::from_text("test.pattern.yaml", text), settings)
}

/// What is found in a text where sign-offs are asked for, and the last one was of another text, or there is none.
pub(crate) fn signed_outcome(text: &str, signed: Option<&str>) -> Outcome {
    let settings = Settings::default();
    let record = |signed: &str| {
        let source = Source::from_text("test.pattern.yaml", signed);
        let (outcome, asked) = settings.with_what_is_asked(|settings| check(&source, settings));
        let ada = Signer { by: "Ada Finch".to_string(), note: None };
        Record::new(&source, (&settings, &asked), (&outcome.accepted, &outcome.texts), ada, Timestamp::UNIX_EPOCH)
    };
    let recorded = Recorded { signed: signed.into_iter().map(record).collect(), ..Recorded::default() };
    let (source, mut outcome) = (Source::from_text("test.pattern.yaml", text), outcome(text));
    add_sign_off(&source, &settings, &SignOff::of(&source, &settings, &recorded), &mut outcome);
    outcome
}

/// What is found in a manuscript whose printed texts all say the same, or are not there.
pub(crate) fn printed_outcome(text: &str, printed: Option<&str>) -> Outcome {
    let load = |name: &str| match printed {
        Some(printed) if name == "tern-rock.md" => {
            Ok(Arc::new(TextFile::new(name.into(), printed.as_bytes().to_vec())))
        }
        _ => Err("there is no such file".to_string()),
    };
    check_with_texts(&Source::from_text("test.pattern.yaml", text), &Settings::default(), &load)
}

/// The findings in a text, each as `rule at "place": message`, for a failure that can be read.
pub(crate) fn told(text: &str, outcome: &Outcome) -> Vec<String> {
    let told = |finding: &Finding| {
        format!("{} ({:?}) at {:?}: {}", finding.rule, finding.level, finding.at.at.text(text), finding.message)
    };
    outcome.findings.iter().map(told).collect()
}

/// The findings of one rule.
pub(crate) fn of_rule(text: &str, rule: &str) -> Vec<Finding> {
    of_rule_by(text, rule, &Settings::default())
}

/// The findings of one rule by a house's own settings.
pub(crate) fn of_rule_by(text: &str, rule: &str, settings: &Settings) -> Vec<Finding> {
    outcome_by(text, settings).findings.into_iter().filter(|finding| finding.rule == rule).collect()
}

/// The one finding of a rule.
#[track_caller]
pub(crate) fn one(text: &str, rule: &str) -> Finding {
    one_by(text, rule, &Settings::default())
}

/// The one finding of a rule by a house's own settings.
#[track_caller]
pub(crate) fn one_by(text: &str, rule: &str, settings: &Settings) -> Finding {
    let mut found = of_rule_by(text, rule, settings);
    assert_eq!(found.len(), 1, "{rule} in:\n{text}\n{:#?}", told(text, &outcome_by(text, settings)));
    found.remove(0)
}

/// The names of the rules that find something, in the order of the places.
pub(crate) fn rules_of(text: &str) -> Vec<&'static str> {
    outcome(text).findings.iter().map(|finding| finding.rule).collect()
}

/// Says that a text is silent.
#[track_caller]
pub(crate) fn assert_silent(text: &str) {
    let outcome = outcome(text);
    assert!(outcome.findings.is_empty(), "{:#?}\nin:\n{text}", told(text, &outcome));
}

/// Says that a message has each of the fragments in it.
#[track_caller]
pub(crate) fn assert_says(finding: &Finding, fragments: &[&str]) {
    for fragment in fragments {
        assert!(finding.message.contains(fragment), "{fragment:?} is not in: {}", finding.message);
    }
}

/// The correction of a finding made in its text; and nothing is found in what comes of it.
#[track_caller]
pub(crate) fn mended(text: &str, finding: &Finding) -> String {
    let correction = finding.correction.as_ref().unwrap_or_else(|| panic!("no correction: {}", finding.message));
    let mended = correction.apply(text);
    assert_silent(&mended);
    mended
}

/// The rule book with one length changed.
pub(crate) fn with_length(name: &str, length: &str) -> Settings {
    let mut settings = Settings::default();
    let length = read_length(length, Measure::Inch).expect("a length").length;
    assert!(settings.set_value(name, Value::Length(length)), "{name} is no length of the rule book");
    settings
}

/// The rule book with so many spare strips.
pub(crate) fn with_spares(spares: u64) -> Settings {
    let mut settings = Settings::default();
    assert!(settings.set_value("spare_strips", Value::Count(Count(spares))));
    settings
}

/// A manuscript in inches of one size, `lap`, with the entries of its binding one to a line.
pub(crate) fn inches(finished: &str, binding: &str, requires: &str) -> String {
    manuscript("inch", finished, binding, requires)
}

/// The same in centimetres.
pub(crate) fn centimetres(finished: &str, binding: &str, requires: &str) -> String {
    manuscript("cm", finished, binding, requires)
}

fn manuscript(measure: &str, finished: &str, binding: &str, requires: &str) -> String {
    let binding: Vec<String> = binding.lines().map(|line| format!("  {}\n", line.trim())).collect();
    let binding = binding.concat();
    format!(
        "pattern: Test Harbour\nmeasure: {measure}\nsizes:\n  lap: {{ finished: {finished} }}\n\
         binding:\n{binding}  requires:\n    lap: {{ {requires} }}\n"
    )
}
