//! Where something is: the file, and the region in it.

use std::path::Path;

use super::ROOT;
use super::log::{ArtifactLocation, Location, Message, PhysicalLocation, Region};
use crate::finding::Elsewhere;
use crate::manuscript::{Source, Span};
use crate::run::Checked;
use crate::uri::reference;

/// A file that was checked, with its place in the list of files.
pub(super) fn artifact(file: &Checked, index: usize) -> ArtifactLocation {
    of_the_path(&file.path, Some(index))
}

/// A file by its path.
pub(super) fn of_the_path(path: &Path, index: Option<usize>) -> ArtifactLocation {
    let (uri, relative) = reference(path);
    ArtifactLocation { uri: Some(uri), uri_base_id: relative.then_some(ROOT), index, description: None }
}

/// A place in a file, with a few words on it.
pub(super) fn location(file: &Checked, index: usize, at: Span, words: &str) -> Location {
    Location {
        physical_location: PhysicalLocation {
            artifact_location: artifact(file, index),
            // A file that has pages or paragraphs and no lines is meant as a whole.
            region: file.page_of(at).is_none().then(|| region(&file.source, at)),
        },
        message: (!words.is_empty()).then(|| Message::new(words)),
    }
}

/// A place in another file than the finding's.
pub(super) fn in_other_file(elsewhere: &Elsewhere) -> Location {
    let Elsewhere { path, at, start, end, text } = elsewhere;
    let region = Region {
        start_line: start.line,
        start_column: start.column,
        end_line: end.line,
        end_column: end.column,
        byte_offset: at.start,
        byte_length: at.len(),
    };
    Location {
        physical_location: PhysicalLocation { artifact_location: of_the_path(path, None), region: Some(region) },
        message: (!text.is_empty()).then(|| Message::new(text)),
    }
}

/// The same lines, columns and bytes as the other formats tell.
pub(super) fn region(source: &Source, at: Span) -> Region {
    let (start, end) = (source.place(at.start), source.place(at.end));
    Region {
        start_line: start.line,
        start_column: start.column,
        end_line: end.line,
        end_column: end.column,
        byte_offset: at.start,
        byte_length: at.len(),
    }
}
