//! Writing zip archives.

use std::io::Write;

use flate2::Compression;
use flate2::write::DeflateEncoder;
use rawzip::{CompressionMethod, ZipArchiveWriter};

/// An archive of parts.
pub(crate) fn zipped(parts: &[(&str, &str)]) -> Vec<u8> {
    let parts: Vec<(&str, &[u8])> = parts.iter().map(|(name, text)| (*name, text.as_bytes())).collect();
    zipped_bytes(&parts)
}

/// An archive of parts, none of them compressed.
pub(crate) fn stored(parts: &[(&str, &str)]) -> Vec<u8> {
    let mut archive = ZipArchiveWriter::new(Vec::new());
    for (name, text) in parts {
        let (mut entry, config) = archive.new_file(*name).compression_method(CompressionMethod::STORE).start().unwrap();
        let mut writer = config.wrap(&mut entry);
        writer.write_all(text.as_bytes()).unwrap();
        let (_, descriptor) = writer.finish().unwrap();
        entry.finish(descriptor).unwrap();
    }
    archive.finish().unwrap()
}

/// An archive of parts that are bytes.
pub(crate) fn zipped_bytes(parts: &[(&str, &[u8])]) -> Vec<u8> {
    let mut archive = ZipArchiveWriter::new(Vec::new());
    for (name, bytes) in parts {
        if bytes.is_empty() {
            let (entry, config) = archive.new_file(*name).compression_method(CompressionMethod::STORE).start().unwrap();
            let (_, descriptor) = config.wrap(Vec::new()).finish().unwrap();
            entry.finish(descriptor).unwrap();
            continue;
        }
        let (mut entry, config) =
            archive.new_file(*name).compression_method(CompressionMethod::DEFLATE).start().unwrap();
        let mut writer = config.wrap(DeflateEncoder::new(&mut entry, Compression::best()));
        writer.write_all(bytes).unwrap();
        let (encoder, descriptor) = writer.finish().unwrap();
        encoder.finish().unwrap();
        entry.finish(descriptor).unwrap();
    }
    archive.finish().unwrap()
}
