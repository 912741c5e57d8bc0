//! One question asked of several lifters: `--all-lifters`, and `--lifter` given more than once.

use crate::support::journal::Journal;
use serde_json::{Value, json};

const BLOCKS: &str = "# Block 1\n- starts: 2026-10-26\n- weeks: 4\n\n# Block 2\n- starts: 2026-11-23\n- weeks: 4\n\n";

/// Berit is over her plan on one lift and short of it on the other; Aske has done his only one; Runa has not begun.
fn journal() -> Journal {
    let berit = "## 2026-10-26\n- Back squat: 3x5 @ 100 kg\n- Bench press: 3x5 @ 65 kg\n\n## 2026-11-23\n- Back squat: 3x5 @ 105 \
                 kg RPE 9\n  - plan: 3x5 @ 105 kg RPE 7\n- Bench press: 3x5 @ 60 kg\n  - plan: 3x5 @ 65 kg\n";
    let aske = "# Block off\n- starts: 2026-11-23\n\n## 2026-11-24\n- Deadlift: as planned\n  - plan: 5 @ 180 kg\n";
    Journal::new()
        .file("aske/lifter.yaml", "name: Aske\n")
        .file("aske/a.md", aske)
        .file("berit/lifter.yaml", "name: Berit\n")
        .file("berit/a.md", format!("{BLOCKS}{berit}"))
        .file("runa/lifter.yaml", "name: Runa\n")
}

#[test]
fn a_review_of_everybody_has_a_section_a_lifter_and_its_advice_once() {
    assert_eq!(
        journal().run(&["review", "--all-lifters"]),
        "Aske: block off as of Wed 25 Nov 2026: nothing to caution about

Berit: block 2 as of Wed 25 Nov 2026: 1 caution

2026-11-23  over-plan
  Back squat: 2 points of RPE over the plan
  berit/a.md:14

Runa: no block has begun, so there is nothing to look at

a caution is advice, and the coach decides; `review --explain NAME` gives its
reason and source, --all tells in whole what is still so
"
    );
}

#[test]
fn adherence_of_everybody_is_how_much_was_done_and_why_not_all() {
    assert_eq!(
        journal().run(&["adherence", "--all-lifters"]),
        "Aske: 1 of 1 planned set as planned or better
block off so far

Berit: 3 of 6 planned sets as planned or better
  3  lighter  Bench press 3
block 2 so far
effort: 1 over by 2

Runa: No planned set in that range
all that is planned up to today

--lifter NAME lists what was off plan, --all every line
"
    );
}

#[test]
fn match_of_everybody_names_what_is_behind() {
    assert_eq!(
        journal().run(&["match", "--all-lifters"]),
        "Aske: 1 new
block off week 1; no block before it

Berit: 1 ahead, 1 behind
block 2 week 1 against block 1
behind: Bench press -5 kg

Runa
No block is written yet, so there is no week to match
A block is a heading `# Block 1` with a list under it that says `- starts:
YYYY-MM-DD`.

--lifter NAME lays each lift beside its last block, --places those of everybody
"
    );
    // A lift, a plot or the places are what each lifter alone is shown.
    let whole = journal().run(&["match", "--all-lifters", "--places"]);
    let alone = journal().run(&["match", "--places", "--lifter", "berit"]);
    assert!(whole.contains(&format!("Berit\n{alone}")), "{whole}\n{alone}");
}

#[test]
fn the_json_of_everybody_is_a_list_of_what_each_one_alone_is_answered() {
    let journal = journal();
    let asked = [&["review"][..], &["adherence", "--by", "lift"], &["match", "--plot"], &["facts"], &["draft", "week"]];
    for words in asked {
        let all = journal.json(&[words, &["--all-lifters"]].concat());
        let named: Vec<Value> = all.as_array().unwrap().iter().map(|one| one["lifter"].clone()).collect();
        // Runa has no block to draft from, and is named on standard error.
        let drafted = [json!("Aske"), json!("Berit")];
        assert!(named[..2] == drafted && (named.len() == 3) != (words[0] == "draft"), "{words:?}: {named:?}");
        for one in all.as_array().unwrap() {
            let name = one["lifter"].as_str().unwrap();
            assert_eq!(*one, journal.json(&[words, &["--lifter", name]].concat()), "{words:?}");
        }
    }
}

#[test]
fn several_who_are_named_are_answered_as_everybody_is() {
    let journal = journal();
    let two = journal.json(&["review", "--lifter", "runa", "--lifter", "Berit"]);
    let named: Vec<&str> = two.as_array().unwrap().iter().map(|one| one["lifter"].as_str().unwrap()).collect();
    assert_eq!(named, ["Berit", "Runa"], "in order of their folders");
    let text = journal.run(&["best", "Back squat", "--lifter", "runa", "--lifter", "berit"]);
    assert_eq!(
        text,
        "--- stderr\nloadline: this answers for one lifter, so name one with --lifter; `roster`, `review`, `adherence`, \
         `match`, `facts` and `draft` take several\n--- exit 2\n"
    );
    let text = journal.run(&["match", "--all-lifters", "--lifter", "berit"]);
    assert_eq!(text, "--- stderr\nloadline: --all-lifters is everybody; leave it out, or --lifter\n--- exit 2\n");
}

