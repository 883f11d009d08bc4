//! `watch --format lines`, for a problem matcher, and `watch --signed`.

use super::super::support::GOOD;
use super::watching::Watching;

const NAME: &str = "lanterns.pattern.yaml";

fn with_an_error() -> String {
    GOOD.replace("strips: 12", "strips: 11")
}

#[test]
fn after_each_save_everything_that_stands_is_told_a_line_each() {
    let other = "other.pattern.yaml";
    let mut watching = Watching::new(&["--format", "lines"], |folder| {
        std::fs::write(folder.join(NAME), GOOD).unwrap();
        std::fs::write(folder.join(other), with_an_error()).unwrap();
    });
    let line = |name: &str| format!("{name}:26:22: error: spare-strip (queen): 11 strips stated; 12 needed");
    let told = |lines: &[String]| -> Vec<String> {
        let lines = lines.iter().filter(|line| line.contains(": error: ") || line.contains(": warning: "));
        lines.map(|line| line.split(": 11 to go around").next().unwrap().to_string()).collect()
    };
    assert_eq!(told(&watching.first.lines), [line(other)]);
    assert!(watching.first.lines.contains(&"Checked 2 manuscripts:".to_string()), "{:#?}", watching.first);
    std::fs::write(watching.folder.path().join(NAME), with_an_error()).unwrap();
    let report = watching.report();
    assert_eq!(report.lines[0], "Checked 2 manuscripts:", "{report:#?}");
    assert_eq!(told(&report.lines), [line(NAME), line(other)], "the other one too");
    report.ends(&["2 manuscripts: 2 errors"]);
}

#[test]
fn what_is_not_as_it_was_signed_is_told_and_signing_again_is_noticed() {
    let sign = |folder: &std::path::Path| {
        let ran = crate::support::run(folder, &["sign", NAME, "--by", "Ada Finch"]);
        assert_eq!(ran.status, Some(0), "{ran:?}");
    };
    let mut watching = Watching::new(&["--signed"], |folder| {
        std::fs::write(folder.join(NAME), GOOD).unwrap();
        sign(folder);
    });
    watching.first.says("no problems");
    std::fs::write(watching.folder.path().join(NAME), GOOD.replace("strips: 12, fabric: 7/8", "strips: 13, fabric: 1"))
        .unwrap();
    watching.report().says("changed-since-signed (queen)");
    sign(watching.folder.path());
    watching.report().ends(&[
        "lanterns.pattern.yaml, by the house rules and sign-offs: 2 fixed, no problems left",
        "1 manuscript: no problems",
    ]);
    std::fs::remove_file(watching.folder.path().join("sign-offs.yaml")).unwrap();
    watching.report().says("not-signed");
}

/// In a split pane the last lines are seen, and the errors are among them, whichever file they are in.
#[test]
fn no_more_lines_than_fit_and_what_is_gravest_last() {
    let slack = GOOD.replace("strips: 12, fabric: 7/8 yd", "strips: 12, fabric: 3 yd");
    let prepare = |folder: &std::path::Path| {
        std::fs::write(folder.join("a.pattern.yaml"), with_an_error()).unwrap();
        for name in ["b.pattern.yaml", "c.pattern.yaml", "d.pattern.yaml"] {
            std::fs::write(folder.join(name), &slack).unwrap();
        }
    };
    let all = &Watching::new(&[], prepare).first;
    let heads = |lines: &[String]| -> Vec<String> {
        let heads = lines.iter().filter(|line| line.starts_with("error: ") || line.starts_with("note: "));
        heads.map(|line| line.split(' ').next().unwrap().to_string()).collect()
    };
    assert_eq!(heads(&all.lines).last().map(String::as_str), Some("error:"), "{all:#?}");
    let few = &Watching::new(&["--lines", "30"], prepare).first;
    assert!(few.lines.len() <= 30, "{few:#?}");
    assert!(few.lines[0].starts_with('(') && few.lines[0].ends_with(" lines left out)"), "{few:#?}");
    assert!(few.lines[1].starts_with("error: ") || few.lines[1].starts_with("note: "), "a whole finding: {few:#?}");
    assert_eq!(few.lines[1..], all.lines[all.lines.len() - few.lines.len() + 1..]);
}
