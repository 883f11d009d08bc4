//! Unpacking the bytes of streams, with a bound on what comes of them.

use std::io::Read;

use flate2::read::{DeflateDecoder, ZlibDecoder};

use super::object::{Object, is_space};

/// What a predictor needs to know.
#[derive(Clone, Copy, Debug)]
pub(super) struct Prediction {
    pub(super) predictor: usize,
    pub(super) colors: usize,
    pub(super) bits: usize,
    pub(super) columns: usize,
    /// Whether LZW codes grow a step early, as they do unless a file says otherwise.
    pub(super) early: bool,
}

/// Whether a filter is one that [`unpack`] knows: all others are for pictures.
pub(super) fn is_for_text(filter: &Object) -> bool {
    unpack(filter, &[], Prediction { predictor: 1, colors: 1, bits: 8, columns: 1, early: true }, 1).is_some()
}

/// Unpacks bytes by one filter, as far as they can be unpacked, or says that they are more than `most` or that the
/// filter is none for text.
pub(super) fn unpack(filter: &Object, bytes: &[u8], prediction: Prediction, most: usize) -> Option<Vec<u8>> {
    let unpacked = match filter.name()? {
        b"FlateDecode" | b"Fl" => predicted(inflate(bytes, most), prediction),
        b"LZWDecode" | b"LZW" => predicted(lzw(bytes, prediction.early, most), prediction),
        b"ASCII85Decode" | b"A85" => ascii85(bytes),
        b"ASCIIHexDecode" | b"AHx" => ascii_hex(bytes),
        b"RunLengthDecode" | b"RL" => run_length(bytes, most),
        _ => return None,
    };
    (unpacked.len() <= most).then_some(unpacked)
}

/// One byte more than `most` where there is more.
fn inflate(bytes: &[u8], most: usize) -> Vec<u8> {
    let limit = most as u64 + 1;
    let mut unpacked = Vec::new();
    // What came before damage is kept: an error says only that there was some.
    let _damage = ZlibDecoder::new(bytes).take(limit).read_to_end(&mut unpacked);
    if unpacked.is_empty() {
        let _damage = DeflateDecoder::new(bytes).take(limit).read_to_end(&mut unpacked);
    }
    unpacked
}

fn lzw(bytes: &[u8], early: bool, most: usize) -> Vec<u8> {
    let mut unpacked = Vec::new();
    // Each code past the letters is the one before it and a letter: its start in what is unpacked, and its length.
    let mut table: Vec<(usize, usize)> = Vec::new();
    let mut last: Option<(usize, usize)> = None;
    let (mut bits, mut held, mut width) = (0_u32, 0_u32, 9);
    for byte in bytes {
        bits = bits << 8 | u32::from(*byte);
        held += 8;
        if held < width {
            continue;
        }
        held -= width;
        let code = (bits >> held) as usize & ((1 << width) - 1);
        bits &= (1 << held) - 1;
        match code {
            256 => {
                table.clear();
                last = None;
                width = 9;
                continue;
            }
            257 => break,
            _ => {}
        }
        let start = unpacked.len();
        match code {
            0..=255 => unpacked.push(u8::try_from(code).unwrap_or(0)),
            _ => match table.get(code - 258).copied().or(last.map(|(from, length)| (from, length + 1))) {
                Some((from, length)) => copy_within(&mut unpacked, from, length),
                None => break,
            },
        }
        if let Some((from, length)) = last
            && table.len() < 4096 - 258
        {
            table.push((from, length + 1));
        }
        last = Some((start, unpacked.len() - start));
        let next = table.len() + 258 + 1 + usize::from(early);
        width = if next > 2048 {
            12
        } else if next > 1024 {
            11
        } else if next > 512 {
            10
        } else {
            9
        };
        if unpacked.len() > most {
            break;
        }
    }
    unpacked
}

/// Copies what may reach into what is being copied.
fn copy_within(bytes: &mut Vec<u8>, from: usize, length: usize) {
    for at in from..from + length {
        let Some(byte) = bytes.get(at).copied() else { return };
        bytes.push(byte);
    }
}

