//! Going on after a place that is not YAML: the broken value is blanked and the text is read again.
//!
//! Only spaces are put in, so every offset stays true. The entry keeps its word and counts as unread, so that
//! one slip brings one finding and the rest of the manuscript is still checked.

use super::tree::{Arena, Break, Built, Node, build};
use super::{Mistake, MistakeKind, Mistakes, Span};

/// How often a text is read again, and how many bytes that may come to.
const TRIES: usize = 32;
const BYTES: usize = 24 * 1024 * 1024;

/// A text whose broken places are blanked.
pub(super) struct Recovered {
    text: String,
    /// Where the blanked values start.
    blanked: Vec<usize>,
    /// Lines that were blanked whole, with the white space round each: what they said is not known.
    holes: Vec<Span>,
    /// What was reported for the broken places.
    broken: Vec<Mistake>,
    /// Whether there is more that could not be mended.
    gave_up: bool,
}

impl Recovered {
    /// Blanks broken places one after another until the text can be read.
    pub(super) fn new(text: &str, first: Box<Break>) -> Recovered {
        let mut mended = Recovered {
            text: text.to_string(),
            blanked: Vec::new(),
            holes: Vec::new(),
            broken: Vec::new(),
            gave_up: false,
        };
        let mut found = Some(first);
        let mut tries = 0;
        while let Some(broken) = found {
            tries += 1;
            let spent = tries > TRIES || tries * text.len() > BYTES;
            if spent {
                mended.broken.push(broken.mistake);
                mended.give_up();
                break;
            }
            if !mended.blank(*broken) {
                mended.give_up();
                break;
            }
            found = build(&mended.text, &Arena::new(), &mended.blanked, &mut Mistakes::default()).err();
        }
        mended
    }

    /// The tree of what could be read, the mistakes of the broken places added; and whether all of it was.
    pub(super) fn tree<'t>(&'t self, arena: &'t Arena, mistakes: &mut Mistakes) -> (Option<Node<'t>>, bool) {
        // The breaks first: they must not be lost among a thousand others.
        self.broken.iter().cloned().for_each(|mistake| mistakes.add(mistake));
        match build(&self.text, arena, &self.blanked, mistakes) {
            Ok(Built { tree, whole }) => (Some(tree), whole && !self.gave_up),
            Err(_) => (None, false),
        }
    }

    /// The stretches of which it is not known what they said.
    pub(super) fn holes(&self) -> Vec<Span> {
        self.holes.clone()
    }

    /// Blanks the value, or the line, that a break is in. Whether anything was there to blank.
    fn blank(&mut self, broken: Break) -> bool {
        let line = line_of(&self.text, broken.stopped_at);
        self.broken.push(broken.mistake);
        if let Some(key) = broken.last_key.filter(|key| key.open || line.start <= key.at.start) {
            let (start, end) = (value_start(&self.text, key.at), entry_end(&self.text, key.at));
            // The colon of a word that is marked with a question mark may stand on a line of its own.
            if start < end && self.put_spaces(Span::new(start, end)) {
                self.blanked.push(start);
                return true;
            }
        }
        let blanked = self.put_spaces(line);
        if blanked {
            self.holes.push(with_white_space(&self.text, line));
        }
        blanked
    }

    /// Puts spaces in. Whether anything else was there.
    fn put_spaces(&mut self, at: Span) -> bool {
        let spaces: String = at.text(&self.text).chars().map(as_spaces).collect();
        let other = spaces != at.text(&self.text);
        self.text.replace_range(at.start..at.end, &spaces);
        other
    }

    /// Keeps what stands before the first place that could not be mended, which is what YAML allows.
    fn give_up(&mut self) {
        self.gave_up = true;
        let before = self.text.clone();
        self.cut();
        let lost = &before[self.text.len()..];
        // The broken line itself is told already.
        if lost.lines().filter(|line| !line.trim().is_empty()).count() > 1 {
            let at = Span::new(self.text.len(), self.text.len());
            let what = MistakeKind::NotYaml {
                why: "too much is out of order, and from this line on nothing is read".to_string(),
                mend: "fix what is listed here and check again: the numbers that follow are not checked yet",
            };
            self.broken.push(Mistake { at, what, related: None });
        }
    }

    /// Cuts the text off before the last break, and farther up until what is left can be read.
    fn cut(&mut self) {
        let whole = self.text.len();
        let mut end = self.broken.last().map_or(0, |mistake| mistake.at.start);
        loop {
            let line = line_of(&self.text, end);
            self.text.truncate(line.start);
            self.holes.push(Span::new(self.text.trim_end().len(), whole));
            if line.start == 0 || build(&self.text, &Arena::new(), &self.blanked, &mut Mistakes::default()).is_ok() {
                return;
            }
            // Half the text each time: a text that breaks everywhere is soon let go.
            end = line.start / 2;
            while !self.text.is_char_boundary(end) {
                end -= 1;
            }
        }
    }
}

/// Spaces that take as many bytes as the character; line ends stay.
fn as_spaces(c: char) -> &'static str {
    match (c, c.len_utf8()) {
        ('\n', _) => "\n",
        ('\r', _) => "\r",
        (_, 1) => " ",
        (_, 2) => "  ",
        (_, 3) => "   ",
        _ => "    ",
    }
}

/// The line that a byte is in, without its end.
fn line_of(text: &str, byte: usize) -> Span {
    let byte = byte.min(text.len());
    let start = text[..byte].rfind(['\n', '\r']).map_or(0, |end| end + 1);
    let end = text[byte..].find(['\n', '\r']).map_or(text.len(), |length| byte + length);
    Span::new(start, end)
}

/// A stretch with the white space before and after it.
fn with_white_space(text: &str, at: Span) -> Span {
    let after = text[at.end..].trim_start().len();
    Span::new(text[..at.start].trim_end().len(), text.len() - after)
}

/// Just after the colon of a word.
fn value_start(text: &str, key: Span) -> usize {
    text[key.end..].find(':').map_or(key.end, |colon| key.end + colon + 1)
}

/// Where the entry of a word ends: before the next line that is not indented deeper than the word.
fn entry_end(text: &str, key: Span) -> usize {
    let line = line_of(text, key.start);
    let indent = key.start - line.start;
    let mut end = line.end;
    while end < text.len() {
        let next_start = end + if text[end..].starts_with("\r\n") { 2 } else { 1 };
        let next = line_of(text, next_start);
        let words = next.text(text);
        let depth = words.len() - words.trim_start_matches([' ', '\t']).len();
        // A tab has no depth that could be compared: such a line belongs to the entry.
        let tabbed = words[..depth].contains('\t');
        if !words.trim().is_empty() && depth <= indent && !tabbed {
            break;
        }
        end = next.end.max(next_start);
    }
    end.min(text.len())
}
