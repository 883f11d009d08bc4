//! What a save changed: which findings are new, which are mended and which are still there.

use crate::finding::{Finding, Subject, SubjectKind};

/// The findings of a file beside those that it had.
#[derive(Debug, Default, PartialEq, Eq)]
pub(super) struct Comparison {
    /// The new ones, as indexes into what is found now.
    pub(super) fresh: Vec<usize>,
    /// Those that were there before.
    pub(super) still: Vec<Still>,
    /// Those that are gone, as they were.
    pub(super) mended: Vec<Finding>,
}

/// A finding that is still there.
#[derive(Debug, PartialEq, Eq)]
pub(super) struct Still {
    /// Its index into what is found now.
    pub(super) index: usize,
    /// Whether its numbers changed.
    pub(super) reworded: bool,
    /// Whether it is of another level.
    pub(super) relevelled: bool,
}

impl Comparison {
    /// Compares the findings of one file.
    pub(super) fn new(before: Vec<Finding>, now: &[Finding]) -> Comparison {
        let mut before: Vec<Option<Finding>> = before.into_iter().map(Some).collect();
        let mut partners: Vec<Option<Finding>> = vec![None; now.len()];
        // Those that say the same first: of two findings alike, the one that was mended is the one that is missing.
        for same in
            [says_the_same, is_about_the_same, says_the_same_in_a_text, is_in_the_same_words, is_of_the_same_number]
        {
            for (partner, finding) in partners.iter_mut().zip(now).filter(|(partner, _)| partner.is_none()) {
                let found = before.iter_mut().find(|old| old.as_ref().is_some_and(|old| same(old, finding)));
                *partner = found.and_then(Option::take);
            }
        }
        let mut comparison = Comparison { mended: before.into_iter().flatten().collect(), ..Comparison::default() };
        for (index, (partner, finding)) in partners.into_iter().zip(now).enumerate() {
            match partner {
                None => comparison.fresh.push(index),
                Some(old) => comparison.still.push(Still {
                    index,
                    reworded: old.message != finding.message,
                    relevelled: old.level != finding.level,
                }),
            }
        }
        comparison
    }

    /// Whether nothing changed that is worth a word.
    pub(super) fn is_same(&self) -> bool {
        let changed = |still: &Still| still.reworded || still.relevelled;
        self.fresh.is_empty() && self.mended.is_empty() && !self.still.iter().any(changed)
    }
}

fn says_the_same(old: &Finding, new: &Finding) -> bool {
    is_of_the_same(old, new) && old.message == new.message
}

/// A finding on a number is the same one with another number in it. A slip of the pen has no number, and another
/// word in its message is another slip.
fn is_about_the_same(old: &Finding, new: &Finding) -> bool {
    let by_number = old.needed.is_some() && new.needed.is_some();
    is_of_the_same(old, new) && (new.size.is_some() || by_number)
}

/// In a printed text a finding goes by the words round its number, and another number may stand in these now.
fn says_the_same_in_a_text(old: &Finding, new: &Finding) -> bool {
    is_in_the_same_words(old, new) && old.message == new.message
}

fn is_in_the_same_words(old: &Finding, new: &Finding) -> bool {
    let words =
        |of: &Finding| of.subject.get(SubjectKind::Quote).map(without_numbers).filter(|words| !words.is_empty());
    is_of_the_same_in_a_text(old, new) && words(old).is_some() && words(old) == words(new)
}

/// In a cell stands nothing but a number: it is the same where it is still held against the same of the manuscript.
fn is_of_the_same_number(old: &Finding, new: &Finding) -> bool {
    let stated = |of: &Finding| of.elsewhere.first().map(|stated| stated.text.clone());
    is_of_the_same_in_a_text(old, new) && stated(old).is_some() && stated(old) == stated(new)
}

fn is_of_the_same_in_a_text(old: &Finding, new: &Finding) -> bool {
    let but_the_quote = |of: &Finding| -> Option<Subject> {
        of.subject.get(SubjectKind::Quote)?;
        Some(of.subject.clone().without(SubjectKind::Quote))
    };
    let (was, is) = (but_the_quote(old), but_the_quote(new));
    was.is_some() && (old.rule, &old.size, was) == (new.rule, &new.size, is)
}

/// The words of a quotation.
fn without_numbers(quote: &str) -> String {
    quote.split(|c: char| !c.is_alphabetic()).filter(|word| !word.is_empty()).collect::<Vec<_>>().join(" ")
}

