//! `check` as text.

use crate::present::problem::{Answer, show as show_problem};
use crate::present::{Doc, Role, wording};

/// Shows the problems, and a count at the end.
pub fn show(answer: &Answer) -> Doc {
    let Answer { pages, sessions, errors, warnings, problems } = answer;
    let mut out = Doc::new();
    for problem in problems {
        show_problem(problem, &mut out);
        out.gap();
    }
    let read = format!("{} and {} read", wording::count(*pages, "page"), wording::count(*sessions, "session"));
    let (role, words) = match (errors, warnings) {
        (0, 0) => (Role::Ahead, format!("every line is understood: {read}")),
        (0, _) => (Role::Caution, format!("{}: {read}", wording::count(*warnings, "warning"))),
        (_, 0) => (Role::Error, format!("{}: {read}", wording::count(*errors, "error"))),
        _ => (
            Role::Error,
            format!("{}, {}: {read}", wording::count(*errors, "error"), wording::count(*warnings, "warning")),
        ),
    };
    out.wrapped(role, &words, 2);
    out
}
