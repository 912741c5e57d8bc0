//! `draft block --whole`, and `draft week` where a week is planned by its efforts: whole pages out.

use crate::support::journal::Journal;
use std::fs;

/// A block of four weeks, the last one a deload, of which the squat's efforts are planned.
const LAST: &str = "# Block 2\n\n- starts: 2026-11-02\n- weeks: 4\n- deload: week 4\n\n## 2026-11-02 heavier day\n\n\
                    - Back squat: 3x5 @ 200 kg RPE 7\n  - plan: 3x5 @ 200 kg RPE 6-7\n\
                    - Bench press: 1x3 @ 110 kg RPE 7, 3x5 @ 100 kg RPE 6\n- Split squat: 3x8/side @ 2x24 kg\n- Plank: 2x60s\n\n\
                    ## 2026-11-09 heavier day\n\n- Back squat: 3x4 @ 207.5 kg RPE 8\n  - plan: 3x4 @ 207.5 kg RPE 7-8\n\
                    - Bench press: 1x3 @ 112.5 kg RPE 7.5, 3x5 @ 102.5 kg RPE 7\n\n\
                    ## 2026-11-16 heavier day\n\n- Back squat: 3x3 @ 215 kg RPE 8.5\n  - plan: 3x3 @ 215 kg RPE 8-9\n\
                    - Bench press: 1x3 @ 115 kg RPE 8, 3x5 @ 105 kg RPE 8\n\n\
                    ## 2026-11-23 heavier day\n\n- Back squat: 2x3 @ 180 kg RPE 5\n";

fn page(journal: &Journal, arguments: &[&str]) -> String {
    let out = journal.run(arguments);
    out.split_once("--- stderr\n").unwrap_or_else(|| panic!("{out}")).0.to_owned()
}

/// The squat has the sets, reps and efforts that were planned last time; of the bench press nothing was, so its top set
/// goes from RPE 6.5 to 8.5 and the sets behind it are a point easier. Dumbbells stay, and a plank has nothing to rise.
/// Half the sets and two reps of four or more come off in the deload: common practice, no source.
#[test]
fn every_week_of_a_block_is_drafted_with_efforts_that_rise() {
    let journal = Journal::new().page(LAST);
    let accessories = "- Split squat:\n  - plan: 3x8/side @ 2x24 kg\n- Plank:\n  - plan: 2x60s\n";
    let expected = format!(
        "# Block 3\n\n- starts: 2026-11-30\n- weeks: 4\n- deload: week 4\n\n\
         ## 2026-11-30 heavier day\n\n- Back squat:\n  - plan: 3x5 @ 200 kg RPE 6.5-7.5\n\
         - Bench press:\n  - plan: 1x3 @ 110 kg RPE 6-7, 3x5 @ 100 kg\n{accessories}\n\
         ## 2026-12-07 heavier day\n\n- Back squat:\n  - plan: 3x4 RPE 7-8\n\
         - Bench press:\n  - plan: 1x3 RPE 7-8, 3x5 RPE 6-7\n{accessories}\n\
         ## 2026-12-14 heavier day\n\n- Back squat:\n  - plan: 3x3 RPE 8-9\n\
         - Bench press:\n  - plan: 1x3 RPE 8-9, 3x5 RPE 7-8\n{accessories}\n\
         ## 2026-12-21 heavier day\n\n- Back squat:\n  - plan: 2x3 RPE 4-6\n- Bench press:\n  - plan: 2x3 RPE 4-6\n\
         - Split squat:\n  - plan: 2x6/side @ 2x24 kg\n- Plank:\n  - plan: 1x60s\n"
    );
    assert_eq!(page(&journal, &["draft", "block", "--whole"]), expected);
}

/// In a longer block the efforts still go from the first that was planned to the last.
#[test]
fn a_longer_block_has_the_same_first_and_last_effort() {
    let journal = Journal::new().page(LAST);
    let page = page(&journal, &["draft", "block", "--whole", "--weeks", "6"]);
    let plans: Vec<&str> = page.split("- Back squat:\n  - plan: ").skip(1).filter_map(|at| at.lines().next()).collect();
    let expected =
        ["3x5 @ 200 kg RPE 6.5-7.5", "3x4 RPE 7-8", "3x4 RPE 7-8", "3x3 RPE 8-9", "3x3 RPE 8-9", "2x3 RPE 4-6"];
    assert_eq!(plans, expected);
}

#[test]
fn other_reps_hold_in_every_week_and_a_whole_block_has_a_page_of_its_own() {
    let journal = Journal::new().page(LAST);
    let out = journal.run(&["draft", "block", "--whole", "--reps", "8", "--weeks", "3", "--write"]);
    assert!(out.starts_with("new page block 3.md\n"), "{out}");
    let page = fs::read_to_string(journal.root().join("block 3.md")).unwrap();
    let plans: Vec<&str> = page.split("- Back squat:\n  - plan: ").skip(1).filter_map(|at| at.lines().next()).collect();
    assert_eq!(plans, ["3x8 @ 185 kg RPE 6-7", "3x8 RPE 8-9", "2x6 RPE 4-6"]);
    assert!(journal.run(&["check"]).contains("every line is understood"), "{page}");
}

/// A lifter without a block gets another's efforts, and no load in any week.
#[test]
fn a_whole_block_like_anothers_has_no_loads() {
    let journal = Journal::new()
        .file("ada/lifter.yaml", "name: Ada\n")
        .file("ada/page.md", LAST)
        .file("bo/lifter.yaml", "name: Bo\n");
    let page =
        page(&journal, &["--lifter", "bo", "draft", "block", "--like", "ada", "--whole", "--starts", "2026-11-30"]);
    assert!(!page.contains('@'), "{page}");
    assert_eq!(page.matches("\n## ").count(), 4, "{page}");
    assert_eq!(page.matches("- Split squat:\n  - plan: 3x8/side RPE").count(), 3, "{page}");
}

