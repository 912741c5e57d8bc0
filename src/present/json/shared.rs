//! What several answers share: the envelope, marks, loads, numbers.

use crate::history::Mark;
use crate::training::{Amount, Effort, Load, Mass};
use serde::{Serialize, Serializer};

/// What every answer carries.
#[derive(Clone, Debug, Serialize)]
pub struct Envelope<T: Serialize> {
    /// The lifter's name.
    pub lifter: Option<String>,
    /// The day the answer is given for.
    pub today: String,
    /// Lines that have an error that costs them.
    pub left_out: u32,
    /// The answer.
    #[serde(flatten)]
    pub answer: T,
}

/// The answer as a text of JSON.
pub fn render<T: Serialize>(answer: &Envelope<T>) -> String {
    // Nothing that is serialized here has keys other than text, so this cannot fail.
    let mut text = serde_json::to_string_pretty(answer).unwrap_or_default();
    text.push('\n');
    text
}

/// A number without needless decimals: 120, 180.41.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Number(pub(crate) f64);

impl Serialize for Number {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        if self.0.fract() == 0.0 && self.0.abs() < 1e15 {
            serializer.serialize_i64(self.0 as i64)
        } else {
            serializer.serialize_f64(self.0)
        }
    }
}

/// Kilograms to the nearest hundredth.
pub(crate) fn kg(mass: Mass) -> Number {
    Number(mass.rounded_kg())
}

#[derive(Clone, Debug, Serialize)]
pub(crate) struct LoadJson {
    text: String,
    kg: Option<Number>,
    approximate: bool,
}

impl LoadJson {
    /// A load; nothing for no load.
    pub(crate) fn of(load: &Load, kilograms: Option<Mass>) -> Option<Self> {
        let text = load.text()?;
        Some(LoadJson { text, kg: kilograms.map(|mass| Number(mass.rounded_kg())), approximate: load.is_approximate() })
    }
}

/// Reps, seconds, or metres: one of them is known.
#[derive(Clone, Copy, Debug)]
pub(crate) struct AmountJson {
    pub(crate) reps: Option<u32>,
    pub(crate) seconds: Option<u32>,
    pub(crate) metres: Option<Number>,
}

impl AmountJson {
    pub(crate) fn of(amount: Option<Amount>) -> Self {
        let mut out = AmountJson { reps: None, seconds: None, metres: None };
        match amount {
            Some(Amount::Reps(reps)) => out.reps = Some(reps),
            Some(Amount::Seconds(seconds)) => out.seconds = Some(seconds),
            Some(Amount::Metres(distance)) => out.metres = Some(Number(distance.rounded_metres())),
            None => {}
        }
        out
    }
}

pub(crate) fn effort(effort: Option<Effort>) -> Option<Number> {
    effort.map(|effort| Number(effort.value()))
}

#[derive(Clone, Debug, Serialize)]
pub(crate) struct MarkJson {
    date: String,
    block: Option<String>,
    week: Option<u32>,
    day: Option<String>,
    sets: u32,
    reps: Option<u32>,
    seconds: Option<u32>,
    metres: Option<Number>,
    per_side: bool,
    load: Option<LoadJson>,
    effort: Option<Number>,
    faults: Vec<String>,
    page: String,
    line: u32,
}

impl MarkJson {
    pub(crate) fn of(mark: &Mark) -> Self {
        let amount = AmountJson::of(Some(mark.amount));
        MarkJson {
            date: mark.date.to_string(),
            block: mark.block.clone(),
            week: mark.week,
            day: mark.day.clone(),
            sets: mark.sets,
            reps: amount.reps,
            seconds: amount.seconds,
            metres: amount.metres,
            per_side: mark.per_side,
            load: LoadJson::of(&mark.load, mark.load.kilograms),
            effort: effort(mark.effort),
            faults: mark.faults.clone(),
            page: mark.place.page.to_string(),
            line: mark.place.line,
        }
    }
}
