//! `adherence` as text: how much of the plan was done, then what was off it; with all, the rows and each place.

use super::{off_plan, planned_lists};
use crate::present::doc::{Column, Table, When};
use crate::present::plot::{Range, Ranges};
use crate::present::{Doc, Role, wording};
use crate::questions::adherence::{
    AgainstPlan, Answer, By, EffortCounts, HeldEffort, Line, LoadCounts, Missed, Row, Sums, Total,
};
use crate::source::Place;
use crate::training::Distance;
use std::cmp::{Ordering, Reverse};

/// Shows the answer; each line and place of it where `all` says so.
pub fn show(answer: &Answer, all: bool) -> Doc {
    let mut out = Doc::new();
    out.wrapped(Role::Answer, verdict(answer), 2);
    out.append(sums(answer));
    if answer.lines.is_empty() && answer.to_come.lines == 0 {
        let words = "Under a work line, `  - plan: 3x8 @ 120 kg RPE 6-7` says what is to be done.";
        out.wrapped(Role::Plain, words, 0);
    }
    if all && !answer.rows.is_empty() {
        out.gap();
        out.append(weeks(answer));
    }
    out.append(if all { planned_lists::lists(answer) } else { off_plan::list(answer, false) });
    out
}

/// For a page: the sums, and all else folded away.
pub(in crate::present) fn in_short(answer: &Answer) -> Doc {
    let mut out = Doc::new();
    out.wrapped(Role::Answer, verdict(answer), 2);
    out.append(sums(answer));
    let mut folded = off_plan::list(answer, true);
    folded.append(plots(answer));
    if !answer.rows.is_empty() {
        folded.append(weeks(answer));
    }
    if !folded.is_empty() {
        out.folded("Line by line, efforts planned and done, and all as a table", folded);
    }
    out
}

/// The section of one lifter among several: how much of the plan was done and why not all of it; with all, each line.
pub fn of_one(name: &str, answer: &Answer, all: bool) -> Doc {
    if all {
        return Doc::titled(name, show(answer, all));
    }
    let mut out = Doc::section(name, verdict(answer));
    out.append(sums(answer));
    out
}

/// What is said once below the sections of several lifters.
pub fn once(all: bool) -> Doc {
    let mut out = Doc::new();
    if !all {
        out.wrapped(Role::Hint, "--lifter NAME lists what was off plan, --all every line", 2);
    }
    out
}

/// What was not reached, what the answer is about, and how the efforts were.
fn sums(answer: &Answer) -> Doc {
    let mut out = missed(&answer.missed);
    out.wrapped(Role::Plain, about(answer), 2);
    out.append(all_efforts(&answer.total.efforts));
    out
}

/// Why planned sets were not reached, a line each: `14 lighter  Pause squat 6, Barbell row 4`.
fn missed(missed: &Missed) -> Doc {
    let mut table = Table::new(vec![
        Column::right("").called("sets"),
        Column::left("").called("why").heading(),
        Column::left("").called("lifts").wraps(1, 20),
    ])
    .captioned("Planned sets that were not reached");
    for (word, lifts) in [
        ("lighter", &missed.lighter),
        ("short", &missed.short),
        ("skipped", &missed.skipped),
        ("unclear", &missed.unknown),
    ] {
        let sets: u32 = lifts.iter().map(|of| of.sets).sum();
        let named: Vec<String> = lifts.iter().map(|of| format!("{} {}", of.lift, of.sets)).collect();
        if sets > 0 {
            let number = (Role::Caution, format!("  {sets}"));
            table.row(vec![number, (Role::Caution, word.into()), (Role::Plain, named.join(", "))]);
        }
    }
    Doc::of(table)
}

/// `46 of 48 planned sets as planned or better`
pub(in crate::present) fn verdict(answer: &Answer) -> String {
    let total = &answer.total;
    match total.percent() {
        Some(_) => format!(
            "{} of {} as planned or better",
            total.sets_reached,
            wording::count(total.sets_planned, "planned set"),
        ),
        None if answer.to_come.lines > 0 => "No planned set is due yet".into(),
        None => "No planned set in that range".into(),
    }
}

