//! An amount, or the half of a pair that a message is about, in the units that it is printed in.

use crate::quantity::{Amount, Length, Measure, Round, Unit, Written, Yardage};
use crate::requirement::fabric::Shop;

/// The half of an amount that a message is about; an amount without a pair is its own half.
#[derive(Clone, Copy, Debug)]
pub(super) struct Half<'a> {
    written: &'a Written,
    paired: bool,
}

impl<'a> Half<'a> {
    /// The smaller half.
    pub(super) fn least(amount: &'a Amount) -> Half<'a> {
        let written = amount.halves().min_by_key(|half| half.length).unwrap_or(&amount.first);
        Half { written, paired: amount.second.is_some() }
    }

    /// The larger half.
    pub(super) fn most(amount: &'a Amount) -> Half<'a> {
        let written = match &amount.second {
            Some((second, _)) if second.length > amount.first.length => second,
            _ => &amount.first,
        };
        Half { written, paired: amount.second.is_some() }
    }

    /// Each half.
    pub(super) fn each(amount: &'a Amount) -> impl Iterator<Item = Half<'a>> {
        let paired = amount.second.is_some();
        amount.halves().map(move |written| Half { written, paired })
    }

    /// How much it is.
    pub(super) const fn amount(self) -> Yardage {
        Yardage(self.written.length)
    }

    /// What it is written in.
    pub(super) const fn unit(self) -> Unit {
        self.written.unit
    }

    /// The measure that its unit belongs to.
    pub(super) const fn measure(self) -> Measure {
        if self.written.unit.is_metric() { Measure::Cm } else { Measure::Inch }
    }

    /// What is stated.
    pub(super) fn stated(self) -> String {
        self.show(self.amount(), Round::Down)
    }

    /// Another amount in the same units. A half of a pair is written as the pair writes it: inches beside its yards
    /// would look like the other half.
    pub(super) fn show(self, amount: Yardage, round: Round) -> String {
        match self.written.unit {
            Unit::Yard if self.paired => amount.show(Measure::Inch, round),
            _ if self.paired => Written { bare: false, ..*self.written }.rewrite(amount.0),
            _ => amount.show_both(self.measure(), round),
        }
    }

    /// A length in the same units, rounded up.
    pub(super) fn up(self, length: Length) -> String {
        length.show(self.measure(), Round::Up)
    }

    /// What to buy for fabric that is cut, in the same units.
    pub(super) fn to_buy(self, shop: &Shop, cut: Yardage) -> Yardage {
        shop.to_buy(cut, self.unit())
    }
}

/// What to buy for fabric that is cut, both halves where a pair is stated: `3/4 yd (70 cm)`.
pub(super) fn purchase(shop: &Shop, stated: &Amount, cut: Yardage) -> String {
    let bought: Vec<String> = Half::each(stated).map(|half| half.show(half.to_buy(shop, cut), Round::Up)).collect();
    match bought.as_slice() {
        [first, second] => format!("{first} ({second})"),
        _ => bought.concat(),
    }
}
