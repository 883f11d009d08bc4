//! What a page draws: its letters with their places, and its lines.

mod text;

use std::cell::Cell;
use std::collections::BTreeMap;
use std::rc::Rc;

use super::file::{File, find};
use super::fixed::{Matrix, ONE, number, times};
use super::font::{Font, UNMAPPED};
use super::lines::{Lines, Path};
use super::object::{Dictionary, Object, Parser, is_space};

/// How many operations are read of one file, its pages together.
const MAX_OPERATIONS: usize = 2_000_000;
/// How many letters are read of one file.
const MAX_GLYPHS: usize = 400_000;
/// How deep drawings may hold drawings.
const MAX_DEPTH: usize = 12;
/// How many operands an operation has at most.
const MAX_OPERANDS: usize = 64;
/// How long a replacement text is that stands for the letters it marks, and not for whole lines.
const MAX_REPLACEMENT: usize = 8;

/// A letter on a page.
#[derive(Clone, Debug)]
pub(super) struct Glyph {
    pub(super) text: String,
    /// Where it begins and ends along its line.
    pub(super) x0: i64,
    pub(super) x1: i64,
    /// The height that it stands at, counted upwards.
    pub(super) base: i64,
    pub(super) size: i64,
    pub(super) is_bold: bool,
    /// How many quarters its line is turned.
    pub(super) turned: u8,
}

/// What a page draws.
#[derive(Debug, Default)]
pub(super) struct Drawn {
    pub(super) glyphs: Vec<Glyph>,
    pub(super) lines: Lines,
    /// How many letters are not mapped to text.
    pub(super) unmapped: usize,
    pub(super) has_images: bool,
}

/// What is left of the work that one file may take.
pub(super) struct Budget {
    operations: usize,
    glyphs: usize,
    fonts: BTreeMap<u32, Rc<Font>>,
}

impl Budget {
    pub(super) const fn new() -> Budget {
        Budget { operations: MAX_OPERATIONS, glyphs: MAX_GLYPHS, fonts: BTreeMap::new() }
    }

    pub(super) const fn is_spent(&self) -> bool {
        self.operations == 0 || self.glyphs == 0
    }
}

/// Where a page is seen, and how it is turned.
pub(super) struct View {
    pub(super) left: i64,
    pub(super) right: i64,
    pub(super) bottom: i64,
    pub(super) top: i64,
    pub(super) turn: Matrix,
}

impl View {
    /// The heights that it is seen between once it is turned.
    pub(super) fn heights(&self) -> (i64, i64) {
        let corner = |x: i64, y: i64| Matrix::moved(x, y).then(&self.turn).0[5];
        let (one, other) = (corner(self.left, self.bottom), corner(self.right, self.top));
        (one.min(other), one.max(other))
    }
}

/// Reads what a page draws.
pub(super) fn draw(file: &File, content: &[u8], resources: &Dictionary, view: &View, budget: &mut Budget) -> Drawn {
    let mut reader = Reader { file, view, budget, drawn: Drawn::default(), marks: Vec::new(), depth: 0 };
    reader.run(content, resources, State::new(Matrix::IDENTITY));
    reader.drawn
}

struct Reader<'a> {
    file: &'a File<'a>,
    view: &'a View,
    budget: &'a mut Budget,
    drawn: Drawn,
    marks: Vec<Mark>,
    depth: usize,
}

/// An operator with its operands.
struct Operation {
    operator: Rc<[u8]>,
    operands: Vec<Object>,
}

/// What letters are marked as.
enum Mark {
    /// As no part of the text, such as the number of a page.
    Artifact,
    /// As standing for this text, which is taken with the first of them.
    Replaced(Option<String>),
    Other,
}

#[derive(Clone)]
struct State {
    matrix: Matrix,
    line: Matrix,
    text: Matrix,
    font: Option<Rc<Font>>,
    size: i64,
    letter_space: i64,
    word_space: i64,
    /// How wide letters are drawn, 1 being as they are.
    stretch: i64,
    leading: i64,
    rise: i64,
}

impl State {
    const fn new(matrix: Matrix) -> State {
        State {
            matrix,
            line: Matrix::IDENTITY,
            text: Matrix::IDENTITY,
            font: None,
            size: ONE,
            letter_space: 0,
            word_space: 0,
            stretch: ONE,
            leading: 0,
            rise: 0,
        }
    }

