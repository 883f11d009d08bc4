//! The one door that everything printed goes through: no control character, no invisible or bidirectional one, and no
//! line that the log of a continuous integration would take for a command.
//!
//! One format is made of such commands: it lets three words of them through, which it has escaped itself.
//!
//! Standard error and files go through it too, so that a format that forgets about names does no harm. JSON and HTML
//! write such signs as codes before that, and so lose nothing.

use std::io::{self, Write};

use crate::place_links::with_link;
use crate::sanitize::{colour_code, defused, is_wild, stand_in};

/// Says that a text is in UTF-8, to spreadsheets: allowed as the very first character.
const BYTE_ORDER_MARK: char = '\u{feff}';

/// What is let through beside plain text.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Allowed {
    Nothing,
    /// Codes that set colours.
    Colours,
    /// Lines that are commands with a finding.
    Commands,
}

/// An output whose lines are made safe before they are written.
#[derive(Debug)]
pub struct SafeOutput<W: Write> {
    out: W,
    allowed: Allowed,
    /// Whether places of findings are made links.
    links: bool,
    /// What was written and is not passed on: part of a line.
    pending: Vec<u8>,
    /// Whether nothing was passed on so far.
    at_start: bool,
    /// Whether the last that was passed on left its line open.
    in_a_line: bool,
}

impl<W: Write> SafeOutput<W> {
    /// Without colours.
    pub const fn new(out: W) -> SafeOutput<W> {
        SafeOutput {
            out,
            allowed: Allowed::Nothing,
            links: false,
            pending: Vec::new(),
            at_start: true,
            in_a_line: false,
        }
    }

    /// Lets codes that set colours through, if so.
    #[must_use]
    pub fn colours(self, colours: bool) -> SafeOutput<W> {
        if colours { SafeOutput { allowed: Allowed::Colours, ..self } } else { self }
    }

    /// Makes the places of findings links to their files, if so: for a terminal that has links.
    #[must_use]
    pub fn links(self, links: bool) -> SafeOutput<W> {
        SafeOutput { links, ..self }
    }

    /// Lets commands through that put a finding beside a line, if so: a report of these has no colours.
    #[must_use]
    pub fn commands(self, commands: bool) -> SafeOutput<W> {
        if commands { SafeOutput { allowed: Allowed::Commands, ..self } } else { self }
    }

    fn pass_on(&mut self, whole: &[u8]) -> io::Result<()> {
        if !self.links && are_harmless(whole) {
            return self.pass_on_as_it_is(whole);
        }
        let text = String::from_utf8_lossy(whole);
        let (line, end) = match text.strip_suffix('\n') {
            Some(line) => line.strip_suffix('\r').map_or((line, "\n"), |line| (line, "\r\n")),
            None => (&*text, ""),
        };
        let safe = self.without_wild(line);
        // What goes on with an open line cannot begin one.
        let safe = match finding_command(&safe).filter(|_| self.allowed == Allowed::Commands && !self.in_a_line) {
            Some(command) => format!("::{}", defused(command)),
            None if self.in_a_line => safe,
            None => defused(&safe),
        };
        let is_whole = !self.in_a_line && !end.is_empty();
        let safe = if self.links && is_whole { with_link(&safe).unwrap_or(safe) } else { safe };
        self.in_a_line = end.is_empty();
        self.at_start = false;
        self.out.write_all(safe.as_bytes())?;
        self.out.write_all(end.as_bytes())
    }

    fn pass_on_as_it_is(&mut self, lines: &[u8]) -> io::Result<()> {
        self.in_a_line = !lines.ends_with(b"\n");
        self.at_start = false;
        self.out.write_all(lines)
    }

    fn without_wild(&self, line: &str) -> String {
        let mut safe = String::with_capacity(line.len());
        let mut rest = line;
        while let Some(c) = rest.chars().next() {
            // Most of a line is seen as it is, and passed on at once.
            let plain = rest.bytes().take_while(|byte| matches!(byte, b' '..=b'~')).count();
            if plain > 0 {
                safe.push_str(&rest[..plain]);
                rest = &rest[plain..];
                continue;
            }
            let colour = colour_code(rest).filter(|_| self.allowed == Allowed::Colours);
            let (take, kept) = match colour {
                Some(length) => (length, &rest[..length]),
                None => (c.len_utf8(), &rest[..c.len_utf8()]),
            };
            let allowed = colour.is_some() || c == '\t' || !is_wild(c);
            let mark = c == BYTE_ORDER_MARK && self.at_start && safe.is_empty();
            if allowed || mark {
                safe.push_str(kept);
            } else {
                safe.push(stand_in(c.len_utf8()));
            }
            rest = &rest[take..];
        }
        safe
    }
}

/// Whether lines are passed on as they are: they are all seen, and have no sign with which a command begins in some log.
fn are_harmless(lines: &[u8]) -> bool {
    str::from_utf8(lines).is_ok_and(|text| text.split('\n').all(is_harmless))
}

fn is_harmless(line: &str) -> bool {
    // Counted to the end, without a branch for each byte, which is several times as fast: most lines have no others.
    let others = line.bytes().filter(|byte| !matches!(byte, b' '..=b'"' | b'$'..=b'~')).count();
    let is_seen = || line.chars().all(|c| c != '#' && !is_wild(c));
    !line.trim_start().starts_with(':') && (others == 0 || is_seen())
}

