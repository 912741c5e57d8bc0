//! What rows say, what is refused, and where pages are written.

use super::{Given, PLAIN, is_sound};
use crate::support::journal::Journal;
use std::fs;

#[test]
fn equal_sets_fold_whether_they_are_rows_or_a_number() {
    let page = "## 2026-03-05\n\n- Front squat: 3x8 @ 120 kg RPE 8, 1x6 RPE 9\n- Dip: 2x8\n";
    let rows = "Date,Lift,Sets,Reps,Load,RPE\n2026-03-05,front-squats,1,8,120 kg,8\n2026-03-05,Front squat,2,8,120 kg,8\n\
        2026-03-05,Front squat,1,6,120 kg,9\n2026-03-05,Dip,2,8,,\n";
    let map = "columns: { date: Date, lift: Lift, sets: Sets, reps: Reps, load: Load, effort: RPE }\n\
        constants: { effort scale: RPE }\n";
    let out = Given::new(rows, map).run(&[]);
    assert_eq!(out, format!("{page}--- stderr\n4 of 4 rows taken\n"));
    is_sound("", page);
}

#[test]
fn sets_without_a_load_do_not_take_the_load_before_them() {
    let rows = "Date,Lift,Reps,Load\n2026-03-05,Front squat,8,60 kg\n2026-03-05,Front squat,8,\n2026-03-05,Front squat,5,60 kg\n";
    let out = Given::new(rows, PLAIN).run(&[]);
    assert!(
        out.starts_with(
            "## 2026-03-05\n\n- Front squat: 1x8 @ 60 kg\n- Front squat: 1x8\n- Front squat: 1x5 @ 60 kg\n"
        ),
        "{out}"
    );
}

#[test]
fn a_long_run_of_equal_sets_is_parted() {
    let rows = "Date,Lift,Reps,Load\n".to_owned() + &"2026-03-05,Front squat,1,60 kg\n".repeat(25);
    let out = Given::new(rows, PLAIN).run(&[]);
    assert!(out.contains("- Front squat: 10x1 @ 60 kg, 10x1, 5x1\n"), "{out}");
}

#[test]
fn semicolons_decimal_commas_marks_and_other_dates_are_read_when_they_are_said() {
    let rows = "\u{feff}Tag;Lift;Reps;Load;Note\r\n05.03.26 18:05;Bench press;5;82,5;\"two\r\nlines; \"\"odd\"\"\"\r\n";
    let map = "columns: { date: Tag, time: Tag, lift: Lift, reps: Reps, load: Load, note: Note }\nconstants: { unit: kg }\n\
        delimiter: \";\"\ndecimal: \",\"\ndate format: \"%d.%m.%y %H:%M\"\n";
    let out = Given::new(rows, map).run(&[]);
    let page = "## 2026-03-05 18:05\n\n- Bench press: 1x5 @ 82.5 kg\n  - note: two lines; \"odd\"\n";
    assert_eq!(out, format!("{page}--- stderr\n1 of 1 row taken\n"));
    is_sound("", page);
    let out = Given::new(rows, map.replace("time: Tag, ", "")).run(&[]);
    assert!(out.starts_with("## 2026-03-05\n"), "{out}");
}

/// A date in two readings, a load without a unit, a decimal comma, two amounts: each is named with what it takes.
#[test]
fn what_is_not_clear_is_refused_and_the_rest_is_printed() {
    let rows = "Date,Lift,Reps,Load\n03/04/2026,Dip,8,\n2026-03-05,Dip,8,20\n2026-03-05,Dip,8.5,\n2026-03-05,,8,\n\
        2026-03-05,Dip,8,\"22,5 kg\"\n2026-03-05,Dip,8\n,,,\n2026-03-05,Dip,8,-5\n2026-03-05,Dip,9,bw + 5 kg\n";
    let given = Given::new(rows, PLAIN);
    let out = given.run(&[]);
    let expected = "## 2026-03-05\n\n- Dip: 1x9 @ bw + 5 kg\n--- stderr\n\
        row 2, Date: found `03/04/2026`, wanted a date as %Y-%m-%d; other dates need a `date format:`, such as \"%d.%m.%Y\"\n\
        row 3, Load: found `20`, wanted a unit beside it, or a `unit`, as a column or a constant: kg or lb\n\
        row 4, Reps: found `8.5`, wanted a whole number from 0 up\n\
        row 5, Lift: nothing there, wanted a lift\n\
        row 6, Load: found `22,5 kg`, wanted a number, or a load of the notation; `22,5` has a comma; a number takes a point\n\
        row 7: found `3 cells`, wanted 4, as in the first row\n\
        row 9, Load: found `-5`, wanted a load of 0 or more; help is written `bw - 20 kg`\n\
        1 of 9 rows taken, 7 not understood, 1 blank\n--- exit 1\n";
    assert_eq!(out, expected);
    let answer = given.json(&[]);
    assert_eq!(answer["faults"].as_array().unwrap().len(), 7);
    assert_eq!((&answer["faults"][1]["row"], &answer["faults"][1]["column"]), (&3.into(), &"Load".into()));
    assert_eq!((&answer["taken"], &answer["blank"][0], &answer["written"]), (&1.into(), &8.into(), &false.into()));
    let refused = given.run(&["--write", "old.md"]);
    assert!(refused.contains("nothing was written") && refused.ends_with("--- exit 1\n"), "{refused}");
    assert!(!given.journal.root().join("old.md").exists());
}

