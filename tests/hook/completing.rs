//! Completions for shells.

use std::process::{Command, Stdio};

use rstest::rstest;

use crate::support::{Ran, finish, folder_with, program, run};

fn script(shell: &str) -> String {
    let ran = run(&std::env::temp_dir(), &["completions", shell]);
    assert_eq!((ran.status, ran.err.as_str()), (Some(0), ""));
    ran.out
}

/// What a real bash offers for these words; the last of them is being typed.
fn offered(words: &[&str]) -> Vec<String> {
    let (folder, _) = folder_with("completions", script("bash"));
    let line = "source ./completions; COMP_WORDS=(\"$@\"); COMP_CWORD=$(($# - 1)); COMPREPLY=(); \
                set -- \"$1\" \"${@: -1}\" \"${@: -2:1}\"; \
                \"$(complete -p sparestrip | sed 's/.*-F \\([^ ]*\\).*/\\1/')\" \"$@\"; printf '%s\\n' \"${COMPREPLY[@]}\"";
    let mut bash = Command::new("bash");
    bash.args(["--norc", "-c", line, "bash"]).args(words).current_dir(folder.path());
    bash.stdin(Stdio::null()).stdout(Stdio::piped()).stderr(Stdio::piped());
    let Ran { status, out, err } = finish(&mut bash, b"");
    assert_eq!((status, err.as_str()), (Some(0), ""), "{out}");
    out.lines().map(str::to_string).collect()
}

#[test]
fn bash_completes_commands_options_and_their_values() {
    if !crate::hook::is_there("bash") {
        return;
    }
    assert_eq!(offered(&["sparestrip", "ch"]), ["check"]);
    assert_eq!(offered(&["sparestrip", "ta"]), ["tables"]);
    assert_eq!(offered(&["sparestrip", "check", "--st"]), ["--strict"]);
    assert_eq!(offered(&["sparestrip", "tables", "--o"]), ["--output"]);
    assert_eq!(offered(&["sparestrip", "tables", "--format", "m"]), ["markdown"]);
    assert!(offered(&["sparestrip", "check", "--"]).contains(&"--account".to_string()));
}

#[rstest]
#[case("bash")]
#[case("zsh")]
#[case("fish")]
#[case("powershell")]
#[case("elvish")]
fn each_shell_hears_of_every_command(#[case] shell: &str) {
    let script = script(shell);
    let help = run(&std::env::temp_dir(), &["--help"]).out;
    let commands = super::paging::commands(&help);
    assert!(commands.len() > 6, "{help}");
    for command in commands {
        assert!(script.contains(&command), "{shell} does not hear of {command}");
    }
}

/// A shell that is there must be able to read its script.
#[rstest]
#[case("bash", &["-n"])]
#[case("zsh", &["-n"])]
#[case("fish", &["--no-execute"])]
fn the_shell_itself_can_read_it(#[case] shell: &str, #[case] words: &[&str]) {
    if !crate::hook::is_there(shell) {
        return;
    }
    let (folder, _) = folder_with("completions", script(shell));
    let mut command = Command::new(shell);
    command.args(words).arg("completions").current_dir(folder.path());
    command.stdin(Stdio::null()).stdout(Stdio::piped()).stderr(Stdio::piped());
    let ran = finish(&mut command, b"");
    assert_eq!((ran.status, ran.err.as_str()), (Some(0), ""));
}

#[test]
fn a_shell_that_is_not_known_is_2_with_those_that_are() {
    let ran = finish(program(&std::env::temp_dir()).args(["completions", "tcsh"]), b"");
    assert_eq!((ran.status, ran.out.as_str()), (Some(2), ""));
    assert!(ran.err.contains("powershell"), "{}", ran.err);
}
