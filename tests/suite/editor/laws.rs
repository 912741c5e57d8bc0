//! What holds whatever is typed: problems are those of `check`, edits leave what is said, nothing ends the server.

use crate::support::editor::{Editor, applied};
use crate::support::journal::Journal;
use lsp_server::{Message, Notification, Request};
use proptest::prelude::*;
use serde_json::{Value, json};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

const PIECES: [&str; 22] = [
    "## 2026-11-24 heavier day\n",
    "## 2026-11-24\n",
    "# Block 3\n",
    "- starts: 2026-11-02\n",
    "- Front squat: 3x8 @ 100 kg\n",
    "- Front squat: as planned\n",
    "  - plan: 3x8 @ 80%\n",
    "  - 8 @ 100\n",
    "- Harbour wolk 3x8 60\n",
    "squats 3x8 100kg\n",
    " RPE 11",
    ", 5 @ 60,5",
    "é💪",
    "\r\n",
    "\n",
    "- bodyweight: 83\n",
    "- pain: left knee 6/10\n",
    "```\n",
    "<!--",
    "\t- ",
    " !depth",
    "- max: Back squat 150 kg\n",
];

/// Pieces of pages, each put in at some place.
fn typed() -> impl Strategy<Value = Vec<(usize, usize, usize)>> {
    proptest::collection::vec((any::<usize>(), 0usize..4, 0..PIECES.len()), 1..24)
}

fn floor(text: &str, at: usize) -> usize {
    (0..=at.min(text.len())).rev().find(|at| text.is_char_boundary(*at)).unwrap()
}

/// Problems as `check` tells them: page, line, column of characters, kind, message.
fn checked(root: &std::path::Path) -> Vec<(u64, u64, String, String)> {
    let answer = crate::support::run::json(root, &["check"]);
    let mut all: Vec<_> = answer["problems"]
        .as_array()
        .unwrap()
        .iter()
        .filter(|one| one["page"] == "b.md")
        .map(|one| {
            let text = |key: &str| one[key].as_str().unwrap().to_owned();
            (one["line"].as_u64().unwrap(), one["column"].as_u64().unwrap(), text("kind"), text("message"))
        })
        .collect();
    all.sort();
    all
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, failure_persistence: None, ..ProptestConfig::default() })]
    #[test]
    fn problems_are_those_of_check_after_any_edits(edits in typed()) {
        let journal = Journal::new().file("a.md", "# Block 2\n\n- starts: 2026-10-05\n- weeks: 4\n\n## 2026-10-06\n- Front squat: 3x8 @ 90 kg\n");
        let mut editor = Editor::of(&journal);
        let mut text = String::new();
        editor.open("b.md", "");
        for (at, deleted, piece) in edits {
            let start = floor(&text, at % (text.len() + 1));
            let end = floor(&text, start + deleted).max(start);
            let places = loadline::editor::Text::of(&text, loadline::editor::Encoding::Utf16);
            let range = places.range(loadline::source::Span::new(start, end));
            // Between the two halves of a line end there is no position.
            let span = places.span(range);
            text.replace_range(span.start as usize..span.end as usize, PIECES[piece]);
            editor.edit("b.md", json!([{ "range": range, "text": PIECES[piece] }]));
        }
        let shown = editor.problems("b.md");
        let journal = journal.file("b.md", &text);
        let lines = loadline::source::Lines::of(&text);
        let places = loadline::editor::Text::of(&text, loadline::editor::Encoding::Utf16);
        let mut told: Vec<_> = shown.iter().map(|one| {
            let start = serde_json::from_value(one["range"]["start"].clone()).unwrap();
            let place = lines.position(places.offset(start) as u32);
            let words = |key: &str| one[key].as_str().unwrap().to_owned();
            (u64::from(place.line), u64::from(place.column), words("code"), words("message"))
        }).collect();
        told.sort();
        let checked = checked(journal.root());
        let without_places = |all: &[(u64, u64, String, String)]| all.iter().map(|(_, _, kind, words)| (kind.clone(), words.clone())).collect::<std::collections::BTreeSet<_>>();
        prop_assert_eq!(without_places(&told), without_places(&checked), "{:?}", text);
        if !text.contains('\r') {
            prop_assert_eq!(told, checked, "{:?}", text);
        }

        // Every edit that mends a problem takes it away.
        for problem in shown {
            let params = json!({ "textDocument": { "uri": editor.address("b.md") }, "range": problem["range"], "context": { "diagnostics": [], "only": ["quickfix"] } });
            for action in editor.ask("textDocument/codeAction", params).unwrap().as_array().unwrap() {
                let of = &action["diagnostics"][0];
                let here = action["edit"]["changes"].get(editor.address("b.md"));
                let (true, Some(here)) = (action["isPreferred"] == true && *of == problem, here) else { continue };
                editor.change("b.md", &applied(&text, here));
                let left = editor.problems("b.md");
                prop_assert!(!left.contains(&problem), "{:?} {action}", text);
                editor.change("b.md", &text);
            }
        }

        // Tidying leaves the sets as they are.
        let sets = |journal: &Journal| crate::support::run::json(journal.root(), &["history", "Front squat"])["marks"].to_string();
        let before = sets(&journal);
        let tidied = applied(&text, &editor.of_page("textDocument/formatting", "b.md"));
        let journal = journal.file("b.md", tidied);
        prop_assert_eq!(sets(&journal), before);
    }

    #[test]
    fn no_message_ends_it(method in 0usize..26, params in 0usize..8, notice in any::<bool>()) {
        const METHODS: [&str; 26] = [
            "textDocument/codeAction", "textDocument/codeLens", "textDocument/completion", "textDocument/definition",
            "textDocument/documentHighlight", "textDocument/documentSymbol", "textDocument/foldingRange", "textDocument/formatting",
            "textDocument/hover", "textDocument/inlayHint", "textDocument/onTypeFormatting", "textDocument/prepareRename",
            "textDocument/rangeFormatting", "textDocument/references", "textDocument/rename", "textDocument/selectionRange",
            "textDocument/semanticTokens/full", "textDocument/semanticTokens/full/delta", "workspace/executeCommand",
            "workspace/symbol", "textDocument/didOpen", "textDocument/didChange", "textDocument/didClose",
            "workspace/didChangeWatchedFiles", "initialize", "",
        ];
        let journal = Journal::new().page("## 2026-11-24\n- Front squat: 3x8 @ 100 kg\n");
        let mut editor = Editor::of(&journal);
        let far = json!({ "line": 4_000_000_000u32, "character": 4_000_000_000u32 });
        let near = json!({ "line": 1, "character": 3 });
        let uri = editor.address("page.md");
        let of = |uri: &str, at: &Value| json!({
            "textDocument": { "uri": uri, "version": 1, "languageId": "", "text": "\u{feff}- a: 1x1\r" }, "position": at, "positions": [at, at],
            "range": { "start": at, "end": near }, "contentChanges": [{ "range": { "start": at, "end": near }, "text": "x" }],
            "context": { "diagnostics": [], "includeDeclaration": true }, "newName": "", "query": "", "ch": "\n", "previousResultId": "9",
            "options": { "tabSize": 2, "insertSpaces": true }, "command": "loadline.session", "arguments": [uri, at],
            "changes": [{ "uri": uri, "type": 3 }],
        });
        let params = match params {
            0 => Value::Null,
            1 => json!([]),
            2 => json!({ "textDocument": 7 }),
            3 => of("untitled:one", &near),
            4 => of("file:///no/such/folder/page.md", &near),
            5 => of(&uri, &far),
            6 => of(&uri, &near),
            _ => of("http://[::1]/%ff", &json!({ "line": -1, "character": 1.5 })),
        };
        let method = METHODS[method].to_owned();
        if notice {
            editor.send(Message::Notification(Notification { method, params }));
        } else {
            editor.send(Message::Request(Request { id: "any".to_owned().into(), method, params }));
        }
        editor.open("page.md", "## 2026-11-24\n- Front squat: 3x8 @ 100 kg RPE 11\n");
        prop_assert_eq!(editor.problems("page.md").len(), 1);
    }
}