/// What follows the two colons of a command that puts a finding beside a line.
fn finding_command(line: &str) -> Option<&str> {
    let command = line.strip_prefix("::")?;
    ["error ", "warning ", "notice "].iter().any(|word| command.starts_with(word)).then_some(command)
}

impl<W: Write> Write for SafeOutput<W> {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        let mut rest = bytes;
        if let (false, Some(end)) = (self.pending.is_empty(), rest.iter().position(|byte| *byte == b'\n')) {
            let mut line = std::mem::take(&mut self.pending);
            line.extend_from_slice(&rest[..=end]);
            rest = &rest[end + 1..];
            self.pass_on(&line)?;
            line.clear();
            self.pending = line;
        }
        let whole = rest.iter().rposition(|byte| *byte == b'\n').map_or(0, |end| end + 1);
        let (lines, open) = rest.split_at(whole);
        if !lines.is_empty() && !self.links && are_harmless(lines) {
            // At once: most reports have no other lines.
            self.pass_on_as_it_is(lines)?;
        } else {
            lines.split_inclusive(|byte| *byte == b'\n').try_for_each(|line| self.pass_on(line))?;
        }
        self.pending.extend_from_slice(open);
        Ok(bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        // A character that is not whole yet waits for its other bytes.
        let whole = match std::str::from_utf8(&self.pending) {
            Err(error) if error.error_len().is_none() => error.valid_up_to(),
            _ => self.pending.len(),
        };
        if whole > 0 {
            let rest = self.pending.split_off(whole);
            let part = std::mem::replace(&mut self.pending, rest);
            self.pass_on(&part)?;
        }
        self.out.flush()
    }
}

/// The bytes as they come out of the door.
pub fn made_safe(bytes: &[u8]) -> Vec<u8> {
    through(SafeOutput::new(Vec::with_capacity(bytes.len())), bytes)
}

/// The same for a report that is made of commands.
pub fn made_safe_commands(bytes: &[u8]) -> Vec<u8> {
    through(SafeOutput::new(Vec::with_capacity(bytes.len())).commands(true), bytes)
}

fn through(mut out: SafeOutput<Vec<u8>>, bytes: &[u8]) -> Vec<u8> {
    // Writing to memory cannot fail.
    let _ = out.write_all(bytes).and_then(|()| out.flush());
    out.out
}

#[cfg(test)]
mod tests {
    use super::{SafeOutput, made_safe, made_safe_commands};
    use std::io::Write;

    fn safe(text: &str) -> String {
        String::from_utf8(made_safe(text.as_bytes())).expect("text")
    }

    #[test]
    fn what_steers_a_terminal_or_is_not_seen_is_replaced() {
        assert_eq!(safe("a\u{1b}[31mb\u{7}\rc\n"), "a?[31mb??c\n");
        assert_eq!(safe("a\u{202e}b\u{200b}\u{e0041}\u{ad}\u{85}\n"), "a\u{fffd}b\u{fffd}\u{1fbc4}¿¿\n");
        assert_eq!(safe("\u{feff}x,\u{feff}\r\n\u{feff}y\ttab\r\n"), "\u{feff}x,\u{fffd}\r\n\u{fffd}y\ttab\r\n");
        assert_eq!(safe("no end of line \u{8}"), "no end of line ?");
        assert_eq!(
            safe("5/8 yd, 3½ in × 4, “lap”, 格子, nai\u{308}ve\n"),
            "5/8 yd, 3½ in × 4, “lap”, 格子, nai\u{308}ve\n"
        );
    }

    #[test]
    fn what_a_log_would_take_for_a_command_is_broken() {
        assert_eq!(
            safe("::error file=x::y\n  ::add-mask::z\nat a::b\n"),
            ": :error file=x::y\n  : :add-mask::z\nat a::b\n"
        );
        assert_eq!(
            safe("a ##[command]x ##vso[task.x]y ##teamcity[z ## [\n"),
            "a # #[command]x # #vso[task.x]y # #teamcity[z ## [\n"
        );
        assert_eq!(safe("###[group]\n::\n"), "## #[group]\n: :\n");
    }

    #[test]
    fn of_a_report_of_commands_only_those_with_a_finding_pass() {
        let text = "::error file=x,line=1::a ##[group]b\n::add-mask::x\n ::error file=x::y\nat ::error file=x::y\n::error::z\n";
        let passed = String::from_utf8(made_safe_commands(text.as_bytes())).expect("text");
        assert_eq!(
            passed,
            "::error file=x,line=1::a # #[group]b\n: :add-mask::x\n : :error file=x::y\nat ::error file=x::y\n: :error::z\n"
        );
    }

    #[test]
    fn a_line_that_is_written_in_parts_is_read_as_one() {
        let mut out = SafeOutput::new(Vec::new()).colours(true);
        for part in [&b"\x1b[1m"[..], b":", b":error\n", b"x", "\u{202e}".as_bytes().split_at(1).0] {
            out.write_all(part).expect("written");
        }
        out.flush().expect("written");
        out.write_all("\u{202e}".as_bytes().split_at(1).1).expect("written");
        out.write_all(b"::y\n::z\x1b[2J\n").expect("written");
        let text = String::from_utf8(out.out).expect("text");
        assert_eq!(text, "\u{1b}[1m::error\nx\u{fffd}::y\n: :z?[2J\n");
    }
}
