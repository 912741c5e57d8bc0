//! An effort that is expected, and may lie off the scale.

use crate::science::effort_scale;
use crate::science::strength::{Interval, Strength};
use crate::training::Effort;
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Serialize, Serializer};
use std::borrow::Cow;
use std::fmt;

/// An effort that may lie off the scale.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Rpe {
    /// Below RPE 5, where the scale names no reps in reserve.
    Light,
    /// On the scale, to the nearest half.
    Of(Effort),
    /// The reps would not all be made.
    Missed,
}

impl Rpe {
    /// To the nearest half, as the scale is: the one place where a foretold effort is rounded.
    pub(crate) fn of(rpe: f64) -> Rpe {
        let nearest = (rpe * 2.0).round() / 2.0;
        if nearest > 10.0 {
            return Rpe::Missed;
        }
        if nearest < effort_scale::LOWEST_RATED {
            return Rpe::Light;
        }
        let thousandths = (nearest * 1000.0) as i64;
        Rpe::Of(Effort::rpe(thousandths, thousandths))
    }

    /// As points to be held against others; half a point off the scale's end where it lies off it.
    pub(crate) fn points(self) -> f64 {
        match self {
            Rpe::Light => effort_scale::LOWEST_RATED - 0.5,
            Rpe::Of(effort) => effort.value(),
            Rpe::Missed => Effort::MAXIMAL.value() + 0.5,
        }
    }

    /// What this lifter will call a set that leaves so many reps.
    pub(crate) fn called(strength: &Strength, left: f64) -> Rpe {
        Rpe::of(10.0 - strength.said(left))
    }

    /// How hard so many reps with a load, everything lifted in kilograms, will be called as the first set of a day, with
    /// the ends of its 80 % interval; `None` where the reps to failure leave the equation's range.
    pub(crate) fn ahead(strength: &Strength, load: f64, reps: u32) -> Option<[Rpe; 3]> {
        let Interval { low, middle, high } = strength.in_one_attempt().reps_with(load)?;
        Some([high, middle, low].map(|to_failure| Rpe::called(strength, to_failure - f64::from(reps))))
    }
}

impl fmt::Display for Rpe {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Rpe::Light => f.write_str("under RPE 5"),
            Rpe::Of(effort) => effort.fmt(f),
            Rpe::Missed => f.write_str("over RPE 10"),
        }
    }
}

/// `null` below the scale, and 10 where the reps would not all be made.
impl Serialize for Rpe {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let effort = match self {
            Rpe::Light => None,
            Rpe::Of(effort) => Some(*effort),
            Rpe::Missed => Some(Effort::MAXIMAL),
        };
        effort.serialize(serializer)
    }
}

impl JsonSchema for Rpe {
    fn inline_schema() -> bool {
        true
    }

    fn schema_name() -> Cow<'static, str> {
        "Rpe".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "description": "An RPE; null below 5, where the scale names no number, and 10 where the reps would not all be made.",
            "type": ["number", "null"],
        })
    }
}
