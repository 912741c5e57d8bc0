//! `draft week` after weeks in which not all went as planned: a lift that pain keeps out for longer, a day that was done later.

use crate::support::journal::Journal;
use serde_json::json;

fn page(journal: &Journal, on: &str) -> String {
    journal.run(&["draft", "week", "--on", on]).split("--- stderr\n").next().unwrap().to_owned()
}

const BLOCK: &str = "# Block 1\n\n- starts: 2026-03-02\n- weeks: 5\n\n";

/// The week after next is made from a week without squats, and tells of them all the same: on their own day where it has
/// other work, and on a day of their own where it has none.
#[test]
fn a_lift_that_pain_keeps_out_is_told_each_week() {
    let quoted = "> Back squat: not planned; skipped on Mon 2 Mar 2026 (left knee), it was 3x5 @ 80 kg\n\
                  > Decide with a professional (coach, physician) before it is planned again.\n";
    for (other, drafted) in [
        ("- Plank: 3x45s\n", format!("## 2026-03-16 squat day\n\n- Plank:\n  - plan: 3x45s\n\n{quoted}")),
        ("", format!("## 2026-03-16 squat day\n\n{quoted}")),
    ] {
        let squat =
            format!("## 2026-03-02 squat day\n\n- Back squat: skipped (left knee)\n  - plan: 3x5 @ 80 kg\n{other}\n");
        let bench = |date: &str| format!("## {date} bench day\n\n- Bench press: 3x5 @ 50 kg\n\n");
        let first = format!("{BLOCK}{squat}{}", bench("2026-03-04"));
        let mut journal = Journal::new().file("1.md", &first);
        let second = page(&journal, "2026-03-08");
        assert!(second.contains(quoted), "{second}");
        // Its other lifts are done as planned.
        let done = second.replace(":\n  - plan: ", ": as planned\n  - plan: ");
        journal = journal.file("2.md", done);
        let third = page(&journal, "2026-03-15");
        assert!(third.starts_with(&drafted), "{third}");
        // Once it has been done again it is planned again, and told of no more.
        let again = "## 2026-03-14 squat day\n\n- Back squat: 3x5 @ 60 kg\n";
        let fourth = page(&journal.file("3.md", again), "2026-03-15");
        assert!(fourth.contains("- Back squat:\n  - plan: 3x5 @ 60 kg") && !fourth.contains("not planned"), "{fourth}");
    }
}

#[test]
fn a_lift_that_the_coach_left_out_is_not_told_without_a_pain() {
    let first = "## 2026-03-02 squat day\n\n- Back squat: 3x5 @ 80 kg\n- Front squat: 3x5 @ 60 kg\n\n";
    let second = "## 2026-03-09 squat day\n\n- Back squat: 3x5 @ 80 kg\n\n";
    let draft = page(&Journal::new().page(&format!("{BLOCK}{first}{second}")), "2026-03-15");
    assert!(!draft.contains("Front squat"), "{draft}");
}

/// Wednesday's plan, done on Thursday without one, is one session, and Wednesday's.
#[test]
fn a_session_that_was_done_on_a_later_day_is_drafted_once_on_the_day_it_was_planned_for() {
    let planned =
        "## 2026-03-04 bench day\n\n- Bench press:\n  - plan: 3x5 @ 50 kg RPE 7\n- Plank:\n  - plan: 3x45s\n\n";
    let done = "## 2026-03-05 bench day\n\n- Bench press: 3x5 @ 52.5 kg RPE 7\n- Plank: 3x45s\n";
    let journal = Journal::new().page(&format!("{BLOCK}{planned}{done}"));
    let answer = journal.json(&["draft", "week", "--on", "2026-03-08"]);
    let dates: Vec<_> = answer["sessions"].as_array().unwrap().iter().map(|session| session["date"].clone()).collect();
    assert_eq!(dates, [json!("2026-03-11")]);
    let draft = page(&journal, "2026-03-08");
    // From the loads that were done.
    assert!(draft.contains("  - plan: 3x5 @ 5") && !draft.contains("@ 50 kg"), "{draft}");
    assert_eq!(draft.matches("Bench press").count(), 1, "{draft}");
    let block = journal.run(&["draft", "block", "--on", "2026-03-08", "--starts", "2026-04-06"]);
    assert_eq!(block.matches("\n## ").count(), 1, "{block}");
}

/// Shares of a known maximum, the lifter's own weight alone and dumbbells are loads like others; what stays open says why.
#[test]
fn plans_get_loads_where_something_says_one_and_else_a_true_reason() {
    let done = "- bodyweight: 80 kg\n- Back squat: 3x5 @ 70% RPE 7\n- Pull-up: 3x6 @ bw RPE 6\n\
                - Deadlift: 3x3 @ 140 kg RPE 7, 3x3 @ 145 kg RPE 8\n- Dumbbell bench press: 3x10 @ 2x24 kg RPE 6\n\
                - Lat pulldown: 3x10 @ pin 7 RPE 7\n- Good morning: 3x8 @ 60 kg\n\n";
    let planned = [
        ("Back squat", "3x5 RPE 8"),
        ("Pull-up", "3x6 RPE 8"),
        ("Deadlift", "2x2 RPE 4-5"),
        ("Dumbbell bench press", "3x10 RPE 8"),
        ("Lat pulldown", "3x10 RPE 8"),
        ("Good morning", "3x8 RPE 8"),
        ("Front squat", "3x5 RPE 8"),
    ];
    let plans: String = planned.iter().map(|(lift, plan)| format!("- {lift}:\n  - plan: {plan}\n")).collect();
    let head = "# Block 1\n\n- starts: 2026-03-02\n- weeks: 4\n- max: Back squat 150 kg\n\n";
    let text = format!("{head}## 2026-03-03 day A\n\n{done}## 2026-03-10 day A\n\n{plans}");
    let journal = Journal::new().file("1.md", &text).file("journal.yaml", "gear: { steps: { dumbbells: 1 kg } }\n");
    let answer = journal.json(&["draft", "week", "--on", "2026-03-09"]);
    let works = answer["sessions"][0]["works"].as_array().unwrap();
    let told: Vec<String> = works
        .iter()
        .map(|work| format!("{} {}: {}", work["lift"], work["plan"], work["changes"]).replace('"', ""))
        .collect();
    assert_eq!(
        told,
        [
            "Back squat 3x5 @ 107.5 kg RPE 8: +2.5 kg",
            "Pull-up 3x6 @ bw + 2.5 kg RPE 8: +2.5 kg",
            "Deadlift 2x2 RPE 4-5: no load yet, the plan is under RPE 5, where the scale names no reps in reserve",
            "Dumbbell bench press 3x10 @ 2x25 kg RPE 8: +2 kg",
            "Lat pulldown 3x10 RPE 8: no load yet, last time no weight in kg or lb was written",
            "Good morning 3x8 RPE 8: no load yet, no clean set with reps, load and effort to reckon from",
            "Front squat 3x5 RPE 8: no load yet, it has not been done",
        ]
    );
    assert_eq!(answer["fills"].as_array().unwrap().len(), 3);
}
