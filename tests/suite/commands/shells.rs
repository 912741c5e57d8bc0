//! What a shell gets: completion of words, and manual pages.

use crate::support::journal::{Journal, example};
use crate::support::run;
use loadline::commands;
use std::path::Path;
use std::process::Command;

/// What the program offers for the last of these words, asked as bash's script asks.
fn offered(root: &Path, words: &[&str]) -> Vec<String> {
    let at = words.len().to_string();
    let out = Command::new(env!("CARGO_BIN_EXE_loadline"))
        .env_clear()
        .envs([("LOADLINE_COMPLETE", "bash"), ("LOADLINE_WORD", &at)])
        .env("LOADLINE_JOURNAL", root)
        .args(["--", "loadline"])
        .args(words)
        .output()
        .unwrap();
    assert!(out.status.success() && out.stderr.is_empty(), "{words:?}: {out:?}");
    String::from_utf8(out.stdout).unwrap().lines().map(str::to_owned).collect()
}

#[test]
fn lifts_lifters_blocks_and_meets_come_from_the_journal() {
    let root = example();
    assert_eq!(offered(&root, &["bes"]), ["best"]);
    assert_eq!(offered(&root, &["best", "Pause"]), ["Pause bench press", "Pause squat"]);
    assert_eq!(offered(&root, &["best", "front S"]), ["Front squat"], "in whatever case");
    assert_eq!(offered(&root, &["volume", "--lift", "\"Front sq"]), ["Front squat"], "within a quote");
    assert_eq!(offered(&root, &["recall", "Front\\ sq"]), ["Front squat"], "behind a backslash");
    assert_eq!(offered(&root, &["match", "--lifter", ""]), ["Anselm", "Nerys"]);
    assert_eq!(offered(&root, &["match", "--against", ""]), ["9", "8", "7", "6", "5"], "the newest first");
    let of_nerys = offered(&root, &["--lifter", "nerys", "match", "--block", ""]);
    assert!(of_nerys.contains(&"harbour".to_owned()) && !of_nerys.contains(&"9".to_owned()), "{of_nerys:?}");
    assert_eq!(offered(&root, &["meet", "2026-08"]), ["2026-08-29"]);
    assert_eq!(offered(&root, &["since", "--fam"]), ["--family"]);
}

#[test]
fn a_journal_that_is_named_on_the_line_is_the_one_that_is_meant() {
    let journal = Journal::new().file("a.md", "## 2026-03-03\n\n- Zercher squat: 3x8 @ 80 kg\n");
    let root = journal.root().to_str().unwrap();
    assert_eq!(offered(&example(), &["--journal", root, "best", "Zer"]), ["Zercher squat"]);
    assert_eq!(offered(Path::new("/no such folder"), &["best", "Zer"]), Vec::<String>::new());
}

/// Bash itself, completing what is typed.
#[cfg(unix)]
#[test]
fn bash_takes_the_script_and_what_it_offers() {
    let folder = Path::new(env!("CARGO_BIN_EXE_loadline")).parent().unwrap();
    let path = format!("{}:{}", folder.display(), std::env::var("PATH").unwrap_or_default());
    let typed = "source <(loadline completion bash)
        COMP_WORDS=(loadline recall 'Front\\ s'); COMP_CWORD=2
        _loadline_words loadline
        printf '%s\\n' \"${#COMPREPLY[@]}\" \"${COMPREPLY[@]}\"
        complete -p loadline";
    let out = Command::new("bash")
        .args(["--norc", "-c", typed])
        .env("PATH", path)
        .env("LOADLINE_JOURNAL", example())
        .output()
        .expect("bash");
    assert_eq!(
        String::from_utf8_lossy(&out.stdout),
        "1\nFront squat\ncomplete -o bashdefault -o filenames -F _loadline_words loadline\n",
        "{out:?}"
    );
}

#[test]
fn there_is_a_script_for_each_shell() {
    for (shell, word) in [
        ("bash", "complete -o filenames"),
        ("zsh", "#compdef loadline"),
        ("fish", "complete --keep-order"),
        ("elvish", "edit:completion:arg-completer"),
        ("powershell", "Register-ArgumentCompleter"),
    ] {
        let script = run::run_in(&std::env::temp_dir(), 80, &["completion", shell]);
        assert!(script.contains(word) && script.contains("LOADLINE_COMPLETE"), "{shell}\n{script}");
        assert!(!script.contains("--- "), "{shell}\n{script}");
    }
}

#[test]
fn every_command_has_a_manual_page_that_says_what_its_help_says() {
    let folder = tempfile::tempdir().unwrap();
    let into = folder.path().join("man1");
    let out = run::run_in(folder.path(), 80, &["man", "--into", "man1"]);
    assert_eq!(out, "");
    for name in commands::names() {
        let page = std::fs::read_to_string(into.join(format!("loadline-{name}.1"))).unwrap();
        let help = run::run_in(folder.path(), 80, &[&name, "--help"]);
        let first = help.lines().next().unwrap().replace('-', "\\-").replace('\'', "\\*(Aq");
        assert!(page.contains(&format!(".SH NAME\nloadline\\-{name} \\- {first}\n")), "{name}\n{page}");
        assert!(page.contains("Exit status: 0 "), "{name}");
        if name != "draft" {
            let printed = run::run_in(folder.path(), 80, &["man", &name]);
            assert!(printed.contains(".SH NAME") && printed.contains(&first), "{name}\n{printed}");
        }
    }
    let wrong = run::run_in(folder.path(), 80, &["man", "squat"]);
    assert!(
        wrong.starts_with("--- stderr\nloadline: there is no command `squat`; `loadline --help` has them all"),
        "{wrong}"
    );
}
