//! Where the objects of a PDF stand: its tables, and what is done where they are damaged.

use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;

use super::file::{File, find};
use super::object::{Dictionary, Object, Parser, is_space};

/// How many objects a file may have.
const MAX_ENTRIES: usize = 400_000;
/// How many tables are followed, each with what changed since the one before.
const MAX_TABLES: usize = 256;

/// Where an object stands.
#[derive(Clone, Copy, Debug)]
pub(super) enum Entry {
    /// At this byte.
    At(usize),
    /// In the stream that is this object.
    In(u32),
}

/// Where objects stand, and the file's trailer.
#[derive(Default)]
pub(super) struct Tables {
    pub(super) entries: BTreeMap<u32, Entry>,
    pub(super) trailer: Rc<Dictionary>,
    /// Streams that hold objects, as looking through the file found them.
    pub(super) holders: Vec<u32>,
}

impl Tables {
    fn add(&mut self, number: usize, entry: Option<Entry>, gone: &mut BTreeSet<u32>) {
        let Ok(number) = u32::try_from(number) else { return };
        match entry {
            Some(entry) if self.entries.len() < MAX_ENTRIES && !gone.contains(&number) => {
                self.entries.entry(number).or_insert(entry);
            }
            None if gone.len() < MAX_ENTRIES && !self.entries.contains_key(&number) => {
                gone.insert(number);
            }
            _ => {}
        }
    }

    fn take_trailer(&mut self, dictionary: &Rc<Dictionary>) {
        if self.trailer.is_empty() {
            self.trailer = Rc::clone(dictionary);
        }
    }
}

/// Reads the tables that the end of the file points at, the newest first.
pub(super) fn by_tables(file: &File) -> Tables {
    let mut tables = Tables::default();
    let mut gone = BTreeSet::new();
    let mut seen = BTreeSet::new();
    let mut next: Vec<usize> = start_of_tables(file).into_iter().collect();
    while let Some(start) = next.pop() {
        if !seen.insert(start) || seen.len() > MAX_TABLES {
            continue;
        }
        let Some(dictionary) = read_table(file, start, &mut tables, &mut gone) else { continue };
        tables.take_trailer(&dictionary);
        for key in [b"Prev".as_slice(), b"XRefStm"] {
            next.extend(dictionary.get(key).and_then(Object::whole));
        }
    }
    tables
}

fn start_of_tables(file: &File) -> Option<usize> {
    let tail = file.bytes.len().saturating_sub(2048);
    let mut from = tail;
    let mut last = None;
    while let Some(at) = file.bytes.get(from..).and_then(|rest| find(rest, b"startxref")) {
        from += at + 9;
        last = Some(from);
    }
    Parser::new(file.bytes, last?, &file.objects_left).object()?.whole()
}

fn read_table(file: &File, start: usize, tables: &mut Tables, gone: &mut BTreeSet<u32>) -> Option<Rc<Dictionary>> {
    let mut parser = Parser::new(file.bytes, start, &file.objects_left);
    if !parser.takes(b"xref") {
        return read_table_stream(file, start, tables, gone);
    }
    loop {
        if parser.takes(b"trailer") {
            let trailer = parser.object()?;
            return trailer.dictionary().cloned();
        }
        let (first, count) = (parser.object()?.whole()?, parser.object()?.whole()?);
        parser.skip_space();
        parser.at = read_lines(file, parser.at, first, count, tables, gone)?;
    }
}

/// Reads the lines of a table, `0000000015 00000 n`; gives where they end.
fn read_lines(
    file: &File,
    start: usize,
    first: usize,
    count: usize,
    tables: &mut Tables,
    gone: &mut BTreeSet<u32>,
) -> Option<usize> {
    let mut at = start;
    for number in (first..).take(count) {
        let line = file.bytes.get(at..at + 18)?;
        if !line[..10].iter().all(u8::is_ascii_digit) {
            return Some(at);
        }
        let offset = line[..10].iter().fold(0_usize, |value, digit| value * 10 + usize::from(digit - b'0'));
        let entry = (line[17] == b'n' && offset > 0).then_some(Entry::At(offset));
        tables.add(number, entry, gone);
        at += 18;
        while file.bytes.get(at).copied().is_some_and(is_space) {
            at += 1;
        }
        if !file.work(20) {
            return None;
        }
    }
    Some(at)
}

