//! The signs of a number for each kind of number, and for its being none of them.

use std::collections::BTreeSet;

use super::super::elements::Form;
use super::super::keys::What;
use super::super::lexicon::{Act, Noun};
use super::number::Number;
use super::sign::{Sign, sign, yes};

/// The signs that go with a kind of number, whatever it is of; `all` are those that go with each.
pub(super) fn of_what<S: Sign>(number: &Number<'_, '_>, what: What, all: &[S], sink: &mut impl FnMut(S)) {
    if number.siblings.all > 0 {
        let siblings = siblings(number, what);
        sink(sign(&["in-column", siblings, yes(number.candidates.around.in_table)]));
        sink(sign(&["siblings", siblings, what.word()]));
    }
    for sign in all {
        sink(sign.clone().and(what.word()));
    }
}

/// The signs that go with each kind of number, without their last word, which is the kind.
pub(super) fn of_each_what<S: Sign>(number: &Number<'_, '_>) -> Vec<S> {
    let around = &number.candidates.around;
    let mut signs: Vec<S> = Vec::new();
    let mut add = |words: &[&str]| signs.push(sign(words));
    add(&["what"]);
    add(&["form", number.form()]);
    add(&["unit", number.unit(), yes(number.is_whole())]);
    add(&["table", yes(around.in_table)]);
    add(&["run", yes(number.candidates.in_run)]);
    let flags = [
        ("measure", around.is_measure),
        ("total", around.is_total),
        ("each", around.of_each),
        ("grid", around.is_grid),
        ("rows", around.of_rows),
        ("together", around.says_together),
    ];
    for (name, _) in flags.iter().filter(|(_, is)| *is) {
        add(&[name]);
    }
    if around.nouns == 0 && around.noun_is_name {
        add(&["noun-is-name"]);
    }
    if let Some(why) = number.candidates.doubt {
        add(&["doubt", why]);
    }
    let near = if around.noun_is_near { "near" } else { "far" };
    for noun in Noun::in_bits(around.nouns) {
        add(&["noun", noun.word(), near]);
    }
    if around.acts == 0 {
        add(&["no-act"]);
    }
    let near = if around.act_is_near { "near" } else { "far" };
    for act in Act::in_bits(around.acts) {
        add(&["act", act.word(), near]);
    }
    words_beside(number, &mut add);
    for (name, other) in [("previous", number.previous), ("next", number.next)] {
        add(&[name, other.map_or("-", |other| form_of(number, other))]);
    }
    signs
}

/// How another number looks.
fn form_of(number: &Number<'_, '_>, other: usize) -> &'static str {
    let candidates = &number.gathered.open[other];
    match number.gathered.read.list[candidates.passage].elements[candidates.element].form {
        Form::Scalar if candidates.has_unit => "measure",
        Form::Scalar => "bare",
        Form::Sides => "sides",
        Form::Strip => "strip",
    }
}

/// How many of its column or list are of a kind by their values and names.
fn siblings(number: &Number<'_, '_>, what: What) -> &'static str {
    let of = number.siblings.all;
    let own = number.siblings.of[what as usize];
    match own {
        0 => "none",
        _ if own == of && own > 1 => "all",
        _ if own == number.siblings_most => "best",
        _ if own * 2 > of => "most",
        _ => "less",
    }
}

/// The signs of its being no number of the manuscript.
pub(super) fn of_none<S: Sign>(number: &Number<'_, '_>, sink: &mut impl FnMut(S)) {
    let candidates = number.candidates;
    let around = &candidates.around;
    let mut add = |words: &[&str]| sink(words.iter().fold(S::new("none"), |sign, word| sign.and(word)));
    add(&["form", number.form(), number.unit(), yes(number.is_whole())]);
    let flags = [
        ("table", around.in_table),
        ("run", candidates.in_run),
        ("each", around.of_each),
        ("total", around.is_total),
        ("about", around.about),
        ("rows", around.of_rows),
        ("together", around.says_together),
        ("fitted", candidates.is_fitted),
        ("lined", candidates.is_lined),
        ("conflicts", candidates.conflicts),
    ];
    for (name, is) in flags {
        add(&[name, yes(is)]);
    }
    add(&["named", yes(candidates.is_named), yes(candidates.wide_named)]);
    add(&["doubt", candidates.doubt.unwrap_or("-")]);
    if around.nouns == 0 {
        add(&["no-noun", yes(around.noun_is_name)]);
    }
    for noun in Noun::in_bits(around.nouns) {
        add(&["noun", noun.word(), number.noun_place()]);
    }
    for noun in Noun::in_bits(around.sentence_nouns) {
        add(&["sentence", noun.word()]);
    }
    if around.acts == 0 {
        add(&["no-act"]);
    }
    for act in Act::in_bits(around.acts) {
        add(&["act", act.word(), yes(around.act_is_near)]);
    }
    words_around(number, &mut add);
    add(&["subjects", few(around.subjects.first().map_or(0, |level| level.cues.len()), 2)]);
    add(&["others", few(number.line.of, 3)]);
    add(&["line", if number.line.of == 0 { "-" } else { few(number.line.most, 3) }]);
    let family = number.families.iter().map(|family| match family.most {
        0 => "none",
        most if most == family.others => "whole",
        _ => "part",
    });
    let family = family.min_by_key(|word| ["whole", "part", "none"].iter().position(|known| known == word));
    add(&["family", family.unwrap_or("-")]);
    let most = match number.siblings.all {
        0 => "-",
        all if number.siblings_most == all => "all",
        all if number.siblings_most * 2 >= all => "half",
        _ => "less",
    };
    add(&["siblings", most, yes(around.in_table)]);
}

/// The words that stand beside it.
fn words_beside(number: &Number<'_, '_>, add: &mut impl FnMut(&[&str])) {
    let [after, after_next] = &number.after;
    let [before, before_last] = &number.before;
    add(&["after", after]);
    add(&["before", before]);
    add(&["after", after, after_next]);
    add(&["before", before_last, before]);
}

/// The words of its sentence, and those that stand beside it.
fn words_around(number: &Number<'_, '_>, add: &mut impl FnMut(&[&str])) {
    words_beside(number, add);
    if !number.candidates.around.in_table {
        let sentence = number.here.sentence(number.candidates.element);
        let words = number.here.tokens.list[sentence].iter().filter(|token| token.is_word());
        for word in words.map(|token| token.stem.as_str()).collect::<BTreeSet<_>>() {
            add(&["word", word]);
        }
    }
}

/// A small number in digits, or the most that is told apart.
fn few(number: usize, most: usize) -> &'static str {
    ["0", "1", "2", "3"][number.min(most).min(3)]
}
