//! A page in colour: what each part of a line is, told by its pieces.

use super::under::{Thing, all};
use crate::editor::scene::Scene;
use crate::editor::values::TokenKind;
use crate::notation::nodes::{Line, LineKind};
use crate::notation::{PieceKind, Reader, pieces};
use crate::source::Span;

/// The tokens of a page, in order; none overlaps another, none goes over a line's end.
pub(crate) fn tokens(scene: &Scene<'_>) -> Vec<(Span, TokenKind)> {
    let text = scene.page.text();
    let mut tokens = Vec::new();
    for line in Reader::new(&scene.page) {
        match &line.kind {
            LineKind::Prose | LineKind::Opaque | LineKind::MergeMarker | LineKind::BadSession => {}
            LineKind::Block(_) | LineKind::Session(_) => {
                tokens.push((Span::of(text, line.text.trim()), TokenKind::Heading));
            }
            LineKind::Heading { .. } => {}
            _ => of_line(text, &line, &mut tokens),
        }
    }
    tokens.retain(|(span, _)| !span.is_empty());
    tokens
}

fn of_line<'p>(text: &str, line: &Line<'p>, tokens: &mut Vec<(Span, TokenKind)>) {
    let key = all(line).into_iter().find_map(|thing| match thing {
        Thing::Key(key) => Some(Span::of(text, key)),
        _ => None,
    });
    tokens.extend(key.map(|key| (key, TokenKind::Key)));
    let after = key.map_or(0, |key| key.end);
    for piece in pieces(line) {
        let kind = match piece.kind {
            PieceKind::Lift => TokenKind::Lift,
            PieceKind::Text => TokenKind::Text,
            PieceKind::Count => TokenKind::Count,
            PieceKind::Load => TokenKind::Load,
            PieceKind::Words => TokenKind::Word,
            PieceKind::Attribute if piece.text.starts_with('(') => TokenKind::Remark,
            PieceKind::Attribute if piece.text.starts_with('!') => TokenKind::Fault,
            PieceKind::Attribute => TokenKind::Word,
            PieceKind::Sign | PieceKind::Space | PieceKind::LineEnd | PieceKind::Prose | PieceKind::Unread => continue,
        };
        let span = Span::of(text, piece.text);
        if span.start >= after {
            tokens.push((span, kind));
        }
    }
}
