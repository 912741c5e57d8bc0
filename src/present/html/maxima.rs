//! How the estimated maxima of the main lifts went over dates.

use super::pieces::{cell, done, number, numbers, table, words};
use super::places::Cited;
use super::plots::line::{Course, Dot, Event, Words, line};
use crate::analysis::strength::course::{Answer, Estimate, MeetDay, Point};
use crate::present::wording;
use crate::training::{Mass, Unit};
use chrono::NaiveDate;
use maud::{Markup, html};

/// A plot a lift, with its numbers.
pub(super) fn section(courses: &[Answer], on: NaiveDate, cited: &Cited) -> Markup {
    if courses.is_empty() {
        return html! {
            p { "No estimate yet: it needs clean sets of a main lift with a load, reps, and how hard they were." }
        };
    }
    html! {
        p.soft {
            "What could be lifted once, from clean sets of known effort over the last half year. "
            span.key { span.swatch.band {} "band" } ": four in five such intervals hold the truth. "
            "Dashed: a block begins. ◇ a test day or meet: at the load of a single, else on the axis. All dates are judged by today's curve."
        }
        div.plots { @for (nth, course) in courses.iter().enumerate() { (plot(nth, course, on, cited)) } }
        (numbers("Estimates as tables", html! { div.sheets.narrow { @for course in courses { (dates(course)) } } }))
    }
}

fn plot(nth: usize, course: &Answer, on: NaiveDate, cited: &Cited) -> Markup {
    let unit = course.unit;
    let added = if course.added { ", added to the lifter's own weight" } else { "" };
    let dot = |point: &Point| Dot {
        date: point.date,
        low: point.estimate.low.rounded_in(unit),
        middle: point.estimate.maximum.rounded_in(unit),
        high: point.estimate.high.rounded_in(unit),
    };
    let event = |meet: &MeetDay| Event {
        date: meet.date,
        // More reps than one say less than they could have been.
        value: meet
            .lifted
            .as_ref()
            .filter(|lifted| lifted.mark.amount.reps() == Some(1))
            .map(|lifted| lifted.load.rounded_in(unit)),
    };
    let bare = |mass: Mass| estimated(mass, unit).split(' ').next().unwrap_or("").to_owned();
    let last = course.points.last().map(|point| {
        let Estimate { low, maximum, high } = point.estimate;
        (estimated(maximum, unit), format!("{}–{}", bare(low), bare(high)))
    });
    let drawn = Course {
        dots: course.points.iter().map(dot).collect(),
        begins: course.blocks.iter().map(|block| (block.starts, block.name.clone())).collect(),
        events: course.meets.iter().map(event).collect(),
        until: on,
        last: last.unwrap_or_default(),
    };
    let name = Words {
        id: format!("maximum-{}", nth + 1),
        title: format!("{}{added}, {}", course.lift, unit.word()),
        description: description(course),
    };
    line(&name, &drawn, &meets(course, cited))
}

/// From where to where, in words.
fn description(course: &Answer) -> String {
    let unit = course.unit;
    let said = |point: &Point| {
        let (low, high) = (estimated(point.estimate.low, unit), estimated(point.estimate.high, unit));
        format!("{} ({low} to {high}) on {}", estimated(point.estimate.maximum, unit), wording::day(point.date))
    };
    let meets = course.meets.iter().map(|meet| match &meet.lifted {
        Some(lifted) => format!(" {}, {}: {}.", meet.title, wording::day(meet.date), wording::mass(lifted.load, unit)),
        None => format!(" {}, {}: not lifted.", meet.title, wording::day(meet.date)),
    });
    let meets: String = meets.collect();
    match course.points.as_slice() {
        [] => String::new(),
        [only] => format!("Estimated maximum: {}.{meets}", said(only)),
        [first, .., last] => format!("Estimated maximum over dates, from {} to {}.{meets}", said(first), said(last)),
    }
}

fn estimated(mass: Mass, unit: Unit) -> String {
    wording::estimated(mass, unit)
}

/// What was lifted on test days and at meets.
fn meets(course: &Answer, cited: &Cited) -> Markup {
    html! {
        @for meet in &course.meets {
            @if let Some(lifted) = &meet.lifted {
                p.below {
                    "◇ " (meet.title) ", " (wording::date(meet.date)) ": " (done(&lifted.mark)) " "
                    (cited.place(&lifted.mark.place))
                }
            }
        }
    }
}

/// The numbers of a plot, the latest first.
fn dates(course: &Answer) -> Markup {
    let rows: Vec<Vec<Markup>> = course.points.iter().rev().map(|point| row(point, course.unit)).collect();
    let columns = [words("date"), words("block"), number("estimate"), number("low"), number("high")];
    table(&format!("Estimated maximum, {}", course.lift), &columns, &rows)
}

fn row(point: &Point, unit: Unit) -> Vec<Markup> {
    let estimate = &point.estimate;
    vec![
        cell(wording::date(point.date)),
        cell(point.block.as_deref().unwrap_or("")),
        cell(estimated(estimate.maximum, unit)),
        cell(estimated(estimate.low, unit)),
        cell(estimated(estimate.high, unit)),
    ]
}
