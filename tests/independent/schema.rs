//! Right manuscripts, as they are generated, validate against the schema that the program prints.

use sparestrip::report::manuscript_schema;

use super::{backing_generate, bias, design, fabrics, generate, rng, whole};

/// How many manuscripts of each kind.
const OF_EACH: u64 = 100;

#[test]
fn right_manuscripts_validate_against_the_schema() {
    let validator = jsonschema::validator_for(&manuscript_schema()).unwrap();
    let kinds: [fn(u64) -> String; 6] = [
        |index| generate::exact(&mut rng(1, index)).text().0,
        |index| backing_generate::exact(&mut rng(11, index)).text().0,
        bias::right_text,
        design::right_text,
        fabrics::right_text,
        whole::right_text,
    ];
    for text in (0..OF_EACH).flat_map(|index| kinds.iter().map(move |kind| kind(index))) {
        let value: serde_yaml::Value = serde_yaml::from_str(&text).unwrap_or_else(|error| panic!("{error} in\n{text}"));
        let json = serde_json::to_value(&value).unwrap();
        let errors: Vec<String> =
            validator.iter_errors(&json).map(|error| format!("{error} at {}", error.instance_path())).collect();
        assert!(errors.is_empty(), "{errors:#?}\n{text}");
    }
}
