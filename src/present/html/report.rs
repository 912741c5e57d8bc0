//! A lifter's report: its sections in the order in which they are read on a Sunday.

use super::page::{Head, Section, page};
use super::places::{Pages, quoted};
use crate::present::Role;
use crate::present::doc::{Doc, Links, html as laid};
use crate::present::plot::Glyphs;
use crate::present::{view, wording};
use crate::questions::report::Answer;
use crate::questions::roster::Next;
use maud::{Markup, html};

/// Lays the report out.
pub fn show(answer: &Answer, pages: &Pages<'_>, watched: bool) -> String {
    let links = Links::default();
    let head = Head { title: title(answer), about: about(answer, &links), caution: answer.caution, watched };
    let mut sections = vec![Section { id: "glance", title: "At a glance", body: glance(answer) }];
    let answers: Vec<(&str, &str, Doc)> = vec![
        ("week", "This week against last block", this_week(answer)),
        ("next", "The next session", next(answer)),
        ("cautions", "Cautions", view::review::with_reasons(&answer.review)),
        ("maxima", "Estimated maxima", view::report::maxima(&answer.courses, answer.axis)),
        ("records", "Best sets", view::report::records(answer)),
        ("volume", "Weekly volume", view::report::volume(answer)),
        ("plan", "Planned and done", view::adherence::in_short(&answer.adherence)),
        ("lifter", "Bodyweight, sleep and pain", facts(answer)),
        ("taper", "Taper", taper(answer)),
    ];
    let answers = answers.into_iter().filter(|(.., doc)| !doc.is_empty());
    sections.extend(answers.map(|(id, title, doc)| Section { id, title, body: laid(&doc, 3, &links) }));
    // Paper cannot unfold the card.
    if let (Some(session), Some(next)) = (&answer.session, sections.iter_mut().find(|section| section.id == "next")) {
        let card = std::mem::take(&mut next.body);
        next.body = html! { p.paper { (view::session::in_brief(session, usize::MAX)) } (card) };
    }
    sections.push(quoted(&links, pages));
    page(&head, &sections)
}

/// The week's lifts, and below them the weeks of the block, drawn.
fn this_week(answer: &Answer) -> Doc {
    let drawn = view::weeks_over::drawn(&answer.weeks_over, answer.matched.week.unwrap_or(0), Glyphs::Blocks);
    view::r#match::in_short(&answer.matched, drawn, view::weeks_over::table(&answer.weeks_over))
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
        p.when {
            "As of " (wording::day(answer.on))
            @if let Some(block) = &answer.block {
                "; block " (block.name) " from " (wording::day(block.starts))
                @if let Some(ends) = block.ends { " to " (wording::day(ends)) }
                @if let Some(phase) = &block.phase { "; " (phase) }
                " " (links.place(&block.place))
            }
        }
        @if let Some(block) = &answer.block {
            @if let Some(goal) = &block.goal { p.goal { (goal) } }
        }
    }
}

/// The card of the next session: what goes on the bar, lift by lift.
fn next(answer: &Answer) -> Doc {
    let mut out = Doc::new();
    if let Some(session) = &answer.session {
        out.folded(
            format!("{}: every lift, with plates, warm-up and cue", view::session::day(session)),
            view::session::show(session, true),
        );
    }
    out
}

/// What the peak or deload week cuts, where there is one.
fn taper(answer: &Answer) -> Doc {
    if answer.taper.comparison.is_ok() { view::taper::show(&answer.taper, true) } else { Doc::new() }
}

/// What sessions say of the lifter, drawn over the same dates.
fn facts(answer: &Answer) -> Doc {
    let mut out = Doc::new();
    if !answer.facts.sessions.is_empty() {
        out.wrapped(Role::Answer, view::facts::verdict(&answer.facts, answer.unit), 2);
        let drawn = view::facts::dots(&answer.facts, answer.unit, Glyphs::Blocks, (answer.axis, &answer.blocks));
        let (shown, folded): (Vec<_>, Vec<_>) = drawn.into_iter().partition(|(title, _)| !title.starts_with("length"));
        out.pictures(shown.into_iter().map(|(_, dots)| dots));
        let mut more = Doc::new();
        more.pictures(folded.into_iter().map(|(_, dots)| dots));
        more.append(view::facts::show(&answer.facts, answer.unit, true));
        out.folded("Length of sessions, and all as a table", more);
    }
    out
}

/// The first answers, each in a line: the week, what needs attention, what comes next.
fn glance(answer: &Answer) -> Markup {
    let cautions = view::in_brief::in_brief(&answer.review.cautions);
    let cautions = if cautions.is_empty() { "nothing to caution about".to_owned() } else { cautions };
    let new: usize = answer.records.iter().map(|lift| lift.records.iter().filter(|record| record.new).count()).sum();
    let new = answer.block.is_some().then(|| wording::count(u64::try_from(new).unwrap_or(u64::MAX), "best set"));
    let lines = [
        ("This week against last block", Some(view::r#match::verdicts(&answer.matched))),
        ("Behind", view::r#match::behind(&answer.matched)),
        ("Look at", Some(cautions)),
        ("Next session", answer.session.as_ref().map(|session| view::session::in_brief(session, 2))),
        ("Meet", answer.next.as_ref().map(to_come)),
        ("Plan", Some(view::adherence::verdict(&answer.adherence))),
        ("New in this block", new),
        ("High reps", Some(view::since::verdict(&answer.since))),
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
