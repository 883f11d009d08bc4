//! Whatever a manuscript, the things in it, a folder or a word of the command line are called: no command prints a
//! character that steers a terminal or is not seen, nor a line that a log would take for a command.

use std::fs;
use std::io::{BufRead, BufReader};
use std::path::Path;
use std::process::Stdio;

use super::support::{Ran, is_wild, program, run, without_colours, write};

/// A command to the logs of several systems, in one name; turned and unseen characters; an escape; lines of its own.
const HOSTILE: &str = "::error file=x::y\u{202e}\u{200b}\u{ad}\u{e0041}\u{1b}[31m\n::add-mask::z ##[command]a ##vso[task.x]b ##teamcity[c \u{7}";

/// A manuscript with the name at every place that has one, and something wrong with each kind of thing.
fn named(name: &str) -> String {
    let quoted = serde_json::to_string(name).unwrap();
    format!(
        "pattern: {quoted}\nedition: {quoted}\nmeasure: inch\nsizes: {{ {quoted}: {{ finished: 54 x 72 }}, plain: {{ finished: 60 x 80 }} }}\n\
         binding: {{ strip_width: 2 1/2, from: {quoted}, requires: {{ {quoted}: {{ strips: 5 }}, plain: {{ strips: 9 }} }} }}\n\
         fabrics:\n  {quoted}:\n    role: {quoted}\n    requires: {{ {quoted}: 1/8 yd, plain: 2 yd }}\n    \
         cut: [ {{ piece: {quoted}, size: 6 1/4 x 6 1/4, strips: {{ {quoted}: 1, plain: 7 }}, pieces: {{ {quoted}: 40, plain: 4 }} }} ]\n\
         units: {{ {quoted}: {{ make: patch, finished: 6, cut: {{ patch: {quoted} }} }} }}\n\
         blocks: {{ {quoted}: {{ finished: 7, rows: [[{quoted}]] }} }}\n\
         accepted: [ {{ rule: {quoted}, size: {quoted}, because: {quoted} }} ]\n"
    )
}

/// Fails at any byte of either output that should not be there.
fn is_safe(ran: &Ran, words: &[&str]) {
    for (name, text) in [("standard output", &ran.out), ("standard error", &ran.err)] {
        text_is_safe(text, &format!("{name} of {words:?}"));
    }
    assert!(!ran.err.contains("panicked"), "{words:?}: {}", ran.err);
}

fn text_is_safe(text: &str, what: &str) {
    // CSV begins with a mark for spreadsheets and ends its lines with two characters.
    let text = without_colours(text.strip_prefix('\u{feff}').unwrap_or(text)).replace("\r\n", "\n");
    for line in text.lines() {
        assert!(!line.chars().any(|c| c != '\t' && is_wild(c)), "{what}: {line:?}");
        assert!(!line.trim_start().starts_with("::"), "{what}: {line:?}");
        for (at, _) in line.match_indices("##") {
            let word = line[at..].trim_start_matches('#').trim_start_matches(char::is_alphanumeric);
            assert!(!word.starts_with('['), "{what}: {line:?}");
        }
    }
}

const FILE: &str = "x.pattern.yaml";

#[test]
fn every_command_in_every_format_with_hostile_names_in_the_manuscript() {
    let (folder, _) = super::support::folder_with(FILE, named(HOSTILE));
    let (by, size) = (format!("--by={HOSTILE}"), format!("a=10 x 20 {HOSTILE}"));
    for words in [
        &["check", FILE][..],
        &["check", FILE, "--account", "--strict", "--color", "always"],
        &["check", FILE, "--signed", "--ascii"],
        &["check", FILE, "--format", "json", "--account"],
        &["check", FILE, "--format", "sarif"],
        &["check", FILE, "--format", "junit", "--account"],
        &["check", FILE, "--report", "json=-"],
        &["check", FILE, "--format", "lines", "--account"],
        &["check", FILE, "--format", "gitlab"],
        &["check", FILE, "--format", "checkstyle"],
        &["fix", FILE, "--diff"],
        &["worksheet", FILE],
        &["worksheet", FILE, "--color", "always"],
        &["worksheet", FILE, "--format", "json"],
        &["worksheet", FILE, "--html"],
        &["tables", FILE],
        &["tables", FILE, "--format", "csv"],
        &["tables", FILE, "--format", "html", "--output", "-"],
        &["sign", FILE, "--by", "Ada Finch"],
        &["sign", FILE, &by],
        &["new", "-", "--name", HOSTILE, "--measure", "cm", "--size", "a=10 x 20"],
        &["new", "-", "--name", "x", "--measure", "cm", "--size", &size],
        &["new", "-", "--name", "x", "--size", "a=10 x 20", "--like", FILE],
        &["fix", FILE],
    ] {
        let ran = run(folder.path(), words);
        assert!(ran.out.len() + ran.err.len() > 100, "{words:?}: {ran:?}");
        is_safe(&ran, words);
    }
}

