//! A repository of git in a temporary folder, with the script in its place.

use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use crate::support::{GOOD, Ran, finish, write};

/// The good manuscript with one strip too few to have a spare: an error.
pub(crate) fn faulty() -> String {
    GOOD.replace("strips: 12", "strips: 11")
}

/// The good manuscript with a size of which the binding says nothing: a query.
pub(crate) fn questionable() -> String {
    GOOD.replace("    throw: { strips: 9, fabric: 3/4 yd }\n", "")
}

pub(crate) struct Repository {
    holder: tempfile::TempDir,
    top: PathBuf,
}

impl Repository {
    /// A new one, with nothing committed; `None` where there is no git.
    pub(crate) fn new() -> Option<Repository> {
        Repository::named("pattern house")
    }

    /// The same in a folder of this name.
    pub(crate) fn named(name: &str) -> Option<Repository> {
        if !crate::hook::is_there("git") {
            return None;
        }
        let holder = tempfile::tempdir().unwrap();
        let top = holder.path().join(name);
        std::fs::create_dir(&top).unwrap();
        let repository = Repository { holder, top };
        repository.git(&["init", "-q"]);
        let script = finish(crate::support::program(repository.top()).arg("pre-commit"), b"");
        assert_eq!((script.status, script.err.as_str()), (Some(0), ""));
        let hook = repository.top().join(".git/hooks/pre-commit");
        write(&hook, script.out);
        make_executable(&hook);
        Some(repository)
    }

    pub(crate) fn top(&self) -> &Path {
        &self.top
    }

    /// The folder that the repository is in.
    pub(crate) fn above(&self) -> &Path {
        self.holder.path()
    }

    /// The folder for temporary files, where the script must leave nothing.
    fn room(&self) -> PathBuf {
        let room = self.above().join("room for temporary files");
        std::fs::create_dir_all(&room).unwrap();
        room
    }

    /// A command that knows nothing of the tester's own settings and finds the program.
    fn command(&self, program: &str) -> Command {
        let mut command = Command::new(program);
        let bin = Path::new(env!("CARGO_BIN_EXE_sparestrip")).parent().unwrap();
        let path = std::env::join_paths(
            [bin.to_path_buf()].into_iter().chain(std::env::split_paths(&std::env::var_os("PATH").unwrap())),
        )
        .unwrap();
        command.env("PATH", path).env("HOME", self.above()).env("TMPDIR", self.room()).env("GIT_CONFIG_NOSYSTEM", "1");
        for name in ["GIT_DIR", "GIT_INDEX_FILE", "GIT_WORK_TREE", "XDG_CONFIG_HOME"] {
            command.env_remove(name);
        }
        for (name, who) in [("AUTHOR", "A Writer"), ("COMMITTER", "A Writer")] {
            command.env(format!("GIT_{name}_NAME"), who).env(format!("GIT_{name}_EMAIL"), "writer@example.org");
        }
        command.current_dir(self.top()).stdin(Stdio::null()).stdout(Stdio::piped()).stderr(Stdio::piped());
        command
    }

    /// Runs git, whatever comes of it.
    pub(crate) fn try_git(&self, words: &[&str]) -> Ran {
        finish(self.command("git").args(words), b"")
    }

    /// Runs git, which must do what is asked.
    pub(crate) fn git(&self, words: &[&str]) -> String {
        let ran = self.try_git(words);
        assert_eq!(ran.status, Some(0), "git {words:?}: {ran:?}");
        ran.out
    }

    pub(crate) fn write(&self, name: &str, content: impl AsRef<[u8]>) {
        write(&self.top().join(name), content);
    }

    /// Writes a file and stages it.
    pub(crate) fn stage(&self, name: &str, content: impl AsRef<[u8]>) {
        self.write(name, content);
        self.git(&["--literal-pathspecs", "add", "-f", "--", name]);
    }

    /// Commits what is staged, or what these words say. Nothing temporary is left.
    pub(crate) fn commit(&self, words: &[&str]) -> Ran {
        let before = self.heads();
        let ran = finish(self.command("git").args(["commit", "-q", "-m", "x"]).args(words), b"");
        assert_eq!(self.heads() > before, ran.status == Some(0), "{ran:?}");
        let left: Vec<_> = self.room().read_dir().unwrap().collect();
        assert!(left.is_empty(), "left behind: {left:?}");
        ran
    }

    /// How many commits there are.
    fn heads(&self) -> usize {
        let ran = finish(self.command("git").args(["rev-list", "--count", "--all"]), b"");
        ran.out.trim().parse().unwrap()
    }

    /// Commits, which must be let through. What was told.
    pub(crate) fn passes(&self) -> String {
        let ran = self.commit(&[]);
        assert_eq!(ran.status, Some(0), "{ran:?}");
        ran.out + &ran.err
    }

    /// Commits, which must be stopped. What was told.
    pub(crate) fn is_stopped(&self) -> String {
        let ran = self.commit(&[]);
        assert_eq!(ran.status, Some(1), "{ran:?}");
        let told = ran.out + &ran.err;
        assert!(told.contains("nothing was committed") && told.contains("git commit --no-verify"), "{told}");
        told
    }

    /// Runs the script by itself without the program to be found.
    pub(crate) fn script_alone(&self) -> Ran {
        let mut command = self.command("/bin/sh");
        finish(command.arg(".git/hooks/pre-commit").env("PATH", "/usr/bin:/bin:/usr/local/bin"), b"")
    }
}

#[cfg(unix)]
fn make_executable(file: &Path) {
    use std::os::unix::fs::PermissionsExt;
    std::fs::set_permissions(file, std::fs::Permissions::from_mode(0o755)).unwrap();
}

#[cfg(not(unix))]
fn make_executable(_: &Path) {}
