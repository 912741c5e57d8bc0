//! The two shapes say the same; spreadsheets run nothing; files and many lifters.

use super::table;
use crate::support::journal::{Journal, example};
use crate::support::{generator, run};
use serde_json::Value;
use std::fs;
use std::path::Path;

/// A value of JSON as the cell that a CSV has for it, but for the guard against formulas.
fn cell(value: &Value) -> String {
    match value {
        Value::Null => String::new(),
        Value::String(text) => text.clone(),
        Value::Array(words) => words.iter().map(|word| word.as_str().unwrap()).collect::<Vec<_>>().join("; "),
        other => other.to_string(),
    }
}

fn unguarded(cell: &str) -> &str {
    let first = cell.trim_start_matches('\'').chars().next();
    let guarded = cell.starts_with('\'') && matches!(first, Some('=' | '+' | '-' | '@' | '\t' | '\r'));
    if guarded { &cell[1..] } else { cell }
}

fn same_rows(root: &Path, arguments: &[&str]) -> usize {
    let (header, rows) = table(root, arguments);
    let lines = run::run(root, 80, &[&["export", "--as", "jsonl"], arguments].concat());
    assert_eq!(lines.lines().count(), rows.len());
    for (line, row) in lines.lines().zip(&rows) {
        let object: serde_json::Map<String, Value> = serde_json::from_str(line).unwrap();
        assert_eq!(object.len(), header.len(), "{line}");
        for (name, known) in header.iter().zip(row) {
            assert_eq!(cell(&object[name]), unguarded(known), "{name}: {line}");
        }
    }
    let answer = run::json(root, &[&["export"], arguments].concat());
    assert_eq!(answer["count"], rows.len());
    for (line, object) in lines.lines().zip(answer["rows"].as_array().unwrap()) {
        assert_eq!(&serde_json::from_str::<Value>(line).unwrap(), object);
    }
    rows.len()
}

#[test]
fn csv_and_json_lines_say_the_same() {
    assert!(same_rows(&example(), &["--all"]) > 3000);
    for seed in 3000..3004 {
        let made = generator::journal(seed);
        let journal = made.files.iter().fold(Journal::new(), |journal, (path, text)| journal.file(path, text));
        same_rows(journal.root(), &["--on", &made.today.to_string()]);
    }
}

const ODD: &str = "# Block 1\n- starts: 2026-03-02\n\n## 2026-03-05 18:05 pull day\nbodyweight: 80 kg\n\n\
    - Pull-up: 2x5 @ bw - 15 kg RIR 2 (=cmd|'/c calc'!A0) (said \"no, no\")\n\
    - =SUM(A): 3 @ 265 lb, 1x0 @ 270 lb miss 1 !depth !lockout\n\
    - '=quoted: 3 @ ~40 kg AMRAP rest 90s tempo 3-1-0\n\
    - @home: 20s/side\n\
    - Deadlift:\n  - plan: 2-3x5+ @ 100 kg RPE 6-7\n";

#[test]
fn a_spreadsheet_runs_nothing_and_numbers_stay_numbers() {
    let journal = Journal::new().page(ODD);
    let (header, rows) = table(journal.root(), &[]);
    let of = |row: &[String], name: &str| row[header.iter().position(|known| known == name).unwrap()].clone();
    for row in &rows {
        for cell in row {
            let is_number = cell.parse::<f64>().is_ok();
            assert!(is_number || !cell.starts_with(['=', '+', '-', '@', '\t', '\r']), "{cell}");
        }
    }
    let (first, second) = (&rows[1], &rows[2]);
    assert_eq!((of(&rows[0], "kind"), of(&rows[0], "bodyweight")), ("session".into(), "80 kg".into()));
    assert_eq!(
        (of(first, "added_kg"), of(first, "kg"), of(first, "bodyweight_kg")),
        ("-15".into(), "65".into(), "80".into())
    );
    assert_eq!((of(first, "effort"), of(first, "effort_scale")), ("8".into(), "RIR".into()));
    assert_eq!((of(first, "time"), of(first, "remarks")), ("18:05".into(), String::new()));
    assert_eq!(of(second, "remarks"), "'=cmd|'/c calc'!A0; said \"no, no\"");
    let lifts: Vec<String> = rows.iter().map(|row| of(row, "lift")).collect();
    assert!(lifts.contains(&"'=SUM(A)".into()) && lifts.contains(&"''=quoted".into()), "{lifts:?}");
    let pounds = rows.iter().find(|row| of(row, "load") == "265 lb").unwrap();
    assert_eq!((of(pounds, "kg"), of(pounds, "unit")), ("120.20197805".into(), "lb".into()));
    let failed = rows.iter().find(|row| of(row, "kind") == "failed").unwrap();
    assert_eq!(
        [of(failed, "missed"), of(failed, "faults"), of(failed, "effort_scale")],
        ["1", "depth; lockout", "miss"]
    );
    let about = rows.iter().find(|row| of(row, "approximate") == "true").unwrap();
    let names = ["amrap", "effort", "effort_scale", "rest", "tempo"];
    assert_eq!(names.map(|name| of(about, name)), ["true", "10", "AMRAP", "90", "3-1-0"]);
    let plans: Vec<_> = rows.iter().filter(|row| of(row, "kind") == "plan").collect();
    assert_eq!(plans.iter().map(|row| of(row, "optional")).collect::<Vec<_>>(), ["false", "false", "true"]);
    assert_eq!(["reps", "reps_most", "effort", "effort_most"].map(|name| of(plans[0], name)), ["5", "", "6", "7"]);
    same_rows(journal.root(), &[]);
}

