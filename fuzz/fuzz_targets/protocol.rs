//! Any bytes as what an editor says: the server answers every request and lives on. The first byte picks the request; the
//! rest is the page, and where it parses as JSON, the parameters.

#![no_main]

use libfuzzer_sys::fuzz_target;
use loadline::commands::opened;
use loadline::editor::{Machine, serve};
use lsp_server::{Connection, Message, Notification, Request};
use serde_json::{Value, json};
use std::sync::Arc;

const METHODS: [&str; 20] = [
    "textDocument/codeAction",
    "textDocument/codeLens",
    "textDocument/completion",
    "textDocument/definition",
    "textDocument/documentHighlight",
    "textDocument/documentSymbol",
    "textDocument/foldingRange",
    "textDocument/formatting",
    "textDocument/hover",
    "textDocument/inlayHint",
    "textDocument/onTypeFormatting",
    "textDocument/prepareRename",
    "textDocument/rangeFormatting",
    "textDocument/references",
    "textDocument/rename",
    "textDocument/selectionRange",
    "textDocument/semanticTokens/full",
    "textDocument/semanticTokens/full/delta",
    "workspace/executeCommand",
    "workspace/symbol",
];

fuzz_target!(|bytes: &[u8]| {
    let [first, line, character, rest @ ..] = bytes else { return };
    let text = String::from_utf8_lossy(rest);
    let folder = std::env::temp_dir().join(format!("loadline-fuzz-{}", std::process::id()));
    std::fs::create_dir_all(&folder).expect("a folder");
    std::fs::write(folder.join("journal.yaml"), "").expect("settings");
    let uri = format!("file://{}/page.md", folder.display());

    let (ours, theirs) = Connection::memory();
    let machine = Machine { opened, today: Arc::new(|| "2026-11-25".parse().expect("a date")) };
    let server = std::thread::spawn(move || serve(&theirs, machine));
    let ask = |id: i32, method: &str, params: Value| {
        ours.sender.send(Message::Request(Request::new(id.into(), method.to_owned(), params))).expect("a server");
        loop {
            match ours.receiver.recv().expect("an answer") {
                Message::Response(response) if response.id == id.into() => return response,
                _ => {}
            }
        }
    };
    let tell = |method: &str, params: Value| {
        ours.sender.send(Message::Notification(Notification::new(method.to_owned(), params))).expect("a server");
    };
    ask(1, "initialize", json!({ "capabilities": {}, "initializationOptions": { "lens": true } }));
    tell("initialized", json!({}));
    tell("textDocument/didOpen", json!({
        "textDocument": { "uri": uri, "languageId": "markdown", "version": 1, "text": text }
    }));
    let at = json!({ "line": line, "character": character });
    let mut params = json!({
        "textDocument": { "uri": uri }, "position": at, "positions": [at], "range": { "start": at, "end": at },
        "context": { "diagnostics": [], "includeDeclaration": true }, "newName": text, "query": text, "ch": "\n",
        "options": { "tabSize": 2, "insertSpaces": true }, "previousResultId": "", "command": "loadline.session",
        "arguments": [uri, at],
    });
    if let Ok(Value::Object(said)) = serde_json::from_str(&text) {
        params.as_object_mut().expect("an object").extend(said);
    }
    let response = ask(2, METHODS[usize::from(*first) % METHODS.len()], params);
    if let Err(error) = &response.response_result {
        assert!(!error.message.ends_with("went wrong"), "{}", error.message);
    }
    ask(3, "shutdown", Value::Null);
    tell("exit", Value::Null);
    assert_eq!(server.join().expect("no panic"), Ok(()));
});
