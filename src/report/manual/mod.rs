//! The manual: chapters in Markdown, a file each, for a terminal and for the manual page.
//!
//! A chapter holds what README.md has no room for. What it shows of the program's output stands between marks, and the
//! tests of the papers print it anew; what it names of commands, options, words and shapes of JSON they hold true.

mod blocks;
mod roff;
mod text;

pub use roff::{chapters_as_roff, only_ascii};
pub use text::{chapter_list, chapter_text};

/// A chapter of the manual.
#[derive(Clone, Copy, Debug)]
pub struct Chapter {
    /// The name that it is asked for by.
    pub name: &'static str,
    /// The chapter in Markdown. Its first line is its title.
    pub markdown: &'static str,
}

macro_rules! chapters {
    ($($name:literal)*) => {
        /// All chapters, in the order in which they are best read.
        pub const CHAPTERS: &[Chapter] =
            &[$(Chapter { name: $name, markdown: include_str!(concat!("chapters/", $name, ".md")) }),*];
    };
}

chapters! {
    "findings" "commands" "manuscript" "design" "acceptance" "house-rules" "worksheet" "worksheet-json" "sign-off"
    "tables" "texts" "watch" "fix" "editor-service" "editors" "git-hook" "continuous-integration" "check-json" "completions" "windows" "limits" "safety"
}

impl Chapter {
    /// What the chapter is about.
    pub fn title(&self) -> &'static str {
        self.markdown.lines().next().unwrap_or_default().trim_start_matches("# ")
    }
}
