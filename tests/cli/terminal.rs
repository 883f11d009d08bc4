//! Colours, ASCII, and the other commands' output.

use super::support::{GOOD, finish, folder_with, program, run, without_colours};
use super::with_an_error;

const ESCAPE: char = '\u{1b}';

#[test]
fn colour_is_where_it_is_asked_for() {
    let (folder, _) = folder_with("x.pattern.yaml", with_an_error());
    let plain = run(folder.path(), &["check"]).out;
    assert!(!plain.contains(ESCAPE), "not into a pipe");
    let coloured = run(folder.path(), &["check", "--color", "always"]).out;
    assert!(coloured.contains(ESCAPE));
    assert_eq!(without_colours(&coloured), plain);
    assert_eq!(run(folder.path(), &["check", "--color", "never"]).out, plain);
    for (choice, has_colour) in [("auto", false), ("always", true), ("never", false)] {
        let mut command = program(folder.path());
        command.args(["check", "--color", choice]).env("NO_COLOR", "1");
        assert_eq!(finish(&mut command, b"").out.contains(ESCAPE), has_colour, "NO_COLOR with --color {choice}");
    }
}

/// A link is what OSC 8 makes of the place, and its text is the place as it stands without one.
#[test]
fn the_place_of_a_finding_is_a_link_where_that_is_asked_for() {
    let (folder, _) = folder_with("a b.pattern.yaml", with_an_error());
    let out = |forced: &str, color: &str| {
        let mut command = program(folder.path());
        command.args(["check", "--color", color]).env("FORCE_HYPERLINK", forced);
        finish(&mut command, b"").out
    };
    let linked = out("1", "always");
    let plain = out("0", "always");
    let folder = folder.path().canonicalize().unwrap();
    let link = format!("\u{1b}]8;;file://{}/a%20b.pattern.yaml\u{1b}\\a b.pattern.yaml:", folder.display());
    assert!(linked.contains(&link), "{linked:?}");
    assert!(!plain.contains("\u{1b}]8"), "{plain:?}");
    let without = linked.replace(&link, "a b.pattern.yaml:").replace("\u{1b}]8;;\u{1b}\\", "");
    assert_eq!(without, plain);
    assert!(!out("1", "never").contains(ESCAPE), "none without colors");
}

#[test]
fn no_color_holds_on_a_terminal() {
    let (folder, _) = folder_with("x.pattern.yaml", with_an_error());
    // `script` gives the program a terminal of its own.
    let on_a_terminal = |no_colour: &str| {
        let mut command = std::process::Command::new("script");
        command.args(["-qec", &format!("{} check", env!("CARGO_BIN_EXE_sparestrip")), "/dev/null"]);
        command.current_dir(folder.path()).env("NO_COLOR", no_colour).env("TERM", "xterm");
        command.stdin(std::process::Stdio::null()).stdout(std::process::Stdio::piped());
        finish(&mut command, b"").out
    };
    assert!(on_a_terminal("").contains(ESCAPE), "an empty NO_COLOR is none");
    assert!(!on_a_terminal("1").contains(ESCAPE));
}

#[test]
fn ascii_is_ascii() {
    let text = with_an_error().replace("queen", "köngin").replace("Harbour", "Häfen ½");
    let (folder, _) = folder_with("größe.pattern.yaml", text);
    for words in [
        &["check", "--ascii"][..],
        &["worksheet", "größe.pattern.yaml", "--ascii"],
        &["rules", "--ascii"],
        &["rules", "spare-strip", "--ascii"],
    ] {
        let out = run(folder.path(), words).out;
        assert!(out.is_ascii(), "{words:?}: {out}");
        assert!(!out.is_empty());
    }
}

#[test]
fn the_rules_are_listed_and_shown_one_by_one() {
    let folder = tempfile::tempdir().unwrap();
    let list = run(folder.path(), &["rules"]);
    assert_eq!(list.status, Some(0));
    let names: Vec<&str> = sparestrip::rules::RULES.iter().map(|rule| rule.name).collect();
    for name in names {
        assert!(list.out.lines().any(|line| line.split_whitespace().next() == Some(name)), "{name} in {}", list.out);
        let page = run(folder.path(), &["rules", name]);
        assert_eq!(page.status, Some(0));
        assert!(page.out.starts_with(name), "{}", page.out);
    }
}

#[test]
fn a_worksheet_holds_every_stated_number_beside_what_is_needed() {
    let (folder, _) = folder_with("x.pattern.yaml", with_an_error());
    let ran = run(folder.path(), &["worksheet", "x.pattern.yaml"]);
    assert_eq!(ran.status, Some(0));
    let row = |word: &str, number: &str| {
        ran.out.lines().any(|line| line.contains(word) && line.split_whitespace().any(|part| part == number))
    };
    assert!(row("strips", "11") && row("strips", "12"), "{}", ran.out);
    assert!(ran.out.contains("  short  ") && ran.out.contains("  OK  "), "{}", ran.out);
    for size in ["crib", "throw", "queen"] {
        assert!(ran.out.lines().any(|line| line.starts_with(size)), "{size} in {}", ran.out);
    }
    assert_eq!(run(folder.path(), &["worksheet", "."]).out, ran.out, "of the only manuscript of a folder");
    let (folder, _) = folder_with("x.pattern.yaml", GOOD);
    assert!(!run(folder.path(), &["worksheet", "x.pattern.yaml"]).out.contains("  short  "));
}

/// A long list of pieces leaves the columns of sizes room enough.
#[test]
fn a_worksheet_breaks_no_line_within_a_size() {
    let example = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("example-patterns");
    let worksheet = run(&example, &["worksheet", "cormorant-stair.pattern.yaml"]).out;
    for (size, times) in [("  7 3/4 x 7 3/4  ", 2), ("  12 in x 12 in  ", 2), ("  117 1/2 x 117 1/2  ", 1)] {
        assert_eq!(worksheet.matches(size).count(), times, "{size}: {worksheet}");
    }
}

/// Every word of a number's name and of its result stays in one piece, however long the sizes beside it are.
#[test]
fn a_worksheet_breaks_no_word() {
    let example = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("example-patterns/with-faults");
    for name in ["thrift-bank", "sea-holly", "eel-grass", "salt-marsh"] {
        let worksheet = run(&example, &["worksheet", &format!("{name}.pattern.yaml")]).out;
        let heads: Vec<&str> = worksheet.lines().filter(|line| line.starts_with("  number ")).collect();
        assert!(heads.len() > 2 && heads.iter().all(|head| head.contains(" result ")), "{worksheet}");
        assert!(worksheet.contains("  usable_width  "), "{worksheet}");
        let rows = || worksheet.lines().filter(|line| line.starts_with("  "));
        assert!(rows().all(|line| line.chars().count() <= 100), "{worksheet}");
    }
    let worksheet = run(&example, &["worksheet", "thrift-bank.pattern.yaml"]).out;
    assert!(worksheet.contains("  6 1/2 in x 5 1/2 in  "), "{worksheet}");
}