#[test]
fn who_cannot_be_answered_is_named_and_the_others_are_answered() {
    let journal = journal();
    let text = journal.run(&["adherence", "--all-lifters", "--block", "2"]);
    assert!(text.starts_with("Berit: 3 of 6 planned sets") && !text.contains("--- exit"), "{text}");
    assert!(text.contains("loadline: Aske: no block is called `2`; there is off\n"), "{text}");
    let text = journal.run(&["adherence", "--all-lifters", "--block", "7"]);
    assert_eq!(text, "--- stderr\nloadline: Aske: no block is called `7`; there is off\n--- exit 2\n");
}

#[test]
fn a_strict_review_of_everybody_fails_where_one_is_cautioned_about() {
    assert!(journal().run(&["review", "--all-lifters", "--strict"]).ends_with("--- exit 1\n"));
    let two = journal().run(&["review", "--lifter", "aske", "--lifter", "runa", "--strict"]);
    assert!(!two.contains("--- exit"), "{two}");
}

#[test]
fn a_gym_that_one_lifter_has_is_used_there_and_one_that_nobody_has_is_an_error() {
    let lifter = "name: Berit\ngyms:\n  hotel: { plates: [ { mass: 10 kg } ] }\n";
    let journal = journal().file("berit/lifter.yaml", lifter);
    let text = journal.run(&["match", "--all-lifters", "--gym", "hotel"]);
    // The hotel's smallest step is 20 kg, so that 5 kg less is the same load.
    assert!(text.contains("Berit: 2 level\n") && !text.contains("--- exit"), "{text}");
    let text = journal.run(&["match", "--all-lifters", "--gym", "beach"]);
    assert!(text.contains("no gym is called `beach`") && text.ends_with("--- exit 2\n"), "{text}");
}

#[test]
fn a_roster_shows_those_who_are_named_who_are_in_a_block_or_who_need_the_coach() {
    let journal = journal();
    let names = |words: &[&str]| {
        let answer = journal.json(&[&["roster", "--sort", "name"], words].concat());
        let lines = answer["lifters"].as_array().unwrap().iter();
        lines.map(|line| line["name"].as_str().unwrap().to_owned()).collect::<Vec<_>>()
    };
    assert_eq!(names(&["--lifter", "runa", "--lifter", "berit"]), ["Berit", "Runa"]);
    assert_eq!(names(&["--block", "2"]), ["Berit"]);
    assert_eq!(names(&["--block", "Block OFF"]), ["Aske"]);
    assert_eq!(names(&["--attention"]), ["Berit"]);
    assert_eq!(names(&["--attention", "--block", "off"]), [""; 0]);
    assert_eq!(
        journal.run(&["roster", "--block", "7"]),
        "none of 3 lifters is in that block; they are in 2 and off\n",
        "Runa is in none"
    );
    // Aske is in that block, and needs nobody.
    assert_eq!(journal.run(&["roster", "--block", "off", "--attention"]), "none of 3 lifters fits\n");
    assert_eq!(journal.run(&["roster", "--block", "7", "--lifter", "runa"]), "none of 1 lifter fits\n");
}

#[test]
fn facts_of_everybody_are_how_each_one_is_and_the_last_day_of_each_pain() {
    let said = "# Block 2\n- starts: 2026-11-16\n\n## 2026-11-18\n- bodyweight: 82 kg\n- pain: left knee 4/10\n- Dip: 3x8\n\n\
                ## 2026-11-23\n- bodyweight: 81.5 kg\n- sleep: 7:30\n- pain: Left knee 3/10\n- Dip: 3x8\n";
    let pounds = "name: Runa\nunits: lb\n";
    let journal = journal()
        .file("berit/a.md", said)
        .file("runa/lifter.yaml", pounds)
        .file("runa/r.md", "## 2026-11-24\n- bodyweight: 150 lb\n- Dip: 3x8\n");
    let text = journal.run(&["facts", "--all-lifters"]);
    assert_eq!(
        text,
        "Aske: nothing is written of bodyweight, sleep, duration or pain

Berit: bodyweight 81.5 kg, 0.5 kg down since 18 Nov; sleep 7:30 a night; pain on
  2 days
Left knee 3/10 on 23 Nov, the last of 2 days

Runa: bodyweight 150 lb

--lifter NAME lists the latest sessions, --all every one of everybody
"
    );
    // In whole, each one is shown what that lifter alone is shown.
    for words in [&["--all"][..], &["--plot"]] {
        let whole = journal.run(&[&["facts", "--all-lifters"], words].concat());
        for (name, folder) in [("Berit", "berit"), ("Runa", "runa")] {
            let alone = journal.run(&[&["facts", "--lifter", folder], words].concat());
            assert!(whole.contains(&format!("{name}\n{alone}")), "{whole}\n{alone}");
        }
    }
    assert!(journal.run(&["facts", "--lifter", "runa", "--lifter", "aske"]).starts_with("Aske: "));
}
