//! A whole number and a fraction that run together for want of a space: `41/2` for `4 1/2`.

use std::ops::Range;

use super::common_divisor;
use super::digits::{is_plain, is_slash, whole_number};

/// A fraction above one that a space would make another plausible number, with a denominator that rulers have.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RunTogether {
    /// Where it stands in the text, in bytes.
    pub at: Range<usize>,
    /// What it is as it is written: `20 1/2`.
    pub read_as: String,
    /// What it would be with a space: `4 1/2`.
    pub meant: String,
}

/// The first such fraction of a quantity that was read.
pub fn run_together(text: &str) -> Option<RunTogether> {
    // Most quantities have no fraction, or one with a digit above its line.
    if text.bytes().all(|byte| byte.is_ascii() && byte != b'/') {
        return None;
    }
    let is_before_slash = |letters: &[u8]| letters[0].is_ascii_digit() && letters[2] == b'/';
    if text.is_ascii() && !text.as_bytes().windows(3).any(is_before_slash) {
        return None;
    }
    let mut slashes = text.char_indices().filter(|(_, c)| is_slash(*c));
    slashes.find_map(|(at, slash)| at_slash(text, at, at + slash.len_utf8()))
}

fn at_slash(text: &str, slash: usize, after: usize) -> Option<RunTogether> {
    // One digit is no two numbers.
    if !text[..slash].chars().rev().nth(1).is_some_and(is_plain) {
        return None;
    }
    let before = text[..slash].trim_end_matches(is_plain);
    let (start, rest) = (before.len(), &text[after..]);
    let end = after + rest.len() - rest.trim_start_matches(is_plain).len();
    // After a whole number the fraction is less than one, or the text was not read.
    if before.trim_end().ends_with(|c| is_plain(c) || matches!(c, '-' | '‐' | '‑' | '–')) {
        return None;
    }
    let (top, over) = (whole_number(&text[start..slash])?, whole_number(&text[after..end])?);
    if !matches!(over, 2..=6 | 8 | 16 | 32 | 64) || top <= over {
        return None;
    }
    let splits = std::iter::successors(Some(10), |ten: &u64| Some(ten * 10)).take_while(|ten| *ten <= top);
    // People write fractions in lowest terms; of several readings the one with the smallest whole number.
    let plausible = |ten: u64| {
        let (whole, part) = (top / ten, top % ten);
        (part >= ten / 10 && part < over && divisor(part, over) == 1).then(|| format!("{whole} {part}/{over}"))
    };
    let meant = splits.filter_map(plausible).last()?;
    Some(RunTogether { at: start..end, read_as: mixed(top, over), meant })
}

/// A fraction above one as a whole number and a fraction in lowest terms.
fn mixed(top: u64, over: u64) -> String {
    let divisor = divisor(top, over);
    let (top, over) = (top / divisor, over / divisor);
    if over == 1 { top.to_string() } else { format!("{} {}/{over}", top / over, top % over) }
}

fn divisor(a: u64, b: u64) -> u64 {
    u64::try_from(common_divisor(i128::from(a), i128::from(b))).unwrap_or(1)
}
