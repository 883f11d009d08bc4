//! The digests by which signs are known. The build makes them of the words of the weights, and the program of what it finds.

/// A digest with a word more: eight bytes at a time are mixed in, what is left of it, and its length.
#[inline]
pub(super) fn with_word(digest: u64, word: &str) -> u64 {
    let (parts, rest) = word.as_bytes().as_chunks::<8>();
    let digest = parts.iter().fold(digest, |digest, part| mix(digest, u64::from_le_bytes(*part)));
    mix(mix(digest, few(rest)), word.len() as u64)
}

/// At most seven bytes as a number: the first four and the last four, or three of the few that there are.
#[inline]
fn few(bytes: &[u8]) -> u64 {
    if let (Some(first), Some(last)) = (bytes.first_chunk::<4>(), bytes.last_chunk::<4>()) {
        return u64::from(u32::from_le_bytes(*first)) | u64::from(u32::from_le_bytes(*last)) << 32;
    }
    match bytes {
        [] => 0,
        [only] => u64::from(*only),
        [first, .., last] => u64::from(*first) | u64::from(bytes[bytes.len() / 2]) << 8 | u64::from(*last) << 16,
    }
}

#[inline]
const fn mix(digest: u64, part: u64) -> u64 {
    (digest.rotate_left(5) ^ part).wrapping_mul(0x9e37_79b9_7f4a_7c15)
}

/// A digest whose bits all depend on all that has gone into it.
#[inline]
const fn stirred(digest: u64) -> u64 {
    let digest = (digest ^ digest >> 32).wrapping_mul(0xd6e8_feb8_6659_fd93);
    digest ^ digest >> 32
}

/// What a table of signs knows a digest by besides its place; nothing is known by none.
#[allow(clippy::cast_possible_truncation)] // Only some bits are asked for.
#[inline]
pub(super) const fn tag(digest: u64) -> u32 {
    stirred(digest) as u32
}

/// Where a digest stands in a table whose length is a power of two, or the first free place from its own.
#[inline]
pub(super) fn find(tags: &[u32], digest: u64) -> usize {
    let last = tags.len() - 1;
    let tag = tag(digest);
    #[allow(clippy::cast_possible_truncation)] // As in [`tag`].
    let mut at = (stirred(digest) >> 40) as usize & last;
    while tags[at] != tag && tags[at] != 0 {
        at = (at + 1) & last;
    }
    at
}
