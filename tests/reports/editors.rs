//! The format of lines, read by editors where they are installed, and by the expressions that they read with.

use std::fmt::Write as _;
use std::path::Path;
use std::process::{Command, Stdio};

use regex::Regex;

use super::support::{finish, run};
use crate::hook::is_there;

fn project() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// The lines for all examples.
fn lines() -> String {
    let ran = run(project(), &["check", "--format", "lines", "example-patterns"]);
    assert_eq!((ran.status, ran.err.as_str()), (Some(1), ""));
    ran.out
}

/// File, line, column and level of every finding, as JSON has them; the level as E, W or N.
fn in_json() -> Vec<String> {
    let json = run(project(), &["check", "--format", "json", "example-patterns"]).json();
    let findings = json["findings"].as_array().unwrap().iter();
    let mut told: Vec<String> = findings
        .map(|finding| {
            let level = match finding["level"].as_str().unwrap() {
                "error" => "E",
                "query" => "W",
                _ => "N",
            };
            let at = &finding["at"];
            format!("{}:{}:{}:{level}", finding["file"].as_str().unwrap(), at["line"], at["column"])
        })
        .collect();
    told.sort();
    assert!(told.len() > 50);
    told
}

/// File, line, column and level of each line that an expression finds, by the numbers of its groups.
fn by(expression: &str, groups: [usize; 3], level: impl Fn(&regex::Captures<'_>) -> char) -> Vec<String> {
    let expression = Regex::new(expression).unwrap();
    let one = |line: &str| {
        let found = expression.captures(line).unwrap_or_else(|| panic!("not read: {line}"));
        let [file, row, column] = groups.map(|group| found[group].to_string());
        format!("{file}:{row}:{column}:{}", level(&found))
    };
    let mut told: Vec<String> = lines().lines().map(one).collect();
    told.sort();
    told
}

/// The problem matcher of the C/C++ extension for VS Code (`vscode-cpptools`, `Extension/package.json`, `$gcc`), which
/// many systems copied, with the third word `note` of the same compilers.
#[test]
fn a_general_problem_matcher_reads_every_finding() {
    let first = |found: &regex::Captures<'_>| found[4].to_uppercase().chars().next().unwrap();
    let expression = r"^(.*?):(\d+):(\d*):?\s+(?:fatal\s+)?(warning|error|note):\s+(.*)$";
    assert_eq!(by(expression, [1, 2, 3], first), in_json());
}

/// The entry `gnu` of `compilation-error-regexp-alist-alist` in Emacs 28's `lisp/progmodes/compile.el`, as far as it
/// concerns a line with a file, a line and a column: group 6 is a warning, group 7 a note.
#[test]
fn the_compile_mode_of_emacs_reads_every_finding() {
    let expression = r"^(?:[[:alpha:]][-[:alnum:].]+: ?|[ \t]+(?:in |from))?(?P<file>(?:[0-9]*[^0-9\n])(?:[^\n :]| [^-/\n]|:[^ \n])*?)(?:: ?)(?P<line>[0-9]+)(?:[.:](?P<column>[0-9]+))?:(?: *(?P<warning>FutureWarning|RuntimeWarning|W(?::|arning)|warning)| *(?P<note>[Ii]nfo(?:\b|rmationa?l?)|I:|\[ skipping .+ \]|instantiated from|required from|[Nn]ote)| *(?:[Ee]rror)|(?:[0-9]?)(?:[^0-9\n]|$)|[0-9][0-9][0-9])";
    let level = |found: &regex::Captures<'_>| match (found.name("warning"), found.name("note")) {
        (Some(_), _) => 'W',
        (None, Some(_)) => 'N',
        (None, None) => 'E',
    };
    assert_eq!(by(expression, [1, 2, 3], level), in_json());
}

/// The quickfix list of Vim: by the format that README and the manual give, and by the one that it has by itself.
#[test]
fn vim_reads_every_finding_into_its_quickfix_list() {
    if !is_there("vim") {
        return;
    }
    let folder = tempfile::tempdir().unwrap();
    let (from, to) = (folder.path().join("lines"), folder.path().join("read"));
    super::support::write(&from, lines());
    let own = r"set errorformat=%f:%l:%v:\ %t%*[a-z]:\ %m";
    for (format, column, typed) in [("", "col", false), (own, "col", true)] {
        let mut script = String::new();
        if !format.is_empty() {
            writeln!(script, "{format}").unwrap();
        }
        writeln!(script, "cgetfile {}", from.display()).unwrap();
        writeln!(
            script,
            "call writefile(map(filter(getqflist(), 'v:val.valid'), \
             {{_, e -> bufname(e.bufnr) .. ':' .. e.lnum .. ':' .. e.{column} .. ':' .. toupper(e.type)}}), '{}')",
            to.display()
        )
        .unwrap();
        writeln!(script, "qall!").unwrap();
        let file = folder.path().join("script.vim");
        super::support::write(&file, script);
        let mut vim = Command::new("vim");
        vim.args(["-Nu", "NONE", "-i", "NONE", "-es", "-S"]).arg(&file).current_dir(project());
        vim.stdin(Stdio::null()).stdout(Stdio::piped()).stderr(Stdio::piped());
        finish(&mut vim, b"");
        let read = String::from_utf8(std::fs::read(&to).unwrap()).unwrap();
        let mut read: Vec<String> = read.lines().map(str::to_string).collect();
        read.sort();
        let without_level = |told: Vec<String>| -> Vec<String> {
            told.iter().map(|told| told.rsplit_once(':').unwrap().0.to_string()).collect()
        };
        if typed {
            assert_eq!(read, in_json(), "{format}");
        } else {
            let (mut read, mut json) = (without_level(read), without_level(in_json()));
            read.sort();
            json.sort();
            assert_eq!(read, json, "by its own format");
        }
    }
}

/// The compile mode of Emacs itself.
#[test]
fn emacs_reads_every_finding_into_its_compile_mode() {
    if !is_there("emacs") {
        return;
    }
    let folder = tempfile::tempdir().unwrap();
    let from = folder.path().join("lines");
    super::support::write(&from, lines());
    let script = format!(
        "(progn (require 'compile) (find-file {from:?}) (compilation-mode) (compilation--ensure-parse (point-max))
           (goto-char (point-min))
           (while (not (eobp))
             (let* ((message (get-text-property (point) 'compilation-message)))
               (when message
                 (let ((loc (compilation--message->loc message)))
                   (princ (format \"%s:%d:%d:%s\\n\"
                     (caar (compilation--loc->file-struct loc))
                     (compilation--loc->line loc) (compilation--loc->col loc)
                     (pcase (compilation--message->type message) (2 'E) (1 'W) (0 'N)))))))
             (forward-line 1)))"
    );
    let mut emacs = Command::new("emacs");
    emacs.args(["-Q", "--batch", "--eval", &script]).current_dir(project());
    emacs.stdin(Stdio::null()).stdout(Stdio::piped()).stderr(Stdio::piped());
    let ran = finish(&mut emacs, b"");
    let mut read: Vec<String> = ran.out.lines().map(str::to_string).collect();
    read.sort();
    assert_eq!(read, in_json(), "{}", ran.err);
}