/// Names and labels that would be another thing in the notation: a fact, a note, a count, a comment, another heading.
#[test]
fn names_that_the_notation_reads_as_something_else_are_refused() {
    for lift in
        ["note", "Sleep", "pain", "Squat: paused", "**Dip", "[x] Dip", "<!-- Dip", "bodyweight", "Dip\u{1b}[31m"]
    {
        let rows = format!("Date,Lift,Reps,Load\n2026-03-05,\"{lift}\",8,20 kg\n2026-03-05,Deadlift,5,100 kg\n");
        let out = Given::new(rows, PLAIN).run(&[]);
        assert!(out.starts_with("## 2026-03-05\n\n- Deadlift: 1x5 @ 100 kg\n--- stderr\nrow 2"), "{lift}: {out}");
        assert!(out.contains("1 of 2 rows taken, 1 not understood") && out.ends_with("--- exit 1\n"), "{lift}: {out}");
    }
    let map = "columns: { date: Date, lift: Lift, reps: Reps, day: Day }\n";
    for day in ["pull, heavy", "18:30", "week 3, pull", "deload, pull"] {
        let rows = format!("Date,Lift,Reps,Day\n2026-03-05,Dip,8,\"{day}\"\n2026-03-06,Dip,8,pull\n");
        let out = Given::new(rows, map).run(&[]);
        assert!(out.starts_with("## 2026-03-06 pull day\n\n- Dip: 1x8\n--- stderr\nrow 2"), "{day}: {out}");
    }
}

#[test]
fn a_quote_that_never_closes_and_bytes_that_are_no_text_are_faults_of_their_rows() {
    let out = Given::new(b"Date,Lift,Reps,Load\n2026-03-05,Dip,8,\n2026-03-05,D\xffp,8,\n".as_slice(), PLAIN).run(&[]);
    assert!(out.contains("row 3, Lift: found `D\u{fffd}p`, wanted text in UTF-8"), "{out}");
    let out =
        Given::new("Date,Lift,Reps,Load\n2026-03-05,Dip,8,\n2026-03-05,\"Dip,8,\n2026-03-06,Dip,8,\n", PLAIN).run(&[]);
    assert!(out.contains("row 3: found `\"`, wanted a quote that closes"), "{out}");
    assert!(Given::new("", PLAIN).run(&[]).contains("is empty; its first row names the columns"));
}

#[test]
fn a_mapping_is_shown_where_it_is_wrong() {
    let rows = "Date,Lift,Reps,Load,Load\n2026-03-05,Dip,8,,\n";
    let out = Given::new(rows, "columns: { date: Dates, lift: Lift, reps: Reps, load: Load }\n").run(&[]);
    let expected = "--- stderr\n\
        map.yaml:1:18: error[wrong-setting]: `date:` takes the name of a column, as in the first row of the file\n  |\n\
        1 | columns: { date: Dates, lift: Lift, reps: Reps, load: Load }\n  |                  ^^^^^\n\
        map.yaml:1:55: error[wrong-setting]: `load:` takes the name of one column; the file has this one twice\n  |\n\
        1 | columns: { date: Dates, lift: Lift, reps: Reps, load: Load }\n  |                                                       ^^^^\n\
        sets.csv has the columns `Date`, `Lift`, `Reps`, `Load` and `Load`\n--- exit 2\n";
    assert_eq!(out, expected);
    let out = Given::new(rows, "columns: { date: Date, lift: Lift, reps: Reps, effort: Reps }\ncolour: red\n").run(&[]);
    assert!(
        out.contains("map.yaml:2:1: error[unknown-setting]") && out.contains("`effort` only with an `effort scale`"),
        "{out}"
    );
    assert!(out.ends_with("--- exit 2\n"), "{out}");
}

