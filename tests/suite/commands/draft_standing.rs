//! `draft block` into a block whose heading stands, and the gyms of drafted sessions.

use crate::support::journal::Journal;
use serde_json::json;

const BARN: &str = "gyms:\n  barn: { plates: [ { mass: 20 kg }, { mass: 10 kg }, { mass: 5 kg } ] }\n";

/// Two weeks of a block, Saturdays in the barn where `barn` says so, and below them another heading.
fn journal(barn: [bool; 2], heading: &str) -> Journal {
    let saturday = |date: &str, barn: bool| {
        let gym = if barn { "gym: barn\n\n" } else { "" };
        format!("## {date} loose day\n\n{gym}- Bench press: 3x5 @ 72.5 kg RPE 6\n\n")
    };
    let page = format!(
        "# Block 1\n\n- starts: 2026-10-26\n- weeks: 4\n- max: Deadlift 200 kg\n\n## 2026-10-26 day 1\n\n\
         - Back squat: 3x5 @ 102.5 kg RPE 7\n  - plan: 3x5 RPE 7\n- Deadlift: as planned\n  - plan: 2x3 @ 80%\n\n{}{}{heading}",
        saturday("2026-10-31", barn[0]),
        saturday("2026-11-07", barn[1]),
    );
    Journal::new().file("journal.yaml", BARN).page(&page)
}

fn page(journal: &Journal, arguments: &[&str]) -> String {
    journal.run(arguments).split("--- stderr\n").next().unwrap().to_owned()
}

const STANDS: &str = "# Block 2\n\n- starts: 2026-11-23\n- weeks: 3\n- deload: week 3\n- max: Deadlift 210 kg\n";

#[test]
fn a_block_whose_heading_stands_is_filled_and_gets_no_second_heading() {
    let journal = journal([false; 2], STANDS);
    let arguments = ["draft", "block", "--on", "2026-11-22"];
    assert_eq!(
        page(&journal, &arguments),
        "## 2026-11-23 day 1\n\n- Back squat:\n  - plan: 3x5 @ 100 kg RPE 6-7\n- Deadlift:\n  - plan: 2x3 @ 80%\n\n\
         ## 2026-11-28 loose day\n\n- Bench press:\n  - plan: 3x5 @ 72.5 kg RPE 5-6\n"
    );
    let answer = journal.json(&arguments);
    assert_eq!((&answer["kind"], &answer["block"], &answer["week"]), (&json!("block"), &json!("2"), &json!(1)));
    // By name, and by its first day, it is the same one.
    for named in [["--name", "2"], ["--starts", "2026-11-23"]] {
        assert_eq!(page(&journal, &[&arguments[..], &named].concat()), page(&journal, &arguments));
    }
    let out = journal.run(&["draft", "block", "--on", "2026-11-22", "--write"]);
    assert!(out.starts_with("new page block 2 week 1.md\n+ ## 2026-11-23 day 1\n"), "{out}");
    assert!(journal.run(&["check"]).contains("every line is understood"));
    let day = journal.json(&["session", "--on", "2026-11-23"]);
    let deadlift = day["lifts"].as_array().unwrap().iter().find(|lift| lift["lift"] == "Deadlift").unwrap().clone();
    assert!(
        deadlift["next"]["load"]["kg"] == json!(167.5),
        "80 % of the new block's maximum, as plates make it: {deadlift}"
    );
    // Once it is planned it is written no second time.
    let again = journal.run(&["draft", "block", "--on", "2026-11-22", "--write"]);
    assert!(again.contains("2026-11-23 has a session already") && again.ends_with("--- exit 2\n"), "{again}");
}

#[test]
fn of_a_block_that_has_begun_no_day_that_is_past_is_planned() {
    let journal = journal([false; 2], STANDS);
    let dates = |on: &str| {
        let text = page(&journal, &["draft", "block", "--on", on]);
        text.lines().filter(|line| line.starts_with("## ")).map(|line| line[3..13].to_owned()).collect::<Vec<_>>()
    };
    assert_eq!(dates("2026-11-25"), ["2026-11-28"]);
    assert_eq!(dates("2026-11-29"), ["2026-11-30", "2026-12-05"], "the week after");
    let out = journal.run(&["draft", "block", "--on", "2026-12-06"]);
    assert!(out.contains("block 2 ends with week 3"), "only its deload is left: {out}");
}

#[test]
fn what_the_heading_says_already_is_not_asked_for() {
    let out = journal([false; 2], STANDS).run(&["draft", "block", "--weeks", "5"]);
    assert_eq!(
        out,
        "--- stderr\nloadline: the heading of block 2 stands already and says when it starts and how long it is; leave out \
         --starts and --weeks\n--- exit 2\n"
    );
    let other = page(&journal([false; 2], STANDS), &["draft", "block", "--starts", "2026-12-14", "--on", "2026-11-22"]);
    assert!(other.starts_with("# Block 3\n"), "{other}");
}

