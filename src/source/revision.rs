//! A page before and after.

use super::{Cut, Edit, Page, Span};

/// A page as it was read, and as it would be. Both have the same number of lines.
#[derive(Clone, Debug)]
pub struct Revision {
    /// As it was read.
    pub before: Page,
    /// As it would be.
    pub after: Page,
}

impl Revision {
    /// What changes, in order: the smallest edit of each line that does.
    pub fn edits(&self) -> Vec<Edit> {
        let mut edits = Vec::new();
        let mut start = 0;
        for (before, after) in self.before.text().split_inclusive('\n').zip(self.after.text().split_inclusive('\n')) {
            if before != after {
                edits.push(smallest(start, before, after));
            }
            start += before.len();
        }
        edits
    }
}

/// The edit of a line that leaves alone what both have at its beginning and its end.
fn smallest(start: usize, before: &str, after: &str) -> Edit {
    let alike = |pairs: &mut dyn Iterator<Item = (char, char)>| -> usize {
        pairs.take_while(|(one, other)| one == other).map(|(c, _)| c.len_utf8()).sum()
    };
    let head = alike(&mut before.chars().zip(after.chars()));
    let (one, other) = (before.tail(head), after.tail(head));
    let tail = alike(&mut one.chars().rev().zip(other.chars().rev()));
    let text = other.head(other.len() - tail);
    Edit::new(Span::new(start + head, start + before.len() - tail), text)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::source::apply;

    fn page(text: &[u8]) -> Page {
        Page::new("page.md", text.to_vec()).unwrap()
    }

    #[test]
    fn edits_are_the_smallest_of_each_line() {
        let revision = Revision {
            before: page("é 3x8@9\nsame\n– ×\r\nlast".as_bytes()),
            after: page("é 3x8 @ 9\nsame\n- x\r\nlast".as_bytes()),
        };
        let edits = revision.edits();
        let texts: Vec<&str> = edits.iter().map(|edit| edit.text.as_str()).collect();
        assert_eq!(texts, [" @ ", "- x"]);
        assert_eq!(apply(revision.before.text(), &edits).unwrap(), revision.after.text());
    }

    #[test]
    fn bytes_that_are_no_text_stay() {
        let before = page(b"a\xff\nb\n");
        let after = before.edited(&[Edit::new(Span::new(3, 4), "bee")]).unwrap();
        assert_eq!(after.bytes(), b"a\xff\nbee\n");
        let revision = Revision { before, after };
        assert_eq!(revision.edits(), [Edit::new(Span::new(4, 4), "ee")]);
    }
}
