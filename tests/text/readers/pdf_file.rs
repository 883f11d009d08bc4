//! Writing PDFs: lines of text that are wrapped and placed, and files from objects.

use std::io::Write;

use flate2::Compression;
use flate2::write::ZlibEncoder;

/// A typeface: both have letters of half their size, so that lines can be broken without its tables.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(crate) enum Face {
    Plain,
    Bold,
}

/// A PDF that is being laid out, from the top of a page down.
pub(crate) struct Pdf {
    pages: Vec<String>,
    y: i64,
    setting: Setting,
}

/// How pages are set.
#[derive(Clone, Copy, Default)]
pub(crate) struct Setting {
    /// How high pages are, in points below their top; 0 for as high as usual.
    pub(crate) height: i64,
    /// Whether letters are kerned, spaces are only gaps, and `fi` is one letter, as layout programs draw them.
    pub(crate) is_kerned: bool,
    /// Whether lines are drawn round the cells of tables.
    pub(crate) has_lines: bool,
}

const LEFT: i64 = 60;
const RIGHT: i64 = 540;
const TOP: i64 = 740;
const BOTTOM: i64 = 60;
/// How far the rows of a table are apart, where they have one line.
const ROW: i64 = 18;
/// How far the columns of a table are apart, at least.
const GAP: i64 = 16;

impl Pdf {
    pub(crate) fn new() -> Pdf {
        Pdf::set(Setting::default())
    }

    pub(crate) fn set(setting: Setting) -> Pdf {
        Pdf { pages: vec![String::new()], y: TOP, setting }
    }

    pub(crate) fn space(&mut self, points: i64) {
        self.y -= points;
    }

    /// Moves down to the next line.
    fn next_line(&mut self, height: i64) {
        self.y -= height;
        if self.y < self.bottom() {
            self.pages.push(String::new());
            self.y = TOP - height;
        }
    }

    /// Lets the next lines stand on one page.
    fn keep(&mut self, lines: usize, height: i64) {
        if self.y - height * i64::try_from(lines).unwrap() < self.bottom() {
            self.y = self.bottom();
        }
    }

    fn bottom(&self) -> i64 {
        if self.setting.height == 0 { BOTTOM } else { TOP - self.setting.height }
    }

    /// Writes one line at a place of the page.
    pub(crate) fn at(&mut self, x: i64, y: i64, face: Face, size: i64, text: &str) {
        let font = if face == Face::Bold { "F2" } else { "F1" };
        let drawn = if self.setting.is_kerned { kerned(text) } else { format!("<{}> Tj", codes(text)) };
        let page = self.pages.last_mut().unwrap();
        *page += &format!("BT /{font} {size} Tf 1 0 0 1 {x} {y} Tm {drawn} ET\n");
    }

    fn line(&mut self, x: i64, face: Face, size: i64, text: &str) {
        let y = self.y;
        self.at(x, y, face, size, text);
    }

    /// Writes a paragraph, wrapped.
    pub(crate) fn paragraph(&mut self, text: &str, face: Face, size: i64, indent: i64) {
        self.space(size * 6 / 10);
        let lines = wrapped(text, (RIGHT - LEFT - indent) * 2 / size);
        let (count, height) = (lines.len(), size * 13 / 10);
        for (at, line) in lines.into_iter().enumerate() {
            // No line of a paragraph stands alone on a page.
            match at {
                0 => self.keep(if count <= 3 { count } else { 2 }, height),
                _ if count > 3 && at + 2 == count => self.keep(2, height),
                _ => {}
            }
            self.next_line(height);
            self.line(LEFT + indent, face, size, &line);
        }
    }

    /// Writes an item, its mark in the margin of its text.
    pub(crate) fn item(&mut self, mark: &str, text: &str, depth: i64) {
        let indent = 20 + 20 * depth;
        for (at, line) in wrapped(text, (RIGHT - LEFT - indent) * 2 / 11).into_iter().enumerate() {
            self.next_line(14);
            if at == 0 {
                self.line(LEFT + indent - 18, Face::Plain, 11, mark);
            }
            self.line(LEFT + indent, Face::Plain, 11, &line);
        }
    }

