//! The real program over pipes: messages that are none, or say that they are longer than any.

use crate::support::journal::Journal;
use serde_json::{Value, json};
use std::io::{BufRead, BufReader, Read, Write};
use std::process::{Child, ChildStdin, ChildStdout, Command, Stdio};

struct Program {
    child: Child,
    input: ChildStdin,
    output: BufReader<ChildStdout>,
    _journal: Journal,
}

impl Program {
    fn started() -> Program {
        let journal = Journal::new().page("## 2026-11-24\n\n- Front squat: 3x5 @ 100 kg\n");
        let mut child = Command::new(env!("CARGO_BIN_EXE_loadline"))
            .arg("lsp")
            .current_dir(journal.root())
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        let (input, output) = (child.stdin.take().unwrap(), BufReader::new(child.stdout.take().unwrap()));
        Program { child, input, output, _journal: journal }
    }

    fn write(&mut self, bytes: impl AsRef<[u8]>) {
        self.input.write_all(bytes.as_ref()).unwrap();
        self.input.flush().unwrap();
    }

    fn say(&mut self, message: &Value) {
        let body = message.to_string();
        self.write(format!("Content-Length: {}\r\n\r\n{body}", body.len()));
    }

    fn hear(&mut self) -> Value {
        let mut header = String::new();
        self.output.read_line(&mut header).unwrap();
        let length = header.trim().strip_prefix("Content-Length: ").unwrap().parse().unwrap();
        self.output.read_line(&mut header).unwrap();
        let mut body = vec![0; length];
        self.output.read_exact(&mut body).unwrap();
        serde_json::from_slice(&body).unwrap()
    }

    fn greet(&mut self) {
        self.say(&json!({ "jsonrpc": "2.0", "id": 1, "method": "initialize", "params": { "capabilities": {} } }));
        assert_eq!(self.hear()["result"]["serverInfo"]["name"], "loadline");
    }

    /// Its exit status and what it said on standard error, while the pipe to it is still open.
    fn ended(mut self) -> (Option<i32>, String) {
        let mut said = String::new();
        self.child.stderr.take().unwrap().read_to_string(&mut said).unwrap();
        (self.child.wait().unwrap().code(), said)
    }
}

/// A message that is longer than any ends it at once, with a word why, and no room is made for it.
#[test]
fn a_message_that_is_longer_than_any_is_refused_by_its_header() {
    for length in ["99999999999", "67108865", "99999999999999999999999", "-1", "many"] {
        let mut program = Program::started();
        program.greet();
        program.write(format!("Content-Length: {length}\r\n\r\n{{"));
        let (status, said) = program.ended();
        assert_eq!(status, Some(2), "{said}");
        assert_eq!(said, format!("loadline: a message cannot be {length} bytes long\n"));
    }
}

#[test]
fn a_header_that_is_none_ends_it_with_a_word_why() {
    let endless = "x".repeat(5000);
    let headers = [
        ("Content-Type: text\r\n\r\n", "a message does not say how long it is"),
        ("hello\r\n\r\n", "a message begins with no header"),
        (&endless, "a message's header does not end"),
    ];
    for (header, why) in headers {
        let mut program = Program::started();
        program.greet();
        program.write(header);
        assert_eq!(program.ended(), (Some(2), format!("loadline: {why}\n")));
    }
}

/// A message that cannot be read is told, and the next one is answered.
#[test]
fn a_message_that_is_no_json_is_passed_over() {
    let mut program = Program::started();
    program.greet();
    program.write("Content-Length: 5\r\n\r\n{oops");
    program.write(b"content-length:6\r\nContent-Type: x\r\n\r\n[1,\xff\xfe]");
    program.say(&json!({ "jsonrpc": "2.0", "id": 2, "method": "shutdown" }));
    assert_eq!(program.hear()["id"], 2);
    program.say(&json!({ "jsonrpc": "2.0", "method": "exit" }));
    let (status, said) = program.ended();
    assert_eq!((status, said.lines().count()), (Some(0), 2), "{said}");
    assert!(said.lines().all(|line| line.contains("cannot be read")), "{said}");
}
