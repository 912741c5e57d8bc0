//! Real editors, run without a screen: each opens a page, sees a wrong line, applies the fix, completes a lift, renames it
//! and saves. `LOADLINE_NVIM` names Neovim 0.11 or newer, `LOADLINE_EMACS` an Emacs with eglot; `.ci/run` sets both where it
//! can. Where one is not named, its test says so on standard error and ends.

use crate::support::journal::Journal;
use std::fs;
use std::io::Write;
use std::path::Path;
use std::process::{Command, Output, Stdio};
use std::time::{Duration, Instant};

/// An editor that takes longer than this hangs.
const LONGEST: Duration = Duration::from_secs(120);

fn journal() -> Journal {
    Journal::new()
        .file("journal.yaml", "lifts:\n  - { name: Cable squat, family: squat }\n")
        .file("a.md", "## 2026-11-20 heavier day\n\n- Cable squat: 3x8 @ 50 kg\n- Front squat: 3x5 @ 105 kg RPE 8\n")
        .page("## 2026-11-24 heavier day\n\n- Cable squat: 3x8 @ 52.5 kg\n")
}

/// The editor that a variable names; nothing, said aloud, where it names none.
fn named(variable: &str) -> Option<String> {
    let named = std::env::var(variable).ok().filter(|named| !named.is_empty());
    if named.is_none() {
        // Past the capture of the test runner: a test that looked at nothing must not look as if it had.
        let words = format!("{variable} names no editor, so none was run\n");
        let _ = std::io::stderr().write_all(words.as_bytes());
    }
    named
}

/// Runs an editor in a journal's folder: what it said, and what the page says then.
fn run(journal: &Journal, mut editor: Command) -> (String, String) {
    let home = tempfile::tempdir().unwrap();
    let program = env!("CARGO_BIN_EXE_loadline");
    editor
        .current_dir(journal.root())
        .env("LOADLINE", program)
        .env("HOME", home.path())
        .env("XDG_STATE_HOME", home.path());
    editor.stdin(Stdio::null()).stdout(Stdio::piped()).stderr(Stdio::piped());
    let output = within(editor);
    let said = fs::read_to_string(journal.root().join("said.txt")).unwrap_or_else(|_| {
        panic!(
            "it said nothing: {}{}",
            String::from_utf8_lossy(&output.stdout),
            String::from_utf8_lossy(&output.stderr)
        )
    });
    (said, fs::read_to_string(journal.root().join("page.md")).unwrap())
}

fn within(mut editor: Command) -> Output {
    let mut child = editor.spawn().expect("the editor that is named");
    let begun = Instant::now();
    while child.try_wait().unwrap().is_none() {
        if begun.elapsed() > LONGEST {
            child.kill().unwrap();
            break;
        }
        std::thread::sleep(Duration::from_millis(50));
    }
    child.wait_with_output().unwrap()
}

fn script(name: &str) -> std::path::PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/suite/editor").join(name)
}

const PAGE: &str = "## 2026-11-24 heavier day\n\n- Harbour squat: 3x8 @ 52.5 kg\n- Bench press: 3x8 @ 60.5 kg RPE 7-8 (é💪)\n- Front squat: 3x5 @ 110 kg RPE 8\n";

/// What holds of the journal after either editor.
fn check(journal: &Journal, page: &str) {
    assert_eq!(page, PAGE);
    assert!(fs::read_to_string(journal.root().join("a.md")).unwrap().contains("- Harbour squat: 3x8 @ 50 kg"));
    assert!(fs::read_to_string(journal.root().join("journal.yaml")).unwrap().contains("name: Harbour squat"));
    let sets = journal.run(&["history", "Harbour squat"]);
    assert!(sets.contains("3x8 @ 50 kg") && sets.contains("3x8 @ 52.5 kg"), "{sets}");
}

#[test]
fn neovim_writes_a_page_with_it() {
    let Some(nvim) = named("LOADLINE_NVIM") else { return };
    let journal = journal();
    let mut editor = Command::new(nvim);
    editor.args(["--headless", "--clean", "-l"]).arg(script("neovim.lua"));
    let (said, page) = run(&journal, editor);
    assert_eq!(
        said,
        "4 30 reversed-effort `RPE 8-7` is a range the wrong way round\n\
         - Bench press: 3x8 @ 60.5 kg RPE 7-8 (é💪)\n\
         Front squat 3x5 @ 105 kg RPE 8, 2026-11-20\n"
    );
    check(&journal, &page);
}

#[test]
fn emacs_writes_a_page_with_it() {
    let Some(emacs) = named("LOADLINE_EMACS") else { return };
    let journal = journal();
    let mut editor = Command::new(emacs);
    // Debian's packages stand where only a start with site files finds them.
    editor.args(["--batch", "-f", "package-initialize", "-l"]).arg(script("emacs.el"));
    let (said, page) = run(&journal, editor);
    assert_eq!(
        said,
        "Write `RPE 7-8`\n\
         - Bench press: 3x8 @ 60.5 kg RPE 7-8 (é💪)\n\
         0 fixes left\n\
         Front squat 3x5 @ 105 kg RPE 8, 2026-11-20\n"
    );
    check(&journal, &page);
}
