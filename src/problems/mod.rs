//! What can be wrong with a journal: kinds as data, words in one place. No text rendering here.
//!
//! - `problem_kind.rs`: every kind, its stable name, its severity, and what it costs
//! - `words.rs`: every message, in the lifter's words
//! - `problem.rs`: a kind at a place, with the fix where there is one
//! - `nearest.rs`: "did you mean": the nearest of the names there are

mod nearest;
mod problem;
mod problem_kind;
mod words;

pub use nearest::{distance, nearest};
pub use problem::{Choice, Problem};
pub use problem_kind::{Cost, ProblemKind, Severity};
