//! `course`: how the estimated maximum of a lift went over dates.
//!
//! A date says what `estimate` said when it was asked on that day, from the days up to it and by the curve that they had
//! taught; but what other lifts of the family teach is taken as of today.

pub use super::axis::{Lifted, LightKind, LightWeek, MeetDay, Span};
use super::axis::{meet_days, spans};
pub use super::evidence::{Curve, Estimate};
use super::evidence::{Evidence, own_weight};
use super::graded::{Graded, graded};
use crate::history::{History, Marked};
use crate::science::Equation;
use crate::science::strength::Strength;
use crate::training::{LiftId, Mass, Unit, is_within};
use chrono::NaiveDate;
use schemars::JsonSchema;
use serde::Serialize;

/// What is asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Ask {
    /// The lift.
    pub lift: LiftId,
    /// The equation to start from.
    pub equation: Equation,
    /// No date before this; the estimates rest on earlier sets all the same.
    pub since: Option<NaiveDate>,
    /// No date after this.
    pub until: Option<NaiveDate>,
}

/// The answer.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Answer {
    /// The lift.
    #[serde(skip)]
    pub lift: String,
    /// The equation.
    #[serde(skip)]
    pub equation: Equation,
    /// What shaped the curve of reps against load.
    #[serde(skip)]
    pub curve: Curve,
    /// The unit that the lifter writes this lift's loads in.
    #[serde(skip)]
    pub unit: Unit,
    /// Whether the estimates are of what is added to the lifter's own weight.
    #[serde(skip)]
    pub added: bool,
    /// The dates with evidence, in order of time.
    pub points: Vec<Point>,
    /// The blocks that reach into the range, in order of time.
    pub blocks: Vec<Span>,
    /// The test days and meets in the range, in order of time.
    pub meets: Vec<MeetDay>,
    /// What had been said the day before each single, AMRAP, test and meet in the range, and what happened.
    #[serde(skip)]
    pub graded: Vec<Graded>,
}

/// The estimate of a date.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Point {
    /// The date.
    pub date: NaiveDate,
    /// The block that the date's surest set, or its missed attempt, stands in.
    pub block: Option<String>,
    /// From every date up to it, with its 80 % interval.
    #[serde(flatten)]
    pub estimate: Estimate,
    /// What the date's surest set says by itself; nothing where the date has a missed attempt and no such set.
    #[serde(rename = "alone_kg", serialize_with = "Estimate::middle")]
    #[schemars(with = "Option<Mass>")]
    pub alone: Option<Estimate>,
}

/// Answers.
pub fn answer(history: &History<'_>, ask: &Ask) -> Answer {
    of_evidence(history, ask, &Evidence::of(history, ask.lift, ask.equation))
}

/// Answers with evidence that other questions ask for too.
pub(crate) fn of_evidence(history: &History<'_>, ask: &Ask, evidence: &Evidence<'_>) -> Answer {
    let asked = |date: &NaiveDate| is_within(*date, ask.since, ask.until);
    let days = evidence.every_day(ask.since);
    let days = days.iter().filter(|(mark, _)| asked(&mark.done.session.date));
    let points: Vec<Point> = days.filter_map(|(mark, strength)| point(history, evidence, mark, strength)).collect();
    let mut answer = Answer {
        lift: history.log.lift_name(ask.lift).to_owned(),
        equation: ask.equation,
        curve: evidence.curve,
        unit: evidence.unit(),
        added: evidence.own_weight().is_some(),
        points,
        blocks: Vec::new(),
        meets: Vec::new(),
        graded: graded(history, ask.lift, evidence).into_iter().filter(|one| asked(&one.date)).collect(),
    };
    if let Some((first, last)) = answer.range(ask, history.today) {
        answer.blocks = spans(history, first, last);
        answer.meets = meet_days(history, ask.lift, first, last);
    }
    answer
}

impl Answer {
    /// The days that are shown: those that were asked for, else from the first date with evidence to today. `None`
    /// where nothing says where to begin, or where the end comes before.
    pub fn range(&self, ask: &Ask, today: NaiveDate) -> Option<(NaiveDate, NaiveDate)> {
        let first = ask.since.or(self.points.first().map(|point| point.date))?;
        let last = ask.until.map_or(today, |until| until.min(today));
        (first <= last).then_some((first, last))
    }
}

fn point(history: &History<'_>, evidence: &Evidence<'_>, mark: &Marked<'_>, strength: &Strength) -> Option<Point> {
    let session = mark.done.session;
    Some(Point {
        date: session.date,
        block: history.log.block_name(session.block),
        estimate: Estimate::of(strength.maximum(), own_weight(mark))?,
        alone: evidence.estimate_on(session.date),
    })
}
