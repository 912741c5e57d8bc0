//! Text as it lies on disk. This room knows no lifting, no terminal and no JSON.
//!
//! - `page.rs`: a page's path and bytes; lines that are not UTF-8 stay, opaque
//! - `place.rs`: a line of a page, as answers name it
//! - `cut.rs`: pieces of a text at offsets that were counted in it
//! - `span.rs`: half-open byte ranges
//! - `lines.rs`: byte offset ↔ line and column
//! - `edit.rs`: a change of text: what to put in the place of which span
//! - `revision.rs`: a page before and after

mod cut;
mod edit;
mod lines;
mod page;
mod place;
mod revision;
mod span;

pub use cut::Cut;
pub use edit::{Edit, Overlap, apply};
pub use lines::{Lines, Position};
pub use page::{Page, PageId, TooLong};
pub use place::Place;
pub use revision::Revision;
pub use span::Span;
