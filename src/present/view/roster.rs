//! `roster` as text: one line a lifter.

use super::in_brief::in_brief;
use super::weight_class::{caution, distance};
use crate::present::doc::{Column, Table};
use crate::present::{Doc, Role, wording};
use crate::questions::review::Tells;
use crate::questions::roster::{Answer, Line, Next};
use std::collections::BTreeSet;

/// So many blocks are named where nobody is in the one asked for.
const NAMED: usize = 12;

/// Shows the lines of those who were asked for, among so many lifters; `blocks` are those that they are in, where nobody is in
/// the one that was asked for.
pub fn show(Answer { lifters: lines }: &Answer, among: usize, blocks: &BTreeSet<String>) -> Doc {
    let mut out = Doc::new();
    if lines.is_empty() {
        let words = match among {
            0 => "no lifter here yet".into(),
            many if blocks.is_empty() => format!("none of {} fits", wording::count(many as u64, "lifter")),
            many => {
                let mut named: Vec<String> = blocks.iter().take(NAMED).cloned().collect();
                let more = blocks.len().saturating_sub(NAMED);
                named.extend((more > 0).then(|| wording::count(more as u64, "other")));
                let lifters = wording::count(many as u64, "lifter");
                format!("none of {lifters} is in that block; they are in {}", wording::all_of(&named))
            }
        };
        out.wrapped(Role::Answer, words, 2);
        return out;
    }
    // Each cell says by itself what it is: on a narrow screen they stand below one another.
    let cell = |name: &'static str| Column::left("").called(name);
    let mut table = Table::new(vec![
        Column::left("").called("lifter").wraps(4, 8).heading(),
        cell("week").wraps(3, 12),
        cell("last"),
        cell("planned sets").wraps(3, 12),
        cell("lifts").wraps(3, 10),
        cell("look at").wraps(1, 24),
        cell("meet").wraps(2, 12),
        cell("weight class").wraps(2, 12),
    ])
    .with_head(3)
    .captioned("How each lifter stands")
    .carded();
    for line in lines {
        let planned = match line.sets_planned {
            0 => "nothing planned".into(),
            sets => format!("{} of {sets} as planned", line.sets_reached),
        };
        let role = if line.behind > 0 { Role::Behind } else { Role::Plain };
        table.row(vec![
            (Role::Answer, line.name.clone()),
            (Role::Plain, wording::block_week(line.block.as_deref(), line.week)),
            (Role::Plain, line.days_since.map_or("no session yet".into(), last)),
            (Role::Plain, planned),
            (role, format!("{} ahead, {} behind", line.ahead, line.behind)),
            (Role::Caution, look_at(line)),
            (Role::Place, line.next_meet.as_ref().map_or(String::new(), meet)),
            (Role::Place, line.weight_class.as_ref().and_then(distance).unwrap_or_default()),
        ]);
    }
    out.table(table);
    if lines.iter().any(|line| line.weight_class.as_ref().and_then(distance).is_some()) {
        out.append(caution());
    }
    let unread: u32 = lines.iter().filter(|line| line.left_out > 0).count() as u32;
    if unread > 0 {
        let verb = if unread == 1 { "has" } else { "have" };
        let words = format!("{} {verb} lines that count nowhere", wording::count(unread, "lifter"));
        out.broken(vec![(Role::Caution, words), (Role::Hint, "; see `loadline check`".into())], 2);
    }
    out
}

/// Pain first, then cautions, then efforts over plan that no caution tells.
fn look_at(line: &Line) -> String {
    let told = |what: Tells| line.told.iter().filter(move |caution| caution.tells() == what);
    let is_told = |site: &str| told(Tells::Pain).any(|caution| caution.about.as_deref() == Some(site));
    let pains = line.pains.iter().filter(|pain| !is_told(&pain.site));
    let mut words: Vec<String> = pains.map(|pain| format!("{} {}/10", pain.site, pain.of_ten.0)).collect();
    words.extend(Some(in_brief(&line.told)).filter(|words| !words.is_empty()));
    if line.over_plan > 0 && told(Tells::OverPlan).next().is_none() {
        words.push(format!("{} over plan", wording::count(line.over_plan, "effort")));
    }
    words.join("; ")
}

/// `today`, `3 days ago`
fn last(days: i64) -> String {
    if days == 0 { "today".into() } else { wording::ago(days) }
}

/// `Tidewater Classic in 3 weeks`
fn meet(next: &Next) -> String {
    match next.weeks {
        0 => format!("{} this week", next.title),
        weeks => format!("{} in {}", next.title, self::weeks(weeks)),
    }
}

/// How long it is to a meet.
pub(in crate::present) fn weeks(weeks: i64) -> String {
    if weeks == 0 { "this week".into() } else { wording::count(weeks.unsigned_abs(), "week") }
}
