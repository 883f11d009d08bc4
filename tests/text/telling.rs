//! Where a printed text says each number, and what the formats tell of findings in texts.

use std::path::Path;

use serde_json::Value;
use tempfile::TempDir;

use super::readers::document::{Part, docx};
use crate::support::{run, write};

const MANUSCRIPT: &str = "\
pattern: Tern Rock
measure: inch
sizes:
  lap: { finished: 60 x 76 }
  bed: { finished: 84 x 96 }
binding:
  strip_width: 2 1/2
  requires:
    lap: { strips: 9, fabric: 3/4 yd }
    bed: { strips: 12, fabric: 1 yd }
";

/// The bed's fabric is not said, and the lap's strips are said wrong.
const PRINTED: [&str; 4] = [
    "The lap quilt finishes 60\" x 76\", the bed quilt 84\" x 96\".",
    "Cut strips 2 1/2\" x WOF for the binding.",
    "Lap: cut 8 binding strips from 3/4 yd.",
    "Bed: cut 12 binding strips.",
];

fn folder(name: &str) -> TempDir {
    let folder = TempDir::new().unwrap();
    write(&folder.path().join("rock.pattern.yaml"), format!("{MANUSCRIPT}texts: [{name}]\n"));
    let text = if Path::new(name).extension().is_some_and(|ending| ending == "docx") {
        docx(&PRINTED.map(|text| Part::Paragraph(text.to_string())))
    } else {
        PRINTED.join("\n\n").into_bytes()
    };
    write(&folder.path().join(name), text);
    folder
}

fn out(folder: &Path, words: &[&str]) -> String {
    run(folder, words).out
}

/// The lines of a worksheet with the spaces of its columns evened out.
fn evened(text: &str) -> String {
    text.split_whitespace().filter(|word| *word != "│" && *word != "┆").collect::<Vec<_>>().join(" ")
}

#[test]
fn the_worksheet_says_where_the_text_has_each_number_and_which_it_has_not() {
    let folder = folder("print/rock.md");
    let text = evened(&out(folder.path(), &["worksheet", "rock.pattern.yaml"]));
    assert!(text.contains("In the text: print/rock.md:5 says 8."), "{text}");
    assert!(text.contains("In the text: print/rock.md:7."), "{text}");
    assert_eq!(text.matches("Not found in the text.").count(), 1, "the bed's fabric: {text}");
    assert!(text.contains("print/rock.md: 7 of 8 numbers matched, 1 differs."), "{text}");
    assert!(text.contains("1 number of this worksheet was not found in the text."), "{text}");
    assert!(text.contains("1 error"), "the finding in the text counts: {text}");
}

#[test]
fn the_page_and_the_json_say_so_too() {
    let folder = folder("rock.docx");
    let page = out(folder.path(), &["worksheet", "rock.pattern.yaml", "--html"]);
    assert!(page.contains("In the text: rock.docx, paragraph 3 says 8."), "{page}");
    assert!(page.contains("Not found in the text."), "{page}");
    assert!(page.contains("<p class=\"tally\">rock.docx: 7 of 8 numbers matched, 1 differs.</p>"), "{page}");
    assert!(page.contains("The text says 8; the manuscript states 9."), "{page}");
    assert!(page.contains(", rock.docx, paragraph 3</p>"), "{page}");
    let json = run(folder.path(), &["worksheet", "rock.pattern.yaml", "--format", "json"]).json();
    assert_eq!(json["texts"][0]["file"], "rock.docx");
    let shares = ["numbers", "matched", "differ", "unclear"].map(|key| json["texts"][0][key].as_u64().unwrap());
    assert_eq!(shares, [8, 7, 1, 0]);
    let lines = json["lines"].as_array().unwrap();
    let line = |number: &str, size: &str| -> &Value {
        lines.iter().find(|line| line["number"] == number && line["size"] == size).unwrap()
    };
    let said = &line("binding strips", "lap")["in_texts"][0];
    assert_eq!((&said["paragraph"], &said["quoted"], &said["differs"]), (&3.into(), &"8".into(), &true.into()));
    assert_eq!(line("binding fabric", "bed")["in_texts"], serde_json::json!([]));
    assert_eq!(line("binding strips", "bed")["in_texts"][0]["paragraph"], 4);
}

