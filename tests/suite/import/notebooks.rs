//! Notebooks of people with different habits, held against pages written by hand, and the evening that docs/import.md shows.

use crate::docs::NOTES;
use crate::support::journal::Journal;
use crate::support::page_suite::sections;
use crate::support::{run, snapshot};
use serde_json::Value;
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// A notebook: notes, habits, and what a careful person reads in them.
struct Notebook {
    notes: PathBuf,
    habits: PathBuf,
    truth: PathBuf,
}

/// The year of docs/import.md; a garage with pounds, loads first; a coach who writes reps before sets.
fn notebooks() -> [Notebook; 3] {
    let data = |name: &str| root().join("tests/data/notes").join(name);
    let of = |name: &str| Notebook {
        notes: data(&format!("{name}.txt")),
        habits: data(&format!("{name}.yaml")),
        truth: data(&format!("{name}.md")),
    };
    let docs = root().join("docs/import");
    let year = Notebook { notes: docs.join("notes.txt"), habits: docs.join("habits.yaml"), truth: data("year.md") };
    [year, of("garage"), of("coach")]
}

impl Notebook {
    fn settings(&self) -> String {
        fs::read_to_string(&self.habits).unwrap()
    }

    /// The pages that the notes become, and what is told of them.
    fn imported(&self) -> Value {
        let [notes, habits] = [&self.notes, &self.habits].map(|path| path.to_str().unwrap());
        let folder = tempfile::tempdir().unwrap();
        let out = folder.path().join("out");
        Journal::new().json(&["import", "notes", notes, "--habits", habits, "--write", out.to_str().unwrap()])
    }
}

/// One text of the pages.
fn pages(answer: &Value) -> String {
    answer["pages"].as_array().unwrap().iter().map(|page| page["text"].as_str().unwrap()).collect::<Vec<_>>().join("\n")
}

/// How often each set is there: day, lift, what was done, at what.
fn sets(settings: &str, page: &str) -> BTreeMap<String, usize> {
    let journal = Journal::new().file("lifter.yaml", settings).page(page);
    let mut sets = BTreeMap::new();
    for row in journal.json(&["export"])["rows"].as_array().unwrap() {
        let columns = ["date", "lift", "reps", "seconds", "metres", "per_side", "load", "rpe_low", "missed"];
        let set: Vec<String> = columns.map(|column| row[column].to_string()).into();
        if row["kind"] == "work" || row["kind"] == "failed" {
            *sets.entry(set.join(" ")).or_default() += 1;
        }
    }
    sets
}

/// How many sets are in one and not in the other.
fn more(one: &BTreeMap<String, usize>, other: &BTreeMap<String, usize>) -> usize {
    one.iter().map(|(set, count)| count.saturating_sub(other.get(set).copied().unwrap_or(0))).sum()
}

/// Days that lack a set, though every line of theirs is read.
fn silent(page: &str, truth: &BTreeMap<String, usize>, read: &BTreeMap<String, usize>) -> usize {
    let page = format!("\n{page}");
    let told = |date: &str| {
        let day = page.split("\n## ").find(|day| day.starts_with(date)).unwrap_or("");
        day.contains("> not read:")
    };
    let lacking = truth.iter().map(|(set, count)| (set, count.saturating_sub(read.get(set).copied().unwrap_or(0))));
    lacking.filter(|(set, _)| !told(set[1..].split('"').next().unwrap())).map(|(_, count)| count).sum()
}

/// What docs/import.md says of them: at least 95 of 100 sets right and none wrong, nor lacking where nothing is told.
#[test]
fn with_their_habits_answered_notebooks_are_read_right() {
    for notebook in notebooks() {
        let page = pages(&notebook.imported());
        let truth = sets(&notebook.settings(), &fs::read_to_string(&notebook.truth).unwrap());
        let read = sets(&notebook.settings(), &page);
        let of: usize = truth.values().sum();
        let (missing, wrong) = (more(&truth, &read), more(&read, &truth));
        assert!(of > 200 && (of - missing) * 100 >= of * 94, "{} of {of} sets right", of - missing);
        assert_eq!((wrong, silent(&page, &truth, &read)), (0, 0), "wrong, silent");
    }
}

/// Without habits less is read, and as little wrong.
#[test]
fn without_habits_nothing_is_read_wrong_either() {
    let [_, garage, coach] = notebooks();
    for notebook in [garage, coach] {
        let settings = notebook.settings();
        let dates = settings.lines().filter(|line| line.starts_with("units") || line.contains("dates:"));
        let dates = format!("{}\n", dates.collect::<Vec<_>>().join("\nhabits:\n"));
        let dates = if dates.starts_with("  ") { format!("habits:\n{dates}") } else { dates };
        let folder = tempfile::tempdir().unwrap();
        let habits = folder.path().join("dates.yaml");
        fs::write(&habits, dates).unwrap();
        let truth = sets(&settings, &fs::read_to_string(&notebook.truth).unwrap());
        let page = pages(&Notebook { habits, ..notebook }.imported());
        let wrong = more(&sets(&settings, &page), &truth);
        assert_eq!(wrong, 0);
    }
}

