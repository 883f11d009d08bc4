//! Folders that come and go, and files that are reached in other ways.

use std::fs;
use std::path::Path;
use std::time::Instant;

use crate::watch::watching::{LIMIT, Watching, in_time, manuscript};

/// A watch of a folder with one good manuscript and an empty folder beside it.
fn with_folder() -> Watching {
    Watching::new(&["here"], |folder| {
        fs::create_dir_all(folder.join("here")).unwrap();
        fs::create_dir_all(folder.join("elsewhere")).unwrap();
        fs::write(folder.join("here/a.pattern.yaml"), manuscript(6)).unwrap();
    })
}

#[test]
fn a_manuscript_in_a_new_folder() {
    in_time(LIMIT, || {
        let mut watching = with_folder();
        fs::create_dir_all(watching.path("here/x/y/z")).unwrap();
        fs::write(watching.path("here/x/y/z/b.pattern.yml"), manuscript(4)).unwrap();
        let saved = Instant::now();
        let report = watching.report();
        report.ends(&["here/x/y/z/b.pattern.yml, new here: 1 found", "2 manuscripts: 1 error"]);
        let took = report.at.saturating_duration_since(saved);
        fs::write(watching.path("here/x/y/z/b.pattern.yml"), manuscript(6)).unwrap();
        watching.report().ends(&[
            "fixed: binding-short (crib)",
            "here/x/y/z/b.pattern.yml: 1 fixed, no problems left",
            "2 manuscripts: no problems",
        ]);
        // The watched folder is `here`, and this is said there.
        let here = watching.path("here/x");
        fs::write(here.join("c.pattern.yaml"), manuscript(5)).unwrap();
        watching.report().ends(&["here/x/c.pattern.yaml, new here: 1 found", "3 manuscripts: 1 error"]);
        took
    });
}

#[test]
fn a_folder_moved_in_and_out_again() {
    in_time(LIMIT, || {
        let mut watching = with_folder();
        fs::create_dir_all(watching.path("elsewhere/deep/er")).unwrap();
        fs::write(watching.path("elsewhere/deep/er/b.pattern.yaml"), manuscript(4)).unwrap();
        fs::rename(watching.path("elsewhere/deep"), watching.path("here/deep")).unwrap();
        let moved = Instant::now();
        let report = watching.report();
        report.ends(&["here/deep/er/b.pattern.yaml, new here: 1 found", "2 manuscripts: 1 error"]);
        let took = report.at.saturating_duration_since(moved);
        fs::write(watching.path("here/deep/er/b.pattern.yaml"), manuscript(3)).unwrap();
        watching.report().ends(&["here/deep/er/b.pattern.yaml: 1 still there", "2 manuscripts: 1 error"]);
        fs::rename(watching.path("here/deep"), watching.path("elsewhere/deep")).unwrap();
        watching.report().ends(&["here/deep/er/b.pattern.yaml is gone", "1 manuscript: no problems"]);
        fs::write(watching.path("elsewhere/deep/er/b.pattern.yaml"), manuscript(5)).unwrap();
        // Under another name it is another manuscript.
        fs::rename(watching.path("elsewhere/deep"), watching.path("here/again")).unwrap();
        watching.report().ends(&["here/again/er/b.pattern.yaml, new here: 1 found", "2 manuscripts: 1 error"]);
        took
    });
}

#[test]
fn the_watched_folder_is_deleted_and_restored() {
    in_time(LIMIT, || {
        let mut watching = with_folder();
        fs::remove_dir_all(watching.path("here")).unwrap();
        watching.report().ends(&["here/a.pattern.yaml is gone", "no manuscripts"]);
        fs::create_dir_all(watching.path("here/in")).unwrap();
        fs::write(watching.path("here/in/a.pattern.yaml"), manuscript(4)).unwrap();
        let saved = Instant::now();
        let report = watching.report();
        report.ends(&["here/in/a.pattern.yaml, new here: 1 found", "1 manuscript: 1 error"]);
        let took = report.at.saturating_duration_since(saved);
        fs::write(watching.path("here/in/a.pattern.yaml"), manuscript(6)).unwrap();
        watching.report().ends(&["1 manuscript: no problems"]);
        took
    });
}

#[test]
fn a_folder_with_no_manuscript_yet() {
    let mut watching = Watching::new(&[], |_| {});
    watching.first.ends(&["Watching 0 manuscripts. Press Ctrl-C to end."]);
    fs::write(watching.path("a.pattern.yaml"), manuscript(4)).unwrap();
    watching.report().ends(&["a.pattern.yaml, new here: 1 found", "1 manuscript: 1 error"]);
}

