//! A lifetime of training, read and asked: `cargo bench --bench lifetime`.
//!
//! Writes thirty years (about 10 MB) and three, and measures in one run, each the median of several: the lexer, the parser
//! alone and with meaning on one thread, the commands as whole processes, `cat` into `wc -l` of the same files, and
//! `best_set.py` beside this file, which finds the same set with regular expressions; and how long after a save
//! `match --watch`, `check --watch` and `session --watch` answer.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing, clippy::print_stdout)]
#![allow(missing_docs, dead_code, unreachable_pub)]

#[path = "../tests/suite/support/generator/mod.rs"]
mod generator;

use loadline::journal::{Memory, open};
use loadline::meaning;
use loadline::notation::{Reader, tokens};
use loadline::source::Page;
use std::fs;
use std::io::Read;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

const RUNS: usize = 9;

fn write(root: &Path, years: u32) -> usize {
    let journal = generator::lifetime(years, 7);
    for (path, text) in &journal.files {
        let path = root.join(path);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, text).unwrap();
    }
    journal.files.iter().map(|(_, text)| text.len()).sum()
}

/// The median, in milliseconds.
fn median(mut measured: impl FnMut()) -> f64 {
    measured();
    let mut times: Vec<f64> = (0..RUNS)
        .map(|_| {
            let start = Instant::now();
            measured();
            start.elapsed().as_secs_f64() * 1000.0
        })
        .collect();
    times.sort_by(f64::total_cmp);
    times[RUNS / 2]
}

fn process(program: &str, arguments: &[&str]) -> f64 {
    median(|| {
        // Each time everything is read.
        let mut command = Command::new(program);
        let status =
            command.env("LOADLINE_CACHE", "off").args(arguments).stdout(Stdio::null()).status().expect("it runs");
        assert!(status.success(), "{program} {arguments:?}");
    })
}

/// From the end of a save to the answer, in milliseconds: the median, and the longest.
fn after_a_save(program: &str, root: &Path, command: &str) -> (f64, f64) {
    let page = root.join("2056 last.md");
    // Each save changes each answer: another load, and another line that is wrong.
    let save = |load: usize| {
        let work = format!("- Front squat: 3x8 @ {load} kg\n- Bench press: {load} kg 3x8\n");
        fs::write(&page, format!("# Block last\n\n- starts: 2055-12-27\n\n## 2056-01-01\n\n{work}")).unwrap();
    };
    save(100);
    let mut child = Command::new(program)
        .arg("--journal")
        .arg(root)
        .args(["--on", "2056-01-01", command, "--watch"])
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .expect("it runs");
    let mut out = child.stdout.take().unwrap();
    let mut answer = vec![0; 1 << 20];
    assert!(out.read(&mut answer).unwrap() > 0);
    let mut times: Vec<f64> = (1..=RUNS)
        .map(|run| {
            std::thread::sleep(Duration::from_millis(200));
            save(100 + run);
            let start = Instant::now();
            assert!(out.read(&mut answer).unwrap() > 0);
            start.elapsed().as_secs_f64() * 1000.0
        })
        .collect();
    child.kill().unwrap();
    child.wait().unwrap();
    fs::remove_file(page).unwrap();
    times.sort_by(f64::total_cmp);
    (times[RUNS / 2], times[RUNS - 1])
}

/// The Python itself: a program that only looks for the right one would be measured with it.
fn python() -> String {
    let output = Command::new("python3").args(["-c", "import sys; print(sys.executable)"]).output().expect("it runs");
    String::from_utf8(output.stdout).unwrap().trim().to_owned()
}

/// How many others want the cores, as the system tells it: of the last minute, five and fifteen.
fn machine_load() -> String {
    fs::read_to_string("/proc/loadavg").map_or("not told here".into(), |load| load.trim().to_owned())
}

/// Fails unless the script finds the same load: a race between two answers would prove nothing.
fn same_answer(program: &str, (python, script): (&str, &str), root: &str) {
    let output = |program: &str, arguments: &[&str]| {
        String::from_utf8(Command::new(program).args(arguments).output().expect("it runs").stdout).unwrap()
    };
    for reps in ["1", "8", "15"] {
        let question =
            ["--journal", root, "--on", "2056-01-01", "--format", "json", "best", "Front squat", "--reps", reps];
        let answer: serde_json::Value = serde_json::from_str(&output(program, &question)).unwrap();
        let load = format!("{:.2} kg", answer["best"]["load"]["kg"].as_f64().unwrap());
        assert_eq!(output(python, &[script, root, "Front squat", reps]).trim(), load, "at {reps} reps");
    }
}

