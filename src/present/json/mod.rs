//! Answers as JSON, as `docs/answers.md` and `docs/schema/` fix it. The structs here are their own, so
//! that a rename inside cannot leak; a value that is not known is `null`, never left out.

pub mod adherence;
pub mod changes;
pub mod check;
pub mod draft;
pub mod export;
pub mod flatten;
pub mod import;
pub mod review;
pub mod roster;
mod shared;
pub mod taper;
pub mod tidy;

pub use shared::{Envelope, render};
