//! Strength from what was lifted: what one could lift once, how surely that is known, and how the lifter's own reps fall
//! off with load. Unlike the rest of this room, something is fitted here; `docs/science.md` has the model in words.
//!
//! - `day.rs`: a day's sets, and an interval
//! - `curve.rs`: how reps fall off with load, and all curves that are held possible
//! - `state.rs`: what is believed under one curve, and what evidence does to it
//! - `filter.rs`: strength followed through a lift's days, under all curves
//! - `belief.rs`: strength on a day, from all sets up to it; `lately.rs`: what was asked lately is kept

mod belief;
mod curve;
mod day;
mod filter;
mod lately;
mod state;

pub use belief::{Course, Curves, ExpectedCurve, Known, Maxima, Strength, Taught};
pub use day::{Day, End, Interval, Set};
pub use filter::{ONE_DAY, WEEKLY_DRIFT};
