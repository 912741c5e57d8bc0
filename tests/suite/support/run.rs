//! The program run on a journal.

use assert_cmd::cargo::cargo_bin_cmd;
use std::ffi::OsString;
use std::path::Path;

/// The day that tests answer for.
pub const TODAY: &str = "2026-11-25";

/// Runs the program on a journal; one text of everything it says.
pub fn run(root: &Path, width: usize, arguments: &[&str]) -> String {
    let root = root.to_str().expect("a path in UTF-8");
    let text = run_in(&std::env::temp_dir(), width, &[&["--journal", root], arguments].concat());
    text.replace(root, "<journal>")
}

/// Runs the program in a folder, with nothing said about the journal but by the arguments.
pub fn run_in(folder: &Path, width: usize, arguments: &[&str]) -> String {
    let mut command = cargo_bin_cmd!("loadline");
    command.env_clear().envs(to_find_git()).env("COLUMNS", width.to_string()).current_dir(folder).args(arguments);
    if !arguments.contains(&"--on") {
        command.args(["--on", TODAY]);
    }
    let output = command.output().expect("the program runs");
    let mut text = String::from_utf8(output.stdout).expect("UTF-8");
    if !output.stderr.is_empty() {
        text.push_str("--- stderr\n");
        text.push_str(&String::from_utf8(output.stderr).expect("UTF-8"));
    }
    match output.status.code() {
        Some(0) => {}
        Some(code) => text.push_str(&format!("--- exit {code}\n")),
        None => text.push_str("--- killed\n"),
    }
    text
}

/// What git is found by, and kept from the machine's settings.
fn to_find_git() -> Vec<(&'static str, OsString)> {
    let path = std::env::var_os("PATH").map(|path| ("PATH", path));
    path.into_iter().chain([("GIT_CONFIG_NOSYSTEM", "1".into())]).collect()
}

/// Whether what a command says is an answer and nothing else. A draft says on standard error how it came about, an import
/// how many rows it took; a shift shows a difference.
pub fn is_answer(arguments: &[&str], out: &str) -> bool {
    let says_how = ["draft", "import", "shift"].iter().any(|one| arguments.contains(one))
        && !out.contains("--- exit")
        && !out.starts_with("--- stderr");
    !out.is_empty() && (says_how || !out.contains("--- "))
}

/// The words of a command line; double quotes hold a word together.
pub fn words(line: &str) -> Vec<&str> {
    let mut words = Vec::new();
    for (at, part) in line.split('"').enumerate() {
        if at % 2 == 1 { words.push(part) } else { words.extend(part.split_whitespace()) }
    }
    words
}

/// Runs the program with `--format json`, and reads what it prints whatever its exit status.
pub fn json(root: &Path, arguments: &[&str]) -> serde_json::Value {
    let mut command = cargo_bin_cmd!("loadline");
    command
        .env_clear()
        .envs(to_find_git())
        .current_dir(std::env::temp_dir())
        .arg("--journal")
        .arg(root)
        .args(arguments)
        .args(["--format", "json"]);
    if !arguments.contains(&"--on") {
        command.args(["--on", TODAY]);
    }
    let output = command.output().expect("the program runs");
    let text = String::from_utf8(output.stdout).expect("UTF-8");
    serde_json::from_str(&text)
        .unwrap_or_else(|error| panic!("{error}: {text}{}", String::from_utf8_lossy(&output.stderr)))
}
