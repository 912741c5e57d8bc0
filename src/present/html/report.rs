//! A lifter's report: its sections in the order in which they are read on a Sunday.

use super::page::{Head, Section, page};
use super::places::{Pages, quoted};
use crate::present::doc::{Doc, Links, html as laid};
use crate::present::{view, wording};
use crate::questions::report::Answer;
use crate::questions::roster::Next;
use maud::{Markup, html};

/// Lays the report out.
pub fn show(answer: &Answer, pages: &Pages<'_>) -> String {
    let links = Links::default();
    let head = Head { title: title(answer), about: about(answer, &links), caution: answer.caution };
    let mut sections = vec![Section { id: "glance", title: "At a glance", body: glance(answer) }];
    let answers: [(&str, &str, Doc); 7] = [
        ("week", "This week against last block", view::r#match::show(&answer.matched)),
        ("cautions", "Cautions", view::review::with_reasons(&answer.review)),
        ("maxima", "Estimated maxima", view::report::maxima(&answer.courses, answer.on)),
        ("records", "Best sets", view::report::records(&answer.records)),
        ("volume", "Weekly volume", view::report::volume(&answer.weeks, answer.since.reps)),
        ("plan", "Planned and done", view::adherence::show(&answer.adherence)),
        ("taper", "Taper", view::taper::show(&answer.taper)),
    ];
    sections.extend(answers.into_iter().map(|(id, title, doc)| Section { id, title, body: laid(&doc, 3, &links) }));
    sections.push(quoted(&links, pages));
    page(&head, &sections)
}

/// `Anselm: block 9`
fn title(answer: &Answer) -> String {
    let block = answer.block.as_ref().map(|block| format!("block {}", block.name));
    match (&answer.lifter, block) {
        (Some(lifter), Some(block)) => format!("{lifter}: {block}"),
        (Some(lifter), None) => lifter.clone(),
        (None, Some(block)) => format!("Training report: {block}"),
        (None, None) => "Training report".into(),
    }
}

/// When it is looked at, and what the block is about.
fn about(answer: &Answer, links: &Links) -> Markup {
    html! {
        p.when { "As of " (wording::day(answer.on)) }
        @if let Some(block) = &answer.block {
            p {
                "Block " (block.name) " from " (wording::day(block.starts))
                @if let Some(ends) = block.ends { " to " (wording::day(ends)) }
                @if let Some(phase) = &block.phase { "; " (phase) }
                span.below { (links.place(&block.place)) }
            }
            @if let Some(goal) = &block.goal { p.goal { (goal) } }
        }
    }
}

/// The first answers, each in a line.
fn glance(answer: &Answer) -> Markup {
    let mut cautions: Vec<&str> = answer.review.cautions.iter().map(|caution| caution.name).collect();
    cautions.dedup();
    let cautions = if cautions.is_empty() { "none".to_owned() } else { cautions.join(", ") };
    let new: usize = answer.records.iter().map(|lift| lift.records.iter().filter(|record| record.new).count()).sum();
    let new = answer.block.is_some().then(|| wording::count(u64::try_from(new).unwrap_or(u64::MAX), "best set"));
    let lines = [
        ("This week against last block", Some(view::r#match::verdicts(&answer.matched))),
        ("Plan", Some(view::adherence::verdict(&answer.adherence))),
        ("New in this block", new),
        ("Cautions", Some(cautions)),
        ("High reps", Some(view::since::verdict(&answer.since))),
        ("Next", answer.next.as_ref().map(to_come)),
    ];
    html! {
        dl.glance {
            @for (what, said) in lines { @if let Some(said) = said { div { dt { (what) } dd { (said) } } } }
        }
    }
}

/// `Harbour Open, Sat 19 Dec 2026, in 3 weeks`
fn to_come(next: &Next) -> String {
    let when = view::roster::weeks(next.weeks);
    let when = if next.weeks == 0 { when } else { format!("in {when}") };
    format!("{}, {}, {when}", next.title, wording::day(next.date))
}
