//! What there is to know first.

use crate::present::view;
use crate::present::wording;
use crate::questions::report::Answer;
use crate::questions::roster::Next;
use maud::{Markup, html};

/// The first answers, each in a line.
pub(super) fn section(answer: &Answer) -> Markup {
    let mut cautions: Vec<&str> = answer.review.cautions.iter().map(|caution| caution.name).collect();
    cautions.dedup();
    let new: usize = answer.records.iter().map(|lift| lift.records.iter().filter(|record| record.new).count()).sum();
    html! {
        dl.glance {
            (line("This week against last block", &view::r#match::verdicts(&answer.matched)))
            (line("Plan", &view::adherence::verdict(&answer.adherence)))
            @if answer.block.is_some() {
                (line("New in this block", &wording::count(u64::try_from(new).unwrap_or(u64::MAX), "best set")))
            }
            (line("Cautions", &if cautions.is_empty() { "none".to_owned() } else { cautions.join(", ") }))
            (line("High reps", &view::since::verdict(&answer.since)))
            @if let Some(next) = &answer.next { (line("Next", &to_come(next))) }
        }
    }
}

fn line(what: &str, answer: &str) -> Markup {
    html! { div { dt { (what) } dd { (answer) } } }
}

/// `Harbour Open, Sat 19 Dec 2026, in 3 weeks`
pub(super) fn to_come(next: &Next) -> String {
    let when = view::roster::weeks(next.weeks);
    let when = if next.weeks == 0 { when } else { format!("in {when}") };
    format!("{}, {}, {when}", next.title, wording::day(next.date))
}
