//! The schemas of the settings: kept in the docs, and true of every settings file that this project shows.

use loadline::editor::settings_schemas;
use serde_json::Value;
use std::fs;
use std::path::Path;

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

#[test]
fn schemas_of_settings_in_the_docs_are_those_of_the_keys() {
    for (name, text) in settings_schemas() {
        let path = root().join(format!("docs/schema/{name}.json"));
        if std::env::var_os("UPDATE_SNAPSHOTS").is_some() {
            fs::write(&path, &text).expect("a schema written");
        }
        let kept = fs::read_to_string(&path).unwrap_or_default();
        assert_eq!(kept, text, "docs/schema/{name}.json: write it anew with UPDATE_SNAPSHOTS=1 and read the diff");
    }
}

/// A settings file as JSON, whose keys are text.
fn as_json(text: &str) -> Value {
    fn of(value: serde_yaml::Value) -> Value {
        match value {
            serde_yaml::Value::Mapping(entries) => {
                let key = |key: serde_yaml::Value| match key {
                    serde_yaml::Value::String(text) => text,
                    other => serde_yaml::to_string(&other).unwrap().trim().to_owned(),
                };
                Value::Object(entries.into_iter().map(|(name, value)| (key(name), of(value))).collect())
            }
            serde_yaml::Value::Sequence(items) => Value::Array(items.into_iter().map(of).collect()),
            other => serde_json::to_value(other).unwrap(),
        }
    }
    of(serde_yaml::from_str(text).unwrap())
}

fn valid(name: &str, text: &str) -> bool {
    let schema = settings_schemas().into_iter().find(|(stem, _)| *stem == name).unwrap().1;
    let schema: Value = serde_json::from_str(&schema).unwrap();
    jsonschema::is_valid(&schema, &as_json(text))
}

#[test]
fn what_the_docs_and_the_example_show_is_accepted() {
    let example = root().join("journal-example");
    assert!(valid("journal.yaml", &fs::read_to_string(example.join("journal.yaml")).unwrap()));
    for lifter in ["lifter.yaml", "nerys/lifter.yaml"] {
        assert!(valid("lifter.yaml", &fs::read_to_string(example.join(lifter)).unwrap()), "{lifter}");
    }
    let notation = fs::read_to_string(root().join("docs/notation.md")).unwrap();
    let settings = notation.split("\n## Settings").nth(1).unwrap();
    let mut blocks = settings.split("```yaml\n").skip(1).map(|rest| rest.split("```").next().unwrap());
    assert!(valid("journal.yaml", blocks.next().unwrap()));
    assert!(valid("lifter.yaml", blocks.next().unwrap()));
}

#[test]
fn what_check_refuses_by_its_key_or_word_is_refused() {
    for wrong in [
        "unit: kg\n",
        "units: stone\n",
        "lifts: [{ name: A, family: squats }]\n",
        "high reps: 0\n",
        "gear: { bar: 20 kg }\n",
    ] {
        assert!(!valid("journal.yaml", wrong), "{wrong}");
    }
    assert!(!valid("journal.yaml", "sex: female\n"));
    assert!(valid("lifter.yaml", "sex: female\n"));
}
