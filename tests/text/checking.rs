//! Texts that a manuscript names, checked as a user does.

use std::fs;
use std::path::Path;

use assert_cmd::Command;
use serde_json::Value;
use tempfile::TempDir;

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

const RIGHT: &str = "\
# Tern Rock

The quilt finishes 60\" x 76\".

Cut 9 binding strips, 2 1/2\" x WOF, from 3/4 yd of fabric.
";

fn folder(manuscript: &str, texts: &[(&str, &str)]) -> TempDir {
    let folder = TempDir::new().unwrap();
    write(folder.path(), "rock.pattern.yaml", manuscript);
    for (name, text) in texts {
        write(folder.path(), name, text);
    }
    folder
}

#[allow(clippy::disallowed_methods)] // Nobody reads a test's files while they are written.
fn write(folder: &Path, name: &str, text: &str) {
    let path = folder.join(name);
    fs::create_dir_all(path.parent().unwrap()).unwrap();
    fs::write(path, text).unwrap();
}

fn sparestrip(folder: &TempDir, words: &[&str]) -> (String, Option<i32>) {
    let output = Command::cargo_bin("sparestrip").unwrap().current_dir(folder).args(words).output().unwrap();
    let text = [output.stdout, output.stderr].concat();
    (String::from_utf8(text).unwrap(), output.status.code())
}

fn naming(texts: &str) -> String {
    format!("{MANUSCRIPT}texts: {texts}\n")
}

#[test]
fn a_text_that_says_the_same_is_silent_and_told_in_the_summary() {
    let folder = folder(&naming("[print/rock.md]"), &[("print/rock.md", RIGHT)]);
    let (text, status) = sparestrip(&folder, &["check", "--strict"]);
    assert!(text.ends_with("rock.md: 5 of 5 numbers matched\n1 manuscript: no problems\n"), "{text}");
    assert_eq!(status, Some(0));
}

#[test]
fn a_number_that_differs_is_an_error_in_the_text() {
    let folder = folder(&naming("[rock.md]"), &[("rock.md", &RIGHT.replace("Cut 9", "Cut 8"))]);
    let (text, status) = sparestrip(&folder, &["check"]);
    assert!(text.contains("error: text-differs (lap, \"Cut 8 binding strips"), "{text}");
    assert!(text.contains(" at ./rock.md:5:5") || text.contains(" at rock.md:5:5"), "{text}");
    assert!(text.contains("The text says 8; the manuscript states 9."), "{text}");
    assert!(text.contains("rock.pattern.yaml:8:20"), "{text}");
    assert!(text.contains("4 of 5 numbers matched, 1 differs"), "{text}");
    assert_eq!(status, Some(1));
    let (json, _) = sparestrip(&folder, &["check", "--format", "json"]);
    let json: Value = serde_json::from_str(&json).unwrap();
    let finding = &json["findings"][0];
    assert!(finding["file"].as_str().unwrap().ends_with("rock.md"), "{finding}");
    assert_eq!(finding["at"]["line"], 5);
    let related = &finding["related"][0];
    assert!(related["file"].as_str().unwrap().ends_with("rock.pattern.yaml"), "{related}");
    assert_eq!(related["at"]["line"], 8);
    assert_eq!(json["summary"]["manuscripts"], 1);
}

#[test]
fn a_finding_in_a_text_is_accepted_by_the_words_that_it_quotes() {
    let accepted = "accepted:\n  - { rule: text-differs, size: lap, quote: \"Cut 8 binding strips, 2 1/2\\\" x WOF, from 3/4 yd\", \
                    stated: 8, because: the text leaves one out }\n";
    let printed = RIGHT.replace("Cut 9", "Cut 8");
    let with = folder(&format!("{}{accepted}", naming("[rock.md]")), &[("rock.md", &printed)]);
    let (text, status) = sparestrip(&with, &["check", "--strict"]);
    assert!(text.contains("no problems, 1 accepted"), "{text}");
    assert_eq!(status, Some(0));
    let without = folder(&format!("{}{accepted}", naming("[rock.md]")), &[("rock.md", RIGHT)]);
    let (text, _) = sparestrip(&without, &["check"]);
    assert!(text.contains("query: accepted-unused"), "{text}");
}

#[test]
fn a_file_that_is_not_there_or_elsewhere_is_a_finding_at_its_name() {
    let folder = folder(&naming("[gone.md, ../rock.md, /etc/hosts]"), &[]);
    let (text, status) = sparestrip(&folder, &["check"]);
    assert!(text.contains("error: text-not-read (\"gone.md\") at"), "{text}");
    assert!(text.contains("gone.md was not checked"), "{text}");
    assert!(text.contains("../rock.md does not lead to a file in this manuscript's folder"), "{text}");
    assert!(text.contains("/etc/hosts does not lead"), "{text}");
    assert_eq!(status, Some(1));
}

#[cfg(unix)]
#[test]
fn a_link_that_leads_out_is_not_followed() {
    let outside = TempDir::new().unwrap();
    write(outside.path(), "rock.md", RIGHT);
    let folder = folder(&naming("[rock.md]"), &[]);
    std::os::unix::fs::symlink(outside.path().join("rock.md"), folder.path().join("rock.md")).unwrap();
    let (text, _) = sparestrip(&folder, &["check"]);
    assert!(text.contains("it is a link to a file outside"), "{text}");
}

