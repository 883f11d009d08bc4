//! Nothing is written without being asked for, and what is written is said.

use std::collections::BTreeMap;
use std::path::Path;

use super::support::{GOOD, run, write};

/// Every file below a folder, with what is in it.
fn files_below(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let mut files = BTreeMap::new();
    let mut folders = vec![folder.to_path_buf()];
    while let Some(folder) = folders.pop() {
        for entry in std::fs::read_dir(folder).expect("a folder") {
            let path = entry.expect("an entry").path();
            if path.is_dir() {
                folders.push(path);
            } else {
                files.insert(path.to_string_lossy().into_owned(), std::fs::read(&path).expect("a file"));
            }
        }
    }
    files
}

fn folder() -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("a temporary folder");
    write(&folder.path().join("x.pattern.yaml"), GOOD);
    write(&folder.path().join("short.pattern.yaml"), GOOD.replace("strips: 12", "strips: 5"));
    folder
}

#[test]
fn what_prints_writes_no_file() {
    let folder = folder();
    let before = files_below(folder.path());
    let printing: [&[&str]; 27] = [
        &["check"],
        &["check", "--signed", "--account", "--strict"],
        &["check", "--format", "json"],
        &["check", "--format", "sarif"],
        &["check", "--format", "junit"],
        &["check", "--format", "lines"],
        &["check", "--format", "github"],
        &["check", "--format", "gitlab"],
        &["check", "--format", "checkstyle"],
        &["fix", "--diff", "."],
        &["new", "-", "--name", "x", "--measure", "cm", "--size", "a=50 x 60"],
        &["rules"],
        &["rules", "not-signed"],
        &["worksheet", "x.pattern.yaml"],
        &["worksheet", "x.pattern.yaml", "--format", "json"],
        &["worksheet", "x.pattern.yaml", "--html"],
        &["tables", "x.pattern.yaml"],
        &["tables", "x.pattern.yaml", "--format", "csv"],
        &["tables", "short.pattern.yaml", "--format", "html"],
        &["completions", "bash"],
        &["manual"],
        &["manual", "tables"],
        &["manual", "--list"],
        &["rules", "--values"],
        &["pre-commit"],
        &["sign", "short.pattern.yaml", "--by", "Ada Finch"],
        &["sign", "x.pattern.yaml"],
    ];
    for words in printing {
        let ran = run(folder.path(), words);
        assert!(!ran.err.contains("wrote"), "{words:?}: {}", ran.err);
        assert!(files_below(folder.path()) == before, "{words:?} wrote a file");
    }
}

#[test]
fn what_writes_says_each_file_and_writes_no_other() {
    let writing: [(&[&str], &[&str]); 6] = [
        (&["check", "--report", "sarif=a.sarif", "--report", "junit=b.xml"], &["a.sarif", "b.xml"]),
        (&["worksheet", "x.pattern.yaml", "--html=x.html"], &["x.html"]),
        (&["tables", "x.pattern.yaml", "--output", "x.md"], &["x.md"]),
        (&["sign", "x.pattern.yaml", "--by", "Ada Finch"], &["sign-offs.yaml"]),
        (&["check", "--format", "json", "--report", "text=report.txt"], &["report.txt"]),
        (&["new", "n.pattern.yaml", "--name", "x", "--measure", "cm", "--size", "a=50 x 60"], &["n.pattern.yaml"]),
    ];
    for (words, written) in writing {
        let folder = folder();
        let before = files_below(folder.path());
        let ran = run(folder.path(), words);
        let said: Vec<&str> = ran.err.lines().filter_map(|line| line.strip_prefix("sparestrip: wrote ")).collect();
        assert_eq!(said, written, "{words:?}: {}", ran.err);
        let after = files_below(folder.path());
        let new: Vec<&String> = after.keys().filter(|file| !before.contains_key(*file)).collect();
        assert_eq!(new.len(), written.len(), "{words:?}: {new:?}");
        for file in written {
            assert!(new.iter().any(|path| Path::new(path).file_name() == Path::new(file).file_name()), "{new:?}");
        }
        assert!(before.iter().all(|(file, content)| after.get(file) == Some(content)), "{words:?} changed a file");
    }
}
