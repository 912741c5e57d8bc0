//! Whole outputs kept in files. `UPDATE_SNAPSHOTS=1 cargo test` writes them anew; a person reads the diff.

use std::fs;
use std::path::Path;

/// Fails unless the text is what `tests/snapshots` holds under the name.
pub fn check(name: &str, text: &str) {
    check_file(&format!("tests/snapshots/{name}.txt"), text);
}

/// Fails unless the text is what a file of the repository holds.
pub fn check_file(path: &str, text: &str) {
    let whole = Path::new(env!("CARGO_MANIFEST_DIR")).join(path);
    if std::env::var_os("UPDATE_SNAPSHOTS").is_some() {
        fs::create_dir_all(whole.parent().expect("a folder")).expect("folders");
        fs::write(&whole, text).expect("a snapshot");
        return;
    }
    let known = fs::read_to_string(&whole).unwrap_or_default();
    assert!(known == text, "{path} changed (UPDATE_SNAPSHOTS=1 writes it anew):\n{}", difference(&known, text));
}

/// The lines that differ.
pub fn difference(known: &str, text: &str) -> String {
    similar::TextDiff::from_lines(known, text).unified_diff().context_radius(2).to_string()
}
