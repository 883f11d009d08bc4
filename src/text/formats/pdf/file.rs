//! A PDF file: finding its objects, by its tables or by looking through its bytes, and unpacking its streams. Only what
//! is asked for is read, and all work on one file is bounded together.

use std::cell::{Cell, RefCell};
use std::collections::BTreeMap;
use std::rc::Rc;

use super::filters::{Prediction, is_for_text, unpack};
use super::object::{Dictionary, Object, Parser, Stream};
use super::tables::{Entry, Tables, by_scanning, by_tables};

/// How many objects are read of one file.
const MAX_OBJECTS: usize = 600_000;
/// How many bytes are unpacked and looked through for one file.
const MAX_WORK: usize = 96_000_000;
/// The most that one stream is unpacked to.
const MAX_STREAM: usize = 32_000_000;
/// How often an object may refer on to another.
const MAX_REFERENCES: usize = 16;
/// How deep the reading of one object may need that of another.
const MAX_NESTED_LOADS: usize = 8;

/// A file that is being read.
pub(super) struct File<'a> {
    pub(super) bytes: &'a [u8],
    tables: RefCell<Tables>,
    objects: RefCell<BTreeMap<u32, Object>>,
    /// Unpacked streams that hold objects: their bytes, and where which object begins.
    holders: RefCell<BTreeMap<u32, Option<Rc<Holder>>>>,
    pub(super) objects_left: Cell<usize>,
    work_left: Cell<usize>,
    nested: Cell<usize>,
    /// Whether a stream was more than is unpacked.
    too_large: Cell<bool>,
}

struct Holder {
    bytes: Vec<u8>,
    starts: BTreeMap<u32, usize>,
}

