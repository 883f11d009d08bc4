//! Quantities: a text is read, or refused at a place inside it; what is read is printed and read the same.

use sparestrip::quantity::{
    Fault as Refused, Length, Measure, Round, Written, Yardage, read_amount, read_count, read_dimensions, read_length,
    read_percent, run_together,
};

use super::{Fault, Kind, Target, hold, in_text};
use crate::pool::Seen;

pub(super) const TARGET: Target = Target {
    name: "quantity",
    about: "a quantity is read, printed and read the same, or refused at a place inside it",
    kind: Kind::Quantity,
    share: 400,
    run,
};

fn run(input: &[u8], seen: &mut Seen) -> Result<(), Fault> {
    let text = String::from_utf8_lossy(input);
    for measure in [Measure::Inch, Measure::Cm] {
        match read_length(&text, measure) {
            Ok(written) => {
                printed(&written, measure, seen)?;
                written_again(&written, measure)?;
            }
            Err(refused) => inside(&text, &refused, seen)?,
        }
        match read_amount(&text, measure) {
            Ok(amount) => {
                amount.halves().try_for_each(|half| printed(half, measure, seen))?;
                if let Some((half, place)) = &amount.second {
                    in_text(&text, place.clone().into(), "the second half")?;
                    let again = read_length(&text[place.clone()], measure);
                    hold(again.as_ref() == Ok(half), "a half is read otherwise by itself", || format!("{again:?}"))?;
                }
                hold(amount.least() <= amount.most(), "the least is more than the most", || format!("{amount:?}"))?;
                bought(amount.yardage(), measure)?;
            }
            Err(refused) => inside(&text, &refused, seen)?,
        }
        match read_dimensions(&text, measure) {
            Ok((width, length)) => [width, length].iter().try_for_each(|side| printed(side, measure, seen))?,
            Err(refused) => inside(&text, &refused, seen)?,
        }
    }
    match read_percent(&text) {
        Ok(percent) => {
            let again = read_percent(&percent.to_string());
            hold(again == Ok(percent), "a percentage is printed otherwise", || format!("{percent} as {again:?}"))?;
        }
        Err(refused) => inside(&text, &refused, seen)?,
    }
    if let Err(refused) = read_count(&text) {
        inside(&text, &refused, seen)?;
    }
    if let Some(found) = run_together(&text) {
        in_text(&text, found.at.clone().into(), "a fraction run together")?;
        seen.note(&["run together"]);
    }
    Ok(())
}

/// A refusal names a place, and something stands there unless it is the end.
fn inside(text: &str, refused: &Refused, seen: &mut Seen) -> Result<(), Fault> {
    let words: String = refused.why.chars().take_while(|c| !c.is_ascii_digit()).collect();
    seen.note(&[&words]);
    in_text(text, refused.at.clone().into(), &refused.why)?;
    let at = &refused.at;
    // An empty place is the end, or the end but for the spaces that stand there.
    let at_end = text[at.end..].trim().is_empty();
    hold(at.start < at.end || at_end, "an empty place before the end", || format!("{refused:?}"))?;
    hold(!refused.why.is_empty(), "a refusal without words", || format!("{refused:?}"))
}

/// What is printed for a length is read as no less and no more than its roundings.
fn printed(written: &Written, measure: Measure, seen: &mut Seen) -> Result<(), Fault> {
    let length = written.length;
    let in_range = !length.is_negative() && length <= Length::LONGEST;
    hold(in_range, "a length out of range", || format!("{written:?}"))?;
    let unit = format!("{:?}", written.unit);
    seen.note(&["unit", &unit]);
    for round in [Round::Up, Round::Down] {
        let shown = length.show(measure, round);
        let Ok(again) = read_length(&shown, measure) else {
            // Rounded up, the longest may be beyond the longest.
            let longest = length == Length::LONGEST || length.as_shown(measure, round) > Length::LONGEST;
            hold(longest, "what is printed cannot be read", || shown)?;
            continue;
        };
        let right = match round {
            Round::Up => again.length >= length,
            Round::Down => again.length <= length,
        };
        hold(right, "what is printed is rounded the wrong way", || format!("{shown} for {length:?}"))?;
        hold(
            again.length == length.as_shown(measure, round),
            "it is printed as another than it is said to be",
            || shown,
        )?;
    }
    Ok(())
}

/// What a correction writes in the place of a length is that length, or no less where no unit says it exactly.
fn written_again(written: &Written, measure: Measure) -> Result<(), Fault> {
    let again = written.rewrite(written.length);
    let read = read_length(&again, measure);
    let is_enough = read.is_ok_and(|read| read.length >= written.length);
    hold(is_enough, "what is written again is less", || format!("{again} for {written:?}"))
}

/// An amount as shops sell it is no less when rounded up, and no more when rounded down.
fn bought(amount: Yardage, measure: Measure) -> Result<(), Fault> {
    for round in [Round::Up, Round::Down] {
        let shown = amount.show(measure, round);
        let Ok(again) = read_amount(&shown, measure) else { continue };
        let right = match round {
            Round::Up => again.yardage() >= amount,
            Round::Down => again.yardage() <= amount,
        };
        hold(right, "an amount is rounded the wrong way", || format!("{shown} for {amount:?}"))?;
    }
    Ok(())
}
