//! The example journal's twin in pounds: no screen has a kilogram where a pound is due, nor a load that nobody loads.

use crate::support::journal::{Journal, example};
use std::fs;

const SETTINGS: &str = "units: lb\ngear: { bars: { bar: 45 lb, pound bar: 45 lb, trap bar: 55 lb, belt squat: 0 lb } }\n\
    lifts:\n  - { name: Belt squat, family: squat }\n  - { name: Rope drag, family: carry }\n";

/// Each mass of a page in pounds, to the nearest five; coloured plates as pound plates.
fn in_pounds(page: &str) -> String {
    let plates = [("red", "45"), ("blue", "35"), ("green", "25"), ("white", "10")];
    let mut words: Vec<String> = page.split(' ').map(str::to_owned).collect();
    for at in 1..words.len() {
        let (number, word) = (words[at - 1].clone(), words[at].clone());
        if let (Some(rest), Some((kilos, before))) = (word.strip_prefix("kg"), number_at_end(&number)) {
            words[at] = format!("lb{rest}");
            words[at - 1] = format!("{before}{}", (kilos * 2.2046 / 5.0).round() * 5.0);
        }
        for (colour, pounds) in plates {
            if let Some(rest) = word.strip_prefix(colour).filter(|rest| rest.starts_with("/side")) {
                words[at] = format!("lb{rest}");
                words[at - 1] = format!("{number}x{pounds}");
            }
        }
    }
    words.join(" ")
}

fn number_at_end(word: &str) -> Option<(f64, &str)> {
    let before = word.trim_end_matches(|c: char| c.is_ascii_digit() || c == '.');
    Some((word[before.len()..].parse().ok()?, before))
}

fn journal() -> Journal {
    let mut journal = Journal::new().file("journal.yaml", SETTINGS);
    for entry in fs::read_dir(example()).expect("the example").flatten() {
        let name = entry.file_name().into_string().expect("a name");
        if name.ends_with(".md") && name != "README.md" {
            journal = journal.file(&name, in_pounds(&fs::read_to_string(entry.path()).expect("a page")));
        }
    }
    journal
}

const SCREENS: [&[&str]; 25] = [
    &["check"],
    &["session"],
    &["session", "--next"],
    &["match"],
    &["adherence"],
    &["history", "Back squat"],
    &["history", "Pull-up"],
    &["best", "Back squat"],
    &["best", "Deadlift", "--reps", "5"],
    &["estimate", "Deadlift"],
    &["estimate", "Deadlift", "--plot"],
    &["room", "Deadlift"],
    &["recall", "Front squat"],
    &["review"],
    &["since", "--lift", "Deadlift"],
    &["volume"],
    &["volume", "--by", "block"],
    &["volume", "--plot", "tonnage"],
    &["taper"],
    &["draft", "week", "--week", "4"],
    &["draft", "block"],
    &["lifts"],
    &["plates", "335"],
    &["plates", "337"],
    &["roster"],
];

/// A number with a fraction before `lb` that is no mean, no share of a maximum and no bodyweight.
fn unrounded(line: &str) -> bool {
    let words: Vec<&str> = line.split_whitespace().collect();
    words
        .windows(2)
        .any(|two| two[1].trim_end_matches([',', ';', '.']) == "lb" && two[0].contains('.') && !two[0].contains('('))
}

#[test]
fn every_screen_of_a_journal_in_pounds_speaks_pounds() {
    let journal = journal();
    for screen in SCREENS {
        for width in [60, 80] {
            let out = journal.run_at(width, screen);
            assert!(!out.contains("--- exit 2"), "{screen:?}\n{out}");
            let kilos = out.lines().find(|line| line.split(|c: char| !c.is_alphanumeric()).any(|word| word == "kg"));
            assert_eq!(kilos, None, "{screen:?} at {width}");
            // Half a pound and finer hangs nowhere; 2.5 lb plates come in pairs.
            let odd = out.lines().find(|line| unrounded(line) && !line.contains("2.5 lb"));
            assert_eq!(odd, None, "{screen:?} at {width}");
        }
    }
}

#[test]
fn the_usual_gym_in_pounds_has_its_bar_and_plates() {
    let journal = Journal::new()
        .file("journal.yaml", "units: lb\n")
        .page("## 2026-03-02\n- Deadlift: 5 @ 335 RPE 8\n- Bench press: 3x5 @ bar + 2x45 lb/side RPE 7\n");
    let plates = journal.run_at(60, &["plates", "335"]);
    assert!(
        plates.starts_with("335 lb on bar: 3x45 lb + 10 lb each side\nbar 45 lb + 2 x 145 lb = 335 lb\n"),
        "{plates}"
    );
    assert_eq!(
        journal.run_at(60, &["volume", "--by", "lift", "--on", "2026-03-03"]),
        "\
lift         sets  reps  tonnage lb  avg lb  RPE 6+  avg RPE
Deadlift        1     5       1 675   335.0       1      8.0
Bench press     3    15       3 375   225.0       3      7.0
RPE 6+: sets that left 4 reps or fewer
"
    );
    assert_eq!(
        journal.run_at(60, &["best", "Bench press", "--on", "2026-03-03"]),
        "\
Bench press: best at each rep count
reps     load                         done       date
 1-5  *  bar + 2x45 lb/side (225 lb)  3x5 RPE 7  2026-03-02
* no higher rep count has as much on the bar
"
    );
}
