//! Reading quantities as people write them: `2 1/2`, `2-1/2"`, `2½ in`, `.5`, `5/8 yd (60 cm)`, `54 x 72`,
//! `4 1/2 in (11.5 cm)`, `54 x 72 in (137 x 183 cm)`.
//!
//! What can mean one thing only is read: dashes of any length, two apostrophes for an inch mark, `by` for the x,
//! full-width digits, raised and lowered digits in fractions. What can mean two things is refused.
//!
//! One pass over the characters without going back: the first character that cannot belong is the one that is
//! named. Each place says in its own words what was expected there, which is why this is not a grammar library.

use std::ops::Range;

use super::digits::{digit, is_lowered, is_plain, is_raised, is_slash, whole_number};
use super::written::OtherHalf;
use super::{Amount, Count, Length, Measure, Unit, Written};

/// Why a text could not be read as a quantity.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fault {
    /// Where in the text, in bytes; empty only at the end of the text.
    pub at: Range<usize>,
    /// Whether it cannot be read, or was read and is out of bounds.
    pub kind: FaultKind,
    /// What was expected there, as a clause: "a whole number is expected here".
    pub why: String,
}

/// The two ways in which a quantity can be refused.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FaultKind {
    /// The text is no quantity.
    Unreadable,
    /// The text is a quantity beyond what a manuscript may state.
    OutOfRange,
}

/// Reads one length, such as `2 1/2`, `2½ in` or `6.5 cm`, or the same in both measures, such as `2 1/2 in (6.4 cm)`:
/// the half in the manuscript's measure is the length, and the other is kept beside it.
///
/// # Errors
/// Names the first character that does not belong, or the number that is out of bounds.
pub fn read_length(text: &str, measure: Measure) -> Result<Written, Fault> {
    if let Some(length) = plain_length(text, measure.bare_unit()) {
        return Ok(length);
    }
    let mut cursor = Cursor::new(text);
    let first = cursor.length()?;
    let length = first.in_unit(measure.bare_unit())?;
    let after = cursor.at;
    if cursor.times() {
        cursor.at = after;
        cursor.skip_spaces();
        return Err(cursor.unreadable("one length is expected here, and this makes a width and a length of it"));
    }
    let other = cursor.other_half(length.unit, first.unit.is_some(), |cursor| {
        let start = cursor.at;
        let marked = cursor.length()?;
        let after = cursor.at;
        if cursor.times() {
            cursor.at = after;
            cursor.skip_spaces();
            return Err(cursor.unreadable("one length is expected here, as before it"));
        }
        cursor.at = after;
        Ok((marked.in_unit(measure.bare_unit())?, start..after))
    })?;
    cursor.end("a length ends here")?;
    Ok(match other {
        Some((other, at)) => in_measure(length, other, &at, measure),
        None => length,
    })
}

/// Of a length in both measures the half to compute with, with the other beside it.
fn in_measure(first: Written, second: Written, second_at: &Range<usize>, measure: Measure) -> Written {
    let own_first = first.unit.is_metric() == (measure == Measure::Cm);
    let (own, other) = if own_first { (first, second) } else { (second, first) };
    Written { other: Some(OtherHalf::new(other, !own_first, second_at)), ..own }
}

/// Reads a fabric amount, one length or a pair such as `5/8 yd (60 cm)`, `5/8 yd / 60 cm` or `5/8 yd, 60 cm`.
///
/// # Errors
/// Names the first character that does not belong, or the number that is out of bounds.
pub fn read_amount(text: &str, measure: Measure) -> Result<Amount, Fault> {
    if let Some(first) = plain_length(text, measure.bare_unit()) {
        return Ok(Amount { first, second: None });
    }
    let mut cursor = Cursor::new(text);
    let first = cursor.length()?.in_unit(measure.bare_unit())?;
    cursor.skip_spaces();
    let mut second = None;
    if cursor.take_if(|c| matches!(c, '(' | '（')) {
        cursor.skip_spaces();
        let start = cursor.at;
        let written = cursor.length()?.in_unit(measure.bare_unit())?;
        let end = text[..cursor.at].trim_end().len();
        cursor.skip_spaces();
        if !cursor.take_if(|c| matches!(c, ')' | '）')) {
            return Err(cursor.unreadable("the amount in parentheses is not closed: ')' is expected here"));
        }
        second = Some((written, start..end));
    } else if !first.bare {
        second = cursor.other_measure(&first)?;
    }
    cursor.end("an amount ends here")?;
    Ok(Amount { first, second })
}

