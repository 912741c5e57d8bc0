//! `roster`: one line a lifter.

use super::adherence::{self, By, Sums};
use super::draft::HURTS_FROM;
use super::r#match::{self, Verdict};
use super::review::{self, Caution};
use crate::analysis::strength::evidence::Ratings;
use crate::analysis::weight_class::ToClass;
use crate::history::History;
use crate::science::Equation;
use crate::training::{Figure, fold, words};
use chrono::NaiveDate;
use schemars::JsonSchema;
use serde::Serialize;
use std::cell::RefCell;
use std::cmp::Reverse;

/// The answer.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Answer {
    /// Each lifter, in the order that was asked for.
    pub lifters: Vec<Line>,
}

/// How a lifter stands.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Line {
    /// The lifter's name; the folder where there is none.
    pub name: String,
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
    pub sets_planned: u32,
    /// Those of them that were reached, as `adherence` counts them.
    pub sets_reached: u32,
    /// The same as a whole percentage.
    #[serde(skip)]
    pub percent: Option<u32>,
    /// Lifts ahead of the same week of the last block.
    pub ahead: u32,
    /// Lifts level with it.
    pub level: u32,
    /// Lifts behind it.
    pub behind: u32,
    /// Efforts of that week over their plan by the threshold or more.
    pub over_plan: u32,
    /// What hurts at 5/10 or more by the last note of its site, of the last seven days.
    pub pains: Vec<Pain>,
    /// The names of the cautions about the current block.
    pub cautions: Vec<&'static str>,
    /// The same in whole.
    #[serde(skip)]
    pub told: Vec<Caution>,
    /// The next meet or test day.
    pub next_meet: Option<Next>,
    /// How far the last bodyweight is from the weight class; null where settings name none.
    pub weight_class: Option<ToClass>,
    /// Lines that have an error that costs them.
    pub left_out: u32,
}

/// A pain that was noted.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(rename = "PainNoted")]
pub struct Pain {
    /// Where, as written.
    pub site: String,
    /// How much.
    pub of_ten: Figure<1>,
    /// When.
    pub date: NaiveDate,
}

/// A meet or test day to come.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
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
    /// Who has the most to look at first: cautions, lifts behind, efforts over plan, weeks without a session.
    #[default]
    Need = "need",
    /// By name.
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

impl Line {
    /// Whether there is anything to look at.
    pub fn needs_attention(&self) -> bool {
        self.need() > 0
    }

    /// How much there is to look at: a caution, a pain, a lift behind, an effort over plan and a week without a session count
    /// one each. Common practice, no source.
    fn need(&self) -> usize {
        let weeks = self.days_since.map_or(0, |days| usize::try_from(days / 7).unwrap_or(0));
        let counted = [self.behind, self.over_plan].map(|number| usize::try_from(number).unwrap_or(usize::MAX));
        let said = self.cautions.len().saturating_add(self.pains.len()).saturating_add(weeks);
        counted.into_iter().fold(said, usize::saturating_add)
    }
}

/// A lifter's line.
pub fn line(history: &History<'_>, folder: &str) -> Line {
    let last = history.sessions().iter().rev().find(|session| session.has_work());
    let ratings = RefCell::new(Ratings::of_the_curve(history, Equation::default()));
    let key = history.week_today().or_else(|| r#match::anchor(history, &r#match::Ask::default()));
    let cautions = review::now(history, &ratings);
    let week =
        r#match::Ask { block: key.map(|key| key.block), week: key.map(|key| key.week), ..r#match::Ask::default() };
    let matched = r#match::answer_with(history, &week, &mut ratings.borrow_mut());
    let count = |verdict: Verdict| {
        u32::try_from(matched.pairs.iter().filter(|pair| pair.verdict == verdict).count()).unwrap_or(u32::MAX)
    };
    // Without a week there is none to have kept to.
    let week = key.map_or_else(Sums::default, |key| {
        let (block, week) = (Some(key.block), Some(key.week));
        let ask = adherence::Ask { by: By::Week, block, week, lift: None, since: None, until: None };
        adherence::answer(history, &ask).total
    });
    Line {
        name: history.log.lifter.as_deref().unwrap_or(folder).to_owned(),
        folder: folder.to_owned(),
        last: last.map(|session| session.date),
        days_since: last.map(|session| (history.today - session.date).num_days()),
        sets_planned: week.sets_planned,
        sets_reached: week.sets_reached,
        percent: week.percent(),
        ahead: count(Verdict::Ahead),
        level: count(Verdict::Level),
        behind: count(Verdict::Behind),
        over_plan: week.efforts.over_plan,
        pains: pains(history),
        cautions: cautions.iter().map(|caution| caution.name).collect(),
        told: cautions,
        next_meet: Next::of(history),
        weight_class: ToClass::of(history),
        left_out: history.log.left_out,
        block: matched.block,
        week: matched.week,
    }
}

/// The last note of each site of the last seven days, where it hurts as much as keeps a lift out of a draft.
fn pains(history: &History<'_>) -> Vec<Pain> {
    let recent = history.sessions().iter().rev().take_while(|session| (history.today - session.date).num_days() < 7);
    let mut seen: Vec<String> = Vec::new();
    let mut pains = Vec::new();
    for (date, pain) in recent.flat_map(|session| session.pains.iter().rev().map(move |pain| (session.date, pain))) {
        let site = fold(&pain.site);
        if !seen.contains(&site) {
            seen.push(site);
            let (site, of_ten) = (pain.site.to_string(), Figure(f64::from(pain.tenths) / 10.0));
            pains.extend((pain.tenths >= HURTS_FROM).then_some(Pain { site, of_ten, date }));
        }
    }
    pains
}

/// Puts lines in order.
pub fn sort(lines: &mut [Line], by: Order) {
    // As in an address book, capitals and small letters stand together.
    lines.sort_by_cached_key(|line| (line.name.to_lowercase(), line.name.clone(), line.folder.clone()));
    match by {
        Order::Need => lines.sort_by_key(|line| Reverse(line.need())),
        Order::Name => {}
        Order::Since => lines.sort_by_key(|line| Reverse(line.days_since.unwrap_or(i64::MAX))),
        Order::Done => lines.sort_by_key(|line| line.percent.unwrap_or(u32::MAX)),
        Order::Behind => lines.sort_by_key(|line| Reverse(line.behind)),
        Order::Over => lines.sort_by_key(|line| Reverse(line.over_plan)),
        Order::Cautions => lines.sort_by_key(|line| Reverse(line.cautions.len())),
        Order::Meet => lines.sort_by_key(|line| line.next_meet.as_ref().map_or(NaiveDate::MAX, |next| next.date)),
    }
}
