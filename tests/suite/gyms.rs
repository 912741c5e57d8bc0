//! Sessions that are elsewhere than usual: what they hang is read by the gear there, typed in the notation or in haste.

use crate::support::journal::Journal;

const SETTINGS: &str = "gear:\n  bars: { bar: 20 kg }\n  plates: [ { mass: 25 kg, colour: blue }, { mass: 10 kg } ]\n\
    gyms:\n  barn: { bars: { bar: 15 kg, axle: 30 kg }, plates: [ { mass: 20 kg, colour: blue }, { mass: 10 kg } ] }\n";

/// The kilograms of each set of a page, in its order.
fn kilograms(page: &str) -> Vec<f64> {
    let journal = Journal::new().file("journal.yaml", SETTINGS).page(page);
    let answer = journal.json(&["export"]);
    let rows = answer["rows"].as_array().unwrap().iter().filter(|row| row["kind"] == "work");
    rows.map(|row| row["kg"].as_f64().unwrap()).collect()
}

/// The masses are added up by hand: a bar and two of each plate.
#[test]
fn loose_lines_hang_what_is_there() {
    let lines = [
        ("- Bench press: 5 @ bar + 20/side", 60.0, 55.0),
        ("bench press bar + 20/side x5", 60.0, 55.0),
        ("bench: 5 @ bar+20/side @8", 60.0, 55.0),
        ("bench press 5 @ bar + blue/side", 70.0, 55.0),
    ];
    for (line, usual, barn) in lines {
        for (page, expected) in [
            (format!("## 2026-11-02\n\n{line}\n"), usual),
            (format!("## 2026-11-02\n\ngym: barn\n\n{line}\n"), barn),
            // The fact may stand below the work that it has a say in.
            (format!("## 2026-11-02\n\n{line}\n\ngym: barn\n"), barn),
            // It is of one session and of no other.
            (format!("## 2026-11-01\n\ngym: barn\n\n## 2026-11-02\n\n{line}\n"), usual),
        ] {
            assert_eq!(kilograms(&page), [expected], "{page}");
        }
    }
}

#[test]
fn tidying_a_loose_line_elsewhere_changes_nothing_of_what_hung_there() {
    let page = "## 2026-11-02\n\ngym: barn\n\nbench press bar + 20/side 3x5\nbench: 5 @ bar+blue/side @8\n";
    let journal = Journal::new().file("journal.yaml", SETTINGS).page(page);
    let before = journal.json(&["volume", "--by", "lift"])["rows"].clone();
    let out = journal.run(&["tidy", "--write"]);
    assert!(!out.contains("--- exit"), "{out}");
    let text = std::fs::read_to_string(journal.root().join("page.md")).unwrap();
    assert!(text.contains("- Bench press: 3x5 @ bar + 20/side\n- Bench press: 5 @ bar + blue/side RPE 8\n"), "{text}");
    // The bar of 15 kg and two plates of 20 kg: 15 reps and 5.
    let after = journal.json(&["volume", "--by", "lift"])["rows"].clone();
    assert_eq!((&before, before[0]["tonnage_kg"].as_f64()), (&after, Some(20.0 * 55.0)));
}

#[test]
fn a_bar_that_only_stands_elsewhere_is_known_there_and_not_at_home() {
    assert_eq!(kilograms("## 2026-11-02\n\ngym: barn\n\n- Bench press: 5 @ axle + 10/side\n"), [50.0]);
    let journal =
        Journal::new().file("journal.yaml", SETTINGS).page("## 2026-11-02\n\n- Bench press: 5 @ axle + 10/side\n");
    let out = journal.run(&["check"]);
    assert!(out.contains("axle") && out.contains("--- exit 1"), "{out}");
}
