//! A lifter's report: its sections in the order in which they are read on a Sunday.

use super::page::{Head, Section, page};
use super::places::{Cited, Pages};
use super::{cautions, glance, lines, maxima, plan, records, taper, volume, week};
use crate::present::wording;
use crate::questions::report::Answer;
use maud::{Markup, html};

/// Lays the report out.
pub fn show(answer: &Answer, pages: &Pages<'_>) -> String {
    let cited = Cited::default();
    let head = Head { title: title(answer), about: about(answer, &cited), caution: answer.caution };
    let section = |id, title, body| Section { id, title, body };
    let mut sections = vec![
        section("glance", "At a glance", glance::section(answer)),
        section("week", "This week against last block", week::section(&answer.matched, &cited)),
        section("cautions", "Cautions", cautions::section(&answer.review, &cited)),
        section("maxima", "Estimated maxima", maxima::section(&answer.courses, answer.on, &cited)),
        section("records", "Best sets", records::section(&answer.records, &cited)),
        section("volume", "Weekly volume", volume::section(&answer.weeks, answer.since.reps)),
        section("plan", "Planned and done", plan::section(&answer.adherence, &cited)),
        section("taper", "Taper", taper::section(&answer.taper, &cited)),
    ];
    let quoted = lines::section(&cited, pages);
    sections.push(section("lines", "Lines of the journal", quoted));
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
fn about(answer: &Answer, cited: &Cited) -> Markup {
    html! {
        p.when { "As of " (wording::day(answer.on)) }
        @if let Some(block) = &answer.block {
            p {
                "Block " (block.name) " from " (wording::day(block.starts))
                @if let Some(ends) = block.ends { " to " (wording::day(ends)) }
                @if let Some(phase) = &block.phase { "; " (phase) }
                span.below { (cited.place(&block.place)) }
            }
            @if let Some(goal) = &block.goal { p.goal { (goal) } }
        }
    }
}
