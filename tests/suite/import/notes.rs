//! Notes in, pages out: what a line becomes, what is told, and where pages are written.

use crate::support::journal::Journal;
use crate::support::run;
use loadline::commands;
use proptest::prelude::*;
use std::ffi::OsString;
use std::fs;
use std::path::Path;

/// Notes in a folder that is no journal, with a file of habits beside them.
struct Given(tempfile::TempDir);

impl Given {
    fn new(notes: impl AsRef<[u8]>) -> Self {
        let folder = tempfile::tempdir().unwrap();
        fs::write(folder.path().join("old.txt"), notes).unwrap();
        Given(folder)
    }

    fn habits(self, habits: &str) -> Self {
        fs::write(self.0.path().join("own.yaml"), habits).unwrap();
        self
    }

    fn run(&self, more: &[&str]) -> String {
        run::run_in(self.0.path(), 80, &[&["import", "notes", "old.txt"], more].concat())
    }

    /// The page that is printed.
    fn page(&self, more: &[&str]) -> String {
        self.run(more).split("--- stderr\n").next().unwrap().to_owned()
    }

    fn files(&self, folder: &str) -> Vec<String> {
        let Ok(there) = fs::read_dir(self.0.path().join(folder)) else { return Vec::new() };
        let mut names: Vec<String> = there.map(|entry| entry.unwrap().file_name().into_string().unwrap()).collect();
        names.sort();
        names
    }
}

#[test]
fn no_folder_is_made_for_a_file_of_habits() {
    let given = Given::new("Mon 15 Sep 2025\nSquat 100x5, 5, 4\n");
    assert_eq!(
        given.run(&["--habits", "nowhere/own.yaml"]),
        "--- stderr\nloadline: there is no folder nowhere, so habits cannot be written to nowhere/own.yaml; make the folder, \
         or name another file\n--- exit 2\n"
    );
    assert_eq!(given.files("."), ["old.txt"]);
}

#[test]
fn notes_become_pages_and_what_is_not_read_is_told() {
    let notes = "\
# Log of the barn

Mon 15 Sep 2025
Squat 100x5, 5, 4
bench
60 kg x 8
62,5 kg x 6
Felt odd in the knee
Sqaut 3x5 100 kg

17 Sep - pull day
RDL 3x8 80 kg @8
curl 15x10
";
    assert_eq!(
        Given::new(notes).run(&[]),
        "\
## Log of the barn

## 2025-09-15

- Back squat: 5,5,4 @ 100 kg
- Bench press:
  - 8 @ 60 kg
  - 6 @ 62.5 kg

Felt odd in the knee
> not read: Sqaut 3x5 100 kg

## 2025-09-17 pull day

- Romanian deadlift: 3x8 @ 80 kg RPE 8
> not read: curl 15x10
--- stderr
names that no lift has; a habit says which lift each is (`names: { SQ: Back squat }`)
  Sqaut: 1 line; Back squat?
habits that only you can tell
  before x: load, or sets, or reps: 1 line asks
not read, and kept in the pages as `> not read: …`
old.txt:9: `Sqaut 3x5 100 kg`: no lift is called `Sqaut`
old.txt:13: `curl 15x10`: 15 sets of 10, or one set of 10 at 15 kg
11 lines: 4 lines of work in 2 sessions; 2 not read: 1 several readings, 1 unknown lift
"
    );
}

#[test]
fn headings_of_lifts_outlines_tables_and_what_hides_lines_are_taken_for_what_they_are() {
    let notes = "\
#+TITLE: diary
** <2025-05-05 Mon 18:30>
*** Deadlift
140 kg x 5
*** Squat 3x5 100 kg
*** felt fast
```
better than last time
```
** <2025-05-09 Fri>
| Exercise | Sets | Reps | Weight |
|----------+------+------+--------|
| Bench | 3 | 8 | 70 kg |
bench 3x8 60 kg <!-- the old bar -->
<!-- not done:
bench 3x8 80 kg
-->
squat 3x5 90 kg <!-- and
so on
";
    let printed = Given::new(notes).run(&[]);
    assert_eq!(
        printed,
        "\
#+TITLE: diary

## 2025-05-05 18:30

- Deadlift:
  - 5 @ 140 kg
- Back squat: 3x5 @ 100 kg
### felt fast
> ```
better than last time
> ```

## 2025-05-09

| Exercise | Sets | Reps | Weight |
|----------|------|------|--------|
- Bench press: 3x8 @ 70 kg
- Bench press: 3x8 @ 60 kg <!-- the old bar -->
> <!-- not done:
> bench 3x8 80 kg
> -->
> not read: squat 3x5 90 kg <!-- and
so on
--- stderr
not read, and kept in the pages as `> not read: …`
old.txt:18: `squat 3x5 90 kg <!-- and`: it stands beside a sign that would hide other lines
19 lines: 4 lines of work in 2 sessions; 1 not read: 1 unread work
"
    );
}

