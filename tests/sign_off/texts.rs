//! The printed texts that a manuscript names: their numbers are a part of what is signed, and their words are not.

use std::path::Path;

use rstest::rstest;
use serde_json::Value;
use tempfile::TempDir;

use super::{NAME, records, run, sign, text_of, write};

const MANUSCRIPT: &str = "\
pattern: Tern Rock
measure: inch
sizes:
  lap: { finished: 60 x 76 }
binding:
  strip_width: 2 1/2
  requires:
    lap: { strips: 9, fabric: 3/4 yd }
";

const TEXT: &str = "\
# Tern Rock

The quilt finishes 60\" x 76\".

Cut 9 binding strips, 2 1/2\" x WOF, from 3/4 yd of fabric.

Trim the sleeve flap to 20\" and press. Set it aside for about 15 minutes, and turn to page 4.
";

fn naming(texts: &str) -> String {
    format!("{MANUSCRIPT}texts: {texts}\n")
}

fn folder(manuscript: &str, texts: &[(&str, &str)]) -> TempDir {
    let folder = tempfile::tempdir().expect("a temporary folder");
    write(&folder.path().join(NAME), manuscript);
    for (name, text) in texts {
        write(&folder.path().join(name), text);
    }
    folder
}

/// A folder with a manuscript and its text, signed.
fn signed() -> TempDir {
    let folder = folder(&naming("[rock.md]"), &[("rock.md", TEXT)]);
    let ran = sign(folder.path(), "Ada Finch");
    assert_eq!(ran.status, Some(0), "{ran:?}");
    folder
}

fn json(folder: &Path) -> Value {
    run(folder, &["check", "--signed", "--format", "json", NAME]).json()
}

/// What `check --signed` says of the sign-off: the file, the line, the size and the message.
fn told(folder: &Path) -> Vec<String> {
    let json = json(folder);
    let findings = json["findings"].as_array().expect("a list").iter();
    let own = findings.filter(|finding| finding["rule"] == "changed-since-signed");
    let file = |finding: &Value| finding["file"].as_str().expect("a file").trim_start_matches("./").to_string();
    own.map(|finding| {
        let size = finding["size"].as_str().map(|size| format!(" ({size})")).unwrap_or_default();
        format!("{}:{}{size} {}", file(finding), finding["at"]["line"], finding["message"].as_str().expect("words"))
    })
    .collect()
}

fn with_text(from: &str, to: &str) -> String {
    assert!(TEXT.contains(from), "{from:?} is not in the text");
    TEXT.replacen(from, to, 1)
}

#[test]
fn what_a_text_says_is_recorded_with_what_it_is() {
    let folder = signed();
    let ran = run(folder.path(), &["check", "--signed", "--strict"]);
    assert_eq!(ran.status, Some(0), "{ran:?}");
    let record = &records(folder.path())[0];
    let text = &record["texts"]["of"]["rock.md"];
    assert_eq!(text["read"].as_str(), Some("whole"));
    let numbers = text["numbers"].as_sequence().expect("a list").iter();
    let words = |value: &serde_yaml::Value| value.as_str().unwrap_or_default().to_string();
    let numbers = numbers.map(|number| (words(&number["of"][0]), words(&number["says"]), words(&number["within"])));
    let row = |of: &str, says: &str| (of.to_string(), says.to_string(), String::new());
    let expected = [
        row("binding / requires / lap / fabric", "3/4 yd"),
        row("binding / requires / lap / strips", "9"),
        row("binding / strip_width", "2 1/2 in"),
        row("sizes / lap / finished", "60 in"),
        row("sizes / lap / finished", "76 in"),
        (String::new(), "20 in".to_string(), "Trim the sleeve flap to 20\" and press".to_string()),
    ];
    // 15 minutes and page 4 are no requirements.
    assert_eq!(numbers.collect::<Vec<_>>(), expected);
    assert_eq!(record["stated"]["texts / rock.md"].as_str(), Some("rock.md"));
}

#[test]
fn who_signs_is_told_how_many_numbers_of_the_text_that_are() {
    let folder = folder(&naming("[rock.md]"), &[("rock.md", TEXT)]);
    let ran = sign(folder.path(), "Ada Finch");
    assert!(ran.err.contains("Tern Rock: Ada Finch signed off 7 values and 6 numbers of rock.md\n"), "{}", ran.err);
}