#[test]
fn new_pages_are_written_a_month_or_all_in_one_and_none_is_overwritten() {
    let rows = "Date,Lift,Reps,Load\n2026-04-02,Harbour drag,8,20 kg\n2026-03-05,Dip,8,\n2026-03-05,Dip,8,\n";
    let given = Given::of(Journal::new().file("old/keep.txt", ""), rows, PLAIN);
    let out = given.run(&["--write", "old"]);
    let said = "new page old/2026-03.md: 1 session, 2 sets\nnew page old/2026-04.md: 1 session, 1 set\n";
    assert_eq!(out, format!("{said}--- stderr\n3 of 3 rows taken\nnew here: Harbour drag\n"));
    let march = fs::read_to_string(given.journal.root().join("old/2026-03.md")).unwrap();
    assert_eq!(march, "## 2026-03-05\n\n- Dip: 2x8\n");
    // The days are there by now.
    let again = given.run(&["--write", "again.md"]);
    assert!(
        again.contains("2026-03-05 has a session already, old/2026-03.md:1") && again.ends_with("--- exit 2\n"),
        "{again}"
    );
    let printed = given.run(&[]);
    assert!(printed.contains("2026-03-05 has a session already, old/2026-03.md:1; so have 1 more"), "{printed}");
    // A page of that name that says nothing yet.
    let given = Given::of(Journal::new().file("2026-03.md", "mine\n"), rows, PLAIN);
    let out = given.run(&["--write", "."]);
    assert!(out.contains("2026-03.md is there already, and nothing was written"), "{out}");
    assert_eq!(fs::read_to_string(given.journal.root().join("2026-03.md")).unwrap(), "mine\n");
    assert!(!given.journal.root().join("2026-04.md").exists());
    let out = given.run(&["--write", "all.md"]);
    assert!(out.starts_with("new page all.md: 2 sessions, 3 sets\n"), "{out}");
    assert!(given.run(&["--write", "nowhere/all.md"]).contains("there is no folder"));
}

#[test]
fn columns_rows_and_bodyweights_that_are_left_out_are_told() {
    let rows = "Date,Lift,Reps,Kind,BW,Mood\n2026-03-05,Dip,8,work,83.1 kg,ok\n2026-03-05,Dip,8,work,84 kg,ok\n2026-03-05,Dip,3,warm,83.1 kg,\n";
    let map = "columns: { date: Date, lift: Lift, reps: Reps, bodyweight: BW }\nonly: { Kind: work }\n";
    let out = Given::new(rows, map).run(&[]);
    let expected = "## 2026-03-05\n\nbodyweight: 83.1 kg\n\n- Dip: 1x8\n--- stderr\n\
        row 3: found `84 kg`, wanted one bodyweight a session; row 2 says 83.1 kg\n\
        1 of 3 rows taken, 1 not understood, 1 left out by `only:`\ncolumns left out: Mood\n--- exit 1\n";
    assert_eq!(out, expected);
}

#[test]
fn another_delimiter_than_the_table_s_is_offered() {
    for (table, wanted) in [("d;l;r\n", "`delimiter: \";\"`"), ("d\tl\tr\n", "`delimiter: tab`")] {
        let said = Given::new(table, "columns: { date: d, lift: l, reps: r }\n").run(&[]);
        assert!(
            said.contains(&format!("takes the name of a column; with {wanted} the file has more than one")),
            "{said}"
        );
    }
}

#[test]
fn a_cell_that_goes_on_behind_its_quote_is_refused() {
    let said =
        Given::new("d,l,r\n2026-03-02,\"Squat\"x,5\n2026-03-02,Dip,8\n", "columns: { date: d, lift: l, reps: r }\n")
            .run(&[]);
    assert!(said.contains("- Dip: 1x8") && !said.contains("Squatx"), "{said}");
    assert!(said.contains("cells that end with their closing quote; a quote within one is written twice"), "{said}");
}
