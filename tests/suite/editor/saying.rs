//! What is said of a thing, what stands behind a line, what can be written: in the words of the commands.

use super::range;
use crate::support::editor::{Editor, applied, marked};
use crate::support::journal::Journal;
use serde_json::{Value, json};

const BEFORE: &str = "# Block 1

- starts: 2026-10-26
- weeks: 4

## 2026-10-27 heavier day

- Front squat: 3x8 @ 100 kg RPE 7
  - setup: pin 14
- Bench press: 3x8 @ 60 kg RPE 7 !depth

## 2026-10-29 pull day

- Deadlift: 3x5 @ 140 kg RPE 7

# Block 2

- starts: 2026-11-23
- weeks: 4
- max: Deadlift 180 kg
";

fn editor() -> (Journal, Editor) {
    let journal = Journal::new().file("a.md", BEFORE);
    let editor = Editor::of(&journal);
    (journal, editor)
}

fn said(editor: &mut Editor, text: &str) -> String {
    let hover = editor.at("textDocument/hover", "b.md", text);
    hover["contents"]["value"].as_str().unwrap_or("nothing").to_owned()
}

#[test]
fn a_lift_says_what_was_written_of_it() {
    let (_journal, mut editor) = editor();
    let said = said(&mut editor, "## 2026-11-24 heavier day\n\n- Fr‸ont squat: 3x8 @ 102.5 kg\n");
    for part in ["Front squat", "did", "3x8 @ 100 kg RPE 7", "pin 14", "a.md:8", "estimated maximum", "best of 8 reps"]
    {
        assert!(said.contains(part), "{part}: {said}");
    }
}

/// Each place is a link to its line, where the editor shows Markdown.
#[test]
fn what_is_said_of_a_lift_leads_to_its_lines() {
    let journal = Journal::new().file("a (old).md", BEFORE);
    let shows = json!({ "textDocument": { "hover": { "contentFormat": ["markdown", "plaintext"] } } });
    let mut editor = Editor::with(journal.root(), shows, json!({}));
    let text = "## 2026-11-24 heavier day\n\n- Fr‸ont squat: 3x8 @ 102.5 kg\n";
    let said = said(&mut editor, text);
    let page = editor.address("a (old).md").replace('(', "%28").replace(')', "%29");
    let link = |line: u32| format!("[a (old).md:{line}]({page}#L{line})");
    let expected = [
        format!("best of 8 reps: 3x8 @ 102.5 kg, 2026-11-24 ([b.md:3]({}#L3))", editor.address("b.md")),
        format!("did     3x8 @ 100 kg RPE 7 (2026-10-27)\n\n{}", link(8)),
        format!("set-up  pin 14 (2026-10-27)\n\n{}", link(9)),
    ];
    for part in expected {
        assert!(said.contains(&part), "{part}: {said}");
    }
}

#[test]
fn a_load_says_its_plates_and_both_units() {
    let (_journal, mut editor) = editor();
    let said = said(&mut editor, "## 2026-11-24 heavier day\n\n- Front squat: 3x8 @ 10‸2.5 kg\n");
    for part in ["102.5 kg: 225.97 lb", "% of the estimated maximum", "25"] {
        assert!(said.contains(part), "{part}: {said}");
    }
}

#[test]
fn a_percentage_a_date_and_a_key_say_what_they_are() {
    let (_journal, mut editor) = editor();
    let percent = said(&mut editor, "## 2026-11-24 pull day\n\n- Deadlift: ‸3x5 @ 80%\n");
    assert_eq!(percent, "read as 3x5 @ 80 % (144 kg)");
    let date = said(&mut editor, "## 2026-11-‸24 pull day\n\n- Deadlift: 3x5 @ 80%\n");
    assert_eq!(date, "Tue 24 Nov, pull day; block 2, week 1 of 4");
    let key = said(&mut editor, "## 2026-11-24 pull day\n\n- Deadlift: 3x5 @ 80%\n  - se‸tup: belt\n");
    assert_eq!(key, "how the equipment stood");
}

/// Hints as `line:character text`.
fn hints(editor: &mut Editor, text: &str) -> Vec<String> {
    editor.open("b.md", text);
    let range = json!({ "start": { "line": 0, "character": 0 }, "end": { "line": 99, "character": 0 } });
    let params = json!({ "textDocument": { "uri": editor.address("b.md") }, "range": range });
    let hints = editor.ask("textDocument/inlayHint", params).unwrap();
    let one = |hint: &Value| {
        let at = &hint["position"];
        format!("{}:{} {}", at["line"], at["character"], hint["label"].as_str().unwrap())
    };
    hints.as_array().unwrap().iter().map(one).collect()
}

const WEEK: &str = "## 2026-11-24 heavier day\n\n- Front squat: 3x8 @ 102.5 kg RPE 7\n- Bench press: 3x8 @ bar + 2x20 kg\n\n## 2026-11-26 pull day\n\n- Deadlift:\n  - plan: 3x5 @ 80%\n";

