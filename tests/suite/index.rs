//! What `roster` keeps outside the journal changes no answer: with it and without it, standard output, standard error and
//! exit status are the same, whatever happens to the pages, the clock, the folder and whoever writes there.
#![cfg(unix)]

use crate::support::cases;
use crate::support::generator::Random;
use crate::support::journal::Journal;
use crate::support::run::TODAY;
use assert_cmd::cargo::cargo_bin;
use loadline::journal::Digest;
use serde_json::Value;
use std::collections::BTreeMap;
use std::fs::{self, File};
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};
use std::sync::{LazyLock, Mutex};
use std::thread;
use std::time::{Duration, SystemTime};

/// After this long a page has settled: two saves of it leave two stamps.
const SETTLED: Duration = Duration::from_millis(2_100);

/// The program on a journal, keeping what it works out in such a folder, or nothing where that is `off`.
fn roster(root: &Path, cache: &Path, arguments: &[&str]) -> Command {
    let mut command = Command::new(cargo_bin("loadline"));
    command.env_clear().env("LOADLINE_CACHE", cache).current_dir(std::env::temp_dir());
    command.arg("--journal").arg(root).arg("roster").args(arguments);
    if !arguments.contains(&"--on") {
        command.args(["--on", TODAY]);
    }
    command
}

fn said(output: &Output) -> (Option<i32>, String, String) {
    let text = |bytes: &[u8]| String::from_utf8(bytes.to_vec()).unwrap();
    (output.status.code(), text(&output.stdout), text(&output.stderr))
}

fn answer(root: &Path, cache: &Path, arguments: &[&str]) -> (Option<i32>, String, String) {
    said(&roster(root, cache, arguments).output().unwrap())
}

fn off() -> &'static Path {
    Path::new("off")
}

/// The kept answers in a folder.
fn kept(cache: &Path) -> Vec<PathBuf> {
    let names = fs::read_dir(cache).into_iter().flatten().map(|entry| entry.unwrap().path());
    let mut kept: Vec<PathBuf> = names.filter(|path| path.extension().is_some_and(|end| end == "json")).collect();
    kept.sort();
    kept
}

/// Changes what is kept, so that it is whole all the same.
fn forge(path: &Path, change: impl FnOnce(&mut Value)) {
    let text = fs::read_to_string(path).unwrap();
    let mut value = serde_json::from_str(text.split_once('\n').unwrap().1).unwrap();
    change(&mut value);
    let body = serde_json::to_string(&value).unwrap();
    let [one, other] = Digest::of(body.as_str());
    fs::write(path, format!("{one:016x}{other:016x}\n{body}")).unwrap();
}

/// A lifter's page: blocks, a plan, an effort over it, a pain, now and then a line that is wrong.
fn page(random: &mut Random) -> String {
    let mut text =
        "# Block 1\n- starts: 2026-10-26\n- weeks: 4\n\n# Block 2\n- starts: 2026-11-23\n- weeks: 4\n\n".to_owned();
    for day in ["2026-10-26", "2026-10-28", "2026-11-23", "2026-11-24"] {
        text += &format!("## {day}\n");
        if random.chance(50) {
            text += &format!("- bodyweight: {} kg\n", random.within(70..=95));
        }
        let (load, effort) = (random.within(80..=99), random.within(6..=9));
        text += &format!("- Back squat: 3x5 @ {load} kg RPE {effort}\n  - plan: 3x5 @ 90 kg RPE 7\n");
        if random.chance(40) {
            text += &format!("- pain: left knee {}/10\n", random.within(4..=8));
        }
        if random.chance(30) {
            text += "- Back squat: 3x5 @ what hung there\n";
        }
        text += "\n";
    }
    text
}

const LIFTERS: usize = 16;

/// The settings of a journal, of which each choice shows in a roster.
fn settings(random: &mut Random) -> String {
    let points = random.within(1..=3);
    let exclude = random.pick(&["", "exclude: [b.md]\n", "exclude: [\"3/**\"]\n"]);
    let gear = random.pick(&["20", "15"]);
    format!("cautions: {{ over-plan: {points} }}\ngyms: {{ Pier: {{ bars: {{ bar: {gear} kg }} }} }}\n{exclude}")
}

