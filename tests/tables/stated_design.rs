//! What a manuscript states of its design.

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
        stated.words("Blocks", &name, &block, &[("finished", "finished", As::Size)]);
    }
    for (size, layout) in stated.by_size(&whole["layout"]) {
        laid_out(stated, &size, &layout);
    }
}

/// A piece with the fabric that has it, also among the pieces of strips; one that several fabrics have by its name alone.
fn with_fabric(whole: &Value, piece: &str) -> Option<String> {
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
    for (index, border) in layout["borders"].as_sequence().into_iter().flatten().enumerate() {
        let row = |what: &str| format!("border {}, {what}", index + 1);
        stated.add(["Layout", &row("finished width"), "", size], &border["width"], As::Length);
        stated.add(["Layout", &row("corners"), "", size], &border["corners"], As::Keyword);
        stated.add(["Layout", &row("cut longer by"), "", size], &border["ease"], As::Length);
    }
}
