//! `room` as JSON.

use super::shared::{MarkJson, Number, effort, kg};
use crate::questions::room::{Answer, Course, EffortAhead, Rpe, WhyNot};
use serde::Serialize;

/// The answer.
#[derive(Clone, Debug, Serialize)]
pub struct RoomJson {
    lift: String,
    block: Option<String>,
    from: Option<MarkJson>,
    cap: Option<Number>,
    weeks: Vec<Week>,
    largest_step_kg: Option<Number>,
    exact_step_kg: Option<Number>,
    with_trend: Option<WithTrend>,
    targets: Vec<Target>,
    light_weeks: Vec<u32>,
    missing: Option<&'static str>,
    caution: &'static str,
}

#[derive(Clone, Debug, Serialize)]
struct Week {
    week: u32,
    kg: Number,
    #[serde(flatten)]
    effort: Effort,
}

/// `null` below RPE 5, where the scale names no number; `missed` where the reps would not all be made, and then
/// the effort is 10.
#[derive(Clone, Debug, Serialize)]
struct Effort {
    rpe_expected: Option<Number>,
    rpe_low: Option<Number>,
    rpe_high: Option<Number>,
    missed: bool,
}

#[derive(Clone, Debug, Serialize)]
struct WithTrend {
    percent_per_week: Number,
    low: Number,
    high: Number,
    days: usize,
    largest_step_kg: Number,
    weeks: Vec<Week>,
}

#[derive(Clone, Debug, Serialize)]
struct Target {
    mark: MarkJson,
    week: u32,
    step_kg: Option<Number>,
    #[serde(flatten)]
    effort: Effort,
}

fn rpe(rpe: Rpe) -> Option<Number> {
    match rpe {
        Rpe::Light => None,
        Rpe::Of(known) => effort(Some(known)),
        Rpe::Missed => effort(Some(crate::training::Effort::MAXIMAL)),
    }
}

fn ahead(effort: EffortAhead) -> Effort {
    Effort {
        rpe_expected: rpe(effort.middle),
        rpe_low: rpe(effort.low),
        rpe_high: rpe(effort.high),
        missed: effort.middle == Rpe::Missed,
    }
}

fn weeks(course: &Course) -> Vec<Week> {
    course.weeks.iter().map(|week| Week { week: week.week, kg: kg(week.load), effort: ahead(week.effort) }).collect()
}

/// The word for what is missing.
fn missing(why: WhyNot) -> &'static str {
    match why {
        WhyNot::NoMark => "mark",
        WhyNot::NoEffort => "effort",
        WhyNot::NoBlock => "block",
        WhyNot::NoEnd => "weeks of the block",
        WhyNot::NoWeeksLeft => "weeks left",
    }
}

/// The answer as JSON.
pub fn json(answer: &Answer) -> RoomJson {
    let percent = |percent: f64| Number((percent * 100.0).round() / 100.0);
    RoomJson {
        lift: answer.lift.clone(),
        block: answer.block.clone(),
        from: answer.from.as_ref().map(MarkJson::of),
        cap: effort(Some(answer.cap)),
        weeks: answer.unchanged.as_ref().map_or_else(Vec::new, weeks),
        largest_step_kg: answer.unchanged.as_ref().map(|course| kg(course.largest_step)),
        exact_step_kg: answer.unchanged.as_ref().map(|course| kg(course.exact_step)),
        with_trend: answer.with_trend.as_ref().map(|(trend, course)| WithTrend {
            percent_per_week: percent(trend.percent),
            low: percent(trend.low),
            high: percent(trend.high),
            days: trend.days,
            largest_step_kg: kg(course.largest_step),
            weeks: weeks(course),
        }),
        targets: answer
            .targets
            .iter()
            .map(|target| Target {
                mark: MarkJson::of(&target.mark),
                week: target.week,
                step_kg: target.step.map(kg),
                effort: ahead(target.effort),
            })
            .collect(),
        light_weeks: answer.light_weeks.clone(),
        missing: answer.why_not.map(missing),
        caution: answer.caution,
    }
}