fn is_of_the_same(old: &Finding, new: &Finding) -> bool {
    (old.rule, &old.size, &old.subject) == (new.rule, &new.size, &new.subject)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::finding::{Label, Subject, SubjectKind};
    use crate::manuscript::Span;

    fn finding(rule: &'static str, size: Option<&str>, message: &str) -> Finding {
        let mut finding = Finding::new(Label::new(Span::new(0, 1), "here"), message);
        finding.rule = rule;
        finding.size = size.map(String::from);
        finding
    }

    fn counts(before: &[Finding], now: &[Finding]) -> (Vec<usize>, Vec<usize>, Vec<String>) {
        let comparison = Comparison::new(before.to_vec(), now);
        let mended = comparison.mended.iter().map(|finding| finding.message.clone()).collect();
        (comparison.fresh, comparison.still.iter().map(|still| still.index).collect(), mended)
    }

    #[test]
    fn another_number_for_the_same_size_is_still_the_same_finding() {
        let before = finding("binding-short", Some("crib"), "7 strips stated; 9 needed");
        let now = finding("binding-short", Some("crib"), "8 strips stated; 9 needed");
        let comparison = Comparison::new(vec![before], std::slice::from_ref(&now));
        assert_eq!(comparison.still, [Still { index: 0, reworded: true, relevelled: false }]);
        assert!(!comparison.is_same());
    }

    #[test]
    fn another_size_is_another_finding() {
        let before = [finding("binding-short", Some("crib"), "short")];
        let now = [finding("binding-short", Some("throw"), "short")];
        assert_eq!(counts(&before, &now), (vec![0], vec![], vec!["short".to_string()]));
    }

    #[test]
    fn another_fabric_of_the_size_is_another_finding() {
        let of = |fabric: &str, message| {
            finding("fabric-short", Some("crib"), message).about(Subject::of(SubjectKind::Fabric, fabric))
        };
        let before = [of("ink", "1/4 yd stated"), of("sand", "3/8 yd stated")];
        let now = [of("sand", "1/2 yd stated")];
        assert_eq!(counts(&before, &now), (vec![], vec![0], vec!["1/4 yd stated".to_string()]));
    }

    #[test]
    fn a_slip_with_another_word_is_another_slip() {
        let before = [finding("unknown-word", None, "`colour` is not known")];
        let now = [finding("unknown-word", None, "`wadding` is not known")];
        assert_eq!(counts(&before, &now), (vec![0], vec![], vec!["`colour` is not known".to_string()]));
    }

    #[test]
    fn another_number_beside_it_in_a_text_leaves_a_finding_what_it_is() {
        let of = |quote: &str, message: &str| {
            finding("text-differs", Some("lap"), message).about(Subject::of(SubjectKind::Quote, quote))
        };
        let before = [of("Cut 8 strips, 2 1/2\" x WOF", "The text says 8"), of("Sew 4 rows of 5", "The text says 4")];
        let now = [of("Sew 4 rows of 6", "The text says 4"), of("Cut 7 strips, 2 1/4\" x WOF", "The text says 7")];
        assert_eq!(counts(&before, &now), (vec![], vec![0, 1], vec![]));
        let comparison = Comparison::new(before.to_vec(), &now);
        assert_eq!(comparison.still.iter().map(|still| still.reworded).collect::<Vec<_>>(), [false, true]);
        let other = [of("Join 8 strips", "The text says 8")];
        assert_eq!(counts(&before[..1], &other), (vec![0], vec![], vec!["The text says 8".to_string()]));
    }

    #[test]
    fn a_number_of_the_whole_pattern_is_the_same_finding_when_it_changes() {
        let before = [finding("fold-short", None, "2 in").numbers("2 in", "2 1/2 in")];
        let now = [finding("fold-short", None, "2 1/8 in").numbers("2 1/8 in", "2 1/2 in")];
        assert_eq!(counts(&before, &now), (vec![], vec![0], vec![]));
    }

    #[test]
    fn of_several_alike_as_many_are_mended_as_are_missing() {
        let slip = |word: &str| finding("unknown-word", None, word);
        let before = [slip("a"), slip("a"), slip("b")];
        let now = [slip("b"), slip("a")];
        assert_eq!(counts(&before, &now), (vec![], vec![0, 1], vec!["a".to_string()]));
    }
}
