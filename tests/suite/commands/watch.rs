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
    assert!(read().contains("Deadlift"));
}