#[test]
fn a_panic_is_an_error_and_no_end() {
    let journal = Journal::new();
    let broken = Arc::new(AtomicBool::new(false));
    let clock = Arc::clone(&broken);
    let mut editor = Editor::on(journal.root(), json!({}), json!({}), move || {
        assert!(!clock.load(Ordering::SeqCst), "a clock that is broken, for this test");
        "2026-11-25".parse().unwrap()
    });
    editor.open("page.md", "## 2026-11-24\n- Front squat: 3x8 @ 100 kg RPE 11\n");
    assert_eq!(editor.problems("page.md").len(), 1);
    broken.store(true, Ordering::SeqCst);
    let params = json!({ "textDocument": { "uri": editor.address("page.md") } });
    let asked = editor.ask("textDocument/documentSymbol", params);
    assert_eq!(asked.unwrap_err(), "`textDocument/documentSymbol` went wrong");
    broken.store(false, Ordering::SeqCst);
    editor.change("page.md", "## 2026-11-24\n- Front squat: 3x8 @ 100 kg RPE 8\n");
    assert_eq!(editor.problems("page.md").len(), 0);
    assert_eq!(editor.end(), Ok(()));
}

#[test]
fn nothing_is_written() {
    let journal = Journal::new().page("-  front squats: 3X8@100\n");
    let before = std::fs::metadata(journal.root().join("page.md")).unwrap().modified().unwrap();
    let mut editor = Editor::of(&journal);
    editor.open("page.md", "## 2026-11-24\n- front squats: 3X8@100\n");
    editor.of_page("textDocument/formatting", "page.md");
    assert_eq!(std::fs::metadata(journal.root().join("page.md")).unwrap().modified().unwrap(), before);
    assert_eq!(std::fs::read_dir(journal.root()).unwrap().count(), 2);
}
