//! The licences of the libraries: each text once, under the names of all that have it.

use std::collections::BTreeMap;
use std::path::Path;
use std::{fs, io};

use crate::inside::{Inside, Library, name_of};

/// How the names of files with a licence begin.
const NAMES: [&str; 6] = ["LICENSE", "LICENCE", "COPYING", "COPYRIGHT", "NOTICE", "UNLICENSE"];

const HEAD: &str = "The program contains these libraries, each under the terms that stand after its name. Below are the texts that \
    came with them.\n\n";

const LINE: &str = "----------------------------------------------------------------------";

/// All of them as one text.
pub(crate) fn licenses(inside: &Inside) -> io::Result<String> {
    let mut text = HEAD.to_string();
    let mut by_text: BTreeMap<String, Vec<String>> = BTreeMap::new();
    let mut without = Vec::new();
    for library in &inside.libraries {
        let title = title(library);
        text.push_str(&format!("{title}: {}\n", library.license()));
        let folder = library.package.manifest_path.parent().map(|folder| folder.as_std_path().to_path_buf());
        let found = texts(&folder.unwrap_or_default())?;
        if found.is_empty() {
            without.push(format!("{title}: {}, by {}", library.license(), library.package.authors.join(", ")));
        }
        for found in found {
            let of_text = by_text.entry(found).or_default();
            if !of_text.contains(&title) {
                of_text.push(title.clone());
            }
        }
    }
    if !without.is_empty() {
        text.push_str(
            "\nThese came without a text; that of another library under the same licence says their terms:\n",
        );
        text.push_str(&without.iter().map(|library| format!("{library}\n")).collect::<String>());
        eprintln!("without a licence file: {}", without.join("; "));
    }
    for (license, libraries) in by_text {
        text.push_str(&format!("\n{LINE}\n{}\n{LINE}\n\n{license}\n", libraries.join(", ")));
    }
    Ok(text)
}

fn title(library: &Library) -> String {
    let (name, version) = name_of(&library.package);
    format!("{name} {version}")
}

/// The texts of the licences in a folder and in those under it, with plain line ends: a library may hold others. What only
/// its tests use is not inside.
fn texts(folder: &Path) -> io::Result<Vec<String>> {
    let mut texts = Vec::new();
    let mut paths: Vec<_> = fs::read_dir(folder)?.filter_map(Result::ok).map(|entry| entry.path()).collect();
    paths.sort();
    for path in paths {
        let name = path.file_name().map(|name| name.to_string_lossy().to_uppercase()).unwrap_or_default();
        if path.is_dir() {
            if name != "TESTS" && !name.starts_with('.') {
                texts.extend(self::texts(&path)?);
            }
        } else if NAMES.iter().any(|start| name.starts_with(start)) {
            texts.extend(fs::read_to_string(&path).ok());
        }
    }
    let plain = |text: String| text.replace("\r\n", "\n").trim().to_string();
    Ok(texts.into_iter().map(plain).filter(|text| !text.is_empty()).collect())
}
