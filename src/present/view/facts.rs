//! `facts` as text: the last of each and how it moved, the rows, pain by where it was; or drawn.

use super::weight_class;
use crate::analysis::strength::axis::Span;
use crate::present::doc::{Column, Table};
use crate::present::plot::{Dots, Glyphs, Point};
use crate::present::{Doc, Role, wording};
use crate::questions::facts::{Answer, Facts, Means, Moved};
use crate::training::{Mass, Unit, spelling};
use chrono::NaiveDate;
use std::cmp::Ordering;

/// So many rows and days of a pain are shown where not all are asked for.
const SHOWN: usize = 14;

/// So many days of a pain are.
const DAYS: usize = 3;

/// Shows the answer: the latest rows, or all of them.
pub fn show(answer: &Answer, unit: Unit, all: bool) -> Doc {
    let mut out = Doc::new();
    out.wrapped(Role::Answer, verdict(answer, unit), 2);
    out.append(answer.weight_class.as_ref().map_or_else(Doc::new, weight_class::line));
    if answer.sessions.is_empty() {
        let words = "Under a session's heading, `bodyweight: 82 kg`, `sleep: 7:30`, `duration: 75 min` and `pain: left knee \
                     3/10` are kept.";
        out.wrapped(Role::Plain, words, 0);
        return out;
    }
    out.gap();
    let most = if all { usize::MAX } else { SHOWN };
    let mut table = Table::new(vec![
        Column::left("date"),
        Column::right("bodyweight"),
        Column::right("sleep"),
        Column::right("session").called("length of the session"),
        Column::left("pain").wraps(1, 14),
        Column::left("where").spare(1),
    ])
    .captioned("What sessions say of the lifter");
    for facts in answer.sessions.iter().rev().take(most) {
        let length = |minutes: Option<u16>| minutes.map_or(String::new(), |minutes| spelling::length(minutes.into()));
        let pains: Vec<String> = facts.pains.iter().map(|pain| format!("{} {}/10", pain.site, pain.of_ten.0)).collect();
        table
            .row(vec![
                (Role::Plain, wording::short_day(facts.date)),
                (Role::Plain, facts.bodyweight.map_or(String::new(), |mass| wording::mass(mass, unit))),
                (Role::Plain, length(facts.sleep_minutes)),
                (Role::Plain, length(facts.duration_minutes)),
                (Role::Caution, pains.join(", ")),
            ])
            .at([&facts.place]);
    }
    out.table(table);
    let more = answer.sessions.len().saturating_sub(most);
    if more > 0 {
        let words = (Role::Place, format!("and {} before", wording::count(more as u64, "session")));
        out.broken(vec![words, (Role::Hint, "; --all lists them".into())], 2);
    }
    out.append(pains(answer, all));
    out
}

/// The section of one lifter among several: how it went, and the last day of each pain.
pub fn of_one(name: &str, answer: &Answer, unit: Unit) -> Doc {
    let mut out = Doc::section(name, verdict(answer, unit));
    out.append(answer.weight_class.as_ref().map_or_else(Doc::new, weight_class::line));
    for site in &answer.sites {
        let Some(last) = site.days.first() else { continue };
        let words = format!("{} {}/10 on {}", site.site, last.of_ten.0, wording::short_day(last.date));
        let days = match site.days.len() {
            0 | 1 => String::new(),
            days => format!(", the last of {}", wording::count(days as u64, "day")),
        };
        out.broken(vec![(Role::Caution, words), (Role::Plain, days)], 2);
    }
    out
}

/// What is said once below the sections of several lifters.
pub fn once(whole: bool) -> Doc {
    let mut out = Doc::new();
    if !whole {
        out.broken(
            vec![(Role::Hint, "--lifter NAME lists the latest sessions, --all every one of everybody".into())],
            0,
        );
    }
    out
}

/// Where it hurt, and what was lifted on those days.
fn pains(answer: &Answer, all: bool) -> Doc {
    let mut out = Doc::new();
    let most = if all { usize::MAX } else { DAYS };
    for site in &answer.sites {
        out.gap();
        let days = wording::count(site.days.len() as u64, "day");
        out.wrapped(Role::Title, format!("{}, {days}", site.site), 2);
        let mut table = Table::new(vec![
            Column::left("date"),
            Column::right("of 10"),
            Column::left("lifted that day").wraps(1, 24),
            Column::left("where").spare(1),
        ])
        .captioned(format!("{} and what was lifted", site.site));
        for day in site.days.iter().take(most) {
            table
                .row(vec![
                    (Role::Plain, wording::short_day(day.date)),
                    (Role::Caution, day.of_ten.0.to_string()),
                    (Role::Plain, day.lifts.join(", ")),
                ])
                .at([&day.place]);
        }
        out.table(table);
    }
    out
}

