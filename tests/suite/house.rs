//! The rules of the house: which room may use which, the same stem in every room, file sizes, and that every
//! file is listed and every test file declared.

use loadline::commands;
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

/// The project's folder.
pub(crate) fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// Every file of Rust in a folder and those below.
pub(crate) fn files(folder: &Path, out: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            files(&path, out);
        } else if path.extension().is_some_and(|end| end == "rs") {
            out.push(path);
        }
    }
}

/// Each room with those it may use.
const ROOMS: [(&str, &[&str]); 14] = [
    ("source", &[]),
    ("problems", &["source"]),
    ("training", &["source"]),
    ("science", &["training"]),
    ("notation", &["source", "problems", "training"]),
    ("journal", &["source", "problems", "notation", "training"]),
    ("meaning", &["source", "problems", "notation", "journal", "training"]),
    ("history", &["source", "training", "problems"]),
    ("analysis", &["source", "history", "training", "science"]),
    ("questions", &["source", "analysis", "history", "training", "science"]),
    ("import", &["source", "problems", "notation", "journal", "training"]),
    ("present", &["questions", "analysis", "import", "history", "training", "problems", "source"]),
    (
        "editor",
        &[
            "source",
            "problems",
            "notation",
            "journal",
            "training",
            "science",
            "meaning",
            "history",
            "analysis",
            "questions",
            "import",
            "present",
        ],
    ),
    (
        "commands",
        &[
            "source",
            "problems",
            "notation",
            "journal",
            "training",
            "science",
            "meaning",
            "history",
            "analysis",
            "questions",
            "import",
            "present",
            "editor",
        ],
    ),
];

#[test]
fn rooms_use_only_what_stands_left_of_them() {
    for (room, allowed) in ROOMS {
        let mut all = Vec::new();
        files(&root().join("src").join(room), &mut all);
        for path in all {
            let text = fs::read_to_string(&path).unwrap();
            let text = text.split("#[cfg(test)]").next().unwrap();
            for (at, _) in text.match_indices("crate::") {
                let used: String = text[at + 7..].chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect();
                let known = ROOMS.iter().any(|(other, _)| *other == used);
                assert!(
                    !known || used == room || allowed.contains(&used.as_str()),
                    "{}: crate::{used}",
                    path.display()
                );
            }
        }
    }
}

#[test]
fn a_question_has_the_same_stem_in_every_room() {
    // These ask nothing of a history; a report is a page, and no view.
    let others = ["check", "tidy", "merge", "new", "import", "completion", "man", "report", "lsp"];
    let questions = commands::names().into_iter().filter(|name| !others.contains(&name.as_str()));
    for stem in questions {
        for folder in ["questions", "present/view", "commands"] {
            assert!(root().join(format!("src/{folder}/{stem}.rs")).is_file(), "{folder}/{stem}.rs");
        }
        assert!(root().join(format!("docs/schema/{stem}.json")).is_file(), "{stem}.json");
        let answers = fs::read_to_string(root().join("docs/answers.md")).unwrap();
        assert!(
            answers.contains(&format!("## {stem}")) || answers.contains(&format!("## `{stem}")),
            "docs/answers.md: {stem}"
        );
    }
}

#[test]
fn a_report_has_the_same_stem_too() {
    for folder in ["questions", "present/html", "commands"] {
        assert!(root().join(format!("src/{folder}/report.rs")).is_file(), "{folder}/report.rs");
    }
}

#[test]
fn no_file_is_longer_than_its_room_can_hold() {
    let mut all = Vec::new();
    for folder in ["src", "tests", "benches", "fuzz/fuzz_targets"] {
        files(&root().join(folder), &mut all);
    }
    let mut by_folder: BTreeMap<&Path, u32> = BTreeMap::new();
    for path in &all {
        let lines = fs::read_to_string(path).unwrap().lines().count();
        let most = if path.starts_with(root().join("src")) { 600 } else { 640 };
        assert!(lines <= most, "{}: {lines} lines", path.display());
        *by_folder.entry(path.parent().unwrap()).or_default() += 1;
    }
    for (folder, count) in by_folder.into_iter().filter(|(folder, _)| folder.starts_with(root().join("src"))) {
        assert!(count <= 40, "{}: {count} files side by side", folder.display());
    }
}

/// Where a folder's own file lists what is in it, it lists all of that, and nothing else.
#[test]
fn a_list_of_files_has_every_file() {
    // Their lists say "one file a question" and "one file a command".
    let by_stem = ["src/present/view", "src/commands"].map(|folder| root().join(folder));
    let mut all = Vec::new();
    files(&root().join("src"), &mut all);
    for list in all.iter().filter(|path| path.ends_with("mod.rs")) {
        let folder = list.parent().unwrap();
        let text = fs::read_to_string(list).unwrap();
        let doc: Vec<&str> = text.lines().filter(|line| line.starts_with("//!")).collect();
        let doc = doc.join("\n");
        let named: Vec<&str> = doc.split('`').skip(1).step_by(2).filter(|name| name.ends_with(".rs")).collect();
        for name in &named {
            assert!(folder.join(name).is_file(), "{}: there is no {name}", list.display());
        }
        for file in all.iter().filter(|file| file.parent() == Some(folder) && !by_stem.contains(&folder.to_owned())) {
            let name = file.file_name().unwrap().to_str().unwrap();
            let is_listed = named.is_empty() || ["mod.rs", "tests.rs"].contains(&name) || named.contains(&name);
            assert!(is_listed, "{}: {name} is not listed", list.display());
        }
    }
}

#[test]
fn every_test_file_is_declared() {
    let mut all = Vec::new();
    files(&root().join("tests/suite"), &mut all);
    for path in all {
        let (folder, stem) = (path.parent().unwrap(), path.file_stem().unwrap().to_str().unwrap());
        // A `mod.rs` is its folder, which the folder above declares.
        let (folder, stem) = match stem {
            "main" => continue,
            "mod" => (folder.parent().unwrap(), folder.file_name().unwrap().to_str().unwrap()),
            _ => (folder, stem),
        };
        let list = ["main.rs", "mod.rs"].map(|name| fs::read_to_string(folder.join(name)).unwrap_or_default()).concat();
        assert!(list.contains(&format!("mod {stem};")), "{}", path.display());
    }
    let science = root().join("tests/suite/science");
    let list = fs::read_to_string(science.join("mod.rs")).unwrap();
    for entry in fs::read_dir(science).unwrap() {
        let name = entry.unwrap().file_name().into_string().unwrap();
        let stem = name.trim_end_matches(".rs");
        assert!(stem == "mod" || list.contains(&format!("mod {stem};")), "science/{name}");
    }
}
