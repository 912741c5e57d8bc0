//! One spelling, while typing.

use super::editor;
use crate::support::editor::{applied, marked};
use serde_json::json;

const LOOSE: &str = "## 2026-11-24\n-  front squats:  3X8@100kg\n- Bench press: 3x8@60\n";

#[test]
fn a_page_is_tidied_as_tidy_does() {
    let (journal, mut editor) = editor();
    editor.open("page.md", LOOSE);
    let tidied = applied(LOOSE, &editor.of_page("textDocument/formatting", "page.md"));
    assert_eq!(tidied, "## 2026-11-24\n- Front squat: 3x8 @ 100 kg\n- Bench press: 3x8 @ 60\n");
    let journal = journal.page(LOOSE);
    journal.run(&["tidy", "--write"]);
    assert_eq!(std::fs::read_to_string(journal.root().join("page.md")).unwrap(), tidied);
}

#[test]
fn only_the_lines_that_are_asked_for() {
    let (_journal, mut editor) = editor();
    let text = LOOSE.replace("- Bench", "- ‸Bench");
    let edits = editor.at_with(
        "textDocument/rangeFormatting",
        "page.md",
        &text,
        json!({ "options": { "tabSize": 2, "insertSpaces": true } }),
    );
    assert_eq!(
        applied(LOOSE, &edits.unwrap()),
        "## 2026-11-24\n-  front squats:  3X8@100kg\n- Bench press: 3x8 @ 60\n"
    );
}

#[test]
fn a_line_of_sets_goes_on_with_the_next() {
    let (_journal, mut editor) = editor();
    let text = "## 2026-11-24\n- Front squat:\n  - 8@100\n‸\n";
    let more = json!({ "ch": "\n", "options": { "tabSize": 2, "insertSpaces": true } });
    let edits = editor.at_with("textDocument/onTypeFormatting", "page.md", text, more).unwrap();
    assert_eq!(applied(&marked(text).0, &edits), "## 2026-11-24\n- Front squat:\n  - 8 @ 100\n  - \n");
}
