//! This week against the same week of the last block.

use super::pieces::{below, table, verdict, words};
use super::places::Cited;

use crate::present::view::r#match::{changes, done, role, title, verdicts, why_no_verdict};
use crate::questions::r#match::{Answer, Pair, Side, Verdict};
use maud::{Markup, html};

/// The verdicts, then the lifts, then what is still to come.
pub(super) fn section(answer: &Answer, cited: &Cited) -> Markup {
    let (Some(block), Some(week)) = (&answer.block, answer.week) else {
        return html! { p { "No work inside a block yet, so there is no week to match." } };
    };
    let (to_come, compared): (Vec<&Pair>, Vec<&Pair>) =
        answer.pairs.iter().partition(|pair| pair.verdict == Verdict::ToCome);
    html! {
        p.lead { (verdicts(answer)) }
        p { (title(answer, block, week)) }
        @if let Some(words) = why_no_verdict(answer, block, week) { p.warn { (words) } }
        @if answer.pairs.is_empty() { p { "nothing was done in either week" } }
        @if !compared.is_empty() {
            @let columns = [words("lift"), words("verdict"), words("now"), words("then")];
            @let rows: Vec<_> = compared.iter().map(|pair| row(pair, cited)).collect();
            // On a phone each lift takes two lines, so that now and then stand side by side.
            div.now-then { (table("Each lift now and then", &columns, &rows)) }
        }
        @if !to_come.is_empty() {
            @let columns = [words("lift"), words("done then")];
            @let rows = to_come.iter().map(|pair| vec![lift(pair), side(pair.then.as_ref(), pair, cited)]);
            (table("Still to come this week", &columns, &rows.collect::<Vec<_>>()))
        }
    }
}

fn row(pair: &Pair, cited: &Cited) -> Vec<Markup> {
    let role = role(pair.verdict);
    vec![
        lift(pair),
        below(verdict(role, pair.verdict.word()), changes(pair)),
        side(pair.now.as_ref(), pair, cited),
        side(pair.then.as_ref(), pair, cited),
    ]
}

fn lift(pair: &Pair) -> Markup {
    below(&pair.lift, pair.day.as_deref().unwrap_or(""))
}

fn side(side: Option<&Side>, pair: &Pair, cited: &Cited) -> Markup {
    let Some(side) = side else { return html! { span.soft { "none" } } };
    let earlier = pair.earlier.as_ref().filter(|_| pair.then.as_ref() == Some(side));
    let place = cited.place(&side.place);
    html! {
        (done(side))
        @if let Some(block) = earlier { " (block " (block) ")" }
        span.below { (place) }
    }
}