/// Reads a width and a length, such as `54 x 72` or `54" × 72"`, or the same in both measures, such as
/// `54 x 72 in (137 x 183 cm)`. A mark on one of the two serves for both.
///
/// # Errors
/// Names the first character that does not belong, or the number that is out of bounds.
pub fn read_dimensions(text: &str, measure: Measure) -> Result<(Written, Written), Fault> {
    if let Some(sides) = plain_dimensions(text, measure.bare_unit()) {
        return Ok(sides);
    }
    let mut cursor = Cursor::new(text);
    let (first, is_marked) = cursor.sides(measure.bare_unit())?;
    let other = cursor.other_half(first.0.unit, is_marked, |cursor| {
        let start = cursor.at;
        let (sides, _) = cursor.sides(measure.bare_unit())?;
        Ok((sides, start..cursor.at))
    })?;
    cursor.end("a size ends here")?;
    Ok(match other {
        Some((other, at)) => (in_measure(first.0, other.0, &at, measure), in_measure(first.1, other.1, &at, measure)),
        None => first,
    })
}

/// The two sides of a size, each in its own unit or the other's.
fn in_units(first: &Marked, second: &Marked, bare: Unit) -> Result<(Written, Written), Fault> {
    // After a yard, a foot or a metre a bare number may as well be inches or centimetres.
    if let (Some(unit @ (Unit::Yard | Unit::Foot | Unit::Metre)), None) = (first.unit, second.unit) {
        let mark = unit.mark();
        let why = format!("it is not said what this is in, {mark} or {}: write its unit too", bare.mark());
        return Err(Fault { at: second.at.clone(), kind: FaultKind::Unreadable, why });
    }
    let in_the_unit_of = |one: &Marked, other: &Marked| {
        let unit = one.unit.or(other.unit);
        one.in_unit(unit.unwrap_or(bare)).map_err(|fault| match (one.unit, unit) {
            (None, Some(unit)) => Fault {
                why: format!("it is read in {}, like the other length, and {}", unit.mark(), fault.why),
                ..fault
            },
            _ => fault,
        })
    };
    Ok((in_the_unit_of(first, second)?, in_the_unit_of(second, first)?))
}

/// What is in one unit, whether it is one length or two.
trait InUnit {
    /// The unit.
    fn unit(&self) -> Unit;

    /// Whether nothing says so.
    fn is_bare(&self) -> bool;
}

impl InUnit for Written {
    fn unit(&self) -> Unit {
        self.unit
    }

    fn is_bare(&self) -> bool {
        self.bare
    }
}

impl InUnit for (Written, Written) {
    fn unit(&self) -> Unit {
        self.0.unit
    }

    fn is_bare(&self) -> bool {
        self.0.bare && self.1.bare
    }
}

/// Whether a text has the sign or the word that stands between a width and a length.
pub(crate) fn has_times(text: &str) -> bool {
    text.contains(is_times) || text.as_bytes().windows(2).any(|pair| pair.eq_ignore_ascii_case(b"by"))
}

const fn is_times(c: char) -> bool {
    matches!(c, 'x' | 'X' | '×' | '*' | '✕' | '✖' | 'ｘ' | 'Ｘ')
}

/// Reads a whole number of things.
///
/// # Errors
/// Names the first character that does not belong, or a count beyond [`Count::MAX`].
pub fn read_count(text: &str) -> Result<Count, Fault> {
    if let Some((count, end)) = plain_digits(text.as_bytes(), 0)
        && end == text.len()
        && Count(count) <= Count::MAX
    {
        return Ok(Count(count));
    }
    let mut cursor = Cursor::new(text);
    cursor.skip_spaces();
    let start = cursor.at;
    let Some(digits) = cursor.digits() else {
        return Err(cursor.unreadable("a whole number is expected here"));
    };
    let at = start..cursor.at;
    if cursor.peek() == Some(',') && cursor.peek_after().is_some_and(is_plain) {
        return Err(cursor.unreadable("a whole number is written without commas, such as 1200"));
    }
    cursor.end("a whole number ends here")?;
    let count = whole_number(digits).map(Count).filter(|count| *count <= Count::MAX);
    count.ok_or_else(|| out_of_range(at, format!("a count may be at most {}", thousands(Count::MAX.0))))
}

