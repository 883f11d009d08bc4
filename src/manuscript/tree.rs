//! The entries of a YAML text with their places.
//!
//! `granit-parser` turns the text into events; this builds the tree from them, without recursion, so that deep
//! nesting costs nothing. It keeps what a linter needs: the place of every key and value. The whole tree lies in one
//! [`Arena`], which is let go at once: most of what reading a manuscript took beside parsing it went into asking for a
//! table's room and giving it back, one table after another.
//!
//! Not serde, which loses the places of keys and stops at the first mistake: all mistakes of a file are reported in one
//! run. Anchors, merge keys and second documents are refused and never guessed at.

use std::borrow::Cow;
use std::collections::BTreeMap;

pub use bumpalo::Bump as Arena;
use granit_parser::{ErrorKind, Event, Parser, ScalarStyle, Span as EventSpan, StrInput, StructureStyle};

use super::replacements::Replacements;
use super::{Mistake, MistakeKind, Mistakes, Span, quoted};

/// How deep tables and lists may stand in one another.
pub const DEEPEST: usize = 64;

/// How many words and values a text may hold: ten times what the largest patterns need.
pub const MAX_VALUES: usize = 32_000;

/// A value with its place.
#[derive(Clone, Copy, Debug)]
pub struct Node<'t> {
    /// Where it stands.
    pub at: Span,
    /// What it is.
    pub kind: Kind<'t>,
}

/// What a value is.
#[derive(Clone, Copy, Debug)]
pub enum Kind<'t> {
    /// One value; `verbatim` says that the text at `verbatim` is the value to the letter.
    Scalar {
        /// The value.
        value: &'t str,
        /// Where the value's own text starts, where it has no escapes and no folded lines.
        verbatim: Option<usize>,
    },
    /// Entries, each a word and a value.
    Table(&'t [Entry<'t>]),
    /// Values one after another.
    List(&'t [Node<'t>]),
    /// Nothing.
    Empty,
    /// Something for which a mistake was already reported.
    Unread,
}

/// An arena with room for the tree of a text; of a long one, for the beginning of it.
pub fn arena_for(text: &str) -> Arena {
    // An entry takes 80 bytes, and so many of the text, with its comments, as take a third of that.
    const MOST: usize = 64 * 1024;
    Arena::with_capacity((text.len() * 3).min(MOST))
}

impl Node<'_> {
    /// The bracket, the dash or the word that it starts with, so that a long table is not underlined whole.
    pub fn start(&self) -> Span {
        match &self.kind {
            Kind::Table(entries) if entries.first().is_some_and(|first| first.key_at.start == self.at.start) => {
                entries[0].key_at
            }
            // A list that is set in no further than its word has no mark of its own.
            Kind::List(items) if items.first().is_some_and(|first| first.at.start == self.at.start) => items[0].start(),
            Kind::Scalar { value, verbatim } => match value.chars().next() {
                Some(first) if *verbatim == Some(self.at.start) => {
                    Span::new(self.at.start, self.at.start + first.len_utf8())
                }
                // With or without a quotation mark before it.
                Some(first) if verbatim.is_none() && !first.is_ascii() => self.at,
                _ => self.mark(),
            },
            _ => self.mark(),
        }
    }

    /// A bracket, a dash, or another mark of one byte.
    fn mark(&self) -> Span {
        Span::new(self.at.start, self.at.end.min(self.at.start + 1))
    }
}

