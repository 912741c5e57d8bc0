//! Real editors, run without a screen: each opens a page, sees a wrong line, applies the fix, completes a lift, renames it
//! and saves. `LOADLINE_NVIM` names Neovim 0.11 or newer, `LOADLINE_EMACS` an Emacs with eglot, `LOADLINE_VSCODE` a folder into
//! which npm has put the packages of docs/editors/vscode; `.ci/run` sets them where it can. Where one is not named, its test
//! says so on standard error and ends.

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
    editor.stdin(Stdio::null()).stdout(Stdio::piped()).stderr(Stdio::piped());
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

/// The extension is packed as its readme says, and what is in the pack drives the program; the editor is a stand-in.
#[test]
fn the_extension_for_vs_code_is_packed_and_speaks_with_it() {
    let Some(folder) = named("LOADLINE_VSCODE") else { return };
    let (journal, folder) = (journal(), Path::new(&folder));
    let extension = Path::new(env!("CARGO_MANIFEST_DIR")).join("docs/editors/vscode");
    for file in fs::read_dir(&extension).unwrap().map(|entry| entry.unwrap().path()).filter(|path| path.is_file()) {
        fs::copy(&file, folder.join(file.file_name().unwrap())).unwrap();
    }
    let packed = tempfile::tempdir().unwrap();
    let vsix = packed.path().join("loadline.vsix");
    let mut packing = Command::new("npm");
    packing.current_dir(folder).args(["run", "pack", "--", "--out"]).arg(&vsix);
    let output = within(packing);
    assert!(vsix.is_file(), "{}", String::from_utf8_lossy(&output.stderr));

    let mut editor = Command::new("node");
    editor.arg(script("vscode.js")).arg(folder.join("node_modules")).arg(&vsix);
    let (said, page) = run(&journal, editor);
    assert_eq!(
        said,
        "command loadline.session\n\
         watches **/*.md\n\
         watches **/journal.yaml\n\
         watches **/lifter.yaml\n\
         3 29 reversed-effort `RPE 8-7` is a range the wrong way round\n\
         Front squat 3x5 @ 105 kg RPE 8, 2026-11-20\n\
         hover true\n\
         behind = 32 kg\n\
         turned off 0\n"
    );
    check(&journal, &page);
}

/// What the extension can be told is what docs/editors.md lists, and the program's name; its version is the program's.
#[test]
fn the_extension_for_vs_code_has_the_switches_of_the_server() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let manifest = fs::read_to_string(root.join("docs/editors/vscode/package.json")).unwrap();
    let manifest: serde_json::Value = serde_json::from_str(&manifest).unwrap();
    assert_eq!(manifest["version"], env!("CARGO_PKG_VERSION"));
    let own = manifest["contributes"]["configuration"]["properties"].as_object().unwrap();
    let docs = fs::read_to_string(root.join("docs/editors.md")).unwrap();
    let table = docs.split("\n## ").find(|section| section.starts_with("Switches")).unwrap();
    let mut listed = vec![("loadline.command".to_owned(), "\"loadline\"".to_owned())];
    for row in table.lines().filter_map(|line| line.strip_prefix("| `")) {
        let mut cells = row.split(" | ");
        let (name, default) = (cells.next().unwrap(), cells.next().unwrap());
        listed
            .push((format!("loadline.{}", name.trim_matches('`')), default.trim_matches('`').replace("none", "null")));
    }
    let mut said: Vec<(String, String)> =
        own.iter().map(|(key, one)| (key.clone(), one["default"].to_string())).collect();
    listed.sort();
    said.sort();
    assert_eq!(said, listed);
    // A journal must not name a program that is then started.
    assert_eq!(own["loadline.command"]["scope"], "machine");
}
