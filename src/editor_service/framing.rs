//! Messages in a stream of bytes: a header with the length, an empty line, and the message
//! (Language Server Protocol 3.17, "Base Protocol").
//!
//! A reader that meets something else goes on at the next header: an editor must not lose its service over one message.

use std::io::{self, BufRead, Read, Write};

use crate::sanitize::escape_json;

/// The longest message that is read, in bytes: many times a manuscript of the largest size.
const LONGEST_MESSAGE: usize = 64 * 1024 * 1024;

/// The longest line of a header that is read, in bytes.
const LONGEST_LINE: u64 = 4096;

const LENGTH: &[u8] = b"content-length:";

/// What was read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Frame {
    /// A message.
    Message(String),
    /// Something that is none: why not.
    Malformed(&'static str),
}

/// Reads the next message; `None` at the end of the stream.
///
/// # Errors
/// Where the stream cannot be read.
pub(super) fn read_frame(from: &mut impl BufRead) -> io::Result<Option<Frame>> {
    let (mut length, mut is_header) = (None, true);
    loop {
        let mut line = Vec::new();
        if from.by_ref().take(LONGEST_LINE).read_until(b'\n', &mut line)? == 0 {
            return Ok(None);
        }
        let line = line.trim_ascii();
        match (length_in(line), length) {
            (Some(found), _) => length = Some(found),
            (None, Some(length)) if line.is_empty() => return read_message(from, length),
            // After a message whose length was wrong, its end may come before the next header.
            (None, None) if line.is_empty() && !is_header => {
                return Ok(Some(Frame::Malformed("a message without a header that states its length")));
            }
            (None, _) if line.is_empty() || line.contains(&b':') && is_header => {}
            (None, _) => is_header = false,
        }
    }
}

/// The length that a line of a header states, where it is the line that does. One that cannot be read is none that a
/// message has.
fn length_in(line: &[u8]) -> Option<usize> {
    let lower = line.to_ascii_lowercase();
    let at = lower.windows(LENGTH.len()).position(|part| part == LENGTH)?;
    let number = std::str::from_utf8(&line[at + LENGTH.len()..]).ok().and_then(|number| number.trim().parse().ok());
    Some(number.unwrap_or(usize::MAX))
}

fn read_message(from: &mut impl BufRead, length: usize) -> io::Result<Option<Frame>> {
    if length > LONGEST_MESSAGE {
        return Ok(Some(Frame::Malformed("a length that no message has")));
    }
    let mut bytes = Vec::new();
    if from.by_ref().take(length as u64).read_to_end(&mut bytes)? < length {
        return Ok(None);
    }
    Ok(Some(String::from_utf8(bytes).map_or(Frame::Malformed("a message that is no UTF-8"), Frame::Message)))
}

/// Writes a message. Characters that are not seen are written as escapes, which mean the same.
///
/// # Errors
/// Where the stream cannot be written.
pub(super) fn write_frame(to: &mut impl Write, message: &str) -> io::Result<()> {
    let message = escape_json(message);
    write!(to, "Content-Length: {}\r\n\r\n{message}", message.len())?;
    to.flush()
}

#[cfg(test)]
mod tests {
    use super::{Frame, read_frame, write_frame};

    /// All that is read from some bytes.
    fn frames(mut bytes: &[u8]) -> Vec<Frame> {
        let mut frames = Vec::new();
        while let Ok(Some(frame)) = read_frame(&mut bytes) {
            frames.push(frame);
            assert!(frames.len() < 50);
        }
        frames
    }

    fn framed(message: &str) -> Vec<u8> {
        let mut bytes = Vec::new();
        assert!(write_frame(&mut bytes, message).is_ok());
        bytes
    }

    #[test]
    fn what_is_written_is_read() {
        let bytes = [framed("{}"), framed("\"caf\u{e9} \u{1f9f5}\""), framed("")].concat();
        let messages = ["{}", "\"caf\u{e9} \u{1f9f5}\"", ""];
        assert_eq!(frames(&bytes), messages.map(|message| Frame::Message(message.to_string())));
    }

    #[test]
    fn the_next_message_is_read_after_something_else() {
        let good = [Frame::Message("{}".to_string())];
        let before: [&[u8]; 8] = [
            b"garbage\n",
            b"\r\n\r\n",
            b"garbage\r\n\r\n",
            b"Content-Length: many\r\n\r\n",
            b"Content-Length: 99999999999999\r\n\r\n",
            b"Content-Length: 1\r\n\r\n\xff",
            b"Content-Length: 2\r\n\r\n{}trailing",
            b"Content-Type: application/vscode-jsonrpc; charset=utf-8\r\n",
        ];
        for junk in before {
            let read = frames(&[junk, &framed("{}")].concat());
            assert!(read.ends_with(&good), "{:?} after {:?}", read, String::from_utf8_lossy(junk));
        }
    }

    #[test]
    fn a_message_that_is_cut_off_ends_the_stream() {
        assert_eq!(frames(b"Content-Length: 10\r\n\r\n{}"), []);
    }
}