impl<'t> Node<'t> {
    /// The same with each place that begins or ends within a character of a text moved back to where that character
    /// begins.
    #[must_use]
    pub fn between_characters_of(self, text: &str, arena: &'t Arena) -> Node<'t> {
        let kind = match self.kind {
            Kind::Table(entries) => Kind::Table(arena.alloc_slice_fill_iter(entries.iter().map(|entry| Entry {
                key_at: entry.key_at.between_characters_of(text),
                value: entry.value.between_characters_of(text, arena),
                ..*entry
            }))),
            Kind::List(nodes) => {
                let nodes = nodes.iter().map(|node| node.between_characters_of(text, arena));
                Kind::List(arena.alloc_slice_fill_iter(nodes))
            }
            Kind::Scalar { .. } | Kind::Empty | Kind::Unread => self.kind,
        };
        Node { at: self.at.between_characters_of(text), kind }
    }
}

impl Node<'_> {
    /// The tree of the same text with numbers, such as `3 1/2 yd (60 cm)`, in the places of other values. `None` where a
    /// new one may be something else to YAML, or where no value without quotation marks is at a place.
    pub fn with_numbers<'n>(&'n self, numbers: &Replacements<'n>, arena: &'n Arena) -> Option<Node<'n>> {
        let is_of_number = |byte: u8| byte.is_ascii_alphanumeric() || b" ./()".contains(&byte);
        let is_number = |text: &str| {
            text.starts_with(|c: char| c.is_ascii_digit()) && text.bytes().all(is_of_number) && !text.ends_with(' ')
        };
        let mut replacing = Replacing { numbers, arena, found: 0 };
        let tree = numbers.texts().all(is_number).then(|| replacing.node(self))?;
        (replacing.found == numbers.count()).then_some(tree)
    }
}

/// Numbers that take the places of other values.
struct Replacing<'r, 'n> {
    numbers: &'r Replacements<'n>,
    arena: &'n Arena,
    /// How many of these were met.
    found: usize,
}

impl<'n> Replacing<'_, 'n> {
    fn node(&mut self, node: &'n Node<'_>) -> Node<'n> {
        let kind = match node.kind {
            Kind::Scalar { value, verbatim } => match self.number(node.at, verbatim) {
                Some(number) => {
                    self.found += 1;
                    let start = self.numbers.moved(node.at).start;
                    Kind::Scalar { value: number, verbatim: Some(start) }
                }
                None => {
                    let moved = verbatim.map(|start| self.numbers.moved(Span::new(start, start)).start);
                    Kind::Scalar { value, verbatim: moved }
                }
            },
            Kind::Table(entries) => {
                Kind::Table(self.arena.alloc_slice_fill_iter(entries.iter().map(|entry| self.entry(entry))))
            }
            Kind::List(nodes) => Kind::List(self.arena.alloc_slice_fill_iter(nodes.iter().map(|node| self.node(node)))),
            Kind::Empty => Kind::Empty,
            Kind::Unread => Kind::Unread,
        };
        Node { at: self.numbers.moved(node.at), kind }
    }

    /// The number for a value. In quotation marks the value would start after the place.
    fn number(&self, at: Span, verbatim: Option<usize>) -> Option<&'n str> {
        (verbatim == Some(at.start)).then(|| self.numbers.at(at)).flatten()
    }

    fn entry(&mut self, entry: &'n Entry<'_>) -> Entry<'n> {
        Entry { key: entry.key, key_at: self.numbers.moved(entry.key_at), value: self.node(&entry.value) }
    }
}

/// A tree, and whether the whole text is in it.
#[derive(Debug)]
pub struct Built<'t> {
    /// The tree.
    pub tree: Node<'t>,
    /// False where the text went on and was not read.
    pub whole: bool,
}

/// One entry of a table.
#[derive(Clone, Copy, Debug)]
pub struct Entry<'t> {
    /// The word before the colon.
    pub key: &'t str,
    /// Where the word stands.
    pub key_at: Span,
    /// What is after the colon.
    pub value: Node<'t>,
}

/// Where and why a text could not be read on.
#[derive(Debug)]
pub struct Break {
    /// What to report.
    pub mistake: Mistake,
    /// Where the text stops making sense, in bytes.
    pub stopped_at: usize,
    /// The last word that stood before a colon outside brackets, whose value was being read or just had been.
    pub last_key: Option<OpenKey>,
}

