//! The values of facts and of a block's keys.

use super::pen::Pen;
use super::spacing::body_of;
use super::{spacing, spelling};
use crate::notation::grammar::lexer::{trim_end, trim_start};
use crate::notation::nodes::{BlockKey, Fact, Written};
use crate::source::Cut;

/// A fact's value; a remark in parentheses behind it stays.
pub(super) fn fact<'a>(pen: &mut Pen<'a>, text: &'a str, value: &'a str, fact: &Written<'a, Fact<'a>>) {
    let body = body_of(value);
    spacing::before_body(pen, value, body);
    let inner = fact.text;
    match fact.value {
        Fact::Bodyweight(..) if inner.contains("<!--") => {}
        Fact::Bodyweight(number, unit) => pen.put(inner, &spelling::mass(number, unit)),
        Fact::Sleep(_) | Fact::Duration(_) => pen.put(inner, &spelling::hours(inner)),
        Fact::SessionRpe(_) => pen.put(inner, &spelling::solid(inner)),
        Fact::Pain(..) => pain(pen, inner),
        // A name keeps its letters, as a lift's own does.
        Fact::Gym(_) => {}
    }
    remark(pen, body, inner);
    spacing::end(pen, body, text);
}

/// Where it hurts is told in the lifter's words; only the stroke loses its blanks.
fn pain(pen: &mut Pen<'_>, text: &str) {
    let Some((before, after)) = text.rsplit_once('/') else { return };
    let digits = trim_end(before);
    pen.gap(before.tail(digits.len()), "", "");
    let gap = after.len() - trim_start(after).len();
    pen.gap(after.head(gap), "", "");
}

/// One blank before a remark at a value's end.
fn remark(pen: &mut Pen<'_>, body: &str, inner: &str) {
    let rest = body.tail(inner.len());
    if let Some(gap) = rest.find('(').and_then(|at| rest.get(..at)) {
        pen.gap(gap, " ", "");
    }
}

/// The value of a block's key. `goal:` and `phase:` are the lifter's words.
pub(super) fn block_key<'a>(
    pen: &mut Pen<'a>,
    text: &'a str,
    value: &'a str,
    key: &Written<'a, BlockKey<'a>>,
    mut lift: impl FnMut(&mut Pen<'a>, &'a str),
) {
    let body = body_of(value);
    spacing::before_body(pen, value, body);
    let inner = key.text;
    match &key.value {
        BlockKey::Phase(_) | BlockKey::Goal(_) => return,
        BlockKey::Starts(_) => pen.put(inner, &spelling::solid(inner)),
        BlockKey::Weeks(_) => {}
        BlockKey::Deload(weeks) | BlockKey::Peak(weeks) => {
            let list: Vec<String> = weeks.iter().map(|week| format!("week {}", week.value)).collect();
            if !inner.contains("<!--") {
                pen.put(inner, &list.join(", "));
            }
        }
        BlockKey::Max { lift: name, load } => {
            lift(pen, name);
            if let Some(gap) = pen.between(name, load.text) {
                pen.gap(gap, " ", ":@");
            }
            pen.put(load.text, &spelling::load(load));
        }
    }
    remark(pen, body, inner);
    spacing::end(pen, body, text);
}
