//! The parts of a page that have names: blocks, sessions, lifts; and what can be folded away.

use crate::editor::scene::Scene;
use crate::editor::values::{Symbol, SymbolKind};
use crate::notation::Reader;
use crate::notation::nodes::{Line, LineKind};
use crate::source::{Page, Span};

/// The blocks of a page with their sessions, and these with their lifts.
pub(crate) fn symbols(scene: &Scene<'_>) -> Vec<Symbol> {
    outline(&scene.page)
}

/// What can be folded away: blocks, sessions, and lines with something below them.
pub(crate) fn folds(scene: &Scene<'_>) -> Vec<Span> {
    let mut folds = Vec::new();
    let mut left = outline(&scene.page);
    while let Some(symbol) = left.pop() {
        folds.push(symbol.span);
        left.extend(symbol.children);
    }
    folds.retain(|span| span.text(scene.page.text()).trim_end().contains('\n'));
    folds.sort();
    folds
}

/// From a place outwards: the thing there, its line, its lift with all below it, its session, its block, the page.
pub(crate) fn around(scene: &Scene<'_>, offset: usize, thing: Option<Span>) -> Vec<Span> {
    let text = scene.page.text();
    let holds = |span: &Span| (span.start as usize) <= offset && offset <= span.end as usize;
    let mut spans: Vec<Span> = thing.into_iter().collect();
    let line = scene.span_of(scene.line_of(offset));
    let words = line.text(text);
    let start = line.start as usize + (words.len() - words.trim_start().len());
    spans.push(Span::new(start, line.start as usize + words.trim_end().len()));
    spans.push(line);
    let mut path = Vec::new();
    let mut here = outline(&scene.page);
    while let Some(symbol) = here.into_iter().rev().find(|symbol| holds(&symbol.span)) {
        path.push(symbol.span);
        here = symbol.children;
    }
    spans.extend(path.into_iter().rev());
    spans.push(Span::new(0, text.len()));
    // Each holds the one before it.
    let mut out: Vec<Span> = Vec::new();
    for span in spans.into_iter().filter(holds) {
        if out.last().is_none_or(|last| *last != span && span.start <= last.start && last.end <= span.end) {
            out.push(span);
        }
    }
    out
}

fn outline(page: &Page) -> Vec<Symbol> {
    let text = page.text();
    // What is open: a block, in it a session, in it a lift.
    let mut open: [Option<Symbol>; 3] = [None, None, None];
    let mut done = Vec::new();
    let mut filled = 0;
    for line in Reader::new(page) {
        let span = Span::of(text, line.text);
        let level = level(&line);
        if let Some(level) = level {
            close(&mut open, level, filled, &mut done);
        }
        if let Some((level, symbol)) = level.and_then(|level| Some((level, symbol(text, &line, span)?)))
            && let Some(place) = open.get_mut(level)
        {
            *place = Some(symbol);
        }
        if !line.text.trim().is_empty() {
            filled = span.start + line.text.trim_end().len() as u32;
        }
    }
    close(&mut open, 0, filled, &mut done);
    done
}

/// How deep a line that begins something, or ends it, stands.
fn level(line: &Line<'_>) -> Option<usize> {
    match &line.kind {
        LineKind::Block(_) => Some(0),
        LineKind::Session(_) | LineKind::BadSession => Some(1),
        LineKind::Heading { ends: true } => Some(1),
        LineKind::Work(_) | LineKind::Fact(_) | LineKind::SessionNote(_) => Some(2),
        _ => None,
    }
}

fn symbol(text: &str, line: &Line<'_>, span: Span) -> Option<Symbol> {
    let title = line.text.trim().trim_start_matches('#').trim();
    let (kind, name) = match &line.kind {
        LineKind::Block(_) => (SymbolKind::Block, title),
        LineKind::Session(_) => (SymbolKind::Session, title),
        LineKind::Work(work) => (SymbolKind::Lift, work.name),
        _ => return None,
    };
    let detail = match &line.kind {
        LineKind::Work(_) => line.text.split_once(':').map(|(_, what)| what.trim().to_owned()),
        _ => None,
    };
    let detail = detail.filter(|detail| !detail.is_empty());
    let name_or = if name.is_empty() { line.text.trim() } else { name };
    Some(Symbol { name: name_or.to_owned(), detail, kind, span, named: Span::of(text, name_or), children: Vec::new() })
}

/// Ends what is open from a level on, the innermost first.
fn close(open: &mut [Option<Symbol>; 3], level: usize, end: u32, done: &mut Vec<Symbol>) {
    for at in (level..3).rev() {
        let Some(mut symbol) = open.get_mut(at).and_then(Option::take) else { continue };
        symbol.span.end = end.max(symbol.named.end);
        let above = open.get_mut(..at).and_then(|above| above.iter_mut().rev().flatten().next());
        match above {
            Some(above) => above.children.push(symbol),
            None => done.push(symbol),
        }
    }
}