/// A word before a colon, seen in a table that is not in brackets.
#[derive(Clone, Copy, Debug)]
pub struct OpenKey {
    /// Where the word stands.
    pub at: Span,
    /// Whether its value was still being read.
    pub open: bool,
}

/// Builds the tree of a text in an arena. Values after the words in `blanked` (their offsets) were taken out and count as
/// unread.
///
/// # Errors
/// Where the text cannot be read on. Mistakes that leave the rest readable go to `mistakes`.
pub fn build<'t>(
    text: &'t str,
    arena: &'t Arena,
    blanked: &[usize],
    mistakes: &mut Mistakes,
) -> Result<Built<'t>, Box<Break>> {
    let options = granit_parser::options! {
        emit_comments: false,
        emit_unresolved_aliases: true,
        flow_nesting_limit: DEEPEST,
        block_nesting_limit: DEEPEST,
    };
    let mut builder = Builder::new(text, arena, blanked, mistakes);
    let mut parser: Parser<'t, StrInput<'t>> = Parser::new_from_str_with_options(text, options);
    let (mut documents, mut values) = (0, 0);
    while let Some(next) = parser.next_event() {
        let (event, at) = match next {
            Ok(next) => next,
            Err(error) => {
                let stopped_at = error.marker().byte_offset().unwrap_or(text.len()).min(text.len());
                return Err(builder.broken(error.kind(), stopped_at));
            }
        };
        let at = place(at);
        values += 1;
        if values > MAX_VALUES {
            return Ok(Built { tree: builder.cut_short(at), whole: false });
        }
        // The parser counts the levels in brackets and those in lines apart.
        let opens = matches!(event, Event::SequenceStart(..) | Event::MappingStart(..));
        if opens && builder.open.len() >= DEEPEST {
            return Err(builder.broken(&ErrorKind::RecursionLimitExceeded, at.start));
        }
        match event {
            Event::DocumentStart(..) => {
                documents += 1;
                if documents > 1 {
                    builder.second_document(at);
                    break;
                }
            }
            Event::Scalar(value, style, ..) => builder.scalar(value, style, at),
            Event::Alias(_) | Event::UnresolvedAlias(_) => builder.alias(at),
            Event::SequenceStart(..) => builder.start_list(at),
            Event::MappingStart(style, ..) => builder.start_table(at, style == StructureStyle::Block),
            Event::SequenceEnd | Event::MappingEnd => builder.end(at),
            _ => {}
        }
    }
    Ok(Built { tree: builder.tree(), whole: true })
}

fn place(span: EventSpan) -> Span {
    let range = span.byte_range().unwrap_or_default();
    Span::new(range.start, range.end.max(range.start))
}

/// A table or list that is being read, with where its first entry or item is among those that wait for their end.
enum Open<'t> {
    List { first: usize },
    Table { first: usize, keys: Keys<'t>, key: Option<Key<'t>>, block: bool },
}

/// A word whose value is still to come.
struct Key<'t> {
    word: &'t str,
    at: Span,
    /// Where the same word stands already, or what else keeps this entry out of the tree.
    left_out: bool,
}

/// The words of a table so far. Small tables, nearly all, are looked through; large ones are looked up.
#[derive(Default)]
struct Keys<'t> {
    /// A bit for how each of them looks, so that most new ones are seen to be new at a glance.
    looks: u64,
    index: Option<BTreeMap<&'t str, Span>>,
}

impl<'t> Keys<'t> {
    const SMALL: usize = 24;

