//! `class:` in `lifter.yaml`, and how far the last bodyweight is from it.

use crate::support::journal::Journal;
use serde_json::{Value, json};

const PAGE: &str = "## 2026-11-02\n\nbodyweight: 76 kg\n\n- Dip: 8\n\n## 2026-11-23\n\nbodyweight: 75.3 kg\n\n- Dip: 8\n\n\
                    ## 2026-11-30\n\nbodyweight: 70 kg\n\n## 2026-12-12 meet Tidewater\n";

fn of(lifter: &str) -> Journal {
    Journal::new().file("lifter.yaml", lifter).page(PAGE)
}

#[test]
fn a_class_is_written_in_every_usual_way() {
    for (written, class, limit, open) in [
        ("74 kg", "74 kg", json!(74), false),
        ("74", "74 kg", json!(74), false),
        ("-74", "74 kg", json!(74), false),
        ("-74 kg", "74 kg", json!(74), false),
        ("\"-74\"", "74 kg", json!(74), false),
        ("67.5 kg", "67.5 kg", json!(67.5), false),
        ("120+ kg", "120+ kg", json!(120), true),
        ("120+", "120+ kg", json!(120), true),
        ("120 kg+", "120+ kg", json!(120), true),
        ("+120", "120+ kg", json!(120), true),
        ("\"+120 kg\"", "120+ kg", json!(120), true),
        ("165 lb", "165 lb", json!(74.84), false),
        ("275+lb", "275+ lb", json!(124.74), true),
    ] {
        let journal = of(&format!("name: Ilse\nclass: {written} # hers\n"));
        let told = journal.json(&["facts"])["weight_class"].clone();
        assert_eq!(
            (&told["class"], &told["limit_kg"], &told["open"]),
            (&json!(class), &limit, &json!(open)),
            "{written}"
        );
        assert!(journal.run(&["check"]).contains("every line is understood"), "{written}");
    }
    let pounds = of("units: lb\nclass: 165\n").json(&["facts"])["weight_class"].clone();
    assert_eq!(pounds["class"], json!("165 lb"), "a number is of the lifter's unit");
}

#[test]
fn what_is_no_class_is_told_as_other_settings_are() {
    for written in ["heavy", "0", "700 kg", "-74+", "[74]", "74 stone", "true"] {
        let out = of(&format!("class: {written}\n")).run(&["check"]);
        let wanted = "`class:` takes a weight class from 20 to 250 kg, such as 74 kg, 165 lb or 120+ kg";
        assert!(out.contains("lifter.yaml:1:8: error") && out.contains(wanted), "{written}: {out}");
        assert_eq!(of(&format!("class: {written}\n")).json(&["facts"])["weight_class"], Value::Null);
    }
}

#[test]
fn the_distance_is_of_the_last_bodyweight_up_to_today() {
    let told = |class: &str| of(&format!("class: {class}\n")).json(&["roster"])["lifters"][0]["weight_class"].clone();
    let seventy_four = told("74 kg");
    assert_eq!(
        (&seventy_four["bodyweight"], &seventy_four["over_kg"]),
        (&json!({"kg": 75.3, "date": "2026-11-23"}), &json!(1.3))
    );
    assert_eq!(told("83 kg")["over_kg"], json!(-7.7));
    assert_eq!(Journal::new().page(PAGE).json(&["roster"])["lifters"][0]["weight_class"], Value::Null);
}

/// Changing weight for a class can hurt; the caution stands wherever the distance does.
#[test]
fn roster_facts_and_meet_say_the_distance_and_to_ask_coach_and_physician() {
    for (class, words) in [
        ("74 kg", "1.3 kg over the 74 kg class"),
        ("83 kg", "7.7 kg under the 83 kg class"),
        ("75.3 kg", "on the limit of the 75.3 kg class"),
        ("60+ kg", "in the 60+ kg class"),
        ("84+ kg", "8.7 kg under the 84+ kg class"),
        ("165 lb", "1.01 lb over the 165 lb class"),
    ] {
        let journal = of(&format!("class: {class}\n"));
        for command in ["roster", "facts", "meet"] {
            let out = journal.run_at(150, &[command]);
            let caution = "whether and how to change weight for a class is for coach and physician to decide";
            assert!(out.contains(words) && out.contains(caution), "{command}: {out}");
        }
    }
    let done = of("class: 74 kg\n").json(&["meet", "--on", "2026-12-13"]);
    assert_eq!(done["meet"]["weight_class"], Value::Null, "it is over");
}

#[test]
fn without_a_bodyweight_facts_say_how_to_write_one() {
    let journal =
        Journal::new().file("lifter.yaml", "class: 74 kg\n").page("## 2026-11-23\n\nsleep: 7 h\n\n- Dip: 8\n");
    let out = journal.run(&["facts"]);
    assert!(out.contains("74 kg class: `bodyweight: 82 kg` under a session's heading says how far it is"), "{out}");
    let out = journal.run(&["roster"]);
    assert!(!out.contains("class"), "{out}");
}
