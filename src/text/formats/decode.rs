//! Bytes as text, and where its characters stand in the file.

use crate::manuscript::Span;
use crate::text::passage::{PlacedRun, PrintedText, TextPlace};

/// A file's text, and how far its bytes are from those of the file.
pub(super) struct Decoded {
    pub(super) text: String,
    /// From which byte of the text on the file's bytes are so many fewer.
    shifts: Vec<(usize, usize)>,
    /// Whether places in the text say nothing of the file, for its characters are of two bytes each.
    placeless: bool,
}

/// What 0x80 to 0x9F are in the encoding that Windows had for western Europe.
const WINDOWS_1252: [u16; 32] = [
    0x20ac, 0xfffd, 0x201a, 0x192, 0x201e, 0x2026, 0x2020, 0x2021, 0x2c6, 0x2030, 0x160, 0x2039, 0x152, 0xfffd, 0x17d,
    0xfffd, 0xfffd, 0x2018, 0x2019, 0x201c, 0x201d, 0x2022, 0x2013, 0x2014, 0x2dc, 0x2122, 0x161, 0x203a, 0x153,
    0xfffd, 0x17e, 0x178,
];

/// Reads UTF-8, with bytes that are none as older editors on Windows wrote them, or UTF-16 with its mark.
pub(super) fn decode(bytes: &[u8]) -> Decoded {
    match bytes {
        [0xff, 0xfe, rest @ ..] => utf16(rest, u16::from_le_bytes),
        [0xfe, 0xff, rest @ ..] => utf16(rest, u16::from_be_bytes),
        _ => utf8(bytes),
    }
}

fn utf16(bytes: &[u8], unit: fn([u8; 2]) -> u16) -> Decoded {
    let units = bytes.as_chunks::<2>().0.iter().map(|pair| unit(*pair));
    let text = char::decode_utf16(units).map(|ch| ch.unwrap_or('\u{fffd}')).collect();
    Decoded { text, shifts: Vec::new(), placeless: true }
}

fn utf8(bytes: &[u8]) -> Decoded {
    let mut text = String::with_capacity(bytes.len());
    let mut shifts = Vec::new();
    let mut file = 0;
    for chunk in bytes.utf8_chunks() {
        text.push_str(chunk.valid());
        file += chunk.valid().len();
        for byte in chunk.invalid() {
            text.push(older(*byte));
            file += 1;
            shifts.push((text.len(), text.len() - file));
        }
    }
    Decoded { text, shifts, placeless: false }
}

/// What a byte is in the encoding that Windows had for western Europe.
pub(super) fn older(byte: u8) -> char {
    let known = byte.checked_sub(0x80).and_then(|high| WINDOWS_1252.get(usize::from(high)));
    known.and_then(|code| char::from_u32(u32::from(*code))).unwrap_or(char::from(byte))
}

impl Decoded {
    /// Makes the places in this text places in the file.
    pub(super) fn place_in_file(&self, printed: &mut PrintedText) {
        if !self.placeless && self.shifts.is_empty() {
            return;
        }
        for problem in &mut printed.problems {
            problem.at = self.in_file(problem.at).unwrap_or(TextPlace::Whole);
        }
        for (index, passage) in printed.passages.iter_mut().enumerate() {
            let number = u32::try_from(index + 1).unwrap_or(u32::MAX);
            let runs = std::mem::take(&mut passage.places);
            for run in runs {
                match run.place {
                    TextPlace::Span(span) if run.verbatim && !self.placeless => {
                        self.part(span, &run, &passage.text, &mut passage.places);
                    }
                    _ => {
                        let place = self.in_file(run.place).unwrap_or(TextPlace::Paragraph(number));
                        passage.places.push(PlacedRun { place, verbatim: false, ..run });
                    }
                }
            }
        }
    }

    /// Parts a run where a character takes fewer bytes in the file than in the text.
    fn part(&self, span: Span, run: &PlacedRun, text: &str, runs: &mut Vec<PlacedRun>) {
        let first = runs.len();
        for (offset, ch) in text.get(run.bytes.clone()).unwrap_or_default().char_indices() {
            let (start, end) = (span.start + offset, span.start + offset + ch.len_utf8());
            let own = Span::new(self.byte_in_file(start), self.byte_in_file(end));
            let bytes = run.bytes.start + offset..run.bytes.start + offset + ch.len_utf8();
            let verbatim = own.len() == ch.len_utf8();
            if let Some(last) = runs[first..].last_mut()
                && let TextPlace::Span(before) = &mut last.place
                && last.verbatim
                && verbatim
                && before.end == own.start
            {
                before.end = own.end;
                last.bytes.end = bytes.end;
            } else {
                runs.push(PlacedRun { bytes, place: TextPlace::Span(own), verbatim });
            }
        }
    }

    fn in_file(&self, place: TextPlace) -> Option<TextPlace> {
        match place {
            TextPlace::Span(_) if self.placeless => None,
            TextPlace::Span(span) => {
                Some(TextPlace::Span(Span::new(self.byte_in_file(span.start), self.byte_in_file(span.end))))
            }
            other => Some(other),
        }
    }

    fn byte_in_file(&self, byte: usize) -> usize {
        let before = self.shifts.partition_point(|(from, _)| *from <= byte);
        let shift = before.checked_sub(1).and_then(|last| self.shifts.get(last)).map_or(0, |(_, shift)| *shift);
        byte.saturating_sub(shift)
    }
}