    fn first_place(&mut self, word: &str, entries: &[Entry<'t>]) -> Option<Span> {
        if self.looks & look(word) == 0 {
            return None;
        }
        if entries.len() <= Self::SMALL {
            return entries.iter().find(|entry| entry.key == word).map(|entry| entry.key_at);
        }
        let index = self.index.get_or_insert_with(|| entries.iter().map(|entry| (entry.key, entry.key_at)).collect());
        index.get(word).copied()
    }

    fn add(&mut self, key: &Key<'t>) {
        self.looks |= look(key.word);
        if let Some(index) = &mut self.index {
            index.insert(key.word, key.at);
        }
    }
}

/// A bit of 64 for the ends and the length of a word, which few words have in common.
fn look(word: &str) -> u64 {
    let ends = word.bytes().next().zip(word.bytes().next_back());
    let (first, last) = ends.map_or((0, 0), |(first, last)| (usize::from(first), usize::from(last)));
    1 << ((first * 5 + last * 3 + word.len()) % 64)
}

struct Builder<'t, 'm> {
    text: &'t str,
    arena: &'t Arena,
    blanked: &'m [usize],
    mistakes: &'m mut Mistakes,
    open: Vec<(Span, Open<'t>)>,
    /// The entries of open tables, and the items of open lists.
    entries: Vec<Entry<'t>>,
    nodes: Vec<Node<'t>>,
    root: Option<Node<'t>>,
    last_key: Option<OpenKey>,
}

impl<'t, 'm> Builder<'t, 'm> {
    fn new(text: &'t str, arena: &'t Arena, blanked: &'m [usize], mistakes: &'m mut Mistakes) -> Self {
        let (open, entries) = (Vec::with_capacity(8), Vec::with_capacity(32));
        Builder { text, arena, blanked, mistakes, open, entries, nodes: Vec::new(), root: None, last_key: None }
    }

    fn tree(self) -> Node<'t> {
        self.root.unwrap_or(Node { at: Span::new(0, 0), kind: Kind::Empty })
    }

    /// The tree of what was read before a text became too long to be a manuscript.
    fn cut_short(mut self, at: Span) -> Node<'t> {
        let why = format!("a manuscript may hold {MAX_VALUES} words and values at most; from here on it is not read");
        self.mistakes.add(Mistake { at, what: MistakeKind::TooMany { why }, related: None });
        while !self.open.is_empty() {
            self.end(Span::new(at.start, at.start));
        }
        self.tree()
    }

    fn start_list(&mut self, at: Span) {
        self.open.push((at, Open::List { first: self.nodes.len() }));
    }

    fn start_table(&mut self, at: Span, block: bool) {
        let table = Open::Table { first: self.entries.len(), keys: Keys::default(), key: None, block };
        self.open.push((at, table));
    }

    fn end(&mut self, at: Span) {
        let Some((start, open)) = self.open.pop() else { return };
        let (kind, last) = match open {
            Open::List { first } => {
                let nodes = &*self.arena.alloc_slice_copy(&self.nodes[first..]);
                self.nodes.truncate(first);
                (Kind::List(nodes), nodes.last().map(|node| node.at))
            }
            Open::Table { first, .. } => {
                let entries = &*self.arena.alloc_slice_copy(&self.entries[first..]);
                self.entries.truncate(first);
                (Kind::Table(entries), entries.last().map(|entry| entry.value.at))
            }
        };
        let last = last.map_or(start.end, |last| last.end);
        self.take(Node { at: Span::new(start.start, closing(start, last, at)), kind });
    }

    fn scalar(&mut self, value: Cow<'t, str>, style: ScalarStyle, at: Span) {
        let plain = matches!(style, ScalarStyle::Plain);
        // The parser takes a block of text to reach to the next entry.
        let block = matches!(style, ScalarStyle::Literal | ScalarStyle::Folded);
        let at = if block { Span::new(at.start, at.start + at.text(self.text).trim_end().len()) } else { at };
        let start = if plain { at.start } else { at.start + 1 };
        // What the parser borrows of a plain value is the text at its place.
        let is_borrowed = plain && matches!(value, Cow::Borrowed(_)) && value.len() == at.len();
        let verbatim = is_borrowed || self.text.get(start..start + value.len()) == Some(&*value);
        let empty = plain && (at.is_empty() || matches!(&*value, "~" | "null" | "Null" | "NULL"));
        let value = match value {
            Cow::Borrowed(value) => value,
            Cow::Owned(value) => self.arena.alloc_str(&value),
        };
        let kind = if empty { Kind::Empty } else { Kind::Scalar { value, verbatim: verbatim.then_some(start) } };
        self.take(Node { at, kind });
    }

