//! The cautions: cribs, and blades, irons and needles.

use super::GOOD;
use super::support::{folder_with, run, write};

const CRIB: &str = "safe-sleep guidance";

/// The good manuscript with a size in place of the crib.
fn with_size(name: &str, finished: &str) -> String {
    let text = GOOD.replace("crib:  { finished: 36 x 48 }", &format!("{name}: {{ finished: {finished} }}"));
    text.replace("crib: ", &format!("{name}: "))
}

/// What a command prints about the good manuscript with that size, on one line.
fn told(words: &[&str], text: &str) -> String {
    let (folder, _) = folder_with("x.pattern.yaml", text);
    let words: Vec<&str> = words.iter().copied().chain(["x.pattern.yaml"]).collect();
    run(folder.path(), &words).out.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn check_tells_once_that_a_quilt_would_fit_a_crib() {
    let two =
        GOOD.replace("crib:  { finished: 36 x 48 }", "crib:  { finished: 36 x 48 }\n  baby: { finished: 30 x 40 }");
    for (text, head) in [(GOOD, "crib size (crib)"), (&two, "crib sizes (crib, baby)")] {
        let out = told(&["check"], text);
        assert_eq!(out.matches(CRIB).count(), 1, "{out}");
        assert!(out.contains(&format!("caution: {head} at x.pattern.yaml:9:3")), "{out}");
    }
    assert!(told(&["check", "--format", "json"], GOOD).contains(CRIB));
}

#[test]
fn check_tells_the_caution_once_for_many_manuscripts() {
    let (folder, _) = folder_with("x.pattern.yaml", GOOD);
    write(&folder.path().join("y.pattern.yaml"), with_size("bassinet", "60 x 70"));
    write(&folder.path().join("z.pattern.yaml"), with_size("bed", "60 x 70"));
    let out = run(folder.path(), &["check"]).out;
    assert_eq!(out.matches("safe-sleep").count(), 1, "{out}");
    let heads: Vec<&str> = out.lines().filter(|line| line.starts_with("caution: ")).collect();
    let [crib, bassinet] = &heads[..] else { panic!("{out}") };
    assert!(crib.contains("(crib)") && crib.ends_with("x.pattern.yaml:9:3"), "{out}");
    assert!(bassinet.contains("(bassinet)") && bassinet.ends_with("y.pattern.yaml:9:3"), "{out}");
}

/// What is to be corrected stands nearest to the prompt.
#[test]
fn the_caution_stands_before_the_errors() {
    let out = told(&["check"], &GOOD.replace("throw: { strips: 9", "throw: { strips: 6"));
    let (caution, error) = (out.find("caution: "), out.find("error: binding-short (throw"));
    assert!(caution.is_some() && error.is_some() && caution < error, "{out}");
}

#[test]
fn the_caution_follows_from_the_quilt_and_not_from_its_name_alone() {
    // The mattress of 28 x 52 3/8 in, and 10 in beyond it at both sides and at the foot.
    for (name, finished, is_due) in [
        ("small", "48 x 62 3/8", true),
        ("small", "62 3/8 x 48", true),
        ("small", "48 1/8 x 62 3/8", false),
        ("small", "48 x 62 1/2", false),
        ("small", "121.9 cm x 158.4 cm", true),
        ("small", "122 cm x 158.4 cm", false),
        ("bassinet", "60 x 70", true),
        ("Babydecke", "60 x 70", true),
        ("berceau", "60 x 70", true),
        ("cuna", "60 x 70", true),
        ("wieg", "60 x 70", true),
        ("culla", "60 x 70", true),
        ("vauva", "60 x 70", true),
        ("cottage", "60 x 70", false),
        // What covers nobody is not judged by its measurements; what is called a baby's is due all the same.
        ("cushion", "18 x 18", false),
        ("placemats", "12 x 18", false),
        ("table runner", "16 x 48", false),
        ("wall hanging", "36 x 40", false),
        ("baby cushion", "18 x 18", true),
        ("shamrock", "36 x 48", true),
        ("lap", "48 x 48", true),
    ] {
        let out = told(&["check"], &with_size(name, finished));
        assert_eq!(out.contains(CRIB), is_due, "{name} {finished}: {out}");
    }
    let packaged = with_size("small", "60 x 70")
        + "batting:\n  requires: { small: packaged crib, throw: 62 x 80, queen: 98 x 104 }\n";
    assert!(told(&["check"], &packaged).contains(CRIB));
    assert!(
        told(&["check"], &with_size("small", "60 x 70").replace("Harbour Lanterns", "Nursery Lanterns")).contains(CRIB)
    );
}

#[test]
fn a_house_adds_its_own_words() {
    let text = with_size("snuggle", "60 x 70");
    let (folder, _) = folder_with("x.pattern.yaml", &text);
    let out = || run(folder.path(), &["check"]).out;
    assert!(!out().contains("safe-sleep"));
    write(&folder.path().join("house-rules.yaml"), "values: { crib_words: [snuggle, cuddle] }\n");
    assert!(out().contains("safe-sleep"));
    write(&folder.path().join("house-rules.yaml"), "values: { crib_words: snuggle }\n");
    assert!(out().contains("safe-sleep"));
    let lap = |house: &str| {
        write(&folder.path().join("x.pattern.yaml"), with_size("lap", "48 x 48"));
        write(&folder.path().join("house-rules.yaml"), house);
        out().contains("safe-sleep")
    };
    assert!(lap("values: { crib_words: snuggle }\n") && !lap("values: { other_use_words: lap }\n"));
    // Those of the book stay.
    write(&folder.path().join("x.pattern.yaml"), with_size("bassinet", "60 x 70"));
    assert!(out().contains("safe-sleep"));
}

#[test]
fn blades_irons_and_needles_stand_wherever_cutting_is_described() {
    let outputs: [&[&str]; 6] = [
        &["tables"],
        &["tables", "--format", "csv"],
        &["tables", "--format", "html"],
        &["worksheet"],
        &["worksheet", "--format", "json"],
        &["worksheet", "--html=-"],
    ];
    for words in outputs {
        let out = told(words, GOOD).replace("&#x27;", "'").replace("&#39;", "'");
        for hurt in ["blades", "irons", "needles", "makers' instructions", "safety codes", CRIB] {
            assert!(out.contains(hurt), "{hurt}: {words:?}: {out}");
        }
        assert_eq!(out.matches("(cot)").count(), 1, "{words:?}");
        let large = with_size("small", "60 x 70");
        assert!(!told(words, &large).contains(CRIB), "{words:?}");
    }
}
