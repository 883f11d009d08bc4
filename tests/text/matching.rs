//! Texts in several styles against the examples: what is right is matched and not blamed, and changes are found.

use std::fs;
use std::path::Path;

use sparestrip::text::State;

use super::matched_by;

/// Each text, and the most of its numbers that may be left unclear.
const TEXTS: [(&str, &str, usize); 10] = [
    ("tide-pools.md", "tide-pools", 3),
    ("cormorant-stair.txt", "cormorant-stair", 1),
    ("tern-colony.md", "tern-colony", 0),
    ("curlew-flat.md", "curlew-flat", 2),
    ("osprey-landing.md", "osprey-landing", 0),
    ("plover-strand.html", "plover-strand", 2),
    ("gull-mat.md", "gull-mat", 0),
    ("birch-window.md", "birch-window", 0),
    ("lantern-quay.md", "lantern-quay", 4),
    ("pebble-ripple.md", "pebble-ripple", 1),
];

/// A text, which may be that of the example itself.
fn text(name: &str) -> String {
    let project = Path::new(env!("CARGO_MANIFEST_DIR"));
    let of_example = project.join("example-patterns").join(name);
    let path = if of_example.is_file() { of_example } else { project.join("tests/text/printed").join(name) };
    String::from_utf8(fs::read(path).expect("a text")).expect("UTF-8")
}

#[test]
fn right_texts_are_matched_and_nothing_in_them_is_blamed() {
    for (name, manuscript, unclear) in TEXTS {
        let matched = matched_by(manuscript, name, &text(name));
        let others =
            matched.numbers.iter().filter(|number| !matches!(number.state, State::Right | State::NotRequired(_)));
        let others: Vec<String> =
            others.map(|number| format!("{} {} {:?}", number.place, number.quoted, number.state)).collect();
        assert_eq!(matched.share.differ, 0, "{name}: {others:#?}");
        assert!(matched.share.unclear <= unclear, "{name}: {others:#?}");
        assert!(matched.share.right > 8, "{name}");
    }
}

/// A number one up or one down, or with its first two digits the other way round.
fn changes(quoted: &str) -> Vec<String> {
    let digits = quoted.bytes().take_while(u8::is_ascii_digit).count();
    let (Ok(whole), rest) = (quoted[..digits].parse::<u64>(), &quoted[digits..]) else { return Vec::new() };
    // The top of a fraction is no number by itself.
    if rest.starts_with('/') {
        return Vec::new();
    }
    let mut changed = vec![format!("{}{rest}", whole + 1)];
    if whole > 1 {
        changed.push(format!("{}{rest}", whole - 1));
    }
    let turned: String = quoted[..digits].chars().rev().collect();
    if turned != quoted[..digits] && !turned.starts_with('0') {
        changed.push(format!("{turned}{rest}"));
    }
    changed
}

#[test]
fn nearly_all_single_changes_are_found_at_the_number() {
    let (mut found, mut made, mut missed) = (0, 0, Vec::new());
    for (name, manuscript, _) in TEXTS {
        let printed = text(name);
        for number in matched_by(manuscript, name, &printed).numbers {
            // What follows from others proves a number right, and not always one wrong.
            let follows =
                number.matched.iter().any(|matched| matched.contains('(') || matched.starts_with("usable width"));
            if number.state != State::Right || follows || number.at.text(&printed) != number.quoted {
                continue;
            }
            // One change of each number, of another kind each time.
            let changes = changes(&number.quoted);
            if let Some(change) = changes.get(made % changes.len().max(1)) {
                let altered = format!("{}{change}{}", &printed[..number.at.start], &printed[number.at.end..]);
                let after = matched_by(manuscript, name, &altered);
                let is_here = |at: usize| at + 2 >= number.at.start && at <= number.at.start + change.len();
                let is_found = after.numbers.iter().any(|other| {
                    is_here(other.at.start)
                        && matches!(other.state, State::Differs | State::OtherHalf | State::ByItself)
                });
                made += 1;
                found += usize::from(is_found);
                if !is_found {
                    missed.push(format!("{name} {}: {} as {change}", number.place, number.quoted));
                }
            }
        }
    }
    assert!(made > 300, "{made}");
    assert!(found * 100 >= made * 93, "{found} of {made}:\n{}", missed.join("\n"));
}
