//! `--watch`: an answer at once, and another one after each save that changes it.

use crate::support::journal::Journal;
use std::fs;
use std::io::Read;
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::sync::{Arc, Mutex};
use std::thread;
use std::time::{Duration, Instant};

/// A slow machine may take its time; how long it takes is measured by a bench.
const PATIENCE: Duration = Duration::from_secs(30);

struct Watching {
    child: Child,
    heard: Arc<Mutex<String>>,
}

impl Watching {
    fn start(root: &Path, arguments: &[&str]) -> Watching {
        let mut child = Command::new(env!("CARGO_BIN_EXE_loadline"))
            .env_clear()
            .arg("--journal")
            .arg(root)
            .args(["--on", "2026-03-12"])
            .args(arguments)
            .arg("--watch")
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .expect("it starts");
        let heard = Arc::new(Mutex::new(String::new()));
        let (mut out, to) = (child.stdout.take().expect("piped"), Arc::clone(&heard));
        thread::spawn(move || {
            let mut some = [0; 4096];
            while let Ok(length @ 1..) = out.read(&mut some) {
                to.lock().expect("unpoisoned").push_str(&String::from_utf8_lossy(&some[..length]));
            }
        });
        Watching { child, heard }
    }

    fn so_far(&self) -> String {
        self.heard.lock().expect("unpoisoned").clone()
    }

    fn wait_for(&self, words: &str, times: usize) {
        let start = Instant::now();
        while self.so_far().matches(words).count() < times {
            assert!(start.elapsed() < PATIENCE, "no {times} of `{words}` in\n{}", self.so_far());
            thread::sleep(Duration::from_millis(5));
        }
    }
}

