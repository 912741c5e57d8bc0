//! Answers as JSON, as `docs/answers.md` and `docs/schema/` fix it. The structs here are their own, so
//! that a rename inside cannot leak; a value that is not known is `null`, never left out.

mod course;
pub mod estimate;
pub mod history;
pub mod lifts;
pub mod meet;
pub mod plates;
pub mod recall;
pub mod review;
pub mod room;
mod shared;
pub mod volume;

pub use shared::{Envelope, render};
