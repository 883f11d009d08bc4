//! The digests by which signs are known. The build makes them of the words of the weights, and the program of what it finds.

/// The digest of a word: eight bytes at a time, what is left of it, and its length.
#[inline]
pub(super) const fn of_word(word: &str) -> u64 {
    let (mut parts, rest) = word.as_bytes().as_chunks::<8>();
    let mut digest = few(rest);
    while let [part, others @ ..] = parts {
        digest = mix(digest, u64::from_le_bytes(*part));
        parts = others;
    }
    mix(digest, word.len() as u64)
}

/// At most seven bytes as a number: the first four and the last four, or three of the few that there are.
#[inline]
const fn few(bytes: &[u8]) -> u64 {
    if let (Some(first), Some(last)) = (bytes.first_chunk::<4>(), bytes.last_chunk::<4>()) {
        return u32::from_le_bytes(*first) as u64 | (u32::from_le_bytes(*last) as u64) << 32;
    }
    match bytes {
        [] => 0,
        [only] => *only as u64,
        [first, .., last] => *first as u64 | (bytes[bytes.len() / 2] as u64) << 8 | (*last as u64) << 16,
    }
}

/// A digest with another more.
#[inline]
pub(super) const fn mix(digest: u64, part: u64) -> u64 {
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
