//! Printed texts that are open in the editor: their findings, by the manuscripts that name them.
//!
//! A manuscript is checked against the text as it is in the editor, saved or not. What is not open is read from disk, and
//! looked at again when it was written.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::time::SystemTime;

use gen_lsp_types::{Diagnostic, PublishDiagnosticsParams, TextDocumentContentChangeEvent as ContentChange, Uri};

use super::Service;
use super::document::{Document, FileKind, change_text};
use super::findings::{Shown, diagnostic_in, other_place};
use crate::check::{Corrections, check_loading};
use crate::discover::folder_of;
use crate::finding::{Elsewhere, Finding};
use crate::manuscript::{PositionEncoding, Source, read};
use crate::text::{beside, manuscripts_naming, path_of as text_path};
use crate::uri::path_of;

/// A printed text that is open.
#[derive(Debug)]
pub(super) struct Printed {
    /// What the editor calls it.
    pub(super) uri: Uri,
    version: i32,
    text: String,
    path: PathBuf,
    /// The manuscripts on disk that name it.
    manuscripts: Vec<PathBuf>,
    /// Whether the editor was told what is found in it now, and whether it was ever told anything.
    is_told: bool,
    was_told: bool,
}

/// What the folder said of a file: when it was written, and how long it is.
type Stamp = Option<(SystemTime, u64)>;

/// The open printed texts, and the files on disk that open texts are checked with.
#[derive(Debug, Default)]
pub(super) struct OpenTexts {
    texts: BTreeMap<String, Printed>,
    on_disk: BTreeMap<PathBuf, Stamp>,
}

impl OpenTexts {
    /// Whether none is open.
    pub(super) fn is_empty(&self) -> bool {
        self.texts.is_empty()
    }

    /// The folders of the manuscripts of the open texts.
    pub(super) fn folders(&self) -> impl Iterator<Item = PathBuf> + '_ {
        self.texts.values().flat_map(|text| &text.manuscripts).map(|path| folder_of(path).to_path_buf())
    }

    /// A text by its path, as it is in the editor.
    fn at(&self, path: &Path) -> Option<&Printed> {
        self.texts.values().find(|text| is_same(&text.path, path))
    }

    /// What gives the texts of a manuscript: those that are open as they are in the editor.
    pub(super) fn load<'t>(&'t self, manuscript: &Path) -> impl Fn(&str) -> Result<Vec<u8>, String> + 't {
        let (manuscript, on_disk) = (manuscript.to_path_buf(), beside(manuscript));
        move |name| match self.at(&text_path(&manuscript, name)) {
            Some(text) => Ok(text.text.clone().into_bytes()),
            None => on_disk(name),
        }
    }

    /// What the editor calls a file: as it named it where it is open.
    pub(super) fn uri(&self, path: &Path) -> Uri {
        self.at(path).map_or_else(|| uri_of(path), |text| text.uri.clone())
    }

    /// Notes how files on disk are before they are read.
    fn note(&mut self, path: PathBuf) {
        let stamp = stamp(&path);
        self.on_disk.insert(path, stamp);
    }

    fn tell_again(&mut self) {
        self.texts.values_mut().for_each(|text| text.is_told = false);
    }
}

fn stamp(path: &Path) -> Stamp {
    let about = path.metadata().ok()?;
    Some((about.modified().ok()?, about.len()))
}

/// Whether two paths are of one file, one of which may lead over a link.
fn is_same(one: &Path, other: &Path) -> bool {
    let real = |path: &Path| path.canonicalize().ok();
    one == other || one.file_name() == other.file_name() && real(one).is_some_and(|one| real(other) == Some(one))
}

/// The URI of a file.
pub(super) fn uri_of(path: &Path) -> Uri {
    Uri(crate::uri::reference(path).0)
}

/// The texts that a manuscript names, by path.
fn named(source: &Source) -> Vec<PathBuf> {
    read(source).texts.iter().map(|text| text_path(&source.path, &text.value)).collect()
}

impl Service {
    /// A file that is no manuscript was opened: it may be a text that one names.
    pub(super) fn open_printed(&mut self, uri: Uri, version: i32, text: String) {
        let path = path_of(&uri.0);
        let manuscripts = manuscripts_naming(&path);
        let name = uri.0.clone();
        let text = Printed { uri, version, text, path, manuscripts, is_told: false, was_told: false };
        self.forget_manuscripts_of(&text.path);
        self.printed.texts.insert(name, text);
    }

    /// An open text was changed.
    pub(super) fn change_printed(
        &mut self,
        uri: &str,
        version: i32,
        changes: Vec<ContentChange>,
        encoding: PositionEncoding,
    ) {
        let Some(text) = self.printed.texts.get_mut(uri) else { return };
        change_text(&mut text.text, changes, encoding);
        (text.version, text.is_told) = (version, false);
        let path = text.path.clone();
        self.forget_manuscripts_of(&path);
    }

