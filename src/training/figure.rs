//! How quantities stand in JSON: each rounds itself, once, whichever answer it is a field of.

use super::{Amount, Distance, Effort, EffortGap, Load, Mass, Tonnage};
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::ser::SerializeStruct;
use serde::{Serialize, Serializer};
use std::borrow::Cow;

/// A plain number that is known to so many decimals: an average, a percentage, a chance.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
pub struct Figure<const DECIMALS: i32>(pub f64);

/// Percentages and averages.
pub type Hundredths = Figure<2>;
/// Chances.
pub type Thousandths = Figure<3>;

impl<const DECIMALS: i32> Figure<DECIMALS> {
    /// The number, rounded as it is shown.
    pub fn rounded(self) -> f64 {
        let unit = 10_f64.powi(DECIMALS);
        (self.0 * unit).round() / unit
    }
}

/// For `#[serde(serialize_with = "…")]` on a plain number that is known to the hundredth.
///
/// # Errors
/// The serializer's own.
pub fn hundredths<S: Serializer>(number: &f64, serializer: S) -> Result<S::Ok, S::Error> {
    Figure::<2>(*number).serialize(serializer)
}

/// A number without needless decimals: 120, 180.41.
fn number<S: Serializer>(number: f64, serializer: S) -> Result<S::Ok, S::Error> {
    if number.fract() == 0.0 && number.abs() < 1e15 {
        serializer.serialize_i64(number as i64)
    } else {
        serializer.serialize_f64(number)
    }
}

/// A quantity that is one number in JSON.
macro_rules! numbers {
    ($($type:ty: $value:expr, $words:literal;)+) => { $(
        impl Serialize for $type {
            fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                let value: fn(&$type) -> f64 = $value;
                number(value(self), serializer)
            }
        }

        impl JsonSchema for $type {
            fn inline_schema() -> bool {
                true
            }

            fn schema_name() -> Cow<'static, str> {
                stringify!($type).into()
            }

            fn json_schema(_: &mut SchemaGenerator) -> Schema {
                json_schema!({ "type": "number", "description": $words })
            }
        }
    )+ };
}

numbers! {
    Mass: |mass| mass.rounded_kg(), "Kilograms, to the hundredth.";
    Tonnage: |tonnage| tonnage.rounded_kg(), "Kilograms times reps, to the hundredth.";
    Distance: |distance| distance.rounded_metres(), "Metres, to the hundredth.";
    Effort: |effort| effort.value(), "A number on the RPE scale.";
    EffortGap: |gap| gap.value(), "Points on the RPE scale.";
    Figure<1>: |figure| figure.rounded(), "To the tenth.";
    Figure<2>: |figure| figure.rounded(), "To the hundredth.";
    Figure<3>: |figure| figure.rounded(), "To the thousandth.";
}

/// The three fields that an amount is in JSON, one of them known: for `#[serde(flatten)]`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default, Serialize, JsonSchema)]
pub struct AmountFields {
    /// Reps, where reps are counted.
    pub reps: Option<u32>,
    /// Seconds, where the time is counted.
    pub seconds: Option<u32>,
    /// Metres, where the way is counted.
    pub metres: Option<Distance>,
}

impl From<Option<Amount>> for AmountFields {
    fn from(amount: Option<Amount>) -> Self {
        let mut fields = AmountFields::default();
        match amount {
            Some(Amount::Reps(reps)) => fields.reps = Some(reps),
            Some(Amount::Seconds(seconds)) => fields.seconds = Some(seconds),
            Some(Amount::Metres(distance)) => fields.metres = Some(distance),
            None => {}
        }
        fields
    }
}

/// For `#[serde(flatten, serialize_with = "…")]` on an [`Amount`].
///
/// # Errors
/// The serializer's own.
pub fn amount<S: Serializer>(amount: &Amount, serializer: S) -> Result<S::Ok, S::Error> {
    AmountFields::from(Some(*amount)).serialize(serializer)
}

/// The same on an amount that may be unknown.
///
/// # Errors
/// The serializer's own.
pub fn known_amount<S: Serializer>(amount: &Option<Amount>, serializer: S) -> Result<S::Ok, S::Error> {
    AmountFields::from(*amount).serialize(serializer)
}

/// Amounts of one kind, set by set: plain numbers of reps, seconds or metres.
///
/// # Errors
/// The serializer's own.
pub fn amounts<S: Serializer>(amounts: &[Amount], serializer: S) -> Result<S::Ok, S::Error> {
    serializer.collect_seq(amounts.iter().map(|amount| match amount {
        Amount::Reps(number) | Amount::Seconds(number) => Number::Whole(*number),
        Amount::Metres(distance) => Number::Metres(*distance),
    }))
}

#[derive(Serialize)]
#[serde(untagged)]
enum Number {
    Whole(u32),
    Metres(Distance),
}

/// A load, and what it came to on its day.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Weighed {
    /// The load.
    pub load: Load,
    /// The load as a mass, with the bodyweight in force.
    pub kilograms: Option<Mass>,
}

impl std::ops::Deref for Weighed {
    type Target = Load;

    fn deref(&self) -> &Load {
        &self.load
    }
}

/// `null` for no load.
impl Serialize for Weighed {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let Some(text) = self.load.text() else { return serializer.serialize_none() };
        let mut load = serializer.serialize_struct("Load", 3)?;
        load.serialize_field("text", &text)?;
        load.serialize_field("kg", &self.kilograms)?;
        load.serialize_field("approximate", &self.load.is_approximate())?;
        load.end()
    }
}

impl JsonSchema for Weighed {
    fn schema_name() -> Cow<'static, str> {
        "Load".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "description": "A load; null where none is written.",
            "type": ["object", "null"],
            "properties": {
                "text": { "type": "string", "description": "As written, in the tidied spelling." },
                "kg": { "type": ["number", "null"], "description": "What it came to; null for pins, bands and an unknown bodyweight." },
                "approximate": { "type": "boolean", "description": "Whether it is written with a ~." },
            },
            "required": ["text", "kg", "approximate"],
        })
    }
}
