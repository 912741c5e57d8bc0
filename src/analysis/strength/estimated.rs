//! An estimated maximum as it is shown.

use crate::science::strength::Interval;
use crate::training::Mass;
use schemars::JsonSchema;
use serde::{Serialize, Serializer};

/// An estimated maximum with its 80 % interval, as a load: without the lifter's own weight where the lift's loads
/// contain it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Estimate {
    /// The estimate.
    #[serde(rename = "est_max_kg")]
    pub maximum: Mass,
    /// One chance in ten lies below.
    #[serde(rename = "low_kg")]
    pub low: Mass,
    /// One chance in ten lies above.
    #[serde(rename = "high_kg")]
    pub high: Mass,
}

/// The fields of an estimate that may be unknown: all three, or none.
#[derive(Clone, Copy, Debug, Serialize, JsonSchema)]
pub(crate) struct EstimateFields {
    /// The estimate.
    est_max_kg: Option<Mass>,
    /// One chance in ten lies below.
    low_kg: Option<Mass>,
    /// One chance in ten lies above.
    high_kg: Option<Mass>,
}

impl Estimate {
    /// For `#[serde(flatten, serialize_with = "…")]`: every field is null where the estimate is unknown.
    ///
    /// # Errors
    /// The serializer's own.
    pub fn or_null<S: Serializer>(estimate: &Option<Estimate>, serializer: S) -> Result<S::Ok, S::Error> {
        let each = |pick: fn(&Estimate) -> Mass| estimate.as_ref().map(pick);
        let [est_max_kg, low_kg, high_kg] = [each(|one| one.maximum), each(|one| one.low), each(|one| one.high)];
        EstimateFields { est_max_kg, low_kg, high_kg }.serialize(serializer)
    }

    /// For `#[serde(serialize_with = "…")]` where only the estimate itself is shown.
    ///
    /// # Errors
    /// The serializer's own.
    pub fn middle<S: Serializer>(estimate: &Option<Estimate>, serializer: S) -> Result<S::Ok, S::Error> {
        estimate.map(|estimate| estimate.maximum).serialize(serializer)
    }

    /// From an interval of everything lifted, in kilograms.
    pub(crate) fn of(interval: Interval, own: Option<Mass>) -> Option<Estimate> {
        let load = |kilograms: f64| Some(Mass::from_kilograms(kilograms)? - own.unwrap_or(Mass::ZERO));
        Some(Estimate { low: load(interval.low)?, maximum: load(interval.middle)?, high: load(interval.high)? })
    }
}
