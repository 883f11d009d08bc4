//! What a number comes to by how much speaks for what.

use super::super::assign::CameTo;
use super::super::compare::Fit;
use super::super::elements::Form;
use super::super::judge::{SEVERAL, differing};
use super::Score;
use super::number::Number;
use super::sign::{Mark, Sign, Word, sign, word, yes};
use super::slips::Slip;
use super::unstated::is_of_unstated;
use super::weights;

/// The steps by which scores are told apart: half a unit of evidence and more, in the unit of the weights.
const STEPS: [(i32, Word<'_>); 12] = [
    (-96, Word::new("-3")),
    (-32, Word::new("-1")),
    (0, Word::new("0")),
    (16, Word::new("0.5")),
    (32, Word::new("1")),
    (48, Word::new("1.5")),
    (64, Word::new("2")),
    (96, Word::new("3")),
    (128, Word::new("4")),
    (176, Word::new("5.5")),
    (240, Word::new("7.5")),
    (320, Word::new("10")),
];

/// By how much more must speak for a key than for none, where a number is no requirement by all appearances.
const PLAIN: i32 = 64;

/// How a number stands to the keys: the highest score of those that it fits, of those of which it is a side, of those
/// that it differs from, and of what could be meant besides.
struct Standing {
    none: i32,
    same: Option<i32>,
    side: Option<i32>,
    other: Score,
    /// The best of the others that says something else than the best.
    second: Option<i32>,
    /// How the best of those that it fits stands to the best that it differs from.
    kin: Word<'static>,
    /// What says for which size it is.
    size_from: Word<'static>,
    slip: [Option<i32>; Slip::ALL.len()],
    /// Whether it is for another size what it would differ from, and nothing says the size, or is the same of it otherwise.
    is_right_otherwise: bool,
}

/// What a number is to each key.
pub(super) trait Facts {
    /// How it stands to a key by its value.
    fn fit(&self, key: usize) -> Fit;
    /// Whether two keys say the same.
    fn say_the_same(&self, one: usize, other: usize) -> bool;
    /// Whether two keys are of the same thing, and for the same size.
    fn are_kin(&self, one: usize, other: usize) -> (bool, bool);
    /// Whether it is a usual slip of a key.
    fn is_slip(&self, slip: Slip, key: usize) -> bool;
    /// Whether two keys are the same number for different sizes.
    fn are_of_one_line(&self, one: usize, other: usize) -> bool;
    /// Whether nothing says for which size it is.
    fn is_unsized(&self) -> bool;
    /// What says for which size it is.
    fn size_from(&self) -> Word<'static>;
}

impl Facts for Number<'_, '_> {
    fn fit(&self, key: usize) -> Fit {
        Number::fit(self, key)
    }

    fn say_the_same(&self, one: usize, other: usize) -> bool {
        let said = &self.gathered.keys.groups.said.of;
        said[one] == said[other]
    }

    fn are_kin(&self, one: usize, other: usize) -> (bool, bool) {
        let keys = self.gathered.keys;
        let things = &keys.groups.things.of;
        (things[one] == things[other], keys.list[one].size == keys.list[other].size)
    }

    fn is_slip(&self, slip: Slip, key: usize) -> bool {
        slip.is(self, key)
    }

    fn are_of_one_line(&self, one: usize, other: usize) -> bool {
        let lines = &self.gathered.keys.groups.lines.of;
        lines[one] == lines[other]
    }

    fn is_unsized(&self) -> bool {
        self.candidates.around.is_unsized()
    }

    fn size_from(&self) -> Word<'static> {
        self.size_from
    }
}

