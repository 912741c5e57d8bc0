//! `review` as JSON.

use super::shared::Number;
use crate::present::cautions;
use crate::questions::review::{Answer, Caution, Found, Name};
use crate::questions::room::Rpe;
use crate::training::Thresholds;
use serde::Serialize;

/// The answer.
#[derive(Clone, Debug, Serialize)]
pub struct Review {
    block: Option<String>,
    on: String,
    cautions: Vec<CautionJson>,
}

#[derive(Clone, Debug, Serialize)]
struct CautionJson {
    name: &'static str,
    date: String,
    about: Option<String>,
    found: Number,
    threshold: Number,
    unit: &'static str,
    message: String,
    places: Vec<PlaceJson>,
}

#[derive(Clone, Debug, Serialize)]
struct PlaceJson {
    page: String,
    line: u32,
}

/// What a caution means.
#[derive(Clone, Debug, Serialize)]
pub struct Explanation {
    name: &'static str,
    threshold: Option<Number>,
    unit: &'static str,
    text: Vec<String>,
}

fn rounded(value: f64) -> Number {
    Number((value * 100.0).round() / 100.0)
}

/// The figure that is held against the threshold.
fn figure(found: &Found) -> f64 {
    match found {
        Found::HighRepsMissing { weeks, .. } | Found::DeloadOverdue { weeks, .. } => *weeks as f64,
        Found::HighRepsNearMeet { days, .. } => *days as f64 / 7.0,
        Found::Overshoot { most, .. } | Found::GrossUndershoot { most, .. } => most.value(),
        Found::NoRoomLeft { effort: Rpe::Of(effort), .. } => effort.value(),
        // Over the end of the scale, or below what it names.
        Found::NoRoomLeft { effort: Rpe::Missed, .. } => 10.0,
        Found::NoRoomLeft { effort: Rpe::Light, .. } => 5.0,
        Found::LoadJump { percent, .. }
        | Found::HardSetsRise { percent, .. }
        | Found::PeakLighter { percent, .. }
        | Found::PeakCut { percent, .. }
        | Found::BlockBehind { percent, .. } => *percent,
        Found::HeavyDeadliftNearMeet { days, .. } | Found::PainAgain { days, .. } => *days as f64,
        Found::SameFault { sessions, .. } => *sessions as f64,
        Found::PlannedAndSkipped { weeks, .. } => *weeks as f64,
    }
}

fn caution(caution: &Caution, thresholds: &Thresholds) -> CautionJson {
    let name = caution.found.name();
    CautionJson {
        name: name.word(),
        date: caution.date.to_string(),
        about: cautions::about(&caution.found).map(str::to_owned),
        found: rounded(figure(&caution.found)),
        threshold: Number(name.threshold(thresholds)),
        unit: name.unit(),
        message: cautions::message(&caution.found),
        places: caution.places.iter().map(|at| PlaceJson { page: at.page.to_string(), line: at.line }).collect(),
    }
}

/// The answer as JSON.
pub fn json(answer: &Answer) -> Review {
    Review {
        block: answer.block.clone(),
        on: answer.on.to_string(),
        cautions: answer.cautions.iter().map(|one| caution(one, &answer.thresholds)).collect(),
    }
}

/// What a caution means, as JSON.
pub fn explain(name: Name, in_force: Option<f64>) -> Explanation {
    let threshold = in_force.map(Number);
    Explanation { name: name.word(), threshold, unit: name.unit(), text: cautions::explanation(name) }
}
