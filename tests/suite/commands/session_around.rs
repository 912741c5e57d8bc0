//! What `session` says where there is more to a day than its loads: pain, a meet, a morning before an evening, a lift that
//! is left out, no block.

use crate::support::journal::{Journal, example};
use crate::support::run;
use serde_json::json;

#[test]
fn a_pain_that_says_stop_comes_first() {
    let page = "\
# Block 1

- starts: 2026-03-02
- weeks: 4

## 2026-03-09 day A

- pain: chest 8/10
- pain: left knee 7/10
- pain: right wrist 2/10
- Bench press: 3x5 @ 82.5 kg RPE 7

## 2026-03-16 day A

- Bench press:
  - plan: 3x5 @ 82.5 kg RPE 7
";
    let journal = Journal::new().page(page);
    assert_eq!(
        journal.run(&["session", "--next", "--on", "2026-03-16"]),
        "\
chest 8/10, 9 Mar; left knee 7/10, 9 Mar:
  stop, and see a physician before you
  train again
Bench press, set 1 of 3
82.5 kg x 5       RPE 6.5 (under 5 to 9.5)
each side  15 5 5 5 1.25
warm-up  bar x8, 50 x5, 60 x3, 70 x1
"
    );
    assert_eq!(
        journal.run(&["session", "--on", "2026-03-16"]),
        "\
chest 8/10, 9 Mar; left knee 7/10, 9 Mar: stop, and see a physician before you
  train again
Mon 16 Mar, day A                 block 1, week 3 of 4
right wrist 2/10 7 days ago

Bench press           plan 3x5 @ 82.5 kg RPE 7
  next set   82.5 kg, expect RPE 6.5 (under 5 to 9.5)
  each side  15 5 5 5 1.25
  last time  3x5 @ 82.5 kg RPE 7   9 Mar
  watch      chest 8/10, 9 Mar
             right wrist 2/10, 9 Mar
  warm-up    bar x8, 50 x5, 60 x3, 70 x1

These numbers are advice: use safeties or spotters, stop on pain; coach, meet
rules and a physician decide.
"
    );
    let stop = &journal.json(&["session", "--on", "2026-03-16"])["stop"];
    assert_eq!(stop[0], json!({ "kind": "pain", "text": "chest 8/10, 9 Mar", "page": "page.md", "line": 8 }));
    // From where on is the same setting as the caution's; what hurts less by now is not waited on.
    let less = page.replace("- Bench press:\n", "- pain: chest 0/10\n- pain: left knee 6/10\n- Bench press:\n");
    assert_eq!(Journal::new().page(&less).json(&["session", "--on", "2026-03-16"])["stop"], json!([]));
}

#[test]
fn what_was_done_in_the_morning_is_known_in_the_evening() {
    let page = "\
# Block 1

- starts: 2026-03-02
- weeks: 4

## 2026-03-02 07:00

- Back squat: 3x5 @ 100 kg RPE 8

## 2026-03-02 18:00

- Back squat:
  - plan: 3x5 RPE 7
";
    assert_eq!(
        Journal::new().page(page).run(&["session", "--on", "2026-03-02"]),
        "\
Mon 2 Mar                         block 1, week 1 of 4

Back squat            plan 3x5 RPE 7
  next set   100 kg, expect RPE 7.5 (6.5 to 8)
             aims at RPE 7
  each side  10 10 10 5 5
  last time  3x5 @ 100 kg RPE 8   2 Mar
  warm-up    40 x8, 60 x5, 80 x3, 90 x1

These numbers are advice: use safeties or spotters, stop on pain; coach, meet
rules and a physician decide.
"
    );
}

#[test]
fn a_lift_that_is_asked_for_and_left_out_is_said_to_be() {
    let page = "\
# Block 1

- starts: 2026-03-02

## 2026-03-02 day A

- Back squat: 3x5 @ 100 kg RPE 7
- Bench press: skipped (shoulder)
  - plan: 3x5 @ 80 kg RPE 8
- Deadlift:
  - plan: 3x5 @ 120 kg
- Leg press: 3x10 @ pin 7
  - instead of: Deadlift
";
    let journal = Journal::new().page(page);
    let asked = |lift: &str| journal.run(&["session", lift, "--next", "--on", "2026-03-02"]);
    assert_eq!(asked("Bench press"), "Bench press is skipped (shoulder)\n");
    assert_eq!(asked("Deadlift"), "Deadlift is left for Leg press\n");
    assert_eq!(
        journal.run(&["session", "Bench press", "--on", "2026-03-02"]),
        "\
Mon 2 Mar, day A                  block 1, week 1

Bench press is skipped (shoulder)

These numbers are advice: use safeties or spotters, stop on pain; coach, meet
rules and a physician decide.
"
    );
}

#[test]
fn without_a_session_the_next_thing_to_do_is_named() {
    let said = |out: String, said: &str| assert_eq!(out, format!("--- stderr\nloadline: {said}\n--- exit 2\n"));
    let on_the_day = run::run(&example(), 80, &["session", "--lifter", "anselm", "--on", "2026-12-19"]);
    said(
        on_the_day,
        "no session is written for today or later; today is Tidewater Classic, and `loadline meet` has its attempts",
    );
    let of_the_day = run::run(&example(), 80, &["session", "2026-12-19", "--lifter", "anselm"]);
    said(of_the_day, "2026-12-19 is the day of Tidewater Classic; `loadline meet` has its attempts");
    let no_block = "## 2026-03-02 day A\n\n- Back squat: 3x5 @ 100 kg RPE 8\n";
    said(
        Journal::new().page(no_block).run(&["session", "--on", "2026-03-03"]),
        "no session is written for today or later; write `# Block 1` above the first session, with `- starts: 2026-03-02` under \
         it, and `loadline draft week --write PAGE` drafts the next week; next in the rotation is day A, whose heaviest \
         sets on 2026-03-02 were Back squat 3x5 @ 100 kg RPE 8",
    );
    // Which holds.
    let block = format!("# Block 1\n\n- starts: 2026-03-02\n\n{no_block}");
    let drafted = Journal::new().page(&block).run(&["draft", "week", "--on", "2026-03-03"]);
    assert!(drafted.contains("## 2026-03-09 day A"), "{drafted}");
}