impl Standing {
    fn new(number: &impl Facts, none: i32, scores: &[Score]) -> Option<Standing> {
        let fits: Vec<Fit> = scores.iter().map(|score| number.fit(score.key)).collect();
        let with = |fit: Fit| scores.iter().zip(&fits).filter(move |(_, own)| **own == fit).map(|(score, _)| score);
        let best = |fit: Fit| with(fit).map(|score| score.sum).max();
        let others = || with(Fit::Other);
        let is_better = |one: &&Score, other: &&Score| one.sum.cmp(&other.sum).then(other.key.cmp(&one.key));
        let other = *others().max_by(is_better)?;
        // Where nothing says the size, what is right for one of them is right; and of blocks across and down, either is.
        let is_right = |score: &Score| {
            let is_for_it = number.is_unsized() || number.are_kin(score.key, other.key).1;
            is_for_it && number.are_of_one_line(score.key, other.key)
        };
        let is_right_otherwise = with(Fit::Same).any(is_right);
        let says_else = |score: &&Score| !number.say_the_same(score.key, other.key);
        let second = others().filter(says_else).map(|score| score.sum).max();
        // Only what could still be meant: a slip of anything else proves nothing.
        let near = || others().filter(|score| score.sum + 96 > other.sum);
        let of = |slip: Slip| near().filter(|score| number.is_slip(slip, score.key)).map(|score| score.sum).max();
        let same = with(Fit::Same).max_by(is_better);
        let kin = match same.map(|same| number.are_kin(same.key, other.key)) {
            None => word!("-"),
            Some((true, true)) => word!("both"),
            Some((true, false)) => word!("thing"),
            Some((false, true)) => word!("size"),
            Some((false, false)) => word!("neither"),
        };
        let slip = Slip::ALL.map(of);
        let (same, side) = (same.map(|same| same.sum), best(Fit::OneSide));
        let size_from = number.size_from();
        Some(Standing { none, same, side, other, second, kin, size_from, slip, is_right_otherwise })
    }

    fn signs<S: Sign>(&self, state: &str, sink: &mut impl FnMut(S)) {
        let mut add = |words: &[Word<'_>]| sink(sign::<S>(words));
        let top = self.other.sum;
        let leads = [
            (word!("same"), self.same),
            (word!("side"), self.side),
            (word!("none"), Some(self.none)),
            (word!("second"), self.second),
            (word!("any"), self.same.into_iter().chain(self.side).chain([self.none]).max()),
        ];
        for (name, score) in leads {
            let Some(score) = score else {
                add(&[word!("verdict"), name, word!("-")]);
                continue;
            };
            for (_, step) in STEPS.iter().filter(|(step, _)| top - score >= *step) {
                add(&[word!("verdict"), name, *step]);
            }
        }
        add(&[word!("verdict"), word!("kin"), self.kin]);
        add(&[word!("verdict"), word!("kin"), self.kin, self.size_from]);
        if let Some(same) = self.same {
            let is_above_none = yes(same > self.none);
            for (_, step) in STEPS.iter().filter(|(step, _)| top - same >= *step) {
                add(&[word!("verdict"), word!("kin"), self.kin, *step]);
                add(&[word!("verdict"), word!("kin"), is_above_none, *step]);
            }
        }
        for (slip, score) in Slip::ALL.iter().zip(self.slip) {
            let close = score.map_or(word!("-"), |score| {
                if score == top {
                    word!("best")
                } else if top - score < 32 {
                    word!("close")
                } else {
                    word!("far")
                }
            });
            add(&[word!("verdict"), slip.word(), close]);
        }
        add(&[word!("verdict"), word!("slip"), yes(self.slip.contains(&Some(top)))]);
        add(&[word!("verdict"), word!("before"), Word::new(state)]);
        add(&[word!("verdict"), word!("before"), Word::new(state), self.size_from]);
    }
}

/// The word for what a number came to before.
pub(super) fn state_of(before: &CameTo) -> &'static str {
    match before {
        CameTo::Right(_) => "right",
        CameTo::Differs(..) => "differs",
        CameTo::OtherHalf(..) => "other-half",
        CameTo::NotRequired(_) => "not-required",
        CameTo::Unclear(why) if why.starts_with("nothing beside it says") => "unsaid",
        CameTo::Unclear(why) if why.starts_with("it is about") => "about",
        CameTo::Unclear(why) if why.starts_with("several") => "several",
        CameTo::Unclear(why) if why.starts_with("nothing beside it is") => "stranger",
        CameTo::Unclear(why) if why.starts_with("what stands beside it") => "other-thing",
        CameTo::Unclear(_) => "unclear",
    }
}

/// The signs of a number's differing from what it should be; nothing where there is no key that it differs from.
pub(super) fn signs<S: Sign>(
    number: &impl Facts,
    state: &str,
    none: i32,
    scores: &[Score],
    sink: &mut impl FnMut(S),
) -> bool {
    let standing = Standing::new(number, none, scores).filter(|standing| !standing.is_right_otherwise);
    if let Some(standing) = &standing {
        standing.signs(state, sink);
    }
    standing.is_some()
}

