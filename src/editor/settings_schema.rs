//! The JSON Schemas of `journal.yaml` and `lifter.yaml`, for servers of YAML: made from the lists of keys and the words that the
//! settings are read by. What no schema can say, `check` says.

use crate::journal::{
    GearKey, HabitKey, LIFTER_FILE, LiftKey, PlateKey, SETTINGS_FILE, SettingKey, setting_keys, taper_keys,
};
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
        "properties": properties(setting_keys(path), value),
    });
    serde_json::to_string_pretty(&schema).unwrap_or_default() + "\n"
}

/// Keys with what each takes.
fn properties<W: Words>(keys: impl IntoIterator<Item = W>, takes: fn(W) -> Value) -> Map<String, Value> {
    keys.into_iter().map(|key| (key.word().to_owned(), takes(key))).collect()
}

/// What a key takes.
fn value(key: SettingKey) -> Value {
    match key {
        SettingKey::Units => one_of(words::<Unit>()),
        SettingKey::Sex => one_of(words::<Sex>()),
        SettingKey::Equipment => one_of(words::<Equipment>()),
        SettingKey::Name => json!({ "type": "string" }),
        SettingKey::Class => json!({ "type": ["string", "number"] }),
        SettingKey::HighReps => json!({ "type": "integer", "minimum": 1, "maximum": 100 }),
        SettingKey::Gear => gear(),
        SettingKey::Gyms => json!({ "type": ["object", "null"], "additionalProperties": gear() }),
        SettingKey::Lifts => json!({ "type": ["array", "null"], "items": object(LiftKey::ALL, "name", of_lift) }),
        SettingKey::MeetLifts => keyed(words::<CompetitionLift>(), &json!({ "type": "string" })),
        SettingKey::Cautions => keyed(RULES.iter().map(|rule| rule.name()), &json!({ "type": "number" })),
        SettingKey::Taper => keyed(taper_keys(), &json!({ "type": ["string", "number"] })),
        SettingKey::WarmUp => json!({ "type": ["object", "string", "boolean"] }),
        SettingKey::Exclude => json!({ "type": ["array", "null"], "items": { "type": "string" } }),
        SettingKey::Habits => keyed(words::<HabitKey>(), &json!({ "type": ["string", "object"] })),
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

/// An object with these keys and no others, of which one must be there.
fn object<W: Words>(keys: impl IntoIterator<Item = W>, required: &str, takes: fn(W) -> Value) -> Value {
    json!({
        "type": "object",
        "required": [required],
        "additionalProperties": false,
        "properties": properties(keys, takes),
    })
}

/// Masses are text with a unit, or a number in the journal's own.
fn mass() -> Value {
    json!({ "type": ["string", "number"] })
}

fn gear() -> Value {
    json!({
        "type": ["object", "null"],
        "additionalProperties": false,
        "properties": properties(GearKey::ALL, of_gear),
    })
}

fn of_gear(key: GearKey) -> Value {
    match key {
        GearKey::Bars | GearKey::Steps => json!({ "type": ["object", "null"], "additionalProperties": mass() }),
        GearKey::Collars => mass(),
        GearKey::Plates => json!({ "type": ["array", "null"], "items": object(PlateKey::ALL, "mass", of_plate) }),
    }
}

fn of_plate(key: PlateKey) -> Value {
    match key {
        PlateKey::Mass => mass(),
        PlateKey::Colour => json!({ "type": "string" }),
        PlateKey::Pairs => json!({ "type": "integer", "minimum": 0 }),
    }
}

fn of_lift(key: LiftKey) -> Value {
    match key {
        LiftKey::Name => json!({ "type": "string" }),
        LiftKey::Family => one_of(words::<Family>()),
        LiftKey::Also => json!({ "type": "array", "items": { "type": "string" } }),
        LiftKey::Bodyweight | LiftKey::OneSide | LiftKey::Bar | LiftKey::Held | LiftKey::Carried => {
            json!({ "type": "boolean" })
        }
    }
}
