//! Bytes to positions and back, in both units, held against a count that goes letter by letter.

use crate::support::editor::Editor;
use crate::support::journal::Journal;
use gen_lsp_types::Position;
use loadline::editor::{Encoding, Text};
use proptest::prelude::*;
use serde_json::json;

/// The position of a byte, counted letter by letter as the protocol describes it: a line ends with `\n`, `\r\n` or `\r`.
fn counted(text: &str, offset: usize, encoding: Encoding) -> Position {
    let (mut line, mut character, mut before) = (0, 0, ' ');
    for (at, c) in text.char_indices() {
        if before == '\n' || before == '\r' && c != '\n' {
            (line, character) = (line + 1, 0);
        }
        if at + c.len_utf8() > offset {
            return Position { line, character };
        }
        let is_mark = at == 0 && c == '\u{feff}';
        before = c;
        character += match encoding {
            _ if is_mark || c == '\n' || c == '\r' => 0,
            Encoding::Utf8 => c.len_utf8() as u32,
            Encoding::Utf16 => c.len_utf16() as u32,
        };
    }
    if before == '\n' || before == '\r' {
        (line, character) = (line + 1, 0);
    }
    Position { line, character }
}

proptest! {
    #[test]
    fn positions_are_those_of_a_slow_count(text in "\u{feff}?[aé×💪\r\n]{0,12}") {
        for encoding in [Encoding::Utf8, Encoding::Utf16] {
            let places = Text::of(&text, encoding);
            for (at, _) in text.char_indices().chain([(text.len(), ' ')]) {
                let position = places.position(at as u32);
                prop_assert_eq!(position, counted(&text, at, encoding), "{:?} at {}", text, at);
                let back = places.offset(position);
                // What a position cannot tell apart is the inside of a line end, and a mark that is not counted.
                prop_assert_eq!(places.position(back as u32), position);
                prop_assert!(text.is_char_boundary(back));
            }
        }
    }

    #[test]
    fn any_position_is_a_place(text in "[aé💪\r\n]{0,8}", line in 0u32..12, character in 0u32..12) {
        for encoding in [Encoding::Utf8, Encoding::Utf16] {
            let at = Text::of(&text, encoding).offset(Position { line, character });
            prop_assert!(text.is_char_boundary(at));
        }
    }
}

#[test]
fn bytes_are_counted_where_the_editor_knows_how() {
    let journal = Journal::new();
    let page = "## 2026-11-24\n- Front squat: 3x8 @ 100 kg (é💪) RPE 11\n";
    let column = |offered: serde_json::Value, agreed: &str| {
        let general = json!({ "general": { "positionEncodings": offered } });
        let mut editor = Editor::with(journal.root(), general, json!({}));
        assert_eq!(editor.greeted["capabilities"]["positionEncoding"], agreed);
        editor.open("page.md", page);
        editor.problems("page.md")[0]["range"]["start"]["character"].as_u64().unwrap()
    };
    let line = page.lines().nth(1).unwrap();
    let before = &line[..line.find("RPE").unwrap()];
    assert_eq!(column(json!(["utf-16", "utf-8"]), "utf-8"), before.len() as u64);
    assert_eq!(column(json!(["utf-32"]), "utf-16"), before.encode_utf16().count() as u64);
}
