//! How editors are told of the service: a short recipe for each.

/// What is written into the settings of an editor, with its name.
const RECIPES: [(&str, &str); 5] = [
    ("neovim", include_str!("setup/neovim.lua")),
    ("helix", include_str!("setup/helix.toml")),
    ("vscode", include_str!("setup/vscode.txt")),
    ("emacs", include_str!("setup/emacs.el")),
    ("kate", include_str!("setup/kate.txt")),
];

/// The names of the editors that there is a recipe for.
pub fn editors() -> impl Iterator<Item = &'static str> {
    RECIPES.iter().map(|(editor, _)| *editor)
}

/// The recipe for an editor.
pub fn recipe(editor: &str) -> Option<&'static str> {
    RECIPES.iter().find(|(name, _)| *name == editor).map(|(_, recipe)| *recipe)
}
