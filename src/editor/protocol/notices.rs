//! Each notification's handler.

use super::server::Server;
use super::switches::Switches;
use super::text::Text;
use super::uri;
use crate::source::Cut;
use gen_lsp_types::{
    DidChangeConfigurationParams, DidChangeTextDocumentParams, DidChangeWatchedFilesParams,
    DidChangeWorkspaceFoldersParams, DidCloseTextDocumentParams, DidOpenTextDocumentParams,
    TextDocumentContentChangeEvent as Change, Uri,
};

pub(super) fn opened(server: &mut Server, told: DidOpenTextDocumentParams) {
    let document = told.text_document;
    put(server, &document.uri, document.text, document.version);
}

pub(super) fn changed(server: &mut Server, told: DidChangeTextDocumentParams) {
    let address = told.text_document.text_document_identifier.uri;
    // What belongs to no journal is not kept.
    let Some((mut text, _)) = server.open.remove(&address) else { return };
    for change in told.content_changes {
        text = match change {
            Change::TextDocumentContentChangeWholeDocument(whole) => whole.text,
            Change::TextDocumentContentChangePartial(part) => {
                let span = Text::of(&text, server.encoding).span(part.range);
                [text.head(span.start as usize), &part.text, text.tail(span.end as usize)].concat()
            }
        };
    }
    put(server, &address, text, told.text_document.version);
}

pub(super) fn closed(server: &mut Server, told: DidCloseTextDocumentParams) {
    let address = told.text_document.uri;
    if let Some((held, path)) = server.find(&address) {
        held.put(&path, None);
    }
    server.closed(&address);
    server.stale = true;
}

pub(super) fn saved_elsewhere(server: &mut Server, told: DidChangeWatchedFilesParams) {
    for change in told.changes {
        if let Some((held, path)) = server.find(&change.uri) {
            held.saved(&path);
        }
    }
    server.stale = true;
}

pub(super) fn folders(server: &mut Server, told: DidChangeWorkspaceFoldersParams) {
    told.event
        .added
        .iter()
        .filter_map(|folder| uri::file(&folder.uri))
        .for_each(|folder| server.workspace.add(&folder));
}

pub(super) fn configured(server: &mut Server, told: DidChangeConfigurationParams) {
    if let Some(switches) = Switches::said(&told.settings) {
        server.switches = switches;
        server.stale = true;
    }
}

/// A file as it stands in the editor.
fn put(server: &mut Server, address: &Uri, text: String, version: i32) {
    let Some((held, path)) = server.find(address) else { return };
    held.put(&path, Some(text.clone().into_bytes()));
    server.open.insert(address.clone(), (text, version));
    server.stale = true;
}
