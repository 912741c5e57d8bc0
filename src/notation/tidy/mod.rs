//! One spelling for what is read in several: the edits that give a page its tidy one. Text in, edits out; nothing is
//! printed anew from values, so whatever is not named here stays byte for byte.
//!
//! - `page.rs`: a page's edits, line by line, and why a line is left alone
//! - `line.rs`: the edits of a line, by its kind
//! - `group.rs`: groups of sets, their parts put in order
//! - `heading.rs`, `value.rs`: headings; the values of facts and of a block's keys
//! - `spacing.rs`: what stands between: bullets, colons, gaps, line ends
//! - `spelling.rs`: one count, load, attribute, unit by itself
//! - `pen.rs`: the edits of a line, collected
//! - `same.rs`: whether two lines say the same

mod group;
mod heading;
mod line;
mod page;
mod pen;
mod same;
mod spacing;
mod spelling;
mod value;

pub(crate) use group::spelled;
pub use line::Names;
pub use page::tidy;
