//! What `adherence` wants looked at, each thing with its place: efforts off the plan, work short of it, lifts skipped,
//! swapped and added.

use crate::present::{Doc, Role, wording};
use crate::questions::adherence::{AddedLift, AgainstPlan, Answer, HeldEffort, Line, Skipped, Swapped, Where};
use crate::source::Place;
use crate::training::spelling;

/// Something to look at, with its places.
pub(super) type Entry<'a> = (String, Vec<&'a Place>);

/// What to look at: each list that is not empty, under its title.
pub(super) fn lists(answer: &Answer) -> Doc {
    let (over, under) = (answer.over_plan, answer.far_under_plan);
    let lists = [
        (format!("over the plan's effort by {} or more", over.value()), over_plan(answer)),
        (format!("under the plan's effort by {} or more", under.value()), far_under_plan(answer)),
        ("short of the plan".into(), short(answer)),
        ("done on a later day than planned".into(), done_late(answer)),
        ("skipped".into(), skipped(answer)),
        ("swapped".into(), swapped(answer)),
        ("added, with no plan of their own".into(), added(answer)),
    ];
    let mut out = Doc::new();
    for (title, entries) in lists.into_iter().filter(|(_, entries)| !entries.is_empty()) {
        out.gap();
        out.wrapped(Role::Title, title, 2);
        let item = |(words, places): Entry<'_>| {
            let mut item = Doc::new();
            item.beside((Role::Plain, format!("  {words}")), places, 4);
            item
        };
        out.list(entries.into_iter().map(item).collect());
    }
    out
}

/// `Front squat, Thu 5 Mar 2026`
fn who_and_when(lift: &str, at: &Where) -> String {
    format!("{lift}, {}", wording::day(at.date))
}

fn over_plan(answer: &Answer) -> Vec<Entry<'_>> {
    let is_over_plan = |held: &HeldEffort| held.verdict == AgainstPlan::Over && held.gap >= answer.over_plan;
    answer.lines.iter().flat_map(|line| efforts_of(line, is_over_plan, "")).collect()
}

fn far_under_plan(answer: &Answer) -> Vec<Entry<'_>> {
    let is_far_under = |held: &HeldEffort| held.verdict == AgainstPlan::Under && held.gap >= answer.far_under_plan;
    let entries = answer.lines.iter().flat_map(|line| {
        let words = if line.sums.is_whole() {
            ", with all the planned work done: no fault".to_owned()
        } else {
            format!(", with {} of {} planned sets done", line.sums.sets_reached, line.sums.sets_planned)
        };
        efforts_of(line, is_far_under, &words)
    });
    entries.collect()
}

/// The efforts of a line that stand so to their plan.
fn efforts_of<'a>(line: &'a Line, wanted: impl Fn(&HeldEffort) -> bool, words: &str) -> Vec<Entry<'a>> {
    let found = line.efforts.iter().filter(|effort| wanted(effort));
    let entry = |effort: &HeldEffort| {
        let planned = wording::span(effort.planned.low.value(), Some(effort.planned.high.value()));
        let done = effort.done.map_or(String::new(), |done| done.to_string());
        (format!("{}: {done} for {planned}{words}", who_and_when(&line.lift, &line.at)), vec![&line.at.place])
    };
    found.map(entry).collect()
}

fn short<'a>(answer: &'a Answer) -> Vec<Entry<'a>> {
    let lines = answer.lines.iter().filter(|line| line.sums.skipped == 0 && !line.sums.is_whole());
    let entry = |line: &'a Line| {
        let done: Vec<String> = line.done.iter().map(wording::mark).collect();
        let done = if done.is_empty() { "no good rep".into() } else { done.join(", ") };
        let text = format!("{}: {done} for {}", who_and_when(&line.lift, &line.at), line.plan);
        (text, vec![&line.at.place])
    };
    lines.map(entry).collect()
}

/// Sessions that were moved: `Thu 5 Mar 2026, heavy day: a day later, 4 lines`.
pub(super) fn done_late(answer: &Answer) -> Vec<Entry<'_>> {
    let late: Vec<&Line> = answer.lines.iter().filter(|line| line.days_late > 0).collect();
    fn entry<'a>(lines: &[&'a Line]) -> Option<Entry<'a>> {
        let first = lines.first()?;
        let label = first.at.day.as_deref().map_or(String::new(), |day| format!(", {}", spelling::day(day)));
        let days = match first.days_late {
            1 => "a day".to_owned(),
            days => wording::count(days.unsigned_abs(), "day"),
        };
        let planned = wording::count(lines.len() as u64, "planned line");
        let text = format!("{}{label}: {days} later, {planned}", wording::day(first.at.date));
        Some((text, lines.iter().map(|line| &line.at.place).collect()))
    }
    late.chunk_by(|one, other| one.at.date == other.at.date).filter_map(entry).collect()
}

fn skipped<'a>(answer: &'a Answer) -> Vec<Entry<'a>> {
    let entry = |one: &'a Skipped| {
        let mut text = who_and_when(&one.lift, &one.at);
        if let Some(plan) = &one.plan {
            text.push_str(&format!(": {plan}"));
        }
        if let Some(reason) = &one.reason {
            text.push_str(&format!(" ({reason})"));
        }
        (text, vec![&one.at.place])
    };
    answer.skipped.iter().map(entry).collect()
}

pub(super) fn swapped<'a>(answer: &'a Answer) -> Vec<Entry<'a>> {
    let entry = |one: &'a Swapped| {
        let plan = one.plan.as_ref().map_or(String::new(), |plan| format!(", planned {plan}"));
        let text = format!("{} for {}, {}{plan}", one.by, one.lift, wording::day(one.at.date));
        (text, vec![&one.at.place])
    };
    answer.swapped.iter().map(entry).collect()
}

/// Added work by lift: what is done every week would fill the screen.
fn added(answer: &Answer) -> Vec<Entry<'_>> {
    let entry = |of_lift: &AddedLift| {
        let places = of_lift.added.iter().filter_map(|at| answer.added.get(*at));
        let places = places.map(|one| &one.at.place).collect();
        (format!("{}: {}", of_lift.lift, wording::count(of_lift.sets, "set")), places)
    };
    answer.added_lifts.iter().map(entry).collect()
}
