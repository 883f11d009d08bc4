//! Damage to bytes, whatever they mean.

use super::MAX_LENGTH;
use crate::rng::Rng;

/// The bytes with a few of them changed.
pub(super) fn damaged(rng: &mut Rng, input: &[u8], other: &[u8]) -> Vec<u8> {
    let mut bytes = input.to_vec();
    for _ in 0..rng.between(1, 6) {
        let at = rng.below(bytes.len() + 1);
        match rng.below(6) {
            0 => bytes.insert(at, random(rng)),
            1 if at < bytes.len() => drop(bytes.remove(at)),
            2 if at < bytes.len() => bytes[at] = random(rng),
            3 if at < bytes.len() => bytes[at] ^= 1 << rng.below(8),
            4 => bytes.truncate(at),
            _ => {
                let from = rng.below(other.len() + 1);
                let to = (from + rng.below(32)).min(other.len());
                bytes.splice(at..at, other[from..to].iter().copied());
            }
        }
    }
    bytes.truncate(MAX_LENGTH);
    bytes
}

/// Any byte; often one that UTF-8 has no place for, or a bound.
fn random(rng: &mut Rng) -> u8 {
    if rng.one_in(3) {
        *rng.pick(&[0, 0x7f, 0x80, 0xbf, 0xc0, 0xed, 0xf5, 0xff])
    } else {
        rng.number().to_le_bytes()[0]
    }
}
