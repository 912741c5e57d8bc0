//! Whole outputs kept in files. `UPDATE_SNAPSHOTS=1 cargo test` writes them anew; a person reads the diff.

use std::fs;
use std::path::Path;

/// Fails unless the text is what the file holds.
pub fn check(name: &str, text: &str) {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/snapshots").join(format!("{name}.txt"));
    if std::env::var_os("UPDATE_SNAPSHOTS").is_some() {
        fs::create_dir_all(path.parent().expect("a folder")).expect("folders");
        fs::write(&path, text).expect("a snapshot");
        return;
    }
    let known = fs::read_to_string(&path).unwrap_or_default();
    assert!(known == text, "{name} changed (UPDATE_SNAPSHOTS=1 writes it anew):\n{}", difference(&known, text));
}

/// The lines that differ.
pub fn difference(known: &str, text: &str) -> String {
    similar::TextDiff::from_lines(known, text).unified_diff().context_radius(2).to_string()
}