/// A meet on the Saturday of the second week: half the sets, and nothing after it. No deadlift stands in the two weeks
/// before, which `heavy-deadlift-near-meet` counts.
#[test]
fn a_week_with_a_meet_in_it_is_light_in_a_whole_block_too() {
    let journal = Journal::new()
        .page(&LAST.replace("- deload: week 4\n", ""))
        .file("meet.md", "## 2026-12-12 meet Harbour Open\n");
    let page = page(&journal, &["draft", "block", "--whole", "--weeks", "3"]);
    let plans: Vec<&str> = page.split("- Back squat:\n  - plan: ").skip(1).filter_map(|at| at.lines().next()).collect();
    assert_eq!(plans, ["3x5 @ 200 kg RPE 6.5-7.5", "2x3 RPE 4-6", "3x3 RPE 8-9"]);
}

/// The first week was done, and its sets lead to the loads of the second: five at RPE 7 are eight to failure, four at
/// RPE 7.5 are 6.5, and 1.5 reps are worth about 4 % of 200 kg. Half a rep more or less is no whole step on the bench press.
#[test]
fn the_loads_of_a_week_planned_by_effort_are_put_into_its_plans() {
    let journal = Journal::new().page(LAST);
    journal.run(&["draft", "block", "--whole", "--write"]);
    let path = journal.root().join("block 3.md");
    let drafted = fs::read_to_string(&path).unwrap();
    let done = drafted.replacen("- Back squat:\n", "- Back squat: as planned RPE 7\n", 1).replacen(
        "- Bench press:\n",
        "- Bench press: as planned RPE 7\n",
        1,
    );
    fs::write(&path, &done).unwrap();
    let expected = done.replacen("3x4 RPE 7-8", "3x4 @ 207.5 kg RPE 7-8", 1).replacen(
        "1x3 RPE 7-8, 3x5 RPE 6-7",
        "1x3 @ 110 kg RPE 7-8, 3x5 @ 100 kg RPE 6-7",
        1,
    );
    let shown = journal.run(&["draft", "week", "--on", "2026-12-04"]);
    assert_eq!(fs::read_to_string(&path).unwrap(), done, "nothing is written without --write");
    assert!(shown.contains("-  - plan: 3x4 RPE 7-8\n+  - plan: 3x4 @"), "{shown}");
    assert!(shown.ends_with("--write puts these loads into the plans.\n"), "{shown}");
    let elsewhere = journal.run(&["draft", "week", "--write", "other.md", "--on", "2026-12-04"]);
    assert_eq!(
        elsewhere,
        "--- stderr\nloadline: week 2 is planned already, in block 3.md; leave out the page after --write, and its loads are put \
         there\n--- exit 2\n"
    );
    let answer = journal.json(&["draft", "week", "--on", "2026-12-04"]);
    assert_eq!(answer["fills"][0]["page"], "block 3.md");
    assert_eq!(answer["sessions"][0]["works"][2]["changes"], serde_json::Value::Null, "a dumbbell has its weight");
    journal.run(&["draft", "week", "--write", "--on", "2026-12-04"]);
    assert_eq!(fs::read_to_string(&path).unwrap(), expected);
    // By the calendar of the machine the first week may be still to come.
    let check = journal.run(&["check"]);
    assert!(!check.contains("error[") && !check.replace("warning[done-in-future]", "").contains("warning["), "{check}");
}

/// What has no rated set is not guessed, and what hurts gets no load.
#[test]
fn a_plan_stays_without_a_load_where_none_is_known() {
    let journal = Journal::new().page(
        "# Block 2\n\n- starts: 2026-11-16\n- weeks: 4\n\n## 2026-11-16\n\npain: left knee 6/10\n\n- Bench press: 3x5 @ 100 kg\n\
         - Back squat: 3x5 @ 150 kg RPE 7\n- Romanian deadlift: 3x8 @ 100 kg RPE 7\n\n\
         ## 2026-11-23\n\n- Bench press:\n  - plan: 3x5 RPE 7\n- Back squat:\n  - plan: 3x5 RPE 7\n\
         - Romanian deadlift:\n  - plan: 3-4x8 RIR 3\n- Overhead press:\n  - plan: 3x5 RPE 7\n",
    );
    let out = journal.run(&["draft", "week", "--on", "2026-11-20"]);
    let changes: Vec<&str> = out.lines().filter(|line| line.starts_with("+ ")).collect();
    assert_eq!(changes, ["+  - plan: 3-4x8 @ 100 kg RIR 3"], "{out}");
    for words in [
        "Bench press: no load yet, no clean set with reps, load and effort to",
        "Overhead press: no load yet, it has not been done",
        "Back squat left out, for pain; decide with a professional",
    ] {
        assert!(out.contains(words), "{words}\n{out}");
    }
}

#[test]
fn after_the_last_week_it_says_what_to_type_for_a_block() {
    let journal = Journal::new().page(LAST);
    let expected = |starts: &str| {
        format!(
            "--- stderr\nloadline: block 2 ends with week 4; for the next one type `loadline --journal <journal> draft block \
             --whole --starts {starts} --write`\n--- exit 2\n"
        )
    };
    assert_eq!(journal.run(&["draft", "week", "--on", "2026-11-25"]), expected("2026-11-30"));
    // Long after it a block begins on the next Monday.
    assert_eq!(journal.run(&["draft", "week", "--on", "2027-02-03"]), expected("2027-02-08"));
}
