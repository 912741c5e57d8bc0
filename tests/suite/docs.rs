//! The docs are run: the notation's examples are pages without a problem, every command that is shown answers,
//! and every screen that is shown is the program's, whole.

use crate::support::journal::{Journal, example};
use crate::support::page_suite::sections;
use crate::support::repository::Repository;
use crate::support::{run, snapshot};
use std::fs;
use std::path::Path;

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// Every page of docs by its path below the repository, with its text.
fn pages() -> Vec<(String, String)> {
    let mut paths = vec!["README.md".to_owned(), "DEVELOPERS.md".into(), "journal-example/README.md".into()];
    for entry in fs::read_dir(root().join("docs")).unwrap() {
        let name = entry.unwrap().file_name().into_string().unwrap();
        if name.ends_with(".md") {
            paths.push(format!("docs/{name}"));
        }
    }
    paths.sort();
    paths.into_iter().map(|path| (path.clone(), fs::read_to_string(root().join(path)).unwrap())).collect()
}

#[test]
fn every_example_of_the_notation_reads() {
    let doc = fs::read_to_string(root().join("docs/notation.md")).unwrap();
    let mut count = 0;
    for block in doc.split("```journal\n").skip(1) {
        let page = block.split("```").next().unwrap();
        let out = Journal::new().page(page).run(&["check"]);
        assert!(out.contains("every line is understood"), "{page}\n{out}");
        count += 1;
    }
    assert!(count >= 10, "{count} examples");
}

#[test]
fn the_page_that_the_readme_begins_with_gives_its_first_answer() {
    let readme = fs::read_to_string(root().join("README.md")).unwrap();
    let block = readme.split("   ```journal\n").nth(1).unwrap().split("   ```").next().unwrap();
    let page: String = block.lines().map(|line| format!("{}\n", line.strip_prefix("   ").unwrap_or(line))).collect();
    let journal = Journal::new().page(&page);
    assert!(journal.run(&["check"]).contains("every line is understood"), "{page}");
    let out = journal.run(&["best", "Front squat", "--reps", "8"]);
    assert!(out.starts_with("Front squat: 60 kg"), "{out}");
}

/// The section that needs a folder of its own.
pub(crate) const NOTES: &str = "A year of notes in an evening";

/// What a shell in the repository's folder shows after a command of a `console` block: the program's whole
/// output, or its first lines where `| head -N` follows.
fn screen(command: &str) -> String {
    let (command, head) = match command.split_once(" | head -") {
        Some((command, count)) => (command, Some(count.parse().expect("a number of lines"))),
        None => (command, None),
    };
    let out = run::run_in(root(), 80, &run::words(command.strip_prefix("loadline ").expect("the program")));
    match head {
        Some(count) => out.lines().take(count).map(|line| format!("{line}\n")).collect(),
        None => out,
    }
}

#[test]
fn every_screen_that_is_shown_is_the_programs() {
    let mut shown = Vec::new();
    // What docs/git.md and docs/coach.md show needs a repository: `git.rs` and `coach/` do it there.
    let of_its_own = ["docs/git.md", "docs/coach.md"];
    for (path, text) in pages().into_iter().filter(|(path, _)| !of_its_own.contains(&path.as_str())) {
        // What is shown of notes builds on the screens before it: `import/notebooks.rs` does it.
        let sections = sections(&text).into_iter().filter(|section| section.name != NOTES);
        for block in sections.flat_map(|section| section.blocks) {
            // A block in another dress would never be looked at.
            assert!(block.info == "console" || !block.text.starts_with("$ "), "{path}:{}: not `console`", block.line);
            if block.info != "console" {
                continue;
            }
            assert!(block.text.starts_with("$ "), "{path}:{}: no command", block.line);
            for part in block.text[2..].split("\n$ ") {
                let (command, output) = part.split_once('\n').unwrap_or((part, ""));
                let out = screen(command);
                let known = format!("{}\n", output.strip_suffix('\n').unwrap_or(output));
                assert!(known == out, "{path}: {command}\n{}", snapshot::difference(&known, &out));
                shown.push(path.clone());
            }
        }
    }
    assert!(shown.contains(&"README.md".to_owned()), "README shows no screen");
}

#[test]
fn every_command_that_is_shown_answers() {
    let repository = Repository::of_the_example();
    let mut count = 0;
    let (fresh, example) = (tempfile::tempdir().unwrap(), example());
    for (path, text) in pages() {
        for line in text.lines() {
            // An indented line is a block of code of its own; what follows a `#` is a remark.
            let Some(code) = line.strip_prefix("    ") else { continue };
            let command = code.strip_prefix("loadline ").or(code.strip_prefix("cargo run --release -- "));
            let Some(command) = command.and_then(|command| command.split(" #").next()) else { continue };
            let arguments = run::words(command);
            // That needs a build of its own, whose tests ask it.
            if arguments.contains(&"parquet") {
                continue;
            }
            let out = match arguments.first() {
                Some(&"changes") => run::run(&repository.journal(), 80, &arguments),
                // Its pages are named as a shell in the repository's folder would.
                Some(&"flatten" | &"import") => run::run_in(root(), 80, &arguments),
                _ if arguments.contains(&"--journal") => run::run_in(root(), 80, &arguments),
                _ => {
                    run::run_in(fresh.path(), 80, &[&["--journal", example.to_str().unwrap()], &arguments[..]].concat())
                }
            };
            assert!(run::is_answer(&arguments, &out), "{path}: {line}\n{out}");
            count += 1;
        }
    }
    assert!(count >= 15, "{count} commands");
}
