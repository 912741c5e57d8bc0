//! What stands round every answer in JSON, and the schema of the whole, made from the types of the answer.

use super::sanitize::is_hostile;
use chrono::NaiveDate;
use schemars::JsonSchema;
use schemars::generate::SchemaSettings;
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
    let mut text = plain_json(serde_json::to_string_pretty(answer).unwrap_or_default());
    text.push('\n');
    text
}

/// Answers that are texts of JSON already, as a list.
pub fn list(answers: &[String]) -> String {
    let indented =
        |answer: &String| answer.trim_end().lines().map(|line| format!("  {line}")).collect::<Vec<_>>().join("\n");
    let answers: Vec<String> = answers.iter().map(indented).collect();
    if answers.is_empty() { "[]\n".into() } else { format!("[\n{}\n]\n", answers.join(",\n")) }
}

/// Spells out what a terminal might obey; JSON itself needs that of few characters. All of these stand within a text.
pub(crate) fn plain_json(text: String) -> String {
    let obeyed = |c: char| c != '\n' && is_hostile(c);
    if !text.chars().any(obeyed) {
        return text;
    }
    let mut plain = String::with_capacity(text.len() + 16);
    let mut units = [0; 2];
    for c in text.chars() {
        if obeyed(c) {
            plain.extend(c.encode_utf16(&mut units).iter().map(|unit| format!("\\u{unit:04x}")));
        } else {
            plain.push(c);
        }
    }
    plain
}

/// The JSON Schema (draft 2020-12) of an answer in its envelope.
pub fn schema<T: Serialize + JsonSchema>(title: &str) -> String {
    let generator = SchemaSettings::draft2020_12().for_serialize().into_generator();
    let mut schema = generator.into_root_schema_for::<Envelope<'static, T>>().to_value();
    close(&mut schema, true);
    if let Some(object) = schema.as_object_mut() {
        object.insert("title".into(), title.into());
    }
    json(&schema)
}

/// No answer has a field that its schema does not name: where one of several shapes is chosen, the whole is closed and
/// not each of them, be it written there or referred to.
fn close(schema: &mut Value, closes: bool) {
    let Some(object) = schema.as_object_mut() else { return };
    let chosen = object.contains_key("properties") && CHOICES.iter().any(|key| object.contains_key(*key));
    if closes && object.contains_key("properties") {
        object.insert(if chosen { "unevaluatedProperties" } else { "additionalProperties" }.into(), false.into());
    }
    let shapes = CHOICES.iter().filter_map(|key| object.get(*key)?.as_array()).flatten().filter(|_| chosen);
    let shapes: Vec<String> = shapes.filter_map(|shape| shape.get("$ref")?.as_str().map(str::to_owned)).collect();
    for (key, inner) in object.iter_mut() {
        match (key.as_str(), inner) {
            ("properties", Value::Object(named)) => named.values_mut().for_each(|one| close(one, true)),
            ("$defs", Value::Object(named)) => {
                named.iter_mut().for_each(|(name, one)| close(one, !shapes.contains(&format!("#/$defs/{name}"))));
            }
            ("anyOf" | "oneOf" | "allOf", Value::Array(all)) => all.iter_mut().for_each(|one| close(one, !chosen)),
            ("items", inner) => close(inner, true),
            _ => {}
        }
    }
}

/// Where a schema chooses among several.
const CHOICES: [&str; 3] = ["anyOf", "oneOf", "allOf"];
