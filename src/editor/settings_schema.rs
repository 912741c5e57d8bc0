//! The JSON Schemas of `journal.yaml` and `lifter.yaml`, for servers of YAML: made from the lists of keys and the words that the
//! settings are read by. What no schema can say, `check` says.

use crate::journal::{LIFTER_FILE, SETTINGS_FILE, habit_keys, setting_keys, taper_keys};
use crate::questions::review::RULES;
use crate::training::{CompetitionLift, Equipment, Family, Sex, Unit, Words};
use serde_json::{Map, Value, json};

/// Each schema by the stem of its file.
pub fn settings_schemas() -> Vec<(&'static str, String)> {
    [(SETTINGS_FILE, "journal.yaml"), (LIFTER_FILE, "lifter.yaml")]
        .into_iter()
        .map(|(path, name)| (name, of(path)))
        .collect()
}

fn of(path: &str) -> String {
    let schema = json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": path,
        "type": ["object", "null"],
        "additionalProperties": false,
        "properties": setting_keys(path).iter().map(|key| ((*key).to_owned(), value(key))).collect::<Map<String, Value>>(),
    });
    serde_json::to_string_pretty(&schema).unwrap_or_default() + "\n"
}

/// What a key takes.
fn value(key: &str) -> Value {
    match key {
        "units" => one_of(words::<Unit>()),
        "sex" => one_of(words::<Sex>()),
        "equipment" => one_of(words::<Equipment>()),
        "name" => json!({ "type": "string" }),
        "class" => json!({ "type": ["string", "number"] }),
        "high reps" => json!({ "type": "integer", "minimum": 1, "maximum": 100 }),
        "gear" => gear(),
        "gyms" => json!({ "type": ["object", "null"], "additionalProperties": gear() }),
        "lifts" => json!({ "type": ["array", "null"], "items": lift() }),
        "meet lifts" => keyed(words::<CompetitionLift>(), &json!({ "type": "string" })),
        "cautions" => keyed(RULES.iter().map(|rule| rule.name()), &json!({ "type": "number" })),
        "taper" => keyed(taper_keys(), &json!({ "type": ["string", "number"] })),
        "warm-up" => json!({ "type": ["object", "string", "boolean"] }),
        "exclude" => json!({ "type": ["array", "null"], "items": { "type": "string" } }),
        "habits" => keyed(habit_keys().iter().copied(), &json!({ "type": ["string", "object"] })),
        _ => json!({}),
    }
}

fn words<W: Words>() -> impl Iterator<Item = &'static str> {
    W::ALL.iter().map(|one| one.word())
}

fn one_of(words: impl Iterator<Item = &'static str>) -> Value {
    json!({ "enum": words.collect::<Vec<_>>() })
}

/// An object with these keys and no others; a caution's blanks may stand for hyphens.
fn keyed(keys: impl IntoIterator<Item = &'static str>, takes: &Value) -> Value {
    let spelled = |key: &'static str| [key.to_owned(), key.replace('-', " ")];
    let properties: Map<String, Value> = keys.into_iter().flat_map(spelled).map(|key| (key, takes.clone())).collect();
    json!({ "type": ["object", "null"], "additionalProperties": false, "properties": properties })
}

/// Masses are text with a unit, or a number in the journal's own.
fn gear() -> Value {
    let mass = json!({ "type": ["string", "number"] });
    let by_name = json!({ "type": ["object", "null"], "additionalProperties": mass });
    json!({
        "type": ["object", "null"],
        "additionalProperties": false,
        "properties": {
            "bars": by_name,
            "steps": by_name,
            "collars": mass,
            "plates": { "type": ["array", "null"], "items": {
                "type": "object",
                "required": ["mass"],
                "additionalProperties": false,
                "properties": { "mass": mass, "colour": { "type": "string" }, "pairs": { "type": "integer", "minimum": 0 } },
            } },
        },
    })
}

fn lift() -> Value {
    let is = json!({ "type": "boolean" });
    json!({
        "type": "object",
        "required": ["name"],
        "additionalProperties": false,
        "properties": {
            "name": { "type": "string" },
            "family": one_of(Family::ALL.iter().map(|family| family.word())),
            "also": { "type": "array", "items": { "type": "string" } },
            "bodyweight": is, "one side": is, "bar": is, "held": is, "carried": is,
        },
    })
}
