//! The weights of the signs by which numbers of printed texts are known: a sign and its weight in each line.

use std::collections::BTreeMap;
use std::fmt::{Display, Write};

use super::digest::{find, mix, of_word, tag};

/// The weights as Rust, in a table in which each stands at the first free place from its own.
pub(super) fn code(text: &str) -> Result<String, String> {
    let mut signs: BTreeMap<u64, (&str, i16)> = BTreeMap::new();
    for (line, number) in text.lines().zip(1..) {
        if line.starts_with('#') || line.is_empty() {
            continue;
        }
        let (sign, weight) = line.rsplit_once('\t').ok_or(format!("{number}: a sign, a tab and its weight"))?;
        let weight = weight.parse().map_err(|error| format!("{number}: {weight}: {error}"))?;
        if let Some((other, _)) = signs.insert(sign.split(' ').map(of_word).fold(0, mix), (sign, weight)) {
            return Err(format!("{number}: {sign:?} has the digest of {other:?}"));
        }
    }
    let mut tags: Vec<u32> = vec![0; (signs.len() * 2).next_power_of_two()];
    let mut weights: Vec<i16> = vec![0; tags.len()];
    for (digest, (sign, weight)) in signs {
        let at = find(&tags, digest);
        if tag(digest) == 0 || tags[at] != 0 {
            return Err(format!("0: {sign:?} cannot be told from another: change how signs are digested"));
        }
        (tags[at], weights[at]) = (tag(digest), weight);
    }
    let mut code = format!("pub(super) const SIGNS: usize = {};\n", tags.len());
    table(&mut code, "TAGS: [u32; SIGNS]", &tags)?;
    table(&mut code, "WEIGHTS: [i16; SIGNS]", &weights)?;
    Ok(code)
}

fn table(code: &mut String, name: &str, items: &[impl Display]) -> Result<(), String> {
    let rows = items.chunks(16).map(|row| row.iter().map(|item| format!("{item}, ")).collect::<String>());
    let rows: Vec<String> = rows.collect();
    writeln!(code, "pub(super) static {name} = [\n    {}\n];", rows.join("\n    ")).map_err(|error| error.to_string())
}
