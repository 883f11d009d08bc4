//! A number of a printed text in a finding: what it is quoted as, what it is about, where the manuscript has it.

use crate::finding::{Elsewhere, Finding, Label, Subject, SubjectKind};
use crate::manuscript::{Manuscript, Source};
use crate::rules::Context;
use crate::text::{Cue, Key, Reading, TextFile};

/// A text that was read, with its place among those that the manuscript names.
pub(in crate::rules) struct InText<'a> {
    pub(in crate::rules) index: usize,
    pub(in crate::rules) file: &'a TextFile,
    pub(in crate::rules) reading: &'a Reading<'a>,
}

/// The texts that were read.
pub(in crate::rules) fn texts<'a>(context: &'a Context<'a>) -> impl Iterator<Item = InText<'a>> {
    context.texts.iter().enumerate().filter_map(|(index, text)| {
        let (file, reading) = text.read.as_ref().ok()?;
        Some(InText { index, file, reading })
    })
}

impl InText<'_> {
    /// A finding at bytes of a passage, with the words round them as what it is about.
    pub(in crate::rules) fn finding(
        &self,
        passage: usize,
        at: &std::ops::Range<usize>,
        sentence: &std::ops::Range<usize>,
        label: &str,
        message: String,
    ) -> Finding {
        let quote = self.file.quote(passage, at, sentence);
        let at = Label::new(self.file.span(passage, at.clone()), label);
        Finding::new(at, message).about(Subject::of(SubjectKind::Quote, quote)).in_text(self.index)
    }

    /// As it stands in the text.
    pub(in crate::rules) fn written(&self, passage: usize, at: &std::ops::Range<usize>) -> String {
        self.file.printed.passages[passage].text[at.clone()].to_string()
    }
}

/// Where the manuscript states a number, in words with the place, and to point at.
pub(in crate::rules) fn stated_at(source: &Source, reading: &Reading<'_>, key: &Key) -> (String, Elsewhere) {
    let place = source.place(key.at.start);
    let name = source.path.file_name().map_or_else(String::new, |name| name.to_string_lossy().into_owned());
    let size = reading.keys.size(key).map(|size| format!(" for {size}")).unwrap_or_default();
    let what = format!("{}{size}", reading.keys.name(key));
    let words = format!("{what}, at {name}:{}:{}", place.line, place.column);
    let label = format!("{what}: {}", reading.keys.value(key, source));
    (words, Elsewhere::new(source, key.at, label))
}

/// The fabric, the piece, the unit, the block or the border that cues name, as a subject.
pub(in crate::rules) fn subject_of(manuscript: &Manuscript, of: &[Cue]) -> Subject {
    let add = |subject: Subject, cue: &Cue| match cue {
        Cue::Fabric(place) => match manuscript.fabrics.get(*place) {
            Some(fabric) => subject.and(SubjectKind::Fabric, fabric.name.clone()),
            None => subject,
        },
        Cue::Piece(place, cut) => {
            let cut = manuscript.fabrics.get(*place).and_then(|fabric| fabric.cut.get(*cut));
            let name = cut.and_then(|cut| cut.piece.stated()).map(|piece| piece.value.clone());
            name.map_or(subject.clone(), |name| subject.and(SubjectKind::Piece, name))
        }
        _ => subject,
    };
    let subject = of.iter().fold(Subject::default(), add);
    if subject.is_empty() { of.iter().find_map(section_word).map_or(subject, Subject::number) } else { subject }
}

fn section_word(cue: &Cue) -> Option<&'static str> {
    if let Cue::Section(section) = cue { Some(section.word()) } else { None }
}
