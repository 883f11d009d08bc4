//! The objects of SARIF that are written, as the standard names them.

use std::collections::BTreeMap;

use serde::Serialize;

#[derive(Serialize)]
pub(super) struct Tool {
    pub(super) driver: Component,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
pub(super) struct Component {
    pub(super) name: &'static str,
    pub(super) version: &'static str,
    pub(super) semantic_version: &'static str,
    pub(super) rules: Vec<Rule>,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
pub(super) struct Rule {
    pub(super) id: &'static str,
    pub(super) short_description: Message,
    pub(super) full_description: Message,
    pub(super) help: Message,
    pub(super) default_configuration: Configuration,
}

#[derive(Serialize)]
pub(super) struct Configuration {
    pub(super) level: &'static str,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
pub(super) struct Invocation {
    pub(super) execution_successful: bool,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub(super) tool_execution_notifications: Vec<Notification>,
}

#[derive(Serialize)]
pub(super) struct Notification {
    pub(super) level: &'static str,
    pub(super) message: Message,
    pub(super) locations: [Location; 1],
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
pub(super) struct ResultLog<'a> {
    pub(super) rule_id: &'a str,
    pub(super) rule_index: usize,
    pub(super) level: &'static str,
    pub(super) message: Message,
    pub(super) locations: [Location; 1],
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub(super) related_locations: Vec<Location>,
    pub(super) partial_fingerprints: BTreeMap<&'static str, String>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub(super) fixes: Vec<Fix>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub(super) suppressions: Vec<Suppression<'a>>,
    pub(super) properties: Properties<'a>,
}

/// What is told beside the standard's own words.
#[derive(Serialize)]
pub(super) struct Properties<'a> {
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) size: Option<&'a str>,
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    pub(super) subject: BTreeMap<&'static str, &'a str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) stated: Option<&'a str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) needed: Option<&'a str>,
}

#[derive(Serialize)]
pub(super) struct Suppression<'a> {
    pub(super) kind: &'static str,
    pub(super) status: &'static str,
    pub(super) justification: &'a str,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
pub(super) struct Fix {
    pub(super) description: Message,
    pub(super) artifact_changes: [ArtifactChange; 1],
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
pub(super) struct ArtifactChange {
    pub(super) artifact_location: ArtifactLocation,
    pub(super) replacements: [Replacement; 1],
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
pub(super) struct Replacement {
    pub(super) deleted_region: Region,
    pub(super) inserted_content: Content,
}

#[derive(Serialize)]
pub(super) struct Content {
    pub(super) text: String,
}

#[derive(Serialize)]
pub(super) struct Artifact {
    pub(super) location: ArtifactLocation,
    pub(super) roles: [&'static str; 1],
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
pub(super) struct ArtifactLocation {
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) uri: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) uri_base_id: Option<&'static str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) index: Option<usize>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) description: Option<Message>,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
pub(super) struct Location {
    pub(super) physical_location: PhysicalLocation,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) message: Option<Message>,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
pub(super) struct PhysicalLocation {
    pub(super) artifact_location: ArtifactLocation,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) region: Option<Region>,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
pub(super) struct Region {
    pub(super) start_line: usize,
    pub(super) start_column: usize,
    pub(super) end_line: usize,
    pub(super) end_column: usize,
    pub(super) byte_offset: usize,
    pub(super) byte_length: usize,
}

/// Words for people.
#[derive(Serialize)]
pub(super) struct Message {
    text: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    markdown: Option<String>,
}

impl Message {
    /// Plain words. A brace would begin a place to be filled in, and a bracket before a parenthesis would end a link:
    /// the standard has other spellings for what only looks like these.
    pub(super) fn new(text: &str) -> Message {
        Message { text: literal(text), markdown: None }
    }

    /// Words of the rule book, with another form for programs that show Markdown.
    pub(super) fn with_markdown(self, markdown: &str) -> Message {
        Message { markdown: Some(markdown.replace('{', "{{").replace('}', "}}")), ..self }
    }
}

fn literal(text: &str) -> String {
    text.replace('{', "{{").replace('}', "}}").replace("](", "\\](")
}
