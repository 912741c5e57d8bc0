//! Which load `session` says: on the plates, in the range, in a deload, and beside what was mistyped or foretold to fail.

use crate::support::journal::Journal;

const BLOCK: &str = "# Block 1\n\n- starts: 2026-03-02\n- weeks: 4\n";

fn next(page: &str, on: &str) -> String {
    Journal::new().page(page).run(&["session", "--next", "--on", on])
}

/// What is said of each lift: the load and why.
fn said(journal: &Journal, on: &str) -> Vec<String> {
    let out = journal.run(&["session", "--on", on]);
    let lines = out.lines().skip_while(|line| !line.starts_with("  next set"));
    let lines: Vec<&str> = lines.take_while(|line| !line.is_empty()).map(str::trim).collect();
    let end = lines.iter().position(|line| ["each side", "last time"].iter().any(|label| line.starts_with(label)));
    lines.into_iter().take(end.unwrap_or(9)).map(str::to_owned).collect()
}

#[test]
fn a_share_of_a_maximum_is_no_size_of_its_own() {
    let page = format!(
        "{BLOCK}- max: Back squat 150 kg\n\n## 2026-03-02 day A\n\n- Back squat: 3x5 @ 71% RPE 7\n\n## 2026-03-09 day A\n\n\
         - Back squat:\n  - plan: 3x5 RPE 8\n\n## 2026-03-10\n\n- Back squat:\n  - plan: 3x5 @ 72%\n"
    );
    assert_eq!(
        next(&page, "2026-03-08"),
        "\
Back squat, set 1 of 3
110 kg x 5          RPE 8 (5.5 to over 10)
leaves room to the block's end; 112.5 kg
  would be RPE 9
each side  10 10 10 10 5
warm-up  bar x8, 40 x8, 60 x5, 80 x3, 100
  x1
"
    );
    // What a plan in per cents comes to is 108 kg, and the plates make 107.5.
    let planned = Journal::new().page(&page);
    assert_eq!(planned.json(&["session", "2026-03-10"])["lifts"][0]["next"]["load"]["text"], "107.5 kg");
    let gym = "gear: { plates: [ { mass: 20 kg, pairs: 1 }, { mass: 10 kg, pairs: 1 }, { mass: 5 kg, pairs: 1 } ] }\n";
    let small = Journal::new().file("journal.yaml", gym).page(&page.replace("150 kg", "85 kg"));
    assert_eq!(
        said(&small, "2026-03-08"),
        ["next set   60 kg, expect RPE 6.5 (under 5 to 9.5)", "the next load, 70 kg, would be over RPE 10"]
    );
    let gym =
        "units: lb\ngear: { bars: { bar: 45 lb }, plates: [ { mass: 45 lb }, { mass: 25 lb }, { mass: 10 lb } ] }\n";
    let pounds = Journal::new().file("journal.yaml", gym).page(&page);
    assert_eq!(said(&pounds, "2026-03-08"), ["next set   245 lb, expect RPE 8.5 (5.5 to over 10)", "aims at RPE 8"]);
}

#[test]
fn room_to_the_blocks_end_takes_no_load_under_the_planned_range() {
    let week = |lift: &str, done: &str, plan: &str| {
        let page = format!(
            "{BLOCK}\n## 2026-03-02 day A\n\n- {lift}: {done} RPE 7\n\n## 2026-03-09 day A\n\n- {lift}:\n  - plan: {plan}\n"
        );
        said(&Journal::new().page(&page), "2026-03-08")
    };
    assert_eq!(
        week("Dumbbell bench press", "3x10 @ 2x24 kg", "3x10 RPE 8"),
        ["next set   2x24 kg, expect RPE 6.5 (under 5 to 10)", "the next load, 2x26.5 kg, would be over RPE 10"]
    );
    assert_eq!(
        week("Overhead press", "3x5 @ 40 kg", "3x5 RPE 8"),
        ["next set   40 kg, expect RPE 6.5 (under 5 to 9.5)", "leaves room to the block's end; 42.5 kg would be RPE 9"]
    );
    assert_eq!(
        week("Back squat", "3x5 @ 100 kg", "3x5 RPE 8"),
        ["next set   105 kg, expect RPE 8.5 (6 to over 10)", "aims at RPE 8"]
    );
}

const DELOAD: &str = "\
# Block 1

- starts: 2026-03-02
- weeks: 4
- deload: week 4

## 2026-03-02 day A

- Back squat: 3x5 @ 100 kg RPE 7

## 2026-03-09 day A

- Back squat: 3x5 @ 102.5 kg RPE 7.5

## 2026-03-16 day A

- Back squat: 3x5 @ 105 kg RPE 8

## 2026-03-23 day A

";