#[test]
fn days_in_other_forms_go_by_the_habit_and_by_each_other() {
    let days = |notes: &str, habits: &str| -> Vec<String> {
        let given = Given::new(notes).habits(&format!("habits:\n  {habits}\n"));
        let page = given.page(&["--habits", "own.yaml", "--write", "out"]);
        assert!(page.starts_with("new page") || !page.is_empty(), "{page}");
        let pages = given
            .files("out")
            .into_iter()
            .map(|name| fs::read_to_string(given.0.path().join("out").join(name)).unwrap());
        let pages: Vec<String> = pages.collect();
        pages
            .iter()
            .flat_map(|page| page.lines())
            .filter_map(|line| line.strip_prefix("## "))
            .map(str::to_owned)
            .collect()
    };
    let sets = "\nsquat 3x5 100 kg\n\n";
    let notes = |heads: &[&str]| heads.iter().map(|head| format!("{head}{sets}")).collect::<String>();
    for (heads, habits, dates) in [
        // Over the new year.
        (
            &["28.12.", "30.12.", "2.1."][..],
            "dates: { order: day month, year: 2024 }",
            &["2024-12-28", "2024-12-30", "2025-01-02"][..],
        ),
        // The newest first.
        (
            &["1/2", "12/30", "12/28"],
            "dates: { order: month day, year: 2024 }",
            &["2024-12-28", "2024-12-30", "2025-01-02"],
        ),
        // A year is written once.
        (&["# 14 Sep 2025", "# 16 Sep", "# Fri 19 Sep"], "comma: decimal", &["2025-09-14", "2025-09-16", "2025-09-19"]),
        (&["2025\n\nMarch 3", "March 5th"], "comma: decimal", &["2025-03-03", "2025-03-05"]),
        // Before the first that is settled.
        (&["3.3.", "2025-03-05"], "comma: decimal", &["2025-03-03", "2025-03-05"]),
        // A weekday between two days.
        (
            &["**2025-03-03**", "Wednesday", "**2025-03-07**"],
            "comma: decimal",
            &["2025-03-03", "2025-03-05", "2025-03-07"],
        ),
        // No year, a weekday that does not fit, a slip of the month, a number of a day: none of these is the day above.
        (&["14.9.", "16.9."], "comma: decimal", &["Not dated", "Not dated"]),
        (&["2025-03-03", "Mon 4 Mar", "2025-03-07"], "comma: decimal", &["2025-03-03", "Not dated", "2025-03-07"]),
        (&["2025-03-03", "5.8.", "7.3."], "comma: decimal", &["2025-03-03", "Not dated", "2025-03-07"]),
        // `8/8` may be sets, and a day between words one to come.
        (
            &["3.3.2025", "5.3.", "8/8", "7.3."],
            "comma: decimal",
            &["2025-03-03", "2025-03-05", "Not dated", "2025-03-07"],
        ),
        (
            &["2025-03-03", "2025-03-05", "2025-03-07", "2025-03-10", "2025-03-12\nsquat 3x5 100 kg\n20.3. physio"],
            "comma: decimal",
            &["2025-03-03", "2025-03-05", "2025-03-07", "2025-03-10", "2025-03-12", "Not dated"],
        ),
        (&["2025-03-03", "Day 2"], "comma: decimal", &["2025-03-03", "Not dated"]),
        (&["9/8", "9/10"], "dates: { order: month day }", &["Not dated", "Not dated"]),
    ] {
        assert_eq!(days(&notes(heads), habits), dates, "{heads:?}");
    }
}