/// A number with its mark, before it is known what a bare number means.
struct Marked {
    number: ParsedNumber,
    unit: Option<Unit>,
    at: Range<usize>,
}

/// A number as a fraction.
#[derive(Clone, Copy)]
struct ParsedNumber {
    top: u64,
    over: u64,
}

impl ParsedNumber {
    /// So many of a length; `None` where that is no whole number of ticks.
    fn times(self, one: Length) -> Option<Length> {
        let ticks = i128::from(self.top) * one.ticks();
        let over = i128::from(self.over);
        // Most numbers are whole, and dividing takes long; in 64 bits it is quicker, which nearly all fit.
        let whole = match (u64::try_from(ticks), self.over) {
            (_, 1) => ticks,
            (Ok(ticks), over) if ticks.is_multiple_of(over) => i128::from(ticks / over),
            (Err(_), _) if ticks % over == 0 => ticks / over,
            _ => return None,
        };
        Some(Length::from_ticks(whole))
    }
}

impl Marked {
    /// The length that the number makes in its own unit or in `bare`.
    fn in_unit(&self, bare: Unit) -> Result<Written, Fault> {
        let unit = self.unit.unwrap_or(bare);
        let Some(length) = self.number.times(unit.one()) else {
            return Err(out_of_range(
                self.at.clone(),
                "this fraction is not read: use halves, thirds, fifths, or eighths to 64ths".into(),
            ));
        };
        if length > Length::LONGEST {
            let most = "a length may be at most 2000 in (5080 cm)";
            return Err(out_of_range(self.at.clone(), most.into()));
        }
        Ok(Written { length, unit, bare: self.unit.is_none(), other: None })
    }
}

/// A place in the text that only moves forward.
struct Cursor<'t> {
    text: &'t str,
    at: usize,
}

impl<'t> Cursor<'t> {
    fn new(text: &'t str) -> Self {
        Cursor { text, at: 0 }
    }

    #[inline]
    fn next_byte(&self) -> Option<u8> {
        self.text.as_bytes().get(self.at).copied()
    }

    #[inline]
    fn peek(&self) -> Option<char> {
        let byte = self.next_byte()?;
        if byte.is_ascii() { Some(char::from(byte)) } else { self.text[self.at..].chars().next() }
    }

    /// The character after the one here.
    fn peek_after(&self) -> Option<char> {
        let mut rest = self.text[self.at..].chars();
        rest.next();
        rest.next()
    }

    #[inline]
    fn take_if(&mut self, wanted: impl Fn(char) -> bool) -> bool {
        match self.peek() {
            Some(c) if wanted(c) => {
                self.at += c.len_utf8();
                true
            }
            _ => false,
        }
    }

