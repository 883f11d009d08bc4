//! A number of a printed text in both measures whose halves are no rounding of one another.

use super::Context;
use super::wording::text::{stated_at, texts};
use crate::finding::Finding;
use crate::text::State;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for text in texts(context) {
        for number in text.reading.numbers.iter().filter(|number| number.state == State::OtherHalf) {
            let written = text.written(number.passage, &number.at);
            let message = format!("{written} is no rounding of the number beside it in the other measure.");
            let label = "not the same in the other measure";
            let mut finding = text.finding(number.passage, &number.at, &number.sentence, label, message);
            if let Some(key) = number.keys.first().map(|key| &text.reading.keys.list[*key]) {
                let (words, elsewhere) = stated_at(context.source, text.reading, key);
                finding = finding.see_elsewhere(elsewhere).for_some_size(text.reading.keys.size(key));
                finding = finding.help(format!("The other half is that of the manuscript: {words}."));
            }
            findings.push(finding.help("1 in is 2.54 cm, and 1 yd is 91.44 cm.").numbers(written, "the same length"));
        }
    }
}
