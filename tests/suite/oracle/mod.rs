//! An independent witness: the rows of generated journals in SQLite, the questions asked there in SQL as
//! `docs/answers.md` puts them, and every answer of the program held against that.
//!
//! Nothing of the program's reader or index is on SQLite's side. A disagreement is a fault of one of the
//! two, so nothing here is rounded before it is compared but where `docs/answers.md` says so.
//!
//! - `witness.rs`: the rows in SQLite, and the questions in SQL
//! - `adherence.rs`: plans in SQLite, and what was done held against them
//! - `cautions.rs`: what `review` finds by counting
//! - `matching.rs`: two weeks lift by lift, as far as no estimate is needed
//! - `roster.rs`: journals of several lifters, one line each
//! - `shown.rs`: what answers say, in one shape for SQLite, the library and JSON
//! - `findings.rs`: where the two disagree
//! - `library.rs`: many journals, through the library
//! - `program.rs`: a few, through the program's JSON

mod adherence;
mod cautions;
mod findings;
mod library;
mod matching;
mod program;
mod roster;
mod shown;
mod witness;
