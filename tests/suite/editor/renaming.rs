//! Another name for a lift, a label, a block: as edits over pages and settings.

use crate::support::editor::{Editor, applied};
use crate::support::journal::Journal;
use serde_json::json;
use std::fs;

const A: &str = "# Block winter\n\n- starts: 2026-11-02\n- max: Belt squat 180 kg\n\n## 2026-11-05 heavier day\n\n- Belt squat: 3x8 @ 100 kg\n- Plank: 60s\n";
const B: &str = "## 2026-11-24 heavier day, block winter\n\n- hip squat: 3x8 @ 100 kg\n- Leg press: 3x8 @ 100 kg\n  - instead of: Belt squat\n";
const SETTINGS: &str = "lifts:\n  - { name: Belt squat, family: squat, also: [hip squat] }\n";

/// Every file that an edit changes, as it is then, by its path below the root.
fn changed(journal: &Journal, edit: &serde_json::Value) -> Vec<(String, String)> {
    let root = url::Url::from_directory_path(journal.root().canonicalize().unwrap()).unwrap();
    let mut files: Vec<(String, String)> = Vec::new();
    for (address, edits) in edit["changes"].as_object().unwrap() {
        let name = address.strip_prefix(root.as_str()).unwrap();
        files.push((name.to_owned(), applied(&fs::read_to_string(journal.root().join(name)).unwrap(), edits)));
    }
    files.sort();
    files
}

/// Renames what stands at the cursor of page `b.md`; each file that changes as it is then, or why not.
fn renamed(b: &str, to: &str) -> Result<Vec<(String, String)>, String> {
    let journal = Journal::new().file("a.md", A).file("b.md", B).file("journal.yaml", SETTINGS);
    let mut editor = Editor::of(&journal);
    let edit = editor.at_with("textDocument/rename", "b.md", b, json!({ "newName": to }))?;
    Ok(changed(&journal, &edit))
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

const HERS: &str = "## 2026-11-24\n\n- Belt squat: 3x8 @ 100 kg\n- Leg press: 3x8 @ 150 kg\n";
const HIS: &str = "## 2026-11-23\n\n- Belt squat: 3x8 @ 90 kg\n- hip squat: 3x8 @ 80 kg\n";
const THEIRS: &str = "## 2026-11-23\n\n- Belt squat: 3x8 @ 90 kg\n";
const SHARED: &str =
    "gear: { steps: { Belt squat: 5 kg } }\nlifts:\n  - { name: Belt squat, family: squat, also: [hip squat] }\n";

/// Three lifters share the settings; the third has a lift of that name of her own.
fn squad() -> Journal {
    Journal::new()
        .file("journal.yaml", SHARED)
        .file("ada/lifter.yaml", "name: Ada\nmeet lifts: { squat: Belt squat }\n")
        .file("ada/b.md", HERS)
        .file("ben/lifter.yaml", "name: Ben\nmeet lifts:\n  squat: hip squat\n")
        .file("ben/b.md", HIS)
        .file("cleo/lifter.yaml", "lifts:\n  - { name: Belt squat, family: hinge }\n")
        .file("cleo/b.md", THEIRS)
}

fn renamed_in(journal: &Journal, page: &str, text: &str, to: &str) -> Result<Vec<(String, String)>, String> {
    let mut editor = Editor::of(journal);
    let edit = editor.at_with("textDocument/rename", page, text, json!({ "newName": to }))?;
    Ok(changed(journal, &edit))
}

#[test]
fn a_lift_that_lifters_share_is_renamed_for_each_of_them() {
    let files = renamed_in(&squad(), "ada/b.md", &HERS.replace("Belt", "‸Belt"), "Chain squat").unwrap();
    let expected = [
        file("ada/b.md", &HERS.replace("Belt", "Chain")),
        file("ada/lifter.yaml", "name: Ada\nmeet lifts: { squat: Chain squat }\n"),
        file("ben/b.md", &HIS.replace("Belt", "Chain")),
        file("journal.yaml", &SHARED.replace("Belt", "Chain")),
    ];
    assert_eq!(files, expected);
    let files = renamed_in(&squad(), "ben/b.md", &HIS.replace("hip", "‸hip"), "cable squat").unwrap();
    let expected = [
        file("ben/b.md", &HIS.replace("hip", "cable")),
        file("ben/lifter.yaml", "name: Ben\nmeet lifts:\n  squat: cable squat\n"),
        file("journal.yaml", &SHARED.replace("hip", "cable")),
    ];
    assert_eq!(files, expected);
}

#[test]
fn two_lifts_of_another_lifter_never_become_one() {
    let squad = squad().file("ben/c.md", "## 2026-11-24\n\n- Chain squat: 3x8 @ 100 kg\n");
    let why = renamed_in(&squad, "ada/b.md", &HERS.replace("Belt", "‸Belt"), "Chain squat").unwrap_err();
    assert_eq!(why, "Ben has a lift Chain squat already; the two would become one");
    let squad = squad.file("ben/lifter.yaml", "name: Ben\nlifts:\n  - { name: Rope squat, family: squat }\n");
    let why = renamed_in(&squad, "ada/b.md", &HERS.replace("Belt", "‸Belt"), "Rope squat").unwrap_err();
    assert_eq!(why, "Rope squat is Rope squat already for Ben; the two would become one lift");
}

#[test]
fn a_lift_of_one_lifter_leaves_the_others_alone() {
    let cleo = "lifts:\n  - { name: Belt squat, family: hinge }\n";
    let why = renamed_in(&squad(), "cleo/b.md", &THEIRS.replace("Belt", "‸Belt"), "Chain squat").unwrap_err();
    assert_eq!(
        why,
        "journal.yaml names this lift for all lifters, and only cleo's pages would be changed; write it in \
         cleo/lifter.yaml first"
    );
    let squad = squad().file("journal.yaml", SHARED.replace("gear: { steps: { Belt squat: 5 kg } }\n", ""));
    let files = renamed_in(&squad, "cleo/b.md", &THEIRS.replace("Belt", "‸Belt"), "Chain squat").unwrap();
    let expected =
        [file("cleo/b.md", &THEIRS.replace("Belt", "Chain")), file("cleo/lifter.yaml", &cleo.replace("Belt", "Chain"))];
    assert_eq!(files, expected);
    // One of the built-in book becomes a lift of hers.
    let files = renamed_in(&squad, "ada/b.md", &HERS.replace("Leg", "‸Leg"), "Sled press").unwrap();
    let hers = "name: Ada\nmeet lifts: { squat: Belt squat }\nlifts:\n  - { name: Sled press, family: squat }\n";
    assert_eq!(files, [file("ada/b.md", &HERS.replace("Leg", "Sled")), file("ada/lifter.yaml", hers)]);
}
