//! What is agreed on at the start.

use super::requests::CARD;
use super::text::Encoding;
use super::wire::legend;
use gen_lsp_types::*;
use serde_json::{Value, json};

/// The unit to count characters in: bytes where the client knows them, else units of UTF-16.
pub(super) fn encoding(params: &InitializeParams) -> Encoding {
    let offered = params.capabilities.general.as_ref().and_then(|general| general.position_encodings.as_ref());
    match offered.is_some_and(|offered| offered.contains(&PositionEncodingKind::UTF8)) {
        true => Encoding::Utf8,
        false => Encoding::Utf16,
    }
}

/// Whether the client shows Markdown where it says something of a thing.
pub(super) fn links(params: &InitializeParams) -> bool {
    let hover = params.capabilities.text_document.as_ref().and_then(|document| document.hover.as_ref());
    let formats = hover.and_then(|hover| hover.content_format.as_ref());
    formats.is_some_and(|formats| formats.contains(&MarkupKind::Markdown))
}

/// What the server can do.
pub(super) fn capabilities(encoding: Encoding) -> ServerCapabilities {
    ServerCapabilities {
        position_encoding: Some(match encoding {
            Encoding::Utf8 => PositionEncodingKind::UTF8,
            Encoding::Utf16 => PositionEncodingKind::UTF16,
        }),
        text_document_sync: Some(
            TextDocumentSyncOptions {
                open_close: Some(true),
                change: Some(TextDocumentSyncKind::Incremental),
                ..TextDocumentSyncOptions::default()
            }
            .into(),
        ),
        code_action_provider: Some(
            CodeActionOptions {
                code_action_kinds: Some(vec![CodeActionKind::QuickFix, CodeActionKind::SourceFixAll]),
                ..CodeActionOptions::default()
            }
            .into(),
        ),
        code_lens_provider: Some(CodeLensOptions::default()),
        completion_provider: Some(CompletionOptions {
            trigger_characters: Some(["@", ":", "!", "#", " "].map(str::to_owned).to_vec()),
            resolve_provider: Some(true),
            ..CompletionOptions::default()
        }),
        definition_provider: Some(true.into()),
        document_highlight_provider: Some(true.into()),
        document_symbol_provider: Some(true.into()),
        execute_command_provider: Some(ExecuteCommandOptions {
            commands: vec![CARD.to_owned()],
            ..ExecuteCommandOptions::default()
        }),
        folding_range_provider: Some(true.into()),
        hover_provider: Some(true.into()),
        inlay_hint_provider: Some(true.into()),
        references_provider: Some(true.into()),
        rename_provider: Some(RenameOptions { prepare_provider: Some(true), ..RenameOptions::default() }.into()),
        selection_range_provider: Some(true.into()),
        semantic_tokens_provider: Some(
            SemanticTokensOptions {
                legend: SemanticTokensLegend { token_types: legend(), token_modifiers: Vec::new() },
                full: Some(SemanticTokensFullDelta { delta: Some(true) }.into()),
                ..SemanticTokensOptions::default()
            }
            .into(),
        ),
        workspace_symbol_provider: Some(true.into()),
        document_formatting_provider: Some(true.into()),
        document_range_formatting_provider: Some(true.into()),
        document_on_type_formatting_provider: Some(DocumentOnTypeFormattingOptions {
            first_trigger_character: "\n".to_owned(),
            more_trigger_character: None,
        }),
        ..ServerCapabilities::default()
    }
}

/// What asks the client to tell of pages that others save, where it can.
pub(super) fn watching(params: &InitializeParams) -> Option<lsp_server::Request> {
    let workspace = params.capabilities.workspace.as_ref()?;
    let can = workspace.did_change_watched_files.as_ref()?.dynamic_registration?;
    let watchers: Vec<Value> =
        ["**/*.md", "**/journal.yaml", "**/lifter.yaml"].iter().map(|glob| json!({ "globPattern": glob })).collect();
    let registration = json!({
        "id": "pages",
        "method": "workspace/didChangeWatchedFiles",
        "registerOptions": { "watchers": watchers },
    });
    let params = json!({ "registrations": [registration] });
    can.then(|| lsp_server::Request::new("pages".to_owned().into(), "client/registerCapability".to_owned(), params))
}
