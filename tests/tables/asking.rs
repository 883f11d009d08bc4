//! `sparestrip tables` as its users type it.

use rstest::rstest;

use super::text_of;
use crate::support::{GOOD, folder_with, run, run_with_input, write};

#[test]
fn markdown_is_what_is_printed_unless_another_format_is_asked_for() {
    let (folder, _) = folder_with("x.pattern.yaml", GOOD);
    let plain = run(folder.path(), &["tables", "x.pattern.yaml"]);
    assert_eq!((plain.status, plain.err.as_str()), (Some(0), ""));
    assert!(plain.out.starts_with("# Harbour Lanterns, edition 1\n"), "{}", plain.out);
    plain.is_tame("markdown");
    assert_eq!(run(folder.path(), &["tables", "x.pattern.yaml", "--format", "markdown"]).out, plain.out);
    assert_eq!(run_with_input(folder.path(), &["tables", "-"], GOOD.as_bytes()).out, plain.out);
    let html = run(folder.path(), &["tables", "x.pattern.yaml", "--format", "html"]);
    assert!(html.out.starts_with("<!DOCTYPE html>\n"), "{}", html.out);
    let csv = run(folder.path(), &["tables", "x.pattern.yaml", "--format", "csv"]);
    assert!(csv.out.contains("\r\nHarbour Lanterns,1,Binding,strips,,queen,12\r\n"), "{}", csv.out);
}

#[test]
fn a_file_is_written_where_it_is_asked_for_and_said_to_be() {
    let (folder, _) = folder_with("x.pattern.yaml", GOOD);
    let printed = run(folder.path(), &["tables", "x.pattern.yaml"]).out;
    let ran = run(folder.path(), &["tables", "x.pattern.yaml", "--output", "tables.md"]);
    assert_eq!((ran.status, ran.out.as_str(), ran.err.as_str()), (Some(0), "", "sparestrip: wrote tables.md\n"));
    assert_eq!(text_of(&folder.path().join("tables.md")), printed);
}

#[rstest]
#[case("x.pattern.yaml", "y.pattern.yaml")]
#[case("x.pattern.yaml", "x.pattern.yaml")]
#[case("x.pattern.yaml", "house-rules.yaml")]
#[case("x.pattern.yaml", "sign-offs.yaml")]
#[case("notes.txt", "notes.txt")]
#[case("notes.txt", "./notes.txt")]
fn nothing_is_written_over_what_a_person_wrote(#[case] from: &str, #[case] to: &str) {
    let (folder, _) = folder_with(from, GOOD);
    if from != to && to != "./notes.txt" {
        write(&folder.path().join(to), "mine");
    }
    let before = text_of(&folder.path().join(to));
    let ran = run(folder.path(), &["tables", from, "--output", to]);
    assert_eq!((ran.status, ran.out.as_str()), (Some(2), ""));
    assert!(ran.err.contains("nothing is written over it"), "{}", ran.err);
    assert_eq!(text_of(&folder.path().join(to)), before);
}

/// The same as in `check`: a script that publishes must not go on with a pattern that has an error.
#[test]
fn the_status_is_that_of_a_check() {
    let error = GOOD.replace("strips: 12", "strips: 11");
    let (folder, _) = folder_with("x.pattern.yaml", &error);
    let ran = run(folder.path(), &["tables", "x.pattern.yaml"]);
    assert_eq!(ran.status, Some(1));
    assert!(ran.err.contains("x.pattern.yaml has 1 error;") && ran.err.contains("sparestrip check"), "{}", ran.err);
    // What is stated, not what is needed.
    assert!(ran.out.lines().any(|line| line.starts_with("| strips") && line.ends_with("| 11    |")), "{}", ran.out);
    let accepted =
        format!("{error}accepted: [ {{ rule: spare-strip, size: queen, stated: 11, because: the kit packs one }} ]\n");
    write(&folder.path().join("x.pattern.yaml"), accepted);
    assert_eq!(run(folder.path(), &["tables", "x.pattern.yaml"]).status, Some(0));
    write(&folder.path().join("x.pattern.yaml"), &error);
    write(&folder.path().join("house-rules.yaml"), "levels: { spare-strip: note }\n");
    assert_eq!(run(folder.path(), &["tables", "x.pattern.yaml"]).status, Some(0));
}

#[test]
fn what_cannot_be_done_is_2() {
    let (folder, _) = folder_with("x.pattern.yaml", "");
    let ran = run(folder.path(), &["tables", "x.pattern.yaml"]);
    assert_eq!((ran.status, ran.out.as_str()), (Some(2), ""));
    assert!(ran.err.contains("x.pattern.yaml states nothing that tables could be made of"), "{}", ran.err);
    let ran = run(folder.path(), &["tables", "gone.pattern.yaml"]);
    assert_eq!((ran.status, ran.out.as_str(), ran.err.lines().count()), (Some(2), "", 1));
    let ran = run(folder.path(), &["tables", "x.pattern.yaml", "--format", "xml"]);
    assert_eq!((ran.status, ran.out.as_str()), (Some(2), ""));
}

/// National safe-sleep guidance concerns every quilt that would fit a crib; the tables go to people who make one.
#[test]
fn cautions_stand_where_they_are_due() {
    let crib = "safe-sleep guidance";
    let tables = |text: &str| run_with_input(&std::env::temp_dir(), &["tables", "-"], text.as_bytes()).out;
    assert!(tables(GOOD).contains(crib) && tables(GOOD).contains("blade"));
    let without =
        GOOD.replace("crib:  { finished: 36 x 48 }", "cottage:  { finished: 50 x 60 }").replace("crib", "cottage");
    assert!(!tables(&without).contains(crib) && tables(&without).contains("blade"));
    for name in ["Baby quilt", "cot-size", "small (crib)", "Bassinet", "Kinderwagendecke", "lit de bébé", "spädbarn"]
    {
        assert!(tables(&without.replace("cottage", &format!("\"{name}\""))).contains(crib), "{name}");
    }
    let by_its_bed = GOOD
        .replace("crib:  { finished: 36 x 48 }", "small:  { finished: 36 x 60, for: crib }")
        .replace("crib", "small");
    let by_its_bed = by_its_bed.replace("for: small", "for: crib");
    assert!(tables(&by_its_bed).contains(crib), "{by_its_bed}");
    let nothing_to_cut = "pattern: Moor\nmeasure: inch\nsizes: { lap: { finished: 50 x 60 } }\n";
    assert!(!tables(nothing_to_cut).contains("Take care"));
}