    /// A text was closed: what it is on disk counts again.
    pub(super) fn close_printed(&mut self, uri: &Uri) -> Option<PublishDiagnosticsParams> {
        let text = self.printed.texts.remove(&uri.0)?;
        self.forget_manuscripts_of(&text.path);
        let nothing = PublishDiagnosticsParams { uri: text.uri, version: None, diagnostics: Vec::new() };
        text.was_told.then_some(nothing)
    }

    /// A manuscript was opened, changed or closed: what is found in the texts may be another.
    pub(super) fn tell_printed_again(&mut self) {
        self.printed.tell_again();
    }

    fn forget_manuscripts_of(&mut self, path: &Path) {
        for document in self.documents.values_mut().filter(|document| document.kind == FileKind::Manuscript) {
            if named(&document.source).iter().any(|named| is_same(named, path)) {
                document.forget();
            }
        }
    }

    /// Looks at the files on disk that open texts are checked with.
    pub(super) fn look_at_printed(&mut self) {
        if self.printed.on_disk.iter().all(|(path, known)| stamp(path) == *known) {
            return;
        }
        self.printed.on_disk.clear();
        self.printed.tell_again();
        for text in self.printed.texts.values_mut() {
            text.manuscripts = manuscripts_naming(&text.path);
        }
        let manuscripts = self.documents.values_mut().filter(|document| document.kind == FileKind::Manuscript);
        manuscripts.filter(|document| !named(&document.source).is_empty()).for_each(Document::forget);
    }

    /// Notes the texts on disk that a manuscript is checked with.
    pub(super) fn note_texts_of(&mut self, uri: &str) {
        let Some(document) = self.documents.get(uri).filter(|document| document.kind == FileKind::Manuscript) else {
            return;
        };
        for path in named(&document.source) {
            if self.printed.at(&path).is_none() {
                self.printed.note(path);
            }
        }
    }

    /// What is found in the open texts that changed, or whose manuscripts did.
    pub(super) fn printed_findings(&mut self) -> Vec<PublishDiagnosticsParams> {
        let waiting: Vec<String> =
            self.printed.texts.iter().filter(|(_, text)| !text.is_told).map(|(uri, _)| uri.clone()).collect();
        waiting.iter().filter_map(|uri| self.printed_finding(uri)).collect()
    }

    fn printed_finding(&mut self, uri: &str) -> Option<PublishDiagnosticsParams> {
        let text = self.printed.texts.get_mut(uri)?;
        text.is_told = true;
        let path = text.path.clone();
        let on_disk = text.manuscripts.clone();
        for manuscript in &on_disk {
            self.printed.note(manuscript.clone());
        }
        let mut sources: Vec<Source> = Vec::new();
        let open = self.documents.values().filter(|document| document.kind == FileKind::Manuscript);
        sources.extend(open.map(|document| document.source.clone()).filter(|source| names(source, &path)));
        let is_open = |path: &Path| self.documents.values().any(|document| is_same(&document.source.path, path));
        let others = on_disk.iter().filter(|manuscript| !is_open(manuscript));
        sources.extend(others.filter_map(|manuscript| Source::open(manuscript).ok()));
        let mut diagnostics: Vec<Diagnostic> = Vec::new();
        for source in &sources {
            for diagnostic in self.found_in_text(source, &path) {
                if !diagnostics.contains(&diagnostic) {
                    diagnostics.push(diagnostic);
                }
            }
        }
        let text = self.printed.texts.get_mut(uri)?;
        // Of a file that no manuscript names nothing is said.
        text.was_told |= !sources.is_empty();
        let (uri, version) = (text.uri.clone(), Some(text.version));
        text.was_told.then_some(PublishDiagnosticsParams { uri, version, diagnostics })
    }

    /// What a manuscript finds in one of its texts.
    fn found_in_text(&self, source: &Source, path: &Path) -> Vec<Diagnostic> {
        let settings = self.surroundings.settings(folder_of(&source.path));
        let outcome = check_loading(source, &settings, Corrections::LeftOut, &self.printed.load(&source.path));
        let own = outcome.texts.iter().find(|text| is_same(&text.path, path));
        let manuscript = self.uri_of_manuscript(&source.path);
        let diagnostic = |finding: &Finding| {
            let shown = Shown { uri: self.printed.uri(path), source: &own?.source };
            let of = |other: &Elsewhere| other_place(manuscript.clone(), source, other, self.client);
            let others = finding.elsewhere.iter().map(of).collect();
            Some(diagnostic_in(&shown, finding, self.client, self.options, others))
        };
        own.iter().flat_map(|text| &text.findings).filter_map(diagnostic).collect()
    }

    fn uri_of_manuscript(&self, path: &Path) -> Uri {
        let open = self.documents.values().find(|document| is_same(&document.source.path, path));
        open.map_or_else(|| uri_of(path), |document| document.uri.clone())
    }
}

fn names(source: &Source, path: &Path) -> bool {
    named(source).iter().any(|named| is_same(named, path))
}
