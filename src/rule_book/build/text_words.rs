//! The words by which printed texts are read, as Rust, for `src/text/lexicon.rs` to take in.

use std::collections::{BTreeMap, BTreeSet};

/// The table of words: each group with its meanings, and the terms for each.
pub(crate) fn code(bytes: &[u8]) -> Result<String, String> {
    let text = String::from_utf8(bytes.to_vec()).map_err(|error| error.to_string())?;
    let groups: BTreeMap<String, BTreeMap<String, Vec<String>>> =
        serde_yaml::from_str(&text).map_err(|error| error.to_string())?;
    let terms = groups.iter().flat_map(|(group, meanings)| {
        meanings.iter().flat_map(move |(meaning, terms)| {
            terms.iter().map(move |term| format!("    ({group:?}, {meaning:?}, {term:?}),\n"))
        })
    });
    // A house adds its own by these names.
    let values: BTreeSet<String> = groups
        .iter()
        .filter(|(group, _)| ["nouns", "sections", "acts", "makes"].contains(&group.as_str()))
        .flat_map(|(_, meanings)| meanings.keys().map(|meaning| format!("    \"text_{meaning}\",\n")))
        .collect();
    let values: String = values.into_iter().collect();
    let values = format!("static TEXT_VALUES: &[&str] = &[\n{values}];\n");
    Ok(format!("{values}static TERMS: &[(&str, &str, &str)] = &[\n{}];\n", terms.collect::<String>()))
}
