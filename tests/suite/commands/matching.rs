//! `match` on small pages: what a side is, what its verdict hangs on, and what is told where there is nothing to match.

use crate::support::journal::Journal;
use serde_json::json;

/// Two blocks of one week each, with these lines below each heading.
fn weeks(then: &str, now: &str) -> Journal {
    Journal::new().page(&format!(
        "# Block 1\n\n- starts: 2026-01-05\n- ends: 2026-01-11\n\n## 2026-01-05\n\n{then}\n# Block 2\n\n- starts: 2026-01-12\n\n\
         ## 2026-01-12\n\n{now}"
    ))
}

#[test]
fn a_side_says_every_set_that_was_done() {
    let answer = weeks("- Squat: 3x5 @ 180 kg, 2x8 @ 150 kg\n", "- Squat: 5,4,2 @ 180 kg RPE 9\n").json(&[
        "match",
        "--on",
        "2026-01-13",
    ]);
    let pair = &answer["pairs"][0];
    assert_eq!((&pair["now"]["each"], &pair["now"]["back_offs"]), (&json!([5, 4, 2]), &json!([])));
    assert_eq!(pair["then"]["each"], json!([5, 5, 5]));
    assert_eq!(pair["then"]["back_offs"][0]["each"], json!([8, 8]));
    assert_eq!(pair["then"]["back_offs"][0]["load"]["kg"], json!(150));
    assert_eq!((&pair["verdict"], &pair["down"]), (&json!("behind"), &json!(["reps", "work"])));
    // 11 reps at 180 are 1,980; 15 and 16 at 150 are 5,100: by hand.
    assert_eq!(pair["work_change"], json!(-61.18));
}

#[test]
fn the_screen_names_what_went_down_and_by_how_much() {
    let screen = weeks(
        "- Squat: 3x5 @ 180 kg\n- Row: 3x8 @ 60 kg, 2x12 @ 50 kg\n",
        "- Squat: 5,4,2 @ 180 kg\n- Row: 3x8 @ 60 kg\n",
    )
    .run(&["match", "--on", "2026-01-13"]);
    assert_eq!(
        screen.lines().take(5).collect::<Vec<_>>(),
        [
            "1 level, 1 behind",
            "block 2 week 1 against block 1",
            "",
            "behind  Back squat  5,4,2 @ 180 kg  -4 reps, work -27 %",
            "level   Row         3x8 @ 60 kg     work -45 %",
        ],
        "{screen}"
    );
}

/// As many of the fullest sets as both sides have are held against each other: one set more is no rep more.
#[test]
fn reps_are_of_the_sets_that_both_sides_have() {
    let comparison = |then: &str, now: &str| {
        let answer =
            weeks(&format!("- Squat: {then}\n"), &format!("- Squat: {now}\n")).json(&["match", "--on", "2026-01-13"]);
        let pair = &answer["pairs"][0];
        format!("{} {} {}", pair["comparison"]["reps"], pair["comparison"]["sets"], pair["verdict"]).replace('"', "")
    };
    for (then, now, expected) in [
        ("3x5 @ 100 kg", "4x5 @ 100 kg", "level ahead ahead"),
        ("3x5 @ 100 kg", "5,5,5,2 @ 100 kg", "level ahead ahead"),
        ("3x5 @ 100 kg", "5,5,4 @ 100 kg", "behind level behind"),
        ("3x5 @ 100 kg", "2x6 @ 100 kg", "ahead behind mixed"),
        ("5,5,5 @ 100 kg", "6,5,4 @ 100 kg", "level level level"),
        ("3x40s @ bw", "3x45s @ bw", "ahead level ahead"),
        ("3x40s @ bw", "3x8 @ bw", "unknown level level"),
    ] {
        assert_eq!(comparison(then, now), expected, "{then} then, {now} now");
    }
}

