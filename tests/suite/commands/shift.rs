//! `shift`: small journals in, the whole change out.

use crate::support::journal::Journal;

const PAGE: &str = "# Block 2\n\n- starts: 2026-11-02\n- weeks: 4\n- deload: week 4\n- goal: keep 4 fours\n\n\
                    ## Mon 2026-11-16 day 1\n\n- Back squat: 3x5 @ 100 kg\n\n## 2026-11-19, Thu, day 2\n\n- Dip:\n  - plan: 3x5\n\n\
                    ## Mon 2026-11-23 day 1, week 4\n\n- Back squat:\n  - plan: 2x5 @ 80 kg\n\n## 2026-11-28 meet Tidewater\n\n\
                    # Block 3\n\n- starts: 2026-11-30\n- weeks: 2\n- deload: week 2\n\n## 2026-11-30 day 1\n\n- Dip:\n  - plan: 3x5\n";

fn read(journal: &Journal) -> String {
    std::fs::read_to_string(journal.root().join("page.md")).unwrap()
}

#[test]
fn a_week_later_takes_blocks_deload_weeks_and_weekdays_with_it() {
    let journal = Journal::new().page(PAGE);
    let arguments = ["shift", "--from", "2026-11-18", "--by", "1w", "--on", "2026-11-17"];
    assert_eq!(
        journal.run(&arguments),
        "--- page.md\n+++ page.md\n@@ -1,20 +1,20 @@\n # Block 2\n\n - starts: 2026-11-02\n-- weeks: 4\n-- deload: week 4\n+- weeks: 5\n+- \
         deload: week 5\n - goal: keep 4 fours\n\n ## Mon 2026-11-16 day 1\n\n - Back squat: 3x5 @ 100 kg\n\n-## 2026-11-19, Thu, day 2\n+## \
         2026-11-26, Thu, day 2\n\n - Dip:\n   - plan: 3x5\n\n-## Mon 2026-11-23 day 1, week 4\n+## Mon 2026-11-30 day 1, week 5\n\n - Back \
         squat:\n   - plan: 2x5 @ 80 kg\n@@ -23,11 +23,11 @@\n\n # Block 3\n\n-- starts: 2026-11-30\n+- starts: 2026-12-07\n - weeks: 2\n - \
         deload: week 2\n\n-## 2026-11-30 day 1\n+## 2026-12-07 day 1\n\n - Dip:\n   - plan: 3x5\n\n1 of 1 page would change; --write writes \
         it\n3 planned sessions move to other days\nSat 28 Nov 2026 stays: Tidewater moves with its organiser only\n"
    );
    assert_eq!(read(&journal), PAGE, "nothing is written that is only shown");
    let written: Vec<&str> = arguments.iter().copied().chain(["--write"]).collect();
    let out = journal.run(&written);
    assert!(out.contains("1 of 1 page written"), "{out}");
    let out = journal.run(&["check", "--on", "2026-11-17"]);
    assert!(out.contains("every line is understood"), "{out}");
    // Back again, it is the page that it was.
    let out = journal.run(&["shift", "--from", "2026-11-18", "--by", "-1w", "--on", "2026-11-17", "--write"]);
    assert!(out.contains("1 of 1 page written"), "{out}");
    assert_eq!(read(&journal), PAGE);
}

#[test]
fn days_move_the_weekday_too() {
    let journal = Journal::new().page(PAGE);
    let out = journal.run(&["shift", "--from", "2026-11-19", "--by", "2d", "--on", "2026-11-17"]);
    assert!(
        out.contains("+## 2026-11-21, Sat, day 2\n") && out.contains("+## Wed 2026-11-25 day 1, week 4\n"),
        "{out}"
    );
    assert!(out.contains("+- starts: 2026-12-02\n") && !out.contains("weeks: 5"), "{out}");
}

/// The session of the 16th is done, so it stays whatever the day that is moved from.
#[test]
fn what_is_done_stays() {
    let journal = Journal::new().page(PAGE);
    let out = journal.run(&["shift", "--from", "2026-11-01", "--by", "1w", "--on", "2026-11-17"]);
    assert!(out.contains("would change what was done") && out.ends_with("--- exit 2\n"), "{out}");
    let out = journal.run(&["shift", "--from", "2026-11-16", "--by", "1w", "--on", "2026-11-17"]);
    assert!(out.contains("Mon 16 Nov 2026 stays: something is written of that session"), "{out}");
}

#[test]
fn a_block_to_come_begins_on_another_day() {
    let journal = Journal::new().page(PAGE);
    let out = journal.run(&["shift", "--block", "3", "--starts", "2026-12-14", "--on", "2026-11-17"]);
    assert!(out.contains("+- starts: 2026-12-14\n") && out.contains("+## 2026-12-14 day 1\n"), "{out}");
    assert!(out.contains("1 planned session moves to other days"), "{out}");
    let answer = journal.json(&["shift", "--block", "3", "--starts", "2026-12-14", "--on", "2026-11-17"]);
    assert_eq!((&answer["written"], &answer["pages"][0]["changed"]), (&false.into(), &true.into()));
}

#[test]
fn what_cannot_be_moved_is_said() {
    let journal = Journal::new().page(PAGE);
    for (arguments, words) in [
        (&["--from", "2027-01-01", "--by", "1w"][..], "nothing is planned for 2027-01-01 or later"),
        (&["--block", "2", "--starts", "2026-11-09"], "block 2 has begun: something is written of 2026-11-16"),
        (&["--block", "3", "--starts", "2026-11-23"], "blocks 2 and 3 would share days"),
        (&["--block", "3", "--starts", "2026-11-30"], "starts on that day already"),
        (&["--block", "9", "--starts", "2026-11-30"], "9"),
        (&["--from", "2026-11-19", "--by", "0d"], "0 moves nothing"),
        (&["--from", "2026-11-19", "--by", "one week"], "write weeks or days, such as 1w or 3d"),
        (&["--from", "2026-11-23", "--by", "-1w"], "block 2 has no room for what would move forward"),
        (&["--from", "2026-11-19", "--by", "-1w"], "a session of that label stands on 2026-11-16 already"),
        (&["--from", "2026-11-19"], "--by"),
    ] {
        let arguments: Vec<&str> = ["shift"].iter().chain(arguments).chain(&["--on", "2026-11-17"]).copied().collect();
        let out = journal.run(&arguments);
        assert!(out.contains(words) && out.ends_with("--- exit 2\n"), "{arguments:?}\n{out}");
        assert_eq!(read(&journal), PAGE);
    }
}

/// Line ends, a byte-order mark and what is typed in its own spelling stay.
#[test]
fn nothing_but_dates_changes() {
    let text =
        "\u{feff}## thursday 2026-11-19\t– pull Day\r\n* Dip :\r\n  + Plan: 3 x 5\r\n\r\nSee you on 2026-11-19!\r\n";
    let journal = Journal::new().page(text);
    let out = journal.run(&["shift", "--from", "2026-11-19", "--by", "1d", "--on", "2026-11-17", "--write"]);
    assert!(out.contains("1 of 1 page written"), "{out}");
    assert_eq!(read(&journal), text.replacen("thursday 2026-11-19", "Friday 2026-11-20", 1));
}
