//! What a page says: trees and settings turned into values of `training`, and the problems that only
//! show then (blocks that overlap, a percentage without a maximum, more plates than the gym owns).
//! Notation asks "is it well formed?", meaning asks "what does it say?". No files are read here but
//! through `Files`, and nothing is answered.
//!
//! - `context.rs`: what the settings say, as reading needs it
//! - `page.rs`, `details.rs`, `block_keys.rs`, `open_dates.rs`, `page_log.rs`: one page, by itself, and what it says: pages
//!   are read side by side
//! - `found.rs`: the problems of a page: the first of them, and how many there are
//! - `loads.rs`, `groups.rs`: loads and sets; `planned.rs`: plans as values; `plans.rs`: `as planned`
//! - `gyms.rs`: sessions that are elsewhere than usual, and the gear there
//! - `typed.rs`: a load typed on a command line
//! - `blocks.rs`: the blocks of all pages
//! - `one_session.rs`: one session that is written in several places
//! - `join.rs`: all pages of a lifter as one log, made anew only where a page that changed touches it;
//!   `lift_numbers.rs`, `placing.rs`: which lifts are the same ones, sessions in their blocks
//! - `kept.rs`: pages that are read once and kept while others change; `kept_journal.rs`: a journal of such pages
//! - `lone.rs`: pages read without the rest of their journal
//! - `loose.rs`: lines as people type them: read, refused, or prose; `above.rs`: what their sets may belong to;
//!   `captions.rs`: what stands round them; `doubt.rs`: lines of the notation that may mean something else;
//!   `table_rows.rs`: rows; `back.rs`: their places before they were written anew
//! - `whole_log.rs`: warnings that need the whole log; only `check` asks for them
//! - `unit_jump.rs`: bare loads that jump by the factor of kilograms to pounds
//! - `trials.rs`: fixes tried out, so that none is offered that does not help
//! - `names.rs`, `tidy.rs`: how a lift's name is spelled; pages in one spelling, with fixes
//! - `hang.rs`: loads for plans that have none
//! - `shift.rs`: sessions and blocks on other days
//! - `merge.rs`: two versions of a page made one, section by section
//! - `read.rs`: the pages of a lifter, read on every core

mod above;
mod back;
mod block_keys;
mod blocks;
mod captions;
mod context;
mod details;
mod doubt;
mod found;
mod groups;
mod gyms;
mod hang;
mod join;
mod kept;
mod kept_journal;
mod lift_numbers;
mod loads;
mod lone;
mod loose;
mod merge;
mod names;
mod one_session;
mod open_dates;
mod page;
mod page_log;
mod placing;
mod planned;
mod plans;
mod read;
mod shift;
mod table_rows;
mod tidy;
mod trials;
mod typed;
mod unit_jump;
mod whole_log;

pub use hang::{OfPlan, hang};
pub use join::Reading;
pub use kept::Kept;
pub use kept_journal::KeptJournal;
pub use lone::{Lone, lone, tidied};
pub use merge::{ByLines, Merged, merge};
pub use page_log::Tally;
pub use read::{read, read_alone, read_telling_all};
pub use shift::{Keys, OfBlock, OfSession, shift};
pub use tidy::{Tidying, tidy};
pub use typed::{TypedLoad, typed_load};
