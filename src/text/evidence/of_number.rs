//! The signs of a number for each kind of number, and for its being none of them.

use std::collections::BTreeSet;

use super::super::elements::Form;
use super::super::keys::What;
use super::super::lexicon::{Act, Noun};
use super::number::Number;
use super::sign::{Sign, Word, sign, word, words, yes};

/// The signs that go with a kind of number, whatever it is of; `all` are those that go with each.
pub(super) fn of_what<S: Sign>(number: &Number<'_, '_>, what: What, all: &[S], sink: &mut impl FnMut(S)) {
    if number.siblings.all > 0 {
        let siblings = siblings(number, what);
        sink(sign(&[word!("in-column"), siblings, yes(number.candidates.around.in_table)]));
        sink(sign(&[word!("siblings"), siblings, what.word()]));
    }
    for sign in all {
        sink(sign.clone().and(what.word()));
    }
}

/// The signs that go with each kind of number, without their last word, which is the kind.
pub(super) fn of_each_what<S: Sign>(number: &Number<'_, '_>) -> Vec<S> {
    let around = &number.candidates.around;
    let mut signs: Vec<S> = Vec::new();
    let mut add = |words: &[Word<'_>]| signs.push(sign(words));
    add(&[word!("what")]);
    add(&[word!("form"), number.form()]);
    add(&[word!("unit"), number.unit(), yes(number.is_whole())]);
    add(&[word!("table"), yes(around.in_table)]);
    add(&[word!("run"), yes(number.candidates.in_run)]);
    let flags = [
        (word!("measure"), around.is_measure),
        (word!("total"), around.is_total),
        (word!("each"), around.of_each),
        (word!("grid"), around.is_grid),
        (word!("rows"), around.of_rows),
        (word!("together"), around.says_together),
    ];
    for (name, _) in flags.iter().filter(|(_, is)| *is) {
        add(&[*name]);
    }
    if around.nouns == 0 && around.noun_is_name {
        add(&[word!("noun-is-name")]);
    }
    if let Some(why) = number.candidates.doubt {
        add(&[word!("doubt"), Word::new(why)]);
    }
    let near = if around.noun_is_near { word!("near") } else { word!("far") };
    for noun in Noun::in_bits(around.nouns) {
        add(&[word!("noun"), Word::new(noun.word()), near]);
    }
    if around.acts == 0 {
        add(&[word!("no-act")]);
    }
    let near = if around.act_is_near { word!("near") } else { word!("far") };
    for act in Act::in_bits(around.acts) {
        add(&[word!("act"), Word::new(act.word()), near]);
    }
    words_beside(number, &mut add);
    for (name, other) in [(word!("previous"), number.previous), (word!("next"), number.next)] {
        add(&[name, other.map_or(word!("-"), |other| form_of(number, other))]);
    }
    signs
}

/// How another number looks.
fn form_of(number: &Number<'_, '_>, other: usize) -> Word<'static> {
    let candidates = &number.gathered.open[other];
    match number.gathered.read.list[candidates.passage].elements[candidates.element].form {
        Form::Scalar if candidates.has_unit => word!("measure"),
        Form::Scalar => word!("bare"),
        Form::Sides => word!("sides"),
        Form::Strip => word!("strip"),
    }
}

/// How many of its column or list are of a kind by their values and names.
fn siblings(number: &Number<'_, '_>, what: What) -> Word<'static> {
    let of = number.siblings.all;
    let own = number.siblings.of[what as usize];
    match own {
        0 => word!("none"),
        _ if own == of && own > 1 => word!("all"),
        _ if own == number.siblings_most => word!("best"),
        _ if own * 2 > of => word!("most"),
        _ => word!("less"),
    }
}

/// The signs of its being no number of the manuscript.
pub(super) fn of_none<S: Sign>(number: &Number<'_, '_>, sink: &mut impl FnMut(S)) {
    let candidates = number.candidates;
    let around = &candidates.around;
    let mut add = |words: &[Word<'_>]| sink(words.iter().fold(S::new(word!("none")), |sign, word| sign.and(*word)));
    add(&[word!("form"), number.form(), number.unit(), yes(number.is_whole())]);
    let flags = [
        (word!("table"), around.in_table),
        (word!("run"), candidates.in_run),
        (word!("each"), around.of_each),
        (word!("total"), around.is_total),
        (word!("about"), around.about),
        (word!("rows"), around.of_rows),
        (word!("together"), around.says_together),
        (word!("fitted"), candidates.is_fitted),
        (word!("lined"), candidates.is_lined),
        (word!("conflicts"), candidates.conflicts),
    ];
    for (name, is) in flags {
        add(&[name, yes(is)]);
    }
    add(&[word!("named"), yes(candidates.is_named), yes(candidates.wide_named)]);
    add(&[word!("doubt"), number.candidates.doubt.map_or(word!("-"), Word::new)]);
    if around.nouns == 0 {
        add(&[word!("no-noun"), yes(around.noun_is_name)]);
    }
    for noun in Noun::in_bits(around.nouns) {
        add(&[word!("noun"), Word::new(noun.word()), number.noun_place()]);
    }
    for noun in Noun::in_bits(around.sentence_nouns) {
        add(&[word!("sentence"), Word::new(noun.word())]);
    }
    if around.acts == 0 {
        add(&[word!("no-act")]);
    }
    for act in Act::in_bits(around.acts) {
        add(&[word!("act"), Word::new(act.word()), yes(around.act_is_near)]);
    }
    words_around(number, &mut add);
    add(&[word!("subjects"), few(around.subjects.first().map_or(0, |level| level.cues.len()), 2)]);
    add(&[word!("others"), few(number.line.of, 3)]);
    add(&[word!("line"), if number.line.of == 0 { word!("-") } else { few(number.line.most, 3) }]);
    let ranks = number.families.iter().map(|family| match family.most {
        0 => 2,
        most if most == family.others => 0,
        _ => 1,
    });
    let family = ranks.min().map_or(word!("-"), |rank: usize| words!["whole", "part", "none"][rank]);
    add(&[word!("family"), family]);
    let most = match number.siblings.all {
        0 => word!("-"),
        all if number.siblings_most == all => word!("all"),
        all if number.siblings_most * 2 >= all => word!("half"),
        _ => word!("less"),
    };
    add(&[word!("siblings"), most, yes(around.in_table)]);
}

/// The words that stand beside it.
fn words_beside(number: &Number<'_, '_>, add: &mut impl FnMut(&[Word<'_>])) {
    let [after, after_next] = number.after.each_ref().map(|word| Word::new(word));
    let [before, before_last] = number.before.each_ref().map(|word| Word::new(word));
    add(&[word!("after"), after]);
    add(&[word!("before"), before]);
    add(&[word!("after"), after, after_next]);
    add(&[word!("before"), before_last, before]);
}

/// The words of its sentence, and those that stand beside it.
fn words_around(number: &Number<'_, '_>, add: &mut impl FnMut(&[Word<'_>])) {
    words_beside(number, add);
    if !number.candidates.around.in_table {
        let sentence = number.here.sentence(number.candidates.element);
        let words = number.here.tokens.list[sentence].iter().filter(|token| token.is_word());
        for word in words.map(|token| token.stem.as_str()).collect::<BTreeSet<_>>() {
            add(&[word!("word"), Word::new(word)]);
        }
    }
}

/// A small number in digits, or the most that is told apart.
fn few(number: usize, most: usize) -> Word<'static> {
    const FEW: [Word<'_>; 4] = words!["0", "1", "2", "3"];
    FEW[number.min(most).min(3)]
}
