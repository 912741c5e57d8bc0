//! A terminal that records every byte that it is sent.

use super::has;
use crate::support::run::TODAY;
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;
use std::process::Command;

/// Sets a terminal's title, where it is sent as it is; the second is the same in eight bits.
const HOSTILE: &str = "\u{1b}]0;x\u{7}\u{9d}0;x\u{9c}";

/// What a command prints on a terminal.
fn recorded(folder: &Path, arguments: &[String]) -> String {
    let quoted = |word: &str| format!("'{}'", word.replace('\'', "'\\''"));
    let program = assert_cmd::cargo::cargo_bin!("loadline").display().to_string();
    let line: Vec<String> =
        std::iter::once(program.as_str()).chain(arguments.iter().map(String::as_str)).map(quoted).collect();
    let output = Command::new("script")
        .args(["--quiet", "--return", "--command", &line.join(" "), "/dev/null"])
        .current_dir(folder)
        .env_remove("LOADLINE_JOURNAL")
        .envs([
            ("LOADLINE_CACHE", "off"),
            ("LOADLINE_PAGER", ""),
            ("TERM", "xterm"),
            ("COLUMNS", "100"),
            ("SHELL", "/bin/sh"),
        ])
        .stdin(std::process::Stdio::null())
        .output()
        .unwrap();
    String::from_utf8_lossy(&output.stdout).into_owned()
}

/// What a terminal would do other than show letters, colour them, and begin a line.
fn obeyed(text: &str) -> Option<String> {
    let mut rest = text;
    while let Some(at) = rest.find(|c: char| c.is_control() && !matches!(c, '\n' | '\r')) {
        let sequence = &rest[at..];
        let colour = sequence.strip_prefix("\u{1b}[").and_then(|after| {
            let end = after.find(|c: char| !c.is_ascii_digit() && c != ';')?;
            after[end..].strip_prefix('m')
        });
        match colour {
            Some(after) => rest = after,
            None => return Some(sequence.chars().take(20).collect()),
        }
    }
    None
}

