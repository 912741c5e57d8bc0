//! What abilities give, as the wire has it.

use super::text::Text;
use crate::editor::values::Found;
use crate::problems::Severity;
use crate::source::Edit;
use gen_lsp_types::{
    Code, CodeDescription, Diagnostic, DiagnosticRelatedInformation, DiagnosticSeverity, Location, Message, Position,
    Range, TextEdit, Uri,
};

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
