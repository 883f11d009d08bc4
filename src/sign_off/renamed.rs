//! Things that have another name than when a manuscript was signed: each is one change, however many values it has.

use std::collections::{BTreeMap, BTreeSet};

use super::stated::{BETWEEN, size_place};

/// How many names of one kind are looked at: where more are new, it is another manuscript.
const MAX_NAMES: usize = 100;

/// What a manuscript gives names to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Kind {
    Size,
    Fabric,
    Unit,
    Block,
    Piece,
}

const KINDS: [Kind; 5] = [Kind::Size, Kind::Fabric, Kind::Unit, Kind::Block, Kind::Piece];

/// A thing that has another name now.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Renamed {
    kind: Kind,
    /// What it is: `name of a size`.
    pub(super) what: &'static str,
    /// The words that lead to it now.
    pub(super) key: String,
    /// The size that it is, where it is one.
    pub(super) size: Option<String>,
    /// Its name when the manuscript was signed.
    pub(super) was: String,
    /// Its name now.
    pub(super) is: String,
}

impl Renamed {
    /// Words that led to a value, with the name that the thing has now.
    pub(super) fn path(&self, key: &str) -> String {
        self.kind.rename(key, "", &self.was, &self.is).0
    }
}

/// The signed values under the names that things have now, and the things that have another. `means` says whether two
/// values under one key say the same.
pub(super) fn renamed(
    signed: &BTreeMap<String, String>,
    now: &BTreeMap<String, String>,
    means: impl Fn(&str, &str, &str) -> bool,
) -> (BTreeMap<String, String>, Vec<Renamed>) {
    let mut signed = signed.clone();
    let mut all = Vec::new();
    for kind in KINDS {
        let (before, after) = (kind.names(&signed), kind.names(now));
        let gone: BTreeSet<&str> = before.difference(&after).map(String::as_str).collect();
        let mut new: BTreeSet<&str> = after.difference(&before).map(String::as_str).collect();
        if gone.is_empty() || new.is_empty() || gone.len().max(new.len()) > MAX_NAMES {
            continue;
        }
        let (was, is) = (kind.values(&signed, &gone), kind.values(now, &new));
        let mut pairs = Vec::new();
        for name in gone {
            let likest = new.iter().map(|other| (likeness(&was[name], &is[*other], &means), *other));
            let likest = likest.filter(|(likeness, _)| *likeness > 50).max_by_key(|(likeness, _)| *likeness);
            if let Some((_, other)) = likest {
                new.remove(other);
                pairs.push((name.to_string(), other.to_string()));
            }
        }
        for (was, is) in pairs {
            all.push(kind.renamed(now, &was, &is));
            signed = signed.iter().map(|(key, value)| kind.rename(key, value, &was, &is)).collect();
        }
    }
    (signed, all)
}

/// How many in a hundred of the values of two things are the same.
fn likeness(
    was: &BTreeMap<String, String>,
    is: &BTreeMap<String, String>,
    means: impl Fn(&str, &str, &str) -> bool,
) -> usize {
    let same = was.iter().filter(|(key, value)| is.get(*key).is_some_and(|now| means(key, value, now))).count();
    let all = was.len() + is.len() - was.keys().filter(|key| is.contains_key(*key)).count();
    same * 100 / all.max(1)
}

