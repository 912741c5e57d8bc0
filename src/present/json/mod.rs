//! Answers as JSON, as `docs/answers.md` and `docs/schema/` fix it. The structs here are their own, so
//! that a rename inside cannot leak; a value that is not known is `null`, never left out.

pub mod review;
mod shared;

pub use shared::{Envelope, render};
