//! `taper` as JSON.

use super::shared::{MarkJson, Number, kg};
use crate::questions::taper::{About, Answer, Fit, Kind, Measure, Row, WhyNot};
use serde::Serialize;

/// The answer.
#[derive(Clone, Debug, Serialize)]
pub struct Taper {
    block: Option<String>,
    week: Option<u32>,
    kind: &'static str,
    against: Vec<u32>,
    all: Option<RowJson>,
    families: Vec<RowJson>,
    lifts: Vec<RowJson>,
    taken_out: Vec<String>,
    test: Option<Test>,
    heavy: Vec<Heavy>,
    checks: Vec<Check>,
    missing: Option<&'static str>,
}

#[derive(Clone, Debug, Serialize)]
struct RowJson {
    key: String,
    before: MeasureJson,
    now: MeasureJson,
    sets_percent: Option<Number>,
    reps_percent: Option<Number>,
    tonnage_percent: Option<Number>,
    average_load_percent: Option<Number>,
    top_load_percent: Option<Number>,
}

#[derive(Clone, Debug, Serialize)]
struct MeasureJson {
    sets: Number,
    reps: Number,
    tonnage_kg: Number,
    average_kg: Option<Number>,
    top_kg: Option<Number>,
    average_effort: Option<Number>,
}

#[derive(Clone, Debug, Serialize)]
struct Test {
    date: String,
    meet: Option<String>,
}

#[derive(Clone, Debug, Serialize)]
struct Heavy {
    lift: String,
    mark: Option<MarkJson>,
    percent: Option<Number>,
    days: Option<i64>,
}

#[derive(Clone, Debug, Serialize)]
struct Check {
    about: &'static str,
    lift: Option<String>,
    found: Option<Number>,
    low: Number,
    high: Number,
    source: &'static str,
    verdict: &'static str,
}

fn hundredth(value: f64) -> Number {
    Number((value * 100.0).round() / 100.0)
}

fn measure(measure: &Measure) -> MeasureJson {
    MeasureJson {
        sets: hundredth(measure.sets),
        reps: hundredth(measure.reps),
        tonnage_kg: hundredth(measure.tonnage),
        average_kg: measure.average_load.map(hundredth),
        top_kg: measure.top.map(kg),
        average_effort: measure.effort.map(hundredth),
    }
}

fn row(row: &Row) -> RowJson {
    let change = |before: Option<f64>, now: Option<f64>| {
        let (before, now) = (before.filter(|before| *before > 0.0)?, now?);
        Some(hundredth((now / before - 1.0) * 100.0))
    };
    let (before, now) = (&row.before, &row.now);
    let kilos = |of: &Measure| of.top.map(crate::training::Mass::in_kilograms);
    RowJson {
        key: row.key.clone(),
        before: measure(before),
        now: measure(now),
        sets_percent: change(Some(before.sets), Some(now.sets)),
        reps_percent: change(Some(before.reps), Some(now.reps)),
        tonnage_percent: change(Some(before.tonnage), Some(now.tonnage)),
        average_load_percent: change(before.average_load, now.average_load),
        top_load_percent: change(kilos(before), kilos(now)),
    }
}

/// The answer as JSON.
pub fn json(answer: &Answer) -> Taper {
    Taper {
        block: answer.block.clone(),
        week: answer.week,
        kind: match answer.kind {
            Kind::Peak => "peak",
            Kind::Deload => "deload",
            Kind::Unmarked => "unmarked",
        },
        against: answer.against.clone(),
        all: answer.all.as_ref().map(row),
        families: answer.families.iter().map(row).collect(),
        lifts: answer.lifts.iter().map(row).collect(),
        taken_out: answer.taken_out.clone(),
        test: answer.test.as_ref().map(|test| Test { date: test.date.to_string(), meet: test.meet.clone() }),
        heavy: answer
            .heavy
            .iter()
            .map(|heavy| Heavy {
                lift: heavy.lift.clone(),
                mark: heavy.mark.as_ref().map(MarkJson::of),
                percent: heavy.percent.map(hundredth),
                days: heavy.days,
            })
            .collect(),
        checks: answer
            .checks
            .iter()
            .map(|check| Check {
                about: match check.about {
                    About::Volume => "volume",
                    About::Intensity => "intensity",
                    About::Sets => "sets",
                    About::Reps => "reps",
                    About::DeadliftFirst => "deadlift sets",
                    About::Accessories => "accessory sets",
                    About::HeavyDays(_) => "days from the last heavy set",
                },
                lift: match &check.about {
                    About::HeavyDays(lift) => Some(lift.clone()),
                    _ => None,
                },
                found: check.found.map(hundredth),
                low: hundredth(check.advised.0),
                high: hundredth(check.advised.1),
                source: check.source,
                verdict: match check.fit {
                    None => "unknown",
                    Some(Fit::Within) => "within",
                    Some(Fit::Below) => "below",
                    Some(Fit::Above) => "above",
                },
            })
            .collect(),
        missing: answer.why_not.map(|why| match why {
            WhyNot::NoBlock => "block",
            WhyNot::NoWeek => "week",
            WhyNot::NoWork => "work",
            WhyNot::NothingBefore => "weeks before",
        }),
    }
}
