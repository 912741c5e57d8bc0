//! Finding journals, lifters and pages; settings that are wrong.

use crate::support::journal::Journal;
use std::time::{Duration, Instant};

const PAGE: &str = "## 2026-03-05\n- Front squat: 3x8 @ 120 kg RPE 6\n";

#[test]
fn of_two_lifters_one_must_be_named() {
    let journal = Journal::new()
        .file("ilse/lifter.yaml", "name: Ilse")
        .file("ilse/a.md", PAGE)
        .file("tarek/lifter.yaml", "")
        .file("tarek/a.md", PAGE.replace("120", "80"));
    assert_eq!(
        journal.run(&["lifts"]),
        "--- stderr\nloadline: whose training? Name one with --lifter: Ilse or tarek\n--- exit 2\n"
    );
    assert!(
        journal.run(&["best", "front squats", "--reps", "8", "--lifter", "Tarek"]).starts_with("Front squat: 80 kg")
    );
    assert!(journal.run(&["lifts", "--lifter", "Tarik"]).contains("no lifter is called `Tarik`; there is tarek"));
}

#[test]
fn an_unknown_lift_is_answered_with_the_nearest() {
    let journal = Journal::new().page(PAGE);
    assert_eq!(
        journal.run(&["best", "Fornt squat"]),
        "--- stderr\nloadline: no lift is called `Fornt squat`; did you mean Front squat?\n--- exit 2\n"
    );
    // A slip in the second word of its name.
    assert_eq!(
        journal.run(&["best", "Squt"]),
        "--- stderr\nloadline: no lift is called `Squt`; did you mean Front squat?\n--- exit 2\n"
    );
    assert!(!journal.run(&["best", "Kettle throw"]).contains("did you mean"));
}

#[test]
fn a_page_outside_every_lifters_folder_is_an_error() {
    let journal = Journal::new().file("ilse/lifter.yaml", "").file("ilse/a.md", PAGE).file("b.md", PAGE);
    let answer = journal.json(&["check"]);
    assert_eq!(answer["problems"][0]["kind"], "page-without-lifter");
    assert_eq!(answer["problems"][0]["page"], "b.md");
}

#[test]
fn hidden_excluded_and_linked_pages_are_none() {
    let journal = Journal::new()
        .file("journal.yaml", "exclude: [\"archive/**\"]")
        .file(".git/a.md", PAGE)
        .file("archive/a.md", PAGE)
        .file("README.md", PAGE)
        .page(PAGE);
    #[cfg(unix)]
    {
        std::os::unix::fs::symlink(journal.root(), journal.root().join("loop")).unwrap();
        std::os::unix::fs::symlink(journal.root().join("page.md"), journal.root().join("again.md")).unwrap();
    }
    let answer = journal.json(&["check"]);
    assert_eq!((answer["pages"].as_u64(), answer["sessions"].as_u64()), (Some(1), Some(1)));
}

#[test]
fn a_folder_is_excluded_however_it_is_written() {
    for glob in ["old/archive/", "old/archive", "./old/archive/", "/old/archive", "old/archive/**", "*/arch*", "old/"] {
        let journal = Journal::new()
            .file("journal.yaml", format!("exclude: [\"{glob}\"]"))
            .file("old/archive/a.md", PAGE)
            .file("old/archive/deep/a.md", PAGE)
            .page(PAGE);
        assert_eq!(journal.run(&["check"]), "1 session: 1 work line   every line is understood\n", "{glob}");
    }
    // A path is not the beginning of another, and one pattern that cannot be read leaves the others.
    let journal = Journal::new()
        .file("journal.yaml", "exclude: [\"arch\", \"[ab\", \"old/\"]")
        .file("archive/a.md", PAGE)
        .file("old/a.md", PAGE);
    let answer = journal.json(&["check"]);
    assert_eq!((answer["pages"].as_u64(), answer["errors"].as_u64()), (Some(1), Some(1)));
    assert_eq!(answer["problems"][0]["column"], 19);
}

#[test]
#[cfg(unix)]
fn a_link_that_leads_nowhere_is_told_only_where_a_page_is_missed() {
    let journal = Journal::new().file("journal.yaml", "exclude: [archive/]").page(PAGE);
    std::fs::create_dir(journal.root().join("archive")).unwrap();
    for name in ["gone.md", "gone.pdf", ".#page.md", "archive/gone.md", "README.md"] {
        std::os::unix::fs::symlink("nowhere", journal.root().join(name)).unwrap();
    }
    let answer = journal.json(&["check"]);
    let problems = answer["problems"].as_array().unwrap();
    let told: Vec<_> = problems.iter().map(|problem| (&problem["page"], &problem["kind"])).collect();
    assert_eq!(told, [(&"gone.md".into(), &"unreadable-page".into())]);
}

#[test]
fn a_journal_without_lifters_needs_no_lifter() {
    let expected = "--- stderr\nloadline: there is no `Ilse`: this journal has no lifters by name, so --lifter is not \
                    needed\n--- exit 2\n";
    let journal = Journal::new().page(PAGE);
    assert_eq!(journal.run(&["lifts", "--lifter", "Ilse"]), expected);
    assert_eq!(journal.file("lifter.yaml", "units: kg").run(&["check", "--lifter", "Ilse"]), expected);
}

