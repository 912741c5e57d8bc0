//! What was exported comes back: export, import with the shipped mapping into a journal of the same settings, export.

use super::{Given, is_sound};
use crate::support::generator;
use crate::support::journal::{Journal, example};
use crate::support::run;
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

fn shipped() -> String {
    fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("docs/csv/export.yaml")).unwrap()
}

/// What the mapping carries of each set that was done, and the row of the table that it is in.
fn carried(csv: &str) -> Vec<(String, u64)> {
    let mut reader = csv::Reader::from_reader(csv.as_bytes());
    let header = reader.headers().unwrap().clone();
    let mut sets = Vec::new();
    for (row, number) in reader.records().zip(2..) {
        let row = row.unwrap();
        let cell = |name: &str| row.get(header.iter().position(|known| known == name).unwrap()).unwrap().to_owned();
        if !["work", "failed"].contains(&cell("kind").as_str()) {
            continue;
        }
        // The mass of a load with the lifter's own weight needs a bodyweight of some other day.
        let mass = if cell("load_kind") == "bodyweight" { "added_kg" } else { "kg" };
        let names =
            ["date", "time", "day", "lift", "reps", "seconds", "metres", "per_side", "load_kind", mass, "approximate"];
        let more = ["effort", "faults", "missed", "bodyweight"];
        let of_pin = if ["pin", "quoted"].contains(&cell("load_kind").as_str()) { cell("load") } else { String::new() };
        let cells: Vec<String> = names.iter().chain(&more).map(|name| cell(name)).chain([of_pin]).collect();
        sets.push((cells.join("|"), number));
    }
    sets
}

/// Holds a journal against what comes of its own export: how many sets came back, and how many could not.
fn check(root: &Path, on: &str, settings: &str, lifter: &[&str]) -> (usize, BTreeMap<String, usize>) {
    let csv = run::run(root, 80, &[&["export", "--on", on], lifter].concat());
    let given = Given::of(Journal::new().file("journal.yaml", settings), &csv, shipped());
    let answer = given.json(&["--on", on]);
    let mut refused: BTreeMap<u64, String> = BTreeMap::new();
    for fault in answer["faults"].as_array().unwrap() {
        refused.insert(fault["row"].as_u64().unwrap(), fault["wanted"].as_str().unwrap().to_owned());
    }
    let mut wanted: Vec<String> =
        carried(&csv).into_iter().filter(|(_, row)| !refused.contains_key(row)).map(|(set, _)| set).collect();
    let count = wanted.len();
    assert_eq!(answer["taken"].as_u64().unwrap() as usize, count);
    let Some(page) = answer["pages"][0]["text"].as_str() else { return (count, BTreeMap::new()) };
    is_sound(settings, page);
    let back = Journal::new().file("journal.yaml", settings).page(page);
    let csv = back.run(&["export", "--on", on]);
    let mut came: Vec<String> = carried(&csv).into_iter().map(|(set, _)| set).collect();
    wanted.sort();
    came.sort();
    assert_eq!(came.len(), wanted.len());
    for (came, wanted) in came.iter().zip(&wanted) {
        let date = wanted.split('|').next().unwrap();
        let of_day = || page.split("## ").filter(|session| session.starts_with(date)).collect::<String>();
        assert_eq!(came, wanted, "{}", of_day());
    }
    let mut why: BTreeMap<String, usize> = BTreeMap::new();
    refused.into_values().for_each(|wanted| *why.entry(wanted).or_default() += 1);
    (count, why)
}

#[test]
fn what_was_exported_of_made_up_journals_comes_back() {
    let (mut all, mut lost) = (0, 0);
    for seed in 5000..5016 {
        let made = generator::journal(seed);
        let journal = made.files.iter().fold(Journal::new(), |journal, (path, text)| journal.file(path, text));
        let settings = &made.files.iter().find(|(path, _)| path == "journal.yaml").unwrap().1;
        let (count, why) = check(journal.root(), &made.today.to_string(), settings, &[]);
        for wanted in why.keys() {
            // Percentages need their block, and lengths in yards may have too many decimals as metres.
            let is_known = wanted.contains("max") || wanted.contains("at most three decimals");
            assert!(is_known, "seed {seed}: {wanted}");
        }
        all += count;
        lost += why.values().sum::<usize>();
    }
    assert!(all > 500 && lost * 5 < all, "{all} came back, {lost} did not");
}

#[test]
fn what_was_exported_of_the_example_comes_back() {
    let settings = fs::read_to_string(example().join("journal.yaml")).unwrap();
    for lifter in ["anselm", "nerys"] {
        let (count, why) = check(&example(), "2026-11-25", &settings, &["--lifter", lifter]);
        assert!(count > 500, "{lifter}: {count}");
        assert!(why.keys().all(|wanted| wanted.contains("max")), "{lifter}: {why:?}");
    }
}
