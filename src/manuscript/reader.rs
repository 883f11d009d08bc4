//! Reading single values, and gathering what is wrong with them.

use crate::quantity::{
    Amount, Count, Fault, FaultKind, Length, Measure, Percent, RunTogether, Written, first_half, has_times,
    read_amount, read_count, read_dimensions, read_length, read_percent, run_together,
};

use super::tree::{Kind, Node};
use super::{Field, Keyword, Mistake, MistakeKind, Mistakes, Span, Spanned, nearest, quoted};

/// Gathers the mistakes of one text and reads its values.
#[derive(Debug, Default)]
pub struct Reader {
    /// What a bare number means.
    pub measure: Measure,
    mistakes: Mistakes,
    /// The lengths and sizes that are stated in both measures.
    pairs: Vec<StatedPair>,
    /// What is read again for each size, and was read once: its mistakes are told.
    told: Vec<Span>,
    /// Stretches that could not be read, of which it is not known what they said.
    holes: Vec<Span>,
    /// The room of tables that were read, for those to come: most ask for some words.
    room: Vec<Vec<&'static str>>,
}

/// A length or a size that is stated in both measures.
#[derive(Clone, Debug)]
pub struct StatedPair {
    /// Where it stands.
    pub at: Span,
    /// Where its own text starts, where it stands in the file to the letter.
    pub start: Option<usize>,
    /// The length, or the width and the length, each with its other half.
    pub sides: Vec<Written>,
}

impl StatedPair {
    /// Where the half that is not computed with stands, or the whole where it is not in the file to the letter.
    pub fn other_at(&self, text: &str) -> Span {
        let other = self.sides.first().and_then(|side| side.other);
        let place = self.start.zip(other).and_then(|(start, other)| {
            let second = other.second_at();
            if !other.stands_first {
                return Some(Span::new(start + second.start, start + second.end));
            }
            let first = first_half(text.get(start..self.at.end)?, &second)?;
            Some(Span::new(start, start + first.len()))
        });
        place.filter(|place| place.start < place.end).unwrap_or(self.at)
    }
}

/// What is read as a quantity.
const QUANTITY_BOUNDS: &str =
    "Lengths go up to 2000 in (5080 cm), counts to 100,000, fractions to 1/64 and decimals to four places.";

/// What a quantity must be besides readable.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Bound {
    /// More than nothing.
    Positive,
    /// Nothing or more.
    NonNegative,
}

impl Reader {
    /// A reader that starts with the mistakes that were found on the way, and the stretches that could not be read.
    pub fn after(mistakes: Mistakes, holes: Vec<Span>) -> Reader {
        Reader { mistakes, holes, ..Reader::default() }
    }

    /// Whether something of a table could not be read, so that nothing can be said to lack in it.
    pub fn is_torn(&self, node: &Node<'_>) -> bool {
        self.holes.iter().any(|hole| hole.start <= node.at.end && node.at.start <= hole.end)
    }

