//! Text in roles. Whoever writes an answer says what a piece is, never how it looks.

/// What a piece of text is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Role {
    /// Plain text.
    Plain,
    /// The answer itself.
    Answer,
    /// A heading or column title.
    Title,
    /// Better than before.
    Ahead,
    /// As before.
    Level,
    /// Worse than before.
    Behind,
    /// Where something stands, and other things one seldom reads.
    Place,
    /// An error.
    Error,
    /// A warning, or a caution.
    Caution,
    /// What a plot is of.
    Plot,
}

/// Lines of text in roles.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Markup {
    lines: Vec<Vec<(Role, String)>>,
}

impl Markup {
    /// Nothing yet.
    pub fn new() -> Self {
        Markup::default()
    }

    /// Adds a line of one role.
    pub fn line(&mut self, role: Role, text: impl Into<String>) {
        self.lines.push(vec![(role, text.into())]);
    }

    /// Adds a line of several pieces.
    pub fn pieces(&mut self, pieces: Vec<(Role, String)>) {
        self.lines.push(pieces);
    }

    /// Adds an empty line.
    pub fn gap(&mut self) {
        self.lines.push(Vec::new());
    }

    /// Adds text of one role, broken between words so that no line is wider than `width`; lines after the
    /// first begin with `indent` blanks, the first one with those of the text.
    pub fn wrapped(&mut self, role: Role, text: &str, width: usize, indent: usize) {
        let words = text.trim_start_matches(' ');
        let mut line = " ".repeat(text.len() - words.len());
        for word in super::breaks::atoms(words) {
            let room = super::breaks::width(&line) + 1 + super::breaks::width(&word) <= width;
            if !line.trim().is_empty() && !room {
                self.lines.push(vec![(role, std::mem::replace(&mut line, " ".repeat(indent)))]);
            } else if !line.trim().is_empty() {
                line.push(' ');
            }
            line.push_str(&word);
        }
        self.lines.push(vec![(role, line)]);
    }

    /// Adds the lines of another.
    pub fn append(&mut self, other: Markup) {
        self.lines.extend(other.lines);
    }

    /// The lines.
    pub(crate) fn lines(&self) -> &[Vec<(Role, String)>] {
        &self.lines
    }
}
