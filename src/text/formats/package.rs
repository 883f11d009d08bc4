//! Files that are zip archives of parts, as Word's and OpenDocument's are.

use std::io::Read;

use flate2::read::DeflateDecoder;
use rawzip::{CompressionMethod, ZipArchive, ZipArchiveEntryWayfinder, ZipSliceArchive};

/// How many parts are looked through: a text with a thousand pictures has some thousands.
const MAX_PARTS: usize = 20_000;
/// How many bytes are unpacked of one file, all its parts together: a book of a thousand pages has a tenth of it.
const MAX_UNPACKED: u64 = 20_000_000;

/// Why a part cannot be read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum PartFault {
    /// There is none of this name.
    Missing,
    /// It is encrypted.
    Encrypted,
    /// It is packed in a way that texts are not.
    UnknownPacking,
    /// Its bytes are damaged, or the archive's are.
    Damaged,
    /// Unpacked, the file would be larger than what is read.
    TooLarge,
}

/// A zip archive.
pub(super) struct Package<'a> {
    archive: ZipSliceArchive<&'a [u8]>,
    parts: Vec<Part>,
    left: u64,
}

struct Part {
    name: String,
    at: ZipArchiveEntryWayfinder,
    packing: CompressionMethod,
    encrypted: bool,
}

impl<'a> Package<'a> {
    /// Opens an archive, if its directory can be read.
    pub(super) fn open(bytes: &'a [u8]) -> Option<Package<'a>> {
        let archive = ZipArchive::from_slice(bytes).ok()?;
        let mut parts = Vec::new();
        let mut entries = archive.entries();
        while let Ok(Some(entry)) = entries.next_entry() {
            if parts.len() == MAX_PARTS {
                break;
            }
            parts.push(Part {
                name: String::from_utf8_lossy(entry.file_path().as_bytes()).into_owned(),
                at: entry.wayfinder(),
                packing: entry.compression_method(),
                encrypted: entry.flags().is_encrypted(),
            });
        }
        (!parts.is_empty()).then_some(Package { archive, parts, left: MAX_UNPACKED })
    }

    /// Whether it has a part.
    pub(super) fn has(&self, name: &str) -> bool {
        self.parts.iter().any(|part| part.name == name)
    }

    /// Unpacks a part as text.
    pub(super) fn read(&mut self, name: &str) -> Result<String, PartFault> {
        let part = self.parts.iter().find(|part| part.name == name).ok_or(PartFault::Missing)?;
        if part.encrypted {
            return Err(PartFault::Encrypted);
        }
        let entry = self.archive.get_entry(part.at).map_err(|_| PartFault::Damaged)?;
        let packed = entry.data();
        let mut bytes = Vec::new();
        let read = match part.packing {
            CompressionMethod::STORE => packed.take(self.left + 1).read_to_end(&mut bytes),
            CompressionMethod::DEFLATE => DeflateDecoder::new(packed).take(self.left + 1).read_to_end(&mut bytes),
            _ => return Err(PartFault::UnknownPacking),
        };
        let size = bytes.len() as u64;
        if size > self.left {
            return Err(PartFault::TooLarge);
        }
        self.left -= size;
        // What could be unpacked of a damaged part is read as far as it goes; the reader of it says where it ends.
        if read.is_err() && bytes.is_empty() {
            return Err(PartFault::Damaged);
        }
        Ok(super::decode::decode(&bytes).text)
    }
}