    fn alias(&mut self, at: Span) {
        // The value of `<<` is reported at the word.
        let merges = matches!(self.open.last(), Some((_, Open::Table { key: Some(key), .. })) if key.left_out);
        if !merges {
            let why = format!("{} stands for a value written elsewhere", quoted(at.text(self.text)));
            self.report(at, why, "write the value itself here: each number must stand where a finding can point at it");
        }
        self.take(Node { at, kind: Kind::Unread });
    }

    /// Puts a finished value where it belongs: a word, a value, an item, or the whole.
    fn take(&mut self, node: Node<'t>) {
        match self.open.last_mut() {
            None => self.root = Some(node),
            Some((_, Open::List { .. })) => self.nodes.push(node),
            Some((_, Open::Table { first, key: slot @ None, keys, block })) => {
                let key = as_key(node, &self.entries[*first..], keys, self.mistakes);
                if *block {
                    self.last_key = Some(OpenKey { at: key.at, open: true });
                }
                *slot = Some(key);
            }
            Some((_, Open::Table { key, keys, block, .. })) => {
                let Some(key) = key.take() else { return };
                if *block && let Some(last) = &mut self.last_key {
                    last.open = false;
                }
                if key.left_out {
                    return;
                }
                let blanked = self.blanked.iter().any(|start| (key.at.end..=key.at.end + 2).contains(start));
                let value = if blanked { Node { at: key.at, kind: Kind::Unread } } else { node };
                keys.add(&key);
                self.entries.push(Entry { key: key.word, key_at: key.at, value });
            }
        }
    }

    fn second_document(&mut self, at: Span) {
        self.report(
            at,
            "a second document begins here".into(),
            "keep one pattern in a file: what follows this line is not read",
        );
    }

    fn report(&mut self, at: Span, why: String, mend: &'static str) {
        self.mistakes.add(Mistake { at, what: MistakeKind::NotYaml { why, mend }, related: None });
    }

    fn in_brackets(&self) -> bool {
        self.open.iter().any(|(at, open)| match open {
            Open::Table { block, .. } => !block,
            Open::List { .. } => at.text(self.text) == "[",
        })
    }

    /// Whether a line ends between two places.
    fn over_lines(&self, from: usize, to: usize) -> bool {
        self.text.get(from..to).is_some_and(|between| between.contains(['\n', '\r']))
    }

    /// The break at which the parser gave up, in a writer's words.
    fn broken(&self, error: &ErrorKind, stopped_at: usize) -> Box<Break> {
        // Inside brackets a tab is no fault of its own, unless the parser says so.
        let (inside, about_tab) = (self.in_brackets(), is_about_tab(error));
        if let Some(tab) = tab_indent(self.text, stopped_at).filter(|_| !inside || about_tab) {
            let (why, mend) = in_words(&ErrorKind::TabInIndentation, "", "");
            let at = Span::new(tab, tab + 1);
            let mistake = Mistake { at, what: MistakeKind::NotYaml { why, mend }, related: None };
            let last_key = self.last_key.filter(|_| inside);
            return Box::new(Break { mistake, stopped_at: tab, last_key });
        }
        let here = character_at(self.text, stopped_at);
        let bracket = self.open.iter().rev().find_map(|(at, open)| {
            let in_brackets = match open {
                Open::Table { block, .. } => !block,
                Open::List { .. } => at.text(self.text) == "[",
            };
            in_brackets.then_some(*at)
        });
        let mistake = match (bracket, error) {
            (_, ErrorKind::RecursionLimitExceeded) => Mistake {
                at: here,
                what: MistakeKind::TooMany { why: format!("tables may stand in one another {DEEPEST} deep at most") },
                related: None,
            },
            (Some(bracket), _) if self.over_lines(bracket.end, stopped_at) => {
                let why = format!("this {} is not closed", bracket.text(self.text));
                let mend = "close the bracket at the end of the list, or look for a comma that is missing before it";
                Mistake {
                    at: bracket,
                    what: MistakeKind::NotYaml { why, mend },
                    related: Some((here, "here it no longer makes sense".into())),
                }
            }
            _ => {
                let (why, mend) = in_words(error, here.text(self.text), line_before(self.text, stopped_at));
                Mistake { at: here, what: MistakeKind::NotYaml { why, mend }, related: None }
            }
        };
        let open = !self.open.is_empty();
        let last_key = self.last_key.map(|key| OpenKey { open: key.open && open, ..key });
        Box::new(Break { mistake, stopped_at, last_key })
    }
}

