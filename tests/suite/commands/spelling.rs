//! One spelling of sets in every command that prints them, and no text that the lifter did not write.

use crate::support::journal::Journal;

fn journal() -> Journal {
    Journal::new().page(
        "# Block 2\n\n- starts: 2026-11-02\n- weeks: 4\n\n## 2026-11-02\n\n- Plank: 2x1:15/side, 20s\n\
         - Suitcase carry: 1x40yd @ 44 kg\n- Back squat: skipped (knee)\n  - note: stairs hurt\n",
    )
}

fn flat() -> String {
    let journal = journal();
    journal.run(&["flatten", journal.root().join("page.md").to_str().unwrap()])
}

#[test]
fn a_hold_of_more_than_a_minute_is_minutes_and_seconds_everywhere() {
    let flat = flat();
    for line in ["Plank  1  1:15/side", "Plank  3  20s", "Suitcase carry  1  40yd @ 44 kg"] {
        assert!(flat.contains(line), "{flat}");
    }
    let history = journal().run(&["history", "Plank", "--on", "2026-11-03"]);
    assert!(history.contains("2x1:15/side") && history.contains("1x20s"), "{history}");
    let drafted = journal().run(&["draft", "week", "--on", "2026-11-03"]);
    assert!(drafted.contains("  - plan: 2x1:15/side, 1x20s\n"), "{drafted}");
}

#[test]
fn the_reason_of_a_skip_is_no_note() {
    assert_eq!(
        journal().run(&["recall", "Back squat", "--on", "2026-11-03"]),
        "Back squat\nnote    stairs hurt (2026-11-02)\n        page.md:11\n"
    );
    let flat = flat();
    assert!(
        flat.contains("Back squat  skipped  (knee)\n") && flat.contains("Back squat  note  stairs hurt\n"),
        "{flat}"
    );
}

#[test]
fn a_draft_past_the_last_day_that_a_page_can_name_is_refused() {
    let out = journal().run(&["draft", "block", "--starts", "9999-12-30", "--on", "2026-11-03"]);
    assert!(out.contains("goes past 9999-12-31") && out.contains("`--starts`") && !out.contains("10000-"), "{out}");
}