    #[inline]
    fn take_while(&mut self, wanted: impl Fn(char) -> bool) -> &'t str {
        let start = self.at;
        while self.take_if(&wanted) {}
        &self.text[start..self.at]
    }

    #[inline]
    fn skip_spaces(&mut self) {
        // Nearly all spaces are plain.
        while self.next_byte() == Some(b' ') {
            self.at += 1;
        }
        if self.next_byte().is_some_and(|byte| !byte.is_ascii_graphic()) {
            while self.take_if(is_space) {}
        }
    }

    fn digits(&mut self) -> Option<&'t str> {
        let digits = self.take_while(is_plain);
        (!digits.is_empty()).then_some(digits)
    }

    /// The sign or the word between a width and a length.
    fn times(&mut self) -> bool {
        let start = self.at;
        self.skip_spaces();
        let is_by = |cursor: &mut Self| {
            matches!(cursor.next_byte(), Some(b'b' | b'B'))
                && cursor.take_while(char::is_alphabetic).eq_ignore_ascii_case("by")
        };
        if self.take_if(is_times) || is_by(self) {
            return true;
        }
        self.at = start;
        false
    }

    /// The second half of a pair whose halves are only set apart: one in yards or inches, and one metric.
    fn other_measure(&mut self, first: &Written) -> Result<Option<(Written, Range<usize>)>, Fault> {
        let before = self.at;
        if self.next_byte().is_none() {
            return Ok(None);
        }
        let apart = self.take_if(|c| c == ',' || is_slash(c));
        self.skip_spaces();
        if !apart || !self.peek().is_some_and(begins_number) {
            self.at = before;
            return Ok(None);
        }
        let start = self.at;
        let marked = self.length()?;
        let at = start..self.at;
        match marked.unit {
            Some(unit) if unit.is_metric() != first.unit.is_metric() => Ok(Some((marked.in_unit(unit)?, at))),
            _ => {
                let why = "an amount is one length, or the same in yards and in metric such as 5/8 yd (60 cm)";
                Err(Fault { at, kind: FaultKind::Unreadable, why: why.into() })
            }
        }
    }

    /// The other half of a length or a size in both measures, in brackets or set apart, where one follows: its value and
    /// its place. What is only set apart follows no bare number.
    fn other_half<T: InUnit>(
        &mut self,
        first: Unit,
        is_marked: bool,
        read: impl FnOnce(&mut Self) -> Result<(T, Range<usize>), Fault>,
    ) -> Result<Option<(T, Range<usize>)>, Fault> {
        let before = self.at;
        self.skip_spaces();
        if self.next_byte().is_none() {
            self.at = before;
            return Ok(None);
        }
        let in_brackets = self.take_if(|c| matches!(c, '(' | '（'));
        let apart = !in_brackets && is_marked && self.take_if(|c| c == ',' || is_slash(c));
        self.skip_spaces();
        if !(in_brackets || apart && self.peek().is_some_and(begins_number)) {
            self.at = before;
            return Ok(None);
        }
        let (half, at) = read(self)?;
        if half.unit().is_metric() == first.is_metric() || apart && half.is_bare() {
            let why =
                "a pair is the same in inches and in metric, such as 4 1/2 in (11.5 cm): this half does not say so";
            return Err(Fault { at, kind: FaultKind::Unreadable, why: why.into() });
        }
        self.skip_spaces();
        if in_brackets && !self.take_if(|c| matches!(c, ')' | '）')) {
            return Err(self.unreadable("what stands in parentheses is not closed: ')' is expected here"));
        }
        Ok(Some((half, at)))
    }

    /// A width and a length, and whether one of them bears a mark.
    fn sides(&mut self, bare: Unit) -> Result<((Written, Written), bool), Fault> {
        let first = self.length()?;
        self.skip_spaces();
        if !self.times() {
            return Err(
                self.unreadable("a size is two lengths with an x between them, such as 54 x 72: an x is expected here")
            );
        }
        self.skip_spaces();
        let second = self.length()?;
        Ok((in_units(&first, &second, bare)?, first.unit.or(second.unit).is_some()))
    }

    /// The fault that the character here does not belong.
    fn unreadable(&self, why: &str) -> Fault {
        let width = self.peek().map_or(0, char::len_utf8);
        Fault { at: self.at..self.at + width, kind: FaultKind::Unreadable, why: why.into() }
    }

    fn end(&mut self, why: &str) -> Result<(), Fault> {
        self.skip_spaces();
        match self.peek() {
            None => Ok(()),
            Some(',') => {
                let before = self.text[..self.at].chars().next_back();
                let mut rest = self.text[self.at + 1..].chars();
                let next = rest.next();
                if next.is_none_or(is_space) && rest.all(is_space) {
                    return Err(self.unreadable("nothing follows this comma: take it out"));
                }
                match (before, next) {
                    (Some(before), Some(next)) if is_plain(before) && is_plain(next) => {
                        Err(self.unreadable("a number is written without a comma: a decimal has a point, such as 2.5"))
                    }
                    _ => Err(self.unreadable(&format!("{why}, and what follows the comma does not belong to it"))),
                }
            }
            Some(_) => Err(self.unreadable(&format!("{why}, and this does not belong to it"))),
        }
    }

    fn length(&mut self) -> Result<Marked, Fault> {
        self.skip_spaces();
        let start = self.at;
        let number = self.number()?;
        let after_number = self.at;
        self.skip_spaces();
        if self.has_no_unit() {
            self.at = after_number;
            return Ok(Marked { number, unit: None, at: start..after_number });
        }
        // As in 2 1/2-inch.
        if self.peek().is_some_and(is_dash) && self.peek_after().is_some_and(char::is_alphabetic) {
            self.take_if(is_dash);
        }
        let unit_at = self.at;
        let unit = self.unit()?;
        if unit_at == self.at {
            self.at = after_number;
        }
        Ok(Marked { number, unit, at: start..self.at })
    }

    /// Whether a glance tells that no unit stands here: at the end, or at the x of a size.
    fn has_no_unit(&self) -> bool {
        let after = |place: usize| self.text.as_bytes().get(place);
        match after(self.at) {
            None => true,
            Some(b'x') => matches!(after(self.at + 1), None | Some(b' ' | b'0'..=b'9')),
            Some(_) => false,
        }
    }

    fn unit(&mut self) -> Result<Option<Unit>, Fault> {
        let start = self.at;
        if self.take_if(|c| matches!(c, '"' | '″' | '”' | '“' | '＂')) {
            return Ok(Some(Unit::Inch));
        }
        let is_apostrophe = |c| matches!(c, '\'' | '’' | '‘' | '′');
        if self.peek().is_some_and(is_apostrophe) {
            if !self.peek_after().is_some_and(is_apostrophe) {
                return Err(self.unreadable("one such mark may be feet, or half of an inch mark: write ft or in"));
            }
            self.take_while(is_apostrophe);
            if self.text[start..self.at].chars().count() == 2 {
                return Ok(Some(Unit::Inch));
            }
            let why = "two such marks are inches, and these are more: write in".to_string();
            return Err(Fault { at: start..self.at, kind: FaultKind::Unreadable, why });
        }
        let word = self.take_while(char::is_alphabetic);
        // What stands between a width and a length is not a unit.
        if word.is_empty()
            || word.eq_ignore_ascii_case("by")
            || word.chars().eq(word.chars().next().filter(|c| is_times(*c)))
        {
            self.at = start;
            return Ok(None);
        }
        let Some(unit) = Unit::from_word(word) else {
            // Nor is it where it is written without a space, as in 54inx72in.
            let before_x = word.strip_suffix(is_times).and_then(|mark| Some((Unit::from_word(mark)?, mark.len())));
            if let Some((unit, length)) = before_x {
                self.at = start + length;
                return Ok(Some(unit));
            }
            let why = "this is not a unit: use in, ft, yd, mm, cm or m".to_string();
            return Err(Fault { at: start..self.at, kind: FaultKind::Unreadable, why });
        };
        self.take_if(|c| c == '.');
        Ok(Some(unit))
    }

    /// A whole number, a decimal, a fraction, or a whole number and a fraction.
    fn number(&mut self) -> Result<ParsedNumber, Fault> {
        if let Some(number) = self.plain_number() {
            return Ok(number);
        }
        let start = self.at;
        if self.peek().is_some_and(|c| is_dash(c) || c == '−') {
            return Err(self.unreadable("a quantity cannot be less than nothing"));
        }
        if let Some(part) = self.one_sign_fraction()? {
            return Ok(part);
        }
        let digits = self.take_while(is_plain);
        if self.peek().is_some_and(is_point) {
            return self.decimal(start, digits);
        }
        if digits.is_empty() {
            return Err(self.unreadable("a number is expected here"));
        }
        let Some(whole) = whole_number(digits) else {
            return Err(out_of_range(start..self.at, "this number is too large for any quilt".into()));
        };
        if self.peek().is_some_and(is_slash) {
            return self.fraction(start, whole);
        }
        self.fraction_after(whole)
    }

    /// A whole number, a fraction or both in plain digits, such as `36`, `5/8` or `2 1/2`, which most numbers are. `None`
    /// for what is written otherwise or is not right: character by character, it is then read or found fault with.
    fn plain_number(&mut self) -> Option<ParsedNumber> {
        let (number, end) = plain_number(self.text.as_bytes(), self.at)?;
        self.at = end;
        Some(number)
    }

    /// What follows a whole number: ` 1/2`, `-1/2`, `½`, ` ½`, or nothing.
    fn fraction_after(&mut self, whole: u64) -> Result<ParsedNumber, Fault> {
        let after_whole = self.at;
        let spaced = !self.take_while(is_space).is_empty();
        // A dash before letters belongs to the unit: 2-inch.
        let joined = self.peek().is_some_and(is_dash)
            && !self.peek_after().is_some_and(char::is_alphabetic)
            && self.take_if(is_dash);
        if joined {
            self.skip_spaces();
        }
        let start = self.at;
        if let Some(part) = self.one_sign_fraction()? {
            return self.mixed(start, whole, part);
        }
        if (spaced || joined)
            && let Some(digits) = self.digits()
        {
            let top = whole_number(digits).filter(|_| self.peek().is_some_and(is_slash));
            let Some(top) = top else {
                return Err(self
                    .unreadable("a fraction is expected after the whole number, such as 2 1/2: a / is expected here"));
            };
            let part = self.fraction(start, top)?;
            return self.mixed(start, whole, part);
        }
        if joined {
            return Err(self.unreadable("a fraction is expected after the hyphen, such as 2-1/2"));
        }
        self.at = after_whole;
        Ok(ParsedNumber { top: whole, over: 1 })
    }

    /// A whole number and the fraction after it, which begins at `start`.
    fn mixed(&self, start: usize, whole: u64, part: ParsedNumber) -> Result<ParsedNumber, Fault> {
        mixed(whole, part).ok_or_else(|| {
            let why = "the fraction after a whole number is less than one".to_string();
            Fault { at: start..self.at, kind: FaultKind::Unreadable, why }
        })
    }

    /// The slash and what is under it.
    fn fraction(&mut self, start: usize, top: u64) -> Result<ParsedNumber, Fault> {
        self.take_if(is_slash);
        let over_at = self.at;
        let digits = match self.take_while(is_lowered) {
            "" => self.take_while(is_plain),
            lowered => lowered,
        };
        if digits.is_empty() {
            return Err(self.unreadable("the lower number of the fraction is expected here"));
        }
        match whole_number(digits) {
            Some(0) => {
                let why = "nothing can be divided by 0".to_string();
                Err(Fault { at: over_at..self.at, kind: FaultKind::Unreadable, why })
            }
            Some(over) if over <= 64 => Ok(ParsedNumber { top, over }),
            _ => Err(out_of_range(start..self.at, "fractions may be as fine as 1/64".into())),
        }
    }

    fn decimal(&mut self, start: usize, whole: &str) -> Result<ParsedNumber, Fault> {
        self.take_if(is_point);
        let Some(decimals) = self.digits() else {
            return Err(self.unreadable("a digit is expected after the point"));
        };
        let places = decimals.trim_end_matches(|c| digit(c) == Some(0));
        let count = places.chars().count();
        if count > 4 {
            return Err(out_of_range(start..self.at, "decimals may have at most four places".into()));
        }
        let over = 10_u64.pow(u32::try_from(count).unwrap_or(0));
        let whole = if whole.is_empty() { Some(0) } else { whole_number(whole) };
        let part = if places.is_empty() { Some(0) } else { whole_number(places) };
        match (whole, part) {
            (Some(whole), Some(part)) => Ok(ParsedNumber { top: whole * over + part, over }),
            _ => Err(out_of_range(start..self.at, "this number is too large for any quilt".into())),
        }
    }

    /// A fraction that needs no space before it: in one character, or with a raised upper number.
    fn one_sign_fraction(&mut self) -> Result<Option<ParsedNumber>, Fault> {
        let start = self.at;
        let Some(first) = self.peek().filter(|c| !c.is_ascii()) else { return Ok(None) };
        if is_raised(first) {
            let top = whole_number(self.take_while(is_raised));
            return match top {
                Some(top) if self.peek().is_some_and(is_slash) => self.fraction(start, top).map(Some),
                _ => Err(self.unreadable("a fraction is expected here, such as ¹/₂: a / is expected")),
            };
        }
        let (top, over) = match first {
            '½' => (1, 2),
            '⅓' => (1, 3),
            '⅔' => (2, 3),
            '¼' => (1, 4),
            '¾' => (3, 4),
            '⅕' => (1, 5),
            '⅖' => (2, 5),
            '⅗' => (3, 5),
            '⅘' => (4, 5),
            '⅙' => (1, 6),
            '⅚' => (5, 6),
            '⅛' => (1, 8),
            '⅜' => (3, 8),
            '⅝' => (5, 8),
            '⅞' => (7, 8),
            '⅐' => (1, 7),
            '⅑' => (1, 9),
            '⅒' => (1, 10),
            _ => return Ok(None),
        };
        self.take_if(|_| true);
        Ok(Some(ParsedNumber { top, over }))
    }
}

