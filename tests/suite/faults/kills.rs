//! Every command that writes, killed at each of its system calls that could leave something half done, or with a disk
//! that is full from that call on. The calls are found by tracing a whole run, so none is left to luck.

use super::{has, tree};
use crate::support::cases;
use crate::support::run::TODAY;
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use std::process::Command;

/// The calls by which a run changes what is on the disk.
const WRITING: &str = "?open,openat,?mkdir,mkdirat,write,?rename,renameat,renameat2,?link,linkat,?unlink,unlinkat,?rmdir,ftruncate,\
                       fsync,fdatasync,?chmod,fchmod,fchown,flock";

const PAGE: &str =
    "# Block 1\n- starts: 2026-11-02\n- weeks: 6\n\n## 2026-11-18 pull day\n\n-   Deadlift: 3x5 @ 140 kg RPE 8\n";

fn journal(folder: &Path) {
    fs::create_dir_all(folder.join("months")).unwrap();
    fs::write(folder.join("journal.yaml"), "").unwrap();
    fs::write(folder.join("page.md"), PAGE).unwrap();
    fs::write(folder.join("months/2025-01.md"), "## 2025-01-01\n\n- Dip: 3x8\n").unwrap();
    fs::write(folder.join("ours.md"), PAGE.replace("140", "145")).unwrap();
    fs::write(folder.join("theirs.md"), format!("{PAGE}\n## 2026-11-19\n\n- Dip: 3x8\n")).unwrap();
    fs::write(folder.join("sets.csv"), "Date,Lift,Reps\n2026-07-01,Dip,5\n2026-08-01,Dip,6\n2026-09-01,Dip,7\n")
        .unwrap();
    fs::write(folder.join("map.yaml"), "columns: { date: Date, lift: Lift, reps: Reps }\n").unwrap();
    fs::write(folder.join("notes.txt"), "2026-04-01\nDips 3x8\n\n2026-05-01\nDips 3x9\n").unwrap();
}

/// What a command is asked in: a journal that is named is that of two lifters.
fn laid_out(folder: &Path, arguments: &[&str]) {
    if is_club(arguments) { club(folder) } else { journal(folder) }
}

fn is_club(arguments: &[&str]) -> bool {
    arguments.first() == Some(&"--journal")
}

/// A journal of two lifters, one of whom has plans on two pages.
fn club(folder: &Path) {
    for lifter in ["ada", "bo"] {
        let own = folder.join("club").join(lifter);
        fs::create_dir_all(&own).unwrap();
        fs::write(own.join("lifter.yaml"), format!("name: {lifter}\n")).unwrap();
        fs::write(own.join("page.md"), format!("{PAGE}\n## 2026-11-27\n\n- Dip:\n  - plan: 3x8\n")).unwrap();
    }
    fs::write(folder.join("club/journal.yaml"), "").unwrap();
    let next = "# Block 2\n- starts: 2026-12-14\n- weeks: 4\n\n## 2026-12-16\n\n- Dip:\n  - plan: 3x8\n";
    fs::write(folder.join("club/bo/next.md"), next).unwrap();
}

/// A run of the program, traced or killed.
fn strace(folder: &Path, tracing: &[&str], arguments: &[&str]) -> std::process::Output {
    Command::new("strace")
        .args(["-f", "-qq", "-o", "/dev/null"])
        .args(tracing)
        .arg(assert_cmd::cargo::cargo_bin!("loadline"))
        .args(arguments)
        .args(["--on", TODAY])
        .current_dir(folder)
        .output()
        .unwrap()
}

/// How often a whole run makes each of the calls.
fn calls(arguments: &[&str]) -> (BTreeMap<String, usize>, BTreeMap<String, Vec<u8>>) {
    let folder = tempfile::tempdir().unwrap();
    laid_out(folder.path(), arguments);
    let log = folder.path().join("trace.log");
    let trace = format!("trace={WRITING}");
    let out = strace(folder.path(), &["-o", log.to_str().unwrap(), "-e", &trace], arguments);
    assert!(out.status.success(), "{arguments:?}: {}", String::from_utf8_lossy(&out.stderr));
    let mut calls = BTreeMap::new();
    for line in fs::read_to_string(&log).unwrap().lines() {
        let call = line.split_whitespace().nth(1).and_then(|call| call.split('(').next()).unwrap_or("");
        if call.starts_with(|c: char| c.is_ascii_lowercase()) {
            *calls.entry(call.to_owned()).or_default() += 1;
        }
    }
    fs::remove_file(log).unwrap();
    (calls, tree(folder.path()))
}

