//! Numbers of a text that a manuscript says nothing of: steps, figures, dates, prices, needles, degrees, rulers.

use super::elements::{Element, Role, has_unit};
use super::lexicon::{Cue, PlacedCue};
use super::tokens::{Token, TokenKind, Tokens};

/// What the number of a step or of a row is.
pub(super) const LABEL: &str = "a label";

const TOOL: &str = "a tool, a material or a time";
const SUM: &str = "part of a sum";
const SLASH: &str = "two numbers with a slash";
const SETTING: &str = "a setting or a code";
const MANNER: &str = "a way of speaking";
const ADVICE: &str = "advice";

/// What numbers are only likely to be, each with the word for it in signs: they are held against the manuscript all the
/// same.
const DOUBTFUL: [(&str, &str); 6] =
    [(TOOL, "tool"), (SUM, "sum"), (SLASH, "slash"), (SETTING, "setting"), (MANNER, "manner"), (ADVICE, "advice")];

/// The word for what a number is only likely to be; nothing where that is sure.
pub(crate) fn doubt(why: &str) -> Option<&'static str> {
    DOUBTFUL.iter().find(|(known, _)| *known == why).map(|(_, word)| *word)
}

/// Words whose numbers are labels, in the plural too: steps 3 and 4.
const ALWAYS_LABELS: [&str; 12] =
    ["step", "figure", "fig", "diagram", "page", "photo", "picture", "illustration", "chart", "note", "pp", "table"];

const MONTHS: [&str; 12] = [
    "january",
    "february",
    "march",
    "april",
    "may",
    "june",
    "july",
    "august",
    "september",
    "october",
    "november",
    "december",
];

/// What stands before a setting of a machine or a thing that is bought by number.
const SETTINGS: [&str; 9] =
    ["stitch", "needle", "setting", "isbn", "sku", "copyright", "volume", "version", "temperature"];

/// What a length is no tool by.
const NO_TOOLS: [&str; 14] = [
    "time", "hour", "minute", "second", "week", "day", "month", "year", "people", "reader", "question", "skill",
    "star", "photo",
];

/// Why a number is no requirement, where it is none.
pub(crate) fn not_required(text: &str, tokens: &Tokens, cues: &[PlacedCue], element: &Element) -> Option<&'static str> {
    let number = &tokens.numbers[element.numbers[0]];
    if number.is_other || element.numbers.iter().any(|number| tokens.numbers[*number].is_other) {
        return Some("an angle or a percentage");
    }
    if element.role == Role::Range && element.in_run.is_none() {
        return Some("one end of a range");
    }
    let here = Here { text, tokens, cues, element };
    if here.says_order() {
        return Some("it says how numbers are to be read");
    }
    if here.ends_label() {
        return Some("how many pages or steps there are");
    }
    // `WOF = 42"` and `D = 5" x 5"` say what something is; what stands after `=` and a number is a result.
    let follows_number = element.tokens.start.checked_sub(2).is_some_and(|at| tokens.list[at].number().is_some());
    let is_result = here.sign(-1) == Some('=') && follows_number && !here.counts() && !here.is_yield();
    // `4 A + 1 B` is what something is sewn from.
    let is_added = matches!(here.sign(-1), Some('+' | '÷')) && follows_number;
    let is_part = matches!(here.sign(1), Some('+' | '÷')) || here.sign(1) == Some('=') && !here.yields() || is_added;
    if is_result || is_part && !here.counts_thing() {
        return Some(SUM);
    }
    if here.is_in_name() {
        return Some("part of a name");
    }
    if number.unit.is_none() && element.numbers.len() == 1 {
        let found = here.label().or_else(|| here.date()).or_else(|| here.compound());
        if found.is_some() {
            return found;
        }
    }
    here.price().or_else(|| here.address()).or_else(|| here.code()).or_else(|| here.tool()).or_else(|| here.manner())
}

/// A number in its surroundings.
struct Here<'t> {
    text: &'t str,
    tokens: &'t Tokens,
    cues: &'t [PlacedCue],
    element: &'t Element,
}