/// What a number comes to: it differs where enough speaks for that; a verdict of before that too little speaks for is
/// taken back; and what is right by the highest score is right.
pub(super) fn verdict(number: &Number<'_, '_>, before: &CameTo, none: i32, scores: &[Score]) -> CameTo {
    let about = number.candidates.is_spared();
    let Some(standing) = Standing::new(number, none, scores) else {
        // What it was held to differ from is nothing that it can be.
        let is_of_other_kind = |keys: &[usize]| !keys.iter().any(|key| number.can_be(*key));
        return match before {
            CameTo::Differs(keys, _) if is_of_other_kind(keys) => CameTo::Unclear(SEVERAL),
            _ => before.clone(),
        };
    };
    let mut sum = 0;
    standing.signs(state_of(before), &mut |sign: Mark| sum += weights::of(sign));
    let is_right = is_of_all_named(number, before) || is_named_by_row(number, before);
    let is_open = !about && !standing.is_right_otherwise && !is_right;
    let differs = is_open
        && sum >= weights::of(sign::<Mark>(&[word!("verdict"), word!("threshold")]))
        && !is_of_unstated(number, standing.other.key);
    match before {
        CameTo::OtherHalf(..) => before.clone(),
        // What is no requirement by all appearances is right where that is plain, and never a slip.
        CameTo::NotRequired(_) => {
            let is_plain = standing.same.max(standing.side) >= Some(none + PLAIN);
            right(number, &standing, scores).filter(|_| is_plain).unwrap_or_else(|| before.clone())
        }
        _ if differs => {
            let keys = meant(number, scores, standing.other);
            let numbers = differing(&keys, number.gathered.keys, number.own, number.here, number.gathered.bare);
            CameTo::Differs(keys, numbers)
        }
        CameTo::Differs(..) => {
            right(number, &standing, scores).or_else(|| by_line(number, scores)).unwrap_or(CameTo::Unclear(SEVERAL))
        }
        CameTo::Unclear(_) => {
            right(number, &standing, scores).or_else(|| by_line(number, scores)).unwrap_or_else(|| before.clone())
        }
        CameTo::Right(_) => before.clone(),
    }
}

/// Whether a number came to one of all pieces that its sentence names, where these are several: `48 squares of L and D`.
fn is_of_all_named(number: &Number<'_, '_>, before: &CameTo) -> bool {
    let CameTo::Right(keys) = before else { return false };
    let named = &number.pieces;
    let is_of_all = |key: &usize| named.iter().all(|cue| number.gathered.keys.list[*key].is_of(*cue));
    named.len() > 1 && keys.iter().any(is_of_all)
}

/// Whether a measure stands in a table with the name of what it is right for: `rectangles 9.2 x 155.2 cm (side)`.
fn is_named_by_row(number: &Number<'_, '_>, before: &CameTo) -> bool {
    let candidates = number.candidates;
    let is_measure = number.own.form == Form::Sides || candidates.has_unit;
    candidates.around.in_table && is_measure && candidates.is_named && matches!(before, CameTo::Right(_))
}

/// The keys of the highest score that say the same as the best.
fn meant(number: &Number<'_, '_>, scores: &[Score], best: Score) -> Vec<usize> {
    let keys = &number.gathered.keys.list;
    let is = |score: &&Score| score.sum == best.sum && keys[score.key].value == keys[best.key].value;
    let all: Vec<usize> = scores.iter().filter(is).map(|score| score.key).collect();
    let stated: Vec<usize> = all.iter().copied().filter(|key| keys[*key].is_stated()).collect();
    if stated.is_empty() { all } else { stated }
}

/// The keys that it is by its noun and by all others of its line: `2 rectangles (side), from 6 strips`.
fn by_line(number: &Number<'_, '_>, scores: &[Score]) -> Option<CameTo> {
    let gathered = number.gathered;
    let nouns = number.candidates.around.nouns;
    let is = |score: &&Score| {
        let key = &gathered.keys.list[score.key];
        let rank = number.line.rank(&gathered.owners_of[gathered.keys.groups.things.of[score.key]]);
        number.fit(score.key) == Fit::Same
            && key.is_stated()
            && key.nouns & nouns != 0
            && matches!(rank.text, "all" | "best-of-more")
            && gathered.same[number.index].contains(&score.key)
    };
    let keys: Vec<usize> = scores.iter().filter(is).map(|score| score.key).collect();
    (!keys.is_empty()).then_some(CameTo::Right(keys))
}

/// The keys that it is, where more speaks for these than for others or for none.
fn right(number: &Number<'_, '_>, standing: &Standing, scores: &[Score]) -> Option<CameTo> {
    let best = standing.same.max(standing.side)?;
    if best < standing.other.sum || best < standing.none {
        return None;
    }
    let is = |score: &&Score| score.sum == best && number.fit(score.key) != Fit::Other;
    Some(CameTo::Right(scores.iter().filter(is).map(|score| score.key).collect()))
}
