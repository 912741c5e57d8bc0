//! What an answer says, whoever shows it: a [`Doc`] is made once from the answer and rendered as text for a screen,
//! as HTML, or as Markdown.
//!
//! - `table.rs`: a table's columns and rows; `layout.rs`: how it gives way on a narrow screen; `stack.rs`: its rows over several lines
//! - `typeset.rs`: lines of text in roles; `breaks.rs`: where they may be broken
//! - `text.rs`, `html.rs`, `markdown.rs`: the renderers, which know no answer

mod breaks;
mod html;
mod layout;
mod markdown;
mod stack;
mod table;
#[cfg(test)]
mod tests;
mod text;
mod typeset;

pub(crate) use breaks::width;
pub use html::html;
pub use markdown::markdown;
use std::fmt::{self, Debug, Formatter};
use std::rc::Rc;
pub use text::text;
pub use typeset::Typeset;

pub(crate) use table::{Column, Table};

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

/// A piece of a line.
pub(crate) type Piece = (Role, String);

/// What an answer says, part after part.
#[derive(Clone, Debug, Default)]
pub struct Doc {
    pub(crate) parts: Vec<Part>,
}

/// A part of it.
#[derive(Clone, Debug)]
pub(crate) enum Part {
    /// A line. With an indent it is broken between words where a screen is too narrow, and its further lines begin with
    /// so many blanks; without one it is never broken.
    Line(Vec<Piece>, Option<usize>),
    /// Words with a place, or a like remark, beside them; below them, with an indent, where there is no
    /// room beside.
    Beside(Piece, Piece, usize),
    /// An empty line.
    Gap,
    /// A table.
    Table(Table),
    /// What stands only where the table before shows this column.
    IfShown(usize, Doc),
    /// What stands only where the table before has no room for this column.
    IfHidden(usize, Doc),
    /// What stands only on screens at least so wide, and on pages.
    Wide(usize, Doc),
    /// What stands in its place on screens narrower than that.
    Narrow(usize, Doc),
    /// Something drawn.
    Picture(Rc<dyn Picture>),
}

/// Something drawn: with characters on a screen, as a picture on a page.
pub(crate) trait Picture: Debug {
    /// Drawn for a screen of so many columns; nothing where it is too narrow.
    fn draw(&self, screen: usize) -> Typeset;

    /// Drawn for a page, the text of the picture with it; nothing where a page does without.
    fn html(&self) -> maud::Markup {
        maud::PreEscaped(String::new())
    }
}

/// What is drawn with characters only.
struct Sketch<F>(F);

impl<F> Debug for Sketch<F> {
    fn fmt(&self, f: &mut Formatter<'_>) -> fmt::Result {
        f.write_str("Sketch")
    }
}

impl<F: Fn(usize) -> Typeset> Picture for Sketch<F> {
    fn draw(&self, screen: usize) -> Typeset {
        (self.0)(screen)
    }
}

impl Doc {
    /// Nothing yet.
    pub fn new() -> Self {
        Doc::default()
    }

    /// Adds a line of one role that is never broken.
    pub(crate) fn line(&mut self, role: Role, text: impl Into<String>) {
        self.pieces(vec![(role, text.into())]);
    }

    /// Adds a line of several pieces that is never broken.
    pub(crate) fn pieces(&mut self, pieces: Vec<Piece>) {
        self.parts.push(Part::Line(pieces, None));
    }

    /// Adds text of one role that may be broken between words; lines after the first begin with `indent` blanks.
    pub(crate) fn wrapped(&mut self, role: Role, text: impl Into<String>, indent: usize) {
        self.parts.push(Part::Line(vec![(role, text.into())], Some(indent)));
    }

    /// Adds words, and what stands beside them where there is room.
    pub(crate) fn beside(&mut self, words: Piece, place: Piece, indent: usize) {
        self.parts.push(Part::Beside(words, place, indent));
    }

    /// Adds an empty line.
    pub(crate) fn gap(&mut self) {
        self.parts.push(Part::Gap);
    }

    /// Adds a table; one without rows is left out.
    pub(crate) fn table(&mut self, table: Table) {
        self.parts.push(Part::Table(table));
    }

    /// Adds what stands only where the table before shows a column.
    pub(crate) fn if_shown(&mut self, column: usize, doc: Doc) {
        self.parts.push(Part::IfShown(column, doc));
    }

    /// Adds what stands only where the table before has no room for a column.
    pub(crate) fn if_hidden(&mut self, column: usize, doc: Doc) {
        self.parts.push(Part::IfHidden(column, doc));
    }

    /// Adds one thing for screens at least so wide, and for pages, and another for narrower screens.
    pub(crate) fn by_width(&mut self, wide: usize, doc: Doc, narrow: Doc) {
        self.parts.push(Part::Wide(wide, doc));
        self.parts.push(Part::Narrow(wide, narrow));
    }

    /// Adds what is drawn with characters for the screen's width, and left out of pages.
    pub(crate) fn sketch(&mut self, draw: impl Fn(usize) -> Typeset + 'static) {
        self.picture(Sketch(draw));
    }

    /// A table by itself.
    pub(crate) fn of(table: Table) -> Doc {
        Doc { parts: vec![Part::Table(table)] }
    }

    /// Adds something drawn.
    pub(crate) fn picture(&mut self, picture: impl Picture + 'static) {
        self.parts.push(Part::Picture(Rc::new(picture)));
    }

    /// Adds the parts of another.
    pub(crate) fn append(&mut self, other: Doc) {
        self.parts.extend(other.parts);
    }
}
