//! The weights of the signs by which numbers of printed texts are known: a sign and its weight in each line.

use std::collections::BTreeMap;
use std::fmt::Write;

use super::digest::with_word;

/// The weights as Rust, by their digests.
pub(super) fn code(text: &str) -> Result<String, String> {
    let mut weights: BTreeMap<u64, (&str, i16)> = BTreeMap::new();
    for (line, number) in text.lines().zip(1..) {
        if line.starts_with('#') || line.is_empty() {
            continue;
        }
        let (sign, weight) = line.rsplit_once('\t').ok_or(format!("{number}: a sign, a tab and its weight"))?;
        let weight = weight.parse().map_err(|error| format!("{number}: {weight}: {error}"))?;
        if let Some((other, _)) = weights.insert(sign.split(' ').fold(0, with_word), (sign, weight)) {
            return Err(format!("{number}: {sign:?} has the digest of {other:?}"));
        }
    }
    let mut code = String::from("const WEIGHTS: &[(u64, i16)] = &[\n");
    for (digest, (_, weight)) in weights {
        let [a, b, c, d] = [48, 32, 16, 0].map(|bits| digest >> bits & 0xffff);
        writeln!(code, "    (0x{a:04x}_{b:04x}_{c:04x}_{d:04x}, {weight}),").map_err(|error| error.to_string())?;
    }
    code.push_str("];\n");
    Ok(code)
}