/// The files, but for those that are being made ready.
fn pages(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    tree(folder).into_iter().filter(|(path, _)| !path.split('/').any(|part| part == ".loadline")).collect()
}

const COMMANDS: [&[&str]; 11] = [
    &["import", "table", "sets.csv", "--columns", "map.yaml", "--write", "months"],
    &["--journal", "club", "--lifter", "bo", "shift", "--from", "2026-11-26", "--by", "1w", "--write"],
    &["--journal", "club", "draft", "week", "--all-lifters", "--write"],
    &["tidy", "--write", "page.md"],
    &["new", "fresh"],
    &["import", "notes", "notes.txt", "--write", "notes"],
    &["draft", "week", "--write", "page.md"],
    &["draft", "week", "--write", "next.md"],
    &["merge", "page.md", "ours.md", "theirs.md"],
    &["report", "--write", "report.html"],
    &["export", "--write", "export.csv"],
];

/// Runs each command again and again, something going wrong at another of its calls each time, and looks at what is left:
/// every file whole, none gone, and a second run ends as a first one would have. How many runs that were.
fn at_each_call(wrong: fn(&str, usize) -> Option<String>, after: fn(&str, &std::process::Output, bool)) -> usize {
    if !has("strace") || !strace(Path::new("/"), &[], &["--version"]).status.success() {
        eprintln!("no run can be traced here, so nothing goes wrong in one");
        return usize::MAX;
    }
    let mut runs = 0;
    for arguments in COMMANDS.iter().take(cases("LOADLINE_KILLS", 1)) {
        let (calls, wanted) = calls(arguments);
        for (call, nth) in calls.iter().flat_map(|(call, count)| (1..=*count).map(move |nth| (call, nth))) {
            let Some(inject) = wrong(call, nth) else { continue };
            let folder = tempfile::tempdir().unwrap();
            let folder = folder.path();
            laid_out(folder, arguments);
            let before = pages(folder);
            let out = strace(folder, &["-e", &inject], arguments);
            runs += 1;
            let told = format!("{arguments:?} with {inject}");
            after(&told, &out, pages(folder) == wanted);
            for (path, bytes) in pages(folder) {
                let whole = before.get(&path) == Some(&bytes) || wanted.get(&path) == Some(&bytes);
                assert!(whole, "{told}: {path} is {}", String::from_utf8_lossy(&bytes));
            }
            assert!(before.keys().all(|path| folder.join(path).exists()), "{told}: a file is gone");
            assert_eq!(
                folder.join("fresh/journal.yaml").exists(),
                folder.join("fresh").exists(),
                "{told}: half a journal"
            );
            // A week that was moved whole is not moved again: nobody asks for that who looks at the pages.
            let is_moved = arguments.contains(&"shift")
                && pages(folder) == wanted
                && !folder.join("club/.loadline/pages.json").exists();
            if !is_moved {
                strace(folder, &[], arguments);
            }
            assert_eq!(pages(folder), wanted, "{told}, and run again");
            let (own, places): (&[&str], &[&str]) = match is_club(arguments) {
                true => (&["--journal", "club", "--lifter", "bo"], &["club", "club/ada", "club/bo"]),
                false => (&[], &[".", "months"]),
            };
            for place in places {
                fs::write(folder.join(place).join("swept.csv"), "").unwrap();
                strace(folder, &[], &[own, &["export", "--write", &format!("{place}/swept.csv")]].concat());
                assert!(!folder.join(place).join(".loadline").exists(), "{told}: not swept");
            }
        }
    }
    runs
}

#[test]
fn a_run_that_is_killed_leaves_each_file_whole_and_the_next_one_goes_on() {
    let killed = at_each_call(|call, nth| Some(format!("inject={call}:signal=KILL:when={nth}")), |_, _, _| {});
    assert!(killed > 10, "{killed} kills");
    eprintln!("{killed} kills");
}

/// From some call on the disk takes no more.
#[test]
fn a_full_disk_is_told_and_leaves_each_file_whole() {
    let full = |call: &str, nth: usize| {
        let takes_space = ["write", "mkdir", "mkdirat", "rename", "renameat", "renameat2", "link", "linkat"];
        takes_space.contains(&call).then(|| format!("inject={call}:error=ENOSPC:when={nth}+"))
    };
    let told = |told: &str, out: &std::process::Output, done: bool| {
        let said = String::from_utf8_lossy(&out.stderr);
        assert!(done || out.status.code().is_some_and(|code| code != 0), "{told}: nothing is said\n{said}");
        assert!(!said.contains("panicked"), "{told}: {said}");
    };
    let runs = at_each_call(full, told);
    assert!(runs > 10, "{runs} runs");
}
