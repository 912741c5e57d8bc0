//! What can be wrong with a journal: kinds as data, words in one place. No text rendering here.
//!
//! - `problem_kind.rs`: every kind, its stable name, its severity, and what it costs
//! - `words.rs`: every message, in the lifter's words
//! - `problem.rs`: a kind at a place, with the fix where there is one
//! - `count.rs`: how many there are
//! - `nearest.rs`: "did you mean": the nearest of the names there are

mod count;
mod nearest;
mod problem;
mod problem_kind;
mod words;

pub use count::Count;
pub use nearest::{distance, nearest};
pub use problem::{Choice, Problem, SHOWN};
pub use problem_kind::{Cost, Open, ProblemKind, Severity, Unread};
