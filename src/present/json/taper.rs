//! `taper` as JSON.

use super::shared::{MarkJson, Number, kg};
use crate::questions::taper::{
    self, About, Answer, Basis, Change, Comparison, Fit, Kind, Measure, Row, Verdict, WhyNot,
};
use serde::Serialize;

/// The answer.
#[derive(Clone, Debug, Serialize)]
pub struct TaperJson {
    block: Option<String>,
    week: Option<u32>,
    kind: &'static str,
    days_to_come: u32,
    as_planned: bool,
    test: Option<Test>,
    against: Vec<u32>,
    all: Option<RowJson>,
    families: Vec<RowJson>,
    lifts: Vec<RowJson>,
    taken_out: Vec<String>,
    strongest: Option<Strongest>,
    heavy: Vec<Heavy>,
    checks: Vec<Check>,
    missing: Option<&'static str>,
    caution: Option<&'static str>,
}

#[derive(Clone, Debug, Serialize)]
struct RowJson {
    name: String,
    before: MeasureJson,
    now: MeasureJson,
    change: ChangeJson,
}

#[derive(Clone, Debug, Serialize)]
struct MeasureJson {
    sessions: Number,
    sets: Number,
    planned_sets: Number,
    sets_a_session: Option<Number>,
    reps: Number,
    reps_a_set: Option<Number>,
    tonnage_kg: Number,
    average_kg: Option<Number>,
    top_kg: Option<Number>,
    average_effort: Option<Number>,
}

#[derive(Clone, Debug, Serialize)]
struct ChangeJson {
    sets_percent: Option<Number>,
    sets_a_session: Option<Number>,
    reps_percent: Option<Number>,
    reps_a_set: Option<Number>,
    tonnage_percent: Option<Number>,
    average_load_percent: Option<Number>,
    top_load_percent: Option<Number>,
    effort: Option<Number>,
}

#[derive(Clone, Debug, Serialize)]
struct Test {
    date: String,
    meet: Option<String>,
}

#[derive(Clone, Debug, Serialize)]
struct Strongest {
    lift: String,
    times_bodyweight: Number,
    low: Number,
    high: Number,
    bodyweight_kg: Number,
}

#[derive(Clone, Debug, Serialize)]
struct Heavy {
    lift: String,
    mark: Option<MarkJson>,
    percent: Option<Number>,
    days: Option<i64>,
    planned: bool,
}

#[derive(Clone, Debug, Serialize)]
struct Check {
    about: &'static str,
    lift: Option<String>,
    unit: &'static str,
    found: Option<Number>,
    low: Number,
    high: Number,
    verdict: &'static str,
    planned: bool,
    basis: &'static str,
    source: &'static str,
}

fn hundredth(value: f64) -> Number {
    Number((value * 100.0).round() / 100.0)
}

fn measure(measure: &Measure) -> MeasureJson {
    MeasureJson {
        sessions: hundredth(measure.sessions),
        sets: hundredth(measure.sets),
        planned_sets: hundredth(measure.planned_sets),
        sets_a_session: measure.sets_a_session.map(hundredth),
        reps: hundredth(measure.reps),
        reps_a_set: measure.reps_a_set.map(hundredth),
        tonnage_kg: Number(measure.tonnage.rounded_kg()),
        average_kg: measure.average_load.map(kg),
        top_kg: measure.top_load.map(kg),
        average_effort: measure.effort.map(hundredth),
    }
}

fn change(change: &Change) -> ChangeJson {
    ChangeJson {
        sets_percent: change.sets.map(hundredth),
        sets_a_session: change.sets_a_session.map(hundredth),
        reps_percent: change.reps.map(hundredth),
        reps_a_set: change.reps_a_set.map(hundredth),
        tonnage_percent: change.tonnage.map(hundredth),
        average_load_percent: change.average_load.map(hundredth),
        top_load_percent: change.top_load.map(hundredth),
        effort: change.effort.map(hundredth),
    }
}

fn row(row: &Row) -> RowJson {
    RowJson {
        name: row.name.clone(),
        before: measure(&row.before),
        now: measure(&row.now),
        change: change(&row.change),
    }
}

fn heavy(heavy: &taper::Heavy) -> Heavy {
    Heavy {
        lift: heavy.lift.clone(),
        mark: heavy.mark.as_ref().map(MarkJson::of),
        percent: heavy.percent.map(hundredth),
        days: heavy.days,
        planned: heavy.is_planned,
    }
}

fn check(check: &taper::Check) -> Check {
    let (about, unit) = match check.about {
        About::Volume => ("volume", "percent"),
        About::Intensity => ("top load", "percent"),
        About::Effort => ("effort", "points"),
        About::Sets => ("sets", "sets"),
        About::Reps => ("reps", "reps"),
        About::DeadliftSets => ("deadlift sets", "percent"),
        About::AccessorySets => ("accessory sets", "sets"),
        About::LastSession => ("last session", "days"),
        About::LastHeavy(_) => ("last heavy set", "days"),
    };
    Check {
        about,
        lift: match &check.about {
            About::LastHeavy(lift) => Some(lift.clone()),
            _ => None,
        },
        unit,
        found: check.found.map(hundredth),
        low: hundredth(check.advice.low),
        high: hundredth(check.advice.high),
        verdict: match check.verdict {
            Verdict::Known(Fit::Below) => "below",
            Verdict::Known(Fit::Within) => "within",
            Verdict::Known(Fit::Above) => "above",
            Verdict::Open => "open",
            Verdict::Unknown => "unknown",
        },
        planned: check.is_planned,
        basis: match check.advice.basis {
            Basis::Published => "published",
            Basis::Own => "own",
            Basis::Settings => "settings",
        },
        source: check.advice.source,
    }
}

/// The answer as JSON.
pub fn json(answer: &Answer) -> TaperJson {
    let comparison = answer.comparison.as_ref().ok();
    let rows =
        |pick: fn(&Comparison) -> &Vec<Row>| comparison.map_or(Vec::new(), |of| pick(of).iter().map(row).collect());
    TaperJson {
        block: answer.block.clone(),
        week: answer.week,
        kind: match answer.kind {
            Kind::Peak => "peak",
            Kind::Deload => "deload",
            Kind::Unmarked => "unmarked",
        },
        days_to_come: answer.days_to_come,
        as_planned: answer.as_planned,
        test: answer.test.as_ref().map(|test| Test { date: test.date.to_string(), meet: test.meet.clone() }),
        against: comparison.map_or(Vec::new(), |of| of.against.clone()),
        all: comparison.map(|of| row(&of.all)),
        families: rows(|of| &of.families),
        lifts: rows(|of| &of.lifts),
        taken_out: comparison.map_or(Vec::new(), |of| of.taken_out.clone()),
        strongest: comparison.and_then(|of| of.build.as_ref()).map(|build| Strongest {
            lift: build.lift.clone(),
            times_bodyweight: hundredth(build.times_bodyweight),
            low: hundredth(build.low),
            high: hundredth(build.high),
            bodyweight_kg: kg(build.bodyweight),
        }),
        heavy: comparison.map_or(Vec::new(), |of| of.heavy.iter().map(heavy).collect()),
        checks: comparison.map_or(Vec::new(), |of| of.checks.iter().map(check).collect()),
        missing: answer.comparison.as_ref().err().map(|why| match why {
            WhyNot::NoBlock => "block",
            WhyNot::NoWeek { .. } | WhyNot::NoSuchWeek(_) => "week",
            WhyNot::NoWork => "work",
            WhyNot::NothingBefore => "weeks before",
        }),
        caution: comparison.map(|of| of.caution),
    }
}
