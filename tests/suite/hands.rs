//! Many hands on one journal: a session written in two places, plans and the work on them, wherever they stand.

use crate::support::journal::Journal;
use serde_json::{Value, json};

const BLOCK: &str = "# Block 1\n\n- starts: 2026-03-02\n\n";
const HEAVY: &str = "## 2026-03-02 heavy day\n\n- Back squat: 3x5 @ 140 kg RPE 8\n- Bench press: 3x5 @ 100 kg RPE 8\n";

/// What some answers say of the training, with nothing of where it stands.
fn told(journal: &Journal) -> Value {
    let on = ["--on", "2026-03-08"];
    let answer = |words: &[&str]| journal.json(&[words, &on].concat());
    let volume = answer(&["volume", "--by", "lift"]);
    let mut adherence = answer(&["adherence"]);
    let total = adherence["sets_planned"].take();
    let best = answer(&["best", "Back squat", "--reps", "5"]);
    json!([volume["rows"], total, adherence["sets_reached"], adherence["sets_done"], best["best"]["sets"]])
}

#[test]
fn a_copied_page_counts_once_and_is_told() {
    let page = format!("{BLOCK}{HEAVY}");
    let once = Journal::new().file("w1.md", &page);
    let copy = page.replace("# Block 1\n\n- starts: 2026-03-02\n\n", "");
    let twice = Journal::new().file("w1.md", &page).file("w1 (conflict copy).md", copy);
    assert_eq!(told(&once), told(&twice));
    let out = twice.run(&["check"]);
    assert!(
        out.contains("error[session-twice]") && out.contains("w1 (conflict copy).md:1") && out.contains("--- exit 1"),
        "{out}"
    );
    assert_eq!(twice.json(&["match", "--on", "2026-03-08"])["left_out"], json!(2));
}

#[test]
fn lines_of_a_copy_that_differ_all_count() {
    let more = HEAVY.replace("3x5 @ 100 kg RPE 8", "2x8 @ 80 kg RPE 8");
    let twice = Journal::new().file("a.md", format!("{BLOCK}{HEAVY}")).file("b.md", more);
    let rows = twice.json(&["volume", "--by", "lift", "--on", "2026-03-08"])["rows"].clone();
    let sets: Vec<_> = rows.as_array().unwrap().iter().map(|row| (row["key"].clone(), row["sets"].clone())).collect();
    assert_eq!(sets, [(json!("Back squat"), json!(3)), (json!("Bench press"), json!(5))]);
}

#[test]
fn two_sessions_of_one_day_stay_two_with_a_time_or_a_label_of_their_own() {
    for (first, second) in [("heavy day", "light day"), ("7:30", "18:00"), ("7:30", "")] {
        let page = format!(
            "{BLOCK}## 2026-03-02 {first}\n\n- Row: 3x8 @ 60 kg\n\n## 2026-03-02 {second}\n\n- Row: 3x8 @ 60 kg\n"
        );
        let rows = Journal::new().page(&page).json(&["volume", "--by", "lift", "--on", "2026-03-08"])["rows"].clone();
        assert_eq!(rows[0]["sets"], json!(6), "{first}, {second}");
    }
}

/// A law: on which lines, pages and days the plan and the work stand changes nothing of what was done of the plan.
#[test]
fn how_plan_and_work_are_spread_changes_nothing_of_what_was_done_of_the_plan() {
    let squat = "  - plan: 3x5 @ 140 kg RPE 8\n";
    let bench = "  - plan: 2x8 @ 80 kg\n";
    let heading = "## 2026-03-02 heavy day\n\n";
    let plans = format!("{heading}- Back squat:\n{squat}- Bench press:\n{bench}");
    let together =
        format!("{BLOCK}{heading}- Back squat: 5,5,4 @ 140 kg RPE 8\n{squat}- Bench press: 2x8 @ 80 kg\n{bench}");
    let work = "- Back squat: 5,5,4 @ 140 kg RPE 8\n- Bench press: 2x8 @ 80 kg\n";
    let split = "- Back squat: 5,5 @ 140 kg RPE 8\n- Bench press: 2x8 @ 80 kg\n- Back squat: 4 @ 140 kg RPE 8\n";
    let expected = told(&Journal::new().page(&together));
    let spread = [
        Journal::new().page(&format!("{BLOCK}{plans}{work}")),
        Journal::new().page(&format!("{BLOCK}{plans}{split}")),
        Journal::new().page(&format!("{BLOCK}{plans}\n{heading}{work}")),
        Journal::new().file("coach.md", format!("{BLOCK}{plans}")).file("log.md", format!("{heading}{work}")),
        Journal::new().file("coach.md", format!("{BLOCK}{plans}")).file("log.md", together.replace(BLOCK, "")),
        Journal::new().file("coach.md", format!("{BLOCK}{plans}")).file("a log.md", format!("{heading}{split}")),
        Journal::new().page(&format!("{BLOCK}{plans}\n## 2026-03-03 heavy day\n\n{work}")),
    ];
    for (nth, journal) in spread.iter().enumerate() {
        assert_eq!(told(journal), expected, "{nth}");
    }
}

#[test]
fn a_plan_that_was_done_a_day_later_says_so() {
    let page = format!(
        "{BLOCK}## 2026-03-04 heavy day\n\n- Back squat:\n  - plan: 3x5 @ 140 kg\n\n## 2026-03-05 heavy day\n\n- Back squat: 3x5 @ 140 kg\n"
    );
    let screen = Journal::new().page(&page).run(&["adherence", "--on", "2026-03-08"]);
    assert!(screen.starts_with("3 of 3 planned sets as planned or better\n"), "{screen}");
    assert!(screen.contains("done late: Thu 5 Mar 2026, heavy day: a day later, 1 planned line"), "{screen}");
    let other_label = page.replace("2026-03-05 heavy", "2026-03-05 light");
    let screen = Journal::new().page(&other_label).run(&["adherence", "--on", "2026-03-08"]);
    assert!(screen.starts_with("0 of 3 planned sets as planned or better\n"), "{screen}");
}

