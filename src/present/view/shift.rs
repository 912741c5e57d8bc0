//! `shift` as text, below the diff: what stays on its day.

use crate::present::{Doc, Role, wording};
use crate::questions::shift::Answer;

/// Shows what stays.
pub fn show(answer: &Answer) -> Doc {
    let mut out = Doc::new();
    let moved = wording::count(answer.sessions.len() as u64, "planned session");
    let verb = if answer.sessions.len() == 1 { "moves" } else { "move" };
    out.wrapped(Role::Plain, format!("{moved} {verb} to other days"), 2);
    for stays in &answer.stays {
        let day = wording::day(stays.date);
        let words = match stays.meet.as_deref() {
            Some("") => format!("{day} stays: a meet moves with its organiser only"),
            Some(name) => format!("{day} stays: {name} moves with its organiser only"),
            None => format!("{day} stays: something is written of that session"),
        };
        out.wrapped(Role::Place, words, 2);
    }
    out
}
