//! The JSON of every answer against its schema, on the example and on an empty, a one-set and a broken
//! journal: a field renamed or dropped fails here, whatever the journal holds.

use crate::support::journal::{Journal, example};
use crate::support::repository::Repository;
use crate::support::run;
use serde_json::Value;
use std::collections::BTreeMap;
use std::path::Path;
use std::sync::{Arc, LazyLock, Mutex, PoisonError};

/// Each is built once.
static SCHEMAS: LazyLock<Mutex<BTreeMap<String, Arc<jsonschema::Validator>>>> = LazyLock::new(Mutex::default);

fn schema(stem: &str) -> Arc<jsonschema::Validator> {
    let mut schemas = SCHEMAS.lock().unwrap_or_else(PoisonError::into_inner);
    let build = || {
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("docs/schema/{stem}.json"));
        let text = std::fs::read_to_string(path).expect("a schema for every answer");
        let schema: Value = serde_json::from_str(&text).expect("JSON");
        Arc::new(jsonschema::validator_for(&schema).expect("a schema"))
    };
    Arc::clone(schemas.entry(stem.to_owned()).or_insert_with(build))
}

fn check(root: &Path, arguments: &[&str]) {
    check_as(arguments[0], root, arguments);
}

fn check_as(stem: &str, root: &Path, arguments: &[&str]) {
    let answer = run::json(root, arguments);
    let errors: Vec<String> =
        schema(stem).iter_errors(&answer).map(|error| format!("{} at {}", error, error.instance_path())).collect();
    assert!(errors.is_empty(), "{arguments:?}: {errors:#?}\n{answer:#}");
}

/// Every answer that needs no lift.
const GENERAL: [&[&str]; 29] = [
    &["roster"],
    &["export"],
    &["export", "--since", "2020-01-01", "--until", "2026-11-20", "--family", "squat"],
    &["export", "--on", "2026-09-01"],
    &["roster", "--sort", "meet"],
    &["adherence"],
    &["adherence", "--by", "lift"],
    &["adherence", "--since", "2020-01-01", "--until", "2026-11-20"],
    &["match"],
    &["since"],
    &["since", "--family", "hinge", "--reps", "5"],
    &["lifts"],
    &["check"],
    &["tidy"],
    &["tidy", "--check"],
    &["tidy", "--fix"],
    &["volume"],
    &["volume", "--by", "lift"],
    &["volume", "--by", "day"],
    &["volume", "--by", "month"],
    &["review"],
    &["review", "--explain", "load-jump"],
    &["taper"],
    &["taper", "--week", "4"],
    &["meet"],
    &["meet", "--chance", "80", "--step", "5 lb", "--points", "dots"],
    &["plates", "100 kg"],
    &["plates", "101.3 kg", "--from", "45 lb + 80 kg"],
    &["plates", "1000 kg", "--from", "bar"],
];

/// Every answer about one lift.
fn of_lift(lift: &str) -> Vec<Vec<&str>> {
    vec![
        vec!["best", lift],
        vec!["best", lift, "--reps", "5", "--sets", "2"],
        vec!["best", lift, "--seconds", "20"],
        vec!["best", lift, "--metres", "40"],
        vec!["history", lift],
        vec!["recall", lift],
        vec!["match", lift],
        vec!["volume", "--lift", lift],
        vec!["export", "--lift", lift],
        vec!["estimate", lift],
        vec!["estimate", lift, "--equation", "epley"],
        vec!["estimate", lift, "--plot", "--since", "2026-09-01"],
        vec!["estimate", lift, "--load", "60 kg", "--reps", "5"],
        vec!["estimate", lift, "--load", "400 kg", "--rpe", "8"],
        vec!["adherence", "--lift", lift, "--week", "2"],
        vec!["room", lift],
        vec!["room", lift, "--cap", "7.5"],
    ]
}

#[test]
fn answers_on_the_example_keep_their_schemas() {
    let root = example();
    for lifter in ["anselm", "nerys"] {
        for arguments in GENERAL {
            check(&root, &[arguments, &["--lifter", lifter]].concat());
        }
        for session in [&["session"][..], &["session", "--next"], &["session", "2026-11-19"]] {
            check(&root, &[session, &["--lifter", lifter]].concat());
        }
        for meet in ["Harbour Open", "2026-08-29", "test day"] {
            check(&root, &["meet", meet, "--lifter", lifter]);
        }
        for lift in ["Back squat", "Plank", "Suitcase carry", "Pull-up", "Lat pulldown"] {
            for arguments in of_lift(lift) {
                if run::run(&root, 80, &["history", lift, "--lifter", lifter]).contains("--- exit 2") {
                    continue;
                }
                check(&root, &[arguments.as_slice(), &["--lifter", lifter]].concat());
            }
        }
    }
}