/// What the answer is about, and what stands outside its figures.
fn about(answer: &Answer) -> String {
    let days = match (answer.since, answer.until) {
        (Some(since), Some(until)) => Some(format!("from {since} to {until}")),
        (Some(since), None) => Some(format!("since {since}")),
        (None, Some(until)) => Some(format!("until {until}")),
        (None, None) => None,
    };
    let block = match (&answer.block, answer.week) {
        (Some(block), None) if !answer.is_over => Some(format!("block {block} so far")),
        (Some(block), week) => Some(wording::block_week(Some(block), week)),
        (None, Some(week)) => Some(format!("week {week}")),
        (None, None) => None,
    };
    let mut words = vec![match (block, days) {
        (Some(block), Some(days)) => format!("{block}, {days}"),
        (one, other) => one.or(other).unwrap_or("all that is planned up to today".into()),
    }];
    if answer.total.sets_swapped > 0 {
        words.push(wording::count(answer.total.sets_swapped, "set") + " swapped");
    }
    if answer.to_come.lines > 0 {
        let (sets, lines) = (answer.to_come.sets, answer.to_come.lines);
        words.push(format!("{} on {} to come", wording::count(sets, "set"), wording::count(lines, "line")));
    }
    words.join("; ")
}

/// The rows, with what their numbers mean.
fn weeks(answer: &Answer) -> Doc {
    let mut weeks = Doc::of(table(answer));
    let words =
        "done: planned sets done with the planned reps or more, at the planned load or heavier where one is planned";
    weeks.wrapped(Role::Place, words, 2);
    let mut pages = Doc::new();
    pages.places("", answer.lines.iter().map(where_it_stands), 2, usize::MAX);
    weeks.only(When::Hidden(WHERE), pages);
    weeks
}

/// Where the pages and lines stand among the columns.
const WHERE: usize = 9;

fn table(answer: &Answer) -> Table {
    let mut table = Table::new(vec![
        Column::left("week"),
        Column::left("lift").wraps(1, 12).heading(),
        Column::right("%"),
        Column::right("done"),
        Column::right("sets").spare(3),
        Column::right("reps").spare(2),
        Column::right("s or m").spare(4).called("seconds, metres"),
        Column::left("load").wraps(1, 9).spare(1),
        Column::left("effort").wraps(2, 11),
        Column::left("where").spare(5),
    ])
    .with_head(4)
    .captioned("Planned against done, by week and lift");
    for row in &answer.rows {
        let lines = row.lines.iter().filter_map(|at| answer.lines.get(*at));
        table.row(cells(answer, row)).at(lines.map(where_it_stands));
    }
    table
}

fn cells(answer: &Answer, row: &Row) -> Vec<(Role, String)> {
    let sums = &row.sums;
    let week = match (&row.block, row.week, answer.by) {
        (_, _, By::Lift) => String::new(),
        (Some(_), Some(week), _) if answer.block.is_some() => week.to_string(),
        (Some(block), Some(week), _) => format!("block {block} week {week}"),
        _ => "no block".into(),
    };
    let mut cells = vec![(Role::Place, week), (Role::Answer, row.lift.clone())];
    if sums.lines > 0 {
        let share = if sums.is_whole() { Role::Level } else { Role::Behind };
        let effort = if sums.efforts.over_plan > 0 { Role::Caution } else { Role::Plain };
        let words = match efforts(&sums.efforts) {
            Some(words) => words,
            None if sums.skipped == sums.lines => "skipped".into(),
            None => String::new(),
        };
        cells.extend([
            (share, sums.percent().map_or(String::new(), |percent| percent.to_string())),
            (Role::Plain, format!("{}/{}", sums.sets_reached, sums.sets_planned)),
            (Role::Plain, format!("{}/{}", sums.sets_done, wording::span(sums.sets_planned, Some(sums.sets_most)))),
            (Role::Plain, total(&sums.reps, "")),
            (Role::Plain, [total(&sums.seconds, "s"), metres(sums)].concat()),
            (Role::Plain, loads(&sums.loads)),
            (effort, words),
        ]);
    } else {
        cells.extend((0..6).map(|_| (Role::Plain, String::new())));
        cells.push((Role::Place, "swapped".into()));
    }
    cells
}

/// More efforts of a lift than these would cover one another; the last ones are drawn.
const MOST_EFFORTS: usize = 24;

/// More lifts than these would fill pages with plots; the table has all.
const MOST_PLOTS: usize = 9;

