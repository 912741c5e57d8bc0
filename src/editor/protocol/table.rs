//! The lists of what is answered: each request and each notification with its handler.

use super::server::{Refusal, Server};
use super::{notices, requests};
use gen_lsp_types::*;
use serde_json::Value;

/// Answers a request.
pub(super) type Answers = fn(&mut Server, Value) -> Result<Value, Refused>;

/// Takes a notification in.
pub(super) type Takes = fn(&mut Server, Value) -> Result<(), Refused>;

/// Why there is no answer.
pub(super) enum Refused {
    /// The parameters cannot be read.
    Unread(String),
    /// It cannot be done.
    Cannot(String),
}

/// Every request.
pub(super) const REQUESTS: &[(&str, Answers)] = &[
    ("textDocument/codeAction", |server, asked| answer::<CodeActionRequest>(server, asked, requests::code_actions)),
    ("textDocument/formatting", |server, asked| {
        answer::<DocumentFormattingRequest>(server, asked, requests::formatting)
    }),
    ("textDocument/rangeFormatting", |server, asked| {
        answer::<DocumentRangeFormattingRequest>(server, asked, requests::range_formatting)
    }),
    ("textDocument/onTypeFormatting", |server, asked| {
        answer::<DocumentOnTypeFormattingRequest>(server, asked, requests::on_type_formatting)
    }),
];

/// Every notification; one that is not listed is passed over, as the protocol has it.
pub(super) const NOTICES: &[(&str, Takes)] = &[
    ("textDocument/didOpen", |server, told| take(server, told, notices::opened)),
    ("textDocument/didChange", |server, told| take(server, told, notices::changed)),
    ("textDocument/didClose", |server, told| take(server, told, notices::closed)),
    ("workspace/didChangeWatchedFiles", |server, told| take(server, told, notices::saved_elsewhere)),
    ("workspace/didChangeWorkspaceFolders", |server, told| take(server, told, notices::folders)),
    ("workspace/didChangeConfiguration", |server, told| take(server, told, notices::configured)),
];

fn answer<R: Request>(
    server: &mut Server,
    asked: Value,
    handler: fn(&mut Server, R::Params) -> Result<R::Result, Refusal>,
) -> Result<Value, Refused> {
    let asked = serde_json::from_value(asked).map_err(|error| Refused::Unread(error.to_string()))?;
    let answer = handler(server, asked).map_err(|Refusal(why)| Refused::Cannot(why))?;
    serde_json::to_value(answer).map_err(|error| Refused::Cannot(error.to_string()))
}

fn take<P: serde::de::DeserializeOwned>(
    server: &mut Server,
    told: Value,
    handler: fn(&mut Server, P),
) -> Result<(), Refused> {
    let told = serde_json::from_value(told).map_err(|error| Refused::Unread(error.to_string()))?;
    handler(server, told);
    Ok(())
}