#[rstest]
#[case::what_was_matched("Cut 9", "Cut 8", "rock.md:5 (lap) Binding strips in rock.md: signed as 9, now 8.")]
#[case::a_length("2 1/2\"", "2 1/4\"", "rock.md:5 Binding strip_width in rock.md: signed as 2 1/2 in, now 2 1/4 in.")]
#[case::a_side("x 76\"", "x 67\"", "rock.md:3 (lap) Finished in rock.md: signed as 76 in, now 67 in.")]
#[case::what_was_not_matched(
    "to 20\"",
    "to 21\"",
    "rock.md:7 Number in rock.md, in \"Trim the sleeve flap to 21\" and press\": signed as 20 in, now 21 in."
)]
#[case::its_unit(
    "to 20\"",
    "to 20 cm",
    "rock.md:7 Number in rock.md, in \"Trim the sleeve flap to 20 cm and press\": signed as 20 in, now 20 cm."
)]
#[case::another_in_other_words(
    "Trim the sleeve flap to 20\" and press.",
    "Trim and press the sleeve: 22\" will do.",
    "rock.md:7 Number in rock.md, in \"Trim and press the sleeve: 22\" will do\": signed as not said, now 22 in."
)]
#[case::said_otherwise_in_a_second_place(
    "# Tern Rock",
    "Cut 8 binding strips.",
    "rock.md:1 (lap) Binding strips in rock.md: signed as 9, now 8."
)]
fn a_number_that_is_another_is_told_at_its_place(#[case] from: &str, #[case] to: &str, #[case] message: &str) {
    let folder = signed();
    write(&folder.path().join("rock.md"), with_text(from, to));
    let told = told(folder.path());
    assert!(told.contains(&message.to_string()), "{told:#?}");
    assert_eq!(run(folder.path(), &["check", "--signed"]).status, Some(1));
}

#[rstest]
#[case::words("and press.", "and press it well.")]
#[case::what_is_no_requirement("about 15 minutes", "about 20 minutes")]
#[case::a_page("page 4", "page 12")]
#[case::the_spelling_of_a_number("2 1/2\" x WOF", "2.5 inches x WOF")]
#[case::the_spelling_of_another("3/4 yd", "¾ yard")]
#[case::words_for_figures("Cut 9 ", "Cut nine ")]
#[case::the_layout(
    "Cut 9 binding strips, 2 1/2\" x WOF, from 3/4 yd of fabric.",
    "- Cut 9 binding strips, 2 1/2\" x WOF.\n- Binding fabric: 3/4 yd."
)]
#[case::said_once_more("# Tern Rock", "# Tern Rock\n\nCut 9 binding strips for the lap quilt.")]
#[case::another_order("The quilt finishes 60\" x 76\".\n\nCut 9", "Cut 9")]
fn words_layout_and_order_are_no_change(#[case] from: &str, #[case] to: &str) {
    let folder = signed();
    let mut text = with_text(from, to);
    if !text.contains("finishes") {
        text.push_str("\nThe quilt finishes 60\" x 76\".\n");
    }
    write(&folder.path().join("rock.md"), text);
    assert_eq!(told(folder.path()), [""; 0]);
    assert_eq!(run(folder.path(), &["check", "--signed"]).status, Some(0));
}

#[test]
fn a_number_that_is_said_no_longer_is_told_at_the_name_of_the_text() {
    let folder = signed();
    write(&folder.path().join("rock.md"), with_text(", from 3/4 yd of fabric", ""));
    let told = told(folder.path());
    assert_eq!(told, [format!("{NAME}:9 (lap) Binding fabric in rock.md: signed as 3/4 yd, now not said.")]);
}

#[test]
fn numbers_that_changed_places_are_told() {
    let two = "Trim the flap to 20\" and press. Trim the cord to 30\" and tie.";
    let folder = folder(&naming("[rock.md]"), &[("rock.md", two)]);
    assert_eq!(sign(folder.path(), "Ada Finch").status, Some(0));
    write(&folder.path().join("rock.md"), two.replace("20", "?").replace("30", "20").replace('?', "30"));
    assert_eq!(told(folder.path()).len(), 2);
}

#[test]
fn a_text_in_another_format_changes_its_name_and_nothing_else() {
    let folder = signed();
    let html = TEXT.replacen("# Tern Rock", "<h1>Tern Rock</h1>", 1).replace("\n\n", "<p>\n");
    write(&folder.path().join("print/rock.html"), html);
    write(&folder.path().join(NAME), naming("[print/rock.html]"));
    let name = format!("{NAME}:9 Name of a text: signed as rock.md, now print/rock.html.");
    assert_eq!(told(folder.path()), [name]);
}

