//! The pages of a PDF: what each inherits from the tree that it hangs on.

use std::collections::BTreeSet;
use std::rc::Rc;

use super::content::View;
use super::file::File;
use super::fixed::{Matrix, ONE, number};
use super::object::{Dictionary, Object};

/// How many pages are read.
const MAX_PAGES: usize = 1000;
/// How deep the tree of pages may be.
const MAX_DEPTH: usize = 48;

/// A page, with what it inherits.
pub(super) struct Page {
    pub(super) dictionary: Rc<Dictionary>,
    pub(super) resources: Rc<Dictionary>,
    pub(super) view: View,
}

/// The pages in their order, as many as are read.
pub(super) fn pages(file: &File) -> Vec<Page> {
    let mut pages = Vec::new();
    let Some(root) = file.dictionary(&file.trailer(), b"Root") else { return pages };
    let mut seen = BTreeSet::new();
    let inherited = Inherited::default();
    // Those that are still to be read, the next one last.
    let mut next: Vec<(Object, Inherited, usize)> =
        root.get(b"Pages".as_slice()).map(|tree| (tree.clone(), inherited, 0)).into_iter().collect();
    while let Some((object, inherited, depth)) = next.pop() {
        if let Object::Reference(number) = object
            && !seen.insert(number)
        {
            continue;
        }
        let Some(dictionary) = file.resolve(&object).dictionary().cloned() else { continue };
        let inherited = inherited.with(file, &dictionary);
        match file.get(&dictionary, b"Kids") {
            Some(Object::Array(kids)) if depth < MAX_DEPTH => {
                let left = (4 * MAX_PAGES).saturating_sub(next.len());
                let kids = kids.iter().take(left).rev();
                next.extend(kids.map(|kid| (kid.clone(), inherited.clone(), depth + 1)));
            }
            Some(_) => {}
            None if pages.len() < MAX_PAGES => pages.push(inherited.page(dictionary)),
            None => break,
        }
    }
    pages
}

/// What pages take over from above.
#[derive(Clone, Default)]
struct Inherited {
    resources: Option<Rc<Dictionary>>,
    media: Option<[i64; 4]>,
    crop: Option<[i64; 4]>,
    turned: i64,
}

impl Inherited {
    fn with(&self, file: &File, dictionary: &Dictionary) -> Inherited {
        let turned = file.get(dictionary, b"Rotate").as_ref().and_then(number);
        Inherited {
            resources: file.dictionary(dictionary, b"Resources").or_else(|| self.resources.clone()),
            media: corners(file, dictionary, b"MediaBox").or(self.media),
            crop: corners(file, dictionary, b"CropBox").or(self.crop),
            turned: turned.map_or(self.turned, |degrees| degrees >> 16),
        }
    }

    fn page(self, dictionary: Rc<Dictionary>) -> Page {
        let [left, bottom, right, top] = self.crop.or(self.media).unwrap_or([0, 0, 612 * ONE, 792 * ONE]);
        let turn = match self.turned.rem_euclid(360) {
            90 => [0, -ONE, ONE, 0, 0, 0],
            180 => [-ONE, 0, 0, -ONE, 0, 0],
            270 => [0, ONE, -ONE, 0, 0, 0],
            _ => Matrix::IDENTITY.0,
        };
        Page {
            dictionary,
            resources: self.resources.unwrap_or_default(),
            view: View { left, right, bottom, top, turn: Matrix(turn) },
        }
    }
}

fn corners(file: &File, dictionary: &Dictionary, key: &[u8]) -> Option<[i64; 4]> {
    let corners = file.get(dictionary, key)?;
    let corners: Vec<i64> = corners.array()?.iter().map_while(|corner| number(&file.resolve(corner))).collect();
    let [x0, y0, x1, y1] = *corners.as_slice() else { return None };
    Some([x0.min(x1), y0.min(y1), x0.max(x1), y0.max(y1)])
}

/// What a page draws, its pieces one after the other.
pub(super) fn content(file: &File, page: &Dictionary) -> Vec<u8> {
    let pieces = match file.get(page, b"Contents") {
        Some(Object::Array(pieces)) => pieces.iter().take(4096).cloned().collect(),
        Some(piece) => vec![piece],
        None => Vec::new(),
    };
    let mut content = Vec::new();
    for piece in pieces {
        if let Object::Stream(stream) = file.resolve(&piece)
            && let Some(bytes) = file.unpacked(&stream)
        {
            content.extend_from_slice(&bytes);
            content.push(b'\n');
        }
    }
    content
}