    fn next_line(&mut self, x: i64, y: i64) {
        self.line = Matrix::moved(x, y).then(&self.line);
        self.text = self.line;
    }
}

impl Reader<'_> {
    fn run(&mut self, content: &[u8], resources: &Dictionary, state: State) {
        let mut state = state;
        let mut saved: Vec<State> = Vec::new();
        let mut path = Path::default();
        let marks = self.marks.len();
        // What one operation holds is forgotten after it, so it counts as operations and not as objects of the file.
        let objects = Cell::new(0);
        let mut parser = Parser::new(content, 0, &objects);
        let mut operands = Vec::new();
        while self.budget.operations > 0 {
            objects.set(100_000);
            let Some(object) = parser.object() else { break };
            self.budget.operations = self.budget.operations.saturating_sub(1 + (100_000 - objects.get()) / 16);
            let Object::Word(operator) = object else {
                if operands.len() < MAX_OPERANDS {
                    operands.push(object);
                }
                continue;
            };
            if &*operator == b"ID" {
                parser.at += picture_length(content.get(parser.at..).unwrap_or_default());
                self.drawn.has_images = true;
            }
            let operation = Operation { operator, operands: std::mem::take(&mut operands) };
            self.operate(&operation, resources, &mut state, &mut saved, &mut path);
            if &*operation.operator == b"EMC" && self.marks.len() > marks {
                self.marks.pop();
            }
        }
        self.marks.truncate(marks);
    }

    fn operate(
        &mut self,
        operation: &Operation,
        resources: &Dictionary,
        state: &mut State,
        saved: &mut Vec<State>,
        path: &mut Path,
    ) {
        match &*operation.operator {
            b"q" if saved.len() < 256 => saved.push(state.clone()),
            b"Q" => {
                if let Some(before) = saved.pop() {
                    *state = before;
                }
            }
            b"cm" => {
                if let Some(matrix) = Matrix::of(&operation.operands) {
                    state.matrix = matrix.then(&state.matrix);
                }
            }
            b"Do" => self.draw_object(operation, resources, state),
            b"BMC" | b"BDC" => self.mark(operation, resources),
            b"re" | b"m" | b"l" | b"c" | b"v" | b"y" | b"n" | b"f" | b"F" | b"f*" | b"B" | b"B*" | b"b" | b"b*"
            | b"S" | b"s" => {
                self.path(operation, state, path);
            }
            _ => self.text(operation, resources, state),
        }
    }

    fn font(&mut self, name: &Object, resources: &Dictionary) -> Option<Rc<Font>> {
        let fonts = self.file.dictionary(resources, b"Font")?;
        let entry = fonts.get(name.name()?)?;
        let number = if let Object::Reference(number) = entry { Some(*number) } else { None };
        if let Some(font) = number.and_then(|number| self.budget.fonts.get(&number)) {
            return Some(Rc::clone(font));
        }
        let font = Rc::new(Font::read(self.file, self.file.resolve(entry).dictionary()?));
        match number {
            Some(number) if self.budget.fonts.len() < 512 => {
                self.budget.fonts.insert(number, Rc::clone(&font));
            }
            // A font that is written out wherever it is used costs its reading each time.
            _ => self.budget.operations = self.budget.operations.saturating_sub(10_000),
        }
        Some(font)
    }

    fn show(&mut self, string: Option<&Object>, state: &mut State) {
        let (Some(Object::String(bytes)), Some(font)) = (string, state.font.clone()) else { return };
        for code in font.decode(bytes) {
            if self.budget.glyphs == 0 {
                return;
            }
            let space = if code.is_space { state.word_space } else { 0 };
            let width = times(times(code.width, state.size), state.stretch);
            let spacing = times(state.letter_space.saturating_add(space), state.stretch);
            self.add(code.text, width, font.is_bold, state);
            state.text = Matrix::moved(width.saturating_add(spacing), 0).then(&state.text);
        }
    }

    fn add(&mut self, text: String, width: i64, is_bold: bool, state: &State) {
        self.budget.glyphs -= 1;
        let Some(text) = self.marked(text) else { return };
        let seen = Matrix::moved(0, state.rise).then(&state.text).then(&state.matrix);
        let (x, y) = (seen.0[4], seen.0[5]);
        if x < self.view.left || x > self.view.right || y < self.view.bottom || y > self.view.top {
            return;
        }
        let start = seen.then(&self.view.turn);
        let end = Matrix::moved(width, 0).then(&start);
        let [right, up, height_x, height_y, x, y] = start.0;
        let turned = match (right.abs() >= up.abs(), right >= 0, up >= 0) {
            (true, true, _) => 0,
            (false, _, true) => 1,
            (true, false, _) => 2,
            (false, _, false) => 3,
        };
        let (from, to) = (along(turned, x, y), along(turned, end.0[4], end.0[5]));
        let size = times(state.size, height_x.abs().max(height_y.abs())).abs();
        if text.contains(UNMAPPED) {
            self.drawn.unmapped += 1;
        }
        self.drawn.glyphs.push(Glyph {
            text,
            x0: from.0.min(to.0),
            x1: from.0.max(to.0),
            base: from.1,
            size,
            is_bold,
            turned,
        });
    }

    /// The text of a letter where its marks are heeded, if it is text.
    fn marked(&mut self, text: String) -> Option<String> {
        if self.marks.iter().any(|mark| matches!(mark, Mark::Artifact)) {
            return None;
        }
        let replaced = self.marks.iter_mut().rev().find_map(|mark| match mark {
            Mark::Replaced(replacement) => Some(replacement.take().unwrap_or_default()),
            Mark::Artifact | Mark::Other => None,
        });
        Some(replaced.unwrap_or(text))
    }

    fn draw_object(&mut self, operation: &Operation, resources: &Dictionary, state: &State) {
        let object = operation.operands.first().and_then(Object::name).and_then(|name| {
            let objects = self.file.dictionary(resources, b"XObject")?;
            self.file.get(&objects, name)
        });
        let Some(Object::Stream(stream)) = object else { return };
        if &*self.file.name(&stream.dictionary, b"Subtype") != b"Form" {
            self.drawn.has_images = true;
            return;
        }
        if self.depth >= MAX_DEPTH || self.budget.is_spent() {
            return;
        }
        let Some(content) = self.file.unpacked(&stream) else { return };
        let matrix = self.file.get(&stream.dictionary, b"Matrix");
        let matrix = matrix.as_ref().and_then(Object::array).and_then(Matrix::of);
        let mut inner = state.clone();
        inner.matrix = matrix.unwrap_or(Matrix::IDENTITY).then(&state.matrix);
        let own = self.file.dictionary(&stream.dictionary, b"Resources");
        self.depth += 1;
        self.run(&content, own.as_deref().unwrap_or(resources), inner);
        self.depth -= 1;
    }

    fn path(&mut self, operation: &Operation, state: &State, path: &mut Path) {
        let value = |at: usize| operation.operands.get(at).and_then(number).unwrap_or(0);
        let point = |at: usize| {
            let placed = Matrix::moved(value(at), value(at + 1)).then(&state.matrix).then(&self.view.turn);
            (placed.0[4], placed.0[5])
        };
        match &*operation.operator {
            b"re" => {
                let (x, y) = (value(0).saturating_add(value(2)), value(1).saturating_add(value(3)));
                let far = Matrix::moved(x, y).then(&state.matrix).then(&self.view.turn);
                path.add_box(point(0), (far.0[4], far.0[5]));
            }
            b"m" => path.start(point(0)),
            b"l" => path.line_to(point(0)),
            b"c" => path.curve_to(&[point(0), point(2), point(4)]),
            b"v" | b"y" => path.curve_to(&[point(0), point(2)]),
            b"S" | b"s" | b"B" | b"B*" | b"b" | b"b*" => path.paint(true, &mut self.drawn.lines),
            b"f" | b"F" | b"f*" => path.paint(false, &mut self.drawn.lines),
            _ => path.clear(),
        }
    }
}

/// A point as seen along a line that is turned by so many quarters.
const fn along(turned: u8, x: i64, y: i64) -> (i64, i64) {
    match turned {
        0 => (x, y),
        1 => (y, -x),
        2 => (-x, -y),
        _ => (-y, x),
    }
}

/// How long the bytes of a picture are that stands in a drawing, with the word that ends it.
fn picture_length(rest: &[u8]) -> usize {
    let mut from = 0;
    while let Some(at) = rest.get(from..).and_then(|rest| find(rest, b"EI")) {
        let at = from + at;
        let before = at.checked_sub(1).and_then(|before| rest.get(before));
        if before.copied().is_some_and(is_space) && rest.get(at + 2).copied().is_none_or(is_space) {
            return at + 2;
        }
        from = at + 2;
    }
    rest.len()
}
