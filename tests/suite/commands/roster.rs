//! `roster`, on a journal of three lifters small enough to count by hand.

use crate::support::journal::Journal;
use serde_json::{Value, json};

const BLOCKS: &str = "# Block 1\n- starts: 2026-10-26\n- weeks: 4\n\n# Block 2\n- starts: 2026-11-23\n- weeks: 4\n\n";

/// Berit is ahead on one lift of two and has done three of six planned sets; Aske is behind on his only one, and has a
/// meet in three weeks; Runa has not begun.
fn journal() -> Journal {
    let berit = "## 2026-10-26\n- Back squat: 3x5 @ 100 kg\n- Bench press: 3x5 @ 60 kg\n\n## 2026-11-23\n- Back squat: 3x5 @ 105 \
                 kg RPE 9\n  - plan: 3x5 @ 105 kg RPE 7\n- Bench press: 3x5 @ 60 kg\n  - plan: 3x5 @ 65 kg\n";
    let aske = "## 2026-10-26\n- Deadlift: 5 @ 200 kg\n\n## 2026-11-24\n- Deadlift: 5 @ 180 kg\n\n## 2026-12-19 meet Tidewater\n";
    Journal::new()
        .file("berit/lifter.yaml", "name: Berit\n")
        .file("berit/a.md", format!("{BLOCKS}{berit}"))
        .file("aske/lifter.yaml", "name: Aske\n")
        .file("aske/a.md", format!("{BLOCKS}{aske}"))
        .file("runa/lifter.yaml", "name: Runa\n")
}

#[test]
fn a_lifter_has_one_line() {
    let answer = journal().json(&["roster", "--sort", "name"]);
    let lifters = answer["lifters"].as_array().unwrap();
    let of = |field: &str| lifters.iter().map(|line| line[field].clone()).collect::<Vec<Value>>();
    assert_eq!(of("name"), [json!("Aske"), json!("Berit"), json!("Runa")]);
    assert_eq!(of("block"), [json!("2"), json!("2"), Value::Null]);
    assert_eq!(of("days_since"), [json!(1), json!(2), Value::Null]);
    assert_eq!(
        (of("ahead"), of("level"), of("behind")),
        (vec![json!(0), json!(1), json!(0)], vec![json!(0), json!(1), json!(0)], vec![json!(1), json!(0), json!(0)])
    );
    assert_eq!(
        (of("sets_planned"), of("sets_reached")),
        (vec![json!(0), json!(6), json!(0)], vec![json!(0), json!(3), json!(0)])
    );
    assert_eq!(of("over_plan"), [json!(0), json!(1), json!(0)]);
    assert_eq!(lifters[0]["next_meet"], json!({"title": "Tidewater", "date": "2026-12-19", "weeks": 3}));
    assert_eq!(lifters[1]["next_meet"], Value::Null);
}

#[test]
fn lines_are_put_in_the_order_asked_for() {
    let names = |by: &str| {
        let answer = journal().json(&["roster", "--sort", by]);
        answer["lifters"]
            .as_array()
            .unwrap()
            .iter()
            .map(|line| line["name"].as_str().unwrap().to_owned())
            .collect::<Vec<_>>()
    };
    // Berit has two things to look at: an effort over plan and its caution; Aske a lift behind.
    assert_eq!(names("need"), ["Berit", "Aske", "Runa"]);
    assert_eq!(names("behind"), ["Aske", "Berit", "Runa"]);
    assert_eq!(names("since"), ["Runa", "Berit", "Aske"]);
    assert_eq!(names("done"), ["Berit", "Aske", "Runa"]);
    assert_eq!(names("over"), ["Berit", "Aske", "Runa"]);
    assert_eq!(names("meet"), ["Aske", "Berit", "Runa"]);
}

/// What was planned outside every block is of no week.
#[test]
fn without_a_week_no_set_is_planned() {
    let page = "## 2026-11-24\n- Back squat: 3x5 @ 105 kg RPE 9\n  - plan: 3x5 @ 105 kg RPE 7\n";
    let answer = Journal::new().page(page).json(&["roster"]);
    let line = &answer["lifters"][0];
    assert_eq!((&line["block"], &line["week"], &line["days_since"]), (&Value::Null, &Value::Null, &json!(1)));
    assert_eq!((&line["sets_planned"], &line["sets_reached"], &line["over_plan"]), (&json!(0), &json!(0), &json!(0)));
}

#[test]
fn capitals_and_small_letters_stand_together() {
    let names = ["Zora", "bo", "Ada", "ada"];
    let files = names.iter().enumerate();
    let journal = files.fold(Journal::new(), |journal, (at, name)| {
        journal.file(&format!("{at}/lifter.yaml"), format!("name: {name}s of {at}\n"))
    });
    let answer = journal.json(&["roster", "--sort", "name"]);
    let found: Vec<&str> =
        answer["lifters"].as_array().unwrap().iter().map(|line| line["name"].as_str().unwrap()).collect();
    assert_eq!(found, ["Adas of 2", "adas of 3", "bos of 1", "Zoras of 0"]);
}

#[test]
fn one_lifter_may_be_asked_for_and_an_unknown_one_is_named() {
    let answer = journal().json(&["roster", "--lifter", "berit"]);
    assert_eq!(answer["lifters"].as_array().unwrap().len(), 1);
    let text = journal().run(&["roster", "--lifter", "brit"]);
    assert!(text.contains("no lifter is called `brit`") && text.ends_with("--- exit 2\n"), "{text}");
}

#[test]
fn what_hurts_as_much_as_keeps_a_lift_out_of_a_draft_is_shown_for_a_week() {
    let journal = Journal::new().page(
        "## 2026-11-20\npain: left knee 6/10\npain: wrist 5/10\npain: back 4/10\n- Dip: 8\n\n## 2026-11-24\npain: wrist 2/10\n- Dip: 8\n",
    );
    let line = journal.json(&["roster", "--attention"])["lifters"][0].clone();
    assert_eq!(line["pains"], json!([{"site": "left knee", "of_ten": 6, "date": "2026-11-20"}]));
    assert!(journal.run(&["roster"]).contains("left knee 6/10"));
    let later = journal.json(&["roster", "--on", "2026-11-27"])["lifters"][0].clone();
    assert_eq!(later["pains"], json!([]), "a week later");
}

/// What a caution tells of a pain or an effort is not told twice.
#[test]
fn efforts_over_plan_and_pains_are_told_once() {
    let page = |pain: &str, effort: &str| {
        format!(
            "{BLOCKS}## 2026-11-23\npain: knee {pain}/10\n- Back squat: 3x5 @ 105 kg RPE {effort}\n  - plan: 3x5 @ 105 kg RPE 7\n"
        )
    };
    let look = |pain: &str, effort: &str| {
        let out = Journal::new().page(&page(pain, effort)).run_at(150, &["roster"]);
        ["knee", "over plan"].map(|words| out.matches(words).count())
    };
    assert_eq!(look("6", "8"), [1, 1], "neither has a caution");
    assert_eq!(look("8", "9"), [1, 1], "both have");
}