/// As `draft week` has it: a tenth off what the last loading week had, and a load that hangs.
#[test]
fn a_deload_is_lighter_than_the_week_before_it() {
    let lines = |lines: &str| said(&Journal::new().page(&format!("{DELOAD}{lines}")), "2026-03-22");
    let deload =
        ["next set   92.5 kg, expect under RPE 5 (under 5 to under 5)", "a deload: a tenth or more off 105 kg"];
    assert_eq!(lines("- Back squat:\n  - plan: 2x3 RPE 5\n"), deload);
    assert_eq!(lines("- Back squat:\n  - plan: 2x3\n"), deload);
    // However easy the first set was.
    assert_eq!(
        lines("- Back squat: 3 @ 92.5 kg RPE 5\n  - plan: 2x3 RPE 6-7\n"),
        ["next set   92.5 kg, expect under RPE 5 (under 5 to 6)", "the same again: a deload goes no heavier"]
    );
    let drafted = Journal::new().page(&format!("{DELOAD}- Back squat:\n  - plan: 2x3 RPE 5\n"));
    assert!(drafted.run(&["draft", "week", "--on", "2026-03-22"]).contains("+  - plan: 2x3 @ 92.5 kg RPE 5"));
}

fn squats(line: &str) -> String {
    let before = "## 2026-03-02 day A\n\n- Back squat: 5,5,5,5 @ 100 kg RPE 7,7.5,8,8.5\n\n## 2026-03-09 day A\n\n";
    format!("{BLOCK}\n{before}- Back squat:{line}\n")
}

#[test]
fn a_foretold_miss_has_the_load_beside_it_that_would_be_as_planned() {
    assert_eq!(
        next(&squats("\n  - plan: 4x5 @ 112.5 kg RPE 8"), "2026-03-09"),
        "\
Back squat, set 1 of 4
112.5 kg x 5    over RPE 10 (9 to over 10)
as planned; over RPE 10 is foretold, over
  the plan; 102.5 kg would be RPE 8
each side  15 10 10 5 5 1.25
warm-up  bar x8, 50 x8, 70 x5, 90 x3, 100
  x1
"
    );
}

#[test]
fn an_attempt_that_was_missed_is_done() {
    let page = squats(" 1x0 @ 105 kg miss 1\n  - plan: 4x5 @ 105 kg RPE 8");
    assert_eq!(
        Journal::new().page(&page).run(&["session", "--on", "2026-03-09"]),
        "\
Mon 9 Mar, day A                  block 1, week 2 of 4

Back squat            1 of 4 done: 0 @ 105 kg miss 1
  next set   95 kg, expect RPE 8.5 (6.5 to 10)
             aims at RPE 8; the plan's load, 105 kg, would be over RPE 10
  each side  10 10 10 5 2.5
             take off 2.5 and 5, put on 2.5
  last time  4x5 @ 100 kg RPE 8.5   2 Mar

These numbers are advice: use safeties or spotters, stop on pain; coach, meet
rules and a physician decide.
"
    );
}

#[test]
fn a_load_that_looks_mistyped_is_asked_about() {
    let page = |line: &str| {
        format!(
            "{BLOCK}\n## 2026-03-02 day A\n\n- Bench press: 3x5 @ 80 kg RPE 7\n\n## 2026-03-09 day A\n\n- Bench press: {line}\n"
        )
    };
    assert_eq!(
        next(&page("5 @ 825 kg RPE 8\n  - plan: 3x5 @ 82.5 kg RPE 8"), "2026-03-09"),
        "\
Bench press, set 2 of 3
82.5 kg x 5         RPE 8.5 (6 to over 10)
as planned; 5 @ 825 kg RPE 8 (page.md:12)
  looks like a slip and is left out: is
  that load right?
each side  15 5 5 5 1.25
nothing to change
"
    );
    let lines = |line: &str| said(&Journal::new().page(&page(line)), "2026-03-09");
    assert_eq!(
        lines("5 @ 8.25 kg RPE 8\n  - plan: 3x5 @ 82.5 kg RPE 8"),
        [
            "next set   82.5 kg, expect RPE 8.5 (6 to over 10)",
            "as planned; 5 @ 8.25 kg RPE 8 (page.md:12) looks like a slip and is",
            "left out: is that load right?"
        ]
    );
    assert_eq!(
        lines("5 @ 825 kg RPE 8\n  - plan: 3x5 RPE 8"),
        [
            "next set   82.5 kg, expect RPE 8.5 (6 to over 10)",
            "aims at RPE 8; 5 @ 825 kg RPE 8 (page.md:12) looks like a slip and",
            "is left out: is that load right?"
        ]
    );
    // A bad day is none.
    let bad = lines("5 @ 50 kg RPE 9\n  - plan: 3x5 @ 82.5 kg RPE 8").join(" ");
    assert!(bad.starts_with("next set   50 kg") && !bad.contains("slip"), "{bad}");
}
