//! `sparestrip new`: what it makes, and that it makes nothing over a file.

use super::support::{self, GOOD, Ran, folder_with, run, write};

const NAME: &str = "heron.pattern.yaml";

fn new(folder: &std::path::Path, words: &[&str]) -> Ran {
    run(folder, &[&["new"], words].concat())
}

fn text_of(folder: &std::path::Path) -> String {
    String::from_utf8(std::fs::read(folder.join(NAME)).unwrap()).unwrap()
}

const ALL: [&str; 12] = [
    NAME,
    "--name",
    "Heron Steps",
    "--measure",
    "inches",
    "--size",
    "throw=54 x 72",
    "--size",
    "queen = 90 x 96",
    "--binding=2 1/2",
    "--backing",
    "--batting",
];

/// The numbers are those that the trade's formulas give: 252 in round, 40 in strips; the backing and the batting reach
/// 4 in beyond the quilt, so that the throw's two panels are 80 in long.
#[test]
fn every_number_that_can_be_computed_is_filled_in() {
    let folder = tempfile::tempdir().unwrap();
    let ran = new(folder.path(), &ALL);
    assert_eq!((ran.status, ran.out.as_str()), (Some(0), ""), "{ran:?}");
    assert_eq!(ran.err, "sparestrip: wrote heron.pattern.yaml\n");
    let text = text_of(folder.path());
    for line in [
        "pattern: Heron Steps",
        "  throw: { finished: 54 x 72 }",
        "  strip_width: 2 1/2",
        "    throw: { strips: 8, fabric: 5/8 yd }",
        "    throw: { fabric: 4 1/2 yd }",
        "    throw: 62 x 80",
        "    queen: 98 x 104",
    ] {
        assert!(text.lines().any(|own| own == line), "no {line:?} in\n{text}");
    }
    let ran = run(folder.path(), &["check", "--strict", "--account", "."]);
    assert_eq!((ran.status, ran.out.as_str()), (Some(0), "1 manuscript: no problems\n"));
}

#[test]
fn nothing_is_written_over_a_file_or_where_it_would_not_be_found() {
    let (folder, file) = folder_with(NAME, GOOD);
    let refused = |name: &str, why: &str| {
        let ran = new(folder.path(), &[&[name], &ALL[1..]].concat());
        assert_eq!((ran.status, ran.out.as_str()), (Some(2), ""), "{ran:?}");
        assert!(ran.err.contains(why), "{}", ran.err);
    };
    refused(NAME, "heron.pattern.yaml is there already: nothing is written over it");
    refused(".", "is there already");
    refused("heron.yaml", "its name must end in .pattern.yaml");
    refused("gone/heron.pattern.yaml", "there is no folder gone");
    assert_eq!(support::run(folder.path(), &["check", "."]).status, Some(0));
    assert_eq!(std::fs::read(&file).unwrap(), GOOD.as_bytes());
    assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 1);
    #[cfg(unix)]
    {
        std::os::unix::fs::symlink("nowhere", folder.path().join("link.pattern.yaml")).unwrap();
        refused("link.pattern.yaml", "is there already");
    }
}

/// Without a terminal nothing can be asked.
#[test]
fn what_is_missing_is_named() {
    let folder = tempfile::tempdir().unwrap();
    for (words, why) in [
        (&ALL[..1], "--name is missing"),
        (&ALL[..3], "--measure is missing"),
        (&ALL[..5], "--size is missing"),
        (&[NAME, "--size", "throw"], "such as throw = 54 x 72"),
    ] {
        let ran = new(folder.path(), words);
        assert_eq!((ran.status, ran.out.as_str()), (Some(2), ""));
        assert!(ran.err.contains(why), "{}", ran.err);
    }
}

#[test]
fn what_cannot_be_read_is_said_and_nothing_is_written() {
    let folder = tempfile::tempdir().unwrap();
    for (size, why) in [("throw=54 by", "54 by"), ("throw=6000 x 72", "6000"), ("throw=54 x 72, other: 3", "other")] {
        let ran = new(folder.path(), &[NAME, "--name=x", "--measure=cm", "--size", size, "--backing"]);
        assert_eq!((ran.status, ran.out.as_str()), (Some(2), ""), "{ran:?}");
        assert!(ran.err.contains(why) && ran.err.contains("nothing was written"), "{}", ran.err);
        assert!(!folder.path().join(NAME).exists());
    }
}

#[test]
fn a_dash_prints_it() {
    let folder = tempfile::tempdir().unwrap();
    new(folder.path(), &ALL);
    let ran = new(folder.path(), &[&["-"], &ALL[1..]].concat());
    assert_eq!((ran.status, ran.out), (Some(0), text_of(folder.path())));
}

