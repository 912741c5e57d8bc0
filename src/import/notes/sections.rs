//! The notes in parts: what stands below one day, up to the next.

use super::dates::{Said, settled};
use super::days::{Day, days, year_of};
use super::{Line, Notes, dates, lines};
use crate::notation::readings::DateHabit;
use crate::source::Cut;
use chrono::{NaiveDate, NaiveTime};
use std::collections::BTreeSet;

/// What stands below a line that says a day, or above the first.
#[derive(Clone, Debug)]
pub struct Section<'n> {
    /// The day, where something settles which it is.
    pub date: Option<NaiveDate>,
    /// When it began.
    pub time: Option<NaiveTime>,
    /// The line that says the day; nothing above the first.
    pub head: Option<Line<'n>>,
    /// Whether a day of a month is written there.
    pub of_calendar: bool,
    /// What stands behind the day on its line.
    pub rest: &'n str,
    /// How deep the day's heading is; nothing where it is no heading.
    pub level: Option<usize>,
    /// The lines below it.
    pub lines: Vec<Line<'n>>,
}

/// The parts of all notes, in their order. `undated`: lines that turned out to say a day that nobody can tell.
pub fn sections<'n>(
    notes: &'n [Notes],
    habit: Option<DateHabit>,
    undated: &BTreeSet<(usize, u32)>,
) -> Vec<Section<'n>> {
    let mut out = Vec::new();
    for (file, notes) in notes.iter().enumerate() {
        let lines = lines(file, notes);
        let found = days(&lines);
        let dates = settled(&said(&lines, &found), habit);
        let mut heads = found.iter().zip(dates).peekable();
        let mut now = Section {
            date: None,
            time: None,
            head: None,
            of_calendar: false,
            rest: "",
            level: None,
            lines: Vec::new(),
        };
        for (at, line) in lines.iter().enumerate() {
            let head = heads.next_if(|((of, _), _)| *of == at);
            let next = match head {
                Some(((_, day), date)) => headed(*line, day, date),
                None if undated.contains(&(file, line.number)) => Section {
                    date: None,
                    time: None,
                    head: Some(*line),
                    of_calendar: false,
                    rest: "",
                    level: None,
                    lines: Vec::new(),
                },
                None => {
                    now.lines.push(*line);
                    continue;
                }
            };
            out.push(std::mem::replace(&mut now, next));
        }
        out.push(now);
    }
    out.retain(|section| section.head.is_some() || section.lines.iter().any(|line| !line.text.trim().is_empty()));
    out
}

fn headed<'n>(line: Line<'n>, day: &Day, date: Option<NaiveDate>) -> Section<'n> {
    let rest = line.text.cut(day.rest.0..day.rest.1);
    let of_calendar = day.is_of_calendar();
    Section { date, time: day.time, head: Some(line), of_calendar, rest, level: day.level, lines: Vec::new() }
}

/// The days with the years that lines between them name.
fn said<'d>(lines: &[Line<'_>], found: &'d [(usize, Day)]) -> Vec<Said<'d>> {
    let mut years = lines.iter().enumerate().filter_map(|(at, line)| Some((at, year_of(line.text)?))).peekable();
    let said = |(at, day): &'d (usize, Day)| {
        // A year holds for the day below it; those further down go by their neighbours.
        let mut named = None;
        while let Some((_, now)) = years.next_if(|(of, _)| of < at) {
            named = Some(now);
        }
        Said { day, year: named }
    };
    found.iter().map(said).collect()
}

/// The habit of dates that the notes bear out: how many of how many days have a date by it.
pub(super) fn date_habit(
    notes: &[Notes],
    known: Option<DateHabit>,
    today: NaiveDate,
) -> Option<(DateHabit, usize, usize)> {
    let lines: Vec<Vec<Line<'_>>> = notes.iter().enumerate().map(|(file, notes)| lines(file, notes)).collect();
    let found: Vec<Vec<(usize, Day)>> = lines.iter().map(|lines| days(lines)).collect();
    let files: Vec<Vec<Said<'_>>> = lines.iter().zip(&found).map(|(lines, found)| said(lines, found)).collect();
    dates::habit_of(&files, known, today)
}
