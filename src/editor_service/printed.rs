//! Printed texts that are open in the editor: their findings, by the manuscripts that name them.
//!
//! A manuscript is checked against the text as it is in the editor, saved or not. What is not open is read from disk, and
//! looked at again when it was written.

use std::cell::{OnceCell, RefCell};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::{Duration, SystemTime};

use gen_lsp_types::{Diagnostic, PublishDiagnosticsParams, TextDocumentContentChangeEvent as ContentChange, Uri};

use super::Service;
use super::document::{Document, change_text};
use super::findings::{Shown, diagnostic_in, other_place};
use crate::check::{Corrections, check_loading};
use crate::discover::folder_of;
use crate::finding::{Elsewhere, Finding};
use crate::manuscript::{PositionEncoding, Source};
use crate::text::{TextFile, beside, manuscripts_naming, path_of as text_path};
use crate::uri::path_of;

/// A printed text that is open.
#[derive(Debug)]
pub(super) struct Printed {
    /// What the editor calls it.
    pub(super) uri: Uri,
    version: i32,
    text: String,
    /// The same, read, once somebody asked for it.
    file: OnceCell<Arc<TextFile>>,
    path: PathBuf,
    /// The manuscripts on disk that name it.
    manuscripts: Vec<PathBuf>,
    /// Whether the editor was told what is found in it now, and whether it was ever told anything.
    is_told: bool,
    was_told: bool,
}

/// What the folder said of a file: when it was written, and how long it is.
type Stamp = Option<(SystemTime, u64)>;

/// A file on disk that an open text is checked with.
#[derive(Debug)]
struct OnDisk {
    /// What the folder said of it before it was read first.
    stamp: Stamp,
    /// What it says, where it is a printed text, and so old that another save of it would have another stamp.
    text: Option<Arc<TextFile>>,
}

/// How coarse the clock of a disk may be.
const COARSE: Duration = Duration::from_millis(2500);

/// The open printed texts, and the files on disk that open texts are checked with.
#[derive(Debug, Default)]
pub(super) struct OpenTexts {
    texts: BTreeMap<String, Printed>,
    on_disk: RefCell<BTreeMap<PathBuf, OnDisk>>,
}

impl Printed {
    /// The text as it is in the editor.
    fn file(&self) -> Arc<TextFile> {
        let read = || Arc::new(TextFile::new(self.path.clone(), self.text.clone().into_bytes()));
        Arc::clone(self.file.get_or_init(read))
    }
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
    pub(super) fn load<'t>(&'t self, manuscript: &Path) -> impl Fn(&str) -> Result<Arc<TextFile>, String> + 't {
        let (manuscript, on_disk) = (manuscript.to_path_buf(), beside(manuscript));
        move |name| {
            let path = text_path(&manuscript, name);
            match self.at(&path) {
                Some(text) => Ok(text.file()),
                None => self.read_from_disk(path, || on_disk(name)),
            }
        }
    }

    /// A text on disk: as it was read before, until its folder says that it was written since.
    fn read_from_disk(
        &self,
        path: PathBuf,
        read: impl FnOnce() -> Result<Arc<TextFile>, String>,
    ) -> Result<Arc<TextFile>, String> {
        if let Some(text) = self.on_disk.borrow().get(&path).and_then(|known| known.text.clone()) {
            return Ok(text);
        }
        let now = stamp(&path);
        let text = read();
        let mut on_disk = self.on_disk.borrow_mut();
        let known = on_disk.entry(path).or_insert(OnDisk { stamp: now, text: None });
        let is_old = now.is_some_and(|(written, _)| written.elapsed().is_ok_and(|age| age > COARSE));
        known.text = text.clone().ok().filter(|_| is_old && known.stamp == now);
        text
    }

    /// What the editor calls a file: as it named it where it is open.
    pub(super) fn uri(&self, path: &Path) -> Uri {
        self.at(path).map_or_else(|| uri_of(path), |text| text.uri.clone())
    }

    /// Notes how a manuscript on disk is before it is read.
    fn note(&self, path: &Path) {
        self.on_disk.borrow_mut().insert(path.to_path_buf(), OnDisk { stamp: stamp(path), text: None });
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

impl Service {
    /// A file that is no manuscript was opened: it may be a text that one names.
    pub(super) fn open_printed(&mut self, uri: Uri, version: i32, text: String) {
        let path = path_of(&uri.0);
        let manuscripts = manuscripts_naming(&path);
        let name = uri.0.clone();
        let file = OnceCell::new();
        let text = Printed { uri, version, text, file, path, manuscripts, is_told: false, was_told: false };
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
        (text.version, text.file, text.is_told) = (version, OnceCell::new(), false);
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
        self.documents.values_mut().filter(|document| names(document, path)).for_each(Document::forget);
    }

    /// Looks at the files on disk that open texts are checked with.
    pub(super) fn look_at_printed(&mut self) {
        let on_disk = self.printed.on_disk.get_mut();
        if on_disk.iter().all(|(path, known)| stamp(path) == known.stamp) {
            return;
        }
        on_disk.clear();
        self.printed.tell_again();
        for text in self.printed.texts.values_mut() {
            text.manuscripts = manuscripts_naming(&text.path);
        }
        self.documents.values_mut().filter(|document| !document.texts().is_empty()).for_each(Document::forget);
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
            self.printed.note(manuscript);
        }
        let mut sources: Vec<Source> = Vec::new();
        let open = self.documents.values().filter(|document| names(document, &path));
        sources.extend(open.map(|document| document.source.clone()));
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
        let own = outcome.texts.iter().find(|text| is_same(text.path(), path));
        let manuscript = self.uri_of_manuscript(&source.path);
        let diagnostic = |finding: &Finding| {
            let shown = Shown { uri: self.printed.uri(path), source: own?.source() };
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

fn names(document: &Document, path: &Path) -> bool {
    document.texts().iter().any(|(named, _)| is_same(named, path))
}
