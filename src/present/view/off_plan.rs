//! What `adherence` wants looked at, a line each: what was planned, what was done, and how far the one is from the other.

use super::planned_lists::{done_late, swapped};
use crate::history::Mark;
use crate::present::doc::{Column, Table};
use crate::present::{Doc, Role, wording};
use crate::questions::adherence::{AgainstPlan, Answer, HeldEffort, Line};
use crate::training::Amount;

/// Of several blocks so many of the latest lines are told, which have a screen to themselves.
const LATEST: usize = 6;

/// The lines that are not as planned, of several blocks the latest but `whole`; then what else became of plans, and how
/// much was done without one.
pub(super) fn list(answer: &Answer, whole: bool) -> Doc {
    let mut out = Doc::new();
    let block = answer.lines.first().and_then(|line| line.at.block.as_ref());
    let one_block = answer.lines.iter().all(|line| line.at.block.as_ref() == block);
    let mut table = Table::new(vec![
        if one_block { Column::left("wk") } else { Column::right("day") },
        Column::left("off plan").wraps(1, 11).heading(),
        Column::left("planned").wraps(1, 13),
        Column::left("done").wraps(1, 13),
        Column::left("").called("difference").wraps(1, 9),
    ])
    .with_head(2)
    .captioned("What was not done as planned");
    let off = answer.lines.iter().map(|line| (line, differences(answer, line)));
    let off: Vec<(&Line, Vec<String>)> = off.filter(|(_, differs)| !differs.is_empty()).collect();
    let earlier = if one_block || whole { 0 } else { off.len().saturating_sub(LATEST) };
    for (line, differs) in off.into_iter().skip(earlier) {
        let week = line.at.week.map_or("-".into(), |week| week.to_string());
        let skipped = line.sums.skipped > 0;
        table
            .row(vec![
                (Role::Place, if one_block { week } else { wording::short_day(line.at.date) }),
                (Role::Answer, line.lift.clone()),
                (Role::Plain, line.plan.clone()),
                (Role::Plain, if skipped { String::new() } else { done(line) }),
                (Role::Caution, differs.join(", ")),
            ])
            .at([&line.at.place]);
    }
    let mut told = Doc::of(table);
    if earlier > 0 {
        told.wrapped(Role::Plain, format!("and {} before these", wording::count(earlier as u64, "line")), 2);
    }
    let late = done_late(answer).into_iter().map(|(words, _)| format!("done late: {words}"));
    let swaps = swapped(answer).into_iter().map(|(words, _)| format!("swapped: {words}"));
    let unplanned = answer.skipped.iter().filter(|skipped| skipped.plan.is_none());
    let skipped = unplanned.map(|one| format!("skipped: {}, {}", one.lift, wording::day(one.at.date)));
    for words in late.chain(swaps).chain(skipped) {
        told.wrapped(Role::Plain, words, 2);
    }
    let sets: u32 = answer.added_lifts.iter().map(|of| of.sets).sum();
    let mut last = Vec::new();
    if sets > 0 {
        let lifts = wording::count(answer.added_lifts.len() as u64, "lift");
        last.push((Role::Plain, format!("{lifts} with no plan, {}", wording::count(sets, "set"))));
    }
    if !answer.lines.is_empty() {
        let hint = if last.is_empty() { "--all lists every line" } else { "; --all lists every line" };
        last.push((Role::Hint, hint.into()));
    }
    if !last.is_empty() {
        told.broken(last, 2);
    }
    let is_hint_alone = told.parts.len() == 2 && sets == 0;
    if !answer.lines.is_empty() || told.parts.len() > 1 {
        if !is_hint_alone {
            out.gap();
        }
        out.append(told);
    }
    out
}

/// How a line differs from its plan; nothing where it is as planned or better.
fn differences(answer: &Answer, line: &Line) -> Vec<String> {
    let sums = &line.sums;
    if sums.skipped > 0 {
        let same = |one: &&crate::questions::adherence::Skipped| one.at.place == line.at.place;
        let why = answer.skipped.iter().find(same).and_then(|skipped| skipped.reason.as_deref());
        return vec![why.map_or("skipped".into(), |why| format!("skipped ({why})"))];
    }
    let mut words = Vec::new();
    if !sums.is_whole() {
        words.extend(line.lighter_by.map(|by| format!("-{by}")));
        let sets = sums.sets_planned.saturating_sub(sums.sets_done);
        if sets > 0 {
            words.push(format!("-{}", wording::count(sets, "set")));
        } else {
            let reps = sums.reps.planned.saturating_sub(sums.reps.done);
            let seconds = sums.seconds.planned.saturating_sub(sums.seconds.done);
            let metres = sums.metres.planned.rounded_metres() - sums.metres.done.rounded_metres();
            words.extend((reps > 0).then(|| format!("-{}", wording::count(reps, "rep"))));
            words.extend((seconds > 0).then(|| format!("-{seconds}s")));
            words.extend((metres > 0.0).then(|| format!("-{metres}m")));
        }
        if words.is_empty() {
            let cannot = sums.loads.unknown > 0;
            words.push(if cannot { "loads cannot be compared" } else { "short" }.into());
        }
    }
    words.extend(line.efforts.iter().filter_map(|held| effort(answer, held)));
    words
}

/// `RPE 9.5 for 8`, where that is far enough from the plan.
fn effort(answer: &Answer, held: &HeldEffort) -> Option<String> {
    let far = match held.verdict {
        AgainstPlan::Over => held.gap >= answer.over_plan,
        AgainstPlan::Under => held.gap >= answer.far_under_plan,
        AgainstPlan::On | AgainstPlan::Unknown => false,
    };
    let planned = wording::span(held.planned.low.value(), Some(held.planned.high.value()));
    held.done.filter(|_| far).map(|done| format!("{done} for {planned}"))
}

/// What was done: one load, set by set, else each mark.
fn done(line: &Line) -> String {
    let Some(first) = line.done.first() else { return "no good rep".into() };
    let one_load = line.done.iter().all(|mark| mark.load == first.load && mark.per_side == first.per_side);
    if !one_load {
        return line.done.iter().map(wording::mark).collect::<Vec<_>>().join(", ");
    }
    let sets = |mark: &Mark| std::iter::repeat_n(mark.amount, usize::try_from(mark.sets).unwrap_or(0));
    let amounts: Vec<Amount> = line.done.iter().flat_map(sets).collect();
    let effort = line.done.iter().filter_map(|mark| mark.effort).max();
    wording::work_of(wording::set_by_set(&amounts, first.per_side), &first.load, effort)
}
