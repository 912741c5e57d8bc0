//! The program's JSON on a few journals on disk.

use super::adherence;
use super::findings::Findings;
use super::library::{ALL_BY, plain_best};
use super::shown::{Shown, sorted, volume_of_json};
use super::witness::{Witness, sqlite};
use crate::support::{generator, run};
use loadline::questions::{best, volume};
use loadline::training::LiftId;
use serde_json::Value;

#[test]
fn the_json_of_the_program_is_what_sqlite_makes_of_the_rows() {
    let (sql, mut findings) = (sqlite(), Findings::default());
    for seed in [1000, 1001, 1002, 1003] {
        let journal = generator::journal(seed);
        let witness = Witness::new(&sql, &journal);
        let mut disk = crate::support::journal::Journal::new();
        for (path, text) in &journal.files {
            disk = disk.file(path, text);
        }
        let ask = |arguments: &[&str]| run::json(disk.root(), &[arguments, &["--on", &witness.today]].concat());
        let check = ask(&["check"]);
        assert_eq!(check["errors"], 0, "seed {seed}: {:#}", check["problems"]);
        let lift = journal.rows.iter().find(|row| row.family == "squat").map_or("Front squat", |row| &row.lift);
        let plain = &plain_best(LiftId(0));
        for (reps, sets) in [(1, 1), (5, 1), (8, 1), (8, 3), (10, 1)] {
            let answer = ask(&["best", lift, "--reps", &reps.to_string(), "--sets", &sets.to_string()]);
            let mark = answer["best"].is_object().then(|| Shown::of_json(&answer["best"]));
            let bound = best::Bound::Reps(reps);
            let expected = witness.best(lift, &best::Ask { bound: Some(bound), sets, ..plain.clone() }, bound);
            findings.same("best", &(seed, lift, reps, sets), mark, expected.map(|best| best.mark));
        }
        let answer = ask(&["best", lift]);
        let rows = answer["rows"].as_array().unwrap();
        let rows: Vec<_> = rows
            .iter()
            .map(|row| {
                (row["reps"].as_u64().unwrap() as u32, row["standing"].as_bool().unwrap(), Shown::of_json(&row["best"]))
            })
            .collect();
        findings.same("table", &(seed, lift), rows, witness.table(lift, plain));
        for (word, by) in ["week", "block", "lift", "family", "day", "month"].into_iter().zip(ALL_BY) {
            let of = volume::Ask { by, lift: None, family: None, block: None, since: None, until: None };
            findings.same(
                "volume",
                &(seed, word),
                volume_of_json(&ask(&["volume", "--by", word])),
                witness.volume(&of, None),
            );
        }
        adherence::check_json(seed, &ask(&["adherence", "--since", "1990-01-01"]), &witness, &mut findings);
        let answer = ask(&["history", lift]);
        let marks = answer["marks"].as_array().unwrap().iter();
        let marks: Vec<_> =
            marks.map(|mark| (Shown::of_json(mark), mark["faults"].as_array().unwrap().is_empty())).collect();
        findings.same("history", &(seed, lift), marks, witness.history(lift));
        let answer = ask(&["lifts"]);
        let row = |row: &Value| {
            let texts = ["lift", "family", "first", "last"].map(|key| row[key].as_str().unwrap());
            format!("{} {} {}", texts.join(" "), row["sessions"], row["sets"])
        };
        findings.same(
            "lifts",
            &seed,
            sorted(answer["lifts"].as_array().unwrap().iter().map(row).collect()),
            sorted(witness.lifts()),
        );
    }
    findings.assert_none();
}
