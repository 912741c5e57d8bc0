//! `check` as text.

use crate::present::problem::{Placed, show as show_problem};
use crate::present::{Markup, Role, Screen, wording};
use crate::problems::Severity;

/// What parts how much was read from what that comes to.
const BETWEEN: &str = "   ";

/// How much was read, and as what.
#[derive(Clone, Copy, Debug)]
pub struct Read {
    /// Sessions with a date.
    pub sessions: u32,
    /// Lines with sets that count.
    pub work: u32,
    /// Plans.
    pub planned: u32,
    /// Lines that hold no training.
    pub prose: u32,
    /// Lines that an error costs.
    pub nowhere: u32,
}

/// Shows the problems, and at the end what was read.
pub fn show(read: &Read, problems: &[Placed], screen: Screen) -> Markup {
    let mut out = Markup::new();
    for problem in problems {
        show_problem(problem, &mut out);
        out.gap();
    }
    let number = |severity| problems.iter().filter(|problem| problem.severity == severity).count() as u32;
    let (errors, warnings) = (number(Severity::Error), number(Severity::Warning));
    let mut parts = vec![wording::count(read.work, "work line")];
    if read.planned > 0 {
        parts.push(format!("{} planned", read.planned));
    }
    if read.prose > 0 {
        parts.push(format!("{} of prose", wording::count(read.prose, "line")));
    }
    let nowhere = match read.nowhere {
        0 => String::new(),
        1 => "; 1 line counts nowhere".to_owned(),
        more => format!("; {more} lines count nowhere"),
    };
    let (role, verdict) = match (errors, warnings) {
        (0, 0) => (Role::Ahead, "every line is understood".to_owned()),
        (0, _) => (Role::Caution, wording::count(warnings, "warning")),
        (_, 0) => (Role::Error, wording::count(errors, "error")),
        _ => (Role::Error, format!("{}, {}", wording::count(errors, "error"), wording::count(warnings, "warning"))),
    };
    let looks = read.nowhere > 0 && read.work == 0;
    let nowhere = match (looks, read.nowhere) {
        (true, 1) => "; 1 line looks like training and counts nowhere".to_owned(),
        (true, more) => format!("; {more} lines look like training and count nowhere"),
        _ => nowhere,
    };
    let said = format!("{}: {}{nowhere}", wording::count(read.sessions, "session"), parts.join(", "));
    // Side by side where the screen has room.
    if said.len() + BETWEEN.len() + verdict.len() <= screen.width {
        out.pieces(vec![(Role::Answer, said), (Role::Plain, BETWEEN.into()), (role, verdict)]);
    } else {
        out.wrapped(Role::Answer, &said, screen.width, 2);
        out.wrapped(role, &verdict, screen.width, 2);
    }
    out
}