/// `bodyweight 120.9 kg, 0.8 kg up since 2 Jun; sleep 7:00 a night; pain on 4 days`
pub(in crate::present) fn verdict(answer: &Answer, unit: Unit) -> String {
    let Means { bodyweight, sleep_minutes, duration_minutes, days_of_pain } = &answer.means;
    let mut parts = Vec::new();
    if let Some(Moved { last, by }) = bodyweight {
        let moved = by.map_or_else(String::new, |(change, since)| {
            let moved = match change.cmp(&Mass::ZERO) {
                Ordering::Greater => format!("{} up", wording::mass(change, unit)),
                Ordering::Less => format!("{} down", wording::mass(-change, unit)),
                Ordering::Equal => "as".into(),
            };
            format!(", {moved} since {}", wording::short_day(since))
        });
        parts.push(format!("bodyweight {}{moved}", wording::mass(*last, unit)));
    }
    parts.extend(sleep_minutes.map(|mean| format!("sleep {} a night", spelling::length(mean))));
    parts.extend(duration_minutes.map(|mean| format!("sessions {} long", spelling::length(mean))));
    if *days_of_pain > 0 {
        parts.push(format!("pain on {}", wording::count(*days_of_pain as u64, "day")));
    }
    if parts.is_empty() { "nothing is written of bodyweight, sleep, duration or pain".into() } else { parts.join("; ") }
}

/// The same drawn: each on the same axis of dates.
pub fn plot(answer: &Answer, unit: Unit, glyphs: Glyphs) -> Doc {
    let dots = dots(answer, unit, glyphs, axis(answer));
    if dots.is_empty() {
        return show(answer, unit, false);
    }
    let mut out = Doc::new();
    out.wrapped(Role::Answer, verdict(answer, unit), 2);
    out.append(answer.weight_class.as_ref().map_or_else(Doc::new, weight_class::line));
    let last = dots.len().saturating_sub(1);
    for (nth, (_, drawn)) in dots.into_iter().enumerate() {
        out.gap();
        out.picture(Dots { dated: nth == last, ..drawn });
    }
    out
}

/// The first and the last day, and the blocks between them.
type Axis<'a> = ((NaiveDate, NaiveDate), &'a [Span]);

/// The days that the answer is of.
fn axis(answer: &Answer) -> Axis<'_> {
    let ends = answer.sessions.first().zip(answer.sessions.last());
    (ends.map_or_else(Default::default, |(first, last)| (first.date, last.date)), &answer.blocks)
}

/// What there is to draw, each with its title, over those days.
pub(in crate::present) fn dots(
    answer: &Answer,
    unit: Unit,
    glyphs: Glyphs,
    (ends, blocks): Axis<'_>,
) -> Vec<(String, Dots)> {
    let hours = |minutes: u16| f64::from(minutes) / 60.0;
    let known = |of: &dyn Fn(&Facts) -> Option<f64>| -> Vec<Point> {
        let point = |facts: &Facts| Some(Point { date: facts.date, value: of(facts)?, sign: None });
        answer.sessions.iter().filter_map(point).collect()
    };
    let pains = answer.sessions.iter().flat_map(|facts| {
        let sign = |site: &str| site.split_whitespace().next_back().and_then(|word| word.chars().next());
        facts.pains.iter().map(move |pain| Point { date: facts.date, value: pain.of_ten.0, sign: sign(&pain.site) })
    });
    let sites: Vec<&str> = answer.sites.iter().map(|site| site.site.as_str()).collect();
    let of = [
        ("bodyweight", unit.word(), false, known(&|facts| facts.bodyweight.map(|mass| mass.rounded_in(unit)))),
        ("sleep", "hours", true, known(&|facts| facts.sleep_minutes.map(hours))),
        ("length of sessions", "min", true, known(&|facts| facts.duration_minutes.map(f64::from))),
    ];
    let mut drawn: Vec<(String, Dots)> = of
        .into_iter()
        .filter(|(.., points)| points.len() > 1)
        .map(|(title, unit, from_zero, points)| {
            let title = title.to_owned();
            (
                title.clone(),
                Dots {
                    title,
                    unit,
                    points,
                    from_zero,
                    ends,
                    blocks: blocks.to_vec(),
                    joined: true,
                    dated: true,
                    glyphs,
                },
            )
        })
        .collect();
    let pains: Vec<Point> = pains.collect();
    if !pains.is_empty() {
        let title = format!("pain of ten: {}", sites.join(", "));
        let dots = Dots {
            title: title.clone(),
            unit: "/10",
            points: pains,
            from_zero: true,
            ends,
            blocks: blocks.to_vec(),
            joined: false,
            dated: true,
            glyphs,
        };
        drawn.push((title, dots));
    }
    drawn
}
