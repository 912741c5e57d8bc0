//! `meet` as JSON.

use super::shared::{LoadJson, MarkJson, Number, effort, kg};
use crate::questions::estimate::Estimate;
use crate::questions::meet::{
    Answer, Formula, LiftOutcome, LiftPlan, Missing, Named, NoPoints, NoTotal, Other, Outcome, Plan, Taken,
};
use serde::Serialize;

/// The answer.
#[derive(Clone, Debug, Serialize)]
pub struct MeetJson {
    meet: Option<Meet>,
    caution: Option<&'static str>,
}

#[derive(Clone, Debug, Serialize)]
struct Meet {
    kind: &'static str,
    name: Option<String>,
    date: String,
    days_out: i64,
    page: String,
    line: u32,
    plan: Option<PlanJson>,
    result: Option<OutcomeJson>,
}

#[derive(Clone, Debug, Serialize)]
struct PlanJson {
    step_kg: Number,
    chance: Number,
    lifts: Vec<LiftPlanJson>,
    expected_total_kg: Option<Number>,
}

#[derive(Clone, Debug, Serialize)]
struct LiftPlanJson {
    competed: &'static str,
    lift: String,
    #[serde(flatten)]
    estimate: EstimateJson,
    last_rated: Option<String>,
    stale: bool,
    best: Option<MarkJson>,
    triple: Option<MarkJson>,
    attempts: Vec<AttemptJson>,
    after_missed_opener_kg: Option<[Number; 2]>,
    expected_best_kg: Option<Number>,
    far_above_best_kg: Option<Number>,
    opener_done_for_three: Option<bool>,
    missing: Option<&'static str>,
}

#[derive(Clone, Debug, Serialize)]
struct EstimateJson {
    est_max_kg: Option<Number>,
    low_kg: Option<Number>,
    high_kg: Option<Number>,
}

#[derive(Clone, Debug, Serialize)]
struct AttemptJson {
    kg: Number,
    chance: Number,
}

#[derive(Clone, Debug, Serialize)]
struct OutcomeJson {
    bodyweight: Option<BodyweightJson>,
    lifts: Vec<LiftJson>,
    others: Vec<OtherJson>,
    made: u32,
    taken: u32,
    total_kg: Option<Number>,
    no_total: Option<&'static str>,
    formula: &'static str,
    points: Option<Number>,
    no_points: Option<&'static str>,
    before: Option<BeforeJson>,
}

#[derive(Clone, Debug, Serialize)]
struct BodyweightJson {
    kg: Number,
    date: String,
}

#[derive(Clone, Debug, Serialize)]
struct LiftJson {
    competed: &'static str,
    lift: String,
    attempts: Vec<TakenJson>,
    best_kg: Option<Number>,
    before_kg: Option<Number>,
    change_kg: Option<Number>,
    #[serde(flatten)]
    estimated: EstimateJson,
}

#[derive(Clone, Debug, Serialize)]
struct TakenJson {
    load: Option<LoadJson>,
    good: bool,
    faults: Vec<String>,
    effort: Option<Number>,
    page: String,
    line: u32,
}

#[derive(Clone, Debug, Serialize)]
struct OtherJson {
    lift: String,
    mark: MarkJson,
}

#[derive(Clone, Debug, Serialize)]
struct BeforeJson {
    title: String,
    date: String,
    total_kg: Option<Number>,
    total_change_kg: Option<Number>,
}

/// The word for a formula.
pub(crate) fn formula_word(formula: Formula) -> &'static str {
    match formula {
        Formula::IpfGl => "ipf-gl",
        Formula::Dots => "dots",
    }
}

fn estimate(estimate: Option<&Estimate>) -> EstimateJson {
    EstimateJson {
        est_max_kg: estimate.map(|estimate| kg(estimate.maximum)),
        low_kg: estimate.map(|estimate| kg(estimate.low)),
        high_kg: estimate.map(|estimate| kg(estimate.high)),
    }
}

/// Chances to the thousandth.
fn chance(chance: f64) -> Number {
    Number((chance * 1000.0).round() / 1000.0)
}