/// A table in brackets ends at its bracket; one that is laid out in lines ends with its last entry.
fn closing(start: Span, last: usize, end: Span) -> usize {
    if end.is_empty() || start.is_empty() { last.max(start.end) } else { end.end }
}

/// A node that stands where a word is expected.
fn as_key<'t>(node: Node<'t>, entries: &[Entry<'t>], keys: &mut Keys<'t>, mistakes: &mut Mistakes) -> Key<'t> {
    let at = node.at;
    let not_yaml =
        |why: &str, mend| Mistake { at, what: MistakeKind::NotYaml { why: why.into(), mend }, related: None };
    let Kind::Scalar { value: word, .. } = node.kind else {
        let mend = "name the entry with a plain word, such as strip_width";
        mistakes.add(not_yaml("a word is expected before the colon", mend));
        return Key { word: "", at, left_out: true };
    };
    if word == "<<" {
        let mend = "write the entries themselves here: each number must stand where a finding can point at it";
        mistakes.add(not_yaml("<< would mix in entries from elsewhere", mend));
        return Key { word, at, left_out: true };
    }
    let Some(first) = keys.first_place(word, entries) else {
        return Key { word, at, left_out: false };
    };
    let what = MistakeKind::RepeatedKey { word: quoted(word), mend: None };
    let related = Some((first, "it stands here first; this one is used".to_string()));
    mistakes.add(Mistake { at, what, related });
    Key { word, at, left_out: true }
}

/// What stands on the line before a place.
fn line_before(text: &str, byte: usize) -> &str {
    let before = text.get(..byte).unwrap_or_default();
    &before[before.rfind(['\n', '\r']).map_or(0, |end| end + 1)..]
}

fn is_about_tab(error: &ErrorKind) -> bool {
    matches!(error, ErrorKind::TabInBlockIndentation | ErrorKind::TabInIndentation | ErrorKind::TabNotAllowed)
}

/// The tab that the line of a place, or the line after it, is indented with. The parser takes such a line for more
/// of the value before it, and stops there.
fn tab_indent(text: &str, byte: usize) -> Option<usize> {
    let start = text.get(..byte)?.rfind(['\n', '\r']).map_or(0, |end| end + 1);
    let (mut line, mut lines) = (start, 0);
    for part in text.get(start..)?.split_inclusive(['\n', '\r']) {
        let indent = &part[..part.len() - part.trim_start_matches([' ', '\t']).len()];
        if let Some(tab) = indent.find('\t').filter(|_| !part.trim().is_empty()) {
            return Some(line + tab);
        }
        line += part.len();
        lines += usize::from(!part.trim().is_empty());
        if lines == 2 {
            break;
        }
    }
    None
}

fn character_at(text: &str, byte: usize) -> Span {
    let mut start = byte.min(text.len());
    while !text.is_char_boundary(start) {
        start -= 1;
    }
    let width = text[start..].chars().next().map_or(0, char::len_utf8);
    Span::new(start, start + width)
}

