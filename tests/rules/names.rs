//! Names that nobody can see, or tell apart.

use rstest::rstest;

use sparestrip::rule_book::Settings;

/// A manuscript with two names of each kind.
fn named(kind: &str, first: &str, second: &str) -> String {
    let quoted = |name: &str| serde_json::to_string(name).expect("a text");
    let of = |this: &str| {
        let plain = [format!("first {this}"), format!("second {this}")];
        if this == kind { [quoted(first), quoted(second)] } else { plain.map(|name| quoted(&name)) }
    };
    let [[lap, twin], [ink, reed], [a, b], [step, stride], [star, lane]] =
        ["size", "fabric", "piece", "unit", "block"].map(of);
    format!(
        "pattern: Two Names\nmeasure: inch\nsizes: {{ {lap}: {{ finished: 48 x 48 }}, {twin}: {{ finished: 60 x 80 }} }}\n\
         fabrics:\n  {ink}: {{ requires: {{ {lap}: 1 yd, {twin}: 1 yd }}, cut: [ {{ piece: {a}, size: 6 1/2 x 6 1/2, pieces: {{ {lap}: 4, {twin}: 4 }} }} ] }}\n  \
         {reed}: {{ requires: {{ {lap}: 1 yd, {twin}: 1 yd }}, cut: [ {{ piece: {b}, size: 6 1/2 x 6 1/2, pieces: {{ {lap}: 4, {twin}: 4 }} }} ] }}\n\
         units:\n  {step}: {{ make: patch, finished: 6, cut: {{ patch: {a} }} }}\n  {stride}: {{ make: patch, finished: 6, cut: {{ patch: {b} }} }}\n\
         blocks:\n  {star}: {{ finished: 6, rows: [[{step}]] }}\n  {lane}: {{ finished: 6, rows: [[{stride}]] }}\n"
    )
}

fn findings(text: &str) -> Vec<sparestrip::finding::Finding> {
    let source = sparestrip::manuscript::Source::from_text("x.pattern.yaml", text);
    let found = sparestrip::check::check(&source, &Settings::default()).findings;
    found.into_iter().filter(|finding| finding.rule == "repeated-key" || finding.rule == "out-of-range").collect()
}

/// An accent that is part of its letter or a sign of its own; letters of the Cyrillic and the Greek alphabet; a space
/// of another kind or one more; a character without width.
#[rstest]
#[case("caf\u{e9}", "cafe\u{301}")]
#[case("lap", "l\u{430}\u{440}")]
#[case("A", "\u{391}")]
#[case("sea top", "sea\u{a0}top")]
#[case("sea top", "sea  top")]
#[case("lap", "lap ")]
#[case("lap", "l\u{200b}ap")]
fn two_names_that_look_the_same(#[case] first: &str, #[case] second: &str) {
    for kind in ["size", "fabric", "piece", "unit", "block"] {
        let text = named(kind, first, second);
        let found = findings(&text);
        assert_eq!(found.len(), 1, "{kind}: {found:#?}\n{text}");
        assert!(found[0].message.starts_with(&format!("The {kind} \"")), "{}", found[0].message);
        assert_eq!(found[0].rule, "repeated-key");
        assert_ne!(found[0].at.at, found[0].related[0].at);
    }
}

/// Names that can be told apart, in any alphabet; letters and digits that only some typefaces confuse.
#[rstest]
#[case("O", "0")]
#[case("1", "l")]
#[case("corner", "comer")]
#[case("caf\u{e9}", "cafe")]
#[case("Lap", "lap")]
#[case("\u{43a}\u{43e}\u{440}\u{43e}\u{43b}\u{435}\u{432}\u{430}", "\u{434}\u{435}\u{442}\u{441}\u{43a}\u{43e}\u{435}")]
#[case("\u{683c}\u{5b50}", "\u{7e1e}")]
fn names_that_can_be_told_apart(#[case] first: &str, #[case] second: &str) {
    for kind in ["size", "fabric", "piece", "unit", "block"] {
        assert_eq!(findings(&named(kind, first, second)), [], "{kind}");
    }
}

#[rstest]
#[case("")]
#[case(" ")]
#[case("\u{a0}")]
#[case("\u{200b}")]
fn a_name_that_nobody_sees(#[case] name: &str) {
    for kind in ["size", "fabric", "piece", "unit", "block"] {
        let found = findings(&named(kind, name, "lap"));
        let says = |finding: &&sparestrip::finding::Finding| {
            finding.message == format!("The name of a {kind} takes 1 to 60 characters, all of them visible.")
        };
        let says: Vec<_> = found.iter().filter(says).collect();
        assert_eq!(says.len(), 1, "{kind} {name:?}: {found:#?}");
        // Advice about numbers would be of no use.
        assert_eq!(says[0].help, "Give it a short name of letters, numbers and spaces.", "{kind} {name:?}");
    }
}
