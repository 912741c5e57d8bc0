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
