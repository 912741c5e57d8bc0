//! The lists of what is answered: each request and each notification with its handler.

use super::server::{Refusal, Server};
use super::{changes, notices, requests};
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
    ("completionItem/resolve", |s, asked| answer::<CompletionResolveRequest>(s, asked, requests::completion_item)),
    ("textDocument/codeAction", |s, asked| answer::<CodeActionRequest>(s, asked, changes::code_actions)),
    ("textDocument/codeLens", |s, asked| answer::<CodeLensRequest>(s, asked, requests::lenses)),
    ("textDocument/completion", |s, asked| answer::<CompletionRequest>(s, asked, requests::completion)),
    ("textDocument/definition", |s, asked| answer::<DefinitionRequest>(s, asked, requests::definition)),
    ("textDocument/documentHighlight", |s, asked| answer::<DocumentHighlightRequest>(s, asked, requests::highlights)),
    ("textDocument/documentSymbol", |s, asked| answer::<DocumentSymbolRequest>(s, asked, requests::symbols)),
    ("textDocument/foldingRange", |s, asked| answer::<FoldingRangeRequest>(s, asked, requests::folds)),
    ("textDocument/formatting", |s, asked| answer::<DocumentFormattingRequest>(s, asked, changes::formatting)),
    ("textDocument/hover", |s, asked| answer::<HoverRequest>(s, asked, requests::hover)),
    ("textDocument/inlayHint", |s, asked| answer::<InlayHintRequest>(s, asked, requests::inlay_hints)),
    ("textDocument/onTypeFormatting", |s, asked| {
        answer::<DocumentOnTypeFormattingRequest>(s, asked, changes::on_type_formatting)
    }),
    ("textDocument/prepareRename", |s, asked| answer::<PrepareRenameRequest>(s, asked, changes::prepare_rename)),
    ("textDocument/rangeFormatting", |s, asked| {
        answer::<DocumentRangeFormattingRequest>(s, asked, changes::range_formatting)
    }),
    ("textDocument/references", |s, asked| answer::<ReferencesRequest>(s, asked, requests::references)),
    ("textDocument/rename", |s, asked| answer::<RenameRequest>(s, asked, changes::rename)),
    ("textDocument/selectionRange", |s, asked| answer::<SelectionRangeRequest>(s, asked, requests::selections)),
    ("textDocument/semanticTokens/full", |s, asked| answer::<SemanticTokensRequest>(s, asked, requests::tokens)),
    ("textDocument/semanticTokens/full/delta", |s, asked| {
        answer::<SemanticTokensDeltaRequest>(s, asked, requests::token_changes)
    }),
    ("workspace/executeCommand", |s, asked| answer::<ExecuteCommandRequest>(s, asked, requests::command)),
    ("workspace/symbol", |s, asked| answer::<WorkspaceSymbolRequest>(s, asked, requests::lifts)),
];

/// Every notification; one that is not listed is passed over, as the protocol has it.
pub(super) const NOTICES: &[(&str, Takes)] = &[
    ("textDocument/didOpen", |s, told| take(s, told, notices::opened)),
    ("textDocument/didChange", |s, told| take(s, told, notices::changed)),
    ("textDocument/didClose", |s, told| take(s, told, notices::closed)),
    ("workspace/didChangeWatchedFiles", |s, told| take(s, told, notices::saved_elsewhere)),
    ("workspace/didChangeWorkspaceFolders", |s, told| take(s, told, notices::folders)),
    ("workspace/didChangeConfiguration", |s, told| take(s, told, notices::configured)),
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