#[test]
fn no_command_sends_a_terminal_what_it_would_obey() {
    if !has("script") {
        return;
    }
    let home = tempfile::tempdir().unwrap();
    let root = home.path().join(format!("journal {HOSTILE}"));
    let page = format!("page {HOSTILE}.md");
    fs::create_dir_all(&root).unwrap();
    let settings = "lifts:\n- name: \"Row \\e]0;x\\a\"\n\"key \\e]0;x\\a\": 1\nname: \"Ilse \\e]0;x\\a\"\nexclude: [\"\\e]0;x\\a.md\"]\n";
    fs::write(root.join("journal.yaml"), settings).unwrap();
    fs::write(root.join("lifter.yaml"), "name: \"Ilse \\e]0;x\\a\"\n").unwrap();
    let text = format!(
        "# Block A{HOSTILE}\n\n- starts: 2026-11-02\n- weeks: 4\n- key {HOSTILE}: 1\n\n## 2026-11-18 day {HOSTILE}\n\n- Lift {HOSTILE}: \
         3x5 @ 100 kg RPE 8 !fault{HOSTILE} ({HOSTILE})\n- Back squat: 3x5 @ 100 kg RPE 8\n  > cue {HOSTILE}\n- Back sqat: 3x5 @ \"{HOSTILE}\"\n\n## \
         2026-11-25 day {HOSTILE}\n\n- Back squat: plan 3x5 @ 100 kg RPE 8\nback squat 3x5 100kg {HOSTILE}\n\n# Meet {HOSTILE}\n\n- date: 2026-12-20\n"
    );
    fs::write(root.join(&page), &text).unwrap();
    fs::write(root.join("other.md"), text.replace("100 kg", "105 kg")).unwrap();
    fs::write(root.join("sets.csv"), format!("Date,Lift{HOSTILE},Reps\n2026-11-30,{HOSTILE},5\n")).unwrap();
    fs::write(root.join("map.yaml"), "columns: {date: Date, lift: \"Lift\\e\", reps: Reps}\n").unwrap();
    let git = |arguments: &[&str]| Command::new("git").args(arguments).current_dir(&root).output().is_ok();
    let _ = git(&["init", "--quiet"]) && git(&["add", "--all"]);
    let _ = git(&["-c", "user.name=Ilse", "-c", "user.email=ilse@example.org", "commit", "--quiet", "-m", HOSTILE]);
    fs::write(root.join(&page), text.replace("3x5", "4x5")).unwrap();
    let lift = format!("Lift {HOSTILE}");
    let asked: Vec<Vec<&str>> = vec![
        vec!["session"],
        vec!["session", "--write", "card \u{1b}]0;x\u{7}.html"],
        vec!["match"],
        vec!["best", &lift, "--reps", "5"],
        vec!["best", "nothing \u{1b}]0;x\u{7}"],
        vec!["plates", "100 kg"],
        vec!["plates", HOSTILE],
        vec!["estimate", &lift],
        vec!["room", &lift],
        vec!["recall", "cue"],
        vec!["history", &lift],
        vec!["review"],
        vec!["adherence"],
        vec!["since", "2026-11-01"],
        vec!["since", HOSTILE],
        vec!["taper"],
        vec!["facts"],
        vec!["shift", "--from", "2026-11-26", "--by", "1w"],
        vec!["volume"],
        vec!["draft", "week"],
        vec!["draft", "block", "--starts", "2026-12-21", "--name", HOSTILE],
        vec!["draft", "week", "--write", "new \u{1b}]0;x\u{7}.md"],
        vec!["meet"],
        vec!["report"],
        vec!["report", "--write", "report \u{1b}]0;x\u{7}.html"],
        vec!["roster"],
        vec!["export"],
        vec!["export", "--as", "jsonl"],
        vec!["export", "--write", "sets \u{1b}]0;x\u{7}.csv"],
        vec!["check"],
        vec!["check", &page],
        vec!["tidy"],
        vec!["tidy", "--check"],
        vec!["tidy", &page],
        vec!["tidy", HOSTILE],
        vec!["flatten", &page],
        vec!["flatten", HOSTILE],
        vec!["changes"],
        vec!["changes", HOSTILE],
        vec!["merge", "--print", "/dev/null", &page, "other.md"],
        vec!["merge", "-p", "/dev/null", "sets.csv", "other.md"],
        vec!["merge", "--print", HOSTILE, &page, "other.md"],
        vec!["lifts"],
        vec!["new", HOSTILE],
        vec!["new", "."],
        vec!["import", "table", "sets.csv", "--columns", "map.yaml"],
        vec!["import", "notes", &page],
        vec!["import", "notes", HOSTILE],
        vec!["lsp", HOSTILE],
        vec!["completion", "bash"],
        vec!["man", "match"],
        vec!["man", HOSTILE],
        vec![HOSTILE],
        vec!["check", "--lifter", HOSTILE],
        vec!["check", "--journal", HOSTILE],
    ];
    let names: BTreeSet<String> = loadline::commands::names().into_iter().collect();
    let known: BTreeSet<String> =
        asked.iter().map(|words| words[0].to_owned()).filter(|name| names.contains(name)).collect();
    assert_eq!(known, names, "every command is asked");
    for words in asked {
        for format in ["text", "json"] {
            let mut arguments: Vec<String> = words.iter().map(|word| (*word).to_owned()).collect();
            arguments.extend(["--on", TODAY, "--format", format].map(str::to_owned));
            let shown = recorded(&root, &arguments);
            assert!(!shown.is_empty() || format == "json" || words.contains(&"--check"), "{arguments:?} shows nothing");
            assert_eq!(obeyed(&shown), None, "{arguments:?}: {shown:?}");
        }
    }
}

#[test]
fn the_recorder_sees_what_a_terminal_would_obey() {
    assert!(obeyed(HOSTILE).is_some() && obeyed("\u{1b}[2J").is_some() && obeyed("\u{9d}0;x").is_some());
    assert_eq!(obeyed("\u{1b}[1;31mred\u{1b}[0m\r\n"), None);
}
