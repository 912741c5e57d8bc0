//! An editor of a few lines: it speaks the protocol with a server in the same process.

use super::journal::Journal;
use loadline::commands::opened;
use loadline::editor::{Machine, serve};
use lsp_server::{Connection, Message, Notification, Request};
use serde_json::{Value, json};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::thread::JoinHandle;
use std::time::Duration;

/// Nothing takes longer, however busy the machine.
const LONGEST: Duration = Duration::from_secs(60);

/// An editor with a server.
pub struct Editor {
    connection: Option<Connection>,
    server: Option<JoinHandle<Result<(), String>>>,
    root: PathBuf,
    asked: i32,
    version: i32,
    /// What the server answered to the greeting.
    pub greeted: Value,
    /// Problems as they were told, in order.
    pub told: Vec<Value>,
    /// What the server asked for.
    pub wanted: Vec<Value>,
}

/// What stands before the cursor and all of the text without the mark.
pub fn marked(text: &str) -> (String, Value) {
    let (before, after) = text.split_once('‸').expect("a marked cursor");
    let line = before.matches('\n').count();
    let start = before.rfind('\n').map_or(0, |end| end + 1);
    let position = json!({ "line": line, "character": before[start..].encode_utf16().count() });
    (format!("{before}{after}"), position)
}

impl Editor {
    /// Opens a journal, as of the day that tests answer for.
    pub fn of(journal: &Journal) -> Editor {
        Editor::with(journal.root(), json!({}), json!({}))
    }

    /// The same with what the editor can do, and switches.
    pub fn with(root: &Path, capabilities: Value, switches: Value) -> Editor {
        Editor::on(root, capabilities, switches, || super::run::TODAY.parse().expect("a date"))
    }

    /// The same on the day that a clock says.
    pub fn on(
        root: &Path,
        capabilities: Value,
        switches: Value,
        today: impl Fn() -> chrono::NaiveDate + Send + Sync + 'static,
    ) -> Editor {
        let (ours, theirs) = Connection::memory();
        let machine = Machine { opened, today: Arc::new(today) };
        let server = std::thread::spawn(move || serve(&theirs, machine));
        let mut editor = Editor {
            connection: Some(ours),
            server: Some(server),
            root: root.canonicalize().expect("a folder"),
            asked: 0,
            version: 0,
            greeted: Value::Null,
            told: Vec::new(),
            wanted: Vec::new(),
        };
        let root = editor.address("");
        let greeting = json!({
            "processId": null, "rootUri": root, "capabilities": capabilities, "initializationOptions": switches,
        });
        editor.greeted = editor.ask("initialize", greeting).expect("a greeting");
        editor.tell("initialized", json!({}));
        editor
    }

    /// The address of a path below the journal's folder.
    pub fn address(&self, path: &str) -> String {
        url::Url::from_file_path(self.root.join(path)).expect("a file").to_string()
    }

    fn connection(&self) -> &Connection {
        self.connection.as_ref().expect("a server")
    }

    /// Sends any message.
    pub fn send(&self, message: Message) {
        self.connection().sender.send(message).expect("a server that lives");
    }

    /// Sends a notification.
    pub fn tell(&self, method: &str, params: Value) {
        self.send(Message::Notification(Notification::new(method.to_owned(), params)));
    }

    /// Sends a request and waits for its answer: the error's message where it is one.
    pub fn ask(&mut self, method: &str, params: Value) -> Result<Value, String> {
        self.asked += 1;
        let id = self.asked;
        self.send(Message::Request(Request::new(id.into(), method.to_owned(), params)));
        loop {
            match self.connection().receiver.recv_timeout(LONGEST).expect("an answer") {
                Message::Response(response) if response.id == id.into() => {
                    return response.response_result.map_err(|error| error.message);
                }
                message => self.keep(message),
            }
        }
    }

    fn keep(&mut self, message: Message) {
        match message {
            Message::Notification(notice) if notice.method == "textDocument/publishDiagnostics" => {
                self.told.push(notice.params);
            }
            Message::Request(request) => self.wanted.push(request.params),
            _ => {}
        }
    }

    /// Opens a page with a text.
    pub fn open(&mut self, path: &str, text: &str) {
        self.version += 1;
        let document =
            json!({ "uri": self.address(path), "languageId": "markdown", "version": self.version, "text": text });
        self.tell("textDocument/didOpen", json!({ "textDocument": document }));
    }

    /// Puts another text in the place of a page's.
    pub fn change(&mut self, path: &str, text: &str) {
        self.edit(path, json!([{ "text": text }]));
    }

    /// Changes parts of a page.
    pub fn edit(&mut self, path: &str, changes: Value) {
        self.version += 1;
        let document = json!({ "uri": self.address(path), "version": self.version });
        self.tell("textDocument/didChange", json!({ "textDocument": document, "contentChanges": changes }));
    }

    /// Opens a page with a marked cursor and asks about that place.
    pub fn at(&mut self, method: &str, path: &str, text: &str) -> Value {
        self.at_with(method, path, text, json!({})).expect("an answer")
    }

    /// The same with more parameters.
    pub fn at_with(&mut self, method: &str, path: &str, text: &str, more: Value) -> Result<Value, String> {
        let (text, position) = marked(text);
        self.open(path, &text);
        let mut params = json!({
            "textDocument": { "uri": self.address(path) },
            "position": position, "range": { "start": position, "end": position },
        });
        let all = params.as_object_mut().expect("an object");
        all.extend(more.as_object().expect("an object").clone());
        self.ask(method, params)
    }

    /// Asks about a page as a whole.
    pub fn of_page(&mut self, method: &str, path: &str) -> Value {
        let options = json!({ "tabSize": 2, "insertSpaces": true });
        let params = json!({ "textDocument": { "uri": self.address(path) }, "options": options });
        self.ask(method, params).expect("an answer")
    }

    /// The problems of a page as they stand: an answer that comes after them says that they have come.
    pub fn problems(&mut self, path: &str) -> Vec<Value> {
        // What is told is told when no message waits; the first answer sees to that, the second comes after it.
        for _ in 0..2 {
            let _ = self.ask("loadline/nothing", json!({}));
            std::thread::sleep(Duration::from_millis(2));
        }
        let _ = self.ask("loadline/nothing", json!({}));
        let address = self.address(path);
        let last = self.told.iter().rev().find(|told| told["uri"] == address);
        last.map_or_else(Vec::new, |told| told["diagnostics"].as_array().expect("a list").clone())
    }

    /// Ends the server, as an editor does.
    pub fn end(mut self) -> Result<(), String> {
        self.ask("shutdown", Value::Null).expect("an answer");
        self.tell("exit", Value::Null);
        self.server.take().expect("a server").join().expect("no panic")
    }
}

impl Drop for Editor {
    fn drop(&mut self) {
        // An editor that is gone ends the server too.
        self.connection = None;
        if let Some(server) = self.server.take() {
            let ended = server.join();
            assert!(std::thread::panicking() || ended.is_ok(), "the server panicked");
        }
    }
}

/// A text with edits of the protocol in it, counted in UTF-16.
pub fn applied(text: &str, edits: &Value) -> String {
    use loadline::editor::{Encoding, Text};
    use loadline::source::{Edit, apply};
    let places = Text::of(text, Encoding::Utf16);
    let edits = edits.as_array().map_or(&[][..], Vec::as_slice).iter().map(|edit| {
        let range = serde_json::from_value(edit["range"].clone()).expect("a range");
        Edit::new(places.span(range), edit["newText"].as_str().expect("a text"))
    });
    apply(text, &edits.collect::<Vec<_>>()).expect("edits that fit")
}
