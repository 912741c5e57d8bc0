//! The language server on a lifetime of training: `cargo bench --bench editor`.
//!
//! Writes thirty years (about 10 MB), opens the page that is edited last, and measures in one run, each the middle and the
//! longest of many: from a keystroke to its problems, completion, hover, hints; and the time to the first answer and the
//! memory after so many edits. The same for a page of 1 MB.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing, clippy::print_stdout)]
#![allow(missing_docs, dead_code, unreachable_pub)]

#[path = "../tests/suite/support/generator/mod.rs"]
mod generator;

use chrono::NaiveDate;
use loadline::commands::opened;
use loadline::editor::{Machine, serve};
use lsp_server::{Connection, Message, Notification, Request};
use serde_json::{Value, json};
use std::cell::Cell;
use std::fs;
use std::path::Path;
use std::sync::Arc;
use std::time::Instant;

#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

const RUNS: usize = 101;
const EDITS: usize = 10_000;

fn write(root: &Path) -> (usize, String) {
    let journal = generator::lifetime(30, 7);
    for (path, text) in &journal.files {
        let path = root.join(path);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, text).unwrap();
    }
    let size = journal.files.iter().map(|(_, text)| text.len()).sum();
    let last = journal.files.iter().map(|(path, _)| path).filter(|path| path.ends_with(".md")).max().unwrap();
    (size, last.clone())
}

struct Editor {
    connection: Connection,
    asked: i32,
    version: i32,
}

impl Editor {
    fn of(root: &Path, today: NaiveDate) -> Editor {
        let (connection, theirs) = Connection::memory();
        let machine = Machine { opened, today: Arc::new(move || today) };
        std::thread::spawn(move || serve(&theirs, machine));
        let mut editor = Editor { connection, asked: 0, version: 0 };
        let root = url::Url::from_file_path(root).unwrap();
        editor.ask("initialize", json!({ "capabilities": {}, "rootUri": root }));
        editor.tell("initialized", json!({}));
        editor
    }

    fn tell(&self, method: &str, params: Value) {
        self.connection.sender.send(Message::Notification(Notification::new(method.to_owned(), params))).unwrap();
    }

    fn ask(&mut self, method: &str, params: Value) -> Value {
        self.asked += 1;
        let id = self.asked.into();
        self.connection
            .sender
            .send(Message::Request(Request::new(self.asked.into(), method.to_owned(), params)))
            .unwrap();
        loop {
            if let Message::Response(response) = self.connection.receiver.recv().unwrap()
                && response.id == id
            {
                return response.response_result.unwrap_or_default();
            }
        }
    }

    /// Waits for the problems of the text as it stands now.
    fn told(&self) {
        loop {
            if let Message::Notification(notice) = self.connection.receiver.recv().unwrap()
                && notice.params["version"] == self.version
            {
                return;
            }
        }
    }

    /// Puts a text in the place of another one.
    fn edit(&mut self, uri: &url::Url, from: &Value, to: &Value, with: &str) {
        self.version += 1;
        let changes = json!([{ "range": { "start": from, "end": to }, "text": with }]);
        let document = json!({ "uri": uri, "version": self.version });
        self.tell("textDocument/didChange", json!({ "textDocument": document, "contentChanges": changes }));
    }
}

/// How long something takes, in milliseconds.
fn time(work: impl FnOnce()) -> f64 {
    let start = Instant::now();
    work();
    start.elapsed().as_secs_f64() * 1000.0
}

/// The middle and the longest of many.
fn measured(mut work: impl FnMut(usize)) -> String {
    middle_and_worst((0..RUNS).map(|run| time(|| work(run))).collect())
}

fn middle_and_worst(mut times: Vec<f64>) -> String {
    times.sort_by(f64::total_cmp);
    format!("{:.1} ms in the middle, {:.1} ms at worst", times[RUNS / 2], times[RUNS - 1])
}

/// What the process holds, in bytes.
fn memory() -> usize {
    let status = fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find(|line| line.starts_with("VmRSS:")).unwrap_or("0 0");
    line.split_whitespace().nth(1).and_then(|kb| kb.parse::<usize>().ok()).unwrap_or(0) * 1024
}

