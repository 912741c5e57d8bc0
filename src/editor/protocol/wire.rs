//! What abilities give, as the wire has it.

use super::text::Text;
use crate::editor::values::{self, Found, Hint, LiftSymbol, Offer, OfferKind, Symbol, TokenKind};
use crate::problems::Severity;
use crate::source::{Edit, Span};
use gen_lsp_types::*;
use serde_json::Value;

/// Who says it.
const SOURCE: &str = "loadline";

/// The beginning of a line, from 1: there no unit of counting matters.
pub(super) fn start_of(line: u32) -> Range {
    let start = Position { line: line.saturating_sub(1), character: 0 };
    Range { start, end: start }
}

/// A problem. `docs` is where the documentation stands.
pub(super) fn diagnostic(
    text: &Text<'_>,
    found: &Found,
    elsewhere: Option<Location>,
    docs: Option<&str>,
) -> Diagnostic {
    let kind = &found.problem.kind;
    let name = kind.name();
    let href = docs.and_then(|docs| Uri::parse(&format!("{docs}#{name}")).ok());
    Diagnostic {
        range: text.range(found.problem.span),
        severity: Some(match kind.severity() {
            Severity::Error => DiagnosticSeverity::Error,
            Severity::Warning => DiagnosticSeverity::Warning,
        }),
        code: Some(Code::String(name.to_owned())),
        code_description: href.map(|href| CodeDescription { href }),
        source: Some(SOURCE.to_owned()),
        message: Message::String(kind.message()),
        tags: None,
        related_information: elsewhere
            .map(|location| vec![DiagnosticRelatedInformation { location, message: "the first one".to_owned() }]),
        data: None,
    }
}

/// Edits.
pub(super) fn text_edits(text: &Text<'_>, edits: &[Edit]) -> Vec<TextEdit> {
    edits.iter().map(|edit| TextEdit { range: text.range(edit.span), new_text: edit.text.clone() }).collect()
}

/// An item to complete; the items stand in the order in which they are given. `data` comes back where more is asked of a
/// load.
pub(super) fn completion_item(text: &Text<'_>, at: usize, offer: &Offer, data: &Value) -> CompletionItem {
    let Offer { label, detail, found_by, edit, kind } = offer;
    CompletionItem {
        label: label.clone(),
        kind: Some(match kind {
            OfferKind::Lift => CompletionItemKind::Class,
            OfferKind::Key => CompletionItemKind::Property,
            OfferKind::Value | OfferKind::Load => CompletionItemKind::Value,
            OfferKind::Word => CompletionItemKind::Keyword,
            OfferKind::Lines => CompletionItemKind::Snippet,
        }),
        detail: detail.clone(),
        sort_text: Some(format!("{at:04}")),
        filter_text: found_by.clone(),
        text_edit: Some(TextEdit { range: text.range(edit.span), new_text: edit.text.clone() }.into()),
        data: (*kind == OfferKind::Load).then(|| data.clone()),
        ..CompletionItem::default()
    }
}

/// A hint.
pub(super) fn inlay_hint(text: &Text<'_>, hint: Hint) -> InlayHint {
    InlayHint {
        position: text.position(hint.at),
        label: hint.text.into(),
        kind: None,
        text_edits: None,
        tooltip: None,
        padding_left: Some(true),
        padding_right: None,
        data: None,
    }
}

/// A part of a page with what it holds.
#[allow(deprecated)]
pub(super) fn document_symbol(text: &Text<'_>, symbol: Symbol) -> DocumentSymbol {
    let children: Vec<DocumentSymbol> = symbol.children.into_iter().map(|child| document_symbol(text, child)).collect();
    DocumentSymbol {
        name: symbol.name,
        detail: symbol.detail,
        kind: match symbol.kind {
            values::SymbolKind::Block => SymbolKind::Module,
            values::SymbolKind::Session => SymbolKind::Event,
            values::SymbolKind::Lift => SymbolKind::Field,
        },
        tags: None,
        deprecated: None,
        range: text.range(symbol.span),
        selection_range: text.range(symbol.named),
        children: (!children.is_empty()).then_some(children),
    }
}

/// A lift of the whole journal.
pub(super) fn workspace_symbol(location: Location, lift: LiftSymbol) -> WorkspaceSymbol {
    WorkspaceSymbol {
        location: location.into(),
        data: None,
        base_symbol_information: BaseSymbolInformation {
            name: lift.name,
            kind: SymbolKind::Class,
            tags: None,
            container_name: Some(lift.last),
        },
    }
}

/// Spans from the inside out, each held by the next.
pub(super) fn selection(text: &Text<'_>, spans: &[Span]) -> SelectionRange {
    let mut around = None;
    for span in spans.iter().rev() {
        around = Some(SelectionRange { range: text.range(*span), parent: around.map(Box::new) });
    }
    around.unwrap_or_default()
}

/// The kinds of tokens as the protocol calls them; a token names its own by the place in this legend.
pub(super) fn legend() -> Vec<String> {
    let name = |kind| match kind {
        TokenKind::Heading => SemanticTokenTypes::Namespace,
        TokenKind::Lift => SemanticTokenTypes::Class,
        TokenKind::Key => SemanticTokenTypes::Property,
        TokenKind::Count => SemanticTokenTypes::Number,
        TokenKind::Load => SemanticTokenTypes::Parameter,
        TokenKind::Word => SemanticTokenTypes::Keyword,
        TokenKind::Text => SemanticTokenTypes::String,
        TokenKind::Remark => SemanticTokenTypes::Comment,
        TokenKind::Fault => SemanticTokenTypes::Decorator,
    };
    TokenKind::ALL.into_iter().map(|kind| name(kind).to_string()).collect()
}

/// Tokens as the wire counts them: five numbers each, the first two from the token before.
pub(super) fn token_data(text: &Text<'_>, tokens: &[(Span, TokenKind)]) -> Vec<u32> {
    let mut data = Vec::with_capacity(tokens.len() * 5);
    let mut last = Position { line: 0, character: 0 };
    for (span, kind) in tokens {
        let Range { start, end } = text.range(*span);
        debug_assert_eq!(TokenKind::ALL.get(*kind as usize), Some(kind), "the legend has every kind in its order");
        let same_line = start.line == last.line;
        let from = if same_line { last.character } else { 0 };
        let length = end.character.saturating_sub(start.character);
        data.extend([start.line - last.line, start.character.saturating_sub(from), length, *kind as u32, 0]);
        last = start;
    }
    data
}

/// The same as the library wants them.
pub(super) fn token_list(data: &[u32]) -> Vec<SemanticToken> {
    let (all, _) = data.as_chunks::<5>();
    all.iter().map(|five| SemanticToken::from(*five)).collect()
}

/// What changes between two lists of tokens: all between what both have at their beginning and at their end.
pub(super) fn token_edits(before: &[u32], after: &[u32]) -> Vec<SemanticTokensEdit> {
    let head = before.iter().zip(after).take_while(|(one, other)| one == other).count();
    let (old, new) = (before.get(head..).unwrap_or(&[]), after.get(head..).unwrap_or(&[]));
    let tail = old.iter().rev().zip(new.iter().rev()).take_while(|(one, other)| one == other).count();
    let (old, new) = (old.len() - tail, new.get(..new.len() - tail).unwrap_or(&[]));
    if old == 0 && new.is_empty() {
        return Vec::new();
    }
    vec![SemanticTokensEdit { start: head as u32, delete_count: old as u32, data: Some(new.to_vec()) }]
}
