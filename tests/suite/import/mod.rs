//! Tables and notes from elsewhere as pages.
//!
//! - `rows.rs`: what rows say, what is refused, and where pages are written
//! - `round.rs`: what was exported comes back
//! - `bytes.rs`: any bytes at all
//! - `notes.rs`: notes as people keep them, what is told of them, and where pages are written
//! - `notebooks.rs`: three notebooks and docs/import.md, held against pages written by hand

mod bytes;
mod notebooks;
mod notes;
mod round;
mod rows;

use crate::support::journal::Journal;
use serde_json::Value;
use std::fs;

/// A table and its mapping, in a folder beside a journal.
struct Given {
    journal: Journal,
    folder: tempfile::TempDir,
}

impl Given {
    fn new(table: impl AsRef<[u8]>, mapping: impl AsRef<[u8]>) -> Self {
        Given::of(Journal::new(), table, mapping)
    }

    fn of(journal: Journal, table: impl AsRef<[u8]>, mapping: impl AsRef<[u8]>) -> Self {
        let folder = tempfile::tempdir().unwrap();
        fs::write(folder.path().join("sets.csv"), table).unwrap();
        fs::write(folder.path().join("map.yaml"), mapping).unwrap();
        Given { journal, folder }
    }

    fn arguments(&self, more: &[&str]) -> Vec<String> {
        let path = |name: &str| self.folder.path().join(name).to_str().unwrap().to_owned();
        let first = ["import".to_owned(), path("sets.csv"), "--columns".into(), path("map.yaml")];
        first.into_iter().chain(more.iter().map(|word| (*word).to_owned())).collect()
    }

    /// Everything that the program says, without the folder's name.
    fn run(&self, more: &[&str]) -> String {
        let arguments = self.arguments(more);
        let words: Vec<&str> = arguments.iter().map(String::as_str).collect();
        self.journal.run(&words).replace(&format!("{}/", self.folder.path().display()), "")
    }

    fn json(&self, more: &[&str]) -> Value {
        let arguments = self.arguments(more);
        let words: Vec<&str> = arguments.iter().map(String::as_str).collect();
        self.journal.json(&words)
    }
}

/// Fails unless a page passes `check` and is tidy.
fn is_sound(settings: &str, page: &str) {
    let journal = Journal::new().file("journal.yaml", settings).page(page);
    let checked = journal.json(&["check"]);
    assert_eq!(checked["errors"], 0, "{page}\n{checked:#}");
    let tidied = journal.run(&["tidy", "--check"]);
    assert!(!tidied.contains("--- exit"), "{page}\n{tidied}");
}

/// The columns that most of these tables have.
const PLAIN: &str = "columns: { date: Date, lift: Lift, reps: Reps, load: Load }\n";