/// A length that is a plain number and no more, or has one of the usual marks after it and no more, as most have. `None`
/// for what is written otherwise or is not right.
fn plain_length(text: &str, bare: Unit) -> Option<Written> {
    let (number, end) = plain_number(text.as_bytes(), 0)?;
    let unit = match &text.as_bytes()[end..] {
        b"" => None,
        b" yd" => Some(Unit::Yard),
        b" in" | b"\"" => Some(Unit::Inch),
        b" cm" => Some(Unit::Cm),
        b" m" => Some(Unit::Metre),
        _ => return None,
    };
    plain_written(number, unit, bare)
}

/// A width and a length that are plain numbers with ` x ` between them.
fn plain_dimensions(text: &str, bare: Unit) -> Option<(Written, Written)> {
    const TIMES: &[u8] = b" x ";
    let bytes = text.as_bytes();
    let (width, end) = plain_number(bytes, 0)?;
    let start = end + TIMES.len();
    bytes.get(end..start).filter(|between| *between == TIMES)?;
    let (length, _) = plain_number(bytes, start).filter(|(_, end)| *end == bytes.len())?;
    plain_written(width, None, bare).zip(plain_written(length, None, bare))
}

fn plain_written(number: ParsedNumber, unit: Option<Unit>, bare: Unit) -> Option<Written> {
    let of = unit.unwrap_or(bare);
    let length = number.times(of.one()).filter(|length| *length <= Length::LONGEST)?;
    Some(Written { length, unit: of, bare: unit.is_none(), other: None })
}

