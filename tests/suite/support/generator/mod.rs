//! Seeded journals, with the model they were written from.
//!
//! A model is made first: blocks, sessions, lifts, sets. It is written down twice: as pages in the notation,
//! and as plain rows, one for each set. The rows never pass through the program, so they can bear witness
//! against it. Shared with the benches, hence nothing here but `std` and `chrono`.
//!
//! - `shape.rs`: how large a journal is, and how wildly it is spelled
//! - `model.rs`: what was trained, before anything is written down
//! - `book.rs`, `gym.rs`: the lifts and the gym that it is trained with
//! - `block.rs`, `session.rs`, `work.rs`, `group.rs`, `load.rs`: each made and spelled
//! - `plan.rs`: what was to be done
//! - `team.rs`: several lifters in one journal
//! - `page.rs`: everything dealt out to pages
//! - `row.rs`: everything as rows
//! - `number.rs`, `random.rs`: the rows' units, and numbers drawn from a seed

mod block;
mod book;
mod group;
mod gym;
mod load;
mod model;
mod number;
mod page;
mod plan;
mod random;
mod row;
mod session;
mod shape;
mod team;
mod work;

#[allow(unused_imports, reason = "the tests and the benches use a part each")]
pub use number::{KG, METRE};
#[allow(unused_imports, reason = "the tests and the benches use a part each")]
pub use page::Journal;
#[allow(unused_imports, reason = "the tests and the benches use a part each")]
pub use random::Random;
#[allow(unused_imports, reason = "the tests and the benches use a part each")]
pub use row::WorkRow;
#[allow(unused_imports, reason = "the tests and the benches use a part each")]
pub use shape::{journal, lifetime, timed_journal};
#[allow(unused_imports, reason = "the tests and the benches use a part each")]
pub use team::{Member, Team, team};
