//! What a manuscript states of its design.

use std::collections::BTreeMap;

use serde_yaml::Value;

use super::stated::{As, Stated, named, scalar};

pub(crate) fn design(stated: &mut Stated, whole: &Value) {
    for (name, unit) in named(&whole["units"]) {
        let words = [
            ("make", "made as", As::Keyword),
            ("method", "method", As::Keyword),
            ("finished", "finished", As::Size),
            ("trim", "trimmed to", As::Size),
            ("segment", "segments cut", As::Length),
            ("yields", "one set gives", As::Count),
            ("seam", "seam", As::Length),
        ];
        stated.words("Units", &name, &unit, &words);
        for (part, from) in named(&unit["cut"]) {
            stated.add(["Pieces of the units", &name, "part", ""], &part.into(), As::Text);
            let from = scalar(&from);
            let is_size = from.starts_with(|c: char| c.is_ascii_digit());
            let otherwise = if is_size { stated.shown(&from, As::Size) } else { "?".to_string() };
            let shown = with_fabric(whole, &from).unwrap_or(otherwise);
            stated.add(["Pieces of the units", &name, "cut from", ""], &shown.into(), As::Text);
        }
    }
    for (name, block) in named(&whole["blocks"]) {
        let blocks = named(&whole["blocks"]).into_iter();
        let like = blocks.filter(|_| block["like"].is_string()).find(|(other, _)| *other == scalar(&block["like"]));
        let Some((like, sewn)) = like else {
            stated.words("Blocks", &name, &block, &[("finished", "finished", As::Size)]);
            continue;
        };
        stated.words("Blocks", &name, &sewn, &[("finished", "finished", As::Size)]);
        let with = named(&block["with"]).into_iter().map(|(from, to)| format!("{} for {from}", scalar(&to)));
        let sewn_as = format!("{like}, with {}", with.collect::<Vec<_>>().join(", "));
        stated.add(["Blocks", &name, "sewn as", ""], &sewn_as.into(), As::Text);
    }
    for (size, layout) in stated.by_size(&whole["layout"]) {
        laid_out(stated, &size, &layout);
    }
}

/// A piece with the fabric that has it, also among the pieces of strips; one that several fabrics have by its name alone,
/// where the fabric does not stand before it.
fn with_fabric(whole: &Value, piece: &str) -> Option<String> {
    let before = |fabric: &str| piece.strip_prefix(fabric).and_then(|rest| rest.strip_prefix(' '));
    let fabric = named(&whole["fabrics"]).into_iter().find_map(|(name, _)| Some((before(&name)?.to_string(), name)));
    if let Some((piece, fabric)) = fabric {
        return Some(format!("{piece}, of {fabric}"));
    }
    let has = |fabric: &Value| {
        fabric["cut"].as_sequence().into_iter().flatten().any(|cut| {
            let members = cut["subcut"].as_sequence().into_iter().flatten();
            std::iter::once(cut).chain(members).any(|cut| cut["piece"].is_string() && scalar(&cut["piece"]) == piece)
        })
    };
    let fabrics: Vec<(String, Value)> =
        named(&whole["fabrics"]).into_iter().filter(|(_, fabric)| has(fabric)).collect();
    match fabrics.as_slice() {
        [] => None,
        [(name, _)] => Some(format!("{piece}, of {name}")),
        _ => Some(piece.to_string()),
    }
}

fn laid_out(stated: &mut Stated, size: &str, layout: &Value) {
    let words = [
        ("set", "setting", As::Keyword),
        ("across", "blocks across", As::Count),
        ("down", "blocks down", As::Count),
        ("sashing", "sashing, finished width", As::Length),
        ("sashing_round", "sashing around the blocks", As::Keyword),
        ("cornerstones", "cornerstones", As::Keyword),
    ];
    for (word, row, kind) in words {
        stated.add(["Layout", row, "", size], &layout[word], kind);
    }
    match &layout["blocks"] {
        Value::Mapping(_) => {
            for (block, count) in named(&layout["blocks"]) {
                stated.add(["Layout", &format!("blocks of {block}"), "", size], &count, As::Count);
            }
        }
        one => stated.add(["Layout", "blocks", "", size], one, As::Text),
    }
    for (block, count) in in_rows(layout) {
        stated.add(["Layout", &format!("blocks of {block}"), "", size], &Value::from(count), As::Count);
    }
    for (index, border) in layout["borders"].as_sequence().into_iter().flatten().enumerate() {
        let row = |what: &str| format!("border {}, {what}", index + 1);
        if border["width"].is_mapping() {
            for (side, at) in [("sides", "at the sides"), ("top", "at the top"), ("bottom", "at the bottom")] {
                let row = format!("{} {at}", row("finished width"));
                stated.add(["Layout", &row, "", size], &border["width"][side], As::Length);
            }
        } else {
            stated.add(["Layout", &row("finished width"), "", size], &border["width"], As::Length);
        }
        stated.add(["Layout", &row("corners"), "", size], &border["corners"], As::Keyword);
        stated.add(["Layout", &row("cut longer by"), "", size], &border["ease"], As::Length);
    }
}

/// How many of each block the rows and columns of a layout have: of `6 star` six, of `half` one.
fn in_rows(layout: &Value) -> BTreeMap<String, u64> {
    let times = layout["times"].as_u64().unwrap_or(1);
    let rows = ["rows", "columns"].into_iter().flat_map(|word| layout[word].as_sequence().cloned().unwrap_or_default());
    let mut counts = BTreeMap::new();
    for item in rows.flat_map(|row| row.as_sequence().cloned().unwrap_or_default()) {
        let text = scalar(&item);
        let text = text.strip_suffix(" turned").unwrap_or(&text);
        let (count, block) = match text.split_once(' ') {
            Some((count, block)) if count.parse::<u64>().is_ok() => (count.parse().unwrap_or_default(), block),
            _ => (1, text),
        };
        *counts.entry(block.to_string()).or_insert(0) += count * times;
    }
    counts
}
