//! Answers made readable. No sums, no file access: a number that is shown is a field of the answer.
//!
//! - `markup.rs`: text in roles (verdict, load, place); `paint.rs`: roles to a terminal or plain
//! - `sanitize.rs`: nothing from a page reaches a terminal unescaped
//! - `table.rs`: aligned columns that give way on a narrow screen; `breaks.rs`: where a text may be broken
//! - `wording.rs`: loads, sets, dates and counts in words
//! - `import.rs`: what came of a table
//! - `places.rs`: pages and lines, gathered by page
//! - `bar.rs`: one side of a loaded bar, drawn
//! - `plot/`: plots drawn with characters
//! - `problem.rs`: a problem with its line shown
//! - `pages/`: drafts as pages in the notation, and as calendars
//! - `rows/`: sets one by one, line by line
//! - `text/`, `json/`: one file a question each
//! - `html/`: reports as pages, with their plots

mod bar;
mod breaks;
pub mod html;
pub mod import;
pub mod json;
pub mod markup;
pub mod pages;
mod paint;
mod places;
pub mod plot;
pub mod problem;
pub mod rows;
mod sanitize;
mod table;
pub mod text;
pub mod wording;

pub use markup::{Markup, Role};
pub use paint::paint;
pub use sanitize::sanitize;

/// How wide the screen is that an answer is laid out for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Screen {
    /// Columns.
    pub width: usize,
}
