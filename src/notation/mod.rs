//! The notation: text in, tree out. This room asks whether a page is well formed, never what it says: no
//! settings, no meaning of dates, no files.
//!
//! - `nodes.rs`: the tree's nodes, all of them slices of the page
//! - `reader.rs`: which kind each line is, line after line; what is prose
//! - `prose.rs`: front matter, code fences, comments: where they close
//! - `sections.rs`: a page in blocks and sessions
//! - `pieces.rs`: the lossless view: every byte of a page in exactly one piece
//! - `readings/`: lines as people really type them, given back in the notation
//! - `tidy/`: one spelling for what is read in several, as edits
//! - `grammar/`: the inside of a line, in nom, one file a thing
//!
//! Reading never fails: it gives a value and its problems.

mod grammar;
pub mod nodes;
mod pieces;
mod prose;
mod reader;
pub mod readings;
mod sections;
mod tidy;

pub use pieces::{Piece, PieceKind, pieces};
pub use reader::{Reader, read};
pub use sections::{Section, Sections, Title, sections};
pub use tidy::{Names, tidy};

/// A mass as settings write it, in thousandths, and its unit where one is written.
pub fn mass(text: &str) -> Option<(i64, Option<crate::training::Unit>)> {
    let (rest, number) = grammar::number::number(text).ok()?;
    match grammar::number::mass_unit(rest) {
        Ok(("", unit)) => Some((number.thousandths, Some(unit))),
        _ if rest.trim().is_empty() => Some((number.thousandths, None)),
        _ => None,
    }
}

/// A load by itself, such as a command line gives: the whole text is one.
///
/// # Errors
/// What is wrong with it.
pub fn load(text: &str) -> Result<nodes::Load<'_>, crate::problems::ProblemKind> {
    let unread = || crate::problems::ProblemKind::UnreadLoad { read: text.into() };
    match grammar::load::load(text) {
        Ok((rest, load)) if rest.trim().is_empty() => Ok(load),
        Ok(_) => Err(unread()),
        Err(error) => Err(grammar::trouble::trouble_of(error).map_or_else(unread, |trouble| trouble.kind)),
    }
}

/// A lift's name without a task box and emphasis round it.
pub(crate) fn bare_name(name: &str) -> &str {
    grammar::work::bare_name(name)
}
