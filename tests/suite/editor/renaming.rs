//! Another name for a lift, a label, a block: as edits over pages and settings.

use crate::support::editor::{Editor, applied};
use crate::support::journal::Journal;
use serde_json::json;
use std::fs;

const A: &str = "# Block winter\n\n- starts: 2026-11-02\n- max: Belt squat 180 kg\n\n## 2026-11-05 heavier day\n\n- Belt squat: 3x8 @ 100 kg\n- Plank: 60s\n";
const B: &str = "## 2026-11-24 heavier day, block winter\n\n- hip squat: 3x8 @ 100 kg\n- Leg press: 3x8 @ 100 kg\n  - instead of: Belt squat\n";
const SETTINGS: &str = "lifts:\n  - { name: Belt squat, family: squat, also: [hip squat] }\n";

/// Renames what stands at the cursor of page `b.md`; each file that changes as it is then, or why not.
fn renamed(b: &str, to: &str) -> Result<Vec<(String, String)>, String> {
    let journal = Journal::new().file("a.md", A).file("b.md", B).file("journal.yaml", SETTINGS);
    let mut editor = Editor::of(&journal);
    let edit = editor.at_with("textDocument/rename", "b.md", b, json!({ "newName": to }))?;
    let mut files: Vec<(String, String)> = Vec::new();
    for (address, edits) in edit["changes"].as_object().unwrap() {
        let name = address.rsplit('/').next().unwrap();
        files.push((name.to_owned(), applied(&fs::read_to_string(journal.root().join(name)).unwrap(), edits)));
    }
    files.sort();
    Ok(files)
}

fn file(name: &str, text: &str) -> (String, String) {
    (name.to_owned(), text.to_owned())
}

#[test]
fn a_lift_of_the_settings_is_renamed_everywhere() {
    let files = renamed(&B.replace("of: Belt", "of: ‸Belt"), "Chain squat").unwrap();
    let expected = [
        file("a.md", &A.replace("Belt", "Chain")),
        file("b.md", &B.replace("Belt", "Chain")),
        file("journal.yaml", &SETTINGS.replace("Belt", "Chain")),
    ];
    assert_eq!(files, expected);
}

#[test]
fn an_alias_is_renamed_without_its_lift() {
    let files = renamed(&B.replace("hip", "‸hip"), "cable squat").unwrap();
    assert_eq!(
        files,
        [file("b.md", &B.replace("hip", "cable")), file("journal.yaml", &SETTINGS.replace("hip", "cable"))]
    );
}

#[test]
fn two_lifts_never_become_one() {
    let why = renamed(&B.replace("of: Belt", "of: ‸Belt"), "Front squats").unwrap_err();
    assert_eq!(why, "Front squats is Front squat already; the two would become one lift");
    let why = renamed(&B.replace("Leg press", "Leg‸ press"), "Belt squat").unwrap_err();
    assert_eq!(why, "Belt squat is Belt squat already; the two would become one lift");
}

#[test]
fn a_name_that_could_not_be_read_is_refused() {
    let why = renamed(&B.replace("Leg press", "Leg‸ press"), "Leg: press").unwrap_err();
    assert!(why.starts_with("`Leg: press` cannot be the name of a lift"), "{why}");
}

#[test]
fn a_lift_of_the_book_takes_its_family_along() {
    let files = renamed(&B.replace("Leg press", "Leg‸ press"), "Sled press").unwrap();
    let settings = SETTINGS.replace("lifts:\n", "lifts:\n  - { name: Sled press, family: squat }\n");
    assert_eq!(files, [file("b.md", &B.replace("Leg press", "Sled press")), file("journal.yaml", &settings)]);
}

#[test]
fn labels_and_blocks_are_renamed() {
    let files = renamed(&B.replace("heavier", "hea‸vier"), "heavy day").unwrap();
    assert_eq!(files, [file("a.md", &A.replace("heavier", "heavy")), file("b.md", &B.replace("heavier", "heavy"))]);
    let files = renamed(&B.replace("winter", "win‸ter"), "Block harbour").unwrap();
    assert_eq!(files, [file("a.md", &A.replace("winter", "harbour")), file("b.md", &B.replace("winter", "harbour"))]);
}