#[test]
fn a_text_that_is_given_stands_for_the_manuscripts_that_name_it() {
    let wrong = RIGHT.replace("Cut 9", "Cut 8");
    let folder = folder(&naming("[print/rock.md]"), &[("print/rock.md", &wrong), ("print/other.md", RIGHT)]);
    write(folder.path(), "second.pattern.yaml", &naming("[print/rock.md]"));
    let (text, status) = sparestrip(&folder, &["check", "print/rock.md"]);
    assert!(
        text.contains("error: text-differs (lap, \"Cut 8 binding strips") && text.contains("at print/rock.md:5:5"),
        "{text}"
    );
    assert!(text.contains("2 manuscripts: 2 errors"), "{text}");
    assert_eq!(status, Some(1));
    let (text, status) = sparestrip(&folder, &["check", "print/other.md"]);
    assert!(text.contains("print/other.md: no manuscript in its folder, or in those above it, names it"), "{text}");
    assert_eq!(status, Some(2));
    let below = Command::cargo_bin("sparestrip")
        .unwrap()
        .current_dir(folder.path().join("print"))
        .args(["check", "rock.md"])
        .output()
        .unwrap();
    let text = String::from_utf8(below.stdout).unwrap();
    assert!(text.contains("at ../print/rock.md:5:5") && text.contains("2 manuscripts: 2 errors"), "{text}");
}

#[test]
fn read_shows_each_number_with_what_it_was_matched_to() {
    let printed = format!("{}\nSee step 3.\n", RIGHT.replace("Cut 9", "Cut 8"));
    let folder = folder(&naming("[rock.md]"), &[("rock.md", &printed)]);
    let (text, status) = sparestrip(&folder, &["read", "rock.md"]);
    assert!(text.contains("5:5      differs  8            strips of the binding, lap: 9"), "{text}");
    assert!(text.contains("OK       3/4 yd       fabric of the binding, lap: 3/4 yd"), "{text}");
    assert!(text.contains("-        3            a label"), "{text}");
    assert_eq!(status, Some(1));
    let elsewhere = folder_without_texts();
    let (text, status) = sparestrip(&elsewhere, &["read", "rock.md"]);
    assert!(text.contains("give one with --manuscript"), "{text}");
    assert_eq!(status, Some(2));
}

fn folder_without_texts() -> TempDir {
    folder(MANUSCRIPT, &[("rock.md", RIGHT)])
}

#[test]
fn a_text_may_be_the_cutting_instructions_that_the_program_makes() {
    let examples = Path::new(env!("CARGO_MANIFEST_DIR")).join("example-patterns");
    let files = fs::read_dir(&examples).unwrap().map(|file| file.unwrap().path());
    let manuscripts: Vec<_> = files.filter(|path| path.to_string_lossy().ends_with(".pattern.yaml")).collect();
    assert_eq!(manuscripts.len(), 11);
    let here = TempDir::new().unwrap();
    for manuscript in manuscripts {
        let manuscript = manuscript.to_string_lossy();
        for sizes in ["run", "lists", "table"] {
            for (format, name) in [("markdown", "made.md"), ("html", "made.html")] {
                let words =
                    ["tables", "--form", "instructions", "--sizes", sizes, "--format", format, "--output", name];
                sparestrip(&here, &[&words[..], &[&*manuscript]].concat());
                let (text, _) = sparestrip(&here, &["read", name, "--manuscript", &manuscript]);
                let last = text.lines().last().unwrap_or_default();
                let (matched, all) =
                    last.trim_start_matches(&format!("{name}: ")).split_once(" of ").unwrap_or_default();
                assert!(all.starts_with(&format!("{matched} number")), "{manuscript} {sizes} {format}: {text}");
            }
        }
    }
}

#[test]
fn a_house_adds_words_by_which_its_texts_are_read() {
    let printed = RIGHT.replace("Cut 9 binding strips, 2 1/2\"", "For the edging cut 9 ribbons, 2 1/2\"");
    let here = folder(&naming("[rock.md]"), &[("rock.md", &printed)]);
    let (text, _) = sparestrip(&here, &["read", "rock.md"]);
    assert!(!text.contains("OK       9            strips of the binding, lap: 9"), "{text}");
    write(here.path(), "rock.md", &printed.replace("cut 9", "cut 8"));
    write(here.path(), "house-rules.yaml", "values:\n  text_binding: edging\n  text_strip: [ribbon]\n");
    let (text, status) = sparestrip(&here, &["check"]);
    assert!(text.contains("The text says 8; the manuscript states 9."), "{text}");
    assert_eq!(status, Some(1));
    write(here.path(), "rock.md", &printed);
    let (text, status) = sparestrip(&here, &["read", "rock.md"]);
    assert!(text.contains("OK       9            strips of the binding, lap: 9"), "{text}");
    assert_eq!(status, Some(0));
    write(here.path(), "house-rules.yaml", "values:\n  text_stripe: [ribbon]\n");
    let (text, status) = sparestrip(&here, &["check"]);
    assert!(text.contains("unknown-word") && text.contains("did you mean text_strip?"), "{text}");
    assert_eq!(status, Some(1));
}

#[test]
fn what_one_of_several_texts_says_is_said() {
    let first = "The quilt finishes 60\" x 76\".\n\nCut the binding strips 2 1/2\" wide.\n";
    let second = "Cut 9 binding strips.\n";
    let here = folder(&naming("[rock.md, more.md]"), &[("rock.md", first), ("more.md", second)]);
    let (text, _) = sparestrip(&here, &["check"]);
    assert!(text.contains("note: text-silent") && text.contains("fabric of the binding"), "{text}");
    assert_eq!(text.matches("text-silent").count(), 1, "{text}");
    write(here.path(), "more.md", &format!("{second}\nThe binding takes 3/4 yd.\n"));
    let (text, _) = sparestrip(&here, &["check"]);
    assert!(!text.contains("text-silent"), "{text}");
}
