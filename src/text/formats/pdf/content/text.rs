//! The operations that set text, and marks on letters.

use super::super::fixed::{Matrix, number, times};
use super::super::font::UNMAPPED;
use super::super::object::{Dictionary, Object};
use super::{MAX_REPLACEMENT, Mark, Operation, Reader, State};
use crate::text::formats::decode::older;

impl Reader<'_> {
    pub(super) fn text(&mut self, operation: &Operation, resources: &Dictionary, state: &mut State) {
        let operands = &operation.operands;
        let value = |at: usize| operands.get(at).and_then(number).unwrap_or(0);
        match &*operation.operator {
            b"BT" => {
                state.text = Matrix::IDENTITY;
                state.line = Matrix::IDENTITY;
            }
            b"Tf" => {
                state.size = value(1);
                state.font = operands.first().and_then(|name| self.font(name, resources));
            }
            b"Tc" => state.letter_space = value(0),
            b"Tw" => state.word_space = value(0),
            b"Tz" => state.stretch = value(0) / 100,
            b"TL" => state.leading = value(0),
            b"Ts" => state.rise = value(0),
            b"Td" => state.next_line(value(0), value(1)),
            b"TD" => {
                state.leading = value(1).saturating_neg();
                state.next_line(value(0), value(1));
            }
            b"Tm" => {
                if let Some(matrix) = Matrix::of(operands) {
                    state.line = matrix;
                    state.text = matrix;
                }
            }
            b"T*" => state.next_line(0, state.leading.saturating_neg()),
            b"Tj" => self.show(operands.first(), state),
            b"'" => {
                state.next_line(0, state.leading.saturating_neg());
                self.show(operands.first(), state);
            }
            b"\"" => {
                state.word_space = value(0);
                state.letter_space = value(1);
                state.next_line(0, state.leading.saturating_neg());
                self.show(operands.get(2), state);
            }
            b"TJ" => {
                let Some(Object::Array(parts)) = operands.first() else { return };
                for part in parts.iter() {
                    match number(part) {
                        Some(back) => {
                            let moved = times(times(back / 1000, state.size), state.stretch).saturating_neg();
                            state.text = Matrix::moved(moved, 0).then(&state.text);
                        }
                        None => self.show(Some(part), state),
                    }
                }
            }
            _ => {}
        }
    }

    pub(super) fn mark(&mut self, operation: &Operation, resources: &Dictionary) {
        let tag = operation.operands.first().and_then(Object::name).unwrap_or_default();
        let properties = operation.operands.get(1).and_then(|properties| match properties {
            Object::Name(name) => {
                let lists = self.file.dictionary(resources, b"Properties")?;
                self.file.dictionary(&lists, name)
            }
            properties => properties.dictionary().cloned(),
        });
        let replacement = properties
            .and_then(|properties| self.file.get(&properties, b"ActualText"))
            .and_then(|text| if let Object::String(text) = text { Some(text_string(&text)) } else { None })
            .filter(|text| text.chars().count() <= MAX_REPLACEMENT);
        let mark = match replacement {
            _ if tag == b"Artifact" => Mark::Artifact,
            Some(text) => Mark::Replaced(Some(text)),
            None => Mark::Other,
        };
        if self.marks.len() < 4096 {
            self.marks.push(mark);
        }
    }
}

/// A string that is text: UTF-16 or UTF-8 by its mark, or bytes.
fn text_string(bytes: &[u8]) -> String {
    match bytes {
        [0xfe, 0xff, rest @ ..] => {
            let units = rest.as_chunks::<2>().0.iter().map(|pair| u16::from_be_bytes(*pair));
            char::decode_utf16(units).map(|unit| unit.unwrap_or(UNMAPPED)).collect()
        }
        [0xef, 0xbb, 0xbf, rest @ ..] => String::from_utf8_lossy(rest).into_owned(),
        _ => bytes.iter().map(|byte| older(*byte)).collect(),
    }
}
