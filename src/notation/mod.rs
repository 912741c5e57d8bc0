//! The notation: text in, tree out. This room asks whether a page is well formed, never what it says: no
//! settings, no meaning of dates, no files.
//!
//! - `nodes.rs`: the tree's nodes, all of them slices of the page
//! - `reader.rs`, `bullet.rs`: which kind each line is, line after line; what is prose
//! - `expected.rs`, `places.rs`: what may stand at a place of a page
//! - `prose.rs`: front matter, code fences, comments: where they close
//! - `sections.rs`: a page in blocks and sessions
//! - `pieces.rs`: the lossless view: every byte of a page in exactly one piece
//! - `readings/`: lines as people really type them, given back in the notation
//! - `tidy/`: one spelling for what is read in several, as edits
//! - `grammar/`: the inside of a line, in nom, one file a thing
//!
//! Reading never fails: it gives a value and its problems.

mod bullet;
mod expected;
mod grammar;
pub mod nodes;
mod pieces;
mod places;
mod prose;
mod reader;
pub mod readings;
mod sections;
mod tidy;

pub use expected::{Expected, ExpectedSet};
pub use pieces::{Piece, PieceKind, pieces};
pub use places::expected_at;
pub use reader::{Reader, Standing, read};
pub use sections::{Section, Sections, Title, sections};
pub use tidy::{Names, tidy};

pub(crate) use grammar::lexer::{trim_start, without_end};
use grammar::tokens::lexed;

/// A mass as settings write it, in thousandths, and its unit where one is written.
pub fn mass(text: &str) -> Option<(i64, Option<crate::training::Unit>)> {
    use grammar::number::{mass_unit, number};
    use nom::combinator::{all_consuming, opt};
    lexed(text, |i| {
        let (_, (number, unit)) = nom::Parser::parse(&mut all_consuming((number, opt(mass_unit))), i).ok()?;
        Some((number.thousandths, unit))
    })
}

/// A load by itself, such as a command line gives: the whole text is one.
///
/// # Errors
/// What is wrong with it.
pub fn load(text: &str) -> Result<nodes::Load<'_>, crate::problems::ProblemKind> {
    let unread = || crate::problems::ProblemKind::UnreadLoad { read: text.into() };
    lexed(text, |i| match grammar::load::load(i) {
        Ok((rest, load)) if rest.is_empty() => Ok(load),
        Ok(_) => Err(unread()),
        Err(error) => Err(grammar::trouble::trouble_of(error).map_or_else(unread, |trouble| trouble.kind)),
    })
}

/// The places of a text's tokens, in order. Between them stands nothing but white space and closed comments.
pub fn tokens(text: &str) -> Vec<crate::source::Span> {
    lexed(text, |i| {
        let place = |token: grammar::lexer::Token| crate::source::Span { start: token.start, end: token.end };
        nom::Input::iter_elements(&i).map(place).collect()
    })
}

/// The words that a thing is, where there is a list of them: keys as they are spelled.
pub fn words_of(one: Expected) -> Vec<&'static str> {
    grammar::keys::words_of(one)
}

/// Whether a line begins with a bullet.
pub(crate) fn is_bullet(line: &str) -> bool {
    bullet::bullet(line).is_some()
}

/// A lift's name without a task box and emphasis round it.
pub(crate) fn bare_name(name: &str) -> &str {
    grammar::keys::bare_name(name)
}
