//! Bias strips that cannot reach, or fabric that does not give them.

use super::Context;
use super::wording::binding::{asked_for, edge_working};
use super::wording::pair::{Half, Halves};
use crate::finding::{Correction, Finding, Label, Subject};
use crate::manuscript::Spanned;
use crate::quantity::{Amount, Count, Length, Round, Scale, Written, Yardage};
use crate::quilt_math::bias::BiasStrips;
use crate::requirement::bias::{BiasNeeds, NO_NUMBER};
use crate::requirement::binding::BindingNeeds;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let Some(needs) = context.needs.binding.as_ref() else { return };
    for size in &needs.bias {
        findings.extend(length_short(needs, size));
        findings.extend(strips_short(needs, size));
        findings.extend(fabric_short(needs, size));
    }
}

/// The stated length of bias does not reach.
fn length_short(needs: &BindingNeeds<'_>, size: &BiasNeeds<'_>) -> Option<Finding> {
    let stated = size.stated.length.stated()?;
    let (length, asked) = (stated.value.length, size.lengths.asked);
    if length >= asked {
        return None;
    }
    let ends = needs.method.as_ref().map_or("the ends", |method| asked_for(&method.ends));
    let short = needs.short(asked, length);
    let (shown, needed) = (needs.down(length), needs.up(asked));
    let message = format!("{shown} of bias stated; {needed} needed to go around with {ends}: {short} short.");
    Some(
        Finding::new(Label::new(stated.at, format!("{short} short")), message)
            .for_size(&size.size.name)
            .about(Subject::number("binding length"))
            .see(size.size.finished.at(), format!("the perimeter is {}", needs.up(size.lengths.perimeter)))
            .help(edge_working(needs, size.size, &size.lengths))
            .numbers(shown, needed)
            .corrected((asked <= Length::LONGEST).then(|| Correction::new(stated.at, stated.value.rewrite(asked)))),
    )
}

/// The stated strips do not reach.
fn strips_short(needs: &BindingNeeds<'_>, size: &BiasNeeds<'_>) -> Option<Finding> {
    let stated = size.stated.strips.stated()?;
    let run = size.strip_run()?;
    let joined = size.joined(stated.value, run);
    if joined >= size.lengths.asked {
        return None;
    }
    let joining = Joining::new(needs, size, stated.value, run);
    let ends = needs.method.as_ref().map_or("the ends", |method| asked_for(&method.ends));
    let needed = size.strips_of(run);
    let needed_words = needed.map_or("longer strips".to_string(), |needed| needed.of("bias strip"));
    let message = format!(
        "{} stated; {} needed to go around with {ends}: what is stated is {} short.",
        stated.value.of("bias strip"),
        needed.map_or("longer strips".to_string(), |needed| needed.to_string()),
        needs.short(size.lengths.asked, joining.joined),
    );
    Some(
        Finding::new(Label::new(stated.at, format!("joined, {} long", joining.scale.down(joining.joined))), message)
            .for_size(&size.size.name)
            .about(Subject::number("binding strips"))
            .see(size.size.finished.at(), format!("the perimeter is {}", needs.up(size.lengths.perimeter)))
            .see(size.stated.fabric.at(), "the strips are cut from this")
            .help(edge_working(needs, size.size, &size.lengths))
            .help(joining.working())
            .numbers(stated.value.of("strip"), needed_words)
            .corrected(needed.map(|needed| Correction::new(stated.at, needed.to_string()))),
    )
}