#[test]
fn settings_hold_with_a_byte_order_mark_and_in_any_order() {
    let settings = "\u{feff}gear:\n  bars: { bar: 45 }\n  plates: [{ mass: 45 }]\nunits: lb\n";
    let journal = Journal::new().file("journal.yaml", settings).page("## 2026-03-05\n- Deadlift: 5 @ bar + 45/side\n");
    assert_eq!(journal.run(&["check"]), "1 session: 1 work line   every line is understood\n");
    // Three times 45 lb of 0.45359237 kg a pound (NIST SP 811): 61.23497 kg.
    assert_eq!(journal.json(&["best", "Deadlift", "--reps", "5"])["best"]["load"]["kg"], 61.23);
}

#[test]
fn twenty_thousand_faults_are_found() {
    let settings = "unit: kg\nlifts:\n".to_owned() + &"- { nam: x }\n".repeat(20_000);
    let answer = Journal::new().file("journal.yaml", settings).page(PAGE).json(&["check"]);
    assert_eq!(answer["errors"], 20_001);
}

#[test]
fn settings_that_explode_are_refused_at_once() {
    let mut bomb = String::from("a: &a [x,x,x,x,x,x,x,x,x,x]\n");
    for (this, last) in ["b", "c", "d", "e", "f", "g", "h"].iter().zip(["a", "b", "c", "d", "e", "f", "g"]) {
        bomb.push_str(&format!("{this}: &{this} [{}]\n", vec![format!("*{last}"); 10].join(",")));
    }
    for settings in [bomb, "[".repeat(100_000)] {
        let started = Instant::now();
        let out = Journal::new().file("journal.yaml", settings).page(PAGE).run(&["check"]);
        assert!(out.contains("unread-settings"), "{out}");
        assert!(started.elapsed() < Duration::from_secs(5));
    }
}

#[test]
fn a_new_journal_has_no_problem_and_a_full_folder_is_left_alone() {
    let journal = Journal::new();
    let folder = journal.root().join("fresh").display().to_string();
    assert!(journal.run(&["new", &folder]).starts_with("Started a journal"));
    let out = crate::support::run::run(&journal.root().join("fresh"), 80, &["check"]);
    assert!(out.contains("every line is understood"), "{out}");
    assert!(journal.run(&["new", &folder]).contains("is a journal already"));
}

#[test]
fn a_folder_of_notes_becomes_a_journal_only_where_that_is_asked_for() {
    let notes = tempfile::tempdir().unwrap();
    std::fs::write(notes.path().join("march.md"), "## 2026-03-05\n\n- Bench press: 5x5 @ 100 kg\n").unwrap();
    let at = |arguments: &[&str]| crate::support::run::run_in(notes.path(), 80, arguments);
    let names = || {
        let mut names: Vec<String> = std::fs::read_dir(notes.path())
            .unwrap()
            .map(|entry| entry.unwrap().file_name().into_string().unwrap())
            .collect();
        names.sort();
        names
    };
    assert_eq!(
        at(&["check"]).replace(&notes.path().display().to_string(), "DIR"),
        "--- stderr\nloadline: no journal in DIR or above it; name one with --journal DIR; `loadline new DIR` starts one in a new \
         folder, `loadline new DIR --here` in a folder of notes that you have\n--- exit 2\n"
    );
    assert_eq!(
        at(&["new", "."]),
        "--- stderr\nloadline: . is not empty: it holds 1 page (`.md`). `loadline new \".\" --here` would add journal.yaml and \
         lifter.yaml and touch nothing else; or name a new folder\n--- exit 2\n"
    );
    assert_eq!(names(), ["march.md"]);
    assert_eq!(
        at(&["new", ".", "--here"]),
        "Added journal.yaml and lifter.yaml to ., and touched nothing else. It holds 1\n  page.\nNow see how they are \
         read:\n  loadline --journal \".\" check\n"
    );
    assert_eq!(names(), ["journal.yaml", "lifter.yaml", "march.md"]);
    assert!(at(&["check"]).contains("every line is understood"));
    assert!(at(&["new", ".", "--here"]).contains(". is a journal already"));
}

#[test]
fn a_folder_that_is_no_journal_says_so() {
    let folder = tempfile::tempdir().unwrap();
    let out = crate::support::run::run(folder.path(), 80, &["lifts"]);
    assert!(
        out.contains("isn't a journal: it has no journal.yaml; `loadline new DIR` starts one in a new folder"),
        "{out}"
    );
}

#[test]
fn crlf_and_a_byte_order_mark_change_nothing() {
    let plain = Journal::new().page(PAGE).json(&["history", "Front squat"]);
    let odd = Journal::new().page(&format!("\u{feff}{}", PAGE.replace('\n', "\r\n"))).json(&["history", "Front squat"]);
    assert_eq!(plain, odd);
}

/// Nothing is counted in silence without a page that is there: every answer names it, as text and as JSON.
#[cfg(unix)]
#[test]
fn a_page_that_cannot_be_read_is_named_in_every_answer() {
    let journal =
        Journal::new().page("# Block 1\n- starts: 2026-11-23\n\n## 2026-11-24\n\n- Back squat: 3x5 @ 100 kg RPE 8\n");
    std::os::unix::fs::symlink("nowhere", journal.root().join("gone.md")).unwrap();
    for command in ["match", "volume", "roster", "export", "review", "lifts", "check", "tidy"] {
        assert_eq!(journal.json(&[command])["unread_pages"], serde_json::json!(["gone.md"]), "{command}");
    }
    for command in ["match", "volume", "roster", "export", "review", "lifts"] {
        let said = journal.run(&[command]);
        assert!(said.contains("1 page could not be read (gone.md)"), "{command}: {said}");
    }
    assert!(journal.run(&["check"]).contains("gone.md:1:1: error[unreadable-page]"));
}