impl Here<'_> {
    /// The word at a distance from the number; nothing where a sign stands there.
    fn word(&self, ahead: isize) -> &str {
        let from = if ahead < 0 { self.element.tokens.start } else { self.element.tokens.end - 1 };
        let at = from.checked_add_signed(ahead);
        at.and_then(|at| self.tokens.list.get(at)).map_or("", |token| token.stem.as_str())
    }

    fn sign(&self, ahead: isize) -> Option<char> {
        let from = if ahead < 0 { self.element.tokens.start } else { self.element.tokens.end - 1 };
        match self.tokens.list.get(from.checked_add_signed(ahead)?)?.kind {
            TokenKind::Sign(sign) => Some(sign),
            _ => None,
        }
    }

    fn first(&self) -> &super::numbers::TextNumber {
        &self.tokens.numbers[self.element.numbers[0]]
    }

    /// `Lap is first, twin in square and queen in curly brackets: 1 [2] {3}`
    fn says_order(&self) -> bool {
        let is_place = |size: usize| self.first().count() == Some(size as u64 + 1) && self.first().unit.is_none();
        let says = |token: &Token| matches!(token.stem.as_str(), "bracket" | "parenthesis" | "parentheses");
        self.element.in_run.is_some_and(|(_, size)| is_place(size)) && self.tokens.list.iter().any(says)
    }

    /// Whether what is counted stands directly after the number.
    fn counts(&self) -> bool {
        self.cues.iter().any(|cue| matches!(cue.cue, Cue::Noun(_)) && cue.tokens.start == self.element.tokens.end)
    }

    /// Whether what follows `=` is no result: `@ 7 1/4 in. = 9 squares`, `2 1/2 in. = border`.
    fn yields(&self) -> bool {
        let next = self.tokens.list.get(self.element.tokens.end + 1);
        match next.map(|token| token.kind) {
            Some(TokenKind::Number(number)) => self.is_of_other_kind(number),
            Some(TokenKind::Word) => true,
            _ => false,
        }
    }

    /// Whether of it and a number beside it one has a unit, and the other has none.
    fn is_of_other_kind(&self, number: usize) -> bool {
        has_unit(self.tokens, self.element) != self.tokens.numbers[number].unit.is_some()
    }

    /// Whether it is what comes of strips of a width: `@ 7 1/4 in. = 9 squares`, `4 x 4 = 32 1/2 in`.
    fn is_yield(&self) -> bool {
        let before = self.element.tokens.start.checked_sub(2).and_then(|at| self.tokens.list[at].number());
        before.is_some_and(|number| self.is_of_other_kind(number))
    }

    /// Whether what is counted or named stands directly after the number.
    fn counts_thing(&self) -> bool {
        let is = |cue: &PlacedCue| matches!(cue.cue, Cue::Noun(_)) || cue.cue.is_subject();
        self.cues.iter().any(|cue| cue.tokens.start == self.element.tokens.end && is(cue))
    }

    fn is_in_name(&self) -> bool {
        let is_name = |cue: Cue| cue.is_subject() || matches!(cue, Cue::Size(_));
        // A block may be called nine: `rows of nine` and `nine for the twin` count.
        let is_word = self.first().in_words && self.element.numbers.len() == 1;
        let is_block = matches!(self.word(1), "patch" | "block" | "unit") || self.sign(1) == Some('-');
        let counts = |cue: &PlacedCue| cue.tokens.len() == 1 && is_word && !is_block;
        let is_here = |cue: &&PlacedCue| is_name(cue.cue) && cue.tokens.contains(&self.element.tokens.start);
        self.cues.iter().filter(is_here).any(|cue| !counts(cue))
    }

    /// Part of a word: `16-patch`.
    fn compound(&self) -> Option<&'static str> {
        let number = self.first();
        let rest = self.text[number.at.end..].strip_prefix(['-', '\u{2010}', '\u{2011}'])?;
        (number.unit.is_none() && rest.starts_with(char::is_alphabetic)).then_some("part of a word")
    }

    /// A label: `step 3`, `Row 2:`, `1.` before a sentence.
    fn label(&self) -> Option<&'static str> {
        let start = self.element.tokens.start;
        let number = self.first();
        let is_capital = || self.is_capital(isize::try_from(self.element.tokens.len()).unwrap_or(1));
        let says = &self.text[number.at.clone()];
        // `3.1 From ink, cut` is a step of the third.
        if start == 0 && number.unit.is_none() && says.contains('.') && is_capital() {
            return Some(LABEL);
        }
        number.count()?;
        if start == 0 && matches!(self.sign(1), Some('.' | ')')) && !self.word(2).is_empty() {
            return Some(LABEL);
        }
        if self.begins_step() {
            return Some(LABEL);
        }
        // After `steps 3 and` as well, and after `figures 2–`.
        let mut at = start;
        while at > 1 {
            let token = &self.tokens.list[at - 1];
            let joins = token.is_sign('–')
                || token.is_sign('-')
                || token.is_sign(',')
                || matches!(token.stem.as_str(), "and" | "to" | "or" | "through");
            if !joins || self.tokens.list[at - 2].number().is_none() {
                break;
            }
            at -= 2;
        }
        let is_short = |at: usize| {
            let stem = self.tokens.list[at].stem.as_str();
            matches!(stem, "no" | "vol" | "ed" | "sec" | "ch") || ALWAYS_LABELS.contains(&stem) || stem == "p"
        };
        // `Fig. 2` is a label, and a number after `for the border.` begins a sentence.
        let has_dot = at > 1 && self.tokens.list[at - 1].is_sign('.') && is_short(at - 2);
        let dot = usize::from(has_dot || at > 1 && self.tokens.list[at - 1].is_sign('#'));
        let before = self.tokens.list.get(at.checked_sub(1 + dot)?)?;
        let is_always = ALWAYS_LABELS.contains(&before.stem.as_str());
        // `P 4 / S 7` may be sizes by their letters, and `P` a piece.
        let is_code = |end: usize| {
            let is = |cue: Cue| cue.is_subject() || matches!(cue, Cue::Size(_));
            before.at.len() == 1 && self.cues.iter().any(|cue| cue.tokens.end == end && is(cue.cue))
        };
        let is_label =
            self.cues.iter().any(|cue| cue.cue == Cue::Label && cue.tokens.end == at - dot) && !is_code(at - dot);
        let is_plural = self.text[before.at.clone()].ends_with('s') && before.stem.len() < before.at.len();
        let counts = self.counts();
        // `Rows 11.` on a card counts them; `Rows 11 and 12` are two of them.
        let goes_on = matches!(self.word(1), "and" | "to" | "or" | "through")
            || matches!(self.sign(1), Some('–' | '-' | ',')) && self.is_number(2);
        let is_counted = at == start && is_plural && !goes_on && dot == 0;
        let is_named = is_label && (at == start || is_plural) && !counts && !is_counted;
        if is_always || is_named || self.sign(-1) == Some('#') {
            return Some(LABEL);
        }
        None
    }

    /// Whether it counts the steps of a paragraph, each of which begins with its number: `1 Press. 2 Trim.`
    fn begins_step(&self) -> bool {
        let count = |at: usize| {
            let number = self.tokens.list.get(at)?.number()?;
            let number = &self.tokens.numbers[number];
            number.count().filter(|_| number.unit.is_none() && !number.in_words)
        };
        let begins = |at: usize| {
            let before = at.checked_sub(1).map(|before| &self.tokens.list[before]);
            let next = self.tokens.list.get(at + 1);
            let has_dot = next.is_some_and(|next| next.is_sign('.') || next.is_sign(')'));
            let next = self.tokens.list.get(at + 1 + usize::from(has_dot)).filter(|next| next.is_word());
            before.is_none_or(Token::ends_clause)
                && next.is_some_and(|next| self.text[next.at.clone()].starts_with(char::is_uppercase))
        };
        let start = self.element.tokens.start;
        let Some(own) = count(start).filter(|_| begins(start)) else { return false };
        let is_step = |at: &usize, step: u64| count(*at) == Some(step) && begins(*at);
        let (before, after) = (0..start, start + 1..self.tokens.list.len());
        let others = before.into_iter().any(|at| own > 1 && is_step(&at, own - 1))
            || after.into_iter().any(|at| is_step(&at, own + 1));
        // `5 Piece the strips` is told to do something, and `5 Indigo strips` are counted.
        let names = |cue: &PlacedCue| cue.tokens.start == start + 1 && !matches!(cue.cue, Cue::Act(_));
        let is_told = matches!(self.word(2), "the" | "your" | "all" | "each" | "a" | "them" | "these");
        others || start == 0 && (is_told || !self.cues.iter().any(names))
    }

    fn is_number(&self, ahead: usize) -> bool {
        self.tokens.list.get(self.element.tokens.end - 1 + ahead).is_some_and(|token| token.number().is_some())
    }

    /// `Page 3 of 12`
    fn ends_label(&self) -> bool {
        let before = |back: usize| self.element.tokens.start.checked_sub(back).and_then(|at| self.tokens.list.get(at));
        let is_numbered = before(2).is_some_and(|token| token.number().is_some());
        let is_label = |token: &Token| ALWAYS_LABELS.contains(&token.stem.as_str());
        self.word(-1) == "of" && is_numbered && before(3).is_some_and(is_label)
    }

    fn date(&self) -> Option<&'static str> {
        const DATE: &str = "a date";
        let count = self.first().count()?;
        // `12 may be cut` and `the 12 March through` are no dates.
        if MONTHS.contains(&self.word(1)) && (!matches!(self.word(1), "may" | "march") || self.is_capital(1))
            || MONTHS.contains(&self.word(-1)) && self.is_capital(-1)
        {
            return Some(DATE);
        }
        let counts = self.counts();
        ((1900..2100).contains(&count) && !self.first().in_words && !counts).then_some(DATE)
    }

    fn is_capital(&self, ahead: isize) -> bool {
        let at = self.element.tokens.start.checked_add_signed(ahead);
        let token = at.and_then(|at| self.tokens.list.get(at));
        token.is_some_and(|token| self.text[token.at.clone()].starts_with(char::is_uppercase))
    }

    fn price(&self) -> Option<&'static str> {
        let signs = |sign: Option<char>| matches!(sign, Some('$' | '€' | '£' | '¥' | '¢'));
        let word = matches!(self.word(1), "usd" | "eur" | "gbp" | "dollar" | "euro" | "pound" | "cent");
        (signs(self.sign(-1)) || signs(self.sign(1)) || word).then_some("a price")
    }

    /// Codes and addresses: an ISBN, a telephone number, a page in the web, `80/12`.
    fn code(&self) -> Option<&'static str> {
        const CODE: &str = "a code";
        let at = self.tokens.list[self.element.tokens.start].at.clone();
        let before = self.text[..at.start].rfind(char::is_whitespace).map_or(0, |space| space + 1);
        let after = self.text[at.start..].find(char::is_whitespace).map_or(self.text.len(), |space| at.start + space);
        let chunk = self.text.get(before..after).unwrap_or("");
        let is_mail = chunk
            .find('@')
            .is_some_and(|at| at > 0 && chunk[at..].contains('.') && chunk.starts_with(char::is_alphabetic));
        if chunk.contains("://") || chunk.contains("www.") || is_mail || chunk.contains(".com") {
            return Some(CODE);
        }
        let digits = chunk.bytes().filter(u8::is_ascii_digit).count();
        let dashes = chunk.matches('-').count();
        if dashes >= 2 && digits >= 7 && !chunk.contains('/')
            || digits >= 6 && dashes == 0 && chunk.bytes().all(|byte| byte.is_ascii_digit())
        {
            return Some(CODE);
        }
        if self.sign(1) == Some(':')
            && self.text[at.end..].starts_with(':')
            && self.text[at.end + 1..].starts_with(|c: char| c.is_ascii_digit())
        {
            return Some("a time");
        }
        let slash = self.sign(1) == Some('/') && self.text[at.end..].starts_with('/')
            || self.sign(-1) == Some('/') && self.text[..at.start].ends_with('/');
        let number_at = |token: usize| self.tokens.list.get(token)?.number();
        let other =
            number_at(self.element.tokens.end + 1).or_else(|| number_at(self.element.tokens.start.checked_sub(2)?));
        let is_run = |other: usize| self.element.in_run.is_some() && !self.are_bolt_widths(other);
        let is_pair = |other: usize| slash && !is_run(other) && self.element.role == Role::Plain;
        other.is_some_and(is_pair).then_some(SLASH)
    }

    /// Whether two numbers are the least and the most that a bolt is wide: `44/45" wide`.
    fn are_bolt_widths(&self, other: usize) -> bool {
        let (own, other) = (self.first().first(), self.tokens.numbers[other].first());
        let are_whole = own.over == 1 && other.over == 1;
        are_whole && (40..=60).contains(&own.top) && (own.top - other.top).abs() == 1
    }

    /// An address: `14 Skerry Lane`.
    fn address(&self) -> Option<&'static str> {
        const STREETS: [&str; 8] = ["lane", "street", "road", "avenue", "drive", "way", "square", "court"];
        let is_street = |ahead: isize| {
            let capital = |at: isize| self.is_capital(at + isize::try_from(self.element.tokens.len()).unwrap_or(1) - 1);
            STREETS.contains(&self.word(ahead)) && (1..=ahead).all(capital)
        };
        (self.first().unit.is_none() && (is_street(2) || is_street(3))).then_some("an address")
    }

    /// Tools and materials by their size: a ruler, a mat, a needle, thread.
    fn tool(&self) -> Option<&'static str> {
        let start = self.element.tokens.start;
        // A size of 91 by 121 cm is one of the quilt.
        let is_size =
            |cue: &PlacedCue| self.element.numbers.len() == 2 && self.tokens.list[cue.tokens.start].stem == "size";
        let of_tool = |cue: &PlacedCue| cue.cue == Cue::Other && cue.tokens.end + 1 == start && !is_size(cue);
        if self.word(-1) == "of" && self.cues.iter().any(of_tool) {
            return Some(TOOL);
        }
        let end = self.element.tokens.end;
        let number_of_things = self.first().unit.is_none();
        for at in end..end + 5 {
            let Some(token) = self.tokens.list.get(at) else { break };
            // Both numbers of a needle are its size: `90/14`.
            let is_second = at > end && self.tokens.list[at - 1].is_sign('/');
            let parts = [',', ':', '('].iter().any(|sign| token.is_sign(*sign));
            if token.ends_clause() || parts || token.number().is_some() && !is_second {
                break;
            }
            let here: Vec<Cue> = self.cues.iter().filter(|cue| cue.tokens.start == at).map(|cue| cue.cue).collect();
            let named = here.iter().any(|cue| cue.is_subject() || matches!(cue, Cue::Size(_)));
            if named && number_of_things || here.iter().any(|cue| matches!(cue, Cue::Fabric(_))) {
                break;
            }
            // So many centimeters before a stitch are no stitch length.
            let is_long =
                self.first().unit.is_some_and(|unit| unit != crate::quantity::Unit::Mm) && token.stem == "stitch";
            // `6 1/2 in on your mat`, `3 1/2 inches while listening for an hour`, and so many yards every time.
            let is_length = self.first().unit.is_some()
                && (NO_TOOLS.contains(&token.stem.as_str())
                    || self.tokens.list[end..at]
                        .iter()
                        .any(|between| matches!(between.stem.as_str(), "on" | "while" | "when")));
            // `Five different prints` are prints, and `in every size` says no size of a tool.
            let before = self.tokens.list[at - 1].stem.as_str();
            let of_quilts = [
                "every",
                "each",
                "either",
                "any",
                "your",
                "both",
                "all",
                "whichever",
                "whatever",
                "this",
                "the",
                "other",
                "same",
            ];
            let is_size = token.stem == "size" && of_quilts.contains(&before);
            // `36 of the first kind and 18 of the second` are no seconds.
            let is_place = token.stem == "second" && matches!(before, "the" | "a" | "its");
            let of_run = token.stem == "time" && self.element.in_run.is_some();
            let is_thing = is_place
                || of_run
                || is_size
                || token.stem == "different" && self.tokens.list.get(at + 1).is_some_and(Token::is_word);
            // So many yards of cotton are bought.
            let is_cloth = token.stem == "cotton"
                && matches!(self.first().unit, Some(crate::quantity::Unit::Yard | crate::quantity::Unit::Metre));
            if here.contains(&Cue::Other) && !named && !is_long && !is_length && !is_thing && !is_cloth {
                return Some(TOOL);
            }
            // A square ruler is a ruler, and squares of the same size are squares.
            let is_tool_next = self.cues.iter().any(|cue| cue.tokens.start == at + 1 && cue.cue == Cue::Other);
            if here.iter().any(|cue| matches!(cue, Cue::Noun(_))) && (at > end || !is_tool_next) {
                break;
            }
        }
        // A blade of 45 mm is named before it.
        let is_of_blade =
            |cue: &PlacedCue| cue.cue == Cue::Other && (start.saturating_sub(7)..start).contains(&cue.tokens.start);
        let millimetres = self.first().unit == Some(crate::quantity::Unit::Mm);
        if millimetres
            && self.first().first().top >= 18 * self.first().first().over
            && self.cues.iter().any(is_of_blade)
        {
            return Some(TOOL);
        }
        // `Stitch 7 mm on either side of it` is a seam.
        let is_seam = self.word(-1) == "stitch"
            && (1..3).any(|ahead| {
                matches!(self.word(ahead), "either" | "on" | "from" | "each" | "both" | "away" | "inside")
            });
        let settings = !is_seam && (-4..0).any(|ahead| self.is_setting(ahead));
        let small = self.first().unit.is_none_or(|unit| unit == crate::quantity::Unit::Mm);
        (settings && small && self.element.numbers.len() == 1 && !self.counts_thing()).then_some(SETTING)
    }

    /// Whether a word before it is a setting of a machine that its number follows: `on setting 5`, but no heading
    /// `Setting. Lay out 4` and no use of cloth, `setting: 2 yd`.
    fn is_setting(&self, ahead: isize) -> bool {
        let word = self.word(ahead);
        let ends = |at: isize| self.sign(at).is_some_and(|sign| matches!(sign, '.' | '!' | '?'));
        let is_own = word != "setting" || ahead == -1 || self.word(ahead + 1) == "of";
        SETTINGS.contains(&word) && is_own && !(ahead + 1..0).any(ends)
    }

    /// Ways of speaking: two at a time, one of them, every 4 in.
    fn manner(&self) -> Option<&'static str> {
        if self.word(1) == "at" && self.word(2) == "a" && self.word(3) == "time"
            || self.word(1) == "time" && self.element.in_run.is_none()
        {
            return Some(MANNER);
        }
        if matches!(self.word(-1), "first" | "last" | "next" | "remaining") && self.first().unit.is_none() {
            return Some(MANNER);
        }
        if (-2..0).any(|ahead| matches!(self.word(ahead), "level" | "skill" | "rating" | "difficulty")) {
            return Some("a grade");
        }
        let before = &self.text[..self.tokens.list[self.element.tokens.start].at.start];
        if before.ends_with(':') && before[..before.len() - 1].ends_with(|c: char| c.is_ascii_digit()) {
            return Some("a ratio");
        }
        // What is sewn so far away from a line, or sliced every so many inches, is to be done so.
        let does = |acts: &[&str]| (-6..0).any(|ahead| acts.contains(&self.word(ahead)));
        let is_every = self.word(-1) == "every" && !does(&["cut", "cross", "crosscut", "slice", "segment"]);
        let is_away = self.word(1) == "away" && !does(&["sew", "stitch", "seam"]);
        if is_every || is_away || (1..3).any(|ahead| self.word(ahead) == "apart") {
            return Some(ADVICE);
        }
        let number = self.first();
        let of_people = self.word(1) == "of" && matches!(self.word(2), "you" | "us" | "my" | "our" | "we");
        if of_people && number.unit.is_none() {
            return Some(MANNER);
        }
        if number.unit.is_none() && self.word(1) == "opposite" {
            return Some(MANNER);
        }
        if !number.in_words || number.unit.is_some() {
            return None;
        }
        // `A seam or two`, several parts that become one, and `one up and one down`.
        let is_one = number.count() == Some(1);
        let spoken_of = self.word(-1) == "or" && self.word(-3) == "a"
            || is_one && (self.word(-1) == "into" || matches!(self.word(1), "up" | "down"));
        if spoken_of {
            return Some(MANNER);
        }
        let next = self.tokens.list.get(self.element.tokens.end);
        if next.is_some_and(|token| self.text[token.at.clone()].eq_ignore_ascii_case("patch")) {
            return Some("the name of a block");
        }
        let counts = |ahead: usize| {
            let at = self.element.tokens.end + ahead;
            self.cues
                .iter()
                .any(|cue| cue.tokens.start == at && (matches!(cue.cue, Cue::Noun(_)) || cue.cue.is_subject()))
        };
        let is_pair = matches!(
            self.word(-1),
            "the" | "these" | "those" | "other" | "all" | "your" | "into" | "this" | "that" | "any"
        );
        // `The four E` are as many as there are.
        let of_pieces = |cue: &PlacedCue| {
            matches!(cue.cue, Cue::Piece(..)) && !cue.weak && cue.tokens.start == self.element.tokens.end
        };
        let small = number.count().is_some_and(|count| count <= 4) && !self.cues.iter().any(of_pieces);
        let spoken = self.element.role == Role::Plain && number.count() == Some(1) && !counts(0) && !counts(1);
        let is_of_cloth = self.cues.iter().any(|cue| {
            matches!(cue.cue, Cue::Fabric(_) | Cue::Piece(..)) && cue.tokens.start == self.element.tokens.end + 1
        });
        let is_one_of = number.count() == Some(1) && self.word(1) == "of" && !is_of_cloth;
        (small && is_pair && self.word(-1) != "into" || spoken && !(self.word(1) == "of" && is_of_cloth) || is_one_of)
            .then_some(MANNER)
    }
}
