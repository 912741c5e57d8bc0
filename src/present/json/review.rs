//! `review` as JSON.

use super::shared::Number;
use crate::questions::review::{Answer, Caution, Rule};
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

fn caution(caution: &Caution) -> CautionJson {
    CautionJson {
        name: caution.name,
        date: caution.date.to_string(),
        about: caution.about.clone(),
        found: rounded(caution.found),
        threshold: Number(caution.threshold),
        unit: caution.unit,
        message: caution.message.clone(),
        places: caution.places.iter().map(|at| PlaceJson { page: at.page.to_string(), line: at.line }).collect(),
    }
}

/// The answer as JSON.
pub fn json(answer: &Answer) -> Review {
    Review {
        block: answer.block.clone(),
        on: answer.on.to_string(),
        cautions: answer.cautions.iter().map(caution).collect(),
    }
}

/// What a caution means, as JSON.
pub fn explain(rule: &Rule, in_force: Option<f64>) -> Explanation {
    let threshold = in_force.map(Number);
    Explanation { name: rule.name(), threshold, unit: rule.threshold.unit, text: rule.explanation() }
}