/// What is written to files is what would be printed.
#[test]
fn files_that_are_written() {
    let (folder, _) = super::support::folder_with(FILE, named(HOSTILE));
    run(
        folder.path(),
        &[
            "check",
            FILE,
            "--report=text=a.txt",
            "--report=json=a.json",
            "--report=sarif=a.sarif",
            "--report=junit=a.xml",
            "--report=lines=lines.txt",
            "--report=gitlab=gitlab.json",
            "--report=checkstyle=checkstyle.xml",
        ],
    );
    run(folder.path(), &["worksheet", FILE, "--html=a.html"]);
    run(folder.path(), &["tables", FILE, "--format=csv", "--output=a.csv"]);
    run(folder.path(), &["tables", FILE, "--output=a.md"]);
    let reports = ["a.txt", "a.json", "a.sarif", "a.xml", "lines.txt", "gitlab.json", "checkstyle.xml"];
    for name in reports.into_iter().chain(["a.html", "a.csv", "a.md"]) {
        text_is_safe(&String::from_utf8(fs::read(folder.path().join(name)).unwrap()).unwrap(), name);
    }
}

/// JSON and HTML write the signs of such commands as codes, so that their readers get the name as it is.
#[test]
fn json_keeps_the_names_as_they_are() {
    let (folder, _) = super::support::folder_with(FILE, named(HOSTILE));
    let sheet = run(folder.path(), &["worksheet", FILE, "--format", "json"]).json();
    assert!(sheet["pattern"].as_str() == Some(HOSTILE), "{}", sheet["pattern"]);
}

/// Folders and manuscripts of such names, and words of the command line.
#[test]
fn hostile_names_of_files_and_words_of_the_command_line() {
    let folder = tempfile::tempdir().unwrap();
    let inner = folder.path().join("::warning::a\n::error::b ##[c] ##vso[d] \u{202e}\u{1b}[2J");
    let name = "::notice::e\n::stop-commands::f\u{200b} ##[g.pattern.yaml";
    write(&inner.join(name), named("::h"));
    write(&inner.join("house-rules.yaml"), "levels: { \"::i\\n::j\": off }\n");
    let path = inner.join(name).to_string_lossy().into_owned();
    let gone = format!("{path}.gone");
    let output = format!("--output={gone}");
    for words in [
        &["check", "."][..],
        &["check", &path, "--format", "json", "--report", &format!("junit={gone}.xml")],
        &["check", &path, "--format", "sarif"],
        &["check", &path, "--format", "junit"],
        &["check", &path, "--format", "lines"],
        &["check", ".", "--format", "lines"],
        &["check", &path, "--format", "gitlab"],
        &["check", &path, "--format", "checkstyle"],
        &["fix", &path, "--diff"],
        &["fix", &gone],
        &["fix", "."],
        &["new", &path],
        &["new", &gone],
        &["new", "x.pattern.yaml", "--like", &gone, "--size", &gone],
        &["check", &gone],
        &["check", "--report", &gone],
        &["check", "--format", &gone],
        &["check", &format!("--{gone}")],
        &["worksheet", &path],
        &["worksheet", &path, "--format", "json"],
        &["worksheet", &path, &path, "--html"],
        &["worksheet", &gone],
        &["tables", &path, &output],
        &["tables", &gone],
        &["sign", &path, "--by", "Ada Finch"],
        &["sign", &gone, "--by", &gone],
        &["watch", "no such folder\n::error::x/y/z"],
        &["rules", &gone],
        &["completions", &gone],
        &[&gone],
        &["manual", &gone],
        &["pre-commit", &gone],
    ] {
        is_safe(&run(folder.path(), words), words);
    }
}

#[test]
fn a_watch_of_hostile_names() {
    let folder = tempfile::tempdir().unwrap();
    write(&folder.path().join("::error::a\n::b ##[c\u{202e}").join(FILE), named(HOSTILE));
    let mut child = program(folder.path()).args(["watch", "."]).stderr(Stdio::null()).spawn().unwrap();
    let mut text = String::new();
    for line in BufReader::new(child.stdout.take().unwrap()).lines() {
        let line = line.unwrap();
        text.push_str(&format!("{line}\n"));
        if line.starts_with("Watching") {
            break;
        }
    }
    child.kill().unwrap();
    child.wait().unwrap();
    assert!(text.contains("Watching 1 manuscript") && text.len() > 500, "{text}");
    text_is_safe(&text, "watch");
}

/// What the program has of its own goes through the same door and comes out as it is.
#[test]
fn nothing_of_the_program_s_own_is_changed() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let printed = run(root, &["pre-commit"]).out;
    assert_eq!(printed.as_bytes(), fs::read(root.join(".ci/pre-commit")).unwrap());
    for words in [&["manual"][..], &["completions", "bash"], &["completions", "zsh"], &["rules"]] {
        let ran = run(root, words);
        assert!(!ran.out.contains("# #") && !ran.out.lines().any(|line| line.starts_with(": :")), "{words:?}");
        is_safe(&ran, words);
    }
}
