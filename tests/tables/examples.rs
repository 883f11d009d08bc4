//! The example manuscripts, right and faulty.

use super::{facts, manuscripts, stated, text_of};

#[test]
fn the_tables_of_each_right_example_hold_what_it_states_and_nothing_else() {
    let files = manuscripts("example-patterns");
    assert_eq!(files.len(), 11, "{files:?}");
    for file in files {
        let text = text_of(&file);
        let expected = stated::facts(&text);
        assert!(expected.len() > 10, "{expected:?}");
        assert_eq!(facts(&text), expected, "{}", file.display());
    }
}

/// A fault in a number that can be read changes nothing: it is printed as it is stated.
#[test]
fn the_tables_of_each_faulty_example_hold_what_can_be_read() {
    let files = manuscripts("example-patterns/with-faults");
    assert_eq!(files.len(), 8, "{files:?}");
    for file in files {
        // What is no YAML for anybody is mended: a name with a colon, and an entry that stands twice.
        let text = text_of(&file)
            .replace("pattern: Salt Marsh: a sampler", "pattern: Salt Marsh")
            .replace("edition: 2 ", "# ");
        let mut expected = stated::facts(&text);
        // Three places that cannot be read, each of which the file says on its line.
        let unreadable = [("piecing seam", "0,25 in"), ("fabric is sold in steps of", "1/80 yd")];
        for (row, shown) in unreadable {
            let place = |last: &str| ["For all sizes", row, "it is", "", last].map(String::from);
            if expected.remove(&place(shown)) {
                expected.insert(place("?"));
            }
        }
        if text.contains("doll: 3 ") {
            expected.insert(["Binding", "strips", "", "doll", "?"].map(String::from));
            expected.insert(["What to buy", "binding", "", "doll", "?"].map(String::from));
            // No such size is listed.
            assert!(expected.remove(&["Binding", "strips", "", "bench", "6"].map(String::from)));
            assert!(expected.remove(&["What to buy", "binding", "", "bench", "1/2 yd"].map(String::from)));
        }
        assert_eq!(facts(&text), expected, "{}", file.display());
    }
}