/// What went wrong, without the words of the YAML specification.
fn in_words(error: &ErrorKind, here: &str, before: &str) -> (String, &'static str) {
    use ErrorKind as E;
    let (why, mend) = match error {
        E::TabInBlockIndentation | E::TabInIndentation | E::TabNotAllowed | E::TabAtBlockScalarStart => {
            ("a tab stands here where spaces are expected", "indent with spaces, two for each step")
        }
        E::UnclosedQuotedScalar => ("this quotation mark is not closed", "close the quotation at its end"),
        E::MismatchedFlowCollectionEnd { .. } => {
            ("this bracket is closed by one of another kind", "make the two a pair: { with }, or [ with ]")
        }
        E::UnclosedFlowCollection { .. } => ("this bracket is not closed", "close it at the end of the list"),
        E::MisplacedFlowCollectionEnd => {
            ("this bracket closes nothing", "take it out, or open the bracket that it belongs to")
        }
        E::MappingValueNotAllowed if before.contains(": ") => (
            "this is the second colon of the line",
            "keep one entry to a line; put text that has a colon in it in quotation marks",
        ),
        E::MappingValueNotAllowed => (
            "this entry is indented differently from its neighbors",
            "indent it as the lines around it, with the same number of spaces",
        ),
        E::SimpleKeyExpected | E::ExpectedBlockMappingKey | E::InvalidSimpleKey => (
            "an entry is expected here: a word, a colon and a value",
            "write it as word: value, indented as the entries around it",
        ),
        E::UnexpectedCharacter { .. } if here.chars().all(char::is_control) => {
            ("an invisible control character stands here", "take it out")
        }
        E::UnexpectedCharacter { .. } => {
            ("a value cannot start with this character", "put the value in quotation marks")
        }
        E::ExpectedFlowMappingSeparator | E::ExpectedFlowSequenceSeparator => {
            ("a comma or a closing bracket is expected here", "put a comma between the entries, or close the bracket")
        }
        E::BomInsideDocument => ("a byte-order mark stands inside the text", "take the invisible character out"),
        _ => (
            "the layout of the file cannot be read here",
            "look at the indentation, colons, commas and quotation marks of this line",
        ),
    };
    (why.to_string(), mend)
}

#[cfg(test)]
mod tests {
    use super::{Arena, Built, Entry, Kind, Node, build};
    use crate::manuscript::{Mistakes, Replacements, Span};

    const TEXT: &str = "a: 5 # told\nb: { c: 1/2 yd (60 cm), \"d e\": '7' }\n\u{e9}: [ 3, 4 x 5, { f: 9}]\ng:\n  - h:  6  \n  - i:\nj: 1\n";

    fn tree<'t>(text: &'t str, arena: &'t Arena) -> Node<'t> {
        match build(text, arena, &[], &mut Mistakes::default()) {
            Ok(Built { tree, whole: true }) => tree,
            other => panic!("{other:?}"),
        }
    }

    /// The places of all values that have text.
    fn values(node: &Node<'_>) -> Vec<Span> {
        match &node.kind {
            Kind::Scalar { .. } => vec![node.at],
            Kind::Table(entries) => entries.iter().flat_map(|Entry { value, .. }| values(value)).collect(),
            Kind::List(nodes) => nodes.iter().flat_map(values).collect(),
            Kind::Empty | Kind::Unread => Vec::new(),
        }
    }