#[test]
fn a_text_that_is_added_or_no_longer_named_is_told() {
    let folder = signed();
    write(&folder.path().join("more.md"), "# More\n");
    write(&folder.path().join(NAME), naming("[more.md, rock.md]"));
    let added = "The text more.md was not named when the manuscript was signed, and is named now.";
    assert_eq!(told(folder.path()), [format!("{NAME}:9 {added}")]);
    write(&folder.path().join(NAME), MANUSCRIPT);
    let gone = "The text rock.md was named when the manuscript was signed, and is not named now.";
    assert_eq!(told(folder.path()), [format!("{NAME}:1 {gone}")]);
    write(&folder.path().join(NAME), naming("[rock.md]"));
    assert_eq!(told(folder.path()), [""; 0]);
}

#[test]
fn the_order_in_which_texts_are_named_is_no_change() {
    let folder = folder(&naming("[a.md, rock.md]"), &[("rock.md", TEXT), ("a.md", "Cut 9 binding strips.")]);
    assert_eq!(sign(folder.path(), "Ada Finch").status, Some(0));
    write(&folder.path().join(NAME), naming("[rock.md, a.md]"));
    assert_eq!(told(folder.path()), [""; 0]);
}

#[test]
fn a_text_that_cannot_be_read_any_longer_is_told() {
    let folder = signed();
    std::fs::remove_file(folder.path().join("rock.md")).expect("removed");
    let said = "The text rock.md was readable when the manuscript was signed, and is not readable now.";
    assert_eq!(told(folder.path()), [format!("{NAME}:9 {said}")]);
}

#[test]
fn an_error_in_a_text_refuses_as_one_in_the_manuscript_does() {
    for text in [with_text("Cut 9", "Cut 8"), String::new()] {
        let folder = folder(&naming("[rock.md]"), &[("rock.md", &text)]);
        if text.is_empty() {
            std::fs::remove_file(folder.path().join("rock.md")).expect("removed");
        }
        let ran = sign(folder.path(), "Ada Finch");
        assert_eq!((ran.status, ran.err.as_str()), (Some(1), "sparestrip: not signed: one error stands\n"));
        assert!(!folder.path().join("sign-offs.yaml").exists());
    }
}

#[test]
fn a_text_that_was_not_read_is_not_signed_as_read() {
    let folder = folder(&naming("[rock.md]"), &[]);
    write(&folder.path().join("house-rules.yaml"), "levels: { text-not-read: note }\n");
    let ran = sign(folder.path(), "Ada Finch");
    assert_eq!(ran.status, Some(0), "{ran:?}");
    assert!(ran.err.contains("rock.md was not read, and none of its numbers is signed"), "{}", ran.err);
    assert_eq!(told(folder.path()), [""; 0]);
    write(&folder.path().join("rock.md"), TEXT);
    let said = "The text rock.md was not readable when the manuscript was signed, and is readable now.";
    assert_eq!(told(folder.path()), [format!("{NAME}:9 {said}")]);
}

#[test]
fn queries_and_accepted_findings_of_a_text_are_recorded() {
    let manuscript = "pattern: Tern Rock\nmeasure: inch\nsizes:\n  lap: { finished: 60 x 76 }\nfabrics:\n  ink:\n    requires: { lap: 1/2 yd }\n    cut:\n      - { piece: B, size: 3 1/2 x 3 1/2, pieces: { lap: 36 } }\n      - { piece: C, size: 2 1/2 x 2 1/2, pieces: { lap: 8 } }\ntexts: [rock.md]\n";
    let text = "The quilt finishes 60\" x 76\". Ink: 1/2 yd.\n\nCut 36 squares 3 1/2\" (B) and 8 squares 2 1/2\" (C) from ink.\n\nSew piece D to each B.\n";
    let folder = folder(manuscript, &[("rock.md", text)]);
    let strict = run(folder.path(), &["sign", NAME, "--by", "Ada Finch", "--strict"]);
    assert_eq!((strict.status, strict.err.as_str()), (Some(1), "sparestrip: not signed: one query stands\n"));
    assert_eq!(sign(folder.path(), "Ada Finch").status, Some(0));
    let open = records(folder.path())[0]["conditions"]["open"].clone();
    assert_eq!((open[0]["rule"].as_str(), open[0]["text"].as_str()), (Some("text-piece-unknown"), Some("rock.md")));
    write(&folder.path().join("rock.md"), text.replace("piece D", "piece C"));
    let said = told(folder.path());
    assert!(said[0].contains("The query text-piece-unknown (rock.md, quote "), "{said:?}");
    assert!(said[0].ends_with("stood when it was signed, and is gone."), "{said:?}");
    // Accepted, it is recorded as accepted in that text.
    let accepted = "accepted:\n  - { rule: text-piece-unknown, quote: \"Sew piece D to each\", stated: D, because: it comes with the kit }\n";
    write(&folder.path().join("rock.md"), text);
    write(&folder.path().join(NAME), format!("{manuscript}{accepted}"));
    let ran = run(folder.path(), &["sign", NAME, "--by", "Ada Finch", "--strict"]);
    assert_eq!(ran.status, Some(0), "{ran:?}");
    let accepted = records(folder.path())[1]["accepted"].clone();
    assert_eq!(accepted[0]["text"].as_str(), Some("rock.md"));
}

