//! Replies on their way to whoever asked: printed, or on a terminal shown page by page where they are longer than it.

use super::Reply;
use crate::commands::options::columns_said;
use crate::present::{Role, Typeset};
use std::borrow::Cow;
use std::io::{self, IsTerminal, Write};
use std::process::{Command, ExitCode, Stdio};

/// Prints replies, and gives the exit status of the last one.
pub fn deliver(replies: impl Iterator<Item = Reply>) -> ExitCode {
    let mut status = 0;
    for reply in replies {
        status = reply.status;
        // There is nobody left to tell where this fails.
        let _ = io::stderr().write_all(on_a_terminal(&reply.err).as_bytes());
        if paged(&reply) {
            continue;
        }
        let mut out = io::stdout().lock();
        match out.write_all(reply.bytes.as_deref().unwrap_or(reply.out.as_bytes())).and_then(|()| out.flush()) {
            Ok(()) => {}
            // A reader that has seen enough (`| head`) is no error.
            Err(error) if error.kind() == io::ErrorKind::BrokenPipe => break,
            Err(error) => {
                let _ = writeln!(io::stderr(), "loadline: the answer could not be written out: {error}");
                return ExitCode::from(2);
            }
        }
    }
    ExitCode::from(status)
}

/// What is said, with its long lines broken between words where a person reads it; a program reads lines as they are.
fn on_a_terminal(text: &str) -> Cow<'_, str> {
    let terminal = terminal_size::terminal_size_of(io::stderr()).map(|(columns, _)| usize::from(columns.0));
    match columns_said().or(terminal).filter(|_| io::stderr().is_terminal()) {
        Some(columns) => Cow::Owned(broken(text, columns)),
        None => Cow::Borrowed(text),
    }
}

/// Lines broken between words; what goes on below is indented.
fn broken(text: &str, columns: usize) -> String {
    let mut out = Typeset::new();
    text.lines().for_each(|line| out.wrapped(Role::Plain, line, columns.max(20), 2));
    out.lines().iter().flat_map(|line| line.iter().map(|(_, text)| text.as_str()).chain(["\n"])).collect()
}

/// Shows a reply in a pager, where it is longer than the terminal and there is a pager.
fn paged(reply: &Reply) -> bool {
    if reply.followed || !io::stdout().is_terminal() {
        return false;
    }
    let Some((_, rows)) = terminal_size::terminal_size() else { return false };
    if reply.out.lines().count() < usize::from(rows.0) {
        return false;
    }
    let Some(mut pager) = pager() else { return false };
    let Ok(mut shown) = pager.stdin(Stdio::piped()).spawn() else { return false };
    if let Some(mut to) = shown.stdin.take() {
        // Left before its end, it wants no more.
        let _ = to.write_all(reply.out.as_bytes());
    }
    shown.wait().is_ok_and(|status| status.success())
}

/// The pager that the lifter wants: none where the variable is empty.
fn pager() -> Option<Command> {
    let named = ["LOADLINE_PAGER", "PAGER"].iter().find_map(|name| std::env::var(name).ok());
    let named = named.unwrap_or_else(|| "less".into());
    let mut words = named.split_whitespace();
    let mut pager = Command::new(words.next()?);
    pager.args(words);
    // With colour; what fits is printed and left standing.
    if std::env::var_os("LESS").is_none() {
        pager.env("LESS", "FRX");
    }
    Some(pager)
}