    /// Writes a table, the first row bold and said again on each page, its cells wrapped where it is too wide for the page.
    pub(crate) fn table(&mut self, rows: &[Vec<String>]) {
        self.space(8);
        let Columns { size, letters } = columns(rows);
        let mut starts = vec![LEFT];
        for count in &letters {
            starts.push(starts[starts.len() - 1] + count * size / 2 + GAP);
        }
        let wrap = |row: &Vec<String>| -> Vec<Vec<String>> {
            row.iter().zip(&letters).map(|(cell, letters)| wrapped(cell, *letters)).collect()
        };
        let rows: Vec<Vec<Vec<String>>> = rows.iter().map(wrap).collect();
        let lines = |row: &Vec<Vec<String>>| row.iter().map(Vec::len).max().unwrap_or(1);
        // The heads never stand alone at the end of a page.
        self.keep(rows.iter().take(2).map(lines).sum(), ROW);
        for (at, row) in rows.iter().enumerate() {
            let page = self.pages.len();
            self.keep(lines(row), ROW);
            self.next_line(ROW);
            if at > 0 && self.pages.len() > page {
                self.row(&rows[0], &starts, Face::Bold, size);
                self.next_line(ROW);
            }
            self.row(row, &starts, if at == 0 { Face::Bold } else { Face::Plain }, size);
        }
        self.space(8);
    }

    fn row(&mut self, row: &[Vec<String>], starts: &[i64], face: Face, size: i64) {
        let (top, leading) = (self.y, size * 12 / 10);
        let (high, mut low) = (top + ROW - 5, top);
        for (cell, x) in row.iter().zip(starts) {
            for (y, line) in (0..).map(|at| top - leading * at).zip(cell) {
                self.at(*x, y, face, size, line);
                low = low.min(y);
            }
        }
        self.y = low;
        if self.setting.has_lines {
            let low = low - 5;
            let (left, right) = (starts[0] - 4, starts[starts.len() - 1] - 4);
            let mut drawn = format!("{left} {low} m {right} {low} l S\n{left} {high} m {right} {high} l S\n");
            for x in starts {
                // Lines that are filled, a piece for each cell, as browsers draw them.
                drawn += &format!("{} {low} 1 {} re f\n", x - 4, high - low);
            }
            *self.pages.last_mut().unwrap() += &drawn;
        }
    }

    /// The file.
    pub(crate) fn finish(self) -> Vec<u8> {
        let pages: Vec<String> = self.pages;
        file_of_pages(&pages)
    }
}

/// How large the letters of a table are, and how many of them stand in a line of each column.
struct Columns {
    size: i64,
    letters: Vec<i64>,
}

/// The columns of a table: as wide as their cells, and narrower ones, the widest first, where a page is too narrow.
fn columns(rows: &[Vec<String>]) -> Columns {
    let count = rows.iter().map(Vec::len).max().unwrap_or(0);
    let most = |column: usize, length: &dyn Fn(&String) -> usize| {
        let cells = rows.iter().filter_map(|row| row.get(column));
        i64::try_from(cells.map(length).max().unwrap_or(0)).unwrap()
    };
    let letters_of = |text: &str| text.chars().count();
    let least: Vec<i64> =
        (0..count).map(|at| most(at, &|cell| cell.split(' ').map(letters_of).max().unwrap_or(0))).collect();
    let room = |size: i64| (RIGHT - LEFT - GAP * i64::try_from(count).unwrap()) * 2 / size;
    let size = [11, 9, 8, 7].into_iter().find(|size| least.iter().sum::<i64>() <= room(*size)).unwrap_or(6);
    let mut letters: Vec<i64> = (0..count).map(|at| most(at, &|cell| letters_of(cell))).collect();
    while letters.iter().sum::<i64>() > room(size) {
        let widest = (0..count).filter(|at| letters[*at] > least[*at]).max_by_key(|at| letters[*at]);
        let Some(widest) = widest else { break };
        letters[widest] -= 1;
    }
    Columns { size, letters }
}

fn codes(text: &str) -> String {
    text.chars().map(|ch| format!("{:04x}", u32::from(ch))).collect()
}

