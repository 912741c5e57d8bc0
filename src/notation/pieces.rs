//! The lossless view of a line: every byte of it in exactly one piece, in order. Printed one after the
//! other the pieces of a page's lines are the page.

use super::nodes::{Attribute, BlockKey, Body, Group, Line, LineKind};
use crate::source::{Cut, Span};

/// What a piece is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum PieceKind {
    /// A lift's name.
    Lift,
    /// A block's name, a session's heading, a fact's or a detail's value: text that is taken whole.
    Text,
    /// How many sets of how much.
    Count,
    /// A term of a load.
    Load,
    /// An attribute.
    Attribute,
    /// `as planned`
    Words,
    /// Bullets, colons, `@`, commas, `+`, `~`, `#`, emphasis.
    Sign,
    /// White space.
    Space,
    /// The line's end.
    LineEnd,
    /// Keys, and all of a line that means nothing.
    Prose,
    /// What should mean something and does not.
    Unread,
}

/// A piece of a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Piece<'a> {
    /// What it is.
    pub kind: PieceKind,
    /// The text, a slice of the page.
    pub text: &'a str,
}

/// The pieces of a line.
pub fn pieces<'a>(line: &Line<'a>) -> Vec<Piece<'a>> {
    let mut known: Vec<Piece<'a>> = Vec::new();
    let mut add = |kind, text: &'a str| {
        if !text.is_empty() {
            known.push(Piece { kind, text });
        }
    };
    let between = match &line.kind {
        LineKind::Work(work) => {
            add(PieceKind::Lift, work.name);
            match &work.body {
                Body::Nothing => {}
                Body::Skipped(remark) => remark.iter().for_each(|remark| add(PieceKind::Text, remark)),
                Body::AsPlanned(attributes, words) => {
                    add(PieceKind::Words, words.trim_end());
                    of_attributes(attributes, &mut add);
                }
                Body::Groups(groups) => of_groups(groups, &mut add),
            }
            PieceKind::Unread
        }
        LineKind::SetLine(groups) => {
            of_groups(groups, &mut add);
            PieceKind::Unread
        }
        LineKind::Detail(detail) if detail.groups.is_empty() => {
            add(PieceKind::Text, detail.text);
            PieceKind::Prose
        }
        LineKind::Detail(detail) => {
            of_groups(&detail.groups, &mut add);
            PieceKind::Prose
        }
        LineKind::Block(heading) => {
            add(PieceKind::Text, heading.name);
            PieceKind::Prose
        }
        LineKind::BlockKey(_, Some(key)) => {
            if let BlockKey::Max { lift, load } = &key.value {
                add(PieceKind::Lift, lift);
                add(PieceKind::Load, load.text);
            }
            PieceKind::Prose
        }
        LineKind::SessionNote(note) => {
            add(PieceKind::Text, note);
            PieceKind::Prose
        }
        _ => PieceKind::Prose,
    };
    tiled(line.text, known, between)
}

fn of_groups<'a>(groups: &[Group<'a>], add: &mut impl FnMut(PieceKind, &'a str)) {
    for group in groups {
        add(PieceKind::Count, group.count.text);
        if let Some(load) = &group.load {
            add(PieceKind::Load, load.first.text);
            load.more.iter().for_each(|(_, term)| add(PieceKind::Load, term.text));
        }
        of_attributes(&group.attributes, add);
    }
}

fn of_attributes<'a>(attributes: &[Attribute<'a>], add: &mut impl FnMut(PieceKind, &'a str)) {
    attributes.iter().for_each(|attribute| add(PieceKind::Attribute, attribute.text));
}

/// The known pieces in order, with what stands between them as signs, white space, and `between`.
fn tiled<'a>(line: &'a str, mut known: Vec<Piece<'a>>, between: PieceKind) -> Vec<Piece<'a>> {
    known.sort_by_key(|piece| Span::of(line, piece.text));
    let body = line.strip_suffix('\n').map_or(line, |body| body.strip_suffix('\r').unwrap_or(body));
    let mut out = Vec::with_capacity(known.len() * 2 + 2);
    let mut at = 0;
    for piece in known {
        let span = Span::of(line, piece.text);
        if (span.start as usize) < at {
            continue;
        }
        gaps(body.cut(at..span.start as usize), between, &mut out);
        at = span.end as usize;
        out.push(piece);
    }
    gaps(body.tail(at), between, &mut out);
    let end = line.tail(body.len());
    if !end.is_empty() {
        out.push(Piece { kind: PieceKind::LineEnd, text: end });
    }
    out
}

/// A gap as runs of white space, signs, and the rest.
fn gaps<'a>(gap: &'a str, rest: PieceKind, out: &mut Vec<Piece<'a>>) {
    let kind_of = |c: char| match c {
        c if super::grammar::lexer::is_space(c) => PieceKind::Space,
        '-' | '*' | '+' | ':' | '@' | ',' | '#' | '~' | '_' | '`' | '.' | 'x' | 'X' | '×' | '\u{2013}' | '\u{2212}' => {
            PieceKind::Sign
        }
        '(' | ')' | '[' | ']' if rest == PieceKind::Unread => PieceKind::Sign,
        _ => rest,
    };
    let mut start = 0;
    let mut kind = None;
    for (at, c) in gap.char_indices() {
        let here = if rest == PieceKind::Prose && !c.is_whitespace() { PieceKind::Prose } else { kind_of(c) };
        if let Some(before) = kind.filter(|before| *before != here) {
            out.push(Piece { kind: before, text: gap.cut(start..at) });
            start = at;
        }
        kind = Some(here);
    }
    if let Some(kind) = kind {
        out.push(Piece { kind, text: gap.tail(start) });
    }
}

#[cfg(test)]
mod tests {
    use super::{Piece, PieceKind, pieces};
    use crate::notation::read;
    use crate::source::Page;

    fn shown(text: &str) -> String {
        let page = Page::new("a.md", text.into()).unwrap();
        let lines = read(&page);
        let all: Vec<Piece<'_>> = lines.iter().flat_map(pieces).collect();
        assert_eq!(all.iter().map(|piece| piece.text).collect::<String>(), text);
        let last = lines.last().unwrap();
        let kept = |piece: &Piece<'_>| !matches!(piece.kind, PieceKind::Space | PieceKind::LineEnd | PieceKind::Sign);
        let shown = pieces(last).into_iter().filter(kept).map(|piece| format!("{:?} {}", piece.kind, piece.text));
        shown.collect::<Vec<_>>().join(" | ")
    }

    #[test]
    fn a_work_line_comes_apart() {
        assert_eq!(
            shown("## 2026-03-05\n- **Front squat:** 3x8 @ 45 lb + 100 kg RPE 6 (slow), 8\n"),
            "Lift Front squat | Count 3x8 | Load 45 lb | Load 100 kg | Attribute RPE 6 | Attribute (slow) | Count 8"
        );
    }

    #[test]
    fn what_cannot_be_read_is_a_piece_too() {
        assert_eq!(
            shown("## 2026-03-05\n- Front squat: 3x8 @ 100 kg RPE 11\n"),
            "Lift Front squat | Count 3x8 | Load 100 kg | Unread RPE | Unread 11"
        );
    }

    #[test]
    fn prose_stays_whole() {
        assert_eq!(shown("Felt fine.\r\n"), "Prose Felt | Prose fine.");
    }
}