/// The answer as JSON.
pub fn json(answer: &Answer) -> MeetJson {
    let meet = |named: &Named| Meet {
        kind: named.kind.word(),
        name: named.name.clone(),
        date: named.date.to_string(),
        days_out: named.days_out,
        page: named.place.page.to_string(),
        line: named.place.line,
        plan: answer.plan.as_ref().map(plan),
        result: answer.outcome.as_ref().map(outcome),
    };
    MeetJson { meet: answer.meet.as_ref().map(meet), caution: answer.caution }
}

fn plan(plan: &Plan) -> PlanJson {
    PlanJson {
        step_kg: kg(plan.step),
        chance: chance(plan.chance),
        lifts: plan.lifts.iter().map(lift_plan).collect(),
        expected_total_kg: plan.expected_total.map(kg),
    }
}

fn lift_plan(lift: &LiftPlan) -> LiftPlanJson {
    let planned = lift.attempts.as_ref().ok();
    let attempts = planned.iter().flat_map(|planned| &planned.attempts);
    LiftPlanJson {
        competed: lift.competed.word(),
        lift: lift.lift.clone(),
        estimate: estimate(lift.estimate.as_ref()),
        last_rated: lift.last_rated.map(|date| date.to_string()),
        stale: lift.stale,
        best: lift.best.as_ref().map(MarkJson::of),
        triple: lift.triple.as_ref().map(MarkJson::of),
        attempts: attempts
            .map(|attempt| AttemptJson { kg: kg(attempt.load), chance: chance(attempt.chance) })
            .collect(),
        after_missed_opener_kg: planned.map(|planned| planned.after_missed_opener.map(kg)),
        expected_best_kg: planned.map(|planned| kg(planned.expected)),
        far_above_best_kg: planned.and_then(|planned| planned.far_above_best).map(kg),
        opener_done_for_three: planned.map(|planned| planned.opener_done_for_three),
        missing: lift.attempts.as_ref().err().map(|missing| match missing {
            Missing::Work => "work",
            Missing::Effort => "effort",
            Missing::Load => "load",
        }),
    }
}

fn outcome(outcome: &Outcome) -> OutcomeJson {
    OutcomeJson {
        bodyweight: outcome.bodyweight.map(|own| BodyweightJson { kg: kg(own.mass), date: own.date.to_string() }),
        lifts: outcome.lifts.iter().map(lift).collect(),
        others: outcome.others.iter().map(other).collect(),
        made: outcome.made,
        taken: outcome.taken,
        total_kg: outcome.total.ok().map(kg),
        no_total: outcome.total.err().map(|why| match why {
            NoTotal::NoAttempt => "attempt",
            NoTotal::RepsOnly(_) => "single",
            NoTotal::NoGoodAttempt(_) => "good attempt",
            NoTotal::NoMass(_) => "mass",
        }),
        formula: formula_word(outcome.formula),
        points: outcome.points.ok().map(|points| Number((points.points * 100.0).round() / 100.0)),
        no_points: outcome.points.err().map(|why| match why {
            NoPoints::Total => "total",
            NoPoints::Bodyweight => "bodyweight",
            NoPoints::Sex => "sex",
            NoPoints::Event => "event",
            NoPoints::TooLight => "heavier bodyweight",
        }),
        before: outcome.before.as_ref().map(|before| BeforeJson {
            title: before.title.clone(),
            date: before.date.to_string(),
            total_kg: before.total.map(kg),
            total_change_kg: before.change.map(kg),
        }),
    }
}

fn lift(lift: &LiftOutcome) -> LiftJson {
    LiftJson {
        competed: lift.competed.word(),
        lift: lift.lift.clone(),
        attempts: lift.attempts.iter().map(taken).collect(),
        best_kg: lift.best.map(kg),
        before_kg: lift.before.map(kg),
        change_kg: lift.change.map(kg),
        estimated: estimate(lift.estimated.as_ref()),
    }
}

fn taken(taken: &Taken) -> TakenJson {
    TakenJson {
        load: LoadJson::of(&taken.load, taken.kilograms),
        good: taken.good,
        faults: taken.faults.clone(),
        effort: effort(taken.effort),
        page: taken.place.page.to_string(),
        line: taken.place.line,
    }
}

fn other(other: &Other) -> OtherJson {
    OtherJson { lift: other.lift.clone(), mark: MarkJson::of(&other.mark) }
}
