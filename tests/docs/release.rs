//! What is given away: the version stands in one place, the source package holds what a build takes and no more, and the
//! scripts are sound.

use std::process::Command;

use super::{all_papers, paper, printed, project};

const VERSION: &str = env!("CARGO_PKG_VERSION");

/// Words of a text that are versions: numbers with two points between them.
fn versions(text: &str) -> Vec<&str> {
    let words =
        text.split(|c: char| c.is_whitespace() || "()[]\"'`,:;".contains(c)).map(|word| word.trim_end_matches('.'));
    let is_number = |part: &str| !part.is_empty() && part.bytes().all(|byte| byte.is_ascii_digit());
    words.filter(|word| word.split('.').count() == 3 && word.split('.').all(is_number)).collect()
}

#[test]
fn papers_and_output_state_the_version_of_the_manifest() {
    assert_eq!(printed(&["--version"]).trim(), format!("sparestrip {VERSION}"));
    assert!(printed(&["manual"]).contains(VERSION), "the manual page has no version");
    let changes = paper("CHANGELOG.md");
    let newest = versions(&changes).into_iter().next().expect("a version in CHANGELOG.md");
    assert_eq!(newest, VERSION, "the newest section of CHANGELOG.md with a version");
    // A paper that names the version would have to be changed with it.
    for (name, text) in [("README.md", paper("README.md")), ("the chapters", all_papers())] {
        assert!(!versions(&text).contains(&VERSION), "{name} state the version of the program");
    }
}

#[test]
fn the_source_package_holds_what_a_build_takes() {
    let cargo = std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into());
    let ran = Command::new(cargo)
        .args(["package", "--list", "--allow-dirty", "--offline", "--locked"])
        .current_dir(project())
        .output()
        .expect("cargo runs");
    let told = String::from_utf8_lossy(&ran.stderr);
    assert!(ran.status.success(), "{told}");
    let list = String::from_utf8(ran.stdout).expect("names of files");
    let files: Vec<String> = list.lines().map(|line| line.replace('\\', "/")).collect();
    let has = |name: &str| files.iter().any(|file| file == name);
    for name in [
        "Cargo.toml",
        "Cargo.lock",
        "LICENSE",
        "README.md",
        "CHANGELOG.md",
        ".ci/pre-commit",
        "src/main.rs",
        "src/rule_book/build/main.rs",
        "src/report/page/style.css",
        "src/report/manual/chapters/findings.md",
        "rules/spare-strip.yaml",
        "example-patterns/gull-mat.pattern.yaml",
        "example-patterns/tide-pools.md",
        "example-patterns/tern-colony.docx",
    ] {
        assert!(has(name), "{name} is not in the package");
    }
    for start in ["tests/", "target/", ".ci/release", ".ci/inventory"] {
        assert!(!files.iter().any(|file| file.starts_with(start)), "{start} is in the package");
    }
    let bytes: u64 = files.iter().filter_map(|file| Some(project().join(file).metadata().ok()?.len())).sum();
    assert!(bytes < 8_000_000, "the package has {bytes} bytes");
}

#[test]
fn the_scripts_of_the_project_are_sound() {
    if Command::new("shellcheck").arg("--version").output().is_err() {
        eprintln!("skipped: shellcheck is not installed");
        return;
    }
    let scripts = [".ci/run", ".ci/release", ".ci/pre-commit"];
    let ran = Command::new("shellcheck").args(scripts).current_dir(project()).output().expect("shellcheck runs");
    assert!(ran.status.success(), "{}", String::from_utf8_lossy(&ran.stdout));
}
