//! The manual page, and the scripts looked over by those who know how.

use std::path::Path;
use std::process::{Command, Stdio};

use crate::support::{finish, run};

/// The commands that the help lists.
pub(crate) fn commands(help: &str) -> Vec<String> {
    let list = help.split("Commands:\n").nth(1).unwrap().split("\n\n").next().unwrap();
    let words = list.lines().map(|line| line.split_whitespace().next().unwrap().to_string());
    words.filter(|word| word != "help").collect()
}

fn printed(words: &[&str]) -> String {
    let ran = run(&std::env::temp_dir(), words);
    assert_eq!((ran.status, ran.err.as_str()), (Some(0), ""), "{words:?}");
    ran.out
}

/// The page as a reader sees it, without its marks.
fn page() -> String {
    printed(&["manual"]).replace("\\-", "-").replace("\\fB", "").replace("\\fI", "").replace("\\fR", "")
}

#[test]
fn every_command_and_every_option_stands_in_the_manual() {
    let page = page();
    for command in commands(&printed(&["--help"])) {
        let heading = format!(".SS \"sparestrip {command}\"\n");
        let section = page.split(&heading).nth(1).unwrap_or_else(|| panic!("no {heading} in:\n{page}"));
        let section = section.split("\n.S").next().unwrap();
        let help = printed(&[&command, "--help"]);
        let options: Vec<&str> = help
            .lines()
            .filter_map(|line| {
                line.split_whitespace().find(|word| word.starts_with("--")).filter(|_| line.starts_with(' '))
            })
            .map(|word| word.trim_end_matches(','))
            .collect();
        assert!(!options.is_empty(), "{help}");
        for option in options {
            assert!(section.contains(option), "{option} is not in the manual of {command}:\n{section}");
        }
    }
}

#[test]
fn exit_statuses_and_files_stand_in_the_manual() {
    let page = page();
    for heading in
        ["NAME", "SYNOPSIS", "DESCRIPTION", "OPTIONS", "COMMANDS", "EXIT STATUS", "FILES", "ENVIRONMENT", "EXAMPLES"]
    {
        assert!(
            page.lines().any(|line| line == format!(".SH {heading}") || line == format!(".SH \"{heading}\"")),
            "{heading}"
        );
    }
    for name in ["house-rules.yaml", "sign-offs.yaml", "*.pattern.yaml", "NO_COLOR"] {
        assert!(page.contains(name), "{name}");
    }
}

/// groff reads the page without a warning.
#[test]
fn groff_reads_it() {
    if !crate::hook::is_there("groff") {
        return;
    }
    let mut groff = Command::new("groff");
    groff.args(["-man", "-Tutf8", "-ww"]).stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
    let ran = finish(&mut groff, printed(&["manual"]).as_bytes());
    assert_eq!((ran.status, ran.err.as_str()), (Some(0), ""));
    assert!(ran.out.contains("SPARESTRIP(1)"), "{}", ran.out);
}

#[test]
fn the_script_is_the_file_of_the_project_and_fit_for_any_shell() {
    let project = Path::new(env!("CARGO_MANIFEST_DIR"));
    let script = printed(&["pre-commit"]);
    assert!(script.starts_with("#!/bin/sh\n") && !script.contains('\r'));
    assert!(project.join(".ci/pre-commit").is_file());
    if !crate::hook::is_there("shellcheck") {
        return;
    }
    let mut shellcheck = Command::new("shellcheck");
    shellcheck.args(["--shell=sh", "-"]).stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
    let ran = finish(&mut shellcheck, script.as_bytes());
    assert_eq!((ran.status, ran.out.as_str()), (Some(0), ""));
}
