//! Messages as bytes of standard input and output: each is a header that says how long it is, and so many bytes of JSON.

use super::serve::{say, serve};
use crate::editor::held::Machine;
use lsp_server::{Connection, Message};
use std::io::{self, BufRead, Error, Read};
use std::thread;

/// A message of more bytes is none: a lifetime of pages is a sixth of it.
const LONGEST: u64 = 64 << 20;

/// A line of a header is not as long as this.
const LONGEST_LINE: u64 = 4 << 10;

/// Serves the editor at the other end of standard input and output.
///
/// # Errors
/// Where the editor does not talk as the protocol has it, or cannot be answered.
pub fn serve_stdio(machine: Machine) -> Result<(), String> {
    let (editor, ours) = Connection::memory();
    let Connection { sender, receiver } = editor;
    let reading = thread::spawn(move || {
        let mut input = io::stdin().lock();
        while let Some(message) = next(&mut input)? {
            let is_last = matches!(&message, Message::Notification(notice) if notice.method == "exit");
            if sender.send(message).is_err() || is_last {
                break;
            }
        }
        Ok(())
    });
    let writing = thread::spawn(move || {
        let mut output = io::stdout().lock();
        receiver.iter().try_for_each(|message| message.write(&mut output))
    });
    let served = serve(&ours, machine);
    drop(ours);
    let ended = [reading, writing].into_iter().map(|thread| thread.join().unwrap_or(Ok(())));
    served.and(ended.collect::<io::Result<()>>().map_err(|error| error.to_string()))
}

/// The next message; nothing where there are no more. One that is no JSON, or none of the protocol, is told and passed over.
fn next(input: &mut impl BufRead) -> io::Result<Option<Message>> {
    loop {
        let Some(length) = length(input)? else { return Ok(None) };
        // It is not made room for before it comes.
        let mut body = Vec::new();
        input.by_ref().take(length).read_to_end(&mut body)?;
        if (body.len() as u64) < length {
            return Err(Error::other("the editor was gone in the middle of a message"));
        }
        match serde_json::from_slice(&body) {
            Ok(message) => return Ok(Some(message)),
            Err(error) => say(&format!("a message of {length} bytes cannot be read: {error}")),
        }
    }
}

/// How long the next message is, by its header; nothing where none begins.
fn length(input: &mut impl BufRead) -> io::Result<Option<u64>> {
    let (mut length, mut line) = (None, Vec::new());
    loop {
        line.clear();
        if input.by_ref().take(LONGEST_LINE).read_until(b'\n', &mut line)? == 0 {
            return Ok(None);
        }
        let text = String::from_utf8_lossy(&line);
        let Some(text) = text.strip_suffix('\n') else { return Err(Error::other("a message's header does not end")) };
        let text = text.trim();
        if text.is_empty() {
            break;
        }
        let (name, value) = text.split_once(':').ok_or_else(|| Error::other("a message begins with no header"))?;
        if name.eq_ignore_ascii_case("Content-Length") {
            length = Some(value.trim().to_owned());
        }
    }
    let said = length.ok_or_else(|| Error::other("a message does not say how long it is"))?;
    let length = said.parse().ok().filter(|length| *length <= LONGEST);
    let refused = || Error::other(format!("a message cannot be {} bytes long", crate::present::sanitize(&said)));
    length.map(Some).ok_or_else(refused)
}
