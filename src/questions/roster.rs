//! `roster`: one line a lifter.

use super::adherence::{self, By, Sums};
use super::r#match::{self, Verdict};
use super::review;
use crate::analysis::strength::evidence::Ratings;
use crate::history::History;
use crate::science::Equation;
use crate::training::words;
use chrono::NaiveDate;
use std::cell::RefCell;
use std::cmp::Reverse;

/// How a lifter stands.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Line {
    /// The lifter's name; nothing where there is none.
    pub lifter: Option<String>,
    /// The lifter's folder below the journal's root.
    pub folder: String,
    /// The block of the last work in one.
    pub block: Option<String>,
    /// The week of it.
    pub week: Option<u32>,
    /// The last session with work.
    pub last: Option<NaiveDate>,
    /// Whole days since then.
    pub days_since: Option<i64>,
    /// Planned sets of that week, up to today.
    pub planned: u32,
    /// Those of them that were done.
    pub done: u32,
    /// Lifts ahead of the same week of the last block.
    pub ahead: u32,
    /// Lifts level with it.
    pub level: u32,
    /// Lifts behind it.
    pub behind: u32,
    /// Efforts of that week over their plan by the threshold or more.
    pub over: u32,
    /// The names of the cautions about the current block.
    pub cautions: Vec<&'static str>,
    /// The next meet or test day.
    pub next: Option<Next>,
    /// Lines that have an error that costs them.
    pub left_out: u32,
}

/// A meet or test day to come.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Next {
    /// How it is called.
    pub title: String,
    /// Its date.
    pub date: NaiveDate,
    /// Whole weeks to it.
    pub weeks: i64,
}

impl Next {
    /// The nearest one to come.
    pub(super) fn of(history: &History<'_>) -> Option<Next> {
        let meet = history.next_meet().filter(|meet| meet.is_to_come(history.today))?;
        let weeks = (meet.date - history.today).num_days().div_euclid(7);
        Some(Next { title: meet.title().to_owned(), date: meet.date, weeks })
    }
}

words! {
/// What the lines are ordered by; the name settles ties.
#[derive(Default)]
pub enum Order {
    /// By name.
    #[default]
    Name = "name",
    /// Those who have not trained for longest first.
    Since = "since",
    /// The least of the planned sets done first.
    Done = "done",
    /// The most lifts behind first.
    Behind = "behind",
    /// The most efforts over first.
    Over = "over",
    /// The most cautions first.
    Cautions = "cautions",
    /// The nearest meet first.
    Meet = "meet",
}
}

/// A lifter's line.
pub fn line(history: &History<'_>, folder: &str) -> Line {
    let last = history.sessions().iter().rev().find(|session| session.works.iter().any(|work| work.has_work()));
    let ratings = RefCell::new(Ratings::of_the_curve(history, Equation::default()));
    let matched = r#match::answer_with(history, &r#match::Ask::default(), &mut ratings.borrow_mut());
    let count = |verdict: Verdict| {
        u32::try_from(matched.pairs.iter().filter(|pair| pair.verdict == verdict).count()).unwrap_or(u32::MAX)
    };
    // Without a week there is none to have kept to.
    let week = r#match::anchor(history, &r#match::Ask::default()).map_or_else(Sums::default, |key| {
        let (block, week) = (Some(key.block), Some(key.week));
        let ask = adherence::Ask { by: By::Week, block, week, lift: None, since: None, until: None };
        adherence::answer(history, &ask).total
    });
    let next = Next::of(history);
    Line {
        lifter: history.log.lifter.clone(),
        folder: folder.to_owned(),
        last: last.map(|session| session.date),
        days_since: last.map(|session| (history.today - session.date).num_days()),
        planned: week.sets_planned,
        done: week.sets_reached,
        ahead: count(Verdict::Ahead),
        level: count(Verdict::Level),
        behind: count(Verdict::Behind),
        over: week.efforts.overshoots,
        cautions: review::now(history, &ratings).iter().map(|caution| caution.name).collect(),
        next,
        left_out: history.log.left_out,
        block: matched.block,
        week: matched.week,
    }
}

impl Line {
    /// What the lifter is called: by name, else by folder.
    pub fn name(&self) -> &str {
        self.lifter.as_deref().unwrap_or(&self.folder)
    }

    /// Percent of the planned sets that were done.
    pub fn percent(&self) -> Option<u32> {
        (self.planned > 0).then(|| self.done * 100 / self.planned)
    }
}

/// Puts lines in order.
pub fn sort(lines: &mut [Line], by: Order) {
    // As in an address book, capitals and small letters stand together.
    lines.sort_by_cached_key(|line| (line.name().to_lowercase(), line.name().to_owned(), line.folder.clone()));
    match by {
        Order::Name => {}
        Order::Since => lines.sort_by_key(|line| Reverse(line.days_since.unwrap_or(i64::MAX))),
        Order::Done => lines.sort_by_key(|line| line.percent().unwrap_or(u32::MAX)),
        Order::Behind => lines.sort_by_key(|line| Reverse(line.behind)),
        Order::Over => lines.sort_by_key(|line| Reverse(line.over)),
        Order::Cautions => lines.sort_by_key(|line| Reverse(line.cautions.len())),
        Order::Meet => lines.sort_by_key(|line| line.next.as_ref().map_or(NaiveDate::MAX, |next| next.date)),
    }
}