/// The stated fabric does not give the square, or the strips, or enough of them.
fn fabric_short(needs: &BindingNeeds<'_>, size: &BiasNeeds<'_>) -> Option<Finding> {
    if let Some(square) = size.stated.square.stated() {
        return square_does_not_fit(needs, size, square);
    }
    let stated = size.stated.fabric.stated()?;
    // Each half of a pair must be enough, and the smaller one is the first that is not.
    let half = Half::least(&stated.value);
    let amount = half.amount();
    let (wanted, available) = (size.strips_wanted(amount)?, size.available(amount)?);
    if wanted <= available {
        return None;
    }
    let strips = size.strips_from(amount);
    let run = size.strip_length.length().unwrap_or(strips.run);
    let halves = Halves::new(needs.shop, &stated.value);
    let needed = buy_for_strips(needs, size, &stated.value);
    let gives = available.of("bias strip");
    let so = match &needed {
        Some(needed) => format!("{needed} needed"),
        None => "no length of this fabric is enough".to_string(),
    };
    let message = format!(
        "{} stated; {so}: cut at 45 degrees, {} gives {gives} of {}, and {}.",
        halves.stated(),
        half.pronoun(),
        needs.down(run),
        match wanted {
            NO_NUMBER => "joining them takes as much length as they add".to_string(),
            Count(1) => "1 is needed".to_string(),
            many => format!("{many} are needed"),
        },
    );
    Some(
        Finding::new(Label::new(stated.at, format!("gives {gives}")), message)
            .for_size(&size.size.name)
            .about(Subject::number("binding fabric"))
            .see(size.stated.strips.at(), "the strips that are cut from it")
            .see(size.strip_length.at(), "how long each strip is")
            .help(edge_working(needs, size.size, &size.lengths))
            .help(laying(needs, size, &strips))
            .help(longest(needs, size, run))
            .numbers(halves.stated(), needed.unwrap_or_else(|| "other fabric".to_string()))
            .corrected(strips_correction(needs, size, stated)),
    )
}

/// What to buy for the strips; `None` where no length of this fabric is enough.
pub(super) fn buy_for_strips(needs: &BindingNeeds<'_>, size: &BiasNeeds<'_>, stated: &Amount) -> Option<String> {
    let buy = |half: Half<'_>| size.fabric(needs.shop.sold_by(half.unit()), needs.shop.squaring);
    let halves = Halves::new(needs.shop, stated);
    halves.each().all(|half| buy(half).is_some()).then(|| halves.show(|half| buy(half).unwrap_or_default(), Round::Up))
}

/// The amount written again so that it gives the strips.
pub(super) fn strips_correction(
    needs: &BindingNeeds<'_>,
    size: &BiasNeeds<'_>,
    stated: &Spanned<Amount>,
) -> Option<Correction> {
    correction(stated, |half| size.fabric(needs.shop.sold_by(half.unit), needs.shop.squaring))
}

/// The amount written again so that it gives the square.
pub(super) fn square_correction(
    needs: &BindingNeeds<'_>,
    square: Length,
    stated: &Spanned<Amount>,
) -> Option<Correction> {
    correction(stated, |half| Some(needs.shop.to_buy(Yardage(square), half.unit)))
}

/// How strips lie on the fabric.
fn laying(needs: &BindingNeeds<'_>, size: &BiasNeeds<'_>, strips: &BiasStrips) -> String {
    format!(
        "A {} bias strip takes {} of the edge of the fabric, since it lies at 45 degrees; it is {} long from edge to edge.",
        needs.up(size.strip_width),
        needs.up(strips.pitch),
        needs.down(strips.run)
    )
}

/// Says so where no fabric of this width gives so long a strip, however much of it there is.
fn longest(needs: &BindingNeeds<'_>, size: &BiasNeeds<'_>, run: Length) -> String {
    let most = size.strips_from(Yardage(Length::LONGEST)).run;
    if run <= most {
        return String::new();
    }
    let usable = needs.down(size.usable_width);
    format!("From fabric with {usable} usable no bias strip is longer than {}.", needs.down(most))
}