/// A whole number and the fraction after it; `None` where that is not less than one.
const fn mixed(whole: u64, part: ParsedNumber) -> Option<ParsedNumber> {
    if part.top >= part.over {
        return None;
    }
    Some(ParsedNumber { top: whole * part.over + part.top, over: part.over })
}

/// A number in plain digits from a place on, and where it ends: see [`Cursor::plain_number`].
fn plain_number(bytes: &[u8], at: usize) -> Option<(ParsedNumber, usize)> {
    let (whole, after) = plain_digits(bytes, at)?;
    match (bytes.get(after), bytes.get(after + 1)) {
        (Some(b'/'), _) => plain_fraction(bytes, whole, after),
        (Some(b' '), Some(b'0'..=b'9')) => {
            let (top, slash) = plain_digits(bytes, after + 1)?;
            let (part, after) = plain_fraction(bytes, top, slash)?;
            Some((mixed(whole, part)?, after))
        }
        (None | Some(b'a'..=b'z' | b'A'..=b'Z' | b'"' | b')'), _)
        | (Some(b' '), Some(b'a'..=b'z' | b'A'..=b'Z' | b'"' | b'(')) => {
            Some((ParsedNumber { top: whole, over: 1 }, after))
        }
        _ => None,
    }
}

/// Up to six plain digits as a number, and where they end.
fn plain_digits(bytes: &[u8], at: usize) -> Option<(u64, usize)> {
    let digits = bytes[at..].iter().take(7).take_while(|byte| byte.is_ascii_digit());
    let (number, count) =
        digits.fold((0, 0), |(number, count), digit| (number * 10 + u64::from(digit - b'0'), count + 1));
    (1..=6).contains(&count).then_some((number, at + count))
}