#[test]
fn without_texts_nothing_is_said_of_them() {
    let folder = TempDir::new().unwrap();
    write(&folder.path().join("rock.pattern.yaml"), MANUSCRIPT);
    for words in [&["--html"][..], &["--format", "json"], &[]] {
        let text = out(folder.path(), &[&["worksheet", "rock.pattern.yaml"], words].concat());
        assert!(!text.contains("in-text") && !text.contains("in_texts") && !text.contains("the text"), "{text}");
    }
    assert!(!out(folder.path(), &["check", "--format", "json"]).contains("\"texts\""));
}

/// A text has lines; a Word file has paragraphs, and no line of it is named that nobody can go to.
#[test]
fn every_format_tells_the_place_in_a_text() {
    let message = "The text says 8; the manuscript states 9.";
    let (lines, pages) = (folder("rock.md"), folder("rock.docx"));
    let check = |folder: &TempDir, format: &str| out(folder.path(), &["check", "--format", format]);
    assert!(check(&lines, "lines").contains("rock.md:5:10: error: text-differs (lap, \"Lap: cut 8 binding strips"));
    let told = check(&pages, "lines");
    assert!(told.contains("rock.docx:1:1: error: text-differs (lap, \"Lap: cut 8"), "{told}");
    assert!(told.contains(&format!(": Paragraph 3: {message}")), "{told}");
    let told = check(&lines, "github");
    assert!(told.contains("::error file=rock.md,line=5,endLine=5,col=10,"), "{told}");
    let told = check(&pages, "github");
    assert!(
        told.contains("::error file=rock.docx,title=") && told.contains(&format!("::Paragraph 3: {message}")),
        "{told}"
    );
    for (folder, name, line) in [(&lines, "rock.md", 5), (&pages, "rock.docx", 1)] {
        let gitlab: Value = serde_json::from_str(&check(folder, "gitlab")).unwrap();
        let of_text: Vec<&Value> =
            gitlab.as_array().unwrap().iter().filter(|one| one["location"]["path"] == name).collect();
        assert_eq!((of_text.len(), &of_text[0]["location"]["lines"]["begin"]), (1, &line.into()), "{gitlab}");
        let checkstyle = check(folder, "checkstyle");
        assert!(checkstyle.contains(&format!("<file name=\"{name}\">")), "{checkstyle}");
        let junit = check(folder, "junit");
        assert!(junit.contains("The text says 8; the manuscript states 9."), "{junit}");
        let sarif: Value = serde_json::from_str(&check(folder, "sarif")).unwrap();
        let results = sarif["runs"][0]["results"].as_array().unwrap();
        let result = results.iter().find(|result| result["ruleId"] == "text-differs").unwrap();
        let place = &result["locations"][0]["physicalLocation"];
        assert_eq!(place["artifactLocation"]["uri"], name);
        assert_eq!(place["region"]["startLine"].as_u64(), (name == "rock.md").then_some(5));
        let related = &result["relatedLocations"][0]["physicalLocation"];
        assert_eq!(
            (&related["artifactLocation"]["uri"], &related["region"]["startLine"]),
            (&"rock.pattern.yaml".into(), &9.into())
        );
        let json: Value = serde_json::from_str(&check(folder, "json")).unwrap();
        let text = &json["texts"][0];
        assert_eq!((&text["file"], &text["manuscript"]), (&name.into(), &"rock.pattern.yaml".into()));
        assert_eq!((&text["numbers"], &text["matched"], &text["differ"]), (&8.into(), &7.into(), &1.into()));
    }
    let junit = check(&pages, "junit");
    assert!(junit.contains("rock.docx, paragraph 3: error[text-differs]") && !junit.contains("rock.docx:"), "{junit}");
    let sarif = check(&pages, "sarif");
    assert!(sarif.contains(&format!("\"Paragraph 3: {message}")), "{sarif}");
}