fn lifter(at: usize, random: &mut Random) -> String {
    let class = random.pick(&["", "class: 74 kg\n", "class: 93 kg\n"]);
    let units = random.pick(&["kg", "lb"]);
    format!("name: {} {at}\nunits: {units}\nsex: male\n{class}", random.pick(&["Aske", "Runa", "Berit"]))
}

/// Sets back when a file was saved, as far as programs can.
fn saved_at(path: &Path, time: SystemTime) {
    File::options().append(true).open(path).unwrap().set_modified(time).unwrap();
}

/// Does something to a journal that shows in a roster, or does not.
fn change(root: &Path, outside: &Path, random: &mut Random) -> String {
    let folder = |at: usize| root.join(at.to_string());
    let at = random.below(LIFTERS);
    let name = random.pick(&["a.md", "b.md"]);
    let (mine, other) = (folder(at).join(name), folder(random.below(LIFTERS)).join(name));
    let is_page = mine.is_file();
    let how = random.below(16);
    match how {
        // As many bytes in the same file, and the time of the save as it was: only the time of the change tells.
        0..=3 if is_page => {
            let (text, time) = (fs::read_to_string(&mine).unwrap(), fs::metadata(&mine).unwrap().modified().unwrap());
            let digits: Vec<usize> = text.match_indices(" kg RPE ").map(|(at, _)| at - 1).collect();
            let mut bytes = text.into_bytes();
            if let Some(at) = digits.last() {
                bytes[*at] = b'0' + (bytes[*at] - b'0' + 5) % 10;
            }
            if let Some(effort) = digits.last().map(|at| at + " kg RPE ".len() + 1) {
                bytes[effort] = if bytes[effort] == b'9' { b'6' } else { b'9' };
            }
            fs::write(&mine, bytes).unwrap();
            saved_at(&mine, time);
        }
        // Another file takes its place, saved at the same time.
        4 if is_page => {
            let time = fs::metadata(&mine).unwrap().modified().unwrap();
            fs::write(outside.join("new"), page(random)).unwrap();
            saved_at(&outside.join("new"), time);
            fs::rename(outside.join("new"), &mine).unwrap();
        }
        5 => {
            let _ = fs::remove_file(&mine);
            let _ = fs::remove_dir(&mine);
            fs::write(&mine, page(random)).unwrap();
        }
        6 => drop(fs::remove_file(&mine)),
        7 if is_page => drop(fs::rename(&mine, folder(at).join(random.pick(&["d.md", "c.md", "c.txt"])))),
        8 if is_page && !other.is_dir() => fs::rename(&mine, &other).unwrap(),
        9 => {
            let (one, other) = (folder(at), folder((at + 1) % LIFTERS));
            fs::rename(&one, outside.join("aside")).unwrap();
            fs::rename(&other, &one).unwrap();
            fs::rename(outside.join("aside"), &other).unwrap();
        }
        10 if is_page => {
            let year = Duration::from_secs(365 * 24 * 3600);
            let now = SystemTime::now();
            saved_at(&mine, random.pick(&[now - year, now + year, SystemTime::UNIX_EPOCH]));
        }
        11 => fs::write(folder(at).join("lifter.yaml"), lifter(at, random)).unwrap(),
        12 => fs::write(root.join("journal.yaml"), settings(random)).unwrap(),
        // A folder with a page's name is no page; a link that leads nowhere is one that cannot be read.
        13 if !is_page => drop(std::os::unix::fs::symlink("nowhere", &mine)),
        14 if !is_page && !mine.is_symlink() => drop(fs::create_dir(&mine)),
        // A page that lies elsewhere, and changes there.
        15 => {
            let far = outside.join(format!("far {at}.md"));
            fs::write(&far, page(random)).unwrap();
            drop(std::os::unix::fs::symlink(&far, folder(at).join("far.md")));
        }
        _ => {}
    }
    format!("{how} of {at}")
}

