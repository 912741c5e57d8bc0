//! `check` as text.

use crate::present::problem::{Answer, show as show_problem};
use crate::present::{Doc, Role, wording};

/// What parts how much was read from what that comes to.
const BETWEEN: &str = "   ";

/// Shows the problems, and at the end what was read.
pub fn show(answer: &Answer) -> Doc {
    let mut out = Doc::new();
    for problem in &answer.problems {
        show_problem(problem, &mut out);
        out.gap();
    }
    let mut parts = vec![wording::count(answer.work_lines, "work line")];
    if answer.planned > 0 {
        parts.push(format!("{} planned", answer.planned));
    }
    if answer.prose_lines > 0 {
        parts.push(format!("{} of prose", wording::count(answer.prose_lines, "line")));
    }
    let nowhere = match (answer.left_out, answer.work_lines) {
        (0, _) => String::new(),
        (1, 0) => "; 1 line looks like training and counts nowhere".to_owned(),
        (more, 0) => format!("; {more} lines look like training and count nowhere"),
        (1, _) => "; 1 line counts nowhere".to_owned(),
        (more, _) => format!("; {more} lines count nowhere"),
    };
    let (errors, warnings) = (wording::count(answer.errors, "error"), wording::count(answer.warnings, "warning"));
    let (role, verdict) = match (answer.errors, answer.warnings) {
        (0, 0) => (Role::Ahead, "every line is understood".to_owned()),
        (0, _) => (Role::Caution, warnings),
        (_, 0) => (Role::Error, errors),
        _ => (Role::Error, format!("{errors}, {warnings}")),
    };
    let said = format!("{}: {}{nowhere}", wording::count(answer.sessions, "session"), parts.join(", "));
    // Side by side where the screen has room.
    let (mut wide, mut narrow) = (Doc::new(), Doc::new());
    let needed = said.len() + BETWEEN.len() + verdict.len();
    narrow.wrapped(Role::Answer, said.as_str(), 2);
    narrow.wrapped(role, verdict.as_str(), 2);
    wide.pieces(vec![(Role::Answer, said), (Role::Plain, BETWEEN.into()), (role, verdict)]);
    out.by_width(needed, wide, narrow);
    out
}
