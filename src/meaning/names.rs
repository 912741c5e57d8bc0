//! How a lift's name is spelled.

use crate::training::{LiftBook, fold};

/// A name as the settings or the lift book spell it. Another name of a lift stays, and so does a lift that no book has:
/// both only lose their odd blanks.
pub(super) fn spelling(book: &LiftBook, written: &str) -> Option<String> {
    let folded = fold(written);
    if written.contains("<!--") {
        return None;
    }
    let known = book.find_folded(&folded).filter(|entry| fold(&entry.name) == folded);
    let spelled =
        known.map_or_else(|| written.split_whitespace().collect::<Vec<_>>().join(" "), |entry| entry.name.clone());
    (fold(&spelled) == folded).then_some(spelled)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_spelled_as_in_the_book_and_other_names_stay() {
        let book = LiftBook::built_in();
        assert_eq!(spelling(&book, "Front <!-- low  bar --> squat"), None);
        for (written, spelled) in [
            ("front-squats", "Front squat"),
            ("FRONT  SQUAT", "Front squat"),
            ("Pull up", "Pull-up"),
            ("Farmer\u{2019}s carries", "Farmer's carry"),
            ("rdl", "rdl"),
            ("military  press", "military press"),
            ("Rope\u{a0}drag", "Rope drag"),
            ("Rope drags", "Rope drags"),
        ] {
            assert_eq!(spelling(&book, written).as_deref(), Some(spelled), "{written}");
        }
    }
}