#[test]
fn hidden_folders_target_and_other_files_are_left_out() {
    let mut watching = Watching::new(&[], |folder| {
        fs::create_dir_all(folder.join(".hidden")).unwrap();
        fs::create_dir_all(folder.join("target")).unwrap();
        fs::write(folder.join("a.pattern.yaml"), manuscript(6)).unwrap();
    });
    for name in [".hidden/a.pattern.yaml", "target/a.pattern.yaml", "notes.yaml", ".a.pattern.yaml", "a.pattern.yaml~"]
    {
        fs::write(watching.path(name), manuscript(4)).unwrap();
    }
    fs::create_dir_all(watching.path(".new/deep")).unwrap();
    fs::write(watching.path(".new/deep/a.pattern.yaml"), manuscript(4)).unwrap();
    watching.says_no_more();
}

#[test]
fn a_single_manuscript_is_watched_through_its_folder() {
    in_time(LIMIT, || {
        let mut watching = Watching::new(&["draft.yaml", "later.yaml"], |folder| {
            fs::write(folder.join("draft.yaml"), manuscript(6)).unwrap();
            fs::write(folder.join("other.pattern.yaml"), manuscript(4)).unwrap();
        });
        watching.first.ends(&[
            "later.yaml is not there yet",
            "1 manuscript: no problems",
            "Watching 1 manuscript. Press Ctrl-C to end.",
        ]);
        fs::write(watching.path("other.pattern.yaml"), manuscript(5)).unwrap();
        fs::write(watching.path("new"), manuscript(5)).unwrap();
        fs::rename(watching.path("new"), watching.path("draft.yaml")).unwrap();
        let saved = Instant::now();
        let report = watching.report();
        report.says("spare-strip").ends(&["draft.yaml: 1 new", "1 manuscript: 1 error"]);
        let took = report.at.saturating_duration_since(saved);
        fs::remove_file(watching.path("draft.yaml")).unwrap();
        watching.report().ends(&["draft.yaml is gone", "no manuscripts"]);
        fs::write(watching.path("draft.yaml"), manuscript(6)).unwrap();
        watching.report().ends(&["draft.yaml, new here: no problems", "1 manuscript: no problems"]);
        fs::write(watching.path("later.yaml"), manuscript(6)).unwrap();
        watching.report().ends(&["later.yaml, new here: no problems", "2 manuscripts: no problems"]);
        took
    });
}

#[cfg(unix)]
#[test]
fn a_linked_manuscript_saved_where_it_is_and_a_link_set_anew() {
    use std::os::unix::fs::symlink;
    let linked = |folder: &Path| {
        fs::create_dir_all(folder.join("here")).unwrap();
        fs::create_dir_all(folder.join("drafts")).unwrap();
        fs::write(folder.join("drafts/one.yaml"), manuscript(6)).unwrap();
        fs::write(folder.join("drafts/two.yaml"), manuscript(5)).unwrap();
        symlink("../drafts/one.yaml", folder.join("here/a.pattern.yaml")).unwrap();
    };
    in_time(LIMIT, || {
        let mut watching = Watching::new(&["here"], linked);
        fs::write(watching.path("drafts/one.yaml"), manuscript(4)).unwrap();
        let saved = Instant::now();
        let report = watching.report();
        report.says("binding-short").ends(&["here/a.pattern.yaml: 1 new", "1 manuscript: 1 error"]);
        let took = report.at.saturating_duration_since(saved);
        symlink("../drafts/two.yaml", watching.path("here/new")).unwrap();
        fs::rename(watching.path("here/new"), watching.path("here/a.pattern.yaml")).unwrap();
        watching.report().ends(&[
            "fixed: binding-short (crib)",
            "here/a.pattern.yaml: 1 new, 1 fixed",
            "1 manuscript: 1 error",
        ]);
        fs::write(watching.path("drafts/two.yaml"), manuscript(6)).unwrap();
        watching.report().ends(&["1 manuscript: no problems"]);
        took
    });
}

#[cfg(unix)]
#[test]
fn a_linked_folder() {
    use std::os::unix::fs::symlink;
    in_time(LIMIT, || {
        let mut watching = Watching::new(&["here"], |folder| {
            fs::create_dir_all(folder.join("here")).unwrap();
            fs::create_dir_all(folder.join("drafts/deep")).unwrap();
            fs::write(folder.join("drafts/deep/a.pattern.yaml"), manuscript(6)).unwrap();
            symlink("../drafts", folder.join("here/linked")).unwrap();
            symlink("..", folder.join("drafts/loop")).unwrap();
        });
        fs::write(watching.path("drafts/deep/a.pattern.yaml"), manuscript(4)).unwrap();
        let saved = Instant::now();
        let report = watching.report();
        report.says("binding-short").ends(&["here/linked/deep/a.pattern.yaml: 1 new", "1 manuscript: 1 error"]);
        report.at.saturating_duration_since(saved)
    });
}