#[test]
fn per_cents_without_a_maximum_of_the_new_block_are_loads_and_say_so() {
    let bare = journal([false; 2], "# Block 2\n\n- starts: 2026-11-23\n");
    let text = page(&bare, &["draft", "block", "--on", "2026-11-22"]);
    let note = "> Deadlift was planned in per cents, and block 2 has no `max:` of it: these are loads.\n";
    assert!(text.contains(note) && text.contains("- Deadlift:\n  - plan: 2x3 @ 160 kg\n"), "{text}");
}

#[test]
fn who_begins_is_drafted_into_the_block_that_stands() {
    let journal = Journal::new()
        .file("ilse/lifter.yaml", "name: Ilse\n")
        .file("ilse/1.md", "# Block 1\n\n- starts: 2026-11-02\n\n## 2026-11-03 day 1\n\n- Back squat: 3x5 @ 100 kg\n")
        .file("wren/lifter.yaml", "name: Wren\n")
        .file("wren/1.md", "# Block first steps\n\n- starts: 2026-11-30\n- weeks: 4\n");
    let text = page(&journal, &["draft", "block", "--like", "ilse", "--lifter", "wren"]);
    assert_eq!(
        text,
        "## 2026-12-01 day 1\n\n> Made like block 1 of Ilse, with efforts and no loads.\n\
         > Begin light: the first sessions show which load has the effort.\n\n- Back squat:\n  - plan: 3x5 RPE 6-7\n"
    );
}

/// Who was elsewhere twice running trains there; who was there once was travelling.
#[test]
fn a_drafted_session_is_where_the_last_two_of_its_label_were() {
    let draft = |barn: [bool; 2]| page(&journal(barn, ""), &["draft", "week", "--on", "2026-11-08"]);
    let there = draft([true, true]);
    let session = "loose day\n\ngym: barn\n\n- Bench press:\n  - plan: 3x5 @ 70 kg";
    assert!(there.contains(session) && there.matches("gym:").count() == 1, "loads that hang there: {there}");
    for barn in [[true, false], [false, true], [false, false]] {
        let home = draft(barn);
        assert!(!home.contains("gym:") && home.contains("3x5 @ 7"), "{barn:?}: {home}");
    }
    let answer = journal([true, true], "").json(&["draft", "week", "--on", "2026-11-08"]);
    assert_eq!(answer["sessions"][0]["gym"], json!("barn"));
}

#[test]
fn a_week_drafted_for_another_gym_says_so_in_each_session() {
    let out = page(&journal([false; 2], ""), &["draft", "week", "--gym", "BARN", "--on", "2026-11-08"]);
    assert_eq!(out.matches("\ngym: barn\n").count(), out.matches("## ").count(), "{out}");
    let loads: Vec<&str> = out.split(" @ ").skip(1).map(|rest| rest.split(" kg").next().unwrap()).collect();
    assert!(loads.iter().all(|load| load.contains('%') || load.ends_with('0')), "{loads:?}");
}

/// Its own heading says how long it is and which week is light; the days behind it go where the last ones were.
#[test]
fn every_week_of_a_block_whose_heading_stands_is_drafted_and_later_filled() {
    let journal = journal([true, true], STANDS);
    let session = |date: &str, day: &str, works: &[(&str, &str)]| {
        let gym = if day == "loose day" { "gym: barn\n\n" } else { "" };
        let works: String = works.iter().map(|(lift, plan)| format!("- {lift}:\n  - plan: {plan}\n")).collect();
        format!("## {date} {day}\n\n{gym}{works}")
    };
    let expected = [
        session("2026-11-23", "day 1", &[("Back squat", "3x5 @ 100 kg RPE 6-7"), ("Deadlift", "2x3 @ 80%")]),
        session("2026-11-28", "loose day", &[("Bench press", "3x5 @ 70 kg RPE 5-6")]),
        session("2026-11-30", "day 1", &[("Back squat", "3x5 RPE 8-9"), ("Deadlift", "2x3 @ 80%")]),
        session("2026-12-05", "loose day", &[("Bench press", "3x5 RPE 8-9")]),
        session("2026-12-07", "day 1", &[("Back squat", "2x3 RPE 4-6"), ("Deadlift", "1x3 @ 72%")]),
        session("2026-12-12", "loose day", &[("Bench press", "2x3 RPE 4-6")]),
    ]
    .join("\n");
    let arguments = ["draft", "block", "--whole", "--on", "2026-11-22"];
    assert_eq!(page(&journal, &arguments), expected);
    journal.run(&[&arguments[..], &["--write"]].concat());
    let path = journal.root().join("block 2.md");
    assert_eq!(std::fs::read_to_string(&path).unwrap(), expected);
    let done = expected.replacen("squat:\n", "squat: as planned RPE 7\n", 1).replacen(
        "press:\n",
        "press: as planned RPE 6\n",
        1,
    );
    std::fs::write(&path, &done).unwrap();
    journal.run(&["draft", "week", "--write", "--on", "2026-11-29"]);
    // The barn's plates make 70 kg and then 80, of which no week's plan has the effort.
    let filled =
        done.replacen("3x5 RPE 8-9", "3x5 @ 102.5 kg RPE 8-9", 1).replacen("3x5 RPE 8-9", "3x5 @ 70 kg RPE 8-9", 1);
    assert_eq!(std::fs::read_to_string(&path).unwrap(), filled);
}

