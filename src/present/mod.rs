//! Answers made readable. No sums, no file access: a number that is shown is a field of the answer.
//!
//! - `doc/`: what an answer says, rendered as text, HTML or Markdown; `paint.rs`: roles to a terminal or plain
//! - `sanitize.rs`: nothing from a page reaches a terminal unescaped
//! - `wording.rs`: loads, sets, dates and counts in words
//! - `import.rs`: what came of a table; `notes.rs`: of notes
//! - `places.rs`: pages and lines, gathered by page
//! - `bar.rs`: one side of a loaded bar, drawn
//! - `drafted.rs`, `tidied.rs`: what `draft` makes, and what `tidy` changes
//! - `plot/`: plots drawn with characters
//! - `problem.rs`: a problem with its line shown
//! - `pages/`: drafts as pages in the notation, and as calendars
//! - `rows/`: sets one by one, line by line
//! - `view/`: what each answer says, one file a question; `envelope.rs`: what stands round every answer
//! - `html/`: reports as pages, with their plots

mod bar;
pub mod doc;
pub mod drafted;
pub mod envelope;
pub mod html;
pub mod import;
pub mod notes;
pub mod pages;
mod paint;
mod places;
pub mod plot;
pub mod problem;
pub mod rows;
mod sanitize;
pub mod tidied;
pub mod view;
pub mod wording;

pub use doc::{Doc, Role, Typeset};
pub use paint::paint;
pub use sanitize::sanitize;