#[test]
fn hints_say_what_match_and_session_say() {
    let (_journal, mut editor) = editor();
    let hints = hints(&mut editor, WEEK);
    assert_eq!(hints.len(), 3, "{hints:#?}");
    assert_eq!(hints[0], "2:35 ahead: was 3x8 @ 100 kg RPE 7");
    assert!(hints[1].starts_with("3:"), "{}", hints[1]);
    assert!(hints[2].starts_with("7:11 next set: 145 kg x 5"), "{}", hints[2]);
}

#[test]
fn each_kind_of_hint_has_its_switch() {
    let journal = Journal::new().file("a.md", BEFORE);
    let switches = json!({ "hints": { "verdict": false, "next": false } });
    let mut editor = Editor::with(journal.root(), json!({}), switches);
    assert_eq!(hints(&mut editor, WEEK), ["3:34 = 60 kg"]);
}

/// What can be written at the cursor: label, detail, and the line that comes of it.
fn offers(editor: &mut Editor, text: &str) -> Vec<(String, String, String)> {
    let found = editor.at("textDocument/completion", "b.md", text);
    let (text, position) = marked(text);
    let line = position["line"].as_u64().unwrap() as usize;
    let one = |item: &Value| {
        let left = applied(&text, &json!([item["textEdit"]]));
        (
            item["label"].as_str().unwrap().to_owned(),
            item["detail"].as_str().unwrap_or("").to_owned(),
            left.lines().nth(line).unwrap_or("").to_owned(),
        )
    };
    found["items"].as_array().unwrap().iter().map(one).collect()
}

#[test]
fn the_lifts_of_the_day_come_first() {
    let (_journal, mut editor) = editor();
    let found = offers(&mut editor, "## 2026-11-24 pull day\n\n- ‸\n");
    assert_eq!(found[0].0, "Deadlift", "{:#?}", &found[..5]);
    let found = offers(&mut editor, "## 2026-11-24 heavier day\n\n- fr‸\n");
    let expected = ("Front squat", "3x8 @ 100 kg RPE 7, 2026-10-27", "- Front squat: ");
    assert_eq!((found[0].0.as_str(), found[0].1.as_str(), found[0].2.as_str()), expected);
    let by_alias = offers(&mut editor, "## 2026-11-24 heavier day\n\n- rdl‸\n");
    assert_eq!(by_alias[0].2, "- Romanian deadlift: ");
}

#[test]
fn behind_the_colon_stand_whole_counts() {
    let (_journal, mut editor) = editor();
    let found = offers(&mut editor, "## 2026-11-24 heavier day\n\n- Front squat: ‸\n  - plan: 3x8 @ 105 kg RPE 8\n");
    let lines: Vec<(&str, &str)> = found.iter().take(3).map(|one| (one.1.as_str(), one.2.as_str())).collect();
    assert_eq!(lines[0], ("as planned", "- Front squat: 3x8 @ 105 kg RPE 8"));
    assert_eq!(lines[1], ("to beat: block 1 week 1", "- Front squat: 3x8 @ 100 kg RPE 7"));
}

#[test]
fn loads_bars_efforts_faults_and_keys_are_offered() {
    let (_journal, mut editor) = editor();
    let mut labels = |text: &str| offers(&mut editor, text).into_iter().map(|one| one.0).collect::<Vec<_>>();
    let loads = labels("## 2026-11-24 heavier day\n\n- Front squat: 3x8 @ ‸\n");
    assert!(loads.contains(&"100 kg".to_owned()) && loads.contains(&"bar".to_owned()), "{loads:?}");
    let efforts = labels("## 2026-11-24 heavier day\n\n- Front squat: 3x8 @ 100 kg RPE ‸\n  - plan: 3x8 RPE 7-8\n");
    assert_eq!(efforts, ["7", "8"]);
    let faults = labels("## 2026-11-24 heavier day\n\n- Bench press: 3x8 @ 60 kg !‸\n");
    assert!(faults.contains(&"depth".to_owned()), "{faults:?}");
    let keys = labels("## 2026-11-24 heavier day\n\n- Bench press: 3x8 @ 60 kg\n  - se‸\n");
    assert!(keys.contains(&"setup".to_owned()), "{keys:?}");
}

#[test]
fn the_load_that_there_is_room_for_is_offered() {
    let text = "## 2026-11-24 heavier day\n\n- Front squat: 3x8 @ 100 kg RPE 7\n\n## 2026-12-01 heavier day\n\n- Front squat: 3x8 @ ‸\n  - plan: 3x8 @ 95 kg\n";
    let (journal, mut editor) = editor();
    let found = offers(&mut editor, text);
    let room = found.iter().find(|one| one.1.starts_with("room for 8 reps at RPE ")).expect("an offer");
    // What `room` says of week 2.
    let journal = journal.file("b.md", text.replace('‸', ""));
    let said = journal.json(&["room", "Front squat"]);
    let week = said["weeks"].as_array().unwrap().iter().find(|week| week["week"] == 2).unwrap();
    assert_eq!(room.0, format!("{} kg", week["kg"].as_f64().unwrap()), "{said:#}");
}

