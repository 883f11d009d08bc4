//! The weights of the signs by which numbers of printed texts are known: a sign and its weight in each line.

use std::collections::BTreeMap;
use std::fmt::Write;

/// The digest of a sign, as the program makes it of its words.
fn digest(sign: &str) -> u64 {
    let mix = |digest: u64, part: u64| (digest.rotate_left(5) ^ part).wrapping_mul(0x9e37_79b9_7f4a_7c15);
    let part = |bytes: &[u8]| bytes.iter().rev().fold(0, |part, byte| part << 8 | u64::from(*byte));
    sign.split(' ').fold(0, |digest, word| {
        let digest = word.as_bytes().chunks(8).fold(digest, |digest, bytes| mix(digest, part(bytes)));
        mix(digest, word.len() as u64)
    })
}

/// The weights as Rust, by their digests.
pub(super) fn code(text: &str) -> Result<String, String> {
    let mut weights: BTreeMap<u64, (&str, i16)> = BTreeMap::new();
    for (line, number) in text.lines().zip(1..) {
        if line.starts_with('#') || line.is_empty() {
            continue;
        }
        let (sign, weight) = line.rsplit_once('\t').ok_or(format!("{number}: a sign, a tab and its weight"))?;
        let weight = weight.parse().map_err(|error| format!("{number}: {weight}: {error}"))?;
        if let Some((other, _)) = weights.insert(digest(sign), (sign, weight)) {
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