impl Drop for Watching {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

const PAGE: &str = "# Block 1\n\n- starts: 2026-03-02\n\n## 2026-03-03\n\n- Front squat: 3x8 @ 100 kg\n";

#[test]
fn check_says_after_each_save_what_it_then_finds() {
    let journal = Journal::new().file("a.md", PAGE);
    let page = journal.root().join("a.md");
    let watching = Watching::start(journal.root(), &["check"]);
    watching.wait_for("1 session: 1 work line   every line is understood\n", 1);

    fs::write(&page, format!("{PAGE}- Deadlift: 0x8\n")).unwrap();
    watching.wait_for("1 session: 1 work line; 1 line counts nowhere   1 error\n", 1);

    // As many editors save: another file is put in the place of the old one.
    let other = journal.root().join(".a.md.swp");
    fs::write(&other, format!("{PAGE}- Deadlift: 3x8 @ 100 kg\n")).unwrap();
    fs::rename(&other, &page).unwrap();
    watching.wait_for("1 session: 2 work lines   every line is understood\n", 1);

    // Neither a file that is no page nor a save that changes nothing is worth an answer.
    fs::write(journal.root().join("a.csv"), "- Deadlift: 0x8\n").unwrap();
    fs::write(&page, format!("{PAGE}- Deadlift: 3x8 @ 100 kg\n")).unwrap();
    fs::create_dir(journal.root().join("more")).unwrap();
    thread::sleep(Duration::from_millis(100));
    fs::write(journal.root().join("more/b.md"), "## 2026-03-05\n").unwrap();
    watching.wait_for("2 sessions: 2 work lines   every line is understood\n", 1);
    let answers = [
        "1 session: 1 work line   every line is understood\n\n",
        "a.md:8:13: error[no-sets]: no sets at all: leave the line out, or write `skipped`; a failed attempt is 1x0\n",
        "  |\n8 | - Deadlift: 0x8\n  |             ^^^\n\n",
        "1 session: 1 work line; 1 line counts nowhere   1 error\n\n",
        "1 session: 2 work lines   every line is understood\n\n",
        "2 sessions: 2 work lines   every line is understood\n",
    ];
    assert_eq!(watching.so_far(), answers.concat());
}

#[test]
fn match_goes_on_when_the_settings_cannot_be_read_for_a_while() {
    let journal = Journal::new().file("a.md", PAGE);
    let watching = Watching::start(journal.root(), &["match", "--format", "json"]);
    watching.wait_for("\"reps\": 8", 1);
    let settings = journal.root().join("journal.yaml");
    let was = fs::read(&settings).unwrap();
    fs::remove_file(&settings).unwrap();
    fs::write(journal.root().join("a.md"), PAGE.replace("3x8", "3x7")).unwrap();
    thread::sleep(Duration::from_millis(200));
    fs::write(&settings, was).unwrap();
    watching.wait_for("\"reps\": 7", 1);
}

#[test]
fn a_journal_that_is_not_there_is_not_watched() {
    let out = Command::new(env!("CARGO_BIN_EXE_loadline"))
        .env_clear()
        .args(["--journal", "/no such folder", "match", "--watch"])
        .output()
        .unwrap();
    assert_eq!(out.status.code(), Some(2));
    assert_eq!(
        String::from_utf8_lossy(&out.stderr),
        "loadline: there is no folder /no such folder; `loadline new DIR` starts one in a new folder, `loadline new DIR --here` in \
         a folder of notes that you have\n"
    );
}

#[test]
fn a_lift_that_is_not_there_is_told_at_once() {
    let journal = Journal::new().file("a.md", PAGE);
    let said = journal.run(&["match", "Frnt squat", "--watch"]);
    assert_eq!(said, "--- stderr\nloadline: no lift is called `Frnt squat`; did you mean Front squat?\n--- exit 2\n");
}

#[test]
fn session_says_the_next_set_after_each_set_that_is_written() {
    let page = "## 2026-03-12\n\n- Front squat:\n  - plan: 2x8 @ 100 kg\n";
    let journal = Journal::new().file("a.md", page);
    let watching = Watching::start(journal.root(), &["session", "--next"]);
    watching.wait_for("Front squat, set 1 of 2\n", 1);
    fs::write(journal.root().join("a.md"), page.replace("squat:", "squat: 8 @ 100 kg")).unwrap();
    watching.wait_for("Front squat, set 2 of 2\n", 1);
    fs::write(journal.root().join("a.md"), page.replace("squat:", "squat: 2x8 @ 100 kg")).unwrap();
    watching.wait_for("Thu 12 Mar: every set is done\n", 1);
}

/// The file is written anew after a save, and the page that shows it loads itself again.
#[test]
fn a_report_is_written_anew_after_each_save() {
    let journal = Journal::new().file("a.md", PAGE);
    let report = journal.root().join("report.html");
    let watching = Watching::start(journal.root(), &["report", "--write", report.to_str().unwrap()]);
    watching.wait_for("written, ", 1);
    let read = || fs::read_to_string(&report).unwrap();
    assert!(read().contains("<meta http-equiv=\"refresh\" content=\"3\">") && !read().contains("Deadlift"));
    fs::write(journal.root().join("a.md"), format!("{PAGE}- Deadlift: 3x8 @ 100 kg RPE 7\n")).unwrap();
    watching.wait_for("written anew, ", 1);
    // A save that empties the page first may be answered in between, and is again once it is whole.
    let told = (0..200).any(|_| {
        read().contains("Deadlift") || {
            thread::sleep(Duration::from_millis(50));
            false
        }
    });
    assert!(told);
}

/// What a program answers that has kept nothing.
fn anew(root: &Path, arguments: &[&str]) -> String {
    let mut program = Command::new(env!("CARGO_BIN_EXE_loadline"));
    let program = program.env_clear().arg("--journal").arg(root).args(["--on", "2026-03-12"]).args(arguments);
    String::from_utf8_lossy(&program.output().expect("it runs").stdout).into_owned()
}

/// Waits until the last answer is that of a program that has kept nothing.
fn wait_for_the_same(watching: &Watching, root: &Path, arguments: &[&str], after: &str) {
    let (start, anew) = (Instant::now(), anew(root, arguments));
    let is_last = |so_far: String| so_far == anew || so_far.ends_with(&format!("\n{anew}"));
    while !is_last(watching.so_far()) {
        assert!(
            start.elapsed() < PATIENCE,
            "after {after} {arguments:?} says\n{}\nand anew it says\n{anew}",
            watching.so_far()
        );
        thread::sleep(Duration::from_millis(5));
    }
}

/// Something done to a journal's folder.
type Change<'c> = &'c dyn Fn(&Path);

/// Whatever is edited, renamed and taken away, pages of others and settings too.
#[test]
fn a_watched_answer_is_that_of_a_new_run() {
    let outside = tempfile::tempdir().unwrap();
    let later = "# Block 2\n\n- starts: 2026-03-09\n- max: Front squat 150 kg\n\n## 2026-03-10\n\n- Front squat: 3x8 @ 70%\n\n## 2026-03-12\n\n- Front squat:\n  - plan: 2x8 @ 70%\n";
    let questions: [&[&str]; 6] = [
        &["check"],
        &["check", "--format", "json"],
        &["match"],
        &["match", "--all-lifters", "--format", "json"],
        &["session", "--format", "json"],
        &["session", "--gym", "Ferry Hall"],
    ];
    let journals: Vec<Journal> = questions
        .iter()
        .map(|_| {
            let settings = "gyms:\n  Ferry Hall: { plates: [{ mass: 20 kg }, { mass: 5 kg }] }\nlifts:\n  - { name: Harbour walk, family: carry }\n";
            Journal::new().file("journal.yaml", settings).file("a.md", PAGE).file("b.md", later).file("old/c.md", "")
        })
        .collect();
    let watchings: Vec<Watching> =
        questions.iter().zip(&journals).map(|(question, journal)| Watching::start(journal.root(), question)).collect();
    let walk = "## 2026-03-04\n\n- Harbour walk: 3x8 @ 40 kg\n- Front squat: 2x8 @ 90 kg\n";
    let changes: [(&str, Change<'_>); 12] = [
        ("a set more", &|root| fs::write(root.join("a.md"), format!("{PAGE}- Harbour walk: 2x8 @ 30 kg\n")).unwrap()),
        ("another maximum", &|root| fs::write(root.join("b.md"), later.replace("150", "120")).unwrap()),
        ("a page that comes", &|root| fs::write(root.join("0.md"), walk).unwrap()),
        ("another name of it", &|root| fs::rename(root.join("0.md"), root.join("z.md")).unwrap()),
        ("a page in its place", &|root| fs::rename(root.join("z.md"), root.join("a.md")).unwrap()),
        ("notes that are no page", &|root| {
            fs::write(root.join("notes.txt"), "Deadlift").unwrap();
            fs::write(root.join("a.md"), PAGE.replace("100", "102.5")).unwrap();
        }),
        ("another folder in the place of one", &|root| {
            fs::create_dir(root.join(".new")).unwrap();
            fs::write(root.join(".new/c.md"), walk.replace("03-04", "03-11")).unwrap();
            fs::rename(root.join("old"), root.join(".old")).unwrap();
            fs::rename(root.join(".new"), root.join("old")).unwrap();
        }),
        ("a page elsewhere", &|root| {
            let page = outside.path().join("d.md");
            if !page.exists() {
                fs::write(&page, walk).unwrap();
            }
            std::os::unix::fs::symlink(page, root.join("d.md")).unwrap();
        }),
        ("that page, which nobody watches", &|root| {
            // All journals share it: written once, for a program that reads it between two writings finds it empty.
            let (page, more) = (outside.path().join("d.md"), walk.replace("2x8", "4x8"));
            if fs::read_to_string(&page).unwrap() != more {
                fs::write(&page, more).unwrap();
            }
            fs::write(root.join("b.md"), later.replace("150", "140")).unwrap();
        }),
        ("settings", &|root| {
            let settings = root.join("journal.yaml");
            let was = fs::read_to_string(&settings).unwrap();
            fs::write(settings, was.replace("Harbour walk", "Pier walk").replace("20 kg", "15 kg")).unwrap();
        }),
        ("a page that goes", &|root| fs::remove_file(root.join("a.md")).unwrap()),
        ("no page but one", &|root| {
            fs::remove_dir_all(root.join("old")).unwrap();
            fs::remove_file(root.join("d.md")).unwrap();
        }),
    ];
    for (watching, journal) in watchings.iter().zip(&journals) {
        let first = Instant::now();
        while watching.so_far().is_empty() {
            assert!(first.elapsed() < PATIENCE, "no first answer of {}", journal.root().display());
            thread::sleep(Duration::from_millis(5));
        }
    }
    for (after, change) in changes {
        journals.iter().for_each(|journal| change(journal.root()));
        for ((watching, journal), question) in watchings.iter().zip(&journals).zip(&questions) {
            wait_for_the_same(watching, journal.root(), question, after);
        }
    }
}
