//! Names and texts that mean harm, or that nobody thought of: every format stays whole, and tells the same.

use std::ffi::OsStr;
use std::os::unix::ffi::OsStrExt;
use std::path::Path;

use super::FOUR_KINDS;
use super::all_formats::agree;
use super::seen::{check, path_of, suites};
use super::support::{GOOD, is_wild, write};

/// A manuscript with findings, whose names are the given word in double quotes.
fn named(word: &str) -> String {
    let text = FOUR_KINDS.replace("queen", &format!("\"{word}\"")).replace("reed", &format!("\"r {word}\""));
    text.replace("the kit packs one more", &format!("\"because {word}\""))
        .replace("opening:", &format!("\"o {word}\":"))
}

const WORDS: [&str; 10] = [
    "a < b & c > d",
    "]]> <system-out>",
    "{0} {{ }} {",
    "[see](http://example.test/)",
    "\\\"quoted\\\" 'twice'",
    "\\u0007\\u001b[31m\\u009b",
    "\\u202eback\\u2066wards\\u200b",
    "\\uFFFE\\uFFFF",
    "x.pattern.yaml:1:1: error[spare-strip] (queen)",
    "line\\nx.pattern.yaml:1:1: error[spare-strip] (queen)",
];

fn hostile_folder() -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    let write = |name: &[u8], text: &[u8]| write(&folder.path().join(OsStr::from_bytes(name)), text);
    for (index, word) in WORDS.iter().enumerate() {
        write(format!("word-{index}.pattern.yaml").as_bytes(), named(word).as_bytes());
    }
    let names: [&[u8]; 8] = [
        b"not-utf8-\xff\xc3.pattern.yaml",
        b"bell\x07 and esc\x1b[31m.pattern.yaml",
        b"two\nlines.pattern.yaml",
        b"100%25 a+b #1?.pattern.yaml",
        b"<a href=\"x\">&amp; ]]>.pattern.yaml",
        b"c:\\x.pattern.yaml",
        "re\u{202e}vers \u{1f9f5}.pattern.yaml".as_bytes(),
        b"sub.dir/x.pattern.yml",
    ];
    for name in names {
        write(name, FOUR_KINDS.as_bytes());
    }
    write(b"empty.pattern.yaml", b"");
    write(b"mark.pattern.yaml", format!("\u{feff}{FOUR_KINDS}").as_bytes());
    write(b"crlf.pattern.yaml", FOUR_KINDS.replace('\n', "\r\n").as_bytes());
    write(b"cr.pattern.yaml", FOUR_KINDS.replace('\n', "\r").as_bytes());
    write(b"bytes.pattern.yaml", &[FOUR_KINDS.as_bytes(), b"# \xff\xfe\n"].concat());
    write(b"utf16.pattern.yaml", b"\xff\xfep\0a\0");
    write(b"nul.pattern.yaml", b"pattern: a\0b\n");
    write(b"deep.pattern.yaml", "[".repeat(5000).as_bytes());
    write(b"house/house-rules.yaml", b"levels: { spare-strip: query, tails-too-short: awful }\nvalues: 3\n");
    write(b"house/x.pattern.yaml", FOUR_KINDS.as_bytes());
    folder
}

#[test]
fn every_format_tells_the_same_and_is_whole() {
    let folder = hostile_folder();
    for words in [vec!["."], vec![".", "--strict"], vec![".", "--account"]] {
        let reports = check(folder.path(), &words);
        let found = agree(&reports);
        assert!(found > 100, "{found}");
        assert_eq!(reports.status, Some(1), "{}", reports.err);
        let texts = [
            ("text", &reports.text),
            ("junit", &reports.junit),
            ("lines", &reports.lines),
            ("github", &reports.github),
            ("checkstyle", &reports.checkstyle),
        ];
        for (name, text) in texts {
            let wild = text.chars().find(|c| *c != '\n' && is_wild(*c));
            assert_eq!(wild, None, "{name}");
        }
        // XML 1.0, section 2.2, beyond what is wild.
        assert!(!reports.junit.contains(['\u{fffe}', '\u{ffff}']));
        assert!(!reports.checkstyle.contains(['\u{fffe}', '\u{ffff}']));
    }
}

/// A system that opens the file by its URI finds it.
#[test]
fn the_uri_of_each_file_leads_to_it() {
    let folder = hostile_folder();
    let reports = check(folder.path(), &["."]);
    let artifacts = reports.sarif["runs"][0]["artifacts"].as_array().unwrap();
    assert!(artifacts.len() >= 28, "{}", artifacts.len());
    for artifact in artifacts {
        let uri = artifact["location"]["uri"].as_str().unwrap();
        assert!(uri.is_ascii() && !uri.contains([' ', '\\', '#', '?', ':']), "{uri}");
        let path = path_of(uri);
        // What is no UTF-8 cannot be told from its text.
        assert!(folder.path().join(&path).is_file() || path.contains('\u{fffd}'), "{uri}");
    }
    assert!(artifacts.iter().any(|artifact| artifact["location"]["uri"] == "not-utf8-%FF%C3.pattern.yaml"));
    let absolute = check(Path::new("/"), &[folder.path().join("c:\\x.pattern.yaml").to_str().unwrap()]);
    let location = &absolute.sarif["runs"][0]["artifacts"][0]["location"];
    let uri = location["uri"].as_str().unwrap();
    assert!(uri.starts_with("file:///") && uri.ends_with("/c%3A%5Cx.pattern.yaml"), "{uri}");
    assert!(location.get("uriBaseId").is_none(), "an absolute one has no base");
}

#[test]
fn what_is_missing_beside_what_is_hostile() {
    let folder = hostile_folder();
    let reports = check(folder.path(), &[".", "gone <&>\u{7}.pattern.yaml"]);
    agree(&reports);
    assert_eq!(reports.status, Some(2));
    let suites = suites(&reports.junit);
    assert_eq!(suites.errors, 1);
    let invocation = &reports.sarif["runs"][0]["invocations"][0];
    let told = &invocation["toolExecutionNotifications"][0]["locations"][0]["physicalLocation"]["artifactLocation"];
    assert_eq!(told["uri"], "gone%20%3C%26%3E%07.pattern.yaml");
}

/// An empty file has a place as well, in every format the same.
#[test]
fn an_empty_file_has_a_place() {
    let folder = tempfile::tempdir().unwrap();
    write(&folder.path().join("x.pattern.yaml"), "");
    let reports = check(folder.path(), &["."]);
    assert!(agree(&reports) > 0);
    let result = &reports.sarif["runs"][0]["results"][0];
    let region = &result["locations"][0]["physicalLocation"]["region"];
    assert_eq!([&region["startLine"], &region["startColumn"]], [1, 1]);
}

/// The same files give the same bytes, whatever order they are checked in.
#[test]
fn reports_are_the_same_each_time() {
    let folder = hostile_folder();
    write(&folder.path().join("good.pattern.yaml"), GOOD);
    let (one, other) = (check(folder.path(), &["."]), check(folder.path(), &["."]));
    assert_eq!((one.sarif, one.junit, one.text), (other.sarif, other.junit, other.text));
}
