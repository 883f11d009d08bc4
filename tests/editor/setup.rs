//! The recipes for editors.

use std::path::Path;

use super::support::run;

#[test]
fn each_editor_has_a_recipe_that_starts_the_service() {
    let here = Path::new(env!("CARGO_MANIFEST_DIR"));
    for editor in ["neovim", "helix", "vscode", "emacs", "kate"] {
        let ran = run(here, &["lsp", "--setup", editor]);
        assert_eq!((ran.status, ran.err.as_str()), (Some(0), ""), "{editor}");
        assert!(ran.out.contains("\"sparestrip\"") && ran.out.contains("\"lsp\""), "{editor}: {}", ran.out);
        // Each option that the service has is told of.
        for option in ["strict", "signed", "hints"] {
            assert!(ran.out.contains(option), "{editor}: {option}");
        }
        assert!(ran.out.lines().all(|line| line.chars().count() <= 120), "{editor}");
    }
}

#[test]
fn an_editor_without_a_recipe_is_refused_with_those_that_have_one() {
    let ran = run(Path::new(env!("CARGO_MANIFEST_DIR")), &["lsp", "--setup", "nano"]);
    assert_eq!((ran.status, ran.out.as_str()), (Some(2), ""));
    assert!(ran.err.contains("neovim, helix, vscode, emacs, kate"), "{}", ran.err);
}
