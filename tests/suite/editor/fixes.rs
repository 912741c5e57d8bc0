//! What mends a problem, as edits.

use super::editor;
use crate::support::editor::{Editor, applied, marked};
use crate::support::journal::Journal;
use serde_json::{Value, json};

/// Each action at the cursor, with the page or settings it leaves.
fn actions(editor: &mut Editor, text: &str, only: Value) -> Vec<(String, String)> {
    let more = json!({ "context": { "diagnostics": [], "only": only } });
    let found = editor.at_with("textDocument/codeAction", "page.md", text, more).unwrap();
    let (text, _) = marked(text);
    let left = |action: &Value| {
        let (address, edits) = action["edit"]["changes"].as_object().unwrap().iter().next().unwrap();
        let before = if address.ends_with("page.md") { text.clone() } else { String::new() };
        (action["title"].as_str().unwrap().to_owned(), applied(&before, edits))
    };
    found.as_array().unwrap().iter().map(left).collect()
}

#[test]
fn a_fix_is_an_edit() {
    let (_journal, mut editor) = editor();
    let text = "## 2026-11-24\n- Front squat: 3x8 @ 100 kg RPE ‸8-7\n";
    assert_eq!(
        actions(&mut editor, text, json!(["quickfix"])),
        [("Write `RPE 7-8`".to_owned(), "## 2026-11-24\n- Front squat: 3x8 @ 100 kg RPE 7-8\n".to_owned())]
    );
}

#[test]
fn what_only_the_lifter_can_tell_is_several() {
    let (_journal, mut editor) = editor();
    let found = actions(&mut editor, "## 2026-11-24\n‸Incline bench 60kg x 8 x 3\n", json!(["quickfix"]));
    let titles: Vec<&str> = found.iter().map(|(title, _)| title.as_str()).collect();
    assert_eq!(
        titles,
        [
            "Write `- Incline bench press: 3x8 @ 60 kg`: 3 sets of 8 at 60 kg",
            "Write `- Incline bench press: 8x3 @ 60 kg`: 8 sets of 3 at 60 kg"
        ]
    );
}

#[test]
fn a_lift_is_added_to_the_settings() {
    let journal = Journal::new();
    let mut editor = Editor::of(&journal);
    let found = actions(&mut editor, "## 2026-11-24\n‸Harbour wolk 3x8 60kg\n", json!(["quickfix"]));
    let added = found.iter().find(|(title, _)| title.starts_with("Add ")).expect("a lift to add");
    assert_eq!(added.0, "Add Harbour wolk to `lifts:` in journal.yaml");
    assert_eq!(added.1, "lifts:\n  - { name: Harbour wolk, family: other }\n");
}

#[test]
fn all_of_a_page_is_fixed_at_once() {
    let (_journal, mut editor) = editor();
    let text = "‸## 2026-11-24\n- Front squat: 3x8 @ 100 kg RPE 8-7\n- Bench press: 3x8 @ 60 kg RPE 7-6\n";
    let fixed = "## 2026-11-24\n- Front squat: 3x8 @ 100 kg RPE 7-8\n- Bench press: 3x8 @ 60 kg RPE 6-7\n";
    assert_eq!(
        actions(&mut editor, text, json!(["source.fixAll"])),
        [("Fix all that can be fixed on this page".to_owned(), fixed.to_owned())]
    );
    let text = text.replace('‸', "").replace("8-7", "8‸-7");
    let titles: Vec<String> = actions(&mut editor, &text, json!(["quickfix"])).into_iter().map(|one| one.0).collect();
    assert_eq!(titles, ["Write `RPE 7-8`", "Fix all 2 of reversed-effort on this page"]);
}
