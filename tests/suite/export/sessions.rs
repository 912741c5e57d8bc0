//! What a session says beside its sets: a row of its own.

use super::table;
use super::totals::{queries, sqlite};
use crate::support::journal::{Journal, example};
use crate::support::run;
use serde_json::{Value, json};
use std::path::Path;

const SETTINGS: &str = "gyms:\n  hotel: { plates: [ { mass: 10 kg } ] }\n";
const PAGE: &str = "# Block 1\n- starts: 2026-03-02\n\n## 2026-03-05 18:05 pull day\nbodyweight: 176 lb\nsleep: 7:30\n\
    duration: 75 min\nsession RPE: 7.5\npain: left knee 3/10\npain: back 4.5/10\ngym: hotel\n- Dip: 2x8\n- note: slept badly, \
    =1+1\n- note: bar was wet\n\n## 2026-03-07\n- Dip: 8\n\n## 2026-03-09\nsleep: 6 h\n";

fn journal() -> Journal {
    Journal::new().file("journal.yaml", SETTINGS).page(PAGE)
}

/// The rows of sessions, each as its cells of these columns.
fn rows(journal: &Journal, more: &[&str], columns: &[&str]) -> Vec<Vec<String>> {
    let (header, rows) = table(journal.root(), &[&["--on", "2026-03-08"], more].concat());
    let at = |name: &str| header.iter().position(|known| known == name).unwrap();
    let of_sessions = rows.iter().filter(|row| row[at("kind")] == "session");
    of_sessions.map(|row| columns.iter().map(|name| row[at(name)].clone()).collect()).collect()
}

#[test]
fn a_session_says_once_what_is_of_it_and_not_of_its_sets() {
    let columns =
        ["date", "time", "block", "week", "day", "lift", "set", "bodyweight", "gym", "sleep_minutes", "page", "line"];
    let expected = ["2026-03-05", "18:05", "1", "1", "pull", "", "", "176 lb", "hotel", "450", "page.md", "4"];
    assert_eq!(rows(&journal(), &[], &columns), [expected], "what says nothing has no row, nor has what is to come");
    let columns = ["duration_minutes", "session_rpe", "pain", "pains", "notes"];
    let expected = ["75", "7.5", "4.5", "left knee 3/10; back 4.5/10", "slept badly, =1+1; bar was wet"];
    assert_eq!(rows(&journal(), &[], &columns), [expected]);
    let (header, all) = table(journal().root(), &["--on", "2026-03-08"]);
    let first = header.iter().position(|name| name == "gym").unwrap();
    let of_sets: Vec<&Vec<String>> = all.iter().filter(|row| row.contains(&"work".to_owned())).collect();
    assert!(of_sets.len() == 3 && of_sets.iter().all(|row| row[first..].iter().all(String::is_empty)), "{of_sets:?}");
}

#[test]
fn json_has_the_same_with_lists_as_arrays() {
    let answer = journal().json(&["export", "--on", "2026-03-08"]);
    let row = answer["rows"].as_array().unwrap().iter().find(|row| row["kind"] == "session").unwrap();
    assert_eq!(row["pains"], json!(["left knee 3/10", "back 4.5/10"]));
    assert_eq!((&row["pain"], &row["session_rpe"], &row["sleep_minutes"]), (&json!(4.5), &json!(7.5), &json!(450)));
    let none = ["lift", "family", "set", "reps", "seconds", "metres", "load", "kg", "effort", "missed", "optional"];
    assert!(none.iter().all(|name| row[name] == Value::Null), "{row}");
}

#[test]
fn of_one_lift_there_are_sets_only() {
    assert_eq!(rows(&journal(), &["--lift", "Dip"], &["date"]), [[""; 0]; 0]);
    assert_eq!(rows(&journal(), &["--since", "2026-03-06"], &["date"]), [[""; 0]; 0]);
    assert_eq!(rows(&journal(), &["--block", "1"], &["date"]), [["2026-03-05"]]);
}

#[test]
fn a_session_on_two_pages_has_one_row() {
    let journal = Journal::new()
        .file("a.md", "## 2026-03-05 pull day\nsleep: 7 h\npain: knee 3/10\n- Dip: 8\n")
        .file("b.md", "## 2026-03-05 pull day\nsleep: 7 h\npain: knee 3/10\n- note: windy\n");
    let columns = ["sleep_minutes", "pains", "notes", "page"];
    assert_eq!(rows(&journal, &[], &columns), [["420", "knee 3/10", "windy", "a.md"]]);
}

/// The query of docs/export.md against `facts`, which knows nothing of rows.
#[test]
fn the_query_of_the_docs_tells_what_was_lifted_on_days_with_pain() {
    let query = &queries()[1];
    let mut days = 0;
    for lifter in ["anselm", "nerys"] {
        let told = |root: &Path| -> Vec<(String, Vec<String>)> {
            let sql = sqlite(root, &["--lifter", lifter]);
            let mut asked = sql.prepare(query).unwrap();
            let rows = asked.query_map([], |row| Ok((row.get::<_, String>(0)?, row.get::<_, String>(2)?))).unwrap();
            let mut rows: Vec<(String, Vec<String>)> = rows
                .map(|row| row.unwrap())
                .map(|(date, lifts)| (date, sorted(lifts.split(',').map(str::to_owned).collect())))
                .collect();
            rows.sort();
            rows
        };
        let facts = run::json(&example(), &["facts", "--lifter", lifter]);
        let mut expected: Vec<(String, Vec<String>)> = Vec::new();
        for day in facts["sites"].as_array().unwrap().iter().flat_map(|site| site["days"].as_array().unwrap()) {
            let lifts = day["lifts"].as_array().unwrap().iter().map(|lift| lift.as_str().unwrap().to_owned()).collect();
            expected.push((day["date"].as_str().unwrap().to_owned(), sorted(lifts)));
        }
        expected.sort();
        expected.dedup();
        expected.retain(|(_, lifts)| !lifts.is_empty());
        days += expected.len();
        assert_eq!(told(&example()), expected);
    }
    assert!(days > 2, "{days} days with pain");
}

fn sorted(mut lifts: Vec<String>) -> Vec<String> {
    lifts.sort();
    lifts
}