impl<'a> File<'a> {
    /// Opens a file by its tables.
    pub(super) fn open(bytes: &'a [u8]) -> File<'a> {
        let head = bytes.len().min(1024);
        let start = bytes[..head].windows(5).position(|five| five == b"%PDF-").unwrap_or(0);
        let file = File {
            bytes: &bytes[start..],
            tables: RefCell::new(Tables::default()),
            objects: RefCell::new(BTreeMap::new()),
            holders: RefCell::new(BTreeMap::new()),
            objects_left: Cell::new(MAX_OBJECTS),
            work_left: Cell::new(MAX_WORK),
            nested: Cell::new(0),
            too_large: Cell::new(false),
        };
        let tables = by_tables(&file);
        file.tables.replace(tables);
        file
    }

    /// Finds the objects anew, by looking through all bytes for where they begin.
    pub(super) fn scan(&self) {
        self.objects.borrow_mut().clear();
        self.holders.borrow_mut().clear();
        let tables = by_scanning(self);
        self.tables.replace(tables);
        self.add_held_objects();
    }

    /// The entries of the file's trailer.
    pub(super) fn trailer(&self) -> Rc<Dictionary> {
        Rc::clone(&self.tables.borrow().trailer)
    }

    /// Whether so much was read or unpacked that the rest is left.
    pub(super) fn is_spent(&self) -> bool {
        self.objects_left.get() == 0 || self.work_left.get() == 0 || self.too_large.get()
    }

    /// Counts work; whether there was so much left.
    pub(super) fn work(&self, bytes: usize) -> bool {
        let left = self.work_left.get().saturating_sub(bytes);
        self.work_left.set(left);
        left > 0
    }

    /// The object that this one refers to, or itself.
    pub(super) fn resolve(&self, object: &Object) -> Object {
        let mut object = object.clone();
        for _ in 0..MAX_REFERENCES {
            let Object::Reference(number) = object else { return object };
            object = self.object(number);
        }
        Object::Null
    }

    /// An entry of a dictionary, if it has it.
    pub(super) fn get(&self, dictionary: &Dictionary, key: &[u8]) -> Option<Object> {
        dictionary.get(key).map(|object| self.resolve(object)).filter(|object| !matches!(object, Object::Null))
    }

    /// An entry that is a dictionary.
    pub(super) fn dictionary(&self, dictionary: &Dictionary, key: &[u8]) -> Option<Rc<Dictionary>> {
        self.get(dictionary, key)?.dictionary().cloned()
    }

    /// An entry that is a name.
    pub(super) fn name(&self, dictionary: &Dictionary, key: &[u8]) -> Rc<[u8]> {
        match self.get(dictionary, key) {
            Some(Object::Name(name)) => name,
            _ => Rc::from([].as_slice()),
        }
    }

    fn object(&self, number: u32) -> Object {
        if let Some(object) = self.objects.borrow().get(&number) {
            return object.clone();
        }
        if self.nested.get() >= MAX_NESTED_LOADS {
            return Object::Null;
        }
        self.nested.set(self.nested.get() + 1);
        let entry = self.tables.borrow().entries.get(&number).copied();
        let object = match entry {
            Some(Entry::At(start)) => self.object_at(start, Some(number)),
            Some(Entry::In(holder)) => self.held_object(holder, number),
            None => None,
        };
        self.nested.set(self.nested.get() - 1);
        let object = object.unwrap_or(Object::Null);
        self.objects.borrow_mut().insert(number, object.clone());
        object
    }

    /// The object whose number stands at this byte, if that is the one.
    pub(super) fn object_at(&self, start: usize, number: Option<u32>) -> Option<Object> {
        let mut parser = Parser::new(self.bytes, start, &self.objects_left);
        let found = parser.object()?.whole()?;
        parser.object()?.whole()?;
        if !parser.takes(b"obj") || number.is_some_and(|number| u32::try_from(found) != Ok(number)) {
            return None;
        }
        let object = parser.object_or_reference(0)?;
        let Object::Dictionary(dictionary) = &object else { return Some(object) };
        if !parser.takes(b"stream") {
            return Some(object);
        }
        let start = match self.bytes.get(parser.at..)? {
            [b'\r', b'\n', ..] => parser.at + 2,
            [b'\n' | b'\r', ..] => parser.at + 1,
            _ => parser.at,
        };
        Some(Object::Stream(Rc::new(Stream { dictionary: Rc::clone(dictionary), start })))
    }

    fn held_object(&self, holder: u32, number: u32) -> Option<Object> {
        let known = self.holders.borrow().get(&holder).cloned();
        let opened = match known {
            Some(opened) => opened,
            None => {
                // While it is being opened it holds nothing, so that it is never needed to open itself.
                self.holders.borrow_mut().insert(holder, None);
                let opened = self.open_holder(holder).map(Rc::new);
                self.holders.borrow_mut().insert(holder, opened.clone());
                opened
            }
        }?;
        let start = *opened.starts.get(&number)?;
        Parser::new(&opened.bytes, start, &self.objects_left).object_or_reference(0)
    }

    fn open_holder(&self, holder: u32) -> Option<Holder> {
        let Object::Stream(stream) = self.object(holder) else { return None };
        let bytes = self.unpacked(&stream)?;
        let first = self.get(&stream.dictionary, b"First")?.whole()?;
        let count = self.get(&stream.dictionary, b"N")?.whole()?;
        let mut parser = Parser::new(&bytes, 0, &self.objects_left);
        let mut starts = BTreeMap::new();
        for _ in 0..count {
            let (Some(number), Some(start)) = (parser.object()?.whole(), parser.object()?.whole()) else { break };
            if parser.at > first {
                break;
            }
            starts.insert(u32::try_from(number).ok()?, first.saturating_add(start));
        }
        Some(Holder { bytes, starts })
    }

    /// Adds the objects that streams hold, where the tables that say so could not be read.
    fn add_held_objects(&self) {
        let numbers: Vec<u32> = self.tables.borrow().holders.clone();
        for holder in numbers {
            if self.is_spent() {
                return;
            }
            if let Some(opened) = self.open_holder(holder) {
                let mut tables = self.tables.borrow_mut();
                for number in opened.starts.keys() {
                    tables.entries.entry(*number).or_insert(Entry::In(holder));
                }
                drop(tables);
                self.holders.borrow_mut().insert(holder, Some(Rc::new(opened)));
            }
        }
        let root = self.trailer().get(b"Root".as_slice()).cloned();
        if root.is_none() {
            self.find_root();
        }
    }

    /// The catalog among the objects that streams hold.
    fn find_root(&self) {
        let numbers: Vec<u32> = self.tables.borrow().entries.keys().copied().collect();
        let root = numbers.into_iter().find(|number| {
            let object = self.object(*number);
            object.dictionary().is_some_and(|dictionary| &*self.name(dictionary, b"Type") == b"Catalog")
        });
        if let Some(root) = root {
            let mut trailer = (*self.trailer()).clone();
            trailer.insert(Rc::from(b"Root".as_slice()), Object::Reference(root));
            self.tables.borrow_mut().trailer = Rc::new(trailer);
        }
    }

    /// The bytes of a stream, unpacked; nothing where they are too many, or packed as pictures are.
    pub(super) fn unpacked(&self, stream: &Stream) -> Option<Vec<u8>> {
        let packed = self.packed(stream)?;
        let filters = self.get(&stream.dictionary, b"Filter").or_else(|| self.get(&stream.dictionary, b"F"));
        let filters: Vec<Object> = match filters {
            None => return self.work(packed.len().max(256)).then(|| packed.to_vec()),
            Some(Object::Array(filters)) => filters.iter().take(4).map(|filter| self.resolve(filter)).collect(),
            Some(filter) => vec![filter],
        };
        let mut bytes: Option<Vec<u8>> = None;
        for (at, filter) in filters.iter().enumerate() {
            let most = MAX_STREAM.min(self.work_left.get());
            let input = bytes.as_deref().unwrap_or(packed);
            let unpacked = unpack(filter, input, self.prediction(&stream.dictionary, at), most);
            let cost = unpacked.as_ref().map_or(most, Vec::len).max(256);
            self.work(cost);
            if unpacked.is_none() && is_for_text(filter) {
                self.too_large.set(true);
            }
            bytes = Some(unpacked?);
        }
        bytes
    }

    fn prediction(&self, dictionary: &Dictionary, at: usize) -> Prediction {
        let parameters = self.get(dictionary, b"DecodeParms").or_else(|| self.get(dictionary, b"DP"));
        let parameters = match parameters {
            Some(Object::Array(list)) => list.get(at).map(|parameters| self.resolve(parameters)),
            other => other,
        };
        let entries = parameters.as_ref().and_then(Object::dictionary).cloned().unwrap_or_default();
        let number = |key: &[u8], otherwise: usize| {
            self.get(&entries, key).and_then(|value| value.whole()).unwrap_or(otherwise).min(1 << 20)
        };
        Prediction {
            predictor: number(b"Predictor", 1),
            colors: number(b"Colors", 1).clamp(1, 32),
            bits: number(b"BitsPerComponent", 8).clamp(1, 16),
            columns: number(b"Columns", 1).max(1),
            early: number(b"EarlyChange", 1) == 1,
        }
    }

    /// The bytes of a stream as they stand in the file.
    fn packed(&self, stream: &Stream) -> Option<&'a [u8]> {
        let rest = self.bytes.get(stream.start..)?;
        let length = self.get(&stream.dictionary, b"Length").and_then(|length| length.whole());
        if let Some(length) = length
            && let Some(after) = rest.get(length..)
            && after.get(..after.len().min(32)).is_some_and(|after| contains(after, b"endstream"))
        {
            return rest.get(..length);
        }
        let end = find(rest, b"endstream").or_else(|| find(rest, b"endobj")).unwrap_or(rest.len());
        self.work(end);
        rest.get(..end)
    }
}

/// Where bytes first stand in others.
pub(super) fn find(bytes: &[u8], what: &[u8]) -> Option<usize> {
    let first = *what.first()?;
    let mut from = 0;
    while let Some(at) = bytes.get(from..)?.iter().position(|byte| *byte == first) {
        if bytes[from + at..].starts_with(what) {
            return Some(from + at);
        }
        from += at + 1;
    }
    None
}

fn contains(bytes: &[u8], what: &[u8]) -> bool {
    find(bytes, what).is_some()
}
