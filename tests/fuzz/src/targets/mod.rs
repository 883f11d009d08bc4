//! What is given inputs, and what must hold of each.
//!
//! A target is a function of bytes and of nothing else: what it chooses at random it chooses by the bytes.

use sparestrip::manuscript::{Source, Span};

use crate::pool::Seen;

mod check;
mod editor;
mod editor_client;
mod fix;
mod house_rules;
mod planner;
mod printed;
mod quantity;
mod reader;
mod sign_off;
pub(crate) mod text;
mod text_files;

/// What the inputs of a target are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// A manuscript.
    Manuscript,
    /// A quantity.
    Quantity,
    /// House rules.
    HouseRules,
    /// Bytes that the target makes numbers of.
    Numbers,
    /// A printed text, after the letter of its format.
    Text,
}

/// Something that is given inputs.
#[derive(Debug)]
pub struct Target {
    /// Its name.
    pub name: &'static str,
    /// What it is given and what is asked, in a few words.
    pub about: &'static str,
    /// What its inputs are.
    pub kind: Kind,
    /// Of a thousand inputs of a run over all targets, how many are its own: fewer where one takes longer.
    pub share: u64,
    /// What says what does not hold.
    pub run: fn(&[u8], &mut Seen) -> Result<(), Fault>,
}

/// Something that does not hold.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fault {
    /// What, in words that are the same for all of its kind.
    pub kind: &'static str,
    /// Where, and of what.
    pub detail: String,
}

impl Fault {
    fn new(kind: &'static str, detail: impl Into<String>) -> Fault {
        Fault { kind, detail: detail.into() }
    }
}

/// All targets. Another is a file beside this one, and a line here.
pub const TARGETS: &[Target] = &[
    quantity::TARGET,
    reader::TARGET,
    check::TARGET,
    fix::TARGET,
    editor::TARGET,
    printed::TARGET,
    planner::TARGET,
    sign_off::TARGET,
    text::TARGET,
    house_rules::TARGET,
];

/// The target of a name.
pub fn named(name: &str) -> Option<&'static Target> {
    TARGETS.iter().find(|target| target.name == name)
}

/// A manuscript from bytes, as a file of it is read.
fn source(input: &[u8]) -> Source {
    Source::from_bytes("fuzzed.pattern.yaml", input.to_vec())
}

/// Whether a place lies in a text and between characters.
fn in_text(text: &str, at: Span, what: &str) -> Result<(), Fault> {
    let lies =
        at.start <= at.end && at.end <= text.len() && text.is_char_boundary(at.start) && text.is_char_boundary(at.end);
    if lies { Ok(()) } else { Err(Fault::new("a place that is none of the text", format!("{at:?} of {what}"))) }
}

/// Says what does not hold where it does not.
fn hold(holds: bool, kind: &'static str, detail: impl FnOnce() -> String) -> Result<(), Fault> {
    if holds { Ok(()) } else { Err(Fault::new(kind, detail())) }
}