#[test]
fn a_thing_with_another_name_says_the_same_in_the_text() {
    let folder = signed();
    write(&folder.path().join(NAME), naming("[rock.md]").replace("lap:", "throw:"));
    let told = told(folder.path());
    assert_eq!(told, [format!("{NAME}:4 (throw) Name of a size: signed as lap, now throw.")]);
}

#[test]
fn the_list_the_worksheet_and_a_paper_say_it_too() {
    let folder = signed();
    let fingerprint = |ran: &str| ran.split("fingerprint\": \"").nth(1).map(|rest| rest[..71].to_string());
    let worksheet = || run(folder.path(), &["worksheet", NAME, "--format", "json"]).json();
    let before = worksheet()["signing"].clone();
    assert_eq!(before["state"], "signed");
    let list = run(folder.path(), &["signed", "--format", "json"]).out;
    let paper = fingerprint(&list).expect("a fingerprint");
    assert_eq!(before["fingerprint"].as_str(), Some(paper.as_str()));
    write(&folder.path().join("rock.md"), with_text("Cut 9", "Cut 8"));
    let list = run(folder.path(), &["signed"]).out;
    assert!(list.contains("one change since"), "{list}");
    assert!(list.contains("    - lap: binding strips in rock.md: signed as 9, now 8\n"), "{list}");
    let after = worksheet()["signing"].clone();
    assert_eq!((after["state"].as_str(), after["changes"].as_u64()), (Some("changed"), Some(1)));
    assert_ne!(after["fingerprint"], before["fingerprint"]);
    let ran = run(folder.path(), &["check", "--signed-as", &paper]);
    assert!(ran.err.contains("not current, one thing changed since"), "{}", ran.err);
    write(&folder.path().join("rock.md"), with_text("press", "iron"));
    let ran = run(folder.path(), &["check", "--signed-as", &paper]);
    assert!(ran.err.contains("current, nothing changed since"), "{}", ran.err);
}

#[rstest]
#[case("\"says\":\"20 in\"", "\"says\":\"21 in\"", "other values than those that were signed")]
#[case("\"read\":\"whole\"", "\"read\":\"part\"", "other numbers of printed texts than those that were recorded")]
#[case("\"file\":\"sha256:", "\"file\":\"sha256:0", "other numbers of printed texts than those that were recorded")]
fn a_record_in_which_a_text_was_edited_is_refused(#[case] from: &str, #[case] to: &str, #[case] said: &str) {
    let folder = signed();
    let file = super::record_file(folder.path());
    let edited = text_of(&file).replacen(from, to, 1);
    assert_ne!(edited, text_of(&file));
    write(&file, edited);
    let ran = run(folder.path(), &["check", "--signed"]);
    assert_eq!(ran.status, Some(2), "{ran:?}");
    assert!(ran.err.contains(said), "{}", ran.err);
}

/// A record of before texts were recorded says nothing of what they said.
#[test]
fn a_record_without_texts_is_compared_by_the_manuscript_alone() {
    let folder = folder(MANUSCRIPT, &[("rock.md", TEXT)]);
    assert_eq!(sign(folder.path(), "Ada Finch").status, Some(0));
    assert!(!text_of(&super::record_file(folder.path())).contains("\"texts\""));
    assert_eq!(told(folder.path()), [""; 0]);
}