/// The square is wider than the fabric, or longer than what is stated of it; or the rectangle is, however it lies.
fn square_does_not_fit(
    needs: &BindingNeeds<'_>,
    size: &BiasNeeds<'_>,
    stated: &Spanned<(Written, Written)>,
) -> Option<Finding> {
    let sides = size.sides()?;
    let is_square = sides.0 == sides.1;
    let shown = if is_square {
        format!("A square of {}", needs.down(sides.0))
    } else {
        format!("A rectangle of {} x {}", needs.down(sides.0), needs.down(sides.1))
    };
    let what = if is_square { "square" } else { "rectangle" };
    let help = format!("The fabric must be as long as the {what}, and its usable width as wide.");
    let Some(along) = size.along(sides) else {
        let (usable, wide) = (needs.down(size.usable_width), sides.0.min(sides.1));
        let message = format!(
            "{shown} stated: it does not come out of fabric with {usable} usable, {} too wide.",
            needs.up(wide - size.usable_width)
        );
        return Some(
            Finding::new(Label::new(stated.at, "wider than the fabric"), message)
                .for_size(&size.size.name)
                .about(Subject::number("binding square"))
                .see(needs.stated.usable_width.at(), "the usable width")
                .help(help)
                .help("Cut single bias strips instead: state strips and fabric.")
                .numbers(needs.down(wide), format!("{usable} at most")),
        );
    };
    let fabric = size.stated.fabric.stated()?;
    let half = Half::least(&fabric.value);
    if half.amount().0 >= along {
        return None;
    }
    let halves = Halves::new(needs.shop, &fabric.value);
    let (amount, needed) = (halves.stated(), halves.to_buy(Yardage(along)));
    let words = if is_square {
        format!("a square of {}", needs.up(sides.0))
    } else {
        shown.replacen("A rectangle", "a rectangle", 1)
    };
    let washed = || format!(", which takes {} before washing,", along.show_fine(needs.measure, Round::Up));
    let washed = if size.shrinks.is_nothing() { String::new() } else { washed() };
    let message = format!(
        "{amount} stated; {needed} needed: {words}{washed} does not come out of it, so {}.",
        halves.short_of(Yardage(along)),
    );
    Some(
        Finding::new(Label::new(fabric.at, format!("the {what} does not fit")), message)
            .for_size(&size.size.name)
            .about(Subject::number("binding fabric"))
            .see(Some(stated.at), format!("the {what} that is cut from it"))
            .help(help)
            .numbers(amount, needed)
            .corrected(square_correction(needs, along, fabric)),
    )
}

/// The amount written again, each half that is too small as what it must be.
fn correction(stated: &Spanned<Amount>, buy: impl Fn(&Written) -> Option<Yardage>) -> Option<Correction> {
    let rewritten = |half: &Written| Some(half.rewrite(buy(half)?.0.max(half.length)));
    let first = rewritten(&stated.value.first)?;
    let text = match &stated.value.second {
        Some((second, _)) => format!("{first} ({})", rewritten(second)?),
        None => first,
    };
    Some(Correction::new(stated.at, text))
}

/// How long so many strips are when joined, in lengths that add up as they are shown.
struct Joining {
    scale: Scale,
    strips: Count,
    run: Length,
    loss: Length,
    joined: Length,
}

impl Joining {
    fn new(needs: &BindingNeeds<'_>, size: &BiasNeeds<'_>, strips: Count, run: Length) -> Joining {
        let (loss, joined) = (size.join_loss(), size.joined(strips, run));
        let scale = Scale::of(needs.measure, &[run, loss, joined]);
        if [run, loss, joined].iter().all(|length| scale.rounded(*length, Round::Up) == *length) {
            return Joining { scale, strips, run, loss, joined };
        }
        // A length along the bias is seldom a fraction of an inch: then the sum is that of what is shown, in small steps.
        let scale = Scale::fine(needs.measure);
        let (run, loss) = (scale.rounded(run, Round::Down), scale.rounded(loss, Round::Up));
        Joining { scale, strips, run, loss, joined: run * strips + -(loss * strips.less(Count(1))) }
    }

    fn working(&self) -> String {
        let (strips, joins) = (self.strips, self.strips.less(Count(1)));
        let (run, joined) = (self.scale.down(self.run), self.scale.down(self.joined));
        match joins {
            Count(0) => format!("Strips: {strips} x {run} = {joined}."),
            many => {
                format!("Strips: {strips} x {run} - {} x {} = {joined}.", many.of("join"), self.scale.up(self.loss))
            }
        }
    }
}