/// Nobody reads more at the rack: lists are asked for by `--all`, by a range of days, or for another program.
#[test]
fn no_answer_is_longer_than_forty_lines_at_sixty_columns() {
    let days = |arguments: &[&str]| arguments[0] != "adherence" && arguments.contains(&"--since");
    let list = |arguments: &[&str]| arguments[0] == "export" || days(arguments);
    let one_lift = ["Back squat", "Plank"].into_iter().flat_map(of_lift);
    let others = [&["session"][..], &["taper", "--block", "6"], &["roster"], &["facts"]];
    let general = GENERAL.iter().copied().chain(others).filter(|arguments| !list(arguments)).map(<[_]>::to_vec);
    for arguments in general.chain(one_lift.filter(|arguments| !list(arguments))) {
        let shown = run::run(&example(), 60, &[&arguments[..], &["--lifter", "anselm"]].concat());
        let lines = shown.lines().count();
        assert!(lines <= 40, "{lines} lines: {arguments:?}\n{shown}");
    }
}

#[test]
fn answers_about_a_block_keep_their_schemas() {
    for (lifter, block) in [("anselm", "5"), ("anselm", "6"), ("nerys", "summer"), ("nerys", "harbour")] {
        check(&example(), &["taper", "--lifter", lifter, "--block", block]);
        check(&example(), &["review", "--lifter", lifter, "--block", block]);
    }
}

#[test]
fn drafts_keep_their_schema() {
    let root = example();
    let week = ["draft", "week", "--on", "2026-11-18"];
    let block = ["draft", "block", "--reps", "8", "--starts", "2026-11-30"];
    for lifter in ["anselm", "nerys"] {
        check(&root, &[&week[..], &["--lifter", lifter]].concat());
        check(&root, &[&block[..], &["--lifter", lifter]].concat());
    }
    let page = "# Block 1\n\n- starts: 2026-11-02\n- weeks: 4\n- peak: week 2\n\n## 2026-11-02\n\n- Deadlift: 3x5\n- Dip: 3x5\n\n## 2026-12-19 meet Tidewater\n";
    let journal = Journal::new().page(page);
    check(journal.root(), &["draft", "week", "--on", "2026-11-03", "--write", "week.md"]);
    check(journal.root(), &["draft", "week", "--on", "2026-11-03"]);
}

#[test]
fn answers_on_an_empty_journal_keep_their_schemas() {
    let journal = Journal::new();
    GENERAL.iter().for_each(|arguments| check(journal.root(), arguments));
}

#[test]
fn answers_on_one_set_keep_their_schemas() {
    let journal = Journal::new().page("## 2026-03-05\n\n- Front squat: 8\n");
    GENERAL.iter().for_each(|arguments| check(journal.root(), arguments));
    of_lift("Front squat").iter().for_each(|arguments| check(journal.root(), arguments));
}

#[test]
fn answers_on_a_broken_journal_keep_their_schemas() {
    let page = "# Block 1\n- weeks: many\n\n## 5.3.2026\n- Front squat: 3x8 @ 120 kg\n\n## 2026-03-06\n- Front squat: 245x10\n- Front squat: 3x8 @ 122,5 kg RPE 11\n- Pull-up: 5\n  - plan: 0x5\n- Deadlift: as planned\n- Dip: skipped\n<<<<<<< a\n";
    let journal = Journal::new().file("journal.yaml", "unitz: kg\nhigh reps: many\n").page(page);
    GENERAL.iter().for_each(|arguments| check(journal.root(), arguments));
    of_lift("Front squat").iter().for_each(|arguments| check(journal.root(), arguments));
}

/// Every page of the example, and one with most that can be wrong.
#[test]
fn flat_pages_keep_their_schema() {
    let broken = "# Block 1\n- weeks: many\n- goal: more\n\n- Dip: 3x8\n\n## 5.3.2026\n- Dip: 8\n\n## 2026-03-06 meet\nsleep: 7 h\n\
        pain: knee 2/10\n- note: hm\n- Dip:\n- Back squat: skipped (knee)\n- Plank: 20s rest 90s\n  - warm-up: 10s\n  - cue: up\n\
        - Front squat: 3x8 @ 75% RPE 11\n- Deadlift: 1x0 @ 200 kg miss 1 (slow)\n  - plan: 1 @ 200 kg\n  - instead of: Dip\n<<<<<<< a\n";
    let journal = Journal::new().page(broken).file("empty.md", "").file("bytes.md", b"\xff\x00- a: 3x8\r");
    for page in ["page.md", "empty.md", "bytes.md"] {
        check(journal.root(), &["flatten", journal.root().join(page).to_str().unwrap()]);
    }
    for page in ["2026-11 block 9.md", "2026-08 block 6.md", "nerys/5 winter/block.md", "nerys/meet in spring.md"] {
        let path = example().join(page);
        check(&example(), &["flatten", path.to_str().unwrap(), "--lifter", "nerys"]);
        check(&example(), &["flatten", path.to_str().unwrap(), "--lifter", "anselm"]);
    }
}

