//! What stands between the parts of a line: the bullet, the colon, the gap before a value, the line's end.
//! How far a line is indented is left to whoever writes it.

use super::pen::Pen;
use crate::notation::bullet::{before, bullet as read_bullet};
use crate::notation::grammar::keys::{at_colon, bare_name};
use crate::notation::grammar::lexer::{skip_gap, trim_end, trim_start};

/// A bullet with its blank; gives what stands behind it. Of a line without a bullet, all but its indent.
pub(super) fn bullet<'a>(pen: &mut Pen<'a>, text: &'a str) -> &'a str {
    let inner = trim_start(text);
    let Some(bullet) = read_bullet(text) else { return inner };
    let length = inner.chars().next().map_or(0, char::len_utf8);
    if let Some((sign, _)) = inner.split_at_checked(length) {
        pen.put(sign, "-");
        if let Some(gap) = pen.between(sign, bullet.content) {
            pen.gap(gap, " ", "");
        }
    }
    bullet.content
}

/// The colon of a line, with no blank before it; gives the name before it, and the value.
pub(super) fn colon<'a>(pen: &mut Pen<'a>, content: &'a str) -> Option<(&'a str, &'a str)> {
    let (name, value) = at_colon(content)?;
    let blanks = name.get(trim_end(name).len()..)?;
    pen.gap(blanks, "", "");
    Some((bare_name(name), value))
}

/// The gap before the body of a value.
pub(super) fn before_body(pen: &mut Pen<'_>, value: &str, body: &str) {
    if !body.is_empty() {
        pen.gap(before(value, body), " ", "");
    }
}

/// What is left at a line's end after its last part: blanks, and the full stop or comma that counts for nothing.
pub(super) fn end<'a>(pen: &mut Pen<'a>, last: &str, text: &'a str) {
    if let Some(rest) = pen.behind(last, text) {
        pen.gap(rest, "", ".,");
    }
}

/// A value without white space round it and without the full stop or comma that ends it.
pub(super) fn body_of(value: &str) -> &str {
    let value = trim_end(skip_gap(value));
    value.strip_suffix(['.', ',']).map_or(value, |shorter| trim_end(shorter))
}