fn ascii85(bytes: &[u8]) -> Vec<u8> {
    let mut unpacked = Vec::new();
    let mut group: Vec<u32> = Vec::new();
    let flush = |group: &mut Vec<u32>, unpacked: &mut Vec<u8>| {
        let given = group.len();
        if given < 2 {
            return;
        }
        group.resize(5, 84);
        let value = group.iter().fold(0_u32, |value, digit| value.wrapping_mul(85).wrapping_add(*digit));
        unpacked.extend_from_slice(&value.to_be_bytes()[..given - 1]);
        group.clear();
    };
    for byte in bytes {
        match byte {
            b'z' if group.is_empty() => unpacked.extend_from_slice(&[0; 4]),
            b'!'..=b'u' => {
                group.push(u32::from(byte - b'!'));
                if group.len() == 5 {
                    flush(&mut group, &mut unpacked);
                }
            }
            b'~' => break,
            _ => {}
        }
    }
    flush(&mut group, &mut unpacked);
    unpacked
}

fn ascii_hex(bytes: &[u8]) -> Vec<u8> {
    let digits = bytes.iter().take_while(|byte| **byte != b'>').filter(|byte| !is_space(**byte));
    let digits: Vec<u32> = digits.map_while(|byte| char::from(*byte).to_digit(16)).collect();
    let pairs = digits.chunks(2).map(|pair| pair[0] << 4 | pair.get(1).copied().unwrap_or(0));
    pairs.filter_map(|byte| u8::try_from(byte).ok()).collect()
}

fn run_length(bytes: &[u8], most: usize) -> Vec<u8> {
    let mut unpacked = Vec::new();
    let mut rest = bytes;
    while let [length, after @ ..] = rest {
        let length = usize::from(*length);
        match (length, after) {
            (0..=127, _) => {
                let taken = after.len().min(length + 1);
                unpacked.extend_from_slice(&after[..taken]);
                rest = &after[taken..];
            }
            (129.., [byte, after @ ..]) => {
                unpacked.resize(unpacked.len() + 257 - length, *byte);
                rest = after;
            }
            _ => break,
        }
        if unpacked.len() > most {
            break;
        }
    }
    unpacked
}

/// Undoes the differences to the row above or the byte before that were packed instead of the bytes.
fn predicted(bytes: Vec<u8>, prediction: Prediction) -> Vec<u8> {
    let Prediction { predictor, colors, bits, columns, .. } = prediction;
    let pixel = (colors * bits).div_ceil(8).max(1);
    let row = (colors * bits * columns).div_ceil(8);
    match predictor {
        2 if bits == 8 && row > 0 => difference_rows(bytes, row, pixel),
        10.. if row > 0 => png_rows(&bytes, row, pixel),
        _ => bytes,
    }
}

fn difference_rows(mut bytes: Vec<u8>, row: usize, pixel: usize) -> Vec<u8> {
    for line in bytes.chunks_mut(row) {
        for at in pixel..line.len() {
            line[at] = line[at].wrapping_add(line[at - pixel]);
        }
    }
    bytes
}

fn png_rows(bytes: &[u8], row: usize, pixel: usize) -> Vec<u8> {
    let mut unpacked: Vec<u8> = Vec::with_capacity(bytes.len());
    for line in bytes.chunks(row + 1) {
        let Some((kind, line)) = line.split_first() else { break };
        let start = unpacked.len();
        for (at, byte) in line.iter().enumerate() {
            let left = at.checked_sub(pixel).map_or(0, |at| unpacked[start + at]);
            let above = start.checked_sub(row).map_or(0, |above| unpacked[above + at]);
            let corner = match (at.checked_sub(pixel), start.checked_sub(row)) {
                (Some(at), Some(above)) => unpacked[above + at],
                _ => 0,
            };
            let predicted = match kind {
                1 => left,
                2 => above,
                3 => left.midpoint(above),
                4 => paeth(left, above, corner),
                _ => 0,
            };
            unpacked.push(byte.wrapping_add(predicted));
        }
    }
    unpacked
}

fn paeth(left: u8, above: u8, corner: u8) -> u8 {
    let guess = i16::from(left) + i16::from(above) - i16::from(corner);
    let distance = |byte: u8| (guess - i16::from(byte)).abs();
    if distance(left) <= distance(above) && distance(left) <= distance(corner) {
        left
    } else if distance(above) <= distance(corner) {
        above
    } else {
        corner
    }
}