    /// The tree with other numbers in some places.
    fn with<'n>(before: &'n Node<'_>, numbers: &[(Span, &'n str)], arena: &'n Arena) -> Option<Node<'n>> {
        before.with_numbers(&Replacements::new(numbers.iter().copied()).expect("none overlaps"), arena)
    }

    #[test]
    fn a_tree_with_another_number_is_that_of_the_text_with_it() {
        let arena = Arena::new();
        let before = tree(TEXT, &arena);
        let mut replaced = 0;
        for at in values(&before) {
            for number in ["8", "12 3/4", "1.25 yd (115 cm)", "66 x 90"] {
                let (mut text, arena) = (TEXT.to_string(), Arena::new());
                text.replace_range(at.start..at.end, number);
                match with(&before, &[(at, number)], &arena) {
                    Some(after) => assert_eq!(format!("{after:?}"), format!("{:?}", tree(&text, &arena))),
                    None => assert_eq!(at.text(TEXT), "'7'"),
                }
                replaced += 1;
            }
        }
        assert_eq!(replaced, 4 * 8);
    }

    #[test]
    fn a_tree_with_several_other_numbers_is_that_of_the_text_with_all_of_them() {
        let arena = Arena::new();
        let before = tree(TEXT, &arena);
        let numbers = ["8", "12 3/4", "1.25 yd (115 cm)", "66 x 90", "1", "100"];
        let places = values(&before).into_iter().filter(|at| at.text(TEXT) != "'7'");
        let all: Vec<(Span, &str)> = places.zip(numbers.into_iter().cycle()).collect();
        let text = Replacements::new(all.iter().copied()).expect("none overlaps").apply(TEXT);
        let after = with(&before, &all, &arena).expect("all are numbers");
        assert_eq!(format!("{after:?}"), format!("{:?}", tree(&text, &arena)));
        assert!(all.iter().all(|(_, number)| text.contains(number)));
    }

    #[test]
    fn a_word_is_told_twice_only_where_it_stands_twice() {
        // More words than are looked through one by one, of which many begin, end and are as long alike.
        let words: Vec<String> = (0..60).map(|n| format!("a{}{n:02}z", ["b", "bb"][n % 2])).collect();
        for many in [1, 3, 24, 25, 26, 60] {
            for twice in [None, Some(0), Some(many / 2), Some(many - 1)] {
                let again = twice.map(|place| &words[place]);
                let text: String = words[..many].iter().chain(again).map(|word| format!("{word}: 5\n")).collect();
                let (arena, mut mistakes) = (Arena::new(), Mistakes::default());
                let built = build(&text, &arena, &[], &mut mistakes).expect("it is YAML");
                let Kind::Table(entries) = built.tree.kind else { panic!("{text} is no table") };
                assert_eq!(entries.iter().map(|entry| entry.key).collect::<Vec<_>>(), words[..many]);
                let told: Vec<Span> = mistakes.into_list().iter().map(|mistake| mistake.at).collect();
                let expected = again.map(|word| Span::new(text.len() - word.len() - 4, text.len() - 4));
                assert_eq!(told, expected.into_iter().collect::<Vec<_>>(), "{text}");
            }
        }
    }

    #[test]
    fn a_value_starts_with_a_whole_character() {
        for (written, first) in [
            ("5", "5"),
            ("é5", "é"),
            ("\u{fffd}", "\u{fffd}"),
            ("'é'", "'"),
            ("\"\\u00e9\"", "\"\\u00e9\""),
            ("é\n  5", "é\n  5"),
            ("[é]", "["),
            ("\n- é", "é"),
            ("\n- é: 5", "é"),
        ] {
            let (text, arena) = (format!("a: {written}\n"), Arena::new());
            let Kind::Table(entries) = tree(&text, &arena).kind else { panic!("{text} is no table") };
            assert_eq!(text.get(entries[0].value.start().start..entries[0].value.start().end), Some(first), "{text}");
        }
    }

    #[test]
    fn what_may_be_more_than_a_number_to_yaml_takes_parsing() {
        let arena = Arena::new();
        let before = tree(TEXT, &arena);
        let five = Span::new(3, 4);
        for other in ["", "null", "- 5", "5: 6", "5 #6", "5, 6", "5 ", "'5'", "5\"", "{5}", "5\n", "\u{bd}"] {
            assert!(with(&before, &[(five, other)], &arena).is_none(), "{other}");
        }
        // A word before a colon, and a part of a value.
        assert!(with(&before, &[(Span::new(0, 1), "5")], &arena).is_none());
        let half = TEXT.find("1/2").unwrap_or_default();
        assert!(with(&before, &[(Span::new(half, half + 3), "5")], &arena).is_none());
    }
}