fn main() {
    let folder = std::env::temp_dir().join(format!("loadline-bench-{}", std::process::id()));
    let (whole, tenth) = (folder.join("whole"), folder.join("tenth"));
    let bytes = write(&whole, 30);
    write(&tenth, 3);
    let megabytes = bytes as f64 / 1e6;
    let program = env!("CARGO_BIN_EXE_loadline");
    let path = |root: &PathBuf| root.display().to_string();
    let ask = |root: &PathBuf, rest: &[&str]| {
        process(program, &[&["--journal", path(root).as_str(), "--on", "2056-01-01"], rest].concat())
    };
    let pages: Vec<Page> = generator::lifetime(30, 7)
        .files
        .into_iter()
        .filter(|(path, _)| path.ends_with(".md"))
        .map(|(path, text)| Page::new(path, text.into_bytes()).unwrap())
        .collect();
    let texts: Vec<&str> = pages.iter().map(|page| page.text()).collect();
    let lexer = median(|| {
        let tokens: usize = texts.iter().flat_map(|text| text.lines()).map(|line| tokens(line).len()).sum();
        assert!(tokens > 0);
    });
    let parse = median(|| {
        let lines: usize =
            pages.iter().map(|page| Reader::new(page).map(|line| line.problems.len() + 1).sum::<usize>()).sum();
        assert!(lines > 0);
    });
    let files = generator::lifetime(30, 7).files;
    let files = files.into_iter().fold(Memory::default(), |files, (path, text)| files.with(&path, text));
    let opened = open(&files);
    let lifter = opened.lifter(None, None).unwrap();
    // Few pages are read on one thread, so they are read one by one.
    let understand = median(|| {
        let read = |path: String| meaning::read(&files, lifter, vec![path], None).log.sessions.len();
        assert!(opened.pages_of(lifter).into_iter().map(read).sum::<usize>() > 0);
    });
    let count = process("sh", &["-c", &format!("find '{}' -name '*.md' -exec cat {{}} + | wc -l", path(&whole))]);
    let best = ask(&whole, &["best", "Front squat", "--reps", "8"]);
    let matched = ask(&whole, &["match"]);
    let estimated = ask(&whole, &["estimate", "Front squat"]);
    let small = ask(&tenth, &["best", "Front squat", "--reps", "8"]);
    let small_match = ask(&tenth, &["match"]);
    let script = concat!(env!("CARGO_MANIFEST_DIR"), "/benches/best_set.py");
    let python = python();
    same_answer(program, (&python, script), &path(&whole));
    let by_script = process(&python, &[script, &path(&whole), "Front squat", "8"]);
    println!("machine load            {}", machine_load());
    println!("journal                 {megabytes:.1} MB in {} pages", pages.len());
    println!("lexer, one thread       {lexer:.1} ms, {:.0} MB/s", megabytes / lexer * 1000.0);
    println!("notation, one thread    {parse:.1} ms, {:.0} MB/s", megabytes / parse * 1000.0);
    println!("with meaning            {understand:.1} ms, {:.0} MB/s", megabytes / understand * 1000.0);
    println!("cat | wc -l             {count:.1} ms");
    println!(
        "best                    {best:.1} ms, {:.1} x counting lines, {:.1} x a tenth",
        best / count,
        best / small
    );
    println!(
        "match                   {matched:.1} ms, {:.1} x counting lines, {:.1} x a tenth",
        matched / count,
        matched / small_match
    );
    println!("estimate                {estimated:.1} ms, {:.1} x best", estimated / best);
    println!("best_set.py             {by_script:.1} ms, {:.1} x best", by_script / best);
    // A session to come.
    let page = whole.join("2056 last.md");
    fs::write(
        &page,
        "# Block last\n\n- starts: 2055-12-27\n\n## 2056-01-01\n\n- Front squat:\n  - plan: 3x8 @ 100 kg\n",
    )
    .unwrap();
    let others: [&[&str]; 7] = [
        &["since"],
        &["session"],
        &["history", "Front squat"],
        &["report"],
        &["tidy", "--check"],
        &["roster"],
        &["export"],
    ];
    for asked in others {
        let taken = ask(&whole, asked);
        println!("{:<23} {taken:.1} ms, {:.1} x best", asked.first().unwrap(), taken / best);
    }
    fs::remove_file(page).unwrap();
    for command in ["match", "check", "session"] {
        let (middle, longest) = after_a_save(program, &whole, command);
        println!("{command:<7} after a save    {middle:.1} ms, {longest:.1} at most");
    }
    let memory = Command::new("/usr/bin/time")
        .args(["-f", "%M", program, "--journal", &path(&whole), "best", "Front squat", "--reps", "8"])
        .output();
    if let Ok(output) = memory {
        let text = String::from_utf8_lossy(&output.stderr);
        if let Some(kilobytes) = text.lines().last().and_then(|line| line.trim().parse::<f64>().ok()) {
            println!(
                "peak memory of best     {:.1} MB, {:.1} x the text",
                kilobytes * 1024.0 / 1e6,
                kilobytes * 1024.0 / bytes as f64
            );
        }
    }
    println!("machine load at the end {}", machine_load());
    let _ = fs::remove_dir_all(folder);
}
