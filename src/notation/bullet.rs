//! A bullet's white space and content.

use super::grammar::lexer::{is_dash, is_space, skip_gap, trim_start};
use crate::source::{Cut, Span};

/// A bullet.
pub(super) struct Bullet<'a> {
    pub(super) indent: usize,
    pub(super) content: &'a str,
}

/// A bullet's white space and content.
pub(super) fn bullet(line: &str) -> Option<Bullet<'_>> {
    let inner = trim_start(line);
    let after = inner.strip_prefix(|c| is_dash(c) || matches!(c, '*' | '+'))?;
    if !(after.is_empty() || after.starts_with(is_space)) {
        return None;
    }
    Some(Bullet { indent: line.len() - inner.len(), content: skip_gap(after) })
}

/// What stands in `whole` before `piece`, which must lie in it.
pub(super) fn before<'a>(whole: &'a str, piece: &str) -> &'a str {
    whole.head(Span::of(whole, piece).start as usize)
}
