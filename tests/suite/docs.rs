//! The docs are run: the notation's examples are pages without a problem, and the examples of every help text
//! answer on the example journal.

use crate::support::journal::{Journal, example};
use crate::support::run;
use loadline::commands;
use std::path::Path;

#[test]
fn every_example_of_the_notation_reads() {
    let doc = std::fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("docs/notation.md")).unwrap();
    let mut count = 0;
    for block in doc.split("```journal\n").skip(1) {
        let page = block.split("```").next().unwrap();
        let out = Journal::new().page(page).run(&["check"]);
        assert!(out.starts_with("every line is understood"), "{page}\n{out}");
        count += 1;
    }
    assert!(count >= 10, "{count} examples");
}

#[test]
fn every_example_of_every_help_text_answers() {
    for name in commands::names().iter().filter(|name| *name != "new") {
        let help = commands::help(Some(name));
        let examples: Vec<&str> = help.lines().filter_map(|line| line.trim().strip_prefix("loadline ")).collect();
        assert!(examples.len() >= 2, "{name}: {examples:?}");
        for line in examples {
            let mut arguments = Vec::new();
            for (at, part) in line.split('"').enumerate() {
                if at % 2 == 1 { arguments.push(part) } else { arguments.extend(part.split_whitespace()) }
            }
            let out = run::run(&example(), 80, &arguments);
            assert!(!out.contains("--- "), "{line}\n{out}");
        }
        assert!(help.lines().all(|line| line.chars().count() <= 80), "{name}: wider than 80 columns");
    }
}

#[test]
fn the_help_lists_every_command() {
    let help = commands::help(None);
    for name in commands::names() {
        assert!(help.contains(&format!("\n  {name} ")), "{name}\n{help}");
    }
}
