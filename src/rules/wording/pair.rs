//! An amount in words, in the units that it is printed in: both halves of a pair, that of the manuscript's measure first.

use crate::quantity::{Amount, Length, Measure, Round, Scale, Unit, Written, Yardage};
use crate::requirement::fabric::Shop;

/// One half of a pair; an amount without a pair is its own half.
#[derive(Clone, Copy, Debug)]
pub(in crate::rules) struct Half<'a> {
    written: &'a Written,
    paired: bool,
}

impl<'a> Half<'a> {
    /// The smaller half.
    pub(in crate::rules) fn least(amount: &'a Amount) -> Half<'a> {
        let written = amount.halves().min_by_key(|half| half.length).unwrap_or(&amount.first);
        Half { written, paired: amount.second.is_some() }
    }

    /// Each half, in the order in which they are written.
    pub(in crate::rules) fn each(amount: &'a Amount) -> impl Iterator<Item = Half<'a>> {
        let paired = amount.second.is_some();
        amount.halves().map(move |written| Half { written, paired })
    }

    /// How much it is.
    pub(in crate::rules) const fn amount(self) -> Yardage {
        Yardage(self.written.length)
    }

    /// What it is written in.
    pub(in crate::rules) const fn unit(self) -> Unit {
        self.written.unit
    }

    /// The measure that its unit belongs to.
    const fn measure(self) -> Measure {
        if self.written.unit.is_metric() { Measure::Cm } else { Measure::Inch }
    }

    /// What is stated.
    pub(in crate::rules) fn stated(self) -> String {
        self.show(self.amount(), Round::Down)
    }

    /// What is stated in a sentence about it: `it`, or which half of a pair.
    pub(in crate::rules) fn pronoun(self) -> String {
        if self.paired { self.stated() } else { "it".to_string() }
    }

    /// Another amount in the same units. A half of a pair is written as the pair writes it: inches beside its yards
    /// would look like the other half.
    fn show(self, amount: Yardage, round: Round) -> String {
        match self.written.unit {
            Unit::Yard if self.paired => amount.show(Measure::Inch, round),
            _ if self.paired => Written { bare: false, ..*self.written }.rewrite(amount.0),
            _ => amount.show_both(self.measure(), round),
        }
    }

    /// A length in the same units, rounded up.
    pub(in crate::rules) fn up(self, length: Length) -> String {
        length.show_as(self.measure(), Round::Up)
    }

    /// A length in the same units, rounded down.
    pub(in crate::rules) fn down(self, length: Length) -> String {
        let scale = Scale::own(self.measure(), length);
        // What is there is not nothing, however little it is.
        if scale.rounded(length, Round::Down).is_positive() {
            scale.down(length)
        } else {
            length.show(self.measure(), Round::Down)
        }
    }
}

/// An amount with the shop that it is bought in.
#[derive(Clone, Copy)]
pub(in crate::rules) struct Halves<'a> {
    shop: Shop,
    amount: &'a Amount,
}

impl<'a> Halves<'a> {
    pub(in crate::rules) const fn new(shop: Shop, amount: &'a Amount) -> Halves<'a> {
        Halves { shop, amount }
    }

    /// Each half, that of the manuscript's own measure first.
    pub(in crate::rules) fn each(self) -> impl Iterator<Item = Half<'a>> {
        let mut halves: Vec<Half<'a>> = Half::each(self.amount).collect();
        halves.sort_by_key(|half| half.measure() != self.shop.measure);
        halves.into_iter()
    }

    /// Whether it is a pair.
    pub(in crate::rules) const fn are_two(self) -> bool {
        self.amount.second.is_some()
    }

    /// What is stated: `3/4 yd (70 cm)`.
    pub(in crate::rules) fn stated(self) -> String {
        self.show(Half::amount, Round::Down)
    }

    /// What to buy for fabric that is cut.
    pub(in crate::rules) fn to_buy(self, cut: Yardage) -> String {
        self.show(|half| self.shop.to_buy(cut, half.unit()), Round::Up)
    }

    /// An amount for each half.
    pub(in crate::rules) fn show(self, amount: impl Fn(Half<'a>) -> Yardage, round: Round) -> String {
        self.both(|half| half.show(amount(half), round))
    }

    /// By how much each half is more than what to buy for fabric that is cut.
    pub(in crate::rules) fn more_than(self, cut: Yardage) -> String {
        self.show(|half| half.amount() - self.shop.to_buy(cut, half.unit()), Round::Down)
    }

    /// A length in the units of each half, rounded up.
    pub(in crate::rules) fn up(self, length: Length) -> String {
        self.both(|half| half.up(length))
    }

    /// By how much each half is short of what is needed: `what is stated is 2 in short`, and of a pair `1/2 yd is 2 in
    /// short, and 40 cm 5.8 cm`.
    pub(in crate::rules) fn short_of(self, needed: Yardage) -> String {
        let short: Vec<Half<'_>> = self.each().filter(|half| half.amount() < needed).collect();
        let by = |half: &Half<'_>| half.up((needed - half.amount()).0);
        match short.as_slice() {
            [first, second] => {
                format!("{} is {} short, and {} is {} short", first.stated(), by(first), second.stated(), by(second))
            }
            [one] if one.paired => format!("{} is {} short", one.stated(), by(one)),
            [one] => format!("what is stated is {} short", by(one)),
            _ => String::new(),
        }
    }

    /// The same for a label: `2 in short`, and of a pair `2 in (5.8 cm) short`.
    pub(in crate::rules) fn short_label(self, needed: Yardage) -> String {
        format!("{} short", self.both(|half| half.up((needed - half.amount()).0.max(Length::ZERO))))
    }

    fn both(self, words: impl Fn(Half<'a>) -> String) -> String {
        let both: Vec<String> = self.each().map(words).collect();
        match both.as_slice() {
            [first, second] => format!("{first} ({second})"),
            _ => both.concat(),
        }
    }
}

/// What to buy for fabric that is cut, both halves where a pair is stated: `3/4 yd (70 cm)`.
pub(in crate::rules) fn purchase(shop: &Shop, stated: &Amount, cut: Yardage) -> String {
    Halves::new(*shop, stated).to_buy(cut)
}