#[test]
fn more_of_a_load_is_told_when_it_is_asked_for() {
    let (_journal, mut editor) = editor();
    let text = "## 2026-11-24 heavier day\n\n- Front squat: 3x8 @ ‸\n";
    let found = editor.at("textDocument/completion", "b.md", text);
    let item = found["items"].as_array().unwrap().iter().find(|item| item["label"] == "100 kg").unwrap().clone();
    assert_eq!(item["documentation"], Value::Null);
    let whole = editor.ask("completionItem/resolve", item).unwrap();
    let said = whole["documentation"]["value"].as_str().unwrap();
    assert!(said.contains("100 kg: 220.46 lb") && said.contains("each side"), "{said}");
}

#[test]
fn a_day_is_offered_with_the_label_that_is_next() {
    let (_journal, mut editor) = editor();
    let found = offers(&mut editor, "## ‸\n");
    assert_eq!(found[0].2, "## 2026-11-25 Wed heavier day", "{found:#?}");
    assert!(found[1].0.ends_with("with its lifts"), "{found:#?}");
}

#[test]
fn settings_have_their_keys() {
    let (_journal, mut editor) = editor();
    let found = editor.at("textDocument/completion", "journal.yaml", "un‸\n");
    assert_eq!(found["items"][0]["label"], "units");
    let found = editor.at("textDocument/completion", "journal.yaml", "lifts:\n  - { name: Row, family: hor‸ }\n");
    let labels: Vec<&str> =
        found["items"].as_array().unwrap().iter().map(|item| item["label"].as_str().unwrap()).collect();
    assert_eq!(labels, ["horizontal press", "horizontal pull"]);
}

#[test]
fn the_card_of_a_session_is_a_command() {
    let (_journal, mut editor) = editor();
    editor.open("b.md", WEEK);
    let arguments = json!([editor.address("b.md"), { "line": 7, "character": 0 }]);
    let card = editor.ask("workspace/executeCommand", json!({ "command": "loadline.session", "arguments": arguments }));
    assert!(card.as_ref().unwrap().as_str().unwrap().contains("Thu 26 Nov, pull day"), "{card:?}");
    let wrong = editor.ask("workspace/executeCommand", json!({ "command": "loadline.session", "arguments": [] }));
    assert_eq!(wrong.unwrap_err(), "loadline.session takes a page's address and a position");
}

#[test]
fn a_lens_stands_above_a_session_where_it_is_wanted() {
    let journal = Journal::new().file("a.md", BEFORE);
    let mut without = Editor::of(&journal);
    without.open("b.md", WEEK);
    assert_eq!(without.of_page("textDocument/codeLens", "b.md"), Value::Null);
    let mut editor = Editor::with(journal.root(), json!({}), json!({ "lens": true }));
    editor.open("b.md", WEEK);
    let lenses = editor.of_page("textDocument/codeLens", "b.md");
    let last = lenses.as_array().unwrap().last().unwrap();
    assert_eq!((range(&last["range"]), last["command"]["title"].as_str()), ("5:0-5:22".into(), Some("1 line to come")));
}

#[test]
fn a_page_has_colours_and_changes_of_them() {
    let (_journal, mut editor) = editor();
    editor.open("b.md", "## 2026-11-24\n\n- Front squat: 3x8 @ 100 kg RPE 7 (é💪)\n  - cue: up\n");
    let tokens = editor.of_page("textDocument/semanticTokens/full", "b.md");
    let numbers: Vec<u64> = tokens["data"].as_array().unwrap().iter().map(|one| one.as_u64().unwrap()).collect();
    let legend = editor.greeted["capabilities"]["semanticTokensProvider"]["legend"]["tokenTypes"].clone();
    let kinds: Vec<&str> = numbers.chunks(5).map(|five| legend[five[3] as usize].as_str().unwrap()).collect();
    assert_eq!(kinds, ["namespace", "class", "number", "parameter", "keyword", "comment", "property", "string"]);
    assert_eq!(&numbers[..10], [0, 0, 13, 0, 0, 2, 2, 11, 1, 0]);
    editor.change("b.md", "## 2026-11-24\n\n- Front squat: 13x8 @ 100 kg RPE 7 (é💪)\n  - cue: up\n");
    let params = json!({ "textDocument": { "uri": editor.address("b.md") }, "previousResultId": tokens["resultId"] });
    let changed = editor.ask("textDocument/semanticTokens/full/delta", params).unwrap();
    let mut patched = numbers;
    for edit in changed["edits"].as_array().unwrap() {
        let start = edit["start"].as_u64().unwrap() as usize;
        let end = start + edit["deleteCount"].as_u64().unwrap() as usize;
        let data = edit["data"].as_array().unwrap().iter().map(|one| one.as_u64().unwrap());
        patched.splice(start..end, data.collect::<Vec<_>>());
    }
    let whole = editor.of_page("textDocument/semanticTokens/full", "b.md");
    assert_eq!(json!(patched), whole["data"]);
}