#[test]
fn what_is_done_after_today_is_left_out_and_plans_are_not() {
    let page =
        "## 2026-03-05\n- Deadlift: 5 @ 100 kg\n  - plan: 5\n\n## 2026-03-09\n- Deadlift: 5 @ 105 kg\n  - plan: 2x5\n";
    let journal = Journal::new().page(page);
    let (header, rows) = table(journal.root(), &["--on", "2026-03-06"]);
    let kind = header.iter().position(|name| name == "kind").unwrap();
    assert_eq!(rows.iter().map(|row| row[kind].as_str()).collect::<Vec<_>>(), ["plan", "work", "plan", "plan"]);
}

#[test]
fn all_lifters_follow_each_other_and_one_who_lacks_the_lift_is_left_out() {
    let journal = Journal::new()
        .file("a/lifter.yaml", "name: Aske\n")
        .file("a/a.md", "## 2026-03-05\n- Deadlift: 5 @ 100 kg\n- Plank: 20s @ nothing\n")
        .file("b/lifter.yaml", "name: Berit\n")
        .file("b/b.md", "## 2026-03-05\n- Dip: 8\n\n## 2026-03-06\n- Deadlift: 3x8 @ 100 kg\n");
    assert!(journal.run(&["export"]).contains("whose training?"));
    let out = journal.run(&["export", "--all"]);
    assert!(out.contains("1 line has an error and counts nowhere"), "{out}");
    assert_eq!(out.matches("Aske,").count(), 1);
    assert_eq!(out.matches("Berit,").count(), 4);
    let dips = journal.run(&["export", "--all", "--lift", "Dip"]);
    assert_eq!(dips.matches(",Dip,").count(), 1, "{dips}");
    assert_eq!(
        journal.run(&["export", "--all", "--lift", "Dipp"]),
        "--- stderr\nloadline: no lifter has a lift `Dipp`\n--- exit 2\n"
    );
    assert!(journal.run(&["export", "--all", "--lifter", "Aske"]).contains("--all is every lifter"));
}

#[test]
fn a_file_is_written_whole_and_only_an_export_is_replaced() {
    let journal = Journal::new().page("## 2026-03-05\n- Deadlift: 5 @ 100 kg\n");
    let (file, other) = (journal.root().join("out/sets.csv"), journal.root().join("page.md"));
    let named = file.to_str().unwrap();
    let out = journal.run(&["export", "--write", named]);
    assert!(out.starts_with("--- stderr\nloadline: <journal>/out/sets.csv was not written: "), "{out}");
    assert!(out.ends_with("--- exit 2\n"), "{out}");
    fs::create_dir(file.parent().unwrap()).unwrap();
    assert_eq!(journal.run(&["export", "--write", named]), "1 row in <journal>/out/sets.csv\n");
    let first = fs::read_to_string(&file).unwrap();
    assert_eq!(first, journal.run(&["export"]));
    assert_eq!(journal.run(&["export", "--as", "jsonl", "--write", named]), "1 row in <journal>/out/sets.csv\n");
    let second = fs::read_to_string(&file).unwrap();
    assert!(second.starts_with("{\"lifter\":null,"), "{second}");
    // A question that has no answer leaves what is there.
    assert!(journal.run(&["export", "--lift", "Dip", "--write", named]).contains("--- exit 2"));
    assert_eq!(fs::read_to_string(&file).unwrap(), second);
    assert!(journal.run(&["export", "--write", other.to_str().unwrap()]).contains("is no export, so it stays"));
    for taken in ["new.yaml", "new.md"] {
        let settings = journal.run(&["export", "--write", taken]);
        assert!(settings.contains("would be a page or settings of a journal"), "{settings}");
    }
    assert!(journal.run(&["export", "--write", "."]).contains("is no file; name one"));
    assert_eq!(fs::read_to_string(&other).unwrap(), "## 2026-03-05\n- Deadlift: 5 @ 100 kg\n");
    assert_eq!(fs::read_dir(file.parent().unwrap()).unwrap().count(), 1);
}

#[test]
fn a_folder_that_is_missing_is_named() {
    let journal = Journal::new();
    let file = journal.root().join("no/such.csv");
    let said = journal.run(&["export", "--write", file.to_str().unwrap()]);
    assert!(said.contains("there is no folder ") && said.contains("; make it first"), "{said}");
}

/// Help and manual are those of one program, whatever it was built with.
#[cfg(not(feature = "parquet"))]
#[test]
fn a_program_without_parquet_says_how_one_with_it_is_built() {
    let journal = Journal::new().page("## 2026-03-05\n- Dip: 8\n");
    let said = "--- stderr\nloadline: this loadline writes no Parquet; `cargo install --locked --path . --features parquet` \
                builds one that does, and csv and jsonl are in every one\n--- exit 2\n";
    let out = journal.root().join("out");
    assert_eq!(journal.run(&["export", "--as", "parquet"]), said);
    assert_eq!(journal.run(&["export", "--as", "parquet", "--write", out.to_str().unwrap()]), said);
    assert!(!out.exists());
}
