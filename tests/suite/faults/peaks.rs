//! Pages without measure: what is kept of their problems is what is shown, and a line with errors takes hardly more memory
//! than one without.

use super::has;
use crate::support::journal::Journal;
use crate::support::run::TODAY;
use loadline::journal::{Memory, open};
use loadline::meaning;
use loadline::problems::{Count, SHOWN};
use std::process::Command;

const HEAD: &str = "# Block 1\n- starts: 2026-11-02\n- weeks: 6\n\n## 2026-11-18\n\n";

/// Lines with all kinds of problems: errors with a fix and without, plans, headings that are no date, maxima that are
/// missing, lines typed loosely, refused and taken for prose, works of days to come, leaps of loads.
const LINES: [&str; 16] = [
    "- Back squat: 3x5 @ 100 kg RPE 12\n",
    "- Back squat: 3x5 @ 100,5 kg\n",
    "- Bench press: 3x5 @ 75%\n",
    "- Bench press: 3x5 @ 75\n",
    "- Front squat: as planned RPE 7\n  - plan: 3x5 @ 8o kg, 0x5\n",
    "- Front squat: as planned RPE 7, 7, 8\n  - plan: 3x5 @ 80 kg\n  - cue: up\n",
    "Deadlift 150 3x5\n",
    "Deadlfit 150 3x5\n",
    "Deadlift 100 5 5 3\n",
    "- Sqaut: 3y5 @ 9o kg RPE 12 hard\n",
    "- notes: tired\n- bodyweight: heavy\n",
    "\n## 30.2.\n\n- Dip: 3x8 @ 400 kg\n",
    "\n## 2026-11-19 block 9\n\n- Dip: 3x8 @ 5 kg\n- Dip: 3x8 @ 500 kg\n",
    "\n## 2027-11-19\n\n- Dip: 3x8\n",
    "\n## 2026-11-20\n\nfelt good\n\n## 2026-11-21\n\n",
    "- Split squat: 3x5 @ 20 kg\n",
];

/// A page of many such lines, in an order of its own.
fn page(seed: usize, count: usize) -> String {
    let line = |nth: usize| LINES[(nth * nth * 31 + nth * (seed * 2 + 1) + seed) % LINES.len()];
    HEAD.to_owned() + &(0..count).map(line).collect::<String>()
}

#[test]
fn of_a_page_the_first_problems_are_kept_and_all_are_counted() {
    for seed in 0..4 {
        let files = Memory::default()
            .with("journal.yaml", "")
            .with("a.md", page(seed, 4 * SHOWN))
            .with("b.md", page(seed + 9, SHOWN / 8))
            .with("c.md", page(seed + 5, 3 * SHOWN));
        let journal = open(&files);
        let (lifter, pages) = (&journal.lifters[0], journal.pages_of(&journal.lifters[0]));
        for check_on in [None, Some(TODAY.parse().unwrap())] {
            let all = meaning::read_telling_all(&files, lifter, pages.clone(), check_on);
            let kept = meaning::read(&files, lifter, pages.clone(), check_on);
            let mut first = Vec::new();
            for (at, of_page) in all.problems.chunk_by(|one, other| one.0 == other.0).enumerate() {
                assert_eq!(all.counts[at], Count::of(of_page.iter().map(|(_, problem)| problem)), "seed {seed}");
                first.extend(of_page.iter().take(SHOWN).cloned());
            }
            assert!(all.problems.len() > 6 * SHOWN, "seed {seed}: {}", all.problems.len());
            assert!(kept.problems == first, "seed {seed}: others are kept than the first");
            assert_eq!(kept.counts, all.counts, "seed {seed}");
            assert_eq!((kept.log.left_out, kept.tally), (all.log.left_out, all.tally), "seed {seed}");
        }
    }
}

#[test]
fn check_shows_the_first_problems_and_says_how_many_more_there_are() {
    let more = 1234;
    let journal = Journal::new().page(&(HEAD.to_owned() + &"- Dip: 3x8 RPE 12\n".repeat(SHOWN + more)));
    let out = Command::new(assert_cmd::cargo::cargo_bin!("loadline"))
        .args(["check", "--format", "json", "--on", TODAY, "--journal"])
        .arg(journal.root())
        .output()
        .unwrap();
    let said: serde_json::Value = serde_json::from_slice(&out.stdout).unwrap();
    assert_eq!(out.status.code(), Some(1));
    assert_eq!(said["problems"].as_array().unwrap().len(), SHOWN);
    assert_eq!(said["problems"][SHOWN - 1]["line"], SHOWN + HEAD.lines().count());
    assert_eq!(said["errors"], SHOWN + more);
    assert_eq!(said["more_problems"][0]["errors"], more);
}

/// As many lines as make the lists of a page nearly full.
const MANY: usize = 125_000;

/// The most memory that a run had at once, in bytes.
fn peak(line: &str, count: usize, asked: &[&str]) -> u64 {
    let journal = Journal::new().page(&(HEAD.to_owned() + &line.repeat(count)));
    let out = Command::new("time")
        .args(["-f", "%M"])
        .arg(assert_cmd::cargo::cargo_bin!("loadline"))
        .args(asked)
        .args(["--on", TODAY, "--journal"])
        .arg(journal.root())
        .output()
        .unwrap();
    let said = String::from_utf8_lossy(&out.stderr);
    let kilobytes: u64 =
        said.lines().last().and_then(|last| last.trim().parse().ok()).unwrap_or_else(|| panic!("{said}"));
    kilobytes * 1024
}

/// In bytes for each line of the page: its text twice or thrice, what it says, and next to nothing of what is wrong with it.
/// Problems that were all kept would take 150 bytes more and above.
#[test]
fn a_line_with_errors_takes_hardly_more_memory_than_one_without() {
    if !has("time") {
        return;
    }
    let mut wrong = Vec::new();
    for (line, asked, most) in [
        ("- Back squat: 3x5 @ 100 kg RPE 8\n", &["check"][..], 240),
        ("- Back squat: 3x5 @ 100 kg RPE 12\n", &["check"], 290),
        ("- Back squat: 3x5 @ 100 kg RPE 12\n", &["tidy", "--fix", "--check"], 400),
        ("- Squat: 3y5 @ 9o kg RPE 12\n", &["check"], 140),
    ] {
        // What the answer takes, whose problems are those of both pages, goes out of the difference.
        let few = 2 * SHOWN;
        let of_a_line = peak(line, MANY, asked).saturating_sub(peak(line, few, asked)) / (MANY - few) as u64;
        eprintln!("{line:?}, {asked:?}: {of_a_line} bytes");
        if of_a_line > most {
            wrong.push(format!("{line:?}, {asked:?}: {of_a_line} bytes a line, more than {most}"));
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}
