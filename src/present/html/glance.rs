//! What there is to know first.

use crate::present::text;
use crate::present::wording;
use crate::questions::report::Answer;
use crate::questions::roster::Next;
use maud::{Markup, html};

/// The first answers, each in a line.
pub(super) fn section(answer: &Answer) -> Markup {
    let cautions = u64::try_from(answer.review.cautions.len()).unwrap_or(u64::MAX);
    let new: usize = answer.records.iter().map(|lift| lift.records.iter().filter(|record| record.new).count()).sum();
    html! {
        dl.glance {
            dt { "This week against last block" } dd { (text::r#match::verdicts(&answer.matched)) }
            dt { "Plan" } dd { (text::adherence::verdict(&answer.adherence)) }
            @if answer.block.is_some() {
                dt { "Best sets of this block" }
                dd { (wording::count(u64::try_from(new).unwrap_or(u64::MAX), "new rep record")) }
            }
            dt { "Cautions" } dd { @if cautions == 0 { "none" } @else { (cautions) } }
            dt { "High reps" } dd { (text::since::verdict(&answer.since)) }
            @if let Some(next) = &answer.next { dt { "Next" } dd { (to_come(next)) } }
        }
    }
}

/// `Harbour Open, Sat 19 Dec 2026, in 3 weeks`
pub(super) fn to_come(next: &Next) -> String {
    let when = text::roster::weeks(next.weeks);
    let when = if next.weeks == 0 { when } else { format!("in {when}") };
    format!("{}, {}, {when}", next.title, wording::day(next.date))
}
