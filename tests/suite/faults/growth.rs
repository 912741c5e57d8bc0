//! Twice the input is at most 2.3 times the work. What is counted are the blocks of instructions that run, not seconds,
//! so that a busy machine changes nothing: valgrind runs the program and counts them.

use super::has;
use crate::support::cases;
use crate::support::journal::Journal;
use crate::support::run::TODAY;
use std::process::Command;

const HEAD: &str = "# Block 1\n- starts: 2026-11-02\n- weeks: 6\n\n## 2026-11-18\n\n";
const PLANNED: &str = "\n## 2026-11-25\n\n- Back squat: plan 3x5 @ 100 kg RPE 8\n";

/// An input of that size: settings and a page; and what is asked.
type Case = (&'static str, fn(usize) -> (String, String), &'static [&'static str]);

fn lines(count: usize, line: impl Fn(usize) -> String) -> String {
    (0..count).map(line).collect()
}

fn page(text: String) -> (String, String) {
    (String::new(), text)
}

fn terms(count: usize) -> (String, String) {
    page(format!("{HEAD}- Back squat: 3x5 @ 20 kg{}\n", " + 1 kg".repeat(count)))
}

fn faults(count: usize) -> (String, String) {
    page(format!("{HEAD}- Back squat: 3x5 @ 100 kg RPE 8{}\n", lines(count, |nth| format!(" !fault{nth}"))))
}

/// No digits: an unknown name that holds a number is refused.
fn lifts(count: usize) -> (String, String) {
    let letter = |number: usize| char::from(b'a' + (number % 26) as u8);
    let name = |nth: usize| format!("Lift {}{}{}", letter(nth / 676), letter(nth / 26), letter(nth));
    page(format!("{HEAD}{}", lines(count, |nth| format!("- {}: 3x5 @ 100 kg RPE 8\n", name(nth)))))
}

fn lines_of_a_lift(count: usize) -> (String, String) {
    page(format!(
        "{HEAD}{}",
        lines(count, |nth| format!("- Back squat: 3x{} @ {} kg RPE 8\n", nth % 9 + 1, nth % 50 + 90))
    ))
}

fn sessions(count: usize) -> (String, String) {
    let session = |nth| format!("\n## 2026-11-18 day {nth}\n\n- Back squat: 3x5 @ {} kg RPE 8\n", nth % 50 + 90);
    page(format!("{HEAD}{}", lines(count, session)))
}

fn problems(count: usize) -> (String, String) {
    page(format!("{HEAD}{}{PLANNED}", "- Back squat: 3x5 @ 100 kg RPE 12\n".repeat(count)))
}

fn settings(count: usize) -> (String, String) {
    (format!("unit: kg\nlifts:\n{}", "- { nam: x }\n".repeat(count)), format!("{HEAD}- Dip: 3x8\n"))
}

fn plates(count: usize) -> (String, String) {
    let plates = lines(count, |nth| format!("  - {{ mass: {} g, pairs: 1 }}\n", nth + 1).replace(" g,", " kg,"));
    (
        format!("gear:\n  bars: {{ bar: 20 kg }}\n  plates:\n{plates}"),
        format!("{HEAD}- Back squat: 3x5 @ 100 kg RPE 8\n"),
    )
}

fn blocks(count: usize) -> (String, String) {
    let block = |nth: usize| format!("# Block {nth}\n- starts: {}-{:02}-01\n\n", 1500 + nth / 12, nth % 12 + 1);
    page(format!("{}{HEAD}- Dip: 3x8\n", lines(count, block)))
}

fn headings(count: usize) -> (String, String) {
    page(format!("{HEAD}{}", lines(count, |nth| format!("\n## 2026-13-{:02} day\n\n- Dip: 3x8\n", nth % 100))))
}

const CASES: &[Case] = &[
    ("a load of many terms", terms, &["match"]),
    ("many lines of one lift", lines_of_a_lift, &["draft", "week"]),
    ("a load of many terms", terms, &["history", "Back squat"]),
    ("many faults", faults, &["match"]),
    ("many faults", faults, &["history", "Back squat"]),
    ("many lifts", lifts, &["draft", "week"]),
    ("many lifts", lifts, &["match"]),
    ("many lifts", lifts, &["review"]),
    ("many lifts", lifts, &["tidy", "--fix"]),
    ("many lines of one lift", lines_of_a_lift, &["match"]),
    ("many sessions of a day", sessions, &["draft", "week"]),
    ("many sessions of a day", sessions, &["check"]),
    ("many problems", problems, &["check"]),
    ("many problems", problems, &["tidy", "--fix"]),
    ("many faults in the settings", settings, &["check"]),
    ("many kinds of plates", plates, &["plates", "100 kg"]),
    ("many blocks", blocks, &["match"]),
    ("many headings", headings, &["check"]),
];

/// No case begins with more: of many more blocks the last would be of days that have not come.
const MOST: usize = 800;

/// How many blocks of instructions the program runs.
fn work(make: fn(usize) -> (String, String), size: usize, asked: &[&str]) -> f64 {
    let (settings, page) = make(size);
    let journal = Journal::new().file("journal.yaml", settings).page(&page);
    let output = Command::new("valgrind")
        .args(["--tool=none", "--trace-children=no", "--stats=yes"])
        .arg(assert_cmd::cargo::cargo_bin!("loadline"))
        .args(asked)
        .args(["--on", TODAY, "--journal"])
        .arg(journal.root())
        .current_dir(journal.root())
        .output()
        .unwrap();
    let said = String::from_utf8_lossy(&output.stderr);
    let count = said.split("scheduler: ").find_map(|line| line.split_once(" event checks"));
    count.and_then(|(count, _)| count.replace(',', "").parse().ok()).unwrap_or_else(|| panic!("{asked:?}: {said}"))
}

#[test]
fn twice_the_input_is_at_most_two_and_a_third_times_the_work() {
    if !has("valgrind") {
        return;
    }
    let size = cases("LOADLINE_GROWTH", 15);
    let taken = if std::env::var_os("LOADLINE_GROWTH").is_some() { CASES.len() } else { 1 };
    let mut grown = Vec::new();
    for (what, make, asked) in CASES.iter().take(taken) {
        let mut size = size;
        let [mut one, mut two, mut four] = [1, 2, 4].map(|times| work(*make, times * size, asked));
        // What the program does whatever the input goes out of the difference; where the input adds little to that, steps of the
        // allocator would be taken for growth.
        while two - one < one / 10.0 && size < MOST {
            size *= 2;
            (one, two, four) = (two, four, work(*make, 4 * size, asked));
        }
        let ratio = (four - two) / (two - one).max(1.0);
        eprintln!("{what}, {asked:?}: {ratio:.2} at {size} ({one:.0}, {two:.0}, {four:.0})");
        if ratio > 2.3 {
            grown.push(format!("{what}, {asked:?}: {one}, {two}, {four}"));
        }
    }
    assert!(grown.is_empty(), "{grown:#?}");
}