/// The methods are those of the other manuscript; its numbers are not, and its sizes neither.
#[test]
fn the_methods_of_another_manuscript_are_taken() {
    let (folder, _) = folder_with("other.pattern.yaml", GOOD.replace("strip_width: 2 1/2", "strip_width: 2 1/4"));
    let ran = new(folder.path(), &[NAME, "--name", "Gull", "--size", "cot=30 x 40", "--like", "other.pattern.yaml"]);
    assert_eq!(ran.status, Some(0), "{ran:?}");
    let text = text_of(folder.path());
    for line in ["measure: inch", "  usable_width: 40", "  strip_width: 2 1/4", "  finish: machine", "  opening: 12"] {
        assert!(text.lines().any(|own| own == line), "no {line:?} in\n{text}");
    }
    assert!(!text.contains("crib:") && !text.contains("queen:"), "{text}");
    let ran = run(folder.path(), &["check", "--strict", NAME]);
    assert_eq!(ran.status, Some(0), "{}", ran.out);
    let ran = new(
        folder.path(),
        &["x.pattern.yaml", "--measure=cm", "--name=x", "--size=a=1 x 2", "--like=other.pattern.yaml"],
    );
    assert!(ran.status == Some(2) && ran.err.contains("in the other measure"), "{}", ran.err);
}

/// Each right example gives its methods.
#[test]
fn the_methods_of_every_example_can_be_taken() {
    let folder = tempfile::tempdir().unwrap();
    let examples = support::examples().into_iter().filter(|path| !path.to_string_lossy().contains("with-faults"));
    for (index, path) in examples.enumerate() {
        let name = format!("x{index}.pattern.yaml");
        let text = String::from_utf8(std::fs::read(&path).unwrap()).unwrap();
        let size = if text.contains("measure: cm") { "--size=throw=140 x 180" } else { "--size=throw=54 x 72" };
        let ran = new(folder.path(), &[&name, "--name=x", size, "--like", &path.to_string_lossy()]);
        assert_eq!(ran.status, Some(0), "{}: {}", path.display(), ran.err);
        let ran = run(folder.path(), &["check", "--strict", &name]);
        assert_eq!(ran.status, Some(0), "{}: {}", path.display(), ran.out);
    }
}

#[test]
fn house_rules_hold_for_it() {
    let folder = tempfile::tempdir().unwrap();
    write(&folder.path().join("house-rules.yaml"), "values: { spare_strips: 2 }\n");
    assert_eq!(new(folder.path(), &ALL).status, Some(0));
    assert!(text_of(folder.path()).contains("throw: { strips: 9, fabric: "), "{}", text_of(folder.path()));
    assert_eq!(run(folder.path(), &["check", "--strict", "."]).status, Some(0));
}

/// On a terminal what is left out is asked for, and again where the answer cannot be read.
#[test]
fn on_a_terminal_it_asks() {
    let folder = tempfile::tempdir().unwrap();
    let mut command = std::process::Command::new("script");
    command.args(["-qec", &format!("{} new {NAME}", env!("CARGO_BIN_EXE_sparestrip")), "/dev/null"]);
    command.current_dir(folder.path()).env("TERM", "xterm");
    command.stdin(std::process::Stdio::piped()).stdout(std::process::Stdio::piped());
    let typed = "Heron Steps\nfurlongs\ninches\nthrow\nthrow = 54 x 72\n\nwide\n2 1/2\ny\nno\n";
    let ran = support::finish(&mut command, typed.as_bytes());
    assert_eq!(ran.status, Some(0), "{}", ran.out);
    for asked in [
        "What is the pattern called?",
        "Inches or centimeters?",
        "type inches or cm",
        "it takes a name, an equals sign and two lengths",
        "Another size (or only Enter):",
        "type a length, such as 2 1/2",
        "Is there a backing (yes or no)?",
        "Is there batting (yes or no)?",
        "wrote heron.pattern.yaml",
    ] {
        assert!(ran.out.contains(asked), "{asked} in\n{}", ran.out);
    }
    let text = text_of(folder.path());
    assert!(text.contains("    throw: { strips: 8, fabric: 5/8 yd }\n") && !text.contains("\nbatting:"), "{text}");
}

/// A quilt that fits a crib comes with the caution that the pattern is to print.
#[test]
fn a_crib_size_comes_with_the_caution() {
    let folder = tempfile::tempdir().unwrap();
    let ran = new(folder.path(), &[NAME, "--name=x", "--measure=inches", "--size", "crib=36 x 48", "--backing"]);
    assert_eq!(ran.status, Some(0), "{ran:?}");
    let text = text_of(folder.path());
    assert!(text.contains("safe-sleep") && text.contains("# To be printed with the pattern:"), "{text}");
}
