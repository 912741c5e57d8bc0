//! What stands round every answer in JSON, and the schema of the whole, made from the types of the answer.

use chrono::NaiveDate;
use schemars::generate::SchemaSettings;
use schemars::transform::{RecursiveTransform, Transform};
use schemars::{JsonSchema, Schema};
use serde::Serialize;
use serde_json::Value;

/// What every answer carries.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Envelope<'a, T: Serialize> {
    /// The lifter's name; null where the journal names nobody, or the answer is about several.
    pub lifter: Option<&'a str>,
    /// The day the answer is given for.
    pub today: NaiveDate,
    /// Lines that have an error that costs them.
    pub left_out: u32,
    /// Pages that could not be read; the answer lacks what they say.
    pub unread_pages: &'a [String],
    /// The answer.
    #[serde(flatten)]
    pub answer: T,
}

/// The answer as a text of JSON.
pub fn json<T: Serialize>(answer: &T) -> String {
    // Nothing that is serialized here has keys other than text, so this cannot fail.
    let mut text = serde_json::to_string_pretty(answer).unwrap_or_default();
    text.push('\n');
    text
}

/// The JSON Schema (draft 2020-12) of an answer in its envelope.
pub fn schema<T: Serialize + JsonSchema>(title: &str) -> String {
    let mut schema =
        SchemaSettings::draft2020_12().for_serialize().into_generator().into_root_schema_for::<Envelope<'static, T>>();
    RecursiveTransform(Closed).transform(&mut schema);
    schema.insert("title".into(), title.into());
    json(&schema)
}

/// No answer has a field that its schema does not name.
#[derive(Clone, Debug)]
struct Closed;

impl Transform for Closed {
    fn transform(&mut self, schema: &mut Schema) {
        let Some(object) = schema.as_object_mut() else { return };
        let is_object = object.get("type").is_some_and(|kind| {
            kind == "object" || kind.as_array().is_some_and(|kinds| kinds.contains(&Value::from("object")))
        });
        if is_object && object.contains_key("properties") && !object.contains_key("additionalProperties") {
            // What is chosen among several shapes closes with whichever is there.
            let split = ["anyOf", "oneOf", "allOf"].iter().any(|key| object.contains_key(*key));
            object.insert(if split { "unevaluatedProperties" } else { "additionalProperties" }.into(), false.into());
        }
    }
}
