//! House rules: mistakes have places, and a manuscript is checked under whatever could be read.

use sparestrip::check::{Corrections, check_with, house_findings};
use sparestrip::manuscript::Source;
use sparestrip::rule_book::{book, read_house_rules};

use super::{Fault, Kind, Target, check, in_text};
use crate::pool::Seen;
use crate::rng::Rng;

pub(super) const TARGET: Target = Target {
    name: "house-rules",
    about: "house rules are read, and a page of the rule book is checked under them",
    kind: Kind::HouseRules,
    share: 30,
    run,
};

fn run(input: &[u8], seen: &mut Seen) -> Result<(), Fault> {
    let source = Source::from_bytes("house-rules.yaml", input.to_vec());
    let house = read_house_rules(&source);
    for mistake in &house.mistakes {
        in_text(&source.text, mistake.at, "a mistake of house rules")?;
        let kind = format!("{:?}", mistake.what);
        seen.note(&["house", kind.split([' ', '(', '{']).next().unwrap_or_default()]);
    }
    for finding in house_findings(&source, house.mistakes, &house.settings) {
        in_text(&source.text, finding.at.at, finding.rule)?;
    }
    let page = Rng::of(input).pick(book());
    for example in [&page.fails, &page.passes] {
        let manuscript = Source::from_text("page.pattern.yaml", example.text());
        let outcome = check_with(&manuscript, &house.settings, Corrections::LeftOut);
        check::placed(&manuscript, &outcome, seen)?;
    }
    Ok(())
}
