//! `check` as text.

use crate::present::problem::{Placed, show as show_problem};
use crate::present::{Doc, Role, wording};
use crate::problems::Severity;

/// Shows the problems, and a count at the end.
pub fn show(pages: u32, sessions: u32, problems: &[Placed]) -> Doc {
    let mut out = Doc::new();
    for problem in problems {
        show_problem(problem, &mut out);
        out.gap();
    }
    let number = |severity| problems.iter().filter(|problem| problem.severity == severity).count() as u32;
    let (errors, warnings) = (number(Severity::Error), number(Severity::Warning));
    let read = format!("{} and {} read", wording::count(pages, "page"), wording::count(sessions, "session"));
    let (role, words) = match (errors, warnings) {
        (0, 0) => (Role::Ahead, format!("every line is understood: {read}")),
        (0, _) => (Role::Caution, format!("{}: {read}", wording::count(warnings, "warning"))),
        (_, 0) => (Role::Error, format!("{}: {read}", wording::count(errors, "error"))),
        _ => (
            Role::Error,
            format!("{}, {}: {read}", wording::count(errors, "error"), wording::count(warnings, "warning")),
        ),
    };
    out.wrapped(role, &words, 2);
    out
}