    /// Room for the words that a table asks for.
    pub(super) fn room(&mut self) -> Vec<&'static str> {
        self.room.pop().unwrap_or_else(|| Vec::with_capacity(32))
    }

    /// Keeps the room of a table that was read.
    pub(super) fn keep_room(&mut self, mut asked: Vec<&'static str>) {
        if asked.capacity() > 0 {
            asked.clear();
            self.room.push(asked);
        }
    }

    /// Adds a mistake.
    pub fn report(&mut self, at: Span, what: MistakeKind) {
        self.add(Mistake { at, what, related: None });
    }

    /// Adds a mistake that another place explains.
    pub fn report_with(&mut self, at: Span, what: MistakeKind, related: Span, words: impl Into<String>) {
        self.add(Mistake { at, what, related: Some((related, words.into())) });
    }

    fn add(&mut self, mistake: Mistake) {
        let is_told = |told: &Span| told.start <= mistake.at.start && mistake.at.end <= told.end;
        if !self.told.iter().any(is_told) {
            self.mistakes.add(mistake);
        }
    }

    /// Says that what stands at a place was read, though it is read again for another size.
    pub fn told_once(&mut self, at: Span) {
        if !self.told.contains(&at) {
            self.told.push(at);
        }
    }

    /// How many mistakes there are.
    pub fn mistakes(&self) -> usize {
        self.mistakes.count()
    }

    /// Whether a further mistake would only be counted.
    pub fn is_full(&self) -> bool {
        self.mistakes.is_full()
    }

    /// The lengths and sizes that are stated in both measures, as they were read.
    pub fn take_pairs(&mut self) -> Vec<StatedPair> {
        std::mem::take(&mut self.pairs)
    }

    /// Keeps a length or a size that is stated in both measures, once for its place.
    fn keep_pair<T, const SIDES: usize>(
        &mut self,
        node: &Node<'_>,
        field: Field<T>,
        sides: impl Fn(&T) -> [Written; SIDES],
    ) -> Field<T> {
        let Field::Stated(stated) = &field else { return field };
        let sides = sides(&stated.value);
        if sides.iter().any(|side| side.other.is_some()) && self.pairs.iter().all(|pair| pair.at != node.at) {
            let start = match &node.kind {
                Kind::Scalar { verbatim, .. } => *verbatim,
                _ => None,
            };
            self.pairs.push(StatedPair { at: node.at, start, sides: sides.to_vec() });
        }
        field
    }

    /// The mistakes, by place.
    pub fn into_mistakes(self) -> Vec<Mistake> {
        self.mistakes.into_list()
    }

    /// A width and a height, or the one side of a square.
    pub fn square_or_sides(&mut self, node: &Node<'_>) -> Field<(Written, Written)> {
        match &node.kind {
            Kind::Scalar { value, .. } if !has_times(value) => {
                self.length(node, Bound::Positive).map(|side| (side, side))
            }
            _ => self.dimensions(node),
        }
    }

    /// A length.
    pub fn length(&mut self, node: &Node<'_>, least: Bound) -> Field<Written> {
        let measure = self.measure;
        let read = self.quantity(node, "a length, such as 2 1/2", |text| read_length(text, measure));
        let read = self.keep_pair(node, read, |side| [*side]);
        self.bounded(read, least, |written| written.length)
    }

    /// A length of which each half of a pair is taken by itself, as a shop sells by the yard and by the metre.
    pub fn step(&mut self, node: &Node<'_>) -> Field<Written> {
        let measure = self.measure;
        let read = self.quantity(node, "a length, such as 1/8 yd", |text| read_length(text, measure));
        self.bounded(read, Bound::Positive, |written| written.length)
    }

    /// A fabric amount.
    pub fn amount(&mut self, node: &Node<'_>) -> Field<Amount> {
        let measure = self.measure;
        let read = self.quantity(node, "an amount of fabric, such as 5/8 yd", |text| read_amount(text, measure));
        self.bounded(read, Bound::Positive, |amount| amount.least().0)
    }

    /// A fabric amount that may be nothing.
    pub fn amount_or_nothing(&mut self, node: &Node<'_>) -> Field<Amount> {
        let measure = self.measure;
        self.quantity(node, "an amount of fabric, such as 5/8 yd", |text| read_amount(text, measure))
    }

    /// A count.
    pub fn count(&mut self, node: &Node<'_>) -> Field<Count> {
        self.quantity(node, "a whole number", read_count)
    }

    /// A percentage.
    pub fn percent(&mut self, node: &Node<'_>) -> Field<Percent> {
        self.quantity(node, "a percentage, such as 3 %", read_percent)
    }

    /// A width and a length.
    pub fn dimensions(&mut self, node: &Node<'_>) -> Field<(Written, Written)> {
        let measure = self.measure;
        let read = self.quantity(node, "a width and a length, such as 54 x 72", |text| read_dimensions(text, measure));
        let read = self.keep_pair(node, read, |sides| [sides.0, sides.1]);
        self.bounded(read, Bound::Positive, |(width, length)| width.length.min(length.length))
    }

    /// A place: across from the left, down from the top. Either may be nothing.
    pub fn point(&mut self, node: &Node<'_>) -> Field<(Written, Written)> {
        let measure = self.measure;
        let read =
            self.quantity(node, "a place across and down, such as 40 x 0", |text| read_dimensions(text, measure));
        self.keep_pair(node, read, |sides| [sides.0, sides.1])
    }

    /// Any text.
    pub fn text(&mut self, node: &Node<'_>) -> Field<String> {
        match &node.kind {
            Kind::Scalar { value, .. } => Field::Stated(Spanned { value: value.to_string(), at: node.at }),
            Kind::Empty => Field::Absent,
            _ => self.wrong_shape(node, "a single value", "a name or a few words"),
        }
    }

    /// A list of words; one by itself is a list too.
    pub fn words(&mut self, node: &Node<'_>) -> Field<Vec<String>> {
        let Kind::List(nodes) = &node.kind else {
            return self.text(node).map(|word| vec![word]);
        };
        let words: Vec<Field<String>> = nodes.iter().map(|node| self.text(node)).collect();
        let value: Option<Vec<String>> =
            words.iter().map(|word| word.stated().map(|word| word.value.clone())).collect();
        value.map_or(Field::Unread, |value| Field::Stated(Spanned { value, at: node.at }))
    }

    /// One of a few words.
    pub fn word<W: Keyword>(&mut self, node: &Node<'_>, place: &str) -> Field<W> {
        let Some((text, _)) = self.scalar(node, "one word") else { return Field::Unread };
        if let Some(value) = W::from_word(text) {
            return Field::Stated(Spanned { value, at: node.at });
        }
        let nearest = if self.is_full() { None } else { nearest(text, W::NAMES.iter().copied()) };
        let known = W::NAMES.to_vec();
        let what = MistakeKind::UnknownWord { word: quoted(text), place: format!("`{place}`"), known, nearest };
        self.report(node.at, what);
        Field::Unread
    }

    /// Reports that a value has the wrong shape.
    pub fn wrong_shape<T>(&mut self, node: &Node<'_>, expected: &'static str, example: &'static str) -> Field<T> {
        if !matches!(node.kind, Kind::Unread) {
            self.report(node.start(), MistakeKind::WrongShape { word: String::new(), expected, example });
        }
        Field::Unread
    }

    /// The text of a single value and where it starts, if it stands in the file to the letter.
    fn scalar<'n>(&mut self, node: &'n Node<'_>, expected: &'static str) -> Option<(&'n str, Option<usize>)> {
        match &node.kind {
            Kind::Scalar { value, verbatim } => Some((value, *verbatim)),
            Kind::Unread => None,
            Kind::Empty => {
                let why = format!("{expected} is expected here, and nothing is written");
                self.report(node.at, MistakeKind::UnreadableQuantity { text: String::new(), why });
                None
            }
            Kind::Table(_) | Kind::List(_) => {
                self.report(node.start(), MistakeKind::WrongShape { word: String::new(), expected, example: expected });
                None
            }
        }
    }

    fn quantity<T>(
        &mut self,
        node: &Node<'_>,
        expected: &'static str,
        read: impl Fn(&str) -> Result<T, Fault>,
    ) -> Field<T> {
        let Some((text, start)) = self.scalar(node, expected) else { return Field::Unread };
        match read(text) {
            Ok(value) => {
                if let Some(RunTogether { at, read_as, meant }) = run_together(text) {
                    let at = start.map_or(node.at, |start| Span::new(start + at.start, start + at.end));
                    self.report(at, MistakeKind::RunTogether { read_as, meant });
                }
                Field::Stated(Spanned { value, at: node.at })
            }
            Err(fault) => {
                let at = start.map_or(node.at, |start| Span::new(start + fault.at.start, start + fault.at.end));
                let what = match fault.kind {
                    FaultKind::Unreadable => MistakeKind::UnreadableQuantity { text: quoted(text), why: fault.why },
                    FaultKind::OutOfRange => MistakeKind::OutOfRange { why: fault.why, help: QUANTITY_BOUNDS },
                };
                self.report(at, what);
                Field::Unread
            }
        }
    }

    fn bounded<T>(&mut self, field: Field<T>, least: Bound, length: impl Fn(&T) -> Length) -> Field<T> {
        match &field {
            Field::Stated(spanned) if least == Bound::Positive && !length(&spanned.value).is_positive() => {
                self.report(
                    spanned.at,
                    MistakeKind::OutOfRange {
                        why: "it must be more than 0".into(),
                        help: "State how much, or take the entry out.",
                    },
                );
                Field::Unread
            }
            _ => field,
        }
    }
}
