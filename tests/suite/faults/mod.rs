//! What happens when something goes wrong that no lifter did: kills, hostile clones, terminals, pages without end, and
//! merges of any two versions.

mod growth;
mod hostile;
mod kills;
mod merges;
mod peaks;
mod terminal;
#[cfg(target_os = "linux")]
mod writers;

use std::collections::BTreeMap;
use std::path::Path;
use std::process::Command;

/// Whether the machine has a program that a test needs; says so where it has not.
fn has(program: &str) -> bool {
    let found = Command::new(program).arg("--version").output().is_ok_and(|output| output.status.success());
    if !found {
        eprintln!("no {program} here: what it would show is not looked at");
    }
    found
}

/// Every file below a folder, by its path there.
fn tree(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let files = walkdir::WalkDir::new(folder).into_iter().filter_map(Result::ok);
    let files = files.filter(|entry| entry.file_type().is_file());
    files
        .map(|entry| {
            let path = entry.path().strip_prefix(folder).unwrap().to_string_lossy().into_owned();
            (path, std::fs::read(entry.path()).unwrap())
        })
        .collect()
}