#[test]
fn looking_writes_nothing_and_a_file_of_habits_keeps_what_stands_there() {
    let notes = "2025-03-03\nSQX 80x5x3\nbench 60x8x3\n\n2025-03-05\nbench 62.5x8x3\nrow 60 kg 3x8\n\n2025-03-07\nbench 65x8x3\nbench 65x10x3\n";
    let given = Given::new(notes).habits("units: kg # ours\nhabits:\n  comma: decimal\n");
    given.run(&[]);
    assert_eq!(given.files(""), ["old.txt", "own.yaml"]);
    given.run(&["--habits", "own.yaml"]);
    let found = "\
units: kg # ours
habits:
  # three numbers: load x reps x sets   # 4 of 4 lines
  # names:                              # 2 names in the lines
  #   SQX: …                            # 1 line; Back squat?
  #   row: …                            # 1 line; Barbell row, or Dead-stop row?
  comma: decimal
";
    let own = || fs::read_to_string(given.0.path().join("own.yaml")).unwrap();
    assert_eq!(own(), found);
    // What is only proposed does not count, but where it is accepted.
    let before = given.page(&["--habits", "own.yaml"]);
    assert!(before.contains("> not read: bench 60x8x3"), "{before}");
    assert_eq!(own(), found, "once more: nothing new");
    let accepted = given.run(&["--habits", "own.yaml", "--accept", "proposed"]);
    assert!(accepted.contains("- Bench press: 3x8 @ 60 kg"), "{accepted}");
    assert!(accepted.contains("\n4 lines rest on what is only proposed\n"), "{accepted}");
    // The sign taken away, it counts.
    fs::write(given.0.path().join("own.yaml"), found.replace("# three", "three")).unwrap();
    assert!(given.page(&["--habits", "own.yaml"]).contains("- Bench press: 3x8 @ 60 kg"));
}

#[test]
fn pages_are_written_all_or_none_and_never_over_another() {
    let notes = "2025-03-03\nbench 3x8 60 kg\n\n2025-04-01\nbench 3x8 62.5 kg\n";
    let given = Given::new(notes);
    assert_eq!(
        given.run(&["--write", "out"]),
        "new page out/2025-03.md: 1 session, 3 sets\nnew page out/2025-04.md: 1 session, 3 sets\n--- stderr\n\
         4 lines: 2 lines of work in 2 sessions; every line is read or prose\n"
    );
    assert_eq!(fs::read_to_string(given.0.path().join("old.txt")).unwrap(), notes);
    fs::remove_file(given.0.path().join("out/2025-03.md")).unwrap();
    let again = given.run(&["--write", "out"]);
    assert!(again.contains("out/2025-04.md is there already, and nothing was written"), "{again}");
    assert_eq!(given.files("out"), ["2025-04.md"]);
}

#[test]
fn in_a_journal_pages_are_the_lifters_and_a_day_counts_once() {
    let journal = Journal::new().page("## 2025-03-05\n\n- Bench press: 3x8 @ 60 kg\n");
    let given = Given::new("2025-03-03\nbench 3x8 60 kg\n");
    let old = given.0.path().join("old.txt");
    let folder = journal.root().to_str().unwrap();
    let out = journal.run(&["import", "notes", old.to_str().unwrap(), "--write", folder]);
    assert!(out.starts_with("new page 2025-03.md: 1 session, 3 sets\n"), "{out}");
    let other = Given::new("2025-03-05\nbench 3x8 60 kg\n");
    let old = other.0.path().join("old.txt");
    let out = journal.run(&["import", "notes", old.to_str().unwrap(), "--write", folder]);
    assert!(out.contains("2025-03-05 has a session already, page.md:1; nothing was written"), "{out}");
}

#[test]
fn what_cannot_be_read_is_said_in_one_line() {
    let given = Given::new([b'a', 0xff, b'\n']);
    assert_eq!(
        given.run(&[]),
        "--- stderr\nloadline: old.txt is no UTF-8 text; save it as UTF-8, and none of it is lost\n--- exit 2\n"
    );
    let given = Given::new("2025-03-03\n").habits("habits: { comma: dot }\n");
    assert!(given.run(&["--habits", "own.yaml"]).ends_with("--- exit 2\n"));
    let missing = run::run_in(given.0.path(), 80, &["import", "notes", "none.txt"]);
    assert!(missing.contains("none.txt cannot be read"), "{missing}");
    let folder = run::run_in(given.0.path(), 80, &["import", "notes", "."]);
    assert!(folder.contains(". is a folder; name the files in it"), "{folder}");
}