/// The efforts of each lift, drawn and in a table.
fn plots(answer: &Answer) -> Doc {
    let mut lifts: Vec<Ranges> = Vec::new();
    let columns = [Column::left("lift"), Column::left("date"), Column::right("planned"), Column::right("done")];
    let more = [Column::verdict(), Column::left("where")];
    let mut table = Table::new(columns.into_iter().chain(more).collect()).captioned("Efforts planned and done");
    // One scale for all, so that they can be held against each other.
    let mut low = f64::INFINITY;
    for (line, held) in answer.lines.iter().flat_map(|line| line.efforts.iter().map(move |held| (line, held))) {
        table.row(effort(line, held)).at([&line.at.place]);
        let range = range(line, held);
        low = range.done.map_or(range.low, |(done, _)| done.min(range.low)).min(low);
        match lifts.iter_mut().find(|known| known.title == line.lift) {
            Some(known) => known.ranges.push(range),
            None => lifts.push(Ranges { title: line.lift.clone(), ranges: vec![range], bounds: (0.0, 10.0) }),
        }
    }
    lifts.sort_by_key(|lift| Reverse(lift.ranges.len()));
    lifts.truncate(MOST_PLOTS);
    for lift in &mut lifts {
        lift.ranges.drain(..lift.ranges.len().saturating_sub(MOST_EFFORTS));
        lift.bounds.0 = (low - 0.5).floor().clamp(0.0, 9.0);
    }
    let mut out = Doc::new();
    if !lifts.is_empty() {
        out.pictures(lifts);
        out.table(table);
    }
    out
}

fn range(line: &Line, held: &HeldEffort) -> Range {
    let stands = match held.verdict {
        AgainstPlan::Over => Ordering::Greater,
        AgainstPlan::Under => Ordering::Less,
        AgainstPlan::On | AgainstPlan::Unknown => Ordering::Equal,
    };
    Range {
        group: line.at.week.map_or("–".into(), |week| week.to_string()),
        low: held.planned.low.value(),
        high: held.planned.high.value(),
        done: held.done.map(|done| (done.value(), stands)),
    }
}

fn effort(line: &Line, held: &HeldEffort) -> Vec<(Role, String)> {
    let (role, word) = match held.verdict {
        AgainstPlan::Over => (Role::Ahead, format!("over by {}", held.gap.value())),
        AgainstPlan::Under => (Role::Behind, format!("under by {}", held.gap.value())),
        AgainstPlan::On => (Role::Level, "on".into()),
        AgainstPlan::Unknown => (Role::Place, "unknown".into()),
    };
    vec![
        (Role::Answer, line.lift.clone()),
        (Role::Plain, wording::date(line.at.date)),
        (Role::Plain, wording::span(held.planned.low.value(), Some(held.planned.high.value()))),
        (Role::Plain, held.done.map_or(String::new(), |done| done.value().to_string())),
        (role, word),
    ]
}

/// `15/15`, `22/16-20`, `90/60s`: done, and planned from so many to so many.
fn total(Total { planned, most, done }: &Total<u64>, unit: &str) -> String {
    if *planned == 0 && *done == 0 { String::new() } else { format!("{done}/{}{unit}", wording::span(*planned, *most)) }
}

fn metres(sums: &Sums) -> String {
    let Total { planned, most, done } = sums.metres;
    if planned.is_zero() && done.is_zero() {
        return String::new();
    }
    let planned = wording::span(planned.rounded_metres(), most.map(Distance::rounded_metres));
    format!("{}/{planned}m", done.rounded_metres())
}

/// Sets whose loads are not the planned ones.
fn loads(counts: &LoadCounts) -> String {
    let named = [(counts.lighter, "lighter"), (counts.heavier, "heavier"), (counts.unknown, "unknown")];
    let words = named.iter().filter(|(count, _)| *count > 0).map(|(count, word)| format!("{count} {word}"));
    words.collect::<Vec<_>>().join(", ")
}

/// `on`, `3 on, 1 over by 1.5`; nothing where no effort was planned.
fn efforts(counts: &EffortCounts) -> Option<String> {
    let kinds = [
        (counts.on, "on", None),
        (counts.under, "under", counts.farthest_under),
        (counts.over, "over", counts.farthest_over),
        (counts.unknown, "unknown", None),
    ];
    let total = counts.all();
    let words = kinds.iter().filter(|(count, ..)| *count > 0).map(|(count, word, farthest)| {
        let word = if total > 1 { format!("{count} {word}") } else { (*word).to_owned() };
        let up_to = if *count > 1 { "up to " } else { "" };
        farthest.map_or(word.clone(), |gap| format!("{word} by {up_to}{}", gap.value()))
    });
    (total > 0).then(|| words.collect::<Vec<_>>().join(", "))
}

/// `effort: 34 on, 5 over by up to 1.5`
fn all_efforts(counts: &EffortCounts) -> Doc {
    let mut out = Doc::new();
    if let Some(words) = efforts(counts) {
        let number = if counts.all() == 1 { "1 " } else { "" };
        out.wrapped(Role::Plain, format!("effort: {number}{words}"), 2);
    }
    out
}

fn where_it_stands(line: &Line) -> &Place {
    &line.at.place
}
