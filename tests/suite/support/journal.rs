//! A journal made of a few pages, in a folder of its own.

use super::run;
use std::fs;
use std::path::{Path, PathBuf};

/// A journal on disk that goes when the test ends.
pub struct Journal {
    folder: tempfile::TempDir,
}

impl Journal {
    /// An empty journal: settings without a key.
    pub fn new() -> Self {
        let journal = Journal { folder: tempfile::tempdir().expect("a folder for the test") };
        journal.file("journal.yaml", "")
    }

    /// Adds a file, its folders too.
    pub fn file(self, path: &str, bytes: impl AsRef<[u8]>) -> Self {
        let path = self.root().join(path);
        fs::create_dir_all(path.parent().expect("below the root")).expect("folders");
        fs::write(path, bytes).expect("a file");
        self
    }

    /// Adds a page.
    pub fn page(self, text: &str) -> Self {
        self.file("page.md", text)
    }

    /// The journal's folder.
    pub fn root(&self) -> &Path {
        self.folder.path()
    }

    /// Runs the program on it, as of 2026-11-25 unless the arguments say another day: standard output,
    /// then standard error and the exit status where they are not empty and 0.
    pub fn run(&self, arguments: &[&str]) -> String {
        self.run_at(80, arguments)
    }

    /// The same on a screen of that width.
    pub fn run_at(&self, width: usize, arguments: &[&str]) -> String {
        run::run(self.root(), width, arguments)
    }

    /// Runs the program and reads its JSON.
    pub fn json(&self, arguments: &[&str]) -> serde_json::Value {
        run::json(self.root(), arguments)
    }
}

/// The example journal.
pub fn example() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("journal-example")
}