/// A block of a month ago; `then` is what the block that holds the day after the pause has in it.
fn after_a_pause(then: &str) -> Journal {
    let block = |name: &str, starts: &str| format!("# Block {name}\n\n- starts: {starts}\n- weeks: 4\n");
    let done = "- max: Deadlift 200 kg\n\n## 2026-01-05 day A\n\n- Back squat: 3x5 @ 100 kg RPE 7\n- Deadlift: 3x5 @ 75% RPE 7\n\n";
    Journal::new().page(&(block("1", "2026-01-05") + done + &block("2", "2026-03-02") + then))
}

const AWAY: &str = "> Last trained 8 weeks ago, on Mon 5 Jan 2026: loads from before that are a guess. Build up again, and let the \
                    first sets tell.\n";

#[test]
fn a_block_in_which_nothing_was_trained_is_the_one_to_be_drafted() {
    let planned = after_a_pause("\n## 2026-03-04 day A\n\n- Back squat:\n  - plan: 3x5 RPE 7\n");
    let arguments = ["draft", "block", "--on", "2026-03-02"];
    let text = page(&planned, &arguments);
    assert!(text.starts_with(&format!("## 2026-03-02 day A\n\n{AWAY}")), "{text}");
    let out = planned.run(&[&arguments[..], &["--write"]].concat());
    assert!(out.contains("2026-03-04 has a session already, page.md:") && out.ends_with("--- exit 2\n"), "{out}");
}

#[test]
fn a_week_of_a_block_that_has_begun_gets_its_loads_from_the_last_one() {
    let journal = after_a_pause("\n## 2026-03-04 day A\n\n- Back squat:\n  - plan: 3x5 RPE 7\n");
    let out = journal.run(&["draft", "week", "--on", "2026-03-02"]);
    assert!(out.contains("+  - plan: 3x5 @ 90 kg RPE 7\n"), "{out}");
    assert!(out.contains("block 2 week 1, loads from block 1 week 1\nLast trained 8 weeks ago, "), "{out}");
    let bare = after_a_pause("").run(&["draft", "week", "--on", "2026-03-02"]);
    assert_eq!(
        bare,
        "--- stderr\nloadline: nothing of block 2 is done or planned yet; for its first week type `loadline --journal <journal> \
         draft block --write`\n--- exit 2\n"
    );
}

/// The block was over on 1 February. Nine weeks later its maximum is not what it was, so its share is less.
#[test]
fn a_block_begins_on_no_day_that_is_past() {
    let journal = Journal::new().page(
        "# Block 1\n\n- starts: 2026-01-05\n- weeks: 4\n- max: Deadlift 200 kg\n\n## 2026-01-06\n\n\
         - Deadlift: 3x5 @ 75% RPE 8\n",
    );
    let starts =
        |on: &str| page(&journal, &["draft", "block", "--on", on]).lines().nth(2).unwrap_or_default().to_owned();
    assert_eq!(starts("2026-01-12"), "- starts: 2026-02-02");
    assert_eq!(starts("2026-03-09"), "- starts: 2026-03-09");
    assert_eq!(starts("2026-03-10"), "- starts: 2026-03-16");
    let share = |on: &str| {
        let text = page(&journal, &["draft", "block", "--on", on]);
        text.split(" @ ").nth(1).and_then(|rest| rest.split('%').next()?.parse::<u32>().ok()).unwrap()
    };
    assert_eq!(share("2026-01-12"), 75);
    assert!((60..75).contains(&share("2026-03-10")), "{}", share("2026-03-10"));
    let out = journal.run(&["draft", "block", "--on", "2026-03-09", "--starts", "2026-02-02"]);
    assert!(out.contains("the first week of a block that starts on 2026-02-02 is past"), "{out}");
    // Of a week that has begun the days that are left.
    let begun = page(&journal, &["draft", "block", "--on", "2026-03-11", "--starts", "2026-03-10"]);
    assert!(begun.contains("## 2026-03-11\n"), "{begun}");
}