#[test]
fn planned_sessions_that_pass_without_a_word_are_told() {
    let day = |date: &str, line: &str| format!("## {date}\n\n- Back squat: {line}\n  - plan: 3x5 @ 140 kg\n\n");
    let page = |monday: &str, wednesday: &str| {
        format!("{BLOCK}{}{}{}", day("2026-03-02", monday), day("2026-03-04", wednesday), day("2026-03-07", ""))
    };
    let cautions = |page: String, on: &str| {
        let answer = Journal::new().page(&page).json(&["review", "--on", on]);
        let named = answer["cautions"].as_array().unwrap().iter().filter(|caution| caution["name"] == "no-word");
        named.map(|caution| caution["message"].as_str().unwrap().to_owned()).collect::<Vec<_>>()
    };
    let said = "2 sessions planned since Mon 2 Mar 2026 have passed without a word";
    assert_eq!(cautions(page("", ""), "2026-03-06"), [said]);
    assert_eq!(cautions(page("3x5 @ 140 kg", ""), "2026-03-06"), [""; 0], "one is not enough");
    assert_eq!(cautions(page("", "skipped (flu)"), "2026-03-06"), [""; 0], "skipped is a word");
    assert_eq!(cautions(page("", ""), "2026-03-04"), [""; 0], "today is not over");
}

#[test]
fn who_has_done_nothing_this_week_shows_it_in_the_roster() {
    let page = format!(
        "{BLOCK}## 2026-03-02\n\n- Back squat: as planned\n  - plan: 3x5 @ 140 kg\n\n## 2026-03-09\n\n- Back squat:\n  - plan: 3x5 @ 140 kg\n"
    );
    let line = Journal::new().page(&page).json(&["roster", "--on", "2026-03-11"])["lifters"][0].clone();
    assert_eq!((&line["week"], &line["sets_planned"], &line["sets_reached"]), (&json!(2), &json!(3), &json!(0)));
}

#[test]
fn a_page_named_as_a_copy_is_told_with_what_settles_it() {
    for copy in ["w1 (2).md", "w1 copy.md", "w1 - Copy.md", "w1 (conflicted copy 2026-03-05).md", "w1.conflict-2026.md"]
    {
        let page = format!("{BLOCK}{HEAVY}");
        let journal = Journal::new().file("w1.md", &page).file(copy, "A page of notes.\n");
        let out = journal.run(&["check"]);
        let told = out.contains("warning[copied-page]") && out.contains("\"w1.md\"") && out.contains("loadline merge");
        assert!(told && !out.contains("--- exit"), "{copy}: {out}");
    }
    let alone = Journal::new().file("squat notes (2).md", HEAVY).run(&["check"]);
    assert!(!alone.contains("copied-page"), "{alone}");
}

#[test]
fn the_folder_of_that_very_name_is_meant_before_a_lifter_of_the_name() {
    let lifter = |folder: &str, name: &str| (format!("{folder}/lifter.yaml"), format!("name: {name}\n"));
    let journal = |lifters: [(String, String); 2]| {
        let page = "## 2026-03-02\n\n- Row: 8 @ 60 kg\n";
        lifters.into_iter().fold(Journal::new(), |journal, (path, text)| {
            let page_path = path.replace("lifter.yaml", "w1.md");
            journal.file(&path, text).file(&page_path, page)
        })
    };
    let by_folder = journal([lifter("squad/edda", "Berit"), lifter("edda", "Edda the elder")]);
    assert_eq!(by_folder.json(&["lifts", "--lifter", "edda"])["lifter"], json!("Edda the elder"));
    let both = journal([lifter("north", "Edda"), lifter("south", "edda")]);
    assert_eq!(
        both.run(&["lifts", "--lifter", "Edda"]),
        "--- stderr\nloadline: `Edda` could be several lifters; name the folder: north or south\n--- exit 2\n"
    );
}

#[test]
fn gear_of_a_lifter_wins_over_the_journals() {
    let gear = "gear:\n  bars: { bar: 15 kg }\n";
    let journal = Journal::new()
        .file("journal.yaml", "gear:\n  bars: { bar: 20 kg }\n  collars: 1 kg\n")
        .file("mila/lifter.yaml", gear)
        .file("mila/w1.md", "## 2026-03-02\n\n- Bench press: 5 @ bar + 10/side\n");
    let best = journal.json(&["best", "Bench press", "--reps", "5"]);
    assert_eq!(best["best"]["load"]["kg"], json!(36), "a bar of 15, twice 10, and the journal's collars");
}

#[test]
fn lifts_of_no_family_are_listed_once_with_those_they_could_be() {
    let page = "## 2026-03-02\n\n- Benchpres: 3x5 @ 100 kg\n\n## 2026-03-04\n\n- Benchpres: 3x5 @ 100 kg\n- Log toss: 3x5 @ 20 kg\n";
    let answer = Journal::new().page(page).json(&["check"]);
    let lifts = answer["lifts_without_family"].clone();
    assert_eq!(
        (&lifts[0]["lift"], &lifts[0]["lines"], &lifts[0]["near"][0]),
        (&json!("Benchpres"), &json!(2), &json!("Bench press"))
    );
    assert_eq!((&lifts[1]["lift"], &lifts[1]["lines"]), (&json!("Log toss"), &json!(1)));
}