/// Text as an array of letters with what they are moved by; spaces are gaps alone, and `fi` is one letter.
fn kerned(text: &str) -> String {
    let mut drawn = String::from("[");
    for (at, word) in text.replace("fi", "\u{e0f1}").split(' ').enumerate() {
        if at > 0 {
            drawn += "-500 ";
        }
        for (at, letter) in word.chars().enumerate() {
            drawn += &format!("<{}> {} ", codes(&letter.to_string()), if at % 2 == 0 { 12 } else { -12 });
        }
    }
    drawn + "] TJ"
}

fn wrapped(text: &str, width: i64) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in text.split(' ') {
        let fits = |line: &String| i64::try_from(line.chars().count() + 1 + word.chars().count()).unwrap() <= width;
        match lines.last_mut() {
            Some(line) if fits(line) => {
                line.push(' ');
                line.push_str(word);
            }
            _ => lines.push(word.to_owned()),
        }
    }
    lines
}

/// A file whose pages draw these, with fonts whose codes are Unicode: `F1`, and `F2`, which is bold.
pub(crate) fn file_of_pages(pages: &[String]) -> Vec<u8> {
    let kids: String = (0..pages.len()).map(|page| format!("{} 0 R ", 10 + 2 * page)).collect();
    let to_unicode = "1 begincodespacerange <0000> <ffff> endcodespacerange 2 beginbfrange <0000> <e0f0> <0000> <e0f2> <ffff> <e0f2> endbfrange \
         1 beginbfchar <e0f1> <00660069> endbfchar";
    let font = |name: &str| {
        format!(
            "<< /Type /Font /Subtype /Type0 /BaseFont /{name} /Encoding /Identity-H /ToUnicode 5 0 R /DescendantFonts [<< \
             /Type /Font /Subtype /CIDFontType2 /BaseFont /{name} /DW 500 >>] >>"
        )
    };
    let mut objects = vec![
        (1, b"<< /Type /Catalog /Pages 2 0 R >>".to_vec()),
        (2, format!("<< /Type /Pages /Kids [{kids}] /Count {} /MediaBox [0 0 600 800] >>", pages.len()).into_bytes()),
        (3, font("Own-Regular").into_bytes()),
        (4, font("Own-Bold").into_bytes()),
        (5, stream("", to_unicode.as_bytes(), true)),
    ];
    for (at, page) in pages.iter().enumerate() {
        let number = 10 + 2 * at;
        let page_dictionary = format!(
            "<< /Type /Page /Parent 2 0 R /Resources << /Font << /F1 3 0 R /F2 4 0 R >> >> /Contents {} 0 R >>",
            number + 1
        );
        objects.push((number, page_dictionary.into_bytes()));
        objects.push((number + 1, stream("", page.as_bytes(), true)));
    }
    file(&objects, "/Root 1 0 R")
}

/// A stream with these entries, packed or not.
pub(crate) fn stream(entries: &str, bytes: &[u8], packed: bool) -> Vec<u8> {
    let (bytes, filter) = if packed { (deflated(bytes), "/Filter /FlateDecode") } else { (bytes.to_vec(), "") };
    let mut out = format!("<< {entries} {filter} /Length {} >>\nstream\n", bytes.len()).into_bytes();
    out.extend(bytes);
    out.extend(b"\nendstream");
    out
}

pub(crate) fn deflated(bytes: &[u8]) -> Vec<u8> {
    let mut encoder = ZlibEncoder::new(Vec::new(), Compression::best());
    encoder.write_all(bytes).unwrap();
    encoder.finish().unwrap()
}

/// A file of numbered objects, with its table.
pub(crate) fn file(objects: &[(usize, Vec<u8>)], trailer: &str) -> Vec<u8> {
    let mut out = b"%PDF-1.7\n%\xe2\xe3\xcf\xd3\n".to_vec();
    let mut table = String::new();
    for (number, object) in objects {
        table += &format!("{number} 1\n{:010} 00000 n \n", out.len());
        out.extend(format!("{number} 0 obj\n").into_bytes());
        out.extend(object);
        out.extend(b"\nendobj\n");
    }
    let start = out.len();
    out.extend(format!("xref\n0 1\n0000000000 65535 f \n{table}trailer\n<< /Size 1000 {trailer} >>\n").into_bytes());
    out.extend(format!("startxref\n{start}\n%%EOF\n").into_bytes());
    out
}
