//! Going about a journal: symbols, folds, where things come from, all marks of a lift.

use super::range;
use crate::support::editor::{Editor, marked};
use crate::support::journal::Journal;
use serde_json::{Value, json};

const BEFORE: &str = "# Block 1\n\n- starts: 2026-11-02\n\n## 2026-11-05 heavier day\n\n- Front squat: 3x8 @ 100 kg RPE 7\n  - setup: pin 14\n- Bench press: 3x8 @ 60 kg\n";

const HERE: &str = "## 2026-11-24 heavier day\n\n- Front squat: as planned RPE 8\n  - plan: 3x8 @ 102.5 kg RPE 8\n- Bench press: 3x8 @ blue bar\n";

fn editor() -> (Journal, Editor) {
    let journal = Journal::new().file("a.md", BEFORE).file("journal.yaml", "gear:\n  bars:\n    blue bar: 20 kg\n");
    let editor = Editor::of(&journal);
    (journal, editor)
}

/// The page and place of a location.
fn place(location: &Value) -> String {
    let uri = location["uri"].as_str().unwrap();
    format!("{} {}", uri.rsplit('/').next().unwrap(), range(&location["range"]))
}

#[test]
fn a_lift_leads_to_its_last_mark_before_this_one() {
    let (_journal, mut editor) = editor();
    let found = editor.at("textDocument/definition", "b.md", &HERE.replace("Front", "Fr‸ont"));
    assert_eq!(place(&found), "a.md 6:0-6:0");
}

#[test]
fn as_planned_leads_to_its_plan_and_a_bar_to_the_settings() {
    let (_journal, mut editor) = editor();
    let found = editor.at("textDocument/definition", "b.md", &HERE.replace("as planned", "as ‸planned"));
    assert_eq!(place(&found), "b.md 3:0-3:0");
    let found = editor.at("textDocument/definition", "b.md", &HERE.replace("blue bar", "bl‸ue bar"));
    assert_eq!(place(&found), "journal.yaml 2:0-2:0");
}

#[test]
fn all_marks_of_a_lift_are_named() {
    let (_journal, mut editor) = editor();
    let context = json!({ "context": { "includeDeclaration": true } });
    let found = editor.at_with("textDocument/references", "b.md", &HERE.replace("Front", "‸Front"), context).unwrap();
    let places: Vec<String> = found.as_array().unwrap().iter().map(place).collect();
    assert_eq!(places, ["a.md 6:2-6:13", "b.md 2:2-2:13"]);
    let here = editor.at("textDocument/documentHighlight", "b.md", &HERE.replace("Front", "‸Front"));
    assert_eq!(here.as_array().unwrap().iter().map(|one| range(&one["range"])).collect::<Vec<_>>(), ["2:2-2:13"]);
}

#[test]
fn a_page_has_an_outline() {
    fn lines(symbols: &Value, indent: usize, out: &mut String) {
        for symbol in symbols.as_array().into_iter().flatten() {
            let detail = symbol["detail"].as_str().map_or(String::new(), |detail| format!(" | {detail}"));
            out.push_str(&format!(
                "{}{}{detail} {}\n",
                " ".repeat(indent),
                symbol["name"].as_str().unwrap(),
                range(&symbol["range"])
            ));
            lines(&symbol["children"], indent + 2, out);
        }
    }
    let (_journal, mut editor) = editor();
    editor.open("a.md", BEFORE);
    let mut out = String::new();
    lines(&editor.of_page("textDocument/documentSymbol", "a.md"), 0, &mut out);
    assert_eq!(
        out,
        "Block 1 0:0-8:26\n  2026-11-05 heavier day 4:0-8:26\n    Front squat | 3x8 @ 100 kg RPE 7 6:0-7:17\n    Bench press | 3x8 @ 60 kg 8:0-8:26\n"
    );
    let folds = editor.of_page("textDocument/foldingRange", "a.md");
    let folds: Vec<String> =
        folds.as_array().unwrap().iter().map(|fold| format!("{}-{}", fold["startLine"], fold["endLine"])).collect();
    assert_eq!(folds, ["0-8", "4-8", "6-7"]);
}

#[test]
fn a_selection_grows_from_the_group_outwards() {
    let (_journal, mut editor) = editor();
    let (text, position) = marked(&BEFORE.replace("100 kg", "10‸0 kg"));
    editor.open("a.md", &text);
    let params = json!({ "textDocument": { "uri": editor.address("a.md") }, "positions": [position] });
    let found = editor.ask("textDocument/selectionRange", params).unwrap();
    let mut grown = Vec::new();
    let mut here = &found[0];
    while here.is_object() {
        grown.push(range(&here["range"]));
        here = &here["parent"];
    }
    assert_eq!(grown, ["6:21-6:27", "6:0-6:33", "6:0-7:17", "4:0-8:26", "0:0-8:26", "0:0-9:0"]);
}

#[test]
fn the_lifts_of_a_journal_are_symbols() {
    let (_journal, mut editor) = editor();
    let found = editor.ask("workspace/symbol", json!({ "query": "fsq" })).unwrap();
    assert_eq!(found, json!([]));
    let found = editor.ask("workspace/symbol", json!({ "query": "front s" })).unwrap();
    let symbol = &found[0];
    assert_eq!(
        (symbol["name"].as_str(), symbol["containerName"].as_str(), place(&symbol["location"])),
        (Some("Front squat"), Some("3x8 @ 100 kg RPE 7, 2026-11-05"), "a.md 6:0-6:0".to_owned())
    );
}
