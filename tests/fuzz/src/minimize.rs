//! Making an input that fails shorter, as long as it fails in the same way.

use crate::guard::attempt;
use crate::pool::Seen;
use crate::targets::Target;

/// How many shorter inputs are tried.
const MAX_TRIED: usize = 3000;

/// The shortest input that was found to fail in the same way.
pub fn minimize(target: &Target, input: &[u8], kind: &str) -> Vec<u8> {
    let mut shortest = input.to_vec();
    let mut left = MAX_TRIED;
    loop {
        let before = shortest.len();
        let lines: Vec<Vec<u8>> = shortest.split_inclusive(|byte| *byte == b'\n').map(<[u8]>::to_vec).collect();
        shortest = without_parts(target, lines, kind, &mut left);
        if shortest.len() < 400 {
            let text = String::from_utf8_lossy(&shortest).into_owned();
            let letters: Vec<Vec<u8>> = if text.as_bytes() == shortest {
                text.chars().map(|c| c.to_string().into_bytes()).collect()
            } else {
                shortest.iter().map(|byte| vec![*byte]).collect()
            };
            shortest = without_parts(target, letters, kind, &mut left);
        }
        if shortest.len() == before || left == 0 {
            return shortest;
        }
    }
}

/// What is left without the parts that the failure does not need: halves first, then quarters and so on.
fn without_parts(target: &Target, mut parts: Vec<Vec<u8>>, kind: &str, left: &mut usize) -> Vec<u8> {
    let mut size = parts.len().div_ceil(2);
    while size > 0 {
        let mut start = 0;
        while start < parts.len() && *left > 0 {
            *left -= 1;
            let end = (start + size).min(parts.len());
            let shorter = [&parts[..start], &parts[end..]].concat();
            if attempt(target, &shorter.concat(), &mut Seen::default()).is_err_and(|failure| failure.kind == kind) {
                parts = shorter;
            } else {
                start = end;
            }
        }
        size = if size == 1 { 0 } else { size.div_ceil(2) };
    }
    parts.concat()
}
