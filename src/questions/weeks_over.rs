//! The weeks of a block laid over those of the block before, lift by lift: what `match --plot` draws.

use super::r#match::{self, Ask, Compared, Pair, fullest};
use crate::analysis::compare::sides::Side;
use crate::analysis::strength::evidence::Ratings;
use crate::history::History;
use crate::science::Equation;
use crate::training::{Amount, Figure, Hundredths};
use schemars::JsonSchema;
use serde::Serialize;

/// The answer of `match`, with the weeks of the block up to its own where they are asked for.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Answer {
    /// The week.
    #[serde(flatten)]
    pub week: r#match::Answer,
    /// Each lift in each week up to that one, with `--plot`; else null.
    pub weeks_over: Option<Vec<Row>>,
}

/// A lift over the weeks of the block.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Row {
    /// The lift.
    pub lift: String,
    /// The day's label.
    pub day: Option<String>,
    /// Each week in which both blocks have it.
    pub weeks: Vec<Step>,
}

/// A lift in a week of both blocks.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Step {
    /// The week.
    pub week: u32,
    /// How much more than then, in percent: of load; where that is the same, of reps, seconds or metres.
    pub change: Hundredths,
    /// The pair.
    #[serde(skip)]
    pub pair: Pair,
}

/// Answers.
pub fn answer(history: &History<'_>, ask: &Ask, weeks: bool) -> Answer {
    let mut ratings = Ratings::of_the_curve(history, Equation::default());
    let week = r#match::answer_with(history, ask, &mut ratings);
    let weeks_over = weeks.then(|| rows(history, ask, &mut ratings));
    Answer { week, weeks_over }
}

/// The weeks of the block up to the one that is asked about, in order of the first work.
pub(crate) fn rows(history: &History<'_>, ask: &Ask, ratings: &mut Ratings<'_, '_>) -> Vec<Row> {
    let Some(key) = r#match::anchor(history, ask) else { return Vec::new() };
    let mut rows: Vec<Row> = Vec::new();
    for week in 1..=key.week {
        let of_week = Ask { block: Some(key.block), week: Some(week), ..ask.clone() };
        for pair in r#match::answer_with(history, &of_week, ratings).pairs {
            let level = pair.comparison.is_some_and(|comparison| comparison.load == Compared::Level);
            let sides = pair.now.as_ref().zip(pair.then.as_ref()).filter(|_| pair.earlier.is_none());
            let change = sides.and_then(|(now, then)| change(now, then, level || written(now) == written(then)));
            let Some(change) = change else { continue };
            let step = Step { week, change: Figure(change), pair };
            match rows.iter_mut().find(|row| row.lift == step.pair.lift && row.day == step.pair.day) {
                Some(row) => row.weeks.push(step),
                None => rows.push(Row { lift: step.pair.lift.clone(), day: step.pair.day.clone(), weeks: vec![step] }),
            }
        }
    }
    rows
}

/// A load as it is written, with its unit.
fn written(side: &Side) -> Option<String> {
    side.load.as_ref().and_then(|load| load.text_with_unit())
}

/// How much more than then, in percent. The lifter's own weight, with as much added, is the same load on every day.
fn change(now: &Side, then: &Side, same_load: bool) -> Option<f64> {
    let load = |side: &Side| side.load.as_ref().and_then(|load| load.kilograms).map(|mass| mass.in_kilograms());
    let percent = |now: f64, then: f64| (then > 0.0).then(|| (now / then - 1.0) * 100.0);
    match load(now).zip(load(then)).filter(|_| !same_load) {
        Some((now, then)) => percent(now, then),
        None => fullest(now, then).and_then(|(now, then)| percent(number(now), number(then))),
    }
}

fn number(amount: Amount) -> f64 {
    match amount {
        Amount::Reps(reps) => f64::from(reps),
        Amount::Seconds(seconds) => f64::from(seconds),
        Amount::Metres(distance) => distance.rounded_metres(),
    }
}