/// Any text: no panic, each line kept, pages sound.
fn holds(text: &str) {
    let given = Given::new(text);
    let path = given.0.path().join("old.txt");
    let words =
        ["loadline", "import", "notes", path.to_str().unwrap(), "--format", "json", "--on", "2026-11-25", "--journal"];
    let journal = Journal::new();
    let words = words.into_iter().chain([journal.root().to_str().unwrap()]).map(OsString::from);
    let reply = commands::replies(words).next().expect("a reply");
    assert_eq!(reply.status, 0, "{}", reply.err);
    let answer: serde_json::Value = serde_json::from_str(&reply.out).unwrap();
    let pages: Vec<&str> =
        answer["pages"].as_array().unwrap().iter().map(|page| page["text"].as_str().unwrap()).collect();
    let whole = pages.concat();
    for line in answer["not_read"].as_array().unwrap() {
        let kept = format!("> not read: {}", line["text"].as_str().unwrap().trim());
        assert!(whole.contains(&kept), "{text:?}\n{whole}");
    }
    is_whole(text, &whole);
    for page in pages {
        let checked = Journal::new().page(page).json(&["check"]);
        // Notes that have the same sets twice on one day say so in the pages, too.
        let twice = |problem: &&serde_json::Value| problem["kind"] == "session-twice";
        let told = checked["problems"].as_array().unwrap().iter().filter(twice).count();
        assert_eq!(checked["errors"], told, "{text:?}\n{page}\n{checked:#}");
    }
}

/// Every word that stands for itself, and every number that is none of a date, is in the pages as often as in the notes.
fn is_whole(text: &str, pages: &str) {
    let count =
        |text: &str, word: &str| text.split(|c: char| !c.is_alphanumeric()).filter(|other| *other == word).count();
    for word in ["zzzz", "zzzzz"] {
        assert!(count(pages, word) >= count(text, word), "{text:?}\n{pages}");
    }
    for number in ["82", "60", "90", "100"] {
        assert!(count(pages, number) >= count(text, number), "{number}: {text:?}\n{pages}");
    }
}

fn line() -> impl Strategy<Value = String> {
    let typed = prop::sample::select(&[
        "",
        "",
        "zzzz",
        "## zzzz",
        "# zzzzz",
        "squat",
        "### Bench",
        "squat 3x5 100 kg",
        "- Squat: 3x5 @ 100 kg",
        "  - 5 @ 90 kg",
        "  - 5",
        "bench 60x8",
        "60x5",
        "- plan: 3x5",
        "sqaut 3x5 100",
        "then 85 kg x 3",
        "82,5x5 @8",
        "```",
        "~~~",
        "<!--",
        "-->",
        "---",
        "===",
        "> zzzz",
        "| lift | sets | reps | kg |",
        "|---|---|---|---|",
        "| Bench | 3 | 5 | 80 |",
        "# Block 3",
        "- starts: 2025-01-06",
        "Monday",
        "Day 3",
        "14.9.",
        "9/28",
        "8/8",
        "2025-09-14",
        "# 14 Sep 2025 zzzz",
        "2025",
        "16.9. squat 3x5 100",
        "sleep: bad",
        "bodyweight: 80 kg",
        "<<<<<<< zzzz",
        "zzzz (3x5 100 kg",
        "* zzzzz",
        "** 2025-09-16 Tue",
        "\u{feff}zzzz",
        "\t- zzzz",
        "2025-02-30",
        "Mon 2025-09-14",
        "- 3x8 @ ",
        "- note: zzzz",
        "[x] squat 3x5 100",
        "squat 3x5 100 kg <!-- zzzz",
        "work: 5x5",
    ]);
    prop_oneof![8 => typed.prop_map(str::to_owned), 1 => "[ -~]{0,30}", 1 => "\\PC{0,12}"]
}

proptest! {
    #![proptest_config(crate::laws::cases(96))]

    #[test]
    fn any_lines_are_kept_and_give_sound_pages(lines in prop::collection::vec(line(), 0..24)) {
        holds(&lines.join("\n"));
    }
}

#[test]
fn the_examples_of_the_table_of_typed_lines_are_kept() {
    let table = fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/data/typed.txt")).unwrap();
    let lines = table.lines().filter_map(|line| line.split_once(" => ")).map(|(line, _)| line);
    let text = lines.map(|line| format!("\n{line}\n")).collect::<String>();
    holds(&format!("2025-03-03\n{text}"));
}
