//! The CSV in a database that knows nothing of the program: the query of docs/export.md gives the totals of `volume`.

use super::table;
use crate::support::journal::{Journal, example};
use crate::support::{generator, run};
use rusqlite::{Connection, params_from_iter};
use serde_json::Value;
use std::fs;
use std::path::Path;

/// The export in a table `sets`, every cell text, what is empty null.
pub(super) fn sqlite(root: &Path, arguments: &[&str]) -> Connection {
    let (header, rows) = table(root, arguments);
    let sql = Connection::open_in_memory().unwrap();
    sql.execute_batch(&format!(
        "CREATE TABLE sets ({})",
        header.iter().map(|name| format!("\"{name}\"")).collect::<Vec<_>>().join(", ")
    ))
    .unwrap();
    let places = vec!["nullif(?, '')"; header.len()].join(", ");
    let mut insert = sql.prepare(&format!("INSERT INTO sets VALUES ({places})")).unwrap();
    for row in rows {
        insert.execute(params_from_iter(row)).unwrap();
    }
    drop(insert);
    sql
}

/// The queries that docs/export.md shows: of totals, of sessions.
pub(super) fn queries() -> Vec<String> {
    shown("docs/export.md", "sql")
}

/// The code that a page of the docs shows in some language.
pub(super) fn shown(page: &str, language: &str) -> Vec<String> {
    let text = fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join(page)).unwrap();
    let fence = format!("```{language}\n");
    text.split(&fence).skip(1).map(|rest| rest.split("```").next().unwrap().to_owned()).collect()
}

/// Holds the sums of an export against the sum of the rows of `volume`, as of the same day.
fn check(root: &Path, on: &str, narrowed: &[&str], lifter: &[&str]) -> f64 {
    let arguments = [&["--on", on], narrowed, lifter].concat();
    let sql = sqlite(root, &arguments);
    let sums: Vec<Option<f64>> =
        sql.query_row(&queries()[0], [], |row| (0..7).map(|at| row.get(at)).collect::<Result<_, _>>()).unwrap();
    against_volume(&[root], &arguments, &sums);
    sums[0].unwrap_or(0.0)
}

/// Holds sums against those of the rows of `volume` of these journals.
pub(super) fn against_volume(roots: &[&Path], arguments: &[&str], sums: &[Option<f64>]) {
    let volume = |root: &&Path| run::json(root, &[&["volume", "--by", "lift"], arguments].concat())["rows"].clone();
    let rows: Vec<Value> = roots.iter().flat_map(|root| volume(root).as_array().unwrap().clone()).collect();
    let fields = ["sets", "reps", "tonnage_kg", "bodyweight_tonnage_kg", "seconds", "metres", "high_rep_sets"];
    assert_eq!(fields.len(), sums.len());
    for (field, sum) in fields.into_iter().zip(sums) {
        // `volume` says nothing where a bodyweight is not known.
        let Some(of_rows) = rows.iter().map(|row| row[field].as_f64()).collect::<Option<Vec<f64>>>() else { continue };
        let expected: f64 = of_rows.iter().sum();
        // Rows of `volume` are rounded to the hundredth one by one.
        let apart = (sum.unwrap_or(0.0) - expected).abs();
        assert!(apart < 0.006 * rows.len().max(1) as f64, "{arguments:?}: {field}: {sum:?}, {expected}");
    }
}

#[test]
fn the_totals_of_the_example_are_those_of_volume() {
    for lifter in ["anselm", "nerys"] {
        for narrowed in [&[][..], &["--lift", "Front squat"], &["--since", "2026-08-01", "--until", "2026-10-15"]] {
            assert!(check(&example(), "2026-11-25", narrowed, &["--lifter", lifter]) > 0.0, "{lifter} {narrowed:?}");
        }
        check(&example(), "2026-09-10", &["--family", "squat"], &["--lifter", lifter]);
    }
    assert!(check(&example(), "2026-11-25", &["--block", "8"], &["--lifter", "anselm"]) > 0.0);
}

#[test]
fn the_totals_of_made_up_journals_are_those_of_volume() {
    let mut sets = 0.0;
    for seed in 2000..2012 {
        let made = generator::journal(seed);
        let journal = made.files.iter().fold(Journal::new(), |journal, (path, text)| journal.file(path, text));
        sets += check(journal.root(), &made.today.to_string(), &[], &[]);
        // The generator's own rows, which never passed through the program.
        let on = made.today.to_string();
        let (header, rows) = table(journal.root(), &["--on", &on]);
        let kind = header.iter().position(|name| name == "kind").unwrap();
        let done = rows.iter().filter(|row| ["work", "failed"].contains(&row[kind].as_str())).count();
        let known = made.rows.iter().filter(|row| row.date <= made.today).count();
        assert_eq!(done, known, "seed {seed}");
    }
    assert!(sets > 500.0, "{sets} sets");
}
