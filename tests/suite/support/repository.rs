//! A journal under version control, in a folder of its own. What the machine's git is configured to do does not matter:
//! names, dates and settings are these, so that even the names of commits are the same everywhere.

use super::journal::example;
use super::run;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

/// A repository that goes when the test ends.
pub struct Repository {
    folder: tempfile::TempDir,
    /// The day that `loadline` answers for in its shell.
    today: String,
}

impl Repository {
    /// An empty one, with a journal's settings in it.
    pub fn new() -> Self {
        let repository = Repository::empty();
        repository.sh("git init --quiet --object-format=sha1 --initial-branch=main");
        repository.write("journal.yaml", "");
        repository
    }

    fn empty() -> Self {
        Repository { folder: tempfile::tempdir().expect("a folder for the test"), today: run::TODAY.into() }
    }

    /// A clone on another device.
    pub fn clone_of(other: &Repository) -> Self {
        let clone = Repository { today: other.today.clone(), ..Repository::empty() };
        clone.sh(&format!("git clone --quiet {} .", other.root().display()));
        clone
    }

    /// From now on it is this day.
    pub fn on(&mut self, today: &str) {
        self.today = today.to_owned();
    }

    /// What a file holds.
    pub fn read(&self, path: &str) -> String {
        fs::read_to_string(self.root().join(path)).expect("a file")
    }

    /// The answer of the program in JSON, as of the day that it is.
    pub fn json(&self, arguments: &[&str]) -> serde_json::Value {
        run::json(self.root(), &[arguments, &["--on", &self.today]].concat())
    }

    /// The example journal, in a folder of its repository, in two commits: without its last lines, and whole.
    pub fn of_the_example() -> Self {
        let repository = Repository::new();
        fs::remove_file(repository.root().join("journal.yaml")).expect("no journal at the top");
        copy(&example(), &repository.journal());
        let last = repository.journal().join("nerys/5 winter/week 4.md");
        let whole = fs::read_to_string(&last).expect("the last page");
        let cut = whole.rfind("\n## ").expect("sessions");
        fs::write(&last, &whole[..cut]).expect("a page");
        repository.commit("The journal up to the last session");
        fs::write(&last, whole).expect("a page");
        repository.commit("The last session");
        repository
    }

    /// The folder of the example's journal.
    pub fn journal(&self) -> PathBuf {
        self.root().join("journal")
    }

    /// The top of the work tree.
    pub fn root(&self) -> &Path {
        self.folder.path()
    }

    /// Writes a file, its folders too.
    pub fn write(&self, path: &str, text: &str) {
        let path = self.root().join(path);
        fs::create_dir_all(path.parent().expect("below the root")).expect("folders");
        fs::write(path, text).expect("a file");
    }

    /// Commits all there is.
    pub fn commit(&self, message: &str) {
        self.sh(&format!("git add --all && git commit --quiet --allow-empty -m '{message}'"));
    }

    /// What a shell in its folder says, `loadline` being this program as of the tests' day; fails where the shell does.
    pub fn sh(&self, command: &str) -> String {
        let (out, status) = self.try_sh(command);
        assert_eq!(status, 0, "{command}\n{out}");
        out
    }

    /// The same, with the exit status.
    pub fn try_sh(&self, command: &str) -> (String, i32) {
        let program = assert_cmd::cargo::cargo_bin!("loadline");
        let mut path = program.parent().expect("a folder").as_os_str().to_owned();
        path.push(":");
        path.push(std::env::var_os("PATH").expect("a PATH"));
        let output = Command::new("sh")
            .args([
                "-c",
                &format!("loadline() {{ command loadline --on {} \"$@\"; }}\n{{ {command}\n}} 2>&1", self.today),
            ])
            .current_dir(self.root())
            .env_clear()
            .env("PATH", path)
            .env("HOME", self.root())
            .env("LOADLINE_CACHE", "off")
            .env("TZ", "UTC")
            .env("LC_ALL", "C")
            .envs(NOBODYS_SETTINGS)
            .output()
            .expect("a shell");
        let text = String::from_utf8(output.stdout).expect("UTF-8");
        (text.replace(self.root().to_str().expect("UTF-8"), "<repository>"), output.status.code().unwrap_or(-1))
    }

    /// Runs the program in its folder.
    pub fn run(&self, arguments: &[&str]) -> String {
        let real = self.root().canonicalize().expect("a folder");
        run::run_in(&real, 80, arguments).replace(real.to_str().expect("UTF-8"), "<repository>")
    }
}

/// Git without the machine's settings, as one person on one evening.
const NOBODYS_SETTINGS: [(&str, &str); 9] = [
    ("GIT_CONFIG_NOSYSTEM", "1"),
    ("GIT_CONFIG_GLOBAL", "/dev/null"),
    ("GIT_AUTHOR_NAME", "Ilse"),
    ("GIT_AUTHOR_EMAIL", "ilse@example.org"),
    ("GIT_AUTHOR_DATE", "2026-03-22T20:00:00Z"),
    ("GIT_COMMITTER_NAME", "Ilse"),
    ("GIT_COMMITTER_EMAIL", "ilse@example.org"),
    ("GIT_COMMITTER_DATE", "2026-03-22T20:00:00Z"),
    ("GIT_MERGE_AUTOEDIT", "no"),
];

fn copy(from: &Path, to: &Path) {
    fs::create_dir_all(to).expect("a folder");
    for entry in fs::read_dir(from).expect("a folder") {
        let entry = entry.expect("an entry");
        let place = to.join(entry.file_name());
        if entry.path().is_dir() {
            copy(&entry.path(), &place);
        } else {
            fs::copy(entry.path(), place).expect("a file");
        }
    }
}
