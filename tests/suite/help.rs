//! The help texts: docs/commands.md is their snapshot, their first lines and groups agree, and every example
//! answers on the example journal.

use crate::support::journal::example;
use crate::support::repository::Repository;
use crate::support::{run, snapshot};
use loadline::commands;

/// How far help texts may reach.
const WIDTH: usize = 80;

/// What the program prints, without the blanks that the library leaves at the ends of lines.
fn help(arguments: &[&str]) -> String {
    let out = run::run_in(&std::env::temp_dir(), WIDTH, &[arguments, &["--help"]].concat());
    assert!(!out.contains("--- "), "{arguments:?}\n{out}");
    out.lines().map(|line| format!("{}\n", line.trim_end())).collect()
}

/// Every command with its help.
fn helps() -> Vec<(String, String)> {
    commands::names().into_iter().map(|name| (name.clone(), help(&[&name]))).collect()
}

/// The same with those of their subcommands after them.
fn all_helps() -> Vec<(String, String)> {
    let mut all = Vec::new();
    for (name, text) in helps() {
        let below = commands::names_below(&name);
        all.push((name.clone(), text));
        all.extend(below.into_iter().map(|below| (format!("{name} {below}"), help(&[&name, &below]))));
    }
    all
}

const PREFACE: &str = "\
# Commands

What `--help` prints on a screen of 80 columns, command by command: at the rack, on Sunday, in the editor. What
each answer means, exactly, is in [answers.md](answers.md). The tests write this page from the program.
";

#[test]
fn the_command_reference_is_the_help() {
    let mut page = PREFACE.to_owned();
    let program = ("loadline".to_owned(), help(&[]));
    for (name, text) in std::iter::once(program).chain(all_helps()) {
        page += &format!("\n## {name}\n\n```text\n{text}```\n");
    }
    snapshot::check_file("docs/commands.md", &page);
}

#[test]
fn first_lines_are_short_and_stand_in_the_groups_as_they_stand_in_each_help() {
    let program = help(&[]);
    let groups = program.split("Usage:").nth(1).unwrap().split("\nOptions:").next().unwrap();
    let listed: Vec<&str> = groups.lines().filter_map(|line| line.strip_prefix("  ")).collect();
    let mut expected = Vec::new();
    for (name, text) in helps() {
        let first = text.lines().next().unwrap();
        assert!(first.chars().count() < 60, "{name}: {first}");
        assert!(!first.ends_with('.'), "{name}: {first}");
        expected.push(format!("{name:<11}{first}"));
    }
    assert_eq!(listed, expected);
    let first = program.lines().next().unwrap();
    assert!(first.chars().count() < 60 && !first.ends_with('.'), "{first}");
}

#[test]
fn nothing_in_a_help_is_wider_than_the_screen() {
    for (name, text) in all_helps().into_iter().chain([("loadline".to_owned(), help(&[]))]) {
        let wide: Vec<&str> = text.lines().filter(|line| line.chars().count() > WIDTH).collect();
        assert!(wide.is_empty(), "{name}: {wide:?}");
    }
}

/// The examples of a help: a line of what for, and the command without the program's name.
fn examples(help: &str) -> Vec<(&str, &str)> {
    let lines: Vec<&str> = help.split("\nExamples:\n").nth(1).expect("examples").lines().map(str::trim).collect();
    let pairs = lines.chunks(2).map(|pair| {
        let what = pair[0].strip_prefix("# ").expect("a line of what for");
        (what, pair[1].strip_prefix("loadline ").expect("a command"))
    });
    pairs.collect()
}

#[test]
fn every_example_of_every_help_answers() {
    let fresh = tempfile::tempdir().unwrap();
    let repository = Repository::of_the_example();
    let here = std::path::Path::new(env!("CARGO_MANIFEST_DIR"));
    for (name, text) in all_helps() {
        let examples = examples(&text);
        assert!(examples.len() >= 2, "{name}: {examples:?}");
        assert!(text.contains("Exit status: 0 "), "{name} does not say what exit status 0 is");
        for (_, line) in examples {
            let arguments = run::words(line);
            // `new` makes the journal that its next example asks.
            let out = match name.as_str() {
                "lsp" => {
                    let out = run::run(&example(), WIDTH, &arguments);
                    // Nobody is there: what it answers an editor is tested in `editor/`.
                    let gone = "--- stderr\nloadline: the editor was gone before it said what it can do\n--- exit 2\n";
                    assert_eq!(out, gone, "{line}");
                    continue;
                }
                "new" => run::run_in(fresh.path(), WIDTH, &arguments),
                "changes" => run::run(&repository.journal(), WIDTH, &arguments),
                "flatten" => run::run_in(here, WIDTH, &arguments),
                // A file of its own, that nobody else writes to.
                "report" => {
                    let example = example();
                    let journal = ["--journal", example.to_str().unwrap()];
                    run::run_in(fresh.path(), WIDTH, &[&journal, arguments.as_slice()].concat())
                }
                "merge" => run::run_in(&example().join("nerys/5 winter"), WIDTH, &arguments),
                // What they read is named as a shell in the repository's folder would.
                "import" | "import table" | "import notes" => {
                    run::run_in(here, WIDTH, &[&["--journal", "journal-example"], &arguments[..]].concat())
                }
                _ => run::run(&example(), WIDTH, &arguments),
            };
            assert!(run::is_answer(&arguments, &out), "{line}\n{out}");
        }
    }
    assert!(fresh.path().join("my-journal/journal.yaml").is_file());
}