/// A band or a pin says nothing of the order of loads that contain the lifter's own weight.
#[test]
fn one_banded_set_leaves_added_weight_ranked() {
    let page = "## 2026-01-05\n\n- Pull-up: 5 @ bw - \"green band\", 5 @ bw, 5 @ bw + 20 kg, 5 @ bw + 10 kg\n";
    let best = Journal::new().page(page).json(&["best", "Pull-up", "--reps", "5"]);
    assert_eq!(best["best"]["load"]["text"], json!("bw + 20 kg"));
}

#[test]
fn what_a_session_has_left_behind_is_missing() {
    let block = |number: u32, starts: &str, days: &str| format!("# Block {number}\n\n- starts: {starts}\n\n{days}\n");
    let then =
        "## 2026-01-05 heavy day\n\n- Squat: 5 @ 100 kg\n- Row: 8 @ 60 kg\n\n## 2026-01-07 pull day\n\n- Dip: 8 @ bw\n";
    let now = "## 2026-01-12 heavy day\n\n- Squat: 5 @ 100 kg\n";
    let answer = Journal::new().page(&(block(1, "2026-01-05", then) + &block(2, "2026-01-12", now))).json(&[
        "match",
        "--on",
        "2026-01-12",
    ]);
    let verdicts: Vec<String> = answer["pairs"]
        .as_array()
        .unwrap()
        .iter()
        .map(|pair| format!("{} {}", pair["lift"], pair["verdict"]).replace('"', ""))
        .collect();
    assert_eq!(verdicts, ["Back squat level", "Row missing", "Dip to come"]);
}

#[test]
fn a_week_that_is_over_is_said_to_be() {
    let journal = weeks("- Squat: 5 @ 100 kg\n", "- Squat: 5 @ 102.5 kg\n");
    let second = |on: &str| journal.run(&["match", "--on", on]).lines().nth(2).unwrap().to_owned();
    assert_eq!(second("2026-01-18"), "", "the week still has its last day");
    assert_eq!(second("2026-01-19"), "last work 7 days ago: this is not this week");
    assert_eq!(second("2026-02-02"), "last work 3 weeks ago: this is not this week");
    assert!(journal.run(&["since", "--on", "2026-02-02"]).contains("\nlast work 3 weeks ago\n"));
}

#[test]
fn no_block_and_no_session_in_it_are_two_things() {
    let first = |page: &str| Journal::new().page(page).run(&["match", "--on", "2026-02-01"]);
    assert_eq!(
        first("## 2026-01-05\n\n- Squat: 5 @ 100 kg\n"),
        "No block is written yet, so there is no week to match\nA block is a heading `# Block 1` with a list under it that \
         says `- starts:\nYYYY-MM-DD`.\n"
    );
    assert_eq!(
        first("# Block 1\n\n- starts: 2026-02-02\n\n## 2026-01-05\n\n- Squat: 5 @ 100 kg\n"),
        "No session with work in block 1 yet, so there is no week to match\nBlock 1 starts on 2026-02-02. The last work, \
         on 2026-01-05, lies in no block: is\nits date right, or the block's `starts:`?\n"
    );
}

/// A week is light for the sake of a meet in it, done or to come; two such weeks are held against each other.
#[test]
fn a_week_with_a_meet_is_not_behind_a_loading_week() {
    let (loading, light) = ("- Squat: 3x5 @ 180 kg\n", "- Squat: 2x3 @ 150 kg\n");
    let meet = |date: &str| format!("\n## {date} meet Tidewater\n\n");
    let verdict = |then: String, now: String| {
        let answer = weeks(&then, &now).json(&["match", "--on", "2026-01-14"]);
        answer["pairs"][0]["verdict"].clone()
    };
    let to_come = format!("{light}{}", meet("2026-01-17"));
    assert_eq!(verdict(loading.into(), light.into()), json!("behind"));
    assert_eq!(verdict(loading.into(), to_come.clone()), json!("unknown"));
    assert_eq!(verdict(format!("{loading}{}", meet("2026-01-10")), to_come), json!("behind"));
    let screen = weeks(loading, &format!("{light}{}", meet("2026-01-13"))).run(&["match", "--on", "2026-01-14"]);
    assert_eq!(
        screen.lines().take(4).collect::<Vec<_>>(),
        [
            "1 unknown",
            "block 2 week 1 against block 1",
            "week 1 of block 2 is a week with a meet and that of block 1 a loading week, so",
            "  no verdict is given",
        ]
    );
}

