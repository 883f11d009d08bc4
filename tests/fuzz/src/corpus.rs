//! What inputs begin as: the pages of the rule book, the example manuscripts, and inputs that once failed.

use std::fs;
use std::path::{Path, PathBuf};

use sparestrip::report::WRITTEN;
use sparestrip::rule_book::book;

use crate::rng::Rng;
use crate::targets::{Kind, text};

/// The folder of the project.
pub fn project() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

/// Inputs that once failed, in a folder for each target.
pub fn found_folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("corpus")
}

/// The seeds of a target: those of its kind, and what was found with it.
pub fn seeds(target: &str, kind: Kind) -> Vec<Vec<u8>> {
    let mut seeds = match kind {
        Kind::Manuscript => manuscripts(),
        Kind::Quantity => quantities(),
        Kind::HouseRules => house_rules(),
        Kind::Numbers => numbers(),
        Kind::Text => text::seeds(),
    };
    seeds.extend(files(&found_folder().join(target)));
    seeds
}

/// The manuscripts of the rule book and the examples.
pub fn manuscripts() -> Vec<Vec<u8>> {
    let mut texts: Vec<Vec<u8>> = Vec::new();
    for page in book() {
        let examples = [Some(&page.fails), Some(&page.passes), page.signed.as_ref()];
        texts.extend(examples.into_iter().flatten().map(|example| example.text().into_bytes()));
    }
    let examples = project().join("example-patterns");
    for folder in [examples.clone(), examples.join("with-faults"), examples.join("signed-off")] {
        texts.extend(files(&folder).into_iter().filter(|text| text.starts_with(b"# ") && !text.starts_with(b"# Who")));
    }
    texts
}

fn quantities() -> Vec<Vec<u8>> {
    let written = WRITTEN.iter().flat_map(|(_, examples)| examples.iter());
    written.map(|example| example.as_bytes().to_vec()).collect()
}

/// A file of house rules for each page, with its level and its values.
fn house_rules() -> Vec<Vec<u8>> {
    let of_page = |page: &sparestrip::rule_book::Page| {
        let mut text = format!("measure: inch\nlevels:\n  {}: query\n", page.name);
        if !page.values.is_empty() {
            text.push_str("values:\n");
        }
        for value in page.values {
            text.push_str(&format!("  {}: {}\n", value.name, value.text));
        }
        text.into_bytes()
    };
    book().iter().map(of_page).collect()
}

/// Bytes that a target makes numbers of.
fn numbers() -> Vec<Vec<u8>> {
    let mut rng = Rng::new(1);
    let bytes = |rng: &mut Rng, length| (0..length).map(|_| rng.number().to_le_bytes()[0]).collect();
    (1..40).map(|length| bytes(&mut rng, length)).collect()
}

/// The contents of the files of a folder, by name; none where there is no such folder.
pub fn files(folder: &Path) -> Vec<Vec<u8>> {
    let Ok(entries) = fs::read_dir(folder) else { return Vec::new() };
    let mut paths: Vec<PathBuf> = entries.filter_map(Result::ok).map(|entry| entry.path()).collect();
    paths.sort();
    paths.into_iter().filter(|path| path.is_file()).filter_map(|path| fs::read(path).ok()).collect()
}