#[test]
fn pages_pass_check_and_every_line_is_in_them() {
    for notebook in notebooks() {
        let answer = notebook.imported();
        let page = pages(&answer);
        let journal = Journal::new().file("lifter.yaml", notebook.settings()).page(&page);
        assert_eq!(journal.json(&["check"])["errors"], 0);
        let notes = fs::read_to_string(&notebook.notes).unwrap();
        assert_eq!(answer["lines"], notes.lines().filter(|line| !line.trim().is_empty()).count());
        let mut there: BTreeMap<String, usize> = BTreeMap::new();
        numbers(&page).for_each(|number| *there.entry(number).or_default() += 1);
        let mut before = "";
        for line in notes.lines() {
            // A day becomes a date.
            if !before.is_empty() {
                for number in numbers(line) {
                    let left = there.entry(number).or_default();
                    assert!(*left > 0, "{line}");
                    *left -= 1;
                }
            }
            before = line;
        }
    }
}

/// The numbers of a text, however the decimal point is written.
fn numbers(text: &str) -> impl Iterator<Item = String> + '_ {
    let runs = text.split(|c: char| !c.is_ascii_digit()).filter(|run| !run.is_empty());
    runs.map(|run| run.trim_start_matches('0').to_owned())
}

/// With the habits in `lifter.yaml`, lines typed at the rack are read as the import reads them.
#[test]
fn lines_typed_later_are_read_the_same_way() {
    let [_, garage, _] = notebooks();
    let page = pages(&garage.imported());
    let mut dates = page.lines().filter_map(|line| line.strip_prefix("## ")).map(|date| &date[..10]);
    let notes = fs::read_to_string(&garage.notes).unwrap();
    let days = notes.split("\n\n").map(|day| {
        let (_, lines) = day.split_once('\n').unwrap();
        format!("## {}\n\n{lines}\n", dates.next().unwrap())
    });
    let typed = days.collect::<Vec<String>>().join("\n");
    assert_eq!(sets(&garage.settings(), &typed), sets(&garage.settings(), &page));
}

/// What a shell shows of a command, in a folder with the files of docs/import.
fn screen(folder: &Path, line: &str) -> String {
    let (command, end) = line.split_once(" | ").unwrap_or((line, ""));
    let words = run::words(command);
    let read = |name: &str| fs::read_to_string(folder.join(name)).unwrap();
    let out = match words.as_slice() {
        ["cat", file] => read(file),
        ["head", count, file] => first(&read(file), count),
        ["cp", from, to] => {
            fs::copy(folder.join(from), folder.join(to)).unwrap();
            String::new()
        }
        ["loadline", arguments @ .., "2>&1", ">pages.md"] => {
            let out = run::run_in(folder, 80, arguments);
            out.split_once("--- stderr\n").map_or(String::new(), |(_, err)| err.to_owned())
        }
        ["loadline", arguments @ ..] => run::run_in(folder, 80, arguments).replace("--- stderr\n", ""),
        _ => panic!("{line}"),
    };
    match end.split_once(' ') {
        Some(("head", count)) => first(&out, count),
        Some(("tail", "-1")) => format!("{}\n", out.lines().last().unwrap()),
        _ => out,
    }
}

fn first(text: &str, count: &str) -> String {
    text.lines().take(count[1..].parse().unwrap()).map(|line| format!("{line}\n")).collect()
}

#[test]
fn the_evening_in_the_docs_is_as_it_is_shown() {
    let folder = tempfile::tempdir().unwrap();
    fs::create_dir_all(folder.path().join("docs/import")).unwrap();
    for name in ["notes.txt", "names.yaml", "habits.yaml"] {
        let path = Path::new("docs/import").join(name);
        fs::copy(root().join(&path), folder.path().join(&path)).unwrap();
    }
    let mut doc = fs::read_to_string(root().join("docs/import.md")).unwrap();
    let blocks = sections(&doc).into_iter().filter(|section| section.name == NOTES).flat_map(|section| section.blocks);
    let mut shown = 0;
    for block in blocks.collect::<Vec<_>>() {
        let commands = block.text.lines().filter_map(|line| line.strip_prefix("$ "));
        let screens: String = commands.map(|line| format!("$ {line}\n{}", screen(folder.path(), line))).collect();
        assert_eq!(block.info, "console");
        doc = doc.replacen(&format!("```console\n{}```", block.text), &format!("```console\n{screens}```"), 1);
        shown += 1;
    }
    assert!(shown >= 5);
    snapshot::check_file("docs/import.md", &doc);
    // The notes are as they were, and so is a file of habits that pages are written by.
    for name in ["notes.txt", "habits.yaml"] {
        let path = Path::new("docs/import").join(name);
        assert_eq!(fs::read(root().join(&path)).unwrap(), fs::read(folder.path().join(&path)).unwrap(), "{name}");
    }
}
