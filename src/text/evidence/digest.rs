//! The digests by which signs are known. The build makes them of the words of the weights, and the program of what it finds.

/// A digest with a word more: eight bytes at a time are mixed in, and the word's length.
pub(super) fn with_word(digest: u64, word: &str) -> u64 {
    let (parts, rest) = word.as_bytes().as_chunks::<8>();
    let digest = parts.iter().fold(digest, |digest, part| mix(digest, u64::from_le_bytes(*part)));
    let digest = if rest.is_empty() {
        digest
    } else {
        let mut part = [0; 8];
        part[..rest.len()].copy_from_slice(rest);
        mix(digest, u64::from_le_bytes(part))
    };
    mix(digest, word.len() as u64)
}

const fn mix(digest: u64, part: u64) -> u64 {
    (digest.rotate_left(5) ^ part).wrapping_mul(0x9e37_79b9_7f4a_7c15)
}