impl Kind {
    const fn what(self) -> &'static str {
        match self {
            Kind::Size => "name of a size",
            Kind::Fabric => "name of a fabric",
            Kind::Unit => "name of a unit",
            Kind::Block => "name of a block",
            Kind::Piece => "name of a piece",
        }
    }

    /// The names of this kind that a manuscript gives.
    fn names(self, values: &BTreeMap<String, String>) -> BTreeSet<String> {
        let named = values.keys().filter_map(|key| {
            let path: Vec<&str> = key.split(BETWEEN).collect();
            match (self, &path[..]) {
                (Kind::Size, ["sizes", name, ..])
                | (Kind::Fabric, ["fabrics", name, ..])
                | (Kind::Unit, ["units", name, ..])
                | (Kind::Block, ["blocks", name, ..])
                | (Kind::Piece, ["fabrics", _, "cut", name, ..]) => Some((*name).to_string()),
                _ => None,
            }
        });
        named.collect()
    }

    /// The place of a name among the words that lead to a value.
    fn place(self, path: &[&str]) -> Option<usize> {
        match (self, path) {
            (Kind::Size, _) => size_place(path),
            (Kind::Fabric, ["fabrics", ..]) | (Kind::Unit, ["units", ..]) | (Kind::Block, ["blocks", ..]) => Some(1),
            (Kind::Block, ["layout", _, "blocks", _]) | (Kind::Piece, ["fabrics", _, "cut", _, ..]) => Some(3),
            _ => None,
        }
    }

    /// Whether a value is the name of such a thing.
    fn is_named_by(self, path: &[&str]) -> bool {
        match self {
            Kind::Size => matches!(path, ["accepted", _, "size"]),
            Kind::Fabric => matches!(path, ["binding", "from"] | ["accepted", _, "fabric"]),
            Kind::Unit => matches!(
                path,
                ["blocks", _, "rows", ..]
                    | ["layout", _, "side_triangles" | "corner_triangles"]
                    | ["layout", _, "borders", _, "of"]
                    | ["accepted", _, "unit"]
            ),
            Kind::Block => {
                matches!(path, ["layout", _, "blocks"] | ["blocks", _, "rows", ..] | ["accepted", _, "block"])
            }
            Kind::Piece => matches!(
                path,
                ["fabrics", _, "cut", _, "piece"]
                    | ["units", _, "cut", ..]
                    | ["layout", _, "sash" | "long_sash" | "cornerstone"]
                    | ["layout", _, "borders", _, "piece" | "piece_across" | "cornerstone"]
                    | ["accepted", _, "piece"]
            ),
        }
    }

    /// The values of each of these things, by the words that lead to them with its name left out.
    fn values(
        self,
        all: &BTreeMap<String, String>,
        names: &BTreeSet<&str>,
    ) -> BTreeMap<String, BTreeMap<String, String>> {
        let mut values: BTreeMap<String, BTreeMap<String, String>> =
            names.iter().map(|name| ((*name).to_string(), BTreeMap::new())).collect();
        for (key, value) in all {
            let path: Vec<&str> = key.split(BETWEEN).collect();
            let name = self.place(&path).and_then(|place| path.get(place)).filter(|name| names.contains(*name));
            if let Some(own) = name.and_then(|name| values.get_mut(*name)) {
                let (key, value) = self.rename(key, value, name.map_or("", |name| name), "");
                own.insert(key, value);
            }
        }
        values
    }

    /// A value under the name that the thing has now.
    fn rename(self, key: &str, value: &str, was: &str, is: &str) -> (String, String) {
        let mut path: Vec<&str> = key.split(BETWEEN).collect();
        let named = self.is_named_by(&path);
        let acceptance = matches!(path[..], ["accepted", _, ..]).then(|| renamed_in_words(path[1], was, is));
        if let Some(place) = self.place(&path).filter(|place| path.get(*place) == Some(&was)) {
            path[place] = is;
        }
        if let Some(acceptance) = &acceptance {
            path[1] = acceptance;
        }
        let value = match value.strip_prefix(was) {
            Some("") if named => is.to_string(),
            Some(" turned") if named => format!("{is} turned"),
            _ => value.to_string(),
        };
        (path.join(BETWEEN), value)
    }

    fn renamed(self, now: &BTreeMap<String, String>, was: &str, is: &str) -> Renamed {
        let leads_to = |key: &&String| {
            let path: Vec<&str> = key.split(BETWEEN).collect();
            // A size is named where the sizes are listed, and not where a piece is cut for it.
            let first = match self {
                Kind::Size => path[0] == "sizes",
                _ => matches!(path[0], "fabrics" | "units" | "blocks"),
            };
            first && self.place(&path).and_then(|place| path.get(place)) == Some(&is)
        };
        let key = now.keys().find(leads_to).map(|key| {
            let path: Vec<&str> = key.split(BETWEEN).collect();
            let end = self.place(&path).unwrap_or_default();
            let named = path[..=end].join(BETWEEN);
            match self {
                Kind::Piece => format!("{named}{BETWEEN}piece"),
                _ => named,
            }
        });
        let size = (self == Kind::Size).then(|| is.to_string());
        let key = key.unwrap_or_default();
        Renamed { kind: self, what: self.what(), key, size, was: was.to_string(), is: is.to_string() }
    }
}

/// The name of an acceptance, which has the names of what is accepted in it.
fn renamed_in_words(name: &str, was: &str, is: &str) -> String {
    let Some((before, after)) = name.split_once(&format!(" {was}")) else { return name.to_string() };
    if after.is_empty() || after.starts_with(' ') { format!("{before} {is}{after}") } else { name.to_string() }
}
