//! What a page may not do to a terminal: move the cursor, hide text, or turn it round.

use std::borrow::Cow;

/// Whether a character may not be printed as it is: control characters, what sets the direction of
/// writing, and what takes no room and so hides what stands beside it.
pub(super) fn is_hostile(c: char) -> bool {
    c.is_control()
        || matches!(c, '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2060}'..='\u{206f}' | '\u{feff}' | '\u{061c}' | '\u{180e}' | '\u{fff9}'..='\u{fffb}' | '\u{e0000}'..='\u{e007f}')
}

/// The text with every such character spelled out, and tabs as blanks.
pub fn sanitize(text: &str) -> Cow<'_, str> {
    if text.bytes().all(|byte| matches!(byte, b' '..=b'~')) || !text.chars().any(is_hostile) {
        return Cow::Borrowed(text);
    }
    let mut out = String::with_capacity(text.len() + 16);
    for c in text.chars() {
        match c {
            '\t' => out.push(' '),
            c if is_hostile(c) => out.push_str(&format!("\\u{{{:x}}}", c as u32)),
            c => out.push(c),
        }
    }
    Cow::Owned(out)
}

#[cfg(test)]
mod tests {
    use super::sanitize;

    #[test]
    fn a_colour_in_a_lifts_name_is_spelled_out() {
        assert_eq!(sanitize("Squat\u{1b}[31m"), "Squat\\u{1b}[31m");
    }

    #[test]
    fn text_turned_round_is_spelled_out() {
        assert_eq!(sanitize("a\u{202e}b"), "a\\u{202e}b");
    }

    #[test]
    fn hidden_text_is_spelled_out() {
        assert_eq!(sanitize("a\u{200b}b\u{9b}2J"), "a\\u{200b}b\\u{9b}2J");
    }

    #[test]
    fn plain_text_is_left_alone() {
        assert_eq!(sanitize("Kniebeuge é × 120 kg"), "Kniebeuge é × 120 kg");
    }
}
