//! The schema that OASIS publishes, with its formats (such as `uri`) checked as well.

use std::sync::OnceLock;

use jsonschema::{Draft, Validator};
use serde_json::{Value, json};

const SCHEMA: &str = include_str!("schema/sarif-schema-2.1.0.json");

/// The two patterns of the schema that have a bracket too many, for the name of a language. The reader of the schema
/// refuses them, and nothing here states a language.
const TORN: &str = "^[a-zA-Z]{2}|^[a-zA-Z]{2}-[a-zA-Z]{2}]?$";

fn validator() -> &'static Validator {
    static VALIDATOR: OnceLock<Validator> = OnceLock::new();
    VALIDATOR.get_or_init(|| {
        let mut schema: Value = serde_json::from_str(SCHEMA).unwrap();
        for of in ["run", "toolComponent"] {
            let language = &mut schema["definitions"][of]["properties"]["language"];
            assert_eq!(language.as_object_mut().unwrap().remove("pattern"), Some(json!(TORN)));
        }
        jsonschema::options().with_draft(Draft::Draft7).should_validate_formats(true).build(&schema).unwrap()
    })
}

/// Fails with everything that the schema does not allow.
pub(super) fn is_valid(sarif: &Value) {
    assert_eq!(sarif["runs"][0].get("language"), None);
    let errors = validator().iter_errors(sarif);
    let errors: Vec<String> = errors.map(|error| format!("{}: {error}", error.instance_path())).collect();
    assert!(errors.is_empty(), "{}", errors.join("\n"));
}

/// The schema would find mistakes: otherwise the other tests would say nothing.
#[test]
fn the_schema_finds_what_is_wrong() {
    let good = || {
        json!({ "version": "2.1.0", "runs": [ { "tool": { "driver": { "name": "x", "rules": [] } }, "results": [
            { "ruleId": "a", "message": { "text": "b" }, "locations": [ { "physicalLocation": {
                "artifactLocation": { "uri": "a%20b.yaml" }, "region": { "startLine": 1 } } } ] } ] } ] })
    };
    assert!(validator().is_valid(&good()));
    let place = "/runs/0/results/0/locations/0/physicalLocation";
    for (path, value) in [
        ("/version", json!("2.0.0")),
        ("/runs/0/tool/driver", json!({})),
        ("/runs/0/tool/driver/rules", json!([{ "id": "a" }, { "id": "a" }])),
        ("/runs/0/results/0/message", json!({ "txt": "b" })),
        (&format!("{place}/artifactLocation/uri"), json!("a b.yaml")),
        (&format!("{place}/artifactLocation/uri"), json!("a\\b%zz.yaml")),
        (&format!("{place}/region/startLine"), json!(0)),
    ] {
        let mut bad = good();
        *bad.pointer_mut(path).unwrap() = value;
        assert!(!validator().is_valid(&bad), "{path}");
    }
}
