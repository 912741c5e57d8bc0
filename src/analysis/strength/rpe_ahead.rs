//! An effort that is expected, and may lie off the scale.

use crate::science::effort_scale;
use crate::training::Effort;
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Serialize, Serializer};
use std::borrow::Cow;

/// An effort that may lie off the scale.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Rpe {
    /// Below RPE 5, where the scale names no reps in reserve.
    Light,
    /// On the scale, to the nearest quarter.
    Of(Effort),
    /// The reps would not all be made.
    Missed,
}

impl Rpe {
    /// To the nearest quarter.
    pub(crate) fn of(rpe: f64) -> Rpe {
        let nearest = (rpe * 4.0).round() / 4.0;
        if nearest > 10.0 {
            return Rpe::Missed;
        }
        if nearest < effort_scale::LOWEST_RATED {
            return Rpe::Light;
        }
        let thousandths = (nearest * 1000.0) as i64;
        Rpe::Of(Effort::rpe(thousandths, thousandths))
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