fn measure(root: &Path, path: &str, text: &str, size: usize) {
    // The day after the last session, so that what is asked rests on two years of sets.
    let headings = text.lines().filter_map(|line| line.strip_prefix("## ")?.get(..10)?.parse::<NaiveDate>().ok());
    let today = headings.max().unwrap().succ_opt().unwrap();
    let begun = Instant::now();
    let mut editor = Editor::of(root, today);
    let uri = url::Url::from_file_path(root.join(path)).unwrap();
    let document = json!({ "uri": uri, "languageId": "markdown", "version": 0, "text": text });
    editor.tell("textDocument/didOpen", json!({ "textDocument": document }));
    editor.ask("textDocument/documentSymbol", json!({ "textDocument": { "uri": uri } }));
    println!("first answer: {:.1} ms after the start", begun.elapsed().as_secs_f64() * 1000.0);

    // A line of work at the end of the page, and the cursor in it.
    let line = text.matches('\n').count();
    let at = |character: usize| json!({ "line": line + 2, "character": character });
    let end = json!({ "line": line, "character": 0 });
    editor.edit(&uri, &end, &end, &format!("## {today}\n\n- Front squat: 3x8 @ 100 kg RPE 11\n"));
    editor.told();
    // RPE 21 and RPE 11 are wrong in other words, so that each is told.
    let turns = Cell::new(0u32);
    let letter = || {
        turns.set(turns.get() + 1);
        if turns.get().is_multiple_of(2) { "1" } else { "2" }
    };
    println!(
        "problems after a keystroke: {}",
        measured(|_| {
            editor.edit(&uri, &at(32), &at(33), letter());
            editor.told();
        })
    );
    let place = |character: usize| json!({ "textDocument": { "uri": uri }, "position": at(character) });
    let whole =
        json!({ "textDocument": { "uri": uri }, "range": { "start": { "line": 0, "character": 0 }, "end": at(0) } });
    let asked = [
        ("completion of a lift", "textDocument/completion", place(5)),
        ("completion of a load", "textDocument/completion", place(21)),
        ("hover on a lift", "textDocument/hover", place(5)),
        ("hints of the page", "textDocument/inlayHint", whole),
    ];
    for (name, method, params) in asked {
        println!("{name}: {}", measured(|_| drop(editor.ask(method, params.clone()))));
        // The same after a letter more, of which no answer before knows.
        let after = |_| {
            editor.edit(&uri, &at(32), &at(33), letter());
            editor.told();
            time(|| drop(editor.ask(method, params.clone())))
        };
        println!("{name}, after a letter: {}", middle_and_worst((0..RUNS).map(after).collect()));
    }
    let once = memory();
    for _ in 0..EDITS / 10 {
        for _ in 0..10 {
            editor.edit(&uri, &at(32), &at(33), letter());
        }
        editor.ask("textDocument/documentSymbol", json!({ "textDocument": { "uri": uri } }));
    }
    let times = |bytes: usize| bytes as f64 / size as f64;
    println!("memory: {:.1} times the text, {:.1} times after {EDITS} edits", times(once), times(memory()));
}

fn main() {
    let folder = tempfile::tempdir().unwrap();
    let root = folder.path().canonicalize().unwrap();
    let (size, last) = write(&root);
    let text = fs::read_to_string(root.join(&last)).unwrap();
    println!("thirty years, {:.1} MB; a page of {} kB", size as f64 / 1e6, text.len() / 1000);
    measure(&root, &last, &text, size);

    let mut long = String::new();
    let mut pages: Vec<_> =
        fs::read_dir(&root).unwrap().map(|entry| entry.unwrap().path()).filter(|path| path.is_file()).collect();
    pages.sort();
    for page in pages.iter().filter(|page| page.extension().is_some_and(|end| end == "md")) {
        if long.len() < 1_000_000 {
            long.push_str(&fs::read_to_string(page).unwrap());
        }
    }
    let alone = tempfile::tempdir().unwrap();
    let root = alone.path().canonicalize().unwrap();
    fs::write(root.join("journal.yaml"), "").unwrap();
    println!("one page of {:.1} MB", long.len() as f64 / 1e6);
    measure(&root, "long.md", &long, long.len());
}
