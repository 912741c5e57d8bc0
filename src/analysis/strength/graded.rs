//! What had been said of a day on which strength showed itself, and what happened.

use super::evidence::{Estimate, Evidence, own_weight};
use crate::history::{Done, History, Marked};
use crate::science::effort_scale;
use crate::training::{Effort, LiftId, Mass};
use chrono::NaiveDate;
use schemars::JsonSchema;
use serde::Serialize;

/// What was to be expected of a day, and what happened.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Graded {
    /// The day of a single, an AMRAP, a test or a meet.
    pub date: NaiveDate,
    /// The reps that the loads are for.
    pub reps: u32,
    /// The effort that they are for; null where they are the most of that day.
    pub rpe: Option<Effort>,
    /// The load that was to be expected, by the days before.
    #[serde(rename = "expected_kg")]
    pub expected: Mass,
    /// One chance in ten was below.
    #[serde(rename = "low_kg")]
    pub low: Mass,
    /// One chance in ten was above.
    #[serde(rename = "high_kg")]
    pub high: Mass,
    /// The load that was made; null where none was.
    #[serde(rename = "made_kg")]
    pub made: Option<Mass>,
    /// The load that was missed, which is the lightest heavier than what was made; null where none was.
    #[serde(rename = "missed_kg")]
    pub missed: Option<Mass>,
    /// Whether the interval held what happened: the load at its effort, or the most of that day, which lies from what was
    /// made to what was missed.
    pub held: bool,
}

/// Each such day of the last two years, in order of time.
pub(crate) fn graded<'a>(history: &History<'a>, lift: LiftId, evidence: &Evidence<'a>) -> Vec<Graded> {
    let works: Vec<Done<'a>> = history.works_of(lift).collect();
    let days = works.chunk_by(|one, other| one.session.date == other.session.date);
    days.filter_map(|day| of_day(day, evidence)).collect()
}

fn of_day(day: &[Done<'_>], evidence: &Evidence<'_>) -> Option<Graded> {
    let session = day.first()?.session;
    let foretold = evidence.foretold(session.date)?;
    let clean = day.iter().flat_map(|done| Marked::of(*done, |set| set.is_clean_work()));
    let marks: Vec<(Mass, Marked<'_>)> = clean.filter_map(|mark| Some((mark.kilograms()?, mark))).collect();
    let missed = evidence.misses.iter().find(|missed| missed.mark.done.session.date == session.date);
    let is_test = session.meet.is_some() || session.test_day;
    let rated = |single: bool| {
        let of_kind = |mark: &Marked<'_>| {
            let reps = mark.amount.reps().unwrap_or_default();
            let tested = |effort| reps > 1 && (is_test || effort == Effort::MAXIMAL);
            mark.effort.is_some_and(|effort| if single { reps == 1 } else { tested(effort) })
        };
        let heaviest = marks.iter().filter(|(_, mark)| of_kind(mark)).max_by_key(|(load, _)| *load);
        heaviest.and_then(|(load, mark)| {
            let left = effort_scale::reps_in_reserve(mark.effort?)?;
            Some((*load, mark, mark.amount.reps()?, left))
        })
    };
    let own = own_weight(missed.map_or(&marks.first()?.1, |missed| &missed.mark));
    let shown = |load: Mass| load - own.unwrap_or(Mass::ZERO);
    let told = |interval| Estimate::of(interval, own);
    let date = session.date;
    // An opener that was rated says less than a heavier single that was made.
    let most_made = marks.iter().filter(|(_, mark)| mark.amount.reps() == Some(1)).map(|(load, _)| *load).max();
    let rated = rated(true).or_else(|| rated(false));
    let is_opener = rated.as_ref().is_some_and(|(load, ..)| most_made.is_some_and(|most| most > *load));
    match (missed, rated) {
        (None, Some((load, mark, reps, left))) if !is_opener => {
            let Estimate { maximum: expected, low, high } = told(foretold.load_that_day(f64::from(reps), left)?)?;
            let made = shown(load);
            let held = low <= made && made <= high;
            Some(Graded { date, reps, rpe: mark.effort, expected, low, high, made: Some(made), missed: None, held })
        }
        (missed, _) if missed.is_some() || is_test || is_opener => {
            let Estimate { maximum: expected, low, high } = told(foretold.in_one_attempt().maximum())?;
            let made = most_made.map(shown);
            let missed = missed.and_then(|missed| missed.mark.kilograms()).map(shown);
            let held = made.is_none_or(|made| made <= high) && missed.is_none_or(|missed| low < missed);
            made.or(missed)?;
            Some(Graded { date, reps: 1, rpe: None, expected, low, high, made, missed, held })
        }
        _ => None,
    }
}