/// The slash and the plain digits under it, before a space, a mark or the end.
fn plain_fraction(bytes: &[u8], top: u64, slash: usize) -> Option<(ParsedNumber, usize)> {
    bytes.get(slash).filter(|byte| **byte == b'/')?;
    let (over, after) = plain_digits(bytes, slash + 1)?;
    let is_whole = bytes.get(after).is_none_or(u8::is_ascii) && (1..=64).contains(&over);
    is_whole.then_some((ParsedNumber { top, over }, after))
}

const fn is_dash(c: char) -> bool {
    matches!(c, '-' | '‐' | '‑' | '–')
}

const fn is_point(c: char) -> bool {
    matches!(c, '.' | '．')
}

const fn begins_number(c: char) -> bool {
    is_plain(c) || is_point(c) || is_raised(c) || matches!(c, '¼'..='¾' | '⅐'..='⅞')
}

const fn is_space(c: char) -> bool {
    matches!(c, ' ' | '\t' | '\u{a0}' | '\u{2000}'..='\u{200a}' | '\u{202f}' | '\u{3000}')
}

fn out_of_range(at: Range<usize>, why: String) -> Fault {
    Fault { at, kind: FaultKind::OutOfRange, why }
}

/// A number with its thousands set off by commas, as people write them.
fn thousands(number: u64) -> String {
    let digits = number.to_string();
    let mut out = String::new();
    for (index, digit) in digits.chars().enumerate() {
        if index > 0 && (digits.len() - index).is_multiple_of(3) {
            out.push(',');
        }
        out.push(digit);
    }
    out
}
