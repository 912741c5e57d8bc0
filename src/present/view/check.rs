//! `check` as text.

use crate::present::doc::When;
use crate::present::problem::{Answer, More, Told, Unfamiliar, show as show_problem};
use crate::present::{Doc, Role, wording};

/// What parts how much was read from what that comes to.
const BETWEEN: &str = "   ";

/// Shows the problems, and at the end what was read.
pub fn show(answer: &Answer, told: Told) -> Doc {
    let mut out = Doc::new();
    for problem in &answer.problems {
        show_problem(problem, told, &mut out);
        out.gap();
    }
    for More { page, errors, warnings } in &answer.more_problems {
        let more = u64::from(errors + warnings);
        out.wrapped(Role::Caution, format!("{page}: {} more", wording::count(more, "problem")), 2);
    }
    if !answer.more_problems.is_empty() {
        out.gap();
    }
    for Unfamiliar { lift, lines, near } in &answer.lifts_without_family {
        let meant = match near.as_slice() {
            [] => "`lifts:` in journal.yaml gives it one".to_owned(),
            near => format!("do you mean {}? If not, `lifts:` in journal.yaml gives it one", wording::any_of(near)),
        };
        out.wrapped(Role::Caution, format!("{lift}: {}, no family; {meant}", wording::count(*lines, "line")), 2);
    }
    if !answer.lifts_without_family.is_empty() {
        out.gap();
    }
    let mut parts = vec![wording::count(answer.work_lines, "work line")];
    if answer.planned > 0 {
        parts.push(format!("{} planned", answer.planned));
    }
    if answer.prose_lines > 0 {
        parts.push(format!("{} of prose", wording::count(answer.prose_lines, "line")));
    }
    let nowhere = match (answer.work_lines, answer.nowhere) {
        (_, 0) => String::new(),
        (0, 1) => "; 1 line looks like training and counts nowhere".to_owned(),
        (0, more) => format!("; {more} lines look like training and count nowhere"),
        (_, 1) => "; 1 line counts nowhere".to_owned(),
        (_, more) => format!("; {more} lines count nowhere"),
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
    let least = said.len() + BETWEEN.len() + verdict.len();
    let mut wide = Doc::new();
    wide.pieces(vec![(Role::Answer, said.clone()), (Role::Plain, BETWEEN.into()), (role, verdict.clone())]);
    let mut narrow = Doc::new();
    narrow.wrapped(Role::Answer, said, 2);
    narrow.wrapped(role, verdict, 2);
    out.only(When::Wide(least), wide);
    out.only(When::Narrow(least), narrow);
    out
}
