//! `sparestrip tables --form instructions` as its users type it.

use rstest::rstest;

use crate::support::{Ran, folder_with, run};

const TEXT: &str = "\
pattern: Weir Lanterns
measure: inch
assumes: { usable_width: 40 }
sizes: { lap: { finished: 50 x 60 }, twin: { finished: 66 x 86 } }
fabrics:
  ink:
    requires: { lap: 3 yd, twin: 4 yd }
    cut:
      - { piece: A, size: 6 1/2 x 6 1/2, strips: { lap: 6, twin: 13 }, pieces: { lap: 36, twin: 78 } }
      - { piece: T, size: 9 3/8 x 9 3/8, pieces: { lap: 2, twin: 2 }, cut_again: once }
      - { piece: side, size: 4 1/2 x 60 1/2, grain: lengthwise, pieces: { lap: 2, twin: 0 } }
binding:
  from: ink
  strip_width: 2 1/2
  requires: { lap: { strips: 7 }, twin: { strips: 10 } }
";

fn made(text: &str, words: &[&str]) -> Ran {
    let (folder, _) = folder_with("x.pattern.yaml", text);
    run(folder.path(), &[&["tables", "x.pattern.yaml", "--form", "instructions"], words].concat())
}

fn steps(ran: &Ran) -> Vec<&str> {
    ran.out.lines().filter(|line| line.starts_with("- ") || line.starts_with("##") || line.starts_with("| ")).collect()
}

/// Along the fabric first, then as it is listed, then the binding.
#[test]
fn a_run_of_numbers_in_the_order_of_cutting() {
    let ran = made(TEXT, &[]);
    let expected = [
        "## From ink, cut:",
        "- 2 (0) rectangles 4 1/2 x 60 1/2 in, cut lengthwise (side)",
        "- 6 (13) strips 6 1/2 in x WOF; subcut 36 (78) squares 6 1/2 x 6 1/2 in (A)",
        "- 2 squares 9 3/8 x 9 3/8 in, cut once diagonally (T)",
        "- 7 (10) strips 2 1/2 in x WOF (binding)",
        "## Take care",
    ];
    assert_eq!(steps(&ran), expected, "{}", ran.out);
    assert!(ran.out.contains("\nSizes: lap (twin). Numbers are given in this order; "), "{}", ran.out);
    assert!(ran.out.contains("\nWOF: the width of fabric, from selvedge to selvedge, with a usable width of 40 in"));
    assert_eq!(made(TEXT, &["--sizes", "run"]).out, ran.out);
    ran.is_tame("instructions");
}

#[test]
fn a_list_for_each_size_leaves_out_what_the_size_takes_none_of() {
    let ran = made(TEXT, &["--sizes", "lists"]);
    let expected = [
        "## lap",
        "### From ink, cut:",
        "- 2 rectangles 4 1/2 x 60 1/2 in, cut lengthwise (side)",
        "- 6 strips 6 1/2 in x WOF; subcut 36 squares 6 1/2 x 6 1/2 in (A)",
        "- 2 squares 9 3/8 x 9 3/8 in, cut once diagonally (T)",
        "- 7 strips 2 1/2 in x WOF (binding)",
        "## twin",
        "### From ink, cut:",
        "- 13 strips 6 1/2 in x WOF; subcut 78 squares 6 1/2 x 6 1/2 in (A)",
        "- 2 squares 9 3/8 x 9 3/8 in, cut once diagonally (T)",
        "- 10 strips 2 1/2 in x WOF (binding)",
        "## Take care",
    ];
    assert_eq!(steps(&ran), expected, "{}", ran.out);
}

#[test]
fn a_table_has_a_column_for_each_size() {
    let ran = made(TEXT, &["--sizes", "table"]);
    for line in [
        "| strips 6 1/2 in x WOF, for A                        | 6   | 13   |",
        "| subcut squares 6 1/2 x 6 1/2 in (A)                 | 36  | 78   |",
        "| rectangles 4 1/2 x 60 1/2 in, cut lengthwise (side) | 2   | 0    |",
    ] {
        assert!(steps(&ran).contains(&line), "{line} in {}", ran.out);
    }
}

#[rstest]
#[case(&["--format", "csv", "--sizes", "run"], "CSV and TSV set the sizes apart already")]
#[case(&["--format", "csv", "--sizes", "lists"], "leave --sizes out")]
#[case(&["--form", "tables", "--sizes", "run"], "--sizes goes with --form instructions")]
fn what_does_not_go_together_is_refused(#[case] words: &[&str], #[case] why: &str) {
    let (folder, _) = folder_with("x.pattern.yaml", TEXT);
    let form: &[&str] = if words.contains(&"--form") { &[] } else { &["--form", "instructions"] };
    let ran = run(folder.path(), &[&["tables", "x.pattern.yaml"], form, words].concat());
    assert_eq!((ran.status, ran.out.as_str()), (Some(2), ""));
    assert!(ran.err.contains(why), "{}", ran.err);
}

/// The same as of the tables: what cannot be read is a question mark and told, an error is status 1, and the cautions
/// stand at the end.
#[test]
fn status_cautions_and_what_is_missing_are_those_of_the_tables() {
    let unread = made(&TEXT.replace("twin: 78", "twin: many"), &[]);
    assert_eq!(unread.status, Some(1));
    assert!(unread.out.contains("subcut 36 (?) squares") && unread.out.contains("Not complete: "), "{}", unread.out);
    assert!(unread.err.contains("x.pattern.yaml:9:"), "{}", unread.err);
    let whole = made(TEXT, &[]);
    assert!(whole.out.contains("## Take care\n\nRotary blades"), "{}", whole.out);
    let nothing = made("pattern: Moor\nmeasure: inch\nsizes: { lap: { finished: 50 x 60 } }\n", &[]);
    assert_eq!((nothing.status, nothing.out.as_str()), (Some(2), ""));
    assert!(nothing.err.contains("states nothing that cutting instructions could be made of"), "{}", nothing.err);
}
