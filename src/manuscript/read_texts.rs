//! Reading the printed texts that a manuscript names.

use std::path::{Component, Path};

use super::reader::Reader;
use super::tree::{Entry, Kind, Node};
use super::{MistakeKind, Spanned};

/// How many texts a manuscript may name.
pub(super) const MAX_TEXTS: usize = 20;

const EXAMPLE: &str = "texts: [harbor-lights.md]";

pub(super) fn read_texts(reader: &mut Reader, entry: &Entry<'_>) -> Vec<Spanned<String>> {
    let nodes = match &entry.value.kind {
        Kind::List(nodes) => nodes,
        Kind::Empty | Kind::Unread => return Vec::new(),
        Kind::Scalar { .. } | Kind::Table(_) => {
            let expected = "a list of files, each after a dash or in brackets";
            reader.report(entry.key_at, MistakeKind::WrongShape { word: "texts".into(), expected, example: EXAMPLE });
            return Vec::new();
        }
    };
    if let Some(beyond) = nodes.get(MAX_TEXTS) {
        let why = format!("a manuscript may name {MAX_TEXTS} texts at most; this one and what follows are not read");
        reader.report(beyond.start(), MistakeKind::TooMany { why });
    }
    nodes.iter().take(MAX_TEXTS).filter_map(|node| read_one(reader, node)).collect()
}

/// A file by its path from the manuscript's folder, which leads nowhere else.
fn read_one(reader: &mut Reader, node: &Node<'_>) -> Option<Spanned<String>> {
    let named = reader.text(node).stated()?.clone();
    let leads_below = |component: Component<'_>| matches!(component, Component::Normal(_) | Component::CurDir);
    let is_below = Path::new(&named.value).components().all(leads_below);
    // A path of another system is no name of a file here.
    if !is_below || named.value.contains('\\') || named.value.contains(':') {
        let why = format!("{} does not lead to a file in this manuscript's folder or below it", named.value);
        let mend = "Put the text beside the manuscript, and write its name, or folder/name";
        reader.report(named.at, MistakeKind::CannotBe { why, mend });
        return None;
    }
    Some(named)
}