/// A week of rest says nothing of the day of a meet.
#[test]
fn a_deload_is_not_held_against_a_meet() {
    let journal = Journal::new().page(
        "# Block 1\n\n- starts: 2026-01-05\n- ends: 2026-01-11\n- deload: week 1\n\n## 2026-01-05\n\n- Deadlift: 1 @ 90 kg RPE 5\n\n\
         # Block 2\n\n- starts: 2026-01-12\n- peak: week 1\n\n## 2026-01-12 meet Tidewater\n\n- Deadlift: 1 @ 130 kg RPE 9\n",
    );
    assert_eq!(
        journal.run(&["match", "--on", "2026-01-13"]),
        "1 unknown\nblock 2 week 1 against block 1\nweek 1 of block 2 is a week with a meet and that of block 1 a deload week, so no\n  \
         verdict is given\n\nunknown  Deadlift  1x1 @ 130 kg RPE 9  +40 kg, was 90 kg, work +44 %, RPE +4\n"
    );
}

#[test]
fn a_first_block_is_held_against_nothing() {
    let page = "# Block 1\n\n- starts: 2026-01-05\n- weeks: 4\n- deload: week 3\n\n## 2026-01-06\n\n- Squat: 3x5 @ 100 kg\n\n\
                ## 2026-01-20\n\n- Squat: 2x5 @ 90 kg\n- Dip: 3x8 @ bw\n";
    assert_eq!(
        Journal::new().page(page).run(&["match", "--on", "2026-01-20"]),
        "1 new, 1 no match\nblock 1 week 3; no block before it\n\nno match  Back squat  2x5 @ 90 kg\nnew       Dip         3x8 @ bw\n"
    );
}

#[test]
fn a_week_that_the_block_does_not_have_is_refused() {
    let page = "# Block 1\n\n- starts: 2026-01-05\n- weeks: 4\n\n## 2026-01-06\n\n- Squat: 3x5 @ 100 kg\n";
    let asked = |week: &str| Journal::new().page(page).run(&["match", "--week", week, "--on", "2026-01-06"]);
    assert_eq!(asked("9"), "--- stderr\nloadline: block 1 has no week 9: it has 4 weeks\n--- exit 2\n");
    assert_eq!(
        asked("4"),
        "nothing to match\nblock 1 week 4; no block before it\nnothing was done in week 4 of block 1\n"
    );
    let none = "--- stderr\nloadline: `0` is not right for --week <N>: write a whole number from 1 up\n--- exit 2\n";
    assert_eq!(asked("0"), none);
}

#[test]
fn a_fault_stands_with_its_set() {
    let journal = weeks(
        "## 2026-01-06 meet Tidewater\n\n- Bench press: 1 @ 62.5 kg, 1 @ 67.5 kg !pause, 1 @ 67.5 kg\n",
        "- Bench press: 3x3 @ 60 kg, 3 @ 60 kg !pause\n",
    );
    let last = |block: &str| {
        let screen = journal.run_at(120, &["match", "--block", block, "--on", "2026-01-13"]);
        screen.lines().last().unwrap().to_owned()
    };
    assert_eq!(last("1"), "new  Bench press  1x1 @ 62.5 kg, 1x1 @ 67.5 kg !pause, 1x1 @ 67.5 kg");
    assert_eq!(
        last("2"),
        "unknown  Bench press  3x3 @ 60 kg, 1x3 @ 60 kg !pause  -7.5 kg, was 67.5 kg, +2 reps, +2 sets, work +265 %"
    );
}
