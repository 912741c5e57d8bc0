//! Problems while typing: those of `check`.

use super::{editor, range};
use crate::support::editor::Editor;
use crate::support::journal::Journal;
use serde_json::{Value, json};

/// Problems as `range severity code: message`.
pub(crate) fn shown(problems: &[Value]) -> String {
    let line = |one: &Value| {
        format!(
            "{} {} {}: {}\n",
            range(&one["range"]),
            one["severity"],
            one["code"].as_str().unwrap(),
            one["message"].as_str().unwrap()
        )
    };
    problems.iter().map(line).collect()
}

#[test]
fn a_page_shows_what_check_says_of_it() {
    let (_journal, mut editor) = editor();
    editor.open("page.md", "## 2026-11-24 heavier day\n- Front squat: 3x8 @ 100 kg RPE 11\n");
    assert_eq!(
        shown(&editor.problems("page.md")),
        "1:28-1:34 1 unread-effort: `RPE 11` is not an RPE; it is a whole or half number from 1 to 10, or a range\n"
    );
    editor.change("page.md", "## 2026-11-24 heavier day\n- Front squat: 3x8 @ 100 kg RPE 8\n");
    assert_eq!(shown(&editor.problems("page.md")), "");
}

#[test]
fn parts_of_a_page_change_one_after_the_other() {
    let (_journal, mut editor) = editor();
    editor.open("page.md", "## 2026-11-24\r\n- Front squat: 3x8 @ 100 kg RPE 8 (é💪 fine)\r\n");
    let at = |line: u32, start: u32, end: u32, text: &str| json!({ "range": { "start": { "line": line, "character": start }, "end": { "line": line, "character": end } }, "text": text });
    // The second change counts from what the first one left, and past an emoji of two units.
    editor.edit("page.md", json!([at(1, 39, 43, "so"), at(1, 41, 41, ", RPE 12")]));
    assert_eq!(editor.of_page("textDocument/formatting", "page.md"), json!([]), "the page is as it was meant");
    editor.edit("page.md", json!([at(1, 32, 33, "12")]));
    assert_eq!(shown(&editor.problems("page.md")).lines().count(), 1);
}

#[test]
fn what_stands_elsewhere_is_named() {
    let journal = Journal::new().file("a.md", "## 2026-11-24\n- Front squat: 3x8 @ 100 kg\n");
    let mut editor = Editor::of(&journal);
    editor.open("b.md", "## 2026-11-24\n- Front squat: 3x8 @ 100 kg\n");
    let problems = editor.problems("b.md");
    let [twice] = problems.as_slice() else { panic!("{problems:#?}") };
    assert_eq!(twice["code"], "session-twice");
    let other = &twice["relatedInformation"][0]["location"];
    assert_eq!((other["uri"].as_str().unwrap(), range(&other["range"])), (&*editor.address("a.md"), "0:0-0:0".into()));
}

#[test]
fn settings_have_problems_too() {
    let (_journal, mut editor) = editor();
    editor.open("journal.yaml", "unit: kg\n");
    assert_eq!(
        shown(&editor.problems("journal.yaml")),
        "0:0-0:4 1 unknown-setting: no setting is called `unit`; perhaps units\n"
    );
    editor.change("journal.yaml", "units: kg\n");
    assert_eq!(shown(&editor.problems("journal.yaml")), "");
}

#[test]
fn settings_that_change_are_heard_on_open_pages() {
    let (_journal, mut editor) = editor();
    editor.open("page.md", "## 2026-11-24\n- Front squat: 3x8 @ blue bar\n");
    assert!(shown(&editor.problems("page.md")).contains("blue bar"), "{}", shown(&editor.problems("page.md")));
    editor.open("journal.yaml", "gear: { bars: { blue bar: 20 kg } }\n");
    assert_eq!(shown(&editor.problems("page.md")), "");
}

#[test]
fn a_page_saved_by_another_program_is_taken_in() {
    let journal = Journal::new().file("a.md", "## 2026-11-24\n- Front squat: 3x8 @ 100 kg\n");
    let mut editor = Editor::of(&journal);
    editor.open("b.md", "## 2026-11-24\n- Front squat: 3x8 @ 100 kg\n");
    assert_eq!(editor.problems("b.md").len(), 1);
    let journal = journal.file("a.md", "## 2026-11-23\n- Front squat: 3x8 @ 100 kg\n");
    let changes = json!({ "changes": [{ "uri": editor.address("a.md"), "type": 2 }] });
    editor.tell("workspace/didChangeWatchedFiles", changes);
    assert_eq!(editor.problems("b.md").len(), 0);
    drop(journal);
}

#[test]
fn a_page_of_no_journal_is_left_alone() {
    let folder = tempfile::tempdir().unwrap();
    let mut editor = Editor::with(folder.path(), json!({}), json!({}));
    editor.open("notes.md", "## 2026-11-24\n- Front squat: 3x8 @ 100 kg RPE 11\n");
    assert_eq!(editor.problems("notes.md").len(), 0);
    assert_eq!(editor.told.len(), 0, "nothing at all is told");
    assert_eq!(editor.of_page("textDocument/formatting", "notes.md"), Value::Null);
}

#[test]
fn each_of_two_journals_has_its_own_settings() {
    let folder = tempfile::tempdir().unwrap();
    for (name, settings) in [("one", "gear: { bars: { blue bar: 20 kg } }\n"), ("two", "")] {
        std::fs::create_dir(folder.path().join(name)).unwrap();
        std::fs::write(folder.path().join(name).join("journal.yaml"), settings).unwrap();
    }
    let mut editor = Editor::with(folder.path(), json!({}), json!({}));
    for page in ["one/a.md", "two/a.md"] {
        editor.open(page, "## 2026-11-24\n- Front squat: 3x8 @ blue bar\n");
    }
    assert_eq!((editor.problems("one/a.md").len(), editor.problems("two/a.md").len()), (0, 1));
}

#[test]
fn problems_can_be_turned_off_and_lead_to_their_section() {
    let journal = Journal::new();
    let off = json!({ "problems": false });
    let mut editor = Editor::with(journal.root(), json!({}), off);
    editor.open("page.md", "## 2026-11-24\n- Front squat: 3x8 RPE 11\n");
    assert_eq!(editor.problems("page.md").len(), 0);
    let on = json!({ "settings": { "loadline": { "docs": "https://example.org/problems.md" } } });
    editor.tell("workspace/didChangeConfiguration", on);
    let problems = editor.problems("page.md");
    assert_eq!(problems[0]["codeDescription"]["href"], "https://example.org/problems.md#unread-effort");
}

#[test]
fn an_editor_that_can_is_asked_to_tell_of_saves() {
    let journal = Journal::new();
    let watching = json!({ "workspace": { "didChangeWatchedFiles": { "dynamicRegistration": true } } });
    let mut editor = Editor::with(journal.root(), watching, json!({}));
    editor.problems("page.md");
    let asked = &editor.wanted[0]["registrations"][0];
    assert_eq!(asked["method"], "workspace/didChangeWatchedFiles");
    let globs: Vec<&str> = asked["registerOptions"]["watchers"]
        .as_array()
        .unwrap()
        .iter()
        .map(|one| one["globPattern"].as_str().unwrap())
        .collect();
    assert_eq!(globs, ["**/*.md", "**/journal.yaml", "**/lifter.yaml"]);
    drop(editor);
    let mut editor = Editor::of(&journal);
    editor.problems("page.md");
    assert_eq!(editor.wanted.len(), 0, "one that cannot is asked for nothing");
}
