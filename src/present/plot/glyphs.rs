//! With which characters a plot is drawn.

use crate::present::doc::width;
use crate::present::sanitize;
use unicode_width::UnicodeWidthChar;

/// With which characters a plot is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Glyphs {
    /// Braille and blocks, for a terminal with UTF-8.
    Blocks,
    /// Plain ASCII, for any other.
    Ascii,
}

impl Glyphs {
    fn pick<T>(self, blocks: T, ascii: T) -> T {
        match self {
            Glyphs::Blocks => blocks,
            Glyphs::Ascii => ascii,
        }
    }

    /// The axis on the left, at a tick and between ticks.
    pub(super) fn side(self) -> (char, char) {
        self.pick(('┤', '│'), ('+', '|'))
    }

    /// The axis below: its corner, a tick, between ticks.
    pub(super) fn floor(self) -> (char, char, char) {
        self.pick(('└', '┬', '─'), ('+', '+', '-'))
    }

    /// Where a block starts.
    pub(super) fn rule(self) -> char {
        self.pick('┊', '|')
    }

    /// A test day and a meet.
    pub(super) fn events(self) -> (char, char) {
        self.pick(('◆', '★'), ('T', 'M'))
    }

    /// A date that is joined to no other.
    pub(super) fn alone(self) -> char {
        self.pick('●', 'o')
    }

    /// What is plotted, and its interval, for the legend.
    pub(super) fn curve(self) -> (&'static str, &'static str) {
        self.pick(("⣀⠤⠒", "⠡⠡"), ("***", ":::"))
    }

    /// A full cell of what is counted, and one of the part of it that is told apart.
    pub(crate) fn fills(self) -> (char, char) {
        self.pick(('█', '▒'), ('#', '='))
    }

    /// A cell that is filled from below by so many eighths; nothing for none. ASCII has whole cells only.
    pub(super) fn risen(self, eighths: usize) -> Option<char> {
        let blocks = [None, Some('▁'), Some('▂'), Some('▃'), Some('▄'), Some('▅'), Some('▆'), Some('▇'), Some('█')];
        self.part(&blocks, eighths)
    }

    /// A cell that is filled from the left.
    pub(super) fn grown(self, eighths: usize) -> Option<char> {
        let blocks = [None, Some('▏'), Some('▎'), Some('▍'), Some('▌'), Some('▋'), Some('▊'), Some('▉'), Some('█')];
        self.part(&blocks, eighths)
    }

    fn part(self, blocks: &[Option<char>; 9], eighths: usize) -> Option<char> {
        match self {
            Glyphs::Blocks => blocks.get(eighths.min(8)).copied().flatten(),
            Glyphs::Ascii => (eighths >= 4).then_some('#'),
        }
    }

    /// A text of the journal: nothing hostile in it, and for ASCII a `?` for every column of other letters.
    pub(crate) fn safe(self, text: &str) -> String {
        let text = sanitize(text);
        match self {
            Glyphs::Blocks => text.into_owned(),
            Glyphs::Ascii => {
                let ascii = |c: char| if c.is_ascii() { c.to_string() } else { "?".repeat(c.width().unwrap_or(1)) };
                text.chars().map(ascii).collect()
            }
        }
    }

    /// A text of the journal in so many columns at most; what is cut off leaves a `~`.
    pub(super) fn fitted(self, text: &str, columns: usize) -> String {
        let text = self.safe(text);
        if width(&text) <= columns {
            return text;
        }
        let mut out = String::new();
        for c in text.chars() {
            let longer = format!("{out}{c}");
            if width(&longer) + 1 > columns {
                break;
            }
            out = longer;
        }
        if columns > 0 {
            out.push('~');
        }
        out
    }

    /// Names of rows, all as wide as the widest with a blank behind it; and how wide that is. None takes more than a third of
    /// the screen.
    pub(super) fn names<'n>(self, names: impl Iterator<Item = &'n str>, screen: usize) -> (Vec<String>, usize) {
        let names: Vec<String> = names.map(|name| self.fitted(name, screen / 3)).collect();
        let room = names.iter().map(|name| width(name)).max().unwrap_or(0) + 1;
        let padded = names.into_iter().map(|name| {
            let blanks = room - width(&name);
            name + &" ".repeat(blanks)
        });
        (padded.collect(), room)
    }
}

#[cfg(test)]
mod tests {
    use super::{Glyphs, width};

    #[test]
    fn names_are_cut_by_columns_and_spelled_in_ascii() {
        assert_eq!(Glyphs::Blocks.fitted("Kräftigung", 6), "Kräft~");
        assert_eq!(Glyphs::Blocks.fitted("筋肥大", 5), "筋肥~");
        assert_eq!(Glyphs::Ascii.fitted("筋肥大", 6), "??????");
        assert_eq!(Glyphs::Ascii.fitted("a\u{1b}[2J", 20), "a\\u{1b}[2J");
        assert_eq!(Glyphs::Ascii.fitted("Block", 0), "");
        assert!(width(&Glyphs::Blocks.fitted("e\u{301}e\u{301}e\u{301}", 2)) <= 2);
    }
}