fn read_table_stream(
    file: &File,
    start: usize,
    tables: &mut Tables,
    gone: &mut BTreeSet<u32>,
) -> Option<Rc<Dictionary>> {
    let Object::Stream(stream) = file.object_at(start, None)? else { return None };
    let dictionary = Rc::clone(&stream.dictionary);
    let bytes = file.unpacked(&stream)?;
    let whole = |object: &Object| object.whole();
    let widths: Vec<usize> = dictionary.get(b"W".as_slice())?.array()?.iter().map_while(whole).collect();
    let [kind, second, third] = *widths.as_slice() else { return None };
    let width = kind.checked_add(second)?.checked_add(third).filter(|width| (1..=24).contains(width))?;
    let sections = match dictionary.get(b"Index".as_slice()) {
        Some(Object::Array(sections)) => sections.iter().map_while(whole).collect(),
        _ => vec![0, dictionary.get(b"Size".as_slice())?.whole()?],
    };
    let mut lines = bytes.chunks_exact(width);
    for section in sections.chunks_exact(2) {
        for number in (section[0]..).take(section[1]) {
            let Some(line) = lines.next() else { return Some(dictionary) };
            let field = |from: usize, length: usize| {
                line[from..from + length].iter().fold(0_usize, |value, byte| value << 8 | usize::from(*byte))
            };
            let value = field(kind, second);
            let entry = match if kind == 0 { 1 } else { field(0, kind) } {
                1 => Some(Entry::At(value)),
                2 => u32::try_from(value).ok().map(Entry::In),
                _ => None,
            };
            tables.add(number, entry, gone);
        }
    }
    Some(dictionary)
}

/// Looks through all bytes for where objects begin; of several of one number the last counts.
pub(super) fn by_scanning(file: &File) -> Tables {
    let mut tables = Tables::default();
    let mut trailers = Vec::new();
    let mut from = 0;
    while let Some(at) =
        file.bytes.get(from..).and_then(|rest| rest.iter().position(|byte| matches!(byte, b'j' | b't')))
    {
        let end = from + at + 1;
        from = end;
        if file.bytes[..end].ends_with(b"obj") {
            if let Some((number, start)) = number_before(file.bytes, end - 3)
                && tables.entries.len() < MAX_ENTRIES
            {
                tables.entries.insert(number, Entry::At(start));
            }
        } else if file.bytes[end - 1..].starts_with(b"trailer") && trailers.len() < MAX_TABLES {
            trailers.push(end + 6);
        }
    }
    for start in trailers.into_iter().rev() {
        let trailer = Parser::new(file.bytes, start, &file.objects_left).object();
        if let Some(dictionary) = trailer.as_ref().and_then(Object::dictionary)
            && dictionary.contains_key(b"Root".as_slice())
        {
            tables.take_trailer(dictionary);
        }
    }
    find_frame(file, &mut tables);
    tables
}

/// The number of the object that the word `obj` before this byte begins, and where the number stands.
fn number_before(bytes: &[u8], end: usize) -> Option<(u32, usize)> {
    let back = |mut end: usize, is: fn(u8) -> bool| {
        while end > 0 && is(bytes[end - 1]) {
            end -= 1;
        }
        end
    };
    let digit = |byte: u8| byte.is_ascii_digit();
    let generation_end = back(end, is_space);
    let generation = back(generation_end, digit);
    let number_end = back(generation, is_space);
    let number = back(number_end, digit);
    if generation == generation_end || number_end == generation || number == number_end || number_end - number > 9 {
        return None;
    }
    let value = bytes[number..number_end].iter().fold(0, |value, digit| value * 10 + u32::from(digit - b'0'));
    Some((value, number))
}

/// Finds what a trailer would say, and the streams that hold objects.
fn find_frame(file: &File, tables: &mut Tables) {
    let mut root = None;
    for (number, entry) in &tables.entries {
        let Entry::At(start) = entry else { continue };
        if !file.work(64) {
            break;
        }
        let head = &file.bytes[*start..file.bytes.len().min(start + 400)];
        let names = |what: &[u8]| find(head, what).is_some();
        if !names(b"Catalog") && !names(b"ObjStm") && !names(b"XRef") {
            continue;
        }
        let Some(object) = file.object_at(*start, Some(*number)) else { continue };
        let Some(dictionary) = object.dictionary() else { continue };
        match dictionary.get(b"Type".as_slice()).and_then(Object::name) {
            Some(b"Catalog") => root = Some(*number),
            Some(b"ObjStm") => tables.holders.push(*number),
            Some(b"XRef") if dictionary.contains_key(b"Root".as_slice()) && tables.trailer.is_empty() => {
                tables.trailer = Rc::clone(dictionary);
            }
            _ => {}
        }
    }
    if let Some(root) = root
        && !tables.trailer.contains_key(b"Root".as_slice())
    {
        let mut trailer = (*tables.trailer).clone();
        trailer.insert(Rc::from(b"Root".as_slice()), Object::Reference(root));
        tables.trailer = Rc::new(trailer);
    }
}
