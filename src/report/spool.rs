//! What is written later: kept in memory while it is little, and in a temporary file beyond that, so that memory does not
//! grow with the number of files.

use std::io::{self, Seek, SeekFrom, Write};

use serde::Serialize;
use tempfile::SpooledTempFile;

use super::sanitize::escape_json;

/// How much is kept in memory.
const IN_MEMORY: usize = 1024 * 1024;

/// Bytes that are written later.
#[derive(Debug)]
pub struct Spool(SpooledTempFile);

impl Default for Spool {
    fn default() -> Spool {
        Spool(SpooledTempFile::new(IN_MEMORY))
    }
}

impl Spool {
    /// Writes all of it, from its beginning.
    ///
    /// # Errors
    /// Where it cannot be read back, or the output cannot be written.
    pub fn copy_to(&mut self, out: &mut dyn Write) -> io::Result<()> {
        self.0.seek(SeekFrom::Start(0))?;
        io::copy(&mut self.0, out).map(drop)
    }
}

impl Write for Spool {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.0.write(bytes)
    }

    fn flush(&mut self) -> io::Result<()> {
        self.0.flush()
    }
}

/// The items of an array of JSON, as `serde_json` lays them out at a depth.
#[derive(Debug)]
pub(super) struct JsonItems {
    depth: usize,
    count: usize,
}

impl JsonItems {
    /// Items that are set in so many levels.
    pub(super) const fn at_depth(depth: usize) -> JsonItems {
        JsonItems { depth, count: 0 }
    }

    /// Whether there is none.
    pub(super) const fn is_empty(&self) -> bool {
        self.count == 0
    }

    /// Writes one more.
    pub(super) fn push(&mut self, item: &impl Serialize, out: &mut dyn Write) -> io::Result<()> {
        let comma = if self.is_empty() { "" } else { "," };
        self.count += 1;
        let item = format!("{comma}\n{}{}", "  ".repeat(self.depth), laid_out(item, self.depth)?);
        // At once: each part would be a call of the system where what is written goes to a file.
        out.write_all(item.as_bytes())
    }

    /// Ends the array that they are in.
    pub(super) fn finish(&self, out: &mut dyn Write) -> io::Result<()> {
        match self.count {
            0 => write!(out, "]"),
            _ => write!(out, "\n{}]", "  ".repeat(self.depth - 1)),
        }
    }
}

/// A value as JSON whose lines after the first are set in. No string of JSON has a line end in it.
pub(super) fn laid_out(value: &impl Serialize, depth: usize) -> io::Result<String> {
    let text = escape_json(&serde_json::to_string_pretty(value)?);
    Ok(text.replace('\n', &format!("\n{}", "  ".repeat(depth))))
}

/// An array of JSON whose items are written later.
#[derive(Debug)]
pub(super) struct SpooledArray {
    items: JsonItems,
    spool: Spool,
}

impl SpooledArray {
    /// An array whose items are set in so many levels.
    pub(super) fn at_depth(depth: usize) -> SpooledArray {
        SpooledArray { items: JsonItems::at_depth(depth), spool: Spool::default() }
    }

    /// Whether nothing is in it.
    pub(super) const fn is_empty(&self) -> bool {
        self.items.is_empty()
    }

    /// Adds an item.
    pub(super) fn push(&mut self, item: &impl Serialize) -> io::Result<()> {
        self.items.push(item, &mut self.spool)
    }

    /// Writes the array.
    pub(super) fn write(&mut self, out: &mut dyn Write) -> io::Result<()> {
        write!(out, "[")?;
        self.spool.copy_to(out)?;
        self.items.finish(out)
    }
}
