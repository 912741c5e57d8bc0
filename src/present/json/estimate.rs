//! `estimate` as JSON.

use super::shared::{MarkJson, Number, effort, kg};
use crate::analysis::strength::course::Answer as Course;
use crate::questions::estimate::{Answer, Curve, Estimate, Rpe};
use serde::Serialize;

/// The answer.
#[derive(Clone, Debug, Serialize)]
pub struct EstimateJson {
    lift: String,
    on: String,
    est_max_kg: Option<Number>,
    low_kg: Option<Number>,
    high_kg: Option<Number>,
    equation: &'static str,
    curve: &'static str,
    curve_sets: u32,
    curve_family: Option<&'static str>,
    own_weight_kg: Option<Number>,
    evidence: Vec<Ground>,
    misses: Vec<MissGround>,
    blocks: Vec<BlockEnd>,
    table: Vec<Cell>,
    expected: Option<Expected>,
    unused: Unused,
    course: Option<super::course::CourseJson>,
    caution: &'static str,
}

#[derive(Clone, Debug, Serialize)]
struct Ground {
    #[serde(flatten)]
    mark: MarkJson,
    est_max_kg: Number,
    low_kg: Number,
    high_kg: Number,
    weak: bool,
}

#[derive(Clone, Debug, Serialize)]
struct MissGround {
    #[serde(flatten)]
    mark: MarkJson,
    below_kg: Number,
    made_kg: Option<Number>,
}

#[derive(Clone, Debug, Serialize)]
struct BlockEnd {
    block: String,
    date: String,
    est_max_kg: Number,
    low_kg: Number,
    high_kg: Number,
}

#[derive(Clone, Debug, Serialize)]
struct Cell {
    reps: u32,
    rpe: Option<Number>,
    kg: Option<Number>,
    loadable_kg: Option<Number>,
}

/// `null` below RPE 5; `missed` where the reps would not all be made, and then the effort is 10.
#[derive(Clone, Debug, Serialize)]
struct Expected {
    kg: Number,
    reps: Option<u32>,
    rpe: Option<Number>,
    reps_to_failure: Option<Number>,
    missed: bool,
}

#[derive(Clone, Debug, Serialize)]
struct Unused {
    without_effort: u32,
    too_light: u32,
    too_many_reps: u32,
    without_mass: u32,
}

/// The answer as JSON, with its course over dates where that was asked for.
pub fn json(answer: &Answer, course: Option<&Course>) -> EstimateJson {
    let (curve, curve_sets, curve_family) = match answer.curve {
        Curve::Published => ("published", 0, None),
        Curve::Lift(sets) => ("fitted", sets, None),
        Curve::Family(family, sets) => ("fitted", sets, Some(family.word())),
    };
    let of = |pick: fn(&Estimate) -> crate::training::Mass| answer.estimate.as_ref().map(|estimate| kg(pick(estimate)));
    EstimateJson {
        lift: answer.lift.clone(),
        on: answer.on.to_string(),
        est_max_kg: of(|estimate| estimate.maximum),
        low_kg: of(|estimate| estimate.low),
        high_kg: of(|estimate| estimate.high),
        equation: answer.equation.name(),
        curve,
        curve_sets,
        curve_family,
        own_weight_kg: answer.own_weight.map(kg),
        evidence: answer
            .evidence
            .iter()
            .map(|ground| Ground {
                mark: MarkJson::of(&ground.mark),
                est_max_kg: kg(ground.estimate.maximum),
                low_kg: kg(ground.estimate.low),
                high_kg: kg(ground.estimate.high),
                weak: ground.weak,
            })
            .collect(),
        misses: answer
            .misses
            .iter()
            .map(|missed| MissGround {
                mark: MarkJson::of(&missed.mark),
                below_kg: kg(missed.below),
                made_kg: missed.made.map(kg),
            })
            .collect(),
        blocks: answer
            .blocks
            .iter()
            .map(|end| BlockEnd {
                block: end.block.clone(),
                date: end.date.to_string(),
                est_max_kg: kg(end.estimate.maximum),
                low_kg: kg(end.estimate.low),
                high_kg: kg(end.estimate.high),
            })
            .collect(),
        table: answer
            .table
            .iter()
            .map(|cell| Cell {
                reps: cell.reps,
                rpe: effort(Some(cell.effort)),
                kg: cell.load.map(kg),
                loadable_kg: cell.loadable.map(kg),
            })
            .collect(),
        expected: answer.expected.map(|expected| Expected {
            kg: kg(expected.about.load),
            reps: expected.about.reps.or(expected.reps),
            rpe: match expected.effort {
                Some(Rpe::Of(known)) => effort(Some(known)),
                Some(Rpe::Missed) => effort(Some(crate::training::Effort::MAXIMAL)),
                Some(Rpe::Light) => None,
                None => effort(expected.about.effort),
            },
            reps_to_failure: expected.reps_to_failure.map(|reps| Number((reps * 10.0).round() / 10.0)),
            missed: expected.effort == Some(Rpe::Missed),
        }),
        unused: Unused {
            without_effort: answer.unused.without_effort,
            too_light: answer.unused.too_light,
            too_many_reps: answer.unused.too_many_reps,
            without_mass: answer.unused.without_mass,
        },
        course: course.map(super::course::CourseJson::of),
        caution: answer.caution,
    }
}