/// So each is asked, as text and as JSON.
const ASKED: [&[&str]; 6] =
    [&[], &["--on", "2026-11-24"], &["--block", "2"], &["--block", "1"], &["--gym", "Pier"], &["--lifter", "1"]];

/// Holds every answer with the index to that without. Where it has settled, the second and third answers are taken from it.
fn same(root: &Path, cache: &Path, what: &str) {
    for asked in ASKED {
        for format in ["json", "text"] {
            let asked = [asked, &["--format", format]].concat();
            assert_eq!(answer(root, cache, &asked), answer(root, off(), &asked), "{asked:?} after {what}");
        }
    }
}

fn team(random: &mut Random) -> Journal {
    let journal = Journal::new().file("journal.yaml", settings(random));
    (0..LIFTERS).fold(journal, |journal, at| {
        let journal = journal.file(&format!("{at}/lifter.yaml"), lifter(at, random));
        journal.file(&format!("{at}/a.md"), page(random)).file(&format!("{at}/b.md"), page(random))
    })
}

#[test]
fn after_any_changes_the_answer_is_that_of_the_pages() {
    let rounds = cases("LOADLINE_INDEX", 1);
    let random = &mut Random::new(11);
    let (journal, cache, outside) = (team(random), tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    for round in 0..rounds {
        same(journal.root(), cache.path(), &format!("round {round}, just now"));
        thread::sleep(SETTLED);
        same(journal.root(), cache.path(), &format!("round {round}, settled"));
        // What is kept now is what the next changes must not be hidden by.
        let changes: Vec<String> = (0..LIFTERS).map(|_| change(journal.root(), outside.path(), random)).collect();
        same(journal.root(), cache.path(), &format!("round {round}, {changes:?}"));
        // Of what did not change now, the settings are others.
        fs::write(journal.root().join("journal.yaml"), settings(random)).unwrap();
        same(journal.root(), cache.path(), &format!("round {round}, {changes:?}, and the settings"));
    }
    assert!(!kept(cache.path()).is_empty());
}

/// One for each test that takes it: they settle together, once.
static JOURNALS: LazyLock<Mutex<Vec<Journal>>> = LazyLock::new(|| {
    let journal = || {
        Journal::new()
            .file("ada/lifter.yaml", "name: Ada\n")
            .file("ada/a.md", "## 2026-11-24\n- Deadlift: 5 @ 180 kg\n")
            .file("bo/lifter.yaml", "name: Bo\n")
            .file("bo/a.md", "## 2026-11-20\n- Deadlift: 5 @ 120 kg\n")
    };
    let journals = Mutex::new((0..6).map(|_| journal()).collect());
    thread::sleep(SETTLED);
    journals
});

/// A journal of two lifters that has settled, and the folder in which its roster is kept.
fn settled() -> (Journal, tempfile::TempDir) {
    let journal = JOURNALS.lock().unwrap().pop().expect("a journal for each test that asks");
    (journal, tempfile::tempdir().unwrap())
}

/// Without this all else here would hold of a program that keeps nothing.
#[test]
fn what_is_kept_is_what_answers_until_the_clock_is_set_back() {
    let (journal, cache) = settled();
    let (root, cache) = (journal.root(), cache.path());
    let plain = answer(root, cache, &[]);
    assert_eq!(plain, answer(root, off(), &[]));
    let [path] = kept(cache).try_into().unwrap();
    forge(&path, |kept| kept["rows"]["ada"]["line"]["name"] = "Abe".into());
    assert_eq!(answer(root, cache, &[]).1, plain.1.replace("Ada", "Abe"));
    // Another day and another block are other questions, and another program has none of its answers here.
    for asked in [["--on", "2026-11-26"], ["--block", "1"]] {
        assert_eq!(answer(root, cache, &asked), answer(root, off(), &asked));
    }
    let elsewhere = tempfile::tempdir().unwrap();
    let program = elsewhere.path().join("loadline");
    // By a process of its own: while this one has the copy open for writing, no other of its threads could run a program.
    assert!(Command::new("cp").arg(cargo_bin("loadline")).arg(&program).status().unwrap().success());
    let mut other = Command::new(program);
    let asked = roster(root, cache, &[]);
    other.env_clear().env("LOADLINE_CACHE", cache).args(asked.get_args());
    assert_eq!(said(&other.output().unwrap()), plain);
    // A caution that there is not, and a moment that is yet to come.
    forge(&path, |kept| {
        let caution = serde_json::json!({"name": "no-such", "date": "2026-11-24", "about": null, "found": 0, "threshold": 0, "message": "", "places": [], "is_new": true});
        kept["rows"]["ada"]["line"]["cautions"] = vec![caution].into();
    });
    assert_eq!(answer(root, cache, &[]), plain);
    forge(&path, |kept| kept["rows"]["ada"]["line"]["name"] = "Abe".into());
    forge(&path, |kept| kept["at"]["secs"] = 99_999_999_999_u64.into());
    assert_eq!(answer(root, cache, &[]), plain);
}

/// The next save may leave the same stamp, so that nobody could see it.
#[test]
fn a_page_that_was_saved_just_now_is_not_kept() {
    let (journal, cache) = settled();
    let journal = journal.file("ada/a.md", "## 2026-11-24\n- Deadlift: 5 @ 185 kg\n");
    answer(journal.root(), cache.path(), &[]);
    let [path] = kept(cache.path()).try_into().unwrap();
    forge(&path, |kept| assert!(kept["rows"]["bo"].is_object() && kept["rows"]["ada"].is_null(), "{kept}"));
}

#[test]
fn a_page_that_cannot_be_read_is_told_each_time() {
    let (journal, cache) = settled();
    std::os::unix::fs::symlink("nowhere", journal.root().join("bo/b.md")).unwrap();
    for _ in 0..2 {
        let (_, _, err) = answer(journal.root(), cache.path(), &[]);
        assert!(err.contains("1 page could not be read (bo/b.md)"), "{err}");
        same(journal.root(), cache.path(), "a link that leads nowhere");
    }
}

#[test]
fn whatever_is_wrong_with_what_is_kept_the_answer_is_the_same() {
    let (journal, cache) = settled();
    let (root, cache) = (journal.root(), cache.path());
    let plain = answer(root, off(), &[]);
    answer(root, cache, &[]);
    let [path] = kept(cache).try_into().unwrap();
    let whole = fs::read(&path).unwrap();
    let random = &mut Random::new(5);
    for _ in 0..30 {
        let mut bytes = whole.clone();
        let at = random.below(bytes.len());
        match random.below(4) {
            0 => bytes.truncate(at),
            1 => bytes[at] ^= 1 << random.below(8),
            2 => drop(bytes.splice(at..at, *b"\xff\0")),
            _ => bytes = b"{}".to_vec(),
        }
        fs::write(&path, &bytes).unwrap();
        assert_eq!(answer(root, cache, &[]), plain, "{}", String::from_utf8_lossy(&bytes));
        assert!(answer(root, cache, &[]) == plain && fs::read(&path).unwrap() != bytes, "it is written anew");
    }
    let forms: [&dyn Fn(&mut Value); 4] = [
        &|kept| kept["rows"]["ada"] = Value::Null,
        &|kept| kept["rows"]["ada"]["line"]["week"] = "three".into(),
        &|kept| kept["rows"] = Value::Null,
        &|kept| *kept = Value::Null,
    ];
    for form in forms {
        forge(&path, form);
        assert_eq!(answer(root, cache, &[]), plain);
    }
    // A folder stands where the file would.
    fs::remove_file(&path).unwrap();
    fs::create_dir(&path).unwrap();
    assert_eq!(answer(root, cache, &[]), plain);
    // The folder is none, or cannot be made.
    let file = cache.join("file");
    fs::write(&file, "").unwrap();
    for cache in [file.clone(), file.join("below"), PathBuf::from("/proc/none"), PathBuf::from("\u{7}/../..")] {
        assert_eq!(answer(root, &cache, &[]), plain, "{}", cache.display());
    }
}

#[test]
fn nothing_is_written_where_the_journal_lies_nor_where_it_is_switched_off() {
    let (journal, outside) = settled();
    let root = journal.root();
    let files = || -> BTreeMap<PathBuf, SystemTime> {
        let all = walkdir::WalkDir::new(root).into_iter().map(Result::unwrap);
        all.map(|one| (one.path().to_owned(), one.metadata().unwrap().modified().unwrap())).collect()
    };
    let before = files();
    let link = outside.path().join("link");
    std::os::unix::fs::symlink(root, &link).unwrap();
    for cache in [root.to_owned(), root.join(".cache/loadline"), root.join("ada"), link.join("cache")] {
        assert_eq!(answer(root, &cache, &[]), answer(root, off(), &[]));
        assert_eq!(answer(&link, &cache, &[]), answer(&link, off(), &[]));
    }
    assert_eq!(files(), before);
    assert_eq!(fs::read_dir(outside.path()).unwrap().count(), 1);
    // As XDG has it, below the home folder.
    let mut command = roster(root, off(), &[]);
    command.env_remove("LOADLINE_CACHE").env("HOME", outside.path());
    assert!(command.output().unwrap().status.success());
    assert_eq!(kept(&outside.path().join(".cache/loadline")).len(), 1);
    assert_eq!(files(), before);
}

#[test]
fn killed_runs_leave_nothing_that_the_next_would_trust() {
    let (journal, cache) = settled();
    let (root, cache) = (journal.root(), cache.path());
    let plain = answer(root, off(), &[]);
    for nth in 0..40 {
        kept(cache).into_iter().for_each(|path| fs::remove_file(path).unwrap());
        let mut child = roster(root, cache, &[]).stdout(Stdio::null()).stderr(Stdio::null()).spawn().unwrap();
        thread::sleep(Duration::from_micros(500 * nth));
        let _ = child.kill();
        child.wait().unwrap();
        assert_eq!(answer(root, cache, &[]), plain);
        assert_eq!(answer(root, cache, &[]), plain);
    }
    fs::write(cache.join("roster-aB3.part"), "0123\n{").unwrap();
    kept(cache).into_iter().for_each(|path| fs::remove_file(path).unwrap());
    assert_eq!(answer(root, cache, &[]), plain);
    let names: Vec<_> = fs::read_dir(cache).unwrap().map(|entry| entry.unwrap().file_name()).collect();
    assert_eq!(names.len(), 2, "the answer and the lock: {names:?}");
}

/// Several at once, and one who writes into the pages meanwhile.
#[test]
fn processes_at_once_agree_with_the_pages() {
    let random = &mut Random::new(3);
    let (journal, cache, outside) = (team(random), tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    let (root, cache) = (journal.root(), cache.path());
    thread::sleep(SETTLED);
    let plain = answer(root, off(), &[]);
    let at_once = |count: usize| -> Vec<_> {
        let run = || roster(root, cache, &[]).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
        let running: Vec<_> = (0..count).map(|_| run()).collect();
        running.into_iter().map(|child| said(&child.wait_with_output().unwrap())).collect()
    };
    for _ in 0..4 {
        kept(cache).into_iter().for_each(|path| fs::remove_file(path).unwrap());
        for said in at_once(4) {
            assert_eq!(said, plain);
        }
    }
    for round in 0..cases("LOADLINE_INDEX", 2).div_ceil(2) as u64 {
        thread::scope(|scope| {
            let writing = scope.spawn(|| {
                let random = &mut Random::new(round);
                for _ in 0..20 {
                    change(root, outside.path(), random);
                    thread::sleep(Duration::from_millis(5));
                }
            });
            while !writing.is_finished() {
                at_once(2);
            }
        });
        same(root, cache, "writing at the same time");
        thread::sleep(SETTLED);
        same(root, cache, "that, and settled");
        same(root, cache, "that, and kept");
    }
}
