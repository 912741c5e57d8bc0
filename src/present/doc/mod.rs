//! What an answer says, whoever shows it: a [`Doc`] is made once from the answer and rendered as text for a screen,
//! as HTML, or as Markdown.
//!
//! - `table.rs`: a table's columns and rows; `layout.rs`: how it gives way on a narrow screen; `stack.rs`: its rows over several lines
//! - `typeset.rs`: lines of text in roles; `breaks.rs`: where they may be broken
//! - `links.rs`: what a page's links lead to
//! - `text.rs`, `html.rs`, `markdown.rs`: the renderers, which know no answer

mod breaks;
mod html;
mod layout;
mod links;
mod markdown;
mod stack;
mod table;
#[cfg(test)]
mod tests;
mod text;
mod typeset;

use crate::source::Place;
pub(crate) use breaks::width;
pub use html::html;
pub use links::Links;
pub use markdown::{Lead, link, linked, markdown};
use maud::Markup;
use std::fmt::Debug;
use std::rc::Rc;
pub(crate) use table::{Column, Table};
pub use text::text;
pub use typeset::Typeset;

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
    /// What stands on screens only: what to type for more, a sign before an item.
    Hint,
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
    /// A line; without breaks it is as long as it is, on any screen.
    Line(Vec<Piece>, Option<Breaks>),
    /// Words with places beside them; below them, with an indent, where there is no room beside.
    Beside(Piece, Vec<Place>, usize),
    /// Places behind a word.
    Places(Places),
    /// An empty line.
    Gap,
    /// A table.
    Table(Table),
    /// What stands only at times.
    If(When, Doc),
    /// What a page folds away behind a summary.
    Folded(String, Doc),
    /// Things of a kind, one after the other.
    List(Vec<Doc>),
    /// Things that a page has side by side where there is room.
    Sheets(Vec<Doc>),
    /// Things drawn, of one kind.
    Pictures(Vec<Rc<dyn Picture>>),
}

/// How a line is broken between words where a screen is too narrow.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Breaks {
    /// The lines after the first begin with so many blanks.
    pub(super) indent: usize,
    /// So many of its first pieces are never broken.
    pub(super) whole: usize,
}

/// When a part stands there.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum When {
    /// Where the table before shows this column.
    Shown(usize),
    /// Where the table before has no room for this column.
    Hidden(usize),
    /// On screens at least so wide, and on pages.
    Wide(usize),
    /// On screens narrower than that.
    Narrow(usize),
    /// On a page of HTML.
    OnPage,
    /// On a screen.
    OnScreen,
}

/// Places behind a word.
#[derive(Clone, Debug)]
pub(crate) struct Places {
    lead: String,
    places: Vec<Place>,
    /// How far further lines are indented.
    indent: usize,
    /// How many of them a screen names.
    most: usize,
}

/// Something drawn: with characters on a screen, as a picture on a page.
pub trait Picture: Debug {
    /// Drawn for a screen of so many columns; nothing where it is too narrow.
    fn draw(&self, screen: usize) -> Typeset;

    /// Drawn for a page, the text of the picture with it; nothing where a page does without.
    fn html(&self, _links: &Links) -> Markup {
        Markup::default()
    }

    /// What the signs of pictures of this kind mean on a page.
    fn key(&self) -> Markup {
        Markup::default()
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
        self.broken(vec![(role, text.into())], indent);
    }

    /// Adds pieces one after the other that may be broken between words.
    pub(crate) fn broken(&mut self, pieces: Vec<Piece>, indent: usize) {
        self.parts.push(Part::Line(pieces, Some(Breaks { indent, whole: 0 })));
    }

    /// The same behind a lead that is never broken: a place that is clicked on or copied.
    pub(crate) fn behind(&mut self, lead: Piece, pieces: Vec<Piece>, indent: usize) {
        let pieces = std::iter::once(lead).chain(pieces).collect();
        self.parts.push(Part::Line(pieces, Some(Breaks { indent, whole: 1 })));
    }

    /// Adds words, and their places beside them where there is room.
    pub(crate) fn beside<'p>(&mut self, words: Piece, places: impl IntoIterator<Item = &'p Place>, indent: usize) {
        self.parts.push(Part::Beside(words, places.into_iter().cloned().collect(), indent));
    }

    /// Adds places behind a word, of which a screen names so many.
    pub(crate) fn places<'p>(
        &mut self,
        lead: impl Into<String>,
        places: impl IntoIterator<Item = &'p Place>,
        indent: usize,
        most: usize,
    ) {
        let places = places.into_iter().cloned().collect();
        self.parts.push(Part::Places(Places { lead: lead.into(), places, indent, most }));
    }

    /// Adds an empty line.
    pub(crate) fn gap(&mut self) {
        self.parts.push(Part::Gap);
    }

    /// Adds a table; one without rows is left out.
    pub(crate) fn table(&mut self, table: Table) {
        self.parts.push(Part::Table(table));
    }

    /// Adds what stands only at times.
    pub(crate) fn only(&mut self, when: When, doc: Doc) {
        self.parts.push(Part::If(when, doc));
    }

    /// Adds what a page folds away behind a summary.
    pub(crate) fn folded(&mut self, summary: impl Into<String>, doc: Doc) {
        self.parts.push(Part::Folded(summary.into(), doc));
    }

    /// Adds things of a kind, one after the other.
    pub(crate) fn list(&mut self, items: Vec<Doc>) {
        self.parts.push(Part::List(items));
    }

    /// Adds things that a page has side by side.
    pub(crate) fn sheets(&mut self, sheets: Vec<Doc>) {
        self.parts.push(Part::Sheets(sheets));
    }

    /// A table by itself.
    pub(crate) fn of(table: Table) -> Doc {
        Doc { parts: vec![Part::Table(table)] }
    }

    /// Adds something drawn.
    pub(crate) fn picture(&mut self, picture: impl Picture + 'static) {
        self.pictures([picture]);
    }

    /// Adds things drawn, of one kind.
    pub(crate) fn pictures<P: Picture + 'static>(&mut self, pictures: impl IntoIterator<Item = P>) {
        let shared = pictures.into_iter().map(|picture| Rc::new(picture) as Rc<dyn Picture>);
        self.parts.push(Part::Pictures(shared.collect()));
    }

    /// A title and what stands below it.
    pub(crate) fn titled(title: &str, below: Doc) -> Doc {
        let mut out = Doc::new();
        out.line(Role::Title, title);
        out.append(below);
        out
    }

    /// The beginning of what is said of one among several: a name, and the first words of it.
    pub(crate) fn section(name: &str, words: String) -> Doc {
        let mut out = Doc::new();
        out.broken(vec![(Role::Title, name.to_owned()), (Role::Plain, ": ".into()), (Role::Answer, words)], 2);
        out
    }

    /// Whether it says nothing.
    pub(crate) fn is_empty(&self) -> bool {
        self.parts.is_empty()
    }

    /// Adds the parts of another.
    pub(crate) fn append(&mut self, other: Doc) {
        self.parts.extend(other.parts);
    }
}
