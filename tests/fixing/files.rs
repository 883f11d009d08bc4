//! Files of every kind, and standard input.

use std::path::Path;

use super::support::{folder_with, run_with_input, write};
use super::{NAME, faulty, fix, right, text_of};

#[test]
fn every_manuscript_of_a_folder_and_nothing_else() {
    let (folder, file) = folder_with(NAME, faulty());
    let below = folder.path().join("below/x.pattern.yml");
    let (hidden, other) = (folder.path().join(".old/x.pattern.yaml"), folder.path().join("notes.yaml"));
    for path in [&below, &hidden, &other] {
        write(path, faulty());
    }
    let ran = fix(folder.path(), &["."]);
    assert_eq!(ran.status, Some(0), "{ran:?}");
    assert!(ran.out.ends_with("2 manuscripts: 4 fixed\n"), "{}", ran.out);
    assert_eq!((text_of(&file), text_of(&below)), (right(), right()));
    assert_eq!((text_of(&hidden), text_of(&other)), (faulty(), faulty()));
    assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 4, "nothing is left behind");
}

#[test]
fn nothing_is_changed_without_being_named() {
    let (folder, file) = folder_with(NAME, faulty());
    let ran = fix(folder.path(), &[]);
    assert_eq!((ran.status, text_of(&file)), (Some(2), faulty()));
    let ran = fix(folder.path(), &["gone.pattern.yaml", NAME]);
    assert_eq!((ran.status, text_of(&file)), (Some(2), right()), "what can be done is done");
    assert!(ran.err.contains("gone.pattern.yaml: No such file"), "{}", ran.err);
}

#[cfg(unix)]
#[test]
fn a_link_stays_a_link_and_permissions_stay() {
    use std::os::unix::fs::PermissionsExt as _;
    let (folder, file) = folder_with("texts/real.pattern.yaml", faulty());
    std::fs::set_permissions(&file, std::fs::Permissions::from_mode(0o640)).unwrap();
    let link = folder.path().join(NAME);
    std::os::unix::fs::symlink("texts/real.pattern.yaml", &link).unwrap();
    assert_eq!(fix(folder.path(), &[NAME]).status, Some(0));
    assert!(link.symlink_metadata().unwrap().is_symlink());
    assert_eq!(text_of(&file), right());
    assert_eq!(file.metadata().unwrap().permissions().mode() & 0o777, 0o640);
}

/// A rename would replace it all the same.
#[cfg(unix)]
#[test]
fn a_file_that_may_not_be_written_is_left() {
    use std::os::unix::fs::PermissionsExt as _;
    let (folder, file) = folder_with(NAME, faulty());
    std::fs::set_permissions(&file, std::fs::Permissions::from_mode(0o444)).unwrap();
    let ran = fix(folder.path(), &[NAME]);
    assert_eq!((ran.status, text_of(&file)), (Some(2), faulty()));
    assert!(ran.err.contains("lanterns.pattern.yaml is left as it was: it may not be written"), "{}", ran.err);
    assert!(!ran.out.contains("fixed ("), "nothing is said to be fixed: {}", ran.out);
}

#[cfg(unix)]
#[test]
fn odd_names_are_names_like_any_other() {
    use std::ffi::OsStr;
    use std::os::unix::ffi::OsStrExt as _;
    let names: [&[u8]; 5] = [
        b"-v.pattern.yaml",
        b"two\nlines.pattern.yaml",
        b"not-utf8-\xff.pattern.yaml",
        b"a b.pattern.yaml",
        b"\x1b[31m.pattern.yaml",
    ];
    let folder = tempfile::tempdir().unwrap();
    for name in names {
        write(&folder.path().join(OsStr::from_bytes(name)), faulty());
    }
    let ran = fix(folder.path(), &["."]);
    assert_eq!(ran.status, Some(0), "{ran:?}");
    ran.is_tame("fix");
    for name in names {
        assert_eq!(text_of(&folder.path().join(OsStr::from_bytes(name))), right());
    }
    write(&folder.path().join("-v.pattern.yaml"), faulty());
    assert_eq!(fix(folder.path(), &["--", "-v.pattern.yaml"]).status, Some(0));
    assert_eq!(text_of(&folder.path().join("-v.pattern.yaml")), right());
}

/// Bytes that are no text stand nowhere in the text that is checked: the file is not written at all.
#[test]
fn a_file_that_is_no_text_is_left() {
    for bytes in [[faulty().as_bytes(), b"# \xff\xfe\n"].concat(), b"\xff\xfep\0a\0".to_vec(), vec![0; 100]] {
        let (folder, file) = folder_with(NAME, &bytes);
        let ran = fix(folder.path(), &[NAME]);
        assert_eq!(ran.status, Some(1), "{ran:?}");
        assert_eq!(std::fs::read(&file).unwrap(), bytes);
        let ran = super::support::finish(
            super::support::program(folder.path())
                .args(["fix", "-"])
                .stdin(std::process::Stdio::piped())
                .stdout(std::process::Stdio::null()),
            &bytes,
        );
        assert_eq!(ran.status, Some(1), "{ran:?}");
    }
}

/// The text on standard output, as it would be in the file, and all that is said of it on standard error.
#[test]
fn standard_input_is_a_filter() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR"));
    let odd =
        |text: String| format!("\u{feff}{}", text.replace('\n', "\r\n").replace("Lanterns", "Lan\u{200b}terns ::x"));
    let ran = run_with_input(folder, &["fix", "-"], odd(faulty()).as_bytes());
    assert_eq!((ran.status, ran.out), (Some(0), odd(right())));
    assert!(ran.err.contains("standard input:24:22: fixed (crib): 4 -> 6"), "{}", ran.err);
    let broken = "pattern: [\n";
    let ran = run_with_input(folder, &["fix", "-"], broken.as_bytes());
    assert_eq!((ran.status, ran.out.as_str()), (Some(1), broken));
    let ran = run_with_input(folder, &["fix", "-", "x.pattern.yaml"], b"");
    assert_eq!((ran.status, ran.out.as_str()), (Some(2), ""));
}

/// Each of ten thousand lines is where it was.
#[test]
fn a_long_file_is_fixed_as_well() {
    let sizes = 120;
    let each = |line: &dyn Fn(usize) -> String| (0..sizes).map(line).collect::<String>();
    let text = format!(
        "pattern: Test Harbour\nmeasure: inch\nsizes:\n{}{}binding:\n  strip_width: 2 1/2\n  extra_length: 10\n  requires:\n{}",
        each(&|size| format!("  s{size}: {{ finished: 40 x 50 }}\n")),
        "# filler\n".repeat(10_000),
        each(&|size| format!("    s{size}: {{ strips: 4, fabric: 1/2 yd }}\n")),
    );
    let (folder, file) = folder_with(NAME, &text);
    let ran = fix(folder.path(), &[NAME]);
    assert_eq!(ran.status, Some(0), "{}", ran.err);
    assert!(ran.out.ends_with(&format!("1 manuscript: {sizes} fixed\n")), "{}", ran.out);
    let after = text_of(&file);
    assert_eq!(after.lines().count(), text.lines().count());
    let changed = text.lines().zip(after.lines()).filter(|(old, new)| old != new).count();
    assert_eq!(changed, sizes);
}