#[test]
fn changes_keep_their_schema() {
    let repository = Repository::of_the_example();
    for range in ["HEAD", "HEAD~1", "HEAD..HEAD~1", "HEAD~1...HEAD"] {
        check(&repository.journal(), &["changes", range]);
        check(&repository.journal(), &["changes", range, "--lifter", "nerys"]);
    }
    // All of it is gone, and something else is there.
    let page = "# Block winter\n- starts: 2026-11-02\n- max: Dip pin 7\n\n## 2026-11-03 18:00 heavier day, deload\nbodyweight: 83 kg\n\
        pain: knee 2/10\n- Plank: 3x20s/side\n- Split squat:\n  - plan: 3x8 @ 75%\n- Back squat: skipped\n";
    std::fs::remove_dir_all(repository.journal().join("nerys/5 winter")).unwrap();
    repository.write("journal/nerys/other.md", page);
    check(&repository.journal(), &["changes"]);
    let empty = Repository::new();
    empty.commit("Nothing");
    check(empty.root(), &["changes"]);
}

/// A sound table, and one with most that can be wrong, printed and written.
#[test]
fn imports_keep_their_schema() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("docs/csv");
    let (table, map) = (folder.join("sets.csv"), folder.join("sets.yaml"));
    let (table, map) = (table.to_str().unwrap(), map.to_str().unwrap());
    check(&example(), &["import", table, "--columns", map, "--lifter", "nerys"]);
    let odd = tempfile::tempdir().unwrap();
    let path = odd.path().join("odd.csv");
    let rows = "Date;Time;Workout;Exercise;Set;Reps;Seconds;Weight;Units;RPE;Body weight;Remark\n1;2;3\n;;;;;;;;;;;\n\
        02.03.2026;;;Dip;;8;;;;;;\n02.03.2026;;;note;;8;;x;;y;z;\n";
    std::fs::write(&path, rows).unwrap();
    let journal = Journal::new();
    check(journal.root(), &["import", path.to_str().unwrap(), "--columns", map]);
    check(journal.root(), &["import", path.to_str().unwrap(), "--columns", map, "--write", "."]);
    check(journal.root(), &["import", table, "--columns", map, "--write", "."]);
    check(journal.root(), &["import", table, "--columns", map]);
}

/// Notes with all that can be told of them, and none.
#[test]
fn imports_of_notes_keep_their_schema() {
    let notes = Path::new(env!("CARGO_MANIFEST_DIR")).join("docs/import/notes.txt");
    let notes = notes.to_str().unwrap();
    let journal = Journal::new();
    check_as("import-notes", journal.root(), &["import", "notes", notes]);
    let folder = tempfile::tempdir().unwrap();
    let habits = folder.path().join("own.yaml");
    let own = habits.to_str().unwrap();
    check_as("import-notes", journal.root(), &["import", "notes", notes, "--habits", own, "--accept", "proposed"]);
    let out = folder.path().join("out");
    check_as("import-notes", journal.root(), &["import", "notes", notes, "--write", out.to_str().unwrap()]);
    let empty = folder.path().join("empty.txt");
    std::fs::write(&empty, "").unwrap();
    check_as("import-notes", journal.root(), &["import", "notes", empty.to_str().unwrap()]);
}

/// Meets without a name, a total, a mass, work: each of them done and to come.
#[test]
fn answers_on_odd_meets_keep_their_schemas() {
    let works = [
        "",
        "- Back squat: 1x0 @ 100 kg miss 1\n- Barbell row: 30s\n",
        "- Back squat: 1 @ \"blue bar\"\n- Bench press: 1 @ bw - 10 kg, 1 @ ~100 kg !pause\n",
        "- Back squat: 8\n- Deadlift: 1\n- Bench press:\n",
        "bodyweight: 80 kg\n\n- Back squat: 1 @ 100 kg RPE 8\n- Bench press: 1 @ 70 kg\n- Deadlift: 1 @ 5000 lb\n",
    ];
    for work in works {
        let day = |heading: &str| format!("## {heading}\n\n{work}\n");
        let page =
            day("2026-03-05") + &day("2026-03-07 meet") + &day("2026-03-08 test day") + &day("2026-12-19 meet X");
        let journal = Journal::new().file("lifter.yaml", "name: Ilse\nsex: female\n").page(&page);
        for meet in ["meet", "test day", "X", "2026-03-07"] {
            check(journal.root(), &["meet", meet]);
            check(journal.root(), &["meet", meet, "--points", "dots", "--on", "2026-03-07"]);
        }
    }
}
